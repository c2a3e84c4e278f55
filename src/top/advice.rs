//! What the geometry of a piece tells the maker to watch.

use super::{Rail, RailEnd, Top, holes_in_holes};
use crate::finding::{Finding, Stage, Strength, say};
use crate::job::read::{self, piece_prefix};
use crate::job::{CutoutField, CutoutShape, EdgeField, EdgeKind, HolesField, Job, PieceField, Place, Side};
use crate::limits;
use crate::measure::exact::inches;
use crate::measure::{Length, Units};
use crate::working::Source;

/// Findings about the piece with that index, in the order in which it is typed.
pub(crate) fn advise(top: &Top, job: &Job, piece: usize) -> Vec<Finding> {
    let mut findings = Vec::new();
    size(top, job, piece, &mut findings);
    edges(top, job, piece, &mut findings);
    for (place, says) in overruns(top, job, piece) {
        findings.push(Finding {
            strength: Strength::Stop,
            stage: Stage::Measure,
            place,
            says,
            remedy: "Check its size and its two centre lines.".to_owned(),
            source: Source::Arithmetic,
        });
    }
    corners(top, job, piece, &mut findings);
    rails(top, job, piece, &mut findings);
    findings
}

/// Everything that runs past the outline or into something else, with the place that says so.
pub(super) fn overruns(top: &Top, job: &Job, piece: usize) -> Vec<(Place, String)> {
    let mut found: Vec<(Place, String)> = Vec::new();
    for rail in in_order(top).filter(|rail| rail.width < -limits::geometry_tolerance()) {
        let by = small_length(-rail.width, job.units);
        let name = end_name(rail.from);
        let says = match rail.to {
            RailEnd::Edge(side) => format!("{name} runs past the {} edge by {by}", side_word(side)),
            to => format!("{name} runs into {} by {by}", end_name(to).to_lowercase()),
        };
        found.push((rail_place(piece, rail), format!("{}{says}.", piece_prefix(job, piece))));
    }
    for (set, other) in holes_in_holes(&top.holes) {
        let says = if set == other {
            format!("The holes of set {} run into each other", set + 1)
        } else {
            format!("Holes {} run into holes {}", set + 1, other + 1)
        };
        let field = if set == other { HolesField::Spread } else { HolesField::FromLeft };
        found.push((Place::Holes(piece, other, field), format!("{}{says}.", piece_prefix(job, piece))));
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

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Front => "front",
        Side::Right => "right",
        Side::Back => "back",
        Side::Left => "left",
    }
}

fn end_name(end: RailEnd) -> String {
    match end {
        RailEnd::Edge(side) => format!("The {} edge", side_word(side)),
        RailEnd::Cutout(index) => format!("Cutout {}", index + 1),
        RailEnd::Hole(set, index) => format!("Hole {} of set {}", index + 1, set + 1),
    }
}

/// The field that moves the thing a rail lies beside, across the rail.
fn rail_place(piece: usize, rail: &Rail) -> Place {
    let across = matches!(rail.to, RailEnd::Edge(Side::Front | Side::Back));
    match (rail.from, rail.to) {
        (RailEnd::Hole(set, _), _) => {
            Place::Holes(piece, set, if across { HolesField::FromFront } else { HolesField::FromLeft })
        }
        // Of two cutouts, the one typed later is shown.
        (RailEnd::Cutout(_), RailEnd::Cutout(index)) => Place::Cutout(piece, index, CutoutField::FromLeft),
        (RailEnd::Cutout(index), _) => {
            Place::Cutout(piece, index, if across { CutoutField::FromFront } else { CutoutField::FromLeft })
        }
        (RailEnd::Edge(side), _) => Place::Edge(piece, side, EdgeField::Liner),
    }
}

/// Where a rail lies, in the maker's words.
fn rail_name(rail: &Rail) -> String {
    match (rail.from, rail.to) {
        (RailEnd::Cutout(one), RailEnd::Cutout(other)) => {
            format!("The rail between cutouts {} and {}", one + 1, other + 1)
        }
        (from, RailEnd::Edge(side)) => {
            let lies = match side {
                Side::Front => "in front of",
                Side::Right => "right of",
                Side::Back => "behind",
                Side::Left => "left of",
            };
            format!("The rail {lies} {}", end_name(from).to_lowercase())
        }
        (from, to) => format!("The rail between {} and {}", end_name(from).to_lowercase(), end_name(to).to_lowercase()),
    }
}

fn rails(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    // Rails that run past something are told already.
    for rail in in_order(top).filter(|rail| rail.width >= -limits::geometry_tolerance()) {
        let of_hole = matches!(rail.from, RailEnd::Hole(..));
        // An inch reading such as 2 1/2 in must not fail on the last bit of a sum.
        let under = |limit: Length| rail.width < limit - limits::geometry_tolerance();
        let (strength, limit, why) = if of_hole && under(limits::hole_watch()) {
            (Strength::Watch, limits::hole_watch(), "it chips out")
        } else if !of_hole && under(limits::rail_stop()) {
            (Strength::Stop, limits::rail_stop(), "it breaks when the knockout is driven out or the top is lifted")
        } else if !of_hole && under(limits::rail_watch()) {
            (Strength::Watch, limits::rail_watch(), "it is where the top will crack first")
        } else {
            continue;
        };
        let wide = if rail.width > limits::geometry_tolerance() {
            format!("is {} wide", small_length(rail.width, job.units))
        } else {
            "has no width at all".to_owned()
        };
        let remedy = match (of_hole, strength) {
            (true, _) => "Move the hole, or drill it after the top has cured.",
            (false, Strength::Stop) => "Move the cutout, make it smaller, or make the top deeper or wider.",
            (false, _) => "Use a foam knockout, lay a bar along the rail, and carry the top on edge.",
        };
        findings.push(Finding {
            strength,
            stage: Stage::Measure,
            place: rail_place(piece, rail),
            says: format!(
                "{}{} {wide}; under {} {why}.",
                piece_prefix(job, piece),
                rail_name(rail),
                say::length(limit, job.units)
            ),
            remedy: remedy.to_owned(),
            source: Source::Practice,
        });
    }
}

