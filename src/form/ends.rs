//! How the sides of a form end where they meet.
//!
//! A side stands outside one edge of the clear outline and is as thick as its stock. Everything here is
//! exact plane geometry, in metres, in the frame of the clear outline.
//!
//! * Square corners that point outward: the side that lies more nearly left to right runs past the other.
//! * Square inside corners: nothing can run past without standing in the concrete. The side that lies more
//!   nearly left to right ends at the corner, its end in line with the other's face; the other butts against
//!   its back.
//! * Any other corner of two straight sides is mitred, both boards through half the angle.
//! * An inside corner with a radius smaller than the board is thick is made as if it were sharp, and the
//!   boards are then rounded over.
//! * Along an arc, a strip or stack of layers meets its smooth neighbours end to end; at an angle, a straight
//!   neighbour runs past it.
//! * A step that is no higher than the board is thick is the end of the board that stands further in.

use crate::measure::{Angle, Length};
use crate::plane::{Edge, EdgeTag, Outline, Vertex};
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};
use uom::si::angle::radian;

/// Corners that differ less from square, or from straight, are cut square: 0.05°, about 1/64 in over 18 in,
/// in radians. Common practice.
pub(super) const SQUARE: f64 = 0.000_9;

/// An arc that turns by less than this, radians, out of its neighbour runs smoothly into it: 1°.
const SMOOTH: f64 = PI / 180.0;

/// What a board may miss by: 0.001 mm, in metres.
const TOUCH: f64 = 1e-6;

/// One of the two long faces of a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// Towards the concrete.
    Inside,
    /// Away from it.
    Outside,
}

/// How the end of a side is cut, and what it meets there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EndCut {
    /// Square, past the corner: its neighbour butts against its inside face.
    RunsPast,
    /// Square, against the inside face of the neighbour that runs past.
    Butts,
    /// Square, at an inside corner: the end itself is part of what the concrete is cast against.
    Shows,
    /// Square, at an inside corner: against the back of the neighbour whose end shows.
    ButtsBehind,
    /// Square, against the square end of the neighbour, in line with it.
    Meets,
    /// Through half the corner's angle, as its neighbour is.
    Mitred {
        /// The tilt that the saw is set to: off square.
        saw: Angle,
        /// The face that is the longer one at this end.
        long: Face,
    },
    /// On a slant, to lie against a neighbour that is not square to it.
    Fitted {
        /// The tilt that the saw is set to: off square.
        saw: Angle,
        /// The face that is the longer one at this end.
        long: Face,
    },
}

/// One end of a side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// How it is cut.
    pub cut: EndCut,
    /// The edge of the clear outline whose side it meets, by its index.
    pub toward: usize,
    /// The radius by which its corner towards the concrete is rounded over.
    pub rounded: Option<Length>,
}

/// Where one end of a side lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stop {
    pub end: End,
    /// Where the inside face ends, before any rounding over.
    pub face: Point,
    /// Where the inside face ends, and the arc that rounds it over: its bulge as the outline runs, and its
    /// other end.
    inner: Point,
    round: Option<(f64, Point)>,
    /// Where the outside face ends.
    pub outer: Point,
}

/// One edge of the clear outline, with what stands outside it.
#[derive(Clone, Copy)]
struct Side<'a> {
    index: usize,
    edge: &'a Edge,
    depth: f64,
}

/// Where every side starts and ends; nothing for an edge without a side of its own. `depths` are the
/// thicknesses of the sides, one for each edge.
pub(super) fn stops(clear: &Outline, depths: &[f64]) -> Vec<Option<[Stop; 2]>> {
    let edges = clear.edges();
    let side =
        |index: usize| Side { index, edge: &edges[index], depth: depths.get(index).copied().unwrap_or_default() };
    let absorbed: Vec<bool> = (0..edges.len()).map(|index| absorbed(clear, &side, index)).collect();
    let mut starts: Vec<Option<Stop>> = vec![None; edges.len()];
    let mut ends = starts.clone();
    for vertex in (0..edges.len()).filter(|vertex| !absorbed[clear.before(*vertex)]) {
        let one = side(clear.before(vertex));
        let (other, (end, start)) = if absorbed[vertex] {
            let other = side(clear.after(vertex));
            (other, across(one, &edges[vertex], other))
        } else {
            (side(vertex), joint(one, side(vertex)))
        };
        ends[one.index] = Some(end);
        starts[other.index] = Some(start);
    }
    let both = |index: usize| starts[index].zip(ends[index]).filter(|_| !absorbed[index]);
    (0..edges.len()).map(|index| both(index).map(|(start, end)| [start, end])).collect()
}

