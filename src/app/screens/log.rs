//! Past sessions, newest first, and what was done in one.

use super::{page, page_head, soft_live};
use crate::markup::{Tag, View, either, live, tag};
use crate::parts::{line, line_link, line_more};
use crate::route::Route;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, reasons, terms, words};
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
        let lines = live(move || {
            let line = |line: &SessionLine| session_line(app, line).into();
            app.index
                .with(|index| index.recent.iter().rev().map(line).collect::<Vec<View>>())
        });
        let more =
            super::next_block::in_short(app).unwrap_or_else(|| tr(words::REVIEW_LINK).into());
        let review = line_link(Route::Review.hash(), words::REVIEW, more);
        vec![
            tag("ul", "card lines").with(review).into(),
            tag("ul", "card lines").with(lines).into(),
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
