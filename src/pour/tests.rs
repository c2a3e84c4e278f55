//! The room by quantities: what blanks mean, and when a piece may leave its form.

use super::hardening::Hardening;
use super::keep::{earliest, hour_of_water, strip};
use super::{CureInputs, DayInputs, PourInputs, limits};
use crate::job::{BagField, Family, FieldPath, Job, LabelClass, PourField};
use crate::measure::exact::psi;
use crate::measure::{Speed, Time, Units};
use crate::mix::demo;
use crate::working::Waiting;
use std::sync::Arc;
use uom::si::time::hour;

fn hours(count: f64) -> Time {
    Time::new::<hour>(count)
}

fn cure(inputs: &mut PourInputs) -> &mut CureInputs {
    inputs.cure.as_mut().expect("the demo has a mix")
}

/// A piece of a mix that is a strong mortar by its class alone, as warm as its label says: its clock is the label's.
fn piece() -> PourInputs {
    let mut inputs = PourInputs::read(&demo("an id"), 0);
    let reference = limits::strength_reference(inputs.day.units);
    let day =
        DayInputs { air: reference.into(), spells: Vec::new(), strip_strength: Ok(None), ..(*inputs.day).clone() };
    inputs.day = Arc::new(day);
    inputs.stripped_at = Ok(None);
    let mix = cure(&mut inputs);
    (mix.family, mix.class) = (Family::RapidMortar, LabelClass::R3);
    (mix.stated_at, mix.strip_after) = (Ok(None), Ok(hours(2.0)));
    mix.strengths.clear();
    inputs
}

fn hardening(inputs: &PourInputs) -> Hardening {
    inputs.hardening().expect("it hardens")
}

fn age(inputs: &PourInputs, wet: Option<Time>) -> f64 {
    earliest(inputs, &hardening(inputs), wet).expect("an age").age.value.get::<hour>()
}

fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9 * expected.abs().max(1.0), "{found} is not {expected}");
}

#[test]
fn what_blanks_of_pour_day_mean() {
    let mut job = Job::new("a", Units::Inch);
    for place in job.places().into_iter().filter(|place| matches!(place, FieldPath::Pour(_))) {
        *job.entry_at_mut(place).expect("a field of the day") = "".into();
    }
    let day = DayInputs::read(&job);
    for usual in [&day.carry, &day.place, &day.screed, &day.steel_takes] {
        assert!(usual.as_ref().is_ok_and(|usual| usual.is_usual && usual.value > Time::default()), "{usual:?}");
    }
    assert_eq!((day.mixers, day.mix, day.ice), (Ok(None), Ok(None), Ok(None)));
    assert_eq!((day.wind, day.air.if_typed()), (Ok(Speed::default()), Ok(None)));
    assert!(day.people.is_err() && day.mixing.is_err() && day.humidity.is_err() && day.air.wanted().is_err());
    job.pour.carry = "0".into();
    let carry = DayInputs::read(&job).carry.expect("a time");
    assert!(!carry.is_usual && carry.value == Time::default(), "a typed 0 counts as nothing");
}

/// The latest of the label's time, the hour of water and the age that was typed decides.
#[test]
fn the_latest_keeps_a_piece_in_its_form() {
    let mut inputs = piece();
    // Its class tells a strength at 3 h, later than its label's time: nothing is stripped before.
    close(age(&inputs, None), 3.0);
    close(age(&inputs, Some(hours(4.0))), 4.0);
    inputs.stripped_strength = psi(500.0).into();
    close(age(&inputs, None), 2.0);
    inputs.stripped_at = Ok(Some(hours(1.0)));
    close(age(&inputs, None), 2.0);
    inputs.stripped_at = Ok(Some(hours(5.0)));
    close(age(&inputs, Some(hours(4.0))), 5.0);
    let nothing = Waiting::named(FieldPath::Bag(0, BagField::StripAfter), "nothing is written here yet.");
    cure(&mut inputs).strip_after = Err(nothing.clone());
    close(age(&inputs, None), 5.0);
    inputs.stripped_at = Ok(None);
    assert_eq!(earliest(&inputs, &hardening(&inputs), None).map(drop), Err(nothing));
}

/// 3000 psi are guaranteed at 3 h and 5000 at a day, with a straight line over the logarithm of age between them: half of
/// the way at √(3 × 24) h. What only tells a strength leaves it at the first that is known.
#[test]
fn a_strength_is_waited_for() {
    let inputs = piece();
    let time = |inputs: &PourInputs, needed| strip(inputs, needed, None).expect("a time");
    let found = time(&inputs, Some(psi(4000.0)));
    close(found.at.value.get::<hour>(), 72.0_f64.sqrt());
    assert_eq!(found.strength, Some(psi(4000.0)));
    close(time(&inputs, None).at.value.get::<hour>(), 3.0);
    let wants = |strength| {
        let day = DayInputs { strip_strength: Ok(Some(strength)), ..(*inputs.day).clone() };
        PourInputs { day: Arc::new(day), ..inputs.clone() }
    };
    // What was typed outranks what lifting takes.
    let found = time(&wants(psi(5000.0)), Some(psi(4000.0)));
    close(found.at.value.get::<hour>(), 24.0);
    let first = found.at.working.lines(Units::Inch).remove(0);
    assert_eq!((first.formula.as_str(), first.result.as_str()), ("strength wanted", "5000 psi"));
    let waits = strip(&wants(psi(6000.0)), None, None).expect_err("it never has that");
    assert_eq!(waits.needs()[0].place, FieldPath::Pour(PourField::StripStrength));
}

#[test]
fn only_a_rapid_mix_has_its_hour_of_water() {
    let mut inputs = piece();
    let mix = cure(&mut inputs);
    mix.workable = Ok(hours(0.25));
    assert_eq!(hour_of_water(None, mix), Some(hours(0.25) + limits::water_cure()));
    mix.workable = Err(Waiting::named(FieldPath::Bag(0, BagField::Workable), "nothing is written here yet."));
    assert_eq!(hour_of_water(None, mix), Some(limits::water_cure()));
    mix.family = Family::PortlandConcrete;
    assert_eq!(hour_of_water(None, mix), None);
}
