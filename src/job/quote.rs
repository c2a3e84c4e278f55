//! What is offered for a job, how long it was thought to take and took, and the offer as it was sent.

use super::schema::{entries, fields};
use super::{Entry, Job};
use crate::measure::Date;
use serde::{Deserialize, Serialize};

/// A task that is timed by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Task {
    /// Measuring, template and talk.
    Measure,
    /// The form and its steel.
    Build,
    /// Mixing, placing and troweling.
    Pour,
    /// Out of the form, and filled.
    Strip,
    /// Grinding and polishing.
    Grind,
    /// Sealing.
    Seal,
    /// The drive, and setting.
    Set,
}

impl Task {
    /// In the order of the days.
    pub const ALL: [Self; 7] =
        [Self::Measure, Self::Build, Self::Pour, Self::Strip, Self::Grind, Self::Seal, Self::Set];

    /// What it is called.
    pub fn label(self) -> &'static str {
        match self {
            Self::Measure => "Measure on site",
            Self::Build => "Build the form",
            Self::Pour => "Mix and pour",
            Self::Strip => "Strip and fill",
            Self::Grind => "Grind and polish",
            Self::Seal => "Seal",
            Self::Set => "Carry and set",
        }
    }
}

/// The hours of one task.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TaskHours {
    /// Which task.
    pub task: Task,
    /// What it is thought to take; blank is at the maker's own pace.
    pub estimated: Entry,
    /// What it took.
    pub took: Entry,
}

entries! {
    /// The entries of [`TaskHours`].
    HoursField of TaskHours {
        /// What it is thought to take, by the clock.
        Estimated => estimated, Hours, "estimated", "Thought to take";
        /// What it took.
        Took => took, Hours, "took", "Took";
    }
}

/// A label and what it labels, as they were sent.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuoteLine {
    /// What it is: "Size".
    pub label: String,
    /// In words.
    pub text: String,
}

/// What the client was offered instead.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuoteOption {
    /// What it is called.
    pub name: String,
    /// What sets it apart.
    pub differs: Vec<QuoteLine>,
    /// Its price, in words.
    pub price: String,
}

/// The offer as it was sent: words and numbers that nothing changes any more.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FrozenQuote {
    /// The day it was sent.
    pub sent: Date,
    /// The last day it stands.
    pub valid_until: Date,
    /// The maker's own lines, as they stood above it.
    pub maker: String,
    /// What is offered: size, finish, whatever was said.
    pub lines: Vec<QuoteLine>,
    /// Net, tax, price, deposit and balance, in words.
    pub amounts: Vec<QuoteLine>,
    /// What the client pays in all, as a plain decimal in that currency.
    pub price: String,
    /// ISO 4217 code.
    pub currency: String,
    /// What was offered instead.
    pub options: Vec<QuoteOption>,
    /// What is not included.
    pub excluded: Vec<String>,
    /// The job as it was then, without its own frozen quote: its drawing, and what has changed since.
    pub job: Box<Job>,
}

/// What is decided about the offer of a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct QuoteChoices {
    /// Due with the order, of the price; blank is none.
    pub deposit: Entry,
    /// Days that the offer stands.
    pub valid_days: Entry,
    /// What is not included, a line each.
    pub excluded: Entry,
    /// Other jobs of the shelf that are offered instead, by their ids.
    pub options: Vec<String>,
    /// Hours, task by task.
    pub hours: Vec<TaskHours>,
    /// The offer as it was sent.
    #[serde(deserialize_with = "super::entry::stated")]
    pub frozen: Option<FrozenQuote>,
}

entries! {
    /// The entries of [`QuoteChoices`].
    QuoteField of QuoteChoices {
        /// Due with the order.
        Deposit => deposit, Percent, "deposit", "Deposit";
        /// Days that the offer stands.
        ValidDays => valid_days, Count, "valid-days", "Valid for days";
        /// What is not included.
        Excluded => excluded, Text, "excluded", "Not included";
    }
}

impl Default for QuoteChoices {
    /// The usual: common practice, no source.
    fn default() -> Self {
        let hours = |task| TaskHours { task, estimated: Entry::default(), took: Entry::default() };
        Self {
            deposit: Entry::new("50 %"),
            valid_days: Entry::new("30"),
            excluded: Entry::new("Plumbing\nRemoval of the old top"),
            options: Vec::new(),
            hours: Task::ALL.map(hours).to_vec(),
            frozen: None,
        }
    }
}

fields! {
    /// A part of the maker's own book, which is kept apart from jobs: where a number waits for it.
    BookField {
        /// For an hour of one person.
        Wage, Money, "wage", "Wage", hint "For an hour of one person.";
        /// A share of material and wages.
        Overhead, Percent, "overhead", "Overhead", hint "Of material and wages.";
        /// What is earned.
        Margin, Percent, "margin", "Margin";
        /// On the price before tax.
        Tax, Percent, "tax", "Tax", hint "Blank: none.";
        /// What is bought.
        Prices, Text, "prices", "Your prices";
        /// The maker's pads.
        Pads, Text, "pads", "Your pads";
        /// The maker's pace, task by task.
        Pace, Text, "pace", "Your pace";
    }
}

impl Job {
    /// The job as an offer takes it: without hours that were taken, notes, and what was sent before.
    pub fn as_offered(&self) -> Self {
        let mut job = self.clone();
        job.quote.frozen = None;
        job.notes = Entry::default();
        job.quote.hours.iter_mut().for_each(|hours| hours.took = Entry::default());
        job
    }

    /// What has changed since the offer was sent, in words, a field each; none where nothing was sent. Notes
    /// and hours taken change no offer.
    pub fn changed_since_sent(&self) -> Option<Vec<String>> {
        let then = self.quote.frozen.as_ref()?.job.as_offered();
        let now = self.as_offered();
        let mut changed = Vec::new();
        for place in now.places() {
            let text = |job: &Self| job.entry_at(place).map(|entry| entry.text().trim().to_owned());
            let (was, is) = (text(&then), text(&now));
            if was != is {
                let say = |text: Option<String>| match text {
                    Some(text) if !text.is_empty() => text,
                    _ => "blank".to_owned(),
                };
                let name = super::read::name_of(&now, place);
                changed.push(format!("{name}: {} then, {} now.", say(was), say(is)));
            }
        }
        if changed.is_empty() && then != now {
            changed.push("Parts or choices are not as they were then.".to_owned());
        }
        Some(changed)
    }
}
