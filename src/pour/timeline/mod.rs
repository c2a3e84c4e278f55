//! A pour laid out on a time line: who mixes which batch in which mixer, when it is placed, when the steel goes in,
//! and how much of the workable time is left.
//!
//! The whole top has to be workable together, because it is tapped, screeded and, at its steel, opened again: from
//! first water until it is screeded takes no longer than the first batch stays workable (common practice). That is
//! [`Timeline::last_margin`], and it decides whether a pour fits. [`Timeline::joint_margin`] is what is left before
//! a batch is laid on one that no longer knits; it is never the smaller of the two, and says how late any one batch
//! may be.
//!
//! A face coat has that time for itself: it is let stiffen before anything is placed on it, and what backs it is
//! workable together from its own first water.
//!
//! People are told apart by their number only. Where more hands would be in each other's way, some stand by: a
//! layout is the earliest to end among those with so many people or fewer, and so many mixers or fewer, so that
//! more hands never end later.

mod change;
mod day;
mod resume;
mod run;
mod workable;

pub use change::{Change, Remedy, remedies};
pub use day::{DayProblem, FaceCoat, Holds, PourDay, Retarder, Steel, Times, Warmth};
pub use resume::{GoesOn, SoFar};
pub use workable::Stiffening;

use crate::measure::{Quantity, Temperature, Time, Volume};
use crate::pour::limits;
use crate::working::{Figure, Label, Named, Part, Source, Term};
use day::Mix;
use run::{Run, Vessel, Work, run};

/// One batch on the time line; times since first water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Batch {
    /// What it fills.
    pub volume: Volume,
    /// In which mixer, by its index.
    pub mixer: usize,
    /// Who mixes it, from 0.
    pub mixed_by: usize,
    /// Who dumps and places it, from 0.
    pub placed_by: usize,
    /// Water goes in.
    pub water: Time,
    /// It is mixed.
    pub mixed: Time,
    /// The mixer is empty.
    pub dumped: Time,
    /// It is in its place.
    pub placed: Time,
}

/// When the steel is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    /// From then.
    pub from: Time,
    /// Until then.
    pub until: Time,
    /// By whom, from 0.
    pub by: usize,
}

/// From then until then.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// From then.
    pub from: Time,
    /// Until then.
    pub until: Time,
}

/// A pour on its time line; times since first water.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// The batches, in the order of their water, which is that of their placing.
    pub batches: Vec<Batch>,
    /// From when a face coat is in until what backs it may be placed, where there is one.
    pub stiffens: Option<Span>,
    /// The steel, where it goes in during the pour.
    pub steel: Option<Laid>,
    /// People at work; others stand by.
    pub people: usize,
    /// Mixers in use.
    pub mixers: usize,
    /// How warm the mix is.
    pub temperature: Temperature,
    /// How long each batch stays workable, and knits with the next, from its own water.
    pub workable: Figure<Time>,
    /// Screeding and the first trowelling: everybody's last step.
    pub screed: Span,
    /// From first water until it is screeded.
    pub takes: Figure<Time>,
    /// What is held against the workable time: all of that; of a piece with a face coat the longer of spraying it and
    /// of backing it, each from its own first water.
    pub held: Time,
    /// What is left of the first batch's workable time then; negative where it does not fit.
    pub last_margin: Figure<Time>,
    /// The least that is left, over all batches, of the workable time of one when the next is laid on it; `None`
    /// for a single batch.
    pub joint_margin: Option<Time>,
    /// It fits.
    pub fits: bool,
}

/// A pour as it goes.
struct Outcome {
    mix: Mix,
    run: Run,
    /// What is left of the first batch's workable time at the end.
    margin: Time,
    fits: bool,
}

impl Batch {
    /// When it stops knitting with what is laid on it.
    pub fn stops(&self, workable: Time) -> Time {
        self.water + workable
    }
}

impl PourDay {
    /// The pour as it goes, without its workings.
    fn outcome(&self) -> Result<Outcome, DayProblem> {
        let mix = self.mix()?;
        let (work, vessels) = self.work()?;
        let run = earliest(&work, self.people as usize, &vessels, None).ok_or(DayProblem::Times)?;
        Ok(Outcome { mix, fits: run.held <= mix.last_end(), margin: mix.workable - run.held, run })
    }

