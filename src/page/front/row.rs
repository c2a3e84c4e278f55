//! A row of the shelf: what is said of a job before it is opened.

use super::super::dom;
use crate::names::in_sentence;
use crate::store::browser::LocalStorage;
use crate::store::{Listed, Records};

/// One job on the shelf.
#[derive(Clone, PartialEq)]
pub struct Row {
    /// Which job.
    pub id: String,
    /// Its name, or what stands for one.
    pub name: String,
    /// Client and when it was last touched.
    pub under: String,
    /// Why it cannot be read, if it cannot.
    pub unreadable: Option<String>,
}

/// The jobs as they were listed last: the workshop looks closer.
pub fn glance() -> Vec<Row> {
    Records::glance(&LocalStorage).into_iter().map(row).collect()
}

/// The job's name as it is set into a sentence, or what stands for one.
pub fn name_or(name: &str) -> String {
    in_sentence(&whole_name_or(name)).into_owned()
}

/// The job's name as it stands by itself, or what stands for one.
pub fn whole_name_or(name: &str) -> String {
    if name.trim().is_empty() { "Job without a name".to_owned() } else { name.to_owned() }
}

/// What the shelf shows of a job.
pub fn row(listed: Listed) -> Row {
    let touched = dom::date_of(listed.touched as f64);
    let client = in_sentence(&listed.client);
    let under = if client.is_empty() { touched } else { format!("{client}, {touched}") };
    Row {
        id: listed.id,
        name: whole_name_or(&listed.name),
        under,
        unreadable: listed.problem.map(|why| why.to_string()),
    }
}
