//! The running session: the rail, the set that is up, the rest band, and one
//! wide button.

use super::rail::rail;
use super::rest::rest_band;
use super::set::set_up;
use super::sheets::{beside, sheets};
use crate::effects::{room, screen_lock};
use crate::held::{Derived, effect, later};
use crate::markup::{Tag, View, button, link, live, live_by, tag, when};
use crate::route::{self, Route, TodaySheet};
use crate::state::{App, Saving};
use crate::text::language::tr;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::on_cleanup;
use weekloom_engine::session::{Event, Phase, Session};
use weekloom_store::{Hand, Screen};

/// What the middle of the screen shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Middle {
    /// The set of the item at this place, the so-many-th. The item's key is in it because
    /// another may come to the same place.
    Set(usize, u16, usize),
    /// Paused.
    Paused,
    /// All sets are done.
    AllDone,
}

fn middle(session: &Session) -> Middle {
    match (session.phase, session.current) {
        (Phase::Paused { .. }, _) => Middle::Paused,
        (_, Some(item)) => {
            let key = session.items.get(item).map_or(0, |item| item.key);
            Middle::Set(item, key, session.work_sets_done(item))
        }
        (_, None) => Middle::AllDone,
    }
}

fn title(app: App) -> &'static str {
    app.session.with(|session| {
        app.plan.with(|plan| {
            session
                .as_ref()
                .and_then(|s| s.plan_day)
                .and_then(|day| plan.as_ref()?.plan.days.get(usize::from(day)))
                .map_or(words::TODAY, |day| terms::focus(day.focus))
        })
    })
}

/// The session as it runs.
pub fn running() -> Vec<View> {
    let app = App::here();
    let shown = Derived::new(move || {
        app.session
            .with(|s| s.as_ref().map_or(Middle::AllDone, middle))
    });
    let minutes = Derived::new(move || {
        let now = app.now.get();
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.duration_s(now)) / 60)
    });
    let left = live(move || {
        app.session.with(|s| {
            let p = s.as_ref()?.progress();
            Some(words::sets_done(p.sets_done, p.sets_done + p.sets_left))
        })
    });
    // The screen stays lit while a session is on it, where that is wished for
    // and the browser allows it. A hidden page loses the lock: ask each minute.
    effect(move || {
        minutes.track();
        if app.settings.with(|settings| settings.screen) == Screen::StaysOn {
            later(screen_lock::keep_lit());
        }
    });
    on_cleanup(|| later(screen_lock::let_dim()));

    let lighter = live(move || {
        let is_deload = app
            .session
            .with(|s| s.as_ref().is_some_and(|s| s.is_deload));
        is_deload.then(|| {
            tag("strong", "")
                .with(words::LIGHTER_SESSION)
                .with(" \u{b7} ")
        })
    });
    let passed = live(move || format!("{} {}", minutes.get(), tr(words::MIN)));
    let head = tag("div", "")
        .with(tag("h1", "gym__title").with(live(move || title(app))))
        .with(
            tag("p", "soft small")
                .with(lighter)
                .with(left)
                .with(" \u{b7} ")
                .with(passed),
        );
    let ways = tag("div", "row")
        .with(link("button", Route::Week.hash(), words::WEEK))
        .with(to_sheet("button", words::MORE, TodaySheet::More));
    let middle = move || match shown.get() {
        Middle::Set(item, _, set) => set_up(item, set),
        Middle::Paused => paused(app),
        Middle::AllDone => all_done(app),
    };
    let is_left = move || app.settings.with(|settings| settings.hand) == Hand::Left;
    // Told anew with each tick: a tablet is turned.
    let is_wide = Derived::new(move || {
        app.now.track();
        room::is_wide()
    });
    let gym = tag("main", "")
        .class_if(is_left, "gym gym--left", "gym")
        .with(tag("header", "gym__head").with(head).with(ways))
        .with(rail())
        .with(tag("div", "gym__middle").with(live_by(shown, middle)))
        .with(when(move || is_wide.get(), beside));
    vec![gym.into(), sheets()]
}

/// A button that draws a sheet up.
pub fn to_sheet(class: &'static str, name: &'static str, sheet: TodaySheet) -> Tag {
    button(class, name, move || route::go(&Route::TodaySheet(sheet)))
}

/// A button for an event; a refusal is told in words.
pub fn act_button(app: App, class: &'static str, name: &'static str, event: Event) -> Tag {
    button(class, name, move || {
        if let Err(words) = app.act(&event) {
            app.tell(words);
        }
    })
}

fn last_set(app: App) -> Option<String> {
    app.session.with(|s| {
        let s = s.as_ref()?;
        let (item, set) = s.last_set()?;
        let item = s.items.get(item)?;
        let entry = item.sets.get(set)?;
        let exercise = app.exercise(&item.prescription.exercise);
        Some(reasons::set_in_words(entry, exercise, app.unit()))
    })
}

/// Below the set: the rest, the word on the last set, its undo, and the main
/// button.
pub fn foot(app: App, main: Tag) -> View {
    let undo = move || match app.act(&Event::UndoLast) {
        Ok(()) => app.tell(words::UNDONE),
        Err(words) => app.tell(words),
    };
    let word = live(move || {
        let set = last_set(app)?;
        let saved = app.saving.with(|saving| match saving {
            Saving::Saved => words::SAVED,
            Saving::Underway => words::SAVING,
            Saving::Failed(_) | Saving::Refused(_) => words::NOT_SAVED,
        });
        let saved = tag("span", "last-set__saved")
            .attr("role", "status")
            .with(saved);
        let line = tag("span", "").with(set).with(" \u{b7} ").with(saved);
        let undo = button("button button--plain", words::UNDO, undo);
        Some(tag("div", "last-set").with(line).with(undo))
    });
    tag("footer", "gym__foot")
        .with(rest_band())
        .with(word)
        .with(main)
        .into()
}

/// The one wide button.
pub const MAIN: &str = "button button--main button--wide";

fn paused(app: App) -> View {
    let section = tag("section", "set").with(tag("h2", "").with(words::PAUSED));
    let resume = act_button(app, MAIN, words::RESUME, Event::Resume);
    vec![section.into(), foot(app, resume)].into()
}

fn all_done(app: App) -> View {
    let length = live(move || {
        app.session.with(|s| {
            s.as_ref()
                .map(|s| dates::minutes(s.duration_s(app.now.get())))
        })
    });
    let section = tag("section", "set")
        .with(tag("h2", "").with(words::ALL_DONE))
        .with(tag("p", "soft").with(length))
        .with(to_sheet("button", words::WHOLE_SESSION, TodaySheet::Whole));
    let finish = act_button(app, MAIN, words::FINISH, Event::Finish);
    vec![section.into(), foot(app, finish)].into()
}
