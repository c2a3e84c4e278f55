//! The form of a piece.

use crate::{EXACT, assert_close, job_of, lined, two_sinks, worked_out};
use pourwright::form::Form;
use pourwright::job::{Job, SideStand};
use uom::si::length::inch;

fn form(job: &Job) -> Form {
    worked_out(job).pieces[0].form.clone().unwrap()
}

/// Common practice, no source: 19 1/4 in finished with a 3/4 in liner in front takes a 20 in form, and
/// 2 in of concrete with sides on the edge of a 3/4 in base takes 2 3/4 in sides.
#[test]
fn a_liner_takes_its_thickness() {
    let form = form(&two_sinks());
    assert_close(form.clear_depth.value.get::<inch>(), 20.0, EXACT);
    assert_close(form.base_depth.value.get::<inch>(), 20.0, EXACT);
    assert_close(form.clear_width.value.get::<inch>(), 67.0, EXACT);
    assert_close(form.side_height.value.get::<inch>(), 2.75, EXACT);
}

/// Common practice, no source: sides that stand on the base are as high as the cast, and the base
/// reaches under them.
#[test]
fn sides_on_the_base() {
    let mut job = two_sinks();
    job.form.sides = SideStand::OnBase;
    let form = form(&job);
    assert_close(form.clear_depth.value.get::<inch>(), 20.0, EXACT);
    assert_close(form.base_depth.value.get::<inch>(), 21.5, EXACT);
    assert_close(form.base_width.value.get::<inch>(), 68.5, EXACT);
    assert_close(form.side_height.value.get::<inch>(), 2.0, EXACT);
}

/// What grinding takes off is cast in addition; front and back run past, left and right butt.
#[test]
fn grinding_and_cut_lengths() {
    let mut job = job_of("40", "20", "1 1/2");
    let piece = &mut job.pieces[0];
    piece.grinding = "1/16".into();
    piece.edges[0] = lined("3/4");
    piece.edges[3] = lined("1/2");
    piece.edges[1] = lined("1/2");
    let form = form(&job);
    assert_close(form.cast_thickness.value.get::<inch>(), 1.5625, EXACT);
    assert_close(form.side_height.value.get::<inch>(), 2.3125, EXACT);
    // Clear 41 × 20 3/4; a board of 3/4 at each end of those that run past.
    let parts = form.parts.as_ref().expect("parts");
    let cut: Vec<_> = parts.iter().skip(1).map(|part| part.length.get::<inch>()).collect();
    for (found, expected) in cut.iter().zip([42.5, 20.75, 42.5, 20.75]) {
        assert_close(*found, expected, EXACT);
    }
    assert_eq!(cut.len(), 4);
}
