//! How far the base bows between what it lies on.

use super::fasten::{foot_pressure, pressure};
use super::{Built, Form};
use crate::form::limits;
use crate::job::read::{self, all};
use crate::job::{FieldPath, FormField, Job};
use crate::measure::exact::in_inches;
use crate::measure::{Length, MassDensity, Pressure, Units, write_length, write_number};
use crate::working::{Figure, Known, Waiting, Working};
use uom::si::length::meter;

/// How far a board of that thickness and stiffness bows down between two supports, under so much of a fluid of that
/// density: 5 w L⁴ ÷ 384 E I, each strip of it by itself. Its own weight, which bows it before it is filled, is not
/// counted.
pub fn sag(density: MassDensity, depth: Length, board: Length, stiffness: Pressure, span: Length) -> Length {
    let inertia = board.value.powi(3) / 12.0;
    let load = pressure(density, depth).value;
    Length::new::<meter>(5.0 * load * span.value.powi(4) / (384.0 * stiffness.value * inertia))
}

/// The form in which most stands, with the density of its mix, whether that is known, and the pressure on its base.
fn deepest<'a>(pieces: &[Built<'a>]) -> Known<(&'a Form, MassDensity, bool, Pressure)> {
    let forms = all(pieces.iter().map(|piece| piece.form.as_ref().map_err(Waiting::clone)))?;
    let loads = std::iter::zip(forms, pieces).map(|(form, piece)| {
        let density = piece.fresh.unwrap_or_else(limits::fresh_density_assumed);
        (form, density, piece.fresh.is_some(), pressure(density, form.cast_thickness.value))
    });
    let deepest = loads.reduce(|one, other| if other.3 > one.3 { other } else { one });
    deepest.ok_or_else(|| read::no_piece(FieldPath::Form(FormField::Board)))
}

/// How far a base bows, finer than the tape: "0.031 in", "0.8 mm".
pub(crate) fn write_bow(bow: Length, units: Units) -> String {
    match units {
        Units::Inch => format!("{} in", write_number(in_inches(bow), 3)),
        Units::Metric => format!("{} mm", write_number(bow.value * 1e3, 1)),
    }
}

/// How far the base bows down between supports that are as far apart as was typed; nothing where it lies on a bench.
///
/// # Errors
/// What a form waits for, or the distance; a job without pieces.
pub(super) fn bow(pieces: &[Built], job: &Job) -> Known<Option<Figure<Length>>> {
    let place = FieldPath::Form(FormField::Supports);
    let Some(span) = read::optional(job, place, read::positive_length)? else { return Ok(None) };
    let (form, density, known, load) = deepest(pieces)?;
    let (board, stiffness) = (form.board, limits::board_stiffness());
    let bow = sag(density, form.cast_thickness.value, board, stiffness, span);
    if !bow.value.is_finite() {
        return Err(Waiting::at(place, format!("{}: no base is that long.", read::name_of(job, place))));
    }
    Ok(Some(
        Working::new("The base bows between its supports")
            .after(&foot_pressure(form, density, known, job.units).working)
            .line(
                "5 × pressure × distance⁴ ÷ 384 × E × I",
                format!(
                    "{} apart, E {} MPa, I ({})³ ÷ 12, pressure {} Pa",
                    write_length(span, job.units),
                    write_number(stiffness.value / 1e6, 0),
                    write_length(board, job.units),
                    write_number(load.value, 0)
                ),
                write_bow(bow, job.units),
                limits::BOARD,
            )
            .of(bow),
    ))
}

/// The furthest apart that supports under the base may be, below the form in which most stands.
///
/// # Errors
/// What a form waits for; a job without pieces.
pub(super) fn supports(pieces: &[Built], job: &Job) -> Known<Figure<Length>> {
    let (form, density, known, load) = deepest(pieces)?;
    let (board, stiffness, most) = (form.board, limits::board_stiffness(), limits::base_sag_most());
    let inertia = board.value.powi(3) / 12.0;
    let span = (384.0 * stiffness.value * inertia * most.value / (5.0 * load.value)).sqrt().sqrt();
    let span = Length::new::<meter>(span);
    let bow = write_bow(most, job.units);
    Ok(Working::new("Supports under the base at the most apart")
        .after(&foot_pressure(form, density, known, job.units).working)
        .line(
            format!("until the base bows down by {bow} between them: (384 × E × I × bow ÷ 5 × pressure)^¼"),
            format!(
                "E {} MPa, I ({})³ ÷ 12, pressure {} Pa",
                write_number(stiffness.value / 1e6, 0),
                write_length(board, job.units),
                write_number(load.value, 0)
            ),
            write_length(span, job.units),
            limits::BOARD,
        )
        .of(span))
}
