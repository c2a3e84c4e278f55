//! The maker's own bags beside those of the open job, which holds a copy of each that it is cast from.

use super::notices::Notices;
use super::open::OpenJob;
use super::own::Own;
use crate::job::Bag;
use crate::measure::Units;
use crate::mix::catalogue;
use crate::store::browser;
use leptos::prelude::*;
use std::ops::Deref;
use std::sync::Arc;

/// Owns the maker's bags, and is the only way of a bag between them and the open job. A job keeps its copies whatever
/// becomes of the maker's own; the catalogue is never changed.
#[derive(Clone, Copy)]
pub struct Bags {
    own: Own<Vec<Bag>>,
    job: OpenJob,
    notices: Notices,
}

impl Deref for Bags {
    type Target = Own<Vec<Bag>>;

    fn deref(&self) -> &Own<Vec<Bag>> {
        &self.own
    }
}

impl Bags {
    /// These bags beside that job.
    pub fn new(own: Own<Vec<Bag>>, job: OpenJob, notices: Notices) -> Self {
        Self { own, job, notices }
    }

    /// Casts the chosen piece from the bag with that id: the job's own copy, else a copy of the maker's
    /// own, else of the catalogue's.
    pub fn choose(self, id: &str) {
        let units = self.job.units();
        let own = self.own.with(|bags| bags.iter().find(|bag| bag.id == id).cloned());
        let found = own.or_else(|| catalogue(units).into_iter().find(|bag| bag.id == id));
        let piece = self.job.piece.get_untracked();
        self.job.grow(|job| {
            if job.bag(id).is_none() {
                let Some(bag) = found else { return };
                job.bags.push(bag);
            }
            if let Some(piece) = job.pieces.get_mut(piece) {
                piece.bag = id.to_owned();
            }
        });
    }

    /// The maker's own bags hold other figures under the same id as the job's bag.
    pub fn differs(self, index: usize) -> bool {
        self.any_of(index, |own, bag| own.id == bag.id && own != bag)
    }

    /// The maker's own bags hold one with the id of the job's bag.
    pub fn is_own(self, index: usize) -> bool {
        self.any_of(index, |own, bag| own.id == bag.id)
    }

    /// One of the maker's own bags is such beside the job's bag with that index.
    fn any_of(self, index: usize, is_such: fn(&Bag, &Bag) -> bool) -> bool {
        self.job.with(|job| {
            let Some(bag) = job.bags.get(index) else { return false };
            self.own.with(|bags| bags.iter().any(|own| is_such(own, bag)))
        })
    }

    /// Takes the job's bag out of the maker's own; jobs keep their copies.
    pub fn give_up(self, index: usize) {
        let Some(id) = self.job.with_untracked(|job| job.bags.get(index).map(|bag| bag.id.clone())) else { return };
        let before = self.own.get_untracked();
        self.edit(|bags| bags.retain(|own| own.id != id));
        if self.is_unkept() {
            return;
        }
        let undo = Arc::new(move || self.edit(|bags| bags.clone_from(&before)));
        self.notices.tell("Taken out of your bags. This job keeps its copy.", Some(("Undo", undo)));
    }

    /// The job takes the figures of the maker's own bag.
    pub fn take_figures(self, index: usize) {
        let own = self.job.with_untracked(|job| {
            let id = &job.bags.get(index)?.id;
            self.own.with_untracked(|bags| bags.iter().find(|own| own.id == *id).cloned())
        });
        if let Some(own) = own {
            self.job.edit_bag(index, |bag| *bag = own);
        }
    }

    /// Keeps the job's bag among the maker's own. A bag of the catalogue becomes one of the maker's,
    /// so that the catalogue stays as it is.
    pub fn keep_figures(self, index: usize) {
        let Some(mut bag) = self.job.with_untracked(|job| job.bags.get(index).cloned()) else { return };
        let of_catalogue =
            [Units::Inch, Units::Metric].into_iter().flat_map(catalogue).any(|listed| listed.id == bag.id);
        if of_catalogue {
            let (old, new) = (bag.id.clone(), browser::random_id());
            bag.id.clone_from(&new);
            self.job.update(|job| {
                job.bags[index].id.clone_from(&new);
                for piece in job.pieces.iter_mut().filter(|piece| piece.bag == old) {
                    piece.bag.clone_from(&new);
                }
            });
        }
        self.edit(|bags| match bags.iter_mut().find(|own| own.id == bag.id) {
            Some(own) => *own = bag,
            None => bags.push(bag),
        });
        if !self.is_unkept() {
            self.notices.tell("Kept in your bags, for every job.", None);
        }
    }
}
