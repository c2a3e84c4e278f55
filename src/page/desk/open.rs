//! The open job: what was typed, which part of it is shown, and the steps back and forth.

use super::super::dom;
use super::history::History;
use super::notices::Notices;
use crate::draw::Selection;
use crate::job::file::{FileError, Kept};
use crate::job::{Bag, EdgeKind, Entry, FieldPath, Job, Piece, PieceKind};
use crate::measure::{Length, Units, Written, write_length};
use leptos::prelude::*;
use std::ops::Deref;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;

/// Owns the open job. It holds at most what a file can hold, as [`grow`](Self::grow) sees to; which piece is shown is one
/// of it, or the first; and every state it was in for longer than a word can be had back.
#[derive(Clone, Copy)]
pub struct OpenJob {
    typed: RwSignal<Job>,
    /// Its units: read everywhere, changed hardly ever, so not by way of the whole job.
    units: Memo<Units>,
    /// Index of the piece that is shown.
    pub piece: RwSignal<usize>,
    /// The part of it that is selected.
    pub part: RwSignal<Selection>,
    /// There is a change to take back.
    pub can_undo: RwSignal<bool>,
    /// There is a change to make again.
    pub can_redo: RwSignal<bool>,
    history: StoredValue<History>,
    notices: Notices,
}

impl Deref for OpenJob {
    type Target = RwSignal<Job>;

    fn deref(&self) -> &RwSignal<Job> {
        &self.typed
    }
}

impl OpenJob {
    /// An empty one, until a job is laid out.
    pub fn new(notices: Notices) -> Self {
        let typed = RwSignal::new(Job::new("", Units::Inch));
        Self {
            typed,
            units: Memo::new(move |_| typed.with(|job| job.units)),
            piece: RwSignal::new(0),
            part: RwSignal::new(Selection::Size),
            can_undo: RwSignal::new(false),
            can_redo: RwSignal::new(false),
            history: StoredValue::new(History::default()),
            notices,
        }
    }

    /// Its units.
    pub fn units(self) -> Units {
        self.units.get()
    }

    /// Its id.
    pub fn id(self) -> String {
        self.typed.with_untracked(|job| job.id.clone())
    }

    /// Shows that piece of it, and nothing of it selected.
    pub fn show_piece(self, index: usize) {
        self.piece.set(index);
        self.part.set(Selection::Size);
    }

    /// Types into a field of it.
    pub fn type_into(self, place: FieldPath, text: String) {
        let typed = |job: &mut Job| match job.entry_at_mut(place) {
            Some(entry) if entry.text() != text => {
                *entry = Entry(text);
                true
            }
            _ => false,
        };
        self.typed.maybe_update(typed);
    }

    /// Types into several fields at once: one change, to be taken back as one.
    pub fn type_all(self, typed: Vec<(FieldPath, String)>) {
        self.typed.update(|job| {
            for (place, text) in typed {
                if let Some(entry) = job.entry_at_mut(place) {
                    *entry = Entry(text);
                }
            }
        });
    }

    /// Changes what a bare number is read in, and the meaning of nothing.
    pub fn change_units(self, units: Units) {
        self.typed.update(|job| job.change_units(units));
    }

    /// Changes the chosen piece; gives what the change gives, or nothing if there is no piece or a file could not hold
    /// it then.
    pub fn edit_piece<T>(self, change: impl FnOnce(&mut Piece) -> T) -> Option<T> {
        let index = self.piece.get_untracked();
        self.grow(|job| job.pieces.get_mut(index).map(change)).flatten()
    }

    /// Changes a bag of it.
    pub fn edit_bag(self, index: usize, change: impl FnOnce(&mut Bag)) {
        self.grow(|job| job.bags.get_mut(index).map(change));
    }

    /// Changes it, unless a file could not hold what it becomes: then it stays, and the page says why.
    pub fn grow<T>(self, change: impl FnOnce(&mut Job) -> T) -> Option<T> {
        let (mut change, mut gives) = (Some(change), None);
        let grown = self.grow_by(&mut |job| gives = change.take().map(|change| change(job)));
        gives.filter(|_| grown)
    }

    /// The same without types of its own: it is in the page once, and not once for every button.
    fn grow_by(self, change: &mut dyn FnMut(&mut Job)) -> bool {
        let mut grown = self.typed.get_untracked();
        change(&mut grown);
        if let Some(FileError::TooMany { list, most, .. }) = grown.too_many() {
            let says =
                format!("A job holds at most {most} {list}, so no more is added. Make another job for the rest.");
            self.notices.tell(&says, None);
            return false;
        }
        self.typed.set(grown);
        true
    }

    /// Adds a piece of the same mix and thickness, and chooses it.
    pub fn add_piece(self) {
        let index = self.grow(|job| {
            let like = job.pieces.last().map(|piece| (piece.bag.clone(), piece.thickness.clone()));
            let name = format!("Piece {}", job.pieces.len() + 1);
            let bag = like.as_ref().map_or_else(String::new, |(bag, _)| bag.clone());
            let mut piece = Piece::new(&name, &bag, job.units);
            if let Some((_, thickness)) = like {
                piece.thickness = thickness;
            }
            job.pieces.push(piece);
            job.pieces.len() - 1
        });
        if let Some(index) = index {
            self.show_piece(index);
        }
    }

    /// Adds a piece of that kind to go with the chosen one along `side`, which is that long, and chooses it. Where no
    /// side is known, its length is left to be typed.
    pub fn add_beside(self, kind: PieceKind, side: Option<(usize, Length)>) {
        let chosen = self.piece.get_untracked();
        let index = self.grow(|job| {
            let units = job.units;
            let top = job.pieces.get_mut(chosen)?;
            let along = side.map(|(_, length)| write_length(length, units));
            let piece = top.beside(kind, along.as_ref().map(Written::bare), units);
            if let (PieceKind::Backsplash | PieceKind::SideSplash, Some((side, _))) = (kind, side) {
                top.edge_mut(side).kind = EdgeKind::Backsplash;
            }
            job.pieces.push(piece);
            Some(job.pieces.len() - 1)
        });
        if let Some(index) = index.flatten() {
            self.show_piece(index);
        }
    }

    /// Removes the chosen piece, unless it is the only one; it can be had back.
    pub fn remove_piece(self) {
        let index = self.piece.get_untracked();
        let before = self.typed.get_untracked();
        if index >= before.pieces.len() || before.pieces.len() < 2 {
            return;
        }
        self.part.set(Selection::Size);
        self.piece.set(0);
        self.typed.update(|job| {
            job.pieces.remove(index);
        });
        self.notices.tell("Piece removed.", Some(("Undo", Arc::new(move || self.typed.set(before.clone())))));
    }

    /// Remembers the state before a change, so that it can be had back.
    pub fn note_history(self) {
        let (undo, redo) = self
            .history
            .try_update_value(|history| {
                self.typed.with_untracked(|job| history.note(job, js_sys::Date::now()));
                (history.has_past(), history.has_future())
            })
            .unwrap_or_default();
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
        let Some(job) = self.history.try_update_value(step).flatten() else { return };
        let pieces = job.pieces.len();
        self.typed.set(job);
        self.note_history();
        // What was selected may be gone.
        if self.piece.get_untracked() >= pieces {
            self.piece.set(0);
        }
        self.part.set(Selection::Size);
    }

    /// The keys for undo and redo, wherever the focus is: a field's own undo would know nothing of the job.
    pub fn watch_keys(self) {
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
