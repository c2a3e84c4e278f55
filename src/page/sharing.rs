//! Sharing a job as a file, and bringing one in.

use super::desk::Desk;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

/// The sheet from which a job is given away.
pub fn share(desk: Desk) -> AnyView {
    view! {
        <p>"One file: anybody can open and read it as an estimate, and Pourwright can open it again with nothing lost."</p>
        <div class="row">
            {desk.can_send().then(|| view! {
                <button type="button" class="main" id="share-send" on:click=move |_| desk.send_share()>"Send the file"</button>
            })}
            <button type="button" id="share-save" on:click=move |_| desk.save_share()>"Save the file"</button>
        </div>
        <p class="quiet-text">"Your prices are not in it."</p>
    }
    .into_any()
}

/// The sheet through which a job comes in: picked, dropped, pasted.
pub fn import(desk: Desk) -> AnyView {
    let pasted = NodeRef::<html::Textarea>::new();
    let picked = move |event: leptos::ev::Event| {
        if let Some(files) = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()?.files()) {
            desk.import_files(&files);
        }
    };
    let paste = move |_| {
        if let Some(area) = pasted.get_untracked() {
            desk.import_text(&area.value());
        }
    };
    view! {
        <div class="card">
            <div class="field">
                <label for="import-file">"A shared estimate or a backup, chosen here or dropped on the page"</label>
                <input id="import-file" type="file" multiple on:change=picked/>
            </div>
            <div class="field">
                <label for="import-text">"Or its text, pasted"</label>
                <textarea id="import-text" node_ref=pasted spellcheck="false"/>
            </div>
            <div class="row"><button type="button" class="main" on:click=paste>"Import the pasted text"</button></div>
        </div>
        {move || desk.imported.with(|lines| (!lines.is_empty()).then(|| view! {
            <ul class="findings" id="imported" role="status">
                {lines.iter().map(|line| view! { <li class="finding note">{line.clone()}</li> }).collect_view()}
            </ul>
        }))}
        <p class="quiet-text">"Nothing you have is overwritten: a job that is here already in another state comes in as a copy."</p>
    }
    .into_any()
}
