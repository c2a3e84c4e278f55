//! How long the edges of a mesh shall be at every place: a raster of sizes, small where something asks for it
//! and growing away from there.

use super::MeshSize;
use kurbo::{Point, Rect};

/// Cells of the raster at most: beyond, cells get larger.
const MOST_CELLS: f64 = 40_000.0;

/// Sizes on a raster of square cells.
#[derive(Clone)]
pub(super) struct SizeField {
    origin: Point,
    cell: f64,
    columns: usize,
    rows: usize,
    sizes: Vec<f64>,
    bounds: Rect,
}

impl SizeField {
    /// Coarse everywhere.
    pub(super) fn new(bounds: Rect, grain: &MeshSize) -> Self {
        let cell = grain.fine.max((bounds.area() / MOST_CELLS).sqrt()).max(bounds.width().max(bounds.height()) / 2e3);
        let count = |length: f64| (length / cell).ceil().max(1.0) as usize + 1;
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        // A small piece still gets a few triangles across.
        let coarse = grain.coarse.min(bounds.width().min(bounds.height()) / 4.0);
        Self { origin: bounds.origin(), cell, columns, rows, sizes: vec![coarse; columns * rows], bounds }
    }

    /// The distance between two cells.
    pub(super) fn cell(&self) -> f64 {
        self.cell
    }

    pub(super) fn bounds(&self) -> Rect {
        self.bounds
    }

    /// The column and row of the cell centre left and below of a point, and how far the point is beyond it, as
    /// shares of a cell.
    fn locate(&self, point: Point) -> (usize, usize, f64, f64) {
        let along = |from: f64, count: usize| {
            let at = (from / self.cell).clamp(0.0, count.saturating_sub(1) as f64);
            let index = (at.floor() as usize).min(count.saturating_sub(2));
            (index, at - index as f64)
        };
        let (column, x) = along(point.x - self.origin.x, self.columns);
        let (row, y) = along(point.y - self.origin.y, self.rows);
        (column, row, x, y)
    }

    fn get(&self, column: usize, row: usize) -> f64 {
        self.sizes.get(row * self.columns + column.min(self.columns - 1)).copied().unwrap_or(f64::INFINITY)
    }

    /// No longer than that here.
    pub(super) fn stamp(&mut self, at: Point, size: f64) {
        let (column, row, x, y) = self.locate(at);
        let (column, row) = (column + usize::from(x >= 0.5), row + usize::from(y >= 0.5));
        let index = row * self.columns + column.min(self.columns - 1);
        if let Some(own) = self.sizes.get_mut(index) {
            *own = own.min(size);
        }
    }

    /// No longer than that in a square around a point, `reach` to each side.
    pub(super) fn stamp_square(&mut self, at: Point, reach: f64, size: f64) {
        let steps = (2.0 * reach / self.cell).ceil().clamp(0.0, 400.0) as usize;
        for i in 0..=steps {
            for j in 0..=steps {
                let share = |k: usize| if steps == 0 { 0.0 } else { 2.0 * k as f64 / steps as f64 - 1.0 };
                let point = Point::new(at.x + share(i) * reach, at.y + share(j) * reach);
                if self.bounds.contains(point) {
                    self.stamp(point, size);
                }
            }
        }
    }

    /// Lets sizes grow no faster than by `growth` for each metre.
    pub(super) fn spread(&mut self, growth: f64) {
        let (straight, diagonal) = (growth * self.cell, growth * self.cell * std::f64::consts::SQRT_2);
        let (columns, rows) = (self.columns as isize, self.rows as isize);
        let mut pass = |order: &mut dyn Iterator<Item = isize>, back: isize| {
            for index in order {
                let (column, row) = (index % columns, index / columns);
                let mut least = self.sizes[index as usize];
                for (across, along, more) in
                    [(back, 0, straight), (0, back, straight), (back, back, diagonal), (-back, back, diagonal)]
                {
                    let (column, row) = (column + across, row + along);
                    if (0..columns).contains(&column) && (0..rows).contains(&row) {
                        least = least.min(self.sizes[(row * columns + column) as usize] + more);
                    }
                }
                self.sizes[index as usize] = least;
            }
        };
        pass(&mut (0..columns * rows), -1);
        pass(&mut (0..columns * rows).rev(), 1);
    }

    /// Makes everything coarser until a mesh over that area has about so many nodes at most.
    pub(super) fn keep_under(&mut self, most_nodes: usize, area: f64) {
        let dense: f64 = self.sizes.iter().map(|size| size.powi(-2)).sum::<f64>() / self.sizes.len() as f64;
        let nodes = area * dense / (3.0_f64.sqrt() / 2.0);
        if nodes > most_nodes as f64 {
            *self = self.scaled((nodes / most_nodes as f64).sqrt());
        }
    }

    /// All sizes times that.
    pub(super) fn scaled(&self, factor: f64) -> Self {
        Self { sizes: self.sizes.iter().map(|size| size * factor).collect(), ..self.clone() }
    }

    /// The size at a point.
    pub(super) fn at(&self, point: Point) -> f64 {
        let (column, row, x, y) = self.locate(point);
        let near = self.get(column, row) * (1.0 - x) + self.get(column + 1, row) * x;
        let far = self.get(column, row + 1) * (1.0 - x) + self.get(column + 1, row + 1) * x;
        near * (1.0 - y) + far * y
    }

    /// The smallest size anywhere.
    pub(super) fn least(&self) -> f64 {
        self.sizes.iter().copied().fold(f64::INFINITY, f64::min)
    }
}
