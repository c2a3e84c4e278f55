//! The weather over a piece as the job has it, and when the piece may leave its form.

use super::maturity::{History, HistoryProblem, Stretch};
use super::plan::Plan;
use super::strength::{Growth, Point, Points, Strengthening};
use super::strip::{StripTime, Stripping};
use super::weather::{Evaporation, Weather, WeatherProblem, temperature_advice};
use crate::finding::Finding;
use crate::job::read::{self, all, both, optional};
use crate::job::{BagField, Family, Job, Place, PourField, SpellField, StrengthField};
use crate::limits;
use crate::measure::Temperature;
use crate::working::{Known, Waiting};
use uom::si::time::day;

/// How fast the open back of a piece dries while it is poured.
///
/// # Errors
/// What it waits for: the plan, or the weather.
pub fn drying(plan: &Plan, job: &Job) -> Known<Evaporation> {
    let place = Place::Pour;
    let air = read::temperature(job, place(PourField::Air));
    let humidity = read::percent(job, place(PourField::Humidity));
    let wind = optional(job, place(PourField::Wind), read::speed);
    let (air, (humidity, wind)) = both(air, both(humidity, wind))?;
    let weather = Weather { air, mix: plan.timeline.temperature, humidity, wind: wind.unwrap_or_default() };
    let little = job.bags.get(plan.bag).is_some_and(|bag| bag.family == Family::RapidMortar);
    weather.evaporation(little, job.units).map_err(|problem| {
        let field = match problem {
            WeatherProblem::Air => PourField::Air,
            WeatherProblem::Mix => PourField::Mix,
            WeatherProblem::Humidity => PourField::Humidity,
            WeatherProblem::Wind => PourField::Wind,
        };
        Waiting::at(place(field), problem.says())
    })
}

/// How warm it is around the form: the spells that were typed, else as on the day.
fn history(job: &Job) -> Known<History> {
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
        return History::steady(read::temperature(job, Place::Pour(PourField::Air))?).map_err(waits);
    }
    History::new(spells).map_err(waits)
}

/// How the mix of a bag gains strength, by the strengths typed with it.
fn strengthening(job: &Job, bag: usize) -> Known<Strengthening> {
    let typed = job.bags.get(bag);
    let count = typed.map_or(0, |bag| bag.strengths.len());
    let points = (0..count).map(|index| {
        let age = read::positive_duration(job, Place::Strength(bag, index, StrengthField::Age));
        let strength = read::pressure(job, Place::Strength(bag, index, StrengthField::Strength));
        both(age, strength).map(|(age, strength)| Point { age, strength })
    });
    let points = all(points)?;
    if let ([only], Some(Family::PortlandConcrete)) = (points.as_slice(), typed.map(|bag| bag.family))
        && (only.age.get::<day>() - 28.0).abs() < 0.5
        && only.strength.value > 0.0
    {
        // The slower of the usual cements, since a label seldom says which.
        return Ok(Strengthening::Portland { growth: Growth::OrdinaryMoist, at_28_days: only.strength });
    }
    Points::new(&points).map(Strengthening::Points).map_err(|problem| {
        let place = if count == 0 {
            Place::Bag(bag, BagField::StripAfter)
        } else {
            Place::Strength(bag, 0, StrengthField::Strength)
        };
        Waiting::at(place, problem.says())
    })
}

/// When a piece cast from that bag may leave its form, since its first water.
///
/// # Errors
/// What it waits for: the label's time, temperatures, or strengths.
pub fn strip(job: &Job, bag: usize) -> Known<StripTime> {
    let label = read::positive_duration(job, Place::Bag(bag, BagField::StripAfter));
    let wanted_at = Place::Pour(PourField::StripStrength);
    let wanted = optional(job, wanted_at, read::pressure);
    let needs = match wanted {
        Ok(Some(wanted)) => strengthening(job, bag).map(|growth| Some((growth, wanted))),
        Ok(None) => Ok(None),
        Err(waiting) => Err(waiting),
    };
    let ((label, needs), history) = both(both(label, needs), history(job))?;
    let stripping = Stripping { label, needs, reference: limits::strength_reference() };
    stripping.time(&history, job.units).map_err(|problem| {
        let place = if stripping.needs.is_some() { wanted_at } else { Place::Pour(PourField::Air) };
        Waiting::at(place, problem.says(&stripping, job.units))
    })
}

/// Findings about cold, heat and drying, as far as they are known for a piece.
pub(crate) fn advise_weather(plan: &Plan, drying: &Known<Evaporation>, job: &Job) -> Vec<Finding> {
    let air_at = Place::Pour(PourField::Air);
    let Ok(air) = read::temperature(job, air_at) else { return Vec::new() };
    let spells = (0..job.pour.garage.len())
        .filter_map(|index| read::temperature(job, Place::Spell(index, SpellField::Temperature)).ok());
    let coldest = spells.fold(air, |one: Temperature, other| if other < one { other } else { one });
    let mut findings: Vec<Finding> = temperature_advice(coldest, plan.timeline.temperature, job.units)
        .into_iter()
        // That it is cold on the day is said of the day itself.
        .filter(|advice| coldest < air || advice.source != limits::COLD)
        .map(|advice| advice.at(air_at))
        .collect();
    if let Ok(drying) = drying {
        findings.extend(drying.advice(job.units).map(|advice| advice.at(Place::Pour(PourField::Humidity))));
    }
    findings
}
