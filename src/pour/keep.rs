//! The weather over a piece as the job has it, and when the piece may leave its form.

use super::hardening::{Hardening, strength_at_28_days};
use super::inputs::{CureInputs, DayInputs, PourInputs};
use super::plan::Plan;
use super::strength::{PointsProblem, Strengthening};
use super::strip::{LABEL, StripTime, Stripping, Told};
use super::weather::{Evaporation, Weather, WeatherProblem, temperature_advice};
use super::write;
use crate::finding::{Finding, Severity, Stage};
use crate::job::{BagField, FieldPath, PourField, StrengthField};
use crate::label;
use crate::measure::{Measured, Pressure, Temperature, Time};
use crate::pour::limits;
use crate::working::{Figure, Known, Label, Name, Named, Source, Term, Waiting, known_ref, together};

/// How fast the open back of a piece dries while it is poured.
///
/// # Errors
/// What it waits for: the plan, or the weather.
pub fn drying(plan: &Plan, inputs: &PourInputs) -> Known<Evaporation> {
    let (cure, day) = (known_ref(&inputs.cure)?, &inputs.day);
    let (air, humidity, wind) = together((day.air.wanted(), day.humidity.clone(), day.wind.clone()))?;
    let weather = Weather { air, mix: plan.timeline.temperature, humidity, wind };
    weather.evaporation(cure.bleeds_little()).map_err(|problem| {
        let field = match problem {
            WeatherProblem::Air => PourField::Air,
            WeatherProblem::Mix => PourField::Mix,
            WeatherProblem::Humidity => PourField::Humidity,
            WeatherProblem::Wind => PourField::Wind,
        };
        Waiting::at(FieldPath::Pour(field), problem.says())
    })
}

/// How long a rapid mix is kept in its form by its hour of water, from the last water that was mixed in; nothing of other
/// mixes.
///
/// `plan` is that of its pour; where there is none yet, what the label says of the mix counts.
pub(crate) fn hour_of_water(plan: Option<&Plan>, cure: &CureInputs) -> Option<Time> {
    if !cure.is_kept_wet() {
        return None;
    }
    let workable = plan.map(|plan| plan.timeline.workable.value);
    let workable = workable.or(cure.workable.as_ref().ok().copied());
    Some(workable.unwrap_or_default() + limits::water_cure())
}

/// The age at which a piece may leave its form at the soonest, whatever strength lifting it takes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Earliest {
    /// By the clock, since the last water.
    pub(crate) age: Figure<Time>,
    /// How what is waited for in the end is named in a working.
    name: &'static str,
    /// Where that comes from.
    source: Source,
}

/// When a piece may leave its form at the soonest: the latest of the label's time, the age that was typed, the end of its
/// hour of water ([`hour_of_water`]) and, where nothing of this was typed, of the first strength that is known of it.
///
/// # Errors
/// What it waits for: the label's time, or the age.
pub(crate) fn earliest(inputs: &PourInputs, hardening: &Hardening, wet: Option<Time>) -> Known<Earliest> {
    let cure = known_ref(&inputs.cure)?;
    let typed = inputs.stripped_at.clone()?;
    let by_label = match &cure.strip_after {
        Ok(label) => Some(label_by_the_clock(*label, cure.strip_source, hardening)),
        // A mix made from scratch has no label.
        Err(_) if typed.is_some() => None,
        Err(waiting) => return Err(waiting.clone()),
    };
    let known = hardening.known_from().filter(|_| inputs.stripped_strength.is_blank() && typed.is_none());
    let (mut age, mut name, mut source) = (by_label, BY_THE_CLOCK, cure.strip_source);
    for (least, waits_for, from) in [
        (typed, "age out of the form", Source::Typed),
        (wet, "end of its hour of water", Source::Practice),
        (known, "first age at which its strength is known", Source::Arithmetic),
    ] {
        let before = age.as_ref().map_or(Time::default(), |age| age.value);
        let Some(least) = least.filter(|least| *least > before) else { continue };
        (name, source) = (waits_for, from);
        age = Some(match age {
            None => least.stated(name, from),
            Some(before) => {
                let later = |x: &[f64]| x[0].max(x[1]);
                before
                    .with_rule(least.named(name), "the later of {} and {}", later, least)
                    .step("age when stripped", from)
            }
        });
    }
    let age = age.unwrap_or_else(|| Time::default().stated(name, source)).ended("Age when stripped");
    Ok(Earliest { age, name, source })
}

