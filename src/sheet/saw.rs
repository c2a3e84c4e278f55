//! The cuts that make the parts of a sheet, and what is left.
//!
//! In every piece, all that lies in it first moves into its corner, so that what is left is in one place. Then
//! that cut is made which leaves the largest rest, at once or with the next cut.

use super::packing::{Laid, Open};
use super::task::{Size, TOUCH, Task};
use super::{Becomes, Cut, Piece, Place, Sheet, Travel};
use crate::measure::Length;
use uom::si::length::meter;

/// A scrap counts this much of its area when rests are compared.
const SCRAP: f64 = 1e-3;

/// A rectangle of a sheet, enlarged by the kerf.
#[derive(Clone, Copy, Debug)]
struct Region {
    x: f64,
    y: f64,
    size: Size,
}

/// A piece that is not done, and what lies in it.
struct Pending {
    piece: usize,
    region: Region,
    laid: Vec<Laid>,
}

/// A cut behind everything that ends at `at` or before, measured from the edge of the region.
#[derive(Clone, Copy, Debug)]
struct Through {
    travel: Travel,
    at: f64,
    /// What the largest rest is worth that this cut or the next one leaves.
    worth: f64,
    /// Whether nothing lies behind the cut.
    frees: bool,
}

/// What encloses some of what lies in a region.
#[derive(Clone, Copy, Debug)]
struct Around {
    low: (f64, f64),
    high: (f64, f64),
}

/// The sheets with their cuts: those at hand first, the one with the least on it last.
pub(super) fn sheets(task: &Task, mut open: Vec<Open>) -> Vec<Sheet> {
    let bought = |open: &Open| task.kinds.get(open.kind).is_some_and(|kind| kind.bought);
    open.sort_by(|one, other| bought(one).cmp(&bought(other)).then(other.used.total_cmp(&one.used)));
    open.iter().filter_map(|open| cut_up(task, open)).collect()
}

/// The sheet with its cuts; nothing if what lies on it cannot be cut right through.
pub(super) fn cut_up(task: &Task, open: &Open) -> Option<Sheet> {
    let kind = task.kinds.get(open.kind)?;
    let region = Region { x: 0.0, y: 0.0, size: kind.size };
    let mut sheet = Sheet { stock: kind.stock, pieces: vec![piece(task, region)], cuts: Vec::new() };
    // Pieces to look at now, and those that are cut the other way: when all of these are done.
    let mut now = vec![(Pending { piece: 0, region, laid: open.laid.clone() }, None)];
    let mut later = Vec::new();
    while let Some((mut pending, before)) = now.pop() {
        justify(&pending.region, &mut pending.laid);
        match best_cut(task, &pending, before) {
            Some(cut) if before.is_none_or(|before| before == cut.travel) => {
                let parts = make(task, &mut sheet, pending, cut);
                now.extend(parts.into_iter().rev().flatten().map(|part| (part, Some(cut.travel))));
            }
            Some(_) => later.push((pending, None)),
            None => {
                let becomes = becomes(task, &pending)?;
                sheet.pieces.get_mut(pending.piece)?.becomes = becomes;
            }
        }
        if now.is_empty() {
            later.reverse();
            std::mem::swap(&mut now, &mut later);
        }
    }
    Some(sheet)
}

/// A piece of that region, without the kerf.
fn piece(task: &Task, region: Region) -> Piece {
    let metres = Length::new::<meter>;
    let place = Place {
        x: metres(region.x),
        y: metres(region.y),
        width: metres(region.size.w - task.kerf),
        length: metres(region.size.h - task.kerf),
    };
    Piece { place, becomes: Becomes::Pieces }
}

/// Whether an off-cut of that enlarged size is worth keeping.
fn is_kept(task: &Task, size: Size) -> bool {
    // A whole number of kerfs and parts may miss the least side by the last bit.
    let least = size.w.min(size.h) - task.kerf;
    least > TOUCH && least + TOUCH >= task.keep
}

/// What a piece becomes that is cut no further; nothing if it should be.
fn becomes(task: &Task, pending: &Pending) -> Option<Becomes> {
    match pending.laid.as_slice() {
        [] if is_kept(task, pending.region.size) => Some(Becomes::OffCut),
        [] => Some(Becomes::Scrap),
        [laid] => Some(Becomes::Part { part: task.items.get(laid.item)?.part, turned: laid.turned }),
        _ => None,
    }
}

/// Moves all that lies in a region into its corner.
fn justify(region: &Region, laid: &mut [Laid]) {
    let Some(around) = laid.iter().map(Around::one).reduce(Around::both) else { return };
    for laid in laid {
        laid.x += region.x - around.low.0;
        laid.y += region.y - around.low.1;
    }
}

