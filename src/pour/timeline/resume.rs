//! A pour that is under way, laid out from where it stands: the same people, the same rules, what happened kept.

use super::run::{Site, State};
use super::{Batch, Laid, PourDay, Span, Timeline};
use crate::measure::Time;

/// What has happened so far; times since first water.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SoFar {
    /// When water went into each batch that was started, in their order.
    pub water: Vec<Time>,
    /// When each of the first of them was placed.
    pub placed: Vec<Time>,
    /// When the steel was in.
    pub steel: Option<Time>,
    /// The present.
    pub now: Time,
}

/// How a pour goes on; times since first water.
#[derive(Clone, Debug, PartialEq)]
pub struct GoesOn {
    /// All batches: as they went, and as they will go. One that is being placed has the end that it was due at,
    /// which may be past.
    pub batches: Vec<Batch>,
    /// The steel, as it went or will go.
    pub steel: Option<Laid>,
    /// When the last batch is placed and the steel is laid, not before now: then it is screeded.
    pub filled: Time,
    /// When it is screeded.
    pub ends: Time,
    /// From when a face coat is in, as it went or will go, until what backs it may be placed.
    pub stiffens: Option<Span>,
}

impl PourDay {
    /// The rest of a pour that was laid out as `plan`, from what has happened so far; `None` where the day cannot
    /// be laid out.
    pub fn go_on(&self, plan: &Timeline, so_far: &SoFar) -> Option<GoesOn> {
        let (work, vessels) = self.work().ok()?;
        let vessels = vessels.get(..plan.mixers)?;
        let mut site = Site::new(&work, plan.people, vessels);
        let now = if so_far.now > Time::default() { so_far.now } else { Time::default() };
        site.now = now;
        site.ends = now;
        site.steel = so_far.steel.map(|at| Laid { from: at, until: at, by: 0 });
        // What each person was last seen to end.
        let mut seen = vec![Time::default(); plan.people];
        for (index, (water, planned)) in std::iter::zip(&so_far.water, &plan.batches).enumerate() {
            let mixed = *water + work.times.mix;
            let placed = so_far.placed.get(index).copied();
            site.left -= planned.volume;
            let batch = Batch { water: *water, mixed, dumped: mixed, placed: placed.unwrap_or(mixed), ..*planned };
            site.batches.push(batch);
            match placed {
                Some(placed) => {
                    site.poured += 1;
                    site.filled += planned.volume;
                    site.last_placed = site.last_placed.max(placed);
                    note(&mut seen, planned.placed_by, placed);
                }
                None => {
                    site.hold(planned.mixer);
                    note(&mut seen, planned.mixed_by, mixed.min(now));
                    if mixed > now {
                        site.keep(planned.mixed_by, mixed);
                    }
                }
            }
        }
        // Batches that are mixed are being placed, unless it is the steel's turn: from when somebody could.
        let times = work.times;
        // None is dumped before the one with the earlier water.
        let mut after = Time::default();
        for index in site.poured..site.batches.len() {
            let Some(batch) = site.batches.get(index).copied() else { break };
            let from = batch.mixed.max(seen.get(batch.placed_by).copied().unwrap_or_default()).max(after);
            let Some(opens) = site.opens(index) else { break };
            let from = from.max(opens);
            if from > now || site.waits_for_steel() {
                break;
            }
            after = from;
            let placed = from + times.dump + times.place;
            let ends = placed.max(now);
            if let Some(batch) = site.batches.get_mut(index) {
                batch.dumped = from + times.dump;
                batch.placed = placed;
            }
            site.poured += 1;
            site.filled += batch.volume;
            site.last_placed = site.last_placed.max(ends);
            site.free(batch.mixer, ends - times.place);
            site.keep(batch.placed_by, ends);
            note(&mut seen, batch.placed_by, ends);
        }
        let run = site.go(None)?;
        Some(GoesOn {
            batches: run.batches,
            steel: run.steel,
            filled: run.filled,
            ends: run.ends,
            stiffens: run.stiffens,
        })
    }
}

fn note(seen: &mut [Time], who: usize, until: Time) {
    if let Some(last) = seen.get_mut(who) {
        *last = last.max(until);
    }
}

impl Site<'_> {
    /// That mixer holds a batch.
    fn hold(&mut self, mixer: usize) {
        self.set(mixer, State::Holds);
    }

    /// That mixer is empty from then on.
    fn free(&mut self, mixer: usize, from: Time) {
        self.set(mixer, State::FreeFrom(from));
    }

    fn set(&mut self, mixer: usize, to: State) {
        for (_, state) in std::iter::zip(self.vessels, &mut self.states).filter(|(vessel, _)| vessel.index == mixer) {
            *state = to;
        }
    }
}
