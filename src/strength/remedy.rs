//! What would help: each change is worked out by solving the same case again.

use super::cases::{Age, Ages, Bears, Case, Habits, Kind, Load, Multiplier, Slab, Support, cases, long_way};
use super::concrete::Concrete;
use super::limits;
use super::mesh::Grain;
use super::outcome::{Beside, Outcome};
use super::section::Section;
use super::sorted::order_of;
use super::steel::bar;
use super::study::{Refusal, Study};
use crate::job::BarSize;
use crate::measure::exact::inches;
use crate::measure::{Length, Pressure, Units};
use crate::plane::{Edge, EdgeTag, Opening, Outline};
use crate::top::Look;
use kurbo::Vec2;
use serde::{Deserialize, Serialize};

/// A change to the top, or to what is done with it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Change {
    /// Wait until the concrete has that compressive strength.
    WaitFor(Pressure),
    /// Cast it that thick.
    Thickness(Length),
    /// Move that opening away from the strip that is worst, by so much.
    WiderRail {
        /// Which opening.
        opening: usize,
        /// By how much the strip is wider.
        by: Length,
    },
    /// Round the inside corners of that opening by that radius.
    CornerRadius {
        /// Which opening.
        opening: usize,
        /// The radius.
        radius: Length,
    },
    /// Carry or turn it on edge.
    OnEdge,
    /// A third hand, or a batten, in the middle.
    ThirdHand,
    /// A support under the rails of that opening.
    Prop(usize),
    /// Knockouts of foam, dug out instead of driven.
    Foam,
    /// A bar along the strip that is worst, at mid-depth.
    Bar(BarSize),
}

/// A change, and what it comes to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Remedy {
    /// What is changed.
    pub change: Change,
    /// Tension over what is allowed, with it.
    pub use_of: f64,
    /// That it is enough: tension stays under what is allowed.
    pub holds: bool,
    /// Of a bar: what the strip bears once it has cracked, over what it has to bear. Such a bar keeps a strip from
    /// breaking apart, and hardly from cracking.
    pub cracked: Option<f64>,
}

/// Of the push that drives out a board, what is left when foam is dug out. Common practice, no source.
pub(super) const FOAM_SHARE: f64 = 0.1;

/// Everything that would help in a case, the best first; what does not help is left out.
///
/// # Errors
/// A case that cannot be worked out as it is.
pub fn remedies(slab: &Slab, case: &Case, grain: &Grain, units: Units) -> Result<Vec<Remedy>, Refusal> {
    let mut study = Study::new(slab, std::slice::from_ref(case), grain)?;
    let now = study.work_out(0, units)?;
    let beside = now.worst.as_ref().map_or(Beside::Middle, |worst| worst.beside);
    let worked = changes(slab, case, beside, now.use_of * now.allowable, units).into_iter().filter_map(|change| {
        let (slab, case) = changed(slab, case, beside, change)?;
        let mut study = Study::new(&slab, &[case], grain).ok()?;
        let use_of = study.work_out(0, units).ok()?.use_of;
        Some(Remedy { change, use_of, holds: use_of <= 1.0, cracked: None })
    });
    let helps = worked.filter(|remedy| remedy.use_of < 0.99 * now.use_of);
    // A bar is told also where it gains next to nothing: many count on it.
    let found: Vec<Remedy> = helps.chain(bar_along(slab, case, &now, BarSize::Three, units)).collect();
    let order = order_of(found.iter().map(|remedy| remedy.use_of));
    Ok(order.into_iter().filter_map(|at| found.get(at).copied()).collect())
}

/// What a bar along the worst strip comes to. The moment there stays what it is, since a bar in a strip makes it no
/// more than a few percent stiffer; what the strip bears before it cracks and after is that of its section.
fn bar_along(slab: &Slab, case: &Case, now: &Outcome, size: BarSize, units: Units) -> Option<Remedy> {
    let worst = now.worst.filter(|worst| !case.kind.is_on_edge() && worst.strip.value > 0.0)?;
    let (width, bar) = (worst.width, bar(size)?);
    let steel = bar.layer(1, slab.thickness / 2.0);
    let fits = matches!(worst.beside, Beside::Rail { .. }) && width > LEAST_AROUND * bar.diameter;
    let section = Section { width, height: slab.thickness, steel };
    let concrete = &case.concrete;
    let uncracked = section.uncracked(concrete.rupture_stress(units), concrete.modulus(units)).ok().filter(|_| fits)?;
    let moment = worst.strip.value * width.value * slab.thickness.value * slab.thickness.value / 6.0;
    let cracked = section.cracked(concrete.strength).ok()?.moment.value / moment;
    let use_of = now.use_of / (1.0 + uncracked.gain());
    let change = Change::Bar(size);
    Some(Remedy { change, use_of, holds: use_of <= 1.0, cracked: Some(cracked) })
}

/// A strip narrower than so many diameters has no room for a bar and the concrete around it. Common practice.
const LEAST_AROUND: f64 = 4.0;

