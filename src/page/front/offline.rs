//! Working with the network gone, and newer versions of the page.
//!
//! The service worker keeps the whole page (see `src/store/offline.js`). A newer version is fetched in the
//! background and offered; it takes over only when the maker says so, never in the middle of typing. Another tab may
//! have let it take over meanwhile: it is offered here all the same, and this tab goes on with what it was opened from.

use super::super::dom;
use super::{Errand, Front, Offline};
use js_sys::{Array, Function, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    Event, MessageChannel, MessageEvent, RegistrationOptions, ServiceWorker, ServiceWorkerContainer,
    ServiceWorkerRegistration, ServiceWorkerState, ServiceWorkerUpdateViaCache, VisibilityState,
};

fn container() -> Option<ServiceWorkerContainer> {
    let window = web_sys::window()?;
    let navigator = window.navigator();
    // Outside a secure context the property is missing, and asking for it would throw.
    let there = Reflect::has(&navigator, &JsValue::from_str("serviceWorker")).unwrap_or(false);
    (there && window.is_secure_context()).then(|| navigator.service_worker())
}

/// The version that this page is of, as `finish-dist` wrote it.
fn built() -> Option<String> {
    let script = dom::document()?.query_selector("script[data-built]").ok()??;
    script.get_attribute("data-built")
}

/// Registers the service worker, and looks after it. A debug build has none: a caching worker hides what was just built.
pub fn register(front: Front) {
    let Some(container) = container().filter(|_| !cfg!(debug_assertions)) else {
        front.offline.set(Offline::Never);
        return;
    };
    enrol(front, &container);
    dom::listen(&container, "controllerchange", move |_| {
        if let Some(registration) = front.registration.get_value() {
            // Another tab has let a newer version take over, or this is a first visit.
            look(front, registration, true);
        }
    });
    let (Some(window), Some(document)) = (web_sys::window(), dom::document()) else { return };
    let look_again = move || {
        let Some(registration) = front.registration.get_value().filter(|known| known.active().is_some()) else {
            return enrol(front, &container);
        };
        if let Ok(checking) = registration.update() {
            spawn_local(async move {
                // Without a network there is nothing to find; the next time will tell.
                let _ = JsFuture::from(checking).await;
            });
        }
        look(front, registration, false);
    };
    let page = document.clone();
    let again = look_again.clone();
    dom::listen(&document, "visibilitychange", move |_| {
        if page.visibility_state() == VisibilityState::Visible {
            again();
        }
    });
    dom::listen(&window, "online", move |_| look_again());
}

/// Asks for the service worker. What failed at a first visit leaves nothing behind, and is asked for anew.
fn enrol(front: Front, container: &ServiceWorkerContainer) {
    let options = RegistrationOptions::new();
    options.set_update_via_cache(ServiceWorkerUpdateViaCache::None);
    let registering = container.register_with_options("offline.js", &options);
    spawn_local(async move {
        let registration = match JsFuture::from(registering).await {
            Ok(registration) => registration,
            Err(why) => {
                // Everything else is the network's fault, and may be better the next time.
                let never = Reflect::get(&why, &"name".into()).is_ok_and(|name| name == "SecurityError");
                return front.offline.set(if never { Offline::Never } else { Offline::Lacking });
            }
        };
        let registration: ServiceWorkerRegistration = registration.unchecked_into();
        // Not `ready`, which may be that of a page in a folder around this one.
        let known = front.registration.get_value();
        if known.as_ref() == Some(&registration) && registration.installing().is_some() {
            return;
        }
        front.registration.set_value(Some(registration.clone()));
        watch(front, &registration);
        look(front, registration, false);
    });
}

/// Watches for a newer version.
fn watch(front: Front, registration: &ServiceWorkerRegistration) {
    if let Some(waiting) = registration.waiting().filter(|_| registration.active().is_some()) {
        offer(front, waiting);
    }
    if let Some(installing) = registration.installing() {
        follow(front, registration.clone(), installing);
    }
    let found = registration.clone();
    dom::listen(registration, "updatefound", move |_: Event| {
        if let Some(installing) = found.installing() {
            follow(front, found.clone(), installing);
        }
    });
}

