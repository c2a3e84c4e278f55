//! Delaunay triangles, checked and smoothed.

use super::size::SizeField;
use super::{Mesh, area_of, guide, inside, lattice, least_angle_of};
use kurbo::{Point, Vec2};

/// Sweeps of smoothing.
const SWEEPS: usize = 4;
/// A triangle with a smaller angle is a sliver; radians (8°).
const SLIVER: f64 = 0.14;
/// A triangle along a straight boundary that is flatter than this share of its own size is no triangle.
const FLAT: f64 = 1e-7;
/// Area that may be lost to arithmetic: relative.
const AREA_TOLERANCE: f64 = 1e-9;
/// Rounds in which slivers are taken out.
const ROUNDS: usize = 3;

/// The mesh of these closed boundaries; nothing if a chord is not kept, or there are far too many nodes.
pub(super) fn build(
    loops: Vec<Vec<Point>>,
    guides: &[[Point; 2]],
    sizes: &SizeField,
    most_nodes: usize,
) -> Option<Mesh> {
    let guided = guide::nodes(&loops, guides, sizes);
    let mut nodes: Vec<Point> = loops.iter().flatten().copied().collect();
    let boundary = nodes.len();
    nodes.extend(&guided.points);
    let fixed = nodes.len();
    nodes.extend(lattice::nodes(&loops, &nodes, sizes));
    if nodes.len() > 4 * most_nodes || loops.iter().any(|points| points.len() < 3) {
        return None;
    }
    let mut first = 0;
    let numbered = loops.iter().map(|points| {
        let numbers: Vec<usize> = (first..first + points.len()).collect();
        first += points.len();
        numbers
    });
    let shape = Shape { numbered: numbered.collect(), loops, boundary };
    let plain = shape.triangulate(&nodes)?;
    let mut best = (nodes.clone(), plain);
    for _ in 0..ROUNDS {
        let mut smooth = best.0.clone();
        smoothen(&mut smooth, &best.1, fixed);
        let Some(triangles) = shape.triangulate(&smooth) else { break };
        let slivers = sliver_nodes(&smooth, &triangles, fixed);
        best = (smooth, triangles);
        if !slivers.contains(&true) {
            break;
        }
        let kept: Vec<Point> = best.0.iter().zip(slivers).filter(|(_, sliver)| !sliver).map(|pair| *pair.0).collect();
        let Some(triangles) = shape.triangulate(&kept) else { break };
        best = (kept, triangles);
    }
    Some(Mesh { nodes: best.0, triangles: best.1, loops: shape.numbered, lines: guided.lines })
}

/// The closed boundaries, as points and as the numbers of their nodes.
struct Shape {
    loops: Vec<Vec<Point>>,
    numbered: Vec<Vec<usize>>,
    boundary: usize,
}

impl Shape {
    /// The triangles inside; nothing if the boundary is not kept or a node is left over.
    fn triangulate(&self, nodes: &[Point]) -> Option<Vec<[usize; 3]>> {
        let origin = self.loops.first()?.first()?.to_vec2();
        let points: Vec<_> =
            nodes.iter().map(|point| delaunator::Point { x: point.x - origin.x, y: point.y - origin.y }).collect();
        let all = delaunator::triangulate(&points);
        let mut triangles = Vec::with_capacity(all.triangles.len() / 3);
        for corners in all.triangles.chunks_exact(3) {
            let &[a, b, c] = corners else { continue };
            let at = [*nodes.get(a)?, *nodes.get(b)?, *nodes.get(c)?];
            let area = area_of(at);
            if self.holds(&[a, b, c], at, area) {
                triangles.push(if area > 0.0 { [a, b, c] } else { [a, c, b] });
            }
        }
        self.kept(nodes, &triangles).then_some(triangles)
    }

    /// The triangle lies inside: surely if one of its corners does, else if its middle does.
    fn holds(&self, corners: &[usize], at: [Point; 3], area: f64) -> bool {
        if corners.iter().any(|corner| *corner >= self.boundary) {
            return true;
        }
        let [a, b, c] = at;
        let longest = (b - a).hypot2().max((c - b).hypot2()).max((a - c).hypot2());
        area.abs() > FLAT * longest && inside(&self.loops, a + ((b - a) + (c - a)) / 3.0)
    }

    /// Every chord is an edge of one triangle, every node has a triangle, and no area is lost.
    fn kept(&self, nodes: &[Point], triangles: &[[usize; 3]]) -> bool {
        let mut next = vec![usize::MAX; self.boundary];
        for numbers in &self.numbered {
            for (here, there) in numbers.iter().zip(numbers.iter().cycle().skip(1)) {
                next[*here] = *there;
            }
        }
        let mut has_chord = vec![0_u8; self.boundary];
        let mut used = vec![false; nodes.len()];
        let mut area = 0.0;
        for corners in triangles {
            let [a, b, c] = *corners;
            area += area_of([nodes[a], nodes[b], nodes[c]]);
            for (from, to) in [(a, b), (b, c), (c, a)] {
                used[from] = true;
                if next.get(from) == Some(&to) {
                    has_chord[from] += 1;
                }
                if next.get(to) == Some(&from) {
                    has_chord[to] += 1;
                }
            }
        }
        let whole: f64 = self.loops.iter().map(|points| area_within(points).abs()).sum();
        let outer = self.loops.first().map_or(0.0, |points| area_within(points).abs());
        let wanted = 2.0 * outer - whole;
        has_chord.iter().all(|count| *count == 1)
            && used.iter().all(|used| *used)
            && (area - wanted).abs() <= AREA_TOLERANCE * outer
    }
}

/// Area enclosed by a polygon.
fn area_within(points: &[Point]) -> f64 {
    let origin = points.first().copied().unwrap_or_default();
    let next = points.iter().skip(1);
    points.iter().zip(next).map(|(a, b)| (*a - origin).cross(*b - origin)).sum::<f64>() / 2.0
}

/// Moves every free node into the middle of its neighbours, a few times.
fn smoothen(nodes: &mut [Point], triangles: &[[usize; 3]], fixed: usize) {
    let mut sum = vec![(Vec2::ZERO, 0.0); nodes.len()];
    for _ in 0..SWEEPS {
        sum.iter_mut().for_each(|sum| *sum = (Vec2::ZERO, 0.0));
        for [a, b, c] in triangles {
            for (here, one, other) in [(*a, *b, *c), (*b, *c, *a), (*c, *a, *b)] {
                // Around a free node every neighbour is met in two triangles.
                sum[here].0 += nodes[one].to_vec2() + nodes[other].to_vec2();
                sum[here].1 += 2.0;
            }
        }
        for (node, (sum, count)) in nodes.iter_mut().zip(&sum).skip(fixed) {
            if *count > 0.0 {
                *node = (*sum / *count).to_point();
            }
        }
    }
}

/// Which nodes go: one free node of every sliver that has one.
fn sliver_nodes(nodes: &[Point], triangles: &[[usize; 3]], fixed: usize) -> Vec<bool> {
    let mut found = vec![false; nodes.len()];
    for corners in triangles {
        let last = corners[0].max(corners[1]).max(corners[2]);
        if last >= fixed && least_angle_of(corners.map(|corner| nodes[corner])) < SLIVER {
            found[last] = true;
        }
    }
    found
}
