//! How old and how strong a piece is when it is stripped, carried and used.

use super::cases::{Age, Ages};
use super::concrete::{Concrete, modulus_of_rupture};
use super::{limits, written};
use crate::job::read::{self, both};
use crate::job::{Bag, BagField, HandlingField, Job, Place, PourField, StrengthField};
use crate::limits::strength_reference;
use crate::measure::{MassDensity, Pressure, Time, Units, write_duration, write_number, write_temperature};
use crate::mix;
use crate::pour::maturity::Law;
use crate::pour::strength::{Point, Points, PointsProblem};
use crate::working::{Known, Source, Waiting, Working};

/// A piece as it hardens.
#[derive(Clone, Debug, PartialEq)]
pub struct Grown {
    /// Its concrete at each age.
    pub ages: Ages,
    /// When it comes out of the form.
    pub stripped_at: Time,
    /// When it is carried and set.
    pub carried_at: Time,
    /// How many times as fast as at the reference temperature it hardens on the day.
    pub pace: f64,
    /// Strengths that the bag tells; nothing where it tells none.
    pub points: Option<Points>,
    /// The field that decides the strength when it is stripped: the strength where it is typed, else the age.
    pub decided_by: HandlingField,
    /// How its strength was come by.
    pub working: Working,
}

impl Grown {
    /// How old it is then.
    pub fn at(&self, age: Age) -> Time {
        match age {
            Age::Stripping => self.stripped_at,
            Age::Handling => self.carried_at,
            Age::InUse => limits::age_in_use(),
        }
    }

    /// Its strength at that age is known, and not only that it is no less than when it was stripped.
    pub fn is_known(&self, age: Age) -> bool {
        age == Age::Stripping || self.ages.at(age).strength > self.ages.stripping.strength
    }

    /// How old it is once it has that strength, as far as the bag's strengths reach.
    pub fn age_of(&self, strength: Pressure) -> Option<Time> {
        let age = self.points.as_ref()?.age_of(strength)? / self.pace;
        age.value.is_finite().then_some(age)
    }

    /// The piece with that index.
    ///
    /// # Errors
    /// What it waits for: times, strengths, and what the weight of the mix waits for.
    pub(super) fn of(job: &Job, piece: usize) -> Known<Self> {
        let place = |field| Place::Handling(piece, field);
        let (index, bag) = mix::bag_of(job, piece)?;
        let stripped = match read::optional(job, place(HandlingField::StrippedAt), read::positive_duration) {
            Ok(Some(typed)) => Ok((typed, Source::Typed)),
            Ok(None) => read::positive_duration(job, Place::Bag(index, BagField::StripAfter))
                .map(|usual| (usual, mix::source_of(bag, BagField::StripAfter))),
            Err(waiting) => Err(waiting),
        };
        let carried = read::optional(job, place(HandlingField::CarriedAt), read::positive_duration);
        let strengths = both(points(job, index, bag), pace(job));
        let density = mix::fresh_density(job, index, bag).map(|figure| figure.value);
        let times = both(stripped, carried);
        let ((((stripped_at, source), carried), (points, pace)), density) = both(both(times, strengths), density)?;
        let carried_at = carried.unwrap_or_else(limits::age_carried);
        let mut grown = Self {
            ages: same(Concrete { strength: Pressure::default(), flexural: None, density }),
            stripped_at,
            carried_at: if carried_at > stripped_at { carried_at } else { stripped_at },
            pace,
            points,
            decided_by: HandlingField::StrippedAt,
            working: Working::new("Strength when it is stripped").line(
                "age when stripped",
                "",
                write_duration(stripped_at),
                source,
            ),
        };
        grown.harden(job, piece, density)?;
        Ok(grown)
    }

    /// Its strength by the bag's points at an age by the clock.
    fn by_points(&self, clock: Time) -> Option<Pressure> {
        self.points.as_ref()?.strength_at(clock * self.pace)
    }

