//! The maker's own book, as it was typed: prices, packs, stock, pads, pace, and what finished jobs taught.
//!
//! It is kept apart from jobs and never part of a shared one. Blank is as usual, or not known.

use super::book::{Amount, Charge, Item};
use super::cost::{Margin, Sources, Terms};
use super::goods::{self, Measure};
use super::hours::{Habit, Logged};
use crate::finish::{Pad, Rate, Tool};
use crate::job::{BookField, Entry, FieldPath, Task};
use crate::measure::{
    self, Area, Date, Dose, ReadError, Time, Units, read_area, read_count, read_date, read_dose, read_hours,
    read_length, read_mass, read_money, read_percent, read_surface_speed, read_volume,
};
use crate::working::{Known, Source, Waiting, together};
use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};
use uom::si::time::hour;

/// What one bag costs, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BagPrice {
    /// The id of the bag.
    pub bag: String,
    /// Price of one bag.
    pub price: Entry,
    /// When that was the price.
    pub priced_on: Entry,
    /// Bags at hand.
    pub stock: Entry,
}

/// How a job is charged for something that is bought.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ChargeBy {
    /// By whole packs.
    #[default]
    Whole,
    /// By the share that it uses up.
    Share,
    /// By one of so many uses.
    Uses,
}

impl ChargeBy {
    /// All of them, in the order of the choice.
    pub const ALL: [Self; 3] = [Self::Whole, Self::Share, Self::Uses];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Whole => "Whole packs",
            Self::Share => "The share used",
            Self::Uses => "By uses",
        }
    }
}

/// Something that is bought, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Good {
    /// What it is found by: see [`goods`].
    pub id: String,
    /// What a pack holds; blank is the usual pack.
    pub pack: Entry,
    /// What a pack costs; blank is not known.
    pub price: Entry,
    /// When that was the price.
    pub priced_on: Entry,
    /// How a job is charged for it.
    pub charge: ChargeBy,
    /// How many times it is used; read only if charged by uses.
    pub uses: Entry,
    /// How much of it is at hand; blank is none.
    pub stock: Entry,
}

/// A wheel or pad that the maker owns, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnedPad {
    /// Its grit; blank is the coarse wheel.
    pub grit: Entry,
    /// The face that it does in an hour.
    pub pace: Entry,
    /// The face that one lasts for.
    pub life: Entry,
    /// What one costs.
    pub price: Entry,
    /// Its diameter.
    pub diameter: Entry,
    /// The surface speed that its maker allows.
    pub rated: Entry,
}

/// How long a task takes, as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pace {
    /// Which task.
    pub task: Task,
    /// Whatever the size; blank is nothing.
    pub fixed: Entry,
    /// The face that is done in an hour; blank where the size does not matter.
    pub face_an_hour: Entry,
}

/// Hours of a task of a finished job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LoggedHours {
    /// The job, by its id.
    pub job: String,
    /// Which task.
    pub task: Task,
    /// What the pace alone had said.
    pub estimated: Entry,
    /// What it took.
    pub took: Entry,
}

/// What the margin is a share of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MarginOn {
    /// Of the cost.
    Cost,
    /// Of the price before tax.
    #[default]
    Price,
}

impl MarginOn {
    /// Both, in the order of the choice.
    pub const ALL: [Self; 2] = [Self::Price, Self::Cost];

    /// The words for it.
    pub fn label(self) -> &'static str {
        match self {
            Self::Cost => "Of the cost",
            Self::Price => "Of the price",
        }
    }
}

/// The maker's prices, kept apart from jobs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PriceBook {
    /// ISO 4217 code of the currency.
    pub currency: String,
    /// What a bare number in the book is read in, whatever a job is.
    pub units: Units,
    /// Name and address, as they stand above a quote.
    pub maker: Entry,
    /// For an hour of one person.
    pub wage: Entry,
    /// Rent, power, insurance, tools, of material and wages; blank is none.
    pub overhead: Entry,
    /// What is earned; blank is none.
    pub margin: Entry,
    /// What the margin is a share of.
    pub margin_on: MarginOn,
    /// On the price before tax; blank is none.
    pub tax: Entry,
    /// Prices of bags.
    pub bags: Vec<BagPrice>,
    /// Prices of everything else, as far as anything was typed.
    pub goods: Vec<Good>,
    /// Wheels and pads.
    pub pads: Vec<OwnedPad>,
    /// Pace, task by task.
    pub pace: Vec<Pace>,
    /// Finished jobs, from the oldest to the newest.
    pub log: Vec<LoggedHours>,
}

