//! Openings solved from a tape, the top in them, and the way in.
//!
//! The opening G7 has a front of 61 in, depths of 22 in, and inside angles of 92° at A, front left, and
//! 87° at B, front right; the rest of it is computed (trigonometry, shapely).

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within};
use kurbo::Point;
use pourwright::measure::exact::{in_inches, inches};
use pourwright::measure::{Length, Units};
use pourwright::room::{
    Amount, Angle, Around, Corner, OffsetProblem, Problem, Reading, ScribeLine, ScribeProblem, Span, Station, Survey,
    Verdict, WalkProblem, WalkSide, Walls, Wanted, WayProblem, limits, offset_outline, survey, top_in_opening,
    walk_outline, ways_in, words,
};
use uom::si::angle::{degree, radian};
use uom::si::area::square_inch;
use uom::si::length::inch;

checks![
    an_opening_read_to_the_sixteenth,
    another_opening_whose_readings_do_not_quite_close,
    one_spare_reading_detects_but_does_not_locate,
    a_diagonal_read_long_against_sure_corners,
    a_diagonal_read_long_leaves_two_suspects,
    suspects_of_other_wrong_readings,
    the_top_in_an_out_of_square_opening,
    an_inside_corner_is_mitred_too,
    an_outline_that_closes
];

/// The library that solves the same readings.
const SQUARES: Mark = Mark::Computed("scipy 1.17.1, least_squares");

const READINGS: &str = "Least squares of sides and diagonals, all weighed alike; residual is fitted less read";

const CORNERS: [&str; 4] = ["front left", "front right", "back right", "back left"];

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
fn an_opening_read_to_the_sixteenth(evidence: &mut Evidence) {
    let solved = survey(Walls::Three, &tape([61.0, 22.0, 60.625, 22.0, 63.75, 65.5625])).unwrap();
    let largest = residuals(&solved).into_iter().map(f64::abs).fold(0.0, f64::max);
    let table = evidence.check(Check {
        label: "Q1",
        title: "An opening read to the sixteenth",
        source: READINGS,
        marks: &[SQUARES],
        problem: "sides 61, 22, 60.625, 22 in, diagonals 63.75 and 65.5625 in",
        modelled: "room::survey",
        gap: "The largest residual is told with two digits.",
        ..Check::default()
    });
    table.within("root mean square, in", solved.root_mean_square.get::<inch>(), 0.00276, 1e-5);
    table.within("largest residual, in", largest, 0.0034, 2e-4);
    for ((corner, expected), what) in std::iter::zip(&solved.angles, [92.014, 87.008, 93.007, 87.970]).zip(CORNERS) {
        table.within(format!("angle at the {what}, °"), corner.angle.get::<degree>(), expected, 2e-3);
    }
    table.within("area, in²", solved.area.get::<square_inch>(), 1336.4025, 1e-2);
    assert_eq!(solved.verdict, Verdict::Agrees);
}

/// Q2. Computed (scipy least_squares).
fn another_opening_whose_readings_do_not_quite_close(evidence: &mut Evidence) {
    let solved = survey(Walls::Three, &tape([48.0, 25.5, 48.25, 25.25, 54.4375, 54.3125])).unwrap();
    let expected = [(0.0, 0.0), (47.98683, 0.0), (48.1163, 25.49278), (-0.11995, 25.24276)];
    let table = evidence.check(Check {
        label: "Q2",
        title: "Readings that do not quite close",
        source: READINGS,
        marks: &[SQUARES],
        problem: "sides 48, 25.5, 48.25, 25.25 in, diagonals 54.4375 and 54.3125 in",
        modelled: "room::survey",
        gap: "Four to seven digits are told.",
        ..Check::default()
    });
    for ((corner, (x, y)), what) in std::iter::zip(solved.corners, expected).zip(CORNERS) {
        table.within(format!("{what} from the left, in"), corner.x / INCH, x, 2e-4);
        table.within(format!("{what} from the front, in"), corner.y / INCH, y, 2e-4);
    }
    table.within("root mean square, in", solved.root_mean_square.get::<inch>(), 0.01212, 1e-5);
    table.within("area, in²", solved.area.get::<square_inch>(), 1220.482, 1e-2);
    assert_eq!(solved.verdict, Verdict::Agrees);
}

