//! One past session: what was done, how it was changed since, and ways to put it
//! right.
//!
//! Start at [`one_session`]. A change is kept with its trace in one go.

use super::amend::{Amend, amend, discomfort, hurt};
use super::{page, page_head_under, soft};
use crate::effects::clock;
use crate::held::Held;
use crate::markup::{Tag, View, button, either, live, tag, when};
use crate::parts::{labelled, line_more};
use crate::route::{self, Route};
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, errors, reasons, words};
use weekloom_engine::calendar::Moment;
use weekloom_engine::catalogue::Exercise;
use weekloom_engine::log::{Discomfort, SetEntry, SetKind};
use weekloom_engine::session::{Event, Session};
use weekloom_engine::units::Load;
use weekloom_store::{Amendment, Chronicle, Remark, SetNumbers};

/// What of an exercise is being put right.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    /// A set, by its index.
    Set(usize),
    /// A set that was forgotten.
    Another,
    /// The note, and whether it hurt.
    Remarks,
}

/// The session and the part of it that is open.
#[derive(Clone, Copy)]
struct Past {
    app: App,
    session: Held<Session>,
    trace: Held<Chronicle>,
    open: Held<Option<(usize, Part)>>,
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
        trace: Held::new(chronicle),
        session: Held::new(session),
        open: Held::new(None),
    };
    page(under(title).with(soft(length)))
        .with(live(move || past.account()))
        .with((!app.is_reading()).then(|| past.removal()))
        .into()
}

