//! What was written by an older program, brought up to this one's version of the file, a step for each version.
//!
//! A step is written once and stays as it is: what it adds stands in `upgrade/to-*.json` to the letter, and its names
//! and units are those of the file as it was then. So no later default, name or reader changes what an old file means.
//! What does not look as its version should is left as it is, for reading to name.

use crate::measure::{Units, read_duration, read_ratio, read_volume};
use serde_json::{Map, Value};

/// Brings what is kept to the version after its own.
pub(crate) type Step = fn(&mut Value);

/// The steps of a job; the first one brings version 1 to version 2.
const OF_JOBS: [Step; super::file::VERSION as usize - 1] = [to_2, to_3, to_4, to_5];

/// The steps of a shelf of bags, likewise.
const OF_BAGS: [Step; 3] = [
    |bags| add_to_bags(bags, &parts(TO_3)["any"]),
    |bags| add_to_bags(bags, &parts(TO_4)["any"]),
    |bags| {
        add_to_bags(bags, &parts(TO_5)["any"]);
        say_units_of_bags(bags, None);
    },
];

const TO_2: &str = include_str!("upgrade/to-2.json");
const TO_3: &str = include_str!("upgrade/to-3.json");
const TO_4: &str = include_str!("upgrade/to-4.json");
const TO_5: &str = include_str!("upgrade/to-5.json");

/// Brings a job of that version up to this program's.
pub(super) fn upgrade(version: u32, content: Value) -> Value {
    upgrade_job(&OF_JOBS, version, content)
}

/// Brings a shelf of bags of that version up to this program's.
pub(super) fn upgrade_bags(version: u32, bags: Value) -> Value {
    walk(&OF_BAGS, version, bags)
}

fn upgrade_job(steps: &[Step], version: u32, job: Value) -> Value {
    let mut job = walk(steps, version, job);
    // A quote that was sent keeps its own copy of the job, which is as old as the file.
    if let Some(sent) = job.pointer_mut("/quote/frozen/job") {
        *sent = upgrade_job(steps, version, sent.take());
    }
    job
}

/// Takes something of that version through all the steps that are left.
pub(crate) fn walk(steps: &[Step], version: u32, mut content: Value) -> Value {
    let done = usize::try_from(version.saturating_sub(1)).unwrap_or(usize::MAX);
    for step in steps.iter().skip(done) {
        step(&mut content);
    }
    content
}

/// What is written in one of the texts of this program that say what a step adds.
pub(crate) fn parts(text: &str) -> Value {
    #[expect(clippy::expect_used, reason = "a text of the program, which is the same in every run and tried in a test")]
    serde_json::from_str(text).expect("what a step adds is JSON")
}

/// Gives a thing those members that it has not yet.
pub(crate) fn add_missing(thing: Option<&mut Value>, added: &Value) {
    let (Some(Value::Object(members)), Some(added)) = (thing, added.as_object()) else { return };
    for (name, value) in added {
        members.entry(name).or_insert_with(|| value.clone());
    }
}

/// The members of a list; none if it is not one.
pub(crate) fn members(list: Option<&mut Value>) -> impl Iterator<Item = &mut Value> {
    list.and_then(Value::as_array_mut).into_iter().flatten()
}

/// Adds what a text says is new, for every job and for one of its units.
fn add(job: &mut Value, text: &str) {
    let added = parts(text);
    let units = if is_metric(job) { "metric" } else { "inch" };
    for added in [&added["any"], &added[units]] {
        add_missing(Some(&mut *job), &added["job"]);
        for thing in ["form", "pour"] {
            add_missing(job.get_mut(thing), &added[thing]);
        }
        for piece in members(job.get_mut("pieces")) {
            add_missing(Some(&mut *piece), &added["piece"]);
            add_missing(piece.get_mut("handling"), &added["handling"]);
            for (list, thing) in [("cutouts", "cutout"), ("holes", "holes")] {
                for opening in members(piece.get_mut(list)) {
                    add_missing(Some(opening), &added[thing]);
                }
            }
        }
        if let Some(bags) = job.get_mut("bags") {
            add_to_bags(bags, added);
        }
    }
}

