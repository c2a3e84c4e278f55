//! Jobs, the shelf of bags and the prices, kept.

use super::index::Index;
use super::record::{read_record, write_record};
use super::{Backend, Loaded, Raw, Stamp, Trouble};
use crate::job::file::{FileError, Form, Kept};
use crate::job::upgrade::{Step, add_missing, members, parts, walk};
use crate::job::{Bag, Entry, Job};
use crate::price::PriceBook;
use std::collections::{HashMap, HashSet};
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};

const JOB: &str = "pourwright/job/";
const DELETED: &str = "pourwright/deleted/";
const ASIDE: &str = "pourwright/aside/";
const REMEMBER: &str = "pourwright/remember/";
const INDEX: &str = "pourwright/index";
const BAGS: &str = "pourwright/bags";
const PRICES: &str = "pourwright/prices";

/// How long a deleted job can be brought back: thirty days, in milliseconds.
const KEPT_AFTER_DELETION: u64 = 30 * 24 * 60 * 60 * 1000;

/// How much later a deleted job is looked at again before it is dropped: a day, in milliseconds.
const SECOND_LOOK: u64 = 24 * 60 * 60 * 1000;

/// The name under which is remembered when deleted jobs were first seen to be due: lines of a time and a key.
const DUE: &str = "due";

impl Kept for PriceBook {
    const FORM: Form = Form {
        format: "pourwright prices",
        content: "prices",
        version: 2,
        most_bytes: crate::job::file::MOST_BYTES,
        upgrade: |version, prices| walk(&STEPS, version, prices),
    };
}

/// What version 2 of the prices says beyond version 1.
const PRICES_TO_2: &str = include_str!("prices-to-2.json");

/// The steps of the prices; the first one brings version 1, which knew bags, to version 2: everything that is bought,
/// pads, pace and terms.
const STEPS: [Step; 1] = [|prices| {
    let added = parts(PRICES_TO_2);
    add_missing(Some(&mut *prices), &added["prices"]);
    for bag in members(prices.get_mut("bags")) {
        add_missing(Some(bag), &added["bag"]);
    }
}];

/// What a list shows of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listed {
    /// The job's id.
    pub id: String,
    /// Its name; blank if it cannot be read.
    pub name: String,
    /// Its client; blank if it cannot be read.
    pub client: String,
    /// When it was saved last, in milliseconds since 1970; zero if it cannot be read.
    pub touched: u64,
    /// Why it cannot be read; `None` if it can.
    pub problem: Option<FileError>,
}

/// A deleted job that can be brought back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deleted {
    /// What it is brought back by.
    pub key: String,
    /// The job's id.
    pub id: String,
    /// Its name; blank if it cannot be read.
    pub name: String,
    /// Its client; blank if it cannot be read.
    pub client: String,
    /// When it was deleted, in milliseconds since 1970.
    pub deleted: u64,
}

/// Why a record could not be loaded. Its words say what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LoadError {
    /// Nothing is there.
    Missing,
    /// It is there, and cannot be read; a newer version is [`FileError::Newer`].
    Unreadable {
        /// What is wrong with it.
        why: FileError,
        /// Its text, to be saved as a file.
        raw: String,
    },
    /// The store itself does not work.
    Trouble(Trouble),
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing => f.write_str(
                "This job is not here any more. It may have been deleted in another tab: look among the deleted jobs.",
            ),
            Self::Unreadable { why, .. } => write!(f, "{why} What is stored here is kept as it is."),
            Self::Trouble(trouble) => trouble.fmt(f),
        }
    }
}

impl std::error::Error for LoadError {}

impl From<Trouble> for LoadError {
    fn from(trouble: Trouble) -> Self {
        Self::Trouble(trouble)
    }
}

/// Why a record was not saved; what was stored before still is. Its words say what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SaveError {
    /// The stored record is not the one this save is based on.
    Conflict {
        /// The stored record's stamp.
        theirs: Stamp,
    },
    /// The record this save is based on is not there any more.
    Gone,
    /// The stored record was written by a newer version of this program.
    Newer(FileError),
    /// It is larger than what can be read again.
    TooLarge(FileError),
    /// The store itself does not work.
    Trouble(Trouble),
}

