//! Handbook checks.
