//! An ellipse, and the curves at a fixed distance from one.

use super::edge::{Edge, EdgeTag};
use super::offset::{OffsetError, OffsetTrouble};
use super::{DRAWING_TOLERANCE, LARGEST, LEAST_EDGE, OutlineError, left_of};
use kurbo::{BezPath, PathEl, Point, Rect, Shape as _, Vec2};
use serde::{Deserialize, Serialize};
use std::f64::consts::{PI, TAU};

/// An ellipse, or the curve that runs at a fixed distance outside or inside one: an undermount sink with
/// a reveal is such a curve, and no ellipse.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ellipse {
    center: Point,
    /// Half its longer and half its shorter diameter; metres.
    long: f64,
    short: f64,
    /// Direction of the longer one, of length one.
    along: Vec2,
    /// How far outside the ellipse the curve runs; metres.
    beyond: f64,
}

impl Ellipse {
    /// The ellipse of that width and depth around `center`, turned by that angle; metres and radians.
    ///
    /// # Errors
    /// A size that is nothing, negative or not finite; a centre or an angle that is not finite.
    pub fn new(center: Point, width: f64, depth: f64, turn: f64) -> Result<Self, OutlineError> {
        if ![width, depth].iter().all(|size| (LEAST_EDGE..=LARGEST).contains(size)) {
            return Err(OutlineError::NoSize);
        }
        if !(center.x.abs() <= LARGEST && center.y.abs() <= LARGEST && turn.is_finite()) {
            return Err(OutlineError::NotFinite { edge: 0 });
        }
        let across = Vec2::from_angle(turn);
        let along = if width >= depth { across } else { left_of(across) };
        Ok(Self { center, long: width.max(depth) / 2.0, short: width.min(depth) / 2.0, along, beyond: 0.0 })
    }

    /// Its centre; metres.
    pub fn center(&self) -> Point {
        self.center
    }

    /// How far outside the ellipse that it was made as the curve runs; negative inside; metres.
    pub fn beyond(&self) -> f64 {
        self.beyond
    }

    /// Enclosed area, square metres; exact: that of the ellipse, its perimeter times the distance, and
    /// a circle of the distance.
    pub fn area(&self) -> f64 {
        PI * self.long * self.short + self.own_perimeter() * self.beyond + PI * self.beyond * self.beyond
    }

    /// Length of the boundary, metres; to the last digits.
    pub fn perimeter(&self) -> f64 {
        self.own_perimeter() + TAU * self.beyond
    }

    /// Perimeter of the ellipse itself, by the arithmetic-geometric mean.
    fn own_perimeter(&self) -> f64 {
        let (mut one, mut other) = (1.0, self.short / self.long);
        let (mut weight, mut sum) = (0.5, 1.0 - other * other);
        sum *= weight;
        // Digits double in each round; eight are enough for any shape.
        for _ in 0..8 {
            let half = (one - other) / 2.0;
            (one, other) = (f64::midpoint(one, other), (one * other).sqrt());
            weight *= 2.0;
            sum += weight * half * half;
        }
        TAU * self.long * (1.0 - sum) / one
    }

    /// The smallest upright rectangle around it; metres.
    pub fn bounds(&self) -> Rect {
        let x = self.support(Vec2::new(1.0, 0.0)).x - self.center.x;
        let y = self.support(Vec2::new(0.0, 1.0)).y - self.center.y;
        Rect::new(self.center.x - x, self.center.y - y, self.center.x + x, self.center.y + y)
    }

    /// The point of it that reaches furthest in that direction, of length one.
    pub fn support(&self, towards: Vec2) -> Point {
        let (x, y) = (self.long * self.along.dot(towards), self.short * self.along.cross(towards));
        let length = x.hypot(y);
        let on_ellipse =
            if length > 0.0 { self.plane(self.long * x / length, self.short * y / length) } else { Vec2::ZERO };
        self.center + on_ellipse + self.beyond * towards
    }

    /// The vector of those components along the longer and the shorter diameter.
    fn plane(&self, along: f64, across: f64) -> Vec2 {
        along * self.along + across * left_of(self.along)
    }

