//! Taking in a backup piece by piece, so that the page can draw between two of them, and the maker can stop.

use super::exchange::{BackupImport, Fate, PricesImported};
use super::record::read_record;
use super::records::{Aside, job_id, name_copy};
use super::share::{Part, Unpacked};
use super::{Backup, Imported, Raw, Records, SaveError, Trouble};
use crate::job::{Job, file};
use std::collections::{HashMap, VecDeque};
use std::hash::{DefaultHasher, Hash, Hasher};

/// What a copy's name ends in.
pub(super) const SUFFIX: &str = "(imported)";

/// A backup on its way in. Every record that is here is read once at most, however many jobs arrive; and only where a
/// job is here in another state, since copies of it may be here too.
pub struct Arriving {
    records: Records,
    parts: VecDeque<Part>,
    /// Jobs that are here in another state: their place among the results, and they themselves.
    others: VecDeque<(usize, Box<Job>)>,
    copies: Option<Copies>,
    aside: Aside,
    /// Name and fate of every job, once it is settled.
    jobs: Vec<(String, Option<Result<Imported, SaveError>>)>,
    set_aside: Result<usize, Trouble>,
    rest: Backup,
    all: usize,
}

/// The jobs that are here, by what they hold besides their ids.
#[derive(Default)]
struct Copies {
    /// Ids whose records are still to be read.
    unread: Vec<String>,
    ids: HashMap<u64, String>,
}

/// How far it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Jobs and records that are in.
    pub done: usize,
    /// All of them.
    pub all: usize,
}

impl Arriving {
    pub(super) fn new(records: Records, Unpacked { parts, bags, prices }: Unpacked) -> Self {
        let rest = Backup { bags, prices, ..Backup::default() };
        Self {
            records,
            all: parts.len(),
            parts: parts.into(),
            others: VecDeque::new(),
            copies: None,
            aside: Aside::default(),
            jobs: Vec::new(),
            set_aside: Ok(0),
            rest,
        }
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        Progress { done: self.all - self.parts.len() - self.others.len(), all: self.all }
    }

    /// Takes one step: a job, a record, or a look at one that is here. Says whether there is another one.
    pub fn step(&mut self, new_id: &mut dyn FnMut() -> String, now: u64) -> bool {
        if let Some(part) = self.parts.pop_front() {
            self.take(part, now);
        } else if self.others.is_empty() {
            return false;
        } else if let Err(trouble) = self.look_around() {
            let others = std::mem::take(&mut self.others);
            others.into_iter().for_each(|(at, _)| self.jobs[at].1 = Some(Err(trouble.clone().into())));
        } else if self.copies.as_ref().is_some_and(|copies| copies.unread.is_empty())
            && let Some((at, job)) = self.others.pop_front()
        {
            self.jobs[at].1 = Some(self.copy(&job, &new_id(), now));
        }
        !(self.parts.is_empty() && self.others.is_empty())
    }

    /// Ends it, and tells what became of every part. What has not been taken in stays out; bags and prices come in last,
    /// and only where nothing stays out. `new_id` makes a new id at each call, `now` is in milliseconds since 1970.
    pub fn finish(self, new_id: &mut dyn FnMut() -> String, now: u64) -> BackupImport {
        let not_taken = self.parts.len() + self.others.len();
        let Backup { bags, prices, .. } = if not_taken == 0 { self.rest } else { Backup::default() };
        BackupImport {
            not_taken,
            jobs: self.jobs.into_iter().filter_map(|(name, became)| Some((name, became?))).collect(),
            bags: bags.map_or(Ok(0), |bags| self.records.import_bags(&bags, new_id, now)),
            prices: prices
                .map_or_else(|| Ok(PricesImported::default()), |prices| self.records.import_prices(&prices, now)),
            set_aside: self.set_aside,
        }
    }

    fn take(&mut self, part: Part, now: u64) {
        match part.read() {
            Ok(job) => {
                let name = job.name.text().to_owned();
                let became = match self.records.settle(&job, now) {
                    Ok(Fate::ContactSolution(became)) => Some(Ok(became)),
                    Ok(Fate::Other) => {
                        self.others.push_back((self.jobs.len(), job));
                        None
                    }
                    Err(why) => Some(Err(why)),
                };
                self.jobs.push((name, became));
            }
            Err(raw) => {
                // Where the store failed once, the rest is not tried.
                if let Ok(count) = self.set_aside {
                    self.set_aside = self.keep_aside(&raw, now).map(|new| count + usize::from(new));
                }
            }
        }
    }

    fn keep_aside(&mut self, raw: &Raw, now: u64) -> Result<bool, Trouble> {
        Ok(!self.records.is_there(raw)? && self.records.keep_aside(&mut self.aside, &raw.key, &raw.text, now)?)
    }

    /// Reads the next record that is here, if any is unread.
    fn look_around(&mut self) -> Result<(), Trouble> {
        let copies = match &mut self.copies {
            Some(copies) => copies,
            None => self.copies.insert(Copies { unread: self.records.job_ids()?, ids: HashMap::new() }),
        };
        if let Some(id) = copies.unread.pop()
            && let Some(record) = self.records.raw(&id)?
            && let Ok(there) = read_record::<Job>(&record)
        {
            copies.ids.insert(but_for_its_id(&there.content), id);
        }
        Ok(())
    }

    /// A job that is here in another state, unless just the copy of it is here.
    fn copy(&mut self, job: &Job, new_id: &str, now: u64) -> Result<Imported, SaveError> {
        let copy = name_copy(job, new_id, SUFFIX);
        let held = but_for_its_id(&copy);
        let copies = self.copies.get_or_insert_default();
        if let Some(id) = copies.ids.get(&held)
            && let Ok(there) = self.records.load(id)
            && there.content == (Job { id: there.content.id.clone(), ..copy.clone() })
        {
            return Ok(Imported::AlreadyHere { id: id.clone() });
        }
        self.records.save_new(&copy, now)?;
        copies.ids.insert(held, new_id.to_owned());
        Ok(Imported::Copied { id: new_id.to_owned() })
    }
}

/// A number for all that a job holds besides its id.
fn but_for_its_id(job: &Job) -> u64 {
    let mut hasher = DefaultHasher::new();
    file::write(&Job { id: String::new(), ..job.clone() }).hash(&mut hasher);
    hasher.finish()
}

/// The job of a record that was kept to the letter: what a former version could not read may be readable now.
pub(super) fn readable_now(raw: &Raw) -> Option<Job> {
    job_id(&raw.key).and_then(|_| read_record::<Job>(&raw.text).ok()).map(|loaded| loaded.content)
}
