//! What is read off the screen or off paper in the workshop: lists in words, and the shop sheet.

mod cuts;
mod evening;
mod saw;
mod steps;

pub use cuts::{CutRow, cut_rows};
pub use evening::{ToDo, evening_list};
pub use saw::saw_words;
pub use steps::{StepWords, clock_words, log_words, step_words, threat_words};
