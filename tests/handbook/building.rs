//! What the forms of a job take: liner, screws, silicone, release agent; and a form out of level.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within, job_of, lined, two_sinks, worked_out};
use pourwright::estimate::Estimate;
use pourwright::finding::Severity;
use pourwright::form::{Build, BuildInputs, Built, SpacingLimit, Stock, fillet, pressure, push, sag};
use pourwright::job::{Corner, CornerKind, Edge, EdgeKind, FieldPath, FormField, Job};
use pourwright::measure::exact::{in_inches, inches, pounds_a_cubic_foot, psi};
use pourwright::measure::{Length, MassDensity, Volume};
use pourwright::print::job_lists;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_3, FRAC_PI_4};
use uom::si::area::square_inch;
use uom::si::force::newton;
use uom::si::length::{inch, meter};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;

checks![fluid_pressure, fillets, base_between_supports];

/// NIST SP 811 B.8: a pound-force, and one on a square foot.
const POUND_FORCE: f64 = 4.448_221_615_260_5;
const POUND_A_SQUARE_FOOT: f64 = POUND_FORCE / 0.304_8 / 0.304_8;

fn build_of(job: &Job) -> (Build, Vec<String>) {
    let estimate: Estimate = worked_out(job);
    let pieces: Vec<_> =
        estimate.pieces.iter().map(|piece| Built { top: &piece.top, form: &piece.form, fresh: None }).collect();
    let inputs = BuildInputs::read(job);
    let build = Build::of(&pieces, &inputs);
    let says = build.findings(&pieces, &inputs, job).into_iter().map(|finding| finding.says.write(job)).collect();
    (build, says)
}

fn build(job: &Job) -> Build {
    build_of(job).0
}

fn said(job: &Job, words: &str) -> bool {
    build_of(job).1.iter().any(|says| says.contains(words))
}

fn cubic_inches(volume: Volume) -> f64 {
    volume.value / inches(1.0).value.powi(3)
}

/// F1 to F4, ACI 347: full fluid head. 2 in, 1 1/2 in and 24 in at 150 lb/ft³; 40 mm at 2400 kg/m³.
fn fluid_pressure(evidence: &mut Evidence) {
    let density = pounds_a_cubic_foot(150.0);
    let table = evidence.check(Check {
        label: "F1 to F4",
        title: "Push of a fluid mix on the form",
        source: "ACI 347: full head, p = w h; read in a trade magazine",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "2, 1.5 and 24 in at 150 lb/ft³: at the foot, and along a foot of side; 40 mm at 2400 kg/m³",
        modelled: "form::pressure and push",
        gap: "The SI value is told with four digits.",
        ..Check::default()
    });
    for (depth, at_the_foot, a_foot) in [(2.0, 25.0, 2.083_333), (1.5, 18.75, 1.171_875), (24.0, 300.0, 300.0)] {
        let found = pressure(density, inches(depth)).get::<pascal>() / POUND_A_SQUARE_FOOT;
        table.close(format!("{depth} in: at the foot, lb/ft²"), found, at_the_foot, 1e-6);
        let along = push(density, inches(depth), inches(12.0)).get::<newton>() / POUND_FORCE;
        table.close(format!("{depth} in: along the side, lb/ft"), along, a_foot, 1e-6);
    }
    let metric = MassDensity::new::<kilogram_per_cubic_meter>(2400.0);
    let found = pressure(metric, Length::new::<meter>(0.04)).get::<pascal>();
    table.close("40 mm: at the foot, Pa", found, 941.4, 1e-4);
}

