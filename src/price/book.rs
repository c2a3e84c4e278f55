//! The book of what is bought: by which pack, at what price, and how a job is charged for it.

use super::money::{self, Problem, decimal, divided, in_coins, not_negative, times};
use crate::measure::{
    Area, Date, Dose, Length, Mass, Quantity, Units, Volume, write_area, write_dose, write_feet, write_mass,
    write_number, write_percent,
};
use crate::working::Term;
use rust_decimal::Decimal;

/// So much of something, by the measure that it is sold by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// Pieces; a need may be part of one.
    Count(f64),
    /// By length: tape, liner, lath.
    Length(Length),
    /// By area: boards, or the area that a pad lasts for.
    Area(Area),
    /// By volume: sealer, release agent, silicone.
    Volume(Volume),
    /// By mass: pigment.
    Mass(Mass),
}

/// How a job is charged for an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Charge {
    /// By whole packs: what is left over is of no use to another job.
    Whole,
    /// By the share that it uses up.
    Share,
    /// By one of so many uses of the packs that it takes.
    Uses(u32),
}

/// One thing that is bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is found by.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What one purchase unit holds.
    pub pack: Amount,
    /// What one purchase unit costs.
    pub price: Decimal,
    /// When that was the price.
    pub priced_on: Option<Date>,
    /// How a job is charged for it.
    pub charge: Charge,
}

/// Everything that is bought, in one currency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Book {
    /// ISO 4217 code.
    pub currency: String,
    /// In the order of the book.
    pub items: Vec<Item>,
}

/// What a job needs of an item.
#[derive(Clone, Debug, PartialEq)]
pub struct Use {
    /// The item by its id.
    pub item: String,
    /// How much.
    pub amount: Amount,
}

/// What a job pays for an item, and how the amount was obtained.
#[derive(Clone, Debug, PartialEq)]
pub struct Charged {
    /// Of which kind.
    pub charge: Charge,
    /// What the item is called.
    pub name: String,
    /// With the numbers in it: "2 packs × $24.00".
    pub numbers: String,
    /// In whole smallest coins.
    pub amount: Decimal,
}

impl Amount {
    /// The value in SI units, or the count.
    fn value(self) -> f64 {
        match self {
            Self::Count(count) => count,
            Self::Length(length) => length.value,
            Self::Area(area) => area.value,
            Self::Volume(volume) => volume.value,
            Self::Mass(mass) => mass.value,
        }
    }

    /// The same kind of measure with another value.
    fn with(self, value: f64) -> Self {
        match self {
            Self::Count(_) => Self::Count(value),
            Self::Length(_) => Self::Length(Length::new::<uom::si::length::meter>(value)),
            Self::Area(_) => Self::Area(Area::new::<uom::si::area::square_meter>(value)),
            Self::Volume(_) => Self::Volume(Volume::new::<uom::si::volume::cubic_meter>(value)),
            Self::Mass(_) => Self::Mass(Mass::new::<uom::si::mass::kilogram>(value)),
        }
    }

    /// Both are of one kind.
    pub fn same_kind(self, other: Self) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }

    /// It is a number and not under zero.
    pub fn is_sound(self) -> bool {
        self.value().is_finite() && self.value() >= 0.0
    }

    /// It is nothing.
    pub fn is_nothing(self) -> bool {
        self.value() == 0.0
    }

    /// So many times it.
    pub fn scaled(self, factor: f64) -> Self {
        self.with(self.value() * factor)
    }

    /// Both together; None where they are not of one kind.
    pub fn plus(self, other: Self) -> Option<Self> {
        self.same_kind(other).then(|| self.with(self.value() + other.value()))
    }

    /// What is left after taking the other away, at least nothing; None where they are not of one kind.
    pub fn less(self, other: Self) -> Option<Self> {
        self.same_kind(other).then(|| self.with((self.value() - other.value()).max(0.0)))
    }

    /// The larger of both; None where they are not of one kind.
    pub fn larger(self, other: Self) -> Option<Self> {
        self.same_kind(other).then(|| self.with(self.value().max(other.value())))
    }

    /// How many of the other it is; None where they are not of one kind, or the other is nothing.
    pub fn over(self, other: Self) -> Option<f64> {
        let ratio = self.value() / other.value();
        (self.same_kind(other) && other.value() > 0.0 && ratio.is_finite()).then_some(ratio)
    }

    /// As it is said in a shop.
    pub fn words(self, units: Units) -> String {
        match self {
            Self::Count(count) => write_number(count, 2),
            Self::Length(length) => write_feet(length, units).to_string(),
            Self::Area(area) => write_area(area, units).to_string(),
            Self::Volume(volume) => write_dose(Dose::Volume(volume), units).to_string(),
            Self::Mass(mass) => write_mass(mass, units).to_string(),
        }
    }
}

