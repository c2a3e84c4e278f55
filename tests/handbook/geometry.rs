//! Areas, perimeters and clearances.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within, cutout, job_of, worked_out};
use pourwright::job::{CutoutField, CutoutShape, FieldPath, HolePattern, Holes};
use pourwright::plane::Opening;
use pourwright::top::{Rail, RailEnd};
use pourwright::working::{Known, Need};
use uom::si::area::square_inch;
use uom::si::length::inch;

checks![cutouts_as_typed, rails_of_an_ellipse, rails_between_bowls_and_to_a_hole];

/// Metres.
const INCH: f64 = 0.0254;

/// The cutout of that shape, width, depth and corner radius, in inches, in the middle of a 60 × 24 in top.
fn opening(shape: CutoutShape, sizes: [&str; 3]) -> Known<Opening> {
    let mut job = job_of("60", "24", "2");
    job.pieces[0].cutouts.push(cutout(shape, sizes, ["30", "12"]));
    worked_out(&job).pieces[0].top.cutouts.clone().remove(0)
}

#[track_caller]
fn assert_opening(opening: &Opening, area: f64, perimeter: f64, tolerance: f64) {
    assert_close(opening.area() / (INCH * INCH), area, tolerance);
    assert_close(opening.perimeter() / INCH, perimeter, tolerance);
    let center = opening.bounds().center();
    assert_within(center.x / INCH, 30.0, 1e-9);
    assert_within(center.y / INCH, 12.0, 1e-9);
}

/// G1 to G3: closed forms and the elliptic integral. Computed (shapely, scipy ellipe).
fn cutouts_as_typed(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "G1 to G3",
        title: "Cutouts as they are typed",
        source: "Closed forms, and the complete elliptic integral of the second kind",
        marks: &[Mark::ByHand, Mark::Computed("shapely 2.2.0; scipy 1.17.1, ellipe")],
        problem: "18 × 14 in with 2 in corners; 22 × 16 in with 8 in corners; an ellipse of 17 × 13 in",
        modelled: "estimate::estimate of a top of 60 × 24 in with that cutout in its middle",
        gap: "Seven to eight digits are told.",
        ..Check::default()
    });
    for (what, shape, sizes, area, perimeter) in [
        ("G1", CutoutShape::Rectangle, ["18", "14", "2"], 248.56637, 60.56637),
        ("G2", CutoutShape::Rectangle, ["22", "16", "8"], 297.06193, 62.26548),
        ("G3", CutoutShape::Ellipse, ["17", "13", ""], 173.57299, 47.33356),
    ] {
        let found = opening(shape, sizes).unwrap();
        table.close(format!("{what}: area, in²"), found.area() / (INCH * INCH), area, 1e-6);
        table.close(format!("{what}: perimeter, in"), found.perimeter() / INCH, perimeter, 1e-6);
        assert_opening(&found, area, perimeter, 1e-6);
    }
}

/// Closed form: π d² ÷ 4 and π d.
#[test]
fn circle() {
    let pi = std::f64::consts::PI;
    let shape = opening(CutoutShape::Circle, ["1 3/8", "", ""]).unwrap();
    assert_opening(&shape, pi * 1.375 * 1.375 / 4.0, pi * 1.375, EXACT);
}

/// Closed form: a half circle of 20 in in front of 20 × 4 in, square at the back.
#[test]
fn d() {
    let pi = std::f64::consts::PI;
    let shape = opening(CutoutShape::D, ["20", "14", ""]).unwrap();
    assert_opening(&shape, pi * 100.0 / 2.0 + 80.0, pi * 10.0 + 28.0, EXACT);
    // Round in front, straight at the back.
    assert_within(
        shape.centroid().y / INCH,
        12.0 + (80.0 * 5.0 - 50.0 * pi * (40.0 / (3.0 * pi) - 3.0)) / (50.0 * pi + 80.0),
        1e-9,
    );
}

/// A radius that does not fit is refused with the most that does; it is not made to fit.
#[test]
fn a_radius_too_large_is_refused() {
    let need = |sizes| -> Need { opening(CutoutShape::Rectangle, sizes).unwrap_err().needs()[0].clone() };
    let said = |need: &Need| need.write(job_of("61", "22", "2"));
    let refused = need(["20", "13", "7"]);
    assert_eq!(refused.place, FieldPath::Cutout(0, 0, CutoutField::CornerRadius));
    assert_eq!(said(&refused), "Cutout 1, Corner radius: 7 in is too large for this cutout; 6 1/2 in is the most.");
    assert!(opening(CutoutShape::Rectangle, ["20", "13", "6 1/2"]).is_ok());
    // The most is a mark of the tape that does fit: the sides of a D 7 1/16 in wide are 2 23/32 in long.
    let refused = opening(CutoutShape::D, ["7 1/16", "6 1/4", "2 3/4"]).unwrap_err().needs()[0].clone();
    assert_eq!(
        said(&refused),
        "Cutout 1, Corner radius: 2 3/4 in is too large for this cutout; 2 11/16 in is the most."
    );
    assert!(opening(CutoutShape::D, ["7 1/16", "6 1/4", "2 11/16"]).is_ok());
    assert_eq!(need(["20", "13", "-1"]).place, FieldPath::Cutout(0, 0, CutoutField::CornerRadius));
    assert_eq!(need(["0", "13", "1"]).place, FieldPath::Cutout(0, 0, CutoutField::Width));
    let nothing = opening(CutoutShape::Circle, ["0", "", ""]).unwrap_err().needs()[0].clone();
    assert_eq!(nothing.place, FieldPath::Cutout(0, 0, CutoutField::Width));
}

