//! Maturity, strength against age, and when a top may be stripped.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close};
use pourwright::measure::exact::psi;
use pourwright::measure::{Temperature, Time, Units};
use pourwright::pour::maturity::{History, HistoryProblem, Law, Stretch, spread};
use pourwright::pour::strength::{Growth, Point, Points, PointsProblem, Strengthening};
use pourwright::pour::strip::{StripProblem, Stripping};
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::{day, hour};

checks![
    pace_of_hardening,
    equivalent_age,
    nurse_saul,
    the_laws_part_in_the_cold,
    share_of_strength_at_28_days,
    age_of_a_share,
    from_temperatures_to_strength,
    strength_between_points,
    strip_when_strong_enough,
    a_history_that_turns_cold
];

const AGES: &str = "ASTM C1074, Eq. 2: te = Σ exp(−Q (1/T − 1/Ts)) Δt, Q = 5000 K";

const GROWTH: &str = "ACI 209R-92, Eq. 2-1 and 2.2.1: t ÷ (a + β t); constants read in public source files that state them, \
    type III in steam from memory";

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
    history.age(Law::default(), celsius(reference)).value.get::<hour>()
}

/// M1, ASTM C1074 Eq. 2 (from memory, computed): the pace of equivalent age, 5000 K, 20 °C.
fn pace_of_hardening(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "M1",
        title: "Pace of hardening",
        source: AGES,
        marks: &[Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "5 to 35 °C against 20 °C",
        conventions: "The standard adds 273 to °C, this program 273.15: under 0.1 %.",
        modelled: "pour::maturity::Law::pace, the default law",
        gap: "Three to four digits are told.",
        ..Check::default()
    });
    for (degrees, expected) in
        [(5.0, 0.399), (10.0, 0.5475), (15.0, 0.744), (25.0, 1.331), (30.0, 1.755), (35.0, 2.294)]
    {
        table.close(format!("{degrees} °C"), Law::default().pace(celsius(degrees), celsius(20.0)), expected, 2e-3);
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
fn equivalent_age(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "M2, M4, M5",
        title: "Equivalent age",
        source: AGES,
        marks: &[Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "12 h at 20, 12 h at 28, 24 h at 24, 24 h at 18 °C, at 20 and at 23 °C; 24 h at 12, 15 and 21 °C, at 20 °C",
        modelled: "pour::maturity::History::age",
        gap: "Four digits are told.",
        ..Check::default()
    });
    table.close("M2, h", age(&two_days_and_a_night(), 20.0), 82.42, 1e-3);
    table.close("M4, h", age(&two_days_and_a_night(), 23.0), 69.34, 1e-3);
    table.close("M5, h", age(&history(&[(24.0, 12.0), (24.0, 15.0), (24.0, 21.0)]), 20.0), 58.16, 1e-3);
}

/// M3, C1074 Eq. 1 (from memory, computed), and M6: time under the datum takes nothing off (practice).
fn nurse_saul(evidence: &mut Evidence) {
    let found = |history: &History, datum: f64| history.degree_hours(celsius(datum)).celsius_hours();
    let law = Law::NurseSaul { datum: celsius(-10.0) };
    let cold = history(&[(12.0, 8.0), (12.0, 5.0), (12.0, -4.0), (36.0, 10.0)]);
    let table = evidence.check(Check {
        label: "M3, M6",
        title: "Temperature times time",
        source: "ASTM C1074, Eq. 1: Σ (T − T0) Δt; that time under the datum takes nothing off is common practice",
        marks: &[Mark::Memory, Mark::Practice, Mark::ByHand],
        problem: "M2's history over −10 and 0 °C; 12 h at 8, 12 h at 5, 12 h at −4, 36 h at 10 °C over 0 °C",
        modelled: "pour::maturity::History::degree_hours and age",
        ..Check::default()
    });
    table.close("M3 over −10 °C, °C·h", found(&two_days_and_a_night(), -10.0), 2304.0, EXACT);
    table.close("M3 over 0 °C, °C·h", found(&two_days_and_a_night(), 0.0), 1584.0, EXACT);
    table.close("M6, °C·h", found(&cold, 0.0), 516.0, EXACT);
    let aged = two_days_and_a_night().age(law, celsius(20.0)).value.get::<hour>();
    table.close("M3 as an age at 20 °C, h", aged, 76.8, EXACT);
}

