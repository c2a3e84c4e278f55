//! What of an outline lies between two upright lines.

use super::edge::{Edge, bulge_of};
use super::{Outline, TOUCH};
use kurbo::{Point, Rect};
use std::f64::consts::TAU;

/// A part of an outline between two upright lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slice {
    /// Its area, square metres; exact, also with arcs.
    pub area: f64,
    /// The smallest upright rectangle around it; metres.
    pub bounds: Rect,
}

impl Outline {
    /// What lies between two upright lines, the left one first; metres. Outside the outline it has no area.
    pub fn slice(&self, left: f64, right: f64) -> Slice {
        let mut area = 0.0;
        let mut bounds: Option<Rect> = None;
        for edge in self.edges() {
            for part in split(edge, &[left, right]) {
                let middle = part.point_at(0.5).x;
                // By Green's theorem the area left of a line is the integral of (x − line) dy along what
                // lies left of it: the line itself adds nothing.
                let moment = along_y(&part);
                let rise = part.end().y - part.start().y;
                if middle <= right {
                    area += moment - right * rise;
                }
                if middle <= left {
                    area -= moment - left * rise;
                }
                // What lies on a line itself may belong to the other side; its neighbours tell its ends.
                if middle > left + TOUCH && middle < right - TOUCH {
                    bounds = Some(bounds.map_or_else(|| part.bounds(), |all| all.union(part.bounds())));
                }
            }
        }
        Slice { area, bounds: bounds.unwrap_or_default() }
    }

    /// How often an upright line runs into the outline: twice, and it parts the outline in two.
    pub fn crossings(&self, x: f64) -> usize {
        self.edges().iter().map(|edge| split(edge, &[x]).len() - 1).sum()
    }
}

/// The integral of x dy along an edge.
fn along_y(edge: &Edge) -> f64 {
    f64::midpoint(edge.start().x, edge.end().x) * (edge.end().y - edge.start().y) + edge.segment().0
}

/// The parts of an edge between upright lines.
fn split(edge: &Edge, lines: &[f64]) -> Vec<Edge> {
    let mut shares: Vec<f64> = lines.iter().flat_map(|x| meets(edge, *x)).flatten().collect();
    shares.retain(|share| *share > 0.0 && *share < 1.0);
    shares.sort_by(f64::total_cmp);
    shares.dedup();
    shares.push(1.0);
    let (mut from, mut start) = (0.0, edge.start());
    let mut parts = Vec::with_capacity(shares.len());
    for share in shares {
        let end = if share < 1.0 { edge.point_at(share) } else { edge.end() };
        let bulge = if edge.is_straight() { 0.0 } else { bulge_of(edge.sweep() * (share - from)) };
        parts.push(Edge::new(start, end, bulge, edge.tag()));
        (from, start) = (share, end);
    }
    parts
}

/// The shares of its length at which an edge meets an upright line.
fn meets(edge: &Edge, x: f64) -> [Option<f64>; 2] {
    let Some((center, radius)) = edge.center().zip(edge.radius()) else {
        let run = edge.end().x - edge.start().x;
        return [(run != 0.0).then(|| (x - edge.start().x) / run), None];
    };
    let square = (radius - (x - center.x)) * (radius + (x - center.x));
    if square < 0.0 {
        return [None, None];
    }
    let from = (edge.start() - center).atan2();
    [square.sqrt(), -square.sqrt()].map(|aside| {
        let turned = (Point::new(x, center.y + aside) - center).atan2() - from;
        Some((turned * edge.sweep().signum()).rem_euclid(TAU) / edge.sweep().abs())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[track_caller]
    fn close(found: f64, expected: f64) {
        assert!((found - expected).abs() < 1e-9, "{found} is not {expected}");
    }

    /// Worked by hand: a rectangle, the two arms of an L, and half and quarter of a circle; the circle's
    /// segment from the middle to half its radius is r² (π ÷ 6 + √3 ÷ 4).
    #[test]
    fn slices_by_hand() {
        let rectangle = Outline::rectangle(3.0, 0.5).expect("a rectangle");
        close(rectangle.slice(1.0, 1.5).area, 0.25);
        close(rectangle.slice(-1.0, 9.0).area, 1.5);
        close(rectangle.slice(4.0, 5.0).area, 0.0);
        assert_eq!(rectangle.crossings(1.0), 2);
        // A leg of 0.6 at the left end, 2 deep; the front part 0.5 deep.
        let l = Outline::l_shape(3.0, 2.0, 0.6, 0.5).expect("an L");
        close(l.slice(0.0, 0.6).area, 1.2);
        close(l.slice(0.6, 3.0).area, 1.2);
        close(l.slice(0.6, 3.0).bounds.height(), 0.5);
        close(l.slice(0.0, 1.0).bounds.height(), 2.0);
        let circle = Outline::circle(Point::new(1.0, 1.0), 1.0).expect("a circle");
        close(circle.slice(0.0, 1.0).area, PI / 2.0);
        close(circle.slice(1.0, 1.5).area, PI / 6.0 + 3.0_f64.sqrt() / 4.0);
        assert_eq!(circle.crossings(1.3), 2);
    }
}
