//! Rows into sessions, with an account of every row that gave none.

use super::FORMULA;
use super::cells;
use super::columns::{Column, Mapping};
use super::table::{Row, Table, WhyTorn};
use crate::envelope::Crc;
use crate::own::OwnExercises;
use crate::shelf::Shelf;
use crate::store::{Changes, Store, StoreError};
use weekloom_engine::bounds;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::own::own_id;
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId, Loading, Measure};
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::order::Map;
use weekloom_engine::plan::Prescription;
use weekloom_engine::session::{NOTE_CHARS, Phase, Session, SessionItem};
use weekloom_engine::units::Load;

/// Most exercises of a day, and sets of an exercise, that a log keeps.
const MOST: (usize, usize) = (60, 100);
/// Earlier than anybody's spreadsheet.
const FIRST_YEAR: i32 = 1950;

/// What becomes of a name in the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Meaning {
    /// An exercise there is.
    Known(ExerciseId),
    /// A new own exercise of that name, in all else like one there is.
    Like(ExerciseId),
    /// Its rows are left out.
    LeftOut,
}

/// Why a row gave no set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// The row could not be read.
    Torn(WhyTorn),
    /// No day, or one that is none.
    Day(String),
    /// A day to come, or one before there were spreadsheets.
    FarDay(String),
    /// No exercise is named.
    NoExercise,
    /// No reps or seconds, or something that is no whole number in bounds.
    Count(String),
    /// No load where the exercise has one, or something that is none.
    Load(String),
    /// More exercises in a day, or sets of one, than a log keeps.
    TooMany,
    /// Its exercise is left out, as was chosen.
    LeftOut,
    /// Its set is taken; only a load was left out, because the exercise has
    /// none.
    LoadUnused(String),
    /// Its set is taken; only the effort could not be read.
    EffortUnread(String),
}

impl Why {
    /// Whether the row gave a set all the same.
    #[must_use]
    pub const fn is_note(&self) -> bool {
        matches!(self, Self::LoadUnused(_) | Self::EffortUnread(_))
    }
}

/// A row that gave no set, or not all of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// Line of the file, from 1.
    pub line: usize,
    /// What was the matter.
    pub why: Why,
}

/// What a file would bring. Nothing is changed by making one.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Harvest {
    /// Sessions the log does not have, one a day.
    pub new: Vec<Session>,
    /// Sessions of days on which the log has another one.
    pub beside: Vec<Session>,
    /// Sessions the log has already, from the same rows.
    pub same: usize,
    /// Own exercises that the sessions need and that are not there yet.
    pub own: Vec<Exercise>,
    /// Rows that gave no set, or not all of it, by line.
    pub remarks: Vec<Remark>,
}

impl Harvest {
    /// Work sets and warm-up sets of some sessions.
    #[must_use]
    pub fn sets(sessions: &[Session]) -> usize {
        let items = sessions.iter().flat_map(|session| &session.items);
        items.map(|item| item.sets.len()).sum()
    }
}

/// The names of exercises in a file, in order of first appearance, each with
/// how many rows have it.
#[must_use]
pub fn names(table: &Table, mapping: &Mapping) -> Vec<(String, usize)> {
    let mut places: Map<String, usize> = Map::new();
    let mut found: Vec<(String, usize)> = Vec::new();
    for row in rows(table, mapping) {
        let name = cell(row, mapping, Column::Exercise);
        if name.is_empty() {
            continue;
        }
        let next = found.len();
        let at = *places.get_or_insert_with(folded(&name), || next);
        if at == next {
            found.push((name, 0));
        }
        found[at].1 += 1;
    }
    found
}

/// Names that differ in capitals and blanks only are one.
fn folded(name: &str) -> String {
    let lower = name.to_lowercase();
    lower.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn rows<'a>(table: &'a Table, mapping: &Mapping) -> impl Iterator<Item = &'a Row> {
    table.rows.iter().skip(usize::from(mapping.has_head))
}

/// What stands in a column of a row, guards against formulas taken off.
fn cell(row: &Row, mapping: &Mapping, column: Column) -> String {
    let at = mapping.columns.iter().position(|c| *c == column);
    let text = at.and_then(|at| row.cells.get(at)).map_or("", |cell| cell);
    let bare = text.trim_start_matches('\'');
    let is_guarded = bare.len() < text.len() && bare.starts_with(FORMULA);
    text[usize::from(is_guarded)..].to_owned()
}

