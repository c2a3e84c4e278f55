//! The finished thing, as installed, seen from above.
//!
//! Plane coordinates are `f64` metres: x to the right from the left end, y to the back from the front
//! edge, so the front left corner of a rectangle is the origin.

mod advice;
mod inputs;
pub mod limits;
pub mod moving;
mod openings;
mod outline;
mod seam;

pub(crate) use advice::advise;
pub(crate) use inputs::clearance;
pub use inputs::{
    AcrossInputs, AlongInputs, CornerInputs, CutoutInputs, CutoutSize, HolesInputs, HolesPlace, LegInputs,
    OpeningInputs, PieceNames, RevealInputs, SeamInputs, ShapeInputs, TemplateInputs, TopInputs, doors,
};
pub use openings::center_on_doors;
pub use seam::{SeamPlan, SeamRun, Seaming};

use crate::job::{EdgeKind, FieldPath, PieceField, PieceKind};
use crate::measure::{Area, Length, Quantity};
use crate::plane::{self, EdgeTag, Opening, Outline, RailTo};
use crate::room::{Hiding, Reading, Survey, Walk, WaysIn};
use crate::working::{Figure, Known, Label, Named, Needs, Source, Term, Waiting, known_ref, pi, quarter_pi, together};
use kurbo::{Point, Rect, Vec2};
use serde::{Deserialize, Serialize};
use std::collections::HashSet;
use uom::si::area::square_meter;
use uom::si::length::meter;

/// One edge of the finished outline, with what its kind asks of the form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeProfile {
    /// The number of its side, as [`Piece::side_name`] counts them.
    pub side: usize,
    /// What it is.
    pub kind: EdgeKind,
    /// Mean thickness of its liner; zero when it has none.
    pub liner: Length,
    /// Radius of its easing; zero when it is not eased.
    pub radius: Length,
}

/// What a rail lies between, on one of its two sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RailEnd {
    /// An edge of the outline, by its index there.
    Edge(usize),
    /// A cutout, by its index.
    Cutout(usize),
    /// A hole: set and index in the set.
    Hole(usize, usize),
}

/// The thinnest place between a cutout or hole and an edge or another cutout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rail {
    /// The cutout or hole that it lies beside.
    pub from: RailEnd,
    /// What is on its other side.
    pub to: RailEnd,
    /// Least width; negative where the two run into each other or past the outline.
    pub width: Length,
    /// Where the least width is measured, from one side to the other; metres.
    pub at: (Point, Point),
}

/// Towards which side of the piece an edge looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Facing {
    /// To the front.
    Front,
    /// To the right.
    Right,
    /// To the back.
    Back,
    /// To the left.
    Left,
}

impl Facing {
    fn of(edge: &plane::Edge) -> Self {
        Self::towards(edge.normal_at(0.5))
    }

    /// The side that a direction points to most.
    pub(crate) fn towards(out: Vec2) -> Self {
        match (out.x.abs() > out.y.abs(), out.x > 0.0, out.y > 0.0) {
            (true, true, _) => Self::Right,
            (true, false, _) => Self::Left,
            (false, _, true) => Self::Back,
            (false, _, false) => Self::Front,
        }
    }
}

impl Rail {
    /// It is a strip beside a cutout, and narrower than good practice for that kind of piece.
    pub fn is_narrow(&self, kind: PieceKind) -> bool {
        let watch = if kind.is_strip() { limits::strip_rail_watch() } else { limits::rail_watch() };
        matches!(self.from, RailEnd::Cutout(_)) && self.width < watch - crate::measure::geometry_tolerance()
    }
}

/// What the readings of the opening say, where the piece takes its shape from them.
#[derive(Clone, Debug, PartialEq)]
pub struct Surveyed {
    /// The opening itself: corners, angles, how well the readings agree.
    pub survey: Survey,
    /// The readings it was made from.
    pub readings: Vec<Reading>,
    /// Where the front left corner of the piece lies in the plane of the survey; metres. The outline of
    /// the piece has its own origin there.
    pub front_left: Point,
    /// How the piece can be put in; waits for the thickness.
    pub ways: Known<WaysIn>,
    /// What hides the gap along the back wall; nothing when no station was measured.
    pub hiding: Option<Known<Hiding>>,
}

