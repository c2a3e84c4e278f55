//! A symmetric system of 3 × 3 blocks, one block row for each node, solved by Cholesky within its envelope.
//!
//! Nodes are numbered anew by reverse Cuthill and McKee, so that the envelope is narrow. Everything happens in
//! one fixed order: the same system gives the same bits.

use super::order::{Neighbours, order};
use super::products::{add, dot, dot_four, dots};
use serde::{Deserialize, Serialize};

/// Unknowns of a node.
const BLOCK: usize = 3;
/// A pivot that small beside its own diagonal means that something can still move; relative.
const LEAST_PIVOT: f64 = 1e-13;
/// Numbers in an envelope at most: 320 MB.
const MOST_NUMBERS: usize = 40_000_000;

/// Why a system is not solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SolveError {
    /// It would take too much memory.
    TooLarge,
    /// A pivot is nothing or negative: the node can move without resistance, or a number is not finite.
    Loose {
        /// Where.
        node: usize,
    },
}

/// One block, row by row.
type Block = [f64; BLOCK * BLOCK];

/// Where the numbers of a factor stand: the lower half of each block row, from its first block that is not empty.
#[derive(Clone, Debug)]
struct Envelope {
    /// Place of each node in it.
    place: Vec<usize>,
    /// First block of each row.
    first: Vec<usize>,
    /// Where each row starts; each is three scalar rows of equal length.
    start: Vec<usize>,
}

/// The system: of its lower half the blocks that are not empty.
#[derive(Clone, Debug)]
pub struct System {
    envelope: Envelope,
    /// Where the blocks of each row start.
    rows: Vec<usize>,
    /// The column of each block; the last of a row is its diagonal.
    columns: Vec<usize>,
    blocks: Vec<Block>,
}

/// The factor of a system.
#[derive(Clone, Debug)]
pub struct Factor {
    envelope: Envelope,
    numbers: Vec<f64>,
}

impl Envelope {
    fn new(place: Vec<usize>, first: Vec<usize>) -> Result<Self, SolveError> {
        let mut start = Vec::with_capacity(first.len() + 1);
        let mut total = 0;
        for (row, first) in first.iter().enumerate() {
            start.push(total);
            total += BLOCK * BLOCK * (row - first + 1);
        }
        start.push(total);
        if total > MOST_NUMBERS { Err(SolveError::TooLarge) } else { Ok(Self { place, first, start }) }
    }

    /// Length of the three scalar rows of a block row.
    fn length(&self, row: usize) -> usize {
        BLOCK * (row - self.first[row] + 1)
    }

    fn permute(&self, vector: &[f64]) -> Vec<f64> {
        let mut inner = vec![0.0; vector.len()];
        for (node, place) in self.place.iter().enumerate() {
            inner[BLOCK * place..BLOCK * (place + 1)].copy_from_slice(&vector[BLOCK * node..BLOCK * (node + 1)]);
        }
        inner
    }

    fn unpermute(&self, inner: &[f64]) -> Vec<f64> {
        let mut vector = vec![0.0; inner.len()];
        for (node, place) in self.place.iter().enumerate() {
            vector[BLOCK * node..BLOCK * (node + 1)].copy_from_slice(&inner[BLOCK * place..BLOCK * (place + 1)]);
        }
        vector
    }
}

impl System {
    /// An empty system whose blocks are those of nodes that share a triangle.
    ///
    /// # Errors
    /// An envelope too large.
    pub fn new(nodes: usize, triangles: &[[usize; 3]]) -> Result<Self, SolveError> {
        let neighbours = Neighbours::new(nodes, triangles);
        let place = order(nodes, &neighbours);
        let mut node_at = vec![0; nodes];
        place.iter().enumerate().for_each(|(node, place)| node_at[*place] = node);
        let (mut rows, mut columns, mut first) = (vec![0], Vec::new(), Vec::with_capacity(nodes));
        for (row, node) in node_at.into_iter().enumerate() {
            let before = neighbours.of(node).iter().map(|other| place[*other]).filter(|column| *column < row);
            first.push(before.clone().min().unwrap_or(row));
            columns.extend(before.chain([row]));
            rows.push(columns.len());
        }
        let blocks = vec![[0.0; BLOCK * BLOCK]; columns.len()];
        Ok(Self { envelope: Envelope::new(place, first)?, rows, columns, blocks })
    }

