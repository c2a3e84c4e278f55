//! Steel, and sections with it.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, assert_within};
use pourwright::job::{BarSize, Lath};
use pourwright::measure::exact::{inches, pounds, pounds_a_cubic_foot, psi};
use pourwright::measure::{Area, Length, Pressure, Units};
use pourwright::strength::concrete::{Concrete, modulus_of_rupture};
use pourwright::strength::section::{Layer, Section, SectionError, block_share};
use pourwright::strength::steel::{Lay, bar, equivalent_sheet, lath_layer, lath_mass};
use uom::si::f64::Torque;

checks![
    bars_r1_to_r6,
    bars_in_soft_metric_r4,
    lath_r7_r8_s8,
    textbook_beam_s1,
    thin_slabs_s2_to_s4,
    cracked_elastic_s5,
    rail_whose_bar_does_not_yield_s6,
    block_share_s7
];

/// The library that works out the same sections by fibres.
const FIBRES: Mark = Mark::Computed("concreteproperties 0.7.0");

const BLOCK: &str = "ACI 318-19, 22.2: rectangular stress block, ultimate strain 0.003";

fn square_inches(count: f64) -> Area {
    count * inches(1.0) * inches(1.0)
}

/// Inch-pounds: a pound-force is 4.4482216152605 N (NIST SP 811 B.8).
fn inch_pounds(moment: Torque) -> f64 {
    moment.value / 4.448_221_615_260_5 / 0.0254
}

fn counted(length: Length) -> f64 {
    (length / inches(1.0)).value
}

fn section(width: f64, height: f64, steel: Layer) -> Section {
    Section { width: inches(width), height: inches(height), steel }
}

/// Grade 60 bars of that area, not one of the table.
fn steel(area: f64, depth: f64) -> Layer {
    Layer { area: square_inches(area), depth: inches(depth), stiffness: psi(29e6), yields_at: psi(60_000.0) }
}

/// ASTM A615 Table 1, printed in a trade magazine; nominal areas are rounded.
fn bars_r1_to_r6(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "R1 to R3",
        title: "Bars in a section",
        source: "ASTM A615, Table 1; read in a trade magazine",
        marks: &[Mark::Published],
        problem: "#3, #4 and #5: diameter, area, mass a foot",
        conventions: "The area is a rounded nominal: 0.20 in² for a #4 bar whose circle has 0.1963 in². Strength is worked \
            out with it, mass with the tabulated mass.",
        modelled: "strength::steel::bar",
        ..Check::default()
    });
    for (size, name, diameter, area, mass) in [
        (BarSize::Three, "#3", 0.375, 0.11, 0.376),
        (BarSize::Four, "#4", 0.5, 0.20, 0.668),
        (BarSize::Five, "#5", 0.625, 0.31, 1.043),
    ] {
        let bar = bar(size).expect("a bar");
        table.close(format!("{name}: diameter, in"), counted(bar.diameter), diameter, EXACT);
        table.close(format!("{name}: area, in²"), (bar.area / square_inches(1.0)).value, area, EXACT);
        table.close(format!("{name}: mass, lb/ft"), (bar.mass * inches(12.0) / pounds(1.0)).value, mass, EXACT);
        // Steel at 490 lb/ft³ of the true circle weighs so: the standard's mass goes with it, its area does not.
        let circle = std::f64::consts::PI / 4.0 * bar.diameter * bar.diameter;
        assert_close((circle * pounds_a_cubic_foot(490.0) / bar.mass).value, 1.0, 2e-3);
        assert!((bar.area / circle).value > 0.99 && bar.area != circle);
    }
    assert_eq!(bar(BarSize::None), None);
}

/// ASTM A615M, from memory: soft-metric 10, 13 and 16.
fn bars_in_soft_metric_r4(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "R4",
        title: "Soft-metric bars in a section",
        source: "ASTM A615M",
        marks: &[Mark::Memory],
        problem: "10, 13 and 16: diameter, area, mass a metre",
        conventions: "Sections are worked out with the inch bar, of which the metric one is a rounding: to 0.1 mm, 1 mm² \
            and 1 g.",
        modelled: "strength::steel::bar",
        gap: "0.31 in² are 200.0 mm², where the metric table has the 199 mm² of the circle.",
        ..Check::default()
    });
    for (size, name, diameter, area, mass) in [
        (BarSize::Three, "10", 9.5, 71.0, 0.560),
        (BarSize::Four, "13", 12.7, 129.0, 0.994),
        (BarSize::Five, "16", 15.9, 199.0, 1.552),
    ] {
        let bar = bar(size).expect("a bar");
        table.within(format!("{name}: diameter, mm"), bar.diameter.value * 1e3, diameter, 0.051);
        table.within(format!("{name}: area, mm²"), bar.area.value * 1e6, area, 1.1);
        table.within(format!("{name}: mass, kg/m"), bar.mass.value, mass, 1e-3);
    }
}

