//! One piece to cast: outline, edges, cutouts, holes.

use super::Entry;
use super::build::Reinforcement;
use super::cutout::{Cutout, Door, Holes};
use super::opening::Opening;
use super::pour::Logged;
use super::schema::{either, entries, millimetres, share};
use super::strength::Handling;
use crate::measure::Units;
use crate::measure::exact::inches;
use serde::{Deserialize, Serialize};

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
    /// A backsplash stands on it, against the wall; cast against the plain form side.
    Backsplash,
}

impl EdgeKind {
    /// All kinds, in the order of the choice.
    pub const ALL: [Self; 5] = [Self::Wall, Self::Backsplash, Self::Plain, Self::Lined, Self::Eased];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Wall => "Wall",
            Self::Plain => "Plain",
            Self::Lined => "Lined",
            Self::Eased => "Eased",
            Self::Backsplash => "Backsplash against it",
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
        Liner => liner, Length, "liner", "Liner, mean thickness",
            often |units| [either(units, inches(0.75), millimetres(19.0)); 2],
            hint "A rough liner varies: its mean, often {from}.";
        /// Radius of the easing.
        Radius => radius, Length, "radius", "Eased radius";
    }
}

/// What a piece is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PieceKind {
    /// It lies level on cabinets or legs.
    #[default]
    Top,
    /// It stands on the back of a top, against the wall.
    Backsplash,
    /// It stands on the end of a top, against the wall.
    SideSplash,
    /// It hangs below the front of a top.
    Apron,
    /// It stands on the floor and carries the end of a top.
    WaterfallLeg,
}

impl PieceKind {
    /// All kinds, in the order of the choice.
    pub const ALL: [Self; 5] = [Self::Top, Self::Backsplash, Self::SideSplash, Self::Apron, Self::WaterfallLeg];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Top => "Top",
            Self::Backsplash => "Backsplash",
            Self::SideSplash => "Side splash",
            Self::Apron => "Apron",
            Self::WaterfallLeg => "Waterfall leg",
        }
    }

    /// A thin strip that bears nothing but itself.
    pub fn is_strip(self) -> bool {
        matches!(self, Self::Backsplash | Self::SideSplash | Self::Apron)
    }
}

/// The shape of a piece seen from above, before its corners are rounded or clipped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OutlineShape {
    /// Four square corners.
    #[default]
    Rectangle,
    /// A front part over the whole width, and one leg that goes back to the whole depth.
    L,
    /// A front part over the whole width, and a leg at either end.
    U,
    /// Walked corner by corner: each side's length, and the inside angle where it begins.
    Walked,
    /// As the walls of its opening leave room for.
    Opening,
}

impl OutlineShape {
    /// All shapes, in the order of the choice.
    pub const ALL: [Self; 5] = [Self::Rectangle, Self::L, Self::U, Self::Opening, Self::Walked];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Rectangle => "Rectangle",
            Self::L => "L",
            Self::U => "U",
            Self::Walked => "Corner by corner",
            Self::Opening => "From its opening",
        }
    }
}

/// The end at which the one leg of an L stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hand {
    /// At the left end.
    #[default]
    Left,
    /// At the right end.
    Right,
}

/// What is done to a corner of the outline.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CornerKind {
    /// Left as the two sides meet.
    #[default]
    Square,
    /// Rounded with a radius.
    Rounded,
    /// Cut off straight.
    Clipped,
}

impl CornerKind {
    /// All kinds, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Square, Self::Rounded, Self::Clipped];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Square => "Sharp",
            Self::Rounded => "Rounded",
            Self::Clipped => "Clipped",
        }
    }
}

/// One corner; what was typed for a kind is kept while another kind is chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Corner {
    /// What is done to it.
    pub kind: CornerKind,
    /// Its radius; read only when rounded.
    pub radius: Entry,
    /// Along the side before it; read only when clipped.
    pub before: Entry,
    /// Along the side after it; read only when clipped.
    pub after: Entry,
}

