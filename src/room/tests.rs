//! What must hold for every opening and outline, however it was measured.

use super::*;
use crate::measure::exact::inches;
use crate::measure::{Length, Units};
use kurbo::Point;
use proptest::prelude::*;
use uom::si::angle::{degree, radian};
use uom::si::length::meter;

/// The corners of an opening: two front corners and two back ones, each up to a sixth of the opening
/// from where it would be in a rectangle.
fn opening() -> impl Strategy<Value = [Point; 4]> {
    let shift = || (-1.0 / 6.0..1.0 / 6.0, -1.0 / 6.0..1.0 / 6.0);
    (0.3..4.0, 0.3..4.0, [shift(), shift(), shift(), shift()]).prop_map(|(width, depth, shifts)| {
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        std::array::from_fn(|at| {
            let ((x, y), (by_x, by_y)) = (square[at], shifts[at]);
            Point::new((x + by_x) * width, (y + by_y) * depth)
        })
    })
}

fn spans(corners: &[Point; 4]) -> Vec<Reading> {
    let read = |span: Span| {
        let [from, to] = span.ends().map(|end| corners[end.index()]);
        Reading::span(span, Length::new::<meter>(from.distance(to)))
    };
    Span::ALL.map(read).to_vec()
}

fn inside_angle(corners: &[Point; 4], corner: Corner) -> f64 {
    let at = corner.index();
    let (next, before) = (corners[(at + 1) % 4] - corners[at], corners[(at + 3) % 4] - corners[at]);
    next.cross(before).atan2(next.dot(before))
}

fn marks(corners: &[Point; 4], corner: Corner) -> Reading {
    let leg = inches(20.0);
    let between = 2.0 * leg * (inside_angle(corners, corner) / 2.0).sin();
    Reading::marks(corner, leg, leg, between)
}

fn mirrored(readings: &[Reading]) -> Vec<Reading> {
    let corner = |corner: Corner| [1, 0, 3, 2].map(|at| Corner::ALL[at])[corner.index()];
    let span = |span| match span {
        Span::Left => Span::Right,
        Span::Right => Span::Left,
        Span::DiagonalFromFrontLeft => Span::DiagonalFromFrontRight,
        Span::DiagonalFromFrontRight => Span::DiagonalFromFrontLeft,
        same => same,
    };
    let of_one = |read: &Reading| match read.taken {
        Taken::Span(of, length) => Reading { taken: Taken::Span(span(of), length), ..*read },
        Taken::Marks(at, marks) => Reading { taken: Taken::Marks(corner(at), marks), ..*read },
    };
    readings.iter().map(of_one).collect()
}

/// What a job has a place for: see `job::Measured`.
fn can_be_typed(wanted: Wanted) -> bool {
    crate::job::Measured::ALL.into_iter().any(|of| {
        use crate::job::Measured;
        wanted
            == match of {
                Measured::Front => Wanted::Span(Span::Front),
                Measured::Right => Wanted::Span(Span::Right),
                Measured::Back => Wanted::Span(Span::Back),
                Measured::Left => Wanted::Span(Span::Left),
                Measured::DiagonalFromFrontLeft => Wanted::Span(Span::DiagonalFromFrontLeft),
                Measured::DiagonalFromFrontRight => Wanted::Span(Span::DiagonalFromFrontRight),
                Measured::BackLeftCorner => Wanted::Marks(Corner::BackLeft),
                Measured::BackRightCorner => Wanted::Marks(Corner::BackRight),
            }
    })
}

proptest! {
    /// Whatever slipped, and whatever is missing: nothing is asked for that the job cannot hold.
    #[test]
    fn only_what_can_be_typed_is_asked_for(
        corners in opening(),
        slipped in 0_usize..6,
        slip in prop_oneof![-3.0..-0.25, 0.25..3.0],
        marked in 0_usize..3,
        kept in 0_usize..=6,
    ) {
        let mut readings = spans(&corners);
        if let Taken::Span(of, length) = readings[slipped].taken {
            readings[slipped] = Reading::span(of, length + inches(slip));
        }
        readings.truncate(kept.max(4));
        readings.extend([Corner::BackLeft, Corner::BackRight].into_iter().take(marked).map(|at| marks(&corners, at)));
        for walls in [Walls::Three, Walls::BackAndLeft, Walls::BackAndRight, Walls::Back] {
            match survey(walls, &readings) {
                Ok(solved) => {
                    if let Verdict::OneOf { ask, .. } = solved.verdict {
                        prop_assert!(can_be_typed(ask), "{ask:?}");
                    }
                }
                Err(problems) => {
                    for problem in problems {
                        if let Problem::TooFew { take } = problem {
                            prop_assert!(take.iter().all(|&one| can_be_typed(one)), "{take:?}");
                        }
                    }
                }
            }
        }
    }
}

