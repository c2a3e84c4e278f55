//! Sharing a job as a file, a link, a code or a text, and bringing one in.

use super::desk::Desk;
use super::dom;
use super::front::files_of;
use super::paper;
use crate::draw::qr_code;
use crate::store::browser::{self, ShareOutcome, ShareReady};
use crate::store::{self, LinkError, Progress};
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::HtmlInputElement;

/// Makes the file of the open job, then opens the sheet that gives it away.
pub fn open_share(desk: Desk) {
    let (name, text) = untrack(|| desk.job.with(|job| paper::page(job, &desk.worked.whole(), &dom::today())));
    desk.giving.offer(name, text);
}

/// The open job as plain text.
fn words_of(desk: Desk) -> String {
    untrack(|| desk.job.with(|job| paper::words(job, &desk.worked.whole(), &dom::today())))
}

/// The link that carries the open job to this page.
fn link_of(desk: Desk) -> Result<String, LinkError> {
    let page = web_sys::window().and_then(|window| window.location().href().ok()).unwrap_or_default();
    desk.job.with_untracked(|job| store::share_link(job, &page))
}

/// The sheet from which a job is given away.
pub fn share(desk: Desk) -> AnyView {
    view! {
        <section class="way" aria-label="File">
            <h3>"A file"</h3>
            <p>"Anybody can open and read it as an estimate, and Pourwright can open it again with nothing lost."</p>
            <div class="row">
                {desk.giving.can_send().then(|| view! {
                    <button type="button" class="main" id="share-send" on:click=move |_| desk.giving.send()>"Send the file"</button>
                })}
                <button type="button" id="share-save" on:click=move |_| desk.giving.save()>"Save the file"</button>
            </div>
        </section>
        <section class="way" aria-label="Link">
            <h3>"A link"</h3>
            {link(desk)}
        </section>
        <section class="way" aria-label="Text">
            <h3>"Plain text"</h3>
            <p>"The numbers to read, for a message. Pourwright cannot open it again."</p>
            {text(desk)}
        </section>
        <p class="quiet-text">"Your price book is in none of these; a quote that you have sent is, with its price."</p>
    }
    .into_any()
}

/// The link, and its code for a second phone; or why there is none.
fn link(desk: Desk) -> AnyView {
    let link = match link_of(desk) {
        Ok(link) => link,
        Err(why) => {
            return view! { <p class="finding watch" id="link-refused">{why.to_string()}</p> }.into_any();
        }
    };
    let ready = browser::share_address(&link);
    let text = StoredValue::new(link.clone());
    // Drawn when it is asked for: a large one takes a moment.
    let shown = RwSignal::new(false);
    let code = move || {
        shown.get().then(|| match text.with_value(|link| qr_code(link)) {
            Ok(svg) => view! {
                <div id="qr-code" inner_html=svg/>
                <p class="quiet-text">"Point the other phone's camera at it. If it does not catch, make this screen brighter and come closer."</p>
            }
            .into_any(),
            Err(why) => view! { <p class="finding watch" id="qr-refused">{why.to_string()}</p> }.into_any(),
        })
    };
    view! {
        <p>"The whole job is in the address itself, so no server ever sees it. Whoever has the link has the job as it is now."</p>
        {hand_out(Wording { send: "Send the link", copy: "Copy the link", label: "The link" }, link, ready)}
        <details>
            <summary on:click=move |_| shown.set(true)>"Show it to a second phone"</summary>
            {code}
        </details>
    }
    .into_any()
}

fn text(desk: Desk) -> AnyView {
    let text = words_of(desk);
    let ready = browser::share_words(&text);
    hand_out(Wording { send: "Send as text", copy: "Copy as text", label: "The text" }, text, ready)
}

/// The words of one way out.
struct Wording {
    send: &'static str,
    copy: &'static str,
    label: &'static str,
}

/// How handing out went.
#[derive(Clone, Copy, PartialEq)]
enum Handed {
    NotYet,
    Copied,
    /// The browser would not copy.
    ByHand,
}

