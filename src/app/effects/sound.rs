//! A short tone when the rest is over. Browsers let a page sound only after a
//! tap, so [`unlock`] is called from taps.

use std::cell::RefCell;
use web_sys::{AudioContext, AudioContextState};

thread_local! {
    static CONTEXT: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
}

/// Makes the tone possible. Call from a tap; costs nothing when called again.
pub fn unlock() {
    CONTEXT.with_borrow_mut(|context| {
        if context.is_none() {
            *context = AudioContext::new().ok();
        }
        if let Some(context) = context
            && context.state() == AudioContextState::Suspended
        {
            let _ = context.resume();
        }
    });
}

/// Two short soft notes. Silent where the browser has not allowed sound.
pub fn rest_is_over() {
    CONTEXT.with_borrow(|context| {
        if let Some(context) = context {
            for (after, pitch) in [(0.0, 523.25), (0.22, 783.99)] {
                // A refused tone is no reason to disturb a session.
                let _ = note(context, after, pitch);
            }
        }
    });
    // A browser without a motor to drive may not know the word, and calling what
    // is not there would end the app.
    let navigator = leptos::prelude::window().navigator();
    if js_sys::Reflect::has(&navigator, &"vibrate".into()).unwrap_or(false) {
        let _ = navigator.vibrate_with_duration(200);
    }
}

fn note(context: &AudioContext, after: f64, pitch: f32) -> Result<(), wasm_bindgen::JsValue> {
    let start = context.current_time() + after;
    let tone = context.create_oscillator()?;
    let volume = context.create_gain()?;
    tone.frequency().set_value(pitch);
    volume.gain().set_value_at_time(0.0001, start)?;
    volume
        .gain()
        .exponential_ramp_to_value_at_time(0.35, start + 0.02)?;
    volume
        .gain()
        .exponential_ramp_to_value_at_time(0.0001, start + 0.2)?;
    tone.connect_with_audio_node(&volume)?;
    volume.connect_with_audio_node(&context.destination())?;
    tone.start_with_when(start)?;
    tone.stop_with_when(start + 0.22)
}
