//! What the maker is told, and when. The limits are common practice, without a published source.

use crate::{cutout, job_of, lined, two_sinks, worked_out};
use pourwright::finding::{Finding, Severity};
use pourwright::job::{CutoutField, CutoutShape, Edge, EdgeKind, FieldPath, HolePattern, Holes, Job};
use pourwright::mix::demo;

fn holes(from_left: &str, from_front: &str) -> Holes {
    Holes {
        pattern: HolePattern::Single,
        diameter: "1 3/8".into(),
        spread: "".into(),
        from_left: from_left.into(),
        from_front: from_front.into(),
        ..Holes::default()
    }
}

fn about(job: &Job, words: &str) -> Vec<Finding> {
    worked_out(job).findings.into_iter().filter(|finding| finding.says.write(job).contains(words)).collect()
}

#[track_caller]
fn assert_strength(job: &Job, words: &str, expected: Option<Severity>) {
    let found = about(job, words);
    assert_eq!(found.first().map(|finding| finding.severity), expected, "{words}: {found:?}");
}

/// Under 2 1/2 in a watch, under 1 1/2 in a stop, and the limit itself is good.
#[test]
fn rails_in_front() {
    let cases = [
        ("9", None),
        ("8 15/16", Some(Severity::Watch)),
        ("8", Some(Severity::Watch)),
        ("7 15/16", Some(Severity::Stop)),
        ("6 1/2", Some(Severity::Stop)),
    ];
    for (from_front, expected) in cases {
        let mut job = job_of("60", "25", "2");
        job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["20", "13", "2"], ["30", from_front]));
        assert_strength(&job, "The rail in front of cutout 1", expected);
    }
}

/// Within a strength, findings keep the order in which the job is typed, not that of their widths.
#[test]
fn findings_in_the_order_of_the_job() {
    let mut job = job_of("80", "17", "2");
    for (from_left, depth) in [("20", "13"), ("55", "14")] {
        job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["20", depth, "2"], [from_left, "8 1/2"]));
    }
    let places: Vec<_> = about(&job, "The rail").into_iter().map(|finding| finding.place).collect();
    let places: Vec<_> = places.into_iter().filter(|place| matches!(place, FieldPath::Cutout(..))).collect();
    let at = |cutout| FieldPath::Cutout(0, cutout, CutoutField::FromFront);
    assert_eq!(places, [at(0), at(0), at(1), at(1)]);
}

/// A rail is named by where it lies.
#[test]
fn rails_by_name() {
    let mut job = job_of("44", "17", "2");
    for from_left in ["12", "33"] {
        job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["20", "13", "2"], [from_left, "8 1/2"]));
    }
    for words in [
        "The rail between cutouts 1 and 2 is 1 in wide; under 1 1/2 in",
        "The rail behind cutout 2 is 2 in wide; under 2 1/2 in",
        "The rail left of cutout 1 is 2 in wide",
        "The rail right of cutout 2 is 1 in wide",
    ] {
        assert_eq!(about(&job, words).len(), 1, "{words}: {:?}", worked_out(&job).findings);
    }
}

/// A cutout outside the top is told with the number, stops, and the area waits for it in the same words.
#[test]
fn a_cutout_past_the_edge() {
    let mut job = two_sinks();
    job.pieces[0].cutouts[1].from_front = "5 1/2".into();
    let estimate = worked_out(&job);
    let says = "Cutout 2 runs past the front edge by 1 in.";
    let place = FieldPath::Cutout(0, 1, CutoutField::FromFront);
    assert!(
        estimate
            .findings
            .iter()
            .any(|f| f.severity == Severity::Stop && f.says.write(&job) == says && f.place == place)
    );
    let waiting = estimate.pieces[0].top.area.as_ref().unwrap_err();
    assert!(waiting.needs().iter().any(|need| crate::words(need) == says && need.place == place), "{waiting:?}");
    assert!(estimate.headline.bags.is_err() && estimate.headline.weight.is_err());
    // The form does not care for cutouts.
    assert!(estimate.pieces[0].form.is_ok());
}

/// Two cutouts, or a hole and a cutout, or two holes in one place.
#[test]
fn things_that_run_into_each_other() {
    let mut job = two_sinks();
    job.pieces[0].cutouts[1].from_left = "36".into();
    assert_strength(&job, "Cutout 1 runs into cutout 2 by 1 in", Some(Severity::Stop));

    let mut job = two_sinks();
    job.pieces[0].holes.push(holes("17", "16"));
    assert_strength(&job, "Hole 1 of set 1 runs into cutout 1", Some(Severity::Stop));
    assert!(worked_out(&job).pieces[0].top.area.is_err());

    let mut job = job_of("60", "25", "2");
    job.pieces[0].holes = vec![holes("30", "12"), holes("31", "12")];
    assert_strength(&job, "Holes 1 run into holes 2", Some(Severity::Stop));
    assert!(worked_out(&job).pieces[0].top.area.is_err());

    let mut job = job_of("60", "25", "2");
    job.pieces[0].holes = vec![Holes { pattern: HolePattern::Three, spread: "2".into(), ..holes("30", "12") }];
    assert_strength(&job, "The holes of set 1 run into each other", Some(Severity::Stop));
}

