//! The body's weight: asked for after a session now and then, kept by the day,
//! and shown over time.
//!
//! Start at [`asked`] and [`weight`].

use super::progress::{Range, ranges, save_picture};
use super::review::table;
use super::{card, page, page_head_under, soft_small};
use crate::held::Held;
use crate::markup::{Tag, View, button, live, nothing, tag};
use crate::parts::{Chart, TypedField};
use crate::route::Route;
use crate::state::App;
use crate::text::language::{number, tr};
use crate::text::{dates, errors, progress as told, reasons, words};
use weekloom_engine::bounds::BODY_G;
use weekloom_engine::calendar::Day;
use weekloom_engine::review::lifts_whole_body;
use weekloom_engine::session::Session;
use weekloom_engine::units::{Load, NumberError};
use weekloom_store::Weighing;

/// Days after which it is asked for again once it was told, and once it was not
/// (the project's own judgement: seldom, and seldomer where nobody answers).
const ASKED_AGAIN: (i32, i32) = (28, 84);

/// The question after a session that lifted the body with a load or with help;
/// nothing while it was asked not long ago.
pub fn asked(app: App, session: &Session) -> Option<View> {
    let lifts_body = session.items.iter().any(|item| {
        let exercise = app.exercise(&item.prescription.exercise);
        item.work_sets_done() > 0 && exercise.is_some_and(lifts_whole_body)
    });
    let today = app.today.get_untracked();
    let chronicle = app.ask(|store| store.load_chronicle()).ok()?;
    let is_due = chronicle
        .weighings
        .iter()
        .next_back()
        .is_none_or(|(day, last)| {
            let (told, not_told) = ASKED_AGAIN;
            let pause = if last.weight.is_some() {
                told
            } else {
                not_told
            };
            today.days_since(*day) >= pause
        });
    if !lifts_body || !is_due {
        return None;
    }
    let is_declined = Held::new(false);
    let decline = move || {
        // What is typed already stays.
        if of_day(app, today).is_none() {
            keep(app, today, None);
        }
        is_declined.set(true);
    };
    let question = move || {
        (!is_declined.get()).then(|| {
            card(words::BODY_WEIGHT)
                .with(soft_small(words::BODY_WEIGHT_WHY))
                .with(field(app, today, Held::new(0)))
                .with(button("button", words::LIGHTER_NOT_NOW, decline))
        })
    };
    Some(live(question))
}

/// What the body weighed on a day, as far as it was told.
fn of_day(app: App, day: Day) -> Option<Load> {
    let chronicle = app.ask(|store| store.load_chronicle()).ok()?;
    chronicle.weighings.get(&day)?.weight
}

/// Keeps what the body weighed on a day, or takes it back.
fn keep(app: App, day: Day, weight: Option<Load>) {
    let at = app.now.get_untracked();
    let made = app.ask(|store| {
        let mut chronicle = store
            .load_chronicle()
            .map_err(|unreadable| errors::other(&unreadable))?;
        chronicle.weigh(day, Weighing { at, weight });
        store
            .save_chronicle(&chronicle)
            .map_err(|error| errors::store(&error))
    });
    match made {
        Ok(changes) => app.keep(Ok(changes)),
        Err(words) => app.tell(words),
    }
}

/// The field for a day's weight. Each change is counted in `changes`.
fn field(app: App, day: Day, changes: Held<u32>) -> TypedField {
    let unit = app.unit_now();
    let error = Held::new(None);
    let shown = move || {
        changes.track();
        of_day(app, day).map_or_else(String::new, |weight| number(&weight.show(unit)))
    };
    let typed = move |text: String| {
        let read = if text.trim().is_empty() {
            Ok(None)
        } else {
            read_weight(app, &text).map(Some)
        };
        match read {
            Ok(weight) => {
                if weight != of_day(app, day) {
                    keep(app, day, weight);
                }
                error.set(None);
            }
            Err(why) => error.set(Some(why)),
        }
        changes.update(|changes| *changes += 1);
    };
    TypedField {
        label: tr(words::BODY_WEIGHT_TODAY).into(),
        id: "body-weight".to_owned(),
        value: Box::new(move || shown().into()),
        error,
        on_typed: Box::new(typed),
        unit: Some(app.unit_symbol().into()),
    }
}

