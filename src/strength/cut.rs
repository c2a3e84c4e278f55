//! Straight cuts across a top, and what statics says about them.

use super::sorted::order_of;
use kurbo::Point;

/// Along which way a beam runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// From left to right.
    X,
    /// From front to back.
    Y,
}

impl Along {
    /// The coordinate along the beam, and the one across.
    pub fn split(self, point: Point) -> (f64, f64) {
        match self {
            Self::X => (point.x, point.y),
            Self::Y => (point.y, point.x),
        }
    }

    /// The point with that coordinate along the beam, and that across.
    pub fn join(self, along: f64, across: f64) -> Point {
        match self {
            Self::X => Point::new(along, across),
            Self::Y => Point::new(across, along),
        }
    }
}

/// A stretch of concrete that a cut runs through, from one boundary to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Where it begins, across the beam; metres.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// The boundary at its beginning: 0 the outline, then the openings.
    pub from_loop: usize,
    /// The boundary at its end.
    pub to_loop: usize,
}

impl Span {
    /// Its width; metres.
    pub fn width(&self) -> f64 {
        self.to - self.from
    }
}

/// From where to where a boundary reaches along a beam, and the area and first moments within it.
type Reach = ((f64, f64), (f64, f64, f64));

/// The top as a beam: its closed boundaries as corners of chords, and the way it runs.
#[derive(Clone, Debug)]
pub struct Beam {
    loops: Vec<Vec<Point>>,
    along: Along,
    /// What is known of each boundary: a cut that does not run through it need not look at its corners.
    reaches: Vec<Reach>,
}