/// ASTM C847 from memory; arithmetic.
fn lath_r7_r8_s8(evidence: &mut Evidence) {
    let sheet = equivalent_sheet(Lath::Heavy).expect("lath");
    let layer = lath_layer(Lath::Heavy, 2, Lay::Along, inches(12.0), inches(0.75)).expect("lath");
    let table = evidence.check(Check {
        label: "R7, R8, S8",
        title: "Expanded lath in a section",
        source: "ASTM C847 (classes of 2.5 and 3.4 lb/yd²); ACI 549.1R-93 (0.65 of it counts the strong way)",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "2.5 lb/yd²; two layers of 3.4 lb/yd² in 1.5 in, steel at 490 lb/ft³",
        modelled: "strength::steel::lath_mass, equivalent_sheet, lath_layer over 12 in",
        gap: "Three to four digits are told.",
        ..Check::default()
    });
    table.close("2.5 lb/yd², kg/m²", lath_mass(Lath::Light).expect("lath").value, 1.3562, 1e-3);
    table.close("a layer as a sheet, in", counted(sheet), 0.00925, 1e-3);
    table.close("two layers, of the volume", (2.0 * sheet / inches(1.5)).value, 0.01234, 1e-3);
    table.close("two layers, in² in 12 in", (layer.area / square_inches(1.0)).value, 0.1443, 1e-3);
    assert!(lath_layer(Lath::None, 2, Lay::Along, inches(12.0), inches(0.75)).is_none());
}

/// A textbook beam, Wight and MacGregor Ex. 4-1; and concreteproperties 0.7.0.
fn textbook_beam_s1(evidence: &mut Evidence) {
    let cracked = section(12.0, 20.0, steel(3.16, 17.5)).cracked(psi(4000.0)).expect("a section");
    let table = evidence.check(Check {
        label: "S1",
        title: "Textbook beam",
        source: "Wight and MacGregor, Reinforced Concrete: Mechanics and Design, Example 4-1; the statement was read, the \
            answer of 240 k-ft is from memory",
        marks: &[Mark::Published, FIBRES],
        problem: "b 12 in, d 17.5 in, four #8 (3.16 in²), f′c 4000 psi, grade 60",
        modelled: "strength::section::Section::cracked, Es 29 000 000 psi",
        gap: "The strain is told with two digits.",
        ..Check::default()
    });
    table.close("block, in", counted(cracked.block), 4.647, 1e-3);
    table.close("neutral axis, in", counted(cracked.neutral_axis), 5.467, 1e-3);
    table.within("strain of the steel", cracked.steel_strain, 0.0066, 1e-4);
    table.close("moment, lb·in", inch_pounds(cracked.moment), 2877e3, 1e-3);
    assert!(cracked.yields);
}

/// Thin slabs: ACI 318-19 22.2, and concreteproperties 0.7.0 within 0.3 %.
fn thin_slabs_s2_to_s4(evidence: &mut Evidence) {
    let four = bar(BarSize::Four).expect("a bar");
    let three = bar(BarSize::Three).expect("a bar");
    let table = evidence.check(Check {
        label: "S2 to S4",
        title: "Thin slabs with bars",
        source: BLOCK,
        marks: &[Mark::Published, FIBRES],
        problem: "12 × 2 in with one #4 in the middle, 5000 psi; 12 × 1.5 in with one #3 in the middle, 4000 psi; 25.5 × 2 \
            in with three #4 at 1.25 in, 4500 psi",
        modelled: "strength::section::Section::cracked and uncracked, with strength::concrete::modulus_of_rupture",
        gap: "The cracking moments are told with four digits; the library's moments of 10 602, 4426 and 38 374 lb·in are \
            up to 0.23 % over those of the block.",
        ..Check::default()
    });
    for (what, section, strength, block, moment) in [
        ("2 in, one #4", section(12.0, 2.0, four.layer(1, inches(1.0))), 5000.0, 0.2353, 10_588.0),
        ("1.5 in, one #3", section(12.0, 1.5, three.layer(1, inches(0.75))), 4000.0, 0.1618, 4416.0),
        ("2 in, three #4", section(25.5, 2.0, four.layer(3, inches(1.25))), 4500.0, 0.3691, 38_356.0),
    ] {
        let cracked = section.cracked(psi(strength)).expect("a section");
        assert!(cracked.yields);
        table.close(format!("{what}: block, in"), counted(cracked.block), block, 1e-3);
        table.close(format!("{what}: moment, lb·in"), inch_pounds(cracked.moment), moment, 3e-3);
    }
    for (what, section, strength, moment) in [
        ("2 in", section(12.0, 2.0, four.layer(1, inches(1.0))), 5000.0, 4243.0),
        ("1.5 in", section(12.0, 1.5, three.layer(1, inches(0.75))), 4000.0, 2135.0),
    ] {
        let rupture = modulus_of_rupture(psi(strength), Units::Inch);
        let uncracked = section.uncracked(rupture, psi(4e6)).expect("a section");
        table.close(format!("{what}: cracking moment, lb·in"), inch_pounds(uncracked.plain), moment, 3e-3);
        // At mid-depth the steel lies on the neutral axis: it adds nothing.
        assert_within(uncracked.gain(), 0.0, 1e-9);
    }
}

