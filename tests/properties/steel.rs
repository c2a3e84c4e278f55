//! What must hold for steel, whatever it is laid in.

use kurbo::Point;
use pourwright::estimate::{Estimate, estimate};
use pourwright::job::{BarSize, Cutout, Entry, Job, Lath, SteelField};
use pourwright::measure::exact::in_inches;
use pourwright::plane::{Opening, Outline};
use pourwright::price::PriceBook;
use pourwright::steel::Steel;
use proptest::prelude::*;
use proptest::sample::select;
use uom::si::area::square_meter;
use uom::si::length::meter;

fn worked_out(job: &Job) -> Estimate {
    estimate(job, &PriceBook::default())
}

/// Points of a grid over the outline, about so many each way, that lie inside and off the edges by `off`.
fn grid(outline: &Outline, off: f64) -> Vec<Point> {
    const EACH: u32 = 41;
    let around = outline.bounds();
    let share = |part: u32| (f64::from(part) + 0.37) / f64::from(EACH);
    let points = (0..EACH).flat_map(|column| (0..EACH).map(move |row| (column, row)));
    let points = points.map(|(column, row)| {
        Point::new(around.x0 + share(column) * around.width(), around.y0 + share(row) * around.height())
    });
    points
        .filter(|point| outline.contains(*point) && (outline.nearest(*point).1 - *point).hypot() > off + 1e-4)
        .collect()
}

fn lath_and_bars() -> impl Strategy<Value = (Lath, BarSize, [u32; 4])> {
    let sizes =
        (8..80u32, 12..130u32, 0..3u32, 0..6u32).prop_map(|(width, length, off, lap)| [width, length, off, lap]);
    (select(vec![Lath::Light, Lath::Heavy]), select(BarSize::ALL.to_vec()), sizes)
}

fn reinforced(mut job: Job, (lath, bars, [width, length, off, lap]): (Lath, BarSize, [u32; 4])) -> Job {
    let steel = &mut job.pieces[0].reinforcement;
    (steel.lath, steel.bars) = (lath, bars);
    let text = |inches: u32| Entry(format!("{inches} in"));
    steel.lath_width = text(width);
    steel.lath_length = text(length);
    steel.off_edges = text(off);
    steel.lap = text(lap);
    job
}

/// Every point that lies off all edges and cutouts is under a panel and not cut away, unless it lies in the hollow
/// of a sharp corner, which is left out; no panel reaches nearer to an edge.
fn assert_covered(outline: &Outline, openings: &[&Opening], steel: &Steel, off: f64) {
    let lath = steel.lath.as_ref().expect("lath is chosen");
    let panels = &lath.panels;
    for point in grid(outline, off) {
        let clear = |opening: &&Opening| opening.signed_distance(point).0 > off * 1.5 + 1e-4;
        if !openings.iter().all(clear) || !lath.outline.contains(point) {
            continue;
        }
        let under = panels.iter().filter(|panel| panel.at.inflate(1e-6, 1e-6).contains(point));
        assert!(under.clone().count() > 0, "{point:?} is bare");
        let cut = |outline: &Opening| outline.contains(point);
        assert!(under.clone().all(|panel| !panel.cuts.iter().any(|part| cut(&part.outline))), "{point:?} is cut away");
    }
    // The outline of the lath keeps its distance, also at its corners.
    for edge in lath.outline.edges() {
        for share in [0.0, 0.3, 0.7] {
            let at = edge.point_at(share);
            assert!(
                (outline.nearest(at).1 - at).hypot() > off - 1e-6 && (off == 0.0 || outline.contains(at)),
                "{at:?}"
            );
        }
    }
    let area = lath.area.value.get::<square_meter>();
    assert!(area <= panels.iter().map(|panel| panel.at.area()).sum::<f64>() * (1.0 + 1e-9));
    // What is cut away takes no more than its own area; laps only add.
    let mut cuts: Vec<_> = panels.iter().flat_map(|panel| &panel.cuts).collect();
    cuts.dedup_by_key(|cut| cut.of);
    let cut: f64 = cuts.iter().map(|cut| cut.outline.area()).sum();
    assert!(area >= lath.outline.area() * (1.0 - 1e-3) - cut, "{area} of {} less {cut}", lath.outline.area());
    assert!(lath.sheets.value >= 1 && lath.sheets.value as usize <= panels.len() * lath.layers as usize);
}

