//! The coming days: what is due when, how long it takes, and the loom.

use super::{card, list, page, page_head, soft_small};
use crate::lifting::Lighter;
use crate::markup::{Tag, View, button, link, live, tag};
use crate::parts::loom_of;
use crate::route::Route;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{course, dates, terms, words};
use weekloom_engine::loom::loom;
use weekloom_engine::schedule::{Coming, State};

/// Days shown.
const SHOWN: u16 = 14;

/// This week and the next: done, due and to come.
pub fn week() -> View {
    let app = App::here();
    let threads = move || {
        app.plan.with(|plan| {
            plan.as_ref()
                .map(|p| loom(app.catalogue(), &p.plan, &p.weekdays))
                .unwrap_or_default()
        })
    };
    let days = live(move || {
        let mut days: Vec<View> = Vec::new();
        let all = app.coming(dates::week_start(app.today.get()), SHOWN);
        let last_done = all.iter().rposition(|c| c.state == State::Done);
        for (at, coming) in all.iter().enumerate() {
            // A missed session moves on by itself once another was done.
            let is_open = last_done.is_none_or(|last| at > last);
            days.push(coming_day(app, *coming, is_open).into());
        }
        days
    });
    let away = move || {
        let today = app.today.get();
        let repairs = app.plan.with(|p| p.as_ref().map(|p| p.repairs.clone()));
        let repairs = repairs.unwrap_or_default();
        let mut lines = Vec::new();
        if let Some(pause) = repairs.pause_on(today) {
            lines.push(course::paused(pause.resume, today));
        }
        if let Some(travel) = repairs.travel_on(today) {
            lines.push(course::away(travel.back, today));
        }
        (!lines.is_empty()).then(|| list(lines))
    };
    let cloth = card(words::LOOM)
        .with(loom_of(threads))
        .with(soft_small(words::LOOM_HELP));
    page(page_head(words::THIS_WEEK))
        .with(live(away))
        .with(tag("ol", "days").with(days))
        .with(link("button button--wide", Route::Away.hash(), words::AWAY))
        .with(cloth)
        .into()
}

fn coming_day(app: App, coming: Coming, is_open: bool) -> Tag {
    let Coming {
        day,
        plan_day,
        state,
    } = coming;
    let is_ahead = matches!(state, State::Due | State::Coming);
    let lighter = if is_ahead { app.lighter_on(day) } else { None };
    let (mut focus, mut seconds, mut names) = ("", 0, Vec::new());
    if let Some(mut planned) = plan_day.and_then(|plan_day| app.planned(plan_day, day)) {
        if lighter == Some(Lighter::Taken) {
            planned = planned.lighter(app.catalogue());
        }
        (focus, seconds) = (terms::focus(planned.focus), planned.seconds);
        for item in &planned.items {
            names.push(app.name_of(&item.prescription.exercise));
        }
    }
    let class = match state {
        State::Done => "day day--done",
        State::Due => "day day--due",
        State::Missed => "day day--missed",
        State::Shifted | State::LetGo => "day day--settled",
        State::Coming => "day",
    };
    let word = match state {
        State::Done => tr(words::DONE).to_owned(),
        State::Missed => tr(words::MISSED).to_owned(),
        State::Shifted => tr(words::MOVED_ON).to_owned(),
        State::LetGo => tr(words::LET_GO).to_owned(),
        State::Due | State::Coming => dates::minutes(seconds),
    };
    let today = app.today.get_untracked();
    let when = tag("div", "day__when")
        .with(tag("strong", "").with(dates::weekday_short(day.weekday())))
        .with(tag("span", "").with(dates::date(day, today)));
    let what = tag("div", "day__what")
        .with(tag("strong", "").with(focus))
        .with(tag("span", "soft small day__list").with(names.join(", ")))
        .with(tag("span", "small").with(word))
        .with(lighter.map(|lighter| {
            tag("span", "small").with(match lighter {
                Lighter::Taken => words::LIGHTER_SESSION,
                Lighter::Planned => words::LIGHTER_PLANNED,
            })
        }));
    let go =
        (state == State::Due).then(|| link("button day__go", Route::Today.hash(), words::TODAY));
    let settle = match state {
        State::Shifted | State::LetGo => {
            let take_back = move || {
                app.repair(&|repairs| repairs.settled.retain(|settled| settled.day != day));
            };
            Some(button("button button--plain", words::TAKE_BACK, take_back))
        }
        State::Missed | State::Due | State::Coming if is_open => {
            let to = Route::Settle(day).hash();
            Some(link("button button--plain", to, words::CANT_MAKE_IT))
        }
        _ => None,
    };
    // Many of one name: each says which day it is about.
    let settle = settle.map(|settle| {
        let name = if state == State::Shifted || state == State::LetGo {
            words::TAKE_BACK
        } else {
            words::CANT_MAKE_IT
        };
        let of = words::of(tr(name), &dates::full(day, today));
        tag("div", "day__settle").with(settle.attr("aria-label", of))
    });
    tag("li", class).with(when).with(what).with(settle).with(go)
}