/// The edge has no side of its own: it is a rounded inside corner that its neighbours are rounded over to,
/// or a step that is the end of one of them.
fn absorbed<'a>(clear: &Outline, side: &dyn Fn(usize) -> Side<'a>, index: usize) -> bool {
    let (before, one, after) = (side(clear.before(index)), side(index), side(clear.after(index)));
    let straight = before.edge.is_straight() && after.edge.is_straight() && before.index != after.index;
    let turns = [turn(before.edge, one.edge), turn(one.edge, after.edge)];
    match one.edge.tag() {
        EdgeTag::Corner(..) if straight && one.edge.is_inward() => {
            let smooth = turns.iter().all(|turn| turn.abs() < SMOOTH);
            let radius = one.edge.radius().unwrap_or(f64::INFINITY);
            smooth && one.edge.sweep().abs() < PI - 0.02 && radius <= before.depth.max(after.depth) + TOUCH
        }
        EdgeTag::Step(..) if one.edge.is_straight() => {
            let square = turns.iter().all(|turn| (turn.abs() - FRAC_PI_2).abs() < SMOOTH);
            let inner = if turns[0] < 0.0 { before.depth } else { after.depth };
            square && turns[0] * turns[1] < 0.0 && one.edge.length() <= inner + TOUCH
        }
        _ => false,
    }
}

/// The angle that the direction turns through from the end of one edge to the start of the next, positive
/// counter-clockwise; radians.
fn turn(one: &Edge, other: &Edge) -> f64 {
    angle(one.direction_at_end(), other.direction_at_start())
}

fn angle(from: Vec2, to: Vec2) -> f64 {
    from.cross(to).atan2(from.dot(to))
}

/// Two sides with an edge between them that has no side of its own.
fn across(one: Side, between: &Edge, other: Side) -> (Stop, Stop) {
    if between.is_straight() {
        let at = |side: Side, toward, corner: Point, normal| stop(EndCut::Meets, toward, corner, side.depth * normal);
        return (
            at(one, other.index, between.start(), one.edge.normal_at(1.0)),
            at(other, one.index, between.end(), other.edge.normal_at(0.0)),
        );
    }
    let radius = between.radius().unwrap_or_default();
    let reach = radius * (between.sweep() / 2.0).tan().abs();
    let corner = one.edge.end() + reach * one.edge.direction_at_end();
    let (mut end, mut start) = straight_joint(one, other, corner);
    let rounded = Some(Length::new::<uom::si::length::meter>(radius));
    let middle = between.point_at(0.5);
    let half = (between.sweep() / 8.0).tan();
    let (end_round, start_round) = match (end.end.cut, start.end.cut) {
        (EndCut::Shows, _) => (Some((between.bulge(), between.end())), None),
        (_, EndCut::Shows) => (None, Some((between.bulge(), between.start()))),
        _ => (Some((half, middle)), Some((half, middle))),
    };
    if end_round.is_some() {
        (end.inner, end.round, end.end.rounded) = (between.start(), end_round, rounded);
    }
    if start_round.is_some() {
        (start.inner, start.round, start.end.rounded) = (between.end(), start_round, rounded);
    }
    (end, start)
}

/// An end at that point of the inside face; from there the way to the outside face.
fn stop(cut: EndCut, toward: usize, face: Point, to_outside: Vec2) -> Stop {
    let end = End { cut, toward, rounded: None };
    Stop { end, face, inner: face, round: None, outer: face + to_outside }
}

fn joint(one: Side, other: Side) -> (Stop, Stop) {
    if one.edge.is_straight() && other.edge.is_straight() {
        straight_joint(one, other, one.edge.end())
    } else {
        arc_joint(one, other)
    }
}