    fn harden(&mut self, job: &Job, piece: usize, density: MassDensity) -> Known<()> {
        let place = |field| Place::Handling(piece, field);
        let units = job.units;
        let typed = read::optional(job, place(HandlingField::Strength), read::positive_pressure);
        let flexural = read::optional(job, place(HandlingField::Flexural), read::positive_pressure);
        let (typed, flexural) = both(typed, flexural)?;
        if typed.is_some() {
            self.decided_by = HandlingField::Strength;
        }
        let known = typed.or_else(|| self.by_points(self.stripped_at));
        let Some(strength) = known else {
            let says = format!(
                "{}: type it. The bag or its data sheet says it as compressive strength at an age, such as “{}”. With \
                 one at {} or sooner among the strengths of the bag, it follows for every age.",
                read::name_of(job, place(HandlingField::Strength)),
                match units {
                    Units::Inch => "3000 psi at 3 hours",
                    Units::Metric => "20 MPa at 3 hours",
                },
                write_duration(self.stripped_at * self.pace).text,
            );
            return Err(Waiting::at(place(HandlingField::Strength), says));
        };
        let mut working = std::mem::replace(&mut self.working, Working::new(""));
        if typed.is_none() {
            working = working.line(
                format!("age at {}: times the pace of the day", write_temperature(strength_reference(), units)),
                format!("{} × {}", write_duration(self.stripped_at), write_number(self.pace, 2)),
                write_duration(self.stripped_at * self.pace),
                crate::limits::MATURITY,
            );
        }
        let how = if typed.is_some() { "as typed" } else { "between the bag's strengths, by the logarithm of age" };
        let said = written::pressure(strength, units);
        self.working = working.line(format!("strength when stripped, {how}"), "", said, Source::Typed);
        // A test says how this mix bends: by so much better or worse than the rule, at every age.
        let factor = flexural.map(|tested| tested / modulus_of_rupture(strength, units));
        let at = |clock: Time| {
            // Where nothing later is known, what is known stays.
            let grown = self.by_points(clock).filter(|later| *later > strength).unwrap_or(strength);
            let flexural = factor.map(|factor| factor * modulus_of_rupture(grown, units));
            Concrete { strength: grown, flexural, density }
        };
        let stripping = Concrete { strength, flexural, density };
        self.ages = Ages { stripping, handling: at(self.carried_at), in_use: at(limits::age_in_use()) };
        Ok(())
    }
}

fn same(concrete: Concrete) -> Ages {
    Ages { stripping: concrete, handling: concrete, in_use: concrete }
}

/// The pace of hardening at the temperature of the day; a blank one counts as the reference.
fn pace(job: &Job) -> Known<f64> {
    let place = Place::Pour(PourField::Air);
    let Some(air) = read::optional(job, place, read::temperature)? else { return Ok(1.0) };
    let pace = Law::default().pace(air, strength_reference());
    if pace > 0.0 { Ok(pace) } else { Err(Waiting::at(place, "At this temperature the mix does not harden.")) }
}

/// The strengths of a bag; rows that are blank do not count.
fn points(job: &Job, index: usize, bag: &Bag) -> Known<Option<Points>> {
    let rows: Vec<usize> = (0..bag.strengths.len())
        .filter(|row| bag.strengths.get(*row).is_some_and(|typed| !(typed.age.is_blank() && typed.strength.is_blank())))
        .collect();
    let read_row = |row: &usize| {
        let place = |field| Place::Strength(index, *row, field);
        both(
            read::positive_duration(job, place(StrengthField::Age)),
            read::positive_pressure(job, place(StrengthField::Strength)),
        )
        .map(|(age, strength)| Point { age, strength })
    };
    let read = read::all(rows.iter().map(read_row))?;
    match Points::new(&read) {
        Ok(points) => Ok(Some(points)),
        Err(PointsProblem::Empty) => Ok(None),
        Err(problem) => {
            let (row, field) = match problem {
                PointsProblem::Age(row) | PointsProblem::SameAge(row) => (row, StrengthField::Age),
                PointsProblem::Strength(row) | PointsProblem::Weaker(row) => (row, StrengthField::Strength),
                PointsProblem::Empty => (0, StrengthField::Age),
            };
            let row = rows.get(row).copied().unwrap_or(0);
            Err(Waiting::at(Place::Strength(index, row, field), problem.says()))
        }
    }
}
