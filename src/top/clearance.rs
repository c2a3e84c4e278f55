//! Rails: the strips of concrete left beside cutouts, where tops crack.

use super::{Outline, Shape};
use crate::job::Side;
use crate::limits;
use crate::measure::Length;
use kurbo::{Point, Rect, Vec2};
use std::f64::consts::TAU;
use uom::si::length::meter;

/// What a rail lies between, on one of its two sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RailEnd {
    /// An edge of the outline.
    Edge(Side),
    /// A cutout, by its index.
    Cutout(usize),
    /// A hole: set and index in the set.
    Hole(usize, usize),
}

/// The thinnest place between a cutout or hole and an edge or another cutout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rail {
    /// The cutout or hole that it lies beside.
    pub from: RailEnd,
    /// What is on its other side.
    pub to: RailEnd,
    /// Least width; negative where the two run into each other or past the outline.
    pub width: Length,
    /// Where the least width is measured, from one side to the other; metres.
    pub at: (Point, Point),
}

impl Rail {
    /// It is a strip beside a cutout, and narrower than good practice.
    pub fn is_narrow(&self) -> bool {
        matches!(self.from, RailEnd::Cutout(_)) && self.width < limits::rail_watch() - limits::geometry_tolerance()
    }
}

/// The strip between a shape and one edge of the outline; exact, since the shape's outermost point
/// is known in closed form.
pub(super) fn to_edge(from: RailEnd, shape: &Shape, side: Side, outline: &Outline) -> Rail {
    let towards = match side {
        Side::Front => Vec2::new(0.0, -1.0),
        Side::Right => Vec2::new(1.0, 0.0),
        Side::Back => Vec2::new(0.0, 1.0),
        Side::Left => Vec2::new(-1.0, 0.0),
    };
    let edge = match side {
        Side::Right => outline.width.get::<meter>(),
        Side::Back => outline.depth.get::<meter>(),
        Side::Front | Side::Left => 0.0,
    };
    let (reach, span) = shape.reach(towards);
    let start = span[0].midpoint(span[1]);
    let width = edge - reach;
    let at = (start, start + width * towards);
    Rail { from, to: RailEnd::Edge(side), width: Length::new::<meter>(width), at }
}

/// The strip between two shapes.
pub(super) fn between(from: RailEnd, one: &Shape, to: RailEnd, other: &Shape) -> Rail {
    let (width, at) = separation(one, other);
    Rail { from, to, width: Length::new::<meter>(width), at }
}

/// Signed distance of two convex shapes, and a pair of points that have it.
///
/// The distance is the widest empty strip that parts the two: over all directions, the greatest
/// value of "where the other begins less how far the one reaches". Where they overlap the greatest
/// value is negative, and is how far one must be moved to part them. A fan of directions finds the
/// neighbourhood of the best; golden sections close in on it until the distance no longer changes in
/// the last digits, far inside 0.01 mm. Straight sides have their best along an axis, which is tried
/// exactly.
fn separation(one: &Shape, other: &Shape) -> (f64, (Point, Point)) {
    const FAN: u32 = 180;
    const STEP: f64 = TAU / FAN as f64;
    let gap = |angle: f64| gap_towards(one, other, Vec2::from_angle(angle));

    let fan: Vec<f64> = (0..FAN).map(|step| gap(f64::from(step) * STEP)).collect();
    let mut best = (f64::NEG_INFINITY, Vec2::new(1.0, 0.0));
    for step in 0..FAN as usize {
        let (before, here, after) =
            (fan[(step + FAN as usize - 1) % FAN as usize], fan[step], fan[(step + 1) % FAN as usize]);
        if here >= before && here >= after {
            let angle = sharpest(&gap, step as f64 * STEP - STEP, step as f64 * STEP + STEP);
            let found = gap(angle);
            if found > best.0 {
                best = (found, Vec2::from_angle(angle));
            }
        }
    }
    for axis in [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0), Vec2::new(-1.0, 0.0), Vec2::new(0.0, -1.0)] {
        let found = gap_towards(one, other, axis);
        // On a tie the axis wins: there whole sides face each other, and the strip is drawn mid-way.
        if found >= best.0 - 1e-12 {
            best = (found.max(best.0), axis);
        }
    }
    (best.0, facing_points(one, other, best.1))
}

