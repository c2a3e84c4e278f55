//! Sheets: the fewest that small sets of parts can be cut from with cuts that go right through. Every number
//! was found by trying all ways to cut (no published source); sizes in inches, kerf 1/8 unless told.

use crate::evidence::{Check, Evidence, Mark, Table, checks};
use pourwright::measure::{Length, exact::inches};
use pourwright::sheet::{Effort, Layout, Part, Stock, Supply, Why, lay_out};

checks![
    a_form_fits_one_sheet,
    two_wide_bases_need_two_sheets,
    two_halves_are_a_sheet_but_for_the_kerf,
    a_form_in_two_pieces_needs_two_sheets,
    what_is_too_long_fits_if_it_may_turn,
    a_pinwheel_cannot_be_cut_right_through
];

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
fn assert_sheets(
    table: &mut Table,
    what: &str,
    sizes: &[(f64, f64, usize)],
    sheet: (f64, f64),
    kerf: f64,
    expected: u32,
) {
    let parts = parts(sizes, true);
    let layout = laid_out(&parts, sheet.0, sheet.1, kerf);
    assert!(layout.unplaced.is_empty(), "{:?}", layout.unplaced);
    table.same(what, layout.to_buy(), expected);
    assert!(layout.least_sheets <= expected, "a bound of {} is none", layout.least_sheets);
    // The same with the sheet the other way round.
    assert_eq!(laid_out(&parts, sheet.1, sheet.0, kerf).to_buy(), expected);
}

/// K1.
fn a_form_fits_one_sheet(evidence: &mut Evidence) {
    let table =
        sheets(evidence, "K1", "A form from one sheet", "96 × 48 in, kerf 1/8 in: 61 × 22, two 61 × 2, two 22 × 2");
    assert_sheets(table, "sheets", &[(61.0, 22.0, 1), (61.0, 2.0, 2), (22.0, 2.0, 2)], (96.0, 48.0), 0.125, 1);
}

/// K2: two thirds of one sheet by area.
fn two_wide_bases_need_two_sheets(evidence: &mut Evidence) {
    let problem = "96 × 48 in, kerf 1/8 in: two 60 × 25.5, which are 66 % of one sheet";
    let table = sheets(evidence, "K2", "Two wide bases", problem);
    assert_sheets(table, "sheets", &[(60.0, 25.5, 2)], (96.0, 48.0), 0.125, 2);
    assert_eq!(laid_out(&parts(&[(60.0, 25.5, 2)], true), 96.0, 48.0, 0.125).least_sheets, 2);
}

/// K3: the kerf decides, and there is none at the edge of a sheet.
fn two_halves_are_a_sheet_but_for_the_kerf(evidence: &mut Evidence) {
    let table =
        sheets(evidence, "K3", "Two halves of a sheet", "96 × 48 in: two 48 × 48, without kerf and with 1/8 in");
    assert_sheets(table, "sheets without kerf", &[(48.0, 48.0, 2)], (96.0, 48.0), 0.0, 1);
    assert_sheets(table, "sheets with kerf", &[(48.0, 48.0, 2)], (96.0, 48.0), 0.125, 2);
    assert_sheets(table, "two of 47 15/16 in", &[(47.9375, 48.0, 2)], (96.0, 48.0), 0.125, 1);
    assert_sheets(table, "the whole sheet", &[(96.0, 48.0, 1)], (96.0, 48.0), 0.125, 1);
}

/// K4.
fn a_form_in_two_pieces_needs_two_sheets(evidence: &mut Evidence) {
    let sizes = [
        (84.0, 25.5, 1),
        (34.5, 25.5, 1),
        (84.0, 2.0, 1),
        (58.5, 2.0, 1),
        (60.0, 2.0, 1),
        (34.5, 2.0, 1),
        (25.5, 2.0, 2),
    ];
    let problem = "96 × 48 in, kerf 1/8 in: 84 × 25.5, 34.5 × 25.5, 84 × 2, 58.5 × 2, 60 × 2, 34.5 × 2, two 25.5 × 2";
    assert_sheets(sheets(evidence, "K4", "The form of an L", problem), "sheets", &sizes, (96.0, 48.0), 0.125, 2);
}

/// K5.
fn what_is_too_long_fits_if_it_may_turn(evidence: &mut Evidence) {
    let problem = "96 × 48 in, kerf 1/8 in: two 20 × 50, which may turn or not";
    let table = sheets(evidence, "K5", "Parts that may turn", problem);
    assert_sheets(table, "sheets if they may turn", &[(20.0, 50.0, 2)], (96.0, 48.0), 0.125, 1);
    let fixed = laid_out(&parts(&[(20.0, 50.0, 2)], false), 96.0, 48.0, 0.125);
    table.same("parts that fit no sheet otherwise", fixed.unplaced.len(), 2);
    assert_eq!(fixed.to_buy(), 0);
    assert_eq!(
        fixed.unplaced.iter().map(|part| (part.part, part.why)).collect::<Vec<_>>(),
        [(0, Why::FitsNoSheet), (1, Why::FitsNoSheet)]
    );
}

/// K6: a pinwheel fills the sheet, but no cut goes right through it.
fn a_pinwheel_cannot_be_cut_right_through(evidence: &mut Evidence) {
    let problem = "5 × 5, no kerf: four 3 × 2 and one 1 × 1, which fill it as a pinwheel";
    let table = sheets(evidence, "K6", "Cuts that go right through", problem);
    assert_sheets(table, "sheets", &[(3.0, 2.0, 4), (1.0, 1.0, 1)], (5.0, 5.0), 0.0, 2);
}

/// Every number of sheets was found by trying all ways to cut.
fn sheets<'a>(
    evidence: &'a mut Evidence,
    label: &'static str,
    title: &'static str,
    problem: &'static str,
) -> &'a mut Table {
    evidence.check(Check {
        label,
        title,
        source: "All ways to cut with cuts that go right through, tried by a program",
        marks: &[Mark::Computed("Python 3.11, exhaustive")],
        problem,
        conventions: "The kerf lies between two parts only, and none at an edge of the sheet.",
        modelled: "sheet::lay_out at the usual effort, with the sheet either way round",
        ..Check::default()
    })
}
