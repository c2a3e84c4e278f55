//! Moving the parts of a piece about: what is typed for a part to lie somewhere. A distance that would be less than
//! nothing is never typed as another one: what asked for it is refused.

use super::{Top, doors};
use crate::finding::say;
use crate::job::{AcrossFrom, AlongFrom, CutoutField, Door, Entry, FieldPath, Hand, Job};
use crate::measure::geometry_tolerance;
use crate::measure::{Length, Units, read_length, write_length};
use uom::si::length::{inch, millimeter};

/// The step from one mark of the tape that things are dragged by to the next.
pub fn tape_step(units: Units) -> Length {
    match units {
        Units::Inch => Length::new::<inch>(0.125),
        Units::Metric => Length::new::<millimeter>(5.0),
    }
}

/// A length as it is typed: without its unit.
fn typed_length(length: Length, units: Units) -> Entry {
    Entry::new(write_length(length, units).bare())
}

/// On which side of a door's centre that distance lies; nothing on the centre itself.
fn side_of(length: Length) -> Option<Hand> {
    if length < Length::default() { Some(Hand::Left) } else { (length > Length::default()).then_some(Hand::Right) }
}

/// Types a distance at the nearest mark of the tape, and the side of the door where it is measured from one. Says
/// whether the job has changed; it stays as it is where the distance would be less than nothing.
pub fn type_distance(job: &mut Job, place: FieldPath, distance: Length) -> bool {
    let step = tape_step(job.units);
    let marks = (distance / step).value.round();
    let off_door = matches!(place, FieldPath::Cutout(_, _, CutoutField::FromDoor));
    if marks < 0.0 && !off_door {
        return false;
    }
    let distance = step * marks;
    let text = typed_length(distance.abs(), job.units);
    let mut changed = false;
    if let Some(entry) = job.entry_at_mut(place).filter(|entry| **entry != text) {
        *entry = text;
        changed = true;
    }
    if let (FieldPath::Cutout(piece, index, CutoutField::FromDoor), Some(side)) = (place, side_of(distance))
        && let Some(cutout) = job.pieces.get_mut(piece).and_then(|piece| piece.cutouts.get_mut(index))
        && cutout.door_side != side
    {
        cutout.door_side = side;
        changed = true;
    }
    changed
}

/// Measures a cutout from somewhere else, left to right or front to back. It stays where it is: the entry of its new
/// reference is written, unless what is typed there already says the same. Whoever chooses a door wants the bowl
/// centred on it, not as far off it as it is: nothing is written for one.
///
/// # Errors
/// Why it cannot be measured from there, and what to do: its centre lies past that end or edge. The job is as it was.
pub fn measure_from(
    job: &mut Job,
    top: &Top,
    (piece, index): (usize, usize),
    across: Option<AcrossFrom>,
    along: Option<AlongFrom>,
) -> Result<(), String> {
    let units = job.units;
    let Some(mut cutout) = job.pieces.get(piece).and_then(|piece| piece.cutouts.get(index)).cloned() else {
        return Ok(());
    };
    cutout.across = across.unwrap_or(cutout.across);
    cutout.along = along.unwrap_or(cutout.along);
    let mut written = Vec::new();
    if let Some(center) = top.cutout_center(index) {
        let across = across.filter(|from| *from != AcrossFrom::Door).and_then(|from| {
            let (near, far) = match from {
                AcrossFrom::Left => ("left end", "right end"),
                AcrossFrom::Right | AcrossFrom::Door => ("right end", "left end"),
            };
            Some((cutout.across_field(), top.across_at(&doors(job, piece), &cutout, center.x)?, near, far))
        });
        let along = along.and_then(|from| {
            let (near, far) = match from {
                AlongFrom::Front => ("front edge", "back edge"),
                AlongFrom::Back => ("back edge", "front edge"),
            };
            Some((cutout.along_field(), top.along_at(&cutout, center.y)?, near, far))
        });
        for (field, distance, near, far) in across.into_iter().chain(along) {
            if distance < -geometry_tolerance() {
                return Err(format!(
                    "The centre of cutout {} lies {} past the {near}, so it cannot be measured from there. Measure it \
                     from the {far}, or move it onto the piece first.",
                    index + 1,
                    say::length(-distance, units)
                ));
            }
            written.push((field, typed_length(distance.max(Length::default()), units)));
        }
    }
    let Some(typed) = job.pieces.get_mut(piece) else { return Ok(()) };
    if cutout.across == AcrossFrom::Door {
        if typed.doors.is_empty() {
            typed.doors.push(Door::default());
        }
        cutout.door = cutout.door.or(Some(index.min(typed.doors.len() - 1)));
    }
    for (field, text) in written {
        let entry = cutout.entry_mut(field);
        let says_so = read_length(entry.text(), units).is_ok_and(|read| typed_length(read, units) == text);
        if !says_so {
            *entry = text;
        }
    }
    if let Some(own) = typed.cutouts.get_mut(index) {
        *own = cutout;
    }
    Ok(())
}

