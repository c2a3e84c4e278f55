//! Reading what was typed.

use super::error::excerpt;
use super::scan::{Stop, scan};
use super::tables::*;
use super::*;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use uom::si::f64::Velocity;

/// An amount of an additive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dose {
    /// By volume.
    Volume(Volume),
    /// By mass.
    Mass(Mass),
}

/// The SI value of a text, and the position of its quantity among those of `reading`.
fn read(reading: &'static Reading, text: &str, units: Units) -> Result<(usize, f64), ReadError> {
    add_up(reading, text, units).map_err(|stop| error(reading.example[units as usize], text, stop))
}

fn error(example: &'static str, text: &str, (at, reason): Stop) -> ReadError {
    ReadError { excerpt: excerpt(text, at), at, reason, example }
}

fn add_up(reading: &'static Reading, text: &str, units: Units) -> Result<(usize, f64), Stop> {
    let parts = scan(text, reading.tables, reading.signed)?;
    let bare = reading.bare.map(|bare| &reading.tables[0].units[bare[units as usize]]);
    let last = parts.all.len() - 1;
    let (mut table, mut total) = (0, 0.0);
    let mut larger: Option<&'static Unit> = None;
    for (index, part) in parts.all.iter().enumerate() {
        let start = part.number.start;
        let (at, unit) = match (part.unit, larger) {
            (Some((at, found, unit)), _) => {
                table = found;
                (at, unit)
            }
            (None, None) => (start, bare.ok_or((part.number.end, Reason::UnitNeeded))?),
            (None, Some(larger)) => {
                let then = larger.then.and_then(|then| reading.tables[table].units.get(then));
                (start, then.ok_or((part.number.end, Reason::LastUnitMissing))?)
            }
        };
        let value = part.number.value(units, unit)?;
        if let Some(larger) = larger {
            let limit = larger.size / unit.size;
            if larger.family != unit.family {
                return Err((at, Reason::TwoUnits));
            }
            if limit <= 1.0 {
                return Err((at, Reason::UnitsOutOfOrder));
            }
            if value >= limit {
                let (unit, larger) = (unit.names[0], larger.names[0]);
                return Err((start, Reason::PartTooLarge { unit, limit, larger }));
            }
        }
        if index < last && value.fract() != 0.0 {
            return Err((start, Reason::BrokenLargerUnit));
        }
        if reading.whole && value.fract() != 0.0 {
            return Err((start, Reason::NotWhole));
        }
        total += value * unit.size;
        larger = Some(unit);
    }
    // `larger` is the last unit by now; a text without any part was turned away before.
    let Some(unit) = larger else { return Err((0, Reason::Empty)) };
    let si = unit.family.si(if parts.negative { -total } else { total });
    within(&reading.tables[table].limit, si, units).map_err(|reason| (parts.all[0].number.start, reason))?;
    Ok((table, si))
}

fn within(limit: &Limit, si: f64, units: Units) -> Result<(), Reason> {
    let what = limit.what;
    if limit.holds(si) {
        Ok(())
    } else if si < limit.least {
        Err(Reason::TooSmall { what, least: (limit.write)(limit.least, units) })
    } else {
        Err(Reason::TooLarge { what, most: (limit.write)(limit.most, units) })
    }
}

/// A tape reading, from 0 to 100 ft. A bare number is inches, or millimetres in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_length(text: &str, units: Units) -> Result<Length, ReadError> {
    read(&LENGTH, text, units).map(|(_, si)| length(si))
}

/// An area, from 0 to 10 000 ft². A bare number is square feet, or square metres in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_area(text: &str, units: Units) -> Result<Area, ReadError> {
    read(&AREA, text, units).map(|(_, si)| area(si))
}

/// A volume, from 0 to 1000 ft³. A bare number is cubic feet, or litres in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_volume(text: &str, units: Units) -> Result<Volume, ReadError> {
    read(&VOLUME, text, units).map(|(_, si)| volume(si))
}

/// A volume, as [`read_volume`], but a bare number is quarts, or litres in a metric job: the water of a bag.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_water(text: &str, units: Units) -> Result<Volume, ReadError> {
    read(&WATER, text, units).map(|(_, si)| volume(si))
}

/// A volume, as [`read_volume`], but a bare number is US gallons, or litres in a metric job: a pail, a can.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_pail(text: &str, units: Units) -> Result<Volume, ReadError> {
    read(&PAIL, text, units).map(|(_, si)| volume(si))
}

