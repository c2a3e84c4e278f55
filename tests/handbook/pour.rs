//! Batches against the clock. All of it is common practice, without a published source, unless marked.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, job_of, worked_out};
use pourwright::finding::Severity;
use pourwright::job::{Additive, BagField, Entry, FieldPath, Job, Lath, PourField, Spell, StrengthPoint, Units};
use pourwright::measure::Time;
use pourwright::measure::exact::{fahrenheit, in_pounds};
use pourwright::pour::timeline::Change;
use pourwright::pour::{Fit, Plan, workable_at};
use pourwright::working::Source;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::minute;

checks![weather_and_strength_of_the_job];

/// Computed (python): 5 × ((t + 18)^2.5 − 0.2 (t + 18)^2.5) × (V + 4) ÷ 10⁶ with t 190/9 °C and V 16.09344 km/h.
const UNO: f64 = 0.768891;

/// Workable time halves for each 18 °F (10 °C) hotter: 15 min at 70 °F.
#[test]
fn workable_time_halves() {
    for (degrees, expected) in [(70.0, 15.0), (88.0, 7.5), (52.0, 30.0), (79.0, 15.0 / 2.0_f64.sqrt())] {
        assert_close(workable_at(Time::new::<minute>(15.0), fahrenheit(degrees)).get::<minute>(), expected, EXACT);
    }
}

fn plan(job: &Job) -> Plan {
    worked_out(job).pieces[0].plan.clone().unwrap()
}

/// 48 × 24 × 2 in is 1.3333 ft³, with 10 % spare 1.4667 ft³: 3 bags of 0.50 ft³. One person, one bag a batch: 4 min
/// to mix it, 1 1/2 to carry and place it, and 4 to screed at the end are 20 1/2 min; they fit into 23 and not into 20.
#[test]
fn three_bags_by_one_person() {
    let mut job = job_of("48", "24", "2");
    *job.bags[0].entry_mut(BagField::Workable) = "23 min".into();
    let found = plan(&job);
    assert_eq!(found.batches.value, 3);
    assert_close(found.timeline.takes.value.get::<minute>(), 20.5, EXACT);
    assert_close(found.timeline.screed.from.get::<minute>(), 16.5, EXACT);
    assert!(found.timeline.fits);
    assert_eq!(found.remedies, []);
    *job.bags[0].entry_mut(BagField::Workable) = "20 min".into();
    assert!(!plan(&job).timeline.fits);
}

/// The same with lath, which takes 4 min: 24 1/2 of 15 min. A typed 0 counts as nothing: 12 min of mixing and 4 of
/// screeding. What counts as usual is told as practice, what is typed is not.
#[test]
fn what_is_blank_takes_its_usual_time() {
    let mut job = job_of("48", "24", "2");
    job.pieces[0].reinforcement.lath = Lath::Light;
    let found = plan(&job);
    assert_close(found.timeline.takes.value.get::<minute>(), 24.5, EXACT);
    assert!(!found.timeline.fits);
    let usual = |plan: &Plan| {
        let lines = plan.timeline.takes.working.lines(Units::Inch);
        let usual = lines.iter().filter(|line| line.formula.contains("as usual"));
        usual.map(|line| (line.result.clone(), line.source)).collect::<Vec<_>>()
    };
    let practice = |time: &str| (time.to_owned(), Source::Practice);
    assert_eq!(usual(&found), [practice("0.5 min"), practice("1 min"), practice("4 min")]);
    for field in [PourField::Carry, PourField::Place, PourField::SteelTakes] {
        *job.entry_at_mut(FieldPath::Pour(field)).expect("a field of the day") = "0".into();
    }
    let found = plan(&job);
    assert_close(found.timeline.takes.value.get::<minute>(), 16.0, EXACT);
    assert_eq!(usual(&found), []);
}

