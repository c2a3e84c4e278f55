//! The search for the best layout: every recipe once, then some sheets broken up again and again.

use super::chance::Chance;
use super::packing::{Laid, Open, Packing, pack};
use super::recipe::{Among, FITS, Fit, ORDERS, Order, Pose, Recipe, SPLITS, Split};
use super::saw;
use super::task::Task;
use super::{Becomes, Sheet};
use std::cmp::Ordering;
use uom::si::area::square_meter;

/// Where chance starts.
const SEED: u64 = 0x5ee_d0f_5aa;
/// How many layouts back a new one must not be worse than.
const MEMORY: usize = 30;

/// What makes one layout better than another: less of the first that differs.
#[derive(Clone, Copy, Debug)]
struct Score {
    left: usize,
    bought: usize,
    /// True areas: bought sheets, parts on them, sheets at hand, and the largest off-cut, negative.
    areas: [f64; 4],
}

/// The best layout so far.
struct Best {
    packing: Packing,
    score: Score,
}

/// The layout of all items that was found within that many steps.
pub(super) fn search(task: &Task, least: u32, budget: u64) -> Packing {
    let mut search = Search { task, least: least as usize, steps: 0, best: None };
    search.plain_ways();
    search.all_ways(budget / 3);
    search.improve(budget);
    search.buy_smaller();
    search.best.map(|best| best.packing).unwrap_or_default()
}

struct Search<'a> {
    task: &'a Task,
    least: usize,
    steps: u64,
    best: Option<Best>,
}

