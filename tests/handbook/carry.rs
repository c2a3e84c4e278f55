//! Weight and people.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, job_of, two_sinks, worked_out};
use pourwright::carry::limits::load_constant;
use pourwright::carry::{Crew, team_capacity};
use pourwright::job::Units;
use pourwright::measure::exact::pounds;
use uom::si::mass::kilogram;

checks![installed_weight_at_a_typed_density, load_constants, teams];

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
fn installed_weight_at_a_typed_density(evidence: &mut Evidence) {
    let mut job = job_of("96", "25 1/2", "2");
    job.bags[0].hardened_density = "150 lb/ft³".into();
    let weights = worked_out(&job).pieces[0].weights.clone().unwrap();
    let table = evidence.check(Check {
        label: "P22",
        title: "Weight of a slab",
        source: "Volume times density",
        marks: &[Mark::ByHand],
        problem: "96 × 25.5 × 2 in at 150 lb/ft³",
        modelled: "estimate::estimate of that job, installed weight",
        ..Check::default()
    });
    table.close("weight, lb", weights.installed.value.value / pounds(1.0).value, 425.0, EXACT);
}

/// Mass is the sum of its parts: steel comes on top.
#[test]
fn steel_is_added() {
    let job = job_of("48", "20", "2");
    let mut with_steel = job.clone();
    with_steel.pieces[0].steel = "6 lb".into();
    let weigh = |job| {
        let weights = worked_out(job).pieces[0].weights.clone().unwrap();
        (weights.as_cast.value, weights.installed.value)
    };
    let (bare, reinforced) = (weigh(&job), weigh(&with_steel));
    assert_close((reinforced.0 - bare.0).value, pounds(6.0).value, EXACT);
    assert_close((reinforced.1 - bare.1).value, pounds(6.0).value, EXACT);
}

/// L1 and L2, NIOSH 94-110 (rev. 2021) p. 7: 51 lb in US units, 23 kg in SI.
fn load_constants(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "L1, L2",
        title: "Load constant",
        source: "NIOSH 94-110 (revised 2021), p. 7; read in a transcription with page numbers",
        marks: &[Mark::Published],
        problem: "the most that one person may lift under ideal conditions",
        conventions: "The manual rounds the two systems apart: 51 lb are 23.13 kg.",
        modelled: "carry::limits::load_constant",
        ..Check::default()
    });
    table.close("US units, lb", load_constant(Units::Inch).value / pounds(1.0).value, 51.0, EXACT);
    table.close("SI, kg", load_constant(Units::Metric).get::<kilogram>(), 23.0, EXACT);
}

/// L9, UK HSE L23: two lift 2/3 of their sum, three 1/2; four or more are not advised.
fn teams(evidence: &mut Evidence) {
    let capacity = |people| team_capacity(people, Units::Inch).map(|mass| mass.value / pounds(1.0).value);
    let table = evidence.check(Check {
        label: "L9",
        title: "Teams under ideal conditions",
        source: "UK HSE, L23, guidance to the Manual Handling Operations Regulations 1992; read where it is quoted. Joined \
            to the load constant of NIOSH here",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "51 lb each; two lift 2/3 of the sum, three 1/2, four are not advised",
        conventions: "Neither source knows the other: joining them is this program's choice.",
        modelled: "carry::team_capacity",
        ..Check::default()
    });
    table.close("one, lb", capacity(1).unwrap(), 51.0, EXACT);
    table.close("two, lb", capacity(2).unwrap(), 68.0, EXACT);
    table.close("three, lb", capacity(3).unwrap(), 76.5, EXACT);
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
