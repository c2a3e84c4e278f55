//! What the client is offered, and what the maker should know before offering it.

use super::cost::{CostSheet, Terms};
use super::money::{Problem, decimal, divided, not_negative, sum, times, write_share};
use crate::measure::exact::inches;
use crate::measure::{Area, Date, Units, write_area, write_money};
use crate::working::{Figure, Source, Working};
use rust_decimal::{Decimal, RoundingStrategy};

/// What the maker decides about an offer.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The day it is sent.
    pub sent: Date,
    /// It stands for so many days.
    pub valid_days: u32,
    /// Due with the order: a share of the price, of one.
    pub deposit: Decimal,
    /// What is not included: plumbing, removal of the old top.
    pub excluded: Vec<String>,
}

/// An offer: all of it, so that it can be frozen as it was sent.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quote {
    /// ISO 4217 code.
    pub currency: String,
    /// Before tax.
    pub net: Decimal,
    /// On it.
    pub tax: Decimal,
    /// What the client pays in all.
    pub price: Decimal,
    /// Due with the order.
    pub deposit: Decimal,
    /// Due when it is set: exactly the rest.
    pub balance: Decimal,
    /// The day it is sent.
    pub sent: Date,
    /// The last day it stands.
    pub valid_until: Date,
    /// What is not included.
    pub excluded: Vec<String>,
}

/// What the job can bear; the maker's own page.
#[derive(Clone, Debug, PartialEq)]
pub struct BreakEven {
    /// What the client has to pay, tax included, for the cost alone.
    pub price: Figure<Decimal>,
    /// Hours that the job may take before it loses money, to a hundredth, rounded down; none where an hour
    /// costs nothing.
    pub hours: Option<Figure<Decimal>>,
}

impl Quote {
    /// The offer of a sheet.
    ///
    /// # Errors
    /// The deposit is under zero or over the price, or the offer ends after the calendar does.
    pub fn of(sheet: &CostSheet, offer: &Offer) -> Result<Self, Problem> {
        let price = sheet.price.value;
        if not_negative(offer.deposit, "Deposit")? > Decimal::ONE {
            return Err(Problem::TooLarge("Deposit".to_owned()));
        }
        let deposit = times(price, offer.deposit, &sheet.currency, "Deposit")?;
        let days = i32::try_from(offer.valid_days).ok();
        let until = days.and_then(|days| offer.sent.plus_days(days));
        let valid_until = until.ok_or_else(|| Problem::TooLarge("Valid for".to_owned()))?;
        Ok(Self {
            currency: sheet.currency.clone(),
            net: sheet.net,
            tax: sheet.tax,
            price,
            deposit,
            balance: price - deposit,
            sent: offer.sent,
            valid_until,
            excluded: offer.excluded.clone(),
        })
    }

    /// It still stands on that day.
    pub fn is_valid(&self, day: Date) -> bool {
        (self.sent..=self.valid_until).contains(&day)
    }
}

/// The price before tax of a square foot of finished face, or of a square metre: the rule of thumb to test a
/// quote against.
///
/// # Errors
/// The face has no area, or the outcome is past all measure.
pub fn by_area(net: Decimal, face: Area, currency: &str, units: Units) -> Result<Figure<Decimal>, Problem> {
    let foot = inches(12.0);
    let (title, count) = match units {
        Units::Inch => ("Price per square foot", (face / (foot * foot)).value),
        Units::Metric => ("Price per square metre", face.value),
    };
    let price = divided(net, decimal(count, "Area of the face")?, currency, title)?;
    let numbers = format!("{} ÷ {}", write_money(net, currency), write_area(face, units));
    let result = write_money(price, currency);
    Ok(Working::new(title).line("price before tax ÷ finished face", numbers, result, Source::Arithmetic).of(price))
}

/// What a job can bear before it loses money. An hour more costs its wage and the overhead on it.
///
/// # Errors
/// The outcome is past all measure.
pub fn break_even(sheet: &CostSheet, terms: &Terms) -> Result<BreakEven, Problem> {
    let write = |amount| write_money(amount, &sheet.currency);
    let tax = times(sheet.cost, terms.tax, &sheet.currency, "Tax")?;
    let price = sum([sheet.cost, tax], "Break-even")?;
    let working = Working::new("Price at which nothing is earned")
        .line(
            "tax on the cost",
            format!("{} × {}", write(sheet.cost), write_share(terms.tax)),
            write(tax),
            Source::Typed,
        )
        .line("cost + tax", format!("{} + {}", write(sheet.cost), write(tax)), write(price), Source::Arithmetic);
    Ok(BreakEven { price: working.of(price), hours: hours_to_spare(sheet, terms)? })
}

fn hours_to_spare(sheet: &CostSheet, terms: &Terms) -> Result<Option<Figure<Decimal>>, Problem> {
    let write = |amount| write_money(amount, &sheet.currency);
    let too_large = || Problem::TooLarge("Break-even".to_owned());
    let an_hour = Decimal::ONE.checked_add(terms.overhead).and_then(|share| share.checked_mul(terms.wage));
    let an_hour = an_hour.ok_or_else(too_large)?;
    if an_hour.is_zero() {
        return Ok(None);
    }
    let spare = sheet.margin.checked_div(an_hour).ok_or_else(too_large)?;
    let hours = sheet.hours.checked_add(spare).ok_or_else(too_large)?;
    let hours = hours.round_dp_with_strategy(2, RoundingStrategy::ToNegativeInfinity);
    let working = Working::new("Hours until it loses money")
        .line(
            "an hour: wage × (1 + overhead)",
            format!("{} × (1 + {})", write(terms.wage), write_share(terms.overhead)),
            write(an_hour),
            Source::Typed,
        )
        .line(
            "hours + margin ÷ an hour, rounded down",
            format!("{} + {} ÷ {}", sheet.hours.normalize(), write(sheet.margin), write(an_hour)),
            format!("{} h", hours.normalize()),
            Source::Arithmetic,
        );
    Ok(Some(working.of(hours)))
}
