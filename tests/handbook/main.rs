//! Checks of what is worked out against values that did not come from this code. Each names its
//! source beside it: a published one, "from memory" of a standard, or "common practice, no source".
//!
//! Tolerances are relative unless they carry a unit; "exact" is 1e-9.

mod evidence;

mod bags;
mod batches;
mod brackets;
mod building;
mod by_hand;
mod carry;
mod clock;
mod cracking;
mod curl;
mod cutouts;
mod everything;
mod findings;
mod finish;
mod form;
mod geometry;
mod hardened;
mod knockouts;
mod lifting;
mod lifts;
mod maturity;
mod parts;
mod plane;
mod plates;
mod pour;
mod pricing;
mod proportions;
mod quoting;
mod recipes;
mod remedies;
mod room;
mod seams;
mod sections;
mod shapes;
mod sheets;
mod steel;
mod temperature;
mod thin;
mod units;
mod weather;
mod workings;

use pourwright::estimate::{Estimate, estimate};
use pourwright::job::{Cutout, CutoutShape, Edge, EdgeKind, Job, Units};
use pourwright::price::PriceBook;

/// Relative tolerance of exact arithmetic.
const EXACT: f64 = 1e-9;

#[track_caller]
/// What a need says, without the name of its field, in inches.
fn words(need: &pourwright::working::Need) -> String {
    need.says.write(Units::Inch)
}

fn assert_close(found: f64, expected: f64, tolerance: f64) {
    let off = (found - expected).abs();
    assert!(off <= tolerance * expected.abs(), "{found} is not {expected} to {tolerance}");
}

#[track_caller]
fn assert_within(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected} within {tolerance}");
}

/// A job of one piece of that size, in inches, with plain edges.
fn job_of(width: &str, depth: &str, thickness: &str) -> Job {
    let mut job = Job::new("check", Units::Inch);
    let piece = &mut job.pieces[0];
    piece.width = width.into();
    piece.depth = depth.into();
    piece.thickness = thickness.into();
    job
}

fn cutout(shape: CutoutShape, sizes: [&str; 3], center: [&str; 2]) -> Cutout {
    Cutout {
        shape,
        width: sizes[0].into(),
        depth: sizes[1].into(),
        corner_radius: sizes[2].into(),
        from_left: center[0].into(),
        from_front: center[1].into(),
        ..Cutout::default()
    }
}

fn lined(liner: &str) -> Edge {
    Edge { kind: EdgeKind::Lined, liner: liner.into(), ..Edge::default() }
}

/// 67 × 19 1/4 × 2 in, lined in front, two 20 × 13 in sinks, rapid mortar.
fn two_sinks() -> Job {
    let mut job = job_of("67", "19 1/4", "2");
    let piece = &mut job.pieces[0];
    piece.edges[0] = lined("3/4");
    for from_left in ["17", "50"] {
        piece.cutouts.push(cutout(CutoutShape::Rectangle, ["20", "13", "2"], [from_left, "9 1/2"]));
    }
    job
}

fn worked_out(job: &Job) -> Estimate {
    estimate(job, &PriceBook::default())
}