/// The same three bags take 16 1/2 min to place. Blank, 4 min of screeding make 20 1/2; a typed 6 make 22 1/2, which
/// only just fits into 23, and 7 make 23 1/2, which do not; a typed 0 counts as nothing. What is typed is no practice.
#[test]
fn screeding_takes_what_is_typed() {
    let mut job = job_of("48", "24", "2");
    *job.bags[0].entry_mut(BagField::Workable) = "23 min".into();
    for (screed, takes, fit, source) in [
        ("", 20.5, Fit::Well, Source::Practice),
        ("6", 22.5, Fit::Just, Source::Typed),
        ("7 min", 23.5, Fit::Over, Source::Typed),
        ("0", 16.5, Fit::Well, Source::Typed),
    ] {
        job.pour.screed = screed.into();
        let found = plan(&job);
        assert_close(found.timeline.takes.value.get::<minute>(), takes, EXACT);
        assert_eq!(found.fit(), fit, "{screed}");
        let told = found.timeline.takes.working.lines(Units::Inch).last().map(|line| line.source);
        assert_eq!(told, Some(source), "{screed}");
    }
}

/// 20 1/2 min leave 2.5 of 23, over a tenth; 2 of 22 1/2, under a tenth, which only just fits; and 20 are too few.
#[test]
fn a_verdict_says_how_near_it_is() {
    let mut job = job_of("48", "24", "2");
    for (workable, fit, verdict, strength) in [
        ("23 min", Fit::Well, "It fits.", None),
        ("22.5 min", Fit::Just, "It only just fits: 2 min to spare.", Some(Severity::Watch)),
        ("20 min", Fit::Over, "It does not fit.", Some(Severity::Stop)),
    ] {
        *job.bags[0].entry_mut(BagField::Workable) = workable.into();
        let found = plan(&job);
        assert_eq!((found.fit(), found.verdict().as_str()), (fit, verdict), "{workable}");
        let all = worked_out(&job).findings;
        let says = all.iter().find(|one| one.place == FieldPath::Pour(PourField::People)).map(|one| one.severity);
        assert_eq!(says, strength, "{workable}");
    }
}

/// Two people with a bag each at 88 °F: 1 1/2 min to mix, 1 1/2 to place, 4 to screed are 7 of 7 1/2. That a second
/// person mixes is no remedy; a mix of 87 °F stays workable 7.79 min, of which 0.79 is over a tenth.
#[test]
fn what_is_chosen_is_no_remedy() {
    let mut job = job_of("32", "24", "2");
    (job.pour.people, job.pour.minutes_a_batch, job.pour.air) = ("2".into(), "1.5".into(), "88".into());
    let found = plan(&job);
    assert_close(found.timeline.takes.value.get::<minute>(), 7.0, EXACT);
    assert_eq!(found.verdict(), "It only just fits: 0.5 min to spare.");
    let all = worked_out(&job).findings;
    let watch = all.iter().find(|one| one.place == FieldPath::Pour(PourField::People)).expect("a watch");
    assert!(
        watch.remedy.write(&job).starts_with("Any one of these leaves room: a mix of 87 °F"),
        "{}",
        watch.remedy.write(&job)
    );
    assert!(!watch.remedy.write(&job).contains("person"), "{}", watch.remedy.write(&job));
    job.pour.air = "87".into();
    assert_eq!(plan(&job).fit(), Fit::Well);
}

/// 72 × 25 × 2 in is 2.0833 ft³, with spare 2.2917: 5 bags, 5 × 5 1/2 min and 4 to screed, 31 1/2 min against 15.
/// Three people need 2 rounds, 15 min; a part of two bags takes 15 min; 31 1/2 min are workable at
/// 70 − 18·log2(31.5/15) = 50.73 °F, so 50 °F. A bigger mixer saves too little: what is in it is carried too.
#[test]
fn what_would_make_it_fit() {
    let job = job_of("72", "25", "2");
    let found = plan(&job);
    assert!(!found.timeline.fits);
    assert_close(found.timeline.takes.value.get::<minute>(), 31.5, EXACT);
    let changes: Vec<_> = found.remedies.iter().map(|remedy| remedy.change).collect();
    let [Change::Cooler(cool), Change::Parts(3), Change::PeopleWithMixers(2)] = changes.as_slice() else {
        panic!("{changes:?}")
    };
    assert_close(cool.get::<degree_fahrenheit>(), 50.0, EXACT);

    // Each remedy, typed in, does make it fit.
    let mut by_people = job.clone();
    by_people.pour.people = "3".into();
    let mut by_parts = job.clone();
    by_parts.pour.parts = "3".into();
    let mut by_cooling = job.clone();
    by_cooling.pour.air = "50".into();
    for remedied in [&by_people, &by_parts, &by_cooling] {
        assert!(plan(remedied).timeline.fits);
    }
    // And one degree warmer does not.
    by_cooling.pour.air = "51".into();
    assert!(!plan(&by_cooling).timeline.fits);

    let stops: Vec<_> = worked_out(&job).findings.into_iter().filter(|f| f.severity == Severity::Stop).collect();
    assert!(stops.iter().any(|stop| stop.remedy.write(&job).contains("2 more people, each with a mixer")), "{stops:?}");
}

