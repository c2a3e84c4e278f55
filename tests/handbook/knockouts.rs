//! Knockouts and cores: outlines, layers, what holds them down.

use crate::{EXACT, assert_close, cutout, job_of, two_sinks, worked_out};
use pourwright::finding::Severity;
use pourwright::job::{
    CutoutField, CutoutShape, FieldPath, FormField, HolePattern, Holes, Job, Layer, LayerField, LayerOf, Reveal, Units,
};
use pourwright::knockout::{CoreOf, Knockout, Stack};
use pourwright::measure::exact::{in_inches, in_pounds};
use pourwright::working::Working;
use std::f64::consts::PI;

const SQUARE_INCH: f64 = 0.0254 * 0.0254;

fn knockout(job: &Job) -> Knockout {
    worked_out(job).pieces[0].knockouts.cutouts.clone().remove(0).expect("the knockout is known")
}

fn layers(job: &mut Job, layers: &[(LayerOf, &str)]) {
    job.form.layers = layers.iter().map(|(of, thickness)| Layer { of: *of, thickness: (*thickness).into() }).collect();
}

fn stacked(stack: &Stack) -> Vec<(LayerOf, f64)> {
    stack.layers.iter().map(|layer| (layer.of, in_inches(layer.thickness))).collect()
}

fn one_bowl(thickness: &str) -> Job {
    let mut job = job_of("48", "22", thickness);
    job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["18", "13", "2"], ["24", "11"]));
    job
}

/// How much what is told at that place weighs.
fn told(job: &Job, place: FieldPath) -> Option<Severity> {
    worked_out(job).findings.iter().find(|finding| finding.place == place).map(|finding| finding.severity)
}

#[track_caller]
fn ends_in(working: &Working, result: &str) {
    assert_eq!(working.lines(Units::Inch).last().map(|line| line.result.as_str()), Some(result));
}

/// Common practice, no source: 1/2 + 3/4 + 3/4 in of board are 2 in.
#[test]
fn three_boards_make_two_inches() {
    let mut job = one_bowl("2");
    layers(&mut job, &[(LayerOf::Board, "3/4"), (LayerOf::Board, "1/2")]);
    let stack = knockout(&job).stack.expect("it can be stacked");
    let board = LayerOf::Board;
    // 4 × 1/2 in would do as well, with a layer more.
    assert_eq!(stacked(&stack), [(board, 0.75), (board, 0.75), (board, 0.5)]);
    assert_eq!(in_inches(stack.shim.value), 0.0);
}

/// By hand: what is exact goes before what is foam, few layers before many, and foam before board.
#[test]
fn exact_then_few_then_foam() {
    use LayerOf::{Board, Foam};
    let stock = [(Foam, "2"), (Foam, "1"), (Foam, "1/2"), (Board, "3/4"), (Board, "1/2")];
    type Case = (&'static str, &'static [(LayerOf, f64)], f64);
    let cases: [Case; 6] = [
        ("2", &[(Foam, 2.0)], 0.0),
        // Two of foam as well as two of board.
        ("1 1/2", &[(Foam, 1.0), (Foam, 0.5)], 0.0),
        // The board at the foot, for the screws; foam alone leaves 1/4 in.
        ("1 3/4", &[(Board, 0.75), (Foam, 1.0)], 0.0),
        ("1 1/4", &[(Board, 0.75), (Foam, 0.5)], 0.0),
        // 1/16 in is left whatever is done: then the fewest.
        ("1 13/16", &[(Board, 0.75), (Foam, 1.0)], 1.0 / 16.0),
        ("2 1/8", &[(Foam, 2.0)], 1.0 / 8.0),
    ];
    for (thickness, expected, shim) in cases {
        let mut job = one_bowl(thickness);
        layers(&mut job, &stock);
        let stack = knockout(&job).stack.expect("it can be stacked");
        assert_eq!(stacked(&stack).len(), expected.len(), "{thickness}: {:?}", stacked(&stack));
        for (found, expected) in stacked(&stack).iter().zip(expected) {
            assert_eq!(found.0, expected.0, "{thickness}");
            assert_close(found.1, expected.1, EXACT);
        }
        assert!((in_inches(stack.shim.value) - shim).abs() < 1e-9, "{thickness}");
    }
}

/// Metric boards: 25 + 25 = 50 mm, and 12 + 19 + 19 mm is as many as 50 mm, with two layers more than one.
#[test]
fn metric_layers_are_exact() {
    let mut job = Job::new("check", Units::Metric);
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth, piece.thickness) = ("1200".into(), "550".into(), "50".into());
    piece.cutouts.push(cutout(CutoutShape::Circle, ["400", "", ""], ["600", "280"]));
    layers(&mut job, &[(LayerOf::Board, "19"), (LayerOf::Board, "12"), (LayerOf::Foam, "25")]);
    let stack = knockout(&job).stack.expect("it can be stacked");
    assert_eq!(stack.layers.iter().map(|layer| layer.stock).collect::<Vec<_>>(), [2, 2]);
    assert_eq!(stack.shim.working.result(Units::Metric), "0 mm");
}

