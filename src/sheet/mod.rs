//! How parts are cut from sheets: which part lies where, in which order the saw goes, and what is left.
//!
//! Every cut goes right through the piece that it cuts (*guillotine* cuts), because that is what a
//! table saw or a track saw does. The saw takes its kerf between pieces and none at the edge of the sheet as
//! it was bought, so a part exactly as wide as the sheet fits. Inside, every part and every sheet is enlarged
//! by the kerf: parts side by side fill a sheet in that world exactly when they do in the workshop.
//!
//! Coordinates are `f64` metres inside, `Length` at the door: x along the width of the sheet, y along its
//! length, from one corner.
//!
//! # How a layout is found
//! A [`recipe`] says how parts are laid one after the other into the rests of the sheets; [`packing`] follows
//! it. [`search`] tries all recipes, then breaks up some sheets of the best layout and lays their parts again,
//! by seeded chance, until the budget of steps is used up or the [`bound`] below which no layout can come is
//! reached. It counts steps and not time, so the same job gives the same layout everywhere. [`saw`] makes the
//! cuts of what lies on a sheet; what it cannot cut right through is no layout.
//!
//! ```
//! use pourwright::measure::{Length, exact::inches};
//! use pourwright::sheet::{Effort, Part, Stock, Supply, lay_out};
//!
//! let part = Part { width: inches(20.0), length: inches(48.0), may_turn: true };
//! let stock = Stock { width: inches(49.0), length: inches(97.0), supply: Supply::ToBuy };
//! let layout = lay_out(&[part; 4], &[stock], inches(0.125), inches(6.0), Effort::default());
//! assert_eq!((layout.to_buy(), layout.least_sheets), (1, 1));
//! ```

mod bound;
mod chance;
mod packing;
mod recipe;
mod saw;
mod search;
mod task;
#[cfg(test)]
mod tests;

use crate::measure::{Area, Length};
use task::Task;
use uom::si::length::meter;

/// Parts beyond this many are not laid out; a form has some tens.
pub const MOST_PARTS: usize = 2000;

/// A rectangle to cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Its size along the width of the sheet, if it is not turned; more than nothing.
    pub width: Length,
    /// Its size along the length of the sheet, if it is not turned; more than nothing.
    pub length: Length,
    /// Whether it may lie turned by 90°; not if it has a grain to follow.
    pub may_turn: bool,
}

/// How many sheets there are of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Supply {
    /// Off-cuts or sheets at hand, this many.
    AtHand(u32),
    /// As many as it takes.
    ToBuy,
}

/// A kind of sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Its width, more than nothing.
    pub width: Length,
    /// Its length, more than nothing; grain runs along it.
    pub length: Length,
    /// How many there are.
    pub supply: Supply,
}

/// How long to search: the number of times that a part may be held against the rest of a sheet.
///
/// The plain ways (shelves, and the best fit) are always gone through, so nothing is worse than them. Ten times
/// the default still finds fewer sheets now and then for over 60 parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Steps of the search, 0 or more.
    pub steps: u64,
}

impl Default for Effort {
    /// Under 30 ms natively for 40 parts, built for size.
    fn default() -> Self {
        Self { steps: 2_000_000 }
    }
}

/// A rectangle on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// From the left edge of the sheet.
    pub x: Length,
    /// From the front edge of the sheet.
    pub y: Length,
    /// Size along the width of the sheet.
    pub width: Length,
    /// Size along the length of the sheet.
    pub length: Length,
}

/// What becomes of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Becomes {
    /// It is cut further.
    Pieces,
    /// It is the part with that index.
    Part {
        /// The index among the parts.
        part: usize,
        /// Whether it lies turned by 90°.
        turned: bool,
    },
    /// It is worth keeping: neither side is under the least one asked for.
    OffCut,
    /// It is thrown away.
    Scrap,
}

/// The sheet itself, or what a cut leaves of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Where on the sheet.
    pub place: Place,
    /// What becomes of it.
    pub becomes: Becomes,
}

/// The way the saw travels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Travel {
    /// Along the width of the sheet.
    Width,
    /// Along the length of the sheet.
    Length,
}

/// One cut, right through a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// The piece that is cut, by its index in [`Sheet::pieces`].
    pub piece: usize,
    /// The way the saw travels.
    pub travel: Travel,
    /// From the front (or left) edge of the piece to the kerf: the size of the first piece it leaves.
    pub at: Length,
    /// How far the saw travels.
    pub length: Length,
    /// The piece before the kerf, and the one behind it unless the saw takes all of that.
    pub leaves: (usize, Option<usize>),
}

