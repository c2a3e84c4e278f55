//! What the geometry of a piece tells the maker to watch.

use super::{Facing, Rail, RailEnd, Seaming, Top, holes_in_holes, seam};
use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, all, both, piece_prefix};
use crate::job::{
    CornerField, CutoutField, CutoutShape, EdgeField, EdgeKind, FieldPath, HolesField, HolesFrom, Job, Piece,
    PieceField, PieceKind, ReadingField, RecipeKind, TemplateField,
};
use crate::measure::exact::inches;
use crate::measure::{Length, Units};
use crate::plane::EdgeTag;
use crate::room::{self, Verdict, words};
use crate::top::limits;
use crate::working::{Known, Source};
use kurbo::{Point, Rect};
use std::collections::{HashMap, HashSet};
use uom::si::length::meter;

/// Findings about the piece with that index, in the order in which it is typed.
pub(crate) fn advise(top: &Top, seaming: &Known<Seaming>, job: &Job, piece: usize) -> Vec<Finding> {
    let mut findings = Vec::new();
    survey(top, job, piece, &mut findings);
    seam::advise(top, seaming, job, piece, &mut findings);
    size(top, job, piece, &mut findings);
    edges(top, job, piece, &mut findings);
    for (place, says) in overruns(top, job, piece) {
        findings.push(Finding {
            severity: Severity::Stop,
            stage: Stage::Measure,
            place,
            says: says.into(),
            remedy: "Check its size and its two centre lines.".into(),
            source: Source::Arithmetic,
        });
    }
    findings.extend(super::openings::advise_ledges(top, job, piece));
    corners(top, job, piece, &mut findings);
    rails(top, job, piece, &mut findings);
    findings
}

/// Everything that runs past the outline or into something else, with the place that says so.
pub(super) fn overruns(top: &Top, job: &Job, piece: usize) -> Vec<(FieldPath, String)> {
    let mut found: Vec<(FieldPath, String)> = Vec::new();
    let mut told = Told::default();
    let over = in_order(top).filter(|rail| rail.width < -crate::measure::geometry_tolerance());
    for rail in thinnest(top, over) {
        let place = rail_place(top, job, piece, rail);
        if !told.another(place) {
            continue;
        }
        let by = small_length(-rail.width, job.units);
        let name = end_name(top, job, piece, rail.from);
        let says = match rail.to {
            RailEnd::Edge(edge) => format!("{name} runs past the {} by {by}", edge_name(top, job, piece, edge)),
            to => format!("{name} runs into {} by {by}", end_name(top, job, piece, to).to_lowercase()),
        };
        found.push((place, format!("{}{says}.", piece_prefix(job, piece))));
    }
    for (set, other) in holes_in_holes(&top.holes) {
        let place = match set == other {
            true => FieldPath::Holes(piece, other, HolesField::Spread),
            false => holes_place(job, piece, other, false),
        };
        if !told.another(place) {
            continue;
        }
        let says = if set == other {
            format!("The holes of set {} run into each other", set + 1)
        } else {
            format!("Holes {} run into holes {}", set + 1, other + 1)
        };
        found.push((place, format!("{}{says}.", piece_prefix(job, piece))));
    }
    found
}

/// The rails in the order in which the job is typed; of one cutout, the thinnest first.
fn in_order(top: &Top) -> impl Iterator<Item = &Rail> {
    let mut rails: Vec<_> = top.rails.iter().collect();
    rails.sort_by_key(|rail| match rail.from {
        RailEnd::Edge(_) => (0, 0, 0),
        RailEnd::Cutout(index) => (1, index, 0),
        RailEnd::Hole(set, index) => (2, set, index),
    });
    rails.into_iter()
}

/// A length for a sentence; one that would be written as nothing is said to be small.
fn small_length(length: Length, units: Units) -> String {
    let (least, words) = match units {
        Units::Inch => (inches(1.0 / 32.0), "less than 1/32 in"),
        Units::Metric => (Length::new::<uom::si::length::millimeter>(0.5), "less than 1/2 mm"),
    };
    if length < least { words.to_owned() } else { say::length(length, units) }
}

