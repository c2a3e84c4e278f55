//! Fields: one for every entry of a job, found by its place.

mod terms;

pub use terms::{explained, lead, what};

use super::desk::Desk;
use crate::hints;
use crate::job::{FieldPath, Kind, read};
use crate::measure::{Units, with_fraction};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;

/// The keyboard a field opens; `None` keeps the phone's own.
fn keyboard(kind: Kind) -> Option<&'static str> {
    match kind {
        Kind::Length | Kind::Percent | Kind::Ratio | Kind::Money | Kind::Area => Some("decimal"),
        Kind::Count => Some("numeric"),
        _ => None,
    }
}

/// Everything a text field needs, so that every field of the page is the same one.
pub struct Field {
    /// Its element's id.
    pub key: String,
    /// The word above it.
    pub label: String,
    /// What it is read as.
    pub kind: Kind,
    /// What a bare number in it is read in.
    pub units: Signal<Units>,
    /// A line below it while nothing is wrong.
    pub hint: Signal<String>,
    /// The text it shows.
    pub text: Signal<String>,
    /// What is wrong with it, if anything.
    pub wrong: Signal<Option<String>>,
    /// Takes what is typed.
    pub typed: Callback<String>,
}

/// The field of a job's entry, with the line of help that it has everywhere.
pub fn field(desk: Desk, place: FieldPath) -> AnyView {
    labelled(desk, place, place.label(), Signal::derive(move || hints::hint(place, desk.units())))
}

/// The field of a job's entry, with a line of help for where it stands.
pub fn hinted(desk: Desk, place: FieldPath, hint: &'static str) -> AnyView {
    labelled(desk, place, place.label(), Signal::stored(hint.to_owned()))
}

/// The field of a job's entry under another word, with a line of help below it.
pub fn labelled(desk: Desk, place: FieldPath, label: &'static str, hint: Signal<String>) -> AnyView {
    let text = Memo::new(move |_| {
        desk.job.with(|job| job.entry_at(place).map_or_else(String::new, |entry| entry.text().to_owned()))
    });
    // From the text and not from the job, which changes with every other field.
    let wrong = Memo::new(move |_| {
        text.with(|text| read::wrong(text, place.kind(), desk.units()).map(|error| error.to_string()))
    });
    text_field(
        desk,
        Field {
            key: place.key(),
            label: label.to_owned(),
            kind: place.kind(),
            units: Signal::derive(move || desk.units()),
            hint,
            text: text.into(),
            wrong: wrong.into(),
            typed: Callback::new(move |typed| desk.type_into(place, typed)),
        },
    )
}

/// A text field that keeps what is typed as it is typed and says below what is wrong with it.
pub fn text_field(desk: Desk, parts: Field) -> AnyView {
    let Field { key, label, kind, units, hint, text, wrong, typed } = parts;
    let input = NodeRef::<html::Input>::new();
    let letters = RwSignal::new(false);
    let says = format!("{key}-says");
    let is_open = {
        let key = key.clone();
        Memo::new(move |_| kind == Kind::Length && desk.focus.with(|focus| focus.as_deref() == Some(key.as_str())))
    };
    let mode = move || if letters.get() { Some("text") } else { keyboard(kind) };
    let chips = move || is_open.get().then(|| fraction_chips(desk, input, text, typed, letters));
    let (focus_key, says_id) = (key.clone(), says.clone());
    view! {
        <div class="field" class:wrong=move || wrong.with(Option::is_some) class:open=move || is_open.get() class:words={kind == Kind::Text}>
            <label for=key.clone()>
                {label.clone()} " " <span class="unit">{move || kind.unit(units.get())}</span>
            </label>
            <input
                node_ref=input
                id=key.clone()
                type=match kind { Kind::Date => "date", Kind::Clock => "time", _ => "text" }
                inputmode=mode
                autocomplete="off"
                autocapitalize=if kind == Kind::Text { "sentences" } else { "off" }
                spellcheck="false"
                enterkeyhint="next"
                aria-invalid=move || wrong.with(Option::is_some).then_some("true")
                aria-describedby=says_id
                prop:value=move || text.get()
                on:input=move |event| typed.run(event_target_value(&event))
                on:focus=move |_| desk.focus.set(Some(focus_key.clone()))
                on:keydown=move |event: ev::KeyboardEvent| if event.key() == "Enter" { super::dom::focus_next(&event) }
            />
            <p id=says class=move || if wrong.with(Option::is_some) { "says" } else { "hint" } aria-live="polite">
                {move || wrong.get().unwrap_or_else(|| hint.get())}
            </p>
            {what(&label)}
            {chips}
        </div>
    }
    .into_any()
}

