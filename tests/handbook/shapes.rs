//! Pieces of other shapes than a rectangle, through the single door: outlines, forms, openings.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within, cutout, lined, worked_out};
use pourwright::estimate::PieceEstimate;
use pourwright::finding::{Finding, Severity};
use pourwright::job::{
    Corner, CornerField, CornerKind, CutoutShape, Edge, EdgeField, EdgeKind, FieldPath, Hand, Job, Leg, Measured,
    OpeningReading, OutlineShape, ReadingField, Units,
};
use pourwright::measure::exact::in_inches;
use pourwright::plane::Outline;
use std::sync::Arc;
use uom::si::angle::degree;
use uom::si::area::square_inch;
use uom::si::length::inch;

checks![an_l, an_l_cleared_from_its_walls, a_top_in_an_opening, a_diagonal_misread_by_an_inch];

/// Metres.
const INCH: f64 = 0.0254;

fn piece(job: &Job) -> PieceEstimate {
    Arc::unwrap_or_clone(worked_out(job).pieces.remove(0))
}

fn square_inches(outline: &Outline) -> f64 {
    outline.area() / (INCH * INCH)
}

#[track_caller]
fn assert_corner(outline: &Outline, edge: usize, expected: (f64, f64), tolerance: f64) {
    let at = outline.edges()[edge].start();
    assert_within(at.x / INCH, expected.0, tolerance);
    assert_within(at.y / INCH, expected.1, tolerance);
}

/// The L of G4: (0, 0) (84, 0) (84, 25.5) (25.5, 25.5) (25.5, 60) (0, 60) in.
fn l() -> Job {
    let mut job = Job::new("check", Units::Inch);
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::L;
    piece.width = "84".into();
    piece.depth = "60".into();
    piece.leg = "25 1/2".into();
    piece.front_depth = "25 1/2".into();
    piece.edges = vec![Edge::default(); 6];
    job
}

/// G4: area, perimeter and centroid. Computed (shapely).
fn an_l(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "G4",
        title: "An L as it is typed",
        source: "Polygon (0, 0) (84, 0) (84, 25.5) (25.5, 25.5) (25.5, 60) (0, 60) in",
        marks: &[Mark::Computed("shapely 2.2.0")],
        problem: "width 84, depth 60, leg and front run 25.5 in, with the leg at either end",
        modelled: "estimate::estimate of that job",
        gap: "Seven digits of the centroid are told.",
        ..Check::default()
    });
    for (hand, what, across) in [(Hand::Left, "leg left", 33.48418), (Hand::Right, "leg right", 50.51582)] {
        let mut job = l();
        job.pieces[0].hand = hand;
        let top = piece(&job).top;
        table.close(format!("{what}: area, in²"), top.area.unwrap().value.get::<square_inch>(), 3021.75, 1e-6);
        let outline = top.outline.unwrap();
        table.close(format!("{what}: perimeter, in"), outline.perimeter() / INCH, 288.0, 1e-6);
        table.within(format!("{what}: centroid from the left, in"), outline.centroid().x / INCH, across, 1e-4);
        table.within(format!("{what}: centroid from the front, in"), outline.centroid().y / INCH, 21.48418, 1e-4);
    }
}

/// G5, the edges that grow: liners of 1 1/2 in in front and at the end of the leg, walls elsewhere. The
/// area by adding what both strips take: 84 × 1.5 and 25.5 × 1.5 in.
#[test]
fn the_form_of_an_l_with_liners() {
    let mut job = l();
    let typed = &mut job.pieces[0];
    for side in [1, 2, 3, 5] {
        typed.edges[side].kind = EdgeKind::Wall;
    }
    typed.edges[0] = lined("1 1/2");
    typed.edges[4] = lined("1 1/2");
    let worked = piece(&job);
    let form = worked.form.unwrap();
    assert_close(square_inches(&form.clear), 3021.75 + 84.0 * 1.5 + 25.5 * 1.5, EXACT);
    assert_close(form.clear.perimeter() / INCH, 294.0, 1e-6);
    assert_close(form.clear_width.value.get::<inch>(), 84.0, EXACT);
    assert_close(form.clear_depth.value.get::<inch>(), 63.0, EXACT);
    assert_corner(&form.clear, 0, (0.0, -1.5), 1e-9);
    assert_corner(&form.clear, 3, (25.5, 25.5), 1e-9);
    assert_corner(&form.clear, 4, (25.5, 61.5), 1e-9);
    // What is poured is the finished piece, whatever the liners.
    let net = worked.pour.unwrap().net.value.value;
    assert_close(net, 3021.75 * 2.0 * INCH.powi(3), EXACT);
}

