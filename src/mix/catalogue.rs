//! The bags every shelf starts with, by family; figures as given in the trade, each to be outranked
//! by the maker's own label.

use crate::job::Bag;
use crate::measure::Units;

/// The starting bags, in the units of the workshop. Never empty.
pub fn catalogue(_units: Units) -> Vec<Bag> {
    todo!()
}
