//! A pour laid out on a time line: who mixes which batch in which mixer, when it is placed, when the steel goes in,
//! and how much of the workable time is left.
//!
//! The whole top has to be workable together, because it is tapped, screeded and, at its steel, opened again: from
//! first water to last placement takes no longer than the first batch stays workable (common practice). That is
//! [`Timeline::last_margin`], and it decides whether a pour fits. [`Timeline::joint_margin`] is what is left before
//! a batch is laid on one that no longer knits; it is never the smaller of the two, and says how late any one batch
//! may be.
//!
//! People are told apart by their number only. Where more hands would be in each other's way, some stand by: a
//! layout is the earliest to end among those with so many people or fewer, and so many mixers or fewer, so that
//! more hands never end later.

mod change;
mod run;
mod workable;

pub use change::{Change, Remedy, remedies};
pub use workable::Stiffening;

use super::temperature::{Charge, ChargeProblem};
use crate::limits;
use crate::measure::{Temperature, Time, Units, Volume, write_count, write_duration, write_number, write_temperature};
use crate::mix::whole_bags;
use crate::working::{Figure, Source, Working};
use run::{Run, Vessel, Work, run};
use uom::si::thermodynamic_temperature::kelvin;

/// What a mixer takes at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holds {
    /// So many bags; it takes the yield of a bag to know what they fill.
    Bags(u32),
    /// So much mix; where the mix comes in bags, as many whole ones as go in.
    Volume(Volume),
}

/// What one batch takes, of a full mixer. A smaller batch is taken to take as long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Times {
    /// From water to mixed; a person stays with it.
    pub mix: Time,
    /// From mixed to an empty mixer.
    pub dump: Time,
    /// From dumped to placed in the form.
    pub place: Time,
}

/// Reinforcement that goes in during the pour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steel {
    /// At this share of the fill, over 0 to 1; what lies in the form before the first batch is none of the pour.
    pub at: f64,
    /// One person lays it in so long.
    pub takes: Time,
}

/// How warm the mix is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Warmth {
    /// As measured or guessed.
    Typed(Temperature),
    /// As it comes out of what goes in; then water can be chosen for it.
    Of(Charge),
}

/// A retarder in the mix, or at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Retarder {
    /// How many times as long the mix stays workable with the most that the label allows; over 1. In between in
    /// proportion.
    pub at_most: f64,
    /// Share of that dose which is in the mix, 0 to 1.
    pub used: f64,
}

/// Everything that decides how a pour goes.
#[derive(Clone, Debug, PartialEq)]
pub struct PourDay {
    /// To be mixed and placed, spare included.
    pub volume: Volume,
    /// What one bag gives, where the mix comes in bags; then whole bags are mixed.
    pub bag: Option<Volume>,
    /// People who mix and place.
    pub people: u32,
    /// Mixers and buckets.
    pub mixers: Vec<Holds>,
    /// What one batch takes.
    pub times: Times,
    /// Reinforcement that goes in during the pour.
    pub steel: Option<Steel>,
    /// How long the mix stays workable at 70 °F, without retarder.
    pub workable: Time,
    /// How that depends on temperature.
    pub stiffening: Stiffening,
    /// How warm the mix is.
    pub warmth: Warmth,
    /// A retarder, where there is one.
    pub retarder: Option<Retarder>,
}

/// Why a pour cannot be laid out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DayProblem {
    /// There is nothing to pour, or no finite amount.
    Volume,
    /// The yield of a bag is none, or a mixer holds bags and the mix does not come in them.
    Bag,
    /// Nobody is there, or more people than find room.
    People,
    /// There is no mixer, or more than find room.
    Mixers,
    /// The mixer of that index does not hold a bag, or nothing.
    MixerTooSmall(usize),
    /// More batches than anybody mixes in one pour.
    TooManyBatches,
    /// A time is no number, negative or longer than a pour; or a batch takes no time.
    Times,
    /// The share of the fill at which the steel goes in is not over 0 to 1.
    Steel,
    /// The workable time is not above zero at this temperature.
    Workable,
    /// What the retarder does cannot be.
    Retarder,
    /// The mix has no temperature.
    Warmth(ChargeProblem),
}

