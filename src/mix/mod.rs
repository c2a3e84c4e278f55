//! What is poured: the bag catalogue, volumes, bags, water, additives.

mod catalogue;

pub use catalogue::catalogue;

use crate::measure::{Dose, MassDensity, Volume};
use crate::working::Figure;

/// What has to be poured into one form.
#[derive(Clone, Debug, PartialEq)]
pub struct Pour {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// The form's clear space less knockouts and less what the liner takes.
    pub net: Figure<Volume>,
    /// The same with the spare that is ordered beyond it.
    pub with_spare: Figure<Volume>,
    /// Bags to mix for this piece alone, rounded up.
    pub bags: Figure<u32>,
    /// Density of the fresh mix, by mass and yield.
    pub fresh_density: Figure<MassDensity>,
}

/// One additive of an order.
#[derive(Clone, Debug, PartialEq)]
pub struct AdditiveOrder {
    /// What the maker calls it.
    pub name: String,
    /// Into every bag.
    pub a_bag: Dose,
    /// For all bags of the order.
    pub in_all: Dose,
}

/// What to order of one bag, for all pieces that are cast from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// Volume of all its pieces, spare included.
    pub volume: Figure<Volume>,
    /// Whole bags.
    pub bags: Figure<u32>,
    /// What the last bag leaves over, when mixed.
    pub left_over: Figure<Volume>,
    /// Water into every bag.
    pub water_a_bag: Volume,
    /// Water for all bags.
    pub water: Figure<Volume>,
    /// Additives, in the order of the bag; unreadable doses wait in the field itself.
    pub additives: Vec<AdditiveOrder>,
}
