//! An estimate worked out from the one before is the estimate.

use crate::{any_job, bag, busy_job, entry, piece, prices};
use pourwright::estimate::{Estimator, estimate};
use pourwright::job::{Bag, Entry, Job, Piece, Units};
use pourwright::price::PriceBook;
use proptest::prelude::*;
use proptest::sample::{Index, select};

/// One change, as a maker makes it.
#[derive(Clone, Debug)]
enum Change {
    /// A text into any of the job's fields.
    Typed(Index, Entry),
    /// The same into a field that is the job's own: its name, its client.
    Named(Entry),
    Units(Units),
    Add(Box<Piece>),
    Remove(Index),
    Swap(Index, Index),
    Pour(Box<Bag>),
    Prices(Box<PriceBook>),
    /// Another job is opened.
    Other(Box<Job>),
}

fn change() -> impl Strategy<Value = Change> {
    let any = any::<Index>;
    prop_oneof![
        8 => (any(), entry()).prop_map(|(at, text)| Change::Typed(at, text)),
        1 => entry().prop_map(Change::Named),
        1 => select(vec![Units::Inch, Units::Metric]).prop_map(Change::Units),
        1 => piece().prop_map(|piece| Change::Add(Box::new(piece))),
        1 => any().prop_map(Change::Remove),
        1 => (any(), any()).prop_map(|(one, other)| Change::Swap(one, other)),
        1 => bag().prop_map(|bag| Change::Pour(Box::new(bag))),
        1 => prices().prop_map(|prices| Change::Prices(Box::new(prices))),
        1 => any_job().prop_map(|job| Change::Other(Box::new(job))),
    ]
}

fn make(change: Change, job: &mut Job, prices: &mut PriceBook) {
    let count = job.pieces.len();
    match change {
        Change::Typed(at, text) => {
            let places = job.places();
            if let Some(entry) = job.entry_at_mut(places[at.index(places.len())]) {
                *entry = text;
            }
        }
        Change::Named(text) => (job.name, job.client) = (text.clone(), text),
        Change::Units(units) => job.units = units,
        Change::Add(piece) => job.pieces.push(*piece),
        Change::Remove(at) if count > 0 => drop(job.pieces.remove(at.index(count))),
        Change::Swap(one, other) if count > 0 => job.pieces.swap(one.index(count), other.index(count)),
        Change::Remove(_) | Change::Swap(..) => {}
        Change::Pour(bag) => job.bags.push(*bag),
        Change::Prices(other) => *prices = *other,
        Change::Other(other) => *job = *other,
    }
}

proptest! {
    #[test]
    fn an_estimate_from_the_one_before_is_the_estimate(
        job in prop_oneof![busy_job(), any_job()],
        prices in prices(),
        changes in prop::collection::vec(change(), 1..12),
    ) {
        let (mut job, mut prices) = (job, prices);
        let mut estimator = Estimator::default();
        estimator.estimate(&job, &prices);
        for change in changes {
            make(change, &mut job, &mut prices);
            let again = estimator.estimate(&job, &prices);
            prop_assert_eq!(&again, &estimate(&job, &prices));
            // What is asked of what is cast alone is the same, and shared.
            prop_assert!(estimator.cast(&job).pieces.iter().zip(&again.pieces).all(|(one, two)| std::sync::Arc::ptr_eq(one, two)));
        }
    }
}
