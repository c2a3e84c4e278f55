//! The weather over a piece as the job has it, and when the piece may leave its form.

use super::hardening::Hardening;
use super::plan::Plan;
use super::strength::{PointsProblem, Strengthening, WANTED};
use super::strip::{StripTime, Stripping};
use super::weather::{Evaporation, Weather, WeatherProblem, temperature_advice};
use super::write::write_strength;
use crate::finding::{Finding, Severity, Stage};
use crate::job::read::{self, both, optional};
use crate::job::{
    AdditiveField, Bag, BagField, Family, FieldPath, HandlingField, Job, PourField, RecipeField, RecipeKind,
    SpellField, StrengthField,
};
use crate::measure::{Pressure, Temperature, Time, write_duration, write_number, write_temperature};
use crate::mix::proportion::Role;
use crate::mix::{self, part_name};
use crate::pour::limits;
use crate::working::{Figure, Known, Source, Waiting, Working};

/// What is waited for where nothing was typed.
const NEEDED: &str = "strength that lifting it flat out of the form takes, by hand";

/// What is waited for where it is not known what the way out of the form takes.
const LEAST_KNOWN: &str = "least strength that is known of the mix";

/// How fast the open back of a piece dries while it is poured.
///
/// # Errors
/// What it waits for: the plan, or the weather.
pub fn drying(plan: &Plan, job: &Job) -> Known<Evaporation> {
    let place = FieldPath::Pour;
    let air = read::temperature(job, place(PourField::Air));
    let humidity = read::percent(job, place(PourField::Humidity));
    let wind = optional(job, place(PourField::Wind), read::speed);
    let (air, (humidity, wind)) = both(air, both(humidity, wind))?;
    let weather = Weather { air, mix: plan.timeline.temperature, humidity, wind: wind.unwrap_or_default() };
    // Of a mix made from scratch its family is a filler.
    let little = job.bags.get(plan.bag).is_some_and(|bag| match bag.recipe.as_ref().map(|recipe| recipe.kind) {
        Some(RecipeKind::Mortar | RecipeKind::GlassFibre) => true,
        Some(RecipeKind::Concrete) => false,
        None => bag.family == Family::RapidMortar,
    });
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

/// How strong a concrete made from scratch is at 28 days, with what its additives do to that; nothing where that
/// does not follow from the recipe.
///
/// # Errors
/// What it waits for: the strength, or what an additive does to it.
pub(crate) fn strength_at_28_days(job: &Job, bag: usize) -> Known<Option<Figure<Pressure>>> {
    let Some((typed, recipe)) = job.bags.get(bag).and_then(|bag| Some((bag, bag.recipe.as_ref()?))) else {
        return Ok(None);
    };
    if recipe.kind != RecipeKind::Concrete {
        return Ok(None);
    }
    let strength = read::positive_pressure(job, FieldPath::Recipe(bag, RecipeField::Strength))?;
    let write = |strength| write_strength(strength, job.units);
    let (mut with, mut working) = (
        strength,
        Working::new("Strength at 28 days").line("the strength it is made for", "", write(strength), Source::Typed),
    );
    for index in 0..typed.additives.len() {
        let place = |field| FieldPath::Additive(bag, index, field);
        let dose = optional(job, place(AdditiveField::OfCement), read::percent);
        let (dose, factor) = both(dose, optional(job, place(AdditiveField::Strength), read::percent))?;
        let Some(factor) = factor.filter(|factor| *factor > 0.0 && dose.is_some_and(|dose| dose > 0.0)) else {
            continue;
        };
        let before = with;
        with = before * factor;
        working = working.line(
            format!("with {}", part_name(job, bag, Role::Additive(index))),
            format!("{} × {}", write(before), write_number(factor, 2)),
            write(with),
            Source::Typed,
        );
    }
    Ok(Some(working.of(with)))
}

const LIFTING: &str = "The strength that lifting it flat out of the form takes";

/// How long a rapid mix is kept in its form by its hour of water, from the last water that was mixed in; nothing of other
/// mixes.
///
/// `plan` is that of its pour; where there is none yet, what the label says of the mix counts.
pub(crate) fn hour_of_water(plan: Option<&Plan>, job: &Job, bag: usize) -> Option<Time> {
    job.bags.get(bag).filter(|bag| is_kept_wet(bag))?;
    let workable = plan.map(|plan| plan.timeline.workable.value);
    let workable = workable.or_else(|| read::positive_duration(job, FieldPath::Bag(bag, BagField::Workable)).ok());
    Some(workable.unwrap_or_default() + limits::water_cure())
}

/// It sets fast and is kept wet from then on.
pub(crate) fn is_kept_wet(bag: &Bag) -> bool {
    bag.family == Family::RapidMortar
}

/// The age at which a piece may leave its form at the soonest, whatever strength lifting it takes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Earliest {
    /// By the clock, since the last water.
    pub(crate) age: Figure<Time>,
    /// What is waited for in the end, as a line of a working.
    words: &'static str,
    /// Where that comes from.
    source: Source,
}

