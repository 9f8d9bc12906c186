//! The backup file: whole, checked, and merged without surprises.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use std::collections::BTreeMap;
use weekloom_engine::calendar::Day;
use weekloom_store::backup::{
    Backup, Choice, Part, Take, alone, export, merge, preview, read_backup,
};
use weekloom_store::{MemoryShelf, OpenReport, Shelf, Space, Store};

fn filled(seed: u64, sessions: usize) -> Store<MemoryShelf> {
    let dice = &mut Dice::new(seed);
    let mut store = empty();
    for _ in 0..sessions {
        let changes = store.finish_session(&invent::finished(dice)).unwrap();
        keep(&mut store, changes);
    }
    let changes = store
        .save_person(&invent::person(dice))
        .unwrap()
        .and(store.save_plan(&invent::plan(dice)).unwrap())
        .and(store.save_settings(&invent::settings(dice)).unwrap())
        .and(store.save_now(&invent::session(dice)).unwrap())
        .and(store.save_exercises(&invent::exercises(dice)).unwrap())
        .and(store.save_chronicle(&invent::chronicle(dice)).unwrap());
    keep(&mut store, changes);
    store
}

fn made() -> Day {
    Day::parse("2026-11-25").unwrap()
}

fn backup_of(store: &Store<MemoryShelf>) -> Backup {
    let exported = export(store, made());
    assert_eq!(exported.left_out, []);
    assert!(exported.text.is_ascii());
    read_backup(&exported.text).unwrap()
}

fn merged(store: &mut Store<MemoryShelf>, backup: &Backup, take: Take) {
    let choice = Choice {
        person: take,
        plan: take,
        settings: take,
    };
    let changes = merge(store, backup, choice).unwrap();
    keep(store, changes);
}

/// Bodies without their numbers, which depend on the order of writing.
fn bodies(store: &Store<MemoryShelf>) -> Vec<(String, String)> {
    let shelf = store.shelf();
    let mut keys = shelf.keys();
    keys.retain(|key| key != "weekloom.meta");
    keys.into_iter()
        .map(|key| {
            let text = shelf.get(&key).unwrap();
            let body = text.split_once("\"b\":").unwrap().1.to_owned();
            (key, body)
        })
        .collect()
}

#[test]
fn restoring_after_deleting_everything_gives_the_same_state() {
    for seed in 0..5 {
        let mut store = filled(seed, 20);
        let before = bodies(&store);
        let backup = backup_of(&store);
        let changes = store.delete_all();
        keep(&mut store, changes);
        assert_eq!(bodies(&store), []);
        let seen = preview(&store, &backup);
        assert_eq!(
            (seen.new, seen.person, seen.now),
            (backup.sessions.len(), Part::New, Part::New)
        );
        merged(&mut store, &backup, Take::Mine);
        assert_eq!(bodies(&store), before, "seed {seed}");
    }
}

#[test]
fn merging_again_changes_nothing() {
    let mut store = filled(31, 10);
    let backup = backup_of(&filled(32, 10));
    merged(&mut store, &backup, Take::Backup);
    assert!(
        merge(&store, &backup, Choice::default())
            .unwrap()
            .is_empty()
    );
    let seen = preview(&store, &backup);
    assert_eq!(
        (seen.new, seen.changed, seen.kept, seen.same),
        (0, 0, 0, 10)
    );
    assert_eq!(
        (seen.person, seen.plan, seen.settings),
        (Part::Same, Part::Same, Part::Same)
    );
}

/// The same session in two versions, and sessions only one side has.
#[test]
fn the_order_of_merges_makes_no_difference_to_sessions() {
    for seed in 40..50 {
        let dice = &mut Dice::new(seed);
        let mut left = filled(seed, 12);
        let mut right = filled(seed, 12);
        for store in [&mut left, &mut right] {
            for id in store.sessions() {
                let mut session = store.read_session(&id).unwrap().unwrap();
                if dice.coin() {
                    for item in &mut session.items {
                        item.sets.truncate(dice.index(4));
                    }
                    let changes = store.save_session(&session).unwrap();
                    keep(store, changes);
                }
            }
            let changes = store.finish_session(&invent::finished(dice)).unwrap();
            keep(store, changes);
        }
        let (a, b) = (backup_of(&left), backup_of(&right));
        let sessions_after = |first: &Backup, second: &Backup| {
            let mut store = empty();
            merged(&mut store, first, Take::Mine);
            merged(&mut store, second, Take::Mine);
            let mut all = bodies(&store);
            all.retain(|(key, _)| {
                ["session.", "history.", "index"]
                    .iter()
                    .any(|kind| key.starts_with(&format!("weekloom.{kind}")))
            });
            all
        };
        assert_eq!(
            sessions_after(&a, &b),
            sessions_after(&b, &a),
            "seed {seed}"
        );
        assert_ne!(
            sessions_after(&a, &a),
            sessions_after(&a, &b),
            "seed {seed}"
        );
        merged(&mut left, &b, Take::Mine);
        assert!(left.rebuild_index().unwrap().is_empty(), "seed {seed}");
    }
}

