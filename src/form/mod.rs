//! What is built to cast a piece face down.
//!
//! A form is first its clear outline, inside the sides; then the parts that stand around it, in that frame.
//! The frame is the plan's, as installed: what is marked out on a panel is told as the form is seen, mirrored.

mod advice;
mod base;
mod bend;
mod build;
mod ends;
mod fasten;
mod level;
pub mod limits;
mod liner;
mod packing;
mod part;
mod sag;
mod seal;

pub(crate) use advice::{advise, advise_job};
pub use base::{BasePanel, Diagonal, PanelCorner};
pub use bend::{Arc, Bending, Kerfs};
pub use build::{Build, Built, Stock, StockRow};
pub use ends::{End, EndCut, Face};
pub use fasten::{Screws, SideScrews, SpacingLimit, pressure, push, write_form_pressure};
pub use level::Level;
pub use liner::{Liner, LinerCut, Run, TightBend};
pub use part::{Clash, Layers, Made, Part, Straight, Strip};
pub use sag::sag;
pub(crate) use sag::write_bow;
pub use seal::{Release, Silicone, fillet};

use crate::finding::say;
use crate::job::read::{self, all, both};
use crate::job::{CornerField, EdgeField, FieldPath, FormField, Job, OutlineShape, Piece, PieceField, SideStand};
use crate::measure::{Length, Units, write_length};
use crate::plane::{Edge, EdgeTag, OffsetError, Outline};
use crate::top::{EdgeProfile, Top};
use crate::working::{Figure, Known, Source, Waiting, Working};
use uom::si::length::meter;

/// The form of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// The clear outline inside the sides: the finished one moved out by every liner.
    pub clear: Outline,
    /// Thickness of base and sides.
    pub board: Length,
    /// Clear size inside the sides, left to right.
    pub clear_width: Figure<Length>,
    /// Clear size inside the sides, front to back.
    pub clear_depth: Figure<Length>,
    /// Base panel, left to right.
    pub base_width: Figure<Length>,
    /// Base panel, front to back.
    pub base_depth: Figure<Length>,
    /// What is cast: finished thickness and what grinding takes off the face.
    pub cast_thickness: Figure<Length>,
    /// Height of every side board.
    pub side_height: Figure<Length>,
    /// What is cut: the base, then every side. Waits for what arcs are bent from.
    pub parts: Known<Vec<Part>>,
}

impl Form {
    /// The form of the piece with that index, as drawn from its finished geometry.
    ///
    /// # Errors
    /// What it waits for: outline, edges, thickness, grinding or the board. Cutouts, mix and weather
    /// do not matter to it.
    pub fn of(top: &Top, job: &Job, piece: usize) -> Known<Self> {
        let edges = all(top.edges.iter().cloned());
        let thickness = cast_thickness(top, job, piece);
        let board = read::positive_length(job, FieldPath::Form(FormField::Board));
        let ((outline, edges), (cast, board)) = both(both(top.outline.clone(), edges), both(thickness, board))?;
        let units = job.units;
        let clear = clear_outline(&outline, &edges, job, piece)?;
        let (inside, finished) = (clear.bounds(), outline.bounds());
        let rectangle = job.pieces.get(piece).is_some_and(|piece| piece.shape == OutlineShape::Rectangle)
            && outline.edges().len() == 4;
        let of_side = |side: usize| edges.get(side).map_or_else(Length::default, |edge| edge.liner);
        let metres = Length::new::<meter>;
        let clear_width = if rectangle {
            let parts = [metres(finished.width()), of_side(3), of_side(1)];
            add_up("Clear width of the form", "finished width + left liner + right liner", parts, units)
        } else {
            over_all("Clear width of the form", [inside.x0, inside.x1], units)
        };
        let clear_depth = if rectangle {
            let parts = [metres(finished.height()), of_side(0), of_side(2)];
            add_up("Clear depth of the form", "finished depth + front liner + back liner", parts, units)
        } else {
            over_all("Clear depth of the form", [inside.y0, inside.y1], units)
        };
        let stand = job.form.sides;
        let side_height = match stand {
            SideStand::OnEdge => {
                let height = cast.value + board;
                Working::new("Height of the sides")
                    .after(&cast.working)
                    .line(
                        "cast thickness + board",
                        format!("{} + {}", write_length(cast.value, units), write_length(board, units)),
                        write_length(height, units),
                        Source::Practice,
                    )
                    .of(height)
            }
            SideStand::OnBase => Working::new("Height of the sides")
                .after(&cast.working)
                .line(
                    "cast thickness, since the sides stand on the base",
                    write_length(cast.value, units).to_string(),
                    write_length(cast.value, units),
                    Source::Practice,
                )
                .of(cast.value),
        };
        let parts = part::parts(&part::Plan { job, piece, clear: &clear, board, side_height: side_height.value });
        Ok(Self {
            board,
            base_width: base("Base, left to right", &clear_width, board, stand, units),
            base_depth: base("Base, front to back", &clear_depth, board, stand, units),
            clear_width,
            clear_depth,
            clear,
            cast_thickness: cast,
            side_height,
            parts,
        })
    }
}