/// Follows a version on its way.
fn follow(front: Front, registration: ServiceWorkerRegistration, worker: ServiceWorker) {
    dom::listen(&worker.clone(), "statechange", move |_| match worker.state() {
        ServiceWorkerState::Installed if registration.active().is_some() => offer(front, worker.clone()),
        ServiceWorkerState::Activated | ServiceWorkerState::Redundant => look(front, registration.clone(), false),
        _ => {}
    });
}

/// Offers the version that waits. One that this page is of already, as when it was fetched past an older one, has
/// nothing to wait for.
fn offer(front: Front, waiting: ServiceWorker) {
    front.newer.set(true);
    spawn_local(async move {
        if ask(&waiting).await.is_some_and(|state| Some(state.version) == built()) {
            front.newer.set(false);
            let _ = waiting.post_message(&JsValue::from_str(SKIP_WAITING));
        }
    });
}

/// What `src/store/offline.js` takes for leave to take over.
const SKIP_WAITING: &str = "skip-waiting";

/// What a service worker says of what it keeps.
struct State {
    version: String,
    whole: bool,
    neighbours: String,
}

/// Asks a service worker, which fetches first what the browser has dropped.
async fn ask(worker: &ServiceWorker) -> Option<State> {
    let channel = MessageChannel::new().ok()?;
    let answer = Promise::new(&mut |then, _| channel.port1().set_onmessage(Some(&then)));
    let port = channel.port2();
    worker.post_message_with_transferable(&JsValue::from_str("state"), &Array::of1(&port)).ok()?;
    let answer: MessageEvent = JsFuture::from(answer).await.ok()?.unchecked_into();
    channel.port1().close();
    let state = answer.data();
    let field = |name: &str| Reflect::get(&state, &JsValue::from_str(name)).ok();
    Some(State {
        version: field("version")?.as_string()?,
        whole: field("whole")?.is_truthy(),
        neighbours: field("neighbours")?.as_string()?,
    })
}

/// Looks whether all of the page is here; `changed` when another version may have come into charge.
fn look(front: Front, registration: ServiceWorkerRegistration, changed: bool) {
    spawn_local(async move {
        let Some(active) = registration.active() else {
            let failed = |worker: ServiceWorker| worker.state() == ServiceWorkerState::Redundant;
            if registration.installing().is_none_or(failed) && registration.waiting().is_none() {
                front.offline.set(Offline::Lacking);
            }
            return;
        };
        let Some(state) = ask(&active).await else { return };
        front.offline.set(if state.whole { Offline::Ready } else { Offline::Lacking });
        front.neighbours.set(state.neighbours);
        if changed && Some(state.version) != built() {
            front.newer.set(true);
        }
    });
}

/// Whether the host has another version than this page is of: then what this one lacks may be gone for good.
pub async fn host_has_another() -> bool {
    let ask = || {
        let window = web_sys::window()?;
        // From `src/page/boot.js`, which may want to know before any program runs.
        let asks: Function = Reflect::get(&window, &JsValue::from_str("hostHasAnother")).ok()?.dyn_into().ok()?;
        asks.call0(&JsValue::UNDEFINED).ok()?.dyn_into::<Promise>().ok()
    };
    let Some(answer) = ask() else { return false };
    JsFuture::from(answer).await.is_ok_and(|answer| answer.is_truthy())
}

/// Offers what the host has, where it has another version than this page is of.
pub fn look_at_the_host(front: Front) {
    spawn_local(async move {
        if host_has_another().await {
            front.newer.set(true);
        }
    });
}

/// Opens the newer version once what is typed is kept.
pub fn open_newer(front: Front) {
    if front.open.get_untracked() {
        front.ask(Errand::TakeOver);
    } else {
        // Nothing was typed where nothing could be, and the workshop that would be asked may never come.
        take_over(front);
    }
}

/// Lets the newer version take over, where no other tab has done so already, and opens it.
pub fn take_over(front: Front) {
    let Some(waiting) = front.registration.get_value().and_then(|registration| registration.waiting()) else {
        return reload();
    };
    let worker = waiting.clone();
    dom::listen(&waiting, "statechange", move |_| match worker.state() {
        ServiceWorkerState::Activated => reload(),
        // A still newer one has taken its place.
        ServiceWorkerState::Redundant => take_over(front),
        _ => {}
    });
    let _ = waiting.post_message(&JsValue::from_str(SKIP_WAITING));
}

fn reload() {
    if let Some(window) = web_sys::window() {
        let _ = window.location().reload();
    }
}
