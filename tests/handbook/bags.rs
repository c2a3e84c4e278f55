//! Yield, density, bags and water.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close, job_of, worked_out};
use pourwright::job::{BagField, Job, Units};
use pourwright::measure::Volume;
use pourwright::measure::exact::{pounds, pounds_a_cubic_foot};
use pourwright::mix::limits::water_density;
use pourwright::mix::{catalogue, source_of, whole_bags};
use pourwright::working::Source;
use uom::si::volume::cubic_meter;

checks![
    yield_is_mass_over_density,
    a_gallon_of_water,
    bags_of_concrete_agree_with_themselves,
    bags_of_a_slab,
    five_bags_are_five
];

/// Cubic metres in a cubic foot, exact (U2, NIST SP 811 B.8).
const CUBIC_FOOT: f64 = 0.028_316_846_592;

fn cubic_feet(volume: Volume) -> f64 {
    volume.get::<cubic_meter>() / CUBIC_FOOT
}

/// The job with the catalogue's bag of that id.
fn cast_from(mut job: Job, id: &str) -> Job {
    let bag = catalogue(job.units).into_iter().find(|bag| bag.id == id).expect("in the catalogue");
    job.pieces[0].bag = bag.id.clone();
    job.bags = vec![bag];
    job
}

/// B1, ASTM C138 from memory: 3802 lb at 140.815 lb/ft³ yield 27.00 ft³.
fn yield_is_mass_over_density(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "B1",
        title: "Yield",
        source: "ASTM C138: Y = M ÷ D",
        marks: &[Mark::Memory, Mark::ByHand],
        problem: "3802 lb at 140.815 lb/ft³",
        modelled: "measure: a mass over a density",
        gap: "The density is told with six digits.",
        ..Check::default()
    });
    table.close("yield, ft³", cubic_feet(pounds(3802.0) / pounds_a_cubic_foot(140.815)), 27.0, 1e-4);
}

/// U10, from U8 (NIST HB 44): a US gallon of water at 62.4 lb/ft³ weighs 8.3417 lb.
fn a_gallon_of_water(evidence: &mut Evidence) {
    let gallon = Volume::new::<cubic_meter>(231.0 * 0.0254_f64.powi(3));
    let table = evidence.check(Check {
        label: "U10",
        title: "Mixing water by the gallon",
        source: "NIST Handbook 44, Appendix C: a US gallon is 231 in³; read where it is quoted",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "1 US gal at 62.4 lb/ft³",
        modelled: "mix::limits::water_density",
        gap: "Five digits are told.",
        ..Check::default()
    });
    table.close("1 gal of water, lb", (gallon * water_density()).value / pounds(1.0).value, 8.3417, 1e-4);
}

/// B3, common practice, no source: an 80 lb bag yields 0.60 ft³, a 60 lb bag 0.45 ft³; and B4 by C138:
/// with 3 qt of water the 80 lb bag is 143.8 lb/ft³ when fresh.
fn bags_of_concrete_agree_with_themselves(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "B3, B4",
        title: "Bags of concrete",
        source: "Bags of 80 and 60 lb yield 0.60 and 0.45 ft³; ASTM C138 for what they then weigh",
        marks: &[Mark::Practice, Mark::ByHand],
        problem: "80 lb and 3 qt of water in 0.60 ft³; 60 lb with as much in proportion",
        modelled: "mix::Pour of the bags in the catalogue",
        gap: "Four digits are told.",
        ..Check::default()
    });
    for (id, what) in [("portland-concrete-80-lb", "80 lb"), ("portland-concrete-60-lb", "60 lb")] {
        let job = cast_from(job_of("48", "20", "2"), id);
        let pour = worked_out(&job).pieces[0].pour.clone().unwrap();
        let found = pour.fresh_density.value.value / pounds_a_cubic_foot(1.0).value;
        table.close(format!("{what}: fresh density, lb/ft³"), found, 143.8, 1e-3);
    }
}

/// Common practice, no source: fresh mortar weighs about 130 lb/ft³, concrete 140 to 145; every bag of
/// both catalogues lies near that.
#[test]
fn catalogue_densities_are_plausible() {
    for units in [Units::Inch, Units::Metric] {
        for bag in catalogue(units) {
            let mut job = Job::new("check", units);
            let metric = units == Units::Metric;
            job.pieces[0].width = if metric { "1200" } else { "48" }.into();
            job.pieces[0].depth = if metric { "500" } else { "20" }.into();
            let id = bag.id.clone();
            let pour = worked_out(&cast_from(job, &id)).pieces[0].pour.clone().unwrap();
            let density = pour.fresh_density.value.value / pounds_a_cubic_foot(1.0).value;
            assert!((128.0..146.0).contains(&density), "{id}: {density} lb/ft³");
        }
    }
}

/// B5: 96 × 25.5 × 2 in with 10 % spare from 80 lb bags: 2.8333 ft³, 5.194 bags, so 6. Computed from B3.
fn bags_of_a_slab(evidence: &mut Evidence) {
    let job = cast_from(job_of("96", "25.5", "2"), "portland-concrete-80-lb");
    let estimate = worked_out(&job);
    let pour = estimate.pieces[0].pour.as_ref().unwrap();
    let order = estimate.orders[0].as_ref().unwrap();
    let table = evidence.check(Check {
        label: "B5",
        title: "Bags and water of a slab",
        source: "Arithmetic on B3, and NIST Handbook 44 for the quart",
        marks: &[Mark::Practice, Mark::ByHand],
        problem: "96 × 25.5 × 2 in, 10 % spare, bags of 80 lb, 0.60 ft³ and 3 qt",
        modelled: "estimate::estimate of that job",
        gap: "Four to five digits are told.",
        ..Check::default()
    });
    table.close("volume, ft³", cubic_feet(pour.net.value), 2.8333, 1e-4);
    table.close("bags before rounding", cubic_feet(pour.with_spare.value) / 0.60, 5.194, 1e-4);
    table.same("bags", order.bags.value, 6);
    table.close("left over, ft³", cubic_feet(order.bagged().unwrap().left_over.value), 0.48333, 1e-3);
    // 3 US quarts a bag, 57.75 in³ each (U3, NIST HB 44).
    let cubic_inches = order.water.value.get::<cubic_meter>() / 0.0254_f64.powi(3);
    table.close("water of six bags, in³", cubic_inches, 1039.5, EXACT);
    assert_eq!(pour.loads.value, 6);
}

