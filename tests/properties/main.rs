//! What must hold for every job, however it was filled in.

mod again;
mod form;
mod knockouts;
mod money;
mod plane;
mod pour;
mod quote;
#[path = "../schema/mod.rs"]
mod schema;
mod sheets;
mod steel;
mod strength;

use pourwright::draw::{Face, Selection, plan, timeline_drawing};
use pourwright::estimate::{Estimate, estimate};
use pourwright::finding::Finding;
use pourwright::job::{
    AcrossFrom, Additive, AdditiveField, AirFor, AlongFrom, Bag, Corner, CornerKind, Cutout, CutoutShape, DefectEntry,
    DefectField, DefectKind, Door, Edge, EdgeKind, Entry, Exposure, FieldPath, FinishChoices, FinishField, GrindingWay,
    Grip, Hand, HolePattern, Holes, HolesFrom, Job, Leg, LiftLevel, Logged, Measured, Opening, OpeningField,
    OpeningReading, OpeningWalls, OutlineShape, Piece, PourStep, QuoteChoices, QuoteField, Recipe, RecipeField,
    RecipeKind, Reveal, Sheen, SideStand, Spell, Station, StrengthPoint, Task, TemplateCorner, Units, file, read,
};
use pourwright::measure::{
    write_area, write_count, write_density, write_duration, write_length, write_mass, write_money, write_volume,
    write_water, write_weighed,
};
use pourwright::mix::catalogue;
use pourwright::mix::demo;
use pourwright::mix::proportion::Role;
use pourwright::pour::clock::{Course, tick};
use pourwright::pour::{Fit, PourInputs};
use pourwright::price::goods::GOODS;
use pourwright::price::{BagPrice, ChargeBy, OwnedPad, PriceBook};
use pourwright::working::{Known, Working};
use proptest::prelude::*;
use proptest::sample::select;
use rust_decimal::Decimal;
use std::collections::HashSet;

/// Texts for any field: plausible, out of place, hostile.
fn entry() -> impl Strategy<Value = Entry> {
    let plausible = select(vec![
        "",
        "2",
        "3/4",
        "19 1/4",
        "67",
        "60",
        "24",
        "13",
        "20",
        "30 1/2",
        "10 %",
        "10",
        "1702 mm",
        "1.702 m",
        "5' 7 1/4\"",
        "55 lb",
        "0.50 ft³",
        "5 qt",
        "15 min",
        "3 days",
        "70 °F",
        "21 °C",
        "130 lb/ft³",
        "4000 psi",
        "1",
        "2.5 L",
        "25 kg",
    ]);
    let hostile = select(vec![
        "0",
        "0.0000000000001",
        "-1",
        "1e308",
        "1e-308",
        "99999999999999999999999999",
        "NaN",
        "inf",
        "1/0",
        "7 9/8",
        "99 ft",
        "0.0001 mm",
        "0 L",
        "0 %",
        "1000000 %",
        "-459 °F",
        "-500 °F",
        "99999 °C",
        "4294967295",
        "4294967296",
        "½",
        "1 ½ ¼",
        "\u{202e}7",
        "１２",
        "1,5",
        "1.5.5",
        "<script>",
        "\0",
        "0.000001 L",
        "0.000001 lb",
        "1000000 days",
        "1e400 ft³",
    ]);
    prop_oneof![
        6 => plausible.prop_map(Entry::from),
        2 => hostile.prop_map(Entry::from),
        1 => ".{0,12}".prop_map(|text: String| Entry(text)),
        2 => (1..120u32, 0..16u32).prop_map(|(whole, part)| Entry(format!("{whole} {part}/16"))),
    ]
}

fn edge() -> impl Strategy<Value = Edge> {
    (select(EdgeKind::ALL.to_vec()), entry(), entry()).prop_map(|(kind, liner, radius)| Edge { kind, liner, radius })
}

fn cutout() -> impl Strategy<Value = Cutout> {
    let choices = (
        select(CutoutShape::ALL.to_vec()),
        select(Reveal::ALL.to_vec()),
        select(AcrossFrom::ALL.to_vec()),
        select(AlongFrom::ALL.to_vec()),
        select(vec![Hand::Left, Hand::Right]),
        prop::option::of(0usize..3),
    );
    let corner = (entry(), entry(), entry()).prop_map(|(from_left, from_front, radius)| TemplateCorner {
        from_left,
        from_front,
        radius,
    });
    let sizes = (entry(), entry(), entry(), entry());
    let places = (entry(), entry(), entry(), entry(), entry());
    (choices, sizes, places, prop::collection::vec(corner, 0..5)).prop_map(
        |(
            (shape, reveal, across, along, door_side, door),
            (width, depth, corner_radius, reveal_width),
            (from_left, from_right, from_door, from_front, from_back),
            template,
        )| Cutout {
            shape,
            width,
            depth,
            corner_radius,
            template,
            reveal,
            reveal_width,
            bowl_depth: Entry::default(),
            bowl_weight: Entry::default(),
            across,
            from_left,
            from_right,
            door,
            from_door,
            door_side,
            along,
            from_front,
            from_back,
        },
    )
}

fn holes() -> impl Strategy<Value = Holes> {
    let choices = (
        select(vec![HolePattern::Single, HolePattern::Three]),
        select(vec![HolesFrom::Edges, HolesFrom::Bowl]),
        prop::option::of(0usize..3),
    );
    (choices, entry(), entry(), entry(), entry(), entry()).prop_map(
        |((pattern, placed, cutout), diameter, spread, from_left, from_front, behind)| Holes {
            pattern,
            diameter,
            spread,
            placed,
            from_left,
            from_front,
            cutout,
            behind,
        },
    )
}

/// Ids that are found, found twice, or lead nowhere.
fn id() -> impl Strategy<Value = String> {
    select(vec!["rapid-mortar-55-lb", "portland-concrete-80-lb", "portland-concrete-25-kg", "mine", "", "gone"])
        .prop_map(str::to_owned)
}

fn bag() -> impl Strategy<Value = Bag> {
    let additive = prop::collection::vec(entry(), AdditiveField::ALL.len()).prop_map(|typed| {
        let mut additive = Additive::default();
        for (field, entry) in AdditiveField::ALL.iter().zip(typed) {
            *additive.entry_mut(*field) = entry;
        }
        additive
    });
    let additives = prop::collection::vec(additive, 0..3);
    let strength = (entry(), entry()).prop_map(|(age, strength)| StrengthPoint { age, strength });
    let additives = (additives, prop::collection::vec(strength, 0..3));
    let own =
        (id(), prop::collection::vec(entry(), 9), additives).prop_map(|(id, mut typed, (additives, strengths))| {
            let mut bag = catalogue(Units::Inch).remove(0);
            bag.id = id;
            for (field, entry) in pourwright::job::BagField::ALL.iter().zip(typed.drain(..)) {
                *bag.entry_mut(*field) = entry;
            }
            bag.additives = additives;
            bag.strengths = strengths;
            bag
        });
    let scratch = (id(), recipe(), select(catalogue(Units::Inch))).prop_map(|(id, recipe, bag)| Bag {
        id,
        recipe: Some(recipe),
        additives: vec![Additive {
            name: "Retarder".into(),
            of_cement: "1".into(),
            water: "60".into(),
            ..Additive::default()
        }],
        ..bag
    });
    let listed = select([catalogue(Units::Inch), catalogue(Units::Metric)].concat());
    prop_oneof![3 => listed, 2 => own, 1 => scratch]
}

