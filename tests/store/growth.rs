//! What is read and worked out grows no faster than its size, but for a logarithm: counted where it can be, else timed
//! within one run, and then held to so much that no machine's noise matters.

use crate::jobs::plain;
use pourwright::estimate::estimate;
use pourwright::job::file::{self, Kept, MOST_MEMBERS, read_kept};
use pourwright::job::{Additive, Bag, Cutout, DefectEntry, HolePattern, Holes, Job, Layer, Spell, StrengthPoint};
use pourwright::mix::demo;
use pourwright::price::{Good, PriceBook};
use pourwright::store::{
    Backend, Backup, Gist, Imported, Memory, Opened, Progress, Raw, Records, Sheet, Trouble, backup_page, find_link,
    open_shared, read_link, read_shared, share_page,
};
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// What a reader or a sum may take over its share, times the logarithm of how much more there is.
const SLACK: f64 = 8.0;

/// The least of a few runs.
fn best(mut act: impl FnMut()) -> Duration {
    let run = |act: &mut dyn FnMut()| {
        let begun = Instant::now();
        act();
        begun.elapsed()
    };
    (0..3).map(|_| run(&mut act)).min().unwrap_or_default()
}

/// `act` on what is made of `large` takes no longer than `large / small` times what it takes of `small`.
fn grows<T>(what: &str, [small, large]: [usize; 2], make: impl Fn(usize) -> T, act: impl Fn(&T)) {
    let [few, many] = [make(small), make(large)];
    let (usual, taken) = (best(|| act(&few)), best(|| act(&many)));
    let times = large as f64 / small as f64;
    // A time too short to be told is as good as a tenth of a millisecond.
    let allowed = usual.max(Duration::from_micros(100)).mul_f64(times * times.log2() * SLACK);
    assert!(taken <= allowed, "{what}: {small} take {usual:?}, {large} take {taken:?}, more than {allowed:?}");
}

fn texts(what: &str, make: impl Fn(usize) -> String) {
    grows(what, [1_000, 100_000], make, |text| {
        let _ = black_box(read_shared(text));
        let _ = black_box(find_link(text).map(read_link));
        black_box(Gist::of(text));
    });
}

#[test]
fn a_shared_text_of_anything_is_read_in_its_time() {
    let repeated = [
        "<script>",
        "<script></script>",
        "<script id=pourwright>",
        "<SCRIPT",
        ">",
        "{\"a\":",
        "[",
        "\u{feff}",
        "#/link/1.",
        " #/link/1.",
        "\"",
        "\\",
    ];
    for unit in repeated {
        texts(unit, |count| unit.repeat(count));
        texts(&format!("{{{unit}"), |count| format!("{{{}", unit.repeat(count)));
        texts(&format!("an element of {unit}"), |count| {
            format!("<script id=\"pourwright-job\">{}</script>", unit.repeat(count))
        });
    }
}

#[test]
fn a_file_of_anything_is_read_in_its_time() {
    let text = file::write(&demo("large"));
    let with = |field: &'static str, more: fn(usize) -> String| {
        let text = text.clone();
        move |count: usize| text.replacen(field, &format!("{field}{}", more(count)), 1)
    };
    let unknown = with("\"job\":{", |count| (0..count).map(|name| format!("\"a{name}\":1,")).collect());
    let wrong = with("\"pieces\":[", |count| "[],".repeat(count));
    let ticks = with("\"ticks\":[", |count| format!("{}\"x\"", "\"x\",".repeat(count)));
    let read = |text: &String| drop(black_box(read_kept::<Job>(text, &[]).map_err(|why| why.to_string())));
    grows("fields that are not known", [500, 50_000], unknown, read);
    grows("members that are wrong", [1_000, 100_000], wrong, read);
    grows("members that are too many", [1_000, 100_000], ticks, read);
    let notes = |count: usize| Job { notes: "ü<&\n".repeat(count).as_str().into(), ..demo("large") };
    grows("notes", [1_000, 100_000], notes, |job| drop(black_box(read_shared(&share_page(job, &Sheet::default())))));
}

/// A store that counts what is read.
#[derive(Default)]
struct Counted {
    inner: Memory,
    reads: AtomicUsize,
}

