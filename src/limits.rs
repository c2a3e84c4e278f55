//! Every limit and constant of the trade that a check or a calculation uses, each with its source
//! beside it. A rule, its message and its test all read the limit here.
//!
//! Limits are published or spoken of in inches, pounds and degrees Fahrenheit, so they are written
//! in those; inside they are quantities like any other.

use crate::measure::exact::{fahrenheit, inches, pounds, pounds_a_cubic_foot};
use crate::measure::{Angle, Length, Mass, MassDensity, Pressure, Temperature, Units};
use crate::working::Source;
use uom::si::angle::degree;
use uom::si::f64::Force;
use uom::si::force::newton;
use uom::si::length::micrometer;
use uom::si::mass::kilogram;
use uom::si::pressure::megapascal;

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

// The form.

/// What a kerf leaves of a strip, so that it bends and does not break. Common practice.
pub fn kerf_web() -> Length {
    inches(1.0 / 16.0)
}

/// How far the flat between two kerfs may stand off the arc. Common practice: what sanding takes out.
pub fn kerf_flat() -> Length {
    inches(1.0 / 64.0)
}

/// Table saws tilt to 45° and a little over. From memory of their data sheets.
pub fn saw_tilt_most() -> Angle {
    Angle::new::<degree>(47.0)
}

/// A joint between two lengths of liner nearer than this to a corner shows and comes loose. Common practice.
pub fn liner_joint_clear() -> Length {
    inches(6.0)
}

/// Rows of double-sided tape behind a liner, one low and one high. Common practice.
pub const LINER_TAPE_ROWS: f64 = 2.0;

/// A screw nearer than this to the end of a board splits it. Common practice.
pub fn screw_from_end() -> Length {
    inches(1.0)
}

/// Screws through a side into the end of its neighbour. Common practice.
pub const SCREWS_A_CORNER: u32 = 2;

/// Fresh density where that of the mix is not known. Common practice: 130 to 145 lb/ft³, and a little over.
pub fn fresh_density_assumed() -> MassDensity {
    pounds_a_cubic_foot(150.0)
}

/// Source of the pressure of fresh concrete on a form.
pub const FORM_PRESSURE: Source = Source::Standard("ACI 347: full fluid head for mixes that flow");

/// Bending stiffness of particle board of grade M-2, 2250 MPa: from memory of ANSI A208.1.
pub fn board_stiffness() -> Pressure {
    Pressure::new::<megapascal>(2250.0)
}

/// What a screw in the edge of a particle board may be asked to hold: a quarter of the 800 N at which it draws
/// out of grade M-2, from memory of ANSI A208.1.
pub fn screw_hold() -> Force {
    Force::new::<newton>(200.0)
}

/// Source of [`board_stiffness`] and [`screw_hold`].
pub const BOARD: Source = Source::Memory;

/// How far a side may bow out between two screws. Common practice: what nobody sees.
pub fn side_bow_most() -> Length {
    inches(1.0 / 64.0)
}

/// What release agent leaves where it is wiped thin: a US gallon over 400 ft². From memory of data sheets.
pub fn release_film() -> Length {
    inches(231.0 / (400.0 * 144.0))
}

/// A form further out of level than this casts a piece whose thickness shows it. Common practice.
pub fn level_most() -> Length {
    inches(1.0 / 16.0)
}

// Knockouts.

/// A stack of layers that misses the cast thickness by less is as high as the cast: a trowel takes it up.
/// Common practice.
pub fn stack_slack() -> Length {
    inches(1.0 / 64.0)
}

/// A thinner layer is no board or foam but a shim. Common practice.
pub fn layer_least() -> Length {
    inches(1.0 / 32.0)
}

/// A thicker shim is better another layer: card and tape give way under the weight of the mix. Common
/// practice.
pub fn shim_most() -> Length {
    inches(1.0 / 8.0)
}

/// More draft on each side makes the hole at the back much narrower than in the face. Common practice: 1/16
/// to 1/8 in.
pub fn draft_most() -> Length {
    inches(1.0 / 4.0)
}

/// A foam core thinner than this bends when the mix is worked around it. Common practice.
pub fn foam_core_least() -> Length {
    inches(1.0)
}

/// What one screw through the base into a board is trusted to hold down; it pulls out at several times as
/// much. Common practice.
pub fn hold_down_screw() -> Mass {
    pounds(25.0)
}

/// Fewer screws than this let a knockout turn. Common practice.
pub const SCREWS_LEAST: u32 = 2;
