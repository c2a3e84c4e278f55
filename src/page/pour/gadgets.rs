//! Sound, vibration and a screen that stays awake, where the phone has them; where it has not, nothing happens.

use super::super::dom;
use js_sys::{Function, Promise, Reflect};
use std::cell::{Cell, RefCell};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{AudioContext, OscillatorType, VisibilityState};

thread_local! {
    /// A tap has allowed this page to call.
    static ARMED: Cell<bool> = const { Cell::new(false) };
    /// Browsers let a page sound only after a tap: this is made in one.
    static SOUND: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
}

/// Gets ready, in a tap: from here on the page may sound and vibrate.
pub fn arm() {
    ARMED.set(true);
    SOUND.with_borrow_mut(|sound| {
        if sound.is_none() {
            *sound = AudioContext::new().ok();
        }
    });
    stay_awake();
}

/// Calls for the maker, if a tap has allowed it: so many beeps, and as many shakes.
pub fn call(times: u32) {
    if !ARMED.get() {
        return;
    }
    vibrate(times);
    SOUND.with_borrow(|sound| {
        for beep in 0..times {
            // A beep that cannot be is not missed: the page shows the same.
            let _ = sound.as_ref().map(|sound| self::beep(sound, f64::from(beep) * 0.4));
        }
    });
}

fn beep(sound: &AudioContext, after: f64) -> Result<(), JsValue> {
    let from = sound.current_time() + after;
    let tone = sound.create_oscillator()?;
    tone.set_type(OscillatorType::Square);
    tone.frequency().set_value(880.0);
    tone.connect_with_audio_node(&sound.destination())?;
    tone.start_with_when(from)?;
    tone.stop_with_when(from + 0.25)
}

/// A method of the navigator that not every browser has.
fn method(of: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(of, &name.into()).ok()?.dyn_into().ok()
}

fn vibrate(times: u32) {
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else { return };
    // A click that a program makes is no tap, and the browser complains of a page that shakes without one.
    let tapped = Reflect::get(&navigator, &"userActivation".into())
        .and_then(|activation| Reflect::get(&activation, &"hasBeenActive".into()));
    if tapped.is_ok_and(|tapped| tapped == JsValue::FALSE) {
        return;
    }
    let pattern: js_sys::Array = (0..times).flat_map(|_| [300, 100]).map(JsValue::from).collect();
    if let Some(vibrate) = method(&navigator, "vibrate") {
        let _ = vibrate.call1(&navigator, &pattern);
    }
}

/// Asks that the screen stays on; a phone that does not know how, or will not, goes dark as ever.
pub fn stay_awake() {
    let seen = dom::document().is_some_and(|document| document.visibility_state() == VisibilityState::Visible);
    let Some(window) = web_sys::window().filter(|_| seen) else { return };
    let Ok(lock) = Reflect::get(&window.navigator(), &"wakeLock".into()) else { return };
    if lock.is_undefined() || lock.is_null() {
        return;
    }
    let asked = method(&lock, "request").and_then(|request| request.call1(&lock, &"screen".into()).ok());
    if let Some(promise) = asked.and_then(|asked| asked.dyn_into::<Promise>().ok()) {
        spawn_local(async move {
            let _ = JsFuture::from(promise).await;
        });
    }
}
