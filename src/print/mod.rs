//! What is read off the screen or off paper in the workshop: lists in words, and the shop sheet.

mod cuts;

pub use cuts::{CutRow, cut_rows};