/// The geometry of one piece; each part stands on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Top {
    /// The outline, corners rounded and clipped.
    pub outline: Known<Outline>,
    /// The opening it stands in; nothing when the piece does not take its shape from one.
    pub surveyed: Option<Known<Surveyed>>,
    /// The walk around it; nothing when the piece is not measured corner by corner.
    pub walked: Option<Known<Walk>>,
    /// Finished thickness.
    pub thickness: Known<Length>,
    /// The edges, by the number of their side.
    pub edges: Vec<Known<EdgeProfile>>,
    /// The bowls of the cutouts as typed, without their reveal, in the order of the job.
    pub bowls: Vec<Known<Opening>>,
    /// The cutouts as they are cut, larger or smaller than the bowl by the reveal, in the same order.
    pub cutouts: Vec<Known<Opening>>,
    /// The sets of faucet holes, in the order of the job; every hole of a set is a circle.
    pub holes: Vec<Known<Vec<Opening>>>,
    /// Area of the finished face less cutouts and holes. Waits while a cutout or hole runs past the
    /// outline or into another one.
    pub area: Known<Figure<Area>>,
    /// The strips that are left between cutouts and edges and between cutouts, thinnest first.
    pub rails: Vec<Rail>,
}

impl Top {
    /// The geometry that follows from what is typed of a piece.
    pub fn of(inputs: &TopInputs) -> Self {
        let surveyed = match &inputs.shape {
            ShapeInputs::Opening(opening) => Some(outline::surveyed(inputs, opening)),
            _ => None,
        };
        let walked = match &inputs.shape {
            ShapeInputs::Walked(legs) => Some(outline::walked(inputs, legs)),
            _ => None,
        };
        let outline = outline::of(inputs, surveyed.as_ref(), walked.as_ref());
        let bounds = known_ref(&outline).map(Outline::bounds);
        let listed = || inputs.cutouts.iter().enumerate();
        let bowls: Vec<_> = listed().map(|(index, cutout)| openings::bowl(inputs, index, cutout, &bounds)).collect();
        let cutouts: Vec<_> =
            listed().zip(&bowls).map(|((index, cutout), bowl)| openings::hole(inputs, index, cutout, bowl)).collect();
        let sets = inputs.holes.iter().enumerate();
        let holes: Vec<_> = sets.map(|(index, set)| openings::holes(inputs, index, set, &bowls, &bounds)).collect();
        let rails = outline.as_ref().map_or_else(|_| Vec::new(), |outline| rails(outline, &cutouts, &holes));
        let mut top = Self {
            thickness: inputs.thickness.clone(),
            edges: inputs.edges.clone(),
            outline,
            surveyed: surveyed.map(|known| known.map(|(surveyed, _)| surveyed)),
            walked,
            bowls,
            cutouts,
            holes,
            // Worked out from the rest in the next line.
            area: Err(Waiting::at(FieldPath::Piece(inputs.piece, PieceField::Width), "")),
            rails,
        };
        top.area = top.area_left(inputs);
        top
    }

    /// The side that looks to the back, or to the front or to the right, by its number, and its length; the
    /// longest of several. Nothing while the outline is not known.
    pub fn side_towards(&self, look: Facing) -> Option<(usize, Length)> {
        let outline = self.outline.as_ref().ok()?;
        let sides = outline.edges().iter().filter_map(|edge| match edge.tag() {
            EdgeTag::Side(side) if Facing::of(edge) == look => Some((usize::from(side), edge.length())),
            _ => None,
        });
        sides.max_by(|one, other| one.1.total_cmp(&other.1)).map(|(side, long)| (side, Length::new::<meter>(long)))
    }

    fn area_left(&self, inputs: &TopInputs) -> Known<Figure<Area>> {
        let mut waiting = Needs::default();
        let mut openings = Vec::new();
        for (index, (cutout, typed)) in self.cutouts.iter().zip(&inputs.cutouts).enumerate() {
            match cutout {
                Ok(shape) => openings.push((format!("cutout {}", index + 1), cutout_area(&typed.size, shape))),
                Err(other) => waiting.add(other.clone()),
            }
        }
        for (index, set) in self.holes.iter().enumerate() {
            match set {
                Ok(shapes) => {
                    let name = || format!("holes {}", index + 1);
                    openings.extend(shapes.first().map(|hole| (name(), holes_area(shapes.len(), hole))));
                }
                Err(other) => waiting.add(other.clone()),
            }
        }
        for (place, says) in advice::overruns(self, inputs) {
            waiting.add(Waiting::at(place, says));
        }
        let (outline, ()) = together((known_ref(&self.outline), waiting.unless(())))?;

        const TITLE: &str = "Area of the finished face";
        let full = outline_area(outline, &inputs.shape);
        let left = if openings.is_empty() {
            full.titled(TITLE, Source::Arithmetic)
        } else {
            let full = full.step("outline", Source::Arithmetic);
            let taken = openings.into_iter().map(|(name, area)| area.step(Label::words(name), Source::Arithmetic));
            (full - Term::sum(taken)).titled(TITLE, Source::Arithmetic)
        };
        if left.value > Area::default() {
            Ok(left)
        } else {
            let place = FieldPath::Piece(inputs.piece, PieceField::Width);
            Err(Waiting::at(place, "The cutouts and holes leave nothing of the top."))
        }
    }
}