proptest! {
    /// Lath covers a top with a sink, and an L, up to its edge distance and no further.
    #[test]
    fn lath_covers_the_piece(
        job in prop_oneof![crate::good_job(), crate::good_l()],
        chosen in lath_and_bars(),
    ) {
        let job = reinforced(job, chosen);
        let piece = worked_out(&job).pieces.remove(0);
        let (Ok(outline), Ok(steel)) = (&piece.top.outline, &piece.steel) else { return Ok(()) };
        let off = f64::from(chosen.2[2]) * 0.0254;
        let openings: Vec<_> = piece.top.cutouts.iter().flatten().collect();
        assert_covered(outline, &openings, steel, off);
        // A panel is no larger than a sheet.
        let lath = steel.lath.as_ref().expect("lath is chosen");
        for panel in &lath.panels {
            prop_assert!(in_inches(panel.width) <= f64::from(chosen.2[0]) + 1e-3);
            prop_assert!(in_inches(panel.length) <= f64::from(chosen.2[1]) + 1e-3);
        }
        // What is laid is no more than the sheets that are bought.
        let sheet = f64::from(chosen.2[0] * chosen.2[1]) * 0.0254 * 0.0254;
        prop_assert!(lath.panels.iter().map(|panel| panel.at.area()).sum::<f64>() <= sheet * f64::from(lath.sheets.value) + 1e-6);
    }

    /// Every bar lies in the concrete: its side by its cover, its ends by the edge distance, and bars do not meet.
    #[test]
    fn bars_lie_in_the_concrete(
        job in crate::good_job(),
        chosen in lath_and_bars(),
        second in prop::option::of((0.1..0.9_f64, 0.2..0.8_f64, 3..12u32)),
    ) {
        let mut job = reinforced(job, chosen);
        job.pieces[0].reinforcement.lath = Lath::None;
        if let Some((across, along, size)) = second {
            let outline = worked_out(&job).pieces[0].top.outline.clone();
            let bounds = outline.expect("a good job has an outline").bounds();
            let text = |metres: f64| Entry(format!("{:.1} mm", metres * 1000.0));
            job.pieces[0].cutouts.push(Cutout {
                width: Entry(format!("{size} in")),
                depth: Entry(format!("{size} in")),
                from_left: text(across * bounds.width()),
                from_front: text(along * bounds.height()),
                ..Cutout::default()
            });
        }
        let piece = worked_out(&job).pieces.remove(0);
        let (Ok(outline), Ok(steel)) = (&piece.top.outline, &piece.steel) else { return Ok(()) };
        let Some(bars) = &steel.bars else { return Ok(()) };
        let openings: Vec<_> = piece.top.cutouts.iter().flatten().collect();
        let radius = bars.diameter.get::<meter>() / 2.0;
        for (index, bar) in bars.bars.iter().enumerate() {
            let cover = bar.side_cover.get::<meter>();
            let along = bar.ends.1 - bar.ends.0;
            prop_assert!((along.hypot() - bar.length.get::<meter>()).abs() < 1e-9);
            for part in 0..=40 {
                // Not the very ends: they are flat.
                let at = bar.ends.0 + (radius + f64::from(part) / 40.0 * (along.hypot() - 2.0 * radius)) * along / along.hypot();
                let across = Point::new(-along.y, along.x).to_vec2() / along.hypot();
                // A curve is followed by short straight lines; where it is steep, by the end of a bar, they miss it
                // by more in this direction than across.
                for side in [-1.0, 0.0, 1.0] {
                    let beside = at + side * (radius + cover - 5e-4) * across;
                    prop_assert!(outline.contains(beside), "{bar:?}");
                    prop_assert!(openings.iter().all(|opening| !opening.contains(beside)), "{bar:?}");
                }
            }
            // The ends keep off what they run towards.
            let off = f64::from(chosen.2[2]) * 0.0254;
            for (end, out) in [(bar.ends.0, -1.0), (bar.ends.1, 1.0)] {
                let beyond = end + out * (off - 1e-4).max(0.0) * along / along.hypot();
                prop_assert!(off == 0.0 || outline.contains(beyond) && openings.iter().all(|opening| !opening.contains(beyond)));
            }
            for other in &bars.bars[..index] {
                let crosses = |one: (Point, Point), two: (Point, Point)| {
                    let side = |point: Point| (one.1 - one.0).cross(point - one.0);
                    side(two.0) * side(two.1) < 0.0
                };
                prop_assert!(!(crosses(bar.ends, other.ends) && crosses(other.ends, bar.ends)), "{bars:?}");
            }
        }
    }

    /// Whatever stands in the fields of the steel, nothing panics, and what waits says for what.
    #[test]
    fn any_steel_in_any_job(
        mut job in crate::any_job(),
        typed in prop::collection::vec(crate::entry(), SteelField::ALL.len()),
        lath in select(Lath::ALL.to_vec()),
        bars in select(BarSize::ALL.to_vec()),
        usual in any::<[bool; 7]>(),
    ) {
        for piece in &mut job.pieces {
            let steel = &mut piece.reinforcement;
            (steel.lath, steel.bars) = (lath, bars);
            for ((field, entry), usual) in SteelField::ALL.iter().zip(&typed).zip(usual) {
                if !usual {
                    *steel.entry_mut(*field) = entry.clone();
                }
            }
        }
        let estimate = worked_out(&job);
        for piece in &estimate.pieces {
            match &piece.steel {
                Ok(steel) => prop_assert!(steel.mass.value.value.is_finite() && steel.mass.value.value >= 0.0),
                Err(waiting) => prop_assert!(!waiting.needs().is_empty()),
            }
        }
        for finding in &estimate.findings {
            prop_assert!(finding.says.write(&job).ends_with('.') && !finding.says.write(&job).contains('—'), "{}", finding.says.write(&job));
        }
    }
}
