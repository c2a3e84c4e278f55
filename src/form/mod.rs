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
mod inputs;
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
pub use inputs::{BoardInputs, BuildInputs, FormInputs, LinerInputs, PieceNames, TiltInputs};
pub use level::Level;
pub use liner::{Liner, LinerCut, Run, TightBend};
pub use part::{Clash, Layers, Made, Part, Straight, Strip};
pub use sag::sag;
pub(crate) use sag::write_bow;
pub use seal::{Release, Silicone, fillet};

use crate::job::{CornerField, EdgeField, FieldPath, SideStand};
use crate::label;
use crate::measure::Length;
use crate::plane::{Edge, EdgeTag, OffsetError, Outline};
use crate::top::{EdgeProfile, Top};
use crate::working::{Figure, Known, Name, Named, Source, Term, Waiting, Word, all, known_ref, together};
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
    /// The form of a piece, from its finished geometry and what is cast in it.
    ///
    /// # Errors
    /// What it waits for: outline, edges, thickness, grinding or the board. Cutouts, mix and weather
    /// do not matter to it.
    pub fn of(top: &Top, inputs: &FormInputs) -> Known<Self> {
        let edges = all(top.edges.iter().map(known_ref));
        let cast = cast(&top.thickness, &inputs.grinding);
        let (outline, edges, cast, board) =
            together((known_ref(&top.outline), edges, cast, inputs.boards.board.clone()))?;
        let clear = clear_outline(outline, &edges, inputs)?;
        let (inside, finished) = (clear.bounds(), outline.bounds());
        let rectangle = inputs.rectangle && outline.edges().len() == 4;
        let of_side = |side: usize| edges.get(side).map_or_else(Length::default, |edge| edge.liner);
        let metres = Length::new::<meter>;
        let clear_width = if rectangle {
            let width = metres(finished.width()).named("finished width");
            let (left, right) = (of_side(3).named("left liner"), of_side(1).named("right liner"));
            (width + left + right).titled("Clear width of the form", Source::Practice)
        } else {
            over_all(
                "Clear width of the form",
                metres(inside.x0).named("left end"),
                metres(inside.x1).named("right end"),
            )
        };
        let clear_depth = if rectangle {
            let depth = metres(finished.height()).named("finished depth");
            let (front, back) = (of_side(0).named("front liner"), of_side(2).named("back liner"));
            (depth + front + back).titled("Clear depth of the form", Source::Practice)
        } else {
            over_all("Clear depth of the form", metres(inside.y0).named("front"), metres(inside.y1).named("back"))
        };
        let stand = inputs.boards.sides;
        let side_height = match stand {
            SideStand::OnEdge => cast.term() + board.named("board"),
            SideStand::OnBase => cast.term().by_rule("{}, since the sides stand on the base", |x| x[0], cast.value),
        };
        let side_height = side_height.titled("Height of the sides", Source::Practice);
        let parts = part::parts(&part::Plan { inputs, clear: &clear, board, side_height: side_height.value });
        Ok(Self {
            board,
            base_width: base("Base, left to right", &clear_width, board, stand),
            base_depth: base("Base, front to back", &clear_depth, board, stand),
            clear_width,
            clear_depth,
            clear,
            cast_thickness: cast,
            side_height,
            parts,
        })
    }

    /// Sides that stand in each other's way, and those for which there is no room.
    pub fn clashes(&self) -> Vec<Clash> {
        self.parts.as_ref().map_or_else(|_| Vec::new(), |parts| part::clashes(parts))
    }
}

/// What is cast: the finished thickness and what grinding takes off the face.
///
/// # Errors
/// What it waits for: thickness or grinding.
pub(crate) fn cast(thickness: &Known<Length>, grinding: &Known<Length>) -> Known<Figure<Length>> {
    let (thickness, grinding) = together((thickness.clone(), grinding.clone()))?;
    let cast = thickness.named("finished thickness") + grinding.named("ground off the face");
    Ok(cast.titled("Cast thickness", Source::Arithmetic))
}

