//! Giving away: a file that is ready for the tap that sends it, and everything in one file.

use super::super::dom;
use super::notices::{Notices, Overlay};
use super::stored::Stored;
use crate::store::browser::{self, ShareOutcome, ShareReady};
use crate::store::{backup_file_name, backup_page};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// A file to share.
struct Ready {
    name: String,
    text: String,
    /// What hands it to the phone's share sheet; nothing where the browser has none.
    share: Option<ShareReady>,
}

/// Owns the file to share. It is made before the tap that shares it, as a phone's share sheet must follow the tap at
/// once.
#[derive(Clone, Copy)]
pub struct Giving {
    ready: StoredValue<Option<Ready>, LocalStorage>,
    stored: Stored,
    notices: Notices,
}

impl Giving {
    /// Nothing is ready.
    pub fn new(stored: Stored, notices: Notices) -> Self {
        Self { ready: StoredValue::new_local(None), stored, notices }
    }

    /// Opens the sheet that gives that file away.
    pub fn offer(self, name: String, text: String) {
        let share = browser::share_file(&name, &text);
        self.ready.set_value(Some(Ready { name, text, share }));
        self.notices.sheet.set(Some(Overlay::Share));
    }

    /// This browser has a share sheet.
    pub fn can_send(self) -> bool {
        self.ready.with_value(|ready| ready.as_ref().is_some_and(|ready| ready.share.is_some()))
    }

    /// Gives the file to the phone's share sheet; a refusal becomes a download.
    pub fn send(self) {
        let sharing = self.ready.with_value(|ready| Some(ready.as_ref()?.share.as_ref()?.share()));
        let Some(sharing) = sharing else { return self.save() };
        spawn_local(async move {
            if sharing.await == ShareOutcome::Refused {
                self.save();
            }
        });
    }

    /// Saves the file.
    pub fn save(self) {
        let saved = self.ready.with_value(|ready| {
            let Ready { name, text, .. } = ready.as_ref()?;
            Some(browser::download(name, text).map(|()| name.clone()))
        });
        if let Some(saved) = saved {
            self.say(saved);
        }
    }

    /// Saves everything in one file.
    pub fn back_up(self) {
        let saved = self.stored.records().backup().map_err(|why| why.to_string()).and_then(|backup| {
            let date = dom::iso_date();
            let name = backup_file_name(&date);
            browser::download(&name, &backup_page(&backup, &date)).map(|()| name)
        });
        self.say(saved);
    }

    fn say(self, saved: Result<String, String>) {
        match saved {
            Ok(name) => self.notices.tell(&format!("Saved as {name}."), None),
            Err(why) => self.notices.tell(&why, None),
        }
    }
}
