//! What is typed and chosen for forms, read once: the only file of the room that knows the job.

use crate::job::read::{self, optional, positive_length, positive_volume};
use crate::job::{Bend, FieldPath, FormField, Hand, Job, LowSide, OutlineShape, Piece, PieceField, SideStand};
use crate::measure::{Length, Volume};
use crate::working::Known;

/// What the maker calls a piece and its sides.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PieceNames {
    /// The piece's name and a colon where the job has several pieces, else nothing.
    pub prefix: String,
    /// The words for its sides, in order: "Front".
    pub sides: Vec<String>,
}

impl PieceNames {
    /// The names of the piece with that index.
    pub fn read(job: &Job, piece: usize) -> Self {
        let sides = |typed: &Piece| (0..typed.sides()).map(|side| typed.side_name(side)).collect();
        Self { prefix: read::piece_prefix(job, piece), sides: job.pieces.get(piece).map_or_else(Vec::new, sides) }
    }

    /// The word for a side: "Front".
    pub fn side(&self, side: usize) -> String {
        self.sides.get(side).cloned().unwrap_or_else(|| format!("Side {}", side + 1))
    }

    /// The word for the corner where a side begins: "Left / front corner".
    pub fn corner(&self, side: usize) -> String {
        let sides = self.sides.len().max(1);
        let before = self.side((side + sides - 1) % sides);
        format!("{before} / {} corner", self.side(side).to_lowercase())
    }
}

/// What the forms of a job are built of.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardInputs {
    /// Thickness of base and sides, more than nothing. A form waits for it.
    pub board: Known<Length>,
    /// How the sides meet the base.
    pub sides: SideStand,
    /// How the side along an arc is made.
    pub bend: Bend,
    /// Thickness of the strip that is bent along an arc, more than nothing. A bent side waits for it.
    pub strip: Known<Length>,
    /// The tightest radius that the strip bends to without kerfs, more than nothing. A bent side waits for it.
    pub strip_bend: Known<Length>,
    /// The saw's kerf in a strip that is bent. A bent side waits for it.
    pub kerf: Known<Length>,
    /// The same kerf between parts that are cut from sheets; a blank counts as nothing there.
    pub kerf_of_sheets: Known<Length>,
}

impl BoardInputs {
    /// What the forms of that job are built of.
    pub fn read(job: &Job) -> Self {
        let form = FieldPath::Form;
        let positive = |field| positive_length(job, form(field));
        Self {
            board: positive(FormField::Board),
            sides: job.form.sides,
            bend: job.form.bend,
            strip: positive(FormField::Strip),
            strip_bend: positive(FormField::StripBend),
            kerf: read::length(job, form(FormField::Kerf)),
            kerf_of_sheets: optional(job, form(FormField::Kerf), read::length).map(Option::unwrap_or_default),
        }
    }
}

/// What the form of one piece follows from, beside its finished geometry.
#[derive(Clone, Debug, PartialEq)]
pub struct FormInputs {
    /// The piece, by its index.
    pub piece: usize,
    /// What it and its sides are called.
    pub names: PieceNames,
    /// What stands before the marks of its parts: "2-" where the job has several pieces, else nothing.
    pub mark: String,
    /// It was measured as a rectangle, whose clear size is told by its two liners.
    pub rectangle: bool,
    /// What grinding takes off the face; a blank counts as nothing.
    pub grinding: Known<Length>,
    /// What its form is built of.
    pub boards: BoardInputs,
}

impl FormInputs {
    /// What is typed for the form of the piece with that index.
    ///
    /// ```
    /// use pourwright::form::FormInputs;
    /// use pourwright::job::Job;
    /// use pourwright::measure::Units;
    ///
    /// let mut job = Job::new("a", Units::Metric);
    /// job.form.board = "19".into();
    /// let inputs = FormInputs::read(&job, 0);
    /// assert_eq!(inputs.boards.board.unwrap().value, 0.019);
    /// assert_eq!(inputs.grinding.unwrap().value, 0.0, "nothing typed: nothing is ground off");
    /// ```
    pub fn read(job: &Job, piece: usize) -> Self {
        Self {
            piece,
            names: PieceNames::read(job, piece),
            mark: if job.pieces.len() > 1 { format!("{}-", piece + 1) } else { String::new() },
            rectangle: job.pieces.get(piece).is_some_and(|piece| piece.shape == OutlineShape::Rectangle),
            grinding: grinding(job, piece),
            boards: BoardInputs::read(job),
        }
    }
}