/// How the label's time by the clock is named in a working.
const BY_THE_CLOCK: &str = "label's least time by the clock";

/// The label's time by the clock: what is typed is by the clock; what the label says is an age at the reference temperature
/// as well.
fn label_by_the_clock(label: Time, source: Source, hardening: &Hardening) -> Term<Time> {
    let stated = label.stated(LABEL, source);
    let clock = hardening.label_clock(label);
    if clock <= label {
        return stated;
    }
    let pace = Label::with("mean pace of hardening in the form, against {}", [hardening.reference.quantity()]);
    (stated / (label / clock).value.named(pace)).by_rule("{}", |x| x[0], clock).step(BY_THE_CLOCK, limits::MATURITY)
}

/// When a piece may leave its form, since its last water.
///
/// The strength that is waited for is the one that was typed, else `needed`, which lifting it out of its form takes, unless
/// it was typed to have that then: where it is not known, that anything is known of its strength. It is not stripped before
/// `wet`, the end of its hour of water, and stays in its form for longer where a later age out of the form is typed.
///
/// # Errors
/// What it waits for: the label's time, temperatures, or strengths; or the strength that the mix never has.
pub fn strip(inputs: &PourInputs, needed: Option<Pressure>, wet: Option<Time>) -> Known<StripTime> {
    let (cure, day) = (known_ref(&inputs.cure)?, inputs.day.as_ref());
    let wanted_at = FieldPath::Pour(PourField::StripStrength);
    let told = inputs.stripped_strength.if_typed().ok().flatten();
    let (label, wanted, hardening, ()) =
        together((cure.strip_after.clone(), day.strip_strength.clone(), inputs.hardening(), warmth_is_known(day)))?;
    let earliest = earliest(inputs, &hardening, wet)?;
    let needs = match (wanted, hardening.growth) {
        (Some(wanted), Some(growth)) => Some((growth, wanted)),
        (Some(_), None) => return Err(nothing_known(cure)),
        // It was typed how strong it is when it is stripped.
        (None, _) if told.is_some_and(|told| needed.is_none_or(|needed| needed <= told)) => None,
        (None, Some(growth)) => match needed {
            Some(needed) if growth.age_of(needed).is_some() => Some((growth, needed)),
            Some(needed) => return Err(Waiting::at(wanted_at, never(NEVER_SO_STRONG, needed, &growth))),
            // Nothing is stripped before anything is known of its strength.
            None => growth.first().map(|first| first.strength).map(|least| (growth, least)),
        },
        (None, None) => None,
    };
    let (reference, history) = (hardening.reference, hardening.history);
    let stripping = Stripping { label, needs, reference };
    let (strength, strength_source) = match (wanted, needed) {
        (Some(_), _) => ("strength wanted", Source::Typed),
        (None, Some(_)) => ("strength that lifting it flat out of the form takes, by hand", Source::Arithmetic),
        (None, None) => ("least strength that is known of the mix", Source::Arithmetic),
    };
    let told = Told { strength, strength_source, label_source: cure.strip_source };
    let strip = stripping.time_told(&history, &told).map_err(|problem| {
        let place = if wanted.is_some() { wanted_at } else { FieldPath::Pour(PourField::Air) };
        Waiting::at(place, problem.says(&stripping))
    })?;
    Ok(strip.not_before(&earliest))
}

/// How warm it is in the form is asked for where it is not known.
fn warmth_is_known(day: &DayInputs) -> Known<()> {
    if day.spells.is_empty() { day.air.wanted().map(drop) } else { Ok(()) }
}

