//! Lifting by hand, the way in, and what a top needs to be set.

use crate::evidence::{Check, Evidence, Mark, checks};
use crate::{EXACT, assert_close};
use pourwright::carry::Crew;
use pourwright::carry::lift::{Choices, Grip, Level, Lift, Often, Reach, Turn, handling, many_hands};
use pourwright::carry::set::{Dabs, Gap, adhesive, caulk, load};
use pourwright::carry::way::{Corner, Doorway, Hold, Pass, Slab, Van, inside, round, through};
use pourwright::job::Units;
use pourwright::measure::exact::{in_inches, in_pounds, in_quarts, inches, pounds};
use pourwright::measure::{Angle, Length};
use uom::si::angle::degree;
use uom::si::length::centimeter;
use uom::si::mass::kilogram;

checks![
    worked_example_of_the_manual,
    slab_from_a_low_stand,
    each_part_of_the_equation,
    limits_of_the_equation,
    frequencies,
    grips,
    people_for_a_lift,
    doorways,
    turns
];

const NIOSH: &str =
    "NIOSH, Applications Manual for the Revised NIOSH Lifting Equation, publication 94-110 (revised 2021)";

/// An ideal lift in inches: nothing is lost.
fn ideal() -> Lift {
    Lift {
        reach: inches(10.0),
        height: inches(30.0),
        travel: inches(10.0),
        turn: Angle::new::<degree>(0.0),
        times_a_minute: 0.2,
        grip: Grip::Good,
    }
}

fn limit(lift: Lift) -> f64 {
    in_pounds(lift.limit(Units::Inch).value)
}

/// L4, NIOSH 94-110 (rev. 2021) p. 46, example 4 at its origin: the manual prints 34.9 lb, of rounded
/// multipliers; in full it is 34.81.
fn worked_example_of_the_manual(evidence: &mut Evidence) {
    let lift = Lift { height: inches(22.0), travel: inches(37.0), times_a_minute: 3.0, grip: Grip::Fair, ..ideal() };
    let by = lift.multipliers(Units::Inch);
    let table = evidence.check(Check {
        label: "L4",
        title: "Worked example of the lifting manual",
        source: "NIOSH 94-110 (revised 2021), p. 46, example 4 at its origin; read in a transcription with page numbers",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "H 10 in, V 22 in, D 37 in, A 0°, 3 lifts a minute for up to an hour, fair grip",
        modelled: "carry::lift::Lift::limit and multipliers, of a job in inches",
        gap: "The manual multiplies factors rounded to two digits; in full the product is 34.81 lb.",
        misprints: "None; but 34.9 lb is a product of rounded factors.",
        ..Check::default()
    });
    table.close("frequency multiplier", by.frequency, 0.88, EXACT);
    table.close("grip multiplier", by.grip, 0.95, EXACT);
    table.within("recommended weight limit as printed, lb", limit(lift), 34.9, 0.1);
    table.close("recommended weight limit in full, lb", limit(lift), 34.813_561_557, EXACT);
}

/// L8: from a low stand, 12 in out, 20 in up, moved 16 in, rarely, poor grip: 32.99 lb. Computed.
fn slab_from_a_low_stand(evidence: &mut Evidence) {
    let lift = Lift { reach: inches(12.0), height: inches(20.0), travel: inches(16.0), grip: Grip::Poor, ..ideal() };
    let table = evidence.check(Check {
        label: "L8",
        title: "Slab from a low stand",
        source: NIOSH,
        marks: &[Mark::Published, Mark::ByHand],
        problem: "H 12 in, V 20 in, D 16 in, A 0°, rarely, poor grip: 51 × 10/12 × (1 − 0.0075 × 10) × (0.82 + 1.8/16) × \
            0.90",
        modelled: "carry::lift::Lift::limit",
        ..Check::default()
    });
    table.close("recommended weight limit, lb", limit(lift), 32.993_015_625, EXACT);
}