/// Q3: Q1 with CD read 1 in long. Computed (scipy least_squares).
/// Q4: with one spare reading all standardised residuals are equal, so none is named. Computed (null
/// vector of the Jacobian).
fn one_spare_reading_detects_but_does_not_locate(evidence: &mut Evidence) {
    let readings = tape([61.0, 22.0, 61.625, 22.0, 63.75, 65.5625]);
    let solved = survey(Walls::Three, &readings).unwrap();
    let expected = [-0.2255, -0.0804, -0.2232, -0.0806, 0.2350, 0.2417];
    let all = standardised(&solved);
    let table = evidence.check(Check {
        label: "Q3, Q4",
        title: "A side read an inch long, with one spare reading",
        source: "Least squares; and the null vector of the Jacobian: with one spare reading all standardised residuals are \
            equal, so that a blunder is detected and not located",
        marks: &[SQUARES],
        problem: "Q1 with the back read as 61.625 in",
        modelled: "room::survey and words::verdict",
        gap: "Four places are told.",
        ..Check::default()
    });
    table.within("root mean square, in", solved.root_mean_square.get::<inch>(), 0.1946, 2e-4);
    for ((found, expected), span) in std::iter::zip(residuals(&solved), expected).zip(Span::ALL) {
        table.within(format!("residual of the {}, in", words::span(span)), found, expected, 2e-4);
    }
    let most = all.iter().map(|one| one.abs()).fold(0.0, f64::max);
    table.close("largest over first standardised residual", most / all[0].abs(), 1.0, 1e-6);
    for one in &all {
        assert_close(one.abs(), all[0].abs(), 1e-6);
    }
    assert!(!solved.agreement.holds());
    let Verdict::OneOf { readings: these, ask } = &solved.verdict else { panic!("{:?}", solved.verdict) };
    assert_eq!(*these, [0, 1, 2, 3, 4, 5]);
    assert!(matches!(ask, Wanted::Marks(_)), "{ask:?}");
    let says = words::verdict(&solved.verdict, &readings, Units::Inch);
    assert!(says.starts_with("One reading is wrong, and it cannot be known which."), "{says}");
    let named = Span::ALL.into_iter().filter(|span| says.contains(words::span(*span))).count();
    table.same("readings named as wrong", named, 0);
}

/// Q5: AC read 1 in long, the angle by three marks sure to 0.19°. Computed (scipy least_squares,
/// normalised residuals).
fn a_diagonal_read_long_against_sure_corners(evidence: &mut Evidence) {
    let mut readings = g7_marked(Span::DiagonalFromFrontLeft, 1.0);
    for (reading, corner) in std::iter::zip(&mut readings[6..], [Corner::BackRight, Corner::BackLeft]) {
        // What each of three readings is, for the angle to be sure to 0.19°: the law of cosines with
        // equal legs, differentiated.
        let angle = g7_angle(corner).to_radians();
        let by_legs = (1.0 - angle.cos()) / (24.0 * angle.sin());
        let by_distance = 2.0 * (angle / 2.0).sin() / (24.0 * angle.sin());
        let by_all = (2.0 * by_legs * by_legs + by_distance * by_distance).sqrt();
        reading.uncertainty = Some(inches(0.19_f64.to_radians() / by_all));
    }
    let solved = survey(Walls::Three, &readings).unwrap();
    let table = evidence.check(Check {
        label: "Q5",
        title: "A diagonal read an inch long, against sure corners",
        source: "Least squares, normalised residuals",
        marks: &[SQUARES],
        problem: "G7 with both back corners marked, angles sure to 0.19°, diagonal from front left 1 in long",
        conventions: "Residuals in multiples of what is to be expected of them; signs left out.",
        modelled: "room::survey",
        gap: "Two to three digits are told, and the angles' own uncertainty is rounded to 0.19°.",
        ..Check::default()
    });
    table.same("degrees of freedom", solved.agreement.degrees_of_freedom, 3);
    table.close("chi-square", solved.agreement.chi_square, 119.0, 0.05);
    let [ab, bc, cd, da, ac, bd, c, d] = standardised(&solved).try_into().unwrap();
    for (what, found, expected) in [
        ("diagonal", ac, 10.9),
        ("left depth", da, 10.9),
        ("front", ab, 5.6),
        ("back", cd, 5.5),
        ("back right corner", c, 5.2),
        ("back left corner", d, 5.2),
    ] {
        table.close(format!("residual of the {what}"), f64::abs(found), expected, 0.05);
    }
    assert!(f64::abs(bc) < 1.0 && f64::abs(bd) < 1.0, "{bc} {bd}");
    let mut found = suspects(&solved);
    found.sort_unstable();
    assert_eq!(found, [3, 4]);
}

/// Q5 with every reading sure to 1/16 in, propagated to the angles (0.32° and 0.30°). Computed (scipy
/// least_squares, normalised residuals).
fn a_diagonal_read_long_leaves_two_suspects(evidence: &mut Evidence) {
    let readings = g7_marked(Span::DiagonalFromFrontLeft, 1.0);
    let solved = survey(Walls::Three, &readings).unwrap();
    let expected = [6.320, 2.987, 6.606, 9.706, -9.713, -3.355, -3.818, 4.017];
    let table = evidence.check(Check {
        label: "Q5",
        title: "The same with every reading sure to a sixteenth",
        source: "Least squares, normalised residuals",
        marks: &[SQUARES],
        problem: "G7 with both back corners marked by legs of 24 in, diagonal from front left 1 in long",
        modelled: "room::survey",
        gap: "Three places are told.",
        ..Check::default()
    });
    table.close("chi-square", solved.agreement.chi_square, 94.341, 1e-3);
    let names = Span::ALL.into_iter().map(words::span).chain(["back right corner", "back left corner"]);
    for ((found, expected), what) in std::iter::zip(standardised(&solved), expected).zip(names) {
        table.within(format!("residual of the {what}"), found, expected, 2e-3);
    }
    let mut found = suspects(&solved);
    found.sort_unstable();
    assert_eq!(found, [3, 4]);
    let Verdict::Suspects { suspects, settle, .. } = &solved.verdict else { unreachable!() };
    assert_eq!(*settle, 3, "the shorter of the two is read again");
    let diagonal = suspects.iter().find(|suspect| suspect.reading == 4).unwrap();
    assert_within(in_inches(diagonal.would_be), G7[4], 1e-3);
    let says = words::verdict(&solved.verdict, &readings, Units::Inch);
    assert!(says.ends_with("Take the left depth again to tell."), "{says}");
}

