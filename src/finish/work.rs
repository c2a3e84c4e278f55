//! Hours, pads and speeds, from the maker's own tools.

use super::{Sequence, Tool, positive};
use crate::measure::exact::in_inches;
use crate::measure::{Area, COUNT_TOLERANCE, Length, Quantity, Time, Units, write_number};
use crate::working::{Figure, Label, Named, Source, Term, pi};
use std::borrow::Cow;
use uom::si::f64::{Frequency, Velocity};
use uom::si::frequency::{cycle_per_minute, hertz};
use uom::si::length::meter;
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
    /// The time that an area takes at this pace; nothing unless all of it is over zero.
    pub fn takes(self, area: Area) -> Option<Time> {
        Some(self.term(area)?.value)
    }

    /// The same with its formula.
    fn term(self, area: Area) -> Option<Term<Time>> {
        let share = (area.named("area") / self.area.named("area of your pace")).number();
        let time = self.time.named("time of your pace") * share;
        positive(&[self.area.value, self.time.value, area.value, time.value.value]).then_some(time)
    }
}

/// The time to take a face through a sequence, each tool at the maker's own pace.
///
/// # Errors
/// The tools whose pace is not known, or is none; all of them if the face has no area.
pub fn grinding_time(face: Area, sequence: &Sequence, pads: &[Pad]) -> Result<Figure<Time>, Vec<Tool>> {
    let mut times = Vec::new();
    let mut unknown = Vec::new();
    for step in &sequence.steps {
        let rate = pads.iter().find(|pad| pad.tool == step.tool).and_then(|pad| pad.rate);
        match rate.and_then(|rate| rate.term(face)) {
            Some(time) => times.push(time.step(step.tool.words(), Source::Typed)),
            None => unknown.push(step.tool),
        }
    }
    if unknown.is_empty() {
        Ok(Term::sum(times).titled("Grinding and polishing", Source::Arithmetic))
    } else {
        Err(unknown)
    }
}

/// The share of one pad that a face wears off; over one, so many pads. Nothing where its life is not known.
pub fn pad_share(face: Area, pad: &Pad) -> Option<Figure<f64>> {
    let life = pad.life?;
    let share = (face.named("area") / life.named("area that one lasts for")).number();
    if !positive(&[face.value, life.value, share.value]) || share.value > crate::carry::limits::MOST_COUNTED {
        return None;
    }
    let title = Label::with("{} used up", [Quantity::Words(Cow::Owned(pad.tool.words()))]);
    let written = Quantity::Percent(share.value);
    Some(share.titled_as(title, written, Source::Typed))
}

/// "3820 rpm", never more than it is: a limit is not rounded up.
pub fn write_speed(speed: Frequency) -> String {
    let turns = speed.get::<cycle_per_minute>();
    write_number((turns * (1.0 + COUNT_TOLERANCE)).floor(), 0) + " rpm"
}

fn write_surface_speed(speed: Velocity, units: Units) -> String {
    match units {
        Units::Inch => {
            let feet = in_inches(Length::new::<meter>(speed.get::<meter_per_second>())) / 12.0;
            write_number(feet * 60.0, 0) + " ft/min"
        }
        Units::Metric => write_number(speed.get::<meter_per_second>(), 1) + " m/s",
    }
}

/// The fastest that a pad of that diameter may turn: v = π d n. Nothing unless both are over zero.
///
/// ```
/// use pourwright::finish::{speed_limit, write_speed};
/// use pourwright::measure::exact::inches;
/// use uom::si::f64::Velocity;
/// use uom::si::velocity::meter_per_second;
///
/// // 60 π mm a turn at 6 π m/s are 100 turns a second.
/// let rated = Velocity::new::<meter_per_second>(6.0 * std::f64::consts::PI);
/// let limit = speed_limit(inches(60.0 / 25.4), rated);
/// assert_eq!(limit.map(|limit| write_speed(limit.value)).as_deref(), Some("6000 rpm"));
/// ```
pub fn speed_limit(diameter: Length, rated: Velocity) -> Option<Figure<Frequency>> {
    let written =
        Quantity::other(rated.value, |si, units| write_surface_speed(Velocity::new::<meter_per_second>(si), units));
    let around = pi() * diameter.named("diameter");
    let speed: Term<Frequency> = Term::named_as(rated, "rated surface speed", written) / around;
    if !positive(&[diameter.value, rated.value, speed.value.value]) {
        return None;
    }
    let written = Quantity::other(speed.value.value, |si, _| write_speed(Frequency::new::<hertz>(si)));
    Some(speed.titled_as("Speed limit of the pad", written, Source::Arithmetic))
}