/// The usual pace: hours whatever the size, and the face in an hour. Common practice, no source.
const PACE: [(Task, &str, &str); 7] = [
    (Task::Measure, "2 h", ""),
    (Task::Build, "2 h", "6 ft²"),
    (Task::Pour, "2 h", "10 ft²"),
    (Task::Strip, "1 h", "20 ft²"),
    (Task::Grind, "30 min", "6 ft²"),
    (Task::Seal, "30 min", "20 ft²"),
    (Task::Set, "3 h", ""),
];

impl Default for PriceBook {
    /// US dollars, the usual pace, and no price known yet.
    fn default() -> Self {
        let pace = |(task, fixed, face): (Task, &str, &str)| Pace {
            task,
            fixed: Entry::new(fixed),
            face_an_hour: Entry::new(face),
        };
        Self {
            currency: "USD".to_owned(),
            units: Units::Inch,
            maker: Entry::default(),
            wage: Entry::default(),
            overhead: Entry::new("15 %"),
            margin: Entry::new("20 %"),
            margin_on: MarginOn::Price,
            tax: Entry::default(),
            bags: Vec::new(),
            goods: Vec::new(),
            pads: Vec::new(),
            pace: PACE.map(pace).to_vec(),
            log: Vec::new(),
        }
    }
}

/// Nothing where nothing is typed.
fn typed<T>(entry: &Entry, read: impl Fn(&str) -> Result<T, ReadError>) -> Result<Option<T>, ReadError> {
    if entry.is_blank() { Ok(None) } else { read(entry.text()).map(Some) }
}

fn source_of(entry: &Entry, usual: bool) -> Source {
    match usual {
        true => Source::Practice,
        false if entry.is_blank() => Source::Arithmetic,
        false => Source::Typed,
    }
}

fn waits(field: BookField, name: &str, error: &ReadError) -> Waiting {
    Waiting::at(FieldPath::Book(field), format!("{name}: {error}"))
}

/// A share as a decimal: what is typed has so few digits that nothing is lost.
fn share(value: f64) -> Decimal {
    super::money::decimal(value, "").unwrap_or_default()
}

fn hour_of() -> Time {
    Time::new::<hour>(1.0)
}

impl PriceBook {
    /// What was typed as the price of the bag with that id; blank if nothing was.
    pub fn price(&self, bag: &str) -> &str {
        self.bags.iter().find(|price| price.bag == bag).map_or("", |price| price.price.text())
    }

    /// The price of one bag of that id.
    ///
    /// # Errors
    /// Nothing is typed, or it cannot be read.
    pub fn bag_price(&self, bag: &str) -> Result<Decimal, ReadError> {
        read_money(self.price(bag))
    }

    /// What turns cost into a price.
    ///
    /// # Errors
    /// What it waits for: the wage, or a share that cannot be read.
    pub fn terms(&self) -> Known<Terms> {
        let wage = read_money(self.wage.text()).map_err(|error| waits(BookField::Wage, "Wage", &error));
        let part = |entry: &Entry, field: BookField| {
            typed(entry, read_percent)
                .map(|value| share(value.unwrap_or_default()))
                .map_err(|error| waits(field, field.label(), &error))
        };
        let (wage, overhead, margin, tax) = together((
            wage,
            part(&self.overhead, BookField::Overhead),
            part(&self.margin, BookField::Margin),
            part(&self.tax, BookField::Tax),
        ))?;
        let margin = match self.margin_on {
            MarginOn::Cost => Margin::OnCost(margin),
            MarginOn::Price => Margin::OnPrice(margin),
        };
        let sources =
            Sources { overhead: self.source_of_overhead(), margin: self.source_of_margin(), tax: self.source_of_tax() };
        Ok(Terms { wage, overhead, margin, tax, sources })
    }

    /// What is typed of the thing with that id, or how it is usually bought.
    pub fn good(&self, id: &str) -> Good {
        let typed = self.goods.iter().find(|good| good.id == id).cloned();
        typed.unwrap_or_else(|| goods::usual(id))
    }

    /// The thing with that id, to be typed into.
    pub fn good_mut(&mut self, id: &str) -> &mut Good {
        let index = self.goods.iter().position(|good| good.id == id).unwrap_or_else(|| {
            self.goods.push(goods::usual(id));
            self.goods.len() - 1
        });
        &mut self.goods[index]
    }