/// M9: one hour at 5 °C against 20 °C, by the three laws.
fn the_laws_part_in_the_cold(evidence: &mut Evidence) {
    let [cold, zero] = pourwright::pour::limits::datums();
    let table = evidence.check(Check {
        label: "M9",
        title: "How far the laws part in the cold",
        source: "ASTM C1074, Eq. 1 and 2",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "an hour at 5 °C against one at 20 °C",
        conventions: "This is why a strip time is told as a span.",
        modelled: "pour::maturity::Law::pace",
        gap: "Three digits are told.",
        ..Check::default()
    });
    for (what, law, expected) in [
        ("equivalent age", Law::default(), 0.399),
        ("over −10 °C", Law::NurseSaul { datum: cold }, 0.500),
        ("over 0 °C", Law::NurseSaul { datum: zero }, 0.250),
    ] {
        table.close(what, law.pace(celsius(5.0), celsius(20.0)), expected, 2e-3);
    }
    let found = spread(celsius(5.0), celsius(20.0));
    assert_close(found.slowest, 0.25, EXACT);
    assert_close(found.fastest, 0.5, EXACT);
}

/// C8 to C11, ACI 209R-92 Eq. 2-1 and 2.2.1 (constants published, type III in steam from memory; shares
/// computed). Not scaled to 1 at 28 days.
fn share_of_strength_at_28_days(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "C8 to C11",
        title: "Strength by age",
        source: GROWTH,
        marks: &[Mark::Published, Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "type I moist (4.0, 0.85), type III moist (2.3, 0.92), type I steam (1.0, 0.95), type III steam (0.70, 0.98)",
        conventions: "Not scaled to 1 at 28 days: type I moist is 1.0072 there.",
        modelled: "pour::strength::Growth::share",
        gap: "Four places are told.",
        ..Check::default()
    });
    for (what, growth, ages, shares) in [
        (
            "type I moist",
            Growth::OrdinaryMoist,
            &[1.0, 3.0, 7.0, 14.0, 28.0][..],
            &[0.2062, 0.4580, 0.7035, 0.8805, 1.0072][..],
        ),
        ("type III moist", Growth::HighEarlyMoist, &[1.0, 3.0, 7.0, 28.0], &[0.3106, 0.5929, 0.8009, 0.9979]),
        ("type I steam", Growth::OrdinarySteam, &[28.0], &[1.0145]),
    ] {
        for (age, share) in std::iter::zip(ages, shares) {
            table.within(format!("{what}, {age} d"), growth.share(days(*age)), *share, 2e-4);
        }
    }
    let (at_start, at_end) = Growth::HighEarlySteam.constants();
    table.close("type III steam: a", at_start, 0.70, EXACT);
    table.close("type III steam: β", at_end, 0.98, EXACT);
}

/// C12 and C13: the age of a share, and the ceiling 1/β = 1.1765 that no age reaches.
fn age_of_a_share(evidence: &mut Evidence) {
    let growth = Growth::OrdinaryMoist;
    let table = evidence.check(Check {
        label: "C12, C13",
        title: "Age for a strength",
        source: GROWTH,
        marks: &[Mark::Published, Mark::Computed("numpy 2.4.6")],
        problem: "type I moist: 0.50, 0.70, and 1.20, which is over the ceiling of 1/0.85",
        modelled: "pour::strength::Growth::age_of",
        gap: "Four digits are told.",
        ..Check::default()
    });
    for (share, expected) in [(0.50, 3.478), (0.70, 6.914)] {
        table.close(format!("{share}, d"), growth.age_of(share).expect("an age").get::<day>(), expected, 1e-3);
    }
    table.same("1.2", growth.age_of(1.20).map_or("no age", |_| "an age"), "no age");
    assert_eq!(growth.age_of(1.0 / 0.85), None);
    assert!(growth.age_of(1.1764).is_some());
}

/// M7 and M8: from hours in the cold and in the heat to strength.
fn from_temperatures_to_strength(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "M7, M8",
        title: "From temperatures to strength",
        source: "ASTM C1074, Eq. 2, from memory, into ACI 209R-92, Eq. 2-1",
        marks: &[Mark::Memory, Mark::Published, Mark::Computed("numpy 2.4.6")],
        problem: "3 days at 10 °C, type I moist; 3 days at 30 °C, type III moist",
        modelled: "pour::maturity::History::age into pour::strength::Growth::share",
        gap: "Four to five digits are told.",
        ..Check::default()
    });
    for (what, at, growth, aged, share) in
        [("M7", 10.0, Growth::OrdinaryMoist, 1.6425, 0.3044), ("M8", 30.0, Growth::HighEarlyMoist, 5.266, 0.7370)]
    {
        let age = history(&[(72.0, at)]).age(Law::default(), celsius(20.0)).value;
        table.close(format!("{what}: age, d"), age.get::<day>(), aged, 1e-3);
        table.close(format!("{what}: share"), growth.share(age), share, 1e-3);
    }
}

fn point(age: f64, strength: f64) -> Point {
    Point { age: hours(age), strength: psi(strength) }
}

fn rapid() -> Points {
    Points::new(&[point(24.0, 5500.0), point(1.0, 2500.0), point(672.0, 7500.0), point(3.0, 4000.0)]).expect("points")
}

