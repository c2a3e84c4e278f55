//! The shelf: every job that this browser keeps.

use super::desk::{Desk, Sheet};
use super::{offline, storage_banner};
use crate::draw::{Face, plan};
use crate::estimate::estimate;
use crate::price::PriceBook;
use leptos::prelude::*;

/// The screen.
pub fn shelf(desk: Desk) -> AnyView {
    let search = RwSignal::new(String::new());
    let found = Memo::new(move |_| desk.find(&search.get()));
    let many = move || desk.shelf.with(|shelf| shelf.len() > 3);
    let list = move || {
        let found = found.get();
        if desk.shelf.with(Vec::is_empty) {
            return empty(desk);
        }
        if found.is_empty() {
            return view! { <p class="quiet-text">"No job has these words in its name, client or notes."</p> }
                .into_any();
        }
        let rows = found.into_iter().map(|row| job_row(desk, row)).collect_view();
        view! { <ul class="jobs">{rows}</ul> }.into_any()
    };
    view! {
        <header class="top">
            <div class="bar">
                <h1>"\u{a0}\u{a0}Pourwright"</h1>
            </div>
        </header>
        <main id="main" tabindex="-1" data-screen="Shelf">
            {storage_banner(desk)}
            {offline::banner(desk)}
            <div class="shelf-head">
                <div class="row">
                    <button type="button" class="main" on:click=move |_| desk.new_job()>"New job"</button>
                    <button type="button" on:click=move |_| desk.sheet.set(Some(Sheet::Import))>"Import"</button>
                    {move || desk.shelf.with(|shelf| !shelf.is_empty()).then(|| view! {
                        <button type="button" on:click=move |_| desk.share_backup()>"Back up everything"</button>
                    })}
                </div>
                {move || many().then(|| view! {
                    <input class="search" type="search" aria-label="Search jobs" placeholder="Search name, client, notes"
                        prop:value=move || search.get() on:input=move |event| search.set(event_target_value(&event))/>
                })}
            </div>
            {list}
            {deleted(desk)}
            {move || desk.storage_words.get().map(|words| view! { <p class="quiet-text">{words}</p> })}
            {offline::words(desk)}
        </main>
    }
    .into_any()
}

/// One job on the shelf.
#[derive(Clone, PartialEq)]
pub struct Row {
    /// Which job.
    pub id: String,
    /// Its name, or what stands for one.
    pub name: String,
    /// Client and when it was last touched.
    pub under: String,
    /// Why it cannot be read, if it cannot.
    pub unreadable: Option<String>,
}

fn job_row(desk: Desk, row: Row) -> AnyView {
    let Row { id, name, under, unreadable } = row;
    if let Some(why) = unreadable {
        let keep = id.clone();
        return view! {
            <li class="job unreadable">
                <span class="name">"A record that cannot be read"</span>
                <p>{why}</p>
                <p class="quiet-text">"It is left as it is, and it goes into every backup."</p>
                <div class="row"><button type="button" on:click=move |_| desk.download_raw(&keep)>"Save its text"</button></div>
            </li>
        }
        .into_any();
    }
    let address = Desk::address_of(&id, crate::finding::Stage::Measure);
    let (copy, remove) = (id.clone(), id);
    let copy_label = format!("Copy {name}");
    let remove_label = format!("Delete {name}");
    view! {
        <li class="job">
            <a href=address>
                <span class="name">{name}</span>
                <span class="quiet-text">{under}</span>
            </a>
            <span class="doings">
                <button type="button" class="quiet" aria-label=copy_label on:click=move |_| desk.duplicate(&copy)>"Copy"</button>
                <button type="button" class="quiet danger" aria-label=remove_label on:click=move |_| desk.delete(&remove)>"Delete"</button>
            </span>
        </li>
    }
    .into_any()
}

/// Jobs deleted lately, each to be had back.
fn deleted(desk: Desk) -> AnyView {
    (move || {
        let gone = desk.deleted.get();
        (!gone.is_empty()).then(|| {
            let rows = gone
                .into_iter()
                .map(|(id, name)| {
                    view! {
                        <li class="row">
                            <span>{name}</span>
                            <button type="button" on:click=move |_| desk.undo_delete(&id)>"Put back"</button>
                        </li>
                    }
                })
                .collect_view();
            view! { <details><summary>"Deleted in the last 30 days"</summary><ul class="findings">{rows}</ul></details> }
        })
    })
    .into_any()
}

/// What a new maker sees first.
fn empty(desk: Desk) -> AnyView {
    // The worked job's plan, as a picture of what is to come.
    let job = crate::job::demo("");
    let pieces = estimate(&job, &PriceBook::default()).pieces;
    let drawing = pieces
        .first()
        .zip(job.pieces.first())
        .and_then(|(piece, typed)| plan(piece, typed, job.units, Face::Installed, None));
    // A picture, nothing to press.
    let picture =
        drawing.map_or_else(String::new, |drawing| drawing.svg.replace("role=\"button\" tabindex=\"0\" ", ""));
    view! {
        <section class="empty">
            <h2>"From the tape to the order, before you leave the room"</h2>
            <p>"Type what the tape says. Pourwright tells you the form, the bags, the water, the weight and the people, shows the hand calculation behind every number, and keeps it all in this browser: nothing is ever sent anywhere."</p>
            <div class="row">
                <button type="button" class="main" on:click=move |_| desk.open_demo()>"See a worked job"</button>
                <button type="button" on:click=move |_| desk.new_job()>"Start your own"</button>
            </div>
            <div aria-hidden="true" class="picture" inner_html=picture/>
            <p class="quiet-text">"On an iPhone, add this page to the Home Screen first, then enter jobs: the two keep separate shelves."</p>
        </section>
    }
    .into_any()
}
