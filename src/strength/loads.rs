//! What bears down on a top, and how often its own weight counts: as its maker typed it, else with the usual numbers.

use super::bracket::Brackets;
use super::cabinet::Cabinet;
use super::cases::{Case, Slab, knockouts, metres};
use super::inputs::{BowlInputs, StrengthInputs, WhatBears};
use super::limits;
use super::seats::Reach;
use crate::job::{FormFace, usual};
use crate::measure::exact::inches;
use crate::measure::{Length, Quantity, geometry_tolerance, weight_of};
use crate::plane::Opening;
use crate::working::{Figure, Known, Label, Source, Term, all, together};
use kurbo::Rect;
use serde::{Deserialize, Serialize};
use uom::si::f64::Force;

/// What bears down besides the weight of the top.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Load {
    /// Spread over a rectangle.
    Patch {
        /// The rectangle; metres.
        area: Rect,
        /// The whole force.
        force: Force,
    },
    /// Spread along the part of an opening's edge that lies in a rectangle.
    Rim {
        /// Which opening.
        opening: usize,
        /// The rectangle; metres.
        within: Rect,
        /// The whole force.
        force: Force,
    },
}

/// Why the weight of a top counts as often as it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Counts {
    /// It rests: once.
    AtRest,
    /// It leaves a smooth form.
    Smooth,
    /// It leaves a smooth form in which it clings to knockouts.
    Knockouts,
    /// It leaves a rough or sculptured liner.
    Rough,
    /// It is carried.
    Carried,
    /// It travels.
    Van,
    /// The maker says so.
    Typed,
}

impl Counts {
    /// The reason in words, for a working.
    pub fn words(self) -> &'static str {
        match self {
            Self::AtRest => "at rest",
            Self::Smooth => "out of a smooth form",
            Self::Knockouts => "out of a smooth form with knockouts in it",
            Self::Rough => "off a rough or sculptured liner",
            Self::Carried => "a jolt as it is carried",
            Self::Van => "a jolt in the van",
            Self::Typed => "as typed",
        }
    }

    /// How often the weight counts, as the line of a working.
    pub(super) fn times(self, times: f64) -> Figure<f64> {
        let label = Label::with("weight counts times, {}", [Quantity::Words(self.words().into())]);
        Term::stated_as(times, label, Quantity::Number(times, 2), self.source()).ended("Weight counts times")
    }

    /// Where the number comes from.
    pub fn source(self) -> Source {
        match self {
            Self::Typed => Source::Typed,
            Self::AtRest | Self::Smooth | Self::Knockouts | Self::Rough | Self::Carried | Self::Van => {
                limits::MULTIPLIERS
            }
        }
    }
}

/// What weight is multiplied by, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Multiplier {
    /// How many times the weight of the top counts.
    pub times: f64,
    /// Why it counts so often.
    pub counts: Counts,
}

impl Multiplier {
    /// The usual number for that reason.
    pub fn usual(counts: Counts) -> Self {
        let times = match counts {
            Counts::AtRest | Counts::Typed => 1.0,
            Counts::Smooth => limits::STRIPPING,
            Counts::Knockouts => limits::STRIPPING_KNOCKOUTS,
            Counts::Rough => limits::STRIPPING_ROUGH,
            Counts::Carried => limits::HANDLING,
            Counts::Van => limits::TRAVEL,
        };
        Self { times, counts }
    }

    /// A number that was typed: what is added to the weight, as a share of it.
    pub fn typed(more: f64) -> Self {
        Self { times: 1.0 + more, counts: Counts::Typed }
    }
}

/// Of the push that drives out a board, what is left when foam is dug out. Common practice, no source.
pub(super) const FOAM_SHARE: f64 = 0.1;

/// What is left of the push where the knockout is dug out.
pub(super) fn dig_out(case: &mut Case) {
    for load in &mut case.loads {
        if let Load::Rim { force, .. } = load {
            *force *= FOAM_SHARE;
        }
    }
}

/// The usual numbers of every case, to be changed by the maker.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadAssumptions {
    /// What weight is multiplied by at stripping: suction.
    pub stripping: Multiplier,
    /// What weight is multiplied by when the top is carried.
    pub handling: Multiplier,
    /// What weight is multiplied by in the van.
    pub van: Multiplier,
    /// How far from the edge hands and battens at the ends bear.
    pub grip: Length,
    /// Width over which one person's hands bear.
    pub reach: Length,
    /// Battens of a rack, and hands on the long edges: from each end, as a share of the length.
    pub rack: f64,
    /// The push that drives out a knockout.
    pub push: Force,
    /// The weight of a person.
    pub person: Force,
    /// Width and depth of what that person sits on.
    pub seat: Length,
    /// The cabinet; nothing leaves out its cases.
    pub cabinet: Option<Cabinet>,
    /// The brackets on the wall that bear it in the place of a cabinet.
    pub brackets: Option<Brackets>,
    /// The bowls that hang in its cutouts or on their rims, full of water: each by its cutout, with its weight.
    pub bowls: Vec<(usize, Force)>,
    /// Where the top reaches over the cabinet so far that a person sits out there.
    pub overhangs: Vec<Reach>,
}

