//! The store: typed reads and writes over a shelf and its journal.
//!
//! Start at [`Store::open`]; then for every change: `save_…` to [`Changes`],
//! [`Store::prepare`] to a journal record, commit that record durably, and
//! [`Store::commit`] to put it on the shelf. What the shelf refuses is kept in
//! memory for this run, and the journal has it for the next.

use crate::chronicle::Chronicle;
use crate::envelope::{self, SCHEMA};
use crate::index::{self, Derived, History, Index};
use crate::journal::{self, DamagedRecord, Found, Intent, JournalRecord, LastWrite};
use crate::json::{self, Json, Reader, Unknown};
use crate::keys::{Key, Space};
use crate::own::OwnExercises;
use crate::settings::{AcceptedPlan, Settings};
use crate::shelf::{Shelf, ShelfError};
use crate::wire::{self, Stored, WireError};
use std::fmt;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::log::Performance;
use weekloom_engine::order::{self, Map, Set};
use weekloom_engine::person::Person;
use weekloom_engine::session::{Phase, Session, session_performances};

/// Why a stored value cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// Cut short or changed since it was written.
    Damaged(String),
    /// Written by a newer version of Weekloom.
    Newer(u32),
    /// Whole, but a value in it is not allowed.
    Refused(WireError),
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged(what) => write!(f, "the value is damaged: {what}"),
            Self::Newer(version) => write!(
                f,
                "the value has version {version}, this app reads up to {SCHEMA}; load the newest app"
            ),
            Self::Refused(error) => write!(f, "the value is refused: {error}"),
        }
    }
}

/// A stored value that cannot be read. It is left as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// Its full key.
    pub key: String,
    /// What is wrong.
    pub why: Why,
    /// The whole stored text, for the person to download.
    pub text: String,
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.key, self.why)
    }
}

impl std::error::Error for Unreadable {}

/// A value that could not be read and was kept untouched.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Aside {
    /// The key it had or still has.
    pub key: String,
    /// What was wrong with it.
    pub why: String,
    /// The whole text.
    pub text: String,
}

/// A change was refused before anything was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StoreError {
    /// The value could not be read back.
    Refused(WireError),
    /// Only a finished session goes into the log.
    NotFinished(String),
    /// A newer version of Weekloom wrote what stands there.
    Newer {
        /// The full key.
        key: String,
        /// The version found.
        version: u32,
    },
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(error) => write!(f, "the value cannot be kept: {error}"),
            Self::NotFinished(id) => write!(f, "session '{id}' is not finished; finish it first"),
            Self::Newer { key, version } => write!(
                f,
                "'{key}' has version {version}, this app writes {SCHEMA}; load the newest app"
            ),
        }
    }
}

impl std::error::Error for StoreError {}

impl From<WireError> for StoreError {
    fn from(error: WireError) -> Self {
        Self::Refused(error)
    }
}

/// Changes that belong together: all of them are kept, or none.
#[derive(Debug, Clone, PartialEq, Eq)]
#[must_use = "changes do nothing until they are prepared and committed"]
pub struct Changes {
    intent: Intent,
    /// Full key and body; no body means the key goes. Later ones win.
    bodies: Map<String, Option<String>>,
}

impl Changes {
    /// No change.
    pub const fn none() -> Self {
        Self {
            intent: Intent::Write,
            bodies: Map::new(),
        }
    }

    /// These changes and then those.
    pub fn and(mut self, then: Self) -> Self {
        if then.intent == Intent::Erase {
            self.intent = Intent::Erase;
        }
        self.bodies.extend(then.bodies);
        self
    }

    /// Whether there is nothing to do.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.bodies.is_empty()
    }

    fn put(&mut self, key: String, body: String) {
        self.bodies.insert(key, Some(body));
    }

    fn drop(&mut self, key: String) {
        self.bodies.insert(key, None);
    }
}

