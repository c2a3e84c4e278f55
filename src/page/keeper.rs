//! Keeping: the open job is written to local storage while it is typed, and every failure is said.
//!
//! A change is written within [`DELAY`], and at once when the page is hidden or left; the journal has it on disk some
//! moments later, and only then it is said to be saved. The stamp of the record
//! that was read is handed back with every save, so that another tab's newer state is never overwritten. What could
//! not be kept is tried again every [`AGAIN`], and [`super::leaving`] lets nothing take its place without a word.

use super::desk::{Desk, Keeping, Overlay, Route};
use super::dom;
use super::front::Shown;
use super::history::History;
use super::job::{STAGES, stage_word};
use super::shelf::{Row, name_or, row};
use crate::finding::Stage;
use crate::job::file::FileError;
use crate::job::{Bag, Job};
use crate::price::PriceBook;
use crate::store::browser::{self, LocalStorage, ShareOutcome, ShareReady};
use crate::store::database::{self, DatabaseJournal, Heard};
use crate::store::{
    self, About, Imported, Journalled, Listed, LoadError, Memory, Records, SaveError, Shared, Stamp, Trouble,
};
use leptos::prelude::*;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::VisibilityState;

/// From a key pressed to its being written.
const DELAY: Duration = Duration::from_millis(200);

/// From a failure to the next try.
const AGAIN: Duration = Duration::from_secs(3);

/// What keeping needs to remember between two writes.
#[derive(Clone)]
pub struct Keeper(Rc<State>);

pub(super) struct State {
    records: RefCell<Records>,
    /// The browser gives no storage, so that the records go with the page.
    pub(super) in_memory: Cell<bool>,
    /// The job as it was last read or written, and the stamp of that record: revision 0 if it never was.
    pub(super) kept: RefCell<Option<(Job, Stamp)>>,
    bags: RefCell<Option<Stamp>>,
    prices: RefCell<Option<Stamp>>,
    /// A write is on its way.
    waiting: Cell<bool>,
    /// The maker's own bags, and the prices, hold what is not kept.
    pub(super) bags_wait: Cell<bool>,
    pub(super) prices_wait: Cell<bool>,
    /// Another try is on its way.
    trying: Cell<bool>,
    asked_to_persist: Cell<bool>,
    pub(super) history: RefCell<History>,
    notice: Cell<u32>,
    /// The step is noted, and what the maker should know is looked up, once this is painted.
    pub(super) looks: Cell<bool>,
    /// The file to share, made before the tap that shares it.
    ready: RefCell<Option<(String, String, Option<ShareReady>)>>,
}

impl Default for Keeper {
    fn default() -> Self {
        Self(Rc::new(State {
            records: RefCell::new(Records::new(Arc::new(Memory::default()), "")),
            in_memory: Cell::default(),
            kept: RefCell::default(),
            bags: RefCell::default(),
            prices: RefCell::default(),
            waiting: Cell::default(),
            bags_wait: Cell::default(),
            prices_wait: Cell::default(),
            trying: Cell::default(),
            asked_to_persist: Cell::default(),
            history: RefCell::default(),
            notice: Cell::default(),
            looks: Cell::default(),
            ready: RefCell::default(),
        }))
    }
}

impl State {
    /// The job with that id is the open one.
    fn is_open(&self, id: &str) -> bool {
        self.kept.borrow().as_ref().is_some_and(|(job, _)| job.id == id)
    }
}

/// The records of local storage, each change of them noted in the journal.
fn stored_records(writer: &str) -> Records {
    Records::new(Arc::new(Journalled::new(Arc::new(LocalStorage), Arc::new(DatabaseJournal))), writer)
}

impl Keeper {
    /// The number of a notice about to be shown.
    pub fn next_notice(&self) -> u32 {
        self.0.notice.set(self.0.notice.get().wrapping_add(1));
        self.0.notice.get()
    }

    /// The number of the notice shown last.
    pub fn last_notice(&self) -> u32 {
        self.0.notice.get()
    }
}

impl Desk {
    pub(super) fn keeper(self) -> Rc<State> {
        self.keeper.with_value(|keeper| keeper.0.clone())
    }

    /// What is kept.
    pub(super) fn records(self) -> Records {
        self.keeper().records.borrow().clone()
    }

