//! How old and how strong a piece is when it is stripped, carried and used.

use super::ask::Later;
use super::cases::{Age, Ages};
use super::concrete::{Concrete, modulus_of_rupture};
use super::{limits, written};
use crate::job::read::{self, both};
use crate::job::{FieldPath, HandlingField, Job, LabelClass};
use crate::measure::{MassDensity, Pressure, Time, Units, write_duration, write_number, write_temperature};
use crate::mix;
use crate::pour;
use crate::pour::hardening::{Guarantee, Hardening};
use crate::pour::strength::Strengthening;
use crate::working::{Known, Source, Waiting, Working};
use uom::si::time::day;

/// A piece as it hardens.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthHistory {
    /// Its concrete at each age.
    pub ages: Ages,
    /// When it comes out of the form.
    pub stripped_at: Time,
    /// When it is carried and set.
    pub carried_at: Time,
    /// How its mix hardens in the form, by the clock.
    pub hardening: Hardening,
    /// The field that decides the strength when it is stripped: the strength where it is typed, else the age.
    pub decided_by: HandlingField,
    /// How its strength was obtained.
    pub working: Working,
}

impl StrengthHistory {
    /// How old it is then.
    pub fn at(&self, age: Age) -> Time {
        match age {
            Age::Stripping => self.stripped_at,
            Age::Handling => self.carried_at,
            // It may be used from the hour it is set.
            Age::InUse => self.carried_at,
        }
    }

    /// Its strength at that age is known, and not only that it is no less than when it was stripped.
    pub fn is_known(&self, age: Age) -> bool {
        // Carried in the hour in which it is stripped, it is as strong as then.
        self.at(age) <= self.stripped_at || self.ages.at(age).strength > self.ages.stripping.strength
    }

    /// How old it is once it has that strength, as far as the mix is known to reach it.
    pub fn age_of(&self, strength: Pressure) -> Option<Time> {
        self.hardening.clock_when(strength)
    }

    /// How strong it is known to get where it is left alone.
    pub(super) fn later(&self) -> Later {
        let at = |clock: Time| self.hardening.strength_at(clock).unwrap_or_default();
        let one_day = Time::new::<day>(1.0);
        Later {
            after_stripping: at(self.stripped_at + one_day),
            after_setting: at(self.carried_at + one_day),
            most: at(limits::longest_wait()),
        }
    }

