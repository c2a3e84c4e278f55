//! What was typed and chosen about finishing, read once.

use super::{Coverage, Defect, FillMix};
use crate::job::read;
use crate::job::{
    DefectEntry, DefectField, DefectKind, Exposure, Family, FieldPath, FinishField, GrindingWay, Job, Logged,
    PieceField, PourStep, SealKind, Sheen,
};
use crate::measure::{Date, Length, MassDensity, Time, Units, Volume};
use crate::mix;
use crate::working::{Known, Waiting, together};

/// Milliseconds of a day.
const DAY: u64 = 86_400_000;

/// What finishing a job follows from, besides the geometry of its pieces and the maker's own pads.
#[derive(Clone, Debug, PartialEq)]
pub struct FinishInputs {
    /// The system of units: drying is known of 2 in, or of 50 mm.
    pub units: Units,
    /// Its pieces, in the order of the job.
    pub pieces: Vec<FinishPiece>,
    /// How much of the aggregate shall show; nothing where that is not chosen.
    pub exposure: Option<Exposure>,
    /// How much the face shall shine; nothing where it is not polished.
    pub sheen: Option<Sheen>,
    /// How the face is ground.
    pub way: GrindingWay,
    /// The water that grinding takes; nothing where that is blank.
    pub grinding_water: Option<Known<Volume>>,
    /// What is to be filled, in the order of the job.
    pub defects: Vec<Known<Defect>>,
    /// The slurry that fills it. Pigment that is blank is none, and spare that is blank is the usual one.
    pub fill_mix: Known<FillMix>,
    /// What kind of sealer it is.
    pub seal: SealKind,
    /// The coats of sealer; the usual number where that is blank.
    pub coats: Known<u32>,
    /// What a coat of sealer covers; the usual area, and a US gallon of sealer, where these are blank.
    pub coverage: Known<Coverage>,
    /// What a rough edge takes more of the sealer, as a share; the usual share where that is blank.
    pub rough_extra: Known<f64>,
    /// From one coat to the next.
    pub recoat: Known<Time>,
    /// From the last coat until the top may be used.
    pub cure: Known<Time>,
    /// The day of the first coat.
    pub seal_date: Known<Date>,
    /// The time of day of the first coat.
    pub seal_time: Known<Time>,
    /// What is waited for where sizes or coats give nothing to seal.
    pub nothing_sealed: Waiting,
    /// What is waited for where the dates of the sealer run past the calendar.
    pub past_calendar: Waiting,
}

/// What finishing one piece follows from.
#[derive(Clone, Debug, PartialEq)]
pub struct FinishPiece {
    /// What is ground off its face; nothing where that is blank.
    pub grinding: Known<Option<Length>>,
    /// The density of its hardened concrete; the fresh density where the bag does not tell it.
    pub density: Known<MassDensity>,
    /// It is cast from rapid mortar, which binds most of its water. It waits for the mix.
    pub rapid: Known<bool>,
    /// The day on which the part of it that was poured last had its first water, by the clock of the phone in world
    /// time; nothing where no pour was logged.
    pub poured: Option<Date>,
    /// What is waited for where its thickness is nothing.
    pub no_thickness: Waiting,
}

impl FinishInputs {
    /// Reads what finishing the job follows from.
    pub fn read(job: &Job) -> Self {
        let place = FieldPath::Finish;
        let chosen = &job.finish;
        let area = read::or_usual(job, place(FinishField::Covers), read::positive_area);
        let volume = read::or_usual(job, place(FinishField::CoversWith), read::positive_volume);
        let coverage = together((area, volume)).map(|(area, volume)| Coverage { area, volume });
        let wait = |field, says: &'static str| Waiting::named(place(field), says);
        Self {
            units: job.units,
            pieces: (0..job.pieces.len()).map(|piece| FinishPiece::read(job, piece)).collect(),
            exposure: chosen.exposure,
            sheen: chosen.sheen,
            way: chosen.way,
            grinding_water: read::optional(job, place(FinishField::GrindingWater), read::volume).transpose(),
            defects: chosen.defects.iter().enumerate().map(|(index, typed)| defect(job, index, typed)).collect(),
            fill_mix: fill_mix(job),
            seal: chosen.seal,
            coats: read::or_usual(job, place(FinishField::Coats), read::count),
            coverage,
            rough_extra: read::or_usual(job, place(FinishField::RoughExtra), read::percent),
            recoat: read::hours(job, place(FinishField::Recoat)),
            cure: read::hours(job, place(FinishField::Cure)),
            seal_date: read::date(job, place(FinishField::SealDate)),
            seal_time: read::clock(job, place(FinishField::SealTime)),
            nothing_sealed: wait(FinishField::Coats, "this seals nothing."),
            past_calendar: wait(FinishField::Cure, "this runs past the calendar."),
        }
    }
}

