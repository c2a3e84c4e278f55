//! A measured field, kept as it was typed.

use crate::measure::Units;
use serde::{Deserialize, Deserializer, Serialize};

/// What the maker typed into one field, to the letter.
///
/// Reading it gives a typed quantity or a reason (see [`crate::measure`]); a half-typed entry is
/// still an entry, and saving never rounds it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Entry(pub String);

impl Entry {
    /// An entry holding `text`.
    pub fn new(text: &str) -> Self {
        Self(text.to_owned())
    }

    /// The text as typed.
    pub fn text(&self) -> &str {
        &self.0
    }

    /// Nothing but white space has been typed.
    pub fn is_blank(&self) -> bool {
        self.0.trim().is_empty()
    }
}

impl From<&str> for Entry {
    fn from(text: &str) -> Self {
        Self::new(text)
    }
}

/// Reads a choice that may be open, and is said to be: one that is absent from a file is refused like any other field,
/// where serde would take it for nothing.
pub(super) fn stated<'de, D, T>(from: D) -> Result<Option<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    Option::deserialize(from)
}

/// What kind of thing an entry is read as; the reader, the keyboard and the message follow from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Free text; anything goes.
    Text,
    /// A tape reading.
    Length,
    /// An area.
    Area,
    /// A volume: mix, a mixer.
    Volume,
    /// Water of a bag, as labels tell it: quarts or litres.
    Water,
    /// What a pail or a can holds: gallons or litres.
    Pail,
    /// What a cartridge holds: fluid ounces or millilitres.
    Cartridge,
    /// A mass: a bag, steel.
    Mass,
    /// A dose of an additive: a volume or a mass.
    Dose,
    /// An angle.
    Angle,
    /// A temperature.
    Temperature,
    /// A time span.
    Duration,
    /// A time span told in hours.
    Hours,
    /// A time of day.
    Clock,
    /// A day.
    Date,
    /// The speed of a pad's rim.
    SurfaceSpeed,
    /// A strength of concrete.
    Pressure,
    /// A density.
    Density,
    /// A speed of wind.
    Speed,
    /// A whole number of at least one.
    Count,
    /// A share in percent.
    Percent,
    /// One mass to another, or a specific gravity.
    Ratio,
    /// An amount of money.
    Money,
}

impl Kind {
    /// The unit that a bare number takes; empty where there is none.
    pub fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Self::Length, Units::Inch) => "in",
            (Self::Length, Units::Metric) => "mm",
            (Self::Area, Units::Inch) => "ft²",
            (Self::Area, Units::Metric) => "m²",
            (Self::Volume, Units::Inch) => "ft³",
            (Self::Water, Units::Inch) => "qt",
            (Self::Pail, Units::Inch) => "gal",
            (Self::Cartridge, Units::Inch) => "fl oz",
            (Self::Cartridge, Units::Metric) => "mL",
            (Self::Volume | Self::Water | Self::Pail, Units::Metric) => "L",
            (Self::Mass, Units::Inch) => "lb",
            (Self::Mass, Units::Metric) => "kg",
            (Self::Temperature, Units::Inch) => "°F",
            (Self::Temperature, Units::Metric) => "°C",
            (Self::Angle, _) => "°",
            (Self::Duration, _) => "min",
            (Self::Hours, _) => "h",
            (Self::SurfaceSpeed, Units::Inch) => "ft/min",
            (Self::SurfaceSpeed, Units::Metric) => "m/s",
            (Self::Pressure, Units::Inch) => "psi",
            (Self::Pressure, Units::Metric) => "MPa",
            (Self::Density, Units::Inch) => "lb/ft³",
            (Self::Density, Units::Metric) => "kg/m³",
            (Self::Speed, Units::Inch) => "mph",
            (Self::Speed, Units::Metric) => "km/h",
            (Self::Percent, _) => "%",
            (Self::Text | Self::Dose | Self::Count | Self::Ratio | Self::Money | Self::Clock | Self::Date, _) => "",
        }
    }
}
