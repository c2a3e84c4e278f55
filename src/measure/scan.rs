//! From text to numbers with units, before anything is added up.

use super::tables::{Table, Thousandths, Unit};
use super::*;

/// Longest text that can be a reading, in characters.
const LONGEST: usize = 64;

/// Where reading stopped, and why.
pub(super) type Stop = (usize, Reason);

/// One number as it stands in the text.
#[derive(Clone, Debug, Default)]
pub(super) struct Number {
    /// Position of its first character.
    pub(super) start: usize,
    /// Position after its last character.
    pub(super) end: usize,
    /// Digits before the mark.
    pub(super) digits: String,
    /// The mark, and the digits after it.
    pub(super) decimals: Option<(char, String)>,
    /// Position, upper and lower number of the fraction.
    pub(super) fraction: Option<(usize, f64, f64)>,
}

impl Number {
    /// What it says, in a job of `units` and followed by `unit`.
    pub(super) fn value(&self, units: Units, unit: &Unit) -> Result<f64, Stop> {
        let plain = |text: &str| text.parse::<f64>().unwrap_or(0.0);
        if let Some((mark, decimals)) = &self.decimals {
            if self.fraction.is_some() {
                return Err((self.start, Reason::DecimalAndFraction));
            }
            let whole = if self.digits.is_empty() { "0" } else { &self.digits };
            let decimal = format!("{whole}.{decimals}");
            let could_be_thousands =
                decimals.len() == 3 && matches!(self.digits.len(), 1..=3) && !whole.starts_with('0');
            let told = match (mark, units) {
                (',', Units::Inch) => false,
                (',', Units::Metric) => unit.thousandths == Thousandths::Usual,
                (_, Units::Inch) => true,
                (_, Units::Metric) => unit.thousandths != Thousandths::Never,
            };
            if could_be_thousands && !told {
                let thousands = format!("{whole}{decimals}");
                return Err((self.start + self.digits.len(), Reason::ThousandsOrThousandths { decimal, thousands }));
            }
            return Ok(plain(&decimal));
        }
        let whole = plain(&self.digits);
        let Some((at, upper, lower)) = self.fraction else { return Ok(whole) };
        if lower == 0.0 {
            return Err((at, Reason::ZeroDenominator));
        }
        if !self.digits.is_empty() && upper >= lower {
            let carried = carried(whole, upper, lower);
            return Err((at, Reason::FractionTooLarge { carried: super::error::excerpt(&carried, 0) }));
        }
        if self.digits.is_empty()
            && upper > lower
            && let Some((whole, rest)) = ran_together(upper, lower)
        {
            let apart = format!("{whole} {rest}/{lower}");
            return Err((at, Reason::RunTogether { apart, fraction: carried(0.0, upper, lower) }));
        }
        Ok(whole + upper / lower)
    }
}

/// A whole number and an improper fraction as a whole number and a proper one.
fn carried(whole: f64, upper: f64, lower: f64) -> String {
    let whole = write_number(whole + (upper / lower).floor(), 0);
    match upper % lower {
        0.0 => whole,
        rest => format!("{whole} {rest}/{lower}"),
    }
}

/// Splits 671 over 4 into 67 and 1: a fraction of a tape, larger than 1, that was written without
/// the space.
fn ran_together(upper: f64, lower: f64) -> Option<(u64, u64)> {
    if !(upper < 100_000.0 && [2.0, 4.0, 8.0, 16.0, 32.0, 64.0].contains(&lower)) {
        return None;
    }
    let upper = upper as u64;
    [10, 100].into_iter().map(|ten| (upper / ten, upper % ten, ten)).find_map(|(whole, rest, ten)| {
        (whole > 0 && rest >= ten / 10 && (rest as f64) < lower).then_some((whole, rest))
    })
}

/// A number and the unit behind it.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) number: Number,
    /// Position of the unit's spelling, the table it stands in, and the unit.
    pub(super) unit: Option<(usize, usize, &'static Unit)>,
}

/// A text taken apart.
#[derive(Clone, Debug)]
pub(super) struct Parts {
    pub(super) negative: bool,
    pub(super) all: Vec<Part>,
}

/// One spelling for the many that phones send, character for character.
pub(super) fn plain(c: char) -> char {
    match c {
        '’' | '‘' | '′' | '‛' | 'ʹ' | '´' | '`' => '\'',
        '”' | '“' | '″' | '‟' | '˝' => '"',
        '‐' | '‑' | '‒' | '–' | '—' | '−' => '-',
        '⁄' | '∕' => '/',
        'º' | '˚' => '°',
        '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}' => ' ',
        c if c.is_whitespace() => ' ',
        c => c.to_ascii_lowercase(),
    }
}