/// What is ground off is cast as well, and a reveal that shows widens the foot: 13 + 2 × 1/4 in.
#[test]
fn as_high_as_the_cast_and_as_wide_as_the_hole() {
    let mut job = one_bowl("1 3/4");
    job.pieces[0].grinding = "1/4".into();
    job.pieces[0].cutouts[0].reveal = Reveal::Shows;
    job.pieces[0].cutouts[0].reveal_width = "1/4".into();
    job.form.draft = "1/8".into();
    let knockout = knockout(&job);
    assert_close(in_inches(knockout.height.value), 2.0, EXACT);
    assert_close(knockout.foot.bounds().height() / 0.0254, 13.5, EXACT);
    assert_close(knockout.head.bounds().height() / 0.0254, 13.25, EXACT);
    assert_close(knockout.head.bounds().width() / 0.0254, 18.25, EXACT);
    assert_eq!(knockout.blanks.len(), 1, "one layer of 2 in foam");
}

/// By hand: with a draft of 1/8 in over 2 in, layers of 3/4, 3/4 and 1/2 in stand 0, 3/4 and 1 1/2 in up, where
/// the knockout is narrower by 0, 3/32 and 3/16 in.
#[test]
fn every_layer_is_cut_to_where_it_stands() {
    let mut job = one_bowl("2");
    job.form.draft = "1/8".into();
    layers(&mut job, &[(LayerOf::Board, "3/4"), (LayerOf::Board, "1/2")]);
    let blanks = knockout(&job).blanks;
    assert_eq!(blanks.iter().map(|blank| blank.mark.as_str()).collect::<Vec<_>>(), ["K1.1", "K1.2", "K1.3"]);
    for (blank, narrower) in blanks.iter().zip([0.0, 3.0 / 32.0, 3.0 / 16.0]) {
        assert_close(in_inches(blank.width), 18.0 - narrower, EXACT);
        assert_close(in_inches(blank.length), 13.0 - narrower, EXACT);
    }
}

/// Archimedes: a 12 in cube less nothing is 1 ft³, which lifts with what 1 ft³ of mix weighs. Its density
/// by hand: 80 lb and 0.6 ft³, with 3 US quarts of water at 62.4 lb/ft³.
#[test]
fn a_cubic_foot_lifts_with_its_weight() {
    let mut job = job_of("48", "24", "12");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["12", "12", ""], ["24", "12"]));
    let bag = &mut job.bags[0];
    (bag.mass, bag.yield_volume, bag.water) = ("80 lb".into(), "0.6 ft³".into(), "3 qt".into());
    bag.additives.clear();
    // A US quart is 57.75 in³ (NIST HB 44 App. C).
    let density = (80.0 + 3.0 * 57.75 / 1728.0 * 62.4) / 0.6;
    let hold = knockout(&job).hold;
    assert_close(in_pounds(hold.lift.value), density, EXACT);
    assert_close(in_pounds(hold.weight), density.ceil(), EXACT);
    // Without a mix, 150 lb/ft³, and the working says so.
    job.bags[0].yield_volume = "".into();
    let hold = knockout(&job).hold;
    assert_close(in_pounds(hold.lift.value), 150.0, EXACT);
    assert!(hold.lift.working.lines(Units::Inch).iter().any(|line| line.formula.contains("not known")));
    assert!(hold.screws.is_none(), "twelve inches of foam hold no screw");
    layers(&mut job, &[(LayerOf::Board, "3/4")]);
    let screws = knockout(&job).hold.screws.expect("a board holds screws");
    // 150 ÷ 25.
    assert_eq!(screws.value, 6);
    ends_in(&screws.working, "6 screws");
    ends_in(&hold.lift.working, "150 lb");
    assert_eq!(
        knockout(&job).hold.words(Units::Inch),
        "If mix gets under it, it floats up with 150 lb. Set 150 lb on it, or hold it with 6 screws up through the base."
    );
}

/// A frustum's volume, h ÷ 6 × (A₀ + 4 Aₘ + A₁): of a circle of 12 in that narrows to 8 in over 2 in it is
/// π h ÷ 3 × (R² + R r + r²), the cone's.
#[test]
fn a_drafted_circle_is_a_cut_cone() {
    let mut job = job_of("48", "24", "2");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Circle, ["12", "", ""], ["24", "12"]));
    job.form.draft = "2".into();
    job.bags[0].yield_volume = "".into();
    let cone = PI * 2.0 / 3.0 * (36.0 + 24.0 + 16.0);
    let found = knockout(&job);
    assert_close(in_pounds(found.hold.lift.value), cone / 1728.0 * 150.0, EXACT);
    assert_close(found.head.area() / SQUARE_INCH, PI * 16.0, EXACT);
    let draft = FieldPath::Form(FormField::Draft);
    assert_eq!(told(&job, draft), Some(Severity::Watch), "2 in is far over 1/4 in");
    // More than the radius leaves nothing at the top, and that is said where it is typed.
    job.form.draft = "7".into();
    let estimate = worked_out(&job);
    let waiting = estimate.pieces[0].knockouts.cutouts[0].as_ref().expect_err("no room");
    assert_eq!(waiting.needs()[0].place, draft);
    assert!(crate::words(&waiting.needs()[0]).contains("the most"), "{}", crate::words(&waiting.needs()[0]));
    job.form.draft = "1/4".into();
    assert_eq!(told(&job, draft), None);
}

