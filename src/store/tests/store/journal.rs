//! The journal brings back what the shelf lost.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use weekloom_engine::calendar::Moment;
use weekloom_store::{
    DamagedRecord, JournalRecord, MemoryShelf, OpenReport, Shelf, ShelfError, Space, Store,
};

/// A run of changes of every kind, with the shelf as it stood after each.
fn run(seed: u64, changes: usize) -> (Vec<JournalRecord>, Vec<MemoryShelf>) {
    let dice = &mut Dice::new(seed);
    let mut store = empty();
    let mut records = Vec::new();
    let mut shelves = vec![store.shelf().clone()];
    for _ in 0..changes {
        let changes = match dice.between(0, 6) {
            0 => store.save_person(&invent::person(dice)).unwrap(),
            1 => store.save_plan(&invent::plan(dice)).unwrap(),
            2 | 3 => store.save_now(&invent::session(dice)).unwrap(),
            4 => store.finish_session(&invent::finished(dice)).unwrap(),
            5 => match store.sessions().first() {
                Some(id) => store.delete_session(id).unwrap(),
                None => store.discard_now(),
            },
            _ => store.save_settings(&invent::settings(dice)).unwrap(),
        };
        records.push(keep(&mut store, changes));
        shelves.push(store.shelf().clone());
    }
    (records, shelves)
}

fn open(shelf: MemoryShelf, records: &[JournalRecord]) -> (Store<MemoryShelf>, OpenReport) {
    Store::open(shelf, Space::Own, records.iter().cloned().map(Ok).collect())
}

/// Everything but `meta`, which carries a number only.
fn values(shelf: &MemoryShelf) -> Vec<(String, String)> {
    let mut keys = shelf.keys();
    keys.retain(|key| key != "weekloom.meta");
    keys.sort();
    keys.into_iter()
        .map(|key| (key.clone(), shelf.get(&key).unwrap()))
        .collect()
}

/// The browser dies and any number of the last writes to the shelf are lost.
#[test]
fn any_lost_tail_is_replayed() {
    for seed in 0..12 {
        let (records, shelves) = run(seed, 25);
        let whole = values(shelves.last().unwrap());
        for (kept, shelf) in shelves.into_iter().enumerate() {
            // The last changes may have discarded what was not there.
            let is_whole = values(&shelf) == whole;
            assert!(is_whole || kept < 25, "seed {seed}");
            let (store, report) = open(shelf, &records);
            assert_eq!(values(store.shelf()), whole, "seed {seed}, kept {kept}");
            assert_eq!(report.replayed == 0, is_whole, "seed {seed}, kept {kept}");
            let (_, again) = open(store.into_shelf(), &records);
            assert_eq!(again, OpenReport::default(), "seed {seed}, kept {kept}");
        }
    }
}

/// Half of a record's writes reached the shelf.
#[test]
fn a_torn_write_is_completed() {
    let (records, shelves) = run(3, 25);
    let whole = values(shelves.last().unwrap());
    let mut torn = shelves[20].clone();
    for record in &records[20..] {
        for (key, value) in record.writes.iter().step_by(2) {
            match value {
                Some(value) => torn.set(key, value).unwrap(),
                None => torn.remove(key).unwrap(),
            }
        }
    }
    let (store, _) = open(torn, &records);
    assert_eq!(values(store.shelf()), whole);
}

#[test]
fn a_shelf_lost_altogether_comes_back_from_the_journal() {
    let (records, shelves) = run(4, 25);
    let (store, _) = open(MemoryShelf::new(), &records);
    assert_eq!(values(store.shelf()), values(shelves.last().unwrap()));
}

/// Old records must not undo what came later, whatever is left of the journal.
#[test]
fn a_journal_whose_end_is_lost_changes_nothing_newer() {
    let (records, shelves) = run(5, 25);
    let whole = shelves.last().unwrap();
    for kept in 0..records.len() {
        let (store, _) = open(whole.clone(), &records[..kept]);
        // A deletion leaves no trace on the shelf, so an older value of a
        // deleted key may come back: nothing is lost, and nothing changes.
        for (key, value) in values(whole) {
            assert_eq!(store.shelf().get(&key), Some(value), "{key}, kept {kept}");
        }
    }
}

#[test]
fn numbers_go_on_from_shelf_and_journal_alike() {
    let (records, shelves) = run(6, 10);
    let next = |shelf: MemoryShelf, journal: Vec<_>| {
        let (mut store, _) = Store::open(shelf, Space::Own, journal);
        let changes = store.discard_now();
        store.prepare(changes, Moment(0)).unwrap().seq
    };
    let whole = shelves[10].clone();
    assert_eq!(next(whole.clone(), Vec::new()), 11);
    let only_journal = records.iter().cloned().map(Ok).collect();
    assert!(next(MemoryShelf::new(), only_journal) >= 11);
    let mut no_meta = whole.clone();
    no_meta.remove("weekloom.meta").unwrap();
    let on_shelf = values(&no_meta)
        .iter()
        .map(|(_, text)| text.split("\"q\":").nth(1).unwrap())
        .map(|rest| rest.split(',').next().unwrap().parse::<u64>().unwrap())
        .max()
        .unwrap();
    assert_eq!(next(no_meta, Vec::new()), on_shelf + 1);
    let damaged = DamagedRecord {
        seq: Some(99),
        why: "cut".to_owned(),
    };
    assert!(next(whole, vec![Err(damaged)]) >= 100);
}

