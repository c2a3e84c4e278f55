//! Which screen is shown, and what the address says of it. Nothing takes the place of what is not kept without a word.

use super::super::dom;
use super::super::front::{Front, Shown, name_or};
use super::jobs::Jobs;
use super::keeper::{Keeper, Keeping};
use super::notices::{Action, Notices};
use super::open::OpenJob;
use super::stored::Stored;
use crate::finding::Stage;
use crate::job::{FieldPath, Job, PieceField};
use crate::mix::demo;
use crate::store::{self, LinkError, browser};
use leptos::prelude::*;
use std::sync::Arc;

/// Which screen is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Route {
    /// Every job.
    Shelf,
    /// One verb of the open job.
    Job(Stage),
    /// A job that cannot be opened, and why.
    Lost(String),
    /// The job that a link carries, or why there is none in it.
    Arrived(Result<Box<Job>, LinkError>),
}

/// The five verbs, in the order of the days.
pub const STAGES: [Stage; 5] = [Stage::Measure, Stage::Build, Stage::Pour, Stage::Finish, Stage::Quote];

/// The word for a verb.
pub fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::Measure => "Measure",
        Stage::Build => "Build",
        Stage::Pour => "Pour",
        Stage::Finish => "Finish",
        Stage::Quote => "Quote",
    }
}

/// The address of a verb of a job.
pub fn address_of(id: &str, stage: Stage) -> String {
    format!("#/job/{id}/{}", stage_word(stage).to_lowercase())
}

/// Owns which screen is shown. It follows the address, which the browser's back button and the maker change too; an
/// open job that is not kept stays, and is said to.
#[derive(Clone, Copy)]
pub struct Way {
    /// Which screen is shown.
    pub route: RwSignal<Route>,
    /// The id of the field that has the focus.
    pub focus: RwSignal<Option<String>>,
    front: Front,
    job: OpenJob,
    keeper: Keeper,
    jobs: Jobs,
    stored: Stored,
    notices: Notices,
}

impl Way {
    /// At the shelf, until the address is followed.
    pub fn new(front: Front, job: OpenJob, keeper: Keeper, jobs: Jobs, stored: Stored, notices: Notices) -> Self {
        Self {
            route: RwSignal::new(Route::Shelf),
            focus: RwSignal::new(None),
            front,
            job,
            keeper,
            jobs,
            stored,
            notices,
        }
    }

    /// Follows the address from here on.
    pub fn wake(self) {
        self.follow_address();
        if let Some(window) = web_sys::window() {
            dom::listen(&window, "hashchange", move |_| self.follow_address());
        }
    }

    /// The address of a verb of the open job.
    pub fn address(self, stage: Stage) -> String {
        self.job.with(|job| address_of(&job.id, stage))
    }

    /// Goes to a screen, so that the browser's back button comes back from it.
    pub fn go(self, route: Route) {
        let address = match &route {
            Route::Shelf => "#/".to_owned(),
            Route::Job(stage) => address_of(&self.job.id(), *stage),
            Route::Lost(_) | Route::Arrived(_) => return self.show(route),
        };
        dom::set_address(&address);
        self.follow_address();
    }

    /// Puts another address in the place of the one that is there, and shows what it asks for: the browser's
    /// back button does not come back to what was there.
    pub fn replace_address(self, address: &str) {
        dom::replace_address(address);
        self.follow_address();
    }

    /// Shows that screen.
    fn show(self, route: Route) {
        self.front.shown.set(if route == Route::Shelf { Shown::Shelf } else { Shown::Workshop });
        self.route.set(route);
    }

    /// Shows what the address asks for.
    pub fn follow_address(self) {
        let hash = web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default();
        if let Some(found) = store::find_link(&hash) {
            self.keeper.keep_now();
            self.notices.sheet.set(None);
            return self.show(Route::Arrived(store::read_link(found).map(Box::new)));
        }
        let route = self.asked_for(&hash);
        if route == Route::Shelf {
            self.jobs.refresh();
        }
        let here = self.route.get_untracked() == route && self.front.shown.get_untracked() != Shown::Opening;
        if !here {
            self.notices.sheet.set(None);
            self.focus.set(None);
            self.show(route);
            if let Some(window) = web_sys::window() {
                window.scroll_to_with_x_and_y(0.0, 0.0);
            }
        }
    }

    /// The screen that an address without a link asks for; its job is open then, or lost.
    fn asked_for(self, hash: &str) -> Route {
        let mut words = hash.trim_start_matches(['#', '/']).split('/');
        match (words.next(), words.next()) {
            (Some("job"), Some(id)) if !id.is_empty() => {
                let verb = words.next().unwrap_or_default();
                let stage = STAGES.into_iter().find(|stage| stage_word(*stage).to_lowercase() == verb);
                self.open(id, stage.unwrap_or(Stage::Measure))
            }
            _ => {
                self.keeper.keep_now();
                Route::Shelf
            }
        }
    }

    /// Opens a job unless it is open already.
    fn open(self, id: &str, stage: Stage) -> Route {
        if self.keeper.is_open(id) {
            return Route::Job(stage);
        }
        if self.keeper.is_unkept() {
            let asked = address_of(id, stage);
            return self.stay(Arc::new(move || dom::set_address(&asked)));
        }
        match self.stored.records().load(id) {
            Ok(loaded) => {
                self.keeper.lay_out(loaded.content, loaded.stamp);
                Route::Job(stage)
            }
            Err(why) => Route::Lost(why.to_string()),
        }
    }

    /// Keeps a new job and opens it.
    pub fn open_new(self, job: Job) {
        if self.keeper.is_unkept() {
            let route = self.stay(Arc::new(move || self.open_new(job.clone())));
            return self.go(route);
        }
        self.keeper.lay_out_new(job);
        self.go(Route::Job(Stage::Measure));
    }

    /// Opens the worked job.
    pub fn open_demo(self) {
        self.open_new(demo(&browser::random_id()));
    }

    /// Opens a job with nothing measured yet, in the units of the last one.
    pub fn open_blank(self) {
        self.open_new(Job::new(&browser::random_id(), self.job.with_untracked(|job| job.units)));
        dom::focus_on(FieldPath::Piece(0, PieceField::Width).key());
    }

    /// The open job stays, and is said to; `go` is what was asked for, and done if the maker gives the job up.
    fn stay(self, go: Action) -> Route {
        let stage = match self.route.get_untracked() {
            Route::Job(stage) => stage,
            _ => Stage::Measure,
        };
        dom::replace_address(&address_of(&self.job.id(), stage));
        let give_up = Arc::new(move || {
            self.keeper.close();
            go();
        });
        let name = self.job.with_untracked(|job| name_or(job.name.text()));
        let says = format!("{name} is not kept yet, so it stays open. Share it as a file, or try again.");
        self.notices.tell(&says, Some(("Give it up", give_up)));
        Route::Job(stage)
    }

    /// Keeps this tab's state as a job of its own, beside the other tab's; where that was deleted, in its place.
    pub fn keep_both(self) {
        if self.keeper.keeping.with_untracked(|keeping| *keeping == Keeping::Gone) {
            if let Err(why) = self.keeper.keep_after_all() {
                self.notices.tell(&why, None);
            }
        } else if self.keeper.keep_beside() {
            self.go(Route::Job(Stage::Measure));
            self.notices.tell("Both are on your shelf.", None);
        }
    }

    /// Leaves the open job deleted, as another tab has it.
    pub fn let_go(self) {
        self.keeper.close();
        self.go(Route::Shelf);
    }
}
