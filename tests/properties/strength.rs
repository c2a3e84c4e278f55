//! What must hold for every top that is worked out as a plate.

mod askew;
mod corners;
mod net;
mod tops;

use kurbo::{Point, Vec2};
use pourwright::measure::Units;
use pourwright::measure::exact::{inches, pounds_a_cubic_foot, psi};
use pourwright::plane::{Opening, Outline};
use pourwright::strength::cases::{Ages, Load, LoadAssumptions, Slab, cases};
use pourwright::strength::concrete::Concrete;
use pourwright::strength::limits::GRAVITY;
use pourwright::strength::mesh::{Mesh, MeshSize};
use pourwright::strength::study::{Study, StudyError};
use proptest::prelude::*;
use std::f64::consts::TAU;

/// A rectangle, an L, a circle, a D, or corners at rising angles around a point.
fn outline() -> impl Strategy<Value = Outline> {
    let sizes = (0.3..2.5_f64, 0.2..1.0_f64, 0.2..0.9_f64, 0.2..0.9_f64);
    let corners = prop::collection::vec((0.3..1.2_f64, 0.0..0.6_f64, -0.2..0.2_f64), 3..8);
    (0..5_u8, sizes, corners).prop_filter_map("crosses itself", |(kind, (width, depth, leg, front), corners)| {
        let part = TAU / corners.len() as f64;
        let corner = |(index, (reach, shift, bulge)): (usize, &(f64, f64, f64))| {
            ((*reach * Vec2::from_angle((index as f64 + shift) * part)).to_point(), *bulge)
        };
        match kind {
            0 => Outline::rectangle(width, depth).ok(),
            1 => Outline::l_shape(width, depth, leg * width, front * depth).ok(),
            2 => Outline::circle(Point::new(0.5, 0.5), depth).ok(),
            3 => Outline::d_shape(width, depth, 0.01).ok(),
            _ => Outline::with_arcs(&corners.iter().enumerate().map(corner).collect::<Vec<_>>()).ok(),
        }
    })
}

/// An opening somewhere in the upright rectangle around an outline, by shares of it.
fn opening(outline: &Outline, (kind, x, y, width, depth): (u8, f64, f64, f64, f64)) -> Option<Opening> {
    let bounds = outline.bounds();
    let center = Point::new(bounds.x0 + x * bounds.width(), bounds.y0 + y * bounds.height());
    match kind {
        0 => Opening::rounded_rectangle(center, width, depth, 0.0).ok(),
        1 => Opening::rounded_rectangle(center, width, depth, 0.2 * width.min(depth)).ok(),
        2 => Opening::ellipse(center, width, depth, x).ok(),
        _ => Opening::circle(center, 0.035).ok(),
    }
}

fn slab() -> impl Strategy<Value = Slab> {
    let place = (0..4_u8, 0.0..1.0_f64, 0.0..1.0_f64, 0.05..0.5_f64, 0.05..0.4_f64);
    (outline(), prop::collection::vec(place, 0..4), 0.5..4.0_f64).prop_map(|(outline, places, thickness)| {
        let openings: Vec<_> = places.into_iter().filter_map(|place| opening(&outline, place)).collect();
        let cutouts = openings.len();
        Slab { outline, openings, cutouts, thickness: inches(thickness) }
    })
}

fn ages() -> Ages {
    let of = |strength| Concrete { strength: psi(strength), flexural: None, density: pounds_a_cubic_foot(140.0) };
    Ages { stripping: of(2000.0), handling: of(3500.0), in_use: of(5000.0) }
}