/// One batch on the time line; times since first water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Batch {
    /// What it fills.
    pub volume: Volume,
    /// In which mixer, by its index.
    pub mixer: usize,
    /// Who mixes it, from 0.
    pub mixed_by: usize,
    /// Who dumps and places it, from 0.
    pub placed_by: usize,
    /// Water goes in.
    pub water: Time,
    /// It is mixed.
    pub mixed: Time,
    /// The mixer is empty.
    pub dumped: Time,
    /// It is in its place.
    pub placed: Time,
}

/// When the steel is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    /// From then.
    pub from: Time,
    /// Until then.
    pub until: Time,
    /// By whom, from 0.
    pub by: usize,
}

/// A pour on its time line; times since first water.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// The batches, in the order of their water, which is that of their placing.
    pub batches: Vec<Batch>,
    /// The steel, where it goes in during the pour.
    pub steel: Option<Laid>,
    /// People at work; others stand by.
    pub people: usize,
    /// Mixers in use.
    pub mixers: usize,
    /// How warm the mix is.
    pub temperature: Temperature,
    /// How long each batch stays workable, and knits with the next, from its own water.
    pub workable: Figure<Time>,
    /// From first water to the last placement, or the steel if that is later.
    pub takes: Figure<Time>,
    /// What is left of the first batch's workable time then; negative where it does not fit.
    pub last_margin: Figure<Time>,
    /// The least that is left, over all batches, of the workable time of one when the next is laid on it; `None`
    /// for a single batch.
    pub joint_margin: Option<Time>,
    /// It fits.
    pub fits: bool,
}

impl Batch {
    /// When it stops knitting with what is laid on it.
    pub fn stops(&self, workable: Time) -> Time {
        self.water + workable
    }
}

impl PourDay {
    /// How warm the mix is.
    fn temperature(&self, units: Units) -> Result<Temperature, DayProblem> {
        match self.warmth {
            Warmth::Typed(temperature) => Ok(temperature),
            Warmth::Of(charge) => charge.temperature(units).map(|mixed| mixed.value).map_err(DayProblem::Warmth),
        }
    }

    /// How many times as long it stays workable by its retarder.
    fn retarded(&self) -> Result<f64, DayProblem> {
        let Some(Retarder { at_most, used }) = self.retarder else { return Ok(1.0) };
        let good = (1.0..=limits::RETARDER_MOST).contains(&at_most) && (0.0..=1.0).contains(&used);
        if good { Ok(1.0 + (at_most - 1.0) * used) } else { Err(DayProblem::Retarder) }
    }

    /// How long a batch stays workable.
    fn workable(&self, units: Units) -> Result<Figure<Time>, DayProblem> {
        let (temperature, retarded) = (self.temperature(units)?, self.retarded()?);
        let at_temperature = self.stiffening.workable(self.workable, temperature);
        let workable = at_temperature * retarded;
        let sane = |time: Time| time.value > 0.0 && time <= limits::longest_step() * 1000.0;
        if !(sane(self.workable) && sane(workable) && temperature.get::<kelvin>().is_finite()) {
            return Err(DayProblem::Workable);
        }
        let reference = write_temperature(limits::workable_reference(), units);
        let at = write_temperature(temperature, units);
        let (formula, source) = match self.stiffening {
            Stiffening::Halving => ("half as long for each 18 °F (10 °C) hotter", Source::Practice),
            Stiffening::EquivalentAge { .. } => ("÷ the pace of equivalent age", limits::MATURITY),
        };
        let mut working = Working::new("Workable time of a batch")
            .line(format!("workable time at {reference}"), "", write_duration(self.workable), Source::Typed)
            .line("temperature of the mix", "", &at, Source::Typed)
            .line(
                format!("{formula}, from {reference} to {at}"),
                format!(
                    "{} × {}",
                    write_duration(self.workable),
                    write_number((at_temperature / self.workable).value, 3)
                ),
                write_duration(at_temperature),
                source,
            );
        if retarded > 1.0 {
            working = working.line(
                "× what the retarder does",
                format!("{} × {}", write_duration(at_temperature), write_number(retarded, 2)),
                write_duration(workable),
                Source::Typed,
            );
        }
        Ok(working.of(workable))
    }