impl FinishPiece {
    /// Reads what finishing the piece with that index follows from.
    pub fn read(job: &Job, piece: usize) -> Self {
        let place = |field| FieldPath::Piece(piece, field);
        let thickness = place(PieceField::Thickness);
        Self {
            grinding: read::optional(job, place(PieceField::Grinding), read::length),
            density: density(job, piece),
            // Of a mix made from scratch its family is a filler, and its cement portland.
            rapid: mix::bag_of(job, piece).map(|(_, bag)| bag.recipe.is_none() && bag.family == Family::RapidMortar),
            poured: poured(job, piece),
            no_thickness: Waiting::named(thickness, "this has to be more."),
        }
    }
}

fn density(job: &Job, piece: usize) -> Known<MassDensity> {
    let (index, _) = mix::bag_of(job, piece)?;
    let mix = mix::MixInputs::read(job, index);
    match mix.hardened_density.clone()? {
        Some(density) => Ok(density),
        None => mix::fresh_density(&mix).map(|figure| figure.value),
    }
}

fn defect(job: &Job, index: usize, typed: &DefectEntry) -> Known<Defect> {
    let place = |field| FieldPath::Defect(index, field);
    let length = |field| read::length(job, place(field));
    let (width, depth) = (length(DefectField::Width), length(DefectField::Depth));
    match typed.kind {
        DefectKind::Pinholes => together((read::count(job, place(DefectField::Count)), width, depth))
            .map(|(count, diameter, depth)| Defect::Pinholes { count, diameter, depth }),
        DefectKind::Crack => together((length(DefectField::Length), width, depth))
            .map(|(length, width, depth)| Defect::Crack { length, width, depth }),
    }
}

fn fill_mix(job: &Job) -> Known<FillMix> {
    let (water_ratio, pigment, spare) = together((
        read::percent(job, FieldPath::Finish(FinishField::WaterRatio)),
        read::optional(job, FieldPath::Finish(FinishField::Pigment), read::percent),
        read::or_usual(job, FieldPath::Finish(FinishField::FillSpare), read::percent),
    ))?;
    let grains = mix::proportion::Recipe::mortar().gravities.pigment;
    Ok(FillMix {
        water_ratio,
        pigment: pigment.unwrap_or_default(),
        pigment_density: mix::limits::water_density() * grains,
        spare,
    })
}

/// The log that a piece was poured by: its own, or the only one of its mix, since one of the pieces that are poured at one
/// go keeps that of all.
fn log_of(job: &Job, piece: usize) -> Option<&[Logged]> {
    let own = job.pieces.get(piece)?;
    let alike = job.pieces.iter().filter(|other| other.bag == own.bag && !other.log.is_empty());
    match (own.log.as_slice(), alike.collect::<Vec<_>>().as_slice()) {
        ([], [only]) => Some(&only.log),
        (log, _) => Some(log),
    }
}

fn poured(job: &Job, piece: usize) -> Option<Date> {
    let log = log_of(job, piece)?;
    let waters = || log.iter().filter(|line| matches!(line.step, PourStep::Water(_)));
    let first_of = |part| waters().filter(|line| line.part == part).map(|line| line.at).min();
    let at = waters().filter_map(|line| first_of(line.part)).max()?;
    Date::from_days(i32::try_from(at / DAY).ok()?)
}
