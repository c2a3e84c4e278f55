//! The limits and constants of this room, each with its source.

use crate::measure::exact::{inches, pounds_a_cubic_foot, psi};
use crate::measure::{Length, MassDensity, Pressure, Time};
use crate::working::Source;
use uom::si::time::day;

/// What the modulus of rupture is divided by to get what is allowed (PCI Design Handbook, from memory).
pub const CRACKING_MARGIN: f64 = 1.5;

/// Poisson's ratio of concrete: common practice, 0.15 to 0.20.
pub const POISSON: f64 = 0.2;

/// Strain at which concrete crushes (ACI 318-19 22.2.2.1).
pub(super) const CRUSHING_STRAIN: f64 = 0.003;

pub use crate::measure::exact::GRAVITY;

/// Modulus of elasticity of reinforcing bars (ACI 318-19 20.2.2.2).
pub fn steel_stiffness() -> Pressure {
    psi(29e6)
}

/// Yield strength of grade 60 bars (ASTM A615).
pub fn bar_yield() -> Pressure {
    psi(60_000.0)
}

/// Yield strength of expanded metal (ACI 549.1R, from memory).
pub fn lath_yield() -> Pressure {
    psi(45_000.0)
}

/// How far hands reach under the edge of a top. Common practice.
pub fn grip() -> Length {
    inches(2.0)
}

/// Longer than this nobody waits for a top to get stronger: the age that strengths are stated at. Common practice, no
/// source.
pub fn longest_wait() -> Time {
    Time::new::<day>(28.0)
}

/// Source of [`CRACKING_MARGIN`].
pub const ALLOWABLE: Source = Source::Standard("PCI Design Handbook: modulus of rupture ÷ 1.5 (from memory)");

/// Source of the modulus of rupture.
pub const RUPTURE: Source = Source::Standard("ACI 318-19 19.2.3.1: 7.5 √f′c (psi), 0.62 √f′c (MPa)");

/// Source of the modulus of elasticity by density.
pub const STIFFNESS_BY_DENSITY: Source =
    Source::Standard("ACI 318-19 19.2.2.1(a): 33 w^1.5 √f′c (lb/ft³, psi), 0.043 w^1.5 √f′c (kg/m³, MPa)");

/// Source of the modulus of elasticity of concrete of usual weight.
pub const STIFFNESS_USUAL: Source = Source::Standard("ACI 318-19 19.2.2.1(b): 57,000 √f′c (psi), 4700 √f′c (MPa)");

/// Source of the stress block.
pub const STRESS_BLOCK: Source = Source::Standard("ACI 318-19 22.2.2: stress block, crushing at 0.003");

/// Source of the effectiveness of expanded metal.
pub const EFFECTIVENESS: Source = Source::Standard("ACI 549.1R-93: expanded metal 0.65, 0.20, 0.30 (from memory)");

/// What weight is multiplied by when a top is stripped from a smooth form (PCI Design Handbook, from memory).
pub const STRIPPING: f64 = 1.3;

/// The same from a smooth form with false joints, which a cutout's knockout is (PCI Design Handbook, from memory).
pub const STRIPPING_KNOCKOUTS: f64 = 1.4;

/// The same from a sculptured matrix, which a rough liner is (PCI Design Handbook, from memory).
pub const STRIPPING_ROUGH: f64 = 1.6;

/// What weight is multiplied by when a top is handled (PCI Design Handbook, from memory).
pub const HANDLING: f64 = 1.2;

/// What weight is multiplied by when a top travels (PCI Design Handbook, from memory).
pub const TRAVEL: f64 = 1.5;

/// Source of [`STRIPPING`] and the like, [`HANDLING`] and [`TRAVEL`].
pub const MULTIPLIERS: Source = Source::Standard(
    "PCI Design Handbook: stripping 1.3 smooth, 1.4 with false joints, 1.6 sculptured; 1.2 handling, 1.5 travel (from memory)",
);

/// Where supports stand for the least bending, as a share of the length from each end: there the moments over
/// them and between them are equal (beam theory).
pub const LEAST_BENDING: f64 = 0.2071;

/// A cutout that is smaller than this in either direction has no bowl but a drain. Common practice, no source.
pub fn bowl_least() -> Length {
    inches(10.0)
}

/// What water weighs: 62.4 lb/ft³.
pub fn water() -> MassDensity {
    pounds_a_cubic_foot(62.4)
}

/// How much a batten, a bench or the side of a cabinet gives: force a length of it for each length that it gives.
/// Judgement: a panel of 3/4 in, 30 in high.
pub fn batten_stiffness() -> Pressure {
    psi(1e4)
}

/// The same of a strip of foam as wide as [`foam_strip`]: 2 in of it that a pound a square inch presses by 1/10 in or so.
/// Judgement.
pub fn foam_stiffness() -> Pressure {
    psi(100.0)
}

/// A bed of foam is worked out as strips of about this width.
pub fn foam_strip() -> Length {
    inches(10.0)
}

/// The same of hands. Judgement: a hand's width gives 1/16 in or so under what it can carry.
pub fn hand_stiffness() -> Pressure {
    psi(500.0)
}

/// How much larger than the mean over a cut the pull beside an inward corner counts in a check by hand. Judgement, held
/// against maps of random tops by a property test.
pub const CORNER_FACTOR: f64 = 1.3;

/// The same anywhere: a plate is pulled a little more along its free edges than in the mean.
pub const EDGE_FACTOR: f64 = 1.03;

/// What is added to [`CORNER_FACTOR`] where one strip beside an opening is far narrower than another.
pub const UNEVEN_FACTOR: f64 = 0.45;

/// The same, times, at a corner that is rounded by less than half of the thickness.
pub const SHARP_FACTOR: f64 = 1.25;

/// A top deeper than this share of its length is squat: what two hands bear is then far from even over its depth.
pub const SQUAT: f64 = 0.7;

/// What the mean counts times in a squat top that two carry.
pub const SQUAT_FACTOR: f64 = 1.7;

/// The same beside the inner corner of an L, which the whole of a leg turns about.
pub const INNER_CORNER_FACTOR: f64 = 2.4;

/// The same where hands bear at four places and not along an edge.
pub const HANDS_FACTOR: f64 = 2.8;

/// Source of [`CORNER_FACTOR`], [`INNER_CORNER_FACTOR`], the ones between and [`HANDS_FACTOR`].
pub const CORNER: Source = Source::Practice;
