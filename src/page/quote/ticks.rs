//! Things to tick.

use leptos::prelude::*;

/// Things to tick: what each is found by, what it says, and what stands under it.
pub fn ticks(rows: Vec<(String, String, String)>, done: Signal<Vec<String>>, tick: Callback<String>) -> AnyView {
    let row = move |(id, label, under): (String, String, String)| {
        let (asked, pressed) = (id.clone(), id.clone());
        let is_done = Memo::new(move |_| done.with(|done| done.contains(&asked)));
        view! {
            <label>
                <input type="checkbox" prop:checked=move || is_done.get() on:change=move |_| tick.run(pressed.clone())/>
                <span>
                    {label}
                    <span class="quiet-text">{under}</span>
                </span>
            </label>
        }
    };
    view! { <div class="ticks">{rows.into_iter().map(row).collect_view()}</div> }.into_any()
}

/// Puts an id into a list, or takes it out.
pub fn toggle(list: &mut Vec<String>, id: &str) {
    match list.iter().position(|one| one == id) {
        Some(index) => drop(list.remove(index)),
        None => list.push(id.to_owned()),
    }
}
