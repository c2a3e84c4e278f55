//! Cutouts: reveals, templates, what they are measured from, doors and holes behind a bowl.

use kurbo::Point;
use pourwright::estimate::{Estimate, estimate};
use pourwright::finding::Severity;
use pourwright::job::{
    AcrossFrom, AlongFrom, Cutout, CutoutField, CutoutShape, Door, Entry, FieldPath, Hand, HolePattern, Holes,
    HolesField, HolesFrom, Job, OutlineShape, Reveal, TemplateCorner, TemplateField, Units, file,
};
use pourwright::measure::exact::in_inches;
use pourwright::plane::Opening;
use pourwright::price::PriceBook;
use pourwright::top::{Top, center_on_doors};
use pourwright::working::Known;
use std::f64::consts::PI;
use uom::si::area::square_inch;
use uom::si::length::meter;

const INCH: f64 = 0.0254;

/// 60 by 24 by 2 in with one rectangle of 18 by 14 in, its corners 2 in.
fn one_bowl() -> Job {
    let mut job = Job::new("check", Units::Inch);
    let piece = &mut job.pieces[0];
    piece.width = "60".into();
    piece.depth = "24".into();
    piece.cutouts.push(Cutout {
        width: "18".into(),
        depth: "14".into(),
        corner_radius: "2".into(),
        from_left: "20".into(),
        from_front: "11".into(),
        ..Cutout::default()
    });
    job
}

fn worked_out(job: &Job) -> Estimate {
    estimate(job, &PriceBook::default())
}

fn hole(job: &Job) -> Opening {
    Top::of(job, 0).cutouts.remove(0).expect("the cutout is known")
}

fn centre(job: &Job, cutout: usize) -> Point {
    let metres = Top::of(job, 0).cutout_center(cutout).expect("the cutout is known");
    Point::new(metres.x / INCH, metres.y / INCH)
}

#[track_caller]
fn says<T: std::fmt::Debug>(known: &Known<T>) -> (FieldPath, String) {
    let waiting = known.as_ref().expect_err("it waits");
    (waiting.needs()[0].place, crate::words(&waiting.needs()[0]))
}

#[track_caller]
fn assert_near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "{found} is not {expected}");
}

/// A shape moved out by d all round: A + P d + π d² where it has no sharp corner (Steiner's formula),
/// A + P d + 4 d² for a rectangle whose corners stay sharp.
#[test]
fn a_reveal_moves_the_hole_all_round() {
    let ellipse_perimeter = |job: &Job| Top::of(job, 0).bowls.remove(0).expect("the bowl is known").perimeter() / INCH;
    let rounded = (18.0 * 14.0 - (4.0 - PI) * 4.0, 2.0 * (18.0 + 14.0) - 8.0 * 2.0 + 4.0 * PI, PI);
    let sharp = (18.0 * 14.0, 64.0, 4.0);
    for (shape, radius) in [
        (CutoutShape::Rectangle, "2"),
        (CutoutShape::Rectangle, ""),
        (CutoutShape::Circle, ""),
        (CutoutShape::Ellipse, ""),
    ] {
        for (reveal, d) in [(Reveal::Flush, 0.0), (Reveal::Shows, 0.25), (Reveal::Covers, -0.25)] {
            let mut job = one_bowl();
            let cutout = &mut job.pieces[0].cutouts[0];
            cutout.shape = shape;
            cutout.corner_radius = radius.into();
            cutout.reveal = reveal;
            cutout.reveal_width = "1/4".into();
            let (area, perimeter, corner) = match (shape, radius) {
                (CutoutShape::Rectangle, "") => sharp,
                (CutoutShape::Rectangle, _) => rounded,
                (CutoutShape::Circle, _) => (PI * 81.0, PI * 18.0, PI),
                _ => (PI * 9.0 * 7.0, ellipse_perimeter(&job), PI),
            };
            let expected = area + perimeter * d + corner * d * d;
            assert_near(hole(&job).area() / (INCH * INCH), expected);
            let left = worked_out(&job).pieces[0].top.area.clone().expect("everything is known");
            assert_near(left.value.get::<square_inch>(), 60.0 * 24.0 - expected);
            assert_near(centre(&job, 0).x, 20.0);
        }
    }
}

