//! Where everything is kept: the browser's storage, or a memory that goes with the page.

use crate::store::browser::{self, LocalStorage as BrowserStorage};
use crate::store::database::DatabaseJournal;
use crate::store::{Journalled, Memory, Records, Trouble};
use leptos::prelude::*;
use std::sync::Arc;

/// Owns the records. They are in the browser's storage from the first moment that it takes them; until then, in a
/// memory, and [`is_in_memory`](Self::is_in_memory) says so.
#[derive(Clone, Copy)]
pub struct Stored {
    records: StoredValue<Records, LocalStorage>,
    in_memory: StoredValue<bool>,
}

impl Stored {
    /// An empty memory.
    pub fn new() -> Self {
        Self {
            records: StoredValue::new_local(Records::new(Arc::new(Memory::default()), "")),
            in_memory: StoredValue::new(false),
        }
    }

    /// What is kept.
    pub fn records(self) -> Records {
        self.records.get_value()
    }

    /// The browser gives no storage, so that the records go with the page.
    pub fn is_in_memory(self) -> bool {
        self.in_memory.get_value()
    }

    /// Opens the browser's storage; where there is none, a memory that goes with the page. One that is full is still
    /// read.
    ///
    /// # Errors
    /// Why the browser gives no storage.
    pub fn open(self) -> Result<(), Trouble> {
        match browser::storage_works() {
            Ok(()) | Err(Trouble::Full) => {
                self.use_storage(in_browser());
                Ok(())
            }
            Err(trouble) => {
                self.records.set_value(Records::new(Arc::new(Memory::default()), &browser::random_id()));
                self.in_memory.set_value(true);
                Err(trouble)
            }
        }
    }

    /// Moves what is in memory to the browser's storage, if that is there now. Says whether all of its jobs went; if
    /// not, the memory stays in use.
    pub fn come_back(self) -> bool {
        let storage = in_browser();
        let Ok(backup) = self.records().backup() else { return false };
        let moved = storage.import_backup(&backup, &mut browser::random_id, browser::now());
        if moved.jobs.iter().any(|(_, became)| became.is_err()) {
            return false;
        }
        self.use_storage(storage);
        true
    }

    fn use_storage(self, storage: Records) {
        self.records.set_value(storage);
        self.in_memory.set_value(false);
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
}

/// The records of local storage, each change of them noted in the journal.
fn in_browser() -> Records {
    let journalled = Journalled::new(Arc::new(BrowserStorage), Arc::new(DatabaseJournal));
    Records::new(Arc::new(journalled), &browser::random_id())
}
