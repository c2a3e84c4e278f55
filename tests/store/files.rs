//! The form of a job on disk.

use crate::jobs::{any_job, bag, plain};
use pourwright::job::file::{FileError, MOST_BYTES, VERSION, read, read_kept, write, write_kept};
use pourwright::job::{
    AcrossFrom, Additive, AirFor, AlongFrom, Back, Bag, BarSize, Bend, Carried, Corner, CornerKind, Cutout,
    CutoutShape, DefectEntry, DefectKind, Door, Edge, EdgeKind, Entry, Exposure, Family, FinishChoices, FormChoices,
    FormFace, FrozenQuote, GrindingWay, Grip, Hand, Handling, HolePattern, Holes, HolesFrom, Job, LabelClass, Lath,
    Layer, LayerOf, Leg, LiftLevel, Logged, LowSide, Measured, Opening, OpeningReading, OpeningWalls, OutlineShape,
    Piece, PieceKind, PourDay, PourStep, QuoteChoices, QuoteLine, QuoteOption, Reach, Recipe, RecipeKind,
    Reinforcement, Rest, Reveal, SealKind, Seams, Sheen, SheetStock, SideStand, SinkBay, Spell, Station, StrengthPoint,
    Stripped, Task, TaskHours, TemplateCorner, Travels, Turn, Units,
};
use pourwright::measure::Date;
use pourwright::price::{BagPrice, ChargeBy, Good, LoggedHours, MarginOn, OwnedPad, Pace, PriceBook};
use proptest::prelude::*;
use serde_json::{Value, json};

const SAMPLE_1: &str = include_str!("../samples/job-v1.json");
const SAMPLE_2: &str = include_str!("../samples/job-v2.json");
const SAMPLE_3: &str = include_str!("../samples/job-v3.json");
const SAMPLE_4: &str = include_str!("../samples/job-v4.json");
const SAMPLE_5: &str = include_str!("../samples/job-v5.json");
const PRICES_1: &str = include_str!("../samples/prices-v1.json");
const PRICES_2: &str = include_str!("../samples/prices-v2.json");

fn edge(kind: EdgeKind, liner: &str, radius: &str) -> Edge {
    Edge { kind, liner: liner.into(), radius: radius.into() }
}

fn cutout(shape: CutoutShape, [width, depth, corner_radius, from_left, from_front]: [&str; 5]) -> Cutout {
    Cutout {
        shape,
        width: width.into(),
        depth: depth.into(),
        corner_radius: corner_radius.into(),
        from_left: from_left.into(),
        from_front: from_front.into(),
        ..Cutout::default()
    }
}

fn holes(pattern: HolePattern, [diameter, spread, from_left, from_front]: [&str; 4]) -> Holes {
    Holes {
        pattern,
        diameter: diameter.into(),
        spread: spread.into(),
        from_left: from_left.into(),
        from_front: from_front.into(),
        ..Holes::default()
    }
}

fn additive(name: &str, dose: &str) -> Additive {
    Additive { name: name.into(), dose: dose.into(), ..Additive::default() }
}

/// Pour day as the first versions had it.
fn pour([air, people, bags_a_batch, minutes_a_batch]: [&str; 4], units: Units) -> PourDay {
    PourDay {
        air: air.into(),
        people: people.into(),
        bags_a_batch: bags_a_batch.into(),
        minutes_a_batch: minutes_a_batch.into(),
        ..PourDay::new(units)
    }
}

/// What the first version could not say, as a metric job begins with it.
fn not_in_version_1() -> Piece {
    let blank =
        |of| OpeningReading { of, length: "".into(), one_leg: "".into(), other_leg: "".into(), between: "".into() };
    let readings = [
        Measured::Back,
        Measured::Front,
        Measured::Left,
        Measured::Right,
        Measured::DiagonalFromFrontLeft,
        Measured::DiagonalFromFrontRight,
    ];
    Piece {
        hand: Hand::Left,
        leg: "".into(),
        right_leg: "".into(),
        right_depth: "".into(),
        front_depth: "".into(),
        bow: "".into(),
        corners: Vec::new(),
        walk: Vec::new(),
        opening: Opening {
            walls: OpeningWalls::Three,
            readings: readings.map(blank).to_vec(),
            clearance: "3".into(),
            overhang: "32".into(),
            end_overhang: "20".into(),
            backsplash: "".into(),
            stations: Vec::new(),
        },
        ..Piece::new("", "", Units::Metric)
    }
}

fn sample_1_job() -> Job {
    let none = Entry::default;
    Job {
        id: "5d0c1f6e9b7a4f3c8e21a0b4c6d8e9f1".to_owned(),
        seams: Seams::new(Units::Metric),
        finish: FinishChoices::default(),
        quote: QuoteChoices::default(),
        name: "Bar am Fenster – Küche 北".into(),
        client: "Zoë & Søn \"Lindqvist\" <Bau>".into(),
        notes: "Fenster 14′ über Flur.\nZweite Zeile\twith a tab; separator \u{2028} and emoji 🧱; not yet: 67 1/"
            .into(),
        units: Units::Metric,
        pieces: vec![
            Piece {
                name: "Bar".into(),
                shape: OutlineShape::Rectangle,
                width: "1,702 m".into(),
                depth: "48.9 cm".into(),
                thickness: "50".into(),
                grinding: "1.5".into(),
                // Front, right, back, left.
                edges: vec![
                    edge(EdgeKind::Lined, "19", "3"),
                    edge(EdgeKind::Eased, "", "1/8 in"),
                    edge(EdgeKind::Wall, "", ""),
                    edge(EdgeKind::Plain, "12", ""),
                ],
                cutouts: vec![
                    cutout(CutoutShape::Rectangle, ["508", "330", "40", "67 1/", "245"]),
                    cutout(CutoutShape::Ellipse, ["420", "16 1/2\"", "", "900", ""]),
                    cutout(CutoutShape::Circle, ["60", "", "", "1500", "6 ½\""]),
                ],
                holes: vec![
                    holes(HolePattern::Three, ["35", "203", "450", "430"]),
                    holes(HolePattern::Single, ["1 3/8 in", "", "", ""]),
                ],
                bag: "own-white".to_owned(),
                spare: "10 %".into(),
                steel: "2.4 kg".into(),
                ..not_in_version_1()
            },
            Piece {
                name: none(),
                shape: OutlineShape::Rectangle,
                width: none(),
                depth: none(),
                thickness: "5 cm".into(),
                grinding: none(),
                edges: vec![edge(EdgeKind::Plain, "", ""); 4],
                cutouts: Vec::new(),
                holes: Vec::new(),
                bag: "no-such-bag".to_owned(),
                spare: none(),
                steel: none(),
                ..not_in_version_1()
            },
        ],
        bags: vec![
            Bag {
                id: "own-white".to_owned(),
                name: "White mortar, own label".into(),
                family: Family::RapidMortar,
                mass: "25 kg".into(),
                yield_volume: "12.5 L".into(),
                water: "3.6 L".into(),
                water_least: "3.4 L".into(),
                water_most: "3.8 L".into(),
                workable: "20 min".into(),
                strip_after: "1 day".into(),
                hardened_density: "2100 kg/m³".into(),
                strengths: vec![
                    StrengthPoint { age: "6 h".into(), strength: "20 MPa".into() },
                    StrengthPoint { age: "28 d".into(), strength: none() },
                ],
                additives: vec![additive("Flow aid", "30 mL"), additive("Pigment, schwarz", "120 g")],
                class: LabelClass::Unsaid,
                stated_at: none(),
                recipe: None,
            },
            Bag {
                name: "same id twice".into(),
                family: Family::PortlandConcrete,
                mass: "80 lb".into(),
                yield_volume: "0.6 ft³".into(),
                ..bag("own-white")
            },
        ],
        form: FormChoices { board: "19".into(), sides: SideStand::OnBase, ..FormChoices::new(Units::Metric) },
        pour: pour(["31 °C", "2", "1", "4 min"], Units::Metric),
    }
}

