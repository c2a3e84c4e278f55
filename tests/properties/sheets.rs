//! What must hold for every layout of parts on sheets.

use pourwright::measure::{Length, exact::inches};
use pourwright::sheet::{Becomes, Cut, Effort, Layout, Part, Piece, Sheet, Stock, Supply, Travel, lay_out};
use proptest::prelude::*;
use uom::si::length::inch;

/// Inches.
const CLOSE: f64 = 1e-5;

/// A rectangle in inches: left, front, right, back.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Box4([f64; 4]);

impl Box4 {
    fn of(piece: &Piece) -> Self {
        let [x, y, width, length] =
            [piece.place.x, piece.place.y, piece.place.width, piece.place.length].map(|length| length.get::<inch>());
        Self([x, y, x + width, y + length])
    }

    fn area(self) -> f64 {
        (self.0[2] - self.0[0]) * (self.0[3] - self.0[1])
    }

    fn is(self, other: Self) -> bool {
        self.0.iter().zip(other.0).all(|(one, other)| (one - other).abs() < CLOSE)
    }
}

/// Sizes as forms have them, in sixteenths; some alike, some of any size.
fn part() -> impl Strategy<Value = Part> {
    let base = (20..100_u32, 10..30_u32).prop_map(|(width, length)| (f64::from(width), f64::from(length)));
    let side = (10..90_u32, 2..4_u32).prop_map(|(width, length)| (f64::from(width), f64::from(length) - 0.25));
    let other =
        (1..1600_u32, 1..800_u32).prop_map(|(width, length)| (f64::from(width) / 16.0, f64::from(length) / 16.0));
    (prop_oneof![2 => base, 4 => side, 1 => other], any::<bool>(), prop::bool::weighted(0.8)).prop_map(
        |((width, length), swap, may_turn)| {
            let (width, length) = if swap { (length, width) } else { (width, length) };
            Part { width: inches(width), length: inches(length), may_turn }
        },
    )
}

fn parts(most: usize) -> impl Strategy<Value = Vec<Part>> {
    let few = prop::collection::vec((part(), 1..4_usize), 0..most / 2);
    few.prop_map(|parts| parts.into_iter().flat_map(|(part, count)| std::iter::repeat_n(part, count)).collect())
}

fn stock() -> impl Strategy<Value = Vec<Stock>> {
    let off_cut = (8..60_u32, 8..90_u32, 0..3_u32).prop_map(|(width, length, count)| Stock {
        width: inches(f64::from(width)),
        length: inches(f64::from(length)),
        supply: Supply::AtHand(count),
    });
    let sheet = |width, length| Stock { width: inches(width), length: inches(length), supply: Supply::ToBuy };
    let sheets = prop_oneof![
        3 => Just(vec![sheet(49.0, 97.0)]),
        1 => Just(vec![sheet(97.0, 49.0)]),
        1 => Just(vec![sheet(49.0, 97.0), sheet(61.0, 61.0)]),
        1 => Just(vec![]),
    ];
    (prop::collection::vec(off_cut, 0..4), sheets).prop_map(|(mut off_cuts, sheets)| {
        off_cuts.extend(sheets);
        off_cuts
    })
}

fn kerf() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), Just(0.125), Just(0.09375), 0.0..0.5_f64]
}

/// Short, so that many cases are tried.
const EFFORT: Effort = Effort { steps: 60_000 };

/// The cuts of a sheet made on the sheet itself, knowing nothing but where each begins and how it runs: every
/// piece that comes of them, and those that are cut no further.
fn made(sheet: &Sheet, whole: Box4, kerf: f64) -> (Vec<Box4>, Vec<usize>) {
    let (mut pieces, mut uncut) = (vec![whole], vec![0]);
    for cut in &sheet.cuts {
        let Cut { piece, travel, at, length, leaves } = cut;
        let at_hand = uncut.iter().position(|uncut| uncut == piece).expect("a piece is cut once, after it is made");
        uncut.swap_remove(at_hand);
        let Box4([x0, y0, x1, y1]) = pieces[*piece];
        let (at, length) = (at.get::<inch>(), length.get::<inch>());
        assert!(at > 0.0);
        let (first, second, run) = match travel {
            Travel::Width => (Box4([x0, y0, x1, y0 + at]), Box4([x0, y0 + at + kerf, x1, y1]), x1 - x0),
            Travel::Length => (Box4([x0, y0, x0 + at, y1]), Box4([x0 + at + kerf, y0, x1, y1]), y1 - y0),
        };
        // Right through the piece, and somewhere within it.
        assert!((run - length).abs() < CLOSE);
        assert!(first.0[2] < x1 + CLOSE && first.0[3] < y1 + CLOSE);
        assert_eq!(leaves.0, pieces.len());
        pieces.push(first);
        uncut.push(leaves.0);
        let Box4([left, front, right, back]) = second;
        if let Some(index) = leaves.1 {
            assert!(right > left && back > front);
            assert_eq!(index, pieces.len());
            pieces.push(second);
            uncut.push(index);
        } else {
            assert!(right - left < CLOSE || back - front < CLOSE, "{second:?} is lost");
        }
    }
    (pieces, uncut)
}

