//! Past sessions, newest first, and what was done in one.

use super::history;
use super::{page, page_head, soft_live};
use crate::held::Held;
use crate::markup::{Tag, View, either, live, tag};
use crate::parts::{labelled, line, line_link, line_more, typing_replaces};
use crate::route::Route;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::{event_target_value, set_timeout};
use std::time::Duration;
use weekloom_engine::session::Session;
use weekloom_store::SessionLine;

/// Past sessions.
pub fn sessions() -> View {
    let app = App::here();
    app.refresh_index();
    let totals = soft_live(move || {
        app.index.with(|i| {
            (i.sessions > 0).then(|| words::totals(i.sessions as usize, i.work_sets as usize))
        })
    });
    let lines = move || {
        let query = Held::new(String::new());
        let latest = move || {
            let line = move |line: &SessionLine| session_line(app, line).into();
            let lines = live(move || {
                app.index
                    .with(|index| index.recent.iter().rev().map(line).collect::<Vec<View>>())
            });
            tag("ul", "card lines").with(lines).into()
        };
        let is_searching = move || query.with(|query| !query.is_empty());
        let found = move || live(move || history::found(app, &query.get()));
        let more =
            super::next_block::in_short(app).unwrap_or_else(|| tr(words::REVIEW_LINK).into());
        let to = |place: &Route, name, more| line_link(place.hash(), tr(name), tr(more));
        let review = line_link(Route::Review.hash(), words::REVIEW, more);
        vec![
            tag("ul", "card lines")
                .with(review)
                .with(to(
                    &Route::Exercises,
                    words::BY_EXERCISE,
                    words::BY_EXERCISE_LINK,
                ))
                .with(to(&Route::Muscles, words::BY_MUSCLE, words::BY_MUSCLE_LINK))
                .with(to(
                    &Route::Weight,
                    words::BODY_WEIGHT,
                    words::BODY_WEIGHT_LINK,
                ))
                .with(history::year_link(app))
                .into(),
            search(query).into(),
            either(is_searching, found, latest),
        ]
        .into()
    };
    let listed = either(
        move || app.index.with(|i| !i.recent.is_empty()),
        lines,
        || tag("p", "").with(words::LOG_EMPTY).into(),
    );
    page(page_head(words::LOG).with(totals)).with(listed).into()
}

/// How long typing rests before the log is searched.
const PAUSE: Duration = Duration::from_millis(250);

/// The word that is looked for.
fn search(query: Held<String>) -> Tag {
    let typed = Held::new(String::new());
    let input = tag("input", "input")
        .attr("type", "search")
        .attr("enterkeyhint", "search")
        .attr("autocomplete", "off")
        .on("input", move |event| {
            let text = event_target_value(&event).trim().to_owned();
            typed.set(text.clone());
            // All sessions are read: once the thumbs rest, not at every letter.
            set_timeout(
                move || {
                    if typed.with_untracked(|now| *now == text) {
                        query.set(text);
                    }
                },
                PAUSE,
            );
        });
    labelled("log-search", words::SEARCH_LOG, typing_replaces(input))
}

fn session_line(app: App, line: &SessionLine) -> Tag {
    let focus = app.plan.with_untracked(|plan| {
        let days = &plan.as_ref()?.plan.days;
        let planned = days.get(usize::from(line.plan_day?))?;
        Some(terms::focus(planned.focus))
    });
    let today = app.today.get_untracked();
    let name = dates::full_short(line.day, today);
    let more = format!(
        "{} \u{b7} {} \u{b7} {}",
        focus.unwrap_or_default(),
        words::sets(line.work_sets as usize),
        dates::minutes(line.seconds)
    );
    line_link(Route::LogSession(line.id.clone()).hash(), name, more)
}

/// What was done in a session, exercise by exercise, each in one line of
/// words.
pub fn session_account(app: App, session: &Session) -> Tag {
    let mut list = tag("ul", "card lines");
    for item in session
        .items
        .iter()
        .filter(|item| item.work_sets_done() > 0)
    {
        let id = &item.prescription.exercise;
        let exercise = app.exercise(id);
        let sets = reasons::sets_in_words(&item.sets, exercise, app.unit_now());
        let hurt = item.discomfort.map(|d| line_more(reasons::discomfort(d)));
        let note = (!item.note.is_empty()).then(|| line_more(item.note.clone()));
        list = list.with(line(app.name_of(id), sets).with(hurt).with(note));
    }
    list
}
