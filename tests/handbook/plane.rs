//! Outlines of lines and arcs, their offsets, openings and rails.
//!
//! G1 to G11 are in inches, by shapely 2.2.0 and closed forms as each says. A front left, B front right,
//! C back right, D back left; angles are interior.

use crate::evidence::{Check, Evidence, Mark, Table, checks};
use crate::{EXACT, assert_close, assert_within};
use kurbo::{Affine, Point, Shape, Vec2};
use pourwright::plane::{
    CornerError, Edge, EdgeTag, Ellipse, Gap, OffsetTrouble, Opening, Outline, OutlineError, RailTo, Vertex,
    between_edges, between_openings, rails, to_edges,
};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI, TAU};

checks![
    rounded_rectangles,
    ellipse,
    an_l,
    an_l_offset_edge_by_edge,
    an_l_offset_all_round,
    a_top_out_of_square,
    a_top_out_of_square_offset,
    rails_of_an_ellipse,
    rails_of_two_bowls,
    rails_of_a_hole
];

/// The library that works out areas, distances and buffers of polygons.
const POLYGONS: Mark = Mark::Computed("shapely 2.2.0");

const TOP: &str =
    "an out-of-square top: front 61 in, left and right 22 in, 92° at the front left, 87° at the front right";

/// One inch in metres, exact (U1, NIST SP 811 B.8).
const INCH: f64 = 0.0254;
/// 0.0001 in, in inches.
const TEN_THOUSANDTH: f64 = 1e-4;

fn at(x: f64, y: f64) -> Point {
    Point::new(x * INCH, y * INCH)
}

fn inches(metres: f64) -> f64 {
    metres / INCH
}

fn square_inches(square_metres: f64) -> f64 {
    square_metres / (INCH * INCH)
}

fn rectangle(width: f64, depth: f64) -> Outline {
    Outline::rectangle(width * INCH, depth * INCH).unwrap()
}

#[track_caller]
fn assert_point(found: Point, expected: (f64, f64), tolerance: f64) {
    assert_within(inches(found.x), expected.0, tolerance);
    assert_within(inches(found.y), expected.1, tolerance);
}

/// The outline as it is drawn has the area and length that it says it has.
#[track_caller]
fn assert_drawn(outline: &Outline) {
    assert_close(outline.path().area(), outline.area(), 1e-5);
    assert_close(outline.path().perimeter(1e-9), outline.perimeter(), 1e-5);
}

/// The out-of-square top: front 61, left and right 22, 92° at A and 87° at B.
fn out_of_square() -> Outline {
    let (a, b) = (92.0_f64.to_radians(), 87.0_f64.to_radians());
    let corners =
        [at(0.0, 0.0), at(61.0, 0.0), at(61.0 - 22.0 * b.cos(), 22.0 * b.sin()), at(22.0 * a.cos(), 22.0 * a.sin())];
    Outline::polygon(&corners).unwrap()
}

fn l_shape() -> Outline {
    Outline::l_shape(84.0 * INCH, 60.0 * INCH, 25.5 * INCH, 25.5 * INCH).unwrap()
}

fn bowl(left: f64, front: f64) -> Opening {
    let center = at(left + 9.0, front + 7.0);
    Opening::rounded_rectangle(center, 18.0 * INCH, 14.0 * INCH, 2.0 * INCH).unwrap()
}

/// G1 and G2, closed form and shapely 2.2.0.
fn rounded_rectangles(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "G1, G2",
        title: "Rounded rectangles",
        source: "Closed form: w d − (4 − π) r² and 2 (w + d) − (8 − 2π) r",
        marks: &[Mark::ByHand, POLYGONS],
        problem: "18 × 14 in with 2 in corners; 22 × 16 in with half-round ends",
        modelled: "plane::Opening::rounded_rectangle",
        gap: "Seven to eight digits are told.",
        ..Check::default()
    });
    for (what, sizes, area, perimeter) in
        [("G1", [18.0, 14.0, 2.0], 248.56637, 60.56637), ("G2", [22.0, 16.0, 8.0], 297.06193, 62.26548)]
    {
        let [width, depth, radius] = sizes.map(|size| size * INCH);
        let shape = Opening::rounded_rectangle(at(30.0, 11.0), width, depth, radius).unwrap();
        table.close(format!("{what}: area, in²"), square_inches(shape.area()), area, 1e-6);
        table.close(format!("{what}: perimeter, in"), inches(shape.perimeter()), perimeter, 1e-6);
        assert_point(shape.centroid(), (30.0, 11.0), 1e-9);
    }
}

