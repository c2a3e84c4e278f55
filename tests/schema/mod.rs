//! Jobs made up by the schema: every field typed into, every choice made, and a count of what was tried.

use pourwright::job::{
    AcrossFrom, AirFor, AlongFrom, Back, BarSize, Bend, Carried, CornerKind, CutoutShape, DefectKind, EdgeKind, Entry,
    Exposure, Family, FieldPath, FormFace, GrindingWay, Grip, Hand, HolePattern, HolesFrom, Job, LabelClass, Lath,
    Layer, LayerOf, LiftLevel, LowSide, OpeningWalls, OutlineShape, PieceKind, Reach, Rest, Reveal, SealKind, Sheen,
    SheetStock, SideStand, SinkBay, Stripped, Travels, Turn,
};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

const HANDS: [Hand; 2] = [Hand::Left, Hand::Right];

/// Makes every choice of the job anew, each by the next of the picks. What a reading was taken of, tasks and units are
/// left to whoever makes the job.
pub fn choose(job: &mut Job, picks: &[u8]) {
    let mut picks = picks.iter().cycle();
    let mut next = || usize::from(picks.next().copied().unwrap_or_default());
    macro_rules! one {
        ($all:expr) => {{
            let all = $all;
            all[next() % all.len()]
        }};
    }
    macro_rules! maybe {
        ($all:expr) => {{
            let all = $all;
            all.get(next() % (all.len() + 1)).copied()
        }};
    }
    let form = &mut job.form;
    form.face = one!(FormFace::ALL);
    form.sides = one!([SideStand::OnEdge, SideStand::OnBase]);
    form.bend = one!(Bend::ALL);
    form.low_end = one!(HANDS);
    form.low_side = one!(LowSide::ALL);
    for layer in &mut form.layers {
        layer.of = one!(LayerOf::ALL);
    }
    for bag in &mut job.bags {
        bag.family = one!([Family::RapidMortar, Family::PortlandConcrete]);
        bag.class = one!(LabelClass::of(bag.family));
        if let Some(recipe) = &mut bag.recipe {
            recipe.air_for = one!(AirFor::ALL);
        }
    }
    for piece in &mut job.pieces {
        piece.kind = one!(PieceKind::ALL);
        piece.shape = one!(OutlineShape::ALL);
        piece.hand = one!(HANDS);
        piece.opening.walls = one!(OpeningWalls::ALL);
        for edge in &mut piece.edges {
            edge.kind = one!(EdgeKind::ALL);
        }
        for corner in &mut piece.corners {
            corner.kind = one!(CornerKind::ALL);
        }
        let doors = piece.doors.len();
        for cutout in &mut piece.cutouts {
            cutout.shape = one!(CutoutShape::ALL);
            cutout.reveal = one!(Reveal::ALL);
            cutout.across = one!(AcrossFrom::ALL);
            cutout.along = one!(AlongFrom::ALL);
            cutout.door_side = one!(HANDS);
            // One past the end is a door that was removed.
            cutout.door = maybe!((0..=doors).collect::<Vec<_>>());
        }
        let cutouts = piece.cutouts.len();
        for set in &mut piece.holes {
            set.pattern = one!([HolePattern::Single, HolePattern::Three]);
            set.placed = one!([HolesFrom::Edges, HolesFrom::Bowl]);
            set.cutout = maybe!((0..=cutouts).collect::<Vec<_>>());
        }
        piece.reinforcement.lath = one!(Lath::ALL);
        piece.reinforcement.bars = one!(BarSize::ALL);
        let handling = &mut piece.handling;
        handling.stripped = one!(Stripped::ALL);
        handling.carried = one!(Carried::ALL);
        handling.travels = one!(Travels::ALL);
        handling.bay = one!(SinkBay::ALL);
        handling.rest = one!(Rest::ALL);
        handling.back = one!(Back::ALL);
    }
    let finish = &mut job.finish;
    finish.exposure = maybe!(Exposure::ALL);
    finish.sheen = maybe!(Sheen::ALL);
    finish.way = one!(GrindingWay::ALL);
    finish.seal = one!(SealKind::ALL);
    finish.lift_from = one!(LiftLevel::ALL);
    finish.lift_to = one!(LiftLevel::ALL);
    finish.reach = one!(Reach::ALL);
    finish.turn = one!(Turn::ALL);
    finish.grip = one!(Grip::ALL);
    for defect in &mut finish.defects {
        defect.kind = one!(DefectKind::ALL);
    }
}

/// Gives the form as many layers and sheets, with nothing typed yet.
pub fn stock(job: &mut Job, layers: usize, sheets: usize) {
    job.form.layers = vec![Layer::default(); layers];
    job.form.sheets = vec![SheetStock::default(); sheets];
}

/// Types into the fields of the job, each the next of the texts, which are begun again at the end; `typed` says by the
/// odds beside a text, from 0 to 255, whether it is typed there.
pub fn fill(job: &mut Job, texts: &[(u8, Entry)], typed: impl Fn(FieldPath, u8) -> bool) {
    for (place, (odds, text)) in job.places().into_iter().zip(texts.iter().cycle()) {
        if typed(place, *odds) {
            *job.entry_at_mut(place).expect("a place of the job") = text.clone();
        }
    }
}

/// What stood in a job that is no field: by the way to it, without indices.
type Tried = BTreeMap<String, BTreeSet<String>>;