fn corner(kind: CornerKind, [radius, before, after]: [&str; 3]) -> Corner {
    Corner { kind, radius: radius.into(), before: before.into(), after: after.into() }
}

fn leg(length: &str, angle: &str) -> Leg {
    Leg { length: length.into(), angle: angle.into(), bow: "".into() }
}

fn reading(of: Measured, [length, one_leg, other_leg, between]: [&str; 4]) -> OpeningReading {
    OpeningReading {
        of,
        length: length.into(),
        one_leg: one_leg.into(),
        other_leg: other_leg.into(),
        between: between.into(),
    }
}

fn station(along: &str, gap: &str) -> Station {
    Station { along: along.into(), gap: gap.into() }
}

/// An opening of which nothing is read.
fn unread(walls: OpeningWalls, clearance: &str) -> Opening {
    Opening {
        walls,
        readings: Vec::new(),
        clearance: clearance.into(),
        overhang: "".into(),
        end_overhang: "".into(),
        backsplash: "".into(),
        stations: Vec::new(),
    }
}

/// A piece of which nothing is typed.
fn blank_piece(name: &str, bag: &str) -> Piece {
    let none = Entry::default;
    Piece {
        name: name.into(),
        kind: PieceKind::Top,
        doors: Vec::new(),
        shape: OutlineShape::Rectangle,
        width: none(),
        depth: none(),
        hand: Hand::Left,
        leg: none(),
        right_leg: none(),
        right_depth: none(),
        front_depth: none(),
        bow: none(),
        corners: Vec::new(),
        walk: Vec::new(),
        opening: unread(OpeningWalls::Three, ""),
        thickness: none(),
        grinding: none(),
        edges: Vec::new(),
        cutouts: Vec::new(),
        holes: Vec::new(),
        bag: bag.to_owned(),
        spare: none(),
        reinforcement: Reinforcement::new(Units::Inch),
        handling: Handling::default(),
        steel: none(),
        log: Vec::new(),
    }
}

fn l_piece() -> Piece {
    Piece {
        shape: OutlineShape::L,
        width: "8 ft 1 1/2".into(),
        depth: "58 3/4".into(),
        hand: Hand::Right,
        leg: "25 1/4".into(),
        front_depth: "24 7/8".into(),
        corners: vec![
            corner(CornerKind::Rounded, ["3 1/2", "", ""]),
            corner(CornerKind::Clipped, ["1", "2 1/4", "1 3/4"]),
            corner(CornerKind::Square, ["", "", ""]),
            corner(CornerKind::Rounded, ["1/2", "", ""]),
        ],
        opening: Opening { overhang: "1 1/4".into(), end_overhang: "3/4".into(), ..unread(OpeningWalls::Three, "1/8") },
        thickness: "1 3/4".into(),
        grinding: "1/16".into(),
        edges: vec![
            edge(EdgeKind::Lined, "3/4", ""),
            edge(EdgeKind::Eased, "", "3/16"),
            edge(EdgeKind::Wall, "", ""),
            edge(EdgeKind::Wall, "", ""),
            edge(EdgeKind::Plain, "1/2", ""),
            edge(EdgeKind::Wall, "", "1/8"),
        ],
        cutouts: vec![
            cutout(CutoutShape::D, ["15 1/2", "13 1/4", "1", "30 1/2", "12"]),
            cutout(CutoutShape::Ellipse, ["420 mm", "12½", "", "6' 1", ""]),
        ],
        holes: vec![holes(HolePattern::Three, ["1 3/8", "8", "30 1/2", "21 1/4"])],
        spare: "12 %".into(),
        steel: "4 1/2 lb".into(),
        ..blank_piece("Eck-L", "own-grey")
    }
}

fn u_piece() -> Piece {
    Piece {
        shape: OutlineShape::U,
        width: "110".into(),
        depth: "40".into(),
        leg: "22".into(),
        right_leg: "20 1/2".into(),
        right_depth: "36".into(),
        front_depth: "18".into(),
        bow: "1 1/2".into(),
        opening: unread(OpeningWalls::Back, ""),
        thickness: "2".into(),
        spare: "10".into(),
        ..blank_piece("Bar U", "own-grey")
    }
}

fn walked_piece() -> Piece {
    Piece {
        shape: OutlineShape::Walked,
        corners: vec![corner(CornerKind::Clipped, ["", "1/", ""])],
        walk: vec![leg("48", "90"), leg("22 1/2", "88 1/2°"), leg("33 1/", "135"), leg("", "")],
        opening: unread(OpeningWalls::BackAndRight, "3 mm"),
        thickness: "1 1/2".into(),
        edges: vec![edge(EdgeKind::Plain, "", "")],
        cutouts: vec![cutout(CutoutShape::Circle, ["6", "", "", "", ""])],
        ..blank_piece("Ледник", "no-such-bag")
    }
}

