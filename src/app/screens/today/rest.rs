//! The rest band: counts down by the wall clock over what comes next.

use crate::effects::{notice, sound};
use crate::held::{Derived, effect, later};
use crate::markup::{Tag, View, button, live, tag, when};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, words};
use weekloom_engine::calendar::Moment;
use weekloom_engine::session::{Event, Phase, Session};
use weekloom_store::{Notice, Sound};

/// Seconds one tap adds or takes.
const STEP_S: i32 = 15;
/// A tone that comes later than this, in seconds, would only puzzle.
const TONE_S: i64 = 5;
/// The same of a notice. Browsers let a page that is long hidden look at the
/// clock once a minute only.
const NOTICE_S: i64 = 90;

/// The band; nothing when no rest runs.
pub fn rest_band() -> View {
    let app = App::here();
    let left = Derived::new(move || {
        let now = app.now.get();
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.remaining_s(now)))
    });
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

/// Says that a rest is over, wherever in the app the person is: by the tone,
/// and by a notice where that is wished for and another program is in front.
/// Once per rest, and only when the end is seen happening: a phone that wakes
/// an hour later has nothing to announce.
pub fn announce() {
    let app = App::here();
    let mut announced = None;
    let mut was_running = false;
    let mut is_noticed = false;
    effect(move || {
        let now = app.now.get();
        let left = app
            .session
            .with(|s| s.as_ref().map_or(0, |s| s.remaining_s(now)));
        let rest = rest(app);
        if is_noticed && (rest.is_none() || left > 0 || notice::is_seen()) {
            is_noticed = false;
            later(notice::take_away());
        }
        let Some((since, until)) = rest else {
            was_running = false;
            return;
        };
        if left > 0 {
            was_running = true;
            return;
        }
        if !was_running || announced == Some(since) {
            return;
        }
        announced = Some(since);
        was_running = false;
        let seconds_late = now.seconds_since(until);
        let (has_tone, has_notice) = app.settings.with_untracked(|settings| {
            (settings.sound == Sound::On, settings.notice == Notice::On)
        });
        if has_tone && seconds_late < TONE_S {
            sound::rest_is_over();
        }
        if has_notice && seconds_late < NOTICE_S && !notice::is_seen() {
            is_noticed = true;
            let next = app.session.with_untracked(|session| {
                let session = session.as_ref()?;
                let item = session.items.get(session.current?)?;
                Some(app.name_of(&item.prescription.exercise))
            });
            later(notice::rest_is_over(
                tr(words::REST_OVER).to_owned(),
                next.unwrap_or_default().into_owned(),
                !has_tone,
            ));
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
