//! A closed outline of lines and arcs.

use super::distance::{box_distance, closest, meetings};
use super::edge::{Edge, EdgeTag};
use super::{DRAWING_TOLERANCE, LARGEST, LEAST_EDGE, TOUCH, right_of, unit};
use kurbo::{Arc, BezPath, PathEl, Point, Rect, Vec2};
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// The largest bulge: an arc of 350°.
const LARGEST_BULGE: f64 = 22.9;
/// The least angle between two neighbours, either way round: 0.1° in radians. Nothing sharper can be
/// cast, and its offset would run away.
const LEAST_ANGLE: f64 = 0.1 * PI / 180.0;

/// A corner of an outline, and the edge that starts there.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Vertex {
    /// Where it is; metres.
    pub at: Point,
    /// Bulge of the edge that starts here: see [`Edge::new`].
    pub bulge: f64,
    /// What that edge is called.
    pub tag: EdgeTag,
}

/// A closed chain of edges that neither crosses nor touches itself, counter-clockwise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Vec<Vertex>", into = "Vec<Vertex>")]
pub struct Outline {
    edges: Vec<Edge>,
    /// The upright rectangle around each edge.
    boxes: Vec<Rect>,
}

/// Why edges are not an outline. Edges are named by their index.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OutlineError {
    /// A size is nothing, negative, not finite or larger than [`LARGEST`].
    NoSize,
    /// A part is as large as the whole that should hold it.
    TooWide {
        /// The edge whose length the part is.
        edge: usize,
        /// What it must stay under; metres.
        most: f64,
    },
    /// Fewer than three straight edges, or two with an arc, enclose nothing.
    TooFew,
    /// A coordinate or a bulge is not finite, or further away than [`LARGEST`].
    NotFinite {
        /// The edge that starts there.
        edge: usize,
    },
    /// The edge is shorter than [`LEAST_EDGE`].
    TooShort {
        /// Which one.
        edge: usize,
    },
    /// The arc is nearly a full circle, or more; a circle is two halves.
    TooRound {
        /// Which one.
        edge: usize,
    },
    /// Two neighbours double back on each other: less than 0.1° lies between them.
    TooSharp {
        /// The first of the two.
        edge: usize,
        /// The second.
        next: usize,
    },
    /// Two edges cross or touch.
    Crosses {
        /// The first of the two.
        edge: usize,
        /// The second.
        other: usize,
    },
    /// The edges run clockwise.
    Clockwise,
}

impl TryFrom<Vec<Vertex>> for Outline {
    type Error = String;

    fn try_from(vertices: Vec<Vertex>) -> Result<Self, String> {
        Self::new(&vertices).map_err(|_| "these corners make no outline".to_owned())
    }
}

impl From<Outline> for Vec<Vertex> {
    fn from(outline: Outline) -> Self {
        outline.vertices()
    }
}

impl Outline {
    /// The outline with these corners, counter-clockwise.
    ///
    /// ```
    /// use kurbo::Point;
    /// use pourwright::plane::{EdgeTag, Outline, OutlineError, Vertex};
    ///
    /// let corners = [(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)];
    /// let vertex = |(x, y), side, bulge| Vertex { at: Point::new(x, y), bulge, tag: EdgeTag::Side(side) };
    /// let square: Vec<_> = corners.into_iter().zip(0..).map(|(at, side)| vertex(at, side, 0.0)).collect();
    /// assert_eq!(Outline::new(&square).unwrap().area(), 2.0);
    ///
    /// // A right end that is half a circle about (2, 1/2), with a bulge of 1.
    /// let round = [square[0], vertex((2.0, 0.0), 1, 1.0), square[2], square[3]];
    /// let outline = Outline::new(&round).unwrap();
    /// assert!((outline.area() - (2.0 + std::f64::consts::PI / 8.0)).abs() < 1e-12);
    ///
    /// assert_eq!(Outline::new(&square[..2]), Err(OutlineError::TooFew));
    /// ```
    ///
    /// # Errors
    /// Whatever keeps the edges from being an outline.
    pub fn new(vertices: &[Vertex]) -> Result<Self, OutlineError> {
        let next = vertices.iter().cycle().skip(1);
        Self::of(
            vertices.iter().zip(next).map(|(here, next)| Edge::new(here.at, next.at, here.bulge, here.tag)).collect(),
        )
    }

    /// The outline of these edges, each of which starts where the one before it ends.
    pub(super) fn of(edges: Vec<Edge>) -> Result<Self, OutlineError> {
        let outline = Self::unchecked(edges);
        check(&outline)?;
        Ok(outline)
    }

    fn unchecked(edges: Vec<Edge>) -> Self {
        let boxes = edges.iter().map(Edge::bounds).collect();
        Self { edges, boxes }
    }

