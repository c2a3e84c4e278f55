//! The pour clock: one big step at a time, for wet gloves and from three steps away. What it shows is worked out from
//! the log in the job and the time of day, so that a locked phone, a reload or a crash loses nothing.

use super::super::desk::Desk;
use super::super::dom::{moment_of, time_of};
use super::super::field::explained;
use super::super::findings::{caution, strength_words};
use super::gadgets;
use crate::finding::Severity;
use crate::job::{Logged, Piece, PourStep};
use crate::pour::clock::{Course, Reading, correct, tick};
use crate::print::{clock_words, log_words, step_words, threat_words};
use leptos::html;
use leptos::prelude::*;
use std::time::Duration;

/// How often the clock looks at the time.
const LOOK: Duration = Duration::from_millis(250);

/// After so long without a step a pour is no longer under way, in milliseconds.
const LATELY: f64 = 3.0 * 3_600_000.0;

/// Presses nearer than this are one finger that bounced, in milliseconds.
const BOUNCE: f64 = 400.0;

/// Milliseconds that one press on a line of the log moves it.
const CORRECTION: f64 = 60_000.0;

/// What the clock works with.
#[derive(Clone, Copy)]
struct Face {
    desk: Desk,
    course: Memo<Option<Course>>,
    /// The piece that has the log.
    at: Memo<usize>,
    now: RwSignal<f64>,
    reading: Memo<Option<Reading>>,
    open: RwSignal<bool>,
    /// When the big button was pressed last, by the browser's own clock.
    pressed: StoredValue<f64>,
}

/// The piece whose log is ticked off: the chosen one, or the one that keeps the log of all that are poured with it.
fn log_at(desk: Desk) -> usize {
    let piece = desk.piece.get();
    desk.cast
        .with(|all| desk.job.with(|job| all.pouring_of(piece).and_then(|pouring| pouring.log_in(job))))
        .unwrap_or(piece)
}

fn log_of(desk: Desk, piece: usize) -> Vec<Logged> {
    desk.job.with(|job| job.pieces.get(piece).map_or_else(Vec::new, |piece| piece.log.clone()))
}

/// The piece in whose log something was ticked off last, if that was lately; `now` is in milliseconds since 1970.
fn poured_lately(desk: Desk, now: f64) -> Option<usize> {
    desk.job.with_untracked(|job| {
        let ticked = |typed: &Piece| typed.log.iter().map(|line| line.at as f64).reduce(f64::max);
        let pieces = job.pieces.iter().enumerate().filter_map(|(piece, typed)| Some((piece, ticked(typed)?)));
        let last = pieces.reduce(|one, other| if other.1 > one.1 { other } else { one });
        last.filter(|(_, at)| (at - now).abs() < LATELY).map(|(piece, _)| piece)
    })
}

/// The card from which the pour is started, with its log; and the clock over the whole page while it runs.
pub fn start(desk: Desk) -> AnyView {
    let course = Memo::new(move |_| {
        desk.cast.with(|all| {
            let index = desk.piece.get();
            desk.job.with(|job| all.course_of(index, job))
        })
    });
    let now = RwSignal::new(js_sys::Date::now());
    let at = Memo::new(move |_| log_at(desk));
    let reading = Memo::new(move |_| {
        let log = log_of(desk, at.get());
        course.with(|course| course.as_ref().map(|course| course.read(&log, now.get())))
    });
    // A page that was lost in the middle of a pour comes back to the clock, and to the piece.
    let lately = poured_lately(desk, now.get_untracked());
    if let (0, Some(other @ 1..)) = (desk.piece.get_untracked(), lately) {
        desk.piece.set(other);
    }
    let step = reading.with_untracked(|reading| reading.as_ref().and_then(|reading| reading.step));
    let here = lately == Some(at.get_untracked());
    let under_way = here && !matches!(step, None | Some(PourStep::Strip));
    let open = RwSignal::new(under_way);
    let face = Face { desk, course, at, now, reading, open, pressed: StoredValue::new(f64::MIN) };
    let look = move || {
        if face.open.get_untracked() {
            now.set(js_sys::Date::now());
        }
    };
    if let Ok(ticking) = set_interval_with_handle(look, LOOK) {
        on_cleanup(move || ticking.clear());
    }
    face.watch();
    let begun = Memo::new(move |_| !log_of(desk, at.get()).is_empty());
    let open = move |_| {
        gadgets::arm();
        now.set(js_sys::Date::now());
        face.open.set(true);
    };
    let button = move || {
        course.with(Option::is_some).then(|| {
            let word = if begun.get() { "Go on with the pour" } else { "Start the pour" };
            view! { <button type="button" class="main" on:click=open>{word}</button> }
        })
    };
    view! {
        <section class="card" aria-label="The pour">
            <h2>"The pour"</h2>
            <p class="quiet-text">"The clock runs beside you, one step at a time. It remembers what you tick off, also when the phone locks or the page is lost."</p>
            {button}
            {move || (begun.get() && !face.open.get()).then(|| log_list(face))}
            {caution("Wet cement burns", "Gloves, long sleeves, eye protection. Wash it off skin at once; in an eye, rinse for 15 minutes and see a doctor.")}
            {caution("Dry mix is dust", "Open and pour bags with a respirator on and a door open.")}
        </section>
        {move || face.open.get().then(|| clock(face))}
    }
    .into_any()
}

