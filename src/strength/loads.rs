//! The loads on one piece: what its maker typed, and the usual numbers for what is blank.

use super::bracket::Brackets;
use super::cases::{Counts, LoadAssumptions, Multiplier, Slab, knockouts, metres};
use super::inputs::{BowlInputs, StrengthInputs, WhatBears};
use super::limits;
use super::seats::Reach;
use crate::job::FormFace;
use crate::measure::{Length, geometry_tolerance, weight_of};
use crate::plane::Opening;
use crate::working::{Known, all, together};
use uom::si::f64::Force;

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
