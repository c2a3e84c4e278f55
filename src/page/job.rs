//! Around the five screens of a job: its numbers above, the verbs below, what slides over them, and what
//! stands between the maker and a kept job.

use super::banners::{cut_off_banner, newer_banner, storage_banner};
use super::desk::route::{STAGES, stage_word};
use super::desk::{Desk, Keeping, Overlay, Route};
use super::screens::{Screens, screens};
use super::sharing::open_share;
use super::{figures, measure, sharing};
use crate::finding::{Severity, Stage};
use crate::store::database::OnDisk;
use leptos::html;
use leptos::prelude::*;

/// A job: its numbers above, one screen, the verbs below.
pub(super) fn job(desk: Desk, stage: Stage) -> AnyView {
    let body = move || {
        let later = |screen: fn(&Screens) -> fn(Desk) -> AnyView| {
            let here = desk.screens.get().then(screens).flatten();
            here.map_or_else(|| on_its_way(desk), |screens| screen(screens)(desk))
        };
        match stage {
            Stage::Measure => measure::measure(desk),
            Stage::Build => later(|screens| screens.build),
            Stage::Pour => later(|screens| screens.pour),
            Stage::Finish => later(|screens| screens.finish),
            Stage::Quote => later(|screens| screens.quote),
        }
    };
    let title = move || {
        desk.job.with(|job| if job.name.is_blank() { "New job".to_owned() } else { job.name.text().to_owned() })
    };
    view! {
        <header class="top">
            <div class="bar">
                <button type="button" aria-label="All jobs" on:click=move |_| desk.go(Route::Shelf)>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M15 5l-7 7 7 7"/></svg>
                </button>
                <h1 dir="auto">{title}</h1>
                {kept(desk)}
                {move || desk.job.can_undo.get().then(|| view! {
                    <button type="button" aria-label="Undo" on:click=move |_| desk.job.undo()>
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M9 14L4 9l5-5M4 9h10a6 6 0 0 1 0 12h-3"/></svg>
                    </button>
                })}
                {move || desk.job.can_redo.get().then(|| view! {
                    <button type="button" aria-label="Redo" on:click=move |_| desk.job.redo()>
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M15 14l5-5-5-5M20 9H10a6 6 0 0 0 0 12h3"/></svg>
                    </button>
                })}
                <button type="button" id="share" aria-label="Share this estimate" on:click=move |_| open_share(desk)>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d="M12 15V4M8 7l4-4 4 4M5 12v8h14v-8"/></svg>
                </button>
            </div>
            {figures::headline(desk)}
        </header>
        <main id="main" tabindex="-1" class="split" data-screen=stage_word(stage)>
            {banners(desk)}
            {body}
        </main>
        {verbs(desk, stage)}
    }
    .into_any()
}

/// A screen that is still being fetched.
fn on_its_way(desk: Desk) -> AnyView {
    view! {
        {cut_off_banner(*desk)}
        {move || desk.cut_off.get().is_none().then(|| view! { <p class="quiet-text whole" role="status">"Fetching this screen…"</p> })}
    }
    .into_any()
}

/// Whether what was typed is kept.
fn kept(desk: Desk) -> AnyView {
    let wrong = move || desk.storage_trouble.with(Option::is_some) || desk.keeper.keeping.with(Keeping::is_wrong);
    let text = move || match (desk.keeper.keeping.get(), desk.keeper.on_disk.get()) {
        _ if wrong() => "Not kept",
        (Keeping::Kept, OnDisk::All) => "Saved",
        // The browser puts it on disk when it sees fit.
        (Keeping::Kept, OnDisk::Never) => "Kept",
        _ => "…",
    };
    view! { <span class="kept" id="kept" class:wrong=wrong role="status">{text}</span> }.into_any()
}

/// What stands between the maker and a kept job, said above everything else.
fn banners(desk: Desk) -> AnyView {
    let keeping = move || match desk.keeper.keeping.get() {
        Keeping::Kept | Keeping::Writing => ().into_any(),
        Keeping::Failed(why) => not_kept(desk, why),
        Keeping::Elsewhere { unreadable } => changed_elsewhere(desk, unreadable),
        Keeping::Gone => deleted_elsewhere(desk),
    };
    view! {
        {storage_banner(*desk)}
        {keeping}
        {newer_banner(*desk)}
    }
    .into_any()
}

/// One of them: what is wrong, more of it, and what can be done.
fn stop_banner(what: &'static str, more: String, doings: AnyView) -> AnyView {
    view! {
        <div class="banner stop whole" role="alert">
            <strong>{what}</strong>
            <p>{more}</p>
            <div class="row">{doings}</div>
        </div>
    }
    .into_any()
}

fn not_kept(desk: Desk, why: String) -> AnyView {
    let doings = view! {
        <button type="button" on:click=move |_| open_share(desk)>"Share it as a file"</button>
        <button type="button" on:click=move |_| desk.keeper.keep_now()>"Try again"</button>
    };
    stop_banner("This job is not being kept.", why, doings.into_any())
}

