//! What is read off the screen or off paper in the workshop: lists in words, the steps of a pour, the shop sheet.

mod build;
mod cuts;
mod evening;
mod list;
mod mix;
mod quote;
mod saw;
mod shop;
mod steps;
mod typed;

pub use build::{job_lists, piece_lists};
pub use cuts::cut_rows;
pub use evening::{ToDo, evening_list};
pub use list::{List, Row};
pub use mix::mix_lists;
pub use quote::{
    CostRow, care_page, client_page, cost_rows, finish_page, freeze, job_name, maker_page, side_by_side, version,
};
pub use saw::saw_words;
pub use shop::{SHOP_SHEET, shop_sheet};
pub use steps::{StepWords, bag_words, clock_words, log_words, step_words, threat_words};
pub use typed::typed_rows;