impl Form {
    /// Sides that stand in each other's way, and those for which there is no room.
    pub fn clashes(&self) -> Vec<Clash> {
        self.parts.as_ref().map_or_else(|_| Vec::new(), |parts| part::clashes(parts))
    }
}

/// What is cast: the finished thickness and what grinding takes off the face.
///
/// # Errors
/// What it waits for: thickness or grinding.
pub(crate) fn cast_thickness(top: &Top, job: &Job, piece: usize) -> Known<Figure<Length>> {
    let grinding = read::optional(job, FieldPath::Piece(piece, PieceField::Grinding), read::length);
    let (thickness, grinding) = both(top.thickness.clone(), grinding)?;
    let grinding = grinding.unwrap_or_default();
    let cast = thickness + grinding;
    let write = |length| write_length(length, job.units);
    Ok(Working::new("Cast thickness")
        .line(
            "finished thickness + ground off the face",
            format!("{} + {}", write(thickness), write(grinding)),
            write(cast),
            Source::Arithmetic,
        )
        .of(cast))
}

/// The finished outline moved out by the liner of every edge.
fn clear_outline(outline: &Outline, edges: &[EdgeProfile], job: &Job, piece: usize) -> Known<Outline> {
    let liner = |side: u16| edges.get(usize::from(side)).map_or(0.0, |edge| edge.liner.get::<meter>());
    outline.offset_sides(&liner).map_err(|error| swallowed(job, piece, outline, error))
}

/// Liners that leave no outline, said where something can be done about it.
fn swallowed(job: &Job, piece: usize, outline: &Outline, error: OffsetError) -> Waiting {
    let typed = job.pieces.get(piece);
    let corner = |one: u16, other: u16| {
        let (one, other) = (usize::from(one), usize::from(other));
        let sides = typed.map_or(1, Piece::sides).max(1);
        if (one + 1) % sides == other { other } else { one }
    };
    let edge = |side: u16| typed.map_or_else(String::new, |typed| typed.side_name(usize::from(side)).to_lowercase());
    let named = |side: usize| typed.map_or_else(String::new, |typed| typed.corner_name(side).to_lowercase());
    let (place, what) = match error.tag {
        EdgeTag::Corner(one, other) => {
            let side = corner(one, other);
            (FieldPath::Corner(piece, side, CornerField::Radius), named(side))
        }
        EdgeTag::Clip(one, other) => {
            let side = corner(one, other);
            (FieldPath::Corner(piece, side, CornerField::Before), named(side))
        }
        EdgeTag::Side(side) | EdgeTag::Step(side, _) => {
            let moved = match outline.edges().get(error.moved).map(Edge::tag) {
                Some(EdgeTag::Side(moved)) => moved,
                _ => side,
            };
            (FieldPath::Edge(piece, usize::from(moved), EdgeField::Liner), format!("{} edge", edge(side)))
        }
    };
    let most = say::at_most(Length::new::<meter>(error.largest.abs()), job.units);
    let prefix = read::piece_prefix(job, piece);
    Waiting::at(place, format!("{prefix}The liners close over the {what}: {most} is the most that fits."))
}

/// From one end to the other, in metres from the front left corner of the finished piece.
fn over_all(title: &'static str, ends: [f64; 2], units: Units) -> Figure<Length> {
    let [from, to] = ends.map(|end| write_length(Length::new::<meter>(end), units));
    let length = Length::new::<meter>(ends[1] - ends[0]);
    Working::new(title)
        .line(
            "over all, of the finished outline moved out by the liner of every edge",
            format!("from {from} to {to}"),
            write_length(length, units),
            Source::Practice,
        )
        .of(length)
}

fn add_up(title: &'static str, formula: &str, parts: [Length; 3], units: Units) -> Figure<Length> {
    let clear = parts[0] + parts[1] + parts[2];
    let [size, one, other] = parts.map(|length| write_length(length, units));
    Working::new(title)
        .line(formula, format!("{size} + {one} + {other}"), write_length(clear, units), Source::Practice)
        .of(clear)
}

fn base(title: &'static str, clear: &Figure<Length>, board: Length, stand: SideStand, units: Units) -> Figure<Length> {
    let working = Working::new(title).after(&clear.working);
    let inside = write_length(clear.value, units);
    match stand {
        SideStand::OnEdge => working
            .line("clear size, since the sides are screwed to its edge", inside.to_string(), &inside, Source::Practice)
            .of(clear.value),
        SideStand::OnBase => {
            let base = clear.value + 2.0 * board;
            working
                .line(
                    "clear size + 2 boards, since the sides stand on it",
                    format!("{inside} + 2 × {}", write_length(board, units)),
                    write_length(base, units),
                    Source::Practice,
                )
                .of(base)
        }
    }
}
