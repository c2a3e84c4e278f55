//! The form a job takes on disk and in shared files.
//!
//! One JSON object that says what it is before it says anything else:
//!
//! ```json
//! {"format": "pourwright job", "version": 5, "written_by": "0.1.0", "job": {}}
//! ```
//!
//! The content is a [`Job`] field by field, every entry as it was typed. Reading is strict, since a
//! file that is half understood and written again has lost its other half: a newer version, a field
//! that is not known and a field that is missing are all refused by name.
//!
//! A change of the form is a new [`VERSION`] and one more step in `job::upgrade`; a sample of every
//! version that was ever shipped stays in `tests/samples`. Other things that are kept, such as the
//! shelf of bags, take the same form through [`Kept`].

use super::place::Together;
use super::trace;
use super::upgrade::{upgrade, upgrade_bags};
use super::{Bag, Job, Piece};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};
use std::fmt;

/// The version this program writes.
pub const VERSION: u32 = 5;

/// Bytes that the file of one job may have at most, 1 MiB: a hundred times a large job.
pub const MOST_BYTES: usize = 1 << 20;

/// Members that a list of a job may have at most: more than any kitchen has, and few enough to be worked out while one
/// types. Every opening of a piece is held against every other.
pub const MOST_MEMBERS: usize = 100;

/// Cutouts and sets of holes that all pieces may have together: a sink and a faucet for each of a hundred, and more.
pub const MOST_OPENINGS: usize = 300;

/// Corners that the templates of one piece may have together: every side of one is held against every side of another.
pub const MOST_TEMPLATE_CORNERS: usize = 200;

/// Corners, sides, edges, readings and stations that all pieces may have together.
pub const MOST_POINTS: usize = 4000;

/// Strengths and additives that all bags may have together.
pub const MOST_OF_BAGS: usize = 1000;

/// Lines that a list of words may have: what is ticked off, what was logged, what was sent.
pub const MOST_LINES: usize = 5000;

/// Names in a message at most; the rest is counted.
const MOST_NAMES: usize = 6;

/// Characters of one foreign name or reason in a message at most.
const MOST_CHARACTERS: usize = 120;

/// The text of the file of `job`.
pub fn write(job: &Job) -> String {
    write_kept(job, "")
}

/// The job in the text of a file.
///
/// # Errors
/// Everything in [`FileError`]; the text is left as it is.
pub fn read(text: &str) -> Result<Job, FileError> {
    read_kept(text, &[]).map(|(job, _)| job)
}

/// How one kind of thing is written to a file.
#[derive(Debug)]
pub struct Form {
    /// What the file says it is.
    pub format: &'static str,
    /// Name of the field that holds the content.
    pub content: &'static str,
    /// The version this program writes, and the highest it reads.
    pub version: u32,
    /// Bytes that the text may have at most.
    pub most_bytes: usize,
    /// Brings content of an older version, given its version, up to `version`.
    pub upgrade: fn(u32, Value) -> Value,
}

/// A thing that is kept in files and records.
pub trait Kept: Serialize + DeserializeOwned {
    /// How it is written.
    const FORM: Form;

    /// Which list of it is longer than what is read, if one is; always [`FileError::TooMany`].
    fn too_many(&self) -> Option<FileError> {
        None
    }
}

impl Kept for Job {
    const FORM: Form =
        Form { format: "pourwright job", content: "job", version: VERSION, most_bytes: MOST_BYTES, upgrade };

    fn too_many(&self) -> Option<FileError> {
        self.too_many_listed()
            .or_else(|| self.pieces.iter().find_map(too_many_template_corners))
            .or_else(|| self.too_many_lines())
            .or_else(|| self.quote.frozen.as_ref().and_then(|sent| sent.job.too_many()))
    }
}

