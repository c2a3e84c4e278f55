//! What is seen. Every figure here is derived from one signal, the job, by calling
//! [`crate::estimate::estimate`]; nothing is calculated in this room.
//!
//! The page is fetched in two parts. [`front`] is the shelf, and small, so that it stands at once; [`workshop`]
//! is everything that reads a job, fetched right behind it.
//!
//! One file a screen: [`shelf`], then the five verbs [`measure`], [`build`], [`pour`], [`finish`],
//! [`quote`], with [`job`] around them. [`front`] and [`desk`] hold what the screens share, and know none of them;
//! [`field`], [`figures`], [`findings`] and [`plan`] are what they are made of. A file names others only downwards:
//! screens, what they are made of, the desk, the front, [`dom`]; `tests/arrows` holds it to that. A screen is a plain
//! function that gives an `AnyView`, so that the size of the page grows with its screens and not with their combinations.

mod arrival;
mod banners;
mod build;
mod desk;
mod details;
mod dom;
mod field;
mod figures;
mod findings;
mod finish;
mod front;
mod job;
mod lost;
mod measure;
mod openings;
mod paper;
mod paper_print;
mod pick;
mod plan;
mod pour;
mod quote;
mod scale;
mod screens;
mod shape;
mod sharing;
mod shelf;
mod sides;
mod workshop;

use banners::cut_off_banner;
use front::{Front, Shown, offline};
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
    Effect::watch(move || front.tries.get(), move |_, _, _| workshop::fetch(front), false);
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