impl Beam {
    /// The beam within these boundaries.
    pub fn new(loops: Vec<Vec<Point>>, along: Along) -> Self {
        let reach = |points: &Vec<Point>| {
            let at = points.iter().map(|point| along.split(*point).0);
            let reach = at.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| (least.min(at), most.max(at)));
            (reach, clipped(points, along, reach.1))
        };
        let reaches = loops.iter().map(reach).collect();
        Self { loops, along, reaches }
    }

    /// Which way it runs.
    pub fn along(&self) -> Along {
        self.along
    }

    /// Where it begins and ends; metres.
    pub fn ends(&self) -> (f64, f64) {
        let at = self.loops.iter().flatten().map(|point| self.along.split(*point).0);
        at.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| (least.min(at), most.max(at)))
    }

    /// What a cut across the beam runs through.
    pub fn spans(&self, at: f64) -> Vec<Span> {
        let mut crossings: Vec<(f64, usize)> = Vec::new();
        for (number, (points, ((first, last), _))) in self.loops.iter().zip(&self.reaches).enumerate() {
            if at < *first || at > *last {
                continue;
            }
            let split = |point: &Point| self.along.split(*point);
            let mut from = points.last().map(split).unwrap_or_default();
            for to in points.iter().map(split) {
                if (from.0 > at) != (to.0 > at) {
                    crossings.push((from.1 + (at - from.0) / (to.0 - from.0) * (to.1 - from.1), number));
                }
                from = to;
            }
        }
        let order = order_of(crossings.iter().map(|crossing| crossing.0));
        let pairs = order.chunks_exact(2).filter_map(|pair| {
            let &[one, other] = pair else { return None };
            let ((from, from_loop), (to, to_loop)) = (*crossings.get(one)?, *crossings.get(other)?);
            Some(Span { from, to, from_loop, to_loop })
        });
        pairs.collect()
    }

    /// The area before a cut, and its first moment along the beam; square metres, cubic metres.
    pub fn before(&self, at: f64) -> (f64, f64) {
        let (area, moment, _) = self.before_both_ways(at);
        (area, moment)
    }

    /// The same, and its first moment across the beam.
    fn before_both_ways(&self, at: f64) -> (f64, f64, f64) {
        let (mut area, mut moment, mut across) = (0.0, 0.0, 0.0);
        for (number, (points, ((first, last), whole))) in self.loops.iter().zip(&self.reaches).enumerate() {
            if at < *first {
                continue;
            }
            let (own, own_moment, own_across) = if at >= *last { *whole } else { clipped(points, self.along, at) };
            // The outline runs counter-clockwise, as do the openings; a beam from front to back mirrors both.
            let sign = own.signum() * if number == 0 { 1.0 } else { -1.0 };
            area += sign * own;
            moment += sign * own_moment;
            across += sign * own_across;
        }
        (area, moment, across)
    }

    /// The twist at a cut about the line along the beam at `axis` across it, of an even load a square metre and
    /// forces, downward positive, each at its place along and across the beam; newton metres.
    pub fn twist(&self, at: f64, axis: f64, load: f64, forces: &[(f64, f64, f64)]) -> f64 {
        let (area, _, across) = self.before_both_ways(at);
        let before = forces.iter().filter(|force| force.0 < at);
        load * (across - area * axis) + before.map(|(_, place, force)| force * (place - axis)).sum::<f64>()
    }

    /// Where a cut across the beam can be the worst: all along it, and just beside both ends of every opening and every
    /// corner of the outline.
    pub(super) fn cuts(&self) -> Vec<f64> {
        let (start, end) = self.ends();
        let little = 1e-6 * (end - start);
        let even = (0..FEW_CUTS).map(|cut| start + (end - start) * (f64::from(cut) + 0.5) / f64::from(FEW_CUTS));
        let outline = self.loops.first().filter(|points| points.len() <= MOST_CORNERS).into_iter().flatten();
        let corners = outline.map(|point| self.along.split(*point).0);
        let openings = (1..self.loops.len()).flat_map(|number| {
            let (from, to) = self.reach(number);
            [from, f64::midpoint(from, to), to]
        });
        let beside = corners.chain(openings).flat_map(|at| [at - little, at + little]);
        even.chain(beside).filter(|at| *at > start && *at < end).collect()
    }

    /// The bending moment at a cut, positive where it pulls at the underside, of an even load a square metre and
    /// forces, downward positive, each at its place along the beam; newton metres.
    pub fn moment(&self, at: f64, load: f64, forces: &[(f64, f64)]) -> f64 {
        let (area, moment) = self.before(at);
        let of_forces: f64 =
            forces.iter().filter(|force| force.0 < at).map(|(place, force)| force * (at - place)).sum();
        -(load * (area * at - moment) + of_forces)
    }

    /// The shear at a cut: what the part before it pushes down on the part behind it; newtons.
    pub fn shear(&self, at: f64, load: f64, forces: &[(f64, f64)]) -> f64 {
        load * self.before(at).0 + forces.iter().filter(|force| force.0 < at).map(|force| force.1).sum::<f64>()
    }
}

/// Area and first moments, along and across, of what of a polygon lies before a cut, with the sign of the way it runs.
fn clipped(points: &[Point], along: Along, at: f64) -> (f64, f64, f64) {
    let mut kept: Vec<(f64, f64)> = Vec::with_capacity(points.len() + 4);
    let mut from = points.last().map(|point| along.split(*point)).unwrap_or_default();
    for to in points.iter().map(|point| along.split(*point)) {
        if (from.0 > at) != (to.0 > at) {
            kept.push((at, from.1 + (at - from.0) / (to.0 - from.0) * (to.1 - from.1)));
        }
        if to.0 <= at {
            kept.push(to);
        }
        from = to;
    }
    let (mut area, mut moment, mut across) = (0.0, 0.0, 0.0);
    let mut from = kept.last().copied().unwrap_or_default();
    for to in kept {
        let cross = from.0 * to.1 - to.0 * from.1;
        area += cross / 2.0;
        moment += cross * (from.0 + to.0) / 6.0;
        across += cross * (from.1 + to.1) / 6.0;
        from = to;
    }
    (area, moment, across)
}

/// Stress in a top that stands on its edge, held at two places along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnEdge {
    /// The largest tension; pascals.
    pub stress: f64,
    /// Of it, what the bending of the whole gives; the rest is the bending of the strips beside an opening.
    pub whole: f64,
    /// Where along the beam; metres.
    pub at: f64,
    /// Where across it.
    pub across: f64,
    /// The upright pull of each holder; newtons.
    pub holds: (f64, f64),
}