/// L1 and L2, p. 7: the constants in inches and in centimetres. Each part alone, by hand.
fn each_part_of_the_equation(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "L1, L7",
        title: "Each part of the lifting equation",
        source: "NIOSH 94-110 (revised 2021), pp. 7 to 9; read in a transcription with page numbers",
        marks: &[Mark::Published],
        problem: "51 lb; 10/H; 1 − 0.0075 |V − 30|; 0.82 + 1.8/D; 1 − 0.0032 A: one of them not ideal at a time",
        modelled: "carry::lift::Lift::limit, of a job in inches",
        misprints: "At H = 23 in Table 1 prints 0.44, where 10/23 is 0.4348: the formula governs.",
        ..Check::default()
    });
    table.close("ideal, lb", limit(ideal()), 51.0, EXACT);
    let inch = [
        ("H 20 in", Lift { reach: inches(20.0), ..ideal() }, 10.0 / 20.0),
        ("H 23 in", Lift { reach: inches(23.0), ..ideal() }, 10.0 / 23.0),
        ("V 0 in", Lift { height: inches(0.0), ..ideal() }, 1.0 - 0.0075 * 30.0),
        ("V 50 in", Lift { height: inches(50.0), ..ideal() }, 1.0 - 0.0075 * 20.0),
        ("D 36 in", Lift { travel: inches(36.0), ..ideal() }, 0.82 + 1.8 / 36.0),
        ("A 45°", Lift { turn: Angle::new::<degree>(45.0), ..ideal() }, 1.0 - 0.0032 * 45.0),
        ("A −45°", Lift { turn: Angle::new::<degree>(-45.0), ..ideal() }, 1.0 - 0.0032 * 45.0),
    ];
    for (what, lift, left) in inch {
        table.close(format!("{what}: what is left"), limit(lift) / 51.0, rounded(left), 1e-8);
    }
    let table = evidence.check(Check {
        label: "L2",
        title: "The same in SI",
        source: "NIOSH 94-110 (revised 2021), p. 7; read in a transcription with page numbers",
        marks: &[Mark::Published],
        problem: "23 kg; 25/H; 1 − 0.003 |V − 75|; 0.82 + 4.5/D, in cm",
        conventions: "The manual rounds the two systems apart: 51 lb are 23.13 kg.",
        modelled: "carry::lift::Lift::limit, of a metric job",
        ..Check::default()
    });
    let centimetres = |count| Length::new::<centimeter>(count);
    let metric = Lift { reach: centimetres(25.0), height: centimetres(75.0), travel: centimetres(25.0), ..ideal() };
    let cases = [
        ("ideal", metric, 1.0),
        ("H 40 cm", Lift { reach: centimetres(40.0), ..metric }, 25.0 / 40.0),
        ("V 20 cm", Lift { height: centimetres(20.0), ..metric }, 1.0 - 0.003 * 55.0),
        ("D 90 cm", Lift { travel: centimetres(90.0), ..metric }, 0.82 + 4.5 / 90.0),
    ];
    for (what, lift, left) in cases {
        let found = lift.limit(Units::Metric).value.get::<kilogram>();
        table.close(format!("{what}: limit, kg"), found, rounded(23.0 * left), 1e-8);
    }
}

/// L3, pp. 8 to 15: what is nearer or rarer than the table counts as its end; what is beyond leaves nothing.
fn limits_of_the_equation(evidence: &mut Evidence) {
    let degrees = |count| Angle::new::<degree>(count);
    let table = evidence.check(Check {
        label: "L3",
        title: "Ends of the lifting equation",
        source: "NIOSH 94-110 (revised 2021), pp. 8 to 15; read in a transcription with page numbers",
        marks: &[Mark::Published],
        problem: "nearer than 10 in counts as 10 in, rarer than 0.2 a minute as 0.2; beyond 25 in of reach, 70 in of height \
            or travel, 135° of turn nothing may be lifted",
        modelled: "carry::lift::Lift::limit",
        ..Check::default()
    });
    let same = [
        ("H 4 in", Lift { reach: inches(4.0), ..ideal() }),
        ("D 2 in", Lift { travel: inches(2.0), ..ideal() }),
        ("0.01 a minute", Lift { times_a_minute: 0.01, ..ideal() }),
    ];
    for (what, lift) in same {
        table.close(format!("{what}: limit, lb"), limit(lift), 51.0, EXACT);
    }
    let at_the_limit = [
        Lift { reach: inches(25.0), ..ideal() },
        Lift { height: inches(70.0), ..ideal() },
        Lift { travel: inches(70.0), ..ideal() },
        Lift { turn: degrees(135.0), ..ideal() },
        Lift { times_a_minute: 15.0, ..ideal() },
    ];
    for lift in at_the_limit {
        assert!(limit(lift) > 10.0, "{lift:?}");
    }
    let nothing = [
        ("H 25.1 in", Lift { reach: inches(25.1), ..ideal() }),
        ("V 70.1 in", Lift { height: inches(70.1), ..ideal() }),
        ("D 70.1 in", Lift { travel: inches(70.1), ..ideal() }),
        ("A 135.1°", Lift { turn: degrees(135.1), ..ideal() }),
        ("15.1 a minute", Lift { times_a_minute: 15.1, ..ideal() }),
    ];
    for (what, lift) in nothing {
        table.within(format!("{what}: limit, lb"), limit(lift), 0.0, 0.0);
    }
    for lift in [
        Lift { height: inches(-1.0), ..ideal() },
        Lift { reach: inches(f64::NAN), ..ideal() },
        Lift { turn: degrees(f64::NAN), ..ideal() },
        Lift { times_a_minute: f64::NAN, ..ideal() },
        Lift { height: inches(f64::INFINITY), ..ideal() },
    ] {
        assert_eq!(limit(lift), 0.0, "{lift:?}");
    }
}

