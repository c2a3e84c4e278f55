//! The few things that are asked of the browser by hand.

use leptos::ev::KeyboardEvent;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Document, HtmlElement, HtmlInputElement, MessageChannel};

/// The document, if there is one.
pub fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// Puts another address behind the page's own, which the browser's back button comes back from.
pub fn set_address(address: &str) {
    if let Some(window) = web_sys::window() {
        let _ = window.location().set_hash(address);
    }
}

/// The id of the job that the address asks for, if it asks for one.
pub fn job_in_address() -> Option<String> {
    let hash = web_sys::window()?.location().hash().ok()?;
    let id = hash.strip_prefix("#/job/")?.split('/').next()?;
    (!id.is_empty()).then(|| id.to_owned())
}

/// Puts another address in the place of the one that is there.
pub fn replace_address(address: &str) {
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(address));
    }
}

/// Runs once the page has drawn what has been changed so far.
pub fn after_drawing(then: impl FnOnce() + 'static) {
    leptos::prelude::request_animation_frame(move || {
        leptos::prelude::request_animation_frame(then);
    });
}

/// Runs once the page has drawn what has been changed so far, unless the maker has gone to a field meanwhile: a slow
/// phone draws late, and what is being typed by then must not land elsewhere.
pub fn after_drawing_unless_typing(then: impl FnOnce() + 'static) {
    let focused = || document()?.active_element();
    let before = focused();
    after_drawing(move || {
        let now = focused();
        let types = now.as_ref().is_some_and(|element| element.matches("input, textarea, select").unwrap_or(false));
        if !types || now == before {
            then();
        }
    });
}

/// Runs once the page has painted what has been changed so far.
pub fn after_painting(then: impl FnOnce() + 'static) {
    leptos::prelude::request_animation_frame(move || {
        wasm_bindgen_futures::spawn_local(async move {
            next_task().await;
            then();
        });
    });
}

/// Lets the browser do what it has to do meanwhile, then goes on: a long piece of work is taken in parts. A message
/// and not a timer, which a browser makes wait.
pub async fn next_task() {
    let Ok(channel) = MessageChannel::new() else { return };
    let turn = js_sys::Promise::new(&mut |then, _| channel.port1().set_onmessage(Some(&then)));
    let sent = channel.port2().post_message(&wasm_bindgen::JsValue::NULL);
    if sent.is_ok() {
        // A promise that nothing refuses.
        let _ = wasm_bindgen_futures::JsFuture::from(turn).await;
    }
    channel.port1().close();
}

/// Puts the focus on the element with that id once it is there, and brings it into sight.
pub fn focus_on(id: String) {
    after_drawing_unless_typing(move || {
        let Some(element) = document().and_then(|document| document.get_element_by_id(&id)) else { return };
        // What is folded away cannot take the focus.
        if let Ok(Some(folded)) = element.closest("details") {
            let _ = folded.set_attribute("open", "");
        }
        if let Ok(element) = element.dyn_into::<HtmlElement>() {
            let _ = element.focus();
            if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
                input.select();
            }
            element.scroll_into_view();
        }
    });
}

/// Enter goes to the next field of the page, as the phone's "next" key promises.
pub fn focus_next(event: &KeyboardEvent) {
    let Some(document) = document() else { return };
    let Some(from) = event.target().and_then(|target| target.dyn_into::<HtmlElement>().ok()) else { return };
    let Ok(fields) = document.query_selector_all("main input, main textarea") else { return };
    let all: Vec<HtmlElement> =
        (0..fields.length()).filter_map(|index| fields.get(index)?.dyn_into::<HtmlElement>().ok()).collect();
    if let Some(next) = all.iter().skip_while(|element| **element != from).nth(1) {
        event.prevent_default();
        let _ = next.focus();
        // What is typed replaces what the field began with, and is not set behind it.
        if let Some(input) = next.dyn_ref::<HtmlInputElement>() {
            input.select();
        }
    }
}

/// A phone reads `inputmode` when a field gets the focus: give it anew.
pub fn reopen_keyboard(input: NodeRef<html::Input>) {
    // The field may be gone by then, and what refers to it with it.
    let Some(input) = input.get_untracked() else { return };
    after_drawing_unless_typing(move || {
        let _ = input.blur();
        let _ = input.focus();
    });
}

/// The phone's date, written its own way.
pub fn today() -> String {
    date_of(js_sys::Date::now())
}

/// Calls `then` for every event of that name, for as long as the page lives.
pub fn listen(target: &web_sys::EventTarget, event: &str, then: impl FnMut(web_sys::Event) + 'static) {
    let closure = Closure::<dyn FnMut(web_sys::Event)>::new(then);
    let _ = target.add_event_listener_with_callback(event, closure.as_ref().unchecked_ref());
    closure.forget();
}

/// That moment's date, written the phone's own way.
pub fn date_of(milliseconds: f64) -> String {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(milliseconds));
    String::from(date.to_locale_date_string("default", &wasm_bindgen::JsValue::UNDEFINED))
}

/// That moment's time of day to the minute, written the phone's own way.
pub fn time_of(milliseconds: f64) -> String {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(milliseconds));
    let short = js_sys::Object::new();
    let _ = js_sys::Reflect::set(&short, &"timeStyle".into(), &"short".into());
    String::from(date.to_locale_time_string_with_options("default", &short))
}

/// That moment's date and time of day to the second.
pub fn moment_of(milliseconds: f64) -> String {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(milliseconds));
    format!("{} {}", date_of(milliseconds), String::from(date.to_locale_time_string("default")))
}

/// Today as 2026-11-25, in the phone's own time.
pub fn iso_date() -> String {
    let today = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", today.get_full_year(), today.get_month() + 1, today.get_date())
}
