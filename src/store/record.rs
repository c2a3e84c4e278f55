//! One record: a thing in its file form, stamped with when and by whom it was written.

use super::sum::crc32;
use crate::job::file::{FileError, Kept, read_kept, write_kept};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// Members that a stamp adds to the file form.
pub(super) const MEMBERS: &[&str] = &[SUM, "revision", "touched", "writer"];

/// The member that holds the sum over the rest of the text; it comes first.
const SUM: &str = "sum";

/// Tells one state of a record from every other one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Counts the saves of a record, from one.
    pub revision: u64,
    /// When it was saved, in milliseconds since 1970.
    pub touched: u64,
    /// The tab that saved it.
    pub writer: String,
}

/// A record as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loaded<T> {
    /// What it holds.
    pub content: T,
    /// What a later save is based on.
    pub stamp: Stamp,
}

/// A record that is kept to the letter, since it cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Raw {
    /// The key it stood under.
    pub key: String,
    /// Its text.
    pub text: String,
}

/// The text of a record.
pub(super) fn write_record<T: Kept>(thing: &T, stamp: &Stamp) -> String {
    let Stamp { revision, touched, writer } = stamp;
    let writer = Value::from(writer.as_str());
    let text = write_kept(thing, &format!(r#""revision":{revision},"touched":{touched},"writer":{writer},"#));
    let rest = text.strip_prefix('{').unwrap_or_default();
    format!(r#"{{"{SUM}":{},{rest}"#, crc32(rest.as_bytes()))
}

/// The thing and the stamp in the text of a record.
pub(super) fn read_record<T: Kept>(text: &str) -> Result<Loaded<T>, FileError> {
    // A newer program is told by its version, whatever it makes of its sums.
    let (content, beside) = read_kept(text, MEMBERS)?;
    check_sum(text)?;
    Ok(Loaded { content, stamp: read_stamp(&beside)? })
}

/// The text is as it was written. One without a sum at its beginning is taken at its word: a file has none, nor had
/// the records of earlier programs.
///
/// # Errors
/// [`FileError::Wrong`] where it was changed.
pub(super) fn check_sum(text: &str) -> Result<(), FileError> {
    let Some((sum, rest)) = text.strip_prefix(r#"{"sum":"#).and_then(|text| text.split_once(',')) else {
        return Ok(());
    };
    let fits = sum.parse() == Ok(crc32(rest.as_bytes()));
    if fits { Ok(()) } else { Err(wrong(SUM, "it does not fit the rest")) }
}

/// The stamp of a record, whatever else it holds; nothing where it has none.
pub(super) fn stamp_in(text: &str) -> Option<Stamp> {
    serde_json::from_str(text).ok()
}

fn read_stamp(beside: &Map<String, Value>) -> Result<Stamp, FileError> {
    let number = |name: &str| {
        let found = beside.get(name).and_then(Value::as_u64);
        found.ok_or_else(|| wrong(name, "it should be a whole number"))
    };
    let writer = beside.get("writer").and_then(Value::as_str).ok_or_else(|| wrong("writer", "it should be a text"))?;
    Ok(Stamp { revision: number("revision")?, touched: number("touched")?, writer: writer.to_owned() })
}

fn wrong(path: &str, says: &str) -> FileError {
    FileError::Wrong { path: path.to_owned(), says: says.to_owned() }
}
