//! When things happen: batches against the workable time, on a time line; the weather, the temperature of the mix,
//! and when a top may be stripped; the clock that runs beside the pour.

mod advice;
pub mod clock;
pub mod hardening;
mod inputs;
mod keep;
pub mod limits;
pub mod maturity;
mod plan;
mod pouring;
pub mod strength;
pub mod strip;
pub mod temperature;
#[cfg(test)]
mod tests;
pub mod timeline;
mod typed;
pub mod weather;
mod write;

pub use advice::Advice;
pub use inputs::{
    CureAdditive, CureInputs, DayInputs, OrUsual, PourInputs, PouredPiece, PouringInputs, SpellInputs, StrengthRow,
};
pub(crate) use keep::{advise_strip, advise_weather, earliest, hour_of_water};
pub use keep::{drying, strip as strip_time};
pub(crate) use plan::advise;
pub use plan::{Fit, PartOfBag, Plan};
pub use pouring::Pouring;
pub use write::{write_drying, write_strength, write_wind};

use crate::finding::{Finding, Severity, Stage};
use crate::job::{FieldPath, PourField};
use crate::label;
use crate::measure::{Temperature, Time};
use crate::working::about;
use uom::si::thermodynamic_temperature::kelvin;

/// How long a mix stays workable at a temperature, from what it does at 70 °F: half as long for each
/// 18 °F hotter. Common practice.
pub fn workable_at(at_reference: Time, temperature: Temperature) -> Time {
    let hotter = temperature.get::<kelvin>() - limits::workable_reference().get::<kelvin>();
    at_reference * (-hotter / limits::WORKABLE_HALVES_EVERY).exp2()
}

/// Findings about the weather of pour day.
pub(crate) fn advise_job(day: &DayInputs) -> Vec<Finding> {
    let place = FieldPath::Pour(PourField::Air);
    let Some(air) = day.air.readable() else { return Vec::new() };
    let hotter_than = |limit: Temperature| air.get::<kelvin>() - limit.get::<kelvin>();
    let (limit, remedy, source) = if hotter_than(limits::air_least()) < -crate::measure::TEMPERATURE_TOLERANCE {
        let limit = label!("under {} a mix sets slowly and may freeze", about(limits::air_least()));
        (limit, "Warm the room and the water, or wait for a warmer day.", limits::COLD)
    } else if hotter_than(limits::air_most()) > crate::measure::TEMPERATURE_TOLERANCE {
        let limit = label!("over {} a mix stiffens fast and its face dries and cracks", about(limits::air_most()));
        (limit, "Pour early in the day, keep bags in the shade and cool the water.", limits::HOT)
    } else {
        return Vec::new();
    };
    vec![Finding {
        severity: Severity::Watch,
        stage: Stage::Pour,
        place,
        says: label!("It is {} where you pour; {}.", about(air), limit),
        remedy: remedy.into(),
        source,
    }]
}