impl fmt::Display for SaveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Conflict { .. } => f.write_str(
                "This was changed in another tab since it was opened here, so nothing was saved over it. Keep both, or \
                 open the other one.",
            ),
            Self::Gone => f.write_str(
                "This was deleted in another tab since it was opened here, so it was not saved. Keep it as a new job, or \
                 close it.",
            ),
            Self::Newer(why) => write!(f, "Nothing was saved over what is stored here. {why}"),
            Self::TooLarge(why) => write!(f, "The last change is not saved. {why}"),
            Self::Trouble(trouble) => trouble.fmt(f),
        }
    }
}

impl std::error::Error for SaveError {}

impl From<Trouble> for SaveError {
    fn from(trouble: Trouble) -> Self {
        Self::Trouble(trouble)
    }
}

/// Which record a key belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// The job with that id.
    Job(String),
    /// The shelf of bags.
    Bags,
    /// The prices.
    Prices,
    /// Nothing that is shown.
    Other,
}

/// The records of one browser, as one tab sees them.
#[derive(Clone)]
pub struct Records {
    backend: Arc<dyn Backend>,
    writer: String,
    seen: Arc<Mutex<Option<Seen>>>,
}

/// The record that was read or written last. While it stands there to the letter, its stamp is known without reading
/// it again.
struct Seen {
    key: String,
    text: String,
    stamp: Stamp,
}

/// What is set aside, as far as it is known.
#[derive(Default)]
pub(super) struct Aside {
    texts: Option<HashSet<String>>,
    /// A time that no key of it has yet.
    free: u64,
}

impl Records {
    /// The records in `backend`. `writer` names this tab and no other one.
    pub fn new(backend: Arc<dyn Backend>, writer: &str) -> Self {
        Self { backend, writer: writer.to_owned(), seen: Arc::default() }
    }

    /// Which record is kept under `key`.
    pub fn about(key: &str) -> About {
        match key {
            BAGS => About::Bags,
            PRICES => About::Prices,
            key => key.strip_prefix(JOB).map_or(About::Other, |id| About::Job(id.to_owned())),
        }
    }

    /// The key under which a record is kept.
    pub fn key_of(about: &About) -> Option<String> {
        match about {
            About::Job(id) => Some(job_key(id)),
            About::Bags => Some(BAGS.to_owned()),
            About::Prices => Some(PRICES.to_owned()),
            About::Other => None,
        }
    }

    /// What a job, a shelf, or something deleted or set aside is kept under, and no mere memory aid.
    pub(super) fn is_record(key: &str) -> bool {
        Self::about(key) != About::Other || key.starts_with(DELETED) || key.starts_with(ASIDE)
    }

    /// What they are kept in.
    pub(super) fn backend(&self) -> &dyn Backend {
        &*self.backend
    }