/// One set of a row, read.
struct Found {
    day: Day,
    exercise: ExerciseId,
    sets: Vec<SetEntry>,
    note: String,
}

/// What the rows of a table come to: a session for each day, its id made of
/// the day and of what was done, so that the same rows always give the same
/// session. The times of day are not known; sets stand at noon UTC and the
/// session has no start.
pub struct Gatherer<'a> {
    /// The exercises there are, own ones among them.
    pub catalogue: &'a Catalogue,
    /// How the columns are to be read.
    pub mapping: &'a Mapping,
    /// What each name means, in the order of [`names`].
    pub meanings: &'a [Meaning],
    /// The present day: later ones are refused.
    pub today: Day,
}

impl Gatherer<'_> {
    /// Reads the table against what the log has.
    #[must_use]
    pub fn gather<S: Shelf>(&self, table: &Table, store: &Store<S>) -> Harvest {
        let mut harvest = Harvest::default();
        let torn = table.torn.iter().map(|torn| Remark {
            line: torn.line,
            why: Why::Torn(torn.why),
        });
        harvest.remarks.extend(torn);

        let mut meanings: Map<String, Meaning> = Map::new();
        let mut own: Map<ExerciseId, Exercise> = Map::new();
        let names = names(table, self.mapping);
        for ((name, _), meaning) in names.iter().zip(self.meanings) {
            let mut meaning = meaning.clone();
            if let Meaning::Like(like) = &meaning {
                meaning = self.own_like(name, like, &mut own);
            }
            meanings.insert(folded(name), meaning);
        }

        let mut days: Map<Day, Vec<SessionItem>> = Map::new();
        for row in rows(table, self.mapping) {
            let mut remark = |why| {
                harvest.remarks.push(Remark {
                    line: row.line,
                    why,
                });
            };
            match self.row(row, &meanings, &own, &mut remark) {
                Ok(found) => {
                    let items = days.get_or_insert_with(found.day, Vec::new);
                    if let Err(why) = self.add(found, items, &own) {
                        remark(why);
                    }
                }
                Err(why) => remark(why),
            }
        }
        weekloom_engine::order::sort_by_key(&mut harvest.remarks, |remark| remark.line);
        self.sort_out(days, store, &mut harvest);
        let is_used = |exercise: &&Exercise| {
            let mut sessions = harvest.new.iter().chain(&harvest.beside);
            sessions.any(|s| {
                s.items
                    .iter()
                    .any(|i| i.prescription.exercise == exercise.id)
            })
        };
        let used: Vec<Exercise> = own.values().filter(is_used).cloned().collect();
        harvest.own = used;
        harvest
    }

    /// The own exercise of a name, like another; or the one there is already.
    fn own_like(
        &self,
        name: &str,
        like: &ExerciseId,
        own: &mut Map<ExerciseId, Exercise>,
    ) -> Meaning {
        let id = own_id(name);
        if self.catalogue.get(&id).is_some() {
            return Meaning::Known(id);
        }
        let Some(like) = self.catalogue.get(like) else {
            return Meaning::LeftOut;
        };
        let most = weekloom_engine::catalogue::own::NAME_CHARS;
        let plain = name.chars().filter(|c| !c.is_control()).take(most);
        let exercise = Exercise {
            id: id.clone(),
            name: plain.collect::<String>().trim().to_owned(),
            step_down: Vec::new(),
            step_up: Vec::new(),
            ..like.clone()
        };
        if weekloom_engine::catalogue::own::flaw(&exercise).is_some() {
            return Meaning::LeftOut;
        }
        own.insert(id.clone(), exercise);
        Meaning::Known(id)
    }

    fn exercise<'b>(
        &'b self,
        id: &ExerciseId,
        own: &'b Map<ExerciseId, Exercise>,
    ) -> Option<&'b Exercise> {
        own.get(id).or_else(|| self.catalogue.get(id))
    }

    fn row(
        &self,
        row: &Row,
        meanings: &Map<String, Meaning>,
        own: &Map<ExerciseId, Exercise>,
        remark: &mut dyn FnMut(Why),
    ) -> Result<Found, Why> {
        let cell = |column| cell(row, self.mapping, column);
        let name = cell(Column::Exercise);
        if name.is_empty() {
            return Err(Why::NoExercise);
        }
        let told = cell(Column::Day);
        let day = cells::day(&told, self.mapping.order).ok_or_else(|| Why::Day(told.clone()))?;
        if day > self.today || day.ymd().0 < FIRST_YEAR {
            return Err(Why::FarDay(told));
        }
        let Some(Meaning::Known(id)) = meanings.get(&folded(&name)) else {
            return Err(Why::LeftOut);
        };
        let exercise = self.exercise(id, own).ok_or(Why::LeftOut)?;

        let mut told = [cell(Column::Reps), cell(Column::Seconds)];
        let mut bound = bounds::REPS.most;
        if exercise.measure == Measure::Seconds {
            told.reverse();
            bound = bounds::HOLD_S.most;
        }
        let told = if told[0].is_empty() {
            &told[1]
        } else {
            &told[0]
        };
        let mut counts = cells::several(told).unwrap_or_else(|| vec![told.clone()]);
        let refused = || Why::Count(told.clone());
        let times = cell(Column::Sets);
        if counts.len() == 1 && !times.is_empty() {
            let times = cells::whole(&times).filter(|n| (1..=20).contains(n));
            let times = times.ok_or_else(|| Why::Count(cell(Column::Sets)))?;
            counts = vec![counts[0].clone(); times.into()];
        }
        let loads = self.loads(row, exercise, counts.len(), remark)?;
        let rir = self.effort(&cell, remark);
        let kind = if cell(Column::Kind).to_lowercase().starts_with("warm") {
            SetKind::WarmUp
        } else {
            SetKind::Work
        };
        let noon = Moment(i64::from(day.epoch_days()) * 86_400_000 + 43_200_000);
        let mut sets = Vec::new();
        for (count, load) in counts.iter().zip(loads) {
            let count = cells::whole(count).filter(|n| i64::from(*n) <= bound);
            sets.push(SetEntry {
                kind,
                load,
                count: count.ok_or_else(refused)?,
                rir,
                at: noon.max(Moment(0)),
            });
        }
        Ok(Found {
            day,
            exercise: id.clone(),
            sets,
            note: cell(Column::Note),
        })
    }

    /// The loads of so many sets.
    fn loads(
        &self,
        row: &Row,
        exercise: &Exercise,
        count: usize,
        remark: &mut dyn FnMut(Why),
    ) -> Result<Vec<Load>, Why> {
        let told = cell(row, self.mapping, Column::Load);
        let unit = cells::unit_of(&cell(row, self.mapping, Column::Unit));
        let unit = unit.unwrap_or(self.mapping.unit);
        let refused = || Why::Load(told.clone());
        if !exercise.is_loaded() {
            if !told.is_empty() && cells::load(&told, unit) != Some(Load::ZERO) {
                remark(Why::LoadUnused(told));
            }
            return Ok(vec![Load::ZERO; count]);
        }
        let may_be_none = matches!(
            exercise.loading,
            Loading::BodyweightPlus | Loading::Assisted
        );
        if told.is_empty() && may_be_none {
            return Ok(vec![Load::ZERO; count]);
        }
        if let Some(load) = cells::load(&told, unit) {
            return Ok(vec![load; count]);
        }
        let several = cells::several(&told).filter(|all| all.len() == count);
        let loads = several.ok_or_else(refused)?;
        let loads = loads.iter().map(|load| cells::load(load, unit));
        loads.collect::<Option<Vec<Load>>>().ok_or_else(refused)
    }

    fn effort(&self, cell: &dyn Fn(Column) -> String, remark: &mut dyn FnMut(Why)) -> Option<u8> {
        type Read = fn(&str) -> Option<u8>;
        let ways: [(Column, Read); 2] = [
            (Column::Rir, cells::rir),
            (Column::Exertion, cells::rir_by_exertion),
        ];
        for (column, read) in ways {
            let told = cell(column);
            if !told.is_empty() {
                let rir = read(&told);
                if rir.is_none() {
                    remark(Why::EffortUnread(told));
                }
                return rir;
            }
        }
        None
    }

    fn add(
        &self,
        found: Found,
        items: &mut Vec<SessionItem>,
        own: &Map<ExerciseId, Exercise>,
    ) -> Result<(), Why> {
        let same = items
            .iter()
            .position(|i| i.prescription.exercise == found.exercise);
        let at = match same {
            Some(at) => at,
            None if items.len() >= MOST.0 => return Err(Why::TooMany),
            None => {
                let exercise = self.exercise(&found.exercise, own).ok_or(Why::LeftOut)?;
                let prescription = Prescription {
                    exercise: found.exercise.clone(),
                    sets: 1,
                    reps: exercise.reps,
                    rir: exercise.rir,
                    rest_s: exercise.rest_s,
                };
                // Keys above 999 stand for what no plan held.
                let key = 1000 + u16::try_from(items.len()).unwrap_or_default();
                items.push(SessionItem::new(key, prescription));
                items.len() - 1
            }
        };
        let item = &mut items[at];
        if item.sets.len() + found.sets.len() > MOST.1 {
            return Err(Why::TooMany);
        }
        item.sets.extend(found.sets);
        let sets = i64::try_from(item.work_sets_done()).unwrap_or(i64::MAX);
        item.prescription.sets = u8::try_from(bounds::SETS.clamp(sets)).unwrap_or(1);
        if !found.note.is_empty() && !item.note.contains(&found.note) {
            let gap = if item.note.is_empty() { "" } else { "\n" };
            let note = format!("{}{gap}{}", item.note, found.note);
            item.note = note.chars().take(NOTE_CHARS).collect();
        }
        Ok(())
    }

    /// The sessions, by what the log has.
    fn sort_out<S: Shelf>(
        &self,
        days: Map<Day, Vec<SessionItem>>,
        store: &Store<S>,
        harvest: &mut Harvest,
    ) {
        let kept = store.all_sessions();
        for (day, items) in days.into_iter().filter(|(_, items)| !items.is_empty()) {
            let session = session(day, items);
            if kept.contains_key(&session.id) {
                harvest.same += 1;
            } else if kept.values().any(|other| other.day == day) {
                harvest.beside.push(session);
            } else {
                harvest.new.push(session);
            }
        }
    }
}