    /// Opens the storage, shows what the address asks for, and from then on keeps what is typed.
    pub fn wake(self) {
        self.open_storage();
        // Clearing out what was deleted long ago may fail without harm.
        let _ = self.records().purge(browser::now());
        self.load_bags();
        self.load_prices();
        self.follow_address();
        self.watch_address();
        self.watch_tabs();
        self.watch_leaving();
        self.watch_keys();
        self.verdicts.wake(self);
        Effect::new(move |_| {
            self.job.track();
            self.note_change();
        });
        Effect::new(move |_| {
            self.job.track();
            self.prices.track();
            self.verdicts.answers().track();
            // With no job open yet there is nothing to look at.
            if self.shown.get() == Shown::Workshop {
                self.look_after_painting();
            }
        });
    }

    /// The browser's storage; where it has none, a memory that goes with the page. One that is full is still read.
    fn open_storage(self) {
        let keeper = self.keeper();
        let writer = browser::random_id();
        match browser::storage_works() {
            Ok(()) | Err(Trouble::Full) => {
                *keeper.records.borrow_mut() = stored_records(&writer);
                self.open_journal();
            }
            Err(trouble) => {
                self.storage_trouble.set(Some(format!(
                    "{trouble} You can work here, and share a job as a file before you close the page."
                )));
                *keeper.records.borrow_mut() = Records::new(Arc::new(Memory::default()), &writer);
                keeper.in_memory.set(true);
                self.try_again_later();
            }
        }
    }

    /// Opens the journal, and brings back what local storage has lost since, as with a battery that died.
    fn open_journal(self) {
        spawn_local(async move {
            let Ok(entries) = database::open(move |heard| self.hear_journal(heard)).await else { return };
            let caught_up =
                self.records().catch_up(&entries, &DatabaseJournal, &mut browser::random_id, browser::now());
            database::begin();
            // What could not be brought back stays in the journal, for the next start.
            let Ok(caught_up) = caught_up else { return };
            for key in &caught_up.changed {
                self.look_at(Some(key), None);
            }
            if matches!(self.route.get_untracked(), Route::Lost(_)) {
                self.follow_address();
            }
            if !caught_up.brought_back.is_empty() {
                let names = caught_up.brought_back.iter().map(|name| name_or(name)).collect::<Vec<_>>().join(", ");
                self.tell(
                    &format!("This browser stopped before it had stored all that was typed. Brought back: {names}."),
                    None,
                );
            }
        });
    }

    fn hear_journal(self, heard: Heard) {
        match heard {
            Heard::Is(far) => {
                if self.on_disk.get_untracked() != far {
                    self.on_disk.set(far);
                }
            }
            Heard::Lost { first, ours } => {
                // Where it fails, the next start puts both beside each other.
                let _ = self.records().give_way(&first, &ours, browser::now());
                let about = Records::about(&first.key);
                match &about {
                    About::Job(id) if self.keeper().is_open(id) && first.removed => self.keeping.set(Keeping::Gone),
                    About::Job(id) if self.keeper().is_open(id) => {
                        self.keeping.set(Keeping::Elsewhere { unreadable: None });
                    }
                    _ => self.look_at(Some(&first.key), None),
                }
                let what = match about {
                    About::Bags => "Your bags were",
                    About::Prices => "Your prices were",
                    About::Job(_) | About::Other => return,
                };
                let says =
                    "changed in another tab in the same moment: that change counts. Yours goes into the next backup.";
                self.tell(&format!("{what} {says}"), None);
            }
        }
    }

    /// What could not be kept is tried again: room may be made in another tab, and storage may come back.
    fn try_again_later(self) {
        if self.keeper().trying.replace(true) {
            return;
        }
        let again = move || {
            self.keeper().trying.set(false);
            if self.keeper().in_memory.get() && !self.come_back() {
                self.try_again_later();
            }
            if self.keeping.with_untracked(|keeping| matches!(keeping, Keeping::Failed(_))) {
                self.keep_now();
            }
            if self.keeper().bags_wait.get() {
                self.keep_bags();
            }
            if self.keeper().prices_wait.get() {
                self.keep_prices();
            }
            if self.storage_trouble.with_untracked(Option::is_some) && !self.keeper().in_memory.get() {
                self.refresh_shelf();
            }
        };
        set_timeout(again, AGAIN);
    }

