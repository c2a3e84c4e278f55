//! How much of the aggregate shows, and what grinding it takes off.

use super::{not_negative, positive};
use crate::finish::limits;
pub use crate::job::Exposure;
use crate::measure::exact::in_inches;
use crate::measure::{
    Area, Length, Mass, MassDensity, Units, Volume, write_area, write_cut, write_density, write_mass, write_number,
    write_volume, write_water,
};
use crate::working::{Figure, Source, Working};
use uom::si::length::millimeter;

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

/// A depth of grinding: finer than the tape.
fn write_depth(depth: Length, units: Units) -> String {
    match units {
        Units::Inch => write_number(in_inches(depth), 4) + " in",
        Units::Metric => write_number(depth.get::<millimeter>(), 2) + " mm",
    }
}

/// What grinding so deep takes off a face of that area, at the density of the hardened concrete.
/// `None` unless area and density are over zero and the depth is not under it.
pub fn removed(face: Area, depth: Length, density: MassDensity, units: Units) -> Option<Removed> {
    if !positive(&[face.value, density.value]) || !not_negative(&[depth.value]) {
        return None;
    }
    let volume = face * depth;
    let volume = Working::new("Ground off the face")
        .line(
            "area × depth ground off",
            format!("{} × {}", write_area(face, units), write_depth(depth, units)),
            write_volume(volume, units),
            Source::Arithmetic,
        )
        .of(volume);
    let mass = volume.value * density;
    let mass = Working::new("Grinding dust")
        .after(&volume.working)
        .line(
            "volume × density",
            format!("{} × {}", write_volume(volume.value, units), write_density(density, units)),
            write_mass(mass, units),
            Source::Arithmetic,
        )
        .of(mass);
    Some(Removed { volume, mass })
}

/// The slurry that wet grinding leaves: the dust and the water that was used, none of it dried off.
/// `None` unless the water is a number that is not under zero.
pub fn slurry(removed: &Removed, water: Volume, units: Units) -> Option<Figure<Mass>> {
    if !not_negative(&[water.value]) {
        return None;
    }
    let density = crate::mix::limits::water_density();
    let slurry = removed.mass.value + water * density;
    Some(
        Working::new("Grinding slurry")
            .after(&removed.mass.working)
            .line(
                "water used × density of water",
                write_water(water, units).text,
                write_mass(water * density, units),
                crate::mix::limits::WATER,
            )
            .line(
                "dust + water",
                format!("{} + {}", write_mass(removed.mass.value, units), write_mass(water * density, units)),
                write_mass(slurry, units),
                Source::Arithmetic,
            )
            .of(slurry),
    )
}
