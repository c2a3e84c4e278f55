//! A rectangular section with one layer of steel: what it bears before and after it cracks.
//!
//! After cracking it is worked out by strain compatibility with the stress block of ACI 318. Steel at mid-depth
//! of a thin section does not always reach its yield strength before the concrete crushes; then it is taken at
//! the stress that it does reach.

use super::concrete::Concrete;
use super::limits;
use crate::measure::exact::{inches, psi};
use crate::measure::{Area, Length, Pressure, Quantity, Units, write_number};
use crate::working::{Figure, Label, Named, Part, Source, Term};
use uom::si::f64::Torque;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::torque::newton_meter;

/// Steel at one depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Its area that counts.
    pub area: Area,
    /// Depth of its centre under the compressed face.
    pub depth: Length,
    /// Its modulus of elasticity.
    pub stiffness: Pressure,
    /// Its yield strength.
    pub yields_at: Pressure,
}

/// A rectangle of concrete with a layer of steel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Across the span.
    pub width: Length,
    /// In the direction of the load: the thickness of a slab.
    pub height: Length,
    /// Its steel.
    pub steel: Layer,
}

/// Why a section cannot be worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SectionError {
    /// A size, a strength or a stiffness is nothing, negative or not finite.
    NoSize,
    /// The steel lies outside the concrete.
    SteelOutside,
}

/// What it bears just before it cracks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncracked {
    /// The concrete alone.
    pub plain: Torque,
    /// With the steel, by the transformed section.
    pub with_steel: Torque,
}

impl Uncracked {
    /// The share that the steel adds.
    pub fn gain(&self) -> f64 {
        (self.with_steel / self.plain).value - 1.0
    }
}

/// What it bears once cracked, when the concrete crushes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cracked {
    /// Depth of the stress block, a.
    pub block: Length,
    /// Depth of the neutral axis, c.
    pub neutral_axis: Length,
    /// Strain of the steel.
    pub steel_strain: f64,
    /// Stress of the steel.
    pub steel_stress: Pressure,
    /// The steel reaches its yield strength.
    pub yields: bool,
    /// The moment, without a strength reduction factor.
    pub moment: Torque,
}

/// Both numbers of a section, before and after cracking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacity {
    /// Just before it cracks.
    pub uncracked: Uncracked,
    /// Once cracked.
    pub cracked: Cracked,
}

/// Depth of the stress block over that of the neutral axis, β₁ (ACI 318-19 Table 22.2.2.4.3).
pub fn block_share(strength: Pressure) -> f64 {
    let psi = (strength / psi(1.0)).value;
    (0.85 - 0.05 * (psi - 4000.0) / 1000.0).clamp(0.65, 0.85)
}

impl Section {
    fn check(&self, concrete: &[Pressure]) -> Result<(), SectionError> {
        let steel = &self.steel;
        let sizes = [self.width.value, self.height.value, steel.area.value, steel.depth.value];
        let stresses = concrete.iter().chain([&steel.stiffness, &steel.yields_at]).map(|stress| stress.value);
        if !sizes.into_iter().chain(stresses).all(|size| size > 0.0 && size.is_finite()) {
            return Err(SectionError::NoSize);
        }
        if steel.depth < self.height { Ok(()) } else { Err(SectionError::SteelOutside) }
    }

    /// What it bears when its tensile face reaches that stress.
    ///
    /// # Errors
    /// Sizes that make no section.
    pub fn uncracked(&self, rupture: Pressure, stiffness: Pressure) -> Result<Uncracked, SectionError> {
        self.check(&[rupture, stiffness])?;
        let (width, height, depth) = (self.width.value, self.height.value, self.steel.depth.value);
        let plain = rupture.value * width * height * height / 6.0;
        // Steel counts as so much more concrete in its place.
        let extra = ((self.steel.stiffness / stiffness).value - 1.0) * self.steel.area.value;
        let area = width * height + extra;
        let axis = (width * height * height / 2.0 + extra * depth) / area;
        let inertia = width * height.powi(3) / 12.0
            + width * height * (axis - height / 2.0).powi(2)
            + extra * (depth - axis).powi(2);
        let with_steel = rupture.value * inertia / (height - axis);
        Ok(Uncracked { plain: Torque::new::<newton_meter>(plain), with_steel: Torque::new::<newton_meter>(with_steel) })
    }

    /// What it bears once cracked, of concrete of that compressive strength.
    ///
    /// # Errors
    /// Sizes that make no section.
    pub fn cracked(&self, strength: Pressure) -> Result<Cracked, SectionError> {
        self.check(&[strength])?;
        let (area, depth) = (self.steel.area.value, self.steel.depth.value);
        let share = block_share(strength);
        // Compression for each metre of the neutral axis' depth.
        let compression = 0.85 * strength.value * share * self.width.value;
        let yielding = area * self.steel.yields_at.value / compression;
        let yield_strain = (self.steel.yields_at / self.steel.stiffness).value;
        let strain_at = |axis: f64| limits::CRUSHING_STRAIN * (depth - axis) / axis;
        let yields = strain_at(yielding) >= yield_strain;
        let axis = if yields {
            yielding
        } else {
            // compression × c² = As Es 0.003 (d − c), its positive root.
            let elastic = area * self.steel.stiffness.value * limits::CRUSHING_STRAIN;
            2.0 * elastic * depth / (elastic + (elastic * elastic + 4.0 * compression * elastic * depth).sqrt())
        };
        let steel_strain = strain_at(axis);
        let steel_stress =
            if yields { self.steel.yields_at } else { Pressure::new::<pascal>(compression * axis / area) };
        let block = share * axis;
        Ok(Cracked {
            block: Length::new::<meter>(block),
            neutral_axis: Length::new::<meter>(axis),
            steel_strain,
            steel_stress,
            yields,
            moment: Torque::new::<newton_meter>(compression * axis * (depth - block / 2.0)),
        })
    }

