//! What would make a pour fit: the smallest change of each kind, tried by laying the pour out again.

use super::{Holds, Outcome, PourDay, Retarder, Warmth};
use crate::finding::say;
use crate::measure::{Mass, Temperature, Time, Units, write_count, write_mass, write_percent, write_volume};
use crate::mix::proportion::scale_step;
use crate::pour::limits;
use crate::pour::temperature::{Charge, ChargeProblem};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit, kelvin};

/// One change of a pour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// So many people in all.
    People(u32),
    /// So many more mixers, each like the largest.
    Mixers(u32),
    /// So many more people, each with a mixer like the largest.
    PeopleWithMixers(u32),
    /// The largest mixer, and those that hold as much, replaced by ones that hold so much; dumping and placing a
    /// batch take longer in proportion, mixing does not.
    Bigger(Holds),
    /// Mixing water of that temperature.
    Water(Temperature),
    /// So much of the mixing water of one batch as ice.
    Ice(Mass),
    /// A mix of that temperature, where it is not known how it comes by it.
    Cooler(Temperature),
    /// That share of the most retarder that its label allows.
    Retarder(f64),
    /// In so many equal parts, each poured by itself, with a planned joint between: the largest part.
    Parts(u32),
}

/// A change that, alone, makes a pour fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Remedy {
    /// What to change.
    pub change: Change,
    /// How large a change it is: 1 doubles what is changed. Of temperature it counts what the mix is cooled by,
    /// 18 °F (10 °C) as 1; of a retarder, what it does to the workable time.
    pub size: f64,
    /// From first water until it is screeded with it; of parts, of the largest.
    pub takes: Time,
    /// What is left then of the workable time that it was to fit into.
    pub margin: Time,
}

impl PourDay {
    /// The day with that change.
    pub fn with(&self, change: Change) -> Self {
        let mut day = self.clone();
        match change {
            Change::People(people) => day.people = people,
            Change::Mixers(more) => day.add_mixers(more),
            Change::PeopleWithMixers(more) => {
                day.people = day.people.saturating_add(more);
                day.add_mixers(more);
            }
            Change::Bigger(holds) => {
                if let Some((_, largest)) = self.largest() {
                    for mixer in day.mixers.iter_mut().filter(|mixer| **mixer == largest) {
                        *mixer = holds;
                    }
                    let times = times_as_much(largest, holds);
                    day.times.dump *= times;
                    day.times.place *= times;
                }
            }
            Change::Water(water_temperature) => {
                if let Warmth::Of(charge) = self.warmth {
                    day.warmth = Warmth::Of(Charge { water_temperature, ..charge });
                }
            }
            Change::Ice(ice) => {
                if let Warmth::Of(charge) = self.warmth {
                    let all = charge.water + charge.ice;
                    day.warmth = Warmth::Of(Charge { water: all - ice, ice, ..charge });
                }
            }
            Change::Cooler(temperature) => day.warmth = Warmth::Typed(temperature),
            Change::Retarder(used) => day.retarder = self.retarder.map(|retarder| Retarder { used, ..retarder }),
            Change::Parts(parts) => {
                let parts = parts.max(1);
                day.volume = self.volume / f64::from(parts);
                day.pieces = self.pieces.max(1).div_ceil(parts);
                day.screed = self.screed * f64::from(day.pieces) / f64::from(self.pieces.max(1));
            }
        }
        day
    }

    fn add_mixers(&mut self, more: u32) {
        if let Some((_, largest)) = self.largest() {
            let more = more.min(limits::MOST_HANDS as u32);
            self.mixers.extend(std::iter::repeat_n(largest, more as usize));
        }
    }

    /// The mixer that holds most; of equal ones the first.
    fn largest(&self) -> Option<(usize, Holds)> {
        let (_, vessels) = self.work().ok()?;
        let index = vessels.first()?.index;
        Some((index, *self.mixers.get(index)?))
    }
}

