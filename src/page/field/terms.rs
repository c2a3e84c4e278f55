//! Help where it is needed: the meaning of a term a tap away, and what an empty screen is for.

use super::super::desk::Desk;
use crate::finding::Stage;
use crate::terms::{Stretch, Term, beside, stretches};
use leptos::prelude::*;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A word that shows a term's meaning when it is tapped, and hides it at the next tap anywhere.
fn tapped(word: &str, of: &str, class: &'static str, term: &'static Term) -> AnyView {
    static COUNT: AtomicUsize = AtomicUsize::new(0);
    let id = format!("term-{}", COUNT.fetch_add(1, Ordering::Relaxed));
    view! {
        <span class=class>
            <button type="button" popovertarget=id.clone() aria-label=format!("{of}: what is it?")>{word.to_owned()}</button>
            <span class="meaning" id=id popover="auto"><strong>{term.name}</strong> " " {term.meaning}</span>
        </span>
    }
    .into_any()
}

/// What stands beside a label whose term has a meaning; nothing beside others.
pub fn what(label: &str) -> Option<AnyView> {
    beside(label).map(|term| tapped("?", term.name, "what", term))
}

/// A sentence in which every term can be tapped.
pub fn explained(sentence: &str) -> AnyView {
    let stretch = |stretch| match stretch {
        Stretch::Plain(text) => text.to_owned().into_any(),
        Stretch::Term(text, term) => tapped(text, text, "term", term),
    };
    stretches(sentence).into_iter().map(stretch).collect_view().into_any()
}

/// What a screen is for, while the job has no outline yet.
pub fn lead(desk: Desk, stage: Stage) -> AnyView {
    let says = match stage {
        Stage::Measure => {
            "Type what the tape says, and the plan draws itself; bags, water, weight and people follow from it."
        }
        Stage::Build => {
            "Once the size is typed under Measure, this screen lists what to cut, and tells whether it cracks."
        }
        Stage::Pour => "Once the size is typed under Measure, this screen orders the mix and runs beside the pour.",
        Stage::Finish => "Once the size is typed under Measure, this screen plans grinding, sealing and the way in.",
        Stage::Quote => "Once the size is typed under Measure, this screen makes a price of your own prices and hours.",
    };
    let empty = Memo::new(move |_| desk.cast.with(|all| all.pieces.iter().all(|piece| piece.top.outline.is_err())));
    (move || empty.get().then(|| view! { <p class="lead">{says}</p> })).into_any()
}
