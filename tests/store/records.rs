//! Records: what was saved once stays, whatever fails.

use crate::jobs::{bag, plain, prices};
use pourwright::job::file;
use pourwright::job::file::{FileError, MOST_BYTES};
use pourwright::job::{Entry, Job};
use pourwright::store::{
    About, Backend, Imported, LoadError, Memory, PricesImported, Raw, Records, SaveError, Stamp, Trouble, read_shared,
};
use proptest::prelude::*;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

const DAY: u64 = 24 * 60 * 60 * 1000;

/// A store whose changes fail from the nth on, or only at the nth, counted from zero.
struct Flaky {
    inner: Memory,
    changes: AtomicUsize,
    fail_at: usize,
    for_good: bool,
    healed: AtomicBool,
    trouble: Trouble,
}

impl Flaky {
    fn new(fail_at: usize, for_good: bool, trouble: Trouble) -> Self {
        let (changes, healed) = (AtomicUsize::new(0), AtomicBool::new(false));
        Self { inner: Memory::default(), changes, fail_at, for_good, healed, trouble }
    }

    fn change(&self) -> Result<(), Trouble> {
        let change = self.changes.fetch_add(1, Ordering::Relaxed);
        let fails = if self.for_good { change >= self.fail_at } else { change == self.fail_at };
        if fails && !self.healed.load(Ordering::Relaxed) { Err(self.trouble.clone()) } else { Ok(()) }
    }
}

impl Backend for Flaky {
    fn read(&self, key: &str) -> Result<Option<String>, Trouble> {
        self.inner.read(key)
    }
    fn write(&self, key: &str, text: &str) -> Result<(), Trouble> {
        self.change()?;
        self.inner.write(key, text)
    }
    fn remove(&self, key: &str) -> Result<(), Trouble> {
        self.change()?;
        self.inner.remove(key)
    }
    fn keys(&self) -> Result<Vec<String>, Trouble> {
        self.inner.keys()
    }
}

/// A store that the browser does not open at all.
struct Shut;

impl Backend for Shut {
    fn read(&self, _: &str) -> Result<Option<String>, Trouble> {
        Err(Trouble::Blocked)
    }
    fn write(&self, _: &str, _: &str) -> Result<(), Trouble> {
        Err(Trouble::Blocked)
    }
    fn remove(&self, _: &str) -> Result<(), Trouble> {
        Err(Trouble::Blocked)
    }
    fn keys(&self) -> Result<Vec<String>, Trouble> {
        Err(Trouble::Blocked)
    }
}

fn fresh() -> (Arc<Memory>, Records) {
    let memory = Arc::new(Memory::default());
    let records = Records::new(memory.clone(), "tab one");
    (memory, records)
}

fn everything(backend: &dyn Backend) -> Vec<(String, String)> {
    let keys = backend.keys().expect("keys");
    keys.into_iter().filter_map(|key| backend.read(&key).expect("text").map(|text| (key, text))).collect()
}

fn names(records: &Records, text: &str) -> Vec<String> {
    records.search(text).expect("a list").into_iter().map(|line| line.name).collect()
}

fn renamed(job: &Job, name: &str) -> Job {
    Job { name: name.into(), ..job.clone() }
}

#[test]
fn a_job_comes_back_as_it_was_saved() {
    let (_, records) = fresh();
    let job = plain("a", "Island");
    let stamp = records.save(&job, None, 1000).expect("saved");
    assert_eq!(stamp, Stamp { revision: 1, touched: 1000, writer: "tab one".to_owned() });
    let loaded = records.load("a").expect("loaded");
    assert_eq!((loaded.content, loaded.stamp), (job.clone(), stamp.clone()));
    let second = records.save(&renamed(&job, "Bar"), Some(&stamp), 2000).expect("saved again");
    assert_eq!((second.revision, second.touched), (2, 2000));
    assert_eq!(records.load("a").expect("loaded").content.name, Entry::new("Bar"));
    assert_eq!(records.load("b"), Err(LoadError::Missing));
}

