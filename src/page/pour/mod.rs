//! Pour: which mix, how much of what; whether the batches beat the clock; the evening before, and the clock.

mod clock;
mod day;
mod evening;
mod gadgets;
mod mix;
mod recipe;

pub use day::strip_figures;

use super::desk::Desk;
use super::field::{field, lead};
use super::findings::findings;
use super::measure::pieces_bar;
use crate::finding::Stage;
use crate::job::{FieldPath, PieceField};
use leptos::prelude::*;

/// The screen.
pub fn pour(desk: Desk) -> AnyView {
    let piece = move || desk.piece.get();
    // Its fields are made anew when another bag is chosen, not with every key.
    let bag = Memo::new(move |_| mix::bag_index(desk));
    view! {
        <div class="side long">
            {lead(desk, Stage::Pour)}
            {pieces_bar(desk)}
            {day::against_the_clock(desk)}
            {clock::start(desk)}
            <section class="card" aria-label="Mix">
                <h2>"Mix"</h2>
                {mix::bag_choice(desk)}
                <div class="fields">
                    {move || field(desk, FieldPath::Piece(piece(), PieceField::Spare))}
                </div>
                {move || bag.get().map(|bag| mix::bag_fields(desk, bag))}
            </section>
            {mix::amounts(desk)}
            <section class="card" aria-label="Order">
                <h2>"To order"</h2>
                <div class="figures">{move || mix::order_rows(desk)}</div>
            </section>
        </div>
        <div class="rest">
            {findings(desk, Stage::Pour)}
            {day::weather(desk)}
            {day::strip(desk)}
            {evening::evening(desk)}
        </div>
    }
    .into_any()
}
