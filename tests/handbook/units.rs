//! Unit conversions against the definitions they must follow.
//!
//! NIST SP 811 is the Guide for the Use of the SI, App. B.8; NIST HB 44 is Handbook 44, App. C.

use crate::evidence::{Check, Evidence, Mark, checks};
use pourwright::measure::{
    Units::{Inch, Metric},
    exact, read_area, read_clock, read_date, read_density, read_hours, read_length, read_mass, read_pressure,
    read_speed, read_surface_speed, read_temperature, read_volume,
};

checks![
    an_inch_is_25_4_millimetres,
    a_cubic_foot_is_28_316846592_litres,
    a_quart_is_57_75_cubic_inches,
    a_pound_is_0_45359237_kilograms,
    a_pound_force_a_square_inch_is_0_006894757_megapascals,
    a_pound_a_cubic_foot_is_16_01846_kilograms_a_cubic_metre,
    a_mile_an_hour_is_0_44704_metres_a_second,
    a_pound_a_square_foot_is_4_882428_kilograms_a_square_metre,
    a_gallon_is_231_cubic_inches,
    ten_fahrenheit_degrees_are_5_5556_celsius_degrees,
    a_gallon_of_water_weighs_8_3417_pounds,
    areas,
    surface_speeds
];

const DEFINITIONS: &str =
    "NIST Special Publication 811, Guide for the Use of the SI, Appendix B.8; read where it is quoted";
const MEASURES: &str = "NIST Handbook 44, Appendix C, General Tables of Units of Measurement; read where it is quoted";
const READERS: &str = "measure: the readers of what is typed";

#[track_caller]
fn assert_relative(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance * expected.abs(), "{value} is not {expected} within {tolerance}");
}

const EXACT: f64 = 1e-9;

fn litres(text: &str) -> f64 {
    read_volume(text, Inch).map_or(f64::NAN, |value| value.value * 1000.0)
}

fn metres(text: &str) -> f64 {
    read_length(text, Inch).map_or(f64::NAN, |value| value.value)
}

fn kilograms(text: &str) -> f64 {
    read_mass(text, Inch).map_or(f64::NAN, |value| value.value)
}

fn kelvins(text: &str) -> f64 {
    read_temperature(text, Inch).map_or(f64::NAN, |value| value.value)
}

/// U1, NIST SP 811 B.8.
fn an_inch_is_25_4_millimetres(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U1",
        title: "Inch and foot",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "1 in; 1 ft is 12 in",
        modelled: READERS,
        ..Check::default()
    });
    table.close("1 in, m", metres("1 in"), 0.0254, EXACT);
    table.close("25.4 mm, m", metres("25.4 mm"), 0.0254, EXACT);
    table.close("1 ft, m", metres("1 ft"), 0.3048, EXACT);
    assert_relative(metres("1"), metres("1 in"), EXACT);
}

/// U2, NIST SP 811 B.8.
fn a_cubic_foot_is_28_316846592_litres(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U2",
        title: "Cubic foot",
        source: DEFINITIONS,
        marks: &[Mark::Published, Mark::ByHand],
        problem: "1 ft³; printed as 0.028317 m³, the further digits are 12³ × 0.0254³",
        modelled: READERS,
        ..Check::default()
    });
    table.close("1 ft³, L", litres("1 ft³"), 28.316_846_592, EXACT);
}

/// U3, NIST HB 44 App. C.
fn a_quart_is_57_75_cubic_inches(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U3",
        title: "US liquid quart and pint",
        source: MEASURES,
        marks: &[Mark::Published],
        problem: "1 qt is 57.75 in³, 1 pt is 28.875 in³",
        modelled: READERS,
        ..Check::default()
    });
    table.close("1 qt, L", litres("1 qt"), 0.946_352_946, EXACT);
    table.close("57.75 in³, L", litres("57.75 in³"), 0.946_352_946, EXACT);
    table.close("1 pt, L", litres("1 pt"), 0.473_176_473, EXACT);
    assert_relative(litres("1 pt"), litres("28.875 in³"), EXACT);
}

/// U4, NIST SP 811 B.8.
fn a_pound_is_0_45359237_kilograms(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U4",
        title: "Pound and ounce",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "1 lb; 16 oz",
        modelled: READERS,
        ..Check::default()
    });
    table.close("1 lb, kg", kilograms("1 lb"), 0.453_592_37, EXACT);
    table.close("16 oz, kg", kilograms("16 oz"), 0.453_592_37, EXACT);
}

