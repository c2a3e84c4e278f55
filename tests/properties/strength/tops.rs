//! Tops as rough as they come: any outline, openings that touch an edge or each other, slivers between them.

use kurbo::{Point, Vec2};
use pourwright::measure::Units;
use pourwright::measure::exact::{inches, pounds_a_cubic_foot, psi};
use pourwright::plane::{Opening, Outline};
use pourwright::strength::ask::{Later, Question};
use pourwright::strength::cases::{Ages, LoadAssumptions, Slab, cases};
use pourwright::strength::concrete::Concrete;
use pourwright::strength::mesh::MeshSize;
use pourwright::strength::remedy::remedies;
use pourwright::strength::study::{Study, StudyError};
use proptest::prelude::*;
use std::f64::consts::TAU;

/// Strips, slabs, an L, a round or a half-round one, and any ring of corners, some of them joined by arcs.
fn outline() -> impl Strategy<Value = Outline> {
    let sizes = (0.05..4.0_f64, 0.02..2.0_f64, 0.05..0.95_f64, 0.05..0.95_f64);
    let corners = prop::collection::vec((0.05..1.5_f64, 0.0..0.9_f64, prop::option::of(-0.8..0.8_f64)), 3..13);
    (0..6_u8, sizes, corners).prop_filter_map("no outline", |(kind, (width, depth, leg, front), corners)| {
        let part = TAU / corners.len() as f64;
        let corner = |(index, (reach, shift, bulge)): (usize, &(f64, f64, Option<f64>))| {
            ((*reach * Vec2::from_angle((index as f64 + shift) * part)).to_point(), bulge.unwrap_or(0.0))
        };
        match kind {
            0 => Outline::rectangle(width, depth).ok(),
            1 => Outline::l_shape(width, depth, leg * width, front * depth).ok(),
            2 => Outline::circle(Point::new(0.5, 0.5), depth).ok(),
            3 => Outline::d_shape(width, depth, 0.01 * front).ok(),
            _ => Outline::with_arcs(&corners.iter().enumerate().map(corner).collect::<Vec<_>>()).ok(),
        }
    })
}

/// An opening: its kind, its middle and its size as shares of the outline's bounds, and what it is pushed against.
type Cut = (u8, (f64, f64), (f64, f64), (u8, f64));

fn opening(
    outline: &Outline,
    before: Option<&Opening>,
    (kind, (x, y), (width, depth), (against, gap)): Cut,
) -> Option<Opening> {
    let bounds = outline.bounds();
    let center = Point::new(bounds.x0 + x * bounds.width(), bounds.y0 + y * bounds.height());
    let (width, depth) = (width * bounds.width(), depth * bounds.height());
    let made = match kind {
        0 => Opening::rounded_rectangle(center, width, depth, 0.0).ok(),
        1 => Opening::rounded_rectangle(center, width, depth, 0.2 * width.min(depth)).ok(),
        2 => Opening::ellipse(center, width, depth, x).ok(),
        3 => Opening::d_shape(center, width, depth, 0.05 * depth).ok(),
        _ => Opening::circle(center, 0.035).ok(),
    }?;
    let own = made.bounds();
    // Nothing between them, a sliver, or what is usual.
    let gap = if gap < 0.3 { 0.0 } else { (gap - 0.3).powi(4) };
    let by = match (against, before) {
        (0, _) => Vec2::new(bounds.x0 + gap - own.x0, 0.0),
        (1, _) => Vec2::new(0.0, bounds.y0 + gap - own.y0),
        (2, Some(before)) => Vec2::new(before.bounds().x1 + gap - own.x0, 0.0),
        (3, Some(before)) => Vec2::new(0.0, before.bounds().y1 + gap - own.y0),
        _ => Vec2::ZERO,
    };
    Some(made.translated(by))
}

/// Any such top.
pub fn rough() -> impl Strategy<Value = Slab> {
    let cut = (0..5_u8, (0.0..1.0_f64, 0.0..1.0_f64), (0.01..0.7_f64, 0.01..0.7_f64), (0..8_u8, 0.0..1.0_f64));
    (outline(), prop::collection::vec(cut, 0..6), 0.1..8.0_f64).prop_map(|(outline, cuts, thickness)| {
        let mut openings: Vec<Opening> = Vec::new();
        for cut in cuts {
            openings.extend(opening(&outline, openings.last(), cut));
        }
        let cutouts = openings.len();
        Slab { outline, openings, cutouts, thickness: inches(thickness) }
    })
}

/// What became of the cases of one top.
#[derive(Clone, Copy, Debug, Default)]
pub struct Count {
    /// Cases that were worked out.
    pub worked_out: usize,
    /// Cases that tip over, that nothing bears, or that are held too loosely to be solved.
    pub not_borne: usize,
    /// Cases whose load lies beside the top.
    pub beside: usize,
    /// Remedies that were worked out.
    pub remedies: usize,
}

/// Works out all usual cases of a top, and what would help in the first one.
///
/// # Errors
/// Why the whole top is refused, or what came out that must not.
pub fn work_out(slab: &Slab, grain: &MeshSize) -> Result<Count, Result<StudyError, String>> {
    let of = |strength| Concrete { strength: psi(strength), flexural: None, density: pounds_a_cubic_foot(140.0) };
    let ages = Ages { stripping: of(2000.0), handling: of(3500.0), in_use: of(5000.0) };
    let cases = cases(slab, &ages, &LoadAssumptions::usual(slab));
    let mut study = Study::new(slab, &cases, grain).map_err(Ok)?;
    let mut count = Count::default();
    for (index, case) in cases.iter().enumerate() {
        match study.work_out(index, Units::Inch) {
            Ok(outcome) => {
                let sag = outcome.deflection.map_or(1.0, |(sag, _)| sag.value);
                let good = outcome.utilization.is_finite() && outcome.utilization >= 0.0 && sag.is_finite();
                if !good || outcome.imbalance > 1e-8 {
                    return Err(Err(format!("{:?}: {} {sag}", case.kind, outcome.utilization)));
                }
                count.worked_out += 1;
            }
            Err(StudyError::Bearing(_) | StudyError::Solve(_)) => count.not_borne += 1,
            Err(StudyError::LoadOutside) => count.beside += 1,
            Err(other) => return Err(Err(format!("{:?}: {other:?}", case.kind))),
        }
    }
    let question = Question {
        slab: slab.clone(),
        names: Vec::new(),
        cases,
        units: Units::Inch,
        later: Later::default(),
        dug_out: Vec::new(),
    };
    if let Ok(found) = remedies(&question, 0, grain) {
        count.remedies = found.len();
    }
    Ok(count)
}