/// Towards which side of the piece an edge of its outline looks.
fn look(top: &Top, edge: usize) -> Facing {
    let outline = top.outline.as_ref().ok();
    outline.and_then(|outline| outline.edges().get(edge)).map_or(Facing::Front, Facing::of)
}

/// On which side of what it lies beside a rail is. The inner edge of a corner top may look right and lie left.
fn lies(top: &Top, rail: &Rail) -> Facing {
    let (near, far) = rail.at;
    let towards = if rail.width < Length::default() { near - far } else { far - near };
    match rail.to {
        RailEnd::Edge(edge) if towards.hypot() < crate::measure::geometry_tolerance().get::<meter>() => look(top, edge),
        _ => Facing::towards(towards),
    }
}

/// The name of an edge of the outline: "front edge", "left / front corner".
fn edge_name(top: &Top, job: &Job, piece: usize, edge: usize) -> String {
    let tag = top.outline.as_ref().ok().and_then(|outline| Some(outline.edges().get(edge)?.tag()));
    let side = |side: u16| {
        let typed = job.pieces.get(piece);
        typed.map_or_else(String::new, |typed| typed.side_name(usize::from(side)).to_lowercase())
    };
    match tag {
        Some(EdgeTag::Side(number)) => format!("{} edge", side(number)),
        Some(EdgeTag::Corner(one, other) | EdgeTag::Clip(one, other) | EdgeTag::Step(one, other)) => {
            format!("{} / {} corner", side(one), side(other))
        }
        None => "edge".to_owned(),
    }
}

fn end_name(top: &Top, job: &Job, piece: usize, end: RailEnd) -> String {
    match end {
        RailEnd::Edge(edge) => format!("The {}", edge_name(top, job, piece, edge)),
        RailEnd::Cutout(index) => format!("Cutout {}", index + 1),
        RailEnd::Hole(set, index) => format!("Hole {} of set {}", index + 1, set + 1),
    }
}

/// The field that moves the thing a rail lies beside, across the rail.
fn rail_place(top: &Top, job: &Job, piece: usize, rail: &Rail) -> FieldPath {
    let across = matches!(rail.to, RailEnd::Edge(_)) && matches!(lies(top, rail), Facing::Front | Facing::Back);
    match (rail.from, rail.to) {
        (RailEnd::Hole(set, _), _) => holes_place(job, piece, set, across),
        // Of two cutouts, the one typed later is shown.
        (RailEnd::Cutout(_), RailEnd::Cutout(index)) => cutout_place(job, piece, index, false),
        (RailEnd::Cutout(index), _) => cutout_place(job, piece, index, across),
        (RailEnd::Edge(_), _) => FieldPath::Piece(piece, PieceField::Width),
    }
}

/// The field that moves a cutout front to back, or left to right.
fn cutout_place(job: &Job, piece: usize, index: usize, along: bool) -> FieldPath {
    let typed = job.pieces.get(piece).and_then(|piece| piece.cutouts.get(index));
    let field =
        typed.map_or(CutoutField::FromLeft, |cutout| if along { cutout.along_field() } else { cutout.across_field() });
    FieldPath::Cutout(piece, index, field)
}

/// The field that moves a set of holes front to back, or left to right; behind a bowl there is but one.
fn holes_place(job: &Job, piece: usize, set: usize, along: bool) -> FieldPath {
    let typed = job.pieces.get(piece).and_then(|piece| piece.holes.get(set));
    let field = match typed.map(|set| set.placed) {
        Some(HolesFrom::Bowl) => HolesField::Behind,
        _ if along => HolesField::FromFront,
        _ => HolesField::FromLeft,
    };
    FieldPath::Holes(piece, set, field)
}

