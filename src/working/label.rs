//! Messages whose words are chosen when somebody looks: names of numbers, needs, findings.
//!
//! A message is a fact: a text, and what goes into it as quantities and as places of the job. In which units a quantity
//! is written, what the maker has called a piece, and in which language all of it is said, is settled by whom it is
//! written to.

use crate::job::FieldPath;
use crate::measure::{Length, Measured, Quantity, Units, at_most};
use std::borrow::Cow;
use std::cell::RefCell;
use std::fmt;

/// A message: the name of a number in a working, what is needed, what the maker should know. Each `{}` of the text
/// stands for the next of its words, so that it is the same text in every system of units: "most that {} may lift".
#[derive(Clone, PartialEq)]
pub struct Label {
    text: Cow<'static, str>,
    words: Vec<Word>,
}

/// What goes into a [`Label`].
#[derive(Clone, Debug, PartialEq)]
pub enum Word {
    /// A quantity.
    Quantity(Quantity),
    /// A quantity that is said to be rounded where writing it has rounded it: "about 153 lb".
    About(Quantity),
    /// The last mark of the tape within that length: where something has to fit, half a step more does not.
    AtMost(Length),
    /// What the job calls a thing.
    Name(Name),
    /// A part of a sentence that is a message itself.
    Label(Label),
}

/// A thing that has a name in a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Name {
    /// A field, as its screen calls it: "Cutout 2, Width".
    Field(FieldPath),
    /// The piece with that index: its name, or "Piece 2".
    Piece(usize),
    /// The same and a colon in front of a sentence, where a job has several pieces; nothing where it has one.
    PieceInFront(usize),
    /// The bag or mix with that index: its name, or "Bag 1".
    Bag(usize),
}

/// To whom a message is written: in which units, and what things are called there.
pub trait Names {
    /// In which units quantities are written.
    fn units(&self) -> Units;

    /// What a thing is called.
    fn name(&self, of: Name) -> String;
}

/// Nobody in particular: things are called by their numbers.
impl Names for Units {
    fn units(&self) -> Units {
        *self
    }

    fn name(&self, of: Name) -> String {
        match of {
            Name::Field(place) => place.label().to_owned(),
            Name::Piece(piece) => format!("Piece {}", piece + 1),
            Name::PieceInFront(piece) => format!("Piece {}: ", piece + 1),
            Name::Bag(bag) => format!("Bag {}", bag + 1),
        }
    }
}

impl<T: Names + ?Sized> Names for &T {
    fn units(&self) -> Units {
        (*self).units()
    }

    fn name(&self, of: Name) -> String {
        (*self).name(of)
    }
}

impl Word {
    fn write(&self, to: &dyn Names) -> String {
        let units = to.units();
        match self {
            Self::Quantity(quantity) => quantity.write(units).text,
            Self::About(quantity) => quantity.write(units).about(),
            Self::AtMost(length) => at_most(*length, units),
            Self::Name(of) => to.name(*of),
            Self::Label(label) => label.put(to),
        }
    }
}

/// A quantity in a sentence: one that writing it rounds is said to be "about" that.
pub fn about(value: impl Measured) -> Word {
    Word::About(value.quantity())
}

impl Label {
    /// A message with words in it, as many as the text has `{}`; [`label!`](crate::label) asks that of the compiler.
    pub fn with<W: Into<Word>>(text: &'static str, words: impl IntoIterator<Item = W>) -> Self {
        let words: Vec<Word> = words.into_iter().map(Into::into).collect();
        debug_assert_eq!(text.matches("{}").count(), words.len(), "a word for every place in '{text}'");
        Self { text: Cow::Borrowed(text), words }
    }

    /// Words that are the same in every system of units: what the maker typed, what a reader said.
    pub fn words(text: impl Into<String>) -> Self {
        text.into().into()
    }

    /// Several messages one after the other, with that between them.
    pub fn list(between: &str, messages: impl IntoIterator<Item = Self>) -> Self {
        let words: Vec<Word> = messages.into_iter().map(Word::Label).collect();
        Self { text: Cow::Owned(vec!["{}"; words.len()].join(between)), words }
    }

    /// The message, written to somebody: a job, or in units alone.
    pub fn write(&self, to: impl Names) -> String {
        self.put(&to)
    }

    fn put(&self, to: &dyn Names) -> String {
        let mut parts = self.text.split("{}");
        let mut written = parts.next().unwrap_or_default().to_owned();
        let mut words = self.words.iter();
        for part in parts {
            match words.next() {
                Some(word) => written += &word.write(to),
                None => written += "{}",
            }
            written += part;
        }
        written
    }

    /// The same name inside of a sentence: its first letter is small, unless a second capital follows it.
    pub(super) fn in_sentence(&self) -> Self {
        let mut letters = self.text.chars();
        let small = match (letters.next(), letters.next()) {
            (Some(first), second) if first.is_uppercase() && !second.is_some_and(char::is_uppercase) => {
                let rest = &self.text[first.len_utf8()..];
                Cow::Owned(first.to_lowercase().chain(rest.chars()).collect())
            }
            _ => self.text.clone(),
        };
        Self { text: small, words: self.words.clone() }
    }

