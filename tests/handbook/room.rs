//! Openings solved from a tape, the top in them, and the way in.
//!
//! The opening G7 has a front of 61 in, depths of 22 in, and inside angles of 92° at A, front left, and
//! 87° at B, front right; the rest of it is computed (trigonometry, shapely).

use crate::{EXACT, assert_close, assert_within};
use kurbo::Point;
use pourwright::measure::exact::{in_inches, inches};
use pourwright::measure::{Length, Units};
use pourwright::room::{
    Amount, Angle, Around, Corner, Fit, Leg, OffsetProblem, Problem, Reading, ScribeLine, ScribeProblem, Span,
    Station, Survey, Verdict, WalkProblem, Walls, Wanted, WayProblem, limits, offset_outline, survey, top_in_opening,
    walk_outline, ways_in, words,
};
use uom::si::angle::{degree, radian};
use uom::si::area::square_inch;
use uom::si::length::{inch, meter};

const INCH: f64 = 0.0254;

/// Readings of the sides and diagonals, in the order AB, BC, CD, DA, AC, BD.
fn tape(lengths: [f64; 6]) -> Vec<Reading> {
    std::iter::zip(Span::ALL, lengths).map(|(span, length)| Reading::span(span, inches(length))).collect()
}

/// A corner by marks on legs of 24 in.
fn marked(corner: Corner, angle: f64) -> Reading {
    let (leg, half) = (inches(24.0), angle.to_radians() / 2.0);
    Reading::marks(corner, leg, leg, 2.0 * leg * half.sin())
}

/// G7: the six lengths and the corners.
const G7: [f64; 6] = [61.0, 22.0, 60.61640, 22.0, 63.75367, 65.56425];

fn g7_corners() -> [Point; 4] {
    [(0.0, 0.0), (61.0, 0.0), (59.848_609, 21.969_850), (-0.767_789, 21.986_598)]
        .map(|(x, y)| Point::new(x * INCH, y * INCH))
}

/// The inside angle at a corner of [`g7_corners`], in degrees.
fn g7_angle(corner: Corner) -> f64 {
    let (at, all) = (corner.index(), g7_corners());
    let (next, before) = (all[(at + 1) % 4] - all[at], all[(at + 3) % 4] - all[at]);
    next.cross(before).atan2(next.dot(before)).to_degrees()
}

/// G7 with both back corners marked, exact, but for what is added to one of its lengths, in inches.
fn g7_marked(wrong: Span, by: f64) -> Vec<Reading> {
    let mut lengths = G7;
    lengths[wrong as usize] += by;
    let mut readings = tape(lengths);
    readings.extend([Corner::BackRight, Corner::BackLeft].map(|corner| marked(corner, g7_angle(corner))));
    readings
}

fn in_amount(amount: Amount) -> f64 {
    match amount {
        Amount::Length(length) => in_inches(length),
        Amount::Angle(angle) => angle.get::<degree>(),
    }
}

fn residuals(survey: &Survey) -> Vec<f64> {
    survey.fits.iter().map(|fit| in_amount(fit.residual)).collect()
}

fn standardised(survey: &Survey) -> Vec<f64> {
    survey.fits.iter().map(|fit| fit.standardised.unwrap()).collect()
}

fn suspects(survey: &Survey) -> Vec<usize> {
    match &survey.verdict {
        Verdict::Suspects { suspects, others_agree: true, .. } => {
            suspects.iter().map(|suspect| suspect.reading).collect()
        }
        other => panic!("{other:?}"),
    }
}

/// Q1: G7 read to 1/16 in. Computed (scipy least_squares).
#[test]
fn an_opening_read_to_the_sixteenth() {
    let solved = survey(Walls::Three, &tape([61.0, 22.0, 60.625, 22.0, 63.75, 65.5625])).unwrap();
    assert_within(solved.root_mean_square.get::<inch>(), 0.00276, 1e-5);
    let largest = residuals(&solved).into_iter().map(f64::abs).fold(0.0, f64::max);
    assert_within(largest, 0.0034, 2e-4);
    for (corner, expected) in std::iter::zip(&solved.angles, [92.014, 87.008, 93.007, 87.970]) {
        assert_within(corner.angle.get::<degree>(), expected, 2e-3);
    }
    assert_within(solved.area.get::<square_inch>(), 1336.4025, 1e-2);
    assert_eq!(solved.verdict, Verdict::Agrees);
}

/// Q2. Computed (scipy least_squares).
#[test]
fn another_opening_whose_readings_do_not_quite_close() {
    let solved = survey(Walls::Three, &tape([48.0, 25.5, 48.25, 25.25, 54.4375, 54.3125])).unwrap();
    let expected = [(0.0, 0.0), (47.98683, 0.0), (48.1163, 25.49278), (-0.11995, 25.24276)];
    for (corner, (x, y)) in std::iter::zip(solved.corners, expected) {
        assert_within(corner.x / INCH, x, 2e-4);
        assert_within(corner.y / INCH, y, 2e-4);
    }
    assert_within(solved.root_mean_square.get::<inch>(), 0.01212, 1e-5);
    assert_within(solved.area.get::<square_inch>(), 1220.482, 1e-2);
    assert_eq!(solved.verdict, Verdict::Agrees);
}

