//! The parts of a form: cut lengths, saw angles, blanks.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within, job_of, two_sinks, worked_out};
use kurbo::Point;
use pourwright::form::{Bending, EndCut, Face, Form, FormInputs, Made, Part, Straight};
use pourwright::job::{Bend, Corner, CornerKind, Job, OutlineShape, Piece, SideStand, Units};
use pourwright::measure::Length;
use pourwright::plane::Outline;
use pourwright::top::Top;
use uom::si::angle::degree;
use uom::si::length::{inch, meter};

checks![an_out_of_square_top_is_mitred];

const INCH: f64 = 0.0254;
/// A tenth of what a saw is set to, inches.
const TENTH_OF_A_SIXTY_FOURTH: f64 = 1.0 / 640.0;

fn form(job: &Job) -> Form {
    worked_out(job).pieces[0].form.clone().unwrap()
}

/// The form around corners in inches, boards of 3/4 in.
fn form_around(corners: &[(f64, f64)]) -> Form {
    let job = job_of("60", "22", "2");
    let corners: Vec<_> = corners.iter().map(|(x, y)| Point::new(x * INCH, y * INCH)).collect();
    let mut top = Top::of(&job, 0);
    top.outline = Ok(Outline::polygon(&corners).unwrap());
    Form::of(&top, &FormInputs::read(&job, 0)).unwrap()
}

