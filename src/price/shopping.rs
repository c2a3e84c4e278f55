//! The list for the shop: what several jobs need together, less what is in stock, in whole packs.

use super::book::{Amount, Book, Charge, Item, Use};
use super::money::{Problem, not_negative, split, sum, times};
use crate::measure::{Units, write_count, write_money};
use rust_decimal::Decimal;

/// What one job needs.
#[derive(Clone, Debug, PartialEq)]
pub struct JobNeeds {
    /// What the job is called.
    pub job: String,
    /// In any order; an item may come more than once.
    pub uses: Vec<Use>,
}

/// What several jobs need together.
#[derive(Clone, Debug, PartialEq)]
pub struct Basket {
    /// The jobs.
    pub jobs: Vec<JobNeeds>,
    /// What is on the shelf.
    pub stock: Vec<Use>,
    /// The jobs stand in their forms at the same time. If not, what is re-used is bought once, for the job that
    /// takes most of it.
    pub at_once: bool,
}

/// One row of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct ShoppingRow {
    /// The item by its id.
    pub item: String,
    /// What it is called.
    pub name: String,
    /// What one pack holds.
    pub pack: Amount,
    /// What each job needs of it.
    pub needs: Vec<(String, Amount)>,
    /// What they need together.
    pub needed: Amount,
    /// What is on the shelf.
    pub in_stock: Amount,
    /// Packs to buy; none where the shelf holds enough.
    pub packs: u32,
    /// What they cost.
    pub cost: Decimal,
}

/// The list.
#[derive(Clone, Debug, PartialEq)]
pub struct ShoppingList {
    /// ISO 4217 code.
    pub currency: String,
    /// In the order of the book.
    pub rows: Vec<ShoppingRow>,
    /// What all of it costs: exactly the sum of the rows.
    pub cost: Decimal,
}

/// All uses of an item, together; nothing where there are none.
fn together<'a>(item: &Item, uses: impl Iterator<Item = &'a Use>) -> Result<Amount, Problem> {
    let mut all = item.pack.scaled(0.0);
    for one in uses.filter(|one| one.item == item.id) {
        if !one.amount.is_sound() {
            return Err(Problem::NoNumber(item.name.clone()));
        }
        all = all.plus(one.amount).ok_or_else(|| Problem::OtherKind(item.name.clone()))?;
    }
    Ok(all)
}

fn row(item: &Item, basket: &Basket, currency: &str) -> Result<Option<ShoppingRow>, Problem> {
    let other_kind = || Problem::OtherKind(item.name.clone());
    if !item.pack.is_sound() || item.pack.is_nothing() {
        let used = basket.jobs.iter().flat_map(|job| &job.uses).any(|one| one.item == item.id);
        return if used { Err(Problem::EmptyPack(item.name.clone())) } else { Ok(None) };
    }
    let shared = matches!(item.charge, Charge::Uses(_)) && !basket.at_once;
    let mut needed = item.pack.scaled(0.0);
    let mut needs = Vec::new();
    for job in &basket.jobs {
        let own = together(item, job.uses.iter())?;
        if own.is_nothing() {
            continue;
        }
        needed = if shared { needed.larger(own) } else { needed.plus(own) }.ok_or_else(other_kind)?;
        needs.push((job.job.clone(), own));
    }
    if needs.is_empty() {
        return Ok(None);
    }
    let in_stock = together(item, basket.stock.iter())?;
    let packs = item.packs(needed.less(in_stock).ok_or_else(other_kind)?)?;
    let price = not_negative(item.price, &item.name)?;
    let cost = times(price, Decimal::from(packs), currency, &item.name)?;
    Ok(Some(ShoppingRow {
        item: item.id.clone(),
        name: item.name.clone(),
        pack: item.pack,
        needs,
        needed,
        in_stock,
        packs,
        cost,
    }))
}

impl ShoppingList {
    /// The list of a basket: needs are added up first and rounded to whole packs once.
    ///
    /// # Errors
    /// Everything that is wrong with any need, stock or item.
    pub fn of(basket: &Basket, book: &Book) -> Result<Self, Vec<Problem>> {
        let mut wrong = Vec::new();
        for one in basket.jobs.iter().flat_map(|job| &job.uses) {
            match book.item(&one.item) {
                Err(problem) if !wrong.contains(&problem) => wrong.push(problem),
                _ => {}
            }
        }
        let mut rows = Vec::new();
        for (index, item) in book.items.iter().enumerate() {
            // Of two items of one id, jobs find the first.
            if book.items.iter().position(|one| one.id == item.id) != Some(index) {
                continue;
            }
            match row(item, basket, &book.currency) {
                Ok(found) => rows.extend(found),
                Err(problem) => wrong.push(problem),
            }
        }
        let cost = sum(rows.iter().map(|row| row.cost), "Shopping list");
        match cost {
            Ok(cost) if wrong.is_empty() => Ok(Self { currency: book.currency.clone(), rows, cost }),
            Ok(_) => Err(wrong),
            Err(problem) => {
                wrong.push(problem);
                Err(wrong)
            }
        }
    }

    /// The list as plain text, a line for each row, to be sent to a phone.
    pub fn text(&self, units: Units) -> String {
        let mut text = String::new();
        for row in &self.rows {
            text.push_str(&row.words(&self.currency, units));
            text.push('\n');
        }
        text.push_str(&format!("All of it: {}\n", write_money(self.cost, &self.currency)));
        text
    }
}

impl ShoppingRow {
    /// What each job pays of this row, by what it needs, in the order of [`ShoppingRow::needs`]: together
    /// exactly the cost of the row.
    ///
    /// # Errors
    /// The needs are past all measure.
    pub fn shares(&self, currency: &str) -> Result<Vec<Decimal>, Problem> {
        let weights: Option<Vec<_>> = self.needs.iter().map(|(_, need)| need.over(self.pack)).collect();
        let weights = weights.ok_or_else(|| Problem::TooLarge(self.name.clone()))?;
        split(self.cost, &weights, currency, &self.name)
    }

    /// "2 packs of 10 ft of Tape, $12.00 (need 15 ft; in stock 2 ft; Kitchen 10 ft, Bar 5 ft)".
    pub fn words(&self, currency: &str, units: Units) -> String {
        let jobs: Vec<_> = self.needs.iter().map(|(job, need)| format!("{job} {}", need.words(units))).collect();
        let mut behind = format!("need {}", self.needed.words(units));
        if !self.in_stock.is_nothing() {
            behind += &format!("; in stock {}", self.in_stock.words(units));
        }
        behind += &format!("; {}", jobs.join(", "));
        if self.packs == 0 {
            return format!("Enough {} in stock ({behind})", self.name);
        }
        let packs = match self.pack {
            Amount::Count(1.0) => format!("{} × {}", self.packs, self.name),
            _ => {
                format!("{} of {} of {}", write_count(self.packs, "pack", "packs"), self.pack.words(units), self.name)
            }
        };
        format!("{packs}, {} ({behind})", write_money(self.cost, currency))
    }
}
