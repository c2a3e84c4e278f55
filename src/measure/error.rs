//! What can be wrong with a text, in words.

use std::fmt;

/// Why a text could not be read: one for every mistake.
#[derive(Clone, Debug, PartialEq)]
pub enum Reason {
    /// Nothing but white space.
    Empty,
    /// Longer than any reading is.
    TooLong,
    /// Something else stands where a number is due.
    NotANumber,
    /// A letter that looks like a digit stands among digits.
    LetterForDigit {
        /// The letter as typed.
        letter: char,
        /// The digit it looks like.
        digit: char,
    },
    /// A minus sign where nothing can be negative.
    Negative,
    /// Scientific notation.
    Exponent,
    /// One mark with three digits after it: thousands or thousandths?
    ThousandsOrThousandths {
        /// Read as a decimal.
        decimal: String,
        /// Read as thousands.
        thousands: String,
    },
    /// Two or more points or commas in one number.
    TwoMarks,
    /// More than four decimals of money.
    TooManyDecimals,
    /// A decimal and a fraction in one number.
    DecimalAndFraction,
    /// A fraction without its lower number.
    UnfinishedFraction,
    /// A fraction over zero.
    ZeroDenominator,
    /// A fraction of one or more after a whole number.
    FractionTooLarge {
        /// The same reading, carried over.
        carried: String,
    },
    /// A whole number and a fraction that ran together, as 671/4 for 67 1/4.
    RunTogether {
        /// With the space that may be missing.
        apart: String,
        /// As the fraction that stands there, carried over.
        fraction: String,
    },
    /// Two numbers side by side.
    TwoNumbers,
    /// A word that is not a unit known here quantity.
    UnknownUnit(String),
    /// A character that has no business here.
    UnexpectedCharacter(char),
    /// A bare number where nothing says which unit is meant.
    UnitNeeded,
    /// A second number without a unit of its own.
    LastUnitMissing,
    /// Two units that cannot stand in one reading.
    TwoUnits,
    /// The smaller unit before the larger, or one unit twice.
    UnitsOutOfOrder,
    /// Part of a whole before a smaller unit, as in 5 1/2 ft 3 in.
    BrokenLargerUnit,
    /// As much of the smaller unit as makes one of the larger, or more.
    PartTooLarge {
        /// The smaller unit.
        unit: &'static str,
        /// How many of it make one of the larger.
        limit: f64,
        /// The larger unit.
        larger: &'static str,
    },
    /// Not two digits from 00 to 59 after the colon.
    ClockMinutes,
    /// Not a time of day.
    NotAClock,
    /// No day of the calendar.
    NotADate,
    /// A count that is not whole.
    NotWhole,
    /// Less than the limit.
    TooSmall {
        /// What is limited.
        what: &'static str,
        /// The limit as text.
        least: String,
    },
    /// More than the limit.
    TooLarge {
        /// What is limited.
        what: &'static str,
        /// The limit as text.
        most: String,
    },
}

/// What is wrong with a text, where, and what would have worked.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadError {
    /// What was typed, shortened to the neighbourhood of the mistake.
    pub excerpt: String,
    /// Character (not byte) at which reading stopped, counted from zero.
    pub at: usize,
    /// Why.
    pub reason: Reason,
    /// A text that would have worked, in the job's unit.
    pub example: &'static str,
}

/// Most characters of the text that an error repeats.
const EXCERPT: usize = 24;

/// At most [`EXCERPT`] characters around `at`, on one line.
pub(super) fn excerpt(text: &str, at: usize) -> String {
    let text = text.trim_end();
    let count = text.chars().count();
    let from = if count <= EXCERPT { 0 } else { at.saturating_sub(EXCERPT / 2).min(count - EXCERPT) };
    let inside =
        text.chars().skip(from).take(EXCERPT).map(|c| if c.is_control() || c.is_whitespace() { ' ' } else { c });
    let mut shown = String::new();
    if from > 0 {
        shown.push('…');
    }
    shown.extend(inside);
    if from + EXCERPT < count {
        shown.push('…');
    }
    shown.trim_start().to_owned()
}

impl fmt::Display for ReadError {
    /// One line: what is wrong, and what would work.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let example = self.example;
        if self.reason == Reason::Empty {
            return write!(f, "nothing is written here yet; write it like {example}.");
        }
        write!(f, "“{}”: ", self.excerpt)?;
        match &self.reason {
            Reason::Empty => Ok(()),
            Reason::TooLong => f.write_str("too long to be one reading"),
            Reason::NotANumber => f.write_str("a number comes first"),
            Reason::LetterForDigit { letter, digit } => write!(f, "there is a letter {letter} where a {digit} is due"),
            Reason::Negative => f.write_str("it cannot be less than nothing"),
            Reason::Exponent => f.write_str("powers of ten are not read here"),
            Reason::ThousandsOrThousandths { decimal, thousands } => {
                return write!(f, "this could be {thousands} or {decimal}; write {thousands} or {decimal}0.");
            }
            Reason::TwoMarks => f.write_str("thousands are not marked off here, and one point or comma is enough"),
            Reason::TooManyDecimals => f.write_str("four decimals are enough for money"),
            Reason::DecimalAndFraction => f.write_str("one number has a decimal or a fraction, not both"),
            Reason::UnfinishedFraction => f.write_str("the fraction has no lower number"),
            Reason::ZeroDenominator => f.write_str("nothing can be divided by 0"),
            Reason::FractionTooLarge { carried } => {
                return write!(f, "the fraction is 1 or more; did you mean {carried}?");
            }
            Reason::RunTogether { apart, fraction } => {
                return write!(f, "this could be {apart} or {fraction}; write the one that you mean.");
            }
            Reason::TwoNumbers => f.write_str("two numbers stand side by side"),
            Reason::UnknownUnit(word) => write!(f, "“{word}” is not a unit known here"),
            Reason::UnexpectedCharacter(c) => write!(f, "“{c}” does not belong here"),
            Reason::UnitNeeded => f.write_str("the unit is missing"),
            Reason::LastUnitMissing => f.write_str("the last number has no unit"),
            Reason::TwoUnits => f.write_str("the units do not go together"),
            Reason::UnitsOutOfOrder => f.write_str("the larger unit comes first, each unit once"),
            Reason::BrokenLargerUnit => f.write_str("only the last number may have a fraction"),
            Reason::PartTooLarge { unit, limit, larger } => {
                write!(f, "{limit} {unit} make 1 {larger}, so fewer than {limit} can stand after {larger}")
            }
            Reason::ClockMinutes => f.write_str("two digits from 00 to 59 come after the colon"),
            Reason::NotAClock => f.write_str("that is no time of day"),
            Reason::NotADate => f.write_str("the calendar has no such day"),
            Reason::NotWhole => f.write_str("only a whole number will do"),
            Reason::TooSmall { what, least } => write!(f, "{what} here is at least {least}"),
            Reason::TooLarge { what, most } => write!(f, "{what} here is at most {most}"),
        }?;
        write!(f, "; write it like {example}.")
    }
}
