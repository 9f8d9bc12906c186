//! What can be taken to other programs: all sets as a sheet, coming sessions
//! for a calendar. Copies: nothing in them comes back by itself.

use crate::effects::{clock, file};
use crate::markup::{Tag, button, link, tag};
use crate::route::{KitPage, Route};
use crate::screens::{card, soft_small};
use crate::state::App;
use crate::text::{terms, words};
use weekloom_engine::catalogue::Measure;
use weekloom_engine::schedule::State;
use weekloom_store::diary::{self, Entry};
use weekloom_store::sheet;

/// Days of the calendar file: what is planned beyond may well change.
const DAYS: u16 = 28;

/// The files for other programs.
pub(super) fn take_along() -> Tag {
    let app = App::here();
    card(words::TAKE_ALONG)
        .with(tag("p", "").with(words::TAKE_ALONG_MORE))
        .with(button(
            "button button--wide",
            words::SETS_AS_SHEET,
            move || save_sets(app),
        ))
        .with(button(
            "button button--wide",
            words::SESSIONS_AS_CALENDAR,
            move || save_sessions(app),
        ))
        .with(soft_small(words::CALENDAR_MORE))
        .with(link(
            "button button--wide",
            Route::Kit(KitPage::Spreadsheet).hash(),
            words::SPREADSHEET,
        ))
}

fn save_sets(app: App) {
    let name_of = |id: &_| app.name_of(id).into_owned();
    let all = app.ask(|store| sheet::all_sets(store, app.catalogue(), &name_of, app.unit_now()));
    if !all.left_out.is_empty() {
        // What cannot be read is offered as it is, further down the page.
        app.check_all();
    }
    if all.sets == 0 {
        app.tell(words::NO_SETS_YET);
        return;
    }
    let name = format!("weekloom-sets-{}.csv", app.today.get_untracked());
    hand_over(app, name, "text/csv;charset=utf-8", &all.text);
}

fn save_sessions(app: App) {
    let today = app.today.get_untracked();
    let mut entries = Vec::new();
    for coming in app.coming(today, DAYS) {
        if !matches!(coming.state, State::Due | State::Coming) {
            continue;
        }
        let planned = coming
            .plan_day
            .and_then(|plan_day| app.planned(plan_day, coming.day));
        let Some(planned) = planned else {
            continue;
        };
        let lines = planned.items.iter().map(|item| {
            let p = &item.prescription;
            let exercise = app.exercise(&p.exercise);
            let is_timed = exercise.is_some_and(|e| e.measure == Measure::Seconds);
            let sets = words::sets_by_reps(p.sets, p.reps.0, p.reps.1, is_timed);
            format!("{sets} {}", app.name_of(&p.exercise))
        });
        entries.push(Entry {
            day: coming.day,
            begins: None,
            minutes: u16::try_from(planned.seconds.div_ceil(60)).unwrap_or(u16::MAX),
            title: terms::focus(planned.focus).to_owned(),
            lines: lines.collect(),
        });
    }
    if entries.is_empty() {
        app.tell(words::NO_SESSION_COMES);
        return;
    }
    let text = diary::write(&entries, clock::now());
    hand_over(
        app,
        format!("weekloom-sessions-{today}.ics"),
        "text/calendar;charset=utf-8",
        &text,
    );
}

fn hand_over(app: App, name: String, mime: &str, text: &str) {
    match file::save(&name, mime, text) {
        Ok(()) => app.tell(name),
        Err(_) => app.tell(words::NOT_SAVED),
    }
}