    /// Every job, the one touched last first; those that cannot be read come last and say why.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn list(&self) -> Result<Vec<Listed>, Trouble> {
        let index = Index::read(self.backend.read(INDEX)?.as_deref());
        let mut rebuilt = Index::default();
        let (mut listed, mut fresh) = (Vec::new(), 0);
        for (id, record) in self.job_records()? {
            let line = index.get(&id, &record).unwrap_or_else(|| {
                fresh += 1;
                list_one(&id, &record).0
            });
            if line.problem.is_none() {
                rebuilt.put(&line, &record);
            }
            listed.push(line);
        }
        if fresh > 0 || rebuilt.len() != index.len() {
            self.write_index(&rebuilt);
        }
        sort(&mut listed);
        Ok(listed)
    }

    /// The jobs as [`list`](Self::list) gave them last, without looking at their records: a first sight, to be
    /// followed by the list itself. Nothing, if that cannot be read.
    pub fn glance(backend: &dyn Backend) -> Vec<Listed> {
        let index = backend.read(INDEX).ok().flatten();
        let mut listed = Index::read(index.as_deref()).glance();
        sort(&mut listed);
        listed
    }

    /// The jobs whose name, client and notes hold every word of `text`, in the order of
    /// [`list`](Self::list); those that cannot be read are searched as they stand.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn search(&self, text: &str) -> Result<Vec<Listed>, Trouble> {
        let wanted = text.to_lowercase();
        if wanted.trim().is_empty() {
            return self.list();
        }
        let mut listed = Vec::new();
        for (id, record) in self.job_records()? {
            let (line, words) = list_one(&id, &record);
            if wanted.split_whitespace().all(|word| words.contains(word)) {
                listed.push(line);
            }
        }
        sort(&mut listed);
        Ok(listed)
    }

    /// The job with that id. The id under which it is kept is the job's, whatever its record says.
    ///
    /// # Errors
    /// [`LoadError`].
    pub fn load(&self, id: &str) -> Result<Loaded<Job>, LoadError> {
        let mut loaded = self.load_kept::<Job>(&job_key(id))?;
        id.clone_into(&mut loaded.content.id);
        Ok(loaded)
    }

    /// Saves the job. `based_on` is the stamp it was loaded or saved with last; `None` for a new job.
    ///
    /// # Errors
    /// [`SaveError`]; then what was stored before still is.
    pub fn save(&self, job: &Job, based_on: Option<&Stamp>, now: u64) -> Result<Stamp, SaveError> {
        let (stamp, record) = self.save_kept(&job_key(&job.id), job, based_on, now)?;
        // A new job is seen at a glance. What is typed into one that is there is not entered at every save: the index
        // of a full shelf is long, and the next list finds that the record has changed.
        if based_on.is_none() {
            let mut index = Index::read(self.backend.read(INDEX).ok().flatten().as_deref());
            index.put(&list_job(job, &stamp), &record);
            self.write_index(&index);
        }
        Ok(stamp)
    }

    /// Saves a new job without a line in the index, which the next list writes for all that came in together.
    pub(super) fn save_new(&self, job: &Job, now: u64) -> Result<(), SaveError> {
        self.save_kept(&job_key(&job.id), job, None, now).map(drop)
    }

    /// Saves the job under `new_id`, beside the one that stands in its way.
    ///
    /// # Errors
    /// [`SaveError`]; then what was stored before still is.
    pub fn keep_both(&self, job: &Job, new_id: &str, now: u64) -> Result<Loaded<Job>, SaveError> {
        self.save_copy(job, new_id, "(other copy)", now)
    }

    /// Makes a copy of the stored job with that id, under `new_id`.
    ///
    /// # Errors
    /// [`CopyError`](super::CopyError) of loading the one or saving the other.
    pub fn duplicate(&self, id: &str, new_id: &str, now: u64) -> Result<Loaded<Job>, super::CopyError> {
        let mut job = self.load(id)?.content;
        // A copy is another version of the job: nothing of it was sent, and no hour went into it.
        job.quote.frozen = None;
        job.quote.hours.iter_mut().for_each(|hours| hours.took = Entry::default());
        Ok(self.save_copy(&job, new_id, "copy", now)?)
    }

    /// Moves the job out of sight, to be brought back within thirty days. It needs room for a moment:
    /// where there is none, it fails with [`Trouble::Full`] and [`erase`](Self::erase) is left.
    ///
    /// # Errors
    /// [`LoadError`]; then the job is still there.
    pub fn delete(&self, id: &str, now: u64) -> Result<Deleted, LoadError> {
        let key = job_key(id);
        let record = self.backend.read(&key)?.ok_or(LoadError::Missing)?;
        let (deleted_key, deleted) = self.write_beside(DELETED, id, &record, now)?;
        if let Err(trouble) = self.backend.remove(&key) {
            // The job stands; a deleted twin of it would only puzzle.
            drop(self.backend.remove(&deleted_key));
            return Err(trouble.into());
        }
        Ok(list_deleted(deleted_key, id, deleted, &record))
    }

    /// Brings a deleted job back, and says under which id: its own, or `new_id` if another job has
    /// taken that since.
    ///
    /// # Errors
    /// [`LoadError`]; then it is still among the deleted ones.
    pub fn undo_delete(&self, key: &str, new_id: &str) -> Result<String, LoadError> {
        let (_, id) = split_time(DELETED, key).ok_or(LoadError::Missing)?;
        let record = self.backend.read(key)?.ok_or(LoadError::Missing)?;
        let there = self.backend.read(&job_key(id))?;
        let id = if there.as_ref().is_none_or(|there| *there == record) { id } else { new_id };
        if there.as_ref() != Some(&record) {
            if id == new_id && self.backend.read(&job_key(id))?.is_some() {
                return Err(Trouble::Other("the new id is taken".to_owned()).into());
            }
            self.backend.write(&job_key(id), &record)?;
        }
        // If the deleted one cannot be removed, it stays in sight there: a twin, not a loss.
        drop(self.backend.remove(key));
        Ok(id.to_owned())
    }

    /// Every deleted job, the one deleted last first.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn deleted(&self) -> Result<Vec<Deleted>, Trouble> {
        let mut deleted = Vec::new();
        for key in self.backend.keys()? {
            let Some((time, id)) = split_time(DELETED, &key) else { continue };
            if let Some(record) = self.backend.read(&key)? {
                deleted.push(list_deleted(key.clone(), id, time, &record));
            }
        }
        deleted.sort_by(|a, b| b.deleted.cmp(&a.deleted).then_with(|| a.key.cmp(&b.key)));
        Ok(deleted)
    }

    /// Drops the jobs that were deleted over thirty days ago, and says how many. A clock may jump, so that one look
    /// at it is not enough: what is due is marked, and dropped when it still is a day later.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn purge(&self, now: u64) -> Result<usize, Trouble> {
        let marks = self.remembered(DUE).unwrap_or_default();
        let marked: HashMap<&str, u64> = marks.lines().rev().filter_map(marked_at).collect();
        let mut dropped = 0;
        let mut still = String::new();
        for key in self.backend.keys()? {
            if split_time(DELETED, &key).is_none_or(|(time, _)| now.saturating_sub(time) <= KEPT_AFTER_DELETION) {
                continue;
            }
            // A mark from the future was made by a clock that had jumped.
            let marked = marked.get(key.as_str()).copied().filter(|marked| *marked <= now).unwrap_or(now);
            if now - marked >= SECOND_LOOK {
                self.backend.remove(&key)?;
                dropped += 1;
            } else {
                still.push_str(&format!("{marked} {key}\n"));
            }
        }
        if still != marks {
            self.remember(DUE, &still)?;
        }
        Ok(dropped)
    }

    /// Drops the job at once and for good. Only where the maker said so: this frees room when there
    /// is none left for [`delete`](Self::delete).
    ///
    /// # Errors
    /// [`Trouble`] of the store itself; then the job is still there.
    pub fn erase(&self, id: &str) -> Result<(), Trouble> {
        self.backend.remove(&job_key(id))
    }

    /// The text of the job's record, to be saved as a file where it cannot be read.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn raw(&self, id: &str) -> Result<Option<String>, Trouble> {
        self.backend.read(&job_key(id))
    }

    /// The shelf of bags and the prices, as far as they are there and cannot be read: which, why, and their text.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn unreadable_shelves(&self) -> Result<Vec<(About, FileError, String)>, Trouble> {
        let mut unreadable = Vec::new();
        for (about, found) in [(About::Bags, self.load_bags().err()), (About::Prices, self.load_prices().err())] {
            match found {
                Some(LoadError::Unreadable { why, raw }) => unreadable.push((about, why, raw)),
                Some(LoadError::Trouble(trouble)) => return Err(trouble),
                Some(LoadError::Missing) | None => {}
            }
        }
        Ok(unreadable)
    }

    /// The unreadable records that were copied before something was saved in their place.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn set_aside(&self) -> Result<Vec<Raw>, Trouble> {
        let mut aside = Vec::new();
        for key in self.backend.keys()?.into_iter().filter(|key| key.starts_with(ASIDE)) {
            if let Some(text) = self.backend.read(&key)? {
                aside.push(Raw { key, text });
            }
        }
        aside.sort_by(|a, b| a.key.cmp(&b.key));
        Ok(aside)
    }

    /// The shelf of bags; `None` if it was never saved.
    ///
    /// # Errors
    /// [`LoadError`].
    pub fn load_bags(&self) -> Result<Option<Loaded<Vec<Bag>>>, LoadError> {
        optional(self.load_kept(BAGS))
    }

    /// Saves the shelf of bags, as [`save`](Self::save) does a job.
    ///
    /// # Errors
    /// [`SaveError`]; then what was stored before still is.
    pub fn save_bags(&self, bags: &[Bag], based_on: Option<&Stamp>, now: u64) -> Result<Stamp, SaveError> {
        self.save_kept(BAGS, &bags.to_vec(), based_on, now).map(|(stamp, _)| stamp)
    }

    /// The prices; `None` if they were never saved.
    ///
    /// # Errors
    /// [`LoadError`].
    pub fn load_prices(&self) -> Result<Option<Loaded<PriceBook>>, LoadError> {
        optional(self.load_kept(PRICES))
    }

    /// Saves the prices, as [`save`](Self::save) does a job.
    ///
    /// # Errors
    /// [`SaveError`]; then what was stored before still is.
    pub fn save_prices(&self, prices: &PriceBook, based_on: Option<&Stamp>, now: u64) -> Result<Stamp, SaveError> {
        self.save_kept(PRICES, prices, based_on, now).map(|(stamp, _)| stamp)
    }

    /// Keeps a small thing that may be lost without harm, such as which job was open last.
    ///
    /// # Errors
    /// [`Trouble`] of the store itself.
    pub fn remember(&self, name: &str, text: &str) -> Result<(), Trouble> {
        self.backend.write(&format!("{REMEMBER}{name}"), text)
    }

    /// The small thing kept under that name, if it is there.
    pub fn remembered(&self, name: &str) -> Option<String> {
        self.backend.read(&format!("{REMEMBER}{name}")).ok().flatten()
    }

    /// Id and text of the record of every deleted job.
    pub(super) fn deleted_records(&self) -> Result<Vec<(String, String)>, Trouble> {
        let mut records = Vec::new();
        for key in self.backend.keys()? {
            if let Some((_, id)) = split_time(DELETED, &key)
                && let Some(record) = self.backend.read(&key)?
            {
                records.push((id.to_owned(), record));
            }
        }
        Ok(records)
    }

    /// The id of every job.
    pub(super) fn job_ids(&self) -> Result<Vec<String>, Trouble> {
        Ok(self.backend.keys()?.iter().filter_map(|key| job_id(key)).map(str::to_owned).collect())
    }

    /// Id and text of the record of every job.
    pub(super) fn job_records(&self) -> Result<Vec<(String, String)>, Trouble> {
        let mut records = Vec::new();
        for key in self.backend.keys()? {
            let Some(id) = key.strip_prefix(JOB) else { continue };
            // Another tab may delete it between the two reads.
            if let Some(record) = self.backend.read(&key)? {
                records.push((id.to_owned(), record));
            }
        }
        Ok(records)
    }

    /// Saves the job under `new_id`, its name followed by `suffix`.
    pub(super) fn save_copy(&self, job: &Job, new_id: &str, suffix: &str, now: u64) -> Result<Loaded<Job>, SaveError> {
        let copy = name_copy(job, new_id, suffix);
        let stamp = self.save(&copy, None, now)?;
        Ok(Loaded { content: copy, stamp })
    }

    /// Just this text is stored under just this key.
    pub(super) fn is_there(&self, raw: &Raw) -> Result<bool, Trouble> {
        Ok(self.backend.read(&raw.key)?.is_some_and(|text| text == raw.text))
    }

    /// Copies a record that cannot be read out of harm's way, once. Says whether it was not there yet. `aside` goes
    /// from one record to the next, so that what is there is read once for all of them.
    pub(super) fn keep_aside(&self, aside: &mut Aside, key: &str, record: &str, now: u64) -> Result<bool, Trouble> {
        let texts = match &mut aside.texts {
            Some(texts) => texts,
            None => aside.texts.insert(self.set_aside()?.into_iter().map(|raw| raw.text).collect()),
        };
        if texts.contains(record) {
            return Ok(false);
        }
        let (_, time) = self.write_beside(ASIDE, key, record, now.max(aside.free))?;
        texts.insert(record.to_owned());
        aside.free = time.saturating_add(1);
        Ok(true)
    }

    /// Writes `text` under `prefix`, the time and `name`, and never over another text.
    fn write_beside(&self, prefix: &str, name: &str, text: &str, now: u64) -> Result<(String, u64), Trouble> {
        let mut time = now;
        loop {
            let key = format!("{prefix}{time}/{name}");
            if self.backend.read(&key)?.is_none() {
                return self.backend.write(&key, text).map(|()| (key, time));
            }
            time = time.wrapping_add(1);
        }
    }

    fn load_kept<T: Kept>(&self, key: &str) -> Result<Loaded<T>, LoadError> {
        let raw = self.backend.read(key)?.ok_or(LoadError::Missing)?;
        match read_record::<T>(&raw) {
            Ok(loaded) => {
                self.note_seen(key, raw, &loaded.stamp);
                Ok(loaded)
            }
            Err(why) => Err(LoadError::Unreadable { why, raw }),
        }
    }

    fn save_kept<T: Kept>(
        &self,
        key: &str,
        thing: &T,
        based_on: Option<&Stamp>,
        now: u64,
    ) -> Result<(Stamp, String), SaveError> {
        let stored = self.backend.read(key)?;
        let theirs = stored.as_deref().map(|record| self.stamp_of::<T>(key, record));
        let revision = next_revision(&theirs, based_on)?;
        let stamp = Stamp { revision, touched: now, writer: self.writer.clone() };
        let record = write_record(thing, &stamp);
        if let Some(why) = thing.too_many() {
            return Err(SaveError::TooLarge(why));
        }
        if record.len() > T::FORM.most_bytes {
            return Err(SaveError::TooLarge(FileError::TooLarge { bytes: record.len(), most: T::FORM.most_bytes }));
        }
        if let (Some(unreadable), Some(Err(_))) = (&stored, &theirs) {
            self.keep_aside(&mut Aside::default(), key, unreadable, now)?;
        }
        self.backend.write(key, &record)?;
        self.note_seen(key, record.clone(), &stamp);
        Ok((stamp, record))
    }

    fn note_seen(&self, key: &str, text: String, stamp: &Stamp) {
        let seen = Seen { key: key.to_owned(), text, stamp: stamp.clone() };
        *self.seen.lock().unwrap_or_else(PoisonError::into_inner) = Some(seen);
    }

    /// The stamp of the record that stands under that key.
    fn stamp_of<T: Kept>(&self, key: &str, record: &str) -> Result<Stamp, FileError> {
        match &*self.seen.lock().unwrap_or_else(PoisonError::into_inner) {
            Some(seen) if seen.key == key && seen.text == record => Ok(seen.stamp.clone()),
            _ => read_record::<T>(record).map(|loaded| loaded.stamp),
        }
    }

    // The index is only a memory aid: failing to write it must not fail what it was written for.
    fn write_index(&self, index: &Index) {
        drop(self.backend.write(INDEX, &index.write()));
    }
}

