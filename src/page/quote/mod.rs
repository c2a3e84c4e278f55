//! Quote: what it costs and takes, what is offered, the list for the shop, the maker's own book.

mod book;
mod offer;
mod others;
mod shop;
mod ticks;
mod work;

use super::desk::Desk;
use super::field::lead;
use super::findings::findings;
use super::sharing::open_share;
use crate::finding::Stage;
use leptos::prelude::*;

/// The screen.
pub fn quote(desk: Desk) -> AnyView {
    // Whoever came straight to this job has not seen the shelf yet.
    desk.jobs.refresh();
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
                    <button type="button" on:click=move |_| open_share(desk)>"Share this estimate"</button>
                </div>
            </section>
        </div>
    }
    .into_any()
}
