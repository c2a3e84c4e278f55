//! The sheets of a job: every blank of board that its forms and knockouts take, laid out together.

mod inputs;

pub use inputs::{CuttingInputs, SheetInputs};

use crate::finding::{Finding, Severity, Stage};
use crate::form::{BoardInputs, Build, Stock};
use crate::job::{FieldPath, LayerOf, SheetField};
use crate::knockout::Knockouts;
use crate::label;
use crate::measure::{Area, Length, Quantity};
use crate::sheet::{self, Effort, Layout, Part, Supply, Unplaced, Why};
use crate::working::{Figure, Known, Named, Source, Term, Waiting, about, all, known_ref, together};

/// One blank that is cut from a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// Its mark in the cut list and on the drawings: "S1", "K1.2".
    pub mark: String,
    /// The piece that it is for, by its index.
    pub piece: usize,
    /// The longer side.
    pub length: Length,
    /// The shorter side.
    pub width: Length,
}

/// What the layout is made of. Two jobs that ask alike are cut alike, so it tells whether a layout that was
/// made elsewhere still holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// The blanks, each as often as it is cut.
    pub blanks: Vec<Blank>,
    /// The sheets, in the order of the job.
    pub stock: Vec<sheet::Stock>,
    /// What the saw takes.
    pub kerf: Length,
    /// Off-cuts with a shorter side than this are thrown away.
    pub keep: Length,
}

/// The sheets of a job, cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutting {
    /// What was asked for.
    pub task: Task,
    /// Where everything lies.
    pub layout: Layout,
    /// Sheets to buy.
    pub to_buy: Figure<u32>,
    /// The share of all sheets that is neither part nor off-cut to keep.
    pub waste: Figure<f64>,
}

/// Held against a part so often, a layout takes under 8 ms in the page: the plain ways, and a short search.
pub const QUICK: Effort = Effort { steps: 100_000 };

impl Task {
    /// What the forms and the knockouts of a job have cut from sheets of its board.
    ///
    /// # Errors
    /// What it waits for: a form, the kerf, or a size of sheet.
    pub fn of(build: &Build, knockouts: &[&Knockouts], boards: &BoardInputs, inputs: &CuttingInputs) -> Known<Self> {
        let BoardInputs { board, kerf_of_sheets, .. } = boards;
        let typed = (board.clone(), kerf_of_sheets.clone(), inputs.keep.clone());
        let (rows, board, kerf, keep, stock) =
            together((known_ref(&build.stock), typed.0, typed.1, typed.2, stock(&inputs.sheets)))?;
        let mut blanks = Vec::new();
        for row in rows.iter().filter(|row| row.stock == Stock::Board) {
            let blank = Blank { mark: row.mark.clone(), piece: row.piece, length: row.length, width: row.width };
            let count = usize::try_from(row.count).unwrap_or(usize::MAX).min(sheet::MOST_PARTS);
            blanks.extend(std::iter::repeat_n(blank, count));
        }
        for (piece, knockouts) in knockouts.iter().enumerate() {
            // A layer of another thickness comes from another sheet.
            let alike = |thickness: Length| (thickness - board).abs() <= crate::measure::geometry_tolerance();
            let of_board = knockouts.blanks().filter(|blank| blank.of == LayerOf::Board && alike(blank.thickness));
            blanks.extend(of_board.map(|blank| Blank {
                mark: if inputs.several { format!("{}-{}", piece + 1, blank.mark) } else { blank.mark.clone() },
                piece,
                length: blank.length.max(blank.width),
                width: blank.length.min(blank.width),
            }));
        }
        Ok(Self { blanks, stock, kerf, keep })
    }

    /// Cuts the sheets.
    pub fn lay_out(&self, effort: Effort) -> Layout {
        let part = |blank: &Blank| Part { width: blank.width, length: blank.length, may_turn: true };
        let parts: Vec<_> = self.blanks.iter().map(part).collect();
        sheet::lay_out(&parts, &self.stock, self.kerf, self.keep, effort)
    }