/// Q5, with the depth that ends at the same corner taped again: that parts the two.
#[test]
fn the_depth_taped_again_names_the_diagonal() {
    let mut readings = g7_marked(Span::DiagonalFromFrontLeft, 1.0);
    readings.push(Reading::span(Span::Left, inches(22.0)));
    let solved = survey(Walls::Three, &readings).unwrap();
    assert_eq!(suspects(&solved), [4]);
    let says = words::verdict(&solved.verdict, &readings, Units::Inch);
    assert!(
        says.starts_with("The diagonal from front left to back right looks wrong: about 64 3/4 in was read"),
        "{says}"
    );
    assert!(says.contains("about 63 3/4 in"), "{says}");
    // And were it the depth that is wrong, the two depths name it between them.
    let mut readings = g7_marked(Span::Left, 1.0);
    readings.push(Reading::span(Span::Left, inches(22.0)));
    assert_eq!(suspects(&survey(Walls::Three, &readings).unwrap()), [3]);
}

/// Q5: which readings are suspect when another is 1 in long: where it is one alone, its standardised
/// residual and the next. Computed (scipy least_squares, normalised residuals).
fn suspects_of_other_wrong_readings(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "Q5",
        title: "Suspects of other wrong readings",
        source: "Least squares, normalised residuals",
        marks: &[SQUARES],
        problem: "G7 with both back corners marked, one reading after the other 1 in long",
        modelled: "room::survey",
        gap: "Three digits are told for two readings that are not quite alike.",
        ..Check::default()
    });
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
        let names =
            |these: &[usize]| these.iter().map(|one| words::span(Span::ALL[*one])).collect::<Vec<_>>().join(" or ");
        table.same(format!("{} long", words::span(wrong)), names(&found), names(&expected));
        if expected.len() == 1 {
            let mut sizes: Vec<f64> = standardised(&solved).into_iter().map(f64::abs).collect();
            sizes.sort_by(f64::total_cmp);
            table.close(format!("{} long: its residual", words::span(wrong)), sizes[7], 9.25, 0.01);
            table.close(format!("{} long: the next", words::span(wrong)), sizes[6], 6.29, 0.01);
        }
    }
}

/// Q1's null vector is in proportion to Q3's residuals, 0.2255, 0.0804, 0.2232, 0.0806, 0.2350, 0.2417 (scipy least_squares).
/// So a depth has a redundancy of 0.0804² ÷ 0.2273 = 0.0284, and a slip of 1.96 × 1/16 in ÷ √0.0284 = 0.727 in passes for chance
/// at 5 %; one in a width shows from 0.26 in on. Q3 lies an inch off, which moves these by a hundredth.
#[test]
fn a_slip_that_no_spare_reading_shows_is_told() {
    let sizes = [61.0, 22.0, 60.625, 22.0, 63.75, 65.5625];
    let readings = tape(sizes);
    let solved = survey(Walls::Three, &readings).unwrap();
    for (fit, expected) in std::iter::zip(&solved.fits, [0.2590, 0.7265, 0.2617, 0.7247, 0.2485, 0.2417]) {
        assert_within(in_inches(fit.unseen.expect("it is checked")), expected, 0.012);
    }
    let (first, says) = words::unseen(&solved, &readings, Units::Inch).expect("the depths are hardly checked");
    assert_eq!(first, 1);
    assert_eq!(
        says,
        "A slip of up to 3/4 in in the right depth or the left depth would not show here: tape each twice."
    );
    assert_eq!(words::coarse(&solved), None);
    // A slip just under it agrees and is called no good reading; one just over it does not agree.
    let slipped = |by: f64| {
        let mut sizes = sizes;
        sizes[3] += by;
        let readings = tape(sizes);
        let solved = survey(Walls::Three, &readings).unwrap();
        (words::agreement(&solved, &readings, Units::Inch), words::coarse(&solved).is_some(), solved.verdict)
    };
    let (says, coarse, verdict) = slipped(0.65);
    assert_eq!((coarse, verdict), (true, Verdict::Agrees));
    assert!(says.contains("differ by no more than chance") && says.contains("depth"), "{says}");
    let (says, coarse, verdict) = slipped(0.25);
    assert_eq!((coarse, verdict), (false, Verdict::Agrees));
    assert_eq!(says, "The readings agree as well as a tape can be read.");
    let (says, coarse, verdict) = slipped(0.9);
    assert!(!coarse && matches!(verdict, Verdict::OneOf { .. }), "{says}");
    // Both depths taped twice: nothing of note hides any more.
    let mut twice = readings.clone();
    twice.extend([Reading::span(Span::Left, inches(22.0)), Reading::span(Span::Right, inches(22.0))]);
    assert_eq!(words::unseen(&survey(Walls::Three, &twice).unwrap(), &twice, Units::Inch), None);
}

