//! Quantities in the units of an inch workshop, made and taken apart without loss.
//!
//! Several of `uom`'s own units are rounded to seven digits (its pound, quart and cubic foot among
//! them); these are not.

use super::tables::*;
use super::*;
use uom::si::f64::Force;
use uom::si::force::newton;

/// Standard gravity, m/s² (NIST SP 811 B.8).
pub const GRAVITY: f64 = 9.806_65;

/// So many inches, of 25.4 mm (NIST SP 811 B.8).
pub fn inches(count: f64) -> Length {
    length(INCHES.si(count))
}

/// A length in inches.
pub fn in_inches(value: Length) -> f64 {
    INCHES.count(value.value)
}

/// So many pounds, of 0.45359237 kg (NIST SP 811 B.8).
pub fn pounds(count: f64) -> Mass {
    mass(OUNCES.si(count * 16.0))
}

/// A mass in pounds.
pub fn in_pounds(value: Mass) -> f64 {
    OUNCES.count(value.value) / 16.0
}

/// So many cubic feet, of 1728 in³.
pub fn cubic_feet(count: f64) -> Volume {
    volume(CUBIC_INCHES.si(count * 1728.0))
}

/// A volume in cubic feet.
pub fn in_cubic_feet(value: Volume) -> f64 {
    CUBIC_INCHES.count(value.value) / 1728.0
}

/// So many US quarts, of 57.75 in³ (NIST HB 44 App. C).
pub fn quarts(count: f64) -> Volume {
    volume(TEASPOONS.si(count * 192.0))
}

/// A volume in US quarts.
pub fn in_quarts(value: Volume) -> f64 {
    TEASPOONS.count(value.value) / 192.0
}

/// So many pounds a cubic foot.
pub fn pounds_a_cubic_foot(count: f64) -> MassDensity {
    density(POUNDS_A_CUBIC_FOOT.si(count))
}

/// So many pounds-force a square inch, under standard gravity.
pub fn psi(count: f64) -> Pressure {
    pressure(POUNDS_A_SQUARE_INCH.si(count))
}

/// A temperature on the Fahrenheit scale.
pub fn fahrenheit(degrees: f64) -> Temperature {
    temperature(FAHRENHEIT.si(degrees))
}

/// One pound-force, under standard gravity.
pub fn pound_force() -> Force {
    Force::new::<newton>(pounds(GRAVITY).value)
}
