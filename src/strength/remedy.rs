//! What would help: each change is worked out by solving the same case again.

use super::ask::Question;
use super::cases::{
    About, Age, Ages, Case, Load, LoadAssumptions, Middle, Multiplier, Slab, Support, SupportKind, knockouts,
};
use super::loads::dig_out;
use super::mesh::MeshSize;
use super::outcome::{Outcome, WorstLocation};
use super::seats::{Seat, Spot, on_strip};
use super::section::Section;
use super::steel::bar;
use super::study::{Study, StudyError};
use super::supports::{middle_support, props};
use crate::job::BarSize;
use crate::measure::exact::inches;
use crate::measure::{Length, Pressure, Units};
use crate::plane::{Edge, EdgeTag, Opening, Outline};
use crate::top::Facing;
use kurbo::Vec2;
use serde::{Deserialize, Serialize};
use uom::si::length::millimeter;

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
    pub utilization: f64,
    /// That it is enough: tension stays under what is allowed.
    pub holds: bool,
    /// Of a bar: what the strip bears once it has cracked, over what it has to bear. Such a bar keeps a strip from
    /// breaking apart, and hardly from cracking.
    pub cracked: Option<f64>,
}

/// Everything that would help in the case of that index. Those with which it holds come first, the least effort
/// before the others; then those that only help, the most helpful first. What does not help is left out.
///
/// Every change is worked out among all other cases, on the mesh that the changed job would be given.
///
/// # Errors
/// A case that cannot be worked out as it is.
pub fn remedies(question: &Question, index: usize, grain: &MeshSize) -> Result<Vec<Remedy>, StudyError> {
    let (slab, units) = (&question.slab, question.units);
    let case = question.cases.get(index).ok_or(StudyError::NoCase)?;
    let mut study = Study::new(slab, &question.cases, grain)?;
    let now = study.work_out(index, units)?;
    let beside = now.worst.as_ref().map_or(WorstLocation::Middle, |worst| worst.beside);
    let worked = changes(question, case, beside, now.utilization).into_iter().filter_map(|change| {
        let (slab, cases) = changed(question, index, beside, change)?;
        let mut study = Study::new(&slab, &cases, grain).ok()?;
        let utilization = study.work_out(index, units).ok()?.utilization;
        Some(Remedy { change, utilization, holds: utilization <= 1.0, cracked: None })
    });
    let helps = worked.filter(|remedy| remedy.utilization < 0.99 * now.utilization);
    // A bar is told also where it gains next to nothing: many count on it.
    let found: Vec<Remedy> = helps.chain(bar_along(slab, case, &now, BarSize::Three, units)).collect();
    let soon = question.later.soon(case.age);
    let rank = |remedy: &Remedy| match remedy.holds {
        true => effort(remedy.change, soon),
        false => MOST_EFFORT + remedy.utilization,
    };
    // Of changes of one effort the smaller was tried first.
    let mut order: Vec<usize> = (0..found.len()).collect();
    order.sort_by(|one, other| rank(&found[*one]).total_cmp(&rank(&found[*other])));
    Ok(order.into_iter().filter_map(|at| found.get(at).copied()).collect())
}

/// More than any [`effort`].
const MOST_EFFORT: f64 = 100.0;

/// How much effort a change is, to put the least first. To wait until the strength of the next day costs nothing; a
/// longer wait keeps the form, and comes after all that can be done at once. Judgement.
fn effort(change: Change, soon: Pressure) -> f64 {
    match change {
        Change::WaitFor(strength) if strength <= soon => 0.0,
        Change::ThirdHand => 1.0,
        Change::OnEdge => 2.0,
        Change::Prop(_) => 3.0,
        Change::Foam => 4.0,
        Change::CornerRadius { .. } => 5.0,
        Change::WiderRail { .. } => 6.0,
        Change::WaitFor(_) => 7.0,
        Change::Thickness(_) => 8.0,
        Change::Bar(_) => 9.0,
    }
}

