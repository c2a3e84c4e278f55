//! What is typed for sheets, read once: the only file of the room that knows the job.

use crate::job::read::{self, optional, positive_length};
use crate::job::{FieldPath, FormField, Job, SheetField};
use crate::measure::Length;
use crate::working::Known;

/// One size of sheet that parts are cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetInputs {
    /// One side of it, more than nothing. The layout waits for it.
    pub width: Known<Length>,
    /// The other side of it, more than nothing. The layout waits for it.
    pub length: Known<Length>,
    /// How many there are; nothing where it is bought as needed, as a blank says.
    pub owned: Known<Option<u32>>,
}

/// What the layout of sheets follows from, beside the parts, their board and the kerf.
#[derive(Clone, Debug, PartialEq)]
pub struct CuttingInputs {
    /// The sheets, in the order of the job; those of which no side is typed are left aside.
    pub sheets: Vec<SheetInputs>,
    /// Off-cuts with a shorter side than this are thrown away; a blank counts as nothing, so that all are kept.
    pub keep: Known<Length>,
    /// The job has several pieces, whose parts are told apart by a number before their mark.
    pub several: bool,
}

impl CuttingInputs {
    /// What is typed for the sheets of that job.
    ///
    /// ```
    /// use pourwright::cutting::CuttingInputs;
    /// use pourwright::job::Job;
    /// use pourwright::measure::Units;
    ///
    /// let mut job = Job::new("a", Units::Metric);
    /// job.form.keep = "150".into();
    /// assert_eq!(CuttingInputs::read(&job).keep.unwrap().value, 0.15);
    /// ```
    pub fn read(job: &Job) -> Self {
        let sheets = job.form.sheets.iter().enumerate();
        let sheets = sheets.filter(|(_, sheet)| !(sheet.width.is_blank() && sheet.length.is_blank()));
        let sheet = |(index, _)| SheetInputs {
            width: positive_length(job, FieldPath::Sheet(index, SheetField::Width)),
            length: positive_length(job, FieldPath::Sheet(index, SheetField::Length)),
            owned: optional(job, FieldPath::Sheet(index, SheetField::Owned), read::count),
        };
        let keep = optional(job, FieldPath::Form(FormField::Keep), read::length);
        Self {
            sheets: sheets.map(sheet).collect(),
            keep: keep.map(Option::unwrap_or_default),
            several: job.pieces.len() > 1,
        }
    }
}
