//! Leaving what is not kept: nothing takes the place of the open job, and the page is not closed, without a word.

use super::desk::{Action, Desk, Keeping, Route};
use super::dom;
use super::shelf::name_or;
use crate::finding::Stage;
use leptos::prelude::*;
use std::sync::Arc;
use web_sys::Window;

impl Desk {
    /// The open job holds something that is not kept, even after another try.
    pub(super) fn is_unkept(self) -> bool {
        self.keep_now();
        let never = self.keeper().kept.borrow().as_ref().is_some_and(|(_, stamp)| stamp.revision == 0);
        never || self.differs()
    }

    /// The open job stays, and is said to; `go` is what was asked for, and done if the maker gives the job up.
    pub(super) fn stay(self, go: Action) -> Route {
        let stage = match self.route.get_untracked() {
            Route::Job(stage) => stage,
            _ => Stage::Measure,
        };
        let (name, address) =
            self.job.with_untracked(|job| (name_or(job.name.text()), Self::address_of(&job.id, stage)));
        dom::replace_address(&address);
        let give_up = Arc::new(move || {
            *self.keeper().kept.borrow_mut() = None;
            self.keeping.set(Keeping::Kept);
            go();
        });
        let says = format!("{name} is not kept yet, so it stays open. Share it as a file, or try again.");
        self.tell(&says, Some(("Give it up", give_up)));
        Route::Job(stage)
    }

    /// A browser asks before it closes a page on which something is not kept.
    pub(super) fn watch_closing(self, window: &Window) {
        dom::listen(window, "beforeunload", move |event| {
            let keeper = self.keeper();
            let in_memory = keeper.in_memory.get() && self.records().list().is_ok_and(|jobs| !jobs.is_empty());
            if self.is_unkept() || in_memory || keeper.bags_wait.get() || keeper.prices_wait.get() {
                event.prevent_default();
            }
        });
    }
}
