//! Units of the sheets: what is said of sizes that are none, of sheets that run out, and of the order of cuts.

use super::*;
use crate::measure::exact::{in_inches, inches};

fn part(width: f64, length: f64) -> Part {
    Part { width: inches(width), length: inches(length), may_turn: true }
}

fn to_buy(width: f64, length: f64) -> Stock {
    Stock { width: inches(width), length: inches(length), supply: Supply::ToBuy }
}

fn at_hand(width: f64, length: f64, count: u32) -> Stock {
    Stock { supply: Supply::AtHand(count), ..to_buy(width, length) }
}

fn laid(parts: &[Part], stock: &[Stock]) -> Layout {
    lay_out(parts, stock, inches(0.125), inches(6.0), Effort::default())
}

fn whys(layout: &Layout) -> Vec<(usize, Why)> {
    layout.unplaced.iter().map(|unplaced| (unplaced.part, unplaced.why)).collect()
}

#[test]
fn nothing_is_laid_out_for_nothing() {
    let layout = laid(&[], &[to_buy(49.0, 97.0)]);
    assert!(layout.sheets.is_empty() && layout.unplaced.is_empty());
    assert_eq!((layout.to_buy(), layout.least_sheets, layout.waste_share()), (0, 0, 0.0));
    assert_eq!(whys(&laid(&[part(1.0, 1.0)], &[])), [(0, Why::FitsNoSheet)]);
}

#[test]
fn what_is_no_size_is_named() {
    let sizes = [f64::NAN, f64::INFINITY, 0.0, -1.0, 1e300];
    let parts: Vec<Part> = sizes.iter().map(|&size| part(size, 10.0)).chain([part(10.0, 10.0)]).collect();
    let layout = laid(&parts, &[to_buy(f64::NAN, 97.0), to_buy(49.0, 97.0)]);
    assert_eq!(whys(&layout), [0, 1, 2, 3, 4].map(|index| (index, Why::NotASize)));
    assert_eq!(layout.to_buy, [0, 1]);
    for kerf in [f64::NAN, -0.125, f64::INFINITY] {
        let layout = lay_out(&[part(10.0, 10.0)], &[to_buy(49.0, 97.0)], inches(kerf), inches(6.0), Effort::default());
        assert_eq!(whys(&layout), [(0, Why::NotASize)]);
    }
}

#[test]
fn sheets_at_hand_run_out() {
    let layout = laid(&[part(20.0, 20.0); 3], &[at_hand(20.0, 20.0, 2)]);
    assert_eq!((layout.sheets.len(), layout.to_buy()), (2, 0));
    assert_eq!(layout.unplaced.iter().map(|unplaced| unplaced.why).collect::<Vec<_>>(), [Why::NoSheetLeft]);
}

#[test]
fn off_cuts_are_used_before_a_sheet_is_bought() {
    let stock = [to_buy(49.0, 97.0), at_hand(20.0, 60.0, 1), at_hand(30.0, 30.0, 1)];
    // All fit the two off-cuts.
    let layout = laid(&[part(19.0, 59.0), part(29.0, 29.0)], &stock);
    assert_eq!((layout.to_buy(), layout.least_sheets), (0, 0));
    // The large one needs a sheet, and would leave room on it for the others; they still go on off-cuts.
    let layout = laid(&[part(30.0, 90.0), part(10.0, 50.0), part(9.0, 50.0)], &stock);
    assert_eq!(layout.to_buy, [1, 0, 0]);
    assert_eq!(layout.sheets.iter().map(|sheet| sheet.stock).collect::<Vec<_>>(), [1, 0]);
}

#[test]
fn the_smaller_of_two_sheets_is_bought_if_it_will_do() {
    let stock = [to_buy(49.0, 97.0), to_buy(49.0, 49.0)];
    assert_eq!(laid(&[part(40.0, 20.0); 2], &stock).to_buy, [0, 1]);
    assert_eq!(laid(&[part(40.0, 20.0); 4], &stock).to_buy, [1, 0]);
    assert_eq!(laid(&[part(48.0, 96.0), part(48.0, 40.0)], &stock).to_buy, [1, 1]);
}

/// One base on a sheet: first the cut that leaves the large rest, right through, then the strip beside it.
#[test]
fn cuts_begin_with_those_that_go_right_through() {
    let layout = laid(&[part(20.0, 60.0)], &[to_buy(49.0, 97.0)]);
    let cuts = &layout.sheets[0].cuts;
    let said: Vec<_> =
        cuts.iter().map(|cut| (cut.piece, cut.travel, in_inches(cut.at), in_inches(cut.length))).collect();
    let expected = [(0, Travel::Length, 20.0, 97.0), (1, Travel::Width, 60.0, 20.0)];
    for (said, expected) in said.iter().zip(expected) {
        assert_eq!((said.0, said.1), (expected.0, expected.1));
        assert!((said.2 - expected.2).abs() < 1e-9 && (said.3 - expected.3).abs() < 1e-9, "{said:?}");
    }
    assert_eq!(said.len(), 2);
    let kept: f64 = (49.0 - 20.125) * 97.0 + 20.0 * (97.0 - 60.125);
    let square_inch = inches(1.0) * inches(1.0);
    assert!(((layout.kept_area() / square_inch).value - kept).abs() < 1e-6);
    assert!(((layout.waste_area() / square_inch).value - 0.125 * (97.0 + 20.0)).abs() < 1e-6);
}

/// Six strips across three columns: the cuts that go right through come before any that does not.
#[test]
fn cuts_through_the_sheet_come_first() {
    let layout = laid(&[part(16.0, 48.0); 6], &[to_buy(48.25, 96.125)]);
    assert_eq!(layout.to_buy(), 1);
    let pieces: Vec<usize> = layout.sheets[0].cuts.iter().map(|cut| cut.piece).collect();
    let turn = layout.sheets[0].cuts.iter().position(|cut| cut.travel != layout.sheets[0].cuts[0].travel);
    let turn = turn.expect("columns are cut across");
    assert!(
        layout.sheets[0].cuts[turn..].iter().all(|cut| cut.travel != layout.sheets[0].cuts[0].travel),
        "{pieces:?}"
    );
}

#[test]
fn an_off_cut_has_the_least_side_that_was_asked_for() {
    let layout = laid(&[part(49.0, 90.875)], &[to_buy(49.0, 97.0)]);
    assert!((layout.kept_area() - inches(49.0) * inches(6.0)).abs().value < 1e-9);
    let layout = laid(&[part(49.0, 91.0)], &[to_buy(49.0, 97.0)]);
    assert_eq!(layout.kept_area(), Area::default());
    // The saw takes all of a rest within the kerf.
    let layout = laid(&[part(49.0, 96.9)], &[to_buy(49.0, 97.0)]);
    assert_eq!(layout.sheets[0].cuts[0].leaves, (1, None));
}

#[test]
fn no_budget_still_lays_everything_out() {
    let parts = [part(20.0, 30.0); 12];
    let layout = lay_out(&parts, &[to_buy(49.0, 97.0)], inches(0.125), inches(6.0), Effort { steps: 0 });
    assert!(layout.unplaced.is_empty() && layout.to_buy() >= layout.least_sheets);
}

#[test]
fn too_many_parts_are_named() {
    let parts = vec![part(2.0, 3.0); MOST_PARTS + 1];
    let layout = lay_out(&parts, &[to_buy(49.0, 97.0)], inches(0.125), inches(6.0), Effort { steps: 0 });
    assert_eq!(whys(&layout), [(MOST_PARTS, Why::TooMany)]);
}
