//! The sheet of all sets, read back by a reader of CSV that knows nothing of ours.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, ExerciseId, Measure};
use weekloom_engine::log::SetKind;
use weekloom_engine::session::Session;
use weekloom_engine::units::{Load, Unit};
use weekloom_store::sheet::{COLUMNS, all_sets};
use weekloom_store::{MemoryShelf, Store};

/// The crate `csv`, told nothing but that the file has a head.
fn read(text: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().unwrap().iter().map(str::to_owned);
    let head = head.collect();
    let rows = reader.records().map(|row| {
        let row = row.unwrap();
        row.iter().map(str::to_owned).collect()
    });
    (head, rows.collect())
}

fn store_of(sessions: &[Session]) -> Store<MemoryShelf> {
    let mut store = empty();
    for session in sessions {
        let changes = store.finish_session(session).unwrap();
        keep(&mut store, changes);
    }
    store
}

#[test]
fn every_set_comes_back_from_an_independent_reader() {
    let catalogue = Catalogue::built_in();
    for seed in 0..40 {
        let dice = &mut Dice::new(seed);
        let sessions: Vec<Session> = (0..8).map(|_| invent::finished(dice)).collect();
        let store = store_of(&sessions);
        let unit = if dice.coin() { Unit::Kg } else { Unit::Lb };
        let sheet = all_sets(&store, &catalogue, &|id| id.to_string(), unit);
        assert_eq!(sheet.left_out, []);
        let (head, rows) = read(&sheet.text);
        assert_eq!(head, COLUMNS);
        assert_eq!(rows.len(), sheet.sets);

        let mut rows = rows.iter();
        for id in store.sessions() {
            let session = store.read_session(&id).unwrap().unwrap();
            for item in &session.items {
                let exercise = catalogue.get(&item.prescription.exercise);
                for (at, set) in item.sets.iter().enumerate() {
                    let row = rows.next().unwrap();
                    let cell = |name: &str| {
                        let at = COLUMNS.iter().position(|c| *c == name).unwrap();
                        row[at].as_str()
                    };
                    assert_eq!(cell("date"), session.day.to_string());
                    assert_eq!(cell("session"), id);
                    assert_eq!(cell("exercise_id"), item.prescription.exercise.as_str());
                    assert_eq!(cell("set"), (at + 1).to_string());
                    assert_eq!(cell("kind") == "warm-up", set.kind == SetKind::WarmUp);
                    let is_timed = exercise.is_some_and(|e| e.measure == Measure::Seconds);
                    let (full, bare) = if is_timed {
                        ("seconds", "reps")
                    } else {
                        ("reps", "seconds")
                    };
                    assert_eq!(cell(full), set.count.to_string());
                    assert_eq!(cell(bare), "");
                    let is_loaded = exercise.map_or(set.load > Load::ZERO, |e| e.is_loaded());
                    if is_loaded {
                        assert_eq!(cell("load"), set.load.show(unit));
                        assert_eq!(cell("unit"), unit.symbol());
                    } else {
                        assert_eq!((cell("load"), cell("unit")), ("", ""));
                    }
                    let rir = set.rir.map(|rir| rir.to_string()).unwrap_or_default();
                    assert_eq!(cell("rir"), rir);
                    assert_eq!(cell("logged").is_empty(), session.started.is_none());
                    if at == 0 {
                        assert_eq!(
                            cell("note").trim_start_matches('\''),
                            item.note.trim_start_matches('\'')
                        );
                    } else {
                        assert_eq!(cell("note"), "");
                    }
                }
            }
        }
        assert_eq!(rows.next(), None, "seed {seed}");
    }
}

/// RFC 4180: records end with CR LF, quotes are doubled. The moment is one
/// anybody can check: 1 700 000 000 s after 1970 is 2023-11-14T22:13:20Z.
#[test]
fn a_sheet_looks_as_it_is_documented() {
    let dice = &mut Dice::new(1);
    let mut session = invent::finished(dice);
    while session.items.is_empty() || session.items[0].sets.is_empty() {
        session = invent::finished(dice);
    }
    session.started = Some(Moment(1_699_999_000_000));
    session.items.truncate(1);
    session.current = None;
    let item = &mut session.items[0];
    item.prescription.exercise = ExerciseId::new("barbell-bench-press");
    item.sets.truncate(1);
    item.sets[0].load = Load::clamped(62_500);
    item.sets[0].count = 8;
    item.sets[0].kind = SetKind::Work;
    item.sets[0].rir = Some(2);
    item.sets[0].at = Moment(1_700_000_000_000);
    item.discomfort = None;
    item.note = "said \"easy\",\nthen not".to_owned();
    session.day = Day::parse("2023-11-14").unwrap();
    session.id = "a".to_owned();
    let catalogue = Catalogue::built_in();
    let name = |id: &ExerciseId| catalogue.get(id).unwrap().name.clone();
    let sheet = all_sets(&store_of(&[session]), &catalogue, &name, Unit::Kg);
    assert_eq!(
        sheet.text,
        "\u{feff}date,session,exercise,exercise_id,set,kind,load,unit,reps,seconds,rir,logged,discomfort,note\r\n\
         2023-11-14,a,Barbell bench press,barbell-bench-press,1,work,62.5,kg,8,,2,2023-11-14T22:13:20Z,,\"said \"\"easy\"\",\nthen not\"\r\n"
    );
}

#[test]
fn no_cell_begins_as_a_formula() {
    let texts = [
        "=1+1",
        "+49 30",
        "-1",
        "@sum",
        "\tx",
        "\rx",
        "'=1",
        "=HYPERLINK(\"http://x\",\"y\")",
    ];
    let dice = &mut Dice::new(2);
    for text in texts {
        let mut session = invent::finished(dice);
        while session.items.iter().all(|item| item.sets.is_empty()) {
            session = invent::finished(dice);
        }
        for item in &mut session.items {
            item.note = text.to_owned();
        }
        let store = store_of(&[session]);
        let name = |_: &ExerciseId| text.to_owned();
        let sheet = all_sets(&store, &Catalogue::built_in(), &name, Unit::Kg);
        let (_, rows) = read(&sheet.text);
        let mut seen = 0;
        for cell in rows.iter().flatten() {
            assert!(
                !cell.starts_with(['=', '+', '-', '@', '\t', '\r']),
                "{cell:?}"
            );
            seen += usize::from(*cell == format!("'{text}"));
        }
        assert!(seen > 0, "{text:?} is not there at all");
    }
}
