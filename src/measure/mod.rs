//! Quantities, and how people write them.
//!
//! Inside the house a quantity is a `uom` type, SI in `f64`; a unit is met only here, where a text
//! is read or written. Every reader takes the text of one field and gives the quantity, or a
//! [`ReadError`] that says where it stopped, why, and what would have worked.
//!
//! Every conversion is chained from an exact definition (NIST SP 811 App. B, NIST HB 44 App. C).

mod error;
pub mod exact;
mod read;
mod scan;
mod tables;
#[cfg(test)]
mod tests;
mod units;
mod write;

pub use error::{ReadError, Reason};
pub use read::{
    Dose, read_count, read_density, read_dose, read_duration, read_length, read_mass, read_money, read_percent,
    read_pressure, read_temperature, read_volume, with_fraction,
};
pub use units::Units;
pub use uom::si::f64::{
    Area, Length, Mass, MassDensity, Pressure, ThermodynamicTemperature as Temperature, Time, Volume,
};
pub use write::{
    Written, write_area, write_count, write_density, write_dose, write_duration, write_feet, write_length, write_mass,
    write_money, write_number, write_percent, write_temperature, write_volume, write_water,
};

/// Makes a typed quantity of an SI value.
macro_rules! from_si {
    ($($name:ident, $quantity:ident, $unit:path;)*) => {
        $(fn $name(si: f64) -> $quantity { $quantity::new::<$unit>(si) })*
    };
}
from_si! {
    length, Length, uom::si::length::meter;
    volume, Volume, uom::si::volume::cubic_meter;
    mass, Mass, uom::si::mass::kilogram;
    temperature, Temperature, uom::si::thermodynamic_temperature::kelvin;
    duration, Time, uom::si::time::second;
    pressure, Pressure, uom::si::pressure::pascal;
    density, MassDensity, uom::si::mass_density::kilogram_per_cubic_meter;
}
