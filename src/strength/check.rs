//! Will this piece of the job crack: the rails by hand, at once, and the question for the map.

pub use super::ages::{MixInForm, StrengthHistory};
use super::ask::Question;
use super::bracket::{self, Brackets, Hung};
use super::cases::{Age, Case, LoadAssumptions, LoadCase, Multiplier, Slab, cases};
use super::inputs::{StrengthInputs, WhatBears};
use super::net::{self, NetCut};
use super::rail::{RailCheck, rails};
use super::section::{Capacity, Section};
use super::steel::bar;
use super::{limits, said};
use crate::finding::{Finding, Severity, Stage};
use crate::job::{FieldPath, HandlingField, LayerOf, PieceKind, Stripped};
use crate::knockout::Knockouts;
use crate::label;
use crate::measure::{MassDensity, Pressure, Quantity};
use crate::steel::{Lies, Steel};
use crate::top::{Facing, Top};
use crate::working::{Figure, Known, Label, Name, Source, all, known_ref, together};

/// What one rail comes to as the top is lifted flat, by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct RailVerdict {
    /// The rail.
    pub rail: RailCheck,
    /// "the rail in front of the left sink".
    pub words: String,
    /// Tension over what is allowed, with the working.
    pub utilization: Figure<f64>,
    /// What it bears before and after it cracks, where a bar lies along it.
    pub with_bar: Option<Figure<Capacity>>,
}

/// What the worst net cut of a piece comes to in a case in which it is borne flat, by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct NetVerdict {
    /// What happens.
    pub kind: LoadCase,
    /// The index of its case in the question.
    pub case: usize,
    /// "the rail in front of the left sink", "the middle, away from any cutout".
    pub words: String,
    /// The largest tension there.
    pub tension: Pressure,
    /// Tension over what is allowed, with the working.
    pub utilization: Figure<f64>,
}

/// Whether a piece cracks, as far as it is known without solving anything.
#[derive(Clone, Debug, PartialEq)]
pub struct Cracking {
    /// How old and how strong it is.
    pub grown: StrengthHistory,
    /// Every rail by hand as the top is lifted flat, the worst first.
    pub rails: Vec<RailVerdict>,
    /// The worst net cut of the whole piece, with cutouts or without, as it is lifted and as it is carried flat between
    /// two lines that bear; nothing for what is borne otherwise, which the map alone can tell.
    pub net: Vec<NetVerdict>,
    /// All that it lives through, to be worked out.
    pub question: Question,
    /// Why nobody sits on it and no cabinet bears it, where that is so.
    pub stands: Option<String>,
    /// The brackets that bear it by hand; nothing where a cabinet does.
    pub hung: Option<Hung>,
    /// It comes out of its form flat, borne at both ends alone: what [`Self::rails`] are about.
    pub lifted_flat: bool,
}

impl Cracking {
    /// A piece of that top, with those knockouts and that steel, of a mix of that fresh density.
    ///
    /// # Errors
    /// What it waits for: its shape, its thickness, its strength, and what of its handling cannot be read.
    pub fn of(
        (top, knockouts, steel): (&Top, &Knockouts, &Known<Steel>),
        mix: &Known<MixInForm>,
        fresh: &Known<Figure<MassDensity>>,
        inputs: &StrengthInputs,
    ) -> Known<Self> {
        let (slab, grown) = together((slab(top), StrengthHistory::of(mix, fresh, inputs)))?;
        let on_wall = match &inputs.bears {
            WhatBears::Wall(typed) => Some((typed, Brackets::of(&slab, typed))),
            WhatBears::Cabinet(_) => None,
        };
        let brackets = on_wall.as_ref().and_then(|(_, brackets)| brackets.as_ref().ok());
        let habits = LoadAssumptions::of(&slab, inputs, brackets)?;
        let names = names(&slab);
        let all = cases(&slab, &grown.ages, &habits);
        let foam =
            |opening: usize| knockouts.cutouts.get(opening).is_some_and(|known| known.as_ref().is_ok_and(is_foam));
        let stands = (inputs.kind != PieceKind::Top).then(|| {
            let name = inputs.kind.label().to_lowercase();
            format!(
                "A {name} lies on no cabinet and nobody sits on it: it is worked out until it is set, and no further."
            )
        });
        let hung = on_wall
            .filter(|_| stands.is_none())
            .map(|(typed, brackets)| Hung::of(&slab, &grown.ages.in_use, &habits, typed, brackets));
        let all = all.into_iter().filter(|case| stands.is_none() || case.age != Age::InUse);
        let chosen = all.filter_map(|case| case.chosen(&slab, inputs, &foam));
        let dug_out = (0..slab.openings.len()).filter(|opening| foam(*opening)).collect();
        let question =
            Question { cases: chosen.collect(), names, units: inputs.units, later: grown.later(), dug_out, slab };
        let lifted_flat = inputs.stripped == Stripped::Flat;
        let rails = verdicts(&question, &grown, &habits, steel.as_ref().ok());
        let net = net_verdicts(&question, &grown);
        Ok(Self { grown, rails, net, question, stands, hung, lifted_flat })
    }
}

