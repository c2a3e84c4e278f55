//! What happens elsewhere: in other tabs, in the journal, in a storage that comes back, and as the page is left.

use super::super::dom;
use super::super::front::{Front, name_or};
use super::again::Again;
use super::bags::Bags;
use super::jobs::Jobs;
use super::keeper::{Keeper, Keeping};
use super::notices::Notices;
use super::own::Own;
use super::route::{Route, Way};
use super::stored::Stored;
use crate::price::PriceBook;
use crate::store::browser;
use crate::store::database::{self, DatabaseJournal, Heard};
use crate::store::{About, Entry, Records};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{VisibilityState, Window};

/// What is said where another tab's state is shown.
const CHANGED: &str = "Changed in another tab, and shown here.";

/// Listens to what happens elsewhere, and tells the owners. It owns nothing: whatever is heard is looked up in what is
/// kept, so that a thing heard twice or late does no harm.
#[derive(Clone, Copy)]
pub struct Elsewhere {
    /// Where a storage that is missing is said.
    pub front: Front,
    /// The storage, which may come back.
    pub stored: Stored,
    /// Its open job may be changed or deleted in another tab.
    pub keeper: Keeper,
    /// The shelf, which changes with every job.
    pub jobs: Jobs,
    /// The bags, which another tab may change.
    pub bags: Bags,
    /// The prices, which another tab may change.
    pub prices: Own<PriceBook>,
    /// A job that could not be opened may be there now.
    pub way: Way,
    /// What is done again after a failure.
    pub again: Again,
    /// Where it is said what happened.
    pub notices: Notices,
}

impl Elsewhere {
    /// Opens the storage, and brings back what local storage has lost.
    pub fn open_storage(self) {
        self.again.does(move || self.try_again());
        match self.stored.open() {
            Ok(()) => self.open_journal(),
            Err(trouble) => {
                self.front.storage_trouble.set(Some(format!(
                    "{trouble} You can work here, and share a job as a file before you close the page."
                )));
                self.again.later();
            }
        }
        // Clearing out what was deleted long ago may fail without harm.
        let _ = self.stored.records().purge(browser::now());
    }

    /// Listens from here on.
    pub fn wake(self) {
        browser::on_storage(move |key| self.look_at(key.as_deref(), Some(CHANGED)));
        self.watch_leaving();
    }

    /// Opens the journal, and brings back what local storage has lost since, as with a battery that died.
    fn open_journal(self) {
        spawn_local(async move {
            let Ok(entries) = database::open(move |heard| self.hear_journal(heard)).await else { return };
            self.catch_up(&entries);
        });
    }

    fn catch_up(self, entries: &[Entry]) {
        let records = self.stored.records();
        let caught_up = records.catch_up(entries, &DatabaseJournal, &mut browser::random_id, browser::now());
        database::begin();
        // What could not be brought back stays in the journal, for the next start.
        let Ok(caught_up) = caught_up else { return };
        for key in &caught_up.changed {
            self.look_at(Some(key), None);
        }
        if matches!(self.way.route.get_untracked(), Route::Lost(_)) {
            self.way.follow_address();
        }
        if !caught_up.brought_back.is_empty() {
            let names = caught_up.brought_back.iter().map(|name| name_or(name)).collect::<Vec<_>>().join(", ");
            let says = format!("This browser stopped before it had stored all that was typed. Brought back: {names}.");
            self.notices.tell(&says, None);
        }
    }

    fn hear_journal(self, heard: Heard) {
        match heard {
            Heard::Is(far) => {
                if self.keeper.on_disk.get_untracked() != far {
                    self.keeper.on_disk.set(far);
                }
            }
            Heard::Lost { first, ours } => self.give_way(&first, &ours),
        }
    }