    /// The bag with that id, to be typed into.
    pub fn bag_mut(&mut self, id: &str) -> &mut BagPrice {
        let index = self.bags.iter().position(|bag| bag.bag == id).unwrap_or_else(|| {
            self.bags.push(BagPrice { bag: id.to_owned(), ..BagPrice::default() });
            self.bags.len() - 1
        });
        &mut self.bags[index]
    }

    /// An amount as it is typed, of something that is sold by that measure.
    ///
    /// # Errors
    /// The reader's own.
    pub fn amount(&self, text: &str, measure: Measure) -> Result<Amount, ReadError> {
        let units = self.units;
        match measure {
            Measure::Count => read_count(text).map(|count| Amount::Count(f64::from(count))),
            Measure::Length => read_length(text, units).map(Amount::Length),
            Measure::Area => read_area(text, units).map(Amount::Area),
            Measure::Volume => read_volume(text, units).map(Amount::Volume),
            Measure::Mass => read_mass(text, units).map(Amount::Mass),
            Measure::Dose => read_dose(text, units).map(|dose| match dose {
                Dose::Volume(volume) => Amount::Volume(volume),
                Dose::Mass(mass) => Amount::Mass(mass),
            }),
        }
    }

    /// The item of that id and name, and how much of it is at hand. Without a price it costs nothing: whoever adds
    /// it up has to say so, see [`Listed::priced`].
    ///
    /// # Errors
    /// What cannot be read, in a sentence.
    pub fn item(&self, id: &str, name: &str) -> Result<Listed, String> {
        let wrong = |what: &str, error: &ReadError| format!("{name}, {what}: {error}");
        let date = |entry: &Entry| typed(entry, read_date).map_err(|error| wrong("date", &error));
        let money = |entry: &Entry| typed(entry, read_money).map_err(|error| wrong("price", &error));
        if let Some(bag) = id.strip_prefix("bag:") {
            let blank = BagPrice::default();
            let own = self.bags.iter().find(|own| own.bag == bag).unwrap_or(&blank);
            let stock = typed(&own.stock, read_count).map_err(|error| wrong("stock", &error))?;
            let listed = (Amount::Count(1.0), Charge::Whole, Amount::Count(f64::from(stock.unwrap_or_default())));
            return Ok(Listed::of(id, name, listed, (money(&own.price)?, date(&own.priced_on)?)));
        }
        if let Some(tool) = id.strip_prefix("pad:") {
            let pad = self.pads.iter().find(|pad| pad_id(pad).is_some_and(|own| own == tool));
            let life = pad.map(|pad| typed(&pad.life, |text| read_area(text, self.units))).transpose();
            let life = life.map_err(|error| wrong("life", &error))?.flatten().unwrap_or_default();
            let price = pad.map_or(Ok(None), |pad| money(&pad.price))?;
            let listed = (Amount::Area(life), Charge::Share, Amount::Area(Area::default()));
            return Ok(Listed::of(id, name, listed, (price, None)));
        }
        let good = self.good(id);
        let measure = goods::measure(id);
        let pack = if good.pack.is_blank() { goods::usual_pack(id, self.units) } else { good.pack.text() };
        let pack = self.amount(pack, measure).map_err(|error| wrong("pack", &error))?;
        let stock = typed(&good.stock, |text| self.amount(text, measure)).map_err(|error| wrong("stock", &error))?;
        let uses = typed(&good.uses, read_count).map_err(|error| wrong("uses", &error))?;
        let charge = match good.charge {
            ChargeBy::Whole => Charge::Whole,
            ChargeBy::Share => Charge::Share,
            ChargeBy::Uses => Charge::Uses(uses.unwrap_or_else(|| goods::usual_uses(id))),
        };
        let listed = (pack, charge, stock.unwrap_or_else(|| pack.scaled(0.0)));
        Ok(Listed::of(id, name, listed, (money(&good.price)?, date(&good.priced_on)?)))
    }

    /// What a pack of it holds, as it is typed or usual; nothing where it is one piece, or not known.
    pub fn pack_words(&self, id: &str) -> String {
        if id.starts_with("bag:") || id.starts_with("pad:") {
            return String::new();
        }
        let good = self.good(id);
        let typed = good.pack.text().trim();
        let text = if typed.is_empty() { goods::usual_pack(id, self.units) } else { typed };
        match goods::measure(id) {
            Measure::Count if text == "1" => String::new(),
            Measure::Count => format!("{text} in a pack"),
            _ => text.to_owned(),
        }
    }