/// Arithmetic: a rail is narrower by the reveal, and a covered corner of 5/8 in is cut with 3/8 in, under the
/// 1/2 in of common practice (no source).
#[test]
fn findings_look_at_the_hole_as_it_is_cut() {
    let mut job = one_bowl();
    let cutout = &mut job.pieces[0].cutouts[0];
    cutout.corner_radius = "5/8".into();
    cutout.from_front = "9 1/2".into();
    let corners = FieldPath::Cutout(0, 0, CutoutField::CornerRadius);
    let quiet = |job: &Job| worked_out(job).findings.iter().all(|finding| finding.place != corners);
    assert!(quiet(&job), "5/8 in is round enough");
    job.pieces[0].cutouts[0].reveal_width = "1/4".into();
    job.pieces[0].cutouts[0].reveal = Reveal::Covers;
    assert!(!quiet(&job), "but 3/8 in is not");
    job.pieces[0].cutouts[0].reveal = Reveal::Shows;
    assert!(quiet(&job));
    let front = FieldPath::Cutout(0, 0, CutoutField::FromFront);
    let found = worked_out(&job).findings;
    let rail = found.iter().find(|finding| finding.place == front).expect("2 1/4 in is narrow");
    assert_eq!(rail.severity, Severity::Watch);
    assert!(rail.says.write(&job).contains("2 1/4 in"), "{}", rail.says.write(&job));
}

/// A rim can be covered by less than the corner's radius; more leaves no concentric corner.
#[test]
fn a_reveal_without_room_says_so() {
    let mut job = one_bowl();
    let cutout = &mut job.pieces[0].cutouts[0];
    cutout.reveal = Reveal::Covers;
    cutout.reveal_width = "3".into();
    let place = FieldPath::Cutout(0, 0, CutoutField::RevealWidth);
    let top = Top::of(&job, 0);
    assert!(top.bowls[0].is_ok());
    assert_eq!(
        says(&top.cutouts[0]),
        (place, "Cutout 1, Reveal: the bowl has no room for that; about 2 in is the most.".to_owned())
    );
    job.pieces[0].cutouts[0].reveal_width = Entry::default();
    assert_eq!(says(&Top::of(&job, 0).cutouts[0]).0, place);
}

/// Subtraction: a rim of 21 × 16 in on a ledge of 1/2 in all round lies over a hole of 20 × 15 in. That a ledge is 1/2 in,
/// and not under 1/4 in, is common practice, no source.
#[test]
fn a_drop_in_bowl_is_cut_inside_its_rim() {
    let mut job = one_bowl();
    let cutout = &mut job.pieces[0].cutouts[0];
    (cutout.width, cutout.depth, cutout.reveal) = ("21".into(), "16".into(), Reveal::DropIn);
    let size = |job: &Job| {
        let bounds = hole(job).bounds();
        (bounds.width() / INCH, bounds.height() / INCH)
    };
    let ledge = FieldPath::Cutout(0, 0, CutoutField::RevealWidth);
    let found = |job: &Job| worked_out(job).findings.into_iter().find(|one| one.place == ledge);
    for typed in ["", "1/2"] {
        job.pieces[0].cutouts[0].reveal_width = typed.into();
        let (width, depth) = size(&job);
        assert_near(width, 20.0);
        assert_near(depth, 15.0);
        assert_eq!(found(&job), None);
    }
    assert_near(centre(&job, 0).x, 20.0);
    // The top keeps what the ledge lies on: its face and its weight are of the hole. Corners of 2 in become 1 1/2 in.
    let piece = worked_out(&job).pieces.remove(0);
    let face = 60.0 * 24.0 - (300.0 - (4.0 - PI) * 1.5 * 1.5);
    assert_near(piece.top.area.clone().expect("known").value.get::<square_inch>(), face);
    let knockout = piece.knockouts.cutouts[0].as_ref().expect("known");
    assert_near(knockout.foot.bounds().width() / INCH, 20.0);
    for (radius, corner) in [("1/2", 0.0), ("1/4", 0.0), ("1", 0.5)] {
        job.pieces[0].cutouts[0].corner_radius = radius.into();
        assert_near(hole(&job).area() / (INCH * INCH), 300.0 - (4.0 - PI) * corner * corner);
    }
    job.pieces[0].cutouts[0].reveal_width = "1/4".into();
    assert_eq!(found(&job), None);
    job.pieces[0].cutouts[0].reveal_width = "3/16".into();
    let narrow = found(&job).expect("too narrow");
    assert_eq!(narrow.severity, Severity::Watch);
    assert!(
        narrow.says.write(&job).contains("3/16 in") && narrow.says.write(&job).contains("fall through"),
        "{}",
        narrow.says.write(&job)
    );
    job.pieces[0].cutouts[0].reveal_width = "7 15/16".into();
    assert_near(size(&job).1, 0.125);
    assert!(found(&job).is_none_or(|one| one.severity != Severity::Stop));
    job.pieces[0].cutouts[0].reveal_width = "8".into();
    assert!(Top::of(&job, 0).cutouts[0].is_err());
    assert_eq!(found(&job).expect("nothing is left").severity, Severity::Stop);
}

