//! Numbers, and the hand calculation behind them.

use super::desk::{Desk, Overlay};
use crate::carry::Crew;
use crate::job::Job;
use crate::measure::{write_mass, write_water};
use crate::working::{Figure, Known, Label, Source, Waiting, Working};
use leptos::prelude::*;

/// A number ready to be shown: its text and its working.
#[derive(Clone, PartialEq)]
pub struct Shown {
    /// The number with its unit.
    pub text: String,
    /// How the value was obtained.
    pub working: Working,
}

/// Makes a number ready to be shown.
pub fn show<T>(figure: &Known<Figure<T>>, write: impl Fn(&T) -> String) -> Known<Shown> {
    match figure {
        Ok(figure) => Ok(Shown { text: write(&figure.value), working: figure.working.clone() }),
        Err(waiting) => Err(waiting.clone()),
    }
}

/// The crew in one or two words.
pub fn crew_text(crew: Crew) -> String {
    match crew {
        Crew::Hands(1) => "1".to_owned(),
        Crew::Hands(hands) => hands.to_string(),
        Crew::Aid => "3 + cart".to_owned(),
    }
}

/// The four numbers a maker asks for first, in sight on every screen.
pub fn headline(desk: Desk) -> AnyView {
    let units = move || desk.units();
    let numbers: [(&'static str, &'static str, Signal<Known<Shown>>); 4] = [
        (
            "bags",
            "Bags",
            Signal::derive(move || desk.cast.with(|all| show(&all.headline.bags, |bags| bags.to_string()))),
        ),
        (
            "water",
            "Water",
            Signal::derive(move || {
                desk.cast.with(|all| show(&all.headline.water, |water| write_water(*water, units()).text))
            }),
        ),
        (
            "weight",
            "Weight",
            Signal::derive(move || {
                desk.cast.with(|all| show(&all.headline.weight, |mass| write_mass(*mass, units()).text))
            }),
        ),
        (
            "people",
            "People",
            Signal::derive(move || desk.cast.with(|all| show(&all.headline.people, |crew| crew_text(*crew)))),
        ),
    ];
    let buttons = numbers
        .into_iter()
        .map(|(key, label, number)| {
            let number = Memo::new(move |_| number.get());
            let text = Signal::derive(move || {
                number.with(|number| number.as_ref().map_or("—".to_owned(), |shown| shown.text.clone()))
            });
            let long = move || text.with(|text| text.chars().count() > 6);
            view! {
                <button type="button" id=format!("headline-{key}") on:click=move |_| open(desk, label, &number.get_untracked())>
                    <span class="value" class:long=long>{text}</span>
                    <span class="label">{move || if label == "Bags" && text.with(|text| text == "1") { "Bag" } else { label }}</span>
                </button>
            }
        })
        .collect_view();
    view! { <div class="numbers4" role="group" aria-label="The job in four numbers" aria-live="polite">{buttons}</div> }
        .into_any()
}

fn open(desk: Desk, label: &str, number: &Known<Shown>) {
    desk.notices.sheet.set(Some(match number {
        Ok(shown) => Overlay::Working(shown.working.clone()),
        Err(waiting) => Overlay::Waits(label.to_owned(), waiting.clone()),
    }));
}

/// A row of a card: a number to tap, or what it waits for.
pub fn row(desk: Desk, label: impl Into<String>, number: Known<Shown>) -> AnyView {
    let label = label.into();
    let (value, class) = match &number {
        Ok(shown) => (shown.text.clone().into_any(), "value"),
        Err(waiting) => (waits_in_short(desk, waiting), "waits"),
    };
    let named = label.clone();
    view! {
        <div>
            <button type="button" on:click=move |_| open(desk, &named, &number)>
                <span>{label}</span>
                <span class=class>{value}</span>
            </button>
        </div>
    }
    .into_any()
}

/// A row of a card without a working.
pub fn plain_row(label: impl Into<String>, value: impl Into<String>) -> AnyView {
    view! {
        <div><div class="plain"><span>{label.into()}</span><span class="value">{value.into()}</span></div></div>
    }
    .into_any()
}

/// A message in the units and names of the job, as they are by now: neither is a part of what was worked out.
pub fn written(desk: Desk, label: Label) -> Memo<String> {
    Memo::new(move |_| desk.job.with(|job| label.write(job)))
}

/// The one thing it waits for, or how many there are.
fn waits_in_short(desk: Desk, waiting: &Waiting) -> AnyView {
    match waiting.needs() {
        [only] => {
            let says = written(desk, only.sentence());
            (move || says.get()).into_any()
        }
        needs => format!("waits for {} things", needs.len()).into_any(),
    }
}

/// A source in words.
pub fn source_text(source: Source) -> String {
    match source {
        Source::Standard(name) => name.to_owned(),
        Source::Practice => "common practice in the trade, no published source".to_owned(),
        Source::Memory => "typical of data sheets, from memory: your own label outranks it".to_owned(),
        Source::Typed => "typed by you".to_owned(),
        Source::Arithmetic => "arithmetic".to_owned(),
    }
}

/// The steps of a working.
pub fn working(working: &Working, job: &Job) -> AnyView {
    let steps = working
        .lines(job)
        .into_iter()
        .map(|line| {
            view! {
                <li>
                    <span>{line.formula}</span>
                    <span class="numbers">{line.numbers}</span>
                    <span class="result">{if line.result.starts_with('≈') { "" } else { "= " }} {line.result}</span>
                    <span class="source">{source_text(line.source)}</span>
                </li>
            }
        })
        .collect_view();
    view! {
        <ol class="steps">{steps}</ol>
        <p class="quiet-text"><a href="./evidence.html">"How such numbers are checked"</a></p>
    }
    .into_any()
}

/// What a number waits for, each with the way there.
pub fn waits(desk: Desk, waiting: &Waiting) -> AnyView {
    let needs = waiting
        .needs()
        .iter()
        .cloned()
        .map(|need| {
            let says = written(desk, need.sentence());
            view! {
                <li class="row">
                    <span>{move || says.get()}</span>
                    <button type="button" on:click=move |_| { desk.notices.sheet.set(None); desk.go_to(need.place); }>"Go there"</button>
                </li>
            }
        })
        .collect_view();
    view! { <ul class="findings">{needs}</ul> }.into_any()
}
