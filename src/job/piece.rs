//! One piece to cast: outline, edges, cutouts, holes.

use super::Entry;
use super::entry::entries;
use crate::measure::Units;
use serde::{Deserialize, Serialize};

/// The four sides of a piece as installed, seen from above, counter-clockwise from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Towards the person who uses it; at the bottom of the drawing.
    Front,
    /// On the right hand of that person.
    Right,
    /// Usually against the wall.
    Back,
    /// On the left hand of that person.
    Left,
}

impl Side {
    /// Counter-clockwise from the front, as the edges of an outline run.
    pub const ALL: [Self; 4] = [Self::Front, Self::Right, Self::Back, Self::Left];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Front => "Front",
            Self::Right => "Right",
            Self::Back => "Back",
            Self::Left => "Left",
        }
    }
}

/// What an edge is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EdgeKind {
    /// Against a wall.
    Wall,
    /// Cast against the plain form side.
    #[default]
    Plain,
    /// Cast against a flexible liner that stands inside the form side.
    Lined,
    /// Rounded over by the fillet of silicone in the form's corner.
    Eased,
}

impl EdgeKind {
    /// All kinds, in the order of the choice.
    pub const ALL: [Self; 4] = [Self::Wall, Self::Plain, Self::Lined, Self::Eased];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Wall => "Wall",
            Self::Plain => "Plain",
            Self::Lined => "Lined",
            Self::Eased => "Eased",
        }
    }
}

/// One edge; what was typed for a kind is kept while another kind is chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Edge {
    /// What it is.
    pub kind: EdgeKind,
    /// Mean thickness of the liner; read only when lined.
    pub liner: Entry,
    /// Radius of the easing; read only when eased.
    pub radius: Entry,
}

entries! {
    /// The entries of [`Edge`].
    EdgeField of Edge {
        /// Mean thickness of the liner.
        Liner => liner, Length, "Liner, mean thickness";
        /// Radius of the easing.
        Radius => radius, Length, "Eased radius";
    }
}

/// The four edges of a piece.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Edges {
    /// The front edge.
    pub front: Edge,
    /// The right-hand edge.
    pub right: Edge,
    /// The back edge.
    pub back: Edge,
    /// The left-hand edge.
    pub left: Edge,
}

impl Edges {
    /// The edge on that side.
    pub fn at(&self, side: Side) -> &Edge {
        match side {
            Side::Front => &self.front,
            Side::Right => &self.right,
            Side::Back => &self.back,
            Side::Left => &self.left,
        }
    }

    /// The edge on that side, to be changed.
    pub fn at_mut(&mut self, side: Side) -> &mut Edge {
        match side {
            Side::Front => &mut self.front,
            Side::Right => &mut self.right,
            Side::Back => &mut self.back,
            Side::Left => &mut self.left,
        }
    }
}

/// The shape of a piece seen from above.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OutlineShape {
    /// Four square corners.
    #[default]
    Rectangle,
}

/// The shape of a cutout.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CutoutShape {
    /// A rectangle with one radius at its four corners.
    #[default]
    Rectangle,
    /// An ellipse by its two diameters.
    Ellipse,
    /// A circle; its width is its diameter.
    Circle,
}

impl CutoutShape {
    /// All shapes, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Rectangle, Self::Ellipse, Self::Circle];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Rectangle => "Rectangle",
            Self::Ellipse => "Ellipse",
            Self::Circle => "Circle",
        }
    }
}

/// An opening through the piece, placed by its centre lines.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cutout {
    /// Its shape.
    pub shape: CutoutShape,
    /// Left to right; the diameter of a circle.
    pub width: Entry,
    /// Front to back; not read for a circle.
    pub depth: Entry,
    /// Radius of the corners; read only for a rectangle.
    pub corner_radius: Entry,
    /// Centre line from the left end of the piece.
    pub from_left: Entry,
    /// Centre line from the front edge of the piece.
    pub from_front: Entry,
}

