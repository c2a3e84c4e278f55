//! The front of the page: what is shown before, and beside, everything that reads a job.
//!
//! It is a program part of its own, small enough to be there at once: the shelf as it was listed last, and
//! what can be asked for there. Nothing here names a job, so nothing of jobs is in it; [`super::workshop`] is
//! fetched right behind it, answers what was asked meanwhile, and has the say from then on. It knows no screen either:
//! the root of the page shows what it says.

pub mod offline;
mod row;

pub use row::{Row, name_or, row, whole_name_or};

use super::dom;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{DragEvent, Element, File, FileList, ServiceWorkerRegistration};

/// What the front shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// Every job.
    Shelf,
    /// A word that something is being opened.
    Opening,
    /// Nothing: the workshop shows a job.
    Workshop,
}

/// Whether the page would open with the network gone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Offline {
    /// Not known yet.
    #[default]
    Unknown,
    /// It would.
    Ready,
    /// It would not: something could not be fetched yet, or the browser has dropped it.
    Lacking,
    /// This address does not allow it: not https, or a browser without service workers.
    Never,
}

/// Why a part of the page could not be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutOff {
    /// Nobody knows; mostly there is no network.
    Somehow,
    /// The host has another version, and no longer what this one lacks.
    Outdated,
}

/// Something asked for on the shelf that takes the workshop.
#[derive(Clone, Debug, PartialEq)]
pub enum Errand {
    /// A job with nothing measured yet.
    NewJob,
    /// The worked job.
    Demo,
    /// Bringing files in.
    Import,
    /// Everything in one file.
    BackUp,
    /// A copy of the job with that id.
    Copy(String),
    /// The job with that id out of sight.
    Delete(String),
    /// The deleted job under that key back on the shelf.
    PutBack(String),
    /// The text of the record with that id as a file.
    SaveText(String),
    /// These files brought in.
    Bring(Vec<File>),
    /// What is typed kept, and the newer version opened.
    TakeOver,
}

/// What an empty shelf says and shows: it stands in the page's file, so that it is seen before any program runs, and
/// is moved to where it is shown.
#[derive(Clone, Debug, Default)]
pub struct Welcome {
    /// What the page does.
    pub says: Option<Element>,
    /// The plan of the worked job, as a picture of what is to come.
    pub picture: Option<Element>,
}

impl Welcome {
    fn take() -> Self {
        let part = |css: &str| dom::document()?.query_selector(css).ok().flatten();
        Self { says: part("#welcome .says"), picture: part("#welcome .picture") }
    }
}

/// Owns what the front and the workshop share: the shelf as it is shown, what is asked for, and what is known of this
/// version of the page. Copied freely: it is a handful of handles. An errand is done once, by the workshop.
#[derive(Clone, Copy)]
pub struct Front {
    /// What is shown here.
    pub shown: RwSignal<Shown>,
    /// Why this browser keeps nothing, if it does not.
    pub storage_trouble: RwSignal<Option<String>>,
    /// A line about how safe what is kept is.
    pub storage_words: RwSignal<Option<String>>,
    /// The jobs on the shelf, last touched first.
    pub shelf: RwSignal<Vec<Row>>,
    /// Words that are looked for on the shelf.
    pub search: RwSignal<String>,
    /// The jobs that have them; `None` while nothing is looked for.
    pub found: RwSignal<Option<Vec<Row>>>,
    /// Jobs deleted lately: id and name.
    pub deleted: RwSignal<Vec<(String, String)>>,
    /// What an empty shelf says and shows.
    pub welcome: StoredValue<Welcome, LocalStorage>,
    /// Whether the page opens with the network gone.
    pub offline: RwSignal<Offline>,
    /// Other places on this host where the page is kept: all of them show the same jobs.
    pub neighbours: RwSignal<String>,
    /// Where the browser keeps the service worker of this page.
    pub registration: StoredValue<Option<ServiceWorkerRegistration>, LocalStorage>,
    /// A newer version of the page is there.
    pub newer: RwSignal<bool>,
    /// What was asked for and not done yet.
    pub errands: RwSignal<Vec<Errand>, LocalStorage>,
    /// The workshop is there.
    pub open: RwSignal<bool>,
    /// The screens that follow Measure are there.
    pub screens: RwSignal<bool>,
    /// The workshop or these screens could not be fetched, and why.
    pub cut_off: RwSignal<Option<CutOff>>,
    /// How often they were asked for once more.
    pub tries: RwSignal<u32>,
}

impl Front {
    /// The front as it stands before anything is known.
    pub fn new() -> Self {
        Self {
            shown: RwSignal::new(Shown::Opening),
            storage_trouble: RwSignal::new(None),
            storage_words: RwSignal::new(None),
            shelf: RwSignal::new(Vec::new()),
            search: RwSignal::new(String::new()),
            found: RwSignal::new(None),
            deleted: RwSignal::new(Vec::new()),
            welcome: StoredValue::new_local(Welcome::take()),
            offline: RwSignal::new(Offline::default()),
            neighbours: RwSignal::new(String::new()),
            registration: StoredValue::new_local(None),
            newer: RwSignal::new(false),
            errands: RwSignal::new_local(Vec::new()),
            open: RwSignal::new(false),
            screens: RwSignal::new(false),
            cut_off: RwSignal::new(None),
            tries: RwSignal::new(0),
        }
    }

    /// Asks for something that takes the workshop; it is done at once, or as soon as that is there.
    pub fn ask(self, errand: Errand) {
        self.errands.update(|errands| errands.push(errand));
    }

    /// Shows what the address asks for until the workshop has the say.
    pub fn wake(self) {
        self.follow_address();
        self.watch_drops();
        if let Some(window) = web_sys::window() {
            dom::listen(&window, "hashchange", move |_| {
                if !self.open.get_untracked() {
                    self.follow_address();
                }
            });
        }
    }

    /// A file dropped anywhere comes in; left to itself, the browser would open it in place of the page.
    fn watch_drops(self) {
        let Some(document) = dom::document() else { return };
        dom::listen(&document, "dragover", |event| event.prevent_default());
        dom::listen(&document, "drop", move |event| {
            event.prevent_default();
            let dropped = event.dyn_into::<DragEvent>().ok().and_then(|event| event.data_transfer()?.files());
            let files = dropped.as_ref().map(files_of).unwrap_or_default();
            if !files.is_empty() {
                self.ask(Errand::Bring(files));
            }
        });
    }

    /// Something was asked for that the workshop is still fetched for.
    pub fn waits(self) -> bool {
        !self.open.get() && self.cut_off.get().is_none() && self.errands.with(|errands| !errands.is_empty())
    }

    /// Shows what the address asks for as far as it goes without the workshop: the shelf as it was listed
    /// last, or that a job is being opened.
    fn follow_address(self) {
        let hash = web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default();
        if hash.len() > "#/".len() {
            return self.shown.set(Shown::Opening);
        }
        self.shelf.set(row::glance());
        self.shown.set(Shown::Shelf);
    }
}

/// The files of a list, which the browser may empty once its event is over.
pub fn files_of(list: &FileList) -> Vec<File> {
    (0..list.length()).filter_map(|index| list.get(index)).collect()
}
