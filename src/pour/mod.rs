//! When things happen: batches against the workable time, on one line and on a time line; the weather, the
//! temperature of the mix, and when a top may be stripped.

mod advice;
pub mod maturity;
pub mod strength;
pub mod strip;
pub mod temperature;
pub mod timeline;
pub mod weather;
mod write;

pub use advice::Advice;
pub use write::{write_drying, write_strength, write_wind};

use crate::finding::{Finding, Stage, Strength, say};
use crate::job::read::{self, both};
use crate::job::{BagField, Job, Place, PourField, Units};
use crate::limits;
use crate::measure::{Temperature, Time, write_count, write_duration, write_percent, write_temperature};
use crate::mix::{Pour, source_of};
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit, kelvin};

/// One change that, alone, makes a pour fit; each is computed, not listed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// So many people mixing at the same time.
    People(u32),
    /// So many bags in one batch.
    BagsABatch(u32),
    /// Mix and air no warmer than this.
    CoolTo(Temperature),
}

/// The batches of one piece against the clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Batches to mix.
    pub batches: Figure<u32>,
    /// From first water to last placement.
    pub takes: Figure<Time>,
    /// How long the mix stays workable at the day's temperature.
    pub workable: Figure<Time>,
    /// It fits inside the workable time.
    pub fits: bool,
    /// What would make it fit; empty when it does.
    pub remedies: Vec<Remedy>,
}

/// The people, the vessels and the time a batch takes.
#[derive(Clone, Copy)]
struct Hands {
    people: u32,
    bags_a_batch: u32,
    time_a_batch: Time,
}

impl Hands {
    fn batches(self, bags: u32) -> u32 {
        bags.div_ceil(self.bags_a_batch.max(1))
    }

    /// Each person mixes in a vessel of their own, so batches run in rounds.
    fn rounds(self, bags: u32) -> u32 {
        self.batches(bags).div_ceil(self.people.max(1))
    }

    fn takes(self, bags: u32) -> Time {
        f64::from(self.rounds(bags)) * self.time_a_batch
    }
}

/// How long a mix stays workable at a temperature, from what it does at 70 °F: half as long for each
/// 18 °F hotter. Common practice.
pub fn workable_at(at_reference: Time, temperature: Temperature) -> Time {
    let hotter = temperature.get::<kelvin>() - limits::workable_reference().get::<kelvin>();
    at_reference * (-hotter / limits::WORKABLE_HALVES_EVERY).exp2()
}

fn fits(takes: Time, workable: Time) -> bool {
    takes <= workable * (1.0 + limits::COUNT_TOLERANCE)
}

impl Plan {
    /// The batches of a piece against the clock.
    ///
    /// # Errors
    /// What it waits for: a figure of pour day, or the bag's workable time.
    pub fn of(pour: &Pour, job: &Job) -> Known<Self> {
        let place = Place::Pour;
        let people = read::count(job, place(PourField::People));
        let bags_a_batch = read::count(job, place(PourField::BagsABatch));
        let time_a_batch = read::positive_duration(job, place(PourField::MinutesABatch));
        let air = read::temperature(job, place(PourField::Air));
        let at_reference = read::positive_duration(job, Place::Bag(pour.bag, BagField::Workable));
        let (((people, bags_a_batch), time_a_batch), (air, at_reference)) =
            both(both(both(people, bags_a_batch), time_a_batch), both(air, at_reference))?;
        let (units, bags) = (job.units, pour.bags.value);
        let hands = Hands { people, bags_a_batch, time_a_batch };

        let batches = Working::new("Batches to mix")
            .after(&pour.bags.working)
            .line(
                "bags ÷ bags a batch, rounded up",
                format!("{bags} ÷ {bags_a_batch}"),
                write_count(hands.batches(bags), "batch", "batches"),
                Source::Arithmetic,
            )
            .of(hands.batches(bags));
        let takes = Working::new("From first water to last placement")
            .line(
                "batches ÷ people mixing, rounded up",
                format!("{} ÷ {people}", batches.value),
                write_count(hands.rounds(bags), "round", "rounds"),
                Source::Practice,
            )
            .line(
                "rounds × time a batch",
                format!("{} × {}", hands.rounds(bags), write_duration(time_a_batch)),
                write_duration(hands.takes(bags)),
                Source::Arithmetic,
            )
            .of(hands.takes(bags));

        let workable = workable_at(at_reference, air);
        if !(workable.value.is_finite() && workable.value > 0.0) {
            let place = place(PourField::Air);
            let says = format!("{}: no mix can be planned at this temperature.", read::name_of(job, place));
            return Err(Waiting::at(place, says));
        }
        let step = match units {
            Units::Inch => "18 °F",
            Units::Metric => "10 °C",
        };
        let reference = write_temperature(limits::workable_reference(), units);
        let source = job.bags.get(pour.bag).map_or(Source::Typed, |bag| source_of(bag, BagField::Workable));
        let workable = Working::new("Workable time on the day")
            .line(format!("workable time at {reference}"), "", write_duration(at_reference), source)
            .line(
                format!("workable time at {reference} × 2^(−(temperature − {reference}) ÷ {step})"),
                format!(
                    "{} × 2^(−({} − {reference}) ÷ {step})",
                    write_duration(at_reference),
                    write_temperature(air, units)
                ),
                write_duration(workable),
                Source::Practice,
            )
            .of(workable);

        let fits = fits(takes.value, workable.value);
        let remedies = if fits { Vec::new() } else { remedies(hands, bags, at_reference, workable.value, units) };
        Ok(Self { batches, takes, workable, fits, remedies })
    }
}

