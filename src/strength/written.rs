//! Stresses, forces and moments as a working writes them.

use super::limits::GRAVITY;
use crate::measure::exact::{in_inches, pounds, psi};
use crate::measure::{Length, Mass, Pressure, Units, write_number};
use uom::si::f64::{Force, Torque};
use uom::si::force::newton;

/// "474 psi", whole; "3.27 MPa", to two decimals.
pub(crate) fn pressure(value: Pressure, units: Units) -> String {
    match units {
        Units::Inch => format!("{} psi", write_number((value / psi(1.0)).value, 0)),
        Units::Metric => format!("{} MPa", write_number(value.value / 1e6, 2)),
    }
}

/// "24.6 GPa"; "3,604,997 psi" is written "3.60 million psi".
pub(crate) fn stiffness(value: Pressure, units: Units) -> String {
    match units {
        Units::Inch => format!("{} million psi", write_number((value / psi(1e6)).value, 2)),
        Units::Metric => format!("{} GPa", write_number(value.value / 1e9, 1)),
    }
}

/// What a mass weighs.
pub(crate) fn weight(mass: Mass) -> Force {
    Force::new::<newton>(mass.value * GRAVITY)
}

/// One pound-force.
pub(crate) fn pound_force() -> Force {
    Force::new::<newton>(pounds(GRAVITY).value)
}

/// "85 lb", whole; "378 N", whole.
pub(crate) fn force(value: Force, units: Units) -> String {
    match units {
        Units::Inch => format!("{} lb", write_number((value / pound_force()).value, 0)),
        Units::Metric => format!("{} N", write_number(value.value, 0)),
    }
}

/// "4243 lb·in", whole; "479 N·m", whole.
pub(crate) fn moment(value: Torque, units: Units) -> String {
    match units {
        Units::Inch => {
            let inch_pounds = value.value / pound_force().value / 0.0254;
            format!("{} lb·in", write_number(inch_pounds, 0))
        }
        Units::Metric => format!("{} N·m", write_number(value.value, 0)),
    }
}

/// A small length: "0.235 in", to a thousandth; "6.0 mm", to a tenth.
pub(crate) fn small_length(value: Length, units: Units) -> String {
    match units {
        Units::Inch => format!("{} in", write_number(in_inches(value), 3)),
        Units::Metric => format!("{} mm", write_number(value.value * 1e3, 1)),
    }
}
