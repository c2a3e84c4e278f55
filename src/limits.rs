//! Every limit and constant of the trade that a check or a calculation uses, each with its source
//! beside it. A rule, its message and its test all read the limit here.
//!
//! Limits are published or spoken of in inches, pounds and degrees Fahrenheit, so they are written
//! in those; inside they are quantities like any other.

use crate::job::{BarSize, Family, LabelClass, Lath};
use crate::measure::exact::{fahrenheit, inches, pounds, pounds_a_cubic_foot, psi, quarts};
use crate::measure::{Angle, Area, Length, Mass, MassDensity, Pressure, Temperature, Time, Units, Volume};
use crate::working::Source;
use uom::si::angle::degree;
use uom::si::f64::{Force, MassFlux, TemperatureInterval, Velocity, VolumeRate};
use uom::si::force::newton;
use uom::si::length::{meter, micrometer, millimeter};
use uom::si::mass::kilogram;
use uom::si::mass_density::microgram_per_cubic_meter;
use uom::si::pressure::megapascal;
use uom::si::temperature_interval as interval;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::time::{day, minute};
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

/// What the rim of a drop-in bowl lies on all round, where nothing is typed. Common practice, no source.
pub fn ledge_usual() -> Length {
    inches(0.5)
}

/// A drop-in bowl on a ledge narrower than this may fall through its hole. Common practice, no source.
pub fn ledge_watch() -> Length {
    inches(0.25)
}

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

