//! The shapes that makers cast, as outlines.
//!
//! Each stands with the left end of its front edge at the origin unless it says otherwise; sides are
//! numbered counter-clockwise from the front, which is 0.

use super::{CornerError, EdgeTag, LARGEST, LEAST_EDGE, Outline, OutlineError, Vertex};
use kurbo::Point;

impl Outline {
    /// The outline with these corners and straight edges, sides numbered in order.
    ///
    /// # Errors
    /// Corners that make no outline.
    pub fn polygon(corners: &[Point]) -> Result<Self, OutlineError> {
        let corners: Vec<_> = corners.iter().map(|at| (*at, 0.0)).collect();
        Self::with_arcs(&corners)
    }

    /// The outline with these corners, each with the bulge of the edge that starts there (see
    /// [`super::Edge::new`]); sides numbered in order.
    ///
    /// # Errors
    /// Corners that make no outline.
    pub fn with_arcs(corners: &[(Point, f64)]) -> Result<Self, OutlineError> {
        let vertices: Vec<_> = (0_u16..)
            .zip(corners)
            .map(|(number, (at, bulge))| Vertex { at: *at, bulge: *bulge, tag: EdgeTag::Side(number) })
            .collect();
        Self::new(&vertices)
    }

    /// The outline with these corners and straight edges, each corner rounded by its radius; a radius
    /// of nothing leaves it sharp. Side numbers follow the corners.
    ///
    /// # Errors
    /// Corners that make no outline, or radii that do not fit.
    pub fn rounded_polygon(corners: &[(Point, f64)]) -> Result<Self, CornerError> {
        let points: Vec<_> = corners.iter().map(|(at, _)| *at).collect();
        let mut outline = Self::polygon(&points)?;
        // From the last to the first, so that those still to come keep their places.
        for (index, (at, radius)) in corners.iter().enumerate().rev() {
            if *radius == 0.0 {
                continue;
            }
            // An edge used up by an earlier corner moves the places of the others.
            let vertex = match outline.edges().get(index) {
                Some(edge) if edge.start() == *at => Some(index),
                _ => outline.edges().iter().position(|edge| edge.start() == *at),
            };
            outline = outline.rounded(vertex.ok_or(CornerError::TooLarge { edge: index, most: 0.0 })?, *radius)?;
        }
        Ok(outline)
    }

    /// A rectangle: sides 0 front, 1 right, 2 back, 3 left.
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite.
    pub fn rectangle(width: f64, depth: f64) -> Result<Self, OutlineError> {
        sizes(&[width, depth])?;
        Self::polygon(&[(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)].map(Point::from))
    }

