//! How far two edges are apart.

use super::carrier::circles_cut;
use super::edge::Edge;
use super::{right_of, unit};
use kurbo::{Point, Rect, Vec2};

/// A distance, and the two points that have it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Least distance, metres. Negative where the two overlap, or one is outside the other that should
    /// hold it: then it tells about how deep.
    pub distance: f64,
    /// The point on the first and the point on the second; metres.
    pub at: (Point, Point),
}

impl Gap {
    pub(super) fn of(at: (Point, Point)) -> Self {
        Self { distance: (at.1 - at.0).hypot(), at }
    }

    /// No distance yet: anything is nearer.
    pub(super) const NONE: Self = Self { distance: f64::INFINITY, at: (Point::ORIGIN, Point::ORIGIN) };

    pub(super) fn nearer(self, other: Self) -> Self {
        if other.distance < self.distance { other } else { self }
    }

    pub(super) fn swapped(self) -> Self {
        Self { at: (self.at.1, self.at.0), ..self }
    }
}

/// Least distance between two lines or arcs, exact; nothing where they cross or touch.
pub fn between_edges(one: &Edge, other: &Edge) -> Gap {
    closest(one, other)
}

pub(super) fn closest(one: &Edge, other: &Edge) -> Gap {
    let mut least = Gap::NONE;
    facing(one, other, &mut |at| least = least.nearer(Gap::of(at)));
    least
}

/// Every pair of points at which two edges may be nearest: where they meet, an end of one against the
/// other, and where a common normal stands.
pub(super) fn facing(one: &Edge, other: &Edge, found: &mut dyn FnMut((Point, Point))) {
    for point in meetings(one, other).into_iter().flatten() {
        found((point, point));
    }
    for end in [one.start(), one.end()] {
        found((end, other.nearest(end)));
    }
    for end in [other.start(), other.end()] {
        found((one.nearest(end), end));
    }
    match (circle(one), circle(other)) {
        (None, None) => {}
        (Some(arc), None) => arc_to_line(one, arc, other, &mut |at| found(at)),
        (None, Some(arc)) => arc_to_line(other, arc, one, &mut |(on_arc, on_line)| found((on_line, on_arc))),
        (Some((center, radius)), Some((other_center, other_radius))) => {
            let along = unit(other_center - center);
            if along == Vec2::ZERO {
                // About one centre, an end of one of them is as near as anything.
                return;
            }
            for point in [center + radius * along, center - radius * along] {
                for facing in [other_center + other_radius * along, other_center - other_radius * along] {
                    if one.reaches(point) && other.reaches(facing) {
                        found((point, facing));
                    }
                }
            }
        }
    }
}

fn circle(edge: &Edge) -> Option<(Point, f64)> {
    edge.center().zip(edge.radius())
}

fn arc_to_line(arc: &Edge, (center, radius): (Point, f64), line: &Edge, found: &mut dyn FnMut((Point, Point))) {
    let chord = line.chord();
    let share = (center - line.start()).dot(chord) / chord.hypot2();
    if !(0.0..=1.0).contains(&share) {
        return;
    }
    let foot = line.start() + share * chord;
    let across = right_of(unit(chord));
    for point in [center + radius * across, center - radius * across] {
        if arc.reaches(point) {
            found((point, foot));
        }
    }
}

/// Where two edges cross or touch; lines and arcs that lie on each other do not count.
pub(super) fn meetings(one: &Edge, other: &Edge) -> [Option<Point>; 2] {
    match (circle(one), circle(other)) {
        (None, None) => [lines_meet(one, other), None],
        (Some(circle), None) => arc_meets_line(one, circle, other),
        (None, Some(circle)) => arc_meets_line(other, circle, one),
        (Some((center, radius)), Some((other_center, other_radius))) => {
            let on_both = |point: &Point| one.reaches(*point) && other.reaches(*point);
            let cuts = circles_cut(center, radius, other_center, other_radius);
            cuts.map_or([None, None], |cuts| cuts.map(|point| Some(point).filter(on_both)))
        }
    }
}

fn lines_meet(one: &Edge, other: &Edge) -> Option<Point> {
    let (chord, other_chord, between) = (one.chord(), other.chord(), other.start() - one.start());
    let cross = chord.cross(other_chord);
    let (share, other_share) = (between.cross(other_chord) / cross, between.cross(chord) / cross);
    let within = |share: f64| (0.0..=1.0).contains(&share);
    (within(share) && within(other_share)).then(|| one.start() + share * chord)
}

fn arc_meets_line(arc: &Edge, (center, radius): (Point, f64), line: &Edge) -> [Option<Point>; 2] {
    let along = unit(line.chord());
    let from_start: Vec2 = center - line.start();
    let (foot, height) = (from_start.dot(along), along.cross(from_start));
    let square = (radius - height) * (radius + height);
    if square < 0.0 {
        return [None, None];
    }
    let length = line.chord().hypot();
    [foot - square.sqrt(), foot + square.sqrt()].map(|at| {
        let point = line.start() + at * along;
        Some(point).filter(|_| (0.0..=length).contains(&at) && arc.reaches(point))
    })
}

/// Least distance between two upright rectangles; nothing where they overlap.
pub(super) fn box_distance(one: &Rect, other: &Rect) -> f64 {
    let x = (other.x0 - one.x1).max(one.x0 - other.x1).max(0.0);
    let y = (other.y0 - one.y1).max(one.y0 - other.y1).max(0.0);
    x.hypot(y)
}
