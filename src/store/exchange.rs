//! Taking in what was shared, and giving out everything at once.

use super::arriving::{Arriving, SUFFIX};
use super::record::read_record;
use super::records::{SHELVES, job_key, name_copy};
use super::share::{Part, Unpacked};
use super::{Backup, LoadError, Loaded, Raw, Records, SaveError, Trouble};
use crate::job::{Bag, Job};
use crate::price::PriceBook;
use std::collections::HashSet;
use std::fmt;

/// Longest id that is taken over as it is.
const LONGEST_ID: usize = 64;

/// What became of a job that was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Imported {
    /// The very same job is here already.
    AlreadyHere {
        /// Its id here.
        id: String,
    },
    /// It was added as it is.
    Added {
        /// Its id here.
        id: String,
    },
    /// Another state of it is here and stays; this one was added beside it.
    Copied {
        /// Its id here.
        id: String,
    },
}

/// What became of each part of a backup. Nothing that was here before is changed by it.
#[derive(Clone, Debug, PartialEq)]
pub struct BackupImport {
    /// Name and fate of every job, in the order of the backup.
    pub jobs: Vec<(String, Result<Imported, SaveError>)>,
    /// How many bags the shelf gained.
    pub bags: Result<usize, CopyError>,
    /// What became of the prices.
    pub prices: Result<PricesImported, CopyError>,
    /// How many unreadable records were set aside here, as they are.
    pub set_aside: Result<usize, Trouble>,
    /// How many jobs and records were left out, since it was stopped.
    pub not_taken: usize,
}

/// What can be said of a job that arrives by a look at the record under its own id.
pub(super) enum Fate {
    /// This became of it.
    ContactSolution(Imported),
    /// Its id is taken by another state of it, or is none that could be kept under.
    Other,
}

/// What became of the prices of a backup.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct PricesImported {
    /// Prices of what had none here.
    pub added: usize,
    /// Prices that differ from those here, which were kept.
    pub left_out: usize,
}

/// Why something was not taken over: loading or saving failed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CopyError {
    /// What is stored could not be loaded.
    Load(LoadError),
    /// What was made of it could not be saved.
    Save(SaveError),
}