/// The finished outline moved out by the liner of every edge.
///
/// # Errors
/// The place of a liner that leaves no outline.
fn clear_outline(outline: &Outline, edges: &[&EdgeProfile], inputs: &FormInputs) -> Known<Outline> {
    let liner = |side: u16| edges.get(usize::from(side)).map_or(0.0, |edge| edge.liner.get::<meter>());
    outline.offset_sides(&liner).map_err(|error| swallowed(outline, error, inputs))
}

/// Liners that leave no outline, said where something can be done about it.
fn swallowed(outline: &Outline, error: OffsetError, inputs: &FormInputs) -> Waiting {
    let FormInputs { piece, names, .. } = inputs;
    let piece = *piece;
    let corner = |one: u16, other: u16| {
        let (one, other) = (usize::from(one), usize::from(other));
        let sides = names.sides.len().max(1);
        if (one + 1) % sides == other { other } else { one }
    };
    let edge = |side: u16| names.side(usize::from(side)).to_lowercase();
    let named = |side: usize| names.corner(side).to_lowercase();
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
    let most = Word::AtMost(Length::new::<meter>(error.largest.abs()));
    let of = Name::PieceInFront(piece);
    Waiting::at(place, label!("{}The liners close over the {}: {} is the most that fits.", of, what, most))
}

/// From one end to the other, told from the front left corner of the finished piece.
fn over_all(title: &'static str, from: Term<Length>, to: Term<Length>) -> Figure<Length> {
    let says = "from {} to {} of the finished outline, moved out by the liner of every edge";
    let length = to.value - from.value;
    from.with_rule(to, says, |x| x[1] - x[0], length).titled(title, Source::Practice)
}

fn base(title: &'static str, clear: &Figure<Length>, board: Length, stand: SideStand) -> Figure<Length> {
    let inside = clear.called("clear size");
    let base = match stand {
        SideStand::OnEdge => inside.by_rule("{}, since the sides are screwed to its edge", |x| x[0], clear.value),
        SideStand::OnBase => {
            let base = inside + 2.0 * board.named("board");
            let value = base.value;
            base.by_rule("{}, since the sides stand on it", |x| x[0], value)
        }
    };
    base.titled(title, Source::Practice)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{FormField, PieceField};
    use crate::measure::Units;
    use crate::measure::exact::inches;

    #[test]
    fn what_is_ground_off_is_cast_too() {
        let found = cast(&Ok(inches(1.5)), &Ok(inches(0.0625))).expect("both are known");
        assert_eq!(found.value, inches(1.5) + inches(0.0625));
        let lines = found.working.lines(Units::Inch);
        assert_eq!(lines.last().map(|line| line.numbers.as_str()), Some("1 1/2 in + 1/16 in"));
    }

    #[test]
    fn a_cast_waits_for_thickness_and_grinding() {
        let waits = |field| Err(Waiting::at(FieldPath::Piece(0, field), "nothing"));
        let waiting = cast(&waits(PieceField::Thickness), &waits(PieceField::Grinding)).expect_err("neither is known");
        assert_eq!(waiting.needs().len(), 2);
    }

    /// By hand: 60 in and two boards of 3/4 in are 61 1/2 in.
    #[test]
    fn sides_on_the_base_make_it_larger() {
        let clear = inches(60.0).named("finished width").titled("Clear width", Source::Arithmetic);
        let on_base = base("Base", &clear, inches(0.75), SideStand::OnBase);
        assert_eq!(on_base.working.result(Units::Inch), "61 1/2 in");
        assert_eq!(on_base.working.lines(Units::Inch).len(), 2, "its own line, and that of the clear width");
        assert_eq!(base("Base", &clear, inches(0.75), SideStand::OnEdge).value, inches(60.0));
    }

    /// A board that is not known stops the base, and not what is cast.
    #[test]
    fn a_form_waits_for_its_board() {
        let job = crate::job::Job::new("a", Units::Inch);
        let mut inputs = FormInputs::read(&job, 0);
        inputs.boards.board = Err(Waiting::at(FieldPath::Form(FormField::Board), "no board"));
        let waiting = Form::of(&Top::of(&job, 0), &inputs).expect_err("there is no board");
        assert!(waiting.needs().iter().any(|need| need.says.text() == "no board"));
    }
}
