//! Lasting banners above every screen, and the short word that goes by itself.

use crate::effects::storage::Mode;
use crate::effects::{file, update};
use crate::markup::{Tag, View, button, link, live, tag, when};
use crate::route::{KitPage, Route};
use crate::state::{App, Saving};
use crate::text::language::tr;
use crate::text::words;
use weekloom_engine::session::Phase;
use weekloom_store::Space;

/// What stays until it is mended: storage, demo, set-aside data, an update.
pub fn banners() -> View {
    let app = App::here();
    let demo = (app.space == Space::Demo).then(|| {
        tag("div", "banner banner--demo")
            .with(tag("p", "").with(words::DEMO_BANNER))
            .with(button("button", words::DEMO_LEAVE, move || {
                app.leave_demo();
            }))
    });
    // Of one's own data; what is read of others is in memory and has its file.
    let storage = live(move || {
        if app.is_reading() {
            return None;
        }
        let text = match app.mode.get() {
            Mode::Memory => words::MEMORY_ONLY,
            Mode::Follower => words::OTHER_WINDOW,
            Mode::Durable | Mode::JournalOnly | Mode::ShelfOnly => return None,
        };
        Some(unkept(app, text))
    });
    let saving = live(move || match app.saving.get() {
        Saving::Failed(why) if !app.is_reading() => {
            Some(unkept(app, format!("{} {why}", tr(words::SAVE_FAILED))))
        }
        Saving::Refused(why) if !app.is_reading() => {
            let text = format!("{} {why}", tr(words::NOTHING_CHANGED));
            Some(
                tag("div", "banner")
                    .attr("role", "alert")
                    .with(tag("p", "").with(text)),
            )
        }
        Saving::Saved | Saving::Underway | Saving::Failed(_) | Saving::Refused(_) => None,
    });
    let aside = when(
        move || app.asides.with(|asides| !asides.is_empty()),
        || {
            let data = link("button", Route::Kit(KitPage::Data).hash(), words::DATA);
            warning(words::SOME_ASIDE, data)
        },
    );
    // A new version is offered only between sessions.
    let is_update_offered = move || {
        app.is_update_waiting.get()
            && app.session.with(|s| {
                s.as_ref()
                    .is_none_or(|s| matches!(s.phase, Phase::Finished { .. }))
            })
    };
    let update = when(is_update_offered, || {
        tag("div", "banner")
            .attr("role", "status")
            .with(tag("p", "").with(words::UPDATE_READY))
            .with(tag("div", "row").with(button("button", words::UPDATE_NOW, update::apply)))
    });
    tag("div", "banners")
        .with(demo)
        .with(storage)
        .with(saving)
        .with(aside)
        .with(update)
        .into()
}

/// A warning, and what to do about it.
fn warning(text: impl Into<View>, way_out: Tag) -> Tag {
    tag("div", "banner banner--warn")
        .attr("role", "alert")
        .with(tag("p", "").with(text))
        .with(tag("div", "row").with(way_out))
}

/// Something is not kept: the backup file is the way out.
fn unkept(app: App, text: impl Into<View>) -> Tag {
    warning(
        text,
        button("button", words::BACKUP_OUT, move || save_backup(app)),
    )
}

/// What kind of file a backup is.
pub const BACKUP_KIND: &str = "application/json";

/// The backup file of today: its name and its text.
pub fn backup_file(app: App) -> (String, String) {
    let today = app.today.get_untracked();
    let export = app.ask(|store| weekloom_store::backup::export(store, today));
    if !export.left_out.is_empty() {
        // The banner offers as they are what the file cannot hold.
        app.check_all();
    }
    (format!("weekloom-{today}.json"), export.text)
}

/// Hands the person their backup file and notes the day.
pub fn save_backup(app: App) {
    let today = app.today.get_untracked();
    let (name, text) = backup_file(app);
    match file::save(&name, BACKUP_KIND, &text) {
        Ok(()) => {
            app.change_settings(&|settings| settings.backed_up = Some(today));
            app.tell(name);
        }
        Err(_) => app.tell(words::NOT_SAVED),
    }
}

/// The short word on what just happened.
pub fn notice() -> View {
    let app = App::here();
    let text = live(move || app.notice.get().map(|text| tag("p", "toast").with(text)));
    tag("div", "")
        .attr("role", "status")
        .attr("aria-live", "polite")
        .with(text)
        .into()
}