    /// The work, and the mixers with what they hold, largest first.
    fn work(&self) -> Result<(Work, Vec<Vessel>), DayProblem> {
        let positive = |volume: Volume| volume.value > 0.0 && volume.value.is_finite();
        if !positive(self.volume) {
            return Err(DayProblem::Volume);
        }
        if self.bag.is_some_and(|bag| !positive(bag)) {
            return Err(DayProblem::Bag);
        }
        if self.people == 0 || self.people as usize > limits::MOST_HANDS {
            return Err(DayProblem::People);
        }
        if self.mixers.is_empty() || self.mixers.len() > limits::MOST_HANDS {
            return Err(DayProblem::Mixers);
        }
        let times = self.times;
        let steps = [times.mix, times.dump, times.place];
        let lasting = self.steel.map(|steel| steel.takes);
        // NaN is in no range.
        let sane = |time: Time| time >= Time::default() && time <= limits::longest_step();
        let all_sane = steps.into_iter().chain(lasting).all(sane);
        if !all_sane || steps.into_iter().sum::<Time>() <= Time::default() {
            return Err(DayProblem::Times);
        }
        if self.steel.is_some_and(|steel| !(steel.at > 0.0 && steel.at <= 1.0)) {
            return Err(DayProblem::Steel);
        }
        let volume = match self.bag {
            Some(bag) => {
                let bags = whole_bags((self.volume / bag).value).ok_or(DayProblem::TooManyBatches)?;
                bag * f64::from(bags)
            }
            None => self.volume,
        };
        let mut vessels = Vec::with_capacity(self.mixers.len());
        for (index, holds) in self.mixers.iter().enumerate() {
            let holds = match (*holds, self.bag) {
                (Holds::Bags(bags), Some(bag)) => bag * f64::from(bags),
                (Holds::Bags(_), None) => return Err(DayProblem::Bag),
                (Holds::Volume(holds), Some(bag)) => bag * ((holds / bag).value + limits::COUNT_TOLERANCE).floor(),
                (Holds::Volume(holds), None) => holds,
            };
            if !positive(holds) {
                return Err(DayProblem::MixerTooSmall(index));
            }
            vessels.push(Vessel { index, holds });
        }
        // Stable: of equal ones the first is the first to be used.
        vessels.sort_by(|one, other| other.holds.value.total_cmp(&one.holds.value));
        let smallest = vessels.last().map_or(volume, |vessel| vessel.holds);
        if (volume / smallest).value > limits::MOST_BATCHES as f64 {
            return Err(DayProblem::TooManyBatches);
        }
        Ok((Work { volume, times, steel: self.steel }, vessels))
    }

    /// The pour on its time line.
    ///
    /// # Errors
    /// Why it cannot be laid out.
    pub fn lay_out(&self, units: Units) -> Result<Timeline, DayProblem> {
        let workable = self.workable(units)?;
        let temperature = self.temperature(units)?;
        let (work, vessels) = self.work()?;
        let Run { batches, steel, ends, people, mixers } =
            earliest(&work, self.people as usize, &vessels).ok_or(DayProblem::Times)?;
        let joints = std::iter::zip(&batches, batches.iter().skip(1));
        let joints = joints.map(|(older, next)| older.stops(workable.value) - next.placed);
        let joint_margin = joints.reduce(|one, other| if other < one { other } else { one });
        let margin = workable.value - ends;
        let fits = margin >= -workable.value * limits::COUNT_TOLERANCE;
        let takes = takes(&batches, steel.as_ref(), ends, people, mixers);
        let last_margin = Working::new("Time to spare")
            .after(&workable.working)
            .after(&takes.working)
            .line(
                "workable time − from first water to last placement",
                format!("{} − {}", write_duration(workable.value), write_duration(ends)),
                write_duration(margin),
                Source::Practice,
            )
            .of(margin);
        Ok(Timeline { batches, steel, people, mixers, temperature, workable, takes, last_margin, joint_margin, fits })
    }
}

