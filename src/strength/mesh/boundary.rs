//! The boundary as chords.

use super::size::SizeField;
use super::{LEAST_GAP, MeshError, MeshSize};
use crate::plane::{Edge, Ellipse, Opening, Outline};
use crate::strength::sorted::ascend;
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};

/// Steps in which a curve is walked where it has no closed form.
const STEPS: usize = 24;
/// What is nearer than this is the same place; metres.
pub(super) const SAME: f64 = 1e-7;
/// Edges at a sharp inside corner, as a share of those along an opening: with 0.4 the mean over one thickness from such
/// a corner comes out 8 % too small, with this 4 %.
const AT_CORNERS: f64 = 0.15;
/// A turn of the outline to the right of more than this is an inside corner; radians.
const LEAST_TURN: f64 = 0.05;

/// A part of a boundary, from share 0 to share 1.
#[derive(Clone, Copy)]
pub(super) enum Curve<'a> {
    /// A line or an arc.
    Edge(&'a Edge),
    /// The part of an ellipse whose outward normal points between two angles.
    Ellipse(&'a Ellipse, f64),
}

impl Curve<'_> {
    fn at(&self, share: f64) -> Point {
        match self {
            Self::Edge(edge) => edge.point_at(share),
            Self::Ellipse(ellipse, from) => ellipse.support(Vec2::from_angle(from + share * FRAC_PI_2)),
        }
    }

    /// Chords that it needs whatever their length: one each 30°, and three at least to show that it is round.
    fn least_chords(&self) -> f64 {
        match self {
            Self::Edge(edge) if edge.is_straight() => 1.0,
            Self::Edge(edge) => (edge.sweep().abs() / (PI / 6.0)).ceil().max(3.0),
            Self::Ellipse(..) => 3.0,
        }
    }

    fn steps(&self) -> usize {
        if matches!(self, Self::Edge(edge) if edge.is_straight()) { 1 } else { STEPS }
    }

    /// Radius of an arc.
    fn radius(&self) -> Option<f64> {
        if let Self::Edge(edge) = self { edge.radius() } else { None }
    }

    fn length(&self) -> f64 {
        match self {
            Self::Edge(edge) => edge.length(),
            Self::Ellipse(..) => {
                let at = |step: usize| self.at(step as f64 / STEPS as f64);
                (0..STEPS).map(|step| (at(step + 1) - at(step)).hypot()).sum()
            }
        }
    }
}

/// The curves of each closed boundary: the outline, then the openings.
pub(super) fn curves<'a>(outline: &'a Outline, openings: &'a [Opening]) -> Vec<Vec<Curve<'a>>> {
    let edges = |outline: &'a Outline| outline.edges().iter().map(Curve::Edge).collect();
    let of = |opening: &'a Opening| match opening {
        Opening::Outline(outline) => edges(outline),
        Opening::Ellipse(ellipse) => (0..4).map(|part| Curve::Ellipse(ellipse, f64::from(part) * FRAC_PI_2)).collect(),
    };
    std::iter::once(edges(outline)).chain(openings.iter().map(of)).collect()
}

/// Says how fine the mesh has to be along the boundary: fine along openings and at inside corners of the
/// outline, finer on tight arcs and where two boundaries are near each other.
pub(super) fn stamp(
    curves: &[Vec<Curve>],
    outline: &Outline,
    openings: &[Opening],
    grain: &MeshSize,
    sizes: &mut SizeField,
) -> Result<(), MeshError> {
    for (number, curves) in curves.iter().enumerate() {
        for (index, curve) in curves.iter().enumerate() {
            let length = curve.length();
            let chord = length / curve.least_chords();
            let inward = number > 0 || matches!(curve, Curve::Edge(edge) if edge.is_inward());
            let round = curve.steps() > 1;
            let size = match (inward, round) {
                (true, _) => curve.radius().map_or(grain.fine, |radius| at_corner(radius, grain)).min(chord),
                (false, true) => chord,
                (false, false) => f64::INFINITY,
            };
            if is_inside_corner(number, index, outline, openings) {
                sizes.stamp(curve.at(0.0), at_corner(0.0, grain));
            }
            let steps = (length / sizes.cell()).ceil().clamp(1.0, 2000.0) as usize;
            for step in 0..steps {
                let at = curve.at((step as f64 + 0.5) / steps as f64);
                if size.is_finite() {
                    sizes.stamp(at, size);
                }
                if let Some(opening) = number.checked_sub(1) {
                    stamp_gap(at, opening, outline, openings, grain, sizes)?;
                }
            }
        }
    }
    Ok(())
}

/// How fine the mesh has to be at an inside corner of that radius: six edges along a radius, and never finer than
/// what the mean over one thickness needs at a sharp one.
fn at_corner(radius: f64, grain: &MeshSize) -> f64 {
    (radius / 6.0).clamp(AT_CORNERS * grain.fine, grain.fine)
}

