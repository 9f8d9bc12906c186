//! The backup: one JSON file with everything in it.
//!
//! Start at [`export`] and [`read_backup`]; then [`preview`] what a merge
//! would do, and [`merge`]. The form of the file is set down in
//! `backup.schema.json` beside this file. Reading a backup changes nothing.
//!
//! ```json
//! {
//! "format":"weekloom-backup",
//! "version":2,
//! "made":"2026-11-25",
//! "checksum":"89abcdef",
//! "person":{},
//! "plan":{},
//! "settings":{},
//! "now":null,
//! "sessions":[],
//! "exercises":[],
//! "chronicle":{}
//! }
//! ```
//!
//! The checksum is the CRC-32 (ISO-HDLC) of the compact ASCII JSON text of
//! `[made, person, plan, settings, now, sessions, exercises,
//! chronicle]`, inner fields in
//! the order of the file, so that a file with other blanks is still whole.
//! Version 1 had no `exercises` and no `chronicle`; it is read as ever.

use crate::chronicle::Chronicle;
use crate::envelope::Crc;
use crate::index::work_sets;
use crate::json::{self, Fields, Json, Misfit, Reader, Unknown};
use crate::keys::Space;
use crate::own::{OwnExercise, OwnExercises};
use crate::settings::{AcceptedPlan, Settings};
use crate::shelf::{MemoryShelf, Shelf};
use crate::store::{Changes, Store, StoreError, Unreadable};
use crate::wire::{self, WireError};
use std::fmt;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::order::Map;
use weekloom_engine::person::Person;
use weekloom_engine::session::{Phase, Session};

/// A file larger than this is no backup; check the size before reading it.
/// Ten years of training take about 2 MB.
pub const MOST_BYTES: usize = 20 * 1024 * 1024;

const FORMAT: &str = "weekloom-backup";
const VERSION: u32 = 2;

/// A file was refused. Nothing was changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BackupError {
    /// Where in the file: line and column, or a path; empty for the whole.
    pub place: String,
    /// What is wrong, and what to do.
    pub reason: String,
}

impl BackupError {
    fn new(place: &str, reason: impl Into<String>) -> Self {
        Self {
            place: place.to_owned(),
            reason: reason.into(),
        }
    }
}

impl fmt::Display for BackupError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.place.is_empty() {
            f.write_str(&self.reason)
        } else {
            write!(f, "{}: {}", self.place, self.reason)
        }
    }
}

impl std::error::Error for BackupError {}

impl From<WireError> for BackupError {
    fn from(error: WireError) -> Self {
        Self {
            place: error.place,
            reason: error.what,
        }
    }
}

/// What a backup holds, every value checked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Backup {
    /// The day it was made.
    pub made: Day,
    /// The person.
    pub person: Option<Person>,
    /// The plan they trained by.
    pub plan: Option<AcceptedPlan>,
    /// How the app looked and behaved.
    pub settings: Option<Settings>,
    /// The session under way when it was made.
    pub now: Option<Session>,
    /// Finished sessions, by id.
    pub sessions: Map<String, Session>,
    /// Exercises of the person's own making.
    pub exercises: OwnExercises,
    /// Blocks, and changes of past sessions.
    pub chronicle: Chronicle,
}

/// Fields of the file, in order.
const FIELDS: &[&str] = &[
    "format",
    "version",
    "made",
    "checksum",
    "person",
    "plan",
    "settings",
    "now",
    "sessions",
    "exercises",
    "chronicle",
];
/// How many of them version 1 has.
const FIELDS_1: usize = 9;
const MADE: usize = 2;
const CHECKSUM: usize = 3;
/// The first of the kept values.
const PERSON: usize = 4;

/// Format and version: what every version's file has, whatever else stands in
/// it.
fn head(text: &str) -> json::Read<(String, u32)> {
    let mut reader = Reader::new(text);
    let mut fields = reader.fields(&["format", "version"], Unknown::PassedOver)?;
    let head = (fields.needed(String::read)?, fields.needed(u32::read)?);
    fields.done();
    reader.end()?;
    Ok(head)
}