/// Coarse, to try many.
const GRAIN: MeshSize = MeshSize { fine: 0.03, coarse: 0.08, growth: 0.3, most_nodes: 1200 };

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// A mesh covers the top and nothing else, none of its triangles is turned over, and it is the same again.
    #[test]
    fn meshes_cover_the_top(slab in slab(), line in prop::collection::vec((-1.0..3.0_f64, -1.0..2.0_f64), 4)) {
        let at = |index: usize| Point::from(line[index]);
        let guides = [[at(0), at(1)], [at(2), at(3)], [at(0), at(0)]];
        let Ok(mesh) = Mesh::of(&slab.outline, &slab.openings, &guides, &[], &GRAIN) else { return Ok(()) };
        let area = slab.outline.area() - slab.openings.iter().map(Opening::area).sum::<f64>();
        // Chords cut off a little of every arc.
        prop_assert!((mesh.area() - area).abs() < 0.03 * slab.outline.area(), "{} {area}", mesh.area());
        for [a, b, c] in &mesh.triangles {
            let [a, b, c] = [mesh.nodes[*a], mesh.nodes[*b], mesh.nodes[*c]];
            prop_assert!((b - a).cross(c - a) > 0.0);
            let middle = (a.to_vec2() + b.to_vec2() + c.to_vec2()) / 3.0;
            let (_, near) = slab.outline.nearest(middle.to_point());
            let inside = slab.outline.contains(middle.to_point()) || (near - middle.to_point()).hypot() < 0.01;
            prop_assert!(inside);
        }
        prop_assert_eq!(Mesh::of(&slab.outline, &slab.openings, &guides, &[], &GRAIN), Ok(mesh));
    }

    /// Every case is worked out or says why not; what bears, bears all of it, and nothing pulls.
    #[test]
    fn what_bears_bears_all(slab in slab()) {
        let cases = cases(&slab, &ages(), &LoadAssumptions::usual(&slab));
        let mut study = match Study::new(&slab, &cases, &GRAIN) {
            Ok(study) => study,
            Err(refusal) => {
                prop_assert!(matches!(refusal, StudyError::Mesh(_)), "{refusal:?}");
                return Ok(());
            }
        };
        for (index, case) in cases.iter().enumerate() {
            let outcome = match study.work_out(index, Units::Inch) {
                Ok(outcome) => outcome,
                Err(StudyError::Bearing(_) | StudyError::LoadOutside) => continue,
                Err(refusal) => return Err(TestCaseError::fail(format!("{:?}: {refusal:?}", case.kind))),
            };
            prop_assert!(outcome.imbalance < 1e-8);
            let force = |load: &Load| match load {
                Load::Patch { force, .. } | Load::Rim { force, .. } => force.value,
            };
            // A person is on one of his places at a time.
            let person = case.seats.first().map_or(0.0, |seat| force(&seat.load));
            let besides = case.loads.iter().map(force).sum::<f64>() + person;
            let weight = study.mesh().area() * slab.thickness.value * case.concrete.density.value * GRAVITY;
            let bears: f64 = outcome.reactions.iter().map(|reaction| reaction.force.value).sum();
            let whole = weight * case.multiplier + besides;
            prop_assert!((bears - whole).abs() < 1e-6 * whole, "{:?}: {bears} {whole}", case.kind);
            prop_assert!(outcome.reactions.iter().all(|reaction| reaction.force.value > -1e-9 * whole));
            prop_assert!(outcome.utilization.is_finite() && outcome.utilization >= 0.0);
            if let Some((sag, _)) = outcome.deflection {
                prop_assert!(sag.value > 0.0 && outcome.drawn.top.len() == study.mesh().nodes.len());
            }
        }
    }
}

/// Coarser still: of these there are hundreds. `cargo run --release --example plate_jobs tops 10000` tries as many as one
/// likes on the mesh that the page uses.
const ROUGH: MeshSize = MeshSize { fine: 0.05, coarse: 0.15, growth: 0.4, most_nodes: 300 };

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Whatever is drawn is worked out, or it is said why not.
    #[test]
    fn any_top_is_worked_out_or_refused(slab in tops::rough()) {
        match tops::work_out(&slab, &ROUGH) {
            Ok(_) | Err(Ok(StudyError::Mesh(_))) => {}
            Err(Ok(refusal)) => return Err(TestCaseError::fail(format!("{refusal:?}"))),
            Err(Err(wrong)) => return Err(TestCaseError::fail(wrong)),
        }
    }
}
