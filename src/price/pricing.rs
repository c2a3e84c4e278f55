//! From a job to its price: what it takes, how long, what that costs.

use super::book::{Amount, Book, Use};
use super::cost::{self, CostSheet};
use super::goods;
use super::hours::{Logged, hours, learn};
use super::maker::PriceBook;
use super::money::Problem;
use super::quote::{BreakEven, Offer, Quote, break_even, by_area};
use crate::carry::Setting;
use crate::cutting::Cutting;
use crate::finding::{Finding, Severity, Stage};
use crate::finish::{Finishing, Tool};
use crate::form::{Build, Stock};
use crate::job::read::{self, all, both};
use crate::job::{BookField, FieldPath, HoursField, Job, LayerOf, QuoteField, Task};
use crate::knockout::Knockouts;
use crate::measure::{Date, Dose, Time, write_count, write_duration};
use crate::mix::Order;
use crate::steel::Steel;
use crate::working::{Figure, Known, Needs, Source, Waiting, Working};
use rust_decimal::Decimal;
use std::collections::HashSet;

/// Something that the job takes.
#[derive(Clone, Debug, PartialEq)]
pub struct BillItem {
    /// What it is found by in the book.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What the job is charged for.
    pub amount: Amount,
    /// What is to be bought, where some of it is there by the job's own words.
    pub to_buy: Amount,
}

/// Everything that the job takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BillOfMaterials {
    /// As far as it is known, in the order of the work.
    pub known: Vec<BillItem>,
    /// What the rest waits for.
    pub waiting: Option<Waiting>,
}

/// What the rooms before this one have found out.
#[derive(Clone, Copy, Debug)]
pub struct Found<'a> {
    /// The bags.
    pub orders: &'a [Known<Order>],
    /// The forms.
    pub build: &'a Build,
    /// The sheets.
    pub cutting: &'a Known<Cutting>,
    /// The knockouts, piece by piece.
    pub knockouts: &'a [&'a Knockouts],
    /// The steel, piece by piece.
    pub steel: &'a [&'a Known<Steel>],
    /// Grinding and sealing.
    pub finishing: &'a Finishing,
    /// Adhesive, caulk, shims.
    pub setting: &'a Setting,
    /// The people who carry and set it.
    pub people: &'a Known<u32>,
}

/// The hours of a task.
#[derive(Clone, Debug, PartialEq)]
pub struct TaskTime {
    /// Which task.
    pub task: Task,
    /// What the maker's pace alone says, before anything was learned.
    pub by_pace: Known<Time>,
    /// What is reckoned with.
    pub time: Known<Figure<Time>>,
}

/// The price of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Pricing {
    /// What it takes.
    pub needs: BillOfMaterials,
    /// How long, task by task.
    pub work: Vec<TaskTime>,
    /// What of it has no price yet, and so is not in the cost.
    pub unpriced: Vec<String>,
    /// What it costs.
    pub sheet: Known<CostSheet>,
    /// The price before tax by the area of the face.
    pub by_area: Known<Figure<Decimal>>,
    /// What the job can bear.
    pub break_even: Known<BreakEven>,
}

impl BillOfMaterials {
    /// Everything that a job takes.
    pub fn of(found: &Found, prices: &PriceBook, job: &Job) -> Self {
        let mut draft = Draft::default();
        draft.mix(found, job);
        draft.form(found);
        for steel in found.steel {
            let Some(steel) = draft.known(steel) else { continue };
            if let Some(lath) = &steel.lath {
                draft.good("lath", Amount::Count(f64::from(lath.sheets.value)));
            }
            if let Some(bars) = &steel.bars {
                draft.good("bars", Amount::Length(bars.bars.iter().map(|bar| bar.length).sum()));
            }
        }
        draft.finish(found, prices, job);
        Self { known: draft.known, waiting: draft.waits.waiting() }
    }
}

/// A bill while it is drawn up.
#[derive(Default)]
struct Draft {
    known: Vec<BillItem>,
    waits: Needs,
}

impl Draft {
    fn add(&mut self, id: &str, name: &str, amount: Amount) {
        if amount.is_sound() && !amount.is_nothing() {
            self.known.push(BillItem { id: id.to_owned(), name: name.to_owned(), amount, to_buy: amount });
        }
    }

    fn good(&mut self, id: &'static str, amount: Amount) {
        self.add(id, goods::find(id).map_or(id, |good| good.label), amount);
    }

    fn wait(&mut self, waiting: &Waiting) {
        self.waits.add(waiting.clone());
    }

