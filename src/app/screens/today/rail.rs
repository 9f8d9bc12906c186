//! The rail along the side: a thread with a knot for every set, done and to
//! come. One button: it opens the whole session.

use crate::route::{self, Route, TodaySheet};
use crate::state::App;
use crate::text::words;
use leptos::prelude::*;
use weekloom_engine::session::{ItemState, Session};

/// What a knot on the rail stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Knot {
    Done,
    Up,
    ToCome,
    Skipped,
}

fn knots(session: &Session) -> Vec<Vec<Knot>> {
    session
        .items
        .iter()
        .enumerate()
        .map(|(index, item)| {
            let done = item.work_sets_done();
            let planned = usize::from(item.prescription.sets).max(done);
            (0..planned)
                .map(|set| match item.state {
                    _ if set < done => Knot::Done,
                    ItemState::Skipped => Knot::Skipped,
                    ItemState::Open if set == done && session.current == Some(index) => Knot::Up,
                    ItemState::Open => Knot::ToCome,
                })
                .collect()
        })
        .collect()
}

/// The rail.
#[component]
pub fn Rail() -> impl IntoView {
    let app = App::here();
    let groups = Memo::new(move |_| {
        app.session
            .with(|s| s.as_ref().map(knots).unwrap_or_default())
    });
    let spoken = move || {
        app.session.with(|s| {
            s.as_ref().map(|s| {
                let progress = s.progress();
                format!(
                    "{}. {}",
                    words::sets_done(progress.sets_done, progress.sets_done + progress.sets_left),
                    words::WHOLE_SESSION
                )
            })
        })
    };
    view! {
        <button
            type="button"
            class="rail"
            aria-label=spoken
            on:click=move |_| route::go(&Route::TodaySheet(TodaySheet::Whole))
        >
            {move || {
                groups
                    .get()
                    .into_iter()
                    .map(|group| {
                        view! {
                            <span class="rail__exercise">
                                {group
                                    .into_iter()
                                    .map(|knot| {
                                        let class = match knot {
                                            Knot::Done => "knot knot--done",
                                            Knot::Up => "knot knot--up",
                                            Knot::ToCome => "knot",
                                            Knot::Skipped => "knot knot--skipped",
                                        };
                                        view! { <span class=class></span> }
                                    })
                                    .collect_view()}
                            </span>
                        }
                    })
                    .collect_view()
            }}
        </button>
    }
}
