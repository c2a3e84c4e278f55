//! Maturity, strength against age, and when a top may be stripped.

use crate::{EXACT, assert_close, assert_within};
use pourwright::limits;
use pourwright::measure::exact::psi;
use pourwright::measure::{Temperature, Time, Units};
use pourwright::pour::maturity::{History, HistoryProblem, Law, Stretch, spread};
use pourwright::pour::strength::{Growth, Point, Points, PointsProblem, Strengthening};
use pourwright::pour::strip::{StripProblem, Stripping};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::{day, hour};

fn celsius(degrees: f64) -> Temperature {
    Temperature::new::<degree_celsius>(degrees)
}

fn hours(count: f64) -> Time {
    Time::new::<hour>(count)
}

fn days(count: f64) -> Time {
    Time::new::<day>(count)
}

fn history(stretches: &[(f64, f64)]) -> History {
    let stretches = stretches.iter().map(|&(lasts, at)| Stretch { lasts: hours(lasts), temperature: celsius(at) });
    History::new(stretches.collect()).expect("a history")
}

/// The history of M2.
fn two_days_and_a_night() -> History {
    history(&[(12.0, 20.0), (12.0, 28.0), (24.0, 24.0), (24.0, 18.0)])
}

fn age(history: &History, reference: f64) -> f64 {
    history.age(Law::default(), celsius(reference), Units::Metric).value.get::<hour>()
}

/// M1, ASTM C1074 Eq. 2 (from memory, computed): the pace of equivalent age, 5000 K, 20 °C.
#[test]
fn pace_of_hardening() {
    for (degrees, expected) in
        [(5.0, 0.399), (10.0, 0.5475), (15.0, 0.744), (25.0, 1.331), (30.0, 1.755), (35.0, 2.294)]
    {
        assert_close(Law::default().pace(celsius(degrees), celsius(20.0)), expected, 2e-3);
    }
}

/// Where a law has no sense, as with a datum over the reference, or at no temperature, nothing hardens.
#[test]
fn no_pace_without_sense() {
    for (law, at) in [
        (Law::NurseSaul { datum: celsius(30.0) }, 10.0),
        (Law::NurseSaul { datum: celsius(30.0) }, 40.0),
        (Law::NurseSaul { datum: celsius(20.0) }, 30.0),
        (Law::default(), f64::NAN),
        (Law::default(), -300.0),
        (Law::NurseSaul { datum: celsius(-10.0) }, -11.0),
    ] {
        assert_eq!(law.pace(celsius(at), celsius(20.0)), 0.0, "{law:?} {at}");
    }
}

/// M2, M4 and M5, computed: equivalent ages, at 20 °C and at 23 °C.
#[test]
fn equivalent_age() {
    assert_close(age(&two_days_and_a_night(), 20.0), 82.42, 1e-3);
    assert_close(age(&two_days_and_a_night(), 23.0), 69.34, 1e-3);
    assert_close(age(&history(&[(24.0, 12.0), (24.0, 15.0), (24.0, 21.0)]), 20.0), 58.16, 1e-3);
}

/// M3, C1074 Eq. 1 (from memory, computed), and M6: time under the datum takes nothing off (practice).
#[test]
fn nurse_saul() {
    let found = |history: &History, datum: f64| history.degree_hours(celsius(datum)).celsius_hours();
    assert_close(found(&two_days_and_a_night(), -10.0), 2304.0, EXACT);
    assert_close(found(&two_days_and_a_night(), 0.0), 1584.0, EXACT);
    assert_close(found(&history(&[(12.0, 8.0), (12.0, 5.0), (12.0, -4.0), (36.0, 10.0)]), 0.0), 516.0, EXACT);
    // As an age: 2304 °C·h over −10 °C are 76.8 h at 20 °C.
    let law = Law::NurseSaul { datum: celsius(-10.0) };
    assert_close(two_days_and_a_night().age(law, celsius(20.0), Units::Metric).value.get::<hour>(), 76.8, EXACT);
}

/// M9: one hour at 5 °C against 20 °C, by the three laws.
#[test]
fn the_laws_part_in_the_cold() {
    let [cold, zero] = limits::datums();
    for (law, expected) in
        [(Law::default(), 0.399), (Law::NurseSaul { datum: cold }, 0.500), (Law::NurseSaul { datum: zero }, 0.250)]
    {
        assert_close(law.pace(celsius(5.0), celsius(20.0)), expected, 2e-3);
    }
    let found = spread(celsius(5.0), celsius(20.0));
    assert_close(found.slowest, 0.25, EXACT);
    assert_close(found.fastest, 0.5, EXACT);
}

