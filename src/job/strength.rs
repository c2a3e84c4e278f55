//! What a piece lives through from the form to the cabinet, as far as the maker decides it.

use super::schema::{days, either, entries, millimetres, practice};
use super::{Entry, usual};
use crate::measure::exact::inches;
use serde::{Deserialize, Serialize};

/// How a piece comes out of its form.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stripped {
    /// Lifted flat, borne near both ends.
    #[default]
    Flat,
    /// Lifted flat, borne near both ends and in the middle.
    FlatByThree,
    /// Turned over its long edge.
    OnEdge,
}

impl Stripped {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Flat, Self::FlatByThree, Self::OnEdge];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Flat => "Lifted flat at both ends",
            Self::FlatByThree => "Flat, and held in the middle",
            Self::OnEdge => "Turned over its long edge",
        }
    }
}

/// How a piece is carried.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Carried {
    /// Flat, one person at each end.
    #[default]
    ByTwo,
    /// Flat, one person at each end and one in the middle.
    ByThree,
    /// Flat, two people along each long edge.
    ByFour,
    /// Upright, on its long edge.
    OnEdge,
}

impl Carried {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 4] = [Self::ByTwo, Self::ByThree, Self::ByFour, Self::OnEdge];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::ByTwo => "Flat, by two",
            Self::ByThree => "Flat, by three",
            Self::ByFour => "Flat, by four",
            Self::OnEdge => "On edge",
        }
    }
}

/// What bears a piece beside its sinks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SinkBay {
    /// Nothing but the sides of the bay.
    #[default]
    Open,
    /// A support under the rails as well, in the middle of the bay.
    Propped,
    /// The cabinet has a rail in front of the sink and one behind it.
    Railed,
}

impl SinkBay {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Open, Self::Railed, Self::Propped];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Open => "Open in front and behind",
            Self::Propped => "Strips propped",
            Self::Railed => "A rail in front and behind",
        }
    }
}

/// What bears a piece where it is used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rest {
    /// A cabinet.
    #[default]
    Cabinet,
    /// Brackets or corbels on the wall behind it.
    Brackets,
    /// A ledger along the wall behind it, and brackets.
    LedgerAndBrackets,
}

impl Rest {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Cabinet, Self::Brackets, Self::LedgerAndBrackets];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Cabinet => "A cabinet",
            Self::Brackets => "Brackets on the wall",
            Self::LedgerAndBrackets => "A ledger on the wall, and brackets",
        }
    }
}

/// What keeps the back of a piece down where it is used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Back {
    /// Its weight alone.
    #[default]
    Loose,
    /// It is fastened down.
    Fastened,
}

impl Back {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Loose, Self::Fastened];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Loose => "Held by its weight alone",
            Self::Fastened => "Fastened down along the back",
        }
    }
}

/// How a piece travels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Travels {
    /// On its long edge, leaning on an A-frame.
    #[default]
    OnEdge,
    /// Flat, on a bed of foam.
    OnFoam,
}

impl Travels {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::OnEdge, Self::OnFoam];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::OnEdge => "On edge, on an A-frame",
            Self::OnFoam => "Flat, on foam",
        }
    }
}

/// Ages, hands and supports of one piece. Blank counts as usual.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Handling {
    /// Age at which it comes out of the form; blank where the bag's own time counts.
    pub stripped_at: Entry,
    /// Age at which it is carried.
    pub carried_at: Entry,
    /// Compressive strength when it comes out of the form, where the bag tells none.
    pub strength: Entry,
    /// Flexural strength at the same age, as tested.
    pub flexural: Entry,
    /// How it comes out of the form.
    pub stripped: Stripped,
    /// How it is carried.
    pub carried: Carried,
    /// How it travels.
    pub travels: Travels,
    /// What suction adds to its weight in the form.
    pub suction: Entry,
    /// What a jolt adds to its weight when it is carried.
    pub jolt: Entry,
    /// What a jolt adds to its weight in the van.
    pub van: Entry,
    /// The push that drives out a knockout, as a weight.
    pub push: Entry,
    /// The person who sits on it.
    pub person: Entry,
    /// What bears it in use.
    pub rest: Rest,
    /// What keeps its back down.
    pub back: Back,
    /// How far it reaches over what bears it in front.
    pub overhang: Entry,
    /// How far it reaches over what bears it at its left end.
    pub overhang_left: Entry,
    /// How far it reaches over what bears it at its right end.
    pub overhang_right: Entry,
    /// How many brackets.
    pub brackets: Entry,
    /// From the left end to the first bracket, and from the last to the right end; the others stand evenly between.
    pub bracket_from: Entry,
    /// How far a bracket reaches from the wall.
    pub bracket_length: Entry,
    /// From the topmost screw of a bracket to its foot, where it presses on the wall.
    pub bracket_height: Entry,
    /// Diameter of the screws of a bracket.
    pub screw: Entry,
    /// How far their threads bite into the stud.
    pub screw_bite: Entry,
    /// Width of the cabinet's rails and sides, which bear in their middle.
    pub cabinet_rail: Entry,
    /// Width of the open bay under every cutout; blank where it is a little wider than the cutout.
    pub sink_bay: Entry,
    /// What bears beside the sinks.
    pub bay: SinkBay,
    /// From the left end to a gap for an appliance.
    pub gap_from: Entry,
    /// Width of that gap; blank where there is none.
    pub gap_width: Entry,
    /// How much lower the left half of the cabinet lies: shims that miss.
    pub low_left: Entry,
}