fn opening_piece() -> Piece {
    Piece {
        shape: OutlineShape::Opening,
        width: "52".into(),
        bow: "0".into(),
        opening: Opening {
            walls: OpeningWalls::Three,
            readings: vec![
                reading(Measured::Back, ["51 7/8", "", "", ""]),
                reading(Measured::Front, ["52 1/16", "", "", ""]),
                reading(Measured::Left, ["23", "", "", ""]),
                reading(Measured::Right, ["22 15/16", "", "", ""]),
                reading(Measured::DiagonalFromFrontLeft, ["56 7/8", "", "", ""]),
                reading(Measured::DiagonalFromFrontRight, ["56 3/", "", "", ""]),
                reading(Measured::Left, ["23 1/16", "", "", ""]),
                reading(Measured::BackLeftCorner, ["12", "18", "18", "25 1/2"]),
                reading(Measured::BackRightCorner, ["", "18", "", ""]),
            ],
            clearance: "3/16".into(),
            overhang: "1".into(),
            end_overhang: "".into(),
            backsplash: "3/4".into(),
            stations: vec![station("0", "0"), station("26", "3/16"), station("51 7/8", "")],
        },
        thickness: "2".into(),
        grinding: "1/8".into(),
        edges: vec![
            edge(EdgeKind::Lined, "5/8", ""),
            edge(EdgeKind::Wall, "", ""),
            edge(EdgeKind::Wall, "", ""),
            edge(EdgeKind::Wall, "", ""),
        ],
        cutouts: vec![cutout(CutoutShape::Rectangle, ["18", "12", "2", "26", "11"])],
        holes: vec![holes(HolePattern::Single, ["1 3/8", "", "26", "19 1/2"])],
        spare: "10 %".into(),
        ..blank_piece("Niche", "own-grey")
    }
}

fn sample_2_job() -> Job {
    let mut job = sample_shapes();
    job.seams = Seams { longest: "8 ft 4".into(), heaviest: "140 lb".into() };
    let corner = &mut job.pieces[0];
    corner.doors = vec![Door { from_left: "24 3/4".into() }, Door { from_left: "61".into() }];
    corner.cutouts[0] = Cutout {
        reveal: Reveal::Covers,
        reveal_width: "1/8".into(),
        across: AcrossFrom::Door,
        door: Some(1),
        from_door: "1/2".into(),
        door_side: Hand::Right,
        along: AlongFrom::Back,
        from_back: "14".into(),
        from_right: "3/".into(),
        ..corner.cutouts[0].clone()
    };
    corner.holes[0].placed = HolesFrom::Bowl;
    corner.holes[0].cutout = Some(0);
    corner.holes[0].behind = "2 1/4".into();
    let template = [("0", "0", ""), ("15 1/2", "1/2", "2"), ("14", "11 3/4", "1 1/2")];
    let of_template = |(from_left, from_front, radius): (&str, &str, &str)| TemplateCorner {
        from_left: from_left.into(),
        from_front: from_front.into(),
        radius: radius.into(),
    };
    job.pieces[1].cutouts.push(Cutout {
        shape: CutoutShape::Polygon,
        template: template.map(of_template).to_vec(),
        reveal: Reveal::Shows,
        across: AcrossFrom::Right,
        from_right: "40".into(),
        ..cutout(CutoutShape::Polygon, ["", "", "", "", "9"])
    });
    let splash = &mut job.pieces[4];
    splash.kind = PieceKind::Backsplash;
    job
}

fn sample_shapes() -> Job {
    Job {
        seams: Seams::new(Units::Inch),
        finish: FinishChoices::default(),
        quote: QuoteChoices::default(),
        id: "8f3a7c20d1e94b65a0b7c4d2e6f81930".to_owned(),
        name: "Küche Søndergade – 北の台所".into(),
        client: "Åsa & Øyvind \"Brandt\" <Hof>".into(),
        notes:
            "Side door 31 1/2 in.\nLeg of the L to the window\tleft open; separator \u{2028} and emoji 🧱; not yet: \
                96 3/"
                .into(),
        units: Units::Inch,
        pieces: vec![
            l_piece(),
            u_piece(),
            walked_piece(),
            opening_piece(),
            Piece {
                width: "51 7/8".into(),
                depth: "6".into(),
                hand: Hand::Right,
                leg: "9".into(),
                opening: unread(OpeningWalls::BackAndLeft, ""),
                thickness: "3/4".into(),
                spare: "15".into(),
                ..blank_piece("Splash", "own-sand")
            },
        ],
        bags: vec![
            Bag {
                name: "Grey mortar, own label".into(),
                mass: "55 lb".into(),
                yield_volume: "0.50 ft³".into(),
                water: "5 qt".into(),
                water_least: "4 3/4 qt".into(),
                water_most: "5 1/2 qt".into(),
                workable: "18 min".into(),
                strip_after: "1 day".into(),
                hardened_density: "131 lb/ft³".into(),
                strengths: vec![StrengthPoint { age: "28 d".into(), strength: "6000 psi".into() }],
                additives: vec![additive("Pigment, noir", "4 oz")],
                ..bag("own-grey")
            },
            Bag {
                name: "Sand mix, from the yard".into(),
                family: Family::PortlandConcrete,
                mass: "60 lb".into(),
                yield_volume: "0.45 ft³".into(),
                ..bag("own-sand")
            },
        ],
        form: FormChoices { board: "11/16".into(), sides: SideStand::OnEdge, ..FormChoices::new(Units::Inch) },
        pour: pour(["58 °F", "2", "2", "5"], Units::Inch),
    }
}