/// What [`Store::open`] found.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct OpenReport {
    /// Values put back on the shelf, or taken off it, from the journal.
    pub replayed: usize,
    /// Person, plan, settings, own exercises or session under way that cannot be read. They
    /// stay as they are; a copy is made before anything takes their place.
    pub unreadable: Vec<Unreadable>,
    /// The newest schema version met, when it is newer than this code.
    pub newer_schema: Option<u32>,
    /// Journal records that cannot be read.
    pub damaged_records: Vec<DamagedRecord>,
    /// Whether index and histories had to be made again.
    pub is_index_rebuilt: bool,
    /// Writes that the shelf refused; they are in memory and in the journal.
    pub missed: Vec<(String, ShelfError)>,
}

/// What [`Store::commit`] could not put on the shelf.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CommitReport {
    /// Full keys and what the shelf said. The values are in memory, and in the
    /// journal if it was committed.
    pub missed: Vec<(String, ShelfError)>,
}

/// A copy of a value that could not be read.
struct Copied {
    key: String,
    why: String,
    text: String,
}

impl Json for Copied {
    fn read(reader: &mut Reader<'_>) -> json::Read<Self> {
        let mut fields = reader.fields(&["key", "why", "text"], Unknown::Refused)?;
        let copied = Self {
            key: fields.needed(String::read)?,
            why: fields.needed(String::read)?,
            text: fields.needed(String::read)?,
        };
        fields.done();
        Ok(copied)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        json::field(out, "key", &self.key);
        json::field(out, "why", &self.why);
        json::field(out, "text", &self.text);
        out.push('}');
    }
}

/// Everything kept in one space of a shelf.
#[derive(Debug)]
pub struct Store<S> {
    shelf: S,
    space: Space,
    next_seq: u64,
    /// Writes the shelf does not carry yet, or refused.
    held: Map<String, Option<String>>,
    /// Keys of held writes that neither journal nor shelf took.
    unkept: Set<String>,
    found: Vec<Found>,
    written: usize,
}

impl<S: Shelf> Store<S> {
    /// Opens the store: replays what the shelf lost, checks the values every
    /// start needs, and makes the index again where it is missing.
    ///
    /// Of every key the last good write in the journal counts. It is put on
    /// the shelf when the shelf carries an older number, a damaged value or
    /// nothing; a deletion is repeated when the shelf still carries an older
    /// value.
    pub fn open(
        shelf: S,
        space: Space,
        journal: Vec<Result<JournalRecord, DamagedRecord>>,
    ) -> (Self, OpenReport) {
        let mut report = OpenReport::default();
        let mut records = Vec::new();
        for record in journal {
            match record {
                Ok(record) => records.push(record),
                Err(damaged) => report.damaged_records.push(damaged),
            }
        }
        // Mostly in order already.
        order::sort_by_key(&mut records, |record| record.seq);
        let (last, broken) = journal::last_writes(&records, space);

        let mut store = Self {
            shelf,
            space,
            next_seq: 0,
            held: Map::new(),
            unkept: Set::new(),
            found: Vec::new(),
            written: 0,
        };
        store.found = store.find(&records, &last);
        store.next_seq = 1 + store.highest_seq(&records, &report.damaged_records);
        for (key, write) in last.iter() {
            store.replay(key, *write, &mut report);
        }

        for key in [
            Key::Person,
            Key::Plan,
            Key::Settings,
            Key::Now,
            Key::Exercises,
            Key::Chronicle,
        ] {
            if let Some(found) = store.check(&space.name(&key)) {
                report.unreadable.push(found);
            }
        }
        let newer = report
            .unreadable
            .iter()
            .filter_map(|found| match found.why {
                Why::Newer(version) => Some(version),
                _ => None,
            });
        report.newer_schema = newer.max();

        let is_unsure = broken > 0 || !report.damaged_records.is_empty();
        if is_unsure || !store.has_index() {
            store.rebuild_at_open(&mut report);
        }
        (store, report)
    }