/// Subtraction: 60 − 40 in from the right end and 24 − 13 in from the back edge are 20 in and 11 in.
#[test]
fn ends_edges_and_doors_give_the_same_place() {
    let plain = hole(&one_bowl());
    let mut job = one_bowl();
    let piece = &mut job.pieces[0];
    let cutout = &mut piece.cutouts[0];
    (cutout.across, cutout.from_right) = (AcrossFrom::Right, "40".into());
    (cutout.along, cutout.from_back) = (AlongFrom::Back, "13".into());
    (cutout.from_left, cutout.from_front) = (Entry::default(), Entry::default());
    let other = hole(&job);
    assert_near(other.bounds().x0, plain.bounds().x0);
    assert_near(other.bounds().y1, plain.bounds().y1);
    for (door, off, side) in [("20", "", Hand::Left), ("22 1/2", "2 1/2", Hand::Left), ("17", "3", Hand::Right)] {
        job.pieces[0].doors = vec![Door { from_left: door.into() }];
        let cutout = &mut job.pieces[0].cutouts[0];
        (cutout.across, cutout.door) = (AcrossFrom::Door, Some(0));
        (cutout.from_door, cutout.door_side) = (off.into(), side);
        assert_near(centre(&job, 0).x, 20.0);
    }
    // Whatever it is measured from, what would have to be typed for where it is now is what was typed.
    let top = Top::of(&job, 0);
    let cutout = &job.pieces[0].cutouts[0];
    let at = top.cutout_center(0).expect("it is placed");
    assert_near(in_inches(top.across_at(&job, 0, cutout, at.x).expect("the door is known")), 3.0);
    assert_near(in_inches(top.along_at(cutout, at.y).expect("the outline is known")), 13.0);
}

/// A mirror image by definition: of an L with its leg at the other end, from the other end.
#[test]
fn a_mirrored_job_mirrors_its_cutouts() {
    let mut job = one_bowl();
    let piece = &mut job.pieces[0];
    (piece.shape, piece.leg, piece.front_depth) = (OutlineShape::L, "12".into(), "20".into());
    let left = Top::of(&job, 0);
    let piece = &mut job.pieces[0];
    piece.hand = Hand::Right;
    let cutout = &mut piece.cutouts[0];
    (cutout.across, cutout.from_right) = (AcrossFrom::Right, "20".into());
    let right = Top::of(&job, 0);
    let widths = |top: &Top| {
        let mut widths: Vec<f64> = top.rails.iter().map(|rail| rail.width.get::<meter>()).collect();
        widths.sort_by(f64::total_cmp);
        widths
    };
    assert_eq!(widths(&left).len(), widths(&right).len());
    for (one, other) in widths(&left).into_iter().zip(widths(&right)) {
        assert_near(one, other);
    }
}