/// The finished top as a plate.
fn slab(top: &Top) -> Known<Slab> {
    // Openings that run into each other leave no strips to judge.
    let area = known_ref(&top.area).map(drop);
    let cutouts = all(top.cutouts.iter().cloned());
    let holes = all(top.holes.iter().cloned());
    let (outline, thickness, cutouts, holes, ()) =
        together((top.outline.clone(), top.thickness.clone(), cutouts, holes, area))?;
    let openings = cutouts.into_iter().chain(holes.into_iter().flatten()).collect();
    Ok(Slab { outline, openings, cutouts: top.cutouts.len(), thickness })
}

/// What to call each opening: sinks from the left, then holes.
fn names(slab: &Slab) -> Vec<String> {
    let sinks = slab.cutouts;
    let at = |opening: usize| slab.openings.get(opening).map_or(0.0, |shape| shape.centroid().x);
    let rank = |opening: usize| (0..sinks).filter(|other| (at(*other), *other) < (at(opening), opening)).count();
    let name = |opening: usize| match (opening < sinks, sinks, rank(opening)) {
        (false, ..) => "a hole".to_owned(),
        (true, 1, _) => "the sink".to_owned(),
        (true, 2, 0) => "the left sink".to_owned(),
        (true, 2, _) => "the right sink".to_owned(),
        (true, _, rank) => format!("sink {} from the left", rank + 1),
    };
    (0..slab.openings.len()).map(name).collect()
}

/// Its knockout is foam from foot to head.
fn is_foam(knockout: &crate::knockout::Knockout) -> bool {
    knockout.stack.as_ref().is_ok_and(|stack| stack.layers.iter().all(|layer| layer.of == LayerOf::Foam))
}

/// A tension over what is allowed, with the whole of its working.
fn of_allowed(
    title: impl Into<Label>,
    grown: &StrengthHistory,
    counted: Multiplier,
    tension: &Figure<Pressure>,
    allowable: &Figure<Pressure>,
) -> Figure<f64> {
    let share = (tension.called("tension") / allowable.called("what is allowed")).number();
    let written = Quantity::Number(share.value, 2);
    share
        .after_first(&counted.counts.times(counted.times).working)
        .after_first(&allowable.working)
        .after_first(&grown.working)
        .titled_as(title, written, Source::Arithmetic)
}

fn verdicts(
    question: &Question,
    grown: &StrengthHistory,
    habits: &LoadAssumptions,
    steel: Option<&Steel>,
) -> Vec<RailVerdict> {
    let (concrete, units) = (grown.ages.stripping, question.units);
    let allowable = concrete.allowable(units);
    let checks = rails(&question.slab, &concrete, habits.grip, habits.stripping.times);
    let mut found: Vec<RailVerdict> = checks
        .into_iter()
        .map(|rail| {
            let title = "Rail lifted flat, by hand";
            let utilization = of_allowed(title, grown, habits.stripping, &rail.stress, &allowable);
            let words = super::outcome::WorstLocation::Rail { opening: rail.opening, other: None, look: rail.look };
            let name = |opening: usize| question.names.get(opening).cloned().unwrap_or_default();
            let with_bar = steel.and_then(|steel| with_bar(&rail, steel, question, grown));
            RailVerdict { words: words.words(&name), utilization, with_bar, rail }
        })
        .collect();
    // A cut leaves every strip that it runs through with the same pull: of those the narrowest comes first.
    let rank = |one: &RailVerdict| ((one.utilization.value * -1e9).round(), one.rail.width.value);
    found.sort_by(|one, other| {
        let (one, other) = (rank(one), rank(other));
        one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1))
    });
    found
}

/// Statics alone can tell it: it is borne flat, and nothing but its weight bears down.
fn told_by_hand(kind: LoadCase) -> bool {
    kind.facts().by_hand.is_some()
}

/// The worst net cuts of the cases that statics alone can tell.
fn net_verdicts(question: &Question, grown: &StrengthHistory) -> Vec<NetVerdict> {
    let units = question.units;
    let verdict = |(index, case): (usize, &Case)| {
        let cut = net::worst(&question.slab, case)?;
        let allowable = case.concrete.allowable(units);
        let tension = cut.figure(&question.slab);
        let title = format!("{}, by hand", said::label(case, None, &question.names));
        let counted = Multiplier { times: case.multiplier, counts: case.counts };
        let utilization = of_allowed(title, grown, counted, &tension, &allowable);
        let words = place_of(&cut, question);
        Some(NetVerdict { kind: case.kind, case: index, words, tension: cut.tension, utilization })
    };
    question.cases.iter().enumerate().filter(|(_, case)| told_by_hand(case.kind)).filter_map(verdict).collect()
}

