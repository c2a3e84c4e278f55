//! The cut list in words, the same on the screen and on paper.

use super::list::Row;
use crate::draw;
use crate::form::{BasePanel, Bending, Form, Made, PanelCorner, Part, Strip};
use crate::job::Piece;
use crate::measure::{Units, write_angle, write_cut};
use crate::working::Known;

/// The cut list of a piece.
///
/// # Errors
/// What its parts wait for.
pub fn cut_rows(form: &Form, typed: &Piece, units: Units) -> Known<Vec<Row>> {
    let parts = form.parts.as_ref().map_err(Clone::clone)?;
    Ok(parts.iter().enumerate().map(|(index, part)| cut_row(index, part, form, typed, units)).collect())
}

fn cut_row(index: usize, part: &Part, form: &Form, typed: &Piece, units: Units) -> Row {
    let write = |length| write_cut(length, units).text;
    let many = if part.count == 1 { String::new() } else { format!("{} of ", part.count) };
    let size = format!(
        "{many}{} × {} × {}",
        write_cut(part.length, units).bare(),
        write_cut(part.width, units).bare(),
        write(part.thickness)
    );
    let mut row =
        Row::new(part.name(&form.clear, typed), size).marked(&part.mark).lighting(draw::Selection::Board(index));
    match &part.made {
        Made::Base(base) => row.how.extend(base_words(base, units)),
        Made::Straight(side) => {
            if (side.inside - side.outside).abs() > crate::measure::geometry_tolerance() {
                row = row.and(format!("inside face {}, outside face {}", write(side.inside), write(side.outside)));
            }
        }
        Made::Strip(strip) => row.how.extend(strip_words(strip, units)),
        Made::Layers(layers) => {
            row = row.and(format!("cut to a radius of {} on the concrete's side, stacked", write(layers.arc.radius)));
            if layers.shim > crate::measure::geometry_tolerance() {
                row = row.and(format!("shim the stack by {}", write(layers.shim)));
            }
        }
    }
    row.and(part.ends_words(&form.clear, typed, units))
}

/// How the base is marked out on its blank, and checked.
fn base_words(base: &BasePanel, units: Units) -> Vec<String> {
    let write = |length| write_cut(length, units).text;
    let mut words = vec![format!("square when both diagonals of the blank are {}", write(base.blank_diagonal))];
    if base.shaped {
        let corner = |(index, corner): (usize, &PanelCorner)| {
            let arc =
                corner.radius.map_or_else(String::new, |radius| format!(", then an arc of radius {}", write(radius)));
            format!(
                "corner {}: {} from the left, {} from the front{arc}",
                index + 1,
                write(corner.from_left),
                write(corner.from_front)
            )
        };
        words.push("then cut to shape, marked out as the form is seen, face down:".to_owned());
        words.extend(base.corners.iter().enumerate().map(corner));
        words.extend(base.diagonals.iter().map(|diagonal| {
            let [one, other] = diagonal.between;
            format!("check: corner {} to corner {} is {}", one + 1, other + 1, write(diagonal.length))
        }));
    }
    words
}

fn strip_words(strip: &Strip, units: Units) -> Vec<String> {
    let write = |length| write_cut(length, units).text;
    let turn = write_angle(strip.arc.sweep);
    let mut words = vec![format!("bent to a radius of {} over {turn}", write(strip.arc.radius))];
    match &strip.bending {
        Bending::Freely => {}
        Bending::Kerfed(kerfs) => words.push(format!(
            "{} kerfs in its back, {} deep, every {}",
            kerfs.count,
            write(kerfs.depth),
            write(kerfs.spacing)
        )),
        Bending::TooStiff => words.push("too stiff for this arc: use a thinner strip".to_owned()),
    }
    words
}
