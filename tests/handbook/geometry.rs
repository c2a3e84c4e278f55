//! Areas, perimeters and clearances.

use crate::{EXACT, assert_close, assert_within, cutout, job_of, worked_out};
use kurbo::Point;
use pourwright::job::{CutoutShape, HolePattern, Holes, Side};
use pourwright::measure::exact::inches;
use pourwright::top::{Rail, RailEnd, Shape, ShapeError};
use uom::si::area::square_inch;
use uom::si::length::inch;

const MIDDLE: Point = Point::new(1.0, 0.5);

fn assert_shape(shape: Shape, area: f64, perimeter: f64) {
    assert_close(shape.area().get::<square_inch>(), area, 1e-6);
    assert_close(shape.perimeter().get::<inch>(), perimeter, 1e-6);
}

/// G1, closed form: 18 × 14 in, radius 2 in. Computed (shapely).
#[test]
fn rounded_rectangle() {
    let shape = Shape::rectangle(MIDDLE, inches(18.0), inches(14.0), inches(2.0)).unwrap();
    assert_shape(shape, 248.56637, 60.56637);
}

/// G2, closed form: 22 × 16 in, radius half the depth. Computed (shapely).
#[test]
fn rounded_rectangle_with_half_round_ends() {
    let shape = Shape::rectangle(MIDDLE, inches(22.0), inches(16.0), inches(8.0)).unwrap();
    assert_shape(shape, 297.06193, 62.26548);
}

/// G3, elliptic integral: 17 × 13 in. Computed (scipy ellipe).
#[test]
fn ellipse() {
    assert_shape(Shape::ellipse(MIDDLE, inches(17.0), inches(13.0)).unwrap(), 173.57299, 47.33356);
}

/// Closed form: π d² ÷ 4 and π d.
#[test]
fn circle() {
    let shape = Shape::circle(MIDDLE, inches(1.375)).unwrap();
    assert_close(shape.area().get::<square_inch>(), std::f64::consts::PI * 1.375 * 1.375 / 4.0, EXACT);
    assert_close(shape.perimeter().get::<inch>(), std::f64::consts::PI * 1.375, EXACT);
}

/// A radius that does not fit is refused with the most that does; it is not made to fit.
#[test]
fn a_radius_too_large_is_refused() {
    let refused = Shape::rectangle(MIDDLE, inches(20.0), inches(13.0), inches(7.0));
    assert_eq!(refused, Err(ShapeError::RadiusTooLarge { most: inches(6.5) }));
    assert_eq!(Shape::circle(MIDDLE, inches(0.0)), Err(ShapeError::NoSize));
    assert_eq!(Shape::circle(Point::new(f64::NAN, 0.0), inches(1.0)), Err(ShapeError::NoPlace));
    let negative = Shape::rectangle(MIDDLE, inches(20.0), inches(13.0), inches(-1.0));
    assert_eq!(negative, Err(ShapeError::BadRadius));
}

#[track_caller]
fn rail(rails: &[Rail], from: RailEnd, to: RailEnd) -> f64 {
    rails.iter().find(|rail| (rail.from, rail.to) == (from, to)).expect("this rail").width.get::<inch>()
}

/// G9, the clearance to the straight front edge: ellipse 17 × 13 in centred at (30.5, 11).
/// Computed (shapely). The other three edges follow by subtraction in a 61 × 22 in rectangle.
#[test]
fn rails_of_an_ellipse() {
    let mut job = job_of("61", "22", "2");
    job.pieces[0].cutouts.push(cutout(CutoutShape::Ellipse, ["17", "13", ""], ["30 1/2", "11"]));
    let top = worked_out(&job).pieces.remove(0).top;
    let sink = RailEnd::Cutout(0);
    assert_within(rail(&top.rails, sink, RailEnd::Edge(Side::Front)), 4.5, 1e-4);
    assert_within(rail(&top.rails, sink, RailEnd::Edge(Side::Back)), 4.5, 1e-4);
    assert_within(rail(&top.rails, sink, RailEnd::Edge(Side::Left)), 22.0, 1e-4);
    assert_within(rail(&top.rails, sink, RailEnd::Edge(Side::Right)), 22.0, 1e-4);
    assert_close(top.area.unwrap().value.get::<square_inch>(), 61.0 * 22.0 - 173.57299, 1e-6);
}

/// G10 and G11: two 18 × 14 in bowls with corners at (12, 3.25) and (33.5, 3.5), and a 1 3/8 in hole
/// at (46, 18.5). Computed (shapely).
#[test]
fn rails_between_bowls_and_to_a_hole() {
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
    });
    let top = worked_out(&job).pieces.remove(0).top;
    let (first, second) = (RailEnd::Cutout(0), RailEnd::Cutout(1));
    assert_within(rail(&top.rails, first, second), 3.5, 1e-4);
    assert_within(rail(&top.rails, first, RailEnd::Edge(Side::Front)), 3.25, 1e-4);
    assert_within(rail(&top.rails, RailEnd::Hole(0, 0), second), 0.3125, 1e-4);
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
    });
    let top = worked_out(&job).pieces.remove(0).top;
    let openings: f64 = top
        .cutouts
        .iter()
        .flatten()
        .chain(top.holes.iter().flatten().flatten())
        .map(|shape| shape.area().get::<square_inch>())
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
    });
    let top = worked_out(&job).pieces.remove(0).top;
    let across: Vec<f64> = top.holes[0].as_ref().unwrap().iter().map(|hole| hole.center().x / 0.0254).collect();
    for (found, expected) in across.iter().zip([26.0, 30.0, 34.0]) {
        assert_within(*found, expected, 1e-9);
    }
}
