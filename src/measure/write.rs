//! Writing quantities for people.

use super::tables::*;
use super::*;
use rust_decimal::{Decimal, RoundingStrategy};

/// A written quantity, and whether writing it rounded it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// The text with its unit.
    pub text: String,
    /// The text does not say the whole value.
    pub rounded: bool,
}

impl Written {
    /// The text of a length without its unit, as it stands on a drawing or in a field.
    pub fn bare(&self) -> &str {
        self.text.trim_end_matches([' ', 'i', 'n', 'm'])
    }

    /// As a sentence says it: "about 153 lb" where it was rounded.
    pub fn about(self) -> String {
        if self.rounded { format!("about {}", self.text) } else { self.text }
    }
}

impl std::fmt::Display for Written {
    /// The text, with "≈ " before it when rounded.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.rounded { write!(f, "≈ {}", self.text) } else { f.write_str(&self.text) }
    }
}

/// What stands for a value that is none.
const NONE: &str = "—";

/// Beyond this a count of steps is no longer exact, and no longer a workshop's.
const MOST_STEPS: f64 = 1e15;

/// The largest relative difference that does not count as rounding: floating-point dust.
const DUST: f64 = 1e-9;

fn differ(said: f64, value: f64) -> bool {
    (said - value).abs() > DUST * value.abs()
}

/// `value` to so many decimals, and its unit.
fn decimal(value: f64, decimals: usize, unit: &str) -> Written {
    let text = write_number(value, decimals);
    if text == NONE {
        return Written { text, rounded: false };
    }
    let rounded = text.parse().is_ok_and(|said| differ(said, value));
    Written { text: text + unit, rounded }
}

/// Nearest whole number of steps of 1/`parts`, or `None` when there is no saying.
fn steps(value: f64, parts: f64) -> Option<u64> {
    let steps = (value.abs() * parts).round();
    (steps < MOST_STEPS).then_some(steps as u64)
}

/// "67 1/4", from 269 quarters.
fn mixed(steps: u64, parts: u64) -> String {
    let (whole, rest) = (steps / parts, steps % parts);
    if rest == 0 {
        return whole.to_string();
    }
    // Every `parts` is a power of two, so halving is all the reducing there is.
    let shift = rest.trailing_zeros();
    let (upper, lower) = (rest >> shift, parts >> shift);
    if whole == 0 { format!("{upper}/{lower}") } else { format!("{whole} {upper}/{lower}") }
}

/// `value` to the nearest 1/`parts`, in units of which `large.0` make one of `large.1`; the larger unit
/// is used from `from` of the smaller on.
fn fractional(value: f64, parts: u64, unit: &str, large: Option<(u64, &str, u64)>) -> Written {
    let Some(steps) = steps(value, parts as f64) else { return decimal(value, 0, unit) };
    let rounded = differ(steps as f64 / parts as f64, value.abs());
    let sign = if value < 0.0 && steps > 0 { "-" } else { "" };
    let text = match large {
        Some((size, name, from)) if steps >= from * parts => {
            let (whole, rest) = (steps / (size * parts), steps % (size * parts));
            let rest = if rest == 0 { String::new() } else { format!(" {}{unit}", mixed(rest, parts)) };
            format!("{sign}{whole}{name}{rest}")
        }
        _ => format!("{sign}{}{unit}", mixed(steps, parts)),
    };
    Written { text, rounded }
}

/// The last mark of the tape within that length: where something has to fit, half a step more does not.
pub fn at_most(value: Length, units: Units) -> String {
    let step = match units {
        Units::Inch => exact::inches(1.0 / 16.0),
        Units::Metric => Length::new::<uom::si::length::millimeter>(1.0),
    };
    // A whole number of steps may miss itself by the last bit.
    let steps = ((value + geometry_tolerance()) / step).value.floor();
    write_length(steps * step, units).text
}

/// "67 1/4 in", to the nearest 1/16; "1702 mm", to the nearest millimetre.
pub fn write_length(value: Length, units: Units) -> Written {
    match units {
        Units::Inch => fractional(INCHES.count(value.value), 16, " in", None),
        Units::Metric => decimal(MILLIMETRES.count(value.value), 0, " mm"),
    }
}

/// "67 9/32 in", to the nearest 1/32; "1702.5 mm", to the nearest half millimetre. What is sawn by it is
/// within 1/64 in.
pub fn write_cut(value: Length, units: Units) -> Written {
    match units {
        Units::Inch => fractional(INCHES.count(value.value), 32, " in", None),
        Units::Metric => {
            let halves = (MILLIMETRES.count(value.value) * 2.0).round() / 2.0;
            let decimals = if halves.fract() == 0.0 { 0 } else { 1 };
            let text = write_number(halves, decimals);
            Written { text: text + " mm", rounded: differ(halves, MILLIMETRES.count(value.value)) }
        }
    }
}

