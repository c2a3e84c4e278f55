//! Working: the hand calculation behind a number, made where the number is made, so that the two
//! cannot drift apart.

use crate::job::Place;

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
    /// The same with the numbers in it: "0.89 ft³ × 1.10 ÷ 0.50 ft³".
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
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// Where it is missing.
    pub place: Place,
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
