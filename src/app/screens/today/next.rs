//! No session is running: the one that is due, or the rest day and what comes
//! after it.

use crate::markup::{Tag, View, button, live, nothing, tag};
use crate::parts::{line, line_more};
use crate::screens::{page, page_head, soft};
use crate::state::App;
use crate::text::{dates, terms, words};
use weekloom_engine::catalogue::Measure;
use weekloom_engine::plan::{PlanDay, PlanItem};
use weekloom_engine::schedule::{Coming, State};

/// What comes next.
pub fn next() -> View {
    let app = App::here();
    live(move || {
        // Due today, else the first that is still to come.
        let coming = app.coming(app.today.get(), 14);
        let is_next = |c: &Coming| matches!(c.state, State::Due | State::Coming);
        match coming.into_iter().find(is_next) {
            Some(coming) => what_comes(app, coming),
            None => page(page_head(words::TODAY)).into(),
        }
    })
}

fn is_done_today(app: App) -> bool {
    let today = app.today.get();
    app.index
        .with(|index| index.recent.iter().any(|line| line.day == today))
}

fn what_comes(app: App, coming: Coming) -> View {
    let planned = app.plan.with(|plan| {
        plan.as_ref()
            .and_then(|p| p.plan.days.get(usize::from(coming.plan_day?)).cloned())
    });
    let Some(planned) = planned else {
        return nothing();
    };
    let today = app.today.get();
    let is_due = coming.state == State::Due;
    let (title, more) = if is_due {
        let date = dates::date(today, today);
        (
            terms::focus(planned.focus),
            format!("{} {date}", dates::weekday(today.weekday())),
        )
    } else {
        let title = if is_done_today(app) {
            words::DONE_TODAY
        } else {
            words::REST_DAY
        };
        let when = dates::near(coming.day, today);
        (title, words::next_session(&when))
    };
    let (class, name) = if is_due {
        ("button button--wide button--main", words::START)
    } else {
        ("button button--wide", words::TRAIN_ANYWAY)
    };
    let plan_day = coming.plan_day.unwrap_or(0);
    let start = button(class, name, move || {
        crate::effects::sound::unlock();
        app.start_session(plan_day);
    });
    page(page_head(title).with(soft(more)))
        .with(outline(app, &planned, !is_due))
        .with(tag("div", "page__go").with(start))
        .into()
}

/// The exercises of a day in short, with the loads used last time.
fn outline(app: App, planned: &PlanDay, is_named: bool) -> Tag {
    let title = if is_named {
        terms::focus(planned.focus).to_owned()
    } else {
        words::exercises(planned.items.len())
    };
    let head = tag("div", "row row--apart")
        .with(tag("h2", "").with(title))
        .with(tag("span", "soft").with(dates::minutes(planned.seconds)));
    let mut lines = tag("ol", "lines");
    for item in &planned.items {
        lines = lines.with(outlined(app, item));
    }
    tag("section", "card").with(head).with(lines)
}

fn outlined(app: App, item: &PlanItem) -> Tag {
    let p = &item.prescription;
    let is_timed = app
        .exercise(&p.exercise)
        .is_some_and(|e| e.measure == Measure::Seconds);
    let last = app
        .last_in_words(&p.exercise)
        .map(|last| line_more(format!("{}: {last}", words::LAST_TIME)));
    let dose = words::sets_by_reps(p.sets, p.reps.0, p.reps.1, is_timed);
    line(app.name_of(&p.exercise), dose).with(last)
}
