//! Steel, and sections with it.

use crate::{EXACT, assert_close, assert_within};
use pourwright::job::{BarSize, Lath};
use pourwright::measure::exact::{inches, pounds, pounds_a_cubic_foot, psi};
use pourwright::measure::{Area, Length, Pressure, Units};
use pourwright::strength::concrete::{Concrete, modulus_of_rupture};
use pourwright::strength::section::{Layer, Section, SectionError, block_share};
use pourwright::strength::steel::{Lay, bar, equivalent_sheet, lath_layer, lath_mass};
use uom::si::f64::Torque;

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
#[test]
fn bars_r1_to_r6() {
    for (size, diameter, area, mass) in
        [(BarSize::Three, 0.375, 0.11, 0.376), (BarSize::Four, 0.5, 0.20, 0.668), (BarSize::Five, 0.625, 0.31, 1.043)]
    {
        let bar = bar(size).expect("a bar");
        assert_close(counted(bar.diameter), diameter, EXACT);
        assert_close((bar.area / square_inches(1.0)).value, area, EXACT);
        assert_close((bar.mass * inches(12.0) / pounds(1.0)).value, mass, EXACT);
        // Steel at 490 lb/ft³ of the true circle weighs so: the standard's mass goes with it, its area does not.
        let circle = std::f64::consts::PI / 4.0 * bar.diameter * bar.diameter;
        assert_close((circle * pounds_a_cubic_foot(490.0) / bar.mass).value, 1.0, 2e-3);
        assert!((bar.area / circle).value > 0.99 && bar.area != circle);
    }
    assert_eq!(bar(BarSize::None), None);
}

/// ASTM A615M, from memory: soft-metric 10, 13 and 16.
#[test]
fn bars_in_soft_metric_r4() {
    for (size, diameter, area, mass) in
        [(BarSize::Three, 9.5, 71.0, 0.560), (BarSize::Four, 12.7, 129.0, 0.994), (BarSize::Five, 15.9, 199.0, 1.552)]
    {
        let bar = bar(size).expect("a bar");
        // As printed there: rounded to 0.1 mm, 1 mm² (of the inch area 0.20 in² = 129.03 mm²) and 1 g.
        assert_within(bar.diameter.value * 1e3, diameter, 0.051);
        assert_within(bar.area.value * 1e6, area, 1.1);
        assert_within(bar.mass.value, mass, 1e-3);
    }
}

/// ASTM C847 from memory; arithmetic.
#[test]
fn lath_r7_r8_s8() {
    assert_close(lath_mass(Lath::Light).expect("lath").value, 1.3562, 1e-3);
    let sheet = equivalent_sheet(Lath::Heavy).expect("lath");
    assert_close(counted(sheet), 0.00925, 1e-3);
    assert_close((2.0 * sheet / inches(1.5)).value, 0.01234, 1e-3);
    // ACI 549.1R-93, from memory: 0.65 the strong way.
    let layer = lath_layer(Lath::Heavy, 2, Lay::Along, inches(12.0), inches(0.75)).expect("lath");
    assert_close((layer.area / square_inches(1.0)).value, 0.1443, 1e-3);
    assert!(lath_layer(Lath::None, 2, Lay::Along, inches(12.0), inches(0.75)).is_none());
}

/// A textbook beam, Wight and MacGregor Ex. 4-1; and concreteproperties 0.7.0.
#[test]
fn textbook_beam_s1() {
    let cracked = section(12.0, 20.0, steel(3.16, 17.5)).cracked(psi(4000.0)).expect("a section");
    assert_close(counted(cracked.block), 4.647, 1e-3);
    assert_close(counted(cracked.neutral_axis), 5.467, 1e-3);
    assert_within(cracked.steel_strain, 0.0066, 1e-4);
    assert_close(inch_pounds(cracked.moment), 2877e3, 1e-3);
    assert!(cracked.yields);
}

/// Thin slabs: ACI 318-19 22.2, and concreteproperties 0.7.0 within 0.3 %.
#[test]
fn thin_slabs_s2_to_s4() {
    let four = bar(BarSize::Four).expect("a bar");
    let three = bar(BarSize::Three).expect("a bar");
    for (section, strength, block, moment) in [
        (section(12.0, 2.0, four.layer(1, inches(1.0))), 5000.0, 0.2353, 10_588.0),
        (section(12.0, 1.5, three.layer(1, inches(0.75))), 4000.0, 0.1618, 4416.0),
        (section(25.5, 2.0, four.layer(3, inches(1.25))), 4500.0, 0.3691, 38_356.0),
    ] {
        let cracked = section.cracked(psi(strength)).expect("a section");
        assert!(cracked.yields);
        assert_close(counted(cracked.block), block, 1e-3);
        assert_close(inch_pounds(cracked.moment), moment, 3e-3);
    }
    for (section, strength, moment) in [
        (section(12.0, 2.0, four.layer(1, inches(1.0))), 5000.0, 4243.0),
        (section(12.0, 1.5, three.layer(1, inches(0.75))), 4000.0, 2135.0),
    ] {
        let rupture = modulus_of_rupture(psi(strength), Units::Inch);
        let uncracked = section.uncracked(rupture, psi(4e6)).expect("a section");
        assert_close(inch_pounds(uncracked.plain), moment, 3e-3);
        // At mid-depth the steel lies on the neutral axis: it adds nothing.
        assert_within(uncracked.gain(), 0.0, 1e-9);
    }
}

/// Transformed section; concreteproperties 0.7.0.
#[test]
fn cracked_elastic_s5() {
    let slab = section(12.0, 2.0, bar(BarSize::Four).expect("a bar").layer(1, inches(1.0)));
    let (axis, inertia) = slab.cracked_elastic(psi(29e6 / 7.195)).expect("a section");
    assert_close(counted(axis), 0.3843, 1e-3);
    assert_close(inertia / inches(1.0).value.powi(4), 0.7725, 1e-3);
}

/// A rail beside a sink: the bar does not yield. Strain compatibility; concreteproperties 0.7.0.
#[test]
fn rail_whose_bar_does_not_yield_s6() {
    let rail = section(4.0, 2.0, bar(BarSize::Four).expect("a bar").layer(1, inches(1.0)));
    let cracked = rail.cracked(psi(4000.0)).expect("a section");
    assert!(!cracked.yields);
    assert_close(cracked.steel_strain, 0.00137, 5e-3);
    assert_close(inch_pounds(cracked.moment), 5622.0, 5e-3);
    let concrete = Concrete { strength: psi(4000.0), flexural: None, density: pounds_a_cubic_foot(145.0) };
    let capacity = rail.capacity(&concrete, Units::Inch).expect("a section");
    let said: Vec<_> = capacity.working.lines.iter().map(|line| line.formula.as_str()).collect();
    assert!(said.iter().any(|line| line.contains("does not yield before the concrete crushes")), "{said:?}");
    assert!(said.iter().any(|line| line.contains("with the steel: 0 % more")), "{said:?}");
    // A moment at which it cracks of 4 × 2² ÷ 6 × 474 psi.
    assert!(capacity.working.lines.iter().any(|line| line.result == "1265 lb·in"), "{:?}", capacity.working.lines);
}

/// ACI 318-19 Table 22.2.2.4.3, from memory.
#[test]
fn block_share_s7() {
    for (strength, share) in [(4000.0, 0.85), (4500.0, 0.825), (6000.0, 0.75), (8000.0, 0.65), (10_000.0, 0.65)] {
        assert_within(block_share(psi(strength)), share, 1e-9);
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