/// The sample of the second version with something in every field that came after it.
fn sample_3_job() -> Job {
    let mut job = sample_2_job();
    job.form = FormChoices {
        board: job.form.board,
        sides: job.form.sides,
        bend: Bend::Layers,
        strip: "3/16".into(),
        strip_bend: "14".into(),
        liner_length: "10 ft".into(),
        liner_owned: "2".into(),
        liner_height: "2 1/4".into(),
        liner_past: "1 1/2".into(),
        liner_bend: "2".into(),
        layers: vec![
            Layer { of: LayerOf::Foam, thickness: "1 1/2".into() },
            Layer { of: LayerOf::Board, thickness: "18 mm".into() },
        ],
        draft: "1/16".into(),
        screws: "5".into(),
        bead: "3/16".into(),
        cartridge: "300 mL".into(),
        kerf: "3/32".into(),
        sheets: vec![
            SheetStock { width: "48".into(), length: "96".into(), owned: "".into() },
            SheetStock { width: "20 1/2".into(), length: "61".into(), owned: "1".into() },
        ],
        keep: "8".into(),
        low_end: Hand::Right,
        end_fall: "1/16".into(),
        low_side: LowSide::Back,
        side_fall: "1/".into(),
        ..FormChoices::new(Units::Inch)
    };
    job.pieces[0].reinforcement = Reinforcement {
        lath: Lath::Heavy,
        layers: "2".into(),
        lath_width: "24".into(),
        lath_length: "97".into(),
        off_edges: "1 1/4".into(),
        lap: "3".into(),
        bars: BarSize::Three,
        bar_height: "7/8".into(),
        rails_to: "5".into(),
    };
    job.pour = PourDay {
        humidity: "35 %".into(),
        wind: "8 km/h".into(),
        mix: "6".into(),
        bag_temperature: "55 °F".into(),
        water_temperature: "48".into(),
        ice: "2 lb".into(),
        mixers: "3".into(),
        carry: "1/2 min".into(),
        place: "1 1/2".into(),
        steel_at: "60 %".into(),
        steel_takes: "3".into(),
        parts: "2".into(),
        strip_strength: "2500 psi".into(),
        garage: vec![
            Spell { lasts: "6 h".into(), temperature: "60".into() },
            Spell { lasts: "12".into(), temperature: "".into() },
        ],
        ticks: vec!["3 bags of Grey mortar, own label".to_owned()],
        ..job.pour
    };
    job.bags[0].additives[0] = Additive {
        dose_least: "1 oz".into(),
        dose_most: "8 oz".into(),
        longer: "6 min".into(),
        water: "40 %".into(),
        ..job.bags[0].additives[0].clone()
    };
    let logged = |part, step, at| Logged { part, step, at };
    job.pieces[0].log = vec![
        logged(0, PourStep::Water(0), 1_795_000_000_000),
        logged(0, PourStep::Placed(0), 1_795_000_240_000),
        logged(0, PourStep::Lath, 1_795_000_300_000),
        logged(0, PourStep::Bars, 1_795_000_301_000),
        logged(1, PourStep::Screed, 1_795_000_400_000),
        logged(1, PourStep::Trowel, 1_795_000_700_000),
        logged(1, PourStep::Patches, 1_795_001_000_000),
        logged(1, PourStep::Wet, 1_795_004_600_000),
        logged(1, PourStep::Strip, 1_795_014_600_000),
    ];
    job.pieces[0].handling = Handling {
        stripped_at: "90 min".into(),
        carried_at: "2 days".into(),
        strength: "2500".into(),
        flexural: "410".into(),
        stripped: Stripped::OnEdge,
        carried: Carried::ByFour,
        suction: "40".into(),
        jolt: "25 %".into(),
        push: "80".into(),
        person: "250 lb".into(),
        overhang: "6 1/2".into(),
        cabinet_rail: "1 1/2".into(),
        sink_bay: "30".into(),
        bay: SinkBay::Propped,
        gap_from: "2".into(),
        gap_width: "24".into(),
        low_left: "1/16".into(),
        ..Handling::default()
    };
    job.pieces[1].handling.stripped = Stripped::FlatByThree;
    job.pieces[1].handling.carried = Carried::OnEdge;
    job.pieces[1].reinforcement.lath = Lath::Light;
    job.pieces[1].reinforcement.bars = BarSize::Four;
    job.finish = sample_finish();
    job.quote = sample_quote();
    job
}

/// The sample of the third version with something in every field that came after it.
fn sample_4_job() -> Job {
    let mut job = sample_3_job();
    job.bags[0].additives[0] = Additive {
        of_cement: "1/2 %".into(),
        strength: "90 %".into(),
        flow: "Runs longer".into(),
        ..job.bags[0].additives[0].clone()
    };
    job.bags[0].recipe = Some(Recipe {
        kind: RecipeKind::GlassFibre,
        air_for: AirFor::FrostAndSalt,
        batch: "3/4 ft³".into(),
        cement_bag: "47 lb".into(),
        scale: "0.2 oz".into(),
        slump: "4".into(),
        stone_size: "1/2".into(),
        strength: "4500".into(),
        most_water: "0.45".into(),
        stone_bulk: "98".into(),
        stone_gravity: "2.68".into(),
        stone_moisture: "2 %".into(),
        stone_absorbs: "0.5".into(),
        fineness: "2.8".into(),
        sand_gravity: "2.64".into(),
        sand_moisture: "6".into(),
        sand_absorbs: "0.7 %".into(),
        cement_gravity: "3.14".into(),
        sand: "1.1".into(),
        water: "0.33".into(),
        polymer: "6 %".into(),
        polymer_solids: "51 %".into(),
        flow_aid: "0.8".into(),
        flow_aid_solids: "40 %".into(),
        pigment: "4 %".into(),
        fibre: "3".into(),
        air: "2.5 %".into(),
        face_coat: "3/".into(),
    });
    job
}

/// The sample of the fourth version with something in every field that came after it.
fn sample_job() -> Job {
    let mut job = sample_4_job();
    (job.form.supports, job.form.face) = ("16".into(), FormFace::Rough);
    job.pour.screed = "6 min".into();
    let corner = &mut job.pieces[0];
    (corner.cutouts[0].bowl_depth, corner.cutouts[0].bowl_weight) = ("7 1/2".into(), "31 lb".into());
    corner.cutouts[1].reveal = Reveal::DropIn;
    corner.handling = Handling {
        travels: Travels::OnFoam,
        van: "40 %".into(),
        rest: Rest::LedgerAndBrackets,
        back: Back::Fastened,
        overhang_left: "2 1/4".into(),
        overhang_right: "3/".into(),
        brackets: "3".into(),
        bracket_from: "9".into(),
        bracket_length: "15 1/2".into(),
        bracket_height: "11".into(),
        screw: "5/16".into(),
        screw_bite: "1 3/4".into(),
        ..corner.handling.clone()
    };
    job.pieces[1].handling.bay = SinkBay::Railed;
    (job.bags[0].class, job.bags[0].stated_at) = (LabelClass::R2, "20 °C".into());
    job.bags[0].additives[0].less_water = "12 %".into();
    job
}

