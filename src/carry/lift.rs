//! One lift by hand, as NIOSH's revised equation sees it, and the people it takes.
//!
//! The maker makes plain choices; [`Choices::lifts`] turns them into the numbers of the equation, and
//! [`handling`] says how many people it takes.

use super::Crew;
use crate::carry::limits;
use crate::carry::limits::LiftingEquation;
pub use crate::job::{Grip, Reach, Turn};
use crate::measure::exact::inches;
use crate::measure::{Angle, Length, Mass, Units, write_angle, write_length, write_mass, write_number};
use crate::working::{Figure, Source, Working};
use uom::si::angle::degree;

/// The numbers of one lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lift {
    /// From between the ankles out to the hands.
    pub reach: Length,
    /// From the floor up to the hands.
    pub height: Length,
    /// What the hands travel up or down.
    pub travel: Length,
    /// How far the body turns from straight ahead.
    pub turn: Angle,
    /// Lifts a minute, within an hour at most.
    pub times_a_minute: f64,
    /// How the hands hold on.
    pub grip: Grip,
}

/// What each part of a lift leaves of the load, from nothing to one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Multipliers {
    /// By the reach.
    pub reach: f64,
    /// By the height of the hands.
    pub height: f64,
    /// By the travel.
    pub travel: f64,
    /// By the turn.
    pub turn: f64,
    /// By how often.
    pub frequency: f64,
    /// By the grip.
    pub grip: f64,
}

/// A share of the load; what is no number leaves nothing.
fn share(value: f64) -> f64 {
    if value.is_finite() { value.clamp(0.0, 1.0) } else { 0.0 }
}

impl Lift {
    /// What each part leaves, by the equation and its tables. Over the equation's limits nothing is left;
    /// between two frequencies of the table the worse one counts.
    pub fn multipliers(&self, units: Units) -> Multipliers {
        let of = LiftingEquation::of(units);
        // A limit that a length meets but for float noise is met.
        let over =
            |value: Length, limit: Length| value.is_nan() || value > limit + crate::measure::geometry_tolerance();
        let reach = if over(self.reach, of.far) { 0.0 } else { (of.near / self.reach.max(of.near)).value };
        let from_best = (self.height - of.best_height).abs();
        let height_fits = !over(self.height, of.highest) && self.height >= -crate::measure::geometry_tolerance();
        let height = if height_fits { 1.0 - (from_best / of.height_span).value } else { 0.0 };
        let travel = self.travel.max(of.shortest);
        let travel = if over(self.travel, of.longest) {
            0.0
        } else {
            LiftingEquation::TRAVEL_LEAST + (of.travel / travel).value
        };
        let turned = self.turn.abs();
        let turns_too_far = turned > LiftingEquation::most_turn() * (1.0 + crate::measure::COUNT_TOLERANCE);
        let turn = if turns_too_far { 0.0 } else { LiftingEquation::left_by_turn(turned) };
        let low = of.best_height - self.height > crate::measure::geometry_tolerance();
        let often =
            |(times, _): &&(f64, [f64; 2])| self.times_a_minute <= times * (1.0 + crate::measure::COUNT_TOLERANCE);
        let frequency = limits::LIFTING_FREQUENCY.iter().find(often).map_or(0.0, |(_, left)| left[usize::from(!low)]);
        let grip = match self.grip {
            Grip::Good => 1.0,
            Grip::Fair if low => 0.95,
            Grip::Fair => 1.0,
            Grip::Poor => 0.90,
        };
        Multipliers {
            reach: share(reach),
            height: share(height),
            travel: share(travel),
            turn: share(turn),
            frequency: share(frequency),
            grip,
        }
    }

    /// What one healthy person may lift this way: the recommended weight limit.
    pub fn limit(&self, units: Units) -> Figure<Mass> {
        let load = limits::load_constant(units);
        let by = self.multipliers(units);
        let limit = load * by.reach * by.height * by.travel * by.turn * by.frequency * by.grip;
        let source = limits::LIFTING_EQUATION;
        let parts = [
            ("reach", write_length(self.reach, units).text, by.reach),
            ("height of the hands", write_length(self.height, units).text, by.height),
            ("travel up or down", write_length(self.travel, units).text, by.travel),
            ("turn", write_angle(self.turn).text, by.turn),
            ("lifts a minute", write_number(self.times_a_minute, 1), by.frequency),
            ("grip", self.grip.label().to_lowercase(), by.grip),
        ];
        let mut working = Working::new("What one person may lift").line(
            "load constant: one person, ideal lift",
            "",
            write_mass(load, units),
            source,
        );
        let mut factors = vec![write_mass(load, units).text];
        for (name, numbers, left) in parts {
            working = working.line(format!("left by the {name}"), numbers, write_number(left, 3), source);
            factors.push(write_number(left, 3));
        }
        working.line("load constant × all of them", factors.join(" × "), write_mass(limit, units), source).of(limit)
    }
}

/// Where the hands are before or after a lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Level {
    /// Under an edge on the floor.
    Floor,
    /// On a low stand: 20 in. Common practice.
    Stand,
    /// On a bench or a base cabinet: 34 1/2 in. Common practice.
    Bench,
    /// As measured, from the floor.
    Height(Length),
}

/// How often it is lifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Often {
    /// Once in five minutes, or less.
    Once,
    /// Every other minute.
    EveryOtherMinute,
    /// Every minute.
    EveryMinute,
    /// So many times a minute.
    Times(f64),
}

/// A lift in plain choices.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choices {
    /// Where it is picked up.
    pub from: Level,
    /// Where it is put down.
    pub to: Level,
    /// How far from the body.
    pub reach: Reach,
    /// Turned how far.
    pub turn: Turn,
    /// How often.
    pub often: Often,
    /// Held how.
    pub grip: Grip,
}

