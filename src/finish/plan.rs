//! Finishing as the job has it, with the maker's own pads.

use super::{
    Defect, Drying, DustControls, EdgeRun, Exposure, FillMix, Filling, Pad, Removed, Schedule, Sealer, Sequence,
    Surfaces, Tool, dust_controls, fill_slurry, grinding_time, removed, schedule, seal_amount, seal_area, sequence,
    slurry, speed_limit,
};
use crate::finding::{Finding, Severity, Stage};
use crate::finish::Coverage;
use crate::finish::limits;
use crate::job::read::{self, all, both};
use crate::job::{
    BookField, DefectField, DefectKind, EdgeKind, FieldPath, FinishField, GrindingWay, Job, JobField, PieceField,
};
use crate::measure::{
    Area, Length, Mass, MassDensity, Moment, Time, Volume, write_area, write_cut, write_mass, write_volume,
};
use crate::mix;
use crate::plane::EdgeTag;
use crate::top::Top;
use crate::working::{Figure, Known, Source, Waiting, Working};
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
    pub fn of(tops: &[&Top], pads: &[Pad], job: &Job) -> Self {
        let face = face(tops, job);
        let removed = all_removed(tops, job);
        let ground = least_grinding(job).map(Exposure::reached).unwrap_or(Exposure::Cream);
        let owned: Vec<_> = pads.iter().map(|pad| pad.tool).collect();
        let sequence = sequence(job.finish.exposure.unwrap_or(ground), job.finish.sheen, &owned);
        let time = face.clone().and_then(|face| {
            grinding_time(face.value, &sequence, pads, job.units).map_err(|tools| {
                let names: Vec<_> = tools.iter().map(|tool| tool.words().to_lowercase()).collect();
                Waiting::at(
                    FieldPath::Book(BookField::Pads),
                    format!("How much face an hour, in your pads: {}.", names.join(", ")),
                )
            })
        });
        let dry = job.finish.way != GrindingWay::Wet && !sequence.steps.is_empty();
        let wet = job.finish.way == GrindingWay::Wet && !job.finish.grinding_water.is_blank();
        let slurry = wet.then(|| {
            let water = read::volume(job, FieldPath::Finish(FinishField::GrindingWater));
            let (removed, water) = both(removed.clone(), water)?;
            let found = removed.and_then(|removed| slurry(&removed, water, job.units));
            found.ok_or_else(|| Waiting::at(FieldPath::Piece(0, PieceField::Grinding), "Nothing is ground off yet."))
        });
        Self {
            dust: dry.then(|| dust(pads, job)),
            speeds: speeds(&sequence, pads, job),
            filling: (!job.finish.defects.is_empty()).then(|| filling(job)),
            sealing: sealing(tops, &face, job),
            schedule: dates(job),
            drying: Drying::of(tops, job),
            face,
            removed,
            slurry,
            sequence,
            time,
        }
    }

    /// What to know about it.
    pub(crate) fn advise(&self, job: &Job) -> Vec<Finding> {
        let mut found = Vec::new();
        let finding = |place, says: String, remedy: &str, source| Finding {
            severity: Severity::Watch,
            stage: Stage::Finish,
            place,
            says,
            remedy: remedy.to_owned(),
            source,
        };
        for piece in 0..job.pieces.len() {
            let place = FieldPath::Piece(piece, PieceField::Grinding);
            let (Some(wanted), Ok(depth)) = (job.finish.exposure, read::optional(job, place, read::length)) else {
                continue;
            };
            let depth = depth.unwrap_or_default();
            let reached = Exposure::reached(depth);
            if reached != wanted {
                let says = format!(
                    "{}{} is wanted, and grinding {} off shows {}.",
                    read::piece_prefix(job, piece),
                    wanted.label(),
                    write_cut(depth, job.units).text,
                    reached.label().to_lowercase()
                );
                let remedy = "Set what is ground off before the form is built: it is cast that much thicker.";
                found.push(finding(place, says, remedy, Source::Practice));
            }
        }
        let asked = job.finish.exposure.is_some() || job.finish.sheen.is_some();
        if asked && self.sequence.missing().next().is_some() {
            let remedy = "Buy them first, or choose another sheen: a skipped pad leaves its scratches.";
            found.push(finding(FieldPath::Book(BookField::Pads), self.sequence.words(), remedy, Source::Practice));
        }
        let first_coat = read::date(job, FieldPath::Finish(FinishField::SealDate));
        if let (Ok(drying), Ok(date)) = (&self.drying, first_coat) {
            found.extend(drying.advise(date, job));
        }
        if let Ok(sealing) = &self.sealing
            && !sealing.usual
        {
            let says = "So much sealer for so much area is outside of what data sheets say.".to_owned();
            let remedy = "Check the label: 200 to 400 ft² a US gallon (5 to 10 m² a litre) are usual.";
            found.push(finding(FieldPath::Finish(FinishField::Covers), says, remedy, Source::Memory));
        }
        found
    }
}