fn sample_finish() -> FinishChoices {
    let crack = |length: &str| DefectEntry { kind: DefectKind::Crack, length: length.into(), ..DefectEntry::default() };
    FinishChoices {
        exposure: Some(Exposure::Sand),
        sheen: Some(Sheen::Satin),
        way: GrindingWay::DryIndoors,
        grinding_water: "6 gal".into(),
        defects: vec![
            DefectEntry { width: "1/32".into(), depth: "1/8".into(), ..crack("11 1/2") },
            DefectEntry { count: "40".into(), ..DefectEntry::default() },
        ],
        water_ratio: "38 %".into(),
        pigment: "3".into(),
        fill_spare: "100 %".into(),
        seal: SealKind::Film,
        sealer: "Two-part, matt".into(),
        coats: "3".into(),
        covers: "250 ft²".into(),
        covers_with: "1 gal".into(),
        rough_extra: "60 %".into(),
        recoat: "4".into(),
        cure: "3 d".into(),
        seal_date: "2027-03-09".into(),
        seal_time: "16:30".into(),
        lift_from: LiftLevel::Floor,
        from_height: "8".into(),
        lift_to: LiftLevel::Measured,
        to_height: "34 3/4".into(),
        reach: Reach::Bent,
        turn: Turn::Half,
        lifts_an_hour: "2".into(),
        grip: Grip::Poor,
        door_width: "31 1/2".into(),
        door_height: "80".into(),
        turn_before: "36".into(),
        turn_after: "40".into(),
        turn_height: "92".into(),
        van_length: "9 ft 2".into(),
        van_width: "49".into(),
        van_height: "50".into(),
        dab_spacing: "10".into(),
        dab_width: "1 1/4".into(),
        dab_height: "3/16".into(),
        gap_width: "3/16".into(),
        gap_depth: "3/8".into(),
        shims: "16".into(),
    }
}

fn quote_line(label: &str, text: &str) -> QuoteLine {
    QuoteLine { label: label.to_owned(), text: text.to_owned() }
}

fn sample_quote() -> QuoteChoices {
    let day = |day| Date::new(2027, 2, day).expect("a day of the calendar");
    let hours = |task, estimated: &str, took: &str| TaskHours { task, estimated: estimated.into(), took: took.into() };
    QuoteChoices {
        deposit: "40 %".into(),
        valid_days: "21".into(),
        excluded: "Plumbing\nScaffold".into(),
        options: vec!["4b0e".to_owned(), "gone".to_owned()],
        hours: vec![
            hours(Task::Build, "5", "6:15"),
            hours(Task::Grind, "", "3 h 30 min"),
            hours(Task::Measure, "1 1/", ""),
        ],
        frozen: Some(FrozenQuote {
            sent: day(3),
            valid_until: day(24),
            maker: "A workshop\nMill Lane 4".to_owned(),
            lines: vec![quote_line("Size", "8 ft 1 1/2 in × 58 3/4 in")],
            amounts: vec![quote_line("Price", "$2,410.00")],
            price: "2410.00".to_owned(),
            currency: "USD".to_owned(),
            options: vec![QuoteOption {
                name: "Thinner".to_owned(),
                differs: vec![quote_line("Thickness", "1 1/2 in")],
                price: "$2,150.00".to_owned(),
            }],
            excluded: vec!["Plumbing".to_owned()],
            job: Box::new(plain("sent", "As it was sent")),
        }),
    }
}

/// A book of prices with something in every field.
fn sample_prices() -> PriceBook {
    PriceBook {
        currency: "EUR".to_owned(),
        units: Units::Metric,
        maker: "A workshop\nMill Lane 4".into(),
        wage: "44,50".into(),
        overhead: "12 %".into(),
        margin: "25".into(),
        margin_on: MarginOn::Cost,
        tax: "19 %".into(),
        bags: vec![BagPrice {
            bag: "own-white".to_owned(),
            price: "21,90".into(),
            priced_on: "2027-01-15".into(),
            stock: "3".into(),
        }],
        goods: vec![Good {
            id: "liner".to_owned(),
            pack: "1".into(),
            price: "180".into(),
            priced_on: "2026-11-02".into(),
            charge: ChargeBy::Uses,
            uses: "15".into(),
            stock: "2".into(),
        }],
        pads: vec![OwnedPad {
            grit: "400".into(),
            pace: "2 m²".into(),
            life: "30 m²".into(),
            price: "14".into(),
            diameter: "100".into(),
            rated: "25 m/s".into(),
        }],
        pace: vec![Pace { task: Task::Seal, fixed: "45 min".into(), face_an_hour: "2,5".into() }],
        log: vec![LoggedHours {
            job: "4b0e".to_owned(),
            task: Task::Seal,
            estimated: "1.5 h".into(),
            took: "2 h".into(),
        }],
    }
}

fn value(text: &str) -> Value {
    serde_json::from_str(text).expect("JSON")
}

/// The sample of the present version with one value replaced or added.
fn sample_with(pointer: &str, name: &str, new: Value) -> String {
    with(SAMPLE_5, pointer, name, new)
}

fn with(sample: &str, pointer: &str, name: &str, new: Value) -> String {
    let mut file = value(sample);
    let object = file.pointer_mut(pointer).and_then(Value::as_object_mut).expect("an object in the sample");
    object.insert(name.to_owned(), new);
    file.to_string()
}

fn sample_without(pointer: &str, name: &str) -> String {
    without(SAMPLE_5, pointer, name)
}

fn without(sample: &str, pointer: &str, name: &str) -> String {
    let mut file = value(sample);
    let object = file.pointer_mut(pointer).and_then(Value::as_object_mut).expect("an object in the sample");
    assert!(object.remove(name).is_some());
    file.to_string()
}

#[test]
fn every_shipped_version_loads() {
    assert_eq!(VERSION, 5, "a new version needs a sample of its own here");
    assert_eq!(read(SAMPLE_1), Ok(sample_1_job()));
    assert_eq!(read(SAMPLE_2), Ok(sample_2_job()));
    assert_eq!(read(SAMPLE_3), Ok(sample_3_job()));
    assert_eq!(read(SAMPLE_4), Ok(sample_4_job()));
    assert_eq!(read(SAMPLE_5), Ok(sample_job()));
}

