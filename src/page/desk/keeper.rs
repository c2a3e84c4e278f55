//! Keeping: the open job is written to local storage while it is typed, and every failure is said.
//!
//! A change is written within [`DELAY`], and at once when the page is hidden or left; the journal has it on disk some
//! moments later, and only then it is said to be saved. The stamp of the record
//! that was read is handed back with every save, so that another tab's newer state is never overwritten. What could
//! not be kept is tried again every few seconds, and [`super::route`] lets nothing take its place without a word.

use super::super::front::Front;
use super::again::Again;
use super::open::OpenJob;
use super::stored::Stored;
use super::worked::Worked;
use crate::job::Job;
use crate::store::browser;
use crate::store::database::OnDisk;
use crate::store::{LoadError, SaveError, Stamp};
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// From a key pressed to its being written.
const DELAY: Duration = Duration::from_millis(200);

/// Whether what was typed is kept.
#[derive(Clone, Debug, PartialEq)]
pub enum Keeping {
    /// All of it: on disk or only in local storage, as [`Keeper::on_disk`] has it.
    Kept,
    /// Not yet the last of it.
    Writing,
    /// It cannot be, and why.
    Failed(String),
    /// Another tab has kept the job in another state.
    Elsewhere {
        /// Why that cannot be read here, as when a newer program wrote it.
        unreadable: Option<String>,
    },
    /// Another tab has deleted the job.
    Gone,
}

impl Keeping {
    /// What was typed last is not kept, and is not about to be.
    pub fn is_wrong(&self) -> bool {
        matches!(self, Self::Failed(_) | Self::Elsewhere { .. } | Self::Gone)
    }

    /// Another tab has something else: nothing is saved over that.
    pub fn is_elsewhere(&self) -> bool {
        matches!(self, Self::Elsewhere { .. } | Self::Gone)
    }
}

/// Owns the saving of the open job. Whatever is typed is either what the record holds, or on its way into it, or said
/// not to be; a record that somebody else has written since is never written over.
#[derive(Clone, Copy)]
pub struct Keeper {
    /// Whether what was typed is kept.
    pub keeping: RwSignal<Keeping>,
    /// How much of what is kept is on disk.
    pub on_disk: RwSignal<OnDisk>,
    /// The job as it was last read or written, and the stamp of that record: revision 0 if it never was. Nothing while
    /// no job is open.
    kept: StoredValue<Option<(Job, Stamp)>>,
    /// A write is on its way.
    waits: StoredValue<bool>,
    asked_to_persist: StoredValue<bool>,
    front: Front,
    job: OpenJob,
    worked: Worked,
    stored: Stored,
    again: Again,
}

impl Keeper {
    /// Keeps that job there, once one is laid out.
    pub fn new(front: Front, job: OpenJob, worked: Worked, stored: Stored, again: Again) -> Self {
        Self {
            keeping: RwSignal::new(Keeping::Kept),
            on_disk: RwSignal::new(OnDisk::Soon),
            kept: StoredValue::new(None),
            waits: StoredValue::new(false),
            asked_to_persist: StoredValue::new(false),
            front,
            job,
            worked,
            stored,
            again,
        }
    }

    /// The id of the open job; nothing while none is open.
    pub fn open_id(self) -> Option<String> {
        self.kept.with_value(|kept| kept.as_ref().map(|(job, _)| job.id.clone()))
    }

    /// The job with that id is the open one.
    pub fn is_open(self, id: &str) -> bool {
        self.kept.with_value(|kept| kept.as_ref().is_some_and(|(job, _)| job.id == id))
    }

    /// The stamp of the record that the open job was last read from or written to.
    pub fn stamp(self) -> Option<Stamp> {
        self.kept.with_value(|kept| kept.as_ref().map(|(_, stamp)| stamp.clone()))
    }

