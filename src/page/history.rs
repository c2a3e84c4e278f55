//! Steps back and forth through what the open job has been.

use super::desk::Desk;
use super::dom;
use crate::job::Job;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;

/// Changes closer together than this are one: a word is taken back as a word, not letter by letter.
/// Milliseconds.
const ONE_CHANGE: f64 = 700.0;

/// States kept to go back to.
const MOST_STATES: usize = 200;

/// The states of the open job before and after where it stands now.
#[derive(Default)]
pub(super) struct History {
    past: Vec<Job>,
    future: Vec<Job>,
    now: Option<Job>,
    changed: f64,
    /// The next change is a step through the history itself.
    stepping: bool,
}

impl History {
    /// The job has changed to this, at that time.
    fn note(&mut self, job: &Job, time: f64) {
        let stepping = std::mem::take(&mut self.stepping);
        if self.now.as_ref() == Some(job) {
            return;
        }
        let before = self.now.replace(job.clone());
        // A clock that was set back must not make one change of all that follows.
        let soon = (time - std::mem::replace(&mut self.changed, time)).abs() < ONE_CHANGE;
        match before {
            _ if stepping => self.changed = 0.0,
            Some(before) if before.id == job.id => {
                if !soon || self.past.is_empty() {
                    self.past.push(before);
                }
                if self.past.len() > MOST_STATES {
                    self.past.remove(0);
                }
                self.future.clear();
            }
            // Another job was opened.
            _ => {
                self.past.clear();
                self.future.clear();
                self.changed = 0.0;
            }
        }
    }

    fn back(&mut self) -> Option<Job> {
        let job = other_than(&self.now, &mut self.past)?;
        self.future.extend(self.now.clone());
        self.stepping = true;
        Some(job)
    }

    fn forth(&mut self) -> Option<Job> {
        let job = other_than(&self.now, &mut self.future)?;
        self.past.extend(self.now.clone());
        self.stepping = true;
        Some(job)
    }
}

/// The last of these states that is not the present one: what was typed and typed back within one change left the
/// present one among them.
fn other_than(now: &Option<Job>, states: &mut Vec<Job>) -> Option<Job> {
    std::iter::from_fn(|| states.pop()).find(|state| now.as_ref() != Some(state))
}

impl Desk {
    /// Remembers the state before a change, so that it can be had back.
    pub(super) fn note_history(self) {
        let keeper = self.keeper();
        let mut history = keeper.history.borrow_mut();
        self.job.with_untracked(|job| history.note(job, js_sys::Date::now()));
        let (undo, redo) = (!history.past.is_empty(), !history.future.is_empty());
        drop(history);
        for (signal, can) in [(self.can_undo, undo), (self.can_redo, redo)] {
            if signal.get_untracked() != can {
                signal.set(can);
            }
        }
    }

    /// Takes the last change back.
    pub fn undo(self) {
        self.step(History::back);
    }

    /// Makes the change again that was taken back last.
    pub fn redo(self) {
        self.step(History::forth);
    }

    fn step(self, step: fn(&mut History) -> Option<Job>) {
        // What was typed last may not be noted yet: that waits for the paint.
        self.note_history();
        let job = step(&mut self.keeper().history.borrow_mut());
        let Some(job) = job else { return };
        let pieces = job.pieces.len();
        self.job.set(job);
        self.note_history();
        // What was selected may be gone.
        if self.piece.get_untracked() >= pieces {
            self.piece.set(0);
        }
        self.part.set(crate::draw::Selection::Size);
    }

    /// The keys for undo and redo, wherever the focus is: a field's own undo would know nothing of the job.
    pub(super) fn watch_keys(self) {
        let Some(document) = dom::document() else { return };
        dom::listen(&document, "keydown", move |event| {
            let Some(key) = event.dyn_ref::<KeyboardEvent>() else { return };
            if !(key.ctrl_key() || key.meta_key()) || key.key().to_lowercase() != "z" {
                return;
            }
            event.prevent_default();
            if key.shift_key() { self.redo() } else { self.undo() }
        });
    }
}
