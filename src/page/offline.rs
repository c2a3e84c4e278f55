//! Working with the network gone, and newer versions of the page.
//!
//! The service worker keeps the whole page (see `src/store/offline.js`). A newer version is fetched in the
//! background and offered; it takes over only when the maker says so, never in the middle of typing.

use super::desk::Desk;
use super::dom;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    Event, RegistrationOptions, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
    ServiceWorkerUpdateViaCache, VisibilityState,
};

/// Whether the page would open with the network gone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Offline {
    /// Not known yet.
    #[default]
    Unknown,
    /// It would.
    Ready,
    /// This address does not allow it: not https, or a browser without service workers.
    Never,
}

fn container() -> Option<ServiceWorkerContainer> {
    let window = web_sys::window()?;
    let navigator = window.navigator();
    // Outside a secure context the property is missing, and asking for it would throw.
    let there = js_sys::Reflect::has(&navigator, &JsValue::from_str("serviceWorker")).unwrap_or(false);
    (there && window.is_secure_context()).then(|| navigator.service_worker())
}

/// Registers the service worker. A debug build has none: a caching worker hides what was just built.
pub fn register(desk: Desk) {
    let Some(container) = container().filter(|_| !cfg!(debug_assertions)) else {
        desk.offline.set(Offline::Never);
        return;
    };
    let options = RegistrationOptions::new();
    options.set_update_via_cache(ServiceWorkerUpdateViaCache::None);
    let registering = container.register_with_options("offline.js", &options);
    spawn_local(async move {
        let Ok(registration) = JsFuture::from(registering).await else {
            desk.offline.set(Offline::Never);
            return;
        };
        let registration: ServiceWorkerRegistration = registration.unchecked_into();
        watch(desk, &registration);
        if let Ok(ready) = container.ready()
            && JsFuture::from(ready).await.is_ok()
        {
            desk.offline.set(Offline::Ready);
        }
    });
}

/// Watches for a newer version, now and whenever the page comes to the front.
fn watch(desk: Desk, registration: &ServiceWorkerRegistration) {
    if registration.waiting().is_some() && registration.active().is_some() {
        desk.newer.set(true);
    }
    let found = registration.clone();
    dom::listen(registration, "updatefound", move |_: Event| {
        let Some(installing) = found.installing() else { return };
        let (registration, worker) = (found.clone(), installing.clone());
        dom::listen(&installing, "statechange", move |_| {
            if worker.state() == ServiceWorkerState::Installed && registration.active().is_some() {
                desk.newer.set(true);
            }
        });
    });
    let registration = registration.clone();
    if let Some(document) = dom::document() {
        let page = document.clone();
        dom::listen(&document, "visibilitychange", move |_| {
            if page.visibility_state() == VisibilityState::Visible
                && let Ok(checking) = registration.update()
            {
                spawn_local(async move {
                    // Without a network there is nothing to find; the next time will tell.
                    let _ = JsFuture::from(checking).await;
                });
            }
        });
    }
}

/// Keeps what is typed, lets the newer version take over, and opens it. What cannot be kept keeps this one open.
fn take_over(desk: Desk) {
    if desk.is_unkept() {
        return desk.tell("This job is not kept yet: share it as a file first, or try again.", None);
    }
    let Some(container) = container() else { return };
    dom::listen(&container, "controllerchange", |_| {
        if let Some(window) = web_sys::window() {
            let _ = window.location().reload();
        }
    });
    spawn_local(async move {
        let Ok(registration) = JsFuture::from(container.get_registration()).await else { return };
        let waiting: Option<ServiceWorker> =
            registration.dyn_into::<ServiceWorkerRegistration>().ok().and_then(|registration| registration.waiting());
        if let Some(waiting) = waiting {
            let _ = waiting.post_message(&JsValue::from_str("skip-waiting"));
        }
    });
}

/// Offers the newer version.
pub fn banner(desk: Desk) -> AnyView {
    (move || {
        desk.newer.get().then(|| {
            view! {
                <div class="banner whole" id="newer" role="status">
                    <strong>"A newer version is ready."</strong>
                    <div class="row">
                        <button type="button" class="main" on:click=move |_| take_over(desk)>"Open it"</button>
                        <button type="button" on:click=move |_| desk.newer.set(false)>"Later"</button>
                    </div>
                </div>
            }
        })
    })
    .into_any()
}

/// One line about the garage without a network.
pub fn words(desk: Desk) -> AnyView {
    let text = move || match desk.offline.get() {
        Offline::Unknown => "",
        Offline::Ready => "Ready for the garage: this page opens with the network gone.",
        Offline::Never => "At this address the page needs the network to open.",
    };
    view! { <p class="quiet-text" id="offline-words">{text}</p> }.into_any()
}
