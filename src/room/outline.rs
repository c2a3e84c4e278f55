//! The top from the opening: every edge moved by its own distance, corners mitred.

use super::reading::{Span, Walls};
use crate::measure::Length;
use crate::measure::geometry_tolerance;
use kurbo::{Point, Vec2};
use uom::si::length::meter;

/// How far each edge of a top is from its side of the opening: the clearance where there is a wall,
/// the overhang where there is none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Around {
    /// At the front.
    pub front: Length,
    /// At the right.
    pub right: Length,
    /// At the back.
    pub back: Length,
    /// At the left.
    pub left: Length,
}

/// Why edges cannot be moved. Corners and edges are counted from zero; an edge begins at the corner of
/// its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OffsetProblem {
    /// Fewer than three corners, or not one distance an edge.
    NoOutline,
    /// A corner or a distance that is no number.
    NoNumber,
    /// The corners do not go round counter-clockwise.
    NotCounterClockwise,
    /// An edge of no length.
    NoEdge {
        /// Which edge.
        edge: usize,
    },
    /// Two edges in one line that move by unequal distances, or one that turns back on the other: they
    /// meet nowhere.
    MeetNowhere {
        /// The corner between the two.
        corner: usize,
    },
    /// The neighbours of an edge meet before they reach it: nothing of it is left.
    Swallowed {
        /// Which edge.
        edge: usize,
    },
}

/// Moves every edge of an outline outward by its own distance, inward where that is negative, and
/// lets neighbouring edges meet where their lines cross. Corners go round counter-clockwise.
///
/// # Errors
/// Where the edges give no outline; see [`OffsetProblem`].
pub fn offset_outline(corners: &[Point], outward: &[Length]) -> Result<Vec<Point>, OffsetProblem> {
    let count = corners.len();
    if count < 3 || outward.len() != count {
        return Err(OffsetProblem::NoOutline);
    }
    if !(corners.iter().all(|corner| corner.is_finite()) && outward.iter().all(|by| by.get::<meter>().is_finite())) {
        return Err(OffsetProblem::NoNumber);
    }
    let twice: f64 = (0..count).map(|at| corners[at].to_vec2().cross(corners[(at + 1) % count].to_vec2())).sum();
    if !(twice.is_finite() && twice > 0.0) {
        return Err(OffsetProblem::NotCounterClockwise);
    }
    let least = geometry_tolerance().get::<meter>();
    let mut lines: Vec<(Point, Vec2)> = Vec::with_capacity(count);
    for (edge, &from) in corners.iter().enumerate() {
        let along = corners[(edge + 1) % count] - from;
        let length = along.hypot();
        if !(length.is_finite() && length > least) {
            return Err(OffsetProblem::NoEdge { edge });
        }
        let direction = along / length;
        let out = Vec2::new(direction.y, -direction.x);
        lines.push((from + out * outward[edge].get::<meter>(), direction));
    }
    let mut moved = Vec::with_capacity(count);
    for (corner, &(start, direction)) in lines.iter().enumerate() {
        let (before, coming) = lines[(corner + count - 1) % count];
        let turn = coming.cross(direction);
        let met = if turn.abs() > 1e-9 {
            before + coming * ((start - before).cross(direction) / turn)
        } else if coming.dot(direction) > 0.0 && (start - before).cross(direction).abs() <= least {
            start
        } else {
            return Err(OffsetProblem::MeetNowhere { corner });
        };
        moved.push(met);
    }
    for (edge, &(_, direction)) in lines.iter().enumerate() {
        let along = moved[(edge + 1) % count] - moved[edge];
        let left = along.dot(direction);
        if !(left.is_finite() && left > least) {
            return Err(OffsetProblem::Swallowed { edge });
        }
    }
    Ok(moved)
}

/// The top that fits an opening: inside each wall by its clearance, past each free side by its
/// overhang. Corners as in [`super::Survey::corners`].
///
/// # Errors
/// Where nothing of an edge is left, or the corners are none; see [`OffsetProblem`].
pub fn top_in_opening(corners: &[Point; 4], walls: Walls, around: &Around) -> Result<[Point; 4], OffsetProblem> {
    let outward = |side: Span, by: Length| if walls.has(side) { -by } else { by };
    let outward = [
        outward(Span::Front, around.front),
        outward(Span::Right, around.right),
        outward(Span::Back, around.back),
        outward(Span::Left, around.left),
    ];
    let moved = offset_outline(corners, &outward)?;
    moved.try_into().map_err(|_| OffsetProblem::NoOutline)
}
