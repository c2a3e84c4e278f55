//! Writing the quantities that only pour day knows.

use crate::measure::exact::psi;
use crate::measure::{Pressure, Quantity, Units, write_number};
use crate::pour::limits;
use uom::si::f64::{MassFlux, Velocity};
use uom::si::mass_flux::kilogram_per_square_meter_second;
use uom::si::pressure::{megapascal, pascal};
use uom::si::velocity::{kilometer_per_hour, meter_per_second, mile_per_hour};

/// "2500 psi", to 10 psi; "17.2 MPa", to 0.1.
pub fn write_strength(value: Pressure, units: Units) -> String {
    match units {
        Units::Inch => write_number((value / psi(10.0)).value.round() * 10.0, 0) + " psi",
        Units::Metric => write_number(value.get::<megapascal>(), 1) + " MPa",
    }
}

/// "0.24 lb/ft²/h", "1.14 kg/m²/h", to 0.01.
pub fn write_drying(value: MassFlux, units: Units) -> String {
    match units {
        // The limit is so many pounds a square foot and hour by its own definition.
        Units::Inch => write_number((value / limits::drying_most()).value * 0.2, 2) + " lb/ft²/h",
        Units::Metric => write_number(value.value * 3600.0, 2) + " kg/m²/h",
    }
}

/// "12 mph", "19 km/h", to one decimal.
pub fn write_wind(value: Velocity, units: Units) -> String {
    match units {
        Units::Inch => write_number(value.get::<mile_per_hour>(), 1) + " mph",
        Units::Metric => write_number(value.get::<kilometer_per_hour>(), 1) + " km/h",
    }
}

/// A strength as a mix is known by it.
pub(super) fn strength(value: Pressure) -> Quantity {
    Quantity::other(value.value, |si, units| write_strength(Pressure::new::<pascal>(si), units))
}

/// What leaves an area in a time.
pub(super) fn drying(value: MassFlux) -> Quantity {
    let write = |si, units| write_drying(MassFlux::new::<kilogram_per_square_meter_second>(si), units);
    Quantity::other(value.value, write)
}

/// The speed of wind.
pub(super) fn wind(value: Velocity) -> Quantity {
    Quantity::other(value.value, |si, units| write_wind(Velocity::new::<meter_per_second>(si), units))
}
