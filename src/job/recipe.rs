//! A mix that is made from scratch, as it was typed.

use super::schema::{Amount, entries, practice, share};
use super::{Entry, usual};
use crate::measure::Units;
use serde::{Deserialize, Serialize};

/// What is made from scratch.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RecipeKind {
    /// Concrete with stone, by slump and strength.
    #[default]
    Concrete,
    /// Mortar, by ratios of mass.
    Mortar,
    /// Mortar with polymer by ratios of mass: a face coat, and what backs it, with glass fibre.
    GlassFibre,
}

/// What air a concrete is mixed with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AirFor {
    /// None but what mixing traps.
    #[default]
    Indoors,
    /// Entrained, outdoors without frost.
    Outdoors,
    /// Entrained, for frost.
    Frost,
    /// Entrained, for frost and salt.
    FrostAndSalt,
}

impl AirFor {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 4] = [Self::Indoors, Self::Outdoors, Self::Frost, Self::FrostAndSalt];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Indoors => "Indoors",
            Self::Outdoors => "Outdoors, no frost",
            Self::Frost => "Frost",
            Self::FrostAndSalt => "Frost and salt",
        }
    }
}

/// A mix that is weighed out by the maker. What its kind does not ask for is kept and does not count.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Recipe {
    /// What is made.
    pub kind: RecipeKind,
    /// Air of a concrete.
    pub air_for: AirFor,
    /// The most that is mixed at a time.
    pub batch: Entry,
    /// Mass of one bag of cement.
    pub cement_bag: Entry,
    /// The finest step of the scale; blank counts as 1 oz, or 5 g.
    pub scale: Entry,
    /// How wet a concrete is.
    pub slump: Entry,
    /// Nominal largest size of the stone.
    pub stone_size: Entry,
    /// Average compressive strength of a concrete at 28 days, without additives.
    pub strength: Entry,
    /// The most water to cement that exposure allows; blank sets no limit.
    pub most_water: Entry,
    /// Dry-rodded bulk density of the stone.
    pub stone_bulk: Entry,
    /// Bulk specific gravity of the stone.
    pub stone_gravity: Entry,
    /// All water on and in the stone, as a share of its dry mass; blank counts as what it takes in.
    pub stone_moisture: Entry,
    /// What the stone takes in and keeps; blank counts as nothing.
    pub stone_absorbs: Entry,
    /// Fineness modulus of the sand.
    pub fineness: Entry,
    /// Specific gravity of the sand.
    pub sand_gravity: Entry,
    /// All water on and in the sand, as a share of its dry mass; blank counts as what it takes in.
    pub sand_moisture: Entry,
    /// What the sand takes in and keeps; blank counts as nothing.
    pub sand_absorbs: Entry,
    /// Specific gravity of the cement.
    pub cement_gravity: Entry,
    /// Sand to cement, by mass.
    pub sand: Entry,
    /// All water to cement, by mass.
    pub water: Entry,
    /// Solids of the polymer, as a share of the cement; blank counts as none.
    pub polymer: Entry,
    /// Solids in the polymer as it comes; blank counts as a powder.
    pub polymer_solids: Entry,
    /// Flow aid as it comes, as a share of the cement; blank counts as none.
    pub flow_aid: Entry,
    /// Solids in the flow aid as it comes; blank counts as a powder.
    pub flow_aid_solids: Entry,
    /// Pigment, as a share of the cement; blank counts as none.
    pub pigment: Entry,
    /// Fibre in what backs the face coat, as a share of everything.
    pub fibre: Entry,
    /// Air of a mortar, as a share of its volume.
    pub air: Entry,
    /// Thickness of the face coat.
    pub face_coat: Entry,
}

