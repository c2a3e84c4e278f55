//! Mixes made from scratch: by ACI 211.1, by ratios of mass, and what goes in beside them.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within};
use pourwright::measure::exact::{cubic_feet, in_cubic_feet, in_pounds, inches, pounds, pounds_a_cubic_foot, psi};
use pourwright::measure::{Area, Length, Mass, Pressure, Units, Volume};
use pourwright::mix::limits::water_density;
use pourwright::mix::proportion::{
    Additive, AdditiveProblem, Air, Concrete, Gravities, Input, Liquid, Materials, Moisture, ProportionProblem,
    Proportions, Recipe, Role, Weighed, concrete, layers, scale_step, share_out,
};
use uom::si::area::square_meter;
use uom::si::mass::{gram, kilogram};
use uom::si::pressure::megapascal;
use uom::si::volume::liter;

checks![
    a_cubic_yard_by_the_tables,
    exposure_outranks_strength,
    the_example_of_the_standard,
    water_to_cement_by_strength,
    a_cubic_metre,
    wet_aggregates,
    absolute_volume_of_a_sack,
    a_glass_fibre_backer,
    a_mortar
];

const NAVY: &str =
    "US Navy, training manual for Engineering Aids, absolute-volume method, worked example; read in a public copy";

/// The worked example of a US Navy training manual: 3000 psi, air for moderate exposure, stone of 3/4 in, slump
/// of 3 in, 0.50 for exposure.
fn wanted() -> Concrete {
    Concrete {
        slump: inches(3.0),
        stone_size: inches(0.75),
        strength: psi(3000.0),
        air: Air::Moderate,
        most_water_to_cement: Some(0.50),
        less_water: 0.0,
    }
}

/// Stone of 102 lb/ft³ dry-rodded, which makes the example's 1735 lb of 0.63.
fn materials() -> Materials {
    Materials {
        cement_gravity: 3.15,
        stone_gravity: 2.60,
        stone_bulk: pounds_a_cubic_foot(102.0),
        stone_moisture: Moisture::default(),
        sand_gravity: 2.65,
        fineness: 2.7,
        sand_moisture: Moisture::default(),
    }
}

fn made(wanted: Concrete, materials: Materials) -> Proportions {
    concrete(&wanted, &materials, Units::Inch).expect("proportions")
}

fn weight(mix: &Proportions, role: Role) -> f64 {
    in_pounds(mix.part(role).expect("a part").mass.value)
}

fn absolute(mix: &Proportions, role: Role) -> f64 {
    in_cubic_feet(mix.part(role).expect("a part").volume)
}

/// X1 to X4, US Navy training manual, published: by the tables to the masses of a cubic yard.
fn a_cubic_yard_by_the_tables(evidence: &mut Evidence) {
    let mix = made(wanted(), materials());
    let table = evidence.check(Check {
        label: "X1 to X4",
        title: "A cubic yard by the tables",
        source: NAVY,
        marks: &[Mark::Published],
        problem: "3000 psi, stone of 3/4 in, slump of 3 in, air for moderate exposure, 0.50 at most; specific gravities 3.15, \
            2.60, 2.65, fineness 2.7",
        conventions: "The stone's dry-rodded mass is not printed: 102 lb/ft³ makes the example's 1735 lb of its 0.63.",
        modelled: "mix::proportion::concrete",
        gap: "The example rounds each volume to 0.01 ft³ before it takes the sand from what is left; 0.01 ft³ of sand are \
            1.65 lb.",
        ..Check::default()
    });
    table.close("air", mix.air, 0.05, EXACT);
    table.within("water, lb", weight(&mix, Role::Water), 305.0, 1e-6);
    table.within("cement, lb", weight(&mix, Role::Cement), 610.0, 1e-6);
    table.within("stone, lb", weight(&mix, Role::Stone), 1735.0, 0.1);
    table.within("cement, ft³", absolute(&mix, Role::Cement), 3.10, 0.01);
    table.within("water, ft³", absolute(&mix, Role::Water), 4.89, 0.01);
    table.within("stone, ft³", absolute(&mix, Role::Stone), 10.69, 0.01);
    table.within("sand, ft³", absolute(&mix, Role::Sand), 6.97, 0.01);
    table.within("sand, lb", weight(&mix, Role::Sand), 1152.0, 2.0);
    table.close("water to cement", mix.water_to_cement().value, 0.50, EXACT);
    assert_close(in_cubic_feet(mix.volume), 27.0, EXACT);
    let table = evidence.check(Check {
        label: "B1",
        title: "Density of that yard",
        source: "ASTM C138: D = M ÷ Y",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "3802 lb in 27 ft³",
        modelled: "mix::proportion::Proportions::density",
        gap: "The sand of the example is rounded as above.",
        ..Check::default()
    });
    let density = mix.density().value.value / pounds_a_cubic_foot(1.0).value;
    table.close("density, lb/ft³", density, 140.815, 1e-3);
}

