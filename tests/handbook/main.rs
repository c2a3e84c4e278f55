//! Handbook checks.

mod units;
