//! The form a job takes on disk and in shared files.

/// The version this program writes.
pub const VERSION: u32 = 1;
