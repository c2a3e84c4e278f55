//! A mix as the maker's scale weighs it.

use super::{Proportions, Role};
use crate::measure::{Mass, Volume};
use crate::mix::limits;

pub use crate::job::usual::scale_step;

/// A mix in whole steps of a scale, and what the rounding does to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// Every part, each to the nearest step.
    pub parts: Vec<(Role, Mass)>,
    /// What the rounded parts fill, air included.
    pub volume: Volume,
    /// How much of the volume wanted that is more; negative where it is less.
    pub off: f64,
    /// It fills the form as nearly as weighing can be asked to.
    pub fills: bool,
    /// Parts that want a finer scale: rounding changes them too much, or away.
    pub too_coarse: Vec<Role>,
}

impl Weighed {
    /// So much of that part; nothing where there is none.
    pub fn part(&self, role: Role) -> Mass {
        self.parts.iter().find(|(own, _)| *own == role).map(|(_, mass)| *mass).unwrap_or_default()
    }

    /// The mix in steps of that mass; `None` when the step is no mass.
    pub fn of(mix: &Proportions, step: Mass) -> Option<Self> {
        if !(step.value > 0.0 && step.value.is_finite()) {
            return None;
        }
        let nearest = |mass: Mass| (mass / step).value.round() * step;
        let parts = mix.parts.iter().map(|part| (part.role, nearest(part.mass.value))).collect();
        let filled = |part: &super::Part| part.volume * (nearest(part.mass.value) / part.mass.value).value;
        let solid: Volume = mix.parts.iter().filter(|part| part.mass.value.value > 0.0).map(filled).sum();
        let volume = solid / (1.0 - mix.air);
        let off = (volume / mix.volume).value - 1.0;
        let changed = |part: &super::Part| ((nearest(part.mass.value) - part.mass.value) / part.mass.value).value.abs();
        let too_coarse = mix.parts.iter().filter(|part| changed(part) > limits::WEIGHING_PART);
        Some(Self {
            parts,
            volume,
            off,
            fills: off.abs() <= limits::WEIGHING_VOLUME,
            too_coarse: too_coarse.map(|part| part.role).collect(),
        })
    }
}

/// So many whole steps shared out over batches in proportion to their sizes, so that they sum to the total to
/// the last step and each is within one step of its share. Sizes that are no number above zero get nothing; if
/// none is above zero, the first batch gets all.
pub fn share_out(steps: u64, sizes: &[f64]) -> Vec<u64> {
    let size = |size: &f64| if size.is_finite() { size.max(0.0) } else { 0.0 };
    let all: f64 = sizes.iter().map(size).sum();
    let (mut so_far, mut given) = (0.0, 0);
    let last = sizes.len().saturating_sub(1);
    let up_to = |index: usize, so_far: f64| {
        if index == last || !(all > 0.0 && all.is_finite()) {
            steps
        } else {
            // In range: a share of 0 to 1 of the steps.
            ((steps as f64 * (so_far / all).min(1.0)).round() as u64).min(steps)
        }
    };
    let mut shares = Vec::with_capacity(sizes.len());
    for (index, one) in sizes.iter().enumerate() {
        so_far += size(one);
        let reached = up_to(index, so_far).max(given);
        shares.push(reached - given);
        given = reached;
    }
    shares
}