/// What a bar along the worst strip comes to. The moment there stays what it is, since a bar in a strip makes it no
/// more than a few percent stiffer; what the strip bears before it cracks and after is that of its section.
fn bar_along(slab: &Slab, case: &Case, now: &Outcome, size: BarSize, units: Units) -> Option<Remedy> {
    let worst = now.worst.filter(|worst| !case.kind.is_on_edge() && worst.strip.value > 0.0)?;
    let (width, bar) = (worst.width, bar(size)?);
    let steel = bar.layer(1, slab.thickness / 2.0);
    let fits = matches!(worst.beside, WorstLocation::Rail { .. }) && width > LEAST_AROUND * bar.diameter;
    let section = Section { width, height: slab.thickness, steel };
    let concrete = &case.concrete;
    let uncracked = section.uncracked(concrete.rupture_stress(units), concrete.modulus(units)).ok().filter(|_| fits)?;
    let moment = worst.strip.value * width.value * slab.thickness.value * slab.thickness.value / 6.0;
    let cracked = section.cracked(concrete.strength).ok()?.moment.value / moment;
    let utilization = now.utilization / (1.0 + uncracked.gain());
    let change = Change::Bar(size);
    Some(Remedy { change, utilization, holds: utilization <= 1.0, cracked: Some(cracked) })
}

/// A strip narrower than so many diameters has no room for a bar and the concrete around it. Common practice.
const LEAST_AROUND: f64 = 4.0;

/// Lengths that a change comes in: fractions of an inch, or whole millimetres.
fn steps<const COUNT: usize>(units: Units, inch: [f64; COUNT], mm: [f64; COUNT]) -> [Length; COUNT] {
    match units {
        Units::Inch => inch.map(inches),
        Units::Metric => mm.map(Length::new::<millimeter>),
    }
}

/// That thickness as it is typed: up to the next 1/16 in, or to the next millimetre.
fn whole(thickness: Length, units: Units) -> Length {
    let [step] = steps(units, [1.0 / 16.0], [1.0]);
    step * ((thickness / step).value - 1e-6).ceil()
}

/// The wait that makes it strong enough, or as strong as it is known to get; nothing where no later strength is known
/// or it makes no difference. What is allowed grows with the root of the strength.
fn wait(question: &Question, case: &Case, utilization: f64) -> Option<Change> {
    // A test of an age says nothing of a later one out of the form.
    if case.age == Age::Stripping && case.concrete.flexural.is_some() {
        return None;
    }
    // A little over: a stiffer top leans harder on what gives.
    let needed = case.concrete.strength * utilization * utilization * 1.01;
    let strength = if needed < question.later.most { needed } else { question.later.most };
    (strength > case.concrete.strength).then_some(Change::WaitFor(strength))
}

/// The changes that are tried.
fn changes(question: &Question, case: &Case, beside: WorstLocation, utilization: f64) -> Vec<Change> {
    let (slab, units, facts) = (&question.slab, question.units, case.kind.facts());
    let mut found = Vec::from_iter(wait(question, case, utilization));
    // A knockout of another height is built of other layers, and driven out in another way.
    if !matches!(facts.about, About::Opening(_)) {
        let more = steps(units, [0.25, 0.5, 1.0], [5.0, 10.0, 25.0]);
        found.extend(more.map(|more| Change::Thickness(whole(slab.thickness + more, units))));
    }
    if let WorstLocation::Rail { opening, .. } = beside {
        found.extend(steps(units, [0.5, 1.0], [10.0, 25.0]).map(|by| Change::WiderRail { opening, by }));
        let radius =
            slab.openings.get(opening).and_then(Opening::least_inside_radius).map_or(f64::INFINITY, |least| least.0);
        found.extend(
            steps(units, [0.5, 2.0], [12.0, 50.0])
                .into_iter()
                .filter(|wanted| wanted.value > radius)
                .map(|radius| Change::CornerRadius { opening, radius }),
        );
        if facts.tips_by.is_some() && knockouts(slab).any(|(knockout, _)| knockout == opening) {
            found.push(Change::Prop(opening));
        }
    }
    if facts.middle != Middle::Nothing && !case.is_held() {
        found.push(Change::ThirdHand);
    }
    if facts.on_edge.is_some() {
        found.push(Change::OnEdge);
    }
    if let About::Opening(opening) = facts.about {
        found.extend((!question.dug_out.contains(&opening)).then_some(Change::Foam));
    }
    found
}