/// G3, elliptic integral (scipy 1.17.1 ellipe).
fn ellipse(evidence: &mut Evidence) {
    let shape = Opening::ellipse(at(30.0, 11.0), 17.0 * INCH, 13.0 * INCH, 0.3).unwrap();
    let table = evidence.check(Check {
        label: "G3",
        title: "Ellipse",
        source: "π a b, and the complete elliptic integral of the second kind",
        marks: &[Mark::Computed("scipy 1.17.1, ellipe"), Mark::ByHand],
        problem: "17 × 13 in; the tightest curve is at the ends of the long diameter, b² ÷ a",
        modelled: "plane::Opening::ellipse, turned by 0.3",
        gap: "Seven to eight digits are told.",
        ..Check::default()
    });
    table.close("area, in²", square_inches(shape.area()), 173.57299, 1e-6);
    table.close("perimeter, in", inches(shape.perimeter()), 47.33356, 1e-6);
    table.close("least radius, in", inches(shape.least_inside_radius().unwrap().0), 4.970_588_235, EXACT);
    // A circle is an ellipse too; its perimeter is π d.
    assert_close(Ellipse::new(at(0.0, 0.0), 1.0, 1.0, 0.0).unwrap().perimeter(), PI, EXACT);
}

/// G4, shapely 2.2.0.
fn an_l(evidence: &mut Evidence) {
    let outline = l_shape();
    let table = evidence.check(Check {
        label: "G4",
        title: "An L",
        source: "Polygon (0, 0) (84, 0) (84, 25.5) (25.5, 25.5) (25.5, 60) (0, 60) in",
        marks: &[POLYGONS],
        problem: "area, perimeter, centroid",
        modelled: "plane::Outline::l_shape",
        gap: "Seven digits of the centroid are told.",
        ..Check::default()
    });
    table.close("area, in²", square_inches(outline.area()), 3021.75, 1e-6);
    table.close("perimeter, in", inches(outline.perimeter()), 288.0, 1e-6);
    table.within("centroid from the left, in", inches(outline.centroid().x), 33.48418, 1e-5);
    table.within("centroid from the front, in", inches(outline.centroid().y), 21.48418, 1e-5);
    assert_close(outline.interior_angle(3), 1.5 * PI, EXACT);
    assert_eq!(outline.least_inside_radius(), Some((0.0, at(25.5, 25.5))));
}

/// G5: the corner by line intersection, the area by shapely 2.2.0.
fn an_l_offset_edge_by_edge(evidence: &mut Evidence) {
    let distances = [1.5, 0.0, -0.125, -0.125, 1.5, 0.0].map(|distance| distance * INCH);
    let offset = l_shape().offset(&distances).unwrap();
    let table = evidence.check(Check {
        label: "G5",
        title: "An L, each edge moved by its own distance",
        source: "The lines moved and cut with each other",
        marks: &[Mark::ByHand, POLYGONS],
        problem: "G4 with its edges moved out by 1.5, 0, −0.125, −0.125, 1.5, 0 in",
        modelled: "plane::Outline::offset",
        gap: "Nine digits are told.",
        ..Check::default()
    });
    table.close("area, in²", square_inches(offset.area()), 3174.17188, 1e-6);
    table.close("perimeter, in", inches(offset.perimeter()), 294.0, 1e-6);
    let corner = offset.edges()[3].start();
    table.within("inside corner from the left, in", inches(corner.x), 25.375, 1e-9);
    table.within("inside corner from the front, in", inches(corner.y), 25.375, 1e-9);
}

/// G6: mitred buffer by shapely 2.2.0.
fn an_l_offset_all_round(evidence: &mut Evidence) {
    let offset = l_shape().offset_all(INCH).unwrap();
    let table = evidence.check(Check {
        label: "G6",
        title: "An L, moved out all round",
        source: "Mitred buffer",
        marks: &[POLYGONS],
        problem: "G4 and 1 in all round",
        modelled: "plane::Outline::offset_all",
        ..Check::default()
    });
    table.close("area, in²", square_inches(offset.area()), 3313.75, 1e-6);
    table.close("perimeter, in", inches(offset.perimeter()), 296.0, 1e-6);
}

/// G7: trigonometry and shapely 2.2.0.
fn a_top_out_of_square(evidence: &mut Evidence) {
    let outline = out_of_square();
    let corner = |vertex: usize| outline.edges()[vertex].start();
    let table = evidence.check(Check {
        label: "G7",
        title: "A top out of square",
        source: "Trigonometry",
        marks: &[Mark::ByHand, POLYGONS],
        problem: TOP,
        modelled: "plane::Outline::polygon of the corners by sine and cosine",
        gap: "Seven to nine digits are told.",
        ..Check::default()
    });
    table.close("area, in²", square_inches(outline.area()), 1336.44818, 1e-6);
    for (what, vertex, x, y) in [("back right", 2, 59.84861, 21.96985), ("back left", 3, -0.76779, 21.98660)] {
        table.within(format!("{what} from the left, in"), inches(corner(vertex).x), x, 1e-5);
        table.within(format!("{what} from the front, in"), inches(corner(vertex).y), y, 1e-5);
    }
    table.close("back, in", inches(outline.edges()[2].length()), 60.61640, 1e-6);
    table.close("diagonal from front left, in", inches((corner(2) - corner(0)).hypot()), 63.75367, 1e-6);
    table.close("diagonal from front right, in", inches((corner(3) - corner(1)).hypot()), 65.56425, 1e-6);
    assert_close(outline.interior_angle(0), 92.0_f64.to_radians(), EXACT);
    assert_close(outline.interior_angle(1), 87.0_f64.to_radians(), EXACT);
}