    /// Moves what is in memory to the browser's storage, if that is there now. Says whether all of it went.
    fn come_back(self) -> bool {
        if browser::storage_works().is_err() {
            return false;
        }
        self.keep_now();
        let keeper = self.keeper();
        let storage = stored_records(&browser::random_id());
        let Ok(backup) = self.records().backup() else { return false };
        let moved = storage.import_backup(&backup, &mut browser::random_id, browser::now());
        if moved.jobs.iter().any(|(_, became)| became.is_err()) {
            return false;
        }
        *keeper.records.borrow_mut() = storage;
        keeper.in_memory.set(false);
        self.storage_trouble.set(None);
        self.open_journal();
        let id = keeper.kept.borrow().as_ref().map(|(job, _)| job.id.clone());
        if let Some(loaded) = id.and_then(|id| self.records().load(&id).ok()) {
            *keeper.kept.borrow_mut() = Some((loaded.content, loaded.stamp));
        }
        self.load_bags();
        self.load_prices();
        self.refresh_shelf();
        true
    }

    /// The address of a verb of the open job.
    pub fn address(self, stage: Stage) -> String {
        self.job.with(|job| Self::address_of(&job.id, stage))
    }

    /// The address of a verb of a job.
    pub fn address_of(id: &str, stage: Stage) -> String {
        format!("#/job/{id}/{}", stage_word(stage).to_lowercase())
    }

    /// Goes to a screen, so that the browser's back button comes back from it.
    pub fn go(self, route: Route) {
        let address = match &route {
            Route::Shelf => "#/".to_owned(),
            Route::Job(stage) => self.job.with_untracked(|job| Self::address_of(&job.id, *stage)),
            Route::Lost(_) | Route::Arrived(_) => return self.show(route),
        };
        dom::set_address(&address);
        self.follow_address();
    }

    /// Puts another address in the place of the one that is there, and shows what it asks for: the browser's
    /// back button does not come back to what was there.
    pub(super) fn replace_address(self, address: &str) {
        dom::replace_address(address);
        self.follow_address();
    }

    /// Shows what the address asks for.
    fn follow_address(self) {
        let hash = web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default();
        if let Some(found) = store::find_link(&hash) {
            self.keep_now();
            self.sheet.set(None);
            return self.show(Route::Arrived(store::read_link(found).map(Box::new)));
        }
        let mut words = hash.trim_start_matches(['#', '/']).split('/');
        let route = match (words.next(), words.next()) {
            (Some("job"), Some(id)) if !id.is_empty() => {
                let verb = words.next().unwrap_or_default();
                let stage = STAGES.into_iter().find(|stage| stage_word(*stage).to_lowercase() == verb);
                self.open(id, stage.unwrap_or(Stage::Measure))
            }
            _ => {
                self.keep_now();
                Route::Shelf
            }
        };
        if route == Route::Shelf {
            self.refresh_shelf();
        }
        let here = self.route.get_untracked() == route && self.shown.get_untracked() != Shown::Opening;
        if !here {
            self.sheet.set(None);
            self.focus.set(None);
            self.show(route);
            if let Some(window) = web_sys::window() {
                window.scroll_to_with_x_and_y(0.0, 0.0);
            }
        }
    }

    /// Opens a job unless it is open already.
    fn open(self, id: &str, stage: Stage) -> Route {
        if self.keeper().is_open(id) {
            return Route::Job(stage);
        }
        if self.is_unkept() {
            let asked = Self::address_of(id, stage);
            return self.stay(Arc::new(move || dom::set_address(&asked)));
        }
        match self.records().load(id) {
            Ok(loaded) => {
                self.lay_out(loaded.content, loaded.stamp);
                Route::Job(stage)
            }
            Err(why) => Route::Lost(why.to_string()),
        }
    }

    /// Puts a job that has just been read or written on the desk.
    fn lay_out(self, job: Job, stamp: Stamp) {
        *self.keeper().kept.borrow_mut() = Some((job.clone(), stamp));
        self.piece.set(0);
        self.part.set(crate::draw::Selection::Size);
        self.keeping.set(Keeping::Kept);
        // What was found in another job is nothing to this one.
        self.findings.set(Vec::new());
        self.job.set(job);
    }

