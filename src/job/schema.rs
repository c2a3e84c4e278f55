//! What is known of a field besides what is typed into it: its key, its label, how it is read, the screen it stands on,
//! what counts while it is blank, and the line of help below it.
//!
//! # To add a field
//! Add it to its struct and give it one line of the [`entries!`] list below the struct:
//!
//! ```text
//! /// What its name does not say.
//! CabinetRail => cabinet_rail, Length, "cabinet-rail", "Cabinet rail width", usual |_| practice(inches(1.0));
//! ```
//!
//! That is its variant, its place in the struct, the [`Kind`] it is read as, its key and its label; behind these, as far
//! as they are needed and in this order:
//! * `on Build`: the screen, where it is not that of the other fields of its owner;
//! * `usual |units| …`: the [`Usual`] that counts while it is blank. A room reads it by [`FieldPath::usual`] or
//!   [`read::or_usual`], so that the number stands here alone;
//! * `often |units| […, …]`: from which amount to which it usually is;
//! * `hint "…"`: the line of help. `{usual}`, `{from}` and `{to}` in it become these amounts in the units of the job, and
//!   other marks what the rooms below give for them (see [`crate::hints`]); no amount is written into the words. With a
//!   usual amount and no hint it says "Blank: 1 in."
//!
//! Where a room needs the usual amount without a job at hand, it stands in `usual.rs`, and the line names it.
//!
//! Reading, keys, names in sentences, the way to the field on the page, its hint and the jobs that tests make up follow.
//! A new list of things with fields is a line of the table in `place.rs`.
//!
//! [`FieldPath::usual`]: super::FieldPath::usual
//! [`read::or_usual`]: super::read::or_usual

use super::{Kind, Stage};
use crate::measure::exact::in_quarts;
use crate::measure::{
    Area, Dose, Length, Mass, Temperature, Time, Units, Volume, Written, write_area, write_dose, write_duration,
    write_length, write_mass, write_number, write_percent, write_temperature, write_volume, write_water,
};
use crate::working::Source;
use uom::si::length::millimeter;
use uom::si::time::{day, hour};

/// One field, as the table has it.
#[derive(Clone, Copy, Debug)]
pub struct FieldSpec {
    /// Its word in keys, in small letters with hyphens.
    pub key: &'static str,
    /// The word for it, on screen, in files and in messages.
    pub label: &'static str,
    /// What it is read as.
    pub kind: Kind,
    /// Its screen, where it is not that of its owner.
    pub stage: Option<Stage>,
    /// What counts while it is blank.
    pub usual: Option<fn(Units) -> Usual>,
    /// From where to where it usually is.
    pub often: Option<fn(Units) -> [Amount; 2]>,
    /// The line of help below it, with marks where amounts go.
    pub hint: &'static str,
}

impl FieldSpec {
    /// The line of help below the field in those units; empty where there is nothing to say.
    pub fn hint(&self, units: Units) -> String {
        let template = match (self.hint, self.usual) {
            ("", Some(_)) => "Blank: {usual}.",
            (hint, _) => hint,
        };
        let mut says = template.to_owned();
        let mut put = |mark: &str, amount: Amount| says = says.replace(mark, &amount.say(self.kind, units));
        if let Some(usual) = self.usual {
            put("{usual}", usual(units).amount);
        }
        if let Some(often) = self.often {
            let [from, to] = often(units);
            put("{from}", from);
            put("{to}", to);
        }
        says
    }
}

/// What counts while a field is blank, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// How much.
    pub amount: Amount,
    /// Where that comes from.
    pub source: Source,
}

/// That much is common practice.
pub(super) fn practice(amount: impl Into<Amount>) -> Usual {
    Usual { amount: amount.into(), source: Source::Practice }
}

/// That much is typical of published data sheets, from memory.
pub(super) fn memory(amount: impl Into<Amount>) -> Usual {
    Usual { amount: amount.into(), source: Source::Memory }
}

/// A share of one.
pub(super) fn share(of_one: f64) -> Amount {
    Amount::Share(of_one)
}

/// The amount of an inch workshop or that of a metric one, where the trade knows two round ones.
pub(super) fn either<T: Into<Amount>>(units: Units, inch: T, metric: T) -> Amount {
    match units {
        Units::Inch => inch.into(),
        Units::Metric => metric.into(),
    }
}

pub(super) fn millimetres(count: f64) -> Length {
    Length::new::<millimeter>(count)
}

pub(super) fn minutes(count: f64) -> Time {
    Time::new::<hour>(1.0) * (count / 60.0)
}

pub(super) fn days(count: f64) -> Time {
    Time::new::<day>(count)
}

/// A quantity of any kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A length.
    Length(Length),
    /// An area.
    Area(Area),
    /// A volume.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
    /// A time span.
    Time(Time),
    /// A temperature.
    Temperature(Temperature),
    /// A whole number.
    Count(u32),
    /// A share, 0.10 for "10 %".
    Share(f64),
    /// One mass to another.
    Ratio(f64),
}

