//! What it costs to lay parts out on sheets. The page does it beside the maker's typing: 40 parts must take
//! under 100 ms in a browser on a slow machine, where it takes about three times as long as here.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use pourwright::measure::{Length, exact::inches};
use pourwright::sheet::{Effort, Part, Stock, Supply, lay_out};
use std::hint::black_box;

/// The parts of so many forms, four sides and a base each, no two alike.
fn parts(forms: usize) -> Vec<Part> {
    let part = |width: f64, length: f64| Part { width: inches(width), length: inches(length), may_turn: true };
    (0..forms)
        .flat_map(|form| {
            let (width, depth) = (24.0 + (form * 29 % 70) as f64, 14.0 + (form * 5 % 16) as f64);
            [part(width, depth), part(width, 2.75), part(width, 2.75), part(depth, 2.75), part(depth, 2.75)]
        })
        .collect()
}

fn sheets(criterion: &mut Criterion) {
    let bought = Stock { width: inches(49.0), length: inches(97.0), supply: Supply::ToBuy };
    let off_cut = |width, length| Stock { width: inches(width), length: inches(length), supply: Supply::AtHand(1) };
    let stock = [bought];
    let with_off_cuts = [bought, off_cut(20.0, 97.0), off_cut(30.0, 30.0), off_cut(12.0, 60.0)];
    let lay = |parts: &[Part], stock: &[Stock], steps: u64| {
        lay_out(parts, stock, inches(0.125), inches(6.0), Effort { steps })
    };
    let mut group = criterion.benchmark_group("sheets");
    group.sample_size(20);
    for forms in [1, 2, 4, 8, 16] {
        let parts = parts(forms);
        group.bench_with_input(BenchmarkId::new("parts", parts.len()), &parts, |bench, parts| {
            bench.iter(|| lay(black_box(parts), &stock, Effort::default().steps));
        });
    }
    let forty = parts(8);
    group.bench_function("40 parts, off-cuts at hand", |bench| {
        bench.iter(|| lay(black_box(&forty), &with_off_cuts, Effort::default().steps));
    });
    group.bench_function("40 parts, plain ways only", |bench| bench.iter(|| lay(black_box(&forty), &stock, 0)));
    // A pinwheel needs two sheets and no bound says so: the whole budget is used.
    let pinwheel: Vec<Part> = [(3.0, 2.0); 4]
        .into_iter()
        .chain([(1.0, 1.0)])
        .map(|(width, length)| Part { width: inches(width), length: inches(length), may_turn: true })
        .collect();
    let small = [Stock { width: inches(5.0), length: inches(5.0), supply: Supply::ToBuy }];
    group.bench_function("the whole budget, 5 parts", |bench| {
        bench.iter(|| lay_out(black_box(&pinwheel), &small, Length::default(), Length::default(), Effort::default()));
    });
    // Eight over half a sheet's area of strips fill sheets but for a sliver.
    let tight: Vec<Part> = (0..40)
        .map(|index| Part { width: inches(48.0), length: inches(9.0 + f64::from(index % 5)), may_turn: true })
        .collect();
    group.bench_function("40 parts that nearly fill their sheets", |bench| {
        bench.iter(|| lay(black_box(&tight), &stock, Effort::default().steps));
    });
    group.finish();
}

criterion_group!(benches, sheets);
criterion_main!(benches);
