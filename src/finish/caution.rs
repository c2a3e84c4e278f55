//! Cautions, where the hands are; and what the silica rule asks of a hand grinder.

use super::{not_negative, positive};
use crate::finish::limits;
use crate::measure::exact::in_cubic_feet;
use crate::measure::{COUNT_TOLERANCE, Length, MassDensity, Quantity, Time, Units, Volume, write_number};
use crate::working::{Figure, Label, Named, Source, Term};
use std::borrow::Cow;
use uom::si::f64::VolumeRate;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_density::microgram_per_cubic_meter;
use uom::si::time::{hour, minute};
use uom::si::volume_rate::cubic_meter_per_second;

/// A step of the work at which something can hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Step {
    /// Mixing, placing and troweling.
    Pour,
    /// Out of the form.
    Strip,
    /// Grinding without water.
    GrindDry,
    /// Grinding with water.
    GrindWet,
    /// Filling pinholes and cracks.
    Fill,
    /// On the way to its place.
    Carry,
}

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Where it stands.
    pub step: Step,
    /// A few words.
    pub title: &'static str,
    /// What to do, in a sentence or two.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
}

const WET_CEMENT: &str = "Gloves and goggles; wash it off at once, and rinse eyes for a long time and see a doctor.";
const GROUND_FAULT: Source = Source::Standard("OSHA 29 CFR 1926.404(b)(1): ground-fault protection; from memory");

static CAUTIONS: [Caution; 8] = [
    Caution { step: Step::Pour, title: "Wet cement burns skin and eyes", says: WET_CEMENT, source: Source::Memory },
    Caution {
        step: Step::Strip,
        title: "Heavy, with sharp edges",
        says: "Gloves and boots; two people turn it over on its long edge.",
        source: Source::Practice,
    },
    Caution {
        step: Step::GrindDry,
        title: "Silica dust scars lungs",
        says: "Grind wet where it can be; else a shroud on the grinder and a collector with enough air. Indoors wear a \
               respirator for all of it, unless the air was measured: the rule for shops (29 CFR 1910.1053, from memory) \
               knows no hours without.",
        source: limits::SILICA_SHOP,
    },
    Caution {
        step: Step::GrindWet,
        title: "Water and power",
        says: "Only on a circuit with ground-fault protection (GFCI).",
        source: GROUND_FAULT,
    },
    Caution {
        step: Step::GrindWet,
        title: "Wet does not mean free of dust",
        says: "The wet way of the construction rule (29 CFR 1926.1153, from memory) is for work outdoors: in a closed \
               garage wear a respirator, or have the air measured. Slurry that dries is dust again: take it up wet.",
        source: limits::SILICA_SHOP,
    },
    Caution { step: Step::Fill, title: "Wet cement burns skin and eyes", says: WET_CEMENT, source: Source::Memory },
    Caution {
        step: Step::Carry,
        title: "A top is heavy and sharp-edged",
        says: "Carry it on edge, never flat; no more weight than the people who came may lift.",
        source: crate::carry::limits::LIFTING,
    },
    Caution {
        step: Step::Carry,
        title: "For planning, not engineering",
        says: "Local codes and a licensed engineer decide anything that carries people or spans a gap.",
        source: Source::Practice,
    },
];

/// The cautions that stand at a step.
pub fn cautions(step: Step) -> impl Iterator<Item = &'static Caution> {
    CAUTIONS.iter().filter(move |caution| caution.step == step)
}

/// What the silica rule asks of a hand grinder with shroud and collector.
#[derive(Clone, Debug, PartialEq)]
pub struct DustControls {
    /// Air that the collector moves, at least.
    pub air: Figure<VolumeRate>,
    /// What its filter holds back, at least: a share.
    pub filter: f64,
    /// The assigned protection factor of the respirator, where one is asked for: for all dry grinding indoors, however
    /// short it is.
    pub respirator: Option<u32>,
    /// What decides on the respirator.
    pub source: Source,
}