fn gap_towards(one: &Shape, other: &Shape, towards: Vec2) -> f64 {
    -other.reach(-towards).0 - one.reach(towards).0
}

/// The angle between two others at which a function with one peak there is greatest.
fn sharpest(function: &dyn Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let (mut left, mut right) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_left, mut at_right) = (function(left), function(right));
    // Each step keeps 0.618 of the span: 60 steps take 4° to under 1e-13.
    for _ in 0..60 {
        if at_left < at_right {
            low = left;
            (left, at_left) = (right, at_right);
            right = low + GOLDEN * (high - low);
            at_right = function(right);
        } else {
            high = right;
            (right, at_right) = (left, at_left);
            left = high - GOLDEN * (high - low);
            at_left = function(left);
        }
    }
    (low + high) / 2.0
}

/// The two points that face each other across the strip; where straight sides face each other, in
/// the middle of what they have in common.
fn facing_points(one: &Shape, other: &Shape, towards: Vec2) -> (Point, Point) {
    let (_, near) = one.reach(towards);
    let (_, far) = other.reach(-towards);
    if towards.x == 0.0 || towards.y == 0.0 {
        let along_x = towards.y == 0.0;
        let (near, far) = (Rect::from_points(near[0], near[1]), Rect::from_points(far[0], far[1]));
        return if along_x {
            let y = (near.y0.max(far.y0) + near.y1.min(far.y1)) / 2.0;
            (Point::new(near.x0, y), Point::new(far.x0, y))
        } else {
            let x = (near.x0.max(far.x0) + near.x1.min(far.x1)) / 2.0;
            (Point::new(x, near.y0), Point::new(x, far.y0))
        };
    }
    (near[0], far[0])
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Affine;
    use proptest::prelude::*;

    /// 0.001 mm in metres: ten times finer than what is promised.
    const CLOSE: f64 = 1e-6;

    fn metres(number: f64) -> Length {
        Length::new::<meter>(number)
    }

    fn shape() -> impl Strategy<Value = Shape> {
        let center = (-1.0..1.0, -1.0..1.0).prop_map(Point::from);
        (center, 0.02..0.6, 0.02..0.6, 0.0..=1.0, any::<bool>()).prop_map(|(center, width, depth, round, ellipse)| {
            let (width, depth) = (metres(width), metres(depth));
            let most: Length = if width < depth { width / 2.0 } else { depth / 2.0 };
            if ellipse {
                Shape::ellipse(center, width, depth).unwrap()
            } else {
                Shape::rectangle(center, width, depth, most * round).unwrap()
            }
        })
    }

    /// Distance by brute force: every point of a fine polygon of one boundary to every segment of the
    /// other's. It shares nothing with the method under test, and is never too short.
    fn sampled_distance(one: &Shape, other: &Shape) -> f64 {
        fn points(shape: &Shape) -> Vec<Point> {
            use kurbo::{ParamCurve, ParamCurveArclen};
            let mut points = Vec::new();
            // A radius of nothing leaves arcs of no length.
            for segment in shape.path().segments().filter(|segment| segment.arclen(1e-6) > 1e-9) {
                points.extend((0..60).map(|step| segment.eval(f64::from(step) / 60.0)));
            }
            points
        }
        fn to_segment(point: Point, start: Point, end: Point) -> f64 {
            let along = end - start;
            let share = ((point - start).dot(along) / along.hypot2()).clamp(0.0, 1.0);
            (point - (start + share * along)).hypot()
        }
        let (a, b) = (points(one), points(other));
        let mut least = f64::INFINITY;
        for (from, onto) in [(&a, &b), (&b, &a)] {
            for &point in from {
                for pair in 0..onto.len() {
                    least = least.min(to_segment(point, onto[pair], onto[(pair + 1) % onto.len()]));
                }
            }
        }
        least
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn distance_is_that_of_the_nearest_points(one in shape(), other in shape()) {
            let (found, at) = separation(&one, &other);
            if found > 0.0 {
                let sampled = sampled_distance(&one, &other);
                // Polygons of 60 sides a quarter turn cut corners by at most r(1 − cos) < 0.03 mm each.
                prop_assert!((found - sampled).abs() < 6e-5, "{found} {sampled}");
                prop_assert!(((at.1 - at.0).hypot() - found).abs() < CLOSE);
            }
        }

        #[test]
        fn distance_does_not_care_which_comes_first(one in shape(), other in shape()) {
            prop_assert!((separation(&one, &other).0 - separation(&other, &one).0).abs() < CLOSE);
        }

        /// Mirrored left to right: same distance.
        #[test]
        fn distance_does_not_care_for_hands(one in shape(), other in shape()) {
            let mirror = |shape: &Shape| {
                let center = Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]) * shape.center();
                let (width, depth) = (metres(shape.bounds().width()), metres(shape.bounds().height()));
                match shape {
                    Shape::Rectangle(rect) => {
                        let most = if width < depth { width / 2.0 } else { depth / 2.0 };
                        let radius = metres(rect.radii().top_left);
                        Shape::rectangle(center, width, depth, if radius < most { radius } else { most }).unwrap()
                    }
                    Shape::Ellipse(_) => Shape::ellipse(center, width, depth).unwrap(),
                }
            };
            prop_assert!((separation(&one, &other).0 - separation(&mirror(&one), &mirror(&other)).0).abs() < CLOSE);
        }

        /// Closed form: a circle set off from an ellipse's boundary along its normal is that far away.
        #[test]
        fn circle_along_the_normal_of_an_ellipse(
            half in (0.05..0.5, 0.05..0.5), turn in 0.0..TAU, apart in 0.001_f64..0.5, radius in 0.01_f64..0.3,
        ) {
            let (a, b): (f64, f64) = half;
            let ellipse = Shape::ellipse(Point::ORIGIN, metres(2.0 * a), metres(2.0 * b)).unwrap();
            let boundary = Point::new(a * turn.cos(), b * turn.sin());
            let normal = Vec2::new(turn.cos() / a, turn.sin() / b).normalize();
            let circle = Shape::circle(boundary + (apart + radius) * normal, metres(2.0 * radius)).unwrap();
            prop_assert!((separation(&ellipse, &circle).0 - apart).abs() < CLOSE);
        }

        /// Closed form: two circles, also where they overlap.
        #[test]
        fn two_circles(x in -1.0_f64..1.0, y in -1.0_f64..1.0, one in 0.01_f64..0.4, other in 0.01_f64..0.4) {
            let a = Shape::circle(Point::ORIGIN, metres(2.0 * one)).unwrap();
            let b = Shape::circle(Point::new(x, y), metres(2.0 * other)).unwrap();
            let expected = f64::hypot(x, y) - one - other;
            prop_assert!((separation(&a, &b).0 - expected).abs() < CLOSE);
        }
    }

    /// Sharp corners: 3-4-5 apart, and side by side with the strip measured mid-way.
    #[test]
    fn square_corners_and_sides() {
        let square = |x, y| Shape::rectangle(Point::new(x, y), metres(2.0), metres(2.0), metres(0.0)).unwrap();
        let (corner, at) = separation(&square(0.0, 0.0), &square(5.0, 6.0));
        assert!((corner - 5.0).abs() < CLOSE);
        assert!((at.0 - Point::new(1.0, 1.0)).hypot() < CLOSE && (at.1 - Point::new(4.0, 5.0)).hypot() < CLOSE);
        let (side, at) = separation(&square(0.0, 0.0), &square(3.0, 1.0));
        assert!((side - 1.0).abs() < CLOSE);
        assert!((at.0 - Point::new(1.0, 0.5)).hypot() < CLOSE && (at.1 - Point::new(2.0, 0.5)).hypot() < CLOSE);
        let (overlap, _) = separation(&square(0.0, 0.0), &square(1.5, 0.0));
        assert!((overlap + 0.5).abs() < CLOSE);
    }

    /// Sizes so small that their squares vanish still have a distance.
    #[test]
    fn vanishing_sizes() {
        let speck = Shape::ellipse(Point::ORIGIN, metres(1e-300), metres(1e-310)).unwrap();
        let circle = Shape::circle(Point::new(1.0, 0.0), metres(0.5)).unwrap();
        let (found, at) = separation(&speck, &circle);
        assert!((found - 0.75).abs() < CLOSE);
        assert!(at.0.is_finite() && at.1.is_finite());
    }
}