/// A reading that nothing checks has no redundancy, and two of one thing have half each. Closed form:
/// the mean of two.
#[test]
fn redundancy_of_a_repeated_reading() {
    let mut readings = tape(G7);
    readings.pop();
    readings.push(Reading::span(Span::Back, inches(G7[2] + 0.125)));
    let solved = survey(Walls::Three, &readings).unwrap();
    for (fit, expected) in std::iter::zip(&solved.fits, [0.0, 0.0, 0.5, 0.0, 0.0, 0.5]) {
        assert_within(fit.redundancy, expected, 1e-9);
        assert_eq!(fit.standardised.is_some(), expected > 0.0);
    }
    assert_within(in_amount(solved.fits[2].residual), 0.0625, 1e-9);
    // (1/8 in)² over the sum of both variances.
    assert_close(solved.agreement.chi_square, 2.0, 1e-9);
    assert_within(in_inches(solved.misclosure), 0.125, 1e-9);
    assert_eq!(solved.verdict, Verdict::Agrees);
    readings[5] = Reading::span(Span::Back, inches(G7[2] + 1.0));
    let solved = survey(Walls::Three, &readings).unwrap();
    assert_eq!(solved.verdict, Verdict::OneOf { readings: vec![2, 5], ask: Wanted::Span(Span::Back) });
    let says = words::verdict(&solved.verdict, &readings, Units::Inch);
    assert_eq!(says, "The two readings of the back width do not agree. Measure it once more.");
}

/// Law of cosines, and the 3-4-5 triangle. Its uncertainty: dγ = (c dc − (a − b cos γ) da − (b − a cos γ) db)
/// ÷ (ab sin γ), with all three alike.
#[test]
fn a_corner_by_three_marks() {
    let Reading { taken, .. } = Reading::marks(Corner::BackLeft, inches(36.0), inches(48.0), inches(60.0));
    let pourwright::room::Taken::Marks(_, marks) = taken else { unreachable!() };
    assert_within(marks.angle().unwrap().get::<degree>(), 90.0, 1e-12);
    let readings = [
        Reading::span(Span::Back, inches(60.0)),
        Reading::span(Span::Left, inches(22.0)),
        Reading { taken, uncertainty: Some(inches(0.1)) },
    ];
    let solved = survey(Walls::BackAndLeft, &readings).unwrap();
    let expected = (60.0_f64.powi(2) + 36.0_f64.powi(2) + 48.0_f64.powi(2)).sqrt() / (36.0 * 48.0) * 0.1;
    assert_close(solved.angles[3].uncertainty.get::<radian>(), expected, 1e-9);
}

/// Two walls: the free end is square to the back wall and the front parallel to it. Plane trigonometry.
#[test]
fn a_corner_of_two_walls() {
    for (walls, corner, depth, angles) in [
        (Walls::BackAndLeft, Corner::BackLeft, Span::Left, [88.0, 90.0, 90.0, 92.0]),
        (Walls::BackAndRight, Corner::BackRight, Span::Right, [90.0, 88.0, 92.0, 90.0]),
    ] {
        let readings =
            [Reading::span(Span::Back, inches(60.0)), Reading::span(depth, inches(22.0)), marked(corner, 92.0)];
        let solved = survey(walls, &readings).unwrap();
        for (corner, expected) in std::iter::zip(&solved.angles, angles) {
            assert_within(corner.angle.get::<degree>(), expected, 1e-9);
        }
        let deep = 22.0 * 92.0_f64.to_radians().sin();
        let front = 60.0 - 22.0 * 92.0_f64.to_radians().cos();
        assert_within(solved.corners[1].x / INCH, front, 1e-9);
        assert_within(solved.corners[2].y / INCH, deep, 1e-9);
        assert_close(solved.area.get::<square_inch>(), (60.0 + front) / 2.0 * deep, EXACT);
        assert_eq!(solved.verdict, Verdict::Unchecked);
    }
}

#[test]
fn too_few_readings_say_what_is_missing() {
    let missing = |walls, readings: &[Reading]| match survey(walls, readings) {
        Err(problems) => match problems.as_slice() {
            [Problem::TooFew { take }] => take.clone(),
            other => panic!("{other:?}"),
        },
        Ok(solved) => panic!("{solved:?}"),
    };
    let all = tape(G7);
    let diagonal = Wanted::Span(Span::DiagonalFromFrontLeft);
    assert_eq!(missing(Walls::Three, &all[..4]), [diagonal]);
    assert_eq!(missing(Walls::Three, &[all[0], all[1], all[3], all[4]]), [Wanted::Span(Span::Back)]);
    assert_eq!(missing(Walls::Three, &[]).len(), 5);
    // The same side over and over fixes no more than once.
    assert_eq!(missing(Walls::Three, &[all[0], all[1], all[2], all[3], all[3], all[3]]), [diagonal]);
    let corner = [all[2], all[3]];
    assert_eq!(missing(Walls::BackAndLeft, &corner), [Wanted::Marks(Corner::BackLeft)]);
    assert_eq!(missing(Walls::BackAndRight, &[all[2], all[1]]), [Wanted::Marks(Corner::BackRight)]);
    assert_eq!(missing(Walls::Back, &[all[2]]), [Wanted::Span(Span::Left)]);
    // What is asked for does fix it.
    assert!(survey(Walls::Three, &all[..5]).is_ok());
}

