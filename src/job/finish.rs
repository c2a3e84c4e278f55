//! What is chosen for finishing, carrying and setting: exposure, sheen, sealer, the lift, the way in.

use super::Entry;
use super::schema::{entries, memory, practice, share};
use crate::measure::exact::{inches, quarts};
use serde::{Deserialize, Serialize};

/// How much of the aggregate shall show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Exposure {
    /// The skin as cast: nothing is ground off.
    Cream,
    /// The fine sand under the skin.
    Sand,
    /// The smaller stones, cut.
    Medium,
    /// The stones in full.
    Full,
}

/// How much the face shall shine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sheen {
    /// Dull and smooth.
    Honed,
    /// A soft shine.
    Satin,
    /// A mirror, as far as concrete is one.
    Gloss,
}

/// How the face is ground.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GrindingWay {
    /// With water.
    #[default]
    Wet,
    /// Dry, under a roof.
    DryIndoors,
    /// Dry, in the open.
    DryOutdoors,
}

/// What kind of sealer it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SealKind {
    /// It soaks in and leaves no film.
    #[default]
    Penetrating,
    /// It leaves a film on the face.
    Film,
}

/// What has to be filled.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DefectKind {
    /// So many pinholes of one size.
    #[default]
    Pinholes,
    /// A crack.
    Crack,
}

/// Where the hands are before or after a lift.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LiftLevel {
    /// Under an edge on the floor.
    Floor,
    /// On a low stand.
    Stand,
    /// On a bench or a base cabinet.
    #[default]
    Bench,
    /// As measured.
    Measured,
}

/// How far the load is from the body.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reach {
    /// Against the body: 250 mm from between the ankles, which the equation takes in full.
    #[default]
    Close,
    /// Elbows half bent: 15 in. Common practice.
    Bent,
    /// Over something, arms stretched: 22 in. Common practice.
    Stretched,
}

/// How far the body turns.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// Straight ahead.
    #[default]
    None,
    /// Half aside: 45°.
    Half,
    /// Square to the side: 90°.
    Square,
}

/// How the hands hold on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grip {
    /// Handles, or lifters that clamp on.
    Good,
    /// Fingers bent square under the edge.
    #[default]
    Fair,
    /// A slippery, sharp or rough edge, or one that the fingers do not get under.
    Poor,
}

impl Exposure {
    /// From the least to the most.
    pub const ALL: [Self; 4] = [Self::Cream, Self::Sand, Self::Medium, Self::Full];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Cream => "Cream",
            Self::Sand => "Sand",
            Self::Medium => "Medium aggregate",
            Self::Full => "Full aggregate",
        }
    }
}

impl Sheen {
    /// From the dullest to the brightest.
    pub const ALL: [Self; 3] = [Self::Honed, Self::Satin, Self::Gloss];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Honed => "Honed",
            Self::Satin => "Satin",
            Self::Gloss => "Gloss",
        }
    }
}

impl GrindingWay {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Wet, Self::DryIndoors, Self::DryOutdoors];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Wet => "Wet",
            Self::DryIndoors => "Dry, indoors",
            Self::DryOutdoors => "Dry, outdoors",
        }
    }
}

impl SealKind {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Penetrating, Self::Film];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Penetrating => "Penetrating",
            Self::Film => "Film",
        }
    }
}

impl DefectKind {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Pinholes, Self::Crack];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Pinholes => "Pinholes",
            Self::Crack => "Crack",
        }
    }
}

impl LiftLevel {
    /// From the lowest to the one that is measured.
    pub const ALL: [Self; 4] = [Self::Floor, Self::Stand, Self::Bench, Self::Measured];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Floor => "Floor",
            Self::Stand => "Low stand",
            Self::Bench => "Bench",
            Self::Measured => "As measured",
        }
    }
}

impl Reach {
    /// From the nearest to the farthest.
    pub const ALL: [Self; 3] = [Self::Close, Self::Bent, Self::Stretched];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Close => "Against the body",
            Self::Bent => "Elbows half bent",
            Self::Stretched => "Arms stretched",
        }
    }
}

impl Turn {
    /// From none to the widest.
    pub const ALL: [Self; 3] = [Self::None, Self::Half, Self::Square];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::None => "Straight ahead",
            Self::Half => "Half aside",
            Self::Square => "Square to the side",
        }
    }
}

