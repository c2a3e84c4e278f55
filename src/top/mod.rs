//! The finished thing, as installed, seen from above.
//!
//! Plane coordinates are `f64` metres: x to the right from the left end, y to the back from the front
//! edge, so the front left corner of a rectangle is the origin.

mod clearance;
mod shape;

pub use clearance::{Rail, RailEnd};
pub use shape::Shape;

use crate::job::{EdgeKind, Side};
use crate::measure::{Area, Length};
use crate::working::{Figure, Known};

/// One edge of the finished outline, with what its kind asks of the form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeProfile {
    /// Which edge.
    pub side: Side,
    /// What it is.
    pub kind: EdgeKind,
    /// Mean thickness of its liner; zero when it has none.
    pub liner: Length,
    /// Radius of its easing; zero when it is not eased.
    pub radius: Length,
}

/// The finished outline: a rectangle with its four edges.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Left to right.
    pub width: Length,
    /// Front to back.
    pub depth: Length,
}

/// The geometry of one piece; each part stands on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Top {
    /// The outline.
    pub outline: Known<Outline>,
    /// Finished thickness.
    pub thickness: Known<Length>,
    /// The edges, in the order of [`Side::ALL`].
    pub edges: [Known<EdgeProfile>; 4],
    /// The cutouts, in the order of the job.
    pub cutouts: Vec<Known<Shape>>,
    /// The sets of faucet holes, in the order of the job; every hole of a set is a circle.
    pub holes: Vec<Known<Vec<Shape>>>,
    /// Area of the finished face less cutouts and holes. Waits while a cutout or hole runs past the
    /// outline or into another one.
    pub area: Known<Figure<Area>>,
    /// The strips that are left between cutouts and edges and between cutouts, thinnest first.
    pub rails: Vec<Rail>,
}