#[test]
fn impossible_readings_are_named() {
    let problems = |readings: &[Reading]| survey(Walls::Three, readings).unwrap_err();
    let mut long = tape(G7);
    long[4] = Reading::span(Span::DiagonalFromFrontLeft, inches(83.0));
    let found = problems(&long);
    assert_eq!(found[0], Problem::LongerThanTheWayRound { reading: 4, others: vec![0, 1] });
    let says = words::problem(&found[0], &long, Units::Inch);
    assert!(says.contains("the front width and the right depth"), "{says}");

    let mut long = tape(G7);
    long[2] = Reading::span(Span::Back, inches(105.0));
    long.truncate(4);
    assert_eq!(problems(&long), [Problem::LongerThanTheWayRound { reading: 2, others: vec![0, 1, 3] }]);

    let mut open = tape(G7);
    open.push(Reading::marks(Corner::BackLeft, inches(24.0), inches(24.0), inches(48.0)));
    open.push(Reading::marks(Corner::BackLeft, inches(24.0), inches(48.0), inches(23.0)));
    open[0] = Reading::span(Span::Front, Length::default());
    open[1] = Reading::span(Span::Right, inches(f64::NAN));
    open[2].uncertainty = Some(inches(-1.0));
    open[3] = Reading::span(Span::Left, inches(1e9));
    let expected = [
        Problem::NoLength { reading: 0 },
        Problem::NoLength { reading: 1 },
        Problem::BadUncertainty { reading: 2 },
        Problem::TooLong { reading: 3 },
        Problem::MarksDoNotClose { reading: 6 },
        Problem::MarksDoNotClose { reading: 7 },
    ];
    assert_eq!(problems(&open), expected);

    let nowhere = [marked(Corner::BackRight, 90.0)];
    let found = survey(Walls::BackAndLeft, &nowhere).unwrap_err();
    assert_eq!(found, [Problem::NoCornerThere { reading: 0 }]);
    let many = vec![tape(G7)[0]; limits::MOST_READINGS + 1];
    assert_eq!(problems(&many), [Problem::TooManyReadings]);
}

/// Corner C of a quadrilateral with vertices (0, 0), (60, 0), (20, 10), (0, 40) bends inwards.
#[test]
fn an_opening_that_bends_inwards_is_none() {
    let far = |x: f64, y: f64| inches(x.hypot(y));
    let readings = [
        Reading::span(Span::Front, inches(60.0)),
        Reading::span(Span::Right, far(40.0, 10.0)),
        Reading::span(Span::Back, far(20.0, 30.0)),
        Reading::span(Span::Left, inches(40.0)),
        Reading::span(Span::DiagonalFromFrontLeft, far(20.0, 10.0)),
        Reading::span(Span::DiagonalFromFrontRight, far(60.0, 40.0)),
    ];
    let found = survey(Walls::Three, &readings).unwrap_err();
    assert_eq!(found, [Problem::BendsInwards { corner: Corner::BackRight }]);
}

/// The tape's own uncertainty. Common practice, no source.
#[test]
fn long_readings_are_less_sure() {
    for (length, expected) in [(1.0, 0.0625), (120.0, 0.0625), (240.0, 0.125)] {
        assert_close(in_inches(limits::tape_uncertainty(inches(length))), expected, EXACT);
    }
}

fn polygon_area(corners: &[Point]) -> f64 {
    let pairs = corners.iter().zip(corners.iter().cycle().skip(1));
    pairs.map(|(one, next)| one.to_vec2().cross(next.to_vec2())).sum::<f64>() / 2.0 / (INCH * INCH)
}

/// G8: G7 with the front over by 1 1/4 in, and 1/8 in clear of the back and left walls. Computed
/// (trigonometry, shapely).
fn the_top_in_an_out_of_square_opening(evidence: &mut Evidence) {
    let around = Around { front: inches(1.25), right: inches(0.0), back: inches(0.125), left: inches(0.125) };
    let top = top_in_opening(&g7_corners(), Walls::Three, &around).unwrap();
    let table = evidence.check(Check {
        label: "G8",
        title: "The top in an out-of-square opening",
        source: "Trigonometry",
        marks: &[Mark::ByHand, Mark::Computed("shapely 2.2.0")],
        problem: "G7, front 1.25 in over, 0.125 in clear of the back and the left wall",
        modelled: "room::top_in_opening",
        gap: "The corners go in with six places.",
        ..Check::default()
    });
    table.within("opening, in²", polygon_area(&g7_corners()), 1336.44818, 1e-3);
    table.close("top, in²", polygon_area(&top), 1402.24395, 1e-5);
    for ((corner, (x, y)), what) in std::iter::zip(&top, [(0.16873, -1.25), (61.06551, -1.25)]).zip(CORNERS) {
        table.within(format!("{what} from the left, in"), corner.x / INCH, x, 1e-5);
        table.within(format!("{what} from the front, in"), corner.y / INCH, y, 1e-5);
    }
}