/// B6, common practice: exactly five bags are five, whatever the last bit of a float says.
fn five_bags_are_five(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "B6",
        title: "Rounding to whole bags",
        source: "Nobody buys a sixth bag for a billionth of one",
        marks: &[Mark::Practice],
        problem: "5 bags; 5.0000000001 bags, which is float noise; 5.0001 bags, which is not",
        modelled: "mix::whole_bags",
        ..Check::default()
    });
    for (exactly, bags) in [(5.0, 5), (5.000_000_000_1, 5), (5.000_1, 6), (0.000_1, 1)] {
        table.same(format!("{exactly} bags"), whole_bags(exactly).expect("a count"), bags);
    }
    assert_eq!(whole_bags(0.0), Some(0));
    assert_eq!(whole_bags(f64::NAN), None);
    assert_eq!(whole_bags(f64::INFINITY), None);
    assert_eq!(whole_bags(-1.0), None);
    assert_eq!(whole_bags(1e7), None);

    // 60 × 24 × 2 in = 2880 in³, from bags of a third of that, 960 × 0.016387064 L, with no spare.
    let mut job = job_of("60", "24", "2");
    job.pieces[0].spare = "0".into();
    job.bags[0].yield_volume = "15.73158144 L".into();
    assert_eq!(worked_out(&job).headline.bags.unwrap().value, 3);
}

/// The pieces of one mix are ordered together, and rounded up once.
#[test]
fn pieces_share_an_order() {
    let mut job = cast_from(job_of("30", "24", "2"), "portland-concrete-80-lb");
    let second = job.pieces[0].clone();
    job.pieces.push(second);
    // Each 0.8333 ft³ × 1.1 = 0.9167 ft³: 1.53 bags, 2 alone; together 3.06, so 4.
    let estimate = worked_out(&job);
    assert_eq!(estimate.pieces[0].pour.as_ref().unwrap().loads.value, 2);
    assert_eq!(estimate.orders.len(), 1);
    assert_eq!(estimate.headline.bags.unwrap().value, 4);
    // With no spare 2.78 bags together: 3, although each alone takes 2.
    for piece in &mut job.pieces {
        piece.spare = "0".into();
    }
    assert_eq!(worked_out(&job).headline.bags.unwrap().value, 3);
}

/// Common practice, no source: a bag that makes less than 110 or more than 160 lb/ft³ is a typing error.
#[test]
fn a_bag_that_disagrees_with_itself_stops() {
    use pourwright::finding::Severity;
    for (yields, stops) in [("0.60 ft³", false), ("0.06 ft³", true), ("0.80 ft³", true)] {
        let mut job = cast_from(job_of("30", "24", "2"), "portland-concrete-80-lb");
        job.bags[0].yield_volume = yields.into();
        let findings = worked_out(&job).findings;
        let found = findings.iter().any(|f| f.severity == Severity::Stop && f.says.write(&job).contains("yield"));
        assert_eq!(found, stops, "{yields}: {findings:?}");
    }
}

/// Water over the label's most stops; under its least is a watch; within is nothing.
#[test]
fn water_against_the_label() {
    use pourwright::finding::Severity;
    for (water, expected) in
        [("5 qt", None), ("5 1/2 qt", None), ("6 qt", Some(Severity::Stop)), ("4 qt", Some(Severity::Watch))]
    {
        let mut job = job_of("30", "24", "2");
        job.bags[0].water = water.into();
        job.bags[0].water_least = "4 1/2 qt".into();
        job.bags[0].water_most = "5 1/2 qt".into();
        let findings = worked_out(&job).findings;
        let found = findings.iter().find(|f| f.says.write(&job).contains("label")).map(|f| f.severity);
        assert_eq!(found, expected, "{water}");
    }
}

/// The metric rapid mortar is the 55 lb bag scaled to 25 kg, to the digits that it is typed with.
#[test]
fn the_metric_mortar_is_the_same_mortar() {
    let bag = catalogue(Units::Metric).remove(0);
    let scale = 25.0 / (55.0 * 0.453_592_37);
    let litres = |text: &str| text.strip_suffix(" L").expect("litres").parse::<f64>().unwrap();
    assert_close(litres(bag.yield_volume.text()), 0.50 * CUBIC_FOOT * 1000.0 * scale, 2e-3);
    assert_close(litres(bag.water.text()), 5.0 * 0.946_352_946 * scale, 2e-3);
}

/// A figure of the catalogue says where it is from until the maker types over it.
#[test]
fn a_typed_figure_outranks_the_catalogue() {
    let mut bag = catalogue(Units::Inch).remove(0);
    assert_eq!(source_of(&bag, BagField::Yield), Source::Memory);
    assert_eq!(source_of(&bag, BagField::Workable), Source::Practice);
    bag.yield_volume = "0.48 ft³".into();
    assert_eq!(source_of(&bag, BagField::Yield), Source::Typed);
    bag.id = "mine".to_owned();
    assert_eq!(source_of(&bag, BagField::Workable), Source::Typed);
}
