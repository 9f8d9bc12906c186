//! Cards to print: a page for each session of the plan, with room to write.

use crate::markup::{Tag, View, button, tag};
use crate::route::Route;
use crate::screens::{page, page_head_under, soft};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::window;
use weekloom_engine::catalogue::Measure;
use weekloom_engine::plan::{PlanDay, PlanItem};

/// A page for each session.
pub fn cards() -> View {
    let app = App::here();
    let days = app.plan.with_untracked(|accepted| {
        let days = accepted.as_ref().map_or(&[][..], |a| &a.plan.days);
        let card = |(at, day)| card(app, at, day).into();
        days.iter().enumerate().map(card).collect::<Vec<View>>()
    });
    let print = button("button button--main button--wide", words::PRINT, || {
        // A browser that cannot print does nothing, as it would from its own menu.
        let _ = window().print();
    });
    page(page_head_under(&Route::Plan, words::CARDS))
        .with(soft(words::CARDS_MORE))
        .with(print)
        .with(days)
        .into()
}

fn card(app: App, at: usize, day: &PlanDay) -> Tag {
    let title = words::numbered(at, terms::focus(day.focus));
    let head = tag("div", "row row--apart")
        .with(tag("h2", "").with(title))
        .with(tag("span", "soft").with(dates::minutes(day.seconds)));
    let mut list = tag("ol", "paper__items");
    for (place, item) in day.items.iter().enumerate() {
        list = list.with(exercise(app, day, place, item));
    }
    tag("section", "card paper")
        .with(head)
        .with(line(words::CARD_DATE))
        .with(list)
        .with(line(words::NOTE))
        .with(tag("p", "soft small").with(words::CAUTIONS_STOP))
}

/// A word with a line to write on.
fn line(word: &'static str) -> Tag {
    tag("p", "paper__line")
        .with(tag("span", "").with(word))
        .with(tag("span", "paper__rule"))
}

/// What to do, what to go by, and a box for each set.
fn exercise(app: App, day: &PlanDay, place: usize, item: &PlanItem) -> Tag {
    let asked = &item.prescription;
    let found = app.exercise(&asked.exercise);
    let is_timed = found.is_some_and(|e| e.measure == Measure::Seconds);
    let sets = words::sets_by_reps(asked.sets, asked.reps.0, asked.reps.1, is_timed);
    let rest = words::rest_of(u32::from(asked.rest_s));
    let name = tag("strong", "").with(app.name_of(&asked.exercise));
    // It begins with its comma.
    let partner = tr(super::week::partner(day, place));
    let mut facts = vec![sets, rest + partner];
    if let Some(found) = found {
        let aim = reasons::aim(&app.suggestion(asked, found), found, app.unit_now());
        facts.push(words::aim_is(&aim));
    }
    let mut boxes = tag("div", "paper__boxes").attr("aria-hidden", "true");
    for _ in 0..asked.sets {
        boxes = boxes.with(tag("span", "paper__box"));
    }
    tag("li", "paper__item")
        .with(name)
        .with(tag("span", "small").with(facts.join(" \u{b7} ")))
        .with(boxes)
}
