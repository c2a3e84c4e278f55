//! Tops out of square, turned over their long edge.

use kurbo::Point;
use pourwright::measure::Units;
use pourwright::measure::exact::{inches, pounds_a_cubic_foot, psi};
use pourwright::plane::Outline;
use pourwright::strength::bearing::BearingError;
use pourwright::strength::cases::{Ages, LoadAssumptions, LoadCase, Slab, SupportKind, cases};
use pourwright::strength::concrete::Concrete;
use pourwright::strength::mesh::MeshSize;
use pourwright::strength::study::{Study, StudyError};
use proptest::prelude::*;

/// As fine as the page's at corners, and coarser elsewhere.
const GRAIN: MeshSize = MeshSize { fine: 0.0127, coarse: 0.06, growth: 0.3, most_nodes: 700 };

/// Four corners of a rectangle, each moved up to 3 in either way.
fn askew() -> impl Strategy<Value = Slab> {
    let moved = prop::array::uniform8(-3.0..3.0_f64);
    (30.0..100.0_f64, 14.0..30.0_f64, 1.0..2.5_f64, moved).prop_map(|(width, depth, thickness, moved)| {
        let corners = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)];
        let at = |(corner, by): ((f64, f64), &[f64])| {
            let at = Point::new(inches(corner.0 + by[0]).value, inches(corner.1 + by[1]).value);
            (at, 0.0)
        };
        let corners: Vec<_> = corners.into_iter().zip(moved.chunks(2)).map(at).collect();
        let outline = Outline::rounded_polygon(&corners).expect("four corners");
        Slab { outline, openings: Vec::new(), cutouts: 0, thickness: inches(thickness) }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// The bench bears the edge that the top has, so that what is found always balances.
    #[test]
    fn a_top_out_of_square_is_always_turned_over(slab in askew()) {
        let young = Concrete { strength: psi(2000.0), flexural: None, density: pounds_a_cubic_foot(140.0) };
        let ages = Ages { stripping: young, handling: young, in_use: young };
        let all = cases(&slab, &ages, &LoadAssumptions::usual(&slab));
        let turned = all.iter().find(|case| case.kind == LoadCase::TurnedOnEdge).expect("a case");
        let mut study = Study::new(&slab, std::slice::from_ref(turned), &GRAIN).expect("a mesh");
        let found = study.work_out(0, Units::Inch);
        prop_assert!(!matches!(found, Err(StudyError::Bearing(BearingError::OutOfBalance))), "no balance");
        let outcome = match found {
            Ok(outcome) => outcome,
            Err(why) => return Err(TestCaseError::fail(format!("{why:?}"))),
        };
        prop_assert!(outcome.imbalance < 1e-8, "out of balance by {}", outcome.imbalance);
        let bench = outcome.reactions.iter().find(|one| one.bears == SupportKind::Bench).expect("the bench");
        prop_assert!((0.05..0.95).contains(&bench.share), "the bench bears {}", bench.share);
    }
}
