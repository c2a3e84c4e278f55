//! What goes in beside a mix: its dose, the water it brings, and what it changes.

use crate::limits;
use crate::measure::{
    Dose, Mass, MassDensity, Units, Volume, write_count, write_density, write_dose, write_mass, write_percent,
    write_volume, write_water,
};
use crate::working::{Figure, Source, Working};

/// How an additive is dosed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AdditiveDose {
    /// As a share of the cement's mass, as it comes.
    OfCement(f64),
    /// Into every bag.
    ABag(Dose),
}

/// Something that goes into a mix, as its label and the maker's experience have it.
#[derive(Clone, Debug, PartialEq)]
pub struct Additive {
    /// What the maker calls it.
    pub name: String,
    /// Its dose.
    pub dose: AdditiveDose,
    /// Its density as it comes.
    pub density: MassDensity,
    /// Water in it, as a share of its mass: 0 for a powder.
    pub water: f64,
    /// It is a pigment, and held to the most that cement takes where its dose is of cement.
    pub pigment: bool,
    /// How many times as long the mix stays workable with it; 1 changes nothing.
    pub workable: f64,
    /// How many times as strong the mix gets with it; 1 changes nothing.
    pub strength: f64,
}

/// What the doses are of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Basis {
    /// Cement, where it is known; of a bag it is not.
    pub cement: Option<Mass>,
    /// Bags, where there are any.
    pub bags: Option<u32>,
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
    /// Dosed by cement, and the cement is not known.
    CementUnknown,
    /// Dosed by the bag, and there are none.
    NoBags,
    /// More pigment than cement takes.
    TooMuchPigment,
    /// The additives bring more water than the mix may have.
    TooWet,
}

impl Additive {
    /// What goes in of it.
    ///
    /// # Errors
    /// Why it cannot be weighed out.
    pub fn added(&self, basis: Basis, units: Units) -> Result<Added, AdditiveProblem> {
        let sane = |value: f64| value >= 0.0 && value.is_finite();
        let factors = [self.workable, self.strength].iter().all(|factor| *factor > 0.0 && factor.is_finite());
        if !(self.density.value > 0.0 && self.density.value.is_finite() && (0.0..=1.0).contains(&self.water) && factors)
        {
            return Err(AdditiveProblem::NoNumber);
        }
        let working = Working::new(&*self.name);
        let (mass, working) = match self.dose {
            AdditiveDose::OfCement(share) => {
                let cement = basis.cement.ok_or(AdditiveProblem::CementUnknown)?;
                if !(0.0..=1.0).contains(&share) || !sane(cement.value) {
                    return Err(AdditiveProblem::NoNumber);
                }
                if self.pigment && share > limits::PIGMENT_MOST * (1.0 + limits::COUNT_TOLERANCE) {
                    return Err(AdditiveProblem::TooMuchPigment);
                }
                let mass = cement * share;
                let numbers = format!("{} × {}", write_mass(cement, units), write_percent(share));
                (mass, working.line("cement × dose", numbers, write_mass(mass, units), Source::Typed))
            }
            AdditiveDose::ABag(dose) => {
                let bags = basis.bags.ok_or(AdditiveProblem::NoBags)?;
                let a_bag = match dose {
                    Dose::Mass(mass) => mass,
                    Dose::Volume(volume) => volume * self.density,
                };
                if !sane(a_bag.value) {
                    return Err(AdditiveProblem::NoNumber);
                }
                let mass = a_bag * f64::from(bags);
                let numbers = format!("{} × {}", write_count(bags, "bag", "bags"), write_dose(dose, units));
                let working = match dose {
                    Dose::Mass(_) => working,
                    Dose::Volume(_) => {
                        working.line("its density", "", write_density(self.density, units), Source::Typed)
                    }
                };
                (mass, working.line("bags × dose a bag", numbers, write_mass(mass, units), Source::Typed))
            }
        };
        Ok(Added { mass: working.of(mass), volume: mass / self.density, water: mass * self.water })
    }
}

/// The water to pour in: what the mix may have, less what its additives bring.
///
/// # Errors
/// When they bring more than it may have.
pub fn mixing_water(in_all: Volume, additives: &[Added], units: Units) -> Result<Figure<Volume>, AdditiveProblem> {
    let brought = additives.iter().map(|added| added.water).sum::<Mass>() / limits::water_density();
    let poured = in_all - brought;
    // NaN is refused too.
    if !(poured.value >= 0.0 && poured.value.is_finite()) {
        return Err(AdditiveProblem::TooWet);
    }
    Ok(Working::new("Water to pour in")
        .line(
            "water of the mix − water in the additives",
            format!("{} − {}", write_water(in_all, units), write_volume(brought, units)),
            write_water(poured, units),
            Source::Practice,
        )
        .of(poured))
}

impl AdditiveProblem {
    /// What is wrong, in a maker's words.
    pub fn says(self) -> String {
        match self {
            Self::NoNumber => "Additive: one of its figures cannot be.".to_owned(),
            Self::CementUnknown => "Additive: a bag does not say its cement; give the dose a bag.".to_owned(),
            Self::NoBags => "Additive: there are no bags; give the dose in percent of cement.".to_owned(),
            Self::TooMuchPigment => format!("Pigment: {} of the cement at most.", write_percent(limits::PIGMENT_MOST)),
            Self::TooWet => "The additives bring more water than the mix may have.".to_owned(),
        }
    }
}
