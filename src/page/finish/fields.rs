//! What every card of the finish is made of: its fields, and the cautions of a step.

use super::super::desk::Desk;
use super::super::field::field;
use super::super::figures::source_text;
use crate::finish::{Step, cautions};
use crate::job::{FieldPath, FinishField};
use leptos::prelude::*;

/// The cautions of a step, each with where it comes from.
pub fn step_cautions(step: Step) -> AnyView {
    cautions(step)
        .map(|one| {
            view! {
                <p class="caution">
                    <strong>{one.title}</strong>
                    {one.says} " "
                    <span class="quiet-text">"(" {source_text(one.source)} ".)"</span>
                </p>
            }
        })
        .collect_view()
        .into_any()
}

/// Fields of the finish.
pub fn fields(desk: Desk, names: &'static [FinishField]) -> AnyView {
    let one = |name: &FinishField| field(desk, FieldPath::Finish(*name));
    view! { <div class="fields">{names.iter().map(one).collect_view()}</div> }.into_any()
}
