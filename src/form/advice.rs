//! What to know about a form.

use super::part::edge_name;
use super::sag::bow_quantity;
use super::{
    Bending, BoardInputs, Build, BuildInputs, Built, Form, FormInputs, Level, Liner, LinerInputs, Made, Part, Screws,
    SpacingLimit, TiltInputs, clear_outline,
};
use crate::finding::{Finding, Severity, Stage};
use crate::form::limits;
use crate::job::{EdgeKind, FieldPath, FormField, Job, Piece, PieceField};
use crate::label;
use crate::measure::{Length, Quantity};
use crate::top::Top;
use crate::working::{Known, Label, Name, Source, Word, about, all, known_ref};

/// Findings about the form of the piece with that index.
pub(crate) fn advise(top: &Top, form: &Known<Form>, inputs: &FormInputs, job: &Job) -> Vec<Finding> {
    let piece = inputs.piece;
    let mut findings = Vec::new();
    if let (Ok(outline), Ok(edges)) = (&top.outline, all(top.edges.iter().map(known_ref)))
        && let Err(waiting) = clear_outline(outline, &edges, inputs)
    {
        findings.extend(waiting.needs().iter().map(|need| Finding {
            severity: Severity::Stop,
            stage: Stage::Build,
            place: need.place,
            says: need.sentence(),
            remedy: "Use a thinner liner there, or a larger radius.".into(),
            source: Source::Arithmetic,
        }));
    }
    let place = FieldPath::Piece(piece, PieceField::Grinding);
    if let Ok(grinding) = inputs.grinding
        && grinding > limits::grinding_most() + crate::measure::geometry_tolerance()
    {
        findings.push(Finding {
            severity: Severity::Watch,
            stage: Stage::Build,
            place,
            says: label!(
                "{}Grinding off {} is more than full exposure takes; {} is the usual most.",
                Name::PieceInFront(piece),
                about(grinding),
                about(limits::grinding_most())
            ),
            remedy: "Check the reading: what is ground off makes the cast thicker and the order larger.".into(),
            source: Source::Practice,
        });
    }
    if let Ok(form) = form
        && let Ok(parts) = &form.parts
        && let Some(typed) = job.pieces.get(piece)
    {
        findings.extend(in_the_way(form, parts, piece, typed));
        findings.extend(parts.iter().flat_map(|part| part_findings(form, part, piece, typed)));
    }
    findings
}

/// Sides that stand in each other's way.
fn in_the_way(form: &Form, parts: &[Part], piece: usize, typed: &Piece) -> Vec<Finding> {
    let name = |index: usize| {
        parts.get(index).map_or_else(String::new, |part| format!("{} ({})", part.name(&form.clear, typed), &part.mark))
    };
    let prefix = Name::PieceInFront(piece);
    let says = |clash: super::Clash| match clash.other {
        Some(other) => {
            let (one, other) = (name(clash.part), name(other));
            label!(
                "{}{} and {} stand in each other's way: boards {} thick have no room there.",
                prefix,
                one,
                other,
                about(form.board)
            )
        }
        None => label!("{}{} has no room between its neighbours.", prefix, name(clash.part)),
    };
    form.clashes()
        .into_iter()
        .map(|clash| Finding {
            severity: Severity::Watch,
            stage: Stage::Build,
            place: FieldPath::Form(FormField::Board),
            says: says(clash),
            remedy: "Fill that place with one block, cut to both faces, or use a thinner board.".into(),
            source: Source::Arithmetic,
        })
        .collect()
}

/// Cuts that a saw does not reach, and strips that do not bend.
fn part_findings(form: &Form, part: &Part, piece: usize, typed: &Piece) -> Vec<Finding> {
    let called = label!("{}{} ({})", Name::PieceInFront(piece), part.name(&form.clear, typed), &part.mark);
    let saws = part.ends().into_iter().flatten().filter_map(|end| end.cut.saw());
    let steepest = saws.reduce(|one, other| if other > one { other } else { one });
    let mut findings = Vec::new();
    if let Some(saw) = steepest.filter(|saw| *saw > limits::saw_tilt_most()) {
        let says = label!(
            "{} is cut with the saw at {}; saws tilt to about {}.",
            called.clone(),
            saw,
            limits::saw_tilt_most()
        );
        findings.push(watch(FormField::Board, says, "Cut that end with the board held upright against a jig."));
    }
    if let Made::Strip(strip) = &part.made
        && strip.bending == Bending::TooStiff
    {
        let (radius, thick) = (about(strip.arc.radius), about(part.thickness));
        let says = label!("{} does not bend to {}: {} leaves no depth for a kerf.", called, radius, thick);
        findings.push(watch(FormField::Strip, says, "Use a strip that bends to it by itself, or cut layers."));
    }
    findings
}