impl Grip {
    /// From the best to the worst.
    pub const ALL: [Self; 3] = [Self::Good, Self::Fair, Self::Poor];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Good => "Handles or clamp-on lifters",
            Self::Fair => "Fingers bent under the edge",
            Self::Poor => "Slippery, sharp or rough edge",
        }
    }
}

/// A crack, or pinholes of one size, to be filled.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct DefectEntry {
    /// What it is.
    pub kind: DefectKind,
    /// How many pinholes; read only for these.
    pub count: Entry,
    /// Along a crack; read only for one.
    pub length: Entry,
    /// Across it.
    pub width: Entry,
    /// Into the face.
    pub depth: Entry,
}

entries! {
    /// The entries of [`DefectEntry`].
    DefectField of DefectEntry {
        /// How many pinholes.
        Count => count, Count, "count", "How many";
        /// Along a crack.
        Length => length, Length, "length", "Length";
        /// Across it.
        Width => width, Length, "width", "Width across";
        /// Into the face.
        Depth => depth, Length, "depth", "Depth";
    }
}

/// What is chosen for finishing, carrying and setting a job; blank is as usual, or not known.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FinishChoices {
    /// How much of the aggregate shall show; none where it is not decided. It grinds nothing by itself.
    #[serde(deserialize_with = "super::entry::stated")]
    pub exposure: Option<Exposure>,
    /// How much it shall shine; none where it is not polished.
    #[serde(deserialize_with = "super::entry::stated")]
    pub sheen: Option<Sheen>,
    /// How it is ground.
    pub way: GrindingWay,
    /// Water that wet grinding uses.
    pub grinding_water: Entry,
    /// Cracks and pinholes to fill.
    pub defects: Vec<DefectEntry>,
    /// Water in the pour, as a share of its cement by mass.
    pub water_ratio: Entry,
    /// Pigment in the pour, as a share of its cement by mass; blank is none.
    pub pigment: Entry,
    /// Filling that is mixed beyond what the holes take.
    pub fill_spare: Entry,
    /// What kind of sealer.
    pub seal: SealKind,
    /// What the sealer is called.
    pub sealer: Entry,
    /// How many coats.
    pub coats: Entry,
    /// Area that so much sealer covers, one coat.
    pub covers: Entry,
    /// That much sealer.
    pub covers_with: Entry,
    /// What a rough edge takes more than a smooth one.
    pub rough_extra: Entry,
    /// From one coat to the next.
    pub recoat: Entry,
    /// From the last coat until the top may be used.
    pub cure: Entry,
    /// The day of the first coat.
    pub seal_date: Entry,
    /// Its time of day.
    pub seal_time: Entry,
    /// Where a piece is picked up.
    pub lift_from: LiftLevel,
    /// How high that is; read only if measured.
    pub from_height: Entry,
    /// Where it is put down.
    pub lift_to: LiftLevel,
    /// How high that is; read only if measured.
    pub to_height: Entry,
    /// How far from the body.
    pub reach: Reach,
    /// Turned how far.
    pub turn: Turn,
    /// Lifts a minute are more than one in five minutes: so many in an hour; blank is once.
    pub lifts_an_hour: Entry,
    /// Held how.
    pub grip: Grip,
    /// Clear width of the tightest doorway.
    pub door_width: Entry,
    /// Its clear height.
    pub door_height: Entry,
    /// Width of the corridor or stair before its turn.
    pub turn_before: Entry,
    /// Width after the turn.
    pub turn_after: Entry,
    /// Headroom at the turn.
    pub turn_height: Entry,
    /// Inside of the van along the drive.
    pub van_length: Entry,
    /// Inside of the van between its wheel arches.
    pub van_width: Entry,
    /// Inside of the van, floor to roof.
    pub van_height: Entry,
    /// From one dab of adhesive to the next.
    pub dab_spacing: Entry,
    /// Across a dab, squeezed.
    pub dab_width: Entry,
    /// Height of a dab, squeezed.
    pub dab_height: Entry,
    /// Width of the gap at the walls; blank is the clearance that was measured with.
    pub gap_width: Entry,
    /// How deep the caulk goes in.
    pub gap_depth: Entry,
    /// Shims to have at hand.
    pub shims: Entry,
}