/// L5, NIOSH Table 5, up to an hour, hands at 30 in or higher; and below that the two differ from 13 on.
fn frequencies(evidence: &mut Evidence) {
    let columns = [
        (0.2, 1.00),
        (0.5, 0.97),
        (1.0, 0.94),
        (2.0, 0.91),
        (3.0, 0.88),
        (4.0, 0.84),
        (5.0, 0.80),
        (6.0, 0.75),
        (7.0, 0.70),
        (8.0, 0.60),
        (9.0, 0.52),
        (10.0, 0.45),
    ];
    let table = evidence.check(Check {
        label: "L5",
        title: "Lifts a minute",
        source: "NIOSH 94-110 (revised 2021), Table 5, up to one hour; the column was read in public sources that quote it",
        marks: &[Mark::Published],
        problem: "frequency multiplier, hands at 20 and at 30 in",
        modelled: "carry::lift::Lift::multipliers",
        ..Check::default()
    });
    for (times_a_minute, left) in columns {
        for height in [20.0, 30.0] {
            let lift = Lift { times_a_minute, height: inches(height), ..ideal() };
            let what = format!("{times_a_minute} a minute, hands at {height} in");
            table.close(what, lift.multipliers(Units::Inch).frequency, left, EXACT);
        }
    }
    // Between two rows the worse one.
    assert_close(Lift { times_a_minute: 2.5, ..ideal() }.multipliers(Units::Inch).frequency, 0.88, EXACT);
    let table = evidence.check(Check {
        label: "L5",
        title: "End of the column",
        source: "NIOSH 94-110 (revised 2021), Table 5",
        marks: &[Mark::Memory],
        problem: "15 a minute with high hands; 13 a minute with hands under 30 in",
        modelled: "carry::lift::Lift::multipliers",
        ..Check::default()
    });
    let high = Lift { times_a_minute: 15.0, ..ideal() };
    let low = Lift { times_a_minute: 13.0, height: inches(29.0), ..ideal() };
    table.close("15 a minute, hands at 30 in", high.multipliers(Units::Inch).frequency, 0.28, EXACT);
    table.within("13 a minute, hands at 29 in", low.multipliers(Units::Inch).frequency, 0.0, 0.0);
}

/// L6, NIOSH Table 7: good 1.00; fair 0.95 under 30 in, else 1.00; poor 0.90.
fn grips(evidence: &mut Evidence) {
    let table = evidence.check(Check {
        label: "L6",
        title: "Grip",
        source: "NIOSH 94-110 (revised 2021), Table 7; fair was read in a transcription, good and poor are from memory",
        marks: &[Mark::Published, Mark::Memory],
        problem: "coupling multiplier, hands under 30 in and at 30 in",
        modelled: "carry::lift::Lift::multipliers",
        ..Check::default()
    });
    for (grip, what, low, high) in
        [(Grip::Good, "good", 1.0, 1.0), (Grip::Fair, "fair", 0.95, 1.0), (Grip::Poor, "poor", 0.90, 0.90)]
    {
        let at = |height| Lift { height: inches(height), grip, ..ideal() }.multipliers(Units::Inch).grip;
        table.close(format!("{what}, low"), at(29.9), low, EXACT);
        table.close(format!("{what}, high"), at(30.0), high, EXACT);
    }
}

fn from_the_floor() -> Choices {
    Choices {
        from: Level::Floor,
        to: Level::Bench,
        reach: Reach::Close,
        turn: Turn::None,
        often: Often::Once,
        grip: Grip::Poor,
    }
}

