//! Every limit and constant of the trade that a check or a calculation uses, each with its source
//! beside it. A rule, its message and its test all read the limit here.
//!
//! Limits are published or spoken of in inches, pounds and degrees Fahrenheit, so they are written
//! in those; inside they are quantities like any other.

use crate::measure::exact::{fahrenheit, inches, pounds, pounds_a_cubic_foot, psi};
use crate::measure::{Angle, Area, Length, Mass, MassDensity, Pressure, Temperature, Time, Units};
use crate::working::Source;
use uom::si::angle::degree;
use uom::si::f64::{Force, MassFlux, TemperatureInterval, Velocity};
use uom::si::force::newton;
use uom::si::length::micrometer;
use uom::si::mass::kilogram;
use uom::si::pressure::megapascal;
use uom::si::temperature_interval as interval;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::kilometer_per_hour;

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

// Weather, curing and the mix of pour day.

/// From this on, fresh concrete that bleeds as usual dries faster than its own water follows, and cracks while
/// soft (ACI 305R: 0.2 lb/ft²/h, about 1.0 kg/m²/h).
pub fn drying_most() -> MassFlux {
    pounds(0.2) / (square_foot() * hour())
}

/// The same for mixes that bleed little: mortars, glass-fibre mixes, low water (ACI 305.1: half of it).
pub fn drying_most_little_bleed() -> MassFlux {
    drying_most() / 2.0
}

/// How far the real evaporation may be from the estimated, either way (Hover 2020, SP-338).
pub const DRYING_SPREAD: f64 = 0.4;

/// The chart and the form that stands for it know no colder air or mix: its base would turn negative.
pub fn drying_coldest() -> Temperature {
    Temperature::new::<degree_celsius>(-18.0)
}

/// Hotter air or mix than this is a typing error.
pub fn drying_hottest() -> Temperature {
    Temperature::new::<degree_celsius>(60.0)
}

/// A stronger wind is a typing error: nobody pours in it.
pub fn strongest_wind() -> Velocity {
    Velocity::new::<kilometer_per_hour>(100.0)
}

/// Over this for most of the day, the weather is no longer cold (ACI 306R, and ACI's own glossary).
pub fn cold_over() -> Temperature {
    fahrenheit(50.0)
}

/// Sections thinner than 12 in are placed and kept no colder (ACI 306R Table 3.1, line 1).
pub fn fresh_least() -> Temperature {
    fahrenheit(55.0)
}

/// Concrete is placed no hotter (ACI 305.1: 95 °F).
pub fn fresh_most() -> Temperature {
    fahrenheit(95.0)
}

/// Water freezes.
pub fn freezing() -> Temperature {
    fahrenheit(32.0)
}

/// Stronger than this, concrete stands being frozen once (ACI 306R: 500 psi).
pub fn strength_before_frost() -> Pressure {
    psi(500.0)
}

/// The activation energy over the gas constant, where nothing better is known (ASTM C1074 X1, from memory).
pub fn activation() -> TemperatureInterval {
    TemperatureInterval::new::<interval::kelvin>(5000.0)
}

/// The temperature at which laboratory strengths are stated: 20 °C (ASTM C1074, from memory).
pub fn strength_reference() -> Temperature {
    Temperature::new::<degree_celsius>(20.0)
}

/// Temperatures at which strength stops growing, in two usages of the Nurse-Saul law: −10 °C and 0 °C (ASTM
/// C1074, from memory).
pub fn datums() -> [Temperature; 2] {
    [-10.0, 0.0].map(Temperature::new::<degree_celsius>)
}

/// A temperature history outside of these is a typing error, or a kiln.
pub fn history_range() -> [Temperature; 2] {
    [-40.0, 100.0].map(Temperature::new::<degree_celsius>)
}

/// More parts of a temperature history than this are not taken: a reading every five minutes for a month.
pub const MOST_PARTS_OF_HISTORY: usize = 10_000;

/// Heat that dry cement, aggregate and bagged mix take, of what water takes (ACI 305R, ACI 306R).
pub const HEAT_OF_SOLIDS: f64 = 0.22;

/// What melting ice takes, in degrees of as much water: 144 °F. The SI form of the standard prints 79.6 °C for
/// these 80 (ACI 305R).
pub const HEAT_OF_MELTING: f64 = 80.0;

/// More than this in one mixer is a typing error, not a garage's mixer.
pub fn heaviest_charge() -> Mass {
    Mass::new::<kilogram>(100_000.0)
}