/// The changes that are tried.
fn changes(slab: &Slab, case: &Case, beside: Beside, stress: Pressure, units: Units) -> Vec<Change> {
    let mut found = Vec::new();
    let needed = Concrete::strength_to_allow(stress, units);
    let worth_it = needed > case.concrete.strength && needed <= limits::strength_waited_for();
    if case.concrete.flexural.is_none() && worth_it && case.age != Age::InUse {
        // A little over, so that it holds also to the last digit.
        found.push(Change::WaitFor(needed * (1.0 + 1e-9)));
    }
    found.extend([0.25, 0.5, 1.0].map(|more| Change::Thickness(slab.thickness + inches(more))));
    if let Beside::Rail { opening, .. } = beside {
        found.extend([0.5, 1.0].map(|by| Change::WiderRail { opening, by: inches(by) }));
        let radius =
            slab.openings.get(opening).and_then(Opening::least_inside_radius).map_or(f64::INFINITY, |least| least.0);
        found.extend(
            [0.5, 2.0]
                .map(inches)
                .into_iter()
                .filter(|wanted| wanted.value > radius)
                .map(|radius| Change::CornerRadius { opening, radius }),
        );
        if case.age == Age::InUse {
            found.push(Change::Prop(opening));
        }
    }
    match case.kind {
        Kind::LiftedAtEnds => found.extend([Change::OnEdge, Change::ThirdHand]),
        Kind::CarriedByTwo | Kind::CarriedByFour => found.extend([Change::OnEdge, Change::ThirdHand]),
        Kind::KnockoutEvenly(_) | Kind::KnockoutAtOneEnd(_) => found.extend([Change::ThirdHand, Change::Foam]),
        Kind::OnRack => found.push(Change::ThirdHand),
        _ => {}
    }
    found
}

/// The top and the case with a change; nothing if it does not fit.
fn changed(slab: &Slab, case: &Case, beside: Beside, change: Change) -> Option<(Slab, Case)> {
    let (mut slab, mut case) = (slab.clone(), case.clone());
    match change {
        Change::WaitFor(strength) => case.concrete.strength = strength,
        Change::Thickness(thickness) => slab.thickness = thickness,
        Change::WiderRail { opening, by } => {
            let away = match beside {
                Beside::Rail { look: Look::Front, .. } => Vec2::new(0.0, 1.0),
                Beside::Rail { look: Look::Back, .. } => Vec2::new(0.0, -1.0),
                Beside::Rail { look: Look::Left, .. } => Vec2::new(1.0, 0.0),
                Beside::Rail { look: Look::Right, .. } => Vec2::new(-1.0, 0.0),
                Beside::Middle => return None,
            };
            let moved = slab.openings.get(opening)?.translated(by.value * away);
            *slab.openings.get_mut(opening)? = moved;
            // What is pushed or stands on the rim goes with it.
            for load in &mut case.loads {
                if let Load::Rim { within, .. } = load {
                    *within = *within + by.value * away;
                }
            }
        }
        Change::CornerRadius { opening, radius } => {
            let Opening::Outline(outline) = slab.openings.get(opening)? else { return None };
            let rounded = rounded(outline, radius.value)?;
            *slab.openings.get_mut(opening)? = Opening::Outline(rounded);
        }
        Change::OnEdge => {
            let ages = Ages { stripping: case.concrete, handling: case.concrete, in_use: case.concrete };
            let own = Multiplier { times: case.multiplier, counts: case.counts };
            let habits = Habits { stripping: own, handling: own, ..Habits::usual(&slab) };
            let wanted = if case.kind == Kind::LiftedAtEnds { Kind::TurnedOnEdge } else { Kind::CarriedOnEdge };
            case = cases(&slab, &ages, &habits).into_iter().find(|case| case.kind == wanted)?;
        }
        Change::ThirdHand => case.supports.push(middle_support(&slab)),
        Change::Prop(opening) => case.supports.extend(props(&slab, opening)?),
        Change::Foam => dig_out(&mut case),
        // Not a change of the plate.
        Change::Bar(_) => return None,
    }
    Some((slab, case))
}

/// A hand or a batten across the middle.
pub(super) fn middle_support(slab: &Slab) -> Support {
    let along = long_way(slab);
    let bounds = slab.outline.bounds();
    let (from, to) = (along.split(bounds.origin()), along.split((bounds.x1, bounds.y1).into()));
    let middle = f64::midpoint(from.0, to.0);
    Support::new(Bears::Prop, [along.join(middle, from.1), along.join(middle, to.1)])
}

/// Supports under the rails in front of and behind an opening.
pub(super) fn props(slab: &Slab, opening: usize) -> Option<[Support; 2]> {
    let bounds = slab.openings.get(opening)?.bounds();
    let outer = slab.outline.bounds();
    let middle = bounds.center().x;
    let prop = |from: f64, to: f64| Support::new(Bears::Prop, [(middle, from).into(), (middle, to).into()]);
    Some([prop(outer.y0, bounds.y0), prop(bounds.y1, outer.y1)])
}

/// What is left of the push where the knockout is dug out.
pub(super) fn dig_out(case: &mut Case) {
    for load in &mut case.loads {
        if let Load::Rim { force, .. } = load {
            *force *= FOAM_SHARE;
        }
    }
}

/// An outline with its sides as they are and every corner between two straight ones rounded by that radius.
fn rounded(outline: &Outline, radius: f64) -> Option<Outline> {
    let corner = |edge: &Edge| edge.is_straight() || matches!(edge.tag(), EdgeTag::Corner(..));
    if !outline.edges().iter().all(corner) {
        return None;
    }
    // The sharp polygon of the straight sides: where each meets the next.
    let sides: Vec<_> = outline.edges().iter().filter(|edge| edge.is_straight()).collect();
    let next = sides.iter().cycle().skip(1);
    let corners: Option<Vec<_>> = sides
        .iter()
        .zip(next)
        .map(|(side, next)| {
            let cross = side.chord().cross(next.chord());
            let share = (next.start() - side.start()).cross(next.chord()) / cross;
            let at = side.start() + share * side.chord();
            at.is_finite().then_some((at, radius))
        })
        .collect();
    Outline::rounded_polygon(&corners?).ok()
}