    /// The mark of the blank with that index.
    pub fn mark(&self, blank: usize) -> String {
        self.blanks.get(blank).map_or_else(String::new, |blank| blank.mark.clone())
    }
}

/// The sheets to cut from.
///
/// # Errors
/// The sizes and numbers that cannot be read.
fn stock(sheets: &[SheetInputs]) -> Known<Vec<sheet::Stock>> {
    all(sheets.iter().map(|sheet| {
        let SheetInputs { width, length, owned } = sheet;
        let (width, length, owned) = together((width.clone(), length.clone(), owned.clone()))?;
        let supply = owned.map_or(Supply::ToBuy, Supply::AtHand);
        Ok(sheet::Stock { width: width.min(length), length: width.max(length), supply })
    }))
}

impl Cutting {
    /// The sheets cut with that layout of the task.
    pub fn new(task: Task, layout: Layout) -> Self {
        let counted = |count, one, many| Quantity::Count(count, one, many);
        let sheets = layout.to_buy();
        let placed = task.blanks.len().saturating_sub(layout.unplaced.len());
        let placed = u32::try_from(placed).unwrap_or(u32::MAX);
        let least = counted(layout.least_sheets, "sheet", "sheets");
        let parts = [
            Term::named_as(placed, "blanks", counted(placed, "blank", "blanks")).into(),
            Term::named_as(layout.least_sheets, "the sheets that they need", least).into(),
        ];
        let says = "{} laid out on sheets, kerf between them; no layout takes fewer than {}";
        let quantity = counted(sheets, "sheet", "sheets");
        let to_buy = Term::found(says, parts, sheets).titled_as("Sheets to buy", quantity, Source::Arithmetic);
        let (all, parts, kept) = (layout.sheet_area(), layout.parts_area(), layout.kept_area());
        let share = layout.waste_share();
        let sheets = all.named("sheets");
        let left = sheets.clone() - parts.named("parts") - kept.named("off-cuts kept");
        let waste = if all > Area::default() {
            (left / sheets).by_rule("{}", |x| x[0], share)
        } else {
            left.by_rule("no sheet is cut: {}", |_| 0.0, share)
        };
        let waste = waste.titled_as("Waste", Quantity::Percent(share), Source::Arithmetic);
        Self { task, layout, to_buy, waste }
    }

    /// Sheets to buy for all of the parts.
    ///
    /// # Errors
    /// A part that is on no sheet: what it takes is not known.
    pub fn for_all(&self) -> Known<Figure<u32>> {
        match self.layout.unplaced.first() {
            None => Ok(self.to_buy.clone()),
            Some(unplaced) => {
                let says = format!("Part {} is on no sheet yet.", self.task.mark(unplaced.part));
                Err(Waiting::at(FieldPath::Sheet(0, SheetField::Length), says))
            }
        }
    }
}

/// Findings about the sheets of a job.
pub(crate) fn advise(cutting: &Cutting) -> Vec<Finding> {
    let finding = |unplaced: &Unplaced| {
        let blank = cutting.task.blanks.get(unplaced.part)?;
        let size = label!("{} by {}", about(blank.length), about(blank.width));
        let mark = &blank.mark;
        let (says, remedy) = match unplaced.why {
            Why::FitsNoSheet => (
                label!("Part {}, {}, is larger than every sheet.", mark, size),
                "Use a larger sheet, or make the part of two with a batten behind the joint.",
            ),
            Why::NoSheetLeft => (
                label!("Part {}, {}, finds no room on the sheets you have.", mark, size),
                "Add a sheet to buy: leave blank how many you have of it.",
            ),
            Why::NotASize => (label!("Part {} has no size.", mark), "Check what it is made from."),
            Why::TooMany => (label!("More than {} parts are not laid out.", sheet::MOST_PARTS), "Split the job."),
        };
        Some(Finding {
            severity: Severity::Watch,
            stage: Stage::Build,
            place: FieldPath::Sheet(0, SheetField::Length),
            says,
            remedy: remedy.into(),
            source: Source::Arithmetic,
        })
    };
    cutting.layout.unplaced.iter().filter_map(finding).take(3).collect()
}
