//! The shelf: every job that this browser keeps.

use super::banners::{cut_off_banner, newer_banner, offline_words, storage_banner};
use super::front::{Errand, Front, Row};
use crate::names::in_sentence;
use leptos::html;
use leptos::prelude::*;
use web_sys::Element;

/// The screen.
pub fn shelf(front: Front) -> AnyView {
    let many = move || front.shelf.with(|shelf| shelf.len() > 3);
    let list = move || {
        let found = front.found.get().unwrap_or_else(|| front.shelf.get());
        if front.shelf.with(Vec::is_empty) {
            return empty(front);
        }
        if found.is_empty() {
            return view! { <p class="quiet-text">"No job has these words in its name, client or notes."</p> }
                .into_any();
        }
        let rows = found.into_iter().map(|row| job_row(front, row)).collect_view();
        view! { <ul class="jobs">{rows}</ul> }.into_any()
    };
    view! {
        <header class="top">
            <div class="bar">
                <h1>"\u{a0}\u{a0}Pourwright"</h1>
            </div>
        </header>
        <main id="main" tabindex="-1" data-screen="Shelf">
            {storage_banner(front)}
            {cut_off_banner(front)}
            {newer_banner(front)}
            <div class="shelf-head">
                <div class="row">
                    <button type="button" class="main" on:click=move |_| front.ask(Errand::NewJob)>"New job"</button>
                    <button type="button" on:click=move |_| front.ask(Errand::Import)>"Import"</button>
                    {move || front.shelf.with(|shelf| !shelf.is_empty()).then(|| view! {
                        <button type="button" on:click=move |_| front.ask(Errand::BackUp)>"Back up everything"</button>
                    })}
                </div>
                {move || many().then(|| view! {
                    <input class="search" type="search" aria-label="Search jobs" placeholder="Search name, client, notes"
                        prop:value=move || front.search.get() on:input=move |event| front.search.set(event_target_value(&event))/>
                })}
            </div>
            {move || front.waits().then(|| view! { <p class="quiet-text" role="status">"Fetching the rest of this page…"</p> })}
            {list}
            {deleted(front)}
            {move || front.storage_words.get().map(|words| view! { <p class="quiet-text">{words}</p> })}
            {offline_words(front)}
        </main>
    }
    .into_any()
}

fn job_row(front: Front, row: Row) -> AnyView {
    let Row { id, name, under, unreadable } = row;
    if let Some(why) = unreadable {
        let keep = id.clone();
        return view! {
            <li class="job unreadable">
                <span class="name">"A record that cannot be read"</span>
                <p>{why}</p>
                <p class="quiet-text">"It is left as it is, and it goes into every backup."</p>
                <div class="row">
                    <button type="button" on:click=move |_| front.ask(Errand::SaveText(keep.clone()))>"Save its text"</button>
                    // The shelves of bags and prices have no screen of their own.
                    {(!id.contains('/')).then(|| view! { <a class="button" href=format!("#/job/{id}/measure")>"Look into it"</a> })}
                </div>
            </li>
        }
        .into_any();
    }
    let address = format!("#/job/{id}/measure");
    let (copy, remove) = (id.clone(), id);
    let copy_label = format!("Copy {}", in_sentence(&name));
    let remove_label = format!("Delete {}", in_sentence(&name));
    view! {
        <li class="job">
            <a href=address>
                <span class="name" dir="auto">{name}</span>
                <span class="quiet-text">{under}</span>
            </a>
            <span class="doings">
                <button type="button" class="quiet" aria-label=copy_label on:click=move |_| front.ask(Errand::Copy(copy.clone()))>"Copy"</button>
                <button type="button" class="quiet danger" aria-label=remove_label on:click=move |_| front.ask(Errand::Delete(remove.clone()))>"Delete"</button>
            </span>
        </li>
    }
    .into_any()
}

/// Jobs deleted lately, each to be had back.
fn deleted(front: Front) -> AnyView {
    (move || {
        let gone = front.deleted.get();
        (!gone.is_empty()).then(|| {
            let rows = gone
                .into_iter()
                .map(|(id, name)| {
                    view! {
                        <li class="row">
                            <span dir="auto">{name}</span>
                            <button type="button" on:click=move |_| front.ask(Errand::PutBack(id.clone()))>"Put back"</button>
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
fn empty(front: Front) -> AnyView {
    view! {
        <section class="empty">
            {moved(front.welcome.with_value(|welcome| welcome.says.clone()))}
            <div class="row">
                <button type="button" class="main" on:click=move |_| front.ask(Errand::Demo)>"See a worked job"</button>
                <button type="button" on:click=move |_| front.ask(Errand::NewJob)>"Start your own"</button>
            </div>
            {moved(front.welcome.with_value(|welcome| welcome.picture.clone()))}
            <p class="quiet-text">"On an iPhone, add this page to the Home Screen first, then enter jobs: the two keep separate shelves."</p>
        </section>
    }
    .into_any()
}

/// An element that is in the page's file, here.
fn moved(element: Option<Element>) -> AnyView {
    let place = NodeRef::<html::Div>::new();
    let element = StoredValue::new_local(element);
    Effect::new(move |_| {
        if let (Some(place), Some(element)) = (place.get(), element.get_value()) {
            let _ = place.append_child(&element);
        }
    });
    view! { <div class="moved" node_ref=place/> }.into_any()
}
