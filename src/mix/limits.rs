//! The limits and constants of the mix, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::measure::MassDensity;
use crate::measure::exact::pounds_a_cubic_foot;
use crate::working::Source;

/// More bags than this is a typing error, not an order.
pub const MOST_BAGS: f64 = 100_000.0;

/// Less spare mix than this risks a bag too few. Common practice: 10 %.
pub const SPARE_LEAST: f64 = 0.05;

/// More spare mix than this is mostly thrown away. Common practice: 10 %.
pub const SPARE_MOST: f64 = 0.25;

/// Fresh mortar and concrete weigh more than this. Common practice: 130 to 145 lb/ft³.
pub fn fresh_density_least() -> MassDensity {
    pounds_a_cubic_foot(110.0)
}

/// Fresh mortar and concrete weigh less than this. Common practice: 130 to 145 lb/ft³.
pub fn fresh_density_most() -> MassDensity {
    pounds_a_cubic_foot(160.0)
}

/// Water as mixing water is counted: 62.4 lb/ft³, as ACI 211.1 has it.
pub fn water_density() -> MassDensity {
    pounds_a_cubic_foot(62.4)
}

/// Source of the yield rule.
pub const YIELD: Source = Source::Standard("ASTM C138: yield = mass ÷ fresh density");

/// Source of [`water_density`].
pub const WATER: Source = Source::Standard("ACI 211.1: water at 62.4 lb/ft³ (1000 kg/m³)");

/// More pigment than this, of the cement's mass, costs strength and gives no more colour. Common practice.
pub const PIGMENT_MOST: f64 = 0.10;

/// Rounding to the scale may change the volume of a mix by so much; more wants a finer scale. Common practice.
pub const WEIGHING_VOLUME: f64 = 0.01;

/// Rounding to the scale may change any one part of a mix by so much; more wants a finer scale. Common practice.
pub const WEIGHING_PART: f64 = 0.05;

/// A ratio by mass, a share or a specific gravity over this is a typing error.
pub const LARGEST_RATIO: f64 = 100.0;

/// Concrete with more cement than this in its volume runs hot and shrinks: 900 lb in a cubic yard. Common practice.
pub fn cement_most() -> MassDensity {
    pounds_a_cubic_foot(900.0 / 27.0)
}

/// No plasticiser saves more of the mixing water than this. Common practice: the strongest are sold for 40 %.
pub const LESS_WATER_MOST: f64 = 0.4;

/// Concrete in which cement and water are more than this share of the volume shrinks and curls. Common practice.
pub const PASTE_MOST: f64 = 0.4;

/// Stone is at most this share of the thickness.
pub const STONE_TO_THICKNESS: f64 = 1.0 / 3.0;

/// Source of the largest stone.
pub const STONE: Source = Source::Standard("ACI 211.1: stone of at most a third of the depth of a slab");

/// Source of the absolute volume method and its tables.
pub const PROPORTIONS: Source = Source::Standard("ACI 211.1-91: proportions by absolute volume");

/// More batches than this in one pour are not laid out: a garage mixes six or twenty.
pub const MOST_BATCHES: usize = 1000;