    /// Whether the shelf, before any replay, carries what each record wrote.
    fn find(&self, records: &[JournalRecord], last: &Map<&str, LastWrite<'_>>) -> Vec<Found> {
        let mut levels: Map<&str, Option<u64>> = Map::new();
        for (key, write) in last.iter() {
            let level = match self.shelf.get(key) {
                Some(text) => envelope::unseal(&text).ok().map(|e| e.seq),
                // Gone, and meant to be.
                None => write.value.is_none().then_some(write.seq),
            };
            levels.insert(key, level);
        }
        let is_on_shelf = |record: &JournalRecord| {
            record.writes.iter().all(|(key, _)| {
                // A key of another space, or one never written whole, does not count.
                levels
                    .get(key.as_str())
                    .is_none_or(|level| level.is_some_and(|seq| seq >= record.seq))
            })
        };
        records
            .iter()
            .map(|record| Found {
                seq: record.seq,
                at_ms: record.at_ms,
                was_on_shelf: is_on_shelf(record),
            })
            .collect()
    }

    /// The highest number ever used. `meta` is written before all else, so it
    /// is never behind a value; only when it cannot be read are all values
    /// looked at.
    fn highest_seq(&self, records: &[JournalRecord], damaged: &[DamagedRecord]) -> u64 {
        let seq_of = |text: String| envelope::unseal(&text).ok().map(|e| e.seq);
        let meta = self
            .shelf
            .get(&self.space.name(&Key::Meta))
            .and_then(seq_of);
        let shelf = meta.unwrap_or_else(|| {
            let texts = self.names().into_iter().filter_map(|n| self.shelf.get(&n));
            texts.filter_map(seq_of).max().unwrap_or(0)
        });
        let journal = records.iter().map(|record| record.seq);
        let unread = damaged.iter().filter_map(|record| record.seq);
        journal.chain(unread).max().unwrap_or(0).max(shelf)
    }

    fn replay(&mut self, key: &str, write: LastWrite<'_>, report: &mut OpenReport) {
        if let Some(text) = self.shelf.get(key)
            && let Ok(there) = envelope::unseal(&text)
            && there.seq >= write.seq
        {
            return;
        }
        if self.shelf.get(key).as_deref() == write.value {
            return;
        }
        report.replayed += 1;
        if let Err(error) = self.place(key, write.seq, write.value, write.intent) {
            report.missed.push((key.to_owned(), error));
        }
    }

    /// Puts a value on the shelf, or takes it off; what the shelf refuses is
    /// held in memory. A newer value is left alone.
    fn place(
        &mut self,
        key: &str,
        seq: u64,
        value: Option<&str>,
        intent: Intent,
    ) -> Result<(), ShelfError> {
        if let Some(text) = self.shelf.get(key) {
            if envelope::unseal(&text).is_ok_and(|there| there.seq > seq) {
                return Ok(());
            }
            if intent == Intent::Write {
                self.copy_unreadable(key, text)
                    .inspect_err(|_| self.hold(key, value))?;
            }
        }
        let done = match value {
            Some(text) => self.shelf.set(key, text),
            None => self.shelf.remove(key),
        };
        match done {
            // A later change of the same key may be held already.
            Ok(()) if self.held.get(key).is_some_and(|v| v.as_deref() == value) => {
                self.held.remove(key);
            }
            Ok(()) => {}
            Err(_) => self.hold(key, value),
        }
        done
    }

    fn hold(&mut self, key: &str, value: Option<&str>) {
        self.held
            .get_or_insert_with(key.to_owned(), || value.map(str::to_owned));
    }

    /// Copies what stands under a key before something takes its place, if it
    /// cannot be read and cannot be made again. Without the copy nothing may
    /// be written there.
    fn copy_unreadable(&mut self, key: &str, text: String) -> Result<(), ShelfError> {
        let Some(found) = self.read_check(key, text) else {
            return Ok(());
        };
        let copied = Copied {
            why: found.why.to_string(),
            key: found.key,
            text: found.text,
        };
        let sealed = envelope::seal(self.next_seq, &json::write(&copied));
        let mut number = self.next_seq;
        while self
            .shelf
            .get(&self.space.name(&Key::Aside(number)))
            .is_some()
        {
            number += 1;
        }
        self.shelf
            .set(&self.space.name(&Key::Aside(number)), &sealed)
    }

