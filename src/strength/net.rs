//! The worst net cut by hand: what any top has to bear as it is lifted or carried flat, with a cutout or without.
//!
//! The top is taken as rigid on what bears it, which gives evenly and can only push. Statics then gives the bending and
//! the twist at every straight cut, along the top and across it; both are spread evenly over what the cut leaves of it.
//! Beside a corner that turns inward the pull is larger than that mean: [`limits::CORNER_FACTOR`]. It stands until
//! the map is known, and must not be the milder of the two by more than a tenth: `tests/properties` holds it to that.

use super::cases::{ByHand, Case, Slab, Support, metres};
use super::cut::{Along, Beam, Span};
use super::limits;
use super::mesh::{inside, polygons};
use super::section::face_stress;
use crate::measure::{Length, Pressure, Quantity};
use crate::working::{Figure, Named, Source, Term};
use kurbo::{Point, Vec2};
use std::ops::Range;
use uom::si::f64::Torque;
use uom::si::pressure::pascal;
use uom::si::torque::newton_meter;

/// Pieces that a support is divided into.
const PIECES: u32 = 40;

/// A twist under this share of the bending is none: beside it the pull misses by less than its last bits.
const LEAST_TWIST: f64 = 1e-7;

/// Rounds of letting go of what would have to pull, at most: as many as there are likely pieces.
const MOST_ROUNDS: u32 = 160;

/// Inward corners that an outline has at most to be cut askew: more are the chords of an arc.
const MOST_INWARD: usize = 8;

/// Angles at which a cut through an inward corner of the outline is tried, over half a turn.
const ANGLES: u32 = 12;

/// The cut of a top with the largest tension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NetCut {
    /// The middle of the narrowest strip that is cut; metres.
    pub at: Point,
    /// The boundaries beside that strip: 0 the outline, then the openings.
    pub beside: [usize; 2],
    /// The width of all that is cut.
    pub width: Length,
    /// The bending moment there.
    pub moment: Torque,
    /// The twist there.
    pub twist: Torque,
    /// What the mean over the cut is multiplied by: [`limits::EDGE_FACTOR`] at least.
    pub factor: f64,
    /// The largest tension, that factor included.
    pub tension: Pressure,
}

/// Looks for the worst cut of one top in one case.
struct Search {
    loops: Vec<Vec<Point>>,
    /// What every piece of every support pushes.
    pushes: Vec<(Point, f64)>,
    /// Weight a square metre.
    load: f64,
    thickness: f64,
    /// Inward corners of the openings.
    corners: Vec<Point>,
    /// Inward corners of the outline, where it is not an arc that turns inward.
    outline: Vec<Point>,
    found: Option<NetCut>,
    /// What the mean counts times away from corners.
    factor: f64,
    /// An opening has a sharp corner.
    sharp: bool,
}

/// The worst net cut of a top in that case; nothing where it is not borne, or where more bears down than its weight.
pub fn worst(slab: &Slab, case: &Case) -> Option<NetCut> {
    if !case.loads.is_empty() {
        return None;
    }
    let loops = polygons(&slab.outline, &slab.openings);
    let thickness = slab.thickness.value;
    let load = thickness * case.concrete.density.value * limits::GRAVITY * case.multiplier;
    let mut borne = vec![pushes(&loops, case, load)?];
    // Held in the middle as well, a stiff top rests on that like a rigid one on springs, and a slack one like two spans.
    borne.extend(two_spans(&loops, case, load).into_iter().flatten());
    let corners = inward(&loops, 1..loops.len());
    let outline = Some(inward(&loops, 0..1)).filter(|corners| corners.len() <= MOST_INWARD).unwrap_or_default();
    let bounds = slab.outline.bounds();
    let squat = bounds.width().min(bounds.height()) > limits::SQUAT * bounds.width().max(bounds.height());
    let by_hand = case.kind.facts().by_hand.unwrap_or(ByHand::EVEN);
    let factor = if squat { by_hand.squat } else { by_hand.factor };
    let least = slab.openings.iter().filter_map(crate::plane::Opening::least_inside_radius);
    let sharp = least.into_iter().any(|(radius, _)| radius < thickness / 2.0);
    let pushes = Vec::new();
    let mut search = Search { loops, pushes, load, thickness, corners, outline, found: None, factor, sharp };
    for pushes in borne {
        search.pushes = pushes;
        search.all();
    }
    if by_hand.single_hands {
        search.strips_over_hands(case, super::cases::long_way(slab));
    }
    search.found
}

