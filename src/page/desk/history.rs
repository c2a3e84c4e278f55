//! Steps back and forth through what the open job has been.

use crate::job::Job;

/// Changes closer together than this are one: a word is taken back as a word, not letter by letter.
/// Milliseconds.
const ONE_CHANGE: f64 = 700.0;

/// States kept to go back to.
const MOST_STATES: usize = 200;

/// The states of the open job before and after where it stands now. All are of one job: opening another begins anew.
#[derive(Default)]
pub struct History {
    past: Vec<Job>,
    future: Vec<Job>,
    now: Option<Job>,
    changed: f64,
    /// The next change is a step through the history itself.
    stepping: bool,
}

impl History {
    /// There is a change to take back.
    pub fn has_past(&self) -> bool {
        !self.past.is_empty()
    }

    /// There is a change to make again.
    pub fn has_future(&self) -> bool {
        !self.future.is_empty()
    }

    /// The job has changed to this, at that time in milliseconds.
    pub fn note(&mut self, job: &Job, time: f64) {
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

    /// The state before the last change; the next change that is noted is the step to it.
    pub fn back(&mut self) -> Option<Job> {
        let job = other_than(&self.now, &mut self.past)?;
        self.future.extend(self.now.clone());
        self.stepping = true;
        Some(job)
    }

    /// The state after the change that was taken back last; the next change that is noted is the step to it.
    pub fn forth(&mut self) -> Option<Job> {
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
