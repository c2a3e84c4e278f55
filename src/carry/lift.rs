//! One lift by hand, as NIOSH's revised equation sees it, and the people it takes.
//!
//! The maker makes plain choices; [`Choices::lifts`] turns them into the numbers of the equation, and
//! [`handling`] says how many people it takes.

use super::{Crew, Team};
use crate::carry::limits;
use crate::carry::limits::LiftingEquation;
pub use crate::job::{Grip, Reach, Turn};
use crate::measure::exact::inches;
use crate::measure::{Angle, COUNT_TOLERANCE, Length, Mass, Measured, Quantity, Units, geometry_tolerance};
use crate::working::{Figure, Label, Named, Source};
use std::borrow::Cow;
use uom::si::angle::degree;
use uom::si::length::meter;

/// The numbers of one lift by hand.
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
        let over = |value: Length, limit: Length| value.is_nan() || value > limit + geometry_tolerance();
        let reach = if over(self.reach, of.far) { 0.0 } else { (of.near / self.reach.max(of.near)).value };
        let from_best = (self.height - of.best_height).abs();
        let height_fits = !over(self.height, of.highest) && self.height >= -geometry_tolerance();
        let height = if height_fits { 1.0 - (from_best / of.height_span).value } else { 0.0 };
        let travel = self.travel.max(of.shortest);
        let travel = if over(self.travel, of.longest) {
            0.0
        } else {
            LiftingEquation::TRAVEL_LEAST + (of.travel / travel).value
        };
        let turned = self.turn.abs();
        let turns_too_far = turned > LiftingEquation::most_turn() * (1.0 + COUNT_TOLERANCE);
        let turn = if turns_too_far { 0.0 } else { LiftingEquation::left_by_turn(turned) };
        let low = of.best_height - self.height > geometry_tolerance();
        let often = |(times, _): &&(f64, [f64; 2])| self.times_a_minute <= times * (1.0 + COUNT_TOLERANCE);
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
    ///
    /// ```
    /// use pourwright::carry::lift::{Choices, Grip, Level, Often, Reach, Turn};
    /// use pourwright::measure::{Units, exact::in_pounds};
    ///
    /// let at_the_bench = Choices {
    ///     from: Level::Bench,
    ///     to: Level::Bench,
    ///     reach: Reach::Close,
    ///     turn: Turn::None,
    ///     often: Often::Once,
    ///     grip: Grip::Good,
    /// };
    /// let [pick, _] = at_the_bench.lifts().map(|lift| in_pounds(lift.limit(Units::Inch).value));
    /// // Hands 4.5 in over the best height leave 1 − 0.0075 × 4.5 of 51 lb.
    /// assert!((pick - 51.0 * 0.96625).abs() < 1e-9);
    /// ```
    pub fn limit(&self, units: Units) -> Figure<Mass> {
        let source = limits::LIFTING_EQUATION;
        let by = self.multipliers(units);
        let left = |name: &'static str, at: &'static str, of: Quantity, value: f64| {
            value.named(name).with_lines_of(&value.stated(Label::with(at, [of]), source))
        };
        let times = Quantity::Number(self.times_a_minute, 1);
        let grip = Quantity::Words(Cow::Owned(self.grip.label().to_lowercase()));
        let load = limits::load_constant(units).stated("load constant of one person in an ideal lift", source);
        let limit = load
            * left("reach multiplier", "reach multiplier at {}", self.reach.quantity(), by.reach)
            * left("height multiplier", "height multiplier of hands at {}", self.height.quantity(), by.height)
            * left("travel multiplier", "travel multiplier of {} up or down", self.travel.quantity(), by.travel)
            * left("turn multiplier", "turn multiplier at {}", self.turn.quantity(), by.turn)
            * left("frequency multiplier", "frequency multiplier at {} lifts a minute", times, by.frequency)
            * left("grip multiplier", "grip multiplier of a grip that is {}", grip, by.grip);
        limit.titled("What one person may lift", source)
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
pub fn many_hands(weight: Mass, limit: &Figure<Mass>, length: Length) -> Option<Figure<u32>> {
    /// So many to lift a weight of so many shares, four at least.
    fn at_least_four(shares: f64) -> f64 {
        whole(shares).max(4.0)
    }
    fn whole(shares: f64) -> f64 {
        (shares * (1.0 - COUNT_TOLERANCE)).ceil()
    }
    fn places_along(length: Length, spacing: Length) -> f64 {
        2.0 * ((length + geometry_tolerance()) / spacing).value.floor() + 2.0
    }
    let share = limits::LARGE_TEAM_SHARE.named("team share of three");
    let each = (limit.term() * share).step("each of more than three", Source::Practice);
    let spacing = limits::grip_spacing();
    let places = length.named("length").with_rule(
        spacing.named("length for one"),
        "2 × ({} ÷ {}), whole ones, and one at each end",
        |parts| places_along(Length::new::<meter>(parts[0]), Length::new::<meter>(parts[1])),
        places_along(length, spacing),
    );
    let places = places.step("places to hold", Source::Practice);
    let shares = (weight.named("weight") / each.with_lines_of(&places)).number();
    let wanted = whole(shares.value);
    if !(wanted.is_finite() && wanted <= places.value) {
        return None;
    }
    let people = at_least_four(shares.value) as u32;
    let people = shares.by_rule("{}, rounded up to four or more", |parts| at_least_four(parts[0]), people);
    let written = Quantity::Count(people.value, "person", "people");
    Some(people.titled_as("People to lift it by hand alone", written, Source::Practice))
}

/// The people that a lift takes, by the equation and the team shares of [`limits::TEAM_SHARES`].
pub fn handling(weight: Mass, choices: &Choices, units: Units) -> Handling {
    let [pick, put] = choices.lifts().map(|lift| lift.limit(units));
    let limit = if pick.value <= put.value { pick } else { put };
    let one = limit.called("limit of one person");
    let team = Team::smallest(weight, weight.named("weight").with_lines_of(&one), |people, share| {
        let members = Quantity::Count(people, "person", "people");
        let capacity = one.clone() * f64::from(people).named("people") * share.named("team share");
        capacity.step(Label::with("most that {} may lift this way", [members]), limits::LIFTING)
    });
    let index = (weight.named("weight") / team.most.value.named("what the team may lift")).number();
    let index = index.value.is_finite().then(|| {
        let written = Quantity::Number(index.value, 2);
        let source = Source::Standard("NIOSH 94-110 (rev. 2021): lifting index, up to 1 is good");
        index.titled_as("Lifting index", written, source)
    });
    let words = Quantity::Words(match team.crew {
        Crew::Hands(_) => Cow::Owned(team.crew.words()),
        Crew::Aid => Cow::Borrowed("not by hand"),
    });
    let not_covered = "not covered by the equation";
    let crew = team.figure("People to lift it", words, not_covered, limits::LIFTING_EQUATION);
    Handling { limit, crew, index }
}
