//! What is read off the screen or off paper in the workshop: lists in words, and the shop sheet.

mod cuts;
mod saw;

pub use cuts::{CutRow, cut_rows};
pub use saw::saw_words;