fn rotated(point: Point, angle: f64) -> Point {
    let (sin, cos) = angle.sin_cos();
    Point::new(cos * point.x - sin * point.y, sin * point.x + cos * point.y)
}

impl Search {
    /// A hand under a strip beside an opening bends the strip by itself: as a beam as long as the opening, held at both
    /// ends, with the push of that hand in one place, push × a × b × the larger of both ÷ length².
    fn strips_over_hands(&mut self, case: &Case, along: Along) {
        let beam = Beam::new(self.loops.clone(), along);
        for support in &case.supports {
            let [from, to] = support.line;
            let middle = from.midpoint(to);
            let (at, across) = along.split(middle);
            let spans = beam.spans(at);
            let Some(strip) = spans.iter().find(|span| span.from <= across && across <= span.to) else { continue };
            let opening = strip.from_loop.max(strip.to_loop);
            let Some(points) = self.loops.get(opening).filter(|_| opening > 0) else { continue };
            let places = points.iter().map(|point| along.split(*point).0);
            let ends =
                places.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| (least.min(at), most.max(at)));
            let (a, b) = (at - ends.0, ends.1 - at);
            let under = |place: &Point| (*place - middle).hypot() <= (to - from).hypot() / 2.0 + 1e-9;
            let push: f64 = self.pushes.iter().filter(|(place, _)| under(place)).map(|(_, push)| push).sum();
            let moment = push * a * b * a.max(b) / ((a + b) * (a + b));
            self.weigh((middle, strip), strip.width(), [moment, 0.0], limits::CORNER_FACTOR);
        }
    }

    /// Looks at every cut, as it is borne now.
    fn all(&mut self) {
        for along in [Along::X, Along::Y] {
            let beam = Beam::new(self.loops.clone(), along);
            for at in beam.cuts() {
                self.cut(&beam, at, 0.0);
            }
        }
        // Around an inward corner of the outline the shortest cut runs askew.
        let outline = self.outline.clone();
        for turn in (1..ANGLES).filter(|_| !outline.is_empty()) {
            let angle = std::f64::consts::PI * f64::from(turn) / f64::from(ANGLES);
            let turned = |points: &Vec<Point>| points.iter().map(|point| rotated(*point, -angle)).collect();
            let beam = Beam::new(self.loops.iter().map(turned).collect(), Along::X);
            let (start, end) = beam.ends();
            for corner in &outline {
                let at = rotated(*corner, -angle).x;
                for at in [at - 1e-6 * (end - start), at + 1e-6 * (end - start)] {
                    self.cut(&beam, at, angle);
                }
            }
        }
    }

    /// Looks at one cut of a beam, which is the top turned back by that angle.
    fn cut(&mut self, beam: &Beam, at: f64, angle: f64) {
        let spans = beam.spans(at);
        let width: f64 = spans.iter().map(Span::width).sum();
        // A sliver at a rounded end has no strength to speak of and nothing to bear.
        if width < self.thickness / 2.0 {
            return;
        }
        let along = beam.along();
        let axis = spans.iter().map(|span| span.width() * f64::midpoint(span.from, span.to)).sum::<f64>() / width;
        let forces: Vec<(f64, f64, f64)> = self
            .pushes
            .iter()
            .map(|(place, push)| {
                let (along, across) = along.split(rotated(*place, -angle));
                (along, across, -push)
            })
            .collect();
        let in_line: Vec<(f64, f64)> = forces.iter().map(|(along, _, force)| (*along, *force)).collect();
        let moment = beam.moment(at, self.load, &in_line).abs();
        let twist = beam.twist(at, axis, self.load, &forces).abs();
        let place = |corner: &Point| along.split(rotated(*corner, -angle)).0;
        let near = |corners: &[Point]| corners.iter().any(|corner| (place(corner) - at).abs() < self.thickness);
        let factor = if near(&self.outline) {
            limits::INNER_CORNER_FACTOR * self.factor.sqrt()
        } else if near(&self.corners) {
            // Of strips beside an opening that differ, the narrower one is pulled by more than its share.
            let widths = || spans.iter().map(Span::width);
            let even = widths().fold(f64::INFINITY, f64::min) / widths().fold(0.0, f64::max);
            let corner = limits::CORNER_FACTOR + limits::UNEVEN_FACTOR * (1.0 - even);
            corner * if self.sharp { limits::SHARP_FACTOR } else { 1.0 } * self.factor.sqrt()
        } else {
            self.factor
        };
        let Some(strip) = spans.into_iter().min_by(|one, other| one.width().total_cmp(&other.width())) else { return };
        let at = rotated(along.join(at, f64::midpoint(strip.from, strip.to)), angle);
        self.weigh((at, &strip), width, [moment, twist], factor);
    }

    /// Keeps a cut that is pulled harder than all before it, told by where its narrowest strip is.
    fn weigh(&mut self, (at, strip): (Point, &Span), width: f64, [moment, twist]: [f64; 2], factor: f64) {
        let tension = factor * mean(moment, twist, width, self.thickness);
        // Of two that are alike the first is told, whatever their last digits say.
        if !tension.is_finite() || self.found.is_some_and(|found| found.tension.value * (1.0 + 1e-6) >= tension) {
            return;
        }
        self.found = Some(NetCut {
            at,
            beside: [strip.from_loop, strip.to_loop],
            width: metres(width),
            moment: Torque::new::<newton_meter>(moment),
            twist: Torque::new::<newton_meter>(twist),
            factor,
            tension: Pressure::new::<pascal>(tension),
        });
    }
}