    /// Keeps a new job and opens it.
    pub fn open_new(self, job: Job) {
        if self.is_unkept() {
            let route = self.stay(Arc::new(move || self.open_new(job.clone())));
            return self.go(route);
        }
        match self.records().save(&job, None, browser::now()) {
            Ok(stamp) => self.lay_out(job, stamp),
            Err(why) => {
                // It cannot be kept, yet it can be worked on; the banner says so.
                self.lay_out(job, Stamp { revision: 0, touched: 0, writer: String::new() });
                self.keeping.set(Keeping::Failed(why.to_string()));
                self.try_again_later();
            }
        }
        self.go(Route::Job(Stage::Measure));
    }

    /// Writes the open job soon, if it differs from what is kept.
    fn note_change(self) {
        let keeper = self.keeper();
        if keeper.waiting.get() || self.keeping.with_untracked(Keeping::is_elsewhere) {
            return;
        }
        if self.differs() {
            keeper.waiting.set(true);
            if self.keeping.with_untracked(|keeping| *keeping == Keeping::Kept) {
                self.keeping.set(Keeping::Writing);
            }
            set_timeout(move || self.keep_now(), DELAY);
        }
    }

    /// The open job is not the one that is kept.
    pub(super) fn differs(self) -> bool {
        let keeper = self.keeper();
        let kept = keeper.kept.borrow();
        kept.as_ref().is_some_and(|(kept, _)| self.job.with_untracked(|job| job != kept))
    }

    /// Writes the open job now, if it differs from what is kept.
    pub fn keep_now(self) {
        let keeper = self.keeper();
        keeper.waiting.set(false);
        if self.keeping.with_untracked(Keeping::is_elsewhere) {
            return;
        }
        let failed = self.keeping.with_untracked(|keeping| matches!(keeping, Keeping::Failed(_)));
        if !self.differs() && !failed {
            // Typed and taken back: what is kept is what stands here.
            if self.keeping.with_untracked(|keeping| *keeping == Keeping::Writing) {
                self.keeping.set(Keeping::Kept);
            }
            return;
        }
        let job = self.job.get_untracked();
        let based_on = keeper.kept.borrow().as_ref().map(|(_, stamp)| stamp.clone()).filter(|stamp| stamp.revision > 0);
        let keeping = match self.records().save(&job, based_on.as_ref(), browser::now()) {
            Ok(stamp) => {
                *keeper.kept.borrow_mut() = Some((job, stamp));
                self.ask_to_persist();
                Keeping::Kept
            }
            Err(SaveError::Conflict { .. }) => Keeping::Elsewhere { unreadable: None },
            Err(SaveError::Gone) => Keeping::Gone,
            Err(SaveError::Newer(why)) => Keeping::Elsewhere { unreadable: Some(why.to_string()) },
            Err(why) => {
                if matches!(why, SaveError::Trouble(_)) {
                    self.try_again_later();
                }
                Keeping::Failed(why.to_string())
            }
        };
        if self.keeping.with_untracked(|now| *now != keeping) {
            self.keeping.set(keeping);
        }
    }

    /// Keeps this tab's state as a job of its own, beside the other tab's; where that was deleted, in its place.
    pub fn keep_both(self) {
        let job = self.job.get_untracked();
        if self.keeping.with_untracked(|keeping| *keeping == Keeping::Gone) {
            return match self.records().save(&job, None, browser::now()) {
                Ok(stamp) => self.lay_out(job, stamp),
                Err(SaveError::Conflict { .. }) => self.keeping.set(Keeping::Elsewhere { unreadable: None }),
                Err(why) => self.tell(&why.to_string(), None),
            };
        }
        match self.records().keep_both(&job, &browser::random_id(), browser::now()) {
            Ok(loaded) => {
                self.lay_out(loaded.content, loaded.stamp);
                self.go(Route::Job(Stage::Measure));
                self.tell("Both are on your shelf.", None);
            }
            Err(why) => self.keeping.set(Keeping::Failed(why.to_string())),
        }
    }

    /// Leaves the open job deleted, as another tab has it.
    pub fn let_go(self) {
        *self.keeper().kept.borrow_mut() = None;
        self.keeping.set(Keeping::Kept);
        self.go(Route::Shelf);
    }

