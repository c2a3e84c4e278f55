//! Setting: what the cabinet carries, and the adhesive and caulk it takes.

use crate::carry::limits;
use crate::measure::exact::in_inches;
use crate::measure::{Area, COUNT_TOLERANCE, Dose, Length, Mass, Quantity, Units, Volume, write_number};
use crate::working::{Figure, Label, Named, Source, Term, quarter_pi};
use uom::si::f64::{ArealMassDensity, LinearMassDensity};
use uom::si::length::{meter, millimeter};

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

/// What a top of that weight puts on its cabinet: over its area, and along the rails, all lengths together,
/// taken as sharing it evenly. `None` unless all are over zero.
pub fn load(weight: Mass, area: Area, rails: &[Length]) -> Option<Load> {
    let along: Length = rails.iter().copied().sum();
    let over = weight.named("weight") / area.named("area");
    let rail = weight.named("weight") / Term::named_as(along, "rails together", Quantity::Feet(along));
    let load = Load {
        area: over.titled("Load over the area", Source::Arithmetic),
        rail: rail.titled("Load along the rails", Source::Arithmetic),
    };
    let numbers = [weight.value, area.value, along.value, load.area.value.value, load.rail.value.value];
    positive(&numbers).then_some(load)
}

/// The dabs on one rail: one at each end, and none further apart than the spacing. None unless both are over
/// zero, or past counting.
fn dabs_on(rail: Length, spacing: Length) -> Option<u32> {
    let gaps = (rail / spacing).value;
    if !positive(&[rail.value, spacing.value, gaps]) || gaps > limits::MOST_COUNTED {
        return None;
    }
    Some((gaps * (1.0 - COUNT_TOLERANCE)).ceil() as u32 + 1)
}

/// The adhesive for dabs on every rail. `None` where a size is not over zero, or there are past counting.
pub fn adhesive(rails: &[Length], dabs: &Dabs) -> Option<Cartridges> {
    let mut count = 0u32;
    for rail in rails {
        count = count.checked_add(dabs_on(*rail, dabs.spacing)?)?;
    }
    let along: Length = rails.iter().copied().sum();
    let counted = Label::with(
        "dabs on {} of rail, one at each end and one every {}",
        [Quantity::Feet(along), Quantity::Length(dabs.spacing)],
    );
    let counted = Term::stated_as((), counted, Quantity::Count(count, "dab", "dabs"), Source::Practice);
    let diameter = dabs.diameter.named("diameter");
    let one = quarter_pi() * diameter.clone() * diameter * dabs.height.named("height");
    let volume = one.with_lines_of(&counted) * f64::from(count).named("dabs");
    if !positive(&[dabs.diameter.value, dabs.height.value, volume.value.value]) {
        return None;
    }
    cartridges(volume, "Adhesive")
}

/// The caulk for every gap. `None` where a size is not over zero, or there is no gap.
pub fn caulk(gaps: &[Gap]) -> Option<Cartridges> {
    let sound = |gap: &Gap| positive(&[gap.length.value, gap.width.value, gap.depth.value]);
    if !gaps.iter().all(sound) {
        return None;
    }
    let volumes = gaps.iter().zip(1u32..).map(|(gap, number)| {
        let length = Term::named_as(gap.length, "length", Quantity::Feet(gap.length));
        let volume = length * fine(gap.width, "width") * fine(gap.depth, "depth");
        let written = Quantity::Dose(Dose::Volume(volume.value));
        volume.step_as(Label::with("gap {}", [Quantity::Number(number.into(), 0)]), written, Source::Arithmetic)
    });
    cartridges(Term::sum(volumes), "Caulk")
}

/// The size of a gap, written finer than a tape reads.
fn fine(length: Length, name: &'static str) -> Term<Length> {
    let write = |si: f64, units| {
        let length = Length::new::<meter>(si);
        match units {
            Units::Inch => write_number(in_inches(length), 3) + " in",
            Units::Metric => write_number(length.get::<millimeter>(), 1) + " mm",
        }
    };
    Term::named_as(length, name, Quantity::other(length.value, write))
}

/// The cartridges that a volume of that title takes. `None` unless it is over zero, or past counting.
fn cartridges(volume: Term<Volume>, title: &'static str) -> Option<Cartridges> {
    let write = |volume| Quantity::Dose(Dose::Volume(volume));
    let squeezed = write(volume.value);
    let volume = volume.titled_as(title, squeezed.clone(), Source::Arithmetic);
    let one = Term::named_as(limits::cartridge(), "what a cartridge holds", write(limits::cartridge()));
    let share = (volume.term_as(squeezed) / one).number();
    if !positive(&[share.value]) || share.value > limits::MOST_COUNTED {
        return None;
    }
    let whole = (share.value * (1.0 - COUNT_TOLERANCE)).ceil() as u32;
    let written = Quantity::Number(share.value, 2);
    Some(Cartridges { volume, share: share.titled_as("Cartridges", written, Source::Practice), whole })
}