/// X4: for strength alone, the table with air asks for 0.59 at 3000 psi; the exposure's 0.50 outranks it.
fn exposure_outranks_strength(evidence: &mut Evidence) {
    let for_strength = made(Concrete { most_water_to_cement: None, ..wanted() }, materials());
    let table = evidence.check(Check {
        label: "X4",
        title: "Exposure outranks strength",
        source: NAVY,
        marks: &[Mark::Published],
        problem: "3000 psi with air: 0.59 for strength alone, 0.50 for exposure",
        modelled: "mix::proportion::concrete, with and without a most",
        ..Check::default()
    });
    table.close("for strength alone", for_strength.water_to_cement().value, 0.59, EXACT);
    let for_exposure = made(wanted(), materials());
    table.close("with exposure", for_exposure.water_to_cement().value, 0.50, EXACT);
}

/// X8, ACI 211.1-91 App. 2 example 1, from memory: stone of 1 1/2 in, 300 lb of water, the ratio taken as 0.62
/// (484 lb of cement), fineness 2.8, 1 % of air: 1917 lb of stone, 8.00 ft³ and 1317 lb of sand.
fn the_example_of_the_standard(evidence: &mut Evidence) {
    let wanted = Concrete {
        slump: inches(3.5),
        stone_size: inches(1.5),
        strength: psi(3500.0),
        air: Air::Entrapped,
        most_water_to_cement: Some(0.62),
        less_water: 0.0,
    };
    let materials = Materials {
        stone_gravity: 2.68,
        stone_bulk: pounds_a_cubic_foot(100.0),
        sand_gravity: 2.64,
        fineness: 2.8,
        ..materials()
    };
    let mix = made(wanted, materials);
    let table = evidence.check(Check {
        label: "X8",
        title: "The example of the standard",
        source: "ACI 211.1-91, Appendix 2, example 1",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "stone of 1 1/2 in, slump 3 to 4 in, 300 lb of water, 0.62, stone 100 lb/ft³ and 2.68, sand 2.64 and \
            fineness 2.8, 1 % of air",
        modelled: "mix::proportion::concrete",
        gap: "The example rounds each volume before it takes the sand from what is left.",
        ..Check::default()
    });
    table.within("water, lb", weight(&mix, Role::Water), 300.0, 1e-6);
    table.within("cement, lb", weight(&mix, Role::Cement), 484.0, 0.5);
    table.within("stone, lb", weight(&mix, Role::Stone), 1917.0, 0.5);
    table.within("sand, ft³", absolute(&mix, Role::Sand), 8.00, 0.01);
    table.within("sand, lb", weight(&mix, Role::Sand), 1317.0, 3.0);
}

fn ratio_for(strength: Pressure, air: Air) -> f64 {
    let wanted = Concrete { strength, air, most_water_to_cement: None, ..wanted() };
    made(wanted, materials()).water_to_cement().value
}

