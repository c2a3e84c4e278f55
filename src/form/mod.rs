//! What is built to cast a piece face down.

use crate::job::Side;
use crate::measure::Length;
use crate::working::Figure;

/// One side board of the form.
#[derive(Clone, Debug, PartialEq)]
pub struct SideBoard {
    /// The edge of the top that is cast against it.
    pub side: Side,
    /// It runs past its neighbours at both ends; else it butts between them.
    pub runs_past: bool,
    /// Length to cut.
    pub length: Length,
}

/// The form of one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
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
    /// The side boards, in the order of [`Side::ALL`].
    pub sides: Vec<SideBoard>,
}