/// A job of the first version has the clearance and the overhangs that were usual when openings came up, in its units,
/// whatever is usual in a new job.
#[test]
fn what_the_first_version_could_not_say_is_as_it_was_in_a_new_job_then() {
    for (word, usual) in [("inch", ["1/8", "1 1/4", "3/4"]), ("metric", ["3", "32", "20"])] {
        let job = read(&with(SAMPLE_1, "/job", "units", json!(word))).expect("a job of the first version");
        for piece in job.pieces {
            let opening = &piece.opening;
            assert_eq!([&opening.clearance, &opening.overhang, &opening.end_overhang].map(Entry::text), usual);
            assert_eq!((piece.corners, piece.walk, piece.hand), (Vec::new(), Vec::new(), Hand::Left));
        }
    }
}

/// What was typed bare was read in ft³ and minutes before, and goes on meaning that.
#[test]
fn bare_water_and_ages_of_an_older_job_keep_their_meaning() {
    use pourwright::job::{BagField, FieldPath, HandlingField, StrengthField, read as reading};
    let old = |units: &str| {
        let mut file = value(SAMPLE_4);
        let job = &mut file["job"];
        job["units"] = json!(units);
        job["bags"][0]["water"] = json!("1/6");
        job["bags"][0]["water_most"] = json!("5 qt");
        job["bags"][0]["strip_after"] = json!("90");
        job["bags"][0]["strengths"] = json!([{"age": "180", "strength": "3000"}, {"age": "1 day", "strength": "5000"}]);
        job["pieces"][0]["handling"]["stripped_at"] = json!("45");
        job["form"]["cartridge"] = json!("0.01");
        read(&file.to_string()).expect("a job of version 4")
    };
    let inch = old("inch");
    let bag = &inch.bags[0];
    assert_eq!((bag.water.text(), bag.water_most.text()), ("1/6 ft³", "5 qt"));
    assert_eq!((bag.strip_after.text(), bag.strengths[0].age.text()), ("90 min", "180 min"));
    assert_eq!(bag.strengths[1].age.text(), "1 day");
    assert_eq!(inch.form.cartridge.text(), "0.01 ft³");
    let minutes = |place| reading::duration(&inch, place).map(|time| time.get::<uom::si::time::minute>().round());
    assert_eq!(minutes(FieldPath::Bag(0, BagField::StripAfter)), Ok(90.0));
    assert_eq!(minutes(FieldPath::Strength(0, 0, StrengthField::Age)), Ok(180.0));
    assert_eq!(minutes(FieldPath::Handling(0, HandlingField::StrippedAt)), Ok(45.0));
    let metric = old("metric");
    assert_eq!(metric.bags[0].water.text(), "1/6", "litres then and now");
    assert_eq!(metric.form.cartridge.text(), "0.01 L");
    // A shelf has no units: nobody mixes a bag with five cubic feet, or with a sixth of a litre.
    let shelf = |version: u32, water: &str| {
        let mut bag = value(SAMPLE_5)["job"]["bags"][0].clone();
        bag["water"] = json!(water);
        bag["strip_after"] = json!("60");
        let file = json!({"format": "pourwright bags", "version": version, "bags": [bag]}).to_string();
        let bags = read_kept::<Vec<Bag>>(&file, &[]).expect("a shelf").0;
        (bags[0].water.text().to_owned(), bags[0].strip_after.text().to_owned())
    };
    assert_eq!(shelf(3, "1/6"), ("1/6 ft³".to_owned(), "60 min".to_owned()));
    assert_eq!(shelf(3, "4.74"), ("4.74 L".to_owned(), "60 min".to_owned()));
    assert_eq!(shelf(3, "5 qt").0, "5 qt");
    assert_eq!(shelf(4, "4.75"), ("4.75".to_owned(), "60".to_owned()));
}

/// Bringing a file up to date neither loses nor invents anything.
#[test]
fn a_first_version_that_was_changed_is_refused() {
    let colour = with(SAMPLE_1, "/job/pieces/0/edges/front", "colour", json!("ash"));
    let unknown = vec!["job.pieces[0].edges[0].colour".to_owned()];
    assert_eq!(read(&colour), Err(FileError::Unknown { paths: unknown }));
    for (file, path) in [
        (with(SAMPLE_1, "/job/pieces/0/edges", "top", json!({})), "job.pieces[0].edges"),
        (without(SAMPLE_1, "/job/pieces/0/edges", "left"), "job.pieces[0].edges"),
        (without(SAMPLE_1, "/job/pieces/1/edges/left", "kind"), "job.pieces[1].edges[3]"),
        (without(SAMPLE_1, "/job/pieces/0", "edges"), "job.pieces[0]"),
        (with(SAMPLE_1, "/job/pieces/0", "edges", json!("plain")), "job.pieces[0].edges"),
        (with(SAMPLE_1, "/job", "pieces", json!(7)), "job.pieces"),
        (with(SAMPLE_1, "/job", "units", json!("cubit")), "job.units"),
    ] {
        match read(&file) {
            Err(FileError::Wrong { path: found, .. }) => assert_eq!(found, path),
            other => panic!("{path}: {other:?}"),
        }
    }
}

#[test]
fn writing_a_sample_again_changes_nothing() {
    let written = write(&sample_job());
    let (mut ours, mut theirs) = (value(&written), value(SAMPLE_5));
    for file in [&mut ours, &mut theirs] {
        assert!(file.as_object_mut().and_then(|members| members.remove("written_by")).is_some());
    }
    assert_eq!(ours, theirs);
    assert_eq!(write(&read(&written).expect("our own file")), written);
}

