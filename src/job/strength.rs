//! What a piece lives through from the form to the cabinet, as far as the maker decides it.

use super::Entry;
use super::entry::entries;
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
}

impl SinkBay {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Open, Self::Propped];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Open => "Open",
            Self::Propped => "Rails propped",
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
    /// What suction adds to its weight in the form.
    pub suction: Entry,
    /// What a jolt adds to its weight on the way.
    pub jolt: Entry,
    /// The push that drives out a knockout, as a weight.
    pub push: Entry,
    /// The person on the front rail.
    pub person: Entry,
    /// How far it reaches over the front of the cabinet; blank where nobody leans on it.
    pub overhang: Entry,
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
        StrippedAt => stripped_at, Duration, "Out of the form at";
        /// Age at which it is carried.
        CarriedAt => carried_at, Duration, "Carried and set at";
        /// Compressive strength when it comes out of the form.
        Strength => strength, Pressure, "Strength when stripped";
        /// Flexural strength at the same age.
        Flexural => flexural, Pressure, "Flexural strength then, tested";
        /// What suction adds to its weight.
        Suction => suction, Percent, "Suction in the form adds";
        /// What a jolt adds to its weight.
        Jolt => jolt, Percent, "A jolt when carried adds";
        /// The push that drives out a knockout.
        Push => push, Mass, "Push on a knockout";
        /// The person on the front rail.
        Person => person, Mass, "Person on the front rail";
        /// How far it reaches over the front of the cabinet.
        Overhang => overhang, Length, "Leaned on, reaching over the cabinet by";
        /// Width of the cabinet's rails and sides.
        CabinetRail => cabinet_rail, Length, "Cabinet rail width";
        /// Width of the open bay under every cutout.
        SinkBay => sink_bay, Length, "Open bay under a cutout";
        /// From the left end to a gap for an appliance.
        GapFrom => gap_from, Length, "Appliance gap, from the left end";
        /// Width of that gap.
        GapWidth => gap_width, Length, "Appliance gap, width";
        /// How much lower the left half of the cabinet lies.
        LowLeft => low_left, Length, "Left half of the cabinet lies lower by";
    }
}
