//! How much of the aggregate shows, and what grinding it takes off.

use super::{not_negative, positive};
use crate::finish::limits;
pub use crate::job::Exposure;
use crate::measure::exact::in_inches;
use crate::measure::{Area, Length, Mass, MassDensity, Quantity, Units, Volume, write_cut, write_number};
use crate::working::{Figure, Named, Source, Term};
use uom::si::length::{meter, millimeter};

/// What grinding takes off.
#[derive(Clone, Debug, PartialEq)]
pub struct Removed {
    /// Off the face, as it lay there.
    pub volume: Figure<Volume>,
    /// As dry dust.
    pub mass: Figure<Mass>,
}

impl Exposure {
    /// What is ground off the face; the piece is cast thicker by it. Common practice.
    pub fn depth(self) -> Length {
        match self {
            Self::Cream => Length::default(),
            Self::Sand => limits::sand_depth(),
            Self::Medium => limits::medium_depth(),
            Self::Full => limits::full_depth(),
        }
    }

    /// The same as a maker types it, and no less: the tape's sixteenths are too coarse for it.
    pub fn depth_text(self, units: Units) -> String {
        match units {
            _ if self == Self::Cream => "0".to_owned(),
            Units::Inch => write_cut(self.depth(), units).bare().to_owned(),
            Units::Metric => write_number((self.depth().get::<millimeter>() * 10.0).ceil() / 10.0, 1),
        }
    }

    /// The most that grinding so deep exposes.
    pub fn reached(depth: Length) -> Self {
        let deep_enough = |exposure: &Self| depth + crate::measure::geometry_tolerance() >= exposure.depth();
        Self::ALL.into_iter().rfind(deep_enough).unwrap_or(Self::Cream)
    }
}

/// A depth of grinding, written finer than a tape reads.
fn written_depth(depth: Length) -> Quantity {
    let write = |si: f64, units| {
        let depth = Length::new::<meter>(si);
        match units {
            Units::Inch => write_number(in_inches(depth), 4) + " in",
            Units::Metric => write_number(depth.get::<millimeter>(), 2) + " mm",
        }
    };
    Quantity::other(depth.value, write)
}

/// What grinding so deep takes off a face of that area, at the density of the hardened concrete.
/// `None` unless area and density are over zero and the depth is not under it.
pub fn removed(face: Area, depth: Length, density: MassDensity) -> Option<Removed> {
    if !positive(&[face.value, density.value]) || !not_negative(&[depth.value]) {
        return None;
    }
    let depth = Term::named_as(depth, "depth ground off", written_depth(depth));
    let volume = (face.named("area") * depth).titled("Ground off the face", Source::Arithmetic);
    let mass = (volume.called("volume") * density.named("density")).titled("Grinding dust", Source::Arithmetic);
    Some(Removed { volume, mass })
}

/// The slurry that wet grinding leaves: the dust and the water that was used, none of it dried off.
/// `None` unless the water is a number that is not under zero.
pub fn slurry(removed: &Removed, water: Volume) -> Option<Figure<Mass>> {
    if !not_negative(&[water.value]) {
        return None;
    }
    let used = Term::named_as(water, "water used", Quantity::Water(water));
    let used = used * crate::mix::limits::water_density().named("density of water");
    let slurry = removed.mass.called("dust") + used.step("mass of the water", crate::mix::limits::WATER);
    Some(slurry.titled("Grinding slurry", Source::Arithmetic))
}
