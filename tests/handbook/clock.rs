//! The pour clock, followed by hand: common practice, no source, for what comes when; the layouts minute by minute
//! beside each check.

use crate::{EXACT, assert_close, worked_out};
use pourwright::estimate::Cast;
use pourwright::finding::Severity;
use pourwright::job::{BagField, Job, Lath, Logged, PourStep, StrengthPoint};
use pourwright::measure::exact::quarts;
use pourwright::measure::{Units, Volume};
use pourwright::pour::PourInputs;
use pourwright::pour::clock::{Course, Reading, Threat, batch_took, correct, placing_took, screeding_took, tick};
use pourwright::print::{evening_list, step_words};
use uom::si::time::minute;

/// A moment of a day in 2026, in milliseconds.
const DAWN: f64 = 1_790_000_000_000.0;

fn at(minutes: f64) -> f64 {
    DAWN + minutes * 60_000.0
}

fn course(job: &Job) -> Course {
    let all = worked_out(job);
    let piece = &all.pieces[0];
    let strip = piece.strip.as_ref().ok().map(|strip| strip.at.value);
    Course::of(piece.plan.as_ref().unwrap(), all.orders[0].as_ref().ok(), strip, &PourInputs::read(job, 0))
        .expect("it has a mix")
}

/// A job whose batches are placed as they are mixed; screeding takes its usual 4 min.
fn job_of(width: &str, depth: &str, thickness: &str) -> Job {
    let mut job = crate::job_of(width, depth, thickness);
    (job.pour.carry, job.pour.place) = ("0".into(), "0".into());
    job
}

fn log(steps: &[(PourStep, f64)]) -> Vec<Logged> {
    steps.iter().map(|(step, minutes)| Logged { part: 0, step: *step, at: at(*minutes) as u64 }).collect()
}

fn after(reading: &Reading) -> Vec<(PourStep, f64)> {
    reading.after.iter().map(|(step, due)| (*step, (due - DAWN) / 60_000.0)).collect()
}

use PourStep::{Lath as LathStep, Patches, Placed, Screed, Strip, Trowel, Water, Wet};

/// Three bags, one person, 4 min a batch: each is placed as the next is started, and the rest follows.
#[test]
fn nothing_has_happened() {
    let course = course(&job_of("48", "24", "2"));
    let found = course.read(&[], at(0.0));
    assert_eq!((found.part, found.step, found.due, found.stiff), (0, Some(Water(0)), None, None));
    assert_eq!(found.threats, []);
    let steps: Vec<_> = found.after.iter().map(|(step, _)| *step).collect();
    let expected = [Placed(0), Water(1), Placed(1), Water(2), Placed(2), Screed, Trowel, Patches, Wet, Strip];
    assert_eq!(steps, expected);
}

/// Water at 0, placed at 4 as planned; at 5 nothing was started yet: the rest is a minute late, and sets as it was
/// begun. All is placed at 13 and screeded at 17 of 20 min, which leaves 3: under a fifth of 20 and watched.
#[test]
fn a_minute_late() {
    let mut job = job_of("48", "24", "2");
    *job.bags[0].entry_mut(BagField::Workable) = "20 min".into();
    let course = course(&job);
    let log = log(&[(Water(0), 0.0), (Placed(0), 4.0)]);
    let found = course.read(&log, at(5.0));
    assert_eq!(found.step, Some(Water(1)));
    assert_close(found.due.unwrap(), at(5.0), EXACT);
    assert_close(found.stiff.unwrap(), at(20.0), EXACT);
    assert_close(found.ends.unwrap(), at(17.0), EXACT);
    let [(Severity::Watch, Threat::Late { left })] = found.threats.as_slice() else { panic!("{:?}", found.threats) };
    assert_close(left.get::<minute>(), 3.0, EXACT);
    // Screed when all is placed; trowel 5 min later; the first batch sets at 20; wet for an hour from then.
    let rest = after(&found);
    let due = |step| rest.iter().find(|(other, _)| *other == step).expect("ahead").1;
    assert_close(due(Placed(1)), 9.0, 1e-6);
    assert_close(due(Placed(2)), 13.0, 1e-6);
    assert_close(due(Trowel), 18.0, 1e-6);
    assert_close(due(Wet), 80.0, 1e-6);
}

