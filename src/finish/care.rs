//! What the client is told when the top is handed over.

use super::SealKind;
use crate::measure::Date;
use crate::working::Source;

/// One line of the care sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CareLine {
    /// One or two sentences.
    pub says: String,
    /// Where they come from.
    pub source: Source,
}

/// How the maker finds out whether the seal holds. Common practice.
pub const WATERMARK_TEST: &str =
    "Leave a drop of water on the face for 10 min and wipe it off. If a dark ring stays, it wants another coat.";

/// The care sheet of a top that may be used from that day on.
pub fn care_sheet(kind: SealKind, cured: Date) -> Vec<CareLine> {
    let line = |says: &str| CareLine { says: says.to_owned(), source: Source::Practice };
    let by_kind = match kind {
        SealKind::Penetrating => [
            "The seal is in the concrete and slows stains down; it does not stop them. A mark may stay.",
            "Seal it anew when water no longer beads up; ask for the same sealer.",
        ],
        SealKind::Film => [
            "The seal is a thin film. A knife cuts it and a hot pan marks it: use a board and a trivet.",
            "If the film is scratched or dull, do not coat over it: ask first, old film may have to come off.",
        ],
    };
    let mut lines = vec![CareLine {
        says: format!("The seal hardens until {cured}. Keep water, weight and cleaners off until then."),
        source: Source::Typed,
    }];
    lines.extend(by_kind.map(line));
    lines.extend(
        [
            "Wipe up wine, oil, citrus, vinegar and coffee at once: acid etches concrete.",
            "Clean with water and a mild soap. No bleach, no vinegar, nothing that scours.",
            "Do not sit or stand on it, least of all beside the sink.",
            "Hairlines and changes of tone come with concrete and are not faults.",
        ]
        .map(line),
    );
    lines
        .push(line("To see whether the seal still holds, leave a drop of water for 10 min: no dark ring should stay."));
    lines
}
