//! The desk: what every screen shares. One signal holds the job; everything shown follows from it.

use super::bringing::Bringing;
use super::dom;
use super::front::{Front, Shown};
use super::paper;
use super::verdicts::Verdicts;
use crate::draw::Selection;
use crate::estimate::{Cast, Estimate, Estimator, PieceEstimate};
use crate::finding::{Finding, Stage};
use crate::job::file::{FileError, Kept};
use crate::job::{Bag, EdgeKind, Entry, FieldPath, Job, Piece, PieceKind};
use crate::measure::{Units, Written, write_length};
use crate::mix::catalogue;
use crate::mix::demo;
use crate::price::PriceBook;
use crate::store::LinkError;
use crate::store::database::OnDisk;
use crate::top::Facing;
use crate::working::{Waiting, Working};
use leptos::prelude::*;
use std::ops::Deref;
use std::sync::{Arc, Mutex, PoisonError};

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

/// Whether what was typed is kept.
#[derive(Clone, Debug, PartialEq)]
pub enum Keeping {
    /// All of it: on disk or only in local storage, as [`Desk::on_disk`] has it.
    Kept,
    /// Not yet the last of it.
    Writing,
    /// It cannot be, and why.
    Failed(String),
    /// Another tab has kept the job in another state.
    Elsewhere {
        /// Why that cannot be read here, as when a newer program wrote it.
        unreadable: Option<String>,
    },
    /// Another tab has deleted the job.
    Gone,
}

impl Keeping {
    /// What was typed last is not kept, and is not about to be.
    pub fn is_wrong(&self) -> bool {
        matches!(self, Self::Failed(_) | Self::Elsewhere { .. } | Self::Gone)
    }

    /// Another tab has something else: nothing is saved over that.
    pub fn is_elsewhere(&self) -> bool {
        matches!(self, Self::Elsewhere { .. } | Self::Gone)
    }
}

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

/// Everything the screens share. Copied freely: it is a handful of handles.
#[derive(Clone, Copy)]
pub struct Desk {
    /// What it shares with the shelf.
    front: Front,
    /// Which screen is shown.
    pub route: RwSignal<Route>,
    /// The open job, as typed.
    pub job: RwSignal<Job>,
    /// The maker's prices.
    pub prices: RwSignal<PriceBook>,
    /// The maker's own bags.
    pub bags: RwSignal<Vec<Bag>>,
    /// What is cast: all that most screens show, worked out at every key.
    pub cast: Memo<Arc<Cast>>,
    /// Everything that follows from the job; worked out at a key only where a screen reads it.
    pub estimate: Memo<Estimate>,
    /// What the maker should know about the job: it follows as soon as the numbers of a key are painted.
    pub findings: RwSignal<Vec<Finding>>,
    /// What is known of the maps of whether its pieces crack.
    pub verdicts: Verdicts,
    of_chosen: Memo<Option<Arc<PieceEstimate>>>,
    /// Its units: read everywhere, changed hardly ever, so not by way of the whole job.
    of_units: Memo<Units>,
    /// Index of the piece that is shown.
    pub piece: RwSignal<usize>,
    /// The part of it that is selected.
    pub part: RwSignal<Selection>,
    /// The id of the field that has the focus.
    pub focus: RwSignal<Option<String>>,
    /// There is a change to take back.
    pub can_undo: RwSignal<bool>,
    /// There is a change to make again.
    pub can_redo: RwSignal<bool>,
    /// What slides over the screen.
    pub sheet: RwSignal<Option<Overlay>>,
    /// The line at the bottom.
    pub notice: RwSignal<Option<Notice>>,
    /// Whether what was typed is kept.
    pub keeping: RwSignal<Keeping>,
    /// How much of what is kept is on disk.
    pub on_disk: RwSignal<OnDisk>,
    /// What became of the files imported in, newest first.
    pub imported: RwSignal<Vec<String>>,
    /// A backup on its way in.
    pub bringing: Bringing,
    pub(super) keeper: StoredValue<super::keeper::Keeper, LocalStorage>,
}

impl Deref for Desk {
    type Target = Front;

    fn deref(&self) -> &Front {
        &self.front
    }
}

