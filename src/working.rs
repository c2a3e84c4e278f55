//! Working: the hand calculation behind a number, made where the number is made, so that the two
//! cannot drift apart.

use crate::job::FieldPath;
use std::collections::HashSet;

/// Where a rule or a figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Source {
    /// A published standard or handbook; the text names it and the place in it.
    Standard(&'static str),
    /// Common practice in the trade, without a published source.
    Practice,
    /// Typical of published data sheets, from memory: the maker's own label outranks it.
    Memory,
    /// Typed by the maker.
    Typed,
    /// Arithmetic or geometry that needs no source.
    Arithmetic,
}

/// One line of a working: a formula, the numbers put into it, and what came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// In words or symbols: "net volume × (1 + spare) ÷ yield".
    pub formula: String,
    /// The same with the numbers in it: "0.89 ft³ × 1.10 ÷ 0.50 ft³"; empty where the line only states
    /// a number that goes in.
    pub numbers: String,
    /// The outcome with its unit: "1.96 bags".
    pub result: String,
    /// Where the formula or its constants come from.
    pub source: Source,
}

/// The whole hand calculation behind one number.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// What was worked out: "Bags to order".
    pub title: String,
    /// The steps in order; the last one ends in the number itself.
    pub lines: Vec<Line>,
}

/// A number together with its working.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure<T> {
    /// The number, in its own type.
    pub value: T,
    /// How it was come by.
    pub working: Working,
}

/// One thing that is missing before a number can be worked out.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Need {
    /// Where it is missing.
    pub place: FieldPath,
    /// What is missing or wrong there, as one short sentence: "Width: nothing is written here yet."
    pub says: String,
}

/// Why a number is not there yet. Never empty.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiting {
    /// Everything that stands in the way, in the order of the job.
    pub needs: Vec<Need>,
}

/// A part of the estimate that is there, or says what it is waiting for.
pub type Known<T> = Result<T, Waiting>;

impl Waiting {
    /// Waiting for one thing.
    pub fn at(place: FieldPath, says: impl Into<String>) -> Self {
        Self { needs: vec![Need { place, says: says.into() }] }
    }
}

/// What several parts wait for, as it is come by: in order, each thing once. It takes as long as there are things,
/// and not their square: a stranger's job may wait for thousands.
#[derive(Debug, Default)]
pub(crate) struct Gathering {
    needs: Vec<Need>,
    said: HashSet<Need>,
}

impl Gathering {
    /// Adds what is waited for there.
    pub(crate) fn add(&mut self, waiting: Waiting) {
        for need in waiting.needs {
            if self.said.insert(need.clone()) {
                self.needs.push(need);
            }
        }
    }

    /// The part, if it is there; what it waits for is added.
    pub(crate) fn known<T>(&mut self, part: Known<T>) -> Option<T> {
        part.map_err(|waiting| self.add(waiting)).ok()
    }

    /// All that was added.
    pub(crate) fn waiting(self) -> Waiting {
        Waiting { needs: self.needs }
    }

    /// `found`, unless something is waited for.
    ///
    /// # Errors
    /// All that was added.
    pub(crate) fn unless<T>(self, found: T) -> Known<T> {
        if self.needs.is_empty() { Ok(found) } else { Err(self.waiting()) }
    }
}

impl Working {
    /// A working that has no line yet.
    pub(crate) fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), lines: Vec::new() }
    }

    /// The same with one more line.
    pub(crate) fn line(
        mut self,
        formula: impl Into<String>,
        numbers: impl Into<String>,
        result: impl std::fmt::Display,
        source: Source,
    ) -> Self {
        // That a number was rounded is said where it comes out, not wherever it goes in again.
        let [formula, numbers] = [formula.into(), numbers.into()].map(|text| text.replace("≈ ", ""));
        let line = Line { formula, numbers, result: result.to_string(), source };
        self.lines.push(line);
        self
    }

    /// The same with a last line that adds up what every line before came to.
    pub(crate) fn sum(self, result: impl std::fmt::Display) -> Self {
        let parts: Vec<_> = self.lines.iter().map(|line| line.result.as_str()).collect();
        let numbers = parts.join(" + ");
        self.line("all of it", numbers, result, Source::Arithmetic)
    }

    /// The same with the lines of another working before its own next line.
    pub(crate) fn after(mut self, other: &Self) -> Self {
        self.lines.extend(other.lines.iter().cloned());
        self
    }

    /// The number that this ends in.
    pub(crate) fn of<T>(self, value: T) -> Figure<T> {
        Figure { value, working: self }
    }
}

/// Both, or everything that either is waiting for.
///
/// # Errors
/// The needs of both, in order, each said once.
pub fn both<A, B>(a: Known<A>, b: Known<B>) -> Known<(A, B)> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok((a, b)),
        (Err(a), Err(b)) => {
            let mut gathered = Gathering::default();
            gathered.add(a);
            gathered.add(b);
            Err(gathered.waiting())
        }
        (Err(waiting), _) | (_, Err(waiting)) => Err(waiting),
    }
}

/// All of them, or everything that any of them is waiting for.
///
/// # Errors
/// The needs of all, in order, each said once.
pub fn all<T>(parts: impl IntoIterator<Item = Known<T>>) -> Known<Vec<T>> {
    let mut gathered = Gathering::default();
    let mut found = Vec::new();
    for part in parts {
        found.extend(gathered.known(part));
    }
    gathered.unless(found)
}