fn add_to_bags(bags: &mut Value, added: &Value) {
    for bag in members(Some(bags)) {
        add_missing(Some(&mut *bag), &added["bag"]);
        for additive in members(bag.get_mut("additives")) {
            add_missing(Some(additive), &added["additive"]);
        }
    }
}

fn is_metric(job: &Value) -> bool {
    job.get("units").and_then(Value::as_str) == Some("metric")
}

/// A piece may have any outline, so that its edges are numbered and not named, and its shape has more to say; version 1
/// knew rectangles.
fn to_2(job: &mut Value) {
    add(job, TO_2);
    for piece in members(job.get_mut("pieces")) {
        let Some(named) = piece.get_mut("edges") else { continue };
        let sides = ["front", "right", "back", "left"].map(|side| named.get(side).cloned());
        let all: Option<Vec<Value>> = sides.into_iter().collect();
        if let (Some(all), 4) = (all, named.as_object().map_or(0, Map::len)) {
            *named = Value::Array(all);
        }
    }
}

/// What the form is built from, the steel in it, and what a piece lives through; weather, warmth, steel and mixers of
/// pour day, the log of a pour, and what additives do; finish and quote. A piece keeps its steel as weighed.
fn to_3(job: &mut Value) {
    add(job, TO_3);
}

/// A mix may be made from scratch, and more is told of what an additive does.
fn to_4(job: &mut Value) {
    add(job, TO_4);
}

/// What bears a top in use and on its way, what hangs in its cutouts, how its base lies, and more of what a label says.
/// Bare numbers of some fields were read in another unit before.
fn to_5(job: &mut Value) {
    add(job, TO_5);
    let metric = is_metric(job);
    if let Some(bags) = job.get_mut("bags") {
        say_units_of_bags(bags, Some(metric));
    }
    // Cubic feet became fluid ounces, and litres millilitres.
    say_volume(job.pointer_mut("/form/cartridge"), metric, if metric { "L" } else { "ft³" });
    if !metric {
        // Cubic feet became gallons; litres stayed litres.
        say_volume(job.pointer_mut("/finish/grinding_water"), metric, "ft³");
        say_volume(job.pointer_mut("/finish/covers_with"), metric, "ft³");
    }
    for piece in members(job.get_mut("pieces")) {
        for age in ["/handling/stripped_at", "/handling/carried_at"] {
            say_minutes(piece.pointer_mut(age), metric);
        }
    }
}

/// A bare number of water was cubic feet or litres and is quarts or litres; a bare age was minutes and is hours. A
/// shelf has no units of its own: there, less than 1 can only have been cubic feet, as no bag takes so few litres.
fn say_units_of_bags(bags: &mut Value, metric: Option<bool>) {
    for bag in members(Some(bags)) {
        for water in ["water", "water_least", "water_most"] {
            let Some(Value::String(text)) = bag.get_mut(water) else { continue };
            let Ok(bare) = read_ratio(text) else { continue };
            match metric {
                Some(false) => say(text, "ft³"),
                Some(true) => {}
                None => say(text, if bare < 1.0 { "ft³" } else { "L" }),
            }
        }
        say_minutes(bag.get_mut("strip_after"), false);
        for point in members(bag.get_mut("strengths")) {
            say_minutes(point.get_mut("age"), false);
        }
    }
}

/// Writes the unit behind a bare volume.
fn say_volume(entry: Option<&mut Value>, metric: bool, unit: &str) {
    if let Some(Value::String(text)) = entry
        && is_bare(text)
        && read_volume(text, units(metric)).is_ok_and(|volume| volume.value > 0.0)
    {
        say(text, unit);
    }
}

/// Writes minutes behind a bare span of time.
fn say_minutes(entry: Option<&mut Value>, metric: bool) {
    if let Some(Value::String(text)) = entry
        && is_bare(text)
        && read_duration(text, units(metric)).is_ok_and(|time| time.value > 0.0)
    {
        say(text, "min");
    }
}