/// G5: the same L with its back edges 1/8 in shorter of their walls. Computed (line intersection, shapely).
fn an_l_cleared_from_its_walls(evidence: &mut Evidence) {
    let mut job = l();
    let typed = &mut job.pieces[0];
    typed.front_depth = "25 3/8".into();
    typed.leg = "25 3/8".into();
    typed.edges[0] = lined("1 1/2");
    typed.edges[4] = lined("1 1/2");
    let form = piece(&job).form.unwrap();
    let table = evidence.check(Check {
        label: "G5",
        title: "Inside of the form of an L",
        source: "The lines moved and cut with each other",
        marks: &[Mark::ByHand, Mark::Computed("shapely 2.2.0")],
        problem: "G4 with its back edges 1/8 in short of their walls, liners of 1.5 in in front and at the end of the leg",
        modelled: "estimate::estimate of that job: clear outline of the form",
        gap: "Nine digits are told.",
        ..Check::default()
    });
    table.close("area, in²", square_inches(&form.clear), 3174.17188, 1e-6);
    table.close("perimeter, in", form.clear.perimeter() / INCH, 294.0, 1e-6);
    assert_corner(&form.clear, 3, (25.375, 25.375), 1e-9);
}

/// A liner that closes over a rounded inside corner is said at that corner, with what would fit.
#[test]
fn a_liner_that_swallows_a_corner() {
    let mut job = l();
    let typed = &mut job.pieces[0];
    typed.corner_mut(3).kind = CornerKind::Rounded;
    typed.corner_mut(3).radius = "1/2".into();
    typed.edges[2] = lined("3/4");
    typed.edges[3] = lined("3/4");
    let need = piece(&job).form.unwrap_err().needs()[0].clone();
    assert_eq!(need.place, FieldPath::Corner(0, 3, CornerField::Radius));
    let words = need.write(&job);
    let says = "The liners close over the inner back / inner right corner: ";
    assert!(words.starts_with(says) && words.ends_with(" in is the most that fits."), "{}", words);
    job.pieces[0].corner_mut(3).radius = "1".into();
    assert!(piece(&job).form.is_ok());
    // A liner that is not typed is asked for at its edge.
    job.pieces[0].edges[2].liner = "".into();
    assert_eq!(piece(&job).form.unwrap_err().needs()[0].place, FieldPath::Edge(0, 2, EdgeField::Liner));
}

/// Closed form: a square of 30 in walked with a closure of nothing, and as a rectangle.
#[test]
fn a_walk_around_a_square() {
    let mut job = Job::new("check", Units::Inch);
    let typed = &mut job.pieces[0];
    typed.shape = OutlineShape::Walked;
    typed.walk = vec![Leg { length: "30".into(), angle: "90".into(), ..Leg::default() }; 4];
    let top = piece(&job).top;
    assert_close(top.area.unwrap().value.get::<square_inch>(), 900.0, EXACT);
    assert_within(top.walked.unwrap().unwrap().closure.get::<inch>(), 0.0, 1e-9);

    // One side 1/2 in long: the closure is that, it is spread, and the front still runs from left to right.
    job.pieces[0].walk[1].length = "30 1/2".into();
    let top = piece(&job).top;
    assert_within(top.walked.unwrap().unwrap().closure.get::<inch>(), 0.5, 1e-9);
    let outline = top.outline.unwrap();
    assert_corner(&outline, 0, (0.0, 0.0), 1e-9);
    assert_within(outline.edges()[0].end().y / INCH, 0.0, 1e-9);
}

