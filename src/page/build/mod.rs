//! Build: the form that the piece is cast in.

mod choices;
mod cracking;
mod parts;
mod sheets;

pub use parts::lists;

use super::desk::Desk;
use super::dom;
use super::field::{choice, lead};
use super::figures::{row, show};
use super::findings::findings;
use super::measure::pieces_bar;
use super::plan::plan_view;
use super::scale::{print_in_place, print_templates};
use crate::draw::Face;
use crate::finding::Stage;
use crate::form::Form;
use crate::measure::{Length, write_length};
use crate::print::{SHOP_SHEET, shop_sheet};
use crate::working::{Figure, Known};
use leptos::prelude::*;

/// The screen.
pub fn build(desk: Desk) -> AnyView {
    let piece = move || desk.piece.get();
    let face = RwSignal::new(Face::Form);
    let faces = vec![(Face::Form, "Form"), (Face::Installed, "Plan")];
    view! {
        <div class="side">
            {lead(desk, Stage::Build)}
            {pieces_bar(desk)}
            {choice("Drawing", faces, face.into(), Callback::new(move |shown| face.set(shown)))}
            {move || plan_view(desk, face.get())}
            <div class="row">
                <button type="button" on:click=move |_| print_shop_sheet(desk)>"Print the shop sheet"</button>
                <button type="button" on:click=move |_| print_templates(desk)>"Print templates, 1:1"</button>
            </div>
        </div>
        <div class="rest">
            {findings(desk, Stage::Build)}
            {parts::of_piece(desk)}
            {move || sizes(desk, piece())}
            {parts::of_job(desk)}
            {move || cracking::cracking(desk, piece())}
            {sheets::sheets(desk)}
            {choices::boards(desk)}
            {move || choices::steel(desk, piece())}
            {choices::liner(desk)}
            {choices::layers(desk)}
            {choices::sheets(desk)}
            {choices::level(desk)}
        </div>
    }
    .into_any()
}

fn print_shop_sheet(desk: Desk) {
    let piece = desk.piece.get_untracked();
    let date = dom::today();
    let sheet = untrack(|| desk.job.with(|job| shop_sheet(job, &desk.worked.whole(), piece, &date)));
    match sheet {
        Some(html) => print_in_place(desk, SHOP_SHEET, &html),
        None => desk.tell("There is no outline yet: type what the tape says.", None),
    }
}

fn sizes(desk: Desk, piece: usize) -> AnyView {
    let card = move || {
        desk.cast.with(|all| {
            let form = all.pieces.get(piece)?.form.clone();
            let length = |label: &str, pick: fn(&Form) -> &Figure<Length>| {
                let figure: Known<Figure<Length>> = form.as_ref().map(|form| pick(form).clone()).map_err(Clone::clone);
                row(desk, label, show(&figure, |length| write_length(*length, desk.units()).to_string()))
            };
            let rows = [
                length("Clear width inside", |form| &form.clear_width),
                length("Clear depth inside", |form| &form.clear_depth),
                length("Base, left to right", |form| &form.base_width),
                length("Base, front to back", |form| &form.base_depth),
                length("Cast thickness", |form| &form.cast_thickness),
                length("Side height", |form| &form.side_height),
            ]
            .collect_view();
            Some(rows)
        })
    };
    view! {
        <section class="card" aria-label="Form sizes">
            <h2>"Form sizes"</h2>
            <div class="figures">{card}</div>
        </section>
    }
    .into_any()
}