/// Where a rail lies, in the maker's words.
fn rail_name(top: &Top, job: &Job, piece: usize, rail: &Rail) -> String {
    let name = |end| end_name(top, job, piece, end).to_lowercase();
    match (rail.from, rail.to) {
        (RailEnd::Cutout(one), RailEnd::Cutout(other)) => {
            format!("The rail between cutouts {} and {}", one + 1, other + 1)
        }
        (from, RailEnd::Edge(_)) => {
            let lies = match lies(top, rail) {
                Facing::Front => "in front of",
                Facing::Right => "right of",
                Facing::Back => "behind",
                Facing::Left => "left of",
            };
            format!("The rail {lies} {}", name(from))
        }
        (from, to) => format!("The rail between {} and {}", name(from), name(to)),
    }
}

impl Top {
    /// The rails beside a cutout, thinnest first, each with where it lies: "The rail in front of cutout 1".
    pub fn rails_beside(&self, job: &Job, piece: usize, cutout: usize) -> Vec<(String, Length)> {
        let cutout = RailEnd::Cutout(cutout);
        let beside = self.rails.iter().filter(|rail| rail.from == cutout || rail.to == cutout);
        let named = |rail: &Rail| (rail_name(self, job, piece, rail), rail.width);
        thinnest(self, beside).into_iter().map(named).collect()
    }
}

/// Only the thinnest of the rails that lie on the same side of the same thing: an edge and the rounded
/// corner beside it make one rail.
fn thinnest<'a>(top: &'a Top, rails: impl Iterator<Item = &'a Rail>) -> Vec<&'a Rail> {
    let mut known = HashSet::new();
    let fresh = |rail: &&Rail| {
        let to = match rail.to {
            RailEnd::Edge(_) => Err(lies(top, rail)),
            to => Ok(to),
        };
        known.insert((rail.from, to))
    };
    rails.filter(fresh).collect()
}

/// How often one field is told at most: cutouts that all lie in one place run into each other in pairs.
const MOST_TOLD: usize = 3;

/// Counts what is told of each field, and says when it is enough.
#[derive(Default)]
struct Told(HashMap<FieldPath, usize>);

impl Told {
    /// There is room for one more there.
    fn another(&mut self, place: FieldPath) -> bool {
        let told = self.0.entry(place).or_default();
        *told += 1;
        *told <= MOST_TOLD
    }
}

const UNTIL_THEN: &str = "Until then the corners are a guess: do not cut.";
const SNOOPING: Source =
    Source::Standard("least squares and the test of standardised residuals, as in surveying (Baarda's data snooping)");

/// What the readings of the opening say of each other.
fn survey(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let (Some(Ok(surveyed)), Some(typed)) = (&top.surveyed, job.pieces.get(piece)) else { return };
    let Ok(readings) = super::outline::readings(job, piece, typed) else { return };
    let (indices, readings): (Vec<usize>, Vec<room::Reading>) = readings.into_iter().unzip();
    let survey = &surveyed.survey;
    let mut tell = |at: usize, severity, says: String, remedy: &'static str, source| {
        let index = indices.get(at).copied().unwrap_or(0);
        let corner = typed.opening.readings.get(index).is_some_and(|reading| reading.of.is_corner());
        let field = if corner { ReadingField::Between } else { ReadingField::Length };
        findings.push(Finding {
            severity,
            stage: Stage::Measure,
            place: FieldPath::Reading(piece, index, field),
            says: format!("{}{says}", piece_prefix(job, piece)).into(),
            remedy: remedy.into(),
            source,
        });
    };
    let says = || words::agreement(survey, &readings, job.units);
    match &survey.verdict {
        Verdict::Unchecked => {}
        Verdict::Agrees => {
            if let Some((at, _)) = words::coarse(survey) {
                let remedy = "Take it again before the form is cut.";
                tell(at, Severity::Watch, says(), remedy, Source::Practice);
            }
            if let Some((at, says)) = words::unseen(survey, &readings, job.units) {
                let remedy = "A second reading of the same length shows its slips.";
                tell(at, Severity::Note, says, remedy, SNOOPING);
            }
        }
        Verdict::OneOf { readings, .. } => {
            tell(readings.first().copied().unwrap_or(0), Severity::Stop, says(), UNTIL_THEN, SNOOPING);
        }
        Verdict::Suspects { settle, .. } => tell(*settle, Severity::Stop, says(), UNTIL_THEN, SNOOPING),
    }
}

