//! The page's side: the newest question alone is worked on.

use super::{Reply, Request};
use crate::strength::ask::{Answer, Effort, Question};
use leptos::leptos_dom::helpers::{TimeoutHandle, set_timeout_with_handle};
use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{Event, MessageEvent, Worker};

/// The address of the worker: beside the page, unless that names another. A newer version's is at another address.
fn script() -> String {
    let named = || {
        let script = web_sys::window()?.document()?.query_selector("script[data-plate]").ok()??;
        script.get_attribute("data-plate")
    };
    named().unwrap_or_else(|| "./plate.js".to_owned())
}

/// A question waits that long for a newer one.
const PAUSE: Duration = Duration::from_millis(250);

/// An answer, or why none comes.
pub type Heard = Result<Answer, String>;

/// Longer than that nothing is waited for.
const PATIENCE: Duration = Duration::from_secs(30);

type Hears = (Closure<dyn Fn(MessageEvent)>, Closure<dyn Fn(Event)>);

/// A worker that was started.
struct Running {
    worker: Worker,
    ready: bool,
    /// It works on something.
    busy: bool,
    /// Kept as long as it lives: what hears its messages and its errors.
    _hears: Hears,
}

struct Inner {
    turn: u32,
    running: Option<Running>,
    /// What is asked as soon as it may be.
    waiting: Option<Request>,
    pause: Option<TimeoutHandle>,
    patience: Option<TimeoutHandle>,
    hear: Rc<dyn Fn(Effort, Heard)>,
    effort: Effort,
}

/// Asks the worker, which is fetched with the first question.
#[derive(Clone)]
pub struct Solver(Rc<RefCell<Inner>>);

impl Solver {
    /// A solver whose answers go to `hear`, together with the effort that they were asked for.
    pub fn new(hear: impl Fn(Effort, Heard) + 'static) -> Self {
        Self(Rc::new(RefCell::new(Inner {
            turn: 0,
            running: None,
            waiting: None,
            pause: None,
            patience: None,
            hear: Rc::new(hear),
            effort: Effort::Cases,
        })))
    }

    /// Asks after a short pause. It takes the place of whatever was asked before, also of what is being worked on.
    pub fn ask(&self, question: Question, effort: Effort) {
        let own = self.clone();
        let mut inner = self.0.borrow_mut();
        // It is fetched while the pause lasts.
        if inner.running.is_none() {
            inner.running = self.start();
        }
        inner.turn = inner.turn.wrapping_add(1);
        inner.effort = effort;
        inner.waiting = Some(Request { turn: inner.turn, question, effort });
        for earlier in [inner.pause.take(), inner.patience.take()].into_iter().flatten() {
            earlier.clear();
        }
        // Remedies follow an answer that is there already: nobody is typing.
        let pause = if effort == Effort::Cases { PAUSE } else { Duration::ZERO };
        inner.pause = set_timeout_with_handle(move || own.begin(), pause).ok();
    }

    /// Forgets what was asked, and the worker.
    pub fn stop(&self) {
        let mut inner = self.0.borrow_mut();
        inner.turn = inner.turn.wrapping_add(1);
        inner.waiting = None;
        for timer in [inner.pause.take(), inner.patience.take()].into_iter().flatten() {
            timer.clear();
        }
        if let Some(running) = inner.running.take() {
            running.end();
        }
    }

    fn begin(&self) {
        let started = {
            let mut inner = self.0.borrow_mut();
            inner.pause = None;
            if let Some(busy) = inner.running.take_if(|running| running.busy) {
                busy.end();
            }
            if inner.running.is_none() {
                match self.start() {
                    Some(running) => inner.running = Some(running),
                    None => inner.waiting = None,
                }
            }
            let own = self.clone();
            let turn = inner.turn;
            let give_up = move || own.fail(turn, "it takes too long");
            inner.patience = set_timeout_with_handle(give_up, PATIENCE).ok();
            inner.running.is_some()
        };
        if started {
            return self.send();
        }
        // Let go of before it fails, which changes what is borrowed here.
        let turn = self.0.borrow().turn;
        self.fail(turn, "this browser starts no worker");
    }

    fn start(&self) -> Option<Running> {
        let worker = Worker::new(&script()).ok()?;
        let own = self.clone();
        let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| own.hear(&event));
        let own = self.clone();
        let failed = Closure::<dyn Fn(Event)>::new(move |event: Event| {
            event.prevent_default();
            let turn = own.0.borrow().turn;
            own.fail(turn, "it could not be fetched, or it stopped");
        });
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        Some(Running { worker, ready: false, busy: false, _hears: (heard, failed) })
    }

    /// Sends what waits, once the worker listens and the pause is over: sent before that, it would be lost with the
    /// worker that is stopped for it.
    fn send(&self) {
        let mut inner = self.0.borrow_mut();
        let inner = &mut *inner;
        if inner.pause.is_some() {
            return;
        }
        let Some(running) = inner.running.as_mut().filter(|running| running.ready && !running.busy) else { return };
        let Some(request) = inner.waiting.take() else { return };
        if let Ok(value) = serde_wasm_bindgen::to_value(&request) {
            running.busy = running.worker.post_message(&value).is_ok();
        }
    }

    fn hear(&self, event: &MessageEvent) {
        let turn = self.0.borrow().turn;
        match serde_wasm_bindgen::from_value::<Reply>(event.data()) {
            Ok(Reply::Ready) => {
                if let Some(running) = &mut self.0.borrow_mut().running {
                    running.ready = true;
                }
                self.send();
            }
            Ok(Reply::Answer { turn: answered, answer, last }) if answered == turn => {
                let mut inner = self.0.borrow_mut();
                if last {
                    inner.rest();
                }
                let (hear, effort) = (Rc::clone(&inner.hear), inner.effort);
                // What hears it may ask again.
                drop(inner);
                hear(effort, Ok(*answer));
            }
            Ok(Reply::Answer { .. }) => {}
            Ok(Reply::Failed(why)) => self.fail(turn, &why),
            Err(_) => self.fail(turn, "its answer cannot be read"),
        }
    }

    fn fail(&self, turn: u32, why: &str) {
        let mut inner = self.0.borrow_mut();
        if inner.turn != turn {
            return;
        }
        inner.waiting = None;
        if let Some(patience) = inner.patience.take() {
            patience.clear();
        }
        if let Some(running) = inner.running.take() {
            running.end();
        }
        let (hear, effort) = (Rc::clone(&inner.hear), inner.effort);
        drop(inner);
        hear(effort, Err(why.to_owned()));
    }
}

impl Inner {
    /// Everything is answered.
    fn rest(&mut self) {
        if let Some(running) = &mut self.running {
            running.busy = false;
        }
        if let Some(patience) = self.patience.take() {
            patience.clear();
        }
    }
}

impl Running {
    /// Ends the worker. This may run inside one of its own closures, which must not be dropped under its feet.
    fn end(self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
        leptos::task::spawn_local(async move { drop(self) });
    }
}
