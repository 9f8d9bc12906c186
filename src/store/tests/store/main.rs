//! What the store promises, checked over invented data.
//!
//! Every case is drawn from a fixed seed, so a failure names a seed that
//! fails again.

mod backup;
mod damage;
mod demo;
mod diary;
mod handover;
mod hostile;
mod invent;
mod journal;
mod log;
mod round_trip;
mod schema;
mod sheet;
mod size;
mod spreadsheet;

use weekloom_engine::calendar::Moment;
use weekloom_store::{Changes, JournalRecord, MemoryShelf, Shelf, Space, Store};

/// An empty store that keeps everything.
fn empty() -> Store<MemoryShelf> {
    Store::open(MemoryShelf::new(), Space::Own, Vec::new()).0
}

/// Prepares and commits, and insists that the shelf took it.
fn keep<S: Shelf>(store: &mut Store<S>, changes: Changes) -> JournalRecord {
    let record = store.prepare(changes, Moment(1_000)).unwrap();
    assert_eq!(store.commit(&record).missed, []);
    record
}
