//! The file that travels: a page that anybody can read, with the job inside it as data.
//!
//! Phones open such a file in a preview that runs no script, so everything on it is text that stands
//! there already. Mail and messengers pass it on because it is a plain `.html`. The job is JSON in a
//! `script` element of a type that no browser runs, with every character that could end the element
//! written as a JSON escape; every other text is escaped for HTML. The page forbids itself, by its
//! own content security policy, to load or run anything.
//!
//! A file that comes in is never given to the browser as HTML. The JSON is looked for in its text.

use super::arriving::readable_now;
use super::record::{MEMBERS, Raw, check_sum};
use crate::finding::Severity;
use crate::job::file::{self, FileError, Form, Kept, parse, read_value, write_kept};
use crate::job::{Bag, Job};
use crate::markup::escape;
use crate::price::PriceBook;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::fmt::Write;

/// Bytes of a shared text that are read at most, 32 MiB: a browser's whole storage of five million
/// characters, each of them escaped to its longest, still comes back from a backup.
pub const MOST_SHARED_BYTES: usize = 32 << 20;

/// Letters of a job's name that go into the name of its file.
const LONGEST_SLUG: usize = 60;

/// The element that holds one job.
const JOB_ELEMENT: &str = "pourwright-job";

/// The element that holds a backup.
const BACKUP_ELEMENT: &str = "pourwright-backup";

const STYLE: &str =
    concat!(include_str!("../../style/tokens.css"), include_str!("../../style/drawing.css"), include_str!("share.css"));

/// A label and what it labels.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SheetRow {
    /// What it is: "Bags".
    pub label: String,
    /// How much: "3 bags".
    pub value: String,
}

/// Rows under a heading.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SheetSection {
    /// What the rows are about.
    pub heading: String,
    /// The rows.
    pub rows: Vec<SheetRow>,
}

/// A finding in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetFinding {
    /// How much it weighs.
    pub severity: Severity,
    /// What is found.
    pub says: String,
    /// What to do about it.
    pub remedy: String,
}

/// A drawing with words under it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SheetDrawing {
    /// What it shows.
    pub caption: String,
    /// An `<svg>` element, made by this program: texts in it are escaped already. It needs no
    /// namespace. One that could run or load something is left out.
    pub svg: String,
}

/// The texts of an estimate, as they stand on the shared page. They are plain texts: whatever is in
/// them is shown as it is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sheet {
    /// The job's name.
    pub title: String,
    /// For whom.
    pub client: String,
    /// When it was made, in words.
    pub date: String,
    /// The numbers asked for first.
    pub headline: Vec<SheetRow>,
    /// A drawing of each piece.
    pub drawings: Vec<SheetDrawing>,
    /// Everything else that is counted and measured.
    pub sections: Vec<SheetSection>,
    /// What to look out for.
    pub findings: Vec<SheetFinding>,
    /// The maker's notes, with their line ends.
    pub notes: String,
    /// Last words.
    pub footer: String,
}

/// Everything that one browser keeps.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Backup {
    /// Every job that could be read.
    pub jobs: Vec<Job>,
    /// The shelf of bags, if it was ever saved.
    pub bags: Option<Vec<Bag>>,
    /// The prices, if they were ever saved.
    pub prices: Option<PriceBook>,
    /// What could not be read, to the letter.
    pub unreadable: Vec<Raw>,
}

/// What came out of a shared text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shared {
    /// One job.
    Job(Box<Job>),
    /// Everything that one browser kept.
    Backup(Box<Backup>),
}

/// The whole page of one job, as the text of an `.html` file.
pub fn share_page(job: &Job, sheet: &Sheet) -> String {
    let mut body = String::new();
    write_sheet(&mut body, sheet);
    let how = "To work on this job in Pourwright: save this page as a file, open Pourwright, choose Import, and pick \
               this file. The job is inside it, exactly as it was typed.";
    write_page(&sheet.title, &body, &sheet.footer, how, JOB_ELEMENT, &file::write(job))
}