/// Q3: Q1 with CD read 1 in long. Computed (scipy least_squares).
/// Q4: with one spare reading all standardised residuals are equal, so none is named. Computed (null
/// vector of the Jacobian).
#[test]
fn one_spare_reading_detects_but_does_not_locate() {
    let readings = tape([61.0, 22.0, 61.625, 22.0, 63.75, 65.5625]);
    let solved = survey(Walls::Three, &readings).unwrap();
    assert_within(solved.root_mean_square.get::<inch>(), 0.1946, 2e-4);
    let expected = [-0.2255, -0.0804, -0.2232, -0.0806, 0.2350, 0.2417];
    for (found, expected) in std::iter::zip(residuals(&solved), expected) {
        assert_within(found, expected, 2e-4);
    }
    let all = standardised(&solved);
    for one in &all {
        assert_close(one.abs(), all[0].abs(), 1e-6);
    }
    assert!(!solved.agreement.holds());
    // The misclosure is what the reading that is off shows against the rest, and more than its inch
    // only by what the others' rounding adds.
    let Verdict::OneOf { readings: these, ask } = &solved.verdict else { panic!("{:?}", solved.verdict) };
    assert_eq!(*these, [0, 1, 2, 3, 4, 5]);
    assert!(matches!(ask, Wanted::Marks(_)), "{ask:?}");
    let says = words::verdict(&solved.verdict, &readings, Units::Inch);
    assert!(says.starts_with("One reading is wrong, and it cannot be known which."), "{says}");
    for span in Span::ALL {
        assert!(!says.contains(words::span(span)), "{says}");
    }
}

/// Q5: AC read 1 in long. Computed (scipy least_squares, normalised residuals).
#[test]
fn a_diagonal_read_long_leaves_two_suspects() {
    let readings = g7_marked(Span::DiagonalFromFrontLeft, 1.0);
    let solved = survey(Walls::Three, &readings).unwrap();
    assert_eq!(solved.agreement.degrees_of_freedom, 3);
    assert_close(solved.agreement.chi_square, 119.0, 0.05);
    let [ab, bc, cd, da, ac, bd, c, d] = standardised(&solved).try_into().unwrap();
    for (found, expected) in [(ac, 10.9), (da, 10.9), (ab, 5.6), (cd, 5.5), (c, 5.2), (d, 5.2)] {
        assert_close(f64::abs(found), expected, 0.05);
    }
    assert!(f64::abs(bc) < 1.0 && f64::abs(bd) < 1.0, "{bc} {bd}");
    let mut found = suspects(&solved);
    found.sort_unstable();
    assert_eq!(found, [3, 4]);
    let Verdict::Suspects { suspects, settle, .. } = &solved.verdict else { unreachable!() };
    assert_eq!(*settle, 3, "the shorter of the two is read again");
    let diagonal = suspects.iter().find(|suspect| suspect.reading == 4).unwrap();
    assert_within(in_inches(diagonal.would_be), G7[4], 1e-3);
}

/// Q5, with the depth that ends at the same corner taped again: that parts the two.
#[test]
fn the_depth_taped_again_names_the_diagonal() {
    let mut readings = g7_marked(Span::DiagonalFromFrontLeft, 1.0);
    readings.push(Reading::span(Span::Left, inches(22.0)));
    let solved = survey(Walls::Three, &readings).unwrap();
    assert_eq!(suspects(&solved), [4]);
    let says = words::verdict(&solved.verdict, &readings, Units::Inch);
    assert!(says.starts_with("The diagonal from front left to back right looks wrong: about 64 3/4 in was read"), "{says}");
    assert!(says.contains("about 63 3/4 in"), "{says}");
    // And were it the depth that is wrong, the two depths name it between them.
    let mut readings = g7_marked(Span::Left, 1.0);
    readings.push(Reading::span(Span::Left, inches(22.0)));
    assert_eq!(suspects(&survey(Walls::Three, &readings).unwrap()), [3]);
}

/// Q5: which readings are suspect when another is 1 in long. Computed (scipy least_squares, normalised
/// residuals).
#[test]
fn suspects_of_other_wrong_readings() {
    for (wrong, expected) in [
        (Span::Right, vec![1, 5]),
        (Span::DiagonalFromFrontRight, vec![1, 5]),
        (Span::Left, vec![3, 4]),
        (Span::Front, vec![0]),
        (Span::Back, vec![2]),
    ] {
        let solved = survey(Walls::Three, &g7_marked(wrong, 1.0)).unwrap();
        let mut found = suspects(&solved);
        found.sort_unstable();
        assert_eq!(found, expected, "{wrong:?}: {:?}", standardised(&solved));
        if expected.len() == 1 {
            let mut sizes: Vec<f64> = standardised(&solved).into_iter().map(f64::abs).collect();
            sizes.sort_by(f64::total_cmp);
            assert_close(sizes[7], 10.7, 0.05);
            assert_close(sizes[6], 6.0, 0.05);
        }
    }
}