    /// The open job was never kept.
    fn is_new(self) -> bool {
        self.kept.with_value(|kept| kept.as_ref().is_some_and(|(_, stamp)| stamp.revision == 0))
    }

    /// The open job is not the one that is kept.
    pub fn differs(self) -> bool {
        self.kept.with_value(|kept| kept.as_ref().is_some_and(|(kept, _)| self.job.with_untracked(|job| job != kept)))
    }

    /// The open job holds something that is not kept, even after another try.
    pub fn is_unkept(self) -> bool {
        self.keep_now();
        self.is_new() || self.differs()
    }

    /// The id of the open job where it is not kept, as its own screen says.
    pub fn unkept_id(self) -> Option<String> {
        self.open_id().filter(|_| self.keeping.with_untracked(Keeping::is_wrong))
    }

    /// Puts a job that has just been read or written on the desk.
    pub fn lay_out(self, job: Job, stamp: Stamp) {
        self.kept.set_value(Some((job.clone(), stamp)));
        self.job.show_piece(0);
        self.keeping.set(Keeping::Kept);
        self.worked.forget_findings();
        self.job.set(job);
    }

    /// Keeps a new job and lays it out. One that cannot be kept can be worked on all the same; the banner says so.
    pub fn lay_out_new(self, job: Job) {
        match self.stored.records().save(&job, None, browser::now()) {
            Ok(stamp) => self.lay_out(job, stamp),
            Err(why) => {
                self.lay_out(job, Stamp { revision: 0, touched: 0, writer: String::new() });
                self.keeping.set(Keeping::Failed(why.to_string()));
                self.again.later();
            }
        }
    }

    /// The open job is open no more, and nothing is written of it: what stands here is given up.
    pub fn close(self) {
        self.kept.set_value(None);
        self.keeping.set(Keeping::Kept);
    }

    /// A deleted job must not be written again by this tab.
    pub fn forget(self, id: &str) {
        if self.is_open(id) {
            self.kept.set_value(None);
        }
    }

    /// Writes the open job soon, if it differs from what is kept.
    pub fn note_change(self) {
        if self.waits.get_value() || self.keeping.with_untracked(Keeping::is_elsewhere) || !self.differs() {
            return;
        }
        self.waits.set_value(true);
        if self.keeping.with_untracked(|keeping| *keeping == Keeping::Kept) {
            self.keeping.set(Keeping::Writing);
        }
        set_timeout(move || self.keep_now(), DELAY);
    }

    /// Writes the open job now, if it differs from what is kept.
    pub fn keep_now(self) {
        self.waits.set_value(false);
        if self.keeping.with_untracked(Keeping::is_elsewhere) {
            return;
        }
        if !self.differs() && !self.has_failed() {
            // Typed and taken back: what is kept is what stands here.
            if self.keeping.with_untracked(|keeping| *keeping == Keeping::Writing) {
                self.keeping.set(Keeping::Kept);
            }
            return;
        }
        let keeping = self.write();
        if self.keeping.with_untracked(|now| *now != keeping) {
            self.keeping.set(keeping);
        }
    }

    fn has_failed(self) -> bool {
        self.keeping.with_untracked(|keeping| matches!(keeping, Keeping::Failed(_)))
    }

    /// Writes what failed to be written.
    pub fn try_again(self) {
        if self.has_failed() {
            self.keep_now();
        }
    }

    /// Writes the open job over the record that it was made of, and says how that went.
    fn write(self) -> Keeping {
        let job = self.job.get_untracked();
        let based_on = self.stamp().filter(|stamp| stamp.revision > 0);
        match self.stored.records().save(&job, based_on.as_ref(), browser::now()) {
            Ok(stamp) => {
                self.kept.set_value(Some((job, stamp)));
                self.ask_to_persist();
                Keeping::Kept
            }
            Err(SaveError::Conflict { .. }) => Keeping::Elsewhere { unreadable: None },
            Err(SaveError::Gone) => Keeping::Gone,
            Err(SaveError::Newer(why)) => Keeping::Elsewhere { unreadable: Some(why.to_string()) },
            Err(why) => {
                if matches!(why, SaveError::Trouble(_)) {
                    self.again.later();
                }
                Keeping::Failed(why.to_string())
            }
        }
    }