/// Transformed section; concreteproperties 0.7.0.
fn cracked_elastic_s5(evidence: &mut Evidence) {
    let slab = section(12.0, 2.0, bar(BarSize::Four).expect("a bar").layer(1, inches(1.0)));
    let (axis, inertia) = slab.cracked_elastic(psi(29e6 / 7.195)).expect("a section");
    let table = evidence.check(Check {
        label: "S5",
        title: "Cracked and elastic",
        source: "Transformed section: b x² ÷ 2 = n A (d − x)",
        marks: &[FIBRES],
        problem: "12 × 2 in with one #4 in the middle, n = 7.195",
        modelled: "strength::section::Section::cracked_elastic",
        gap: "Four digits are told.",
        ..Check::default()
    });
    table.close("neutral axis, in", counted(axis), 0.3843, 1e-3);
    table.close("second moment, in⁴", inertia / inches(1.0).value.powi(4), 0.7725, 1e-3);
}

/// A rail beside a sink: the bar does not yield. Strain compatibility; concreteproperties 0.7.0.
fn rail_whose_bar_does_not_yield_s6(evidence: &mut Evidence) {
    let rail = section(4.0, 2.0, bar(BarSize::Four).expect("a bar").layer(1, inches(1.0)));
    let cracked = rail.cracked(psi(4000.0)).expect("a section");
    assert!(!cracked.yields);
    let table = evidence.check(Check {
        label: "S6",
        title: "Rail whose bar does not yield",
        source: BLOCK,
        marks: &[Mark::Published, FIBRES],
        problem: "4 × 2 in with one #4 in the middle, 4000 psi: strains have to fit, and the steel stays elastic",
        conventions: "Taking the steel to yield would say 6706 lb·in, a fifth too much.",
        modelled: "strength::section::Section::cracked",
        gap: "The strain is told with three digits.",
        ..Check::default()
    });
    table.close("strain of the steel", cracked.steel_strain, 0.00137, 5e-3);
    table.close("moment, lb·in", inch_pounds(cracked.moment), 5622.0, 5e-3);
    let concrete = Concrete { strength: psi(4000.0), flexural: None, density: pounds_a_cubic_foot(145.0) };
    let capacity = rail.capacity(&concrete, Units::Inch).expect("a section");
    let said: Vec<_> = capacity.working.lines(Units::Inch).iter().map(|line| line.formula.clone()).collect();
    assert!(said.iter().any(|line| line.contains("does not yield before the concrete crushes")), "{said:?}");
    assert!(said.iter().any(|line| line.contains("with the steel: 0 % more")), "{said:?}");
    // A moment at which it cracks of 4 × 2² ÷ 6 × 474 psi.
    assert!(
        capacity.working.lines(Units::Inch).iter().any(|line| line.result == "1265 lb·in"),
        "{:?}",
        capacity.working.lines(Units::Inch)
    );
}

/// ACI 318-19 Table 22.2.2.4.3, from memory.
fn block_share_s7(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "S7",
        title: "Depth of the block",
        source: "ACI 318-19, Table 22.2.2.4.3",
        marks: &[Mark::Memory],
        problem: "β₁ at five strengths",
        modelled: "strength::section::block_share",
        ..Check::default()
    });
    for (strength, share) in [(4000.0, 0.85), (4500.0, 0.825), (6000.0, 0.75), (8000.0, 0.65), (10_000.0, 0.65)] {
        table.within(format!("f′c {strength} psi"), block_share(psi(strength)), share, 1e-9);
    }
}

#[test]
fn what_is_no_section_is_said() {
    let good = section(4.0, 2.0, steel(0.2, 1.0));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(section(bad, 2.0, steel(0.2, 1.0)).cracked(psi(4000.0)), Err(SectionError::NoSize));
        assert_eq!(good.cracked(psi(bad)), Err(SectionError::NoSize));
        assert_eq!(good.uncracked(psi(bad), psi(4e6)), Err(SectionError::NoSize));
    }
    assert_eq!(section(4.0, 2.0, steel(0.2, 2.0)).cracked(psi(4000.0)), Err(SectionError::SteelOutside));
    assert_eq!(good.cracked_elastic(Pressure::default()), Err(SectionError::NoSize));
}