/// C8 to C11, ACI 209R-92 Eq. 2-1 and 2.2.1 (constants published, type III in steam from memory; shares
/// computed). Not scaled to 1 at 28 days.
#[test]
fn share_of_strength_at_28_days() {
    for (growth, ages, shares) in [
        (Growth::OrdinaryMoist, &[1.0, 3.0, 7.0, 14.0, 28.0][..], &[0.2062, 0.4580, 0.7035, 0.8805, 1.0072][..]),
        (Growth::HighEarlyMoist, &[1.0, 3.0, 7.0, 28.0], &[0.3106, 0.5929, 0.8009, 0.9979]),
        (Growth::OrdinarySteam, &[28.0], &[1.0145]),
    ] {
        for (age, share) in std::iter::zip(ages, shares) {
            assert_within(growth.share(days(*age)), *share, 2e-4);
        }
    }
    assert_eq!(Growth::HighEarlySteam.constants(), (0.70, 0.98));
}

/// C12 and C13: the age of a share, and the ceiling 1/β = 1.1765 that no age reaches.
#[test]
fn age_of_a_share() {
    let growth = Growth::OrdinaryMoist;
    for (share, expected) in [(0.50, 3.478), (0.70, 6.914)] {
        assert_close(growth.age_of(share).expect("an age").get::<day>(), expected, 1e-3);
    }
    assert_eq!(growth.age_of(1.20), None);
    assert_eq!(growth.age_of(1.0 / 0.85), None);
    assert!(growth.age_of(1.1764).is_some());
}

/// M7 and M8: from hours in the cold and in the heat to strength.
#[test]
fn from_temperatures_to_strength() {
    for (at, growth, aged, share) in
        [(10.0, Growth::OrdinaryMoist, 1.6425, 0.3044), (30.0, Growth::HighEarlyMoist, 5.266, 0.7370)]
    {
        let age = history(&[(72.0, at)]).age(Law::default(), celsius(20.0), Units::Metric).value;
        assert_close(age.get::<day>(), aged, 1e-3);
        assert_close(growth.share(age), share, 1e-3);
    }
}

fn point(age: f64, strength: f64) -> Point {
    Point { age: hours(age), strength: psi(strength) }
}

fn rapid() -> Points {
    Points::new(&[point(24.0, 5500.0), point(1.0, 2500.0), point(672.0, 7500.0), point(3.0, 4000.0)]).expect("points")
}

/// Straight over the logarithm of age, and its inverse. Computed (scipy interp1d over log age).
#[test]
fn strength_between_points() {
    for (age, expected) in
        [(1.0, 2_500.0), (2.0, 3_446.394_63), (6.0, 4_500.0), (100.0, 6_356.559_885), (672.0, 7_500.0)]
    {
        let found = rapid().strength_at(hours(age)).expect("known");
        assert_close((found / psi(1.0)).value, expected, 1e-6);
    }
    for (strength, expected) in [(3000.0, 1.442_250), (5000.0, 12.0), (7000.0, 292.132_426)] {
        assert_close(rapid().age_of(psi(strength)).expect("reached").get::<hour>(), expected, 1e-6);
    }
}

/// Before the first point nothing is promised, and nothing beyond the last.
#[test]
fn strength_outside_of_points() {
    assert_eq!(rapid().strength_at(hours(0.9)), None);
    assert_eq!(rapid().strength_at(hours(f64::NAN)), None);
    assert_close(rapid().age_of(psi(100.0)).expect("at the first point").get::<hour>(), 1.0, EXACT);
    assert_eq!(rapid().age_of(psi(7501.0)), None);
    assert_close((rapid().strength_at(hours(1e9)).expect("held") / psi(1.0)).value, 7500.0, EXACT);
}

#[test]
fn points_that_are_no_curve() {
    for (points, problem) in [
        (vec![], PointsProblem::Empty),
        (vec![point(0.0, 100.0)], PointsProblem::Age(0)),
        (vec![point(1.0, 100.0), point(2.0, f64::NAN)], PointsProblem::Strength(1)),
        (vec![point(1.0, 100.0), point(3.0, 300.0), point(1.0, 200.0)], PointsProblem::SameAge(2)),
        (vec![point(9.0, 200.0), point(1.0, 300.0)], PointsProblem::Weaker(0)),
    ] {
        assert_eq!(Points::new(&points), Err(problem));
    }
}

