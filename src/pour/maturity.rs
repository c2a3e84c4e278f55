//! How much faster or slower a mix hardens than at its reference temperature, and what age that makes of hours
//! in a garage.

use crate::measure::{Measured, Quantity, Temperature, Time};
use crate::pour::limits;
use crate::working::{Figure, Label, Named, Source, Term};
use uom::si::f64::TemperatureInterval;
use uom::si::temperature_interval as interval;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::{hour, second};

/// How hardening depends on temperature. Which law is nearer to a mix is seldom known; in the cold they differ
/// by half and more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Law {
    /// Equivalent age (Arrhenius): exp(−activation × (1/T − 1/reference)), absolute temperatures.
    EquivalentAge {
        /// Activation energy over the gas constant, in kelvin.
        activation: TemperatureInterval,
    },
    /// Nurse-Saul: in proportion to the degrees over a datum, and nothing under it.
    NurseSaul {
        /// Under this nothing hardens.
        datum: Temperature,
    },
}

/// A stretch of time at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// How long.
    pub lasts: Time,
    /// Of the concrete.
    pub temperature: Temperature,
}

/// The temperatures of the concrete from first water on. After the last stretch its temperature goes on.
#[derive(Clone, Debug, PartialEq)]
pub struct History {
    stretches: Vec<Stretch>,
}

/// Why a history is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HistoryProblem {
    /// There is no stretch in it.
    Empty,
    /// There are more stretches than anybody logs.
    TooLong,
    /// The stretch of that index lasts no time, or no finite one.
    Lasts(usize),
    /// The stretch of that index is colder or hotter than concrete is kept.
    Temperature(usize),
}

/// Temperature over a datum, summed over time: the maturity of the Nurse-Saul law.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct DegreeHours(f64);

/// How fast hardening goes at one temperature, by the slowest and by the fastest law, against the reference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// By the slowest law: 0.25 is a quarter as fast as at the reference.
    pub slowest: f64,
    /// By the fastest law.
    pub fastest: f64,
}

impl Default for Law {
    /// Equivalent age with the usual activation energy.
    fn default() -> Self {
        Self::EquivalentAge { activation: limits::activation() }
    }
}

impl Law {
    /// The laws whose spread is shown: equivalent age, and Nurse-Saul with either usual datum.
    pub fn all() -> [Self; 3] {
        let [cold, zero] = limits::datums();
        [Self::default(), Self::NurseSaul { datum: cold }, Self::NurseSaul { datum: zero }]
    }

    /// How many times as fast as at the reference the mix hardens. Never negative; zero where nothing hardens,
    /// or where there is no saying.
    pub fn pace(self, temperature: Temperature, reference: Temperature) -> f64 {
        let [at, reference] = [temperature, reference].map(|one| one.get::<kelvin>());
        let pace = match self {
            Self::EquivalentAge { activation } => {
                (-activation.get::<interval::kelvin>() * (1.0 / at - 1.0 / reference)).exp()
            }
            Self::NurseSaul { datum } => {
                let datum = datum.get::<kelvin>();
                (at - datum).max(0.0) / (reference - datum)
            }
        };
        if pace.is_finite() && at > 0.0 { pace.max(0.0) } else { 0.0 }
    }

    /// How the pace of hardening by this law is named in a working.
    fn pace_name(self) -> Label {
        match self {
            Self::EquivalentAge { activation } => Label::with(
                "pace of hardening by equivalent age, activation {} K",
                [Quantity::Number(activation.get::<interval::kelvin>(), 0)],
            ),
            Self::NurseSaul { datum } => Label::with("pace of hardening by Nurse-Saul over {}", [datum.quantity()]),
        }
    }
}

/// How far the laws are apart at a temperature.
pub fn spread(temperature: Temperature, reference: Temperature) -> Spread {
    let paces = Law::all().map(|law| law.pace(temperature, reference));
    let [slowest, fastest] = [paces.iter().copied().fold(f64::MAX, f64::min), paces.into_iter().fold(0.0, f64::max)];
    Spread { slowest, fastest }
}

impl DegreeHours {
    /// In °C·h over the datum.
    pub fn celsius_hours(self) -> f64 {
        self.0
    }
}

impl History {
    /// The temperatures in their order.
    ///
    /// # Errors
    /// The first thing that cannot be.
    pub fn new(stretches: Vec<Stretch>) -> Result<Self, HistoryProblem> {
        if stretches.is_empty() {
            return Err(HistoryProblem::Empty);
        }
        if stretches.len() > limits::MOST_PARTS_OF_HISTORY {
            return Err(HistoryProblem::TooLong);
        }
        let [coldest, hottest] = limits::history_range();
        for (index, stretch) in stretches.iter().enumerate() {
            if !(stretch.lasts.value > 0.0 && stretch.lasts.value.is_finite()) {
                return Err(HistoryProblem::Lasts(index));
            }
            if !(stretch.temperature >= coldest && stretch.temperature <= hottest) {
                return Err(HistoryProblem::Temperature(index));
            }
        }
        Ok(Self { stretches })
    }

