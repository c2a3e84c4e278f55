//! How a mix hardens in its form: the one account of strength against the clock, which both the time to strip and
//! the check against cracking read.
//!
//! Strength is known at ages at the reference temperature: as typed, and before the first of those what the class on the
//! bag's label guarantees. How warm it is around the form turns those into ages by the clock: the garage's spells where
//! they are typed, else the air of the day, by equivalent age.

use super::keep::strength_at_28_days;
use super::maturity::{History, HistoryProblem, Law, Stretch, instant};
use super::strength::{Growth, Point, Points, PointsProblem, Strengthening};
use crate::job::read::{self, all, both, optional};
use crate::job::{BagField, Family, FieldPath, Job, LabelClass, PourField, RecipeField, SpellField, StrengthField};
use crate::measure::exact::psi;
use crate::measure::{Pressure, Temperature, Time};
use crate::pour::limits;
use crate::working::{Known, Source, Waiting};
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
    /// What counts where no strength is typed; nothing where all of them were typed.
    pub guarantee: Option<Guarantee>,
}

/// The least strengths of the class of a bag, which count where none is typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guarantee {
    /// The class, as far as the label names one.
    pub class: LabelClass,
    /// Where its strengths stand.
    pub source: Source,
    /// The age at the reference temperature from which on strengths are typed; nothing where none is.
    pub until: Option<Time>,
}

/// How a mix gains strength, and what of it is the least of a class.
struct Gains {
    growth: Option<Strengthening>,
    guarantee: Option<Guarantee>,
}

impl Hardening {
    /// A mix of the job in its form. Where no temperature is known, that of the reference counts.
    ///
    /// # Errors
    /// What it waits for: temperatures, and strengths.
    pub fn of(job: &Job, bag: usize) -> Known<Self> {
        let stated_at = optional(job, FieldPath::Bag(bag, BagField::StatedAt), read::temperature);
        let (stated_at, gains) = both(stated_at, gains(job, bag))?;
        let reference = stated_at.unwrap_or_else(|| limits::strength_reference(job.units));
        let history = history(job, reference)?;
        Ok(Self { history, growth: gains.growth, reference, guarantee: gains.guarantee })
    }

    /// The age by the clock before which nothing is known of its strength; zero where it is known from the first water
    /// on, nothing where it is never known.
    pub fn known_from(&self) -> Option<Time> {
        match self.growth.as_ref()?.first() {
            Some(point) => self.clock_at(point.age),
            None => Some(Time::default()),
        }
    }

    /// What its strength at an age by the clock rests on, where it was not typed.
    pub fn guaranteed_at(&self, clock: Time) -> Option<Guarantee> {
        let age = self.equivalent_age(clock);
        self.guarantee.filter(|guarantee| guarantee.until.is_none_or(|until| age < until))
    }

    /// The age by the clock at which a time on the label is over: it is one at the reference temperature, and never
    /// shorter by the clock. As on the label where nothing hardens.
    pub fn label_clock(&self, label: Time) -> Time {
        self.clock_at(label).filter(|clock| *clock > label).unwrap_or(label)
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
        let lasts = read::positive_duration(job, FieldPath::Spell(index, SpellField::Lasts));
        let temperature = read::temperature(job, FieldPath::Spell(index, SpellField::Temperature));
        both(lasts, temperature).map(|(lasts, temperature)| Stretch { lasts, temperature })
    });
    let spells = all(spells)?;
    let waits = |problem: HistoryProblem| {
        let place = match problem {
            HistoryProblem::Lasts(index) => FieldPath::Spell(index, SpellField::Lasts),
            HistoryProblem::Temperature(index) if !job.pour.garage.is_empty() => {
                FieldPath::Spell(index, SpellField::Temperature)
            }
            _ => FieldPath::Pour(PourField::Air),
        };
        Waiting::at(place, problem.says())
    };
    if spells.is_empty() {
        let air = optional(job, FieldPath::Pour(PourField::Air), read::temperature)?;
        return History::steady(air.unwrap_or(reference)).map_err(waits);
    }
    History::new(spells).map_err(waits)
}

