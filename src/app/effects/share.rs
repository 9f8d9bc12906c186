//! The platform's own sheet for handing something to another program, where
//! there is one. On some phones it is the only way a file leaves a web app that
//! lies on the home screen.

use js_sys::{Array, Reflect};
use leptos::prelude::window;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::{File, FilePropertyBag, ShareData};

/// What can be handed on.
pub enum Shared<'a> {
    /// A text as a file: name, kind and text.
    File(&'a str, &'a str, &'a str),
    /// An address.
    Link(&'a str),
}

impl Shared<'_> {
    fn data(&self) -> Result<ShareData, JsValue> {
        let data = ShareData::new();
        match self {
            Self::File(name, kind, text) => {
                let options = FilePropertyBag::new();
                options.set_type(kind);
                let bits = Array::of1(&JsValue::from_str(text));
                let file = File::new_with_str_sequence_and_options(&bits, name, &options)?;
                data.set_files(&Array::of1(&file));
            }
            Self::Link(address) => data.set_url(address),
        }
        Ok(data)
    }
}

/// How it ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// Another program took it.
    Taken,
    /// The person closed the sheet.
    Left,
    /// The platform refused.
    Refused,
}

/// Whether there is a sheet that takes this.
#[must_use]
pub fn is_offered(shared: &Shared<'_>) -> bool {
    let navigator = window().navigator();
    let has = |name: &str| Reflect::has(&navigator, &name.into()).unwrap_or(false);
    has("share")
        && has("canShare")
        && shared
            .data()
            .is_ok_and(|data| navigator.can_share_with_data(&data))
}

/// Opens the sheet. Call from a tap, and only where it is offered.
pub async fn share(shared: &Shared<'_>) -> Ended {
    let Ok(data) = shared.data() else {
        return Ended::Refused;
    };
    match JsFuture::from(window().navigator().share_with_data(&data)).await {
        Ok(_) => Ended::Taken,
        Err(cause) => {
            let name = Reflect::get(&cause, &"name".into()).ok();
            match name.and_then(|name| name.as_string()).as_deref() {
                Some("AbortError") => Ended::Left,
                _ => Ended::Refused,
            }
        }
    }
}