/// The readings of Q1: G7, front 61 in, depths 22 in, 92° and 87°, to the sixteenth of an inch.
fn opening_job() -> Job {
    let mut job = Job::new("check", Units::Inch);
    let typed = &mut job.pieces[0];
    typed.shape = OutlineShape::Opening;
    typed.edges[1].kind = EdgeKind::Wall;
    typed.edges[3].kind = EdgeKind::Wall;
    typed.opening.end_overhang = "".into();
    for (of, text) in [
        (Measured::Front, "61"),
        (Measured::Right, "22"),
        (Measured::Back, "60 5/8"),
        (Measured::Left, "22"),
        (Measured::DiagonalFromFrontLeft, "63 3/4"),
        (Measured::DiagonalFromFrontRight, "65 9/16"),
    ] {
        take(&mut job, of, text);
    }
    job
}

fn index_of(job: &Job, of: Measured) -> usize {
    job.pieces[0].opening.readings.iter().position(|reading| reading.of == of).expect("it is there")
}

/// Types the first reading of that.
fn take(job: &mut Job, of: Measured, text: &str) {
    let index = index_of(job, of);
    job.pieces[0].opening.readings[index].length = text.into();
}

/// Both back corners of G7 by marks on legs of 24 in, to the sixteenth: 93.007° and 87.970° have chords of
/// 34.82 and 33.34 in. Law of cosines.
fn mark_both_corners(job: &mut Job) {
    for (of, between) in [(Measured::BackRightCorner, "34 13/16"), (Measured::BackLeftCorner, "33 5/16")] {
        job.pieces[0].opening.readings.push(OpeningReading {
            one_leg: "24".into(),
            other_leg: "24".into(),
            between: between.into(),
            ..OpeningReading::new(of)
        });
    }
}

/// Q1: angles and area of the opening. Computed (scipy least_squares). G8: the top in it, 1 1/4 in past the
/// front, 1/8 in off the back and both sides; G8 itself has no clearance at the right, so that its numbers
/// hold to the sixteenths of the readings for all but that side. Computed (shapely).
fn a_top_in_an_opening(evidence: &mut Evidence) {
    let job = opening_job();
    let worked = piece(&job);
    let surveyed = worked.top.surveyed.as_ref().unwrap().as_ref().unwrap();
    let outline = worked.top.outline.as_ref().unwrap();
    let table = evidence.check(Check {
        label: "Q1, G8",
        title: "A top in a measured opening",
        source: "Least squares of six readings; the lines moved and cut with each other",
        marks: &[Mark::Computed("scipy 1.17.1, least_squares; shapely 2.2.0"), Mark::ByHand],
        problem: "sides 61, 22, 60 5/8, 22 in, diagonals 63 3/4 and 65 9/16 in; the top 1 1/4 in past the front, 1/8 in off \
            the walls",
        conventions: "G8 has no clearance at the right; the strip of 1/8 in that it takes here is taken off by hand.",
        modelled: "estimate::estimate of that job: survey and outline of the top",
        gap: "G8 is of exact angles, and the readings go to 1/16 in.",
        ..Check::default()
    });
    let corners = ["front left", "front right", "back right", "back left"];
    for ((corner, expected), what) in surveyed.survey.angles.iter().zip([92.014, 87.008, 93.007, 87.970]).zip(corners) {
        table.within(format!("angle at the {what}, °"), corner.angle.get::<degree>(), expected, 2e-3);
    }
    table.within("opening, in²", surveyed.survey.area.get::<square_inch>(), 1336.4025, 1e-2);
    // Its own origin is its front left corner; G8 says where that lies in the opening.
    assert_corner(outline, 0, (0.0, 0.0), 1e-9);
    table.within("front left in the opening, in", surveyed.front_left.x / INCH, 0.16873, 1e-3);
    table.within("front edge in the opening, in", surveyed.front_left.y / INCH, -1.25, 1e-9);
    // 61.06551 is where the right wall comes to; 1/8 in inside it, along the front, is 1/8 ÷ sin 87.008°.
    let front = outline.edges()[0].end();
    table.within("front right in the opening, in", front.x / INCH + surveyed.front_left.x / INCH, 60.94034, 5e-3);
    assert_within(front.y / INCH, 0.0, 1e-9);
    // The right side of G8 is as long as the opening is deep, and what is in front and not behind: the strip
    // that the clearance takes off its area.
    let strip = 0.125 * outline.edges()[1].length() / INCH;
    table.within("top and that strip, in²", square_inches(outline) + strip, 1402.24395, 6e-2);
    let left: f64 = outline.interior_angle(0);
    assert_within(left.to_degrees(), 92.014, 2e-3);
}

