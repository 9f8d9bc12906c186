//! Where the data lives and how to take it away, bring it back, or delete it.

use crate::effects::{file, storage};
use crate::route::{self, KitPage, Route};
use crate::screens::{PageHead, banners};
use crate::state::App;
use crate::text::{dates, errors, reasons, words};
use leptos::html::Input;
use leptos::prelude::*;
use leptos::task::spawn_local;
use weekloom_store::backup::{self, Backup, Take};
use weekloom_store::{Aside, Space};

/// Backup out and in, set-aside values, demo, delete.
#[component]
pub fn Data() -> impl IntoView {
    let app = App::here();
    app.check_all();
    let last = move || {
        app.settings
            .get()
            .backed_up
            .map(|day| words::last_backup(&dates::date(day, app.today.get())))
    };
    view! {
        <main class="page">
            <PageHead
                title=Signal::stored(words::DATA.to_owned())
                back=Route::Kit(KitPage::Index)
            />
            <section class="card">
                <p>{words::DATA_WHERE}</p>
                <p class="soft small">{move || words::used(app.used_characters())}</p>
                <button
                    type="button"
                    class="button button--main button--wide"
                    on:click=move |_| banners::save_backup(app)
                >
                    {words::BACKUP_OUT}
                </button>
                {move || last().map(|text| view! { <p class="soft small">{text}</p> })}
                <Import />
            </section>
            <SetAside />
            <Demo />
            <Erase />
        </main>
    }
}

/// Choosing a file, seeing what it would do, and only then taking it in.
#[component]
pub fn Import() -> impl IntoView {
    let input = NodeRef::<Input>::new();
    let refused = RwSignal::new(None::<String>);
    let offered = RwSignal::new(None::<Backup>);
    let read = move |_| {
        refused.set(None);
        offered.set(None);
        let Some(file) = input
            .get_untracked()
            .and_then(|input| input.files())
            .and_then(|files| files.get(0))
        else {
            return;
        };
        #[expect(clippy::cast_precision_loss, reason = "a file size, compared roughly")]
        let is_too_large = file.size() > backup::MOST_BYTES as f64;
        if is_too_large {
            refused.set(Some(words::FILE_TOO_LARGE.to_owned()));
            return;
        }
        spawn_local(async move {
            match file::read(&file).await {
                Ok(text) => match backup::read_backup(&text) {
                    Ok(found) => {
                        offered.try_set(Some(found));
                    }
                    Err(error) => {
                        refused.try_set(Some(errors::other(&error)));
                    }
                },
                Err(_) => {
                    refused.try_set(Some(words::FILE_UNREADABLE.to_owned()));
                }
            }
            // The same file may be chosen again.
            if let Some(input) = input.try_get_untracked().flatten() {
                input.set_value("");
            }
        });
    };
    view! {
        <label class="button button--wide file-button">
            {words::BACKUP_IN}
            <input
                type="file"
                class="unseen"
                accept="application/json,.json"
                node_ref=input
                on:change=read
            />
        </label>
        {move || {
            refused
                .get()
                .map(|why| {
                    view! {
                        <div class="banner banner--warn" role="alert">
                            <p>{why}</p>
                            <p>{words::NOTHING_CHANGED}</p>
                        </div>
                    }
                })
        }}
        {move || {
            offered
                .get()
                .map(|backup| {
                    view! { <Offer backup on_done=Callback::new(move |()| offered.set(None)) /> }
                })
        }}
    }
}

