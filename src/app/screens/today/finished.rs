//! The session is over: a short account, and what comes next.

use crate::effects::storage;
use crate::held::later;
use crate::markup::{Tag, View, button, live, tag};
use crate::on_demand;
use crate::parts::{line, loom_of};
use crate::route::Route;
use crate::screens::banners::save_backup;
use crate::screens::log::session_account;
use crate::screens::weight;
use crate::screens::{card, page, page_head, soft_live, soft_small};
use crate::state::App;
use crate::text::{dates, reasons, words};
use weekloom_engine::loom::woven;
use weekloom_engine::progress::rise;
use weekloom_engine::schedule::State;
use weekloom_engine::session::{Session, session_performances};
use weekloom_store::Space;

/// The end of a session; its account is fetched if it has not come yet.
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
    let next = live(move || {
        let today = app.today.get();
        let coming = app.coming(today, 14);
        let next = coming.into_iter().find(|c| c.state == State::Coming)?;
        let when = dates::near(next.day, today);
        Some(tag("p", "").with(words::next_session(&when)))
    });
    page(page_head(words::SESSION_DONE).with(more))
        .with(next)
        .with(on_demand::piece(Route::Today))
        .with(live(move || to_save(app)))
        .with(button(
            "button button--main button--wide",
            words::CLOSE,
            move || app.leave_finished(),
        ))
        .into()
}

/// The account of a finished session: what rose, what was done, the week so far.
pub fn account() -> View {
    let app = App::here();
    let account = live(move || {
        app.session
            .with(|s| s.as_ref().map(|session| session_account(app, session)))
    });
    let rose = live(move || app.session.with(|s| what_rose(app, s.as_ref()?)));
    let so_far = move || {
        let since = dates::week_start(app.today.get());
        woven(
            app.catalogue(),
            &app.ask(|store| store.performances_since(since)),
        )
    };
    let week = card(words::WEEK_SO_FAR)
        .with(loom_of(so_far))
        .with(soft_small(words::WEEK_SO_FAR_MORE));
    let weight = live(move || app.session.with(|s| weight::asked(app, s.as_ref()?)));
    vec![rose, account, week.into(), weight].into()
}

/// Sessions without a backup file after which one is spoken of, and the steps in
/// which it is spoken of again: a month of training, and then every other week
/// (the project's own judgement).
const UNSAVED: (usize, usize) = (12, 6);

/// A word on the backup file, now and then and never in a session.
fn to_save(app: App) -> Option<Tag> {
    let since = app.settings.with(|settings| settings.backed_up);
    let count = app.index.with(|index| {
        let lines = index.recent.iter();
        lines
            .filter(|line| since.is_none_or(|day| line.day > day))
            .count()
    });
    let is_due = count >= UNSAVED.0 && count.is_multiple_of(UNSAVED.1);
    (is_due && app.space == Space::Own).then(|| {
        card(words::unsaved(count))
            .with(soft_small(words::UNSAVED_MORE))
            .with(button(
                "button button--wide",
                words::BACKUP_OUT,
                move || {
                    save_backup(app);
                },
            ))
    })
}

/// What went beyond the last time, exercise by exercise; nothing when nothing
/// did.
fn what_rose(app: App, session: &Session) -> Option<Tag> {
    let mut lines = tag("ul", "lines");
    let mut rose_any = false;
    for now in session_performances(session) {
        let id = now.exercise();
        let before = app.history(id);
        let before = before
            .iter()
            .rev()
            .find(|p| p.day < now.day && !p.sets.is_empty());
        if let (Some(exercise), Some(before)) = (app.exercise(id), before)
            && let Some(rise) = rise(exercise, before, &now)
        {
            let how = reasons::rise(&rise, exercise, app.unit_now());
            lines = lines.with(line(app.name_of(id), how));
            rose_any = true;
        }
    }
    rose_any.then(|| card(words::MORE_THAN_LAST).with(lines))
}
