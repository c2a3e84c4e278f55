//! Grinding, filling, sealing, and the dates of them. Values are computed from published definitions outside
//! this code (Python 3.11), or common practice, no source, where marked.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close};
use pourwright::finish::{
    Coverage, Defect, EdgeRun, Exposure, FillMix, Pad, Rate, SealKind, Sealer, Sheen, SilicaVerdict, Step, Surfaces,
    Tool, care_sheet, cautions, dust_controls, eight_hour_average, fill_slurry, grinding_time, pad_share, removed,
    schedule, seal_amount, seal_area, sequence, slurry, speed_limit, write_speed,
};
use pourwright::measure::Units::Metric;
use pourwright::measure::exact::{cubic_feet, in_pounds, in_quarts, inches, pounds_a_cubic_foot, quarts};
use pourwright::measure::{Area, Date, Length, MassDensity, Moment, Time};
use pourwright::working::Source;
use uom::si::f64::Velocity;
use uom::si::frequency::cycle_per_minute;
use uom::si::length::millimeter;
use uom::si::mass::gram;
use uom::si::mass_density::microgram_per_cubic_meter;
use uom::si::time::{hour, minute};
use uom::si::velocity::{foot_per_minute, meter_per_second};
use uom::si::volume_rate::cubic_foot_per_minute;

checks![
    speed_limits,
    slurry_of_the_same_mix,
    days_of_the_calendar,
    silica_over_eight_hours,
    dust_controls_of_a_hand_grinder
];

const SILICA: &str = "US OSHA, respirable crystalline silica, 29 CFR 1910.1053 and 1926.1153";

fn square_feet(count: f64) -> Area {
    count * inches(12.0) * inches(12.0)
}

fn hours(count: f64) -> Time {
    Time::new::<hour>(count)
}

/// Common practice, no source: sand 1/32, medium 1/16, full 1/8 in; cream nothing.
#[test]
fn depths_of_exposure() {
    for (exposure, depth) in Exposure::ALL.into_iter().zip([0.0, 1.0 / 32.0, 1.0 / 16.0, 1.0 / 8.0]) {
        assert_close(exposure.depth().get::<millimeter>(), depth * 25.4, EXACT);
        assert_eq!(Exposure::reached(exposure.depth()), exposure);
    }
    assert_eq!(Exposure::reached(inches(0.06)), Exposure::Sand);
    assert_eq!(Exposure::reached(inches(1.0)), Exposure::Full);
    assert_eq!(Exposure::reached(Length::new::<millimeter>(f64::NAN)), Exposure::Cream);
}

/// 10 ft² × 1/16 in is 10·144/16 in³ = 0.0520833 ft³, at 140 lb/ft³ 7.29167 lb; with one US gallon of water
/// at 62.4 lb/ft³ (U10: 8.3417 lb) 15.6333 lb.
#[test]
fn dust_and_slurry() {
    let off = removed(square_feet(10.0), inches(1.0 / 16.0), pounds_a_cubic_foot(140.0)).unwrap();
    assert_close(off.volume.value.value, cubic_feet(10.0 * 144.0 / 16.0 / 1728.0).value, EXACT);
    assert_close(in_pounds(off.mass.value), 7.291_666_667, EXACT);
    assert_close(in_pounds(slurry(&off, quarts(4.0)).unwrap().value), 15.633_33, 1e-6);
    assert_eq!(off.mass.working.lines(pourwright::measure::Units::Inch).last().unwrap().result, "≈ 7.3 lb");
    for bad in [f64::NAN, -1.0, f64::INFINITY] {
        assert!(removed(square_feet(10.0), inches(bad), pounds_a_cubic_foot(140.0)).is_none());
    }
}

fn grits(exposure: Exposure, sheen: Option<Sheen>, owned: &[u32]) -> (Vec<u32>, Vec<u32>) {
    let mut tools: Vec<_> = owned.iter().map(|grit| Tool::Pad(*grit)).collect();
    tools.push(Tool::Wheel);
    let found = sequence(exposure, sheen, &tools);
    let grit = |tool: Tool| match tool {
        Tool::Pad(grit) => Some(grit),
        Tool::Wheel => None,
    };
    (found.steps.iter().filter_map(|step| grit(step.tool)).collect(), found.missing().filter_map(grit).collect())
}

