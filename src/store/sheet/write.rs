//! Every set of the log as one line each.

use super::FORMULA;
use crate::shelf::Shelf;
use crate::stamp::Stamp;
use crate::store::{Store, Unreadable};
use weekloom_engine::catalogue::{Catalogue, ExerciseId, Measure};
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::session::{Session, SessionItem};
use weekloom_engine::units::Unit;

/// The columns, in order. One line is one set.
///
/// | column | what stands in it |
/// |---|---|
/// | `date` | day of the session, YYYY-MM-DD (ISO 8601) |
/// | `session` | id of the session; sets with the same id belong together |
/// | `exercise` | its name |
/// | `exercise_id` | its id, which never changes |
/// | `set` | number of the set among those of the exercise, from 1 |
/// | `kind` | `work` or `warm-up` |
/// | `load` | what was lifted, with a point; empty where there is no number. One dumbbell of a pair; the help of an assisted exercise |
/// | `unit` | `kg` or `lb`; empty where `load` is |
/// | `reps` | reps, for one-sided exercises per side; empty where seconds are counted |
/// | `seconds` | seconds held; empty where reps are counted |
/// | `rir` | reps in reserve as judged, empty where not said |
/// | `logged` | when the set was logged, UTC (RFC 3339); empty where the time is not known |
/// | `discomfort` | `mild` or `painful`, on the first set of the exercise |
/// | `note` | the note on the exercise, on its first set |
pub const COLUMNS: [&str; 14] = [
    "date",
    "session",
    "exercise",
    "exercise_id",
    "set",
    "kind",
    "load",
    "unit",
    "reps",
    "seconds",
    "rir",
    "logged",
    "discomfort",
    "note",
];

/// A sheet's text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The whole file: a mark that it is UTF-8, the names of the [`COLUMNS`],
    /// then the sets by session, each line ended by CR LF.
    pub text: String,
    /// Sets in it.
    pub sets: usize,
    /// Sessions that could not be read and are therefore not in it.
    pub left_out: Vec<Unreadable>,
}

/// Every set of every finished session that can be read, by session. Names of
/// exercises are the caller's, because they are in the person's language.
///
/// Cells that begin with `=`, `+`, `-` or `@` get an apostrophe before them,
/// or a spreadsheet would run them as formulas (OWASP, "CSV Injection").
#[must_use]
pub fn all_sets<S: Shelf>(
    store: &Store<S>,
    catalogue: &Catalogue,
    name_of: &dyn Fn(&ExerciseId) -> String,
    unit: Unit,
) -> Sheet {
    let mut sheet = Sheet {
        // Without the mark a common spreadsheet reads UTF-8 as something else.
        text: String::from('\u{feff}'),
        sets: 0,
        left_out: Vec::new(),
    };
    let head = COLUMNS.map(str::to_owned);
    line(&mut sheet.text, &head);
    for id in store.sessions() {
        match store.read_session(&id) {
            Ok(Some(session)) => {
                for item in &session.items {
                    sheet.sets += item.sets.len();
                    add(&mut sheet.text, &session, item, catalogue, name_of, unit);
                }
            }
            Ok(None) => {}
            Err(found) => sheet.left_out.push(found),
        }
    }
    sheet
}

fn add(
    text: &mut String,
    session: &Session,
    item: &SessionItem,
    catalogue: &Catalogue,
    name_of: &dyn Fn(&ExerciseId) -> String,
    unit: Unit,
) {
    let id = &item.prescription.exercise;
    let exercise = catalogue.get(id);
    let is_timed = exercise.is_some_and(|e| e.measure == Measure::Seconds);
    // Of an exercise nobody knows any more every number is kept.
    let is_loaded = |set: &SetEntry| exercise.map_or(set.load.grams() > 0, |e| e.is_loaded());
    for (at, set) in item.sets.iter().enumerate() {
        let (mut reps, mut seconds) = (set.count.to_string(), String::new());
        if is_timed {
            std::mem::swap(&mut reps, &mut seconds);
        }
        let (load, unit) = if is_loaded(set) {
            (set.load.show(unit), unit.symbol())
        } else {
            (String::new(), "")
        };
        let of_first = |text: &str| {
            if at == 0 {
                guarded(text)
            } else {
                String::new()
            }
        };
        let logged = session
            .started
            .map(|_| Stamp::of(set.at).extended())
            .unwrap_or_default();
        line(
            text,
            &[
                session.day.to_string(),
                guarded(&session.id),
                guarded(&name_of(id)),
                guarded(id.as_str()),
                (at + 1).to_string(),
                match set.kind {
                    SetKind::Work => "work",
                    SetKind::WarmUp => "warm-up",
                }
                .to_owned(),
                load,
                unit.to_owned(),
                reps,
                seconds,
                set.rir.map(|rir| rir.to_string()).unwrap_or_default(),
                logged,
                of_first(item.discomfort.map_or("", |d| d.slug())),
                of_first(&item.note),
            ],
        );
    }
}

/// A text that no spreadsheet takes for a formula. One that begins with an
/// apostrophe before such a sign gets another, so that reading takes off
/// exactly what was put on.
fn guarded(text: &str) -> String {
    let bare = text.trim_start_matches('\'');
    if bare.starts_with(FORMULA) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// One record: quoted where RFC 4180 asks for it.
fn line(out: &mut String, cells: &[String; COLUMNS.len()]) {
    for (at, cell) in cells.iter().enumerate() {
        if at > 0 {
            out.push(',');
        }
        if cell.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&cell.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(cell);
        }
    }
    out.push_str("\r\n");
}