/// A volume, as [`read_volume`], but a bare number is US fluid ounces, or millilitres in a metric job: a cartridge.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_cartridge(text: &str, units: Units) -> Result<Volume, ReadError> {
    read(&CARTRIDGE, text, units).map(|(_, si)| volume(si))
}

/// A mass, from 0 to 20 000 lb. A bare number is pounds, or kilograms in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_mass(text: &str, units: Units) -> Result<Mass, ReadError> {
    read(&MASS, text, units).map(|(_, si)| mass(si))
}

/// A volume or a mass, whichever its unit says ("oz" is a mass, "fl oz" a volume). A bare number is
/// turned away, as it could be either.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_dose(text: &str, units: Units) -> Result<Dose, ReadError> {
    read(&DOSE, text, units).map(|(table, si)| if table == 0 { Dose::Volume(volume(si)) } else { Dose::Mass(mass(si)) })
}

/// An angle, from 0 to 360°. A bare number is degrees.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_angle(text: &str) -> Result<Angle, ReadError> {
    read(&ANGLE, text, Units::Inch).map(|(_, si)| angle(si))
}

/// A temperature, from −40 to 150 °F. A bare number is °F, or °C in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_temperature(text: &str, units: Units) -> Result<Temperature, ReadError> {
    read(&TEMPERATURE, text, units).map(|(_, si)| temperature(si))
}

/// A time span, from 0 to 1000 days. A bare number is minutes; "1:30" is an hour and a half.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_duration(text: &str, units: Units) -> Result<Time, ReadError> {
    span(&DURATION, text, units)
}

/// A time span, as [`read_duration`], but a bare number is hours: what a day's work is told in.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_hours(text: &str, units: Units) -> Result<Time, ReadError> {
    span(&HOURS, text, units)
}

fn span(reading: &'static Reading, text: &str, units: Units) -> Result<Time, ReadError> {
    let Some((hours, minutes)) = text.trim().split_once(':') else {
        return read(reading, text, units).map(|(_, si)| duration(si));
    };
    clock(hours, minutes, units).map(duration).map_err(|reason| {
        let behind_colon = reason == Reason::ClockMinutes;
        let at = if behind_colon { text.chars().take_while(|&c| c != ':').count() + 1 } else { 0 };
        error(reading.example[units as usize], text, (at, reason))
    })
}

/// The speed of a pad's rim, from 0 to 200 m/s. A bare number is ft/min, or m/s in a metric book.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_surface_speed(text: &str, units: Units) -> Result<Velocity, ReadError> {
    read(&SURFACE_SPEED, text, units).map(|(_, si)| Velocity::new::<uom::si::velocity::meter_per_second>(si))
}

/// A time of day, from 0:00 to 23:59.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_clock(text: &str) -> Result<Time, ReadError> {
    let stop = |at, reason| error("14:30", text, (at, reason));
    if text.trim().is_empty() {
        return Err(stop(0, Reason::Empty));
    }
    let (hours, minutes) = text.trim().split_once(':').ok_or_else(|| stop(0, Reason::NotAClock))?;
    let time = clock(hours, minutes, Units::Inch).map_err(|reason| stop(0, reason))?;
    if time < 86_400.0 { Ok(duration(time)) } else { Err(stop(0, Reason::NotAClock)) }
}

/// A day, as 2026-03-31.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_date(text: &str) -> Result<Date, ReadError> {
    let reason = if text.trim().is_empty() { Reason::Empty } else { Reason::NotADate };
    Date::read(text.trim()).ok_or_else(|| error("2026-03-31", text, (0, reason)))
}

/// Seconds in so many hours and minutes, each as digits.
fn clock(hours: &str, minutes: &str, units: Units) -> Result<f64, Reason> {
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit()).then(|| text.parse::<u16>().ok()).flatten();
    let hours = digits(hours).ok_or(Reason::NotANumber)?;
    let minutes = digits(minutes).filter(|&value| value < 60 && minutes.len() == 2).ok_or(Reason::ClockMinutes)?;
    let si = f64::from(hours) * 3600.0 + f64::from(minutes) * 60.0;
    within(&DURATIONS.limit, si, units).map(|()| si)
}

/// A strength, from 0 to 50 000 psi. A bare number is psi, or MPa in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_pressure(text: &str, units: Units) -> Result<Pressure, ReadError> {
    read(&PRESSURE, text, units).map(|(_, si)| pressure(si))
}

/// A speed of wind, from 0 to 100 mph. A bare number is miles an hour, or kilometres an hour in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_speed(text: &str, units: Units) -> Result<Speed, ReadError> {
    read(&SPEED, text, units).map(|(_, si)| speed(si))
}