fn read_weight(app: App, text: &str) -> Result<Load, String> {
    let unit = app.unit_now();
    let weight = match Load::parse(text, unit) {
        Err(NumberError::OutOfBounds(_)) => None,
        read => Some(read.map_err(|error| errors::number(&error))?),
    };
    let fits = |weight: &Load| BODY_G.check(weight.grams()).is_ok();
    weight.filter(fits).ok_or_else(|| {
        let of = |grams| reasons::load(Load::clamped(grams), unit);
        told::between(&of(BODY_G.least), &of(BODY_G.most))
    })
}

/// The body's weight over time.
pub fn weight() -> View {
    let app = App::here();
    let range = Held::new(Range::All);
    let changes = Held::new(0);
    let today = app.today.get_untracked();
    let now = (!app.is_reading()).then(|| {
        tag("section", "card")
            .with(soft_small(words::BODY_WEIGHT_WHY))
            .with(field(app, today, changes))
    });
    let shown = move || {
        changes.track();
        let Some(from) = range.get().from(app) else {
            return nothing();
        };
        over_time(app, from, changes).into()
    };
    page(page_head_under(&Route::Log, words::BODY_WEIGHT))
        .with(now)
        .with(ranges(app, range, &Range::ALL))
        .with(live(shown))
        .into()
}

fn over_time(app: App, from: Day, changes: Held<u32>) -> Tag {
    let unit = app.unit_now();
    let today = app.today.get_untracked();
    let weights = app.weights();
    let within: Vec<(Day, i64)> = weights
        .iter()
        .filter(|(day, _)| **day >= from)
        .map(|(day, weight)| (*day, weight.grams()))
        .collect();
    let show = |grams: i64| reasons::load(Load::clamped(grams), unit);
    let Some(&(last_day, last)) = within.last() else {
        return tag("p", "").with(words::NOT_IN_SPAN);
    };
    let mut shown = card(words::BODY_WEIGHT_PAST);
    if within.len() > 1 {
        let name = told::chart(tr(words::BODY_WEIGHT), within.len());
        shown = shown.with(Tag::from(Chart {
            name,
            points: &within,
            trend: &[],
            scatter: None,
            show: &|grams| told::about(grams, unit),
            date: &|day| dates::date(day, today),
        }));
    }
    let mut body = tag("tbody", "");
    for &(day, grams) in within.iter().rev() {
        let date = dates::date(day, today);
        let remove = (!app.is_reading()).then(|| {
            button("button", words::REMOVE, move || {
                keep(app, day, None);
                changes.update(|changes| *changes += 1);
            })
            .attr("aria-label", words::of(tr(words::REMOVE), &date))
        });
        let name = tag("th", "").attr("scope", "row");
        body = body.with(
            tag("tr", "")
                .with(name.with(date))
                .with(tag("td", "").with(show(grams)))
                .with(tag("td", "").with(remove)),
        );
    }
    let heads = [words::DAY, words::BODY_WEIGHT, ""];
    shown
        .with(tag("p", "").with(told::last_weighed(
            &show(last),
            &dates::date(last_day, today),
        )))
        .with(
            tag("details", "more")
                .with(tag("summary", "").with(words::LOOM_TABLE))
                .with(table(heads, body)),
        )
        .with((within.len() > 1).then(|| {
            let head = tr(words::BODY_WEIGHT).to_owned();
            let file = "weekloom-body-weight.svg".to_owned();
            save_picture(app, "svg.chart".to_owned(), head, file)
        }))
}