    /// Count of nodes.
    pub fn len(&self) -> usize {
        self.envelope.first.len()
    }

    /// It has no nodes.
    pub fn is_empty(&self) -> bool {
        self.envelope.first.is_empty()
    }

    /// Adds to the number of two unknowns, each of a node: once, for both halves.
    pub(super) fn add(&mut self, (node, own): (usize, usize), (other_node, other): (usize, usize), value: f64) {
        let places = (self.envelope.place[node], self.envelope.place[other_node]);
        let ((row, own), (column, other)) = if places.0 >= places.1 {
            ((places.0, own), (places.1, other))
        } else {
            ((places.1, other), (places.0, own))
        };
        let from = self.rows[row];
        let Some(at) = self.columns[from..self.rows[row + 1]].iter().position(|one| *one == column) else { return };
        let block = &mut self.blocks[from + at];
        block[BLOCK * own + other] += value;
        if row == column && own != other {
            block[BLOCK * other + own] += value;
        }
    }

    /// The numbers that are not nothing, each with the unknowns of its row and its column: for whoever solves the
    /// system otherwise.
    pub fn entries(&self) -> Vec<(usize, usize, f64)> {
        let mut node_at = vec![0; self.len()];
        self.envelope.place.iter().enumerate().for_each(|(node, place)| node_at[*place] = node);
        let mut found = Vec::new();
        for (row, node) in node_at.iter().enumerate() {
            for at in self.rows[row]..self.rows[row + 1] {
                let other = node_at[self.columns[at]];
                for (index, value) in self.blocks[at].iter().enumerate().filter(|(_, value)| **value != 0.0) {
                    let (one, two) = (BLOCK * node + index / BLOCK, BLOCK * other + index % BLOCK);
                    found.push((one, two, *value));
                    if *node != other {
                        found.push((two, one, *value));
                    }
                }
            }
        }
        found
    }

    /// The system times a vector, plus springs to the ground at some unknowns.
    pub fn mul_vec(&self, vector: &[f64], springs: &[(usize, f64)]) -> Vec<f64> {
        let inner = self.envelope.permute(vector);
        let mut product = vec![0.0; inner.len()];
        for row in 0..self.len() {
            let at = BLOCK * row;
            for index in self.rows[row]..self.rows[row + 1] {
                let (block, other) = (&self.blocks[index], BLOCK * self.columns[index]);
                for own in 0..BLOCK {
                    for two in 0..BLOCK {
                        let number = block[BLOCK * own + two];
                        product[at + own] += number * inner[other + two];
                        // The diagonal block stands whole; the others stand for both halves.
                        if at != other {
                            product[other + two] += number * inner[at + own];
                        }
                    }
                }
            }
        }
        let mut outer = self.envelope.unpermute(&product);
        for (unknown, stiffness) in springs {
            outer[*unknown] += stiffness * vector[*unknown];
        }
        outer
    }

    /// The factor of the system with springs to the ground at some unknowns.
    ///
    /// # Errors
    /// A pivot that is nothing: something can still move.
    pub fn factor(&self, springs: &[(usize, f64)]) -> Result<Factor, SolveError> {
        let envelope = self.envelope.clone();
        let mut numbers = vec![0.0; envelope.start.last().copied().unwrap_or(0)];
        for row in 0..self.len() {
            let length = envelope.length(row);
            for index in self.rows[row]..self.rows[row + 1] {
                let from = envelope.start[row] + BLOCK * (self.columns[index] - envelope.first[row]);
                for (own, values) in self.blocks[index].chunks_exact(BLOCK).enumerate() {
                    numbers[from + own * length..][..BLOCK].copy_from_slice(values);
                }
            }
        }
        for (unknown, stiffness) in springs {
            let (row, own) = (envelope.place[unknown / BLOCK], unknown % BLOCK);
            let length = envelope.length(row);
            numbers[envelope.start[row] + own * length + length - BLOCK + own] += stiffness;
        }
        let mut made = Factor { envelope, numbers };
        for row in 0..self.len() {
            if !made.factor_row(row) {
                let node = self.envelope.place.iter().position(|place| *place == row).unwrap_or(0);
                return Err(SolveError::Loose { node });
            }
        }
        Ok(made)
    }
}

