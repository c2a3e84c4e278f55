//! A closed shape in the plane of the top.

use crate::measure::{Area, Length};
use kurbo::BezPath;

/// A rounded rectangle, ellipse or circle, placed by its centre. Coordinates in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Centre, half width, half depth, corner radius (at most the smaller half size).
    Rectangle(kurbo::RoundedRect),
    /// An ellipse whose axes lie along x and y; a circle has equal radii.
    Ellipse(kurbo::Ellipse),
}

impl Shape {
    /// Enclosed area, exact.
    pub fn area(&self) -> Area {
        todo!()
    }

    /// Length of the boundary, exact to 1e-9 m.
    pub fn perimeter(&self) -> Length {
        todo!()
    }

    /// The boundary, for drawing; arcs within 0.01 mm.
    pub fn path(&self) -> BezPath {
        todo!()
    }
}
