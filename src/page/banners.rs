//! What is said above everything else: that a part of the page is missing, that nothing is kept, that there is a newer
//! version; and the line about the garage.

use super::front::{CutOff, Front, Offline, offline};
use leptos::prelude::*;

/// Said when only the front of the page could be fetched.
pub fn cut_off_banner(front: Front) -> AnyView {
    (move || {
        front.cut_off.get().map(|why| {
            let outdated = why == CutOff::Outdated;
            let (says, offers) = if outdated {
                ("The host has a newer version of it.", "Open the newer version")
            } else {
                ("Check the connection.", "Try again")
            };
            let go =
                move |_| if outdated { offline::open_newer(front) } else { front.tries.update(|tries| *tries += 1) };
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

/// Offers the newer version.
pub fn newer_banner(front: Front) -> AnyView {
    (move || {
        front.newer.get().then(|| {
            view! {
                <div class="banner whole" id="newer" role="status">
                    <strong>"A newer version is ready."</strong>
                    <div class="row">
                        <button type="button" class="main" on:click=move |_| offline::open_newer(front)>"Open it"</button>
                        <button type="button" on:click=move |_| front.newer.set(false)>"Later"</button>
                    </div>
                </div>
            }
        })
    })
    .into_any()
}

/// One line about the garage without a network, and one about who else keeps jobs here.
pub fn offline_words(front: Front) -> AnyView {
    let text = move || match front.offline.get() {
        Offline::Unknown => "",
        Offline::Ready => "Ready for the garage: this page opens with the network gone.",
        Offline::Lacking => {
            "Not ready for the garage: a part of this page is missing here, and is fetched when the network allows."
        }
        Offline::Never => "At this address the page needs the network to open.",
    };
    let shared = move || {
        let neighbours = front.neighbours.get();
        (!neighbours.is_empty()).then(|| {
            let says = format!("Another Pourwright on this host shows the same jobs in this browser: {neighbours}");
            view! { <p class="quiet-text" id="neighbours">{says}</p> }
        })
    };
    view! { <p class="quiet-text" id="offline-words">{text}</p>{shared} }.into_any()
}
