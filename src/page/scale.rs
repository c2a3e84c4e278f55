//! The outline taken to scale: saved for a cutter, or printed at full size.

use super::desk::Desk;
use super::dom;
use crate::draw::{Paper, Tile, dxf, template_tiles, tiles, true_scale};
use crate::estimate::PieceEstimate;
use crate::job::Piece;
use crate::store::browser;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// The id of what `style/print.css` prints in place of the page.
const SHEETS: &str = "full-size";

const NO_OUTLINE: &str = "There is no outline yet: type what the tape says.";

/// The ways to take the outline of the chosen piece away.
pub fn scale_buttons(desk: Desk) -> AnyView {
    let svg = move |_| save(desk, true_scale, "pourwright-outline.svg", "image/svg+xml");
    let dxf = move |_| save(desk, dxf, "pourwright-outline.dxf", "image/vnd.dxf");
    view! {
        <h3>"Take it to scale"</h3>
        <div class="row">
            <button type="button" on:click=svg>"Save as SVG"</button>
            <button type="button" on:click=dxf>"Save as DXF"</button>
            <button type="button" on:click=move |_| print(desk)>"Print at full size"</button>
        </div>
    }
    .into_any()
}

/// Saves the drawing that is made of the chosen piece.
fn save(desk: Desk, draw: fn(&PieceEstimate) -> Option<String>, name: &str, media_type: &str) {
    let piece = desk.piece.get_untracked();
    let text = desk.cast.with_untracked(|all| draw(all.pieces.get(piece)?));
    let saved = match text {
        Some(text) => browser::download_as(name, &text, media_type),
        None => Err(NO_OUTLINE.to_owned()),
    };
    match saved {
        Ok(()) => desk.tell(&format!("Saved as {name}, in millimetres, one a millimetre."), None),
        Err(why) => desk.tell(&why, None),
    }
}

/// Prints the chosen piece at full size.
fn print(desk: Desk) {
    print_tiles(desk, |piece, _, paper| tiles(piece, paper), NO_OUTLINE);
}

/// Prints the templates of the chosen piece at full size.
pub fn print_templates(desk: Desk) {
    print_tiles(desk, template_tiles, "Nothing here needs a template: no cutout, and every corner is square.");
}

fn print_tiles(desk: Desk, make: fn(&PieceEstimate, &Piece, Paper) -> Vec<Tile>, nothing: &str) {
    let piece = desk.piece.get_untracked();
    let paper = Paper::of(desk.units());
    let sheets = desk.cast.with_untracked(|all| {
        desk.job.with_untracked(|job| Some(make(all.pieces.get(piece)?, job.pieces.get(piece)?, paper)))
    });
    let drawn: String = sheets.unwrap_or_default().iter().map(|tile| tile.svg.as_str()).collect();
    if drawn.is_empty() {
        return desk.tell(nothing, None);
    }
    let section = format!("<div id=\"{SHEETS}\" class=\"{}\" aria-hidden=\"true\">{drawn}</div>", paper.key());
    print_in_place(desk, SHEETS, &section);
}

/// Prints an element in place of the page, dressed by `style/print.css`; the screen stays as it is.
pub fn print_in_place(desk: Desk, id: &'static str, html: &str) {
    if try_print(id, html).is_none() {
        take_away(id);
        desk.tell("This browser does not print.", None);
    }
}

fn try_print(id: &'static str, html: &str) -> Option<()> {
    // A phone tells late or never that it has printed: what was printed last time may still be there.
    take_away(id);
    let window = web_sys::window()?;
    dom::document()?.body()?.insert_adjacent_html("afterbegin", html).ok()?;
    let printed = Closure::once_into_js(move || {
        take_away(id);
        if let Some(window) = web_sys::window() {
            window.set_onafterprint(None);
        }
    });
    window.set_onafterprint(printed.dyn_ref());
    window.print().ok()
}

/// Takes what was printed out of the page.
fn take_away(id: &str) {
    if let Some(printed) = dom::document().and_then(|document| document.get_element_by_id(id)) {
        printed.remove();
    }
}
