//! Chance from a seed, the same on every machine.

/// Split-mix: Steele, Lea, Flood, "Fast splittable pseudorandom number generators" (2014).
pub(super) struct Chance(u64);

impl Chance {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From 0 to under `end`; 0 where there is nothing to choose from.
    pub(super) fn below(&mut self, end: usize) -> usize {
        (self.next() % (end.max(1) as u64)) as usize
    }

    /// From 0 to under 1.
    pub(super) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of them.
    pub(super) fn one<T: Copy>(&mut self, first: T, others: &[T]) -> T {
        let index = self.below(others.len() + 1);
        others.get(index).copied().unwrap_or(first)
    }
}