/// Common practice, no source: 50, 100, 200, 400 is honed, 800, 1500 is satin, 3000 is gloss; no gap of more
/// than one doubling.
#[test]
fn sequences_of_grits() {
    let full = [50, 100, 200, 400, 800, 1500, 3000];
    type Case<'a> = (Option<Sheen>, &'a [u32], &'a [u32], &'a [u32]);
    let cases: [Case; 10] = [
        (Some(Sheen::Gloss), &full, &full, &[]),
        (Some(Sheen::Satin), &full, &full[..6], &[]),
        (Some(Sheen::Honed), &full, &full[..4], &[]),
        (None, &full, &[], &[]),
        (Some(Sheen::Honed), &[50, 200, 400], &full[..4], &[100]),
        (Some(Sheen::Satin), &[50, 100, 200, 400, 1500], &full[..6], &[800]),
        (Some(Sheen::Gloss), &[50, 100, 200, 400, 800, 3000], &full, &[1500]),
        (Some(Sheen::Honed), &[], &full[..4], &full[..4]),
        // No finer than is wanted.
        (Some(Sheen::Satin), &[50, 100, 200, 400, 800, 1500, 1600], &full[..6], &[]),
        // Pads between the usual ones do as well.
        (Some(Sheen::Honed), &[30, 60, 120, 220, 400], &[30, 60, 120, 220, 400], &[]),
    ];
    for (sheen, owned, used, missing) in cases {
        let found = grits(Exposure::Full, sheen, owned);
        assert_eq!(found, (used.to_vec(), missing.to_vec()), "{sheen:?} with {owned:?}");
    }
    assert_eq!(grits(Exposure::Cream, Some(Sheen::Satin), &full), (vec![400, 800, 1500], vec![]));
    assert_eq!(sequence(Exposure::Cream, None, &[]).steps, []);
    assert_eq!(sequence(Exposure::Sand, None, &[]).missing().collect::<Vec<_>>(), [Tool::Wheel]);
    assert_eq!(
        sequence(Exposure::Sand, Some(Sheen::Honed), &[Tool::Pad(50), Tool::Pad(200), Tool::Pad(400)]).words(),
        "Missing for a sequence without a gap: coarse wheel, 100 pad."
    );
}

/// 12 ft² at 30 min for 4 ft² are 90 min, and at 10 min for 6 ft² 20 min; a pad that lasts 48 ft² loses a
/// quarter. Arithmetic.
#[test]
fn hours_and_pads_at_the_makers_pace() {
    let pad = |tool, area, minutes| Pad {
        tool,
        rate: Some(Rate { area: square_feet(area), time: Time::new::<minute>(minutes) }),
        life: Some(square_feet(48.0)),
        diameter: None,
        rated: None,
    };
    let pads = [pad(Tool::Wheel, 4.0, 30.0), pad(Tool::Pad(400), 6.0, 10.0)];
    let face = square_feet(12.0);
    let mut steps = sequence(Exposure::Sand, None, &[Tool::Wheel]);
    steps.steps.extend(sequence(Exposure::Cream, Some(Sheen::Honed), &[Tool::Pad(400)]).steps);
    let time = grinding_time(face, &steps, &pads).unwrap();
    assert_close(time.value.get::<minute>(), 110.0, EXACT);
    assert_close(pad_share(face, &pads[0]).unwrap().value, 0.25, EXACT);
    assert_eq!(grinding_time(face, &steps, &pads[..1]), Err(vec![Tool::Pad(400)]));
    assert_eq!(grinding_time(Area::default(), &steps, &pads), Err(vec![Tool::Wheel, Tool::Pad(400)]));
}

/// v = π d n: 9500 ft/min on 5 in is 7257.465 a minute, 25 m/s on 100 mm 4774.648. Computed. A bigger pad
/// turns slower, in proportion.
fn speed_limits(evidence: &mut Evidence) {
    let rated = Velocity::new::<foot_per_minute>(9500.0);
    let limit = speed_limit(inches(5.0), rated).unwrap();
    let hundred = Length::new::<millimeter>(100.0);
    let metric = speed_limit(hundred, Velocity::new::<meter_per_second>(25.0)).unwrap();
    let table = evidence.check(Check {
        label: "N1",
        title: "Speed of a pad",
        source: "v = π d n",
        marks: &[Mark::Computed("Python 3.11")],
        problem: "9500 ft/min on 5 in; 25 m/s on 100 mm",
        modelled: "finish::speed_limit",
        ..Check::default()
    });
    table.close("5 in, 1/min", limit.value.get::<cycle_per_minute>(), 7_257.465_405, EXACT);
    table.close("100 mm, 1/min", metric.value.get::<cycle_per_minute>(), 4_774.648_293, EXACT);
    assert_eq!(write_speed(limit.value), "7257 rpm");
    assert_eq!(write_speed(metric.value), "4774 rpm");
    let double = speed_limit(inches(10.0), rated).unwrap();
    assert_close((limit.value / double.value).value, 2.0, EXACT);
    assert!(speed_limit(inches(0.0), rated).is_none());
}

