//! What the material costs, what the hours cost, and what the client pays. Money is decimal throughout.

pub mod book;
pub mod compare;
pub mod cost;
pub mod goods;
pub mod hours;
pub mod limits;
pub mod maker;
pub mod money;
pub mod pricing;
pub mod quote;
pub mod shopping;
pub mod trip;

use crate::job::read::{self, all};
pub use maker::{BagPrice, ChargeBy, Good, LoggedHours, MarginOn, OwnedPad, Pace, PriceBook};
pub use pricing::{BillItem, BillOfMaterials, Pricing};

use book::Amount;

use crate::job::{BagField, FieldPath, Job};
use crate::measure::{read_money, write_count, write_money};
use crate::mix::{Material, Order, Supply};
use crate::working::{Figure, Known, Source, Waiting, Working};
use rust_decimal::Decimal;

/// What the mixes of a job cost.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialCost {
    /// All bags, and everything of mixes made from scratch but water, in the currency of the price book.
    pub bags: Figure<Decimal>,
}

/// What one thing costs.
struct Priced {
    place: FieldPath,
    name: String,
    formula: String,
    numbers: String,
    cost: Decimal,
}

impl MaterialCost {
    /// What the mixes of all orders cost.
    ///
    /// # Errors
    /// What it waits for: an order, or the price of a bag or a material. A price has no place of its own in a job:
    /// its need stands at the name of the mix.
    pub fn of(orders: &[Known<Order>], job: &Job, prices: &PriceBook) -> Known<Self> {
        let priced = all(orders.iter().map(|order| {
            let order = order.as_ref().map_err(Waiting::clone)?;
            match &order.supply {
                Supply::Bags(_) => bags(order, job, prices).map(|priced| vec![priced]),
                Supply::Scratch(scratch) => {
                    let place = FieldPath::Bag(order.bag, BagField::Name);
                    all(scratch.materials.iter().filter_map(|one| material(one, place, prices)))
                }
            }
        }))?;
        let priced: Vec<_> = priced.into_iter().flatten().collect();
        let write = |amount| write_money(amount, &prices.currency);
        let scratch = orders.iter().flatten().any(|order| order.scratch().is_some());
        let (title, all) = if scratch { ("Cost of the mix", "all of it") } else { ("Cost of the bags", "all bags") };
        let mut working = Working::new(title);
        let mut sum = Decimal::ZERO;
        for one in &priced {
            let Some(larger) = sum.checked_add(one.cost) else { return Err(too_large(one.place, &one.name)) };
            sum = larger;
            working = working.line(one.formula.clone(), one.numbers.clone(), write(one.cost), Source::Typed);
        }
        if priced.len() != 1 {
            let parts: Vec<_> = priced.iter().map(|one| write(one.cost)).collect();
            working = working.line(all, parts.join(" + "), write(sum), Source::Arithmetic);
        }
        Ok(Self { bags: working.of(sum) })
    }
}

fn too_large(place: FieldPath, name: &str) -> Waiting {
    Waiting::at(place, format!("Price of {name}: too large to be a price."))
}

fn bags(order: &Order, job: &Job, prices: &PriceBook) -> Known<Priced> {
    let id = job.bags.get(order.bag).map_or("", |bag| bag.id.as_str());
    let name = read::bag_name(job, order.bag);
    let place = FieldPath::Bag(order.bag, BagField::Name);
    let price =
        read_money(prices.price(id)).map_err(|error| Waiting::at(place, format!("Price of {name}: {error}")))?;
    let cost = price.checked_mul(Decimal::from(order.bags.value)).ok_or_else(|| too_large(place, &name))?;
    let count = write_count(order.bags.value, "bag", "bags");
    let numbers = format!("{count} × {}", write_money(price, &prices.currency));
    Ok(Priced { place, formula: format!("{name}: bags × price"), numbers, cost, name })
}

/// What a material costs; nothing for water.
fn material(material: &Material, place: FieldPath, prices: &PriceBook) -> Option<Known<Priced>> {
    let id = goods::id_of(material)?;
    let name = &material.name;
    Some(match prices.item(&id, name) {
        Ok(listed) if listed.priced => {
            let charged = listed.item.charged(Amount::Mass(material.mass.value), &prices.currency);
            charged.map_err(|problem| Waiting::at(place, problem.words())).map(|charged| Priced {
                place,
                name: name.clone(),
                formula: charged.name,
                numbers: charged.numbers,
                cost: charged.amount,
            })
        }
        Ok(_) => Err(Waiting::at(place, format!("Price of {name}: nothing is written here yet."))),
        Err(says) => Err(Waiting::at(place, says)),
    })
}
