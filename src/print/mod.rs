//! What is read off the screen or off paper in the workshop: lists in words, and the shop sheet.

mod build;
mod cuts;
mod list;
mod saw;
mod shop;

pub use build::{job_lists, piece_lists};
pub use list::{List, Row};
pub use saw::saw_words;
pub use shop::{SHOP_SHEET, shop_sheet};