/// No unit stands in it, and no colon between hours and minutes.
fn is_bare(text: &str) -> bool {
    !text.chars().any(|letter| letter.is_alphabetic() || letter == ':')
}

fn say(text: &mut String, unit: &str) {
    *text = format!("{} {unit}", text.trim());
}

fn units(metric: bool) -> Units {
    if metric { Units::Metric } else { Units::Inch }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::job::file::{Form, Kept};
    use crate::job::{Bag, Job};

    pub(crate) fn sample(name: &str) -> String {
        std::fs::read_to_string(format!("tests/samples/{name}.json")).expect("a sample")
    }

    /// JSON with the members of every object in the order of their names: the order says nothing, and that of
    /// `serde_json` depends on what else is built.
    pub(crate) fn written(value: &Value) -> String {
        fn sorted(value: &Value) -> Value {
            match value {
                Value::Array(members) => members.iter().map(sorted).collect(),
                Value::Object(members) => {
                    let mut members: Vec<_> =
                        members.iter().map(|(name, value)| (name.clone(), sorted(value))).collect();
                    members.sort_by(|one, other| one.0.cmp(&other.0));
                    Value::Object(members.into_iter().collect())
                }
                other => other.clone(),
            }
        }
        serde_json::to_string_pretty(&sorted(value)).expect("JSON has a text") + "\n"
    }

    /// Where two texts differ first, and what stands there in both; nothing if they are the same to the byte.
    pub(crate) fn first_difference(one: &str, other: &str) -> Option<String> {
        let at = one.bytes().zip(other.bytes()).take_while(|(one, other)| one == other).count();
        let line = |text: &str| text.get(at.saturating_sub(80)..(at + 80).min(text.len())).unwrap_or("").to_owned();
        (one != other).then(|| format!("byte {at}: {}\nand {}", line(one), line(other)))
    }

    /// What the content of a sample becomes, written as it is stored beside it.
    fn upgraded(form: &Form, name: &str, walk: impl FnOnce(u32, Value) -> Value) -> (u32, String) {
        let mut file: Value = serde_json::from_str(&sample(name)).expect("a sample is JSON");
        let version = file["version"].as_u64().and_then(|version| u32::try_from(version).ok()).expect("a version");
        let content = walk(version, file[form.content].take());
        (version, written(&content))
    }

    #[test]
    fn every_sample_of_a_job_becomes_what_it_became_then_to_the_byte() {
        for name in ["job-v1", "job-v2", "job-v3", "job-v4", "job-v5", "bare-v1", "bare-v3", "bare-v4"] {
            let (version, now) = upgraded(&Job::FORM, name, |version, job| upgrade_job(&OF_JOBS[..4], version, job));
            assert!(name.ends_with(&format!("v{version}")), "{name} is of version {version}");
            assert_eq!(first_difference(&now, &sample(&format!("{name}.as-v5"))), None, "{name}");
        }
    }

    #[test]
    fn every_sample_of_a_shelf_becomes_what_it_became_then_to_the_byte() {
        for name in ["bags-v1", "bags-v2", "bags-v3", "bags-v4"] {
            let (version, now) = upgraded(&<Vec<Bag>>::FORM, name, |version, bags| walk(&OF_BAGS[..3], version, bags));
            assert!(name.ends_with(&format!("v{version}")), "{name} is of version {version}");
            assert_eq!(first_difference(&now, &sample(&format!("{name}.as-v4"))), None, "{name}");
        }
    }

    /// A version without a step, or a step without its version, would be skipped in silence.
    #[test]
    fn there_is_a_step_to_every_version() {
        assert_eq!(OF_JOBS.len() + 1, Job::FORM.version as usize);
        assert_eq!(OF_BAGS.len() + 1, <Vec<Bag>>::FORM.version as usize);
        for added in [TO_2, TO_3, TO_4, TO_5].map(parts) {
            let names: Vec<_> = added.as_object().expect("parts").keys().collect();
            assert_eq!(names, ["any", "inch", "metric"]);
        }
    }
}
