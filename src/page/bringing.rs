//! Bringing in files: a backup job by job, so that the page draws meanwhile, tells how far it is, and can be stopped.

use super::desk::Desk;
use super::dom;
use super::keeper::became_words;
use crate::store::browser;
use crate::store::{self, Arriving, Imported, Opened, Progress};
use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::File;

/// Milliseconds that are worked before the page may draw.
const SLICE: f64 = 30.0;

/// Jobs that are named one by one when they are in; of more, they are counted.
const MOST_NAMED: usize = 12;

/// A backup on its way in.
#[derive(Clone, Copy)]
pub struct Bringing {
    /// How far it is; nothing while none is on its way.
    pub progress: RwSignal<Option<Progress>>,
    /// The maker wants no more of it.
    stopped: RwSignal<bool>,
}

impl Bringing {
    /// Nothing on its way.
    pub fn new() -> Self {
        Self { progress: RwSignal::new(None), stopped: RwSignal::new(false) }
    }
}

/// How far it is, and a way to stop; nothing while nothing is on its way.
pub fn progress(desk: Desk) -> AnyView {
    let Bringing { progress, stopped } = desk.bringing;
    let running = Memo::new(move |_| progress.with(Option::is_some));
    let bar = move || {
        running.get().then(|| {
            let at = move || progress.get().unwrap_or(Progress { done: 0, all: 0 });
            let words = move || {
                let Progress { done, all } = at();
                format!("{done} of {all} jobs")
            };
            view! {
                <div class="row" id="importing">
                    <progress max=move || at().all.to_string() value=move || at().done.to_string() aria-label="Bringing in"/>
                    <span role="status">{words}</span>
                    <button type="button" on:click=move |_| stopped.set(true)>"Stop"</button>
                </div>
            }
        })
    };
    bar.into_any()
}

impl Desk {
    /// Brings in a file that was chosen or dropped.
    pub fn bring_file(self, file: File) {
        if file.size() > store::MOST_SHARED_BYTES as f64 {
            return self.import_file(file);
        }
        spawn_local(async move {
            let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
            match text.as_deref().map(store::open_shared) {
                Some(Ok(Opened::Backup(backup))) => {
                    let from = format!("{}: ", file.name());
                    self.take_in(from, self.records().take_in(*backup)).await;
                }
                _ => self.import_file(file),
            }
        });
    }

    /// Brings in a text that was pasted.
    pub fn bring_text(self, text: String) {
        match store::open_shared(&text) {
            Ok(Opened::Backup(backup)) => {
                self.imported.set(Vec::new());
                spawn_local(async move { self.take_in(String::new(), self.records().take_in(*backup)).await });
            }
            _ => self.import_text(&text),
        }
    }

    /// Takes in a backup in slices. What is in when it is stopped stays.
    async fn take_in(self, from: String, mut arriving: Arriving) {
        let Bringing { progress, stopped } = self.bringing;
        // One at a time: its progress is shown.
        while progress.with_untracked(Option::is_some) {
            dom::next_task().await;
        }
        stopped.set(false);
        let mut going = true;
        while going && !stopped.get_untracked() {
            progress.set(Some(arriving.progress()));
            dom::next_task().await;
            let begun = js_sys::Date::now();
            // A clock that was set back ends the slice as well.
            while going && (0.0..SLICE).contains(&(js_sys::Date::now() - begun)) {
                going = arriving.step(&mut browser::random_id, browser::now());
            }
        }
        progress.set(None);
        let before = self.imported.get_untracked();
        let (found, rest) = arriving.stop();
        if found.not_taken == 0 && (rest.bags.is_some() || rest.prices.is_some()) {
            // A backup of the shelf and the prices alone: the keeper takes them in, and reads them anew.
            self.import_text(&store::backup_page(&rest, ""));
        } else {
            self.refresh_shelf();
        }
        let mut lines = said_of(&found.jobs);
        match found.set_aside {
            Ok(0) => {}
            Ok(count) => lines.push(format!("{count} unreadable records were kept as they are.")),
            Err(why) => lines.push(why.to_string()),
        }
        if found.not_taken > 0 {
            lines.insert(0, format!("Stopped: {} were left out. What was brought in stays.", found.not_taken));
        }
        let lines = lines.into_iter().map(|line| format!("{from}{line}"));
        self.imported.update(|said| said.splice(0..0, lines).for_each(drop));
        self.imported.update(|said| said.extend(before));
    }
}

/// What became of the jobs, in few lines.
fn said_of(jobs: &[(String, Result<Imported, store::SaveError>)]) -> Vec<String> {
    if jobs.len() <= MOST_NAMED {
        return jobs.iter().map(|(name, became)| became_words(name, became)).collect();
    }
    let count = |of: fn(&Imported) -> bool| jobs.iter().filter(|(_, became)| became.as_ref().is_ok_and(of)).count();
    let counted = [
        (count(|became| matches!(became, Imported::Added { .. })), "jobs are on your shelf."),
        (count(|became| matches!(became, Imported::AlreadyHere { .. })), "jobs are here already, just the same."),
        (
            count(|became| matches!(became, Imported::Copied { .. })),
            "jobs are here in another state: they came in as copies.",
        ),
    ];
    let failed = jobs.iter().filter(|(_, became)| became.is_err());
    let mut lines: Vec<String> =
        counted.iter().filter(|(count, _)| *count > 0).map(|(count, words)| format!("{count} {words}")).collect();
    lines.extend(failed.clone().take(MOST_NAMED).map(|(name, became)| became_words(name, became)));
    let more = failed.count().saturating_sub(MOST_NAMED);
    if more > 0 {
        lines.push(format!("{more} more could not be kept."));
    }
    lines
}
