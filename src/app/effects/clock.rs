//! The wall clock and the calendar day of the person: the only place in the
//! app that reads them.

use crate::held::Held;
use leptos::prelude::{document, set_interval_with_handle, window};
use std::time::Duration;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use weekloom_engine::calendar::{Day, Moment};

/// Now, by the wall clock.
#[must_use]
#[expect(clippy::cast_possible_truncation, reason = "milliseconds fit an i64")]
pub fn now() -> Moment {
    Moment(js_sys::Date::now() as i64)
}

/// The day on the person's wall calendar at a moment.
#[must_use]
#[expect(clippy::cast_possible_wrap, reason = "years fit an i32")]
#[expect(clippy::cast_precision_loss, reason = "milliseconds fit an f64")]
pub fn day_of(moment: Moment) -> Day {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(moment.0 as f64));
    Day::from_ymd(
        date.get_full_year() as i32,
        date.get_month() + 1,
        date.get_date(),
    )
    .unwrap_or_default()
}

/// Hour and minute on the person's wall clock at a moment.
#[must_use]
#[expect(clippy::cast_precision_loss, reason = "milliseconds fit an f64")]
pub fn hour_and_minute(moment: Moment) -> (u32, u32) {
    let date = js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(moment.0 as f64));
    (date.get_hours(), date.get_minutes())
}

/// A signal of the present moment: ticks four times a second while the page is
/// seen, and at once when it is seen again. A hidden page's ticks are slowed
/// by the browser, so nothing may count them: compare moments.
#[must_use]
pub fn ticking() -> Held<Moment> {
    let moment = Held::new(now());
    let set = move || moment.set(now());
    let _ = set_interval_with_handle(set, Duration::from_millis(250));
    let seen = Closure::<dyn FnMut()>::new(set);
    let listener = seen.as_ref().unchecked_ref();
    // The app lives as long as the page: the listeners are never taken off.
    let _ = document().add_event_listener_with_callback("visibilitychange", listener);
    let _ = window().add_event_listener_with_callback("pageshow", listener);
    seen.forget();
    moment
}
