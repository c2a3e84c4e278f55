//! A plate on springs, any of which may be let go without a new factor.
//!
//! The system is factored once with all springs. Letting some of them go is a change of low rank (Woodbury): each
//! spring that is ever let go costs half a solution, and each set of them a small dense system.

use super::solver::{Factor, ForwardSolution, SolveError, System};

/// Rounds of putting right what a solution leaves over.
const REFINEMENTS: usize = 3;
/// What a solution may leave over, as a share of the load.
const LEFT_OVER: f64 = 1e-12;
/// A pivot that small beside its own diagonal means that too few springs are left; relative.
const LEAST_PIVOT: f64 = 1e-12;

/// The factor of a system with springs to the ground, and what a unit force does at each spring that was let go.
#[derive(Debug)]
pub(super) struct Held {
    springs: Vec<(usize, f64)>,
    factor: Factor,
    halves: Vec<Option<ForwardSolution>>,
    /// What a unit force at one spring does at another, spring by spring, of those that were let go.
    gives: Vec<f64>,
}

impl Held {
    pub(super) fn new(system: &System, springs: Vec<(usize, f64)>) -> Result<Self, SolveError> {
        let factor = system.factor(&springs)?;
        let (halves, gives) = (vec![None; springs.len()], vec![0.0; springs.len() * springs.len()]);
        Ok(Self { springs, factor, halves, gives })
    }

    /// The unknowns that are held, and how stiffly.
    pub(super) fn springs(&self) -> &[(usize, f64)] {
        &self.springs
    }

    /// The answer with all springs, each of which has a gap before it bears.
    pub(super) fn start(&self, load: &[f64], gaps: &[f64]) -> Vec<f64> {
        let mut right = load.to_vec();
        for ((unknown, stiffness), gap) in self.springs.iter().zip(gaps) {
            right[*unknown] += stiffness * gap;
        }
        self.factor.solve(&right)
    }

    /// The answer with those springs that bear; `all` is that of [`Self::start`]. What it leaves over is put
    /// right if `exact`.
    pub(super) fn solve(
        &mut self,
        system: &System,
        all: &[f64],
        bears: &[bool],
        load: &[f64],
        gaps: &[f64],
        exact: bool,
    ) -> Result<Vec<f64>, SolveError> {
        let loose: Vec<usize> = (0..self.springs.len()).filter(|spring| !bears[*spring]).collect();
        self.know(&loose);
        let small = Small::new(loose, self)?;
        // What the gap of a loose spring would push is taken back.
        let pushes = small.loose.iter().map(|spring| -self.springs[*spring].1 * gaps[*spring]).collect();
        let mut found = self.let_go(&small, all.to_vec(), pushes);
        if !exact {
            return Ok(found);
        }
        let held = self.springs.iter().zip(gaps).zip(bears).filter(|(_, bears)| **bears).map(|pair| pair.0);
        let springs: Vec<(usize, f64)> = held.clone().map(|pair| *pair.0).collect();
        let mut right = load.to_vec();
        for ((unknown, stiffness), gap) in held {
            right[*unknown] += stiffness * gap;
        }
        let size = right.iter().fold(0.0, |most: f64, force| most.max(force.abs()));
        for _ in 0..REFINEMENTS {
            let product = system.mul_vec(&found, &springs);
            let left: Vec<f64> = right.iter().zip(product).map(|(right, product)| right - product).collect();
            if left.iter().all(|left| left.abs() <= LEFT_OVER * size) {
                break;
            }
            let more = self.let_go(&small, self.factor.solve(&left), vec![0.0; small.loose.len()]);
            found.iter_mut().zip(more).for_each(|(found, more)| *found += more);
        }
        Ok(found)
    }

    /// Works out what a unit force does at each of these springs, where that is not known yet.
    fn know(&mut self, loose: &[usize]) {
        let new: Vec<usize> = loose.iter().copied().filter(|spring| self.halves[*spring].is_none()).collect();
        let unknowns: Vec<usize> = new.iter().map(|spring| self.springs[*spring].0).collect();
        for (spring, half) in new.into_iter().zip(self.factor.forward_substitute(&unknowns)) {
            self.halves[spring] = Some(half);
            let Some(half) = &self.halves[spring] else { continue };
            for (other, known) in self.halves.iter().enumerate() {
                let Some(known) = known else { continue };
                let give = half.dot(known);
                self.gives[spring * self.springs.len() + other] = give;
                self.gives[other * self.springs.len() + spring] = give;
            }
        }
    }

    fn give(&self, spring: usize, other: usize) -> f64 {
        self.gives[spring * self.springs.len() + other]
    }

    /// Turns an answer with all springs into one without the loose ones, at each of which a force pushes besides.
    fn let_go(&self, small: &Small, mut found: Vec<f64>, mut forces: Vec<f64>) -> Vec<f64> {
        if small.loose.is_empty() {
            return found;
        }
        let moved_at = |spring: &usize| {
            let pushed = small.loose.iter().zip(&forces).map(|(other, force)| self.give(*spring, *other) * force);
            found[self.springs[*spring].0] + pushed.sum::<f64>()
        };
        let moved = small.loose.iter().map(moved_at).collect();
        forces.iter_mut().zip(small.solve(moved)).for_each(|(force, more)| *force += more);
        let mut sum = vec![0.0; found.len()];
        for (spring, force) in small.loose.iter().zip(&forces) {
            self.halves[*spring].iter().for_each(|half| half.add_to(*force, &mut sum));
        }
        found.iter_mut().zip(self.factor.finish(sum)).for_each(|(found, more)| *found += more);
        found
    }
}

/// The dense system of the loose springs: 1 ÷ stiffness less what a unit force at one does at another, as its
/// Cholesky factor, row by row.
struct Small {
    loose: Vec<usize>,
    rows: Vec<Vec<f64>>,
}

impl Small {
    fn new(loose: Vec<usize>, held: &Held) -> Result<Self, SolveError> {
        let mut rows: Vec<Vec<f64>> = Vec::with_capacity(loose.len());
        for (index, spring) in loose.iter().enumerate() {
            let (unknown, stiffness) = held.springs[*spring];
            let mut row: Vec<f64> = loose[..=index].iter().map(|other| -held.give(*spring, *other)).collect();
            row[index] += 1.0 / stiffness;
            for other in 0..=index {
                let before = rows.get(other).unwrap_or(&row);
                let sum: f64 = row[..other].iter().zip(before).map(|(a, b)| a * b).sum();
                let value = row[other] - sum;
                if other < index {
                    row[other] = value / before[other];
                } else if value > LEAST_PIVOT / stiffness && value.is_finite() {
                    row[other] = value.sqrt();
                } else {
                    return Err(SolveError::Loose { node: unknown / 3 });
                }
            }
            rows.push(row);
        }
        Ok(Self { loose, rows })
    }

    fn solve(&self, mut right: Vec<f64>) -> Vec<f64> {
        for (index, row) in self.rows.iter().enumerate() {
            let sum: f64 = row[..index].iter().zip(&right).map(|(a, b)| a * b).sum();
            right[index] = (right[index] - sum) / row[index];
        }
        for (index, row) in self.rows.iter().enumerate().rev() {
            let value = right[index] / row[index];
            right[index] = value;
            right[..index].iter_mut().zip(row).for_each(|(before, number)| *before -= number * value);
        }
        right
    }
}
