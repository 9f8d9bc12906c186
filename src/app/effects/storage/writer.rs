//! One window writes, by a Web Lock; the others read.
//!
//! Two windows that both write would overwrite each other's index and running
//! session.

use super::once::Once;
use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{LockManager, LockOptions};
use weekloom_store::Space;

/// The right to write, until it is dropped or the page goes.
pub(super) struct Writer {
    /// Settles the promise on which the lock is held.
    release: Option<Function>,
}

impl Drop for Writer {
    fn drop(&mut self) {
        if let Some(release) = &self.release {
            let _ = release.call0(&JsValue::UNDEFINED);
        }
    }
}

/// The right to write, unless another window has it. Where the browser has no
/// locks every window gets it.
pub(super) async fn elect(space: Space) -> Option<Writer> {
    let Some(locks) = lock_manager() else {
        return Some(Writer { release: None });
    };
    let answer = Once::new();
    let options = LockOptions::new();
    options.set_if_available(true);
    let told = answer.clone();
    let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if lock.is_null() || lock.is_undefined() {
            told.give(None);
            return Promise::resolve(&JsValue::UNDEFINED).into();
        }
        let mut release = None;
        let held = Promise::new(&mut |resolve, _| release = Some(resolve));
        told.give(Some(Writer { release }));
        held.into()
    });
    let asked = locks.request_with_options(&lock_name(space), &options, granted.unchecked_ref());
    // The request fails in pages that may not use storage at all: then there
    // is nothing to guard.
    let refused = answer.clone();
    let on_refusal = Closure::once_into_js(move |_: JsValue| {
        refused.give(Some(Writer { release: None }));
    });
    let _ = Reflect::get(&asked, &JsValue::from_str("catch")).map(|catch| {
        catch
            .unchecked_into::<Function>()
            .call1(&asked, &on_refusal)
    });
    answer.await
}

/// Waits until no other window of the app writes, then loads the app anew:
/// what this one has read is old by then. Call it once in
/// [`super::Mode::Follower`].
pub fn reload_when_free(space: Space) {
    let Some(locks) = lock_manager() else {
        return;
    };
    let granted = Closure::once_into_js(move |_: JsValue| -> JsValue {
        if let Some(window) = web_sys::window() {
            let _ = window.location().reload();
        }
        // Held until the page has gone, so that nobody else reloads as well.
        Promise::new(&mut |_, _| {}).into()
    });
    let _ = locks.request(&lock_name(space), granted.unchecked_ref());
}

/// Calls this whenever another window has changed what is kept in this browser.
/// Call it once, in [`super::Mode::Follower`]: a window that writes is told of
/// nothing.
pub fn on_change(tell: impl Fn() + 'static) {
    let Some(window) = web_sys::window() else {
        return;
    };
    let told = Closure::<dyn FnMut()>::new(tell);
    let _ = window.add_event_listener_with_callback("storage", told.as_ref().unchecked_ref());
    // The app lives as long as the page: the listener is never taken off.
    told.forget();
}

fn lock_name(space: Space) -> String {
    format!("{}writer", space.prefix())
}

fn lock_manager() -> Option<LockManager> {
    let navigator = web_sys::window()?.navigator();
    // Missing in browsers before 2022 and in pages without a secure origin.
    let locks = Reflect::get(&navigator, &JsValue::from_str("locks")).ok()?;
    locks.dyn_into().ok()
}
