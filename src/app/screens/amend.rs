//! Load, reps and effort of a set, as they should have been, and whether it hurt.

use super::today::effort;
use crate::held::Held;
use crate::markup::{View, button, tag};
use crate::parts::{Choice, ChoiceGroup, TypedField};
use crate::state::App;
use crate::text::language::{number, tr};
use crate::text::{errors, words};
use std::rc::Rc;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::{Exercise, Measure};
use weekloom_engine::log::{Discomfort, SetEntry};
use weekloom_engine::session::Event;
use weekloom_engine::units::{Load, parse_whole};

/// A logged set, and what becomes of it.
pub struct Amend {
    /// The app.
    pub app: App,
    /// Index of the item in the session, and of the set in it.
    pub place: (usize, usize),
    /// The set.
    pub entry: SetEntry,
    /// Its exercise, where the catalogue still knows it.
    pub exercise: Option<&'static Exercise>,
    /// Keeps the new numbers, given as the event that amends the set.
    pub keep: Box<dyn Fn(Event)>,
    /// Takes the set out; `None` where it is not in yet.
    pub remove: Option<Box<dyn Fn()>>,
}

/// Whether it hurt, in the words it is chosen by.
pub const fn hurt(noted: Option<Discomfort>) -> &'static str {
    match noted {
        None => words::HURTS_NOT,
        Some(Discomfort::Mild) => words::HURTS_MILD,
        Some(Discomfort::Painful) => words::HURTS_PAINFUL,
    }
}

/// Whether an exercise hurts, as a choice; `None` for not.
pub fn discomfort(
    noted: impl Fn() -> Option<Discomfort> + 'static,
    choose: impl Fn(Option<Discomfort>) + 'static,
) -> ChoiceGroup {
    let options = || {
        let choice = |noted: Option<Discomfort>| {
            Choice::plain(noted.map_or("no", Discomfort::slug), hurt(noted))
        };
        let all = Discomfort::ALL.iter().copied().map(Some);
        [None].into_iter().chain(all).map(choice).collect()
    };
    ChoiceGroup {
        legend: words::HURTS,
        name: "discomfort",
        options: Rc::new(options),
        chosen: Rc::new(move || noted().map_or("no", Discomfort::slug).into()),
        on_choose: Rc::new(move |value| choose(Discomfort::from_slug(value))),
        is_chips: true,
    }
}

/// The fields, and the buttons under them.
pub fn amend(amend: Amend) -> Vec<View> {
    let Amend {
        app,
        place: (index, set),
        entry,
        exercise,
        keep,
        remove,
    } = amend;
    let is_loaded = exercise.is_none_or(Exercise::is_loaded);
    let is_timed = exercise.is_some_and(|e| e.measure == Measure::Seconds);
    let (load, load_error) = (Held::new(entry.load), Held::new(None));
    let (count, count_error) = (Held::new(entry.count), Held::new(None));
    let rir = Held::new(entry.rir);
    let keep = move || {
        if load_error.get_untracked().is_some() || count_error.get_untracked().is_some() {
            return;
        }
        keep(Event::AmendSet {
            item: index,
            set,
            load: load.get_untracked(),
            count: count.get_untracked(),
            rir: rir.get_untracked(),
            kind: entry.kind,
        });
    };
    let load_field = is_loaded.then(|| TypedField {
        label: tr(words::LOAD).into(),
        id: format!("amend-load-{index}-{set}"),
        value: Box::new(move || number(&load.get().show(app.unit())).into()),
        error: load_error,
        on_typed: Box::new(move |text| match Load::parse(&text, app.unit_now()) {
            Ok(value) => {
                load_error.set(None);
                load.set(value);
            }
            Err(refused) => load_error.set(Some(errors::number(&refused))),
        }),
        unit: Some(app.unit_symbol().into()),
    });
    let (label, bound) = if is_timed {
        (words::SECONDS, bounds::HOLD_S)
    } else {
        (words::REPS, bounds::REPS)
    };
    let count_field = TypedField {
        label: tr(label).into(),
        id: format!("amend-count-{index}-{set}"),
        value: Box::new(move || count.get().to_string().into()),
        error: count_error,
        on_typed: Box::new(move |text| match parse_whole(&text, bound) {
            Ok(value) => {
                count_error.set(None);
                count.set(u16::try_from(value).unwrap_or(1));
            }
            Err(refused) => count_error.set(Some(errors::number(&refused))),
        }),
        unit: None,
    };
    let fields = tag("div", "fields").with(load_field).with(count_field);
    let ways = tag("div", "row")
        .with(button("button", words::KEEP, keep))
        .with(remove.map(|remove| button("button button--warn", words::REMOVE, remove)));
    let effort = (!is_timed).then(|| effort(rir, words::EFFORT));
    vec![fields.into(), effort.into(), ways.into()]
}
