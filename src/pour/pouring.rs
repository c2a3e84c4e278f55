//! The pieces of one mix are cast on one day: one pouring, with one list of batches.

use super::inputs::PouringInputs;
use super::plan::{Plan, steel_of_pieces};
use crate::finding::Finding;
use crate::job::{Job, PourStep, read};
use crate::measure::{Units, Volume, write_count, write_volume};
use crate::mix::{self, Order, Pour};
use crate::working::{Figure, Known, Source, Term, all, known_ref};

/// What is poured at one go of a mix that several pieces are cast from. Where it has coats, each of them goes into all
/// pieces before the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Pouring {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// The pieces, by their index.
    pub pieces: Vec<usize>,
    /// What each of them takes of every coat, spare included, in their order; of bags there is one coat.
    pub volumes: Vec<Vec<Volume>>,
    /// Volume of all of them, spare included.
    pub volume: Figure<Volume>,
    /// All of them on one time line, laid out from the bags that are ordered.
    pub plan: Plan,
}

/// Indexes of the pieces that are cast from that bag of the job.
fn pieces_of(job: &Job, bag: usize) -> Vec<usize> {
    let of_bag = |piece: &usize| mix::bag_of(job, *piece).is_ok_and(|(index, _)| index == bag);
    (0..job.pieces.len()).filter(of_bag).collect()
}

/// The pieces that are poured at one go of that mix; nothing where it is only one.
pub(crate) fn poured_together(job: &Job, bag: usize) -> Option<Vec<usize>> {
    let pieces = pieces_of(job, bag);
    (pieces.len() > 1).then_some(pieces)
}

impl Pouring {
    /// The pouring of pieces of one mix. `pours` are those of all pieces of the job, in its order.
    ///
    /// # Errors
    /// What the order, a piece or the plan waits for.
    pub(crate) fn of(inputs: &PouringInputs, pours: &[&Known<Pour>], order: &Known<Order>) -> Known<Self> {
        let PouringInputs { pieces: poured, cure, day } = inputs;
        let order = known_ref(order)?;
        let known = all(poured.iter().filter_map(|piece| pours.get(piece.index)).map(|pour| known_ref(pour)))?;
        let Some(first) = known.first() else { return Err(read::no_piece(cure.mix.batch_at())) };
        let net =
            Term::sum(known.iter().map(|pour| pour.net.term())).titled("Concrete in the forms", Source::Arithmetic);
        let coats = order.scratch().and_then(|scratch| scratch.pooled.clone());
        let with_spare = order.volume.clone();
        let loads = match &coats {
            Some(coats) => {
                let source = cure.mix.recipe().map_or(Source::Typed, mix::RecipeInputs::batch_source);
                mix::batches_of(&with_spare, coats, source)
            }
            None => order.bags.clone(),
        };
        let fresh_density = first.fresh_density.clone();
        let bag = cure.mix.index;
        let pour = Pour { bag, net, with_spare, loads, coats, fresh_density };
        let whole = || vec![known.iter().map(|pour| pour.with_spare.value).collect()];
        let of_coat = |index: usize| {
            let coats = known.iter().filter_map(|pour| pour.coats.as_ref()?.coats.get(index));
            coats.map(|coat| coat.batch.volume * f64::from(coat.batches)).collect()
        };
        let volumes = pour.coats.as_ref().map_or_else(whole, |coats| (0..coats.coats.len()).map(of_coat).collect());
        let pieces: Vec<usize> = poured.iter().map(|piece| piece.index).collect();
        let plan = Plan::of_pieces(&pour, cure, day, steel_of_pieces(day, poured), pieces.len() as u32)?;
        Ok(Self { bag, pieces, volumes, volume: order.volume.clone(), plan })
    }

    /// What a piece takes of it, spare included: "0.29 ft³ of 0.86 ft³".
    pub fn part(&self, pour: &Pour, units: Units) -> String {
        let write = |volume| write_volume(volume, units);
        format!("{} of {}", write(pour.with_spare.value), write(self.volume.value))
    }

    /// How many pieces, in words: "3 pieces of Rapid mortar, 55 lb at one go".
    pub fn words(&self, job: &Job) -> String {
        let count = write_count(self.pieces.len() as u32, "piece", "pieces");
        format!("{count} of {} at one go", read::bag_name(job, self.bag))
    }

    /// The pieces that what lies between two shares of a coat goes into, in the order in which they are filled.
    pub(super) fn fills(&self, coat: usize, from: f64, until: f64) -> Vec<usize> {
        let volumes = self.volumes.get(coat).map_or(&[][..], Vec::as_slice);
        let all: Volume = volumes.iter().copied().sum();
        let mut reached = 0.0;
        let mut filled = Vec::new();
        for (piece, volume) in std::iter::zip(&self.pieces, volumes) {
            let begins = reached;
            reached += (*volume / all).value;
            if until.min(reached) - from.max(begins) > crate::measure::COUNT_TOLERANCE {
                filled.push(*piece);
            }
        }
        filled
    }

    /// What a bag is of all that is taken, where there are so many of them.
    pub(super) fn a_bag(&self, bags: u32) -> f64 {
        let given = self.plan.day.bag.map_or(1.0 / f64::from(bags.max(1)), |bag| (bag / self.volume.value).value);
        if given.is_finite() { given } else { 1.0 }
    }

    /// The piece that keeps the log of the whole pouring: its first. Nothing where they were poured one by one: another
    /// of them has a log of its own, or that one was screeded before the batches of all were placed.
    pub fn log_in(&self, job: &Job) -> Option<usize> {
        let log = |piece: usize| job.pieces.get(piece).map_or(&[][..], |piece| &piece.log);
        let (first, others) = self.pieces.split_first()?;
        let count = |is: fn(PourStep) -> bool| log(*first).iter().filter(|line| is(line.step)).count();
        let screeded = count(|step| step == PourStep::Screed) > 0;
        let placed = count(|step| matches!(step, PourStep::Placed(_)));
        let early = screeded && self.plan.parts.len() == 1 && placed < self.plan.batches.value as usize;
        (!early && others.iter().all(|piece| log(*piece).is_empty())).then_some(*first)
    }

    /// Whether it fits, as a finding.
    pub(crate) fn advise(&self, job: &Job) -> Vec<Finding> {
        let prefix = format!("{}: ", self.words(job));
        let scale = self.plan.coats.as_ref().and_then(|coats| mix::advise_scale(coats, job, self.bag, &prefix));
        super::plan::advise_plan(&self.plan, job, &prefix).into_iter().chain(scale).collect()
    }
}
