//! Numbers of the page, written the same on every machine: what the last bits of a float say is left out.

/// How no difference is written.
pub const NONE: &str = "none";

/// Whether that is what rounding of floats makes of no difference.
pub fn is_noise(off: f64, expected: f64, tolerance: f64) -> bool {
    let scale = if expected == 0.0 { 1e-3 * tolerance } else { 1e-9 * expected.abs() };
    off.abs() <= scale
}

/// As it was typed: the fewest digits that are this number and no other.
pub fn exact(value: f64) -> String {
    minus(&format!("{value}"))
}

/// A number that is compared with another, with two digits more than that has.
pub fn like(value: f64, expected: f64) -> String {
    if expected == 0.0 {
        return trimmed(&format!("{value:.6}"));
    }
    let text = format!("{}", expected.abs());
    let digits = text.trim_start_matches(['0', '.']).bytes().filter(u8::is_ascii_digit).count();
    significant(value, (digits + 2).clamp(5, 12))
}

/// A difference with its sign.
pub fn signed(value: f64) -> String {
    let sign = if value < 0.0 { "−" } else { "+" };
    format!("{sign}{}", significant(value.abs(), 2))
}

/// A share in percent, with its sign.
pub fn percent(share: f64) -> String {
    format!("{} %", signed(share * 100.0))
}

/// How much of a tolerance is used.
pub fn used(share: f64) -> String {
    match share * 100.0 {
        0.0 => "0 %".to_owned(),
        percent if percent < 0.5 => "under 1 %".to_owned(),
        percent => format!("{percent:.0} %"),
    }
}

/// So many digits after the leading zeros, less the zeros at the end.
fn significant(value: f64, digits: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return value.to_string();
    }
    let leading = value.abs().log10().floor() as i32;
    let places = (digits as i32 - 1 - leading).clamp(0, 15) as usize;
    trimmed(&format!("{value:.places$}"))
}

fn trimmed(text: &str) -> String {
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text };
    minus(if text == "-0" { "0" } else { text })
}

fn minus(text: &str) -> String {
    text.replace('-', "−")
}

#[test]
fn numbers_as_they_are_written() {
    assert_eq!(exact(0.004_062), "0.004062");
    assert_eq!(exact(-0.0882), "−0.0882");
    assert_eq!(like(25.400_000_000_000_002, 25.4), "25.4");
    assert_eq!(like(0.004_063_141_59, 0.004_062), "0.00406314");
    assert_eq!(like(3_604_996.533, 3_604_997.0), "3604996.53");
    assert_eq!(like(-1e-17, 0.0), "0");
    assert_eq!(signed(-0.001_234), "−0.0012");
    assert_eq!(percent(0.001), "+0.1 %");
    assert_eq!(used(0.0), "0 %");
    assert_eq!(used(0.004), "under 1 %");
    assert_eq!(used(0.666), "67 %");
    assert!(is_noise(1e-13, 25.4, 1e-3) && !is_noise(1e-6, 25.4, 1e-3));
}