#[test]
fn a_file_says_first_what_it_is() {
    assert!(write(&plain("a", "A")).starts_with(r#"{"format":"pourwright job","version":5,"written_by":""#));
}

#[test]
fn a_newer_version_is_refused_and_its_new_fields_are_named() {
    let mut file = value(&sample_with("/job/pieces/0", "waterfall", json!({"drop": "36"})));
    file["version"] = json!(7);
    file["sealed"] = json!(true);
    let error = read(&file.to_string()).expect_err("newer");
    let unknown = vec!["sealed".to_owned(), "job.pieces[0].waterfall".to_owned()];
    assert_eq!(error, FileError::Newer { found: 7, highest: 5, unknown });
    assert_eq!(
        error.to_string(),
        "This was written by a newer Pourwright: its version is 7, and 5 is the highest known here. Reload the page \
         while online to update it, then try again. Not known here: sealed, job.pieces[0].waterfall."
    );
    // Also when nothing in it is new, or nothing in it can be read.
    let same = sample_with("", "version", json!(VERSION + 1));
    assert_eq!(read(&same), Err(FileError::Newer { found: VERSION + 1, highest: VERSION, unknown: Vec::new() }));
    let strange = r#"{"format":"pourwright job","version":99999999999,"job":3}"#;
    assert_eq!(read(strange), Err(FileError::Newer { found: u32::MAX, highest: 5, unknown: Vec::new() }));
}

#[test]
fn an_unknown_field_is_refused_by_name() {
    for (pointer, path) in [
        ("", "colour"),
        ("/job", "job.colour"),
        ("/job/pieces/1", "job.pieces[1].colour"),
        ("/job/pieces/0/edges/3", "job.pieces[0].edges[3].colour"),
        ("/job/pieces/0/corners/1", "job.pieces[0].corners[1].colour"),
        ("/job/pieces/2/walk/0", "job.pieces[2].walk[0].colour"),
        ("/job/pieces/3/opening", "job.pieces[3].opening.colour"),
        ("/job/pieces/3/opening/readings/8", "job.pieces[3].opening.readings[8].colour"),
        ("/job/pieces/3/opening/stations/2", "job.pieces[3].opening.stations[2].colour"),
        ("/job/pieces/0/cutouts/1", "job.pieces[0].cutouts[1].colour"),
        ("/job/bags/0/additives/0", "job.bags[0].additives[0].colour"),
        ("/job/bags/0/recipe", "job.bags[0].recipe.colour"),
        ("/job/pour", "job.pour.colour"),
        ("/job/pour/garage/0", "job.pour.garage[0].colour"),
        ("/job/pieces/0/log/0", "job.pieces[0].log[0].colour"),
    ] {
        let error = read(&sample_with(pointer, "colour", json!("ash"))).expect_err(path);
        assert_eq!(error, FileError::Unknown { paths: vec![path.to_owned()] });
        assert!(error.to_string().ends_with(&format!("Not known here: {path}.")), "{error}");
    }
}

#[test]
fn many_unknown_fields_make_a_short_message() {
    let mut file = value(SAMPLE_5);
    for index in 0..500 {
        file["job"][format!("{index:03}{}", "x".repeat(1000))] = json!(1);
    }
    let message = read(&file.to_string()).expect_err("unknown").to_string();
    assert!(message.ends_with("and 494 more."), "{message}");
    assert!(message.chars().count() < 1200);
}

#[test]
fn a_missing_field_is_refused_by_name() {
    for (pointer, name, path) in [
        ("/job", "notes", "job"),
        ("/job/pieces/0", "waste", "job.pieces[0]"),
        ("/job/pieces/0", "opening", "job.pieces[0]"),
        ("/job/pieces/0/edges/3", "kind", "job.pieces[0].edges[3]"),
        ("/job/pieces/3/opening/readings/0", "of", "job.pieces[3].opening.readings[0]"),
        ("/job/bags/1", "strengths", "job.bags[1]"),
        // What may be open is said to be.
        ("/job/bags/1", "recipe", "job.bags[1]"),
        ("/job/pieces/0/cutouts/0", "door", "job.pieces[0].cutouts[0]"),
        ("/job/pieces/0/holes/0", "cutout", "job.pieces[0].holes[0]"),
        ("/job/finish", "exposure", "job.finish"),
        ("/job/finish", "sheen", "job.finish"),
        ("/job/quote", "frozen", "job.quote"),
    ] {
        let says = format!("missing field `{name}`");
        assert_eq!(read(&sample_without(pointer, name)), Err(FileError::Wrong { path: path.to_owned(), says }));
    }
    let says = "it is missing".to_owned();
    assert_eq!(read(&sample_without("", "job")), Err(FileError::Wrong { path: "job".to_owned(), says }));
}

#[test]
fn a_wrong_kind_of_value_is_refused_with_its_place() {
    for (pointer, name, new, path) in [
        ("/job/pieces/0", "width", json!(67), "job.pieces[0].width"),
        ("/job/pieces/0", "width", Value::Null, "job.pieces[0].width"),
        ("/job/pieces/0/cutouts/1", "shape", json!("trapezoid"), "job.pieces[0].cutouts[1].shape"),
        ("/job/pieces/3/opening/readings/0", "of", json!("ceiling"), "job.pieces[3].opening.readings[0].of"),
        ("/job/pieces/0", "edges", json!({}), "job.pieces[0].edges"),
        ("/job", "pieces", json!({}), "job.pieces"),
        ("/job", "units", json!("cubit"), "job.units"),
        ("", "job", json!("nothing"), "job"),
        ("", "version", json!("1"), "version"),
        ("", "version", json!(0), "version"),
        ("", "version", json!(1.5), "version"),
    ] {
        match read(&sample_with(pointer, name, new)) {
            Err(FileError::Wrong { path: found, .. }) => assert_eq!(found, path),
            other => panic!("{path}: {other:?}"),
        }
    }
}

#[test]
fn what_is_not_ours_is_told_apart_from_what_is_broken() {
    for text in ["", "  \n", "null", "[]", "hello", "{}", r#"{"format":"else","version":1}"#, r#"{"format":7}"#] {
        assert_eq!(read(text), Err(FileError::NotOurs), "{text}");
    }
    let bags = write_kept(&vec![bag("white")], "");
    let other = FileError::OtherKind { found: "pourwright bags".to_owned(), wanted: "pourwright job" };
    assert_eq!(read(&bags), Err(other));
    assert_eq!(read("{\"format\":\n \"pourwright job\",,}"), Err(FileError::NotJson { line: 2, column: 19 }));
    let deep = format!(r#"{{"format":{}"#, "[".repeat(100_000));
    assert_eq!(read(&deep), Err(FileError::TooDeep));
    let mut large = plain("a", "A");
    large.notes = Entry("x".repeat(MOST_BYTES));
    let text = write(&large);
    assert_eq!(read(&text), Err(FileError::TooLarge { bytes: text.len(), most: MOST_BYTES }));
}

#[test]
fn a_file_cut_anywhere_says_that_it_was_cut() {
    let text = write(&sample_job());
    for end in (1..text.len()).filter(|end| text.is_char_boundary(*end)) {
        assert_eq!(read(&text[..end]), Err(FileError::CutShort), "cut at {end}");
    }
}

#[test]
fn a_byte_order_mark_and_white_space_do_no_harm() {
    assert_eq!(read(&format!("\u{feff}\n {SAMPLE_5}\n\n")), Ok(sample_job()));
}

#[test]
fn every_shipped_book_of_prices_loads() {
    let load = |text| read_kept::<PriceBook>(text, &[]).map(|(book, _)| book);
    let first = PriceBook {
        currency: "EUR".to_owned(),
        bags: vec![BagPrice { bag: "own-white".to_owned(), price: "21,90".into(), ..BagPrice::default() }],
        ..PriceBook::default()
    };
    assert_eq!(load(PRICES_1), Ok(first));
    assert_eq!(load(PRICES_2), Ok(sample_prices()));
    let (mut ours, mut theirs) = (value(&write_kept(&sample_prices(), "")), value(PRICES_2));
    for file in [&mut ours, &mut theirs] {
        assert!(file.as_object_mut().and_then(|members| members.remove("written_by")).is_some());
    }
    assert_eq!(ours, theirs);
}

#[test]
fn bags_and_prices_take_the_same_form() {
    let bags = sample_job().bags;
    assert_eq!(read_kept::<Vec<Bag>>(&write_kept(&bags, ""), &[]).map(|(bags, _)| bags), Ok(bags));
    let mut book = value(&write_kept(&PriceBook::default(), ""));
    assert_eq!(book["format"], "pourwright prices");
    book["prices"]["rate"] = json!("40");
    let unknown = FileError::Unknown { paths: vec!["prices.rate".to_owned()] };
    assert_eq!(read_kept::<PriceBook>(&book.to_string(), &[]).map(|(book, _)| book), Err(unknown));
}

/// The first version of the shelf of bags did not know what additives do.
#[test]
fn bags_of_the_first_version_load() {
    let bags = vec![Bag { additives: vec![additive("Retarder", "2 oz")], ..bag("own") }];
    let mut file = value(&write_kept(&bags, ""));
    file["version"] = json!(1);
    without_the_label(&mut file);
    let members = file["bags"][0]["additives"][0].as_object_mut().expect("an additive");
    for new in ["dose_least", "dose_most", "longer", "water"] {
        assert!(members.remove(new).is_some());
    }
    for new in OF_VERSION_4 {
        assert!(members.remove(new).is_some());
    }
    assert_eq!(file["bags"][0].as_object_mut().expect("a bag").remove("recipe"), Some(Value::Null));
    assert_eq!(read_kept::<Vec<Bag>>(&file.to_string(), &[]).map(|(bags, _)| bags), Ok(bags));
}

/// What the third version did not know of an additive, and the second one of the shelf.
const OF_VERSION_4: [&str; 3] = ["of_cement", "strength", "flow"];

/// Takes from the first bag of a shelf's file what its third version did not know.
fn without_the_label(file: &mut Value) {
    let bag = file["bags"][0].as_object_mut().expect("a bag");
    for new in ["class", "stated_at"] {
        assert!(bag.remove(new).is_some());
    }
    let members = file["bags"][0]["additives"][0].as_object_mut().expect("an additive");
    assert!(members.remove("less_water").is_some());
}

/// The third version of the shelf knew no class on a label.
#[test]
fn bags_of_the_third_version_load() {
    let bags = vec![Bag { additives: vec![additive("Retarder", "2 oz")], ..bag("own") }];
    let mut file = value(&write_kept(&bags, ""));
    file["version"] = json!(3);
    without_the_label(&mut file);
    assert_eq!(read_kept::<Vec<Bag>>(&file.to_string(), &[]).map(|(bags, _)| bags), Ok(bags));
}

/// The second version of the shelf knew no recipes.
#[test]
fn bags_of_the_second_version_load() {
    let bags = vec![Bag { additives: vec![additive("Retarder", "2 oz")], ..bag("own") }];
    let mut file = value(&write_kept(&bags, ""));
    file["version"] = json!(2);
    without_the_label(&mut file);
    let members = file["bags"][0]["additives"][0].as_object_mut().expect("an additive");
    for new in OF_VERSION_4 {
        assert!(members.remove(new).is_some());
    }
    assert_eq!(file["bags"][0].as_object_mut().expect("a bag").remove("recipe"), Some(Value::Null));
    assert_eq!(read_kept::<Vec<Bag>>(&file.to_string(), &[]).map(|(bags, _)| bags), Ok(bags));
}

#[test]
fn every_refusal_is_one_line() {
    let names = vec!["a".to_owned(), "b".to_owned()];
    for error in [
        FileError::TooLarge { bytes: 1, most: 1 },
        FileError::CutShort,
        FileError::NotJson { line: 1, column: 1 },
        FileError::TooDeep,
        FileError::NotOurs,
        FileError::OtherKind { found: "pourwright bags".to_owned(), wanted: "pourwright job" },
        FileError::Newer { found: 2, highest: 1, unknown: names.clone() },
        FileError::Unknown { paths: names },
        FileError::Wrong { path: "job".to_owned(), says: "it is missing".to_owned() },
    ] {
        let says = error.to_string();
        assert!(says.starts_with("This ") && says.ends_with('.') && !says.contains(['\n', '\t']), "{says}");
        assert!(!says.contains("  "), "{says}");
    }
}

proptest! {
    #[test]
    fn any_job_comes_back_as_it_was(job in any_job()) {
        let text = write(&job);
        prop_assert_eq!(read(&text), Ok(job.clone()));
        prop_assert_eq!(write(&read(&text).expect("our own file")), text);
    }

    #[test]
    fn no_text_makes_reading_panic(text in ".{0,200}", at in 0_usize..3000) {
        drop(read(&text));
        let mut file = write(&sample_job());
        let at = (at.min(file.len())..).find(|at| file.is_char_boundary(*at)).unwrap_or(0);
        file.insert_str(at, &text);
        drop(read(&file));
    }
}
