//! Puts the page on the screen, nothing else.
fn main() {}
