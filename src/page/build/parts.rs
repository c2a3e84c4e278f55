//! What is cut, laid and used up, as lists; what is touched lights up in the drawing.

use super::super::desk::{Desk, Overlay};
use super::super::field::explained;
use super::super::figures::waits;
use crate::estimate::Estimate;
use crate::job::Job;
use crate::print::{List, Row, job_lists, piece_lists};
use leptos::prelude::*;

/// The lists of the chosen piece.
pub fn of_piece(desk: Desk) -> AnyView {
    lists(desk, move |job, all| piece_lists(job, all, desk.piece.get()))
}

/// The lists of the whole job.
pub fn of_job(desk: Desk) -> AnyView {
    lists(desk, job_lists)
}

/// Lists that are made anew with the job, a card each.
pub fn lists(desk: Desk, make: impl Fn(&Job, &Estimate) -> Vec<List> + Send + Sync + 'static) -> AnyView {
    let made = Memo::new(move |_| desk.estimate.with(|all| desk.job.with(|job| make(job, all))));
    view! { {move || made.get().into_iter().map(|list| card(desk, list)).collect_view()} }.into_any()
}

fn card(desk: Desk, list: List) -> AnyView {
    let rows = match list.rows {
        Ok(rows) => {
            let rows = rows.into_iter().map(|row| row_view(desk, row)).collect_view();
            view! { <ul class="cuts">{rows}</ul> }.into_any()
        }
        Err(waiting) => waits(desk, &waiting),
    };
    let lead = (!list.lead.is_empty()).then(|| view! { <p class="quiet-text">{explained(&list.lead)}</p> });
    view! {
        <section class="card" aria-label=list.heading>
            <h2>{explained(list.heading)}</h2>
            {lead}
            {rows}
        </section>
    }
    .into_any()
}

fn row_view(desk: Desk, row: Row) -> AnyView {
    let Row { mark, name, value, how, part, working } = row;
    let lit = move || part.is_some_and(|part| desk.part.get() == part);
    let can_be_pressed = part.is_some() || working.is_some();
    let opens = part.is_none();
    let press = move |_| match (part, &working) {
        (Some(part), _) => desk.part.set(part),
        (None, Some(working)) => desk.notices.sheet.set(Some(Overlay::Working(working.clone()))),
        (None, None) => {}
    };
    let how = how.into_iter().map(|words| view! { <span class="how">{words}</span> }).collect_view();
    let content = view! {
        <span class="mark">{mark}</span>
        <span class="name">{name}</span>
        <span class="value">{value}</span>
        {how}
    };
    if can_be_pressed {
        let pressed = move || part.is_some().then(|| if lit() { "true" } else { "false" });
        view! { <li><button type="button" class:opens=opens aria-pressed=pressed on:click=press>{content}</button></li> }.into_any()
    } else {
        view! { <li><div class="line">{content}</div></li> }.into_any()
    }
}