#[test]
fn the_list_is_sorted_and_searched() {
    let (_, records) = fresh();
    let mut shelf = plain("c", "Shelf");
    shelf.notes = "Über dem HERD".into();
    records.save(&plain("a", "Island"), None, 10).expect("saved");
    records.save(&plain("b", "Bar"), None, 30).expect("saved");
    records.save(&shelf, None, 20).expect("saved");
    assert_eq!(names(&records, ""), ["Bar", "Shelf", "Island"]);
    assert_eq!(names(&records, "  "), ["Bar", "Shelf", "Island"]);
    assert_eq!(names(&records, "ISL"), ["Island"]);
    assert_eq!(names(&records, "über herd"), ["Shelf"]);
    assert_eq!(names(&records, "osier bar"), ["Bar"]);
    assert!(names(&records, "nowhere").is_empty());
}

#[test]
fn two_tabs_never_overwrite_each_other_silently() {
    let (memory, first) = fresh();
    let second = Records::new(memory.clone(), "tab two");
    let job = plain("a", "Island");
    let start = first.save(&job, None, 10).expect("saved");
    let theirs = second.save(&renamed(&job, "Theirs"), Some(&start), 20).expect("saved");
    let before = everything(&*memory);
    let ours = renamed(&job, "Ours");
    assert_eq!(first.save(&ours, Some(&start), 30), Err(SaveError::Conflict { theirs: theirs.clone() }));
    assert_eq!(first.save(&ours, None, 30), Err(SaveError::Conflict { theirs }));
    assert_eq!(everything(&*memory), before);
    let kept = first.keep_both(&ours, "b", 40).expect("both kept");
    assert_eq!(kept.content.name, Entry::new("Ours (other copy)"));
    assert_eq!(names(&first, ""), ["Ours (other copy)", "Theirs"]);
    // The copy is an ordinary job from here on.
    first.save(&kept.content, Some(&kept.stamp), 50).expect("saved");
}

#[test]
fn a_record_that_only_counts_alike_is_another_record() {
    let (_, records) = fresh();
    let job = plain("a", "Island");
    let old = records.save(&job, None, 10).expect("saved");
    records.delete("a", 20).expect("deleted");
    let new = records.save(&renamed(&job, "Another"), None, 30).expect("saved");
    assert_eq!(old.revision, new.revision);
    assert_eq!(records.save(&job, Some(&old), 40), Err(SaveError::Conflict { theirs: new }));
}

#[test]
fn a_job_deleted_elsewhere_is_not_brought_back_silently() {
    let (_, records) = fresh();
    let job = plain("a", "Island");
    let stamp = records.save(&job, None, 10).expect("saved");
    records.delete("a", 20).expect("deleted");
    assert_eq!(records.save(&job, Some(&stamp), 30), Err(SaveError::Gone));
    assert!(records.list().expect("a list").is_empty());
    records.keep_both(&job, "b", 40).expect("kept");
    assert_eq!(names(&records, ""), ["Island (other copy)"]);
}

#[test]
fn deleting_can_be_undone_for_thirty_days() {
    let (_, records) = fresh();
    let job = plain("a", "Island");
    let stamp = records.save(&job, None, 10).expect("saved");
    let deleted = records.delete("a", 20).expect("deleted");
    assert_eq!((deleted.name.as_str(), deleted.deleted), ("Island", 20));
    assert_eq!(records.load("a"), Err(LoadError::Missing));
    assert_eq!(records.deleted(), Ok(vec![deleted.clone()]));
    assert_eq!(records.purge(20 + 30 * DAY), Ok(0));
    assert_eq!(records.undo_delete(&deleted.key, "x"), Ok("a".to_owned()));
    assert_eq!(records.load("a").expect("back").stamp, stamp);
    assert_eq!(records.deleted(), Ok(Vec::new()));
    assert_eq!(records.undo_delete(&deleted.key, "x"), Err(LoadError::Missing));
    let deleted = records.delete("a", 30).expect("deleted");
    assert_eq!(records.purge(31 + 30 * DAY), Ok(0), "seen to be due once");
    assert_eq!(records.purge(30 + 31 * DAY), Ok(0), "and not yet a day later");
    assert_eq!(records.purge(31 + 31 * DAY), Ok(1));
    assert_eq!(records.undo_delete(&deleted.key, "x"), Err(LoadError::Missing));
    assert_eq!(records.delete("a", 40), Err(LoadError::Missing));
}

