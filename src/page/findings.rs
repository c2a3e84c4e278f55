//! Stops, watches and notes, and the cautions that stand at a step.

use super::desk::Desk;
use super::field::explained;
use super::figures::{source_text, written};
use crate::finding::{Finding, Severity, Stage};
use leptos::prelude::*;

/// The word for a strength, and its class.
pub fn strength_words(strength: Severity) -> (&'static str, &'static str) {
    match strength {
        Severity::Stop => ("Stop", "stop"),
        Severity::Watch => ("Watch", "watch"),
        Severity::Note => ("Note", "note"),
    }
}

/// The findings of one screen.
pub fn findings(desk: Desk, stage: Stage) -> AnyView {
    let here = Memo::new(move |_| {
        desk.worked.findings.with(|all| all.iter().filter(|one| one.stage == stage).cloned().collect::<Vec<_>>())
    });
    view! {
        <section class="findings whole" aria-label="What to know" aria-live="polite">
            {move || here.get().into_iter().map(|one| finding(desk, one)).collect_view()}
        </section>
    }
    .into_any()
}

fn finding(desk: Desk, one: Finding) -> AnyView {
    let (word, class) = strength_words(one.severity);
    let place = one.place;
    let [says, remedy] = [one.says, one.remedy].map(|label| written(desk, label));
    view! {
        <article class=format!("finding {class}")>
            <span class="strength">{word}</span>
            <p>{move || says.with(|says| explained(says))}</p>
            <p>{move || remedy.with(|remedy| explained(remedy))}</p>
            <p class="quiet-text">{source_text(one.source)}</p>
            <button type="button" on:click=move |_| desk.go_to(place)>{format!("Go to {}", place.label().to_lowercase())}</button>
        </article>
    }
    .into_any()
}

/// A caution that stands where the work can hurt someone.
pub fn caution(title: &'static str, says: &'static str) -> AnyView {
    view! { <p class="caution"><strong>{title}</strong>{explained(says)}</p> }.into_any()
}
