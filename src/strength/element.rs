//! One triangle of a thin plate: the discrete Kirchhoff triangle.
//!
//! Its unknowns are, at each corner, the deflection w and the two slopes w,x and w,y. The slopes vary over it as
//! a quadratic: given at the corners, and at the middle of each side by the deflection that is a cubic along the
//! side and a slope across it that is linear (Batoz, Bathe and Ho, Int. J. Numer. Methods Eng. 15, 1980).
//! Curvatures are then linear. Bending stiffness D is 1 here: deflections come out multiplied by it.

use super::mesh::area_of;
use kurbo::{Point, Vec2};

/// Unknowns of one element.
pub(super) const UNKNOWNS: usize = 9;
/// Curvatures w,xx, w,yy and 2 w,xy by the unknowns.
type Curvature = [[f64; UNKNOWNS]; 3];

/// A triangle, ready to be worked out.
pub(super) struct Element {
    area: f64,
    /// Gradient of each area coordinate.
    gradients: [Vec2; 3],
    /// w,x and w,y at the middle of the side facing each corner, by the unknowns.
    middles: [[[f64; UNKNOWNS]; 2]; 3],
}

impl Element {
    pub(super) fn new(corners: [Point; 3]) -> Self {
        let area = area_of(corners);
        let side = |k: usize| corners[(k + 2) % 3] - corners[(k + 1) % 3];
        let gradients = [0, 1, 2].map(|k| Vec2::new(-side(k).y, side(k).x) / (2.0 * area));
        Self { area, gradients, middles: [0, 1, 2].map(|k| middle_slopes(k, side(k))) }
    }

    pub(super) fn area(&self) -> f64 {
        self.area
    }

    /// The gradients, at those area coordinates, of the quadratics that are one at the corner of that number, and at
    /// the middle of the side that faces it.
    fn quadratics(&self, k: usize, at: [f64; 3]) -> (Vec2, Vec2) {
        let (i, j) = ((k + 1) % 3, (k + 2) % 3);
        let middle = 4.0 * (at[i] * self.gradients[j] + at[j] * self.gradients[i]);
        ((4.0 * at[k] - 1.0) * self.gradients[k], middle)
    }

    /// Curvatures at those area coordinates.
    fn curvature(&self, at: [f64; 3]) -> Curvature {
        let mut found = [[0.0; UNKNOWNS]; 3];
        for k in 0..3 {
            let (corner, middle) = self.quadratics(k, at);
            found[0][3 * k + 1] += corner.x;
            found[1][3 * k + 2] += corner.y;
            found[2][3 * k + 1] += corner.y;
            found[2][3 * k + 2] += corner.x;
            let [along_x, along_y] = &self.middles[k];
            for unknown in 0..UNKNOWNS {
                found[0][unknown] += middle.x * along_x[unknown];
                found[1][unknown] += middle.y * along_y[unknown];
                found[2][unknown] += middle.y * along_x[unknown] + middle.x * along_y[unknown];
            }
        }
        found
    }

    /// Its stiffness: exact, because curvatures are linear.
    pub(super) fn stiffness(&self, poisson: f64) -> [[f64; UNKNOWNS]; UNKNOWNS] {
        let mut found = [[0.0; UNKNOWNS]; UNKNOWNS];
        let twist = (1.0 - poisson) / 2.0;
        for at in [[0.5, 0.5, 0.0], [0.0, 0.5, 0.5], [0.5, 0.0, 0.5]] {
            let [x, y, xy] = self.curvature(at);
            let weight = self.area / 3.0;
            for row in 0..UNKNOWNS {
                let (across, along) = (weight * (x[row] + poisson * y[row]), weight * (y[row] + poisson * x[row]));
                let twisting = weight * twist * xy[row];
                for column in 0..=row {
                    found[row][column] += across * x[column] + along * y[column] + twisting * xy[column];
                }
            }
        }
        found
    }

    /// Moments Mx, My and Mxy at the three corners, from the unknowns.
    pub(super) fn moments(&self, unknowns: &[f64; UNKNOWNS], poisson: f64) -> [[f64; 3]; 3] {
        let slope = |row: &[f64; UNKNOWNS]| row.iter().zip(unknowns).map(|(a, b)| a * b).sum::<f64>();
        let middles = self.middles.each_ref().map(|[x, y]| Vec2::new(slope(x), slope(y)));
        [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(|at| {
            let [mut x, mut y, mut xy] = [0.0; 3];
            for k in 0..3 {
                let (corner, middle) = self.quadratics(k, at);
                let own = Vec2::new(unknowns[3 * k + 1], unknowns[3 * k + 2]);
                for (gradient, slope) in [(corner, own), (middle, middles[k])] {
                    x += gradient.x * slope.x;
                    y += gradient.y * slope.y;
                    xy += gradient.y * slope.x + gradient.x * slope.y;
                }
            }
            [-(x + poisson * y), -(y + poisson * x), -(1.0 - poisson) / 2.0 * xy]
        })
    }
}

/// w,x and w,y at the middle of the side that runs from corner k + 1 to corner k + 2.
fn middle_slopes(k: usize, side: Vec2) -> [[f64; UNKNOWNS]; 2] {
    let length = side.hypot2().sqrt();
    let (i, j) = (3 * ((k + 1) % 3), 3 * ((k + 2) % 3));
    let (x, y) = (side.x / length, side.y / length);
    // Along the side 3 (wj − wi) ÷ 2 l less a quarter of both slopes; across it half of both.
    let mut found = [[0.0; UNKNOWNS]; 2];
    for (row, along) in found.iter_mut().zip([x, y]) {
        row[j] = 1.5 * along / length;
        row[i] = -row[j];
    }
    for corner in [i, j] {
        found[0][corner + 1] = y * y / 2.0 - x * x / 4.0;
        found[0][corner + 2] = -0.75 * x * y;
        found[1][corner + 1] = -0.75 * x * y;
        found[1][corner + 2] = x * x / 2.0 - y * y / 4.0;
    }
    found
}
