//! What the material costs, what the hours cost, and what the client pays. Money is decimal throughout.

pub mod book;
pub mod compare;
pub mod cost;
pub mod hours;
pub mod money;
pub mod quote;
pub mod shopping;

use crate::job::read::{self, all};
use crate::job::{BagField, Entry, Job, Place};
use crate::measure::{read_money, write_count, write_money};
use crate::mix::Order;
use crate::working::{Figure, Known, Source, Waiting, Working};
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

/// What one bag costs, as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct BagPrice {
    /// The id of the bag.
    pub bag: String,
    /// Price of one bag.
    pub price: Entry,
}

/// The maker's prices, kept apart from jobs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PriceBook {
    /// ISO 4217 code of the currency.
    pub currency: String,
    /// Prices known so far.
    pub bags: Vec<BagPrice>,
}

impl Default for PriceBook {
    /// US dollars, and no price known yet.
    fn default() -> Self {
        Self { currency: "USD".to_owned(), bags: Vec::new() }
    }
}

/// What the bags of a job cost.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialCost {
    /// All bags, in the currency of the price book.
    pub bags: Figure<Decimal>,
}

impl PriceBook {
    /// What was typed as the price of the bag with that id; blank if nothing was.
    pub fn price(&self, bag: &str) -> &str {
        self.bags.iter().find(|price| price.bag == bag).map_or("", |price| price.price.text())
    }
}

impl MaterialCost {
    /// What the bags of all orders cost.
    ///
    /// # Errors
    /// What it waits for: an order, or the price of a bag. A price has no place of its own in a job:
    /// its need stands at the name of the bag.
    pub fn of(orders: &[Known<Order>], job: &Job, prices: &PriceBook) -> Known<Self> {
        let priced = orders.iter().map(|order| {
            let order = order.as_ref().map_err(Waiting::clone)?;
            let id = job.bags.get(order.bag).map_or("", |bag| bag.id.as_str());
            let name = read::bag_name(job, order.bag);
            let place = Place::Bag(order.bag, BagField::Name);
            let price = read_money(prices.price(id))
                .map_err(|error| Waiting::at(place, format!("Price of {name}: {error}")))?;
            let cost = price
                .checked_mul(Decimal::from(order.bags.value))
                .ok_or_else(|| Waiting::at(place, format!("Price of {name}: too large to be a price.")))?;
            Ok((name, place, order.bags.value, price, cost))
        });
        let priced = all(priced)?;
        let write = |amount| write_money(amount, &prices.currency);
        let mut working = Working::new("Cost of the bags");
        let mut sum = Decimal::ZERO;
        for (name, place, bags, price, cost) in &priced {
            let Some(larger) = sum.checked_add(*cost) else {
                return Err(Waiting::at(*place, format!("Price of {name}: too large to be a price.")));
            };
            sum = larger;
            let numbers = format!("{} × {}", write_count(*bags, "bag", "bags"), write(*price));
            working = working.line(format!("{name}: bags × price"), numbers, write(*cost), Source::Typed);
        }
        if priced.len() != 1 {
            let parts: Vec<_> = priced.iter().map(|(.., cost)| write(*cost)).collect();
            working = working.line("all bags", parts.join(" + "), write(sum), Source::Arithmetic);
        }
        Ok(Self { bags: working.of(sum) })
    }
}