fn grinding(job: &Job, piece: usize) -> Known<Length> {
    let place = FieldPath::Piece(piece, PieceField::Grinding);
    optional(job, place, read::length).map(Option::unwrap_or_default)
}

/// What the liner is and how it is laid.
#[derive(Clone, Debug, PartialEq)]
pub struct LinerInputs {
    /// The length that it is sold in, more than nothing. A lined edge waits for it.
    pub stock: Known<Length>,
    /// How far it runs past the end of its edge. A lined edge waits for it.
    pub past: Known<Length>,
    /// The tightest radius that it bends around. A lined edge waits for it.
    pub bend: Known<Length>,
    /// Whole lengths that are there already; a blank counts as none.
    pub owned: Known<u32>,
    /// Its height; nothing where it is cut to the cast thickness, as a blank says.
    pub height: Known<Option<Length>>,
}

/// How a form lies out of level.
#[derive(Clone, Debug, PartialEq)]
pub struct TiltInputs {
    /// How much lower one end lies than the other; a blank counts as level.
    pub end_fall: Known<Length>,
    /// How much lower the front or the back lies than the other; a blank counts as level.
    pub side_fall: Known<Length>,
    /// The end that lies lower, as the end of the finished top that is cast there.
    pub low_end: Hand,
    /// The side that lies lower.
    pub low_side: LowSide,
}

/// What building the forms of a whole job follows from, beside the forms themselves.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildInputs {
    /// What the forms are built of.
    pub boards: BoardInputs,
    /// What every piece is called, in the order of the job.
    pub names: Vec<PieceNames>,
    /// The liner.
    pub liner: LinerInputs,
    /// Distance between the screws of a side, more than nothing. The screws wait for it.
    pub screws: Known<Length>,
    /// Distance between the supports under the base, more than nothing; nothing where the base lies on a flat bench,
    /// as a blank says.
    pub supports: Known<Option<Length>>,
    /// Radius of the silicone bead in the inside corners. Silicone waits for it.
    pub bead: Known<Length>,
    /// What one cartridge of silicone holds, more than nothing. Silicone waits for it.
    pub cartridge: Known<Volume>,
    /// How the forms lie out of level.
    pub tilt: TiltInputs,
}

impl BuildInputs {
    /// What is typed for the forms of that job.
    pub fn read(job: &Job) -> Self {
        let form = FieldPath::Form;
        let length = |field| read::length(job, form(field));
        let fall = |field| optional(job, form(field), read::length).map(Option::unwrap_or_default);
        let owned = optional(job, form(FormField::LinerOwned), read::count);
        Self {
            boards: BoardInputs::read(job),
            names: (0..job.pieces.len()).map(|piece| PieceNames::read(job, piece)).collect(),
            liner: LinerInputs {
                stock: positive_length(job, form(FormField::LinerLength)),
                past: length(FormField::LinerPast),
                bend: length(FormField::LinerBend),
                owned: owned.map(Option::unwrap_or_default),
                height: optional(job, form(FormField::LinerHeight), positive_length),
            },
            screws: positive_length(job, form(FormField::Screws)),
            supports: optional(job, form(FormField::Supports), positive_length),
            bead: length(FormField::Bead),
            cartridge: positive_volume(job, form(FormField::Cartridge)),
            tilt: TiltInputs {
                end_fall: fall(FormField::EndFall),
                side_fall: fall(FormField::SideFall),
                low_end: job.form.low_end,
                low_side: job.form.low_side,
            },
        }
    }
}