    /// Goes on with the other tab's state.
    pub fn take_theirs(self) {
        let id = self.job.with_untracked(|job| job.id.clone());
        match self.records().load(&id) {
            Ok(loaded) => self.lay_out(loaded.content, loaded.stamp),
            Err(LoadError::Missing) => self.keeping.set(Keeping::Gone),
            Err(LoadError::Unreadable { why, .. }) => {
                self.keeping.set(Keeping::Elsewhere { unreadable: Some(why.to_string()) });
            }
            Err(why) => self.keeping.set(Keeping::Failed(why.to_string())),
        }
    }

    /// Another tab has written: the later one is told.
    fn watch_tabs(self) {
        browser::on_storage(move |key| self.look_at(key.as_deref(), Some("Changed in another tab, and shown here.")));
    }

    /// What is kept under that key is another one than before, or all of it where there is no key: it is shown here, with
    /// a word, unless something was typed here since.
    fn look_at(self, key: Option<&str>, says: Option<&str>) {
        match key.map(Records::about) {
            Some(About::Job(id)) => {
                self.refresh_shelf();
                let keeper = self.keeper();
                let open =
                    keeper.kept.borrow().as_ref().filter(|(job, _)| job.id == id).map(|(_, stamp)| stamp.clone());
                let Some(stamp) = open else { return };
                match self.records().load(&id) {
                    Ok(loaded) if loaded.stamp == stamp => {}
                    // Nothing was typed here since: simply show what the other tab has.
                    Ok(loaded) if !self.differs() => {
                        let (piece, part) = (self.piece.get_untracked(), self.part.get_untracked());
                        self.lay_out(loaded.content, loaded.stamp);
                        self.piece.set(piece);
                        self.part.set(part);
                        if let Some(says) = says {
                            self.tell(says, None);
                        }
                    }
                    Err(LoadError::Unreadable { why, .. }) => {
                        self.keeping.set(Keeping::Elsewhere { unreadable: Some(why.to_string()) });
                    }
                    Err(LoadError::Missing) => self.keeping.set(Keeping::Gone),
                    _ => self.keeping.set(Keeping::Elsewhere { unreadable: None }),
                }
            }
            Some(About::Bags) => self.load_bags(),
            Some(About::Prices) => self.load_prices(),
            Some(About::Other) => self.refresh_shelf(),
            None => {
                self.refresh_shelf();
                if self.keeper().kept.borrow().is_some() {
                    self.keeping.set(Keeping::Gone);
                }
            }
        }
    }

