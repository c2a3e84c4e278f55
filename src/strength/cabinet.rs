//! What of a cabinet bears a top.

use super::cases::{Slab, Support, SupportKind, knockouts};
use super::sorted::{ascend, order_of};
use crate::job::usual;
use crate::measure::Length;
use crate::measure::exact::inches;
use kurbo::{Point, Rect};

/// The cabinet under a top, in the plane of the top.
#[derive(Clone, Debug, PartialEq)]
pub struct Cabinet {
    /// Its outside; metres.
    pub outside: Rect,
    /// Where partitions stand, from the left; metres in the plane of the top.
    pub partitions: Vec<f64>,
    /// Bays whose front and back do not bear: a sink bay, a gap for an appliance; from and to.
    pub open: Vec<(f64, f64)>,
    /// The top is fastened down along its back.
    pub fastened: bool,
    /// How far its left half lies lower than the rest: shims that miss.
    pub low_left: Length,
}

impl Cabinet {
    /// A box under the whole top, 1 in behind its front edge, with partitions beside every cutout whose bay is
    /// open. Common practice.
    pub fn under(slab: &Slab) -> Self {
        let bounds = slab.outline.bounds();
        let inch = inches(1.0).value;
        let (rail, over) = (usual::cabinet_rail().value, usual::overhang().value);
        let outside = Rect::new(bounds.x0 + rail / 2.0, bounds.y0 + over, bounds.x1 - rail / 2.0, bounds.y1);
        let bays = knockouts(slab).map(|(_, opening)| {
            let bounds = opening.bounds();
            ((bounds.x0 - 1.5 * inch).max(outside.x0), (bounds.x1 + 1.5 * inch).min(outside.x1))
        });
        let open: Vec<(f64, f64)> = bays.collect();
        let mut partitions: Vec<f64> = open.iter().flat_map(|bay| [bay.0, bay.1]).collect();
        ascend(&mut partitions);
        partitions.retain(|at| *at > outside.x0 + inch && *at < outside.x1 - inch);
        Self { outside, partitions, open, fastened: false, low_left: Length::default() }
    }

    /// Where its sides and partitions stand, from the left.
    pub(super) fn sides(&self) -> impl Iterator<Item = f64> {
        let (left, right) = (self.outside.x0, self.outside.x1);
        std::iter::once(left).chain(self.partitions.iter().copied()).chain([right])
    }

    /// What of it bears.
    pub(super) fn supports(&self) -> Vec<Support> {
        let Rect { x0, y0, x1, y1 } = self.outside;
        let mut found = Vec::new();
        let back = if self.fastened { SupportKind::FastenedBack } else { SupportKind::CabinetBack };
        for (bears, y) in [(SupportKind::CabinetFront, y0), (back, y1)] {
            for (from, to) in closed_bays(x0, x1, &self.open) {
                found.push(Support::new(bears, [Point::new(from, y), Point::new(to, y)]));
            }
        }
        for (number, x) in self.sides().enumerate() {
            found.push(Support::new(SupportKind::CabinetSide(number), [Point::new(x, y0), Point::new(x, y1)]));
        }
        let middle = f64::midpoint(x0, x1);
        for support in &mut found {
            let [from, to] = support.line;
            if from.midpoint(to).x < middle {
                support.gap = self.low_left;
            }
        }
        found
    }
}

/// What of a stretch is not taken by open bays.
fn closed_bays(from: f64, to: f64, open: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    let mut at = from;
    for (start, end) in order_of(open.iter().map(|bay| bay.0)).into_iter().filter_map(|bay| open.get(bay).copied()) {
        if start > at {
            found.push((at, start.min(to)));
        }
        at = at.max(end);
    }
    if at < to {
        found.push((at, to));
    }
    found
}