/// A density, from 0 to 1000 lb/ft³. A bare number is lb/ft³, or kg/m³ in a metric job.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_density(text: &str, units: Units) -> Result<MassDensity, ReadError> {
    read(&DENSITY, text, units).map(|(_, si)| density(si))
}

/// A whole number, from 1 to 10 000.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_count(text: &str) -> Result<u32, ReadError> {
    read(&COUNT, text, Units::Inch).map(|(_, si)| si as u32)
}

/// A share, from 0 to 100 %: "10" and "10 %" are 0.10.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_percent(text: &str) -> Result<f64, ReadError> {
    read(&PERCENT, text, Units::Inch).map(|(_, si)| si)
}

/// One mass to another, or a specific gravity, from 0 to 100: a number without a unit.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_ratio(text: &str) -> Result<f64, ReadError> {
    read(&RATIO, text, Units::Inch).map(|(_, si)| si)
}

/// An amount of money, from 0 to 1 000 000 with at most four decimals. One of $ € £ ¥ or three
/// letters may stand before or behind it and say nothing: the price book knows the currency.
///
/// Of a point and a comma the later one is the decimal mark. One alone with three digits behind it
/// (1,234) is turned away rather than guessed at; spaces and apostrophes part thousands.
///
/// # Errors
/// What is wrong, and where; see [`Reason`].
pub fn read_money(text: &str) -> Result<Decimal, ReadError> {
    money(text).map_err(|stop| error("12.50", text, stop))
}

fn money(text: &str) -> Result<Decimal, Stop> {
    let typed: Vec<char> = text.chars().collect();
    let chars: Vec<char> = typed.iter().copied().map(super::scan::plain).collect();
    let end = chars.iter().rposition(|&c| c != ' ').map_or(0, |last| last + 1);
    let from = chars.iter().position(|&c| c != ' ').unwrap_or(0);
    if end == 0 {
        return Err((0, Reason::Empty));
    }
    if end - from > 40 {
        return Err((from + 40, Reason::TooLong));
    }
    let (from, end) = without_currency(&chars, from, end);
    if from >= end {
        return Err((from, Reason::NotANumber));
    }
    if chars[from] == '-' {
        return Err((from, Reason::Negative));
    }
    let marks: Vec<usize> = (from..end).filter(|&at| !chars[at].is_ascii_digit()).collect();
    for &at in &marks {
        match chars[at] {
            '.' | ',' | ' ' | '\'' => {}
            'o' => return Err((at, Reason::LetterForDigit { letter: typed[at], digit: '0' })),
            'l' | 'i' => return Err((at, Reason::LetterForDigit { letter: typed[at], digit: '1' })),
            _ if at == from => return Err((at, Reason::NotANumber)),
            '-' => return Err((at, Reason::UnexpectedCharacter('-'))),
            c if c.is_alphabetic() => {
                let word = typed[at..end].iter().take_while(|c| c.is_alphabetic()).take(12).collect();
                return Err((at, Reason::UnknownUnit(word)));
            }
            _ => return Err((at, Reason::UnexpectedCharacter(typed[at]))),
        }
    }
    // The last point or comma is the decimal mark unless the same one stands there twice.
    let decimal = marks.iter().copied().rfind(|&at| matches!(chars[at], '.' | ','));
    let decimal = decimal.filter(|&last| marks.iter().filter(|&&at| chars[at] == chars[last]).count() == 1);
    let whole_end = decimal.unwrap_or(end);
    let digits = |from: usize, end: usize| chars[from..end].iter().filter(|c| c.is_ascii_digit()).collect::<String>();
    let groups: Vec<usize> = marks.iter().copied().filter(|&at| at != decimal.unwrap_or(end)).collect();
    for (index, &at) in groups.iter().enumerate() {
        let next = groups.get(index + 1).copied().unwrap_or(whole_end);
        let first_fits = index > 0 || matches!(at - from, 1..=3);
        if at > whole_end || next - at != 4 || !first_fits || chars[at] != chars[groups[0]] {
            return Err((at, if chars[at] == ' ' { Reason::TwoNumbers } else { Reason::TwoMarks }));
        }
    }
    let whole = digits(from, whole_end);
    let behind = decimal.map_or(String::new(), |at| digits(at + 1, end));
    if whole.is_empty() && behind.is_empty() {
        return Err((from, Reason::NotANumber));
    }
    if let Some(at) = decimal
        && groups.is_empty()
        && behind.len() == 3
        && matches!(whole.len(), 1..=3)
        && !whole.starts_with('0')
    {
        let (decimal, thousands) = (format!("{whole}.{behind}"), format!("{whole}{behind}"));
        return Err((at, Reason::ThousandsOrThousandths { decimal, thousands }));
    }
    if behind.len() > 4 {
        return Err((whole_end + 5, Reason::TooManyDecimals));
    }
    // Digits that no decimal can hold are over the limit all the same.
    let amount = Decimal::from_str_exact(&format!("0{whole}.{behind}0")).unwrap_or(Decimal::MAX).normalize();
    within(&AMOUNTS, amount.to_f64().unwrap_or(f64::MAX), Units::Inch).map_err(|reason| (from, reason))?;
    Ok(amount)
}

