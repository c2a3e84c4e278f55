//! Corners that are rounded or clipped, and edges that are bowed or made round.

use super::carrier::{Carrier, between};
use super::edge::{Edge, EdgeTag, bulge_of};
use super::outline::turn;
use super::{LEAST_EDGE, LEAST_RISE, Outline, OutlineError};
use kurbo::Point;
use std::f64::consts::FRAC_PI_2;

/// Two edges that turn by less than this, radians, make no corner: 0.1°.
const LEAST_TURN: f64 = 0.1 * std::f64::consts::PI / 180.0;
/// How far from a right angle two edges may be and still take a half round: radians.
const SQUARE: f64 = 1e-6;

/// Why a corner or an edge cannot be changed so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CornerError {
    /// There is no edge with that index.
    NoEdge,
    /// A size is nothing, negative or not finite.
    NoSize,
    /// The two edges run into each other without a corner.
    NoCorner,
    /// Only a straight edge can be changed so.
    NotStraight {
        /// The edge that is not.
        edge: usize,
    },
    /// The edge does not stand square on both its neighbours.
    NotSquare {
        /// The edge.
        edge: usize,
    },
    /// The size takes more than that edge has.
    TooLarge {
        /// The edge that is too short.
        edge: usize,
        /// The largest size that would fit, metres.
        most: f64,
    },
    /// The change leaves no outline.
    Outline(OutlineError),
}

impl From<OutlineError> for CornerError {
    fn from(error: OutlineError) -> Self {
        Self::Outline(error)
    }
}

impl Outline {
    /// The corner where that edge starts, rounded by an arc of that radius, metres; it may point outward
    /// or inward, between lines or arcs. The arc takes the index of the corner, except at the first
    /// corner, where it becomes the last edge.
    ///
    /// # Errors
    /// No such corner, no radius, or one that takes more than either edge has: it is never made
    /// smaller to fit. A radius that just uses up an edge leaves the edge out.
    pub fn rounded(&self, vertex: usize, radius: f64) -> Result<Self, CornerError> {
        let before = self.corner_before(vertex)?;
        if !(radius.is_finite() && radius >= LEAST_RISE) {
            return Err(CornerError::NoSize);
        }
        match self.try_rounded(before, vertex, radius) {
            Ok(edges) => Ok(Self::of(edges)?),
            Err(edge) => {
                let (mut fits, mut fails) = (0.0, radius);
                for _ in 0..60 {
                    let middle = f64::midpoint(fits, fails);
                    match self.try_rounded(before, vertex, middle) {
                        Ok(_) => fits = middle,
                        Err(_) => fails = middle,
                    }
                }
                Err(CornerError::TooLarge { edge, most: fits })
            }
        }
    }

    /// The corner where that edge starts, cut off straight: so far along the edge before it, and so far
    /// along the edge itself; metres. Equal lengths at a square corner are a clip of 45°.
    ///
    /// # Errors
    /// As for [`Self::rounded`]; both edges must be straight.
    pub fn clipped(&self, vertex: usize, along_before: f64, along_after: f64) -> Result<Self, CornerError> {
        let before = self.corner_before(vertex)?;
        let mut ends = [Point::ORIGIN; 2];
        for (end, (edge, along, backward)) in
            ends.iter_mut().zip([(before, along_before, true), (vertex, along_after, false)])
        {
            let one = &self.edges()[edge];
            if !one.is_straight() {
                return Err(CornerError::NotStraight { edge });
            }
            if !(along.is_finite() && along >= LEAST_EDGE) {
                return Err(CornerError::NoSize);
            }
            let length = one.length();
            if along > length + LEAST_EDGE {
                return Err(CornerError::TooLarge { edge, most: length });
            }
            let share = (along / length).min(1.0);
            *end = one.point_at(if backward { 1.0 - share } else { share });
        }
        let (one, other) = (&self.edges()[before], &self.edges()[vertex]);
        let cut = Edge::new(ends[0], ends[1], 0.0, EdgeTag::Clip(one.tag().last(), other.tag().first()));
        let trimmed =
            [Edge::new(one.start(), ends[0], 0.0, one.tag()), Edge::new(ends[1], other.end(), 0.0, other.tag())];
        Ok(Self::of(self.replaced(before, vertex, trimmed[0], cut, trimmed[1]))?)
    }

    /// The straight edge bowed to an arc that rises so far over its chord, metres: outward if positive.
    ///
    /// # Errors
    /// No such edge, one that is not straight, no rise, or one that meets another edge.
    pub fn bowed(&self, edge: usize, rise: f64) -> Result<Self, CornerError> {
        let one = self.edges().get(edge).ok_or(CornerError::NoEdge)?;
        if !one.is_straight() {
            return Err(CornerError::NotStraight { edge });
        }
        if !(rise.is_finite() && rise.abs() >= LEAST_RISE) {
            return Err(CornerError::NoSize);
        }
        let mut edges = self.edges().to_vec();
        edges[edge] = Edge::new(one.start(), one.end(), 2.0 * rise / one.chord().hypot(), one.tag());
        Ok(Self::of(edges)?)
    }

