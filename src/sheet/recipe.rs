//! The ways to lay parts one after the other: their order, which rest takes the next one, and how what
//! remains of that rest is divided.

use super::packing::Rest;
use super::task::{Item, Size};

/// What the parts are sorted by, largest first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Order {
    Area,
    LongSide,
    ShortSide,
    Perimeter,
    /// The long side less the short one.
    Difference,
    /// The long side over the short one.
    Ratio,
    /// The side along the length of the sheet.
    Height,
    /// The side along the width of the sheet.
    Width,
}

/// The way parts lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Pose {
    /// Whichever fits better.
    Either,
    /// The long side along the width of the sheet, if it may.
    Lying,
    /// The long side along the length of the sheet, if it may.
    Standing,
}

/// Which rest takes a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Fit {
    /// A started shelf before a new one, the earliest first.
    First,
    /// The least area remains.
    Area,
    /// The shorter remaining side is least.
    ShortSide,
    /// The longer remaining side is least.
    LongSide,
    /// The most area remains.
    Worst,
}

/// How an L-shaped remainder is divided. *Across* cuts along the width of the sheet: what is beside the part
/// is as high as the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Split {
    /// Along the shorter side of the rest.
    ShorterAxis,
    /// Along the longer side of the rest.
    LongerAxis,
    /// Along the shorter of the two remaining sides.
    ShorterRest,
    /// Along the longer of the two remaining sides.
    LongerRest,
    /// So that the smaller of the two pieces is small.
    Unequal,
    /// So that the two pieces are alike.
    Equal,
    /// Always along the width of the sheet.
    Across,
    /// Always along the length of the sheet.
    Along,
    /// In shelves that run along the width of the sheet; nothing is laid above a lower part.
    ShelfAcross,
    /// In shelves that run along the length of the sheet.
    ShelfAlong,
}

/// Among which sheets a rest is sought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Among {
    /// The first sheet that takes the part.
    FirstSheet,
    /// All that are started.
    AllSheets,
    /// All that are started; and of all parts left, the one that fits best is next.
    AllParts,
}

/// One way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Recipe {
    pub order: Order,
    pub pose: Pose,
    pub fit: Fit,
    pub split: Split,
    pub among: Among,
    /// Whether rests that share a whole side become one again.
    pub merge: bool,
    /// Whether a new sheet is the largest that there is, or the smallest that takes the part.
    pub large_sheets: bool,
    /// Whether all sheets at hand are started before the first part is laid.
    pub at_hand_first: bool,
}

impl Recipe {
    /// The plain best fit: large parts first, each where the least area remains.
    pub(super) const PLAIN: Self = Self {
        order: Order::Area,
        pose: Pose::Either,
        fit: Fit::Area,
        split: Split::ShorterRest,
        among: Among::AllSheets,
        merge: false,
        large_sheets: true,
        at_hand_first: false,
    };
}

// Of each, what most often comes out best is first: a small budget does not reach the rest.
pub(super) const ORDERS: [Order; 6] =
    [Order::Perimeter, Order::LongSide, Order::Area, Order::ShortSide, Order::Difference, Order::Ratio];
pub(super) const FITS: [Fit; 4] = [Fit::ShortSide, Fit::Area, Fit::LongSide, Fit::Worst];
pub(super) const SPLITS: [Split; 8] = [
    Split::ShorterRest,
    Split::ShorterAxis,
    Split::LongerAxis,
    Split::Unequal,
    Split::LongerRest,
    Split::Equal,
    Split::Across,
    Split::Along,
];

impl Order {
    pub(super) fn key(self, item: &Item, pose: Pose) -> f64 {
        let Size { w, h } = pose.of(item).into_iter().flatten().next().unwrap_or_else(|| item.some_pose());
        match self {
            Self::Area => w * h,
            Self::LongSide => w.max(h),
            Self::ShortSide => w.min(h),
            Self::Perimeter => w + h,
            Self::Difference => (w - h).abs(),
            Self::Ratio => w.max(h) / w.min(h),
            Self::Height => h,
            Self::Width => w,
        }
    }
}

impl Pose {
    /// The ways that part may lie, as given and turned.
    pub(super) fn of(self, item: &Item) -> [Option<Size>; 2] {
        let lies = |size: &Size| match self {
            Self::Either => true,
            Self::Lying => size.w >= size.h,
            Self::Standing => size.w <= size.h,
        };
        match item.poses {
            [Some(given), Some(turned)] => [Some(given).filter(lies), Some(turned).filter(lies)],
            poses => poses,
        }
    }
}

impl Fit {
    /// Less is better. The size fits the rest.
    pub(super) fn cost(self, rest: &Rest, size: Size) -> f64 {
        let (beside, above) = (rest.w - size.w, rest.h - size.h);
        match self {
            Self::First if rest.shelf => 0.0,
            Self::First => 1.0,
            Self::Area => rest.w * rest.h - size.w * size.h,
            Self::ShortSide => beside.min(above),
            Self::LongSide => beside.max(above),
            Self::Worst => size.w * size.h - rest.w * rest.h,
        }
    }
}

impl Split {
    fn is_across(self, rest: &Rest, size: Size) -> bool {
        let (beside, above) = (rest.w - size.w, rest.h - size.h);
        match self {
            Self::ShorterAxis => rest.w < rest.h,
            Self::LongerAxis => rest.w >= rest.h,
            Self::ShorterRest => beside < above,
            Self::LongerRest => beside >= above,
            Self::Unequal => beside * size.h <= above * size.w,
            Self::Equal => beside * size.h > above * size.w,
            Self::Across | Self::ShelfAcross => true,
            Self::Along | Self::ShelfAlong => false,
        }
    }

    /// What remains of a rest when a part lies in its corner.
    pub(super) fn rests(self, rest: &Rest, size: Size) -> [Rest; 2] {
        let across = self.is_across(rest, size);
        let shelves = matches!(self, Self::ShelfAcross | Self::ShelfAlong);
        let (beside_h, above_w) = match (across, rest.shelf) {
            (true, false) => (size.h, rest.w),
            (true, true) => (rest.h, 0.0),
            (false, false) => (rest.h, size.w),
            (false, true) => (0.0, rest.w),
        };
        let beside = Rest { x: rest.x + size.w, w: rest.w - size.w, h: beside_h, shelf: shelves && across, ..*rest };
        let above = Rest { y: rest.y + size.h, w: above_w, h: rest.h - size.h, shelf: shelves && !across, ..*rest };
        [beside, above]
    }
}
