//! What a float may miss by, so that a value on a limit is on it.

use crate::measure::Length;
use uom::si::length::micrometer;

/// Geometry that a float may miss by: a tenth of what a caliper reads, far under what a tape reads.
pub fn geometry_tolerance() -> Length {
    Length::new::<micrometer>(1.0)
}

/// A count just above a whole number by float noise is that whole number: relative.
pub const COUNT_TOLERANCE: f64 = 1e-9;

/// Degrees that a float may miss by, in kelvin: far under what a thermometer reads.
pub const TEMPERATURE_TOLERANCE: f64 = 1e-6;
