//! One way to sort for the whole room: each kind of thing that is sorted by itself would be some more kilobytes of
//! WebAssembly.

/// The indices of these numbers, the least number first, of equal ones the earlier.
pub(super) fn order_of(numbers: impl Iterator<Item = f64>) -> Vec<usize> {
    let mut pairs: Vec<(f64, usize)> = numbers.zip(0..).collect();
    sort(&mut pairs);
    pairs.into_iter().map(|pair| pair.1).collect()
}

/// Puts numbers in order, the least first.
pub(super) fn ascend(numbers: &mut [f64]) {
    let mut pairs: Vec<(f64, usize)> = numbers.iter().copied().zip(0..).collect();
    sort(&mut pairs);
    numbers.iter_mut().zip(pairs).for_each(|(number, pair)| *number = pair.0);
}

fn sort(pairs: &mut [(f64, usize)]) {
    pairs.sort_unstable_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_numbers_keep_their_order() {
        assert_eq!(order_of([2.0, -1.0, 2.0, f64::INFINITY, 0.5].into_iter()), [1, 4, 0, 2, 3]);
        let mut numbers = [0.5, f64::NAN, -3.0, 0.0];
        ascend(&mut numbers);
        assert_eq!(numbers[..3], [-3.0, 0.0, 0.5]);
        assert!(numbers[3].is_nan());
    }
}