/// Each of more than three lifts half of 51 lb, by common practice: 153 lb are six people. A 67 in top has four places
/// along its edges and two at its ends, a 47 in one two and two.
#[test]
fn more_than_three_need_places_to_hold() {
    let limit = ideal().limit(Units::Inch);
    assert!((limit.value / pounds(51.0)).value > 0.999);
    let people = |weight, length| many_hands(pounds(weight), &limit, inches(length)).map(|people| people.value);
    assert_eq!(people(153.0, 67.0), Some(6));
    assert_eq!(people(153.1, 67.0), None, "a seventh finds no place");
    assert_eq!(people(153.1, 72.0), Some(7));
    assert_eq!((people(102.0, 47.0), people(102.1, 47.0)), (Some(4), None));
    assert_eq!(people(80.0, 47.0), Some(4), "three are too few");
    assert_eq!(people(f64::NAN, 67.0), None);
}

/// From the floor to a bench, poor grip: 51 × 0.775 × (0.82 + 1.8/34.5) × 0.9 = 31.0254 lb for one (by hand,
/// L1). L9, UK HSE L23: two lift 2/3 of their sum, three 1/2: 41.367 and 46.538 lb.
fn people_for_a_lift(evidence: &mut Evidence) {
    let one = 51.0 * 0.775 * (0.82 + 1.8 / 34.5) * 0.9;
    let table = evidence.check(Check {
        label: "L9",
        title: "People for a lift",
        source: "UK HSE, L23, guidance to the Manual Handling Operations Regulations 1992: two lift 2/3 of the sum of what \
            each could, three 1/2, more are not advised; read where it is quoted. Joined to NIOSH 94-110 here",
        marks: &[Mark::Published, Mark::ByHand],
        problem: "floor to bench, poor grip: 51 × 0.775 × (0.82 + 1.8/34.5) × 0.9 lb for one; 31.0, 41.3, 46.5 and 46.6 lb",
        conventions: "Neither source knows the other: joining them is this program's choice.",
        modelled: "carry::lift::handling",
        gap: "Six digits are told.",
        ..Check::default()
    });
    let limit = |weight| handling(pounds(weight), &from_the_floor(), Units::Inch).limit.value;
    table.close("limit for one, lb", in_pounds(limit(31.0)), 31.0254, 1e-5);
    for (weight, crew, words, share) in [
        (31.0, Crew::Hands(1), "1 person", 1.0),
        (41.3, Crew::Hands(2), "2 people", 4.0 / 3.0),
        (46.5, Crew::Hands(3), "3 people", 1.5),
        (46.6, Crew::Aid, "3 and a cart", 1.5),
    ] {
        let found = handling(pounds(weight), &from_the_floor(), Units::Inch);
        assert_close(in_pounds(found.limit.value), one, EXACT);
        let found_words = match found.crew.value {
            Crew::Hands(1) => "1 person".to_owned(),
            Crew::Hands(hands) => format!("{hands} people"),
            Crew::Aid => "3 and a cart".to_owned(),
        };
        table.same(format!("{weight} lb"), found_words, words);
        assert_eq!(found.crew.value, crew, "{weight} lb");
        let index = found.index.unwrap().value;
        assert_close(index, weight / (one * share), EXACT);
        assert_eq!(index <= 1.0, crew != Crew::Aid);
    }
    let unable = Choices { from: Level::Height(inches(80.0)), ..from_the_floor() };
    let found = handling(pounds(10.0), &unable, Units::Inch);
    assert_eq!((found.crew.value, found.index), (Crew::Aid, None));
    assert_eq!(handling(pounds(f64::NAN), &from_the_floor(), Units::Inch).crew.value, Crew::Aid);
}

/// The harder end decides: set down on the floor, it is as hard as picked up from it.
#[test]
fn the_harder_end_of_a_lift() {
    let down = Choices { from: Level::Bench, to: Level::Floor, ..from_the_floor() };
    let limit = |choices| handling(pounds(30.0), &choices, Units::Inch).limit.value;
    assert_close(in_pounds(limit(down)), in_pounds(limit(from_the_floor())), EXACT);
}

fn slab(length: f64, width: f64, thickness: f64) -> Slab {
    Slab { length: inches(length), width: inches(width), thickness: inches(thickness) }
}

fn margin(passes: &[Pass], hold: Hold) -> f64 {
    in_inches(passes.iter().find(|pass| pass.hold == hold).unwrap().margin)
}