/// Cuts that are looked at along a beam.
const CUTS: u32 = 240;

/// Cuts that are looked at along a beam for the worst net one, at every key.
const FEW_CUTS: u32 = 60;

/// Corners of an outline that are cut beside; one of more has arcs, whose corners are none.
const MOST_CORNERS: usize = 24;

impl Beam {
    /// The largest tension of a top on its edge under a load a square metre, held at two places along it: the
    /// whole bends as a beam of what a cut leaves of it; beside an opening each strip also bends by its share of
    /// the shear, held at both ends of the opening (Vierendeel's girder, statics). Nothing if it cannot be held
    /// there.
    pub fn on_edge(&self, thickness: f64, load: f64, held_at: (f64, f64)) -> Option<OnEdge> {
        let (start, end) = self.ends();
        let (area, moment) = self.before(end);
        let (first, second) = held_at;
        let middle = moment / area;
        if !(second - first > 0.0 && first < middle && middle < second) {
            return None;
        }
        let far = load * area * (middle - first) / (second - first);
        let holds = (load * area - far, far);
        let forces = [(first, -holds.0), (second, -holds.1)];
        let mut worst = OnEdge { stress: 0.0, whole: 0.0, at: middle, across: 0.0, holds };
        // Also just inside both ends of every opening, where its strips bend most.
        let mut cuts: Vec<f64> =
            (0..CUTS).map(|cut| start + (end - start) * (f64::from(cut) + 0.5) / f64::from(CUTS)).collect();
        let little = 1e-6 * (end - start);
        for number in 1..self.loops.len() {
            let (from, to) = self.reach(number);
            cuts.extend([from - little, from + little, f64::midpoint(from, to), to - little, to + little]);
        }
        for at in cuts {
            let (stress, whole, across) = self.stress_on_edge(at, thickness, load, &forces);
            if stress > worst.stress {
                worst = OnEdge { stress, whole, at, across, holds };
            }
        }
        Some(worst)
    }

    /// From where to where a boundary reaches along the beam.
    pub(super) fn reach(&self, number: usize) -> (f64, f64) {
        self.reaches.get(number).map_or((f64::INFINITY, f64::NEG_INFINITY), |(reach, _)| *reach)
    }

    /// The largest tension at a cut, what of it the bending of the whole gives, and where across the beam.
    fn stress_on_edge(&self, at: f64, thickness: f64, load: f64, forces: &[(f64, f64)]) -> (f64, f64, f64) {
        let spans = self.spans(at);
        let width: f64 = spans.iter().map(Span::width).sum();
        if spans.is_empty() || width <= 0.0 {
            return (0.0, 0.0, 0.0);
        }
        let axis = spans.iter().map(|span| span.width() * f64::midpoint(span.from, span.to)).sum::<f64>() / width;
        let inertia = |span: &Span| thickness * span.width().powi(3) / 12.0;
        let own: f64 = spans.iter().map(inertia).sum();
        let whole =
            |span: &Span| inertia(span) + thickness * span.width() * (f64::midpoint(span.from, span.to) - axis).powi(2);
        let total: f64 = spans.iter().map(whole).sum();
        let bending = self.moment(at, load, forces).abs() / total;
        let shear = self.shear(at, load, forces).abs();
        let mut worst = (0.0, 0.0, axis);
        for span in &spans {
            let length = [span.from_loop, span.to_loop]
                .into_iter()
                .filter(|number| *number > 0)
                .map(|number| self.reach(number))
                .fold(0.0, |most: f64, (from, to)| most.max(to - from));
            let local = shear * length / 2.0 / own * span.width() / 2.0;
            for across in [span.from, span.to] {
                let of_whole = bending * (across - axis).abs();
                if of_whole + local > worst.0 {
                    worst = (of_whole + local, of_whole, across);
                }
            }
        }
        worst
    }
}
