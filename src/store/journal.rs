//! The journal: what was written, kept until the shelf surely has it.
//!
//! Start at [`JournalRecord`]. Browsers write local storage to disk late:
//! Chromium seconds to minutes after the call, Firefox five seconds. A phone
//! that dies in between takes the last sets with it. So each change first goes
//! into one small journal record, committed durably by the app, and only then
//! on the shelf. [`crate::Store::open`] replays the records whose writes the
//! shelf does not carry.

use crate::envelope;
use crate::keys::Space;
use serde::{Deserialize, Serialize};
use weekloom_engine::calendar::Moment;
use weekloom_engine::order::Map;

/// What to do with unreadable values in the way of a write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Intent {
    /// Keep a copy of them first.
    Write,
    /// The person asked for everything to go.
    Erase,
}

/// One change of the store: all of it happened, or none. The app carries it
/// across the JavaScript boundary as an object of these fields.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JournalRecord {
    /// Number of the write; the values carry it too.
    pub seq: u64,
    /// When, by the wall clock, in milliseconds since 1970-01-01T00:00Z.
    pub at_ms: i64,
    /// Whether unreadable values are copied or erased.
    pub intent: Intent,
    /// Full key and sealed value; no value means the key goes.
    pub writes: Vec<(String, Option<String>)>,
}

/// A journal record that could not be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DamagedRecord {
    /// Its number, where that much is known.
    pub seq: Option<u64>,
    /// What is wrong with it.
    pub why: String,
}

/// The last thing the journal says about a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct LastWrite<'a> {
    pub seq: u64,
    pub intent: Intent,
    pub value: Option<&'a str>,
}

/// The last good write of every key of the space, out of records in ascending
/// order, and how many broken ones had to be passed over to find it. Older
/// writes are not looked at: a start must not check hundreds of seals.
pub(crate) fn last_writes(
    records: &[JournalRecord],
    space: Space,
) -> (Map<&str, LastWrite<'_>>, usize) {
    let mut last: Map<&str, LastWrite<'_>> = Map::new();
    let mut broken = 0;
    for record in records.iter().rev() {
        for (key, value) in &record.writes {
            if !space.owns(key) || last.contains_key(key.as_str()) {
                continue;
            }
            if let Some(text) = value
                && envelope::unseal(text).map(|e| e.seq) != Ok(record.seq)
            {
                broken += 1;
                continue;
            }
            let write = LastWrite {
                seq: record.seq,
                intent: record.intent,
                value: value.as_deref(),
            };
            last.insert(key, write);
        }
    }
    (last, broken)
}

/// A record as it was found when the store was opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Found {
    pub seq: u64,
    pub at_ms: i64,
    /// Whether the shelf carried all its writes before anything was replayed.
    pub was_on_shelf: bool,
}

/// The newest records that are never trimmed.
const KEPT: usize = 500;
/// A record younger than this is never trimmed.
const DAY_MS: i64 = 24 * 60 * 60 * 1000;

/// Numbers of the records that may go, oldest first.
///
/// A record goes only when all of this holds:
/// - A later start found its writes on the shelf. The run that wrote it knows
///   nothing: its reads come from the browser's memory.
/// - It is a day old. A reload, too, reads from the browser's memory, while
///   Chromium may hold a commit back for minutes (60 commits and 10 MiB an
///   hour per site); the clock may jump, so a record from the future stays.
/// - It is not among the newest 500, which covers a clock that jumped forward
///   over the day.
/// - All records before it go too. Otherwise an old write could outlive the
///   deletion that came after it, and come back to life.
pub(crate) fn trimmable(found: &[Found], written_since: usize, now: Moment) -> Vec<u64> {
    let newest = KEPT.saturating_sub(written_since);
    let candidates = found.len().saturating_sub(newest);
    found[..candidates]
        .iter()
        .take_while(|record| {
            record.was_on_shelf && (DAY_MS..).contains(&now.0.saturating_sub(record.at_ms))
        })
        .map(|record| record.seq)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(count: u64) -> Vec<Found> {
        (1..=count)
            .map(|seq| Found {
                seq,
                at_ms: 0,
                was_on_shelf: true,
            })
            .collect()
    }

    #[test]
    fn the_newest_five_hundred_stay() {
        let now = Moment(2 * DAY_MS);
        assert!(trimmable(&found(500), 0, now).is_empty());
        assert_eq!(trimmable(&found(503), 0, now), [1, 2, 3]);
        assert_eq!(trimmable(&found(500), 2, now), [1, 2]);
        assert_eq!(trimmable(&found(3), 900, now), [1, 2, 3]);
    }

    #[test]
    fn a_record_stays_while_young_from_the_future_or_not_on_the_shelf() {
        let mut records = found(510);
        assert!(trimmable(&records, 0, Moment(DAY_MS - 1)).is_empty());
        assert_eq!(trimmable(&records, 0, Moment(DAY_MS)).len(), 10);
        assert!(trimmable(&records, 0, Moment(-DAY_MS)).is_empty());
        records[4].at_ms = 9 * DAY_MS;
        assert_eq!(trimmable(&records, 0, Moment(DAY_MS)), [1, 2, 3, 4]);
        records[1].was_on_shelf = false;
        assert_eq!(trimmable(&records, 0, Moment(DAY_MS)), [1]);
    }
}
