//! The endless line or full circle that an edge lies on.

use super::edge::{Edge, bulge_of, wrapped};
use super::{LEAST_EDGE, left_of, unit};
use kurbo::{Point, Vec2};
use std::f64::consts::TAU;

/// A line or circle with a right-hand side, which on an outline is outward.
#[derive(Clone, Copy)]
pub(super) enum Carrier {
    /// The points whose component along `normal`, of length one, is `at`.
    Line { normal: Vec2, at: f64 },
    /// The points `center + radius × normal`: a negative radius is hollow to the right.
    Circle { center: Point, radius: f64 },
}

impl Carrier {
    pub(super) fn of(edge: &Edge) -> Self {
        match edge.center().zip(edge.radius()) {
            Some((center, radius)) => Self::Circle { center, radius: radius.copysign(edge.bulge()) },
            None => {
                let normal = edge.normal_at(0.5);
                Self::Line { normal, at: normal.dot(edge.start().midpoint(edge.end()).to_vec2()) }
            }
        }
    }

    /// Moved to its right by that distance.
    pub(super) fn moved(self, by: f64) -> Self {
        match self {
            Self::Line { normal, at } => Self::Line { normal, at: at + by },
            Self::Circle { center, radius } => Self::Circle { center, radius: radius + by },
        }
    }

    /// The direction to its right at a point of it.
    pub(super) fn normal_at(self, point: Point) -> Vec2 {
        match self {
            Self::Line { normal, .. } => normal,
            Self::Circle { center, radius } => unit(point - center) * radius.signum(),
        }
    }

    /// Where this one and the next cut, at a corner that turns to the left if `hand` is positive, to
    /// the right if negative. Of two circles' two cuts, just one is of each hand: so a corner is
    /// followed without doubt while its edges move.
    pub(super) fn meet(self, next: Self, hand: f64) -> Option<Point> {
        let point = match (self, next) {
            (Self::Line { normal, at }, Self::Line { normal: next_normal, at: next_at }) => {
                let cross = normal.cross(next_normal);
                ((next_at * left_of(normal) - at * left_of(next_normal)) / cross).to_point()
            }
            (Self::Line { normal, at }, Self::Circle { center, radius }) => {
                line_meets_circle(normal, at, center, radius, hand)?
            }
            (Self::Circle { center, radius }, Self::Line { normal, at }) => {
                line_meets_circle(normal, at, center, radius, -hand)?
            }
            (Self::Circle { center, radius }, Self::Circle { center: next_center, radius: next_radius }) => {
                let side = hand.signum() * radius.signum() * next_radius.signum();
                let cuts = circles_cut(center, radius.abs(), next_center, next_radius.abs())?;
                cuts[usize::from(side < 0.0)]
            }
        };
        Some(point).filter(|point| point.is_finite())
    }

    /// Centre of the arc of that radius, positive if it turns left, that runs smoothly from this one
    /// into the next; and where it begins and ends.
    pub(super) fn blend(self, next: Self, radius: f64) -> Option<(Point, Point)> {
        let (inner, next_inner) = (self.moved(-radius), next.moved(-radius));
        let center = inner.meet(next_inner, radius)?;
        Some((center + radius * inner.normal_at(center), center + radius * next_inner.normal_at(center)))
    }
}

/// Where two circles cut: first to the left of the way from the one centre to the other, then to the right.
pub(super) fn circles_cut(center: Point, radius: f64, other_center: Point, other_radius: f64) -> Option<[Point; 2]> {
    if radius > other_radius {
        // From the smaller circle, nothing is lost to a large one.
        let [right, left] = circles_cut(other_center, other_radius, center, radius)?;
        return Some([left, right]);
    }
    let between = other_center - center;
    let apart = between.hypot();
    let along = ((apart - other_radius) * (apart + other_radius) + radius * radius) / (2.0 * apart);
    let square = (radius - along) * (radius + along);
    let aside = square.max(0.0).sqrt() * left_of(unit(between));
    let middle = center + along * unit(between);
    (square >= 0.0).then(|| [middle + aside, middle - aside])
}

fn line_meets_circle(normal: Vec2, at: f64, center: Point, radius: f64, hand: f64) -> Option<Point> {
    let height = at - normal.dot(center.to_vec2());
    let square = (radius - height) * (radius + height);
    let aside = square.max(0.0).sqrt() * hand.signum() * radius.signum();
    (square >= 0.0).then(|| center + height * normal + aside * left_of(normal))
}

/// The edge between two other points of its carrier, which may have moved sideways. Nothing if the
/// points have passed each other, or are so near that nothing is left.
pub(super) fn between(edge: &Edge, carrier: Carrier, start: Point, end: Point) -> Option<Edge> {
    let long_enough = (end - start).hypot() >= LEAST_EDGE;
    let bulge = match carrier {
        Carrier::Line { .. } => {
            if edge.chord().dot(end - start) <= 0.0 {
                return None;
            }
            0.0
        }
        Carrier::Circle { .. } => {
            let turned = |share: f64, to: Point| {
                let (from, to) = (edge.normal_at(share), carrier.normal_at(to));
                wrapped(from.cross(to).atan2(from.dot(to)))
            };
            let sweep = edge.sweep() + turned(1.0, end) - turned(0.0, start);
            if sweep * edge.bulge() <= 0.0 || sweep.abs() >= TAU {
                return None;
            }
            bulge_of(sweep)
        }
    };
    let made = Edge::new(start, end, bulge, edge.tag());
    (long_enough && made.is_straight() == edge.is_straight()).then_some(made)
}