/// Screws every 6 in, none nearer than 1 in to an end: 65 in in 11 gaps, 18 in in 3; two at each end that runs
/// past. By the beam formula (E 2250 MPa, 2 3/4 × 3/4 in, 1/64 in of bow) they could be 21.61 in apart, by
/// the hold of a screw 68.6 in.
#[test]
fn screws() {
    let mut job = two_sinks();
    let screws = build(&job).screws.unwrap();
    let along: Vec<_> = screws.sides.iter().map(|side| (side.along, side.at_ends)).collect();
    assert_eq!(along, [(12, 4), (4, 0), (12, 4), (4, 0)]);
    assert_eq!(screws.count.value, 40);
    assert_close(screws.pressure.value.get::<pascal>(), 25.0 * POUND_A_SQUARE_FOOT, 1e-6);
    assert_eq!(screws.limit, SpacingLimit::Bowing);
    assert_within(screws.most.value.get::<inch>(), 21.61, 0.01);
    assert!(!said(&job, "too far apart"));
    job.form.screws = "22".into();
    assert!(said(&job, "too far apart"));
    job.form.screws = "21 1/2".into();
    assert!(!said(&job, "too far apart"));
    // Two a side at the least; one where two would split it.
    let mut short = job_of("20", "3 1/2", "2");
    short.form.screws = "48".into();
    let along: Vec<_> = build(&short).screws.unwrap().sides.iter().map(|side| side.along).collect();
    assert_eq!(along, [2, 2, 2, 2]);
    short.pieces[0].depth = "2 1/2".into();
    assert_eq!(build(&short).screws.unwrap().sides[1].along, 1);
}

/// Closed form: (1 − π ÷ 4) r² in a square corner; (√3 − π ÷ 3) r² in one of 60°.
fn base_between_supports(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "T10",
        title: "A base that bows between its supports",
        source: "Closed form of mechanics: 5 w L⁴ ÷ 384 E I, simply supported",
        marks: &[Mark::ByHand],
        problem: "3/4 in board of 326,300 psi under 2 in of mix of 145 lb/ft³, supports 24 and 32 in apart",
        modelled: "form::sag",
        gap: "Four to five digits are told.",
        ..Check::default()
    });
    for (span, expected) in [(24.0, 0.063_20), (32.0, 0.199_74)] {
        let density = pounds_a_cubic_foot(145.0);
        let found = sag(density, inches(2.0), inches(0.75), psi(326_300.0), inches(span));
        table.close(format!("{span} in apart, in"), in_inches(found), expected, 1e-4);
    }
}

/// 2 in of a mix that is taken for 150 lb/ft³ on a 3/4 in board of 2250 MPa (326,335 psi): 1/32 in at 19.956 in, by hand
/// from 5 w L⁴ ÷ 384 E I with w 0.17361 psi. A thicker board carries further: by (1 ÷ 0.75)^¾, 24.762 in.
#[test]
fn supports_under_the_base() {
    let mut job = job_of("60", "25", "2");
    let apart = |job: &Job| in_inches(build_of(job).0.supports.expect("a distance").value);
    assert_within(apart(&job), 19.956, 0.001);
    job.form.board = "1".into();
    assert_within(apart(&job), 24.762, 0.001);
}

/// The same board and mix, typed: every 24 in it bows 0.0654 in, every 48 in sixteen times that. Every 19 15/16 in stays
/// under 1/32 in, every 20 in is a little over it; blank, it lies on a bench and is told so.
#[test]
fn a_base_that_is_propped_too_far_apart() {
    let mut job = job_of("60", "25", "2");
    let bow = |job: &Job| build_of(job).0.bow.expect("a form").map(|bow| in_inches(bow.value));
    let says = |job: &Job| build_of(job).1.into_iter().find(|says| says.starts_with("The base bows"));
    let rows = |job: &Job| {
        let lists = job_lists(job, &worked_out(job));
        lists.into_iter().filter_map(|list| list.rows.ok()).flatten().map(|row| format!("{row:?}")).collect::<String>()
    };
    assert_eq!(bow(&job), None);
    assert_eq!(says(&job), None);
    assert!(rows(&job).contains("it is taken to lie flat on a bench over its whole area"));
    for (apart, sags) in [("24", 0.065_37), ("4 ft", 1.045_9)] {
        job.form.supports = apart.into();
        assert_within(bow(&job).expect("a bow"), sags, 1e-4);
    }
    assert!(!rows(&job).contains("on a bench"));
    job.form.supports = "19 15/16".into();
    assert_eq!(says(&job), None);
    job.form.supports = "20".into();
    let expected = "The base bows 0.032 in between supports that are 20 in apart; over 0.031 in the face shows it.";
    assert_eq!(says(&job).as_deref(), Some(expected));
    // Of the mix of the job, which is a little lighter.
    job.form.supports = "24".into();
    let found = worked_out(&job).findings;
    let found = found.iter().find(|one| one.place == FieldPath::Form(FormField::Supports)).expect("a watch");
    assert_eq!(found.severity, Severity::Watch);
    assert!(
        found.remedy.write(&job).starts_with("Set the supports no more than 20 5/8 in apart"),
        "{}",
        found.remedy.write(&job)
    );
}

