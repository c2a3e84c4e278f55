//! The evening before: the list that is made from the job, ticked off in it.

use super::super::desk::Desk;
use crate::print::evening_list;
use leptos::prelude::*;

/// The card.
pub fn evening(desk: Desk) -> AnyView {
    let list = Memo::new(move |_| {
        let list = desk.job.with(|job| evening_list(job, &desk.worked.whole()));
        list.into_iter().map(|todo| (todo.heading, todo.lines)).collect::<Vec<_>>()
    });
    let left = move || {
        let ticks = desk.job.with(|job| job.pour.ticks.clone());
        let left =
            list.with(|list| list.iter().flat_map(|(_, lines)| lines).filter(|line| !ticks.contains(line)).count());
        if left == 0 { "All is ready.".to_owned() } else { format!("{left} to do") }
    };
    let headings = move || {
        list.get()
            .into_iter()
            .map(|(heading, lines)| {
                let lines = lines.into_iter().map(|line| tick(desk, line)).collect_view();
                view! { <h3>{heading}</h3><ul class="ticks">{lines}</ul> }
            })
            .collect_view()
    };
    view! {
        <section class="card" aria-label="The evening before">
            <header><h2>"The evening before"</h2><span class="quiet-text">{left}</span></header>
            {headings}
        </section>
    }
    .into_any()
}

fn tick(desk: Desk, line: String) -> AnyView {
    let (seen, toggled) = (line.clone(), line.clone());
    let done = Memo::new(move |_| desk.job.with(|job| job.pour.ticks.contains(&seen)));
    let toggle = move |_| {
        desk.job.update(|job| {
            let ticks = &mut job.pour.ticks;
            match ticks.iter().position(|tick| *tick == toggled) {
                Some(index) => drop(ticks.remove(index)),
                None => ticks.push(toggled.clone()),
            }
        });
    };
    view! {
        <li>
            <label class:done=move || done.get()>
                <input type="checkbox" prop:checked=move || done.get() on:change=toggle/>
                <span>{line}</span>
            </label>
        </li>
    }
    .into_any()
}