/// U5, NIST SP 811 B.8.
fn a_pound_force_a_square_inch_is_0_006894757_megapascals(evidence: &mut Evidence) {
    let pascals = read_pressure("1 psi", Metric).map_or(f64::NAN, |value| value.value);
    let table = evidence.check(Check {
        label: "U5",
        title: "Pound-force per square inch",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "1 psi",
        modelled: READERS,
        gap: "Seven digits are printed.",
        ..Check::default()
    });
    table.close("1 psi, MPa", pascals / 1e6, 0.006_894_757, 1e-6);
}

/// U6, NIST SP 811 B.8.
fn a_pound_a_cubic_foot_is_16_01846_kilograms_a_cubic_metre(evidence: &mut Evidence) {
    let density = read_density("1 lb/ft³", Metric).map_or(f64::NAN, |value| value.value);
    let table = evidence.check(Check {
        label: "U6",
        title: "Pound per cubic foot",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "1 lb/ft³",
        modelled: READERS,
        gap: "Seven digits are printed.",
        ..Check::default()
    });
    table.close("1 lb/ft³, kg/m³", density, 16.018_46, 1e-6);
}

/// NIST SP 811 B.8: 1 mi/h is 0.44704 m/s, 1 km/h 0.2777778 m/s.
fn a_mile_an_hour_is_0_44704_metres_a_second(evidence: &mut Evidence) {
    let speed = |text| read_speed(text, Metric).map_or(f64::NAN, |value| value.value);
    let table = evidence.check(Check {
        label: "U11",
        title: "Wind",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "1 mi/h; 1 km/h",
        modelled: READERS,
        gap: "Seven digits are printed.",
        ..Check::default()
    });
    table.close("1 mi/h, m/s", speed("1 mph"), 0.447_04, 1e-12);
    table.close("1 km/h, m/s", speed("1 km/h"), 0.277_777_8, 1e-6);
}

/// U7, computed with another library's constants (scipy.constants) from the inch and the pound.
fn a_pound_a_square_foot_is_4_882428_kilograms_a_square_metre(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U7",
        title: "Pound per square foot",
        source: "The inch and the pound of U1 and U4",
        marks: &[Mark::Computed("scipy 1.17.1, constants")],
        problem: "1 lb/ft², as rates of drying have it",
        modelled: READERS,
        gap: "Seven digits are told.",
        ..Check::default()
    });
    table.close("1 lb/ft², kg/m²", kilograms("1 lb") / metres("1 ft").powi(2), 4.882_428, 1e-6);
}

/// U8, NIST HB 44 App. C.
fn a_gallon_is_231_cubic_inches(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U8",
        title: "US gallon",
        source: MEASURES,
        marks: &[Mark::Published],
        problem: "1 gal is 231 in³ and 4 qt",
        modelled: READERS,
        ..Check::default()
    });
    table.close("1 gal, L", litres("1 gal"), 3.785_411_784, EXACT);
    table.close("231 in³, L", litres("231 in³"), 3.785_411_784, EXACT);
    table.close("4 qt, L", litres("4 qt"), 3.785_411_784, EXACT);
}

/// U9, the definition of the scales, from memory: a difference has no zero to be moved.
fn ten_fahrenheit_degrees_are_5_5556_celsius_degrees(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "U9",
        title: "Degrees",
        source: "Definition of the Fahrenheit and Celsius scales",
        marks: &[Mark::Memory],
        problem: "from 70 °F to 80 °F; the two points at which the scales are known to meet",
        conventions: "A difference has no zero to be moved: 10 °F of difference are 5.56 °C, and not −12.2 °C.",
        modelled: READERS,
        gap: "Five digits are told.",
        ..Check::default()
    });
    table.close("70 °F to 80 °F, K", kelvins("80 °F") - kelvins("70 °F"), 5.5556, 1e-4);
    table.close("32 °F, K", kelvins("32 °F"), 273.15, EXACT);
    table.close("−40 °F, K", kelvins("-40 °F"), 233.15, EXACT);
    assert_relative(kelvins("-40 °F"), kelvins("-40 °C"), EXACT);
}

/// U10, computed from the gallon at 62.4 lb/ft³.
fn a_gallon_of_water_weighs_8_3417_pounds(evidence: &mut Evidence) {
    let water = read_density("62.4 pcf", Inch).map_or(f64::NAN, |value| value.value);
    let table = evidence.check(Check {
        label: "U10",
        title: "Water by the gallon",
        source: "The gallon of U8 and the foot of U1",
        marks: &[Mark::ByHand],
        problem: "1 US gal at 62.4 lb/ft³: 231 ÷ 1728 × 62.4",
        modelled: READERS,
        gap: "Five digits are told.",
        ..Check::default()
    });
    table.close("1 gal of water, lb", litres("1 gal") / 1000.0 * water / kilograms("1 lb"), 8.3417, 1e-4);
}

