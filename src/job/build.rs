//! What is chosen for building a piece: boards, liner, knockouts, sheets, steel.

use super::Entry;
use super::piece::Hand;
use super::schema::{either, entries, millimetres, practice};
use crate::measure::Units;
use crate::measure::exact::inches;
use serde::{Deserialize, Serialize};

/// How the form's sides meet its base.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SideStand {
    /// Screwed to the edge of the base: a side is as high as the cast and the base together.
    #[default]
    OnEdge,
    /// Standing on the base: a side is as high as the cast.
    OnBase,
}

/// How the side along an arc is made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Bend {
    /// A strip bent along blocks, with kerfs in its back where the radius asks for them.
    #[default]
    Strip,
    /// Layers of board cut to the arc and stacked to the height of the side.
    Layers,
}

impl Bend {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Strip, Self::Layers];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Strip => "Bent strip",
            Self::Layers => "Cut layers",
        }
    }
}

/// What a layer of a knockout is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LayerOf {
    /// Rigid foam: it crushes instead of wedging.
    #[default]
    Foam,
    /// Melamine-faced board or plywood.
    Board,
}

impl LayerOf {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Foam, Self::Board];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Foam => "Foam",
            Self::Board => "Board or ply",
        }
    }
}

/// One thickness of material that knockouts are stacked from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Layer {
    /// What it is.
    pub of: LayerOf,
    /// Its thickness.
    pub thickness: Entry,
}

entries! {
    /// The entries of [`Layer`].
    LayerField of Layer {
        /// Its thickness.
        Thickness => thickness, Length, "thickness", "Thickness";
    }
}

/// One size of sheet that parts are cut from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetStock {
    /// One side of it.
    pub width: Entry,
    /// The other side of it.
    pub length: Entry,
    /// How many there are; blank where it is bought as needed.
    pub owned: Entry,
}

entries! {
    /// The entries of [`SheetStock`].
    SheetField of SheetStock {
        /// One side of it.
        Width => width, Length, "width", "Width";
        /// The other side of it.
        Length => length, Length, "length", "Length";
        /// How many there are.
        Owned => owned, Count, "owned", "How many you have", hint "Blank: bought as needed.";
    }
}

/// The side of the form, front or back, that lies lower.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LowSide {
    /// The front edge.
    #[default]
    Front,
    /// The back edge.
    Back,
}

impl LowSide {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Front, Self::Back];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Front => "Front",
            Self::Back => "Back",
        }
    }
}

/// What the face of the form is like, which decides how a top clings to it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FormFace {
    /// Melamine, oiled or waxed.
    #[default]
    Smooth,
    /// A rough or sculptured liner.
    Rough,
}

impl FormFace {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Smooth, Self::Rough];

    /// The word for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Smooth => "Smooth",
            Self::Rough => "Rough or sculptured liner",
        }
    }
}

/// What is chosen for the form of every piece of the job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FormChoices {
    /// Thickness of base and sides as measured.
    pub board: Entry,
    /// Distance between the supports under the base; blank where the base lies on a flat bench.
    pub supports: Entry,
    /// What the face of the form is like.
    pub face: FormFace,
    /// How the sides meet the base.
    pub sides: SideStand,
    /// How the side along an arc is made.
    pub bend: Bend,
    /// Thickness of the strip that is bent along an arc.
    pub strip: Entry,
    /// The tightest radius that the strip bends to without kerfs.
    pub strip_bend: Entry,
    /// The length that the liner is sold in.
    pub liner_length: Entry,
    /// Lengths of liner that are there already; blank counts as none.
    pub liner_owned: Entry,
    /// Height of the liner; blank where it is cut to the cast thickness.
    pub liner_height: Entry,
    /// How far the liner runs past the end of its edge.
    pub liner_past: Entry,
    /// The tightest radius that the liner bends around.
    pub liner_bend: Entry,
    /// What knockouts are stacked from.
    pub layers: Vec<Layer>,
    /// How much narrower a knockout is at its top on every side, to come out; blank counts as nothing.
    pub draft: Entry,
    /// Distance between the screws of a side.
    pub screws: Entry,
    /// Radius of the silicone bead in the inside corners.
    pub bead: Entry,
    /// What one cartridge of silicone holds.
    pub cartridge: Entry,
    /// What the saw takes.
    pub kerf: Entry,
    /// Sheets to cut from: off-cuts that are there, and what is bought.
    pub sheets: Vec<SheetStock>,
    /// Off-cuts with a shorter side than this are thrown away.
    pub keep: Entry,
    /// The end of the form that lies lower, as the end of the finished top that is cast there.
    pub low_end: Hand,
    /// How much lower it lies; blank counts as nothing.
    pub end_fall: Entry,
    /// The side of the form that lies lower.
    pub low_side: LowSide,
    /// How much lower it lies; blank counts as nothing.
    pub side_fall: Entry,
}