    /// The pour as it goes, if it fits; one that does not is not followed to its end.
    fn outcome_if_it_fits(&self) -> Option<Outcome> {
        let mix = self.mix().ok()?;
        let (work, vessels) = self.work().ok()?;
        let run = earliest(&work, self.people as usize, &vessels, Some(mix.last_end()))?;
        Some(Outcome { mix, fits: true, margin: mix.workable - run.held, run })
    }

    /// The pour on its time line.
    ///
    /// # Errors
    /// Why it cannot be laid out.
    pub fn lay_out(&self) -> Result<Timeline, DayProblem> {
        self.lay_out_told(&Told::default())
    }

    /// The same, with what its workings tell beside its numbers.
    ///
    /// # Errors
    /// Why it cannot be laid out.
    pub(super) fn lay_out_told(&self, told: &Told) -> Result<Timeline, DayProblem> {
        let Outcome { mix, run, margin: _, fits } = self.outcome()?;
        let workable = self.workable_figure(&mix, told);
        let takes = self.takes(&run, told);
        let held = match run.stiffens {
            None => "from first water until it is screeded",
            Some(stiffens) if stiffens.from >= run.held => "from the first water of the face coat until it is in",
            Some(_) => "from the first water of the backer until it is screeded",
        };
        let held = run.held.named(held).after(&takes.working);
        let last_margin = (workable.called("workable time") - held).titled("Time to spare", Source::Practice);
        let Run { batches, steel, filled, ends, stiffens, held, people, mixers } = run;
        let screed = Span { from: filled, until: ends };
        let joints = std::iter::zip(&batches, batches.iter().skip(1)).enumerate();
        // What goes on a face coat is meant to come late.
        let meant = |older: usize| self.face.is_some_and(|face| older + 1 == face.batches as usize);
        let joints = joints
            .filter(|(older, _)| !meant(*older))
            .map(|(_, (older, next))| older.stops(mix.workable) - next.placed);
        let joint_margin = joints.reduce(|one, other| if other < one { other } else { one });
        let temperature = mix.temperature;
        Ok(Timeline {
            batches,
            stiffens,
            steel,
            people,
            mixers,
            temperature,
            workable,
            screed,
            takes,
            held,
            last_margin,
            joint_margin,
            fits,
        })
    }
}

/// The run that ends first among those with so many people and mixers, or fewer; of equal ones that with the most.
/// `None` if none ends by the limit.
fn earliest(work: &Work, people: usize, vessels: &[Vessel], limit: Option<Time>) -> Option<Run> {
    let mut best: Option<Run> = None;
    let a_batch = work.times.mix + work.times.dump + work.times.place;
    for mixers in (1..=vessels.len()).rev() {
        let Some((largest, vessels)) = vessels.first().zip(vessels.get(..mixers)) else { continue };
        let batches = (work.volume / largest.holds).value * (1.0 - crate::measure::COUNT_TOLERANCE);
        // A face coat has its workable time for itself.
        let batches = (batches - work.face.map_or(0.0, |face| f64::from(face.batches))).max(0.0);
        for people in (1..=people).rev() {
            // No run is shorter than its work shared evenly; those that cannot be the first are not run.
            let least = a_batch * batches / people as f64 + work.screed;
            let by = best.as_ref().map(|best| best.held).or(limit);
            if by.is_some_and(|by| least > by) {
                continue;
            }
            let Some(next) = run(work, people, vessels, by) else { continue };
            if best.as_ref().is_none_or(|best| next.held < best.held) {
                best = Some(next);
            }
        }
    }
    best
}

/// What the workings of a time line tell beside its numbers: where these come from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Told {
    /// Where the workable time comes from.
    pub(super) workable: Source,
    /// Carrying and dumping a batch, where that is the usual time.
    pub(super) usual_carry: Option<Time>,
    /// Placing a batch, where that is the usual time.
    pub(super) usual_place: Option<Time>,
    /// Laying the steel of one piece, where that is the usual time.
    pub(super) usual_steel: Option<Time>,
    /// Where the time of screeding comes from.
    pub(super) screed: Source,
}

