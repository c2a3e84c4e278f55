//! What the workshop's lists are made of, the same on the screen and on paper.

use crate::draw::Selection;
use crate::working::{Figure, Known, Working};

/// One line of a list.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its mark on the drawing; may be empty.
    pub mark: String,
    /// What it is.
    pub name: String,
    /// Its size or number.
    pub value: String,
    /// More about it, a line each.
    pub how: Vec<String>,
    /// What lights up in the drawing when it is touched.
    pub part: Option<Selection>,
    /// The hand calculation behind the number.
    pub working: Option<Working>,
}

/// A list with its heading.
#[derive(Clone, Debug, PartialEq)]
pub struct List {
    /// Its heading.
    pub heading: &'static str,
    /// A sentence before it; may be empty.
    pub lead: String,
    /// Its lines, or what they wait for.
    pub rows: Known<Vec<Row>>,
    /// Every line is a thing to be ticked when it is done.
    pub ticked: bool,
}

impl Row {
    /// A line without a mark.
    pub(super) fn new(name: impl Into<String>, value: impl ToString) -> Self {
        Self {
            mark: String::new(),
            name: name.into(),
            value: value.to_string(),
            how: Vec::new(),
            part: None,
            working: None,
        }
    }

    /// A number and its working.
    pub(super) fn figure<T>(name: impl Into<String>, figure: &Figure<T>, write: impl Fn(&T) -> String) -> Self {
        Self { working: Some(figure.working.clone()), ..Self::new(name, write(&figure.value)) }
    }

    /// The same with a mark.
    pub(super) fn marked(mut self, mark: impl Into<String>) -> Self {
        self.mark = mark.into();
        self
    }

    /// The same with one more line; nothing is added where that is empty.
    pub(super) fn and(mut self, how: impl Into<String>) -> Self {
        let how = how.into();
        if !how.is_empty() {
            self.how.push(how);
        }
        self
    }

    /// The same, lighting up that part of the drawing.
    pub(super) fn lighting(mut self, part: Selection) -> Self {
        self.part = Some(part);
        self
    }
}