/// What is wrong with a layout, as assertions.
fn check(parts: &[Part], stock: &[Stock], kerf: f64, keep: f64, layout: &Layout) {
    let mut times = vec![0; parts.len()];
    let mut used = vec![0; stock.len()];
    for sheet in &layout.sheets {
        used[sheet.stock] += 1;
        let of = stock[sheet.stock];
        let whole = Box4([0.0, 0.0, of.width.get::<inch>(), of.length.get::<inch>()]);
        assert!(Box4::of(&sheet.pieces[0]).is(whole));
        let (pieces, uncut) = made(sheet, whole, kerf);
        assert_eq!(pieces.len(), sheet.pieces.len());
        let mut laid = Vec::new();
        for (index, (made, said)) in pieces.iter().zip(&sheet.pieces).enumerate() {
            assert!(made.is(Box4::of(said)), "{made:?} was to be {said:?}");
            assert_eq!(uncut.contains(&index), said.becomes != Becomes::Pieces);
            let side = (made.0[2] - made.0[0]).min(made.0[3] - made.0[1]);
            match said.becomes {
                Becomes::Part { part, turned } => {
                    times[part] += 1;
                    let of = parts[part];
                    assert!(of.may_turn || !turned);
                    let (width, length) = if turned { (of.length, of.width) } else { (of.width, of.length) };
                    let place = said.place;
                    assert!((place.width - width).get::<inch>().abs() < CLOSE);
                    assert!((place.length - length).get::<inch>().abs() < CLOSE);
                    laid.push(*made);
                }
                Becomes::OffCut => assert!(side > keep - CLOSE),
                Becomes::Scrap => assert!(side < keep + CLOSE),
                Becomes::Pieces => {}
            }
        }
        assert!(!laid.is_empty(), "a sheet for nothing");
        for (index, Box4(one)) in laid.iter().enumerate() {
            assert!((0..2).all(|axis| one[axis] > -CLOSE && one[axis + 2] < whole.0[axis + 2] + CLOSE));
            for Box4(other) in &laid[index + 1..] {
                let apart = |axis: usize| (other[axis] - one[axis + 2]).max(one[axis] - other[axis + 2]);
                assert!(apart(0).max(apart(1)) > kerf - CLOSE, "{one:?} and {other:?} touch");
            }
        }
        let uncut: f64 = uncut.iter().map(|&index| pieces[index].area()).sum();
        let sawdust: f64 = sheet.cuts.iter().map(|cut| cut.length.get::<inch>() * kerf).sum();
        assert!(uncut + sawdust > whole.area() - 1e-3 && uncut < whole.area() + 1e-3, "area is lost");
    }
    for unplaced in &layout.unplaced {
        times[unplaced.part] += 1;
    }
    assert!(times.iter().all(|&times| times == 1), "every part once: {times:?}");
    for (index, (of, used)) in stock.iter().zip(used).enumerate() {
        match of.supply {
            Supply::AtHand(count) => assert!(used <= count && layout.to_buy[index] == 0),
            Supply::ToBuy => assert_eq!(used, layout.to_buy[index]),
        }
    }
    assert!(layout.to_buy() >= layout.least_sheets, "{} < {}", layout.to_buy(), layout.least_sheets);
    let sum = layout.parts_area() + layout.kept_area() + layout.waste_area();
    assert!((sum - layout.sheet_area()).abs().value < 1e-9);
    assert!((-1e-9..=1.0).contains(&layout.waste_share()));
}

/// The sizes of parts in inches with the kerf, as shelves or the best fit take them.
fn enlarged(parts: &[Part], kerf: f64) -> Vec<(f64, f64)> {
    parts.iter().map(|part| (part.width.get::<inch>() + kerf, part.length.get::<inch>() + kerf)).collect()
}

/// Shelves across a sheet, by first fit in order of falling height, every part with its long side along the
/// shelf: how many sheets.
fn shelves(parts: &[(f64, f64)], sheet: (f64, f64)) -> usize {
    let mut parts: Vec<_> = parts.iter().map(|&(w, h)| (f64::max(w, h), f64::min(w, h))).collect();
    parts.sort_by(|one, other| other.1.total_cmp(&one.1));
    // A sheet is what is left of its length and the shelves: what is left of each, and its height.
    let mut sheets: Vec<(f64, Vec<(f64, f64)>)> = Vec::new();
    for (w, h) in parts {
        let shelf = |shelf: &&mut (f64, f64)| shelf.0 + 1e-6 >= w && shelf.1 + 1e-6 >= h;
        if let Some(shelf) = sheets.iter_mut().flat_map(|sheet| &mut sheet.1).find(shelf) {
            shelf.0 -= w;
            continue;
        }
        let index = sheets.iter().position(|sheet| sheet.0 + 1e-6 >= h).unwrap_or_else(|| {
            sheets.push((sheet.1, Vec::new()));
            sheets.len() - 1
        });
        sheets[index].0 -= h;
        sheets[index].1.push((sheet.0 - w, h));
    }
    sheets.len()
}

