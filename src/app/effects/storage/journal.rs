//! The journal in IndexedDB.
//!
//! Every record is one transaction with strict durability, and is written when
//! the transaction's `complete` event has come, not before: a request's
//! `success` says nothing of the disk.

use super::database::{Failed, Outcome, begin, complete, connect, failure, list};
use js_sys::{Array, Object, Reflect};
use serde::Serialize;
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbKeyRange, IdbObjectStore, IdbTransaction, IdbTransactionMode};
use weekloom_store::{DamagedRecord, Intent, JournalRecord, Space};

/// The database; one object store per space in it, named by its prefix.
const DATABASE: &str = "weekloom-journal";

async fn open_database() -> Outcome<IdbDatabase> {
    const STORES: &[&str] = &[Space::Own.prefix(), Space::Demo.prefix()];
    connect(DATABASE, STORES).await
}

/// The journal of one space.
pub(super) struct Journal {
    database: RefCell<IdbDatabase>,
    space: Space,
}

impl Journal {
    pub(super) async fn open(space: Space) -> Outcome<Self> {
        Ok(Self {
            database: RefCell::new(open_database().await?),
            space,
        })
    }

    /// All records, oldest first.
    pub(super) async fn read(&self) -> Outcome<Vec<Result<JournalRecord, DamagedRecord>>> {
        let (transaction, store) = self.begin(IdbTransactionMode::Readonly)?;
        let keys = store.get_all_keys().map_err(|e| failure(&e))?;
        let values = store.get_all().map_err(|e| failure(&e))?;
        complete(&transaction).await?;
        let (keys, values) = (list(&keys)?, list(&values)?);
        let records = keys.iter().zip(values.iter());
        Ok(records.map(|(key, value)| record(&key, &value)).collect())
    }

    /// Writes a record; returns when it is on the disk.
    pub(super) async fn write(&self, record: &JournalRecord) -> Outcome<()> {
        // Plain objects and numbers: readable in any browser's developer tools.
        let value = record
            .serialize(&serde_wasm_bindgen::Serializer::json_compatible())
            .map_err(|error| Failed(error.to_string()))?;
        let put = |store: &IdbObjectStore| store.put_with_key(&value, &key(record.seq)).map(|_| ());
        if self.change(put).await.is_ok() {
            return Ok(());
        }
        // Phones drop the connection of a page they put to sleep.
        let fresh = open_database().await?;
        self.database.replace(fresh);
        self.change(put).await
    }

    /// Deletes records by their number.
    pub(super) async fn delete(&self, seqs: &[u64]) -> Outcome<()> {
        if seqs.is_empty() {
            return Ok(());
        }
        self.change(|store| {
            seqs.iter()
                .try_for_each(|seq| store.delete(&key(*seq)).map(|_| ()))
        })
        .await
    }

    /// Deletes all records before a number.
    pub(super) async fn delete_before(&self, seq: u64) -> Outcome<()> {
        let before =
            IdbKeyRange::upper_bound_with_open(&key(seq), true).map_err(|e| failure(&e))?;
        self.change(|store| store.delete(&before).map(|_| ())).await
    }

    async fn change(&self, change: impl Fn(&IdbObjectStore) -> Result<(), JsValue>) -> Outcome<()> {
        let (transaction, store) = self.begin(IdbTransactionMode::Readwrite)?;
        change(&store).map_err(|e| failure(&e))?;
        complete(&transaction).await
    }

    fn begin(&self, mode: IdbTransactionMode) -> Outcome<(IdbTransaction, IdbObjectStore)> {
        let store = self.space.prefix();
        let transaction = begin(&self.database.borrow(), &[store], mode)?;
        let store = transaction.object_store(store).map_err(|e| failure(&e))?;
        Ok((transaction, store))
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "one record a second takes 285 million years"
)]
fn key(seq: u64) -> JsValue {
    JsValue::from_f64(seq as f64)
}

/// A whole number as [`key`] and the serialiser write it.
#[expect(clippy::cast_possible_truncation, reason = "checked to be exact")]
fn whole(value: &JsValue) -> Option<i64> {
    const EXACT: f64 = 9_007_199_254_740_992.0;
    let number = value.as_f64()?;
    (number.abs() < EXACT && number.trunc() == number).then_some(number as i64)
}

fn record(key: &JsValue, value: &JsValue) -> Result<JournalRecord, DamagedRecord> {
    let seq = whole(key).and_then(|seq| u64::try_from(seq).ok());
    let damaged = |why: String| DamagedRecord { seq, why };
    let record = fields(value)
        .ok_or_else(|| damaged("a field is missing, unknown or of another kind".to_owned()))?;
    if Some(record.seq) == seq {
        Ok(record)
    } else {
        Err(damaged(format!("it says it is number {}", record.seq)))
    }
}

/// Reads what the serialiser wrote. Its own reading would bring along the
/// printing of all kinds of numbers, for errors that nobody is shown.
fn fields(value: &JsValue) -> Option<JournalRecord> {
    let object: &Object = value.dyn_ref()?;
    let field = |name: &str| Reflect::get(object, &JsValue::from_str(name)).ok();
    let writes: Array = field("writes")?.dyn_into().ok()?;
    let record = JournalRecord {
        seq: u64::try_from(whole(&field("seq")?)?).ok()?,
        at_ms: whole(&field("at_ms")?)?,
        intent: match field("intent")?.as_string()?.as_str() {
            "write" => Intent::Write,
            "erase" => Intent::Erase,
            _ => return None,
        },
        writes: writes
            .iter()
            .map(|pair| write(&pair))
            .collect::<Option<_>>()?,
    };
    (Object::keys(object).length() == 4).then_some(record)
}

fn write(pair: &JsValue) -> Option<(String, Option<String>)> {
    let pair: &Array = pair.dyn_ref()?;
    let (key, value) = (pair.get(0).as_string()?, pair.get(1));
    if pair.length() != 2 {
        return None;
    }
    let value = if value.is_null() {
        None
    } else {
        Some(value.as_string()?)
    };
    Some((key, value))
}
