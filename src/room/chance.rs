//! How likely chance alone is: the chi-square distribution.

use std::f64::consts::PI;

/// Terms after which a sum or fraction is taken as it is. They settle in far fewer for every value
/// that readings give.
const MOST_TERMS: usize = 10_000;

/// The logarithm of the gamma function of half a whole number, by its recurrence from Γ(1/2) = √π and
/// Γ(1) = 1.
fn ln_gamma_of_half(halves: u32) -> f64 {
    let (mut at, mut sum) = if halves.is_multiple_of(2) { (1.0, 0.0) } else { (0.5, PI.sqrt().ln()) };
    while at < f64::from(halves) / 2.0 {
        sum += f64::ln(at);
        at += 1.0;
    }
    sum
}

/// The chance that good readings give a chi-square of at least this, with so many degrees of freedom:
/// the regularised upper incomplete gamma function Q(ν/2, χ²/2), by its series below ν/2 + 1 and its
/// continued fraction above. 1 for no degrees of freedom, and for what is no number.
pub(super) fn chance_of_more(chi_square: f64, degrees_of_freedom: u32) -> f64 {
    let (shape, at) = (f64::from(degrees_of_freedom) / 2.0, chi_square / 2.0);
    if degrees_of_freedom == 0 || at.is_nan() || at <= 0.0 {
        return 1.0;
    }
    if at.is_infinite() {
        return 0.0;
    }
    let front = (shape * at.ln() - at - ln_gamma_of_half(degrees_of_freedom)).exp();
    let chance = if at < shape + 1.0 {
        let (mut term, mut sum) = (1.0 / shape, 1.0 / shape);
        for count in 1..MOST_TERMS {
            term *= at / (shape + count as f64);
            sum += term;
            if term < sum * f64::EPSILON {
                break;
            }
        }
        1.0 - front * sum
    } else {
        front * upper_fraction(shape, at)
    };
    chance.clamp(0.0, 1.0)
}

/// The continued fraction 1/(x+1−a− 1(1−a)/(x+3−a− 2(2−a)/(x+5−a− …))), from the front.
fn upper_fraction(shape: f64, at: f64) -> f64 {
    let mut denominator = at + 1.0 - shape;
    let (mut above, mut below) = (f64::MAX, 1.0 / denominator);
    let mut value = below;
    for count in 1..MOST_TERMS {
        let count = count as f64;
        let numerator = -count * (count - shape);
        denominator += 2.0;
        below = 1.0 / (denominator + numerator * below);
        above = denominator + numerator / above;
        value *= above * below;
        if (above * below - 1.0).abs() < 4.0 * f64::EPSILON {
            break;
        }
    }
    value
}

/// The chi-square that good readings exceed with that chance. 0 for no degrees of freedom.
pub(super) fn critical_chi_square(chance: f64, degrees_of_freedom: u32) -> f64 {
    if degrees_of_freedom == 0 {
        return 0.0;
    }
    let (mut low, mut high) = (0.0, 1.0);
    while high < 1e6 && chance_of_more(high, degrees_of_freedom) > chance {
        high *= 2.0;
    }
    for _ in 0..64 {
        let middle = (low + high) / 2.0;
        if chance_of_more(middle, degrees_of_freedom) > chance { low = middle } else { high = middle }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Upper critical values of chi-square, NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.4,
    /// from memory.
    #[test]
    fn critical_values_as_tables_print_them() {
        let tables = [
            (0.05, [(1, 3.841), (2, 5.991), (3, 7.815), (4, 9.488), (5, 11.070), (10, 18.307), (30, 43.773)]),
            (0.01, [(1, 6.635), (2, 9.210), (3, 11.345), (4, 13.277), (5, 15.086), (10, 23.209), (30, 50.892)]),
        ];
        for (chance, column) in tables {
            for (freedom, printed) in column {
                let found = critical_chi_square(chance, freedom);
                assert!((found - printed).abs() <= 0.000_51, "{freedom} at {chance}: {found}, not {printed}");
            }
        }
    }

    /// Closed forms: exp(−χ²/2) for two degrees of freedom, exp(−χ²/2) (1 + χ²/2) for four.
    #[test]
    fn chances_of_even_degrees_in_closed_form() {
        for chi_square in [1e-6, 0.1, 1.0, 3.9, 4.1, 6.5, 20.0, 200.0] {
            let two = f64::exp(-chi_square / 2.0);
            let four = two * (1.0 + chi_square / 2.0);
            assert!((chance_of_more(chi_square, 2) / two - 1.0).abs() < 1e-12, "{chi_square}");
            assert!((chance_of_more(chi_square, 4) / four - 1.0).abs() < 1e-12, "{chi_square}");
        }
    }

    #[test]
    fn every_value_gives_a_chance() {
        for freedom in [0, 1, 2, 7, 99, 100] {
            for chi_square in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e-300, 1e5, 1e300] {
                let chance = chance_of_more(chi_square, freedom);
                assert!((0.0..=1.0).contains(&chance), "{chi_square} on {freedom}: {chance}");
            }
        }
    }
}