/// How many times as much one mixer holds as another that is told in the same way; 1 where it is not.
fn times_as_much(before: Holds, after: Holds) -> f64 {
    let times = match (before, after) {
        (Holds::Bags(before), Holds::Bags(after)) => f64::from(after) / f64::from(before),
        (Holds::Volume(before), Holds::Volume(after)) => (after / before).value,
        _ => 1.0,
    };
    if times.is_finite() { times } else { 1.0 }
}

/// A day that does not fit as it is, and what is tried on it.
struct Trial<'a> {
    day: &'a PourDay,
    now: &'a Outcome,
    units: Units,
}

/// What would make the pour fit, each alone, the smallest change of each kind, in the order of their sizes. Empty
/// when it fits as it is, when nothing alone helps, or when it cannot be laid out.
pub fn remedies(day: &PourDay, units: Units) -> Vec<Remedy> {
    let Ok(now) = day.outcome() else { return Vec::new() };
    if now.fits {
        return Vec::new();
    }
    let trial = Trial { day, now: &now, units };
    let mut found: Vec<Remedy> = trial.hands().into_iter().chain(trial.bigger()).collect();
    found.extend(trial.cooler());
    found.extend(trial.retarder());
    found.extend(trial.parts());
    // Stable: of equal sizes in the order of the kinds.
    found.sort_by(|one, other| one.size.total_cmp(&other.size));
    found
}

impl Trial<'_> {
    /// The change as a remedy, if the pour fits with it.
    fn tried(&self, change: Change, size: f64) -> Option<Remedy> {
        let found = self.day.with(change).outcome_if_it_fits()?;
        Some(Remedy { change, size, takes: found.run.ends, margin: found.margin })
    }

    fn hands(&self) -> Vec<Remedy> {
        let (people, mixers) = (self.day.people, self.day.mixers.len() as u32);
        let more = |count: u32, now: u32| f64::from(count) / f64::from(now.max(1));
        let more_people = 1..=limits::MOST_PEOPLE.saturating_sub(people);
        let more_mixers = 1..=(limits::MOST_MIXERS as u32).saturating_sub(mixers);
        let both = 1..=(*more_people.end()).min(*more_mixers.end());
        let by_people = more_people.clone().find_map(|n| self.tried(Change::People(people + n), more(n, people)));
        let by_mixers = more_mixers.clone().find_map(|n| self.tried(Change::Mixers(n), more(n, mixers)));
        let size = |n| more(n, people) + more(n, mixers);
        let by_both = both.clone().find_map(|n| self.tried(Change::PeopleWithMixers(n), size(n)));
        // Both together are worth saying only where neither alone does it with as few.
        let alone = [&by_people, &by_mixers];
        let alone = alone.into_iter().flatten().map(|remedy| remedy.change);
        let fewest = alone.map(|change| match change {
            Change::People(all) => all - people,
            Change::Mixers(more) => more,
            _ => u32::MAX,
        });
        let fewest = fewest.min().unwrap_or(u32::MAX);
        let by_both = by_both.filter(|remedy| matches!(remedy.change, Change::PeopleWithMixers(n) if n < fewest));
        by_people.into_iter().chain(by_mixers).chain(by_both).collect()
    }

    fn bigger(&self) -> Option<Remedy> {
        let (_, largest) = self.day.largest()?;
        let sizes: Vec<Holds> = match largest {
            Holds::Bags(bags) => (bags.saturating_add(1)..=limits::MOST_BAGS_A_BATCH).map(Holds::Bags).collect(),
            Holds::Volume(volume) => limits::BIGGER_MIXERS.iter().map(|times| Holds::Volume(volume * *times)).collect(),
        };
        sizes.into_iter().find_map(|holds| self.tried(Change::Bigger(holds), times_as_much(largest, holds) - 1.0))
    }

    /// The least cooling that does it: by its water where that is known, by ice where water cannot get so cold.
    fn cooler(&self) -> Option<Remedy> {
        let wanted = self.now.run.held / self.now.mix.retarded;
        let warmest = self.day.stiffening.warmest_for(self.day.workable, wanted)?;
        let cooled = |to: Temperature| self.now.mix.temperature.get::<kelvin>() - to.get::<kelvin>();
        if warmest.get::<kelvin>() < limits::air_least().get::<kelvin>() - crate::measure::TEMPERATURE_TOLERANCE {
            return None;
        }
        let change = match self.day.warmth {
            Warmth::Typed(_) => {
                let whole = whole_degrees(warmest, self.units);
                Change::Cooler(whole)
            }
            Warmth::Of(charge) => match charge.water_for(warmest) {
                Ok(water) => Change::Water(whole_degrees(water.value, self.units)),
                Err(ChargeProblem::NotSoCold(_)) => {
                    let ice = charge.ice_for(warmest).ok()?.value;
                    let step = scale_step(self.units);
                    let ice = ((ice / step).value - crate::measure::COUNT_TOLERANCE).ceil() * step;
                    Change::Ice(if ice < charge.water + charge.ice { ice } else { charge.water + charge.ice })
                }
                Err(_) => return None,
            },
        };
        let after = self.day.with(change).mix().ok()?;
        let size = cooled(after.temperature) / limits::WORKABLE_HALVES_EVERY;
        self.tried(change, size)
    }

    fn retarder(&self) -> Option<Remedy> {
        let retarder = self.day.retarder?;
        let now = self.now.mix.retarded;
        let steps = (1..=limits::RETARDER_STEPS).map(|step| f64::from(step) / f64::from(limits::RETARDER_STEPS));
        let more = steps.filter(|share| *share > retarder.used);
        more.map(|share| {
            let then = 1.0 + (retarder.at_most - 1.0) * share;
            self.tried(Change::Retarder(share), then / now - 1.0)
        })
        .find_map(|remedy| remedy)
    }

    fn parts(&self) -> Option<Remedy> {
        (2..=limits::MOST_PARTS_OF_POUR).find_map(|parts| self.tried(Change::Parts(parts), f64::from(parts) - 1.0))
    }
}