    // ---- reading ----

    fn text(&self, key: &str) -> Option<String> {
        match self.held.get(key) {
            Some(held) => held.clone(),
            None => self.shelf.get(key),
        }
    }

    /// Full keys of this space, ascending, held ones included.
    fn names(&self) -> Set<String> {
        let keys = self.shelf.keys().into_iter();
        let mut names: Set<String> = keys.filter(|name| self.space.owns(name)).collect();
        for (name, value) in self.held.iter() {
            match value {
                Some(_) => names.insert(name.clone()),
                None => names.remove(name),
            };
        }
        names
    }

    fn read<T: Stored>(&self, key: &Key) -> Result<Option<T>, Unreadable> {
        let name = self.space.name(key);
        let Some(text) = self.text(&name) else {
            return Ok(None);
        };
        match decode(&text) {
            Ok(value) => Ok(Some(value)),
            Err(why) => Err(Unreadable {
                key: name,
                why,
                text,
            }),
        }
    }

    /// What is wrong with the value under a key, if anything is.
    fn check(&self, name: &str) -> Option<Unreadable> {
        let text = self.text(name)?;
        self.read_check(name, text)
    }

    fn read_check(&self, name: &str, text: String) -> Option<Unreadable> {
        let checked = match self.space.key(name)? {
            Key::Meta | Key::Index | Key::History(_) => Ok(()),
            Key::Person => decode::<Person>(&text).map(|_| ()),
            Key::Plan => decode::<AcceptedPlan>(&text).map(|_| ()),
            Key::Settings => decode::<Settings>(&text).map(|_| ()),
            Key::Now => decode::<Session>(&text).map(|_| ()),
            Key::Exercises => decode::<OwnExercises>(&text).map(|_| ()),
            Key::Chronicle => decode::<Chronicle>(&text).map(|_| ()),
            Key::Session(id) => decode::<Session>(&text).and_then(|s| same_id(&s, &id)),
            Key::Aside(_) => decode_copy(&text).map(|_| ()),
        };
        checked.err().map(|why| Unreadable {
            key: name.to_owned(),
            why,
            text,
        })
    }

