//! Today: the session as it runs, its account when it is done, or what comes
//! next.

mod finished;
mod next;
mod rail;
mod rest;
mod running;
mod set;
mod sheets;

use crate::state::App;
use leptos::prelude::*;
use weekloom_engine::session::Phase;

/// What today holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Holds {
    Running,
    Finished,
    Nothing,
}

/// Today.
#[component]
pub fn Today() -> impl IntoView {
    let app = App::here();
    let holds = Memo::new(move |_| {
        app.session.with(|session| match session {
            Some(s) if matches!(s.phase, Phase::Finished { .. }) => Holds::Finished,
            Some(_) => Holds::Running,
            None => Holds::Nothing,
        })
    });
    move || match holds.get() {
        Holds::Running => view! { <running::Running /> }.into_any(),
        Holds::Finished => view! { <finished::Finished /> }.into_any(),
        Holds::Nothing => view! { <next::Next /> }.into_any(),
    }
}
