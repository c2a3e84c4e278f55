//! What was typed and chosen of the loads on a piece and of what bears it, read once: the only file of the room that
//! knows which field a number stands in.

use crate::job::read::{self, optional, or_usual};
use crate::job::{
    Back, Carried, CutoutField, FieldPath, FormFace, HandlingField, Job, PieceKind, Rest, SinkBay, Stripped, Travels,
};
use crate::measure::{Length, Mass, Pressure, Quantity, Time, Units};
use crate::working::{Known, Label, Waiting};

/// What the check against cracking follows from for one piece, besides its geometry, its mix and its steel.
///
/// ```
/// use pourwright::job::{Job, Units};
/// use pourwright::measure::exact::pounds;
/// use pourwright::strength::{StrengthInputs, WhatBears};
///
/// let mut job = Job::new("an id", Units::Inch);
/// job.pieces[0].handling.suction = "25".into();
/// let typed = StrengthInputs::read(&job, 0);
/// assert_eq!(typed.suction, Ok(Some(0.25)));
/// assert_eq!(typed.person, Ok(pounds(300.0)), "the usual one, since that is blank");
/// assert!(matches!(typed.bears, WhatBears::Cabinet(_)));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// The system of units: the rules for hardened concrete are published in both, with factors that differ.
    pub units: Units,
    /// What it is: nothing but a top lies on a cabinet and is sat on.
    pub kind: PieceKind,
    /// The face of the form, which suction holds on to.
    pub face: FormFace,
    /// How it comes out of the form.
    pub stripped: Stripped,
    /// How it is carried.
    pub carried: Carried,
    /// How it travels.
    pub travels: Travels,
    /// The age at which it is carried and set; the usual one where that is blank.
    pub carried_at: Known<Time>,
    /// Flexural strength when it comes out of the form, as tested; by the rule of the code where that is blank.
    pub flexural: Known<Option<Pressure>>,
    /// What suction adds to its weight, as a share; by what the form has where that is blank.
    pub suction: Known<Option<f64>>,
    /// What a jolt adds to its weight as it is carried, as a share; the usual share where that is blank.
    pub jolt: Known<Option<f64>>,
    /// What a jolt adds to its weight in the van, as a share; the usual share where that is blank.
    pub van: Known<Option<f64>>,
    /// The push that drives out a knockout, as the mass that weighs as much; the usual one where that is blank.
    pub push: Known<Mass>,
    /// The person who sits on it; the usual one where that is blank.
    pub person: Known<Mass>,
    /// The bowls of its cutouts, in their order.
    pub bowls: Vec<BowlInputs>,
    /// What bears it where it is used.
    pub bears: WhatBears,
}

/// The bowl of one cutout.
#[derive(Clone, Debug, PartialEq)]
pub struct BowlInputs {
    /// Its depth; nothing where that is blank.
    pub depth: Known<Option<Length>>,
    /// The depth that counts where none is typed and the cutout has room for a bowl.
    pub usual_depth: Known<Length>,
    /// What it weighs empty; the usual mass where that is blank.
    pub mass: Known<Mass>,
}

/// What bears a piece where it is used. What is typed of the other is not read: it says nothing.
#[derive(Clone, Debug, PartialEq)]
pub enum WhatBears {
    /// A cabinet.
    Cabinet(CabinetInputs),
    /// Brackets on the wall, with a ledger or without one.
    Wall(BracketInputs),
}

