//! Batches on a time line. Times and rules are common practice, no source; the layouts are followed by hand, minute
//! by minute, beside each check.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within};
use pourwright::measure::exact::{cubic_feet, fahrenheit, in_cubic_feet, in_pounds, pounds, quarts};
use pourwright::measure::{Temperature, Time, Units};
use pourwright::pour::temperature::{Charge, ChargeProblem};
use pourwright::pour::timeline::{
    Change, DayProblem, Holds, PourDay, Remedy, Retarder, Steel, Stiffening, Timeline, Times, Warmth, remedies,
};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::minute;

checks![workable_time_by_either_law];

fn minutes(count: f64) -> Time {
    Time::new::<minute>(count)
}

/// So many bags of 0.50 ft³; one person, one bucket of one bag; 2.5 + 0.5 + 1 min a batch; 15 min at 70 °F.
fn day(bags: f64) -> PourDay {
    PourDay {
        volume: cubic_feet(0.5 * bags),
        bag: Some(cubic_feet(0.5)),
        people: 1,
        mixers: vec![Holds::Bags(1)],
        times: Times { mix: minutes(2.5), dump: minutes(0.5), place: minutes(1.0) },
        face: None,
        steel: None,
        screed: minutes(0.0),
        pieces: 1,
        workable: minutes(15.0),
        stiffening: Stiffening::Halving,
        warmth: Warmth::Typed(fahrenheit(70.0)),
        retarder: None,
    }
}

fn laid_out(day: &PourDay) -> Timeline {
    day.lay_out().expect("a layout")
}

fn placed(timeline: &Timeline) -> Vec<f64> {
    timeline.batches.iter().map(|batch| batch.placed.get::<minute>()).collect()
}

#[track_caller]
fn assert_minutes(found: &[f64], expected: &[f64]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (found, expected) in std::iter::zip(found, expected) {
        assert_within(*found, *expected, 1e-9);
    }
}

/// One person, one bucket: batch after batch, 4 min each.
#[test]
fn one_after_the_other() {
    let found = laid_out(&day(3.0));
    assert_minutes(&placed(&found), &[4.0, 8.0, 12.0]);
    assert_close(found.takes.value.get::<minute>(), 12.0, EXACT);
    assert_close(found.last_margin.value.get::<minute>(), 3.0, EXACT);
    // Batch 1 has its water at 0 and batch 2 is laid on it at 8, batch 3 at 12 on that of 4: 15 − 8 either time.
    assert_close(found.joint_margin.expect("two joints").get::<minute>(), 7.0, EXACT);
    assert!(found.fits);
    assert_eq!(laid_out(&day(1.0)).joint_margin, None);
    // Kept wet from when the first sets, at 15, to an hour after the last does, at 8 + 15.
    let [from, until] = found.keep_wet();
    assert_minutes(&[from.get::<minute>(), until.get::<minute>()], &[15.0, 83.0]);
}

/// Two people at one bucket: while one places, the other mixes. Empty at 3, 6, 9, 12, 15; placed a minute later.
#[test]
fn two_people_at_one_mixer() {
    let found = laid_out(&PourDay { people: 2, ..day(5.0) });
    assert_minutes(&placed(&found), &[4.0, 7.0, 10.0, 13.0, 16.0]);
    assert_close(found.joint_margin.expect("joints").get::<minute>(), 8.0, EXACT);
    assert_close(found.last_margin.value.get::<minute>(), -1.0, EXACT);
    assert!(!found.fits);
}

/// Screeding is everybody's last step: 12 min of batches and 4 of it leave nothing of 16, and do not fit into 15.
#[test]
fn screeding_ends_a_pour() {
    let day = PourDay { screed: minutes(4.0), workable: minutes(16.0), ..day(3.0) };
    let found = laid_out(&day);
    assert_minutes(&placed(&found), &[4.0, 8.0, 12.0]);
    assert_minutes(&[found.screed.from, found.screed.until].map(|time| time.get::<minute>()), &[12.0, 16.0]);
    assert_close(found.takes.value.get::<minute>(), 16.0, EXACT);
    assert_within(found.last_margin.value.get::<minute>(), 0.0, 1e-9);
    assert!(found.fits);
    assert!(!laid_out(&PourDay { workable: minutes(15.0), ..day }).fits);
}