fn fillets(evidence: &mut Evidence) {
    let radius = inches(0.25);
    let table = evidence.check(Check {
        label: "F5",
        title: "Section of a silicone bead",
        source: "Closed form: what a circle leaves of a corner",
        marks: &[Mark::ByHand],
        problem: "radius 1/4 in: (1 − π ÷ 4) r² in a square corner, (√3 − π ÷ 3) r² in one of 60°",
        modelled: "form::fillet",
        gap: "Six to seven digits are told.",
        ..Check::default()
    });
    table.close("in 90°, in²", fillet(radius, FRAC_PI_2).get::<square_inch>(), 0.013_412_61, 1e-6);
    table.close("in 60°, in²", fillet(radius, FRAC_PI_3).get::<square_inch>(), 0.042_803_328, 1e-6);
}

/// By hand: 60 × 22 × 2 in with a bead of 1/8 in. 164 in along the base, 8 in upright; a lined edge hides its
/// own, an eased one has its own radius.
#[test]
fn silicone() {
    let section = |radius: f64| (1.0 - FRAC_PI_4) * radius * radius;
    let mut job = job_of("60", "22", "2");
    let silicone = build(&job).silicone.unwrap();
    assert_close(cubic_inches(silicone.volume.value), 172.0 * section(0.125), 1e-9);
    assert_eq!(silicone.cartridges.value, 1);
    job.pieces[0].edges[0] = lined("3/4");
    let silicone = build(&job).silicone.unwrap();
    // 22 3/4 in deep inside now; the two corners at the back are left.
    assert_close(silicone.at_base.get::<inch>(), 60.0 + 2.0 * 22.75, 1e-9);
    assert_close(silicone.upright.get::<inch>(), 4.0, 1e-9);
    job.pieces[0].edges[0] = Edge { kind: EdgeKind::Eased, radius: "3/4".into(), ..Edge::default() };
    job.form.cartridge = "3 in³".into();
    let silicone = build(&job).silicone.unwrap();
    let expected = 60.0 * section(0.75) + 112.0 * section(0.125);
    assert_close(cubic_inches(silicone.volume.value), expected, 1e-9);
    assert_eq!(silicone.cartridges.value, (expected / 3.0).ceil() as u32);
    // Around two knockouts of 20 × 13 in, rounded by 2 in.
    let silicone = build(&two_sinks()).silicone.unwrap();
    assert_close(silicone.at_knockouts.get::<inch>(), 2.0 * (66.0 - 16.0 + 16.0 * FRAC_PI_4), 1e-9);
}

/// By hand: 60 × 22 in of base and 164 × 2 in of sides, a US gallon over 400 ft² (from memory of data sheets).
#[test]
fn release_agent_and_tape() {
    let job = job_of("60", "22", "2");
    let build = build(&job);
    let release = build.release.unwrap();
    let area = 60.0 * 22.0 + 164.0 * 2.0;
    assert_close(release.area.value.get::<square_inch>(), area, 1e-6);
    assert_close(cubic_inches(release.volume.value), area / 144.0 / 400.0 * 231.0, 1e-9);
    // Two sides of 61 1/2 in and two of 22 in.
    assert_close(build.tape.unwrap().value.get::<inch>(), 167.0, 1e-9);
}

