//! Finishing as the job has it, with the maker's own pads.

use super::{
    Drying, DustControls, EdgeRun, Exposure, Filling, FinishInputs, Pad, Removed, Schedule, Sealer, Sequence, Surfaces,
    Tool, dust_controls, fill_slurry, grinding_time, removed, schedule, seal_amount, seal_area, sequence, slurry,
    speed_limit,
};
use crate::finding::{Finding, Severity, Stage};
use crate::finish::limits;
use crate::job::read;
use crate::job::{BookField, DefectField, EdgeKind, FieldPath, FinishField, GrindingWay, JobField, PieceField};
use crate::label;
use crate::measure::{Area, Length, Mass, Moment, Quantity, Time, Volume};
use crate::plane::EdgeTag;
use crate::top::Top;
use crate::working::{Figure, Known, Label, Name, Source, Term, Waiting, all, known_ref, together};
use uom::si::f64::Frequency;
use uom::si::length::meter;

/// The sealer of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealing {
    /// What is sealed.
    pub area: Figure<Area>,
    /// For all coats.
    pub amount: Figure<Volume>,
    /// What a coat covers is within what data sheets say.
    pub usual: bool,
}

/// Finishing a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Finishing {
    /// The faces of all pieces.
    pub face: Known<Figure<Area>>,
    /// What grinding takes off; nothing where nothing is ground.
    pub removed: Known<Option<Removed>>,
    /// Dust and water together; nothing unless it is ground wet and the water is typed.
    pub slurry: Option<Known<Figure<Mass>>>,
    /// The tools, in the order of use.
    pub sequence: Sequence,
    /// How fast those may turn of which size and rated speed are known.
    pub speeds: Vec<(Tool, Figure<Frequency>)>,
    /// Grinding and polishing.
    pub time: Known<Figure<Time>>,
    /// What the silica rule asks; nothing unless it is ground dry.
    pub dust: Option<Known<DustControls>>,
    /// Slurry for what is to be filled; nothing where nothing is.
    pub filling: Option<Known<Filling>>,
    /// The sealer.
    pub sealing: Known<Sealing>,
    /// Its dates.
    pub schedule: Known<Schedule>,
    /// How long it waits for the first coat.
    pub drying: Known<Drying>,
}

impl Finishing {
    /// Finishing these pieces, which are those of the job in its order, with these pads.
    ///
    /// ```
    /// use pourwright::finish::{FinishInputs, Finishing, Tool};
    /// use pourwright::job::Sheen;
    /// use pourwright::mix::demo;
    /// use pourwright::top::Top;
    ///
    /// let mut job = demo("a");
    /// job.finish.sheen = Some(Sheen::Honed);
    /// let top = Top::of(&job, 0);
    /// let finishing = Finishing::of(&[&top], &[], &FinishInputs::read(&job));
    /// // Without pads of the maker's own, those that lead there are named.
    /// assert!(finishing.sequence.missing().any(|tool| tool == Tool::Pad(400)));
    /// ```
    pub fn of(tops: &[&Top], pads: &[Pad], inputs: &FinishInputs) -> Self {
        let face = face(tops);
        let removed = all_removed(tops, inputs);
        let ground = least_grinding(inputs).map_or(Exposure::Cream, Exposure::reached);
        let owned: Vec<_> = pads.iter().map(|pad| pad.tool).collect();
        let sequence = sequence(inputs.exposure.unwrap_or(ground), inputs.sheen, &owned);
        let time = known_ref(&face).and_then(|face| {
            grinding_time(face.value, &sequence, pads).map_err(|tools| {
                let names: Vec<_> = tools.iter().map(|tool| tool.words().to_lowercase()).collect();
                Waiting::at(
                    FieldPath::Book(BookField::Pads),
                    format!("How much face an hour, in your pads: {}.", names.join(", ")),
                )
            })
        });
        let dry = inputs.way != GrindingWay::Wet && !sequence.steps.is_empty();
        let water = inputs.grinding_water.as_ref().filter(|_| inputs.way == GrindingWay::Wet);
        let slurry = water.map(|water| {
            let (removed, water) = together((known_ref(&removed), water.clone()))?;
            let found = removed.as_ref().and_then(|removed| slurry(removed, water));
            found.ok_or_else(|| Waiting::at(FieldPath::Piece(0, PieceField::Grinding), "Nothing is ground off yet."))
        });
        Self {
            dust: dry.then(|| dust(pads, inputs.way == GrindingWay::DryIndoors)),
            speeds: speeds(&sequence, pads),
            filling: (!inputs.defects.is_empty()).then(|| filling(inputs)),
            sealing: sealing(tops, &face, inputs),
            schedule: dates(inputs),
            drying: Drying::of(tops, inputs),
            face,
            removed,
            slurry,
            sequence,
            time,
        }
    }