/// The cabinet under a piece. Lengths are more than nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct CabinetInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// Width of its rails and sides, which bear in their middle; the usual width where that is blank.
    pub rail: Known<Option<Length>>,
    /// Width of the open bay under every cutout; a little wider than the cutout where that is blank.
    pub sink_bay: Known<Option<Length>>,
    /// What bears in front of a sink and behind it.
    pub bay: SinkBay,
    /// From the left end of the piece to a gap for an appliance; at the end where that is blank.
    pub gap_from: Known<Option<Length>>,
    /// Width of that gap; no gap where that is blank.
    pub gap_width: Known<Option<Length>>,
    /// How far the piece reaches over in front; the usual length where that is blank, and nobody sits out there.
    pub over_front: Known<Option<Length>>,
    /// How far it reaches over at its left end; it ends with the cabinet where that is blank.
    pub over_left: Known<Option<Length>>,
    /// How far it reaches over at its right end; it ends with the cabinet where that is blank.
    pub over_right: Known<Option<Length>>,
    /// How much lower the left half of the cabinet lies; no lower where that is blank.
    pub low_left: Known<Option<Length>>,
    /// The piece is fastened down along its back.
    pub fastened: bool,
}

/// The brackets under a piece. Lengths are more than nothing. What is blank is waited for, with what is usual: a
/// bracket that was assumed would hold nobody.
#[derive(Clone, Debug, PartialEq)]
pub struct BracketInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// A ledger along the wall bears as well.
    pub ledger: bool,
    /// The back of the piece is fastened down.
    pub fastened: bool,
    /// How many there are.
    pub count: Known<u32>,
    /// From an end of the piece to the bracket nearest to it; nothing at all, 0, is a length here.
    pub from_end: Known<Length>,
    /// How far they reach from the wall; nothing where that is blank, since what is usual follows from the depth.
    pub length: Known<Option<Length>>,
    /// From the topmost screw of a bracket to its foot.
    pub height: Known<Length>,
    /// Diameter of the screws.
    pub screw: Known<Length>,
    /// How far their threads bite into the stud.
    pub bite: Known<Length>,
}

impl StrengthInputs {
    /// Reads what the check against cracking follows from for the piece with that index.
    pub fn read(job: &Job, piece: usize) -> Self {
        let place = |field| FieldPath::Handling(piece, field);
        let share = |field| optional(job, place(field), read::percent);
        let typed = job.pieces.get(piece);
        let own = typed.map(|piece| piece.handling.clone()).unwrap_or_default();
        Self {
            piece,
            units: job.units,
            kind: typed.map(|piece| piece.kind).unwrap_or_default(),
            face: job.form.face,
            stripped: own.stripped,
            carried: own.carried,
            travels: own.travels,
            carried_at: or_usual(job, place(HandlingField::CarriedAt), read::positive_duration),
            flexural: optional(job, place(HandlingField::Flexural), read::positive_pressure),
            suction: share(HandlingField::Suction),
            jolt: share(HandlingField::Jolt),
            van: share(HandlingField::Van),
            push: or_usual(job, place(HandlingField::Push), read::positive_mass),
            person: or_usual(job, place(HandlingField::Person), read::positive_mass),
            bowls: (0..typed.map_or(0, |piece| piece.cutouts.len())).map(|cutout| bowl(job, piece, cutout)).collect(),
            bears: match own.rest {
                Rest::Cabinet => WhatBears::Cabinet(CabinetInputs::read(job, piece, own.bay, own.back)),
                Rest::Brackets => WhatBears::Wall(BracketInputs::read(job, piece, false, own.back)),
                Rest::LedgerAndBrackets => WhatBears::Wall(BracketInputs::read(job, piece, true, own.back)),
            },
        }
    }

    /// Waiting for a field of its handling.
    pub(super) fn waits_at(&self, field: HandlingField, says: impl Into<Label>) -> Waiting {
        Waiting::named(FieldPath::Handling(self.piece, field), says)
    }
}

fn bowl(job: &Job, piece: usize, cutout: usize) -> BowlInputs {
    let place = |field| FieldPath::Cutout(piece, cutout, field);
    BowlInputs {
        depth: optional(job, place(CutoutField::BowlDepth), read::length),
        usual_depth: read::usual(job, place(CutoutField::BowlDepth)),
        mass: or_usual(job, place(CutoutField::BowlWeight), read::mass),
    }
}

