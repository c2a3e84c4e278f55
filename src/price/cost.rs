//! The cost sheet of a job: material, hours, overhead, margin, tax.

use super::book::{Book, Charge, Use};
use super::hours::{Task, paid_hours};
use super::money::{self, Problem, divided, in_coins, not_negative, sum, times};
use crate::measure::{Quantity, Time, Units};
use crate::working::{Figure, Source, Term};
use rust_decimal::Decimal;

/// What the maker earns beyond wages, as a share of the cost or of the price: they are not the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Margin {
    /// A share of the cost, put on top of it: 25 % on 100 makes 125.
    OnCost(Decimal),
    /// A share of the price before tax: 20 % of 125 is 25.
    OnPrice(Decimal),
}

/// What turns cost into a price. Shares are of one: 0.08 is 8 %.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Terms {
    /// For an hour of one person.
    pub wage: Decimal,
    /// Rent, power, insurance, tools: a share of material and wages.
    pub overhead: Decimal,
    /// What is earned.
    pub margin: Margin,
    /// On the price before tax.
    pub tax: Decimal,
    /// Where the shares come from.
    pub sources: Sources,
}

/// Where the shares of [`Terms`] come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sources {
    /// That of the overhead.
    pub overhead: Source,
    /// That of the margin.
    pub margin: Source,
    /// That of the tax.
    pub tax: Source,
}

impl Sources {
    /// The maker typed all of them.
    pub const TYPED: Self = Self { overhead: Source::Typed, margin: Source::Typed, tax: Source::Typed };
}

/// What a line of the sheet is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Something that is bought, charged in that way.
    Material(Charge),
    /// The wage of a task.
    Wage(Task),
}

/// One line of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct CostLine {
    /// What it is for.
    pub kind: Kind,
    /// What it is called.
    pub name: String,
    /// With the numbers in it: "2 packs × $24.00".
    pub numbers: String,
    /// In whole smallest coins.
    pub amount: Decimal,
}

/// The cost sheet. Every amount is in whole smallest coins, and every sum is exactly that of its parts.
#[derive(Clone, Debug, PartialEq)]
pub struct CostSheet {
    /// ISO 4217 code.
    pub currency: String,
    /// Material first, then wages, in the order given.
    pub lines: Vec<CostLine>,
    /// All material.
    pub material: Decimal,
    /// Hours that are paid.
    pub hours: Decimal,
    /// All wages.
    pub wages: Decimal,
    /// Its share of material and wages.
    pub overhead: Decimal,
    /// Material, wages and overhead: below this, money is lost.
    pub cost: Decimal,
    /// What is earned beyond it.
    pub margin: Decimal,
    /// Cost and margin: the price before tax.
    pub net: Decimal,
    /// On the price before tax.
    pub tax: Decimal,
    /// What the client pays.
    pub price: Figure<Decimal>,
}

impl Terms {
    /// The terms, if none of them is under zero and the margin leaves room for the cost.
    fn checked(&self) -> Result<(), Vec<Problem>> {
        let (margin, on_price) = match self.margin {
            Margin::OnCost(share) => (share, false),
            Margin::OnPrice(share) => (share, true),
        };
        let named = [(self.wage, "Wage"), (self.overhead, "Overhead"), (margin, "Margin"), (self.tax, "Tax")];
        let mut wrong: Vec<_> = named.iter().filter_map(|(share, what)| not_negative(*share, what).err()).collect();
        if on_price && margin >= Decimal::ONE {
            wrong.push(Problem::MarginTooLarge);
        }
        if wrong.is_empty() { Ok(()) } else { Err(wrong) }
    }
}

