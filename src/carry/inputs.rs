//! What was typed and chosen about carrying and setting, read once.

use super::Passage;
use super::lift::{Choices, Level, Often};
use crate::job::read;
use crate::job::{EdgeKind, FieldPath, FinishField, Job, LiftLevel, OpeningField, OutlineShape, PieceField, PieceKind};
use crate::measure::{Length, Units};
use crate::working::{Known, Waiting, all, together};

/// What carrying one piece follows from, besides its geometry, its mix and its steel.
#[derive(Clone, Debug, PartialEq)]
pub struct CarryInputs {
    /// The system of units: the published load constants of both differ.
    pub units: Units,
    /// The piece is a top, which a cabinet carries.
    pub is_top: bool,
    /// The lift as chosen. Lifts an hour that are blank count as one in five minutes.
    pub lift: Known<Choices>,
    /// The sizes of every tight place on the way of which at least one is typed, in the order of
    /// [`Passage::fields`].
    pub passages: Vec<(Passage, Known<Vec<Length>>)>,
    /// What is waited for where the sizes of the piece give no load.
    pub no_load: Waiting,
}

/// What setting a job follows from, besides the geometry of its pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingInputs {
    /// Its pieces, in the order of the job.
    pub pieces: Vec<SetPiece>,
    /// Across a squeezed dab of adhesive; the usual one where that is blank.
    pub dab_width: Known<Length>,
    /// The height of a squeezed dab; the usual one where that is blank.
    pub dab_height: Known<Length>,
    /// From one dab to the next; the usual spacing where that is blank.
    pub dab_spacing: Known<Length>,
    /// How deep caulk goes in; the usual depth where that is blank.
    pub gap_depth: Known<Length>,
    /// Shims to have at hand; nothing where that is blank.
    pub shims: Known<Option<u32>>,
    /// What is waited for where sizes give no adhesive.
    pub no_adhesive: Waiting,
    /// What is waited for where sizes give no caulk.
    pub no_caulk: Waiting,
}

/// What setting one piece follows from.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPiece {
    /// It is a top, which is glued to a cabinet.
    pub is_top: bool,
    /// Whether a side stands against a wall or carries a backsplash, by the number of the side.
    pub at_wall: Vec<bool>,
    /// The gap at its walls as typed for the job; else the clearance that was left when its opening was measured; else
    /// the usual one.
    pub gap_width: Known<Length>,
}

impl CarryInputs {
    /// Reads what carrying the piece with that index follows from.
    pub fn read(job: &Job, piece: usize) -> Self {
        let place = FieldPath::Piece(piece, PieceField::Width);
        Self {
            units: job.units,
            is_top: is_top(job, piece),
            lift: lift(job),
            passages: Passage::ALL.iter().filter_map(|way| Some((*way, sizes(*way, job)?))).collect(),
            no_load: nothing(place),
        }
    }
}

impl SettingInputs {
    /// Reads what setting the job follows from.
    pub fn read(job: &Job) -> Self {
        let pieces = job.pieces.iter().enumerate().map(|(index, piece)| SetPiece {
            is_top: is_top(job, index),
            at_wall: (0..piece.sides())
                .map(|side| matches!(piece.edge(side).kind, EdgeKind::Wall | EdgeKind::Backsplash))
                .collect(),
            gap_width: gap_width(job, index),
        });
        let usual = |field| read::or_usual(job, FieldPath::Finish(field), read::positive_length);
        Self {
            pieces: pieces.collect(),
            dab_width: usual(FinishField::DabWidth),
            dab_height: usual(FinishField::DabHeight),
            dab_spacing: usual(FinishField::DabSpacing),
            gap_depth: usual(FinishField::GapDepth),
            shims: read::optional(job, FieldPath::Finish(FinishField::Shims), read::count),
            no_adhesive: nothing(FieldPath::Finish(FinishField::DabSpacing)),
            no_caulk: nothing(FieldPath::Finish(FinishField::GapWidth)),
        }
    }
}

fn lift(job: &Job) -> Known<Choices> {
    let level = |level, field| match level {
        LiftLevel::Floor => Ok(Level::Floor),
        LiftLevel::Stand => Ok(Level::Stand),
        LiftLevel::Bench => Ok(Level::Bench),
        LiftLevel::Measured => read::length(job, FieldPath::Finish(field)).map(Level::Height),
    };
    let chosen = &job.finish;
    let (from, to, often) = together((
        level(chosen.lift_from, FinishField::FromHeight),
        level(chosen.lift_to, FinishField::ToHeight),
        read::optional(job, FieldPath::Finish(FinishField::LiftsAnHour), read::count),
    ))?;
    // Less than once in five minutes counts as that.
    let often = often.map_or(Often::Once, |count| Often::Times(f64::from(count) / 60.0));
    Ok(Choices { from, to, reach: chosen.reach, turn: chosen.turn, often, grip: chosen.grip })
}

/// The sizes of a tight place; nothing while none is typed.
fn sizes(passage: Passage, job: &Job) -> Option<Known<Vec<Length>>> {
    let fields = passage.fields();
    if fields.iter().all(|field| job.finish.entry(*field).is_blank()) {
        return None;
    }
    Some(all(fields.iter().map(|field| read::positive_length(job, FieldPath::Finish(*field)))))
}

fn is_top(job: &Job, piece: usize) -> bool {
    job.pieces.get(piece).is_some_and(|typed| typed.kind == PieceKind::Top)
}

fn gap_width(job: &Job, piece: usize) -> Known<Length> {
    let place = FieldPath::Finish(FinishField::GapWidth);
    if let Some(typed) = read::optional(job, place, read::positive_length)? {
        return Ok(typed);
    }
    if job.pieces.get(piece).is_none_or(|typed| typed.shape != OutlineShape::Opening) {
        return read::usual(job, place);
    }
    let clearance = read::optional(job, FieldPath::Opening(piece, OpeningField::Clearance), read::length)?;
    clearance.filter(|length| length.value > 0.0).map_or_else(|| read::usual(job, place), Ok)
}

fn nothing(place: FieldPath) -> Waiting {
    Waiting::named(place, "this gives nothing to work with.")
}