/// Recipes of which one field is anything.
fn recipe() -> impl Strategy<Value = Recipe> {
    let kind = select(vec![RecipeKind::Concrete, RecipeKind::Mortar, RecipeKind::GlassFibre]);
    let units = select(vec![Units::Inch, Units::Metric]);
    (kind, units, select(AirFor::ALL.to_vec()), select(RecipeField::ALL), entry()).prop_map(
        |(kind, units, air_for, field, typed)| {
            let mut recipe = Recipe { air_for, ..Recipe::new(kind, units) };
            *recipe.entry_mut(field) = typed;
            recipe
        },
    )
}

fn corner() -> impl Strategy<Value = Corner> {
    (select(CornerKind::ALL.to_vec()), entry(), entry(), entry()).prop_map(|(kind, radius, before, after)| Corner {
        kind,
        radius,
        before,
        after,
    })
}

fn leg() -> impl Strategy<Value = Leg> {
    let angle = prop_oneof![2 => select(vec!["90", "90°", "270", "120", "60"]).prop_map(Entry::from), 1 => entry()];
    (entry(), angle, entry()).prop_map(|(length, angle, bow)| Leg { length, angle, bow })
}

fn reading() -> impl Strategy<Value = OpeningReading> {
    (select(Measured::ALL.to_vec()), entry(), entry(), entry(), entry()).prop_map(
        |(of, length, one_leg, other_leg, between)| OpeningReading { of, length, one_leg, other_leg, between },
    )
}

/// Readings of an opening that could be a room: a front and two depths, the rest from where the corners
/// then are, each off by some sixteenths.
fn room() -> impl Strategy<Value = Vec<OpeningReading>> {
    let corners = (20.0..90.0, 12.0..40.0, 12.0..40.0, -4.0..4.0, -4.0..4.0_f64);
    let off = prop_oneof![3 => -1..=1, 1 => -32..=32_i32];
    (corners, prop::collection::vec(off, 6), any::<bool>()).prop_map(
        |((front, right, left, lean, other), off, marks)| {
            let corners = [(0.0, 0.0), (front, 0.0), (front + lean, right), (other, left)];
            let apart =
                |one: usize, two: usize| f64::hypot(corners[one].0 - corners[two].0, corners[one].1 - corners[two].1);
            let spans = [
                (Measured::Front, 0, 1),
                (Measured::Right, 1, 2),
                (Measured::Back, 2, 3),
                (Measured::Left, 3, 0),
                (Measured::DiagonalFromFrontLeft, 0, 2),
                (Measured::DiagonalFromFrontRight, 1, 3),
            ];
            let mut readings: Vec<_> = spans
                .into_iter()
                .zip(off)
                .map(|((of, one, two), off)| {
                    let sixteenths = (apart(one, two) * 16.0).round() as i32 + off;
                    let length = Entry(format!("{} {}/16 in", sixteenths / 16, sixteenths % 16));
                    OpeningReading { length, ..OpeningReading::new(of) }
                })
                .collect();
            if marks {
                let legs = OpeningReading::new(Measured::BackLeftCorner);
                readings.push(OpeningReading {
                    one_leg: "18 in".into(),
                    other_leg: "24 in".into(),
                    between: "30 in".into(),
                    ..legs
                });
            }
            readings
        },
    )
}

fn opening() -> impl Strategy<Value = Opening> {
    let readings = prop_oneof![1 => prop::collection::vec(reading(), 0..10), 3 => room()];
    let around = prop_oneof![
        1 => prop::collection::vec(entry(), OpeningField::ALL.len()),
        3 => Just(["1/8 in", "1 1/4 in", "3/4 in", ""].map(Entry::from).to_vec()),
    ];
    let stations = prop::collection::vec((entry(), entry()).prop_map(|(along, gap)| Station { along, gap }), 0..4);
    (select(OpeningWalls::ALL.to_vec()), readings, around, stations).prop_map(|(walls, readings, around, stations)| {
        let mut opening = Opening { walls, readings, stations, ..Opening::new(Units::Inch) };
        for (field, entry) in OpeningField::ALL.iter().zip(around) {
            *opening.entry_mut(*field) = entry;
        }
        opening
    })
}

fn piece() -> impl Strategy<Value = Piece> {
    let sizes = prop::collection::vec(entry(), pourwright::job::PieceField::ALL.len());
    let shape = (select(OutlineShape::ALL.to_vec()), select(vec![Hand::Left, Hand::Right]));
    let edges = prop::collection::vec(edge(), 0..9);
    let corners = prop::collection::vec(corner(), 0..9);
    let walk = prop::collection::vec(leg(), 0..8);
    let cutouts = prop::collection::vec(cutout(), 0..4);
    let holes = prop::collection::vec(holes(), 0..3);
    ((sizes, shape, id()), (edges, corners, walk, opening()), cutouts, holes).prop_map(
        |((sizes, (shape, hand), bag), (edges, corners, walk, opening), cutouts, holes)| {
            let mut piece = Piece::new("Top", &bag, Units::Inch);
            for (field, entry) in pourwright::job::PieceField::ALL.iter().zip(sizes) {
                *piece.entry_mut(*field) = entry;
            }
            Piece { shape, hand, edges, corners, walk, opening, cutouts, holes, ..piece }
        },
    )
}

fn spell() -> impl Strategy<Value = Spell> {
    (entry(), entry()).prop_map(|(lasts, temperature)| Spell { lasts, temperature })
}

/// Finish and quote, with anything typed.
fn after() -> impl Strategy<Value = (FinishChoices, QuoteChoices)> {
    let looks = (prop::option::of(select(Exposure::ALL.to_vec())), prop::option::of(select(Sheen::ALL.to_vec())));
    let ways = (select(GrindingWay::ALL.to_vec()), select(LiftLevel::ALL.to_vec()), select(Grip::ALL.to_vec()));
    let defect = (select(DefectKind::ALL.to_vec()), prop::collection::vec(entry(), DefectField::ALL.len()));
    let defects = prop::collection::vec(defect, 0..3);
    let typed = prop::collection::vec(prop_oneof![1 => entry(), 2 => Just(Entry::default())], FinishField::ALL.len());
    let hours = prop::collection::vec(entry(), 2 * Task::ALL.len());
    let quote = (prop::collection::vec(entry(), QuoteField::ALL.len()), hours);
    (looks, ways, defects, typed, quote).prop_map(|((exposure, sheen), (way, level, grip), defects, typed, quote)| {
        let mut finish = FinishChoices { exposure, sheen, way, lift_from: level, grip, ..FinishChoices::default() };
        for (field, entry) in FinishField::ALL.iter().zip(typed) {
            *finish.entry_mut(*field) = entry;
        }
        for (kind, typed) in defects {
            let mut defect = DefectEntry { kind, ..DefectEntry::default() };
            for (field, entry) in DefectField::ALL.iter().zip(typed) {
                *defect.entry_mut(*field) = entry;
            }
            finish.defects.push(defect);
        }
        let (typed, hours) = quote;
        let mut quote = QuoteChoices::default();
        for (field, entry) in QuoteField::ALL.iter().zip(typed) {
            *quote.entry_mut(*field) = entry;
        }
        let fields = quote.hours.iter_mut().flat_map(|row| [&mut row.estimated, &mut row.took]);
        fields.zip(hours).for_each(|(field, entry)| *field = entry);
        (finish, quote)
    })
}

