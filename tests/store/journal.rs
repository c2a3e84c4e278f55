//! A battery that dies: local storage goes back to an earlier moment, the journal stands, and nothing is lost.

use crate::jobs::{bag, plain};
use pourwright::job::{Bag, Job};
use pourwright::store::{Backend, CaughtUp, Entry, Journal, Journalled, Memory, Records, Trouble};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

/// A database of entries, as several tabs see it.
#[derive(Default)]
struct Disk(Mutex<BTreeMap<String, String>>);

impl Disk {
    fn entries(&self) -> Vec<Entry> {
        let all = self.0.lock().expect("whole");
        all.values().map(|text| Entry::unpacked(text).expect("an entry")).collect()
    }
}

impl Journal for Disk {
    fn note(&self, entry: Entry) {
        let mut all = self.0.lock().expect("whole");
        let there = all.get(&entry.key).and_then(|text| Entry::unpacked(text));
        if there.is_none_or(|there| entry.follows(&there)) {
            all.insert(entry.key.clone(), entry.packed());
        }
    }
}

/// Local storage that remembers each of its states: a crash leaves one of them.
#[derive(Default)]
struct Lagging {
    now: Memory,
    states: Mutex<Vec<BTreeMap<String, String>>>,
}

impl Lagging {
    fn mark(&self) {
        let all = self.now.keys().expect("keys").into_iter();
        let state = all.map(|key| (key.clone(), self.now.read(&key).expect("readable").expect("there"))).collect();
        self.states.lock().expect("whole").push(state);
    }

    /// As it is found after a crash that lost so many writes.
    fn crashed(&self, lost: usize) -> Arc<Memory> {
        let states = self.states.lock().expect("whole");
        let left = states.len().checked_sub(lost + 1).and_then(|index| states.get(index)).cloned().unwrap_or_default();
        let memory = Memory::default();
        for (key, text) in left {
            memory.write(&key, &text).expect("written");
        }
        Arc::new(memory)
    }
}

