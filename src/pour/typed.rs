//! What a change of the pour is as typed into the job: one tap, and the pour fits.

use super::inputs::{CureInputs, DayInputs};
use super::plan::Plan;
use super::timeline::{Change, Holds, PourDay, Warmth};
use crate::job::{AdditiveField, FieldPath, Job, PourField};
use crate::measure::exact::{in_cubic_feet, in_pounds, in_quarts};
use crate::measure::{Dose, Mass, Time, Units, Volume, write_number, write_temperature};
use crate::mix::{MixInputs, share_of};
use uom::si::mass::gram;
use uom::si::time::minute;
use uom::si::volume::{liter, milliliter};

impl Plan {
    /// What to type where, so that the job has that change; nothing where the job has no field for it.
    pub fn typed(&self, change: Change, job: &Job) -> Vec<(FieldPath, String)> {
        let at = FieldPath::Pour;
        let count = |field, count: u32| (at(field), count.to_string());
        let day = &self.day;
        let mixers = day.mixers.len() as u32;
        match change {
            Change::People(people) => {
                // Mixers stay as many as they are.
                vec![count(PourField::People, people), count(PourField::Mixers, mixers)]
            }
            Change::Mixers(more) => vec![count(PourField::Mixers, mixers.saturating_add(more))],
            Change::PeopleWithMixers(more) => {
                let people = count(PourField::People, day.people.saturating_add(more));
                // Blank, it goes with the people.
                let one_each = DayInputs::read(job).mixers == Ok(None) && mixers == day.people;
                if one_each {
                    vec![people]
                } else {
                    vec![people, count(PourField::Mixers, mixers.saturating_add(more))]
                }
            }
            Change::Bigger(Holds::Bags(bags)) => {
                let bigger = day.with(change);
                let mut typed = vec![count(PourField::BagsABatch, bags)];
                typed.extend(self.slower(&bigger));
                if let Some(Holds::Bags(now)) = day.mixers.first() {
                    typed.extend(self.more_ice(f64::from(bags) / f64::from((*now).max(1)), job.units));
                }
                typed
            }
            Change::Bigger(Holds::Volume(holds)) => {
                let bigger = day.with(change);
                let mut typed = vec![(MixInputs::read(job, self.bag).batch_at(), mixer(holds, job.units))];
                typed.extend(self.slower(&bigger));
                if let Some(Holds::Volume(now)) = day.mixers.first() {
                    typed.extend(self.more_ice((holds / *now).value, job.units));
                }
                typed
            }
            Change::Water(temperature) => {
                vec![(at(PourField::WaterTemperature), write_temperature(temperature, job.units).text)]
            }
            Change::Ice(ice) => vec![(at(PourField::Ice), mass(ice, job.units))],
            Change::Cooler(temperature) => vec![(at(PourField::Mix), write_temperature(temperature, job.units).text)],
            Change::Retarder(share) => self.retarded(share, job).into_iter().collect(),
            Change::Parts(parts) => vec![count(PourField::Parts, self.parts_in_all(parts))],
        }
    }

    /// Larger batches take longer to carry and to place.
    fn slower(&self, bigger: &PourDay) -> impl Iterator<Item = (FieldPath, String)> {
        let (now, then) = (self.day.times, bigger.times);
        let both = [(PourField::Carry, then.dump, now.dump), (PourField::Place, then.place, now.place)];
        both.into_iter()
            .filter(|(_, then, now)| then > now)
            .map(|(field, then, _)| (FieldPath::Pour(field), minutes(then)))
    }

    /// A batch so many times as large takes as much more ice.
    fn more_ice(&self, times: f64, units: Units) -> Option<(FieldPath, String)> {
        match self.day.warmth {
            Warmth::Of(charge) if charge.ice.value > 0.0 => {
                Some((FieldPath::Pour(PourField::Ice), mass(charge.ice * times, units)))
            }
            _ => None,
        }
    }

    /// What was laid out is one part: cut into so many, the piece has as many times more.
    fn parts_in_all(&self, of_one: u32) -> u32 {
        of_one.saturating_mul((self.parts.len() as u32).max(1))
    }

    /// The change in words: "3 people".
    pub fn words(&self, change: Change, units: Units) -> String {
        match change {
            // Between pieces there is no joint.
            Change::Parts(parts) if parts > 1 && parts == self.day.pieces => "one piece after the other".to_owned(),
            Change::Parts(parts) => Change::Parts(self.parts_in_all(parts)).words(units),
            change => change.words(units),
        }
    }

    /// The dose of the retarder that is that share of the most, and no less than the label's least.
    fn retarded(&self, share: f64, job: &Job) -> Option<(FieldPath, String)> {
        let cure = CureInputs::read(job, MixInputs::read(job, self.bag));
        let place = |index, field| FieldPath::Additive(self.bag, index, field);
        let index = cure.additives.iter().position(|additive| matches!(additive.longer, Ok(Some(_))))?;
        let dosed = cure.mix.additives.get(index)?;
        let most = dosed.dose_most.readable()?;
        let least = dosed.dose_least.readable().and_then(|least| share_of(least, most)).unwrap_or(0.0);
        let share = share.max(least);
        let text = if share >= 1.0 {
            job.entry_at(place(index, AdditiveField::DoseMost))?.text().to_owned()
        } else {
            match most {
                Dose::Volume(most) => volume(most * share, job.units),
                Dose::Mass(most) => mass(most * share, job.units),
            }
        };
        Some((place(index, AdditiveField::Dose), text))
    }
}

/// Rounded up, so that what is typed is never less than what was worked out.
fn up(value: f64, step: f64) -> f64 {
    (value / step * (1.0 - 1e-9)).ceil() * step
}

fn minutes(time: Time) -> String {
    // Never up: that it fits was tried with the exact time.
    write_number((time.get::<minute>() * 1000.0).floor() / 1000.0, 3) + " min"
}

fn mass(value: Mass, units: Units) -> String {
    match units {
        Units::Inch => write_number(up(in_pounds(value) * 16.0, 0.1), 1) + " oz",
        Units::Metric => write_number(up(value.get::<gram>(), 1.0), 0) + " g",
    }
}

fn mixer(value: Volume, units: Units) -> String {
    match units {
        Units::Inch => write_number(up(in_cubic_feet(value), 0.01), 2) + " ft³",
        Units::Metric => write_number(up(value.get::<liter>(), 0.1), 1) + " L",
    }
}

fn volume(value: Volume, units: Units) -> String {
    match units {
        Units::Inch => write_number(up(in_quarts(value) * 192.0, 0.25), 2) + " tsp",
        Units::Metric => write_number(up(value.get::<milliliter>(), 1.0), 0) + " mL",
    }
}