    /// The text itself, with `{}` where its words go.
    pub fn text(&self) -> &str {
        match (self.text.as_ref(), self.words.as_slice()) {
            ("{}", [Word::Quantity(Quantity::Words(words))]) => words,
            (text, _) => text,
        }
    }

    /// What goes into the text, in order.
    pub fn parts(&self) -> &[Word] {
        &self.words
    }
}

/// A [`Label`] from a text and what stands in its places: `label!("{} wide; under {} it breaks.", about(width), least)`.
/// The compiler counts the places.
#[macro_export]
macro_rules! label {
    ($text:literal $(, $word:expr)* $(,)?) => {{
        const PLACES: usize = $crate::working::places($text);
        let words: [$crate::working::Word; PLACES] = [$($crate::working::Word::from($word)),*];
        $crate::working::Label::with($text, words)
    }};
}

/// How many `{}` a text has.
pub const fn places(text: &str) -> usize {
    let bytes = text.as_bytes();
    let (mut at, mut found) = (1, 0);
    while at < bytes.len() {
        if bytes[at - 1] == b'{' && bytes[at] == b'}' {
            found += 1;
        }
        at += 1;
    }
    found
}

impl From<&'static str> for Label {
    fn from(text: &'static str) -> Self {
        Self { text: Cow::Borrowed(text), words: Vec::new() }
    }
}

impl From<String> for Label {
    fn from(text: String) -> Self {
        // What the maker calls a thing may hold braces.
        Self { text: Cow::Borrowed("{}"), words: vec![Word::Quantity(Quantity::Words(Cow::Owned(text)))] }
    }
}

impl From<Quantity> for Word {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(quantity)
    }
}

/// As it is written where nothing else is asked for.
impl<T: Measured> From<T> for Word {
    fn from(value: T) -> Self {
        Self::Quantity(value.quantity())
    }
}

/// A plain number: the place of a thing in a list.
impl From<usize> for Word {
    fn from(number: usize) -> Self {
        Self::Quantity(Quantity::Number(number as f64, 0))
    }
}

impl From<&String> for Word {
    fn from(words: &String) -> Self {
        words.clone().into()
    }
}

impl From<Name> for Word {
    fn from(name: Name) -> Self {
        Self::Name(name)
    }
}

impl From<Label> for Word {
    fn from(label: Label) -> Self {
        Self::Label(label)
    }
}

impl From<&'static str> for Word {
    fn from(words: &'static str) -> Self {
        Self::Quantity(Quantity::Words(Cow::Borrowed(words)))
    }
}

impl From<String> for Word {
    fn from(words: String) -> Self {
        Self::Quantity(Quantity::Words(Cow::Owned(words)))
    }
}

thread_local! {
    static DEBUG_FOR: RefCell<Box<dyn Names>> = RefCell::new(Box::new(Units::Inch));
}

/// Sets to whom workings, needs and findings of this thread are written in their debug form; before that it is nobody in
/// particular, in inches.
pub fn debug_for(names: impl Names + 'static) {
    DEBUG_FOR.set(Box::new(names));
}

/// To whom debug forms are written.
pub(super) fn for_debug<T>(write: impl FnOnce(&dyn Names) -> T) -> T {
    DEBUG_FOR.with_borrow(|names| write(&**names))
}

impl fmt::Debug for Label {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for_debug(|names| fmt::Debug::fmt(&self.put(names), f))
    }
}

#[cfg(test)]
mod tests {
    use super::{Label, Name, about};
    use crate::job::Job;
    use crate::measure::exact::inches;
    use crate::measure::{Measured, Units};

    #[test]
    fn a_message_is_written_to_whom_it_may_concern() {
        let says =
            label!("{}{} wide; {} is the least.", Name::PieceInFront(1), about(inches(1.05)), inches(1.5).quantity());
        assert_eq!(says.write(Units::Inch), "Piece 2: about 1 1/16 in wide; 1 1/2 in is the least.");
        assert_eq!(says.write(Units::Metric), "Piece 2: about 27 mm wide; 38 mm is the least.");
        assert_eq!(
            says.write(Job::new("a", Units::Inch)),
            "about 1 1/16 in wide; 1 1/2 in is the least.",
            "one piece needs no name"
        );
        assert_eq!(says.text(), "{}{} wide; {} is the least.", "the fact itself knows neither");
    }

    #[test]
    fn what_a_maker_types_is_never_taken_for_a_place() {
        let says = label!("{}: too wide.", "a {} of my own".to_owned());
        assert_eq!(says.write(Units::Inch), "a {} of my own: too wide.");
        assert_eq!(Label::words("{} {}").write(Units::Inch), "{} {}");
    }
}