/// As Q1's redundancies have it (see `room`): a depth may be 3/4 in out and nobody sees it, which is a note; 5/8 in of it that
/// chance explains is watched, an inch stops.
#[test]
fn an_opening_says_what_its_readings_do_not_check() {
    let found = |left: &str, strength| {
        let mut job = opening_job();
        take(&mut job, Measured::Left, left);
        let found = worked_out(&job).findings;
        let of_reading = |one: &pourwright::finding::Finding| {
            one.severity == strength && matches!(one.place, FieldPath::Reading(0, ..))
        };
        found.into_iter().find(of_reading).map(|one| one.says.write(&job))
    };
    use pourwright::finding::Severity::{Note, Stop, Watch};
    let note = found("22", Note).expect("the depths are hardly checked");
    assert!(note.starts_with("A slip of up to 3/4 in in the left depth or the right depth"), "{note}");
    assert_eq!((found("22", Watch), found("22", Stop)), (None, None));
    let watch = found("22 5/8", Watch).expect("no longer fine");
    assert!(watch.contains("differ by no more than chance may make them"), "{watch}");
    assert_eq!(found("22 5/8", Stop), None);
    assert!(found("23", Stop).expect("an inch").starts_with("One reading is wrong"));
}

/// A cutout is measured from the front left corner of the piece, not from the opening: with the front 1 1/4 in
/// past the walls, one whose centre is 8 in from the front edge has 8 − 6 = 2 in of rail in front of it.
#[test]
fn a_cutout_in_an_opening_is_measured_from_the_piece() {
    let mut job = opening_job();
    job.pieces[0].cutouts.push(cutout(CutoutShape::Rectangle, ["18", "12", "2"], ["30", "8"]));
    let estimate = worked_out(&job);
    let says = "The rail in front of cutout 1 is 2 in wide; under 2 1/2 in it is where the top will crack first.";
    assert!(estimate.findings.iter().any(|finding| finding.says.write(&job) == says), "{:?}", estimate.findings);
}

/// Every way in that is worked out: between walls that widen to the front it slides in.
#[test]
fn the_ways_into_an_opening() {
    let worked = piece(&opening_job());
    let surveyed = worked.top.surveyed.unwrap().unwrap();
    let ways = surveyed.ways.unwrap();
    assert!(ways.lowered.works());
    // Two clearances of 1/8 in, each across a wall that leans: 1/8 ÷ sin of the angle at its front.
    let spare = 0.125 / 92.014_f64.to_radians().sin() + 0.125 / 87.008_f64.to_radians().sin();
    assert_within(in_inches(ways.lowered.margin.unwrap()), spare, 1e-4);
    // √(L² + t²) − L is about t² ÷ 2 L: 2² ÷ 122 in, less than is to spare.
    assert!(ways.tilted.works());
    assert!(ways.tilted.margin < ways.lowered.margin);
}

/// What the readings say of each other, if anything.
fn disagreement(job: &Job) -> Option<Finding> {
    let found = worked_out(job).findings;
    found.into_iter().find(|finding| finding.remedy.write(job).contains("the corners are a guess"))
}

