//! The screens that follow Measure, which are fetched by themselves: whoever shows them knows only where they will be.

use super::desk::Desk;
use leptos::prelude::AnyView;
use std::sync::OnceLock;

/// The screens that follow Measure.
#[derive(Clone, Copy)]
pub struct Screens {
    /// The form, and whether the top cracks.
    pub build: fn(Desk) -> AnyView,
    /// The mix, the day and the clock.
    pub pour: fn(Desk) -> AnyView,
    /// From the strip to the set.
    pub finish: fn(Desk) -> AnyView,
    /// Hours and prices.
    pub quote: fn(Desk) -> AnyView,
}

static HERE: OnceLock<Screens> = OnceLock::new();

/// The screens, once they are there.
pub fn screens() -> Option<&'static Screens> {
    HERE.get()
}

/// They are there.
pub fn bring(screens: Screens) {
    // Those of a second fetch are the same ones.
    let _ = HERE.set(screens);
}
