//! What follows from the open job.

use super::super::dom;
use super::super::front::Front;
use super::open::OpenJob;
use super::verdicts::Verdicts;
use crate::estimate::{Cast, Estimate, Estimator, PieceEstimate};
use crate::finding::Finding;
use crate::measure::Length;
use crate::price::PriceBook;
use crate::top::Facing;
use leptos::prelude::*;
use std::sync::{Arc, Mutex, PoisonError};

/// Owns all that is worked out. Everything in it follows from the job, the prices and the maps, and is never set by hand;
/// the findings alone come a moment later than what they were found in.
#[derive(Clone, Copy)]
pub struct Worked {
    /// What is cast: all that most screens show, worked out at every key.
    pub cast: Memo<Arc<Cast>>,
    /// Everything that follows from the job; worked out at a key only where a screen reads it.
    pub estimate: Memo<Estimate>,
    /// What the maker should know about the job: it follows as soon as the numbers of a key are painted.
    pub findings: RwSignal<Vec<Finding>>,
    /// What is known of the maps of whether its pieces crack.
    pub verdicts: Verdicts,
    of_chosen: Memo<Option<Arc<PieceEstimate>>>,
    job: OpenJob,
    /// The findings are looked up once this is painted.
    looks: StoredValue<bool>,
}

impl Worked {
    /// What follows from that job at those prices.
    pub fn new(front: Front, job: OpenJob, prices: RwSignal<PriceBook>) -> Self {
        let estimator = Arc::new(Mutex::new(Estimator::default()));
        let again = estimator.clone();
        let cast = Memo::new_with_compare(
            move |_| job.with(|job| with(&estimator, |estimator| estimator.cast(job))),
            |before, now| !is_same(before, now),
        );
        let chosen =
            move |_: Option<&Option<Arc<PieceEstimate>>>| cast.with(|cast| cast.pieces.get(job.piece.get()).cloned());
        Self {
            cast,
            estimate: Memo::new(move |_| {
                job.with(|job| prices.with(|prices| with(&again, |estimator| estimator.estimate(job, prices))))
            }),
            findings: RwSignal::new(Vec::new()),
            verdicts: Verdicts::new(front, cast, job.piece),
            of_chosen: Memo::new_with_compare(chosen, |before, now| {
                !is_same(before.and_then(Option::as_ref), now.and_then(Option::as_ref))
            }),
            job,
            looks: StoredValue::new(false),
        }
    }

    /// What follows for the piece with that index; nothing if there is none.
    pub fn piece(self, index: usize) -> Option<Arc<PieceEstimate>> {
        self.cast.with(|cast| cast.pieces.get(index).cloned())
    }

    /// What follows for the chosen piece.
    pub fn chosen(self) -> Option<Arc<PieceEstimate>> {
        self.of_chosen.get()
    }

    /// The side of the chosen piece that looks there, by its number, and its length.
    pub fn side_towards(self, look: Facing) -> Option<(usize, Length)> {
        let chosen = self.job.piece.get_untracked();
        self.cast.with_untracked(|all| all.pieces.get(chosen)?.top.side_towards(look))
    }

    /// Everything that follows from the job, what is known of its maps among the findings.
    pub fn whole(self) -> Estimate {
        Estimate { findings: self.all_findings(), ..self.estimate.get() }
    }

    /// The findings of the job with what is known of its maps.
    fn all_findings(self) -> Vec<Finding> {
        let answers = self.verdicts.answers();
        answers.with(|answers| self.estimate.with(|all| all.findings_by(answers)))
    }

    /// What was found in another job is nothing to this one.
    pub fn forget_findings(self) {
        self.findings.set(Vec::new());
    }

    /// Notes the step and works out what the maker should know, once what a key changed is painted: nobody waits
    /// for either.
    pub fn look_after_painting(self) {
        if self.looks.get_value() {
            return;
        }
        self.looks.set_value(true);
        dom::after_painting(move || {
            self.looks.set_value(false);
            self.job.note_history();
            let found = untrack(|| self.all_findings());
            if self.findings.with_untracked(|before| *before != found) {
                self.findings.set(found);
            }
        });
    }
}

/// Nothing shown can have changed: it is the very same thing.
fn is_same<T>(before: Option<&Arc<T>>, now: Option<&Arc<T>>) -> bool {
    match (before, now) {
        (Some(before), Some(now)) => Arc::ptr_eq(before, now),
        (None, None) => true,
        _ => false,
    }
}

fn with<T>(estimator: &Mutex<Estimator>, answer: impl FnOnce(&mut Estimator) -> T) -> T {
    answer(&mut estimator.lock().unwrap_or_else(PoisonError::into_inner))
}
