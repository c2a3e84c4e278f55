//! What goes in beside a mix made from scratch: its dose, and the water it brings.

use crate::measure::{Mass, MassDensity, Quantity, Volume, write_percent};
use crate::mix::limits;
use crate::working::{Figure, Named, Source, Term};

/// Something that goes into a mix, as its label has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Additive {
    /// What the maker calls it.
    pub name: String,
    /// As it comes, as a share of the cement's mass.
    pub dose: f64,
    /// Its density as it comes.
    pub density: MassDensity,
    /// Water in it, as a share of its mass: 0 for a powder.
    pub water: f64,
    /// It is a pigment, and held to the most that cement takes.
    pub pigment: bool,
}

/// What goes in of an additive.
#[derive(Clone, Debug, PartialEq)]
pub struct Added {
    /// By mass.
    pub mass: Figure<Mass>,
    /// By volume.
    pub volume: Volume,
    /// The water in it.
    pub water: Mass,
}

/// Why an additive cannot be weighed out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AdditiveProblem {
    /// A dose, density or share is no number that can be.
    NoNumber,
    /// More pigment than cement takes.
    TooMuchPigment,
    /// The additives bring more water than the mix may have.
    TooWet,
}

impl Additive {
    /// What goes in of it with so much cement.
    ///
    /// # Errors
    /// Why it cannot be weighed out.
    pub fn added(&self, cement: Mass) -> Result<Added, AdditiveProblem> {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        let shares = [self.water, self.dose].iter().all(|share| (0.0..=1.0).contains(share));
        if !(positive(self.density.value) && positive(cement.value) && shares) {
            return Err(AdditiveProblem::NoNumber);
        }
        if self.pigment && self.dose > limits::PIGMENT_MOST * (1.0 + crate::measure::COUNT_TOLERANCE) {
            return Err(AdditiveProblem::TooMuchPigment);
        }
        let dose = Term::named_as(self.dose, "dose", Quantity::Percent(self.dose));
        let mass = (cement.named("cement") * dose).titled(self.name.clone(), Source::Typed);
        let (volume, water) = (mass.value / self.density, mass.value * self.water);
        Ok(Added { mass, volume, water })
    }
}

impl AdditiveProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> String {
        match self {
            Self::NoNumber => "Additive: one of its figures cannot be.".to_owned(),
            Self::TooMuchPigment => format!("Pigment: {} of the cement at most.", write_percent(limits::PIGMENT_MOST)),
            Self::TooWet => "The additives bring more water than the mix may have.".to_owned(),
        }
    }
}