/// The run that ends first among those with so many people and mixers, or fewer; of equal ones that with the most.
fn earliest(work: &Work, people: usize, vessels: &[Vessel]) -> Option<Run> {
    let mut best: Option<Run> = None;
    let a_batch = work.times.mix + work.times.dump + work.times.place;
    for mixers in (1..=vessels.len()).rev() {
        for people in (1..=people).rev() {
            let Some(vessels) = vessels.get(..mixers) else { continue };
            let Some(largest) = vessels.first() else { continue };
            // No run is shorter than its work shared evenly; those that cannot be the first are not run.
            let batches = (work.volume / largest.holds).value;
            let least = a_batch * batches / people as f64;
            if best.as_ref().is_some_and(|best| least >= best.ends) {
                continue;
            }
            let Some(next) = run(work, people, vessels) else { continue };
            if best.as_ref().is_none_or(|best| next.ends < best.ends) {
                best = Some(next);
            }
        }
    }
    best
}

/// More batches than this are not listed in a working.
const MOST_SHOWN: usize = 12;

fn takes(batches: &[Batch], steel: Option<&Laid>, ends: Time, people: usize, mixers: usize) -> Figure<Time> {
    let count = |value: usize, one, many| write_count(value as u32, one, many);
    let mut working = Working::new("From first water to last placement").line(
        format!("{} with {}", count(people, "person", "people"), count(mixers, "mixer", "mixers")),
        "",
        count(batches.len(), "batch", "batches"),
        Source::Arithmetic,
    );
    for (index, batch) in batches.iter().enumerate().take(MOST_SHOWN) {
        working = working.line(
            format!("batch {}: water, mixed, mixer empty, placed", index + 1),
            format!(
                "{}, {}, {}",
                write_duration(batch.water),
                write_duration(batch.mixed),
                write_duration(batch.dumped)
            ),
            write_duration(batch.placed),
            Source::Arithmetic,
        );
    }
    if let Some(laid) = steel {
        let from = write_duration(laid.from).to_string();
        working = working.line("steel: from, until", from, write_duration(laid.until), Source::Arithmetic);
    }
    working.line("the last of these", "", write_duration(ends), Source::Arithmetic).of(ends)
}

impl Timeline {
    /// From when to when a rapid mix is kept wet: from when the first batch sets to one hour after the last one
    /// does (common practice).
    pub fn keep_wet(&self) -> [Time; 2] {
        let sets = |batch: Option<&Batch>| batch.map_or(Time::default(), |batch| batch.stops(self.workable.value));
        [sets(self.batches.first()), sets(self.batches.last()) + limits::water_cure()]
    }
}

impl DayProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self, units: Units) -> String {
        match self {
            Self::Volume => "There is nothing to pour yet.".to_owned(),
            Self::Bag => "Mixers: say what a bag gives, or what the mixer holds.".to_owned(),
            Self::People => format!("People: give from 1 to {}.", limits::MOST_HANDS),
            Self::Mixers => format!("Mixers: give from 1 to {}.", limits::MOST_HANDS),
            Self::MixerTooSmall(index) => format!("Mixer {}: it does not hold a batch.", index + 1),
            Self::TooManyBatches => format!("This takes more than {} batches.", limits::MOST_BATCHES),
            Self::Times => "Minutes a batch: they must be more than nothing, and less than a pour.".to_owned(),
            Self::Steel => "Steel: it goes in somewhere between an empty and a full form.".to_owned(),
            Self::Workable => "Workable time: no mix can be planned with this one at this temperature.".to_owned(),
            Self::Retarder => {
                format!("Retarder: it keeps a mix workable from 1 to {} times as long.", limits::RETARDER_MOST)
            }
            Self::Warmth(problem) => problem.says(units),
        }
    }
}