/// The larger principal stress of bending and twist, both spread evenly over a width of plate.
fn mean(moment: f64, twist: f64, width: f64, thickness: f64) -> f64 {
    let half_bending = 3.0 * moment / (width * thickness * thickness);
    half_bending + half_bending.hypot(twisting(twist, width, thickness))
}

/// The shear of a twist that is spread evenly over a width of plate. A twist is carried half by either of two pairs of
/// stresses in a thin plate: Mxy = T ÷ 2 for each width.
fn twisting(twist: f64, width: f64, thickness: f64) -> f64 {
    3.0 * twist / (width * thickness * thickness)
}

/// What every piece of every support pushes, by its place; nothing where the top would tip.
fn pushes(loops: &[Vec<Point>], case: &Case, load: f64) -> Option<Vec<(Point, f64)>> {
    let beam = Beam::new(loops.to_vec(), Along::X);
    let (_, end) = beam.ends();
    let (area, first) = beam.before(end);
    let upright = Beam::new(loops.to_vec(), Along::Y);
    let middle = Point::new(first / area, upright.before(upright.ends().1).1 / area);
    let mut bears: Vec<(Vec2, f64)> = Vec::new();
    for support in &case.supports {
        let [from, to] = support.line;
        for piece in 0..PIECES {
            let at = from.lerp(to, (f64::from(piece) + 0.5) / f64::from(PIECES));
            if inside(loops, at) {
                let length = (to - from).hypot() / f64::from(PIECES);
                bears.push((at - middle, length * support.bears.stiffness().value));
            }
        }
    }
    let mut still = bears.clone();
    for _ in 0..MOST_ROUNDS {
        let settled = settled(&still, load * area)?;
        let push = |(at, stiffness): &(Vec2, f64)| stiffness * (settled[0] + settled[1] * at.x + settled[2] * at.y);
        let before = still.len();
        let pushing: Vec<(Vec2, f64)> = still.iter().filter(|one| push(one) >= 0.0).copied().collect();
        if pushing.len() == before {
            return Some(still.iter().map(|one| (middle + one.0, push(one))).collect());
        }
        still = pushing;
    }
    None
}

/// What bears a top that is held across its middle as well, as two spans of its own stiffness: once jointed over the
/// middle, so that each half bears itself (w L² ÷ 8 between), and once in one, where the middle takes that moment over it
/// and the ends bear three quarters as much (a beam over three supports). Nothing where it is not held so.
fn two_spans(loops: &[Vec<Point>], case: &Case, load: f64) -> Option<[Vec<(Point, f64)>; 2]> {
    let [first, second, middle] = case.supports.as_slice() else { return None };
    let across = middle.line[1] - middle.line[0];
    let along = if across.x.abs() < across.y.abs() { Along::X } else { Along::Y };
    let place = |support: &Support| along.split(support.line[0].midpoint(support.line[1])).0;
    let beam = Beam::new(loops.to_vec(), along);
    let (near, at, far) = (place(first), place(middle), place(second));
    if !(near < at && at < far) {
        return None;
    }
    let (area, moment) = beam.before(beam.ends().1);
    let (before, moment_before) = beam.before(at);
    // Each half about the middle.
    let of_near = load * (before * at - moment_before) / (at - near);
    let of_far = load * ((moment - moment_before) - (area - before) * at) / (far - at);
    let spread = |support: &Support, push: f64| -> Vec<(Point, f64)> {
        let [from, to] = support.line;
        let pieces = (0..PIECES).map(|piece| from.lerp(to, (f64::from(piece) + 0.5) / f64::from(PIECES)));
        let under: Vec<Point> = pieces.filter(|at| inside(loops, *at)).collect();
        let each = push / under.len().max(1) as f64;
        under.into_iter().map(|at| (at, each)).collect()
    };
    let shared = |share: f64| {
        let (near, far) = (share * of_near, share * of_far);
        [spread(first, near), spread(second, far), spread(middle, load * area - near - far)].concat()
    };
    Some([shared(1.0), shared(0.75)])
}