#[test]
fn the_person_chooses_what_is_replaced() {
    let theirs = backup_of(&filled(51, 1));
    for take in [Take::Mine, Take::Backup] {
        let mut store = filled(52, 1);
        let mine = store.load_person().unwrap();
        assert_eq!(preview(&store, &theirs).person, Part::Differs);
        merged(&mut store, &theirs, take);
        let expected = match take {
            Take::Mine => mine,
            Take::Backup => theirs.person.clone(),
        };
        assert_eq!(store.load_person().unwrap(), expected);
    }
}

#[test]
fn a_session_that_cannot_be_read_is_mended_and_its_text_kept() {
    let store = filled(53, 3);
    let backup = backup_of(&store);
    let id = store.sessions()[1].clone();
    let key = format!("weekloom.session.{id}");
    let mut shelf = store.into_shelf();
    shelf.set(&key, "gone bad").unwrap();
    let mut store = Store::open(shelf, weekloom_store::Space::Own, vec![]).0;
    let exported = export(&store, made());
    assert_eq!(exported.left_out.len(), 1);
    assert_eq!(exported.left_out[0].key, key);
    assert_eq!(preview(&store, &backup).changed, 1);
    merged(&mut store, &backup, Take::Mine);
    assert_eq!(
        store.read_session(&id).unwrap().as_ref(),
        backup.sessions.get(&id)
    );
    assert_eq!(store.check_all()[0].text, "gone bad");
}

#[test]
fn a_changed_or_cut_file_is_refused_and_never_panics() {
    let text = export(&filled(54, 4), made()).text;
    let whole = read_backup(&text).unwrap();
    let dice = &mut Dice::new(55);
    for _ in 0..2_000 {
        let at = dice.index(text.len());
        let mut bytes = text.clone().into_bytes();
        bytes[at] ^= 1 << dice.between(0, 6);
        let changed = String::from_utf8(bytes).unwrap();
        // A changed byte between the values may still be a blank.
        if let Ok(read) = read_backup(&changed) {
            assert_eq!(read, whole, "at {at}: {:?}", &changed[at..=at]);
        }
        let cut = &text[..at];
        assert!(read_backup(cut).is_err() || text[at..].trim().is_empty());
    }
}

#[test]
fn a_reformatted_file_is_still_whole() {
    let text = export(&filled(56, 2), made()).text;
    let loose = text.replace("],", "] ,\r\n\t").replace(":{", " : {");
    assert_ne!(loose, text);
    assert_eq!(read_backup(&loose), read_backup(&text));
}

#[test]
fn refusals_say_what_is_wrong() {
    let text = export(&filled(57, 1), made()).text;
    let changed = |from: &str, to: &str| {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        read_backup(&changed).unwrap_err().to_string()
    };
    let cases = [
        (
            read_backup("").unwrap_err().to_string(),
            "line 1 column 0: EOF while parsing a value",
        ),
        (
            read_backup("[1]").unwrap_err().to_string(),
            "line 1 column 1: invalid type",
        ),
        (
            changed("weekloom-backup", "shopping-list"),
            "format: the file is no backup: its format is not 'weekloom-backup'",
        ),
        (
            changed("\"version\":2", "\"version\":3"),
            "version: the file has version 3, this app reads up to 2; load the newest app first",
        ),
        (changed("\"version\":2", "\"version\":0"), "version: "),
        (changed("\"made\":\"2026", "\"made\":\"2025"), "checksum: "),
        (changed("\"minutes\":", "\"minutes\":1"), "checksum: "),
        (
            changed("\"person\":", "\"butler\":"),
            "line 6 column 8: unknown field `butler`",
        ),
    ];
    for (found, expected) in cases {
        assert!(found.starts_with(expected), "{found}\n{expected}");
    }
    let deep = "[".repeat(100_000);
    assert!(read_backup(&deep).is_err());
    let nested = format!("{{\"format\":\"weekloom-backup\",\"version\":1,\"x\":{deep}");
    assert!(read_backup(&nested).is_err());
    let large = " ".repeat(weekloom_store::backup::MOST_BYTES + 1);
    assert!(read_backup(&large).unwrap_err().reason.contains("at most"));
}

/// A file saved by the first release's code, before there were own exercises.
#[test]
fn a_file_of_version_1_is_read_as_ever() {
    let text = include_str!("saved/backup-1.json");
    let backup = read_backup(text).unwrap();
    assert_eq!(backup.exercises.0.len(), 0);
    let mut store = empty();
    merged(&mut store, &backup, Take::Mine);
    let dice = &mut Dice::new(11);
    for _ in 0..4 {
        let session = invent::finished(dice);
        assert_eq!(store.read_session(&session.id), Ok(Some(session)));
    }
    assert_eq!(store.load_person(), Ok(Some(invent::person(dice))));
    let with_more = text.replace("\"sessions\":[", "\"exercises\":[],\n\"sessions\":[");
    assert!(
        read_backup(&with_more)
            .unwrap_err()
            .reason
            .contains("unknown field")
    );
}

