//! How far the base bows between what it lies on.

use super::Built;
use super::fasten::{foot_pressure, pressure};
use crate::job::read::{self, all};
use crate::job::{FormField, Job, Place};
use crate::limits;
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

/// The furthest apart that supports under the base may be, below the form in which most stands.
///
/// # Errors
/// What a form waits for; a job without pieces.
pub(super) fn supports(pieces: &[Built], job: &Job) -> Known<Figure<Length>> {
    let forms = all(pieces.iter().map(|piece| piece.form.as_ref().map_err(Waiting::clone)))?;
    let deepest = std::iter::zip(forms, pieces).map(|(form, piece)| {
        let density = piece.fresh.unwrap_or_else(limits::fresh_density_assumed);
        (pressure(density, form.cast_thickness.value), form, density, piece.fresh.is_some())
    });
    let Some((load, form, density, known)) = deepest.reduce(|one, other| if other.0 > one.0 { other } else { one })
    else {
        return Err(read::no_piece(Place::Form(FormField::Board)));
    };
    let (board, stiffness, most) = (form.board, limits::board_stiffness(), limits::base_sag_most());
    let inertia = board.value.powi(3) / 12.0;
    let span = (384.0 * stiffness.value * inertia * most.value / (5.0 * load.value)).sqrt().sqrt();
    let span = Length::new::<meter>(span);
    // Finer than the tape.
    let bow = match job.units {
        Units::Inch => format!("{} in", write_number(in_inches(most), 3)),
        Units::Metric => format!("{} mm", write_number(most.value * 1e3, 1)),
    };
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