    /// The point lies inside.
    pub fn contains(&self, point: Point) -> bool {
        self.signed_distance(point).0 < 0.0
    }

    /// Distance of a point from the curve, negative inside, and the point of the curve that has it;
    /// metres, to the last digits.
    pub fn signed_distance(&self, point: Point) -> (f64, Point) {
        let from = point - self.center;
        let (u, v) = (from.dot(self.along), self.along.cross(from));
        let (x, y) = nearest_on_quarter(self.long, self.short, u.abs(), v.abs());
        let inside = (u / self.long).hypot(v / self.short) < 1.0;
        let distance = (u.abs() - x).hypot(v.abs() - y);
        // Outward from there: the gradient, which exists also where the point is on the curve.
        let outward =
            self.plane((x / (self.long * self.long)).copysign(u), (y / (self.short * self.short)).copysign(v));
        let on_ellipse = self.center + self.plane(x.copysign(u), y.copysign(v));
        let signed = if inside { -distance } else { distance };
        (signed - self.beyond, on_ellipse + self.beyond * super::unit(outward))
    }

    /// The smallest radius of its curve, and where it is; metres.
    pub fn least_radius(&self) -> (f64, Point) {
        (self.short * self.short / self.long + self.beyond, self.support(self.along))
    }

    /// The boundary, for drawing, within 0.001 mm. Away from the ellipse itself it is fitted through
    /// its points and directions: 64 of them, more the thinner it is, for its normal turns the faster.
    pub fn path(&self) -> BezPath {
        if self.beyond == 0.0 {
            let ellipse = kurbo::Ellipse::new(self.center, (self.long, self.short), self.along.atan2());
            return ellipse.to_path(DRAWING_TOLERANCE);
        }
        // The error goes with the fourth power of how far the normal turns in a part.
        let parts = (64.0 * self.long / self.short).ceil().min(256.0) as u32;
        let part = TAU / f64::from(parts);
        let at = |step: u32| {
            let (sine, cosine) = (f64::from(step) * part).sin_cos();
            let normal = Vec2::new(self.short * cosine, self.long * sine);
            let length = normal.hypot();
            let point = Vec2::new(self.long * cosine, self.short * sine) + self.beyond / length * normal;
            // Along the ellipse the speed is the normal's length; the curve beside it is longer by the
            // distance times how fast the normal turns.
            let speed = length + self.beyond * self.long * self.short / (length * length);
            let direction = Vec2::new(-normal.y, normal.x) / length * speed;
            (self.center + self.plane(point.x, point.y), self.plane(direction.x, direction.y) * part / 3.0)
        };
        let mut path = BezPath::new();
        let (mut point, mut handle) = at(0);
        path.push(PathEl::MoveTo(point));
        for step in 1..=parts {
            let (next, next_handle) = at(step % parts);
            path.curve_to(point + handle, next - next_handle, next);
            (point, handle) = (next, next_handle);
        }
        path.close_path();
        path
    }

    /// The curve that runs further out by that distance, or further in if negative; metres.
    ///
    /// # Errors
    /// A distance that leaves a kink or nothing: the curve can only come in by its smallest radius.
    pub fn offset(&self, distance: f64) -> Result<Self, OffsetError> {
        let most = -self.least_radius().0 + LEAST_EDGE;
        let refused = |trouble, largest: f64| OffsetError {
            edge: 0,
            tag: EdgeTag::Side(0),
            trouble,
            moved: 0,
            largest,
            share: largest / distance,
        };
        if distance.is_nan() || distance.abs() > LARGEST {
            Err(OffsetError { share: 0.0, ..refused(OffsetTrouble::NotFinite, 0.0) })
        } else if distance < most {
            Err(refused(OffsetTrouble::Swallowed, most.min(0.0)))
        } else {
            Ok(Self { beyond: self.beyond + distance, ..*self })
        }
    }

    /// The same curve elsewhere.
    #[must_use]
    pub fn translated(&self, by: Vec2) -> Self {
        Self { center: self.center + by, ..*self }
    }

