//! Pinholes and cracks, filled with what the piece was cast from.

use super::{not_negative, positive};
use crate::finish::limits;
use crate::measure::exact::{in_inches, pounds};
use crate::measure::{Dose, Length, Mass, MassDensity, Quantity, Units, Volume, write_number};
use crate::working::{Figure, Label, Named, Source, Term, quarter_pi};
use uom::si::f64::SpecificVolume;
use uom::si::length::{meter, millimeter};

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
    /// What fills it; nothing unless all its sizes are numbers that are not under zero.
    pub fn volume(&self) -> Option<Volume> {
        Some(self.term()?.value)
    }

    /// The same with its formula.
    fn term(&self) -> Option<Term<Volume>> {
        let (sizes, volume) = match *self {
            Self::Crack { length, width, depth } => {
                let volume = fine(length, "length") * fine(width, "width") * fine(depth, "depth");
                ([length.value, width.value, depth.value], volume)
            }
            Self::Pinholes { count, diameter, depth } => {
                let across = fine(diameter, "diameter");
                let count = f64::from(count).named("count");
                let volume = quarter_pi() * count * across.clone() * across * fine(depth, "depth");
                ([diameter.value, diameter.value, depth.value], volume)
            }
        };
        (not_negative(&sizes) && volume.value.value.is_finite()).then_some(volume)
    }
}

/// A size of what is filled, written finer than a tape reads.
fn fine(length: Length, name: &'static str) -> Term<Length> {
    let write = |si: f64, units| {
        let length = Length::new::<meter>(si);
        match units {
            Units::Inch => write_number(in_inches(length), 3) + " in",
            Units::Metric => write_number(length.get::<millimeter>(), 2) + " mm",
        }
    };
    Term::named_as(length, name, Quantity::other(length.value, write))
}

/// The volume of a slurry to a mass of its cement.
fn to_cement(volume: SpecificVolume) -> Quantity {
    let write = |si: f64, units| match units {
        Units::Inch => write_number(si * pounds(1.0).value / 0.0254_f64.powi(3), 2) + " in³/lb",
        Units::Metric => write_number(si * 1e3, 3) + " L/kg",
    };
    Quantity::other(volume.value, write)
}

/// The slurry that fills all of it: the same cement and pigment as the pour and its own water ratio, by
/// absolute volume. `None` where a size or a proportion is no number or under zero, the pigment is over all
/// measure, or there is nothing to fill.
pub fn fill_slurry(defects: &[Defect], mix: &FillMix) -> Option<Filling> {
    let dose = |volume| Quantity::Dose(Dose::Volume(volume));
    let holes: Option<Vec<_>> = defects.iter().map(Defect::term).collect();
    let holes = holes?.into_iter().zip(defects).zip(1u32..).map(|((volume, defect), number)| {
        let name = match defect {
            Defect::Crack { .. } => "defect {}, a crack",
            Defect::Pinholes { .. } => "defect {}, pinholes",
        };
        let written = dose(volume.value);
        volume.step_as(Label::with(name, [Quantity::Number(number.into(), 0)]), written, Source::Arithmetic)
    });
    let volume = Term::sum(holes);
    let proportions = [mix.water_ratio, mix.pigment, mix.spare];
    let pigment_known = mix.pigment == 0.0 || positive(&[mix.pigment_density.value]);
    if !positive(&[volume.value.value]) || !not_negative(&proportions) || mix.pigment > 1.0 || !pigment_known {
        return None;
    }
    let taken = dose(volume.value);
    let volume = volume.titled_as("What the holes take", taken.clone(), Source::Arithmetic);

    let water_density = crate::mix::limits::water_density();
    let cement_density = water_density * limits::CEMENT_GRAVITY;
    let ratio = || mix.water_ratio.named("water ratio of the pour");
    let pigment_share = || Term::named_as(mix.pigment, "pigment of the pour", Quantity::Percent(mix.pigment));
    let mut of_cement =
        1.0 / cement_density.named("density of cement") + ratio() * (1.0 / water_density.named("density of water"));
    if mix.pigment > 0.0 {
        of_cement = of_cement + pigment_share() * (1.0 / mix.pigment_density.named("density of its grains"));
    }
    let written = to_cement(of_cement.value);
    let absolute = Source::Standard("ACI 211.1: absolute volume; cement 3.15 times water");
    let of_cement = of_cement.step_as("slurry with so much cement", written, absolute);
    let spare = Term::named_as(mix.spare, "spare", Quantity::Percent(mix.spare));
    let mut cement = volume.term_as(taken) * (1.0 + spare) / of_cement;
    let most = crate::mix::limits::PIGMENT_MOST;
    if mix.pigment > most {
        let weakens = Label::with("more pigment than {} weakens it", [Quantity::Percent(most)]);
        let pigment = Term::stated_as(mix.pigment, weakens, Quantity::Percent(mix.pigment), Source::Practice);
        cement = cement.with_lines_of(&pigment);
    }
    let cement = cement.titled("Cement for the slurry", Source::Arithmetic);
    let weighed = || cement.called("cement");
    let water = (weighed() * ratio()).titled("Water for the slurry", Source::Arithmetic);
    let pigment = (weighed() * pigment_share()).titled("Pigment for the slurry", Source::Arithmetic);
    Some(Filling { volume, cement, water, pigment })
}