/// The revision of a save over what is stored, if it may take place.
fn next_revision(theirs: &Option<Result<Stamp, FileError>>, based_on: Option<&Stamp>) -> Result<u64, SaveError> {
    match (theirs, based_on) {
        (Some(Ok(theirs)), Some(ours)) if theirs == ours => Ok(ours.revision.saturating_add(1)),
        (Some(Ok(theirs)), _) => Err(SaveError::Conflict { theirs: theirs.clone() }),
        (Some(Err(newer @ FileError::Newer { .. })), _) => Err(SaveError::Newer(newer.clone())),
        (Some(Err(_)), ours) => Ok(ours.map_or(1, |ours| ours.revision.saturating_add(1))),
        (None, Some(_)) => Err(SaveError::Gone),
        (None, None) => Ok(1),
    }
}

/// The job under another id, its name followed by `suffix`.
pub(super) fn name_copy(job: &Job, new_id: &str, suffix: &str) -> Job {
    let mut copy = job.clone();
    new_id.clone_into(&mut copy.id);
    let name = format!("{} {suffix}", copy.name.text());
    copy.name = name.trim_start().into();
    copy
}

fn optional<T>(loaded: Result<Loaded<T>, LoadError>) -> Result<Option<Loaded<T>>, LoadError> {
    match loaded {
        Err(LoadError::Missing) => Ok(None),
        other => other.map(Some),
    }
}

