//! A page of words given to the browser's printer; the screen stays as it is.

use super::desk::Desk;
use super::dom;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// The id of what `style/print.css` prints in place of the page.
const PAPER: &str = "paper";

/// Prints a page that [`crate::print`] has made: texts in it are escaped already.
pub fn print_page(desk: Desk, page: &str) {
    if try_print(page).is_none() {
        take_away();
        desk.tell("This browser does not print.", None);
    }
}

fn try_print(page: &str) -> Option<()> {
    // A phone tells late or never that it has printed: the page of the last time may still be there.
    take_away();
    let window = web_sys::window()?;
    let section = format!("<div id=\"{PAPER}\" aria-hidden=\"true\">{page}</div>");
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

fn take_away() {
    if let Some(paper) = dom::document().and_then(|document| document.get_element_by_id(PAPER)) {
        paper.remove();
    }
}