/// Mixing water is heated to this at most (ACI 306R: 140 °F); hotter water makes cement set in a flash.
pub fn water_hottest() -> Temperature {
    fahrenheit(140.0)
}

/// More pigment than this, of the cement's mass, costs strength and gives no more colour. Common practice.
pub const PIGMENT_MOST: f64 = 0.10;

/// Rounding to the scale may change the volume of a mix by so much; more wants a finer scale. Common practice.
pub const WEIGHING_VOLUME: f64 = 0.01;

/// Rounding to the scale may change any one part of a mix by so much; more wants a finer scale. Common practice.
pub const WEIGHING_PART: f64 = 0.05;

/// A ratio by mass, a share or a specific gravity over this is a typing error.
pub const LARGEST_RATIO: f64 = 100.0;

/// Source of the absolute volume method and its tables.
pub const PROPORTIONS: Source = Source::Standard("ACI 211.1-91: proportions by absolute volume");

/// More batches than this in one pour are not laid out: a garage mixes six or twenty.
pub const MOST_BATCHES: usize = 1000;

/// More people, or mixers, than this are not laid out.
pub const MOST_HANDS: usize = 16;

/// Mixers tried when a pour does not fit: more do not find room around one form.
pub const MOST_MIXERS: usize = 4;

/// Parts tried when a pour does not fit, each with a planned joint.
pub const MOST_PARTS_OF_POUR: u32 = 4;

/// A mixer that holds so many times as much is tried when a pour does not fit.
pub const BIGGER_MIXERS: [f64; 4] = [1.25, 1.5, 2.0, 3.0];

/// Steps of a retarder's dose, as shares of the most that its label allows.
pub const RETARDER_STEPS: u32 = 20;

/// No retarder keeps a mix workable more times as long and lets it set on the day. Common practice.
pub const RETARDER_MOST: f64 = 4.0;

/// The longest time that a step of a pour, or a mix, is taken to last; longer is a typing error.
pub fn longest_step() -> Time {
    hour() * 1000.0
}

/// A rapid mix is kept wet for so long from when it sets. Common practice.
pub fn water_cure() -> Time {
    hour()
}

/// Source of [`DRYING_SPREAD`].
pub const DRYING_BAND: Source = Source::Standard("Hover 2020, ACI SP-338: real and estimated differ by about ±40 %");

/// Source of the evaporation formula.
pub const DRYING: Source = Source::Standard("Uno, ACI Materials Journal 95 (1998), for the chart of ACI 305R");

/// Source of [`drying_most`] and [`drying_most_little_bleed`].
pub const DRYING_LIMIT: Source = Source::Standard("ACI 305R: 0.2 lb/ft²/h; ACI 305.1: half of it for low bleeding");

/// Source of the maturity laws.
pub const MATURITY: Source = Source::Standard("ASTM C1074: Nurse-Saul and equivalent age");

/// Source of the growth of portland concrete.
pub const STRENGTH_IN_TIME: Source =
    Source::Standard("ACI 209R-92 Eq. 2-1: strength = t ÷ (a + β t) × strength at 28 d");

/// Source of the temperature of a fresh mix.
pub const MIXED_TEMPERATURE: Source = Source::Standard("ACI 305R and 306R: temperature of a fresh mix");

/// Source of [`cold_over`].
pub const COLD_OVER: Source = Source::Standard("ACI 306R: cold weather ends over 50 °F (10 °C) for most of the day");

/// Source of [`fresh_most`].
pub const FRESH_HOT: Source = Source::Standard("ACI 305.1: concrete placed no hotter than 95 °F (35 °C)");

/// Source of [`fresh_least`].
pub const FRESH_COLD: Source = Source::Standard("ACI 306R Table 3.1: thin sections placed and kept at 55 °F (13 °C)");

/// Source of [`strength_before_frost`].
pub const FROST: Source = Source::Standard("ACI 306R: 500 psi (3.5 MPa) before it may freeze once");

fn square_foot() -> Area {
    inches(12.0) * inches(12.0)
}

fn hour() -> Time {
    Time::new::<uom::si::time::hour>(1.0)
}

/// Share of the fill at which steel usually goes in: between half and three quarters. Common practice.
pub const STEEL_AT: f64 = 0.6;

/// From screeding to trowelling the back flat. Common practice.
pub fn trowel_after() -> Time {
    Time::new::<uom::si::time::minute>(5.0)
}
