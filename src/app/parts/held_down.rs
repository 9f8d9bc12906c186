//! A button that goes on while it is held down, for numbers that are far off.

use crate::markup::{Tag, button};
use leptos::leptos_dom::helpers::IntervalHandle;
use leptos::prelude::{event_target, set_interval_with_handle, set_timeout};
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use web_sys::{Element, Event};

/// Between two steps: slow enough to let go at the number wanted.
const STEP: Duration = Duration::from_millis(140);
/// Steps not taken at first, so that a slow tap is one tap.
const PATIENCE: u8 = 3;
/// Within this the browser reports the tap that the letting go makes.
const TAP_FOLLOWS: Duration = Duration::from_millis(300);

thread_local! {
    // There is one thumb.
    static GOING: Cell<Option<IntervalHandle>> = const { Cell::new(None) };
    static HAS_GONE: Cell<bool> = const { Cell::new(false) };
}

/// The button. A tap acts once, from keyboard and screen reader too.
pub fn held_down(class: &'static str, name: &'static str, act: Rc<dyn Fn()>) -> Tag {
    let again = Rc::clone(&act);
    let tapped = move || {
        if !HAS_GONE.take() {
            act();
        }
    };
    let mut held = button(class, name, tapped)
        .on("pointerdown", move |event| go_on(&event, Rc::clone(&again)))
        // Where a long press opens a menu it would end the press.
        .on("contextmenu", |event| event.prevent_default());
    for end in ["pointerup", "pointerleave", "pointercancel"] {
        held = held.on(end, |_| stop());
    }
    held
}

fn go_on(event: &Event, act: Rc<dyn Fn()>) {
    stop();
    HAS_GONE.set(false);
    let pressed = event_target::<Element>(event);
    let waited = Cell::new(0);
    let step = move || {
        if !pressed.is_connected() {
            stop();
        } else if waited.get() < PATIENCE {
            waited.set(waited.get() + 1);
        } else {
            HAS_GONE.set(true);
            act();
        }
    };
    GOING.set(set_interval_with_handle(step, STEP).ok());
}

fn stop() {
    if let Some(going) = GOING.take() {
        going.clear();
        set_timeout(|| HAS_GONE.set(false), TAP_FOLLOWS);
    }
}
