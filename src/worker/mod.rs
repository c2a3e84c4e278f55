//! The plate in a worker of its own, so that the page never waits for it.
//!
//! The worker is a second, small program of this package (`src/bin/plate_worker.rs`), fetched when a job first
//! asks. Values go to and fro by structured clone: a [`Request`] one way, a [`Reply`] the other.

#[cfg(feature = "page")]
mod page;
mod serve;

#[cfg(feature = "page")]
pub use page::{Heard, Solver};
pub use serve::serve;

use crate::strength::ask::{Answer, Effort, Question};
use serde::{Deserialize, Serialize};

/// What the page asks.
#[derive(Serialize, Deserialize)]
struct Request {
    /// Which question this is: answers to earlier ones are of no use.
    turn: u32,
    question: Question,
    effort: Effort,
}

/// What the worker answers.
#[derive(Serialize, Deserialize)]
enum Reply {
    /// It listens.
    Ready,
    /// The answer to that turn, or the beginning of it.
    Answer { turn: u32, answer: Box<Answer>, last: bool },
    /// It did not start, and why: said by `plate.js`, which knows no more than that.
    Failed(String),
}