/// A phone whose battery was empty may think that it is any year.
#[test]
fn a_clock_that_jumps_empties_no_bin() {
    let (_, records) = fresh();
    records.save(&plain("a", "Island"), None, 10).expect("saved");
    let deleted = records.delete("a", 100 * DAY).expect("deleted");
    for now in [5_000 * DAY, 101 * DAY, 9_000 * DAY, 0, 102 * DAY, 5_000 * DAY, 103 * DAY, 131 * DAY] {
        assert_eq!(records.purge(now), Ok(0), "day {}", now / DAY);
    }
    assert_eq!(records.deleted(), Ok(vec![deleted]));
    assert_eq!(records.purge(132 * DAY), Ok(1), "in due course it goes");
}

/// Whichever byte of a record has a bit turned over, another size never comes out of it.
#[test]
fn a_bit_that_turned_over_is_noticed() {
    let (memory, records) = fresh();
    let stamp = records.save(&plain("a", "Island"), None, 10).expect("saved");
    let record = memory.read("pourwright/job/a").expect("memory").expect("a record");
    for place in 0..record.len() {
        let mut bytes = record.clone().into_bytes();
        bytes[place] ^= 1 << (place % 7);
        let turned = String::from_utf8(bytes).expect("seven bits stay a letter");
        memory.write("pourwright/job/a", &turned).expect("memory");
        let loaded = records.load("a");
        assert!(matches!(loaded, Err(LoadError::Unreadable { .. })), "byte {place}: {turned}");
    }
    for end in (0..record.len()).step_by(7) {
        memory.write("pourwright/job/a", &record[..end]).expect("memory");
        assert!(matches!(records.load("a"), Err(LoadError::Unreadable { .. })), "cut at {end}");
    }
    memory.write("pourwright/job/a", &record).expect("memory");
    assert_eq!(records.load("a").expect("as it was").stamp, stamp);
    // What is shared is not trusted further than what is kept.
    let changed = record.replace("31 1/2", "13 1/2");
    assert_ne!(changed, record);
    assert!(matches!(read_shared(&changed), Err(FileError::Wrong { .. })));
    assert!(read_shared(&record).is_ok());
}

/// Records of the program before there was a sum are taken at their word.
#[test]
fn a_record_without_a_sum_is_read() {
    let (memory, records) = fresh();
    records.save(&plain("a", "Island"), None, 10).expect("saved");
    let record = memory.read("pourwright/job/a").expect("memory").expect("a record");
    let (_, rest) = record.split_once(',').expect("a sum comes first");
    memory.write("pourwright/job/a", &format!("{{{rest}")).expect("memory");
    assert_eq!(records.load("a").expect("read").content, plain("a", "Island"));
}

#[test]
fn undoing_does_not_replace_what_took_the_place() {
    let (_, records) = fresh();
    records.save(&plain("a", "First"), None, 10).expect("saved");
    let first = records.delete("a", 20).expect("deleted");
    records.save(&plain("a", "Second"), None, 20).expect("saved");
    let second = records.delete("a", 20).expect("deleted in the same millisecond");
    records.save(&plain("a", "Third"), None, 30).expect("saved");
    assert_eq!(records.undo_delete(&first.key, "b"), Ok("b".to_owned()));
    assert!(matches!(records.undo_delete(&second.key, "b"), Err(LoadError::Trouble(_))));
    assert_eq!(records.undo_delete(&second.key, "c"), Ok("c".to_owned()));
    assert_eq!(records.load("b").expect("loaded").content, plain("b", "First"));
    assert_eq!(names(&records, ""), ["Third", "Second", "First"]);
}

