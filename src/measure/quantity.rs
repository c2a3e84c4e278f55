//! A quantity together with the way in which people write it.

use super::exact::{in_pounds, inches};
use super::{
    Angle, Area, Date, Dose, Length, Mass, MassDensity, Pressure, Temperature, Time, Units, Volume, Written,
    write_angle, write_area, write_count, write_cut, write_density, write_dose, write_duration, write_feet,
    write_force, write_length, write_mass, write_moment, write_money, write_number, write_percent, write_pressure,
    write_small_length, write_stiffness, write_temperature, write_volume, write_water, write_weighed,
};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use std::borrow::Cow;
use uom::si::areal_mass_density::kilogram_per_square_meter;
use uom::si::f64::{ArealMassDensity, Force, LinearMassDensity, Torque};
use uom::si::linear_mass_density::kilogram_per_meter;

/// A value of any kind, and how it is written: water and concrete are both volumes, but only one of them is told in
/// quarts. It is written when somebody looks, in the units asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Quantity {
    /// A length, to the sixteenth of an inch or the millimetre.
    Length(Length),
    /// A length to saw, to half of that.
    Cut(Length),
    /// A long length, in feet or metres.
    Feet(Length),
    /// An area.
    Area(Area),
    /// A volume of concrete.
    Volume(Volume),
    /// A volume of water.
    Water(Volume),
    /// A mass.
    Mass(Mass),
    /// A mass as a scale shows it.
    Weighed(Mass),
    /// A dose, by volume or by mass.
    Dose(Dose),
    /// A density.
    Density(MassDensity),
    /// A temperature.
    Temperature(Temperature),
    /// An angle.
    Angle(Angle),
    /// A time span.
    Duration(Time),
    /// A day.
    Date(Date),
    /// A share, in percent.
    Percent(f64),
    /// A number to so many decimals at most.
    Number(f64, usize),
    /// So many of something: the number, one of them, several of them.
    Count(u32, &'static str, &'static str),
    /// An amount of money in the currency of that sign.
    Money(Decimal, Cow<'static, str>),
    /// A quantity that one room alone knows how to write: its value in SI units, and the writer.
    Other(f64, Writer),
    /// Words instead of a number: "3 people and a cart", a name that the maker gave.
    Words(Cow<'static, str>),
    /// A place on a plan: to the right, and to the back.
    Point(Length, Length),
    /// Several, side by side: "60 in, 48 in".
    List(Vec<Self>),
    /// A strength or a stress.
    Pressure(Pressure),
    /// A modulus of elasticity.
    Stiffness(Pressure),
    /// A force, in pounds or newtons.
    Force(Force),
    /// A moment.
    Moment(Torque),
    /// A length too small for a tape.
    SmallLength(Length),
}

impl Quantity {
    /// A quantity that one room alone writes, by its value in SI units.
    pub fn other(si: f64, write: fn(f64, Units) -> String) -> Self {
        Self::Other(si, Writer(write))
    }

    /// The quantity in these units, and whether writing it rounded it.
    pub fn write(&self, units: Units) -> Written {
        let exact = |text: String| Written { text, rounded: false };
        match self {
            Self::Length(value) => write_length(*value, units),
            Self::Cut(value) => write_cut(*value, units),
            Self::Feet(value) => write_feet(*value, units),
            Self::Area(value) => write_area(*value, units),
            Self::Volume(value) => write_volume(*value, units),
            Self::Water(value) => write_water(*value, units),
            Self::Mass(value) => write_mass(*value, units),
            Self::Weighed(value) => exact(write_weighed(*value, units)),
            Self::Dose(value) => write_dose(*value, units),
            Self::Density(value) => write_density(*value, units),
            Self::Temperature(value) => write_temperature(*value, units),
            Self::Angle(value) => write_angle(*value),
            Self::Duration(value) => write_duration(*value),
            Self::Date(day) => exact(day.to_string()),
            Self::Percent(value) => exact(write_percent(*value)),
            Self::Number(value, decimals) => exact(write_number(*value, *decimals)),
            Self::Count(value, one, many) => exact(write_count(*value, one, many)),
            Self::Money(value, currency) => exact(write_money(*value, currency)),
            Self::Other(value, write) => exact(write.0(*value, units)),
            Self::Words(words) => exact(words.clone().into_owned()),
            Self::Point(x, y) => {
                let [x, y] = [x, y].map(|value| write_length(*value, units));
                Written { text: format!("({}, {})", x.text, y.text), rounded: x.rounded || y.rounded }
            }
            Self::List(values) => {
                let written: Vec<_> = values.iter().map(|value| value.write(units)).collect();
                let rounded = written.iter().any(|one| one.rounded);
                let texts: Vec<_> = written.into_iter().map(|one| one.text).collect();
                Written { text: texts.join(", "), rounded }
            }
            Self::Pressure(value) => write_pressure(*value, units),
            Self::Stiffness(value) => write_stiffness(*value, units),
            Self::Force(value) => write_force(*value, units),
            Self::Moment(value) => write_moment(*value, units),
            Self::SmallLength(value) => write_small_length(*value, units),
        }
    }

    /// What a calculation comes to, in these units, with the sign of a rounded number: "≈ 66 11/16 in"; in a list, with
    /// every number that is.
    pub fn result(&self, units: Units) -> String {
        match self {
            Self::List(values) => values.iter().map(|value| value.result(units)).collect::<Vec<_>>().join(", "),
            _ => self.write(units).to_string(),
        }
    }

    /// Its value in SI units (money in its currency); nothing where it is words.
    pub fn si(&self) -> Option<f64> {
        Some(match self {
            Self::Length(value) | Self::Cut(value) | Self::Feet(value) | Self::SmallLength(value) => value.value,
            Self::Area(value) => value.value,
            Self::Volume(value) | Self::Water(value) | Self::Dose(Dose::Volume(value)) => value.value,
            Self::Mass(value) | Self::Weighed(value) | Self::Dose(Dose::Mass(value)) => value.value,
            Self::Density(value) => value.value,
            Self::Temperature(value) => value.value,
            Self::Angle(value) => value.value,
            Self::Duration(value) => value.value,
            Self::Percent(value) | Self::Number(value, _) | Self::Other(value, _) => *value,
            Self::Count(value, ..) => f64::from(*value),
            Self::Money(value, _) => value.to_f64()?,
            Self::Date(_) | Self::Words(_) | Self::Point(..) | Self::List(_) => return None,
            Self::Pressure(value) | Self::Stiffness(value) => value.value,
            Self::Force(value) => value.value,
            Self::Moment(value) => value.value,
        })
    }
}

/// How one room writes a quantity of its own, given in SI units.
#[derive(Clone, Copy, Debug)]
pub struct Writer(fn(f64, Units) -> String);

impl PartialEq for Writer {
    /// By what they write: the addresses of functions say nothing.
    fn eq(&self, other: &Self) -> bool {
        let written = |writer: &Self| [Units::Inch, Units::Metric].map(|units| writer.0(1.0, units));
        written(self) == written(other)
    }
}

/// What has one way of being written, where nothing else is asked for.
pub trait Measured: Copy {
    /// The value together with that way.
    fn quantity(self) -> Quantity;
}

macro_rules! measured {
    ($($kind:ty => $way:ident;)*) => {
        $(impl Measured for $kind {
            fn quantity(self) -> Quantity { Quantity::$way(self) }
        })*
    };
}
measured! {
    Length => Length;
    Area => Area;
    Volume => Volume;
    Mass => Mass;
    Dose => Dose;
    MassDensity => Density;
    Temperature => Temperature;
    Angle => Angle;
    Time => Duration;
    Date => Date;
    Pressure => Pressure;
    Force => Force;
    Torque => Moment;
}

impl Measured for f64 {
    /// A plain number, to three decimals.
    fn quantity(self) -> Quantity {
        Quantity::Number(self, 3)
    }
}

impl Measured for uom::si::f64::Ratio {
    /// A plain number, to three decimals.
    fn quantity(self) -> Quantity {
        Quantity::Number(self.value, 3)
    }
}

impl Measured for u32 {
    /// A plain number.
    fn quantity(self) -> Quantity {
        Quantity::Number(f64::from(self), 0)
    }
}

impl Measured for ArealMassDensity {
    /// What lies on an area: tenths of a pound a square foot, whole kilograms a square metre.
    fn quantity(self) -> Quantity {
        let write = |si: f64, units| match units {
            Units::Inch => {
                let foot = inches(12.0);
                let load = ArealMassDensity::new::<kilogram_per_square_meter>(si);
                write_number(in_pounds(load * foot * foot), 1) + " lb/ft²"
            }
            Units::Metric => write_number(si, 0) + " kg/m²",
        };
        Quantity::other(self.value, write)
    }
}

impl Measured for LinearMassDensity {
    /// What lies along a line: tenths of a pound a foot, tenths of a kilogram a metre.
    fn quantity(self) -> Quantity {
        let write = |si: f64, units| match units {
            Units::Inch => {
                let load = LinearMassDensity::new::<kilogram_per_meter>(si);
                write_number(in_pounds(load * inches(12.0)), 1) + " lb/ft"
            }
            Units::Metric => write_number(si, 1) + " kg/m",
        };
        Quantity::other(self.value, write)
    }
}