#[test]
fn a_full_shelf_is_reported_and_the_value_stays_readable() {
    let dice = &mut Dice::new(8);
    let mut store = Store::open(MemoryShelf::with_quota(40), Space::Own, vec![]).0;
    let person = invent::person(dice);
    let changes = store.save_person(&person).unwrap();
    let record = store.prepare(changes, Moment(0)).unwrap();
    let missed = store.commit(&record).missed;
    assert!(missed.contains(&("weekloom.person".to_owned(), ShelfError::Full)));
    assert_eq!(store.load_person(), Ok(Some(person.clone())));

    // The next start is still short of room: the journal serves.
    let (store, report) = open(store.into_shelf(), std::slice::from_ref(&record));
    assert_eq!(
        report.missed,
        [("weekloom.person".to_owned(), ShelfError::Full)]
    );
    assert_eq!(store.load_person(), Ok(Some(person.clone())));
    assert_eq!(store.trimmable(Moment(i64::MAX)), [0; 0]);

    // Then there is room.
    let mut shelf = store.into_shelf();
    shelf.set_quota(None);
    let (store, report) = open(shelf, &[record]);
    assert_eq!((report.replayed, report.missed), (1, vec![]));
    assert_eq!(store.load_person(), Ok(Some(person)));
    assert!(store.shelf().get("weekloom.person").is_some());
}

#[test]
fn only_what_a_later_start_found_on_the_shelf_is_trimmed() {
    let dice = &mut Dice::new(9);
    let mut store = empty();
    let mut records = Vec::new();
    for _ in 0..600 {
        let changes = store.save_settings(&invent::settings(dice)).unwrap();
        records.push(keep(&mut store, changes));
    }
    let later = Moment(1_000 + 24 * 60 * 60 * 1000);
    assert!(store.trimmable(later).is_empty(), "the run that wrote them");

    let shelf = store.into_shelf();
    let (store, _) = open(shelf, &records);
    assert_eq!(store.trimmable(later), (1..=100).collect::<Vec<u64>>());
    assert!(store.trimmable(Moment(2_000)).is_empty(), "too young");

    let (store, _) = open(MemoryShelf::new(), &records);
    assert!(store.trimmable(later).is_empty(), "the shelf had lost them");
}

#[test]
fn deleting_everything_outlives_a_lost_shelf_and_leaves_others_alone() {
    let (mut records, shelves) = run(10, 25);
    let mut shelf = shelves.last().unwrap().clone();
    shelf.set("theirs", "untouched").unwrap();
    shelf.set("weekloom-demo.person", "another space").unwrap();
    let before = shelf.clone();
    let (mut store, _) = open(shelf, &records);
    let changes = store.delete_all();
    records.push(keep(&mut store, changes));
    let left = ["theirs", "weekloom-demo.person", "weekloom.meta"];
    assert_eq!(store.shelf().keys(), left);
    assert_eq!(store.load_person(), Ok(None));
    assert!(store.sessions().is_empty());

    // The browser forgot the deletion; the journal did not.
    let (store, _) = open(before, &records);
    assert_eq!(store.shelf().keys(), left);
}

#[test]
fn a_damaged_record_costs_only_itself() {
    let (records, shelves) = run(11, 25);
    let mut journal: Vec<_> = records.iter().cloned().map(Ok).collect();
    journal[12] = Err(DamagedRecord {
        seq: Some(13),
        why: "not a record".to_owned(),
    });
    let (store, report) = Store::open(shelves[25].clone(), Space::Own, journal);
    assert_eq!(report.damaged_records.len(), 1);
    assert_eq!(values(store.shelf()), values(&shelves[25]));
}

/// The app need not wait for one change before it makes the next.
#[test]
fn changes_are_seen_at_once_and_the_newest_wins_in_any_order() {
    let dice = &mut Dice::new(14);
    let mut store = empty();
    let (first, second) = (invent::person(dice), invent::person(dice));
    let changes = store.save_person(&first).unwrap();
    let one = store.prepare(changes, Moment(0)).unwrap();
    assert_eq!(store.load_person(), Ok(Some(first)));
    let changes = store.save_person(&second).unwrap();
    let two = store.prepare(changes, Moment(0)).unwrap();
    store.commit(&two);
    assert_eq!(store.load_person(), Ok(Some(second.clone())));
    store.commit(&one);
    assert_eq!(store.load_person(), Ok(Some(second.clone())));
    let (store, report) = open(store.into_shelf(), &[]);
    assert_eq!(store.load_person(), Ok(Some(second)));
    assert_eq!(report, OpenReport::default());
}

#[test]
fn what_nothing_took_goes_into_the_next_record() {
    let dice = &mut Dice::new(15);
    let mut store = Store::open(MemoryShelf::with_quota(0), Space::Own, vec![]).0;
    let (person, settings) = (invent::person(dice), invent::settings(dice));
    let changes = store.save_person(&person).unwrap();
    let record = store.prepare(changes, Moment(0)).unwrap();
    store.commit(&record);
    store.mark_unkept(&record);
    let changes = store.save_settings(&settings).unwrap();
    let next = store.prepare(changes, Moment(0)).unwrap();
    assert_eq!(next.writes.len(), 2);

    let (store, _) = open(MemoryShelf::new(), &[next]);
    assert_eq!(store.load_person(), Ok(Some(person)));
    assert_eq!(store.load_settings(), Ok(settings));
}