    /// Looks whether what is shown is still what is kept.
    fn look_again(self) {
        let open = self.keeper().kept.borrow().as_ref().map(|(job, _)| About::Job(job.id.clone()));
        for about in open.into_iter().chain([About::Bags, About::Prices]) {
            if let Some(key) = Records::key_of(&about) {
                self.look_at(Some(&key), Some("Changed in another tab, and shown here."));
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
                    self.keep_now();
                }
            });
        }
        dom::listen(&window, "pagehide", move |_| self.keep_now());
        dom::listen(&window, "pageshow", move |event| {
            // A page that was put away whole has heard nothing of other tabs.
            if browser::flag(&event, "persisted") {
                self.look_again();
            }
        });
        self.watch_closing(&window);
    }

    fn watch_address(self) {
        if let Some(window) = web_sys::window() {
            dom::listen(&window, "hashchange", move |_| self.follow_address());
        }
    }

    /// Asks the browser not to clear this page's storage: once, after the first thing kept.
    fn ask_to_persist(self) {
        if self.storage_trouble.with_untracked(Option::is_some) || self.keeper().asked_to_persist.replace(true) {
            return;
        }
        spawn_local(async move {
            let safe = browser::ask_to_persist().await;
            let words = match safe {
                Some(true) => "Kept in this browser, which has promised not to clear it by itself.",
                _ => "Kept in this browser, which may clear it if space runs out: back up what matters.",
            };
            let used = browser::room().await.map(|room| format!(" {:.0} KB used.", room.usage / 1024.0));
            self.storage_words.set(Some(format!("{words}{}", used.unwrap_or_default())));
        });
    }

    // The shelf.

    /// Reads the shelf anew.
    pub fn refresh_shelf(self) {
        let records = self.records();
        match records.list() {
            Ok(listed) => {
                let shelves = records.unreadable_shelves().unwrap_or_default();
                let rows = self.unkept_row(&listed).into_iter();
                let rows = rows.chain(listed.into_iter().map(|listed| self.mark_unkept(row(listed))));
                self.shelf.set(rows.chain(shelves.into_iter().map(shelf_row)).collect());
                if !self.keeper().in_memory.get() {
                    self.storage_trouble.set(None);
                }
            }
            Err(trouble) => {
                self.storage_trouble.set(Some(trouble.to_string()));
                self.try_again_later();
            }
        }
        let deleted = records.deleted().unwrap_or_default();
        self.deleted.set(deleted.into_iter().map(|gone| (gone.key, name_or(&gone.name))).collect());
    }

    /// The open job is not kept, as its own screen says.
    fn unkept(self) -> Option<String> {
        let wrong = self.keeping.with_untracked(Keeping::is_wrong);
        let open = self.keeper().kept.borrow().as_ref().map(|(job, _)| job.id.clone());
        open.filter(|_| wrong)
    }

    /// A row of the shelf, which says where its job is not kept.
    fn mark_unkept(self, row: Row) -> Row {
        let says = match self.unkept() {
            _ if self.keeper().in_memory.get() => "not kept",
            Some(id) if id == row.id => "what was typed last is not kept",
            _ => return row,
        };
        Row { under: format!("{}, {says}", row.under), ..row }
    }

    /// The open job where it was never kept.
    fn unkept_row(self, listed: &[Listed]) -> Option<Row> {
        let id = self.unkept().filter(|id| listed.iter().all(|line| line.id != *id))?;
        let name = self.job.with_untracked(|job| name_or(job.name.text()));
        Some(Row { id, name, under: "not kept".to_owned(), unreadable: None })
    }

    /// The job with that id, as it stands on the shelf; the open one as it stands here.
    pub fn read_job(self, id: &str) -> Option<Job> {
        if self.job.with_untracked(|job| job.id == id) {
            return Some(self.job.get_untracked());
        }
        self.records().load(id).ok().map(|loaded| loaded.content)
    }

    /// Keeps a small text by that name, for this browser alone.
    pub fn remember(self, name: &str, text: &str) {
        // A tick that is lost is ticked again.
        let _ = self.records().remember(name, text);
    }

    /// The text kept by that name.
    pub fn remembered(self, name: &str) -> String {
        self.records().remembered(name).unwrap_or_default()
    }

    /// Copies a job.
    pub fn duplicate(self, id: &str) {
        match self.records().duplicate(id, &browser::random_id(), browser::now()) {
            Ok(_) => self.refresh_shelf(),
            Err(why) => self.tell(&why.to_string(), None),
        }
    }

    /// Deletes a job; it can be had back for 30 days.
    pub fn delete(self, id: &str) {
        match self.records().delete(id, browser::now()) {
            Ok(gone) => {
                self.forget(id);
                let key = gone.key;
                let undo = Arc::new(move || self.undo_delete(&key));
                self.tell(&format!("{} is deleted.", name_or(&gone.name)), Some(("Undo", undo)));
            }
            Err(why) => {
                // A full storage has no room to move it aside: it can only go for good.
                let id = id.to_owned();
                let erase = Arc::new(move || match self.records().erase(&id) {
                    Ok(()) => self.forget(&id),
                    Err(why) => self.tell(&why.to_string(), None),
                });
                self.tell(&format!("{why} It could only be deleted for good."), Some(("Delete for good", erase)));
            }
        }
        self.refresh_shelf();
    }

    /// A deleted job must not be written again by this tab.
    fn forget(self, id: &str) {
        let keeper = self.keeper();
        let mut kept = keeper.kept.borrow_mut();
        if kept.as_ref().is_some_and(|(job, _)| job.id == id) {
            *kept = None;
        }
        drop(kept);
        self.refresh_shelf();
    }

    /// Puts a deleted job back on the shelf.
    pub fn undo_delete(self, key: &str) {
        if let Err(why) = self.records().undo_delete(key, &browser::random_id()) {
            self.tell(&why.to_string(), None);
        }
        self.refresh_shelf();
    }

    /// Saves the text of a record that cannot be read.
    pub fn download_raw(self, id: &str) {
        let records = self.records();
        let shelf = |wanted: &About| {
            let found = records.unreadable_shelves()?.into_iter().find(|(about, ..)| about == wanted);
            Ok(found.map(|(_, _, text)| text))
        };
        let raw = match Records::about(id) {
            about @ (About::Bags | About::Prices) => shelf(&about),
            _ => records.raw(id),
        };
        let result = match raw {
            Ok(Some(text)) => browser::download("pourwright-unreadable.txt", &text),
            Ok(None) => Err("It is gone.".to_owned()),
            Err(why) => Err(why.to_string()),
        };
        if let Err(why) = result {
            self.tell(&why, None);
        }
    }

    // Bags and prices.

    fn load_bags(self) {
        match self.records().load_bags() {
            Ok(Some(loaded)) => {
                *self.keeper().bags.borrow_mut() = Some(loaded.stamp);
                self.bags.set(loaded.content);
            }
            Ok(None) => {}
            Err(why) => self.tell(&format!("Your bags: {why}"), None),
        }
    }

    fn load_prices(self) {
        match self.records().load_prices() {
            Ok(Some(loaded)) => {
                *self.keeper().prices.borrow_mut() = Some(loaded.stamp);
                self.prices.set(loaded.content);
            }
            Ok(None) => {}
            Err(why) => self.tell(&format!("Your prices: {why}"), None),
        }
    }

    /// Changes the maker's own bags, and says whether they are kept. What another tab has made of them since is
    /// changed, not replaced.
    pub fn edit_bags(self, change: impl FnOnce(&mut Vec<Bag>)) -> bool {
        let keeper = self.keeper();
        match self.records().load_bags() {
            Ok(Some(loaded)) if keeper.bags.borrow().as_ref() != Some(&loaded.stamp) => self.load_bags(),
            Ok(None) => *keeper.bags.borrow_mut() = None,
            _ => {}
        }
        self.bags.update(change);
        self.keep_bags();
        !keeper.bags_wait.get()
    }

    fn keep_bags(self) {
        let keeper = self.keeper();
        let stamp = keeper.bags.borrow().clone();
        let saved = self.bags.with_untracked(|bags| self.records().save_bags(bags, stamp.as_ref(), browser::now()));
        keeper.bags_wait.set(saved.is_err());
        match saved {
            Ok(stamp) => *keeper.bags.borrow_mut() = Some(stamp),
            Err(why) => self.shelf_failed("Your bags", &why),
        }
    }

    /// Changes the maker's prices and keeps them. What another tab has made of them since is changed, not replaced.
    pub fn edit_prices(self, change: impl FnOnce(&mut PriceBook)) {
        let keeper = self.keeper();
        match self.records().load_prices() {
            Ok(Some(loaded)) if keeper.prices.borrow().as_ref() != Some(&loaded.stamp) => self.load_prices(),
            Ok(None) => *keeper.prices.borrow_mut() = None,
            _ => {}
        }
        self.prices.update(change);
        self.keep_prices();
    }

    fn keep_prices(self) {
        let keeper = self.keeper();
        let stamp = keeper.prices.borrow().clone();
        let saved =
            self.prices.with_untracked(|prices| self.records().save_prices(prices, stamp.as_ref(), browser::now()));
        keeper.prices_wait.set(saved.is_err());
        match saved {
            Ok(stamp) => *keeper.prices.borrow_mut() = Some(stamp),
            Err(why) => self.shelf_failed("Your prices", &why),
        }
    }

    fn shelf_failed(self, what: &str, why: &SaveError) {
        self.tell(&format!("{what} are not kept: {why}"), None);
        if matches!(why, SaveError::Trouble(_)) {
            self.try_again_later();
        }
    }

    // Sharing.

    /// Makes the file, then opens the sheet that gives it away: a phone's share sheet must follow the tap
    /// at once.
    pub fn open_share(self) {
        let (name, text) = self.paper();
        let ready = browser::share_file(&name, &text);
        *self.keeper().ready.borrow_mut() = Some((name, text, ready));
        self.sheet.set(Some(Overlay::Share));
    }

    /// This browser has a share sheet.
    pub fn can_send(self) -> bool {
        self.keeper().ready.borrow().as_ref().is_some_and(|(_, _, ready)| ready.is_some())
    }

    /// Gives the file to the phone's share sheet; a refusal becomes a download.
    pub fn send_share(self) {
        let sharing = self.keeper().ready.borrow().as_ref().and_then(|(_, _, ready)| Some(ready.as_ref()?.share()));
        let Some(sharing) = sharing else { return self.save_share() };
        spawn_local(async move {
            if sharing.await == ShareOutcome::Refused {
                self.save_share();
            }
        });
    }

    /// Saves the file.
    pub fn save_share(self) {
        let keeper = self.keeper();
        let ready = keeper.ready.borrow();
        if let Some((name, text, _)) = ready.as_ref() {
            match browser::download(name, text) {
                Ok(()) => self.tell(&format!("Saved as {name}."), None),
                Err(why) => self.tell(&why, None),
            }
        }
    }

    /// Saves everything in one file.
    pub fn share_backup(self) {
        let saved = self.records().backup().map_err(|why| why.to_string()).and_then(|backup| {
            let date = dom::iso_date();
            let name = store::backup_file_name(&date);
            browser::download(&name, &store::backup_page(&backup, &date)).map(|()| name)
        });
        match saved {
            Ok(name) => self.tell(&format!("Saved as {name}."), None),
            Err(why) => self.tell(&why, None),
        }
    }

    /// Brings in a file that was chosen or dropped.
    pub fn import_file(self, file: web_sys::File) {
        let name = file.name();
        if file.size() > store::MOST_SHARED_BYTES as f64 {
            return self.say_imported(format!("{name}: larger than anything this page writes, so it was not read."));
        }
        spawn_local(async move {
            match JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string()) {
                Some(text) => self.import(&format!("{name}: "), &text),
                None => self.say_imported(format!("{name}: the browser could not read it.")),
            }
        });
    }

    /// Brings in a text that was pasted.
    pub fn import_text(self, text: &str) {
        self.imported.set(Vec::new());
        self.import("", text);
    }

    fn import(self, from: &str, text: &str) {
        let records = self.records();
        match read_pasted(text) {
            Err(why) => self.say_imported(format!("{from}{why}")),
            Ok(Shared::Job(job)) => {
                let became = records.import(&job, &browser::random_id(), browser::now());
                self.say_imported(format!("{from}{}", became_words(job.name.text(), &became)));
            }
            Ok(Shared::Backup(backup)) => {
                let result = records.import_backup(&backup, &mut browser::random_id, browser::now());
                for (name, became) in &result.jobs {
                    self.say_imported(format!("{from}{}", became_words(name, became)));
                }
                if let Err(why) = &result.bags {
                    self.say_imported(format!("{from}Your bags: {why}"));
                }
                match &result.prices {
                    Ok(prices) if prices.left_out > 0 => self
                        .say_imported(format!("{from}{} prices differ from yours; yours were kept.", prices.left_out)),
                    Ok(_) => {}
                    Err(why) => self.say_imported(format!("{from}Prices: {why}")),
                }
                if let Ok(count @ 1..) = result.set_aside {
                    self.say_imported(format!("{from}{count} unreadable records were kept as they are."));
                }
                self.load_bags();
                self.load_prices();
            }
        }
        self.refresh_shelf();
    }

    fn say_imported(self, line: String) {
        self.imported.update(|lines| lines.insert(0, line));
    }
}