/// The checksum of compact JSON texts: the day, then each kept value.
fn sum(parts: &[String]) -> String {
    let mut crc = Crc::new();
    let mut start = "[";
    for part in parts {
        crc.feed(start.as_bytes());
        crc.feed(part.as_bytes());
        start = ",";
    }
    crc.feed(b"]");
    format!("{:08x}", crc.sum())
}

/// A backup file's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Export {
    /// The whole file, ASCII, one session a line.
    pub text: String,
    /// What could not be read and is therefore not in it. Offer these values
    /// for download as they are.
    pub left_out: Vec<Unreadable>,
}

/// Everything in the store that can be read, as a backup file.
#[must_use]
pub fn export<S: Shelf>(store: &Store<S>, made: Day) -> Export {
    let mut left_out = Vec::new();
    let mut sessions = Vec::new();
    for id in store.sessions() {
        if let Some(session) = readable(store.read_session(&id), &mut left_out) {
            sessions.push(json::write(&session));
        }
    }
    let mut parts = [
        json::write(&made.to_string()),
        json::write(&readable(store.load_person(), &mut left_out)),
        json::write(&readable(store.load_plan(), &mut left_out)),
        json::write(&readable(store.saved_settings(), &mut left_out)),
        json::write(&readable(store.load_now(), &mut left_out)),
        format!("[{}]", sessions.join(",")),
        json::write(&readable(store.load_exercises().map(Some), &mut left_out).unwrap_or_default()),
        json::write(&readable(store.load_chronicle().map(Some), &mut left_out).unwrap_or_default()),
    ];
    let sum = sum(&parts);
    // One field a line and one session a line, so that the place of an error
    // can be found with any editor.
    parts[5] = format!("[\n{}\n]", sessions.join(",\n"));
    let [
        made,
        person,
        plan,
        settings,
        now,
        sessions,
        exercises,
        chronicle,
    ] = parts;
    Export {
        text: format!(
            "{{\n\"format\":\"{FORMAT}\",\n\"version\":{VERSION},\n\"made\":{made},\n\
             \"checksum\":\"{sum}\",\n\"person\":{person},\n\"plan\":{plan},\n\
             \"settings\":{settings},\n\"now\":{now},\n\"sessions\":{sessions},\n\
             \"exercises\":{exercises},\n\"chronicle\":{chronicle}\n}}\n"
        ),
        left_out,
    }
}

fn readable<T>(read: Result<Option<T>, Unreadable>, left_out: &mut Vec<Unreadable>) -> Option<T> {
    read.unwrap_or_else(|found| {
        left_out.push(found);
        None
    })
}

/// Reads a backup file's text. Size and nesting are capped before anything is
/// built from it.
///
/// # Errors
/// [`BackupError`] says where and what: no backup at all, one of a newer
/// version, a changed or cut file, or a value that is out of bounds.
pub fn read_backup(text: &str) -> Result<Backup, BackupError> {
    if text.len() > MOST_BYTES {
        let reason = format!(
            "the file has {} bytes, a backup has at most {MOST_BYTES}",
            text.len()
        );
        return Err(BackupError::new("", reason));
    }
    let refused = |misfit| BackupError::from(wire::json_error(misfit, text));
    let (format, version) = head(text).map_err(refused)?;
    if format != FORMAT {
        let reason = format!("the file is no backup: its format is not '{FORMAT}'");
        return Err(BackupError::new("format", reason));
    }
    if version > VERSION {
        let reason = format!(
            "the file has version {version}, this app reads up to {VERSION}; load the newest app first"
        );
        return Err(BackupError::new("version", reason));
    }
    if version == 0 {
        return Err(BackupError::new("version", "there is no version 0"));
    }
    let names = if version == 1 {
        &FIELDS[..FIELDS_1]
    } else {
        FIELDS
    };
    let mut reader = Reader::new(text);
    let mut fields = reader.fields(names, Unknown::Refused).map_err(refused)?;
    fields.go_to(CHECKSUM);
    let told = fields.needed(String::read).map_err(refused)?;
    let parts = parts(&mut fields, names.len()).map_err(refused)?;
    let sum = sum(&parts);
    if sum != told {
        let reason = format!(
            "the checksum of the file's contents is {sum}; the file was changed since it was made"
        );
        return Err(BackupError::new("checksum", reason));
    }
    contents(&mut fields, version).map_err(refused)
}