fn remedies(hands: Hands, bags: u32, at_reference: Time, workable: Time, units: Units) -> Vec<Remedy> {
    let fits_with = |hands: Hands| fits(hands.takes(bags), workable);
    let people = (hands.people.saturating_add(1)..=limits::MOST_PEOPLE)
        .find(|&people| fits_with(Hands { people, ..hands }))
        .map(Remedy::People);
    let bags_a_batch = (hands.bags_a_batch.saturating_add(1)..=limits::MOST_BAGS_A_BATCH)
        .find(|&bags_a_batch| fits_with(Hands { bags_a_batch, ..hands }))
        .map(Remedy::BagsABatch);
    people.into_iter().chain(bags_a_batch).chain(cool_to(hands.takes(bags), at_reference, units)).collect()
}

/// The warmest whole degree at which a pour that takes so long fits, if it is not too cold to pour.
fn cool_to(takes: Time, at_reference: Time, units: Units) -> Option<Remedy> {
    let ratio: f64 = (takes / at_reference).into();
    let warmest = Temperature::new::<kelvin>(
        limits::workable_reference().get::<kelvin>() - limits::WORKABLE_HALVES_EVERY * ratio.log2(),
    );
    // A temperature that is whole but for float noise must not lose a degree.
    let whole = |degrees: f64| (degrees + limits::TEMPERATURE_TOLERANCE).floor();
    let warmest = match units {
        Units::Inch => Temperature::new::<degree_fahrenheit>(whole(warmest.get::<degree_fahrenheit>())),
        Units::Metric => Temperature::new::<degree_celsius>(whole(warmest.get::<degree_celsius>())),
    };
    let least = limits::air_least().get::<kelvin>() - limits::TEMPERATURE_TOLERANCE;
    let warm_enough = warmest.get::<kelvin>() >= least;
    (warm_enough && fits(takes, workable_at(at_reference, warmest))).then_some(Remedy::CoolTo(warmest))
}

impl Remedy {
    /// The remedy in words: "3 people mixing".
    pub fn words(self, units: Units) -> String {
        match self {
            Self::People(people) => format!("{people} people mixing, each with a vessel"),
            Self::BagsABatch(bags) => format!("{bags} bags a batch in a bigger mixer, in the same time"),
            Self::CoolTo(temperature) => {
                format!("mix and air no warmer than {}", say::temperature(temperature, units))
            }
        }
    }
}

/// Findings about the weather of pour day.
pub(crate) fn advise_job(job: &Job) -> Vec<Finding> {
    let place = Place::Pour(PourField::Air);
    let Ok(air) = read::temperature(job, place) else { return Vec::new() };
    let write = |temperature| say::temperature(temperature, job.units);
    let hotter_than = |limit: Temperature| air.get::<kelvin>() - limit.get::<kelvin>();
    let (limit, remedy, source) = if hotter_than(limits::air_least()) < -limits::TEMPERATURE_TOLERANCE {
        let limit = format!("under {} a mix sets slowly and may freeze", write(limits::air_least()));
        (limit, "Warm the room and the water, or wait for a warmer day.", limits::COLD)
    } else if hotter_than(limits::air_most()) > limits::TEMPERATURE_TOLERANCE {
        let limit = format!("over {} a mix stiffens fast and its face dries and cracks", write(limits::air_most()));
        (limit, "Pour early in the day, keep bags in the shade and cool the water.", limits::HOT)
    } else {
        return Vec::new();
    };
    vec![Finding {
        strength: Strength::Watch,
        stage: Stage::Pour,
        place,
        says: format!("It is {} where you pour; {limit}.", write(air)),
        remedy: remedy.to_owned(),
        source,
    }]
}

/// Findings about the plan of the piece with that index.
pub(crate) fn advise(plan: &Plan, job: &Job, piece: usize) -> Vec<Finding> {
    let share: f64 = (plan.takes.value / plan.workable.value).into();
    let takes = say::duration(plan.takes.value);
    let workable = say::duration(plan.workable.value);
    let prefix = read::piece_prefix(job, piece);
    let (strength, says, remedy) = if !plan.fits {
        let says = format!("{prefix}Mixing and placing takes {takes}, but the mix stays workable {workable}.");
        let words: Vec<_> = plan.remedies.iter().map(|remedy| remedy.words(job.units)).collect();
        let remedy = if words.is_empty() {
            "No single change makes it fit: split the piece, or use a mix that stays workable longer.".to_owned()
        } else {
            format!("Any one of these makes it fit: {}.", words.join("; "))
        };
        (Strength::Stop, says, remedy)
    } else if share > limits::WORKABLE_SHARE_WATCH * (1.0 + limits::COUNT_TOLERANCE) {
        let says = format!(
            "{prefix}Mixing and placing takes {takes} of the {workable} that the mix stays workable; over {} leaves no \
             room for a mishap.",
            write_percent(limits::WORKABLE_SHARE_WATCH)
        );
        (Strength::Watch, says, "Use cooler water, or have a second person mix.".to_owned())
    } else {
        return Vec::new();
    };
    let place = Place::Pour(PourField::People);
    vec![Finding { strength, stage: Stage::Pour, place, says, remedy, source: Source::Practice }]
}
