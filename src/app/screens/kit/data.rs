//! Where the data lives and how to take it away, bring it back, or delete it.

use super::page_under;
use crate::effects::share::{self, Ended, Shared};
use crate::effects::{file, storage};
use crate::held::{Held, later};
use crate::markup::{Tag, View, button, either, live, tag, when};
use crate::parts::{file_choice, tick};
use crate::route::{self, Route};
use crate::screens::{banners, card, soft_small};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, errors, others, reasons, words};
use weekloom_store::backup::{self, Backup, Take};
use weekloom_store::{Aside, Space};

/// Backup out and in, set-aside values, demo, delete.
pub fn data() -> Tag {
    let app = App::here();
    app.check_all();
    let last = live(move || {
        let day = app.settings.with(|settings| settings.backed_up)?;
        let day = dates::date(day, app.today.get());
        Some(soft_small(words::last_backup(&day)))
    });
    let save = button(
        "button button--main button--wide",
        words::BACKUP_OUT,
        move || banners::save_backup(app),
    );
    let backup = tag("section", "card")
        .with(tag("p", "").with(words::DATA_WHERE))
        .with(soft_small(live(move || words::used(app.used_characters()))))
        .with(save)
        .with(share_backup(app))
        .with(last)
        .with(import());
    page_under(words::DATA)
        .with(backup)
        .with(super::take::take_along())
        .with(set_aside(app))
        .with(demo(app))
        .with(erase(app))
}

/// Handing the backup file to another program, where the platform can.
fn share_backup(app: App) -> Option<Tag> {
    // Asked with an empty one: what is asked for is whether this kind is taken.
    share::is_offered(&Shared::File("backup.json", banners::BACKUP_KIND, "")).then(|| {
        button("button button--wide", words::BACKUP_SHARE, move || {
            let (name, text) = banners::backup_file(app);
            later(async move {
                let file = Shared::File(&name, banners::BACKUP_KIND, &text);
                match share::share(&file).await {
                    Ended::Taken => {
                        let today = app.today.get_untracked();
                        app.change_settings(&|settings| settings.backed_up = Some(today));
                    }
                    Ended::Left => {}
                    Ended::Refused => app.tell(words::NOT_SHARED),
                }
            });
        })
    })
}

/// What came of the file that was chosen.
#[derive(Clone, Copy)]
struct Chosen {
    refused: Held<Option<String>>,
    offered: Held<Option<Backup>>,
}

impl Chosen {
    fn take(self, read: Result<(Backup, String), String>) {
        self.refused.set(read.as_ref().err().cloned());
        self.offered.set(read.ok().map(|(backup, _)| backup));
    }
}

/// A button that lets a backup file be chosen. What comes of it: what it holds
/// and its text, or in words why it is refused.
pub(super) fn backup_choice(
    name: &'static str,
    take: impl Fn(Result<(Backup, String), String>) + 'static,
) -> Tag {
    file_choice(
        name,
        "application/json,.json",
        backup::MOST_BYTES,
        move |chosen| {
            let text = chosen.map_err(|why| tr(why).to_owned());
            take(text.and_then(|text| match backup::read_backup(&text) {
                Ok(found) => Ok((found, text)),
                Err(error) => Err(errors::other(&error)),
            }));
        },
    )
}

/// Choosing a file, seeing what it would do, and only then taking it in.
pub fn import() -> View {
    let app = App::here();
    let chosen = Chosen {
        refused: Held::new(None),
        offered: Held::new(None),
    };
    let label = backup_choice(words::BACKUP_IN, move |read| chosen.take(read));
    let refused = live(move || {
        let why = chosen.refused.get()?;
        let banner = tag("div", "banner banner--warn")
            .attr("role", "alert")
            .with(tag("p", "").with(why))
            .with(tag("p", "").with(words::NOTHING_CHANGED));
        Some(banner)
    });
    let offered = live(move || {
        let backup = chosen.offered.get()?;
        Some(offer(app, backup, chosen.offered))
    });
    vec![label.into(), refused, offered].into()
}

/// What taking a backup in would do, and the choice.
fn offer(app: App, backup: Backup, offered: Held<Option<Backup>>) -> Tag {
    let preview = app.ask(|store| backup::preview(store, &backup));
    let made = dates::date(backup.made, app.today.get_untracked());
    let brings = words::backup_brings(preview.new, preview.changed, preview.same + preview.kept);
    let takes_theirs = Held::new(true);
    let accept = move || {
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
        offered.set(None);
    };
    let differs = reasons::differs(&preview).then(|| {
        tick(
            words::BACKUP_PLAN_TOO,
            move || takes_theirs.get(),
            move |is_so| takes_theirs.set(is_so),
        )
    });
    let cancel = button("button button--plain", words::CANCEL, move || {
        offered.set(None);
    });
    tag("div", "banner")
        .attr("role", "status")
        .with(tag("p", "").with(words::backup_of(&made)))
        .with(tag("p", "").with(brings))
        .with(differs)
        .with(
            tag("div", "row")
                .with(button("button", words::BACKUP_ACCEPT, accept))
                .with(cancel),
        )
}

/// Values that could not be read, to be saved as a file.
fn set_aside(app: App) -> View {
    let save = move || {
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
    let lines = move || {
        app.asides.with(|asides| {
            let line = |aside: &Aside| {
                let text = format!("{}: {}", aside.key, aside.why);
                tag("li", "").with(text).into()
            };
            asides.iter().map(line).collect::<Vec<View>>()
        })
    };
    when(
        move || app.asides.with(|asides| !asides.is_empty()),
        move || {
            card(words::ASIDE)
                .with(tag("p", "").with(words::ASIDE_MORE))
                .with(tag("ul", "stack small").with(live(lines)))
                .with(button("button", words::ASIDE_SAVE, save))
        },
    )
}

/// The invented crew, kept apart from the person's own data.
fn demo(app: App) -> Tag {
    let door = if app.space == Space::Demo {
        button("button button--wide", words::DEMO_LEAVE, move || {
            app.leave_demo();
        })
    } else {
        button("button button--wide", words::DEMO_ENTER, || {
            storage::choose_space(Space::Demo);
        })
    };
    card(words::DEMO)
        .with(tag("p", "").with(words::DEMO_MORE))
        .with(door)
}

/// Deleting everything, asked twice.
fn erase(app: App) -> Tag {
    let is_asked = Held::new(false);
    let ask = move || {
        button(
            "button button--warn button--wide",
            words::DELETE_ALL,
            move || is_asked.set(true),
        )
        .into()
    };
    let erase = move || {
        is_asked.set(false);
        let changes = app.ask(|store| store.delete_all());
        app.replace_with(changes);
        if app.space == Space::Own {
            later(async move {
                if let Err(failed) = storage::others::forget_all().await {
                    app.tell(others::not_forgotten(&failed.to_string()));
                }
            });
        }
        route::replace(&Route::Today);
    };
    let sure = move || {
        let sure = button("button button--warn", words::DELETE_SURE, erase);
        let cancel = button("button", words::CANCEL, move || is_asked.set(false));
        tag("div", "row").with(sure).with(cancel).into()
    };
    card(words::DELETE_ALL)
        .with(tag("p", "").with(words::DELETE_ALL_MORE))
        .with(either(move || is_asked.get(), sure, ask))
}