    /// One temperature throughout.
    ///
    /// # Errors
    /// When concrete is not kept at such a temperature.
    pub fn steady(temperature: Temperature) -> Result<Self, HistoryProblem> {
        Self::new(vec![Stretch { lasts: Time::new::<hour>(1.0), temperature }])
    }

    /// What was put in.
    pub fn stretches(&self) -> &[Stretch] {
        &self.stretches
    }

    /// From first water to the end of the last stretch.
    pub fn lasts(&self) -> Time {
        self.stretches.iter().map(|stretch| stretch.lasts).sum()
    }

    /// The age at the reference temperature that the history amounts to after so much time by the clock.
    pub fn age_after(&self, clock: Time, law: Law, reference: Temperature) -> Time {
        let (mut age, mut left, mut pace) = (Time::default(), clock, 0.0);
        for stretch in &self.stretches {
            pace = law.pace(stretch.temperature, reference);
            let lasts = if stretch.lasts < left { stretch.lasts } else { left };
            age += pace * lasts;
            left -= lasts;
            // NaN ends here too.
            if left.value.is_nan() || left <= Time::default() {
                return age;
            }
        }
        age + pace * left
    }

    /// When, by the clock, the concrete is as old as at the reference temperature; `None` where it never gets
    /// so old, because nothing hardens at its last temperature.
    pub fn clock_at(&self, age: Time, law: Law, reference: Temperature) -> Option<Time> {
        let (mut clock, mut left, mut pace) = (Time::default(), age, 0.0);
        for stretch in &self.stretches {
            pace = law.pace(stretch.temperature, reference);
            if pace * stretch.lasts >= left {
                return Some(if pace > 0.0 { clock + left / pace } else { clock });
            }
            left -= pace * stretch.lasts;
            clock += stretch.lasts;
        }
        let clock = clock + left / pace;
        (pace > 0.0 && clock.value.is_finite()).then_some(clock)
    }

    /// Temperature over the datum, summed over the whole history: time under the datum counts nothing, and
    /// takes nothing off (common practice).
    pub fn degree_hours(&self, datum: Temperature) -> DegreeHours {
        let over = |stretch: &Stretch| (stretch.temperature.get::<kelvin>() - datum.get::<kelvin>()).max(0.0);
        DegreeHours(self.stretches.iter().map(|stretch| over(stretch) * stretch.lasts.get::<hour>()).sum())
    }

    /// The age at the reference temperature that the whole history amounts to, with its working.
    ///
    /// ```
    /// use pourwright::measure::exact::fahrenheit;
    /// use pourwright::measure::{Time, Units};
    /// use pourwright::pour::maturity::{History, Law, Stretch};
    /// use uom::si::time::day;
    ///
    /// let lasts = Time::new::<day>(2.0);
    /// let at_reference = History::new(vec![Stretch { lasts, temperature: fahrenheit(68.0) }]).unwrap();
    /// let age = at_reference.age(Law::default(), fahrenheit(68.0));
    /// assert_eq!(age.value, lasts);
    /// assert_eq!(age.working.title(Units::Inch), "Age as if at 68 °F");
    /// ```
    pub fn age(&self, law: Law, reference: Temperature) -> Figure<Time> {
        let age = self.age_after(self.lasts(), law, reference);
        let pace = |stretch: &Stretch| law.pace(stretch.temperature, reference);
        let (shown, rest) = self.stretches.split_at(self.stretches.len().min(MOST_SHOWN));
        let stretch = |stretch: &Stretch| {
            let name = Label::with("{} at {}", [stretch.lasts.quantity(), stretch.temperature.quantity()]);
            let aged = stretch.lasts.named(name) * pace(stretch).named(law.pace_name());
            aged.step(Label::with("age from {}", [stretch.temperature.quantity()]), limits::MATURITY)
        };
        let more = (!rest.is_empty()).then(|| {
            let aged: Time = rest.iter().map(|stretch| pace(stretch) * stretch.lasts).sum();
            let stretches = Quantity::Count(rest.len() as u32, "more stretch", "more stretches");
            aged.stated(Label::with("{}, each the same way", [stretches]), limits::MATURITY)
        });
        let title = Label::with("Age as if at {}", [reference.quantity()]);
        // The clock runs out at the end of the last stretch but for float noise.
        Term::sum(shown.iter().map(stretch).chain(more)).by_rule("{}", |x| x[0], age).titled(title, Source::Arithmetic)
    }
}

/// More stretches than this are summed up in one line of a working.
const MOST_SHOWN: usize = 8;

impl HistoryProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> String {
        match self {
            Self::Empty => "Temperatures: write down at least one.".to_owned(),
            Self::TooLong => {
                format!("Temperatures: {} readings are enough.", limits::MOST_PARTS_OF_HISTORY)
            }
            Self::Lasts(index) => format!("Temperature {}: say for how long it was so.", index + 1),
            Self::Temperature(index) => format!("Temperature {}: no top is kept so cold or so hot.", index + 1),
        }
    }
}

/// A moment, as near as the clock of a workshop shows it: used to tell equal times.
pub(super) fn instant() -> Time {
    Time::new::<second>(1e-6)
}
