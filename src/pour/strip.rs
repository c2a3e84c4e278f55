//! When a top may leave its form.

use super::maturity::{History, Law, instant};
use super::strength::Strengthening;
use super::write;
use crate::measure::{Measured, Pressure, Temperature, Time, write_duration};
use crate::pour::limits;
use crate::working::{Figure, Label, Named, Source, Term};

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
    fn age(&self, told: &Told) -> Result<Figure<Time>, StripProblem> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        let strength = self.needs.as_ref().map_or(1.0, |(_, strength)| strength.value);
        if !(positive(strength) && self.label.value >= 0.0 && self.label.value.is_finite()) {
            return Err(StripProblem::NoNumber);
        }
        match &self.needs {
            Some((growth, strength)) => {
                growth.age_figure(*strength, told.strength, told.strength_source).ok_or(StripProblem::TooWeak)
            }
            None => Ok(self.label.stated(LABEL, told.label_source).ended("Age to strip at")),
        }
    }

    /// When it may be stripped in this history of temperatures, and between which times the laws of maturity
    /// leave it open.
    ///
    /// # Errors
    /// Why that cannot be said.
    pub fn time(&self, history: &History) -> Result<StripTime, StripProblem> {
        self.time_told(history, &Told::default())
    }

    /// The same, with what its working tells beside its numbers.
    ///
    /// # Errors
    /// Why that cannot be said.
    pub(super) fn time_told(&self, history: &History, told: &Told) -> Result<StripTime, StripProblem> {
        let age = self.age(told)?;
        let by = |law| {
            let clock = history.clock_at(age.value, law, self.reference)?;
            let labelled = history.clock_at(self.label, law, self.reference)?;
            Some([clock, labelled])
        };
        let later = |one: Time, other: Time| if one > other { one } else { other };
        let latest_of = |[clock, labelled]: [Time; 2]| later(later(clock, labelled), self.label);
        let clocks = by(Law::default()).ok_or(StripProblem::TooCold)?;
        let at = latest_of(clocks);
        let all = Law::all().map(by).map(|clocks| clocks.map(latest_of));
        let known = || all.iter().copied().flatten();
        let earliest = known().fold(at, |one, other| if other < one { other } else { one });
        let latest = known().fold(at, |one, other| if other > one { other } else { one });
        let latest = all.iter().all(Option::is_some).then_some(latest);
        let strength = self.needs.as_ref().map(|(_, strength)| *strength);
        Ok(StripTime { at: self.figure(&age, clocks, at, told.label_source), earliest, latest, strength })
    }

    /// When it may be stripped by equivalent age: the age that is waited for and the label's time, each by the clock, and
    /// the label's time itself.
    fn figure(&self, age: &Figure<Time>, [clock, labelled]: [Time; 2], at: Time, source: Source) -> Figure<Time> {
        let by_the_clock = |age: Term<Time>, clock: Time, name| {
            let aged = if clock > instant() {
                let pace = (age.value / clock).value.named("mean pace of hardening in the form by equivalent age");
                (age / pace).by_rule("{}", |x| x[0], clock)
            } else {
                Term::found("{}, by the clock", [age.into()], clock)
            };
            aged.step(name, limits::MATURITY)
        };
        let reference = || [self.reference.quantity()];
        let aged = by_the_clock(age.called(Label::with("age at {}", reference())), clock, "that age by the clock");
        let label = self.label.stated(LABEL, source);
        let over = by_the_clock(label.clone(), labelled, "label's least time by the clock");
        let latest = |x: &[f64]| x.iter().copied().fold(f64::MIN, f64::max);
        Term::rule("the latest of {}, {} and {}", [aged.into(), over.into(), label.into()], latest, at)
            .titled("Strip after", Source::Practice)
    }
}

/// How the label's time is named in a working.
pub(super) const LABEL: &str = "label's least time";

/// What a working tells beside its numbers.
pub(super) struct Told {
    /// How the strength that is waited for is named.
    pub(super) strength: &'static str,
    /// Where that comes from.
    pub(super) strength_source: Source,
    /// Where the label's time comes from.
    pub(super) label_source: Source,
}

impl Default for Told {
    /// As if all of it had been typed.
    fn default() -> Self {
        Self { strength: "strength wanted", strength_source: Source::Typed, label_source: Source::Typed }
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
    pub fn says(self, stripping: &Stripping) -> Label {
        match (self, &stripping.needs) {
            (Self::TooWeak, Some((growth, strength))) => Label::with(
                "This mix does not get to {}: {} is the most that is known of it.",
                [write::strength(*strength), write::strength(growth.ceiling())],
            ),
            (Self::TooCold, _) => "At this temperature the mix does not harden.".into(),
            _ => "Strip after: give the label's time and the strength wanted.".into(),
        }
    }
}