impl Backend for Counted {
    fn read(&self, key: &str) -> Result<Option<String>, Trouble> {
        self.reads.fetch_add(1, Ordering::Relaxed);
        self.inner.read(key)
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Trouble> {
        self.inner.write(key, text)
    }

    fn remove(&self, key: &str) -> Result<(), Trouble> {
        self.inner.remove(key)
    }

    fn keys(&self) -> Result<Vec<String>, Trouble> {
        self.inner.keys()
    }
}

/// A shelf with so many jobs, and a backup of the same ones with other notes.
fn changed(count: usize) -> (Records, Arc<Counted>, Backup) {
    let counted = Arc::new(Counted::default());
    let records = Records::new(Arc::clone(&counted) as Arc<dyn Backend>, "tab");
    let mut backup = Backup::default();
    for job in 0..count {
        let job = plain(&format!("job{job}"), &format!("Job {job}"));
        records.save(&job, None, 1).expect("saved");
        backup.jobs.push(Job { notes: "changed".into(), ..job });
    }
    (records, counted, backup)
}

fn ids() -> impl FnMut() -> String {
    let mut count = 0;
    move || {
        count += 1;
        format!("new{count}")
    }
}

#[test]
fn a_backup_over_changed_jobs_reads_every_record_once() {
    for count in [10, 160] {
        let (records, counted, backup) = changed(count);
        counted.reads.store(0, Ordering::Relaxed);
        let found = records.import_backup(&backup, &mut ids(), 2);
        assert!(found.jobs.iter().all(|(_, became)| matches!(became, Ok(Imported::Copied { .. }))), "{found:?}");
        // Its own record, that record once more among all, and the place of the copy.
        let reads = counted.reads.load(Ordering::Relaxed);
        assert!(reads <= 4 * count + 10, "{count} jobs took {reads} reads");
        // Once more there is nothing to add, and each copy is found.
        counted.reads.store(0, Ordering::Relaxed);
        let again = records.import_backup(&backup, &mut ids(), 3);
        assert!(again.jobs.iter().all(|(_, became)| matches!(became, Ok(Imported::AlreadyHere { .. }))), "{again:?}");
        let reads = counted.reads.load(Ordering::Relaxed);
        assert!(reads <= 5 * count + 10, "{count} jobs took {reads} reads the second time");
        assert_eq!(records.list().expect("a list").len(), 2 * count);
    }
}

#[test]
fn unreadable_records_are_set_aside_without_reading_each_other() {
    for count in [20, 2_000] {
        let counted = Arc::new(Counted::default());
        let records = Records::new(Arc::clone(&counted) as Arc<dyn Backend>, "tab");
        let raw = |index: usize| Raw { key: "pourwright/job/broken".to_owned(), text: format!("broken {index}") };
        let backup = Backup { unreadable: (0..count).map(raw).collect(), ..Backup::default() };
        let found = records.import_backup(&backup, &mut ids(), 2);
        assert_eq!(found.set_aside, Ok(count));
        let reads = counted.reads.load(Ordering::Relaxed);
        assert!(reads <= 3 * count + 10, "{count} records took {reads} reads");
        assert_eq!(records.set_aside().expect("aside").len(), count);
        assert_eq!(records.import_backup(&backup, &mut ids(), 3).set_aside, Ok(0));
    }
}

#[test]
fn bags_and_deleted_jobs_take_their_time() {
    let shelf = |count: usize| Backup {
        bags: Some((0..count).map(|bag| Bag { id: format!("bag{bag}"), ..Bag::default() }).collect()),
        ..Backup::default()
    };
    grows("bags", [10, 1_000], shelf, |backup| {
        let records = Records::new(Arc::new(Memory::default()), "tab");
        assert!(records.import_backup(backup, &mut ids(), 1).bags.is_ok());
        assert!(records.import_backup(backup, &mut ids(), 1).bags.is_ok());
    });
    let deleted = |count: usize| {
        let memory = Memory::default();
        for job in 0..count {
            memory.write(&format!("pourwright/deleted/1/job{job}"), "broken").expect("memory");
        }
        Records::new(Arc::new(memory), "tab")
    };
    const DAY: u64 = 24 * 60 * 60 * 1000;
    grows("deleted jobs", [20, 2_000], deleted, |records| {
        records.purge(40 * DAY).expect("marked");
        records.purge(40 * DAY + 1).expect("marked still");
    });
}

#[test]
fn a_backup_comes_in_step_by_step_and_what_is_in_stays() {
    let (_, _, backup) = changed(40);
    let Ok(Opened::Backup(opened)) = open_shared(&backup_page(&backup, "")) else { panic!("a backup is opened") };
    let records = Records::new(Arc::new(Memory::default()), "tab");
    let mut arriving = records.take_in(*opened);
    assert_eq!(arriving.progress(), Progress { done: 0, all: 40 });
    for step in 1..=12 {
        assert!(arriving.step(&mut ids(), 1));
        assert_eq!(arriving.progress(), Progress { done: step, all: 40 });
    }
    let found = arriving.finish(&mut ids(), 1);
    assert_eq!((found.jobs.len(), found.not_taken), (12, 28));
    assert_eq!(records.list().expect("a list").len(), 12);
}

/// Bags and prices are the last to come in, and stay out with what was stopped.
#[test]
fn the_bags_and_prices_of_a_backup_come_in_once_all_its_jobs_are() {
    let (_, _, mut backup) = changed(3);
    backup.bags = Some(demo("bags").bags);
    backup.prices = Some(PriceBook::default());
    for steps in 0..=3 {
        let page = backup_page(&backup, "");
        let Ok(Opened::Backup(opened)) = open_shared(&page) else { panic!("a backup is opened") };
        let records = Records::new(Arc::new(Memory::default()), "tab");
        let mut arriving = records.take_in(*opened);
        for _ in 0..steps {
            arriving.step(&mut ids(), 1);
        }
        assert!(records.load_bags().expect("a shelf").is_none() && records.load_prices().expect("prices").is_none());
        let found = arriving.finish(&mut ids(), 1);
        assert_eq!((found.not_taken, found.bags.is_ok(), found.prices.is_ok()), (3 - steps, true, true));
        let bags = records.load_bags().expect("a shelf").map(|loaded| loaded.content);
        let prices = records.load_prices().expect("prices").map(|loaded| loaded.content);
        let both = (backup.bags.clone(), backup.prices.clone());
        assert_eq!((bags, prices), if steps == 3 { both } else { (None, None) });
    }
}

/// A job is stopped while copies of it are looked for.
#[test]
fn a_stop_among_copies_counts_what_was_left_out() {
    let (records, _, backup) = changed(10);
    let Ok(Opened::Backup(opened)) = open_shared(&backup_page(&backup, "")) else { panic!("a backup is opened") };
    let mut arriving = records.take_in(*opened);
    let mut new_id = ids();
    for _ in 0..23 {
        assert!(arriving.step(&mut new_id, 1));
    }
    let found = arriving.finish(&mut new_id, 1);
    assert!(found.not_taken > 0 && found.jobs.len() + found.not_taken == 10, "{found:?}");
    assert_eq!(records.list().expect("a list").len(), 10 + found.jobs.len());
}

/// The worked job with so many small cutouts in one place.
fn in_one_place(cutouts: usize) -> Job {
    let mut job = demo("large");
    let cutout = Cutout { width: "1/4".into(), depth: "1/4".into(), ..job.pieces[0].cutouts[0].clone() };
    job.pieces[0].cutouts = vec![cutout; cutouts];
    job
}

#[test]
fn a_job_is_worked_out_in_its_time() {
    let prices = PriceBook::default();
    let work = |job: &Job| drop(black_box(estimate(job, &prices)));
    let list = |change: fn(&mut Job, usize)| {
        move |count: usize| {
            let mut job = demo("large");
            change(&mut job, count);
            job
        }
    };
    grows("cutouts in one place", [10, MOST_MEMBERS], in_one_place, work);
    let holes = list(|job, count| {
        let set = Holes { pattern: HolePattern::Three, diameter: "1".into(), spread: "8".into(), ..Holes::default() };
        job.pieces[0].holes = vec![Holes { from_left: "20".into(), from_front: "5".into(), ..set }; count];
    });
    grows("holes in one place", [10, MOST_MEMBERS], holes, work);
    let pieces = list(|job, count| job.pieces = vec![job.pieces[0].clone(); count]);
    grows("pieces", [5, MOST_MEMBERS], pieces, work);
    // Nothing is written in them, so that each is waited for.
    let blank = list(|job, count| {
        job.form.layers = vec![Layer::default(); count];
        job.pour.garage = vec![Spell::default(); count];
        job.finish.defects = vec![DefectEntry::default(); count];
        job.bags[0].additives = vec![Additive::default(); count];
        job.bags[0].strengths = vec![StrengthPoint::default(); count];
    });
    grows("blank lines", [50, 5_000], blank, work);
}

#[test]
fn a_book_of_many_prices_is_read_in_its_time() {
    let job = demo("large");
    let book = |count: usize| PriceBook {
        goods: (0..count).map(|good| Good { id: format!("good{good}"), ..Good::default() }).collect(),
        ..PriceBook::default()
    };
    grows("prices", [40, 4_000], book, |prices| drop(black_box(estimate(&job, prices))));
}

/// A name stands in every sentence about its piece.
#[test]
fn a_long_name_is_not_said_in_full_each_time() {
    let mut job = in_one_place(MOST_MEMBERS);
    job.pieces = vec![job.pieces[0].clone(); 2];
    job.pieces.iter_mut().for_each(|piece| piece.name = "N".repeat(100_000).as_str().into());
    let known = estimate(&job, &PriceBook::default());
    let needs = known.headline.bags.as_ref().expect_err("cutouts run into each other");
    let said: usize = needs.needs().iter().map(|need| need.says.write(pourwright::measure::Units::Inch).len()).sum();
    assert!(said < 1_000 * needs.needs().len(), "{said} bytes are said");
    assert!(known.findings.iter().all(|finding| finding.says.write(&job).len() < 2_000));
    // And no more of them than anybody reads: three of each cutout.
    assert!(needs.needs().len() <= 2 * 3 * MOST_MEMBERS, "{}", needs.needs().len());
    assert!(known.findings.len() <= 4 * 3 * MOST_MEMBERS, "{}", known.findings.len());
}

#[test]
fn what_is_too_large_still_tells_its_name_and_values() {
    let mut job = demo("large");
    job.pieces = vec![job.pieces[0].clone(); MOST_MEMBERS + 1];
    assert!(job.too_many().is_some());
    let gist = Gist::of(&file::write(&job));
    assert_eq!((gist.name.as_str(), gist.client.as_str()), (job.name.text(), job.client.text()));
    let width = ("pieces 1, width".to_owned(), job.pieces[0].width.text().to_owned());
    assert!(gist.values.contains(&width), "{:?}", &gist.values[..20]);
    assert!(gist.more > 0);
    assert_eq!(Gist::of("{\"format\":"), Gist::default());
}