#[test]
fn duplicates_stand_alone() {
    let (_, records) = fresh();
    records.save(&plain("a", "Island"), None, 10).expect("saved");
    let copy = records.duplicate("a", "b", 20).expect("copied");
    assert_eq!(copy.content, plain("b", "Island copy"));
    assert_eq!(names(&records, ""), ["Island copy", "Island"]);
    assert!(records.duplicate("nothing", "c", 30).is_err());
}

#[test]
fn an_index_is_never_believed_over_the_records() {
    let (memory, records) = fresh();
    records.save(&plain("a", "Island"), None, 10).expect("saved");
    records.save(&plain("b", "Bar"), None, 20).expect("saved");
    let right = records.list().expect("a list");
    let index = memory.read("pourwright/index").expect("readable").expect("there is an index");
    let wrong = [
        String::new(),
        "nonsense".to_owned(),
        index[..index.len() / 2].to_owned(),
        "[]".to_owned(),
        index.replace("Island", "Ireland"),
        index.replace("\"touched\":10", "\"touched\":99"),
        index.replace("\"id\":\"a\"", "\"id\":\"ghost\""),
    ];
    for text in wrong {
        assert_ne!(text, index);
        memory.write("pourwright/index", &text).expect("written");
        assert_eq!(records.list().expect("a list"), right, "{text}");
        assert_eq!(memory.read("pourwright/index"), Ok(Some(index.clone())), "not rebuilt after {text}");
    }
    // A record that changed behind the index.
    let elsewhere = Records::new(Arc::new(Memory::default()), "another browser");
    elsewhere.save(&plain("a", "Peninsula"), None, 10).expect("saved");
    let record = elsewhere.raw("a").expect("readable").expect("there");
    memory.write("pourwright/job/a", &record).expect("written");
    assert_eq!(names(&records, ""), ["Bar", "Peninsula"]);
}

#[test]
fn a_job_too_large_to_be_read_again_is_not_saved() {
    let (memory, records) = fresh();
    let mut job = plain("a", "Island");
    let stamp = records.save(&job, None, 10).expect("saved");
    let before = everything(&*memory);
    job.notes = Entry("x".repeat(MOST_BYTES));
    assert!(matches!(records.save(&job, Some(&stamp), 20), Err(SaveError::TooLarge(_))));
    assert_eq!(everything(&*memory), before);
}

#[test]
fn an_unreadable_record_is_shown_and_set_aside_before_it_is_replaced() {
    let (memory, records) = fresh();
    let job = plain("a", "Island");
    let stamp = records.save(&job, None, 10).expect("saved");
    records.save(&plain("b", "Bar"), None, 5).expect("saved");
    memory.write("pourwright/job/a", "{\"format\":\"pourwr").expect("written");
    let list = records.list().expect("a list");
    assert_eq!((list[0].id.as_str(), list[1].id.as_str()), ("b", "a"));
    assert_eq!(list[1].problem, Some(FileError::CutShort));
    let raw = "{\"format\":\"pourwr".to_owned();
    assert_eq!(records.load("a"), Err(LoadError::Unreadable { why: FileError::CutShort, raw: raw.clone() }));
    assert_eq!(records.raw("a"), Ok(Some(raw.clone())));
    assert_eq!(names(&records, "pourwr"), [""]);
    let saved = records.save(&job, Some(&stamp), 20).expect("saved over it");
    assert_eq!(saved.revision, 2);
    let aside = Raw { key: "pourwright/aside/20/pourwright/job/a".to_owned(), text: raw };
    assert_eq!(records.set_aside(), Ok(vec![aside]));
    assert_eq!(records.load("a").expect("loaded").content, job);
}

/// A record as a later program would write it: jobs are at version 5, bags at 4, prices at 2.
fn newer(record: &str) -> String {
    let later = [5, 4, 2].into_iter().find_map(|version: u32| {
        let (now, next) = (format!("\"version\":{version},"), format!("\"version\":{},", version + 1));
        record.contains(&now).then(|| record.replacen(&now, &next, 1))
    });
    later.expect("a record says its version")
}