/// What the maker is called for.
#[derive(Clone, Copy, PartialEq)]
struct Alarm {
    part: u32,
    step: Option<PourStep>,
    /// The step is due.
    due: bool,
    /// So many things must not happen, and threaten.
    stops: usize,
}

impl Face {
    /// Calls when a step comes due, and when something that must not happen threatens.
    fn watch(self) {
        let alarm = Memo::new(move |_| {
            let now = self.now.get();
            self.reading.with(|reading| {
                let reading = reading.as_ref()?;
                let due = reading.due.is_some_and(|due| due <= now);
                let stops = reading.threats.iter().filter(|(strength, _)| *strength == Severity::Stop).count();
                Some(Alarm { part: reading.part, step: reading.step, due, stops })
            })
        });
        Effect::new(move |before: Option<Option<Alarm>>| {
            let after = alarm.get();
            if let (Some(Some(before)), Some(after)) = (before, after)
                && self.open.get_untracked()
            {
                if after.stops > before.stops {
                    gadgets::call(4);
                } else if after.due && !before.due && (before.part, before.step) == (after.part, after.step) {
                    gadgets::call(2);
                }
            }
            after
        });
        // The lock on the screen is gone each time the page was hidden.
        let shown = window_event_listener_untyped("visibilitychange", move |_| {
            if self.open.get_untracked() {
                gadgets::stay_awake();
            }
        });
        on_cleanup(move || shown.remove());
    }

    /// Changes the log, and writes it down at once.
    fn edit(self, change: impl FnOnce(&mut Vec<Logged>)) {
        let at = self.at.get_untracked();
        self.desk.job.update(|job| {
            if let Some(piece) = job.pieces.get_mut(at) {
                change(&mut piece.log);
            }
        });
        self.desk.keeper.keep_now();
    }

    fn tick(self, pressed: f64) {
        if pressed - self.pressed.get_value() < BOUNCE {
            return;
        }
        self.pressed.set_value(pressed);
        gadgets::arm();
        let now = js_sys::Date::now();
        let Some(Some((part, step))) = self
            .reading
            .with_untracked(|reading| reading.as_ref().map(|reading| reading.step.map(|step| (reading.part, step))))
        else {
            return;
        };
        self.edit(|log| tick(log, part, step, now));
        self.now.set(now);
    }
}

/// The clock over the whole page.
fn clock(face: Face) -> AnyView {
    let dialog = NodeRef::<html::Dialog>::new();
    Effect::new(move |_| {
        if let Some(dialog) = dialog.get()
            && !dialog.open()
        {
            let _ = dialog.show_modal();
        }
    });
    // Made anew with every step and no oftener, so that a press never falls on a button that is being replaced.
    let step =
        Memo::new(move |_| face.reading.with(|reading| reading.as_ref().map(|reading| (reading.part, reading.step))));
    view! {
        <dialog class="clock" node_ref=dialog aria-label="Pour clock" on:close=move |_| face.open.set(false)>
            <header>
                <span>{move || time_of(face.now.get())}</span>
                <button type="button" on:click=move |_| face.open.set(false)>"Leave"</button>
            </header>
            {move || match step.get() {
                Some((part, Some(step))) => step_view(face, part, step),
                None => view! { <div class="step"><h2>"No plan"</h2><p>"Something that was typed cannot be read. Leave the clock and see; the log is kept."</p></div> }.into_any(),
                Some((_, None)) => view! { <div class="step"><h2>"Poured"</h2><p>"All steps are done. The log is kept with the job."</p></div> }.into_any(),
            }}
            <div class="under">
                {move || coming(face)}
                {log_list(face)}
            </div>
        </dialog>
    }
    .into_any()
}