/// The least that is ground off any piece.
fn least_grinding(job: &Job) -> Option<Length> {
    let depths = (0..job.pieces.len()).map(|piece| {
        let place = FieldPath::Piece(piece, PieceField::Grinding);
        read::optional(job, place, read::length).ok().flatten().unwrap_or_default()
    });
    depths.reduce(|one, other| one.min(other))
}

fn face(tops: &[&Top], job: &Job) -> Known<Figure<Area>> {
    let areas = all(tops.iter().map(|top| top.area.clone()))?;
    let sum: Area = areas.iter().map(|area| area.value).sum();
    let working = Working::new("Face of all pieces");
    if let [only] = areas.as_slice() {
        return Ok(working.after(&only.working).of(sum));
    }
    if areas.is_empty() {
        return Err(read::no_piece(FieldPath::Job(JobField::Name)));
    }
    let parts: Vec<_> = areas.iter().map(|area| write_area(area.value, job.units).to_string()).collect();
    let written = write_area(sum, job.units);
    Ok(working.line("all pieces together", parts.join(" + "), written, Source::Arithmetic).of(sum))
}

/// Hardened concrete of a piece; the fresh density where the bag does not tell it.
fn density(job: &Job, piece: usize) -> Known<MassDensity> {
    let (index, _) = mix::bag_of(job, piece)?;
    let mix = mix::MixInputs::read(job, index);
    match mix.hardened_density.clone()? {
        Some(density) => Ok(density),
        None => mix::fresh_density(&mix).map(|figure| figure.value),
    }
}

fn all_removed(tops: &[&Top], job: &Job) -> Known<Option<Removed>> {
    let parts = all(tops.iter().enumerate().map(|(piece, top)| {
        let depth = read::optional(job, FieldPath::Piece(piece, PieceField::Grinding), read::length)?;
        let Some(depth) = depth.filter(|depth| depth.value > 0.0) else { return Ok(None) };
        let (area, density) = both(top.area.clone(), density(job, piece))?;
        Ok(removed(area.value, depth, density, job.units))
    }))?;
    let parts: Vec<_> = parts.into_iter().flatten().collect();
    if parts.len() < 2 {
        return Ok(parts.into_iter().next());
    }
    let volume: Volume = parts.iter().map(|part| part.volume.value).sum();
    let mass: Mass = parts.iter().map(|part| part.mass.value).sum();
    let (mut of_volume, mut of_mass) = (Working::new("Ground off the faces"), Working::new("Grinding dust"));
    let list = |texts: Vec<String>| texts.join(" + ");
    let volumes = list(parts.iter().map(|part| write_volume(part.volume.value, job.units).to_string()).collect());
    let masses = list(parts.iter().map(|part| write_mass(part.mass.value, job.units).to_string()).collect());
    for part in &parts {
        of_volume = of_volume.after(&part.volume.working);
        of_mass = of_mass.after(&part.mass.working);
    }
    let written = write_volume(volume, job.units);
    let volume = of_volume.line("all pieces together", volumes, written, Source::Arithmetic).of(volume);
    let written = write_mass(mass, job.units);
    let mass = of_mass.line("all pieces together", masses, written, Source::Arithmetic).of(mass);
    Ok(Some(Removed { volume, mass }))
}

fn speeds(sequence: &Sequence, pads: &[Pad], job: &Job) -> Vec<(Tool, Figure<Frequency>)> {
    let limit = |step: &super::GritStep| {
        let pad = pads.iter().find(|pad| pad.tool == step.tool)?;
        Some((step.tool, speed_limit(pad.diameter?, pad.rated?, job.units)?))
    };
    sequence.steps.iter().filter_map(limit).collect()
}

fn dust(pads: &[Pad], job: &Job) -> Known<DustControls> {
    let wheel = pads.iter().find(|pad| pad.tool == Tool::Wheel).and_then(|pad| pad.diameter);
    let indoors = job.finish.way == GrindingWay::DryIndoors;
    dust_controls(wheel.unwrap_or_else(limits::wheel_usual), indoors, job.units)
        .ok_or_else(|| Waiting::at(FieldPath::Book(BookField::Pads), "The size of the coarse wheel, in your pads."))
}

