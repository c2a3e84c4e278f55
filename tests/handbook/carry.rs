//! Weight and people.

use crate::{EXACT, assert_close, job_of, two_sinks, worked_out};
use pourwright::carry::{Crew, team_capacity};
use pourwright::job::Units;
use pourwright::limits::load_constant;
use pourwright::measure::exact::pounds;
use uom::si::mass::kilogram;

/// Common practice, no source: a 67 × 19 1/4 × 2 in top with two 20 × 13 in sinks in mortar weighs about
/// 120 lb.
#[test]
fn two_sinks_weigh_about_120_pounds() {
    let estimate = worked_out(&two_sinks());
    let weight = estimate.headline.weight.unwrap().value.value / pounds(1.0).value;
    assert!((112.0..=125.0).contains(&weight), "{weight} lb");
    assert_eq!(estimate.headline.people.unwrap().value, Crew::Aid);
}

/// Weight is volume times density: 96 × 25.5 × 2 in at 150 lb/ft³ is 425 lb (P22). Computed (statics).
#[test]
fn installed_weight_at_a_typed_density() {
    let mut job = job_of("96", "25 1/2", "2");
    job.bags[0].hardened_density = "150 lb/ft³".into();
    let weights = worked_out(&job).pieces.remove(0).weights.unwrap();
    assert_close(weights.installed.value.value / pounds(1.0).value, 425.0, EXACT);
}

/// Mass is the sum of its parts: steel comes on top.
#[test]
fn steel_is_added() {
    let job = job_of("48", "20", "2");
    let mut with_steel = job.clone();
    with_steel.pieces[0].steel = "6 lb".into();
    let weigh = |job| {
        let weights = worked_out(job).pieces.remove(0).weights.unwrap();
        (weights.as_cast.value, weights.installed.value)
    };
    let (bare, reinforced) = (weigh(&job), weigh(&with_steel));
    assert_close((reinforced.0 - bare.0).value, pounds(6.0).value, EXACT);
    assert_close((reinforced.1 - bare.1).value, pounds(6.0).value, EXACT);
}

/// L1 and L2, NIOSH 94-110 (rev. 2021) p. 7: 51 lb in US units, 23 kg in SI.
#[test]
fn load_constants() {
    assert_close(load_constant(Units::Inch).get::<kilogram>(), 51.0 * 0.453_592_37, EXACT);
    assert_close(load_constant(Units::Metric).get::<kilogram>(), 23.0, EXACT);
}

/// L9, UK HSE L23: two lift 2/3 of their sum, three 1/2; four or more are not advised.
#[test]
fn teams() {
    let capacity = |people| team_capacity(people, Units::Inch).map(|mass| mass.value / pounds(1.0).value);
    assert_close(capacity(1).unwrap(), 51.0, EXACT);
    assert_close(capacity(2).unwrap(), 68.0, EXACT);
    assert_close(capacity(3).unwrap(), 76.5, EXACT);
    assert_eq!(capacity(0), None);
    assert_eq!(capacity(4), None);
}

/// The smallest team that may lift it; above what three may, a cart.
#[test]
fn crews_by_weight() {
    // 130.85 lb/ft³ over 2 in: 21.81 lb a square foot of face.
    let cases = [
        ("12", "24", Crew::Hands(1)), // 43.6 lb
        ("17", "24", Crew::Hands(2)), // 61.8 lb
        ("20", "24", Crew::Hands(3)), // 72.7 lb
        ("22", "24", Crew::Aid),      // 80.0 lb
    ];
    for (width, depth, expected) in cases {
        let people = worked_out(&job_of(width, depth, "2")).headline.people.unwrap();
        assert_eq!(people.value, expected, "{width} × {depth}");
    }
}
