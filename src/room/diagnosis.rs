//! When readings disagree beyond chance: which could be the wrong one, and what would tell.

use super::reading::{Corner, Taken, Wanted};
use super::survey::{Agreement, Fit, Observed, Solution, Square, Unknowns, descend, expected_deviation};
use super::{Angle, limits};
use crate::measure::Length;
use uom::si::angle::radian;
use uom::si::length::meter;

/// Whether a reading is wrong, and which. Readings are named by their place among the readings.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// No reading is spare, so none is checked.
    Unchecked,
    /// Chance alone explains how far the readings disagree.
    Agrees,
    /// One reading is wrong. With one spare it cannot be known which: the residuals of all of them
    /// follow one pattern, whichever is wrong.
    OneOf {
        /// The readings that check each other, all of which could be it.
        readings: Vec<usize>,
        /// The measurement that would tell most.
        ask: Wanted,
    },
    /// One of these is wrong, as far as the readings can tell.
    Suspects {
        /// The readings that could be it, the likeliest first; never empty.
        suspects: Vec<Suspect>,
        /// The reading to take again: it tells the suspects apart, or confirms the only one.
        settle: usize,
        /// Whether the others agree among themselves once the likeliest is left out. If not, more than
        /// one reading is wrong.
        others_agree: bool,
    },
}

/// A reading that could be the wrong one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suspect {
    /// Which reading.
    pub reading: usize,
    /// Its standardised residual.
    pub standardised: f64,
    /// What the others say it would have to be; of three marks, the distance between the marks with
    /// the same legs.
    pub would_be: Length,
}

/// By how much the squares of two standardised residuals may differ before one reading is held to be
/// likelier than the other. The square is what the sum of squares drops by when the reading is left
/// out. Of two explanations of the same readings, the difference of the drops is twice the logarithm
/// of how much likelier one is; 3.84 is what chance exceeds in 5 cases of 100 (chi-square with one
/// degree of freedom), the same as is asked of the readings as a whole.
const TOLD_APART: f64 = 3.841;

/// Correlations nearer than this are as good as each other, and the handier reading is asked for.
const AS_GOOD: f64 = 0.05;

pub(super) fn verdict(solution: &Solution<'_>, fits: &[Fit], agreement: &Agreement) -> Verdict {
    if agreement.degrees_of_freedom == 0 {
        return Verdict::Unchecked;
    }
    let checked = fits.iter().enumerate().filter_map(|(reading, fit)| Some((reading, fit.standardised?)));
    let mut checked: Vec<(usize, f64)> = checked.collect();
    checked.sort_by(|(_, one), (_, other)| other.abs().total_cmp(&one.abs()));
    let Some(&(likeliest, largest)) = checked.first().filter(|_| !agreement.holds()) else { return Verdict::Agrees };
    if agreement.degrees_of_freedom == 1 {
        let mut readings: Vec<usize> = checked.iter().map(|(reading, _)| *reading).collect();
        readings.sort_unstable();
        let ask = most_telling(solution, &readings);
        return Verdict::OneOf { readings, ask };
    }
    checked.retain(|(_, standardised)| largest * largest - standardised * standardised <= TOLD_APART);
    let suspects: Vec<Suspect> = checked
        .iter()
        .map(|&(reading, standardised)| {
            let (would_be, _) = without(solution, reading);
            Suspect { reading, standardised, would_be }
        })
        .collect();
    let (_, chi_square) = without(solution, likeliest);
    let settle = settling(solution, &suspects.iter().map(|suspect| suspect.reading).collect::<Vec<_>>());
    Verdict::Suspects { suspects, settle, others_agree: agreement.without_one(chi_square).holds() }
}

/// What the others say a reading would have to be, and the chi-square they leave.
fn without(solution: &Solution<'_>, reading: usize) -> (Length, f64) {
    let others = solution.observed.iter().enumerate().filter(|(index, _)| *index != reading);
    let others: Vec<Observed> = others.map(|(_, one)| *one).collect();
    let refitted = descend(solution.walls, &others, solution.unknowns);
    let one = &solution.observed[reading];
    let value = refitted.value(one.subject);
    let would_be = match one.taken {
        Taken::Span(..) => Length::new::<meter>(value),
        Taken::Marks(_, marks) => marks.between_at(Angle::new::<radian>(value)),
    };
    (would_be, refitted.chi_square)
}

/// How alike the residuals of every two of these readings are once that much more is known: the
/// absolute correlation of each pair. 1 is a pair that nothing tells apart.
fn likeness(solution: &Solution<'_>, readings: &[usize], more: Wanted) -> Vec<f64> {
    let row = solution.slope(more) / expected_deviation(solution, more);
    let Some(solver) = (solution.normal() + row * row.transpose()).cholesky() else { return vec![1.0] };
    let covariance: Square = solver.inverse();
    let rows: Vec<Unknowns> = solution.rows();
    let of = |one: usize, other: usize| {
        let shared = (rows[one].transpose() * covariance * rows[other])[0];
        if one == other { 1.0 - shared } else { -shared }
    };
    let mut pairs = Vec::new();
    for (position, &one) in readings.iter().enumerate() {
        for &other in &readings[position + 1..] {
            let spread = (of(one, one) * of(other, other)).sqrt();
            pairs.push(if spread > 0.0 { (of(one, other) / spread).abs().min(1.0) } else { 1.0 });
        }
    }
    pairs
}

/// With one spare reading, the measurement that would tell most pairs apart: a corner not marked yet,
/// or one of the readings again.
fn most_telling(solution: &Solution<'_>, readings: &[usize]) -> Wanted {
    let has = |wanted: Wanted| solution.observed.iter().any(|one| one.subject == wanted);
    let corners = Corner::ASKED.into_iter().filter(|&corner| solution.walls.can_be_marked(corner));
    let marks = corners.map(Wanted::Marks).filter(|&wanted| !has(wanted));
    let again = readings.iter().map(|&reading| solution.observed[reading].subject);
    let scored = marks.chain(again).map(|wanted| {
        let score: f64 = likeness(solution, readings, wanted).iter().map(|alike| alike * alike).sum();
        (wanted, score)
    });
    // Of equal ones the first: marks before readings taken again.
    let best = scored.reduce(|best, next| if next.1 < best.1 - 1e-9 { next } else { best });
    best.map_or(Wanted::Marks(Corner::BackLeft), |(wanted, _)| wanted)
}

/// The suspect that is to be read again.
fn settling(solution: &Solution<'_>, suspects: &[usize]) -> usize {
    let scored: Vec<(usize, f64)> = suspects
        .iter()
        .map(|&reading| {
            let pairs = likeness(solution, suspects, solution.observed[reading].subject);
            (reading, pairs.into_iter().fold(0.0, f64::max))
        })
        .collect();
    let least = scored.iter().map(|(_, worst)| *worst).fold(1.0, f64::min);
    let handy = |reading: usize| match solution.observed[reading].taken {
        Taken::Span(_, length) => length,
        Taken::Marks(..) => limits::usual_leg(),
    };
    let good = scored.iter().filter(|(_, worst)| *worst <= least + AS_GOOD).map(|(reading, _)| *reading);
    let shortest = good.min_by(|&one, &other| handy(one).value.total_cmp(&handy(other).value));
    shortest.or(suspects.first().copied()).unwrap_or_default()
}
