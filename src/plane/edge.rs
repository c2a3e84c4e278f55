//! One edge of an outline: a straight line or a circular arc.

use super::{LEAST_RISE, left_of, right_of, turned, unit};
use kurbo::{Point, Rect, Vec2};
use serde::{Deserialize, Serialize};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// What an edge is called. It stays the same through rounding, clipping, moving and offset, so what
/// the maker said about an edge is found again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum EdgeTag {
    /// A side, by the maker's number.
    Side(u16),
    /// The arc that rounds the corner between two sides.
    Corner(u16, u16),
    /// The straight cut across the corner between two sides.
    Clip(u16, u16),
    /// The step between two level neighbours that were offset unequally.
    Step(u16, u16),
}

impl EdgeTag {
    /// The number of the side that it is, or that it begins at.
    pub(super) fn first(self) -> u16 {
        match self {
            Self::Side(number) | Self::Corner(number, _) | Self::Clip(number, _) | Self::Step(number, _) => number,
        }
    }

    /// The number of the side that it is, or that it ends at.
    pub(super) fn last(self) -> u16 {
        match self {
            Self::Side(number) | Self::Corner(_, number) | Self::Clip(_, number) | Self::Step(_, number) => number,
        }
    }
}

/// A straight line or circular arc with a direction. Along an outline, outward is to its right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    start: Point,
    end: Point,
    bulge: f64,
    tag: EdgeTag,
}

impl Edge {
    /// From the one point to the other. `bulge` is the tangent of a quarter of the sweep: nothing is
    /// straight, 1 is a half circle to the right of the chord, -1 one to the left. What rises less than
    /// [`LEAST_RISE`] over its chord is straight.
    pub fn new(start: Point, end: Point, bulge: f64, tag: EdgeTag) -> Self {
        let rise = bulge.abs() * (end - start).hypot() / 2.0;
        let bulge = if rise < LEAST_RISE { 0.0 } else { bulge };
        Self { start, end, bulge, tag }
    }

    /// Where it starts; metres.
    pub fn start(&self) -> Point {
        self.start
    }

    /// Where it ends; metres.
    pub fn end(&self) -> Point {
        self.end
    }

    /// Tangent of a quarter of its sweep; positive if it bulges to the right, outward.
    pub fn bulge(&self) -> f64 {
        self.bulge
    }

    /// What it is called.
    pub fn tag(&self) -> EdgeTag {
        self.tag
    }

    /// It is a line.
    pub fn is_straight(&self) -> bool {
        self.bulge == 0.0
    }

    /// It is an arc that is hollow on its right: on an outline, an inside curve of the concrete.
    pub fn is_inward(&self) -> bool {
        self.bulge < 0.0
    }

    /// From its start straight to its end; metres.
    pub fn chord(&self) -> Vec2 {
        self.end - self.start
    }

    /// The angle that its direction turns through, positive counter-clockwise; nothing for a line.
    pub fn sweep(&self) -> f64 {
        4.0 * self.bulge.atan()
    }

    /// Radius of an arc, metres.
    pub fn radius(&self) -> Option<f64> {
        let square = self.bulge * self.bulge;
        (!self.is_straight()).then(|| self.chord().hypot() * (1.0 + square) / (4.0 * self.bulge.abs()))
    }

    /// Centre of an arc, metres.
    pub fn center(&self) -> Option<Point> {
        (!self.is_straight()).then(|| {
            let away = (1.0 - self.bulge * self.bulge) / (4.0 * self.bulge);
            self.start.midpoint(self.end) + away * left_of(self.chord())
        })
    }

    /// Its length, metres; exact for arcs.
    pub fn length(&self) -> f64 {
        let half = self.sweep().abs() / 2.0;
        let chord = self.chord().hypot();
        if half > 0.0 { chord * half / half.sin() } else { chord }
    }

    /// Direction of travel at its start, of length one.
    pub fn direction_at_start(&self) -> Vec2 {
        self.direction(-0.5)
    }

    /// Direction of travel at its end, of length one.
    pub fn direction_at_end(&self) -> Vec2 {
        self.direction(0.5)
    }

    /// The direction to its right at that share of its length, of length one: outward on an outline.
    pub fn normal_at(&self, share: f64) -> Vec2 {
        right_of(self.direction(share - 0.5))
    }

    /// The direction at a share of the sweep counted from the middle.
    fn direction(&self, from_middle: f64) -> Vec2 {
        let (sine, cosine) = (self.sweep() * from_middle).sin_cos();
        let along = unit(self.chord());
        cosine * along + sine * left_of(along)
    }

