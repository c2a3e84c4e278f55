//! Findings: what the maker should know about a job that can be read but may not go well.

use crate::job::FieldPath;
pub use crate::job::Stage;
use crate::working::Source;

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
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Finding {
    /// How much it weighs.
    pub severity: Severity,
    /// The screen on which it is shown.
    pub stage: Stage,
    /// The part of the job that causes it.
    pub place: FieldPath,
    /// One sentence with the number and the limit: "Rail in front of sink 1 is 1 1/4 in wide; under
    /// 1 1/2 in it breaks."
    pub says: String,
    /// What to do about it, in one sentence.
    pub remedy: String,
    /// Where the limit comes from.
    pub source: Source,
}

/// Quantities as a sentence says them: a rounded one is "about 153 lb".
pub(crate) mod say {
    use crate::measure::exact::inches;
    use crate::measure::geometry_tolerance;
    use crate::measure::{
        Length, Mass, MassDensity, Temperature, Time, Units, Volume, Written, write_density, write_duration,
        write_length, write_mass, write_temperature, write_water,
    };
    use uom::si::length::millimeter;

    fn said(written: Written) -> String {
        if written.rounded { format!("about {}", written.text) } else { written.text }
    }

    pub(crate) fn length(value: Length, units: Units) -> String {
        said(write_length(value, units))
    }

    /// The last mark of the tape within that length: where something has to fit, half a step more does not.
    pub(crate) fn at_most(value: Length, units: Units) -> String {
        let step = match units {
            Units::Inch => inches(1.0 / 16.0),
            Units::Metric => Length::new::<millimeter>(1.0),
        };
        // A whole number of steps may miss itself by the last bit.
        let steps = ((value + geometry_tolerance()) / step).value.floor();
        write_length(steps * step, units).text
    }

    pub(crate) fn mass(value: Mass, units: Units) -> String {
        said(write_mass(value, units))
    }

    pub(crate) fn density(value: MassDensity, units: Units) -> String {
        said(write_density(value, units))
    }

    pub(crate) fn water(value: Volume, units: Units) -> String {
        said(write_water(value, units))
    }

    pub(crate) fn temperature(value: Temperature, units: Units) -> String {
        said(write_temperature(value, units))
    }

    pub(crate) fn duration(value: Time) -> String {
        said(write_duration(value))
    }
}
