//! Logs of others: their backup files, kept to be read beside one's own.
//!
//! Start at [`others`]. A file is looked through before it is kept, and what
//! is read of it stands in [`crate::screens::theirs`].

use super::data::backup_choice;
use super::page_under;
use crate::effects::storage::others::{self, Person};
use crate::held::{Held, later};
use crate::markup::{Tag, View, button, either, live, tag, when};
use crate::parts::{labelled, refusal};
use crate::screens::{card, is_running, soft, theirs};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, errors, others as told, words};
use leptos::prelude::event_target_value;
use std::sync::Arc;
use weekloom_store::backup::{self, Backup};

/// Letters of a name.
const MOST_LETTERS: usize = 40;

#[derive(Clone, Copy)]
struct Page {
    app: App,
    /// `None` until they are known.
    people: Held<Option<Vec<Person>>>,
    refused: Held<Option<String>>,
    /// A file that was looked through and has no name yet, and its text.
    looked: Held<Option<Arc<(Backup, String)>>>,
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
        };
        tag("li", "card")
            .with(tag("h2", "").with(person.name.clone()))
            .with(soft(about))
            .with(tag("div", "row row--apart").with(open).with(ask))
            .with(when(is_leaving, sure))
    }

    /// A file is looked through before anything of it is kept.
    fn choosing(self) -> Tag {
        backup_choice(told::READ_THEIRS, move |read| {
            self.refused.set(read.as_ref().err().cloned());
            self.looked.set(read.ok().map(Arc::new));
        })
    }

    /// Whose it is, and who gives way to it.
    fn naming(self) -> Tag {
        let today = self.app.today.get_untracked();
        let said = self.looked.with_untracked(|looked| {
            let backup = &looked.as_ref()?.0;
            let made = dates::date(backup.made, today);
            Some(told::about(&made, backup.sessions.len()))
        });
        let name = tag("input", "input")
            .attr("type", "text")
            .attr("maxlength", MOST_LETTERS.to_string())
            .attr("autocomplete", "off")
            // At every letter: what comes and goes with the name must not move
            // the button away from under the thumb.
            .on("input", move |event| {
                let text = event_target_value(&event);
                self.refused.set(None);
                self.name
                    .set(text.trim().chars().take(MOST_LETTERS).collect());
            });
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
            .with(labelled("whose", told::WHOSE, name))
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
        if !self.may_read() {
            return;
        }
        later(async move {
            let (backup, text) = &*looked;
            let kept = others::keep(&name, backup.made, backup.sessions.len(), text).await;
            if let Err(failed) = kept {
                // It can be read all the same, this once.
                self.app.tell(told::not_kept(&failed.to_string()));
            }
            if let Err(why) = theirs::begin(self.app, &name, backup) {
                self.refuse(&why);
            }
        });
    }

    /// The rests of a session under way would end unheard meanwhile.
    fn may_read(self) -> bool {
        let is_free = !is_running(self.app);
        if !is_free {
            self.refuse(tr(told::FINISH_FIRST_READ));
        }
        is_free
    }

    fn open(self, name: String) {
        if !self.may_read() {
            return;
        }
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
