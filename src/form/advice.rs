//! What to know about a form.

use super::{Bending, Form, Made, Part, clear_outline};
use crate::finding::{Finding, Stage, Strength, say};
use crate::job::read::{self, all};
use crate::job::{FormField, Job, Piece, PieceField, Place};
use crate::limits;
use crate::measure::write_angle;
use crate::top::Top;
use crate::working::Source;

/// Findings about the form of the piece with that index.
pub(crate) fn advise(top: &Top, job: &Job, piece: usize) -> Vec<Finding> {
    let mut findings = Vec::new();
    if let (Ok(outline), Ok(edges)) = (&top.outline, all(top.edges.iter().cloned()))
        && let Err(waiting) = clear_outline(outline, &edges, job, piece)
    {
        findings.extend(waiting.needs.into_iter().map(|need| Finding {
            strength: Strength::Stop,
            stage: Stage::Build,
            place: need.place,
            says: need.says,
            remedy: "Use a thinner liner there, or a larger radius.".to_owned(),
            source: Source::Arithmetic,
        }));
    }
    let place = Place::Piece(piece, PieceField::Grinding);
    if let Ok(Some(grinding)) = read::optional(job, place, read::length)
        && grinding > limits::grinding_most() + limits::geometry_tolerance()
    {
        findings.push(Finding {
            strength: Strength::Watch,
            stage: Stage::Build,
            place,
            says: format!(
                "{}Grinding off {} is more than full exposure takes; {} is the usual most.",
                read::piece_prefix(job, piece),
                say::length(grinding, job.units),
                say::length(limits::grinding_most(), job.units)
            ),
            remedy: "Check the reading: what is ground off makes the cast thicker and the order larger.".to_owned(),
            source: Source::Practice,
        });
    }
    if let Ok(form) = Form::of(top, job, piece)
        && let Ok(parts) = &form.parts
        && let Some(typed) = job.pieces.get(piece)
    {
        findings.extend(in_the_way(&form, parts, job, piece, typed));
        findings.extend(parts.iter().flat_map(|part| part_findings(&form, part, job, piece, typed)));
    }
    findings
}

/// Sides that stand in each other's way.
fn in_the_way(form: &Form, parts: &[Part], job: &Job, piece: usize, typed: &Piece) -> Vec<Finding> {
    let name = |index: usize| {
        parts.get(index).map_or_else(String::new, |part| format!("{} ({})", part.name(&form.clear, typed), part.mark))
    };
    let prefix = read::piece_prefix(job, piece);
    let says = |clash: super::Clash| match clash.other {
        Some(other) => {
            let (one, other) = (name(clash.part), name(other));
            format!(
                "{prefix}{one} and {other} stand in each other's way: boards {} thick have no room there.",
                say::length(form.board, job.units)
            )
        }
        None => format!("{prefix}{} has no room between its neighbours.", name(clash.part)),
    };
    form.clashes()
        .into_iter()
        .map(|clash| Finding {
            strength: Strength::Watch,
            stage: Stage::Build,
            place: Place::Form(FormField::Board),
            says: says(clash),
            remedy: "Fill that place with one block, cut to both faces, or use a thinner board.".to_owned(),
            source: Source::Arithmetic,
        })
        .collect()
}

/// Cuts that a saw does not reach, and strips that do not bend.
fn part_findings(form: &Form, part: &Part, job: &Job, piece: usize, typed: &Piece) -> Vec<Finding> {
    let watch = |field, says: String, remedy: &str| Finding {
        strength: Strength::Watch,
        stage: Stage::Build,
        place: Place::Form(field),
        says,
        remedy: remedy.to_owned(),
        source: Source::Practice,
    };
    let called = format!("{}{} ({})", read::piece_prefix(job, piece), part.name(&form.clear, typed), part.mark);
    let saws = part.ends().into_iter().flatten().filter_map(|end| end.cut.saw());
    let steepest = saws.reduce(|one, other| if other > one { other } else { one });
    let mut findings = Vec::new();
    if let Some(saw) = steepest.filter(|saw| *saw > limits::saw_tilt_most()) {
        let (saw, most) = (write_angle(saw).text, write_angle(limits::saw_tilt_most()).text);
        let says = format!("{called} is cut with the saw at {saw}; saws tilt to about {most}.");
        findings.push(watch(FormField::Board, says, "Cut that end with the board held upright against a jig."));
    }
    if let Made::Strip(strip) = &part.made
        && strip.bending == Bending::TooStiff
    {
        let (radius, thick) = (say::length(strip.arc.radius, job.units), say::length(part.thickness, job.units));
        let says = format!("{called} does not bend to {radius}: {thick} leaves no depth for a kerf.");
        findings.push(watch(FormField::Strip, says, "Use a strip that bends to it by itself, or cut layers."));
    }
    findings
}

/// Findings about the form choices of the whole job.
pub(crate) fn advise_job(job: &Job) -> Vec<Finding> {
    let place = Place::Form(FormField::Board);
    let Ok(board) = read::positive_length(job, place) else { return Vec::new() };
    if board <= limits::board_most() {
        return Vec::new();
    }
    vec![Finding {
        strength: Strength::Watch,
        stage: Stage::Build,
        place,
        says: format!(
            "A board {} thick is more than forms are made of; {} is the usual most.",
            say::length(board, job.units),
            say::length(limits::board_most(), job.units)
        ),
        remedy: "Measure the board again.".to_owned(),
        source: Source::Practice,
    }]
}
