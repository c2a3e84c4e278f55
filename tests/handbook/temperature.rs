//! The temperature of a fresh mix, and of the water for it.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within};
use pourwright::measure::exact::{fahrenheit, in_pounds, pounds};
use pourwright::measure::{Mass, Temperature, Units};
use pourwright::pour::temperature::{Charge, ChargeProblem};
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

checks![temperature_of_a_mix, temperature_of_a_mix_in_si, ice_for_a_temperature];

const FRESH: &str =
    "ACI 305R and 306R; UFC 3-130-04, Eq. 16, read in a public copy; the ice term of 144 − 32 = 112 is from memory";

fn mixed(charge: Charge) -> f64 {
    charge.temperature().expect("a temperature").value.get::<degree_fahrenheit>()
}

fn charge(aggregate: [f64; 2], moisture: f64, cement: [f64; 2], water: [f64; 2], ice: f64) -> Charge {
    Charge {
        dry: pounds(cement[0]),
        dry_temperature: fahrenheit(cement[1]),
        aggregate: pounds(aggregate[0]),
        aggregate_temperature: fahrenheit(aggregate[1]),
        moisture: pounds(moisture),
        water: pounds(water[0]),
        water_temperature: fahrenheit(water[1]),
        ice: pounds(ice),
    }
}

/// T1: stone and sand 3000 lb at 80 °F, cement 564 lb at 150 °F, water 282 lb at 80 °F.
fn warm() -> Charge {
    charge([3000.0, 80.0], 0.0, [564.0, 150.0], [282.0, 80.0], 0.0)
}

/// T2: half of the water as ice.
fn iced() -> Charge {
    charge([3000.0, 90.0], 32.0, [564.0, 150.0], [125.0, 75.0], 125.0)
}

/// T4: a bag of 80 lb at 55 °F, 7 lb of water at 110 °F.
fn bag() -> Charge {
    Charge::bagged(pounds(80.0), fahrenheit(55.0), pounds(7.0), fahrenheit(110.0))
}

/// T1, T2 and T4: ACI 305R and 306R (formula published, UFC 3-130-04 Eq. 16; ice term 144 − 32 = 112 from
/// memory), computed.
fn temperature_of_a_mix(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "T1, T2, T4",
        title: "Temperature of a fresh mix",
        source: FRESH,
        marks: &[Mark::Published, Mark::Memory, Mark::ByHand],
        problem: "T1: stone and sand 3000 lb at 80 °F, cement 564 lb at 150 °F, water 282 lb at 80 °F. T2: 3000 lb at 90 °F \
            with 32 lb of free water, 564 lb at 150 °F, water 125 lb at 75 °F, ice 125 lb. T4: a bag of 80 lb at 55 °F, 7 lb \
            of water at 110 °F",
        conventions: "A bag counts as dry matter, 0.22 of the heat of water. A US Army method has 143.5 Btu/lb for 144.",
        modelled: "pour::temperature::Charge::temperature",
        gap: "Four digits are told.",
        ..Check::default()
    });
    table.close("T1, °F", mixed(warm()), 88.15, 1e-3);
    table.close("T2, half of the water as ice, °F", mixed(iced()), 71.54, 1e-3);
    table.close("T4, a bag, °F", mixed(bag()), 70.65, 1e-3);
}

/// The working is in the units that are asked for, and its numbers come to its result in either: T4 by hand is
/// (968 + 770) ÷ 24.6. A mean of temperatures needs no zero: ice counts as water that is 144 °F colder than 32 °F, or 80 °C
/// colder than 0 °C.
#[test]
fn working_in_the_units_of_the_job() {
    let working = bag().temperature().expect("a temperature").working;
    let [inch, metric] = [Units::Inch, Units::Metric].map(|units| working.lines(units).pop().expect("a line"));
    assert_eq!(inch.numbers, "(0.22 × 80 lb × 55 °F + 7 lb × 110 °F) ÷ (0.22 × 80 lb + 7 lb)");
    assert_eq!(inch.result, "≈ 70.7 °F");
    assert!(metric.numbers.contains(" kg × 12.8 °C + "), "{metric:?}");
    assert_eq!(metric.result, "≈ 21.5 °C");
    let iced = iced().temperature().expect("a temperature").working;
    let [inch, metric] = [Units::Inch, Units::Metric].map(|units| iced.lines(units).pop().expect("a line").numbers);
    assert!(inch.contains(" + 125 lb × -112 °F) ÷ "), "{inch}");
    assert!(metric.contains(" × -80 °C) ÷ "), "{metric}");
}