fn lined_job(width: &str, sides: &[usize]) -> Job {
    let mut job = job_of(width, "30", "2");
    for side in sides {
        job.pieces[0].edges[*side] = lined("3/4");
    }
    job
}

/// By hand, lengths of 96 in that run 2 in past: an edge of 60 in takes 64 in. One of 110 in takes 114 in,
/// joined 94 in along it; of 97 in, that joint would lie 3 in off the corner and moves back to 6 in.
#[test]
fn lengths_of_liner() {
    assert!(build(&job_of("60", "30", "2")).liner.is_none());
    let mut job = lined_job("60", &[0]);
    let liner = build(&job).liner.unwrap().unwrap();
    assert_eq!((liner.runs.len(), liner.lengths.value, liner.to_buy.value, liner.ends_to_plug), (1, 1, 1, 2));
    assert_close(liner.runs[0].length().get::<inch>(), 64.0, EXACT);
    assert_close(liner.tape.value.get::<inch>(), 128.0, EXACT);
    job.form.liner_owned = "3".into();
    assert_eq!(build(&job).liner.unwrap().unwrap().to_buy.value, 0);

    for (width, joint, pieces) in [("110", 94.0, [96.0, 18.0]), ("97", 91.0, [93.0, 8.0])] {
        let liner = build(&lined_job(width, &[0])).liner.unwrap().unwrap();
        let run = &liner.runs[0];
        assert!(run.joints_clear);
        assert_close(run.joints[0].get::<inch>(), joint, EXACT);
        for (found, expected) in run.pieces.iter().zip(pieces) {
            assert_close(found.get::<inch>(), expected, EXACT);
        }
        assert_eq!((run.pieces.len(), liner.lengths.value), (2, 2));
    }
    // Lengths shorter than the corners ask for.
    let mut job = lined_job("60", &[0]);
    job.form.liner_length = "7".into();
    assert!(!build(&job).liner.unwrap().unwrap().runs[0].joints_clear);
    assert!(said(&job, "nearer than 6 in to a corner"));
    job.form.liner_length = "1/1000".into();
    assert!(build(&job).liner.unwrap().is_err());
}

/// Around a corner of 4 in, of which a liner of 3/4 in makes 4 3/4 in in the form, one liner goes on where it
/// bends to 3 in; where it bends to 5 in only, or the corner is sharp, two lengths meet.
#[test]
fn a_liner_goes_round_a_corner() {
    let mut job = lined_job("60", &[0, 1]);
    assert_eq!(build(&job).liner.unwrap().unwrap().runs.len(), 2);
    let rounded = Corner { kind: CornerKind::Rounded, radius: "4".into(), ..Corner::default() };
    job.pieces[0].corners = vec![Corner::default(), rounded];
    let liner = build(&job).liner.unwrap().unwrap();
    assert_eq!((liner.runs.len(), liner.runs[0].edges.len()), (1, 3));
    // 60 3/4 and 30 3/4 in, each less 4 3/4 in, and a quarter of a circle.
    let along = 56.0 + 26.0 + FRAC_PI_2 * 4.75;
    assert_close(liner.runs[0].along.get::<inch>(), along, EXACT);
    assert!(!said(&job, "tighter than the liner bends to"));
    job.form.liner_bend = "5".into();
    assert_eq!(build(&job).liner.unwrap().unwrap().runs.len(), 2);
    assert!(said(&job, "tighter than the liner bends to, 5 in"));
    // All round with rounded corners it has no ends, and one joint in the middle of a long side.
    let mut job = lined_job("30", &[0, 1, 2, 3]);
    let rounded = Corner { kind: CornerKind::Rounded, radius: "4".into(), ..Corner::default() };
    job.pieces[0].corners = vec![rounded; 4];
    let liner = build(&job).liner.unwrap().unwrap();
    assert_eq!((liner.runs.len(), liner.ends_to_plug), (1, 0));
    let run = &liner.runs[0];
    assert_close(run.pieces.iter().map(|piece| piece.value).sum::<f64>(), run.along.value, EXACT);
    assert!(run.closed && run.joints_clear && run.joints.len() == run.pieces.len());
}

