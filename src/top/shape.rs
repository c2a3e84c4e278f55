//! A closed shape in the plane of the top.

use crate::measure::{Area, Length};
use kurbo::{BezPath, Point, Rect, Shape as _, Vec2};
use uom::si::area::square_meter;
use uom::si::length::meter;

/// How closely a drawn curve follows the true one: 0.01 mm, in metres.
const DRAWING_TOLERANCE: f64 = 1e-5;
/// How closely a boundary's length is worked out; metres.
const PERIMETER_TOLERANCE: f64 = 1e-10;

/// A rounded rectangle, ellipse or circle, placed by its centre. Coordinates in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// Centre, half width, half depth, corner radius (at most the smaller half size).
    Rectangle(kurbo::RoundedRect),
    /// An ellipse whose axes lie along x and y; a circle has equal radii.
    Ellipse(kurbo::Ellipse),
}

/// Why there is no shape of the sizes asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ShapeError {
    /// A size is nothing, negative or not finite.
    NoSize,
    /// The centre is not finite.
    NoPlace,
    /// The corner radius is negative or not finite.
    BadRadius,
    /// The corner radius is larger than half the smaller size, which is given.
    RadiusTooLarge {
        /// The largest radius that the size allows.
        most: Length,
    },
}

impl Shape {
    /// A rectangle of that size around `center` (metres) with that radius at its four corners.
    ///
    /// # Errors
    /// A size that is not positive and finite; a radius that is negative or larger than half the
    /// smaller size: it is never made smaller to fit.
    pub fn rectangle(center: Point, width: Length, depth: Length, corner_radius: Length) -> Result<Self, ShapeError> {
        let (rect, radius) = (rect(center, width, depth)?, corner_radius.get::<meter>());
        if !radius.is_finite() || radius < 0.0 {
            return Err(ShapeError::BadRadius);
        }
        let most = if width < depth { width / 2.0 } else { depth / 2.0 };
        // A radius typed as exactly half must not fail on the last bit.
        if radius > most.get::<meter>() * (1.0 + 1e-12) {
            return Err(ShapeError::RadiusTooLarge { most });
        }
        Ok(Self::Rectangle(rect.to_rounded_rect(radius)))
    }

    /// An ellipse of those two diameters around `center` (metres).
    ///
    /// # Errors
    /// A size that is not positive and finite.
    pub fn ellipse(center: Point, width: Length, depth: Length) -> Result<Self, ShapeError> {
        rect(center, width, depth).map(|rect| Self::Ellipse(kurbo::Ellipse::from_rect(rect)))
    }

    /// A circle of that diameter around `center` (metres).
    ///
    /// # Errors
    /// A diameter that is not positive and finite.
    pub fn circle(center: Point, diameter: Length) -> Result<Self, ShapeError> {
        Self::ellipse(center, diameter, diameter)
    }

    /// Enclosed area, exact.
    pub fn area(&self) -> Area {
        Area::new::<square_meter>(match self {
            Self::Rectangle(rect) => rect.area(),
            Self::Ellipse(ellipse) => ellipse.area(),
        })
    }

    /// Length of the boundary, exact to 1e-9 m.
    pub fn perimeter(&self) -> Length {
        Length::new::<meter>(match self {
            Self::Rectangle(rect) => rect.perimeter(PERIMETER_TOLERANCE),
            Self::Ellipse(ellipse) => ellipse.perimeter(PERIMETER_TOLERANCE),
        })
    }

    /// The boundary, for drawing; arcs within 0.01 mm.
    pub fn path(&self) -> BezPath {
        match self {
            Self::Rectangle(rect) => rect.to_path(DRAWING_TOLERANCE),
            Self::Ellipse(ellipse) => ellipse.to_path(DRAWING_TOLERANCE),
        }
    }

    /// The smallest upright rectangle around it; metres.
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Rectangle(rect) => rect.rect(),
            Self::Ellipse(ellipse) => ellipse.bounding_box(),
        }
    }

    /// Its centre; metres.
    pub fn center(&self) -> Point {
        self.bounds().center()
    }

    /// How far it reaches in direction `towards` (of length one), from the plane's origin, and the
    /// span of points that reach so far: two ends of a straight side, or twice the same point.
    pub(super) fn reach(&self, towards: Vec2) -> (f64, [Point; 2]) {
        let (center, bounds) = (self.center(), self.bounds());
        let halves = Vec2::new(bounds.width() / 2.0, bounds.height() / 2.0);
        let span = match self {
            Self::Rectangle(rect) => {
                // A core rectangle, and a disc of the corner radius that runs along its boundary.
                let radius = rect.radii().top_left;
                let core = halves - Vec2::new(radius, radius);
                let ends = |component: f64, half: f64| match component {
                    0.0 => [-half, half],
                    _ => [half.copysign(component), half.copysign(component)],
                };
                let (x, y) = (ends(towards.x, core.x), ends(towards.y, core.y));
                [0, 1].map(|end| Vec2::new(x[end], y[end]) + radius * towards)
            }
            Self::Ellipse(_) => {
                let scaled = Vec2::new(halves.x * towards.x, halves.y * towards.y);
                let length = scaled.hypot();
                // Sizes that vanish when squared leave a point.
                let point = if length > 0.0 {
                    Vec2::new(halves.x * scaled.x, halves.y * scaled.y) / length
                } else {
                    Vec2::ZERO
                };
                [point, point]
            }
        };
        ((center.to_vec2() + span[0]).dot(towards), span.map(|offset| center + offset))
    }
}

fn rect(center: Point, width: Length, depth: Length) -> Result<Rect, ShapeError> {
    let (width, depth) = (width.get::<meter>(), depth.get::<meter>());
    if !center.is_finite() {
        Err(ShapeError::NoPlace)
    } else if width.is_finite() && depth.is_finite() && width > 0.0 && depth > 0.0 {
        Ok(Rect::from_center_size(center, (width, depth)))
    } else {
        Err(ShapeError::NoSize)
    }
}
