//! Bars along the rails beside cutouts.

use super::Chosen;
use super::rails::{BarRail, wanted};
use super::region::{self, Region, Span};
use crate::job::BarSize;
use crate::measure::exact::{in_pounds, inches};
use crate::measure::{Length, Mass, Quantity, Units, write_number};
use crate::steel::limits;
use crate::top::{RailEnd, Top};
use crate::working::{Figure, Label, Named, Source, Term};
use kurbo::{Affine, Point, Vec2};
use uom::si::length::meter;
use uom::si::mass::kilogram;

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What is written on it: "R1".
    pub mark: String,
    /// Its ends, seen from above as installed; metres.
    pub ends: (Point, Point),
    /// Its length.
    pub length: Length,
    /// The rails that it runs along; never none.
    pub rails: Vec<BarRail>,
    /// Least concrete beside it, to an edge, a cutout or a hole.
    pub side_cover: Length,
    /// What that is measured to: "cutout 1", "an edge".
    pub nearest: String,
}

/// A rail that has no room for the bar.
#[derive(Clone, Debug, PartialEq)]
pub struct NoRoom {
    /// Which one.
    pub rail: BarRail,
    /// The most that any place in it leaves between a bar and what is beside it; negative where the bar would
    /// run through something.
    pub cover: Length,
    /// What is in the way.
    pub nearest: String,
}

/// The bars of a piece, all in one plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Bars {
    /// Their size.
    pub size: BarSize,
    /// Nominal diameter.
    pub diameter: Length,
    /// The bars, in the order in which they are laid.
    pub bars: Vec<Bar>,
    /// The rails without room.
    pub no_room: Vec<NoRoom>,
    /// Mass of all bars.
    pub mass: Figure<Mass>,
}

/// The piece, seen so that a rail runs level.
struct Turned {
    /// From the plane of the piece.
    by: Affine,
    /// The outline without its cutouts.
    body: Region,
    /// Everything that a bar has to keep off.
    beside: Vec<(RailEnd, Vec<Point>)>,
    radius: f64,
    off: f64,
}

/// A bar as it could lie in a turned piece: level, from left to right; metres.
#[derive(Clone, Copy)]
struct Lie {
    y: f64,
    span: Span,
    cover: f64,
    nearest: Option<RailEnd>,
}

impl Bars {
    pub(super) fn of(top: &Top, chosen: &Chosen, units: Units) -> Self {
        let diameter = limits::bar_diameter(chosen.bar, units);
        let mut bars: Vec<Bar> = Vec::new();
        let mut no_room = Vec::new();
        for rail in wanted(top, chosen) {
            // A bar that already runs through a rail serves it.
            if let Some(bar) = bars.iter_mut().find(|bar| cross(bar.ends, rail.at)) {
                bar.rails.push(rail);
                continue;
            }
            let turned = Turned::of(&rail, chosen, diameter);
            let Some(lie) = turned.best(&rail, &bars) else { continue };
            let cover = Length::new::<meter>(lie.cover);
            let nearest = words(lie.nearest);
            if cover < limits::steel_room() - crate::measure::geometry_tolerance() {
                no_room.push(NoRoom { rail, cover, nearest });
                continue;
            }
            bars.push(Bar {
                mark: format!("R{}", bars.len() + 1),
                ends: turned.ends(lie),
                length: Length::new::<meter>(lie.span.1 - lie.span.0),
                rails: vec![rail],
                side_cover: cover,
                nearest,
            });
        }
        let mass = mass(chosen.bar, &bars, units);
        Self { size: chosen.bar, diameter, bars, no_room, mass }
    }
}

fn words(end: Option<RailEnd>) -> String {
    match end {
        Some(RailEnd::Cutout(cutout)) => format!("cutout {}", cutout + 1),
        Some(RailEnd::Hole(set, hole)) => format!("hole {} of set {}", hole + 1, set + 1),
        Some(RailEnd::Edge(_)) | None => "an edge".to_owned(),
    }
}