entries! {
    /// The entries of [`Handling`].
    HandlingField of Handling {
        /// Age at which it comes out of the form.
        StrippedAt => stripped_at, Hours, "stripped-at", "Out of the form at",
            hint "Age since the last water. Blank: by the bag's time, and not before a strength is known of it.";
        /// Age at which it is carried.
        CarriedAt => carried_at, Hours, "carried-at", "Carried and set at",
            usual |_| practice(days(1.0)), hint "Blank: at {usual}.";
        /// Compressive strength when it comes out of the form.
        Strength => strength, Pressure, "strength", "Strength when stripped",
            hint "The bag or its data sheet says it: compressive strength at that age. Blank: by the bag's strengths, \
                  else by its class.";
        /// Flexural strength at the same age.
        Flexural => flexural, Pressure, "flexural", "Flexural strength then, tested",
            hint "Blank: by the rule of the code.";
        /// What suction adds to its weight.
        Suction => suction, Percent, "suction", "Suction in the form adds",
            hint "Blank: {smooth}; {knockouts} with a knockout in the form, {rough} off a rough liner.";
        /// What a jolt adds to its weight when it is carried.
        Jolt => jolt, Percent, "jolt", "A jolt when carried adds", hint "Blank: {carried}.";
        /// What a jolt adds to its weight in the van.
        Van => van, Percent, "van", "A jolt in the van adds", hint "Blank: {van}.";
        /// The push that drives out a knockout.
        Push => push, Mass, "push", "Push on a knockout", usual |_| practice(usual::push()),
            hint "Blank: {usual}, a tenth of it where it is all foam.";
        /// The person who sits on it.
        Person => person, Mass, "person", "Person who sits on it", usual |_| practice(usual::person());
        /// How far it reaches over what bears it in front.
        Overhang => overhang, Length, "overhang", "Reaches over in front by",
            usual |_| practice(usual::overhang()),
            hint "Past the cabinet’s face. Blank: {usual}.";
        /// How far it reaches over what bears it at its left end.
        OverhangLeft => overhang_left, Length, "overhang-left", "Reaches over at the left by",
            hint "Blank: it ends with the cabinet.";
        /// How far it reaches over what bears it at its right end.
        OverhangRight => overhang_right, Length, "overhang-right", "Reaches over at the right by",
            hint "Blank: it ends with the cabinet.";
        /// How many brackets.
        Brackets => brackets, Count, "brackets", "Brackets",
            often |units| [either(units, inches(16.0), millimetres(400.0)); 2],
            hint "One at every stud, {from} apart, is usual.";
        /// From an end to the bracket nearest to it.
        BracketFrom => bracket_from, Length, "bracket-from", "First and last bracket, from the ends",
            often |units| [either(units, inches(6.0), millimetres(150.0)); 2],
            hint "Usually {from}. The others stand evenly between these two.";
        /// How far a bracket reaches from the wall.
        BracketLength => bracket_length, Length, "bracket-length", "A bracket reaches from the wall by",
            hint "Two thirds of the depth or more, unless the back is fastened down.";
        /// From the topmost screw of a bracket to its foot.
        BracketHeight => bracket_height, Length, "bracket-height", "Bracket, top screw to foot",
            hint "The taller, the less its screw is pulled.";
        /// Diameter of the screws of a bracket.
        Screw => screw, Length, "screw", "Screw of a bracket, diameter",
            often |units| [either(units, inches(0.3125), millimetres(8.0)); 2],
            hint "A lag screw of {from} is usual. From {lag} on it counts as a lag screw.";
        /// How far their threads bite into the stud.
        ScrewBite => screw_bite, Length, "screw-bite", "Its thread in the stud",
            often |units| [either(units, inches(3.5), millimetres(90.0)), either(units, inches(1.75), millimetres(45.0))],
            hint "A lag screw {from} long has about {to} of thread in the stud.";
        /// Width of the cabinet's rails and sides.
        CabinetRail => cabinet_rail, Length, "cabinet-rail", "Cabinet rail width", usual |_| practice(usual::cabinet_rail());
        /// Width of the open bay under every cutout.
        SinkBay => sink_bay, Length, "sink-bay", "Open bay under a cutout",
            hint "Blank: a little wider than the cutout.";
        /// From the left end to a gap for an appliance.
        GapFrom => gap_from, Length, "gap-from", "Appliance gap, from the left end";
        /// Width of that gap.
        GapWidth => gap_width, Length, "gap-width", "Appliance gap, width", hint "Blank: none.";
        /// How much lower the left half of the cabinet lies.
        LowLeft => low_left, Length, "low-left", "Left half of the cabinet lies lower by",
            hint "Shims that miss. Blank: nothing.";
    }
}