impl Job {
    /// Every list of things with fields, by itself and with those that it is limited with: a hundred lists of a hundred
    /// are more than is worked out at a key.
    fn too_many_listed(&self) -> Option<FileError> {
        let mut over = None;
        let (mut openings, mut points, mut of_bags) = (0, 0, 0);
        self.lists(&mut |list, together, count| {
            match together {
                Together::Alone => {}
                Together::Openings => openings += count,
                Together::Points => points += count,
                Together::OfBags => of_bags += count,
            }
            over = over.take().or_else(|| first_over(MOST_MEMBERS, [(list, count)]));
        });
        over.or_else(|| first_over(MOST_OPENINGS, [("cutouts and sets of holes in all", openings)]))
            .or_else(|| first_over(MOST_POINTS, [("corners, sides and readings in all", points)]))
            .or_else(|| first_over(MOST_OF_BAGS, [("strengths and additives in all", of_bags)]))
    }

    /// Lists of words, which have no fields.
    fn too_many_lines(&self) -> Option<FileError> {
        let logged = self.pieces.iter().map(|piece| piece.log.len()).sum();
        let sent = self.quote.frozen.as_ref().map_or(0, |sent| {
            let options: usize = sent.options.iter().map(|option| 1 + option.differs.len()).sum();
            sent.lines.len() + sent.amounts.len() + sent.excluded.len() + options
        });
        let lines =
            [("lines ticked off", self.pour.ticks.len()), ("lines of a log", logged), ("lines of a quote", sent)];
        first_over(MOST_MEMBERS, [("versions in a quote", self.quote.options.len())])
            .or_else(|| first_over(MOST_LINES, lines))
    }
}

/// Every side of one template is held against every side of another of the piece.
fn too_many_template_corners(piece: &Piece) -> Option<FileError> {
    let corners = piece.cutouts.iter().map(|cutout| cutout.template.len()).sum();
    first_over(MOST_TEMPLATE_CORNERS, [("corners of the cutouts of a piece in all", corners)])
}

fn too_many_of_bag(bag: &Bag) -> Option<FileError> {
    first_over(MOST_MEMBERS, [("strengths of a bag", bag.strengths.len()), ("additives of a bag", bag.additives.len())])
}

