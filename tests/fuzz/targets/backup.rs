//! Whatever a backup file holds: it is refused, or is read, joined to an empty log and goes
//! out again the same.
//!
//! `cargo +nightly fuzz run --fuzz-dir tests/fuzz backup CORPUS -- -max_total_time=600 -rss_limit_mb=512`
//! with a folder CORPUS that holds what `saved/backup-2.json` of the store's tests has after
//! its checksum.

#![no_main]

use libfuzzer_sys::fuzz_target;
use weekloom_store::backup::{BackupError, alone, export, read_backup};

/// A file whose head is whole, so that the fuzzer meets the values behind it.
fn file(sum: &str, rest: &str) -> String {
    format!(
        "{{\"format\":\"weekloom-backup\",\"version\":2,\"made\":\"2026-11-25\",\"checksum\":\"{sum}\",{rest}"
    )
}

/// The sum that the reader would have liked better.
fn wanted(error: &BackupError) -> Option<&str> {
    let after = error.reason.split_once("contents is ")?.1;
    (error.place == "checksum").then(|| &after[..8])
}

fuzz_target!(|rest: &str| {
    let _ = read_backup(rest);
    let Err(refused) = read_backup(&file("00000000", rest)) else {
        return;
    };
    let Some(sum) = wanted(&refused) else {
        return;
    };
    let Ok(backup) = read_backup(&file(sum, rest)) else {
        return;
    };
    let store = alone(&backup).expect("what was read can be kept");
    let again = export(&store, backup.made);
    assert!(again.left_out.is_empty());
    let again = read_backup(&again.text).expect("what goes out can be read");
    assert_eq!(again.sessions, backup.sessions);
    assert_eq!(again.person, backup.person);
    assert_eq!(again.plan, backup.plan);
    assert_eq!(again.settings, backup.settings);
    assert_eq!(again.exercises, backup.exercises);
    assert_eq!(again.chronicle, backup.chronicle);
});