/// "5 ft 7 1/4 in", to the nearest 1/16 in; "1.702 m", to the nearest millimetre.
pub fn write_feet(value: Length, units: Units) -> Written {
    match units {
        Units::Inch => fractional(INCHES.count(value.value), 16, " in", Some((12, " ft", 12))),
        Units::Metric => decimal(value.value, 3, " m"),
    }
}

/// "8.96 ft²", to two decimals; "0.832 m²", to three.
pub fn write_area(value: Area, units: Units) -> Written {
    match units {
        Units::Inch => decimal(SQUARE_INCHES.count(value.value) / 144.0, 2, " ft²"),
        Units::Metric => decimal(value.value, 3, " m²"),
    }
}

/// "0.892 ft³", to three decimals, two from 10 ft³; "25.27 L", to two decimals, one from 100 L.
pub fn write_volume(value: Volume, units: Units) -> Written {
    match units {
        Units::Inch => {
            let feet = CUBIC_INCHES.count(value.value) / 1728.0;
            decimal(feet, if feet.abs() < 10.0 { 3 } else { 2 }, " ft³")
        }
        Units::Metric => litres(value),
    }
}

fn litres(value: Volume) -> Written {
    let litres = MILLILITRES.count(value.value) / 1000.0;
    decimal(litres, if litres.abs() < 100.0 { 2 } else { 1 }, " L")
}

/// Water as a marked bucket shows it: "5 1/4 qt", to the nearest quarter, as labels say it; from 8 qt
/// "2 gal 1 1/2 qt"; under 1 qt "12 1/2 fl oz". In a metric job "4.75 L", to the nearest 0.05.
pub fn write_water(value: Volume, units: Units) -> Written {
    if units == Units::Metric {
        let litres = MILLILITRES.count(value.value) / 1000.0;
        let near = (litres * 20.0).round() / 20.0;
        let said = decimal(near, 2, " L");
        return Written { rounded: said.rounded || (litres.is_finite() && differ(near, litres)), ..said };
    }
    let quarts = TEASPOONS.count(value.value) / 192.0;
    if quarts.abs() < 1.0 && steps(quarts, 4.0) != Some(4) {
        return fractional(quarts * 32.0, 2, " fl oz", None);
    }
    fractional(quarts, 4, " qt", Some((4, " gal", 8)))
}

/// "55 lb", to 0.1 lb, whole from 100 lb, under 1 lb "6.5 oz"; "24.9 kg", to 0.1 kg, whole from
/// 100 kg, under 1 kg "350 g".
pub fn write_mass(value: Mass, units: Units) -> Written {
    let (small, name, size, large) = match units {
        Units::Inch => (OUNCES.count(value.value), " oz", 16.0, " lb"),
        Units::Metric => (GRAMS.count(value.value), " g", 1000.0, " kg"),
    };
    let value = small / size;
    if small == 0.0 || value.abs() >= 1.0 {
        decimal(value, if value.abs() < 100.0 { 1 } else { 0 }, large)
    } else {
        decimal(small, if units == Units::Inch || small.abs() < 10.0 { 1 } else { 0 }, name)
    }
}

/// A mass as it is weighed out: "12 lb 7 oz"; grams, from 1 kg "5.645 kg". To 0.1 oz, or 1 g.
pub fn write_weighed(value: Mass, units: Units) -> String {
    match units {
        Units::Inch => {
            // Tenths, so that what rounds up to a pound is one.
            let ounces = (OUNCES.count(value.value) * 10.0).round() / 10.0;
            let pounds = (ounces / 16.0).floor();
            let rest = write_number(ounces - pounds * 16.0, 1);
            match (pounds, rest.as_str()) {
                (0.0, rest) => format!("{rest} oz"),
                (pounds, "0") => format!("{} lb", write_number(pounds, 0)),
                (pounds, rest) => format!("{} lb {rest} oz", write_number(pounds, 0)),
            }
        }
        Units::Metric if value.value.abs() < 1.0 => write_number(GRAMS.count(value.value), 0) + " g",
        Units::Metric => write_number(value.value, 3) + " kg",
    }
}