/// G8: line intersection, area by shapely 2.2.0.
fn a_top_out_of_square_offset(evidence: &mut Evidence) {
    let offset = out_of_square().offset(&[1.25, 0.0, -0.125, -0.125].map(|distance| distance * INCH)).unwrap();
    let front = offset.edges()[0];
    let table = evidence.check(Check {
        label: "G8",
        title: "The same, moved edge by edge",
        source: "The lines moved and cut with each other",
        marks: &[Mark::ByHand, POLYGONS],
        problem: "G7, front 1.25 in out, right as it is, back and left 0.125 in in",
        modelled: "plane::Outline::offset",
        gap: "Seven to nine digits are told.",
        ..Check::default()
    });
    table.close("area, in²", square_inches(offset.area()), 1402.24395, 1e-5);
    table.within("front left, in", inches(front.start().x), 0.16873, 1e-5);
    table.within("front right, in", inches(front.end().x), 61.06551, 1e-5);
    table.within("front edge, in", inches(front.end().y), -1.25, 1e-5);
    assert_point(front.start(), (0.16873, -1.25), 1e-5);
}

/// The gaps to the edges in their order: front, right, back, left.
#[track_caller]
fn gaps(table: &mut Table, gaps: &[Gap], expected: &[f64]) {
    assert_eq!(gaps.len(), expected.len());
    for ((gap, expected), side) in gaps.iter().zip(expected).zip(["front", "right", "back", "left"]) {
        table.within(format!("to the {side}, in"), inches(gap.distance), *expected, TEN_THOUSANDTH);
        assert_within(inches((gap.at.1 - gap.at.0).hypot()), expected.abs(), TEN_THOUSANDTH);
    }
}

/// G9, shapely 2.2.0: an ellipse in the out-of-square top.
fn rails_of_an_ellipse(evidence: &mut Evidence) {
    let top = out_of_square();
    let ellipse = Opening::ellipse(at(30.5, 11.0), 17.0 * INCH, 13.0 * INCH, 0.0).unwrap();
    let table = evidence.check(Check {
        label: "G9",
        title: "Rails of an ellipse",
        source: "Distance of an ellipse from a line",
        marks: &[POLYGONS],
        problem: "G3 centred at (30.5, 11) in G7",
        modelled: "plane::to_edges",
        gap: "Four places are told; the library flattens the ellipse.",
        ..Check::default()
    });
    table.close("what is left, in²", square_inches(top.area() - ellipse.area()), 1162.8752, 1e-6);
    gaps(table, &to_edges(&ellipse, &top), &[4.5, 21.3873, 4.4780, 22.3675]);
}

/// G10, shapely 2.2.0: two bowls in the out-of-square top.
fn rails_of_two_bowls(evidence: &mut Evidence) {
    let (one, other) = (bowl(12.0, 3.25), bowl(33.5, 3.5));
    let table = evidence.check(Check {
        label: "G10",
        title: "Rails of two bowls",
        source: "Distances of polygons",
        marks: &[POLYGONS],
        problem: "two bowls of G1, their corners at (12, 3.25) and (33.5, 3.5) in G7",
        modelled: "plane::between_openings and to_edges",
        gap: "Four places are told.",
        ..Check::default()
    });
    table.within("between them, in", inches(between_openings(&one, &other).distance), 3.5, TEN_THOUSANDTH);
    gaps(table, &to_edges(&one, &out_of_square()), &[3.25, 30.1567, 4.7287, 12.1747]);
}

/// G11, shapely 2.2.0: a hole behind the second bowl.
fn rails_of_a_hole(evidence: &mut Evidence) {
    let hole = Opening::circle(at(46.0, 18.5), 1.375 * INCH).unwrap();
    let found = rails(&out_of_square(), &[bowl(33.5, 3.5), hole]);
    let width =
        |opening, to| inches(found.iter().find(|rail| (rail.opening, rail.to) == (opening, to)).unwrap().gap.distance);
    let table = evidence.check(Check {
        label: "G11",
        title: "A hole behind a bowl",
        source: "Distances of polygons",
        marks: &[POLYGONS],
        problem: "a hole of 1.375 in at (46, 18.5) behind the second bowl of G10",
        modelled: "plane::rails",
        gap: "Four places are told; the library flattens the circle.",
        ..Check::default()
    });
    table.within("to the bowl, in", width(0, RailTo::Opening(1)), 0.3125, TEN_THOUSANDTH);
    table.within("to the back, in", width(1, RailTo::Edge(2)), 2.7862, TEN_THOUSANDTH);
    assert_eq!(found.len(), 9);
    assert!(found.is_sorted_by(|one, other| one.gap.distance <= other.gap.distance));
}

