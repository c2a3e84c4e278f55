//! What pour day wants said, before it is known which field it will be said at.

use crate::finding::{Finding, Severity, Stage};
use crate::job::FieldPath;
use crate::working::Source;

/// A finding that has no place in the job yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// How much it weighs.
    pub severity: Severity,
    /// One sentence with the number and the limit.
    pub says: String,
    /// What to do about it, in one sentence.
    pub remedy: String,
    /// Where the limit comes from.
    pub source: Source,
}

impl Advice {
    /// The finding at that place of the job, on the Pour screen.
    pub fn at(self, place: FieldPath) -> Finding {
        let Self { severity, says, remedy, source } = self;
        Finding { severity, stage: Stage::Pour, place, says: says.into(), remedy: remedy.into(), source }
    }
}
