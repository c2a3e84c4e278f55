//! Hours by task, at the maker's own pace, which finished jobs teach.

use super::money::{Problem, decimal};
use crate::finish::Rate;
pub use crate::job::Task;
use crate::measure::{Area, Quantity, Time};
use crate::price::limits;
use crate::working::{Figure, Label, Named, Source, Term};
use rust_decimal::{Decimal, RoundingStrategy};
use uom::si::time::hour;

/// How long a task takes: so much whatever the size, and so much by the area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Habit {
    /// Which task.
    pub task: Task,
    /// Whatever the size.
    pub fixed: Time,
    /// By the area of the face.
    pub by_area: Option<Rate>,
    /// Where the pace comes from.
    pub source: Source,
}

/// A task of a finished job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Logged {
    /// Which task.
    pub task: Task,
    /// What had been estimated before anything was learned: by the habit alone.
    pub estimated: Time,
    /// What it took.
    pub took: Time,
}

/// What finished jobs teach of a task.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Learned {
    /// Hours taken over hours estimated; one while too few jobs are finished.
    pub ratio: f64,
    /// Jobs that it rests on; nothing was learned of under [`limits::JOBS_TO_LEARN_FROM`].
    pub jobs: usize,
}

impl Learned {
    /// Before any job is finished.
    pub const NOTHING: Self = Self { ratio: 1.0, jobs: 0 };
}

/// What finished jobs teach of a task; the log runs from the oldest to the newest.
///
/// It is the median of hours taken over hours estimated, of the newest [`limits::JOBS_REMEMBERED`] jobs: one job
/// that went badly, or whose clock ran on over night, does not move it. Of an even number, the geometric mean
/// of the middle two: twice as long and half as long cancel out. Jobs without both hours do not count.
pub fn learn(task: Task, log: &[Logged]) -> Learned {
    let of_task = log.iter().filter(|one| one.task == task);
    let ratios = of_task.map(|one| (one.took / one.estimated).value);
    let sound = ratios.rev().filter(|ratio| ratio.is_finite() && *ratio > 0.0);
    let mut ratios: Vec<f64> = sound.take(limits::JOBS_REMEMBERED).collect();
    ratios.sort_by(f64::total_cmp);
    let jobs = ratios.len();
    if jobs < limits::JOBS_TO_LEARN_FROM {
        return Learned { ratio: 1.0, jobs };
    }
    let middle = |index: usize| ratios.get(index).copied().unwrap_or(1.0);
    let ratio = if jobs % 2 == 1 {
        middle(jobs / 2)
    } else {
        // Apart, so that two large ones do not run over.
        middle(jobs / 2 - 1).sqrt() * middle(jobs / 2).sqrt()
    };
    Learned { ratio, jobs }
}

/// What a task takes on a face of that area. `None` where a time is no number or under zero, or an area or a
/// pace is not over it.
pub fn hours(habit: &Habit, face: Area, learned: Learned) -> Option<Figure<Time>> {
    if !(habit.fixed.value.is_finite() && habit.fixed.value >= 0.0) {
        return None;
    }
    let by_area = match habit.by_area {
        Some(rate) => rate.takes(face)?,
        None => Time::default(),
    };
    let plain = habit.fixed + by_area;
    let takes = plain * learned.ratio;
    if !takes.value.is_finite() || takes.value < 0.0 {
        return None;
    }
    let title = format!("Hours: {}", habit.task.label());
    let at_your_pace = habit.fixed.named("whatever the size") + by_area.named("by the area, at your pace");
    if learned.jobs < limits::JOBS_TO_LEARN_FROM {
        return Some(at_your_pace.titled(title, habit.source));
    }
    let jobs = u32::try_from(learned.jobs).unwrap_or(u32::MAX);
    let median = Label::with(
        "hours taken over hours estimated, the median of {}",
        [Quantity::Count(jobs, "finished job", "finished jobs")],
    );
    let ratio = Term::named_as(learned.ratio, median, Quantity::Number(learned.ratio, 2));
    Some((at_your_pace.step("hours at your pace", habit.source) * ratio).titled(title, Source::Arithmetic))
}

/// Hours as they are paid: to a hundredth, halves to even.
///
/// # Errors
/// They are no number, under zero or past all measure.
pub fn paid_hours(time: Time, what: &str) -> Result<Decimal, Problem> {
    let hours = decimal(time.get::<hour>(), what)?;
    Ok(hours.round_dp_with_strategy(2, RoundingStrategy::MidpointNearestEven))
}