/// With 6 min of screeding the same pour ends at 19, and leaves 1 of 20.
#[test]
fn the_clock_counts_on_the_screeding_that_is_typed() {
    let mut job = job_of("48", "24", "2");
    *job.bags[0].entry_mut(BagField::Workable) = "20 min".into();
    job.pour.screed = "6".into();
    let found = course(&job).read(&log(&[(Water(0), 0.0), (Placed(0), 4.0)]), at(5.0));
    assert_close(found.ends.unwrap(), at(19.0), EXACT);
    let [(Severity::Watch, Threat::Late { left })] = found.threats.as_slice() else { panic!("{:?}", found.threats) };
    assert_close(left.get::<minute>(), 1.0, EXACT);
}

/// Placed at 12 and screeded at 18 is 6 min; lath that came in at 14 leaves 4 of them. What is not screeded says nothing.
#[test]
fn a_log_tells_how_long_screeding_took() {
    let mut job = job_of("48", "24", "2");
    job.pieces[0].log = log(&[(Water(0), 0.0), (Placed(0), 4.0), (Placed(1), 8.0), (Placed(2), 12.0)]);
    assert_eq!(screeding_took(&job), None);
    tick(&mut job.pieces[0].log, 0, Screed, at(18.0));
    assert_close(screeding_took(&job).unwrap().get::<minute>(), 6.0, EXACT);
    tick(&mut job.pieces[0].log, 0, LathStep, at(14.0));
    assert_close(screeding_took(&job).unwrap().get::<minute>(), 4.0, EXACT);
}

/// Water at 0 and 5, placed at 7 and 14: 7 and 9 min, 8 on the mean; less 4 min of mixing and half a minute of carrying
/// 3 1/2 min were for placing. A batch that is still mixed says nothing.
#[test]
fn a_log_tells_how_long_placing_took() {
    let mut job = job_of("48", "24", "2");
    job.pour.minutes_a_batch = "4".into();
    job.pour.carry = "30 s".into();
    let plan = |job: &Job| worked_out(job).pieces[0].plan.clone().expect("a plan");
    assert_eq!(batch_took(&job), None);
    job.pieces[0].log = log(&[(Water(0), 0.0), (Placed(0), 7.0), (Water(1), 5.0), (Placed(1), 14.0), (Water(2), 14.0)]);
    assert_close(batch_took(&job).unwrap().get::<minute>(), 8.0, EXACT);
    assert_close(placing_took(&plan(&job), &job).unwrap().get::<minute>(), 3.5, EXACT);
    job.pour.minutes_a_batch = "9".into();
    assert_eq!(placing_took(&plan(&job), &job), None, "mixing alone was planned to take longer");
}

/// What is being placed keeps its due time when it is over, and the rest waits for it.
#[test]
fn an_overdue_batch_keeps_its_time() {
    let course = course(&job_of("48", "24", "2"));
    let found = course.read(&log(&[(Water(0), 0.0)]), at(6.0));
    assert_eq!(found.step, Some(Placed(0)));
    assert_close(found.due.unwrap(), at(4.0), EXACT);
    assert_close(found.ends.unwrap(), at(18.0), EXACT);
}

/// Batch 1 at 0, batch 2 started only at 12: it would be placed at 16, a minute after batch 1 stops knitting at 15.
/// It is said while it is mixed, before there is a cold joint.
#[test]
fn a_cold_joint_is_seen_coming() {
    let course = course(&job_of("48", "24", "2"));
    let found = course.read(&log(&[(Water(0), 0.0), (Placed(0), 4.0), (Water(1), 12.0)]), at(12.5));
    let joint = found.threats.iter().find_map(|(strength, threat)| match threat {
        Threat::ColdJoint { batch: 1, left } => Some((*strength, left.get::<minute>())),
        _ => None,
    });
    let (strength, left) = joint.expect("a cold joint");
    assert_eq!(strength, Severity::Stop);
    assert_close(left, -1.0, 1e-6);
    // Corrected: it was started two minutes before that, so it is placed at 14.
    let mut log = log(&[(Water(0), 0.0), (Placed(0), 4.0), (Water(1), 12.0)]);
    correct(&mut log, 2, -120_000.0, at(12.5));
    let found = course.read(&log, at(12.5));
    assert!(!found.threats.iter().any(|(strength, threat)| {
        *strength == Severity::Stop && matches!(threat, Threat::ColdJoint { batch: 1, .. })
    }));
    assert_close(found.due.unwrap(), at(14.0), EXACT);
}

