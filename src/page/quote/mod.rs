//! Quote: what it costs and takes, what is offered, the list for the shop, the maker's own book.

mod book;
mod offer;
mod shop;
mod work;

use super::desk::Desk;
use super::field::lead;
use super::findings::findings;
use crate::estimate::{Estimate, estimate};
use crate::finding::Stage;
use crate::job::Job;
use leptos::prelude::*;

/// The screen.
pub fn quote(desk: Desk) -> AnyView {
    // Whoever came straight to this job has not seen the shelf yet.
    desk.refresh_shelf();
    view! {
        <div class="side long">
            {lead(desk, Stage::Quote)}
            {offer::price(desk)}
            {offer::sent(desk)}
            {offer::offer(desk)}
            {findings(desk, Stage::Quote)}
        </div>
        <div class="rest">
            {book::prices(desk)}
            {work::cost(desk)}
            {work::hours(desk)}
            {offer::versions(desk)}
            {shop::shop(desk)}
            {book::pads(desk)}
            {book::pace(desk)}
            <section class="card" aria-label="Share">
                <h2>"Hand it over"</h2>
                <p>"One file that anybody can open and read as a tidy estimate, and that this page can open again."</p>
                <div class="row">
                    <button type="button" on:click=move |_| desk.open_share()>"Share this estimate"</button>
                </div>
            </section>
        </div>
    }
    .into_any()
}

/// Those jobs of the shelf that can be read, worked out at the maker's prices.
fn worked_out(desk: Desk, ids: &[String]) -> Vec<(Job, Estimate)> {
    let work = |id: &String| {
        let job = desk.read_job(id)?;
        let all = desk.prices.with(|prices| estimate(&job, prices));
        Some((job, all))
    };
    ids.iter().filter_map(work).collect()
}

/// The other jobs of the shelf: id and name.
fn others(desk: Desk) -> Vec<(String, String)> {
    let open = desk.job.with(|job| job.id.clone());
    desk.shelf.with(|shelf| {
        let readable = shelf.iter().filter(|row| row.unreadable.is_none() && row.id != open);
        readable.map(|row| (row.id.clone(), row.name.clone())).collect()
    })
}

/// Things to tick: what each is found by, what it says, and what stands under it.
fn ticks(rows: Vec<(String, String, String)>, done: Signal<Vec<String>>, tick: Callback<String>) -> AnyView {
    let row = move |(id, label, under): (String, String, String)| {
        let (asked, pressed) = (id.clone(), id.clone());
        let is_done = Memo::new(move |_| done.with(|done| done.contains(&asked)));
        view! {
            <label>
                <input type="checkbox" prop:checked=move || is_done.get() on:change=move |_| tick.run(pressed.clone())/>
                <span>
                    {label}
                    <span class="quiet-text">{under}</span>
                </span>
            </label>
        }
    };
    view! { <div class="ticks">{rows.into_iter().map(row).collect_view()}</div> }.into_any()
}

/// Puts an id into a list, or takes it out.
fn toggle(list: &mut Vec<String>, id: &str) {
    match list.iter().position(|one| one == id) {
        Some(index) => drop(list.remove(index)),
        None => list.push(id.to_owned()),
    }
}