impl DustControls {
    /// The respirator, in words.
    pub fn respirator_words(&self) -> String {
        match self.respirator {
            Some(factor) => format!("protection factor {factor}, for all of it"),
            None => "none asked for outdoors, by the construction rule".to_owned(),
        }
    }
}

/// What dry grinding with a wheel of that size asks for, indoors or out, however long it takes.
/// `None` unless the size is over zero.
pub fn dust_controls(wheel: Length, indoors: bool) -> Option<DustControls> {
    let air = limits::shroud_air(wheel);
    if !positive(&[wheel.value]) || !air.value.is_finite() {
        return None;
    }
    // A shop is under the rule for general industry: without measured air no hours are free of a respirator.
    let respirator = indoors.then_some(limits::RESPIRATOR_FACTOR);
    let source = if indoors { limits::SILICA_SHOP } else { limits::SILICA };
    let mut moved = wheel.named("wheel").by_rule(
        "25 ft³/min for each inch of {}",
        |parts| limits::shroud_air(Length::new::<meter>(parts[0])).value,
        air,
    );
    if let Some(factor) = respirator {
        let asked = Quantity::Words(Cow::Owned(format!("protection factor {factor}")));
        moved = moved.with_lines_of(&Term::stated_as((), "indoors, dry: a respirator for all of it", asked, source));
    }
    let written = Quantity::other(air.value, write_air);
    let air = moved.titled_as("Air through the shroud, at least", written, limits::SILICA);
    Some(DustControls { air, filter: limits::SHROUD_FILTER, respirator, source })
}

/// Air in cubic metres a second, as a least amount: whole ft³/min or m³/h, never rounded down.
fn write_air(si: f64, units: Units) -> String {
    // Nor up, where only the last bit is over.
    let up = |count: f64| write_number((count * (1.0 - COUNT_TOLERANCE)).ceil(), 0);
    match units {
        Units::Inch => {
            let a_minute: Volume = VolumeRate::new::<cubic_meter_per_second>(si) * Time::new::<minute>(1.0);
            up(in_cubic_feet(a_minute)) + " ft³/min"
        }
        Units::Metric => up(si * 3600.0) + " m³/h",
    }
}

/// What an average over a shift means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SilicaVerdict {
    /// Under the action level.
    Low,
    /// At the action level or over it: measured again and again.
    Action,
    /// Over the limit: not allowed.
    Over,
}

/// The average of respirable silica over eight hours, from what was in the air for how long; the rest of the
/// shift counts as clean, and a longer one counts in full. `None` where a number is none or under zero.
pub fn eight_hour_average(readings: &[(MassDensity, Time)]) -> Option<(Figure<MassDensity>, SilicaVerdict)> {
    let sound = |(level, time): &(MassDensity, Time)| not_negative(&[level.value, time.value]);
    if !readings.iter().all(sound) {
        return None;
    }
    let shift = Time::new::<hour>(8.0);
    let shares = readings.iter().zip(1u32..).map(|((level, time), number)| {
        let level = Term::named_as(*level, "level", micrograms(*level));
        let share = level * (time.named("time") / shift.named("8 h")).number();
        let written = micrograms(share.value);
        share.step_as(Label::with("reading {}", [Quantity::Number(number.into(), 0)]), written, Source::Arithmetic)
    });
    let average = Term::sum(shares);
    let (found, dust) = (average.value, 1.0 + COUNT_TOLERANCE);
    if !found.value.is_finite() {
        return None;
    }
    let verdict = if found > limits::silica_most() * dust {
        SilicaVerdict::Over
    } else if found * dust >= limits::silica_action() {
        SilicaVerdict::Action
    } else {
        SilicaVerdict::Low
    };
    let average = average.titled_as("Silica in the air, over 8 h", micrograms(found), limits::SILICA_LIMITS);
    Some((average, verdict))
}

/// Dust in the air, in micrograms a cubic metre.
fn micrograms(level: MassDensity) -> Quantity {
    let write = |si: f64, _| {
        let level = MassDensity::new::<kilogram_per_cubic_meter>(si);
        write_number(level.get::<microgram_per_cubic_meter>(), 1) + " µg/m³"
    };
    Quantity::other(level.value, write)
}