impl Desk {
    /// An empty desk.
    pub fn new(front: Front) -> Self {
        let job = RwSignal::new(Job::new("", Units::Inch));
        let prices = RwSignal::new(PriceBook::default());
        let estimator = Arc::new(Mutex::new(Estimator::default()));
        let again = estimator.clone();
        let piece = RwSignal::new(0);
        let cast = Memo::new_with_compare(
            move |_| job.with(|job| with(&estimator, |estimator| estimator.cast(job))),
            |before, now| !is_same(before, now),
        );
        let chosen =
            move |_: Option<&Option<Arc<PieceEstimate>>>| cast.with(|cast| cast.pieces.get(piece.get()).cloned());
        Self {
            front,
            route: RwSignal::new(Route::Shelf),
            job,
            prices,
            bags: RwSignal::new(Vec::new()),
            cast,
            of_chosen: Memo::new_with_compare(chosen, |before, now| {
                !is_same(before.and_then(Option::as_ref), now.and_then(Option::as_ref))
            }),
            estimate: Memo::new(move |_| {
                job.with(|job| prices.with(|prices| with(&again, |estimator| estimator.estimate(job, prices))))
            }),
            findings: RwSignal::new(Vec::new()),
            verdicts: Verdicts::new(),
            of_units: Memo::new(move |_| job.with(|job| job.units)),
            piece,
            part: RwSignal::new(Selection::Size),
            focus: RwSignal::new(None),
            can_undo: RwSignal::new(false),
            can_redo: RwSignal::new(false),
            sheet: RwSignal::new(None),
            notice: RwSignal::new(None),
            keeping: RwSignal::new(Keeping::Kept),
            on_disk: RwSignal::new(OnDisk::Soon),
            imported: RwSignal::new(Vec::new()),
            bringing: Bringing::new(),
            keeper: StoredValue::new_local(super::keeper::Keeper::default()),
        }
    }

    /// Shows that screen.
    pub fn show(self, route: Route) {
        self.shown.set(if route == Route::Shelf { Shown::Shelf } else { Shown::Workshop });
        self.route.set(route);
    }

    /// What follows for the piece with that index; nothing if there is none.
    pub fn known(self, piece: usize) -> Option<Arc<PieceEstimate>> {
        self.cast.with(|cast| cast.pieces.get(piece).cloned())
    }

    /// What follows for the chosen piece.
    pub fn chosen(self) -> Option<Arc<PieceEstimate>> {
        self.of_chosen.get()
    }

    /// Notes the step and works out what the maker should know, once what a key changed is painted: nobody waits
    /// for either.
    pub(super) fn look_after_painting(self) {
        if self.keeper().looks.replace(true) {
            return;
        }
        dom::after_painting(move || {
            self.keeper().looks.set(false);
            self.note_history();
            let found = untrack(|| self.verdicts.findings(self));
            if self.findings.with_untracked(|before| *before != found) {
                self.findings.set(found);
            }
        });
    }

    /// The units of the open job.
    pub fn units(self) -> Units {
        self.of_units.get()
    }

    /// Types into a field of the job.
    pub fn type_into(self, place: FieldPath, text: String) {
        let typed = |job: &mut Job| match job.entry_at_mut(place) {
            Some(entry) if entry.text() != text => {
                *entry = Entry(text);
                true
            }
            _ => false,
        };
        self.job.maybe_update(typed);
    }

    /// Changes the chosen piece; gives what the change gives, or nothing if there is no piece or a file could not hold
    /// it then.
    pub fn edit_piece<T>(self, change: impl FnOnce(&mut Piece) -> T) -> Option<T> {
        let index = self.piece.get_untracked();
        self.grow(|job| job.pieces.get_mut(index).map(change)).flatten()
    }

    /// Changes the job, unless a file could not hold what it becomes: then it stays, and the page says why.
    pub fn grow<T>(self, change: impl FnOnce(&mut Job) -> T) -> Option<T> {
        let (mut change, mut gives) = (Some(change), None);
        let grown = self.grow_by(&mut |job| gives = change.take().map(|change| change(job)));
        gives.filter(|_| grown)
    }

    /// The same without types of its own: it is in the page once, and not once for every button.
    fn grow_by(self, change: &mut dyn FnMut(&mut Job)) -> bool {
        let mut grown = self.job.get_untracked();
        change(&mut grown);
        if let Some(FileError::TooMany { list, most, .. }) = grown.too_many() {
            let says =
                format!("A job holds at most {most} {list}, so no more is added. Make another job for the rest.");
            self.tell(&says, None);
            return false;
        }
        self.job.set(grown);
        true
    }

    /// Adds a piece of the same mix and thickness, and chooses it.
    pub fn add_piece(self) {
        let index = self.grow(|job| {
            let like = job.pieces.last().map(|piece| (piece.bag.clone(), piece.thickness.clone()));
            let name = format!("Piece {}", job.pieces.len() + 1);
            let bag = like.as_ref().map_or_else(String::new, |(bag, _)| bag.clone());
            let mut piece = Piece::new(&name, &bag, job.units);
            if let Some((_, thickness)) = like {
                piece.thickness = thickness;
            }
            job.pieces.push(piece);
            job.pieces.len() - 1
        });
        let Some(index) = index else { return };
        self.piece.set(index);
        self.part.set(Selection::Size);
    }