/// A file saved before remarks of past sessions were kept: it is read, and goes out
/// again as it was.
#[test]
fn a_file_of_version_2_is_read_as_ever() {
    let text = include_str!("saved/backup-2.json");
    let backup = read_backup(text).unwrap();
    assert_eq!(backup.sessions.len(), 4);
    assert!(backup.person.is_some() && backup.plan.is_some() && backup.now.is_some());
    assert!(!backup.exercises.0.is_empty());
    assert!(!backup.chronicle.amendments.is_empty() && backup.chronicle.remarks.is_empty());
    let store = alone(&backup).unwrap();
    assert_eq!(export(&store, backup.made).text, text);
}

/// What a browser held in version 1: every value is read where it stands, and
/// nothing is written for it.
#[test]
fn a_shelf_of_version_1_is_read_as_ever() {
    let text = include_str!("saved/shelf-1.json");
    let kept: BTreeMap<String, String> = serde_json::from_str(text).unwrap();
    let mut shelf = MemoryShelf::new();
    for (key, value) in &kept {
        shelf.set(key, value).unwrap();
    }
    let (store, report) = Store::open(shelf, Space::Own, Vec::new());
    assert_eq!(report, OpenReport::default());
    assert_eq!(store.check_all(), []);
    assert_eq!(store.sessions().len(), 4);
    assert!(store.rebuild_index().unwrap().is_empty());
    let backup = read_backup(&export(&store, made()).text).unwrap();
    let as_file = read_backup(include_str!("saved/backup-2.json")).unwrap();
    assert_eq!(backup, as_file);
    let shelf = store.into_shelf();
    let after = shelf.keys().into_iter();
    let after: BTreeMap<String, String> = after
        .map(|key| (key.clone(), shelf.get(&key).unwrap()))
        .collect();
    assert_eq!(after, kept);
}

/// Sessions, index, histories and own exercises: what is joined by id.
fn joined_by_id(store: &Store<MemoryShelf>) -> Vec<(String, String)> {
    let mut all = bodies(store);
    all.retain(|(key, _)| {
        let kinds = ["session.", "history.", "index", "exercises", "chronicle"];
        kinds
            .iter()
            .any(|kind| key.starts_with(&format!("weekloom.{kind}")))
    });
    all
}

/// Three phones of one person with versions of the same sessions and
/// exercises. Whatever is joined to what, in whatever order and however
/// often, the log comes out the same.
#[test]
fn joining_is_idempotent_commutative_and_associative() {
    for seed in 0..60 {
        let dice = &mut Dice::new(seed);
        let common: Vec<_> = (0..6).map(|_| invent::finished(dice)).collect();
        let phones: Vec<Backup> = (0..3)
            .map(|_| {
                let mut store = empty();
                for session in &common {
                    let mut session = session.clone();
                    for item in &mut session.items {
                        item.sets.truncate(dice.index(4));
                    }
                    if dice.coin() {
                        let changes = store.finish_session(&session).unwrap();
                        keep(&mut store, changes);
                    }
                }
                let changes = store.finish_session(&invent::finished(dice)).unwrap();
                let changes = changes.and(store.save_exercises(&invent::exercises(dice)).unwrap());
                let changes = changes.and(store.save_chronicle(&invent::chronicle(dice)).unwrap());
                keep(&mut store, changes);
                backup_of(&store)
            })
            .collect();
        let all_of = |order: &[usize]| {
            let mut store = empty();
            for &phone in order {
                merged(&mut store, &phones[phone], Take::Mine);
            }
            store
        };
        let expected = joined_by_id(&all_of(&[0, 1, 2]));
        for order in [[0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]] {
            assert_eq!(
                joined_by_id(&all_of(&order)),
                expected,
                "seed {seed}, {order:?}"
            );
        }
        let often = all_of(&[0, 0, 1, 0, 2, 1, 2, 2, 0]);
        assert_eq!(joined_by_id(&often), expected, "seed {seed}");
        // (0 and 1) and 2 is 0 and (1 and 2), each pair joined on a phone of its own.
        let pair = |first: usize, second: usize| backup_of(&all_of(&[first, second]));
        let mut left = empty();
        merged(&mut left, &pair(0, 1), Take::Mine);
        merged(&mut left, &phones[2], Take::Mine);
        let mut right = empty();
        merged(&mut right, &phones[0], Take::Mine);
        merged(&mut right, &pair(1, 2), Take::Mine);
        assert_eq!(joined_by_id(&left), expected, "seed {seed}");
        assert_eq!(joined_by_id(&right), expected, "seed {seed}");
    }
}

#[test]
fn a_backup_alone_holds_what_the_file_holds() {
    for seed in 0..20 {
        let backup = backup_of(&filled(seed, 7));
        let store = alone(&backup).unwrap();
        assert_eq!(read_backup(&export(&store, made()).text).unwrap(), backup);
        // Found by the index too, not only by the sessions' own keys.
        assert_eq!(store.index().sessions as usize, backup.sessions.len());
    }
}
