//! Choices of the job by their place in a list, so that all of them are one and the same view.

use super::desk::Desk;
use super::field::{choice, list};
use crate::job::Job;
use leptos::prelude::*;

/// How a choice is read from the job and made in it, as its place in the list of labels.
#[derive(Clone, Copy)]
pub struct Pick {
    /// The word above it.
    pub legend: &'static str,
    /// Which is chosen.
    pub read: fn(&Job) -> usize,
    /// Chooses one.
    pub write: fn(&mut Job, usize),
}

/// Where a value stands among all of its kind.
pub fn place_of<T: PartialEq>(all: &[T], value: &T) -> usize {
    all.iter().position(|one| one == value).unwrap_or(0)
}

fn parts(desk: Desk, pick: Pick) -> (Signal<usize>, Callback<usize>) {
    let chosen = Memo::new(move |_| desk.job.with(pick.read));
    (chosen.into(), Callback::new(move |place| desk.job.update(|job| (pick.write)(job, place))))
}

/// The choice as buttons.
pub fn pick(desk: Desk, labels: &[&'static str], of: Pick) -> AnyView {
    let (chosen, choose) = parts(desk, of);
    choice(of.legend, labels.iter().copied().enumerate().collect(), chosen, choose)
}

/// The choice as a list.
pub fn pick_list(desk: Desk, key: &'static str, labels: &[&'static str], of: Pick) -> AnyView {
    let (chosen, choose) = parts(desk, of);
    list(key, of.legend, labels.iter().copied().enumerate().collect(), chosen, choose)
}
