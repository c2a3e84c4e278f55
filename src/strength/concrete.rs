//! Hardened concrete of one age: what it bears in bending, and how stiff it is.

use super::{limits, written};
use crate::measure::exact::{pounds_a_cubic_foot, psi};
use crate::measure::{MassDensity, Pressure, Units, write_density};
use crate::working::{Figure, Source, Working};
use serde::{Deserialize, Serialize};
use uom::si::pressure::pascal;

/// Concrete at one age.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Concrete {
    /// Compressive strength at that age, f′c.
    pub strength: Pressure,
    /// Flexural strength at that age, where the maker has tested it or the mix states it: it replaces the
    /// modulus of rupture.
    pub flexural: Option<Pressure>,
    /// Density.
    pub density: MassDensity,
}

/// Times the square root of a strength, both in that unit of pressure.
fn root(factor: f64, strength: Pressure, unit: Pressure) -> Pressure {
    factor * (strength / unit).value.sqrt() * unit
}

fn megapascal() -> Pressure {
    Pressure::new::<pascal>(1e6)
}

/// Modulus of rupture: the bending stress at which unreinforced concrete of that compressive strength cracks.
/// It is published as 7.5 √f′c in psi and as 0.62 √f′c in MPa, which differ by half a percent; a job takes the
/// one of its own units (ACI 318-19 19.2.3.1, λ = 1).
pub fn modulus_of_rupture(strength: Pressure, units: Units) -> Pressure {
    match units {
        Units::Inch => root(7.5, strength, psi(1.0)),
        Units::Metric => root(0.62, strength, megapascal()),
    }
}

/// Modulus of elasticity of concrete of usual weight, about 144 lb/ft³ (ACI 318-19 19.2.2.1(b)).
pub fn stiffness_of_usual(strength: Pressure, units: Units) -> Pressure {
    match units {
        Units::Inch => root(57_000.0, strength, psi(1.0)),
        Units::Metric => root(4700.0, strength, megapascal()),
    }
}

/// Modulus of elasticity by density (ACI 318-19 19.2.2.1(a)). Nothing outside 90 to 160 lb/ft³, where the
/// formula does not hold.
pub fn stiffness_by_density(strength: Pressure, density: MassDensity, units: Units) -> Option<Pressure> {
    let (least, most) = (pounds_a_cubic_foot(90.0), pounds_a_cubic_foot(160.0));
    if !(density >= least && density <= most) {
        return None;
    }
    let pcf = (density / pounds_a_cubic_foot(1.0)).value;
    Some(match units {
        Units::Inch => root(33.0 * pcf * pcf.sqrt(), strength, psi(1.0)),
        Units::Metric => root(0.043 * density.value * density.value.sqrt(), strength, megapascal()),
    })
}

impl Concrete {
    /// The bending stress at which it cracks: as typed, or the modulus of rupture.
    pub fn rupture_stress(&self, units: Units) -> Pressure {
        self.flexural.unwrap_or_else(|| modulus_of_rupture(self.strength, units))
    }

    /// The same, with its working.
    pub fn rupture(&self, units: Units) -> Figure<Pressure> {
        let working = Working::new("Bending stress at which it cracks");
        let rupture = self.rupture_stress(units);
        if self.flexural.is_some() {
            let said = written::pressure(rupture, units);
            return working.line("flexural strength at that age", "", said, Source::Typed).of(rupture);
        }
        let factor = if units == Units::Inch { "7.5" } else { "0.62" };
        working
            .line(
                "modulus of rupture, by f′c at that age",
                format!("{factor} × √{}", written::pressure(self.strength, units)),
                written::pressure(rupture, units),
                limits::RUPTURE,
            )
            .of(rupture)
    }

    /// The bending stress that is allowed.
    pub fn allowable_stress(&self, units: Units) -> Pressure {
        self.rupture_stress(units) / limits::CRACKING_MARGIN
    }

    /// The same, with its working.
    pub fn allowable(&self, units: Units) -> Figure<Pressure> {
        let rupture = self.rupture(units);
        let allowable = self.allowable_stress(units);
        Working::new("Bending stress that is allowed")
            .after(&rupture.working)
            .line(
                "bending stress at which it cracks ÷ 1.5",
                format!("{} ÷ {}", written::pressure(rupture.value, units), limits::CRACKING_MARGIN),
                written::pressure(allowable, units),
                limits::ALLOWABLE,
            )
            .of(allowable)
    }

    /// The compressive strength at which that bending stress would be allowed, by the modulus of rupture.
    pub fn strength_to_allow(stress: Pressure, units: Units) -> Pressure {
        let (factor, unit) = match units {
            Units::Inch => (7.5, psi(1.0)),
            Units::Metric => (0.62, megapascal()),
        };
        let root = (stress * limits::CRACKING_MARGIN / unit).value / factor;
        root * root * unit
    }

    /// Modulus of elasticity: by density where the formula holds, else as of usual weight.
    pub fn modulus(&self, units: Units) -> Pressure {
        let by_density = stiffness_by_density(self.strength, self.density, units);
        by_density.unwrap_or_else(|| stiffness_of_usual(self.strength, units))
    }

    /// The same, with its working.
    pub fn stiffness(&self, units: Units) -> Figure<Pressure> {
        let working = Working::new("Stiffness of the concrete");
        let strength = written::pressure(self.strength, units);
        match stiffness_by_density(self.strength, self.density, units) {
            Some(stiffness) => {
                let factor = if units == Units::Inch { "33" } else { "0.043" };
                let numbers = format!("{factor} × ({})^1.5 × √{strength}", write_density(self.density, units));
                let said = written::stiffness(stiffness, units);
                working.line("by density and f′c", numbers, said, limits::STIFFNESS_BY_DENSITY).of(stiffness)
            }
            None => {
                let stiffness = stiffness_of_usual(self.strength, units);
                let factor = if units == Units::Inch { "57,000" } else { "4700" };
                let numbers = format!("{factor} × √{strength}");
                let said = written::stiffness(stiffness, units);
                working.line("as of usual weight, by f′c", numbers, said, limits::STIFFNESS_USUAL).of(stiffness)
            }
        }
    }
}