#[test]
fn a_record_of_a_newer_version_is_not_touched() {
    let (memory, records) = fresh();
    let job = plain("a", "Island");
    let stamp = records.save(&job, None, 10).expect("saved");
    let bags = records.save_bags(&[bag("white")], None, 10).expect("saved");
    for key in ["pourwright/job/a", "pourwright/bags"] {
        let record = memory.read(key).expect("readable").expect("there");
        memory.write(key, &newer(&record)).expect("written");
    }
    let before = everything(&*memory);
    for based_on in [None, Some(&stamp)] {
        assert!(matches!(records.save(&job, based_on, 20), Err(SaveError::Newer(_))));
    }
    assert!(matches!(records.save_bags(&[], Some(&bags), 20), Err(SaveError::Newer(_))));
    assert!(matches!(records.load_bags(), Err(LoadError::Unreadable { why: FileError::Newer { .. }, .. })));
    assert_eq!(everything(&*memory), before);
}

#[test]
fn bags_and_prices_are_kept_with_the_same_care() {
    let (memory, first) = fresh();
    let second = Records::new(memory.clone(), "tab two");
    assert_eq!(first.load_bags(), Ok(None));
    assert_eq!(first.load_prices(), Ok(None));
    let bags = first.save_bags(&[bag("white")], None, 10).expect("saved");
    let theirs = second.save_bags(&[bag("grey")], Some(&bags), 20).expect("saved");
    assert_eq!(first.save_bags(&[], Some(&bags), 30), Err(SaveError::Conflict { theirs }));
    assert_eq!(first.load_bags().expect("loaded").expect("there").content, [bag("grey")]);
    let book = prices(&[("white", "21.50")]);
    let stamp = first.save_prices(&book, None, 10).expect("saved");
    memory.write("pourwright/prices", "torn").expect("written");
    assert!(matches!(first.load_prices(), Err(LoadError::Unreadable { why: FileError::NotOurs, .. })));
    first.save_prices(&book, Some(&stamp), 20).expect("saved");
    assert_eq!(first.set_aside().expect("aside")[0].text, "torn");
    assert_eq!(first.load_prices().expect("loaded").expect("there").content, book);
}

#[test]
fn a_blocked_store_says_so_everywhere() {
    let records = Records::new(Arc::new(Shut), "tab");
    let blocked = LoadError::Trouble(Trouble::Blocked);
    assert_eq!(records.list(), Err(Trouble::Blocked));
    assert_eq!(records.load("a"), Err(blocked.clone()));
    assert_eq!(records.save(&plain("a", "A"), None, 1), Err(SaveError::Trouble(Trouble::Blocked)));
    assert_eq!(records.delete("a", 1), Err(blocked.clone()));
    assert_eq!(records.load_bags(), Err(blocked));
    assert_eq!(records.backup(), Err(Trouble::Blocked));
    assert_eq!(records.remembered("last"), None);
}

#[test]
fn other_programs_keys_are_left_alone() {
    let (memory, records) = fresh();
    memory.write("elsewhere", "theirs").expect("written");
    memory.write("pourwright", "theirs").expect("written");
    records.remember("last", "a").expect("kept");
    assert_eq!(records.remembered("last"), Some("a".to_owned()));
    assert_eq!(records.list(), Ok(Vec::new()));
    assert_eq!(records.purge(u64::MAX), Ok(0));
    assert_eq!(memory.read("elsewhere"), Ok(Some("theirs".to_owned())));
    assert_eq!(Records::about("pourwright/job/a/b"), About::Job("a/b".to_owned()));
    assert_eq!(Records::about("pourwright/bags"), About::Bags);
    assert_eq!(Records::about("pourwright/prices"), About::Prices);
    assert_eq!(Records::about("pourwright/index"), About::Other);
}

