//! An outline with every edge moved by its own distance. The rules are told in [`super`].

use super::carrier::{Carrier, between};
use super::edge::{Edge, EdgeTag, bulge_of};
use super::outline::turn;
use super::{LARGEST, LEAST_EDGE, Outline, OutlineError, unit};
use kurbo::{Point, Vec2};
use std::f64::consts::PI;

/// Two edges that turn by less than this, radians, run smoothly into each other: 1°.
const SMOOTH: f64 = PI / 180.0;
/// Below this turn, radians, the cut of two carriers says less than their common normal.
const NO_TURN: f64 = 1e-4;
/// An arc that turns by less than this, radians, rounds nothing: 0.05°.
const LEAST_CORNER: f64 = 0.05 * PI / 180.0;
/// An arc that turns by more than this is an end, not a rounded corner: radians.
const LARGEST_CORNER: f64 = PI - 0.02;
/// How closely the largest distance that works is found, a tenth of 0.01 mm; metres.
const SEARCH: f64 = 1e-6;

/// Why an outline cannot be offset so, and how far it can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffsetError {
    /// The edge that gives way first.
    pub edge: usize,
    /// What it is called.
    pub tag: EdgeTag,
    /// What happens to it.
    pub trouble: OffsetTrouble,
    /// The edge whose movement is to blame: of that edge and those it meets, the one that moves most.
    pub moved: usize,
    /// The largest distance, with its sign, that the moved edge can take while the others keep their
    /// proportion to it; metres, within 0.01 mm.
    pub largest: f64,
    /// The largest share of all the distances that works, from 0 to 1.
    pub share: f64,
}

/// What happens to an edge that cannot be offset so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OffsetTrouble {
    /// There is not one distance for each edge.
    Miscounted,
    /// Its distance is not finite, or beyond [`LARGEST`].
    NotFinite,
    /// Its neighbours close over it, or its radius shrinks to nothing.
    Swallowed,
    /// It no longer meets the edge after it.
    Apart,
    /// It runs into another edge.
    Crosses {
        /// Which one.
        other: usize,
    },
}

impl Outline {
    /// The outline with each edge moved by its own distance, metres, outward if positive; one distance
    /// for each of [`Self::edges`]. Edges keep their names and order; a step that becomes necessary
    /// comes after the edge that it starts at, and a step that becomes level is left out.
    ///
    /// # Errors
    /// An edge that would vanish, lose its neighbour or run into another one.
    pub fn offset(&self, distances: &[f64]) -> Result<Self, OffsetError> {
        let edge_at = |edge: usize| self.edges().get(edge).map_or(EdgeTag::Side(0), Edge::tag);
        let refused = |edge: usize, trouble| {
            Err(OffsetError { edge, tag: edge_at(edge), trouble, moved: edge, largest: 0.0, share: 0.0 })
        };
        if distances.len() != self.edges().len() {
            return refused(distances.len().min(self.edges().len() - 1), OffsetTrouble::Miscounted);
        }
        if let Some(edge) = distances.iter().position(|distance| distance.is_nan() || distance.abs() > LARGEST) {
            return refused(edge, OffsetTrouble::NotFinite);
        }
        self.moved(distances, 1.0).map_err(|last| self.first_trouble(distances, last))
    }

    /// The outline with each side moved by the distance of its number, metres, outward if positive. A
    /// rounded or clipped corner moves by the mean of its two sides. A step moves with its sides if they
    /// move equally, and else stays.
    ///
    /// # Errors
    /// As for [`Self::offset`].
    pub fn offset_sides(&self, by: &dyn Fn(u16) -> f64) -> Result<Self, OffsetError> {
        let distance = |edge: &Edge| match edge.tag() {
            EdgeTag::Side(number) => by(number),
            EdgeTag::Corner(one, other) | EdgeTag::Clip(one, other) => f64::midpoint(by(one), by(other)),
            EdgeTag::Step(one, other) if by(one) == by(other) => by(one),
            EdgeTag::Step(..) => 0.0,
        };
        self.offset(&self.edges().iter().map(distance).collect::<Vec<_>>())
    }

