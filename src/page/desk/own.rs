//! What the maker keeps for every job: the prices, and the shelf of bags.

use super::again::Again;
use super::notices::Notices;
use super::stored::Stored;
use crate::job::Bag;
use crate::price::PriceBook;
use crate::store::{LoadError, Loaded, Records, SaveError, Stamp, browser};
use leptos::prelude::*;
use std::ops::Deref;

/// Something of which one record is kept for all jobs.
pub trait OneForAll: Clone + Default + Send + Sync + 'static {
    /// What the maker calls it, as the subject of a sentence in the plural.
    const WHAT: &str;

    /// Reads it; nothing if it was never kept.
    ///
    /// # Errors
    /// [`LoadError`].
    fn load(records: &Records) -> Result<Option<Loaded<Self>>, LoadError>;

    /// Keeps it in the place of the record with that stamp.
    ///
    /// # Errors
    /// [`SaveError`].
    fn save(&self, records: &Records, based_on: Option<&Stamp>) -> Result<Stamp, SaveError>;
}

impl OneForAll for Vec<Bag> {
    const WHAT: &str = "Your bags";

    fn load(records: &Records) -> Result<Option<Loaded<Self>>, LoadError> {
        records.load_bags()
    }

    fn save(&self, records: &Records, based_on: Option<&Stamp>) -> Result<Stamp, SaveError> {
        records.save_bags(self, based_on, browser::now())
    }
}

impl OneForAll for PriceBook {
    const WHAT: &str = "Your prices";

    fn load(records: &Records) -> Result<Option<Loaded<Self>>, LoadError> {
        records.load_prices()
    }

    fn save(&self, records: &Records, based_on: Option<&Stamp>) -> Result<Stamp, SaveError> {
        records.save_prices(self, based_on, browser::now())
    }
}

/// Owns the one record of a kind as it is shown, and the stamp it was read or kept with. A change of another tab is
/// never replaced: it is read first, and changed.
pub struct Own<T: OneForAll> {
    shown: RwSignal<T>,
    stamp: StoredValue<Option<Stamp>>,
    /// What is shown is not kept.
    waits: StoredValue<bool>,
    stored: Stored,
    again: Again,
    notices: Notices,
}

// By hand, as a derived one would ask that of the content.
impl<T: OneForAll> Clone for Own<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: OneForAll> Copy for Own<T> {}

impl<T: OneForAll> Deref for Own<T> {
    type Target = RwSignal<T>;

    fn deref(&self) -> &RwSignal<T> {
        &self.shown
    }
}

impl<T: OneForAll> Own<T> {
    /// Nothing of it, until it is read.
    pub fn new(stored: Stored, again: Again, notices: Notices) -> Self {
        Self {
            shown: RwSignal::new(T::default()),
            stamp: StoredValue::new(None),
            waits: StoredValue::new(false),
            stored,
            again,
            notices,
        }
    }

    /// Something of it is not kept.
    pub fn is_unkept(self) -> bool {
        self.waits.get_value()
    }

    /// Reads it anew. What cannot be read is said, and what is shown stays.
    pub fn load(self) {
        match T::load(&self.stored.records()) {
            Ok(Some(loaded)) => {
                self.stamp.set_value(Some(loaded.stamp));
                self.shown.set(loaded.content);
            }
            Ok(None) => {}
            Err(why) => self.notices.tell(&format!("{}: {why}", T::WHAT), None),
        }
    }

    /// Changes it and keeps it. What another tab has made of it since is changed, not replaced.
    pub fn edit(self, change: impl FnOnce(&mut T)) {
        self.catch_up();
        self.shown.update(change);
        self.keep();
    }

    /// Reads it anew where something else is kept than what was read or kept here last.
    pub fn catch_up(self) {
        match T::load(&self.stored.records()) {
            Ok(Some(loaded)) if self.stamp.with_value(|stamp| stamp.as_ref() != Some(&loaded.stamp)) => self.load(),
            Ok(None) => self.stamp.set_value(None),
            _ => {}
        }
    }

    /// Keeps it as it is shown.
    fn keep(self) {
        let stamp = self.stamp.get_value();
        let saved = self.shown.with_untracked(|shown| shown.save(&self.stored.records(), stamp.as_ref()));
        self.waits.set_value(saved.is_err());
        match saved {
            Ok(stamp) => self.stamp.set_value(Some(stamp)),
            Err(why) => {
                self.notices.tell(&format!("{} are not kept: {why}", T::WHAT), None);
                if matches!(why, SaveError::Trouble(_)) {
                    self.again.later();
                }
            }
        }
    }

    /// Keeps it after all, if it is not kept.
    pub fn try_again(self) {
        if self.is_unkept() {
            self.keep();
        }
    }
}