entries! {
    /// The entries of [`FormChoices`].
    FormField of FormChoices {
        /// Thickness of base and sides as measured.
        Board => board, Length, "board", "Board thickness";
        /// Distance between the supports under the base.
        Supports => supports, Length, "supports", "Base supported every",
            hint "Blank: the base lies flat on a bench over its whole area.";
        /// Thickness of the strip that is bent along an arc.
        Strip => strip, Length, "strip", "Strip to bend, thickness";
        /// The tightest radius that the strip bends to.
        StripBend => strip_bend, Length, "strip-bend", "It bends to a radius of";
        /// The length that the liner is sold in.
        LinerLength => liner_length, Length, "liner-length", "Liner, sold in lengths of";
        /// Lengths of liner that are there already.
        LinerOwned => liner_owned, Count, "liner-owned", "Lengths you have", hint "Blank: none.";
        /// Height of the liner.
        LinerHeight => liner_height, Length, "liner-height", "Liner height", hint "Blank: cut to the cast thickness.";
        /// How far the liner runs past the end of its edge.
        LinerPast => liner_past, Length, "liner-past", "Liner runs past a corner by";
        /// The tightest radius that the liner bends around.
        LinerBend => liner_bend, Length, "liner-bend", "Liner bends to a radius of";
        /// How much narrower a knockout is at its top.
        Draft => draft, Length, "draft", "Draft of a knockout, each side",
            often |units| [either(units, inches(1.0 / 16.0), millimetres(2.0)); 2],
            hint "So that it comes out: {from} is usual. Blank: none.";
        /// Distance between the screws of a side.
        Screws => screws, Length, "screws", "Screws every";
        /// Radius of the silicone bead.
        Bead => bead, Length, "bead", "Silicone bead, radius";
        /// What one cartridge of silicone holds.
        Cartridge => cartridge, Cartridge, "cartridge", "A cartridge holds";
        /// What the saw takes.
        Kerf => kerf, Length, "kerf", "Saw kerf";
        /// Off-cuts with a shorter side than this are thrown away.
        Keep => keep, Length, "keep", "Keep off-cuts from";
        /// How much lower the low end lies.
        EndFall => end_fall, Length, "end-fall", "Low end lies lower by";
        /// How much lower the low side lies.
        SideFall => side_fall, Length, "side-fall", "Low side lies lower by";
    }
}

impl FormChoices {
    /// The usual choices: common practice, no source.
    pub fn new(units: Units) -> Self {
        let usual = |inch: &str, metric: &str| Entry::new(if units == Units::Metric { metric } else { inch });
        let layer = |of, inch: &str, metric: &str| Layer { of, thickness: usual(inch, metric) };
        let sheet = |inch: [&str; 2], metric: [&str; 2]| SheetStock {
            width: usual(inch[0], metric[0]),
            length: usual(inch[1], metric[1]),
            owned: Entry::default(),
        };
        Self {
            board: usual("3/4", "19"),
            supports: Entry::default(),
            face: FormFace::Smooth,
            sides: SideStand::OnEdge,
            bend: Bend::Strip,
            strip: usual("1/8", "3"),
            strip_bend: usual("12", "300"),
            liner_length: usual("8 ft", "2.4 m"),
            liner_owned: Entry::default(),
            liner_height: Entry::default(),
            liner_past: usual("2", "50"),
            liner_bend: usual("3", "75"),
            layers: vec![
                layer(LayerOf::Foam, "2", "50"),
                layer(LayerOf::Foam, "1", "25"),
                layer(LayerOf::Foam, "1/2", "12"),
                layer(LayerOf::Board, "3/4", "19"),
                layer(LayerOf::Board, "1/2", "12"),
            ],
            draft: Entry::default(),
            screws: usual("6", "150"),
            bead: usual("1/8", "3"),
            cartridge: usual("10.1 fl oz", "300 mL"),
            kerf: usual("1/8", "3"),
            sheets: vec![sheet(["49", "97"], ["1220", "2440"])],
            keep: usual("6", "150"),
            low_end: Hand::Left,
            end_fall: Entry::default(),
            low_side: LowSide::Front,
            side_fall: Entry::default(),
        }
    }
}

