//! Hardened concrete of one age: what it bears in bending, and how stiff it is.

use super::limits;
use crate::measure::exact::{pounds_a_cubic_foot, psi};
use crate::measure::{MassDensity, Pressure, Quantity, Units};
use crate::working::{Figure, Named, Source, Term};
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

/// The unit of pressure that rules are published in.
fn unit_of_rules(units: Units) -> Pressure {
    match units {
        Units::Inch => psi(1.0),
        Units::Metric => Pressure::new::<pascal>(1e6),
    }
}

/// Times the square root of a strength, both in the unit of the rules.
fn root(factor: f64, strength: Pressure, units: Units) -> Pressure {
    let unit = unit_of_rules(units);
    factor * (strength / unit).value.sqrt() * unit
}

/// The square root of a strength in the unit of the rules, as a part of a formula.
fn root_of(strength: Pressure, units: Units) -> Term<Pressure> {
    let rule: fn(&[f64]) -> f64 = match units {
        Units::Inch => |parts| root(1.0, Pressure::new::<pascal>(parts[0]), Units::Inch).value,
        Units::Metric => |parts| root(1.0, Pressure::new::<pascal>(parts[0]), Units::Metric).value,
    };
    strength.named("f′c at that age").by_rule("√{}", rule, root(1.0, strength, units))
}

/// What the root of f′c is multiplied by for the modulus of rupture.
fn rupture_factor(units: Units) -> f64 {
    match units {
        Units::Inch => 7.5,
        Units::Metric => 0.62,
    }
}

/// What the root of f′c is multiplied by for the modulus of elasticity of concrete of usual weight.
fn usual_factor(units: Units) -> f64 {
    match units {
        Units::Inch => 57_000.0,
        Units::Metric => 4700.0,
    }
}

/// The same by density, beside the density to the power of 1.5.
fn density_factor(units: Units) -> f64 {
    match units {
        Units::Inch => 33.0,
        Units::Metric => 0.043,
    }
}

/// Modulus of rupture: the bending stress at which unreinforced concrete of that compressive strength cracks.
/// It is published as 7.5 √f′c in psi and as 0.62 √f′c in MPa, which differ by half a percent; a job takes the
/// one of its own units (ACI 318-19 19.2.3.1, λ = 1).
pub fn modulus_of_rupture(strength: Pressure, units: Units) -> Pressure {
    root(rupture_factor(units), strength, units)
}

/// Modulus of elasticity of concrete of usual weight, about 144 lb/ft³ (ACI 318-19 19.2.2.1(b)).
pub fn stiffness_of_usual(strength: Pressure, units: Units) -> Pressure {
    root(usual_factor(units), strength, units)
}

/// Modulus of elasticity by density (ACI 318-19 19.2.2.1(a)). Nothing outside 90 to 160 lb/ft³, where the
/// formula does not hold.
pub fn stiffness_by_density(strength: Pressure, density: MassDensity, units: Units) -> Option<Pressure> {
    let (least, most) = (pounds_a_cubic_foot(90.0), pounds_a_cubic_foot(160.0));
    if !(density >= least && density <= most) {
        return None;
    }
    let pcf = (density / pounds_a_cubic_foot(1.0)).value;
    let factor = density_factor(units);
    Some(match units {
        Units::Inch => root(factor * pcf * pcf.sqrt(), strength, units),
        Units::Metric => root(factor * density.value * density.value.sqrt(), strength, units),
    })
}

impl Concrete {
    /// The bending stress at which it cracks: as typed, or the modulus of rupture.
    pub fn rupture_stress(&self, units: Units) -> Pressure {
        self.flexural.unwrap_or_else(|| modulus_of_rupture(self.strength, units))
    }

    /// The same, with its working.
    ///
    /// ```
    /// use pourwright::measure::{Units, exact::{pounds_a_cubic_foot, psi}};
    /// use pourwright::strength::concrete::Concrete;
    ///
    /// let concrete = Concrete { strength: psi(3600.0), flexural: None, density: pounds_a_cubic_foot(145.0) };
    /// let cracks_at = concrete.rupture(Units::Inch);
    /// let line = &cracks_at.working.lines(Units::Inch)[0];
    /// assert_eq!((line.numbers.as_str(), line.result.as_str()), ("7.5 × √3600 psi", "450 psi"));
    /// ```
    pub fn rupture(&self, units: Units) -> Figure<Pressure> {
        let title = "Bending stress at which it cracks";
        if let Some(tested) = self.flexural {
            return tested.stated("flexural strength at that age", Source::Typed).ended(title);
        }
        let rupture = rupture_factor(units) * root_of(self.strength, units);
        rupture.valued(self.rupture_stress(units)).titled(title, limits::RUPTURE)
    }

    /// The bending stress that is allowed.
    pub fn allowable_stress(&self, units: Units) -> Pressure {
        self.rupture_stress(units) / limits::CRACKING_MARGIN
    }

    /// The same, with its working.
    pub fn allowable(&self, units: Units) -> Figure<Pressure> {
        let allowed = self.rupture(units).term() / limits::CRACKING_MARGIN;
        allowed.titled("Bending stress that is allowed", limits::ALLOWABLE)
    }

    /// The compressive strength at which that bending stress would be allowed, by the modulus of rupture.
    pub fn strength_to_allow(stress: Pressure, units: Units) -> Pressure {
        let unit = unit_of_rules(units);
        let root = (stress * limits::CRACKING_MARGIN / unit).value / rupture_factor(units);
        root * root * unit
    }

    /// Modulus of elasticity: by density where the formula holds, else as of usual weight.
    pub fn modulus(&self, units: Units) -> Pressure {
        let by_density = stiffness_by_density(self.strength, self.density, units);
        by_density.unwrap_or_else(|| stiffness_of_usual(self.strength, units))
    }

    /// The same, with its working.
    pub fn stiffness(&self, units: Units) -> Figure<Pressure> {
        let root = root_of(self.strength, units);
        let stiffness = self.modulus(units);
        let (stiff, source) = if stiffness_by_density(self.strength, self.density, units).is_some() {
            // To the power of 1.5, in the unit of the rule.
            let power: fn(&[f64]) -> f64 = match units {
                Units::Inch => |parts| {
                    let count = parts[0] / pounds_a_cubic_foot(1.0).value;
                    count * count.sqrt()
                },
                Units::Metric => |parts| parts[0] * parts[0].sqrt(),
            };
            let density = self.density.named("density").by_rule("({})^1.5", power, power(&[self.density.value]));
            (density_factor(units) * density * root, limits::STIFFNESS_BY_DENSITY)
        } else {
            (usual_factor(units) * root, limits::STIFFNESS_USUAL)
        };
        let written = Quantity::Stiffness(stiffness);
        let stiff = stiff.valued(stiffness);
        stiff.titled_as("Stiffness of the concrete", written, source)
    }
}