impl Default for Told {
    /// As if all of it had been typed, but for screeding.
    fn default() -> Self {
        Self {
            workable: Source::Typed,
            usual_carry: None,
            usual_place: None,
            usual_steel: None,
            screed: Source::Practice,
        }
    }
}

/// More batches than this are not listed in a working.
const MOST_SHOWN: usize = 12;

impl PourDay {
    /// From first water until it is screeded, with its working.
    fn takes(&self, run: &Run, told: &Told) -> Figure<Time> {
        let usual = [
            (told.usual_carry, "carrying and dumping a batch, as usual"),
            (told.usual_place, "placing a batch, as usual"),
            (told.usual_steel, "laying the steel of a piece, as usual"),
        ];
        let usual = usual.into_iter().filter_map(|(time, name)| Some(time?.stated(name, Source::Practice)));
        let hands = [
            Quantity::Count(run.people as u32, "person", "people"),
            Quantity::Count(run.mixers as u32, "mixer", "mixers"),
        ];
        let count = run.batches.len() as u32;
        let batches = Term::stated_as(
            count,
            Label::with("batches, with {} and {}", hands),
            Quantity::Count(count, "batch", "batches"),
            Source::Arithmetic,
        );
        let placed = run.batches.iter().enumerate().take(MOST_SHOWN).map(|(index, batch)| {
            let number = || [Quantity::Number(index as f64 + 1.0, 0)];
            let moments = [batch.water.named("water"), batch.mixed.named("mixed"), batch.dumped.named("mixer empty")];
            Term::found("{}, {}, {}, then placing", moments.map(Part::from), batch.placed)
                .step(Label::with("batch {} placed", number()), Source::Arithmetic)
        });
        let stiffened = run.stiffens.zip(self.face).map(|(stiffens, face)| {
            let stiff = face.stiffens.named("it stiffens (20 to 30 min are usual)");
            (stiffens.from.named("face coat in") + stiff).step("backer may be placed", Source::Practice)
        });
        // Told in the order in which it happens, though no formula takes them.
        let last = run.batches.iter().fold(Time::default(), |last, batch| last.max(batch.placed));
        let mut told_before = Vec::new();
        for term in usual {
            told_before.push(term.ended("Usual").working);
        }
        told_before.push(batches.ended("Batches").working);
        told_before.extend(placed.chain(stiffened).map(|term| term.ended("Placed").working));
        let last = told_before.iter().fold(last.named("last batch placed"), |last, told| last.after(told));
        let filled = match (run.steel, self.steel) {
            (Some(laid), Some(steel)) => {
                let laid = (laid.from.named("steel from") + steel.takes.named("laying it"))
                    .step("steel laid", Source::Arithmetic);
                last.with_rule(laid, "the later of {} and {}", |x| x[0].max(x[1]), run.filled)
            }
            _ => last.by_rule("{}", |x| x[0], run.filled),
        };
        let filled = filled.step("all in the form", Source::Arithmetic);
        let screeded = match self.pieces {
            0 | 1 => Label::from("screeding and the first trowelling, everybody's last step"),
            pieces => Label::with(
                "screeding and the first trowelling of {} pieces, one after the other, everybody's last step",
                [Quantity::Number(f64::from(pieces), 0)],
            ),
        };
        (filled + self.screed.named(screeded)).titled("From first water until it is screeded", told.screed)
    }
}

impl Timeline {
    /// When what has to be screeded is stiff: the first batch of it stops being workable.
    pub fn stiff(&self) -> Time {
        let first =
            self.batches.iter().find(|batch| self.stiffens.is_none_or(|stiffens| batch.placed >= stiffens.until));
        first.map_or(self.workable.value, |first| first.stops(self.workable.value))
    }

    /// From when to when a rapid mix is kept wet: from when the first batch sets to one hour after the last one
    /// does (common practice).
    pub fn keep_wet(&self) -> [Time; 2] {
        let sets = |batch: Option<&Batch>| batch.map_or(Time::default(), |batch| batch.stops(self.workable.value));
        [sets(self.batches.first()), sets(self.batches.last()) + limits::water_cure()]
    }
}
