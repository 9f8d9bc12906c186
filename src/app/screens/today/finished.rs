//! The session is over: a short account, and what comes next.

use crate::effects::storage;
use crate::screens::PageHead;
use crate::screens::log::SessionAccount;
use crate::state::App;
use crate::text::{dates, words};
use leptos::prelude::*;
use leptos::task::spawn_local;
use weekloom_engine::schedule::State;

/// The account of a finished session.
#[component]
pub fn Finished() -> impl IntoView {
    let app = App::here();
    app.refresh_index();
    // There is something to lose now: ask the browser to keep it.
    spawn_local(async {
        // A refusal changes nothing but the odds of an eviction.
        let _ = storage::ask_to_persist().await;
    });
    let more = Signal::derive(move || {
        app.session.with(|s| {
            s.as_ref().map(|s| {
                let progress = s.progress();
                format!(
                    "{} \u{b7} {}",
                    words::sets(progress.sets_done),
                    dates::minutes(s.duration_s(app.now.get_untracked()))
                )
            })
        })
    });
    let next = move || {
        let today = app.today.get();
        app.coming(today, 14)
            .into_iter()
            .find(|c| c.state == State::Coming)
            .map(|c| words::next_session(&dates::near(c.day, today)))
    };
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::SESSION_DONE.to_owned()) more=more />
            {move || app.session.get().map(|session| view! { <SessionAccount session /> })}
            {move || next().map(|text| view! { <p>{text}</p> })}
            <button
                type="button"
                class="button button--main button--wide"
                on:click=move |_| app.leave_finished()
            >
                {words::CLOSE}
            </button>
        </main>
    }
}