/// When a piece cast from that bag may leave its form at the soonest: the latest of the label's time, the age that was
/// typed, the end of its hour of water ([`hour_of_water`]) and, where nothing of this was typed, of the first strength
/// that is known of it.
///
/// # Errors
/// What it waits for: the label's time, or the age.
pub(crate) fn earliest(
    job: &Job,
    piece: usize,
    bag: usize,
    hardening: &Hardening,
    wet: Option<Time>,
) -> Known<Earliest> {
    let place = |field| FieldPath::Handling(piece, field);
    let typed = optional(job, place(HandlingField::StrippedAt), read::positive_duration)?;
    let label = read::positive_duration(job, FieldPath::Bag(bag, BagField::StripAfter));
    let mut working = Working::new("Age when stripped");
    let (mut age, mut words, mut source) = (Time::default(), "", Source::Arithmetic);
    match label {
        Ok(label) => {
            (words, source) = (
                "not before the label's least time",
                job.bags.get(bag).map_or(Source::Typed, |bag| mix::source_of(bag, BagField::StripAfter)),
            );
            working = working.line("the label's least time", "", write_duration(label), source);
            // What is typed is by the clock; what the label says is an age at the reference temperature as well.
            age = hardening.label_clock(label);
            if age > label {
                working = working.line(
                    format!(
                        "the label's time is at {}: as old as that in its form",
                        write_temperature(hardening.reference, job.units)
                    ),
                    format!("{} ÷ {}", write_duration(label), write_number((label / age).value, 3)),
                    write_duration(age),
                    limits::MATURITY,
                );
            }
        }
        // A mix made from scratch has no label.
        Err(_) if typed.is_some() => {}
        Err(waiting) => return Err(waiting),
    }
    let told = job.entry_at(place(HandlingField::Strength)).is_some_and(|told| !told.is_blank());
    let known = hardening.known_from().filter(|_| !(told || typed.is_some()));
    for (least, line, from) in [
        (typed, "not before the age out of the form", Source::Typed),
        (wet, "not before its hour of water is over", Source::Practice),
        (known, "not before a strength is known of it", Source::Arithmetic),
    ] {
        let Some(least) = least.filter(|least| *least > age) else { continue };
        (age, words, source) = (least, line, from);
        working = working.line(line, "", write_duration(age), from);
    }
    Ok(Earliest { age: working.of(age), words, source })
}

/// When a piece cast from that bag may leave its form, since its last water.
///
/// The strength that is waited for is the one that was typed, else `needed`, which lifting it out of its form takes, unless
/// it was typed to have that then: where it is not known, that anything is known of its strength. It is not stripped before
/// `wet`, the end of its hour of water, and stays in its form for longer where a later age out of the form is typed.
///
/// # Errors
/// What it waits for: the label's time, temperatures, or strengths; or the strength that the mix never has.
pub fn strip(job: &Job, piece: usize, bag: usize, needed: Option<Pressure>, wet: Option<Time>) -> Known<StripTime> {
    let label = read::positive_duration(job, FieldPath::Bag(bag, BagField::StripAfter));
    let wanted_at = FieldPath::Pour(PourField::StripStrength);
    let wanted = optional(job, wanted_at, read::pressure);
    let typed = matches!(wanted, Ok(Some(_)));
    let told =
        optional(job, FieldPath::Handling(piece, HandlingField::Strength), read::positive_pressure).ok().flatten();
    // How warm it is in the form is asked for where it is not known.
    let air = if job.pour.garage.is_empty() {
        read::temperature(job, FieldPath::Pour(PourField::Air)).map(drop)
    } else {
        Ok(())
    };
    let hardening = Hardening::of(job, bag);
    let ((label, wanted), (hardening, ())) = both(both(label, wanted), both(hardening, air))?;
    let earliest = earliest(job, piece, bag, &hardening, wet)?;
    let needs = match (wanted, hardening.growth) {
        (Some(wanted), Some(growth)) => Some((growth, wanted)),
        (Some(_), None) => return Err(nothing_known(job, bag)),
        // It was typed how strong it is when it is stripped.
        (None, _) if told.is_some_and(|told| needed.is_none_or(|needed| needed <= told)) => None,
        (None, Some(growth)) => match needed {
            Some(needed) if growth.age_of(needed).is_some() => Some((growth, needed)),
            Some(needed) => return Err(Waiting::at(wanted_at, never(LIFTING, needed, &growth, job))),
            // Nothing is stripped before anything is known of its strength.
            None => growth.first().map(|first| first.strength).map(|least| (growth, least)),
        },
        (None, None) => None,
    };
    let (reference, history) = (hardening.reference, hardening.history);
    let stripping = Stripping { label, needs, reference };
    let mut strip = stripping.time(&history, job.units).map_err(|problem| {
        let place = if typed { wanted_at } else { FieldPath::Pour(PourField::Air) };
        Waiting::at(place, problem.says(&stripping, job.units))
    })?;
    match (typed, needed) {
        (true, _) => {}
        (false, Some(_)) => say_needed(&mut strip.at.working, NEEDED),
        (false, None) => say_needed(&mut strip.at.working, LEAST_KNOWN),
    }
    strip.not_before(&earliest);
    Ok(strip)
}