/// Upper and lower number of a fraction that is one character.
fn vulgar(c: char) -> Option<(f64, f64)> {
    Some(match c {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    })
}

/// Takes `text` apart with the units of `tables`.
pub(super) fn scan(text: &str, tables: &'static [&'static Table], signed: bool) -> Result<Parts, Stop> {
    let typed: Vec<char> = text.chars().collect();
    let chars: Vec<char> = typed.iter().copied().map(plain).collect();
    let end = chars.iter().rposition(|&c| c != ' ').map_or(0, |last| last + 1);
    if end == 0 {
        return Err((0, Reason::Empty));
    }
    if end > LONGEST {
        return Err((LONGEST, Reason::TooLong));
    }
    let mut scanner = Scanner { typed: &typed[..end], chars: &chars[..end], at: 0, tables };
    scanner.spaces();
    let negative = scanner.take('-');
    if negative && !signed {
        return Err((scanner.at - 1, Reason::Negative));
    }
    scanner.spaces();
    let mut all = Vec::new();
    loop {
        let number = scanner.number()?;
        scanner.spaces();
        let unit = scanner.unit();
        let bare = unit.is_none();
        // 5'-7": a hyphen only where a bare number could follow as well.
        let hyphen = unit.is_some_and(|(_, _, unit)| unit.then.is_some());
        all.push(Part { number, unit });
        scanner.spaces();
        if scanner.at == end {
            return Ok(Parts { negative, all });
        }
        if bare {
            return Err(scanner.not_a_unit());
        }
        let before = scanner.at;
        if (hyphen && scanner.take('-')) || scanner.take(',') {
            scanner.spaces();
        }
        if !scanner.number_starts() {
            scanner.at = before;
            return Err(match scanner.unit() {
                Some(_) => (before, Reason::TwoUnits),
                None => scanner.not_a_unit(),
            });
        }
    }
}

struct Scanner<'a> {
    typed: &'a [char],
    chars: &'a [char],
    at: usize,
    tables: &'static [&'static Table],
}

