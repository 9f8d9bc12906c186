//! No session is running: the one that is due, or the rest day and what comes
//! after it.

use crate::held::Held;
use crate::markup::{Tag, View, button, link, live, nothing, tag};
use crate::parts::{line, line_more};
use crate::route::Route;
use crate::screens::{card, numbers_link, page, page_head, soft, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{course, dates, reasons, terms, words};
use leptos::prelude::set_timeout;
use std::time::Duration;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::Measure;
use weekloom_engine::plan::{PlanDay, PlanItem};
use weekloom_engine::progress::{DeloadAnswer, DeloadReason};
use weekloom_engine::schedule::{Coming, State};

/// What comes next.
pub fn next() -> View {
    let app = App::here();
    // After the screen stands: it may read the sessions of some weeks.
    let advice = Held::new(None);
    let ended = Held::new(None);
    let look = move || {
        advice.set(app.deload_advice());
        ended.set(app.ended_block());
    };
    set_timeout(look, Duration::ZERO);
    live(move || {
        // Due today, else the first that is still to come.
        let coming = app.coming(app.today.get(), 14);
        let is_next = |c: &Coming| matches!(c.state, State::Due | State::Coming);
        match coming.into_iter().find(is_next) {
            Some(coming) => what_comes(app, coming, advice, ended),
            None => paused(app),
        }
    })
}

/// Nothing comes within two weeks: a pause, and its end.
fn paused(app: App) -> View {
    let today = app.today.get();
    let pause = app
        .plan
        .with(|p| p.as_ref().and_then(|p| p.repairs.pause_on(today)));
    let said = pause.map(|pause| soft(course::paused(pause.resume, today)));
    let end = pause.map(|_| link("button button--wide", Route::Away.hash(), words::AWAY));
    page(page_head(words::TODAY).with(said)).with(end).into()
}

fn is_done_today(app: App) -> bool {
    let today = app.today.get();
    app.index
        .with(|index| index.recent.iter().any(|line| line.day == today))
}

fn what_comes(
    app: App,
    coming: Coming,
    advice: Held<Option<DeloadReason>>,
    ended: Held<Option<String>>,
) -> View {
    let today = app.today.get();
    let on = coming.day;
    let planned = coming.plan_day.and_then(|day| app.planned(day, on));
    let Some(planned) = planned.map(|day| app.as_today(&day)) else {
        return nothing();
    };
    let is_due = coming.state == State::Due;
    let (title, more) = if is_due {
        (terms::focus(planned.focus), dates::full(today, today))
    } else {
        let title = if is_done_today(app) {
            tr(words::DONE_TODAY)
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
        .with(live(move || {
            lighter_week(app, advice).or_else(|| ended.get().map(block_ended))
        }))
        .with(outline(app, &planned, !is_due))
        .with(tag("div", "page__go").with(start))
        .into()
}

/// The lighter week under way, or the proposal of one.
fn lighter_week(app: App, advice: Held<Option<DeloadReason>>) -> Option<Tag> {
    let today = app.today.get();
    if let Some(last) = app.lighter_until() {
        let end = move || app.answer_deload(DeloadAnswer::Declined(today));
        let until = words::lighter_until(&dates::near(last, today));
        return Some(
            card(until)
                .with(soft_small(words::LIGHTER_NOW))
                .with(button("button", words::LIGHTER_END, end)),
        );
    }
    let reason = advice.get()?;
    let answer = move |answer: fn(Day) -> DeloadAnswer| {
        move || {
            advice.set(None);
            app.answer_deload(answer(today));
        }
    };
    let take = button("button", words::LIGHTER_TAKE, answer(DeloadAnswer::Taken));
    let decline = button(
        "button",
        words::LIGHTER_NOT_NOW,
        answer(DeloadAnswer::Declined),
    );
    let why = reasons::deload(&reason, |id| app.name_of(id));
    Some(
        card(words::LIGHTER)
            .with(tag("p", "").with(why))
            .with(soft_small(words::LIGHTER_MORE))
            .with(numbers_link())
            .with(tag("div", "row row--halves").with(take).with(decline)),
    )
}

/// A block that is over, and the way to what it showed and to the next.
fn block_ended(ended: String) -> Tag {
    let review = link("button button--wide", Route::Review.hash(), words::REVIEW);
    card(ended)
        .with(soft_small(words::BLOCK_ENDED_MORE))
        .with(review)
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
        .map(|last| line_more(format!("{}: {last}", tr(words::LAST_TIME))));
    let dose = words::sets_by_reps(p.sets, p.reps.0, p.reps.1, is_timed);
    line(app.name_of(&p.exercise), dose).with(last)
}
