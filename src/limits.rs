//! Every limit and constant of the trade that a check or a calculation uses, each with its source
//! beside it. A rule, its message and its test all read the limit here.
//!
//! Limits are published or spoken of in inches, pounds and degrees Fahrenheit, so they are written
//! in those; inside they are quantities like any other.

use crate::measure::exact::{fahrenheit, inches, pounds, pounds_a_cubic_foot, quarts};
use crate::measure::{Angle, Length, Mass, MassDensity, Temperature, Time, Units, Volume};
use crate::working::Source;
use uom::si::angle::degree;
use uom::si::f64::VolumeRate;
use uom::si::length::micrometer;
use uom::si::mass::kilogram;
use uom::si::mass_density::microgram_per_cubic_meter;
use uom::si::time::{hour, minute};

/// Geometry that a float may miss by: a tenth of what a caliper reads, far under what a tape reads.
pub fn geometry_tolerance() -> Length {
    Length::new::<micrometer>(1.0)
}

/// Degrees that a float may miss by, in kelvin: far under what a thermometer reads.
pub const TEMPERATURE_TOLERANCE: f64 = 1e-6;

/// A count just above a whole number by float noise is that whole number: relative.
pub const COUNT_TOLERANCE: f64 = 1e-9;

/// More bags than this is a typing error, not an order.
pub const MOST_BAGS: f64 = 100_000.0;

/// A rail narrower than this is at the edge. Common practice.
pub fn rail_watch() -> Length {
    inches(2.5)
}

/// A rail narrower than this breaks. Common practice.
pub fn rail_stop() -> Length {
    inches(1.5)
}

/// A rail of a splash or an apron narrower than this is at the edge: such a strip is short of height by
/// nature, hangs or stands against what carries it, and is cut for outlets. Common practice.
pub fn strip_rail_watch() -> Length {
    inches(1.0)
}

/// A rail of a splash or an apron narrower than this breaks. Common practice.
pub fn strip_rail_stop() -> Length {
    inches(0.5)
}

/// A faucet hole nearer than this to an edge or a cutout chips out when it is drilled or its
/// knockout is pushed. Common practice.
pub fn hole_watch() -> Length {
    inches(0.5)
}

/// Inside corners with a smaller radius start cracks. Common practice.
pub fn corner_radius_watch() -> Length {
    inches(0.5)
}

/// A thinner top is out of the usual. Common practice: 1 1/2 to 2 in, with a margin.
pub fn thickness_least() -> Length {
    inches(1.25)
}

/// A thinner splash or apron is out of the usual: it spans nothing, so that it may be thinner than a top.
/// Common practice: 3/4 to 1 in, with a margin.
pub fn strip_thickness_least() -> Length {
    inches(0.5)
}

/// The usual thickness of a backsplash, where none is typed. Common practice.
pub fn backsplash_usual() -> Length {
    inches(0.75)
}

/// A thicker top is out of the usual. Common practice: 1 1/2 to 2 in, with a margin.
pub fn thickness_most() -> Length {
    inches(3.0)
}

/// A thicker top is a typing error.
pub fn thickness_stop() -> Length {
    inches(12.0)
}

/// Liners are rubber strips; a thicker one is more likely a typing error. Common practice.
pub fn liner_most() -> Length {
    inches(2.0)
}

/// Full aggregate shows at about 1/8 in; grinding off more than this is more likely a typing error.
/// Common practice.
pub fn grinding_most() -> Length {
    inches(0.25)
}

/// A longer piece is better split. Common practice.
pub fn piece_longest() -> Length {
    inches(96.0)
}

/// A seam nearer than this to a cutout or a hole leaves a weak end on either side of it. Common practice.
pub fn seam_clear() -> Length {
    inches(4.0)
}

/// Parts that one piece is split into at most.
pub const MOST_PARTS: usize = 8;

/// A splash or an apron smaller than this in any direction is more likely a typing error. Common practice:
/// 3 to 6 in.
pub fn strip_least() -> Length {
    inches(2.0)
}

/// A smaller piece than this in any direction is more likely a typing error.
pub fn piece_least() -> Length {
    inches(4.0)
}

/// Boards for forms are thinner than this; more is more likely a typing error.
pub fn board_most() -> Length {
    inches(2.0)
}

/// Less spare mix than this risks a bag too few. Common practice: 10 %.
pub const SPARE_LEAST: f64 = 0.05;

/// More spare mix than this is mostly thrown away. Common practice: 10 %.
pub const SPARE_MOST: f64 = 0.25;

/// Fresh mortar and concrete weigh more than this. Common practice: 130 to 145 lb/ft³.
pub fn fresh_density_least() -> MassDensity {
    pounds_a_cubic_foot(110.0)
}

/// Fresh mortar and concrete weigh less than this. Common practice: 130 to 145 lb/ft³.
pub fn fresh_density_most() -> MassDensity {
    pounds_a_cubic_foot(160.0)
}

