//! A session that cannot be done: the ways to settle it, each with what it does
//! to the next seven days.

use super::{card, list, page, page_head_under, soft};
use crate::markup::{Tag, View, button, link};
use crate::route::{self, Route};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{course, dates, terms, words};
use weekloom_engine::calendar::Day;
use weekloom_engine::schedule::How;
use weekloom_engine::schedule::repair::Choice;

/// The ways to settle the session of a day.
pub fn settle(day: Day) -> View {
    let app = App::here();
    let today = app.today.get_untracked();
    let when = dates::full(day, today);
    let mut shown = page(page_head_under(&Route::Week, words::CANT_MAKE_IT).with(soft(when)));
    let ways = app.ways(day);
    if ways.is_empty() {
        shown = shown.with(soft(words::NOTHING_TO_SETTLE));
    }
    for choice in ways {
        shown = shown.with(way(app, day, choice));
    }
    shown
        .with(link("button button--wide", Route::Away.hash(), words::AWAY))
        .into()
}

fn way(app: App, day: Day, choice: Choice) -> Tag {
    let (name, more) = course::way(&choice.how);
    let focus = |plan_day: u8| {
        app.plan.with_untracked(|plan| {
            let days = plan.as_ref().map_or(&[][..], |p| &p.plan.days);
            let day = days.get(usize::from(plan_day));
            day.map_or("", |day| terms::focus(day.focus))
        })
    };
    let mut lines = Vec::new();
    if let How::LetGo(extras) = &choice.how {
        for extra in extras {
            let exercise = app.name_of(&extra.prescription.exercise);
            let sets = extra.prescription.sets;
            lines.push(words::extra_sets(focus(extra.plan_day), sets, &exercise));
        }
    }
    lines.extend(course::effect(
        &choice.effect,
        app.today.get_untracked(),
        focus,
    ));
    let how = choice.how;
    let choose = button("button button--wide", words::DO_THIS, move || {
        app.settle(day, &how);
        route::replace(&Route::Week);
    });
    // Three buttons of one name: each says whose it is.
    let choose = choose.attr("aria-label", words::of(tr(words::DO_THIS), name));
    card(name).with(soft(more)).with(list(lines)).with(choose)
}
