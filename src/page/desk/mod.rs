//! The desk: what every screen shares. One signal holds the job; everything shown follows from it.
//!
//! Its owners stand one on the other, and none knows a screen: what lies over a screen ([`notices`]), the open job and its
//! steps back ([`open`], [`history`]), where everything is kept ([`stored`], [`again`]), prices and bags ([`own`],
//! [`bags`]), what follows from the job ([`worked`], [`verdicts`]), its saving ([`keeper`]), the shelf ([`jobs`]), which
//! screen is shown ([`route`]), what is given and brought ([`giving`], [`bringing`]), and what happens elsewhere
//! ([`elsewhere`]).

pub mod again;
pub mod bags;
pub mod bringing;
pub mod elsewhere;
pub mod giving;
pub mod history;
pub mod jobs;
pub mod keeper;
pub mod notices;
pub mod open;
pub mod own;
pub mod place;
pub mod route;
pub mod stored;
pub mod verdicts;
pub mod worked;

pub use keeper::Keeping;
pub use notices::{Action, Overlay};
pub use route::Route;

use super::dom;
use super::front::{Front, Shown};
use crate::draw::Selection;
use crate::estimate::{Cast, Estimate};
use crate::job::{FieldPath, Piece, PieceKind};
use crate::measure::Units;
use crate::price::PriceBook;
use crate::top::Facing;
use again::Again;
use bags::Bags;
use bringing::Bringing;
use elsewhere::Elsewhere;
use giving::Giving;
use jobs::Jobs;
use keeper::Keeper;
use leptos::prelude::*;
use notices::Notices;
use open::OpenJob;
use own::Own;
use route::Way;
use std::ops::Deref;
use std::sync::Arc;
use stored::Stored;
use worked::Worked;

/// Everything the screens share: the owners, and the handles that most screens read. Copied freely. What an owner
/// promises stands with it; the desk holds nothing of its own.
#[derive(Clone, Copy)]
pub struct Desk {
    /// What it shares with the shelf.
    front: Front,
    /// The open job, as typed.
    pub job: OpenJob,
    /// Index of the piece that is shown.
    pub piece: RwSignal<usize>,
    /// The part of it that is selected.
    pub part: RwSignal<Selection>,
    /// What follows from the job.
    pub worked: Worked,
    /// What is cast: all that most screens show.
    pub cast: Memo<Arc<Cast>>,
    /// Everything that follows from the job, for the screens that read it.
    pub estimate: Memo<Estimate>,
    /// The maker's prices.
    pub prices: Own<PriceBook>,
    /// The maker's own bags.
    pub bags: Bags,
    /// Which screen is shown.
    pub way: Way,
    /// The id of the field that has the focus.
    pub focus: RwSignal<Option<String>>,
    /// What lies over the screen.
    pub notices: Notices,
    /// Where everything is kept.
    pub stored: Stored,
    /// The saving of the open job.
    pub keeper: Keeper,
    /// The jobs of the shelf.
    pub jobs: Jobs,
    /// What is given away.
    pub giving: Giving,
    /// What is brought in.
    pub bringing: Bringing,
    elsewhere: Elsewhere,
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
        let (notices, again, stored) = (Notices::new(), Again::new(), Stored::new());
        let job = OpenJob::new(notices);
        let prices = Own::new(stored, again, notices);
        let bags = Bags::new(Own::new(stored, again, notices), job, notices);
        let worked = Worked::new(front, job, *prices);
        let keeper = Keeper::new(front, job, worked, stored, again);
        let jobs = Jobs::new(front, job, keeper, stored, again, notices);
        let way = Way::new(front, job, keeper, jobs, stored, notices);
        Self {
            front,
            job,
            piece: job.piece,
            part: job.part,
            worked,
            cast: worked.cast,
            estimate: worked.estimate,
            prices,
            bags,
            way,
            focus: way.focus,
            notices,
            stored,
            keeper,
            jobs,
            giving: Giving::new(stored, notices),
            bringing: Bringing::new(stored, jobs, bags, prices, notices),
            elsewhere: Elsewhere { front, stored, keeper, jobs, bags, prices, way, again, notices },
        }
    }

    /// Opens the storage, shows what the address asks for, and from then on keeps what is typed.
    pub fn wake(self) {
        self.elsewhere.open_storage();
        self.bags.load();
        self.prices.load();
        self.way.wake();
        self.elsewhere.wake();
        self.job.watch_keys();
        self.worked.verdicts.wake();
        Effect::new(move |_| {
            self.job.track();
            self.keeper.note_change();
        });
        Effect::new(move |_| {
            self.job.track();
            self.prices.track();
            self.worked.verdicts.answers().track();
            // With no job open yet there is nothing to look at.
            if self.shown.get() == Shown::Workshop {
                self.worked.look_after_painting();
            }
        });
    }

    /// The units of the open job.
    pub fn units(self) -> Units {
        self.job.units()
    }

    /// Types into a field of the job.
    pub fn type_into(self, place: FieldPath, text: String) {
        self.job.type_into(place, text);
    }

    /// Changes the chosen piece, as [`OpenJob::edit_piece`] does.
    pub fn edit_piece<T>(self, change: impl FnOnce(&mut Piece) -> T) -> Option<T> {
        self.job.edit_piece(change)
    }

    /// Adds a piece of that kind to go with the chosen one, and chooses it.
    pub fn add_beside(self, kind: PieceKind) {
        let look = match kind {
            PieceKind::Backsplash => Facing::Back,
            PieceKind::Apron | PieceKind::Top => Facing::Front,
            PieceKind::SideSplash | PieceKind::WaterfallLeg => Facing::Right,
        };
        self.job.add_beside(kind, self.worked.side_towards(look));
    }

    /// Says something at the bottom for a while.
    pub fn tell(self, says: &str, action: Option<(&'static str, Action)>) {
        self.notices.tell(says, action);
    }

    /// Goes to a screen, so that the browser's back button comes back from it.
    pub fn go(self, route: Route) {
        self.way.go(route);
    }

    /// Goes to a field, wherever it is shown.
    pub fn go_to(self, place: FieldPath) {
        if let Some(piece) = place.piece().or_else(|| self.piece_of_bag(place)) {
            self.piece.set(piece);
        }
        if let Some(part) = place::part_of(place, self.part.get_untracked()) {
            self.part.set(part);
        }
        self.go(Route::Job(place.stage()));
        dom::focus_on(place.key());
    }

    /// A piece that is cast from the bag that has the field, so that the field is there.
    fn piece_of_bag(self, place: FieldPath) -> Option<usize> {
        let (FieldPath::Bag(index, _) | FieldPath::Recipe(index, _)) = place else { return None };
        self.job.with_untracked(|job| {
            let id = &job.bags.get(index)?.id;
            job.pieces.iter().position(|piece| piece.bag == *id)
        })
    }
}