/// Two pieces of 30 x 12 x 1 1/4 in take 0.2604 ft³ each, 0.5729 with 10 % spare: two bags of 0.50 ft³, of which the
/// first fills the one and most of the other. Placed at 4 and 8 min, then screeded one after the other, 4 min each:
/// one end at 16, a minute after the first batch is stiff. All of it is ticked off in the first piece.
fn two_pieces() -> Job {
    let mut job = job_of("30", "12", "1 1/4");
    job.pieces = vec![job.pieces[0].clone(); 2];
    for (piece, name) in std::iter::zip(&mut job.pieces, ["Bar", "Shelf"]) {
        piece.name = name.into();
    }
    job
}

#[test]
fn one_clock_for_pieces_of_one_mix() {
    let mut job = two_pieces();
    let course = |job: &Job, piece| Cast::of(job).course_of(piece, job).expect("a plan");
    let found = course(&job, 0);
    assert_eq!(found, course(&job, 1));
    assert_eq!((found.batches(0), found.pieces().len()), (2, 2));
    let words = |step| step_words(&found, 0, step, Units::Inch);
    assert_eq!(words(Water(0)).title, "Batch 1 of 2");
    assert_eq!(words(Water(0)).lines, ["1 bag", "5 qt water", "It goes into Bar, then Shelf"]);
    // 14.6 % of the second bag, 9 lb to the next pound.
    assert_eq!(words(Water(1)).lines[0], "9 lb of a bag");
    assert_eq!(words(Placed(1)).lines[1], "It goes into Shelf");
    assert_eq!(words(Screed).lines[1], "One after the other: Bar, Shelf");
    let reading = found.read(&log(&[(Water(0), 0.0)]), at(0.0));
    assert_close(reading.ends.unwrap(), at(16.0), EXACT);
    let late = reading.threats.iter().find_map(|(_, threat)| match threat {
        Threat::Late { left } => Some(left.get::<minute>()),
        Threat::ColdJoint { .. } => None,
    });
    assert_close(late.unwrap(), -1.0, 1e-6);
    // Stripped an hour after the water of the second batch, but not before the hour of water is over.
    let rest = found.read(&log(&[(Water(0), 0.0), (Placed(0), 4.0), (Water(1), 4.0), (Placed(1), 8.0)]), at(8.0));
    let steps: Vec<_> = rest.step.into_iter().chain(after(&rest).iter().map(|(step, _)| *step)).collect();
    assert_eq!(steps, [Screed, Trowel, Patches, Wet, Strip]);

    // The first piece keeps the log of both. One that was screeded after its own batch, or beside a log of the other,
    // is from a pour of piece after piece, and stays that.
    let pouring = |job: &Job| Cast::of(job).pouring_of(1).cloned().expect("one pouring");
    assert_eq!(pouring(&job).log_in(&job), Some(0));
    job.pieces[0].log = log(&[(Water(0), 0.0), (Placed(0), 4.0)]);
    assert_eq!(pouring(&job).log_in(&job), Some(0));
    tick(&mut job.pieces[0].log, 0, Screed, at(8.0));
    assert_eq!(pouring(&job).log_in(&job), None);
    assert_eq!(course(&job, 0).batches(0), 1);
    job.pieces[0].log.clear();
    job.pieces[1].log = log(&[(Water(0), 0.0)]);
    assert_eq!(pouring(&job).log_in(&job), None);
    assert_eq!(course(&job, 1).batches(0), 1);
}

/// The log of both says 16 min less 8, for two pieces: 4 min each.
#[test]
fn a_log_of_two_pieces_tells_what_one_took() {
    let mut job = two_pieces();
    job.pieces[0].log = log(&[(Water(0), 0.0), (Placed(0), 4.0), (Placed(1), 8.0), (Screed, 16.0)]);
    assert_close(screeding_took(&job).unwrap().get::<minute>(), 4.0, EXACT);
}