/// A crack of 24 × 1/32 × 1/4 in and 200 pinholes of 1/16 × 1/16 in take 0.2258495 in³. Cement at 3.15 and
/// pigment at 4.9 times water, w/c 0.40, 5 % pigment, half as much again: 0.01681203 lb of cement. Absolute
/// volume (ACI 211.1), computed.
fn slurry_of_the_same_mix(evidence: &mut Evidence) {
    let defects = [
        Defect::Crack { length: inches(24.0), width: inches(1.0 / 32.0), depth: inches(0.25) },
        Defect::Pinholes { count: 200, diameter: inches(1.0 / 16.0), depth: inches(1.0 / 16.0) },
    ];
    let heavy = pounds_a_cubic_foot(4.9 * 62.4);
    let mix = FillMix { water_ratio: 0.40, pigment: 0.05, pigment_density: heavy, spare: 0.5 };
    let filling = fill_slurry(&defects, &mix).unwrap();
    let table = evidence.check(Check {
        label: "N2",
        title: "Slurry for a crack and pinholes",
        source: "Absolute volume, as in ACI 211.1-91",
        marks: &[Mark::Memory, Mark::Computed("Python 3.11")],
        problem: "a crack of 24 × 1/32 × 1/4 in, 200 pinholes of 1/16 × 1/16 in; cement at 3.15, pigment at 4.9, water 0.40, \
            5 % of pigment, half as much again. And 600 × 0.8 × 6 mm, water 0.35, no pigment",
        modelled: "finish::fill_slurry",
        gap: "The metric value was computed with water of 1000 kg/m³; this program has 62.4 lb/ft³, which is 999.55 kg/m³.",
        ..Check::default()
    });
    let cubic_inches = filling.volume.value.value / cubic_feet(1.0 / 1728.0).value;
    table.close("to fill, in³", cubic_inches, 0.225_849_519_697, EXACT);
    table.close("cement, lb", in_pounds(filling.cement.value), 0.016_812_029_921, EXACT);
    table.close("water, lb", in_pounds(filling.water.value), 0.006_724_811_969, EXACT);
    table.close("pigment, lb", in_pounds(filling.pigment.value), 0.000_840_601_496, EXACT);

    let millimetres = |count| Length::new::<millimeter>(count);
    let crack = Defect::Crack { length: millimetres(600.0), width: millimetres(0.8), depth: millimetres(6.0) };
    let plain = FillMix { water_ratio: 0.35, pigment: 0.0, pigment_density: MassDensity::default(), spare: 0.0 };
    let filling = fill_slurry(&[crack], &plain).unwrap();
    table.close("600 × 0.8 × 6 mm: cement, g", filling.cement.value.get::<gram>(), 4.314_863, 1e-3);
    let dark = FillMix { pigment: 0.4, pigment_density: heavy, ..plain };
    let dark = fill_slurry(&[crack], &dark).unwrap().cement;
    assert!(dark.working.lines(Metric).iter().any(|line| line.formula.starts_with("more pigment than")));
    assert!(dark.working.result(Metric).ends_with(" g"), "the last line is the cement: {:?}", dark.working);
    assert!(fill_slurry(&[], &plain).is_none());
    assert!(fill_slurry(&[crack], &FillMix { pigment: 0.05, ..plain }).is_none());
    assert!(fill_slurry(&[crack], &FillMix { water_ratio: f64::NAN, ..plain }).is_none());
}

fn sealer(coats: u32) -> Sealer {
    let coverage = Coverage::square_feet_a_gallon(300.0);
    Sealer { kind: SealKind::Film, coats, coverage, recoat: hours(4.0), cure: hours(72.0) }
}

