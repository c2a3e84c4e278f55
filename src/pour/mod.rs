//! When things happen: batches against the workable time.

use crate::measure::{Temperature, Time};
use crate::working::Figure;

/// One change that, alone, makes a pour fit; each is computed, not listed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// So many people mixing at the same time.
    People(u32),
    /// So many bags in one batch.
    BagsABatch(u32),
    /// Mix and air no warmer than this.
    CoolTo(Temperature),
}

/// The batches of one piece against the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Batches to mix.
    pub batches: Figure<u32>,
    /// From first water to last placement.
    pub takes: Figure<Time>,
    /// How long the mix stays workable at the day's temperature.
    pub workable: Figure<Time>,
    /// It fits inside the workable time.
    pub fits: bool,
    /// What would make it fit; empty when it does.
    pub remedies: Vec<Remedy>,
}