/// The same room seen by one who stands at its right wall: every corner is named by the one before it.
fn turned(readings: &[Reading]) -> Vec<Reading> {
    let corner = |corner: Corner| Corner::ALL[(corner.index() + 3) % 4];
    let span = |span: Span| match span {
        Span::Front => Span::Left,
        Span::Right => Span::Front,
        Span::Back => Span::Right,
        Span::Left => Span::Back,
        Span::DiagonalFromFrontLeft => Span::DiagonalFromFrontRight,
        Span::DiagonalFromFrontRight => Span::DiagonalFromFrontLeft,
    };
    let of_one = |read: &Reading| match read.taken {
        Taken::Span(of, length) => Reading { taken: Taken::Span(span(of), length), ..*read },
        Taken::Marks(at, marks) => Reading { taken: Taken::Marks(corner(at), marks), ..*read },
    };
    readings.iter().map(of_one).collect()
}

fn all_finite(survey: &Survey) -> bool {
    let amount = |amount: Amount| match amount {
        Amount::Length(length) => length.get::<meter>(),
        Amount::Angle(angle) => angle.get::<radian>(),
    };
    let of_fit = |fit: &Fit| {
        let numbers = [amount(fit.fitted), amount(fit.residual), fit.redundancy, fit.standardised.unwrap_or(0.0)];
        numbers.into_iter().all(f64::is_finite)
    };
    survey.corners.iter().all(|corner| corner.is_finite())
        && survey.angles.iter().all(|corner| corner.angle.is_finite() && corner.uncertainty.is_finite())
        && survey.fits.iter().all(of_fit)
        && survey.agreement.chi_square.is_finite()
        && survey.misclosure.is_finite()
        && survey.root_mean_square.is_finite()
}

/// Any number that a typed length could be, most of them possible.
fn any_length() -> impl Strategy<Value = Length> {
    let hostile = prop::sample::select(vec![0.0, -1.0, 1e-300, 1e-7, 1e9, 1e300, f64::NAN, f64::INFINITY]);
    prop_oneof![20 => 0.1..5.0, 2 => 1e-5..300.0, 1 => hostile].prop_map(Length::new::<meter>)
}

fn any_reading() -> impl Strategy<Value = Reading> {
    let span =
        (prop::sample::select(Span::ALL.to_vec()), any_length()).prop_map(|(span, length)| Reading::span(span, length));
    let marks = (prop::sample::select(Corner::ALL.to_vec()), any_length(), any_length(), any_length())
        .prop_map(|(corner, one, other, between)| Reading::marks(corner, one, other, between));
    let taken = prop_oneof![3 => span, 1 => marks];
    (taken, prop_oneof![4 => Just(None), 1 => any_length().prop_map(Some)])
        .prop_map(|(reading, uncertainty)| Reading { uncertainty, ..reading })
}

fn any_walls() -> impl Strategy<Value = Walls> {
    prop::sample::select(vec![Walls::Three, Walls::BackAndLeft, Walls::BackAndRight, Walls::Back])
}