/// T3, the SI form: stone and sand 1800 kg at 25 °C, cement 335 kg at 60 °C, water 167 kg at 20 °C.
fn temperature_of_a_mix_in_si(evidence: &mut Evidence) {
    let celsius = Temperature::new::<degree_celsius>;
    let kilograms = Mass::new::<kilogram>;
    let charge = Charge {
        aggregate: kilograms(1800.0),
        aggregate_temperature: celsius(25.0),
        ..Charge::bagged(kilograms(335.0), celsius(60.0), kilograms(167.0), celsius(20.0))
    };
    let found = charge.temperature().expect("a temperature").value;
    let table = evidence.check(Check {
        label: "T3",
        title: "The same in SI",
        source: FRESH,
        marks: &[Mark::Published, Mark::ByHand],
        problem: "stone and sand 1800 kg at 25 °C, cement 335 kg at 60 °C, water 167 kg at 20 °C",
        modelled: "pour::temperature::Charge::temperature, of a metric job",
        gap: "Four digits are told.",
        ..Check::default()
    });
    table.close("T3, °C", found.get::<degree_celsius>(), 27.74, 1e-3);
}

/// The water for the temperature of T1, T2 and T4 is theirs, and for another temperature the mix comes out so.
#[test]
fn water_for_a_temperature() {
    for (charge, water) in [(warm(), 80.0), (iced(), 75.0), (bag(), 110.0)] {
        let out = charge.temperature().expect("a temperature").value;
        let back = charge.water_for(out).expect("water").value;
        assert_within(back.get::<degree_fahrenheit>(), water, 1e-6);
        let cooler = fahrenheit(out.get::<degree_fahrenheit>() - 5.0);
        let water_temperature = charge.water_for(cooler).expect("colder water").value;
        assert_within(mixed(Charge { water_temperature, ..charge }), cooler.get::<degree_fahrenheit>(), 1e-6);
    }
}

/// T2 solved for its ice: of 250 lb of water at 75 °F, 125 lb are ice.
fn ice_for_a_temperature(evidence: &mut Evidence) {
    let out = iced().temperature().expect("a temperature").value;
    let all_water = Charge { water: pounds(250.0), ice: pounds(0.0), ..iced() };
    let ice = all_water.ice_for(out).expect("ice").value;
    let table = evidence.check(Check {
        label: "T2",
        title: "Ice for a temperature",
        source: FRESH,
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "T2 solved for its ice, of 250 lb of water at 75 °F",
        modelled: "pour::temperature::Charge::ice_for",
        ..Check::default()
    });
    table.close("ice, lb", in_pounds(ice), 125.0, EXACT);
    // As it is, it needs none.
    let as_it_is = all_water.temperature().expect("a temperature").value;
    assert_within(in_pounds(all_water.ice_for(as_it_is).expect("none").value), 0.0, 1e-9);
}

/// Water no colder than freezing, no hotter than 140 °F (ACI 306R, from memory), no more ice than water: what
/// is out of reach says how near it comes.
#[test]
fn out_of_reach() {
    let Err(ChargeProblem::NotSoCold(coldest)) = bag().water_for(fahrenheit(40.0)) else {
        panic!("water under freezing")
    };
    // (0.22 × 80 × 55 + 7 × 32) ÷ (17.6 + 7) by the formula of T1.
    assert_close(coldest.get::<degree_fahrenheit>(), (0.22 * 80.0 * 55.0 + 7.0 * 32.0) / 24.6, EXACT);
    let Err(ChargeProblem::NotSoWarm(warmest)) = bag().water_for(fahrenheit(90.0)) else {
        panic!("water over 140 °F")
    };
    assert_close(warmest.get::<degree_fahrenheit>(), (0.22 * 80.0 * 55.0 + 7.0 * 140.0) / 24.6, EXACT);
    // Hot bags: with all 7 lb as ice, (0.22 × 80 × 120 − 112 × 7) ÷ 24.6.
    let hot = Charge::bagged(pounds(80.0), fahrenheit(120.0), pounds(7.0), fahrenheit(70.0));
    let Err(ChargeProblem::NotSoCold(coldest)) = hot.ice_for(fahrenheit(40.0)) else { panic!("more ice than water") };
    assert_close(coldest.get::<degree_fahrenheit>(), (0.22 * 80.0 * 120.0 - 112.0 * 7.0) / 24.6, EXACT);
    assert!(matches!(hot.ice_for(fahrenheit(110.0)), Err(ChargeProblem::NotSoWarm(_))));
    let dry = Charge { water: pounds(0.0), ..bag() };
    assert_eq!(dry.water_for(fahrenheit(60.0)), Err(ChargeProblem::NoWater));
}

#[test]
fn charges_that_cannot_be() {
    for (charge, problem) in [
        (Charge { dry: pounds(-1.0), ..bag() }, ChargeProblem::NoNumber),
        (Charge { dry: pounds(f64::NAN), ..bag() }, ChargeProblem::NoNumber),
        (Charge::bagged(pounds(0.0), fahrenheit(70.0), pounds(0.0), fahrenheit(70.0)), ChargeProblem::NoNumber),
        (Charge { dry_temperature: fahrenheit(f64::INFINITY), ..bag() }, ChargeProblem::NoNumber),
        (Charge { water_temperature: fahrenheit(31.0), ..bag() }, ChargeProblem::Water),
        (Charge { ice: pounds(20.0), ..bag() }, ChargeProblem::IceLeft),
    ] {
        assert_eq!(charge.temperature(), Err(problem), "{charge:?}");
    }
}
