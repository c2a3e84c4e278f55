//! Nodes inside: a hexagonal lattice, thinned by the local size.
//!
//! Every third point of a hexagonal lattice makes another one, √3 times as wide and turned by 30°; so does every
//! third of that one. A point is kept if the lattice of the wanted width has it.

use super::size::SizeField;
use crate::strength::sorted::ascend;
use kurbo::{Point, Rect};

/// Points of the narrowest lattice at most: beyond, it is not as narrow as asked for.
const MOST_CANDIDATES: f64 = 60_000.0;
/// Nodes nearer to those of the boundary and the guides than this share of the size are left out.
const CLEAR: f64 = 0.7;
/// Steps of thinning: the widest lattice is 3^6 times as wide as the narrowest.
const LEVELS: i32 = 12;

/// The nodes inside the loops, clear of the fixed ones.
pub(super) fn nodes(loops: &[Vec<Point>], fixed: &[Point], sizes: &SizeField) -> Vec<Point> {
    let bounds = sizes.bounds();
    let narrowest = sizes.least().max((bounds.area() / MOST_CANDIDATES / 0.866).sqrt());
    let buckets = Buckets::new(fixed, bounds, sizes.cell().max(narrowest));
    let mut found = Vec::new();
    let (wide, high) = (narrowest, narrowest * 3.0_f64.sqrt() / 2.0);
    let rows = (bounds.height() / high).ceil() as i64;
    for row in 0..=rows {
        let y = bounds.y0 + (row as f64 + 0.37) * high;
        let shift = bounds.x0 + row as f64 / 2.0 * wide;
        for span in spans(loops, y).chunks_exact(2) {
            let &[from, to] = span else { continue };
            let first = ((from - shift) / wide).ceil() as i64;
            let last = ((to - shift) / wide).floor() as i64;
            for column in first..=last {
                let at = Point::new(shift + column as f64 * wide, y);
                let size = sizes.at(at);
                let level = (2.0 * (size / narrowest).ln() / 3.0_f64.ln()).round() as i32;
                if on_level(column, row, level.min(LEVELS)) && buckets.clear(at, CLEAR * size) {
                    found.push(at);
                }
            }
        }
    }
    found
}

/// The lattice that is √3 times as wide, so many times over, has this point.
fn on_level(mut column: i64, mut row: i64, level: i32) -> bool {
    for _ in 0..level {
        if (row - column).rem_euclid(3) != 0 {
            return false;
        }
        let third = (row - column) / 3;
        (column, row) = (column + third, third);
    }
    true
}

/// Where an upright cut through the loops at that height enters and leaves them, in order.
fn spans(loops: &[Vec<Point>], y: f64) -> Vec<f64> {
    let mut found = Vec::new();
    for points in loops {
        let mut from = points.last().copied().unwrap_or_default();
        for to in points {
            if (from.y > y) != (to.y > y) {
                found.push(from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x));
            }
            from = *to;
        }
    }
    ascend(&mut found);
    found
}

/// Points by square cells, to find those near a place.
struct Buckets<'a> {
    points: &'a [Point],
    bounds: Rect,
    cell: f64,
    columns: usize,
    cells: Vec<Vec<u32>>,
}

impl<'a> Buckets<'a> {
    fn new(points: &'a [Point], bounds: Rect, cell: f64) -> Self {
        let count = |length: f64| (length / cell).floor() as usize + 1;
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        let mut buckets = Self { points, bounds, cell, columns, cells: vec![Vec::new(); columns * rows] };
        for (index, point) in points.iter().enumerate() {
            let (column, row) = (buckets.index(point.x - bounds.x0), buckets.index(point.y - bounds.y0));
            if let Some(cell) = buckets.cells.get_mut(row * columns + column.min(columns - 1)) {
                cell.push(index as u32);
            }
        }
        buckets
    }

    fn index(&self, from: f64) -> usize {
        (from / self.cell).max(0.0) as usize
    }

    /// No point lies within that distance.
    fn clear(&self, at: Point, distance: f64) -> bool {
        let (x, y) = (at.x - self.bounds.x0, at.y - self.bounds.y0);
        for row in self.index(y - distance)..=self.index(y + distance) {
            for column in self.index(x - distance)..=self.index(x + distance).min(self.columns - 1) {
                let Some(cell) = self.cells.get(row * self.columns + column) else { continue };
                let near = |index: &u32| (self.points[*index as usize] - at).hypot2() < distance * distance;
                if cell.iter().any(near) {
                    return false;
                }
            }
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every third point is kept at each level, and kept points stand √3 times as far apart.
    #[test]
    fn thinned_lattices_are_hexagonal() {
        for level in 0..5 {
            let mut kept = Vec::new();
            for row in -40..40_i64 {
                for column in -60..60_i64 {
                    if on_level(column, row, level) {
                        kept.push(Point::new(column as f64 + row as f64 / 2.0, row as f64 * 3.0_f64.sqrt() / 2.0));
                    }
                }
            }
            let apart = 3.0_f64.powf(f64::from(level) / 2.0);
            let middle = kept.iter().min_by(|one, other| one.to_vec2().hypot().total_cmp(&other.to_vec2().hypot()));
            let middle = *middle.expect("some are kept");
            let mut near: Vec<f64> = kept.iter().map(|point| (*point - middle).hypot()).collect();
            near.sort_by(f64::total_cmp);
            assert!(near[1..7].iter().all(|distance| (distance - apart).abs() < 1e-9), "{near:?}");
            assert!(near[7] > 1.5 * apart);
        }
    }
}