fn place(at: usize) -> u8 {
    u8::try_from(at).unwrap_or(u8::MAX)
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
        let is_empty = item.sets.is_empty();
        if is_empty && changes.is_empty() && self.app.is_reading() {
            return None;
        }
        let id = &item.prescription.exercise;
        let exercise = self.app.exercise(id);
        let unit = self.app.unit_now();
        let name = tag("strong", "").with(self.app.name_of(id));
        let mut shown = tag("li", "stack").with(
            tag("div", "line")
                .with(name)
                .with(line_more(if is_empty {
                    tr(words::NOT_DONE).to_owned()
                } else {
                    reasons::sets_in_words(&item.sets, exercise, unit)
                }))
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
            let turn = self.turn(words::AMEND, index, Part::Set(set));
            let entry = *entry;
            let form = move || self.set_form(index, set, entry, exercise);
            sets = sets.with(
                tag("li", "stack")
                    .with(
                        tag("div", "row row--apart")
                            .with(tag("span", "").with(name))
                            .with(turn),
                    )
                    .with(self.opened(index, Part::Set(set), form)),
            );
        }
        let more = tag("div", "row")
            .with(self.turn(words::ADD_SET, index, Part::Another))
            .with(self.turn(words::REMARKS, index, Part::Remarks));
        let last = item.sets.last().copied();
        let another = move || self.another_form(index, last, exercise);
        let remarks = move || self.remarks_form(index);
        let summary = tag("summary", "").with(words::AMEND_SETS);
        let inside = tag("div", "stack")
            .with(sets)
            .with(more)
            .with(self.opened(index, Part::Another, another))
            .with(self.opened(index, Part::Remarks, remarks));
        shown = shown.with(tag("details", "more").folded().with(summary).with(inside));
        Some(shown)
    }

    /// A button that opens a form, or closes it.
    fn turn(self, words: &'static str, index: usize, part: Part) -> Tag {
        let (open, here) = (self.open, (index, part));
        button("button button--plain", words, move || {
            open.update(|open| *open = (*open != Some(here)).then_some(here));
        })
        .live("aria-expanded", move || {
            let is_open = open.get() == Some(here);
            Some(if is_open { "true" } else { "false" }.into())
        })
    }

    fn opened<V: Into<View>>(
        self,
        index: usize,
        part: Part,
        form: impl Fn() -> V + 'static,
    ) -> View {
        let open = self.open;
        when(move || open.get() == Some((index, part)), form)
    }

    fn set_form(
        self,
        item: usize,
        set: usize,
        entry: SetEntry,
        exercise: Option<&'static Exercise>,
    ) -> Vec<View> {
        amend(Amend {
            app: self.app,
            place: (item, set),
            entry,
            exercise,
            keep: Box::new(move |event| self.change_set(item, set, &event)),
            remove: Some(Box::new(move || {
                self.change_set(item, set, &Event::RemoveSet { item, set });
            })),
        })
    }

    /// One more set, with the numbers of the last or those aimed at as a beginning.
    fn another_form(
        self,
        item: usize,
        last: Option<SetEntry>,
        exercise: Option<&'static Exercise>,
    ) -> Vec<View> {
        let (set, target, asked) = self.session.with_untracked(|session| {
            let item = &session.items[item];
            (item.sets.len(), item.target, item.prescription.reps.0)
        });
        let aim = target.map_or((None, asked), |target| (target.load, target.count));
        let (load, count) = last.map_or(aim, |last| (Some(last.load), last.count));
        let entry = SetEntry {
            kind: SetKind::Work,
            load: load.unwrap_or(Load::ZERO),
            count,
            rir: None,
            at: Moment::default(),
        };
        let keep = move |event| {
            if let Event::AmendSet {
                load, count, rir, ..
            } = event
            {
                let event = Event::AddSet {
                    item,
                    load,
                    count,
                    rir,
                };
                self.change_set(item, set, &event);
            }
        };
        amend(Amend {
            app: self.app,
            place: (item, set),
            entry,
            exercise,
            keep: Box::new(keep),
            remove: None,
        })
    }

    /// The note, and whether it hurt.
    fn remarks_form(self, item: usize) -> Vec<View> {
        let found = self.session.with_untracked(|session| {
            let item = &session.items[item];
            (item.note.clone(), item.discomfort)
        });
        let (note, hurt) = (Held::new(found.0), Held::new(found.1));
        let text = tag("textarea", "input")
            .attr("rows", "2")
            .attr("maxlength", "500")
            .value(Box::new(move || note.get().into()))
            .on_typed(move |text| note.set(text));
        let keep = button("button", words::KEEP, move || {
            self.change_remarks(item, note.get_untracked(), hurt.get_untracked());
        });
        vec![
            discomfort(move || hurt.get(), move |said| hurt.set(said)).into(),
            labelled("past-note", words::NOTE, text).into(),
            tag("div", "row").with(keep).into(),
        ]
    }

    /// What the sets of an item and the remarks on it were before.
    fn changes(self, index: usize) -> Vec<View> {
        let today = self.app.today.get_untracked();
        let on = |at: Moment| dates::date(clock::day_of(at), today);
        let id = self.session.with(|session| session.id.clone());
        self.trace.with(|trace| {
            let of_sets = trace
                .of_session(&id)
                .filter(|change| usize::from(change.item) == index)
                .map(|change| self.set_changed(change, &on(change.at)));
            let of_remarks = trace
                .remarks_of(&id)
                .filter(|change| usize::from(change.item) == index)
                .map(|change| {
                    words::remark_was(&change.note, tr(hurt(change.discomfort)), &on(change.at))
                });
            of_sets
                .chain(of_remarks)
                .map(|line| line_more(line).into())
                .collect()
        })
    }

    fn set_changed(self, change: &Amendment, on: &str) -> String {
        let set = usize::from(change.set) + 1;
        let Some((load, count, rir)) = change.was else {
            return words::set_put_in(set, on);
        };
        let was = SetEntry {
            load,
            count,
            rir,
            at: change.at,
            kind: SetKind::Work,
        };
        let exercise = self.app.exercise(&change.exercise);
        let was = reasons::set_in_words(&was, exercise, self.app.unit_now());
        match change.now {
            Some(_) => words::set_was(set, &was, on),
            None => words::set_taken_out(set, &was, on),
        }
    }

    /// Makes a change of a set and keeps it with its trace.
    fn change_set(self, item: usize, set: usize, event: &Event) {
        let app = self.app;
        let before = self.session.get_untracked();
        let after = match before.apply(event, app.now.get_untracked()) {
            Ok(after) => after,
            Err(refused) => return app.tell(errors::other(&refused)),
        };
        let entry = |session: &Session| {
            let found = session.items.get(item).and_then(|i| i.sets.get(set));
            found.map(numbers)
        };
        // What moved up into the place of a set that was taken out is none of it.
        let is_removal = matches!(event, Event::RemoveSet { .. });
        let (was, now) = (entry(&before), entry(&after).filter(|_| !is_removal));
        if was == now {
            return self.open.set(None);
        }
        let amendment = Amendment {
            session: before.id.clone(),
            at: app.now.get_untracked(),
            exercise: before.items[item].prescription.exercise.clone(),
            item: place(item),
            set: place(set),
            was,
            now,
        };
        self.keep(after, |trace| trace.note(amendment));
    }

    /// Makes a change of the remarks on an exercise and keeps it with its trace.
    fn change_remarks(self, item: usize, text: String, discomfort: Option<Discomfort>) {
        let app = self.app;
        let now = app.now.get_untracked();
        let before = self.session.get_untracked();
        let after = before
            .apply(&Event::Discomfort { item, discomfort }, now)
            .and_then(|session| session.apply(&Event::Note { item, text }, now));
        let after = match after {
            Ok(after) => after,
            Err(refused) => return app.tell(errors::other(&refused)),
        };
        if after == before {
            return self.open.set(None);
        }
        let was = &before.items[item];
        let remark = Remark {
            session: before.id.clone(),
            at: now,
            item: place(item),
            note: was.note.clone(),
            discomfort: was.discomfort,
        };
        self.keep(after, |trace| trace.note_remark(remark));
    }

    /// Keeps the session as it is now together with the trace of the change.
    fn keep(self, after: Session, note: impl FnOnce(&mut Chronicle)) {
        let app = self.app;
        let made = app.ask(|store| {
            let mut chronicle = store
                .load_chronicle()
                .map_err(|unreadable| errors::other(&unreadable))?;
            note(&mut chronicle);
            let session = store.save_session(&after).map_err(|e| errors::store(&e))?;
            let trace = store
                .save_chronicle(&chronicle)
                .map_err(|e| errors::store(&e))?;
            Ok((session.and(trace), chronicle))
        });
        let (changes, chronicle) = match made {
            Ok(made) => made,
            Err(words) => {
                let words: String = words;
                return app.tell(words);
            }
        };
        app.keep(Ok(changes));
        app.refresh_index();
        self.open.set(None);
        self.trace.set(chronicle);
        self.session.set(after);
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