entries! {
    /// The entries of [`Corner`].
    CornerField of Corner {
        /// Its radius.
        Radius => radius, Length, "radius", "Corner radius";
        /// Along the side before it.
        Before => before, Length, "before", "Cut off the side before it";
        /// Along the side after it.
        After => after, Length, "after", "Cut off the side after it";
    }
}

/// One side of an outline walked corner by corner.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Leg {
    /// Length of the side.
    pub length: Entry,
    /// Inside angle at the corner where the side begins.
    pub angle: Entry,
    /// How far the side bows out beyond a straight line, as an arc; blank counts as nothing.
    pub bow: Entry,
}

entries! {
    /// The entries of [`Leg`].
    LegField of Leg {
        /// Length of the side.
        Length => length, Length, "length", "Length";
        /// Inside angle at the corner where the side begins.
        Angle => angle, Angle, "angle", "Inside angle at its start";
        /// How far the side bows out.
        Bow => bow, Length, "bow", "Bow outward";
    }
}

/// One piece to cast.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Piece {
    /// What the maker calls it.
    pub name: Entry,
    /// What it is.
    pub kind: PieceKind,
    /// Shape seen from above.
    pub shape: OutlineShape,
    /// Finished size, left to right.
    pub width: Entry,
    /// Finished size, front to back; of a U, at its left leg.
    pub depth: Entry,
    /// The end at which the leg of an L stands.
    pub hand: Hand,
    /// Width of the leg of an L, and of the left leg of a U.
    pub leg: Entry,
    /// Width of the right leg of a U.
    pub right_leg: Entry,
    /// Depth of a U at its right leg.
    pub right_depth: Entry,
    /// Depth of the front part of an L or a U.
    pub front_depth: Entry,
    /// How far the front bows out beyond a straight line; blank counts as nothing.
    pub bow: Entry,
    /// Corners, by the number of the side that begins there. There may be fewer than the outline has:
    /// the rest are sharp. Behind them stand those that other shapes have, for when it becomes one again.
    pub corners: Vec<Corner>,
    /// Sides walked corner by corner, counter-clockwise from the front left corner.
    pub walk: Vec<Leg>,
    /// The opening it stands in.
    pub opening: Opening,
    /// Finished thickness.
    pub thickness: Entry,
    /// What grinding takes off the face; blank counts as nothing.
    pub grinding: Entry,
    /// Edges, by the number of their side, counter-clockwise from the front. There may be fewer than the
    /// outline has: the rest are plain. Behind them stand those of sides that other shapes have.
    pub edges: Vec<Edge>,
    /// Cabinet doors below it, for cutouts to be centred on; may be empty.
    pub doors: Vec<Door>,
    /// Openings; may be empty.
    pub cutouts: Vec<Cutout>,
    /// Faucet holes; may be empty.
    pub holes: Vec<Holes>,
    /// The id of the bag it is cast from, among the job's own copies.
    pub bag: String,
    /// Mix ordered beyond the net volume.
    #[serde(rename = "waste")]
    pub spare: Entry,
    /// Lath and bars.
    pub reinforcement: Reinforcement,
    /// Mass of the steel in it as weighed; blank where the lath and bars above are the whole of it.
    pub steel: Entry,
    /// What happened when it was poured, in the order in which it was ticked off.
    pub log: Vec<Logged>,
    /// What it lives through until it lies on its cabinet.
    pub handling: Handling,
}