impl StripTime {
    /// The same, where the piece stays in its form for longer than its strength takes.
    fn not_before(self, earliest: &Earliest) -> Self {
        let age = earliest.age.value;
        if age <= self.at.value {
            return self;
        }
        let later = |one: Time| if one > age { one } else { age };
        let parts =
            [self.at.called("age by its strength and its label").into(), earliest.age.called(earliest.name).into()];
        let at =
            Term::rule("the later of {} and {}", parts, |x| x[0].max(x[1]), age).titled("Strip after", earliest.source);
        Self { at, earliest: later(self.earliest), latest: self.latest.map(later), ..self }
    }
}

/// A strength to strip at that the mix is not known ever to have: the one that is wanted, else the one that lifting
/// takes.
pub(crate) fn advise_strip(needed: Option<Pressure>, inputs: &PourInputs) -> Option<Finding> {
    let place = FieldPath::Pour(PourField::StripStrength);
    let wanted = inputs.day.strip_strength.clone().ok()?;
    if wanted.is_some_and(|wanted| wanted <= Pressure::default()) {
        return None;
    }
    let strength = wanted.or(needed)?;
    let growth = inputs.hardening().ok()?.growth?;
    if growth.age_of(strength).is_some() {
        return None;
    }
    let (asks, remedy) = match wanted {
        Some(_) => (NEVER_AS_WANTED, "Want less, or choose a stronger mix."),
        None => (
            NEVER_SO_STRONG,
            "Choose a stronger mix, hold it in the middle as well, or turn it out over its long edge.",
        ),
    };
    Some(Finding {
        severity: Severity::Stop,
        stage: Stage::Pour,
        place,
        says: label!("{}{}", Name::PieceInFront(inputs.piece.index), never(asks, strength, &growth)),
        remedy: remedy.into(),
        source: match growth {
            Strengthening::Portland { .. } => limits::STRENGTH_IN_TIME,
            Strengthening::Points(_) => Source::Typed,
        },
    })
}

/// The mix never has the strength that lifting takes.
const NEVER_SO_STRONG: &str = "The strength that lifting it flat out of the form takes is {}; the mix is not known to get \
                               past {}, at any age.";

/// The mix never has the strength that was typed.
const NEVER_AS_WANTED: &str = "The strength wanted to strip it is {}; the mix is not known to get past {}, at any age.";

/// In those words, that the mix is not known to be so strong, ever.
fn never(says: &'static str, strength: Pressure, growth: &Strengthening) -> Label {
    Label::with(says, [write::strength(strength), write::strength(growth.ceiling())])
}

/// A strength is wanted of a mix of which none is known.
fn nothing_known(cure: &CureInputs) -> Waiting {
    if let Err(waiting) = strength_at_28_days(cure) {
        return waiting;
    }
    let bag = cure.mix.index;
    let place = if cure.strength_rows == 0 {
        FieldPath::Bag(bag, BagField::StripAfter)
    } else {
        FieldPath::Strength(bag, 0, StrengthField::Strength)
    };
    Waiting::at(place, PointsProblem::Empty.says())
}

/// Findings about cold, heat and drying, as far as they are known for a piece.
pub(crate) fn advise_weather(plan: &Plan, drying: &Known<Evaporation>, inputs: &PourInputs) -> Vec<Finding> {
    let air_at = FieldPath::Pour(PourField::Air);
    let Some(air) = inputs.day.air.readable() else { return Vec::new() };
    let spells = inputs.day.spells.iter().filter_map(|spell| spell.temperature.as_ref().ok().copied());
    let coldest = spells.fold(air, |one: Temperature, other| if other < one { other } else { one });
    let mut findings: Vec<Finding> = temperature_advice(coldest, plan.timeline.temperature, inputs.day.units)
        .into_iter()
        // That it is cold on the day is said of the day itself.
        .filter(|advice| coldest < air || advice.source != limits::COLD)
        .map(|advice| advice.at(air_at))
        .collect();
    if let Ok(drying) = drying {
        findings.extend(drying.advice(inputs.day.units).map(|advice| advice.at(FieldPath::Pour(PourField::Humidity))));
    }
    findings
}