impl Scanner<'_> {
    fn peek(&self, ahead: usize) -> Option<char> {
        self.chars.get(self.at + ahead).copied()
    }

    fn take(&mut self, c: char) -> bool {
        let there = self.peek(0) == Some(c);
        self.at += usize::from(there);
        there
    }

    fn spaces(&mut self) {
        while self.take(' ') {}
    }

    fn digit(&self, ahead: usize) -> bool {
        self.peek(ahead).is_some_and(|c| c.is_ascii_digit())
    }

    fn number_starts(&self) -> bool {
        self.digit(0)
            || self.peek(0).is_some_and(|c| vulgar(c).is_some())
            || (matches!(self.peek(0), Some('.' | ',')) && self.digit(1))
    }

    fn digits(&mut self) -> String {
        let from = self.at;
        while self.digit(0) {
            self.at += 1;
        }
        self.chars[from..self.at].iter().collect()
    }

    fn number(&mut self) -> Result<Number, Stop> {
        let mut number = Number { start: self.at, ..Number::default() };
        if !self.number_starts() {
            return Err(match self.letter_for_digit() {
                Some(stop) => stop,
                None if self.peek(0) == Some('-') => (self.at, Reason::UnexpectedCharacter('-')),
                None => (self.at, Reason::NotANumber),
            });
        }
        number.digits = self.digits();
        if let Some(mark @ ('.' | ',')) = self.peek(0) {
            if self.digit(1) {
                self.at += 1;
                number.decimals = Some((mark, self.digits()));
                if matches!(self.peek(0), Some('.' | ',')) && self.digit(1) {
                    return Err((self.at, Reason::TwoMarks));
                }
            } else if mark == '.' && !self.peek(1).is_some_and(char::is_alphanumeric) {
                self.at += 1;
            }
        }
        number.end = self.at;
        let lone = number.decimals.is_none() && !number.digits.is_empty();
        let (upper, lower) = if lone && self.slash() {
            // What was taken for a whole number is the upper number of a fraction.
            (std::mem::take(&mut number.digits).parse().unwrap_or(0.0), self.lower()?)
        } else if let Some(fraction) = self.fraction_behind()? {
            fraction
        } else {
            return Ok(number);
        };
        let at = if number.digits.is_empty() { number.start } else { self.fraction_start(number.end) };
        number.end = self.at;
        number.fraction = Some((at, upper, lower));
        Ok(number)
    }

    /// Where the fraction behind a whole number that ends at `end` starts.
    fn fraction_start(&self, end: usize) -> usize {
        let between = self.chars[end..self.at].iter().take_while(|&&c| c == ' ' || c == '-').count();
        end + between
    }

    /// Takes a slash, with the spaces around it, if that is what comes next.
    fn slash(&mut self) -> bool {
        let from = self.at;
        self.spaces();
        if self.take('/') {
            self.spaces();
            return true;
        }
        self.at = from;
        false
    }

    fn lower(&mut self) -> Result<f64, Stop> {
        if self.digit(0) {
            return Ok(self.digits().parse().unwrap_or(0.0));
        }
        Err(self.letter_for_digit().unwrap_or((self.at, Reason::UnfinishedFraction)))
    }

    /// Takes the fraction that comes next, behind spaces and at most one hyphen, if one does.
    fn fraction_behind(&mut self) -> Result<Option<(f64, f64)>, Stop> {
        let from = self.at;
        self.spaces();
        if self.take('-') {
            self.spaces();
        }
        if let Some(fraction) = self.peek(0).and_then(vulgar) {
            self.at += 1;
            return Ok(Some(fraction));
        }
        let upper = self.digits();
        if !upper.is_empty() && self.slash() {
            return Ok(Some((upper.parse().unwrap_or(0.0), self.lower()?)));
        }
        self.at = from;
        Ok(None)
    }

    /// Takes the longest spelling of a unit that comes next.
    fn unit(&mut self) -> Option<(usize, usize, &'static Unit)> {
        self.peek(0)?;
        let mut best: Option<(usize, usize, &'static Unit)> = None;
        for (index, table) in self.tables.iter().enumerate() {
            for unit in table.units {
                for name in unit.names {
                    if let Some(length) = self.spelled(name)
                        && best.is_none_or(|(longest, _, _)| length > longest)
                    {
                        best = Some((length, index, unit));
                    }
                }
            }
        }
        let (length, index, unit) = best?;
        let at = self.at;
        self.at += length;
        Some((at, index, unit))
    }

    /// How many characters that spelling takes here, its closing full stop included.
    fn spelled(&self, name: &str) -> Option<usize> {
        let mut length = 0;
        for c in name.chars() {
            if c == ' ' {
                while matches!(self.peek(length), Some(' ' | '.')) {
                    length += 1;
                }
            } else if self.peek(length) == Some(c) {
                length += 1;
            } else {
                return None;
            }
        }
        if name.ends_with(char::is_alphabetic) {
            if self.peek(length).is_some_and(|c| c.is_alphabetic() || matches!(c, '²' | '³' | '^')) {
                return None;
            }
            length += usize::from(self.peek(length) == Some('.') && !self.digit(length + 1));
        }
        Some(length)
    }

    /// A letter among digits that looks like one of them.
    fn letter_for_digit(&self) -> Option<Stop> {
        let digit = match self.peek(0)? {
            'o' => '0',
            'l' | 'i' | '|' => '1',
            _ => return None,
        };
        let beside =
            |c: Option<char>| c.is_none_or(|c| matches!(c, '0'..='9' | '.' | ',' | '/' | 'o' | 'l' | ' ' | '\'' | '"'));
        let before = self.at.checked_sub(1).and_then(|at| self.chars.get(at)).copied();
        let touches = |c: Option<char>| c.is_some_and(|c| matches!(c, '0'..='9' | '.' | ',' | '/'));
        (beside(self.peek(1)) && (touches(before) || touches(self.peek(1))))
            .then(|| (self.at, Reason::LetterForDigit { letter: self.typed[self.at], digit }))
    }

    /// Why what stands here, behind a number, is no unit.
    fn not_a_unit(&self) -> Stop {
        if self.number_starts() {
            return (self.at, Reason::TwoNumbers);
        }
        if let Some(stop) = self.letter_for_digit() {
            return stop;
        }
        let word: String = self.typed[self.at..].iter().take_while(|c| c.is_alphabetic()).take(12).collect();
        if word.is_empty() {
            return (self.at, Reason::UnexpectedCharacter(self.typed.get(self.at).copied().unwrap_or(' ')));
        }
        let sign = usize::from(matches!(self.peek(1), Some('-' | '+')));
        if self.peek(0) == Some('e') && self.digit(1 + sign) {
            return (self.at, Reason::Exponent);
        }
        (self.at, Reason::UnknownUnit(word))
    }
}