const NAMES: [&str; 6] =
    ["front width", "right depth", "back width", "left depth", "diagonal from front left", "diagonal from front right"];

/// The names of readings that a sentence holds.
fn named(says: &str) -> Vec<&'static str> {
    let says = says.to_lowercase();
    NAMES.into_iter().filter(|name| says.contains(name)).collect()
}

/// Q3 and Q4: from sides and diagonals alone a reading that is 1 in off is detected, not located. Q5: with both
/// back corners marked there are two suspects, which only the depth taped again parts. Computed (scipy
/// least_squares, normalised residuals).
fn a_diagonal_misread_by_an_inch(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "Q3 to Q5",
        title: "A diagonal misread by an inch, as the page says it",
        source: "Least squares, normalised residuals: with one spare reading all are alike, so none may be named; with two \
            corners marked the left depth and the diagonal are alike",
        marks: &[Mark::Computed("scipy 1.17.1, least_squares")],
        problem: "Q1 with the diagonal from front left read as 64 3/4 in; then with both back corners marked; then with the \
            left depth taped again",
        modelled: "estimate::estimate of that job: the readings that its finding names",
        ..Check::default()
    });
    let mut job = opening_job();
    assert_eq!(disagreement(&job), None);

    take(&mut job, Measured::DiagonalFromFrontLeft, "64 3/4");
    let found = disagreement(&job).expect("one is wrong");
    assert_eq!(found.severity, Severity::Stop);
    assert!(found.says.write(&job).starts_with("One reading is wrong"), "{}", found.says.write(&job));
    assert!(found.says.write(&job).contains("corner by three marks"), "{}", found.says.write(&job));
    let words = |says: &str| if named(says).is_empty() { "none".to_owned() } else { named(says).join(", ") };
    table.same("from sides and diagonals alone", words(&found.says.write(&job)), "none");

    mark_both_corners(&mut job);
    let found = disagreement(&job).expect("one is wrong");
    assert_eq!(found.severity, Severity::Stop);
    assert!(found.says.write(&job).starts_with("One of these is wrong: the "), "{}", found.says.write(&job));
    table.same("with both back corners marked", words(&found.says.write(&job)), "left depth, diagonal from front left");
    // The shorter of the two is the one to take again.
    let left = index_of(&job, Measured::Left);
    assert_eq!(found.place, FieldPath::Reading(0, left, ReadingField::Length));
    assert!(found.says.write(&job).ends_with("Take the left depth again to tell."), "{}", found.says.write(&job));

    let again = OpeningReading { length: "22".into(), ..OpeningReading::new(Measured::Left) };
    job.pieces[0].opening.readings.push(again);
    let found = disagreement(&job).expect("one is wrong");
    table.same("with the left depth taped again", words(&found.says.write(&job)), "diagonal from front left");
    assert!(
        found.says.write(&job).contains("64 3/4 in was read") && found.says.write(&job).contains("63 3/4 in"),
        "{}",
        found.says.write(&job)
    );
    let diagonal = index_of(&job, Measured::DiagonalFromFrontLeft);
    assert_eq!(found.place, FieldPath::Reading(0, diagonal, ReadingField::Length));

    take(&mut job, Measured::DiagonalFromFrontLeft, "63 3/4");
    assert_eq!(disagreement(&job), None);
}

/// Q3: the back read 1 in long, from sides and diagonals alone. Computed (scipy least_squares).
#[test]
fn a_back_misread_by_an_inch() {
    let mut job = opening_job();
    take(&mut job, Measured::Back, "61 5/8");
    let found = disagreement(&job).expect("one is wrong");
    assert_eq!(found.severity, Severity::Stop);
    assert_eq!(named(&found.says.write(&job)), [""; 0], "{}", found.says.write(&job));
}