/// X6, ACI 211.1-91 Table 6.3.4(a), published; and X5, the same in MPa as published apart from it (PCA Table
/// 9-3), which rounds otherwise.
fn water_to_cement_by_strength(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "X6",
        title: "Water to cement by strength",
        source: "ACI 211.1-91, Table 6.3.4(a); the ends of the column without air were read where it is quoted, the rest is \
            from memory",
        marks: &[Mark::Published, Mark::Memory],
        problem: "without air from 6000 to 2000 psi, with air from 5000 to 2000 psi",
        modelled: "mix::proportion::concrete",
        ..Check::default()
    });
    for (strength, ratio) in [(6000.0, 0.41), (5000.0, 0.48), (4000.0, 0.57), (3000.0, 0.68), (2000.0, 0.82)] {
        table.close(format!("{strength} psi"), ratio_for(psi(strength), Air::Entrapped), ratio, EXACT);
    }
    for (strength, ratio) in [(5000.0, 0.40), (4000.0, 0.48), (3000.0, 0.59), (2000.0, 0.74)] {
        table.close(format!("{strength} psi with air"), ratio_for(psi(strength), Air::Severe), ratio, EXACT);
    }
    let table = evidence.check(Check {
        label: "X5",
        title: "The same in SI",
        source: "PCA, Design and Control of Concrete Mixtures, Table 9-3; read where it is quoted",
        marks: &[Mark::Published],
        problem: "without air, 40 to 15 MPa",
        conventions: "This program has the table in psi alone and goes straight between its rows; the metric one was rounded \
            by itself.",
        modelled: "mix::proportion::concrete",
        gap: "The metric table is printed to 0.01, and each of its rows lies between two of the other.",
        ..Check::default()
    });
    for (strength, ratio) in [(40.0, 0.42), (35.0, 0.47), (30.0, 0.54), (25.0, 0.61), (20.0, 0.69), (15.0, 0.79)] {
        let found = ratio_for(Pressure::new::<megapascal>(strength), Air::Entrapped);
        table.within(format!("{strength} MPa"), found, ratio, 0.01);
    }
}

/// Published in lb/yd³ and kg/m³ side by side (tables adapted from ACI 211.1): a metric job gives a cubic metre.
fn a_cubic_metre(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "X9",
        title: "Water of a cubic metre",
        source: "Tables adapted from ACI 211.1-91, Table 6.3.3, that print lb/yd³ and kg/m³ side by side; read in a public copy",
        marks: &[Mark::Published],
        problem: "stone of 3/8 to 3/4 in, slumps of 1 1/2 to 6 1/2 in, with and without air",
        conventions: "This program has the column in pounds alone.",
        modelled: "mix::proportion::concrete, of a metric job",
        gap: "The two columns are rounded apart, by up to 3.5 kg.",
        ..Check::default()
    });
    for (size, slump, air, kilograms) in [
        (0.375, 1.5, Air::Entrapped, 207.0),
        (0.5, 3.5, Air::Entrapped, 216.0),
        (0.75, 6.5, Air::Entrapped, 216.0),
        (0.75, 3.5, Air::Mild, 184.0),
        (0.5, 1.5, Air::Severe, 175.0),
    ] {
        let air_words = match air {
            Air::Entrapped => "no air",
            Air::Mild => "mild air",
            Air::Moderate => "moderate air",
            Air::Severe => "severe air",
        };
        let wanted = Concrete { slump: inches(slump), stone_size: inches(size), air, ..wanted() };
        let mix = concrete(&wanted, &materials(), Units::Metric).expect("proportions");
        assert_close(mix.volume.get::<liter>(), 1000.0, EXACT);
        let found = mix.part(Role::Water).expect("water").mass.value.get::<kilogram>();
        table.within(format!("{size} in, slump {slump} in, {air_words}, kg"), found, kilograms, 3.5);
    }
}

/// Free water on the aggregates, US Navy training manual, published: 2 % of 1735 lb and 6 % of 1153 lb take
/// 103.88 lb off the water, and go on the aggregates: 1770 and 1222 lb.
fn wet_aggregates(evidence: &mut Evidence) {
    let free = |share| Moisture { total: share, absorbed: 0.0 };
    let wet = Materials { stone_moisture: free(0.02), sand_moisture: free(0.06), ..materials() };
    let mix = made(wanted(), wet);
    let table = evidence.check(Check {
        label: "X10",
        title: "Water that the aggregates bring",
        source: NAVY,
        marks: &[Mark::Published],
        problem: "the yard of X1 to X4, stone with 2 % and sand with 6 % of free water: 103.88 lb less water",
        modelled: "mix::proportion::concrete",
        gap: "The example takes the sand as 1153 lb, and rounds to whole pounds.",
        misprints: "The same manual has 1152 and 1153 lb of sand.",
        ..Check::default()
    });
    table.within("water, lb", weight(&mix, Role::Water), 201.12, 0.2);
    table.within("stone, lb", weight(&mix, Role::Stone), 1770.0, 1.0);
    table.within("sand, lb", weight(&mix, Role::Sand), 1222.0, 2.0);
    // The mix itself is the same.
    let dry = made(wanted(), materials());
    assert_close(mix.water_to_cement().value, 0.50, EXACT);
    assert_close(mix.paste_share().value, dry.paste_share().value, EXACT);
    assert_close(mix.absolute_volume().value, mix.volume.value, EXACT);
    // Absorbed water is no mixing water.
    let absorbed = |share| Moisture { total: share, absorbed: share };
    let damp = Materials { stone_moisture: absorbed(0.005), sand_moisture: absorbed(0.007), ..materials() };
    assert_close(weight(&made(wanted(), damp), Role::Water), 305.0, EXACT);
}