/// Each remedy is one tap: what it types makes it fit, and no field that it does not name is touched.
#[test]
fn a_remedy_typed_in() {
    let mut job = job_of("72", "25", "2");
    job.pour.bag_temperature = "80".into();
    (job.pour.carry, job.pour.place) = ("30 s".into(), "0".into());
    *job.bags[0].entry_mut(BagField::Workable) = "20 min".into();
    job.bags[0].additives = vec![Additive {
        name: "Retarder".into(),
        dose_least: "1/2 oz".into(),
        dose_most: "4 oz".into(),
        longer: "30 min".into(),
        ..Additive::default()
    }];
    let found = plan(&job);
    let kinds: Vec<_> = found.remedies.iter().map(|remedy| std::mem::discriminant(&remedy.change)).collect();
    assert!(kinds.len() >= 5, "{:?}", found.remedies);
    for remedy in &found.remedies {
        let mut remedied = job.clone();
        for (place, text) in found.typed(remedy.change, &job) {
            *remedied.entry_at_mut(place).expect("a field") = Entry(text);
        }
        assert_ne!(remedied, job);
        assert!(plan(&remedied).timeline.fits, "{remedy:?}");
    }
}

/// With nothing to place the rule is that of rounds: batches ÷ people, rounded up, times the time a batch; then 4 min
/// to screed.
#[test]
fn zeros_leave_the_rule_of_rounds() {
    for (people, bags_a_batch, lath) in [(1, 1, false), (2, 1, true), (3, 2, false), (4, 3, true), (16, 1, true)] {
        let mut job = job_of("96", "30", "2 1/2");
        job.pour.people = Entry(people.to_string());
        job.pour.bags_a_batch = Entry(bags_a_batch.to_string());
        for field in [PourField::Carry, PourField::Place, PourField::SteelTakes] {
            *job.entry_at_mut(FieldPath::Pour(field)).expect("a field of the day") = "0".into();
        }
        if lath {
            job.pieces[0].reinforcement.lath = Lath::Light;
        }
        let found = plan(&job);
        let bags = worked_out(&job).pieces[0].pour.as_ref().unwrap().loads.value;
        let rounds = bags.div_ceil(bags_a_batch).div_ceil(people);
        assert_close(found.timeline.takes.value.get::<minute>(), f64::from(rounds) * 4.0 + 4.0, EXACT);
        assert_eq!(found.batches.value, bags.div_ceil(bags_a_batch));
        assert_eq!(found.timeline.fits, rounds * 4 + 4 <= 15);
    }
}

/// Five bags in halves are three and two; three of 5 1/2 min and 4 to screed are 20 1/2.
#[test]
fn in_halves() {
    let mut job = job_of("72", "25", "2");
    job.pour.parts = "2".into();
    let found = plan(&job);
    assert_eq!(found.parts, [3, 2]);
    assert_eq!(found.batches.value, 5);
    assert_close(found.timeline.takes.value.get::<minute>(), 20.5, EXACT);
}

/// Water that an additive brings is poured less: 40 % of 10 oz is 4 oz of 5 qt, which are 167 oz (computed from
/// 62.4 lb/ft³).
#[test]
fn water_in_an_additive() {
    let mut job = job_of("48", "24", "2");
    let water = |job: &Job| worked_out(job).orders[0].as_ref().unwrap().bagged().unwrap().water_a_bag;
    let before = water(&job);
    job.bags[0].additives =
        vec![Additive { name: "Polymer".into(), dose: "10 oz".into(), water: "40 %".into(), ..Additive::default() }];
    let less = (before - water(&job)) * pourwright::mix::limits::water_density();
    assert_close(in_pounds(less) * 16.0, 4.0, 1e-9);
}