    /// The findings about it.
    pub(crate) fn advise(&self, inputs: &FinishInputs) -> Vec<Finding> {
        let mut found = Vec::new();
        let finding = |place, says: Label, remedy: &'static str, source| Finding {
            severity: Severity::Watch,
            stage: Stage::Finish,
            place,
            says,
            remedy: remedy.into(),
            source,
        };
        for (piece, own) in inputs.pieces.iter().enumerate() {
            let place = FieldPath::Piece(piece, PieceField::Grinding);
            let (Some(wanted), Ok(depth)) = (inputs.exposure, &own.grinding) else { continue };
            let depth = depth.unwrap_or_default();
            let reached = Exposure::reached(depth);
            if reached != wanted {
                let says = label!(
                    "{}{} is wanted, and grinding {} off shows {}.",
                    Name::PieceInFront(piece),
                    wanted.label(),
                    Quantity::Cut(depth),
                    reached.label().to_lowercase()
                );
                let remedy = "Set what is ground off before the form is built: it is cast that much thicker.";
                found.push(finding(place, says, remedy, Source::Practice));
            }
        }
        let asked = inputs.exposure.is_some() || inputs.sheen.is_some();
        if asked && self.sequence.missing().next().is_some() {
            let remedy = "Buy them first, or choose another sheen: a skipped pad leaves its scratches.";
            found.push(finding(
                FieldPath::Book(BookField::Pads),
                self.sequence.words().into(),
                remedy,
                Source::Practice,
            ));
        }
        if let (Ok(drying), Ok(date)) = (&self.drying, &inputs.seal_date) {
            found.extend(drying.advise(*date));
        }
        if let Ok(sealing) = &self.sealing
            && !sealing.usual
        {
            let says = "So much sealer for so much area is outside of what data sheets say.".into();
            let remedy = "Check the label: 200 to 400 ft² a US gallon (5 to 10 m² a litre) are usual.";
            found.push(finding(FieldPath::Finish(FinishField::Covers), says, remedy, Source::Memory));
        }
        found
    }
}

/// The least that is ground off any piece; what cannot be read counts as nothing.
fn least_grinding(inputs: &FinishInputs) -> Option<Length> {
    let depths = inputs.pieces.iter().map(|piece| piece.grinding.as_ref().ok().copied().flatten().unwrap_or_default());
    depths.reduce(|one, other| one.min(other))
}

/// "piece 2", by its index among those that count.
fn of_piece(text: &'static str, index: u32) -> Label {
    Label::with(text, [Quantity::Number(f64::from(index), 0)])
}

fn face(tops: &[&Top]) -> Known<Figure<Area>> {
    let areas = all(tops.iter().map(|top| known_ref(&top.area)))?;
    match areas.as_slice() {
        [] => Err(read::no_piece(FieldPath::Job(JobField::Name))),
        [only] => Ok(only.retitled("Face of all pieces")),
        areas => {
            let areas = areas.iter().zip(1..).map(|(area, number)| area.called(of_piece("face of piece {}", number)));
            Ok(Term::sum(areas).titled("Face of all pieces", Source::Arithmetic))
        }
    }
}

fn all_removed(tops: &[&Top], inputs: &FinishInputs) -> Known<Option<Removed>> {
    let parts = all(tops.iter().zip(&inputs.pieces).zip(1..).map(|((top, piece), number)| {
        let Some(depth) = piece.grinding.clone()?.filter(|depth| depth.value > 0.0) else { return Ok(None) };
        let (area, density) = together((known_ref(&top.area), piece.density.clone()))?;
        Ok(removed(area.value, depth, density).map(|removed| (number, removed)))
    }))?;
    let mut parts: Vec<(u32, Removed)> = parts.into_iter().flatten().collect();
    if parts.len() < 2 {
        return Ok(parts.pop().map(|(_, only)| only));
    }
    let volumes = parts.iter().map(|(number, part)| part.volume.called(of_piece("off piece {}", *number)));
    let volume: Figure<Volume> = Term::sum(volumes).titled("Ground off the faces", Source::Arithmetic);
    let masses = parts.iter().map(|(number, part)| part.mass.called(of_piece("dust of piece {}", *number)));
    let mass: Figure<Mass> = Term::sum(masses).titled("Grinding dust", Source::Arithmetic);
    Ok(Some(Removed { volume, mass }))
}