    /// Adds a piece of that kind to go with the chosen one, and chooses it.
    pub fn add_beside(self, kind: PieceKind) {
        let chosen = self.piece.get_untracked();
        let look = match kind {
            PieceKind::Backsplash => Facing::Back,
            PieceKind::Apron | PieceKind::Top => Facing::Front,
            PieceKind::SideSplash | PieceKind::WaterfallLeg => Facing::Right,
        };
        let side = self.estimate.with_untracked(|all| all.pieces.get(chosen)?.top.side_towards(look));
        let index = self.grow(|job| {
            let units = job.units;
            let top = job.pieces.get_mut(chosen)?;
            let along = side.map(|(_, length)| write_length(length, units));
            let piece = top.beside(kind, along.as_ref().map(Written::bare), units);
            if let (PieceKind::Backsplash | PieceKind::SideSplash, Some((side, _))) = (kind, side) {
                top.edge_mut(side).kind = EdgeKind::Backsplash;
            }
            job.pieces.push(piece);
            Some(job.pieces.len() - 1)
        });
        if let Some(index) = index.flatten() {
            self.piece.set(index);
            self.part.set(Selection::Size);
        }
    }

    /// Removes the chosen piece; it can be had back.
    pub fn remove_piece(self) {
        let index = self.piece.get_untracked();
        let before = self.job.get_untracked();
        if index >= before.pieces.len() || before.pieces.len() < 2 {
            return;
        }
        self.part.set(Selection::Size);
        self.piece.set(0);
        self.job.update(|job| {
            job.pieces.remove(index);
        });
        self.tell("Piece removed.", Some(("Undo", Arc::new(move || self.job.set(before.clone())))));
    }

    /// Changes a bag of the job.
    pub fn edit_bag(self, index: usize, change: impl FnOnce(&mut Bag)) {
        self.grow(|job| job.bags.get_mut(index).map(change));
    }

    /// Casts the chosen piece from the bag with that id: the job's own copy, else a copy of the maker's
    /// own, else of the catalogue's.
    pub fn choose_bag(self, id: &str) {
        let units = self.units();
        let own = self.bags.with(|bags| bags.iter().find(|bag| bag.id == id).cloned());
        let found = own.or_else(|| catalogue(units).into_iter().find(|bag| bag.id == id));
        let piece = self.piece.get_untracked();
        self.grow(|job| {
            if job.bag(id).is_none() {
                let Some(bag) = found else { return };
                job.bags.push(bag);
            }
            if let Some(piece) = job.pieces.get_mut(piece) {
                piece.bag = id.to_owned();
            }
        });
    }

    /// The maker's own bags hold other figures under the same id as the job's bag.
    pub fn shelf_differs(self, index: usize) -> bool {
        self.job.with(|job| {
            let Some(bag) = job.bags.get(index) else { return false };
            self.bags.with(|bags| bags.iter().any(|own| own.id == bag.id && own != bag))
        })
    }

    /// The maker's own bags hold one with the id of the job's bag.
    pub fn is_own_bag(self, index: usize) -> bool {
        self.job.with(|job| {
            let Some(bag) = job.bags.get(index) else { return false };
            self.bags.with(|bags| bags.iter().any(|own| own.id == bag.id))
        })
    }

    /// Takes the job's bag out of the maker's own; jobs keep their copies.
    pub fn drop_own_bag(self, index: usize) {
        let Some(id) = self.job.with_untracked(|job| job.bags.get(index).map(|bag| bag.id.clone())) else { return };
        let before = self.bags.get_untracked();
        if !self.edit_bags(|bags| bags.retain(|own| own.id != id)) {
            return;
        }
        let undo = Arc::new(move || {
            self.edit_bags(|bags| bags.clone_from(&before));
        });
        self.tell("Taken out of your bags. This job keeps its copy.", Some(("Undo", undo)));
    }

    /// The job takes the figures of the maker's own bag.
    pub fn take_shelf_bag(self, index: usize) {
        let own = self.job.with_untracked(|job| {
            let id = &job.bags.get(index)?.id;
            self.bags.with_untracked(|bags| bags.iter().find(|own| own.id == *id).cloned())
        });
        if let Some(own) = own {
            self.edit_bag(index, |bag| *bag = own);
        }
    }