/// Ends and edges are those of the bounds: a front that bows out by 2 in is the front edge at its crown.
#[test]
fn a_bowed_front_is_measured_from_its_crown() {
    let mut job = one_bowl();
    job.pieces[0].bow = "2".into();
    let crown = Top::of(&job, 0).outline.expect("the outline is known").bounds().y0 / INCH;
    assert_near(crown, -2.0);
    assert_near(centre(&job, 0).y, 9.0);
}

#[test]
fn two_bowls_go_on_two_doors_in_one_tap() {
    let mut job = one_bowl();
    let piece = &mut job.pieces[0];
    let mut second = piece.cutouts[0].clone();
    second.from_left = "5".into();
    piece.cutouts.push(second);
    // Doors typed from right to left; the second cutout is the left one.
    piece.doors = vec![Door { from_left: "44 1/4".into() }, Door { from_left: "15 3/4".into() }];
    assert!(center_on_doors(&mut job, 0));
    assert_near(centre(&job, 0).x, 44.25);
    assert_near(centre(&job, 1).x, 15.75);
    assert_eq!(job.pieces[0].cutouts[0].from_left.text(), "20", "what was typed before is kept");

    job.pieces[0].doors.push(Door { from_left: "30".into() });
    let before = job.clone();
    assert!(!center_on_doors(&mut job, 0), "three doors, two bowls");
    job.pieces[0].doors.pop();
    job.pieces[0].doors[0].from_left = "44 1/".into();
    assert!(!center_on_doors(&mut job, 0), "a door that cannot be read");
    assert_eq!(job.pieces[0].cutouts, before.pieces[0].cutouts);
    assert!(!center_on_doors(&mut job, 7));
}

#[test]
fn a_door_that_is_gone_is_asked_for() {
    let mut job = one_bowl();
    let piece = &mut job.pieces[0];
    piece.cutouts.push(piece.cutouts[0].clone());
    piece.doors = vec![Door { from_left: "15".into() }, Door { from_left: "45".into() }];
    assert!(center_on_doors(&mut job, 0));
    let on: Vec<_> = job.pieces[0].cutouts.iter().map(|cutout| cutout.door).collect();
    assert_eq!(on, [Some(0), Some(1)]);
    job.pieces[0].remove_door(0);
    assert_near(centre(&job, 1).x, 45.0);
    let top = Top::of(&job, 0);
    let (place, words) = says(&top.cutouts[0]);
    assert_eq!(place, FieldPath::Cutout(0, 0, CutoutField::FromDoor));
    assert!(words.contains("choose one"), "{words}");
    assert!(top.area.is_err());
}

fn corner(from_left: &str, from_front: &str, radius: &str) -> TemplateCorner {
    TemplateCorner { from_left: from_left.into(), from_front: from_front.into(), radius: radius.into() }
}

/// Closed form: 16 by 10 in less a 6 by 4 in notch, three corners rounded: (1 − π/4) r² off a convex one and
/// on at the inside one. The template may lie anywhere on its paper and be walked either way round.
#[test]
fn a_paper_template_is_cut_as_it_is() {
    let mut corners = vec![
        corner("1", "1", "1"),
        corner("17", "1", "1"),
        corner("17", "11", ""),
        corner("11", "11", ""),
        corner("11", "7", "1/2"),
        corner("1", "7", ""),
    ];
    let quarter = 1.0 - PI / 4.0;
    let expected = 16.0 * 6.0 + 6.0 * 4.0 - 2.0 * quarter + quarter / 4.0;
    for _ in 0..2 {
        let mut job = one_bowl();
        let cutout = &mut job.pieces[0].cutouts[0];
        cutout.shape = CutoutShape::Polygon;
        (cutout.width, cutout.depth) = (Entry::default(), Entry::default());
        cutout.template = corners.clone();
        let shape = hole(&job);
        assert_near(shape.area() / (INCH * INCH), expected);
        assert_near(shape.bounds().center().x / INCH, 20.0);
        assert_near(shape.bounds().center().y / INCH, 11.0);
        let sharp =
            worked_out(&job).findings.into_iter().find(|finding| matches!(finding.place, FieldPath::Template(..)));
        assert!(
            sharp.is_some_and(|finding| finding.says.write(&job).contains("are sharp")),
            "three of its corners are"
        );
        corners.reverse();
    }
}