/// Sixteenths to tap, so that 67 1/4 is typed with one thumb, and the way to the whole keyboard.
fn fraction_chips(
    desk: Desk,
    input: NodeRef<html::Input>,
    text: Signal<String>,
    typed: Callback<String>,
    letters: RwSignal<bool>,
) -> AnyView {
    // A press must not take the focus from the field, or the phone's keyboard goes away.
    let stay = |event: ev::PointerEvent| event.prevent_default();
    let chip = move |sixteenths: u8| {
        let name = with_fraction("", sixteenths);
        let label = if sixteenths == 0 { "whole".to_owned() } else { name };
        view! {
            <button
                type="button"
                class:quarter=matches!(sixteenths, 4 | 8 | 12)
                tabindex="-1"
                on:pointerdown=stay
                on:click=move |_| typed.run(with_fraction(&text.get_untracked(), sixteenths))
            >
                {label}
            </button>
        }
    };
    let fractions = (desk.units() == Units::Inch).then(|| (1..16).chain(std::iter::once(0)).map(chip).collect_view());
    view! {
        <div class="chips" role="group" aria-label="Sixteenths">
            {fractions}
            <button
                type="button"
                tabindex="-1"
                aria-label="Whole keyboard, for feet and other units"
                aria-pressed=move || if letters.get() { "true" } else { "false" }
                on:pointerdown=stay
                on:click=move |_| {
                    letters.update(|on| *on = !*on);
                    super::dom::reopen_keyboard(input);
                }
            >
                "abc"
            </button>
        </div>
    }
    .into_any()
}

/// A card whose content is folded away until it is needed.
pub fn folded(name: &'static str, content: AnyView) -> AnyView {
    view! {
        <section class="card" aria-label=name>
            <details>
                <summary>{name}</summary>
                {content}
            </details>
        </section>
    }
    .into_any()
}

/// A list to choose from, for choices that are made once and would fill a screen as buttons.
pub fn list<T: Copy + PartialEq + Send + Sync + 'static>(
    key: &'static str,
    label: &'static str,
    options: Vec<(T, &'static str)>,
    chosen: Signal<T>,
    choose: Callback<T>,
) -> AnyView {
    let entries = options.clone();
    let entries = entries
        .into_iter()
        .map(|(value, word)| view! { <option value=word prop:selected=move || chosen.get() == value>{word}</option> })
        .collect_view();
    let changed = move |event: ev::Event| {
        let word = event_target_value(&event);
        if let Some((value, _)) = options.iter().find(|(_, other)| *other == word) {
            choose.run(*value);
        }
    };
    view! {
        <div class="field words">
            <label for=key>{label}</label>
            <select id=key on:change=changed>{entries}</select>
            {what(label)}
        </div>
    }
    .into_any()
}

/// A row of buttons of which one is pressed.
pub fn choice<T: Copy + PartialEq + Send + Sync + 'static>(
    legend: &'static str,
    options: Vec<(T, &'static str)>,
    chosen: Signal<T>,
    choose: Callback<T>,
) -> AnyView {
    let buttons = options
        .into_iter()
        .map(|(value, word)| {
            view! {
                <button
                    type="button"
                    aria-pressed=move || if chosen.get() == value { "true" } else { "false" }
                    on:click=move |_| choose.run(value)
                >
                    {word}
                </button>
            }
        })
        .collect_view();
    view! { <fieldset class="choice"><legend>{legend}</legend>{what(legend)}{buttons}</fieldset> }.into_any()
}
