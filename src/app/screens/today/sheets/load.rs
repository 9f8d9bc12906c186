//! Plates for the load in hand, and the climb to it.

use super::up;
use crate::markup::{Tag, View, tag};
use crate::parts::{line, plates_on_bar};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{reasons, words};
use weekloom_engine::load::{Ladder, Placement, warm_up};

fn titled(title: &'static str) -> Tag {
    tag("div", "").with(tag("h3", "").with(title))
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
    let mut sets = tag("ol", "lines");
    for set in climb {
        let load = reasons::load_of(set.load, exercise, unit);
        let name = words::warm_up_set(&load, set.reps);
        sets = sets.with(line(name, plates(set.load)));
    }
    let figure = tag("p", "figure").with(reasons::load_of(load, exercise, unit));
    let first = titled(words::WARM_UP_FIRST).with(none).with(sets);
    vec![figure.into(), on_bar.into(), first.into()].into()
}
