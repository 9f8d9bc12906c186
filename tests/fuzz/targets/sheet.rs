//! Whatever a spreadsheet holds: every session that comes of it can be kept, and the same
//! rows give the same sessions.
//!
//! `cargo +nightly fuzz run --fuzz-dir tests/fuzz sheet -- -max_total_time=600 -rss_limit_mb=512`

#![no_main]

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::units::Unit;
use weekloom_store::sheet::{Gatherer, Mapping, Meaning, Table, names};
use weekloom_store::{MemoryShelf, Space, Store};

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fuzz_target!(|text: &str| {
    let Ok(table) = Table::read(text) else {
        return;
    };
    let mapping = Mapping::guess(&table, Unit::Kg);
    let Some(first) = CATALOGUE.iter().next() else {
        return;
    };
    let found = names(&table, &mapping).len();
    let gatherer = Gatherer {
        catalogue: &CATALOGUE,
        mapping: &mapping,
        meanings: &vec![Meaning::Like(first.id.clone()); found],
        today: Day::from_epoch_days(25_000),
    };
    let (store, _) = Store::open(MemoryShelf::new(), Space::Own, Vec::new());
    let harvest = gatherer.gather(&table, &store);
    assert_eq!(harvest, gatherer.gather(&table, &store));
    for session in &harvest.new {
        assert!(store.save_session(session).is_ok());
    }
});