/// Two straight sides that meet at that corner, which rounding may have taken off both.
fn straight_joint(one: Side, other: Side, corner: Point) -> (Stop, Stop) {
    let (a, b) = (one.edge.direction_at_end(), other.edge.direction_at_start());
    let (na, nb) = (one.edge.normal_at(1.0), other.edge.normal_at(0.0));
    let turn = angle(a, b);
    let of_one = |cut, along: f64| stop(cut, other.index, corner + along * a, one.depth * na);
    let of_other = |cut, along: f64| stop(cut, one.index, corner - along * b, other.depth * nb);
    if turn.abs() < SQUARE {
        return (of_one(EndCut::Meets, 0.0), of_other(EndCut::Meets, 0.0));
    }
    let one_runs = a.x.abs() >= b.x.abs();
    if (turn - FRAC_PI_2).abs() < SQUARE {
        return if one_runs {
            (of_one(EndCut::RunsPast, other.depth), of_other(EndCut::Butts, 0.0))
        } else {
            (of_one(EndCut::Butts, 0.0), of_other(EndCut::RunsPast, one.depth))
        };
    }
    if (turn + FRAC_PI_2).abs() < SQUARE {
        return if one_runs {
            (of_one(EndCut::Shows, 0.0), of_other(EndCut::ButtsBehind, -one.depth))
        } else {
            (of_one(EndCut::ButtsBehind, -other.depth), of_other(EndCut::Shows, 0.0))
        };
    }
    let to_outside = one.depth / (1.0 + na.dot(nb)) * (na + nb);
    let cut = EndCut::Mitred { saw: Angle::new::<radian>(turn.abs() / 2.0), long: long_face(turn) };
    (stop(cut, other.index, corner, to_outside), stop(cut, one.index, corner, to_outside))
}

/// The longer face where the outline turns by that angle.
fn long_face(turn: f64) -> Face {
    if turn > 0.0 { Face::Outside } else { Face::Inside }
}

/// Two sides of which at least one follows an arc.
fn arc_joint(one: Side, other: Side) -> (Stop, Stop) {
    let corner = one.edge.end();
    let (na, nb) = (one.edge.normal_at(1.0), other.edge.normal_at(0.0));
    let turn = turn(one.edge, other.edge);
    if turn.abs() < SMOOTH {
        return (
            stop(EndCut::Meets, other.index, corner, one.depth * na),
            stop(EndCut::Meets, one.index, corner, other.depth * nb),
        );
    }
    let saw = |off: f64| Angle::new::<radian>(off);
    if !one.edge.is_straight() && !other.edge.is_straight() {
        let near = corner + f64::midpoint(one.depth, other.depth) / (1.0 + na.dot(nb)).max(0.05) * (na + nb);
        let at = Back::of(&one).meet(Back::of(&other), near).unwrap_or(near);
        let cut = EndCut::Mitred { saw: saw(turn.abs() / 2.0), long: long_face(turn) };
        return (stop(cut, other.index, corner, at - corner), stop(cut, one.index, corner, at - corner));
    }
    let straight_first = one.edge.is_straight();
    let (straight, arc, along, normal) = if straight_first {
        (one, other, one.edge.direction_at_end(), na)
    } else {
        (other, one, -other.edge.direction_at_start(), nb)
    };
    let near = corner + arc.depth / turn.sin() * along;
    let line = Back::Line { at: corner, along };
    let at = Back::of(&arc).meet(line, near).unwrap_or(near);
    let off = (turn.abs() - FRAC_PI_2).abs();
    let slant = if (at - corner).dot(arc_outward(&arc, straight_first)) > 0.0 { Face::Outside } else { Face::Inside };
    let fitted = if off < SQUARE { EndCut::Butts } else { EndCut::Fitted { saw: saw(off), long: slant } };
    let arc_stop = stop(fitted, straight.index, corner, at - corner);
    let straight_stop = if turn > 0.0 {
        stop(EndCut::RunsPast, arc.index, at, straight.depth * normal)
    } else {
        // Against the back of the strip, whose end shows.
        let tangent = match Back::of(&arc) {
            Back::Circle { center, .. } => Vec2::new(-(at - center).y, (at - center).x),
            Back::Line { along, .. } => along,
        };
        let share = normal.dot(tangent);
        let to_outside = if share.abs() > 1e-6 { straight.depth / share * tangent } else { straight.depth * normal };
        let long = if to_outside.dot(along) > 0.0 { Face::Outside } else { Face::Inside };
        let off = (to_outside.dot(along) / straight.depth).atan().abs();
        let cut = if off < SQUARE { EndCut::ButtsBehind } else { EndCut::Fitted { saw: saw(off), long } };
        stop(cut, arc.index, at, to_outside)
    };
    if straight_first { (straight_stop, arc_stop) } else { (arc_stop, straight_stop) }
}

