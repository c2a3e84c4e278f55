//! Hours, pads and speeds, from the maker's own tools.

use super::{Sequence, Tool, positive};
use crate::measure::exact::in_inches;
use crate::measure::{
    Area, Length, Time, Units, write_area, write_duration, write_length, write_number, write_percent,
};
use crate::working::{Figure, Source, Working};
use uom::si::f64::{Frequency, Velocity};
use uom::si::frequency::cycle_per_minute;
use uom::si::velocity::meter_per_second;

/// How fast the maker works: so much area took so much time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// What was done.
    pub area: Area,
    /// In that time.
    pub time: Time,
}

/// A tool that the maker owns, and what is known of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pad {
    /// Which one.
    pub tool: Tool,
    /// The maker's own pace with it, all its passes together.
    pub rate: Option<Rate>,
    /// The area that one lasts for.
    pub life: Option<Area>,
    /// Its diameter.
    pub diameter: Option<Length>,
    /// The surface speed its maker allows.
    pub rated: Option<Velocity>,
}

impl Rate {
    /// The time that an area takes at this pace; None unless all of it is over zero.
    pub fn takes(self, area: Area) -> Option<Time> {
        let time = self.time * (area / self.area).value;
        positive(&[self.area.value, self.time.value, area.value, time.value]).then_some(time)
    }
}

/// The time to take a face through a sequence, each tool at the maker's own pace.
///
/// # Errors
/// The tools whose pace is not known, or is none; all of them if the face has no area.
pub fn grinding_time(face: Area, sequence: &Sequence, pads: &[Pad], units: Units) -> Result<Figure<Time>, Vec<Tool>> {
    let mut working = Working::new("Grinding and polishing");
    let mut sum = Time::default();
    let mut unknown = Vec::new();
    for step in &sequence.steps {
        let rate = pads.iter().find(|pad| pad.tool == step.tool).and_then(|pad| pad.rate);
        let Some((rate, time)) = rate.and_then(|rate| Some((rate, rate.takes(face)?))) else {
            unknown.push(step.tool);
            continue;
        };
        sum += time;
        working = working.line(
            format!("{}: area × your pace", step.tool.words()),
            format!("{} × {} for {}", write_area(face, units), write_duration(rate.time), write_area(rate.area, units)),
            write_duration(time),
            Source::Typed,
        );
    }
    if unknown.is_empty() { Ok(working.sum(write_duration(sum)).of(sum)) } else { Err(unknown) }
}

/// The share of one pad that a face wears off; over one, so many pads. None where its life is not known.
pub fn pad_share(face: Area, pad: &Pad, units: Units) -> Option<Figure<f64>> {
    let life = pad.life?;
    let share = (face / life).value;
    if !positive(&[face.value, life.value, share]) || share > crate::carry::limits::MOST_COUNTED {
        return None;
    }
    Some(
        Working::new(format!("{} used up", pad.tool.words()))
            .line(
                "area ÷ area that one lasts for",
                format!("{} ÷ {}", write_area(face, units), write_area(life, units)),
                write_percent(share),
                Source::Typed,
            )
            .of(share),
    )
}

/// "3820 rpm", never more than it is: a limit is not rounded up.
pub fn write_speed(speed: Frequency) -> String {
    let turns = speed.get::<cycle_per_minute>();
    write_number((turns * (1.0 + crate::measure::COUNT_TOLERANCE)).floor(), 0) + " rpm"
}

fn write_surface_speed(speed: Velocity, units: Units) -> String {
    match units {
        Units::Inch => {
            let feet = in_inches(Length::new::<uom::si::length::meter>(speed.get::<meter_per_second>())) / 12.0;
            write_number(feet * 60.0, 0) + " ft/min"
        }
        Units::Metric => write_number(speed.get::<meter_per_second>(), 1) + " m/s",
    }
}

/// The fastest that a pad of that diameter may turn: v = π d n. None unless both are over zero.
pub fn speed_limit(diameter: Length, rated: Velocity, units: Units) -> Option<Figure<Frequency>> {
    let speed: Frequency = rated / (std::f64::consts::PI * diameter);
    if !positive(&[diameter.value, rated.value, speed.value]) {
        return None;
    }
    Some(
        Working::new("Speed limit of the pad")
            .line(
                "rated surface speed ÷ (π × diameter)",
                format!("{} ÷ (π × {})", write_surface_speed(rated, units), write_length(diameter, units)),
                write_speed(speed),
                Source::Arithmetic,
            )
            .of(speed),
    )
}
