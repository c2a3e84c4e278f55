//! What pour day wants said, before it is known which field it will be said at.

use crate::finding::{Finding, Stage, Strength};
use crate::job::Place;
use crate::working::Source;

/// A finding that has no place in the job yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// How much it weighs.
    pub strength: Strength,
    /// One sentence with the number and the limit.
    pub says: String,
    /// What to do about it, in one sentence.
    pub remedy: String,
    /// Where the limit comes from.
    pub source: Source,
}

impl Advice {
    /// The finding at that place of the job, on the Pour screen.
    pub fn at(self, place: Place) -> Finding {
        let Self { strength, says, remedy, source } = self;
        Finding { strength, stage: Stage::Pour, place, says, remedy, source }
    }
}