/// A thinner top of a mix with glass fibre is out of the usual. Common practice: 3/4 to 1 in, no source.
pub fn glass_fibre_thickness_least() -> Length {
    inches(0.75)
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

/// A pour that is under way and uses more of the workable time than this has no room for a mishap. Common practice.
pub const WORKABLE_SHARE_WATCH: f64 = 0.8;

/// A plan that leaves less of the workable time than this only just fits. Common practice.
pub const WORKABLE_LEAST_LEFT: f64 = 0.1;

/// From when a face coat is in until what backs it goes on: it stays off a finger by then, and still knits. 20 to 30 min
/// are usual. Common practice, no source.
pub fn face_coat_stiffens() -> Time {
    minutes(25.0)
}

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

/// What more than three people lift, as a share of the sum of their members: that of three, and no source knows more.
/// Common practice.
pub const LARGE_TEAM_SHARE: f64 = 1.0 / 2.0;

/// People who carry a top hold its long edges every 24 in, one on each side, and one each of its ends. Common practice,
/// no source.
pub fn grip_spacing() -> Length {
    inches(24.0)
}

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

/// How far the base may bow down between its supports. Common practice: what a top's face does not show.
pub fn base_sag_most() -> Length {
    inches(1.0 / 32.0)
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

/// The temperature at which laboratory strengths are stated where the label says none: 23 °C by the standards of inch
/// shops (ASTM C192, C511, C109: 23 ± 2 °C), 20 °C by those of metric ones (EN 12390-2, EN 196-1); from memory.
pub fn strength_reference(units: Units) -> Temperature {
    Temperature::new::<degree_celsius>(match units {
        Units::Inch => 23.0,
        Units::Metric => 20.0,
    })
}

/// The least compressive strength that a class on a label guarantees, by age in days, and where that stands.
///
/// Rapid-hardening materials by table 1 of ASTM C928-05 (read there; 28 days no less than 7). Packaged concrete by table
/// 1 of ASTM C387, from memory.
pub fn guaranteed(class: LabelClass, family: Family) -> (&'static [(f64, f64)], Source) {
    const HOURS_3: f64 = 3.0 / 24.0;
    match (class, family) {
        (LabelClass::R3, _) => (&[(HOURS_3, 3000.0), (1.0, 5000.0)], CLASS_RAPID),
        (LabelClass::R2, _) => (&[(HOURS_3, 1000.0), (1.0, 3000.0), (7.0, 4000.0)], CLASS_RAPID),
        (LabelClass::R1, _) | (LabelClass::Unsaid, Family::RapidMortar) => {
            (&[(HOURS_3, 500.0), (1.0, 2000.0), (7.0, 4000.0)], CLASS_RAPID)
        }
        (LabelClass::HighEarly, _) => (&[(3.0, 2500.0), (7.0, 3500.0)], CLASS_CONCRETE),
        (LabelClass::Normal, _) | (LabelClass::Unsaid, Family::PortlandConcrete) => (&[(28.0, 3500.0)], CLASS_CONCRETE),
    }
}

/// Source of [`guaranteed`] for rapid-hardening materials.
const CLASS_RAPID: Source = Source::Standard("ASTM C928-05 table 1: the least of its class");

/// Source of [`guaranteed`] for packaged concrete.
const CLASS_CONCRETE: Source = Source::Standard("ASTM C387 table 1: the least of its class (from memory)");

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

/// A part of a bag is weighed out in steps of 1 lb, or of 0.5 kg. Common practice.
pub fn part_of_bag_step(units: Units) -> Mass {
    match units {
        Units::Inch => pounds(1.0),
        Units::Metric => Mass::new::<uom::si::mass::kilogram>(0.5),
    }
}

/// Rounding to the scale may change any one part of a mix by so much; more wants a finer scale. Common practice.
pub const WEIGHING_PART: f64 = 0.05;

/// A ratio by mass, a share or a specific gravity over this is a typing error.
pub const LARGEST_RATIO: f64 = 100.0;

/// Concrete with more cement than this in its volume runs hot and shrinks: 900 lb in a cubic yard. Common practice.
pub fn cement_most() -> MassDensity {
    pounds_a_cubic_foot(900.0 / 27.0)
}

/// No plasticiser saves more of the mixing water than this. Common practice: the strongest are sold for 40 %.
pub const LESS_WATER_MOST: f64 = 0.4;

/// Concrete in which cement and water are more than this share of the volume shrinks and curls. Common practice.
pub const PASTE_MOST: f64 = 0.4;

/// Stone is at most this share of the thickness.
pub const STONE_TO_THICKNESS: f64 = 1.0 / 3.0;

/// Source of the largest stone.
pub const STONE: Source = Source::Standard("ACI 211.1: stone of at most a third of the depth of a slab");

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

fn minutes(count: f64) -> Time {
    hour() * (count / 60.0)
}

fn hour() -> Time {
    Time::new::<uom::si::time::hour>(1.0)
}

// Steel.

/// Steel nearer than this to a face or an edge that is seen can telegraph: show as a line or as rust. Common
/// practice.
pub fn steel_cover() -> Length {
    inches(0.75)
}

/// Where less than this is left beside a bar or behind it, the mix does not close around it. Common practice:
/// three times the largest grain of a mortar.
pub fn steel_room() -> Length {
    inches(0.375)
}

/// A shorter bar is not worth its place: it has no length to hold by. Common practice.
pub fn bar_least() -> Length {
    inches(4.0)
}

/// More layers of lath than this are a typing error.
pub const MOST_LATH_LAYERS: u32 = 8;

/// More panels of lath than this in one piece are a typing error.
pub const MOST_PANELS: usize = 200;

/// Mass of one layer of lath of that class (ASTM C847: 2.5 and 3.4 lb a square yard).
pub fn lath_mass(lath: Lath, area: Area) -> Mass {
    let square_yard = inches(36.0) * inches(36.0);
    let class = match lath {
        Lath::None => 0.0,
        Lath::Light => 2.5,
        Lath::Heavy => 3.4,
    };
    pounds(class) * f64::from(area / square_yard)
}

/// Source of [`lath_mass`].
pub const LATH: Source = Source::Standard("ASTM C847: flat diamond mesh of 2.5 and of 3.4 lb/yd²");

/// Nominal diameter of a bar; nothing for none. In a metric job it is the soft-metric bar of the same kind.
pub fn bar_diameter(bar: BarSize, units: Units) -> Length {
    let (inch, millimetres) = match bar {
        BarSize::None => (0.0, 0.0),
        BarSize::Three => (0.375, 9.5),
        BarSize::Four => (0.5, 12.7),
        BarSize::Five => (0.625, 15.9),
    };
    match units {
        Units::Inch => inches(inch),
        Units::Metric => Length::new::<millimeter>(millimetres),
    }
}

/// Nominal mass of so long a bar. It is tabulated, and not the area times a density.
pub fn bar_mass(bar: BarSize, length: Length, units: Units) -> Mass {
    let (pounds_a_foot, kilograms_a_metre) = match bar {
        BarSize::None => (0.0, 0.0),
        BarSize::Three => (0.376, 0.560),
        BarSize::Four => (0.668, 0.994),
        BarSize::Five => (1.043, 1.552),
    };
    match units {
        Units::Inch => pounds(pounds_a_foot) * f64::from(length / inches(12.0)),
        Units::Metric => Mass::new::<kilogram>(kilograms_a_metre) * length.get::<meter>(),
    }
}

/// Source of [`bar_diameter`] and [`bar_mass`].
pub const BARS: Source = Source::Standard("ASTM A615 Table 1: nominal diameter and mass of bars");

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

/// The thickness whose drying is known: 2 in (50 mm). Source: [`seal_after_portland`].
pub fn seal_after_thickness(units: Units) -> Length {
    if units == Units::Metric { Length::new::<millimeter>(50.0) } else { inches(2.0) }
}

/// A top of portland cement of [`seal_after_thickness`] waits so long for its sealer: 28 days, which is a month for each
/// inch to an open side. Common practice, no source; the sealer's label outranks it.
pub fn seal_after_portland() -> Time {
    Time::new::<day>(28.0)
}

/// A thin top of portland cement is no younger than that when it is sealed: 7 days. Common practice, no source.
pub fn seal_least_portland() -> Time {
    Time::new::<day>(7.0)
}

/// A top of rapid mortar of [`seal_after_thickness`] waits so long for its sealer, as it binds most of its water: a day
/// or more. Common practice, no source; the sealer's label outranks it.
pub fn seal_after_rapid() -> Time {
    Time::new::<day>(1.0)
}

/// A thin top of rapid mortar is no younger than that when it is sealed: a day. Common practice, no source.
pub fn seal_least_rapid() -> Time {
    Time::new::<day>(1.0)
}

/// A coarse wheel, where its size is not typed: 5 in. Common practice.
pub fn wheel_usual() -> Length {
    inches(5.0)
}

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

/// The assigned protection factor of a respirator for dry grinding indoors. Source: [`SILICA_SHOP`].
pub const RESPIRATOR_FACTOR: u32 = 10;

/// Source of what grinding dry by hand asks for.
pub const SILICA: Source =
    Source::Standard("OSHA 29 CFR 1926.1153, Table 1: handheld grinders for uses other than mortar removal");

/// Source of what a shop that grinds its own tops falls under: the table of the construction rule, with its hours free of a
/// respirator, is not its own.
pub const SILICA_SHOP: Source = Source::Standard(
    "OSHA 29 CFR 1910.1053(c), (f), (g): general industry, a respirator until the air is measured; from memory",
);

/// Source of the limits of respirable silica.
pub const SILICA_LIMITS: Source = Source::Standard("OSHA 29 CFR 1910.1053(b), (c): action level and limit over 8 h");

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

/// From screeding to trowelling the back flat. Common practice.
pub fn trowel_after() -> Time {
    Time::new::<uom::si::time::minute>(5.0)
}

/// Shrinkage of concrete in the end, before its factors: 780 millionths (ACI 209R-92).
pub const ULTIMATE_SHRINKAGE: f64 = 780e-6;

/// Source of [`ULTIMATE_SHRINKAGE`] and its factors.
pub const SHRINKAGE: Source =
    Source::Standard("ACI 209R-92 2.3 to 2.5: 780 millionths × factors of humidity and volume to surface; from memory");

/// Relative humidity of a heated room, in which a top dries. Common practice, no source.
pub const ROOM_HUMIDITY: f64 = 0.5;

/// More than this out of flat shows against a straight edge. Common practice: 1/32 in.
pub fn curl_that_shows() -> Length {
    inches(1.0 / 32.0)
}