/// Water as mixing water is counted: 62.4 lb/ft³, as ACI 211.1 has it.
pub fn water_density() -> MassDensity {
    pounds_a_cubic_foot(62.4)
}

/// The temperature for which workable times are stated.
pub fn workable_reference() -> Temperature {
    fahrenheit(70.0)
}

/// So many kelvin hotter, and the mix stays workable half as long: 18 °F. Common practice.
pub const WORKABLE_HALVES_EVERY: f64 = 10.0;

/// A plan that uses more of the workable time than this leaves no room for a mishap. Common practice.
pub const WORKABLE_SHARE_WATCH: f64 = 0.8;

/// Below this, cold-weather precautions (ACI 306R).
pub fn air_least() -> Temperature {
    fahrenheit(40.0)
}

/// Above this, hot-weather precautions (ACI 305R).
pub fn air_most() -> Temperature {
    fahrenheit(90.0)
}

/// People tried when a pour does not fit: more do not find room around one form.
pub const MOST_PEOPLE: u32 = 8;

/// Bags in one batch tried when a pour does not fit: more do not go into a garage's mixer.
pub const MOST_BAGS_A_BATCH: u32 = 4;

/// The load constant of the NIOSH lifting equation: what one person may lift at most under ideal
/// conditions. It is published as 51 lb and as 23 kg, which differ by 0.3 lb; a job takes the one of
/// its own units (NIOSH 94-110, rev. 2021, p. 7).
pub fn load_constant(units: Units) -> Mass {
    match units {
        Units::Inch => pounds(51.0),
        Units::Metric => Mass::new::<kilogram>(23.0),
    }
}

/// What a team of one, two and three may lift, as a share of the sum of its members (HSE L23).
pub const TEAM_SHARES: [(u32, f64); 3] = [(1, 1.0), (2, 2.0 / 3.0), (3, 1.0 / 2.0)];

/// Source of [`load_constant`] and [`TEAM_SHARES`].
pub const LIFTING: Source =
    Source::Standard("NIOSH 94-110 (rev. 2021) p. 7: load constant; HSE L23: teams of two and three");

/// Source of the yield rule.
pub const YIELD: Source = Source::Standard("ASTM C138: yield = mass ÷ fresh density");

/// Source of [`water_density`].
pub const WATER: Source = Source::Standard("ACI 211.1: water at 62.4 lb/ft³ (1000 kg/m³)");

/// Source of [`air_least`].
pub const COLD: Source = Source::Standard("ACI 306R: cold-weather concreting under 40 °F (4 °C)");

/// Source of [`air_most`].
pub const HOT: Source = Source::Standard("ACI 305R: hot-weather concreting");

// Finish, carry, set and price.

/// Grinding that opens the skin to its fine sand. Common practice: about 1/32 in.
pub fn sand_depth() -> Length {
    inches(1.0 / 32.0)
}

/// Grinding that cuts the smaller stones. Common practice: about 1/16 in.
pub fn medium_depth() -> Length {
    inches(1.0 / 16.0)
}

/// Grinding that shows the stones in full. Common practice: 1/8 in or more.
pub fn full_depth() -> Length {
    inches(1.0 / 8.0)
}

/// The grits of the pads that follow the coarse wheel. Common practice.
pub const GRITS: [u32; 7] = [50, 100, 200, 400, 800, 1500, 3000];

/// A pad takes out the scratches of one at least half as fine; a wider gap leaves them. Common practice.
pub const GRIT_STEP: u32 = 2;

/// A face that keeps its cream is polished from this grit on: a coarser pad opens the skin. Common practice.
pub const CREAM_FIRST_GRIT: u32 = 400;

/// Portland cement weighs so many times what water does (ASTM C188; ACI 211.1 takes 3.15).
pub const CEMENT_GRAVITY: f64 = 3.15;

/// Most pigment by mass of cement. Common practice: 10 %.
pub const PIGMENT_MOST: f64 = 0.10;

/// More coats than this are a typing error.
pub const MOST_COATS: u32 = 20;

/// The wet film of one coat of sealer, from the thinnest to the thickest that is usual: 400 and 200 ft² a US gallon.
/// From memory of data sheets.
pub fn sealer_film_usual() -> [Length; 2] {
    let foot = inches(12.0);
    [400.0, 200.0].map(|count| quarts(4.0) / (count * foot * foot))
}

/// What a cartridge of silicone or caulk holds: 10.1 US fl oz. Common practice.
pub fn cartridge() -> Volume {
    quarts(10.1 / 32.0)
}

/// More pads, packs, dabs or cartridges than this are a typing error.
pub const MOST_COUNTED: f64 = 100_000.0;

/// Respirable silica over eight hours from which on it is monitored: 25 µg/m³. Source: [`SILICA_LIMITS`].
pub fn silica_action() -> MassDensity {
    MassDensity::new::<microgram_per_cubic_meter>(25.0)
}

/// Respirable silica over eight hours that must not be passed: 50 µg/m³. Source: [`SILICA_LIMITS`].
pub fn silica_most() -> MassDensity {
    MassDensity::new::<microgram_per_cubic_meter>(50.0)
}