/// G5: an L with unequal distances, by line intersection. Computed (shapely).
fn an_inside_corner_is_mitred_too(evidence: &mut Evidence) {
    let corners = [(0.0, 0.0), (84.0, 0.0), (84.0, 25.5), (25.5, 25.5), (25.5, 60.0), (0.0, 60.0)];
    let corners = corners.map(|(x, y)| Point::new(x * INCH, y * INCH));
    let moved = offset_outline(&corners, &[1.5, 0.0, -0.125, -0.125, 1.5, 0.0].map(inches)).unwrap();
    let table = evidence.check(Check {
        label: "G5",
        title: "An inside corner between moved walls",
        source: "The lines moved and cut with each other",
        marks: &[Mark::ByHand, Mark::Computed("shapely 2.2.0")],
        problem: "the L of G4 moved out by 1.5, 0, −0.125, −0.125, 1.5, 0 in",
        modelled: "room::offset_outline",
        gap: "Nine digits are told.",
        ..Check::default()
    });
    table.close("area, in²", polygon_area(&moved), 3174.17188, 1e-6);
    table.within("inside corner from the left, in", moved[3].x / INCH, 25.375, 1e-9);
    table.within("inside corner from the front, in", moved[3].y / INCH, 25.375, 1e-9);
}

#[test]
fn offsets_that_give_no_outline() {
    let offset = |corners: &[Point], by: &[f64]| {
        offset_outline(corners, &by.iter().map(|by| inches(*by)).collect::<Vec<_>>()).unwrap_err()
    };
    let square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| Point::new(x * INCH, y * INCH));
    assert_eq!(offset(&square, &[0.0, -5.0, 0.0, -5.0]), OffsetProblem::Swallowed { edge: 0 });
    assert_eq!(offset(&square, &[0.0, 0.0, 0.0]), OffsetProblem::NoOutline);
    assert_eq!(offset(&square, &[0.0, f64::NAN, 0.0, 0.0]), OffsetProblem::NoNumber);
    let mut other_way = square;
    other_way.reverse();
    assert_eq!(offset(&other_way, &[0.0; 4]), OffsetProblem::NotCounterClockwise);
    let in_line = [square[0], Point::new(5.0 * INCH, 0.0), square[1], square[2], square[3]];
    assert_eq!(offset(&in_line, &[1.0, 0.0, 0.0, 0.0, 0.0]), OffsetProblem::MeetNowhere { corner: 1 });
    let twice = [square[0], square[0], square[1], square[2]];
    assert_eq!(offset(&twice, &[0.0; 4]), OffsetProblem::NoEdge { edge: 0 });
}

fn rectangle(left: f64, front: f64, right: f64, back: f64) -> [Point; 4] {
    [(left, front), (right, front), (right, back), (left, back)].map(|(x, y)| Point::new(x * INCH, y * INCH))
}

#[track_caller]
fn assert_margin(way: pourwright::room::Way, expected: f64) {
    assert_within(in_inches(way.margin.unwrap()), expected, 1e-9);
    assert_eq!(way.works(), expected >= 0.0);
}

/// A piece of length L and thickness t swings through √(L² + t²). Geometry: 60 × 2 in takes 60.0333 in.
#[test]
fn tilting_takes_more_width_than_lying() {
    let top = rectangle(0.0125, -1.0, 60.0125, 21.875);
    let ways = ways_in(&rectangle(0.0, 0.0, 60.025, 22.0), Walls::Three, &top, inches(2.0)).unwrap();
    assert_margin(ways.lowered, 0.025);
    assert_margin(ways.slid, 0.025);
    assert_margin(ways.tilted, 60.025 - 3604.0_f64.sqrt());
    let ways = ways_in(&rectangle(-0.05, 0.0, 60.05, 22.0), Walls::Three, &top, inches(2.0)).unwrap();
    assert_margin(ways.tilted, 60.1 - 3604.0_f64.sqrt());
}

/// Side walls that close in by 1 in to the front, a top that fills the opening but for 1/8 in at each
/// side: its back edge, 59.75 in, has to pass a front of 59 in. Plane geometry.
#[test]
fn a_front_narrower_than_the_back_stops_sliding() {
    let opening = [(0.5, 0.0), (59.5, 0.0), (60.0, 20.0), (0.0, 20.0)];
    let top = [(0.625, 0.0), (59.375, 0.0), (59.875, 20.0), (0.125, 20.0)];
    let points = |corners: [(f64, f64); 4]| corners.map(|(x, y)| Point::new(x * INCH, y * INCH));
    let ways = ways_in(&points(opening), Walls::Three, &points(top), inches(1.5)).unwrap();
    assert_margin(ways.lowered, 0.25);
    assert_margin(ways.slid, 59.0 - 59.75);
    // Wider to the front, it slides: tightest in its place.
    let turned = |corners: [(f64, f64); 4]| {
        let [a, b, c, d] = corners.map(|(x, y)| (60.0 - x, 20.0 - y));
        points([c, d, a, b])
    };
    let ways = ways_in(&turned(opening), Walls::Three, &turned(top), inches(1.5)).unwrap();
    assert_margin(ways.slid, 0.25);
    // Without a wall on the right, nothing holds it.
    let ways = ways_in(&points(opening), Walls::BackAndLeft, &points(top), inches(1.5)).unwrap();
    assert_eq!(ways.slid.margin, None);
    assert!(ways.tilted.works());
}

