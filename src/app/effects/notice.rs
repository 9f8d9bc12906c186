//! A notice of the platform that the rest is over, for when another program is
//! in front. The page has to live to give one: nothing can be set for later
//! without a server.

use js_sys::Reflect;
use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Notification, NotificationOptions, NotificationPermission, ServiceWorkerRegistration,
};

/// One notice at a time: a later one takes the place of an earlier.
const TAG: &str = "rest";

/// What the browser says to notices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leave {
    /// It was not asked, or put off the answer.
    Unasked,
    /// Notices may be shown.
    Given,
    /// The person or the browser said no, and asking again is of no use.
    Refused,
    /// There are no notices here: no such thing, or no worker to show them.
    Missing,
}

/// What the browser says now.
#[must_use]
pub fn leave() -> Leave {
    let window = leptos::prelude::window();
    let has = |of: &JsValue, name: &str| Reflect::has(of, &name.into()).unwrap_or(false);
    if !has(&window, "Notification") || !has(&window.navigator(), "serviceWorker") {
        return Leave::Missing;
    }
    read(Notification::permission())
}

fn read(permission: NotificationPermission) -> Leave {
    match permission {
        NotificationPermission::Granted => Leave::Given,
        NotificationPermission::Denied => Leave::Refused,
        _ => Leave::Unasked,
    }
}

/// Asks the person, by the browser's own words. Call from a tap.
pub async fn ask() -> Leave {
    if leave() == Leave::Unasked
        && let Ok(asked) = Notification::request_permission()
    {
        // Some browsers answer without asking; what counts is what they say then.
        let _ = JsFuture::from(asked).await;
    }
    leave()
}

/// Whether the page is before the person, so that a notice would say nothing new.
#[must_use]
pub fn is_seen() -> bool {
    !leptos::prelude::document().hidden()
}

/// Shows a notice if notices are allowed. `is_silent` asks the platform for no
/// sound of its own.
pub async fn rest_is_over(title: String, body: String, is_silent: bool) {
    if leave() != Leave::Given {
        return;
    }
    let Some(worker) = worker().await else {
        return;
    };
    let options = NotificationOptions::new();
    options.set_tag(TAG);
    options.set_body(&body);
    options.set_silent(Some(is_silent));
    options.set_icon("icons/icon-192.png");
    if let Ok(shown) = worker.show_notification_with_options(&title, &options) {
        // A refused notice is no reason to disturb a session.
        let _ = JsFuture::from(shown).await;
    }
}

/// Takes the notice away once it says nothing new.
pub async fn take_away() {
    if leave() != Leave::Given {
        return;
    }
    let Some(worker) = worker().await else {
        return;
    };
    // The app gives no others.
    let Ok(asked) = worker.get_notifications() else {
        return;
    };
    if let Ok(shown) = JsFuture::from(asked).await {
        for notice in js_sys::Array::from(&shown) {
            notice.unchecked_into::<Notification>().close();
        }
    }
}

/// The worker of this page; `None` where there is none, as in a private window.
async fn worker() -> Option<ServiceWorkerRegistration> {
    let workers = leptos::prelude::window().navigator().service_worker();
    let found = JsFuture::from(workers.get_registration()).await.ok()?;
    found.dyn_into::<ServiceWorkerRegistration>().ok()
}
