//! The worker's side.

use super::{Reply, Request};
use crate::strength::ask::answer;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Answers every request that comes. What cannot be read is not answered; the page's patience ends by itself.
pub fn serve() {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else { return };
    let own = scope.clone();
    let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let Ok(Request { turn, question, effort }) = serde_wasm_bindgen::from_value(event.data()) else { return };
        let say = |answer, last| tell(&own, &Reply::Answer { turn, answer: Box::new(answer), last });
        say(answer(&question, effort, &mut |begun| say(begun, false)), true);
    });
    scope.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    // It listens as long as the worker lives.
    heard.forget();
    tell(&scope, &Reply::Ready);
}

fn tell(scope: &DedicatedWorkerGlobalScope, reply: &Reply) {
    let value = serde_wasm_bindgen::to_value(reply).unwrap_or(JsValue::UNDEFINED);
    // It fails for values that cannot be copied only, and these are plain.
    let _ = scope.post_message(&value);
}