    fn known<'a, T>(&mut self, known: &'a Known<T>) -> Option<&'a T> {
        known.as_ref().map_err(|waiting| self.wait(waiting)).ok()
    }

    fn mix(&mut self, found: &Found, job: &Job) {
        for order in found.orders {
            let Some(order) = self.known(order) else { continue };
            for material in order.scratch().iter().flat_map(|scratch| &scratch.materials) {
                if let Some(id) = goods::id_of(material) {
                    self.add(&id, &material.name, Amount::Mass(material.mass.value));
                }
            }
            let Some(bagged) = order.bagged() else { continue };
            let id = job.bags.get(order.bag).map_or("", |bag| bag.id.as_str());
            let name = read::bag_name(job, order.bag);
            self.add(&format!("bag:{id}"), &name, Amount::Count(f64::from(order.bags.value)));
            for additive in &bagged.additives {
                let amount = match additive.in_all {
                    Dose::Volume(volume) => Amount::Volume(volume),
                    Dose::Mass(mass) => Amount::Mass(mass),
                };
                self.add(&goods::additive_id(&additive.name), additive.name.trim(), amount);
            }
        }
    }

    fn form(&mut self, found: &Found) {
        let sheets = found.cutting.as_ref().map_err(Waiting::clone).and_then(Cutting::for_all);
        if let Some(sheets) = self.known(&sheets) {
            self.good("board", Amount::Count(f64::from(sheets.value)));
        }
        let build = found.build;
        if let Some(rows) = self.known(&build.stock) {
            let strips = rows.iter().filter(|row| row.stock == Stock::Strip);
            self.good("strip", Amount::Area(strips.map(|row| row.length * row.width * f64::from(row.count)).sum()));
        }
        let blanks = found.knockouts.iter().flat_map(|knockouts| knockouts.blanks());
        let foam = blanks.filter(|blank| blank.of == LayerOf::Foam).map(|blank| blank.length * blank.width);
        self.good("foam", Amount::Area(foam.sum()));
        if let Some(liner) = build.liner.as_ref().and_then(|liner| self.known(liner)) {
            self.good("liner", Amount::Count(f64::from(liner.lengths.value)));
            if let Some(need) = self.known.last_mut().filter(|need| need.id == "liner") {
                need.to_buy = Amount::Count(f64::from(liner.to_buy.value));
            }
            self.good("liner-tape", Amount::Length(liner.tape.value));
        }
        if let Some(screws) = self.known(&build.screws) {
            self.good("screws", Amount::Count(f64::from(screws.count.value)));
        }
        if let Some(silicone) = self.known(&build.silicone) {
            self.good("silicone", Amount::Volume(silicone.volume.value));
        }
        if let Some(tape) = self.known(&build.tape) {
            self.good("tape", Amount::Length(tape.value));
        }
        if let Some(release) = self.known(&build.release) {
            self.good("release", Amount::Volume(release.volume.value));
        }
    }

    fn finish(&mut self, found: &Found, prices: &PriceBook, job: &Job) {
        let finishing = found.finishing;
        if let Some(face) = self.known(&finishing.face) {
            let tools = prices.tools();
            for step in &finishing.sequence.steps {
                // A pad whose life is not known is not charged by it.
                let known = tools.iter().any(|pad| pad.tool == step.tool && pad.life.is_some());
                let id = match step.tool {
                    Tool::Wheel => "pad:wheel".to_owned(),
                    Tool::Pad(grit) => format!("pad:{grit}"),
                };
                if known {
                    self.add(&id, &step.tool.words(), Amount::Area(face.value));
                }
            }
        }
        if let Some(sealing) = self.known(&finishing.sealing) {
            let typed = job.finish.sealer.text().trim();
            let name = if typed.is_empty() { "Sealer" } else { typed };
            self.add("sealer", name, Amount::Volume(sealing.amount.value));
        }
        let setting = found.setting;
        for (id, part) in [("adhesive", &setting.adhesive), ("caulk", &setting.caulk)] {
            if let Some(part) = part.as_ref().and_then(|part| self.known(part)) {
                self.good(id, Amount::Volume(part.volume.value));
            }
        }
        if let Some(Some(shims)) = self.known(&setting.shims) {
            self.good("shims", Amount::Count(f64::from(*shims)));
        }
    }
}