/// The whole page of a backup, as the text of an `.html` file. `date` is when it was made, in words.
pub fn backup_page(backup: &Backup, date: &str) -> String {
    let mut body = String::new();
    let mut rows = Vec::new();
    for job in &backup.jobs {
        let row =
            |entry: &crate::job::Entry, blank: &str| if entry.is_blank() { blank } else { entry.text() }.to_owned();
        rows.push(SheetRow { label: row(&job.name, "Without a name"), value: row(&job.client, "") });
    }
    let kept = [
        ("Jobs", Some(backup.jobs.len())),
        ("Bags on the shelf", backup.bags.as_ref().map(Vec::len)),
        ("Prices", backup.prices.as_ref().map(|book| book.bags.len())),
        ("Records that could not be read", Some(backup.unreadable.len()).filter(|count| *count > 0)),
    ];
    let counted = kept.iter().filter_map(|(label, count)| {
        count.map(|count| SheetRow { label: (*label).to_owned(), value: count.to_string() })
    });
    let title = "Pourwright backup";
    let sheet = Sheet {
        title: title.to_owned(),
        date: date.to_owned(),
        headline: counted.collect(),
        sections: vec![SheetSection { heading: "Jobs in it".to_owned(), rows }],
        ..Sheet::default()
    };
    write_sheet(&mut body, &sheet);
    let how = "To bring everything back: open Pourwright, choose Import, and pick this file. Nothing that is there \
               already is replaced.";
    write_page(title, &body, "", how, BACKUP_ELEMENT, &write_kept(&pack(backup), ""))
}

/// What came out of a shared text, the jobs of a backup still unread: each takes a moment, and there may be thousands.
pub enum Opened {
    /// One job.
    Job(Box<Job>),
    /// Everything that one browser kept.
    Backup(Box<Unpacked>),
}

/// A backup taken apart.
#[derive(Default)]
pub struct Unpacked {
    pub(super) parts: Vec<Part>,
    pub(super) bags: Option<Vec<Bag>>,
    pub(super) prices: Option<PriceBook>,
}

/// A job of a backup, or what could not be read where it was made.
pub(super) enum Part {
    Packed(Value),
    Job(Box<Job>),
    Unreadable(Raw),
}

impl Part {
    /// The job; or what cannot be read, to the letter.
    pub(super) fn read(self) -> Result<Box<Job>, Raw> {
        match self {
            Self::Job(job) => Ok(job),
            Self::Packed(value) => unpack_one(value, Job::FORM.format).map(Box::new),
            Self::Unreadable(raw) => readable_now(&raw).map(Box::new).ok_or(raw),
        }
    }
}

/// What is in a shared text: one of our pages, or the JSON inside it by itself.
///
/// # Errors
/// [`FileError`]; in a backup only if none of it can be read: a job in it that cannot is among its
/// unreadable records.
pub fn read_shared(text: &str) -> Result<Shared, FileError> {
    Ok(match open_shared(text)? {
        Opened::Job(job) => Shared::Job(job),
        Opened::Backup(unpacked) => {
            let Unpacked { parts, bags, prices } = *unpacked;
            let mut backup = Backup { bags, prices, ..Backup::default() };
            for part in parts {
                match part.read() {
                    Ok(job) => backup.jobs.push(*job),
                    Err(raw) => backup.unreadable.push(raw),
                }
            }
            Shared::Backup(Box::new(backup))
        }
    })
}

/// As [`read_shared`], with the jobs of a backup left to be read one by one.
///
/// # Errors
/// Those of [`read_shared`].
pub fn open_shared(text: &str) -> Result<Opened, FileError> {
    if text.len() > MOST_SHARED_BYTES {
        return Err(FileError::TooLarge { bytes: text.len(), most: MOST_SHARED_BYTES });
    }
    let value = match parse(text) {
        Err(FileError::NotOurs) => parse(find_block(text)?.ok_or(FileError::NotOurs)?)?,
        parsed => parsed?,
    };
    if value.get("format").and_then(Value::as_str) == Some(Packed::FORM.format) {
        let (packed, _) = read_value::<Packed>(value, &[])?;
        return Ok(Opened::Backup(Box::new(unpack(packed))));
    }
    // A record saved from the browser's storage is a job's file with a stamp on it.
    let (job, _) = read_value::<Job>(value, MEMBERS)?;
    check_sum(text.trim())?;
    // Escapes make a shared text longer than the job; what counts is whether it could be saved.
    let bytes = file::write(&job).len();
    if bytes > file::MOST_BYTES {
        return Err(FileError::TooLarge { bytes, most: file::MOST_BYTES });
    }
    Ok(Opened::Job(Box::new(job)))
}