#[track_caller]
fn rail(rails: &[Rail], from: RailEnd, to: RailEnd) -> f64 {
    rails.iter().find(|rail| (rail.from, rail.to) == (from, to)).expect("this rail").width.get::<inch>()
}

/// G9, the clearance to the straight front edge: ellipse 17 × 13 in centred at (30.5, 11).
/// Computed (shapely). The other three edges follow by subtraction in a 61 × 22 in rectangle.
fn rails_of_an_ellipse(evidence: &mut Evidence) {
    let mut job = job_of("61", "22", "2");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Ellipse, ["17", "13", ""], ["30 1/2", "11"]));
    let top = worked_out(&job).pieces[0].top.clone();
    let table = evidence.check(Check {
        label: "G9",
        title: "Rails of an elliptic bowl",
        source: "Distance of an ellipse from a line; in a rectangle by subtraction",
        marks: &[Mark::Computed("shapely 2.2.0"), Mark::ByHand],
        problem: "17 × 13 in centred at (30.5, 11) in 61 × 22 in",
        modelled: "estimate::estimate of that job: rails and area of the top",
        gap: "Eight digits of the ellipse are told.",
        ..Check::default()
    });
    let sink = RailEnd::Cutout(0);
    for (side, edge, expected) in [("front", 0, 4.5), ("back", 2, 4.5), ("left", 3, 22.0), ("right", 1, 22.0)] {
        table.within(format!("to the {side}, in"), rail(&top.rails, sink, RailEnd::Edge(edge)), expected, 1e-4);
    }
    table.close("what is left, in²", top.area.unwrap().value.get::<square_inch>(), 1168.42701, 1e-6);
}

/// G10 and G11: two 18 × 14 in bowls with corners at (12, 3.25) and (33.5, 3.5), and a 1 3/8 in hole
/// at (46, 18.5). Computed (shapely).
fn rails_between_bowls_and_to_a_hole(evidence: &mut Evidence) {
    let mut job = job_of("61", "22", "2");
    let piece = &mut job.pieces[0];
    piece.cutouts.push(cutout(CutoutShape::Rectangle, ["18", "14", "2"], ["21", "10 1/4"]));
    piece.cutouts.push(cutout(CutoutShape::Rectangle, ["18", "14", "2"], ["42 1/2", "10 1/2"]));
    piece.holes.push(Holes {
        pattern: HolePattern::Single,
        diameter: "1 3/8".into(),
        spread: "".into(),
        from_left: "46".into(),
        from_front: "18 1/2".into(),
        ..Holes::default()
    });
    let top = worked_out(&job).pieces[0].top.clone();
    let (first, second) = (RailEnd::Cutout(0), RailEnd::Cutout(1));
    let table = evidence.check(Check {
        label: "G10, G11",
        title: "Rails between bowls and to a hole",
        source: "Distances of polygons",
        marks: &[Mark::Computed("shapely 2.2.0")],
        problem: "two bowls of 18 × 14 in with corners at (12, 3.25) and (33.5, 3.5), a hole of 1.375 in at (46, 18.5)",
        modelled: "estimate::estimate of that job: rails of the top",
        gap: "Four places are told.",
        ..Check::default()
    });
    table.within("between the bowls, in", rail(&top.rails, first, second), 3.5, 1e-4);
    table.within("first bowl to the front, in", rail(&top.rails, first, RailEnd::Edge(0)), 3.25, 1e-4);
    table.within("hole to the second bowl, in", rail(&top.rails, RailEnd::Hole(0, 0), second), 0.3125, 1e-4);
}

/// Conservation: the area that is left and every opening together make the whole outline.
#[test]
fn areas_add_up() {
    let mut job = job_of("61", "22", "2");
    let piece = &mut job.pieces[0];
    piece.cutouts.push(cutout(CutoutShape::Rectangle, ["18", "14", "2"], ["14", "10"]));
    piece.cutouts.push(cutout(CutoutShape::Circle, ["12", "", ""], ["42", "10"]));
    piece.holes.push(Holes {
        pattern: HolePattern::Three,
        diameter: "1 3/8".into(),
        spread: "8".into(),
        from_left: "42".into(),
        from_front: "19".into(),
        ..Holes::default()
    });
    let top = worked_out(&job).pieces[0].top.clone();
    let openings: f64 = top
        .cutouts
        .iter()
        .flatten()
        .chain(top.holes.iter().flatten().flatten())
        .map(|shape| shape.area() / (INCH * INCH))
        .sum();
    assert_close(top.area.unwrap().value.get::<square_inch>() + openings, 61.0 * 22.0, EXACT);
    assert_eq!(top.holes[0].as_ref().unwrap().len(), 3);
}

/// Three holes stand across the spread that was typed, the middle one where it was typed.
#[test]
fn three_holes_span_their_spread() {
    let mut job = job_of("61", "22", "2");
    job.pieces[0].holes.push(Holes {
        pattern: HolePattern::Three,
        diameter: "1 3/8".into(),
        spread: "8".into(),
        from_left: "30".into(),
        from_front: "19".into(),
        ..Holes::default()
    });
    let top = worked_out(&job).pieces[0].top.clone();
    let across: Vec<f64> = top.holes[0].as_ref().unwrap().iter().map(|hole| hole.centroid().x / INCH).collect();
    for (found, expected) in across.iter().zip([26.0, 30.0, 34.0]) {
        assert_within(*found, expected, 1e-9);
    }
}