    /// The outline with all edges moved by the same distance, metres, outward if positive.
    ///
    /// # Errors
    /// As for [`Self::offset`].
    pub fn offset_all(&self, distance: f64) -> Result<Self, OffsetError> {
        self.offset(&vec![distance; self.edges().len()])
    }

    /// The first trouble on the way from no offset to the full one, which is known to fail.
    fn first_trouble(&self, distances: &[f64], last: (usize, OffsetTrouble)) -> OffsetError {
        const STEPS: u32 = 24;
        let furthest = distances.iter().fold(0.0_f64, |most, distance| most.max(distance.abs()));
        let (mut works, mut fails, mut trouble) = (0.0, 1.0, last);
        for step in 1..STEPS {
            let share = f64::from(step) / f64::from(STEPS);
            match self.moved(distances, share) {
                Ok(_) => works = share,
                Err(found) => {
                    (fails, trouble) = (share, found);
                    break;
                }
            }
        }
        // 60 halvings are more than an f64 can tell apart.
        for _ in 0..60 {
            if (fails - works) * furthest <= SEARCH {
                break;
            }
            let middle = f64::midpoint(works, fails);
            match self.moved(distances, middle) {
                Ok(_) => works = middle,
                Err(found) => (fails, trouble) = (middle, found),
            }
        }
        let (edge, trouble) = trouble;
        let mut moved = edge;
        let mut involved = vec![self.before(edge), self.after(edge)];
        if let OffsetTrouble::Crosses { other } = trouble {
            involved = vec![other];
        }
        for other in involved {
            if distances[other].abs() > distances[moved].abs() {
                moved = other;
            }
        }
        let tag = self.edges()[edge].tag();
        OffsetError { edge, tag, trouble, moved, largest: distances[moved] * works, share: works }
    }

