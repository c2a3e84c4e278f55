//! The single door: [`estimate`] makes everything that follows from a job.

use crate::carry::{Crew, Weights};
use crate::finding::Finding;
use crate::form::Form;
use crate::job::Job;
use crate::measure::{Mass, Volume};
use crate::mix::{Order, Pour};
use crate::pour::Plan;
use crate::price::{MaterialCost, PriceBook};
use crate::top::Top;
use crate::working::{Figure, Known};

/// The four numbers a maker asks for first.
#[derive(Clone, Debug, PartialEq)]
pub struct Headline {
    /// Bags to order, all mixes together.
    pub bags: Known<Figure<u32>>,
    /// Mixing water for all of them.
    pub water: Known<Figure<Volume>>,
    /// The heaviest lift by hand: the heaviest piece as it comes out of the form.
    pub weight: Known<Figure<Mass>>,
    /// The people that lift takes.
    pub people: Known<Figure<Crew>>,
}

/// What follows for one piece.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceEstimate {
    /// Its geometry; parts that can be read stand even where others cannot.
    pub top: Top,
    /// The form it is cast in.
    pub form: Known<Form>,
    /// What has to be poured into the form.
    pub pour: Known<Pour>,
    /// Batches against the workable time.
    pub plan: Known<Plan>,
    /// As cast and as installed.
    pub weights: Known<Weights>,
    /// People to carry it.
    pub crew: Known<Figure<Crew>>,
}

/// Everything that follows from a job. It is never saved: making it again is cheap.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// Bags, water, weight, people.
    pub headline: Headline,
    /// One for every piece of the job, in its order.
    pub pieces: Vec<PieceEstimate>,
    /// One for every bag that a piece refers to, in the order of the job's bags.
    pub orders: Vec<Known<Order>>,
    /// What the bags cost.
    pub cost: Known<MaterialCost>,
    /// Stops first, then watches, then notes; in the order of the job within each.
    pub findings: Vec<Finding>,
}

/// Works out everything that follows from `job`, at the prices of `prices`.
///
/// It never fails as a whole and never panics, whatever the job holds: a part that cannot be worked
/// out says what it is missing, and the other parts stand.
pub fn estimate(_job: &Job, _prices: &PriceBook) -> Estimate {
    todo!()
}
