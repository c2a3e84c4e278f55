//! Finish: strip, grind, fill, seal, carry, set.

mod carry;
mod seal;
mod work;

use super::desk::Desk;
use super::field::{explained, field, lead};
use super::figures::source_text;
use super::findings::findings;
use super::measure::pieces_bar;
use super::paper_print::print_page;
use super::pour::strip_figures;
use crate::finding::Stage;
use crate::finish::{Step, cautions};
use crate::job::{FieldPath, FinishField};
use crate::print;
use leptos::prelude::*;

/// The screen.
pub fn finish(desk: Desk) -> AnyView {
    let print_list = move |_| {
        let page = desk.job.with_untracked(|job| desk.estimate.with_untracked(|all| print::finish_page(job, all)));
        print_page(desk, &page);
    };
    view! {
        <div class="side long">
            {lead(desk, Stage::Finish)}
            {pieces_bar(desk)}
            {carry::weights(desk)}
            {findings(desk, Stage::Finish)}
            <div class="row"><button type="button" on:click=print_list>"Print the finishing list"</button></div>
        </div>
        <div class="rest">
            <section class="card" aria-label="Strip">
                <h2>"Strip"</h2>
                {move || desk.chosen().map(|piece| strip_figures(desk, &piece))}
                <p>{explained("Sides off first, then the base. Push knockouts straight and evenly; never lever against a rail. Foam is dug out. (Common practice.)")}</p>
                {step_cautions(Step::Strip)}
            </section>
            {work::grind(desk)}
            {work::fill(desk)}
            {seal::seal(desk)}
            {carry::lift(desk)}
            {carry::way_in(desk)}
            {carry::set(desk)}
        </div>
    }
    .into_any()
}

/// The cautions of a step, each with where it comes from.
fn step_cautions(step: Step) -> AnyView {
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
fn fields(desk: Desk, names: &'static [FinishField]) -> AnyView {
    let one = |name: &FinishField| field(desk, FieldPath::Finish(*name));
    view! { <div class="fields">{names.iter().map(one).collect_view()}</div> }.into_any()
}
