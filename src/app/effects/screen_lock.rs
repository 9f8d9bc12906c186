//! Keeps the screen lit during a session, where the browser allows it. A
//! hidden page loses the lock, so it is asked for again when seen.

use std::cell::RefCell;
use wasm_bindgen_futures::JsFuture;
use web_sys::{WakeLockSentinel, WakeLockType};

thread_local! {
    static LOCK: RefCell<Option<WakeLockSentinel>> = const { RefCell::new(None) };
}

fn is_held() -> bool {
    LOCK.with_borrow(|lock| lock.as_ref().is_some_and(|lock| !lock.released()))
}

/// Asks for the lock; nothing happens where there is none to be had.
pub async fn keep_lit() {
    let navigator = leptos::prelude::window().navigator();
    let has_locks = js_sys::Reflect::has(&navigator, &"wakeLock".into()).unwrap_or(false);
    if !has_locks || is_held() {
        return;
    }
    let asked = navigator.wake_lock().request(WakeLockType::Screen);
    if let Ok(lock) = JsFuture::from(asked).await {
        LOCK.with_borrow_mut(|held| *held = Some(lock));
    }
}

/// Gives the lock back.
pub async fn let_dim() {
    let lock = LOCK.with_borrow_mut(Option::take);
    if let Some(lock) = lock {
        let _ = JsFuture::from(lock.release()).await;
    }
}