    /// Another tab has saved over the same state before this one.
    fn give_way(self, first: &Entry, ours: &str) {
        // Where it fails, the next start puts both beside each other.
        let _ = self.stored.records().give_way(first, ours, browser::now());
        let about = Records::about(&first.key);
        match &about {
            About::Job(id) if self.keeper.is_open(id) => {
                let keeping = if first.removed { Keeping::Gone } else { Keeping::Elsewhere { unreadable: None } };
                self.keeper.keeping.set(keeping);
            }
            _ => self.look_at(Some(&first.key), None),
        }
        let what = match about {
            About::Bags => "Your bags were",
            About::Prices => "Your prices were",
            About::Job(_) | About::Other => return,
        };
        let says = "changed in another tab in the same moment: that change counts. Yours goes into the next backup.";
        self.notices.tell(&format!("{what} {says}"), None);
    }

    /// What could not be kept is tried again: room may be made in another tab, and storage may come back.
    fn try_again(self) {
        if self.stored.is_in_memory() && !self.come_back() {
            self.again.later();
        }
        self.keeper.try_again();
        self.bags.try_again();
        self.prices.try_again();
        if self.front.storage_trouble.with_untracked(Option::is_some) && !self.stored.is_in_memory() {
            self.jobs.refresh();
        }
    }

    /// Moves what is in memory to the browser's storage, if that is there now. Says whether all of it went.
    fn come_back(self) -> bool {
        if browser::storage_works().is_err() {
            return false;
        }
        self.keeper.keep_now();
        if !self.stored.come_back() {
            return false;
        }
        self.front.storage_trouble.set(None);
        self.open_journal();
        self.keeper.take_record();
        self.bags.load();
        self.prices.load();
        self.jobs.refresh();
        true
    }

    /// What is kept under that key is another one than before, or all of it where there is no key: it is shown here, with
    /// a word, unless something was typed here since.
    fn look_at(self, key: Option<&str>, says: Option<&str>) {
        match key.map(Records::about) {
            Some(About::Job(id)) => {
                self.jobs.refresh_soon();
                if self.keeper.is_open(&id)
                    && self.keeper.follow_record()
                    && let Some(says) = says
                {
                    self.notices.tell(says, None);
                }
            }
            Some(About::Bags) => self.bags.load(),
            Some(About::Prices) => self.prices.load(),
            Some(About::Other) => self.jobs.refresh_soon(),
            None => {
                self.jobs.refresh_soon();
                if self.keeper.open_id().is_some() {
                    self.keeper.keeping.set(Keeping::Gone);
                }
            }
        }
    }

    /// Looks whether what is shown is still what is kept.
    fn look_again(self) {
        for about in self.keeper.open_id().map(About::Job).into_iter().chain([About::Bags, About::Prices]) {
            if let Some(key) = Records::key_of(&about) {
                self.look_at(Some(&key), Some(CHANGED));
            }
        }
    }

    /// The last words are written when the page is hidden or left.
    fn watch_leaving(self) {
        let Some(window) = web_sys::window() else { return };
        if let Some(document) = window.document() {
            let page = document.clone();
            dom::listen(&document, "visibilitychange", move |_| {
                if page.visibility_state() == VisibilityState::Hidden {
                    self.keeper.keep_now();
                }
            });
        }
        dom::listen(&window, "pagehide", move |_| self.keeper.keep_now());
        dom::listen(&window, "pageshow", move |event| {
            // A page that was put away whole has heard nothing of other tabs.
            if browser::flag(&event, "persisted") {
                self.look_again();
            }
        });
        self.watch_closing(&window);
    }

    /// A browser asks before it closes a page on which something is not kept.
    fn watch_closing(self, window: &Window) {
        dom::listen(window, "beforeunload", move |event| {
            let in_memory =
                self.stored.is_in_memory() && self.stored.records().list().is_ok_and(|jobs| !jobs.is_empty());
            if self.keeper.is_unkept() || in_memory || self.bags.is_unkept() || self.prices.is_unkept() {
                event.prevent_default();
            }
        });
    }
}