entries! {
    /// The entries of [`FinishChoices`].
    FinishField of FinishChoices {
        /// Water that wet grinding uses.
        GrindingWater => grinding_water, Pail, "grinding-water", "Water used", hint "For the mass of slurry.";
        /// Water in the pour by cement.
        WaterRatio => water_ratio, Percent, "water-ratio", "Water of the pour, by cement",
            often |_| [share(0.4); 2], hint "By mass, as in the pour: {from} or so.";
        /// Pigment in the pour by cement.
        Pigment => pigment, Percent, "pigment", "Pigment of the pour, by cement", hint "By mass. Blank: none.";
        /// Filling mixed beyond what the holes take.
        FillSpare => fill_spare, Percent, "fill-spare", "Spare filling",
            usual |_| practice(share(0.5)), hint "Blank: {usual}, most stays on the trowel.";
        /// What the sealer is called.
        Sealer => sealer, Text, "sealer", "Sealer", hint "As the client may read it.";
        /// How many coats.
        Coats => coats, Count, "coats", "Coats", usual |_| practice(2);
        /// Area that so much sealer covers.
        Covers => covers, Area, "covers", "Covers, one coat", usual |_| memory(300.0 * inches(12.0) * inches(12.0));
        /// That much sealer.
        CoversWith => covers_with, Pail, "covers-with", "With", usual |_| memory(quarts(4.0));
        /// What a rough edge takes more.
        RoughExtra => rough_extra, Percent, "rough-extra", "Rough edges take more by", usual |_| practice(share(0.5));
        /// From one coat to the next.
        Recoat => recoat, Hours, "recoat", "Recoat after", hint "By its label.";
        /// From the last coat until use.
        Cure => cure, Hours, "cure", "Cured after", hint "By its label, until use.";
        /// The day of the first coat.
        SealDate => seal_date, Date, "seal-date", "First coat, day";
        /// Its time of day.
        SealTime => seal_time, Clock, "seal-time", "First coat, time";
        /// How high it is picked up.
        FromHeight => from_height, Length, "from-height", "Picked up at", hint "From the floor to the hands.";
        /// How high it is put down.
        ToHeight => to_height, Length, "to-height", "Put down at", hint "From the floor to the hands.";
        /// Lifts in an hour.
        LiftsAnHour => lifts_an_hour, Count, "lifts-an-hour", "Lifts an hour", hint "Blank: hardly ever.";
        /// Clear width of the tightest doorway.
        DoorWidth => door_width, Length, "door-width", "Doorway, width";
        /// Its clear height.
        DoorHeight => door_height, Length, "door-height", "Doorway, height";
        /// Width before the turn.
        TurnBefore => turn_before, Length, "turn-before", "Turn, width before";
        /// Width after the turn.
        TurnAfter => turn_after, Length, "turn-after", "Turn, width after";
        /// Headroom at the turn.
        TurnHeight => turn_height, Length, "turn-height", "Turn, headroom";
        /// Inside of the van along the drive.
        VanLength => van_length, Length, "van-length", "Van, length inside";
        /// Inside of the van between its wheel arches.
        VanWidth => van_width, Length, "van-width", "Van, width inside";
        /// Inside of the van, floor to roof.
        VanHeight => van_height, Length, "van-height", "Van, height inside";
        /// From one dab to the next.
        DabSpacing => dab_spacing, Length, "dab-spacing", "A dab every", usual |_| practice(inches(12.0));
        /// Across a dab.
        DabWidth => dab_width, Length, "dab-width", "Dab, across", usual |_| practice(inches(1.0));
        /// Height of a dab.
        DabHeight => dab_height, Length, "dab-height", "Dab, height", usual |_| practice(inches(1.0 / 8.0));
        /// Width of the gap at the walls.
        GapWidth => gap_width, Length, "gap-width", "Gap at the walls",
            usual |_| practice(inches(1.0 / 8.0)), hint "Blank: what was left at the walls, else {usual}.";
        /// How deep the caulk goes in.
        GapDepth => gap_depth, Length, "gap-depth", "Caulk, depth", usual |_| practice(inches(1.0 / 4.0));
        /// Shims to have at hand.
        Shims => shims, Count, "shims", "Shims", hint "For the shopping list.";
    }
}