/// X7: a sack of 94 lb at 3.15 is 0.478 ft³.
fn absolute_volume_of_a_sack(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "X7",
        title: "A sack of cement",
        source: "Definition: mass ÷ (specific gravity × density of water)",
        marks: &[Mark::ByHand],
        problem: "94 lb at 3.15",
        modelled: "mix::limits::water_density",
        gap: "Three digits are told.",
        ..Check::default()
    });
    table.close("absolute volume, ft³", in_cubic_feet(pounds(94.0) / (water_density() * 3.15)), 0.478, 1e-3);
}

/// ACI 211.1, Table 6.3.3, with air, slump of 3 in: 340, 325, 305, 295 and 275 lb/yd³ for stone of 3/8, 1/2, 3/4, 1 and
/// 1 1/2 in. The sizes that are sold in millimetres lie between, by straight lines; 8 mm goes on along the first one, and
/// says so. By hand: 8 mm is 0.31496 in, 340 + 15 × 0.06004 ÷ 0.125 = 347.2.
#[test]
fn stone_in_millimetres_lies_between_the_rows() {
    let water = |size: f64| {
        let stone_size = Length::new::<uom::si::length::millimeter>(size);
        let mix = made(Concrete { stone_size, ..wanted() }, materials());
        (weight(&mix, Role::Water), mix.part(Role::Water).expect("water").mass.working.lines(Units::Inch)[0].clone())
    };
    for (size, pounds) in [
        (8.0, 347.20),
        (9.5, 340.0),
        (10.0, 337.76),
        (11.0, 333.03),
        (12.7, 325.0),
        (16.0, 314.61),
        (19.05, 305.0),
        (20.0, 303.50),
        (22.0, 300.35),
        (25.4, 295.0),
        (32.0, 284.61),
        (38.1, 275.0),
    ] {
        let (found, line) = water(size);
        assert_close(found, pounds, 1e-4);
        assert_eq!(line.formula.contains("on along the table from its smallest"), size < 9.0, "{size}");
        assert_eq!(line.source, pourwright::mix::limits::PROPORTIONS);
    }
}

/// A plasticiser that saves 20 %: 305 lb of water are 244, and at 0.50 610 of cement are 488; the sand takes the room.
/// 40 % is the most that is believed.
#[test]
fn a_plasticiser_saves_water_and_cement() {
    let plain = made(wanted(), materials());
    let saving = made(Concrete { less_water: 0.2, ..wanted() }, materials());
    assert_close(weight(&saving, Role::Water), 244.0, 1e-9);
    assert_close(weight(&saving, Role::Cement), 488.0, 1e-9);
    assert_close(saving.water_to_cement().value, 0.5, EXACT);
    assert_close(weight(&saving, Role::Stone), weight(&plain, Role::Stone), EXACT);
    assert_close(in_cubic_feet(saving.absolute_volume()), 27.0, EXACT);
    let lines = &saving.part(Role::Cement).expect("cement").mass.working.lines(Units::Inch);
    let told = lines.iter().find(|line| line.formula.contains("plasticiser")).expect("a line");
    assert_eq!((told.numbers.as_str(), told.result.as_str()), ("305 lb × (1 − 20 %)", "244 lb"));
    assert!(concrete(&Concrete { less_water: 0.4, ..wanted() }, &materials(), Units::Inch).is_ok());
}

