//! Quantities, and how people write them.
//!
//! Inside the house a quantity is a `uom` type, SI in `f64`; a unit is met only here, where a text
//! is read or written. Every reader takes the text of one field and gives the quantity, or a
//! [`ReadError`] that says where it stopped, why, and what would have worked.
//!
//! Every conversion is chained from an exact definition (NIST SP 811 App. B, NIST HB 44 App. C); other
//! rooms that need one find it in [`exact`].
//!
//! # How lengths may be spelled
//!
//! ```
//! use pourwright::measure::{Units::{self, Inch, Metric}, exact, read_length};
//! # fn same(text: &str, units: Units, inches: f64) {
//! #     let read = read_length(text, units).map(exact::in_inches);
//! #     assert!(read.as_ref().is_ok_and(|read| (read - inches).abs() < 1e-9), "{text}: {read:?}");
//! # }
//!
//! same("41",            Inch,   41.0);   // A bare number takes the job's unit.
//! same("41.375",        Inch,   41.375);
//! same("41,5",          Inch,   41.5);   // Not three digits, so no thousands.
//! same("41 3/8",        Inch,   41.375);
//! same("41-3/8 in",     Inch,   41.375);
//! same("41⅜″",          Inch,   41.375);
//! same("5/4",           Inch,   1.25);
//! same("3' 5 3/8\"",    Inch,   41.375);
//! same("3'-5 3/8\"",    Inch,   41.375);
//! same("3’5",           Inch,   41.0);   // After feet, a bare number is inches.
//! same("3 ft 5 3/8 in", Inch,   41.375);
//! same("3.5 ft",        Inch,   42.0);
//! same("127 cm",        Inch,   50.0);   // A unit outranks the job.
//! same("1270",          Metric, 50.0);
//! same("1270 mm",       Metric, 50.0);
//! same("127,0 cm",      Metric, 50.0);
//! same("1.27 m",        Metric, 50.0);
//! same("1,270 m",       Metric, 50.0);   // Metres are often written to the thousandth.
//! same("1 m 27 cm",     Metric, 50.0);
//! ```
//!
//! # What is turned away rather than guessed at
//!
//! ```
//! use pourwright::measure::{Reason, Units::{self, Inch, Metric}, read_length};
//! # fn why(text: &str, units: Units) -> Option<Reason> { read_length(text, units).err().map(|error| error.reason) }
//!
//! // Thousands or thousandths? Nobody reads a tape to a thousandth of a millimetre, nor writes 1,250 ft
//! // for a foot and a quarter. In an inch job a comma with three digits is never read.
//! assert!(matches!(why("1,250", Inch), Some(Reason::ThousandsOrThousandths { .. })));
//! assert!(matches!(why("1.250", Metric), Some(Reason::ThousandsOrThousandths { .. })));
//! // 41 3/8 without its space, or 413/8?
//! assert!(matches!(why("413/8", Inch), Some(Reason::RunTogether { .. })));
//! // A slip of the thumb, or of the mind.
//! assert!(matches!(why("3' 15\"", Inch), Some(Reason::PartTooLarge { .. })));
//! assert!(matches!(why("41 9/8", Inch), Some(Reason::FractionTooLarge { .. })));
//! assert_eq!(why("3 ft 20 cm", Inch), Some(Reason::TwoUnits));
//! ```
//!
//! # Other quantities
//!
//! | quantity | units | bare number | also |
//! | --- | --- | --- | --- |
//! | area | ft² in², m² | ft², m² | |
//! | volume | ft³ in³ yd³, gal qt pt cup fl oz tbsp tsp (US), m³ L mL | ft³, L | `2 gal 1 1/2 qt` |
//! | mass | lb oz, t kg g | lb, kg | `5 lb 3 oz` |
//! | dose | those of volume and mass; `oz` is a mass | turned away | |
//! | temperature | °F °C | °F, °C | under zero |
//! | angle | ° | degrees | `92.5°` |
//! | time span | s min h d weeks | min | `1 h 30 min`, `1h30`, `1:30` |
//! | hours | those of a time span | h | |
//! | time of day, day | | | `14:30`, `2026-03-31` |
//! | strength | psi MPa | psi, MPa | |
//! | surface speed | ft/min m/s | ft/min, m/s | |
//! | density | lb/ft³ (pcf), kg/m³ | lb/ft³, kg/m³ | |
//! | speed | mph km/h m/s | mph, km/h | |
//! | count | none | whole, from 1 | |
//! | share | % | percent | |
//! | ratio | none | as it is | |
//! | money | $ € £ ¥ or three letters, which say nothing | the price book's | `1,234.50`, `1.234,50` |
//!
//! Capitals, spaces and full stops in units do not matter, nor do the kinds of quotes, dashes, slashes
//! and spaces that phones put in. Bare cubic feet are the trade's unit for the yield of a bag, bare
//! quarts that for its water: [`read_water`] and its like differ from [`read_volume`] in nothing else.
//!
//! ```
//! use pourwright::measure::{Units::{Inch, Metric}, read_duration, read_mass, read_temperature, read_volume};
//!
//! assert_eq!(read_volume("5 qt", Inch), read_volume("1 gal 1 quart", Metric));
//! assert_eq!(read_volume("0.5", Inch), read_volume("1/2 cu. ft.", Metric));
//! assert_eq!(read_mass("80", Inch), read_mass("80 LBS", Metric));
//! assert_eq!(read_temperature("70", Inch), read_temperature("70ºF", Metric));
//! assert_eq!(read_duration("90", Inch), read_duration("1:30", Metric));
//! ```

