//! Backup files of others, kept to be read beside one's own log: in a database
//! of their own, so that they take no room from it.
//!
//! Start at [`people`]. The list is read without the files.

use super::database::{Outcome, begin, complete, connect, failure, list};
use wasm_bindgen::JsValue;
use web_sys::{IdbDatabase, IdbObjectStore, IdbTransaction, IdbTransactionMode};
use weekloom_engine::calendar::Day;

pub use super::database::Failed;

const DATABASE: &str = "weekloom-others";
/// By name: the day the file was made and its number of sessions.
const PEOPLE: &str = "people";
/// By name: the file's text.
const FILES: &str = "files";

/// Somebody whose file is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// What they are called here.
    pub name: String,
    /// The day their file was made, and how many sessions it holds; `None`
    /// where that was kept by another version of the app.
    pub about: Option<(Day, usize)>,
}

async fn database() -> Outcome<IdbDatabase> {
    connect(DATABASE, &[PEOPLE, FILES]).await
}

fn store(transaction: &IdbTransaction, name: &str) -> Outcome<IdbObjectStore> {
    transaction.object_store(name).map_err(|e| failure(&e))
}

/// Everybody, by name.
///
/// # Errors
/// What the browser says.
pub async fn people() -> Outcome<Vec<Person>> {
    let database = database().await?;
    let transaction = begin(&database, &[PEOPLE], IdbTransactionMode::Readonly)?;
    let people = store(&transaction, PEOPLE)?;
    let names = people.get_all_keys().map_err(|e| failure(&e))?;
    let abouts = people.get_all().map_err(|e| failure(&e))?;
    complete(&transaction).await?;
    let (names, abouts) = (list(&names)?, list(&abouts)?);
    let person = |(name, about): (JsValue, JsValue)| {
        let about = about.as_string().and_then(|about| {
            let (day, sessions) = about.split_once(' ')?;
            Some((Day::parse(day)?, sessions.parse().ok()?))
        });
        let name = name.as_string()?;
        Some(Person { name, about })
    };
    Ok(names.iter().zip(abouts.iter()).filter_map(person).collect())
}

/// The file kept under a name.
///
/// # Errors
/// What the browser says.
pub async fn file(name: &str) -> Outcome<Option<String>> {
    let database = database().await?;
    let transaction = begin(&database, &[FILES], IdbTransactionMode::Readonly)?;
    let found = store(&transaction, FILES)?
        .get(&JsValue::from_str(name))
        .map_err(|e| failure(&e))?;
    complete(&transaction).await?;
    Ok(found.result().map_err(|e| failure(&e))?.as_string())
}

/// Keeps a file under a name, in the place of what was there.
///
/// # Errors
/// What the browser says; then nothing is kept.
pub async fn keep(name: &str, made: Day, sessions: usize, text: &str) -> Outcome<()> {
    change(|people, files| {
        let name = JsValue::from_str(name);
        let about = format!("{made} {sessions}");
        people.put_with_key(&JsValue::from_str(&about), &name)?;
        files.put_with_key(&JsValue::from_str(text), &name)?;
        Ok(())
    })
    .await
}

/// Forgets somebody's file.
///
/// # Errors
/// What the browser says; then it is still there.
pub async fn forget(name: &str) -> Outcome<()> {
    change(|people, files| {
        people.delete(&JsValue::from_str(name))?;
        files.delete(&JsValue::from_str(name))?;
        Ok(())
    })
    .await
}

/// Forgets everybody's.
///
/// # Errors
/// What the browser says; then all are still there.
pub async fn forget_all() -> Outcome<()> {
    change(|people, files| {
        people.clear()?;
        files.clear()?;
        Ok(())
    })
    .await
}

async fn change(
    change: impl FnOnce(&IdbObjectStore, &IdbObjectStore) -> Result<(), JsValue>,
) -> Outcome<()> {
    let database = database().await?;
    let transaction = begin(&database, &[PEOPLE, FILES], IdbTransactionMode::Readwrite)?;
    let (people, files) = (store(&transaction, PEOPLE)?, store(&transaction, FILES)?);
    change(&people, &files).map_err(|e| failure(&e))?;
    complete(&transaction).await
}