impl fmt::Display for CopyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Load(error) => error.fmt(f),
            Self::Save(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for CopyError {}

impl From<LoadError> for CopyError {
    fn from(error: LoadError) -> Self {
        Self::Load(error)
    }
}

impl From<SaveError> for CopyError {
    fn from(error: SaveError) -> Self {
        Self::Save(error)
    }
}

impl Records {
    /// Takes in a job that was shared. It never replaces anything: where another state of the job is
    /// stored, this one is kept beside it under `new_id`.
    ///
    /// # Errors
    /// [`SaveError`].
    pub fn import(&self, job: &Job, new_id: &str, now: u64) -> Result<Imported, SaveError> {
        if let Fate::ContactSolution(became) = self.settle(job, now)? {
            return Ok(became);
        }
        let mut copy = name_copy(job, new_id, SUFFIX);
        for (id, record) in self.job_records()? {
            let Ok(there) = read_record::<Job>(&record) else { continue };
            copy.id.clone_from(&there.content.id);
            if copy == there.content {
                return Ok(Imported::AlreadyHere { id });
            }
        }
        self.save_copy(job, new_id, SUFFIX, now)?;
        Ok(Imported::Copied { id: new_id.to_owned() })
    }

    /// Adds a job that is not here, or finds it here just the same.
    pub(super) fn settle(&self, job: &Job, now: u64) -> Result<Fate, SaveError> {
        match self.load(&job.id) {
            Ok(Loaded { content, .. }) if content == *job => {
                Ok(Fate::ContactSolution(Imported::AlreadyHere { id: content.id }))
            }
            Err(LoadError::Missing) if is_plain(&job.id) => {
                self.save_new(job, now)?;
                Ok(Fate::ContactSolution(Imported::Added { id: job.id.clone() }))
            }
            Err(LoadError::Trouble(trouble)) => Err(trouble.into()),
            _ => Ok(Fate::Other),
        }
    }

    /// Everything: jobs, shelf, prices, and to the letter what cannot be read.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn backup(&self) -> Result<Backup, Trouble> {
        let mut backup = Backup::default();
        for (id, record) in self.job_records()? {
            match self.load(&id) {
                Ok(Loaded { content, .. }) => backup.jobs.push(content),
                Err(LoadError::Trouble(trouble)) => return Err(trouble),
                Err(_) => backup.unreadable.push(Raw { key: job_key(&id), text: record }),
            }
        }
        let [bags, prices] = SHELVES;
        backup.bags = keep_raw(self.load_bags(), bags, &mut backup.unreadable)?;
        backup.prices = keep_raw(self.load_prices(), prices, &mut backup.unreadable)?;
        backup.unreadable.extend(self.set_aside()?);
        Ok(backup)
    }

    /// Takes in a backup. It never replaces anything. `new_id` makes a new id at each call.
    pub fn import_backup(&self, backup: &Backup, new_id: &mut dyn FnMut() -> String, now: u64) -> BackupImport {
        let jobs = backup.jobs.iter().map(|job| Part::Job(Box::new(job.clone())));
        let parts = jobs.chain(backup.unreadable.iter().cloned().map(Part::Unreadable)).collect();
        let mut arriving = self.take_in(Unpacked { parts, bags: backup.bags.clone(), prices: backup.prices.clone() });
        while arriving.step(new_id, now) {}
        arriving.finish(new_id, now)
    }

    /// Takes in a backup as [`import_backup`](Self::import_backup) does, step by step.
    pub fn take_in(&self, backup: Unpacked) -> Arriving {
        Arriving::new(self.clone(), backup)
    }

    /// Adds the bags that are not on the shelf; one that differs from its namesake here gets a new id.
    pub(super) fn import_bags(
        &self,
        bags: &[Bag],
        new_id: &mut dyn FnMut() -> String,
        now: u64,
    ) -> Result<usize, CopyError> {
        let stored = self.load_bags()?;
        let (mut shelf, stamp) = stored.map_or_else(Default::default, |stored| (stored.content, Some(stored.stamp)));
        let before = shelf.len();
        // Told apart by everything but the id, so that the same backup adds a bag only once.
        let but_for_its_id =
            |bag: &Bag| serde_json::to_string(&Bag { id: String::new(), ..bag.clone() }).unwrap_or_default();
        let mut known: HashSet<String> = shelf.iter().map(but_for_its_id).collect();
        let mut ids: HashSet<String> = shelf.iter().map(|bag| bag.id.clone()).collect();
        for bag in bags {
            if !known.insert(but_for_its_id(bag)) {
                continue;
            }
            let id = if ids.contains(&bag.id) { new_id() } else { bag.id.clone() };
            ids.insert(id.clone());
            shelf.push(Bag { id, ..bag.clone() });
        }
        let added = shelf.len() - before;
        if added > 0 {
            self.save_bags(&shelf, stamp.as_ref(), now)?;
        }
        Ok(added)
    }

    /// Adds what this book does not know yet, if it is in the same currency.
    pub(super) fn import_prices(&self, prices: &PriceBook, now: u64) -> Result<PricesImported, CopyError> {
        let Some(Loaded { content: mut book, stamp }) = self.load_prices()? else {
            self.save_prices(prices, None, now)?;
            return Ok(PricesImported { added: prices.bags.len() + prices.goods.len(), left_out: 0 });
        };
        let before = book.clone();
        let (added, left_out) = book.fill_up_from(prices);
        if book != before {
            self.save_prices(&book, Some(&stamp), now)?;
        }
        Ok(PricesImported { added, left_out })
    }
}

/// An id such as this program makes; any other one would be a stranger in keys and links.
fn is_plain(id: &str) -> bool {
    (1..=LONGEST_ID).contains(&id.len()) && id.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_".contains(&byte))
}

/// What was loaded; if it cannot be read, its text goes to `unreadable`.
fn keep_raw<T>(
    loaded: Result<Option<Loaded<T>>, LoadError>,
    key: &str,
    unreadable: &mut Vec<Raw>,
) -> Result<Option<T>, Trouble> {
    match loaded {
        Ok(loaded) => Ok(loaded.map(|loaded| loaded.content)),
        Err(LoadError::Trouble(trouble)) => Err(trouble),
        Err(LoadError::Missing) => Ok(None),
        Err(LoadError::Unreadable { raw, .. }) => {
            unreadable.push(Raw { key: key.to_owned(), text: raw });
            Ok(None)
        }
    }
}
