//! Rails: the strips of concrete left beside cutouts, where tops crack.

use crate::job::Side;
use crate::measure::Length;
use kurbo::Point;

/// What a rail lies between, on one of its two sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RailEnd {
    /// An edge of the outline.
    Edge(Side),
    /// A cutout, by its index.
    Cutout(usize),
    /// A hole: set and index in the set.
    Hole(usize, usize),
}

/// The thinnest place between a cutout or hole and an edge or another cutout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rail {
    /// The cutout or hole that it lies beside.
    pub from: RailEnd,
    /// What is on its other side.
    pub to: RailEnd,
    /// Least width; negative where the two run into each other or past the outline.
    pub width: Length,
    /// Where the least width is measured, from one side to the other; metres.
    pub at: (Point, Point),
}
