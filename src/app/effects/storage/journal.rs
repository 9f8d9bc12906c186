//! The journal in IndexedDB.
//!
//! Every record is one transaction with strict durability, and is written when
//! the transaction's `complete` event has come, not before: a request's
//! `success` says nothing of the disk.

use js_sys::{Array, Function, Object, Promise, Reflect};
use serde::Serialize;
use std::cell::RefCell;
use std::fmt;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DomException, Event, IdbDatabase, IdbFactory, IdbKeyRange, IdbObjectStore, IdbOpenDbRequest,
    IdbRequest, IdbTransaction, IdbTransactionDurability, IdbTransactionMode,
    IdbTransactionOptions,
};
use weekloom_store::{DamagedRecord, Intent, JournalRecord, Space};

/// The database; one object store per space in it, named by its prefix.
const DATABASE: &str = "weekloom-journal";
/// Some browsers never answer an open request. Without an answer in this time
/// the app starts without a journal.
const OPEN_MS: i32 = 4_000;

/// The journal failed, in the browser's words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct JournalError(String);

impl fmt::Display for JournalError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

type Outcome<T> = Result<T, JournalError>;

/// The journal of one space.
pub(super) struct Journal {
    database: RefCell<IdbDatabase>,
    space: Space,
}

impl Journal {
    pub(super) async fn open(space: Space) -> Outcome<Self> {
        Ok(Self {
            database: RefCell::new(connect().await?),
            space,
        })
    }

    /// All records, oldest first.
    pub(super) async fn read(&self) -> Outcome<Vec<Result<JournalRecord, DamagedRecord>>> {
        let (transaction, store) = self.begin(IdbTransactionMode::Readonly)?;
        let keys = store.get_all_keys().map_err(|e| failure(&e))?;
        let values = store.get_all().map_err(|e| failure(&e))?;
        complete(&transaction).await?;
        let list = |request: &IdbRequest| -> Outcome<Array> {
            Ok(request.result().map_err(|e| failure(&e))?.unchecked_into())
        };
        let (keys, values) = (list(&keys)?, list(&values)?);
        let records = keys.iter().zip(values.iter());
        Ok(records.map(|(key, value)| record(&key, &value)).collect())
    }

    /// Writes a record; returns when it is on the disk.
    pub(super) async fn write(&self, record: &JournalRecord) -> Outcome<()> {
        // Plain objects and numbers: readable in any browser's developer tools.
        let value = record
            .serialize(&serde_wasm_bindgen::Serializer::json_compatible())
            .map_err(|error| JournalError(error.to_string()))?;
        let put = |store: &IdbObjectStore| store.put_with_key(&value, &key(record.seq)).map(|_| ());
        if self.change(put).await.is_ok() {
            return Ok(());
        }
        // Phones drop the connection of a page they put to sleep.
        let fresh = connect().await?;
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
        let options = IdbTransactionOptions::new();
        options.set_durability(IdbTransactionDurability::Strict);
        let transaction = self
            .database
            .borrow()
            .transaction_with_str_and_mode_and_options(self.space.prefix(), mode, &options)
            .map_err(|e| failure(&e))?;
        let store = transaction
            .object_store(self.space.prefix())
            .map_err(|e| failure(&e))?;
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

async fn connect() -> Outcome<IdbDatabase> {
    let request = factory()?
        .open_with_u32(DATABASE, 1)
        .map_err(|e| failure(&e))?;
    let upgrade = {
        let request = request.clone();
        Closure::<dyn FnMut()>::new(move || {
            let Ok(database) = request.result() else {
                return;
            };
            let database: IdbDatabase = database.unchecked_into();
            for space in [Space::Own, Space::Demo] {
                // The name is taken only if the database is not new.
                let _ = database.create_object_store(space.prefix());
            }
        })
    };
    request.set_onupgradeneeded(Some(upgrade.as_ref().unchecked_ref()));
    let answered = answer(&request).await;
    request.set_onupgradeneeded(None);
    answered?;
    let database: IdbDatabase = request.result().map_err(|e| failure(&e))?.unchecked_into();
    // A newer version of the app may change the database: let it.
    let close = Closure::once_into_js({
        let database = database.clone();
        move || database.close()
    });
    database.set_onversionchange(Some(close.unchecked_ref()));
    Ok(database)
}

fn factory() -> Outcome<IdbFactory> {
    let window = web_sys::window().ok_or_else(|| JournalError("there is no window".to_owned()))?;
    match window.indexed_db() {
        Ok(Some(factory)) => Ok(factory),
        Ok(None) => Err(JournalError("the browser has no IndexedDB".to_owned())),
        Err(error) => Err(failure(&error)),
    }
}

async fn answer(request: &IdbOpenDbRequest) -> Outcome<()> {
    let promise = Promise::new(&mut |resolve: Function, reject: Function| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
        request.set_onblocked(Some(&reject));
        if let Some(window) = web_sys::window() {
            let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(&reject, OPEN_MS);
        }
    });
    settle(promise, || request.error().ok().flatten()).await
}

async fn complete(transaction: &IdbTransaction) -> Outcome<()> {
    let promise = Promise::new(&mut |resolve: Function, reject: Function| {
        transaction.set_oncomplete(Some(&resolve));
        // An error that nobody handles ends in an abort.
        transaction.set_onabort(Some(&reject));
    });
    settle(promise, || transaction.error()).await
}

async fn settle(promise: Promise, error: impl Fn() -> Option<DomException>) -> Outcome<()> {
    match JsFuture::from(promise).await {
        Ok(_) => Ok(()),
        Err(event) => Err(match (error(), event.dyn_ref::<Event>()) {
            (Some(exception), _) => failure(&exception.into()),
            (None, Some(event)) => JournalError(format!("IndexedDB answered '{}'", event.type_())),
            (None, None) => JournalError("IndexedDB did not answer".to_owned()),
        }),
    }
}

fn failure(error: &JsValue) -> JournalError {
    JournalError(match error.dyn_ref::<DomException>() {
        Some(exception) => format!("{}: {}", exception.name(), exception.message()),
        None => Reflect::get(error, &JsValue::from_str("message"))
            .ok()
            .and_then(|message| message.as_string())
            .unwrap_or_else(|| format!("{error:?}")),
    })
}