impl StripTime {
    /// It stays in its form for longer than its strength takes.
    fn not_before(&mut self, earliest: &Earliest) {
        let age = earliest.age.value;
        if age <= self.at.value {
            return;
        }
        let later = |one: Time| if one > age { one } else { age };
        let working = std::mem::replace(&mut self.at.working, Working::new(""));
        let said = write_duration(age);
        self.at = working.line(earliest.words, said.to_string(), said, earliest.source).of(age);
        self.earliest = later(self.earliest);
        self.latest = self.latest.map(later);
    }
}

/// A strength to strip at that the mix is not known ever to have: the one that is wanted, else the one that lifting
/// takes.
pub(crate) fn advise_strip(needed: Option<Pressure>, job: &Job, piece: usize) -> Option<Finding> {
    let place = FieldPath::Pour(PourField::StripStrength);
    let wanted = optional(job, place, read::positive_pressure).ok()?;
    let strength = wanted.or(needed)?;
    let (bag, _) = mix::bag_of(job, piece).ok()?;
    let growth = Hardening::of(job, bag).ok()?.growth?;
    if growth.age_of(strength).is_some() {
        return None;
    }
    let (asks, remedy) = match wanted {
        Some(_) => ("The strength wanted to strip it", "Want less, or choose a stronger mix."),
        None => (LIFTING, "Choose a stronger mix, hold it in the middle as well, or turn it out over its long edge."),
    };
    Some(Finding {
        severity: Severity::Stop,
        stage: Stage::Pour,
        place,
        says: (read::piece_prefix(job, piece) + &never(asks, strength, &growth, job)).into(),
        remedy: remedy.into(),
        source: match growth {
            Strengthening::Portland { .. } => limits::STRENGTH_IN_TIME,
            Strengthening::Points(_) => Source::Typed,
        },
    })
}

/// The mix is not known to be so strong, ever.
fn never(asks: &str, strength: Pressure, growth: &Strengthening, job: &Job) -> String {
    let write = |strength| write_strength(strength, job.units);
    let (strength, most) = (write(strength), write(growth.ceiling()));
    format!("{asks} is {strength}; the mix is not known to get past {most}, at any age.")
}

/// A strength is wanted of a mix of which none is known.
fn nothing_known(job: &Job, bag: usize) -> Waiting {
    if let Err(waiting) = strength_at_28_days(job, bag) {
        return waiting;
    }
    let rows = job.bags.get(bag).map_or(0, |bag| bag.strengths.len());
    let place = if rows == 0 {
        FieldPath::Bag(bag, BagField::StripAfter)
    } else {
        FieldPath::Strength(bag, 0, StrengthField::Strength)
    };
    Waiting::at(place, PointsProblem::Empty.says())
}

/// Where the strength was not typed, its working says what it is.
fn say_needed(working: &mut Working, words: &str) {
    for line in working.said_mut().filter(|line| line.formula == WANTED) {
        words.clone_into(&mut line.formula);
        line.source = Source::Arithmetic;
    }
}

/// Findings about cold, heat and drying, as far as they are known for a piece.
pub(crate) fn advise_weather(plan: &Plan, drying: &Known<Evaporation>, job: &Job) -> Vec<Finding> {
    let air_at = FieldPath::Pour(PourField::Air);
    let Ok(air) = read::temperature(job, air_at) else { return Vec::new() };
    let spells = (0..job.pour.garage.len())
        .filter_map(|index| read::temperature(job, FieldPath::Spell(index, SpellField::Temperature)).ok());
    let coldest = spells.fold(air, |one: Temperature, other| if other < one { other } else { one });
    let mut findings: Vec<Finding> = temperature_advice(coldest, plan.timeline.temperature, job.units)
        .into_iter()
        // That it is cold on the day is said of the day itself.
        .filter(|advice| coldest < air || advice.source != limits::COLD)
        .map(|advice| advice.at(air_at))
        .collect();
    if let Ok(drying) = drying {
        findings.extend(drying.advice(job.units).map(|advice| advice.at(FieldPath::Pour(PourField::Humidity))));
    }
    findings
}