entries! {
    /// The entries of [`Piece`].
    PieceField of Piece {
        /// What the maker calls it.
        Name => name, Text, "name", "Piece";
        /// Finished size, left to right.
        Width => width, Length, "width", "Width";
        /// Finished size, front to back.
        Depth => depth, Length, "depth", "Depth";
        /// Width of a leg.
        Leg => leg, Length, "leg", "Leg width";
        /// Width of the right leg of a U.
        RightLeg => right_leg, Length, "right-leg", "Right leg width";
        /// Depth of a U at its right leg.
        RightDepth => right_depth, Length, "right-depth", "Depth at the right leg";
        /// Depth of the front part.
        FrontDepth => front_depth, Length, "front-depth", "Depth of the front part";
        /// How far the front bows out.
        Bow => bow, Length, "bow", "Bow of the front";
        /// Finished thickness.
        Thickness => thickness, Length, "thickness", "Thickness";
        /// What grinding takes off the face.
        Grinding => grinding, Length, "grinding", "Ground off the face", on Build, hint "Cast that much thicker.";
        /// Mix ordered beyond the net volume.
        Spare => spare, Percent, "spare", "Spare mix", on Pour, often |_| [share(0.1); 2], hint "{from} is usual.";
        /// Mass of the steel in it.
        Steel => steel, Mass, "steel", "Steel in it, as weighed", on Build, hint "Blank: lath and bars as above.";
    }
}

impl Piece {
    /// A piece of that name with nothing measured yet and the usual choices.
    pub fn new(name: &str, bag: &str, units: Units) -> Self {
        let metric = units == Units::Metric;
        Self {
            name: Entry::new(name),
            kind: PieceKind::Top,
            shape: OutlineShape::Rectangle,
            width: Entry::default(),
            depth: Entry::default(),
            thickness: Entry::new(if metric { "50" } else { "2" }),
            grinding: Entry::default(),
            hand: Hand::Left,
            leg: Entry::default(),
            right_leg: Entry::default(),
            right_depth: Entry::default(),
            front_depth: Entry::default(),
            bow: Entry::default(),
            corners: Vec::new(),
            walk: Vec::new(),
            opening: Opening::new(units),
            // The back of a rectangle stands against a wall.
            edges: vec![
                Edge::default(),
                Edge::default(),
                Edge { kind: EdgeKind::Wall, ..Edge::default() },
                Edge::default(),
            ],
            doors: Vec::new(),
            cutouts: Vec::new(),
            holes: Vec::new(),
            bag: bag.to_owned(),
            spare: Entry::new("10"),
            reinforcement: Reinforcement::new(units),
            steel: Entry::default(),
            log: Vec::new(),
            handling: Handling::default(),
        }
    }

    /// A piece of that kind to go with this one, as long as the edge it stands against where that is known.
    /// Its other sizes are a usual start, to be typed over: common practice, no source.
    pub fn beside(&self, kind: PieceKind, along: Option<&str>, units: Units) -> Self {
        let usual = |inch: &str, metric: &str| Entry::new(if units == Units::Metric { metric } else { inch });
        let mut piece = Self::new(kind.label(), &self.bag, units);
        piece.kind = kind;
        piece.edges.clear();
        piece.width = Entry::new(along.unwrap_or_default());
        // Lying in its form, its height is its depth.
        piece.depth = if kind == PieceKind::WaterfallLeg { usual("36", "900") } else { usual("4", "100") };
        piece.thickness = match kind {
            PieceKind::Backsplash | PieceKind::SideSplash => usual("3/4", "20"),
            // Mitred to the top or flush with it.
            PieceKind::Top | PieceKind::Apron | PieceKind::WaterfallLeg => self.thickness.clone(),
        };
        piece.spare.clone_from(&self.spare);
        piece
    }
}

impl Piece {
    /// Sides that its shape has before corners are rounded or clipped.
    pub fn sides(&self) -> usize {
        match self.shape {
            OutlineShape::Rectangle | OutlineShape::Opening => 4,
            OutlineShape::L => 6,
            OutlineShape::U => 8,
            OutlineShape::Walked => self.walk.len(),
        }
    }

    /// The word for a side: "Front".
    pub fn side_name(&self, side: usize) -> String {
        let names: &[&str] = match (self.shape, self.hand) {
            (OutlineShape::Rectangle | OutlineShape::Opening, _) => &["Front", "Right", "Back", "Left"],
            (OutlineShape::L, Hand::Left) => &["Front", "Right", "Inner back", "Inner right", "Back", "Left"],
            (OutlineShape::L, Hand::Right) => &["Front", "Left", "Inner back", "Inner left", "Back", "Right"],
            (OutlineShape::U, _) => {
                &["Front", "Right", "Right back", "Inner right", "Inner back", "Inner left", "Left back", "Left"]
            }
            (OutlineShape::Walked, _) => &[],
        };
        names.get(side).map_or_else(|| format!("Side {}", side + 1), |name| (*name).to_owned())
    }