/// A face of 9.5 ft², an 8 ft smooth and a 5 ft rough edge of 2 in, the rough one half as much again:
/// 9.5 + 1.3333 + 1.25 = 12.0833 ft². Three coats at 300 ft²/US gal: 15.4667 US fl oz. Arithmetic.
#[test]
fn sealer_for_face_and_edges() {
    let edge = |length, rough| EdgeRun { length: inches(12.0 * length), height: inches(2.0), rough, cutout: None };
    let edges = vec![edge(8.0, false), edge(5.0, true)];
    let surfaces = Surfaces { face: square_feet(9.5), edges, rough_extra: 0.5 };
    let area = seal_area(&surfaces).unwrap();
    assert_close((area.value / square_feet(1.0)).value, 145.0 / 12.0, EXACT);
    let amount = seal_amount(&area, sealer(3).coverage, 3).unwrap();
    assert_close(in_quarts(amount.value) * 32.0, 15.466_666_667, EXACT);
    assert!(seal_amount(&area, sealer(0).coverage, 0).is_none());
    assert!(seal_amount(&area, sealer(u32::MAX).coverage, u32::MAX).is_none());
    assert!(seal_area(&Surfaces { rough_extra: -0.1, ..surfaces }).is_none());
}

/// 200 to 400 ft²/US gal is usual, from memory of data sheets; both ends count.
#[test]
fn usual_coverage() {
    for (count, usual) in [(199.0, false), (200.0, true), (300.0, true), (400.0, true), (401.0, false)] {
        assert_eq!(Coverage::square_feet_a_gallon(count).is_usual(), usual, "{count}");
    }
}

/// Three coats 4 h apart from 16:30, then 72 h: 16:30, 20:30, 0:30, and cured three days later. By the
/// calendar.
#[test]
fn dates_of_the_seal() {
    let first = Moment { date: Date::new(2028, 2, 28).unwrap(), clock: hours(16.5) };
    let found = schedule(&sealer(3), first).unwrap();
    let coats: Vec<_> = found.coats.iter().map(ToString::to_string).collect();
    assert_eq!(coats, ["2028-02-28 16:30", "2028-02-28 20:30", "2028-02-29 00:30"]);
    assert_eq!(found.cured.to_string(), "2028-03-03 00:30");
    assert!(schedule(&sealer(0), first).is_none());
    assert!(schedule(&Sealer { recoat: hours(f64::NAN), ..sealer(2) }, first).is_none());
    assert!(schedule(&Sealer { cure: hours(1e30), ..sealer(2) }, first).is_none());
}

/// Days since 1 January 1970, computed with Python's datetime.
fn days_of_the_calendar(evidence: &mut Evidence) {
    let cases = [
        ((2000, 2, 29), 11_016),
        ((2026, 11, 25), 20_782),
        ((1900, 3, 1), -25_508),
        ((2100, 2, 28), 47_540),
        ((9999, 12, 31), 2_932_896),
        ((1, 1, 1), -719_162),
    ];
    let table = evidence.check(Check {
        label: "N3",
        title: "Days of the calendar",
        source: "Gregorian calendar, also before it was there",
        marks: &[Mark::Computed("Python 3.11, datetime")],
        problem: "days since 1 January 1970",
        modelled: "measure::Date::days",
        ..Check::default()
    });
    for ((year, month, day), days) in cases {
        let found = Date::new(year, month, day).map(Date::days).expect("a day");
        table.same(format!("{year:04}-{month:02}-{day:02}"), found, days);
    }
    assert_eq!(Date::new(2026, 11, 25).unwrap().plus_days(90).unwrap().to_string(), "2027-02-23");
}

