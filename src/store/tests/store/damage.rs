//! Damaged and newer values are set aside, and everything else goes on.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use weekloom_engine::calendar::Moment;
use weekloom_store::{MemoryShelf, Shelf, ShelfError, Space, Store, StoreError, Why};

fn filled() -> MemoryShelf {
    let dice = &mut Dice::new(21);
    let mut store = empty();
    for _ in 0..4 {
        let changes = store.finish_session(&invent::finished(dice)).unwrap();
        keep(&mut store, changes);
    }
    let changes = store
        .save_person(&invent::person(dice))
        .unwrap()
        .and(store.save_plan(&invent::plan(dice)).unwrap())
        .and(store.save_settings(&invent::settings(dice)).unwrap())
        .and(store.save_now(&invent::session(dice)).unwrap());
    keep(&mut store, changes);
    store.into_shelf()
}

fn open(shelf: MemoryShelf) -> Store<MemoryShelf> {
    Store::open(shelf, Space::Own, Vec::new()).0
}

/// Reads everything there is; says what it found.
fn read_all(store: &Store<MemoryShelf>) -> Vec<String> {
    let mut found = vec![
        format!("{:?}", store.load_person().ok()),
        format!("{:?}", store.load_plan().ok()),
        format!("{:?}", store.load_settings().ok()),
        format!("{:?}", store.load_now().ok()),
        format!("{:?}", store.index()),
    ];
    for id in store.sessions() {
        found.push(format!("{:?}", store.read_session(&id).ok()));
    }
    found
}

/// One value is changed in one byte or cut short: the start succeeds, the
/// value is set aside with its whole text, all the rest reads as before.
#[test]
fn one_damaged_value_costs_only_itself() {
    let whole = filled();
    let before = read_all(&open(whole.clone()));
    let dice = &mut Dice::new(22);
    for key in whole.keys() {
        let text = whole.get(&key).unwrap();
        for _ in 0..60 {
            let at = dice.index(text.len());
            let mut bytes = text.clone().into_bytes();
            let damaged = if dice.coin() {
                bytes[at] ^= 1 << dice.between(0, 6);
                String::from_utf8(bytes).unwrap()
            } else {
                text[..at].to_owned()
            };
            let mut shelf = whole.clone();
            shelf.set(&key, &damaged).unwrap();
            let store = open(shelf);
            let aside = store.check_all();
            let is_derived = ["meta", "index", "history"]
                .iter()
                .any(|kind| key.starts_with(&format!("weekloom.{kind}")));
            if is_derived {
                // Made again from the sessions, so there is nothing to keep.
                assert_eq!(aside, [], "{key}");
                assert_eq!(read_all(&store), before, "{key}");
                continue;
            }
            assert_eq!(aside.len(), 1, "{key} {damaged}");
            assert_eq!((&aside[0].key, &aside[0].text), (&key, &damaged));
            assert_eq!(store.shelf().get(&key), Some(damaged), "left as it is");
            let after = read_all(&store);
            let changed = before.iter().zip(&after).filter(|(a, b)| a != b).count();
            // A session that cannot be read drops out of the index as well,
            // when the index is next made.
            assert_eq!(changed, 1, "{key}");
        }
    }
}

#[test]
fn a_history_that_is_damaged_is_read_from_the_sessions() {
    let whole = filled();
    let key = whole
        .keys()
        .into_iter()
        .find(|key| key.starts_with("weekloom.history."))
        .unwrap();
    let exercise = weekloom_engine::catalogue::ExerciseId::new(&key["weekloom.history.".len()..]);
    let before = open(whole.clone()).history(&exercise);
    let mut shelf = whole;
    shelf.set(&key, "{").unwrap();
    assert_eq!(open(shelf).history(&exercise), before);
}

#[test]
fn a_damaged_value_is_copied_before_another_takes_its_place() {
    let mut shelf = filled();
    shelf.set("weekloom.person", "gone bad \u{1F9F6}").unwrap();
    let (mut store, report) = Store::open(shelf, Space::Own, Vec::new());
    assert_eq!(report.unreadable.len(), 1);
    assert_eq!(report.unreadable[0].key, "weekloom.person");
    let person = invent::person(&mut Dice::new(23));
    for _ in 0..3 {
        let changes = store.save_person(&person).unwrap();
        keep(&mut store, changes);
    }
    let store = open(store.into_shelf());
    assert_eq!(store.load_person(), Ok(Some(person)));
    let aside = store.set_aside();
    assert_eq!(aside.len(), 1);
    assert_eq!(aside[0].key, "weekloom.person");
    assert_eq!(aside[0].text, "gone bad \u{1F9F6}");
}

/// No room for the copy: the damaged value stays, the new one is held in
/// memory and left to the journal.
#[test]
fn without_room_for_the_copy_nothing_is_overwritten() {
    let mut shelf = filled();
    shelf.set("weekloom.person", "gone bad").unwrap();
    let mut store = open(shelf);
    let person = invent::person(&mut Dice::new(24));
    let mut full = store.into_shelf();
    full.set_quota(Some(full.used() + 10));
    store = open(full);
    let changes = store.save_person(&person).unwrap();
    let record = store.prepare(changes, Moment(0)).unwrap();
    let missed = store.commit(&record).missed;
    assert_eq!(missed, [("weekloom.person".to_owned(), ShelfError::Full)]);
    assert_eq!(store.load_person(), Ok(Some(person)));
    assert_eq!(
        store.shelf().get("weekloom.person").as_deref(),
        Some("gone bad")
    );
}

/// A sealed text, written here a second time from the description of the seal.
fn sealed(version: u32, body: &str) -> String {
    let mut sum = !0_u32;
    for byte in format!("{version},5,{body}").bytes() {
        sum ^= u32::from(byte);
        for _ in 0..8 {
            sum = if sum & 1 == 1 {
                (sum >> 1) ^ 0xEDB8_8320
            } else {
                sum >> 1
            };
        }
    }
    format!(
        "{{\"v\":{version},\"q\":5,\"c\":\"{:08x}\",\"b\":{body}}}",
        !sum
    )
}

#[test]
fn a_newer_value_is_reported_and_never_replaced() {
    let mut shelf = filled();
    let text = sealed(2, r#"{"unheard":"of"}"#);
    shelf.set("weekloom.plan", &text).unwrap();
    let (mut store, report) = Store::open(shelf, Space::Own, Vec::new());
    assert_eq!(report.newer_schema, Some(2));
    assert_eq!(store.load_plan().unwrap_err().why, Why::Newer(2));
    let changes = store.save_plan(&invent::plan(&mut Dice::new(25))).unwrap();
    let error = store.prepare(changes, Moment(0)).unwrap_err();
    assert_eq!(
        error,
        StoreError::Newer {
            key: "weekloom.plan".to_owned(),
            version: 2
        }
    );
    assert_eq!(store.shelf().get("weekloom.plan"), Some(text));
}

#[test]
fn an_unknown_field_within_the_version_is_set_aside() {
    let mut shelf = filled();
    let text = sealed(1, r#"{"unheard":"of"}"#);
    shelf.set("weekloom.settings", &text).unwrap();
    let store = open(shelf);
    let found = store.load_settings().unwrap_err();
    assert!(matches!(&found.why, Why::Refused(e) if e.what.contains("unknown field")));
    assert_eq!(store.set_aside()[0].text, text);
}