/// One sheet and what is cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The kind of sheet, by its index among the stock.
    pub stock: usize,
    /// The sheet itself, then every piece in the order in which the cuts make them.
    pub pieces: Vec<Piece>,
    /// The cuts in the order of work: first those right through the sheet, then through its strips, and so on.
    pub cuts: Vec<Cut>,
}

/// Why a part is on no sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It, or the kerf, is not a size: not a number, nothing or less (the kerf may be nothing), or over 10 km.
    NotASize,
    /// It is larger than every kind of sheet, the way it may lie.
    FitsNoSheet,
    /// There are not enough sheets at hand, and none to buy into which it fits.
    NoSheetLeft,
    /// There are more than [`MOST_PARTS`].
    TooMany,
}

/// A part that is on no sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unplaced {
    /// Its index among the parts.
    pub part: usize,
    /// Why.
    pub why: Why,
}

/// Where every part lies, how it is cut, and what is left.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The sheets that are cut: those at hand, then those to buy; the one with the least on it comes last.
    pub sheets: Vec<Sheet>,
    /// The parts on no sheet, by index.
    pub unplaced: Vec<Unplaced>,
    /// A number of sheets to buy that no layout of the placed parts can come below. That it can be reached is
    /// not said.
    pub least_sheets: u32,
    /// How many of the sheets have to be bought, for each kind of stock.
    pub to_buy: Vec<u32>,
}

impl Place {
    /// Its area.
    pub fn area(&self) -> Area {
        self.width * self.length
    }
}

impl Sheet {
    /// Area of all that becomes what is wanted.
    fn area_of(&self, wanted: impl Fn(Becomes) -> bool) -> Area {
        self.pieces.iter().filter(|piece| wanted(piece.becomes)).map(|piece| piece.place.area()).sum()
    }

    /// Area of the whole sheet.
    pub fn area(&self) -> Area {
        self.pieces.first().map_or_else(Area::default, |piece| piece.place.area())
    }

    /// Area of the parts on it.
    pub fn parts_area(&self) -> Area {
        self.area_of(|becomes| matches!(becomes, Becomes::Part { .. }))
    }

    /// Area of what is worth keeping of it.
    pub fn kept_area(&self) -> Area {
        self.area_of(|becomes| becomes == Becomes::OffCut)
    }
}

impl Layout {
    /// How many sheets have to be bought.
    pub fn to_buy(&self) -> u32 {
        self.to_buy.iter().sum()
    }

    /// Area of all sheets that are cut.
    pub fn sheet_area(&self) -> Area {
        self.sheets.iter().map(Sheet::area).sum()
    }

    /// Area of all parts that are placed.
    pub fn parts_area(&self) -> Area {
        self.sheets.iter().map(Sheet::parts_area).sum()
    }

    /// Area of all off-cuts worth keeping.
    pub fn kept_area(&self) -> Area {
        self.sheets.iter().map(Sheet::kept_area).sum()
    }

    /// What is neither part nor kept: scrap and sawdust.
    pub fn waste_area(&self) -> Area {
        self.sheet_area() - self.parts_area() - self.kept_area()
    }

    /// The waste as a share of the sheets, 0 to 1; 0 where no sheet is cut.
    pub fn waste_share(&self) -> f64 {
        let all = self.sheet_area();
        if all > Area::default() { (self.waste_area() / all).value } else { 0.0 }
    }
}

/// Lays the parts out on the sheets.
///
/// * `kerf`: what the saw takes, 0 or more.
/// * `keep_least`: an off-cut with a side under this is scrap.
///
/// Fewest sheets to buy come first; then, in this order, the least area bought, the least area of parts on
/// bought sheets (so off-cuts are used first), the least area of sheets at hand that are cut into, and the
/// largest single off-cut to keep. Sheets that are not a size are left aside. The same arguments always give
/// the same layout. Never fails: see [`Layout::unplaced`].
pub fn lay_out(parts: &[Part], stock: &[Stock], kerf: Length, keep_least: Length, effort: Effort) -> Layout {
    let (task, mut unplaced) = Task::new(parts, stock, kerf.get::<meter>(), keep_least.get::<meter>());
    let least = bound::least_sheets(&task);
    let found = search::search(&task, least, effort.steps);
    unplaced.extend(found.left.iter().filter_map(|&item| {
        let part = task.items.get(item)?.part;
        Some(Unplaced { part, why: Why::NoSheetLeft })
    }));
    unplaced.sort_by_key(|unplaced| unplaced.part);
    let mut to_buy = vec![0; stock.len()];
    for kind in found.sheets.iter().filter_map(|open| task.kinds.get(open.kind)).filter(|kind| kind.bought) {
        if let Some(count) = to_buy.get_mut(kind.stock) {
            *count += 1;
        }
    }
    let sheets = saw::sheets(&task, found.sheets);
    Layout { sheets, unplaced, least_sheets: least, to_buy }
}