impl Amount {
    /// The amount as a sentence says it beside a field of that kind: "1 in", "about 25 mm", "50 %".
    pub fn say(self, kind: Kind, units: Units) -> String {
        let written = match self {
            Self::Length(length) => write_length(length, units),
            Self::Area(area) => match units {
                Units::Inch => write_area(area, units),
                Units::Metric => Written { text: write_number(area.value, 1) + " m²", ..write_area(area, units) },
            },
            Self::Volume(volume) => match (kind, units) {
                (Kind::Water, _) => write_water(volume, units),
                (Kind::Pail, Units::Inch) => {
                    let gallons = in_quarts(volume) / 4.0;
                    let text = write_number(gallons, 2);
                    let rounded = text.parse().is_ok_and(|said: f64| (said - gallons).abs() > 1e-9);
                    Written { text: text + " gal", rounded }
                }
                (Kind::Pail | Kind::Cartridge, _) => write_dose(Dose::Volume(volume), units),
                _ => write_volume(volume, units),
            },
            Self::Mass(mass) => write_mass(mass, units),
            Self::Time(time) if time.value < 60.0 => {
                Written { text: write_number(time.value, 0) + " s", rounded: false }
            }
            Self::Time(time) => write_duration(time),
            Self::Temperature(temperature) => write_temperature(temperature, units),
            Self::Count(count) => Written { text: count.to_string(), rounded: false },
            Self::Share(share) => Written { text: write_percent(share), rounded: false },
            Self::Ratio(ratio) => Written { text: write_number(ratio, 3), rounded: false },
        };
        if written.rounded { format!("about {}", written.text) } else { written.text }
    }

    /// Fields of that kind are read as such amounts.
    pub fn is_of(self, kind: Kind) -> bool {
        match self {
            Self::Length(_) => kind == Kind::Length,
            Self::Area(_) => kind == Kind::Area,
            Self::Volume(_) => matches!(kind, Kind::Volume | Kind::Water | Kind::Pail | Kind::Cartridge),
            Self::Mass(_) => kind == Kind::Mass,
            Self::Time(_) => matches!(kind, Kind::Duration | Kind::Hours),
            Self::Temperature(_) => kind == Kind::Temperature,
            Self::Count(_) => kind == Kind::Count,
            Self::Share(_) => kind == Kind::Percent,
            Self::Ratio(_) => kind == Kind::Ratio,
        }
    }
}

/// From a quantity to an amount, and back where it is one of that quantity.
macro_rules! quantities {
    ($($amount:ident($quantity:ty)),*) => {
        $(
            impl From<$quantity> for Amount {
                fn from(quantity: $quantity) -> Self {
                    Self::$amount(quantity)
                }
            }

            impl TryFrom<Amount> for $quantity {
                type Error = Amount;

                fn try_from(amount: Amount) -> Result<Self, Amount> {
                    match amount {
                        Amount::$amount(quantity) => Ok(quantity),
                        other => Err(other),
                    }
                }
            }
        )*
    };
}

quantities! {
    Length(Length), Area(Area), Volume(Volume), Mass(Mass), Time(Time), Temperature(Temperature), Count(u32)
}

impl TryFrom<Amount> for f64 {
    type Error = Amount;

    fn try_from(amount: Amount) -> Result<Self, Amount> {
        match amount {
            Amount::Share(number) | Amount::Ratio(number) => Ok(number),
            other => Err(other),
        }
    }
}

/// Makes the names of fields and what the table has of each, in the order of the form.
macro_rules! fields {
    (
        $(#[$doc:meta])* $name:ident {
            $(
                $(#[$variant_doc:meta])* $variant:ident, $kind:ident, $key:literal, $label:literal
                $(, on $stage:ident)? $(, usual $usual:expr)? $(, often $often:expr)? $(, hint $hint:literal)?;
            )*
        }
    ) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name { $( $(#[$variant_doc])* $variant, )* }

        impl $name {
            /// Every field, in the order of the form.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// All that is known of it.
            pub fn spec(self) -> &'static $crate::job::FieldSpec {
                static SPECS: &[$crate::job::FieldSpec] = &[$(
                    $crate::job::FieldSpec {
                        key: $key,
                        label: $label,
                        kind: $crate::job::Kind::$kind,
                        stage: $crate::job::schema::given!($($crate::job::Stage::$stage)?),
                        usual: $crate::job::schema::given!($($usual)?),
                        often: $crate::job::schema::given!($($often)?),
                        hint: concat!("" $(, $hint)?),
                    },
                )*];
                &SPECS[self as usize]
            }

            /// The word for it, on screen, in files and in messages.
            pub fn label(self) -> &'static str {
                self.spec().label
            }

            /// What it is read as.
            pub fn kind(self) -> $crate::job::Kind {
                self.spec().kind
            }
        }
    };
}
pub(super) use fields;

/// What is given, or nothing.
macro_rules! given {
    () => {
        None
    };
    ($given:expr) => {
        Some($given)
    };
}
pub(super) use given;

/// Makes, from one list, the names of a struct's fields, the way to each, and what the table has of it: see the head of
/// this module.
macro_rules! entries {
    (
        $(#[$doc:meta])* $name:ident of $owner:ty {
            $(
                $(#[$variant_doc:meta])* $variant:ident => $field:ident, $kind:ident, $key:literal, $label:literal
                $(, on $stage:ident)? $(, usual $usual:expr)? $(, often $often:expr)? $(, hint $hint:literal)?;
            )*
        }
    ) => {
        $crate::job::schema::fields! {
            $(#[$doc])* $name {
                $(
                    $(#[$variant_doc])* $variant, $kind, $key, $label
                    $(, on $stage)? $(, usual $usual)? $(, often $often)? $(, hint $hint)?;
                )*
            }
        }

        impl $owner {
            /// The entry of that name.
            pub fn entry(&self, field: $name) -> &$crate::job::Entry {
                match field { $($name::$variant => &self.$field,)* }
            }

            /// The entry of that name, to be typed into.
            pub fn entry_mut(&mut self, field: $name) -> &mut $crate::job::Entry {
                match field { $($name::$variant => &mut self.$field,)* }
            }
        }
    };
}
pub(super) use entries;
