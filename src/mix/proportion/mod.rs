//! What goes into a mix that is made from scratch, by mass and absolute volume.
//!
//! * [`concrete`] is portland concrete by ACI 211.1.
//! * [`Recipe`] is a mortar or a glass-fibre mix by ratios of mass.
//! * [`Weighed`] is a mix in steps of the maker's scale, with the check that it still fills the form.
//! * [`Additive`] is what goes in beside it.

mod additive;
mod concrete;
mod input;
mod recipe;
mod tables;
mod weighed;

pub use additive::{Added, Additive, AdditiveProblem};
pub use concrete::{Concrete, Materials, Moisture, concrete};
pub use input::Input;
pub use recipe::{Gravities, Liquid, Recipe, layers};
pub use tables::{Air, ranges};
pub use weighed::{Weighed, scale_step, share_out};

use crate::measure::{Mass, MassDensity, Quantity, Volume, write_percent};
use crate::mix::limits;
use crate::working::{Figure, Named, Source};
use uom::si::volume::cubic_meter;

/// What a part of a mix is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Cement, with what is counted as cement.
    Cement,
    /// Coarse aggregate.
    Stone,
    /// Fine aggregate.
    Sand,
    /// What is poured in; other parts may bring more.
    Water,
    /// Polymer as it comes: powder or emulsion.
    Polymer,
    /// Superplasticiser as it comes.
    FlowAid,
    /// Dry pigment.
    Pigment,
    /// Glass fibre.
    Fibre,
    /// The additive of that index, as it comes.
    Additive(usize),
}

/// One part of a mix.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub role: Role,
    /// As it is weighed in: aggregates with the water on them, liquids with the water in them.
    pub mass: Figure<Mass>,
    /// Absolute volume of that.
    pub volume: Volume,
}

/// A mix by parts, for a volume.
#[derive(Clone, Debug, PartialEq)]
pub struct Proportions {
    /// What it fills, air included.
    pub volume: Volume,
    /// Its parts, in the order of [`Role`]; none without mass.
    pub parts: Vec<Part>,
    /// Air as a share of the volume.
    pub air: f64,
    /// Cement.
    pub cement: Mass,
    /// All water that is free for the cement: poured in, on the aggregates, and in liquids.
    pub water: Mass,
    /// Of that, what is on the aggregates; negative where they are drier than they absorb.
    pub on_aggregates: Mass,
}

/// Why there are no proportions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProportionProblem {
    /// This is no number that can be.
    NoNumber(Input),
    /// The table goes from 1 to 7 in.
    Slump,
    /// The table is used from 3/8 to 1 1/2 in, and half a step under that.
    StoneSize,
    /// No plasticiser saves so much water.
    LessWater,
    /// The table goes from 2000 psi to 6000 psi, with entrained air to 5000 psi.
    Strength,
    /// The table goes from 2.4 to 3.0.
    Fineness,
    /// Cement, water, stone and air leave no room for sand.
    NoRoomForSand,
    /// Aggregates or liquids bring more water than the mix may have.
    TooWet,
    /// More pigment than cement takes.
    TooMuchPigment,
}

impl Proportions {
    /// The part of that role.
    pub fn part(&self, role: Role) -> Option<&Part> {
        self.parts.iter().find(|part| part.role == role)
    }

    /// The absolute volumes of all parts, and the air: what it fills, by its parts.
    pub fn absolute_volume(&self) -> Volume {
        self.parts.iter().map(|part| part.volume).sum::<Volume>() + self.air * self.volume
    }

    /// Everything that is weighed in.
    pub fn mass(&self) -> Mass {
        self.parts.iter().map(|part| part.mass.value).sum()
    }

    /// The same mix for another volume.
    ///
    /// # Errors
    /// When the volume cannot be.
    pub fn scaled_to(&self, volume: Volume) -> Result<Self, ProportionProblem> {
        let times = (volume / self.volume).value;
        if !(times > 0.0 && volume <= Volume::new::<cubic_meter>(limits::LARGEST_RATIO)) {
            return Err(ProportionProblem::NoNumber(Input::Volume));
        }
        let share = volume.named("volume of a batch") / self.volume.named("volume that this is for");
        let scale = |part: &Part| {
            let title = part.mass.working.title_label().clone();
            let mass = (part.mass.term() * share.clone()).titled(title, Source::Arithmetic);
            Part { role: part.role, mass, volume: part.volume * times }
        };
        Ok(Self {
            volume,
            parts: self.parts.iter().map(scale).collect(),
            air: self.air,
            cement: self.cement * times,
            water: self.water * times,
            on_aggregates: self.on_aggregates * times,
        })
    }

