//! What the client is offered, and what the maker should know before offering it.

use super::cost::{CostSheet, Terms, one};
use super::money::{self, Problem, decimal, divided, in_coins, not_negative, sum, times};
use crate::measure::exact::inches;
use crate::measure::{Area, Date, Quantity, Units, write_area};
use crate::working::{Figure, Source, Term};
use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};
use uom::si::area::square_meter;

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
    let (title, count) = match units {
        Units::Inch => ("Price per square foot", (face / square_foot()).value),
        Units::Metric => ("Price per square metre", face.value),
    };
    let count = decimal(count, "Area of the face")?;
    let price = divided(net, count, currency, title)?;
    // As many of them as are divided by.
    let write: fn(f64, Units) -> String = match units {
        Units::Inch => |count, units| write_area(count * square_foot(), units).text,
        Units::Metric => |count, units| write_area(Area::new::<square_meter>(count), units).text,
    };
    let counted = count.to_f64().unwrap_or(f64::NAN);
    let face = Term::named_as(count, "finished face", Quantity::other(counted, write));
    let formula = in_coins(money::amount(net, "price before tax", currency) / face, price, currency);
    Ok(formula.titled_as(title, money::money(price, currency), Source::Arithmetic))
}

fn square_foot() -> Area {
    inches(12.0) * inches(12.0)
}

/// What a job can bear before it loses money. An hour more costs its wage and the overhead on it.
///
/// # Errors
/// The outcome is past all measure.
pub fn break_even(sheet: &CostSheet, terms: &Terms) -> Result<BreakEven, Problem> {
    let currency = sheet.currency.as_str();
    let tax = times(sheet.cost, terms.tax, currency, "Tax")?;
    let price = sum([sheet.cost, tax], "Break-even")?;
    let cost = money::amount(sheet.cost, "cost", currency);
    let on_it = in_coins(cost.clone() * money::share(terms.tax, "tax on it"), tax, currency);
    let on_it = on_it.step_as("tax", money::money(tax, currency), terms.sources.tax);
    let price =
        (cost + on_it).titled_as("Price at which nothing is earned", money::money(price, currency), Source::Arithmetic);
    Ok(BreakEven { price, hours: hours_to_spare(sheet, terms)? })
}

fn hours_to_spare(sheet: &CostSheet, terms: &Terms) -> Result<Option<Figure<Decimal>>, Problem> {
    let currency = sheet.currency.as_str();
    let too_large = || Problem::TooLarge("Break-even".to_owned());
    let an_hour = Decimal::ONE.checked_add(terms.overhead).and_then(|share| share.checked_mul(terms.wage));
    let an_hour = an_hour.ok_or_else(too_large)?;
    if an_hour.is_zero() {
        return Ok(None);
    }
    let spare = sheet.margin.checked_div(an_hour).ok_or_else(too_large)?;
    let hours = sheet.hours.checked_add(spare).ok_or_else(too_large)?;
    let hours = hours.round_dp_with_strategy(2, RoundingStrategy::ToNegativeInfinity);
    let formula = money::amount(terms.wage, "wage", currency) * (one() + money::share(terms.overhead, "overhead"));
    let an_hour = formula.step_as("cost of an hour", money::money(an_hour, currency), Source::Typed);
    let bears = money::amount(sheet.margin, "margin", currency) / an_hour;
    let all = Term::named_as(sheet.hours, "hours", money::paid(sheet.hours)) + bears;
    let all = all.rounded("{}, rounded down", 0.01, hours);
    Ok(Some(all.titled_as("Hours until it loses money", money::paid(hours), Source::Arithmetic)))
}