/// The weight class of expanded metal lath (ASTM C847).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lath {
    /// None.
    #[default]
    None,
    /// Flat diamond mesh, 2.5 lb/yd².
    Light,
    /// Flat diamond mesh, 3.4 lb/yd².
    Heavy,
}

impl Lath {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::None, Self::Light, Self::Heavy];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::None => "No lath",
            Self::Light => "2.5 lb/yd²",
            Self::Heavy => "3.4 lb/yd²",
        }
    }
}

/// The size of a reinforcing bar (ASTM A615).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BarSize {
    /// No bars.
    #[default]
    None,
    /// 3/8 in; No. 10 in soft metric.
    Three,
    /// 1/2 in; No. 13 in soft metric.
    Four,
    /// 5/8 in; No. 16 in soft metric.
    Five,
}

impl BarSize {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 4] = [Self::None, Self::Three, Self::Four, Self::Five];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::None => "No bars",
            Self::Three => "#3 (3/8 in)",
            Self::Four => "#4 (1/2 in)",
            Self::Five => "#5 (5/8 in)",
        }
    }
}

/// The steel in one piece.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reinforcement {
    /// Lath, by its weight class.
    pub lath: Lath,
    /// Layers of lath; blank counts as one.
    pub layers: Entry,
    /// Width of a sheet of lath as bought.
    pub lath_width: Entry,
    /// Length of a sheet of lath as bought.
    pub lath_length: Entry,
    /// How far lath and the ends of bars stay off every edge and cutout.
    pub off_edges: Entry,
    /// How far one sheet of lath laps over the next.
    pub lap: Entry,
    /// Bars along the rails beside cutouts.
    pub bars: BarSize,
    /// Height of the bars' centre line over the face; blank counts as mid-depth.
    pub bar_height: Entry,
    /// Bars go along rails that are no wider than this; blank counts as every rail beside a cutout.
    pub rails_to: Entry,
}

entries! {
    /// The entries of [`Reinforcement`].
    SteelField of Reinforcement {
        /// Layers of lath.
        Layers => layers, Count, "layers", "Layers", usual |_| practice(1);
        /// Width of a sheet of lath.
        LathWidth => lath_width, Length, "lath-width", "Lath sheet, width";
        /// Length of a sheet of lath.
        LathLength => lath_length, Length, "lath-length", "Lath sheet, length";
        /// How far steel stays off edges and cutouts.
        OffEdges => off_edges, Length, "off-edges", "Stays off edges by";
        /// How far sheets of lath lap.
        Lap => lap, Length, "lap", "Sheets lap by";
        /// Height of the bars' centre line over the face.
        BarHeight => bar_height, Length, "bar-height", "Bar centre above the face", hint "Blank: mid-depth.";
        /// Bars go along rails no wider than this.
        RailsTo => rails_to, Length, "rails-to", "Only along rails up to", hint "Blank: every rail beside a cutout.";
    }
}

impl Reinforcement {
    /// No steel yet, and the usual sizes: common practice, no source.
    pub fn new(units: Units) -> Self {
        let usual = |inch: &str, metric: &str| Entry::new(if units == Units::Metric { metric } else { inch });
        Self {
            lath: Lath::None,
            layers: Entry::new("1"),
            lath_width: usual("27", "690"),
            lath_length: usual("96", "2440"),
            off_edges: usual("1", "25"),
            lap: usual("2", "50"),
            bars: BarSize::None,
            bar_height: Entry::default(),
            rails_to: Entry::default(),
        }
    }
}