fn metres(metres: f64) -> Length {
    Length::new::<meter>(metres)
}

/// An area that the geometry found, with the formula that comes to it by hand: both within what is lost far from the
/// origin of the plane.
fn by_hand(formula: Term<Area>, square_metres: f64, bounds: Rect) -> Term<Area> {
    let far = [bounds.x0, bounds.x1, bounds.y0, bounds.y1].into_iter().map(f64::abs).fold(0.0, f64::max);
    let within = 1e-12 * far * (bounds.width() + bounds.height());
    formula.rounded("{}", within, Area::new::<square_meter>(square_metres))
}

/// The area of an outline with its formula.
fn outline_area(outline: &Outline, shape: &ShapeInputs) -> Term<Area> {
    let (bounds, edges) = (outline.bounds(), outline.edges());
    let straight = edges.iter().all(plane::Edge::is_straight);
    if matches!(shape, ShapeInputs::Rectangle { .. }) && straight && edges.len() == 4 {
        let formula = metres(bounds.width()).named("width") * metres(bounds.height()).named("depth");
        return by_hand(formula, outline.area(), bounds);
    }
    let corners = edges.iter().map(|edge| Quantity::Point(metres(edge.start().x), metres(edge.start().y)));
    let corners = Term::named_as((), "the corners", Quantity::List(corners.collect()));
    let says = if straight {
        "half the sum of x × next y − next x × y over {}"
    } else {
        "half the sum of x × next y − next x × y over {}, and r² ÷ 2 × (sweep − sin sweep) for every arc"
    };
    Term::found(says, [corners.into()], Area::new::<square_meter>(outline.area()))
}

/// The area of a cutout with its formula.
fn cutout_area(size: &CutoutSize, shape: &Opening) -> Term<Area> {
    let bounds = shape.bounds();
    let (width, depth) = (metres(bounds.width()), metres(bounds.height()));
    let over_all = || width.named("width") * depth.named("depth");
    match shape {
        Opening::Outline(outline) => {
            let radius = outline.edges().iter().find_map(plane::Edge::radius);
            match (size, radius) {
                (CutoutSize::Circle { .. }, _) => holes_area(1, shape),
                (CutoutSize::Rectangle { .. }, None) => by_hand(over_all(), shape.area(), bounds),
                (CutoutSize::Rectangle { .. }, Some(radius)) => {
                    let radius = || metres(radius).named("radius");
                    let formula = over_all() - (4.0 - pi()) * radius() * radius();
                    by_hand(formula, shape.area(), bounds)
                }
                _ => {
                    let says = "its corners and arcs, as for the outline: {} over all";
                    Term::found(says, [over_all().into()], Area::new::<square_meter>(shape.area()))
                }
            }
        }
        Opening::Ellipse(ellipse) => {
            let beyond = ellipse.beyond();
            let own = |over_all: Length| over_all - 2.0 * metres(beyond);
            let bowl = quarter_pi() * own(width).named("width of the bowl") * own(depth).named("depth of the bowl");
            if beyond == 0.0 {
                return by_hand(bowl, shape.area(), bounds);
            }
            // The curve beside an ellipse: its own perimeter is the ellipse's and a circle's.
            let round = metres(shape.perimeter() - std::f64::consts::TAU * beyond).named("perimeter of the bowl");
            let reveal = || metres(beyond.abs()).named("reveal");
            let beside = round * reveal();
            let bowl = if beyond > 0.0 { bowl + beside } else { bowl - beside };
            by_hand(bowl + pi() * reveal() * reveal(), shape.area(), bounds)
        }
    }
}

/// The area of so many equal circles with its formula.
fn holes_area(count: usize, hole: &Opening) -> Term<Area> {
    let diameter = || metres(hole.bounds().width()).named("diameter");
    let one = quarter_pi() * diameter() * diameter();
    let formula = if count == 1 { one } else { count as f64 * one };
    by_hand(formula, count as f64 * hole.area(), hole.bounds())
}