/// Buttons that give a text to the phone's share sheet, where there is one, and to the clipboard; where the
/// browser refuses both, the text to be copied by hand.
fn hand_out(wording: Wording, text: String, ready: Option<ShareReady>) -> AnyView {
    let Wording { send, copy, label } = wording;
    let handed = RwSignal::new(Handed::NotYet);
    let area = NodeRef::<html::Textarea>::new();
    let text = StoredValue::new(text);
    let ready = StoredValue::new_local(ready);
    let can_send = ready.with_value(Option::is_some);
    let copy_it = move || {
        let Some(copying) = text.try_with_value(|text| browser::copy(text)) else { return };
        spawn_local(async move {
            // The sheet may be closed by now, and all that is its own gone.
            if copying.await {
                let _ = handed.try_set(Handed::Copied);
            } else {
                let _ = handed.try_set(Handed::ByHand);
                dom::after_drawing(move || {
                    if let Some(area) = area.try_get_untracked().flatten() {
                        let _ = area.focus();
                        area.select();
                    }
                });
            }
        });
    };
    let send_it = move |_| {
        let Some(sharing) = ready.with_value(|ready| ready.as_ref().map(ShareReady::share)) else { return };
        spawn_local(async move {
            if sharing.await == ShareOutcome::Refused {
                copy_it();
            }
        });
    };
    let said = move || match handed.get() {
        Handed::NotYet => "",
        Handed::Copied => "Copied.",
        Handed::ByHand => "This browser would not copy it. It is marked below: copy it by hand.",
    };
    let by_hand = move || {
        (handed.get() == Handed::ByHand).then(|| {
            view! { <div class="field"><textarea node_ref=area readonly aria-label=label prop:value=text.get_value()/></div> }
        })
    };
    view! {
        <div class="row">
            {can_send.then(|| view! { <button type="button" on:click=send_it>{send}</button> })}
            <button type="button" on:click=move |_| copy_it()>{copy}</button>
            <span class="quiet-text" role="status">{said}</span>
        </div>
        {by_hand}
    }
    .into_any()
}

/// The sheet through which a job comes in: picked, dropped, pasted.
pub fn import(desk: Desk) -> AnyView {
    let pasted = NodeRef::<html::Textarea>::new();
    let picked = move |event: leptos::ev::Event| {
        if let Some(files) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()?.files()) {
            files_of(&files).into_iter().for_each(|file| desk.bringing.bring_file(file));
        }
    };
    let paste = move |_| {
        if let Some(area) = pasted.get_untracked() {
            desk.bringing.bring_text(&area.value());
        }
    };
    view! {
        <div class="card">
            <div class="field">
                <label for="import-file">"A shared estimate or a backup, chosen here or dropped on the page"</label>
                <input id="import-file" type="file" multiple on:change=picked/>
            </div>
            <div class="field">
                <label for="import-text">"Or its text or a link, pasted"</label>
                <textarea id="import-text" node_ref=pasted spellcheck="false"/>
            </div>
            <div class="row"><button type="button" class="main" on:click=paste>"Import the pasted text"</button></div>
        </div>
        {progress(desk)}
        {move || desk.bringing.said.with(|lines| (!lines.is_empty()).then(|| view! {
            <ul class="findings" id="imported" role="status">
                {lines.iter().map(|line| view! { <li class="finding note" dir="auto">{line.clone()}</li> }).collect_view()}
            </ul>
        }))}
        <p class="quiet-text">"Nothing you have is overwritten: a job that is here already in another state comes in as a copy."</p>
    }
    .into_any()
}

/// How far a backup on its way in is, and a way to stop; nothing while nothing is on its way.
fn progress(desk: Desk) -> AnyView {
    let progress = desk.bringing.progress;
    let running = Memo::new(move |_| progress.with(Option::is_some));
    let bar = move || {
        running.get().then(|| {
            let at = move || progress.get().unwrap_or(Progress { done: 0, all: 0 });
            let words = move || {
                let Progress { done, all } = at();
                format!("{done} of {all} jobs")
            };
            view! {
                <div class="row" id="importing">
                    <progress max=move || at().all.to_string() value=move || at().done.to_string() aria-label="Bringing in"/>
                    <span role="status">{words}</span>
                    <button type="button" on:click=move |_| desk.bringing.stop()>"Stop"</button>
                </div>
            }
        })
    };
    bar.into_any()
}