impl Search<'_> {
    /// Shelves and the best fit, whatever the budget.
    fn plain_ways(&mut self) {
        for (split, order) in [(Split::ShelfAcross, Order::Height), (Split::ShelfAlong, Order::Width)] {
            for pose in [Pose::Lying, Pose::Standing, Pose::Either] {
                self.with_all_stocks(&Recipe { order, pose, fit: Fit::First, split, ..Recipe::PLAIN });
            }
        }
        for fit in FITS {
            self.with_all_stocks(&Recipe { fit, ..Recipe::PLAIN });
        }
    }

    /// All recipes, as far as the budget goes.
    fn all_ways(&mut self, budget: u64) {
        let ways =
            [(Among::AllSheets, true), (Among::FirstSheet, true), (Among::AllParts, true), (Among::AllSheets, false)];
        for (among, merge) in ways {
            // Where the best part is sought, the order decides only between equals.
            let orders = if among == Among::AllParts { &ORDERS[..1] } else { &ORDERS[..] };
            for &order in orders {
                for split in SPLITS {
                    for fit in FITS {
                        if self.steps >= budget {
                            return;
                        }
                        self.with_all_stocks(&Recipe { order, fit, split, among, merge, ..Recipe::PLAIN });
                    }
                }
            }
        }
    }

    /// One recipe, with every order in which sheets may be started.
    fn with_all_stocks(&mut self, recipe: &Recipe) {
        let kinds = &self.task.kinds;
        let at_hand = kinds.iter().any(|kind| !kind.bought);
        let order = sorted(self.task, recipe);
        for large_sheets in [true, false] {
            for at_hand_first in [true, false] {
                if (large_sheets || kinds.len() > 1) && (!at_hand_first || at_hand) {
                    let recipe = Recipe { large_sheets, at_hand_first, ..*recipe };
                    let packing = pack(self.task, &recipe, Vec::new(), &order, &mut self.steps);
                    self.offer(&packing);
                }
            }
        }
    }

    /// Keeps the layout if it is better than the best; whether it is.
    fn offer(&mut self, packing: &Packing) -> bool {
        let mut score = Score::of(self.task, packing);
        if self.best.as_ref().is_some_and(|best| score.compare(&best.score, 3).is_gt()) {
            return false;
        }
        let Some(off_cut) = self.largest_off_cut(packing) else { return false };
        score.areas[3] = -off_cut;
        let better = self.best.as_ref().is_none_or(|best| score.compare(&best.score, 4).is_lt());
        if better {
            self.best = Some(Best { packing: packing.clone(), score });
        }
        better
    }

    /// The area of the largest off-cut to keep; nothing if a sheet cannot be cut right through.
    fn largest_off_cut(&mut self, packing: &Packing) -> Option<f64> {
        let mut largest: f64 = 0.0;
        for open in &packing.sheets {
            self.steps += (100 + 50 * open.laid.len() + open.laid.len().pow(2)) as u64;
            largest = largest.max(largest_kept(&saw::cut_up(self.task, open)?));
        }
        Some(largest)
    }

    /// Whether no layout can buy fewer sheets.
    fn is_least(&self) -> bool {
        self.best.as_ref().is_some_and(|best| best.score.left == 0 && best.score.bought <= self.least)
    }

    /// Breaks up some sheets and lays their parts again, until nothing better can come or the budget is used.
    /// A layout is gone on with if it is no worse than the one before it or one some way back (late acceptance,
    /// Burke and Bykov, "The late acceptance hill-climbing heuristic", 2017).
    fn improve(&mut self, budget: u64) {
        let Some(mut now) = self.best.as_ref().map(|best| best.packing.clone()) else { return };
        let mut cost = self.cost(&now);
        let mut memory = [cost; MEMORY];
        let mut chance = Chance::new(SEED);
        let mut round = 0;
        while self.steps < budget && !self.is_least() {
            let next = self.broken_up(&now, &mut chance);
            let next_cost = self.cost(&next);
            let slot = round % MEMORY;
            round += 1;
            let before = memory.get(slot).copied().unwrap_or(cost);
            if (next_cost <= cost || next_cost <= before) && self.largest_off_cut(&next).is_some() {
                self.offer(&next);
                (now, cost) = (next, next_cost);
            }
            if let Some(before) = memory.get_mut(slot) {
                *before = cost;
            }
        }
    }

    /// The layout with one to three sheets laid anew, in ways left to chance.
    fn broken_up(&mut self, packing: &Packing, chance: &mut Chance) -> Packing {
        let mut kept = packing.sheets.clone();
        let mut order = packing.left.clone();
        let emptiest = |sheets: &[Open]| {
            let used = |(_, open): &(usize, &Open)| open.used;
            sheets
                .iter()
                .enumerate()
                .min_by(|one, other| used(one).total_cmp(&used(other)))
                .map_or(0, |(index, _)| index)
        };
        for count in 0..=1 + usize::from(chance.below(4) == 0) {
            if kept.is_empty() {
                break;
            }
            let first = count == 0 && chance.below(2) == 0;
            let index = if first { emptiest(&kept) } else { chance.below(kept.len()) };
            order.extend(kept.swap_remove(index).laid.iter().map(|laid| laid.item));
        }
        let at_hand = self.task.kinds.iter().any(|kind| !kind.bought);
        let recipe = Recipe {
            order: chance.one(Order::Perimeter, &ORDERS[1..]),
            pose: chance.one(Pose::Either, &[Pose::Either, Pose::Either, Pose::Lying, Pose::Standing]),
            fit: chance.one(Fit::ShortSide, &FITS[1..]),
            split: chance.one(Split::ShorterRest, &SPLITS[1..]),
            among: chance.one(Among::AllSheets, &[Among::AllSheets, Among::FirstSheet, Among::AllParts]),
            merge: chance.below(4) > 0,
            large_sheets: chance.below(2) == 0,
            at_hand_first: at_hand && chance.below(2) == 0,
        };
        let spread = chance.share();
        let mut keyed: Vec<(f64, usize)> = order
            .into_iter()
            .filter_map(|item| {
                let key = recipe.order.key(self.task.items.get(item)?, recipe.pose);
                Some((key * (1.0 - spread * chance.share()), item))
            })
            .collect();
        keyed.sort_by(|one, other| other.0.total_cmp(&one.0));
        let order: Vec<usize> = keyed.into_iter().map(|(_, item)| item).collect();
        pack(self.task, &recipe, kept, &order, &mut self.steps)
    }

    /// What the search makes less: sheets to buy; between equals, full sheets beside empty ones are better than
    /// many half full ones, since the empty ones may vanish.
    fn cost(&self, packing: &Packing) -> f64 {
        let score = Score::of(self.task, packing);
        let largest = self.task.kinds.iter().map(|kind| kind.area).fold(f64::MIN_POSITIVE, f64::max);
        let full: f64 = packing.sheets.iter().map(|open| (open.used / largest).powi(2)).sum();
        let sheets = self.task.items.len() as f64 + 1.0;
        let areas = (score.areas[0] * 4.0 + score.areas[1]) / largest / 8.0;
        (score.left as f64 * sheets + score.bought as f64) * sheets + areas - full / 4.0
    }

    /// Every bought sheet whose parts all fit one of a smaller kind gives way to it.
    fn buy_smaller(&mut self) {
        let Some(mut now) = self.best.as_ref().map(|best| best.packing.clone()) else { return };
        for index in 0..now.sheets.len() {
            let Some(open) = now.sheets.get(index) else { continue };
            let smaller = self.task.kinds.iter().take(open.kind).enumerate().filter(|(_, kind)| kind.bought);
            let found = smaller.map(|(kind, _)| kind).find_map(|kind| self.on_one(open, kind));
            if let (Some(found), Some(open)) = (found, now.sheets.get_mut(index)) {
                *open = found;
            }
        }
        self.offer(&now);
    }

    /// The parts of a sheet on one of another kind.
    fn on_one(&self, open: &Open, kind: usize) -> Option<Open> {
        let of = self.task.kinds.get(kind)?;
        if open.used > of.area {
            return None;
        }
        let alone = Task { kinds: vec![of.clone()], items: self.task.items.clone(), ..*self.task };
        let items: Vec<usize> = open.laid.iter().map(|laid: &Laid| laid.item).collect();
        let mut steps = 0;
        let ways = SPLITS.iter().flat_map(|&split| FITS.map(|fit| Recipe { fit, split, ..Recipe::PLAIN }));
        ways.map(|recipe| {
            let order = sorted_items(&alone, &recipe, items.clone());
            pack(&alone, &recipe, Vec::new(), &order, &mut steps)
        })
        .find_map(|packing| {
            let whole = packing.left.is_empty() && packing.sheets.len() == 1;
            let mut open = packing.sheets.into_iter().next().filter(|_| whole)?;
            open.kind = kind;
            Some(open)
        })
    }
}

