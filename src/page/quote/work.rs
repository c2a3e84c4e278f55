//! The cost in lines, and the hours.

use super::super::desk::Desk;
use super::super::dom;
use super::super::field::{field, hinted};
use super::super::figures::{row, show};
use super::super::paper_print::print_page;
use crate::job::{FieldPath, HoursField, Task};
use crate::measure::{Date, write_duration};
use crate::price::hours_taken;
use crate::print::{self, CostRow};
use leptos::prelude::*;

/// The maker's own page: every line of the cost.
pub fn cost(desk: Desk) -> AnyView {
    let rows = move || {
        desk.estimate.with(|all| match &all.pricing.sheet {
            Ok(sheet) => print::cost_rows(sheet).into_iter().map(cost_row).collect_view().into_any(),
            Err(waiting) => row(desk, "Cost", Err(waiting.clone())),
        })
    };
    let print_own = move |_| {
        let Some(day) = Date::read(&dom::iso_date()) else { return };
        let page = desk.job.with_untracked(|job| {
            desk.estimate.with_untracked(|all| {
                desk.prices.with_untracked(|prices| print::maker_page(job, &all.pricing, prices, day))
            })
        });
        print_page(desk, &page);
    };
    view! {
        <section class="card" aria-label="Cost">
            <details>
                <summary>"What it costs you, line by line"</summary>
                <div class="figures">{rows}</div>
                <div class="row"><button type="button" on:click=print_own>"Print it for yourself"</button></div>
                <p class="quiet-text">"No client sees this page."</p>
            </details>
        </section>
    }
    .into_any()
}

fn cost_row(row: CostRow) -> AnyView {
    let CostRow { label, numbers, amount, is_sum } = row;
    view! {
        <div><div class="plain" class:sum=is_sum><span>{label}<span class="under">{numbers}</span></span><span class="value">{amount}</span></div></div>
    }
    .into_any()
}

/// What is typed for carrying and setting.
const BY_THE_CLOCK: &str = "By the clock: everybody whom the top takes is paid for them.";

/// The hours of every task: what is reckoned with, what was typed, what it took.
pub fn hours(desk: Desk) -> AnyView {
    let reckoned = move || {
        desk.estimate.with(|all| {
            let time = |one: &crate::price::pricing::TaskTime| {
                row(desk, one.task.label(), show(&one.time, |time| write_duration(*time).to_string()))
            };
            all.pricing.work.iter().map(time).collect_view()
        })
    };
    let rows =
        Memo::new(move |_| desk.job.with(|job| job.quote.hours.iter().map(|hours| hours.task).collect::<Vec<Task>>()));
    let typed = move || {
        let one = |(index, task): (usize, Task)| {
            view! {
                <h3>{task.label()}</h3>
                <div class="fields">
                    {hinted(desk, FieldPath::Hours(index, HoursField::Estimated), if task == Task::Set { BY_THE_CLOCK } else { "" })}
                    {field(desk, FieldPath::Hours(index, HoursField::Took))}
                </div>
            }
        };
        rows.get().into_iter().enumerate().map(one).collect_view()
    };
    let learn = move |_| {
        let taken = desk.job.with_untracked(hours_taken);
        let lessons = desk.estimate.with_untracked(|all| all.pricing.lessons(&taken));
        if lessons.is_empty() {
            return desk.tell("Write first what a task took.", None);
        }
        let id = desk.job.with_untracked(|job| job.id.clone());
        desk.prices.edit(|prices| prices.learn_from(&id, &lessons));
        desk.tell("Your pace has learned from this job. It counts from the third finished job on.", None);
    };
    view! {
        <section class="card" aria-label="Hours">
            <h2>"Hours"</h2>
            <div class="figures">{reckoned}</div>
            <details>
                <summary>"Your own guess, and what it took"</summary>
                <p class="quiet-text">"Blank is at your pace. A bare number is hours."</p>
                {typed}
                <div class="row"><button type="button" on:click=learn>"It is finished: learn from it"</button></div>
            </details>
        </section>
    }
    .into_any()
}
