//! What the material costs. Money is decimal throughout.

use crate::job::Entry;
use crate::working::Figure;
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