#[test]
fn what_the_tables_do_not_have() {
    let free = |total| Moisture { total, absorbed: 0.0 };
    let from = |wanted: Concrete, materials: Materials| concrete(&wanted, &materials, Units::Inch).map(|_| ());
    let good = wanted();
    for (wanted, materials, problem) in [
        (Concrete { slump: inches(8.0), ..good }, materials(), ProportionProblem::Slump),
        (Concrete { slump: inches(f64::NAN), ..good }, materials(), ProportionProblem::Slump),
        (Concrete { stone_size: inches(2.0), ..good }, materials(), ProportionProblem::StoneSize),
        (Concrete { stone_size: inches(0.3), ..good }, materials(), ProportionProblem::StoneSize),
        (Concrete { less_water: 0.41, ..good }, materials(), ProportionProblem::LessWater),
        (Concrete { less_water: f64::NAN, ..good }, materials(), ProportionProblem::LessWater),
        (Concrete { strength: psi(5500.0), ..good }, materials(), ProportionProblem::Strength),
        (
            Concrete { most_water_to_cement: Some(0.0), ..good },
            materials(),
            ProportionProblem::NoNumber(Input::MostWater),
        ),
        (good, Materials { fineness: 3.1, ..materials() }, ProportionProblem::Fineness),
        (good, Materials { sand_gravity: 0.0, ..materials() }, ProportionProblem::NoNumber(Input::SandGravity)),
        (
            good,
            Materials { stone_bulk: pounds_a_cubic_foot(f64::NAN), ..materials() },
            ProportionProblem::NoNumber(Input::StoneBulk),
        ),
        (
            good,
            Materials { stone_moisture: Moisture { total: 0.0, absorbed: 1.0 }, ..materials() },
            ProportionProblem::NoNumber(Input::StoneAbsorbs),
        ),
        (good, Materials { stone_bulk: pounds_a_cubic_foot(300.0), ..materials() }, ProportionProblem::NoRoomForSand),
        (good, Materials { sand_moisture: free(0.5), ..materials() }, ProportionProblem::TooWet),
    ] {
        assert_eq!(from(wanted, materials), Err(problem), "{wanted:?} {materials:?}");
    }
}

fn litres(count: f64) -> Volume {
    Volume::new::<liter>(count)
}

fn kilograms_of(mix: &Proportions, role: Role) -> f64 {
    mix.part(role).map_or(0.0, |part| part.mass.value.get::<kilogram>())
}

/// The glass-fibre backer: sand 1, water 0.32, polymer solids 5 % from an emulsion of one half, fibre 3 % of
/// everything (common practice), 3 % of air; by absolute volume at 62.4 lb/ft³. Computed (numpy) for 20 L.
fn a_glass_fibre_backer(evidence: &mut Evidence) {
    let mix = Recipe::backer().proportions(litres(20.0)).expect("proportions");
    let table = evidence.check(Check {
        label: "X11",
        title: "A glass-fibre backer",
        source: "Common practice for the ratios; absolute volume at 62.4 lb/ft³ for what they make",
        marks: &[Mark::Practice, Mark::Computed("numpy 2.4.6")],
        problem: "20 L of cement 1, sand 1, water 0.32, polymer solids 5 % from an emulsion of one half, fibre 3 % of \
            everything, 3 % of air",
        conventions: "The emulsion's water is water of the mix: 0.32 of the cement in all.",
        modelled: "mix::proportion::Recipe::backer",
        gap: "Six to seven digits are told.",
        ..Check::default()
    });
    for (role, what, expected) in [
        (Role::Cement, "cement", 17.832_384),
        (Role::Sand, "sand", 17.832_384),
        (Role::Polymer, "polymer", 1.783_238),
        (Role::Water, "water", 4.814_744),
        (Role::Fibre, "fibre", 1.307_095),
    ] {
        table.close(format!("{what}, kg"), kilograms_of(&mix, role), expected, 1e-6);
    }
    table.close("density, kg/m³", mix.density().value.value, 2178.492, 1e-6);
    table.close("paste, of the volume", mix.paste_share().value, 0.609_173, 1e-6);
    assert_close(mix.water_to_cement().value, 0.32, EXACT);
    assert_close(kilograms_of(&mix, Role::Fibre) / mix.mass().get::<kilogram>(), 0.03, EXACT);
    assert_close(mix.absolute_volume().get::<liter>(), 20.0, EXACT);
    let face = Recipe::face_coat().proportions(litres(20.0)).expect("proportions");
    assert_eq!(face.part(Role::Fibre), None);
}