    /// The same mix with what goes in beside it. The water that this brings is poured less; the rest adds to the
    /// volume.
    ///
    /// # Errors
    /// When it brings more water than is poured in.
    pub fn with(mut self, beside: Vec<(Role, Added)>) -> Result<Self, ProportionProblem> {
        let brought: Mass = beside.iter().map(|(_, added)| added.water).sum();
        let of_water = brought / limits::water_density();
        let more = beside.iter().map(|(_, added)| added.volume).sum::<Volume>() - of_water;
        let volume = self.volume + more;
        if brought > Mass::default() {
            let poured = self.parts.iter_mut().find(|part| part.role == Role::Water);
            let part = poured.filter(|part| part.mass.value >= brought).ok_or(ProportionProblem::TooWet)?;
            let title = part.mass.working.title_label().clone();
            let left = part.mass.term() - brought.named("water in what goes in beside it");
            part.mass = left.titled(title, Source::Practice);
            part.volume -= of_water;
        }
        if !(volume.value > 0.0 && volume.value.is_finite()) {
            return Err(ProportionProblem::NoNumber(Input::Volume));
        }
        self.air *= (self.volume / volume).value;
        self.volume = volume;
        self.parts.extend(beside.into_iter().map(|(role, added)| Part {
            role,
            mass: added.mass,
            volume: added.volume,
        }));
        Ok(self)
    }

    /// Water to cement, by mass.
    pub fn water_to_cement(&self) -> Figure<f64> {
        let ratio = self.water.named("all free water") / self.cement.named("cement");
        ratio.number().titled("Water to cement", Source::Arithmetic)
    }

    /// Density of the fresh mix, air included.
    pub fn density(&self) -> Figure<MassDensity> {
        let density = self.mass().named("all that is weighed in") / self.volume.named("volume");
        density.titled("Density of the fresh mix", limits::YIELD)
    }

    /// Paste as a share of the volume: everything that is neither aggregate, fibre nor air, with the water on the
    /// aggregates.
    pub fn paste_share(&self) -> Figure<f64> {
        let is_paste = |part: &&Part| !matches!(part.role, Role::Stone | Role::Sand | Role::Fibre);
        let paste = self.parts.iter().filter(is_paste).map(|part| part.volume).sum::<Volume>()
            + self.on_aggregates / limits::water_density();
        let share = (paste.named("cement, water and what is in it") / self.volume.named("volume")).number();
        let quantity = Quantity::Percent(share.value);
        share.titled_as("Paste", quantity, Source::Arithmetic)
    }
}

impl ProportionProblem {
    /// What is wrong, in a maker's words: a sentence of its own, or of a number that cannot be one that begins with the
    /// name of its field.
    pub fn says(self) -> String {
        match self {
            Self::NoNumber(input) => input.can_be(),
            Self::Slump => "Slump: the table goes from 1 in (25 mm) to 7 in (175 mm).".to_owned(),
            Self::StoneSize => "Stone: sizes from 5/16 in (8 mm) to 1 1/2 in (37.5 mm) can be worked out.".to_owned(),
            Self::LessWater => format!(
                "Water it saves: more than {} is more than a plasticiser does; check its data sheet.",
                write_percent(limits::LESS_WATER_MOST)
            ),
            Self::Strength => {
                "Strength: the table goes from 2000 psi (14 MPa) to 6000 psi (41 MPa), with entrained air to 5000 psi \
                 (34 MPa)."
                    .to_owned()
            }
            Self::Fineness => "Fineness modulus of the sand: the table goes from 2.4 to 3.0.".to_owned(),
            Self::NoRoomForSand => {
                "Cement, water, stone and air leave no room for sand: less stone or less strength.".to_owned()
            }
            Self::TooWet => "Aggregates and liquids bring more water than the mix may have.".to_owned(),
            Self::TooMuchPigment => {
                format!("Pigment: {} of the cement at most.", write_percent(limits::PIGMENT_MOST))
            }
        }
    }
}

impl Role {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Cement => "Cement",
            Self::Stone => "Stone",
            Self::Sand => "Sand",
            Self::Water => "Water",
            Self::Polymer => "Polymer",
            Self::FlowAid => "Flow aid",
            Self::Pigment => "Pigment",
            Self::Fibre => "Fibre",
            Self::Additive(_) => "Additive",
        }
    }
}
