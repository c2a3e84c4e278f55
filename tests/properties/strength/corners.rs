//! Where the worst place of a top with sharp inside corners is said to lie.

use super::net::usual;
use kurbo::Point;
use pourwright::measure::Units;
use pourwright::measure::exact::{inches, pounds_a_cubic_foot, psi};
use pourwright::plane::{Opening, Outline};
use pourwright::strength::ask::{Later, Question};
use pourwright::strength::cases::{Ages, Case, LoadAssumptions, Slab, cases};
use pourwright::strength::concrete::Concrete;
use pourwright::strength::mesh::MeshSize;
use pourwright::strength::outcome::WorstLocation;
use pourwright::strength::remedy::{Change, remedies};
use pourwright::strength::study::Study;
use pourwright::top::Facing;
use proptest::prelude::*;

/// As fine as the page's at corners, and coarser elsewhere.
const GRAIN: MeshSize = MeshSize { fine: 0.0127, coarse: 0.06, growth: 0.3, most_nodes: 900 };

fn all_cases(slab: &Slab) -> Vec<Case> {
    let of = |strength| Concrete { strength: psi(strength), flexural: None, density: pounds_a_cubic_foot(140.0) };
    let ages = Ages { stripping: of(2000.0), handling: of(3500.0), in_use: of(5000.0) };
    cases(slab, &ages, &LoadAssumptions::usual(slab))
}

/// A top of the usual kinds whose cutouts all have sharp corners.
fn sharp() -> impl Strategy<Value = Slab> {
    usual().prop_filter_map("has no cutout", |mut slab| {
        for opening in &mut slab.openings {
            let bounds = opening.bounds();
            *opening = Opening::rounded_rectangle(bounds.center(), bounds.width(), bounds.height(), 0.0).ok()?;
        }
        (!slab.openings.is_empty()).then_some(slab)
    })
}

/// How far a place is from the edge of an upright rectangle.
fn from_edge(opening: &Opening, at: Point) -> f64 {
    let bounds = opening.bounds();
    let out =
        (bounds.x0 - at.x).max(at.x - bounds.x1).max(0.0).hypot((bounds.y0 - at.y).max(at.y - bounds.y1).max(0.0));
    let within = (at.x - bounds.x0).min(bounds.x1 - at.x).min(at.y - bounds.y0).min(bounds.y1 - at.y);
    if out > 0.0 { out } else { within.abs() }
}

/// 61 × 22 × 1 1/2 in, a sink of 18 × 16 in with square corners in its middle: what is worst lies at its corner, and is
/// helped by rounding it.
#[test]
fn a_square_corner_that_is_worst_is_named_and_rounded() {
    let sink = Opening::rounded_rectangle(
        Point::new(inches(30.5).value, inches(11.0).value),
        inches(18.0).value,
        inches(16.0).value,
        0.0,
    );
    let slab = Slab {
        outline: Outline::rectangle(inches(61.0).value, inches(22.0).value).expect("a rectangle"),
        openings: vec![sink.expect("a sink")],
        cutouts: 1,
        thickness: inches(1.5),
    };
    let all = all_cases(&slab);
    let mut study = Study::new(&slab, &all[..1], &MeshSize::default()).expect("a mesh");
    let worst = study.work_out(0, Units::Inch).expect("it is borne").worst.expect("it is pulled");
    assert!(from_edge(&slab.openings[0], worst.at) < inches(1.5).value, "{worst:?}");
    assert!(worst.sharp, "{worst:?}");
    assert!(
        matches!(worst.beside, WorstLocation::Rail { opening: 0, other: None, look: Facing::Front | Facing::Back }),
        "{worst:?}"
    );
    let question = Question {
        slab,
        names: Vec::new(),
        cases: all,
        units: Units::Inch,
        later: Later::default(),
        dug_out: Vec::new(),
    };
    let found = remedies(&question, 0, &MeshSize::default()).expect("it can be worked out");
    let rounded = found.iter().any(|one| matches!(one.change, Change::CornerRadius { opening: 0, .. }));
    assert!(rounded, "{found:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A place within one thickness of a cutout's edge is never told as away from any cutout.
    #[test]
    fn at_a_sharp_corner_is_not_the_middle(slab in sharp()) {
        let all = all_cases(&slab);
        let Ok(mut study) = Study::new(&slab, &all, &GRAIN) else { return Ok(()) };
        for (index, case) in all.iter().enumerate() {
            let Ok(outcome) = study.work_out(index, Units::Inch) else { continue };
            let Some(worst) = outcome.worst else { continue };
            let nearest = slab.openings.iter().map(|one| from_edge(one, worst.at)).fold(f64::INFINITY, f64::min);
            if nearest < 0.999 * slab.thickness.value {
                prop_assert!(worst.beside != WorstLocation::Middle, "{:?} at {:?}: {nearest}", case.kind, worst.at);
            }
        }
    }
}
