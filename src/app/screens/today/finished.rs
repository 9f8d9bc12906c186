//! The session is over: a short account, and what comes next.

use crate::effects::storage;
use crate::held::later;
use crate::markup::{View, button, live, tag};
use crate::screens::log::session_account;
use crate::screens::{page, page_head, soft_live};
use crate::state::App;
use crate::text::{dates, words};
use weekloom_engine::schedule::State;

/// The account of a finished session.
pub fn finished() -> View {
    let app = App::here();
    app.refresh_index();
    // There is something to lose now: ask the browser to keep it.
    later(async {
        // A refusal changes nothing but the odds of an eviction.
        let _ = storage::ask_to_persist().await;
    });
    let more = soft_live(move || {
        app.session.with(|s| {
            let s = s.as_ref()?;
            let sets = words::sets(s.progress().sets_done);
            let length = dates::minutes(s.duration_s(app.now.get_untracked()));
            Some(format!("{sets} \u{b7} {length}"))
        })
    });
    let account = live(move || {
        app.session
            .with(|s| s.as_ref().map(|session| session_account(app, session)))
    });
    let next = live(move || {
        let today = app.today.get();
        let coming = app.coming(today, 14);
        let next = coming.into_iter().find(|c| c.state == State::Coming)?;
        let when = dates::near(next.day, today);
        Some(tag("p", "").with(words::next_session(&when)))
    });
    page(page_head(words::SESSION_DONE).with(more))
        .with(account)
        .with(next)
        .with(button(
            "button button--main button--wide",
            words::CLOSE,
            move || app.leave_finished(),
        ))
        .into()
}
