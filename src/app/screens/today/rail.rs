//! The rail along the side: a thread with a knot for every set, done and to
//! come. One button: it opens the whole session.

use crate::markup::{Tag, View, button, live, tag};
use crate::route::{self, Route, TodaySheet};
use crate::state::App;
use crate::text::language::tr;
use crate::text::words;
use weekloom_engine::session::{ItemState, Session};

/// What a knot on the rail stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Knot {
    Done,
    Up,
    ToCome,
    Skipped,
}

fn knots(session: &Session) -> Vec<View> {
    let mut rail = Vec::new();
    for (index, item) in session.items.iter().enumerate() {
        let done = item.work_sets_done();
        let planned = usize::from(item.prescription.sets).max(done);
        let mut exercise = tag("span", "rail__exercise");
        for set in 0..planned {
            let knot = match item.state {
                _ if set < done => Knot::Done,
                ItemState::Skipped => Knot::Skipped,
                ItemState::Open if set == done && session.current == Some(index) => Knot::Up,
                ItemState::Open => Knot::ToCome,
            };
            exercise = exercise.with(tag("span", class_of(knot)));
        }
        rail.push(exercise.into());
    }
    rail
}

fn class_of(knot: Knot) -> &'static str {
    match knot {
        Knot::Done => "knot knot--done",
        Knot::Up => "knot knot--up",
        Knot::ToCome => "knot",
        Knot::Skipped => "knot knot--skipped",
    }
}

/// The rail.
pub fn rail() -> Tag {
    let app = App::here();
    let spoken = move || {
        app.session.with(|s| {
            let progress = s.as_ref()?.progress();
            let done =
                words::sets_done(progress.sets_done, progress.sets_done + progress.sets_left);
            Some(format!("{done}. {}", tr(words::WHOLE_SESSION)).into())
        })
    };
    let drawn = live(move || {
        app.session
            .with(|s| s.as_ref().map(knots).unwrap_or_default())
    });
    button("rail", drawn, || {
        route::go(&Route::TodaySheet(TodaySheet::Whole));
    })
    .live("aria-label", spoken)
}