/// A job in which anything may stand, anywhere; of what makes up its form and how it is handled, most is as usual.
fn any_job() -> impl Strategy<Value = Job> {
    let units = select(vec![Units::Inch, Units::Metric]);
    let logs = prop::collection::vec(prop::collection::vec(logged(), 0..4), 6);
    let pieces = (prop::collection::vec(piece(), 0..6), logs, prop::collection::vec(0..3usize, 6));
    let bags = prop::collection::vec(bag(), 0..4);
    let lists = (0..4usize, 0..3usize, prop::collection::vec(spell(), 0..3));
    let words = (prop::collection::vec("[a-z ]{0,9}", 0..3), prop::collection::vec(id(), 0..3));
    // Coprime to how many fields any list of things has, so that no field gets the same text in every one of them.
    let texts = prop::collection::vec((any::<u8>(), entry()), 131);
    let picks = prop::collection::vec(any::<u8>(), 61);
    (units, pieces, bags, (lists, words, after()), texts, picks).prop_map(
        |(units, (pieces, logs, doors), bags, ((layers, sheets, garage), words, after), texts, picks)| {
            let mut job = Job::new("any", units);
            (job.finish, job.quote) = after;
            (job.pour.ticks, job.quote.options) = words;
            job.pour.garage = garage;
            (job.pieces, job.bags) = (pieces, bags);
            for ((piece, log), doors) in job.pieces.iter_mut().zip(logs).zip(doors) {
                piece.log = log;
                piece.doors = vec![Door::default(); doors];
            }
            schema::choose(&mut job, &picks);
            if layers > 0 {
                schema::stock(&mut job, layers, sheets);
            }
            // What has a generator of its own is mostly as that made it.
            let typed = |place, odds: u8| match place {
                FieldPath::Job(_) | FieldPath::Door(..) | FieldPath::Spell(..) => true,
                FieldPath::Pour(_) | FieldPath::Layer(..) | FieldPath::Sheet(..) => odds < 128,
                FieldPath::Form(_) | FieldPath::Seam(_) | FieldPath::Steel(..) | FieldPath::Handling(..) => odds < 77,
                FieldPath::Recipe(..) | FieldPath::Reading(..) | FieldPath::Opening(..) => odds < 8,
                _ => odds < 26,
            };
            schema::fill(&mut job, &texts, typed);
            job
        },
    )
}

#[test]
fn any_job_has_anything_in_every_field_and_makes_every_choice() {
    schema::assert_all_is_tried(any_job(), 400);
}

/// Sizes in sixteenths of an inch of tops that can be cast, with a sink that lies inside.
fn good_job() -> impl Strategy<Value = Job> {
    let top = (400..1500u32, 250..500u32, 20..48u32);
    let sink = (100..280u32, 100..200u32, 0..=64u32, select(CutoutShape::ALL.to_vec()));
    let mix = (select(vec![Units::Inch, Units::Metric]), any::<prop::sample::Index>());
    (top, sink, 0.0..1.0, 0.0..1.0, 0..16u32, 0..40u32, mix).prop_map(
        |((width, depth, thickness), (sink_width, sink_depth, radius, shape), across, back, liner, spare, mix)| {
            let text = |sixteenths: u32| Entry(format!("{} {}/16 in", sixteenths / 16, sixteenths % 16));
            let (units, mix) = mix;
            let mut job = Job::new("good", units);
            let listed = catalogue(units);
            job.bags = vec![mix.get(&listed).clone()];
            job.pieces[0].bag = job.bags[0].id.clone();
            let piece = &mut job.pieces[0];
            piece.width = text(width);
            piece.depth = text(depth);
            piece.thickness = text(thickness);
            piece.spare = Entry(format!("{spare} %"));
            piece.edges[0] = Edge { kind: EdgeKind::Lined, liner: text(liner + 1), ..Edge::default() };
            let sink_depth = if shape == CutoutShape::Circle { sink_width.min(200) } else { sink_depth };
            let sink_width = if shape == CutoutShape::Circle { sink_depth } else { sink_width };
            // The sides of a D are what its half circle in front leaves.
            let most = match shape {
                CutoutShape::D => (2 * sink_depth).saturating_sub(sink_width).min(sink_width) / 2,
                _ => sink_width.min(sink_depth) / 2,
            };
            let between = |size: u32, sink: u32, share: f64| {
                let room = f64::from(size - sink);
                f64::from(sink) / 2.0 + room * share
            };
            let from_left = between(width, sink_width, across).floor() as u32 + 1;
            let from_front = between(depth, sink_depth, back).floor() as u32 + 1;
            piece.cutouts.push(Cutout {
                shape,
                width: text(sink_width),
                depth: text(sink_depth),
                corner_radius: text(radius.min(most)),
                from_left: text(from_left.min(width - sink_width.div_ceil(2))),
                from_front: text(from_front.min(depth - sink_depth.div_ceil(2))),
                template: [(0, 0), (sink_width, 0), (sink_width, sink_depth), (0, sink_depth)]
                    .map(|(x, y)| TemplateCorner { from_left: text(x), from_front: text(y), radius: Entry::default() })
                    .to_vec(),
                ..Cutout::default()
            });
            job
        },
    )
}

