//! The outline taken to scale: saved for a cutter, or printed at full size.

use super::desk::Desk;
use super::dom;
use crate::draw::{Paper, Tile, dxf, tiles, true_scale};
use crate::estimate::PieceEstimate;
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
    let text = desk.estimate.with_untracked(|all| draw(all.pieces.get(piece)?));
    let saved = match text {
        Some(text) => browser::download_as(name, &text, media_type),
        None => Err(NO_OUTLINE.to_owned()),
    };
    match saved {
        Ok(()) => desk.tell(&format!("Saved as {name}, in millimetres, one a millimetre."), None),
        Err(why) => desk.tell(&why, None),
    }
}

/// Prints the chosen piece at full size; the screen stays as it is.
fn print(desk: Desk) {
    let piece = desk.piece.get_untracked();
    let paper = Paper::of(desk.units());
    let sheets = desk.estimate.with_untracked(|all| all.pieces.get(piece).map(|piece| tiles(piece, paper)));
    let sheets = sheets.unwrap_or_default();
    if sheets.is_empty() {
        return desk.tell(NO_OUTLINE, None);
    }
    if try_print(&sheets, paper).is_none() {
        take_away();
        desk.tell("This browser does not print.", None);
    }
}

fn try_print(sheets: &[Tile], paper: Paper) -> Option<()> {
    // A phone tells late or never that it has printed: those of the last time may still be there.
    take_away();
    let window = web_sys::window()?;
    let drawn: String = sheets.iter().map(|tile| tile.svg.as_str()).collect();
    let section = format!("<div id=\"{SHEETS}\" class=\"{}\" aria-hidden=\"true\">{drawn}</div>", paper.key());
    dom::document()?.body()?.insert_adjacent_html("afterbegin", &section).ok()?;
    let printed = Closure::once_into_js(|| {
        take_away();
        if let Some(window) = web_sys::window() {
            window.set_onafterprint(None);
        }
    });
    window.set_onafterprint(printed.dyn_ref());
    window.print().ok()
}

/// Takes the sheets out of the page.
fn take_away() {
    if let Some(sheets) = dom::document().and_then(|document| document.get_element_by_id(SHEETS)) {
        sheets.remove();
    }
}
