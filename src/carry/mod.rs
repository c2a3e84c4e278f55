//! Weight, and the people it takes; the lift, the way in, and what holds it in its place.

pub mod lift;
pub mod limits;
mod plan;
pub mod set;
pub mod way;

pub use plan::{Carrying, Passage, Setting};

use crate::finding::{Finding, Severity, Stage, say};
use crate::job::read::{self, both};
use crate::job::{BagField, FieldPath, Job, PieceField};
use crate::measure::{
    Mass, MassDensity, Units, Volume, write_area, write_count, write_density, write_length, write_mass, write_number,
    write_volume,
};
use crate::mix::{self, Filling};
use crate::steel;
use crate::top::Top;
use crate::working::{Figure, Known, Source, Working};

/// Who carries a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crew {
    /// So many people, one to three.
    Hands(u32),
    /// More than three people should lift by hand: it rides on a cart, three steady it.
    Aid,
}

/// What a piece weighs, at two dates.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    /// As it comes out of the form: cast thickness, fresh density, steel included.
    pub as_cast: Figure<Mass>,
    /// Dry and not ground yet, in the shop: cast thickness, density when dry; nothing where the bag does not tell it.
    pub dried: Option<Figure<Mass>>,
    /// As installed: finished thickness, steel included; at the density when dry where the bag tells
    /// it, else at the fresh density, which errs on the heavy side.
    pub installed: Figure<Mass>,
}

impl Weights {
    /// What the piece with that index weighs. Spare mix does not matter to it.
    ///
    /// # Errors
    /// What it waits for: geometry, steel, or the bag's mass, water, yield or dry density.
    pub fn of(top: &Top, filling: &Filling, job: &Job, piece: usize) -> Known<Self> {
        let net = filling.net.clone();
        let steel = steel::mass_of(top, job, piece);
        let densities = mix::bag_of(job, piece).and_then(|(index, _)| {
            let dry = FieldPath::Bag(index, BagField::HardenedDensity);
            both(filling.fresh.clone(), read::optional(job, dry, read::positive_density))
        });
        let finished = both(top.area.clone(), top.thickness.clone());
        let ((net, steel), ((fresh, dry), (area, thickness))) = both(both(net, steel), both(densities, finished))?;
        let units = job.units;

        let as_cast = weigh(
            Working::new("Weight as it comes out of the form")
                .after(&net.working)
                .after(&fresh.working)
                .after(&steel.working),
            "concrete in the form × fresh density + steel",
            (net.value, fresh.value, steel.value),
            units,
        );
        let dried = dry.map(|dry| {
            let working = Working::new("Weight once dry, not ground yet").after(&net.working);
            weigh(
                working.line("density when dry", "", write_density(dry, units), Source::Typed).after(&steel.working),
                "concrete in the form × density when dry + steel",
                (net.value, dry, steel.value),
                units,
            )
        });
        let volume = area.value * thickness;
        let working = Working::new("Weight as installed").after(&area.working).line(
            "finished area × finished thickness",
            format!("{} × {}", write_area(area.value, units), write_length(thickness, units)),
            write_volume(volume, units),
            Source::Arithmetic,
        );
        let installed = match dry {
            Some(dry) => weigh(
                working.line("density when dry", "", write_density(dry, units), Source::Typed).after(&steel.working),
                "finished volume × density when dry + steel",
                (volume, dry, steel.value),
                units,
            ),
            None => weigh(
                working.after(&fresh.working).after(&steel.working),
                "finished volume × fresh density + steel; a little less once dry",
                (volume, fresh.value, steel.value),
                units,
            ),
        };
        Ok(Self { as_cast, dried, installed })
    }
}

fn weigh(
    working: Working,
    formula: &str,
    (volume, density, steel): (Volume, MassDensity, Mass),
    units: Units,
) -> Figure<Mass> {
    let weight = volume * density + steel;
    working
        .line(
            formula,
            format!(
                "{} × {} + {}",
                write_volume(volume, units),
                write_density(density, units),
                write_mass(steel, units)
            ),
            write_mass(weight, units),
            Source::Arithmetic,
        )
        .of(weight)
}