/// The width of a rail, in words; two things that run into each other, or past the outline, overlap by so much.
pub fn rail_words(width: Length, units: Units) -> String {
    if width < -geometry_tolerance() {
        format!("none: overlaps by {}", say::length(-width, units))
    } else {
        write_length(width.max(Length::default()), units).to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Cutout, HolesField, PieceField};
    use crate::measure::exact::inches;
    use crate::top::TopInputs;

    /// 60 × 24 in with one cutout of 10 × 8 in, typed from the left and from the front.
    fn job(from_left: &str, from_front: &str) -> Job {
        let mut job = Job::new("a", Units::Inch);
        let piece = &mut job.pieces[0];
        (piece.width, piece.depth) = ("60".into(), "24".into());
        piece.cutouts = vec![Cutout {
            width: "10".into(),
            depth: "8".into(),
            corner_radius: "1".into(),
            from_left: from_left.into(),
            from_front: from_front.into(),
            ..Cutout::default()
        }];
        job
    }

    fn measured(job: &mut Job, across: Option<AcrossFrom>, along: Option<AlongFrom>) -> Result<(), String> {
        let top = Top::of(&TopInputs::read(job, 0));
        measure_from(job, &top, (0, 0), across, along)
    }

    #[test]
    fn a_cutout_measured_from_elsewhere_stays_where_it_is() {
        for (from_left, from_right, from_front, from_back) in
            [("22 1/2", "37 1/2", "10", "14"), ("60", "0", "24", "0"), ("0", "60", "0", "24")]
        {
            let mut job = job(from_left, from_front);
            let before = Top::of(&TopInputs::read(&job, 0)).cutout_center(0).expect("known");
            assert_eq!(measured(&mut job, Some(AcrossFrom::Right), None), Ok(()));
            assert_eq!(measured(&mut job, None, Some(AlongFrom::Back)), Ok(()));
            let cutout = &job.pieces[0].cutouts[0];
            assert_eq!([cutout.from_right.text(), cutout.from_back.text()], [from_right, from_back]);
            let after = Top::of(&TopInputs::read(&job, 0)).cutout_center(0).expect("known");
            assert!((after - before).hypot() < 1e-9, "{before:?} {after:?}");
            // What says the same stays as it was typed.
            job.pieces[0].cutouts[0].from_left = format!("{from_left}\"").as_str().into();
            assert_eq!(measured(&mut job, Some(AcrossFrom::Left), None), Ok(()));
            assert_eq!(job.pieces[0].cutouts[0].from_left.text(), format!("{from_left}\""));
        }
    }

    #[test]
    fn a_centre_past_an_end_is_not_measured_from_there() {
        let before = job("63", "25 1/2");
        let mut job = before.clone();
        let refused = measured(&mut job, Some(AcrossFrom::Right), None).expect_err("3 in past the end");
        assert_eq!(
            refused,
            "The centre of cutout 1 lies 3 in past the right end, so it cannot be measured from there. Measure it from \
             the left end, or move it onto the piece first."
        );
        let refused = measured(&mut job, None, Some(AlongFrom::Back)).expect_err("1 1/2 in past the edge");
        assert!(
            refused.contains("1 1/2 in past the back edge") && refused.contains("from the front edge"),
            "{refused}"
        );
        assert_eq!(job, before, "nothing was typed and nothing chosen");
    }

    #[test]
    fn a_door_centres_a_cutout_and_writes_nothing() {
        let mut job = job("22 1/2", "10");
        assert_eq!(measured(&mut job, Some(AcrossFrom::Door), None), Ok(()));
        let piece = &job.pieces[0];
        assert_eq!((piece.doors.len(), piece.cutouts[0].door), (1, Some(0)));
        assert!(piece.cutouts[0].from_door.is_blank());
        assert_eq!(piece.cutouts[0].from_left.text(), "22 1/2");
    }

    #[test]
    fn a_distance_is_typed_at_the_nearest_mark_and_never_another_for_less_than_nothing() {
        let mut job = job("22 1/2", "10");
        let place = FieldPath::Cutout(0, 0, CutoutField::FromLeft);
        for (distance, typed, text) in
            [(3.05, true, "3"), (3.0, false, "3"), (-0.05, true, "0"), (-0.07, false, "0"), (-9.0, false, "0")]
        {
            assert_eq!(type_distance(&mut job, place, inches(distance)), typed, "{distance}");
            assert_eq!(job.pieces[0].cutouts[0].from_left.text(), text, "{distance}");
        }
        let width = FieldPath::Piece(0, PieceField::Width);
        assert!(!type_distance(&mut job, width, inches(-2.0)));
        assert_eq!(job.pieces[0].width.text(), "60");
        assert!(!type_distance(&mut job, FieldPath::Holes(0, 0, HolesField::FromLeft), inches(2.0)), "there is none");
        // Left of a door is a side and no sign.
        let door = FieldPath::Cutout(0, 0, CutoutField::FromDoor);
        assert!(type_distance(&mut job, door, inches(-2.0)));
        let cutout = &job.pieces[0].cutouts[0];
        assert_eq!((cutout.from_door.text(), cutout.door_side), ("2", Hand::Left));
    }

    #[test]
    fn an_overlap_is_no_rail_of_nothing() {
        assert_eq!(rail_words(inches(2.5), Units::Inch), "2 1/2 in");
        assert_eq!(rail_words(inches(0.0), Units::Inch), "0 in");
        assert_eq!(rail_words(inches(-1.5), Units::Inch), "none: overlaps by 1 1/2 in");
        assert_eq!(rail_words(Length::new::<millimeter>(-12.0), Units::Metric), "none: overlaps by 12 mm");
    }
}