    /// The same curve turned by that angle about that point.
    #[must_use]
    pub fn rotated(&self, angle: f64, about: Point) -> Self {
        let along = super::turned(self.along.to_point(), angle, Point::ORIGIN).to_vec2();
        Self { center: super::turned(self.center, angle, about), along, ..*self }
    }

    /// Mirrored left to right about the upright line at `x`.
    #[must_use]
    pub fn mirrored(&self, x: f64) -> Self {
        let center = Point::new(2.0 * x - self.center.x, self.center.y);
        Self { center, along: Vec2::new(-self.along.x, self.along.y), ..*self }
    }

    /// The point of an edge that is least far outside, or furthest inside: its signed distance, and the
    /// two points, the one on the curve first. Exact where a line stays outside; otherwise to 1e-12 m.
    pub(super) fn closest(&self, edge: &Edge) -> (f64, (Point, Point)) {
        let at = |share: f64| {
            let point = edge.point_at(share);
            let (distance, near) = self.signed_distance(point);
            (distance, (near, point))
        };
        let mut best = at(0.0);
        let mut take = |found: (f64, (Point, Point))| {
            if found.0 < best.0 {
                best = found;
            }
        };
        take(at(1.0));
        if edge.is_straight() {
            // Outside, the nearest point of an endless line stands over the furthest point towards it.
            let chord = edge.chord();
            let normal = edge.normal_at(0.0);
            let from = edge.start() - self.center;
            let towards = if normal.dot(from) < 0.0 { -normal } else { normal };
            let near = self.support(towards);
            let share = (near - edge.start()).dot(chord) / chord.hypot2();
            if (edge.start() - near).dot(towards) >= 0.0 {
                if (0.0..=1.0).contains(&share) {
                    let foot = edge.start() + share * chord;
                    take(((foot - near).dot(towards), (near, foot)));
                }
            } else {
                // Along a line the signed distance from a convex curve has one dip only: at an end, unless it falls
                // from both.
                let rises = |(distance, (near, point)): (f64, (Point, Point))| {
                    let outward = if distance < 0.0 { near - point } else { point - near };
                    outward.dot(chord)
                };
                if rises(at(0.0)) <= 0.0 && rises(at(1.0)) >= 0.0 {
                    take(at(lowest(&|share| at(share).0, 0.0, 1.0)));
                }
            }
            return best;
        }
        let Some((center, radius)) = edge.center().zip(edge.radius()) else { return best };
        let (outside, near) = self.signed_distance(center);
        if outside > radius {
            // The whole circle is outside: away from its nearest point, the distance only grows.
            let point = center + radius * super::unit(near - center);
            if edge.reaches(point) {
                take((outside - radius, (near, point)));
            }
            return best;
        }
        // Where the distance along the arc is least, the curve's normal goes through the arc's centre: there
        // the curve itself is nearest to the centre or furthest from it.
        // Or it is least on the longer diameter, where the two sides of the curve are equally near.
        let from_center = center - self.center;
        let (foot, height) = (from_center.dot(self.along), self.along.cross(from_center));
        let half = ((radius - height) * (radius + height)).max(0.0).sqrt();
        for point in [foot - half, foot + half].map(|along| self.center + along * self.along) {
            if height.abs() <= radius && edge.reaches(point) {
                let (distance, near) = self.signed_distance(point);
                take((distance, (near, point)));
            }
        }
        let reach = |angle: f64| (self.around(angle) - center).hypot2();
        const FAN: usize = 48;
        const PART: f64 = TAU / FAN as f64;
        let fan: Vec<f64> = (0..FAN).map(|step| reach(step as f64 * PART)).collect();
        for step in 0..FAN {
            let (before, here, after) = (fan[(step + FAN - 1) % FAN], fan[step], fan[(step + 1) % FAN]);
            let middle = step as f64 * PART;
            let angle = if here <= before && here <= after {
                lowest(&reach, middle - PART, middle + PART)
            } else if here >= before && here >= after {
                lowest(&|angle| -reach(angle), middle - PART, middle + PART)
            } else {
                continue;
            };
            let point = center + radius * super::unit(self.around(angle) - center);
            if edge.reaches(point) {
                let (distance, near) = self.signed_distance(point);
                take((distance, (near, point)));
            }
        }
        best
    }

