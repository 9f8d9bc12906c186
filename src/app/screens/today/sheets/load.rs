//! Plates for the load in hand, and the climb to it.

use super::up;
use crate::markup::{Tag, View, tag};
use crate::parts::{plates_on_bar, tick};
use crate::screens::soft_small;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{reasons, words};
use weekloom_engine::load::{Ladder, Placement, WarmUpSet, warm_up};
use weekloom_engine::log::SetKind;
use weekloom_engine::session::{Event, Session};

fn titled(title: &'static str) -> Tag {
    tag("div", "").with(tag("h3", "").with(title))
}

/// A set of the climb, ticked when it is done. It stands in the log as a
/// warm-up set, so that a reload knows it, and is never counted as work.
fn step(app: App, item: usize, set: WarmUpSet, name: String) -> Tag {
    let done = move |s: &Session| s.items.get(item)?.warm_up_done(&set);
    let is_done = move || app.session.with(|s| s.as_ref().and_then(done).is_some());
    let act = move |is_done: bool| {
        let at = app.session.with_untracked(|s| {
            s.as_ref()
                .and_then(|s| s.items.get(item)?.warm_up_done(&set))
        });
        let event = match (is_done, at) {
            (true, None) => Event::LogSet {
                load: set.load,
                count: set.reps,
                rir: None,
                kind: SetKind::WarmUp,
            },
            (false, Some(set)) => Event::RemoveSet { item, set },
            _ => return,
        };
        if let Err(words) = app.act(&event) {
            app.tell(words);
        }
    };
    tag("li", "").with(tick(name, is_done, act))
}

/// Plates and warm-up.
pub(super) fn load_up(app: App) -> View {
    let Some((index, item, exercise)) = up(app) else {
        return tag("p", "").with(words::ALL_DONE).into();
    };
    let Some(ladder) = Ladder::of(exercise, &app.kit()) else {
        return tag("p", "").with(words::NO_WARM_UP).into();
    };
    let unit = app.unit_now();
    let suggestion = app.suggestion(&item.prescription, exercise);
    let load = app
        .draft_for(index, item.work_sets_done())
        .map(|(load, _, _)| load)
        .or(suggestion.load)
        .unwrap_or_else(|| ladder.easiest());
    let is_each_side = ladder.placement() == Placement::EachSide;
    let plates = |load| {
        ladder
            .plates_for(load)
            .map(|list| reasons::plates(&list, is_each_side, unit))
    };
    let on_bar = (ladder.placement() != Placement::NoPlates).then(|| {
        let text = plates(load).unwrap_or_else(|| tr(words::NOT_MAKEABLE).to_owned());
        let list = ladder.plates_for(load).filter(|list| !list.is_empty());
        let picture = list
            .filter(|_| is_each_side)
            .map(|list| plates_on_bar(&list, unit));
        titled(words::PLATES_NOW)
            .with(tag("p", "").with(text))
            .with(picture)
    });
    let climb = warm_up(load, &ladder, exercise);
    let none = climb
        .is_empty()
        .then(|| tag("p", "").with(words::NO_WARM_UP));
    let mut sets = tag("ul", "ticks");
    for set in climb {
        let load = reasons::load_of(set.load, exercise, unit);
        let name = words::warm_up_set(&load, set.reps);
        sets = sets.with(step(app, index, set, name).with(plates(set.load).map(soft_small)));
    }
    let figure = tag("p", "figure").with(reasons::load_of(load, exercise, unit));
    let first = titled(words::WARM_UP_FIRST).with(none).with(sets);
    vec![figure.into(), on_bar.into(), first.into()].into()
}