/// A finished session of a day.
fn session(day: Day, items: Vec<SessionItem>) -> Session {
    let mut crc = Crc::new();
    for item in &items {
        crc.feed(item.prescription.exercise.as_str().as_bytes());
        for set in &item.sets {
            let rir = set.rir.map_or(-1, i64::from);
            let line = format!(";{},{},{rir},{}", set.load.grams(), set.count, set.kind);
            crc.feed(line.as_bytes());
        }
    }
    let id = format!("csv-{day}-{:08x}", crc.sum());
    let at = items
        .iter()
        .flat_map(|item| &item.sets)
        .map(|set| set.at)
        .max();
    Session {
        items,
        phase: Phase::Finished {
            at: at.unwrap_or_default(),
        },
        ..Session::free(&id, day)
    }
}

/// The changes that bring a harvest into the log, with its own exercises; the
/// sessions of days that have another one only where that is wished.
///
/// # Errors
/// [`StoreError::Refused`] when there is no room for so many own exercises, or
/// a value is out of bounds.
pub fn bring_in<S: Shelf>(
    store: &Store<S>,
    harvest: &Harvest,
    takes_beside: bool,
    now: Moment,
) -> Result<Changes, StoreError> {
    let mut changes = Changes::none();
    let mut sessions = store.all_sessions();
    let beside = harvest.beside.iter().filter(|_| takes_beside);
    let mut used: Vec<&ExerciseId> = Vec::new();
    for session in harvest.new.iter().chain(beside) {
        changes = changes.and(store.put_session(session)?);
        sessions.insert(session.id.clone(), session.clone());
        used.extend(session.items.iter().map(|item| &item.prescription.exercise));
    }
    let mut own: OwnExercises = store.load_exercises().unwrap_or_default();
    for exercise in harvest.own.iter().filter(|e| used.contains(&&e.id)) {
        own.put(exercise.clone(), now);
    }
    if store.load_exercises().as_ref() != Ok(&own) {
        changes = changes.and(store.save_exercises(&own)?);
    }
    Ok(changes.and(store.derived_changes(sessions)?))
}