impl CabinetInputs {
    fn read(job: &Job, piece: usize, bay: SinkBay, back: Back) -> Self {
        let length = |field| optional(job, FieldPath::Handling(piece, field), read::positive_length);
        Self {
            piece,
            rail: length(HandlingField::CabinetRail),
            sink_bay: length(HandlingField::SinkBay),
            bay,
            gap_from: length(HandlingField::GapFrom),
            gap_width: length(HandlingField::GapWidth),
            over_front: length(HandlingField::Overhang),
            over_left: length(HandlingField::OverhangLeft),
            over_right: length(HandlingField::OverhangRight),
            low_left: length(HandlingField::LowLeft),
            fastened: back == Back::Fastened,
        }
    }
}

impl BracketInputs {
    fn read(job: &Job, piece: usize, ledger: bool, back: Back) -> Self {
        let place = |field| FieldPath::Handling(piece, field);
        let length =
            |field, says: &'static str| asked(job, FieldPath::Handling(piece, field), read::positive_length, says);
        Self {
            piece,
            ledger,
            fastened: back == Back::Fastened,
            count: asked(
                job,
                place(HandlingField::Brackets),
                read::count,
                "nothing is written here yet; one at every stud, {} apart, is usual.",
            ),
            from_end: asked(
                job,
                place(HandlingField::BracketFrom),
                read::length,
                "nothing is written here yet; {} is usual.",
            ),
            length: optional(job, place(HandlingField::BracketLength), read::positive_length),
            height: length(HandlingField::BracketHeight, "nothing is written here yet; measure it on the bracket."),
            screw: length(HandlingField::Screw, "nothing is written here yet; a lag screw of {} is usual."),
            bite: length(HandlingField::ScrewBite, "nothing is written here yet; {} of thread in the stud is usual."),
        }
    }

    /// Waiting for a field of the brackets.
    pub(super) fn waits_at(&self, field: HandlingField, says: impl Into<Label>) -> Waiting {
        Waiting::named(FieldPath::Handling(self.piece, field), says)
    }
}

/// What is typed there. Where it is blank that is waited for; `{}` stands for the length that the table has as usual.
fn asked<T>(job: &Job, place: FieldPath, reader: fn(&Job, FieldPath) -> Known<T>, says: &'static str) -> Known<T> {
    let usual = || {
        let [_, most] = place.spec().often?(job.units);
        Length::try_from(most).ok().map(Quantity::Length)
    };
    optional(job, place, reader)?.ok_or_else(|| Waiting::named(place, Label::with(says, usual())))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Units::{Inch, Metric};
    use crate::measure::exact::inches;

    /// What is asked for names what is usual in the units of the job, as the table has it.
    #[test]
    fn a_blank_bracket_is_waited_for_with_what_is_usual() {
        for (units, count, screw) in [(Inch, "16 in apart", "of 5/16 in"), (Metric, "400 mm apart", "of 8 mm")] {
            let mut job = Job::new("a", units);
            job.pieces[0].handling.rest = Rest::Brackets;
            let WhatBears::Wall(typed) = StrengthInputs::read(&job, 0).bears else { panic!("it hangs") };
            let says = |waiting: Option<Waiting>| waiting.expect("it is blank").needs()[0].write(&job);
            assert!(says(typed.count.err()).contains(count));
            assert!(says(typed.screw.err()).contains(screw));
            assert_eq!(typed.length, Ok(None), "what is usual of it follows from the depth of the piece");
        }
    }

    #[test]
    fn a_typed_bowl_and_a_blank_one_are_told_apart() {
        let mut job = Job::new("a", Inch);
        let cutout = crate::job::Cutout { bowl_depth: "0".into(), ..Default::default() };
        job.pieces[0].cutouts = vec![cutout, Default::default()];
        let [typed, blank] = &StrengthInputs::read(&job, 0).bowls[..] else { panic!("two cutouts") };
        assert_eq!((&typed.depth, &blank.depth), (&Ok(Some(Length::default())), &Ok(None)));
        assert_eq!(blank.usual_depth, Ok(inches(8.0)));
    }
}
