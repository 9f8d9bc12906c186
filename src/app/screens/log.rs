//! Past sessions, newest first, and one of them with its sets.

use super::PageHead;
use crate::route::Route;
use crate::state::App;
use crate::text::{dates, reasons, terms, words};
use leptos::prelude::*;
use weekloom_engine::session::{Session, SessionItem};

/// Past sessions.
#[component]
pub fn Sessions() -> impl IntoView {
    let app = App::here();
    app.refresh_index();
    let lines = move || {
        app.index.with(|index| {
            let mut recent = index.recent.clone();
            recent.reverse();
            recent
        })
    };
    let totals = Signal::derive(move || {
        app.index.with(|i| {
            (i.sessions > 0).then(|| words::totals(i.sessions as usize, i.work_sets as usize))
        })
    });
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::LOG.to_owned()) more=totals />
            <Show
                when=move || app.index.with(|i| !i.recent.is_empty())
                fallback=|| view! { <p>{words::LOG_EMPTY}</p> }
            >
                <ul class="card lines">
                    <For each=lines key=|line| line.id.clone() let:line>
                        {
                            let today = app.today.get_untracked();
                            let focus = line
                                .plan_day
                                .and_then(|d| {
                                    app.plan
                                        .with_untracked(|plan| {
                                            plan.as_ref()
                                                .and_then(|p| p.plan.days.get(usize::from(d)))
                                                .map(|d| terms::focus(d.focus))
                                        })
                                })
                                .unwrap_or_default();
                            view! {
                                <li>
                                    <a class="line" href=Route::LogSession(line.id.clone()).hash()>
                                        <span class="line__name">
                                            {dates::weekday_short(line.day.weekday())} " "
                                            {dates::date(line.day, today)}
                                        </span>
                                        <span class="line__more">
                                            {focus} " \u{b7} " {words::sets(line.work_sets as usize)}
                                            " \u{b7} " {dates::minutes(line.seconds)}
                                        </span>
                                        <span class="line__end" aria-hidden="true">"\u{203a}"</span>
                                    </a>
                                </li>
                            }
                        }
                    </For>
                </ul>
            </Show>
        </main>
    }
}

/// One past session.
#[component]
pub fn OneSession(id: String) -> impl IntoView {
    let app = App::here();
    let found = app.ask(|store| store.read_session(&id));
    let today = app.today.get_untracked();
    match found {
        Ok(Some(session)) => {
            let title = format!(
                "{} {}",
                dates::weekday(session.day.weekday()),
                dates::date(session.day, today)
            );
            let length = dates::minutes(session.duration_s(app.now.get_untracked()));
            view! {
                <main class="page">
                    <PageHead
                        title=Signal::stored(title)
                        more=Some(length)
                        back=Route::Log
                    />
                    <SessionAccount session />
                </main>
            }
            .into_any()
        }
        Ok(None) => view! {
            <main class="page">
                <PageHead title=Signal::stored(words::LOG_EMPTY.to_owned()) back=Route::Log />
            </main>
        }
        .into_any(),
        Err(unreadable) => view! {
            <main class="page">
                <PageHead title=Signal::stored(words::ASIDE.to_owned()) back=Route::Log />
                <p>{unreadable.to_string()}</p>
            </main>
        }
        .into_any(),
    }
}

/// What was done in a session, exercise by exercise, each in one line of
/// words.
#[component]
pub fn SessionAccount(session: Session) -> impl IntoView {
    let app = App::here();
    let done = |item: &SessionItem| !item.sets.is_empty();
    view! {
        <ul class="card lines">
            {session
                .items
                .iter()
                .filter(|item| done(item))
                .map(|item| {
                    let exercise = app.exercise(&item.prescription.exercise);
                    let sets = reasons::sets_in_words(&item.sets, exercise.as_ref(), app.unit_now());
                    view! {
                        <li class="line">
                            <span class="line__name">{app.name_of(&item.prescription.exercise)}</span>
                            <span class="line__more">{sets}</span>
                            {item
                                .discomfort
                                .map(|d| {
                                    view! { <span class="line__more">{reasons::discomfort(d)}</span> }
                                })}
                            {(!item.note.is_empty())
                                .then(|| view! { <span class="line__more">{item.note.clone()}</span> })}
                        </li>
                    }
                })
                .collect_view()}
        </ul>
    }
}