entries! {
    /// The entries of [`Recipe`].
    RecipeField of Recipe {
        /// The most that is mixed at a time.
        Batch => batch, Volume, "batch", "Mixer holds", hint "Mixed at a time; batches are made all alike.";
        /// Mass of one bag of cement.
        CementBag => cement_bag, Mass, "cement-bag", "Bag of cement", hint "What is printed on it.";
        /// The finest step of the scale.
        Scale => scale, Mass, "scale", "Scale weighs to",
            usual |units| practice(usual::scale_step(units));
        /// How wet a concrete is.
        Slump => slump, Length, "slump", "Slump", hint "How wet: {slumps}.";
        /// Nominal largest size of the stone.
        StoneSize => stone_size, Length, "stone-size", "Largest stone",
            hint "{stones}, a third of the thickness at most.";
        /// Average compressive strength at 28 days.
        Strength => strength, Pressure, "strength", "Strength at 28 days",
            hint "On average, without additives: {strengths}.";
        /// The most water to cement that exposure allows.
        MostWater => most_water, Ratio, "most-water", "Water to cement, at most",
            hint "By mass, what exposure allows. Blank: no limit.";
        /// Dry-rodded bulk density of the stone.
        StoneBulk => stone_bulk, Density, "stone-bulk", "Stone, dry-rodded",
            hint "A full bucket, rodded dry: mass by volume.";
        /// Bulk specific gravity of the stone.
        StoneGravity => stone_gravity, Ratio, "stone-gravity", "Stone, specific gravity",
            often |_| [Amount::Ratio(2.5), Amount::Ratio(2.8)], hint "Usually {from} to {to}.";
        /// All water on and in the stone.
        StoneMoisture => stone_moisture, Percent, "stone-moisture", "Stone, water on and in it",
            hint "As it lies there. Blank: neither gives nor takes water.";
        /// What the stone takes in and keeps.
        StoneAbsorbs => stone_absorbs, Percent, "stone-absorbs", "Stone, takes in", hint "Blank: nothing.";
        /// Fineness modulus of the sand.
        Fineness => fineness, Ratio, "fineness", "Sand, fineness modulus", hint "From the supplier: {fineness}.";
        /// Specific gravity of the sand.
        SandGravity => sand_gravity, Ratio, "sand-gravity", "Sand, specific gravity",
            often |_| [Amount::Ratio(2.6), Amount::Ratio(2.7)], hint "Usually {from} to {to}.";
        /// All water on and in the sand.
        SandMoisture => sand_moisture, Percent, "sand-moisture", "Sand, water on and in it",
            hint "As it lies there; its free water is poured less. Blank: neither gives nor takes water.";
        /// What the sand takes in and keeps.
        SandAbsorbs => sand_absorbs, Percent, "sand-absorbs", "Sand, takes in", hint "Blank: nothing.";
        /// Specific gravity of the cement.
        CementGravity => cement_gravity, Ratio, "cement-gravity", "Cement, specific gravity", hint "Usually {cement}.";
        /// Sand to cement, by mass.
        Sand => sand, Ratio, "sand", "Sand to cement", hint "By mass, dry sand.";
        /// All water to cement, by mass.
        Water => water, Ratio, "water", "Water to cement", hint "By mass, with what flow aid and polymer bring.";
        /// Solids of the polymer, of the cement.
        Polymer => polymer, Percent, "polymer", "Polymer, solids of the cement",
            often |_| [share(0.04), share(0.06)], hint "Usually {from} to {to}. Its water is poured less.";
        /// Solids in the polymer as it comes.
        PolymerSolids => polymer_solids, Percent, "polymer-solids", "Solids in the polymer",
            hint "Of the emulsion. Blank: a powder.";
        /// Flow aid as it comes, of the cement.
        FlowAid => flow_aid, Percent, "flow-aid", "Flow aid, of the cement",
            hint "As it comes, by its label. Blank: none.";
        /// Solids in the flow aid as it comes.
        FlowAidSolids => flow_aid_solids, Percent, "flow-aid-solids", "Solids in the flow aid", hint "Blank: a powder.";
        /// Pigment, of the cement.
        Pigment => pigment, Percent, "pigment", "Pigment, of the cement", hint "{pigment} at most. Blank: none.";
        /// Fibre, of everything.
        Fibre => fibre, Percent, "fibre", "Fibre in the backer, of everything",
            often |_| [share(0.02), share(0.04)],
            hint "Alkali-resistant glass; usually {from} to {to}. None in the face coat.";
        /// Air of a mortar.
        Air => air, Percent, "air", "Air",
            often |_| [share(0.02), share(0.04)], hint "Trapped by mixing; usually {from} to {to}.";
        /// Thickness of the face coat.
        FaceCoat => face_coat, Length, "face-coat", "Face coat, thickness", hint "The rest of the thickness is backer.";
    }
}

impl Recipe {
    /// What stands in the field is what the usual mix of its kind has there: nobody typed it.
    pub fn is_usual(&self, field: RecipeField, units: Units) -> bool {
        self.entry(field) == Self::new(self.kind, units).entry(field)
    }

    /// The usual mix of that kind, in the units of the workshop.
    ///
    /// A concrete of 5000 psi (35 MPa) and a slump of 3 in (75 mm) with stone of 3/8 in (9.5 mm); the mortar by which
    /// cements are tested (ASTM C109, from memory); glass-fibre concrete of common practice. Stone of 100 lb/ft³
    /// (1600 kg/m³) dry-rodded and of 2.65, sand of 2.65 and a fineness modulus of 2.7 are usual, from memory.
    pub fn new(kind: RecipeKind, units: Units) -> Self {
        let or = |inch: &str, metric: &str| Entry::new(if units == Units::Metric { metric } else { inch });
        let everywhere = Self {
            kind,
            batch: or("0.5 ft³", "15 L"),
            cement_bag: or("94 lb", "25 kg"),
            sand_gravity: "2.65".into(),
            cement_gravity: "3.15".into(),
            ..Self::default()
        };
        let glass_fibre = kind == RecipeKind::GlassFibre;
        match kind {
            RecipeKind::Concrete => Self {
                slump: or("3", "75"),
                stone_size: or("3/8", "9.5"),
                strength: or("5000", "35"),
                stone_bulk: or("100", "1600"),
                stone_gravity: "2.65".into(),
                fineness: "2.7".into(),
                ..everywhere
            },
            RecipeKind::Mortar | RecipeKind::GlassFibre => Self {
                sand: if glass_fibre { "1" } else { "2.75" }.into(),
                water: if glass_fibre { "0.32" } else { "0.485" }.into(),
                polymer: if glass_fibre { "5 %" } else { "" }.into(),
                polymer_solids: if glass_fibre { "50 %" } else { "" }.into(),
                fibre: if glass_fibre { "3 %" } else { "" }.into(),
                air: "3 %".into(),
                face_coat: if glass_fibre { or("1/8", "3") } else { Entry::default() },
                ..everywhere
            },
        }
    }
}