/// Two people with a bucket each: rounds of two.
#[test]
fn two_people_with_a_mixer_each() {
    let found = laid_out(&PourDay { people: 2, mixers: vec![Holds::Bags(1); 2], ..day(5.0) });
    assert_minutes(&placed(&found), &[4.0, 4.0, 8.0, 8.0, 12.0]);
}

/// One person gains nothing by a second bucket.
#[test]
fn one_person_at_two_mixers() {
    let found = laid_out(&PourDay { mixers: vec![Holds::Bags(1); 2], ..day(3.0) });
    assert_close(found.takes.value.get::<minute>(), 12.0, EXACT);
}

/// The largest mixer is taken first, and the last batch is what is left: 4 bags in mixers of 3 and 1.
#[test]
fn mixers_of_two_sizes() {
    let found = laid_out(&PourDay { people: 2, mixers: vec![Holds::Bags(1), Holds::Bags(3)], ..day(4.0) });
    assert_minutes(&placed(&found), &[4.0, 4.0]);
    let volumes: Vec<f64> = found.batches.iter().map(|batch| in_cubic_feet(batch.volume)).collect();
    assert_minutes(&volumes, &[1.5, 0.5]);
    assert_eq!(found.batches.iter().map(|batch| batch.mixer).collect::<Vec<_>>(), [1, 0]);
}

/// A mixer told by its volume takes as many whole bags as go in: 1.2 ft³ are 2 bags of 0.50 ft³; 2.6 bags are 3.
#[test]
fn whole_bags() {
    let found = laid_out(&PourDay { mixers: vec![Holds::Volume(cubic_feet(1.2))], ..day(2.6) });
    let volumes: Vec<f64> = found.batches.iter().map(|batch| in_cubic_feet(batch.volume)).collect();
    assert_minutes(&volumes, &[1.0, 0.5]);
    // From scratch there are no bags, and the mixer is filled.
    let scratch = PourDay { bag: None, mixers: vec![Holds::Volume(cubic_feet(1.2))], ..day(2.6) };
    let volumes: Vec<f64> = laid_out(&scratch).batches.iter().map(|batch| in_cubic_feet(batch.volume)).collect();
    assert_minutes(&volumes, &[1.2, 0.1]);
}

fn lath(at: f64) -> Option<Steel> {
    Some(Steel { at, takes: minutes(2.0) })
}

/// Lath at half: placed at 4 and 8, lath until 10, then 14 and 18.
#[test]
fn lath_at_half() {
    let found = laid_out(&PourDay { steel: lath(0.5), ..day(4.0) });
    assert_minutes(&placed(&found), &[4.0, 8.0, 14.0, 18.0]);
    let laid = found.steel.expect("laid");
    assert_minutes(&[laid.from.get::<minute>(), laid.until.get::<minute>()], &[8.0, 10.0]);
}

/// Two people at one bucket: placed at 4 and 7; one lays lath from 7 to 9 while the other mixes from 6 to 8.5; that
/// batch waits until 9, is dumped by 9.5 and placed at 10.5; the last is mixed from 9.5 to 12, placed at 13.5.
#[test]
fn mixing_goes_on_while_lath_is_laid() {
    let found = laid_out(&PourDay { people: 2, steel: lath(0.5), ..day(4.0) });
    assert_minutes(&placed(&found), &[4.0, 7.0, 10.5, 13.5]);
    assert_close(found.steel.expect("laid").until.get::<minute>(), 9.0, EXACT);
}

/// Pushed in at the end, the steel is the end.
#[test]
fn steel_into_a_full_form() {
    let found = laid_out(&PourDay { steel: lath(1.0), ..day(2.0) });
    assert_close(found.takes.value.get::<minute>(), 10.0, EXACT);
    assert_close(found.last_margin.value.get::<minute>(), 5.0, EXACT);
}