/// What the checksum is taken of.
fn parts(fields: &mut Fields<'_, '_>, count: usize) -> json::Read<Vec<String>> {
    fields.go_to(MADE);
    let mut parts = vec![fields.compact()?];
    fields.go_to(PERSON);
    for _ in PERSON..count {
        parts.push(fields.compact()?);
    }
    Ok(parts)
}

fn contents(fields: &mut Fields<'_, '_>, version: u32) -> json::Read<Backup> {
    fields.go_to(MADE);
    let made = fields.needed(|r| {
        Day::parse(&String::read(r)?)
            .ok_or_else(|| Misfit::value("it is not a day written YYYY-MM-DD"))
    })?;
    fields.go_to(PERSON);
    let person = fields.maybe(Person::read)?;
    let plan = fields.maybe(AcceptedPlan::read)?;
    let settings = fields.maybe(Settings::read)?;
    let now = fields.maybe(Session::read)?;
    let mut sessions = Map::new();
    fields.needed(|r| {
        r.each(|r| {
            let session = Session::read(r)?;
            if !matches!(session.phase, Phase::Finished { .. }) {
                return Err(Misfit::value("the session is not finished"));
            }
            match sessions.insert(session.id.clone(), session) {
                Some(twin) => Err(Misfit::value(format_args!(
                    "there are two sessions '{}'",
                    twin.id
                ))),
                None => Ok(()),
            }
        })
    })?;
    let exercises = match version {
        1 => OwnExercises::default(),
        _ => fields.needed(Json::read)?,
    };
    let chronicle = match version {
        1 => Chronicle::default(),
        _ => fields.needed(Json::read)?,
    };
    Ok(Backup {
        made,
        person,
        plan,
        settings,
        now,
        sessions,
        exercises,
        chronicle,
    })
}

/// How one part of a backup stands to the store.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The backup has none.
    NotInBackup,
    /// Store and backup hold the same.
    Same,
    /// Only the backup has one: it will be taken.
    New,
    /// Both have one, and they differ: the person chooses.
    Differs,
}

/// What a merge would do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Preview {
    /// Sessions only the backup has.
    pub new: usize,
    /// Sessions of which the backup's version will be taken.
    pub changed: usize,
    /// Sessions of which the store's version will stay.
    pub kept: usize,
    /// Sessions that are the same in both.
    pub same: usize,
    /// The person.
    pub person: Part,
    /// The plan.
    pub plan: Part,
    /// The settings.
    pub settings: Part,
    /// The session under way.
    pub now: Part,
    /// Own exercises that are new, or of which the backup's state is the later.
    pub exercises: usize,
}

/// Which one stands where store and backup differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Take {
    /// The one in the store.
    #[default]
    Mine,
    /// The one in the backup.
    Backup,
}

/// The person's choices for a merge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Choice {
    /// For the person.
    pub person: Take,
    /// For the plan.
    pub plan: Take,
    /// For the settings.
    pub settings: Take,
}

/// What a merge would do. Changes nothing.
#[must_use]
pub fn preview<S: Shelf>(store: &Store<S>, backup: &Backup) -> Preview {
    let mut preview = Preview {
        new: 0,
        changed: 0,
        kept: 0,
        same: 0,
        person: compare(&store.load_person(), backup.person.as_ref()),
        plan: compare(&store.load_plan(), backup.plan.as_ref()),
        settings: compare(&store.saved_settings(), backup.settings.as_ref()),
        now: compare(&store.load_now(), backup.now.as_ref()),
        exercises: 0,
    };
    let mine = store.load_exercises().unwrap_or_default();
    let joined = mine.joined(&backup.exercises);
    let is_new = |(id, own): &(&ExerciseId, &OwnExercise)| mine.0.get(id) != Some(*own);
    preview.exercises = joined.0.iter().filter(is_new).count();
    for (id, theirs) in backup.sessions.iter() {
        let count = match store.read_session(id) {
            Ok(None) => &mut preview.new,
            // What cannot be read is mended from the backup.
            Err(_) => &mut preview.changed,
            Ok(Some(mine)) if mine == *theirs => &mut preview.same,
            Ok(Some(mine)) if is_fuller(theirs, &mine) => &mut preview.changed,
            Ok(Some(_)) => &mut preview.kept,
        };
        *count += 1;
    }
    preview
}