impl Backend for Lagging {
    fn read(&self, key: &str) -> Result<Option<String>, Trouble> {
        self.now.read(key)
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Trouble> {
        self.now.write(key, text)?;
        self.mark();
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), Trouble> {
        self.now.remove(key)?;
        self.mark();
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, Trouble> {
        self.now.keys()
    }
}

fn workshop() -> (Arc<Lagging>, Arc<Disk>, Records) {
    let (kept, disk) = (Arc::new(Lagging::default()), Arc::new(Disk::default()));
    kept.mark();
    let records = Records::new(Arc::new(Journalled::new(kept.clone(), disk.clone())), "tab");
    (kept, disk, records)
}

/// The records after a crash that lost so many writes, and what catching up told.
fn after_a_crash(kept: &Lagging, disk: &Arc<Disk>, lost: usize) -> (Records, CaughtUp) {
    let left = kept.crashed(lost);
    let records = Records::new(left, "after");
    let entries = disk.entries();
    let told = records.catch_up(&entries, &**disk, &mut new_ids(), 99_000).expect("a store");
    (records, told)
}

fn new_ids() -> impl FnMut() -> String {
    let mut next = 0;
    move || {
        next += 1;
        format!("new-{next}")
    }
}

/// Every job by id, as it is read.
fn jobs(records: &Records) -> BTreeMap<String, Job> {
    let all = records.list().expect("a list").into_iter();
    all.map(|line| (line.id.clone(), records.load(&line.id).expect("readable").content)).collect()
}

#[test]
fn what_local_storage_lost_is_brought_back_and_named() {
    let (kept, disk, records) = workshop();
    let job = plain("a", "Harrow Lane");
    let stamp = records.save(&job, None, 10).expect("saved");
    let mut later = job.clone();
    later.client = "R. Ansel".into();
    records.save(&later, Some(&stamp), 20).expect("saved");
    // The whole of it is gone.
    let (found, told) = after_a_crash(&kept, &disk, 1000);
    assert_eq!(told.brought_back, ["Harrow Lane"]);
    assert_eq!(found.load("a").expect("it is there").content, later);
    // The last change alone is gone.
    let (found, told) = after_a_crash(&kept, &disk, 1);
    assert_eq!(
        (told.brought_back, told.changed),
        (vec!["Harrow Lane".to_owned()], vec!["pourwright/job/a".to_owned()])
    );
    assert_eq!(found.load("a").expect("it is there").content, later);
    // Nothing is gone, and nothing is told.
    let (_, told) = after_a_crash(&kept, &disk, 0);
    assert_eq!(told, CaughtUp::default());
}

/// An older page, or a journal that failed for a while: local storage is ahead, and the journal learns of it.
#[test]
fn a_journal_that_is_behind_overwrites_nothing() {
    let (kept, disk, records) = workshop();
    let mut job = plain("a", "Harrow Lane");
    let stamp = records.save(&job, None, 10).expect("saved");
    let without = Records::new(kept.clone(), "an older page");
    job.client = "R. Ansel".into();
    without.save(&job, Some(&stamp), 20).expect("saved");
    without.save(&plain("b", "Mill Row"), None, 30).expect("saved");
    let (found, told) = after_a_crash(&kept, &disk, 0);
    assert_eq!(told, CaughtUp::default());
    assert_eq!(found.load("a").expect("there").content, job);
    assert_eq!(disk.entries().len(), 2, "it knows both now");
    // What the older page deleted does not come back.
    without.delete("a", 40).expect("deleted");
    let (found, told) = after_a_crash(&kept, &disk, 0);
    assert_eq!(told, CaughtUp::default());
    assert_eq!(found.list().expect("a list").len(), 1);
    // Nor does it once it is gone from among the deleted ones for good.
    let key = without.deleted().expect("deleted").remove(0).key;
    kept.remove(&key).expect("removed");
    let (found, _) = after_a_crash(&kept, &disk, 0);
    assert_eq!(found.list().expect("a list").len(), 1);
}

#[test]
fn two_that_were_saved_over_the_same_state_are_both_kept() {
    let (kept, disk, records) = workshop();
    let job = plain("a", "Harrow Lane");
    let stamp = records.save(&job, None, 10).expect("saved");
    let [mut one, mut other] = [job.clone(), job.clone()];
    one.client = "one".into();
    other.client = "other".into();
    // Both tabs read the record before either wrote; the journal heard of the first of them first.
    let earlier = kept.crashed(0);
    records.save(&one, Some(&stamp), 20).expect("saved");
    let tab = Records::new(earlier.clone(), "other tab");
    tab.save(&other, Some(&stamp), 20).expect("saved");
    let text = earlier.read("pourwright/job/a").expect("readable").expect("there");
    let entry = Entry { key: "pourwright/job/a".to_owned(), text: text.clone(), removed: false };
    assert!(!entry.follows(&disk.entries()[0]), "the second of them has lost");
    kept.write("pourwright/job/a", &text).expect("written");
    // It gives way while it runs.
    let first = disk.entries().remove(0);
    records.give_way(&first, &text, 50).expect("a store");
    assert_eq!(records.load("a").expect("there").content, one);
    assert_eq!(records.set_aside().expect("a list"), []);
    // It was killed before that: both are there.
    kept.write("pourwright/job/a", &text).expect("written");
    let (found, _) = after_a_crash(&kept, &disk, 0);
    let all = jobs(&found);
    assert_eq!(all["a"], one);
    assert_eq!(all["new-1"].client.text(), "other");
    assert_eq!(all.len(), 2);
}

/// Bags that were saved over the same state: the first ones count, and the others go into the next backup.
#[test]
fn bags_that_came_second_are_set_aside() {
    let (kept, disk, records) = workshop();
    let stamp = records.save_bags(&[bag("a")], None, 10).expect("saved");
    let earlier = kept.crashed(0);
    records.save_bags(&[bag("a"), bag("first")], Some(&stamp), 20).expect("saved");
    let tab = Records::new(earlier.clone(), "other tab");
    tab.save_bags(&[bag("a"), bag("second")], Some(&stamp), 20).expect("saved");
    let text = earlier.read("pourwright/bags").expect("readable").expect("there");
    kept.write("pourwright/bags", &text).expect("written");
    let first = disk.entries().remove(0);
    assert!(!Entry { text: text.clone(), ..first.clone() }.follows(&first));
    records.give_way(&first, &text, 50).expect("a store");
    let bags = records.load_bags().expect("readable").expect("there").content;
    assert!(bags.iter().any(|bag| bag.id == "first") && bags.iter().all(|bag| bag.id != "second"));
    assert!(records.set_aside().expect("a list").iter().any(|raw| raw.text == text));
}

/// A battery died, and bags were kept before the journal was asked what was lost: the shelf has the bags of both, and
/// both of two that differ under one id.
#[test]
fn bags_that_were_kept_after_a_dead_battery_stand_beside_those_before_it() {
    let (kept, disk, records) = workshop();
    let stamp = records.save_bags(&[bag("a")], None, 10).expect("saved");
    let corrected = Bag { name: "a, corrected".into(), ..bag("a") };
    let stamp = records.save_bags(&[corrected.clone(), bag("before")], Some(&stamp), 20).expect("saved");
    let _ = records.save_bags(&[corrected.clone(), bag("before"), bag("last")], Some(&stamp), 30).expect("saved");
    // Of the three saves the first alone is left; after that one more, or two.
    for saves in 1..=2 {
        let left = kept.crashed(2);
        let found = Records::new(left, "after");
        let mut shelf = vec![bag("a")];
        for save in 0..saves {
            shelf.push(bag(&format!("after-{save}")));
            let stamp = found.load_bags().expect("readable").expect("there").stamp;
            found.save_bags(&shelf, Some(&stamp), 40 + save).expect("saved");
        }
        let told = found.catch_up(&disk.entries(), &Disk::default(), &mut new_ids(), 99_000).expect("a store");
        let bags = found.load_bags().expect("readable").expect("there").content;
        let mut names: Vec<_> = bags.iter().map(|bag| bag.name.text().to_owned()).collect();
        names.sort();
        let mut wanted = vec!["a", "a, corrected", "before", "last"];
        let after = ["after-0", "after-1"];
        wanted.extend(&after[..saves as usize]);
        wanted.sort_unstable();
        assert_eq!(told.brought_back, ["Your bags"], "{saves}");
        assert_eq!(names, wanted, "{saves}");
        assert_eq!(found.set_aside().expect("a list"), [], "nothing had to be set aside");
    }
}

#[test]
fn what_cannot_be_read_is_set_aside_and_a_newer_one_is_left() {
    let (kept, disk, records) = workshop();
    let job = plain("a", "Harrow Lane");
    records.save(&job, None, 10).expect("saved");
    kept.write("pourwright/job/a", "{\"sum\":1,torn").expect("written");
    let (found, told) = after_a_crash(&kept, &disk, 0);
    assert_eq!(told.brought_back, ["Harrow Lane"]);
    assert_eq!(found.load("a").expect("there").content, job);
    assert!(found.set_aside().expect("a list").iter().any(|raw| raw.text.ends_with("torn")));
    let newer = r#"{"format":"pourwright job","version":99,"job":{}}"#;
    kept.write("pourwright/job/a", newer).expect("written");
    let (found, told) = after_a_crash(&kept, &disk, 0);
    assert_eq!(told.brought_back, [""; 0]);
    assert_eq!(found.raw("a").expect("readable").as_deref(), Some(newer));
    // An entry that cannot be read does nothing.
    for text in ["", "+", "?pourwright/job/a\n{}", "+pourwright/job/a\n{\"sum\":3,\"a\":1}"] {
        if let Some(entry) = Entry::unpacked(text) {
            let told = found.catch_up(&[entry], &*disk, &mut new_ids(), 5).expect("a store");
            assert_eq!(told, CaughtUp::default(), "{text}");
        }
    }
    assert_eq!(found.raw("a").expect("readable").as_deref(), Some(newer));
}

/// A job was deleted and came in again from a file: it counts its saves from one anew, and is not lost to what stood
/// under its name before.
#[test]
fn what_came_in_again_under_its_name_is_kept_whatever_is_lost() {
    for lost in 0..8 {
        let (kept, disk, records) = workshop();
        let mut job = plain("a", "Harrow Lane");
        let stamp = records.save(&job, None, 10).expect("saved");
        job.client = "before".into();
        records.save(&job, Some(&stamp), 20).expect("saved");
        records.delete("a", 30).expect("deleted");
        job.client = "after".into();
        records.save(&job, None, 40).expect("saved");
        let (found, _) = after_a_crash(&kept, &disk, lost);
        let clients: Vec<_> = jobs(&found).values().map(|job| job.client.text().to_owned()).collect();
        assert!(clients.contains(&"after".to_owned()), "{lost} lost: {clients:?}");
    }
}

/// One thing that a maker does.
#[derive(Clone, Debug)]
enum Act {
    New(u8),
    Type(u8, u8),
    Delete(u8),
    Undo,
    Copy(u8),
    Bags(u8),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        2 => (0_u8..4).prop_map(Act::New),
        6 => (0_u8..4, any::<u8>()).prop_map(|(job, text)| Act::Type(job, text)),
        2 => (0_u8..4).prop_map(Act::Delete),
        1 => Just(Act::Undo),
        1 => (0_u8..4).prop_map(Act::Copy),
        1 => any::<u8>().prop_map(Act::Bags),
    ]
}

proptest! {
    /// Whatever a maker did before the battery died, and however far local storage is behind.
    #[test]
    fn after_any_crash_everything_is_as_it_was(acts in prop::collection::vec(act(), 1..40), lost in 0_usize..80) {
        let (kept, disk, records) = workshop();
        let mut used = std::collections::BTreeSet::new();
        for (at, act) in (0_u64..).zip(&acts) {
            let now = 1000 + at * 10;
            let id = |job: &u8| format!("job-{job}");
            // What cannot be done now, as to delete what is not there, changes nothing.
            match act {
                // The page names every job by chance, and none twice.
                Act::New(job) if !used.insert(*job) => {}
                Act::New(job) => drop(records.save(&plain(&id(job), &format!("Job {job}")), None, now)),
                Act::Type(job, text) => {
                    if let Ok(mut loaded) = records.load(&id(job)) {
                        loaded.content.client = text.to_string().as_str().into();
                        records.save(&loaded.content, Some(&loaded.stamp), now).expect("saved");
                    }
                }
                Act::Delete(job) => drop(records.delete(&id(job), now)),
                Act::Undo => {
                    if let Some(gone) = records.deleted().expect("a list").first() {
                        records.undo_delete(&gone.key, &format!("back-{at}")).expect("back");
                    }
                }
                Act::Copy(job) => drop(records.duplicate(&id(job), &format!("copy-{at}"), now)),
                Act::Bags(name) => {
                    let stamp = records.load_bags().expect("readable").map(|loaded| loaded.stamp);
                    records.save_bags(&[bag(&name.to_string())], stamp.as_ref(), now).expect("saved");
                }
            }
        }
        let (found, _) = after_a_crash(&kept, &disk, lost);
        // By name and client: whole jobs would be told by the page.
        let short = |records: &Records| {
            let all = jobs(records).into_iter();
            all.map(|(id, job)| (id, job.name.text().to_owned(), job.client.text().to_owned())).collect::<Vec<_>>()
        };
        prop_assert_eq!(short(&found), short(&records));
        prop_assert!(jobs(&found) == jobs(&records));
        prop_assert_eq!(found.load_bags(), records.load_bags());
        let deleted = |records: &Records| {
            let all = records.deleted().expect("a list").into_iter();
            all.map(|gone| (gone.id, gone.name)).collect::<std::collections::BTreeSet<_>>()
        };
        let (before, after) = (deleted(&records), deleted(&found));
        prop_assert!(before.is_subset(&after), "{before:?} {after:?}");
        // Once more, and nothing is left to do.
        let again = found.catch_up(&disk.entries(), &*disk, &mut new_ids(), 99_500).expect("a store");
        prop_assert_eq!(again, CaughtUp::default());
    }
}
