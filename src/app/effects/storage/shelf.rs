//! Local storage as a shelf.
//!
//! Where storage is denied, merely touching it may throw, and gloo then ends
//! the program: so it is probed through web-sys first.

use gloo_storage::{LocalStorage, Storage as _};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DomException, Storage};
use weekloom_store::{Shelf, ShelfError};

/// Local storage that was found to work.
pub(super) struct LocalShelf(Storage);

impl LocalShelf {
    /// Local storage, if this page may use it.
    pub(super) fn probe() -> Result<Self, ShelfError> {
        let window = web_sys::window().ok_or(ShelfError::Denied)?;
        let storage = window
            .local_storage()
            .map_err(|error| refusal(&error))?
            .ok_or(ShelfError::Denied)?;
        // Some browsers hand it out and then refuse to look into it.
        storage.length().map_err(|error| refusal(&error))?;
        Ok(Self(LocalStorage::raw()))
    }
}

impl Shelf for LocalShelf {
    fn get(&self, key: &str) -> Option<String> {
        self.0.get_item(key).ok().flatten()
    }

    fn set(&mut self, key: &str, value: &str) -> Result<(), ShelfError> {
        self.0.set_item(key, value).map_err(|error| refusal(&error))
    }

    fn remove(&mut self, key: &str) -> Result<(), ShelfError> {
        self.0.remove_item(key).map_err(|error| refusal(&error))
    }

    fn keys(&self) -> Vec<String> {
        let length = self.0.length().unwrap_or(0);
        (0..length)
            .filter_map(|index| self.0.key(index).ok().flatten())
            .collect()
    }
}

fn refusal(error: &JsValue) -> ShelfError {
    match error.dyn_ref::<DomException>() {
        Some(exception) => match exception.name().as_str() {
            // The second is Firefox's older name for it.
            "QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED" => ShelfError::Full,
            "SecurityError" => ShelfError::Denied,
            name => ShelfError::Broken(format!("{name}: {}", exception.message())),
        },
        None => ShelfError::Broken(format!("{error:?}")),
    }
}
