//! Nodes along the lines on which something bears.

use super::boundary::SAME;
use super::inside;
use super::size::SizeField;
use crate::strength::sorted::ascend;
use kurbo::{Point, Vec2};

/// A node nearer to the boundary than this share of the size would make flat triangles; the boundary's own
/// node stands for it.
const NEAR_BOUNDARY: f64 = 0.35;
/// Two nodes of guides nearer than this share of the size become one.
const NEAR_GUIDE: f64 = 0.45;

/// The nodes that guides add to those of the boundary, and all that lie on each guide. Nodes are counted
/// through the boundary first.
pub(super) struct Guided {
    pub(super) points: Vec<Point>,
    pub(super) lines: Vec<Vec<usize>>,
}

/// Nodes along every guide.
pub(super) fn nodes(loops: &[Vec<Point>], guides: &[[Point; 2]], sizes: &SizeField) -> Guided {
    let boundary: Vec<Point> = loops.iter().flatten().copied().collect();
    let mut guided = Guided { points: Vec::new(), lines: Vec::new() };
    for guide in guides {
        let mut line: Vec<usize> = on_boundary(&boundary, guide);
        for at in stations(loops, &boundary, &line, guide, guides, sizes) {
            let node = guided.node(at, loops, &boundary, sizes);
            if !line.contains(&node) {
                line.push(node);
            }
        }
        guided.lines.push(line);
    }
    guided
}

/// The nodes of the boundary that lie on a guide.
fn on_boundary(boundary: &[Point], [start, end]: &[Point; 2]) -> Vec<usize> {
    let near = |point: &Point| (nearest(*point, *start, *end) - *point).hypot() < 2.0 * SAME;
    boundary.iter().enumerate().filter(|(_, point)| near(point)).map(|(index, _)| index).collect()
}

/// The point of a straight line nearest to a point.
fn nearest(point: Point, start: Point, end: Point) -> Point {
    let along = end - start;
    let square = along.hypot2();
    let share = if square > 0.0 { ((point - start).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
    start + share * along
}

/// Where nodes shall stand on a guide inside the top: at its ends, where other guides cross it, and between.
fn stations(
    loops: &[Vec<Point>],
    boundary: &[Point],
    on_boundary: &[usize],
    guide: &[Point; 2],
    guides: &[[Point; 2]],
    sizes: &SizeField,
) -> Vec<Point> {
    let [start, end] = *guide;
    let along = end - start;
    let length = along.hypot();
    if length < SAME {
        return if inside(loops, start) && on_boundary.is_empty() { vec![start] } else { Vec::new() };
    }
    let share = |point: Point| (point - start).dot(along) / (length * length);
    let mut breaks: Vec<f64> = on_boundary.iter().filter_map(|node| boundary.get(*node)).map(|at| share(*at)).collect();
    breaks.extend([0.0, 1.0]);
    breaks.extend(guides.iter().filter_map(|other| meets(guide, other)));
    ascend(&mut breaks);
    breaks.dedup_by(|one, other| (*one - *other).abs() * length < SAME);
    let is_boundary = |at: f64| {
        let point = start + at * along;
        on_boundary.iter().filter_map(|node| boundary.get(*node)).any(|node| (*node - point).hypot() < 4.0 * SAME)
    };
    let mut found: Vec<Point> = Vec::new();
    for pair in breaks.windows(2) {
        let [from, to] = pair else { continue };
        let middle = start + f64::midpoint(*from, *to) * along;
        if !inside(loops, middle) {
            continue;
        }
        let count = ((to - from) * length / sizes.at(middle)).round().clamp(1.0, 2000.0) as usize;
        for step in 0..=count {
            let at = from + (to - from) * step as f64 / count as f64;
            if (0 < step && step < count) || !is_boundary(at) {
                found.push(start + at * along);
            }
        }
    }
    found
}

/// The share of a guide at which another one crosses it.
fn meets([start, end]: &[Point; 2], [other_start, other_end]: &[Point; 2]) -> Option<f64> {
    let (along, other): (Vec2, Vec2) = (*end - *start, *other_end - *other_start);
    let cross = along.cross(other);
    if cross.abs() <= 1e-6 * along.hypot() * other.hypot() {
        return None;
    }
    let between = *other_start - *start;
    let (share, other_share) = (between.cross(other) / cross, between.cross(along) / cross);
    let within = |share: f64| (0.0..=1.0).contains(&share);
    (within(share) && within(other_share)).then_some(share)
}

impl Guided {
    /// The node that stands at a place of a guide: one of the boundary, one of another guide, or a new one.
    fn node(&mut self, at: Point, loops: &[Vec<Point>], boundary: &[Point], sizes: &SizeField) -> usize {
        let size = sizes.at(at);
        if distance_to(loops, at) < NEAR_BOUNDARY * size {
            return closest(boundary, at).map_or(0, |(node, _)| node);
        }
        match closest(&self.points, at).filter(|(_, distance)| *distance < NEAR_GUIDE * size) {
            Some((node, _)) => boundary.len() + node,
            None => {
                self.points.push(at);
                boundary.len() + self.points.len() - 1
            }
        }
    }
}

/// Distance of a point from the nearest chord.
fn distance_to(loops: &[Vec<Point>], at: Point) -> f64 {
    let mut least = f64::INFINITY;
    for points in loops {
        let mut from = points.last().copied().unwrap_or_default();
        for to in points {
            least = least.min((nearest(at, from, *to) - at).hypot2());
            from = *to;
        }
    }
    least.sqrt()
}

/// The nearest of some points, and how far it is.
fn closest(points: &[Point], at: Point) -> Option<(usize, f64)> {
    let squares = points.iter().map(|point| (*point - at).hypot2()).enumerate();
    squares.min_by(|one, other| one.1.total_cmp(&other.1)).map(|(index, square)| (index, square.sqrt()))
}