/// ASTM C109 mortar, sand 2.75 and water 0.485 (from memory), with 3 % of air: 526.88 kg/m³ of cement, computed
/// (numpy).
fn a_mortar(evidence: &mut Evidence) {
    let mix = Recipe::mortar().proportions(litres(1000.0)).expect("proportions");
    let table = evidence.check(Check {
        label: "X12",
        title: "A mortar",
        source: "ASTM C109: sand 2.75, water 0.485 of the cement",
        marks: &[Mark::Memory, Mark::Computed("numpy 2.4.6")],
        problem: "1 m³ with 3 % of air",
        modelled: "mix::proportion::Recipe::mortar",
        gap: "Seven digits are told.",
        ..Check::default()
    });
    table.close("cement, kg", kilograms_of(&mix, Role::Cement), 526.8816, 1e-6);
}

/// A flow aid of 40 % solids brings 60 % of itself as water; a powder none.
#[test]
fn water_in_a_flow_aid_is_deducted() {
    let with = |solids| {
        let flow_aid = Some(Liquid { share: 0.01, solids });
        let recipe = Recipe { flow_aid, ..Recipe::mortar() };
        recipe.proportions(litres(10.0)).expect("proportions")
    };
    for (solids, water) in [(0.4, 0.485 - 0.006), (1.0, 0.485)] {
        let mix = with(solids);
        assert_close(kilograms_of(&mix, Role::Water) / kilograms_of(&mix, Role::Cement), water, EXACT);
        assert_close(kilograms_of(&mix, Role::FlowAid) / kilograms_of(&mix, Role::Cement), 0.01, EXACT);
    }
}

/// Pigment up to 10 % of the cement (common practice); emulsions with no more water than the mix may have.
#[test]
fn recipes_that_do_not_go() {
    let of = |recipe: Recipe| recipe.proportions(litres(10.0)).map(|_| ());
    let good = Recipe::mortar();
    assert_eq!(of(Recipe { pigment: 0.10, ..good }), Ok(()));
    assert_eq!(of(Recipe { pigment: 0.1001, ..good }), Err(ProportionProblem::TooMuchPigment));
    let wet = Some(Liquid { share: 0.2, solids: 0.2 });
    assert_eq!(of(Recipe { polymer: wet, ..good }), Err(ProportionProblem::TooWet));
    for (bad, input) in [
        (Recipe { sand: f64::NAN, ..good }, Input::Sand),
        (Recipe { water: -0.1, ..good }, Input::Water),
        (Recipe { air: 0.5, ..good }, Input::Air),
        (Recipe { fibre: 1.0, ..good }, Input::Fibre),
        (Recipe { gravities: Gravities { cement: 0.0, ..Gravities::default() }, ..good }, Input::CementGravity),
        (Recipe { polymer: Some(Liquid { share: 0.05, solids: 0.0 }), ..good }, Input::PolymerSolids),
        (Recipe { flow_aid: Some(Liquid { share: 1.01, solids: 1.0 }), ..good }, Input::FlowAid),
        (Recipe { sand_moisture: Moisture { total: 0.0, absorbed: 1.0 }, ..good }, Input::SandAbsorbs),
    ] {
        assert_eq!(of(bad), Err(ProportionProblem::NoNumber(input)), "{bad:?}");
    }
    for volume in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(good.proportions(litres(volume)).map(|_| ()), Err(ProportionProblem::NoNumber(Input::Volume)));
    }
}

/// Face coat of 1/8 in and backer under it, over 10 ft² of a top 3/4 in thick: 10/96 ft³ and 50/96 ft³.
#[test]
fn face_coat_and_backer() {
    let area = Area::new::<square_meter>(10.0 * 0.092_903_04);
    let [face, backer] = layers(area, inches(0.125), inches(0.75)).expect("layers");
    assert_close(in_cubic_feet(face), 10.0 / 96.0, EXACT);
    assert_close(in_cubic_feet(backer), 50.0 / 96.0, EXACT);
    assert_eq!(layers(area, inches(1.0), inches(0.75)), Err(ProportionProblem::NoNumber(Input::FaceCoat)));
}

