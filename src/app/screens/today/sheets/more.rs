//! Discomfort, note, pause, finish.

use super::{act_and_close, up};
use crate::held::untracked;
use crate::markup::{Tag, View, button, live, tag};
use crate::parts::labelled;
use crate::route::{self, Route, TodaySheet};
use crate::screens::amend::discomfort;
use crate::state::App;
use crate::text::{terms, words};
use weekloom_engine::catalogue::Exercise;
use weekloom_engine::log::Discomfort;
use weekloom_engine::session::{Event, Phase, SessionItem};

fn is_paused(app: App) -> bool {
    app.session.with(|s| {
        s.as_ref()
            .is_some_and(|s| matches!(s.phase, Phase::Paused { .. }))
    })
}

/// What else there is to say and do.
pub(super) fn more(app: App) -> View {
    let about = up(app).map(|(index, _, exercise)| about_exercise(app, index, exercise));
    let has_sets = move || {
        app.session
            .with(|s| s.as_ref().is_some_and(|s| s.last_set().is_some()))
    };
    let pause = live(move || {
        let (name, event) = if is_paused(app) {
            (words::RESUME, Event::Resume)
        } else {
            (words::PAUSE, Event::Pause)
        };
        button("button", name, move || act_and_close(app, &event))
    });
    let finish = move || {
        if untracked(&|| is_paused(app)) {
            let _ = app.act(&Event::Resume);
        }
        act_and_close(app, &Event::Finish);
    };
    let discard = move || {
        app.discard_session();
        route::replace(&Route::Today);
    };
    let end = live(move || {
        if has_sets() {
            button("button", words::FINISH_EARLY, finish)
        } else {
            button("button button--warn", words::DISCARD, discard)
        }
    });
    let ends = tag("div", "row row--halves").with(pause).with(end);
    vec![about.into(), ends.into()].into()
}

fn told(app: App, event: &Event) {
    if let Err(words) = app.act(event) {
        app.tell(words);
    }
}

/// How the exercise that is up feels, and a note on it.
fn about_exercise(app: App, index: usize, exercise: &'static Exercise) -> Vec<View> {
    let noted = move || item_of(app, index, &|item| item.discomfort).flatten();
    let hurts = discomfort(noted, move |discomfort| {
        let item = index;
        told(app, &Event::Discomfort { item, discomfort });
    });
    let advice = live(move || noted().map(|hurt| advice(app, index, hurt)));
    let note = tag("textarea", "input")
        .attr("rows", "2")
        .attr("maxlength", "500")
        .value(Box::new(move || {
            item_of(app, index, &|item| item.note.clone())
                .unwrap_or_default()
                .into()
        }))
        .on_typed(move |text| told(app, &Event::Note { item: index, text }));
    vec![
        tag("h3", "").with(terms::exercise(exercise)).into(),
        hurts.into(),
        advice,
        labelled("note", words::NOTE, note).into(),
    ]
}

/// Something of an item of the session.
fn item_of<U>(app: App, index: usize, read: &dyn Fn(&SessionItem) -> U) -> Option<U> {
    app.session
        .with(|s| s.as_ref().and_then(|s| s.items.get(index)).map(read))
}

fn advice(app: App, index: usize, hurt: Discomfort) -> Tag {
    match hurt {
        Discomfort::Mild => tag("p", "")
            .attr("role", "status")
            .with(words::HURTS_MILD_ADVICE),
        Discomfort::Painful => {
            let swap = button("button", words::SWAP, || {
                route::replace(&Route::TodaySheet(TodaySheet::Swap));
            });
            let skip = button("button", words::SKIP_EXERCISE, move || {
                act_and_close(app, &Event::Skip { item: index });
            });
            tag("div", "banner banner--warn")
                .attr("role", "status")
                .with(tag("p", "").with(words::HURTS_ADVICE))
                .with(tag("div", "row").with(swap).with(skip))
        }
    }
}