/// The units of `uom` that follow the definitions, and so may be used as they are.
#[test]
fn these_units_of_uom_are_exact() {
    use uom::si::{
        area::square_foot, f64::*, length::foot, length::inch, thermodynamic_temperature::degree_fahrenheit,
        volume::liter,
    };
    const DUST: f64 = 1e-12;
    assert_relative(Length::new::<inch>(1.0).value, 0.0254, DUST);
    assert_relative(Length::new::<foot>(1.0).value, 0.3048, DUST);
    assert_relative(Area::new::<square_foot>(1.0).value, 0.3048 * 0.3048, DUST);
    assert_relative(Volume::new::<liter>(1.0).value, 0.001, DUST);
    assert_relative(
        ThermodynamicTemperature::new::<degree_fahrenheit>(70.0).value,
        exact::fahrenheit(70.0).value,
        DUST,
    );
}

/// Those that are rounded to seven digits: why [`exact`] is there. When this fails, it need not be.
#[test]
fn these_units_of_uom_are_rounded() {
    use uom::si::{
        f64::*, mass::pound, mass_density::pound_per_cubic_foot, pressure::pound_force_per_square_inch, pressure::psi,
        volume::cubic_foot, volume::quart_liquid,
    };
    let off = |value: f64, exact: f64| (value / exact - 1.0).abs();
    for off in [
        off(Mass::new::<pound>(1.0).value, exact::pounds(1.0).value),
        off(Volume::new::<cubic_foot>(1.0).value, exact::cubic_feet(1.0).value),
        off(Volume::new::<quart_liquid>(1.0).value, exact::quarts(1.0).value),
        off(MassDensity::new::<pound_per_cubic_foot>(1.0).value, exact::pounds_a_cubic_foot(1.0).value),
        off(Pressure::new::<psi>(1.0).value, exact::psi(1.0).value),
        off(Pressure::new::<pound_force_per_square_inch>(1.0).value, exact::psi(1.0).value),
    ] {
        assert!(off > 1e-9 && off < 1e-6, "{off}");
    }
}

/// NIST SP 811 B.8: a square foot is 9.290 304 E−02 m².
fn areas(evidence: &mut Evidence) {
    let square_metres = |text, units| read_area(text, units).map_or(f64::NAN, |value| value.value);
    let table = evidence.check(Check {
        label: "U12",
        title: "Square foot",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "1 ft²; 144 in²",
        modelled: READERS,
        ..Check::default()
    });
    table.close("1 ft², m²", square_metres("1", Inch), 0.092_903_04, EXACT);
    table.close("144 in², m²", square_metres("144 sq in", Metric), 0.092_903_04, EXACT);
    assert_relative(square_metres("2,5", Metric), 2.5, EXACT);
    assert!(read_area("20000", Inch).is_err() && read_area("-1", Inch).is_err());
}

/// NIST SP 811 B.8: a foot a minute is 5.08 E−03 m/s.
fn surface_speeds(evidence: &mut Evidence) {
    let metres_a_second = |text, units| read_surface_speed(text, units).map_or(f64::NAN, |value| value.value);
    let table = evidence.check(Check {
        label: "U13",
        title: "Foot per minute",
        source: DEFINITIONS,
        marks: &[Mark::Published],
        problem: "4500 ft/min, of 0.00508 m/s each",
        modelled: READERS,
        ..Check::default()
    });
    table.close("4500 ft/min, m/s", metres_a_second("4500", Inch), 22.86, EXACT);
    assert_relative(metres_a_second("4500 ft/min", Metric), 22.86, EXACT);
    assert_relative(metres_a_second("25", Metric), 25.0, EXACT);
}

/// A bare number of hours' work is hours; of a pour, minutes.
#[test]
fn hours_days_and_clocks() {
    let seconds = |text| read_hours(text, Inch).map_or(f64::NAN, |value| value.value);
    assert_relative(seconds("2"), 7200.0, EXACT);
    assert_relative(seconds("2:15"), 8100.0, EXACT);
    assert_relative(seconds("90 min"), 5400.0, EXACT);
    assert_eq!(read_clock("14:30").map(|time| time.value), Ok(52_200.0));
    for wrong in ["24:00", "7", "7:5", "noon", ""] {
        assert!(read_clock(wrong).is_err(), "{wrong}");
    }
    assert_eq!(read_date(" 2028-02-29 ").map(|day| day.to_string()), Ok("2028-02-29".to_owned()));
    for wrong in ["2027-02-29", "29.2.2028", ""] {
        assert!(read_date(wrong).is_err(), "{wrong}");
    }
}
