//! When a top may leave its form.

use super::maturity::{History, Law, instant};
use super::strength::Strengthening;
use super::write::write_strength;
use crate::measure::{Pressure, Temperature, Time, Units, write_duration, write_number, write_temperature};
use crate::pour::limits;
use crate::working::{Figure, Source, Working};

/// What stripping waits for.
#[derive(Clone, Debug, PartialEq)]
pub struct Stripping {
    /// The label's least time in the form: an age at the reference temperature, and never undercut by the clock.
    pub label: Time,
    /// How the mix gains strength, and the strength that handling needs; `None` where it is not known.
    pub needs: Option<(Strengthening, Pressure)>,
    /// The temperature at which label and strengths are stated.
    pub reference: Temperature,
}

/// When it may be stripped, since first water.
#[derive(Clone, Debug, PartialEq)]
pub struct StripTime {
    /// By equivalent age.
    pub at: Figure<Time>,
    /// By the law that hardens fastest in this history.
    pub earliest: Time,
    /// By the law that hardens slowest; `None` where by that law it never may.
    pub latest: Option<Time>,
    /// The strength that is waited for; `None` where the label's time decides alone.
    pub strength: Option<Pressure>,
}

/// Why it cannot be said when a top may be stripped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StripProblem {
    /// The mix never gets so strong, as far as is known.
    TooWeak,
    /// At the last temperature of the history nothing hardens.
    TooCold,
    /// The label's time, or the strength wanted, is no number above zero.
    NoNumber,
}

impl Stripping {
    /// The age at the reference temperature that is waited for, with its working.
    fn age(&self, units: Units) -> Result<Figure<Time>, StripProblem> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        let strength = self.needs.as_ref().map_or(1.0, |(_, strength)| strength.value);
        if !(positive(strength) && self.label.value >= 0.0 && self.label.value.is_finite()) {
            return Err(StripProblem::NoNumber);
        }
        match &self.needs {
            Some((growth, strength)) => growth.age_figure(*strength, units).ok_or(StripProblem::TooWeak),
            None => Ok(Working::new("Age to strip at")
                .line("the label's least time", "", write_duration(self.label), Source::Typed)
                .of(self.label)),
        }
    }

    /// When it may be stripped in this history of temperatures, and between which times the laws of maturity
    /// leave it open.
    ///
    /// # Errors
    /// Why that cannot be said.
    pub fn time(&self, history: &History, units: Units) -> Result<StripTime, StripProblem> {
        let age = self.age(units)?;
        let label = self.label;
        let by = |law| {
            let clock = history.clock_at(age.value, law, self.reference)?;
            let labelled = history.clock_at(label, law, self.reference)?;
            let later = |one: Time, other: Time| if one > other { one } else { other };
            Some(later(later(clock, labelled), label))
        };
        let at = by(Law::default()).ok_or(StripProblem::TooCold)?;
        let clocks = Law::all().map(by);
        let known = || clocks.iter().copied().flatten();
        let earliest = known().fold(at, |one, other| if other < one { other } else { one });
        let latest = known().fold(at, |one, other| if other > one { other } else { one });
        let latest = clocks.iter().all(Option::is_some).then_some(latest);
        let strength = self.needs.as_ref().map(|(_, strength)| *strength);
        Ok(StripTime { at: self.working(&age, history, at, units).of(at), earliest, latest, strength })
    }

    fn working(&self, age: &Figure<Time>, history: &History, at: Time, units: Units) -> Working {
        let (law, reference) = (Law::default(), write_temperature(self.reference, units));
        let mut working = Working::new("Strip after").after(&age.working);
        if let Some(clock) = history.clock_at(age.value, law, self.reference) {
            let pace = if clock > instant() { (age.value / clock).value } else { 1.0 };
            working = working.line(
                format!("age at {reference} ÷ mean pace of hardening in the form, by {}", law.words(units)),
                format!("{} ÷ {}", write_duration(age.value), write_number(pace, 3)),
                write_duration(clock),
                limits::MATURITY,
            );
        }
        working.line(
            "not before the label's least time",
            write_duration(self.label).to_string(),
            write_duration(at),
            Source::Practice,
        )
    }
}

impl StripTime {
    /// The times between which the laws leave it open: "14 h to 22 h".
    pub fn range(&self) -> String {
        match self.latest {
            Some(latest) if (latest - self.earliest) <= instant() => write_duration(latest).to_string(),
            Some(latest) => format!("{} to {}", write_duration(self.earliest), write_duration(latest)),
            None => {
                format!("{} at least; by the most careful law, not at this temperature", write_duration(self.earliest))
            }
        }
    }
}

impl StripProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self, stripping: &Stripping, units: Units) -> String {
        match (self, &stripping.needs) {
            (Self::TooWeak, Some((growth, strength))) => format!(
                "This mix does not get to {}: {} is the most that is known of it.",
                write_strength(*strength, units),
                write_strength(growth.ceiling(), units)
            ),
            (Self::TooCold, _) => "At this temperature the mix does not harden.".to_owned(),
            _ => "Strip after: give the label's time and the strength wanted.".to_owned(),
        }
    }
}
