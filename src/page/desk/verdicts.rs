//! The map of every piece, asked for by itself and kept: whether a top cracks is known on every screen and on paper.
//!
//! The worker is asked once nothing has changed for a second, one piece after the other. What it answered is found
//! again by its question: one that comes back, as by Undo, is not asked again.

use super::super::dom;
use super::super::front::{Front, Shown, offline};
use crate::estimate::Cast;
use crate::strength::ask::{Answer, Effort, Question};
use crate::strength::verdict::Solved;
use crate::worker::{Heard, Solver};
use leptos::leptos_dom::helpers::{TimeoutHandle, set_timeout_with_handle};
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;

/// From the last change to the first question; the solver waits for the rest of the second, while it fetches the
/// worker. The screen is painted by then, and nobody is typing.
const PAUSE: Duration = Duration::from_millis(750);

/// Answers that are kept besides those to what the job asks now.
const SPARE: usize = 8;

/// What the worker is asked.
#[derive(Clone, PartialEq)]
struct Task {
    question: Question,
    effort: Effort,
}

/// What nothing that is shown follows from.
struct Desire {
    solver: Option<Solver>,
    /// What the worker is at.
    task: Option<Task>,
    /// What would help in the case that the maker looks at: that comes first.
    looked_at: Option<Task>,
    pause: Option<TimeoutHandle>,
}

/// Owns what is known of the maps. The worker is at one question at a time; an answer that is kept is whole or grows
/// until it is, and no question is both answered and failed.
#[derive(Clone, Copy)]
pub struct Verdicts {
    front: Front,
    /// What asks, by piece.
    cast: Memo<Arc<Cast>>,
    /// Index of the piece that is shown: it is asked for first.
    piece: RwSignal<usize>,
    answers: RwSignal<Vec<Arc<Solved>>>,
    /// Questions that got no answer, and why. They are asked again once something else is asked in between, or on demand.
    failed: RwSignal<Vec<(Question, String)>>,
    desire: StoredValue<Desire, LocalStorage>,
}

impl Verdicts {
    /// Nothing is known.
    pub fn new(front: Front, cast: Memo<Arc<Cast>>, piece: RwSignal<usize>) -> Self {
        Self {
            front,
            cast,
            piece,
            answers: RwSignal::new(Vec::new()),
            failed: RwSignal::new(Vec::new()),
            desire: StoredValue::new_local(Desire { solver: None, task: None, looked_at: None, pause: None }),
        }
    }

    /// From here on what the open job asks is answered.
    pub fn wake(self) {
        let solver = Solver::new(move |_, heard| self.hear(heard));
        self.desire.update_value(|desire| desire.solver = Some(solver));
        self.watch_waking();
        Effect::new(move |_| {
            self.cast.track();
            // Nothing is fetched before a job and its screens stand.
            if self.front.shown.get() == Shown::Workshop && self.front.screens.get() {
                self.wait();
            }
        });
    }

    /// A phone that slept let the worker run out of its time: what failed is asked again once the page is seen.
    fn watch_waking(self) {
        let Some(document) = dom::document() else { return };
        let watched = document.clone();
        dom::listen(&document, "visibilitychange", move |_| {
            if !watched.hidden() && self.failed.with_untracked(|all| !all.is_empty()) {
                self.failed.set(Vec::new());
                self.go_on();
            }
        });
    }

    /// The answers so far.
    pub fn answers(self) -> RwSignal<Vec<Arc<Solved>>> {
        self.answers
    }

    /// The answer to a question, as far as it is known.
    pub fn answer(self, question: &Question) -> Option<Arc<Solved>> {
        self.answers.with(|all| all.iter().find(|one| one.question == *question).cloned())
    }

    /// Why a question got no answer.
    pub fn failure(self, question: &Question) -> Option<String> {
        self.failed.with(|all| all.iter().find(|(failed, _)| failed == question).map(|(_, why)| why.clone()))
    }

    /// The maker looks at that case of the answer to that question, or at none.
    pub fn look_at(self, case: Option<(Question, usize)>) {
        let task = case.map(|(question, case)| Task { question, effort: Effort::Remedies(case) });
        self.desire.update_value(|desire| desire.looked_at = task);
        self.go_on();
    }

    /// Asks a question again that got no answer.
    pub fn ask_again(self, question: &Question) {
        if untrack(|| self.failure(question)).is_some() {
            self.failed.update(|all| all.retain(|(failed, _)| failed != question));
            self.go_on();
        }
    }

    /// Goes on a moment after the last change.
    fn wait(self) {
        let pause = set_timeout_with_handle(move || self.go_on(), PAUSE).ok();
        self.desire.update_value(|desire| {
            if let Some(earlier) = std::mem::replace(&mut desire.pause, pause) {
                earlier.clear();
            }
        });
    }

