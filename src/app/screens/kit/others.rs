//! Logs of others: their backup files, kept to be read beside one's own.
//!
//! Start at [`others`]. A file is looked through before it is kept, and what
//! is read of it stands in [`crate::screens::theirs`].

use super::page_under;
use crate::effects::storage::others::{self, Person};
use crate::held::{Held, later};
use crate::markup::{Tag, View, button, either, live, tag};
use crate::parts::{TypedField, file_choice, line, refusal};
use crate::screens::{card, soft, theirs};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, errors, others as told, words};
use std::sync::Arc;
use weekloom_store::backup::{self, Backup};

/// Letters of a name.
const MOST_LETTERS: usize = 40;

/// A file that was looked through and has no name yet.
struct Looked {
    backup: Backup,
    text: String,
}

#[derive(Clone, Copy)]
struct Page {
    app: App,
    /// `None` until they are known.
    people: Held<Option<Vec<Person>>>,
    refused: Held<Option<String>>,
    looked: Held<Option<Arc<Looked>>>,
    name: Held<String>,
    /// Whom to forget, once that is said twice.
    leaving: Held<Option<String>>,
}

/// Everybody whose log is at hand, and a way to take in another.
pub(super) fn others() -> Tag {
    let page = Page {
        app: App::here(),
        people: Held::new(None),
        refused: Held::new(None),
        looked: Held::new(None),
        name: Held::new(String::new()),
        leaving: Held::new(None),
    };
    page.list_anew();
    page_under(told::OTHERS)
        .with(soft(told::OTHERS_MORE))
        .with(live(move || page.listed()))
        .with(refusal(page.refused))
        .with(either(
            move || page.looked.with(Option::is_some),
            move || page.naming().into(),
            move || page.choosing().into(),
        ))
}

impl Page {
    fn list_anew(self) {
        later(async move {
            match others::people().await {
                Ok(people) => self.people.set(Some(people)),
                Err(failed) => {
                    self.people.set(Some(Vec::new()));
                    self.refuse(&told::not_kept(&failed.to_string()));
                }
            }
        });
    }

    fn refuse(self, why: &str) {
        self.refused.set(Some(why.to_owned()));
    }

    fn listed(self) -> Option<View> {
        self.people.with(|people| {
            let people = people.as_ref()?;
            if people.is_empty() {
                return Some(tag("p", "").with(told::NOBODY).into());
            }
            let row = |person: &Person| self.person(person);
            Some(
                people
                    .iter()
                    .map(row)
                    .fold(tag("ul", "stack"), Tag::with)
                    .into(),
            )
        })
    }

    fn person(self, person: &Person) -> Tag {
        let today = self.app.today.get_untracked();
        let about = person.about.map_or_else(
            || tr(told::ABOUT_UNKNOWN).to_owned(),
            |(made, sessions)| told::about(&dates::date(made, today), sessions),
        );
        let name = person.name.clone();
        let open = button("button button--main", told::READ, {
            let name = name.clone();
            move || self.open(name.clone())
        });
        let ask = button("button button--plain", told::FORGET, {
            let name = name.clone();
            move || self.leaving.set(Some(name.clone()))
        });
        let is_leaving = {
            let name = name.clone();
            move || self.leaving.with(|leaving| leaving.as_ref() == Some(&name))
        };
        let sure = move || {
            let name = name.clone();
            tag("div", "row")
                .with(button(
                    "button button--warn",
                    told::FORGET_SURE,
                    move || {
                        self.forget(name.clone());
                    },
                ))
                .with(button("button", words::CANCEL, move || {
                    self.leaving.set(None)
                }))
                .into()
        };
        tag("li", "card")
            .with(line(person.name.clone(), about))
            .with(tag("div", "row row--apart").with(open).with(ask))
            .with(either(is_leaving, sure, || View::from(Vec::new())))
    }

    fn choosing(self) -> Tag {
        file_choice(
            told::READ_THEIRS,
            "application/json,.json",
            backup::MOST_BYTES,
            move |chosen| self.look(chosen),
        )
    }

    /// Looks through a file before anything of it is kept.
    fn look(self, chosen: Result<String, &'static str>) {
        let looked = match chosen {
            Ok(text) => match backup::read_backup(&text) {
                Ok(backup) => Ok(Looked { backup, text }),
                Err(error) => Err(errors::other(&error)),
            },
            Err(why) => Err(tr(why).to_owned()),
        };
        match looked {
            Ok(looked) => {
                self.refused.set(None);
                self.looked.set(Some(Arc::new(looked)));
            }
            Err(why) => self.refused.set(Some(why)),
        }
    }

    /// Whose it is, and who gives way to it.
    fn naming(self) -> Tag {
        let today = self.app.today.get_untracked();
        let said = self.looked.with_untracked(|looked| {
            let backup = &looked.as_ref()?.backup;
            let made = dates::date(backup.made, today);
            Some(told::about(&made, backup.sessions.len()))
        });
        let name = TypedField {
            label: tr(told::WHOSE).into(),
            id: "whose".to_owned(),
            value: Box::new(move || self.name.get().into()),
            error: Held::new(None),
            on_typed: Box::new(move |text| {
                self.name
                    .set(text.trim().chars().take(MOST_LETTERS).collect());
            }),
            unit: None,
        };
        let replaced = live(move || {
            let name = self.name.get();
            let is_here = self.people.with(|people| {
                let mut people = people.iter().flatten();
                people.any(|person| person.name == name)
            });
            is_here.then(|| soft(told::gives_way(&name)))
        });
        card(told::WHOSE_LOG)
            .with(said.map(soft))
            .with(name)
            .with(replaced)
            .with(
                tag("div", "row")
                    .with(button(
                        "button button--main",
                        told::KEEP_AND_READ,
                        move || {
                            self.keep();
                        },
                    ))
                    .with(button("button", words::CANCEL, move || self.put_away())),
            )
    }

    fn put_away(self) {
        self.looked.set(None);
        self.name.set(String::new());
        self.refused.set(None);
    }

    fn keep(self) {
        let name = self.name.get_untracked();
        if name.is_empty() {
            return self.refuse(tr(told::NAME_FIRST));
        }
        let Some(looked) = self.looked.get_untracked() else {
            return;
        };
        later(async move {
            let backup = &looked.backup;
            let kept = others::keep(&name, backup.made, backup.sessions.len(), &looked.text).await;
            if let Err(failed) = kept {
                // It can be read all the same, this once.
                self.app.tell(told::not_kept(&failed.to_string()));
            }
            if let Err(why) = theirs::begin(self.app, &name, backup) {
                self.refuse(&why);
            }
        });
    }

    fn open(self, name: String) {
        later(async move {
            let read = match others::file(&name).await {
                Ok(Some(text)) => backup::read_backup(&text).map_err(|e| errors::other(&e)),
                Ok(None) => Err(tr(words::FILE_UNREADABLE).to_owned()),
                Err(failed) => Err(told::not_kept(&failed.to_string())),
            };
            let begun = read.and_then(|backup| theirs::begin(self.app, &name, &backup));
            if let Err(why) = begun {
                self.refuse(&why);
            }
        });
    }

    fn forget(self, name: String) {
        self.leaving.set(None);
        later(async move {
            match others::forget(&name).await {
                Ok(()) => self.list_anew(),
                Err(failed) => self.refuse(&told::not_kept(&failed.to_string())),
            }
        });
    }
}
