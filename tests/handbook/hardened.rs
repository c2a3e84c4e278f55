//! Hardened concrete.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close};
use pourwright::measure::exact::{pounds_a_cubic_foot, psi};
use pourwright::measure::{Pressure, Units::Inch, Units::Metric};
use pourwright::strength::concrete::{Concrete, modulus_of_rupture, stiffness_by_density, stiffness_of_usual};
use uom::si::pressure::megapascal;

checks![modulus_of_rupture_c1_c2, stiffness_c3_to_c6, allowable_is_two_thirds_of_what_cracks];

fn in_psi(value: Pressure) -> f64 {
    (value / psi(1.0)).value
}

/// ACI 318-19 19.2.3.1, λ = 1; the metric form from memory of ACI 318M.
fn modulus_of_rupture_c1_c2(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "C1",
        title: "Modulus of rupture",
        source: "ACI 318-19, 19.2.3.1, with λ = 1; read in a solved problem (7.5 √3000 = 410 psi)",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "7.5 √f′c at f′c = 4000 psi",
        modelled: "strength::concrete::modulus_of_rupture of a job in inches",
        gap: "Five digits are told.",
        ..Check::default()
    });
    table.close("modulus of rupture, psi", in_psi(modulus_of_rupture(psi(4000.0), Inch)), 474.34, 1e-4);
    let metric = modulus_of_rupture(Pressure::new::<megapascal>(30.0), Metric);
    let table = evidence.check(Check {
        label: "C2",
        title: "Modulus of rupture, SI",
        source: "ACI 318M, 19.2.3.1",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "0.62 √f′c at f′c = 30 MPa",
        conventions: "The metric standard rounds the constant by itself: it is not 7.5 √psi converted.",
        modelled: "strength::concrete::modulus_of_rupture of a metric job",
        gap: "Four digits are told.",
        ..Check::default()
    });
    table.close("modulus of rupture, MPa", metric.get::<megapascal>(), 3.396, 1e-3);
}

/// ACI 318-05 8.5.1.
fn stiffness_c3_to_c6(evidence: &mut Evidence) {
    let by_density = |strength, density| {
        in_psi(stiffness_by_density(psi(strength), pounds_a_cubic_foot(density), Inch).expect("in range"))
    };
    let metric = stiffness_of_usual(Pressure::new::<megapascal>(25.0), Metric);
    let table = evidence.check(Check {
        label: "C3 to C6",
        title: "Modulus of elasticity",
        source: "ACI 318-05 and 318M-05, 8.5.1; read where they are quoted",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "57000 √f′c and 33 w^1.5 √f′c in psi and lb/ft³; 4700 √f′c in MPa",
        conventions: "The two forms part by 6.4 % at 150 lb/ft³; the short one belongs to about 144 lb/ft³.",
        modelled: "strength::concrete::stiffness_of_usual, and stiffness_by_density from 90 to 160 lb/ft³",
        gap: "57000 is itself 33 × 144^1.5 rounded.",
        ..Check::default()
    });
    table.close("f′c 4000 psi, psi", in_psi(stiffness_of_usual(psi(4000.0), Inch)), 3_604_997.0, 1e-5);
    table.close("f′c 5000 psi, w 145 lb/ft³, psi", by_density(5000.0, 145.0), 4_074_281.0, 1e-5);
    table.close("f′c 4000 psi, w 150 lb/ft³, psi", by_density(4000.0, 150.0), 3_834_254.0, 1e-5);
    table.close("f′c 4000 psi, w 144 lb/ft³, psi", by_density(4000.0, 144.0), 3_604_997.0, 1e-3);
    table.close("f′c 25 MPa, MPa", metric.get::<megapascal>(), 23_500.0, EXACT);
    for density in [89.0, 161.0, f64::NAN] {
        assert_eq!(stiffness_by_density(psi(4000.0), pounds_a_cubic_foot(density), Inch), None);
    }
}

/// A tested flexural strength outranks the formula, and a third of it is kept back (PCI, from memory).
fn allowable_is_two_thirds_of_what_cracks(evidence: &mut Evidence) {
    let concrete = Concrete { strength: psi(4000.0), flexural: None, density: pounds_a_cubic_foot(145.0) };
    let tested = Concrete { flexural: Some(psi(900.0)), ..concrete };
    let table = evidence.check(Check {
        label: "C17",
        title: "Pull that is allowed",
        source: "PCI Design Handbook: handling stresses at the modulus of rupture over 1.5",
        marks: &[Mark::Memory],
        problem: "f′c 4000 psi, 474.34 psi over 1.5; and a tested flexural strength of 900 psi over 1.5",
        modelled: "strength::concrete::Concrete::allowable",
        gap: "474.34 is told with five digits.",
        ..Check::default()
    });
    table.close("by the formula, psi", in_psi(concrete.allowable(Inch).value), 316.227, 1e-4);
    table.close("as tested, psi", in_psi(tested.allowable(Inch).value), 600.0, EXACT);
    // And back: the strength at which a stress is allowed.
    assert_close(in_psi(Concrete::strength_to_allow(concrete.allowable(Inch).value, Inch)), 4000.0, EXACT);
}
