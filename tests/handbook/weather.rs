//! Drying of a fresh face, and cold and heat.

use crate::assert_close;
use crate::evidence::{Check, Evidence, Mark, checks};
use pourwright::finding::Severity;
use pourwright::measure::exact::fahrenheit;
use pourwright::measure::{Temperature, Units};
use pourwright::pour::weather::{Drying, Evaporation, Weather, WeatherProblem, temperature_advice};
use pourwright::pour::{write_drying, write_wind};
use uom::si::f64::Velocity;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::velocity::{kilometer_per_hour, mile_per_hour};

checks![
    drying_by_the_formula,
    drying_as_read_from_the_chart,
    drying_by_another_formula,
    dew_is_no_drying,
    limits_and_band
];

const UNO: &str = "P. J. Uno, Plastic Shrinkage Cracking and Evaporation Formulas, ACI Materials Journal 95-M34 (1998), SI form; \
    read in public sources that quote it";

fn weather(air: f64, mix: f64, humidity: f64, wind: f64) -> Weather {
    let celsius = Temperature::new::<degree_celsius>;
    Weather { air: celsius(air), mix: celsius(mix), humidity, wind: Velocity::new::<kilometer_per_hour>(wind) }
}

/// The example of the chart: air 80 °F, 50 %, mix 87 °F, wind 12 mph.
fn chart() -> Weather {
    let wind = Velocity::new::<mile_per_hour>(12.0);
    Weather { air: fahrenheit(80.0), mix: fahrenheit(87.0), humidity: 0.5, wind }
}

fn dry(weather: Weather) -> Evaporation {
    weather.evaporation(false).expect("weather that can be")
}

/// In kg/m²/h.
fn an_hour(weather: Weather) -> f64 {
    dry(weather).estimate.value.value * 3600.0
}

/// In lb/ft²/h, of which one is 4.882428 kg/m²/h (U7, computed with scipy.constants).
fn pounds(weather: Weather) -> f64 {
    an_hour(weather) / 4.882_428
}

/// E3 and E5 to E7: Uno's SI form, ACI Materials Journal 95 (1998), published; values computed.
fn drying_by_the_formula(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "E3, E5 to E7",
        title: "Drying of a fresh face",
        source: UNO,
        marks: &[Mark::Published, Mark::Computed("numpy 2.4.6")],
        problem: "E = 5 ((Tc + 18)^2.5 − r (Ta + 18)^2.5)(V + 4) ÷ 10⁶ in °C and km/h. E3: air 80 °F, 50 %, mix 87 °F, wind \
            12 mph. E5: 22 °C, 50 %, 24 °C, 3 km/h. E6: 30 °C, 40 %, 35 °C, 15 km/h. E7: 25 °C, 50 %, 25 °C, still",
        conventions: "Wind is that 0.5 m over the face. Still air dries too.",
        modelled: "pour::weather::Weather::evaporation",
        gap: "Four to five digits are told.",
        ..Check::default()
    });
    table.close("E3, kg/m²/h", an_hour(chart()), 1.1378, 1e-3);
    table.close("E3, lb/ft²/h", pounds(chart()), 0.2330, 1e-3);
    for (what, weather, expected) in [
        ("E5", weather(22.0, 24.0, 0.5, 3.0), 0.2230),
        ("E6", weather(30.0, 35.0, 0.4, 15.0), 1.3362),
        ("E7", weather(25.0, 25.0, 0.5, 0.0), 0.1212),
    ] {
        table.close(format!("{what}, kg/m²/h"), an_hour(weather), expected, 1e-3);
    }
}

/// E1 and E2: the chart of ACI 305R-99 Fig. 2.1.5 is read as 0.25 lb/ft²/h (from memory), and Uno's US form of
/// it, (Tc^2.5 − r Ta^2.5)(1 + 0.4 V) ÷ 10⁶, gives 0.2435 (from memory, computed): the two forms of one chart
/// are within its reading.
fn drying_as_read_from_the_chart(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "E1, E2",
        title: "The same by the chart",
        source: "ACI 305R-99, Fig. 2.1.5, its own example; and Uno's US form of that chart",
        marks: &[Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "air 80 °F, 50 %, mix 87 °F, wind 12 mph: 0.25 lb/ft²/h off the chart, 0.2435 by the US form",
        conventions: "Uno's US and SI forms are two fits of one chart and part by 4 %; this program takes the SI form.",
        modelled: "pour::weather::Weather::evaporation",
        gap: "The chart is read by eye, and the two fits of it are not one.",
        ..Check::default()
    });
    table.within("off the chart, lb/ft²/h", pounds(chart()), 0.25, 0.03);
    table.close("by the US form, lb/ft²/h", pounds(chart()), 0.2435, 0.05);
    let american = (87.0_f64.powf(2.5) - 0.5 * 80.0_f64.powf(2.5)) * (1.0 + 0.4 * 12.0) * 1e-6;
    assert_close(american, 0.2435, 1e-3);
}