/// Two lines, each from one point to another, cross.
fn cross(one: (Point, Point), other: (Point, Point)) -> bool {
    let sides = |line: (Point, Point), points: (Point, Point)| {
        let along = line.1 - line.0;
        along.cross(points.0 - line.0) * along.cross(points.1 - line.0) < 0.0
    };
    sides(one, other) && sides(other, one)
}

impl Turned {
    fn of(rail: &BarRail, chosen: &Chosen, diameter: Length) -> Self {
        let across = rail.at.1 - rail.at.0;
        // What is level or upright but for the last bit stays so.
        let across = match (across.x.abs() < across.y.abs() * 1e-6, across.y.abs() < across.x.abs() * 1e-6) {
            (true, _) => Vec2::new(0.0, across.y),
            (_, true) => Vec2::new(across.x, 0.0),
            _ => across,
        };
        let by = Affine::rotate(std::f64::consts::FRAC_PI_2 - across.atan2());
        let moved = |chain: Vec<Point>| -> Vec<Point> { chain.into_iter().map(|point| by * point).collect() };
        let outer = moved(region::chords(&chosen.outline.path()));
        let mut beside = vec![(RailEnd::Edge(0), outer.clone())];
        beside.extend(chosen.openings.iter().map(|(end, opening)| (*end, moved(region::chords(&opening.path())))));
        let is_cutout = |end: &RailEnd| matches!(end, RailEnd::Cutout(_));
        let cutouts = beside.iter().filter(|(end, _)| is_cutout(end)).map(|(_, chain)| chain.clone()).collect();
        Self {
            by,
            body: Region { outer, openings: cutouts },
            beside,
            radius: (diameter / 2.0).get::<meter>(),
            off: chosen.off.get::<meter>(),
        }
    }

    /// The ends of a bar in the plane of the piece, the left one first, of an upright bar the front one.
    fn ends(&self, lie: Lie) -> (Point, Point) {
        let back = self.by.inverse();
        let (one, other) = (back * Point::new(lie.span.0, lie.y), back * Point::new(lie.span.1, lie.y));
        let along = other - one;
        let forward = if along.x.abs() > along.y.abs() { along.x > 0.0 } else { along.y > 0.0 };
        if forward { (one, other) } else { (other, one) }
    }

    /// Where a bar lies best in the rail: in its middle, or beside the holes in it. Nothing if it would be too
    /// short to be worth it.
    fn best(&self, rail: &BarRail, laid: &[Bar]) -> Option<Lie> {
        let (near, far) = (self.by * rail.at.0, self.by * rail.at.1);
        let middle = self.lie(near.midpoint(far), laid);
        let enough = limits::steel_cover() - crate::measure::geometry_tolerance();
        if middle.is_some_and(|middle| middle.cover >= enough.get::<meter>()) {
            return middle;
        }
        let holes = self.beside.iter().filter(|(end, _)| matches!(end, RailEnd::Hole(..)));
        let beside = holes.map(|(_, chain)| region::bounds(chain)).filter(|hole| hole.y0 < far.y && hole.y1 > near.y);
        let levels = beside.flat_map(|hole| [f64::midpoint(near.y, hole.y0), f64::midpoint(hole.y1, far.y)]);
        let others = levels.filter(|y| *y > near.y && *y < far.y);
        let others = others.filter_map(|y| self.lie(Point::new(near.midpoint(far).x, y), laid));
        // The middle first: of equals it stays.
        middle.into_iter().chain(others).reduce(|best, other| if other.cover > best.cover { other } else { best })
    }

    /// A bar through that point, from end to end of the piece: its ends stay off edges and cutouts, and off
    /// bars that are laid already.
    fn lie(&self, through: Point, laid: &[Bar]) -> Option<Lie> {
        let y = through.y;
        let level = |y: f64| self.body.spans(y);
        let spans = region::common(&region::common(&level(y - self.radius), &level(y)), &level(y + self.radius));
        // A rail thinner than the bar has no room at all, and is told with what there is.
        let spans = if spans.is_empty() { level(y) } else { spans };
        let inside = |span: &Span| span.0 <= through.x && through.x <= span.1;
        let whole = spans.into_iter().find(inside)?;
        let mut spans = vec![(whole.0 + self.off, whole.1 - self.off)];
        for bar in laid {
            if let Some(taken) = self.taken(bar, y) {
                spans = region::without(spans, taken);
            }
        }
        let span = spans.into_iter().find(inside)?;
        if span.1 - span.0 < (limits::bar_least() - crate::measure::geometry_tolerance()).get::<meter>() {
            return None;
        }
        let (cover, nearest) = self.cover(y, span);
        Some(Lie { y, span, cover, nearest })
    }

