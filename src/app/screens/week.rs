//! The coming days: what is due when, how long it takes, and the loom.

use super::PageHead;
use crate::parts::Loom;
use crate::route::Route;
use crate::state::App;
use crate::text::{dates, terms, words};
use leptos::prelude::*;
use weekloom_engine::schedule::{Coming, State};

/// Days shown.
const SHOWN: u16 = 14;

/// This week and the next: done, due and to come.
#[component]
pub fn Week() -> impl IntoView {
    let app = App::here();
    let coming = Memo::new(move |_| app.coming(app.today.get().monday(), SHOWN));
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::THIS_WEEK.to_owned()) />
            <ol class="days">
                <For
                    each=move || coming.get()
                    key=|coming| (coming.day, coming.plan_day, coming.state)
                    let:coming
                >
                    <ComingDay coming />
                </For>
            </ol>
            <section class="card">
                <h2>{words::LOOM}</h2>
                <Loom plan=Signal::derive(move || app.plan.get()) />
                <p class="soft small">{words::LOOM_HELP}</p>
            </section>
        </main>
    }
}

#[component]
fn ComingDay(coming: Coming) -> impl IntoView {
    let app = App::here();
    let Coming {
        day,
        plan_day,
        state,
    } = coming;
    let planned = app.plan.with_untracked(|plan| {
        plan.as_ref()
            .and_then(|p| p.plan.days.get(usize::from(plan_day?)).cloned())
    });
    let (focus, seconds, first) = planned.map_or((String::new(), 0, String::new()), |d| {
        let names: Vec<String> = d
            .items
            .iter()
            .map(|i| app.name_of(&i.prescription.exercise))
            .collect();
        (
            terms::focus(d.focus).to_owned(),
            d.seconds,
            names.join(", "),
        )
    });
    let today = app.today.get_untracked();
    let class = match state {
        State::Done => "day day--done",
        State::Due => "day day--due",
        State::Missed => "day day--missed",
        State::Coming => "day",
    };
    let word = match state {
        State::Done => words::DONE.to_owned(),
        State::Missed => words::MISSED.to_owned(),
        State::Due | State::Coming => dates::minutes(seconds),
    };
    view! {
        <li class=class>
            <div class="day__when">
                <strong>{dates::weekday_short(day.weekday())}</strong>
                <span>{dates::date(day, today)}</span>
            </div>
            <div class="day__what">
                <strong>{focus}</strong>
                <span class="soft small day__list">{first}</span>
                <span class="small">{word}</span>
            </div>
            {(state == State::Due)
                .then(|| {
                    view! {
                        <a class="button day__go" href=Route::Today.hash()>
                            {words::TODAY}
                        </a>
                    }
                })}
        </li>
    }
}
