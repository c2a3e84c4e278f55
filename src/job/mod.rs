//! The job: what was measured and chosen, as it was typed. Nothing here is derived.
//!
//! A [`Job`] alone is saved and shared; see [`mod@file`] for its form on disk. Its measured fields are
//! [`Entry`]s, found by their [`FieldPath`]; what they mean is read by [`read`].
//!
//! Conventions of every piece: it is seen from above as installed, the front edge at the bottom.
//! Positions are measured from its left end and from its front edge unless they say otherwise, to centre lines;
//! ends and edges are those of the outline's bounds.

mod bag;
mod build;
mod cutout;
mod entry;
pub mod file;
mod finish;
mod opening;
mod piece;
mod place;
mod pour;
mod quote;
pub mod read;
mod recipe;
mod schema;
mod sides;
mod stage;
mod strength;
mod trace;
pub(crate) mod upgrade;
pub mod usual;

pub use bag::{Additive, AdditiveField, Bag, BagField, Family, LabelClass, StrengthField, StrengthPoint};
pub use build::{
    BarSize, Bend, FormChoices, FormFace, FormField, Lath, Layer, LayerField, LayerOf, LowSide, Reinforcement,
    SheetField, SheetStock, SideStand, SteelField,
};
pub use cutout::{
    AcrossFrom, AlongFrom, Cutout, CutoutField, CutoutShape, Door, DoorField, HolePattern, Holes, HolesField,
    HolesFrom, Reveal, TemplateCorner, TemplateField,
};
pub use entry::{Entry, Kind};
pub use finish::{
    DefectEntry, DefectField, DefectKind, Exposure, FinishChoices, FinishField, GrindingWay, Grip, LiftLevel, Reach,
    SealKind, Sheen, Turn,
};
pub use opening::{Measured, Opening, OpeningField, OpeningReading, OpeningWalls, ReadingField, Station, StationField};
pub use piece::{
    Corner, CornerField, CornerKind, Edge, EdgeField, EdgeKind, Hand, Leg, LegField, OutlineShape, Piece, PieceField,
    PieceKind,
};
pub use place::FieldPath;
pub use pour::{Logged, PourDay, PourField, PourStep, Spell, SpellField};
pub use quote::{
    BookField, FrozenQuote, HoursField, QuoteChoices, QuoteField, QuoteLine, QuoteOption, Task, TaskHours,
};
pub use recipe::{AirFor, Recipe, RecipeField, RecipeKind};
pub use schema::{Amount, FieldSpec, Usual};
pub use stage::Stage;
pub use strength::{Back, Carried, Handling, HandlingField, Rest, SinkBay, Stripped, Travels};

use schema::entries;
use serde::{Deserialize, Serialize};

pub use crate::measure::Units;

/// When a piece is too much for one: the maker's own limits.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seams {
    /// The longest piece; blank counts as the usual one.
    pub longest: Entry,
    /// The heaviest piece as it comes out of the form; blank counts as no limit.
    pub heaviest: Entry,
}

entries! {
    /// The entries of [`Seams`].
    SeamField of Seams {
        /// The longest piece.
        Longest => longest, Length, "longest", "Longest piece", hint "A longer piece gets a seam suggested.";
        /// The heaviest piece as it comes out of the form.
        Heaviest => heaviest, Mass, "heaviest", "Heaviest piece", hint "Out of the form. Blank: no limit.";
    }
}

impl Seams {
    /// The usual limits: common practice, no source.
    pub fn new(units: Units) -> Self {
        Self { longest: Entry::new(if units == Units::Metric { "2.4 m" } else { "8 ft" }), heaviest: Entry::default() }
    }
}

/// One job: a top, or several pieces, for one client. What is typed is kept to the letter and read when it is needed.
///
/// ```
/// use pourwright::job::{FieldPath, Job, PieceField, file, read};
/// use pourwright::measure::Units;
///
/// let mut job = Job::new("a", Units::Inch);
/// job.pieces[0].width = "67 1/".into();
/// let width = FieldPath::Piece(0, PieceField::Width);
/// assert!(read::length(&job, width).is_err(), "half typed");
/// let text = file::write(&job);
/// assert_eq!(file::read(&text).unwrap(), job, "and still saved as it stands");
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Job {
    /// Told apart from every other job by this, across browsers; never shown.
    pub id: String,
    /// What the maker calls it.
    pub name: Entry,
    /// For whom.
    pub client: Entry,
    /// Anything else.
    pub notes: Entry,
    /// The unit a bare number takes, and the units that results are written in.
    pub units: Units,
    /// The pieces to cast; may be empty.
    pub pieces: Vec<Piece>,
    /// Copies of the bags that the pieces refer to, so that the job stands on its own.
    pub bags: Vec<Bag>,
    /// Form choices that hold for every piece.
    pub form: FormChoices,
    /// Hands, vessel and weather.
    pub pour: PourDay,
    /// When a piece is better split.
    pub seams: Seams,
    /// Grinding, sealing, carrying, setting.
    pub finish: FinishChoices,
    /// The offer.
    pub quote: QuoteChoices,
}

entries! {
    /// The entries of [`Job`] itself.
    JobField of Job {
        /// What the maker calls it.
        Name => name, Text, "name", "Job";
        /// For whom.
        Client => client, Text, "client", "Client";
        /// Anything else.
        Notes => notes, Text, "notes", "Notes";
    }
}

impl Job {
    /// A new job with one empty piece that is cast from that bag, and the usual choices, to be told apart by `id`.
    pub fn cast_from(bag: Bag, id: &str, units: Units) -> Self {
        Self {
            id: id.to_owned(),
            name: Entry::default(),
            client: Entry::default(),
            notes: Entry::default(),
            units,
            pieces: vec![Piece::new("Top", &bag.id, units)],
            bags: vec![bag],
            form: FormChoices::new(units),
            pour: PourDay::new(units),
            seams: Seams::new(units),
            finish: FinishChoices::default(),
            quote: QuoteChoices::default(),
        }
    }

    /// The job's copy of the bag with that id, and its index.
    pub fn bag(&self, id: &str) -> Option<(usize, &Bag)> {
        self.bags.iter().enumerate().find(|(_, bag)| bag.id == id)
    }
}
