//! What was typed about the price of a job, read once. The maker's own book is read by [`super::PriceBook`].

use super::money::Problem;
use crate::job::read::{self, optional};
use crate::job::{FieldPath, HoursField, Job, QuoteField, Task};
use crate::measure::{Time, Units};
use crate::working::{Known, Waiting};

/// What the cost of a job follows from, besides what the other rooms found and the maker's own book.
///
/// ```
/// use pourwright::job::Task;
/// use pourwright::mix::demo;
/// use pourwright::price::PriceInputs;
///
/// let job = demo("an id");
/// let inputs = PriceInputs::read(&job);
/// assert_eq!(inputs.mixes[0].id, job.bags[0].id);
/// assert_eq!(inputs.sealer, "Sealer", "nothing is typed of it");
/// assert_eq!(inputs.hours(Task::Build), &Ok(None), "the maker's own pace counts");
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct PriceInputs {
    /// The system of units: a price is told for a square foot, or for a square metre.
    pub units: Units,
    /// The mixes of the job, in its order.
    pub mixes: Vec<NamedMix>,
    /// What the sealer is called; "Sealer" where that is blank.
    pub sealer: String,
    /// The hours of every task that are typed for this job, by the clock, in the order of [`Task::ALL`]; nothing where
    /// they are blank: the maker's own pace counts.
    pub hours: [Known<Option<Time>>; Task::ALL.len()],
}

/// A mix of the job, as the price book finds it and the bill names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedMix {
    /// The id of its bag; the price of a bag is kept under it.
    pub id: String,
    /// What to call it inside of a sentence: its name, or its number where it has none.
    pub name: String,
}

/// What the maker decides about the offer of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct OfferInputs {
    /// Due with the order, as a share of the price; 0 where it is blank.
    pub deposit: Known<f64>,
    /// The days that the offer stands; waited for.
    pub valid_days: Known<u32>,
    /// What is not included, a line each; none where it is blank.
    pub excluded: Vec<String>,
}

impl PriceInputs {
    /// Reads what the cost of the job follows from.
    pub fn read(job: &Job) -> Self {
        let mix =
            |(index, bag): (usize, &crate::job::Bag)| NamedMix { id: bag.id.clone(), name: read::bag_name(job, index) };
        let sealer = match job.finish.sealer.text().trim() {
            "" => "Sealer",
            typed => typed,
        };
        let hours = |task| match job.quote.hours.iter().position(|hours| hours.task == task) {
            Some(row) => optional(job, FieldPath::Hours(row, HoursField::Estimated), read::hours),
            None => Ok(None),
        };
        Self {
            units: job.units,
            mixes: job.bags.iter().enumerate().map(mix).collect(),
            sealer: sealer.to_owned(),
            hours: Task::ALL.map(hours),
        }
    }

    /// The mix with that index; a nameless one where the job has none.
    pub(super) fn mix(&self, index: usize) -> NamedMix {
        let nameless = || NamedMix { id: String::new(), name: format!("Bag {}", index + 1) };
        self.mixes.get(index).cloned().unwrap_or_else(nameless)
    }

    /// The hours of a task that are typed for this job, by the clock; nothing where they are blank.
    pub fn hours(&self, task: Task) -> &Known<Option<Time>> {
        let found = Task::ALL.iter().zip(&self.hours).find(|(one, _)| **one == task);
        found.map_or(&Ok(None), |(_, hours)| hours)
    }
}

impl OfferInputs {
    /// Reads what is decided about the offer of the job.
    pub fn read(job: &Job) -> Self {
        let excluded = job.quote.excluded.text().lines().map(str::trim).filter(|line| !line.is_empty());
        Self {
            deposit: optional(job, FieldPath::Quote(QuoteField::Deposit), read::percent).map(Option::unwrap_or_default),
            valid_days: read::count(job, FieldPath::Quote(QuoteField::ValidDays)),
            excluded: excluded.map(str::to_owned).collect(),
        }
    }
}

/// What is waited for where a deposit makes no offer.
pub(super) fn wrong_deposit(problem: &Problem) -> Waiting {
    Waiting::at(FieldPath::Quote(QuoteField::Deposit), problem.words())
}

/// The hours that the tasks of a finished job took, as far as they are typed and can be read.
pub fn hours_taken(job: &Job) -> Vec<(Task, Time)> {
    let one = |(row, hours): (usize, &crate::job::TaskHours)| {
        let took = optional(job, FieldPath::Hours(row, HoursField::Took), read::hours).ok()??;
        Some((hours.task, took))
    };
    job.quote.hours.iter().enumerate().filter_map(one).collect()
}