/// The direction that leads off the end of an arc: at its start, or at its end.
fn arc_outward(arc: &Side, at_start: bool) -> Vec2 {
    if at_start { -arc.edge.direction_at_start() } else { arc.edge.direction_at_end() }
}

/// The line or circle that the outside of a side lies on.
#[derive(Clone, Copy)]
enum Back {
    Line { at: Point, along: Vec2 },
    Circle { center: Point, radius: f64 },
}

impl Back {
    fn of(side: &Side) -> Self {
        match side.edge.center().zip(side.edge.radius()) {
            Some((center, radius)) => Self::Circle { center, radius: radius + side.depth.copysign(side.edge.bulge()) },
            None => Self::Line {
                at: side.edge.start() + side.depth * side.edge.normal_at(0.0),
                along: side.edge.direction_at_start(),
            },
        }
    }

    /// Where the two cut, the cut nearest to that point.
    fn meet(self, other: Self, near: Point) -> Option<Point> {
        let cuts = match (self, other) {
            (Self::Circle { center, radius }, Self::Line { at, along })
            | (Self::Line { at, along }, Self::Circle { center, radius }) => {
                let foot = at + (center - at).dot(along) * along;
                let square = radius * radius - (foot - center).hypot2();
                (square >= 0.0).then(|| [foot + square.sqrt() * along, foot - square.sqrt() * along])
            }
            (Self::Circle { center, radius }, Self::Circle { center: second, radius: second_radius }) => {
                let (way, apart) = (second - center, (second - center).hypot());
                let along = (apart * apart + radius * radius - second_radius * second_radius) / (2.0 * apart);
                let square = radius * radius - along * along;
                (square >= 0.0 && apart > 0.0).then(|| {
                    let (unit, aside) = (way / apart, square.sqrt());
                    [1.0, -1.0].map(|hand| center + along * unit + hand * aside * Vec2::new(-unit.y, unit.x))
                })
            }
            (Self::Line { .. }, Self::Line { .. }) => None,
        };
        let distance = |point: &Point| (*point - near).hypot2();
        cuts.and_then(|cuts| cuts.into_iter().min_by(|one, other| distance(one).total_cmp(&distance(other))))
    }
}

/// The board seen from above, between its two ends; nothing where they leave none of it.
pub(super) fn solid(edge: &Edge, depth: f64, [start, end]: &[Stop; 2]) -> Option<Outline> {
    let outside = match edge.center() {
        None => 0.0,
        Some(center) => {
            let (from, to) = (start.outer - center, end.outer - center);
            // As the edge sweeps, give or take what the ends take off.
            let shift = |share: f64, at: Vec2| angle(edge.normal_at(share), at * edge.bulge().signum());
            let sweep = edge.sweep() + shift(1.0, to) - shift(0.0, from);
            let radius = edge.radius().unwrap_or_default() + depth.copysign(edge.bulge());
            if radius <= TOUCH || sweep * edge.sweep() <= 0.0 {
                return None;
            }
            (sweep / 4.0).tan()
        }
    };
    let mut corners = vec![(end.outer, 0.0)];
    corners.extend(end.round.map(|(bulge, tip)| (tip, -bulge)));
    corners.push((end.inner, -edge.bulge()));
    corners.push((start.inner, -start.round.map_or(0.0, |(bulge, _)| bulge)));
    corners.extend(start.round.map(|(_, tip)| (tip, 0.0)));
    corners.push((start.outer, outside));
    let tag = edge.tag();
    let mut vertices: Vec<Vertex> = corners.into_iter().map(|(at, bulge)| Vertex { at, bulge, tag }).collect();
    // A mitre may use up one face; what is left is still a board.
    vertices.dedup_by(|next, before| (next.at - before.at).hypot() < TOUCH && before.bulge == 0.0);
    Outline::new(&vertices).ok()
}
