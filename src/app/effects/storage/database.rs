//! IndexedDB, as far as it is needed: opening, one transaction, its end.
//!
//! A transaction is over when its `complete` event has come, not before: a
//! request's `success` says nothing of the disk.

use js_sys::{Array, Function, JsString, Promise, Reflect};
use std::fmt;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DomException, Event, IdbDatabase, IdbFactory, IdbOpenDbRequest, IdbRequest, IdbTransaction,
    IdbTransactionDurability, IdbTransactionMode, IdbTransactionOptions,
};

/// Some browsers never answer an open request. Without an answer in this time
/// the app does without.
const OPEN_MS: i32 = 4_000;

/// The database failed, in the browser's words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failed(pub(super) String);

impl fmt::Display for Failed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

pub(super) type Outcome<T> = Result<T, Failed>;

/// Begins a transaction of strict durability over object stores.
pub(super) fn begin(
    database: &IdbDatabase,
    stores: &[&str],
    mode: IdbTransactionMode,
) -> Outcome<IdbTransaction> {
    let options = IdbTransactionOptions::new();
    options.set_durability(IdbTransactionDurability::Strict);
    let stores: Vec<JsString> = stores.iter().map(|&store| store.into()).collect();
    database
        .transaction_with_str_sequence_and_mode_and_options(&stores, mode, &options)
        .map_err(|e| failure(&e))
}

/// The list that a request brought, once its transaction is complete.
pub(super) fn list(request: &IdbRequest) -> Outcome<Array> {
    Ok(request.result().map_err(|e| failure(&e))?.unchecked_into())
}

/// Opens a database, with these object stores in it if it is new.
pub(super) async fn connect(name: &str, stores: &'static [&'static str]) -> Outcome<IdbDatabase> {
    let request = factory()?.open_with_u32(name, 1).map_err(|e| failure(&e))?;
    let upgrade = {
        let request = request.clone();
        Closure::<dyn FnMut()>::new(move || {
            let Ok(database) = request.result() else {
                return;
            };
            let database: IdbDatabase = database.unchecked_into();
            for store in stores {
                // The name is taken only if the database is not new.
                let _ = database.create_object_store(store);
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
    let window = web_sys::window().ok_or_else(|| Failed("there is no window".to_owned()))?;
    match window.indexed_db() {
        Ok(Some(factory)) => Ok(factory),
        Ok(None) => Err(Failed("the browser has no IndexedDB".to_owned())),
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

/// Waits until a transaction is on the disk.
pub(super) async fn complete(transaction: &IdbTransaction) -> Outcome<()> {
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
            (None, Some(event)) => Failed(format!("IndexedDB answered '{}'", event.type_())),
            (None, None) => Failed("IndexedDB did not answer".to_owned()),
        }),
    }
}

/// What a browser threw, in its words.
pub(super) fn failure(error: &JsValue) -> Failed {
    Failed(match error.dyn_ref::<DomException>() {
        Some(exception) => format!("{}: {}", exception.name(), exception.message()),
        None => Reflect::get(error, &JsValue::from_str("message"))
            .ok()
            .and_then(|message| message.as_string())
            .unwrap_or_else(|| format!("{error:?}")),
    })
}