fn stripping(label: f64, needs: Option<(Strengthening, f64)>) -> Stripping {
    let needs = needs.map(|(growth, strength)| (growth, psi(strength)));
    Stripping { label: hours(label), needs, reference: celsius(20.0) }
}

fn portland() -> Strengthening {
    Strengthening::Portland { growth: Growth::OrdinaryMoist, at_28_days: psi(4000.0) }
}

/// 2500 of 4000 psi is a share of 0.625, 5.3333 days at 20 °C; at 10 °C 9.7410 days by equivalent age, 8 by
/// Nurse-Saul over −10 °C, 10.6667 over 0 °C. Computed (numpy), C8 and M1.
#[test]
fn strip_when_strong_enough() {
    let garage = History::steady(celsius(10.0)).expect("a history");
    let found = stripping(72.0, Some((portland(), 2500.0))).time(&garage, Units::Inch).expect("a time");
    assert_close(found.at.value.get::<day>(), 9.7410, 1e-4);
    assert_close(found.earliest.get::<day>(), 8.0, 1e-6);
    assert_close(found.latest.expect("by every law").get::<day>(), 10.666_67, 1e-6);
    assert_eq!(found.range(), "8 days to 10 days 16 h");
}

/// The label's least time is never undercut, however hot it is and however little strength is wanted.
#[test]
fn strip_never_before_the_label() {
    let hot = History::steady(celsius(35.0)).expect("a history");
    for needs in [Some((portland(), 10.0)), None] {
        let found = stripping(72.0, needs).time(&hot, Units::Inch).expect("a time");
        assert_close(found.at.value.get::<hour>(), 72.0, EXACT);
        assert_close(found.earliest.get::<hour>(), 72.0, EXACT);
    }
    // With no strength known, the label's time is an age at its reference: later in the cold (M1).
    let cold = History::steady(celsius(10.0)).expect("a history");
    let found = stripping(72.0, None).time(&cold, Units::Inch).expect("a time");
    assert_close(found.at.value.get::<hour>(), 72.0 / 0.5475, 1e-3);
}

/// A history that turns cold: 12 h at 20 °C, then 5 °C; 30 h of age are reached after 57.158 h by equivalent
/// age, 48 h and 84 h by Nurse-Saul. Computed (scipy brentq).
#[test]
fn a_history_that_turns_cold() {
    let turns = history(&[(12.0, 20.0), (6.0, 5.0)]);
    let found = stripping(30.0, None).time(&turns, Units::Metric).expect("a time");
    assert_close(found.at.value.get::<hour>(), 57.158, 1e-4);
    assert_close(found.earliest.get::<hour>(), 48.0, 1e-6);
    assert_close(found.latest.expect("by every law").get::<hour>(), 84.0, 1e-6);
}

/// What never gets strong enough, or never hardens, says so.
#[test]
fn no_time_to_strip() {
    let steady = |degrees: f64| History::steady(celsius(degrees)).expect("a history");
    let too_strong = stripping(24.0, Some((Strengthening::Points(rapid()), 8000.0)));
    assert_eq!(too_strong.time(&steady(20.0), Units::Inch), Err(StripProblem::TooWeak));
    assert!(StripProblem::TooWeak.says(&too_strong, Units::Inch).contains("7500 psi"));
    // Under 0 °C one law hardens nothing: there is no late end.
    let found = stripping(24.0, None).time(&steady(-2.0), Units::Inch).expect("by equivalent age");
    assert_eq!(found.latest, None);
    assert_eq!(stripping(f64::NAN, None).time(&steady(20.0), Units::Inch), Err(StripProblem::NoNumber));
}

#[test]
fn histories_that_are_none() {
    let one = |lasts: f64, at: f64| History::new(vec![Stretch { lasts: hours(lasts), temperature: celsius(at) }]);
    assert_eq!(History::new(vec![]), Err(HistoryProblem::Empty));
    for lasts in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(one(lasts, 20.0), Err(HistoryProblem::Lasts(0)));
    }
    for at in [-41.0, 101.0, f64::NAN] {
        assert_eq!(one(1.0, at), Err(HistoryProblem::Temperature(0)));
    }
}
