//! What the material costs, what the hours cost, and what the client pays. Money is decimal throughout.

pub mod book;
pub mod compare;
pub mod cost;
pub mod goods;
pub mod hours;
mod inputs;
pub mod limits;
pub mod maker;
pub mod money;
pub mod pricing;
pub mod quote;
pub mod shopping;
pub mod trip;

pub use inputs::{NamedMix, OfferInputs, PriceInputs, hours_taken};
pub use maker::{BagPrice, ChargeBy, Good, LoggedHours, MarginOn, OwnedPad, Pace, PriceBook};
pub use pricing::{BillItem, BillOfMaterials, Pricing};

use crate::job::{BagField, FieldPath};
use crate::measure::Quantity;
use crate::mix::{Material, Order, Supply};
use crate::working::{Figure, Known, Label, Source, Term, Waiting, all, known_ref};
use book::Amount;
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
    cost: Term<Decimal>,
}

impl MaterialCost {
    /// What the mixes of all orders cost.
    ///
    /// # Errors
    /// What it waits for: an order, or the price of a bag or a material. A price has no place of its own in a job:
    /// its need stands at the name of the mix.
    pub fn of(orders: &[Known<Order>], inputs: &PriceInputs, prices: &PriceBook) -> Known<Self> {
        let priced = all(orders.iter().map(|order| {
            let order = known_ref(order)?;
            match &order.supply {
                Supply::Bags(_) => bags(order, &inputs.mix(order.bag), prices).map(|priced| vec![priced]),
                Supply::Scratch(scratch) => {
                    let place = FieldPath::Bag(order.bag, BagField::Name);
                    all(scratch.materials.iter().filter_map(|one| material(one, place, prices)))
                }
            }
        }))?;
        let mut priced: Vec<_> = priced.into_iter().flatten().collect();
        let mut sum = Decimal::ZERO;
        for one in &priced {
            let Some(larger) = sum.checked_add(one.cost.value) else { return Err(too_large(one.place, &one.name)) };
            sum = larger;
        }
        let scratch = orders.iter().flatten().any(|order| order.scratch().is_some());
        let title = if scratch { "Cost of the mix" } else { "Cost of the bags" };
        let written = |amount| money::money(amount, &prices.currency);
        let only = if priced.len() == 1 { priced.pop() } else { None };
        let bags = match only {
            Some(only) => only.cost.titled_as(title, written(sum), Source::Typed),
            None => {
                let each = |one: Priced| {
                    let cost = written(one.cost.value);
                    one.cost.step_as(one.name, cost, Source::Typed)
                };
                Term::sum(priced.into_iter().map(each)).titled_as(title, written(sum), Source::Arithmetic)
            }
        };
        Ok(Self { bags })
    }
}

fn too_large(place: FieldPath, name: &str) -> Waiting {
    Waiting::at(place, format!("Price of {name}: too large to be a price."))
}

fn bags(order: &Order, mix: &NamedMix, prices: &PriceBook) -> Known<Priced> {
    let name = mix.name.clone();
    let place = FieldPath::Bag(order.bag, BagField::Name);
    let price = prices.bag_price(&mix.id).map_err(|error| Waiting::at(place, format!("Price of {name}: {error}")))?;
    let count = Decimal::from(order.bags.value);
    if price.checked_mul(count).is_none() {
        return Err(too_large(place, &name));
    }
    let counted = Quantity::Count(order.bags.value, "bag", "bags");
    let bags = Term::named_as(count, Label::words(format!("bags of {name}")), counted);
    Ok(Priced { place, cost: bags * money::amount(price, "price of a bag", &prices.currency), name })
}

/// What a material costs; nothing for water.
fn material(material: &Material, place: FieldPath, prices: &PriceBook) -> Option<Known<Priced>> {
    let id = goods::id_of(material)?;
    let name = &material.name;
    Some(match prices.item(&id, name) {
        Ok(listed) if listed.priced => {
            let paid = listed.item.paid(Amount::Mass(material.mass.value), &prices.currency);
            paid.map_err(|problem| Waiting::at(place, problem.words())).map(|cost| Priced {
                place,
                name: name.clone(),
                cost,
            })
        }
        Ok(_) => Err(Waiting::at(place, format!("Price of {name}: nothing is written here yet."))),
        Err(says) => Err(Waiting::at(place, says)),
    })
}
