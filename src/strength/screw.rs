//! What a screw holds in the side of a stud, pulled out of it.

use super::inputs::BracketInputs;
use crate::job::HandlingField;
use crate::label;
use crate::measure::exact::{in_inches, inches, pound_force};
use crate::measure::{Length, Quantity, geometry_tolerance, write_number};
use crate::working::{Figure, Known, Source, Term, together};
use uom::si::f64::Force;

/// Specific gravity of the wood of a stud: spruce-pine-fir, the lightest of the usual ones (Douglas fir has 0.50).
pub const STUD_GRAVITY: f64 = 0.42;

/// Screws from this diameter on are lag screws (National Design Specification for Wood Construction, from memory).
pub fn lag_least() -> Length {
    inches(0.25)
}

/// The thinnest and the thickest screw that the rule tells of: No. 6, and 1 1/4 in (the same, from memory).
pub fn screws() -> [Length; 2] {
    [inches(0.138), inches(1.25)]
}

/// Source of what a lag screw or a wood screw holds.
pub const WITHDRAWAL: Source = Source::Standard(
    "National Design Specification for Wood Construction 12.2: lag screw 1800 G^(3/2) D^(3/4), wood screw 2850 G² D, lb \
     an inch of thread (read where it is quoted); not raised for a short load",
);

/// Source of [`STUD_GRAVITY`].
pub const GRAVITY_OF_STUDS: Source =
    Source::Standard("National Design Specification for Wood Construction 12.3.3: spruce-pine-fir 0.42 (from memory)");

/// What the screws of a bracket hold in the stud, each by itself.
///
/// # Errors
/// Its diameter or its thread, where they are blank, or a diameter that the rule does not tell of.
pub(super) fn holds(brackets: &BracketInputs) -> Known<Figure<Force>> {
    let (screw, bite) = together((brackets.screw.clone(), brackets.bite.clone()))?;
    let [least, most] = screws();
    if screw < least - geometry_tolerance() || screw > most + geometry_tolerance() {
        let says = label!(
            "the rule for screws in wood is for {} to {}.",
            Quantity::SmallLength(least),
            Quantity::SmallLength(most)
        );
        return Err(brackets.waits_at(HandlingField::Screw, says));
    }
    Ok(withdrawal(screw, bite))
}

/// What a screw of that diameter holds in a stud with so much thread in it. Pounds and inches are those of the rule.
fn withdrawal(screw: Length, bite: Length) -> Figure<Force> {
    let lag = screw >= lag_least() - geometry_tolerance();
    let (wide, deep) = (in_inches(screw), in_inches(bite));
    let wood = "G, how dense the wood of the stud is: spruce-pine-fir, the lightest of the usual ones";
    let gravity = Quantity::Number(STUD_GRAVITY, 2);
    let gravity = Term::stated_as(STUD_GRAVITY, wood, gravity.clone(), GRAVITY_OF_STUDS).called_as("G", gravity);
    let wide = Term::named_as(wide, "D in inches", Quantity::Number(wide, 4));
    let (an_inch, name) = if lag {
        let root: fn(&[f64]) -> f64 = |parts| parts[0].powf(0.75);
        let power: fn(&[f64]) -> f64 = |parts| parts[0].powf(1.5);
        let (of_wood, of_screw) = (power(&[gravity.value]), root(&[wide.value]));
        let held = 1800.0 * gravity.by_rule("{}^(3/2)", power, of_wood) * wide.by_rule("({})^(3/4)", root, of_screw);
        (held, "a lag screw, an inch of thread")
    } else {
        (2850.0 * gravity.clone() * gravity * wide, "a wood screw, an inch of thread")
    };
    let written = Quantity::other(an_inch.value, |value, _| write_number(value, 1) + " lb/in");
    let held = an_inch.step_as(name, written, WITHDRAWAL);
    let holds = held.value * deep * pound_force();
    let thread = Quantity::other(deep, |value, _| write_number(value, 3) + " in");
    let parts = [held.into(), Term::named_as(deep, "thread in the stud", thread).into()];
    Term::rule("{} × {}", parts, |parts| parts[0] * parts[1] * pound_force().value, holds)
        .titled("What that screw holds in the stud", Source::Arithmetic)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Units;

    /// 1800 × 0.42^(3/2) × 0.3125^(3/4) = 204.8 lb an inch; 2850 × 0.42² × 0.19 = 95.5 lb an inch.
    #[test]
    fn a_lag_screw_and_a_wood_screw_have_rules_of_their_own() {
        for (screw, formula, an_inch, all) in [
            (0.3125, "A lag screw, an inch of thread = 1800 × G^(3/2) × (D in inches)^(3/4)", "204.8 lb/in", "410 lb"),
            (0.19, "A wood screw, an inch of thread = 2850 × G × G × D in inches", "95.5 lb/in", "191 lb"),
        ] {
            let lines = withdrawal(inches(screw), inches(2.0)).working.lines(Units::Inch);
            assert_eq!((lines[1].formula.as_str(), lines[1].result.as_str()), (formula, an_inch));
            assert_eq!(lines[2].result, all);
        }
    }
}