/// The whole degree of the job's scale at or under a temperature, never under freezing water.
fn whole_degrees(at: Temperature, units: Units) -> Temperature {
    // A temperature that is whole but for float noise must not lose a degree.
    let whole = |degrees: f64| (degrees + crate::measure::TEMPERATURE_TOLERANCE).floor();
    match units {
        Units::Inch => Temperature::new::<degree_fahrenheit>(whole(at.get::<degree_fahrenheit>()).max(32.0)),
        Units::Metric => Temperature::new::<degree_celsius>(whole(at.get::<degree_celsius>()).max(0.0)),
    }
}

impl Change {
    /// The change in words: "3 people".
    pub fn words(self, units: Units) -> String {
        match self {
            Self::People(people) => write_count(people, "person", "people"),
            Self::Mixers(more) => write_count(more, "more mixer like the largest", "more mixers like the largest"),
            Self::PeopleWithMixers(more) => {
                write_count(more, "more person, with a mixer", "more people, each with a mixer")
            }
            Self::Bigger(Holds::Bags(bags)) => {
                format!("{} a batch in a bigger mixer", write_count(bags, "bag", "bags"))
            }
            Self::Bigger(Holds::Volume(volume)) => {
                format!("batches of {} in a bigger mixer", write_volume(volume, units).text)
            }
            Self::Water(temperature) => format!("water of {}", say::temperature(temperature, units)),
            Self::Ice(ice) => format!("{} of the water of a batch as ice", write_mass(ice, units).text),
            Self::Cooler(temperature) => format!("a mix of {}", say::temperature(temperature, units)),
            Self::Retarder(share) => format!("retarder, {} of the most on its label", write_percent(share)),
            Self::Parts(2) => "in halves, with a planned joint".to_owned(),
            Self::Parts(parts) => format!("in {parts} parts, with planned joints"),
        }
    }
}