impl Level {
    /// The hands above the floor.
    pub fn height(self) -> Length {
        match self {
            Self::Floor => Length::default(),
            Self::Stand => inches(20.0),
            Self::Bench => inches(34.5),
            Self::Height(height) => height,
        }
    }
}

impl Reach {
    /// From between the ankles out to the hands.
    pub fn length(self) -> Length {
        match self {
            Self::Close => Length::new::<uom::si::length::millimeter>(250.0),
            Self::Bent => inches(15.0),
            Self::Stretched => inches(22.0),
        }
    }
}

impl Turn {
    /// From straight ahead.
    pub fn angle(self) -> Angle {
        Angle::new::<degree>(match self {
            Self::None => 0.0,
            Self::Half => 45.0,
            Self::Square => 90.0,
        })
    }
}

impl Often {
    /// Lifts a minute.
    pub fn times_a_minute(self) -> f64 {
        match self {
            Self::Once => 0.2,
            Self::EveryOtherMinute => 0.5,
            Self::EveryMinute => 1.0,
            Self::Times(times) => times,
        }
    }
}

impl Choices {
    /// The lift as it is where the piece is picked up, and where it is put down. A top is set down with care,
    /// so that both count and the harder one decides.
    pub fn lifts(&self) -> [Lift; 2] {
        let travel = (self.to.height() - self.from.height()).abs();
        [self.from, self.to].map(|level| Lift {
            reach: self.reach.length(),
            height: level.height(),
            travel,
            turn: self.turn.angle(),
            times_a_minute: self.often.times_a_minute(),
            grip: self.grip,
        })
    }
}

/// A lift of that weight, judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Handling {
    /// What one person may lift this way, at the harder end of it.
    pub limit: Figure<Mass>,
    /// The smallest team that may lift it, or none: not by hand.
    pub crew: Figure<Crew>,
    /// The weight over what that team may lift, the lifting index; of three where it is not for hands. Up to
    /// one is good. None where nobody may lift anything this way.
    pub index: Option<Figure<f64>>,
}

/// What the equation says nothing of.
pub const NOT_COVERED: &str = "The lifting equation judges a lift that stands still. Walking with the load, stairs, a slope \
    or one hand are not covered: take one more person or a cart.";

/// The people beyond three that lift it all the same, where so many find a place on its edges; nothing where they do not,
/// or where nobody may lift anything this way. Nobody has measured such teams: common practice.
pub fn many_hands(weight: Mass, limit: &Figure<Mass>, length: Length, units: Units) -> Option<Figure<u32>> {
    let each = limit.value * limits::LARGE_TEAM_SHARE;
    let wanted = ((weight / each).value * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil();
    let spacing = limits::grip_spacing();
    let along = ((length + crate::measure::geometry_tolerance()) / spacing).value.floor();
    let places = 2.0 * along + 2.0;
    if !(wanted.is_finite() && wanted <= places) {
        return None;
    }
    let people = (wanted as u32).max(4);
    Some(
        Working::new("People to lift it by hand alone")
            .after(&limit.working)
            .line(
                "each of more than three: limit × team share of three",
                format!("{} × {}", write_mass(limit.value, units), write_number(limits::LARGE_TEAM_SHARE, 3)),
                write_mass(each, units),
                Source::Practice,
            )
            .line(
                format!("places to hold: 2 × (length ÷ {}), and one at each end", write_length(spacing, units)),
                format!("2 × ({} ÷ {}) + 2", write_length(length, units), write_length(spacing, units)),
                format!("{places} people"),
                Source::Practice,
            )
            .line(
                "weight ÷ what each lifts, rounded up",
                format!("{} ÷ {}", write_mass(weight, units), write_mass(each, units)),
                format!("{people} people"),
                Source::Practice,
            )
            .of(people),
    )
}

/// The people that a lift takes, by the equation and the team shares of [`limits::TEAM_SHARES`].
pub fn handling(weight: Mass, choices: &Choices, units: Units) -> Handling {
    let [pick, put] = choices.lifts().map(|lift| lift.limit(units));
    let limit = if pick.value <= put.value { pick } else { put };
    let mut working = Working::new("People to lift it").after(&limit.working);
    let mut crew = Crew::Aid;
    let mut capacity = Mass::default();
    for (people, left) in limits::TEAM_SHARES {
        capacity = limit.value * f64::from(people) * left;
        working = working.line(
            format!("{people} of them: limit × people × team share"),
            format!("{} × {people} × {}", write_mass(limit.value, units), write_number(left, 3)),
            write_mass(capacity, units),
            limits::LIFTING,
        );
        if weight <= capacity * (1.0 + crate::measure::COUNT_TOLERANCE) {
            crew = Crew::Hands(people);
            break;
        }
    }
    let words = match crew {
        Crew::Hands(_) => crew.words(),
        Crew::Aid => "not by hand".to_owned(),
    };
    let crew = working
        .line("walking with it and stairs", "", "not covered by the equation", limits::LIFTING_EQUATION)
        .line("the smallest team that may lift it", write_mass(weight, units).text, words, limits::LIFTING)
        .of(crew);
    let index = (weight / capacity).value;
    let index = index.is_finite().then(|| {
        Working::new("Lifting index")
            .line(
                "weight ÷ what the team may lift",
                format!("{} ÷ {}", write_mass(weight, units), write_mass(capacity, units)),
                write_number(index, 2),
                Source::Standard("NIOSH 94-110 (rev. 2021): lifting index, up to 1 is good"),
            )
            .of(index)
    });
    Handling { limit, crew, index }
}
