//! What must hold for every sequence of bytes that is read: by the fuzzer's targets, and on the fixed corpus in
//! `tests/store/corpus.rs`.
#![allow(dead_code, reason = "each target uses one of them")]

use pourwright::estimate::estimate;
use pourwright::job::file::{self, FileError, Kept, read_kept, write_kept};
use pourwright::job::{Bag, Job};
use pourwright::measure::*;
use pourwright::mix::demo;
use pourwright::price::PriceBook;
use pourwright::store::{
    Backend, LinkError, LoadError, MOST_LINK_CHARACTERS, Memory, Records, SaveError, Shared, Sheet, backup_page,
    find_link, read_link, read_shared, share_link, share_page,
};
use serde_json::{Value, json};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// Some moment, in milliseconds since 1970.
const NOW: u64 = 1_800_000_000_000;

/// What any bytes of up to 16 KiB may take, natively and without optimising; more may take as much more.
const MOST_TIME: Duration = Duration::from_secs(10);

/// Keeps a law, and fails on time as on a panic.
fn in_time(bytes: &[u8], law: impl FnOnce()) {
    let begun = Instant::now();
    law();
    let share = (bytes.len() as f64 / 16384.0).max(1.0);
    assert!(begun.elapsed() <= MOST_TIME.mul_f64(share), "{} bytes took {:?}", bytes.len(), begun.elapsed());
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// A tape, a scale, a clock: what is read is a number in its range; what is not says where it stopped.
pub fn tape(bytes: &[u8]) {
    in_time(bytes, || try_tape(bytes));
}

fn try_tape(bytes: &[u8]) {
    let text = text(bytes);
    for units in [Units::Inch, Units::Metric] {
        length(&text, units);
        positive("area", &text, read_area(&text, units).map(|read| read.value));
        positive("volume", &text, read_volume(&text, units).map(|read| read.value));
        positive("mass", &text, read_mass(&text, units).map(|read| read.value));
        positive("duration", &text, read_duration(&text, units).map(|read| read.value));
        positive("hours", &text, read_hours(&text, units).map(|read| read.value));
        positive("pressure", &text, read_pressure(&text, units).map(|read| read.value));
        positive("density", &text, read_density(&text, units).map(|read| read.value));
        positive("temperature", &text, read_temperature(&text, units).map(|read| read.value));
        positive("speed", &text, read_speed(&text, units).map(|read| read.value));
        positive("surface speed", &text, read_surface_speed(&text, units).map(|read| read.value));
        said(&text, read_dose(&text, units));
    }
    positive("angle", &text, read_angle(&text).map(|read| read.value));
    positive("clock", &text, read_clock(&text).map(|read| read.value));
    positive("share", &text, read_percent(&text));
    said(&text, read_count(&text));
    said(&text, read_money(&text));
    said(&text, read_date(&text));
    for sixteenths in 0..=16 {
        with_fraction(&text, sixteenths);
    }
}

fn length(text: &str, units: Units) {
    let Some(read) = said(text, read_length(text, units)) else { return };
    assert!(read.value.is_finite() && read.value >= 0.0, "{text:?} is {read:?}");
    // Written to 1/16 in or 1 mm, and never further from what was read than half of that.
    let again = read_length(write_length(read, units).bare(), units);
    let again = again.unwrap_or_else(|why| panic!("{text:?} is written in a way that is not read: {why:?}"));
    assert!((again.value - read.value).abs() <= 0.0254 / 32.0 + 1e-9, "{text:?}: {read:?} comes back as {again:?}");
}

fn positive<E: Complaint>(what: &str, text: &str, read: Result<f64, E>) {
    if let Some(read) = said(text, read) {
        assert!(read.is_finite() && read >= 0.0, "{what}: {text:?} is {read}");
    }
}

/// The reading; a refusal points into the text and has words.
fn said<T, E: Complaint>(text: &str, read: Result<T, E>) -> Option<T> {
    read.map_err(|why| why.check(text)).ok()
}

trait Complaint {
    fn check(self, text: &str);
}

impl Complaint for ReadError {
    fn check(self, text: &str) {
        assert!(self.at <= text.chars().count(), "{text:?} is refused behind its end: {self:?}");
        assert!(!self.to_string().is_empty() && self.to_string().len() < 2000, "{self}");
    }
}

/// The file of a job: refused in words, or read without loss, and then worked out without a panic. Bytes that
/// begin no JSON are changes to the file of the worked job.
pub fn job(bytes: &[u8]) {
    in_time(bytes, || try_job(bytes));
}

fn try_job(bytes: &[u8]) {
    let text = if bytes.first().is_none_or(|first| b"{ \n\xef".contains(first)) { text(bytes) } else { changed(bytes) };
    if let Some(job) = kept::<Job>(&text) {
        let _ = estimate(&job, &PriceBook::default());
    }
}

/// The file of the price book, and of the shelf of bags.
pub fn prices(bytes: &[u8]) {
    in_time(bytes, || try_prices(bytes));
}

fn try_prices(bytes: &[u8]) {
    let text = text(bytes);
    if let Some(prices) = kept::<PriceBook>(&text) {
        let _ = estimate(&demo("fuzzed"), &prices);
    }
    kept::<Vec<Bag>>(&text);
}

/// What was read from a file; written again it is read as the same.
fn kept<T: Kept + PartialEq + std::fmt::Debug>(text: &str) -> Option<T> {
    let (thing, _) = match read_kept::<T>(text, &[]) {
        Ok(read) => read,
        Err(why) => {
            refused(&why);
            return None;
        }
    };
    assert!(text.len() <= T::FORM.most_bytes, "more is read than may be");
    let (again, _) = read_kept::<T>(&write_kept(&thing, ""), &[]).expect("what is written is read");
    assert!(again == thing, "what is written is read as another thing");
    Some(thing)
}

fn refused(why: &FileError) {
    let words = why.to_string();
    assert!(!words.is_empty() && words.chars().count() < 4000, "{words}");
}

/// Four bytes are one change to the worked job: which value of the file, and what is put in its place.
fn changed(bytes: &[u8]) -> String {
    let mut value: Value = serde_json::from_str(&file::write(&demo("fuzzed"))).expect("a file is JSON");
    for change in bytes.chunks_exact(4).take(64) {
        let mut paths = Vec::new();
        paths_of(&value, String::new(), &mut paths);
        let at = usize::from(u16::from_be_bytes([change[0], change[1]])) % paths.len();
        let Some(place) = value.pointer_mut(&paths[at]) else { continue };
        change_one(place, change[2], change[3]);
    }
    value.to_string()
}

fn paths_of(value: &Value, path: String, paths: &mut Vec<String>) {
    match value {
        Value::Object(members) => {
            for (name, member) in members {
                paths_of(member, format!("{path}/{}", name.replace('~', "~0").replace('/', "~1")), paths);
            }
        }
        Value::Array(members) => {
            for (index, member) in members.iter().enumerate() {
                paths_of(member, format!("{path}/{index}"), paths);
            }
        }
        _ => {}
    }
    paths.push(path);
}

/// Texts that a field may hold, from a tape or from somebody who means harm.
const TYPED: [&str; 16] = [
    "",
    "0",
    "67 1/4",
    "1e308",
    "1/0",
    "0.0001",
    "99999999",
    "-3",
    "3'",
    "NaN",
    "½",
    "12 mm",
    "100 %",
    "2026-11-25",
    "23:59",
    "\u{202e}<script>",
];

fn change_one(place: &mut Value, what: u8, how: u8) {
    match what % 8 {
        0..=3 => *place = json!(TYPED[usize::from(how) % TYPED.len()]),
        4 => *place = json!(how),
        5 => *place = [json!(null), json!([]), json!({}), json!(true), json!(1e300)][usize::from(how) % 5].clone(),
        6 => match place {
            Value::Array(members) if members.len() < 40 => members.extend(members.clone()),
            Value::Array(members) => members.clear(),
            _ => {}
        },
        _ => {
            if let Value::Array(members) = place
                && !members.is_empty()
            {
                members.remove(usize::from(how) % members.len());
            }
        }
    }
}

/// A shared text: refused in words, or taken in beside what is there; and then it goes out and comes in again.
pub fn shared(bytes: &[u8]) {
    in_time(bytes, || try_shared(bytes));
}

fn try_shared(bytes: &[u8]) {
    let text = text(bytes);
    let shared = match read_shared(&text) {
        Ok(shared) => shared,
        Err(why) => return refused(&why),
    };
    let (records, memory) = shelf();
    let before = texts(&memory);
    let mut count = 0;
    let mut new_id = || {
        count += 1;
        format!("new{count}")
    };
    match &shared {
        Shared::Job(job) => {
            let _ = records.import(job, &new_id(), NOW);
            assert_eq!(read_shared(&share_page(job, &Sheet::default())), Ok(shared.clone()), "it travels on");
        }
        Shared::Backup(backup) => {
            records.import_backup(backup, &mut new_id, NOW);
            assert_eq!(read_shared(&backup_page(backup, "")).map(|_| ()), Ok(()), "it travels on");
        }
    }
    for (key, text) in before {
        let there = memory.read(&key).expect("memory").expect("it is still there");
        assert!(there == text || !key.starts_with("pourwright/job/"), "{key} was overwritten");
    }
    records.list().expect("memory works");
}

/// A link, or the bytes inside one.
pub fn link(bytes: &[u8]) {
    in_time(bytes, || try_link(bytes));
}

fn try_link(bytes: &[u8]) {
    let typed = text(bytes);
    let _ = find_link(&typed);
    open_link(&typed);
    open_link(&format!("/link/1.{}", base64url(bytes)));
}

fn open_link(link: &str) {
    match read_link(link) {
        Ok(job) => {
            assert!(link.chars().count() <= MOST_LINK_CHARACTERS);
            assert!(file::write(&job).len() <= 2 * file::MOST_BYTES, "a bomb was opened");
            if let Ok(again) = share_link(&job, "https://tops.example/") {
                assert_eq!(read_link(find_link(&again).expect("a link")), Ok(job), "it travels on");
            }
        }
        Err(LinkError::File(why)) => refused(&why),
        Err(why) => assert!(!why.to_string().is_empty()),
    }
}

/// RFC 4648, section 5, without padding: written anew, so that a fault of the page's own is not hidden.
fn base64url(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    let mut written = String::new();
    let mut bits = 0_u32;
    let mut held = 0;
    for byte in bytes {
        bits = bits << 8 | u32::from(*byte);
        held += 8;
        while held >= 6 {
            held -= 6;
            written.push(char::from(LETTERS[(bits >> held) as usize & 63]));
        }
    }
    if held > 0 {
        written.push(char::from(LETTERS[(bits << (6 - held)) as usize & 63]));
    }
    written
}

/// A record in the browser's storage: whatever it holds, the shelf shows the others, and what cannot be read is
/// still to be had after every act.
pub fn record(bytes: &[u8]) {
    in_time(bytes, || try_record(bytes));
}

fn try_record(bytes: &[u8]) {
    let text = text(bytes);
    for key in ["pourwright/job/fuzzed", "pourwright/bags", "pourwright/prices", "pourwright/index"] {
        let (records, memory) = shelf();
        memory.write(key, &text).expect("memory");
        act_on(&records);
        let kept_somewhere = texts(&memory).into_iter().any(|(_, kept)| kept == text);
        let readable = match key {
            "pourwright/job/fuzzed" => !matches!(reread::<Job>(&text), Err(LoadError::Unreadable { .. })),
            "pourwright/index" => true,
            _ => {
                !matches!(reread::<PriceBook>(&text), Err(LoadError::Unreadable { .. }))
                    || !matches!(reread::<Vec<Bag>>(&text), Err(LoadError::Unreadable { .. }))
            }
        };
        assert!(kept_somewhere || readable, "{key} could not be read, and is gone");
        let listed = records.list().expect("memory works");
        let plain = listed.iter().any(|line| line.id == "plain" && line.problem.is_none());
        assert!(plain, "the other job is shown");
    }
}

fn reread<T: Kept>(text: &str) -> Result<(), LoadError> {
    let stamped = ["revision", "touched", "writer"];
    match read_kept::<T>(text, &stamped) {
        Ok((_, beside)) if beside.len() == stamped.len() => Ok(()),
        Ok(_) => Err(LoadError::Unreadable { why: FileError::NotOurs, raw: String::new() }),
        Err(why) => Err(LoadError::Unreadable { why, raw: String::new() }),
    }
}

/// What a maker may do with whatever stands there.
fn act_on(records: &Records) {
    for line in records.list().expect("memory works") {
        let _ = records.load(&line.id);
    }
    let _ = records.search("wash");
    let saved = records.save(&demo("fuzzed"), None, NOW);
    if let Err(SaveError::TooLarge(_)) = saved {
        panic!("the worked job is not large");
    }
    let _ = records.save_bags(&[], None, NOW);
    let _ = records.save_prices(&PriceBook::default(), None, NOW);
    if let Ok(gone) = records.delete("fuzzed", NOW) {
        records.undo_delete(&gone.key, "back").expect("it comes back");
    }
    let backup = records.backup().expect("memory works");
    read_shared(&backup_page(&backup, "")).expect("a backup is read");
}

/// A shelf with one job on it.
fn shelf() -> (Records, Arc<Memory>) {
    let memory = Arc::new(Memory::default());
    let records = Records::new(Arc::clone(&memory) as Arc<dyn Backend>, "fuzzer");
    records.save(&demo("plain"), None, NOW).expect("memory works");
    (records, memory)
}

fn texts(memory: &Memory) -> Vec<(String, String)> {
    let keys = memory.keys().expect("memory");
    keys.into_iter().filter_map(|key| memory.read(&key).expect("memory").map(|text| (key, text))).collect()
}