/// E4, with E11: Menzel's form, 0.315 (es(mix) − r es(air)) (0.253 + 0.060 V) in kPa and km/h (from memory; es
/// computed with PsychroLib): another formula for the same chart is within the band by far.
fn drying_by_another_formula(evidence: &mut Evidence) {
    let kilopascals = 6.894_757;
    let (mix, air) = (0.63575 * kilopascals, 0.50735 * kilopascals);
    let menzel = 0.315 * (mix - 0.5 * air) * (0.253 + 0.060 * 12.0 * 1.609_344);
    assert_close(menzel, 1.1715, 3e-3);
    let table = evidence.check(Check {
        label: "E4, E11",
        title: "The same by another formula",
        source: "C. A. Menzel (1954) as in ACI 305R: 0.315 (es(Tc) − r es(Ta))(0.253 + 0.060 V) in kPa and km/h",
        marks: &[Mark::Memory, Mark::Computed("PsychroLib 2.5.0 for the vapour pressures")],
        problem: "E1's weather; es is 0.50735 psi at 80 °F and 0.63575 psi at 87 °F",
        conventions: "Another fit of the same chart: it shows how far formulas part, far less than the band of ± 40 %.",
        modelled: "pour::weather::Weather::evaporation",
        gap: "Two formulas for one chart.",
        ..Check::default()
    });
    table.close("by Menzel, kg/m²/h", an_hour(chart()), 1.1715, 0.04);
}

/// E8: raw −0.0882 kg/m²/h is reported as no drying.
fn dew_is_no_drying(evidence: &mut Evidence) {
    let found = dry(weather(24.0, 20.0, 0.95, 5.0));
    let raw = found
        .estimate
        .working
        .lines(Units::Inch)
        .iter()
        .find_map(|line| line.result.strip_suffix(" kg/m²/h")?.parse().ok());
    let table = evidence.check(Check {
        label: "E8",
        title: "Dew",
        source: UNO,
        marks: &[Mark::Published, Mark::Computed("numpy 2.4.6")],
        problem: "air 24 °C, 95 %, mix 20 °C, wind 5 km/h: the formula gives −0.0882 kg/m²/h, which is no drying",
        modelled: "pour::weather::Weather::evaporation, with the line of its working",
        gap: "The working writes three places.",
        ..Check::default()
    });
    table.within("in the working, kg/m²/h", raw.expect("a number"), -0.0882, 5e-4);
    table.within("told, kg/m²/h", found.estimate.value.value, 0.0, 0.0);
    assert_eq!(found.drying, Drying::None);
    let advice = found.advice(Units::Metric).expect("something to say");
    assert_eq!(advice.severity, Severity::Note);
    assert!(advice.says.starts_with("No drying"), "{}", advice.says);
}

/// E9, ACI 305R and 305.1: 0.2 lb/ft²/h, about 1.0 kg/m²/h, and half of it for mixes that bleed little; E12,
/// Hover 2020, SP-338: ±40 %.
fn limits_and_band(evidence: &mut Evidence) {
    let usual = dry(chart());
    let little = chart().evaporation(true).expect("weather that can be");
    let table = evidence.check(Check {
        label: "E9, E12",
        title: "When drying is too fast, and how sure that is",
        source: "ACI 305R-91 and 305.1-06 for the limit, read where they are quoted; K. C. Hover, SP-338 (2020), for ± 40 %, \
            read in its abstract",
        marks: &[Mark::Published],
        problem: "0.2 lb/ft²/h, half of it for mixes that bleed little; 1.1378 kg/m²/h less and more 40 %",
        modelled: "pour::limits::drying_most; pour::weather::Evaporation",
        gap: "1.1378 is told with five digits.",
        ..Check::default()
    });
    table.close("limit, lb/ft²/h", pourwright::pour::limits::drying_most().value * 3600.0 / 4.882_428, 0.2, 1e-6);
    table.close("limit with little bleeding, lb/ft²/h", little.limit.value * 3600.0 / 4.882_428, 0.1, 1e-6);
    table.close("least, kg/m²/h", usual.least.value * 3600.0, 0.68268, 1e-3);
    table.close("most, kg/m²/h", usual.most.value * 3600.0, 1.59292, 1e-3);
}