#[test]
fn importing_never_replaces() {
    let (_, records) = fresh();
    let job = plain("a", "Island");
    assert_eq!(records.import(&job, "x", 10), Ok(Imported::Added { id: "a".to_owned() }));
    assert_eq!(records.import(&job, "x", 20), Ok(Imported::AlreadyHere { id: "a".to_owned() }));
    let other = renamed(&job, "Bar");
    assert_eq!(records.import(&other, "b", 30), Ok(Imported::Copied { id: "b".to_owned() }));
    assert_eq!(records.import(&other, "c", 40), Ok(Imported::AlreadyHere { id: "b".to_owned() }));
    assert_eq!(names(&records, ""), ["Bar (imported)", "Island"]);
    for id in ["", "../a", "a b", "ä", &"x".repeat(65)] {
        let (_, records) = fresh();
        let strange = plain(id, "Strange");
        assert_eq!(records.import(&strange, "n", 10), Ok(Imported::Copied { id: "n".to_owned() }), "{id}");
    }
}

#[test]
fn a_backup_brings_everything_to_another_browser() {
    let (memory, records) = fresh();
    let (island, bar) = (plain("a", "Island"), plain("b", "Bar"));
    records.save(&island, None, 10).expect("saved");
    records.save(&bar, None, 20).expect("saved");
    records.save_bags(&[bag("white"), bag("grey")], None, 10).expect("saved");
    records.save_prices(&prices(&[("white", "20"), ("grey", "6")]), None, 10).expect("saved");
    memory.write("pourwright/job/torn", "{\"format\":").expect("written");
    let backup = records.backup().expect("a backup");
    assert_eq!(backup.unreadable, [Raw { key: "pourwright/job/torn".to_owned(), text: "{\"format\":".to_owned() }]);

    let (_, other) = fresh();
    other.save(&renamed(&bar, "Another bar"), None, 1).expect("saved");
    other
        .save_bags(&[bag("white"), pourwright::job::Bag { mass: "20 kg".into(), ..bag("grey") }], None, 1)
        .expect("saved");
    other.save_prices(&prices(&[("white", "25")]), None, 1).expect("saved");
    let mut count = 0;
    let mut new_id = || {
        count += 1;
        format!("new-{count}")
    };
    let report = other.import_backup(&backup, &mut new_id, 100);
    let added = Ok(Imported::Added { id: "a".to_owned() });
    let copied = Ok(Imported::Copied { id: "new-1".to_owned() });
    assert_eq!(report.jobs, [("Island".to_owned(), added), ("Bar".to_owned(), copied)]);
    assert_eq!(report.bags, Ok(1));
    assert_eq!(report.prices, Ok(PricesImported { added: 1, left_out: 1 }));
    assert_eq!(report.set_aside, Ok(1));
    assert_eq!(other.load("b").expect("loaded").content.name, Entry::new("Another bar"));
    assert_eq!(other.set_aside().expect("aside")[0].text, "{\"format\":");

    // Once more adds nothing.
    let before = other.backup().expect("a backup");
    let again = other.import_backup(&backup, &mut new_id, 200);
    assert!(again.jobs.iter().all(|(_, job)| matches!(job, Ok(Imported::AlreadyHere { .. }))), "{again:?}");
    assert_eq!((again.bags, again.set_aside), (Ok(0), Ok(0)));
    assert_eq!(again.prices, Ok(PricesImported { added: 0, left_out: 1 }));
    assert_eq!(other.backup(), Ok(before));
    // At home there is nothing to do at all.
    let home = records.import_backup(&backup, &mut new_id, 300);
    assert_eq!((home.bags, home.set_aside, records.backup()), (Ok(0), Ok(0), Ok(backup)));
}

/// What must still be there, by what the session was told.
#[derive(Default)]
struct Promised {
    jobs: Vec<(Job, Option<Stamp>)>,
    deleted: Vec<(String, Job)>,
    torn: Vec<String>,
    bags: Option<Vec<pourwright::job::Bag>>,
}

impl Promised {
    fn saved(&mut self, job: &Job, stamp: Option<Stamp>) {
        self.jobs.retain(|(there, _)| there.id != job.id);
        self.jobs.push((job.clone(), stamp));
    }

    fn stamp(&self, id: &str) -> Option<Stamp> {
        self.jobs.iter().find(|(job, _)| job.id == id).and_then(|(_, stamp)| stamp.clone())
    }

