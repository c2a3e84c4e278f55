//! Pinholes and cracks, filled with what the piece was cast from.

use super::{not_negative, positive};
use crate::finish::limits;
use crate::measure::Dose;
use crate::measure::{
    Length, Mass, MassDensity, Units, Volume, write_density, write_dose, write_mass, write_number, write_percent,
};
use crate::working::{Figure, Source, Working};

/// What has to be filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Defect {
    /// A crack of that length, width and depth.
    Crack {
        /// Along it.
        length: Length,
        /// Across it.
        width: Length,
        /// Into the face.
        depth: Length,
    },
    /// So many pinholes of one size, taken as cylinders: a little more than they are.
    Pinholes {
        /// How many.
        count: u32,
        /// Across one.
        diameter: Length,
        /// Into the face.
        depth: Length,
    },
}

/// What the slurry is made of, by the pour's own proportions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FillMix {
    /// Water to cement by mass, as in the pour.
    pub water_ratio: f64,
    /// Pigment to cement by mass, as in the pour.
    pub pigment: f64,
    /// Density of the pigment's own grains, by its data sheet; it takes part where there is pigment.
    pub pigment_density: MassDensity,
    /// What is mixed beyond what the holes take, as a share: most of it stays on the trowel.
    pub spare: f64,
}

/// The slurry for a face.
#[derive(Clone, Debug, PartialEq)]
pub struct Filling {
    /// What the holes take.
    pub volume: Figure<Volume>,
    /// Cement to weigh out, spare included.
    pub cement: Figure<Mass>,
    /// Water, spare included.
    pub water: Figure<Mass>,
    /// Pigment, spare included.
    pub pigment: Figure<Mass>,
}

impl Defect {
    /// What fills it; None unless all its sizes are numbers that are not under zero.
    pub fn volume(&self) -> Option<Volume> {
        let volume = match *self {
            Self::Crack { length, width, depth } => {
                let sizes = [length.value, width.value, depth.value];
                not_negative(&sizes).then(|| length * width * depth)
            }
            Self::Pinholes { count, diameter, depth } => not_negative(&[diameter.value, depth.value])
                .then(|| std::f64::consts::FRAC_PI_4 * f64::from(count) * diameter * diameter * depth),
        }?;
        volume.value.is_finite().then_some(volume)
    }

    fn words(&self, units: Units) -> String {
        let fine = |length: Length| match units {
            Units::Inch => write_number(crate::measure::exact::in_inches(length), 3) + " in",
            Units::Metric => write_number(length.get::<uom::si::length::millimeter>(), 2) + " mm",
        };
        match *self {
            Self::Crack { length, width, depth } => format!("{} × {} × {}", fine(length), fine(width), fine(depth)),
            Self::Pinholes { count, diameter, depth } => {
                format!("{count} × π/4 × ({})² × {}", fine(diameter), fine(depth))
            }
        }
    }
}

/// The slurry that fills all of it: the same cement and pigment as the pour and its own water ratio, by
/// absolute volume. `None` where a size or a proportion is no number or under zero, the pigment is over all
/// measure, or there is nothing to fill.
pub fn fill_slurry(defects: &[Defect], mix: &FillMix, units: Units) -> Option<Filling> {
    let mut working = Working::new("What the holes take");
    let mut volume = Volume::default();
    for defect in defects {
        let own = defect.volume()?;
        volume += own;
        let formula = match defect {
            Defect::Crack { .. } => "crack: length × width × depth",
            Defect::Pinholes { .. } => "pinholes: count × π/4 × diameter² × depth",
        };
        let written = write_dose(Dose::Volume(own), units);
        working = working.line(formula, defect.words(units), written, Source::Arithmetic);
    }
    let proportions = [mix.water_ratio, mix.pigment, mix.spare];
    let pigment_known = mix.pigment == 0.0 || positive(&[mix.pigment_density.value]);
    if !positive(&[volume.value]) || !not_negative(&proportions) || mix.pigment > 1.0 || !pigment_known {
        return None;
    }
    let volume = working.sum(write_dose(Dose::Volume(volume), units)).of(volume);

    let water_density = crate::mix::limits::water_density();
    let cement_density = water_density * limits::CEMENT_GRAVITY;
    let mut of_unit_mass = cement_density.recip() + mix.water_ratio * water_density.recip();
    if mix.pigment > 0.0 {
        of_unit_mass += mix.pigment * mix.pigment_density.recip();
    }
    let mixed = volume.value * (1.0 + mix.spare);
    let cement: Mass = mixed / of_unit_mass;
    let weighed = |title: &'static str, formula: &str, numbers: String, mass: Mass, source: Source| {
        Working::new(title).line(formula, numbers, write_mass(mass, units), source).of(mass)
    };
    let yielded = cement / mixed;
    let mut working = Working::new("Cement for the slurry")
        .after(&volume.working)
        .line(
            "cement in the slurry: 1 ÷ (1 ÷ its density + water ratio ÷ density of water + pigment ÷ its density)",
            format!(
                "{} and {}, water ratio {}, pigment {}",
                write_density(cement_density, units),
                write_density(water_density, units),
                write_number(mix.water_ratio, 3),
                write_percent(mix.pigment)
            ),
            write_density(yielded, units),
            Source::Standard("ACI 211.1: absolute volume; cement 3.15 times water"),
        )
        .line(
            "what the holes take × (1 + spare) × that",
            format!(
                "{} × {} × {}",
                write_dose(Dose::Volume(volume.value), units),
                write_number(1.0 + mix.spare, 3),
                write_density(yielded, units)
            ),
            write_mass(cement, units),
            Source::Arithmetic,
        );
    if mix.pigment > crate::mix::limits::PIGMENT_MOST {
        let most = write_percent(crate::mix::limits::PIGMENT_MOST);
        working = working.line(
            format!("more pigment than {most} weakens it"),
            "",
            write_percent(mix.pigment),
            Source::Practice,
        );
    }
    let cement = working.of(cement);
    let by = |ratio: f64| format!("{} × {}", write_mass(cement.value, units), write_number(ratio, 3));
    let water = cement.value * mix.water_ratio;
    let pigment = cement.value * mix.pigment;
    let water = weighed(
        "Water for the slurry",
        "cement × water ratio of the pour",
        by(mix.water_ratio),
        water,
        Source::Arithmetic,
    );
    let pigment =
        weighed("Pigment for the slurry", "cement × pigment of the pour", by(mix.pigment), pigment, Source::Arithmetic);
    Some(Filling { volume, cement, water, pigment })
}
