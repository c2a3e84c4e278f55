//! Plane geometry of a top: outlines of straight lines and circular arcs, the openings in them, and
//! the distances between.
//!
//! Coordinates are `f64` metres: x to the right, y to the back. Angles are radians, counter-clockwise.
//! An [`Outline`] runs counter-clockwise, so outward is to the right of the direction of travel.
//! Lines and arcs are exact throughout: areas, perimeters, offsets and distances are closed forms, and
//! curves are only approximated where a path is drawn. An [`Ellipse`] has no closed form for
//! everything; each function says what it does instead.
//!
//! # How an edge is stored
//! An edge is its two ends and its *bulge*, the tangent of a quarter of its sweep. Neighbours share
//! their ends, so a chain is closed whatever is done to it; turning, moving and mirroring touch only
//! the ends; a straight edge is a bulge of nothing, and not an arc of endless radius; and an arc that
//! hardly bends keeps its rise without loss, where a centre far away would not.
//!
//! # How an outline is offset
//! Every edge moves by its own distance, outward if positive.
//! * Where two edges meet at an angle, they still meet: lines in a mitre, arcs where the moved circles
//!   cut, at a corner of the same hand.
//! * Where two edges run smoothly into each other and move equally, they still do. Where they move
//!   unequally there is a step of the difference, straight across: that is what a liner leaves where
//!   it ends. Edges that turn by less than a degree count as smooth.
//! * A rounded corner, an arc tagged [`EdgeTag::Corner`], blends its neighbours whatever they do: it is
//!   made again between them, its radius changed by its own distance. If all three move equally that is
//!   the concentric arc. Two rounded corners that leave nothing of the side between them stay concentric
//!   instead, each by its own distance.
//! * Nothing is left out or cut short: an offset that would make an edge vanish is an
//!   [`OffsetError`] that names it and the largest distance that works.

mod carrier;
mod corner;
mod distance;
mod edge;
mod ellipse;
mod making;
mod offset;
mod opening;
mod outline;
mod rail;
mod slice;

pub use corner::CornerError;
pub use distance::{Gap, between_edges};
pub use edge::{Edge, EdgeTag};
pub use ellipse::Ellipse;
pub use offset::{OffsetError, OffsetTrouble};
pub use opening::Opening;
pub use outline::{Outline, OutlineError, Vertex};
pub use rail::{Rail, RailTo, between_openings, rails, rails_where, to_edges};
pub use slice::Slice;

use kurbo::{Point, Vec2};

/// The shortest edge, 0.001 mm in metres: nobody cuts a shorter one.
pub const LEAST_EDGE: f64 = 1e-6;
/// The least rise of an arc over its chord, 0.001 mm in metres; one that bends less is straight.
pub const LEAST_RISE: f64 = 1e-6;
/// The largest coordinate, in metres: far beyond any room, and small enough to calculate without loss.
pub const LARGEST: f64 = 1e4;
/// What is nearer than this touches; metres.
const TOUCH: f64 = 1e-9;
/// How closely a drawn curve follows the true one: 0.001 mm, in metres.
const DRAWING_TOLERANCE: f64 = 1e-6;

/// The vector turned a quarter to the left.
fn left_of(vector: Vec2) -> Vec2 {
    Vec2::new(-vector.y, vector.x)
}

/// The vector turned a quarter to the right: outward, if it is the direction of an edge.
fn right_of(vector: Vec2) -> Vec2 {
    Vec2::new(vector.y, -vector.x)
}

/// The vector with length one; nothing stays nothing.
fn unit(vector: Vec2) -> Vec2 {
    let length = vector.hypot();
    if length > 0.0 { vector / length } else { Vec2::ZERO }
}

/// The point turned about another one.
fn turned(point: Point, angle: f64, about: Point) -> Point {
    let (sine, cosine) = angle.sin_cos();
    let from = point - about;
    about + Vec2::new(cosine * from.x - sine * from.y, sine * from.x + cosine * from.y)
}
