//! The way in: whether a slab passes a doorway, a turn and a van.
//!
//! A slab is taken as the block around it. All of it is geometry; no source is needed.

use crate::measure::Length;
use uom::si::length::meter;

/// A slab that is carried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slab {
    /// Its long side.
    pub length: Length,
    /// Its other side.
    pub width: Length,
    /// As thick as it is.
    pub thickness: Length,
}

/// A clear opening: a doorway, or the back of a van.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doorway {
    /// Side to side.
    pub width: Length,
    /// Bottom to top.
    pub height: Length,
}

/// A corridor or a stair that turns square into another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Width before the turn.
    pub before: Length,
    /// Width after it.
    pub after: Length,
    /// Headroom at the turn.
    pub height: Length,
}

/// The room inside a van.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Van {
    /// Along the drive.
    pub length: Length,
    /// Across it, between the wheel arches.
    pub width: Length,
    /// Floor to roof.
    pub height: Length,
}

/// How a slab is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hold {
    /// Lying: the rails beside a cutout carry the bending of the whole slab.
    Flat,
    /// Standing on its long edge.
    OnEdge,
    /// On its long edge, leaning; in a van, standing across the floor from corner to corner.
    Tilted,
    /// Standing on its short edge.
    OnEnd,
}

/// One way of holding it there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    /// How it is held.
    pub hold: Hold,
    /// What is to spare at the tightest place, one side; negative where it does not pass.
    pub margin: Length,
}

impl Hold {
    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Flat => "Flat",
            Self::OnEdge => "On edge",
            Self::Tilted => "Tilted",
            Self::OnEnd => "On end",
        }
    }
}

impl Pass {
    /// It passes this way.
    pub fn works(&self) -> bool {
        self.margin >= -crate::measure::geometry_tolerance()
    }
}

/// Steps of a bisection: each halves what is left, so that this is down to the last bit.
const HALVINGS: u32 = 60;
/// Parts into which the turn is cut before its tightest moment is looked for.
const PARTS: u32 = 512;

fn sound(sizes: &[Length]) -> bool {
    sizes.iter().all(|size| size.value.is_finite() && size.value > 0.0)
}

fn pass(hold: Hold, margins: &[f64]) -> Pass {
    // Sizes past all measure leave no number; that does not pass.
    let number = |margin: &f64| if margin.is_nan() { f64::NEG_INFINITY } else { *margin };
    let margin = margins.iter().map(number).fold(f64::INFINITY, f64::min);
    Pass { hold, margin: Length::new::<meter>(margin) }
}

/// The best margin of a rectangle `wide` × `thick` in an opening, turned to any angle but straight.
///
/// With R its diagonal and φ the angle of that, it takes R·cos(θ − φ) of width and R·sin(θ + φ) of height.
/// From φ on, more angle frees the width and takes the height, so that the best angle is where both leave the
/// same; before φ it takes of both.
fn leaning(wide: f64, thick: f64, opening: [f64; 2]) -> f64 {
    let [width, height] = opening;
    let (wide, thick) = (wide.max(thick), wide.min(thick));
    let left = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        (width - (wide * cos + thick * sin), height - (wide * sin + thick * cos))
    };
    let diagonal = thick.atan2(wide);
    let (mut from, mut to) = (diagonal, std::f64::consts::FRAC_PI_2 - diagonal);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(from, to);
        let (beside, above) = left(middle);
        if beside < above { from = middle } else { to = middle }
    }
    let (beside, above) = left(to);
    beside.min(above)
}

/// The ways through a doorway, its length going first. Empty unless every size is over zero.
pub fn through(doorway: &Doorway, slab: &Slab) -> Vec<Pass> {
    if !sound(&[doorway.width, doorway.height, slab.length, slab.width, slab.thickness]) {
        return Vec::new();
    }
    let [width, height] = [doorway.width.value, doorway.height.value];
    let [wide, thick] = [slab.width.value, slab.thickness.value];
    vec![
        pass(Hold::Flat, &[width - wide, height - thick]),
        pass(Hold::OnEdge, &[width - thick, height - wide]),
        pass(Hold::Tilted, &[leaning(wide, thick, [width, height])]),
    ]
}

/// The longest block, `thick` across, that goes round a square turn: the least over all angles of
/// (a·sin θ + b·cos θ − t) ÷ (sin θ · cos θ). Negative where it is too thick for either width.
fn longest_round(before: f64, after: f64, thick: f64) -> f64 {
    if thick >= before.min(after) {
        return before.min(after) - thick;
    }
    let at = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        (before * sin + after * cos - thick) / (sin * cos)
    };
    let step = std::f64::consts::FRAC_PI_2 / f64::from(PARTS);
    let least = (1..PARTS).min_by(|one, other| at(f64::from(*one) * step).total_cmp(&at(f64::from(*other) * step)));
    let Some(least) = least else { return 0.0 };
    // Around its least the length is convex, so that thirds close in on it.
    let (mut from, mut to) = (f64::from(least - 1) * step, f64::from(least + 1) * step);
    for _ in 0..HALVINGS {
        let third = (to - from) / 3.0;
        if at(from + third) < at(to - third) { to -= third } else { from += third }
    }
    at(f64::midpoint(from, to))
}

/// The ways round a square turn of a corridor or a stair, turned level or moved on sideways: tipping it gains more,
/// and is not counted on. Empty unless every size is over zero.
pub fn round(corner: &Corner, slab: &Slab) -> Vec<Pass> {
    if !sound(&[corner.before, corner.after, corner.height, slab.length, slab.width, slab.thickness]) {
        return Vec::new();
    }
    let [before, after, height] = [corner.before.value, corner.after.value, corner.height.value];
    let [long, wide, thick] = [slab.length.value, slab.width.value, slab.thickness.value];
    let turned = |hold, one: f64, other: f64, up: f64| {
        let (long, across) = (one.max(other), one.min(other));
        // Where one leg is wide enough, it goes on sideways and is not turned at all.
        let longest = longest_round(before, after, across).max(before.max(after));
        pass(hold, &[longest - long, before.min(after) - across, height - up])
    };
    vec![
        turned(Hold::Flat, long, wide, thick),
        turned(Hold::OnEdge, long, thick, wide),
        turned(Hold::OnEnd, wide, thick, long),
    ]
}

/// The ways in a van, its doors shut. Empty unless every size is over zero.
pub fn inside(van: &Van, slab: &Slab) -> Vec<Pass> {
    if !sound(&[van.length, van.width, van.height, slab.length, slab.width, slab.thickness]) {
        return Vec::new();
    }
    let [along, across, height] = [van.length.value, van.width.value, van.height.value];
    let [long, wide, thick] = [slab.length.value, slab.width.value, slab.thickness.value];
    vec![
        pass(Hold::Flat, &[along - long, across - wide, height - thick]),
        pass(Hold::OnEdge, &[along - long, across - thick, height - wide]),
        pass(Hold::Tilted, &[leaning(long, thick, [along, across]), height - wide]),
    ]
}