/// To the form's volume, and to whole ounces or 5 g: the rounded parts fill it to a part in a thousand.
#[test]
fn weighed_on_the_scale() {
    for (units, step) in [(Units::Inch, pounds(1.0 / 16.0)), (Units::Metric, Mass::new::<gram>(5.0))] {
        let mix = concrete(&wanted(), &materials(), units).expect("proportions");
        let form = mix.scaled_to(cubic_feet(1.5)).expect("scaled");
        assert_close(form.absolute_volume().value, cubic_feet(1.5).value, EXACT);
        assert_eq!(scale_step(units), step);
        let weighed = Weighed::of(&form, step).expect("weighed");
        for (_, mass) in &weighed.parts {
            let steps = (*mass / step).value;
            assert_within(steps, steps.round(), 1e-9);
        }
        assert!(weighed.fills && weighed.off.abs() < 1e-3, "{}", weighed.off);
        assert_eq!(weighed.too_coarse, []);
    }
}

/// A cup of mix is too little for a scale of 1 oz: it says which parts, and that it does not fill.
#[test]
fn too_little_for_the_scale() {
    let recipe = Recipe { pigment: 0.02, ..Recipe::backer() };
    let mix = recipe.proportions(litres(0.2)).expect("proportions");
    let weighed = Weighed::of(&mix, scale_step(Units::Inch)).expect("weighed");
    assert!(weighed.too_coarse.contains(&Role::Pigment), "{weighed:?}");
    assert!(!weighed.fills, "{weighed:?}");
    assert_eq!(Weighed::of(&mix, pounds(0.0)), None);
}

/// Shared out over batches to the last step.
#[test]
fn shared_out_over_batches() {
    assert_eq!(share_out(10, &[1.0, 1.0, 1.0]), [3, 4, 3]);
    assert_eq!(share_out(7, &[2.0, 1.0]), [5, 2]);
    assert_eq!(share_out(7, &[f64::NAN, 0.0]), [7, 0]);
    assert_eq!(share_out(7, &[]), [0_u64; 0]);
}

fn additive(dose: f64) -> Additive {
    Additive { name: "Flow aid".to_owned(), dose, density: water_density() * 1.1, water: 0.6, pigment: false }
}

/// 1 % of 20 lb of cement, by arithmetic; what of it is water is not poured in as well.
#[test]
fn doses_of_an_additive() {
    let added = additive(0.01).added(pounds(20.0)).expect("a dose");
    assert_close(in_pounds(added.mass.value), 0.2, EXACT);
    assert_close(in_pounds(added.water), 0.12, EXACT);
    assert_close(in_cubic_feet(added.volume), 0.2 / (62.4 * 1.1), EXACT);
    let mix = made(wanted(), materials());
    let beside = additive(0.01).added(mix.cement).expect("a dose");
    let with = mix.clone().with(vec![(Role::Additive(0), beside)]).expect("it goes in");
    assert_within(weight(&with, Role::Water), 305.0 - 610.0 * 0.006, 1e-6);
    assert_close(with.water_to_cement().value, 0.50, EXACT);
    assert_close((with.absolute_volume() / with.volume).value, 1.0, EXACT);
    let flood = Additive { water: 1.0, ..additive(0.51) }.added(mix.cement).expect("a dose");
    assert_eq!(mix.with(vec![(Role::Additive(0), flood)]), Err(ProportionProblem::TooWet));
}

#[test]
fn doses_that_do_not_go() {
    let of = |additive: Additive| additive.added(pounds(20.0)).map(|_| ());
    for dose in [f64::NAN, -0.01, 1.01, f64::INFINITY] {
        assert_eq!(of(additive(dose)), Err(AdditiveProblem::NoNumber));
    }
    let pigment = Additive { pigment: true, ..additive(0.11) };
    assert_eq!(of(pigment.clone()), Err(AdditiveProblem::TooMuchPigment));
    assert_eq!(of(Additive { dose: 0.10, ..pigment }), Ok(()));
}
