//! What the knockouts of a piece tell the maker to watch.

use super::stack::all_too_thick;
use super::{Knockout, KnockoutInputs, Knockouts, Stack, StackInputs};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{CutoutField, FieldPath, FormField, Job, LayerField, PieceKind};
use crate::knockout::limits;
use crate::label;
use crate::measure::Length;
use crate::top::{Rail, RailEnd, Top};
use crate::working::{Label, Name, Source, about};

/// Findings about the knockouts of the piece with that index.
pub(crate) fn advise(knockouts: &Knockouts, top: &Top, inputs: &KnockoutInputs, job: &Job) -> Vec<Finding> {
    let piece = inputs.piece;
    let mut findings = Vec::new();
    let known: Vec<&Knockout> = knockouts.cutouts.iter().flatten().collect();
    // All are stacked alike.
    if let Some(first) = known.first() {
        stack(first, inputs, &mut findings);
    }
    for knockout in known {
        wedging(knockout, top, job, piece, &mut findings);
    }
    findings
}

fn stack(knockout: &Knockout, inputs: &KnockoutInputs, findings: &mut Vec<Finding>) {
    let mut add = |severity, place, says: Label| {
        findings.push(Finding {
            severity,
            stage: Stage::Build,
            place,
            says,
            remedy: "Add a layer of the thickness that is missing, or have one planed to it.".into(),
            source: Source::Practice,
        });
    };
    match &knockout.stack {
        // What cannot be read waits in its own field; what can be and does not fit is told.
        Err(waiting) if all_too_thick(knockout.height.value, &inputs.stack) => {
            for need in waiting.needs() {
                add(Severity::Stop, need.place, need.sentence());
            }
        }
        Err(_) => {}
        Ok(stack) if stack.shim.value > limits::shim_most() + crate::measure::geometry_tolerance() => {
            let says = label!(
                "{}The layers for knockouts leave {} of the cast to shim; over {} a shim gives way.",
                Name::PieceInFront(inputs.piece),
                about(stack.shim.value),
                about(limits::shim_most())
            );
            add(Severity::Watch, FieldPath::Layer(0, LayerField::Thickness), says);
        }
        Ok(_) => {}
    }
}

/// A board between narrow rails, with nothing to let it go.
fn wedging(knockout: &Knockout, top: &Top, job: &Job, piece: usize, findings: &mut Vec<Finding>) {
    let has_board = knockout.stack.as_ref().is_ok_and(Stack::has_board);
    let kind = job.pieces.get(piece).map_or(PieceKind::Top, |piece| piece.kind);
    let own = RailEnd::Cutout(knockout.cutout);
    let beside = |rail: &&Rail| (rail.from == own || rail.to == own) && rail.is_narrow(kind);
    let Some(rail) = top.rails.iter().find(beside) else { return };
    if !has_board || knockout.draft > Length::default() || rail.width < Length::default() {
        return;
    }
    findings.push(Finding {
        severity: Severity::Watch,
        stage: Stage::Build,
        place: FieldPath::Cutout(piece, knockout.cutout, CutoutField::Width),
        says: label!(
            "{}The knockout of cutout {} has a layer of board and no draft; it wedges against a rail {} wide.",
            Name::PieceInFront(piece),
            knockout.cutout + 1,
            about(rail.width)
        ),
        remedy: "Stack it from foam, or give it a draft of 1/16 in and two turns of tape.".into(),
        source: Source::Practice,
    });
}

/// Findings about the layers and the draft, which all pieces share.
pub(crate) fn advise_job(inputs: &StackInputs, job: &Job) -> Vec<Finding> {
    let mut findings = Vec::new();
    let has_cutouts = job.pieces.iter().any(|piece| !piece.cutouts.is_empty());
    let mut add = |place, says: Label, remedy: &'static str| {
        findings.push(Finding {
            severity: Severity::Watch,
            stage: Stage::Build,
            place,
            says,
            remedy: remedy.into(),
            source: Source::Practice,
        });
    };
    for (index, layer) in inputs.layers.iter().enumerate().filter(|_| has_cutouts) {
        let place = FieldPath::Layer(index, LayerField::Thickness);
        let Ok(Some(thickness)) = layer.thickness else { continue };
        if thickness < limits::layer_least() - crate::measure::geometry_tolerance() {
            let least = about(limits::layer_least());
            let says = label!("{}: under {} it is a shim and is not stacked.", Name::Field(place), least);
            add(place, says, "Check the reading and its unit.");
        }
    }
    let place = FieldPath::Form(FormField::Draft);
    if let Ok(draft) = inputs.draft
        && draft > limits::draft_most() + crate::measure::geometry_tolerance()
        && has_cutouts
    {
        let says = label!(
            "A draft of {} on each side makes the hole {} narrower at the back; {} is the usual most.",
            about(draft),
            about(2.0 * draft),
            about(limits::draft_most())
        );
        add(place, says, "Check that the bowl clears the hole at the back, or use less.");
    }
    findings
}