fn note(way: &str, value: &Value, tried: &mut Tried) {
    let mut say = |what: &str| tried.entry(way.to_owned()).or_default().insert(what.to_owned());
    match value {
        Value::Null => drop(say("none")),
        Value::Bool(_) | Value::Number(_) => drop(say("some")),
        Value::String(text) => drop(say(text)),
        Value::Array(members) => {
            say(if members.is_empty() { "empty" } else { "filled" });
            members.iter().for_each(|member| note(&format!("{way}[]"), member, tried));
        }
        Value::Object(fields) => {
            say("some");
            fields.iter().for_each(|(name, field)| note(&format!("{way}.{name}"), field, tried));
        }
    }
}

/// Words of a job that are neither fields nor choices.
const WORDS: [&str; 6] =
    [".id", ".pieces[].bag", ".bags[].id", ".pour.ticks[]", ".quote.options[]", ".pieces[].log[].step"];

/// Every choice, by the way to it, and between how many things it is made, none among them.
const CHOICES: [(&str, usize); 47] = [
    (".units", 2),
    (".form.face", FormFace::ALL.len()),
    (".form.sides", 2),
    (".form.bend", Bend::ALL.len()),
    (".form.low_end", 2),
    (".form.low_side", LowSide::ALL.len()),
    (".form.layers[].of", LayerOf::ALL.len()),
    (".bags[].family", 2),
    (".bags[].class", 6),
    (".bags[].recipe", 2),
    (".bags[].recipe.kind", 3),
    (".bags[].recipe.air_for", AirFor::ALL.len()),
    (".pieces[].kind", PieceKind::ALL.len()),
    (".pieces[].shape", OutlineShape::ALL.len()),
    (".pieces[].hand", 2),
    (".pieces[].opening.walls", OpeningWalls::ALL.len()),
    (".pieces[].opening.readings[].of", pourwright::job::Measured::ALL.len()),
    (".pieces[].edges[].kind", EdgeKind::ALL.len()),
    (".pieces[].corners[].kind", CornerKind::ALL.len()),
    (".pieces[].cutouts[].shape", CutoutShape::ALL.len()),
    (".pieces[].cutouts[].reveal", Reveal::ALL.len()),
    (".pieces[].cutouts[].across", AcrossFrom::ALL.len()),
    (".pieces[].cutouts[].along", AlongFrom::ALL.len()),
    (".pieces[].cutouts[].door", 2),
    (".pieces[].cutouts[].door_side", 2),
    (".pieces[].holes[].pattern", 2),
    (".pieces[].holes[].placed", 2),
    (".pieces[].holes[].cutout", 2),
    (".pieces[].reinforcement.lath", Lath::ALL.len()),
    (".pieces[].reinforcement.bars", BarSize::ALL.len()),
    (".pieces[].handling.stripped", Stripped::ALL.len()),
    (".pieces[].handling.carried", Carried::ALL.len()),
    (".pieces[].handling.travels", Travels::ALL.len()),
    (".pieces[].handling.bay", SinkBay::ALL.len()),
    (".pieces[].handling.rest", Rest::ALL.len()),
    (".pieces[].handling.back", Back::ALL.len()),
    (".finish.exposure", Exposure::ALL.len() + 1),
    (".finish.sheen", Sheen::ALL.len() + 1),
    (".finish.way", GrindingWay::ALL.len()),
    (".finish.seal", SealKind::ALL.len()),
    (".finish.lift_from", LiftLevel::ALL.len()),
    (".finish.lift_to", LiftLevel::ALL.len()),
    (".finish.reach", Reach::ALL.len()),
    (".finish.turn", Turn::ALL.len()),
    (".finish.grip", Grip::ALL.len()),
    (".finish.defects[].kind", DefectKind::ALL.len()),
    (".quote.hours[].task", pourwright::job::Task::ALL.len()),
];

/// Tries so many jobs, and asserts that every field was typed into, every list was filled, and every choice was made in
/// every way.
pub fn assert_all_is_tried(jobs: impl Strategy<Value = Job>, count: usize) {
    let mut runner = TestRunner::deterministic();
    let (mut tried, mut texts) = (Tried::new(), Tried::new());
    for _ in 0..count {
        let mut job = jobs.new_tree(&mut runner).expect("a job").current();
        // What is sent is a job of its own.
        job.quote.frozen = None;
        for place in job.places() {
            let field =
                place.key().split('-').filter(|part| part.parse::<u32>().is_err()).collect::<Vec<_>>().join("-");
            let entry = job.entry_at_mut(place).expect("a place of the job");
            texts.entry(field).or_default().insert(std::mem::take(&mut entry.0));
        }
        note("", &serde_json::to_value(&job).expect("a job has a JSON form"), &mut tried);
    }
    for (field, texts) in &texts {
        assert!(texts.len() > 3, "nothing is ever typed into {field} but {texts:?}");
    }
    let fresh: Vec<String> =
        tried.iter().filter(|(_, values)| values.contains("")).map(|(way, _)| way.clone()).collect();
    for way in fresh {
        // A field, whose text was taken out.
        tried.remove(&way);
    }
    for (way, values) in &tried {
        if values.contains("empty") || values.contains("filled") {
            assert!(values.contains("filled"), "{way} is never filled");
            continue;
        }
        if values.len() == 1 && values.contains("some") || WORDS.iter().any(|word| way.starts_with(word)) {
            continue;
        }
        if way == ".quote.frozen" {
            continue;
        }
        let known = CHOICES.iter().find(|(choice, _)| choice == way);
        let (_, count) =
            known.unwrap_or_else(|| panic!("{way} is a choice that this test has not heard of: {values:?}"));
        assert_eq!(values.len(), *count, "{way} is not tried in every way: {values:?}");
    }
    for (choice, _) in CHOICES {
        assert!(tried.contains_key(choice), "{choice} is never made");
    }
}
