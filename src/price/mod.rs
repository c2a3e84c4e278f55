//! What the material costs, what the hours cost, and what the client pays. Money is decimal throughout.

pub mod book;
pub mod compare;
pub mod cost;
pub mod goods;
pub mod hours;
pub mod maker;
pub mod money;
pub mod pricing;
pub mod quote;
pub mod shopping;
pub mod trip;

use crate::job::read::{self, all};
pub use maker::{BagPrice, ChargeBy, Good, LoggedHours, MarginOn, OwnedPad, Pace, PriceBook};
pub use pricing::{Need, Needs, Pricing};

use crate::job::{BagField, Job, Place};
use crate::measure::{read_money, write_count, write_money};
use crate::mix::Order;
use crate::working::{Figure, Known, Source, Waiting, Working};
use rust_decimal::Decimal;

/// What the bags of a job cost.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialCost {
    /// All bags, in the currency of the price book.
    pub bags: Figure<Decimal>,
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