/// Narrows a range to what is left without a currency sign or code before or behind it.
fn without_currency(chars: &[char], mut from: usize, mut end: usize) -> (usize, usize) {
    let sign = |c: char| matches!(c, '$' | '€' | '£' | '¥');
    let letters = |at: usize| chars[at..].iter().take_while(|c| c.is_ascii_alphabetic()).count();
    if chars[from..end].first().is_some_and(|&c| sign(c)) {
        from += 1;
    } else if letters(from) == 3 {
        from += 3;
    } else if chars[from..end].last().is_some_and(|&c| sign(c)) {
        end -= 1;
    } else if end - from > 3
        && chars[end - 3..end].iter().all(char::is_ascii_alphabetic)
        && !chars[end - 4].is_ascii_alphabetic()
    {
        end -= 3;
    }
    while from < end && chars[from] == ' ' {
        from += 1;
    }
    while end > from && chars[end - 1] == ' ' {
        end -= 1;
    }
    (from, end)
}

/// Puts `sixteenths`/16, reduced, in the place of the fraction or the decimals of a tape reading in
/// inches, and leaves the rest as typed. The whole inches are never lost; a text in which there is
/// no place for a fraction, and a `sixteenths` over 15, change nothing.
pub fn with_fraction(text: &str, sixteenths: u8) -> String {
    replace_fraction(text, sixteenths).unwrap_or_else(|| text.to_owned())
}

fn replace_fraction(text: &str, sixteenths: u8) -> Option<String> {
    let fraction = match sixteenths {
        0 => String::new(),
        1..=15 => {
            let shift = sixteenths.trailing_zeros();
            format!("{}/{}", sixteenths >> shift, 16 >> shift)
        }
        _ => return None,
    };
    let parts = match scan(text, LENGTH.tables, false) {
        Ok(parts) => parts,
        Err((_, Reason::Empty)) => return Some(fraction),
        Err(_) => return None,
    };
    let last = parts.all.last()?;
    let larger = parts.all.len().checked_sub(2).and_then(|index| parts.all[index].unit);
    let inch = &LENGTHS.units[0];
    let feet = |unit: &Unit| unit.then == Some(0);
    if let Some((_, _, unit)) = last.unit
        && feet(unit)
    {
        // Whole feet: the fraction is of the inches that follow.
        let whole = last.number.fraction.is_none() && last.number.decimals.is_none();
        return (whole && !fraction.is_empty()).then(|| format!("{} {fraction}", text.trim_end()));
    }
    if last.unit.is_some_and(|(_, _, unit)| unit.family != inch.family || unit.size != inch.size)
        || (last.unit.is_none() && larger.is_some_and(|(_, _, unit)| !feet(unit)))
    {
        return None;
    }
    let number = &last.number;
    let whole = match number.value(Units::Inch, inch) {
        Ok(value) if number.digits.is_empty() => write_number(value.floor(), 0),
        // The wrong fraction is what is to be replaced.
        Ok(_) | Err((_, Reason::FractionTooLarge { .. } | Reason::ZeroDenominator)) => number.digits.clone(),
        Err(_) => return None,
    };
    let alone = parts.all.len() == 1 && last.unit.is_none();
    let nothing = whole.is_empty() || whole.bytes().all(|b| b == b'0');
    let inches = match (nothing, fraction.is_empty()) {
        (true, false) => fraction,
        (true, true) if alone && number.digits.is_empty() => String::new(),
        (true, true) => "0".to_owned(),
        (false, true) => whole,
        (false, false) => format!("{whole} {fraction}"),
    };
    let before: String = text.chars().take(number.start).collect();
    let after: String = text.chars().skip(number.end).collect();
    Some(format!("{before}{inches}{after}"))
}
