//! One trip to the shop for several jobs.

use super::book::{Amount, Book, Use};
use super::maker::{Listed, PriceBook};
use super::pricing::{BillItem, BillOfMaterials};
use super::shopping::{Basket, JobNeeds, ShoppingList, ShoppingRow};
use crate::job::Job;
use crate::measure::{Units, write_money};

/// A job that is bought for.
#[derive(Clone, Debug, PartialEq)]
pub struct BuyFor {
    /// What it is called in a sentence.
    pub name: String,
    /// What it takes.
    pub needs: BillOfMaterials,
    /// The first thing that is waited for before all of that is known, in the words of the job; nothing where it is.
    pub waits: Option<String>,
}

impl BuyFor {
    /// That job, by that name, with what it takes.
    pub fn new(job: &Job, name: String, needs: BillOfMaterials) -> Self {
        let first = needs.waiting.as_ref().and_then(|waiting| waiting.needs().first());
        Self { name, waits: first.map(|need| need.write(job)), needs }
    }
}

/// The list for several jobs, and what it cannot know yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Trip {
    /// The list; what has no price costs nothing in it.
    pub list: ShoppingList,
    /// What a pack holds, as the book says it, by the ids of its items; nothing where it is one piece.
    pub packs: Vec<(String, String)>,
    /// What has no price in the book, by the ids of its items.
    pub unpriced: Vec<String>,
    /// Jobs of which something is not known yet, by name, and what it waits for first, in the words of the job.
    pub waiting: Vec<(String, String)>,
    /// What of the book cannot be read, and so is not in the list.
    pub wrong: Vec<String>,
}

/// What all jobs need of it, as far as it is measured alike.
fn together(jobs: &[BuyFor], like: &BillItem) -> Amount {
    let alike = jobs.iter().flat_map(|job| &job.needs.known).filter(|need| need.id == like.id);
    alike.fold(like.to_buy.scaled(0.0), |sum, need| sum.plus(need.to_buy).unwrap_or(sum))
}

impl Trip {
    /// The trip for these jobs. `at_once` says that they stand in their forms at the same time.
    ///
    /// # Errors
    /// What is wrong with the list as a whole, in sentences.
    pub fn of(jobs: &[BuyFor], prices: &PriceBook, at_once: bool) -> Result<Self, Vec<String>> {
        let mut found: Vec<(String, Option<Listed>)> = Vec::new();
        let (mut wrong, mut unpriced) = (Vec::new(), Vec::new());
        for need in jobs.iter().flat_map(|job| &job.needs.known) {
            if found.iter().any(|(id, _)| *id == need.id) {
                continue;
            }
            let listed = prices.item(&need.id, &need.name).or_else(|says| {
                // What the shop sells it in is not known: the amount itself is what is bought.
                let good = prices.good(&need.id);
                let bare = good.pack.is_blank() && good.price.is_blank() && need.id.starts_with("additive:");
                if bare { Ok(Listed::by_amount(&need.id, &need.name, together(jobs, need))) } else { Err(says) }
            });
            match listed {
                Ok(listed) => {
                    if !listed.priced {
                        unpriced.push(need.id.clone());
                    }
                    found.push((need.id.clone(), Some(listed)));
                }
                Err(says) => {
                    wrong.push(says);
                    found.push((need.id.clone(), None));
                }
            }
        }
        let packs = found.iter().map(|(id, _)| (id.clone(), prices.pack_words(id))).collect();
        let listed: Vec<_> = found.into_iter().filter_map(|(_, listed)| listed).collect();
        let known = |id: &str| listed.iter().any(|one| one.item.id == id);
        let needs_of = |job: &BuyFor| JobNeeds {
            job: job.name.clone(),
            uses: job
                .needs
                .known
                .iter()
                .filter(|need| known(&need.id))
                .map(|need| Use { item: need.id.clone(), amount: need.to_buy })
                .collect(),
        };
        let basket = Basket {
            jobs: jobs.iter().map(needs_of).collect(),
            stock: listed.iter().map(|one| Use { item: one.item.id.clone(), amount: one.stock }).collect(),
            at_once,
        };
        let book = Book { currency: prices.currency.clone(), items: listed.into_iter().map(|one| one.item).collect() };
        let list = ShoppingList::of(&basket, &book)
            .map_err(|problems| problems.iter().map(super::money::Problem::words).collect::<Vec<_>>())?;
        let waits = |job: &BuyFor| Some((job.name.clone(), job.waits.clone()?));
        Ok(Self { list, packs, unpriced, waiting: jobs.iter().filter_map(waits).collect(), wrong })
    }

    /// A row in words: what to buy, and why so much of it.
    pub fn words(&self, row: &ShoppingRow, units: Units) -> (String, String) {
        let currency = &self.list.currency;
        let mut why = format!("need {}", row.needed.words(units));
        if !row.in_stock.is_nothing() {
            why += &format!("; at hand {}", row.in_stock.words(units));
        }
        if row.needs.len() > 1 {
            let jobs: Vec<_> = row.needs.iter().map(|(job, need)| format!("{job} {}", need.words(units))).collect();
            why += &format!("; {}", jobs.join(", "));
        }
        if row.packs == 0 {
            return (format!("Enough {} at hand", row.name), why);
        }
        let pack = self.packs.iter().find(|(id, pack)| *id == row.item && !pack.is_empty());
        let pack = pack.map_or_else(String::new, |(_, pack)| format!(", {pack}"));
        let price =
            if self.unpriced.contains(&row.item) { "no price".to_owned() } else { write_money(row.cost, currency) };
        (format!("{} × {}{pack}", row.packs, row.name), format!("{price}; {why}"))
    }

    /// The list as plain text: a line for each row that is still to be bought, then what it cannot know.
    /// `done` are the ids of the items that are in the cart already.
    pub fn text(&self, done: &[String], units: Units) -> String {
        let mut text = String::new();
        for row in self.list.rows.iter().filter(|row| row.packs > 0 && !done.contains(&row.item)) {
            let (what, why) = self.words(row, units);
            text += &format!("[ ] {what} ({why})\n");
        }
        let open = if self.unpriced.is_empty() { "" } else { ", as far as priced" };
        let cost = write_money(self.list.cost, &self.list.currency);
        text += &format!("All of it{open}: {cost}\n");
        for (job, _) in &self.waiting {
            text += &format!("{job}: not all of it is known yet.\n");
        }
        text
    }
}
