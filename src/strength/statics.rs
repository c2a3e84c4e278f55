//! What statics says of a plate on supports: where its load stands, what its supports hold, what balances.

use super::bearing::Contact;
use super::plate::Plate;
use super::sorted::order_of;
use kurbo::{Point, Vec2};

/// Supports whose shape is thinner than this share of its length hold nothing across it.
const LEAST_SPREAD: f64 = 1e-3;

/// The whole of a load, and where its middle is; nothing if there is none downward.
pub(super) fn middle_of(plate: &Plate, load: &[f64]) -> Option<(f64, Point)> {
    let mut total = 0.0;
    let mut moment = Vec2::ZERO;
    for (node, force) in plate.mesh().nodes.iter().zip(load.iter().step_by(3)) {
        total += force;
        moment += *force * node.to_vec2();
    }
    let middle = (moment / total).to_point();
    (total > 0.0 && total.is_finite() && middle.is_finite()).then_some((total, middle))
}

/// How far the loads and the reactions are out of balance: their sum over that of their sizes, and the same of
/// their moments about the middle of the plate.
pub(super) fn imbalance(plate: &Plate, contacts: &[Contact], reactions: &[f64], load: &[f64]) -> f64 {
    let nodes = &plate.mesh().nodes;
    let origin = nodes.first().copied().unwrap_or_default();
    let reach = nodes.iter().map(|node| (*node - origin).hypot()).fold(0.0, f64::max);
    let mut sums = [0.0; 3];
    let mut size = 0.0;
    let mut take = |node: usize, unknown: usize, force: f64| {
        let from = nodes[node] - origin;
        // A turn of the whole plate by one moves a node by its distance, and its slopes by one.
        let moved = match unknown {
            0 => [1.0, from.x / reach, from.y / reach],
            1 => [0.0, 1.0 / reach, 0.0],
            _ => [0.0, 0.0, 1.0 / reach],
        };
        for (sum, moved) in sums.iter_mut().zip(moved) {
            *sum += force * moved;
        }
        size += if unknown == 0 { force.abs() } else { (force / reach).abs() };
    };
    for (unknown, force) in load.iter().enumerate() {
        take(unknown / 3, unknown % 3, *force);
    }
    for (contact, reaction) in contacts.iter().zip(reactions) {
        take(contact.node, contact.unknown, -reaction);
    }
    sums.iter().fold(0.0, |most: f64, sum| most.max(sum.abs())) / size
}

/// The corners of what the contacts hold, counter-clockwise; nothing if that is but a line.
pub(super) fn spread<'a>(plate: &Plate, contacts: impl Iterator<Item = &'a Contact>) -> Option<Vec<Point>> {
    let points: Vec<Point> =
        contacts.filter(|contact| contact.unknown == 0).map(|contact| plate.mesh().nodes[contact.node]).collect();
    // From left to right, and of those above each other from the front.
    let points: Vec<Point> = order_of(points.iter().map(|point| point.y)).into_iter().map(|at| points[at]).collect();
    let points: Vec<Point> = order_of(points.iter().map(|point| point.x)).into_iter().map(|at| points[at]).collect();
    let hull = hull_of(&points);
    let origin = *hull.first()?;
    let length = hull.iter().map(|point| (*point - origin).hypot()).fold(0.0, f64::max);
    let area: f64 = hull.windows(2).map(|pair| (pair[0] - origin).cross(pair[1] - origin) / 2.0).sum();
    (area > LEAST_SPREAD * length * length).then_some(hull)
}

/// The corners of the convex hull of sorted points, counter-clockwise.
fn hull_of(points: &[Point]) -> Vec<Point> {
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut hull: Vec<Point> = Vec::new();
        for point in points {
            while let [.., before, last] = hull.as_slice()
                && (*last - *before).cross(*point - *last) <= 0.0
            {
                hull.pop();
            }
            hull.push(*point);
        }
        hull.pop();
        hull
    };
    let mut hull = half(&mut points.iter());
    hull.extend(half(&mut points.iter().rev()));
    hull
}

/// How far a point lies outside a convex polygon; negative inside.
pub(super) fn outside(hull: &[Point], point: Point) -> f64 {
    let next = hull.iter().cycle().skip(1);
    let beyond = hull.iter().zip(next).map(|(from, to)| {
        let along = *to - *from;
        -along.cross(point - *from) / along.hypot()
    });
    beyond.fold(f64::NEG_INFINITY, f64::max)
}