fn rails(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let kind = kind_of(job, piece);
    let (stop, watch) = if kind.is_strip() {
        (limits::strip_rail_stop(), limits::strip_rail_watch())
    } else {
        (limits::rail_stop(), limits::rail_watch())
    };
    let mut told = Told::default();
    // Rails that run past something are told already.
    for rail in thinnest(top, in_order(top).filter(|rail| rail.width >= -crate::measure::geometry_tolerance())) {
        let of_hole = matches!(rail.from, RailEnd::Hole(..));
        // An inch reading such as 2 1/2 in must not fail on the last bit of a sum.
        let under = |limit: Length| rail.width < limit - crate::measure::geometry_tolerance();
        let (severity, limit, why) = if of_hole && under(limits::hole_watch()) {
            (Severity::Watch, limits::hole_watch(), "it chips out")
        } else if !of_hole && under(stop) {
            (Severity::Stop, stop, "it breaks when the knockout is driven out or the top is lifted")
        } else if !of_hole && under(watch) {
            (Severity::Watch, watch, "it is where the top will crack first")
        } else {
            continue;
        };
        let place = rail_place(top, job, piece, rail);
        if !told.another(place) {
            continue;
        }
        let wide = if rail.width > crate::measure::geometry_tolerance() {
            format!("is {} wide", small_length(rail.width, job.units))
        } else {
            "has no width at all".to_owned()
        };
        let remedy = match (of_hole, severity) {
            (true, _) => "Move the hole, or drill it after the top has cured.",
            (false, Severity::Stop) => "Move the cutout, make it smaller, or make the top deeper or wider.",
            (false, _) => "Use a foam knockout, lay a bar along the rail, and carry the top on edge.",
        };
        findings.push(Finding {
            severity,
            stage: Stage::Measure,
            place,
            says: format!(
                "{}{} {wide}; under {} {why}.",
                piece_prefix(job, piece),
                rail_name(top, job, piece, rail),
                say::length(limit, job.units)
            )
            .into(),
            remedy: remedy.into(),
            source: Source::Practice,
        });
    }
}

fn kind_of(job: &Job, piece: usize) -> PieceKind {
    job.pieces.get(piece).map_or(PieceKind::Top, |piece| piece.kind)
}

fn corners(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let Some(typed) = job.pieces.get(piece) else { return };
    inside_corner(top, job, piece, typed, findings);
    for (index, (cutout, shape)) in typed.cutouts.iter().zip(&top.cutouts).enumerate() {
        let Ok(shape) = shape else { continue };
        // As cut: a reveal makes the corners of the bowl wider or narrower.
        let Some((radius, at)) = shape.least_inside_radius() else { continue };
        let place = match cutout.shape {
            CutoutShape::Rectangle | CutoutShape::D => FieldPath::Cutout(piece, index, CutoutField::CornerRadius),
            CutoutShape::Polygon => {
                FieldPath::Template(piece, index, corner_near(top, job, piece, index, at), TemplateField::Radius)
            }
            CutoutShape::Circle | CutoutShape::Ellipse => continue,
        };
        let radius = Length::new::<meter>(radius);
        if radius >= limits::corner_radius_watch() - crate::measure::geometry_tolerance() {
            continue;
        }
        let has = rounding(["have", "are"], radius, job);
        findings.push(Finding {
            severity: Severity::Watch,
            stage: Stage::Measure,
            place,
            says: format!(
                "{}The corners of cutout {} {has}; cracks start at corners under {}.",
                piece_prefix(job, piece),
                index + 1,
                say::length(limits::corner_radius_watch(), job.units),
            )
            .into(),
            remedy: "Round the corners of the knockout.".into(),
            source: Source::Practice,
        });
    }
}

/// How corners are rounded: "have a radius of 1/4 in", "is sharp".
fn rounding([has, is]: [&str; 2], radius: Length, job: &Job) -> String {
    if radius > Length::default() {
        format!("{has} a radius of {}", small_length(radius, job.units))
    } else {
        format!("{is} sharp")
    }
}

