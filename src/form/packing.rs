//! Cutting lengths of stock into pieces with as few lengths as can be.

use crate::measure::Length;

/// Placings tried before the answer of the simple rule stands: far more than a job of a dozen pieces needs, and
/// over within a millisecond or two.
const MOST_TRIES: u32 = 20_000;

/// More pieces than this are not tried every other way.
const MOST_TRIED: usize = 60;

/// What every length is cut into: for each, the pieces by their index, longest first. A piece longer than the
/// stock gets a length of its own. Nothing is lost between pieces: a knife takes no kerf.
///
/// First the longest pieces go wherever they fit first; where that takes more lengths than the sum of the
/// pieces asks for, every other way is tried, up to [`MOST_TRIES`] and [`MOST_TRIED`].
pub(super) fn pack(pieces: &[Length], stock: Length) -> Vec<Vec<usize>> {
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|one, other| pieces[*other].value.total_cmp(&pieces[*one].value));
    let sizes: Vec<f64> = order.iter().map(|piece| pieces[*piece].value).collect();
    // Pieces that just fill a length may miss it by the last bit.
    let room = stock.value * (1.0 + 1e-9);
    let mut best = first_fit(&sizes, room);
    let least = (sizes.iter().sum::<f64>() / room).ceil() as usize;
    while sizes.len() <= MOST_TRIED && best.len() > least.max(1) {
        let mut search = Search { sizes: &sizes, tries: MOST_TRIES };
        let mut bins = vec![(room, Vec::new()); best.len() - 1];
        if !search.place(0, &mut bins) {
            break;
        }
        best = bins.into_iter().map(|(_, pieces)| pieces).filter(|pieces| !pieces.is_empty()).collect();
    }
    best.into_iter().map(|bin| bin.into_iter().filter_map(|position| order.get(position).copied()).collect()).collect()
}

fn first_fit(sizes: &[f64], room: f64) -> Vec<Vec<usize>> {
    let mut bins: Vec<(f64, Vec<usize>)> = Vec::new();
    for (position, size) in sizes.iter().enumerate() {
        match bins.iter_mut().find(|(left, _)| *left >= *size) {
            Some((left, pieces)) => {
                *left -= size;
                pieces.push(position);
            }
            None => bins.push((room - size, vec![position])),
        }
    }
    bins.into_iter().map(|(_, pieces)| pieces).collect()
}

struct Search<'a> {
    sizes: &'a [f64],
    tries: u32,
}

impl Search<'_> {
    /// The pieces from that one on fit into what is left.
    fn place(&mut self, position: usize, bins: &mut [(f64, Vec<usize>)]) -> bool {
        let Some(size) = self.sizes.get(position).copied() else { return true };
        let mut seen: Vec<f64> = Vec::new();
        for bin in 0..bins.len() {
            let left = bins[bin].0;
            // Of lengths with as much left, one is as good as the other.
            if left < size || seen.contains(&left) {
                continue;
            }
            if self.tries == 0 {
                return false;
            }
            self.tries -= 1;
            seen.push(left);
            bins[bin].0 -= size;
            bins[bin].1.push(position);
            if self.place(position + 1, bins) {
                return true;
            }
            bins[bin].0 = left;
            bins[bin].1.pop();
        }
        false
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::inches;

    fn lengths(pieces: &[f64], stock: f64) -> usize {
        let pieces: Vec<_> = pieces.iter().map(|piece| inches(*piece)).collect();
        let bins = pack(&pieces, inches(stock));
        let mut cut: Vec<usize> = bins.iter().flatten().copied().collect();
        cut.sort_unstable();
        assert_eq!(cut, (0..pieces.len()).collect::<Vec<_>>(), "each once");
        for bin in &bins {
            let sum: f64 = bin.iter().map(|piece| pieces[*piece].value).sum();
            assert!(sum <= inches(stock).value * (1.0 + 1e-6) || bin.len() == 1);
        }
        bins.len()
    }

    /// By hand. Longest first, 48 + 36 leaves no room for the rest of 96; 48 + 24 + 24 and 36 + 30 + 30 do.
    #[test]
    fn as_few_lengths_as_can_be() {
        assert_eq!(lengths(&[], 96.0), 0);
        assert_eq!(lengths(&[96.0], 96.0), 1);
        assert_eq!(lengths(&[48.0, 36.0, 30.0, 30.0, 24.0, 24.0], 96.0), 2);
        assert_eq!(lengths(&[48.0, 48.0, 48.1], 96.0), 2);
        assert_eq!(lengths(&[60.0, 60.0, 60.0], 96.0), 3);
        assert_eq!(lengths(&[120.0, 30.0], 96.0), 2);
        assert_eq!(lengths(&[32.0; 300], 96.0), 100);
    }
}
