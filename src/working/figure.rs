//! A number together with the lines of its hand calculation.

use super::label::{Label, Names, for_debug};
use super::term::Step;
use std::collections::HashSet;
use std::fmt;
use std::sync::Arc;

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

/// One line of a working as it is read: a formula, the numbers put into it, and what came out.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenLine {
    /// In words: "net volume × (1 + spare) ÷ yield".
    pub formula: String,
    /// The same with the numbers in it: "0.89 ft³ × 1.10 ÷ 0.50 ft³"; empty where the line only states a number that
    /// goes in.
    pub numbers: String,
    /// The outcome with its unit: "1.96 bags".
    pub result: String,
    /// Where the formula or its constants come from.
    pub source: Source,
}

/// One line of a working: a step of the calculation, shared by all workings that it is a part of. It is written when
/// somebody looks.
#[derive(Clone, Debug)]
pub struct Line(pub(super) Arc<Step>);

impl PartialEq for Line {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}

/// The whole hand calculation behind one number.
#[derive(Clone, PartialEq)]
pub struct Working {
    /// What was worked out: "Bags to order".
    title: Label,
    /// The steps in order; the last one ends in the number itself.
    lines: Vec<Line>,
}

/// A number together with its working.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure<T> {
    /// The number, in its own type.
    pub value: T,
    /// How the value was obtained.
    pub working: Working,
}

impl Working {
    pub(super) fn of_lines(title: Label, lines: Vec<Line>) -> Self {
        Self { title, lines }
    }

    pub(crate) fn title_label(&self) -> &Label {
        &self.title
    }

    pub(super) fn raw_lines(&self) -> &[Line] {
        &self.lines
    }

    /// What was worked out, written to somebody: "Bags to order".
    pub fn title(&self, to: impl Names) -> String {
        self.title.write(to)
    }

    /// Every line in order, written to somebody; the last one ends in the number itself.
    pub fn lines(&self, to: impl Names) -> Vec<WrittenLine> {
        let last = self.lines.len().saturating_sub(1);
        self.lines.iter().enumerate().map(|(index, line)| line.0.write(&to, index == last)).collect()
    }

    /// What the last line comes to, written to somebody.
    pub fn result(&self, to: impl Names) -> String {
        self.lines.last().map_or_else(String::new, |line| line.0.write(&to, true).result)
    }
}

/// Adds lines that are not there yet: a step that two parts share is told once.
pub(super) fn add_lines(lines: &mut Vec<Line>, more: &[Line]) {
    let address = |line: &Line| Arc::as_ptr(&line.0);
    let mut told: HashSet<_> = lines.iter().map(address).collect();
    for line in more {
        if told.insert(address(line)) {
            lines.push(line.clone());
        }
    }
}

impl fmt::Debug for Working {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        struct Lines(Vec<WrittenLine>);
        impl fmt::Debug for Lines {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                struct Line<'a>(&'a WrittenLine);
                impl fmt::Debug for Line<'_> {
                    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                        let WrittenLine { formula, numbers, result, source } = self.0;
                        let mut line = f.debug_struct("Line");
                        line.field("formula", formula).field("numbers", numbers).field("result", result);
                        line.field("source", source).finish()
                    }
                }
                f.debug_list().entries(self.0.iter().map(Line)).finish()
            }
        }
        for_debug(|names| {
            let lines = Lines(self.lines(names));
            f.debug_struct("Working").field("title", &self.title).field("lines", &lines).finish()
        })
    }
}
