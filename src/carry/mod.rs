//! Weight, and the people it takes.

use crate::measure::Mass;
use crate::working::Figure;

/// Who carries a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crew {
    /// So many people, one to three.
    Hands(u32),
    /// More than three people should lift by hand: it rides on a cart, three steady it.
    Aid,
}

/// What a piece weighs, at two dates.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    /// As it comes out of the form: cast thickness, fresh density, steel included.
    pub as_cast: Figure<Mass>,
    /// As installed: finished thickness, steel included; at the density when dry where the bag tells
    /// it, else at the fresh density, which errs on the heavy side.
    pub installed: Figure<Mass>,
}
