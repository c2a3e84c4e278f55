//! What is left out of a piece: cutouts and faucet holes, and the cabinet doors they may be centred on.

use super::Entry;
use super::piece::Hand;
use super::schema::{either, entries, millimetres, practice};
use crate::measure::exact::{inches, pounds};
use serde::{Deserialize, Serialize};

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
    /// Straight at the back and round in front.
    D,
    /// A paper template, corner by corner.
    Polygon,
}

impl CutoutShape {
    /// All shapes, in the order of the choice.
    pub const ALL: [Self; 5] = [Self::Rectangle, Self::Ellipse, Self::Circle, Self::D, Self::Polygon];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Rectangle => "Rectangle",
            Self::Ellipse => "Ellipse",
            Self::Circle => "Circle",
            Self::D => "D",
            Self::Polygon => "From a template",
        }
    }
}

/// Where the centre line of a cutout is measured from, left to right. The ends are those of the outline's
/// bounds: the upright lines through its leftmost and its rightmost point.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AcrossFrom {
    /// From the left end.
    #[default]
    Left,
    /// From the right end.
    Right,
    /// From the centre of a cabinet door.
    Door,
}

impl AcrossFrom {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Left, Self::Right, Self::Door];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Left => "Left end",
            Self::Right => "Right end",
            Self::Door => "Cabinet door",
        }
    }
}

/// Where the centre line of a cutout is measured from, front to back. The edges are those of the outline's
/// bounds: the level lines through its foremost and its rearmost point.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AlongFrom {
    /// From the front edge.
    #[default]
    Front,
    /// From the back edge.
    Back,
}

impl AlongFrom {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Front, Self::Back];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Front => "Front edge",
            Self::Back => "Back edge",
        }
    }
}

/// How the edge of the hole stands to the rim of an undermount bowl.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reveal {
    /// The hole is as large as typed: no reveal; also for a drain.
    #[default]
    Flush,
    /// The rim shows: the hole is larger than the bowl by the reveal all round.
    Shows,
    /// The top covers the rim: the hole is smaller than the bowl by the reveal all round.
    Covers,
    /// The rim of a drop-in bowl lies on the top: the hole is smaller than the rim by the ledge all round.
    DropIn,
}

impl Reveal {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 4] = [Self::Flush, Self::Shows, Self::Covers, Self::DropIn];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Flush => "The hole, as typed",
            Self::Shows => "Rim shows",
            Self::Covers => "Top covers the rim",
            Self::DropIn => "Drop-in, by its rim",
        }
    }
}

/// One corner of a paper template.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TemplateCorner {
    /// From the left edge of the template.
    pub from_left: Entry,
    /// From the front edge of the template.
    pub from_front: Entry,
    /// Radius it is rounded with; blank counts as nothing.
    pub radius: Entry,
}

entries! {
    /// The entries of [`TemplateCorner`].
    TemplateField of TemplateCorner {
        /// From the left edge of the template.
        FromLeft => from_left, Length, "from-left", "From the template's left";
        /// From the front edge of the template.
        FromFront => from_front, Length, "from-front", "From the template's front";
        /// Radius it is rounded with.
        Radius => radius, Length, "radius", "Radius there";
    }
}

/// An opening through the piece, placed by its centre lines. What was typed for one choice is kept while
/// another is chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cutout {
    /// Its shape.
    pub shape: CutoutShape,
    /// Of the bowl, left to right; the diameter of a circle. Not read for a template.
    pub width: Entry,
    /// Of the bowl, front to back; not read for a circle and a template.
    pub depth: Entry,
    /// Radius of the corners; read only for a rectangle and for the two back corners of a D.
    pub corner_radius: Entry,
    /// Corners of the template, in order, either way round; read only for one. Its centre is that of its
    /// bounds.
    pub template: Vec<TemplateCorner>,
    /// How the edge of the hole stands to the rim of the bowl.
    pub reveal: Reveal,
    /// Width of the reveal, or of the ledge that the rim of a drop-in bowl lies on; read unless it is flush.
    pub reveal_width: Entry,
    /// Depth of the bowl, for what it weighs full of water; blank counts as usual, a typed 0 as no bowl.
    pub bowl_depth: Entry,
    /// Weight of the bowl; blank counts as usual.
    pub bowl_weight: Entry,
    /// What the centre line is measured from, left to right.
    pub across: AcrossFrom,
    /// Centre line from the left end of the piece.
    pub from_left: Entry,
    /// Centre line from the right end of the piece.
    pub from_right: Entry,
    /// The cabinet door it is centred on, by its index; nothing while none is chosen.
    #[serde(deserialize_with = "super::entry::stated")]
    pub door: Option<usize>,
    /// Centre line from the centre of that door; blank counts as nothing.
    pub from_door: Entry,
    /// On which side of the door's centre it lies.
    pub door_side: Hand,
    /// What the centre line is measured from, front to back.
    pub along: AlongFrom,
    /// Centre line from the front edge of the piece.
    pub from_front: Entry,
    /// Centre line from the back edge of the piece.
    pub from_back: Entry,
}