    /// Depth of the neutral axis and moment of inertia (m⁴) once cracked, while everything is still elastic.
    ///
    /// # Errors
    /// Sizes that make no section.
    pub fn cracked_elastic(&self, stiffness: Pressure) -> Result<(Length, f64), SectionError> {
        self.check(&[stiffness])?;
        let (width, depth) = (self.width.value, self.steel.depth.value);
        let steel = (self.steel.stiffness / stiffness).value * self.steel.area.value;
        let share = steel / (width * depth);
        let axis = depth * ((share * share + 2.0 * share).sqrt() - share);
        let inertia = width * axis.powi(3) / 3.0 + steel * (depth - axis).powi(2);
        Ok((Length::new::<meter>(axis), inertia))
    }

    /// What it bears before and after it cracks, with the working: steel keeps a cracked strip in one piece and
    /// hardly delays the crack, and both numbers say so.
    ///
    /// # Errors
    /// Sizes that make no section.
    pub fn capacity(&self, concrete: &Concrete, units: Units) -> Result<Figure<Capacity>, SectionError> {
        let (rupture, stiffness) = (concrete.rupture(units), concrete.stiffness(units));
        let uncracked = self.uncracked(rupture.value, stiffness.value)?;
        let cracked = self.cracked(concrete.strength)?;
        let size = [self.width.named("width").into(), self.height.named("thickness").into()];
        let plain = Term::rule(
            "{} × {} × ({})² ÷ 6",
            [Part::from(rupture.term())].into_iter().chain(size),
            |parts| parts[0] * parts[1] * parts[2] * parts[2] / 6.0,
            uncracked.plain,
        )
        .step("cracking, concrete alone", Source::Arithmetic)
        .called("the concrete alone");
        let stiff = stiffness.term_as(Quantity::Stiffness(stiffness.value));
        let stiff = stiff.called_as("that of the concrete", Quantity::Stiffness(stiffness.value));
        let with_steel = Term::found(
            "{} and the steel, which counts by its own stiffness over {}",
            [plain.into(), stiff.into()],
            uncracked.with_steel,
        );
        let gain = Quantity::Percent(uncracked.gain().abs());
        let more = if uncracked.gain() < 0.0 {
            Label::with("cracking, with the steel: {} less", [gain])
        } else {
            Label::with("cracking, with the steel: {} more", [gain])
        };
        let with_steel = with_steel.step(more, Source::Arithmetic);
        let axis = Term::named_as(cracked.neutral_axis, "so", Quantity::SmallLength(cracked.neutral_axis));
        let reached = if cracked.yields {
            "stress that the steel reaches; it yields"
        } else {
            "stress that the steel reaches; it does not yield before the concrete crushes"
        };
        let stress =
            Term::found("strains in balance about a neutral axis {} deep", [axis.into()], cracked.steel_stress)
                .with_lines_of(&with_steel)
                .step(reached, limits::STRESS_BLOCK)
                .called("stress of the steel");
        let area = Term::named_as(self.steel.area, "its area", Quantity::other(self.steel.area.value, small_area));
        let depth = self.steel.depth.named("its depth");
        let block = Term::named_as(cracked.block, "depth of the stress block", Quantity::SmallLength(cracked.block));
        let moment = Term::rule(
            "{} × {} × ({} − {} ÷ 2)",
            [stress.into(), area.into(), depth.into(), block.into()],
            |parts| parts[0] * parts[1] * (parts[2] - parts[3] / 2.0),
            cracked.moment,
        );
        let (title, bears) = ("Bending that the strip bears", Quantity::Moment(cracked.moment));
        Ok(moment.concluded(Capacity { uncracked, cracked }, title, bears, limits::STRESS_BLOCK))
    }
}

/// The stress at the faces of a rectangular section under a bending moment: 6 × moment ÷ (width × thickness²).
pub(super) fn face_stress(moment: Term<Torque>, width: Term<Length>, thickness: Term<Length>) -> Term<Pressure> {
    let (over, wide, thick) = (moment.value.value.abs(), width.value.value, thickness.value.value);
    let stress = Pressure::new::<pascal>(6.0 * over / (wide * thick * thick));
    Term::rule(
        "6 × {} ÷ ({} × ({})²)",
        [moment.into(), width.into(), thickness.into()],
        |parts| 6.0 * parts[0].abs() / (parts[1] * parts[2] * parts[2]),
        stress,
    )
}

/// The area of a bar: "0.2 in²", "129 mm²".
fn small_area(square_metres: f64, units: Units) -> String {
    match units {
        Units::Inch => write_number(square_metres / (inches(1.0) * inches(1.0)).value, 3) + " in²",
        Units::Metric => write_number(square_metres * 1e6, 0) + " mm²",
    }
}