fn filling(job: &Job) -> Known<Filling> {
    let defects = all(job.finish.defects.iter().enumerate().map(|(index, typed)| {
        let place = |field| FieldPath::Defect(index, field);
        let sizes = both(read::length(job, place(DefectField::Width)), read::length(job, place(DefectField::Depth)));
        match typed.kind {
            DefectKind::Pinholes => both(read::count(job, place(DefectField::Count)), sizes)
                .map(|(count, (diameter, depth))| Defect::Pinholes { count, diameter, depth }),
            DefectKind::Crack => both(read::length(job, place(DefectField::Length)), sizes)
                .map(|(length, (width, depth))| Defect::Crack { length, width, depth }),
        }
    }));
    let place = FieldPath::Finish;
    let ratio = read::percent(job, place(FinishField::WaterRatio));
    let pigment = read::optional(job, place(FinishField::Pigment), read::percent);
    let others = both(pigment, read::or_usual(job, place(FinishField::FillSpare), read::percent));
    let (defects, (water_ratio, (pigment, spare))) = both(defects, both(ratio, others))?;
    let grains = mix::proportion::Recipe::mortar().gravities.pigment;
    let mix = FillMix {
        water_ratio,
        pigment: pigment.unwrap_or_default(),
        pigment_density: crate::mix::limits::water_density() * grains,
        spare,
    };
    let nothing = || Waiting::at(FieldPath::Defect(0, DefectField::Width), "Defect 1: this leaves nothing to fill.");
    fill_slurry(&defects, &mix, job.units).ok_or_else(nothing)
}

/// The edges that are not hidden by a wall, and the sides of cutouts, which are sealed like the face.
fn edges(top: &Top) -> Known<Vec<EdgeRun>> {
    let profiles = all(top.edges.iter().map(|edge| edge.as_ref().map_err(Waiting::clone)));
    let outline = top.outline.as_ref().map_err(Waiting::clone);
    let ((outline, height), profiles) = both(both(outline, top.thickness.clone()), profiles)?;
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

fn sealer(job: &Job, whole: bool) -> Known<Sealer> {
    let place = FieldPath::Finish;
    let coats = read::or_usual(job, place(FinishField::Coats), read::count);
    let area = read::or_usual(job, place(FinishField::Covers), read::positive_area);
    let volume = read::or_usual(job, place(FinishField::CoversWith), read::positive_volume);
    // Without dates nobody has to know how long it takes.
    let span = |field| if whole { read::hours(job, place(field)) } else { Ok(Time::default()) };
    let spans = both(span(FinishField::Recoat), span(FinishField::Cure));
    let (coats, ((area, volume), (recoat, cure))) = both(coats, both(both(area, volume), spans))?;
    Ok(Sealer { kind: job.finish.seal, coats, coverage: Coverage { area, volume }, recoat, cure })
}

fn sealing(tops: &[&Top], face: &Known<Figure<Area>>, job: &Job) -> Known<Sealing> {
    let edges = all(tops.iter().map(|top| edges(top)));
    let extra = read::or_usual(job, FieldPath::Finish(FinishField::RoughExtra), read::percent);
    let ((face, edges), (rough_extra, sealer)) = both(both(face.clone(), edges), both(extra, sealer(job, false)))?;
    let surfaces = Surfaces { face: face.value, edges: edges.into_iter().flatten().collect(), rough_extra };
    let place = FieldPath::Finish(FinishField::Coats);
    let nothing = || Waiting::at(place, format!("{}: this seals nothing.", read::name_of(job, place)));
    let area = seal_area(&surfaces, job.units).ok_or_else(nothing)?;
    let amount = seal_amount(&area, &sealer, job.units).ok_or_else(nothing)?;
    Ok(Sealing { area, amount, usual: sealer.coverage.is_usual() })
}

fn dates(job: &Job) -> Known<Schedule> {
    let date = read::date(job, FieldPath::Finish(FinishField::SealDate));
    let clock = read::clock(job, FieldPath::Finish(FinishField::SealTime));
    let ((date, clock), sealer) = both(both(date, clock), sealer(job, true))?;
    let place = FieldPath::Finish(FinishField::Cure);
    let nothing = || Waiting::at(place, format!("{}: this runs past the calendar.", read::name_of(job, place)));
    schedule(&sealer, Moment { date, clock }).ok_or_else(nothing)
}
