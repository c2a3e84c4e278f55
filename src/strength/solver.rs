//! A symmetric system of 3 × 3 blocks, one block row for each node, solved by Cholesky within its envelope.
//!
//! Nodes are numbered anew by reverse Cuthill and McKee, so that the envelope is narrow. Everything happens in
//! one fixed order: the same system gives the same bits.

use super::order::{Neighbours, order};

/// Unknowns of a node.
const BLOCK: usize = 3;
/// A pivot that small beside its own diagonal means that something can still move; relative.
const LEAST_PIVOT: f64 = 1e-13;
/// Numbers in an envelope at most: 320 MB.
const MOST_NUMBERS: usize = 40_000_000;

/// Why a system is not solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SolveError {
    /// It would take too much memory.
    TooLarge,
    /// A pivot is nothing or negative: the node can move without resistance, or a number is not finite.
    Loose {
        /// Where.
        node: usize,
    },
}

/// The system: the lower half of each block row, from its first block that is not empty.
#[derive(Clone, Debug)]
pub struct System {
    /// Place of each node in the envelope.
    place: Vec<usize>,
    /// First block of each row.
    first: Vec<usize>,
    /// Where each row starts; each is three scalar rows of equal length.
    start: Vec<usize>,
    numbers: Vec<f64>,
}

/// The factor of a system.
#[derive(Clone, Debug)]
pub struct Factor(System);

impl System {
    /// An empty system whose blocks are those of nodes that share a triangle.
    ///
    /// # Errors
    /// An envelope too large.
    pub fn new(nodes: usize, triangles: &[[usize; 3]]) -> Result<Self, SolveError> {
        let place = order(nodes, &Neighbours::new(nodes, triangles));
        let mut first: Vec<usize> = (0..nodes).collect();
        for corners in triangles {
            let places = corners.map(|corner| place[corner]);
            let least = places.into_iter().min().unwrap_or(0);
            for row in places {
                first[row] = first[row].min(least);
            }
        }
        let mut start = Vec::with_capacity(nodes + 1);
        let mut total = 0;
        for (row, first) in first.iter().enumerate() {
            start.push(total);
            total += BLOCK * BLOCK * (row - first + 1);
        }
        start.push(total);
        if total > MOST_NUMBERS {
            return Err(SolveError::TooLarge);
        }
        Ok(Self { place, first, start, numbers: vec![0.0; total] })
    }

    /// Count of nodes.
    pub fn len(&self) -> usize {
        self.first.len()
    }

    /// It has no nodes.
    pub fn is_empty(&self) -> bool {
        self.first.is_empty()
    }

    /// Where the number of those two unknowns stands, the one of the later node first.
    fn index(&self, row: usize, own: usize, column: usize, other: usize) -> usize {
        let length = BLOCK * (row - self.first[row] + 1);
        self.start[row] + own * length + BLOCK * (column - self.first[row]) + other
    }

    /// Adds to the number of two unknowns, each of a node: once, for both halves.
    pub(super) fn add(&mut self, (node, own): (usize, usize), (other_node, other): (usize, usize), value: f64) {
        let (row, column) = (self.place[node], self.place[other_node]);
        let at = if row >= column { self.index(row, own, column, other) } else { self.index(column, other, row, own) };
        self.numbers[at] += value;
        if row == column && own != other {
            let at = self.index(row, other, column, own);
            self.numbers[at] += value;
        }
    }

    /// The system times a vector, plus springs to the ground at some unknowns.
    pub fn times(&self, vector: &[f64], springs: &[(usize, f64)]) -> Vec<f64> {
        let inner = self.inward(vector);
        let mut product = vec![0.0; inner.len()];
        for row in 0..self.len() {
            let (first, length) = (BLOCK * self.first[row], BLOCK * (row - self.first[row] + 1));
            for own in 0..BLOCK {
                let from = self.start[row] + own * length;
                let numbers = &self.numbers[from..from + length];
                let at = BLOCK * row + own;
                let mut sum = 0.0;
                // The last block is the diagonal one and stands whole; the others stand for both halves.
                let others = length - BLOCK;
                for (offset, number) in numbers.iter().enumerate() {
                    sum += number * inner[first + offset];
                    if offset < others {
                        product[first + offset] += number * inner[at];
                    }
                }
                product[at] += sum;
            }
        }
        let mut outer = self.outward(&product);
        for (unknown, stiffness) in springs {
            outer[*unknown] += stiffness * vector[*unknown];
        }
        outer
    }

    fn inward(&self, vector: &[f64]) -> Vec<f64> {
        let mut inner = vec![0.0; vector.len()];
        for (node, place) in self.place.iter().enumerate() {
            inner[BLOCK * place..BLOCK * (place + 1)].copy_from_slice(&vector[BLOCK * node..BLOCK * (node + 1)]);
        }
        inner
    }

    fn outward(&self, inner: &[f64]) -> Vec<f64> {
        let mut vector = vec![0.0; inner.len()];
        for (node, place) in self.place.iter().enumerate() {
            vector[BLOCK * node..BLOCK * (node + 1)].copy_from_slice(&inner[BLOCK * place..BLOCK * (place + 1)]);
        }
        vector
    }

    /// The factor of the system with springs to the ground at some unknowns.
    ///
    /// # Errors
    /// A pivot that is nothing: something can still move.
    pub fn factor(&self, springs: &[(usize, f64)]) -> Result<Factor, SolveError> {
        let mut made = self.clone();
        for (unknown, stiffness) in springs {
            let (node, own) = (unknown / BLOCK, unknown % BLOCK);
            made.add((node, own), (node, own), *stiffness);
        }
        for row in 0..made.len() {
            if !made.factor_row(row) {
                let node = made.place.iter().position(|place| *place == row).unwrap_or(0);
                return Err(SolveError::Loose { node });
            }
        }
        Ok(Factor(made))
    }