#[test]
fn a_template_that_gives_no_shape_says_where() {
    let mut job = one_bowl();
    job.pieces[0].cutouts[0].shape = CutoutShape::Polygon;
    let wait = |job: &Job| {
        let top = Top::of(job, 0);
        let (place, words) = says(&top.cutouts[0]);
        (place, words.to_owned())
    };
    assert_eq!(wait(&job).0, FieldPath::Cutout(0, 0, CutoutField::FromLeft), "a field that is shown");
    let at = |corner, field| FieldPath::Template(0, 0, corner, field);
    job.pieces[0].cutouts[0].template = vec![TemplateCorner::default(); 3];
    assert_eq!(wait(&job).0, at(0, TemplateField::FromLeft));
    // A bow tie.
    job.pieces[0].cutouts[0].template =
        vec![corner("0", "0", ""), corner("10", "8", ""), corner("10", "0", ""), corner("0", "8", "")];
    assert!(wait(&job).1.contains("must not cross"));
    // 10 by 8 in: 4 in at two neighbours take the whole of the side between them, 5 in do not fit.
    job.pieces[0].cutouts[0].template =
        vec![corner("0", "0", ""), corner("10", "0", "4"), corner("10", "8", "5"), corner("0", "8", "")];
    let (place, words) = wait(&job);
    assert!(matches!(place, FieldPath::Template(0, 0, 1 | 2, TemplateField::Radius)), "{place:?}");
    assert!(words.contains("no room"), "{words}");
}

/// 11 + 14/2 + 2 1/4 in behind the front, wherever the bowl goes; the reveal does not move the faucet.
#[test]
fn holes_stay_centred_behind_their_bowl() {
    let mut job = one_bowl();
    job.pieces[0].holes.push(Holes {
        pattern: HolePattern::Three,
        diameter: "1 3/8".into(),
        spread: "8".into(),
        placed: HolesFrom::Bowl,
        cutout: Some(0),
        behind: "2 1/4".into(),
        ..Holes::default()
    });
    let middle = |job: &Job| Top::of(job, 0).holes_center(0).expect("the holes are known");
    assert_near(middle(&job).x / INCH, 20.0);
    assert_near(middle(&job).y / INCH, 20.25);
    let cutout = &mut job.pieces[0].cutouts[0];
    (cutout.from_left, cutout.reveal, cutout.reveal_width) = ("31".into(), Reveal::Shows, "1/4".into());
    assert_near(middle(&job).x / INCH, 31.0);
    assert_near(middle(&job).y / INCH, 20.25);
    let top = Top::of(&job, 0);
    let typed = top.holes_at(&job.pieces[0].holes[0], middle(&job));
    assert_eq!(typed[0].0, HolesField::Behind);
    assert_near(in_inches(typed[0].1), 2.25);

    // While the bowl waits, so do they; once it is gone, they ask for another.
    job.pieces[0].cutouts[0].width = Entry::default();
    assert_eq!(says(&Top::of(&job, 0).holes[0]).0, FieldPath::Cutout(0, 0, CutoutField::Width));
    job.pieces[0].remove_cutout(0);
    let top = Top::of(&job, 0);
    let (place, words) = says(&top.holes[0]);
    assert_eq!(place, FieldPath::Holes(0, 0, HolesField::Behind));
    assert!(words.contains("is not there"), "{words}");
}