/// A correction does not reach into the future, and nothing is ticked twice.
#[test]
fn the_log_stays_a_log() {
    let mut lines = log(&[(Water(0), 0.0)]);
    correct(&mut lines, 0, 600_000.0, at(3.0));
    assert_eq!(lines, log(&[(Water(0), 3.0)]));
    correct(&mut lines, 7, -1.0, at(3.0));
    tick(&mut lines, 0, Water(0), at(9.0));
    assert_eq!(lines, log(&[(Water(0), 3.0)]));
    tick(&mut lines, 0, Placed(0), f64::NAN);
    assert_eq!(lines.len(), 2);
}

/// Lath at 60 % of three bags: after the second batch, before the third has its water.
#[test]
fn lath_in_its_turn() {
    let mut job = job_of("48", "24", "2");
    job.pieces[0].reinforcement.lath = Lath::Light;
    job.pour.steel_takes = "2".into();
    let course = course(&job);
    let lines = log(&[(Water(0), 0.0), (Placed(0), 4.0), (Water(1), 4.0), (Placed(1), 8.0)]);
    let found = course.read(&lines, at(8.5));
    assert_eq!(found.step, Some(LathStep));
    // One person: lath from 8.5 to 10.5, the last batch from then to 14.5, screeded at 18.5.
    assert_close(found.ends.unwrap(), at(18.5), EXACT);
    let mut lines = lines;
    tick(&mut lines, 0, LathStep, at(9.0));
    let found = course.read(&lines, at(9.0));
    assert_eq!(found.step, Some(Water(2)));
    assert_close(found.ends.unwrap(), at(17.0), EXACT);
}

/// Two people, each with a bucket: both start, then each places.
#[test]
fn two_at_work() {
    let mut job = job_of("48", "24", "2");
    job.pour.people = "2".into();
    let course = course(&job);
    let found = course.read(&log(&[(Water(0), 0.0)]), at(0.5));
    assert_eq!(found.step, Some(Water(1)));
    // The second is half a minute late, and the third goes into the bucket that is free first.
    let found = course.read(&log(&[(Water(0), 0.0), (Water(1), 0.5)]), at(0.5));
    assert_eq!(found.step, Some(Placed(0)));
    let rest = after(&found);
    assert_eq!(rest.first().map(|(step, _)| *step), Some(Water(2)));
    assert_close(rest.iter().find(|(step, _)| *step == Placed(1)).unwrap().1, 4.5, 1e-6);
    assert_close(rest.iter().find(|(step, _)| *step == Placed(2)).unwrap().1, 8.0, 1e-6);
}

/// In halves, the second begins anew, with a clock of its own; only the end of all is stripped.
#[test]
fn in_halves() {
    let mut job = job_of("72", "25", "2");
    job.pour.parts = "2".into();
    let course = course(&job);
    let first = [Water(0), Placed(0), Water(1), Placed(1), Water(2), Placed(2), Screed, Trowel, Patches, Wet];
    let lines: Vec<_> = first.iter().enumerate().map(|(index, step)| (*step, 4.0 * index as f64)).collect();
    let mut lines = log(&lines);
    let found = course.read(&lines, at(90.0));
    assert_eq!((found.part, found.step, found.stiff), (1, Some(Water(0)), None));
    assert_eq!((course.batches(0), course.batches(1)), (3, 2));
    tick(&mut lines, 1, Water(0), at(90.0));
    let found = course.read(&lines, at(91.0));
    assert_close(found.stiff.unwrap(), at(105.0), EXACT);
    assert_eq!(found.after.last().map(|(step, _)| *step), Some(Strip));
}

/// Portland concrete has no hour of water: it is trowelled, and stripped when its label says.
#[test]
fn portland_goes_from_the_trowel_to_the_strip() {
    let mut job = job_of("48", "24", "2");
    let concrete = pourwright::mix::catalogue(Units::Inch).remove(1);
    job.pieces[0].bag.clone_from(&concrete.id);
    job.bags = vec![concrete];
    let steps: Vec<_> = course(&job).read(&[], at(0.0)).after.into_iter().map(|(step, _)| step).collect();
    assert_eq!(steps[steps.len() - 3..], [Screed, Trowel, Strip]);
}

