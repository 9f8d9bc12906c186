//! Files out of the app and into it.

use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Hands the person a text as a file to keep.
///
/// # Errors
/// What the browser says when it refuses.
pub fn save(name: &str, mime: &str, text: &str) -> Result<(), JsValue> {
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(mime);
    let blob = web_sys::Blob::new_with_str_sequence_and_options(
        &js_sys::Array::of1(&JsValue::from_str(text)),
        &options,
    )?;
    let url = web_sys::Url::create_object_url_with_blob(&blob)?;
    let document = leptos::prelude::document();
    let link: web_sys::HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    // Some browsers follow only a link that is in the page.
    document.body().ok_or(JsValue::NULL)?.append_child(&link)?;
    link.click();
    link.remove();
    // The download has its own hold on the data by the next turn.
    leptos::prelude::set_timeout(
        move || {
            let _ = web_sys::Url::revoke_object_url(&url);
        },
        std::time::Duration::from_secs(10),
    );
    Ok(())
}

/// Size and text of a chosen file.
///
/// # Errors
/// What the browser says when it cannot read it.
pub async fn read(file: &web_sys::File) -> Result<String, JsValue> {
    let text = JsFuture::from(file.text()).await?;
    text.as_string().ok_or(JsValue::NULL)
}
