//! Seams and kinds of piece. The limits are common practice, without a published source; the places are
//! worked by hand.

use crate::{assert_within, cutout, job_of, worked_out};
use pourwright::draw::{Face, plan};
use pourwright::finding::{Finding, Severity};
use pourwright::job::{CutoutShape, EdgeKind, Job, OutlineShape, PieceKind, Units, file};
use pourwright::measure::Length;
use uom::si::length::inch;

fn seams(job: &Job) -> Vec<f64> {
    let estimate = worked_out(job);
    let seaming = estimate.pieces[0].seams.as_ref().expect("everything is typed");
    seaming.plan().map_or_else(Vec::new, |plan| plan.seams.iter().map(|seam| seam.get::<inch>()).collect())
}

fn findings(job: &Job, words: &str) -> Vec<Finding> {
    worked_out(job).findings.into_iter().filter(|finding| finding.says.write(job).contains(words)).collect()
}

#[track_caller]
fn assert_seams(job: &Job, expected: &[f64]) {
    let found = seams(job);
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (found, expected) in found.iter().zip(expected) {
        assert_within(*found, *expected, 1e-6);
    }
}

/// Two bowls 20 in wide about 35 and 85 in of 120 in leave 21 to 49 in and 71 to 99 in out: the middle is
/// free. About 47 and 73 in they leave 33 to 87 in out, and the seam goes to an end of that; about 46 and
/// 72 in, 32 to 86 in, and the right end is the nearer to the middle.
#[test]
fn a_seam_between_or_beside_two_bowls() {
    for (bowls, seam) in [(["35", "85"], 60.0), (["47", "73"], 33.0), (["46", "72"], 86.0)] {
        let mut job = job_of("120", "24", "2");
        for from_left in bowls {
            let bowl = cutout(CutoutShape::Rectangle, ["20", "13", "2"], [from_left, "12"]);
            job.pieces[0].cutouts.push(bowl);
        }
        assert_seams(&job, &[seam]);
    }
}

/// The usual limit is 8 ft; the maker's own is taken instead, and a blank one is the usual one.
#[test]
fn the_maker_sets_the_limit() {
    let mut job = job_of("96", "24", "2");
    assert_seams(&job, &[]);
    assert!(findings(&job, "is long for one piece").is_empty());
    job.seams.longest = "5 ft".into();
    assert_seams(&job, &[48.0]);
    let found = findings(&job, "is long for one piece");
    assert_eq!(found[0].severity, Severity::Watch);
    assert!(found[0].remedy.write(&job).contains("48 in from the left end"), "{found:?}");
    job.seams.longest = "".into();
    assert_seams(&job, &[]);
}

/// A U open to the back, 100 in wide, its legs 25 in: across its front it is cut in two of 50 in.
#[test]
fn a_u_is_cut_across_its_front() {
    let mut job = job_of("100", "60", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::U;
    piece.leg = "25".into();
    piece.right_leg = "25".into();
    piece.right_depth = "60".into();
    piece.front_depth = "24".into();
    assert_seams(&job, &[50.0]);
}

/// 4 in high and 3/4 in thick is small and thin for a top, and usual for a backsplash; an outlet may leave
/// it rails of 1 in.
#[test]
fn a_splash_has_limits_of_its_own() {
    let mut job = job_of("60", "3 1/2", "3/4");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["3", "1 1/2", "1/2"], ["30", "1 3/4"]));
    for words in ["is small for a top", "is less than the usual", "The rail in front of cutout"] {
        assert_eq!(findings(&job, words).len(), 1, "{words}");
    }
    job.pieces[0].kind = PieceKind::Backsplash;
    for words in ["is small for", "is less than the usual", "of cutout"] {
        assert!(findings(&job, words).is_empty(), "{words}");
    }
    job.pieces[0].depth = "1 1/2".into();
    assert_eq!(findings(&job, "is small for a backsplash").len(), 1);
}

/// A backsplash against an edge changes neither the form nor the weight; the plan shows it.
#[test]
fn a_backsplash_against_an_edge_is_cast_plain() {
    let of = |kind| {
        let mut job = job_of("60", "25", "2");
        job.pieces[0].edge_mut(2).kind = kind;
        let estimate = worked_out(&job);
        let drawn = plan(&estimate.pieces[0], &job.pieces[0], Units::Inch, Face::Installed, None);
        (estimate.pieces[0].form.clone(), drawn.expect("the outline is known").svg)
    };
    let (plain, splash) = (of(EdgeKind::Plain), of(EdgeKind::Backsplash));
    assert_eq!(plain.0, splash.0);
    assert!(splash.1.contains("class=\"band\"") && splash.1.contains("class=\"hatch\"") && !plain.1.contains("band"));
}

/// A seam is drawn where it is said to be.
#[test]
fn the_plan_shows_the_seam() {
    let job = job_of("120", "24", "2");
    let estimate = worked_out(&job);
    let drawn = plan(&estimate.pieces[0], &job.pieces[0], Units::Inch, Face::Installed, None);
    let svg = drawn.expect("the outline is known").svg;
    assert!(svg.contains("class=\"seam\"") && svg.contains(">seam 60<"), "{svg}");
    let seaming = estimate.pieces[0].seams.as_ref().expect("everything is typed");
    let (from, to) = seaming.plan().expect("it is over 8 ft").lines[0];
    let metres = Length::new::<inch>(60.0).value;
    assert_within(from.x, metres, 1e-9);
    assert_within(to.x, metres, 1e-9);
}

/// What the maker chose comes back from a file as it was.
#[test]
fn kinds_and_limits_are_kept() {
    let mut job = job_of("120", "24", "2");
    job.pieces[0].kind = PieceKind::WaterfallLeg;
    job.seams.heaviest = "200".into();
    assert_eq!(file::read(&file::write(&job)).as_ref(), Ok(&job));
}