/// A wage line for each task.
fn wage_lines(work: &[(Task, Time)], terms: &Terms, currency: &str) -> Result<(Vec<CostLine>, Decimal), Vec<Problem>> {
    let mut wrong = Vec::new();
    let mut lines = Vec::new();
    let mut all_hours = Vec::new();
    for (task, time) in work {
        let name = task.label();
        let paid = paid_hours(*time, name).and_then(|hours| Ok((hours, times(terms.wage, hours, currency, name)?)));
        match paid {
            Ok((hours, amount)) => {
                all_hours.push(hours);
                let time = Term::named_as(hours, "hours", money::paid(hours));
                let formula = time * money::amount(terms.wage, "wage", currency);
                let numbers = in_coins(formula, amount, currency).numbers(Units::Inch);
                lines.push(CostLine { kind: Kind::Wage(*task), name: name.to_owned(), numbers, amount });
            }
            Err(problem) => wrong.push(problem),
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let hours = sum(all_hours, "Hours").map_err(|problem| vec![problem])?;
    Ok((lines, hours))
}

impl CostSheet {
    /// The sheet of a job that uses so much and takes so long.
    ///
    /// # Errors
    /// Everything that is wrong with the terms, the uses or the hours.
    pub fn of(uses: &[Use], work: &[(Task, Time)], book: &Book, terms: &Terms) -> Result<Self, Vec<Problem>> {
        let currency = book.currency.as_str();
        let (material, wages) = (book.charged(uses), wage_lines(work, terms, currency));
        let mut wrong = terms.checked().err().unwrap_or_default();
        match (material, wages) {
            (Ok(material), Ok((wages, hours))) if wrong.is_empty() => {
                let material = material.into_iter().map(|charged| CostLine {
                    kind: Kind::Material(charged.charge),
                    name: charged.name,
                    numbers: charged.numbers,
                    amount: charged.amount,
                });
                let sheet = Self::summed(material.collect(), wages, hours, terms, currency);
                sheet.map_err(|problem| vec![problem])
            }
            (material, wages) => {
                wrong.extend(material.err().into_iter().flatten());
                wrong.extend(wages.err().into_iter().flatten());
                Err(wrong)
            }
        }
    }

    fn summed(
        material: Vec<CostLine>,
        wages: Vec<CostLine>,
        hours: Decimal,
        terms: &Terms,
        currency: &str,
    ) -> Result<Self, Problem> {
        let add = |lines: &[CostLine], what| sum(lines.iter().map(|line| line.amount), what);
        let (all_material, all_wages) = (add(&material, "Material")?, add(&wages, "Wages")?);
        let direct = sum([all_material, all_wages], "Cost")?;
        let overhead = times(direct, terms.overhead, currency, "Overhead")?;
        let cost = sum([direct, overhead], "Cost")?;
        let margin = match terms.margin {
            Margin::OnCost(share) => times(cost, share, currency, "Margin")?,
            Margin::OnPrice(share) => divided(cost, Decimal::ONE - share, currency, "Margin")? - cost,
        };
        let net = sum([cost, margin], "Price")?;
        let tax = times(net, terms.tax, currency, "Tax")?;
        sum([net, tax], "Price")?;

        let in_money = |term: Term<Decimal>, name, source| {
            let written = money::money(term.value, currency);
            term.step_as(name, written, source)
        };
        let all = |lines: &[CostLine]| {
            Term::sum(lines.iter().map(|line| money::amount(line.amount, line.name.clone(), currency)))
        };
        let of_both =
            in_money(all(&material), "material", Source::Typed) + in_money(all(&wages), "wages", Source::Typed);
        let of_both = in_money(of_both, "material and wages", Source::Arithmetic);
        let its_share = of_both.clone() * money::share(terms.overhead, "overhead on both");
        let its_share = in_money(in_coins(its_share, overhead, currency), "overhead", terms.sources.overhead);
        let all_cost = in_money(of_both + its_share, "cost", Source::Arithmetic);
        let earned = match terms.margin {
            Margin::OnCost(share) => all_cost.clone() * money::share(share, "margin on cost"),
            Margin::OnPrice(share) => {
                all_cost.clone() / (one() - money::share(share, "margin on price")) - all_cost.clone()
            }
        };
        let earned = in_money(in_coins(earned, margin, currency), "margin", terms.sources.margin);
        let before_tax = in_money(all_cost + earned, "price before tax", Source::Arithmetic);
        let on_it = before_tax.clone() * money::share(terms.tax, "tax on it");
        let on_it = in_money(in_coins(on_it, tax, currency), "tax", terms.sources.tax);
        let price = before_tax + on_it;
        let written = money::money(price.value, currency);
        let price = price.titled_as("Price", written, Source::Arithmetic);
        Ok(Self {
            currency: currency.to_owned(),
            lines: material.into_iter().chain(wages).collect(),
            material: all_material,
            hours,
            wages: all_wages,
            overhead,
            cost,
            margin,
            net,
            tax,
            price,
        })
    }
}

/// The 1 of a formula of decimals.
pub(super) fn one() -> Term<Decimal> {
    Term::named_as(Decimal::ONE, "1", Quantity::Number(1.0, 0))
}
