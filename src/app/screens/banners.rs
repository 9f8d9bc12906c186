//! Lasting banners above every screen, and the short word that goes by itself.

use crate::effects::storage::Mode;
use crate::effects::{file, update};
use crate::route::{KitPage, Route};
use crate::state::{App, Saving};
use crate::text::words;
use leptos::prelude::*;
use weekloom_engine::session::Phase;
use weekloom_store::Space;

/// What stays until it is mended: storage, demo, set-aside data, an update.
#[component]
pub fn Banners() -> impl IntoView {
    let app = App::here();
    // A new version is offered only between sessions.
    let is_update_offered = move || {
        app.is_update_waiting.get()
            && app.session.with(|s| {
                s.as_ref()
                    .is_none_or(|s| matches!(s.phase, Phase::Finished { .. }))
            })
    };
    view! {
        <div class="banners">
            {(app.space == Space::Demo)
                .then(|| {
                    view! {
                        <div class="banner banner--demo">
                            <p>{words::DEMO_BANNER}</p>
                            <button
                                type="button"
                                class="button"
                                on:click=move |_| app.leave_demo()
                            >
                                {words::DEMO_LEAVE}
                            </button>
                        </div>
                    }
                })}
            {move || {
                let text = match app.mode.get() {
                    Mode::Memory => Some(words::MEMORY_ONLY.to_owned()),
                    Mode::Follower => Some(words::OTHER_WINDOW.to_owned()),
                    Mode::Durable | Mode::JournalOnly | Mode::ShelfOnly => None,
                };
                text.map(|text| view! { <Warning text is_file_offered=true /> })
            }}
            {move || match app.saving.get() {
                Saving::Failed(why) => {
                    Some(
                        view! {
                            <Warning
                                text=format!("{} {why}", words::SAVE_FAILED)
                                is_file_offered=true
                            />
                        },
                    )
                }
                Saving::Saved | Saving::Underway => None,
            }}
            <Show when=move || !app.asides.with(Vec::is_empty)>
                <div class="banner banner--warn" role="alert">
                    <p>{words::SOME_ASIDE}</p>
                    <div class="row">
                        <a class="button" href=Route::Kit(KitPage::Data).hash()>
                            {words::DATA}
                        </a>
                    </div>
                </div>
            </Show>
            <Show when=is_update_offered>
                <div class="banner" role="status">
                    <p>{words::UPDATE_READY}</p>
                    <div class="row">
                        <button type="button" class="button" on:click=move |_| update::apply()>
                            {words::UPDATE_NOW}
                        </button>
                    </div>
                </div>
            </Show>
        </div>
    }
}

#[component]
fn Warning(text: String, is_file_offered: bool) -> impl IntoView {
    let app = App::here();
    view! {
        <div class="banner banner--warn" role="alert">
            <p>{text}</p>
            {is_file_offered
                .then(|| {
                    view! {
                        <div class="row">
                            <button
                                type="button"
                                class="button"
                                on:click=move |_| save_backup(app)
                            >
                                {words::BACKUP_OUT}
                            </button>
                        </div>
                    }
                })}
        </div>
    }
}

/// Hands the person their backup file and notes the day.
pub fn save_backup(app: App) {
    let today = app.today.get_untracked();
    let export = app.ask(|store| weekloom_store::backup::export(store, today));
    let name = format!("weekloom-{today}.json");
    match file::save(&name, "application/json", &export.text) {
        Ok(()) => {
            app.change_settings(|settings| settings.backed_up = Some(today));
            app.tell(name);
        }
        Err(_) => app.tell(words::NOT_SAVED),
    }
}

/// The short word on what just happened.
#[component]
pub fn Notice() -> impl IntoView {
    let app = App::here();
    view! {
        <div role="status" aria-live="polite">
            {move || {
                app.notice.get().map(|text| view! { <p class="toast">{text}</p> })
            }}
        </div>
    }
}