/// An inside corner of the outline, as of an L, starts a crack like the corner of a cutout.
fn inside_corner(top: &Top, job: &Job, piece: usize, typed: &Piece, findings: &mut Vec<Finding>) {
    let Ok(outline) = &top.outline else { return };
    let Some((radius, at)) = outline.least_inside_radius() else { return };
    let radius = Length::new::<meter>(radius);
    if radius >= limits::corner_radius_watch() - crate::measure::geometry_tolerance() {
        return;
    }
    // The corner is that of the edge that begins nearest to it, or of the arc that rounds it.
    let edges = outline.edges().iter();
    let side = edges.min_by(|one, other| (one.start() - at).hypot().total_cmp(&(other.start() - at).hypot())).map_or(
        0,
        |edge| match edge.tag() {
            EdgeTag::Side(side) => usize::from(side),
            EdgeTag::Corner(_, side) | EdgeTag::Clip(_, side) | EdgeTag::Step(_, side) => usize::from(side),
        },
    );
    let has = rounding(["has", "is"], radius, job);
    findings.push(Finding {
        severity: Severity::Watch,
        stage: Stage::Measure,
        place: FieldPath::Corner(piece, side, CornerField::Radius),
        says: format!(
            "{}The {} {has}; cracks start at inside corners under {}.",
            piece_prefix(job, piece),
            typed.corner_name(side).to_lowercase(),
            say::length(limits::corner_radius_watch(), job.units),
        )
        .into(),
        remedy: "Round it, or put a seam there.".into(),
        source: Source::Practice,
    });
}

/// The corner of a cutout's template that is nearest to a point of the piece.
fn corner_near(top: &Top, job: &Job, piece: usize, cutout: usize, at: Point) -> usize {
    let typed = job.pieces.get(piece).and_then(|piece| piece.cutouts.get(cutout));
    let Some((typed, center)) = typed.zip(top.cutout_center(cutout)) else { return 0 };
    let corner = |corner: usize| {
        let length =
            |field| read::length(job, FieldPath::Template(piece, cutout, corner, field)).map(|it| it.get::<meter>());
        both(length(TemplateField::FromLeft), length(TemplateField::FromFront)).map(Point::from)
    };
    let Ok(corners) = all((0..typed.template.len()).map(corner)) else { return 0 };
    let middle = corners
        .iter()
        .skip(1)
        .fold(corners.first().map_or(Rect::ZERO, |first| Rect::from_points(*first, *first)), |all, corner| {
            all.union_pt(*corner)
        });
    let moved = center - middle.center();
    let far = |corner: &Point| (*corner + moved - at).hypot2();
    let nearest = corners.iter().enumerate().min_by(|one, other| far(one.1).total_cmp(&far(other.1)));
    nearest.map_or(0, |(corner, _)| corner)
}

fn edges(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let units = job.units;
    for profile in top.edges.iter().filter_map(|edge| edge.as_ref().ok()) {
        let side = job.pieces.get(piece).map_or_else(String::new, |typed| typed.side_name(profile.side));
        let name = format!("{}{side} edge", piece_prefix(job, piece));
        if profile.kind == EdgeKind::Lined && profile.liner > limits::liner_most() {
            findings.push(Finding {
                severity: Severity::Watch,
                stage: Stage::Measure,
                place: FieldPath::Edge(piece, profile.side, EdgeField::Liner),
                says: format!(
                    "{name}: a liner {} thick is more than the usual {} at most.",
                    say::length(profile.liner, units),
                    say::length(limits::liner_most(), units)
                )
                .into(),
                remedy: "Measure the liner again: its mean thickness, not its height.".into(),
                source: Source::Practice,
            });
        }
        if profile.kind == EdgeKind::Lined && profile.liner == Length::default() {
            findings.push(Finding {
                severity: Severity::Watch,
                stage: Stage::Measure,
                place: FieldPath::Edge(piece, profile.side, EdgeField::Liner),
                says: format!("{name}: a liner with no thickness adds nothing to the form.").into(),
                remedy: "Type the mean thickness of the liner, or choose a plain edge.".into(),
                source: Source::Arithmetic,
            });
        }
        let Ok(thickness) = &top.thickness else { continue };
        if profile.kind == EdgeKind::Eased && profile.radius > *thickness + crate::measure::geometry_tolerance() {
            findings.push(Finding {
                severity: Severity::Stop,
                stage: Stage::Measure,
                place: FieldPath::Edge(piece, profile.side, EdgeField::Radius),
                says: format!(
                    "{name}: an eased radius of {} does not fit a top {} thick.",
                    say::length(profile.radius, units),
                    say::length(*thickness, units)
                )
                .into(),
                remedy: "Choose a radius no larger than the thickness.".into(),
                source: Source::Arithmetic,
            });
        }
    }
}