impl Factor {
    /// Turns one block row into that of the factor; false if a pivot fails.
    fn factor_row(&mut self, row: usize) -> bool {
        let Envelope { first: firsts, start: starts, .. } = &self.envelope;
        let (first, from, to) = (firsts[row], starts[row], starts[row + 1]);
        let (before, rest) = self.numbers.split_at_mut(from);
        let own = &mut rest[..to - from];
        let length = BLOCK * (row - first + 1);
        for column in first..row {
            let other_first = firsts[column];
            let shared = first.max(other_first);
            let count = BLOCK * (column - shared);
            let other = &before[starts[column]..starts[column + 1]];
            let other_length = BLOCK * (column - other_first + 1);
            let (at, other_at) = (BLOCK * (shared - first), BLOCK * (shared - other_first));
            let taken = if count > 0 {
                dots(
                    [0, 1, 2].map(|k| &own[k * length + at..][..count]),
                    [0, 1, 2].map(|k| &other[k * other_length + other_at..][..count]),
                )
            } else {
                [[0.0; BLOCK]; BLOCK]
            };
            let diagonal = BLOCK * (column - other_first);
            for (k, taken) in taken.iter().enumerate() {
                let here = k * length + BLOCK * (column - first);
                for j in 0..BLOCK {
                    let mut value = own[here + j] - taken[j];
                    for i in 0..j {
                        value -= own[here + i] * other[j * other_length + diagonal + i];
                    }
                    own[here + j] = value / other[j * other_length + diagonal + j];
                }
            }
        }
        factor_diagonal(own, length)
    }
}

/// The diagonal block of a row, which is its last; the upper half is cleared.
fn factor_diagonal(own: &mut [f64], length: usize) -> bool {
    let before = length - BLOCK;
    for k in 0..BLOCK {
        for j in 0..=k {
            let at = k * length + before + j;
            let wanted = own[at];
            let (one, other) = (&own[k * length..][..before + j], &own[j * length..][..before + j]);
            let value = wanted - dot(one, other);
            if j < k {
                own[at] = value / own[j * length + before + j];
            } else if value > LEAST_PIVOT * wanted && value.is_finite() {
                own[at] = value.sqrt();
            } else {
                return false;
            }
        }
        for j in k + 1..BLOCK {
            own[k * length + before + j] = 0.0;
        }
    }
    true
}

/// Right-hand sides solved side by side: each number of the factor is read once for all of them.
const TOGETHER: usize = 4;

impl Factor {
    /// Solves for one right-hand side, of three numbers for each node.
    pub fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut x = self.envelope.permute(right);
        for row in 0..self.envelope.first.len() {
            for own in 0..BLOCK {
                let (numbers, from) = self.row(row, own);
                let (before, rest) = x.split_at_mut(BLOCK * row + own);
                let Some((pivot, numbers)) = numbers.split_last() else { continue };
                rest[0] = (rest[0] - dot(numbers, &before[from..])) / pivot;
            }
        }
        self.finish(x)
    }

    /// Solves from what [`Self::half`] makes of a right-hand side.
    pub(super) fn finish(&self, mut x: Vec<f64>) -> Vec<f64> {
        for row in (0..self.envelope.first.len()).rev() {
            for own in (0..BLOCK).rev() {
                let (numbers, from) = self.row(row, own);
                let (before, rest) = x.split_at_mut(BLOCK * row + own);
                let Some((pivot, numbers)) = numbers.split_last() else { continue };
                rest[0] /= pivot;
                add(-rest[0], numbers, &mut before[from..]);
            }
        }
        self.envelope.unpermute(&x)
    }

    /// For a unit force at each of these unknowns, what is half way to its answer, and from where on that is not
    /// nothing: the product of two halves is what the one force does at the other, and [`Self::finish`] makes the
    /// answer of a half.
    pub(super) fn forward_substitute(&self, unknowns: &[usize]) -> Vec<ForwardSolution> {
        let mut found = Vec::with_capacity(unknowns.len());
        for group in unknowns.chunks(TOGETHER) {
            let places = group.iter().map(|unknown| BLOCK * self.envelope.place[unknown / BLOCK] + unknown % BLOCK);
            let first = places.clone().min().unwrap_or(0) / BLOCK;
            let mut lanes = vec![[0.0; TOGETHER]; BLOCK * self.envelope.first.len()];
            places.enumerate().for_each(|(lane, place)| lanes[place][lane] = 1.0);
            self.forward(&mut lanes, first);
            for lane in 0..group.len() {
                let values = lanes[BLOCK * first..].iter().map(|values| values[lane]).collect();
                found.push(ForwardSolution { from: BLOCK * first, values });
            }
        }
        found
    }

    /// A scalar row from its first number to its pivot, and where it begins.
    fn row(&self, row: usize, own: usize) -> (&[f64], usize) {
        let length = self.envelope.length(row);
        let from = self.envelope.start[row] + own * length;
        (&self.numbers[from..from + length - BLOCK + own + 1], BLOCK * self.envelope.first[row])
    }

    /// The first half of solving: of right-hand sides that are nothing before that block row.
    fn forward(&self, x: &mut [[f64; TOGETHER]], first: usize) {
        for row in first..self.envelope.first.len() {
            for own in 0..BLOCK {
                let (numbers, from) = self.row(row, own);
                let (before, rest) = x.split_at_mut(BLOCK * row + own);
                let Some((pivot, numbers)) = numbers.split_last() else { continue };
                let skipped = (BLOCK * first).saturating_sub(from).min(numbers.len());
                let sums = dot_four(&numbers[skipped..], &before[from + skipped..]);
                rest[0].iter_mut().zip(sums).for_each(|(value, sum)| *value = (*value - sum) / pivot);
            }
        }
    }
}