    /// Signed distance from another such curve, and the points, this one's first: how wide a strip parts
    /// the two, or how far they would have to be moved to part.
    pub(super) fn apart(&self, other: &Self) -> (f64, (Point, Point)) {
        // Both are convex: the distance is the greatest, over all directions, of where the other begins
        // less how far this one reaches.
        let strip = |angle: f64| {
            let towards = Vec2::from_angle(angle);
            let (near, far) = (self.support(towards), other.support(-towards));
            ((far - near).dot(towards), (near, far))
        };
        const FAN: u32 = 48;
        let part = TAU / f64::from(FAN);
        let fan: Vec<f64> = (0..FAN).map(|step| strip(f64::from(step) * part).0).collect();
        let mut best = strip(0.0);
        for step in 0..FAN as usize {
            let (before, after) = (fan[(step + FAN as usize - 1) % FAN as usize], fan[(step + 1) % FAN as usize]);
            if fan[step] >= before && fan[step] >= after {
                let middle = step as f64 * part;
                let found = strip(lowest(&|angle| -strip(angle).0, middle - part, middle + part));
                if found.0 > best.0 {
                    best = found;
                }
            }
        }
        best
    }

    /// Points all along it, about as near each other as those of an outline.
    pub(super) fn samples(&self) -> impl Iterator<Item = Point> {
        let parts = super::opening::parts_of(self.perimeter());
        (0..parts).map(move |step| self.around(f64::from(step) * TAU / f64::from(parts)))
    }

    /// The point beside that of the ellipse whose components are those of the angle, stretched. Such
    /// points lie evenly also along a thin ellipse.
    fn around(&self, angle: f64) -> Point {
        let (sine, cosine) = angle.sin_cos();
        let normal = super::unit(Vec2::new(self.short * cosine, self.long * sine));
        let beyond = self.beyond * normal;
        self.center + self.plane(self.long * cosine + beyond.x, self.short * sine + beyond.y)
    }
}

/// Where a function with one dip between two places is lowest.
fn lowest(function: &dyn Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let (mut left, mut right) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_left, mut at_right) = (function(left), function(right));
    // 45 steps narrow the span by 2.5e9: past that, a dip is flat to the last digit.
    for _ in 0..45 {
        if at_left > at_right {
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
    f64::midpoint(low, high)
}

/// The point nearest to `(u, v)` on the quarter of an ellipse where both are positive; `long` is not
/// less than `short`.
fn nearest_on_quarter(long: f64, short: f64, u: f64, v: f64) -> (f64, f64) {
    if v <= 0.0 {
        // On the long diameter, near the middle, the nearest point is off the diameter.
        let square = long * long - short * short;
        if u * long >= square {
            return (long, 0.0);
        }
        let share = u * long / square;
        return (long * share, short * (1.0 - share * share).max(0.0).sqrt());
    }
    // In units of `short`, the foot of the normal is at (ratio u ÷ (w + ratio − 1), v ÷ w). That it lies on
    // the ellipse is a function of w that falls and is hollow upwards: Newton's steps from its left end
    // never overshoot.
    let ratio = (long / short) * (long / short);
    let (x, y) = (long / short * (u / short), v / short);
    let (mut low, mut high) = (y.max(x - (ratio - 1.0)), x.hypot(y));
    let mut w = low;
    for _ in 0..100 {
        let (a, b) = (x / (w + ratio - 1.0), y / w);
        let error = a * a + b * b - 1.0;
        if error >= 0.0 {
            low = w;
        } else {
            high = w;
        }
        let newton = w + error / (2.0 * (a * a / (w + ratio - 1.0) + b * b / w));
        let next = if newton >= low && newton <= high { newton } else { f64::midpoint(low, high) };
        if (next - w).abs() <= 1e-16 * w {
            break;
        }
        w = next;
    }
    (u * ratio / (w + ratio - 1.0), v / w)
}
