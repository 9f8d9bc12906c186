//! The rest band: counts down by the wall clock over what comes next.

use crate::effects::sound;
use crate::held::{Derived, effect};
use crate::markup::{Tag, View, button, live, tag, when};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, words};
use weekloom_engine::calendar::Moment;
use weekloom_engine::session::{Event, Phase, Session};
use weekloom_store::Sound;

/// Seconds one tap adds or takes.
const STEP_S: i32 = 15;

/// The band; nothing when no rest runs.
pub fn rest_band() -> View {
    let app = App::here();
    let left = Derived::new(move || {
        let now = app.now.get();
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.remaining_s(now)))
    });
    announce(app, left);
    // A wall clock that is set while a rest runs must not stretch or freeze it.
    effect(move || {
        left.track();
        app.reclock();
    });
    when(move || rest(app).is_some(), move || band(app, left))
}

/// Begin and end of the rest that runs.
fn rest(app: App) -> Option<(Moment, Moment)> {
    app.session.with(|s| match s.as_ref()?.phase {
        Phase::Resting { since, until } => Some((since, until)),
        _ => None,
    })
}

/// The tone sounds once per rest, and only when the end is seen happening: a
/// phone that wakes an hour later has nothing to announce.
fn announce(app: App, left: Derived<u32>) {
    let mut announced = None;
    let mut was_running = false;
    effect(move || {
        let left = left.get();
        let Some((since, until)) = rest(app) else {
            was_running = false;
            return;
        };
        if left > 0 {
            was_running = true;
            return;
        }
        let seconds_late = app.now.get_untracked().seconds_since(until);
        if was_running && announced != Some(since) {
            announced = Some(since);
            was_running = false;
            let sound = app.settings.with_untracked(|settings| settings.sound);
            if seconds_late < 5 && sound == Sound::On {
                sound::rest_is_over();
            }
        }
    });
}

/// Permille of a rest that is over.
fn gone(rest: Option<(Moment, Moment)>, left: u32) -> i64 {
    rest.map_or(0, |(since, until)| {
        let whole = until.seconds_since(since).max(1);
        ((whole - i64::from(left)) * 1000 / whole).clamp(0, 1000)
    })
}

fn band(app: App, left: Derived<u32>) -> Tag {
    let act = move |event: &Event| {
        if let Err(words) = app.act(event) {
            app.tell(words);
        }
    };
    let woven = move || {
        let permille = gone(rest(app), left.get());
        format!("inline-size: {}.{}%", permille / 10, permille % 10).into()
    };
    let thread = tag("div", "rest__thread")
        .attr("aria-hidden", "true")
        .with(tag("div", "rest__woven").style(Box::new(woven)));
    let change = |sign: &str, name: &'static str, delta_s: i32| {
        let shown = format!("{sign}{STEP_S}");
        // Spoken by what is shown (WCAG 2.2, 2.5.3).
        let spoken = words::of(tr(name), &shown);
        button("rest__turn", shown, move || {
            act(&Event::ChangeRest { delta_s });
        })
        .attr("aria-label", spoken)
    };
    let word = live(move || {
        if left.get() == 0 {
            words::REST_OVER
        } else {
            words::REST
        }
    });
    let figure = tag("span", "figure")
        .attr("role", "timer")
        .with(live(move || dates::clock(left.get())));
    let time = tag("div", "rest__time")
        .with(tag("span", "rest__word").with(word))
        .with(figure);
    let skip = button("rest__turn rest__skip", words::SKIP_REST, move || {
        act(&Event::SkipRest);
    });
    let longer = live(move || {
        let seconds = app
            .session
            .with(|s| s.as_ref().map_or(0, Session::longer_rest_s));
        (seconds > 0).then(|| tag("p", "rest__longer").with(words::longer_rest(seconds)))
    });
    tag("section", "")
        .class_if(move || left.get() == 0, "rest rest--over", "rest")
        .attr("aria-label", words::REST)
        .with(thread)
        .with(change("\u{2212}", words::LESS_REST, -STEP_S))
        .with(time)
        .with(change("+", words::MORE_REST, STEP_S))
        .with(skip)
        .with(longer)
}