fn corners(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let Some(typed) = job.pieces.get(piece) else { return };
    for (index, (cutout, shape)) in typed.cutouts.iter().zip(&top.cutouts).enumerate() {
        let (CutoutShape::Rectangle, Ok(_)) = (cutout.shape, shape) else { continue };
        let place = Place::Cutout(piece, index, CutoutField::CornerRadius);
        let Ok(radius) = read::optional(job, place, read::length) else { continue };
        let radius = radius.unwrap_or_default();
        if radius >= limits::corner_radius_watch() - limits::geometry_tolerance() {
            continue;
        }
        let has = if radius > Length::default() {
            format!("have a radius of {}", small_length(radius, job.units))
        } else {
            "are sharp".to_owned()
        };
        findings.push(Finding {
            strength: Strength::Watch,
            stage: Stage::Measure,
            place,
            says: format!(
                "{}The corners of cutout {} {has}; cracks start at corners under {}.",
                piece_prefix(job, piece),
                index + 1,
                say::length(limits::corner_radius_watch(), job.units),
            ),
            remedy: "Round the corners of the knockout.".to_owned(),
            source: Source::Practice,
        });
    }
}

fn edges(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let units = job.units;
    for profile in top.edges.iter().filter_map(|edge| edge.as_ref().ok()) {
        let name = format!("{}{} edge", piece_prefix(job, piece), profile.side.label());
        if profile.kind == EdgeKind::Lined && profile.liner > limits::liner_most() {
            findings.push(Finding {
                strength: Strength::Watch,
                stage: Stage::Measure,
                place: Place::Edge(piece, profile.side, EdgeField::Liner),
                says: format!(
                    "{name}: a liner {} thick is more than the usual {} at most.",
                    say::length(profile.liner, units),
                    say::length(limits::liner_most(), units)
                ),
                remedy: "Measure the liner again: its mean thickness, not its height.".to_owned(),
                source: Source::Practice,
            });
        }
        if profile.kind == EdgeKind::Lined && profile.liner == Length::default() {
            findings.push(Finding {
                strength: Strength::Watch,
                stage: Stage::Measure,
                place: Place::Edge(piece, profile.side, EdgeField::Liner),
                says: format!("{name}: a liner with no thickness adds nothing to the form."),
                remedy: "Type the mean thickness of the liner, or choose a plain edge.".to_owned(),
                source: Source::Arithmetic,
            });
        }
        let Ok(thickness) = &top.thickness else { continue };
        if profile.kind == EdgeKind::Eased && profile.radius > *thickness + limits::geometry_tolerance() {
            findings.push(Finding {
                strength: Strength::Stop,
                stage: Stage::Measure,
                place: Place::Edge(piece, profile.side, EdgeField::Radius),
                says: format!(
                    "{name}: an eased radius of {} does not fit a top {} thick.",
                    say::length(profile.radius, units),
                    say::length(*thickness, units)
                ),
                remedy: "Choose a radius no larger than the thickness.".to_owned(),
                source: Source::Arithmetic,
            });
        }
    }
}

fn size(top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let (units, prefix) = (job.units, piece_prefix(job, piece));
    let mut add = |strength, field, says: String, remedy: &str| {
        findings.push(Finding {
            strength,
            stage: Stage::Measure,
            place: Place::Piece(piece, field),
            says: format!("{prefix}{says}"),
            remedy: remedy.to_owned(),
            source: Source::Practice,
        });
    };
    if let Ok(outline) = &top.outline {
        for (field, length) in [(PieceField::Width, outline.width), (PieceField::Depth, outline.depth)] {
            let written = say::length(length, units);
            if length > limits::piece_longest() + limits::geometry_tolerance() {
                let says = format!(
                    "{} {written} is long for one piece; over {} it is hard to turn and to carry.",
                    field.label(),
                    say::length(limits::piece_longest(), units)
                );
                add(Strength::Watch, field, says, "Split it into pieces with a seam, away from any sink.");
            }
            if length < limits::piece_least() {
                let says = format!(
                    "{} {written} is small for a top; under {} it is more likely a slip.",
                    field.label(),
                    say::length(limits::piece_least(), units)
                );
                add(Strength::Watch, field, says, "Check the reading and its unit.");
            }
        }
    }
    let Ok(thickness) = top.thickness else { return };
    let written = say::length(thickness, units);
    if thickness > limits::thickness_stop() {
        let says = format!(
            "Thickness {written} cannot be right for a top; over {} it is a wall.",
            say::length(limits::thickness_stop(), units)
        );
        add(Strength::Stop, PieceField::Thickness, says, "Check the reading and its unit.");
    } else if thickness > limits::thickness_most() + limits::geometry_tolerance() {
        let says = format!(
            "Thickness {written} is more than the usual {} at most, and heavy.",
            say::length(limits::thickness_most(), units)
        );
        add(Strength::Watch, PieceField::Thickness, says, "Cast it thinner with a dropped edge, or plan the lift.");
    } else if thickness < limits::thickness_least() - limits::geometry_tolerance() {
        let says = format!(
            "Thickness {written} is less than the usual {} at least, and cracks easily.",
            say::length(limits::thickness_least(), units)
        );
        add(Strength::Watch, PieceField::Thickness, says, "Cast it thicker, or use a mix made for thin sections.");
    }
}