/// An L that can be cast, its leg at the left end: corners rounded or clipped, edges lined here and there.
fn good_l() -> impl Strategy<Value = Job> {
    let whole = (720..1500u32, 720..1200u32, 300..480u32, 300..480u32);
    let kinds = prop::collection::vec((select(CornerKind::ALL.to_vec()), 1..64u32, 1..64u32, 1..64u32), 6);
    let liners = prop::collection::vec(prop_oneof![Just(None), (0..24u32).prop_map(Some)], 6);
    (whole, kinds, liners, select(vec![Units::Inch, Units::Metric])).prop_map(
        |((width, depth, leg, front), corners, liners, units)| {
            let text = |sixteenths: u32| Entry(format!("{} {}/16 in", sixteenths / 16, sixteenths % 16));
            let mut job = Job::new("good", units);
            let piece = &mut job.pieces[0];
            piece.shape = OutlineShape::L;
            piece.width = text(width);
            piece.depth = text(depth);
            piece.leg = text(leg);
            piece.front_depth = text(front);
            // A liner beside a clip lengthens it, and shortens what it stands on: no clip is all but flat.
            let corner = |(kind, radius, before, more): (CornerKind, u32, u32, u32)| Corner {
                kind,
                radius: text(radius),
                before: text(before),
                after: text(before + more.min(before) / 2),
            };
            piece.corners = corners.into_iter().map(corner).collect();
            // No liner closes over an inside corner rounded so wide.
            let inside = &mut piece.corners[3];
            if inside.kind == CornerKind::Clipped {
                inside.kind = CornerKind::Square;
            }
            inside.radius = text(64);
            let edge = |liner: Option<u32>| match liner {
                Some(liner) => Edge { kind: EdgeKind::Lined, liner: text(liner), ..Edge::default() },
                None => Edge::default(),
            };
            piece.edges = liners.into_iter().map(edge).collect();
            job
        },
    )
}

/// A good job on a day with something in every field of the pour.
fn busy_job() -> impl Strategy<Value = Job> {
    let hands = (1..4u32, prop::option::of(1..4u32), 1..4u32, 1..4u32);
    let times = (2..8u32, 0..3u32, 0..3u32, 0..4u32, prop::option::of(30..=100u32));
    let warmth = (50..90u32, prop::option::of(40..90u32), prop::option::of(40..80u32), 0..3u32);
    let retarder = prop::option::of((1..20u32, 0..4u32));
    (good_job(), hands, times, warmth, retarder).prop_map(|(mut job, hands, times, warmth, retarder)| {
        let text = |value: u32, unit: &str| Entry(format!("{value} {unit}"));
        let maybe = |value: Option<u32>, unit: &str| value.map_or_else(Entry::default, |value| text(value, unit));
        let pour = &mut job.pour;
        (pour.people, pour.mixers) = (text(hands.0, ""), maybe(hands.1, ""));
        (pour.bags_a_batch, pour.parts) = (text(hands.2, ""), text(hands.3, ""));
        (pour.minutes_a_batch, pour.carry, pour.place) =
            (text(times.0, "min"), text(times.1 * 20, "s"), text(times.2, "min"));
        (pour.steel_takes, pour.steel_at) = (text(times.3, "min"), maybe(times.4, "%"));
        (pour.air, pour.bag_temperature) = (text(warmth.0, "°F"), maybe(warmth.1, "°F"));
        (pour.water_temperature, pour.ice) = (maybe(warmth.2, "°F"), text(warmth.3, "oz"));
        if let Some((longer, dose)) = retarder {
            job.bags[0].additives.push(Additive {
                name: "Retarder".into(),
                dose: text(dose, "oz"),
                dose_most: "4 oz".into(),
                longer: text(longer, "min"),
                ..Additive::default()
            });
        }
        job
    })
}

fn logged() -> impl Strategy<Value = Logged> {
    let steps = vec![
        PourStep::Lath,
        PourStep::Bars,
        PourStep::Screed,
        PourStep::Trowel,
        PourStep::Patches,
        PourStep::Wet,
        PourStep::Strip,
    ];
    let batch = 0..12u32;
    let step = prop_oneof![
        3 => batch.clone().prop_map(PourStep::Water),
        3 => batch.prop_map(PourStep::Placed),
        1 => select(steps),
    ];
    let at = prop_oneof![4 => 999_000_000_000..1_001_000_000_000u64, 1 => any::<u64>()];
    (0..3u32, step, at).prop_map(|(part, step, at)| Logged { part, step, at })
}

fn prices() -> impl Strategy<Value = PriceBook> {
    let money = || select(vec!["", "18.50", "$18.50", "0", "-3", "79228162514264337593543950335", "abc"]);
    let bags = prop::collection::vec((id(), money()), 0..4);
    let good = (select(GOODS.map(|good| good.id).to_vec()), money(), entry(), select(ChargeBy::ALL.to_vec()), entry());
    let pad = prop::collection::vec(entry(), 6);
    let lists = (bags, prop::collection::vec(good, 0..6), prop::collection::vec(pad, 0..3));
    (lists, money(), prop::collection::vec(entry(), 5)).prop_map(|((bags, goods, pads), wage, mut typed)| {
        let mut next = || typed.pop().unwrap_or_default();
        let mut book =
            PriceBook { wage: wage.into(), overhead: next(), margin: next(), tax: next(), ..PriceBook::default() };
        book.pace[1].fixed = next();
        book.pace[2].face_an_hour = next();
        book.bags =
            bags.into_iter().map(|(bag, price)| BagPrice { bag, price: price.into(), ..BagPrice::default() }).collect();
        for (id, price, pack, charge, uses) in goods {
            let good = book.good_mut(id);
            (good.price, good.pack, good.charge, good.uses) = (price.into(), pack, charge, uses);
        }
        for pad in pads {
            let mut next = pad.into_iter();
            let mut next = || next.next().unwrap_or_default();
            let [grit, pace, life] = [next(), next(), next()];
            book.pads.push(OwnedPad { grit, pace, life, price: next(), diameter: next(), rated: next() });
        }
        book
    })
}

#[track_caller]
fn assert_waits_for_something<T>(known: &Known<T>) {
    if let Err(waiting) = known {
        assert!(!waiting.needs().is_empty(), "waits for nothing");
        assert!(
            waiting.needs().iter().all(|need| !need.says.write(Units::Inch).trim().is_empty()),
            "a need without words"
        );
    }
}

/// A mix made from scratch: its absolute volumes are the mix that is wanted, every batch is what the scale weighs, and
/// what is bought is the sum of the batches to the last step of the scale, water too.
#[track_caller]
fn assert_recipe(estimate: &Estimate, order: &pourwright::mix::Order) {
    let scratch = order.scratch().expect("it is made from scratch");
    let pours =
        estimate.pieces.iter().filter_map(|piece| piece.pour.as_ref().ok()).filter(|pour| pour.bag == order.bag);
    let mut weighed: Vec<(Role, f64)> = Vec::new();
    let of_pieces = pours.map(|pour| (pour.with_spare.value.value, pour.coats.as_ref().expect("so is the pour")));
    // What several pieces are cast from is mixed for all of them.
    let all: Vec<_> = match &scratch.pooled {
        Some(pooled) => vec![(order.volume.value.value, pooled)],
        None => of_pieces.collect(),
    };
    for (wanted, coats) in all {
        let mut filled = 0.0;
        for coat in &coats.coats {
            let batches = f64::from(coats.parts * coat.batches);
            filled += coat.batch.volume.value * batches;
            let absolute = coat.batch.absolute_volume().value;
            assert!((absolute / coat.batch.volume.value - 1.0).abs() < 1e-9, "{absolute} {:?}", coat.batch.volume);
            for (role, mass) in &coat.weighed.parts {
                assert!(mass.value.is_finite() && mass.value >= 0.0);
                match weighed.iter_mut().find(|(own, _)| own == role) {
                    Some((_, sum)) => *sum += mass.value * batches,
                    None => weighed.push((*role, mass.value * batches)),
                }
            }
        }
        assert!((filled / wanted - 1.0).abs() < 1e-9);
    }
    assert_eq!(scratch.materials.len(), weighed.len());
    for (material, (role, sum)) in scratch.materials.iter().zip(&weighed) {
        assert_eq!(material.role, *role);
        assert!((material.mass.value.value - sum).abs() <= 1e-9 * sum);
        if *role == Role::Water {
            assert!((order.water.value.value * 999.552 - sum).abs() <= 1e-5 * sum);
        }
    }
    assert!(scratch.water_to_cement.value > 0.0 && scratch.water_to_cement.value.is_finite());
    assert!(scratch.paste.value > 0.0 && scratch.paste.value < 1.0);
}

