//! Writing stresses, forces and moments, and the lengths that they come with.

use super::exact::{GRAVITY, in_inches, pound_force, psi};
use super::{Length, Mass, Pressure, Units, Written, write_number};
use uom::si::f64::{Force, Torque};
use uom::si::force::newton;

fn exact(text: String) -> Written {
    Written { text, rounded: false }
}

/// What a mass weighs, under standard gravity.
pub fn weight_of(mass: Mass) -> Force {
    Force::new::<newton>(mass.value * GRAVITY)
}

/// A strength or a stress: "474 psi", whole; "3.27 MPa", to two decimals.
pub fn write_pressure(value: Pressure, units: Units) -> Written {
    exact(match units {
        Units::Inch => write_number((value / psi(1.0)).value, 0) + " psi",
        Units::Metric => write_number(value.value / 1e6, 2) + " MPa",
    })
}

/// A modulus of elasticity: "3.60 million psi", "24.6 GPa".
pub fn write_stiffness(value: Pressure, units: Units) -> Written {
    exact(match units {
        Units::Inch => write_number((value / psi(1e6)).value, 2) + " million psi",
        Units::Metric => write_number(value.value / 1e9, 1) + " GPa",
    })
}

/// A force: "85 lb", whole; "378 N", whole.
pub fn write_force(value: Force, units: Units) -> Written {
    exact(match units {
        Units::Inch => write_number((value / pound_force()).value, 0) + " lb",
        Units::Metric => write_number(value.value, 0) + " N",
    })
}

/// A moment: "4243 lb·in", whole; "479 N·m", whole.
pub fn write_moment(value: Torque, units: Units) -> Written {
    exact(match units {
        Units::Inch => write_number(value.value / pound_force().value / 0.0254, 0) + " lb·in",
        Units::Metric => write_number(value.value, 0) + " N·m",
    })
}

/// A length too small for a tape: "0.235 in", to a thousandth; "6.0 mm", to a tenth.
pub fn write_small_length(value: Length, units: Units) -> Written {
    exact(match units {
        Units::Inch => write_number(in_inches(value), 3) + " in",
        Units::Metric => write_number(value.value * 1e3, 1) + " mm",
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::{inches, pounds};
    use crate::measure::{Measured, Quantity};

    #[test]
    fn each_is_written_in_the_units_asked_for() {
        let both = |quantity: Quantity| [Units::Inch, Units::Metric].map(|units| quantity.write(units).text);
        assert_eq!(both(psi(474.2).quantity()), ["474 psi", "3.27 MPa"]);
        assert_eq!(both(Quantity::Stiffness(psi(3_604_997.0))), ["3.6 million psi", "24.9 GPa"]);
        assert_eq!(both(weight_of(pounds(85.0)).quantity()), ["85 lb", "378 N"]);
        let moment = Torque::new::<uom::si::torque::newton_meter>(479.4);
        assert_eq!(both(moment.quantity()), ["4243 lb·in", "479 N·m"]);
        assert_eq!(both(Quantity::SmallLength(inches(0.2354))), ["0.235 in", "6 mm"]);
    }
}
