//! What one key costs before anything is drawn, and how it grows with the job: the whole estimate, the plan of a
//! piece, and the file of the job written and read.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use pourwright::draw::{Face, plan};
use pourwright::estimate::estimate;
use pourwright::job::file::{read, write};
use pourwright::price::PriceBook;
use std::hint::black_box;

#[path = "jobs.rs"]
mod jobs;

fn bench(criterion: &mut Criterion) {
    let prices = PriceBook::default();
    let mut group = criterion.benchmark_group("key");
    for pieces in [1, 3, 10] {
        let job = jobs::counters(pieces);
        group.bench_with_input(BenchmarkId::new("estimate", pieces), &job, |bencher, job| {
            bencher.iter(|| estimate(black_box(job), &prices));
        });
    }
    let job = jobs::counters(1);
    let all = estimate(&job, &prices);
    group.bench_function("plan", |bencher| {
        bencher.iter(|| plan(black_box(&all.pieces[0]), &job.pieces[0], job.units, Face::Installed, None));
    });
    group.finish();
    let mut group = criterion.benchmark_group("file");
    for pieces in [1, 3, 10] {
        let job = jobs::counters(pieces);
        let text = write(&job);
        group.bench_with_input(BenchmarkId::new("write", pieces), &job, |bencher, job| {
            bencher.iter(|| write(black_box(job)));
        });
        group.bench_with_input(BenchmarkId::new("read", pieces), &text, |bencher, text| {
            bencher.iter(|| read(black_box(text)).expect("its own file"));
        });
    }
    group.finish();
}

criterion_group!(benches, bench);
criterion_main!(benches);
