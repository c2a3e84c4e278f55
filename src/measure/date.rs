//! Civil dates and clock times, without a time zone: what a calendar on the workshop's wall says.

use super::{Time, write_number};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Days from 1 January of the year 1 to 1 January 1970.
const EPOCH: i32 = 719_162;
/// The last year that is written with four digits.
const LAST_YEAR: i32 = 9999;
const DAY: f64 = 86_400.0;
const MONTHS: [i32; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// A day of the Gregorian calendar, in the years 1 to 9999; written and kept as "2026-03-31" (ISO 8601).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Date(i32);

/// A date and the time of day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// The day.
    pub date: Date,
    /// Since midnight; from nothing to under 24 h.
    pub clock: Time,
}

fn is_leap(year: i32) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

/// Days before 1 January of `year`, counted from the year 1.
fn days_before(year: i32) -> i32 {
    let years = year - 1;
    365 * years + years / 4 - years / 100 + years / 400
}

fn month_lengths(year: i32) -> impl Iterator<Item = i32> {
    MONTHS.iter().enumerate().map(move |(month, days)| days + i32::from(month == 1 && is_leap(year)))
}

impl Date {
    /// The day so many days after 1 January 1970; None outside the years 1 to 9999.
    pub fn from_days(days: i32) -> Option<Self> {
        (-EPOCH..days_before(LAST_YEAR + 1) - EPOCH).contains(&days).then_some(Self(days))
    }

    /// The day of that year, month (1 to 12) and day of the month; None if the calendar has no such day.
    pub fn new(year: i32, month: u32, day: u32) -> Option<Self> {
        if !(1..=LAST_YEAR).contains(&year) {
            return None;
        }
        let before = usize::try_from(month).ok()?.checked_sub(1)?;
        let length = month_lengths(year).nth(before)?;
        let day = i32::try_from(day).ok().filter(|day| (1..=length).contains(day))?;
        Some(Self(days_before(year) + month_lengths(year).take(before).sum::<i32>() + day - 1 - EPOCH))
    }

    /// Reads "2026-03-31"; None for anything else.
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.split('-').map(|part| {
            let digits = part.bytes().all(|byte| byte.is_ascii_digit());
            if digits { part.parse::<u32>().ok() } else { None }
        });
        let (year, month, day) = (parts.next()??, parts.next()??, parts.next()??);
        let year = i32::try_from(year).ok()?;
        if parts.next().is_some() || text.len() != 10 { None } else { Self::new(year, month, day) }
    }

    /// Days since 1 January 1970.
    pub fn days(self) -> i32 {
        self.0
    }

    /// Year, month from 1 and day of the month from 1.
    pub fn parts(self) -> (i32, u32, u32) {
        let days = self.0 + EPOCH;
        // A year has 365.2425 days on average; the guess is at most one too late.
        let guess = (f64::from(days) / 365.2425) as i32 + 2;
        let year = (1..=guess).rev().take(4).find(|&year| days_before(year) <= days).unwrap_or(1);
        let mut day = days - days_before(year);
        let mut month = 1;
        for length in month_lengths(year) {
            if day < length {
                break;
            }
            day -= length;
            month += 1;
        }
        (year, month, day.unsigned_abs() + 1)
    }

    /// The day so many days later, or earlier if negative; None outside the years 1 to 9999.
    pub fn plus_days(self, days: i32) -> Option<Self> {
        self.0.checked_add(days).and_then(Self::from_days)
    }
}

impl fmt::Display for Date {
    /// "2026-03-31".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.parts();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl From<Date> for String {
    fn from(date: Date) -> Self {
        date.to_string()
    }
}

impl TryFrom<String> for Date {
    type Error = String;

    fn try_from(text: String) -> Result<Self, Self::Error> {
        Self::read(&text).ok_or_else(|| format!("“{text}” is no date; write it like 2026-03-31."))
    }
}

impl Moment {
    /// So much later; None if that is no number, or outside the calendar.
    pub fn after(self, span: Time) -> Option<Self> {
        let seconds = self.clock.value + span.value;
        let days = (seconds / DAY).floor();
        if days.is_nan() || days.abs() >= f64::from(i32::MAX) {
            return None;
        }
        let clock = super::duration((seconds - days * DAY).clamp(0.0, DAY));
        Some(Self { date: self.date.plus_days(days as i32)?, clock })
    }
}

impl fmt::Display for Moment {
    /// "2026-03-31 16:30", to the minute begun.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A whole minute may miss itself by the last bit.
        let minutes = (self.clock.value / 60.0 + 1e-6).floor();
        if !(0.0..1440.0).contains(&minutes) {
            return write!(f, "{} {}", self.date, write_number(f64::NAN, 0));
        }
        let minutes = minutes as u32;
        write!(f, "{} {:02}:{:02}", self.date, minutes / 60, minutes % 60)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every day of four centuries, and the ends of the calendar, come back as they went in.
    #[test]
    fn days_and_parts_agree() {
        let ends = [-EPOCH, -EPOCH + 1, days_before(LAST_YEAR + 1) - EPOCH - 1];
        for days in (-80_000..80_000).chain(ends) {
            let date = Date::from_days(days).unwrap();
            let (year, month, day) = date.parts();
            assert_eq!(Date::new(year, month, day), Some(date), "{date}");
            assert_eq!(Date::read(&date.to_string()), Some(date));
        }
    }

    #[test]
    fn what_is_no_date() {
        for text in ["2026-02-29", "2026-13-01", "2026-00-10", "2026-1-01", "26-01-001", "2026-01-01-1", "0000-01-01"] {
            assert_eq!(Date::read(text), None, "{text}");
        }
        assert_eq!(Date::from_days(i32::MAX), None);
        assert_eq!(Date::new(2024, 2, 29).unwrap().plus_days(i32::MIN), None);
    }

    #[test]
    fn moments_pass_midnight() {
        let evening = Moment { date: Date::new(2027, 12, 31).unwrap(), clock: super::super::duration(22.0 * 3600.0) };
        assert_eq!(evening.after(super::super::duration(3.5 * 3600.0)).unwrap().to_string(), "2028-01-01 01:30");
        assert!(evening.after(super::super::duration(f64::NAN)).is_none());
        assert!(evening.after(super::super::duration(f64::INFINITY)).is_none());
    }
}