/// The area of the largest off-cut of a sheet.
fn largest_kept(sheet: &Sheet) -> f64 {
    let kept = sheet.pieces.iter().filter(|piece| piece.becomes == Becomes::OffCut);
    kept.map(|piece| piece.place.area().get::<square_meter>()).fold(0.0, f64::max)
}

fn sorted(task: &Task, recipe: &Recipe) -> Vec<usize> {
    sorted_items(task, recipe, (0..task.items.len()).collect())
}

/// The items in the order of a recipe, equals as they come.
fn sorted_items(task: &Task, recipe: &Recipe, mut items: Vec<usize>) -> Vec<usize> {
    let key = |item: usize| task.items.get(item).map_or(0.0, |item| recipe.order.key(item, recipe.pose));
    items.sort_by(|&one, &other| key(other).total_cmp(&key(one)));
    items
}

impl Score {
    fn of(task: &Task, packing: &Packing) -> Self {
        let (mut bought, mut areas) = (0, [0.0; 4]);
        for open in &packing.sheets {
            let Some(kind) = task.kinds.get(open.kind) else { continue };
            if kind.bought {
                bought += 1;
                areas[0] += kind.area;
                areas[1] += open.used;
            } else {
                areas[2] += kind.area;
            }
        }
        Self { left: packing.left.len(), bought, areas }
    }

    /// Compares with so many of the areas.
    fn compare(&self, other: &Self, areas: usize) -> Ordering {
        let noise = |one: f64, other: f64| (one - other).abs() <= 1e-9 * (one.abs() + other.abs());
        let differs = self.areas.iter().zip(other.areas).take(areas).find(|(one, other)| !noise(**one, *other));
        let by_area = differs.map_or(Ordering::Equal, |(one, other)| one.total_cmp(&other));
        self.left.cmp(&other.left).then(self.bought.cmp(&other.bought)).then(by_area)
    }
}
