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

/// One line of a working: a step that is written when somebody looks, or words that were written beforehand.
#[derive(Clone, Debug)]
pub enum Line {
    /// A step of the calculation; shared by all workings that it is a part of.
    Step(Arc<Step>),
    /// Formula, numbers and result as they were written when the number was made.
    Said(WrittenLine),
}

impl Line {
    /// The line, written to somebody; the last line of a working leaves out the name that is the title of all of it.
    fn write(&self, to: &dyn Names, last: bool) -> WrittenLine {
        match self {
            Self::Step(step) => step.write(to, last),
            Self::Said(line) => line.clone(),
        }
    }
}

impl PartialEq for Line {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Step(one), Self::Step(other)) => Arc::ptr_eq(one, other) || one == other,
            (Self::Said(one), Self::Said(other)) => one == other,
            _ => false,
        }
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
    /// A working that has no line yet.
    pub(crate) fn new(title: impl Into<Label>) -> Self {
        Self { title: title.into(), lines: Vec::new() }
    }

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
        self.lines.iter().enumerate().map(|(index, line)| line.write(&to, index == last)).collect()
    }

    /// What the last line comes to, written to somebody.
    pub fn result(&self, to: impl Names) -> String {
        self.lines.last().map_or_else(String::new, |line| line.write(&to, true).result)
    }

    /// The same with one more line.
    pub(crate) fn line(
        mut self,
        formula: impl Into<String>,
        numbers: impl Into<String>,
        result: impl fmt::Display,
        source: Source,
    ) -> Self {
        // That a number was rounded is said where it comes out, not wherever it goes in again.
        let [formula, numbers] = [formula.into(), numbers.into()].map(|text| text.replace("≈ ", ""));
        self.lines.push(Line::Said(WrittenLine { formula, numbers, result: result.to_string(), source }));
        self
    }

    /// The same with the lines of another working before its own next line, each told once.
    pub(crate) fn after(mut self, other: &Self) -> Self {
        add_lines(&mut self.lines, &other.lines);
        self
    }

    /// The number that this ends in.
    pub(crate) fn of<T>(self, value: T) -> Figure<T> {
        Figure { value, working: self }
    }

    /// The lines as they were written, to be reworded.
    pub(crate) fn said_mut(&mut self) -> impl Iterator<Item = &mut WrittenLine> {
        self.lines.iter_mut().filter_map(|line| match line {
            Line::Said(said) => Some(said),
            Line::Step(_) => None,
        })
    }
}

/// Adds lines that are not there yet: a step that two parts share is told once.
pub(super) fn add_lines(lines: &mut Vec<Line>, more: &[Line]) {
    let address = |line: &Line| match line {
        Line::Step(step) => Some(Arc::as_ptr(step)),
        Line::Said(_) => None,
    };
    let mut told: HashSet<_> = lines.iter().filter_map(address).collect();
    for line in more {
        if address(line).is_none_or(|step| told.insert(step)) {
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
