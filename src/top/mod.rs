//! The finished thing, as installed, seen from above.
//!
//! Plane coordinates are `f64` metres: x to the right from the left end, y to the back from the front
//! edge, so the front left corner of a rectangle is the origin.

mod advice;
pub mod limits;
pub mod moving;
mod openings;
mod outline;
mod seam;

pub(crate) use advice::advise;
pub use openings::center_on_doors;
pub use seam::{SeamPlan, SeamRun, Seaming};

use crate::job::read;
use crate::job::{CutoutShape, EdgeField, EdgeKind, FieldPath, Job, OutlineShape, Piece, PieceField, PieceKind};
use crate::measure::{Area, Length, Units, write_area, write_length};
use crate::plane::{self, EdgeTag, Opening, Outline, RailTo};
use crate::room::{Hiding, Reading, Survey, Walk, WaysIn};
use crate::working::{Figure, Known, Needs, Source, Waiting, Working, both};
use kurbo::{Point, Vec2};
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
    /// The geometry of the piece with that index; every part waits if the job has no such piece.
    pub fn of(job: &Job, piece: usize) -> Self {
        let empty = Piece::new("", "", job.units);
        let typed = job.pieces.get(piece).unwrap_or(&empty);
        let surveyed = (typed.shape == OutlineShape::Opening).then(|| outline::surveyed(job, piece, typed));
        let walked = (typed.shape == OutlineShape::Walked).then(|| outline::walked(job, piece, typed));
        let outline = outline::of(job, piece, typed, surveyed.as_ref(), walked.as_ref());
        let bounds = outline.as_ref().map(Outline::bounds).map_err(Clone::clone);
        let listed = || typed.cutouts.iter().enumerate();
        let bowls: Vec<_> =
            listed().map(|(index, cutout)| openings::bowl(job, piece, index, cutout, &bounds)).collect();
        let cutouts: Vec<_> = listed()
            .zip(&bowls)
            .map(|((index, cutout), bowl)| openings::hole(job, piece, index, cutout, bowl))
            .collect();
        let sets = typed.holes.iter().enumerate();
        let holes: Vec<_> = sets.map(|(index, set)| openings::holes(job, piece, index, set, &bowls, &bounds)).collect();
        let rails = outline.as_ref().map_or_else(|_| Vec::new(), |outline| rails(outline, &cutouts, &holes));
        let mut top = Self {
            thickness: read::positive_length(job, FieldPath::Piece(piece, PieceField::Thickness)),
            edges: (0..typed.sides()).map(|side| edge_profile(job, piece, side)).collect(),
            outline,
            surveyed: surveyed.map(|known| known.map(|(surveyed, _)| surveyed)),
            walked,
            bowls,
            cutouts,
            holes,
            // Worked out from the rest in the next line.
            area: Err(Waiting::at(FieldPath::Piece(piece, PieceField::Width), "")),
            rails,
        };
        top.area = top.area_left(job, piece);
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

    fn area_left(&self, job: &Job, piece: usize) -> Known<Figure<Area>> {
        let mut waiting = Needs::default();
        let typed = job.pieces.get(piece);
        let mut openings = Vec::new();
        for (index, cutout) in self.cutouts.iter().enumerate() {
            match cutout {
                Ok(shape) => {
                    let kind = typed.and_then(|typed| typed.cutouts.get(index)).map(|cutout| cutout.shape);
                    let kind = kind.unwrap_or_default();
                    openings.push((format!("cutout {}", index + 1), 1, kind, shape));
                }
                Err(other) => waiting.add(other.clone()),
            }
        }
        for (index, set) in self.holes.iter().enumerate() {
            match set {
                Ok(shapes) => {
                    let name = || format!("holes {}", index + 1);
                    openings.extend(shapes.first().map(|hole| (name(), shapes.len(), CutoutShape::Circle, hole)));
                }
                Err(other) => waiting.add(other.clone()),
            }
        }
        for (place, says) in advice::overruns(self, job, piece) {
            waiting.add(Waiting::at(place, says));
        }
        let (outline, ()) = both(self.outline.clone(), waiting.unless(()))?;

        let area = |square_metres: f64| Area::new::<square_meter>(square_metres);
        let full = area(outline.area());
        let taken: Area = openings.iter().map(|(_, count, _, shape)| area(*count as f64 * shape.area())).sum();
        let left = full - taken;
        let units = job.units;
        let (formula, numbers) = outline_working(&outline, job, piece);
        let mut working = Working::new("Area of the finished face").line(
            formula,
            numbers,
            write_area(full, units),
            Source::Arithmetic,
        );
        if !openings.is_empty() {
            for (name, count, kind, shape) in &openings {
                let (formula, numbers) = shape_working(*kind, shape, *count, units);
                let area = write_area(area(*count as f64 * shape.area()), units);
                working = working.line(format!("{name}: {formula}"), numbers, area, Source::Arithmetic);
            }
            working = working.line(
                "outline less cutouts and holes",
                format!("{} − {}", write_area(full, units), write_area(taken, units)),
                write_area(left, units),
                Source::Arithmetic,
            );
        }
        if left > Area::default() {
            Ok(working.of(left))
        } else {
            let place = FieldPath::Piece(piece, PieceField::Width);
            Err(Waiting::at(place, "The cutouts and holes leave nothing of the top."))
        }
    }
}