    /// Asks what is to be asked next, unless what the worker is at is still wanted and nobody waits for another.
    fn go_on(self) {
        let here = self.questions();
        if self.failed.with_untracked(|all| all.iter().any(|(failed, _)| !here.contains(failed))) {
            self.failed.update(|all| all.retain(|(failed, _)| here.contains(failed)));
        }
        let wanted = self.wanted(&here);
        let urgent = self.looked_for(&here);
        self.desire.update_value(|desire| {
            let still_wanted = desire.task.as_ref().is_some_and(|task| wanted.contains(task));
            // What was asked of a job that has changed is answered all the same: it may come back.
            let next = urgent.or_else(|| wanted.into_iter().next().filter(|_| !still_wanted));
            if let (Some(solver), Some(next)) = (&desire.solver, next.filter(|next| desire.task.as_ref() != Some(next)))
            {
                solver.ask(next.question.clone(), next.effort);
                desire.task = Some(next);
            }
        });
    }

    /// What the maker looks at and waits for.
    fn looked_for(self, here: &[Question]) -> Option<Task> {
        let task = self.desire.with_value(|desire| desire.looked_at.clone())?;
        let Effort::Remedies(case) = task.effort else { return None };
        let solved = untrack(|| self.answer(&task.question))?;
        (here.contains(&task.question) && solved.wants_help(case)).then_some(task)
    }

    /// All that is still to be asked: first what every piece comes to, then what would help in its worst case.
    fn wanted(self, here: &[Question]) -> Vec<Task> {
        let open = |question: &&Question| self.failed.with_untracked(|all| all.iter().all(|(one, _)| one != *question));
        self.answers.with_untracked(|answers| {
            let of = |question: &Question| answers.iter().find(|one| one.question == *question);
            let cases = here
                .iter()
                .filter(|question| of(question).is_none_or(|solved| !solved.is_whole()))
                .map(|question| Task { question: question.clone(), effort: Effort::Cases });
            let helps = here.iter().filter_map(|question| {
                let solved = of(question)?;
                let (index, ..) = solved.worst().filter(|(index, ..)| solved.wants_help(*index))?;
                Some(Task { question: question.clone(), effort: Effort::Remedies(index) })
            });
            cases.chain(helps).filter(|task| open(&&task.question)).collect()
        })
    }

    fn hear(self, heard: Heard) {
        let Some(Task { question, effort }) = self.desire.with_value(|desire| desire.task.clone()) else { return };
        match (effort, heard) {
            (Effort::Cases, Ok(Answer::Cases { net, cases })) => {
                let solved = Arc::new(Solved { question, net, cases, helps: Vec::new() });
                // The first case comes before the others.
                let begun = !solved.is_whole();
                self.keep(solved);
                if begun {
                    return;
                }
            }
            (Effort::Cases, Ok(Answer::Refused(why))) => {
                let why = question.refusal(why);
                self.fail(question, why);
            }
            (Effort::Cases, Ok(Answer::Remedies(_))) => self.fail(question, "it answered something else".to_owned()),
            (Effort::Cases, Err(why)) => {
                // It may be gone from there.
                offline::look_at_the_host(self.front);
                self.fail(question, why);
            }
            (Effort::Remedies(case), heard) => {
                let found = if let Ok(Answer::Remedies(found)) = heard { found } else { Vec::new() };
                if let Some(mut solved) = untrack(|| self.answer(&question)) {
                    Arc::make_mut(&mut solved).helps.push((case, found));
                    self.keep(solved);
                }
            }
        }
        self.desire.update_value(|desire| desire.task = None);
        self.go_on();
    }

    /// Keeps an answer, and of those to what is asked no more only the last ones.
    fn keep(self, solved: Arc<Solved>) {
        let here = self.questions();
        self.answers.update(|all| {
            all.retain(|one| one.question != solved.question);
            all.push(solved);
            let mut gone = all.iter().filter(|one| !here.contains(&one.question)).count().saturating_sub(SPARE);
            all.retain(|one| {
                let goes = gone > 0 && !here.contains(&one.question);
                gone -= usize::from(goes);
                !goes
            });
        });
    }

    fn fail(self, question: Question, why: String) {
        self.answers.update(|all| all.retain(|one| one.question != question));
        self.failed.update(|all| all.push((question, why)));
    }

    /// What the pieces of the open job ask, the chosen one first.
    fn questions(self) -> Vec<Question> {
        let chosen = self.piece.get_untracked();
        self.cast.with_untracked(|cast| {
            let others = (0..cast.pieces.len()).filter(|piece| *piece != chosen);
            let asks = |piece: usize| Some(cast.pieces.get(piece)?.cracking.as_ref().ok()?.question.clone());
            std::iter::once(chosen).chain(others).filter_map(asks).collect()
        })
    }
}