    /// The maker's pads, as far as they can be read.
    pub fn tools(&self) -> Vec<Pad> {
        let units = self.units;
        let rate = |area: Area| Rate { area, time: hour_of() };
        let pad = |own: &OwnedPad| {
            let area = |entry: &Entry| typed(entry, |text| read_area(text, units)).ok().flatten();
            let tool = match pad_grit(own)? {
                Some(grit) => Tool::Pad(grit),
                None => Tool::Wheel,
            };
            Some(Pad {
                tool,
                rate: area(&own.pace).map(rate),
                life: area(&own.life),
                diameter: typed(&own.diameter, |text| read_length(text, units)).ok().flatten(),
                rated: typed(&own.rated, |text| read_surface_speed(text, units)).ok().flatten(),
            })
        };
        self.pads.iter().filter_map(pad).collect()
    }

    /// How long a task takes; nothing whatever the size where nothing is typed.
    ///
    /// # Errors
    /// What cannot be read.
    pub fn habit(&self, task: Task) -> Known<Habit> {
        let name = format!("Your pace, {}", task.label().to_lowercase());
        let wrong = |error: ReadError| waits(BookField::Pace, &name, &error);
        let source = self.source_of_pace(task);
        let Some(own) = self.pace.iter().find(|pace| pace.task == task) else {
            return Ok(Habit { task, fixed: Time::default(), by_area: None, source });
        };
        let fixed = typed(&own.fixed, |text| read_hours(text, self.units)).map_err(wrong);
        let area = typed(&own.face_an_hour, |text| read_area(text, self.units)).map_err(wrong);
        let (fixed, area) = together((fixed, area))?;
        let by_area = area.map(|area| Rate { area, time: hour_of() });
        Ok(Habit { task, fixed: fixed.unwrap_or_default(), by_area, source })
    }

    /// Where the pace of a task comes from: nobody typed what stands as a new book has it.
    pub fn source_of_pace(&self, task: Task) -> Source {
        let own = self.pace.iter().find(|pace| pace.task == task);
        let usual = Self::default().pace.into_iter().find(|pace| pace.task == task);
        if own == usual.as_ref() { Source::Practice } else { Source::Typed }
    }

    /// Where the overhead comes from: nobody typed what stands as a new book has it, and blank is none.
    pub fn source_of_overhead(&self) -> Source {
        source_of(&self.overhead, self.overhead == Self::default().overhead)
    }

    /// Where the margin comes from, as for the overhead.
    pub fn source_of_margin(&self) -> Source {
        let usual = Self::default();
        source_of(&self.margin, self.margin == usual.margin && self.margin_on == usual.margin_on)
    }

    /// Where the tax comes from: blank is none.
    pub fn source_of_tax(&self) -> Source {
        source_of(&self.tax, false)
    }

    /// Hours of finished jobs, as far as they can be read.
    pub fn logged(&self) -> Vec<Logged> {
        let read = |entry: &Entry| read_hours(entry.text(), self.units).ok();
        let one = |own: &LoggedHours| {
            Some(Logged { task: own.task, estimated: read(&own.estimated)?, took: read(&own.took)? })
        };
        self.log.iter().filter_map(one).collect()
    }

    /// Takes over the hours of a finished job, in place of what it had taught before.
    pub fn learn_from(&mut self, job: &str, hours: &[Logged]) {
        self.log.retain(|own| own.job != job);
        let write = |time: Time| Entry::new(&format!("{} h", measure::write_number(time.get::<hour>(), 2)));
        self.log.extend(hours.iter().map(|own| LoggedHours {
            job: job.to_owned(),
            task: own.task,
            estimated: write(own.estimated),
            took: write(own.took),
        }));
    }