/// Makes a cut; the two parts that it leaves.
fn make(task: &Task, sheet: &mut Sheet, pending: Pending, cut: Through) -> [Option<Pending>; 2] {
    let Region { x, y, size } = pending.region;
    let (first, second, run) = match cut.travel {
        Travel::Width => (
            Region { x, y, size: Size { h: cut.at, ..size } },
            Region { x, y: y + cut.at, size: Size { h: size.h - cut.at, ..size } },
            size.w,
        ),
        Travel::Length => (
            Region { x, y, size: Size { w: cut.at, ..size } },
            Region { x: x + cut.at, y, size: Size { w: size.w - cut.at, ..size } },
            size.h,
        ),
    };
    let behind = |laid: &Laid| match cut.travel {
        Travel::Width => laid.y > second.y - TOUCH,
        Travel::Length => laid.x > second.x - TOUCH,
    };
    let (there, here) = pending.laid.into_iter().partition(behind);
    let mut add = |region, laid| {
        sheet.pieces.push(piece(task, region));
        Pending { piece: sheet.pieces.len() - 1, region, laid }
    };
    let first = add(first, here);
    // A rest within the kerf is sawdust.
    let second = (second.size.w.min(second.size.h) > task.kerf + TOUCH).then(|| add(second, there));
    sheet.cuts.push(Cut {
        piece: pending.piece,
        travel: cut.travel,
        at: Length::new::<meter>(cut.at - task.kerf),
        length: Length::new::<meter>(run - task.kerf),
        leaves: (first.piece, second.as_ref().map(|second| second.piece)),
    });
    [Some(first), second]
}

/// The cut to make next, if any can be.
fn best_cut(task: &Task, pending: &Pending, before: Option<Travel>) -> Option<Through> {
    let size = pending.region.size;
    let run = |travel: Travel| if travel == Travel::Width { size.w } else { size.h };
    let better = |one: &Through, other: &Through| {
        let noise = 1e-9 * (one.worth + other.worth);
        if (one.worth - other.worth).abs() > noise {
            return one.worth > other.worth;
        }
        let rank = |cut: &Through| (cut.frees, before == Some(cut.travel));
        match rank(one).cmp(&rank(other)) {
            std::cmp::Ordering::Equal if one.travel == other.travel => one.at < other.at,
            std::cmp::Ordering::Equal => run(one.travel) > run(other.travel),
            order => order.is_gt(),
        }
    };
    let cuts = [Travel::Width, Travel::Length].into_iter().flat_map(|travel| through_cuts(task, pending, travel));
    cuts.reduce(|best, cut| if better(&cut, &best) { cut } else { best })
}

/// All cuts right through a piece that way.
fn through_cuts(task: &Task, pending: &Pending, travel: Travel) -> Vec<Through> {
    let Region { x, y, size } = pending.region;
    let mut laid: Vec<Around> = pending.laid.iter().map(|laid| Around::one(laid).seen_from(x, y)).collect();
    laid.sort_by(|one, other| one.low(travel).total_cmp(&other.low(travel)));
    // Around each and all after it.
    let mut behind: Vec<Around> = laid
        .iter()
        .rev()
        .scan(None, |all: &mut Option<Around>, around| {
            *all = Some(all.map_or(*around, |all| all.both(*around)));
            *all
        })
        .collect();
    behind.reverse();
    let end = if travel == Travel::Width { size.h } else { size.w };
    let part = |length: f64| match travel {
        Travel::Width => Size { h: length, ..size },
        Travel::Length => Size { w: length, ..size },
    };
    let (mut cuts, mut before): (Vec<Through>, Option<Around>) = (Vec::new(), None);
    for (index, around) in laid.iter().enumerate() {
        let before_this = before.map_or(*around, |before| before.both(*around));
        before = Some(before_this);
        let at = before_this.high(travel);
        let next = behind.get(index + 1);
        if at > end - TOUCH || next.is_some_and(|next| next.low(travel) < at - TOUCH) {
            continue;
        }
        let rest = part(end - at);
        let there = next.map_or_else(|| worth(task, rest), |next| next.worth_around(task, rest));
        let worth = there.max(before_this.worth_around(task, part(at)));
        cuts.push(Through { travel, at, worth, frees: next.is_none() });
    }
    cuts
}

/// What a rest of that enlarged size is worth: its area, if it is worth keeping.
fn worth(task: &Task, size: Size) -> f64 {
    let (w, h) = (size.w - task.kerf, size.h - task.kerf);
    let share = if is_kept(task, size) { 1.0 } else { SCRAP };
    w.max(0.0) * h.max(0.0) * share
}

impl Around {
    fn one(laid: &Laid) -> Self {
        Self { low: (laid.x, laid.y), high: (laid.x + laid.size.w, laid.y + laid.size.h) }
    }

    fn both(self, other: Self) -> Self {
        Self {
            low: (self.low.0.min(other.low.0), self.low.1.min(other.low.1)),
            high: (self.high.0.max(other.high.0), self.high.1.max(other.high.1)),
        }
    }

    fn seen_from(self, x: f64, y: f64) -> Self {
        Self { low: (self.low.0 - x, self.low.1 - y), high: (self.high.0 - x, self.high.1 - y) }
    }

    fn low(&self, travel: Travel) -> f64 {
        if travel == Travel::Width { self.low.1 } else { self.low.0 }
    }

    fn high(&self, travel: Travel) -> f64 {
        if travel == Travel::Width { self.high.1 } else { self.high.0 }
    }

    /// What the better rest beside or above this is worth, in a region of that size.
    fn worth_around(&self, task: &Task, size: Size) -> f64 {
        let beside = Size { w: size.w - (self.high.0 - self.low.0), h: size.h };
        let above = Size { w: size.w, h: size.h - (self.high.1 - self.low.1) };
        worth(task, beside).max(worth(task, above))
    }
}
