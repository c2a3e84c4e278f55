//! What bears a top along a line.

use super::cases::{Slab, long_way};
use super::limits;
use crate::measure::{Length, Pressure};
use kurbo::Point;
use serde::{Deserialize, Serialize};

/// Who or what bears along a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SupportKind {
    /// A person's hands; counted from the left, then from the front.
    Carrier(usize),
    /// A batten or a beam, counted likewise.
    Batten(usize),
    /// A batten next to the cutout whose knockout is pushed out, counted likewise.
    BesideCutout(usize),
    /// Foam that it lies on.
    Foam,
    /// The edge that stays on the bench.
    Bench,
    /// The front of the cabinet.
    CabinetFront,
    /// The back of the cabinet.
    CabinetBack,
    /// The back of the cabinet, to which it is fastened: it pulls as well.
    FastenedBack,
    /// A side or a partition of the cabinet, counted from the left.
    CabinetSide(usize),
    /// A bracket on the wall, counted from the left.
    Bracket(usize),
    /// That bracket next to the wall, where the top is fastened to it: it pulls as well.
    FastenedBracket(usize),
    /// A ledger along the wall.
    Ledger,
    /// A ledger to which the top is fastened: it pulls as well.
    FastenedLedger,
    /// A support added under a place.
    Prop,
}

impl SupportKind {
    /// How stiff it is: the force on each length of it, for each length that it gives.
    pub fn stiffness(self) -> Pressure {
        match self {
            Self::Carrier(_) => limits::hand_stiffness(),
            Self::Foam => limits::foam_stiffness(),
            _ => limits::batten_stiffness(),
        }
    }

    /// Whether it holds the top down as well as up.
    pub fn pulls(self) -> bool {
        matches!(self, Self::FastenedBack | Self::FastenedBracket(_) | Self::FastenedLedger)
    }
}

/// A line along which the top is borne. It can only push, unless the top is fastened to it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Support {
    /// Who or what it is.
    pub bears: SupportKind,
    /// From where to where; metres. What of it does not lie under the top does not bear.
    pub line: [Point; 2],
    /// How far the top comes down before it bears there: a shim that misses.
    pub gap: Length,
}

impl Support {
    pub(super) fn new(bears: SupportKind, line: [Point; 2]) -> Self {
        Self { bears, line, gap: Length::default() }
    }
}

/// A hand or a batten across the middle.
pub(super) fn middle_support(slab: &Slab) -> Support {
    let along = long_way(slab);
    let bounds = slab.outline.bounds();
    let (from, to) = (along.split(bounds.origin()), along.split((bounds.x1, bounds.y1).into()));
    let middle = f64::midpoint(from.0, to.0);
    Support::new(SupportKind::Prop, [along.join(middle, from.1), along.join(middle, to.1)])
}

/// Supports under the rails in front of and behind an opening.
pub(super) fn props(slab: &Slab, opening: usize) -> Option<[Support; 2]> {
    let bounds = slab.openings.get(opening)?.bounds();
    let outer = slab.outline.bounds();
    let middle = bounds.center().x;
    let prop = |from: f64, to: f64| Support::new(SupportKind::Prop, [(middle, from).into(), (middle, to).into()]);
    Some([prop(outer.y0, bounds.y0), prop(bounds.y1, outer.y1)])
}