/// How a mix gains strength: by the strengths typed with it, else by the strength that it is made for; before the first
/// of them, and where there is none, by what the class of its bag guarantees. Rows that are blank do not count.
fn gains(job: &Job, index: usize) -> Known<Gains> {
    let Some(bag) = job.bags.get(index) else { return Ok(Gains { growth: None, guarantee: None }) };
    let rows: Vec<usize> = std::iter::zip(0.., &bag.strengths)
        .filter(|(_, typed)| !(typed.age.is_blank() && typed.strength.is_blank()))
        .map(|(row, _)| row)
        .collect();
    let read_row = |row: &usize| {
        let place = |field| FieldPath::Strength(index, *row, field);
        let age = read::positive_duration(job, place(StrengthField::Age));
        both(age, read::positive_pressure(job, place(StrengthField::Strength)))
            .map(|(age, strength)| Point { age, strength })
    };
    let points = all(rows.iter().map(read_row))?;
    // The slower of the usual cements, since a label seldom says which.
    let portland = |at_28_days| Some(Strengthening::Portland { growth: Growth::OrdinaryMoist, at_28_days });
    let alone = |growth| Gains { growth, guarantee: None };
    if let ([only], Family::PortlandConcrete) = (points.as_slice(), bag.family)
        && is_28_days(only.age)
    {
        return Ok(alone(portland(only.strength)));
    }
    if points.is_empty() && bag.recipe.is_some() {
        let blank = job.entry_at(FieldPath::Recipe(index, RecipeField::Strength)).is_none_or(|typed| typed.is_blank());
        let made_for = if blank { None } else { strength_at_28_days(job, index)? };
        return Ok(alone(made_for.and_then(|strength| portland(strength.value))));
    }
    let typed = match Points::new(&points) {
        Ok(typed) => Some(typed),
        Err(PointsProblem::Empty) => None,
        Err(problem) => {
            let (row, field) = match problem {
                PointsProblem::Age(row) | PointsProblem::SameAge(row) => (row, StrengthField::Age),
                PointsProblem::Strength(row) | PointsProblem::Weaker(row) => (row, StrengthField::Strength),
                PointsProblem::Empty => (0, StrengthField::Age),
            };
            let row = rows.get(row).copied().unwrap_or(0);
            return Err(Waiting::at(FieldPath::Strength(index, row, field), problem.says()));
        }
    };
    if bag.recipe.is_some() {
        return Ok(alone(typed.map(Strengthening::Points)));
    }
    let first = typed.as_ref().and_then(Points::first);
    let (class, source) = limits::guaranteed(bag.class, bag.family);
    let point = |(days, strength): &(f64, f64)| Point { age: Time::new::<day>(*days), strength: psi(*strength) };
    let class: Vec<Point> = class.iter().map(point).collect();
    let (growth, counts) = match (class.as_slice(), first) {
        ([only], None) if is_28_days(only.age) => (portland(only.strength), true),
        (class, first) => {
            let younger = class_by_ages(class)
                .into_iter()
                .filter(|point| first.is_none_or(|first| point.age < first.age && point.strength <= first.strength));
            let younger: Vec<Point> = younger.collect();
            let counts = !younger.is_empty();
            let merged = Points::new(&[younger, points].concat()).ok();
            (merged.map(|merged| Strengthening::Points(if counts { merged.from(source) } else { merged })), counts)
        }
    };
    let guarantee = Guarantee { class: bag.class, source, until: first.map(|first| first.age) };
    Ok(Gains { growth, guarantee: counts.then_some(guarantee) })
}

fn is_28_days(age: Time) -> bool {
    (age.get::<day>() - 28.0).abs() < 0.5
}

/// What a class guarantees, where it is of 28 days alone at younger ages too, as portland concrete comes to it.
fn class_by_ages(class: &[Point]) -> Vec<Point> {
    let [only] = class else { return class.to_vec() };
    let at = |days| {
        let age = Time::new::<day>(days);
        Point { age, strength: only.strength * Growth::OrdinaryMoist.share(age) }
    };
    [1.0, 3.0, 7.0, 14.0].map(at).into_iter().chain([*only]).collect()
}