/// The hours of a task that are paid: as typed in the job, else by the maker's own pace and what finished jobs taught. Those
/// of carrying and setting are of the clock, and paid to everybody whom they take.
fn task_time(task: Task, found: &Found, prices: &PriceBook, log: &[Logged], job: &Job) -> TaskTime {
    let finishing = found.finishing;
    let row = job.quote.hours.iter().position(|hours| hours.task == task);
    let typed = row.map(|row| read::optional(job, FieldPath::Hours(row, HoursField::Estimated), read::hours));
    let by_pace = both(prices.habit(task), finishing.face.clone()).and_then(|(habit, face)| {
        let found = hours(&habit, face.value, super::hours::Learned::NOTHING);
        let wrong = || {
            let says = format!("Your pace, {}: a face an hour over nothing.", task.label().to_lowercase());
            Waiting::at(FieldPath::Book(BookField::Pace), says)
        };
        found.map(|figure| (habit, face, figure)).ok_or_else(wrong)
    });
    let plain = by_pace.as_ref().map(|(_, _, figure)| figure.value).map_err(Waiting::clone);
    let time = match typed.transpose() {
        Err(waiting) => Err(waiting),
        Ok(Some(Some(time))) => Ok(Working::new(format!("Hours: {}", task.label()))
            .line("typed for this job", "", write_duration(time), Source::Typed)
            .of(time)),
        Ok(_) => match (&finishing.time, task) {
            // Tool by tool is nearer to it than by the face alone.
            (Ok(time), Task::Grind) if !finishing.sequence.steps.is_empty() => Ok(time.clone()),
            _ => by_pace.map(|(habit, face, plain)| {
                let mut time = hours(&habit, face.value, learn(task, log)).unwrap_or(plain);
                if let Some(by_pace) = time.working.said_mut().next() {
                    by_pace.source = prices.source_of_pace(task);
                }
                time
            }),
        },
    };
    let time = if task == Task::Set {
        both(time, found.people.clone()).map(|(time, people)| for_everybody(&time, people))
    } else {
        time
    };
    TaskTime { task, by_pace: plain, time }
}

/// Hours of the clock, paid to so many people.
fn for_everybody(time: &Figure<Time>, people: u32) -> Figure<Time> {
    let paid = time.value * f64::from(people);
    Working::new(time.working.title_label().clone())
        .after(&time.working)
        .line(
            "hours by the clock × people who carry and set it, each paid",
            format!("{} × {}", write_duration(time.value), write_count(people, "person", "people")),
            write_duration(paid),
            Source::Practice,
        )
        .of(paid)
}

/// Says of every term of the price where it comes from.
fn say_sources(price: &mut Working, prices: &PriceBook) {
    for line in price.said_mut() {
        if line.formula == cost::OVERHEAD {
            line.source = prices.source_of_overhead();
        } else if cost::MARGINS.contains(&line.formula.as_str()) {
            line.source = prices.source_of_margin();
        } else if line.formula == cost::TAX {
            line.source = prices.source_of_tax();
        }
    }
}

fn at_prices(problems: Vec<Problem>) -> Waiting {
    let mut gathered = Needs::default();
    for problem in problems {
        let place = if problem == Problem::MarginTooLarge { BookField::Margin } else { BookField::Prices };
        gathered.add(Waiting::at(FieldPath::Book(place), problem.words()));
    }
    gathered.or_at(FieldPath::Book(BookField::Prices), "A price cannot be worked out with.")
}

impl Pricing {
    /// The price of a job for which the other rooms have found that.
    pub fn of(found: &Found, prices: &PriceBook, job: &Job) -> Self {
        let needs = BillOfMaterials::of(found, prices, job);
        let log = prices.logged();
        let work: Vec<_> = Task::ALL.into_iter().map(|task| task_time(task, found, prices, &log, job)).collect();
        let (book, uses, unpriced) = priced(&needs, prices);
        let hours = all(work.iter().map(|one| Ok((one.task, one.time.clone()?.value))));
        let complete = match &needs.waiting {
            Some(waiting) => Err(waiting.clone()),
            None => all(bags_priced(&needs, prices)),
        };
        let ready = both(both(complete, prices.terms()), both(hours, book));
        let sheet = ready.and_then(|((_, terms), (hours, book))| {
            let mut sheet = CostSheet::of(&uses, &hours, &book, &terms).map_err(at_prices)?;
            say_sources(&mut sheet.price.working, prices);
            Ok((sheet, terms))
        });
        let of_sheet = |sheet: &(CostSheet, super::cost::Terms)| break_even(&sheet.0, &sheet.1);
        let break_even = sheet.clone().and_then(|sheet| of_sheet(&sheet).map_err(|problem| at_prices(vec![problem])));
        let sheet = sheet.map(|(sheet, _)| sheet);
        let by_area = both(sheet.clone(), found.finishing.face.clone()).and_then(|(sheet, face)| {
            let found = by_area(sheet.net, face.value, &sheet.currency, job.units);
            found.map_err(|problem| at_prices(vec![problem]))
        });
        Self { needs, work, unpriced, sheet, by_area, break_even }
    }