    /// Takes over from another book what is not known here, if it is in the same currency and units; gives how
    /// many prices came in, and how many were left out because they differ.
    pub fn fill_up_from(&mut self, other: &Self) -> (usize, usize) {
        let (mut added, mut left_out) = (0, 0);
        let alike = self.currency == other.currency;
        for bag in &other.bags {
            match self.bags.iter().find(|own| own.bag == bag.bag) {
                Some(own) if own == bag && alike => {}
                None if alike => {
                    self.bags.push(bag.clone());
                    added += 1;
                }
                _ => left_out += 1,
            }
        }
        let alike = alike && self.units == other.units;
        for good in &other.goods {
            match self.goods.iter().find(|own| own.id == good.id) {
                Some(own) if own == good && alike => {}
                None if alike => {
                    self.goods.push(good.clone());
                    added += 1;
                }
                _ => left_out += 1,
            }
        }
        if self.pads.is_empty() && alike {
            self.pads.clone_from(&other.pads);
        }
        let new = other.log.iter().filter(|one| !self.log.iter().any(|own| own.job == one.job && own.task == one.task));
        let new: Vec<_> = new.cloned().collect();
        self.log.extend(new);
        if self.wage.is_blank() && alike {
            self.wage.clone_from(&other.wage);
        }
        if self.maker.is_blank() {
            self.maker.clone_from(&other.maker);
        }
        (added, left_out)
    }
}

/// The grit of a pad, nothing for the coarse wheel; none where it cannot be read.
fn pad_grit(pad: &OwnedPad) -> Option<Option<u32>> {
    typed(&pad.grit, read_count).ok()
}

/// What a pad is found by behind "pad:".
fn pad_id(pad: &OwnedPad) -> Option<String> {
    Some(pad_grit(pad)?.map_or_else(|| "wheel".to_owned(), |grit| grit.to_string()))
}

/// An item of the book, and what is known of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// The item.
    pub item: Item,
    /// Its price is known.
    pub priced: bool,
    /// What is at hand.
    pub stock: Amount,
}

impl Listed {
    /// Bought by the very amount: how it is sold is not known.
    pub(super) fn by_amount(id: &str, name: &str, amount: Amount) -> Self {
        Self::of(id, name, (amount, Charge::Whole, amount.scaled(0.0)), (None, None))
    }

    fn of(
        id: &str,
        name: &str,
        (pack, charge, stock): (Amount, Charge, Amount),
        (price, priced_on): (Option<Decimal>, Option<Date>),
    ) -> Self {
        let item = Item {
            id: id.to_owned(),
            name: name.to_owned(),
            pack,
            price: price.unwrap_or_default(),
            priced_on,
            charge,
        };
        Self { item, priced: price.is_some(), stock }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::estimate;
    use crate::mix::demo;
    use crate::price::goods::pack_hint;

    /// Of the line of the price for that.
    fn source(prices: &PriceBook, what: &str) -> Source {
        let mut prices = prices.clone();
        prices.wage = "30".into();
        let job = demo("priced");
        for bag in &job.bags {
            prices.bag_mut(&bag.id).price = "20".into();
        }
        let found = estimate(&job, &prices);
        let sheet = found.pricing.sheet.as_ref().expect("a price");
        let lines = sheet.price.working.lines(Units::Inch);
        let line = lines.iter().find(|line| line.formula.starts_with(&format!("{what} = ")));
        line.unwrap_or_else(|| panic!("a line of {what}")).source
    }

    #[test]
    fn what_a_new_book_has_was_typed_by_nobody() {
        let mut prices = PriceBook::default();
        assert_eq!(source(&prices, "Overhead"), Source::Practice);
        assert_eq!(source(&prices, "Margin"), Source::Practice);
        assert_eq!(source(&prices, "Tax"), Source::Arithmetic, "a blank one is none");
        (prices.overhead, prices.margin) = ("12 %".into(), "25 %".into());
        assert_eq!(source(&prices, "Overhead"), Source::Typed);
        assert_eq!(source(&prices, "Margin"), Source::Typed);
        assert_eq!(PriceBook::default().source_of_pace(Task::Build), Source::Practice);
        prices.pace[1].fixed = "3 h".into();
        assert_eq!(prices.source_of_pace(Task::Build), Source::Typed);
        assert_eq!(prices.source_of_pace(Task::Pour), Source::Practice);
    }

    /// The label of the field has its unit behind it, so that the usual pack is told below it.
    #[test]
    fn a_usual_pack_is_told_with_its_unit_once() {
        assert_eq!(pack_hint("cement", Units::Inch), "Blank: 94 lb.");
        assert_eq!(pack_hint("strip", Units::Metric), "Blank: 3 m².");
        assert_eq!(pack_hint("additive:retarder", Units::Inch), "");
    }
}
