//! A mix: a bag as its label and the maker's own experience give it, or a recipe.

use super::schema::entries;
use super::{Entry, Recipe};
use serde::{Deserialize, Serialize};

/// What a mix is, as far as planning needs to know.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Family {
    /// Rapid-hardening mortar on calcium sulfoaluminate cement, with a flow aid.
    #[default]
    RapidMortar,
    /// Bagged portland-cement concrete.
    PortlandConcrete,
}

/// The class that a bag's label names, which guarantees a least strength at ages (ASTM C928, ASTM C387).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelClass {
    /// None is named: the least of its family counts.
    #[default]
    Unsaid,
    /// Rapid-hardening repair mortar or concrete, R1 (ASTM C928).
    R1,
    /// The same, R2.
    R2,
    /// The same, R3.
    R3,
    /// Packaged concrete of normal strength (ASTM C387).
    Normal,
    /// Packaged concrete of high early strength (ASTM C387).
    HighEarly,
}

impl LabelClass {
    /// Those that a bag of a family may name, in the order of the choice.
    pub fn of(family: Family) -> &'static [Self] {
        match family {
            Family::RapidMortar => &[Self::Unsaid, Self::R1, Self::R2, Self::R3],
            Family::PortlandConcrete => &[Self::Unsaid, Self::Normal, Self::HighEarly],
        }
    }

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Unsaid => "The label names none",
            Self::R1 => "R1 (ASTM C928)",
            Self::R2 => "R2 (ASTM C928)",
            Self::R3 => "R3 (ASTM C928)",
            Self::Normal => "Normal strength (ASTM C387)",
            Self::HighEarly => "High early strength (ASTM C387)",
        }
    }
}

/// One bag of mix, or a mix made from scratch. Every measured field is as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Bag {
    /// Told apart by this; a job's copy carries the id of the shelf's bag it was copied from.
    pub id: String,
    /// What the maker calls it.
    pub name: Entry,
    /// Family it belongs to.
    pub family: Family,
    /// Dry mass of one bag.
    pub mass: Entry,
    /// Volume that one bag gives when mixed.
    #[serde(rename = "yields")]
    pub yield_volume: Entry,
    /// Water that goes into one bag.
    pub water: Entry,
    /// The least water its label allows, if it says so.
    pub water_least: Entry,
    /// The most water its label allows, if it says so.
    pub water_most: Entry,
    /// Workable time at 70 °F (21 °C).
    pub workable: Entry,
    /// Earliest age at which it may be stripped.
    pub strip_after: Entry,
    /// Density once hardened and dry, if known.
    pub hardened_density: Entry,
    /// The class that its label names; read where no strength is typed.
    pub class: LabelClass,
    /// The temperature at which its times and strengths are stated; blank counts as that of the standard laboratory
    /// of the job's units.
    pub stated_at: Entry,
    /// Strength at ages, where known.
    pub strengths: Vec<StrengthPoint>,
    /// What goes into every bag besides water.
    pub additives: Vec<Additive>,
    /// How it is made from scratch; then there is no bag, and mass, yield and water follow from this.
    #[serde(deserialize_with = "super::entry::stated")]
    pub recipe: Option<Recipe>,
}

entries! {
    /// The entries of [`Bag`].
    BagField of Bag {
        /// What the maker calls it.
        Name => name, Text, "name", "Name";
        /// Dry mass of one bag.
        Mass => mass, Mass, "mass", "Bag";
        /// Volume that one bag gives when mixed.
        Yield => yield_volume, Volume, "yield", "Yield";
        /// Water that goes into one bag.
        Water => water, Water, "water", "Water a bag";
        /// The least water its label allows.
        WaterLeast => water_least, Water, "water-least", "Least water on the label";
        /// The most water its label allows.
        WaterMost => water_most, Water, "water-most", "Most water on the label";
        /// Workable time at 70 °F.
        Workable => workable, Duration, "workable", "Workable time at 70 °F (21 °C)";
        /// Earliest age at which it may be stripped.
        StripAfter => strip_after, Hours, "strip-after", "Strip after";
        /// Density once hardened and dry.
        HardenedDensity => hardened_density, Density, "hardened-density", "Density when dry";
        /// The temperature at which its times and strengths are stated.
        StatedAt => stated_at, Temperature, "stated-at", "Strengths are stated at",
            hint "Blank: {laboratory}, as laboratories keep it.";
    }
}

/// Compressive strength at an age.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct StrengthPoint {
    /// Age since water.
    pub age: Entry,
    /// Compressive strength at that age.
    pub strength: Entry,
}

entries! {
    /// The entries of [`StrengthPoint`].
    StrengthField of StrengthPoint {
        /// Age since water.
        Age => age, Hours, "age", "Age";
        /// Compressive strength at that age.
        Strength => strength, Pressure, "strength", "Strength";
    }
}

/// Something that goes into every bag besides water: flow aid, retarder, pigment, fibre.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Additive {
    /// What the maker calls it.
    pub name: Entry,
    /// How much goes into one bag: a volume or a mass.
    pub dose: Entry,
    /// The least dose its label allows, if it says so.
    pub dose_least: Entry,
    /// The most its label allows, if it says so.
    pub dose_most: Entry,
    /// How much longer the mix stays workable at 70 °F (21 °C) with the most of it, or with the dose where no most
    /// is given; blank where it changes nothing.
    pub longer: Entry,
    /// Share of it that is water; blank counts as none.
    pub water: Entry,
    /// How much of it goes into a mix made from scratch, as a share of the cement.
    pub of_cement: Entry,
    /// Strength of a mix made from scratch with it, as a share of that without; blank where it changes nothing.
    pub strength: Entry,
    /// What it does to the flow, in the maker's own words.
    pub flow: Entry,
    /// How much less water a mix made from scratch takes with it, for the same flow; blank counts as none.
    pub less_water: Entry,
}

entries! {
    /// The entries of [`Additive`].
    AdditiveField of Additive {
        /// What the maker calls it.
        Name => name, Text, "name", "Additive";
        /// How much goes into one bag.
        Dose => dose, Dose, "dose", "Dose a bag";
        /// The least dose its label allows.
        DoseLeast => dose_least, Dose, "dose-least", "Least dose on the label";
        /// The most its label allows.
        DoseMost => dose_most, Dose, "dose-most", "Most on the label";
        /// How much longer the mix stays workable with the most of it.
        Longer => longer, Duration, "longer", "Workable longer, at the most",
            hint "Of a retarder. Blank: it changes nothing.";
        /// Share of it that is water.
        Water => water, Percent, "water", "Water in it", hint "Blank: none. It is poured less.";
        /// How much of it goes into a mix made from scratch.
        OfCement => of_cement, Percent, "of-cement", "Dose, of the cement";
        /// Strength of a mix made from scratch with it.
        Strength => strength, Percent, "strength", "Strength with it",
            hint "Of that without it. Blank: it changes nothing.";
        /// What it does to the flow.
        Flow => flow, Text, "flow", "What it does to the flow", hint "In your own words.";
        /// How much less water a mix made from scratch takes with it.
        LessWater => less_water, Percent, "less-water", "Water it saves",
            hint "What its data sheet promises at this dose. Blank: none.";
    }
}
