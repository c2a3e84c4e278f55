//! Sheets: the fewest that small sets of parts can be cut from with cuts that go right through. Every number
//! was found by trying all ways to cut (no published source); sizes in inches, kerf 1/8 unless told.

use pourwright::measure::{Length, exact::inches};
use pourwright::sheet::{Effort, Layout, Part, Stock, Supply, Why, lay_out};

fn parts(sizes: &[(f64, f64, usize)], may_turn: bool) -> Vec<Part> {
    let of = |&(width, length, count): &(f64, f64, usize)| {
        std::iter::repeat_n(Part { width: inches(width), length: inches(length), may_turn }, count)
    };
    sizes.iter().flat_map(of).collect()
}

fn laid_out(parts: &[Part], width: f64, length: f64, kerf: f64) -> Layout {
    let stock = Stock { width: inches(width), length: inches(length), supply: Supply::ToBuy };
    lay_out(parts, &[stock], inches(kerf), Length::default(), Effort::default())
}

#[track_caller]
fn assert_sheets(sizes: &[(f64, f64, usize)], sheet: (f64, f64), kerf: f64, expected: u32) {
    let parts = parts(sizes, true);
    let layout = laid_out(&parts, sheet.0, sheet.1, kerf);
    assert!(layout.unplaced.is_empty(), "{:?}", layout.unplaced);
    assert_eq!(layout.to_buy(), expected);
    assert!(layout.least_sheets <= expected, "a bound of {} is none", layout.least_sheets);
    // The same with the sheet the other way round.
    assert_eq!(laid_out(&parts, sheet.1, sheet.0, kerf).to_buy(), expected);
}

/// K1.
#[test]
fn a_form_fits_one_sheet() {
    assert_sheets(&[(61.0, 22.0, 1), (61.0, 2.0, 2), (22.0, 2.0, 2)], (96.0, 48.0), 0.125, 1);
}

/// K2: two thirds of one sheet by area.
#[test]
fn two_wide_bases_need_two_sheets() {
    assert_sheets(&[(60.0, 25.5, 2)], (96.0, 48.0), 0.125, 2);
    assert_eq!(laid_out(&parts(&[(60.0, 25.5, 2)], true), 96.0, 48.0, 0.125).least_sheets, 2);
}

/// K3: the kerf decides, and there is none at the edge of a sheet.
#[test]
fn two_halves_are_a_sheet_but_for_the_kerf() {
    assert_sheets(&[(48.0, 48.0, 2)], (96.0, 48.0), 0.0, 1);
    assert_sheets(&[(48.0, 48.0, 2)], (96.0, 48.0), 0.125, 2);
    assert_sheets(&[(47.9375, 48.0, 2)], (96.0, 48.0), 0.125, 1);
    assert_sheets(&[(96.0, 48.0, 1)], (96.0, 48.0), 0.125, 1);
}

/// K4.
#[test]
fn a_form_in_two_pieces_needs_two_sheets() {
    let sizes = [
        (84.0, 25.5, 1),
        (34.5, 25.5, 1),
        (84.0, 2.0, 1),
        (58.5, 2.0, 1),
        (60.0, 2.0, 1),
        (34.5, 2.0, 1),
        (25.5, 2.0, 2),
    ];
    assert_sheets(&sizes, (96.0, 48.0), 0.125, 2);
}

/// K5.
#[test]
fn what_is_too_long_fits_if_it_may_turn() {
    assert_sheets(&[(20.0, 50.0, 2)], (96.0, 48.0), 0.125, 1);
    let fixed = laid_out(&parts(&[(20.0, 50.0, 2)], false), 96.0, 48.0, 0.125);
    assert_eq!(fixed.to_buy(), 0);
    assert_eq!(
        fixed.unplaced.iter().map(|part| (part.part, part.why)).collect::<Vec<_>>(),
        [(0, Why::FitsNoSheet), (1, Why::FitsNoSheet)]
    );
}

/// K6: a pinwheel fills the sheet, but no cut goes right through it.
#[test]
fn a_pinwheel_cannot_be_cut_right_through() {
    assert_sheets(&[(3.0, 2.0, 4), (1.0, 1.0, 1)], (5.0, 5.0), 0.0, 2);
}
