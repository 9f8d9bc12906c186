//! No session is running: the one that is due, or the rest day and what comes
//! after it.

use crate::screens::PageHead;
use crate::state::App;
use crate::text::{dates, terms, words};
use leptos::prelude::*;
use weekloom_engine::catalogue::Measure;
use weekloom_engine::plan::PlanDay;
use weekloom_engine::schedule::State;

/// What comes next.
#[component]
pub fn Next() -> impl IntoView {
    let app = App::here();
    // Due today, else the first that is still to come.
    let next = Memo::new(move |_| {
        app.coming(app.today.get(), 14)
            .into_iter()
            .find(|c| matches!(c.state, State::Due | State::Coming))
    });
    let is_done_today = Memo::new(move |_| {
        let today = app.today.get();
        app.index
            .with(|index| index.recent.iter().any(|line| line.day == today))
    });
    move || {
        let today = app.today.get();
        let Some(coming) = next.get() else {
            return view! { <main class="page"><PageHead title=Signal::stored(words::TODAY.to_owned()) /></main> }
                .into_any();
        };
        let planned = app.plan.with(|plan| {
            plan.as_ref()
                .and_then(|p| p.plan.days.get(usize::from(coming.plan_day?)).cloned())
        });
        let Some(planned) = planned else {
            return ().into_any();
        };
        let is_due = coming.state == State::Due;
        let (title, more) = if is_due {
            (
                terms::focus(planned.focus).to_owned(),
                format!(
                    "{} {}",
                    dates::weekday(today.weekday()),
                    dates::date(today, today)
                ),
            )
        } else {
            let title = if is_done_today.get() {
                words::DONE_TODAY
            } else {
                words::REST_DAY
            };
            (
                title.to_owned(),
                words::next_session(&dates::near(coming.day, today)),
            )
        };
        let plan_day = coming.plan_day.unwrap_or(0);
        view! {
            <main class="page">
                <PageHead title=Signal::stored(title) more=Some(more) />
                <Outline planned is_named=!is_due />
                <div class="page__go">
                    <button
                        type="button"
                        class="button button--wide"
                        class:button--main=is_due
                        on:click=move |_| {
                            crate::effects::sound::unlock();
                            app.start_session(plan_day);
                        }
                    >
                        {if is_due { words::START } else { words::TRAIN_ANYWAY }}
                    </button>
                </div>
            </main>
        }
        .into_any()
    }
}

/// The exercises of a day in short, with the loads used last time.
#[component]
fn Outline(planned: PlanDay, is_named: bool) -> impl IntoView {
    let app = App::here();
    view! {
        <section class="card">
            <div class="row row--apart">
                <h2>
                    {if is_named {
                        terms::focus(planned.focus).to_owned()
                    } else {
                        words::exercises(planned.items.len())
                    }}
                </h2>
                <span class="soft">{dates::minutes(planned.seconds)}</span>
            </div>
            <ol class="lines">
                {planned
                    .items
                    .iter()
                    .map(|item| {
                        let p = &item.prescription;
                        let is_timed = app
                            .exercise(&p.exercise)
                            .is_some_and(|e| e.measure == Measure::Seconds);
                        let last = app.last_in_words(&p.exercise);
                        view! {
                            <li class="line">
                                <span class="line__name">{app.name_of(&p.exercise)}</span>
                                <span class="line__more">
                                    {words::sets_by_reps(p.sets, p.reps.0, p.reps.1, is_timed)}
                                </span>
                                {last
                                    .map(|last| {
                                        view! {
                                            <span class="line__more">
                                                {words::LAST_TIME} ": " {last}
                                            </span>
                                        }
                                    })}
                            </li>
                        }
                    })
                    .collect_view()}
            </ol>
        </section>
    }
}
