//! The index of jobs: what a list shows, without reading every job anew.
//!
//! It is a memory aid and never trusted over the records: each entry carries a fingerprint of the
//! record it was made from and of its own words, and counts only while that still fits.

use super::Listed;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};

/// One job in the index.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Line {
    id: String,
    name: String,
    client: String,
    touched: u64,
    fingerprint: u64,
}

/// The index, as far as it could be read.
#[derive(Debug, Default)]
pub(super) struct Index(BTreeMap<String, Line>);

impl Index {
    /// The index in `text`; an empty one if that is broken or is not there.
    pub(super) fn read(text: Option<&str>) -> Self {
        let lines: Vec<Line> = text.and_then(|text| serde_json::from_str(text).ok()).unwrap_or_default();
        Self(lines.into_iter().map(|line| (line.id.clone(), line)).collect())
    }

    /// What the list shows of the job with that id, if the entry was made from just this record.
    pub(super) fn get(&self, id: &str, record: &str) -> Option<Listed> {
        let Line { name, client, touched, fingerprint, .. } = self.0.get(id)?;
        let fits = *fingerprint == take_fingerprint(record, name, client, *touched);
        fits.then(|| Listed {
            id: id.to_owned(),
            name: name.clone(),
            client: client.clone(),
            touched: *touched,
            problem: None,
        })
    }

    /// Every entry, whether it still fits its record or not.
    pub(super) fn glance(self) -> Vec<Listed> {
        let listed = |Line { id, name, client, touched, .. }| Listed { id, name, client, touched, problem: None };
        self.0.into_values().map(listed).collect()
    }

    /// Enters a job that was read from `record`.
    pub(super) fn put(&mut self, listed: &Listed, record: &str) {
        let Listed { id, name, client, touched, .. } = listed.clone();
        let fingerprint = take_fingerprint(record, &name, &client, touched);
        self.0.insert(id.clone(), Line { id, name, client, touched, fingerprint });
    }

    /// Jobs in it.
    pub(super) fn len(&self) -> usize {
        self.0.len()
    }

    /// The text to keep.
    pub(super) fn write(&self) -> String {
        let lines: Vec<&Line> = self.0.values().collect();
        // An index that cannot be written is rebuilt from the records.
        serde_json::to_string(&lines).unwrap_or_default()
    }
}

// Another program version may hash differently; then the index is rebuilt once.
fn take_fingerprint(record: &str, name: &str, client: &str, touched: u64) -> u64 {
    let mut hasher = DefaultHasher::new();
    (record, name, client, touched).hash(&mut hasher);
    hasher.finish()
}
