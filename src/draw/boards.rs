//! The form around the clear space: its sides as they stand, their marks, and the liners inside them.

use super::canvas::Canvas;
use super::plan::{Paper, Selection};
use crate::estimate::PieceEstimate;
use crate::form;
use crate::job::Piece;
use uom::si::length::meter;

/// The boards of the form, each to be touched, and the space that the liners take.
pub(super) fn draw_boards(
    canvas: &mut Canvas,
    paper: &Paper,
    piece: &PieceEstimate,
    typed: &Piece,
    selected: Option<Selection>,
) {
    let Ok(form) = &piece.form else { return };
    canvas.path("liner", &paper.path(form.clear.path()));
    let Ok(parts) = &form.parts else {
        // Without its parts the form is still as large as its sides make it.
        if let Ok(outside) = form.clear.offset_all(form.board.get::<meter>()) {
            canvas.path("board", &paper.path(outside.path()));
            canvas.path("liner", &paper.path(form.clear.path()));
        }
        return;
    };
    for (index, part) in parts.iter().enumerate() {
        draw_side(canvas, paper, form, part, typed, (index, selected == Some(Selection::Board(index))));
    }
}

fn draw_side(
    canvas: &mut Canvas,
    paper: &Paper,
    form: &form::Form,
    part: &form::Part,
    typed: &Piece,
    (index, chosen): (usize, bool),
) {
    // The base lies under everything.
    let (Some(_), Some(solid)) = (part.edge, &part.solid) else { return };
    let class = if chosen { "board-part chosen" } else { "board-part" };
    let label = format!("{}: {}", part.mark, part.name(&form.clear, typed));
    canvas.open_part(class, &Selection::Board(index).key(), &label);
    let path = paper.path(solid.path());
    canvas.path("reach", &path);
    canvas.path("board", &path);
    canvas.close();
}

/// The marks of the sides, a quarter along and inside the form: outside stand the words for the sides and the
/// dimensions.
pub(super) fn draw_marks(canvas: &mut Canvas, paper: &Paper, piece: &PieceEstimate, selected: Option<Selection>) {
    let Ok(form) = &piece.form else { return };
    for (index, part) in form.parts.iter().flatten().enumerate() {
        let Some(edge) = part.edge.and_then(|edge| form.clear.edges().get(edge)) else { continue };
        let class = if selected == Some(Selection::Board(index)) { "board-mark chosen" } else { "board-mark" };
        let inward = paper.towards(edge.normal_at(0.25)) * -10.0;
        canvas.words(class, paper.at(edge.point_at(0.25)) + inward, 0.0, &part.mark);
    }
}
