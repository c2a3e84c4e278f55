//! How a rigid top gets between its walls.

use super::reading::{Span, Walls};
use crate::measure::Length;
use crate::measure::geometry_tolerance;
use kurbo::Point;
use uom::si::length::meter;

/// One way of getting a top in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// How much wider than it needs the room between the side walls is, both sides together, at the
    /// tightest moment; negative where it is too narrow. None where no two walls limit it.
    pub margin: Option<Length>,
}

impl Way {
    /// Whether the top gets in this way.
    pub fn works(&self) -> bool {
        self.margin.is_none_or(|margin| margin >= -geometry_tolerance())
    }
}

/// The ways of getting a top in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaysIn {
    /// Lowered level from above. It needs no more than its own place.
    pub lowered: Way,
    /// Slid in level from the front. Every part of it passes the front ends of the walls.
    pub slid: Way,
    /// Tilted, one end in first, over its place, and let down. A section of length L and thickness t
    /// needs √(L² + t²) of width while its end swings by. Source: geometry.
    pub tilted: Way,
}

/// Why there is no saying how a top gets in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WayProblem {
    /// A corner or the thickness is no number, or the thickness is not positive.
    NoNumber,
    /// A side of the opening or the top does not run from front to back.
    SideAcross,
    /// The top in its place runs into the back wall.
    IntoTheBackWall,
}

/// A side edge as a line from its front to its back end.
#[derive(Clone, Copy)]
struct SideEdge {
    front: Point,
    back: Point,
}

impl SideEdge {
    fn new(front: Point, back: Point) -> Result<Self, WayProblem> {
        let goes_back = back.y - front.y > geometry_tolerance().get::<meter>();
        if goes_back { Ok(Self { front, back }) } else { Err(WayProblem::SideAcross) }
    }

    fn across(&self, y: f64) -> f64 {
        let share = (y - self.front.y) / (self.back.y - self.front.y);
        self.front.x + (self.back.x - self.front.x) * share
    }

    /// The least x by which this edge, `out` of its place towards the front, lies to the right of a
    /// wall beside it; None where the two are not beside each other. Both are straight, so it is least
    /// at an end of what they share.
    fn right_of(&self, wall: &Self, out: f64) -> Option<f64> {
        let from = self.front.y.max(wall.front.y + out);
        let to = self.back.y.min(wall.back.y + out);
        let gap = |y: f64| self.across(y) - wall.across(y - out);
        (from <= to).then(|| gap(from).min(gap(to)))
    }

    fn mirrored(&self) -> Self {
        let mirror = |point: Point| Point::new(-point.x, point.y);
        Self { front: mirror(self.front), back: mirror(self.back) }
    }
}

/// How a top gets into its place in an opening, and with how much to spare. Both are given in one
/// plane, the top in its place, their corners as in [`super::Survey::corners`]; sides that are free do
/// not count. The top may be shifted sideways on the way, not turned.
///
/// # Errors
/// Where opening and top are not such; see [`WayProblem`].
pub fn ways_in(opening: &[Point; 4], walls: Walls, top: &[Point; 4], thickness: Length) -> Result<WaysIn, WayProblem> {
    let thickness = thickness.get::<meter>();
    let finite = opening.iter().chain(top).all(|point| point.is_finite()) && thickness.is_finite();
    if !finite || thickness <= 0.0 {
        return Err(WayProblem::NoNumber);
    }
    let sides = |corners: &[Point; 4]| -> Result<[SideEdge; 2], WayProblem> {
        let [front_left, front_right, back_right, back_left] = *corners;
        Ok([SideEdge::new(front_left, back_left)?, SideEdge::new(front_right, back_right)?])
    };
    let ([wall_left, wall_right], [left, right]) = (sides(opening)?, sides(top)?);
    let along_back = opening[2] - opening[3];
    let tolerance = geometry_tolerance().get::<meter>();
    if top.iter().any(|&corner| along_back.cross(corner - opening[3]) > tolerance * along_back.hypot()) {
        return Err(WayProblem::IntoTheBackWall);
    }
    if !(walls.has(Span::Left) && walls.has(Span::Right)) {
        let free = Way { margin: None };
        return Ok(WaysIn { lowered: free, slid: free, tilted: free });
    }

    let to_spare = |out: f64| -> Option<f64> {
        let at_left = left.right_of(&wall_left, out)?;
        Some(at_left + right.mirrored().right_of(&wall_right.mirrored(), out)?)
    };
    // Between the moments at which an end of the top passes an end of a wall, what is to spare is the
    // least of straight lines, so it is least at one of these moments.
    let ends = |edges: [SideEdge; 2]| edges.map(|edge| [edge.front.y, edge.back.y]).concat();
    let (of_top, of_walls) = (ends([left, right]), ends([wall_left, wall_right]));
    let moments = of_top.iter().flat_map(|y| of_walls.iter().map(move |wall| y - wall)).filter(|out| *out >= 0.0);
    let in_place = to_spare(0.0);
    let sliding = moments.chain([0.0]).filter_map(to_spare).reduce(f64::min);
    let longest = (top[1].x - top[0].x).max(top[2].x - top[3].x);
    let swing = longest.hypot(thickness) - longest;
    let way = |margin: Option<f64>| Way { margin: margin.map(Length::new::<meter>) };
    Ok(WaysIn { lowered: way(in_place), slid: way(sliding), tilted: way(in_place.map(|spare| spare - swing)) })
}