    fn check(&self, backend: &dyn Backend, records: &Records, step: &str) {
        let list = records.list().expect("a list");
        for (job, _) in &self.jobs {
            assert_eq!(records.load(&job.id).map(|loaded| loaded.content).as_ref(), Ok(job), "{step}");
            assert!(list.iter().any(|line| line.id == job.id && line.name == job.name.text()), "{step}");
        }
        let deleted = records.deleted().expect("a list");
        for (key, job) in &self.deleted {
            assert!(deleted.iter().any(|line| line.key == *key && line.name == job.name.text()), "{step}");
        }
        let texts = everything(backend);
        for torn in &self.torn {
            assert!(texts.iter().any(|(_, text)| text == torn), "{step}: {torn} is gone");
        }
        if let Some(bags) = &self.bags {
            let stored = records.load_bags().ok().flatten().map(|loaded| loaded.content);
            assert_eq!(stored.as_ref(), Some(bags), "{step}");
        }
    }
}

/// A session with every kind of change. After each step, all that was promised is still there.
/// Says how many changes it made.
fn run_session(backend: &Arc<Flaky>) -> usize {
    let records = Records::new(backend.clone(), "tab");
    let mut promised = Promised::default();
    // Two torn records from before, put in behind the counter.
    for (key, text) in [("pourwright/job/t", "torn one"), ("pourwright/bags", "torn two")] {
        backend.inner.write(key, text).expect("memory");
        promised.torn.push(text.to_owned());
    }
    let (a, b, t) = (plain("a", "A"), plain("b", "B"), plain("t", "T"));
    for (step, job) in [("first", &a), ("second", &b), ("change", &renamed(&a, "A2")), ("over torn", &t)] {
        let based_on = promised.stamp(&job.id);
        if let Ok(stamp) = records.save(job, based_on.as_ref(), 10) {
            promised.saved(job, Some(stamp));
        }
        promised.check(&**backend, &records, step);
    }
    let bags = vec![bag("white")];
    if records.save_bags(&bags, None, 20).is_ok() {
        promised.bags = Some(bags);
    }
    promised.check(&**backend, &records, "bags");
    if let Ok(copy) = records.duplicate("a", "d", 30) {
        promised.saved(&copy.content, Some(copy.stamp));
    }
    promised.check(&**backend, &records, "duplicate");
    if let Ok(deleted) = records.delete("b", 40) {
        let at = promised.jobs.iter().position(|(job, _)| job.id == "b").expect("it was saved");
        let (job, _) = promised.jobs.remove(at);
        promised.deleted.push((deleted.key, job));
    }
    promised.check(&**backend, &records, "delete");
    if let Some((key, job)) = promised.deleted.first().cloned()
        && let Ok(id) = records.undo_delete(&key, "u")
    {
        promised.deleted.clear();
        promised.saved(&Job { id, ..job }, None);
    }
    promised.check(&**backend, &records, "undo");
    let foreign = renamed(&a, "A3");
    if let Ok(Imported::Copied { id } | Imported::Added { id }) = records.import(&foreign, "i", 50) {
        let content = records.load(&id).expect("it was just imported").content;
        promised.saved(&content, None);
    }
    promised.check(&**backend, &records, "import");
    drop(records.purge(60));
    promised.check(&**backend, &records, "purge");
    // The store works again: whatever failed can be done now.
    backend.healed.store(true, Ordering::Relaxed);
    for (job, _) in promised.jobs.clone() {
        let stamp = records.load(&job.id).expect("still there").stamp;
        let touched = renamed(&job, "after");
        records.save(&touched, Some(&stamp), 70).expect("saved");
        promised.saved(&touched, None);
    }
    promised.check(&**backend, &records, "after");
    backend.changes.load(Ordering::Relaxed)
}

#[test]
fn whichever_change_fails_nothing_saved_is_lost() {
    let changes = run_session(&Arc::new(Flaky::new(usize::MAX, false, Trouble::Full)));
    assert!(changes > 20, "the session makes {changes} changes only");
    for fail_at in 0..changes {
        for for_good in [false, true] {
            for trouble in [Trouble::Full, Trouble::Blocked, Trouble::Other("disk".to_owned())] {
                run_session(&Arc::new(Flaky::new(fail_at, for_good, trouble)));
            }
        }
    }
}