/// Straight over the logarithm of age, and its inverse. Computed (scipy interp1d over log age).
fn strength_between_points(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "M10",
        title: "Strength between the points of a label",
        source: "A straight line over the logarithm of age",
        marks: &[Mark::Practice, Mark::Computed("scipy 1.17.1, interp1d")],
        problem: "2500, 4000, 5500, 7500 psi at 1, 3, 24, 672 h",
        modelled: "pour::strength::Points::strength_at and age_of",
        gap: "Six to nine digits are told.",
        ..Check::default()
    });
    for (age, expected) in
        [(1.0, 2_500.0), (2.0, 3_446.394_63), (6.0, 4_500.0), (100.0, 6_356.559_885), (672.0, 7_500.0)]
    {
        let found = rapid().strength_at(hours(age)).expect("known");
        table.close(format!("{age} h, psi"), (found / psi(1.0)).value, expected, 1e-6);
    }
    for (strength, expected) in [(3000.0, 1.442_250), (5000.0, 12.0), (7000.0, 292.132_426)] {
        let found = rapid().age_of(psi(strength)).expect("reached").get::<hour>();
        table.close(format!("{strength} psi, h"), found, expected, 1e-6);
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
fn strip_when_strong_enough(evidence: &mut Evidence) {
    let garage = History::steady(celsius(10.0)).expect("a history");
    let found = stripping(72.0, Some((portland(), 2500.0))).time(&garage).expect("a time");
    let table = evidence.check(Check {
        label: "M11",
        title: "When a top may leave its form",
        source: "C8 and M1",
        marks: &[Mark::Published, Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "2500 of 4000 psi, type I moist, 3 days by the label, in a garage of 10 °C",
        modelled: "pour::strip::Stripping::time",
        gap: "Five to eight digits are told.",
        ..Check::default()
    });
    table.close("by equivalent age, d", found.at.value.get::<day>(), 9.7410, 1e-4);
    table.close("over −10 °C, d", found.earliest.get::<day>(), 8.0, 1e-6);
    table.close("over 0 °C, d", found.latest.expect("by every law").get::<day>(), 10.666_67, 1e-6);
    assert_eq!(found.range(), "8 days to 10 days 16 h");
}

/// The label's least time is never undercut, however hot it is and however little strength is wanted.
#[test]
fn strip_never_before_the_label() {
    let hot = History::steady(celsius(35.0)).expect("a history");
    for needs in [Some((portland(), 10.0)), None] {
        let found = stripping(72.0, needs).time(&hot).expect("a time");
        assert_close(found.at.value.get::<hour>(), 72.0, EXACT);
        assert_close(found.earliest.get::<hour>(), 72.0, EXACT);
    }
    // With no strength known, the label's time is an age at its reference: later in the cold (M1).
    let cold = History::steady(celsius(10.0)).expect("a history");
    let found = stripping(72.0, None).time(&cold).expect("a time");
    assert_close(found.at.value.get::<hour>(), 72.0 / 0.5475, 1e-3);
}

/// A history that turns cold: 12 h at 20 °C, then 5 °C; 30 h of age are reached after 57.158 h by equivalent
/// age, 48 h and 84 h by Nurse-Saul. Computed (scipy brentq).
fn a_history_that_turns_cold(evidence: &mut Evidence) {
    let turns = history(&[(12.0, 20.0), (6.0, 5.0)]);
    let found = stripping(30.0, None).time(&turns).expect("a time");
    let table = evidence.check(Check {
        label: "M12",
        title: "A history that turns cold",
        source: "ASTM C1074, Eq. 1 and 2, solved for the time",
        marks: &[Mark::Memory, Mark::Computed("scipy 1.17.1, brentq")],
        problem: "12 h at 20 °C, then 5 °C: when 30 h of age are reached",
        modelled: "pour::strip::Stripping::time",
        gap: "Five digits are told.",
        ..Check::default()
    });
    table.close("by equivalent age, h", found.at.value.get::<hour>(), 57.158, 1e-4);
    table.close("over −10 °C, h", found.earliest.get::<hour>(), 48.0, 1e-6);
    table.close("over 0 °C, h", found.latest.expect("by every law").get::<hour>(), 84.0, 1e-6);
}

/// What never gets strong enough, or never hardens, says so.
#[test]
fn no_time_to_strip() {
    let steady = |degrees: f64| History::steady(celsius(degrees)).expect("a history");
    let too_strong = stripping(24.0, Some((Strengthening::Points(rapid()), 8000.0)));
    assert_eq!(too_strong.time(&steady(20.0)), Err(StripProblem::TooWeak));
    assert!(StripProblem::TooWeak.says(&too_strong).write(Units::Inch).contains("7500 psi"));
    // Under 0 °C one law hardens nothing: there is no late end.
    let found = stripping(24.0, None).time(&steady(-2.0)).expect("by equivalent age");
    assert_eq!(found.latest, None);
    assert_eq!(stripping(f64::NAN, None).time(&steady(20.0)), Err(StripProblem::NoNumber));
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
