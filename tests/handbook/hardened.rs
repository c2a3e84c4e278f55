//! Hardened concrete.

use crate::{EXACT, assert_close};
use pourwright::measure::exact::{pounds_a_cubic_foot, psi};
use pourwright::measure::{Pressure, Units::Inch, Units::Metric};
use pourwright::strength::concrete::{Concrete, modulus_of_rupture, stiffness_by_density, stiffness_of_usual};
use uom::si::pressure::megapascal;

fn in_psi(value: Pressure) -> f64 {
    (value / psi(1.0)).value
}

/// ACI 318-19 19.2.3.1, λ = 1; the metric form from memory of ACI 318M.
#[test]
fn modulus_of_rupture_c1_c2() {
    assert_close(in_psi(modulus_of_rupture(psi(4000.0), Inch)), 474.34, 1e-4);
    let metric = modulus_of_rupture(Pressure::new::<megapascal>(30.0), Metric);
    assert_close(metric.get::<megapascal>(), 3.396, 1e-3);
}

/// ACI 318-05 8.5.1.
#[test]
fn stiffness_c3_to_c6() {
    assert_close(in_psi(stiffness_of_usual(psi(4000.0), Inch)), 3_604_997.0, 1e-5);
    let by_density = |strength, density| {
        in_psi(stiffness_by_density(psi(strength), pounds_a_cubic_foot(density), Inch).expect("in range"))
    };
    assert_close(by_density(5000.0, 145.0), 4_074_281.0, 1e-5);
    assert_close(by_density(4000.0, 150.0), 3_834_254.0, 1e-5);
    assert_close(by_density(4000.0, 144.0), 3_604_997.0, 1e-3);
    let metric = stiffness_of_usual(Pressure::new::<megapascal>(25.0), Metric);
    assert_close(metric.get::<megapascal>(), 23_500.0, EXACT);
    for density in [89.0, 161.0, f64::NAN] {
        assert_eq!(stiffness_by_density(psi(4000.0), pounds_a_cubic_foot(density), Inch), None);
    }
}

/// A tested flexural strength outranks the formula, and a third of it is kept back (PCI, from memory).
#[test]
fn allowable_is_two_thirds_of_what_cracks() {
    let concrete = Concrete { strength: psi(4000.0), flexural: None, density: pounds_a_cubic_foot(145.0) };
    assert_close(in_psi(concrete.allowable(Inch).value), 474.34 / 1.5, 1e-4);
    let tested = Concrete { flexural: Some(psi(900.0)), ..concrete };
    assert_close(in_psi(tested.allowable(Inch).value), 600.0, EXACT);
    // And back: the strength at which a stress is allowed.
    assert_close(in_psi(Concrete::strength_to_allow(concrete.allowable(Inch).value, Inch)), 4000.0, EXACT);
}
