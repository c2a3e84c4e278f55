//! What it costs to work out all usual cases of a top with two sinks and six faucet holes: mesh, assembly,
//! factors, solutions, reading. Figures are read, never asserted. In a browser it takes one and a half to two
//! times as long.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use kurbo::Point;
use pourwright::measure::Units;
use pourwright::measure::exact::{inches, pounds_a_cubic_foot, psi};
use pourwright::plane::{Opening, Outline};
use pourwright::strength::cases::{Ages, Case, LoadAssumptions, Slab, cases};
use pourwright::strength::concrete::Concrete;
use pourwright::strength::mesh::{Mesh, MeshSize};
use pourwright::strength::plate::Plate;
use pourwright::strength::study::Study;
use std::hint::black_box;

fn metres(inches: f64) -> f64 {
    inches * 0.0254
}

/// 72 × 22 × 1 1/2 in, two sinks with rounded corners, three faucet holes behind each.
fn slab() -> Slab {
    let outline = Outline::rectangle(metres(72.0), metres(22.0)).expect("a rectangle");
    let sink = |x: f64| {
        let center = Point::new(metres(x), metres(10.5));
        Opening::rounded_rectangle(center, metres(18.0), metres(13.0), metres(2.0)).expect("a sink")
    };
    let mut openings = vec![sink(19.0), sink(53.0)];
    for x in [19.0, 53.0] {
        for shift in [-4.0, 0.0, 4.0] {
            let center = Point::new(metres(x + shift), metres(19.25));
            openings.push(Opening::circle(center, metres(1.375)).expect("a hole"));
        }
    }
    Slab { outline, openings, cutouts: 2, thickness: inches(1.5) }
}

fn usual(slab: &Slab) -> Vec<Case> {
    let of = |strength| Concrete { strength: psi(strength), flexural: None, density: pounds_a_cubic_foot(135.0) };
    let ages = Ages { stripping: of(2500.0), handling: of(4000.0), in_use: of(5000.0) };
    cases(slab, &ages, &LoadAssumptions::usual(slab))
}

/// So much coarser than usual.
fn grain(factor: f64) -> MeshSize {
    let usual = MeshSize::default();
    MeshSize { fine: usual.fine * factor, coarse: usual.coarse * factor, most_nodes: 30_000, ..usual }
}

fn guides(cases: &[Case]) -> Vec<[Point; 2]> {
    cases.iter().flat_map(|case| case.supports.iter().map(|support| support.line)).collect()
}

fn all_cases(slab: &Slab, cases: &[Case], grain: &MeshSize) -> f64 {
    let mut study = Study::new(slab, cases, grain).expect("a mesh");
    let worked = (0..cases.len()).map(|case| study.work_out(case, Units::Inch).expect("holds").utilization);
    worked.sum()
}

fn strength(criterion: &mut Criterion) {
    let slab = slab();
    let cases = usual(&slab);
    let guides = guides(&cases);
    for factor in [1.2, 1.0, 0.75, 0.4] {
        let grain = grain(factor);
        let mesh = Mesh::of(&slab.outline, &slab.openings, &guides, &[], &grain).expect("a mesh");
        let nodes = mesh.nodes.len();
        let mut group = criterion.benchmark_group(format!("{nodes} nodes"));
        group.sample_size(10);
        let mut measure = |name: &str, work: &mut dyn FnMut() -> f64| {
            group.bench_with_input(BenchmarkId::from_parameter(name), &(), |bench, ()| {
                bench.iter(|| black_box(work()));
            });
        };
        measure("mesh", &mut || {
            Mesh::of(&slab.outline, &slab.openings, &guides, &[], &grain).map_or(0.0, |mesh| mesh.area())
        });
        measure("order and assembly", &mut || {
            Plate::new(mesh.clone(), 0.2).map_or(0.0, |plate| plate.system().len() as f64)
        });
        let plate = Plate::new(mesh.clone(), 0.2).expect("small");
        let springs: Vec<_> = mesh.loops.first().into_iter().flatten().map(|node| (3 * node, 1e7)).collect();
        let loose = plate.system().factor(&springs);
        assert!(loose.is_ok());
        measure("factor", &mut || f64::from(u8::from(plate.system().factor(&springs).is_ok())));
        measure("all cases", &mut || all_cases(&slab, &cases, &grain));
        measure("first case", &mut || {
            let mut study = Study::new(&slab, &cases, &grain).expect("a mesh");
            study.work_out(0, Units::Inch).map_or(0.0, |outcome| outcome.utilization)
        });
        group.finish();
    }
}

criterion_group!(benches, strength);
criterion_main!(benches);