#[test]
fn removing_a_cutout_leaves_the_other_holes_where_they_were() {
    let mut job = one_bowl();
    let piece = &mut job.pieces[0];
    piece.cutouts.push(Cutout { from_left: "45".into(), ..piece.cutouts[0].clone() });
    let set = |cutout| Holes {
        diameter: "1 3/8".into(),
        placed: HolesFrom::Bowl,
        cutout: Some(cutout),
        behind: "2".into(),
        ..Holes::default()
    };
    piece.holes = vec![set(0), set(1)];
    piece.remove_cutout(0);
    assert_eq!((piece.holes[0].cutout, piece.holes[1].cutout), (None, Some(0)));
    assert_near(Top::of(&job, 0).holes_center(1).expect("its bowl is there").x / INCH, 45.0);
}

/// Everything that was typed comes back, and a job whose indices lead nowhere waits.
#[test]
fn a_job_comes_back_as_it_was_and_never_panics() {
    let mut job = one_bowl();
    let piece = &mut job.pieces[0];
    piece.doors = vec![Door { from_left: "15 1/".into() }];
    let cutout = &mut piece.cutouts[0];
    (cutout.shape, cutout.reveal) = (CutoutShape::Polygon, Reveal::Covers);
    (cutout.across, cutout.door, cutout.along) = (AcrossFrom::Door, Some(9), AlongFrom::Back);
    cutout.template = vec![corner("0", "x", "1/")];
    piece.holes = vec![Holes { placed: HolesFrom::Bowl, cutout: Some(usize::MAX), ..Holes::default() }];
    assert_eq!(file::read(&file::write(&job)).as_ref(), Ok(&job));
    let top = Top::of(&job, 0);
    assert!(top.cutouts[0].is_err() && top.holes[0].is_err() && top.area.is_err());
    job.pieces[0].remove_cutout(usize::MAX);
    job.pieces[0].remove_door(usize::MAX);
}

/// Version 1 knew none of this: its cutouts are flush, and measured from the left end and the front edge.
#[test]
fn cutouts_of_the_first_version_stay_where_they_were() {
    let sample = file::read(include_str!("../samples/job-v1.json")).expect("a shipped file is read");
    let cutout = &sample.pieces[0].cutouts[0];
    assert_eq!((cutout.across, cutout.along, cutout.reveal), (AcrossFrom::Left, AlongFrom::Front, Reveal::Flush));
    assert_eq!((cutout.from_left.text(), cutout.from_front.text()), ("67 1/", "245"));
    assert_eq!(sample.pieces[0].holes[0].placed, HolesFrom::Edges);
}

/// An L of 84 by 60 in whose leg at the left is 25 wide: the cutout of 18 by 16 at 53 from the left leaves 84 - 53 - 9 =
/// 22 to its right. The leg's inner edge, which looks right as well, lies on the cutout's left, 19 away across and
/// 4 1/2 along: hypot(19, 4 1/2) = 19.526 to the inner corner. Counted by hand.
#[test]
fn an_inner_edge_to_the_left_is_no_rail_to_the_right() {
    let mut job = crate::job_of("84", "60", "2");
    let piece = &mut job.pieces[0];
    (piece.shape, piece.leg, piece.front_depth) = (OutlineShape::L, "25".into(), "25".into());
    piece.cutouts = vec![Cutout {
        width: "18".into(),
        depth: "16".into(),
        from_left: "53".into(),
        from_front: "12 1/2".into(),
        ..Cutout::default()
    }];
    let all = crate::worked_out(&job);
    let rails = all.pieces[0].top.rails_beside(&job, 0, 0);
    let width = |name: &str| rails.iter().find(|(said, _)| said.contains(name)).map(|(_, width)| in_inches(*width));
    let right = width("right of").expect("a rail to the right");
    assert!((right - 22.0).abs() < 1e-6, "{rails:?}");
    let left = width("left of").expect("a rail to the left");
    assert!((left - 19.0_f64.hypot(4.5)).abs() < 1e-6, "{rails:?}");
}
