//! The running session: the rail, the set that is up, the rest band, and one
//! wide button.

use super::rail::Rail;
use super::rest::RestBand;
use super::set::SetUp;
use super::sheets::Sheets;
use crate::effects::screen_lock;
use crate::route::{self, Route, TodaySheet};
use crate::state::{App, Saving};
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::*;
use leptos::task::spawn_local;
use weekloom_engine::session::{Event, Phase, Session};
use weekloom_store::Screen;

/// What the middle of the screen shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Middle {
    /// The set of this item, the so-many-th.
    Set(usize, usize),
    /// Paused.
    Paused,
    /// All sets are done.
    AllDone,
}

fn middle(session: &Session) -> Middle {
    match (session.phase, session.current) {
        (Phase::Paused { .. }, _) => Middle::Paused,
        (_, Some(item)) => Middle::Set(item, session.work_sets_done(item)),
        (_, None) => Middle::AllDone,
    }
}

/// The session as it runs.
#[component]
pub fn Running() -> impl IntoView {
    let app = App::here();
    let shown = Memo::new(move |_| {
        app.session
            .with(|s| s.as_ref().map_or(Middle::AllDone, middle))
    });
    let title = move || {
        app.session.with(|s| {
            s.as_ref()
                .and_then(|s| s.plan_day)
                .and_then(|day| {
                    app.plan.with(|plan| {
                        plan.as_ref()
                            .and_then(|p| p.plan.days.get(usize::from(day)))
                            .map(|d| terms::focus(d.focus))
                    })
                })
                .unwrap_or(words::TODAY)
        })
    };
    let minutes = Memo::new(move |_| {
        let now = app.now.get();
        app.session
            .with(|s| s.as_ref().map_or(0, |s| s.duration_s(now)) / 60)
    });
    let left = Memo::new(move |_| {
        app.session.with(|s| {
            s.as_ref()
                .map(|s| s.progress())
                .map(|p| words::sets_done(p.sets_done, p.sets_done + p.sets_left))
        })
    });
    // The screen stays lit while a session is on it, where that is wished for
    // and the browser allows it. A hidden page loses the lock: ask each minute.
    Effect::new(move |_| {
        minutes.track();
        if app.settings.get().screen == Screen::StaysOn {
            spawn_local(screen_lock::keep_lit());
        }
    });
    on_cleanup(|| spawn_local(screen_lock::let_dim()));

    view! {
        <main class="gym">
            <header class="gym__head">
                <div>
                    <h1 class="gym__title">{title}</h1>
                    <p class="soft small">
                        {left} " \u{b7} " {move || format!("{} {}", minutes.get(), words::MIN)}
                    </p>
                </div>
                <div class="row">
                    <a class="button" href=Route::Week.hash()>
                        {words::WEEK}
                    </a>
                    <button
                        type="button"
                        class="button"
                        on:click=move |_| route::go(&Route::TodaySheet(TodaySheet::More))
                    >
                        {words::MORE}
                    </button>
                </div>
            </header>
            <Rail />
            <div class="gym__middle">
                {move || match shown.get() {
                    Middle::Set(item, set) => view! { <SetUp item set /> }.into_any(),
                    Middle::Paused => view! { <Paused /> }.into_any(),
                    Middle::AllDone => view! { <AllDone /> }.into_any(),
                }}
            </div>
        </main>
        <Sheets />
    }
}

/// Below the set: the rest, the word on the last set, and its undo.
#[component]
pub fn Foot(children: Children) -> impl IntoView {
    let app = App::here();
    let last = Memo::new(move |_| {
        app.session.with(|s| {
            let s = s.as_ref()?;
            let (item, set) = s.last_set()?;
            let item = s.items.get(item)?;
            let entry = item.sets.get(set)?;
            let exercise = app.exercise(&item.prescription.exercise);
            Some(reasons::set_in_words(entry, exercise.as_ref(), app.unit()))
        })
    });
    let undo = move |_| match app.act(&Event::UndoLast) {
        Ok(()) => app.tell(words::UNDONE),
        Err(words) => app.tell(words),
    };
    view! {
        <footer class="gym__foot">
            <RestBand />
            {move || {
                last.get()
                    .map(|set| {
                        let saved = match app.saving.get() {
                            Saving::Saved => words::SAVED,
                            Saving::Underway => words::SAVING,
                            Saving::Failed(_) => words::NOT_SAVED,
                        };
                        view! {
                            <div class="last-set">
                                <span>
                                    {set} " \u{b7} " <span class="last-set__saved" role="status">{saved}</span>
                                </span>
                                <button type="button" class="button button--plain" on:click=undo>
                                    {words::UNDO}
                                </button>
                            </div>
                        }
                    })
            }}
            {children()}
        </footer>
    }
}

#[component]
fn Paused() -> impl IntoView {
    let app = App::here();
    view! {
        <section class="set">
            <h2>{words::PAUSED}</h2>
        </section>
        <Foot>
            <button
                type="button"
                class="button button--main button--wide"
                on:click=move |_| {
                    if let Err(words) = app.act(&Event::Resume) {
                        app.tell(words);
                    }
                }
            >
                {words::RESUME}
            </button>
        </Foot>
    }
}

#[component]
fn AllDone() -> impl IntoView {
    let app = App::here();
    let length = move || {
        app.session.with(|s| {
            s.as_ref()
                .map(|s| dates::minutes(s.duration_s(app.now.get())))
        })
    };
    view! {
        <section class="set">
            <h2>{words::ALL_DONE}</h2>
            <p class="soft">{length}</p>
            <button
                type="button"
                class="button"
                on:click=move |_| route::go(&Route::TodaySheet(TodaySheet::Whole))
            >
                {words::WHOLE_SESSION}
            </button>
        </section>
        <Foot>
            <button
                type="button"
                class="button button--main button--wide"
                on:click=move |_| {
                    if let Err(words) = app.act(&Event::Finish) {
                        app.tell(words);
                    }
                }
            >
                {words::FINISH}
            </button>
        </Foot>
    }
}