/// The rest that fits best by area takes each part, the largest first; what remains is divided along its
/// shorter side: how many sheets.
fn best_fit(parts: &[(f64, f64)], sheet: (f64, f64)) -> usize {
    let mut parts = parts.to_vec();
    parts.sort_by(|one, other| (other.0 * other.1).total_cmp(&(one.0 * one.1)));
    let (mut rests, mut sheets): (Vec<(f64, f64)>, usize) = (Vec::new(), 0);
    for part in parts {
        let best = |rests: &[(f64, f64)]| {
            let mut best: Option<(usize, f64, (f64, f64))> = None;
            for (index, rest) in rests.iter().enumerate() {
                for (w, h) in [part, (part.1, part.0)] {
                    let cost = rest.0 * rest.1 - w * h;
                    let fits = w <= rest.0 + 1e-6 && h <= rest.1 + 1e-6;
                    if fits && best.is_none_or(|best| cost < best.1 - 1e-9) {
                        best = Some((index, cost, (w, h)));
                    }
                }
            }
            best
        };
        let (index, _, (w, h)) = best(&rests).unwrap_or_else(|| {
            sheets += 1;
            rests.push(sheet);
            best(&rests[rests.len() - 1..]).map(|(_, cost, size)| (rests.len() - 1, cost, size)).expect("all fit")
        });
        let rest = rests[index];
        let (beside, above) = (rest.0 - w, rest.1 - h);
        let across = beside < above;
        let parts = if across { [(beside, h), (rest.0, above)] } else { [(beside, rest.1), (w, above)] };
        rests.splice(index..=index, parts);
    }
    sheets
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn every_layout_can_be_cut(
        parts in parts(24), stock in stock(), kerf in kerf(), keep in 0.0..12.0_f64,
    ) {
        let layout = lay_out(&parts, &stock, inches(kerf), inches(keep), EFFORT);
        check(&parts, &stock, kerf, keep, &layout);
        prop_assert_eq!(layout, lay_out(&parts, &stock, inches(kerf), inches(keep), EFFORT));
    }

    #[test]
    fn no_layout_is_worse_than_the_plain_ways(mut parts in parts(40), kerf in kerf(), effort in 0..60_000_u64) {
        let sheet = Stock { width: inches(97.0), length: inches(49.0), supply: Supply::ToBuy };
        let fits = |part: &Part| {
            let sides = [part.width, part.length];
            sides.iter().all(|&side| side <= sheet.width) && sides.iter().any(|&side| side <= sheet.length)
        };
        parts.retain(fits);
        parts.iter_mut().for_each(|part| part.may_turn = true);
        let layout = lay_out(&parts, &[sheet], inches(kerf), Length::default(), Effort { steps: effort });
        prop_assert!(layout.unplaced.is_empty());
        let (enlarged, sheet) = (enlarged(&parts, kerf), (97.0 + kerf, 49.0 + kerf));
        let plain = shelves(&enlarged, sheet).min(best_fit(&enlarged, sheet));
        prop_assert!(layout.to_buy() as usize <= plain, "{} > {plain}", layout.to_buy());
    }

    #[test]
    fn no_size_is_too_wild(
        sizes in prop::collection::vec((wild(), wild(), any::<bool>()), 0..12),
        sheets in prop::collection::vec((wild(), wild(), prop::option::of(any::<u32>())), 0..4),
        kerf in wild(), keep in wild(),
    ) {
        let part = |&(width, length, may_turn): &(f64, f64, bool)| {
            Part { width: inches(width), length: inches(length), may_turn }
        };
        let parts: Vec<Part> = sizes.iter().map(part).collect();
        let kind = |&(width, length, count): &(f64, f64, Option<u32>)| {
            let supply = count.map_or(Supply::ToBuy, Supply::AtHand);
            Stock { width: inches(width), length: inches(length), supply }
        };
        let stock: Vec<Stock> = sheets.iter().map(kind).collect();
        let layout = lay_out(&parts, &stock, inches(kerf), inches(keep), Effort { steps: 10_000 });
        let is_part = |piece: &&Piece| matches!(piece.becomes, Becomes::Part { .. });
        let placed = layout.sheets.iter().flat_map(|sheet| &sheet.pieces).filter(is_part).count();
        prop_assert_eq!(placed + layout.unplaced.len(), parts.len());
        prop_assert!(layout.to_buy() >= layout.least_sheets);
    }
}

/// Any number at all.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        prop::sample::select(vec![0.0, -0.0, f64::NAN, f64::INFINITY, f64::MIN_POSITIVE, 1e-9, 1e-5, 4e5]),
        0.0..100.0_f64,
    ]
}
