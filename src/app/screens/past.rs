//! One past session: what was done, how it was changed since, and ways to put it
//! right.
//!
//! Start at [`one_session`]. A change is kept with its trace in one go.

use super::amend::{Amend, amend};
use super::{page, page_head_under, soft};
use crate::effects::clock;
use crate::held::Held;
use crate::markup::{Tag, View, button, either, live, tag, when};
use crate::parts::line_more;
use crate::route::{self, Route};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, errors, reasons, words};
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::session::{Event, Session};
use weekloom_store::{Amendment, SetNumbers};

/// The session and the set whose numbers are open.
#[derive(Clone, Copy)]
struct Past {
    app: App,
    session: Held<Session>,
    trace: Held<Vec<Amendment>>,
    open: Held<Option<(usize, usize)>>,
}

/// One past session.
pub fn one_session(id: &str) -> View {
    let app = App::here();
    let today = app.today.get_untracked();
    let under = |title: String| page_head_under(&Route::Log, title);
    let session = match app.ask(|store| store.read_session(id)) {
        Ok(Some(session)) => session,
        Ok(None) => return page(under(tr(words::LOG_EMPTY).to_owned())).into(),
        Err(unreadable) => {
            return page(under(tr(words::ASIDE).to_owned()))
                .with(tag("p", "").with(errors::other(&unreadable)))
                .into();
        }
    };
    let title = dates::full(session.day, today);
    let length = dates::minutes(session.duration_s(app.now.get_untracked()));
    // One that cannot be read is set aside and told of in a banner.
    let chronicle = app.ask(|store| store.load_chronicle().unwrap_or_default());
    let past = Past {
        app,
        trace: Held::new(chronicle.of_session(id).cloned().collect()),
        session: Held::new(session),
        open: Held::new(None),
    };
    page(under(title).with(soft(length)))
        .with(live(move || past.account()))
        .with((!app.is_reading()).then(|| past.removal()))
        .into()
}

const fn numbers(entry: &SetEntry) -> SetNumbers {
    (entry.load, entry.count, entry.rir)
}

impl Past {
    /// What was done, exercise by exercise.
    fn account(self) -> Tag {
        let mut list = tag("ul", "card lines");
        let count = self.session.with(|session| session.items.len());
        for index in 0..count {
            list = list.with(self.item(index));
        }
        list
    }

    fn item(self, index: usize) -> Option<Tag> {
        let item = self.session.with(|s| s.items.get(index).cloned())?;
        let changes = self.changes(index);
        if item.sets.is_empty() && changes.is_empty() {
            return None;
        }
        let id = &item.prescription.exercise;
        let exercise = self.app.exercise(id);
        let unit = self.app.unit_now();
        let name = tag("strong", "").with(self.app.name_of(id));
        let mut shown = tag("li", "stack").with(
            tag("div", "line")
                .with(name)
                .with(line_more(reasons::sets_in_words(
                    &item.sets, exercise, unit,
                )))
                .with(item.discomfort.map(|d| line_more(reasons::discomfort(d))))
                .with((!item.note.is_empty()).then(|| line_more(item.note.clone())))
                .with(changes),
        );
        if self.app.is_reading() {
            return Some(shown);
        }
        let mut sets = tag("ul", "stack");
        for (set, entry) in item.sets.iter().enumerate() {
            let in_words = reasons::set_in_words(entry, exercise, unit);
            let name = format!("{}: {in_words}", words::set_of_short(set + 1));
            let here = (index, set);
            let open = self.open;
            let turn = button("button button--plain", words::AMEND, move || {
                open.update(|open| *open = (*open != Some(here)).then_some(here));
            });
            let entry = *entry;
            let form = when(
                move || open.get() == Some(here),
                move || {
                    amend(Amend {
                        app: self.app,
                        place: here,
                        entry,
                        exercise,
                        keep: Box::new(move |event| self.change(here, &event)),
                        remove: Box::new(move || {
                            let (item, set) = here;
                            self.change(here, &Event::RemoveSet { item, set });
                        }),
                    })
                },
            );
            sets = sets.with(
                tag("li", "stack")
                    .with(
                        tag("div", "row row--apart")
                            .with(tag("span", "").with(name))
                            .with(turn),
                    )
                    .with(form),
            );
        }
        let summary = tag("summary", "").with(words::AMEND_SETS);
        shown = shown.with(tag("details", "more").folded().with(summary).with(sets));
        Some(shown)
    }

