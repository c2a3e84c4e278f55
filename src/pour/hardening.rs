//! How a mix hardens in its form: the one account of strength against the clock, which both the time to strip and
//! the check against cracking read.
//!
//! Strength is known at ages at the reference temperature: as typed, and before the first of those what the class on the
//! bag's label guarantees. How warm it is around the form turns those into ages by the clock: the garage's spells where
//! they are typed, else the air of the day, by equivalent age.

use super::inputs::{CureInputs, DayInputs, PourInputs};
use super::maturity::{History, HistoryProblem, Law, Stretch, instant};
use super::strength::{Growth, Point, Points, PointsProblem, Strengthening};
use crate::job::{Family, FieldPath, LabelClass, PourField, RecipeKind, SpellField, StrengthField};
use crate::measure::exact::psi;
use crate::measure::{Pressure, Temperature, Time};
use crate::pour::limits;
use crate::working::{Known, Source, Waiting, all, known_ref, together};
use uom::si::time;

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

impl PourInputs {
    /// How the mix of the piece hardens in its form.
    ///
    /// # Errors
    /// What it waits for: the mix, temperatures, and strengths.
    pub fn hardening(&self) -> Known<Hardening> {
        Hardening::of(known_ref(&self.cure)?, &self.day)
    }
}

impl Hardening {
    /// A mix in its form. Where no temperature is known, that of the reference counts.
    ///
    /// # Errors
    /// What it waits for: temperatures, and strengths.
    pub fn of(cure: &CureInputs, day: &DayInputs) -> Known<Self> {
        let (stated_at, gains) = together((cure.stated_at.clone(), gains(cure)))?;
        let reference = stated_at.unwrap_or_else(|| limits::strength_reference(day.units));
        let history = history(day, reference)?;
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
fn history(day: &DayInputs, reference: Temperature) -> Known<History> {
    let spells = all(day.spells.iter().map(|spell| {
        let (lasts, temperature) = together((spell.lasts.clone(), spell.temperature.clone()))?;
        Ok(Stretch { lasts, temperature })
    }))?;
    let waits = |problem: HistoryProblem| {
        let place = match problem {
            HistoryProblem::Lasts(index) => FieldPath::Spell(index, SpellField::Lasts),
            HistoryProblem::Temperature(index) if !day.spells.is_empty() => {
                FieldPath::Spell(index, SpellField::Temperature)
            }
            _ => FieldPath::Pour(PourField::Air),
        };
        Waiting::at(place, problem.says())
    };
    if spells.is_empty() {
        return History::steady(day.air.if_typed()?.unwrap_or(reference)).map_err(waits);
    }
    History::new(spells).map_err(waits)
}

/// How strong a concrete made from scratch is at 28 days, with what its additives make of that; nothing where that does
/// not follow from the recipe.
///
/// # Errors
/// What it waits for: the strength that it is made for, or what an additive does to it.
pub(super) fn strength_at_28_days(cure: &CureInputs) -> Known<Option<Pressure>> {
    let (Some(RecipeKind::Concrete), Some(recipe)) = (cure.made_as, cure.mix.recipe()) else { return Ok(None) };
    let mut strength = recipe.strength.wanted()?;
    for (dosed, additive) in std::iter::zip(&cure.mix.additives, &cure.additives) {
        let (dose, factor) = together((dosed.of_cement.clone(), additive.strength.clone()))?;
        if let Some(factor) = factor.filter(|factor| *factor > 0.0 && dose > 0.0) {
            strength *= factor;
        }
    }
    Ok(Some(strength))
}

/// How a mix gains strength: by the strengths typed with it, else by the strength that it is made for; before the first
/// of them, and where there is none, by what the class of its bag guarantees.
fn gains(cure: &CureInputs) -> Known<Gains> {
    let points = all(cure.strengths.iter().map(|typed| {
        let (age, strength) = together((typed.age.clone(), typed.strength.clone()))?;
        Ok(Point { age, strength })
    }))?;
    // The slower of the usual cements, since a label seldom says which.
    let portland = |at_28_days| Some(Strengthening::Portland { growth: Growth::OrdinaryMoist, at_28_days });
    let alone = |growth| Gains { growth, guarantee: None };
    if let ([only], Family::PortlandConcrete) = (points.as_slice(), cure.family)
        && is_28_days(only.age)
    {
        return Ok(alone(portland(only.strength)));
    }
    if let (true, Some(recipe)) = (points.is_empty(), cure.mix.recipe()) {
        let made_for = if recipe.strength.is_blank() { None } else { strength_at_28_days(cure)? };
        return Ok(alone(made_for.and_then(portland)));
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
            let row = cure.strengths.get(row).map_or(0, |typed| typed.row);
            return Err(Waiting::at(FieldPath::Strength(cure.mix.index, row, field), problem.says()));
        }
    };
    if cure.made_as.is_some() {
        return Ok(alone(typed.map(Strengthening::Points)));
    }
    let first = typed.as_ref().and_then(Points::first);
    let (class, source) = limits::guaranteed(cure.class, cure.family);
    let point = |(days, strength): &(f64, f64)| Point { age: Time::new::<time::day>(*days), strength: psi(*strength) };
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
    let guarantee = Guarantee { class: cure.class, source, until: first.map(|first| first.age) };
    Ok(Gains { growth, guarantee: counts.then_some(guarantee) })
}

fn is_28_days(age: Time) -> bool {
    (age.get::<time::day>() - 28.0).abs() < 0.5
}

/// What a class guarantees, where it is of 28 days alone at younger ages too, as portland concrete comes to it.
fn class_by_ages(class: &[Point]) -> Vec<Point> {
    let [only] = class else { return class.to_vec() };
    let at = |days| {
        let age = Time::new::<time::day>(days);
        Point { age, strength: only.strength * Growth::OrdinaryMoist.share(age) }
    };
    [1.0, 3.0, 7.0, 14.0].map(at).into_iter().chain([*only]).collect()
}