/// Closed form: a half circle on a chord of 2 has area π ÷ 2, and its centre 4 ÷ 3π off the chord; a
/// shallow bow agrees with the parabola that it all but is.
#[test]
fn bows() {
    let half = Outline::with_arcs(&[(Point::new(-1.0, 0.0), 0.0), (Point::new(1.0, 0.0), 1.0)]).unwrap();
    assert_close(half.area(), FRAC_PI_2, EXACT);
    assert_close(half.perimeter(), PI + 2.0, EXACT);
    assert_within(half.centroid().x, 0.0, 1e-12);
    assert_close(half.centroid().y, 4.0 / (3.0 * PI), EXACT);

    let (width, rise) = (2.0, 0.001);
    let bowed = Outline::rectangle(width, 0.5).unwrap().bowed(0, rise).unwrap();
    assert_close(bowed.area() - width * 0.5, width * rise * 2.0 / 3.0, 1e-6);
    assert_close(bowed.edges()[0].radius().unwrap(), (width * width / 4.0 + rise * rise) / (2.0 * rise), EXACT);
    assert_within(bowed.bounds().y0, -rise, 1e-12);
    assert_drawn(&bowed);
    // Hollow instead of proud.
    let hollow = Outline::rectangle(width, 0.5).unwrap().bowed(0, -rise).unwrap();
    assert_close(width * 0.5 - hollow.area(), width * rise * 2.0 / 3.0, 1e-6);
    assert!(hollow.edges()[0].is_inward());
    assert_eq!(hollow.least_inside_radius().map(|(radius, _)| radius), hollow.edges()[0].radius());
}

