//! Batches against the clock. All of it is common practice, without a published source, unless marked.

use crate::{EXACT, assert_close, job_of, worked_out};
use pourwright::finding::Strength;
use pourwright::job::{Job, Units};
use pourwright::measure::Time;
use pourwright::measure::exact::fahrenheit;
use pourwright::pour::{Plan, Remedy, workable_at};
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::minute;

/// Workable time halves for each 18 °F (10 °C) hotter: 15 min at 70 °F.
#[test]
fn workable_time_halves() {
    for (degrees, expected) in [(70.0, 15.0), (88.0, 7.5), (52.0, 30.0), (79.0, 15.0 / 2.0_f64.sqrt())] {
        assert_close(workable_at(Time::new::<minute>(15.0), fahrenheit(degrees)).get::<minute>(), expected, EXACT);
    }
}

fn plan(job: &Job) -> Plan {
    worked_out(job).pieces.remove(0).plan.unwrap()
}

/// 48 × 24 × 2 in is 1.3333 ft³, with 10 % spare 1.4667 ft³: 3 bags of 0.50 ft³. One person, one bag a
/// batch, 4 min a batch: 12 min of 15.
#[test]
fn a_pour_that_fits() {
    let plan = plan(&job_of("48", "24", "2"));
    assert_eq!(plan.batches.value, 3);
    assert_close(plan.takes.value.get::<minute>(), 12.0, EXACT);
    assert!(plan.fits);
    assert_eq!(plan.remedies, []);
}

/// 72 × 25 × 2 in is 2.0833 ft³, with spare 2.2917: 5 bags, 20 min against 15. Two people need
/// 3 rounds, 12 min; two bags a batch 3 batches, 12 min; 20 min are workable at 70 − 18·log2(20/15)
/// = 62.53 °F, so 62 °F.
#[test]
fn what_would_make_it_fit() {
    let job = job_of("72", "25", "2");
    let found = plan(&job);
    assert!(!found.fits);
    assert_close(found.takes.value.get::<minute>(), 20.0, EXACT);
    let [Remedy::People(2), Remedy::BagsABatch(2), Remedy::CoolTo(cool)] = found.remedies.as_slice() else {
        panic!("{:?}", found.remedies)
    };
    assert_close(cool.get::<degree_fahrenheit>(), 62.0, EXACT);

    // Each remedy, typed in, does make it fit.
    let mut by_people = job.clone();
    by_people.pour.people = "2".into();
    let mut by_batch = job.clone();
    by_batch.pour.bags_a_batch = "2".into();
    let mut by_cooling = job.clone();
    by_cooling.pour.air = "62".into();
    for remedied in [&by_people, &by_batch, &by_cooling] {
        assert!(plan(remedied).fits);
    }
    // And one degree warmer does not.
    by_cooling.pour.air = "63".into();
    assert!(!plan(&by_cooling).fits);

    let stops: Vec<_> = worked_out(&job).findings.into_iter().filter(|f| f.strength == Strength::Stop).collect();
    assert!(stops.iter().any(|stop| stop.remedy.contains("2 people mixing")), "{stops:?}");
}

/// In a metric job the remedy is a whole degree Celsius.
#[test]
fn cooling_in_whole_degrees_of_the_job() {
    let mut job = Job::new("check", Units::Metric);
    job.pieces[0].width = "1800".into();
    job.pieces[0].depth = "650".into();
    let found = plan(&job);
    let cool = found.remedies.iter().find_map(|remedy| match remedy {
        Remedy::CoolTo(cool) => Some(cool.get::<degree_celsius>()),
        _ => None,
    });
    let cool = cool.expect("a cooler day helps");
    assert!((cool - cool.round()).abs() < 1e-9, "{cool}");
    job.pour.air = format!("{}", cool.round()).as_str().into();
    assert!(plan(&job).fits);
}

/// A pour that no single change makes fit says so.
#[test]
fn nothing_alone_helps() {
    let mut job = job_of("300", "60", "6");
    job.pour.minutes_a_batch = "10".into();
    let found = plan(&job);
    assert_eq!(found.remedies, []);
    assert!(!found.fits);
    assert!(worked_out(&job).findings.iter().any(|f| f.strength == Strength::Stop && f.remedy.contains("split")));
}

/// ACI 306R under 40 °F and ACI 305R over 90 °F, from memory: a watch beyond either, none between.
#[test]
fn weather() {
    for (air, expected) in [("39", 1), ("40", 0), ("70", 0), ("90", 0), ("91", 1)] {
        let mut job = job_of("20", "20", "2");
        job.pour.air = air.into();
        let found = worked_out(&job).findings.iter().filter(|f| f.says.contains("where you pour")).count();
        assert_eq!(found, expected, "{air}");
    }
}
