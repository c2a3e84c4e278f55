//! A free outline walked corner by corner.

use super::{Angle, limits};
use crate::measure::Length;
use crate::measure::geometry_tolerance;
use kurbo::{Point, Vec2};
use std::f64::consts::{PI, TAU};
use uom::si::angle::radian;
use uom::si::length::meter;

/// One edge of an outline as it is walked, counter-clockwise, the inside to the left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WalkSide {
    /// The inside angle of the corner at which it begins, over 0° and under 360°.
    pub angle: Angle,
    /// From that corner to the next.
    pub length: Length,
}

/// A walked outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// The corners with the closure spread, the first at the origin, the first edge along the x axis
    /// but for what the spreading turns it.
    pub corners: Vec<Point>,
    /// Where the walk came to after each edge, angles spread but not the closure: one point more than
    /// there are corners, the last of which should have been the first.
    pub walked: Vec<Point>,
    /// How much the angles add up to over (n − 2) × 180°; spread over the corners in equal parts.
    pub angle_misclosure: Angle,
    /// From the first corner to where the walk came back to. Spread by the compass rule (Bowditch):
    /// each edge takes its share by its length. Source: surveying textbooks, from memory.
    pub closure: Length,
    /// The direction of the closure, counter-clockwise from the first edge, −180° to 180°; zero where
    /// there is none.
    pub direction: Angle,
    /// The length of the walk for each unit of closure, as surveyors say 1 in so many; None where the
    /// walk closes.
    pub one_in: Option<f64>,
}

/// Why legs give no outline. Legs and corners are counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WalkProblem {
    /// Fewer than three.
    TooFew,
    /// More than [`limits::MOST_CORNERS`].
    TooMany,
    /// A length that is zero, negative, no number, or over [`limits::longest_reading`].
    NoLength {
        /// Which leg.
        leg: usize,
    },
    /// An angle that is no inside angle.
    NoAngle {
        /// Which leg begins there.
        leg: usize,
    },
    /// The angles are further from closing than a turn to the other side at one corner would be: one of
    /// them was measured outside, or a leg is missing.
    AnglesDoNotClose,
    /// The walk comes back further from its start than its longest leg: a leg is missing or wrong.
    DoesNotClose,
    /// Two edges cross.
    Crosses {
        /// The first of the two.
        leg: usize,
        /// The second.
        other: usize,
    },
}

/// Walks an outline and spreads what it does not close by: first the angles in equal parts, then the
/// closure by the compass rule.
///
/// # Errors
/// The first leg that is none, or that the legs do not make an outline; see [`WalkProblem`].
pub fn walk_outline(legs: &[WalkSide]) -> Result<Walk, WalkProblem> {
    if legs.len() < 3 {
        return Err(WalkProblem::TooFew);
    }
    if legs.len() > limits::MOST_CORNERS {
        return Err(WalkProblem::TooMany);
    }
    let longest = limits::longest_reading();
    let no_length = |leg: &WalkSide| !(leg.length > geometry_tolerance() && leg.length <= longest);
    if let Some(leg) = legs.iter().position(no_length) {
        return Err(WalkProblem::NoLength { leg });
    }
    let no_angle = |leg: &WalkSide| !(leg.angle.get::<radian>() > 0.0 && leg.angle.get::<radian>() < TAU);
    if let Some(leg) = legs.iter().position(no_angle) {
        return Err(WalkProblem::NoAngle { leg });
    }

    let count = legs.len() as f64;
    let angles: f64 = legs.iter().map(|leg| leg.angle.get::<radian>()).sum();
    let misclosure = angles - (count - 2.0) * PI;
    // A right angle taken from outside is off by a half turn.
    if misclosure.abs() > PI / 2.0 {
        return Err(WalkProblem::AnglesDoNotClose);
    }
    let (mut heading, mut here) = (0.0, Point::ZERO);
    let mut walked = vec![here];
    for (index, leg) in legs.iter().enumerate() {
        if index > 0 {
            heading += PI - (leg.angle.get::<radian>() - misclosure / count);
        }
        here += Vec2::from_angle(heading) * leg.length.get::<meter>();
        walked.push(here);
    }
    let off = here - Point::ZERO;
    let all: f64 = legs.iter().map(|leg| leg.length.get::<meter>()).sum();
    if off.hypot() > legs.iter().map(|leg| leg.length.get::<meter>()).fold(0.0, f64::max) {
        return Err(WalkProblem::DoesNotClose);
    }
    let mut gone = 0.0;
    let mut corners = Vec::with_capacity(legs.len());
    for (leg, &came_to) in std::iter::zip(legs, &walked) {
        corners.push(came_to - off * (gone / all));
        gone += leg.length.get::<meter>();
    }
    if let Some((leg, other)) = crossing(&corners) {
        return Err(WalkProblem::Crosses { leg, other });
    }
    // Float dust has no direction.
    let closes = off.hypot() <= 1e-12 * all;
    Ok(Walk {
        corners,
        walked,
        angle_misclosure: Angle::new::<radian>(misclosure),
        closure: Length::new::<meter>(off.hypot()),
        direction: Angle::new::<radian>(if closes { 0.0 } else { off.atan2() }),
        one_in: (!closes).then(|| all / off.hypot()),
    })
}

/// The first two edges that cross or touch, other than neighbours at their corner.
fn crossing(corners: &[Point]) -> Option<(usize, usize)> {
    let count = corners.len();
    let edge = |at: usize| (corners[at], corners[(at + 1) % count]);
    let side = |(from, to): (Point, Point), point: Point| (to - from).cross(point - from);
    (0..count).find_map(|one| {
        let mut others = one + 2..count;
        let crosses = |&other: &usize| {
            let neighbours = one == 0 && other == count - 1;
            let (a, b) = (edge(one), edge(other));
            !neighbours && side(a, b.0) * side(a, b.1) <= 0.0 && side(b, a.0) * side(b, a.1) <= 0.0
        };
        others.find(crosses).map(|other| (one, other))
    })
}
