//! Strength against age at the reference temperature: by ACI 209 for portland concrete, by the maker's own
//! points for every other mix.
//!
//! Between points, strength is a straight line over the logarithm of age. That is how strength grows over its
//! decades of age; it keeps between its points whatever they are, so that it never promises more than the
//! later one; and its inverse is exact. A smooth curve through three or four points would look like more than
//! is known. Before the first point and after the last nothing is made up: see [`Points`].

use super::write;
use crate::measure::{Measured, Pressure, Time};
use crate::pour::limits;
use crate::working::{Figure, Label, Named, Part, Source, Term};
use uom::si::time::day;

/// Cement and curing that ACI 209 has constants for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Growth {
    /// Type I cement, moist cured.
    OrdinaryMoist,
    /// Type III cement (high early), moist cured.
    HighEarlyMoist,
    /// Type I cement, steam cured.
    OrdinarySteam,
    /// Type III cement (high early), steam cured.
    HighEarlySteam,
}

/// Strength at some ages, as the maker or the label has it.
///
/// Before the first point nothing is known, so a lower strength counts as reached at the first point and not
/// sooner. After the last point the strength of the last is held.
#[derive(Clone, Debug, PartialEq)]
pub struct Points {
    points: Vec<Point>,
    /// Where they come from.
    source: Source,
}

/// Compressive strength at an age.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Age since water, at the reference temperature.
    pub age: Time,
    /// Compressive strength.
    pub strength: Pressure,
}

/// Why points are no curve. Points are named by their place as they were given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointsProblem {
    /// There is none.
    Empty,
    /// The age of that point is not above zero.
    Age(usize),
    /// The strength of that point is not above zero.
    Strength(usize),
    /// That point is of the age of an earlier one.
    SameAge(usize),
    /// That point is weaker than a younger one.
    Weaker(usize),
}

/// Strength against age.
#[derive(Clone, Debug, PartialEq)]
pub enum Strengthening {
    /// Portland concrete: t ÷ (a + β t) of its strength at 28 days. As published, that share is not quite 1 at
    /// 28 days (1.0072 for type I, moist); it is not scaled to 1.
    Portland {
        /// Cement and curing.
        growth: Growth,
        /// Strength at 28 days.
        at_28_days: Pressure,
    },
    /// By points.
    Points(Points),
}

impl Growth {
    /// The constants a, in days, and β (ACI 209R-92 2.2.1; of type III in steam from memory).
    pub const fn constants(self) -> (f64, f64) {
        match self {
            Self::OrdinaryMoist => (4.0, 0.85),
            Self::HighEarlyMoist => (2.3, 0.92),
            Self::OrdinarySteam => (1.0, 0.95),
            Self::HighEarlySteam => (0.70, 0.98),
        }
    }

    /// The share of the strength at 28 days that is reached at an age; zero before age zero.
    pub fn share(self, age: Time) -> f64 {
        let (a, beta) = self.constants();
        let days = age.get::<day>();
        match days {
            days if days.is_infinite() && days > 0.0 => 1.0 / beta,
            days if days > 0.0 => days / (a + beta * days),
            _ => 0.0,
        }
    }

    /// The age at which that share of the strength at 28 days is reached; `None` from the ceiling 1/β on.
    pub fn age_of(self, share: f64) -> Option<Time> {
        let (a, beta) = self.constants();
        let days = a * share / (1.0 - beta * share);
        let reached = share * beta < 1.0 && days.is_finite();
        reached.then(|| Time::new::<day>(days.max(0.0)))
    }
}