    /// The point at that share of its length, from 0 at its start to 1 at its end; metres.
    pub fn point_at(&self, share: f64) -> Point {
        if self.is_straight() {
            return self.start + share * self.chord();
        }
        // From the start along a chord of the arc's beginning: exact also for arcs that hardly bend.
        let sweep = self.sweep();
        let part = sweep * share;
        let length = self.chord().hypot() * (part / 2.0).sin() / (sweep / 2.0).sin();
        let (sine, cosine) = ((part - sweep) / 2.0).sin_cos();
        let along = unit(self.chord());
        self.start + length * (cosine * along + sine * left_of(along))
    }

    /// A point of the arc's circle lies on the arc itself: on the same side of the chord.
    pub(super) fn reaches(&self, on_circle: Point) -> bool {
        let side = self.chord().cross(on_circle - self.start);
        if self.bulge > 0.0 { side <= 0.0 } else { side >= 0.0 }
    }

    /// The point of it that is nearest to the given one; metres.
    pub fn nearest(&self, point: Point) -> Point {
        match self.center().zip(self.radius()) {
            None => {
                let chord = self.chord();
                let length = chord.hypot2();
                let share = if length > 0.0 { ((point - self.start).dot(chord) / length).clamp(0.0, 1.0) } else { 0.0 };
                if share < 1.0 { self.start + share * chord } else { self.end }
            }
            Some((center, radius)) => {
                let towards = unit(point - center);
                let on_circle = center + radius * towards;
                if towards != Vec2::ZERO && self.reaches(on_circle) {
                    on_circle
                } else if (point - self.start).hypot2() <= (point - self.end).hypot2() {
                    self.start
                } else {
                    self.end
                }
            }
        }
    }

    /// The smallest upright rectangle around it; metres.
    pub fn bounds(&self) -> Rect {
        let mut bounds = Rect::from_points(self.start, self.end);
        if let Some((center, radius)) = self.center().zip(self.radius()) {
            for axis in [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0), Vec2::new(-1.0, 0.0), Vec2::new(0.0, -1.0)] {
                let extreme = center + radius * axis;
                if self.reaches(extreme) {
                    bounds = bounds.union_pt(extreme);
                }
            }
        }
        bounds
    }

    /// What lies between the arc and its chord: its area, positive if right of the chord, and how far
    /// its area times centroid lies right of the chord.
    pub(super) fn segment(&self) -> (f64, f64) {
        if self.is_straight() {
            return (0.0, 0.0);
        }
        let (sweep, chord) = (self.sweep().abs(), self.chord().hypot());
        let sine = (sweep / 2.0).sin();
        let area = chord * chord * less_its_sine(sweep) / (8.0 * sine * sine);
        // About the centre the moment is chord³ ÷ 12; the centre lies this far left of the chord.
        let center = chord / (2.0 * (sweep / 2.0).tan());
        let moment = chord.powi(3) / 12.0 - center * area;
        (area.copysign(self.bulge), moment)
    }

    /// The point lies between the arc and its chord. On the chord, the side decides on which
    /// [`super::Outline::contains`] counts it.
    pub(super) fn segment_contains(&self, point: Point) -> bool {
        let Some((center, radius)) = self.center().zip(self.radius()) else { return false };
        let chord = self.chord();
        let side = chord.cross(point - self.start);
        let right = side < 0.0 || (side == 0.0 && (chord.y > 0.0 || (chord.y == 0.0 && chord.x < 0.0)));
        (point - center).hypot() < radius && right == (self.bulge > 0.0)
    }

    pub(super) fn moved(&self, by: Vec2) -> Self {
        Self { start: self.start + by, end: self.end + by, ..*self }
    }

    pub(super) fn turned(&self, angle: f64, about: Point) -> Self {
        Self { start: turned(self.start, angle, about), end: turned(self.end, angle, about), ..*self }
    }

    /// Mirrored about the upright line at `x`, and travelled the other way so that outward stays right.
    pub(super) fn mirrored(&self, x: f64) -> Self {
        let mirror = |point: Point| Point::new(2.0 * x - point.x, point.y);
        Self { start: mirror(self.end), end: mirror(self.start), ..*self }
    }

    pub(super) fn is_finite(&self) -> bool {
        self.start.is_finite() && self.end.is_finite() && self.bulge.is_finite()
    }
}

/// An angle less its sine, also where the two are nearly equal.
fn less_its_sine(angle: f64) -> f64 {
    if angle.abs() > 0.5 {
        return angle - angle.sin();
    }
    let square = angle * angle;
    let series = [156.0, 110.0, 72.0, 42.0, 20.0].iter().fold(1.0, |sum, divisor| 1.0 - square / divisor * sum);
    angle * square / 6.0 * series
}

/// The angle between -π and π.
pub(super) fn wrapped(angle: f64) -> f64 {
    let angle = angle.rem_euclid(TAU);
    if angle > PI { angle - TAU } else { angle }
}

/// The bulge of an arc that turns through that angle.
pub(super) fn bulge_of(sweep: f64) -> f64 {
    (sweep / 4.0).clamp(-FRAC_PI_2, FRAC_PI_2).tan()
}