impl Item {
    /// How many packs an amount is, as a broken number.
    ///
    /// # Errors
    /// The amount is no number or of another kind than the pack, the pack is empty, or it is past all measure.
    pub fn share(&self, amount: Amount) -> Result<f64, Problem> {
        let name = || self.name.clone();
        if !amount.is_sound() {
            return Err(Problem::NoNumber(name()));
        }
        if !amount.same_kind(self.pack) {
            return Err(Problem::OtherKind(name()));
        }
        if !self.pack.is_sound() || self.pack.is_nothing() {
            return Err(Problem::EmptyPack(name()));
        }
        let share = amount.over(self.pack).filter(|share| *share <= crate::carry::limits::MOST_COUNTED);
        share.ok_or_else(|| Problem::TooLarge(name()))
    }

    /// Whole packs that hold at least that much.
    ///
    /// # Errors
    /// As [`Item::share`].
    pub fn packs(&self, amount: Amount) -> Result<u32, Problem> {
        let share = self.share(amount)?;
        // A whole number of packs may miss itself by the last bit.
        Ok((share * (1.0 - crate::measure::COUNT_TOLERANCE)).ceil() as u32)
    }

    /// What a job pays for that much of it, in whole smallest coins, with its formula.
    ///
    /// # Errors
    /// As [`Item::share`]; or the price is under zero, there are no uses, or it is past all measure.
    pub fn paid(&self, amount: Amount, currency: &str) -> Result<Term<Decimal>, Problem> {
        let price = not_negative(self.price, &self.name)?;
        let packs = self.packs(amount)?;
        let of_a_pack = || money::amount(price, "price of a pack", currency);
        let count = || Term::named_as(Decimal::from(packs), "packs", Quantity::Count(packs, "pack", "packs"));
        let whole = || times(price, Decimal::from(packs), currency, &self.name);
        Ok(match self.charge {
            Charge::Whole => {
                let paid = whole()?;
                in_coins(count() * of_a_pack(), paid, currency)
            }
            Charge::Share => {
                let share = self.share(amount)?;
                let used = decimal(share, &self.name)?;
                let paid = times(price, used, currency, &self.name)?;
                let write = |share, _| write_percent(share) + " of a pack";
                let used = Term::named_as(used, "share of a pack", Quantity::other(share, write));
                in_coins(used * of_a_pack(), paid, currency)
            }
            Charge::Uses(0) => return Err(Problem::NoUses(self.name.clone())),
            Charge::Uses(uses) => {
                let all = price.checked_mul(Decimal::from(packs));
                let all = all.ok_or_else(|| Problem::TooLarge(self.name.clone()))?;
                let paid = divided(all, Decimal::from(uses), currency, &self.name)?;
                let uses = Term::named_as(Decimal::from(uses), "uses", Quantity::Count(uses, "use", "uses"));
                in_coins(count() * of_a_pack() / uses, paid, currency)
            }
        })
    }

    /// What a job pays for that much of it, as a line of its cost.
    ///
    /// # Errors
    /// As [`Item::paid`].
    pub fn charged(&self, amount: Amount, currency: &str) -> Result<Charged, Problem> {
        let paid = self.paid(amount, currency)?;
        // Money and packs are written alike in both systems of units.
        let numbers = paid.numbers(Units::Inch);
        Ok(Charged { charge: self.charge, name: self.name.clone(), numbers, amount: paid.value })
    }
}

impl Book {
    /// The item of that id.
    ///
    /// # Errors
    /// There is none.
    pub fn item(&self, id: &str) -> Result<&Item, Problem> {
        self.items.iter().find(|item| item.id == id).ok_or_else(|| Problem::NoItem(id.to_owned()))
    }

    /// What a job pays for what it uses, in that order.
    ///
    /// # Errors
    /// Everything that is wrong with any of it.
    pub fn charged(&self, uses: &[Use]) -> Result<Vec<Charged>, Vec<Problem>> {
        let mut wrong = Vec::new();
        let mut found = Vec::new();
        for one in uses {
            match self.item(&one.item).and_then(|item| item.charged(one.amount, &self.currency)) {
                Ok(charged) => found.push(charged),
                Err(problem) => wrong.push(problem),
            }
        }
        if wrong.is_empty() { Ok(found) } else { Err(wrong) }
    }
}
