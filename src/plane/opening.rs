//! What is left out of a top: cutouts and holes.

use super::distance::{Gap, closest};
use super::{CornerError, Edge, Ellipse, OffsetError, Outline, OutlineError, TOUCH};
use kurbo::{BezPath, Point, Rect, Vec2};
use serde::{Deserialize, Serialize};

/// A cutout or hole: an outline of lines and arcs, or an ellipse.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Opening {
    /// Lines and arcs.
    Outline(Outline),
    /// An ellipse, or a curve beside one.
    Ellipse(Ellipse),
}

impl Opening {
    /// A rectangle around `center` with four equally rounded corners; metres.
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite; a radius of more than half the smaller size.
    pub fn rounded_rectangle(center: Point, width: f64, depth: f64, radius: f64) -> Result<Self, CornerError> {
        Self::placed(&Outline::rounded_rectangle(width, depth, radius)?, center, width, depth)
    }

    /// An ellipse of that width and depth around `center`, turned by that angle; metres and radians.
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite.
    pub fn ellipse(center: Point, width: f64, depth: f64, turn: f64) -> Result<Self, OutlineError> {
        Ellipse::new(center, width, depth, turn).map(Self::Ellipse)
    }

    /// A circle of that diameter around `center`; metres.
    ///
    /// # Errors
    /// A diameter that is nothing, negative or not finite.
    pub fn circle(center: Point, diameter: f64) -> Result<Self, OutlineError> {
        Outline::circle(center, diameter / 2.0).map(Self::Outline)
    }

    /// A D, straight at the back and round at the front, whose width and depth are halved by `center`:
    /// see [`Outline::d_shape`]; metres.
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite; a radius that does not fit.
    pub fn d_shape(center: Point, width: f64, depth: f64, corner_radius: f64) -> Result<Self, CornerError> {
        Self::placed(&Outline::d_shape(width, depth, corner_radius)?, center, width, depth)
    }

    /// A polygon with these corners, counter-clockwise, each rounded by its radius; metres.
    ///
    /// # Errors
    /// Corners that make no outline, or radii that do not fit.
    pub fn polygon(corners: &[(Point, f64)]) -> Result<Self, CornerError> {
        Outline::rounded_polygon(corners).map(Self::Outline)
    }

    fn placed(outline: &Outline, center: Point, width: f64, depth: f64) -> Result<Self, CornerError> {
        if !center.is_finite() {
            return Err(OutlineError::NotFinite { edge: 0 }.into());
        }
        let by = center.to_vec2() - Vec2::new(width / 2.0, depth / 2.0);
        Ok(Self::Outline(Outline::of(outline.translated(by).edges().to_vec())?))
    }

    /// Enclosed area, square metres; exact.
    pub fn area(&self) -> f64 {
        match self {
            Self::Outline(outline) => outline.area(),
            Self::Ellipse(ellipse) => ellipse.area(),
        }
    }

    /// Length of the boundary, metres; exact.
    pub fn perimeter(&self) -> f64 {
        match self {
            Self::Outline(outline) => outline.perimeter(),
            Self::Ellipse(ellipse) => ellipse.perimeter(),
        }
    }

    /// Centre of the area; metres.
    pub fn centroid(&self) -> Point {
        match self {
            Self::Outline(outline) => outline.centroid(),
            Self::Ellipse(ellipse) => ellipse.center(),
        }
    }