fn changed_elsewhere(desk: Desk, unreadable: Option<String>) -> AnyView {
    let (says, other) = match unreadable {
        Some(why) => (
            format!("{why} Nothing was saved over it, and what you typed here since then is not kept yet."),
            view! { <button type="button" on:click=move |_| open_share(desk)>"Share it as a file"</button> }.into_any(),
        ),
        None => (
            "What you typed here since then is not kept yet. Keep both, or go on with the other one.".to_owned(),
            view! { <button type="button" on:click=move |_| desk.keeper.take_theirs()>"Go on with the other"</button> }
                .into_any(),
        ),
    };
    let doings = view! {
        <button type="button" class="main" on:click=move |_| desk.way.keep_both()>"Keep both"</button>
        {other}
    };
    stop_banner("This job was changed in another tab.", says, doings.into_any())
}

fn deleted_elsewhere(desk: Desk) -> AnyView {
    let says = "It stands here as you see it, and among the deleted jobs on the shelf as it was deleted.";
    let doings = view! {
        <button type="button" class="main" on:click=move |_| desk.way.keep_both()>"Keep it"</button>
        <button type="button" on:click=move |_| desk.way.let_go()>"Let it go"</button>
    };
    stop_banner("This job was deleted in another tab.", says.to_owned(), doings.into_any())
}

fn verbs(desk: Desk, here: Stage) -> AnyView {
    let items = STAGES
        .into_iter()
        .map(|stage| {
            let flag = Memo::new(move |_| {
                desk.worked.findings.with(|all| {
                    let of = |strength| all.iter().filter(|one| one.stage == stage && one.severity == strength).count();
                    (of(Severity::Stop), of(Severity::Watch))
                })
            });
            let shown = move || match flag.get() {
                (0, 0) => None,
                (0, watches) => Some(
                    view! { <span class="flag">{watches}<span class="out-of-sight">" to watch"</span></span> }
                        .into_any(),
                ),
                (stops, _) => Some(
                    view! { <span class="flag stop">{stops}<span class="out-of-sight">{if stops == 1 { " stop" } else { " stops" }}</span></span> }
                        .into_any(),
                ),
            };
            view! {
                <li>
                    <a href=move || desk.way.address(stage) aria-current=(stage == here).then_some("page")>
                        {stage_word(stage)}
                        {shown}
                    </a>
                </li>
            }
        })
        .collect_view();
    view! { <nav class="verbs" aria-label="The job"><ul>{items}</ul></nav> }.into_any()
}

/// The sheet that slides over a screen: a working, what a number waits for, sharing, bringing in.
pub(super) fn sheet(desk: Desk) -> AnyView {
    let dialog = NodeRef::<html::Dialog>::new();
    Effect::new(move |_| {
        let open = desk.notices.sheet.with(Option::is_some);
        if let Some(dialog) = dialog.get() {
            if open && !dialog.open() {
                let _ = dialog.show_modal();
            } else if !open && dialog.open() {
                dialog.close();
            }
        }
    });
    let close = move || desk.notices.sheet.set(None);
    let content = move || {
        desk.notices.sheet.get().map(|sheet| {
            let (title, body) = match sheet {
                Overlay::Working(working) => desk.job.with(|job| (working.title(job), figures::working(&working, job))),
                Overlay::Waits(title, waiting) => (format!("{title}: still waiting"), figures::waits(desk, &waiting)),
                Overlay::Share => ("Share this estimate".to_owned(), sharing::share(desk)),
                Overlay::Import => ("Import".to_owned(), sharing::import(desk)),
            };
            view! {
                <div class="sheet">
                    <header>
                        <h2 id="sheet-title">{title}</h2>
                        <button type="button" on:click=move |_| close()>"Close"</button>
                    </header>
                    {body}
                </div>
            }
        })
    };
    // A press on the backdrop lands on the dialog itself.
    let outside = move |event: leptos::ev::MouseEvent| {
        use wasm_bindgen::JsCast;
        let on_dialog = event.target().is_some_and(|target| target.has_type::<web_sys::HtmlDialogElement>());
        if on_dialog {
            close();
        }
    };
    // The browser tells of it a moment later, when another sheet may be open already.
    let closed = move |_| {
        if dialog.get_untracked().is_none_or(|dialog| !dialog.open()) {
            close();
        }
    };
    view! {
        <dialog node_ref=dialog aria-labelledby="sheet-title" on:close=closed on:click=outside>{content}</dialog>
    }
    .into_any()
}

/// A line at the bottom that goes away by itself, with one thing to do.
pub(super) fn notice(desk: Desk) -> AnyView {
    let shown = move || {
        desk.notices.notice.get().map(|notice| {
            let action = notice.action.map(|(word, action)| {
                view! { <button type="button" on:click=move |_| { desk.notices.notice.set(None); action(); }>{word}</button> }
            });
            view! {
                <div>
                    <span>{notice.says}</span>
                    {action}
                    <button type="button" aria-label="Dismiss" on:click=move |_| desk.notices.notice.set(None)>"✕"</button>
                </div>
            }
        })
    };
    view! { <div class="notice" role="status" aria-live="polite">{shown}</div> }.into_any()
}
