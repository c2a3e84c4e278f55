//! How many sheets have to be bought at least.
//!
//! Two bounds, both of the enlarged sizes; the higher one counts.
//! * *Area*: parts that no sheet at hand holds need at least so much area.
//! * *Large parts*: sizes are first changed so that a part over half a sheet counts as a whole one, or one that
//!   leaves no room for anything else as all of it. A function that does this without letting a set of parts
//!   outgrow the sheet that held it is called *dual feasible*; width and length may be changed by two different
//!   ones (Fekete, Schepers: "A general framework for bounds for higher-dimensional orthogonal packing
//!   problems", 2004; from memory). Of a part that may turn the lesser of its two changed areas counts.

use super::task::{Size, TOUCH, Task};

/// Shares are made this much smaller, so that what fits but for the last bits never counts as larger.
const CLOSE: f64 = 1e-6;
/// Up to how many limits are tried along either side.
const LIMITS: usize = 16;

/// The two sides of the poses of an item, as shares of the sheet.
type Shares = [Option<(f64, f64)>; 2];

/// A dual feasible function.
#[derive(Clone, Copy)]
enum Change {
    /// As it is.
    None,
    /// All of it over one less the limit, nothing under the limit.
    Whole(f64),
    /// In steps of the limit, counted from the other end over a half.
    Steps(f64),
}

/// The number of sheets to buy that no layout comes below.
pub(super) fn least_sheets(task: &Task) -> u32 {
    let bought = || task.kinds.iter().filter(|kind| kind.bought);
    let at_hand = || task.kinds.iter().filter(|kind| !kind.bought);
    // Parts that fit no sheet to buy may have to be left out; the others never are.
    let items: Vec<[Option<Size>; 2]> = task
        .items
        .iter()
        .filter(|item| bought().any(|kind| item.fits(kind.size)))
        .map(|item| item.poses.map(|pose| pose.map(|size| Size { w: size.w - TOUCH, h: size.h - TOUCH })))
        .collect();
    let area = |size: Size| size.w * size.h;
    let largest = bought().map(|kind| area(kind.size)).fold(0.0, f64::max);
    if items.is_empty() || largest <= 0.0 {
        return 0;
    }
    let needed: f64 = items.iter().filter_map(|poses| poses[0].or(poses[1])).map(area).sum();
    let given: f64 = at_hand().map(|kind| area(kind.size) * kind.count as f64).sum();
    let by_area = whole((needed - given) / largest);
    // Any sheet lies within one that is as wide as the widest and as long as the longest.
    let all = task.kinds.iter().map(|kind| kind.size);
    let sheet = all.fold(Size { w: 0.0, h: 0.0 }, |one, other| Size { w: one.w.max(other.w), h: one.h.max(other.h) });
    let own: usize = at_hand().map(|kind| kind.count).sum();
    let by_size = whole(changed_area(&items, sheet)).saturating_sub(u32::try_from(own).unwrap_or(u32::MAX));
    by_area.max(by_size)
}

/// Whole sheets for a share of sheets; noise above a whole number is not a sheet more.
fn whole(share: f64) -> u32 {
    (share - CLOSE).ceil().max(0.0) as u32
}

/// The largest area of all parts, in sheets, that a pair of changes gives.
fn changed_area(items: &[[Option<Size>; 2]], sheet: Size) -> f64 {
    let shares: Vec<Shares> = items
        .iter()
        .map(|poses| poses.map(|pose| pose.map(|size| (size.w / sheet.w - CLOSE, size.h / sheet.h - CLOSE))))
        .collect();
    let both = || shares.iter().flatten().flatten();
    let widths = changes(both().map(|share| share.0));
    let lengths = changes(both().map(|share| share.1));
    let changed = |changes: &[Change], side: fn(&(f64, f64)) -> f64| -> Vec<Vec<[f64; 2]>> {
        let of = |change: &Change, share: &Shares| {
            share.map(|pose| pose.map_or(f64::INFINITY, |pose| change.of(side(&pose))))
        };
        changes.iter().map(|change| shares.iter().map(|share| of(change, share)).collect()).collect()
    };
    let widths = changed(&widths, |share| share.0);
    let lengths = changed(&lengths, |share| share.1);
    let mut most: f64 = 0.0;
    for widths in &widths {
        for lengths in &lengths {
            // A pose that does not exist is endless both ways.
            let area = |(w, l): (&[f64; 2], &[f64; 2])| (w[0] * l[0]).min(w[1] * l[1]);
            most = most.max(widths.iter().zip(lengths).map(area).sum());
        }
    }
    most
}

/// The changes worth trying for those shares of a side.
fn changes(shares: impl Iterator<Item = f64>) -> Vec<Change> {
    let mut limits: Vec<f64> = shares.flat_map(|share| [share, 1.0 - share]).filter(|&limit| limit > CLOSE).collect();
    limits.extend([0.5, 1.0 / 3.0, 0.25]);
    limits.retain(|&limit| limit <= 0.5);
    limits.sort_by(f64::total_cmp);
    limits.dedup_by(|one, other| (*one - *other).abs() < CLOSE);
    let every = limits.len().div_ceil(LIMITS).max(1);
    let mut changes = vec![Change::None];
    for limit in limits.into_iter().rev().step_by(every) {
        changes.extend([Change::Whole(limit), Change::Steps(limit)]);
    }
    changes
}

impl Change {
    /// The changed share; 0 to 1.
    fn of(self, share: f64) -> f64 {
        let share = share.clamp(0.0, 1.0);
        match self {
            Self::None => share,
            Self::Whole(limit) if share > 1.0 - limit => 1.0,
            Self::Whole(limit) if share < limit => 0.0,
            Self::Whole(_) => share,
            Self::Steps(limit) => {
                let most = (1.0 / limit).floor();
                if share > 0.5 {
                    1.0 - ((1.0 - share) / limit).floor() / most
                } else if share < 0.5 {
                    (share / limit).floor() / most
                } else {
                    0.5
                }
            }
        }
    }
}
