//! What a number still waits for.

use super::{Label, Name, Names};
use crate::job::FieldPath;
use crate::label;
use std::collections::HashMap;
use std::fmt;

/// One thing that is missing before a number can be worked out: where, and why. It is put into words, with the names of
/// the job and in its units, when somebody looks: [`Need::sentence`].
#[derive(Clone, PartialEq)]
pub struct Need {
    /// Where it is missing.
    pub place: FieldPath,
    /// What is missing or wrong there: "nothing is written here yet."
    pub says: Label,
    /// Its sentence begins with the name of the field: "Width: nothing is written here yet."
    pub named: bool,
}

impl Need {
    /// Its whole sentence, as a message: "Width: nothing is written here yet."
    pub fn sentence(&self) -> Label {
        if self.named { label!("{}: {}", Name::Field(self.place), self.says.clone()) } else { self.says.clone() }
    }

    /// Its sentence, written to somebody: a job, or in units alone.
    pub fn write(&self, to: impl Names) -> String {
        self.sentence().write(to)
    }
}

impl fmt::Debug for Need {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Need").field("place", &self.place).field("says", &self.sentence()).finish()
    }
}

/// Why a number is not there yet: at least one need.
#[derive(Clone, Debug, PartialEq)]
pub struct Waiting {
    needs: Vec<Need>,
}

/// A part of the estimate that is there, or says what it is waiting for.
pub type Known<T> = Result<T, Waiting>;

impl Waiting {
    /// Waiting for one thing, in a sentence of its own.
    pub fn at(place: FieldPath, says: impl Into<Label>) -> Self {
        Self { needs: vec![Need { place, says: says.into(), named: false }] }
    }

    /// Waiting for one thing, in a sentence that begins with the name of the field: "nothing is written here yet."
    pub fn named(place: FieldPath, says: impl Into<Label>) -> Self {
        Self { needs: vec![Need { place, says: says.into(), named: true }] }
    }

    /// Everything that stands in the way, in the order of the job; at least one thing.
    pub fn needs(&self) -> &[Need] {
        &self.needs
    }
}

/// What several parts wait for: in order, each thing once. Collecting takes as long as there are things, and not their
/// square: a stranger's job may wait for thousands.
#[derive(Debug, Default)]
pub(crate) struct Needs {
    needs: Vec<Need>,
    /// Where those of each place stand in the list.
    at: HashMap<FieldPath, Vec<usize>>,
}

impl Needs {
    /// Adds what is waited for there.
    pub(crate) fn add(&mut self, waiting: Waiting) {
        for need in waiting.needs {
            let told = self.at.entry(need.place).or_default();
            if told.iter().all(|index| self.needs.get(*index) != Some(&need)) {
                told.push(self.needs.len());
                self.needs.push(need);
            }
        }
    }

    /// The part, if it is there; what it waits for is added.
    pub(crate) fn take<T>(&mut self, part: Known<T>) -> Option<T> {
        part.map_err(|waiting| self.add(waiting)).ok()
    }

    /// All that was added; nothing where nothing was.
    pub(crate) fn waiting(self) -> Option<Waiting> {
        (!self.needs.is_empty()).then_some(Waiting { needs: self.needs })
    }

    /// All that was added; where nothing was, that one thing.
    pub(crate) fn or_at(self, place: FieldPath, says: &'static str) -> Waiting {
        self.waiting().unwrap_or_else(|| Waiting::at(place, says))
    }

    /// `found`, unless something is waited for.
    ///
    /// # Errors
    /// All that was added.
    pub(crate) fn unless<T>(self, found: T) -> Known<T> {
        self.waiting().map_or(Ok(found), Err)
    }
}

/// Several parts that are needed together: a tuple of up to twelve.
pub trait Together {
    /// The parts once all are there.
    type All;

    /// All parts, or everything that any of them waits for.
    ///
    /// # Errors
    /// The needs of all, in order, each told once.
    fn together(self) -> Known<Self::All>;
}