#[track_caller]
fn assert_sane(job: &Job, estimate: &Estimate) {
    assert_eq!(estimate.pieces.len(), job.pieces.len());
    assert_waits_for_something(&estimate.headline.bags);
    assert_waits_for_something(&estimate.headline.water);
    assert_waits_for_something(&estimate.headline.weight);
    assert_waits_for_something(&estimate.headline.people);
    assert_waits_for_something(&estimate.cost);
    for piece in &estimate.pieces {
        assert_waits_for_something(&piece.top.outline);
        assert_waits_for_something(&piece.top.thickness);
        assert_waits_for_something(&piece.top.area);
        assert_waits_for_something(&piece.form);
        assert_waits_for_something(&piece.pour);
        assert_waits_for_something(&piece.plan);
        assert_waits_for_something(&piece.drying);
        assert_waits_for_something(&piece.strip);
        assert_waits_for_something(&piece.weights);
        assert_waits_for_something(&piece.crew);
        for edge in &piece.top.edges {
            assert_waits_for_something(edge);
        }
        if let Ok(outline) = &piece.top.outline {
            assert!(outline.area().is_finite() && outline.area() > 0.0);
            assert!(outline.edges().iter().all(|edge| edge.start().is_finite() && edge.length() > 0.0));
        }
        if let Some(surveyed) = &piece.top.surveyed {
            assert_waits_for_something(surveyed);
            if let Ok(surveyed) = surveyed {
                assert_waits_for_something(&surveyed.ways);
                assert!(surveyed.front_left.is_finite() && surveyed.survey.corners.iter().all(|at| at.is_finite()));
                assert!(surveyed.survey.area.value.is_finite() && surveyed.survey.misclosure.value.is_finite());
                for ways in surveyed.ways.iter() {
                    let margins = [ways.lowered, ways.slid, ways.tilted].map(|way| way.margin.map(|by| by.value));
                    assert!(margins.into_iter().flatten().all(f64::is_finite), "{ways:?}");
                }
            }
        }
        if let Some(walked) = &piece.top.walked {
            assert_waits_for_something(walked);
            for walk in walked.iter() {
                assert!(walk.corners.iter().all(|at| at.is_finite()) && walk.closure.value.is_finite());
            }
        }
        if let Ok(form) = &piece.form {
            assert!(form.clear.area().is_finite() && form.clear.area() > 0.0);
            let parts = form.parts.iter().flatten();
            assert!(parts.map(|part| part.length.value).all(|length| length.is_finite() && length > 0.0));
        }
        for rail in &piece.top.rails {
            assert!(rail.width.value.is_finite() && rail.at.0.is_finite() && rail.at.1.is_finite());
        }
        if let Ok(area) = &piece.top.area {
            assert!(area.value.value.is_finite() && area.value.value > 0.0);
        }
        if let Ok(pour) = &piece.pour {
            assert!(pour.net.value.value.is_finite() && pour.net.value.value > 0.0);
            assert!(pour.with_spare.value >= pour.net.value);
            assert!(pour.fresh_density.value.value.is_finite() && pour.fresh_density.value.value > 0.0);
        }
        if let Ok(weights) = &piece.weights {
            assert!(weights.as_cast.value.value.is_finite() && weights.as_cast.value.value > 0.0);
            assert!(weights.installed.value.value.is_finite() && weights.installed.value.value > 0.0);
        }
        if let Ok(plan) = &piece.plan {
            let timeline = &plan.timeline;
            assert!(timeline.takes.value.value.is_finite() && timeline.workable.value.value.is_finite());
            assert!(timeline.fits || timeline.takes.value > timeline.workable.value);
            assert!(plan.fit() != Fit::Well || plan.remedies.is_empty());
            let pour = piece.pour.as_ref().expect("a plan is of a pour");
            assert_eq!(plan.parts.iter().sum::<u32>(), pour.loads.value);
        }
    }
    for order in &estimate.orders {
        assert_waits_for_something(order);
        let Ok(order) = order else { continue };
        let volume = order.volume.value.value;
        let Some(bagged) = order.bagged() else {
            assert_recipe(estimate, order);
            continue;
        };
        let bags = f64::from(order.bags.value);
        // What the bags give is the volume and what is left over, to float noise.
        let given = volume + bagged.left_over.value.value;
        let yields = pourwright::job::read::volume(
            job,
            pourwright::job::FieldPath::Bag(order.bag, pourwright::job::BagField::Yield),
        )
        .expect("an order has read it");
        assert!((bags * yields.value - given).abs() <= 1e-8 * given, "{bags} bags, {given}");
        assert!(bagged.left_over.value.value >= 0.0 && bagged.left_over.value <= yields);
        let water = order.water.value.value;
        assert!((water - bags * bagged.water_a_bag.value).abs() <= 1e-9 * water);
    }
    let finishing = &estimate.finishing;
    assert_waits_for_something(&finishing.face);
    assert_waits_for_something(&finishing.removed);
    assert_waits_for_something(&finishing.time);
    assert_waits_for_something(&finishing.sealing);
    assert_waits_for_something(&finishing.schedule);
    finishing.filling.iter().for_each(assert_waits_for_something);
    finishing.dust.iter().for_each(assert_waits_for_something);
    estimate.setting.adhesive.iter().chain(&estimate.setting.caulk).for_each(assert_waits_for_something);
    for piece in &estimate.pieces {
        assert_waits_for_something(&piece.carrying.handling);
        for (_, ways) in &piece.carrying.ways {
            assert_waits_for_something(ways);
        }
    }
    let pricing = &estimate.pricing;
    assert_waits_for_something(&pricing.sheet);
    assert_waits_for_something(&pricing.by_area);
    assert_waits_for_something(&pricing.break_even);
    assert!(pricing.needs.known.iter().all(|need| need.amount.is_sound() && !need.amount.is_nothing()));
    if let Ok(sheet) = &pricing.sheet {
        let lines: Decimal = sheet.lines.iter().map(|line| line.amount).sum();
        assert_eq!(lines, sheet.material + sheet.wages, "every line is in the sum, once");
        assert_eq!(sheet.material + sheet.wages + sheet.overhead, sheet.cost);
        assert_eq!(sheet.cost + sheet.margin + sheet.tax, sheet.price.value);
    }
    let mut last = None;
    for Finding { severity, says, remedy, .. } in &estimate.findings {
        assert!(last <= Some(*severity), "stops first, then watches, then notes");
        last = Some(*severity);
        for names in [pourwright::measure::Units::Inch, pourwright::measure::Units::Metric] {
            let (says, remedy) = (says.write(names), remedy.write(names));
            assert!(says.ends_with('.') && remedy.ends_with('.'), "{says} {remedy}");
        }
    }
}