/// By halving, 15 min at 70 °F are 30 at 52 °F and 7.5 at 88 °F (common practice). By equivalent age of 5000 K,
/// 27.2704 and 8.5814: computed (numpy), form of ASTM C1074 Eq. 2.
fn workable_time_by_either_law(evidence: &mut Evidence) {
    let age = Stiffening::EquivalentAge { activation: pourwright::pour::limits::activation() };
    let table = evidence.check(Check {
        label: "M13",
        title: "Workable time of a warmer or colder mix",
        source: "Half for each 18 °F warmer is common practice; equivalent age is ASTM C1074, Eq. 2",
        marks: &[Mark::Practice, Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "15 min at 70 °F, at 52, 70 and 88 °F; Q = 5000 K",
        conventions: "Neither is a test of the mix in the bucket: the label's own time outranks both.",
        modelled: "pour::timeline::Stiffening::workable, and back by warmest_for",
        ..Check::default()
    });
    for (what, stiffening, degrees, expected) in [
        ("halving", Stiffening::Halving, 52.0, 30.0),
        ("halving", Stiffening::Halving, 88.0, 7.5),
        ("equivalent age", age, 52.0, 27.270_358_373),
        ("equivalent age", age, 70.0, 15.0),
        ("equivalent age", age, 88.0, 8.581_356_336),
    ] {
        let found = stiffening.workable(minutes(15.0), fahrenheit(degrees));
        table.close(format!("{what}, {degrees} °F, min"), found.get::<minute>(), expected, 1e-6);
        let back = stiffening.warmest_for(minutes(15.0), found).expect("a temperature");
        assert_within(back.get::<degree_fahrenheit>(), degrees, 1e-6);
        let timeline = laid_out(&PourDay { stiffening, warmth: Warmth::Typed(fahrenheit(degrees)), ..day(1.0) });
        assert_close(timeline.workable.value.get::<minute>(), expected, 1e-6);
    }
}

/// A retarder that doubles the workable time at its most, half of it in: 1.5 times.
#[test]
fn a_retarder_in_proportion() {
    let retarder = Some(Retarder { at_most: 2.0, used: 0.5 });
    let found = laid_out(&PourDay { retarder, ..day(1.0) });
    assert_close(found.workable.value.get::<minute>(), 22.5, EXACT);
}

fn changes(found: &[Remedy]) -> Vec<Change> {
    found.iter().map(|remedy| remedy.change).collect()
}

/// Five bags, 20 min against 15, by hand:
/// * more people at one bucket: 16 min at best; more buckets for one person: 20. Neither;
/// * a second person with a bucket: 12 min, size 1 + 1;
/// * a mixer of 2 bags: 2.5 + 1 + 2 min, three times is 16.5; of 3 bags 2.5 + 1.5 + 3, twice is 14, size 2;
/// * 20 min are workable at 70 − 18·log2(20/15) = 62.53, so 62 °F, size 8/18;
/// * a retarder that doubles: 20/15 wants a third of it, in steps of 5 % 35 %, size 0.35;
/// * halves: 2.5 bags are 3, 12 min, size 1.
#[test]
fn the_smallest_change_of_each_kind() {
    let retarder = Some(Retarder { at_most: 2.0, used: 0.0 });
    let found = remedies(&PourDay { retarder, ..day(5.0) }, Units::Inch);
    let [
        Change::Retarder(share),
        Change::Cooler(cool),
        Change::Parts(2),
        Change::PeopleWithMixers(1),
        Change::Bigger(bigger),
    ] = changes(&found)[..]
    else {
        panic!("{found:?}")
    };
    assert_close(share, 0.35, EXACT);
    assert_close(cool.get::<degree_fahrenheit>(), 62.0, EXACT);
    assert_eq!(bigger, Holds::Bags(3));
    let sizes: Vec<f64> = found.iter().map(|remedy| remedy.size).collect();
    assert_minutes(&sizes, &[0.35, 8.0 / 18.0, 1.0, 2.0, 2.0]);
    let takes: Vec<f64> = found.iter().map(|remedy| remedy.takes.get::<minute>()).collect();
    assert_minutes(&takes, &[20.0, 20.0, 12.0, 12.0, 14.0]);
    let words: Vec<String> = found.iter().map(|remedy| remedy.change.words(Units::Inch)).collect();
    assert_eq!(words[1..4], ["a mix of 62 °F", "in halves, with a planned joint", "1 more person, with a mixer"]);
}

/// Where people alone do it, people with mixers are not offered: three buckets, one person take
/// 20 min, with a second person 12.
#[test]
fn people_alone_where_mixers_stand_idle() {
    let found = remedies(&PourDay { mixers: vec![Holds::Bags(1); 3], ..day(5.0) }, Units::Inch);
    assert!(changes(&found).contains(&Change::People(2)), "{found:?}");
    assert!(!changes(&found).iter().any(|change| matches!(change, Change::PeopleWithMixers(_))), "{found:?}");
}

/// 55 lb bags at 75 °F with 5 qt of water: for 62.53 °F the water is 48.0 °F by ACI 305R (computed, numpy), so
/// that of 48 °F does it and that of 49 °F does not.
#[test]
fn cold_water_makes_it_fit() {
    let charge = bag(75.0, 75.0);
    let hot = PourDay { warmth: Warmth::Of(charge), ..day(5.0) };
    let found = remedies(&hot, Units::Inch);
    let water = found.iter().find_map(|remedy| match remedy.change {
        Change::Water(water) => Some(water.get::<degree_fahrenheit>()),
        _ => None,
    });
    assert_close(water.expect("colder water"), 48.0, EXACT);
    assert!(laid_out(&hot.with(Change::Water(fahrenheit(48.0)))).fits);
    assert!(!laid_out(&hot.with(Change::Water(fahrenheit(49.0)))).fits);
}

fn bag(dry: f64, water: f64) -> Charge {
    Charge::bagged(
        pounds(55.0),
        fahrenheit(dry),
        quarts(5.0) * pourwright::mix::limits::water_density(),
        fahrenheit(water),
    )
}

/// Bags at 95 °F want water under freezing: 34.1 oz of it are ice instead, with the rest at 60 °F (computed,
/// numpy), so 35 oz.
#[test]
fn ice_makes_it_fit() {
    let hot = PourDay { warmth: Warmth::Of(bag(95.0, 60.0)), ..day(5.0) };
    let found = remedies(&hot, Units::Inch);
    let ice = found.iter().find_map(|remedy| match remedy.change {
        Change::Ice(ice) => Some(ice),
        _ => None,
    });
    let ice = ice.expect("ice");
    assert_close(in_pounds(ice) * 16.0, 35.0, EXACT);
    assert!(laid_out(&hot.with(Change::Ice(ice))).fits);
    assert!(!laid_out(&hot.with(Change::Ice(pounds(34.0 / 16.0)))).fits);
}

/// In a metric job the mix is cooled to a whole degree Celsius: 62.53 °F are 16.96 °C, so 16.
#[test]
fn cooling_in_whole_degrees_of_the_job() {
    let found = remedies(&day(5.0), Units::Metric);
    let cool = found.iter().find_map(|remedy| match remedy.change {
        Change::Cooler(cool) => Some(cool.get::<degree_celsius>()),
        _ => None,
    });
    assert_within(cool.expect("a cooler mix"), 16.0, 1e-9);
}

/// A retarder that is in already counts: six bags, 24 min, with 1.5 times the workable time want 16 min of the mix
/// alone, at 70 − 18·log2(16/15) = 68.32 °F.
#[test]
fn cooling_less_with_a_retarder() {
    let retarder = Some(Retarder { at_most: 2.0, used: 0.5 });
    let found = remedies(&PourDay { retarder, ..day(6.0) }, Units::Inch);
    let cool = found.iter().find_map(|remedy| match remedy.change {
        Change::Cooler(cool) => Some(cool.get::<degree_fahrenheit>()),
        _ => None,
    });
    assert_within(cool.expect("a cooler mix"), 68.0, 1e-9);
    // And more of it does it alone: 24 ÷ 15 is 1.6 times, so 60 % of the most.
    assert!(
        changes(&found).iter().any(|change| matches!(change, Change::Retarder(share) if (share - 0.6).abs() < 1e-9))
    );
}

/// What fits needs nothing; what nothing alone makes fit is offered nothing: with 2 min of workable time not
/// even one batch of 4 min is placed.
#[test]
fn no_remedy() {
    assert_eq!(remedies(&day(3.0), Units::Inch), []);
    let hopeless = PourDay { workable: minutes(2.0), ..day(40.0) };
    assert_eq!(remedies(&hopeless, Units::Inch), []);
}

#[test]
fn days_that_cannot_be_laid_out() {
    let nan = minutes(f64::NAN);
    let times = day(1.0).times;
    let good = day(3.0);
    for (day, problem) in [
        (PourDay { volume: cubic_feet(0.0), ..good.clone() }, DayProblem::Volume),
        (PourDay { volume: cubic_feet(f64::INFINITY), ..good.clone() }, DayProblem::Volume),
        (PourDay { bag: Some(cubic_feet(f64::NAN)), ..good.clone() }, DayProblem::Bag),
        (PourDay { bag: None, ..good.clone() }, DayProblem::Bag),
        (PourDay { people: 0, ..good.clone() }, DayProblem::People),
        (PourDay { people: u32::MAX, ..good.clone() }, DayProblem::People),
        (PourDay { mixers: vec![], ..good.clone() }, DayProblem::Mixers),
        (PourDay { mixers: vec![Holds::Bags(1); 17], ..good.clone() }, DayProblem::Mixers),
        (PourDay { mixers: vec![Holds::Bags(1), Holds::Bags(0)], ..good.clone() }, DayProblem::MixerTooSmall(1)),
        (PourDay { mixers: vec![Holds::Volume(cubic_feet(0.4))], ..good.clone() }, DayProblem::MixerTooSmall(0)),
        (day(1001.0), DayProblem::TooManyBatches),
        (day(1e12), DayProblem::TooManyBatches),
        (PourDay { times: Times { mix: nan, ..times }, ..good.clone() }, DayProblem::Times),
        (PourDay { times: Times { place: minutes(-1.0), ..times }, ..good.clone() }, DayProblem::Times),
        (PourDay { times: Times { mix: minutes(1e9), ..times }, ..good.clone() }, DayProblem::Times),
        (PourDay { steel: Some(Steel { at: 0.0, takes: minutes(1.0) }), ..good.clone() }, DayProblem::Steel),
        (PourDay { steel: Some(Steel { at: 1.1, takes: minutes(1.0) }), ..good.clone() }, DayProblem::Steel),
        (PourDay { steel: Some(Steel { at: 0.5, takes: nan }), ..good.clone() }, DayProblem::Times),
        (PourDay { workable: minutes(0.0), ..good.clone() }, DayProblem::Workable),
        (PourDay { warmth: Warmth::Typed(Temperature::default()), ..good.clone() }, DayProblem::Workable),
        (PourDay { retarder: Some(Retarder { at_most: 0.9, used: 0.0 }), ..good.clone() }, DayProblem::Retarder),
        (PourDay { retarder: Some(Retarder { at_most: 2.0, used: f64::NAN }), ..good.clone() }, DayProblem::Retarder),
        (PourDay { warmth: Warmth::Of(bag(70.0, 20.0)), ..good.clone() }, DayProblem::Warmth(ChargeProblem::Water)),
    ] {
        assert_eq!(day.lay_out().err(), Some(problem));
        assert!(!problem.says().write(Units::Inch).is_empty());
    }
}

/// A thousand batches are laid out.
#[test]
fn a_thousand_batches() {
    let found = laid_out(&PourDay { people: 3, mixers: vec![Holds::Bags(1); 3], steel: lath(0.5), ..day(1000.0) });
    assert_eq!(found.batches.len(), 1000);
    assert!(found.takes.working.lines(Units::Inch).len() < 20);
}