    /// The offer as it would be sent on that day.
    ///
    /// # Errors
    /// What it waits for: the cost, the deposit, the days.
    pub fn offer(&self, job: &Job, sent: Date) -> Known<Quote> {
        let deposit = read::optional(job, FieldPath::Quote(QuoteField::Deposit), read::percent);
        let days = read::count(job, FieldPath::Quote(QuoteField::ValidDays));
        let (sheet, (deposit, valid_days)) = both(self.sheet.clone(), both(deposit, days))?;
        let place = FieldPath::Quote(QuoteField::Deposit);
        let wrong = |problem: Problem| Waiting::at(place, problem.words());
        let deposit = super::money::decimal(deposit.unwrap_or_default(), "Deposit").map_err(wrong)?;
        let lines = job.quote.excluded.text().lines().map(str::trim).filter(|line| !line.is_empty());
        let excluded = lines.map(str::to_owned).collect();
        Quote::of(&sheet, &Offer { sent, valid_days, deposit, excluded }).map_err(wrong)
    }

    /// The hours that a finished job teaches: those of which both are known.
    pub fn lessons(&self, job: &Job) -> Vec<Logged> {
        let one = |(row, hours): (usize, &crate::job::TaskHours)| {
            let took = read::optional(job, FieldPath::Hours(row, HoursField::Took), read::hours).ok()??;
            let own = self.work.iter().find(|own| own.task == hours.task)?;
            Some(Logged { task: hours.task, estimated: own.by_pace.clone().ok()?, took })
        };
        job.quote.hours.iter().enumerate().filter_map(one).collect()
    }

    /// What to know about it.
    pub(crate) fn advise(&self) -> Vec<Finding> {
        if self.sheet.is_err() || self.unpriced.is_empty() {
            return Vec::new();
        }
        vec![Finding {
            severity: Severity::Watch,
            stage: Stage::Quote,
            place: FieldPath::Book(BookField::Prices),
            says: format!("Not in the price, as it has none in your book: {}.", self.unpriced.join(", ")).into(),
            remedy: "Write what a pack costs; 0 where it costs you nothing.".into(),
            source: Source::Typed,
        }]
    }
}

/// A bag, or cement, without a price would leave out most of the cost: the price waits for it.
fn bags_priced<'a>(needs: &'a BillOfMaterials, prices: &'a PriceBook) -> impl Iterator<Item = Known<()>> + 'a {
    needs.known.iter().filter_map(move |need| {
        let priced = match need.id.strip_prefix("bag:") {
            Some(bag) => !prices.price(bag).trim().is_empty(),
            None => need.id != "cement" || !prices.good("cement").price.is_blank(),
        };
        if priced {
            return None;
        }
        let place = FieldPath::Book(BookField::Prices);
        Some(Err(Waiting::at(place, format!("Price of {}: nothing is written here yet.", need.name))))
    })
}

/// The items that are needed, what is used of those with a price, and the names of the others.
fn priced(needs: &BillOfMaterials, prices: &PriceBook) -> (Known<Book>, Vec<Use>, Vec<String>) {
    let (mut items, mut uses, mut unpriced) = (Vec::new(), Vec::new(), Vec::<String>::new());
    let (mut listed_already, mut named) = (HashSet::new(), HashSet::new());
    let mut gathered = Needs::default();
    for need in &needs.known {
        match prices.item(&need.id, &need.name) {
            Ok(listed) if listed.priced => {
                if listed_already.insert(&need.id) {
                    items.push(listed.item);
                }
                uses.push(Use { item: need.id.clone(), amount: need.amount });
            }
            Ok(_) => {
                if named.insert(&need.name) {
                    unpriced.push(need.name.clone());
                }
            }
            // The usual pack of an additive is not known: without a price nobody has to write it.
            Err(_) if prices.good(&need.id).price.is_blank() && need.id.starts_with("additive:") => {
                unpriced.push(need.name.clone());
            }
            Err(says) => {
                gathered.add(Waiting::at(FieldPath::Book(BookField::Prices), says));
            }
        }
    }
    let book = Book { currency: prices.currency.clone(), items };
    (gathered.unless(book), uses, unpriced)
}
