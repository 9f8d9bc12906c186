//! Every exercise of the session, what is done of it, and its verbs.

use super::super::running::act_button;
use super::act_and_close;
use super::short::short_of_time;
use crate::held::{Derived, Held};
use crate::markup::{Tag, View, button, either, live, rows, tag, when};
use crate::screens::amend::{Amend, amend};
use crate::screens::plan::exercise_picker;
use crate::state::App;
use crate::text::{reasons, words};
use std::rc::Rc;
use weekloom_engine::catalogue::{Exercise, Measure};
use weekloom_engine::log::SetEntry;
use weekloom_engine::session::{Event, ItemState, SessionItem};

fn item_of(app: App, index: usize) -> Option<SessionItem> {
    app.session
        .with(|s| s.as_ref().and_then(|s| s.items.get(index).cloned()))
}

/// A row for each of so many.
fn counted(count: impl Fn() -> usize + 'static, row: impl Fn(usize) -> View + 'static) -> View {
    rows(
        move || (0..count()).map(|index| index.to_string()).collect(),
        move |index| row(index.parse().unwrap_or(0)),
    )
}

/// The whole session.
pub(super) fn whole(app: App) -> View {
    let is_adding = Held::new(false);
    let items = move || {
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.items.len()))
    };
    let add = move |exercise: &Exercise| {
        let prescription = app.prescription_for(exercise);
        match app.act(&Event::Add { prescription }) {
            Ok(()) => is_adding.set(false),
            Err(words) => app.tell(words),
        }
    };
    let picker = move || exercise_picker(app, Rc::new(add)).into();
    let ask = move || {
        button("button button--wide", "+ ", move || is_adding.set(true))
            .with(words::ADD_EXERCISE)
            .into()
    };
    let list = counted(items, move |index| whole_item(app, index));
    vec![
        short_of_time(app),
        tag("ol", "lines whole").with(list).into(),
        either(move || is_adding.get(), picker, ask),
    ]
    .into()
}

fn whole_item(app: App, index: usize) -> View {
    let item = Derived::new(move || item_of(app, index));
    live(move || {
        let item = item.get()?;
        Some(whole_line(app, index, &item))
    })
}

fn whole_line(app: App, index: usize, item: &SessionItem) -> Tag {
    let p = &item.prescription;
    let exercise = app.exercise(&p.exercise);
    let is_timed = exercise.is_some_and(|e| e.measure == Measure::Seconds);
    let done = reasons::sets_in_words(&item.sets, exercise, app.unit());
    let what = if done.is_empty() {
        words::sets_by_reps(p.sets, p.reps.0, p.reps.1, is_timed)
    } else {
        done
    };
    let is_skipped = item.state == ItemState::Skipped;
    let class = if is_skipped {
        "whole__name whole__name--skipped"
    } else {
        "whole__name"
    };
    let name = tag("span", class)
        .with(app.name_of(&p.exercise))
        .with(tag("span", "soft small").with(what));
    let set_sets = |name: &'static str, sets: u8| {
        act_button(app, "button", name, Event::SetSets { item: index, sets })
    };
    let skip = if is_skipped {
        let unskip = Event::Unskip { item: index };
        act_button(app, "button", words::UNSKIP, unskip)
    } else {
        let skip = Event::Skip { item: index };
        act_button(app, "button button--warn", words::SKIP_EXERCISE, skip)
    };
    let in_turn = item.is_open().then(|| in_turn(app, index, item));
    let verbs = tag("div", "row")
        .with(button("button", words::DO_NOW, move || {
            act_and_close(app, &Event::Focus { item: index });
        }))
        .with(act_button(
            app,
            "button",
            words::DO_LATER,
            Event::Later { item: index },
        ))
        .with(set_sets(words::ONE_MORE_SET, p.sets.saturating_add(1)))
        .with(set_sets(words::ONE_SET_FEWER, p.sets.saturating_sub(1)))
        .with(in_turn)
        .with(skip);
    let more = tag("details", "more")
        .with(tag("summary", "").with(name))
        .with(tag("div", "stack").with(verbs).with(set_list(app, index)));
    let is_up = move || {
        app.session
            .with(|s| s.as_ref().and_then(|s| s.current) == Some(index))
    };
    tag("li", "")
        .class_if(is_up, "whole__item whole__item--up", "whole__item")
        .with(more)
}

