//! The form of a job on disk.

use crate::jobs::{any_job, bag, plain};
use pourwright::job::file::{FileError, MOST_BYTES, VERSION, read, read_kept, write, write_kept};
use pourwright::job::{
    Additive, Bag, Cutout, CutoutShape, Edge, EdgeKind, Edges, Entry, Family, FormChoices, HolePattern, Holes, Job,
    OutlineShape, Piece, PourDay, SideStand, StrengthPoint, Units,
};
use pourwright::price::PriceBook;
use proptest::prelude::*;
use serde_json::{Value, json};

const SAMPLE_1: &str = include_str!("../samples/job-v1.json");

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
    }
}

fn holes(pattern: HolePattern, [diameter, spread, from_left, from_front]: [&str; 4]) -> Holes {
    Holes {
        pattern,
        diameter: diameter.into(),
        spread: spread.into(),
        from_left: from_left.into(),
        from_front: from_front.into(),
    }
}

fn sample_job() -> Job {
    let none = Entry::default;
    Job {
        id: "5d0c1f6e9b7a4f3c8e21a0b4c6d8e9f1".to_owned(),
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
                edges: Edges {
                    front: edge(EdgeKind::Lined, "19", "3"),
                    right: edge(EdgeKind::Eased, "", "1/8 in"),
                    back: edge(EdgeKind::Wall, "", ""),
                    left: edge(EdgeKind::Plain, "12", ""),
                },
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
                waste: "10 %".into(),
                steel: "2.4 kg".into(),
            },
            Piece {
                name: none(),
                shape: OutlineShape::Rectangle,
                width: none(),
                depth: none(),
                thickness: "5 cm".into(),
                grinding: none(),
                edges: Edges::default(),
                cutouts: Vec::new(),
                holes: Vec::new(),
                bag: "no-such-bag".to_owned(),
                waste: none(),
                steel: none(),
            },
        ],
        bags: vec![
            Bag {
                id: "own-white".to_owned(),
                name: "White mortar, own label".into(),
                family: Family::RapidMortar,
                mass: "25 kg".into(),
                yields: "12.5 L".into(),
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
                additives: vec![
                    Additive { name: "Flow aid".into(), dose: "30 mL".into() },
                    Additive { name: "Pigment, schwarz".into(), dose: "120 g".into() },
                ],
            },
            Bag {
                name: "same id twice".into(),
                family: Family::PortlandConcrete,
                mass: "80 lb".into(),
                yields: "0.6 ft³".into(),
                ..bag("own-white")
            },
        ],
        form: FormChoices { board: "19".into(), sides: SideStand::OnBase },
        pour: PourDay {
            air: "31 °C".into(),
            people: "2".into(),
            bags_a_batch: "1".into(),
            minutes_a_batch: "4 min".into(),
        },
    }
}

fn value(text: &str) -> Value {
    serde_json::from_str(text).expect("JSON")
}

/// The sample with one value replaced or added.
fn sample_with(pointer: &str, name: &str, new: Value) -> String {
    let mut file = value(SAMPLE_1);
    let object = file.pointer_mut(pointer).and_then(Value::as_object_mut).expect("an object in the sample");
    object.insert(name.to_owned(), new);
    file.to_string()
}

fn sample_without(pointer: &str, name: &str) -> String {
    let mut file = value(SAMPLE_1);
    let object = file.pointer_mut(pointer).and_then(Value::as_object_mut).expect("an object in the sample");
    assert!(object.remove(name).is_some());
    file.to_string()
}

#[test]
fn every_shipped_version_loads() {
    assert_eq!(VERSION, 1, "a new version needs a sample of its own here");
    assert_eq!(read(SAMPLE_1), Ok(sample_job()));
}

#[test]
fn writing_a_sample_again_changes_nothing() {
    let written = write(&sample_job());
    let (mut ours, mut theirs) = (value(&written), value(SAMPLE_1));
    for file in [&mut ours, &mut theirs] {
        assert!(file.as_object_mut().and_then(|members| members.remove("written_by")).is_some());
    }
    assert_eq!(ours, theirs);
    assert_eq!(write(&read(&written).expect("our own file")), written);
}

#[test]
fn a_file_says_first_what_it_is() {
    assert!(write(&plain("a", "A")).starts_with(r#"{"format":"pourwright job","version":1,"written_by":""#));
}

#[test]
fn a_newer_version_is_refused_and_its_new_fields_are_named() {
    let mut file = value(&sample_with("/job/pieces/0", "waterfall", json!({"drop": "36"})));
    file["version"] = json!(7);
    file["sealed"] = json!(true);
    let error = read(&file.to_string()).expect_err("newer");
    let unknown = vec!["sealed".to_owned(), "job.pieces[0].waterfall".to_owned()];
    assert_eq!(error, FileError::Newer { found: 7, highest: 1, unknown });
    assert_eq!(
        error.to_string(),
        "This was written by a newer Pourwright: its version is 7, and 1 is the highest known here. Reload the page \
         while online to update it, then try again. Not known here: sealed, job.pieces[0].waterfall."
    );
    // Also when nothing in it is new, or nothing in it can be read.
    let same = sample_with("", "version", json!(2));
    assert_eq!(read(&same), Err(FileError::Newer { found: 2, highest: 1, unknown: Vec::new() }));
    let strange = r#"{"format":"pourwright job","version":99999999999,"job":3}"#;
    assert_eq!(read(strange), Err(FileError::Newer { found: u32::MAX, highest: 1, unknown: Vec::new() }));
}

#[test]
fn an_unknown_field_is_refused_by_name() {
    for (pointer, path) in [
        ("", "colour"),
        ("/job", "job.colour"),
        ("/job/pieces/1", "job.pieces[1].colour"),
        ("/job/pieces/0/edges/front", "job.pieces[0].edges.front.colour"),
        ("/job/pieces/0/cutouts/2", "job.pieces[0].cutouts[2].colour"),
        ("/job/bags/0/additives/1", "job.bags[0].additives[1].colour"),
        ("/job/pour", "job.pour.colour"),
    ] {
        let error = read(&sample_with(pointer, "colour", json!("ash"))).expect_err(path);
        assert_eq!(error, FileError::Unknown { paths: vec![path.to_owned()] });
        assert!(error.to_string().ends_with(&format!("Not known here: {path}.")), "{error}");
    }
}

#[test]
fn many_unknown_fields_make_a_short_message() {
    let mut file = value(SAMPLE_1);
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
        ("/job/pieces/0/edges/left", "kind", "job.pieces[0].edges.left"),
        ("/job/bags/1", "strengths", "job.bags[1]"),
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
    assert_eq!(read(&format!("\u{feff}\n {SAMPLE_1}\n\n")), Ok(sample_job()));
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