/// What a team of so many may lift: the sum of its members' load constants, times what is left of
/// it when people lift together. `None` for a team that is not advised: none, or more than three.
pub fn team_capacity(people: u32, units: Units) -> Option<Mass> {
    let (_, share) = limits::TEAM_SHARES.iter().find(|(size, _)| *size == people)?;
    Some(limits::load_constant(units) * f64::from(people) * *share)
}

/// The people it takes to carry so much by hand: the smallest team that may lift it.
pub fn crew(weight: &Figure<Mass>, units: Units) -> Figure<Crew> {
    let mut working = Working::new("People to carry it")
        .line("weight as it comes out of the form", "", write_mass(weight.value, units), Source::Arithmetic)
        .line(
            "load constant: one person, ideal lift",
            "",
            write_mass(limits::load_constant(units), units),
            limits::LIFTING,
        );
    let mut crew = Crew::Aid;
    for (people, share) in limits::TEAM_SHARES {
        let Some(capacity) = team_capacity(people, units) else { continue };
        working = working.line(
            format!(
                "most that {} may lift: people × load constant × team share",
                write_count(people, "person", "people")
            ),
            format!("{people} × {} × {}", write_mass(limits::load_constant(units), units), write_number(share, 3)),
            write_mass(capacity, units),
            limits::LIFTING,
        );
        if weight.value <= capacity * (1.0 + crate::measure::COUNT_TOLERANCE) {
            crew = Crew::Hands(people);
            break;
        }
    }
    let lifted = write_mass(weight.value, units).text;
    let working = working.line("walking with it and stairs", "", "not covered by these figures", limits::LIFTING);
    working.line("the smallest team that may lift it", lifted, crew.words(), limits::LIFTING).of(crew)
}

impl Crew {
    /// The crew in words.
    pub fn words(self) -> String {
        match self {
            Self::Hands(people) => write_count(people, "person", "people"),
            Self::Aid => "3 people and a cart".to_owned(),
        }
    }
}

/// The people who carry and set a job, all of whose time is paid: as many as its heaviest piece takes by an ideal lift, or
/// by the lift as chosen where that is one for hands. Beyond three a cart carries it and three steady it.
///
/// # Errors
/// What the weight of a piece waits for, or that there is none.
pub fn people_to_set(pieces: &[(&Known<Figure<Crew>>, &Carrying)]) -> Known<u32> {
    let crews = crate::working::all(pieces.iter().map(|(crew, _)| crew.as_ref().map_err(Clone::clone)))?;
    let lifts = pieces.iter().filter_map(|(_, carrying)| carrying.handling.as_ref().ok().map(|lift| &lift.crew));
    let hands = crews.into_iter().chain(lifts).map(|crew| match crew.value {
        Crew::Hands(people) => people,
        Crew::Aid => limits::TEAM_SHARES.len() as u32,
    });
    hands.max().ok_or_else(|| read::no_piece(FieldPath::Job(crate::job::JobField::Name)))
}

/// What carrying it without a cart takes, in a sentence.
fn many_words(many: Option<u32>) -> String {
    match many {
        Some(people) => format!("Without a cart it takes {people} people along its edges for the lift as chosen."),
        None => "Along its edges there is no place for as many people as it takes without a cart.".to_owned(),
    }
}

/// Findings about carrying the piece with that index; `many` are the people who lift it where three are too few.
pub(crate) fn advise(
    (weights, crew): (&Weights, &Figure<Crew>),
    many: Option<u32>,
    job: &Job,
    piece: usize,
) -> Vec<Finding> {
    let most = limits::TEAM_SHARES.iter().filter_map(|(people, _)| team_capacity(*people, job.units));
    let most = most.fold(Mass::default(), |most, capacity| if capacity > most { capacity } else { most });
    match crew.value {
        Crew::Hands(_) => Vec::new(),
        Crew::Aid => vec![Finding {
            severity: Severity::Watch,
            stage: Stage::Finish,
            place: FieldPath::Piece(piece, PieceField::Thickness),
            says: format!(
                "{}It weighs {} out of the form; over {} three people should not lift it by hand.",
                read::piece_prefix(job, piece),
                say::mass(weights.as_cast.value, job.units),
                say::mass(most, job.units)
            ),
            remedy: format!(
                "Stand it on its long edge on a cart, never flat, and let people only steady it; or split the piece. {}",
                many_words(many)
            ),
            source: limits::LIFTING,
        }],
    }
}