impl Points {
    /// A curve through points in any order.
    ///
    /// # Errors
    /// The first thing that cannot be.
    pub fn new(points: &[Point]) -> Result<Self, PointsProblem> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        for (index, point) in points.iter().enumerate() {
            if !positive(point.age.value) {
                return Err(PointsProblem::Age(index));
            }
            if !positive(point.strength.value) {
                return Err(PointsProblem::Strength(index));
            }
        }
        let mut order: Vec<(usize, Point)> = points.iter().copied().enumerate().collect();
        order.sort_by(|(_, one), (_, other)| one.age.value.total_cmp(&other.age.value));
        for ((first, younger), (index, older)) in std::iter::zip(&order, order.iter().skip(1)) {
            if younger.age >= older.age {
                return Err(PointsProblem::SameAge(*index.max(first)));
            }
            if younger.strength > older.strength {
                return Err(PointsProblem::Weaker(*index));
            }
        }
        let points: Vec<Point> = order.into_iter().map(|(_, point)| point).collect();
        if points.is_empty() { Err(PointsProblem::Empty) } else { Ok(Self { points, source: Source::Typed }) }
    }

    /// The same, some of which come from there and were not typed.
    pub fn from(self, source: Source) -> Self {
        Self { source, ..self }
    }

    /// The first of them: before it nothing is known.
    pub fn first(&self) -> Option<Point> {
        self.points.first().copied()
    }

    fn pairs(&self) -> impl Iterator<Item = (Point, Point)> {
        std::iter::zip(self.points.iter().copied(), self.points.iter().skip(1).copied())
    }

    /// Strength at an age; `None` before the first point.
    pub fn strength_at(&self, age: Time) -> Option<Pressure> {
        let (first, last) = (self.points.first()?, self.points.last()?);
        // NaN is before everything.
        if age.value.is_nan() || age < first.age {
            return None;
        }
        let between = self.pairs().find(|(_, older)| age < older.age);
        Some(between.map_or(last.strength, |(younger, older)| {
            let share = (age / younger.age).value.ln() / (older.age / younger.age).value.ln();
            younger.strength + (older.strength - younger.strength) * share.clamp(0.0, 1.0)
        }))
    }

    /// The age at which a strength is reached; `None` over that of the last point.
    pub fn age_of(&self, strength: Pressure) -> Option<Time> {
        let first = self.points.first()?;
        if strength <= first.strength {
            return Some(first.age);
        }
        let (younger, older) = self.pairs().find(|(_, older)| strength <= older.strength)?;
        let share = ((strength - younger.strength) / (older.strength - younger.strength)).value;
        Some(younger.age * (older.age / younger.age).value.powf(share.clamp(0.0, 1.0)))
    }

    /// The strength of the last point.
    pub fn ceiling(&self) -> Pressure {
        self.points.last().map(|point| point.strength).unwrap_or_default()
    }
}

impl Strengthening {
    /// Strength at an age at the reference temperature; `None` before anything is known of it.
    pub fn strength_at(&self, age: Time) -> Option<Pressure> {
        match self {
            Self::Portland { growth, at_28_days } => Some(*at_28_days * growth.share(age)),
            Self::Points(points) => points.strength_at(age),
        }
    }

    /// The age at the reference temperature at which a strength is reached; `None` where it never is.
    pub fn age_of(&self, strength: Pressure) -> Option<Time> {
        match self {
            Self::Portland { growth, at_28_days } => growth.age_of((strength / *at_28_days).value),
            Self::Points(points) => points.age_of(strength),
        }
    }

    /// The first that is known of it, where something is known from some age on only.
    pub fn first(&self) -> Option<Point> {
        match self {
            Self::Portland { .. } => None,
            Self::Points(points) => points.first(),
        }
    }

    /// It gets no stronger than this, as far as is known; of portland concrete it only comes near.
    pub fn ceiling(&self) -> Pressure {
        match self {
            Self::Portland { growth, at_28_days } => *at_28_days / growth.constants().1,
            Self::Points(points) => points.ceiling(),
        }
    }

    /// [`Self::age_of`] with its working, for a strength that is named so and comes from there; nothing where it is never
    /// reached.
    pub fn age_figure(&self, strength: Pressure, name: &'static str, source: Source) -> Option<Figure<Time>> {
        let age = self.age_of(strength)?;
        let wanted = Term::stated_as(strength, name, write::strength(strength), source);
        let title = Label::with("Age at {}", [write::strength(strength)]);
        Some(match self {
            Self::Portland { growth, at_28_days } => {
                let (a, beta) = growth.constants();
                let quantity = write::strength(*at_28_days);
                let at_28_days = Term::stated_as(*at_28_days, "strength at 28 days", quantity, Source::Typed);
                let share = (wanted / at_28_days).step("share of the strength at 28 days", Source::Arithmetic);
                let [a, beta] = [a.named("a"), beta.named("β")];
                let parts = [a.into(), share.clone().into(), beta.into(), share.into()];
                let days = |x: &[f64]| Time::new::<day>((x[0] * x[1] / (1.0 - x[2] * x[3])).max(0.0)).value;
                Term::rule("{} × {} ÷ (1 − {} × {}), in days", parts, days, age).titled(title, limits::STRENGTH_IN_TIME)
            }
            Self::Points(points) => {
                let known = points.points.iter().map(|point| {
                    let name = Label::with("strength known at {}", [point.age.quantity()]);
                    let quantity = write::strength(point.strength);
                    Term::stated_as(point.strength, name, quantity.clone(), points.source)
                        .called_as("strength known", quantity)
                });
                let says = "{}, on straight lines over the logarithm of age between {}; not before the first";
                Term::found(says, [wanted.into(), Part::list(known)], age).titled(title, Source::Practice)
            }
        })
    }
}

impl PointsProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> String {
        match self {
            Self::Empty => "Strengths: nothing is known yet.".to_owned(),
            Self::Age(index) => format!("Strength {}: its age must be more than nothing.", index + 1),
            Self::Strength(index) => format!("Strength {}: it must be more than nothing.", index + 1),
            Self::SameAge(index) => format!("Strength {}: another one is of the same age.", index + 1),
            Self::Weaker(index) => format!("Strength {}: it is weaker than a younger one.", index + 1),
        }
    }
}