    /// That share of the offset, or the edge that gives way.
    fn moved(&self, distances: &[f64], share: f64) -> Result<Self, (usize, OffsetTrouble)> {
        let edges = self.edges();
        let count = edges.len();
        let by: Vec<f64> = distances.iter().map(|distance| distance * share).collect();
        let still: Vec<Carrier> = edges.iter().map(Carrier::of).collect();
        let carriers: Vec<Carrier> = still.iter().zip(&by).map(|(carrier, by)| carrier.moved(*by)).collect();
        for (index, pair) in still.iter().zip(&carriers).enumerate() {
            if let (Carrier::Circle { radius, .. }, Carrier::Circle { radius: moved, .. }) = pair
                && moved * radius.signum() < LEAST_EDGE
            {
                return Err((index, OffsetTrouble::Swallowed));
            }
        }

        // Where each edge starts and ends. Rounded corners settle their own ends first.
        let mut ends = vec![(Point::ORIGIN, Point::ORIGIN); count];
        let blends: Vec<bool> = (0..count).map(|index| self.blends(index)).collect();
        for index in (0..count).filter(|index| blends[*index]) {
            let (before, after) = (self.before(index), self.after(index));
            let Carrier::Circle { radius, .. } = carriers[index] else { continue };
            let (start, end) =
                carriers[before].blend(carriers[after], radius).ok_or((index, OffsetTrouble::Swallowed))?;
            ends[index] = (start, end);
            ends[before].1 = start;
            ends[after].0 = end;
        }
        for index in 0..count {
            let after = self.after(index);
            if !blends[index] && !blends[after] {
                let joint = Joint { edges: [&edges[index], &edges[after]], by: [by[index], by[after]] };
                let (end, start) =
                    joint.moved([carriers[index], carriers[after]]).ok_or((index, OffsetTrouble::Apart))?;
                ends[index].1 = end;
                ends[after].0 = start;
            }
        }

        let mut made: Vec<Edge> = Vec::with_capacity(count + 4);
        let mut origins = Vec::with_capacity(count + 4);
        for (index, edge) in edges.iter().enumerate() {
            let (start, end) = ends[index];
            let one = if blends[index] {
                let (from, to) =
                    (carriers[self.before(index)].normal_at(start), carriers[self.after(index)].normal_at(end));
                let arc = Edge::new(start, end, bulge_of(from.cross(to).atan2(from.dot(to))), edge.tag());
                let remains = arc.bulge() * edge.bulge() > 0.0 && arc.chord().hypot() >= LEAST_EDGE;
                Some(arc).filter(|_| remains)
            } else if matches!(edge.tag(), EdgeTag::Step(..)) && edge.is_straight() {
                Some(Edge::new(start, end, 0.0, edge.tag()))
            } else {
                between(edge, carriers[index], start, end)
            };
            let one = one.ok_or((index, OffsetTrouble::Swallowed))?;
            // Only a step can have become level.
            if one.chord().hypot() >= LEAST_EDGE {
                made.push(one);
                origins.push(index);
            }
            let next = ends[self.after(index)].0;
            if (next - end).hypot() >= LEAST_EDGE {
                let tag = EdgeTag::Step(edge.tag().last(), edges[self.after(index)].tag().first());
                made.push(Edge::new(end, next, 0.0, tag));
                origins.push(index);
            }
        }
        // A level step leaves its two ends, all but equal, where there is one corner now.
        for index in 0..made.len() {
            let next = made[(index + 1) % made.len()].start();
            let one = made[index];
            if one.end() != next {
                made[index] = Edge::new(one.start(), next, one.bulge(), one.tag());
            }
        }
        Self::of(made).map_err(|error| match error {
            OutlineError::Crosses { edge, other } if origins[edge] != origins[other] => {
                (origins[edge], OffsetTrouble::Crosses { other: origins[other] })
            }
            OutlineError::TooSharp { edge, .. }
            | OutlineError::Crosses { edge, .. }
            | OutlineError::TooShort { edge }
            | OutlineError::TooRound { edge } => (origins[edge], OffsetTrouble::Swallowed),
            OutlineError::NotFinite { edge } => (origins[edge], OffsetTrouble::NotFinite),
            _ => (0, OffsetTrouble::Swallowed),
        })
    }

    /// The edge is a rounded corner between two edges that are none, and turns smoothly into both.
    fn blends(&self, index: usize) -> bool {
        let (edge, before, after) =
            (&self.edges()[index], &self.edges()[self.before(index)], &self.edges()[self.after(index)]);
        let is_corner = |edge: &Edge| matches!(edge.tag(), EdgeTag::Corner(..)) && !edge.is_straight();
        is_corner(edge)
            && !is_corner(before)
            && !is_corner(after)
            && edge.sweep().abs() < LARGEST_CORNER
            && edge.sweep().abs() > LEAST_CORNER
            && turn(before, edge).abs() < SMOOTH
            && turn(edge, after).abs() < SMOOTH
            && self.before(index) != self.after(index)
    }
}

/// The corner of two edges, and how far each moves.
struct Joint<'a> {
    edges: [&'a Edge; 2],
    by: [f64; 2],
}

impl Joint<'_> {
    /// Where the first edge ends and the next starts once they lie on these carriers: the same point,
    /// or the two ends of a step.
    fn moved(&self, carriers: [Carrier; 2]) -> Option<(Point, Point)> {
        let [edge, next] = self.edges;
        let (corner, turn) = (edge.end(), turn(edge, next));
        if turn.abs() < SMOOTH {
            let (normal, next_normal) = (edge.normal_at(1.0), next.normal_at(0.0));
            if (self.by[0] - self.by[1]).abs() >= LEAST_EDGE {
                return Some((corner + self.by[0] * normal, corner + self.by[1] * next_normal));
            }
            if turn.abs() < NO_TURN {
                let common: Vec2 = unit(normal + next_normal);
                let point = corner + f64::midpoint(self.by[0], self.by[1]) * common;
                return Some((point, point));
            }
        }
        carriers[0].meet(carriers[1], turn).map(|point| (point, point))
    }
}
