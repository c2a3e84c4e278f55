//! What decides how a pour goes, and whether it can be laid out.

use super::run::{Vessel, Work};
use super::{Stiffening, Told};
use crate::measure::{Measured, Quantity, Temperature, Time, Volume};
use crate::mix::whole_bags;
use crate::pour::limits;
use crate::pour::maturity::Law;
use crate::pour::temperature::{Charge, ChargeProblem};
use crate::working::{Figure, Label, Named, Source, Term};
use uom::si::f64::TemperatureInterval;
use uom::si::temperature_interval as interval;
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

/// A coat that is sprayed first, and has to stiffen before anything goes on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceCoat {
    /// The first so many batches are it.
    pub batches: u32,
    /// From when it is in until the next batch may be placed on it.
    pub stiffens: Time,
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
    /// What has to stiffen first, where there is such a coat.
    pub face: Option<FaceCoat>,
    /// Reinforcement that goes in during the pour.
    pub steel: Option<Steel>,
    /// Screeding and the first trowelling of all pieces, once all is placed; everybody is at it, and fewer take as long.
    pub screed: Time,
    /// Pieces that are screeded one after the other: poured in parts, each part has its share of them.
    pub pieces: u32,
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

/// A mix on the day.
#[derive(Clone, Copy)]
pub(super) struct Mix {
    pub(super) temperature: Temperature,
    /// How many times as long it stays workable by its retarder.
    pub(super) retarded: f64,
    /// How long it stays workable at its temperature.
    pub(super) plain: Time,
    /// The same with its retarder.
    pub(super) workable: Time,
}

impl Mix {
    /// The latest end of a pour that fits.
    pub(super) fn last_end(&self) -> Time {
        self.workable * (1.0 + crate::measure::COUNT_TOLERANCE)
    }
}

impl PourDay {
    /// How warm the mix is, and how long a batch of it stays workable at that, without and with its retarder.
    pub(super) fn mix(&self) -> Result<Mix, DayProblem> {
        let temperature = match self.warmth {
            Warmth::Typed(temperature) => temperature,
            Warmth::Of(charge) => charge.mixed_temperature().map_err(DayProblem::Warmth)?,
        };
        let retarded = match self.retarder {
            None => 1.0,
            Some(Retarder { at_most, used }) => {
                let good = (1.0..=limits::RETARDER_MOST).contains(&at_most) && (0.0..=1.0).contains(&used);
                if !good {
                    return Err(DayProblem::Retarder);
                }
                1.0 + (at_most - 1.0) * used
            }
        };
        let plain = self.stiffening.workable(self.workable, temperature);
        let workable = plain * retarded;
        let sane = |time: Time| time.value > 0.0 && time <= limits::longest_step() * 1000.0;
        if !(sane(self.workable) && sane(workable) && temperature.get::<kelvin>().is_finite()) {
            return Err(DayProblem::Workable);
        }
        Ok(Mix { temperature, retarded, plain, workable })
    }

    /// How long a batch stays workable, with its working.
    pub(super) fn workable_figure(&self, mix: &Mix, told: &Told) -> Figure<Time> {
        let title = "Workable time of a batch";
        let reference = limits::workable_reference();
        let name = Label::with("workable time at {}", [reference.quantity()]);
        let parts = [
            self.workable.stated(name, told.workable).into(),
            mix.temperature.stated("temperature of the mix", Source::Typed).called("the mix").into(),
            reference.named(Label::with("{}", [reference.quantity()])).into(),
        ];
        let (plain, source) = match self.stiffening {
            Stiffening::Halving => {
                let says = "{}, half as long for each 18 °F (10 °C) that {} is over {}";
                let halved = |x: &[f64]| x[0] * (-(x[1] - x[2]) / limits::WORKABLE_HALVES_EVERY).exp2();
                (Term::rule(says, parts, halved, mix.plain), Source::Practice)
            }
            Stiffening::EquivalentAge { activation } => {
                let kelvins = activation.get::<interval::kelvin>();
                let activation = Term::named_as(kelvins, "activation", Quantity::Number(kelvins, 0));
                let says = "{} ÷ the pace of equivalent age of {} against {}, activation {} K";
                let paced = |x: &[f64]| {
                    let activation = TemperatureInterval::new::<interval::kelvin>(x[3]);
                    let [at, reference] = [x[1], x[2]].map(Temperature::new::<kelvin>);
                    x[0] / Law::EquivalentAge { activation }.pace(at, reference)
                };
                let parts = parts.into_iter().chain([activation.into()]);
                (Term::rule(says, parts, paced, mix.plain), limits::MATURITY)
            }
        };
        if mix.retarded > 1.0 {
            let plain = plain.step(Label::with("workable time at {}", [mix.temperature.quantity()]), source);
            (plain * mix.retarded.named("what the retarder does")).titled(title, Source::Typed)
        } else {
            plain.titled(title, source)
        }
    }

    /// The work, and the mixers with what they hold, largest first.
    pub(super) fn work(&self) -> Result<(Work, Vec<Vessel>), DayProblem> {
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
        let lasting = self
            .steel
            .map(|steel| steel.takes)
            .into_iter()
            .chain(self.face.map(|face| face.stiffens))
            .chain([self.screed]);
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
                (Holds::Volume(holds), Some(bag)) => {
                    bag * ((holds / bag).value + crate::measure::COUNT_TOLERANCE).floor()
                }
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
        if (volume / smallest).value > crate::mix::limits::MOST_BATCHES as f64 {
            return Err(DayProblem::TooManyBatches);
        }
        Ok((Work { volume, times, face: self.face, steel: self.steel, screed: self.screed }, vessels))
    }
}

impl DayProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> Label {
        match self {
            Self::Volume => "There is nothing to pour yet.".into(),
            Self::Bag => "Mixers: say what a bag gives, or what the mixer holds.".into(),
            Self::People => format!("People: give from 1 to {}.", limits::MOST_HANDS).into(),
            Self::Mixers => format!("Mixers: give from 1 to {}.", limits::MOST_HANDS).into(),
            Self::MixerTooSmall(index) => format!("Mixer {}: it does not hold a batch.", index + 1).into(),
            Self::TooManyBatches => {
                format!("This takes more than {} batches.", crate::mix::limits::MOST_BATCHES).into()
            }
            Self::Times => "Minutes a batch: they must be more than nothing, and less than a pour.".into(),
            Self::Steel => "Steel: it goes in somewhere between an empty and a full form.".into(),
            Self::Workable => "Workable time: no mix can be planned with this one at this temperature.".into(),
            Self::Retarder => {
                format!("Retarder: it keeps a mix workable from 1 to {} times as long.", limits::RETARDER_MOST).into()
            }
            Self::Warmth(problem) => problem.says(),
        }
    }
}
