//! The rest band: counts down by the wall clock over what comes next.

use crate::effects::sound;
use crate::state::App;
use crate::text::{dates, words};
use leptos::prelude::*;
use weekloom_engine::session::{Event, Phase};
use weekloom_store::Sound;

/// Seconds one tap adds or takes.
const STEP_S: i32 = 15;

/// The band; nothing when no rest runs.
#[component]
pub fn RestBand() -> impl IntoView {
    let app = App::here();
    let rest = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref().and_then(|s| match s.phase {
                Phase::Resting { since, until } => Some((since, until)),
                _ => None,
            })
        })
    });
    let left = Memo::new(move |_| {
        let now = app.now.get();
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.remaining_s(now)))
    });
    // The tone sounds once per rest, and only when the end is seen happening:
    // a phone that wakes an hour later has nothing to announce.
    let announced = StoredValue::new(None);
    let was_running = StoredValue::new(false);
    Effect::new(move |_| {
        let left = left.get();
        let Some((since, until)) = rest.get() else {
            was_running.set_value(false);
            return;
        };
        if left > 0 {
            was_running.set_value(true);
            return;
        }
        let seconds_late = app.now.get_untracked().seconds_since(until);
        if was_running.get_value() && announced.get_value() != Some(since) {
            announced.set_value(Some(since));
            was_running.set_value(false);
            if seconds_late < 5 && app.settings.get_untracked().sound == Sound::On {
                sound::rest_is_over();
            }
        }
    });
    // A wall clock that is set while a rest runs must not stretch or freeze it.
    Effect::new(move |_| {
        left.track();
        app.reclock();
    });
    let act = move |event: &Event| {
        if let Err(words) = app.act(event) {
            app.tell(words);
        }
    };
    let woven = move || {
        rest.get().map_or(0.0, |(since, until)| {
            let whole = until.seconds_since(since).max(1);
            let gone = whole - i64::from(left.get());
            #[expect(clippy::cast_precision_loss, reason = "seconds of one rest")]
            let share = gone as f64 / whole as f64;
            share.clamp(0.0, 1.0)
        })
    };
    view! {
        <Show when=move || rest.get().is_some()>
            <section class="rest" class:rest--over=move || left.get() == 0 aria-label=words::REST>
                <div class="rest__thread" aria-hidden="true">
                    <div class="rest__woven" style:inline-size=move || format!("{:.1}%", woven() * 100.0)></div>
                </div>
                <button
                    type="button"
                    class="rest__turn"
                    aria-label=format!("{}: \u{2212}{STEP_S}", words::LESS_REST)
                    on:click=move |_| act(&Event::ChangeRest { delta_s: -STEP_S })
                >
                    {format!("\u{2212}{STEP_S}")}
                </button>
                <div class="rest__time">
                    <span class="rest__word">
                        {move || if left.get() == 0 { words::REST_OVER } else { words::REST }}
                    </span>
                    <span class="figure" role="timer">{move || dates::clock(left.get())}</span>
                </div>
                <button
                    type="button"
                    class="rest__turn"
                    aria-label=format!("{}: +{STEP_S}", words::MORE_REST)
                    on:click=move |_| act(&Event::ChangeRest { delta_s: STEP_S })
                >
                    {format!("+{STEP_S}")}
                </button>
                <button
                    type="button"
                    class="rest__turn rest__skip"
                    on:click=move |_| act(&Event::SkipRest)
                >
                    {words::SKIP_REST}
                </button>
            </section>
        </Show>
    }
}
