//! What keeps a knockout from floating.

use crate::finding::say;
use crate::knockout::limits;
use crate::measure::exact::pounds;
use crate::measure::{Area, COUNT_TOLERANCE, Length, Mass, MassDensity, Quantity, Units, Volume, write_count};
use crate::working::{Figure, Named, Source};
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
        height: &Figure<Length>,
        fresh: Option<&Figure<MassDensity>>,
        screwed: bool,
        units: Units,
    ) -> Self {
        let lift = lift(&displaced(areas, height), fresh);
        let screws = screwed.then(|| screws(&lift));
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
fn displaced([foot, middle, head]: [Area; 3], height: &Figure<Length>) -> Figure<Volume> {
    let mean = if foot == head {
        foot.named("area")
    } else {
        let sum =
            foot.named("area at the foot") + 4.0 * middle.named("area at half height") + head.named("area at the top");
        sum / 6.0
    };
    (mean * height.term()).titled("Concrete displaced", Source::Arithmetic)
}

fn lift(volume: &Figure<Volume>, fresh: Option<&Figure<MassDensity>>) -> Figure<Mass> {
    let density = match fresh {
        Some(fresh) => fresh.called("fresh density"),
        None => {
            let said = "density of the fresh mix, not known yet: on the heavy side";
            crate::form::limits::fresh_density_assumed().stated(said, Source::Practice)
        }
    };
    let lift = volume.called("displaced volume") * density;
    let value = lift.value;
    lift.by_rule("{}; the weight of the knockout itself is left out", |x| x[0], value)
        .titled("Lift of the knockout", Source::Standard("Archimedes' principle"))
}

fn screws(lift: &Figure<Mass>) -> Figure<u32> {
    let share = lift.called("lift") / limits::hold_down_screw().named("what one screw is trusted with");
    let needed = |x: &[f64]| {
        let whole = (x[0] * (1.0 - COUNT_TOLERANCE)).ceil();
        whole.clamp(f64::from(limits::SCREWS_LEAST), f64::from(u32::MAX))
    };
    let screws = needed(&[share.value.value]) as u32;
    share.by_rule("{}, rounded up; at least 2, so that it does not turn", needed, screws).titled_as(
        "Screws to hold it down",
        Quantity::Count(screws, "screw", "screws"),
        Source::Practice,
    )
}

/// Rounded up to a whole pound or kilogram.
fn whole(mass: Mass, units: Units) -> Mass {
    let one = match units {
        Units::Inch => pounds(1.0),
        Units::Metric => Mass::new::<kilogram>(1.0),
    };
    let count: f64 = (mass / one).into();
    (count * (1.0 - COUNT_TOLERANCE)).ceil() * one
}