/// Findings about the form choices of the whole job.
pub(crate) fn advise_job(boards: &BoardInputs) -> Vec<Finding> {
    let place = FieldPath::Form(FormField::Board);
    let Ok(board) = boards.board else { return Vec::new() };
    if board <= limits::board_most() {
        return Vec::new();
    }
    vec![Finding {
        severity: Severity::Watch,
        stage: Stage::Build,
        place,
        says: label!(
            "A board {} thick is more than forms are made of; {} is the usual most.",
            about(board),
            about(limits::board_most())
        ),
        remedy: "Measure the board again.".into(),
        source: Source::Practice,
    }]
}

/// Findings about what the forms of the whole job take.
pub(super) fn advise_build(build: &Build, pieces: &[Built], inputs: &BuildInputs, job: &Job) -> Vec<Finding> {
    let mut findings = Vec::new();
    if let Some(Ok(liner)) = &build.liner {
        findings.extend(liner_findings(liner, pieces, &inputs.liner, job));
        let height = inputs.liner.height.as_ref().ok().copied().flatten();
        let pieces = pieces.iter().enumerate();
        findings.extend(pieces.filter_map(|(piece, built)| liner_height(built, height?, piece)));
    }
    if let Ok(screws) = &build.screws {
        findings.extend(screws_too_far(screws));
    }
    findings.extend(bows(build, inputs));
    for ((piece, built), level) in pieces.iter().enumerate().zip(&build.levels) {
        if let (Ok(Some(level)), Ok(form)) = (level, built.form) {
            findings.extend(out_of_level(level, form, &inputs.tilt, piece));
        }
    }
    findings
}

fn watch(field: FormField, says: Label, remedy: impl Into<Label>) -> Finding {
    Finding {
        severity: Severity::Watch,
        stage: Stage::Build,
        place: FieldPath::Form(field),
        says,
        remedy: remedy.into(),
        source: Source::Practice,
    }
}

fn liner_findings(liner: &Liner, pieces: &[Built], inputs: &LinerInputs, job: &Job) -> Vec<Finding> {
    let named = |piece: usize, edge: usize| {
        let form = pieces.get(piece).and_then(|built| built.form.as_ref().ok());
        let name = form.zip(job.pieces.get(piece)).map(|(form, typed)| edge_name(&form.clear, edge, typed));
        label!("{}{}", Name::PieceInFront(piece), name.unwrap_or_default())
    };
    let bend = inputs.bend.as_ref().copied().unwrap_or_default();
    let mut findings: Vec<_> = liner
        .tight
        .iter()
        .map(|tight| {
            let (radius, bend) = (about(tight.radius), about(bend));
            let says = label!(
                "{}: a radius of {} is tighter than the liner bends to, {}.",
                named(tight.piece, tight.edge),
                radius,
                bend
            );
            watch(FormField::LinerBend, says, "Let two lengths meet there, or make the radius larger.")
        })
        .collect();
    for run in liner.runs.iter().filter(|run| !run.joints_clear) {
        let off = about(limits::liner_joint_clear());
        let first = run.edges.first().copied().unwrap_or_default();
        let says = label!("{}: a joint of the liner lies nearer than {} to a corner.", named(run.piece, first), off);
        findings.push(watch(
            FormField::LinerLength,
            says,
            "Use longer lengths of liner, or expect to touch up that joint.",
        ));
    }
    if liner.ends_to_plug > 0 {
        let ends = Quantity::Count(liner.ends_to_plug, "end", "ends");
        let says = label!("The liner has {}: mix runs into the gap under each.", ends);
        let note = watch(FormField::LinerPast, says, "Plug the gap under every end, and go over it after stripping.");
        findings.push(Finding { severity: Severity::Note, ..note });
    }
    findings
}

