//! Bars and lath: what they measure, and how much of them counts in bending.

use super::limits;
use super::section::Layer;
use crate::job::{BarSize, Lath};
use crate::measure::exact::{inches, pounds, pounds_a_cubic_foot};
use crate::measure::{Area, Length};
use uom::si::areal_mass_density::kilogram_per_square_meter;
use uom::si::f64::{ArealMassDensity, LinearMassDensity};

/// A reinforcing bar, by its nominal figures: capacity is worked out with the rounded area of the standard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Nominal diameter.
    pub diameter: Length,
    /// Nominal area of its section.
    pub area: Area,
    /// Nominal mass a length.
    pub mass: LinearMassDensity,
}

/// The nominal figures of a bar (ASTM A615 Table 1); nothing for no bar.
pub fn bar(size: BarSize) -> Option<Bar> {
    let (diameter, area, mass) = match size {
        BarSize::None => return None,
        BarSize::Three => (0.375, 0.11, 0.376),
        BarSize::Four => (0.500, 0.20, 0.668),
        BarSize::Five => (0.625, 0.31, 1.043),
    };
    Some(Bar { diameter: inches(diameter), area: area * inches(1.0) * inches(1.0), mass: pounds(mass) / inches(12.0) })
}

impl Bar {
    /// So many of them side by side, grade 60, their centres that deep under the compressed face.
    pub fn layer(&self, count: u32, depth: Length) -> Layer {
        Layer {
            area: f64::from(count) * self.area,
            depth,
            stiffness: limits::steel_stiffness(),
            yields_at: limits::bar_yield(),
        }
    }
}

/// Which way the diamonds of expanded metal lie against the bending.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lay {
    /// The long way of the diamonds along the span: the strong way.
    Along,
    /// Across it.
    Across,
    /// Aslant, at 45°.
    Aslant,
}

impl Lay {
    /// The share of its steel that counts (ACI 549.1R-93, from memory).
    pub fn effectiveness(self) -> f64 {
        match self {
            Self::Along => 0.65,
            Self::Across => 0.20,
            Self::Aslant => 0.30,
        }
    }
}

/// Mass an area of flat diamond mesh (ASTM C847); nothing for no lath.
pub fn lath_mass(lath: Lath) -> Option<ArealMassDensity> {
    let pounds_a_square_yard = match lath {
        Lath::None => return None,
        Lath::Light => 2.5,
        Lath::Heavy => 3.4,
    };
    let yard = inches(36.0);
    Some(ArealMassDensity::new::<kilogram_per_square_meter>(pounds(pounds_a_square_yard).value / (yard * yard).value))
}

/// The sheet of solid steel that weighs as much as one layer of lath; steel at 490 lb/ft³.
pub fn equivalent_sheet(lath: Lath) -> Option<Length> {
    Some(lath_mass(lath)? / pounds_a_cubic_foot(490.0))
}

/// So many layers of lath across that width, by the share that counts, at that depth under the compressed
/// face; nothing for no lath. Its modulus along and across is taken from ACI 549.1R, from memory.
pub fn lath_layer(lath: Lath, layers: u32, lay: Lay, width: Length, depth: Length) -> Option<Layer> {
    let stiffness = match lay {
        Lay::Along => 20e6,
        Lay::Across | Lay::Aslant => 10e6,
    };
    Some(Layer {
        area: f64::from(layers) * lay.effectiveness() * equivalent_sheet(lath)? * width,
        depth,
        stiffness: crate::measure::exact::psi(stiffness),
        yields_at: limits::lath_yield(),
    })
}