/// L10, 29 CFR 1910.1053 and 1926.1153 alike: action level 25, limit 50 µg/m³. L11: 2 h at 150 µg/m³ and nothing else is 37.5
/// over 8 h: over the action level, under the limit.
fn silica_over_eight_hours(evidence: &mut Evidence) {
    let at = |level| MassDensity::new::<microgram_per_cubic_meter>(level);
    let (average, verdict) = eight_hour_average(&[(at(150.0), hours(2.0))]).unwrap();
    let table = evidence.check(Check {
        label: "L10, L11",
        title: "Silica over eight hours",
        source: SILICA,
        marks: &[Mark::Published, Mark::ByHand],
        problem: "action level 25 µg/m³, limit 50 µg/m³, both over 8 h; 2 h at 150 µg/m³ and nothing else",
        modelled: "finish::eight_hour_average",
        ..Check::default()
    });
    table.close("2 h at 150, µg/m³", average.value.get::<microgram_per_cubic_meter>(), 37.5, EXACT);
    assert_eq!(verdict, SilicaVerdict::Action);
    let words = |verdict| match verdict {
        SilicaVerdict::Low => "under both",
        SilicaVerdict::Action => "from the action level on",
        SilicaVerdict::Over => "over the limit",
    };
    let cases = [
        (24.9, SilicaVerdict::Low),
        (25.0, SilicaVerdict::Action),
        (50.0, SilicaVerdict::Action),
        (50.1, SilicaVerdict::Over),
    ];
    for (level, verdict) in cases {
        let found = eight_hour_average(&[(at(level), hours(8.0))]).unwrap().1;
        table.same(format!("8 h at {level} µg/m³"), words(found), words(verdict));
        assert_eq!(found, verdict);
    }
    assert!(eight_hour_average(&[(at(f64::NAN), hours(8.0))]).is_none());
}

/// L12, 29 CFR 1926.1153 Table 1, hand grinders with shroud and collector: 25 ft³/min an inch of wheel, a
/// filter of 99 %; APF 10. Table 1 asks for the respirator over 4 h indoors; a shop is
/// under 1910.1053 instead, which knows no hours without one unless the air was measured (from memory).
fn dust_controls_of_a_hand_grinder(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "L12",
        title: "Dust of a hand grinder",
        source: "US OSHA, 29 CFR 1926.1153, Table 1 (xi); read in a trade magazine's reprint",
        marks: &[Mark::Published],
        problem: "a wheel of 5 in with shroud and collector: 25 ft³/min an inch, a filter of 99 %; indoors, \
            where the air was not measured, a respirator of factor 10 for all of it",
        conventions: "That a shop is under 29 CFR 1910.1053, where no hours are free of a respirator, and that the option \
            with water is for outdoors alone, is from memory.",
        modelled: "finish::dust_controls",
        gap: "The unit library's cubic foot has seven digits.",
        ..Check::default()
    });
    for (indoors, respirator, rule) in [(true, Some(10), "1910.1053"), (false, None, "1926.1153")] {
        let controls = dust_controls(inches(5.0), indoors).unwrap();
        let what = if indoors { "indoors" } else { "outdoors" };
        assert!(matches!(controls.source, Source::Standard(place) if place.contains(rule)), "{:?}", controls.source);
        assert_eq!(controls.respirator_words().contains("outdoors"), !indoors, "{}", controls.respirator_words());
        // The unit's own factor is rounded to seven digits.
        table.close(format!("{what}: air, ft³/min"), controls.air.value.get::<cubic_foot_per_minute>(), 125.0, 1e-6);
        table.close(format!("{what}: filter"), controls.filter, 0.99, EXACT);
        let words = |factor: Option<u32>| factor.map_or("none".to_owned(), |factor| format!("factor {factor}"));
        table.same(format!("{what}: respirator"), words(controls.respirator), words(respirator));
    }
}

/// Every caution that the work calls for stands at its step, and names a standard where there is one.
#[test]
fn cautions_where_the_hands_are() {
    let titles = |step| cautions(step).map(|caution| caution.title).collect::<Vec<_>>();
    assert_eq!(titles(Step::Pour), ["Wet cement burns skin and eyes"]);
    assert_eq!(titles(Step::GrindDry), ["Silica dust scars lungs"]);
    assert_eq!(titles(Step::GrindWet), ["Water and power", "Wet does not mean free of dust"]);
    assert_eq!(titles(Step::Carry), ["A top is heavy and sharp-edged", "For planning, not engineering"]);
    let named = |step| cautions(step).all(|caution| matches!(caution.source, Source::Standard(_)));
    assert!(named(Step::GrindDry) && named(Step::GrindWet));
}

/// The client learns the day and what the kind of seal asks for.
#[test]
fn the_care_sheet() {
    let cured = Date::new(2026, 5, 4).unwrap();
    let [film, soaked] = [SealKind::Film, SealKind::Penetrating].map(|kind| care_sheet(kind, cured));
    assert!(film[0].says.contains("2026-05-04"));
    assert!(
        film.iter().any(|line| line.says.contains("film")) && !soaked.iter().any(|line| line.says.contains("film"))
    );
}
