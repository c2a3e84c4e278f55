//! Money: decimal, and rounded in one way only.

use crate::measure::{Quantity, write_number};
use crate::working::{Label, Term};
use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};
use std::borrow::Cow;

/// Currencies whose smallest coin is not a hundredth, and its decimals (ISO 4217).
const MINOR: [(&str, u32); 23] = [
    ("BIF", 0),
    ("CLP", 0),
    ("DJF", 0),
    ("GNF", 0),
    ("ISK", 0),
    ("JPY", 0),
    ("KMF", 0),
    ("KRW", 0),
    ("PYG", 0),
    ("RWF", 0),
    ("UGX", 0),
    ("VND", 0),
    ("VUV", 0),
    ("XAF", 0),
    ("XOF", 0),
    ("XPF", 0),
    ("BHD", 3),
    ("IQD", 3),
    ("JOD", 3),
    ("KWD", 3),
    ("LYD", 3),
    ("OMR", 3),
    ("TND", 3),
];

/// Decimals of a share that goes into money: a millionth of a pad is no money in any currency.
const SHARE_DECIMALS: u32 = 6;

/// What is wrong with an amount.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// What it names is no number, or under zero.
    NoNumber(String),
    /// What it names is past all measure.
    TooLarge(String),
    /// The book has no item of that id.
    NoItem(String),
    /// The need of that item is not of the kind that its pack is sold by.
    OtherKind(String),
    /// The pack of that item holds nothing.
    EmptyPack(String),
    /// An item that is re-used has no uses.
    NoUses(String),
    /// A margin on the price leaves nothing of it for the cost.
    MarginTooLarge,
}

impl Problem {
    /// One sentence: what is wrong, and what to do.
    pub fn words(&self) -> String {
        match self {
            Self::NoNumber(what) => format!("{what}: a number is needed that is not under zero."),
            Self::TooLarge(what) => format!("{what}: too large to be meant."),
            Self::NoItem(id) => format!("“{id}” is not in the price book: add it there."),
            Self::OtherKind(name) => format!("{name}: it is sold by another measure than it is needed by."),
            Self::EmptyPack(name) => format!("{name}: write how much is in a pack."),
            Self::NoUses(name) => format!("{name}: write how many times it is used."),
            Self::MarginTooLarge => "The margin is on the price, so that it must be under 100 %.".to_owned(),
        }
    }
}

/// Decimals of the smallest coin of the currency of that ISO 4217 code; two where it is not known.
pub fn minor_decimals(currency: &str) -> u32 {
    MINOR.iter().find(|(code, _)| *code == currency).map_or(2, |(_, decimals)| *decimals)
}

/// An amount in whole smallest coins, halves to the even coin, so that roundings do not add up to one side.
/// Every line is rounded, and sums are of rounded lines: what is seen adds up.
pub fn rounded(amount: Decimal, currency: &str) -> Decimal {
    amount.round_dp_with_strategy(minor_decimals(currency), RoundingStrategy::MidpointNearestEven)
}

/// A share or a count as a decimal, to a millionth, halves to even.
///
/// # Errors
/// It is no number, under zero, or past all measure; `what` names it.
pub fn decimal(value: f64, what: &str) -> Result<Decimal, Problem> {
    if value.is_nan() || value < 0.0 {
        return Err(Problem::NoNumber(what.to_owned()));
    }
    let found = Decimal::try_from(value).map_err(|_| Problem::TooLarge(what.to_owned()))?;
    Ok(found.round_dp_with_strategy(SHARE_DECIMALS, RoundingStrategy::MidpointNearestEven))
}

/// An amount times a factor, in whole smallest coins.
///
/// # Errors
/// The outcome is past all measure; `what` names it.
pub fn times(amount: Decimal, factor: Decimal, currency: &str, what: &str) -> Result<Decimal, Problem> {
    let product = amount.checked_mul(factor).ok_or_else(|| Problem::TooLarge(what.to_owned()))?;
    Ok(rounded(product, currency))
}

/// An amount over a divisor, in whole smallest coins.
///
/// # Errors
/// The divisor is nothing, or the outcome past all measure; `what` names it.
pub fn divided(amount: Decimal, divisor: Decimal, currency: &str, what: &str) -> Result<Decimal, Problem> {
    let quotient = amount.checked_div(divisor).ok_or_else(|| Problem::TooLarge(what.to_owned()))?;
    Ok(rounded(quotient, currency))
}

/// The sum of amounts.
///
/// # Errors
/// It is past all measure; `what` names it.
pub fn sum(amounts: impl IntoIterator<Item = Decimal>, what: &str) -> Result<Decimal, Problem> {
    let mut sum = Decimal::ZERO;
    for amount in amounts {
        sum = sum.checked_add(amount).ok_or_else(|| Problem::TooLarge(what.to_owned()))?;
    }
    Ok(sum)
}

/// An amount in parts by weight, in whole smallest coins: the parts add up to it to the coin. All nothing where no
/// weight is over zero.
///
/// # Errors
/// A weight is no number or under zero, or they are past all measure; `what` names them.
pub fn split(amount: Decimal, weights: &[f64], currency: &str, what: &str) -> Result<Vec<Decimal>, Problem> {
    let amount = rounded(amount, currency);
    let all: f64 = weights.iter().sum();
    let mut reached = 0.0;
    let mut paid = Decimal::ZERO;
    let mut parts = Vec::new();
    for weight in weights {
        if !(weight.is_finite() && *weight >= 0.0 && all.is_finite()) {
            return Err(Problem::NoNumber(what.to_owned()));
        }
        reached += weight;
        // Rounding where each part ends, and not the part itself, leaves nothing over.
        let share = if all > 0.0 { decimal((reached / all).min(1.0), what)? } else { Decimal::ZERO };
        let until = times(amount, share, currency, what)?;
        parts.push(until - paid);
        paid = until;
    }
    Ok(parts)
}

/// An amount that money goes by: not under zero.
pub(super) fn not_negative(amount: Decimal, what: &str) -> Result<Decimal, Problem> {
    if amount.is_sign_negative() && !amount.is_zero() { Err(Problem::NoNumber(what.to_owned())) } else { Ok(amount) }
}

/// How an amount is written in the currency of that ISO 4217 code.
pub(super) fn money(amount: Decimal, currency: &str) -> Quantity {
    Quantity::Money(amount, Cow::Owned(currency.to_owned()))
}

/// An amount that goes into a formula by name.
pub(super) fn amount(amount: Decimal, name: impl Into<Label>, currency: &str) -> Term<Decimal> {
    Term::named_as(amount, name, money(amount, currency))
}

/// A share of one that goes into a formula by name, written in percent with all of its places: "8.25 %".
pub(super) fn share(share: Decimal, name: &'static str) -> Term<Decimal> {
    let write = |share: f64, _| write_number(share * 100.0, 4) + " %";
    Term::named_as(share, name, Quantity::other(share.to_f64().unwrap_or(f64::NAN), write))
}

/// How hours that are paid are written: "2.75 h".
pub(super) fn paid(hours: Decimal) -> Quantity {
    Quantity::other(hours.to_f64().unwrap_or(f64::NAN), |hours, _| write_number(hours, 2) + " h")
}

/// What a formula comes to in whole smallest coins, as [`rounded`] has it.
pub(super) fn in_coins(formula: Term<Decimal>, amount: Decimal, currency: &str) -> Term<Decimal> {
    let coin = 0.1_f64.powi(minor_decimals(currency).cast_signed());
    formula.rounded("{}", 0.5 * coin, amount)
}