/// The first of the lists that has more than `most` members.
fn first_over(most: usize, lists: impl IntoIterator<Item = (&'static str, usize)>) -> Option<FileError> {
    let over = lists.into_iter().find(|(_, count)| *count > most);
    over.map(|(list, count)| FileError::TooMany { list, count, most })
}

/// The maker's shelf of bags.
impl Kept for Vec<Bag> {
    fn too_many(&self) -> Option<FileError> {
        first_over(MOST_LINES, [("bags", self.len())]).or_else(|| self.iter().find_map(too_many_of_bag))
    }

    const FORM: Form =
        Form { format: "pourwright bags", content: "bags", version: 4, most_bytes: MOST_BYTES, upgrade: upgrade_bags };
}

/// The text of the file of `thing`. `also` is put in front of the content as it stands: nothing, or
/// members of a JSON object, each with its comma.
pub fn write_kept<T: Kept>(thing: &T, also: &str) -> String {
    #[expect(clippy::expect_used, reason = "texts, lists and names always have a JSON form")]
    let content = serde_json::to_string(thing).expect("a kept thing has a JSON form");
    wrap(&T::FORM, also, &content)
}

fn wrap(form: &Form, also: &str, content: &str) -> String {
    let Form { format, content: name, version, .. } = form;
    let by = env!("CARGO_PKG_VERSION");
    format!(r#"{{"format":"{format}","version":{version},"written_by":"{by}",{also}"{name}":{content}}}"#)
}

/// The thing in the text of a file, and those members named in `also` that stand beside it.
///
/// # Errors
/// Everything in [`FileError`].
pub fn read_kept<T: Kept>(text: &str, also: &[&str]) -> Result<(T, Map<String, Value>), FileError> {
    let form = T::FORM;
    if text.len() > form.most_bytes {
        return Err(FileError::TooLarge { bytes: text.len(), most: form.most_bytes });
    }
    read_value(parse(text)?, also)
}

/// As [`read_kept`], from JSON that has been parsed.
///
/// # Errors
/// Everything in [`FileError`] but what is wrong with a text.
pub fn read_value<T: Kept>(value: Value, also: &[&str]) -> Result<(T, Map<String, Value>), FileError> {
    let Opened { version, content, beside, mut unknown } = open(value, &T::FORM, also)?;
    let thing = read_content::<T>(&content, T::FORM.content, &mut unknown);
    if version > T::FORM.version {
        return Err(FileError::Newer { found: version, highest: T::FORM.version, unknown });
    }
    let thing = thing?;
    match thing.too_many() {
        Some(why) => Err(why),
        None if unknown.is_empty() => Ok((thing, beside)),
        None => Err(FileError::Unknown { paths: unknown }),
    }
}

/// Parses a text that should be one of ours, without looking further than that it is a JSON object.
///
/// # Errors
/// [`FileError::NotOurs`], [`FileError::CutShort`], [`FileError::TooDeep`], [`FileError::NotJson`].
pub fn parse(text: &str) -> Result<Value, FileError> {
    // Editors and mail programs may put a byte order mark in front.
    let text = text.trim_start_matches('\u{feff}').trim();
    if !text.starts_with('{') {
        return Err(FileError::NotOurs);
    }
    serde_json::from_str(text).map_err(|error| {
        if error.is_eof() {
            FileError::CutShort
        } else if error.to_string().starts_with("recursion limit") {
            FileError::TooDeep
        } else {
            FileError::NotJson { line: error.line(), column: error.column() }
        }
    })
}

struct Opened {
    version: u32,
    content: Value,
    beside: Map<String, Value>,
    unknown: Vec<String>,
}

/// Takes the envelope apart and brings the content up to this program's version.
fn open(value: Value, form: &Form, also: &[&str]) -> Result<Opened, FileError> {
    let Value::Object(mut members) = value else { return Err(FileError::NotOurs) };
    match members.remove("format").as_ref().and_then(Value::as_str) {
        Some(format) if format == form.format => {}
        Some(format) if format.starts_with("pourwright ") => {
            return Err(FileError::OtherKind { found: shorten(format), wanted: form.format });
        }
        _ => return Err(FileError::NotOurs),
    }
    let version = match members.remove("version").as_ref().and_then(Value::as_u64) {
        Some(version) if version > 0 => u32::try_from(version).unwrap_or(u32::MAX),
        _ => {
            let says = "it should be a whole number of at least 1".to_owned();
            return Err(FileError::Wrong { path: "version".to_owned(), says });
        }
    };
    members.remove("written_by");
    let content = members.remove(form.content);
    let (beside, others): (Map<_, _>, Map<_, _>) =
        members.into_iter().partition(|(name, _)| also.contains(&name.as_str()));
    let unknown = others.into_iter().map(|(name, _)| name).collect();
    let content = match content {
        _ if version > form.version => content.unwrap_or(Value::Null),
        Some(content) => (form.upgrade)(version, content),
        None => {
            return Err(FileError::Wrong { path: form.content.to_owned(), says: "it is missing".to_owned() });
        }
    };
    Ok(Opened { version, content, beside, unknown })
}

/// Reads the content and adds the paths of fields that `T` does not know to `unknown`: those that are not there
/// again once it is written.
fn read_content<T: Kept>(content: &Value, root: &str, unknown: &mut Vec<String>) -> Result<T, FileError> {
    // From a text and not from the value: where it goes wrong is told as a place in it.
    let text = content.to_string();
    let thing: T = serde_json::from_str(&text).map_err(|error| {
        let says = error.to_string();
        let place = format!(" at line {} column {}", error.line(), error.column());
        // What was not even begun stands behind the place.
        let begun = !matches!(text.as_bytes().get(error.column().wrapping_sub(1)), Some(b':' | b',' | b'['));
        let byte = if begun { error.column() } else { error.column() + 1 };
        wrong(root, &trace::path_at(&text, byte), says.trim_end_matches(&place))
    })?;
    if let Ok(known) = serde_json::to_value(&thing) {
        unknown.extend(trace::unknown_members(root, content, &known, shorten));
    }
    Ok(thing)
}

fn wrong(root: &str, path: &str, says: &str) -> FileError {
    let path = match path {
        "" => root.to_owned(),
        path if path.starts_with('[') => format!("{root}{path}"),
        path => format!("{root}.{path}"),
    };
    FileError::Wrong { path, says: shorten(says) }
}

fn shorten(text: &str) -> String {
    match text.char_indices().nth(MOST_CHARACTERS) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_owned(),
    }
}

/// Why a text cannot be taken for what it should be. Its words say what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileError {
    /// More than may be read at all.
    TooLarge {
        /// Its size.
        bytes: usize,
        /// The most that is read.
        most: usize,
    },
    /// A list is longer than may be read at all.
    TooMany {
        /// Which.
        list: &'static str,
        /// Its members.
        count: usize,
        /// The most that are read.
        most: usize,
    },
    /// The end is missing.
    CutShort,
    /// It stops being JSON at a place, counted from one.
    NotJson {
        /// Line of that place.
        line: usize,
        /// Column of that place, in bytes.
        column: usize,
    },
    /// Lists within lists, deeper than anything this program writes.
    TooDeep,
    /// Not written by this program.
    NotOurs,
    /// Written by this program, but another kind of file than the one that is wanted here.
    OtherKind {
        /// What it says it is.
        found: String,
        /// What is wanted.
        wanted: &'static str,
    },
    /// Written by a later version of this program.
    Newer {
        /// The file's version.
        found: u32,
        /// The highest version this program reads.
        highest: u32,
        /// Fields this program does not know, by path; only as many as could be found.
        unknown: Vec<String>,
    },
    /// Fields that this program does not know and would lose.
    Unknown {
        /// Where they are: `job.pieces[0].waterfall`.
        paths: Vec<String>,
    },
    /// A value is missing, or is not of its kind.
    Wrong {
        /// Where: `job.pieces[0]`.
        path: String,
        /// What is wrong there.
        says: String,
    },
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes, most } => write!(
                f,
                "This is too large: {} KiB, and at most {} KiB are read. Shorten its notes, or choose another file.",
                bytes.div_ceil(1024),
                most / 1024
            ),
            Self::TooMany { list, count, most } => {
                write!(f, "This has {count} {list}, and at most {most} are read. Make two jobs of it.")
            }
            Self::CutShort => f.write_str(
                "This was cut short: its end is missing. Use another copy: have it sent again, or take it from a backup.",
            ),
            Self::NotJson { line, column } => write!(
                f,
                "This is damaged at line {line}, column {column}. Use another copy: have it sent again, or take it from a \
                 backup."
            ),
            Self::TooDeep => f.write_str("This is nested deeper than any file of Pourwright. Choose another file."),
            Self::NotOurs => {
                f.write_str("This was not written by Pourwright. Choose a file that was shared or backed up from it.")
            }
            Self::OtherKind { found, wanted } => {
                write!(f, "This is a “{found}” file where a “{wanted}” file is needed. Choose another file.")
            }
            Self::Newer { found, highest, unknown } => {
                write!(
                    f,
                    "This was written by a newer Pourwright: its version is {found}, and {highest} is the highest known \
                     here. Reload the page while online to update it, then try again."
                )?;
                write_names(f, " Not known here: ", unknown)
            }
            Self::Unknown { paths } => {
                f.write_str("This holds fields that Pourwright does not know and would lose, so it was left alone.")?;
                write_names(f, " Not known here: ", paths)
            }
            Self::Wrong { path, says } => write!(
                f,
                "This cannot be read at {path}: {says}. It was changed since Pourwright wrote it. Use another copy: have \
                 it sent again, or take it from a backup."
            ),
        }
    }
}

fn write_names(f: &mut fmt::Formatter<'_>, before: &str, names: &[String]) -> fmt::Result {
    for (index, name) in names.iter().take(MOST_NAMES).enumerate() {
        f.write_str(if index == 0 { before } else { ", " })?;
        f.write_str(name)?;
    }
    match names.len().saturating_sub(MOST_NAMES) {
        _ if names.is_empty() => Ok(()),
        0 => f.write_str("."),
        more => write!(f, " and {more} more."),
    }
}

impl std::error::Error for FileError {}
