//! Finishes the built page.
fn main() {}