/// Flat it needs its width, on edge its height; leaning 36 × 2 in in 30 × 30 in leaves
/// 30 − (36 + 2)/√2 = 3.1299 in. The others by a scan of two million angles in Python.
fn doorways(evidence: &mut Evidence) {
    let door = |width, height| Doorway { width: inches(width), height: inches(height) };
    let found = through(&door(30.0, 80.0), &slab(96.0, 26.0, 2.0));
    let hatch = through(&door(30.0, 30.0), &slab(96.0, 36.0, 2.0));
    let wide = through(&door(28.0, 80.0), &slab(96.0, 84.0, 2.0));
    let low = through(&door(96.0, 50.0), &slab(120.0, 100.0, 2.0));
    let table = evidence.check(Check {
        label: "W1",
        title: "Through a doorway",
        source: "A rectangle turned in a rectangle: two million angles tried",
        marks: &[Mark::Computed("Python 3.11"), Mark::ByHand],
        problem: "slabs of 26, 36, 84 and 100 × 2 in through doorways of 30 × 80, 30 × 30, 28 × 80 and 96 × 50 in",
        conventions: "A margin is what is left; less than nothing is what it is too large by.",
        modelled: "carry::way::through",
        gap: "Five to six digits are told.",
        ..Check::default()
    });
    table.close("26 in flat, in", margin(&found, Hold::Flat), 4.0, EXACT);
    table.close("26 in on edge, in", margin(&found, Hold::OnEdge), 28.0, EXACT);
    table.close("36 in leaning in 30 × 30, in", margin(&hatch, Hold::Tilted), 3.129_942_3, 1e-7);
    table.close("84 in leaning in 28 × 80, in", margin(&wide, Hold::Tilted), -0.354_763, 1e-5);
    table.close("100 in leaning in 96 × 50, in", margin(&low, Hold::Tilted), 4.9637, 1e-5);
    assert!(hatch.iter().map(Pass::works).eq([false, false, true]));
    assert_close(margin(&hatch, Hold::Tilted), 30.0 - 38.0 / 2.0_f64.sqrt(), EXACT);
    assert!(!wide.iter().any(Pass::works));
    assert!(through(&door(f64::NAN, 80.0), &slab(96.0, 26.0, 2.0)).is_empty());
}

/// The ladder round a corner: (a^2/3 + b^2/3)^3/2 for a thin one, 2√2 a − 2 t in equal corridors; 36 and 42 in
/// with 2 in by a scan in Python. A slab on edge needs its width of headroom.
fn turns(evidence: &mut Evidence) {
    let corner =
        |before, after, height| Corner { before: inches(before), after: inches(after), height: inches(height) };
    let spare = |before, after, thickness| {
        let found = round(&corner(before, after, 1000.0), &slab(200.0, 26.0, thickness));
        200.0 + margin(&found, Hold::OnEdge)
    };
    let table = evidence.check(Check {
        label: "W2",
        title: "The ladder round a corner",
        source: "Closed forms: (a^⅔ + b^⅔)^1.5 for a thin one, 2√2 a − 2 t between equal corridors; angles tried for the third",
        marks: &[Mark::ByHand, Mark::Computed("Python 3.11")],
        problem: "corridors of 36 and 48 in, thin; of 36 and 36 in, 2 in thick; of 36 and 42 in, 2 in thick",
        modelled: "carry::way::round, of a slab on edge",
        ..Check::default()
    });
    table.close("36 to 48 in, longest, in", spare(36.0, 48.0, 1e-9), 118.387_950_665, 1e-8);
    table.close("36 to 36 in, longest, in", spare(36.0, 36.0, 2.0), 97.823_376_49, 1e-8);
    table.close("36 to 42 in, longest, in", spare(36.0, 42.0, 2.0), 106.194_171_505, 1e-8);
    table.close("42 to 36 in, longest, in", spare(42.0, 36.0, 2.0), 106.194_171_505, 1e-8);
    let thin = (36f64.powf(2.0 / 3.0) + 48f64.powf(2.0 / 3.0)).powf(1.5);
    assert_close(spare(36.0, 48.0, 1e-9), thin, 1e-8);

    let low = round(&corner(36.0, 36.0, 84.0), &slab(72.0, 26.0, 2.0));
    assert_close(margin(&low, Hold::OnEdge), 2.0 * 2.0_f64.sqrt() * 36.0 - 4.0 - 72.0, 1e-8);
    assert!(!low.iter().any(|pass| pass.hold == Hold::Flat && pass.works()));
    assert_close(margin(&low, Hold::OnEnd), 12.0, EXACT);
    // 2 in of headroom over it, on edge.
    let under = round(&corner(36.0, 36.0, 28.0), &slab(72.0, 26.0, 2.0));
    assert_close(margin(&under, Hold::OnEdge), 2.0, EXACT);
    // Flat, 59.9 × 29.5 in is too long to be turned between 30 and 60 in (59.77, by a scan in Python), but not to be
    // moved on sideways.
    let sideways = round(&corner(30.0, 60.0, 84.0), &slab(59.9, 29.5, 2.0));
    assert_close(margin(&sideways, Hold::Flat), 0.1, EXACT);
    assert!(!round(&corner(30.0, 59.8, 84.0), &slab(59.9, 29.5, 2.0))[0].works());
}