proptest! {
    /// Exact readings give the corners back: all six lengths, five of them, or four with a corner.
    #[test]
    fn exact_readings_give_the_corners_back(corners in opening(), left_out in 0_usize..6, corner in 0_usize..4) {
        let all = spans(&corners);
        let mut five = all.clone();
        five.remove(left_out);
        let mut sides = all[..4].to_vec();
        sides.push(marks(&corners, Corner::ALL[corner]));
        for readings in [all, five, sides] {
            let solved = match survey(Walls::Three, &readings) {
                Ok(solved) => solved,
                // A shape that hardly depends on what is left is called open, and not guessed at.
                Err(problems) => {
                    prop_assert!(matches!(problems.as_slice(), [Problem::TooFew { .. }]), "{:?}", problems);
                    prop_assert!(readings.len() < 6);
                    continue;
                }
            };
            let found = spans(&solved.corners);
            for (found, expected) in std::iter::zip(found, spans(&corners)) {
                let (Taken::Span(_, found), Taken::Span(_, expected)) = (found.taken, expected.taken) else {
                    unreachable!()
                };
                prop_assert!((found - expected).get::<meter>().abs() < 1e-9, "{:?} {:?}", found, expected);
            }
            for at in Corner::ALL {
                let off = solved.angles[at.index()].angle.get::<radian>() - inside_angle(&corners, at);
                prop_assert!(off.abs() < 1e-8, "{}", off);
            }
            prop_assert!(matches!(solved.verdict, Verdict::Agrees | Verdict::Unchecked));
        }
    }

    /// A mirrored or turned room gives the same numbers, whatever its readings say.
    #[test]
    fn mirrored_and_turned_rooms_are_the_same(
        corners in opening(),
        off in prop::array::uniform8(-0.01..0.01),
    ) {
        let mut readings = spans(&corners);
        readings.extend([Corner::BackRight, Corner::BackLeft].map(|corner| marks(&corners, corner)));
        for (reading, off) in std::iter::zip(&mut readings, off) {
            match &mut reading.taken {
                Taken::Span(_, length) => *length += Length::new::<meter>(off),
                Taken::Marks(_, marks) => marks.between += Length::new::<meter>(off / 4.0),
            }
        }
        let Ok(here) = survey(Walls::Three, &readings) else { return Ok(()) };
        for there in [mirrored(&readings), turned(&readings)] {
            let there = survey(Walls::Three, &there).unwrap();
            prop_assert!((here.agreement.chi_square - there.agreement.chi_square).abs()
                < 1e-6 * (1.0 + here.agreement.chi_square));
            prop_assert!((here.area - there.area).value.abs() < 1e-8);
            for (one, other) in std::iter::zip(&here.fits, &there.fits) {
                prop_assert!((one.redundancy - other.redundancy).abs() < 1e-6);
                let (one, other) = (one.standardised.unwrap(), other.standardised.unwrap());
                prop_assert!((one - other).abs() < 1e-5 * (1.0 + one.abs()), "{} {}", one, other);
            }
        }
    }

    /// Whatever is read, it is solved with finite numbers or refused, and can be said.
    #[test]
    fn any_readings_are_solved_or_refused(
        walls in any_walls(),
        readings in prop::collection::vec(any_reading(), 0..14),
    ) {
        match survey(walls, &readings) {
            Ok(solved) => {
                prop_assert!(all_finite(&solved), "{:?}", solved);
                let spare: f64 = solved.fits.iter().map(|fit| fit.redundancy).sum();
                prop_assert!((spare - f64::from(solved.agreement.degrees_of_freedom)).abs() < 1e-3);
                prop_assert!(!words::verdict(&solved.verdict, &readings, Units::Inch).is_empty());
            }
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    prop_assert!(!words::problem(&problem, &readings, Units::Metric).is_empty());
                }
            }
        }
    }

    /// What is asked for where readings are too few fixes the shape.
    #[test]
    fn what_is_asked_for_fixes_the_shape(corners in opening(), keep in prop::array::uniform6(any::<bool>())) {
        let kept = std::iter::zip(spans(&corners), keep).filter(|(_, keep)| *keep);
        let mut readings: Vec<Reading> = kept.map(|(reading, _)| reading).collect();
        for _ in 0..6 {
            let Err(problems) = survey(Walls::Three, &readings) else { return Ok(()) };
            let [Problem::TooFew { take }] = problems.as_slice() else { panic!("{problems:?}") };
            let again = readings.iter().any(|reading| reading.taken.subject() == take[0]);
            prop_assert!(!again, "asks for {:?} again", take[0]);
            readings.push(match take[0] {
                Wanted::Span(span) => spans(&corners)[span as usize],
                Wanted::Marks(corner) => marks(&corners, corner),
            });
        }
        prop_assert!(survey(Walls::Three, &readings).is_ok());
    }

    /// Out and in again is where it was.
    #[test]
    fn out_and_in_again(corners in opening(), by in prop::array::uniform4(0.0..0.05)) {
        let out = by.map(Length::new::<meter>);
        let moved = offset_outline(&corners, &out);
        prop_assume!(moved.is_ok());
        let back = offset_outline(&moved.unwrap(), &out.map(|by| -by)).unwrap();
        for (found, expected) in std::iter::zip(back, corners) {
            prop_assert!(found.distance(expected) < 1e-9);
        }
    }

    /// A solved opening's own sides and angles, walked, give its corners.
    #[test]
    fn an_exact_walk_closes(corners in opening()) {
        let leg = |at: usize| WalkSide {
            angle: Angle::new::<radian>(inside_angle(&corners, Corner::ALL[at])),
            length: Length::new::<meter>(corners[at].distance(corners[(at + 1) % 4])),
        };
        let walk = walk_outline(&[leg(0), leg(1), leg(2), leg(3)]).unwrap();
        prop_assert!(walk.closure.get::<meter>() < 1e-12);
        for at in 1..4 {
            let off = walk.corners[at].distance(walk.corners[0]) - corners[at].distance(corners[0]);
            prop_assert!(off.abs() < 1e-9);
        }
    }

    /// Whatever is walked gives finite corners or is refused.
    #[test]
    fn any_walk_is_finite_or_refused(legs in prop::collection::vec((-10.0..400.0, any_length()), 0..9)) {
        let legs: Vec<WalkSide> =
            legs.into_iter().map(|(angle, length)| WalkSide { angle: Angle::new::<degree>(angle), length }).collect();
        if let Ok(walk) = walk_outline(&legs) {
            prop_assert!(walk.corners.iter().all(|corner| corner.is_finite()));
            prop_assert!(walk.closure.is_finite() && walk.direction.is_finite());
        }
    }
}
