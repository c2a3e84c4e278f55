//! The page stays small enough for a phone at the edge of a network. Sizes are asserted, times never are.

use crate::site::Site;
use crate::sizes;

/// First visit: a second and a half of a slow connection (1.6 Mbit/s), as Lighthouse takes it.
const FIRST_SCREEN: usize = 250_000;

/// The workshop, fetched behind the first screen: not to grow unseen.
const WORKSHOP: usize = 1_215_000;

/// The plate's program.
const PLATES: usize = 140_000;

#[test]
fn the_page_keeps_to_its_weight() {
    let sizes = sizes::of(&Site::dist());
    for (what, size, most) in [
        ("the first screen", sizes.first_screen, FIRST_SCREEN),
        ("the workshop", sizes.workshop, WORKSHOP),
        ("the plate's program", sizes.plates, PLATES),
    ] {
        assert!(size > 1000, "{what}: {size} bytes cannot be all of it");
        assert!(size <= most, "{what}: {size} bytes compressed, {most} allowed");
    }
}