fn step_view(face: Face, part: u32, step: PourStep) -> AnyView {
    let units = face.desk.units();
    let Some(words) = face.course.with(|course| course.as_ref().map(|course| step_words(course, part, step, units)))
    else {
        return ().into_any();
    };
    let left = Memo::new(move |_| {
        let now = face.now.get();
        face.reading.with(|reading| reading.as_ref().and_then(|reading| reading.due).map(|due| due - now))
    });
    // What only has to be long enough is never over.
    let patient = matches!(step, PourStep::Wet | PourStep::Strip);
    let count = move || match left.get() {
        None => "When all is ready".to_owned(),
        Some(left) if left >= 1000.0 => clock_words(left),
        Some(left) if left > -5000.0 || patient => "Now".to_owned(),
        Some(left) => format!("{} over", clock_words(left)),
    };
    let over = move || !patient && left.get().is_some_and(|left| left <= -5000.0);
    let threats = Memo::new(move |_| {
        face.reading.with(|reading| {
            let threats = reading.iter().flat_map(|reading| &reading.threats);
            threats.map(|(strength, threat)| (*strength, threat_words(*strength, threat))).collect::<Vec<_>>()
        })
    });
    let lines = words.lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view();
    view! {
        <div class="step">
            <h2>{explained(&words.title)}</h2>
            <p class="count" class:over=over class:ready=move || left.get().is_none() role="timer">{count}</p>
            <ul class="into">{lines}</ul>
            {move || threats.get().into_iter().map(|(strength, says)| {
                let (word, class) = strength_words(strength);
                view! { <p class=format!("finding {class}") role="alert"><span class="strength">{word}</span>{says}</p> }
            }).collect_view()}
            <p class="quiet-text">{explained(words.caution)}</p>
        </div>
        <button type="button" class="main done" on:click=move |event| face.tick(event.time_stamp())>{words.done}</button>
    }
    .into_any()
}

/// What comes next, and how long the mix still has.
fn coming(face: Face) -> AnyView {
    let Some(reading) = face.reading.get() else { return ().into_any() };
    let parts = face.course.with(|course| course.as_ref().map_or(1, Course::parts));
    let next = reading.after.first().map(|(step, due)| {
        let at = reading.stiff.map(|_| format!(", about {}", time_of(*due)));
        format!("Then: {}{}", log_words(reading.part, parts, *step), at.unwrap_or_default())
    });
    let backs = face.course.with(|course| course.as_ref().is_some_and(Course::backs_a_face_coat));
    let first = if backs { "First batch of the backer" } else { "First batch" };
    let stiff = reading
        .stiff
        .zip(reading.ends)
        .map(|(stiff, ends)| format!("{first} stiff at {}; screeded about {}.", time_of(stiff), time_of(ends)));
    view! { <p class="coming">{next}</p><p class="coming">{stiff}</p> }.into_any()
}

fn take_back(log: &mut Vec<Logged>) {
    log.pop();
}

/// What happened, each line to be corrected, the last one to be taken back.
fn log_list(face: Face) -> AnyView {
    let parts = move || face.course.with(|course| course.as_ref().map_or(1, Course::parts));
    let line = move |(index, line): (usize, Logged)| {
        let move_by = move |by: f64| face.edit(|log| correct(log, index, by, js_sys::Date::now()));
        view! {
            <li>
                <span class="name">{log_words(line.part, parts(), line.step)}</span>
                <span class="value">{moment_of(line.at as f64)}</span>
                <span class="row">
                    <button type="button" aria-label=format!("− 1 min: {}", log_words(line.part, parts(), line.step)) on:click=move |_| move_by(-CORRECTION)>"− 1 min"</button>
                    <button type="button" aria-label=format!("+ 1 min: {}", log_words(line.part, parts(), line.step)) on:click=move |_| move_by(CORRECTION)>"+ 1 min"</button>
                </span>
            </li>
        }
    };
    let lines = Memo::new(move |_| log_of(face.desk, face.at.get()));
    let list = move || {
        let lines = lines.get();
        (!lines.is_empty()).then(|| {
            let rows = lines.into_iter().enumerate().rev().map(line).collect_view();
            view! {
                <details class="log">
                    <summary>"What happened"</summary>
                    <ol>{rows}</ol>
                    <button type="button" class="danger" on:click=move |_| face.edit(Vec::clear)>"Clear the log"</button>
                </details>
                <button type="button" class="take-back" on:click=move |_| face.edit(take_back)>"Take the last step back"</button>
            }
        })
    };
    list.into_any()
}