/// The key of a job's record.
pub(super) fn job_key(id: &str) -> String {
    format!("{JOB}{id}")
}

/// The id in the key of a job's record.
pub(super) fn job_id(key: &str) -> Option<&str> {
    key.strip_prefix(JOB)
}

/// The keys under which bags and prices are kept.
pub(super) const SHELVES: [&str; 2] = [BAGS, PRICES];

/// Time and name in a key made by `write_beside`.
fn split_time<'a>(prefix: &str, key: &'a str) -> Option<(u64, &'a str)> {
    let (time, name) = key.strip_prefix(prefix)?.split_once('/')?;
    Some((time.parse().ok()?, name))
}

/// The key of a deleted job, and when it was first seen to be due.
fn marked_at(line: &str) -> Option<(&str, u64)> {
    let (time, key) = line.split_once(' ')?;
    Some((key, time.parse().ok()?))
}

fn list_job(job: &Job, stamp: &Stamp) -> Listed {
    Listed {
        id: job.id.clone(),
        name: job.name.text().to_owned(),
        client: job.client.text().to_owned(),
        touched: stamp.touched,
        problem: None,
    }
}

/// What the list shows of a record, and its words in lower case, to be searched.
fn list_one(id: &str, record: &str) -> (Listed, String) {
    match read_record::<Job>(record) {
        Ok(Loaded { content: job, stamp }) => {
            let words = [&job.name, &job.client, &job.notes].map(|entry| entry.text().to_lowercase());
            (Listed { id: id.to_owned(), ..list_job(&job, &stamp) }, words.join("\n"))
        }
        Err(why) => {
            let line = Listed {
                id: id.to_owned(),
                name: String::new(),
                client: String::new(),
                touched: 0,
                problem: Some(why),
            };
            (line, record.to_lowercase())
        }
    }
}

fn list_deleted(key: String, id: &str, deleted: u64, record: &str) -> Deleted {
    let (Listed { id, name, client, .. }, _) = list_one(id, record);
    Deleted { key, id, name, client, deleted }
}

fn sort(listed: &mut [Listed]) {
    listed.sort_by(|a, b| {
        let unreadable = |line: &Listed| line.problem.is_some();
        (unreadable(a), b.touched, &a.id).cmp(&(unreadable(b), a.touched, &b.id))
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::upgrade::tests::{first_difference, sample, written};
    use serde_json::Value;

    #[test]
    fn every_sample_of_the_prices_becomes_what_it_became_then_to_the_byte() {
        for (version, name) in [(1, "prices-v1"), (2, "prices-v2")] {
            let mut file: Value = serde_json::from_str(&sample(name)).expect("a sample is JSON");
            assert_eq!(file["version"], version);
            let now = walk(&STEPS[..1], version, file["prices"].take());
            assert_eq!(first_difference(&written(&now), &sample(&format!("{name}.as-v2"))), None, "{name}");
        }
        assert_eq!(STEPS.len() + 1, PriceBook::FORM.version as usize);
    }
}
