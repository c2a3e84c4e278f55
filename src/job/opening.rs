//! The opening that a piece stands in, as the tape gave it.

use super::Entry;
use super::schema::entries;
use crate::measure::Units;
use serde::{Deserialize, Serialize};

/// Which sides of the opening are walls.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OpeningWalls {
    /// Left, back and right.
    #[default]
    Three,
    /// A corner: back and left.
    BackAndLeft,
    /// A corner: back and right.
    BackAndRight,
    /// The back alone.
    Back,
}

impl OpeningWalls {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 4] = [Self::Three, Self::BackAndLeft, Self::BackAndRight, Self::Back];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Three => "Three walls",
            Self::BackAndLeft => "Back and left",
            Self::BackAndRight => "Back and right",
            Self::Back => "Back only",
        }
    }
}

/// What a reading was taken of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measured {
    /// Front width, between the side walls at their front ends.
    Front,
    /// Depth along the right side.
    Right,
    /// Width along the back.
    Back,
    /// Depth along the left side.
    Left,
    /// Front left to back right.
    DiagonalFromFrontLeft,
    /// Front right to back left.
    DiagonalFromFrontRight,
    /// The corner at the back left, by three marks.
    BackLeftCorner,
    /// The corner at the back right, by three marks.
    BackRightCorner,
}

impl Measured {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 8] = [
        Self::Back,
        Self::Front,
        Self::Left,
        Self::Right,
        Self::DiagonalFromFrontLeft,
        Self::DiagonalFromFrontRight,
        Self::BackLeftCorner,
        Self::BackRightCorner,
    ];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Front => "Front width",
            Self::Right => "Right depth",
            Self::Back => "Back width",
            Self::Left => "Left depth",
            Self::DiagonalFromFrontLeft => "Diagonal, front left to back right",
            Self::DiagonalFromFrontRight => "Diagonal, front right to back left",
            Self::BackLeftCorner => "Back left corner by three marks",
            Self::BackRightCorner => "Back right corner by three marks",
        }
    }

    /// It is a corner, read by three marks.
    pub fn is_corner(self) -> bool {
        matches!(self, Self::BackLeftCorner | Self::BackRightCorner)
    }
}

/// One reading of the tape. What was typed for a length is kept apart from what was typed for marks.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OpeningReading {
    /// What it was taken of.
    pub of: Measured,
    /// The length; read unless it is a corner. A blank one was not taken.
    pub length: Entry,
    /// From the corner to the mark on the back wall; read only for a corner.
    pub one_leg: Entry,
    /// From the corner to the mark on the side wall; read only for a corner.
    pub other_leg: Entry,
    /// Between the marks; read only for a corner.
    pub between: Entry,
}

impl OpeningReading {
    /// A reading of that, not taken yet.
    pub fn new(of: Measured) -> Self {
        let blank = Entry::default;
        Self { of, length: blank(), one_leg: blank(), other_leg: blank(), between: blank() }
    }
}

entries! {
    /// The entries of [`OpeningReading`].
    ReadingField of OpeningReading {
        /// The length.
        Length => length, Length, "length", "Reading";
        /// From the corner to the mark on the back wall.
        OneLeg => one_leg, Length, "one-leg", "Along the back wall";
        /// From the corner to the mark on the side wall.
        OtherLeg => other_leg, Length, "other-leg", "Along the side wall";
        /// Between the marks.
        Between => between, Length, "between", "Between the marks";
    }
}

/// How far the back wall stands off a straightedge, at one place.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Station {
    /// Along the wall from its left end.
    pub along: Entry,
    /// Gap between straightedge and wall.
    pub gap: Entry,
}

entries! {
    /// The entries of [`Station`].
    StationField of Station {
        /// Along the wall from its left end.
        Along => along, Length, "along", "Along the wall";
        /// Gap between straightedge and wall.
        Gap => gap, Length, "gap", "Gap";
    }
}

/// The opening that a piece stands in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Opening {
    /// Which sides of it are walls.
    pub walls: OpeningWalls,
    /// What the tape read; blank readings were not taken. The same thing may be read twice.
    pub readings: Vec<OpeningReading>,
    /// Room left at each wall, to get the piece in.
    pub clearance: Entry,
    /// How far the piece runs out beyond the front of the opening.
    pub overhang: Entry,
    /// How far it runs out beyond an end without a wall.
    pub end_overhang: Entry,
    /// Thickness of the backsplash that covers the gap at the back wall; blank if there is none.
    pub backsplash: Entry,
    /// How far the back wall stands off a straightedge.
    pub stations: Vec<Station>,
}

entries! {
    /// The entries of [`Opening`].
    OpeningField of Opening {
        /// Room left at each wall.
        Clearance => clearance, Length, "clearance", "Room at each wall";
        /// How far the piece runs out at the front.
        Overhang => overhang, Length, "overhang", "Overhang in front";
        /// How far it runs out beyond an end without a wall.
        EndOverhang => end_overhang, Length, "end-overhang", "Overhang at an open end";
        /// Thickness of the backsplash.
        Backsplash => backsplash, Length, "backsplash", "Backsplash thickness";
    }
}

impl Opening {
    /// An opening between three walls with nothing read yet.
    pub fn new(units: Units) -> Self {
        let inch = units == Units::Inch;
        let text = |inches: &str, millimetres: &str| Entry::new(if inch { inches } else { millimetres });
        Self {
            walls: OpeningWalls::Three,
            readings: Measured::ALL.into_iter().filter(|of| !of.is_corner()).map(OpeningReading::new).collect(),
            clearance: text("1/8", "3"),
            overhang: text("1 1/4", "32"),
            end_overhang: text("3/4", "20"),
            backsplash: Entry::default(),
            stations: Vec::new(),
        }
    }
}