impl LoadAssumptions {
    /// The usual ones for a top. A push of 100 lb and a person of 300 lb on 4 in square: common practice, no
    /// source.
    pub fn usual(slab: &Slab) -> Self {
        Self {
            stripping: Multiplier::usual(if slab.cutouts > 0 { Counts::Knockouts } else { Counts::Smooth }),
            handling: Multiplier::usual(Counts::Carried),
            van: Multiplier::usual(Counts::Van),
            grip: limits::grip(),
            reach: inches(16.0),
            rack: limits::LEAST_BENDING,
            push: weight_of(usual::push()),
            person: weight_of(usual::person()),
            seat: inches(4.0),
            cabinet: Some(Cabinet::under(slab)),
            brackets: None,
            bowls: Vec::new(),
            overhangs: Vec::new(),
        }
    }
}

impl LoadAssumptions {
    /// The numbers of every case of a piece, as typed, else as usual; `brackets` bear it, as far as they are known. What
    /// is still asked for of brackets leaves out what happens in use, and nothing else.
    ///
    /// # Errors
    /// What is typed and cannot be read, or does not fit the top.
    pub(super) fn of(slab: &Slab, inputs: &StrengthInputs, brackets: Option<&Brackets>) -> Known<Self> {
        let cabinet = match &inputs.bears {
            WhatBears::Cabinet(cabinet) => cabinet.known().map(Some),
            WhatBears::Wall(_) => Ok(None),
        };
        let (suction, jolt, van, push, person, cabinet) = together((
            inputs.suction.clone(),
            inputs.jolt.clone(),
            inputs.van.clone(),
            inputs.push.clone(),
            inputs.person.clone(),
            cabinet,
        ))?;
        let cabinet = cabinet.map(|typed| typed.under(slab)).transpose();
        let (bowls, cabinet) = together((bowls(slab, &inputs.bowls), cabinet))?;
        let usual = Self::usual(slab);
        let clings = match inputs.face {
            FormFace::Smooth => usual.stripping,
            FormFace::Rough => Multiplier::usual(Counts::Rough),
        };
        let (cabinet, overhangs) = cabinet.map_or_else(Default::default, |(cabinet, over)| (Some(cabinet), over));
        Ok(Self {
            stripping: suction.map_or(clings, Multiplier::typed),
            handling: jolt.map_or(usual.handling, Multiplier::typed),
            van: van.map_or(usual.van, Multiplier::typed),
            push: weight_of(push),
            person: weight_of(person),
            cabinet,
            brackets: brackets.cloned(),
            bowls,
            overhangs,
            ..usual
        })
    }
}

/// What hangs in the cutouts: every bowl full of water, a box as wide and deep as its hole. A cutout too small for a bowl
/// has none, unless its depth is typed.
fn bowls(slab: &Slab, typed: &[BowlInputs]) -> Known<Vec<(usize, Force)>> {
    let known = knockouts(slab)
        .zip(typed)
        .map(|((opening, shape), typed)| Ok(bowl(shape, typed)?.map(|force| (opening, force))));
    Ok(all(known)?.into_iter().flatten().collect())
}

fn bowl(shape: &Opening, typed: &BowlInputs) -> Known<Option<Force>> {
    let (depth, empty) = together((typed.depth.clone(), typed.mass.clone()))?;
    let bounds = shape.bounds();
    let has_one = bounds.width().min(bounds.height()) >= (limits::bowl_least() - geometry_tolerance()).value;
    let depth = match depth {
        Some(depth) => depth,
        None if has_one => typed.usual_depth.clone()?,
        None => Length::default(),
    };
    let water = metres(bounds.width()) * metres(bounds.height()) * depth * limits::water();
    Ok((depth > Length::default()).then(|| weight_of(water + empty)))
}

/// Where a top reaches over its cabinet so far that a person sits out there: where that was typed.
pub(super) fn reaches([front, left, right]: [Option<Length>; 3]) -> Vec<Reach> {
    let typed = [(Reach::Front, front), (Reach::Left, left), (Reach::Right, right)];
    typed.into_iter().filter_map(|(reach, length)| length.map(|_| reach)).collect()
}
