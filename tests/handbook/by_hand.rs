//! What the check by hand says of a top, and that it is never silent where it knows nothing.

use crate::cracking::{cracking, worked};
use pourwright::finding::Severity;
use pourwright::job::{Carried, Cutout, Job, OutlineShape, Stripped};
use pourwright::measure::exact::psi;
use pourwright::strength::cases::LoadCase;

/// A plain top of that size, of a mix with 2000 psi at an hour and 5000 at a day.
fn plain(width: &str, depth: &str, thickness: &str) -> Job {
    let mut job = crate::cracking::plain(width, depth, thickness);
    job.bags[0].strengths.retain(|point| ["75 min", "1 day"].contains(&point.age.text()));
    job
}

/// Where there is no cutout, none is spoken of.
#[test]
fn the_middle_of_a_plain_top_is_the_middle() {
    let plain = plain("96", "25 1/2", "1 1/2");
    assert!(cracking(&plain).net.iter().all(|verdict| verdict.words == "the middle"));
    let mut with_sink = plain;
    with_sink.pieces[0].cutouts = vec![Cutout {
        width: "17".into(),
        depth: "13".into(),
        corner_radius: "2".into(),
        from_left: "14".into(),
        from_front: "12 3/4".into(),
        ..Cutout::default()
    }];
    assert!(cracking(&with_sink).net.iter().any(|verdict| verdict.words != "the middle"));
}

/// 96 in held 2 in from its ends and in the middle. A rigid top on three like springs has a third of its weight on each:
/// w (32 × 30 − 32² ÷ 2) = 448 w where that is largest, against w (48 × 46 − 48² ÷ 2) = 1056 w between two. As two spans
/// it is less, 288 w over the middle; by hand the worst counts.
#[test]
fn held_in_the_middle_it_is_told_by_hand_as_well() {
    let mut job = plain("96", "25 1/2", "1 1/2");
    let of = |job: &Job, kind| {
        let known = cracking(job);
        known.net.iter().find(|verdict| verdict.kind == kind).map(|verdict| (verdict.tension / psi(1.0)).value)
    };
    let by_two = of(&job, LoadCase::LiftedAtEnds).expect("told");
    job.pieces[0].handling.stripped = Stripped::FlatByThree;
    job.pieces[0].handling.carried = Carried::ByThree;
    let by_three = of(&job, LoadCase::LiftedAtEnds).expect("told");
    crate::assert_close(by_three / by_two, 448.0 / 1056.0, 2e-3);
    assert!(of(&job, LoadCase::CarriedByTwo).is_some());
    let warned = |job: &Job| {
        let about = worked(job).findings.into_iter().filter(|one| one.says.write(job).contains("when lifted flat"));
        about.map(|one| (one.severity, one.remedy.write(job))).next()
    };
    assert_eq!(warned(&job), None, "96 in holds");
    job.pieces[0].width = "150".into();
    let (strength, remedy) = warned(&job).expect("150 in does not");
    assert_eq!(strength, Severity::Stop);
    assert!(!remedy.contains("hold it in the middle"), "it is held there: {remedy}");
}

/// Hands in the middle of the ends of an L bear its back and its leg alone, beside its weight: nothing is told by hand,
/// and that is said.
#[test]
fn an_l_that_hands_miss_is_left_to_the_map_aloud() {
    let mut job = plain("60", "60", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::L;
    let says = |job: &Job| -> Vec<(Severity, String)> {
        let about =
            worked(job).findings.into_iter().filter(|one| one.says.write(job).contains("By hand nothing can be said"));
        about.map(|one| (one.severity, one.says.write(job))).collect()
    };
    job.pieces[0].leg = "40".into();
    job.pieces[0].front_depth = "40".into();
    assert_eq!(says(&job), [], "a stout L is borne");
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth, piece.leg, piece.front_depth) = ("100".into(), "72".into(), "15".into(), "15".into());
    let known = cracking(&job);
    assert!(known.net.iter().all(|verdict| verdict.kind != LoadCase::CarriedByTwo), "{:?}", known.net);
    let said = says(&job);
    let [(Severity::Watch, words)] = said.as_slice() else { panic!("{said:?}") };
    assert!(words.starts_with("By hand nothing can be said of the top when carried flat"), "{words}");
}