macro_rules! together {
    ($($part:ident),+) => {
        impl<$($part),+> Together for ($(Known<$part>,)+) {
            type All = ($($part,)+);

            #[allow(non_snake_case)]
            fn together(self) -> Known<Self::All> {
                let ($($part,)+) = self;
                let mut needs = Needs::default();
                $(let $part = needs.take($part);)+
                match ($($part,)+) {
                    ($(Some($part),)+) => Ok(($($part,)+)),
                    // A part that is not there has said what it waits for.
                    _ => Err(Waiting { needs: needs.needs }),
                }
            }
        }
    };
}
together!(A, B);
together!(A, B, C);
together!(A, B, C, D);
together!(A, B, C, D, E);
together!(A, B, C, D, E, F);
together!(A, B, C, D, E, F, G);
together!(A, B, C, D, E, F, G, H);
together!(A, B, C, D, E, F, G, H, I);
together!(A, B, C, D, E, F, G, H, I, J);
together!(A, B, C, D, E, F, G, H, I, J, K);
together!(A, B, C, D, E, F, G, H, I, J, K, L);

/// All parts of a tuple, or everything that any of them waits for: `let (width, depth) = together((width, depth))?`.
///
/// # Errors
/// The needs of all, in order, each told once.
pub fn together<T: Together>(parts: T) -> Known<T::All> {
    parts.together()
}

/// Both, or everything that either is waiting for.
///
/// # Errors
/// The needs of both, in order, each told once.
pub fn both<A, B>(a: Known<A>, b: Known<B>) -> Known<(A, B)> {
    together((a, b))
}

/// All of them, or everything that any of them is waiting for.
///
/// # Errors
/// The needs of all, in order, each told once.
pub fn all<T>(parts: impl IntoIterator<Item = Known<T>>) -> Known<Vec<T>> {
    let mut needs = Needs::default();
    let mut found = Vec::new();
    for part in parts {
        found.extend(needs.take(part));
    }
    needs.unless(found)
}

/// What was typed into a field that some numbers wait for and others do without.
///
/// ```
/// use pourwright::job::{FieldPath, Job, PourField};
/// use pourwright::job::read::{self, asked};
/// use pourwright::measure::Units;
///
/// let mut job = Job::new("a", Units::Inch);
/// job.pour.air = "".into();
/// let air = asked(&job, FieldPath::Pour(PourField::Air), read::temperature);
/// assert_eq!(air.if_typed(), Ok(None));
/// assert!(air.wanted().is_err(), "whoever wants it waits");
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Asked<T> {
    known: Known<T>,
    blank: bool,
}

impl<T: Clone> Asked<T> {
    /// What is known of a field that is blank or is not.
    pub(crate) fn new(known: Known<T>, blank: bool) -> Self {
        Self { known, blank }
    }

    /// Nothing is typed.
    pub fn is_blank(&self) -> bool {
        self.blank
    }

    /// The value, for whoever waits for it.
    ///
    /// # Errors
    /// That it is blank, or what is wrong with it.
    pub fn wanted(&self) -> Known<T> {
        self.known.clone()
    }

    /// The value, for whoever does without it; nothing where it is blank.
    ///
    /// # Errors
    /// What is wrong with what is typed.
    pub fn if_typed(&self) -> Known<Option<T>> {
        if self.blank { Ok(None) } else { self.known.clone().map(Some) }
    }

    /// The value as far as it can be read.
    pub fn readable(&self) -> Option<T> {
        self.known.as_ref().ok().cloned()
    }
}

impl<T> From<T> for Asked<T> {
    /// As if the value had been typed.
    fn from(value: T) -> Self {
        Self { known: Ok(value), blank: false }
    }
}

/// The part by reference, or what it waits for.
///
/// # Errors
/// What the part waits for.
pub fn known_ref<T>(part: &Known<T>) -> Known<&T> {
    part.as_ref().map_err(Waiting::clone)
}