    /// What a laid bar takes of a level: a bar's width, and a diameter on either side of it.
    fn taken(&self, bar: &Bar, y: f64) -> Option<Span> {
        let (from, to) = (self.by * bar.ends.0, self.by * bar.ends.1);
        let reach = 2.0 * self.radius;
        // The part of it that comes so near to the level.
        let rise = to.y - from.y;
        let at = |level: f64| if rise == 0.0 { 0.0 } else { ((level - from.y) / rise).clamp(0.0, 1.0) };
        let (mut start, mut end) = (at(y - reach), at(y + reach));
        if rise == 0.0 {
            (start, end) = (0.0, 1.0);
        }
        let points = [from.lerp(to, start), from.lerp(to, end)];
        let near = points.iter().any(|point| (point.y - y).abs() <= reach * (1.0 + 1e-9));
        let clear = self.radius + reach;
        near.then(|| (points[0].x.min(points[1].x) - clear, points[0].x.max(points[1].x) + clear))
    }

    /// The least concrete beside a bar, and what it is measured to. What lies beyond its ends is kept off by
    /// where they end; beside the very ends, which are flat, nothing is looked for.
    fn cover(&self, y: f64, (from, to): Span) -> (f64, Option<RailEnd>) {
        let along = (from + self.radius, to - self.radius);
        let mut least = (f64::INFINITY, None);
        for (end, chain) in &self.beside {
            for side in region::sides(chain) {
                let beside = aside(side, along, y);
                if beside < least.0 {
                    least = (beside, Some(*end));
                }
            }
        }
        (least.0 - self.radius, least.1)
    }
}

/// How far a line from one point to another lies above or below a level stretch; without end where it lies left
/// or right of it.
fn aside((one, other): (Point, Point), (from, to): Span, y: f64) -> f64 {
    let (left, right) = if one.x <= other.x { (one, other) } else { (other, one) };
    if right.x < from || left.x > to {
        return f64::INFINITY;
    }
    let run = right.x - left.x;
    let at = |x: f64| if run > 0.0 { left.y + (x - left.x) / run * (right.y - left.y) } else { left.y };
    let (start, end) =
        if run > 0.0 { (at(left.x.max(from)) - y, at(right.x.min(to)) - y) } else { (left.y - y, right.y - y) };
    if start * end <= 0.0 { 0.0 } else { start.abs().min(end.abs()) }
}

fn mass(size: BarSize, bars: &[Bar], units: Units) -> Figure<Mass> {
    let length = if bars.is_empty() {
        let nothing: Length = std::iter::empty::<Length>().sum();
        nothing.stated("no bar is laid", Source::Arithmetic)
    } else {
        let all = Term::sum(bars.iter().map(|bar| bar.length.named(bar.mark.clone())));
        all.step("length of all bars", Source::Arithmetic)
    };
    let nominal = limits::bar_mass(size, Length::new::<meter>(1.0), units).value;
    let by_length = |si: f64, units| match units {
        Units::Inch => {
            let foot = Mass::new::<kilogram>(si * inches(12.0).value);
            write_number(in_pounds(foot), 3) + " lb/ft"
        }
        Units::Metric => write_number(si, 3) + " kg/m",
    };
    let name = Label::with("nominal mass of {}", [Quantity::Words(size.label().into())]);
    let nominal = Term::named_as(nominal, name, Quantity::other(nominal, by_length));
    let mass = limits::bar_mass(size, length.value, units);
    length.with_rule(nominal, "{} × {}", |x| x[0] * x[1], mass).titled("Mass of the bars", limits::BARS)
}