#[test]
fn a_full_store_can_still_be_emptied() {
    let backend = Arc::new(Flaky::new(2, true, Trouble::Full));
    let records = Records::new(backend.clone(), "tab");
    records.save(&plain("a", "A"), None, 10).expect("saved");
    assert_eq!(records.delete("a", 20), Err(LoadError::Trouble(Trouble::Full)));
    assert!(records.load("a").is_ok());
    backend.healed.store(true, Ordering::Relaxed);
    assert_eq!(records.erase("a"), Ok(()));
    assert_eq!(records.load("a"), Err(LoadError::Missing));
}

/// What may happen to a text.
fn damage(text: &str, at: usize, how: u8) -> String {
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
    let place = places[at % places.len()];
    match how {
        0 => text[..place].to_owned(),
        1 => text[place..].to_owned(),
        2 => String::new(),
        3 => newer(text),
        bit => {
            let flip = |letter: char| char::from_u32(u32::from(letter) ^ (1 << (bit - 4))).unwrap_or('\u{fffd}');
            text.char_indices().map(|(at, letter)| if at == place { flip(letter) } else { letter }).collect()
        }
    }
}

proptest! {
    #[test]
    fn a_damaged_record_costs_no_other_and_is_never_overwritten(
        which in 0_usize..5,
        at in any::<usize>(),
        how in 0_u8..11,
    ) {
        let (memory, records) = fresh();
        let jobs = [plain("a", "A"), plain("b", "B"), plain("c", "C")];
        let stamps = jobs.clone().map(|job| records.save(&job, None, 10).expect("saved"));
        let bags = records.save_bags(&[bag("white")], None, 10).expect("saved");
        let book = prices(&[("white", "20")]);
        let priced = records.save_prices(&book, None, 10).expect("saved");
        let keys = ["pourwright/job/a", "pourwright/job/b", "pourwright/job/c", "pourwright/bags", "pourwright/prices"];
        let damaged = damage(&memory.read(keys[which]).expect("readable").expect("there"), at, how);
        memory.write(keys[which], &damaged).expect("written");

        let list = records.list().expect("a list");
        prop_assert_eq!(list.len(), 3);
        for (index, job) in jobs.iter().enumerate() {
            let line = list.iter().find(|line| line.id == job.id).expect("every job is listed");
            let loaded = records.load(&job.id);
            prop_assert_eq!(line.problem.is_some(), loaded.is_err());
            if index != which {
                prop_assert_eq!(loaded.map(|loaded| loaded.content), Ok(job.clone()));
            }
        }
        let readable = match which {
            3 => records.load_bags().is_ok(),
            4 => records.load_prices().is_ok(),
            job => records.load(&jobs[job].id).is_ok(),
        };
        let backup = records.backup().expect("a backup");
        prop_assert_eq!(backup.unreadable.iter().any(|raw| raw.text == damaged), !readable);

        // Whoever was editing it goes on.
        let saved = match which {
            3 => records.save_bags(&[bag("grey")], Some(&bags), 20),
            4 => records.save_prices(&prices(&[]), Some(&priced), 20),
            job => records.save(&renamed(&jobs[job], "edited"), Some(&stamps[job]), 20),
        };
        if !readable || saved.is_err() {
            prop_assert!(everything(&*memory).iter().any(|(_, text)| *text == damaged));
        }
        // Damage may make a version that is still to come of the one that is.
        let known = [file::VERSION, file::VERSION, file::VERSION, 4, 2][which];
        let is_newer = (known + 1..=9).any(|version| damaged.contains(&format!("\"version\":{version}")));
        prop_assert!(how != 3 || is_newer);
        if is_newer {
            prop_assert!(matches!(saved, Err(SaveError::Newer(_))));
            prop_assert_eq!(memory.read(keys[which]), Ok(Some(damaged)));
        } else if !readable {
            prop_assert!(saved.is_ok());
        }
    }
}
