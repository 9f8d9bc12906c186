//! The person's language and region, as the boot script found them. It packs
//! names of days and months, the signs and the words of the language into one
//! text, so that none of the browser's formats need bindings of their own.

use crate::text::language;
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};

fn hook(name: &str) -> Option<(JsValue, JsValue)> {
    let hook = js_sys::Reflect::get(&window(), &JsValue::from_str("weekloomLanguage")).ok()?;
    let part = js_sys::Reflect::get(&hook, &JsValue::from_str(name)).ok()?;
    Some((hook, part))
}

/// Waits for the words of the language and takes them up. Where they cannot be
/// had, the app speaks English.
pub async fn take_up() {
    let Some((_, pack)) = hook("pack") else {
        return;
    };
    let pack = wasm_bindgen_futures::JsFuture::from(js_sys::Promise::resolve(&pack)).await;
    if let Some(pack) = pack.ok().and_then(|pack| pack.as_string()) {
        language::speak(pack);
    }
}

/// Chooses a language on this device; the page is loaded anew, in it.
pub fn choose(tag: &str) {
    if let Some((hook, choose)) = hook("choose")
        && let Some(choose) = choose.dyn_ref::<js_sys::Function>()
    {
        let _ = choose.call1(&hook, &JsValue::from_str(tag));
    }
}