/// What taking a backup in would do, and the choice.
#[component]
fn Offer(backup: Backup, on_done: Callback<()>) -> impl IntoView {
    let app = App::here();
    let preview = app.ask(|store| backup::preview(store, &backup));
    let made = dates::date(backup.made, app.today.get_untracked());
    let differs = reasons::differs(&preview);
    let takes_theirs = RwSignal::new(true);
    let accept = move |_| {
        let take = if takes_theirs.get_untracked() {
            Take::Backup
        } else {
            Take::Mine
        };
        let choice = backup::Choice {
            person: take,
            plan: take,
            settings: take,
        };
        match app.ask(|store| backup::merge(store, &backup, choice)) {
            Ok(changes) => {
                app.replace_with(changes);
                app.tell(words::BACKUP_TAKEN);
            }
            Err(error) => app.tell(errors::store(&error)),
        }
        on_done.run(());
    };
    view! {
        <div class="banner" role="status">
            <p>{words::backup_of(&made)}</p>
            <p>{words::backup_brings(preview.new, preview.changed, preview.same + preview.kept)}</p>
            {differs
                .then(|| {
                    view! {
                        <label class="tick">
                            <input
                                type="checkbox"
                                prop:checked=move || takes_theirs.get()
                                on:change=move |event| takes_theirs.set(event_target_checked(&event))
                            />
                            {words::BACKUP_PLAN_TOO}
                        </label>
                    }
                })}
            <div class="row">
                <button type="button" class="button" on:click=accept>
                    {words::BACKUP_ACCEPT}
                </button>
                <button
                    type="button"
                    class="button button--plain"
                    on:click=move |_| on_done.run(())
                >
                    {words::CANCEL}
                </button>
            </div>
        </div>
    }
}

/// Values that could not be read, to be saved as a file.
#[component]
fn SetAside() -> impl IntoView {
    let app = App::here();
    let save = move |_| {
        let text = app.asides.with_untracked(|asides| {
            asides
                .iter()
                .map(|Aside { key, why, text }| format!("{key}\n{why}\n{text}\n\n"))
                .collect::<String>()
        });
        let name = format!("weekloom-set-aside-{}.txt", app.today.get_untracked());
        if file::save(&name, "text/plain", &text).is_err() {
            app.tell(words::NOT_SAVED);
        }
    };
    view! {
        <Show when=move || !app.asides.with(Vec::is_empty)>
            <section class="card">
                <h2>{words::ASIDE}</h2>
                <p>{words::ASIDE_MORE}</p>
                <ul class="stack small">
                    <For
                        each=move || app.asides.get()
                        key=|aside| (aside.key.clone(), aside.text.len())
                        let:aside
                    >
                        <li>{aside.key} ": " {aside.why}</li>
                    </For>
                </ul>
                <button type="button" class="button" on:click=save>
                    {words::ASIDE_SAVE}
                </button>
            </section>
        </Show>
    }
}

/// The invented crew, kept apart from the person's own data.
#[component]
fn Demo() -> impl IntoView {
    let app = App::here();
    view! {
        <section class="card">
            <h2>{words::DEMO}</h2>
            <p>{words::DEMO_MORE}</p>
            {if app.space == Space::Demo {
                view! {
                    <button
                        type="button"
                        class="button button--wide"
                        on:click=move |_| app.leave_demo()
                    >
                        {words::DEMO_LEAVE}
                    </button>
                }
                    .into_any()
            } else {
                view! {
                    <button
                        type="button"
                        class="button button--wide"
                        on:click=move |_| storage::choose_space(Space::Demo)
                    >
                        {words::DEMO_ENTER}
                    </button>
                }
                    .into_any()
            }}
        </section>
    }
}

/// Deleting everything, asked twice.
#[component]
fn Erase() -> impl IntoView {
    let app = App::here();
    let is_asked = RwSignal::new(false);
    let erase = move |_| {
        is_asked.set(false);
        let changes = app.ask(|store| store.delete_all());
        app.replace_with(changes);
        route::replace(&Route::Today);
    };
    view! {
        <section class="card">
            <h2>{words::DELETE_ALL}</h2>
            <p>{words::DELETE_ALL_MORE}</p>
            <Show
                when=move || is_asked.get()
                fallback=move || {
                    view! {
                        <button
                            type="button"
                            class="button button--warn button--wide"
                            on:click=move |_| is_asked.set(true)
                        >
                            {words::DELETE_ALL}
                        </button>
                    }
                }
            >
                <div class="row">
                    <button type="button" class="button button--warn" on:click=erase>
                        {words::DELETE_SURE}
                    </button>
                    <button
                        type="button"
                        class="button"
                        on:click=move |_| is_asked.set(false)
                    >
                        {words::CANCEL}
                    </button>
                </div>
            </Show>
        </section>
    }
}