/// Where a cut is the narrowest, in the maker's words.
fn place_of(cut: &NetCut, question: &Question) -> String {
    let openings = cut.beside.map(|number| number.checked_sub(1));
    let Some(opening) = openings[0].or(openings[1]) else {
        if question.slab.openings.is_empty() {
            return "the middle".to_owned();
        }
        return super::outcome::WorstLocation::Middle.words(&|_| String::new());
    };
    let other = openings.into_iter().flatten().find(|other| *other != opening);
    let from = question.slab.openings.get(opening).map_or(kurbo::Vec2::ZERO, |shape| cut.at - shape.centroid());
    let along = super::cases::long_way(&question.slab);
    let beside = super::outcome::WorstLocation::Rail { opening, other, look: super::outcome::look(along, from) };
    beside.words(&|opening| question.name(opening))
}

/// The rail with the bar along it. Lifted out of the form the face is below, so that a bar lies that much nearer to
/// the side that is pulled.
fn with_bar(rail: &RailCheck, steel: &Steel, question: &Question, grown: &StrengthHistory) -> Option<Figure<Capacity>> {
    let (bars, layer) = (steel.bars.as_ref()?, steel.bar_layer.as_ref()?);
    let look = |lies| match lies {
        Lies::Front => Some(Facing::Front),
        Lies::Behind => Some(Facing::Back),
        Lies::Left => Some(Facing::Left),
        Lies::Right => Some(Facing::Right),
        Lies::Between(_) => None,
    };
    let along = |bar: &&crate::steel::Bar| {
        bar.rails.iter().any(|own| own.cutout == rail.opening && look(own.lies) == Some(rail.look))
    };
    let count = u32::try_from(bars.bars.iter().filter(along).count()).ok().filter(|count| *count > 0)?;
    let height = question.slab.thickness;
    let steel = bar(bars.size)?.layer(count, height - layer.height.value);
    Section { width: rail.width, height, steel }.capacity(&grown.ages.stripping, question.units).ok()
}

/// What the hand check warns of: the worst place as the top is lifted, and as it is carried.
pub fn advise(cracking: &Cracking, piece: usize) -> Vec<Finding> {
    let warnings = cracking.net.iter().filter_map(|verdict| warning(verdict, cracking, piece));
    let left = untold(cracking).map(|case| left_to_the_map(case, cracking, piece));
    let hung = cracking.hung.iter().flat_map(|hung| bracket::advise(hung, cracking.question.units, piece));
    warnings.chain(left).chain(hung).collect()
}

/// The cases that the hand check should tell and cannot: what bears the top misses its weight, or too much of it.
pub(super) fn untold(cracking: &Cracking) -> impl Iterator<Item = &Case> {
    let told = |kind| cracking.net.iter().any(|verdict| verdict.kind == kind);
    cracking.question.cases.iter().filter(move |case| told_by_hand(case.kind) && !told(case.kind))
}

/// That the hand check says nothing of a case: silence would say that it holds.
pub(super) fn left_to_the_map(case: &Case, cracking: &Cracking, piece: usize) -> Finding {
    let when = said::when(case, None, &cracking.question.names);
    let field = match case.age {
        Age::Stripping => cracking.grown.decided_by,
        _ => HandlingField::CarriedAt,
    };
    Finding {
        severity: Severity::Watch,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: label!(
            "{}By hand nothing can be said of the top {}: what bears it does not lie on both sides of its weight.",
            Name::PieceInFront(piece),
            when
        ),
        remedy: "Wait for the map, “Will it crack?” on the Build screen, or take it in another way.".into(),
        source: Source::Arithmetic,
    }
}

/// What one case by hand warns of; nothing where it holds.
pub(super) fn warning(verdict: &NetVerdict, cracking: &Cracking, piece: usize) -> Option<Finding> {
    let share = verdict.utilization.value;
    if share <= 1.0 {
        return None;
    }
    let case = cracking.question.cases.get(verdict.case)?;
    let (units, age) = (cracking.question.units, case.age);
    let cracks_at = cracking.grown.ages.at(age).rupture(units).value;
    let at = cracking.grown.at(age);
    let sentence = said::sentence(&verdict.words, share, (case, None), at, &cracking.question.names);
    let severity = if share > limits::CRACKING_MARGIN { Severity::Stop } else { Severity::Watch };
    let by_three = cracking.question.cases.iter().any(|case| case.kind == verdict.kind && case.supports.len() == 3);
    let (field, remedy) = match age {
        Age::Stripping if by_three => {
            (cracking.grown.decided_by, "Wait longer, or turn it out over its long edge: see “Will it crack?”.")
        }
        Age::Stripping => (
            cracking.grown.decided_by,
            "Wait longer, hold it in the middle as well, or turn it out over its long edge: see “Will it crack?”.",
        ),
        _ => (HandlingField::CarriedAt, "Carry it on its long edge, or wait longer: see “Will it crack?”."),
    };
    Some(Finding {
        severity,
        stage: Stage::Build,
        place: FieldPath::Handling(piece, field),
        says: label!(
            "{}{} By hand the pull there is {}; {} is allowed, and it cracks at {}.",
            Name::PieceInFront(piece),
            sentence,
            verdict.tension,
            cracks_at / limits::CRACKING_MARGIN,
            cracks_at,
        ),
        remedy: cracking.grown.also_typed(remedy.to_owned(), age).into(),
        source: limits::ALLOWABLE,
    })
}