entries! {
    /// The entries of [`Cutout`].
    CutoutField of Cutout {
        /// Left to right; the diameter of a circle.
        Width => width, Length, "Width";
        /// Front to back.
        Depth => depth, Length, "Depth";
        /// Radius of the corners.
        CornerRadius => corner_radius, Length, "Corner radius";
        /// Centre line from the left end of the piece.
        FromLeft => from_left, Length, "Centre from left end";
        /// Centre line from the front edge of the piece.
        FromFront => from_front, Length, "Centre from front edge";
    }
}

/// How many holes stand in one set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HolePattern {
    /// One hole.
    #[default]
    Single,
    /// Three holes in a row; the spread is from the first to the last centre.
    Three,
}

/// A set of faucet holes, placed by the centre of the middle hole.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Holes {
    /// How many, and how they stand.
    pub pattern: HolePattern,
    /// Diameter of each hole.
    pub diameter: Entry,
    /// First to last centre; read only for three holes.
    pub spread: Entry,
    /// Middle centre from the left end of the piece.
    pub from_left: Entry,
    /// Centres from the front edge of the piece.
    pub from_front: Entry,
}

entries! {
    /// The entries of [`Holes`].
    HolesField of Holes {
        /// Diameter of each hole.
        Diameter => diameter, Length, "Hole diameter";
        /// First to last centre.
        Spread => spread, Length, "Spread, first to last centre";
        /// Middle centre from the left end of the piece.
        FromLeft => from_left, Length, "Centre from left end";
        /// Centres from the front edge of the piece.
        FromFront => from_front, Length, "Centre from front edge";
    }
}

/// One piece to cast.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Piece {
    /// What the maker calls it.
    pub name: Entry,
    /// Shape seen from above.
    pub shape: OutlineShape,
    /// Finished size, left to right.
    pub width: Entry,
    /// Finished size, front to back.
    pub depth: Entry,
    /// Finished thickness.
    pub thickness: Entry,
    /// What grinding takes off the face; blank counts as nothing.
    pub grinding: Entry,
    /// The four edges.
    pub edges: Edges,
    /// Openings; may be empty.
    pub cutouts: Vec<Cutout>,
    /// Faucet holes; may be empty.
    pub holes: Vec<Holes>,
    /// The id of the bag it is cast from, among the job's own copies.
    pub bag: String,
    /// Mix ordered beyond the net volume.
    pub waste: Entry,
    /// Mass of the steel in it; blank counts as none.
    pub steel: Entry,
}

entries! {
    /// The entries of [`Piece`].
    PieceField of Piece {
        /// What the maker calls it.
        Name => name, Text, "Piece";
        /// Finished size, left to right.
        Width => width, Length, "Width";
        /// Finished size, front to back.
        Depth => depth, Length, "Depth";
        /// Finished thickness.
        Thickness => thickness, Length, "Thickness";
        /// What grinding takes off the face.
        Grinding => grinding, Length, "Ground off the face";
        /// Mix ordered beyond the net volume.
        Waste => waste, Percent, "Spare mix";
        /// Mass of the steel in it.
        Steel => steel, Mass, "Steel in it";
    }
}

impl Piece {
    /// A piece of that name with nothing measured yet and the usual choices.
    pub fn new(name: &str, bag: &str, units: Units) -> Self {
        let metric = units == Units::Metric;
        Self {
            name: Entry::new(name),
            shape: OutlineShape::Rectangle,
            width: Entry::default(),
            depth: Entry::default(),
            thickness: Entry::new(if metric { "50" } else { "2" }),
            grinding: Entry::default(),
            edges: Edges { back: Edge { kind: EdgeKind::Wall, ..Edge::default() }, ..Edges::default() },
            cutouts: Vec::new(),
            holes: Vec::new(),
            bag: bag.to_owned(),
            waste: Entry::new("10"),
            steel: Entry::default(),
        }
    }
}
