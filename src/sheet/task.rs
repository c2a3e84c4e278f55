//! The task as the search sees it: every size enlarged by the kerf, in metres.

use super::{MOST_PARTS, Part, Stock, Supply, Unplaced, Why};
use crate::plane::LARGEST;
use uom::si::length::meter;

/// What is nearer than this touches: 0.0001 mm, in metres.
pub(super) const TOUCH: f64 = 1e-7;

/// A size, enlarged by the kerf.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Size {
    pub w: f64,
    pub h: f64,
}

/// A part that fits somewhere.
#[derive(Clone, Debug)]
pub(super) struct Item {
    /// Its index among the parts.
    pub part: usize,
    /// As given, and turned: where it may lie so and fits a sheet so.
    pub poses: [Option<Size>; 2],
    /// Its true area.
    pub area: f64,
}

/// A kind of sheet.
#[derive(Clone, Debug)]
pub(super) struct Kind {
    /// Its index among the stock.
    pub stock: usize,
    pub size: Size,
    /// How many there are, or as many as there are parts.
    pub count: usize,
    pub bought: bool,
    /// Its true area.
    pub area: f64,
}

/// The whole task.
pub(super) struct Task {
    pub items: Vec<Item>,
    /// Those at hand first; each group from small to large.
    pub kinds: Vec<Kind>,
    pub kerf: f64,
    /// The least side of an off-cut worth keeping.
    pub keep: f64,
    /// The shortest side of any part, enlarged.
    pub least_side: f64,
}

impl Size {
    pub(super) fn turned(self) -> Self {
        Self { w: self.h, h: self.w }
    }

    pub(super) fn fits_in(self, other: Self) -> bool {
        self.w <= other.w + TOUCH && self.h <= other.h + TOUCH
    }
}

impl Item {
    /// Either way it may lie.
    pub(super) fn some_pose(&self) -> Size {
        self.poses[0].or(self.poses[1]).unwrap_or(Size { w: 0.0, h: 0.0 })
    }

    pub(super) fn fits(&self, sheet: Size) -> bool {
        self.poses.iter().flatten().any(|pose| pose.fits_in(sheet))
    }
}

impl Task {
    /// The task, and what cannot be part of it.
    pub(super) fn new(parts: &[Part], stock: &[Stock], kerf: f64, keep: f64) -> (Self, Vec<Unplaced>) {
        let fair_kerf = (0.0..=LARGEST).contains(&kerf);
        let enlarged = |width: f64, length: f64| {
            let fair = |side: f64| side > TOUCH && side <= LARGEST;
            (fair_kerf && fair(width) && fair(length)).then_some(Size { w: width + kerf, h: length + kerf })
        };
        let mut kinds: Vec<Kind> = Vec::new();
        for (index, stock) in stock.iter().enumerate() {
            let (width, length) = (stock.width.get::<meter>(), stock.length.get::<meter>());
            let (count, bought) = match stock.supply {
                Supply::AtHand(count) => (usize::try_from(count).unwrap_or(usize::MAX).min(parts.len()), false),
                Supply::ToBuy => (parts.len(), true),
            };
            if let Some(size) = enlarged(width, length).filter(|_| count > 0) {
                kinds.push(Kind { stock: index, size, count, bought, area: width * length });
            }
        }
        kinds.sort_by(|one, other| one.bought.cmp(&other.bought).then(one.area.total_cmp(&other.area)));
        let (mut items, mut unplaced, mut least_side) = (Vec::new(), Vec::new(), f64::INFINITY);
        for (index, part) in parts.iter().enumerate() {
            let (width, length) = (part.width.get::<meter>(), part.length.get::<meter>());
            let fitting = |size: &Size| kinds.iter().any(|kind| size.fits_in(kind.size));
            let why = match enlarged(width, length) {
                _ if index >= MOST_PARTS => Why::TooMany,
                None => Why::NotASize,
                Some(size) => {
                    let turned = Some(size.turned()).filter(|_| part.may_turn && width != length);
                    let poses = [Some(size).filter(fitting), turned.filter(fitting)];
                    if poses.iter().any(Option::is_some) {
                        items.push(Item { part: index, poses, area: width * length });
                        least_side = least_side.min(size.w).min(size.h);
                        continue;
                    }
                    Why::FitsNoSheet
                }
            };
            unplaced.push(Unplaced { part: index, why });
        }
        (Self { items, kinds, kerf, keep, least_side }, unplaced)
    }
}
