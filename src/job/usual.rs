//! Usual amounts of the table that rooms need without a job at hand; all others stand in the table alone.

use crate::measure::exact::{inches, pounds};
use crate::measure::{Length, Mass, Units};
use uom::si::mass::gram;

/// Width of the rails and sides of a cabinet, which bear in their middle. Common practice.
pub fn cabinet_rail() -> Length {
    inches(1.0)
}

/// How far a top reaches over the middle of the front rail of its cabinet. Common practice.
pub fn overhang() -> Length {
    inches(1.0)
}

/// The push that drives out a knockout, as a weight. Common practice, no source.
pub fn push() -> Mass {
    pounds(100.0)
}

/// The person who sits on a top. Common practice, no source.
pub fn person() -> Mass {
    pounds(300.0)
}

/// The finest step of the maker's scale: 1 oz, or 5 g. Common practice.
pub fn scale_step(units: Units) -> Mass {
    match units {
        Units::Inch => pounds(1.0 / 16.0),
        Units::Metric => Mass::new::<gram>(5.0),
    }
}
