//! The pieces of one mix are cast on one day: one pouring, with one list of batches.

use super::plan::{Plan, steel_of_pieces};
use crate::finding::Finding;
use crate::job::Job;
use crate::job::read::{self, all};
use crate::measure::{Volume, write_count, write_volume};
use crate::mix::{self, Order, Pour};
use crate::working::{Figure, Known, Source, Waiting, Working};

/// What is poured at one go of a mix in bags that several pieces are cast from.
///
/// Pieces of a mix made from scratch have batches of their own, each with its coats, and are planned one by one.
#[derive(Clone, Debug, PartialEq)]
pub struct Pouring {
    /// Index of the bag among the job's.
    pub bag: usize,
    /// The pieces, by their index.
    pub pieces: Vec<usize>,
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

/// The pieces that are poured at one go from that bag; nothing where it is only one, or a mix made from scratch.
pub(crate) fn poured_together(job: &Job, bag: usize) -> Option<Vec<usize>> {
    let scratch = job.bags.get(bag).is_none_or(|bag| bag.recipe.is_some());
    let pieces = if scratch { Vec::new() } else { pieces_of(job, bag) };
    (pieces.len() > 1).then_some(pieces)
}

impl Pouring {
    /// The pouring of `pieces`, all cast from that bag. `pours` are those of all pieces of the job, in its order.
    ///
    /// # Errors
    /// What the order, a piece or the plan waits for.
    pub(crate) fn of(
        job: &Job,
        bag: usize,
        pieces: Vec<usize>,
        pours: &[&Known<Pour>],
        order: &Known<Order>,
    ) -> Known<Self> {
        let order = order.as_ref().map_err(Waiting::clone)?;
        let known =
            all(pieces.iter().filter_map(|piece| pours.get(*piece)).map(|pour| pour.as_ref().map_err(Waiting::clone)))?;
        let Some(first) = known.first() else { return Err(read::no_piece(mix::batch_at(job, bag))) };
        let net: Volume = known.iter().map(|pour| pour.net.value).sum();
        let net = Working::new("Concrete in the forms")
            .line("all pieces of this mix", "", write_volume(net, job.units), Source::Arithmetic)
            .of(net);
        let (with_spare, loads) = (order.volume.clone(), order.bags.clone());
        let fresh_density = first.fresh_density.clone();
        let pour = Pour { bag, net, with_spare, loads, coats: None, fresh_density };
        let plan = Plan::with_steel(&pour, job, steel_of_pieces(job, &pieces))?;
        Ok(Self { bag, pieces, volume: order.volume.clone(), plan })
    }

    /// What a piece takes of it, spare included: "0.29 ft³ of 0.86 ft³".
    pub fn part(&self, pour: &Pour, job: &Job) -> String {
        let write = |volume| write_volume(volume, job.units);
        format!("{} of {}", write(pour.with_spare.value), write(self.volume.value))
    }

    /// How many pieces, in words: "3 pieces of Rapid mortar, 55 lb at one go".
    pub fn words(&self, job: &Job) -> String {
        let count = write_count(self.pieces.len() as u32, "piece", "pieces");
        format!("{count} of {} at one go", read::bag_name(job, self.bag))
    }

    /// Whether it fits, as a finding.
    pub(crate) fn advise(&self, job: &Job) -> Vec<Finding> {
        super::plan::advise_plan(&self.plan, job, &format!("{}: ", self.words(job)))
    }
}
