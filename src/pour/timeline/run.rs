//! The simulation: people and mixers at their work, moment by moment.
//!
//! A person who is free takes the first of these that is to be had: lay the steel, when it is due; dump and place
//! the batch that has waited longest; start a batch in the largest mixer that is free. A person stays with a batch
//! while it is mixed, and again from dumping to placed. Before the steel no more is poured than up to its share of
//! the fill; while it is laid nothing is poured, but mixing goes on. Nothing is placed on a face coat before it has
//! stiffened, and nothing mixed for that earlier than it takes.

use super::{Batch, FaceCoat, Laid, Span, Steel, Times};
use crate::measure::{Time, Volume};

/// What has to be done, whoever does it.
pub(super) struct Work {
    /// To be placed in all.
    pub(super) volume: Volume,
    pub(super) times: Times,
    /// The first batches, which have to stiffen before the others go on.
    pub(super) face: Option<FaceCoat>,
    pub(super) steel: Option<Steel>,
    /// Screeding, once all of that is done.
    pub(super) screed: Time,
}

/// A mixer, and its place among those of the day.
#[derive(Clone, Copy)]
pub(super) struct Vessel {
    pub(super) index: usize,
    pub(super) holds: Volume,
}

/// What came of it.
pub(super) struct Run {
    pub(super) batches: Vec<Batch>,
    pub(super) steel: Option<Laid>,
    /// When the last batch is placed and the steel is laid.
    pub(super) filled: Time,
    /// When it is screeded.
    pub(super) ends: Time,
    /// From when a face coat is in until what backs it may be placed.
    pub(super) stiffens: Option<Span>,
    /// What is held against the workable time.
    pub(super) held: Time,
    pub(super) people: usize,
    pub(super) mixers: usize,
}

/// What a mixer does.
#[derive(Clone, Copy)]
pub(super) enum State {
    FreeFrom(Time),
    Holds,
}

pub(super) struct Site<'a> {
    work: &'a Work,
    pub(super) vessels: &'a [Vessel],
    pub(super) now: Time,
    hands: Vec<Time>,
    pub(super) states: Vec<State>,
    pub(super) batches: Vec<Batch>,
    /// How many batches have been dumped or are being: they are poured in the order of their water.
    pub(super) poured: usize,
    /// Volume of those.
    pub(super) filled: Volume,
    pub(super) left: Volume,
    pub(super) steel: Option<Laid>,
    pub(super) last_placed: Time,
    pub(super) ends: Time,
}

/// The pour with so many people and these mixers, largest first; `None` as soon as it cannot end by the limit.
pub(super) fn run(work: &Work, people: usize, vessels: &[Vessel], limit: Option<Time>) -> Option<Run> {
    Site::new(work, people, vessels).go(limit)
}

impl<'a> Site<'a> {
    /// Everybody free, nothing mixed.
    pub(super) fn new(work: &'a Work, people: usize, vessels: &'a [Vessel]) -> Self {
        Self {
            work,
            vessels,
            now: Time::default(),
            hands: vec![Time::default(); people],
            states: vec![State::FreeFrom(Time::default()); vessels.len()],
            batches: Vec::new(),
            poured: 0,
            filled: Volume::default(),
            left: work.volume,
            steel: None,
            last_placed: Time::default(),
            ends: Time::default(),
        }
    }

    /// On to the end; `None` as soon as it cannot end by the limit.
    pub(super) fn go(mut self, limit: Option<Time>) -> Option<Run> {
        loop {
            while let Some(hand) = self.hands.iter().position(|busy| *busy <= self.now) {
                if !self.take_up(hand) {
                    break;
                }
            }
            let ends = self.ends + self.work.screed;
            if limit.is_some_and(|limit| self.held(ends) > limit) {
                return None;
            }
            if self.is_done() {
                let (people, mixers) = (self.hands.len(), self.vessels.len());
                let filled = self.ends;
                let (stiffens, held) = (self.stiffens(), self.held(ends));
                return Some(Run {
                    batches: self.batches,
                    steel: self.steel,
                    filled,
                    ends,
                    stiffens,
                    held,
                    people,
                    mixers,
                });
            }
            self.now = self.next_moment()?;
        }
    }

    /// How many batches are the face coat.
    fn face_batches(&self) -> usize {
        self.work.face.map_or(0, |face| face.batches as usize)
    }

    /// From when the face coat is in until what backs it may be placed; nothing while it is not in.
    pub(super) fn stiffens(&self) -> Option<Span> {
        let face = self.work.face?;
        let of_face = self.batches.get(..face.batches as usize).filter(|_| self.poured >= face.batches as usize)?;
        let from = of_face.iter().fold(Time::default(), |last, batch| last.max(batch.placed));
        Some(Span { from, until: from + face.stiffens })
    }

    /// When the batch of that index may be placed at the earliest; nothing while that is not known.
    pub(super) fn opens(&self, index: usize) -> Option<Time> {
        if index < self.face_batches() || self.work.face.is_none() {
            return Some(Time::default());
        }
        self.stiffens().map(|span| span.until)
    }

