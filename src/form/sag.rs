//! How far the base bows between what it lies on.

use super::fasten::{foot_pressure, pressure, pressure_term};
use super::{BuildInputs, Built, Form};
use crate::form::limits;
use crate::job::read::no_piece;
use crate::job::{FieldPath, FormField};
use crate::measure::exact::in_inches;
use crate::measure::{Length, MassDensity, Pressure, Quantity, Units, write_number};
use crate::working::{Figure, Known, Named, Term, Waiting, all, known_ref};
use uom::si::length::meter;

/// How far a board of that thickness and stiffness bows down between two supports, under so much of a fluid of that
/// density: 5 w L⁴ ÷ 384 E I, each strip of it by itself. Its own weight, which bows it before it is filled, is not
/// counted.
pub fn sag(density: MassDensity, depth: Length, board: Length, stiffness: Pressure, span: Length) -> Length {
    let inertia = board.value.powi(3) / 12.0;
    let load = pressure(density, depth).value;
    Length::new::<meter>(5.0 * load * span.value.powi(4) / (384.0 * stiffness.value * inertia))
}

/// The form with the largest pressure on its base, the density of its mix, and whether that is known.
fn deepest<'a>(pieces: &[Built<'a>]) -> Known<(&'a Form, MassDensity, bool, Pressure)> {
    let forms = all(pieces.iter().map(|piece| known_ref(piece.form)))?;
    let loads = std::iter::zip(forms, pieces).map(|(form, piece)| {
        let density = piece.fresh.unwrap_or_else(limits::fresh_density_assumed);
        (form, density, piece.fresh.is_some(), pressure(density, form.cast_thickness.value))
    });
    let deepest = loads.reduce(|one, other| if other.3 > one.3 { other } else { one });
    deepest.ok_or_else(|| no_piece(FieldPath::Form(FormField::Board)))
}

/// How far a base bows, finer than the tape: "0.031 in", "0.8 mm".
pub(crate) fn write_bow(bow: Length, units: Units) -> String {
    match units {
        Units::Inch => format!("{} in", write_number(in_inches(bow), 3)),
        Units::Metric => format!("{} mm", write_number(bow.value * 1e3, 1)),
    }
}

/// A bow in a formula, as [`write_bow`] has it.
pub(super) fn bow_quantity(bow: Length) -> Quantity {
    Quantity::other(bow.value, |si, units| write_bow(Length::new::<meter>(si), units))
}

/// How far the base bows down between supports that are as far apart as was typed; nothing where it lies on a bench.
///
/// # Errors
/// What a form waits for, or the distance; a job without pieces.
pub(super) fn bow(pieces: &[Built], inputs: &BuildInputs) -> Known<Option<Figure<Length>>> {
    let Some(span) = inputs.supports.clone()? else { return Ok(None) };
    let (form, density, known, _) = deepest(pieces)?;
    let (board, stiffness) = (form.board, limits::board_stiffness());
    let bow = sag(density, form.cast_thickness.value, board, stiffness, span);
    if !bow.value.is_finite() {
        let place = FieldPath::Form(FormField::Supports);
        return Err(Waiting::named(place, "no base is that long."));
    }
    let parts = [
        pressure_term(&foot_pressure(form, density, known)).into(),
        span.named("distance").into(),
        stiffness.named("stiffness of the board").into(),
        board.named("board").into(),
    ];
    let bends = |x: &[f64]| 5.0 * x[0] * x[1].powi(4) / (384.0 * x[2] * (x[3].powi(3) / 12.0));
    let bow = Term::rule("5 × {} × ({})⁴ ÷ (384 × {} × ({})³ ÷ 12)", parts, bends, bow);
    let quantity = bow_quantity(bow.value);
    Ok(Some(bow.titled_as("The base bows between its supports", quantity, limits::BOARD)))
}

/// The furthest apart that supports under the base may be, below the form with the largest pressure.
///
/// # Errors
/// What a form waits for; a job without pieces.
pub(super) fn supports(pieces: &[Built]) -> Known<Figure<Length>> {
    let (form, density, known, load) = deepest(pieces)?;
    let (board, stiffness, most) = (form.board, limits::board_stiffness(), limits::base_sag_most());
    let reaches = |x: &[f64]| (384.0 * x[0] * (x[1].powi(3) / 12.0) * x[2] / (5.0 * x[3])).sqrt().sqrt();
    let span = Length::new::<meter>(reaches(&[stiffness.value, board.value, most.value, load.value]));
    let parts = [
        stiffness.named("stiffness of the board").into(),
        board.named("board").into(),
        Term::named_as(most, "bow between them", bow_quantity(most)).into(),
        pressure_term(&foot_pressure(form, density, known)).into(),
    ];
    let span = Term::rule("(384 × {} × ({})³ ÷ 12 × {} ÷ (5 × {}))^¼", parts, reaches, span);
    Ok(span.titled("Supports under the base at the most apart", limits::BOARD))
}