    pub(super) fn boxes(&self) -> &[Rect] {
        &self.boxes
    }

    /// The edges, counter-clockwise, each starting where the one before it ends.
    pub fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// The corners: where each edge starts.
    pub fn vertices(&self) -> Vec<Vertex> {
        self.edges.iter().map(|edge| Vertex { at: edge.start(), bulge: edge.bulge(), tag: edge.tag() }).collect()
    }

    /// The first edge that is called so.
    pub fn edge_tagged(&self, tag: EdgeTag) -> Option<usize> {
        self.edges.iter().position(|edge| edge.tag() == tag)
    }

    /// The edge before the one with that index.
    pub fn before(&self, edge: usize) -> usize {
        (edge + self.edges.len() - 1) % self.edges.len()
    }

    /// The edge after the one with that index.
    pub fn after(&self, edge: usize) -> usize {
        (edge + 1) % self.edges.len()
    }

    /// Enclosed area, square metres; exact.
    pub fn area(&self) -> f64 {
        area_of(&self.edges)
    }

    /// Length of the boundary, metres; exact.
    pub fn perimeter(&self) -> f64 {
        self.edges.iter().map(Edge::length).sum()
    }

    /// Centre of the area, metres; exact.
    pub fn centroid(&self) -> Point {
        // About one of its own corners, so nothing is lost far from the origin.
        let origin = self.edges.first().map_or(Point::ORIGIN, Edge::start);
        let mut moment = Vec2::ZERO;
        for edge in &self.edges {
            let (start, end) = (edge.start() - origin, edge.end() - origin);
            moment += start.cross(end) / 6.0 * (start + end);
            let (area, aside) = edge.segment();
            moment += area * (start + end) / 2.0 + aside * right_of(unit(edge.chord()));
        }
        origin + moment / self.area()
    }

    /// The smallest upright rectangle around it; metres.
    pub fn bounds(&self) -> Rect {
        self.boxes.iter().copied().reduce(|all, one| all.union(one)).unwrap_or_default()
    }

    /// The point lies inside. A point on the boundary may count either way.
    pub fn contains(&self, point: Point) -> bool {
        // The polygon of the chords, put right by what lies between each arc and its chord.
        let mut turns = 0;
        for edge in &self.edges {
            let side = edge.chord().cross(point - edge.start());
            if edge.start().y <= point.y && point.y < edge.end().y && side > 0.0 {
                turns += 1;
            } else if edge.end().y <= point.y && point.y < edge.start().y && side < 0.0 {
                turns -= 1;
            }
            if edge.segment_contains(point) {
                turns += if edge.is_inward() { -1 } else { 1 };
            }
        }
        turns != 0
    }

    /// The point of the boundary nearest to the given one, and the edge that it lies on.
    pub fn nearest(&self, point: Point) -> (usize, Point) {
        let mut best = (0, point, f64::INFINITY);
        for (index, edge) in self.edges.iter().enumerate() {
            let nearest = edge.nearest(point);
            let distance = (nearest - point).hypot2();
            if distance < best.2 {
                best = (index, nearest, distance);
            }
        }
        (best.0, best.1)
    }

    /// The boundary, for drawing; arcs within 0.001 mm.
    pub fn path(&self) -> BezPath {
        let mut path = BezPath::new();
        path.extend(self.edges.first().map(|edge| PathEl::MoveTo(edge.start())));
        for edge in &self.edges {
            match edge.center().zip(edge.radius()) {
                None => path.line_to(edge.end()),
                Some((center, radius)) => {
                    let start = (edge.start() - center).atan2();
                    let arc = Arc::new(center, (radius, radius), start, edge.sweep(), 0.0);
                    path.extend(arc.append_iter(DRAWING_TOLERANCE));
                }
            }
        }
        path.close_path();
        path
    }

    /// The angle inside the outline at the corner where that edge starts, radians: π where it runs
    /// smoothly, more at an inside corner.
    pub fn interior_angle(&self, vertex: usize) -> f64 {
        match (self.edges.get(vertex), self.edges.get(self.before(vertex))) {
            (Some(after), Some(before)) => PI - turn(before, after),
            _ => PI,
        }
    }

    /// The smallest radius of an inside corner of the concrete, and where it is; a sharp one has none
    /// at all. Nothing if there is no inside corner.
    pub fn least_inside_radius(&self) -> Option<(f64, Point)> {
        self.least_radius(-1.0)
    }

