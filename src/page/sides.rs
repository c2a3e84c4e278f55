//! The sides of a piece, to choose among.

use super::desk::Desk;
use crate::draw::Selection;
use crate::job::Piece;
use leptos::prelude::*;

/// A row of buttons, one for every side of the chosen piece.
pub fn side_choice(
    desk: Desk,
    legend: &'static str,
    chosen: usize,
    part: fn(usize) -> Selection,
    name: fn(&Piece, usize) -> String,
) -> AnyView {
    let names = Memo::new(move |_| {
        desk.job.with(|job| {
            let piece = job.pieces.get(desk.piece.get());
            piece.map_or_else(Vec::new, |piece| (0..piece.sides()).map(|side| name(piece, side)).collect::<Vec<_>>())
        })
    });
    let button = move |(side, name): (usize, String)| {
        view! {
            <button
                type="button"
                aria-pressed=if side == chosen { "true" } else { "false" }
                on:click=move |_| desk.part.set(part(side))
            >
                {name}
            </button>
        }
    };
    view! {
        <fieldset class="choice">
            <legend>{legend}</legend>
            {move || names.get().into_iter().enumerate().map(button).collect_view()}
        </fieldset>
    }
    .into_any()
}