/// How far a rigid top comes down and how it leans, under a weight in the middle: Cramer's rule for three unknowns.
fn settled(bears: &[(Vec2, f64)], weight: f64) -> Option<[f64; 3]> {
    let sum = |part: &dyn Fn(&Vec2) -> f64| bears.iter().map(|(at, stiffness)| stiffness * part(at)).sum::<f64>();
    let (k, kx, ky) = (sum(&|_| 1.0), sum(&|at| at.x), sum(&|at| at.y));
    let (kxx, kxy, kyy) = (sum(&|at| at.x * at.x), sum(&|at| at.x * at.y), sum(&|at| at.y * at.y));
    let cofactors = [kxx * kyy - kxy * kxy, kxy * ky - kx * kyy, kx * kxy - kxx * ky];
    let determinant = k * cofactors[0] + kx * cofactors[1] + ky * cofactors[2];
    // In one line they hold nothing.
    let scale = k * kxx.max(kyy) * kxx.max(kyy);
    (determinant > 1e-9 * scale).then(|| cofactors.map(|cofactor| weight * cofactor / determinant))
}

/// Corners of the boundaries at which the concrete turns inward: of the outline those to the right of its way, of an
/// opening all of them, and the ends of a round one.
fn inward(loops: &[Vec<Point>], which: Range<usize>) -> Vec<Point> {
    let mut found = Vec::new();
    for (number, points) in loops.iter().enumerate().filter(|(number, _)| which.contains(number)) {
        let count = points.len();
        let turns = |index: usize| {
            let before = points.get((index + count - 1) % count).copied().unwrap_or_default();
            let at = points.get(index).copied().unwrap_or_default();
            let after = points.get((index + 1) % count).copied().unwrap_or_default();
            (at - before).cross(after - at)
        };
        let doubled: f64 = (0..count)
            .map(|index| {
                let (from, to) = (points.get(index), points.get((index + 1) % count));
                from.zip(to).map_or(0.0, |(from, to)| from.to_vec2().cross(to.to_vec2()))
            })
            .sum();
        for index in 0..count {
            let turn = turns(index) * doubled.signum();
            // An opening's corners turn the way its boundary runs, an outline's inner ones against it.
            if (number == 0 && turn < 0.0) || (number > 0 && turn > 0.0) {
                found.extend(points.get(index).copied());
            }
        }
    }
    found
}

impl NetCut {
    /// The tension with its working.
    pub fn figure(&self, slab: &Slab) -> Figure<Pressure> {
        let width = || self.width.named("width of all that is cut");
        let thickness = || slab.thickness.named("thickness");
        let moment = self.moment.stated("moment there, by statics, multiplier included", Source::Arithmetic);
        let bending =
            face_stress(moment.called("moment"), width(), thickness()).step("pull of bending", Source::Arithmetic);
        let twist = Term::rule(
            "3 × {} ÷ ({} × ({})²)",
            [self.twist.named("twist").into(), width().into(), thickness().into()],
            |parts| twisting(parts[0], parts[1], parts[2]),
            Pressure::new::<pascal>(twisting(self.twist.value, self.width.value, slab.thickness.value)),
        )
        .step("shear of the twist", Source::Arithmetic);
        let mean = if twist.value > LEAST_TWIST * bending.value {
            let (half, twisting) = (bending.value.value / 2.0, twist.value.value);
            let both = Pressure::new::<pascal>(half + half.hypot(twisting));
            Term::rule(
                "{} ÷ 2 + √(({} ÷ 2)² + ({})²)",
                [bending.clone().into(), bending.into(), twist.into()],
                |parts| parts[0] / 2.0 + (parts[1] / 2.0).hypot(parts[2]),
                both,
            )
            .step("mean over the cut", Source::Arithmetic)
        } else {
            bending
        };
        let named = "more than the mean at a free edge, at an inward corner, over hands";
        let factor = Term::named_as(self.factor, named, Quantity::Number(self.factor, 2));
        let tension = (factor * mean).valued(self.tension);
        tension.titled("The worst net cut by hand", limits::CORNER)
    }
}
