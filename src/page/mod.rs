//! What is seen. Every figure here is derived from one signal, the job, by calling
//! [`crate::estimate::estimate`]; nothing is calculated in this room.
//!
//! The page is fetched in two parts. [`front`] is the shelf, and small, so that it stands at once; [`workshop`]
//! is everything that reads a job, fetched right behind it.
//!
//! One file a screen: [`shelf`], then the five verbs [`measure`], [`build`], [`pour`], [`finish`],
//! [`quote`], with [`job`] around them. [`desk`] holds what the screens share; [`field`], [`figures`],
//! [`findings`] and [`plan`] are what they are made of. A screen is a plain function that gives an `AnyView`,
//! so that the size of the page grows with its screens and not with their combinations.

mod arrival;
mod bringing;
mod build;
mod desk;
mod details;
mod dom;
mod field;
mod figures;
mod findings;
mod finish;
mod front;
mod history;
mod job;
mod keeper;
mod leaving;
mod lost;
mod measure;
mod offline;
mod openings;
mod paper;
mod paper_print;
mod pick;
mod plan;
mod pour;
mod quote;
mod scale;
mod shape;
mod sharing;
mod shelf;
mod verdicts;
mod workshop;

use front::{CutOff, Front, Shown};
use leptos::prelude::*;

/// The whole page.
#[component]
pub fn App() -> impl IntoView {
    let front = Front::new();
    front.wake();
    if front.shown.get_untracked() == Shown::Opening {
        // A job is waited for.
        workshop::fetch(front);
    } else {
        dom::after_drawing(move || workshop::fetch(front));
    }
    offline::register(front);
    if let Some(frame) = dom::document().and_then(|document| document.get_element_by_id("frame")) {
        frame.remove();
    }
    let screen = move || match front.shown.get() {
        Shown::Shelf => shelf::shelf(front),
        Shown::Opening => opening(front),
        Shown::Workshop => ().into_any(),
    };
    view! {
        <a class="skip button" href="#main" on:click=move |event| { event.prevent_default(); dom::focus_on("main".to_owned()); }>"Skip to the fields"</a>
        {screen}
    }
}

/// A job is on its way.
fn opening(front: Front) -> AnyView {
    view! {
        <header class="top"><div class="bar"><h1>"\u{a0}\u{a0}Pourwright"</h1></div></header>
        <main id="main" tabindex="-1" data-screen="Opening">
            {cut_off_banner(front)}
            <p class="quiet-text" role="status">{move || if front.cut_off.get().is_some() { "" } else { "Opening the job…" }}</p>
        </main>
    }
    .into_any()
}

/// Said when only the front of the page could be fetched.
fn cut_off_banner(front: Front) -> AnyView {
    (move || {
        front.cut_off.get().map(|why| {
            let outdated = why == CutOff::Outdated;
            let (says, offers) = if outdated {
                ("The host has a newer version of it.", "Open the newer version")
            } else {
                ("Check the connection.", "Try again")
            };
            let go = move |_| if outdated { offline::open_newer(front) } else { workshop::fetch(front) };
            view! {
                <div class="banner stop whole" role="alert">
                    <strong>"The rest of this page could not be fetched."</strong>
                    <p>{says}" What this browser keeps is untouched."</p>
                    <div class="row">
                        <button type="button" class="main" on:click=go>{offers}</button>
                    </div>
                </div>
            }
        })
    })
    .into_any()
}

/// Said once, wherever one is, when the browser keeps nothing.
pub fn storage_banner(front: Front) -> AnyView {
    (move || {
        front.storage_trouble.get().map(|why| {
            view! {
                <div class="banner whole" role="alert">
                    <strong>"This browser keeps nothing here."</strong>
                    <p>{why}</p>
                </div>
            }
        })
    })
    .into_any()
}