/// A right-hand side half way to its answer.
#[derive(Clone, Debug)]
pub(super) struct ForwardSolution {
    from: usize,
    values: Vec<f64>,
}

impl ForwardSolution {
    /// The product of two of them.
    pub(super) fn dot(&self, other: &Self) -> f64 {
        let from = self.from.max(other.from);
        dot(&self.values[from - self.from..], &other.values[from - other.from..])
    }

    /// Adds so much of it to another one, which begins at the first unknown.
    pub(super) fn add_to(&self, times: f64, sum: &mut [f64]) {
        add(times, &self.values, &mut sum[self.from..]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A strip of triangles, each with a matrix that has a known answer.
    fn strip(nodes: usize) -> System {
        let triangles: Vec<[usize; 3]> = (0..nodes - 2).map(|k| [k, k + 1, k + 2]).collect();
        let mut system = System::new(nodes, &triangles).expect("small");
        for corners in &triangles {
            for (a, one) in corners.iter().enumerate() {
                for (b, other) in corners.iter().enumerate().take(a + 1) {
                    for own in 0..BLOCK {
                        for two in 0..if a == b { own + 1 } else { BLOCK } {
                            let value = if (a, own) == (b, two) { 9.0 + own as f64 } else { 0.3 * (own + b) as f64 };
                            system.add((*one, own), (*other, two), value);
                        }
                    }
                }
            }
        }
        system
    }

    #[test]
    fn the_product_of_the_answer_is_the_right_hand_side() {
        for nodes in [3, 4, 17, 60] {
            let system = strip(nodes);
            let springs = [(0, 5.0), (3 * nodes - 1, 2.0)];
            let wanted: Vec<f64> = (0..3 * nodes).map(|k| ((k * 7919) % 101) as f64 / 50.0 - 1.0).collect();
            let right = system.mul_vec(&wanted, &springs);
            let found = system.factor(&springs).expect("positive").solve(&right);
            for (found, wanted) in found.iter().zip(&wanted) {
                assert!((found - wanted).abs() < 1e-12, "{found} is not {wanted}");
            }
        }
    }

    #[test]
    fn a_bad_pivot_is_an_error() {
        let empty = System::new(5, &[[0, 1, 2], [2, 3, 4]]).expect("small");
        assert!(matches!(empty.factor(&[]), Err(SolveError::Loose { .. })));
        assert!(matches!(strip(9).factor(&[(4, f64::NAN)]), Err(SolveError::Loose { .. })));
        assert!(matches!(strip(9).factor(&[(4, -1e6)]), Err(SolveError::Loose { node: 1 })));
    }
}