/// Every rail beside a cutout or a hole; between two holes there is none.
fn rails(outline: &Outline, cutouts: &[Known<Opening>], holes: &[Known<Vec<Opening>>]) -> Vec<Rail> {
    let cutouts = cutouts.iter().enumerate().filter_map(|(i, shape)| Some((RailEnd::Cutout(i), shape.clone().ok()?)));
    let holes = holes.iter().enumerate().filter_map(|(set, shapes)| Some((set, shapes.as_ref().ok()?)));
    let holes = holes.flat_map(|(set, shapes)| {
        shapes.iter().enumerate().map(move |(i, shape)| (RailEnd::Hole(set, i), shape.clone()))
    });
    let (ends, shapes): (Vec<_>, Vec<_>) = cutouts.chain(holes).unzip();
    let is_hole = |index: usize| matches!(ends.get(index), Some(RailEnd::Hole(..)));
    plane::rails_where(outline, &shapes, |one, other| !(is_hole(one) && is_hole(other)))
        .into_iter()
        .map(|rail| {
            let (from, to) = match rail.to {
                RailTo::Edge(edge) => (ends[rail.opening], RailEnd::Edge(edge)),
                RailTo::Opening(other) => (ends[rail.opening], ends[other]),
            };
            let (from, to, at) = match (from, to) {
                // A hole lies beside a cutout, not the other way round.
                (RailEnd::Cutout(_), RailEnd::Hole(..)) => (to, from, (rail.gap.at.1, rail.gap.at.0)),
                (from, to) => (from, to, rail.gap.at),
            };
            Rail { from, to, width: Length::new::<meter>(rail.gap.distance), at }
        })
        .collect()
}

