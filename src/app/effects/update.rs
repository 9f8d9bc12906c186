//! A new version of the app: told by the boot script, switched to only when
//! the person says so.

use crate::held::Held;
use leptos::prelude::window;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

fn hook() -> Option<JsValue> {
    js_sys::Reflect::get(&window(), &JsValue::from_str("weekloomUpdate"))
        .ok()
        .filter(|hook| hook.is_object())
}

/// A signal that is true once a new version waits.
#[must_use]
pub fn waiting() -> Held<bool> {
    let is_waiting = hook()
        .and_then(|hook| js_sys::Reflect::get(&hook, &JsValue::from_str("isWaiting")).ok())
        .is_some_and(|flag| flag.is_truthy());
    let signal = Held::new(is_waiting);
    let told = Closure::<dyn FnMut()>::new(move || signal.set(true));
    let _ =
        window().add_event_listener_with_callback("weekloom-update", told.as_ref().unchecked_ref());
    told.forget();
    signal
}

/// Switches to the waiting version; the page reloads by itself.
pub fn apply() {
    let apply = hook()
        .and_then(|hook| {
            js_sys::Reflect::get(&hook, &JsValue::from_str("apply"))
                .ok()
                .map(|apply| (hook, apply))
        })
        .and_then(|(hook, apply)| {
            apply
                .dyn_into::<js_sys::Function>()
                .ok()
                .map(|apply| (hook, apply))
        });
    if let Some((hook, apply)) = apply {
        let _ = apply.call0(&hook);
    }
}