    /// When the next batch may have its water at the earliest; nothing while that is not known.
    fn mixes_from(&self) -> Option<Time> {
        if self.batches.len() < self.face_batches() || self.work.face.is_none() {
            return Some(Time::default());
        }
        self.stiffens().map(|span| span.from.max(span.until - self.work.times.mix))
    }

    /// What is held against the workable time where it ends then: from the first water of the face coat until it is
    /// in, and from the first water of what backs it until that is screeded, whichever is longer.
    fn held(&self, ends: Time) -> Time {
        if self.work.face.is_none() {
            return ends;
        }
        let backed = self.batches.get(self.face_batches()).map_or(Time::default(), |first| ends - first.water);
        backed.max(self.stiffens().map_or(Time::default(), |span| span.from))
    }

    /// As much is poured as goes in before the steel, which is not in yet.
    pub(super) fn waits_for_steel(&self) -> bool {
        self.before_steel().is_some_and(|level| self.filled >= level - self.dust())
    }

    /// Volumes nearer than this are equal: float noise of summing batches.
    fn dust(&self) -> Volume {
        self.work.volume * crate::measure::COUNT_TOLERANCE
    }

    fn is_done(&self) -> bool {
        let laid = self.work.steel.is_none() || self.steel.is_some();
        self.left <= self.dust() && self.poured == self.batches.len() && laid
    }

    /// The next moment at which somebody or a mixer gets free. Every batch is started once, poured once, and
    /// steel is laid once, so the moments end.
    fn next_moment(&self) -> Option<Time> {
        let mixers = self.states.iter().filter_map(|state| match state {
            State::FreeFrom(at) => Some(*at),
            State::Holds => None,
        });
        let opening = self.opens(self.poured).into_iter().chain(self.mixes_from());
        let moments = self.hands.iter().copied().chain(mixers).chain(opening).filter(|at| *at > self.now);
        moments.reduce(|one, other| if other < one { other } else { one })
    }

    /// Gives a free person something to do; false when there is nothing.
    fn take_up(&mut self, hand: usize) -> bool {
        self.lay_steel(hand) || self.pour(hand) || self.mix(hand)
    }

    /// The fill up to which is poured before the steel, while it is not in yet.
    fn before_steel(&self) -> Option<Volume> {
        let steel = self.work.steel?;
        let is_in = self.steel.as_ref().is_some_and(|laid| laid.until <= self.now);
        (!is_in).then(|| self.work.volume * steel.at)
    }

    fn lay_steel(&mut self, hand: usize) -> bool {
        let (Some(steel), None) = (self.work.steel, &self.steel) else { return false };
        let high_enough = self.filled >= self.work.volume * steel.at - self.dust();
        if !high_enough || self.last_placed > self.now {
            return false;
        }
        let until = self.now + steel.takes;
        self.steel = Some(Laid { from: self.now, until, by: hand });
        self.keep(hand, until);
        true
    }

    fn pour(&mut self, hand: usize) -> bool {
        let now = self.now;
        if self.waits_for_steel() || self.opens(self.poured).is_none_or(|opens| opens > now) {
            return false;
        }
        let times = self.work.times;
        let Some(batch) = self.batches.get_mut(self.poured).filter(|batch| batch.mixed <= now) else { return false };
        batch.dumped = now + times.dump;
        batch.placed = batch.dumped + times.place;
        batch.placed_by = hand;
        self.filled += batch.volume;
        let (mixer, dumped, placed) = (batch.mixer, batch.dumped, batch.placed);
        self.poured += 1;
        if placed > self.last_placed {
            self.last_placed = placed;
        }
        let vessels = std::iter::zip(self.vessels, &mut self.states);
        for (_, state) in vessels.filter(|(vessel, _)| vessel.index == mixer) {
            *state = State::FreeFrom(dumped);
        }
        self.keep(hand, placed);
        true
    }

    fn mix(&mut self, hand: usize) -> bool {
        if self.left <= self.dust() {
            return false;
        }
        let now = self.now;
        if self.mixes_from().is_none_or(|from| from > now) {
            return false;
        }
        let mut vessels = std::iter::zip(self.vessels, &mut self.states);
        let free = vessels.find(|(_, state)| matches!(state, State::FreeFrom(at) if *at <= now));
        let Some((vessel, state)) = free else { return false };
        *state = State::Holds;
        let volume = if vessel.holds < self.left { vessel.holds } else { self.left };
        let mixed = now + self.work.times.mix;
        self.left -= volume;
        self.batches.push(Batch {
            volume,
            mixer: vessel.index,
            mixed_by: hand,
            placed_by: hand,
            water: now,
            mixed,
            dumped: mixed,
            placed: mixed,
        });
        self.keep(hand, mixed);
        true
    }

    /// That person is busy until then.
    pub(super) fn keep(&mut self, hand: usize, until: Time) {
        if let Some(busy) = self.hands.get_mut(hand) {
            *busy = until;
        }
        if until > self.ends {
            self.ends = until;
        }
    }
}
