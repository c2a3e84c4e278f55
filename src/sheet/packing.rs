//! Parts laid into the rests of sheets, as a recipe says.

use super::recipe::{Among, Recipe};
use super::task::{Size, TOUCH, Task};

/// A free rectangle of a sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rest {
    pub x: f64,
    pub y: f64,
    pub w: f64,
    pub h: f64,
    /// Whether it is what is left of a started shelf.
    pub shelf: bool,
}

/// A part on a sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Laid {
    pub item: usize,
    pub turned: bool,
    pub x: f64,
    pub y: f64,
    pub size: Size,
}

/// A started sheet.
#[derive(Clone, Debug)]
pub(super) struct Open {
    pub kind: usize,
    pub laid: Vec<Laid>,
    pub rests: Vec<Rest>,
    /// The longest long side and the longest short side of any rest: nothing larger fits.
    room: (f64, f64),
    /// True area of the parts on it.
    pub used: f64,
}

/// Sheets, and the items that are on none.
#[derive(Clone, Debug, Default)]
pub(super) struct Packing {
    pub sheets: Vec<Open>,
    pub left: Vec<usize>,
}

/// Where a part would go.
#[derive(Clone, Copy)]
struct Spot {
    cost: f64,
    sheet: usize,
    rest: usize,
    turned: bool,
    size: Size,
}

/// Follows one recipe.
struct Packer<'a> {
    task: &'a Task,
    recipe: &'a Recipe,
    sheets: Vec<Open>,
    /// How many sheets of each kind are not started.
    stock: Vec<usize>,
    steps: &'a mut u64,
}

/// Lays the items, in that order, onto sheets some of which may be started; counts its steps.
pub(super) fn pack(task: &Task, recipe: &Recipe, started: Vec<Open>, order: &[usize], steps: &mut u64) -> Packing {
    let mut stock: Vec<usize> = task.kinds.iter().map(|kind| kind.count).collect();
    for open in &started {
        if let Some(count) = stock.get_mut(open.kind) {
            *count = count.saturating_sub(1);
        }
    }
    // Sorting, copying and laying take their time as well.
    *steps += (50 + 15 * order.len() + 10 * started.len()) as u64;
    let mut packer = Packer { task, recipe, sheets: started, stock, steps };
    if recipe.at_hand_first {
        packer.start_at_hand(order.len());
    }
    let left = match recipe.among {
        Among::AllParts => packer.best_next(order),
        Among::FirstSheet | Among::AllSheets => packer.one_by_one(order),
    };
    let mut sheets = packer.sheets;
    sheets.retain(|open| !open.laid.is_empty());
    Packing { sheets, left }
}

