//! Findings: what the maker should know about a job that can be read but may not go well.

use crate::job::FieldPath;
pub use crate::job::Stage;
use crate::working::{Label, Source};

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// This will fail.
    Stop,
    /// This is at the edge of good practice.
    Watch,
    /// Worth knowing.
    Note,
}

/// One thing the maker should know: where it comes from, the number and the limit, what to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it weighs.
    pub severity: Severity,
    /// The screen on which it is shown.
    pub stage: Stage,
    /// The part of the job that causes it.
    pub place: FieldPath,
    /// One sentence with the number and the limit: "Rail in front of sink 1 is 1 1/4 in wide; under
    /// 1 1/2 in it breaks."
    pub says: Label,
    /// What to do about it, in one sentence.
    pub remedy: Label,
    /// Where the limit comes from.
    pub source: Source,
}

/// Quantities as a sentence says them: a rounded one is "about 153 lb".
pub(crate) mod say {
    use crate::measure::{
        Length, Mass, Temperature, Time, Units, write_duration, write_length, write_mass, write_temperature,
    };

    pub(crate) fn length(value: Length, units: Units) -> String {
        write_length(value, units).about()
    }

    pub(crate) fn mass(value: Mass, units: Units) -> String {
        write_mass(value, units).about()
    }

    pub(crate) fn temperature(value: Temperature, units: Units) -> String {
        write_temperature(value, units).about()
    }

    pub(crate) fn duration(value: Time) -> String {
        write_duration(value).about()
    }
}
