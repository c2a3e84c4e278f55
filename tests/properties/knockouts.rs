//! What must hold for knockouts, whatever they are stacked from.

use pourwright::estimate::estimate;
use pourwright::job::{Cutout, Entry, Job, Layer, LayerOf, Units};
use pourwright::measure::exact::in_inches;
use pourwright::price::PriceBook;
use proptest::prelude::*;

/// The best of all stacks up to that height, all in 1/32 in, by trying every one: what is left, how many
/// layers, and how much of them is foam.
fn best_of_all(stock: &[(bool, u32)], height: u32) -> Option<(u32, u32, u32)> {
    fn add(stock: &[(bool, u32)], left: u32, layers: u32, foam: u32, best: &mut Option<(u32, u32, u32)>) {
        // Less left, fewer layers, more foam.
        if layers > 0 && best.is_none_or(|best| (left, layers, best.2) < (best.0, best.1, foam)) {
            *best = Some((left, layers, foam));
        }
        for (kind, (is_foam, thick)) in stock.iter().enumerate() {
            if *thick <= left {
                // Kinds in order, so that every stack is tried once.
                add(&stock[kind..], left - thick, layers + 1, foam + if *is_foam { *thick } else { 0 }, best);
            }
        }
    }
    let mut best = None;
    add(stock, height, 0, 0, &mut best);
    best
}

fn job_of(stock: &[(bool, u32)], height: u32) -> Job {
    let text = |steps: u32| Entry(format!("{} {}/32 in", steps / 32, steps % 32));
    let mut job = Job::new("any", Units::Inch);
    job.form.layers = stock
        .iter()
        .map(|(is_foam, thick)| Layer {
            of: if *is_foam { LayerOf::Foam } else { LayerOf::Board },
            thickness: text(*thick),
        })
        .collect();
    let piece = &mut job.pieces[0];
    (piece.width, piece.depth, piece.thickness) = ("48".into(), "24".into(), text(height));
    piece.cutouts.push(Cutout {
        width: "18".into(),
        depth: "13".into(),
        from_left: "24".into(),
        from_front: "12".into(),
        ..Cutout::default()
    });
    job
}

proptest! {
    /// No stack is better than the one found: not nearer to the cast, not of fewer layers, not of more foam.
    #[test]
    fn no_stack_is_better(stock in prop::collection::vec((any::<bool>(), 4..72u32), 1..6), height in 8..96u32) {
        let job = job_of(&stock, height);
        let knockout = estimate(&job, &PriceBook::default()).pieces[0].knockouts.cutouts.clone().remove(0);
        let knockout = knockout.expect("its outline is known");
        let Some((left, layers, foam)) = best_of_all(&stock, height) else {
            prop_assert!(knockout.stack.is_err());
            return Ok(());
        };
        let stack = knockout.stack.expect("something fits");
        let thick = |of: Option<LayerOf>| -> f64 {
            let counts = stack.layers.iter().filter(|layer| of.is_none_or(|of| layer.of == of));
            counts.map(|layer| in_inches(layer.thickness) * 32.0).sum()
        };
        prop_assert!((in_inches(stack.shim.value) * 32.0 - f64::from(left)).abs() < 1e-6);
        prop_assert!((thick(None) - f64::from(height - left)).abs() < 1e-6);
        prop_assert_eq!(stack.layers.len(), layers as usize);
        prop_assert!((thick(Some(LayerOf::Foam)) - f64::from(foam)).abs() < 1e-6);
        // Boards at the foot.
        prop_assert!(stack.layers.is_sorted_by_key(|layer| layer.of == LayerOf::Foam));
        prop_assert_eq!(knockout.blanks.len(), layers as usize);
    }

    /// Every blank holds what is cut from it, every layer lies within the one below, and all within the foot.
    #[test]
    fn a_drafted_knockout_narrows_upward(height in 24..96u32, draft in 0..32u32) {
        let mut job = job_of(&[(true, 16), (false, 24)], height);
        job.form.draft = Entry(format!("{draft}/32 in"));
        let knockout = estimate(&job, &PriceBook::default()).pieces[0].knockouts.cutouts.clone().remove(0);
        let knockout = knockout.expect("the draft has room");
        let mut below = knockout.foot.area() + 1e-12;
        for blank in &knockout.blanks {
            let area = blank.outline.area();
            prop_assert!(area <= below && area <= (blank.width * blank.length).value + 1e-12);
            below = area + 1e-12;
        }
        prop_assert!(knockout.head.area() <= below);
        // It displaces no more than its foot would, and no less than its head.
        let density = 150.0_f64 * 16.018_463_373_960_14;
        job.bags.clear();
        let found = estimate(&job, &PriceBook::default()).pieces[0].knockouts.cutouts.clone().remove(0);
        let lift = found.expect("the same").hold.lift.value.value / density / knockout.height.value.value;
        prop_assert!(lift <= knockout.foot.area() + 1e-9 && lift >= knockout.head.area() - 1e-9);
    }

    /// Whatever stands in the rows and in the draft, nothing panics, and what waits says for what.
    #[test]
    fn any_rows_and_any_draft(
        mut job in crate::any_job(),
        rows in prop::collection::vec((any::<bool>(), crate::entry()), 0..6),
        draft in crate::entry(),
    ) {
        job.form.draft = draft;
        let layer = |(is_foam, thickness)| Layer { of: if is_foam { LayerOf::Foam } else { LayerOf::Board }, thickness };
        job.form.layers = rows.into_iter().map(layer).collect();
        for piece in estimate(&job, &PriceBook::default()).pieces {
            let knockouts = piece.knockouts.clone();
            let waiting = knockouts.cutouts.iter().filter_map(|known| known.as_ref().err());
            let waiting = waiting.chain(knockouts.cutouts.iter().flatten().filter_map(|known| known.stack.as_ref().err()));
            for waiting in waiting.chain(knockouts.cores.iter().filter_map(|known| known.as_ref().err())) {
                prop_assert!(!waiting.needs().is_empty());
            }
            for knockout in knockouts.cutouts.iter().flatten() {
                prop_assert!(!knockout.hold.words(job.units).contains('—'));
                prop_assert!(knockout.hold.weight >= knockout.hold.lift.value * (1.0 - 1e-6));
            }
        }
    }
}