/// What is in a text: a shared file, or a link in any words around it.
fn read_pasted(text: &str) -> Result<Shared, String> {
    match (store::read_shared(text), store::find_link(text)) {
        (Err(FileError::NotOurs), Some(found)) => {
            store::read_link(found).map(|job| Shared::Job(Box::new(job))).map_err(|why| why.to_string())
        }
        (read, _) => read.map_err(|why| why.to_string()),
    }
}

/// A shelf that cannot be read, as a row among the jobs.
fn shelf_row((about, why, _): (About, FileError, String)) -> Row {
    let (id, what) =
        if about == About::Bags { ("pourwright/bags", "Your bags") } else { ("pourwright/prices", "Your prices") };
    Row { id: id.to_owned(), name: what.to_owned(), under: String::new(), unreadable: Some(format!("{what}: {why}")) }
}

/// What became of a job that came in.
pub(super) fn became_words(name: &str, became: &Result<Imported, SaveError>) -> String {
    let name = name_or(name);
    match became {
        Ok(Imported::AlreadyHere { .. }) => format!("{name} is here already, just the same."),
        Ok(Imported::Added { .. }) => format!("{name} is on your shelf."),
        Ok(Imported::Copied { .. }) => format!("{name} is here in another state: it came in as a copy."),
        Err(why) => format!("{name}: {why}"),
    }
}