    /// Turns one block row into that of the factor; false if a pivot fails.
    fn factor_row(&mut self, row: usize) -> bool {
        let (first, from, to) = (self.first[row], self.start[row], self.start[row + 1]);
        let (before, rest) = self.numbers.split_at_mut(from);
        let own = &mut rest[..to - from];
        let length = BLOCK * (row - first + 1);
        for column in first..row {
            let other_first = self.first[column];
            let shared = first.max(other_first);
            let count = BLOCK * (column - shared);
            let other = &before[self.start[column]..self.start[column + 1]];
            let other_length = BLOCK * (column - other_first + 1);
            let (at, other_at) = (BLOCK * (shared - first), BLOCK * (shared - other_first));
            let dots = if count > 0 {
                block_dots(
                    [0, 1, 2].map(|k| &own[k * length + at..][..count]),
                    [0, 1, 2].map(|k| &other[k * other_length + other_at..][..count]),
                )
            } else {
                [[0.0; BLOCK]; BLOCK]
            };
            let diagonal = BLOCK * (column - other_first);
            for (k, dots) in dots.iter().enumerate() {
                let here = k * length + BLOCK * (column - first);
                for j in 0..BLOCK {
                    let mut value = own[here + j] - dots[j];
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

fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// The nine products of three rows with three others. Nearly all of the work is done here: two lanes side by
/// side, so that the compiler can keep them in one register.
fn block_dots(own: [&[f64]; BLOCK], other: [&[f64]; BLOCK]) -> [[f64; BLOCK]; BLOCK] {
    const LANES: usize = 2;
    let mut sums = [[[0.0; LANES]; BLOCK]; BLOCK];
    let [a, b, c] = own.map(|row| row.chunks_exact(LANES));
    let [d, e, f] = other.map(|row| row.chunks_exact(LANES));
    let rest = own.map(|row| row.len() % LANES);
    for (((a, b), c), ((d, e), f)) in a.zip(b).zip(c).zip(d.zip(e).zip(f)) {
        for (k, one) in [a, b, c].into_iter().enumerate() {
            for (j, two) in [d, e, f].into_iter().enumerate() {
                for lane in 0..LANES {
                    sums[k][j][lane] += one[lane] * two[lane];
                }
            }
        }
    }
    let mut found = sums.map(|row| row.map(|lanes| lanes[0] + lanes[1]));
    if rest[0] > 0 {
        for k in 0..BLOCK {
            for j in 0..BLOCK {
                found[k][j] += own[k].last().zip(other[j].last()).map_or(0.0, |(a, b)| a * b);
            }
        }
    }
    found
}

/// Right-hand sides solved side by side: each number of the factor is read once for all of them.
pub(super) const TOGETHER: usize = 4;

impl Factor {
    /// Solves for one right-hand side.
    pub(super) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut lanes: Vec<[f64; 1]> = self.0.inward(right).into_iter().map(|value| [value]).collect();
        self.solve_lanes(&mut lanes);
        self.0.outward(&lanes.into_iter().map(|[value]| value).collect::<Vec<_>>())
    }

    /// The answers to a unit force at each of these unknowns.
    pub(super) fn solve_units(&self, unknowns: &[usize]) -> Vec<Vec<f64>> {
        let mut found = Vec::with_capacity(unknowns.len());
        for group in unknowns.chunks(TOGETHER) {
            let mut lanes = vec![[0.0; TOGETHER]; BLOCK * self.0.len()];
            for (lane, unknown) in group.iter().enumerate() {
                lanes[BLOCK * self.0.place[unknown / BLOCK] + unknown % BLOCK][lane] = 1.0;
            }
            self.solve_lanes(&mut lanes);
            for lane in 0..group.len() {
                found.push(self.0.outward(&lanes.iter().map(|values| values[lane]).collect::<Vec<_>>()));
            }
        }
        found
    }

    fn solve_lanes<const LANES: usize>(&self, x: &mut [[f64; LANES]]) {
        let System { first, start, numbers, .. } = &self.0;
        let row_of = |row: usize, k: usize| {
            let length = BLOCK * (row - first[row] + 1);
            (&numbers[start[row] + k * length..][..length], BLOCK * first[row], length - BLOCK + k)
        };
        for row in 0..first.len() {
            for k in 0..BLOCK {
                let (numbers, from, count) = row_of(row, k);
                let (before, own) = x.split_at_mut(BLOCK * row + k);
                let mut sum = [0.0; LANES];
                for (number, values) in numbers[..count].iter().zip(&before[from..]) {
                    for lane in 0..LANES {
                        sum[lane] += number * values[lane];
                    }
                }
                for lane in 0..LANES {
                    own[0][lane] = (own[0][lane] - sum[lane]) / numbers[count];
                }
            }
        }
        for row in (0..first.len()).rev() {
            for k in (0..BLOCK).rev() {
                let (numbers, from, count) = row_of(row, k);
                let (before, own) = x.split_at_mut(BLOCK * row + k);
                own[0].iter_mut().for_each(|value| *value /= numbers[count]);
                for (number, values) in numbers[..count].iter().zip(&mut before[from..]) {
                    for lane in 0..LANES {
                        values[lane] -= number * own[0][lane];
                    }
                }
            }
        }
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
            let right = system.times(&wanted, &springs);
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
