//! What it costs to work out the geometry of a top again, as happens at every key: the form's offset,
//! areas, centre and all rails. A six-corner piece with four cutouts must stay far under a millisecond,
//! also in a browser, where it takes two to three times as long.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use kurbo::{Point, Vec2};
use pourwright::plane::{Opening, Outline, rails};
use std::f64::consts::TAU;
use std::hint::black_box;

/// Everything that is worked out of a piece and its openings, as one number.
fn recompute(outline: &Outline, openings: &[Opening]) -> f64 {
    let form = outline.offset_sides(&|side| if side % 2 == 0 { 0.02 } else { 0.015 }).expect("nothing is swallowed");
    let cutouts: Vec<_> = openings.iter().map(|opening| opening.offset(0.003).expect("grows")).collect();
    let left = outline.area() - cutouts.iter().map(Opening::area).sum::<f64>();
    let rails = rails(outline, &cutouts);
    let radius = cutouts.iter().filter_map(Opening::least_inside_radius).map(|least| least.0).fold(1.0, f64::min);
    left + form.area()
        + form.perimeter()
        + outline.centroid().x
        + radius
        + rails.first().map_or(0.0, |rail| rail.gap.distance)
}

/// The usual openings in turn, in a row.
fn openings(count: usize, first: Point, apart: f64) -> Vec<Opening> {
    (0..count)
        .map(|index| {
            let center = first + Vec2::new(apart * index as f64, 0.0);
            let size = apart * 0.7;
            match index % 4 {
                0 => Opening::rounded_rectangle(center, size, 0.33, size * 0.1).expect("a bowl"),
                1 => Opening::ellipse(center, size, 0.3, 0.0).expect("a bowl"),
                2 => Opening::d_shape(center, size, 0.35, 0.03).expect("a bowl"),
                _ => Opening::circle(center, size.min(0.3)).expect("a hole"),
            }
        })
        .collect()
}

/// A round top with that many corners, every fourth one rounded.
fn many_corners(count: usize) -> Outline {
    let corner = |index: usize| {
        let towards = Vec2::from_angle(index as f64 / count as f64 * TAU + 0.3);
        (Point::new(1.6, 0.5) + 2.4 * towards, if index % 4 == 1 { 0.02 } else { 0.0 })
    };
    Outline::rounded_polygon(&(0..count).map(corner).collect::<Vec<_>>()).expect("a round top")
}

fn geometry(criterion: &mut Criterion) {
    let piece = Outline::l_shape(3.2, 1.6, 0.65, 0.65).expect("an L").rounded(3, 0.05).expect("fits");
    let four = openings(4, Point::new(0.45, 0.32), 0.7);
    criterion.bench_function("six corners, four cutouts", |bench| {
        bench.iter(|| recompute(black_box(&piece), black_box(&four)));
    });
    let mut growth = criterion.benchmark_group("corners, with four cutouts");
    for count in [4, 8, 16, 32, 64] {
        let outline = many_corners(count);
        growth.bench_with_input(BenchmarkId::from_parameter(count), &outline, |bench, outline| {
            bench.iter(|| recompute(black_box(outline), black_box(&four)));
        });
    }
    growth.finish();
    let mut growth = criterion.benchmark_group("cutouts, in a rectangle");
    for count in [1, 2, 4, 8, 16] {
        let outline = Outline::rectangle(0.6 * count as f64 + 0.4, 0.65).expect("a rectangle");
        let cutouts = openings(count, Point::new(0.5, 0.32), 0.6);
        growth.bench_with_input(BenchmarkId::from_parameter(count), &cutouts, |bench, cutouts| {
            bench.iter(|| recompute(black_box(&outline), black_box(cutouts)));
        });
    }
    growth.finish();
}

criterion_group!(benches, geometry);
criterion_main!(benches);