mod date;
mod error;
pub mod exact;
mod force;
mod quantity;
mod read;
mod scan;
mod tables;
#[cfg(test)]
mod tests;
mod tolerance;
mod units;
mod write;

pub use date::{Date, Moment};
pub use error::{ReadError, Reason};
pub use force::{weight_of, write_force, write_moment, write_pressure, write_small_length, write_stiffness};
pub use quantity::{Measured, Quantity};
pub use read::{
    Dose, read_angle, read_area, read_cartridge, read_clock, read_count, read_date, read_density, read_dose,
    read_duration, read_hours, read_length, read_mass, read_money, read_pail, read_percent, read_pressure, read_ratio,
    read_speed, read_surface_speed, read_temperature, read_volume, read_water, with_fraction,
};
pub use tolerance::{COUNT_TOLERANCE, TEMPERATURE_TOLERANCE, geometry_tolerance};
pub use units::Units;
pub use uom::si::f64::{
    Angle, Area, Length, Mass, MassDensity, Pressure, ThermodynamicTemperature as Temperature, Time, Velocity as Speed,
    Volume,
};
pub use write::{
    Written, at_most, write_angle, write_area, write_count, write_cut, write_density, write_dose, write_duration,
    write_feet, write_length, write_mass, write_money, write_number, write_percent, write_temperature, write_volume,
    write_water, write_weighed,
};

/// Makes a typed quantity of an SI value.
macro_rules! from_si {
    ($($name:ident, $quantity:ident, $unit:path;)*) => {
        $(fn $name(si: f64) -> $quantity { $quantity::new::<$unit>(si) })*
    };
}
from_si! {
    length, Length, uom::si::length::meter;
    angle, Angle, uom::si::angle::radian;
    area, Area, uom::si::area::square_meter;
    volume, Volume, uom::si::volume::cubic_meter;
    mass, Mass, uom::si::mass::kilogram;
    temperature, Temperature, uom::si::thermodynamic_temperature::kelvin;
    duration, Time, uom::si::time::second;
    pressure, Pressure, uom::si::pressure::pascal;
    speed, Speed, uom::si::velocity::meter_per_second;
    density, MassDensity, uom::si::mass_density::kilogram_per_cubic_meter;
}
