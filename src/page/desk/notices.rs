//! What lies over a screen: the sheet that slides over it, and the line at its bottom.

use crate::working::{Waiting, Working};
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;

/// How long the line at the bottom stays.
const STAYS: Duration = Duration::from_secs(8);

/// What slides over a screen.
#[derive(Clone)]
pub enum Overlay {
    /// The hand calculation behind a number.
    Working(Working),
    /// What a number waits for.
    Waits(String, Waiting),
    /// Giving the job away.
    Share,
    /// Bringing one in.
    Import,
}

/// What a notice offers to do.
pub type Action = Arc<dyn Fn() + Send + Sync>;

/// A line at the bottom, with at most one thing to do.
#[derive(Clone)]
pub struct Notice {
    /// What happened.
    pub says: String,
    /// The word on the button, and what it does. It must outlive the row it was made in.
    pub action: Option<(&'static str, Action)>,
}

/// Owns what lies over a screen. At most one sheet is open, and one line is shown: a new one takes the place of the
/// one before, and stays for its own eight seconds.
#[derive(Clone, Copy)]
pub struct Notices {
    /// What slides over the screen.
    pub sheet: RwSignal<Option<Overlay>>,
    /// The line at the bottom.
    pub notice: RwSignal<Option<Notice>>,
    /// The number of the line that was said last.
    turn: StoredValue<u32>,
}

impl Notices {
    /// Nothing is said.
    pub fn new() -> Self {
        Self { sheet: RwSignal::new(None), notice: RwSignal::new(None), turn: StoredValue::new(0) }
    }

    /// Says something at the bottom for a while.
    pub fn tell(self, says: &str, action: Option<(&'static str, Action)>) {
        self.notice.set(Some(Notice { says: says.to_owned(), action }));
        let turn = self.turn.get_value().wrapping_add(1);
        self.turn.set_value(turn);
        let go_away = move || {
            if self.turn.get_value() == turn {
                self.notice.set(None);
            }
        };
        set_timeout(go_away, STAYS);
    }
}