impl Packer<'_> {
    fn one_by_one(&mut self, order: &[usize]) -> Vec<usize> {
        let mut left = Vec::new();
        for &item in order {
            let spot = match self.best(item, 0) {
                None if self.start_sheet(item) => self.best(item, self.sheets.len() - 1),
                spot => spot,
            };
            match spot {
                Some(spot) => self.lay(item, spot),
                None => left.push(item),
            }
        }
        left
    }

    fn best_next(&mut self, order: &[usize]) -> Vec<usize> {
        let (mut waiting, mut left) = (order.to_vec(), Vec::new());
        // A sheet is started when nothing fits those before it; nothing ever will.
        let mut from = 0;
        while let Some(&first) = waiting.first() {
            let mut best: Option<(usize, Spot)> = None;
            let mut before: Option<[Option<Size>; 2]> = None;
            for (index, &item) in waiting.iter().enumerate() {
                // Equal parts often follow each other.
                let poses = self.task.items.get(item).map(|item| item.poses);
                if before.is_some() && poses == before {
                    continue;
                }
                before = poses;
                if let Some(spot) = self.best(item, from)
                    && best.is_none_or(|(_, best)| spot.cost < best.cost)
                {
                    best = Some((index, spot));
                }
            }
            match best {
                Some((index, spot)) => {
                    let item = waiting.remove(index);
                    self.lay(item, spot);
                }
                None if self.start_sheet(first) => from = self.sheets.len() - 1,
                None => left.push(waiting.remove(0)),
            }
        }
        left
    }

    /// The best place for an item on the sheets from that one on.
    fn best(&mut self, item: usize, from: usize) -> Option<Spot> {
        let poses = self.recipe.pose.of(self.task.items.get(item)?);
        let sides = |size: &Size| (size.w.max(size.h), size.w.min(size.h));
        let needed = poses.iter().flatten().next().map(sides)?;
        let mut best: Option<Spot> = None;
        for (sheet, open) in self.sheets.iter().enumerate().skip(from) {
            *self.steps += 1;
            if !open.has_room(needed) {
                continue;
            }
            *self.steps += 2 * open.rests.len() as u64;
            for (rest_index, rest) in open.rests.iter().enumerate() {
                for (turned, size) in [(false, poses[0]), (true, poses[1])] {
                    let Some(size) = size else { continue };
                    if !size.fits_in(Size { w: rest.w, h: rest.h }) {
                        continue;
                    }
                    let cost = self.recipe.fit.cost(rest, size);
                    if best.is_none_or(|best| cost < best.cost) {
                        best = Some(Spot { cost, sheet, rest: rest_index, turned, size });
                    }
                }
            }
            if best.is_some() && self.recipe.among == Among::FirstSheet {
                break;
            }
        }
        best
    }

    fn lay(&mut self, item: usize, spot: Spot) {
        let (Some(open), Some(of)) = (self.sheets.get_mut(spot.sheet), self.task.items.get(item)) else { return };
        let Some(rest) = open.rests.get(spot.rest).copied() else { return };
        open.laid.push(Laid { item, turned: spot.turned, x: rest.x, y: rest.y, size: spot.size });
        open.used += of.area;
        // Thinner ones take no part; but if they may grow together again, they might.
        let least = if self.recipe.merge { TOUCH } else { self.task.least_side - TOUCH };
        let rests = self.recipe.split.rests(&rest, spot.size);
        let rests = rests.into_iter().filter(|rest| rest.w >= least && rest.h >= least);
        if self.recipe.merge {
            open.rests.swap_remove(spot.rest);
            for rest in rests {
                add_merged(&mut open.rests, rest);
            }
        } else {
            open.rests.splice(spot.rest..=spot.rest, rests);
        }
        open.measure_room();
    }

    fn start(&mut self, kind: usize) -> bool {
        let (Some(of), Some(count @ 1..)) = (self.task.kinds.get(kind), self.stock.get_mut(kind)) else {
            return false;
        };
        *count -= 1;
        let whole = Rest { x: 0.0, y: 0.0, w: of.size.w, h: of.size.h, shelf: false };
        let mut open = Open { kind, laid: Vec::new(), rests: vec![whole], room: (0.0, 0.0), used: 0.0 };
        open.measure_room();
        self.sheets.push(open);
        true
    }

    /// Starts a sheet that takes the item: one at hand if there is any.
    fn start_sheet(&mut self, item: usize) -> bool {
        let Some(of) = self.task.items.get(item) else { return false };
        let poses = self.recipe.pose.of(of);
        let takes = |kind: &usize| {
            let size = self.task.kinds.get(*kind).map(|kind| kind.size);
            let fits = size.is_some_and(|size| poses.iter().flatten().any(|pose| pose.fits_in(size)));
            fits && self.stock.get(*kind).is_some_and(|count| *count > 0)
        };
        let at_hand = self.task.kinds.iter().filter(|kind| !kind.bought).count();
        let (own, bought) = (0..at_hand, at_hand..self.task.kinds.len());
        let kind = if self.recipe.large_sheets {
            own.rev().find(takes).or_else(|| bought.rev().find(takes))
        } else {
            own.chain(bought).find(takes)
        };
        kind.is_some_and(|kind| self.start(kind))
    }

    /// Starts sheets at hand, not more than there are items.
    fn start_at_hand(&mut self, most: usize) {
        let own: Vec<usize> = (0..self.task.kinds.len()).filter(|&kind| self.is_at_hand(kind)).collect();
        let own: Vec<usize> = if self.recipe.large_sheets { own.into_iter().rev().collect() } else { own };
        let mut started = 0;
        for kind in own {
            while started < most && self.start(kind) {
                started += 1;
            }
        }
    }

    fn is_at_hand(&self, kind: usize) -> bool {
        self.task.kinds.get(kind).is_some_and(|kind| !kind.bought)
    }
}

impl Open {
    fn measure_room(&mut self) {
        self.room = self.rests.iter().fold((0.0, 0.0), |(long, short): (f64, f64), rest| {
            (long.max(rest.w.max(rest.h)), short.max(rest.w.min(rest.h)))
        });
    }

    /// Whether a part with those sides, the long one first, may fit.
    fn has_room(&self, needed: (f64, f64)) -> bool {
        needed.0 <= self.room.0 + TOUCH && needed.1 <= self.room.1 + TOUCH
    }
}

/// Adds a rest, made one with every other that shares a whole side with it.
fn add_merged(rests: &mut Vec<Rest>, mut rest: Rest) {
    let near = |one: f64, other: f64| (one - other).abs() <= TOUCH;
    let beside =
        |one: &Rest, other: &Rest| near(one.y, other.y) && near(one.h, other.h) && near(one.x + one.w, other.x);
    let above = |one: &Rest, other: &Rest| near(one.x, other.x) && near(one.w, other.w) && near(one.y + one.h, other.y);
    while let Some(index) = rests
        .iter()
        .position(|other| beside(&rest, other) || beside(other, &rest) || above(&rest, other) || above(other, &rest))
    {
        let other = rests.swap_remove(index);
        let (one, end) = if beside(&rest, &other) || above(&rest, &other) { (rest, other) } else { (other, rest) };
        rest = if near(one.y, end.y) && near(one.h, end.h) {
            Rest { w: end.x + end.w - one.x, ..one }
        } else {
            Rest { h: end.y + end.h - one.y, ..one }
        };
    }
    rests.push(rest);
}