#[test]
fn ways_that_cannot_be_told() {
    let opening = rectangle(0.0, 0.0, 60.0, 22.0);
    let ways = |top, thickness| ways_in(&opening, Walls::Three, &top, inches(thickness)).unwrap_err();
    assert_eq!(ways(opening, 0.0), WayProblem::NoNumber);
    assert_eq!(ways(rectangle(0.0, f64::NAN, 60.0, 22.0), 2.0), WayProblem::NoNumber);
    assert_eq!(ways(rectangle(0.0, 22.0, 60.0, 0.0), 2.0), WayProblem::SideAcross);
    assert_eq!(ways(rectangle(0.0, 0.0, 60.0, 22.5), 2.0), WayProblem::IntoTheBackWall);
}

fn stations(gaps: &[(f64, f64)]) -> Vec<Station> {
    gaps.iter().map(|&(along, gap)| Station { along: inches(along), gap: inches(gap) }).collect()
}

/// The line goes through its stations and never past them; caulk hides 1/4 in, a backsplash its own
/// thickness. Common practice, no source.
#[test]
fn a_bowed_wall() {
    let gaps = [(0.0, 0.0), (12.0, 0.125), (24.0, 0.1875), (36.0, 0.0625), (48.0, 0.0625), (60.0, 0.0)];
    let wall = ScribeLine::of(&stations(&gaps)).unwrap();
    for (along, gap) in gaps {
        assert_within(in_inches(wall.at(inches(along)).unwrap()), gap, 1e-12);
    }
    for pair in gaps.windows(2) {
        let (low, high) = (pair[0].1.min(pair[1].1), pair[0].1.max(pair[1].1));
        for part in 0..=20 {
            let along = pair[0].0 + (pair[1].0 - pair[0].0) * f64::from(part) / 20.0;
            let gap = in_inches(wall.at(inches(along)).unwrap());
            assert!((low - 1e-12..=high + 1e-12).contains(&gap), "{gap} at {along}");
        }
    }
    assert_eq!(wall.at(inches(61.0)), None);
    assert_eq!(wall.at(inches(-0.1)), None);
    assert_eq!(wall.at(inches(f64::NAN)), None);
    assert_eq!(wall.polyline(4).len(), 21);
    assert_within(in_inches(wall.widest().gap), 0.1875, 1e-12);
    assert_within(in_inches(wall.widest().along), 24.0, 1e-12);

    let hiding = wall.hiding(limits::wall_clearance(), None);
    assert_within(in_inches(hiding.gap), 0.3125, 1e-12);
    assert!(hiding.must_be_scribed());
    assert!(wall.hiding(limits::wall_clearance(), Some(inches(0.75))).by_backsplash());
    assert!(wall.hiding(inches(0.0625), None).by_caulk(), "just 1/4 in");
    assert!(!wall.hiding(inches(0.07), Some(inches(0.25))).by_backsplash());
}

/// A line stays a line.
#[test]
fn a_slanting_wall_is_straight() {
    let wall = ScribeLine::of(&stations(&[(0.0, 0.0), (10.0, 0.1), (40.0, 0.4)])).unwrap();
    for along in [0.0, 3.0, 10.0, 17.5, 39.0, 40.0] {
        assert_within(in_inches(wall.at(inches(along)).unwrap()), along / 100.0, 1e-12);
    }
}

#[test]
fn stations_that_give_no_line() {
    let of = |gaps: &[(f64, f64)]| ScribeLine::of(&stations(gaps)).unwrap_err();
    assert_eq!(of(&[(0.0, 0.0)]), ScribeProblem::TooFew);
    assert_eq!(of(&[(0.0, 0.0), (0.0, 1.0)]), ScribeProblem::NotInOrder { station: 1 });
    assert_eq!(of(&[(0.0, 0.0), (1.0, f64::NAN)]), ScribeProblem::NoNumber { station: 1 });
    assert_eq!(of(&[(0.0, -0.1), (1.0, 0.0)]), ScribeProblem::NoNumber { station: 0 });
    assert_eq!(of(&vec![(0.0, 0.0); 1001]), ScribeProblem::TooMany);
}

fn legs(legs: &[(f64, f64)]) -> Vec<WalkSide> {
    let leg = |&(angle, length)| WalkSide { angle: Angle::new::<degree>(angle), length: inches(length) };
    legs.iter().map(leg).collect()
}