    /// The same for the corners that point outward if `hand` is positive, inward if negative.
    pub(super) fn least_radius(&self, hand: f64) -> Option<(f64, Point)> {
        /// A turn of less than 0.1° is no corner.
        const LEAST_TURN: f64 = 0.1 * PI / 180.0;
        let mut least: Option<(f64, Point)> = None;
        let mut take = |radius: f64, at: Point| {
            if least.is_none_or(|(other, _)| radius < other) {
                least = Some((radius, at));
            }
        };
        for (index, edge) in self.edges.iter().enumerate() {
            if let Some(before) = self.edges.get(self.before(index))
                && turn(before, edge) * hand > LEAST_TURN
            {
                take(0.0, edge.start());
            }
            if let Some(radius) = edge.radius().filter(|_| edge.bulge() * hand > 0.0) {
                take(radius, edge.point_at(0.5));
            }
        }
        least
    }

    /// The same outline elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vec2) -> Self {
        Self::unchecked(self.edges.iter().map(|edge| edge.moved(by)).collect())
    }

    /// The same outline turned by that angle about that point.
    #[must_use]
    pub fn rotated(&self, angle: f64, about: Point) -> Self {
        Self::unchecked(self.edges.iter().map(|edge| edge.turned(angle, about)).collect())
    }

    /// Its other hand, mirrored left to right about the upright line at `x`. The first edge stays the
    /// first and every edge keeps its name; the others follow in the opposite order.
    #[must_use]
    pub fn mirrored(&self, x: f64) -> Self {
        let (first, rest) = self.edges.split_at(self.edges.len().min(1));
        Self::unchecked(first.iter().chain(rest.iter().rev()).map(|edge| edge.mirrored(x)).collect())
    }
}

/// The angle that the direction turns through from the end of one edge to the start of the next,
/// positive counter-clockwise.
pub(super) fn turn(before: &Edge, after: &Edge) -> f64 {
    let (from, to) = (before.direction_at_end(), after.direction_at_start());
    from.cross(to).atan2(from.dot(to))
}

/// Enclosed area; negative if the edges run clockwise.
fn area_of(edges: &[Edge]) -> f64 {
    let origin = edges.first().map_or(Point::ORIGIN, Edge::start);
    let area = |edge: &Edge| (edge.start() - origin).cross(edge.end() - origin) / 2.0 + edge.segment().0;
    edges.iter().map(area).sum()
}

fn check(outline: &Outline) -> Result<(), OutlineError> {
    let (edges, boxes) = (&outline.edges, &outline.boxes);
    let count = edges.len();
    if count < 2 || (count == 2 && edges.iter().all(Edge::is_straight)) {
        return Err(OutlineError::TooFew);
    }
    for (edge, one) in edges.iter().enumerate() {
        let far = |point: Point| point.x.abs() > LARGEST || point.y.abs() > LARGEST;
        if !one.is_finite() || far(one.start()) {
            return Err(OutlineError::NotFinite { edge });
        }
        if one.chord().hypot() < LEAST_EDGE {
            return Err(OutlineError::TooShort { edge });
        }
        if one.bulge().abs() > LARGEST_BULGE {
            return Err(OutlineError::TooRound { edge });
        }
    }
    for edge in 0..count {
        let next = (edge + 1) % count;
        if turn(&edges[edge], &edges[next]).abs() > PI - LEAST_ANGLE {
            return Err(OutlineError::TooSharp { edge, next });
        }
    }
    for edge in 0..count {
        for other in edge + 1..count {
            if box_distance(&boxes[edge], &boxes[other]) > TOUCH {
                continue;
            }
            let neighbours = other == edge + 1 || (edge == 0 && other == count - 1);
            let crosses = if neighbours {
                meet_again(&edges[edge], &edges[other])
            } else {
                closest(&edges[edge], &edges[other]).distance <= TOUCH
            };
            if crosses {
                return Err(OutlineError::Crosses { edge, other });
            }
        }
    }
    if area_of(edges) > 0.0 { Ok(()) } else { Err(OutlineError::Clockwise) }
}

/// Two neighbours meet elsewhere than in the corner they share.
fn meet_again(one: &Edge, other: &Edge) -> bool {
    let shared = [one.start(), one.end(), other.start(), other.end()];
    // Neighbours that run almost smoothly into each other are found to meet next to their corner.
    let elsewhere = |point: &Point| shared.iter().all(|corner| (*point - *corner).hypot() > LEAST_EDGE);
    // Two straight neighbours meet once. Of curved ones, the far end of one may lie on the other.
    let far_ends = || {
        let lies_on = |point: Point, edge: &Edge| {
            point != edge.start() && point != edge.end() && (edge.nearest(point) - point).hypot() <= TOUCH
        };
        [one.start(), one.end()].iter().any(|point| lies_on(*point, other))
            || [other.start(), other.end()].iter().any(|point| lies_on(*point, one))
    };
    !(one.is_straight() && other.is_straight()) && (meetings(one, other).iter().flatten().any(elsewhere) || far_ends())
}
