//! What is typed and chosen for steel, read once: the only file of the room that knows the job.

use crate::job::read::{self, optional, positive_length};
use crate::job::{BarSize, FieldPath, Job, Lath, PieceField, SteelField};
use crate::measure::{Length, Mass, Units};
use crate::working::Known;

/// What the steel of one piece follows from, beside its geometry and what is cast.
#[derive(Clone, Debug, PartialEq)]
pub struct SteelInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// Lath, by its weight class.
    pub lath: Lath,
    /// Layers of lath; a blank counts as one.
    pub layers: Known<u32>,
    /// Width of a sheet of lath as bought, more than nothing. Lath waits for it.
    pub lath_width: Known<Length>,
    /// Length of a sheet of lath as bought, more than nothing. Lath waits for it.
    pub lath_length: Known<Length>,
    /// How far one sheet of lath laps over the next. Lath waits for it.
    pub lap: Known<Length>,
    /// How far lath and the ends of bars stay off every edge and cutout. Steel waits for it.
    pub off_edges: Known<Length>,
    /// Bars along the rails beside cutouts.
    pub bars: BarSize,
    /// Height of the bars' centre line over the face as cast; nothing where they lie at mid-depth, as a blank says.
    pub bar_height: Known<Option<Length>>,
    /// Bars go along rails that are no wider than this; nothing where every rail beside a cutout has one, as a blank
    /// says.
    pub rails_to: Known<Option<Length>>,
    /// Steel as weighed; nothing where it is worked out from lath and bars, as a blank says.
    pub weighed: Known<Option<Mass>>,
    /// The tables of bars: of inches, or soft metric.
    pub units: Units,
}

impl SteelInputs {
    /// What is typed for the steel of the piece with that index; of no piece, no steel.
    ///
    /// ```
    /// use pourwright::job::Job;
    /// use pourwright::measure::Units;
    /// use pourwright::steel::SteelInputs;
    ///
    /// let mut job = Job::new("a", Units::Inch);
    /// job.pieces[0].reinforcement.layers = "".into();
    /// assert_eq!(SteelInputs::read(&job, 0).layers, Ok(1), "a blank counts as one");
    /// ```
    pub fn read(job: &Job, piece: usize) -> Self {
        let steel = job.pieces.get(piece).map(|piece| &piece.reinforcement);
        let place = |field| FieldPath::Steel(piece, field);
        let maybe = |field| optional(job, place(field), read::length);
        Self {
            piece,
            lath: steel.map_or(Lath::None, |steel| steel.lath),
            layers: read::or_usual(job, place(SteelField::Layers), read::count),
            lath_width: positive_length(job, place(SteelField::LathWidth)),
            lath_length: positive_length(job, place(SteelField::LathLength)),
            lap: read::length(job, place(SteelField::Lap)),
            off_edges: read::length(job, place(SteelField::OffEdges)),
            bars: steel.map_or(BarSize::None, |steel| steel.bars),
            bar_height: maybe(SteelField::BarHeight),
            rails_to: maybe(SteelField::RailsTo),
            weighed: optional(job, FieldPath::Piece(piece, PieceField::Steel), read::mass),
            units: job.units,
        }
    }
}
