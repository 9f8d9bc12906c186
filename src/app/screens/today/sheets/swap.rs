//! Other exercises for the one that is up.

use super::{act_and_close, up};
use crate::markup::{View, tag};
use crate::parts::line_button;
use crate::screens::soft;
use crate::state::App;
use crate::text::{reasons, terms, words};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::plan::alternatives;
use weekloom_engine::session::Event;

/// Other exercises, those first that keep the week's sets best.
pub(super) fn swap(app: App) -> View {
    let Some((index, item, exercise)) = up(app) else {
        return tag("p", "").with(words::ALL_DONE).into();
    };
    let day = app
        .session
        .with_untracked(|s| s.as_ref().and_then(|s| s.plan_day))
        .map_or(0, usize::from);
    let options = app.plan_at_hand().map_or_else(Vec::new, |(plan, person)| {
        alternatives(app.catalogue(), &person, &plan, day, item.key)
    });
    let sets = item.prescription.sets;
    let choose = move |exercise: &ExerciseId| {
        let Some(exercise) = app.exercise(exercise) else {
            return;
        };
        let mut prescription = app.prescription_for(exercise);
        prescription.sets = sets;
        let event = Event::Swap {
            item: index,
            prescription,
        };
        act_and_close(app, &event);
    };
    let none = options
        .is_empty()
        .then(|| tag("p", "").with(words::NO_SWAP));
    let mut lines = tag("ul", "lines");
    for option in options {
        let name = app.name_of(&option.exercise);
        let more = reasons::difference(&option.difference);
        lines = lines.with(line_button(name, more, move || choose(&option.exercise)));
    }
    vec![
        soft(terms::exercise(exercise)).into(),
        none.into(),
        lines.into(),
    ]
    .into()
}
