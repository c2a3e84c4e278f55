//! The journal: a second account of what is kept, on disk within moments.
//!
//! A browser holds what is written to local storage in memory and puts it on disk seconds later; a phone whose battery
//! dies loses that. So every change of a record is noted in a [`Journal`] too, which says when it is on disk, and at the
//! next start [`Records::catch_up`] brings back what local storage has lost. Local storage stays what jobs are kept in:
//! without a journal everything goes on as before.
//!
//! The journal also settles which of two tabs that saved within the same moment was first: an entry is taken only over
//! an older one ([`Entry::follows`]), which a database decides for all tabs in one transaction.

use super::record::{read_record, stamp_in};
use super::records::{Aside, job_id, job_key};
use super::{About, Backend, LoadError, Records, Stamp, Trouble};
use crate::job::file::{FileError, Kept};
use crate::job::{Bag, Job};
use crate::price::PriceBook;
use std::collections::BTreeMap;
use std::sync::Arc;

/// One change as the journal has it: the last one of its key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The key in local storage.
    pub key: String,
    /// What was written under it; where it was removed, the [`Stamp`] of what stood there, as far as it had one.
    pub text: String,
    /// It was removed.
    pub removed: bool,
}

/// What takes the changes of records.
pub trait Journal: Send + Sync {
    /// Takes a change. It is on disk some moments later.
    fn note(&self, entry: Entry);
}

/// Records that are kept in `kept`, with every change of them noted in `journal`.
pub struct Journalled {
    kept: Arc<dyn Backend>,
    journal: Arc<dyn Journal>,
}

/// What catching up came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CaughtUp {
    /// What was brought back, as the shelf calls it.
    pub brought_back: Vec<String>,
    /// Which records are others than before.
    pub changed: Vec<String>,
}

impl Entry {
    /// The text that a database keeps of it.
    pub fn packed(&self) -> String {
        let sign = if self.removed { '-' } else { '+' };
        format!("{sign}{}\n{}", self.key, self.text)
    }

    /// The entry in the text of a database; nothing where that is none.
    pub fn unpacked(text: &str) -> Option<Self> {
        let (removed, rest) = match text.split_at_checked(1)? {
            ("+", rest) => (false, rest),
            ("-", rest) => (true, rest),
            _ => return None,
        };
        let (key, text) = rest.split_once('\n')?;
        Some(Self { key: key.to_owned(), text: text.to_owned(), removed })
    }

    /// It may be taken in the place of `there`: only what was saved over that. Two tabs that saved the same state anew
    /// have the same revision; the first of them stands.
    pub fn follows(&self, there: &Self) -> bool {
        if !has_stamp(&self.key) || there.removed || there.text == self.text {
            return true;
        }
        match (stamp_in(&there.text), stamp_in(&self.text)) {
            (Some(theirs), Some(ours)) if self.removed => theirs.revision <= ours.revision,
            (Some(theirs), Some(ours)) => theirs.revision < ours.revision,
            (None, _) => true,
            (Some(_), None) => false,
        }
    }
}

impl Journalled {
    /// Records in `kept`, noted in `journal`.
    pub fn new(kept: Arc<dyn Backend>, journal: Arc<dyn Journal>) -> Self {
        Self { kept, journal }
    }
}

