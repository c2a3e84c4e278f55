//! What it takes to read whatever is read, and to work a job out, by size up to its limit: nothing may freeze the page.

use criterion::measurement::WallTime;
use criterion::{BenchmarkGroup, BenchmarkId, Criterion, criterion_group, criterion_main};
use pourwright::estimate::estimate;
use pourwright::job::file::{MOST_BYTES, MOST_MEMBERS, MOST_OPENINGS, read, read_kept, write, write_kept};
use pourwright::job::{Bag, Cutout, Job};
use pourwright::measure::{Units, read_length};
use pourwright::price::{Good, PriceBook};
use pourwright::store::{
    Backup, Gist, Memory, Raw, Records, Sheet, backup_page, find_link, read_link, read_shared, share_link, share_page,
};
use std::hint::black_box;
use std::sync::Arc;
use std::time::Duration;

#[path = "jobs.rs"]
mod jobs;

/// A job of so many pieces, its file filled up with notes to that size if it is smaller.
fn job_of(pieces: usize, bytes: usize) -> Job {
    let mut job = jobs::counters(pieces);
    let missing = bytes.saturating_sub(write(&job).len() + 1);
    job.notes = "n".repeat(missing).as_str().into();
    job
}

fn by_size<T>(
    group: &mut BenchmarkGroup<'_, WallTime>,
    what: &str,
    sizes: &[usize],
    make: impl Fn(usize) -> T,
    act: impl Fn(&T),
) {
    for size in sizes {
        let made = make(*size);
        group.bench_function(BenchmarkId::new(what, size), |bench| bench.iter(|| act(black_box(&made))));
    }
}

fn shelf(jobs: usize, notes: &str) -> (Records, Backup) {
    let records = Records::new(Arc::new(Memory::default()), "bench");
    let mut backup = Backup::default();
    for index in 0..jobs {
        let job = Job { id: format!("job{index}"), ..jobs::counters(1) };
        records.save(&job, None, 1).expect("saved");
        backup.jobs.push(Job { notes: notes.into(), ..job });
    }
    (records, backup)
}

fn take_in(records: &Records, backup: &Backup) {
    let mut count = 0;
    let mut new_id = || {
        count += 1;
        format!("new{count}")
    };
    records.import_backup(backup, &mut new_id, 2);
}

fn readers(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("reading");
    group.sample_size(10).warm_up_time(Duration::from_millis(200)).measurement_time(Duration::from_secs(1));
    let kib = [16, 128, MOST_BYTES >> 10];
    by_size(
        &mut group,
        "a length, characters",
        &[8, 64],
        |size| format!("{:>size$}", "67 1/4"),
        |text| {
            let _ = black_box(read_length(text, Units::Inch));
        },
    );
    by_size(
        &mut group,
        "a job's file, KiB",
        &kib,
        |kib| write(&job_of((kib / 8).min(MOST_MEMBERS), kib << 10)),
        |text| {
            read(text).expect("its own file");
        },
    );
    by_size(
        &mut group,
        "a shared page, KiB",
        &kib[..2],
        |kib| share_page(&job_of(2, kib << 10), &Sheet::default()),
        |text| {
            read_shared(text).expect("its own page");
        },
    );
    by_size(
        &mut group,
        "a page of <script>, KiB",
        &[16, 1024, 32 << 10],
        |kib| "<script>".repeat(kib << 7),
        |text| {
            let _ = black_box(read_shared(text));
        },
    );
    by_size(
        &mut group,
        "a link, pieces",
        &[1, 10, 50],
        |pieces| share_link(&jobs::counters(pieces), "").expect("it fits"),
        |link| {
            read_link(find_link(link).expect("a link")).expect("its own link");
        },
    );
    let book = |goods: usize| PriceBook {
        goods: (0..goods).map(|good| Good { id: format!("good{good}"), ..Good::default() }).collect(),
        ..PriceBook::default()
    };
    by_size(
        &mut group,
        "a price book, goods",
        &[40, 4_000],
        |goods| write_kept(&book(goods), ""),
        |text| {
            read_kept::<PriceBook>(text, &[]).expect("its own file");
        },
    );
    by_size(
        &mut group,
        "a shelf of bags, bags",
        &[10, 1_000],
        |bags| write_kept(&vec![Bag::default(); bags], ""),
        |text| {
            read_kept::<Vec<Bag>>(text, &[]).expect("its own file");
        },
    );
    by_size(
        &mut group,
        "what cannot be read, KiB",
        &kib,
        |kib| write(&job_of(1, kib << 10)),
        |text| {
            black_box(Gist::of(text));
        },
    );
    let shelves = [10, 160, 1_000];
    by_size(
        &mut group,
        "the list of the shelf, jobs",
        &shelves,
        |jobs| shelf(jobs, "").0,
        |records| {
            records.list().expect("memory");
        },
    );
    by_size(
        &mut group,
        "a search of the shelf, jobs",
        &shelves,
        |jobs| shelf(jobs, "").0,
        |records| {
            records.search("counter").expect("memory");
        },
    );
    by_size(
        &mut group,
        "a backup, jobs",
        &shelves,
        |jobs| backup_page(&shelf(jobs, "").1, ""),
        |text| {
            read_shared(text).expect("its own page");
        },
    );
    by_size(
        &mut group,
        "a backup over changed jobs, jobs",
        &shelves,
        |jobs| shelf(jobs, "changed"),
        |(records, backup)| {
            take_in(records, backup);
        },
    );
    let raw = |index: usize| Raw { key: "pourwright/job/broken".to_owned(), text: format!("broken {index}") };
    let broken = |records: usize| Backup { unreadable: (0..records).map(raw).collect(), ..Backup::default() };
    by_size(&mut group, "unreadable records, records", &[20, 2_000], broken, |backup| {
        take_in(&Records::new(Arc::new(Memory::default()), "bench"), backup);
    });
    group.finish();
}

/// So many small cutouts in as few pieces as hold them, apart or all in one place.
fn with_cutouts(count: usize, apart: bool) -> Job {
    let mut job = jobs::counters(1);
    let first = job.pieces[0].clone();
    let pieces = count.div_ceil(MOST_MEMBERS);
    let cutout = |at: usize| {
        let (across, along) = if apart { (4 + 3 * (at % 20), 3 + 3 * (at / 20)) } else { (30, 10) };
        Cutout {
            width: "1/4".into(),
            depth: "1/4".into(),
            from_left: across.to_string().as_str().into(),
            from_front: along.to_string().as_str().into(),
            ..Cutout::default()
        }
    };
    job.pieces = vec![first; pieces];
    for piece in &mut job.pieces {
        piece.holes.clear();
        piece.cutouts = (0..count / pieces).map(cutout).collect();
    }
    job
}

fn estimates(criterion: &mut Criterion) {
    let prices = PriceBook::default();
    let mut group = criterion.benchmark_group("working out");
    group.sample_size(10).warm_up_time(Duration::from_millis(200)).measurement_time(Duration::from_secs(1));
    let work = |job: &Job| drop(black_box(estimate(job, &prices)));
    by_size(&mut group, "pieces", &[1, 10, MOST_MEMBERS], jobs::counters, work);
    by_size(&mut group, "cutouts apart", &[10, 100, MOST_OPENINGS], |count| with_cutouts(count, true), work);
    by_size(&mut group, "cutouts in one place", &[10, 100, MOST_OPENINGS], |count| with_cutouts(count, false), work);
    group.finish();
}

criterion_group!(benches, readers, estimates);
criterion_main!(benches);