/// What does not fit is said: 2 in of foam in a 3/4 in splash, and a shim on both sides of its limit of 1/8 in.
#[test]
fn layers_that_do_not_fit_are_told() {
    let place = FieldPath::Layer(0, LayerField::Thickness);
    let mut job = one_bowl("3/4");
    layers(&mut job, &[(LayerOf::Foam, "2"), (LayerOf::Board, "1")]);
    let estimate = worked_out(&job);
    assert_eq!(told(&job, place), Some(Severity::Stop));
    let known = estimate.pieces[0].knockouts.cutouts[0].as_ref().expect("its outline is known all the same");
    assert!(known.stack.is_err() && known.blanks.is_empty());
    for (thickness, expected) in [("2 1/8", None), ("2 3/16", Some(Severity::Watch))] {
        let mut job = one_bowl(thickness);
        layers(&mut job, &[(LayerOf::Foam, "2")]);
        assert_eq!(told(&job, place), expected, "{thickness}");
    }
    // 1/64 in of a trowel's stroke is no shim; 1/32 in is one.
    for (thickness, shim) in [("2 1/64", 0.0), ("2 1/32", 1.0 / 32.0), ("1 63/64", 0.0)] {
        let mut job = one_bowl(thickness);
        layers(&mut job, &[(LayerOf::Foam, "2")]);
        let stack = knockout(&job).stack.expect("it can be stacked");
        assert!((in_inches(stack.shim.value) - shim).abs() < 1e-9, "{thickness}");
    }
}

/// A blank row is not there yet; one that cannot be read is waited for; one thinner than 1/32 in is told.
#[test]
fn rows_that_are_no_layers() {
    let mut job = one_bowl("2");
    layers(&mut job, &[(LayerOf::Foam, "2"), (LayerOf::Foam, "")]);
    assert_eq!(stacked(&knockout(&job).stack.expect("the first row will do")).len(), 1);
    job.form.layers[1].thickness = "two".into();
    let waiting = knockout(&job).stack.expect_err("what is typed is not passed over");
    assert_eq!(waiting.needs()[0].place, FieldPath::Layer(1, LayerField::Thickness));
    job.form.layers[1].thickness = "1/64".into();
    assert_eq!(told(&job, FieldPath::Layer(1, LayerField::Thickness)), Some(Severity::Watch));
    job.form.layers.clear();
    assert!(knockout(&job).stack.is_err());
}

/// Common practice, no source: board wedges and foam does not, where a rail is narrow.
#[test]
fn board_beside_a_narrow_rail() {
    let place = FieldPath::Cutout(0, 0, CutoutField::Width);
    let mut job = two_sinks();
    layers(&mut job, &[(LayerOf::Board, "1")]);
    assert_eq!(told(&job, place), None, "rails of 3 in");
    job.pieces[0].cutouts[0].depth = "15".into();
    assert_eq!(told(&job, place), Some(Severity::Watch));
    let drafted =
        { Job { form: pourwright::job::FormChoices { draft: "1/16".into(), ..job.form.clone() }, ..job.clone() } };
    assert_eq!(told(&drafted, place), None);
    layers(&mut job, &[(LayerOf::Foam, "2")]);
    assert_eq!(told(&job, place), None);
}

/// One core for each hole of a set, as long as the cast is thick.
#[test]
fn cores_of_faucet_holes() {
    let mut job = one_bowl("1 3/4");
    job.pieces[0].grinding = "1/16".into();
    for (pattern, diameter) in [(HolePattern::Single, "1 3/8"), (HolePattern::Three, "7/8")] {
        job.pieces[0].holes.push(Holes {
            pattern,
            diameter: diameter.into(),
            spread: "8".into(),
            from_left: "24".into(),
            from_front: "19 1/2".into(),
            ..Holes::default()
        });
    }
    let cores = worked_out(&job).pieces[0].knockouts.cores.clone();
    let cores: Vec<_> = cores.into_iter().map(|core| core.expect("it is known")).collect();
    assert_eq!(
        cores.iter().map(|core| (core.count, core.of)).collect::<Vec<_>>(),
        [(1, CoreOf::Foam), (3, CoreOf::Dowel)]
    );
    assert_close(in_inches(cores[0].diameter), 1.375, EXACT);
    assert_close(in_inches(cores[1].length), 1.8125, EXACT);
}