    /// What its strength rests on where none is typed, and what would say more; nothing where it was typed.
    pub fn rests_on(&self, age: Age) -> Option<&'static str> {
        let told = age == Age::Stripping && self.decided_by == HandlingField::Strength;
        let guarantee = self.hardening.guaranteed_at(self.at(age)).filter(|_| !told)?;
        Some(match guarantee.class {
            LabelClass::Unsaid => {
                "No strength is typed, so the least counts that such bags are sold with. Type those of the label, or \
                 choose the class that it names, on the Pour screen."
            }
            _ => {
                "No strength is typed, so the least counts that the class on the label guarantees. Type those of its \
                 data sheet on the Pour screen."
            }
        })
    }

    /// A remedy, and that typed strengths may be one, where none is typed.
    pub(super) fn also_typed(&self, remedy: String, age: Age) -> String {
        match self.rests_on(age) {
            Some(words) => format!("{remedy} {words}"),
            None => remedy,
        }
    }

    /// The piece with that index; `wet` is the end of its hour of water.
    ///
    /// # Errors
    /// What it waits for: times, strengths, and what the weight of the mix waits for.
    pub(super) fn of(job: &Job, piece: usize, wet: Option<Time>) -> Known<Self> {
        let place = |field| FieldPath::Handling(piece, field);
        let (index, _) = mix::bag_of(job, piece)?;
        let carried = read::or_usual(job, place(HandlingField::CarriedAt), read::positive_duration);
        let inputs = pour::PourInputs::read(job, piece);
        let hardening = inputs.hardening();
        let density = mix::fresh_density(&mix::MixInputs::read(job, index)).map(|figure| figure.value);
        let ((carried_at, hardening), density) = both(both(carried, hardening), density)?;
        let earliest = pour::earliest(&inputs, &hardening, wet)?.age;
        let working = Working::new("Strength when it is stripped").after(&earliest.working);
        let stripped_at = earliest.value;
        let mut grown = Self {
            ages: same(Concrete { strength: Pressure::default(), flexural: None, density }),
            stripped_at,
            carried_at: if carried_at > stripped_at { carried_at } else { stripped_at },
            hardening,
            decided_by: HandlingField::StrippedAt,
            working,
        };
        grown.harden(job, piece, density)?;
        Ok(grown)
    }

    fn harden(&mut self, job: &Job, piece: usize, density: MassDensity) -> Known<()> {
        let place = |field| FieldPath::Handling(piece, field);
        let units = job.units;
        let typed = read::optional(job, place(HandlingField::Strength), read::positive_pressure);
        let flexural = read::optional(job, place(HandlingField::Flexural), read::positive_pressure);
        let (typed, flexural) = both(typed, flexural)?;
        if typed.is_some() {
            self.decided_by = HandlingField::Strength;
        }
        let equivalent = self.hardening.equivalent_age(self.stripped_at);
        let known = typed.or_else(|| self.hardening.strength_at(self.stripped_at));
        let Some(strength) = known else {
            let says = format!(
                "{}: type it. The bag or its data sheet says it as compressive strength at an age, such as “{}”. With \
                 one at {} or sooner among the strengths of the bag, it follows for every age.",
                read::name_of(job, place(HandlingField::Strength)),
                match units {
                    Units::Inch => "3000 psi at 3 hours",
                    Units::Metric => "20 MPa at 3 hours",
                },
                write_duration(equivalent).text,
            );
            return Err(Waiting::at(place(HandlingField::Strength), says));
        };
        let mut working = std::mem::replace(&mut self.working, Working::new(""));
        if typed.is_none() {
            let reference = write_temperature(self.hardening.reference, units);
            let pace = (equivalent / self.stripped_at).value;
            working = working.line(
                format!("age at {reference}: times the mean pace of hardening in the form"),
                format!("{} × {}", write_duration(self.stripped_at), write_number(pace, 2)),
                write_duration(equivalent),
                crate::pour::limits::MATURITY,
            );
        }
        let guarantee = self.hardening.guaranteed_at(self.stripped_at);
        let (how, source) = match (guarantee, &self.hardening.growth) {
            _ if typed.is_some() => ("as typed", Source::Typed),
            (Some(Guarantee { class: LabelClass::Unsaid, source, .. }), _) => {
                ("no strength being typed, the least that bags of its kind are sold with", source)
            }
            (Some(Guarantee { source, .. }), _) => {
                ("no strength being typed, the least that the class on its label guarantees", source)
            }
            (None, Some(Strengthening::Portland { .. })) => {
                ("by its age, from the strength at 28 days", crate::pour::limits::STRENGTH_IN_TIME)
            }
            (None, _) => ("between the bag's strengths, by the logarithm of age", Source::Typed),
        };
        let said = written::pressure(strength, units);
        self.working = working.line(format!("strength when stripped, {how}"), "", said, source);
        // A test says how this mix bends: by so much better or worse than the rule, at every age.
        let factor = flexural.map(|tested| tested / modulus_of_rupture(strength, units));
        let at = |clock: Time| {
            // Where nothing later is known, what is known stays.
            let grown = self.hardening.strength_at(clock).filter(|later| *later > strength).unwrap_or(strength);
            let flexural = factor.map(|factor| factor * modulus_of_rupture(grown, units));
            Concrete { strength: grown, flexural, density }
        };
        let stripping = Concrete { strength, flexural, density };
        self.ages = Ages { stripping, handling: at(self.carried_at), in_use: at(self.carried_at) };
        Ok(())
    }
}

fn same(concrete: Concrete) -> Ages {
    Ages { stripping: concrete, handling: concrete, in_use: concrete }
}
