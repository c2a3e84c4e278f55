//! The jobs of the shelf: listed, copied, deleted, put back.

use super::super::front::{Front, Row, name_or, row};
use super::again::Again;
use super::keeper::Keeper;
use super::notices::Notices;
use super::open::OpenJob;
use super::stored::Stored;
use crate::job::Job;
use crate::job::file::FileError;
use crate::store::browser;
use crate::store::{About, Listed, Records};
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;

/// So long nothing more may be heard of before the shelf is read anew.
const QUIET: Duration = Duration::from_millis(120);

/// Owns what the shelf shows. Each act here reads it anew; what is heard from elsewhere is gathered first, so that a
/// burst of any length costs one reading.
#[derive(Clone, Copy)]
pub struct Jobs {
    front: Front,
    job: OpenJob,
    keeper: Keeper,
    stored: Stored,
    again: Again,
    notices: Notices,
    /// How much was heard from elsewhere that the shelf does not show yet; nothing heard, no timer.
    heard: StoredValue<u32>,
}

impl Jobs {
    /// The shelf of those records.
    pub fn new(front: Front, job: OpenJob, keeper: Keeper, stored: Stored, again: Again, notices: Notices) -> Self {
        Self { front, job, keeper, stored, again, notices, heard: StoredValue::new(0) }
    }

    /// Reads the shelf anew.
    pub fn refresh(self) {
        let records = self.stored.records();
        match records.list() {
            Ok(listed) => {
                let shelves = records.unreadable_shelves().unwrap_or_default();
                let rows = self.unkept_row(&listed).into_iter();
                let rows = rows.chain(listed.into_iter().map(|listed| self.mark_unkept(row(listed))));
                self.front.shelf.set(rows.chain(shelves.into_iter().map(shelf_row)).collect());
                if !self.stored.is_in_memory() {
                    self.front.storage_trouble.set(None);
                }
            }
            Err(trouble) => {
                self.front.storage_trouble.set(Some(trouble.to_string()));
                self.again.later();
            }
        }
        let deleted = records.deleted().unwrap_or_default();
        self.front.deleted.set(deleted.into_iter().map(|gone| (gone.key, name_or(&gone.name))).collect());
    }

    /// Reads the shelf anew once nothing more is heard for a moment.
    pub fn refresh_soon(self) {
        let heard = self.heard.get_value();
        self.heard.set_value(heard.saturating_add(1));
        if heard == 0 {
            self.refresh_when_quiet();
        }
    }

    fn refresh_when_quiet(self) {
        let before = self.heard.get_value();
        let look = move || {
            if self.heard.get_value() == before {
                self.heard.set_value(0);
                self.refresh();
            } else {
                self.refresh_when_quiet();
            }
        };
        set_timeout(look, QUIET);
    }

    /// Looks for the words that are asked for, in notes too, which the list does not hold.
    pub fn search(self) {
        let words = self.front.search.get();
        self.front.shelf.track();
        let found = (!words.trim().is_empty())
            .then(|| self.stored.records().search(&words).unwrap_or_default().into_iter().map(row).collect());
        self.front.found.set(found);
    }

    /// A row of the shelf, which says where its job is not kept.
    fn mark_unkept(self, row: Row) -> Row {
        let says = match self.keeper.unkept_id() {
            _ if self.stored.is_in_memory() => "not kept",
            Some(id) if id == row.id => "what was typed last is not kept",
            _ => return row,
        };
        Row { under: format!("{}, {says}", row.under), ..row }
    }

    /// The open job where it was never kept.
    fn unkept_row(self, listed: &[Listed]) -> Option<Row> {
        let id = self.keeper.unkept_id().filter(|id| listed.iter().all(|line| line.id != *id))?;
        let name = self.job.with_untracked(|job| name_or(job.name.text()));
        Some(Row { id, name, under: "not kept".to_owned(), unreadable: None })
    }

    /// The job with that id, as it stands on the shelf; the open one as it stands here.
    pub fn read(self, id: &str) -> Option<Job> {
        if self.job.with_untracked(|job| job.id == id) {
            return Some(self.job.get_untracked());
        }
        self.stored.records().load(id).ok().map(|loaded| loaded.content)
    }

    /// Copies a job.
    pub fn duplicate(self, id: &str) {
        match self.stored.records().duplicate(id, &browser::random_id(), browser::now()) {
            Ok(_) => self.refresh(),
            Err(why) => self.notices.tell(&why.to_string(), None),
        }
    }

    /// Deletes a job; it can be had back for 30 days.
    pub fn delete(self, id: &str) {
        match self.stored.records().delete(id, browser::now()) {
            Ok(gone) => {
                self.forget(id);
                let key = gone.key;
                let undo = Arc::new(move || self.undo_delete(&key));
                self.notices.tell(&format!("{} is deleted.", name_or(&gone.name)), Some(("Undo", undo)));
            }
            Err(why) => {
                // A full storage has no room to move it aside: it can only go for good.
                let id = id.to_owned();
                let erase = Arc::new(move || match self.stored.records().erase(&id) {
                    Ok(()) => self.forget(&id),
                    Err(why) => self.notices.tell(&why.to_string(), None),
                });
                let says = format!("{why} It could only be deleted for good.");
                self.notices.tell(&says, Some(("Delete for good", erase)));
            }
        }
        self.refresh();
    }

    fn forget(self, id: &str) {
        self.keeper.forget(id);
        self.refresh();
    }

    /// Puts a deleted job back on the shelf.
    pub fn undo_delete(self, key: &str) {
        if let Err(why) = self.stored.records().undo_delete(key, &browser::random_id()) {
            self.notices.tell(&why.to_string(), None);
        }
        self.refresh();
    }

    /// Saves the text of a record that cannot be read.
    pub fn download_raw(self, id: &str) {
        let records = self.stored.records();
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
            self.notices.tell(&why, None);
        }
    }
}

/// A shelf that cannot be read, as a row among the jobs.
fn shelf_row((about, why, _): (About, FileError, String)) -> Row {
    let (id, what) =
        if about == About::Bags { ("pourwright/bags", "Your bags") } else { ("pourwright/prices", "Your prices") };
    Row { id: id.to_owned(), name: what.to_owned(), under: String::new(), unreadable: Some(format!("{what}: {why}")) }
}