/// A liner that stands higher or lower than the cast.
fn liner_height(built: &Built, height: Length, piece: usize) -> Option<Finding> {
    let lined = built.top.edges.iter().any(|edge| matches!(edge, Ok(edge) if edge.kind == EdgeKind::Lined));
    let form = built.form.as_ref().ok().filter(|_| lined)?;
    let cast = form.cast_thickness.value;
    let off = height - cast;
    if off.abs() <= crate::measure::geometry_tolerance() {
        return None;
    }
    let prefix = Name::PieceInFront(piece);
    let [height, cast, by] = [height, cast, off.abs()].map(about);
    Some(if off > Length::default() {
        let says = label!("{}The liner is {} high, {} more than the {} that are cast.", prefix, height, by, cast);
        watch(FormField::LinerHeight, says, "Cut it down to the cast thickness, or cast that much thicker.")
    } else {
        let says = label!("{}The liner is {} high, {} short of the {} that are cast.", prefix, height, by, cast);
        watch(
            FormField::LinerHeight,
            says,
            "Fill the gap above it, or cast thinner: that strip comes out plain and proud.",
        )
    })
}

fn screws_too_far(screws: &Screws) -> Option<Finding> {
    (screws.typed > screws.most.value + crate::measure::geometry_tolerance()).then(|| {
        let why = match screws.limit {
            SpacingLimit::Bowing => "sides bow out between them",
            SpacingLimit::Withdrawal => "they draw out of the board",
        };
        let says = label!(
            "Screws every {} are too far apart: beyond {} {}.",
            about(screws.typed),
            Word::AtMost(screws.most.value),
            why
        );
        watch(FormField::Screws, says, "Set them closer, or back the sides with blocks.")
    })
}

/// A base that bows between its supports by more than a face keeps to itself.
fn bows(build: &Build, inputs: &BuildInputs) -> Option<Finding> {
    let bow = build.bow.as_ref().ok()?.as_ref()?.value;
    let most = limits::base_sag_most();
    if bow <= most * (1.0 + crate::measure::COUNT_TOLERANCE) {
        return None;
    }
    let typed = inputs.supports.as_ref().ok().copied().flatten()?;
    let says = label!(
        "The base bows {} between supports that are {} apart; over {} the face shows it.",
        bow_quantity(bow),
        about(typed),
        bow_quantity(most)
    );
    let apart = build.supports.as_ref().ok().map(|apart| Word::AtMost(apart.value));
    let remedy = apart.map_or_else(
        || "Lay the base flat on a bench.".into(),
        |apart| label!("Set the supports no more than {} apart, or lay the base flat on a bench.", apart),
    );
    Some(watch(FormField::Supports, says, remedy))
}

fn out_of_level(level: &Level, form: &Form, tilt: &TiltInputs, piece: usize) -> Option<Finding> {
    let difference = level.difference.value;
    let most = limits::level_most();
    if difference <= most + crate::measure::geometry_tolerance() {
        return None;
    }
    let thinnest = level.corners.iter().copied().reduce(|one, other| if other < one { other } else { one })?;
    let [end, side] = [&tilt.end_fall, &tilt.side_fall].map(|fall| fall.as_ref().copied().unwrap_or_default());
    let field = if side > end { FormField::SideFall } else { FormField::EndFall };
    let prefix = Name::PieceInFront(piece);
    let difference = about(difference);
    let nothing_left = thinnest <= Length::default();
    let says = if nothing_left {
        label!(
            "{}The form lies {} out of level: more than the {} that are cast.",
            prefix,
            difference,
            about(form.cast_thickness.value)
        )
    } else {
        label!(
            "{}The form lies {} out of level: a mix that flows comes out {} thick at the highest corner; {} is the most that passes.",
            prefix,
            difference,
            about(thinnest),
            about(most)
        )
    };
    let severity = if nothing_left { Severity::Stop } else { Severity::Watch };
    Some(Finding { severity, ..watch(field, says, "Shim the form level, both ways, before it is filled.") })
}