/// With too few readings the piece waits, and says which one more would fix it; a blank one was not taken.
#[test]
fn too_few_readings_of_an_opening() {
    let mut job = opening_job();
    take(&mut job, Measured::DiagonalFromFrontLeft, "");
    assert!(piece(&job).top.outline.is_ok());
    take(&mut job, Measured::DiagonalFromFrontRight, " ");
    let need = piece(&job).top.outline.unwrap_err().needs()[0].clone();
    assert!(crate::words(&need).contains("do not fix the shape yet"), "{}", crate::words(&need));
    let blank = index_of(&job, Measured::DiagonalFromFrontLeft);
    assert_eq!(need.place, FieldPath::Reading(0, blank, ReadingField::Length));
}

/// Both corners of the right side rounded with half its length make a full round: a rectangle and a half
/// circle, closed form.
#[test]
fn two_half_radii_make_a_full_round() {
    let mut job = crate::job_of("60", "24", "2");
    for side in [1, 2] {
        *job.pieces[0].corner_mut(side) =
            Corner { kind: CornerKind::Rounded, radius: "12".into(), ..Corner::default() };
    }
    let area = worked_out(&job).pieces[0].top.area.clone().expect("a full round is an outline").value;
    let inches = area.value / (0.0254 * 0.0254);
    assert_close(inches, (60.0 - 12.0) * 24.0 + std::f64::consts::PI * 12.0 * 12.0 / 2.0, EXACT);
}

/// The inside corner of an L is watched while its radius is under 1/2 in (common practice, no source).
#[test]
fn a_sharp_inside_corner_is_watched() {
    let mut job = crate::job_of("84", "60", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::L;
    piece.leg = "25 1/2".into();
    piece.front_depth = "25 1/2".into();
    let watched =
        |job: &Job| worked_out(job).findings.iter().any(|one| one.says.write(job).contains("inside corners under"));
    assert!(watched(&job), "sharp");
    *job.pieces[0].corner_mut(3) = Corner { kind: CornerKind::Rounded, radius: "3/8".into(), ..Corner::default() };
    assert!(watched(&job), "3/8 in");
    job.pieces[0].corner_mut(3).radius = "1/2".into();
    assert!(!watched(&job), "1/2 in is enough");
}

/// A liner thicker than an inside radius closes over it: geometry. It stops, and names where.
#[test]
fn a_liner_that_swallows_an_edge_stops() {
    let mut job = crate::job_of("84", "60", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::L;
    piece.leg = "25 1/2".into();
    piece.front_depth = "25 1/2".into();
    *piece.corner_mut(3) = Corner { kind: CornerKind::Rounded, radius: "1/2".into(), ..Corner::default() };
    for side in [2, 3] {
        *piece.edge_mut(side) = Edge { kind: EdgeKind::Lined, liner: "3/4".into(), ..Edge::default() };
    }
    let estimate = worked_out(&job);
    let stop = estimate.findings.iter().find(|one| one.says.write(&job).contains("close over")).expect("a stop");
    assert_eq!(stop.severity, Severity::Stop);
    assert!(estimate.pieces[0].form.is_err() && estimate.pieces[0].top.area.is_ok(), "the top itself stands");
}

/// A walk around a square of 30 in whose front bows out by 5 in: the square and the segment of a circle,
/// closed form (radius (c²/4 + h²) / 2h, area r² (θ − sin θ) / 2).
#[test]
fn a_side_of_a_walk_bows_out_as_an_arc() {
    let mut job = crate::job_of("", "", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::Walked;
    piece.walk = vec![Leg { length: "30".into(), angle: "90".into(), ..Leg::default() }; 4];
    piece.walk[0].bow = "5".into();
    let area = worked_out(&job).pieces[0].top.area.clone().expect("an outline").value.get::<square_inch>();
    let (chord, rise) = (30.0f64, 5.0f64);
    let radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise);
    let sweep = 2.0 * (chord / 2.0 / radius).asin();
    assert_close(area, 900.0 + radius * radius * (sweep - sweep.sin()) / 2.0, EXACT);
}
