//! What is read off the screen or off paper in the workshop: lists in words, and the shop sheet.

mod cuts;
mod quote;
mod saw;

pub use cuts::{CutRow, cut_rows};
pub use quote::{
    CostRow, care_page, client_page, cost_rows, finish_page, freeze, job_name, maker_page, side_by_side, version,
};
pub use saw::saw_words;
