//! A mesh of triangles that follows the boundary of a top and its openings, finer where stress gathers.
//!
//! The boundary is cut into chords by the local size; a hexagonal lattice, thinned by the same size, fills the
//! inside; Delaunay joins them, a few sweeps of smoothing even them out. Delaunay alone does not promise that
//! every chord of the boundary becomes an edge: that is checked, and if one does not, everything is tried again
//! with shorter chords. Lines along which something bears, and points, become nodes: see [`Mesh::lines`].

mod boundary;
mod guide;
mod lattice;
mod size;
mod triangles;

use crate::plane::{Opening, Outline};
use kurbo::Point;
use serde::{Deserialize, Serialize};
use size::SizeField;

/// How fine a mesh is; metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeshSize {
    /// Length of edges along openings and where loads stand; at sharp inside corners less than half of it.
    pub fine: f64,
    /// Length of edges far from all that.
    pub coarse: f64,
    /// How much longer edges get with each metre away from where they are fine.
    pub growth: f64,
    /// More nodes than about this are not made: everything is made coarser instead.
    pub most_nodes: usize,
}

impl Default for MeshSize {
    /// Half an inch along openings, an inch and a half elsewhere: 1000 to 2000 nodes for a vanity top.
    fn default() -> Self {
        Self { fine: 0.0127, coarse: 0.0381, growth: 0.4, most_nodes: 3000 }
    }
}

/// Why there is no mesh.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum MeshError {
    /// A size of the grain is nothing, negative or not finite, or the outline is too small for any.
    NoSize,
    /// That opening touches an edge or another opening, or runs past it.
    Touches {
        /// Which one.
        opening: usize,
    },
    /// The boundary is not kept, however short its chords: something nearly touches.
    TooClose,
}

/// Triangles over a top.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// Where its nodes are; metres. Those of the boundary come first.
    pub nodes: Vec<Point>,
    /// Three nodes each, counter-clockwise.
    pub triangles: Vec<[usize; 3]>,
    /// The nodes of each closed boundary in order: the outline, counter-clockwise, then the openings.
    pub loops: Vec<Vec<usize>>,
    /// The nodes on each guide, in the order of the guides. Empty where a guide lies outside.
    pub lines: Vec<Vec<usize>>,
}

/// The least gap between two boundaries that is meshed, 0.5 mm in metres: what is nearer touches.
const LEAST_GAP: f64 = 5e-4;
/// How often everything is tried again with shorter chords.
const ATTEMPTS: i32 = 4;
/// By what chords are shortened each time.
const SHORTER: f64 = 0.6;

impl Mesh {
    /// The mesh of an outline less its openings. Along every guide, a line from the one point to the other or
    /// a single point twice, there are nodes wherever it runs over the top; `fine_at` are places, with their
    /// reach in metres, where the mesh is fine besides.
    ///
    /// # Errors
    /// What keeps it from being made.
    pub fn of(
        outline: &Outline,
        openings: &[Opening],
        guides: &[[Point; 2]],
        fine_at: &[(Point, f64)],
        grain: &MeshSize,
    ) -> Result<Self, MeshError> {
        let sizes = [grain.fine, grain.coarse, grain.growth];
        let finite = guides.iter().flatten().all(|point| point.is_finite())
            && fine_at.iter().all(|(at, reach)| at.is_finite() && reach.is_finite());
        if !finite || !sizes.iter().all(|size| *size > 0.0 && size.is_finite()) || grain.most_nodes < 20 {
            return Err(MeshError::NoSize);
        }
        let curves = boundary::curves(outline, openings);
        let mut sizes = SizeField::new(outline.bounds(), grain);
        boundary::stamp(&curves, outline, openings, grain, &mut sizes)?;
        for (at, reach) in fine_at {
            sizes.stamp_square(*at, *reach, grain.fine);
        }
        sizes.spread(grain.growth);
        sizes.keep_under(grain.most_nodes, outline.area());
        for attempt in 0..ATTEMPTS {
            let sizes = sizes.scaled(SHORTER.powi(attempt));
            let chords = boundary::chords(&curves, guides, &sizes);
            if let Some(mesh) = triangles::build(chords, guides, &sizes, grain.most_nodes) {
                return Ok(mesh);
            }
        }
        Err(MeshError::TooClose)
    }

    /// Where the corners of that triangle are.
    pub(crate) fn corners(&self, triangle: usize) -> Option<[Point; 3]> {
        let [a, b, c] = self.triangles.get(triangle)?;
        Some([*self.nodes.get(*a)?, *self.nodes.get(*b)?, *self.nodes.get(*c)?])
    }

    /// Area of the triangles; square metres.
    pub fn area(&self) -> f64 {
        (0..self.triangles.len()).filter_map(|triangle| self.corners(triangle)).map(area_of).sum()
    }

    /// The smallest angle of any triangle; radians.
    pub fn least_angle(&self) -> f64 {
        let angles = (0..self.triangles.len()).filter_map(|triangle| self.corners(triangle)).map(least_angle_of);
        angles.fold(f64::INFINITY, f64::min)
    }
}

/// Each closed boundary as a polygon, for what needs no mesh: the outline, then the openings.
pub(super) fn polygons(outline: &Outline, openings: &[Opening]) -> Vec<Vec<Point>> {
    boundary::polygons(&boundary::curves(outline, openings))
}

/// Area of a triangle, positive if its corners run counter-clockwise.
pub(crate) fn area_of([a, b, c]: [Point; 3]) -> f64 {
    (b - a).cross(c - a) / 2.0
}

/// The smallest angle of a triangle; radians.
fn least_angle_of([a, b, c]: [Point; 3]) -> f64 {
    let angle = |at: Point, one: Point, other: Point| {
        let (one, other) = (one - at, other - at);
        one.cross(other).abs().atan2(one.dot(other))
    };
    angle(a, b, c).min(angle(b, c, a)).min(angle(c, a, b))
}

/// The point lies inside the closed loops, by counting how often a line to its right meets them.
pub(super) fn inside(loops: &[Vec<Point>], point: Point) -> bool {
    let mut within = false;
    for points in loops {
        let mut from = points.last().copied().unwrap_or_default();
        for to in points {
            if (from.y > point.y) != (to.y > point.y)
                && point.x < from.x + (point.y - from.y) / (to.y - from.y) * (to.x - from.x)
            {
                within = !within;
            }
            from = *to;
        }
    }
    within
}