/// 72 x 25 x 2 in takes 2.2917 ft³ with 10 % spare, 4.583 bags of 0.50 ft³: of the fifth 58.3 % of 55 lb, 33 lb to the
/// next pound, which is 0.6 of it. 4.6 bags of 4.9 qt, two a batch, are 22.54 qt: 90 cups (by hand, each within a cup of
/// 39.2, 39.2, 11.76).
#[test]
fn the_water_of_the_batches_is_the_water_to_the_last_cup() {
    let mut job = job_of("72", "25", "2");
    job.bags[0].water = "4.9 qt".into();
    job.pour.bags_a_batch = "2".into();
    let course = course(&job);
    let cups: Vec<f64> =
        (0..3).map(|batch| (course.ingredients(0, batch).unwrap().water / quarts(0.25)).value.round()).collect();
    assert_eq!(cups.iter().sum::<f64>(), 90.0);
    for (cups, share) in std::iter::zip(&cups, [39.2, 39.2, 11.76]) {
        assert!((cups - share).abs() <= 1.0, "{cups}");
    }
    let all: Volume = (0..3).map(|batch| course.ingredients(0, batch).unwrap().water).sum();
    assert_close(all.value, quarts(22.5).value, 1e-12);
    assert_eq!(course.ingredients(0, 3), None);
}

/// 1.4667 ft³ are 2.933 bags of 0.50 ft³, of the third 93.3 % of 55 lb: 52 lb to the next pound. Two a batch, the second
/// is 52 lb of a bag; three a batch, the only one 2 bags and 52 lb of the next. With nothing to spare it is 2.667 bags:
/// 37 lb. Where they come out even nothing is weighed. Flow aid and water go with it: 0.945 of 4 fl oz and of 5 qt.
#[test]
fn a_part_of_a_bag_is_weighed() {
    let mut job = job_of("48", "24", "2");
    job.bags[0].additives[0].dose = "4 fl oz".into();
    let lines = |job: &Job, batch| step_words(&course(job), 0, Water(batch), Units::Inch).lines;
    assert_eq!(lines(&job, 0), ["1 bag", "5 qt water", "4 fl oz Flow aid"]);
    job.pour.bags_a_batch = "2".into();
    assert_eq!(lines(&job, 1), ["52 lb of a bag", "4 3/4 qt water", "3 3/4 fl oz Flow aid"]);
    job.pour.bags_a_batch = "3".into();
    assert_eq!(lines(&job, 0)[0], "2 bags and 52 lb of the next");
    let all = worked_out(&job);
    let list: Vec<_> = evening_list(&job, &all).into_iter().flat_map(|todo| todo.lines).collect();
    let scale = "A scale for the last batch: 2 bags and 52 lb of the next, stirred dry first, with";
    assert!(list.iter().any(|line| line.starts_with(scale)), "{list:?}");
    job.pieces[0].spare = "0 %".into();
    assert_eq!(lines(&job, 0)[0], "2 bags and 37 lb of the next");
    // 54 in make 1.5 ft³.
    job.pieces[0].width = "54".into();
    assert_eq!(lines(&job, 0)[0], "3 bags");
}

/// Three batches, watered at 0, 4 and 8 min: two hours of the last are over at 128 min. Where an hour is enough by the
/// label, the hour of water goes on for longer.
#[test]
fn the_last_batch_and_the_hour_of_water_decide_the_strip() {
    let mut job = job_of("48", "24", "2");
    let lines = log(&[
        (Water(0), 0.0),
        (Placed(0), 4.0),
        (Water(1), 4.0),
        (Placed(1), 8.0),
        (Water(2), 8.0),
        (Placed(2), 12.0),
        (Screed, 12.0),
        (Trowel, 17.0),
        (Patches, 15.0),
    ]);
    let strip = |job: &Job| {
        let found = course(job).read(&lines, at(18.0));
        after(&found).iter().find(|(step, _)| *step == Strip).expect("ahead").1
    };
    job.pour.air = "68".into();
    job.bags[0].stated_at = "68".into();
    job.bags[0].strengths = vec![StrengthPoint { age: "1 h".into(), strength: "5000 psi".into() }];
    job.bags[0].strip_after = "2 h".into();
    assert_close(strip(&job), 128.0, 1e-6);
    // The youngest batch sets as long after its water as it is workable, 15 min at 70 °F, and is kept wet from then on.
    job.bags[0].strip_after = "1 h".into();
    assert_close(strip(&job), 8.0 + 15.0 * (2.0_f64 / 18.0).exp2() + 60.0, 1e-6);
}