fn l() -> Job {
    let mut job = job_of("84", "60", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::L;
    piece.leg = "25 1/2".into();
    piece.front_depth = "25 1/2".into();
    job
}

fn parts(form: &Form) -> &[Part] {
    form.parts.as_ref().unwrap()
}

fn straight(part: &Part) -> &Straight {
    match &part.made {
        Made::Straight(side) => side,
        other => panic!("{other:?}"),
    }
}

fn inches(length: Length) -> f64 {
    length.get::<inch>()
}

#[track_caller]
fn assert_saw(cut: EndCut, degrees: f64, long_face: Face) {
    let EndCut::Mitred { saw, long } = cut else { panic!("{cut:?}") };
    assert_within(saw.get::<degree>(), degrees, 1e-3);
    assert_eq!(long, long_face);
}

/// By hand: clear 67 × 20 in boards of 3/4; front and back run past, left and right butt.
#[test]
fn a_rectangle_is_a_base_and_four_sides() {
    let job = two_sinks();
    let form = form(&job);
    let found = parts(&form);
    let marks: Vec<_> = found.iter().map(|part| part.mark.as_str()).collect();
    assert_eq!(marks, ["B1", "S1", "S2", "S3", "S4"]);
    for (part, length) in found[1..].iter().zip([68.5, 20.0, 68.5, 20.0]) {
        assert_close(inches(part.length), length, EXACT);
        assert_close(inches(part.width), 2.75, EXACT);
        assert_close(inches(part.thickness), 0.75, EXACT);
        assert_eq!(part.count, 1);
    }
    assert!(straight(&found[1]).ends.iter().all(|end| end.cut == EndCut::RunsPast));
    assert!(straight(&found[2]).ends.iter().all(|end| end.cut == EndCut::Butts));
    let typed = &job.pieces[0];
    assert_eq!(found[1].name(&form.clear, typed), "Front side");
    let words = found[2].ends_words(&form.clear, typed, Units::Inch);
    assert_eq!(words, "square, butts against Front; square, butts against Back");

    let Made::Base(base) = &found[0].made else { panic!("{found:?}") };
    assert!(!base.shaped);
    assert_close(inches(base.blank_diagonal), 4889.0_f64.sqrt(), EXACT);
    assert_eq!(base.diagonals.len(), 2);
    for diagonal in &base.diagonals {
        assert_close(inches(diagonal.length), 4889.0_f64.sqrt(), EXACT);
    }
    assert_eq!(form.clashes(), []);
}

/// Marks tell the pieces of a job apart.
#[test]
fn marks_of_two_pieces() {
    let mut job = job_of("40", "20", "2");
    let second = Piece { name: "Other".into(), ..job.pieces[0].clone() };
    job.pieces.push(second);
    let marks = |piece: usize| {
        let form = worked_out(&job).pieces[piece].form.clone().unwrap();
        parts(&form).iter().map(|part| part.mark.clone()).collect::<Vec<_>>()
    };
    assert_eq!(marks(0)[..2], ["1-B1", "1-S1"]);
    assert_eq!(marks(1)[..2], ["2-B1", "2-S1"]);
}

/// G7, an out-of-square top: front 61, left and right 22, 92° and 87° in front; by trigonometry the back is
/// 60.6164, the diagonals are 63.75367 and 65.56425, and the front's outside is longer at each end by the
/// board ÷ the tangent of half the angle.
fn an_out_of_square_top_is_mitred(evidence: &mut Evidence) {
    let form = form_around(&[(0.0, 0.0), (61.0, 0.0), (59.84861, 21.96985), (-0.76779, 21.98660)]);
    let found = parts(&form);
    let front = straight(&found[1]);
    let Made::Base(base) = &found[0].made else { panic!("{found:?}") };
    assert!(base.shaped);
    let table = evidence.check(Check {
        label: "G7",
        title: "Sides of an out-of-square form",
        source: "Trigonometry of the quadrilateral: front 61, left and right 22 in, 92° at the left and 87° at the right",
        marks: &[Mark::Computed("shapely 2.2.0"), Mark::ByHand],
        problem: "boards of 3/4 in, mitred: the outside of the front is longer at each end by the board ÷ tan of half the \
            angle",
        conventions: "The saw is set to 90° less half the angle.",
        modelled: "form::Form of that outline: cut list, saw angles, diagonals of the base",
        gap: "The corners go in with five places.",
        ..Check::default()
    });
    table.within("front, inside, in", inches(front.inside), 61.0, TENTH_OF_A_SIXTY_FOURTH);
    table.within("front, outside, in", inches(front.outside), 62.51461, TENTH_OF_A_SIXTY_FOURTH);
    table.within("back, inside, in", inches(straight(&found[3]).inside), 60.6164, TENTH_OF_A_SIXTY_FOURTH);
    for (what, end, degrees) in [("left", front.ends[0], 44.0), ("right", front.ends[1], 46.5)] {
        let EndCut::Mitred { saw, long } = end.cut else { panic!("{end:?}") };
        table.within(format!("saw at the {what}, °"), saw.get::<degree>(), degrees, 1e-3);
        assert_eq!(long, Face::Outside);
    }
    table.within("one diagonal of the base, in", inches(base.diagonals[0].length), 63.75367, 1e-4);
    table.within("the other diagonal, in", inches(base.diagonals[1].length), 65.56425, 1e-4);
    assert_eq!(found[1].length, front.outside);
}

/// Trigonometry: a corner clipped at 45° is mitred with the saw at 22.5°, and its outside is longer by twice
/// the board × tan 22.5°. On the base, which is marked out as the form is seen, it lies left.
#[test]
fn a_clipped_corner() {
    let mut job = job_of("60", "22", "2");
    let clip = Corner { kind: CornerKind::Clipped, before: "5".into(), after: "5".into(), ..Corner::default() };
    job.pieces[0].corners = vec![Corner::default(), clip];
    let form = form(&job);
    let found = parts(&form);
    let clip = straight(&found[2]);
    assert_close(inches(clip.inside), 50.0_f64.sqrt(), EXACT);
    assert_close(inches(clip.outside), 50.0_f64.sqrt() + 1.5 * 22.5_f64.to_radians().tan(), EXACT);
    for end in clip.ends {
        assert_saw(end.cut, 22.5, Face::Outside);
    }
    // Past the left by a board, and to the long point of the mitre.
    let front = straight(&found[1]);
    assert_eq!(front.ends[0].cut, EndCut::RunsPast);
    assert_close(inches(found[1].length), 55.0 + 0.75 + 0.75 * 22.5_f64.to_radians().tan(), EXACT);
    let Made::Base(base) = &found[0].made else { panic!("{found:?}") };
    let marked: Vec<_> =
        base.corners.iter().map(|corner| (inches(corner.from_left), inches(corner.from_front))).collect();
    let expected = [(60.0, 0.0), (5.0, 0.0), (0.0, 5.0), (0.0, 22.0), (60.0, 22.0)];
    for (found, expected) in marked.iter().zip(expected) {
        assert_within(found.0, expected.0, 1e-9);
        assert_within(found.1, expected.1, 1e-9);
    }
    assert_eq!(marked.len(), expected.len());
}

/// By hand: at the inside corner the inner back ends there and shows, and the inner right butts against its
/// back, a board short. Sides on the base take it a board further all round.
#[test]
fn the_inside_corner_of_an_l() {
    let mut job = l();
    let form = self::form(&job);
    let found = parts(&form);
    for (part, length) in found[1..].iter().zip([85.5, 25.5, 59.25, 33.75, 27.0, 60.0]) {
        assert_close(inches(part.length), length, EXACT);
    }
    assert_eq!(found.len(), 7);
    let cuts = |part: &Part| straight(part).ends.map(|end| end.cut);
    assert_eq!(cuts(&found[3]), [EndCut::RunsPast, EndCut::Shows]);
    assert_eq!(cuts(&found[4]), [EndCut::ButtsBehind, EndCut::Butts]);
    // G4: 3021.75 in²; with 3/4 in outside it all round, (85.5 × 61.5) less 58.5 × 34.5.
    let area = |form: &Form| match &parts(form)[0].made {
        Made::Base(base) => base.outline.area() / (INCH * INCH),
        other => panic!("{other:?}"),
    };
    assert_close(area(&form), 3021.75, EXACT);
    job.form.sides = SideStand::OnBase;
    assert_close(area(&self::form(&job)), 85.5 * 61.5 - 58.5 * 34.5, EXACT);
}

/// An inside corner rounded by less than the board is no part of its own: the end that shows is rounded over.
/// A larger one takes a strip, in line with its neighbours.
#[test]
fn a_rounded_inside_corner() {
    let mut job = l();
    let rounded = |radius: &str| Corner { kind: CornerKind::Rounded, radius: radius.into(), ..Corner::default() };
    *job.pieces[0].corner_mut(3) = rounded("1/2");
    let form = self::form(&job);
    let found = parts(&form);
    assert_eq!(found.len(), 7);
    let shows = straight(&found[3]).ends[1];
    assert_eq!(shows.cut, EndCut::Shows);
    assert_close(inches(shows.rounded.unwrap()), 0.5, EXACT);
    assert_close(inches(found[3].length), 59.25, EXACT);
    assert_close(inches(found[4].length), 33.75, EXACT);

    *job.pieces[0].corner_mut(3) = rounded("2");
    let form = self::form(&job);
    let found = parts(&form);
    assert_eq!(found.len(), 8);
    let Made::Strip(strip) = &found[4].made else { panic!("{:?}", found[4]) };
    // Hollow towards the outside: its middle is shorter than its face.
    assert_eq!(strip.arc.hollow, Face::Outside);
    assert_close(inches(strip.arc.radius), 2.0, EXACT);
    assert!(strip.ends.iter().all(|end| end.cut == EndCut::Meets));
    assert_close(inches(found[3].length), 59.25 - 2.0, EXACT);
}

/// Closed forms: a quarter of a circle of 6 in. A strip of 1/8 in with its kerfs leaves a web of 1/16 in,
/// whose middle lies 1/32 in behind the face; flats that stand off the arc by 1/64 in are √(8 × 6 ÷ 64) in
/// long. Layers of 3/4 in reach 2 1/4 in of 2 3/4 in; the blank holds a ring from 6 to 6 3/4 in.
#[test]
fn a_rounded_corner_is_bent_or_cut_from_layers() {
    let mut job = job_of("60", "22", "2");
    job.pieces[0].corners = vec![Corner { kind: CornerKind::Rounded, radius: "6".into(), ..Corner::default() }];
    let form = self::form(&job);
    let part = &parts(&form)[5];
    let Made::Strip(strip) = &part.made else { panic!("{part:?}") };
    let Bending::Kerfed(kerfs) = strip.bending else { panic!("{part:?}") };
    assert_eq!(kerfs.count, 11);
    assert_close(inches(kerfs.spacing), 0.85680, 1e-5);
    assert_close(inches(kerfs.web), 0.0625, EXACT);
    assert_close(inches(part.length), 9.47387, 1e-5);
    assert_close(inches(part.thickness), 0.125, EXACT);

    // 36.87° closes in every kerf of 1/8 in that is 3/16 in deep: 2 atan(1/3).
    let closing = |radius: &str, strip: &str| {
        let mut job = job.clone();
        job.pieces[0].corners[0].radius = radius.into();
        job.form.strip = strip.into();
        let form = self::form(&job);
        let Made::Strip(strip) = &parts(&form)[5].made else { panic!() };
        strip.bending
    };
    assert_eq!(closing("12", "1/8"), Bending::Freely);
    assert_eq!(closing("6", "1/16"), Bending::TooStiff);
    let Bending::Kerfed(kerfs) = closing("1/8", "1/4") else { panic!() };
    assert_eq!(kerfs.count, 3, "90 ÷ 36.87");
    let deep = 2.0 * (1.0_f64 / 3.0).atan();
    assert!(f64::from(kerfs.count) * deep >= std::f64::consts::FRAC_PI_2);

    job.form.bend = Bend::Layers;
    let form = self::form(&job);
    let part = &parts(&form)[5];
    let Made::Layers(layers) = &part.made else { panic!("{part:?}") };
    assert_eq!(part.count, 3);
    assert_close(inches(layers.shim), 0.5, EXACT);
    assert_close(inches(part.length), 9.54594, 1e-5);
    assert_close(inches(part.width), 2.50736, 1e-5);
    // The blank holds the ring as it stands.
    let solid = part.solid.as_ref().unwrap().rotated(std::f64::consts::FRAC_PI_4, Point::ORIGIN);
    assert_close(solid.bounds().width(), part.length.get::<meter>(), EXACT);
    assert_close(solid.bounds().height(), part.width.get::<meter>(), EXACT);
    // Exactly three layers where sides of 2 1/4 in stand on the base.
    job.form.sides = SideStand::OnBase;
    job.pieces[0].thickness = "2 1/4".into();
    let form = self::form(&job);
    let Made::Layers(layers) = &parts(&form)[5].made else { panic!() };
    assert_eq!((parts(&form)[5].count, layers.shim), (3, Length::default()));
}

/// A slot that two boards have no room in is said, and a form waits for the strip only where one is bent.
#[test]
fn what_cannot_be_built_is_said() {
    let mut job = job_of("60", "40", "2");
    let piece = &mut job.pieces[0];
    piece.shape = OutlineShape::U;
    piece.leg = "29 1/2".into();
    piece.right_leg = "29 1/2".into();
    piece.right_depth = "40".into();
    piece.front_depth = "20".into();
    let clashes = |job: &Job| {
        worked_out(job).findings.iter().filter(|found| found.says.write(job).contains("in each other's way")).count()
    };
    assert!(clashes(&job) > 0, "a slot of 1 in between boards of 3/4 in");
    job.pieces[0].leg = "28".into();
    assert_eq!(clashes(&job), 0, "a slot of 2 1/2 in");
    job.form.strip = "".into();
    assert!(form(&job).parts.is_ok());
    job.pieces[0].corners = vec![Corner { kind: CornerKind::Rounded, radius: "6".into(), ..Corner::default() }];
    assert!(form(&job).parts.is_err());
    job.form.bend = Bend::Layers;
    assert!(form(&job).parts.is_ok());
}

/// Saws tilt to about 47°, from memory: a corner of 85° asks for 47.5°, one of 87° for 46.5°.
#[test]
fn a_saw_that_does_not_tilt_so_far() {
    let says = |angle: f64| {
        let (sine, cosine) = angle.to_radians().sin_cos();
        let mut job = job_of("60", "22", "2");
        let piece = &mut job.pieces[0];
        piece.shape = OutlineShape::Walked;
        let leg = |length: f64, angle: f64| pourwright::job::Leg {
            length: format!("{length:.6} in").as_str().into(),
            angle: format!("{angle:.6}").as_str().into(),
            bow: "".into(),
        };
        // A parallelogram.
        piece.walk = vec![leg(60.0, angle), leg(22.0, 180.0 - angle), leg(60.0, angle), leg(22.0, 180.0 - angle)];
        assert!(sine > 0.0 && cosine > 0.0);
        worked_out(&job).findings.iter().filter(|found| found.says.write(&job).contains("saws tilt to")).count()
    };
    assert!(says(85.0) > 0);
    assert_eq!(says(87.0), 0);
}
