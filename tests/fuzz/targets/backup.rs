//! Whatever a backup file holds: it is refused or read, and what was read writes itself
//! again the same.
//!
//! `cargo +nightly fuzz run --fuzz-dir tests/fuzz backup -- -max_total_time=600 -rss_limit_mb=512`

#![no_main]

use libfuzzer_sys::fuzz_target;
use weekloom_store::backup::read_backup;

fuzz_target!(|text: &str| {
    if let Ok(found) = read_backup(text) {
        assert_eq!(read_backup(text).as_ref(), Ok(&found));
    }
});