/// How the area of an outline is worked out by hand: the formula, and the numbers in it.
fn outline_working(outline: &Outline, job: &Job, piece: usize) -> (String, String) {
    let write = |metres: f64| write_length(Length::new::<meter>(metres), job.units);
    let (bounds, edges) = (outline.bounds(), outline.edges());
    let straight = edges.iter().all(plane::Edge::is_straight);
    let shape = job.pieces.get(piece).map(|piece| piece.shape);
    if shape == Some(OutlineShape::Rectangle) && straight && edges.len() == 4 {
        let numbers = format!("{} × {}", write(bounds.width()), write(bounds.height()));
        return ("width × depth".to_owned(), numbers);
    }
    let corners = |edge: &plane::Edge| format!("({}, {})", write(edge.start().x), write(edge.start().y));
    let formula = if straight {
        "half the sum of x × next y − next x × y over the corners"
    } else {
        "half the sum of x × next y − next x × y over the corners, and r² ÷ 2 × (sweep − sin sweep) for every arc"
    };
    (formula.to_owned(), edges.iter().map(corners).collect::<Vec<_>>().join(", "))
}

/// How the area of so many equal shapes of that kind is worked out by hand: the formula, and the numbers in
/// it.
fn shape_working(kind: CutoutShape, shape: &Opening, count: usize, units: Units) -> (String, String) {
    let write = |metres: f64| write_length(Length::new::<meter>(metres), units);
    let (across, back) = (shape.bounds().width(), shape.bounds().height());
    let (width, depth) = (write(across), write(back));
    let (formula, numbers) = match shape {
        Opening::Outline(outline) => {
            let radius = outline.edges().iter().find_map(plane::Edge::radius);
            match (kind, radius) {
                (CutoutShape::Circle, _) => ("π ÷ 4 × diameter²", format!("π ÷ 4 × ({width})²")),
                (CutoutShape::Rectangle, None) => ("width × depth", format!("{width} × {depth}")),
                (CutoutShape::Rectangle, Some(radius)) => {
                    let numbers = format!("{width} × {depth} − (4 − π) × ({})²", write(radius));
                    ("width × depth − (4 − π) × radius²", numbers)
                }
                _ => ("its corners and arcs, as for the outline", format!("{width} × {depth} over all")),
            }
        }
        Opening::Ellipse(ellipse) => {
            let beyond = ellipse.beyond();
            let own = |over_all: f64| write(over_all - 2.0 * beyond);
            let ellipse_numbers = format!("π ÷ 4 × {} × {}", own(across), own(back));
            // The curve beside an ellipse: its own perimeter is the ellipse's and a circle's.
            let round = write(shape.perimeter() - std::f64::consts::TAU * beyond);
            let reveal = write(beyond.abs());
            if beyond == 0.0 {
                ("π ÷ 4 × width × depth", ellipse_numbers)
            } else if beyond > 0.0 {
                let numbers = format!("{ellipse_numbers} + {round} × {reveal} + π × ({reveal})²");
                ("π ÷ 4 × width × depth of the bowl + its perimeter × reveal + π × reveal²", numbers)
            } else {
                let numbers = format!("{ellipse_numbers} − {round} × {reveal} + π × ({reveal})²");
                ("π ÷ 4 × width × depth of the bowl − its perimeter × reveal + π × reveal²", numbers)
            }
        }
    };
    if count == 1 {
        (formula.to_owned(), numbers)
    } else {
        (format!("{count} × ({formula})"), format!("{count} × ({numbers})"))
    }
}

fn edge_profile(job: &Job, piece: usize, side: usize) -> Known<EdgeProfile> {
    let kind = job.pieces.get(piece).map_or(EdgeKind::Plain, |piece| piece.edge(side).kind);
    let length = |field| read::length(job, FieldPath::Edge(piece, side, field));
    let mut profile = EdgeProfile { side, kind, liner: Length::default(), radius: Length::default() };
    match kind {
        EdgeKind::Lined => profile.liner = length(EdgeField::Liner)?,
        EdgeKind::Eased => profile.radius = length(EdgeField::Radius)?,
        EdgeKind::Wall | EdgeKind::Plain | EdgeKind::Backsplash => {}
    }
    Ok(profile)
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