    /// A rectangle with four equally rounded corners.
    ///
    /// # Errors
    /// As for [`Self::rectangle`]; a radius of more than half the smaller size.
    pub fn rounded_rectangle(width: f64, depth: f64, radius: f64) -> Result<Self, CornerError> {
        sizes(&[width, depth])?;
        let most = width.min(depth) / 2.0;
        if radius > most + LEAST_EDGE {
            return Err(CornerError::TooLarge { edge: if width < depth { 0 } else { 1 }, most });
        }
        // A radius typed as exactly half must not fail on the last bit.
        let radius = radius.min(most);
        let corners = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)];
        Self::rounded_polygon(&corners.map(|corner| (Point::from(corner), radius)))
    }

    /// An L: a front run, and a leg at its left end that runs to the back. Sides 0 front, 1 right end,
    /// 2 back of the run, 3 right of the leg, 4 end of the leg, 5 left. Its other hand:
    /// [`Self::mirrored`].
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite, or a part as large as the whole.
    pub fn l_shape(width: f64, depth: f64, leg_width: f64, front_depth: f64) -> Result<Self, OutlineError> {
        sizes(&[width, depth, leg_width, front_depth])?;
        within(front_depth, depth, 1)?;
        within(leg_width, width, 4)?;
        let corners = [
            (0.0, 0.0),
            (width, 0.0),
            (width, front_depth),
            (leg_width, front_depth),
            (leg_width, depth),
            (0.0, depth),
        ];
        Self::polygon(&corners.map(Point::from))
    }

    /// A U: a front run with a leg to the back at both ends, the left one to `left_depth` and the right
    /// one to `right_depth`, both from the front. Sides 0 front, 1 right, 2 end of the right leg,
    /// 3 left of it, 4 back of the run, 5 right of the left leg, 6 its end, 7 left.
    ///
    /// # Errors
    /// As for [`Self::l_shape`].
    pub fn u_shape(
        width: f64,
        left_depth: f64,
        right_depth: f64,
        left_leg: f64,
        right_leg: f64,
        front_depth: f64,
    ) -> Result<Self, OutlineError> {
        sizes(&[width, left_depth, right_depth, left_leg, right_leg, front_depth])?;
        within(front_depth, right_depth, 3)?;
        within(front_depth, left_depth, 5)?;
        within(right_leg, width - left_leg, 2)?;
        let corners = [
            (0.0, 0.0),
            (width, 0.0),
            (width, right_depth),
            (width - right_leg, right_depth),
            (width - right_leg, front_depth),
            (left_leg, front_depth),
            (left_leg, left_depth),
            (0.0, left_depth),
        ];
        Self::polygon(&corners.map(Point::from))
    }

    /// A circle: two half circles, both side 0.
    ///
    /// # Errors
    /// A radius that is nothing, negative or not finite; a centre that is not finite.
    pub fn circle(center: Point, radius: f64) -> Result<Self, OutlineError> {
        sizes(&[radius])?;
        let half = |x: f64| Vertex { at: Point::new(center.x + x, center.y), bulge: 1.0, tag: EdgeTag::Side(0) };
        Self::new(&[half(radius), half(-radius)])
    }

    /// A D: straight at the back, round at the front. `depth` is from the back to the crown, which
    /// touches the front. Up to half the width deep, the front is one arc from end to end of the back;
    /// deeper, it is a half circle with straight sides behind it. The two back corners are rounded by
    /// that radius, if any. Sides 0 round front, 1 right, 2 back, 3 left; a shallow D has no 1 and 3.
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite; a radius that does not fit.
    pub fn d_shape(width: f64, depth: f64, corner_radius: f64) -> Result<Self, CornerError> {
        sizes(&[width, depth])?;
        let straight = depth - width / 2.0;
        let side = |x: f64, y: f64, bulge: f64, number: u16| Vertex {
            at: Point::new(x, y),
            bulge,
            tag: EdgeTag::Side(number),
        };
        let mut outline = if straight > LEAST_EDGE {
            Self::new(&[
                side(0.0, width / 2.0, 1.0, 0),
                side(width, width / 2.0, 0.0, 1),
                side(width, depth, 0.0, 2),
                side(0.0, depth, 0.0, 3),
            ])?
        } else {
            Self::new(&[side(0.0, depth, 2.0 * depth / width, 0), side(width, depth, 0.0, 2)])?
        };
        if corner_radius == 0.0 {
            return Ok(outline);
        }
        for corner in [Point::new(0.0, depth), Point::new(width, depth)] {
            let vertex = outline.edges().iter().position(|edge| edge.start() == corner);
            outline = outline.rounded(vertex.ok_or(CornerError::NoCorner)?, corner_radius)?;
        }
        Ok(outline)
    }
}

fn sizes(sizes: &[f64]) -> Result<(), OutlineError> {
    let good = |size: &f64| *size > 0.0 && *size <= LARGEST;
    if sizes.iter().all(good) { Ok(()) } else { Err(OutlineError::NoSize) }
}

/// The part is smaller than the whole; `edge` is the one that shows its size.
fn within(part: f64, whole: f64, edge: usize) -> Result<(), OutlineError> {
    if part < whole { Ok(()) } else { Err(OutlineError::TooWide { edge, most: whole }) }
}