/// Both sides of every limit: the estimate for still air at 25 °C over air of 50 % grows in proportion to
/// (wind + 4), from 0.1212 kg/m²/h in still air (E7).
#[test]
fn verdicts_on_both_sides() {
    let wind = |estimate: f64| 4.0 * estimate / 0.121_247 - 4.0;
    let limit = 0.2 * 4.882_428;
    for (estimate, expected) in [
        (limit * 1.01, Drying::Fast),
        (limit * 0.99, Drying::Perhaps),
        (limit / 1.4 * 1.01, Drying::Perhaps),
        (limit / 1.4 * 0.99, Drying::Slow),
    ] {
        assert_eq!(dry(weather(25.0, 25.0, 0.5, wind(estimate))).drying, expected, "{estimate}");
    }
}

/// What each measure would make of it is worked out, not listed.
#[test]
fn what_to_do_against_drying() {
    let found = chart().evaporation(false).expect("weather that can be");
    assert_eq!(found.drying, Drying::Fast);
    let still = Weather { wind: Velocity::default(), ..chart() };
    assert_close(found.in_still_air.value, dry(still).estimate.value.value, 1e-12);
    let cool = Weather { mix: chart().air, ..chart() };
    assert_close(found.as_cool_as_air.value, dry(cool).estimate.value.value, 1e-12);
    let advice = found.advice(Units::Inch).expect("something to say");
    assert_eq!(advice.severity, Severity::Watch);
    assert!(advice.says.contains("0.14 lb/ft²/h to 0.33 lb/ft²/h"), "{}", advice.says);
    assert!(advice.remedy.contains("0.04 lb/ft²/h in still air"), "{}", advice.remedy);
}

/// At one humidity it is cool air over a warm mix that dries fastest.
#[test]
fn cool_air_over_a_warm_mix() {
    let mix = 25.0;
    assert!(an_hour(weather(5.0, mix, 0.5, 5.0)) > an_hour(weather(20.0, mix, 0.5, 5.0)));
}

#[test]
fn weather_that_cannot_be() {
    let good = weather(20.0, 20.0, 0.5, 5.0);
    for (weather, problem) in [
        (weather(-19.0, 20.0, 0.5, 5.0), WeatherProblem::Air),
        (weather(20.0, 61.0, 0.5, 5.0), WeatherProblem::Mix),
        (weather(20.0, f64::NAN, 0.5, 5.0), WeatherProblem::Mix),
        (Weather { humidity: 1.01, ..good }, WeatherProblem::Humidity),
        (Weather { humidity: f64::NAN, ..good }, WeatherProblem::Humidity),
        (weather(20.0, 20.0, 0.5, -1.0), WeatherProblem::Wind),
        (weather(20.0, 20.0, 0.5, f64::INFINITY), WeatherProblem::Wind),
    ] {
        assert_eq!(weather.evaporation(false), Err(problem));
    }
}

/// ACI 306R: cold weather under 40 °F (published) and over at 50 °F (ACI glossary, published), thin work placed at 55 °F or more (Table 3.1), 500 psi before frost; ACI
/// 305.1: placed at 95 °F or less. On both sides of each.
#[test]
fn cold_and_heat() {
    let says = |air: f64, mix: f64| temperature_advice(fahrenheit(air), fahrenheit(mix), Units::Inch);
    for (air, mix, expected) in [
        (50.0, 55.0, vec![]),
        (49.0, 55.0, vec![Severity::Note]),
        (40.0, 55.0, vec![Severity::Note]),
        (39.0, 55.0, vec![Severity::Watch]),
        (33.0, 55.0, vec![Severity::Watch]),
        (32.0, 55.0, vec![Severity::Stop, Severity::Watch]),
        (70.0, 54.0, vec![Severity::Watch]),
        (70.0, 95.0, vec![]),
        (70.0, 96.0, vec![Severity::Watch]),
    ] {
        let found: Vec<_> = says(air, mix).iter().map(|advice| advice.severity).collect();
        assert_eq!(found, expected, "{air} {mix}");
    }
    // M9 at 5 °C, which is 41 °F, against 23 °C: Nurse-Saul from 0 °C gives 5 ÷ 23, from −10 °C 15 ÷ 33.
    let cool = &says(41.0, 60.0)[0].says;
    assert!(cool.contains("0.22 to 0.45 times"), "{cool}");
    assert!(says(20.0, 60.0)[0].says.contains("500 psi"));
}

#[test]
fn writing_of_rates_and_winds() {
    assert_eq!(write_drying(pourwright::pour::limits::drying_most(), Units::Inch), "0.2 lb/ft²/h");
    assert_eq!(write_drying(pourwright::pour::limits::drying_most(), Units::Metric), "0.98 kg/m²/h");
    assert_eq!(write_wind(Velocity::new::<mile_per_hour>(12.0), Units::Inch), "12 mph");
    assert_eq!(write_wind(Velocity::new::<mile_per_hour>(12.0), Units::Metric), "19.3 km/h");
}