fn mirrored(job: &Job) -> Option<Job> {
    use pourwright::job::{CutoutField, FieldPath, PieceField};
    let mut mirrored = job.clone();
    let width = read::length(job, FieldPath::Piece(0, PieceField::Width)).ok()?;
    let from_left = read::length(job, FieldPath::Cutout(0, 0, CutoutField::FromLeft)).ok()?;
    let piece = &mut mirrored.pieces[0];
    piece.edges.swap(1, 3);
    let sixteenths = ((width - from_left).value / 0.0254 * 16.0).round();
    piece.cutouts[0].from_left = Entry(format!("{} {}/16 in", (sixteenths / 16.0).floor(), sixteenths % 16.0));
    Some(mirrored)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn any_job_is_worked_out_without_panic(job in any_job(), prices in prices()) {
        assert_sane(&job, &estimate(&job, &prices));
    }

    /// Whatever can be drawn is drawn with numbers.
    #[test]
    fn any_job_is_drawn_without_panic(job in any_job(), face in select(vec![Face::Installed, Face::Form])) {
        let estimate = estimate(&job, &PriceBook::default());
        for (piece, typed) in estimate.pieces.iter().zip(&job.pieces) {
            let drawing = plan(piece, typed, job.units, face, Some(Selection::Corner(0)));
            prop_assert_eq!(drawing.is_some(), piece.top.outline.is_ok());
            if let Some(drawing) = drawing {
                prop_assert!(!drawing.svg.contains("NaN") && !drawing.svg.contains("inf"), "{}", drawing.svg);
                prop_assert!(drawing.scale > 0.0 && drawing.height.is_finite());
            }
            if let Ok(plan) = &piece.plan {
                let svg = timeline_drawing(&plan.timeline);
                prop_assert!(svg.ends_with("</svg>") && !svg.contains("NaN") && !svg.contains("inf"), "{}", svg);
            }
        }
    }

    /// Every place leads to an entry of its own, has a key of its own, and is written to the file.
    #[test]
    fn every_place_of_any_job_is_an_entry(job in any_job()) {
        let mut job = job;
        let places = job.places();
        let keys: HashSet<String> = places.iter().map(|place| place.key()).collect();
        prop_assert_eq!(keys.len(), places.len());
        for (index, place) in places.iter().enumerate() {
            prop_assert!(job.entry_at(*place).is_some(), "{place:?}");
            *job.entry_at_mut(*place).expect("it could be read") = Entry(format!("☃{index}."));
        }
        let written = file::write(&job);
        for (index, place) in places.iter().enumerate() {
            let typed = format!("☃{index}.");
            prop_assert_eq!(job.entry_at(*place).map(Entry::text), Some(typed.as_str()));
            prop_assert_eq!(written.matches(&typed).count(), 1, "{:?}", place);
            prop_assert!(!read::name_of(&job, *place).trim().is_empty());
        }
        prop_assert_eq!(file::read(&written), Ok(job));
    }

    /// A left-hand L takes what its right-hand twin takes, rounded corners and liners included.
    #[test]
    fn the_hand_of_an_l_does_not_matter(job in good_l()) {
        let mut twin = job.clone();
        twin.pieces[0].hand = Hand::Right;
        let both = [&job, &twin].map(|job| estimate(job, &PriceBook::default()));
        both.iter().zip([&job, &twin]).for_each(|(estimate, job)| assert_sane(job, estimate));
        let [one, other] = both.map(|mut estimate| estimate.pieces.remove(0));
        let [a, b] = [&one, &other].map(|piece| {
            let form = piece.form.as_ref().unwrap();
            let parts = form.parts.iter().flatten();
            let mut lengths: Vec<f64> = parts.map(|part| part.length.value).collect();
            lengths.sort_by(f64::total_cmp);
            let volume = piece.pour.as_ref().unwrap().net.value.value;
            let weight = piece.weights.as_ref().unwrap().as_cast.value.value;
            let area = piece.top.area.as_ref().unwrap().value.value;
            lengths.extend([area, volume, weight, form.clear.area(), form.clear_width.value.value]);
            lengths
        });
        prop_assert_eq!(a.len(), b.len());
        for (a, b) in a.iter().zip(&b) {
            prop_assert!((a - b).abs() <= 1e-9 * a, "{a} {b}");
        }
        // And it is the other hand: what was nearer the left end is nearer the right end.
        let [one, other] = [&one, &other].map(|piece| piece.top.outline.as_ref().unwrap());
        let across = one.centroid().x + other.centroid().x;
        prop_assert!((across - one.bounds().x0 - one.bounds().x1).abs() < 1e-9);
        prop_assert!(one.centroid().x < one.bounds().center().x);
    }

    /// Liners of no thickness leave the form as large as the top.
    #[test]
    fn no_liner_leaves_the_outline(job in good_l(), hand in select(vec![Hand::Left, Hand::Right])) {
        let mut job = job;
        job.pieces[0].hand = hand;
        job.pieces[0].edges = vec![Edge { kind: EdgeKind::Lined, liner: "0".into(), ..Edge::default() }; 6];
        let piece = estimate(&job, &PriceBook::default()).pieces.remove(0);
        let (clear, outline) = (piece.form.clone().unwrap().clear, piece.top.outline.clone().unwrap());
        prop_assert_eq!(clear.edges().len(), outline.edges().len());
        for (clear, edge) in clear.edges().iter().zip(outline.edges()) {
            prop_assert_eq!(clear.tag(), edge.tag());
            prop_assert!(clear.start().distance(edge.start()) < 1e-9);
            prop_assert!(clear.point_at(0.5).distance(edge.point_at(0.5)) < 1e-9);
        }
    }

    /// A job that can be cast gives every number.
    #[test]
    fn a_good_job_waits_for_nothing(job in good_job()) {
        let estimate = estimate(&job, &PriceBook::default());
        assert_sane(&job, &estimate);
        prop_assert!(estimate.headline.bags.is_ok(), "{:?}", estimate.headline.bags);
        prop_assert!(estimate.headline.water.is_ok() && estimate.headline.weight.is_ok());
        prop_assert!(estimate.headline.people.is_ok() && estimate.pieces[0].plan.is_ok());
    }

    /// A left-hand top takes what its right-hand twin takes.
    #[test]
    fn hands_do_not_matter(job in good_job()) {
        let twin = mirrored(&job).expect("a good job can be read");
        let (one, other) = (estimate(&job, &PriceBook::default()), estimate(&twin, &PriceBook::default()));
        let numbers = |estimate: &Estimate| {
            let piece = &estimate.pieces[0];
            (
                piece.top.area.as_ref().unwrap().value.value,
                piece.form.as_ref().unwrap().clear_width.value.value,
                piece.weights.as_ref().unwrap().as_cast.value.value,
            )
        };
        let (a, b) = (numbers(&one), numbers(&other));
        prop_assert!((a.0 - b.0).abs() < 1e-12 && (a.1 - b.1).abs() < 1e-12 && (a.2 - b.2).abs() < 1e-9);
        let bags = |estimate: &Estimate| estimate.headline.bags.as_ref().unwrap().value;
        prop_assert_eq!(bags(&one), bags(&other));
        let widths = |estimate: &Estimate| -> Vec<f64> {
            estimate.pieces[0].top.rails.iter().map(|rail| rail.width.value).collect()
        };
        for (a, b) in widths(&one).into_iter().zip(widths(&other)) {
            prop_assert!((a - b).abs() < 1e-9);
        }
    }

    /// What goes into the form is what it holds: area times depth, and no more for a liner.
    #[test]
    fn a_liner_does_not_change_what_is_poured(job in good_job()) {
        let mut plain = job.clone();
        plain.pieces[0].edges[0].kind = EdgeKind::Plain;
        let net = |job: &Job| estimate(job, &PriceBook::default()).pieces[0].pour.clone().unwrap().net.value.value;
        prop_assert!((net(&job) - net(&plain)).abs() <= 1e-12);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Whatever is offered to make a pour fit does so by one tap, and the water of its batches is its water.
    #[test]
    fn every_remedy_typed_in_makes_it_fit(job in busy_job()) {
        let plan = estimate(&job, &PriceBook::default()).pieces[0].plan.clone().unwrap();
        for remedy in &plan.remedies {
            let mut remedied = job.clone();
            for (place, text) in plan.typed(remedy.change, &job) {
                *remedied.entry_at_mut(place).expect("a field") = Entry(text);
            }
            let after = estimate(&remedied, &PriceBook::default()).pieces[0].plan.clone().unwrap();
            prop_assert!(after.timeline.fits, "{:?}", remedy);
            // Batches of a mix made from scratch are shared out anew and rounded to the scale: they fit, by a little less.
            let leaves_room = plan.fit() == Fit::Over || plan.coats.is_some() || after.fit() == Fit::Well;
            prop_assert!(leaves_room, "{:?}", remedy);
        }
        let course = Course::of(&plan, None, None, &PourInputs::read(&job, 0)).expect("it has a mix");
        for (part, bags) in (0..).zip(&plan.parts) {
            let batches = (0..course.batches(part)).map(|batch| course.ingredients(part, batch).unwrap());
            let last = plan.last_bag.filter(|_| part as usize + 1 == plan.parts.len());
            let (count, water, ice) = batches.fold((0, 0.0, 0.0), |(count, water, ice), batch| {
                (count + batch.bags + u32::from(batch.of_next.is_some()), water + batch.water.value, ice + batch.ice.value / 999.552)
            });
            if plan.coats.is_some() {
                prop_assert_eq!(course.batches(part), *bags);
                continue;
            }
            prop_assert_eq!(count, *bags);
            // To half of the last cup, or of the last 0.05 L.
            prop_assert!((water + ice - plan.water.value * (f64::from(*bags) - last.map_or(0.0, |last| 1.0 - last.share))).abs() < 1.2e-4);
        }
    }

    /// Whatever was ticked off in whatever order, the clock says a step, when it is due, and what threatens; ticking
    /// off what it says comes to an end.
    #[test]
    fn no_log_upsets_the_clock(job in busy_job(), log in prop::collection::vec(logged(), 0..12), now in 0.0..2e12_f64) {
        let mut all = estimate(&job, &PriceBook::default());
        let piece = all.pieces.remove(0);
        let plan = piece.plan.clone().unwrap();
        let order = all.orders[0].as_ref().ok();
        let course = Course::of(&plan, order, piece.strip.as_ref().ok().map(|strip| strip.at.value), &PourInputs::read(&job, 0)).expect("it has a mix");
        let mut log = log;
        for turn in 0..5000 {
            let reading = course.read(&log, now + 1e3 * f64::from(turn));
            prop_assert!(reading.due.is_none_or(f64::is_finite) && reading.ends.is_none_or(f64::is_finite));
            prop_assert!(reading.after.iter().all(|(_, due)| due.is_finite()));
            let Some(step) = reading.step else { return Ok(()) };
            prop_assert!(!log.iter().any(|line| line.part == reading.part && line.step == step), "{:?} again", step);
            tick(&mut log, reading.part, step, now);
        }
        prop_assert!(false, "it never ends");
    }
}

/// No lists at all, and far more than anybody fills in.
#[test]
fn empty_and_long_lists() {
    let mut job = Job::new("empty", Units::Inch);
    job.pieces.clear();
    job.bags.clear();
    let nothing = estimate(&job, &PriceBook::default());
    assert_sane(&job, &nothing);
    assert!(nothing.headline.bags.is_err() && nothing.headline.people.is_err() && nothing.cost.is_err());
    assert_eq!(nothing.orders, []);

    let mut job = demo("many");
    let piece = job.pieces[0].clone();
    job.pieces = vec![piece; 300];
    let many = estimate(&job, &PriceBook::default());
    assert_sane(&job, &many);
    let one = estimate(&demo("one"), &PriceBook::default());
    let (one, many) = (one.orders[0].as_ref().unwrap(), many.orders[0].as_ref().unwrap());
    assert!((300.0 * one.volume.value.value - many.volume.value.value).abs() < 1e-9);
    assert!(many.bags.value <= 300 * one.bags.value);
}

#[track_caller]
fn assert_working(working: &Working, units: Units, written: String) {
    assert!(!working.title(units).is_empty());
    for line in &working.lines(units) {
        assert!(!line.formula.is_empty() && !line.result.is_empty(), "{}: {line:?}", working.title(units));
        // Only what goes in has no numbers of its own.
        let arithmetic = line.formula.contains(['×', '÷', '−', '+']);
        assert!(!arithmetic || !line.numbers.is_empty() || line.formula.contains("workable time"), "{line:?}");
    }
    let lines = working.lines(units);
    let last = lines.last().expect("at least one line");
    assert_eq!(last.result, written, "{}", working.title(units));
}

fn assert_workings(job: &Job) {
    let id = job.bags[0].id.clone();
    let mut prices = PriceBook {
        bags: vec![BagPrice { bag: id, price: "21.75".into(), ..BagPrice::default() }],
        ..PriceBook::default()
    };
    for good in ["cement", "sand", "stone", "polymer", "fibre", "pigment", "flow-aid"] {
        prices.good_mut(good).price = "7.50".into();
    }
    let estimate = estimate(job, &prices);
    let units = job.units;
    let bags = |count| write_count(count, "bag", "bags");

    let headline = &estimate.headline;
    let figure = headline.bags.as_ref().unwrap();
    assert_working(&figure.working, units, bags(figure.value));
    let figure = headline.water.as_ref().unwrap();
    assert_working(&figure.working, units, write_water(figure.value, units).to_string());
    let figure = headline.weight.as_ref().unwrap();
    assert_working(&figure.working, units, write_mass(figure.value, units).to_string());
    let figure = headline.people.as_ref().unwrap();
    assert_working(&figure.working, units, figure.value.words());
    let figure = &estimate.cost.as_ref().unwrap().bags;
    assert_working(&figure.working, units, write_money(figure.value, "USD"));

    for piece in &estimate.pieces {
        let figure = piece.top.area.as_ref().unwrap();
        assert_working(&figure.working, units, write_area(figure.value, units).to_string());
        let form = piece.form.as_ref().unwrap();
        for figure in [
            &form.clear_width,
            &form.clear_depth,
            &form.base_width,
            &form.base_depth,
            &form.cast_thickness,
            &form.side_height,
        ] {
            assert_working(&figure.working, units, write_length(figure.value, units).to_string());
        }
        let pour = piece.pour.as_ref().unwrap();
        assert_working(&pour.net.working, units, write_volume(pour.net.value, units).to_string());
        assert_working(&pour.with_spare.working, units, write_volume(pour.with_spare.value, units).to_string());
        let loads = pour.loads.value;
        let said = if pour.coats.is_some() { write_count(loads, "batch", "batches") } else { bags(loads) };
        assert_working(&pour.loads.working, units, said);
        assert_working(&pour.fresh_density.working, units, write_density(pour.fresh_density.value, units).to_string());
        let plan = piece.plan.as_ref().unwrap();
        assert_working(&plan.batches.working, units, write_count(plan.batches.value, "batch", "batches"));
        for figure in [&plan.timeline.takes, &plan.timeline.workable, &plan.timeline.last_margin] {
            assert_working(&figure.working, units, write_duration(figure.value).to_string());
        }
        match &piece.strip {
            Ok(strip) => assert_working(&strip.at.working, units, write_duration(strip.at.value).to_string()),
            Err(waiting) => assert!(waiting.needs()[0].says.write(units).ends_with("at any age."), "{waiting:?}"),
        }
        let weights = piece.weights.as_ref().unwrap();
        assert_working(&weights.as_cast.working, units, write_mass(weights.as_cast.value, units).to_string());
        assert_working(&weights.installed.working, units, write_mass(weights.installed.value, units).to_string());
        let crew = piece.crew.as_ref().unwrap();
        assert_working(&crew.working, units, crew.value.words());
    }
    for order in &estimate.orders {
        let order = order.as_ref().unwrap();
        assert_working(&order.volume.working, units, write_volume(order.volume.value, units).to_string());
        assert_working(&order.bags.working, units, bags(order.bags.value));
        if let Some(bagged) = order.bagged() {
            let left_over = &bagged.left_over;
            assert_working(&left_over.working, units, write_volume(left_over.value, units).to_string());
        }
        for material in order.scratch().iter().flat_map(|scratch| &scratch.materials) {
            assert_working(&material.mass.working, units, write_weighed(material.mass.value, units));
        }
        assert_working(&order.water.working, units, write_water(order.water.value, units).to_string());
    }
}

/// Every number ends its own hand calculation, in the words in which it is written on the page.
#[test]
fn every_working_ends_in_its_number() {
    let mut job = demo("workings");
    assert_workings(&job);

    job.form.sides = SideStand::OnBase;
    job.bags[0].hardened_density = "125 lb/ft³".into();
    let second = job.pieces[0].clone();
    job.pieces.push(second);
    assert_workings(&job);

    let mut metric = Job::new("metric", Units::Metric);
    metric.pieces[0].width = "1200".into();
    metric.pieces[0].depth = "550".into();
    assert_workings(&metric);
    for units in [Units::Inch, Units::Metric] {
        for mix in catalogue(units).into_iter().filter(|bag| bag.recipe.is_some()) {
            let mut scratch = if units == Units::Metric { metric.clone() } else { demo("scratch") };
            scratch.pieces.truncate(1);
            scratch.pieces[0].bag = mix.id.clone();
            scratch.bags = vec![mix];
            assert_workings(&scratch);
        }
    }
}

/// Two mixes in one job are summed in the headline and ordered apart.
#[test]
fn two_mixes() {
    let mut job = demo("two");
    let mut second = job.pieces[0].clone();
    let concrete = catalogue(Units::Inch).remove(1);
    second.bag = concrete.id.clone();
    job.bags.push(concrete);
    job.pieces.push(second);
    let estimate = estimate(&job, &PriceBook::default());
    assert_eq!(estimate.orders.len(), 2);
    let sum: u32 = estimate.orders.iter().map(|order| order.as_ref().unwrap().bags.value).sum();
    let figure = estimate.headline.bags.as_ref().unwrap();
    assert_eq!(figure.value, sum);
    assert_working(&figure.working, Units::Inch, write_count(sum, "bag", "bags"));
    let water = estimate.headline.water.as_ref().unwrap();
    assert_working(&water.working, Units::Inch, write_water(water.value, Units::Inch).to_string());
}

/// The rest of a job stands while one field is half typed; the order does not pretend.
#[test]
fn parts_stand_alone() {
    let mut job = demo("half");
    job.pieces[0].spare = "1O".into();
    let half = estimate(&job, &PriceBook::default());
    assert!(half.headline.weight.is_ok() && half.headline.people.is_ok());
    assert!(half.headline.bags.is_err() && half.headline.water.is_err());

    let mut job = demo("half");
    job.form.board = "3/".into();
    let half = estimate(&job, &PriceBook::default());
    assert!(half.pieces[0].form.is_err());
    assert!(half.headline.bags.is_ok() && half.headline.weight.is_ok());

    let mut job = demo("half");
    job.pour.air = "warm".into();
    let half = estimate(&job, &PriceBook::default());
    assert!(half.pieces[0].plan.is_err());
    assert!(half.headline.bags.is_ok());

    // A second piece that is not measured yet keeps the headline from being taken for the whole.
    let mut job = demo("half");
    job.pieces.push(Piece::new("Splash", "gone", Units::Inch));
    let half = estimate(&job, &PriceBook::default());
    assert!(half.headline.bags.is_err() && half.headline.weight.is_err() && half.cost.is_err());
    assert!(half.pieces[0].pour.is_ok());
}

/// What several parts wait for is said once, with the name of the field and of what it belongs to.
#[test]
fn needs_are_said_once() {
    let mut job = demo("needs");
    job.pieces[0].cutouts[0].depth = "".into();
    let estimate = estimate(&job, &PriceBook::default());
    let waiting = estimate.headline.bags.unwrap_err();
    let says: Vec<_> = waiting.needs().iter().map(|need| need.write(&job)).collect();
    assert_eq!(says.len(), 1, "{says:?}");
    assert!(says[0].starts_with("Cutout 1, Depth: "), "{says:?}");
}
