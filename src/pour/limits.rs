//! The limits and constants of pour day: time, weather, curing, strength, each with its source beside it.
//! A rule, its message and its test all read the limit here.

use crate::job::{Family, LabelClass};
use crate::measure::exact::{fahrenheit, inches, pounds, psi};
use crate::measure::{Area, Mass, Pressure, Temperature, Time, Units};
use crate::working::Source;
use uom::si::f64::{MassFlux, TemperatureInterval, Velocity};
use uom::si::mass::kilogram;
use uom::si::temperature_interval as interval;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::kilometer_per_hour;

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

/// Source of [`air_least`].
pub const COLD: Source = Source::Standard("ACI 306R: cold-weather concreting under 40 °F (4 °C)");

/// Source of [`air_most`].
pub const HOT: Source = Source::Standard("ACI 305R: hot-weather concreting");

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

/// A part of a bag is weighed out in steps of 1 lb, or of 0.5 kg. Common practice.
pub fn part_of_bag_step(units: Units) -> Mass {
    match units {
        Units::Inch => pounds(1.0),
        Units::Metric => Mass::new::<uom::si::mass::kilogram>(0.5),
    }
}

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

/// From screeding to trowelling the back flat. Common practice.
pub fn trowel_after() -> Time {
    Time::new::<uom::si::time::minute>(5.0)
}

fn square_foot() -> Area {
    inches(12.0) * inches(12.0)
}

fn minutes(count: f64) -> Time {
    hour() * (count / 60.0)
}

fn hour() -> Time {
    Time::new::<uom::si::time::hour>(1.0)
}