/// What is typed of the weather and of strength comes through: Uno's form at 70 °F and 20 % with 10 mph over a mix
/// of 70 °F; 2500 psi on the line over the logarithm of age between 2000 psi at
/// 1 h and 4000 psi at 4 h is 60 · 4^0.25 = 84.853 min at the temperature that they are stated at.
fn weather_and_strength_of_the_job(evidence: &mut Evidence) {
    let mut job = job_of("48", "24", "2");
    assert!(worked_out(&job).pieces[0].drying.is_err(), "humidity is not known");
    job.pour.humidity = "20".into();
    job.pour.wind = "10".into();
    let drying = worked_out(&job).pieces[0].drying.clone().unwrap();

    let strip = |job: &Job| worked_out(job).pieces[0].strip.clone().unwrap().at.value.get::<minute>();
    job.pour.air = "68".into();
    job.bags[0].stated_at = "68".into();
    job.pour.strip_strength = "2500".into();
    job.bags[0].strengths = vec![
        StrengthPoint { age: "1 h".into(), strength: "2000 psi".into() },
        StrengthPoint { age: "4 h".into(), strength: "4000 psi".into() },
    ];
    let table = evidence.check(Check {
        label: "E3, M10",
        title: "Weather and strength from the typed job",
        source: "Uno (1998), SI form, read in public sources that quote it; a straight line over the logarithm of age",
        marks: &[Mark::Published, Mark::Practice, Mark::Computed("Python 3.11")],
        problem: "70 °F, 20 %, 10 mph over a mix of 70 °F; 2500 psi between 2000 psi at 1 h and 4000 psi at 4 h, at 68 °F: \
            60 × 4^0.25 min",
        modelled: "estimate::estimate of that job: drying and strip time",
        gap: "Six to seven digits are told.",
        ..Check::default()
    });
    table.close("drying, kg/m²/h", drying.estimate.value.value * 3600.0, UNO, 1e-4);
    table.close("strip time, min", strip(&job), 84.852_814, 1e-6);
    // A cold night makes it later; it is the history that counts, not the day.
    job.pour.garage = vec![Spell { lasts: "12 h".into(), temperature: "50".into() }];
    assert!(strip(&job) > 100.0);
}

/// In a metric job the remedy is a whole degree Celsius.
#[test]
fn cooling_in_whole_degrees_of_the_job() {
    let mut job = Job::new("check", Units::Metric);
    job.pieces[0].width = "1800".into();
    job.pieces[0].depth = "650".into();
    let found = plan(&job);
    let cool = found.remedies.iter().find_map(|remedy| match remedy.change {
        Change::Cooler(cool) => Some(cool.get::<degree_celsius>()),
        _ => None,
    });
    let cool = cool.expect("a cooler day helps");
    assert!((cool - cool.round()).abs() < 1e-9, "{cool}");
    job.pour.air = format!("{}", cool.round()).as_str().into();
    assert!(plan(&job).timeline.fits);
}

/// A pour that no single change makes fit says so.
#[test]
fn nothing_alone_helps() {
    let mut job = job_of("300", "60", "6");
    job.pour.minutes_a_batch = "10".into();
    let found = plan(&job);
    assert_eq!(found.remedies, []);
    assert!(!found.timeline.fits);
    assert!(
        worked_out(&job)
            .findings
            .iter()
            .any(|f| f.severity == Severity::Stop && f.remedy.write(&job).contains("split"))
    );
}

/// ACI 306R under 40 °F and ACI 305R over 90 °F, from memory: a watch beyond either, none between.
#[test]
fn weather() {
    for (air, expected) in [("39", 1), ("40", 0), ("70", 0), ("90", 0), ("91", 1)] {
        let mut job = job_of("20", "20", "2");
        job.pour.air = air.into();
        let found = worked_out(&job).findings.iter().filter(|f| f.says.write(&job).contains("where you pour")).count();
        assert_eq!(found, expected, "{air}");
    }
}

