//! The workshop: everything that reads a job. The front fetches it as soon as the first screen stands.

use super::desk::{Desk, Overlay, Route};
use super::dom;
use super::front::{CutOff, Errand, Front, Shown, offline};
use super::screens::{self, Screens};
use super::{arrival, build, finish, job, lost, pour, quote};
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Fetches the workshop and opens it, then the screens that follow Measure; or says that they could not be had.
pub fn fetch(front: Front) {
    front.cut_off.set(None);
    spawn_local(async move {
        if let Err(Missing) = fetch_both(front).await {
            let why = if offline::host_has_another().await { CutOff::Outdated } else { CutOff::Somehow };
            front.cut_off.set(Some(why));
        }
    });
}

async fn fetch_both(front: Front) -> Result<(), Missing> {
    if !front.open.get_untracked() {
        parts::workshop(front).await?;
    }
    dom::next_task().await;
    screens::bring(parts::screens().await?);
    front.screens.set(true);
    Ok(())
}

/// A part could not be fetched.
#[derive(Clone, Copy, Debug)]
struct Missing;

impl From<leptos::wasm_split::SplitLoaderError> for Missing {
    fn from(_: leptos::wasm_split::SplitLoaderError) -> Self {
        Self
    }
}

/// What `make` builds: each part is a file of its own, fetched when its function is called.
#[cfg(split)]
#[allow(unsafe_code)] // The macro declares the function that fetches.
mod parts {
    use super::{Front, Missing, Screens};
    use leptos::wasm_split::wasm_split;

    #[wasm_split(workshop, wasm_split_path = leptos::wasm_split, fallible)]
    pub fn workshop(front: Front) -> Result<(), Missing> {
        super::stand(front);
        Ok(())
    }

    #[wasm_split(screens, wasm_split_path = leptos::wasm_split, fallible)]
    pub fn screens() -> Result<Screens, Missing> {
        Ok(super::SCREENS)
    }
}

/// What Trunk builds by itself: everything in one file.
#[cfg(not(split))]
mod parts {
    use super::{Front, Missing, Screens};

    pub async fn workshop(front: Front) -> Result<(), Missing> {
        super::stand(front);
        Ok(())
    }

    pub async fn screens() -> Result<Screens, Missing> {
        Ok(super::SCREENS)
    }
}

const SCREENS: Screens = Screens { build: build::build, pour: pour::pour, finish: finish::finish, quote: quote::quote };

/// From here on the workshop shows what the address asks for, and does what is asked on the shelf. A job that is
/// waited for is opened at once; a shelf stands already, and stays quick to the touch.
fn stand(front: Front) {
    if front.shown.get_untracked() == Shown::Opening {
        return mount(front);
    }
    spawn_local(async move {
        dom::next_task().await;
        mount(front);
    });
}

fn mount(front: Front) {
    leptos::mount::mount_to(leptos::tachys::dom::body(), move || {
        front.open.set(true);
        let desk = Desk::new(front);
        desk.wake();
        Effect::new(move |_| desk.jobs.search());
        Effect::new(move |_| {
            front.errands.track();
            for errand in front.errands.try_maybe_update(|errands| (false, std::mem::take(errands))).unwrap_or_default()
            {
                run(desk, errand);
            }
        });
        view(desk)
    })
    .forget();
}

/// Everything but the shelf.
fn view(desk: Desk) -> AnyView {
    let screen = move || match desk.way.route.get() {
        Route::Shelf => ().into_any(),
        Route::Job(stage) => job::job(desk, stage),
        Route::Lost(why) => lost::lost(desk, why),
        Route::Arrived(found) => arrival::arrival(desk, found),
    };
    view! {
        {screen}
        {job::sheet(desk)}
        {job::notice(desk)}
    }
    .into_any()
}

fn run(desk: Desk, errand: Errand) {
    match errand {
        Errand::NewJob => desk.way.open_blank(),
        Errand::Demo => desk.way.open_demo(),
        Errand::Import => desk.notices.sheet.set(Some(Overlay::Import)),
        Errand::Bring(files) => {
            desk.notices.sheet.set(Some(Overlay::Import));
            files.into_iter().for_each(|file| desk.bringing.bring_file(file));
        }
        Errand::BackUp => desk.giving.back_up(),
        Errand::Copy(id) => desk.jobs.duplicate(&id),
        Errand::Delete(id) => desk.jobs.delete(&id),
        Errand::PutBack(key) => desk.jobs.undo_delete(&key),
        Errand::SaveText(id) => desk.jobs.download_raw(&id),
        Errand::TakeOver => {
            // What cannot be kept keeps this version open.
            if desk.keeper.is_unkept() {
                desk.tell("This job is not kept yet: share it as a file first, or try again.", None);
            } else {
                offline::take_over(*desk);
            }
        }
    }
}