entries! {
    /// The entries of [`Cutout`].
    CutoutField of Cutout {
        /// Left to right; the diameter of a circle.
        Width => width, Length, "width", "Width";
        /// Front to back.
        Depth => depth, Length, "depth", "Depth";
        /// Radius of the corners.
        CornerRadius => corner_radius, Length, "corner-radius", "Corner radius";
        /// Width of the reveal.
        RevealWidth => reveal_width, Length, "reveal-width", "Reveal";
        /// Depth of the bowl.
        BowlDepth => bowl_depth, Length, "bowl-depth", "Bowl, depth",
            usual |_| practice(inches(8.0)), hint "Blank: {usual}, none under {drain} of hole. 0: nothing hangs there.";
        /// Weight of the bowl.
        BowlWeight => bowl_weight, Mass, "bowl-weight", "Bowl, weight",
            usual |_| practice(pounds(30.0)), hint "Empty. Blank: {usual}.";
        /// Centre line from the left end of the piece.
        FromLeft => from_left, Length, "from-left", "Centre from left end";
        /// Centre line from the right end of the piece.
        FromRight => from_right, Length, "from-right", "Centre from right end";
        /// Centre line from the centre of a cabinet door.
        FromDoor => from_door, Length, "from-door", "Centre off the door's centre", hint "Blank: on the door's centre.";
        /// Centre line from the front edge of the piece.
        FromFront => from_front, Length, "from-front", "Centre from front edge";
        /// Centre line from the back edge of the piece.
        FromBack => from_back, Length, "from-back", "Centre from back edge";
    }
}

impl Cutout {
    /// The entry that places it left to right.
    pub fn across_field(&self) -> CutoutField {
        match self.across {
            AcrossFrom::Left => CutoutField::FromLeft,
            AcrossFrom::Right => CutoutField::FromRight,
            AcrossFrom::Door => CutoutField::FromDoor,
        }
    }

    /// The entry that places it front to back.
    pub fn along_field(&self) -> CutoutField {
        match self.along {
            AlongFrom::Front => CutoutField::FromFront,
            AlongFrom::Back => CutoutField::FromBack,
        }
    }
}

/// A cabinet door below the piece.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Door {
    /// Its centre from the left end of the piece.
    pub from_left: Entry,
}

entries! {
    /// The entries of [`Door`].
    DoorField of Door {
        /// Its centre from the left end of the piece.
        FromLeft => from_left, Length, "from-left", "Door centre from left end";
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

/// What a set of holes is measured from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HolesFrom {
    /// From the left end and the front edge, as for a cutout.
    #[default]
    Edges,
    /// Centred on a bowl, and behind its back edge.
    Bowl,
}

/// A set of faucet holes, placed by the centre of the middle hole. What was typed for one choice is kept
/// while another is chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Holes {
    /// How many, and how they stand.
    pub pattern: HolePattern,
    /// Diameter of each hole.
    pub diameter: Entry,
    /// First to last centre; read only for three holes.
    pub spread: Entry,
    /// What they are measured from.
    pub placed: HolesFrom,
    /// Middle centre from the left end of the piece.
    pub from_left: Entry,
    /// Centres from the front edge of the piece.
    pub from_front: Entry,
    /// The cutout of the bowl they are centred on, by its index; nothing while none is chosen.
    #[serde(deserialize_with = "super::entry::stated")]
    pub cutout: Option<usize>,
    /// Centres behind the back edge of that bowl, without its reveal.
    pub behind: Entry,
}

entries! {
    /// The entries of [`Holes`].
    HolesField of Holes {
        /// Diameter of each hole.
        Diameter => diameter, Length, "diameter", "Hole diameter";
        /// First to last centre.
        Spread => spread, Length, "spread", "Spread, first to last centre";
        /// Middle centre from the left end of the piece.
        FromLeft => from_left, Length, "from-left", "Centre from left end";
        /// Centres from the front edge of the piece.
        FromFront => from_front, Length, "from-front", "Centre from front edge";
        /// Centres behind the back edge of the bowl.
        Behind => behind, Length, "behind", "Centre behind the bowl's back edge",
            often |units| [either(units, inches(2.0), millimetres(50.0)), either(units, inches(2.5), millimetres(65.0))],
            hint "{from} to {to} is usual.";
    }
}