fn speeds(sequence: &Sequence, pads: &[Pad]) -> Vec<(Tool, Figure<Frequency>)> {
    let limit = |step: &super::GritStep| {
        let pad = pads.iter().find(|pad| pad.tool == step.tool)?;
        Some((step.tool, speed_limit(pad.diameter?, pad.rated?)?))
    };
    sequence.steps.iter().filter_map(limit).collect()
}

fn dust(pads: &[Pad], indoors: bool) -> Known<DustControls> {
    let wheel = pads.iter().find(|pad| pad.tool == Tool::Wheel).and_then(|pad| pad.diameter);
    dust_controls(wheel.unwrap_or_else(limits::wheel_usual), indoors)
        .ok_or_else(|| Waiting::at(FieldPath::Book(BookField::Pads), "The size of the coarse wheel, in your pads."))
}

fn filling(inputs: &FinishInputs) -> Known<Filling> {
    let (defects, mix) = together((all(inputs.defects.iter().cloned()), inputs.fill_mix.clone()))?;
    let nothing = || Waiting::at(FieldPath::Defect(0, DefectField::Width), "Defect 1: this leaves nothing to fill.");
    fill_slurry(&defects, &mix).ok_or_else(nothing)
}

/// The edges that are not hidden by a wall, and the sides of cutouts, which are sealed like the face.
fn edges(top: &Top) -> Known<Vec<EdgeRun>> {
    let profiles = all(top.edges.iter().map(known_ref));
    let (outline, height, profiles) = together((known_ref(&top.outline), top.thickness.clone(), profiles))?;
    let kind = |side: u16| profiles.get(usize::from(side)).map(|profile| profile.kind);
    let hidden = |kind| matches!(kind, Some(EdgeKind::Wall | EdgeKind::Backsplash));
    let lined = |kind| kind == Some(EdgeKind::Lined);
    let run = |edge: &crate::plane::Edge| {
        let (hidden, rough) = match edge.tag() {
            EdgeTag::Side(side) => (hidden(kind(side)), lined(kind(side))),
            EdgeTag::Corner(one, other) | EdgeTag::Clip(one, other) | EdgeTag::Step(one, other) => {
                (hidden(kind(one)) && hidden(kind(other)), lined(kind(one)) || lined(kind(other)))
            }
        };
        (!hidden).then(|| EdgeRun { length: Length::new::<meter>(edge.length()), height, rough, cutout: None })
    };
    let around = |(index, cutout): (usize, crate::plane::Opening)| EdgeRun {
        length: Length::new::<meter>(cutout.perimeter()),
        height,
        rough: false,
        cutout: Some(index),
    };
    let cutouts = all(top.cutouts.iter().cloned())?.into_iter().enumerate().map(around);
    Ok(outline.edges().iter().filter_map(run).chain(cutouts).collect())
}

fn sealing(tops: &[&Top], face: &Known<Figure<Area>>, inputs: &FinishInputs) -> Known<Sealing> {
    let (face, edges, rough_extra, coats, coverage) = together((
        known_ref(face),
        all(tops.iter().map(|top| edges(top))),
        inputs.rough_extra.clone(),
        inputs.coats.clone(),
        inputs.coverage.clone(),
    ))?;
    let surfaces = Surfaces { face: face.value, edges: edges.into_iter().flatten().collect(), rough_extra };
    let nothing = || inputs.nothing_sealed.clone();
    let area = seal_area(&surfaces).ok_or_else(nothing)?;
    let amount = seal_amount(&area, coverage, coats).ok_or_else(nothing)?;
    Ok(Sealing { area, amount, usual: coverage.is_usual() })
}

fn dates(inputs: &FinishInputs) -> Known<Schedule> {
    let (date, clock, coats, coverage, recoat, cure) = together((
        inputs.seal_date.clone(),
        inputs.seal_time.clone(),
        inputs.coats.clone(),
        inputs.coverage.clone(),
        inputs.recoat.clone(),
        inputs.cure.clone(),
    ))?;
    let sealer = Sealer { kind: inputs.seal, coats, coverage, recoat, cure };
    schedule(&sealer, Moment { date, clock }).ok_or_else(|| inputs.past_calendar.clone())
}
