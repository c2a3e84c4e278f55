//! The cut list: every part of the form under its mark; the one that is touched lights up in the drawing.

use super::super::desk::Desk;
use super::super::figures::waits;
use crate::draw;
use crate::print::{CutRow, cut_rows};
use leptos::prelude::*;

/// The card.
pub fn cut_list(desk: Desk, piece: usize) -> AnyView {
    let rows = Memo::new(move |_| {
        desk.estimate.with(|all| {
            let form = all.pieces.get(piece)?.form.as_ref();
            desk.job.with(|job| {
                let typed = job.pieces.get(piece)?;
                Some(form.map_err(Clone::clone).and_then(|form| cut_rows(form, typed, job.units)))
            })
        })
    });
    let list = move || match rows.get() {
        Some(Ok(rows)) => {
            rows.into_iter().enumerate().map(|(index, row)| cut_row_view(desk, index, row)).collect_view().into_any()
        }
        Some(Err(waiting)) => waits(desk, waiting),
        None => ().into_any(),
    };
    view! {
        <section class="card" aria-label="Cut list">
            <h2>"Cut list"</h2>
            <p class="quiet-text">"Touch a part to see it in the drawing."</p>
            <ol class="cuts">{list}</ol>
        </section>
    }
    .into_any()
}

fn cut_row_view(desk: Desk, index: usize, row: CutRow) -> AnyView {
    let part = draw::Part::Board(index);
    let lit = move || desk.part.get() == part;
    let how = row.how.into_iter().map(|words| view! { <span class="how">{words}</span> }).collect_view();
    view! {
        <li>
            <button type="button" aria-pressed=move || if lit() { "true" } else { "false" } on:click=move |_| desk.part.set(part)>
                <span class="mark">{row.mark}</span>
                <span class="name">{row.name}</span>
                <span class="value">{row.size}</span>
                {how}
            </button>
        </li>
    }
    .into_any()
}
