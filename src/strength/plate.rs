//! A thin plate over a mesh: its system, loads on it, and its moments.
//!
//! Bending stiffness D is 1: deflections come out multiplied by it, and moments do not depend on it.

use super::element::{Element, UNKNOWNS};
use super::mesh::Mesh;
use super::solver::{SolveError, System};
use kurbo::{Point, Rect};

/// Mx, My and Mxy at one place, newton metres a metre.
pub type Moments = [f64; 3];

/// A plate of even thickness.
#[derive(Clone, Debug)]
pub struct Plate {
    mesh: Mesh,
    poisson: f64,
    system: System,
    /// Which triangles lie near a place.
    finder: Finder,
}

impl Plate {
    /// The plate over that mesh.
    ///
    /// # Errors
    /// A mesh too large.
    pub fn new(mesh: Mesh, poisson: f64) -> Result<Self, SolveError> {
        let mut system = System::new(mesh.nodes.len(), &mesh.triangles)?;
        for (index, corners) in mesh.triangles.iter().enumerate() {
            let Some(at) = mesh.corners(index) else { continue };
            let stiffness = Element::new(at).stiffness(poisson);
            for (row, values) in stiffness.iter().enumerate() {
                for (column, value) in values.iter().enumerate().take(row + 1) {
                    system.add((corners[row / 3], row % 3), (corners[column / 3], column % 3), *value);
                }
            }
        }
        let finder = Finder::new(&mesh);
        Ok(Self { mesh, poisson, system, finder })
    }

    /// Its mesh.
    pub fn mesh(&self) -> &Mesh {
        &self.mesh
    }

    /// Its system.
    pub fn system(&self) -> &System {
        &self.system
    }

    /// An even load, newtons a square metre, as a right-hand side.
    pub fn even_load(&self, pressure: f64) -> Vec<f64> {
        let mut load = vec![0.0; 3 * self.mesh.nodes.len()];
        for (index, corners) in self.mesh.triangles.iter().enumerate() {
            let share = self.mesh.corners(index).map_or(0.0, super::mesh::area_of) * pressure / 3.0;
            for corner in corners {
                load[3 * corner] += share;
            }
        }
        load
    }

    /// Adds a load at a point; false, and nothing added, if the point lies outside.
    pub fn add_point_load(&self, load: &mut [f64], at: Point, force: f64) -> bool {
        let Some((triangle, shares)) = self.find(at) else { return false };
        for (corner, share) in self.mesh.triangles[triangle].iter().zip(shares) {
            load[3 * corner] += share * force;
        }
        true
    }

    /// Adds a load spread evenly over what of a rectangle lies on the plate; false, and nothing added, if
    /// nothing of it does.
    pub fn add_patch_load(&self, load: &mut [f64], patch: Rect, force: f64) -> bool {
        const PARTS: u32 = 12;
        let part = |k: u32| (f64::from(k) + 0.5) / f64::from(PARTS);
        let points = (0..PARTS * PARTS).map(|k| {
            Point::new(patch.x0 + part(k % PARTS) * patch.width(), patch.y0 + part(k / PARTS) * patch.height())
        });
        let inside: Vec<Point> = points.filter(|point| self.find(*point).is_some()).collect();
        let share = force / inside.len().max(1) as f64;
        inside.iter().for_each(|point| {
            self.add_point_load(load, *point, share);
        });
        !inside.is_empty()
    }

    /// The triangle that holds a point, and the point's area coordinates in it.
    pub(super) fn find(&self, at: Point) -> Option<(usize, [f64; 3])> {
        self.finder.find(&self.mesh, at)
    }

    /// The moments at every node: the mean over its triangles, by their area.
    pub fn moments(&self, deflection: &[f64]) -> Vec<Moments> {
        let mut sums = vec![([0.0; 3], 0.0); self.mesh.nodes.len()];
        for (index, corners) in self.mesh.triangles.iter().enumerate() {
            let Some(at) = self.mesh.corners(index) else { continue };
            let mut unknowns = [0.0; UNKNOWNS];
            for (own, node) in unknowns.chunks_exact_mut(3).zip(corners) {
                own.copy_from_slice(&deflection[3 * node..3 * node + 3]);
            }
            let element = Element::new(at);
            for (node, moments) in corners.iter().zip(element.moments(&unknowns, self.poisson)) {
                let (sum, area) = &mut sums[*node];
                for (sum, moment) in sum.iter_mut().zip(moments) {
                    *sum += moment * element.area();
                }
                *area += element.area();
            }
        }
        sums.into_iter().map(|(sum, area)| sum.map(|sum| if area > 0.0 { sum / area } else { 0.0 })).collect()
    }

    /// The moments at a point, from those at the nodes; nothing outside.
    pub fn moments_at(&self, moments: &[Moments], at: Point) -> Option<Moments> {
        let (triangle, shares) = self.find(at)?;
        let mut found = [0.0; 3];
        for (corner, share) in self.mesh.triangles.get(triangle)?.iter().zip(shares) {
            for (found, moment) in found.iter_mut().zip(moments.get(*corner)?) {
                *found += share * moment;
            }
        }
        Some(found)
    }
}

/// Triangles by square cells.
#[derive(Clone, Debug)]
struct Finder {
    bounds: Rect,
    cell: f64,
    columns: usize,
    rows: usize,
    cells: Vec<Vec<u32>>,
}

/// A point that far outside a triangle, in area coordinates, still counts as on its edge.
const ON_EDGE: f64 = 1e-6;

impl Finder {
    fn new(mesh: &Mesh) -> Self {
        let bounds = mesh.nodes.iter().map(|node| Rect::from_points(*node, *node)).reduce(|all, one| all.union(one));
        let bounds = bounds.unwrap_or_default();
        let cell = (2.0 * bounds.area() / mesh.triangles.len().max(1) as f64).sqrt().max(1e-6);
        let count = |length: f64| ((length / cell) as usize).min(10_000) + 1;
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        let mut finder = Self { bounds, cell, columns, rows, cells: vec![Vec::new(); columns * rows] };
        for triangle in 0..mesh.triangles.len() {
            let Some([a, b, c]) = mesh.corners(triangle) else { continue };
            let around = Rect::from_points(a, b).union_pt(c);
            let (from, to) = (finder.locate(around.origin()), finder.locate(Point::new(around.x1, around.y1)));
            for row in from.1..=to.1 {
                for column in from.0..=to.0 {
                    finder.cells[row * columns + column].push(triangle as u32);
                }
            }
        }
        finder
    }

    fn locate(&self, at: Point) -> (usize, usize) {
        let index = |from: f64, count: usize| ((from / self.cell).max(0.0) as usize).min(count - 1);
        (index(at.x - self.bounds.x0, self.columns), index(at.y - self.bounds.y0, self.rows))
    }

    fn find(&self, mesh: &Mesh, at: Point) -> Option<(usize, [f64; 3])> {
        let (column, row) = self.locate(at);
        self.cells.get(row * self.columns + column)?.iter().find_map(|triangle| {
            let [a, b, c] = mesh.corners(*triangle as usize)?;
            let whole = (b - a).cross(c - a);
            let (first, second) = ((b - at).cross(c - at) / whole, (c - at).cross(a - at) / whole);
            let shares = [first, second, 1.0 - first - second];
            shares.iter().all(|share| *share >= -ON_EDGE).then_some((*triangle as usize, shares))
        })
    }
}