/// A name for the file of that job: small letters, digits and hyphens of ASCII, ending in `.html`.
pub fn file_name(job: &Job) -> String {
    let slug = [&job.name, &job.client].map(|entry| slug(entry.text())).into_iter().find(|slug| !slug.is_empty());
    format!("pourwright-{}.html", slug.as_deref().unwrap_or("job"))
}

/// A name for the file of a backup made on that date.
pub fn backup_file_name(date: &str) -> String {
    let slug = slug(date);
    if slug.is_empty() { "pourwright-backup.html".to_owned() } else { format!("pourwright-backup-{slug}.html") }
}

fn slug(text: &str) -> String {
    let mut slug = String::new();
    for letter in text.chars() {
        if slug.len() >= LONGEST_SLUG {
            break;
        }
        if letter.is_ascii_alphanumeric() {
            slug.push(letter.to_ascii_lowercase());
        } else if !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    slug.trim_end_matches('-').to_owned()
}

/// A backup in its file form. Each part is a file of its own kind and version, so that one that
/// cannot be read takes no other with it.
#[derive(Serialize, Deserialize)]
struct Packed {
    jobs: Vec<Value>,
    bags: Value,
    prices: Value,
    unreadable: Vec<Raw>,
}

impl Kept for Packed {
    const FORM: Form = Form {
        format: "pourwright backup",
        content: "backup",
        version: 1,
        most_bytes: MOST_SHARED_BYTES,
        upgrade: |_, content| content,
    };
}

fn pack(backup: &Backup) -> Packed {
    // The text of a file is JSON always; were it not, it would be kept as a text.
    let value = |text: String| serde_json::from_str(&text).unwrap_or(Value::String(text));
    Packed {
        jobs: backup.jobs.iter().map(|job| value(file::write(job))).collect(),
        bags: backup.bags.as_ref().map_or(Value::Null, |bags| value(write_kept(bags, ""))),
        prices: backup.prices.as_ref().map_or(Value::Null, |prices| value(write_kept(prices, ""))),
        unreadable: backup.unreadable.clone(),
    }
}

fn unpack(packed: Packed) -> Unpacked {
    // A job that is nothing at all is none.
    let jobs = packed.jobs.into_iter().filter(|value| !value.is_null());
    let mut parts: Vec<Part> = jobs.map(Part::Packed).collect();
    let bags = unpack_shelf(packed.bags, <Vec<Bag>>::FORM.format, &mut parts);
    let prices = unpack_shelf(packed.prices, PriceBook::FORM.format, &mut parts);
    parts.extend(packed.unreadable.into_iter().map(Part::Unreadable));
    Unpacked { parts, bags, prices }
}

/// The shelf, if there is one that can be read; one that cannot is a part to be kept as it is.
fn unpack_shelf<T: Kept>(value: Value, key: &str, parts: &mut Vec<Part>) -> Option<T> {
    if value.is_null() {
        return None;
    }
    unpack_one(value, key).map_err(|raw| parts.push(Part::Unreadable(raw))).ok()
}

fn unpack_one<T: Kept>(value: Value, key: &str) -> Result<T, Raw> {
    let text = value.to_string();
    read_value(value, &[]).map(|(thing, _)| thing).map_err(|_| Raw { key: key.to_owned(), text })
}

/// The text inside our element, if the text has one.
fn find_block(text: &str) -> Result<Option<&str>, FileError> {
    // ASCII letters keep their places when they are made small, so places in one text hold in both.
    let small = text.to_ascii_lowercase();
    let mut at = 0;
    while let Some(found) = small[at..].find("<script") {
        let tag = at + found;
        let Some(length) = small[tag..].find('>') else { return Err(FileError::CutShort) };
        at = tag + length + 1;
        // Where an element ends is looked for in ours alone: others may be many.
        if [JOB_ELEMENT, BACKUP_ELEMENT].iter().any(|name| small[tag..at].contains(name)) {
            let length = small[at..].find("</script").ok_or(FileError::CutShort)?;
            return Ok(Some(&text[at..at + length]));
        }
    }
    Ok(None)
}

fn write_page(title: &str, body: &str, footer: &str, how: &str, element: &str, json: &str) -> String {
    let title = if title.trim().is_empty() { "Pourwright".to_owned() } else { escape(title) };
    let footer = if footer.is_empty() { String::new() } else { format!("<p>{}</p>\n", escape(footer)) };
    let json = escape_json(json);
    format!(
        r#"<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>
{STYLE}</style>
</head>
<body>
<main>
{body}<footer>
{footer}<p>{how}</p>
</footer>
</main>
<script type="application/json" id="{element}">{json}</script>
</body>
</html>
"#
    )
}

fn write_sheet(page: &mut String, sheet: &Sheet) {
    let title = if sheet.title.trim().is_empty() { "Without a name" } else { &sheet.title };
    element(page, "h1", "", title);
    element(page, "p", "", &sheet.client);
    element(page, "p", "quiet", &sheet.date);
    rows(page, "headline", &sheet.headline);
    for drawing in &sheet.drawings {
        if let Some(svg) = harmless(&drawing.svg) {
            page.push_str("<figure>\n");
            page.push_str(&svg);
            page.push('\n');
            element(page, "figcaption", "", &drawing.caption);
            page.push_str("</figure>\n");
        }
    }
    if !sheet.findings.is_empty() {
        element(page, "h2", "", "Look out for");
        page.push_str("<ul>\n");
        for SheetFinding { severity, says, remedy } in &sheet.findings {
            let (class, word) = match severity {
                Severity::Stop => ("stop", "Stop"),
                Severity::Watch => ("watch", "Watch"),
                Severity::Note => ("note", "Note"),
            };
            let (says, remedy) = (escape(says), escape(remedy));
            put(page, format_args!("<li class=\"{class}\"><strong>{word}.</strong> {says} {remedy}</li>\n"));
        }
        page.push_str("</ul>\n");
    }
    for section in sheet.sections.iter().filter(|section| !section.rows.is_empty()) {
        element(page, "h2", "", &section.heading);
        rows(page, "rows", &section.rows);
    }
    if !sheet.notes.trim().is_empty() {
        element(page, "h2", "", "Notes");
        element(page, "p", "notes", &sheet.notes);
    }
}

fn rows(page: &mut String, class: &str, rows: &[SheetRow]) {
    if rows.is_empty() {
        return;
    }
    put(page, format_args!("<dl class=\"{class}\">\n"));
    for SheetRow { label, value } in rows {
        put(page, format_args!("<div><dt>{}</dt><dd>{}</dd></div>\n", escape(label), escape(value)));
    }
    page.push_str("</dl>\n");
}

/// An element around a text; nothing at all if the text is blank.
fn element(page: &mut String, name: &str, class: &str, text: &str) {
    if text.trim().is_empty() {
        return;
    }
    let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
    // Names come from anywhere: whatever direction their letters run in ends with them.
    put(page, format_args!("<{name}{class} dir=\"auto\">{}</{name}>\n", escape(text)));
}

fn put(page: &mut String, text: std::fmt::Arguments<'_>) {
    // Writing to a string does not fail.
    let _ = page.write_fmt(text);
}

/// The drawing, if there is nothing in it that could run or load. It is made by this program, so
/// this never refuses one; it is the second lock on the door.
fn harmless(svg: &str) -> Option<String> {
    let svg = svg.trim().replace(" xmlns=\"http://www.w3.org/2000/svg\"", "");
    let small = svg.to_ascii_lowercase();
    let closed = small.starts_with("<svg") && small.ends_with("</svg>") && small.matches("</svg").count() == 1;
    let strangers =
        ["<script", "<style", "<foreignobject", "<image", "<a ", "<!", "href", "://", "javascript:", "url("];
    // A name that begins with "on" before an equals sign, with or without space between the two.
    let handler = small.split('=').any(|before| {
        let name = before.trim_end().rsplit(|letter: char| !letter.is_ascii_alphabetic()).next().unwrap_or_default();
        name.len() > 2 && name.starts_with("on")
    });
    (closed && !handler && !strangers.iter().any(|stranger| small.contains(stranger))).then_some(svg)
}

/// JSON as it is written in a `script` element. These letters stand only inside its texts, where an
/// escape means the same letter.
fn escape_json(json: &str) -> String {
    let mut escaped = String::with_capacity(json.len());
    for letter in json.chars() {
        match letter {
            '<' | '>' | '&' | '\u{2028}' | '\u{2029}' => {
                put(&mut escaped, format_args!("\\u{:04x}", u32::from(letter)))
            }
            letter => escaped.push(letter),
        }
    }
    escaped
}
