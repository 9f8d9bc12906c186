//! Own data or the demonstration: a choice of this window, until it closes.

use weekloom_store::{CHOSEN_SPACE as KEY, Space};

const DEMO: &str = "demo";

/// The space chosen for this window; one's own unless the demonstration was
/// asked for.
#[must_use]
pub fn chosen_space() -> Space {
    let chosen = session_storage().and_then(|storage| storage.get_item(KEY).ok().flatten());
    match chosen.as_deref() {
        Some(DEMO) => Space::Demo,
        _ => Space::Own,
    }
}

/// Chooses a space for this window and loads the app anew. Where session
/// storage is denied nothing happens: such a browser keeps no demonstration.
pub fn choose_space(space: Space) {
    let Some(storage) = session_storage() else {
        return;
    };
    let done = match space {
        Space::Own => storage.remove_item(KEY),
        Space::Demo => storage.set_item(KEY, DEMO),
    };
    if done.is_ok()
        && let Some(window) = web_sys::window()
    {
        let _ = window.location().reload();
    }
}

/// Storage of this window only, where the browser allows it.
pub fn session_storage() -> Option<web_sys::Storage> {
    web_sys::window()?.session_storage().ok().flatten()
}