/// The top and all its cases with a change made against the case of that index; nothing if it does not fit.
fn changed(question: &Question, index: usize, beside: WorstLocation, change: Change) -> Option<(Slab, Vec<Case>)> {
    let (mut slab, mut cases) = (question.slab.clone(), question.cases.clone());
    let case = cases.get_mut(index)?;
    match change {
        Change::WaitFor(strength) => {
            let more = (strength / case.concrete.strength).value.sqrt();
            case.concrete.flexural = case.concrete.flexural.map(|tested| tested * more);
            case.concrete.strength = strength;
        }
        Change::Thickness(thickness) => slab.thickness = thickness,
        Change::WiderRail { opening, by } => {
            let away = by.value * away(beside)?;
            let moved = slab.openings.get(opening)?.translated(away);
            *slab.openings.get_mut(opening)? = moved;
            for case in &mut cases {
                for load in &mut case.loads {
                    // What is pushed or hangs on the rim goes with it.
                    if let Load::Rim { opening: pushed, within, .. } = load
                        && *pushed == opening
                    {
                        *within = *within + away;
                    }
                }
                for seat in &mut case.seats {
                    sit_again(seat, &slab);
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
            let habits = LoadAssumptions { stripping: own, handling: own, ..LoadAssumptions::usual(&slab) };
            let wanted = case.kind.facts().on_edge?;
            *case = super::cases::cases(&slab, &ages, &habits).into_iter().find(|case| case.kind == wanted)?;
        }
        Change::ThirdHand => {
            let middle = middle_support(&slab);
            // Where people carry it, one more of them does; elsewhere it is a batten.
            let bears = match case.kind.facts().middle {
                Middle::Person => SupportKind::Carrier(case.supports.len()),
                Middle::Batten | Middle::Nothing => middle.bears,
            };
            case.supports.push(Support { bears, ..middle });
        }
        Change::Prop(_) => {
            let props: Vec<Support> =
                knockouts(&slab).filter_map(|(opening, _)| props(&slab, opening)).flatten().collect();
            for case in cases.iter_mut().filter(|case| case.age == Age::InUse) {
                case.supports.extend(&props);
            }
        }
        Change::Foam => {
            let boards = |case: &&mut Case| match case.kind.facts().about {
                About::Opening(opening) => !question.dug_out.contains(&opening),
                _ => false,
            };
            cases.iter_mut().filter(boards).for_each(dig_out);
        }
        // Not a change of the plate.
        Change::Bar(_) => return None,
    }
    Some((slab, cases))
}

/// Which way an opening goes to leave a wider strip there; of length one.
pub(super) fn away(beside: WorstLocation) -> Option<Vec2> {
    match beside {
        WorstLocation::Rail { look: Facing::Front, .. } => Some(Vec2::new(0.0, 1.0)),
        WorstLocation::Rail { look: Facing::Back, .. } => Some(Vec2::new(0.0, -1.0)),
        WorstLocation::Rail { look: Facing::Left, .. } => Some(Vec2::new(1.0, 0.0)),
        WorstLocation::Rail { look: Facing::Right, .. } => Some(Vec2::new(-1.0, 0.0)),
        WorstLocation::Middle => None,
    }
}

/// Who sits on a strip beside a cutout sits in the middle of it also where the cutout was moved.
fn sit_again(seat: &mut Seat, slab: &Slab) {
    if let (Spot::Strip { opening, look }, Load::Patch { area, .. }) = (seat.spot, &mut seat.load)
        && let Some(at) = on_strip(slab, opening, look, area.width() / 2.0)
    {
        *area = *area + (at - area.center());
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