    /// The smallest upright rectangle around it; metres.
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Outline(outline) => outline.bounds(),
            Self::Ellipse(ellipse) => ellipse.bounds(),
        }
    }

    /// The point lies inside. A point on the boundary may count either way.
    pub fn contains(&self, point: Point) -> bool {
        match self {
            Self::Outline(outline) => outline.contains(point),
            Self::Ellipse(ellipse) => ellipse.contains(point),
        }
    }

    /// Distance of a point from the boundary, negative inside, and the boundary's point that has it;
    /// metres.
    pub fn signed_distance(&self, point: Point) -> (f64, Point) {
        match self {
            Self::Outline(outline) => {
                let (_, near) = outline.nearest(point);
                let distance = (near - point).hypot();
                (if outline.contains(point) { -distance } else { distance }, near)
            }
            Self::Ellipse(ellipse) => ellipse.signed_distance(point),
        }
    }

    /// The boundary, for drawing; curves within 0.001 mm.
    pub fn path(&self) -> BezPath {
        match self {
            Self::Outline(outline) => outline.path(),
            Self::Ellipse(ellipse) => ellipse.path(),
        }
    }

    /// The smallest radius among the corners that it cuts into the concrete, and where it is; a sharp
    /// one has none at all. Nothing if there is no such corner.
    pub fn least_inside_radius(&self) -> Option<(f64, Point)> {
        match self {
            Self::Outline(outline) => outline.least_radius(1.0),
            Self::Ellipse(ellipse) => Some(ellipse.least_radius()),
        }
    }

    /// The opening made larger all round by that distance, or smaller if negative: a reveal; metres.
    /// Sharp corners stay sharp, rounded ones stay concentric.
    ///
    /// # Errors
    /// A distance that makes an edge vanish.
    pub fn offset(&self, distance: f64) -> Result<Self, OffsetError> {
        match self {
            Self::Outline(outline) => outline.offset_all(distance).map(Self::Outline),
            Self::Ellipse(ellipse) => ellipse.offset(distance).map(Self::Ellipse),
        }
    }

    /// The same opening elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vec2) -> Self {
        match self {
            Self::Outline(outline) => Self::Outline(outline.translated(by)),
            Self::Ellipse(ellipse) => Self::Ellipse(ellipse.translated(by)),
        }
    }

    /// The same opening turned by that angle about that point.
    #[must_use]
    pub fn rotated(&self, angle: f64, about: Point) -> Self {
        match self {
            Self::Outline(outline) => Self::Outline(outline.rotated(angle, about)),
            Self::Ellipse(ellipse) => Self::Ellipse(ellipse.rotated(angle, about)),
        }
    }

    /// Mirrored left to right about the upright line at `x`.
    #[must_use]
    pub fn mirrored(&self, x: f64) -> Self {
        match self {
            Self::Outline(outline) => Self::Outline(outline.mirrored(x)),
            Self::Ellipse(ellipse) => Self::Ellipse(ellipse.mirrored(x)),
        }
    }

    /// Least distance of the boundary from an edge, and the points, the boundary's first. Of an ellipse
    /// it is negative where the edge reaches inside.
    pub(super) fn to_edge(&self, edge: &Edge, edge_box: &Rect) -> Gap {
        match self {
            Self::Ellipse(ellipse) => {
                let (distance, at) = ellipse.closest(edge);
                Gap { distance, at }
            }
            Self::Outline(outline) => {
                let mut least = Gap::NONE;
                for (own, own_box) in outline.edges().iter().zip(outline.boxes()) {
                    if super::distance::box_distance(own_box, edge_box) < least.distance {
                        least = least.nearer(closest(own, edge));
                    }
                }
                least
            }
        }
    }

    /// Points along the boundary, 3 mm apart.
    pub(super) fn samples(&self) -> Vec<Point> {
        match self {
            Self::Ellipse(ellipse) => ellipse.samples().collect(),
            Self::Outline(outline) => samples(outline),
        }
    }

    /// The point of the boundary that reaches furthest across an edge, seen from the edge's middle.
    pub(super) fn furthest(&self, edge: &Edge) -> Vec<Point> {
        let towards = edge.normal_at(0.5);
        match self {
            Self::Ellipse(ellipse) => vec![ellipse.support(towards)],
            Self::Outline(outline) => {
                let mut points = Vec::new();
                for own in outline.edges() {
                    super::distance::facing(own, edge, &mut |(point, _)| points.push(point));
                }
                points
            }
        }
    }
}

/// The corners of an outline and points along its edges.
fn samples(outline: &Outline) -> Vec<Point> {
    let mut points = Vec::new();
    let most = MOST_SAMPLES / outline.edges().len().max(1);
    for edge in outline.edges() {
        let parts = parts_of(edge.length()).min(u32::try_from(most).unwrap_or(u32::MAX).max(LEAST_PARTS));
        points.extend((0..parts).map(|part| edge.point_at(f64::from(part) / f64::from(parts))));
    }
    points
}

/// Into how many parts so long a boundary is taken for points that tell how deep it reaches: half a part is
/// what they may miss. A boundary far longer than a cutout's is taken into longer parts.
pub(super) fn parts_of(length: f64) -> u32 {
    (length / 0.003).ceil().clamp(f64::from(LEAST_PARTS), 512.0) as u32
}

/// Parts of one edge at least.
const LEAST_PARTS: u32 = 8;

/// Points along the boundary of one opening at most, unless it has very many edges: a cutout of 6 m around has them
/// every 3 mm.
const MOST_SAMPLES: usize = 2048;

/// The deepest of these points inside the opening, as a gap whose distance is negative: the point first,
/// then where the boundary is nearest to it.
pub(super) fn deepest(opening: &Opening, points: impl IntoIterator<Item = Point>) -> Option<Gap> {
    let mut best: Option<Gap> = None;
    for point in points {
        let (distance, near) = opening.signed_distance(point);
        if distance < -TOUCH && best.is_none_or(|other| distance < other.distance) {
            best = Some(Gap { distance, at: (point, near) });
        }
    }
    best
}
