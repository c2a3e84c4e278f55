//! Setting: what the cabinet carries, and the adhesive and caulk it takes.

use crate::carry::limits;
use crate::measure::exact::{in_inches, in_pounds, inches};
use crate::measure::{
    Area, Dose, Length, Mass, Units, Volume, write_area, write_count, write_dose, write_feet, write_length, write_mass,
    write_number,
};
use crate::working::{Figure, Source, Working};
use uom::si::f64::{ArealMassDensity, LinearMassDensity};

/// What a top puts on its cabinet.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// Over its whole area.
    pub area: Figure<ArealMassDensity>,
    /// Along all rails that it rests on.
    pub rail: Figure<LinearMassDensity>,
}

/// Dabs of adhesive on the rails.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dabs {
    /// From one to the next.
    pub spacing: Length,
    /// Across one, squeezed.
    pub diameter: Length,
    /// As high as one is, squeezed.
    pub height: Length,
}

/// A gap to be caulked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Along the wall.
    pub length: Length,
    /// As wide as it is there, on average.
    pub width: Length,
    /// As deep as the bead goes in.
    pub depth: Length,
}

/// What comes out of cartridges.
#[derive(Clone, Debug, PartialEq)]
pub struct Cartridges {
    /// What is squeezed out.
    pub volume: Figure<Volume>,
    /// Cartridges, as a broken number: the share used up.
    pub share: Figure<f64>,
    /// Cartridges to have at hand.
    pub whole: u32,
}

fn positive(values: &[f64]) -> bool {
    values.iter().all(|value| value.is_finite() && *value > 0.0)
}

fn write_areal(load: ArealMassDensity, units: Units) -> String {
    match units {
        Units::Inch => {
            let foot = inches(12.0);
            write_number(in_pounds(load * foot * foot), 1) + " lb/ft²"
        }
        Units::Metric => write_number(load.value, 0) + " kg/m²",
    }
}

fn write_linear(load: LinearMassDensity, units: Units) -> String {
    match units {
        Units::Inch => write_number(in_pounds(load * inches(12.0)), 1) + " lb/ft",
        Units::Metric => write_number(load.value, 1) + " kg/m",
    }
}

/// What a top of that weight puts on its cabinet: over its area, and along the rails, all lengths together,
/// taken as sharing it evenly. `None` unless all are over zero.
pub fn load(weight: Mass, area: Area, rails: &[Length], units: Units) -> Option<Load> {
    let along: Length = rails.iter().copied().sum();
    let over: ArealMassDensity = weight / area;
    let rail: LinearMassDensity = weight / along;
    if !positive(&[weight.value, area.value, along.value, over.value, rail.value]) {
        return None;
    }
    let line = |title: &'static str, formula: &str, numbers: String, result: String| {
        Working::new(title).line(formula, numbers, result, Source::Arithmetic)
    };
    let numbers = format!("{} ÷ {}", write_mass(weight, units), write_area(area, units));
    let area = line("Load over the area", "weight ÷ area", numbers, write_areal(over, units)).of(over);
    let numbers = format!("{} ÷ {}", write_mass(weight, units), write_feet(along, units));
    let rail = line("Load along the rails", "weight ÷ rails together", numbers, write_linear(rail, units)).of(rail);
    Some(Load { area, rail })
}

/// The dabs on one rail: one at each end, and none further apart than the spacing. None unless both are over
/// zero, or past counting.
fn dabs_on(rail: Length, spacing: Length) -> Option<u32> {
    let gaps = (rail / spacing).value;
    if !positive(&[rail.value, spacing.value, gaps]) || gaps > limits::MOST_COUNTED {
        return None;
    }
    Some((gaps * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() as u32 + 1)
}

/// The adhesive for dabs on every rail. `None` where a size is not over zero, or there are past counting.
pub fn adhesive(rails: &[Length], dabs: &Dabs, units: Units) -> Option<Cartridges> {
    let mut count = 0u32;
    for rail in rails {
        count = count.checked_add(dabs_on(*rail, dabs.spacing)?)?;
    }
    let one = std::f64::consts::FRAC_PI_4 * dabs.diameter * dabs.diameter * dabs.height;
    let volume = one * f64::from(count);
    if !positive(&[dabs.diameter.value, dabs.height.value, volume.value]) {
        return None;
    }
    let along: Length = rails.iter().copied().sum();
    let working = Working::new("Adhesive")
        .line(
            "dabs: one at each end of a rail, and between",
            format!("{} of rail, every {}", write_feet(along, units), write_length(dabs.spacing, units)),
            write_count(count, "dab", "dabs"),
            Source::Practice,
        )
        .line(
            "dabs × π/4 × diameter² × height",
            format!("{count} × π/4 × ({})² × {}", write_length(dabs.diameter, units), write_length(dabs.height, units)),
            write_dose(Dose::Volume(volume), units),
            Source::Arithmetic,
        );
    cartridges(working.of(volume), units)
}

/// The caulk for every gap. `None` where a size is not over zero, or there is no gap.
pub fn caulk(gaps: &[Gap], units: Units) -> Option<Cartridges> {
    let mut working = Working::new("Caulk");
    let mut volume = Volume::default();
    for gap in gaps {
        if !positive(&[gap.length.value, gap.width.value, gap.depth.value]) {
            return None;
        }
        let own = gap.length * gap.width * gap.depth;
        volume += own;
        working = working.line(
            "gap: length × width × depth",
            format!("{} × {} × {}", write_feet(gap.length, units), fine(gap.width, units), fine(gap.depth, units)),
            write_dose(Dose::Volume(own), units),
            Source::Arithmetic,
        );
    }
    cartridges(working.sum(write_dose(Dose::Volume(volume), units)).of(volume), units)
}

/// A gap, finer than the tape.
fn fine(length: Length, units: Units) -> String {
    match units {
        Units::Inch => write_number(in_inches(length), 3) + " in",
        Units::Metric => write_number(length.get::<uom::si::length::millimeter>(), 1) + " mm",
    }
}

fn cartridges(volume: Figure<Volume>, units: Units) -> Option<Cartridges> {
    let share = (volume.value / limits::cartridge()).value;
    if !positive(&[share]) || share > limits::MOST_COUNTED {
        return None;
    }
    let write = |volume| write_dose(Dose::Volume(volume), units);
    let share = Working::new("Cartridges")
        .after(&volume.working)
        .line(
            "volume ÷ what a cartridge holds",
            format!("{} ÷ {}", write(volume.value), write(limits::cartridge())),
            write_number(share, 2),
            Source::Practice,
        )
        .of(share);
    let whole = (share.value * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() as u32;
    Some(Cartridges { volume, share, whole })
}
