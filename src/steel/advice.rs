//! What the steel of a piece tells the maker to watch.

use super::{Bars, Layer, Steel, SteelInputs};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{FieldPath, Job, PieceField, PieceKind, SteelField};
use crate::label;
use crate::measure::{Length, Mass};
use crate::steel::limits;
use crate::top::{RailEnd, Top};
use crate::working::{Known, Label, Name, Source, Word, about};

/// The findings of one piece as they come together.
struct Findings<'a> {
    job: &'a Job,
    inputs: &'a SteelInputs,
    piece: usize,
    found: Vec<Finding>,
}

impl Findings<'_> {
    fn add(&mut self, severity: Severity, place: FieldPath, says: Label, remedy: Label) {
        let says = label!("{}{}", Name::PieceInFront(self.piece), says);
        self.found.push(Finding { severity, stage: Stage::Build, place, says, remedy, source: Source::Practice });
    }

    fn at(&self, field: SteelField) -> FieldPath {
        FieldPath::Steel(self.piece, field)
    }
}

/// Findings about the steel of the piece with that index.
pub(crate) fn advise(steel: &Known<Steel>, top: &Top, inputs: &SteelInputs, job: &Job) -> Vec<Finding> {
    let mut findings = Findings { job, inputs, piece: inputs.piece, found: Vec::new() };
    let Ok(steel) = steel else { return Vec::new() };
    let weighed = !matches!(inputs.weighed, Ok(None)) && inputs.weighed != Ok(Some(Mass::default()));
    if steel.lath.is_none() && steel.bars.is_none() {
        if !weighed {
            no_steel(top, &mut findings);
        }
        return findings.found;
    }
    edges(&mut findings);
    if let (Some(bars), Some(layer)) = (&steel.bars, &steel.bar_layer) {
        bar_height(bars, layer, &mut findings);
    }
    if let Some(layer) = &steel.lath_layer {
        lath_height(layer, &mut findings);
    }
    match &steel.bars {
        Some(bars) => beside_bars(bars, &mut findings),
        None => rails_without_lath(top, &mut findings),
    }
    findings.found
}

/// The thinnest rail beside a cutout.
fn thinnest(top: &Top) -> Option<&crate::top::Rail> {
    top.rails.iter().find(|rail| matches!(rail.from, RailEnd::Cutout(_)) && rail.width > Length::default())
}

fn no_steel(top: &Top, findings: &mut Findings) {
    let kind = findings.job.pieces.get(findings.piece).map_or(PieceKind::Top, |piece| piece.kind);
    let Some(rail) = thinnest(top).filter(|rail| rail.is_narrow(kind)) else { return };
    let says = label!("There is no steel in it, and a rail is only {} wide.", about(rail.width));
    let remedy = "Lay a bar along the rail or fibre in the mix; one bar does not stop a crack, but it holds a cracked \
                  rail together.";
    findings.add(Severity::Note, FieldPath::Piece(findings.piece, PieceField::Steel), says, remedy.into());
}

/// Steel that comes too near to the edges.
fn edges(findings: &mut Findings) {
    let place = findings.at(SteelField::OffEdges);
    let Ok(off) = findings.inputs.off_edges else { return };
    if off < limits::steel_cover() - crate::measure::geometry_tolerance() {
        let least = about(limits::steel_cover());
        let says = label!("Steel comes within {} of edges and cutouts; under {} it can show.", about(off), least);
        findings.add(Severity::Watch, place, says, "Keep it about 1 in off every edge and cutout.".into());
    }
}