/// A mass as [`write_mass`]; a volume in what it is measured out with: teaspoons, fluid ounces, cups
/// to the nearest quarter, from 8 cups as [`write_water`]; millilitres, from 1 L litres.
pub fn write_dose(value: Dose, units: Units) -> Written {
    let volume = match value {
        Dose::Mass(mass) => return write_mass(mass, units),
        Dose::Volume(volume) => volume,
    };
    if units == Units::Metric {
        let millilitres = MILLILITRES.count(volume.value);
        return match millilitres.abs() {
            small if small < 10.0 => decimal(millilitres, 1, " mL"),
            small if small < 1000.0 => decimal(millilitres, 0, " mL"),
            _ => litres(volume),
        };
    }
    let spoons = TEASPOONS.count(volume.value);
    match spoons.abs() {
        small if small < 6.0 * (1.0 - DUST) => fractional(spoons, 4, " tsp", None),
        small if small < 48.0 * (1.0 - DUST) => fractional(spoons / 6.0, 4, " fl oz", None),
        small if small < 384.0 * (1.0 - DUST) => {
            let cups = fractional(spoons / 48.0, 4, " cups", None);
            if cups.text == "1 cups" { Written { text: "1 cup".to_owned(), ..cups } } else { cups }
        }
        _ => write_water(volume, units),
    }
}

/// "70 °F" or "21.1 °C", to 0.1.
pub fn write_temperature(value: Temperature, units: Units) -> Written {
    // The zero of the scale is far off: what is dust there is dust here.
    let clean = |degrees: f64| if (degrees - degrees.round()).abs() < 1e-9 { degrees.round() } else { degrees };
    match units {
        Units::Inch => decimal(clean(FAHRENHEIT.count(value.value)), 1, " °F"),
        Units::Metric => decimal(clean(CELSIUS.count(value.value)), 1, " °C"),
    }
}

/// "92.5°", to 0.1.
pub fn write_angle(value: Angle) -> Written {
    decimal(DEGREES.count(value.value), 1, "°")
}

/// "140.5 lb/ft³", to 0.1; "2250 kg/m³", whole.
pub fn write_density(value: MassDensity, units: Units) -> Written {
    match units {
        Units::Inch => decimal(POUNDS_A_CUBIC_FOOT.count(value.value), 1, " lb/ft³"),
        Units::Metric => decimal(value.value, 0, " kg/m³"),
    }
}

/// "4.5 min", to 0.1 min under ten; "15 min" and "1 h 30 min", to the minute; "3 days 5 h", to the
/// hour, from two days.
pub fn write_duration(value: Time) -> Written {
    let minutes = value.value / 60.0;
    if minutes.abs() < 9.95 {
        return decimal(minutes, 1, " min");
    }
    if minutes.abs() < 2879.5 {
        return fractional(minutes, 1, " min", Some((60, " h", 60)));
    }
    let written = fractional(minutes / 60.0, 1, " h", Some((24, " days", 48)));
    if written.text.contains("days") { written } else { decimal(minutes / 60.0, 0, " h") }
}

/// A bare number with at most so many decimals, trailing zeros dropped.
pub fn write_number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return NONE.to_owned();
    }
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".to_owned() } else { text }
}

/// "3 bags", "1 bag".
pub fn write_count(value: u32, one: &str, many: &str) -> String {
    format!("{value} {}", if value == 1 { one } else { many })
}

/// "12.5 %", to 0.1 %.
pub fn write_percent(share: f64) -> String {
    decimal(share * 100.0, 1, " %").text
}

/// Sign before the amount and decimals of the currencies that have one; others are written with
/// their code behind the amount and two decimals (ISO 4217).
const CURRENCIES: [(&str, &str, u32); 5] =
    [("USD", "$", 2), ("EUR", "€", 2), ("GBP", "£", 2), ("JPY", "¥", 0), ("CNY", "¥", 2)];

/// "$1,234.50": an amount in the currency of that ISO 4217 code, rounded half away from zero to what
/// the currency has coins for. Where there are no decimals, thousands are parted by a no-break
/// space, so that the text can be read back.
pub fn write_money(value: Decimal, currency: &str) -> String {
    let known = CURRENCIES.iter().find(|(code, _, _)| *code == currency);
    let decimals = known.map_or(2, |&(_, _, decimals)| decimals);
    let value = value.round_dp_with_strategy(decimals, RoundingStrategy::MidpointAwayFromZero);
    let plain = value.abs().to_string();
    let (whole, behind) = plain.split_once('.').unwrap_or((&plain, ""));
    let mut amount = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index) % 3 == 0 {
            amount.push(if decimals == 0 { '\u{A0}' } else { ',' });
        }
        amount.push(digit);
    }
    if decimals > 0 {
        amount.push('.');
        amount.push_str(behind);
        amount.extend(std::iter::repeat_n('0', (decimals as usize).saturating_sub(behind.len())));
    }
    let minus = if value.is_sign_negative() && !value.is_zero() { "-" } else { "" };
    match known {
        Some((_, sign, _)) => format!("{minus}{sign}{amount}"),
        None => format!("{minus}{amount} {currency}"),
    }
}