    /// Keeps the open job again, which another tab has deleted.
    ///
    /// # Errors
    /// Why it cannot be.
    pub fn keep_after_all(self) -> Result<(), String> {
        let job = self.job.get_untracked();
        match self.stored.records().save(&job, None, browser::now()) {
            Ok(stamp) => self.lay_out(job, stamp),
            Err(SaveError::Conflict { .. }) => self.keeping.set(Keeping::Elsewhere { unreadable: None }),
            Err(why) => return Err(why.to_string()),
        }
        Ok(())
    }

    /// Keeps this tab's state as a job of its own, beside the other tab's, and says whether that went well.
    pub fn keep_beside(self) -> bool {
        let job = self.job.get_untracked();
        match self.stored.records().keep_both(&job, &browser::random_id(), browser::now()) {
            Ok(loaded) => {
                self.lay_out(loaded.content, loaded.stamp);
                true
            }
            Err(why) => {
                self.keeping.set(Keeping::Failed(why.to_string()));
                false
            }
        }
    }

    /// Goes on with the other tab's state.
    pub fn take_theirs(self) {
        match self.stored.records().load(&self.job.id()) {
            Ok(loaded) => self.lay_out(loaded.content, loaded.stamp),
            Err(LoadError::Missing) => self.keeping.set(Keeping::Gone),
            Err(LoadError::Unreadable { why, .. }) => {
                self.keeping.set(Keeping::Elsewhere { unreadable: Some(why.to_string()) });
            }
            Err(why) => self.keeping.set(Keeping::Failed(why.to_string())),
        }
    }

    /// Looks whether the record of the open job is still the one that it was made of. Another tab's state is shown here,
    /// where nothing was typed since; says whether it is.
    pub fn follow_record(self) -> bool {
        let Some((id, stamp)) = self.open_id().zip(self.stamp()) else { return false };
        let keeping = match self.stored.records().load(&id) {
            Ok(loaded) if loaded.stamp == stamp => return false,
            Ok(loaded) if !self.differs() => {
                let (piece, part) = (self.job.piece.get_untracked(), self.job.part.get_untracked());
                self.lay_out(loaded.content, loaded.stamp);
                self.job.piece.set(piece);
                self.job.part.set(part);
                return true;
            }
            Err(LoadError::Unreadable { why, .. }) => Keeping::Elsewhere { unreadable: Some(why.to_string()) },
            Err(LoadError::Missing) => Keeping::Gone,
            _ => Keeping::Elsewhere { unreadable: None },
        };
        self.keeping.set(keeping);
        false
    }

    /// Takes the record of the open job for what it was made of: the records have moved to another place.
    pub fn take_record(self) {
        if let Some(loaded) = self.open_id().and_then(|id| self.stored.records().load(&id).ok()) {
            self.kept.set_value(Some((loaded.content, loaded.stamp)));
        }
    }

    /// Asks the browser not to clear this page's storage: once, after the first thing kept.
    fn ask_to_persist(self) {
        if self.front.storage_trouble.with_untracked(Option::is_some) || self.asked_to_persist.get_value() {
            return;
        }
        self.asked_to_persist.set_value(true);
        spawn_local(async move {
            let safe = browser::ask_to_persist().await;
            let words = match safe {
                Some(true) => "Kept in this browser, which has promised not to clear it by itself.",
                _ => "Kept in this browser, which may clear it if space runs out: back up what matters.",
            };
            let used = browser::room().await.map(|room| format!(" {:.0} KB used.", room.usage / 1024.0));
            self.front.storage_words.set(Some(format!("{words}{}", used.unwrap_or_default())));
        });
    }
}