    /// Keeps the job's bag among the maker's own. A bag of the catalogue becomes one of the maker's,
    /// so that the catalogue stays as it is.
    pub fn keep_bag(self, index: usize) {
        let Some(mut bag) = self.job.with_untracked(|job| job.bags.get(index).cloned()) else { return };
        let of_catalogue =
            [Units::Inch, Units::Metric].into_iter().flat_map(catalogue).any(|listed| listed.id == bag.id);
        if of_catalogue {
            let (old, new) = (bag.id.clone(), crate::store::browser::random_id());
            bag.id.clone_from(&new);
            self.job.update(|job| {
                job.bags[index].id.clone_from(&new);
                for piece in job.pieces.iter_mut().filter(|piece| piece.bag == old) {
                    piece.bag.clone_from(&new);
                }
            });
        }
        let kept = self.edit_bags(|bags| match bags.iter_mut().find(|own| own.id == bag.id) {
            Some(own) => *own = bag,
            None => bags.push(bag),
        });
        if kept {
            self.tell("Kept in your bags, for every job.", None);
        }
    }

    /// Changes what a bare number is read in, and the meaning of nothing.
    pub fn change_units(self, units: Units) {
        self.job.update(|job| job.change_units(units));
    }

    /// Types into several fields at once: one change, to be taken back as one.
    pub fn type_all(self, typed: Vec<(FieldPath, String)>) {
        self.job.update(|job| {
            for (place, text) in typed {
                if let Some(entry) = job.entry_at_mut(place) {
                    *entry = Entry(text);
                }
            }
        });
    }

    /// Says something at the bottom for a while.
    pub fn tell(self, says: &str, action: Option<(&'static str, Action)>) {
        self.notice.set(Some(Notice { says: says.to_owned(), action }));
        self.keeper.with_value(|keeper| {
            let turn = keeper.next_notice();
            let keeper = keeper.clone();
            set_timeout(
                move || {
                    if keeper.last_notice() == turn {
                        self.notice.set(None);
                    }
                },
                std::time::Duration::from_secs(8),
            );
        });
    }

    /// Goes to a field, wherever it is shown.
    pub fn go_to(self, place: FieldPath) {
        if let Some(piece) = place.piece() {
            self.piece.set(piece);
        }
        match place {
            FieldPath::Edge(_, side, _) => self.part.set(Selection::Edge(side)),
            FieldPath::Cutout(_, index, _) | FieldPath::Template(_, index, ..) => {
                self.part.set(Selection::Cutout(index))
            }
            // The doors are shown with every cutout.
            FieldPath::Door(..) if matches!(self.part.get_untracked(), Selection::Cutout(_)) => {}
            FieldPath::Door(..) => self.part.set(Selection::Cutout(0)),
            FieldPath::Holes(_, index, _) => self.part.set(Selection::Holes(index)),
            FieldPath::Corner(_, side, _) => self.part.set(Selection::Corner(side)),
            FieldPath::Piece(..)
            | FieldPath::Leg(..)
            | FieldPath::Opening(..)
            | FieldPath::Reading(..)
            | FieldPath::Station(..) => {
                self.part.set(Selection::Size);
            }
            FieldPath::Bag(index, _) | FieldPath::Recipe(index, _) => self.show_bag(index),
            _ => {}
        }
        self.go(Route::Job(place.stage()));
        dom::focus_on(place.key());
    }

    /// Chooses a piece that is cast from that bag, so that its fields are there.
    fn show_bag(self, index: usize) {
        let piece = self.job.with_untracked(|job| {
            let id = &job.bags.get(index)?.id;
            job.pieces.iter().position(|piece| piece.bag == *id)
        });
        if let Some(piece) = piece {
            self.piece.set(piece);
        }
    }

    /// The shared file of the open job: its name and its text.
    pub fn paper(self) -> (String, String) {
        untrack(|| self.job.with(|job| paper::page(job, &self.whole(), &dom::today())))
    }

    /// The open job as plain text.
    pub fn words(self) -> String {
        untrack(|| self.job.with(|job| paper::words(job, &self.whole(), &dom::today())))
    }

    /// Everything that follows from the job, what is known of its maps among the findings.
    pub fn whole(self) -> Estimate {
        Estimate { findings: self.verdicts.findings(self), ..self.estimate.get() }
    }

    /// Opens the worked job.
    pub fn open_demo(self) {
        self.open_new(demo(&crate::store::browser::random_id()));
    }

    /// Opens a job with nothing measured yet, in the units of the last one.
    pub fn new_job(self) {
        self.open_new(Job::new(&crate::store::browser::random_id(), self.job.with_untracked(|job| job.units)));
        dom::focus_on(FieldPath::Piece(0, crate::job::PieceField::Width).key());
    }
}

/// Nothing shown can have changed: it is the very same thing.
fn is_same<T>(before: Option<&Arc<T>>, now: Option<&Arc<T>>) -> bool {
    match (before, now) {
        (Some(before), Some(now)) => Arc::ptr_eq(before, now),
        (None, None) => true,
        _ => false,
    }
}

fn with<T>(estimator: &Mutex<Estimator>, answer: impl FnOnce(&mut Estimator) -> T) -> T {
    answer(&mut estimator.lock().unwrap_or_else(PoisonError::into_inner))
}