/// Three pieces of 30 × 12 × 1 1/4 in take 0.2604 ft³ each, 0.8594 with 10 % spare in all: 2 bags of 0.50 ft³ at one go,
/// where each alone would take one. Two batches of 5 1/2 min and 4 to screed each of the three, one after the other, are
/// all of 23 min: it is said once.
#[test]
fn pieces_of_one_mix_are_one_pouring() {
    let mut job = job_of("30", "12", "1 1/4");
    job.pieces = vec![job.pieces[0].clone(); 3];
    *job.bags[0].entry_mut(BagField::Workable) = "23 min".into();
    let people = |job: &Job| -> Vec<_> {
        let all = worked_out(job).findings.into_iter().filter(|one| one.place == FieldPath::Pour(PourField::People));
        all.map(|one| (one.severity, one.says.write(job))).collect()
    };
    let all = worked_out(&job);
    let [Ok(pouring)] = all.pourings.as_slice() else { panic!("{:?}", all.pourings) };
    assert_eq!(pouring.pieces, [0, 1, 2]);
    assert_eq!((all.orders[0].as_ref().unwrap().bags.value, pouring.plan.batches.value), (2, 2));
    assert_eq!(all.pieces.iter().map(|piece| piece.plan.as_ref().unwrap().batches.value).sum::<u32>(), 3);
    assert_close(pouring.plan.timeline.takes.value.get::<minute>(), 23.0, EXACT);
    let told = &pouring.plan.timeline.takes.working.lines(Units::Inch);
    assert!(told.iter().any(|line| line.formula.contains("of 3 pieces, one after the other")), "{told:?}");
    assert_eq!(pouring.plan.verdict(), "It only just fits: 0 min to spare.");
    let found = people(&job);
    let [(Severity::Watch, says)] = found.as_slice() else { panic!("{found:?}") };
    assert!(says.starts_with("3 pieces of Rapid mortar, 55 lb at one go: "), "{says}");

    // Each alone takes 9 1/2 of 22 min, all of them 23: a stop, once.
    *job.bags[0].entry_mut(BagField::Workable) = "22 min".into();
    assert!(worked_out(&job).pieces.iter().all(|piece| piece.plan.as_ref().unwrap().timeline.fits));
    assert_eq!(people(&job).iter().map(|(strength, _)| *strength).collect::<Vec<_>>(), [Severity::Stop]);

    // Lath in two of them takes 4 min each.
    for piece in &mut job.pieces[1..] {
        piece.reinforcement.lath = Lath::Light;
    }
    let all = worked_out(&job);
    assert_close(all.pourings[0].as_ref().unwrap().plan.timeline.takes.value.get::<minute>(), 31.0, EXACT);

    // One piece is poured by itself.
    job.pieces.truncate(1);
    assert_eq!(worked_out(&job).pourings, []);
}

/// Two tops of 40 by 22 by 1 1/2 in: four batches of 5 1/2 min and two tops of 4 min to screed take 30 min of 15 by
/// default. One top after the other they take 15 each, which is told as just enough.
#[test]
fn two_tops_at_one_go_do_not_fit_and_one_after_the_other_do() {
    let mut job = job_of("40", "22", "1 1/2");
    job.pieces.push(job.pieces[0].clone());
    let plan = |job: &Job| worked_out(job).pourings[0].as_ref().expect("one pouring").plan.clone();
    let found = plan(&job);
    assert_close(found.timeline.takes.value.get::<minute>(), 30.0, EXACT);
    assert_eq!(found.verdict(), "It does not fit.");
    assert_eq!(found.words(found.remedies[0].change, job.units), "one piece after the other");
    for (place, text) in found.typed(found.remedies[0].change, &job) {
        *job.entry_at_mut(place).expect("a field") = text.as_str().into();
    }
    let after = plan(&job);
    assert_close(after.timeline.takes.value.get::<minute>(), 15.0, EXACT);
    assert_eq!(after.verdict(), "It only just fits: 0 min to spare.");
}