    /// What the sets of an item were before.
    fn changes(self, index: usize) -> Vec<View> {
        let today = self.app.today.get_untracked();
        let of_item = |a: &&Amendment| usize::from(a.item) == index;
        self.trace.with(|trace| {
            let lines = trace.iter().filter(of_item).map(|change| {
                let (load, count, rir) = change.was;
                let was = SetEntry {
                    load,
                    count,
                    rir,
                    at: change.at,
                    kind: SetKind::Work,
                };
                let exercise = self.app.exercise(&change.exercise);
                let was = reasons::set_in_words(&was, exercise, self.app.unit_now());
                let on = dates::date(clock::day_of(change.at), today);
                let set = usize::from(change.set) + 1;
                line_more(match change.now {
                    Some(_) => words::set_was(set, &was, &on),
                    None => words::set_taken_out(set, &was, &on),
                })
                .into()
            });
            lines.collect()
        })
    }

    /// Makes a change of a set and keeps it with its trace.
    fn change(self, (item, set): (usize, usize), event: &Event) {
        let app = self.app;
        let now = app.now.get_untracked();
        let before = self.session.get_untracked();
        let after = match before.apply(event, now) {
            Ok(after) => after,
            Err(refused) => return app.tell(errors::other(&refused)),
        };
        let entry = |session: &Session| {
            let found = session.items.get(item).and_then(|i| i.sets.get(set));
            found.map(numbers)
        };
        let Some(was) = entry(&before) else {
            return;
        };
        let is_removal = matches!(event, Event::RemoveSet { .. });
        let place = |at: usize| u8::try_from(at).unwrap_or(u8::MAX);
        let amendment = Amendment {
            session: before.id.clone(),
            at: now,
            exercise: before.items[item].prescription.exercise.clone(),
            item: place(item),
            set: place(set),
            was,
            now: if is_removal { None } else { entry(&after) },
        };
        self.open.set(None);
        if amendment.now == Some(was) {
            return;
        }
        let made = app.ask(|store| {
            let mut chronicle = store
                .load_chronicle()
                .map_err(|unreadable| errors::other(&unreadable))?;
            chronicle.note(amendment.clone());
            let session = store.save_session(&after).map_err(|e| errors::store(&e))?;
            let trace = store
                .save_chronicle(&chronicle)
                .map_err(|e| errors::store(&e))?;
            Ok(session.and(trace))
        });
        match made {
            Ok(changes) => {
                app.keep(Ok(changes));
                app.refresh_index();
                self.trace.update(|trace| trace.push(amendment));
                self.session.set(after);
            }
            Err(words) => {
                let words: String = words;
                app.tell(words);
            }
        }
    }

    /// Takes the whole session out of the log, once that was said twice.
    fn removal(self) -> View {
        let is_asked = Held::new(false);
        let ask = move || {
            button(
                "button button--warn button--wide",
                words::REMOVE_SESSION,
                move || is_asked.set(true),
            )
            .into()
        };
        let remove = move || {
            let id = self.session.with_untracked(|session| session.id.clone());
            self.app
                .keep(self.app.ask(|store| store.delete_session(&id)));
            self.app.refresh_index();
            self.app.tell(words::SESSION_REMOVED);
            route::replace(&Route::Log);
        };
        let sure = move || {
            tag("div", "stack")
                .with(soft(words::REMOVE_SESSION_MORE))
                .with(
                    tag("div", "row")
                        .with(button("button button--warn", words::REMOVE_SURE, remove))
                        .with(button("button", words::CANCEL, move || is_asked.set(false))),
                )
                .into()
        };
        either(move || is_asked.get(), sure, ask)
    }
}
