//! The list for the shop, for one job or several.

use super::super::desk::Desk;
use super::super::field::choice;
use super::super::figures::plain_row;
use super::others::{others, worked_out};
use super::ticks::{ticks, toggle};
use crate::job::Job;
use crate::measure::write_money;
use crate::names::in_sentence;
use crate::price::trip::{BuyFor, Trip};
use crate::print;
use crate::store::browser;
use leptos::prelude::*;

/// What the ticks are kept under, in this browser alone.
const IN_THE_CART: &str = "in-the-cart";

/// The card.
pub fn shop(desk: Desk) -> AnyView {
    let chosen = RwSignal::new(Vec::<String>::new());
    let at_once = RwSignal::new(false);
    let done = RwSignal::new(desk.stored.remembered(IN_THE_CART).lines().map(str::to_owned).collect::<Vec<_>>());
    let trip = Memo::new(move |_| {
        let buy_for = |job: &Job, needs| BuyFor::new(job, in_sentence(&print::job_name(job)).into_owned(), needs);
        let needs = desk.estimate.with(|all| all.pricing.needs.clone());
        let mut jobs = vec![desk.job.with(|job| buy_for(job, needs))];
        let more = worked_out(desk, &chosen.get());
        jobs.extend(more.into_iter().map(|(job, all)| buy_for(&job, all.pricing.needs)));
        desk.prices.with(|prices| Trip::of(&jobs, prices, at_once.get()))
    });
    let tick = Callback::new(move |id: String| {
        done.update(|done| toggle(done, &id));
        desk.stored.remember(IN_THE_CART, &done.with_untracked(|done| done.join("\n")));
    });
    let list = move || {
        trip.with(|trip| match trip {
            Ok(trip) => rows(desk, trip, done.into(), tick),
            Err(wrong) => wrong.iter().map(|says| view! { <p>{says.clone()}</p> }).collect_view().into_any(),
        })
    };
    let text = move || {
        let text = trip.with_untracked(|trip| {
            let trip = trip.as_ref().ok()?;
            Some(done.with_untracked(|done| trip.text(done, desk.units())))
        });
        text.unwrap_or_default()
    };
    let send = move |_| send(desk, text());
    let clear = move |_| {
        done.set(Vec::new());
        desk.stored.remember(IN_THE_CART, "");
    };
    view! {
        <section class="card" aria-label="Shopping list">
            <h2>"For the shop"</h2>
            {move || other_jobs(desk, chosen, at_once)}
            {list}
            <div class="row">
                <button type="button" on:click=send>"Send the list"</button>
                <button type="button" on:click=clear>"Untick all"</button>
            </div>
        </section>
    }
    .into_any()
}

/// The other jobs to buy for, and whether all stand in their forms at once; nothing where there is no other job.
fn other_jobs(desk: Desk, chosen: RwSignal<Vec<String>>, at_once: RwSignal<bool>) -> Option<AnyView> {
    let rows: Vec<_> = others(desk).into_iter().map(|(id, name)| (id, name, String::new())).collect();
    if rows.is_empty() {
        return None;
    }
    let pick = Callback::new(move |id: String| chosen.update(|chosen| toggle(chosen, &id)));
    let options = vec![(0, "One after the other"), (1, "At the same time")];
    let chosen_way = Signal::derive(move || usize::from(at_once.get()));
    let view = view! {
        <details>
            <summary>"Buy for other jobs as well"</summary>
            {ticks(rows, chosen.into(), pick)}
            {choice("They stand in their forms", options, chosen_way, Callback::new(move |at| at_once.set(at == 1)))}
        </details>
    };
    Some(view.into_any())
}

fn rows(desk: Desk, trip: &Trip, done: Signal<Vec<String>>, tick: Callback<String>) -> AnyView {
    let units = desk.units();
    let list = &trip.list;
    let lines = list.rows.iter().map(|row| {
        let (what, why) = trip.words(row, units);
        (row.item.clone(), what, why)
    });
    let waiting = trip.waiting.iter().map(|(job, says)| {
        view! { <p class="quiet-text">{format!("{job}: not all of it is known yet. {says}")}</p> }
    });
    let wrong = trip.wrong.iter().map(|says| view! { <p class="quiet-text">{says.clone()}</p> });
    view! {
        {ticks(lines.collect(), done, tick)}
        <div class="figures">{plain_row("All of it, as far as priced", write_money(list.cost, &list.currency))}</div>
        {waiting.collect_view()}
        {wrong.collect_view()}
    }
    .into_any()
}

/// Gives the list to the phone's share sheet; else it goes to the clipboard; else it is saved.
fn send(desk: Desk, text: String) {
    browser::share_text(text, move |outcome| match outcome {
        browser::TextShared::Sent | browser::TextShared::Closed => {}
        browser::TextShared::Copied => desk.tell("The list is copied: paste it into a message.", None),
        browser::TextShared::Neither(text) => {
            let name = "pourwright-shopping.txt";
            match browser::download_as(name, &text, "text/plain") {
                Ok(()) => desk.tell(&format!("Saved as {name}."), None),
                Err(why) => desk.tell(&why, None),
            }
        }
    });
}
