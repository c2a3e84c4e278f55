//! The worst net cut by hand against the map.

use kurbo::Point;
use pourwright::measure::Units;
use pourwright::measure::exact::{inches, pounds_a_cubic_foot, psi};
use pourwright::plane::{Opening, Outline};
use pourwright::strength::cases::{Ages, Case, LoadAssumptions, LoadCase, Slab, Support, SupportKind, cases};
use pourwright::strength::concrete::Concrete;
use pourwright::strength::mesh::MeshSize;
use pourwright::strength::net;
use pourwright::strength::study::Study;
use proptest::prelude::*;

/// Tops as they are cast: rectangles and L shapes with up to two openings.
pub fn usual() -> impl Strategy<Value = Slab> {
    let sizes = (24.0..110.0_f64, 16.0..36.0_f64, 1.0..2.5_f64);
    let legs = (any::<bool>(), 0.2..0.7_f64, 0.3..0.8_f64);
    let cut = (0.0..1.0_f64, 0.0..1.0_f64, 8.0..32.0_f64, 6.0..20.0_f64, 0.0..4.0_f64, 0..4_u8);
    (sizes, legs, prop::collection::vec(cut, 0..3)).prop_filter_map("does not fit", |(sizes, legs, cuts)| {
        let (width, depth, thickness) = sizes;
        let (is_l, leg, front) = legs;
        let inch = |value: f64| inches(value).value;
        let outline = if is_l && cuts.is_empty() {
            Outline::l_shape(inch(width), inch(2.0 * depth), inch(leg * width), inch(2.0 * front * depth)).ok()?
        } else {
            Outline::rectangle(inch(width), inch(depth)).ok()?
        };
        let mut openings: Vec<Opening> = Vec::new();
        for (x, y, across, deep, radius, kind) in cuts {
            let (least, room) = (2.0, (width - across - 4.0, depth - deep - 4.0));
            if room.0 <= 0.0 || room.1 <= 0.0 {
                return None;
            }
            let middle = Point::new(inch(least + across / 2.0 + x * room.0), inch(least + deep / 2.0 + y * room.1));
            let made = match kind {
                0 => Opening::ellipse(middle, inch(across), inch(deep), 0.0).ok()?,
                _ => Opening::rounded_rectangle(middle, inch(across), inch(deep), inch(radius.min(deep / 2.1))).ok()?,
            };
            let wide = made.bounds().inflate(inch(2.0), inch(2.0));
            if openings.iter().any(|other| other.bounds().overlaps(wide)) {
                return None;
            }
            openings.push(made);
        }
        let cutouts = openings.len();
        Some(Slab { outline, openings, cutouts, thickness: inches(thickness) })
    })
}

pub fn flat_cases(slab: &Slab) -> Vec<Case> {
    let of = |strength| Concrete { strength: psi(strength), flexural: None, density: pounds_a_cubic_foot(140.0) };
    let ages = Ages { stripping: of(2000.0), handling: of(3500.0), in_use: of(5000.0) };
    let flat = [LoadCase::LiftedAtEnds, LoadCase::CarriedByTwo, LoadCase::CarriedByFour];
    cases(slab, &ages, &LoadAssumptions::usual(slab)).into_iter().filter(|case| flat.contains(&case.kind)).collect()
}

/// The same lifted with a batten across the middle as well, and carried with a third person's hands there.
pub fn held_in_the_middle(slab: &Slab) -> Vec<Case> {
    let bounds = slab.outline.bounds();
    let line = if bounds.width() >= bounds.height() {
        [Point::new(bounds.center().x, bounds.y0), Point::new(bounds.center().x, bounds.y1)]
    } else {
        [Point::new(bounds.x0, bounds.center().y), Point::new(bounds.x1, bounds.center().y)]
    };
    let of_two = |case: &Case| matches!(case.kind, LoadCase::LiftedAtEnds | LoadCase::CarriedByTwo);
    let mut found: Vec<Case> = flat_cases(slab).into_iter().filter(of_two).collect();
    for case in &mut found {
        let bears = if case.kind == LoadCase::LiftedAtEnds { SupportKind::Prop } else { SupportKind::Carrier(2) };
        case.supports.push(Support { bears, line, gap: inches(0.0) });
    }
    found
}

/// As fine as the page's at corners, and coarser elsewhere.
const GRAIN: MeshSize = MeshSize { fine: 0.0127, coarse: 0.06, growth: 0.3, most_nodes: 900 };

/// Tension by hand and of the map, for each of those cases that the map answers.
pub fn by_hand_and_map(slab: &Slab, cases: &[Case]) -> Vec<(LoadCase, f64, f64)> {
    let Ok(mut study) = Study::new(slab, cases, &GRAIN) else { return Vec::new() };
    let mut found = Vec::new();
    for (index, case) in cases.iter().enumerate() {
        let Ok(outcome) = study.work_out(index, Units::Inch) else { continue };
        let allowed = case.concrete.allowable_stress(Units::Inch);
        // Hands in the middle of the ends of an L can miss what they should bear; then the map alone is told.
        let Some(cut) = net::worst(slab, case) else { continue };
        found.push((case.kind, (cut.tension / allowed).value, outcome.utilization));
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig { max_shrink_iters: 0, ..ProptestConfig::with_cases(60) })]

    /// Until the map is known the check by hand stands: it may be the sterner of the two, never much the milder, and
    /// it is silent of no top that the map warns of. Where the map holds easily, more is let pass. Shrinking would look for
    /// stranger tops than are cast.
    #[test]
    fn by_hand_no_top_is_called_safe_that_the_map_warns_of(slab in usual()) {
        for (kind, hand, map) in by_hand_and_map(&slab, &flat_cases(&slab)) {
            let least = if map > 0.9 { 0.9 } else { 0.6 };
            prop_assert!(hand >= least * map, "{kind:?}: {hand} by hand, {map} by the map");
            prop_assert!(map <= 1.0 || hand > 1.0, "{kind:?}: {hand} by hand, {map} by the map");
        }
    }

    /// Held in the middle as well, it is the same.
    #[test]
    fn by_hand_no_top_held_in_the_middle_is_called_safe_that_the_map_warns_of(slab in usual()) {
        for (kind, hand, map) in by_hand_and_map(&slab, &held_in_the_middle(&slab)) {
            let least = if map > 0.9 { 0.9 } else { 0.6 };
            prop_assert!(hand >= least * map, "{kind:?}: {hand} by hand, {map} by the map");
            prop_assert!(map <= 1.0 || hand > 1.0, "{kind:?}: {hand} by hand, {map} by the map");
        }
    }

    /// By hand nothing is called several times worse than it is where a batten holds a plain top in the middle.
    #[test]
    fn by_hand_a_plain_top_on_a_batten_is_not_called_far_worse(
        size in (60.0..110.0_f64, 20.0..30.0_f64, 1.25..2.5_f64),
    ) {
        let outline = Outline::rectangle(inches(size.0).value, inches(size.1).value).expect("a rectangle");
        let slab = Slab { outline, openings: Vec::new(), cutouts: 0, thickness: inches(size.2) };
        for (kind, hand, map) in by_hand_and_map(&slab, &held_in_the_middle(&slab)[..1]) {
            prop_assert!(hand <= 2.5 * map, "{kind:?}: {hand} by hand, {map} by the map");
        }
    }
}
