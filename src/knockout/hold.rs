//! What keeps a knockout from floating.

use crate::finding::say;
use crate::job::Job;
use crate::knockout::limits;
use crate::measure::exact::pounds;
use crate::measure::{
    Area, Length, Mass, MassDensity, Units, Volume, write_area, write_count, write_density, write_length, write_mass,
    write_volume,
};
use crate::working::{Figure, Source, Working};
use uom::si::mass::kilogram;

/// What a knockout has to be held down with, should mix get under it.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldDown {
    /// Mass of the concrete that it displaces; its own, which helps, is left out.
    pub lift: Figure<Mass>,
    /// The same rounded up to a whole pound or kilogram: what to set on it.
    pub weight: Mass,
    /// Screws up through the base; nothing where its foot is foam, in which a screw does not hold.
    pub screws: Option<Figure<u32>>,
}

impl HoldDown {
    /// For what is open by those areas at the foot, at half height and at the top; `screwed` where its foot is
    /// a board.
    pub(super) fn of(
        areas: [Area; 3],
        height: Length,
        fresh: Option<&Figure<MassDensity>>,
        screwed: bool,
        job: &Job,
    ) -> Self {
        let units = job.units;
        let lift = lift(displaced(areas, height, units), fresh, units);
        let screws = screwed.then(|| screws(&lift, units));
        Self { weight: whole(lift.value, units), lift, screws }
    }

    /// In plain words: "If mix gets under it, it floats up with 38 lb. Set 39 lb on it."
    pub fn words(&self, units: Units) -> String {
        let how = match &self.screws {
            Some(screws) => {
                format!(", or hold it with {} up through the base.", write_count(screws.value, "screw", "screws"))
            }
            None => " and bed its foot in silicone; a screw does not hold in foam.".to_owned(),
        };
        format!(
            "If mix gets under it, it floats up with {}. Set {} on it{how}",
            say::mass(self.lift.value, units),
            say::mass(self.weight, units)
        )
    }
}

/// The volume that a knockout takes up. Its area changes with the square of the height at most, for which
/// Simpson's rule is exact.
fn displaced([foot, middle, head]: [Area; 3], height: Length, units: Units) -> Figure<Volume> {
    let write = |area| write_area(area, units);
    let (mean, formula, numbers) = if foot == head {
        (foot, "area × cast thickness", write(foot).to_string())
    } else {
        let mean = (foot + 4.0 * middle + head) / 6.0;
        let numbers = format!("({} + 4 × {} + {}) ÷ 6", write(foot), write(middle), write(head));
        (mean, "(area at the foot + 4 × at half height + at the top) ÷ 6 × cast thickness", numbers)
    };
    let volume = mean * height;
    let numbers = format!("{numbers} × {}", write_length(height, units));
    Working::new("Concrete displaced")
        .line(formula, numbers, write_volume(volume, units), Source::Arithmetic)
        .of(volume)
}

fn lift(volume: Figure<Volume>, fresh: Option<&Figure<MassDensity>>, units: Units) -> Figure<Mass> {
    let working = Working::new("Lift of the knockout").after(&volume.working);
    let (density, working) = match fresh {
        Some(fresh) => (fresh.value, working.after(&fresh.working)),
        None => {
            let density = crate::form::limits::fresh_density_assumed();
            let said = "density of the fresh mix, not known yet: on the heavy side";
            (density, working.line(said, "", write_density(density, units), Source::Practice))
        }
    };
    let lift = volume.value * density;
    working
        .line(
            "displaced volume × fresh density; the weight of the knockout itself is left out",
            format!("{} × {}", write_volume(volume.value, units), write_density(density, units)),
            write_mass(lift, units),
            Source::Standard("Archimedes' principle"),
        )
        .of(lift)
}

fn screws(lift: &Figure<Mass>, units: Units) -> Figure<u32> {
    let share: f64 = (lift.value / limits::hold_down_screw()).into();
    // A cast to an integer ends at its largest value.
    let needed = (share * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() as u32;
    let screws = needed.max(limits::SCREWS_LEAST);
    Working::new("Screws to hold it down")
        .after(&lift.working)
        .line(
            "lift ÷ what one screw is trusted with, rounded up; at least 2, so that it does not turn",
            format!("{} ÷ {}", write_mass(lift.value, units), write_mass(limits::hold_down_screw(), units)),
            write_count(screws, "screw", "screws"),
            Source::Practice,
        )
        .of(screws)
}

/// Rounded up to a whole pound or kilogram.
fn whole(mass: Mass, units: Units) -> Mass {
    let one = match units {
        Units::Inch => pounds(1.0),
        Units::Metric => Mass::new::<kilogram>(1.0),
    };
    let count: f64 = (mass / one).into();
    (count * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() * one
}