/// A liner of 2 in fixes 2 in: common practice. What stands over is cut down, what is short leaves a gap.
#[test]
fn the_height_of_a_liner() {
    let mut job = lined_job("60", &[0]);
    let high = |job: &Job| said(job, "1/4 in more than the 2 in");
    let low = |job: &Job| said(job, "1/4 in short of the 2 in");
    assert!(!high(&job) && !low(&job));
    for (height, expected) in [("2 1/4", [true, false]), ("2", [false, false]), ("1 3/4", [false, true])] {
        job.form.liner_height = height.into();
        assert_eq!([high(&job), low(&job)], expected, "{height}");
    }
}

/// By hand: 60 × 20 × 2 in, the left end 1/8 in low. A mix that flows is 2 in thick there and 1 7/8 in at the
/// right, and the form takes 1/16 in over its area less.
#[test]
fn a_form_out_of_level() {
    let mut job = job_of("60", "20", "2");
    assert_eq!(build(&job).levels[0], Ok(None));
    job.form.end_fall = "1/8".into();
    let level = build(&job).levels.remove(0).unwrap().unwrap();
    for (found, expected) in level.corners.iter().zip([2.0, 1.875, 1.875, 2.0]) {
        assert_close(found.get::<inch>(), expected, EXACT);
    }
    assert_close(level.difference.value.get::<inch>(), 0.125, EXACT);
    assert_close(cubic_inches(level.less.value), 60.0 * 20.0 / 16.0, 1e-9);
    assert!(said(&job, "out of level"));
    job.form.end_fall = "1/16".into();
    assert!(!said(&job, "out of level"));
    // The front lower by as much again: the back right corner lies highest by both.
    job.form.side_fall = "1/16".into();
    let level = build(&job).levels.remove(0).unwrap().unwrap();
    for (found, expected) in level.corners.iter().zip([2.0, 2.0 - 0.0625, 1.875, 2.0 - 0.0625]) {
        assert_close(found.get::<inch>(), expected, EXACT);
    }
    assert!(said(&job, "out of level"));
    job.form.end_fall = "3".into();
    assert!(said(&job, "more than the 2 in that are cast"));
}

/// Everything rectangular that is cut, piece by piece; strips are not cut from sheets.
#[test]
fn blanks() {
    let mut job = two_sinks();
    let mut second = job_of("20", "10", "2").pieces.remove(0);
    second.corners = vec![Corner { kind: CornerKind::Rounded, radius: "3".into(), ..Corner::default() }];
    second.bag.clone_from(&job.pieces[0].bag);
    job.pieces.push(second);
    let rows = build(&job).stock.unwrap();
    let board = |piece: usize| rows.iter().filter(move |row| row.piece == piece && row.stock == Stock::Board);
    assert_eq!((board(0).count(), board(1).count(), rows.len()), (5, 5, 11));
    let first: Vec<_> = board(0).map(|row| (row.length.get::<inch>(), row.width.get::<inch>(), row.count)).collect();
    let expected = [(67.0, 20.0), (68.5, 2.75), (20.0, 2.75), (68.5, 2.75), (20.0, 2.75)];
    for (found, expected) in first.iter().zip(expected) {
        assert_close(found.0, expected.0, EXACT);
        assert_close(found.1, expected.1, EXACT);
        assert_eq!(found.2, 1);
    }
}
