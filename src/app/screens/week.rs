//! The coming days: what is due when, how long it takes, and the loom.

use super::{card, page, page_head, soft_small};
use crate::markup::{Tag, View, link, live, tag};
use crate::parts::loom_of;
use crate::route::Route;
use crate::state::App;
use crate::text::{dates, terms, words};
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
        for coming in app.coming(app.today.get().monday(), SHOWN) {
            days.push(coming_day(app, coming).into());
        }
        days
    });
    let cloth = card(words::LOOM)
        .with(loom_of(threads))
        .with(soft_small(words::LOOM_HELP));
    page(page_head(words::THIS_WEEK))
        .with(tag("ol", "days").with(days))
        .with(cloth)
        .into()
}

fn coming_day(app: App, coming: Coming) -> Tag {
    let Coming {
        day,
        plan_day,
        state,
    } = coming;
    let (mut focus, mut seconds, mut names) = ("", 0, Vec::new());
    app.plan.with_untracked(|plan| {
        let planned = plan
            .as_ref()
            .and_then(|p| p.plan.days.get(usize::from(plan_day?)));
        if let Some(planned) = planned {
            (focus, seconds) = (terms::focus(planned.focus), planned.seconds);
            for item in &planned.items {
                names.push(app.name_of(&item.prescription.exercise));
            }
        }
    });
    let class = match state {
        State::Done => "day day--done",
        State::Due => "day day--due",
        State::Missed => "day day--missed",
        State::Coming => "day",
    };
    let word = match state {
        State::Done => words::DONE.to_owned(),
        State::Missed => words::MISSED.to_owned(),
        State::Due | State::Coming => dates::minutes(seconds),
    };
    let today = app.today.get_untracked();
    let when = tag("div", "day__when")
        .with(tag("strong", "").with(dates::weekday_short(day.weekday())))
        .with(tag("span", "").with(dates::date(day, today)));
    let what = tag("div", "day__what")
        .with(tag("strong", "").with(focus))
        .with(tag("span", "soft small day__list").with(names.join(", ")))
        .with(tag("span", "small").with(word));
    let go =
        (state == State::Due).then(|| link("button day__go", Route::Today.hash(), words::TODAY));
    tag("li", class).with(when).with(what).with(go)
}