/// Earlier in the order, and in turn with another.
fn in_turn(app: App, index: usize, item: &SessionItem) -> Vec<View> {
    let mut ways = Vec::new();
    if let Some(to) = index.checked_sub(1) {
        let earlier = Event::Move { item: index, to };
        ways.push(act_button(app, "button", words::MOVE_EARLIER, earlier).into());
    }
    if item.superset.is_some() {
        let alone = Event::Unpair { item: index };
        ways.push(act_button(app, "button", words::UNPAIR, alone).into());
        return ways;
    }
    let partners = app.session.with(|s| {
        s.as_ref()
            .map(|s| s.partners_for(app.catalogue(), index))
            .unwrap_or_default()
    });
    for other in partners.into_iter().take(MOST_PARTNERS) {
        let Some(with) = item_of(app, other) else {
            continue;
        };
        let name = words::in_turn_with(&app.name_of(&with.prescription.exercise));
        let pair = move || {
            if let Err(words) = app.act(&Event::Superset { a: index, b: other }) {
                app.tell(words);
            }
        };
        ways.push(button("button", name, pair).into());
    }
    ways
}

/// Partners on offer: the nearest in the order.
const MOST_PARTNERS: usize = 3;

/// Sets done of one exercise, each amendable.
fn set_list(app: App, index: usize) -> Tag {
    let count = move || {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s| s.items.get(index))
                .map_or(0, |i| i.sets.len())
        })
    };
    tag("ul", "stack").with(counted(count, move |set| one_set(app, index, set)))
}

fn entry_of(app: App, index: usize, set: usize) -> Option<SetEntry> {
    app.session.with(|s| {
        s.as_ref()
            .and_then(|s| s.items.get(index))
            .and_then(|i| i.sets.get(set).copied())
    })
}

fn one_set(app: App, index: usize, set: usize) -> View {
    let exercise = app.session.with_untracked(|s| {
        s.as_ref()
            .and_then(|s| s.items.get(index))
            .and_then(|i| app.exercise(&i.prescription.exercise))
    });
    let is_open = Held::new(false);
    let shown = live(move || {
        entry_of(app, index, set).map(|e| reasons::set_in_words(&e, exercise, app.unit()))
    });
    let name = tag("span", "")
        .with(format!("{}: ", words::set_of_short(set + 1)))
        .with(shown);
    let amend = button("button button--plain", words::AMEND, move || {
        is_open.update(|is_open| *is_open = !*is_open);
    });
    let form = when(
        move || is_open.get(),
        move || amend_set(app, (index, set), exercise, is_open),
    );
    tag("li", "stack")
        .with(tag("div", "row row--apart").with(name).with(amend))
        .with(form)
        .into()
}

/// The numbers of a logged set, as they should have been.
fn amend_set(
    app: App,
    (index, set): (usize, usize),
    exercise: Option<&'static Exercise>,
    is_open: Held<bool>,
) -> Option<Vec<View>> {
    let entry = entry_of(app, index, set)?;
    let act = Rc::new(move |event: Event| match app.act(&event) {
        Ok(()) => is_open.set(false),
        Err(words) => app.tell(words),
    });
    let remove = Rc::clone(&act);
    Some(amend(Amend {
        app,
        place: (index, set),
        entry,
        exercise,
        keep: Box::new(move |event| act(event)),
        remove: Some(Box::new(move || {
            remove(Event::RemoveSet { item: index, set })
        })),
    }))
}
