//! Text for other programs to paste.

use leptos::prelude::window;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

/// Puts a text where other programs paste from.
///
/// # Errors
/// What the browser says when it refuses, or has no such place: then the text
/// must be there to be copied by hand.
pub async fn copy(text: &str) -> Result<(), JsValue> {
    let navigator = window().navigator();
    // Absent where the page came without TLS.
    let place = js_sys::Reflect::get(&navigator, &JsValue::from_str("clipboard"))?;
    if place.is_undefined() {
        return Err(JsValue::NULL);
    }
    JsFuture::from(navigator.clipboard().write_text(text)).await?;
    Ok(())
}