/// Closed form: a rounded right angle takes (1 − π ÷ 4) r² off, or fills it in.
#[test]
fn rounded_corners() {
    let radius = 3.0 * INCH;
    let corner = (1.0 - FRAC_PI_4) * radius * radius;
    let plain = l_shape();
    let outside = plain.rounded(1, radius).unwrap();
    assert_close(plain.area() - outside.area(), corner, EXACT);
    assert_eq!(outside.edges()[1].tag(), EdgeTag::Corner(0, 1));
    assert_eq!(outside.edges()[2].tag(), EdgeTag::Side(1));
    let inside = plain.rounded(3, radius).unwrap();
    assert_close(inside.area() - plain.area(), corner, EXACT);
    let (least, place) = inside.least_inside_radius().unwrap();
    assert_close(least, radius, EXACT);
    assert_within((place - at(25.5, 25.5)).hypot(), (2.0_f64.sqrt() - 1.0) * radius, 1e-12);
    // The first corner: the first edge stays the first.
    let first = plain.rounded(0, radius).unwrap();
    assert_eq!(first.edges()[0].tag(), EdgeTag::Side(0));
    assert_eq!(first.edges()[6].tag(), EdgeTag::Corner(5, 0));
    for outline in [outside, inside, first] {
        assert_drawn(&outline);
    }
    // Trigonometry: at 60° the arc begins r ÷ tan 30° from the corner.
    let triangle = Outline::polygon(&[at(0.0, 0.0), at(20.0, 0.0), at(10.0, 10.0 * 3.0_f64.sqrt())]).unwrap();
    let rounded = triangle.rounded(1, radius).unwrap();
    assert_close(rounded.edges()[0].length(), 20.0 * INCH - radius * 3.0_f64.sqrt(), EXACT);
    // The most that fits is said: half the front and the whole of the edge, from an inscribed circle.
    match rectangle(20.0, 6.0).rounded(1, 7.0 * INCH) {
        Err(CornerError::TooLarge { edge, most }) => {
            assert_eq!(edge, 1);
            assert_within(inches(most), 6.0, 1e-3);
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(rectangle(20.0, 6.0).rounded(1, 0.0), Err(CornerError::NoSize));
    assert_eq!(rectangle(20.0, 6.0).rounded(4, 1.0), Err(CornerError::NoEdge));
}

/// Closed form: a corner between an arc and a line, rounded, is smooth at both ends.
#[test]
fn a_rounded_corner_of_a_bow() {
    let bowed = rectangle(60.0, 22.0).bowed(0, 2.0 * INCH).unwrap();
    let rounded = bowed.rounded(1, 1.5 * INCH).unwrap();
    assert_eq!(rounded.edges()[1].tag(), EdgeTag::Corner(0, 1));
    for vertex in [1, 2] {
        assert_within(rounded.interior_angle(vertex), PI, 1e-9);
    }
    assert_close(inches(rounded.edges()[1].radius().unwrap()), 1.5, EXACT);
    assert_close(rounded.edges()[0].radius().unwrap(), bowed.edges()[0].radius().unwrap(), EXACT);
    assert_drawn(&rounded);
}

/// Closed form: a clip takes half the product of its legs.
#[test]
fn clipped_corners() {
    let plain = rectangle(60.0, 22.0);
    let clipped = plain.clipped(2, 4.0 * INCH, 3.0 * INCH).unwrap();
    assert_close(square_inches(plain.area() - clipped.area()), 6.0, EXACT);
    assert_eq!(clipped.edges()[2].tag(), EdgeTag::Clip(1, 2));
    assert_close(inches(clipped.edges()[2].length()), 5.0, EXACT);
    let square = plain.clipped(1, 5.0 * INCH, 5.0 * INCH).unwrap();
    assert_close(square.interior_angle(1), 0.75 * PI, EXACT);
    let too_large = plain.clipped(1, 5.0 * INCH, 23.0 * INCH);
    let Err(CornerError::TooLarge { edge: 1, most }) = too_large else { panic!("{too_large:?}") };
    assert_close(inches(most), 22.0, EXACT);
}

/// Closed form: a half-round end; two of them; and a square that becomes a circle.
#[test]
fn round_ends() {
    let one = rectangle(60.0, 22.0).half_round(1).unwrap();
    assert_close(square_inches(one.area()), 49.0 * 22.0 + FRAC_PI_2 * 121.0, EXACT);
    assert_eq!(one.edges()[1].tag(), EdgeTag::Side(1));
    assert_within(inches(one.bounds().x1), 60.0, 1e-9);
    let both = one.half_round(3).unwrap();
    assert_close(inches(both.perimeter()), 2.0 * 38.0 + TAU * 11.0, EXACT);
    let circle = rectangle(22.0, 22.0).half_round(1).unwrap().half_round(3).unwrap();
    assert_close(square_inches(circle.area()), PI * 121.0, EXACT);
    assert_eq!(circle.edges().len(), 2);
    let not_square = out_of_square().half_round(1);
    assert!(matches!(not_square, Err(CornerError::NotSquare { edge: 1 })), "{not_square:?}");
}

/// Closed forms: U, circle, shallow and deep D.
#[test]
fn other_shapes() {
    let u = Outline::u_shape(100.0, 60.0, 50.0, 25.0, 20.0, 24.0).unwrap();
    assert_close(u.area(), 100.0 * 24.0 + 25.0 * 36.0 + 20.0 * 26.0, EXACT);
    assert_eq!(u.edges().len(), 8);
    let circle = Outline::circle(Point::new(1.0, 2.0), 0.3).unwrap();
    assert_close(circle.area(), PI * 0.09, EXACT);
    assert!(circle.contains(Point::new(1.0, 2.0)) && circle.contains(Point::new(1.29, 2.0)));
    assert!(!circle.contains(Point::new(1.31, 2.0)));
    let deep = Outline::d_shape(0.5, 0.4, 0.0).unwrap();
    assert_close(deep.area(), 0.5 * 0.15 + FRAC_PI_2 * 0.0625, EXACT);
    let rounded = Outline::d_shape(0.5, 0.4, 0.05).unwrap();
    assert_close(deep.area() - rounded.area(), 2.0 * (1.0 - FRAC_PI_4) * 0.0025, EXACT);
    assert_eq!(rounded.least_inside_radius(), None);
    // An arc over a chord of 0.6 that rises 0.1: r = 0.5, sweep 2 asin 0.6.
    let shallow = Opening::d_shape(Point::new(1.0, 1.0), 0.6, 0.1, 0.0).unwrap();
    let sweep = 2.0 * 0.6_f64.asin();
    assert_close(shallow.area(), 0.125 * (sweep - sweep.sin()), EXACT);
    assert_close(shallow.perimeter(), 0.6 + 0.5 * sweep, EXACT);
    assert_eq!(shallow.least_inside_radius().map(|(radius, _)| radius), Some(0.0));
    let rounded = Opening::d_shape(Point::new(1.0, 1.0), 0.6, 0.1, 0.02).unwrap();
    assert_close(rounded.least_inside_radius().unwrap().0, 0.02, EXACT);
    assert!(rounded.area() < shallow.area());
}

/// Each thing that keeps corners from being an outline is told with its edge.
#[test]
fn outlines_that_are_none() {
    let polygon = |corners: &[(f64, f64)]| {
        Outline::polygon(&corners.iter().map(|corner| Point::from(*corner)).collect::<Vec<_>>()).unwrap_err()
    };
    assert_eq!(polygon(&[(0.0, 0.0), (1.0, 0.0)]), OutlineError::TooFew);
    assert_eq!(polygon(&[(0.0, 0.0), (0.0, 1.0), (1.0, 0.0)]), OutlineError::Clockwise);
    assert_eq!(polygon(&[(0.0, 0.0), (1.0, 0.0), (1.0, 0.0), (0.0, 1.0)]), OutlineError::TooShort { edge: 1 });
    assert_eq!(polygon(&[(0.0, 0.0), (1.0, f64::NAN), (0.0, 1.0)]), OutlineError::NotFinite { edge: 0 });
    let bow_tie = polygon(&[(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)]);
    assert_eq!(bow_tie, OutlineError::Crosses { edge: 1, other: 3 });
    let spike = polygon(&[(0.0, 0.0), (2.0, 0.0), (1.0, 0.0), (1.0, 1.0)]);
    assert_eq!(spike, OutlineError::TooSharp { edge: 0, next: 1 });
    // A bow that reaches the back.
    let through = Outline::rectangle(1.0, 0.2).unwrap().bowed(0, -0.25);
    assert_eq!(through, Err(CornerError::Outline(OutlineError::Crosses { edge: 0, other: 2 })));
    assert_eq!(Outline::rectangle(-1.0, -1.0), Err(OutlineError::NoSize));
    assert_eq!(Outline::l_shape(2.0, 1.0, 0.5, 1.5), Err(OutlineError::TooWide { edge: 1, most: 1.0 }));
}

/// Rounded corners stay concentric while their sides move alike (closed form), and blend them when not.
#[test]
fn rounded_corners_offset() {
    let outline = rectangle(60.0, 22.0).rounded(1, 2.0 * INCH).unwrap();
    let larger = outline.offset_all(INCH).unwrap();
    let (old, new) = (outline.edges()[1], larger.edges()[1]);
    assert_within((old.center().unwrap() - new.center().unwrap()).hypot(), 0.0, 1e-12);
    assert_close(inches(new.radius().unwrap()), 3.0, EXACT);
    // Only the front has a liner: the corner is still round, by half of it.
    let lined = outline.offset_sides(&|side| if side == 0 { INCH } else { 0.0 }).unwrap();
    assert_close(inches(lined.edges()[1].radius().unwrap()), 2.5, EXACT);
    assert_point(lined.edges()[1].start(), (57.5, -1.0), 1e-9);
    assert_point(lined.edges()[1].end(), (60.0, 1.5), 1e-9);
    assert_eq!(lined.edges().len(), 5);
    // A clip keeps its angle.
    let clipped = rectangle(60.0, 22.0).clipped(1, 3.0 * INCH, 3.0 * INCH).unwrap();
    let moved = clipped.offset_sides(&|_| INCH).unwrap();
    assert_close(moved.interior_angle(1), 0.75 * PI, EXACT);
    // tan(22.5°) of the distance is added at both ends of the clip.
    let expected = 3.0 * 2.0_f64.sqrt() + 2.0 * (PI / 8.0).tan();
    assert_close(inches(moved.edges()[1].length()), expected, EXACT);
}

/// A liner that ends where edges run on level leaves a step of its thickness.
#[test]
fn steps() {
    let level = Outline::polygon(&[at(0.0, 0.0), at(30.0, 0.0), at(60.0, 0.0), at(60.0, 22.0), at(0.0, 22.0)]).unwrap();
    let lined = level.offset_sides(&|side| if side == 0 { 0.75 * INCH } else { 0.0 }).unwrap();
    assert_eq!(lined.edges().len(), 6);
    let step = lined.edges()[1];
    assert_eq!(step.tag(), EdgeTag::Step(0, 1));
    assert_point(step.start(), (30.0, -0.75), 1e-9);
    assert_point(step.end(), (30.0, 0.0), 1e-9);
    assert_close(square_inches(lined.area()), 60.0 * 22.0 + 30.0 * 0.75, EXACT);
    // And back: the step is gone.
    let back = lined.offset_sides(&|side| if side == 0 { -0.75 * INCH } else { 0.0 }).unwrap();
    assert_eq!(back.edges().len(), 5);
    assert_within(inches((back.edges()[1].start() - level.edges()[1].start()).hypot()), 0.0, 1e-9);
    // At a half-round end likewise.
    let round = rectangle(60.0, 22.0).half_round(1).unwrap();
    let lined = round.offset_sides(&|side| if side == 1 { 0.75 * INCH } else { 0.0 }).unwrap();
    assert_eq!(lined.edges().len(), 6);
    assert_close(square_inches(lined.area() - round.area()), FRAC_PI_2 * (11.75 * 11.75 - 121.0), EXACT);
}

/// An offset that swallows an edge is refused, with the largest that works: half the depth, a radius,
/// the width of a gap, each from arithmetic.
#[test]
fn offsets_that_swallow() {
    let hundredth_of_a_millimetre = 1e-5;
    let refused = rectangle(60.0, 22.0).offset_all(-12.0 * INCH).unwrap_err();
    assert_eq!(refused.trouble, OffsetTrouble::Swallowed);
    assert!(matches!(refused.tag, EdgeTag::Side(1 | 3)));
    assert_within(refused.largest, -11.0 * INCH, hundredth_of_a_millimetre);

    let refused = rectangle(60.0, 22.0).offset(&[-23.0 * INCH, 0.0, 0.0, 0.0]).unwrap_err();
    assert_eq!((refused.tag, refused.moved), (EdgeTag::Side(1), 0));
    assert_within(refused.largest, -22.0 * INCH, hundredth_of_a_millimetre);

    let rounded = rectangle(60.0, 22.0).rounded(1, 2.0 * INCH).unwrap();
    let refused = rounded.offset_all(-3.0 * INCH).unwrap_err();
    assert_eq!((refused.tag, refused.trouble), (EdgeTag::Corner(0, 1), OffsetTrouble::Swallowed));
    assert_within(refused.largest, -2.0 * INCH, hundredth_of_a_millimetre);

    // Inside, outward is the way that closes.
    let inside = l_shape().rounded(3, INCH).unwrap();
    let refused = inside.offset_all(1.5 * INCH).unwrap_err();
    assert_eq!((refused.tag, refused.trouble), (EdgeTag::Corner(2, 3), OffsetTrouble::Swallowed));
    assert_within(refused.largest, INCH, hundredth_of_a_millimetre);

    // The legs of a U meet over the gap of 55 when each moves 27.5 outward.
    let u = Outline::u_shape(100.0 * INCH, 60.0 * INCH, 50.0 * INCH, 25.0 * INCH, 20.0 * INCH, 24.0 * INCH).unwrap();
    let mut distances = [0.0; 8];
    distances[3] = 28.0 * INCH;
    distances[5] = 28.0 * INCH;
    let refused = u.offset(&distances).unwrap_err();
    assert_within(refused.largest, 27.5 * INCH, hundredth_of_a_millimetre);
    assert!(u.offset(&distances.map(|distance| distance * refused.share)).is_ok());

    // A waist: two bows that come closer until they cross.
    let waist = rectangle(60.0, 22.0).bowed(0, -8.0 * INCH).unwrap().bowed(2, -8.0 * INCH).unwrap();
    let refused = waist.offset_all(-4.0 * INCH).unwrap_err();
    assert_eq!((refused.edge, refused.trouble), (0, OffsetTrouble::Crosses { other: 2 }));
    assert_within(refused.largest, -3.0 * INCH, hundredth_of_a_millimetre);

    assert_eq!(u.offset(&[0.0]).unwrap_err().trouble, OffsetTrouble::Miscounted);
    assert_eq!(u.offset_all(f64::NAN).unwrap_err().trouble, OffsetTrouble::NotFinite);
    let ellipse = Ellipse::new(at(0.0, 0.0), 17.0 * INCH, 13.0 * INCH, 0.0).unwrap();
    let refused = ellipse.offset(-6.0 * INCH).unwrap_err();
    assert_within(refused.largest, -6.5 * 6.5 / 8.5 * INCH, hundredth_of_a_millimetre);
}

/// Steiner's formulas for a curve beside another, against the curve as it is drawn; and a distance to it.
#[test]
fn a_reveal_beside_an_ellipse() {
    let sink = Opening::ellipse(at(30.5, 11.0), 17.0 * INCH, 13.0 * INCH, 0.4).unwrap();
    for reveal in [0.25 * INCH, -0.125 * INCH] {
        let cutout = sink.offset(reveal).unwrap();
        assert_close(cutout.path().area().abs(), cutout.area(), 1e-7);
        assert_close(cutout.path().perimeter(1e-9), cutout.perimeter(), 1e-7);
        assert_close(cutout.area(), sink.area() + sink.perimeter() * reveal + PI * reveal * reveal, EXACT);
        let before = to_edges(&sink, &out_of_square());
        for (gap, before) in to_edges(&cutout, &out_of_square()).iter().zip(before) {
            assert_within(gap.distance, before.distance - reveal, 1e-9);
        }
    }
    // Of lines and arcs it is exact: 18 × 14 with 2 in corners and 1/4 in all round.
    let cutout = bowl(12.0, 3.25).offset(0.25 * INCH).unwrap();
    let expected = Opening::rounded_rectangle(at(21.0, 10.25), 18.5 * INCH, 14.5 * INCH, 2.25 * INCH).unwrap();
    assert_close(cutout.area(), expected.area(), EXACT);
    assert_close(cutout.perimeter(), expected.perimeter(), EXACT);
}

/// Distances of lines and arcs, from arithmetic.
#[test]
fn distances_between_edges() {
    let line = |from: (f64, f64), to: (f64, f64)| Edge::new(from.into(), to.into(), 0.0, EdgeTag::Side(0));
    let arc = |from: (f64, f64), to: (f64, f64), bulge| Edge::new(from.into(), to.into(), bulge, EdgeTag::Side(0));
    // The right half of the unit circle, and its left half.
    let (right, left) = (arc((0.0, -1.0), (0.0, 1.0), 1.0), arc((0.0, 1.0), (0.0, -1.0), 1.0));
    let cases = [
        (line((0.0, 0.0), (4.0, 0.0)), line((1.0, 3.0), (9.0, 3.0)), 3.0),
        (line((0.0, 0.0), (4.0, 0.0)), line((7.0, 4.0), (9.0, 9.0)), 5.0),
        (line((0.0, 0.0), (4.0, 0.0)), line((2.0, -1.0), (2.0, 1.0)), 0.0),
        (right, line((3.0, -1.0), (3.0, 5.0)), 2.0),
        (left, line((3.0, -2.0), (3.0, 2.0)), 3.0),
        (right, line((0.5, 0.0), (0.6, 0.0)), 0.4),
        (right, arc((3.0, 1.0), (3.0, -1.0), 1.0), 1.0),
        (right, arc((3.0, -1.0), (3.0, 1.0), 1.0), f64::hypot(3.0, 1.0) - 1.0),
        (left, arc((0.0, 2.0), (0.0, -2.0), 1.0), 1.0),
        (right, line((0.0, 0.0), (5.0, 0.0)), 0.0),
    ];
    for (one, other, expected) in cases {
        let (there, back) = (between_edges(&one, &other), between_edges(&other, &one));
        assert_within(there.distance, expected, 1e-12);
        assert_within(back.distance, expected, 1e-12);
        assert_within((there.at.1 - there.at.0).hypot(), expected, 1e-12);
    }
}

/// What overlaps, touches or lies outside: a circle's place is known in closed form.
#[test]
fn overlaps() {
    let top = Outline::rectangle(2.0, 1.0).unwrap();
    let hole = |x: f64, y: f64| to_edges(&Opening::circle(Point::new(x, y), 0.2).unwrap(), &top);
    // Past the front by 30 mm, and clear of the others.
    let front = hole(1.0, 0.07);
    assert_within(front[0].distance, -0.03, 1e-12);
    for (gap, expected) in front[1..].iter().zip([0.9, 0.83, 0.9]) {
        assert_within(gap.distance, expected, 1e-12);
    }
    // Wholly outside, its far side is 0.3 beyond the right edge.
    assert_within(hole(2.2, 0.5)[1].distance, -0.3, 1e-12);
    // It touches the back.
    assert_within(hole(1.0, 0.9)[2].distance, 0.0, 1e-12);
    // Over a corner, it runs past both edges.
    let corner = hole(0.0, 0.0);
    assert!(corner[0].distance < -0.09 && corner[3].distance < -0.09 && corner[1].distance > 1.8);
    // The inside corner of an L pokes into a hole: (25.5, 25.5) is 1 in inside of 2.
    let poked = Opening::circle(at(25.5 - 0.6, 25.5 - 0.8), 4.0 * INCH).unwrap();
    let gaps = to_edges(&poked, &l_shape());
    assert!(gaps[2].distance < 0.0 && gaps[3].distance < 0.0 && gaps[0].distance > 0.0);
    // An opening larger than the top runs past every edge.
    let large = Opening::circle(Point::new(1.0, 0.5), 9.0).unwrap();
    assert!(to_edges(&large, &top).iter().all(|gap| gap.distance < 0.0));

    let circle = |x: f64, diameter: f64| Opening::circle(Point::new(x, 0.5), diameter).unwrap();
    assert_within(between_openings(&circle(0.5, 0.4), &circle(0.8, 0.3)).distance, -0.05, 1e-12);
    assert_within(between_openings(&circle(0.5, 0.4), &circle(0.85, 0.3)).distance, 0.0, 1e-12);
    assert!(between_openings(&circle(0.5, 0.4), &circle(0.5, 0.1)).distance < 0.0);
    assert!(between_openings(&circle(0.5, 0.4), &circle(0.5, 0.4)).distance < 0.0);
    let ellipse = Opening::ellipse(Point::new(0.5, 0.5), 0.4, 0.3, 0.0).unwrap();
    assert_within(between_openings(&ellipse, &circle(0.8, 0.3)).distance, -0.05, 1e-9);
    assert_within(between_openings(&circle(1.0, 0.4), &ellipse).distance, 0.1, 1e-9);
    assert!(between_openings(&circle(0.5, 0.1), &ellipse).distance < 0.0);
    assert!(between_openings(&ellipse, &ellipse).distance < 0.0);
    let bowl = Opening::rounded_rectangle(Point::new(0.5, 0.5), 0.4, 0.3, 0.05).unwrap();
    assert!(between_openings(&ellipse, &bowl).distance < 0.0 && between_openings(&bowl, &ellipse).distance < 0.0);
}

/// A name made by the maker survives whatever is done to the outline.
#[test]
fn edges_keep_their_names() {
    let vertex = |x, y, number| Vertex { at: at(x, y), bulge: 0.0, tag: EdgeTag::Side(number) };
    let plain =
        Outline::new(&[vertex(0.0, 0.0, 40), vertex(60.0, 0.0, 7), vertex(60.0, 22.0, 9), vertex(0.0, 22.0, 2)])
            .unwrap();
    let made = plain.rounded(2, INCH).unwrap().clipped(1, INCH, INCH).unwrap().bowed(0, 0.5 * INCH).unwrap();
    let changed = made.offset_sides(&|_| 0.5 * INCH).unwrap().mirrored(0.0).rotated(0.3, Point::ORIGIN);
    let changed = changed.translated(Vec2::new(3.0, 4.0));
    assert_eq!(changed.edges()[0].tag(), EdgeTag::Side(40));
    for tag in [EdgeTag::Side(7), EdgeTag::Side(9), EdgeTag::Side(2), EdgeTag::Clip(40, 7), EdgeTag::Corner(7, 9)] {
        assert!(changed.edge_tagged(tag).is_some(), "{tag:?}");
    }
    assert_eq!(changed.edges().len(), made.edges().len());
    // kurbo maps the drawn path the same way.
    let map = Affine::translate((3.0, 4.0)) * Affine::rotate(0.3) * Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
    let (drawn, expected) =
        (changed.bounds(), (map * made.offset_sides(&|_| 0.5 * INCH).unwrap().path()).bounding_box());
    assert_within((drawn.x0 - expected.x0).abs() + (drawn.y1 - expected.y1).abs(), 0.0, 1e-5);
}