fn compare<T: PartialEq>(mine: &Result<Option<T>, Unreadable>, theirs: Option<&T>) -> Part {
    match (mine, theirs) {
        (_, None) => Part::NotInBackup,
        (Ok(None), Some(_)) => Part::New,
        (Ok(Some(mine)), Some(theirs)) if mine == theirs => Part::Same,
        (_, Some(_)) => Part::Differs,
    }
}

/// The changes that bring a backup into the store.
///
/// Sessions are joined by id; of two versions of the same session the one with
/// more work sets stays, then the one with more sets, then the one whose text
/// sorts last. So merging is idempotent, and for sessions the order of several
/// backups makes no difference. Nothing is ever deleted by a merge.
///
/// # Errors
/// [`StoreError::Refused`] when a derived value is out of bounds.
pub fn merge<S: Shelf>(
    store: &Store<S>,
    backup: &Backup,
    choice: Choice,
) -> Result<Changes, StoreError> {
    let mut changes = Changes::none();
    let mut sessions = store.all_sessions();
    for (id, theirs) in backup.sessions.iter() {
        if sessions.get(id).is_none_or(|mine| is_fuller(theirs, mine)) {
            changes = changes.and(store.put_session(theirs)?);
            sessions.insert(id.clone(), theirs.clone());
        }
    }
    let mine = store.load_exercises();
    let joined = mine
        .as_ref()
        .cloned()
        .unwrap_or_default()
        .joined(&backup.exercises);
    if mine.as_ref() != Ok(&joined) {
        changes = changes.and(store.save_exercises(&joined)?);
    }
    let mine = store.load_chronicle();
    let joined = mine.clone().unwrap_or_default().joined(&backup.chronicle);
    if mine.as_ref() != Ok(&joined) {
        changes = changes.and(store.save_chronicle(&joined)?);
    }
    let is_logged = |now: &Session| sessions.contains_key(&now.id);
    if let Some(now) = &backup.now
        && store.load_now() == Ok(None)
        && !is_logged(now)
    {
        changes = changes.and(store.save_now(now)?);
    }
    if let Some(person) = taken(&store.load_person(), &backup.person, choice.person) {
        changes = changes.and(store.save_person(person)?);
    }
    if let Some(plan) = taken(&store.load_plan(), &backup.plan, choice.plan) {
        changes = changes.and(store.save_plan(plan)?);
    }
    if let Some(settings) = taken(&store.saved_settings(), &backup.settings, choice.settings) {
        changes = changes.and(store.save_settings(settings)?);
    }
    Ok(changes.and(store.derived_changes(sessions)?))
}

/// A store of its own with what a backup holds, in memory: to look at
/// somebody's log without mixing it with anything.
///
/// # Errors
/// As [`merge`].
pub fn alone(backup: &Backup) -> Result<Store<Box<dyn Shelf>>, StoreError> {
    let shelf: Box<dyn Shelf> = Box::new(MemoryShelf::new());
    let (mut store, _) = Store::open(shelf, Space::Own, Vec::new());
    let changes = merge(&store, backup, Choice::default())?;
    // Nothing is journalled, so no time is told of it.
    let record = store.prepare(changes, Moment::default())?;
    store.commit(&record);
    Ok(store)
}

/// The backup's value where it is to be written.
fn taken<'a, T: PartialEq>(
    mine: &Result<Option<T>, Unreadable>,
    theirs: &'a Option<T>,
    take: Take,
) -> Option<&'a T> {
    let theirs = theirs.as_ref()?;
    match compare(mine, Some(theirs)) {
        Part::New => Some(theirs),
        Part::Differs if take == Take::Backup => Some(theirs),
        _ => None,
    }
}

/// Whether `a` stands where `a` and `b` are versions of the same session.
fn is_fuller(a: &Session, b: &Session) -> bool {
    let rank = |session: &Session| {
        let sets: usize = session.items.iter().map(|item| item.sets.len()).sum();
        let text = wire::to_text(session).unwrap_or_default();
        (work_sets(session), sets, text)
    };
    a != b && rank(a) > rank(b)
}
