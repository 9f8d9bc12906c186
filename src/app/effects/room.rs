//! How much room the window has.

use leptos::prelude::window;
use wasm_bindgen::JsValue;

/// May there be room for a second pane? `style/panes.css` shows it only where the letters
/// leave room too.
#[must_use]
pub fn is_wide() -> bool {
    // Read by name: a binding of its own would weigh more than the rest of this.
    js_sys::Reflect::get(&window(), &JsValue::from_str("innerWidth"))
        .is_ok_and(|width| width.as_f64() >= Some(768.0))
}