/// G7 walked: its corners and area. Computed (trigonometry, shapely).
fn an_outline_that_closes(evidence: &mut Evidence) {
    let [c, d] = [Corner::BackRight, Corner::BackLeft].map(g7_angle);
    let walk = walk_outline(&legs(&[(92.0, 61.0), (87.0, 22.0), (c, 60.61640), (d, 22.0)])).unwrap();
    let ell = legs(&[(90.0, 84.0), (90.0, 25.5), (90.0, 58.5), (270.0, 34.5), (90.0, 25.5), (90.0, 60.0)]);
    let table = evidence.check(Check {
        label: "G4, G7",
        title: "Outlines that are walked",
        source: "Trigonometry; the polygon of G4",
        marks: &[Mark::ByHand, Mark::Computed("shapely 2.2.0")],
        problem: "G7 by its lengths and angles: how far each corner is off; G4 by its six legs",
        modelled: "room::walk_outline",
        gap: "Lengths go in with five places.",
        ..Check::default()
    });
    table.within("G7: closure, in", in_inches(walk.closure), 0.0, 2e-5);
    for ((found, expected), what) in std::iter::zip(&walk.corners, g7_corners()).zip(CORNERS) {
        table.within(format!("G7: {what}, off by, in"), found.distance(expected) / INCH, 0.0, 2e-5);
    }
    table.close("G4: area, in²", polygon_area(&walk_outline(&ell).unwrap().corners), 3021.75, EXACT);
}

/// The compass rule: each corner takes its share of the closure by the length walked up to it. By hand,
/// for a rectangle of 60 × 20 in whose back was read 1 in long: the walk ends at (−1, 0).
#[test]
fn the_compass_rule() {
    let walk = walk_outline(&legs(&[(90.0, 60.0), (90.0, 20.0), (90.0, 61.0), (90.0, 20.0)])).unwrap();
    assert_within(in_inches(walk.closure), 1.0, 1e-9);
    assert_within(walk.direction.get::<degree>().abs(), 180.0, 1e-9);
    assert_close(walk.one_in.unwrap(), 161.0, EXACT);
    let expected = [(0.0, 0.0), (60.0 + 60.0 / 161.0, 0.0), (60.0 + 80.0 / 161.0, 20.0), (-1.0 + 141.0 / 161.0, 20.0)];
    for (found, (x, y)) in std::iter::zip(&walk.corners, expected) {
        assert_within(found.x / INCH, x, 1e-9);
        assert_within(found.y / INCH, y, 1e-9);
    }
    assert_within(walk.walked[4].x / INCH, -1.0, 1e-9);
    // Angles that are 2° too much in all are spread first.
    let walk = walk_outline(&legs(&[(90.5, 60.0), (90.5, 20.0), (90.5, 60.0), (90.5, 20.0)])).unwrap();
    assert_within(walk.angle_misclosure.get::<degree>(), 2.0, 1e-9);
    assert_within(in_inches(walk.closure), 0.0, 1e-9);
}

#[test]
fn legs_that_make_no_outline() {
    let walk = |all: &[(f64, f64)]| walk_outline(&legs(all)).unwrap_err();
    assert_eq!(walk(&[(90.0, 1.0), (90.0, 1.0)]), WalkProblem::TooFew);
    assert_eq!(walk(&[(60.0, 9.0), (60.0, 0.0), (60.0, 9.0)]), WalkProblem::NoLength { leg: 1 });
    assert_eq!(walk(&[(60.0, 9.0), (60.0, 9.0), (360.0, 9.0)]), WalkProblem::NoAngle { leg: 2 });
    assert_eq!(walk(&[(90.0, 9.0), (270.0, 9.0), (90.0, 9.0), (90.0, 9.0)]), WalkProblem::AnglesDoNotClose);
    assert_eq!(walk(&[(90.0, 9.0), (90.0, 9.0), (90.0, 60.0), (90.0, 121.0)]), WalkProblem::DoesNotClose);
    let bow = [(40.0, 10.0), (320.0, 10.0), (40.0, 10.0), (320.0, 10.0)];
    assert_eq!(walk(&bow), WalkProblem::AnglesDoNotClose);
    assert_eq!(walk(&vec![(90.0, 9.0); 1001]), WalkProblem::TooMany);
}

#[test]
fn words_for_people() {
    let none: [Reading; 0] = [];
    let few = survey(Walls::Three, &tape(G7)[..4]).unwrap_err();
    let says = words::problem(&few[0], &none, Units::Inch);
    assert_eq!(says, "The readings do not fix the shape yet. Measure the diagonal from front left to back right.");
    assert_eq!(words::margin(Some(inches(0.25)), Units::Inch), "1/4 in to spare");
    assert_eq!(words::margin(Some(inches(-0.75)), Units::Inch), "3/4 in too tight");
    assert_eq!(words::margin(None, Units::Inch), "nothing is in its way");
    let wall = ScribeLine::of(&stations(&[(0.0, 0.0), (30.0, 0.25), (60.0, 0.0)])).unwrap();
    let says = words::hiding(&wall.hiding(limits::wall_clearance(), None), Units::Inch);
    assert_eq!(says, "The widest gap is 3/8 in; caulk hides up to 1/4 in. Scribe the edge to the wall.");
    let walk = walk_outline(&legs(&[(90.0, 60.0), (90.0, 20.0), (90.0, 61.0), (90.0, 20.0)])).unwrap();
    let says = words::closure(&walk, Units::Inch);
    assert!(says.starts_with("The outline fails to close by 1 in, one part in 161,"), "{says}");
}