/// Every two holes, of one set or of two, that run into each other.
fn holes_in_holes(holes: &[Known<Vec<Opening>>]) -> Vec<(usize, usize)> {
    let all: Vec<_> = holes
        .iter()
        .enumerate()
        .filter_map(|(set, shapes)| Some((set, shapes.as_ref().ok()?)))
        .flat_map(|(set, shapes)| shapes.iter().map(move |shape| (set, shape.bounds())))
        .collect();
    let mut found = Vec::new();
    let mut known = HashSet::new();
    for (position, (set, bounds)) in all.iter().enumerate() {
        for (other_set, other) in &all[position + 1..] {
            // Holes are circles: the distance of their centres says it.
            let apart = (bounds.center() - other.center()).hypot();
            let reach = (bounds.width() + other.width()) / 2.0;
            let pair = (*set, *other_set);
            if apart < reach - crate::measure::geometry_tolerance().get::<meter>() && known.insert(pair) {
                found.push(pair);
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Hand, Job};
    use crate::measure::Units;
    use crate::measure::exact::inches;
    use crate::working::WrittenLine;

    /// A top of 60 × 24 in, of quantities that nobody typed.
    fn inputs() -> TopInputs {
        let job = Job::new("a", Units::Inch);
        let shape = ShapeInputs::Rectangle { width: Ok(inches(60.0)), depth: Ok(inches(24.0)) };
        TopInputs { shape, ..TopInputs::read(&job, 0) }
    }

    fn cutout(size: CutoutSize, reveal: RevealInputs) -> CutoutInputs {
        let across = AcrossInputs::Left(Ok(inches(20.0)));
        CutoutInputs { size, reveal, across, along: AlongInputs::Front(Ok(inches(12.0))) }
    }

    fn lines(inputs: &TopInputs) -> Vec<WrittenLine> {
        Top::of(inputs).area.expect("all of it is known").working.lines(Units::Inch)
    }

    /// By hand: 60 × 24, less 16 × 12, less three circles of 1 3/8 across.
    #[test]
    fn the_area_is_told_part_by_part() {
        let mut inputs = inputs();
        let [width, depth] = [16.0, 12.0].map(|size| Ok(inches(size)));
        inputs.cutouts =
            vec![cutout(CutoutSize::Rectangle { width, depth, radius: Ok(inches(0.0)) }, RevealInputs::Flush)];
        let placed = HolesPlace::Bowl { cutout: Some(0), behind: Ok(inches(2.0)) };
        inputs.holes = vec![HolesInputs { diameter: Ok(inches(1.375)), spread: Some(Ok(inches(8.0))), placed }];
        let told = lines(&inputs);
        let formulas: Vec<_> = told.iter().map(|line| line.formula.as_str()).collect();
        assert_eq!(
            formulas,
            [
                "Outline = width × depth",
                "Cutout 1 = width × depth",
                "Holes 1 = 3 × π/4 × diameter × diameter",
                "outline − (cutout 1 + holes 1)",
            ]
        );
        assert_eq!(told[0].numbers, "60 in × 24 in");
        let area = Top::of(&inputs).area.expect("known").value;
        let by_hand = 60.0 * 24.0 - 16.0 * 12.0 - 3.0 * std::f64::consts::FRAC_PI_4 * 1.375 * 1.375;
        assert!(((area / (inches(1.0) * inches(1.0))).value - by_hand).abs() < 1e-9);
    }

    /// What a formula tells of a bowl comes to what the geometry found, or a debug build panics: on either side of its
    /// rim, with and without round corners, near the origin of the plane and far from it.
    #[test]
    fn every_shape_has_a_formula_of_its_own() {
        let [width, depth, radius] = [16.0, 12.0, 2.0].map(|size| Ok(inches(size)));
        let size = || (width.clone(), depth.clone(), radius.clone());
        let rectangle = || {
            let (width, depth, radius) = size();
            CutoutSize::Rectangle { width, depth, radius }
        };
        let ellipse = || CutoutSize::Ellipse { width: width.clone(), depth: depth.clone() };
        let d = CutoutSize::D { width: width.clone(), depth: depth.clone(), radius: radius.clone() };
        let reveal = || Ok(inches(0.25));
        let cases = [
            (rectangle(), RevealInputs::Flush, "width × depth − (4 − π) × radius × radius"),
            (rectangle(), RevealInputs::Shows(reveal()), "width × depth − (4 − π) × radius × radius"),
            (
                CutoutSize::Circle { diameter: depth.clone() },
                RevealInputs::Covers(reveal()),
                "π/4 × diameter × diameter",
            ),
            (ellipse(), RevealInputs::Flush, "π/4 × width of the bowl × depth of the bowl"),
            (
                ellipse(),
                RevealInputs::Shows(reveal()),
                "π/4 × width of the bowl × depth of the bowl + perimeter of the bowl × reveal + π × reveal × reveal",
            ),
            (
                ellipse(),
                RevealInputs::Covers(reveal()),
                "π/4 × width of the bowl × depth of the bowl − perimeter of the bowl × reveal + π × reveal × reveal",
            ),
            (d, RevealInputs::Flush, "its corners and arcs, as for the outline: width × depth over all"),
        ];
        for (size, reveal, formula) in cases {
            for from_left in [20.0, 60_000.0] {
                let mut inputs = inputs();
                inputs.shape = ShapeInputs::Rectangle { width: Ok(inches(60_030.0)), depth: Ok(inches(24.0)) };
                let mut bowl = cutout(size.clone(), reveal.clone());
                bowl.across = AcrossInputs::Left(Ok(inches(from_left)));
                inputs.cutouts = vec![bowl];
                assert_eq!(lines(&inputs)[1].formula, format!("Cutout 1 = {formula}"));
            }
        }
    }

    /// By hand: an L of 60 × 48 in, its leg 20 in wide, its front 24 in deep, is 60 × 24 + 20 × 24 in².
    #[test]
    fn an_outline_is_told_by_its_corners() {
        let [width, depth, leg, front_depth] = [60.0, 48.0, 20.0, 24.0].map(|size| Ok(inches(size)));
        let shape = ShapeInputs::L { width, depth, leg, front_depth, hand: Hand::Left };
        let inputs = TopInputs { shape, ..inputs() };
        let told = lines(&inputs);
        let [line] = told.as_slice() else { panic!("one line tells it: {told:?}") };
        assert_eq!(line.formula, "half the sum of x × next y − next x × y over the corners");
        assert!(
            line.numbers.contains("(0 in, 0 in), (60 in, 0 in), (60 in, 24 in), (20 in, 24 in)"),
            "{}",
            line.numbers
        );
        let area = Top::of(&inputs).area.expect("known").value;
        assert!(((area / (inches(1.0) * inches(1.0))).value - 1920.0).abs() < 1e-9);
    }

    /// A part that waits leaves the others standing.
    #[test]
    fn what_is_not_known_is_waited_for() {
        let place = FieldPath::Piece(0, PieceField::Depth);
        let shape = ShapeInputs::Rectangle { width: Ok(inches(60.0)), depth: Err(Waiting::named(place, "unknown.")) };
        let top = Top::of(&TopInputs { shape, thickness: Ok(inches(2.0)), ..inputs() });
        assert_eq!(top.thickness, Ok(inches(2.0)));
        let waits = top.area.expect_err("the depth is not known");
        assert_eq!(waits.needs().iter().map(|need| need.place).collect::<Vec<_>>(), [place]);
    }
}