    /// The person.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn load_person(&self) -> Result<Option<Person>, Unreadable> {
        self.read(&Key::Person)
    }

    /// The plan they train by.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn load_plan(&self) -> Result<Option<AcceptedPlan>, Unreadable> {
        self.read(&Key::Plan)
    }

    /// How the app looks and behaves; the defaults when nothing was saved.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn load_settings(&self) -> Result<Settings, Unreadable> {
        self.saved_settings().map(Option::unwrap_or_default)
    }

    pub(crate) fn saved_settings(&self) -> Result<Option<Settings>, Unreadable> {
        self.read(&Key::Settings)
    }

    /// The session under way.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn load_now(&self) -> Result<Option<Session>, Unreadable> {
        self.read(&Key::Now)
    }

    /// Exercises of the person's own making.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn load_exercises(&self) -> Result<OwnExercises, Unreadable> {
        self.read(&Key::Exercises).map(Option::unwrap_or_default)
    }

    /// Blocks, and changes of past sessions.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn load_chronicle(&self) -> Result<Chronicle, Unreadable> {
        self.read(&Key::Chronicle).map(Option::unwrap_or_default)
    }

    /// Totals and the latest sessions.
    #[must_use]
    pub fn index(&self) -> Index {
        match self.read(&Key::Index) {
            Ok(index) => index.unwrap_or_default(),
            Err(_) => self.derive(self.all_sessions()).index,
        }
    }

    /// The latest 6 performances of an exercise, oldest first.
    #[must_use]
    pub fn history(&self, exercise: &ExerciseId) -> Vec<Performance> {
        self.history_of(exercise).performances()
    }

    fn history_of(&self, exercise: &ExerciseId) -> History {
        match self.read(&Key::History(exercise.to_string())) {
            Ok(history) => history.unwrap_or_else(|| History::new(exercise.clone())),
            Err(_) => self
                .derive(self.all_sessions())
                .histories
                .remove(exercise)
                .unwrap_or_else(|| History::new(exercise.clone())),
        }
    }

    /// Ids of all finished sessions, ascending; none of them is read.
    #[must_use]
    pub fn sessions(&self) -> Vec<String> {
        self.names()
            .iter()
            .filter_map(|name| match self.space.key(name) {
                Some(Key::Session(id)) => Some(id),
                _ => None,
            })
            .collect()
    }

    /// A finished session.
    ///
    /// # Errors
    /// [`Unreadable`] when what stands there cannot be read.
    pub fn read_session(&self, id: &str) -> Result<Option<Session>, Unreadable> {
        let Some(session) = self.read::<Session>(&Key::Session(id.to_owned()))? else {
            return Ok(None);
        };
        match same_id(&session, id) {
            Ok(()) => Ok(Some(session)),
            Err(why) => {
                let key = self.space.name(&Key::Session(id.to_owned()));
                let text = self.text(&key).unwrap_or_default();
                Err(Unreadable { key, why, text })
            }
        }
    }

    /// What was done on a day and since, as far as it can be read and the index
    /// reaches. Reads a session for each time trained since.
    #[must_use]
    pub fn performances_since(&self, day: Day) -> Vec<Performance> {
        let mut found = Vec::new();
        for line in self.index().recent {
            if line.day >= day
                && let Ok(Some(session)) = self.read_session(&line.id)
            {
                found.extend(session_performances(&session));
            }
        }
        found
    }

    /// The finished sessions of a day and since that can be read, earlier first,
    /// and whether none came before them. Reads no more of them than the index
    /// makes necessary.
    #[must_use]
    pub fn sessions_since(&self, day: Day) -> (Vec<Session>, bool) {
        let index = self.index();
        let is_all = index.recent.len() == index.sessions as usize;
        let is_within = index.recent.first().is_some_and(|first| first.day < day);
        let mut found: Vec<Session> = if is_all || is_within {
            let since = index.recent.iter().filter(|line| line.day >= day);
            since
                .filter_map(|line| self.read_session(&line.id).ok()?)
                .collect()
        } else {
            let all = self.all_sessions();
            all.into_iter()
                .map(|(_, session)| session)
                .filter(|session| session.day >= day)
                .collect()
        };
        order::sort_by(&mut found, |a, b| (a.day, &a.id) < (b.day, &b.id));
        let is_whole = found.len() == index.sessions as usize;
        (found, is_whole)
    }

    /// All finished sessions that can be read, by id.
    pub(crate) fn all_sessions(&self) -> Map<String, Session> {
        let ids = self.sessions().into_iter();
        ids.filter_map(|id| Some((id.clone(), self.read_session(&id).ok()??)))
            .collect()
    }

    /// Values that could not be read: copies made before something took their
    /// place, and those of person, plan, settings and the session under way
    /// where they stand. Cheap: no finished session is read.
    #[must_use]
    pub fn set_aside(&self) -> Vec<Aside> {
        self.aside_where(|key| {
            matches!(
                key,
                Key::Person
                    | Key::Plan
                    | Key::Settings
                    | Key::Now
                    | Key::Exercises
                    | Key::Chronicle
                    | Key::Aside(_)
            )
        })
    }

    /// Every value that cannot be read, where it stands or as a copy. Reads
    /// the whole store.
    #[must_use]
    pub fn check_all(&self) -> Vec<Aside> {
        self.aside_where(|_| true)
    }

    fn aside_where(&self, wanted: impl Fn(&Key) -> bool) -> Vec<Aside> {
        self.names()
            .iter()
            .filter(|name| self.space.key(name).is_some_and(|key| wanted(&key)))
            .filter_map(|name| {
                if let Some(found) = self.check(name) {
                    return Some(Aside {
                        key: found.key,
                        why: found.why.to_string(),
                        text: found.text,
                    });
                }
                match self.space.key(name)? {
                    Key::Aside(_) => {
                        let Copied { key, why, text } = decode_copy(&self.text(name)?).ok()?;
                        Some(Aside { key, why, text })
                    }
                    _ => None,
                }
            })
            .collect()
    }

    /// Characters in use by this space, keys and values together. Browsers
    /// allow about five million for the whole site and do not say how many
    /// are left.
    #[must_use]
    pub fn used(&self) -> usize {
        self.names()
            .iter()
            .map(|name| name.len() + self.text(name).map_or(0, |text| text.len()))
            .sum()
    }

    // ---- changing ----

    fn change<T: Stored>(&self, key: &Key, value: &T) -> Result<Changes, StoreError> {
        let mut changes = Changes::none();
        changes.put(self.space.name(key), wire::to_text(value)?);
        Ok(changes)
    }

    /// Keeps the person.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a value is out of bounds.
    pub fn save_person(&self, person: &Person) -> Result<Changes, StoreError> {
        self.change(&Key::Person, person)
    }

    /// Keeps the plan.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a value is out of bounds.
    pub fn save_plan(&self, plan: &AcceptedPlan) -> Result<Changes, StoreError> {
        self.change(&Key::Plan, plan)
    }

    /// Keeps the settings.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a value is out of bounds.
    pub fn save_settings(&self, settings: &Settings) -> Result<Changes, StoreError> {
        self.change(&Key::Settings, settings)
    }

    /// Keeps the session under way.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a value is out of bounds.
    pub fn save_now(&self, session: &Session) -> Result<Changes, StoreError> {
        self.change(&Key::Now, session)
    }

    /// Keeps the exercises of the person's own making.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when one of them has a flaw.
    pub fn save_exercises(&self, own: &OwnExercises) -> Result<Changes, StoreError> {
        self.change(&Key::Exercises, own)
    }

    /// Keeps blocks and changes of past sessions.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a value is out of bounds.
    pub fn save_chronicle(&self, chronicle: &Chronicle) -> Result<Changes, StoreError> {
        self.change(&Key::Chronicle, chronicle)
    }

    /// Lets go of the session under way, unlogged.
    pub fn discard_now(&self) -> Changes {
        let mut changes = Changes::none();
        changes.drop(self.space.name(&Key::Now));
        changes
    }

    /// Moves the session under way into the log, with index and histories.
    ///
    /// # Errors
    /// [`StoreError::NotFinished`], or [`StoreError::Refused`] when a value is
    /// out of bounds.
    pub fn finish_session(&self, session: &Session) -> Result<Changes, StoreError> {
        Ok(self.save_session(session)?.and(self.discard_now()))
    }

    /// Puts a finished session into the log, or an amended one in its place.
    ///
    /// # Errors
    /// [`StoreError::NotFinished`], or [`StoreError::Refused`] when a value is
    /// out of bounds.
    pub fn save_session(&self, session: &Session) -> Result<Changes, StoreError> {
        if !matches!(session.phase, Phase::Finished { .. }) {
            return Err(StoreError::NotFinished(session.id.clone()));
        }
        let mut changes = self.put_session(session)?;
        let key = Key::Session(session.id.clone());
        let is_new = self.text(&self.space.name(&key)).is_none();
        if is_new && let Ok(index) = self.read::<Index>(&Key::Index) {
            let mut derived = Derived {
                index: index.unwrap_or_default(),
                histories: index::performances(session)
                    .map(|past| past.performance.exercise().clone())
                    .map(|exercise| (exercise.clone(), self.history_of(&exercise)))
                    .collect(),
            };
            derived.add(session);
            self.put_derived(&derived, &mut changes)?;
            return Ok(changes);
        }
        let mut sessions = self.all_sessions();
        sessions.insert(session.id.clone(), session.clone());
        Ok(changes.and(self.derived_changes(sessions)?))
    }

    /// The session alone, without what is derived from it.
    pub(crate) fn put_session(&self, session: &Session) -> Result<Changes, StoreError> {
        self.change(&Key::Session(session.id.clone()), session)
    }

    /// Takes a finished session out of the log.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a derived value is out of bounds.
    pub fn delete_session(&self, id: &str) -> Result<Changes, StoreError> {
        let mut sessions = self.all_sessions();
        sessions.remove(id);
        let mut changes = self.derived_changes(sessions)?;
        changes.drop(self.space.name(&Key::Session(id.to_owned())));
        Ok(changes)
    }

    /// Takes away everything of this space, unreadable values and their
    /// copies included. Only `meta` stays, which holds a number and nothing
    /// of the person: with it no old journal record can bring anything back.
    ///
    /// Once committed, the app should clear the journal of the records before
    /// this one, which still hold what was deleted.
    pub fn delete_all(&self) -> Changes {
        let mut changes = Changes {
            intent: Intent::Erase,
            bodies: self.names().into_iter().map(|name| (name, None)).collect(),
        };
        changes.bodies.remove(&self.space.name(&Key::Meta));
        changes
    }

    /// Makes index and histories again from the sessions.
    ///
    /// # Errors
    /// [`StoreError::Refused`] when a derived value is out of bounds.
    pub fn rebuild_index(&self) -> Result<Changes, StoreError> {
        self.derived_changes(self.all_sessions())
    }

    fn derive(&self, sessions: Map<String, Session>) -> Derived {
        let mut derived = Derived::default();
        for session in sessions.values() {
            derived.add(session);
        }
        derived
    }

    /// What has to change for index and histories to follow from these
    /// sessions.
    pub(crate) fn derived_changes(
        &self,
        sessions: Map<String, Session>,
    ) -> Result<Changes, StoreError> {
        let derived = self.derive(sessions);
        let mut changes = Changes::none();
        for name in self.names() {
            if let Some(Key::History(exercise)) = self.space.key(&name)
                && !derived.histories.contains_key(&ExerciseId::new(&exercise))
            {
                changes.drop(name);
            }
        }
        self.put_derived(&derived, &mut changes)?;
        Ok(changes)
    }

    fn put_derived(&self, derived: &Derived, changes: &mut Changes) -> Result<(), StoreError> {
        let mut put = |key: Key, body: String| {
            let name = self.space.name(&key);
            let there = self.text(&name);
            let there = there.as_deref().and_then(|t| envelope::unseal(t).ok());
            if there.is_none_or(|e| e.version != SCHEMA || e.body != body) {
                changes.put(name, body);
            }
        };
        put(Key::Index, wire::to_text(&derived.index)?);
        for history in derived.histories.values() {
            let key = Key::History(history.exercise.to_string());
            put(key, wire::to_text(history)?);
        }
        Ok(())
    }

    fn has_index(&self) -> bool {
        match self.read::<Index>(&Key::Index) {
            Ok(index) => index.is_some() || self.sessions().is_empty(),
            Err(_) => false,
        }
    }

    fn rebuild_at_open(&mut self, report: &mut OpenReport) {
        // Derived values need no journal: a start that misses them makes them
        // again.
        if let Ok(changes) = self.rebuild_index() {
            let record = self.seal_all(changes, Moment(0));
            report.missed.extend(self.commit(&record).missed);
            self.written -= 1;
            report.is_index_rebuilt = true;
        }
    }

    // ---- committing ----

    /// The journal record of some changes, with a number of its own. From now
    /// on every read sees the changes. Commit the record to the journal
    /// durably, then call [`Store::commit`].
    ///
    /// What neither journal nor shelf took before goes into this record too.
    ///
    /// # Errors
    /// [`StoreError::Newer`] when a newer version of Weekloom wrote a value
    /// that would be replaced; nothing is changed then.
    pub fn prepare(
        &mut self,
        mut changes: Changes,
        now: Moment,
    ) -> Result<JournalRecord, StoreError> {
        if changes.intent == Intent::Write {
            for key in changes.bodies.keys() {
                if let Some(Why::Newer(version)) = self.check(key).map(|found| found.why) {
                    return Err(StoreError::Newer {
                        key: key.clone(),
                        version,
                    });
                }
            }
        }
        for key in std::mem::take(&mut self.unkept) {
            if let Some(held) = self.held.get(&key) {
                let body = held.as_deref().and_then(|t| envelope::unseal(t).ok());
                let body = body.map(|envelope| envelope.body.to_owned());
                changes.bodies.get_or_insert_with(key, || body);
            }
        }
        let record = self.seal_all(changes, now);
        self.held.extend(record.writes.iter().cloned());
        Ok(record)
    }

    /// Says that neither the journal nor the shelf took a record. Its changes
    /// stay in memory and go into the next record.
    pub fn mark_unkept(&mut self, record: &JournalRecord) {
        let keys = record.writes.iter().map(|(key, _)| key.clone());
        self.unkept.extend(keys);
    }

    fn seal_all(&mut self, changes: Changes, now: Moment) -> JournalRecord {
        let seq = self.next_seq;
        self.next_seq += 1;
        JournalRecord {
            seq,
            at_ms: now.0,
            intent: changes.intent,
            writes: changes
                .bodies
                .into_iter()
                .map(|(key, body)| (key, body.map(|b| envelope::seal(seq, &b))))
                .collect(),
        }
    }

    /// Puts a record on the shelf. What the shelf refuses stays in memory,
    /// where every read finds it, and is reported.
    pub fn commit(&mut self, record: &JournalRecord) -> CommitReport {
        self.written += 1;
        let mut report = CommitReport::default();
        // First, so that its number is never behind that of a value.
        let meta = self.space.name(&Key::Meta);
        if let Err(error) = self.shelf.set(&meta, &envelope::seal(record.seq, "{}")) {
            report.missed.push((meta, error));
        }
        for (key, value) in &record.writes {
            if let Err(error) = self.place(key, record.seq, value.as_deref(), record.intent) {
                report.missed.push((key.clone(), error));
            }
        }
        report
    }

    /// Numbers of the journal records that may be deleted, oldest first. The
    /// rule, and why it is so careful, stands in the journal module.
    #[must_use]
    pub fn trimmable(&self, now: Moment) -> Vec<u64> {
        journal::trimmable(&self.found, self.written, now)
    }

    /// The shelf, to look at.
    #[must_use]
    pub const fn shelf(&self) -> &S {
        &self.shelf
    }

    /// The space.
    #[must_use]
    pub const fn space(&self) -> Space {
        self.space
    }

    /// Gives the shelf back.
    #[must_use]
    pub fn into_shelf(self) -> S {
        self.shelf
    }
}

fn decode<T: Stored>(text: &str) -> Result<T, Why> {
    wire::from_text(body(text)?).map_err(Why::Refused)
}

/// The body of a sealed text of a version that can be read.
fn body(text: &str) -> Result<&str, Why> {
    let envelope = envelope::unseal(text).map_err(Why::Damaged)?;
    match envelope.version {
        // The next version adds its own arm here, and a step from this one.
        SCHEMA => Ok(envelope.body),
        version if version > SCHEMA => Err(Why::Newer(version)),
        version => Err(Why::Damaged(format!("there is no version {version}"))),
    }
}

fn decode_copy(text: &str) -> Result<Copied, Why> {
    let envelope = envelope::unseal(text).map_err(Why::Damaged)?;
    let body = envelope.body;
    json::read(body).map_err(|misfit| Why::Refused(wire::json_error(misfit, body)))
}

fn same_id(session: &Session, id: &str) -> Result<(), Why> {
    if session.id == id {
        Ok(())
    } else {
        let what = format!("it is '{}', kept as '{id}'", session.id);
        Err(Why::Refused(WireError::new("id", what)))
    }
}