fn bar_height(bars: &Bars, layer: &Layer, findings: &mut Findings) {
    let place = findings.at(SteelField::BarHeight);
    let short = |cover: Length, least: Length| cover < least - crate::measure::geometry_tolerance();
    let (cover, room) = (limits::steel_cover(), limits::steel_room());
    if short(layer.face_cover, room) || short(layer.back_cover, Length::default()) {
        let where_to = if short(layer.back_cover, Length::default()) { "sticks out of the back" } else { "lies bare" };
        let says = label!(
            "A bar {} thick at {} over the face {}: it leaves {} to the face and {} behind.",
            about(bars.diameter),
            about(layer.height.value),
            where_to,
            left(layer.face_cover),
            left(layer.back_cover)
        );
        let remedy = "Use a thinner bar at mid-depth, or glass fibre in the mix.".into();
        findings.add(Severity::Stop, place, says, remedy);
        return;
    }
    if short(layer.face_cover, cover) {
        let says = label!(
            "The bars have {} of concrete to the finished face; under {} they can show.",
            about(layer.face_cover),
            about(cover)
        );
        let height = layer.height.value + cover - layer.face_cover;
        let behind = layer.back_cover - (cover - layer.face_cover);
        let remedy = if short(behind, room) {
            "Use a thinner bar, or cast thicker.".into()
        } else {
            label!("Lay their centre {} over the face, or use a thinner bar.", about(height))
        };
        findings.add(Severity::Watch, place, says, remedy);
    }
    if short(layer.back_cover, room) {
        let says = label!(
            "The bars have {} of concrete behind them; under {} the mix does not close over them.",
            about(layer.back_cover),
            about(room)
        );
        findings.add(Severity::Watch, place, says, "Lay them lower, or use a thinner bar.".into());
    }
}

/// A cover in words; there may be none.
fn left(cover: Length) -> Word {
    if cover > Length::default() { about(cover) } else { "nothing".into() }
}

fn lath_height(layer: &Layer, findings: &mut Findings) {
    let short = |least: Length| layer.face_cover < least - crate::measure::geometry_tolerance();
    if !short(limits::steel_cover()) {
        return;
    }
    let strength = if short(limits::steel_room()) { Severity::Stop } else { Severity::Watch };
    let says = label!(
        "The piece is thin for lath: at mid-depth it leaves {} to the finished face; under {} it can show.",
        left(layer.face_cover),
        about(limits::steel_cover())
    );
    let remedy = "Use glass fibre in the mix instead, or cast thicker.".into();
    findings.add(strength, findings.at(SteelField::Layers), says, remedy);
}

fn beside_bars(bars: &Bars, findings: &mut Findings) {
    let place = findings.at(SteelField::RailsTo);
    for refused in &bars.no_room {
        let rail = refused.rail.words();
        let says = label!(
            "No room for a bar {} thick in {}, {} wide: it leaves {} to {}; under {} the mix does not close around it.",
            about(bars.diameter),
            rail,
            about(refused.rail.width),
            left(refused.cover),
            &refused.nearest,
            about(limits::steel_room())
        );
        let remedy = "Use a thinner bar, or make the rail wider; none is counted there.".into();
        findings.add(Severity::Stop, place, says, remedy);
    }
    for bar in &bars.bars {
        if bar.side_cover < limits::steel_cover() - crate::measure::geometry_tolerance() {
            let rail = bar.rails.first().map_or_else(String::new, super::BarRail::words);
            let says = label!(
                "Bar {}, in {}, comes within {} of {}; under {} it can show.",
                &bar.mark,
                rail,
                about(bar.side_cover),
                &bar.nearest,
                about(limits::steel_cover())
            );
            let remedy = "Use a thinner bar, or make the rail wider.".into();
            findings.add(Severity::Watch, place, says, remedy);
        }
    }
}

/// Lath stays off both sides of a rail; where nothing is left between, none runs through.
fn rails_without_lath(top: &Top, findings: &mut Findings) {
    let place = findings.at(SteelField::OffEdges);
    let Ok(off) = findings.inputs.off_edges else { return };
    let Some(rail) = thinnest(top).filter(|rail| rail.width <= 2.0 * off) else { return };
    let says = label!(
        "No lath runs through the thinnest rail, {} wide: it stays {} off on both sides.",
        about(rail.width),
        about(off)
    );
    let remedy = "Lay a bar along it; one bar does not stop a crack, but it holds a cracked rail together.".into();
    findings.add(Severity::Note, place, says, remedy);
}