/// The concrete has an inside corner where that edge of that boundary begins.
fn is_inside_corner(number: usize, edge: usize, outline: &Outline, openings: &[Opening]) -> bool {
    match number.checked_sub(1).map(|opening| openings.get(opening)) {
        None => outline.interior_angle(edge) > PI + LEAST_TURN,
        Some(Some(Opening::Outline(opening))) => opening.interior_angle(edge) < PI - LEAST_TURN,
        Some(_) => false,
    }
}

/// Three edges at least across what lies between an opening and its neighbours.
fn stamp_gap(
    at: Point,
    opening: usize,
    outline: &Outline,
    openings: &[Opening],
    grain: &MeshSize,
    sizes: &mut SizeField,
) -> Result<(), MeshError> {
    if !outline.contains(at) {
        return Err(MeshError::Touches { opening });
    }
    let (_, near) = outline.nearest(at);
    let others = openings.iter().enumerate().filter(|(other, _)| *other != opening);
    let gaps = others.map(|(_, other)| other.signed_distance(at)).chain([((near - at).hypot(), near)]);
    for (gap, near) in gaps {
        if gap.is_nan() || gap < LEAST_GAP {
            return Err(MeshError::Touches { opening });
        }
        if gap < 3.0 * grain.fine {
            sizes.stamp(at, gap / 3.0);
            sizes.stamp(near, gap / 3.0);
        }
    }
    Ok(())
}

/// Each closed boundary as a polygon: straight edges as they are, arcs in as few chords as they need.
pub(super) fn polygons(curves: &[Vec<Curve>]) -> Vec<Vec<Point>> {
    let corners = |curve: &Curve| {
        let count = if curve.steps() > 1 { STEPS } else { 1 };
        let curve = *curve;
        (0..count).map(move |step| curve.at(step as f64 / count as f64)).collect::<Vec<_>>()
    };
    curves.iter().map(|curves| curves.iter().flat_map(corners).collect()).collect()
}

/// Each closed boundary as the corners of its chords, with one wherever a guide crosses it.
pub(super) fn chords(curves: &[Vec<Curve>], guides: &[[Point; 2]], sizes: &SizeField) -> Vec<Vec<Point>> {
    let closed = |curves: &Vec<Curve>| {
        let mut points: Vec<Point> = Vec::new();
        for curve in curves {
            let mut breaks: Vec<f64> = guides.iter().flat_map(|guide| crossings(curve, guide)).collect();
            breaks.extend([0.0, 1.0]);
            ascend(&mut breaks);
            for pair in breaks.windows(2) {
                if let [from, to] = pair {
                    part(curve, *from, *to, sizes, &mut points);
                }
            }
        }
        let closes = |points: &[Point]| matches!(points, [first, .., last] if (*first - *last).hypot() < SAME);
        while closes(&points) {
            points.pop();
        }
        points
    };
    curves.iter().map(closed).collect()
}

/// The corners of the chords between two shares of a curve, without the last; each as long as the size asks.
fn part(curve: &Curve, from: f64, to: f64, sizes: &SizeField, points: &mut Vec<Point>) {
    let share = |step: usize| from + (to - from) * step as f64 / STEPS as f64;
    // How many chords of the size asked for lie before each step.
    let mut before = [0.0; STEPS + 1];
    let mut at = curve.at(from);
    for step in 1..=STEPS {
        let next = curve.at(share(step));
        before[step] = before[step - 1] + (next - at).hypot() / sizes.at(at.midpoint(next));
        at = next;
    }
    let total = before[STEPS];
    let least = (curve.least_chords() * (to - from) - 1e-6).ceil();
    let count = (total - 0.25).ceil().max(least).clamp(1.0, 4000.0) as usize;
    let mut step = 0;
    for chord in 0..count {
        let wanted = total * chord as f64 / count as f64;
        while step + 1 < STEPS && before[step + 1] < wanted {
            step += 1;
        }
        let width = before[step + 1] - before[step];
        let within = if width > 0.0 { ((wanted - before[step]) / width).clamp(0.0, 1.0) } else { 0.0 };
        let point = curve.at(share(step) + (share(step + 1) - share(step)) * within);
        if points.last().is_none_or(|last| (*last - point).hypot() >= SAME) {
            points.push(point);
        }
    }
}

/// The shares at which a curve crosses a guide. What runs along the guide does not cross it.
fn crossings(curve: &Curve, [start, end]: &[Point; 2]) -> Vec<f64> {
    let along = *end - *start;
    let length = along.hypot();
    if length < SAME {
        return Vec::new();
    }
    let side = |share: f64| along.cross(curve.at(share) - *start) / length;
    let steps = curve.steps();
    let mut found = Vec::new();
    for step in 0..steps {
        let (mut low, mut high) = (step as f64 / steps as f64, (step + 1) as f64 / steps as f64);
        let (from, to) = (side(low), side(high));
        if from.abs().min(to.abs()) < SAME || from * to > 0.0 {
            continue;
        }
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if side(middle) * from > 0.0 { low = middle } else { high = middle }
        }
        let at = f64::midpoint(low, high);
        let reached = (curve.at(at) - *start).dot(along) / length;
        if (-SAME..=length + SAME).contains(&reached) {
            found.push(at);
        }
    }
    found
}