/// A van of 96 × 48 × 45 in: 106 in go in from corner to corner only: √(96² + 48²) = 107.33 in for a line.
#[test]
fn vans() {
    let van = Van { length: inches(96.0), width: inches(48.0), height: inches(45.0) };
    let works = |slab| inside(&van, &slab).iter().map(Pass::works).collect::<Vec<_>>();
    assert_eq!(works(slab(96.0, 26.0, 2.0)), [true, true, true]);
    assert_eq!(works(slab(100.0, 26.0, 2.0)), [false, false, true]);
    assert_eq!(works(slab(100.0, 46.0, 2.0)), [false, false, false]);
    assert_eq!(works(slab(108.0, 26.0, 0.1)), [false, false, false]);
}

/// 140 lb over 10 ft² is 14 lb/ft², on 12 ft of rails 11.667 lb/ft. Arithmetic.
#[test]
fn load_on_the_cabinet() {
    let foot = inches(12.0);
    let found = load(pounds(140.0), 10.0 * foot * foot, &[inches(72.0); 2]).unwrap();
    assert_close(in_pounds(found.area.value * foot * foot), 14.0, EXACT);
    assert_close(in_pounds(found.rail.value * foot), 140.0 / 12.0, EXACT);
    assert_eq!(found.rail.working.lines(pourwright::measure::Units::Inch)[0].result, "11.7 lb/ft");
    assert!(load(pounds(140.0), 10.0 * foot * foot, &[]).is_none());
}

/// Common practice, no source: dabs instead of a bead; a cartridge holds 10.1 US fl oz. Two rails of 72 in,
/// every 8 in: 2 × 10 dabs, each of 1 in dia. and 1/8 in: 20·π/32 in³, at 231/128 in³ a fl oz.
#[test]
fn dabs_of_adhesive() {
    let dabs = Dabs { spacing: inches(8.0), diameter: inches(1.0), height: inches(0.125) };
    let found = adhesive(&[inches(72.0); 2], &dabs).unwrap();
    let ounces = 20.0 * std::f64::consts::PI / 32.0 / (231.0 / 128.0);
    assert_close(in_quarts(found.volume.value) * 32.0, ounces, EXACT);
    assert_close(found.share.value, ounces / 10.1, EXACT);
    assert_eq!(found.whole, 1);
    // One inch more takes one more on each rail, so that none are further apart.
    let more = adhesive(&[inches(73.0); 2], &dabs).unwrap();
    assert_close(more.volume.value.value / found.volume.value.value, 22.0 / 20.0, EXACT);
    assert!(adhesive(&[inches(72.0)], &Dabs { spacing: inches(0.0), ..dabs }).is_none());
    assert!(adhesive(&[inches(1e300)], &dabs).is_none());
}

/// 60 in of 1/8 × 1/4 in and 24 in of 1/4 × 1/4 in are 3.375 in³: 1.87013 US fl oz. Arithmetic.
#[test]
fn caulk_by_the_gap() {
    let gap = |length, width| Gap { length: inches(length), width: inches(width), depth: inches(0.25) };
    let found = caulk(&[gap(60.0, 0.125), gap(24.0, 0.25)]).unwrap();
    assert_close(in_quarts(found.volume.value) * 32.0, 3.375 / (231.0 / 128.0), EXACT);
    assert_eq!(found.whole, 1);
    assert_eq!(caulk(&[gap(600.0, 0.25)]).unwrap().whole, 3);
    assert!(caulk(&[]).is_none());
}

/// To nine places, as a number is told.
fn rounded(value: f64) -> f64 {
    (value * 1e9).round() / 1e9
}
