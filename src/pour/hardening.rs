//! How a mix hardens in its form: the one account of strength against the clock, which both the time to strip and
//! the check against cracking read.
//!
//! Strength is known at ages at the reference temperature. How warm it is around the form turns those into ages by the
//! clock: the garage's spells where they are typed, else the air of the day, by equivalent age.

use super::keep::strength_at_28_days;
use super::maturity::{History, HistoryProblem, Law, Stretch, instant};
use super::strength::{Growth, Point, Points, PointsProblem, Strengthening};
use crate::job::read::{self, all, both, optional};
use crate::job::{Family, Job, Place, PourField, RecipeField, SpellField, StrengthField};
use crate::limits;
use crate::measure::{Pressure, Temperature, Time};
use crate::working::{Known, Waiting};
use uom::si::time::day;

/// How a mix hardens in its form.
#[derive(Clone, Debug, PartialEq)]
pub struct Hardening {
    /// How warm it is around the form, from first water on.
    pub history: History,
    /// How it gains strength at the reference temperature; nothing where no strength is known.
    pub growth: Option<Strengthening>,
    /// The temperature at which label and strengths are stated.
    pub reference: Temperature,
}

impl Hardening {
    /// A mix of the job in its form. Where no temperature is known, that of the reference counts.
    ///
    /// # Errors
    /// What it waits for: temperatures, and strengths.
    pub fn of(job: &Job, bag: usize) -> Known<Self> {
        let reference = limits::strength_reference();
        let (history, growth) = both(history(job, reference), growth(job, bag))?;
        Ok(Self { history, growth, reference })
    }

    /// Its strength at an age by the clock; nothing before anything is known of it.
    pub fn strength_at(&self, clock: Time) -> Option<Pressure> {
        let (growth, age) = (self.growth.as_ref()?, self.equivalent_age(clock));
        // An age that was reckoned from a point's own may miss it by a last bit.
        growth.strength_at(age).or_else(|| growth.strength_at(age + instant()))
    }

    /// The age by the clock at which it has that strength; nothing where it never does, as far as is known.
    pub fn clock_when(&self, strength: Pressure) -> Option<Time> {
        self.clock_at(self.growth.as_ref()?.age_of(strength)?)
    }

    /// The age by the clock at which it is as old as at the reference temperature; nothing where nothing hardens.
    pub fn clock_at(&self, age: Time) -> Option<Time> {
        self.history.clock_at(age, Law::default(), self.reference)
    }

    /// The age at the reference temperature that an age by the clock amounts to.
    pub fn equivalent_age(&self, clock: Time) -> Time {
        self.history.age_after(clock, Law::default(), self.reference)
    }
}

/// How warm it is around the form: the spells that were typed, else as on the day, else as at the reference.
fn history(job: &Job, reference: Temperature) -> Known<History> {
    let spells = (0..job.pour.garage.len()).map(|index| {
        let lasts = read::positive_duration(job, Place::Spell(index, SpellField::Lasts));
        let temperature = read::temperature(job, Place::Spell(index, SpellField::Temperature));
        both(lasts, temperature).map(|(lasts, temperature)| Stretch { lasts, temperature })
    });
    let spells = all(spells)?;
    let waits = |problem: HistoryProblem| {
        let place = match problem {
            HistoryProblem::Lasts(index) => Place::Spell(index, SpellField::Lasts),
            HistoryProblem::Temperature(index) if !job.pour.garage.is_empty() => {
                Place::Spell(index, SpellField::Temperature)
            }
            _ => Place::Pour(PourField::Air),
        };
        Waiting::at(place, problem.says())
    };
    if spells.is_empty() {
        let air = optional(job, Place::Pour(PourField::Air), read::temperature)?;
        return History::steady(air.unwrap_or(reference)).map_err(waits);
    }
    History::new(spells).map_err(waits)
}

/// How a mix gains strength: by the strengths typed with it, else by the strength that it is made for. Rows that are
/// blank do not count.
fn growth(job: &Job, index: usize) -> Known<Option<Strengthening>> {
    let Some(bag) = job.bags.get(index) else { return Ok(None) };
    let rows: Vec<usize> = std::iter::zip(0.., &bag.strengths)
        .filter(|(_, typed)| !(typed.age.is_blank() && typed.strength.is_blank()))
        .map(|(row, _)| row)
        .collect();
    let read_row = |row: &usize| {
        let place = |field| Place::Strength(index, *row, field);
        let age = read::positive_duration(job, place(StrengthField::Age));
        both(age, read::positive_pressure(job, place(StrengthField::Strength)))
            .map(|(age, strength)| Point { age, strength })
    };
    let points = all(rows.iter().map(read_row))?;
    if let ([only], Family::PortlandConcrete) = (points.as_slice(), bag.family)
        && (only.age.get::<day>() - 28.0).abs() < 0.5
    {
        // The slower of the usual cements, since a label seldom says which.
        return Ok(Some(Strengthening::Portland { growth: Growth::OrdinaryMoist, at_28_days: only.strength }));
    }
    match Points::new(&points) {
        Ok(points) => Ok(Some(Strengthening::Points(points))),
        Err(PointsProblem::Empty) => {
            let blank = job.entry_at(Place::Recipe(index, RecipeField::Strength)).is_none_or(|typed| typed.is_blank());
            let made_for = if blank { None } else { strength_at_28_days(job, index)? };
            let portland = |at_28_days| Strengthening::Portland { growth: Growth::OrdinaryMoist, at_28_days };
            Ok(made_for.map(|strength| portland(strength.value)))
        }
        Err(problem) => {
            let (row, field) = match problem {
                PointsProblem::Age(row) | PointsProblem::SameAge(row) => (row, StrengthField::Age),
                PointsProblem::Strength(row) | PointsProblem::Weaker(row) => (row, StrengthField::Strength),
                PointsProblem::Empty => (0, StrengthField::Age),
            };
            let row = rows.get(row).copied().unwrap_or(0);
            Err(Waiting::at(Place::Strength(index, row, field), problem.says()))
        }
    }
}