/// It is cast from a mix from scratch with glass fibre.
fn is_glass_fibre(job: &Job, piece: usize) -> bool {
    let bag = job.pieces.get(piece).and_then(|piece| job.bag(&piece.bag));
    let recipe = bag.and_then(|(_, bag)| bag.recipe.as_ref());
    recipe.is_some_and(|recipe| recipe.kind == RecipeKind::GlassFibre)
}

fn size(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let (units, prefix) = (job.units, piece_prefix(job, piece));
    let kind = kind_of(job, piece);
    let name = kind.label().to_lowercase();
    let glass_fibre = is_glass_fibre(job, piece);
    let (least, thinnest) = match (kind.is_strip(), glass_fibre) {
        (true, _) => (limits::strip_least(), limits::strip_thickness_least()),
        (false, true) => (limits::piece_least(), limits::glass_fibre_thickness_least()),
        (false, false) => (limits::piece_least(), limits::thickness_least()),
    };
    let mut add = |severity, field, says: String, remedy: &'static str| {
        findings.push(Finding {
            severity,
            stage: Stage::Measure,
            place: FieldPath::Piece(piece, field),
            says: format!("{prefix}{says}").into(),
            remedy: remedy.into(),
            source: Source::Practice,
        });
    };
    if let Ok(outline) = &top.outline {
        let bounds = outline.bounds();
        for (field, length) in [(PieceField::Width, bounds.width()), (PieceField::Depth, bounds.height())] {
            let length = Length::new::<meter>(length);
            let written = say::length(length, units);
            if length < least {
                let says = format!(
                    "{} {written} is small for a {name}; under {} it is more likely a slip.",
                    field.label(),
                    say::length(least, units)
                );
                add(Severity::Watch, field, says, "Check the reading and its unit.");
            }
        }
    }
    let Ok(thickness) = top.thickness else { return };
    let written = say::length(thickness, units);
    if thickness > limits::thickness_stop() {
        let says = format!(
            "Thickness {written} cannot be right for a {name}; over {} it is a wall.",
            say::length(limits::thickness_stop(), units)
        );
        add(Severity::Stop, PieceField::Thickness, says, "Check the reading and its unit.");
    } else if thickness > limits::thickness_most() + crate::measure::geometry_tolerance() {
        let says = format!(
            "Thickness {written} is more than the usual {} at most, and heavy.",
            say::length(limits::thickness_most(), units)
        );
        add(
            Severity::Watch,
            PieceField::Thickness,
            says,
            if kind == PieceKind::Top {
                "Cast it thinner with a dropped edge, or plan the lift."
            } else {
                "Cast it thinner, or plan the lift."
            },
        );
    } else if thickness < thinnest - crate::measure::geometry_tolerance() {
        let says = format!(
            "Thickness {written} is less than the usual {} at least, and cracks easily.",
            say::length(thinnest, units)
        );
        // A mix with glass fibre is the one made for thin sections.
        let remedy =
            if glass_fibre { "Cast it thicker." } else { "Cast it thicker, or use a mix made for thin sections." };
        add(Severity::Watch, PieceField::Thickness, says, remedy);
    }
}