/// A hole may stand nearer than a rail may be wide: 1/2 in of concrete is enough.
#[test]
fn holes_have_a_looser_rule() {
    // The bowl ends 9 1/2 + 6 1/2 = 16 in from the front, the hole begins 11/16 in before its centre.
    for (from_front, expected) in [("17 3/16", None), ("17 1/8", Some(Severity::Watch))] {
        let mut job = job_of("67", "25", "2");
        job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["20", "13", "2"], ["30", "9 1/2"]));
        job.pieces[0].holes.push(holes("30", from_front));
        assert_strength(&job, "hole 1 of set 1", expected);
    }
}

/// Sharp and nearly sharp corners are a watch; 1/2 in is good.
#[test]
fn inside_corners() {
    let cases = [("", true), ("0", true), ("7/16", true), ("1/2", false), ("2", false)];
    for (radius, watched) in cases {
        let mut job = job_of("60", "25", "2");
        job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["20", "13", radius], ["30", "12"]));
        assert_strength(&job, "corners of cutout 1", watched.then_some(Severity::Watch));
    }
    let mut job = job_of("60", "25", "2");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Ellipse, ["20", "13", ""], ["30", "12"]));
    assert_strength(&job, "corners of cutout 1", None);
}

/// A corner radius that does not fit gives no shape, and says how much would.
#[test]
fn a_corner_radius_too_large() {
    let mut job = job_of("60", "25", "2");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["20", "13", "7"], ["30", "12"]));
    let estimate = worked_out(&job);
    let waiting = estimate.pieces[0].top.cutouts[0].as_ref().unwrap_err();
    assert_eq!(waiting.needs()[0].place, FieldPath::Cutout(0, 0, CutoutField::CornerRadius));
    assert_eq!(
        waiting.needs()[0].write(&job),
        "Cutout 1, Corner radius: 7 in is too large for this cutout; 6 1/2 in is the most."
    );
}

/// Thickness: 1 1/4 to 3 in is usual, over 12 in cannot be.
#[test]
fn thickness() {
    let cases = [
        ("1 3/16", Some(Severity::Watch)),
        ("1 1/4", None),
        ("3", None),
        ("3 1/16", Some(Severity::Watch)),
        ("24", Some(Severity::Stop)),
    ];
    for (thickness, expected) in cases {
        assert_strength(&job_of("60", "25", thickness), "Thickness", expected);
    }
}

/// Liner, easing, grinding, board, spare, length: each at its limit.
#[test]
fn plausible_choices() {
    let with = |change: &dyn Fn(&mut Job)| {
        let mut job = job_of("60", "25", "2");
        change(&mut job);
        job
    };
    let liner = |text: &'static str| with(&|job| job.pieces[0].edges[0] = lined(text));
    assert_strength(&liner("3/4"), "Front edge", None);
    assert_strength(&liner("2 1/4"), "Front edge: a liner 2 1/4 in thick", Some(Severity::Watch));
    assert_strength(&liner("0"), "Front edge: a liner with no thickness", Some(Severity::Watch));

    let eased = |text: &str| {
        with(&|job| {
            job.pieces[0].edges[1] = Edge { kind: EdgeKind::Eased, radius: text.into(), ..Edge::default() };
        })
    };
    assert_strength(&eased("2"), "Right edge", None);
    assert_strength(&eased("2 1/4"), "Right edge: an eased radius", Some(Severity::Stop));

    let ground = |text: &str| with(&|job| job.pieces[0].grinding = text.into());
    assert_strength(&ground("1/4"), "Grinding", None);
    assert_strength(&ground("3/8"), "Grinding", Some(Severity::Watch));

    let spare = |text: &str| with(&|job| job.pieces[0].spare = text.into());
    assert_strength(&spare("5"), "Spare mix", None);
    assert_strength(&spare("4"), "Spare mix", Some(Severity::Watch));
    assert_strength(&spare("25"), "Spare mix", None);
    assert_strength(&spare("30"), "Spare mix", Some(Severity::Note));

    let board = |text: &str| with(&|job| job.form.board = text.into());
    assert_strength(&board("3/4"), "A board", None);
    assert_strength(&board("19"), "A board", Some(Severity::Watch));

    assert_strength(&job_of("96", "25", "2"), "long for one piece", None);
    assert_strength(&job_of("97", "25", "2"), "long for one piece", Some(Severity::Watch));
    assert_strength(&job_of("3", "25", "2"), "small for a top", Some(Severity::Watch));
}

/// With several pieces a sentence says which; with one it does not.
#[test]
fn several_pieces_are_told_apart() {
    let mut job = job_of("97", "25", "2");
    assert_eq!(about(&job, "Top: Width").len(), 0);
    let mut second = job.pieces[0].clone();
    second.name = "Splash".into();
    job.pieces.push(second);
    assert_eq!(about(&job, "Top: Width").len(), 1);
    assert_eq!(about(&job, "Splash: Width").len(), 1);
}

/// The demo is a good job: everything is worked out, nothing stops, and something is worth watching.
#[test]
fn the_demo_goes_well() {
    let job = demo("demo");
    let estimate = worked_out(&job);
    assert!(estimate.headline.bags.is_ok() && estimate.headline.water.is_ok());
    assert!(estimate.headline.weight.is_ok() && estimate.headline.people.is_ok());
    let of = |strength| estimate.findings.iter().filter(|finding| finding.severity == strength).count();
    assert_eq!(of(Severity::Stop), 0, "{:?}", estimate.findings);
    assert!((1..=3).contains(&of(Severity::Watch)), "{:?}", estimate.findings);
}
