//! The limits and constants of lath and bars, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::job::{BarSize, Lath};
use crate::measure::exact::{inches, pounds};
use crate::measure::{Area, Length, Mass, Units};
use crate::working::Source;
use uom::si::length::{meter, millimeter};
use uom::si::mass::kilogram;

/// Steel nearer than this to a face or an edge that is seen can telegraph: show as a line or as rust. Common
/// practice.
pub fn steel_cover() -> Length {
    inches(0.75)
}

/// Where less than this is left beside a bar or behind it, the mix does not close around it. Common practice:
/// three times the largest grain of a mortar.
pub fn steel_room() -> Length {
    inches(0.375)
}

/// A shorter bar is not worth its place: it has no length to hold by. Common practice.
pub fn bar_least() -> Length {
    inches(4.0)
}

/// More layers of lath than this are a typing error.
pub const MOST_LATH_LAYERS: u32 = 8;

/// More panels of lath than this in one piece are a typing error.
pub const MOST_PANELS: usize = 200;

/// Mass of one layer of lath of that class (ASTM C847: 2.5 and 3.4 lb a square yard).
pub fn lath_mass(lath: Lath, area: Area) -> Mass {
    let square_yard = inches(36.0) * inches(36.0);
    let class = match lath {
        Lath::None => 0.0,
        Lath::Light => 2.5,
        Lath::Heavy => 3.4,
    };
    pounds(class) * f64::from(area / square_yard)
}

/// Source of [`lath_mass`].
pub const LATH: Source = Source::Standard("ASTM C847: flat diamond mesh of 2.5 and of 3.4 lb/yd²");

/// Nominal diameter of a bar; nothing for none. In a metric job it is the soft-metric bar of the same kind.
pub fn bar_diameter(bar: BarSize, units: Units) -> Length {
    let (inch, millimetres) = match bar {
        BarSize::None => (0.0, 0.0),
        BarSize::Three => (0.375, 9.5),
        BarSize::Four => (0.5, 12.7),
        BarSize::Five => (0.625, 15.9),
    };
    match units {
        Units::Inch => inches(inch),
        Units::Metric => Length::new::<millimeter>(millimetres),
    }
}

/// Nominal mass of so long a bar. It is tabulated, and not the area times a density.
pub fn bar_mass(bar: BarSize, length: Length, units: Units) -> Mass {
    let (pounds_a_foot, kilograms_a_metre) = match bar {
        BarSize::None => (0.0, 0.0),
        BarSize::Three => (0.376, 0.560),
        BarSize::Four => (0.668, 0.994),
        BarSize::Five => (1.043, 1.552),
    };
    match units {
        Units::Inch => pounds(pounds_a_foot) * f64::from(length / inches(12.0)),
        Units::Metric => Mass::new::<kilogram>(kilograms_a_metre) * length.get::<meter>(),
    }
}

/// Source of [`bar_diameter`] and [`bar_mass`].
pub const BARS: Source = Source::Standard("ASTM A615 Table 1: nominal diameter and mass of bars");