    /// The straight edge made a half circle whose crown lies where the edge was; its neighbours, which
    /// stand square on it, end half its length sooner. The half circle keeps the edge's name.
    ///
    /// # Errors
    /// No such edge, edges that are not straight or not square, or a neighbour that is too short; one
    /// that is just used up is left out.
    pub fn half_round(&self, edge: usize) -> Result<Self, CornerError> {
        let one = *self.edges().get(edge).ok_or(CornerError::NoEdge)?;
        let (before, after) = (self.before(edge), self.after(edge));
        let radius = one.length() / 2.0;
        for neighbour in [before, edge, after] {
            let other = &self.edges()[neighbour];
            if !other.is_straight() {
                return Err(CornerError::NotStraight { edge: neighbour });
            }
            if neighbour != edge && other.length() < radius - LEAST_EDGE {
                return Err(CornerError::TooLarge { edge: neighbour, most: 2.0 * other.length() });
            }
        }
        let (start, end) = (self.edges()[before], self.edges()[after]);
        if (turn(&start, &one) - FRAC_PI_2).abs() > SQUARE || (turn(&one, &end) - FRAC_PI_2).abs() > SQUARE {
            return Err(CornerError::NotSquare { edge });
        }
        let (from, to) =
            (start.end() - radius * start.direction_at_end(), end.start() + radius * end.direction_at_start());
        let mut edges = self.edges().to_vec();
        edges[before] = Edge::new(start.start(), from, 0.0, start.tag());
        edges[edge] = Edge::new(from, to, 1.0, one.tag());
        edges[after] = Edge::new(to, end.end(), 0.0, end.tag());
        Ok(Self::of(without_specks(edges))?)
    }

    /// The edge before a corner that can be cut or rounded.
    fn corner_before(&self, vertex: usize) -> Result<usize, CornerError> {
        let edge = self.edges().get(vertex).ok_or(CornerError::NoEdge)?;
        let before = self.before(vertex);
        if turn(&self.edges()[before], edge).abs() < LEAST_TURN { Err(CornerError::NoCorner) } else { Ok(before) }
    }

    /// The edges with that corner rounded, or the edge that is too short for it.
    fn try_rounded(&self, before: usize, vertex: usize, radius: f64) -> Result<Vec<Edge>, usize> {
        let (one, other) = (&self.edges()[before], &self.edges()[vertex]);
        let hand = turn(one, other);
        let (carrier, next) = (Carrier::of(one), Carrier::of(other));
        let (start, end) = carrier.blend(next, radius.copysign(hand)).ok_or(before)?;
        let (from, to) = (carrier.normal_at(start), next.normal_at(end));
        let arc = Edge::new(
            start,
            end,
            bulge_of(from.cross(to).atan2(from.dot(to))),
            EdgeTag::Corner(one.tag().last(), other.tag().first()),
        );
        let trimmed = trimmed(one, carrier, one.start(), start).ok_or(before)?;
        let next_trimmed = self::trimmed(other, next, end, other.end()).ok_or(vertex)?;
        Ok(self.replaced(before, vertex, trimmed, arc, next_trimmed))
    }

    /// The edges with the two at a corner exchanged and another put between.
    fn replaced(&self, before: usize, vertex: usize, one: Edge, between: Edge, other: Edge) -> Vec<Edge> {
        let mut edges = self.edges().to_vec();
        edges[before] = one;
        edges[vertex] = other;
        // At the first corner the new edge comes last, so that the first edge stays the first.
        edges.insert(if vertex == 0 { edges.len() } else { vertex }, between);
        without_specks(edges)
    }
}

/// The edge cut to those ends; a speck if that just uses it up, nothing if it takes more.
fn trimmed(edge: &Edge, carrier: Carrier, start: Point, end: Point) -> Option<Edge> {
    if (end - start).hypot() < LEAST_EDGE {
        return Some(Edge::new(start, end, 0.0, edge.tag()));
    }
    between(edge, carrier, start, end)
}

/// Leaves out edges that a change has just used up, and closes the chain again.
fn without_specks(mut edges: Vec<Edge>) -> Vec<Edge> {
    edges.retain(|edge| edge.chord().hypot() >= LEAST_EDGE);
    let count = edges.len();
    for index in 0..count {
        let start = edges[index].start();
        let before = &mut edges[(index + count - 1) % count];
        *before = Edge::new(before.start(), start, before.bulge(), before.tag());
    }
    edges
}