impl Backend for Journalled {
    fn read(&self, key: &str) -> Result<Option<String>, Trouble> {
        self.kept.read(key)
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Trouble> {
        self.kept.write(key, text)?;
        if Records::is_record(key) {
            self.journal.note(Entry { key: key.to_owned(), text: text.to_owned(), removed: false });
        }
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), Trouble> {
        let was = if Records::is_record(key) { self.kept.read(key)? } else { None };
        self.kept.remove(key)?;
        if let Some(text) = was {
            self.journal.note(removal(key, &text));
        }
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, Trouble> {
        self.kept.keys()
    }
}

/// Added to the name of a job that is kept beside another state of it.
const BESIDE: &str = "(beside it)";

/// How a record stands to what the journal has of it.
enum Standing {
    /// There is none.
    Lost,
    /// It cannot be read.
    Broken,
    /// A newer version of this program wrote it.
    Newer,
    /// It was saved after that.
    Later,
    /// It was saved before that.
    Earlier,
    /// Both were saved over the same state, or it cannot be told which was first: its stamp.
    Apart(Stamp),
}

impl Records {
    /// Brings the records up to what the journal has of them, and the journal up to the records.
    ///
    /// Of two states of a record the one that was saved last stands, told by revision and time; of two that were saved
    /// over the same state the journal's stands and the other is kept beside it; two shelves of bags are put together.
    /// A record that cannot be read is set aside before anything takes its place, and one of a newer version is left
    /// alone.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself; nothing that stood there is lost.
    pub fn catch_up(
        &self,
        entries: &[Entry],
        journal: &dyn Journal,
        new_id: &mut dyn FnMut() -> String,
        now: u64,
    ) -> Result<CaughtUp, Trouble> {
        let mut caught_up = CaughtUp::default();
        let known: BTreeMap<&str, &Entry> = entries.iter().map(|entry| (entry.key.as_str(), entry)).collect();
        let (stamped, others): (Vec<&Entry>, Vec<&Entry>) = known.values().partition(|entry| has_stamp(&entry.key));
        // What was deleted is put right first, so that it is known when the job itself is looked at. Nothing else is
        // ever kept under such a key.
        for entry in others.into_iter().filter(|entry| Self::is_record(&entry.key)) {
            match (self.backend().read(&entry.key)?, entry.removed) {
                (None, false) => self.backend().write(&entry.key, &entry.text)?,
                (Some(_), true) => self.backend().remove(&entry.key)?,
                _ => continue,
            }
            caught_up.changed.push(entry.key.clone());
        }
        let deleted: Vec<(String, Stamp)> = self
            .deleted_records()?
            .into_iter()
            .filter_map(|(id, text)| Some((job_key(&id), stamp_in(&text)?)))
            .collect();
        for entry in stamped {
            // One of the same name that came in after that is another one.
            let was_deleted = |stamp: &Stamp| {
                let then = |then: &Stamp| then.revision >= stamp.revision && then.touched >= stamp.touched;
                deleted.iter().any(|(key, deleted)| *key == entry.key && then(deleted))
            };
            if entry.removed {
                self.remove_again(entry, was_deleted, now, &mut caught_up)?;
            } else if self.bring_back(entry, was_deleted, new_id, now, &mut caught_up)? {
                journal.note(removal(&entry.key, &entry.text));
            }
        }
        for key in self.backend().keys()?.into_iter().filter(|key| Self::is_record(key)) {
            let Some(text) = self.backend().read(&key)? else { continue };
            if known.get(key.as_str()).is_none_or(|entry| entry.removed || entry.text != text) {
                journal.note(Entry { key, text, removed: false });
            }
        }
        Ok(caught_up)
    }

    /// A record was removed, and stands there again.
    fn remove_again(
        &self,
        entry: &Entry,
        was_deleted: impl Fn(&Stamp) -> bool,
        now: u64,
        caught_up: &mut CaughtUp,
    ) -> Result<(), Trouble> {
        let there = self.backend().read(&entry.key)?.and_then(|text| stamp_in(&text));
        let Some((there, then)) = there.zip(stamp_in(&entry.text)) else { return Ok(()) };
        if there.revision > then.revision || there.touched > then.touched {
            return Ok(());
        }
        match job_id(&entry.key) {
            Some(id) if !was_deleted(&there) => {
                if let Err(LoadError::Trouble(trouble)) = self.delete(id, now) {
                    return Err(trouble);
                }
            }
            _ => self.backend().remove(&entry.key)?,
        }
        caught_up.changed.push(entry.key.clone());
        Ok(())
    }

    /// A record as the journal has it takes its place again where that is called for. Says whether it was deleted.
    fn bring_back(
        &self,
        entry: &Entry,
        was_deleted: impl Fn(&Stamp) -> bool,
        new_id: &mut dyn FnMut() -> String,
        now: u64,
        caught_up: &mut CaughtUp,
    ) -> Result<bool, Trouble> {
        let there = self.backend().read(&entry.key)?;
        if there.as_ref() == Some(&entry.text) {
            return Ok(false);
        }
        let Some((name, ours)) = name_of(entry) else { return Ok(false) };
        let there = there.as_deref();
        let standing = standing(&entry.key, there, &ours);
        if matches!(standing, Standing::Apart(_)) && self.put_bags_together(entry, new_id, now) {
            caught_up.brought_back.push(name);
            caught_up.changed.push(entry.key.clone());
            return Ok(false);
        }
        match standing {
            Standing::Newer | Standing::Later => return Ok(false),
            // A clock was set back, or another one of its name had come in: it stands, and this one beside it.
            Standing::Apart(theirs) if theirs.revision > ours.revision && !was_deleted(&theirs) => {
                if let Ok(job) = read_record::<Job>(&entry.text) {
                    drop(self.save_copy(&job.content, &new_id(), BESIDE, now));
                    caught_up.brought_back.push(name);
                    caught_up.changed.push(entry.key.clone());
                }
                return Ok(false);
            }
            Standing::Lost if was_deleted(&ours) => return Ok(true),
            Standing::Lost | Standing::Earlier => {}
            // It was deleted before another one of its name came in.
            Standing::Apart(theirs) if was_deleted(&theirs) => {}
            Standing::Broken | Standing::Apart(_) => {
                let text = there.unwrap_or_default();
                match read_record::<Job>(text) {
                    Ok(job) => drop(self.save_copy(&job.content, &new_id(), BESIDE, now)),
                    Err(_) => drop(self.keep_aside(&mut Aside::default(), &entry.key, text, now)?),
                }
            }
        }
        self.backend().write(&entry.key, &entry.text)?;
        caught_up.brought_back.push(name);
        caught_up.changed.push(entry.key.clone());
        Ok(false)
    }

    /// Adds the bags that the journal has to those that were kept since, as those of a backup are; of two that differ
    /// both stay. Says whether it did.
    fn put_bags_together(&self, entry: &Entry, new_id: &mut dyn FnMut() -> String, now: u64) -> bool {
        Records::about(&entry.key) == About::Bags
            && read_record::<Vec<Bag>>(&entry.text)
                .is_ok_and(|ours| self.import_bags(&ours.content, new_id, now).is_ok())
    }

    /// Puts what the journal had first in the place of what this tab has written over it; of bags and prices, which no
    /// tab shows as its own, that is set aside. Nothing is put where something else stands by now.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn give_way(&self, first: &Entry, ours: &str, now: u64) -> Result<(), Trouble> {
        if job_id(&first.key).is_none() {
            self.keep_aside(&mut Aside::default(), &first.key, ours, now)?;
        }
        let there = self.backend().read(&first.key)?;
        if there.is_some_and(|there| there != ours) {
            return Ok(());
        }
        if first.removed { self.backend().remove(&first.key) } else { self.backend().write(&first.key, &first.text) }
    }
}

/// The records under that key have a stamp.
fn has_stamp(key: &str) -> bool {
    Records::about(key) != About::Other
}

/// The entry for a record that is removed.
fn removal(key: &str, was: &str) -> Entry {
    let text = stamp_in(was).and_then(|stamp| serde_json::to_string(&stamp).ok()).unwrap_or_default();
    Entry { key: key.to_owned(), text, removed: true }
}

/// What an entry is called and its stamp; nothing where it cannot be read here.
fn name_of(entry: &Entry) -> Option<(String, Stamp)> {
    fn of<T: Kept>(text: &str, name: impl FnOnce(&T) -> String) -> Option<(String, Stamp)> {
        read_record::<T>(text).ok().map(|loaded| (name(&loaded.content), loaded.stamp))
    }
    match Records::about(&entry.key) {
        About::Job(_) => of::<Job>(&entry.text, |job| job.name.text().to_owned()),
        About::Bags => of::<Vec<Bag>>(&entry.text, |_| "Your bags".to_owned()),
        About::Prices => of::<PriceBook>(&entry.text, |_| "Your prices".to_owned()),
        About::Other => None,
    }
}

fn standing(key: &str, there: Option<&str>, ours: &Stamp) -> Standing {
    let Some(text) = there else { return Standing::Lost };
    let stamp = match Records::about(key) {
        About::Bags => read_record::<Vec<Bag>>(text).map(|loaded| loaded.stamp),
        About::Prices => read_record::<PriceBook>(text).map(|loaded| loaded.stamp),
        About::Job(_) | About::Other => read_record::<Job>(text).map(|loaded| loaded.stamp),
    };
    match stamp {
        Err(FileError::Newer { .. }) => Standing::Newer,
        Err(_) => Standing::Broken,
        Ok(theirs) if theirs.revision > ours.revision && theirs.touched >= ours.touched => Standing::Later,
        Ok(theirs) if theirs.revision < ours.revision && theirs.touched <= ours.touched => Standing::Earlier,
        Ok(theirs) => Standing::Apart(theirs),
    }
}