/// Air through the shroud of a hand grinder with a wheel of that size: 25 ft³/min for each inch. Source: [`SILICA`].
pub fn shroud_air(wheel: Length) -> VolumeRate {
    let foot = inches(12.0);
    25.0 * (wheel / inches(1.0)).value * foot * foot * foot / Time::new::<minute>(1.0)
}

/// What the filter of its collector holds back at least. Source: [`SILICA`].
pub const SHROUD_FILTER: f64 = 0.99;

/// Indoors, grinding for longer than this in a shift takes a respirator. Source: [`SILICA`].
pub fn grinding_without_respirator() -> Time {
    Time::new::<hour>(4.0)
}

/// The assigned protection factor of that respirator. Source: [`SILICA`].
pub const RESPIRATOR_FACTOR: u32 = 10;

/// Source of what grinding dry by hand asks for.
pub const SILICA: Source =
    Source::Standard("OSHA 29 CFR 1926.1153, Table 1: handheld grinders for uses other than mortar removal");

/// Source of the limits of respirable silica.
pub const SILICA_LIMITS: Source = Source::Standard("OSHA 29 CFR 1926.1153(b), (d)(1): action level and limit over 8 h");

/// The numbers of the revised lifting equation, which are published in inches and in centimetres, not
/// quite the same (NIOSH 94-110, rev. 2021, p. 7 to 15).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftingEquation {
    /// The load under ideal conditions: see [`load_constant`].
    pub load: Mass,
    /// Hands this far out from between the ankles, or nearer, lift in full.
    pub near: Length,
    /// Hands further out than this should not lift.
    pub far: Length,
    /// The best height of the hands.
    pub best_height: Length,
    /// So far off the best height there would be nothing left: what a length loses is in proportion.
    pub height_span: Length,
    /// Hands higher than this should not lift.
    pub highest: Length,
    /// Shorter travel than this counts as this.
    pub shortest: Length,
    /// Longer travel than this should not be lifted.
    pub longest: Length,
    /// What over the travel is added to [`LiftingEquation::TRAVEL_LEAST`].
    pub travel: Length,
}

impl LiftingEquation {
    /// What is left after long travel.
    pub const TRAVEL_LEAST: f64 = 0.82;

    /// Nobody should turn further than this with a load.
    pub fn most_turn() -> Angle {
        Angle::new::<degree>(135.0)
    }

    /// What turning so far leaves: 0.0032 less for each degree.
    pub fn left_by_turn(turn: Angle) -> f64 {
        1.0 - 0.0032 * turn.get::<degree>()
    }

    /// The numbers of a job's own units.
    pub fn of(units: Units) -> Self {
        let centimetres = |count: f64| Length::new::<uom::si::length::centimeter>(count);
        let load = load_constant(units);
        match units {
            Units::Inch => Self {
                load,
                near: inches(10.0),
                far: inches(25.0),
                best_height: inches(30.0),
                height_span: inches(1.0 / 0.0075),
                highest: inches(70.0),
                shortest: inches(10.0),
                longest: inches(70.0),
                travel: inches(1.8),
            },
            Units::Metric => Self {
                load,
                near: centimetres(25.0),
                far: centimetres(63.0),
                best_height: centimetres(75.0),
                height_span: centimetres(1.0 / 0.003),
                highest: centimetres(175.0),
                shortest: centimetres(25.0),
                longest: centimetres(175.0),
                travel: centimetres(4.5),
            },
        }
    }
}

/// Lifts a minute for at most an hour, and what is left of the load: with the hands lower than the best
/// height, and at it or above. Over the last, nothing. NIOSH 94-110, Table 5; from 11 on from memory.
pub const LIFTING_FREQUENCY: [(f64, [f64; 2]); 17] = [
    (0.2, [1.00, 1.00]),
    (0.5, [0.97, 0.97]),
    (1.0, [0.94, 0.94]),
    (2.0, [0.91, 0.91]),
    (3.0, [0.88, 0.88]),
    (4.0, [0.84, 0.84]),
    (5.0, [0.80, 0.80]),
    (6.0, [0.75, 0.75]),
    (7.0, [0.70, 0.70]),
    (8.0, [0.60, 0.60]),
    (9.0, [0.52, 0.52]),
    (10.0, [0.45, 0.45]),
    (11.0, [0.41, 0.41]),
    (12.0, [0.37, 0.37]),
    (13.0, [0.00, 0.34]),
    (14.0, [0.00, 0.31]),
    (15.0, [0.00, 0.28]),
];

/// Source of [`LiftingEquation`] and what goes with it.
pub const LIFTING_EQUATION: Source = Source::Standard("NIOSH 94-110 (rev. 2021): revised lifting equation");

/// Finished jobs before the maker's hours teach anything: one odd job is not a habit.
pub const JOBS_TO_LEARN_FROM: usize = 3;

/// Only the newest so many jobs teach: a maker gets faster.
pub const JOBS_REMEMBERED: usize = 9;