    /// The word for the corner where a side begins: "Left / front corner".
    pub fn corner_name(&self, side: usize) -> String {
        let sides = self.sides().max(1);
        let before = self.side_name((side + sides - 1) % sides);
        format!("{before} / {} corner", self.side_name(side).to_lowercase())
    }

    /// The edge on a side; plain if nothing was chosen there.
    pub fn edge(&self, side: usize) -> Edge {
        self.edges.get(side).cloned().unwrap_or_default()
    }

    /// The edge on a side of its shape, to be typed into; nothing if the shape has no such side.
    pub(super) fn edge_at(&mut self, side: usize) -> Option<&mut Edge> {
        (side < self.sides() || side < self.edges.len()).then(|| self.edge_mut(side))
    }

    /// The corner of its shape where a side begins, to be typed into; nothing if there is none.
    pub(super) fn corner_at(&mut self, side: usize) -> Option<&mut Corner> {
        (side < self.sides() || side < self.corners.len()).then(|| self.corner_mut(side))
    }

    /// The edge on a side, to be changed.
    pub fn edge_mut(&mut self, side: usize) -> &mut Edge {
        if self.edges.len() <= side {
            self.edges.resize_with(side + 1, Edge::default);
        }
        &mut self.edges[side]
    }

    /// The corner where a side begins; sharp if nothing was chosen there.
    pub fn corner(&self, side: usize) -> Corner {
        self.corners.get(side).cloned().unwrap_or_default()
    }

    /// The corner where a side begins, to be changed.
    pub fn corner_mut(&mut self, side: usize) -> &mut Corner {
        if self.corners.len() <= side {
            self.corners.resize_with(side + 1, Corner::default);
        }
        &mut self.corners[side]
    }

    /// Removes a cabinet door. Cutouts centred on it are left without one; the others keep theirs.
    pub fn remove_door(&mut self, door: usize) {
        if door < self.doors.len() {
            self.doors.remove(door);
            for cutout in &mut self.cutouts {
                cutout.door = after_removal(cutout.door, door);
            }
        }
    }

    /// Removes a cutout. Holes centred on it are left without one; the others keep theirs.
    pub fn remove_cutout(&mut self, cutout: usize) {
        if cutout < self.cutouts.len() {
            self.cutouts.remove(cutout);
            for set in &mut self.holes {
                set.cutout = after_removal(set.cutout, cutout);
            }
        }
    }
}

/// What an index points to once the thing with that index was taken out of the list.
fn after_removal(index: Option<usize>, removed: usize) -> Option<usize> {
    match index {
        Some(index) if index > removed => Some(index - 1),
        Some(index) if index == removed => None,
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Usual sizes of what goes with a top: common practice, no source.
    #[test]
    fn a_backsplash_starts_as_long_as_its_edge_and_an_apron_as_thick_as_its_top() {
        let mut top = Piece::new("Top", "a bag", Units::Inch);
        top.thickness = Entry::new("1 3/4");
        let splash = top.beside(PieceKind::Backsplash, Some("52 1/2"), Units::Inch);
        assert_eq!([&splash.width, &splash.depth, &splash.thickness].map(|entry| entry.text()), ["52 1/2", "4", "3/4"]);
        assert_eq!((splash.kind, splash.bag.as_str()), (PieceKind::Backsplash, "a bag"));
        assert!((0..4).all(|side| splash.edge(side).kind == EdgeKind::Plain), "none of its edges is a wall");
        assert_eq!(top.beside(PieceKind::Apron, None, Units::Inch).thickness, top.thickness);
        let metric = top.beside(PieceKind::SideSplash, None, Units::Metric);
        assert_eq!([metric.width.text(), metric.depth.text(), metric.thickness.text()], ["", "100", "20"]);
    }
}
