//! Whatever the journal and the shelf hold: the store opens, and opening it again changes
//! nothing more.
//!
//! `cargo +nightly fuzz run --fuzz-dir tests/fuzz journal -- -max_total_time=600 -rss_limit_mb=512`

#![no_main]

use libfuzzer_sys::fuzz_target;
use weekloom_store::{Intent, JournalRecord, MemoryShelf, Shelf, Space, Store};

type Record = (u64, i64, bool, Vec<(String, Option<String>)>);

fuzz_target!(|given: (Vec<(String, String)>, Vec<Record>)| {
    let (values, records) = given;
    let mut shelf = MemoryShelf::new();
    for (key, value) in values {
        let _ = shelf.set(&format!("weekloom.{key}"), &value);
    }
    let records: Vec<JournalRecord> = records
        .into_iter()
        .map(|(seq, at_ms, erases, writes)| JournalRecord {
            seq: seq >> 12,
            at_ms,
            intent: if erases { Intent::Erase } else { Intent::Write },
            writes: writes
                .into_iter()
                .map(|(key, value)| (format!("weekloom.{key}"), value))
                .collect(),
        })
        .collect();
    let journal = || records.iter().cloned().map(Ok).collect();
    let (store, _) = Store::open(shelf, Space::Own, journal());
    let sessions = store.sessions();
    let (again, report) = Store::open(store.into_shelf(), Space::Own, journal());
    assert_eq!(again.sessions(), sessions);
    assert_eq!(report.replayed, 0);
});
