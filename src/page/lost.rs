//! A job that cannot be opened, or is too large to be worked out: it stays where it is, the page says why, shows what
//! can be told of it, and gives it out as a file or deletes it.

use super::desk::{Desk, Route};
use super::dom;
use super::figures::plain_row;
use super::front::whole_name_or;
use crate::store::Gist;
use crate::store::browser;
use leptos::prelude::*;

/// The name of the file that it is saved as.
const FILE: &str = "pourwright-job.json";

/// The screen. The address says which job it is.
pub fn lost(desk: Desk, why: String) -> AnyView {
    let id = dom::job_in_address();
    let record = id.as_deref().and_then(|id| desk.stored.records().raw(id).ok().flatten());
    view! {
        <header class="top"><div class="bar"><h1>"Pourwright"</h1></div></header>
        <main id="main" tabindex="-1" data-screen="Lost">
            <div class="banner stop" role="alert">
                <strong>"This job cannot be opened."</strong>
                <p>{why}</p>
                <div class="row"><a class="button" href="#/">"All jobs"</a></div>
            </div>
            {id.zip(record).map(|(id, record)| what_is_there(desk, id, record))}
        </main>
    }
    .into_any()
}

/// Its name, its values as they were typed, and what can be done with it.
fn what_is_there(desk: Desk, id: String, record: String) -> AnyView {
    let Gist { name, client, values, more } = Gist::of(&record);
    let client = (!client.trim().is_empty()).then(|| view! { <p dir="auto">{client}</p> });
    let more = (more > 0).then(|| plain_row("And more values", more.to_string()));
    let list = (!values.is_empty()).then(|| {
        let rows = values.into_iter().map(|(place, value)| {
            view! { <div><div class="plain"><bdi>{place}</bdi><bdi class="value">{value}</bdi></div></div> }
        });
        view! {
            <details open>
                <summary>"What was typed"</summary>
                <div class="figures">{rows.collect_view()} {more}</div>
            </details>
        }
    });
    let save = move |_| match browser::download_as(FILE, &record, "application/json") {
        Ok(()) => desk.tell(&format!("Saved as {FILE}."), None),
        Err(why) => desk.tell(&why, None),
    };
    let delete = move |_| {
        desk.jobs.delete(&id);
        desk.go(Route::Shelf);
    };
    view! {
        <section class="card" aria-label="What is kept of it">
            <h2 dir="auto">{whole_name_or(&name)}</h2>
            {client}
            <p>"It is kept to the letter, and it goes into every backup."</p>
            <div class="row">
                <button type="button" class="main" on:click=save>"Save it as a file"</button>
                <button type="button" class="danger" on:click=delete>"Delete it"</button>
            </div>
            {list}
        </section>
    }
    .into_any()
}
