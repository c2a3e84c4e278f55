//! The limits and constants of pricing, each with its source beside it.
//! A rule, its message and its test all read the limit here.

/// Finished jobs before the maker's hours teach anything: one odd job is not a habit.
pub const JOBS_TO_LEARN_FROM: usize = 3;

/// Only the newest so many jobs teach: a maker gets faster.
pub const JOBS_REMEMBERED: usize = 9;
