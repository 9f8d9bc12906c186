//! Storage in a real browser: what is said to be saved is saved.
//!
//! Every test has the storage to itself: it deletes what the one before left,
//! and drops its keeper, which gives up the right to write.

use std::future::Future;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use weekloom_app::effects::storage::{self, Keeper, Mode, Opened, SaveError, Saved};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_store::{Settings, ShelfError, Space};

wasm_bindgen_test_configure!(run_in_browser);

const NOW: Moment = Moment(1_795_590_000_000);

fn local() -> web_sys::Storage {
    web_sys::window().unwrap().local_storage().unwrap().unwrap()
}

/// What the person's own corner of local storage holds; all of it is removed.
fn lose_local_storage() -> Vec<String> {
    let local = local();
    let keys: Vec<String> = (0..local.length().unwrap())
        .filter_map(|index| local.key(index).unwrap())
        .filter(|key| key.starts_with(Space::Own.prefix()))
        .collect();
    for key in &keys {
        local.remove_item(key).unwrap();
    }
    keys
}

/// The next turn of the event loop.
async fn pause() {
    let promise = js_sys::Promise::new(&mut |resolve, _| {
        let window = web_sys::window().unwrap();
        window
            .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 5)
            .unwrap();
    });
    JsFuture::from(promise).await.unwrap();
}

/// Opens as the writer. A lock given up is free a moment later.
async fn open() -> Opened {
    loop {
        let opened = storage::open(Space::Own).await;
        if opened.mode != Mode::Follower {
            return opened;
        }
        drop(opened);
        pause().await;
    }
}

/// Opens with nothing kept.
async fn open_empty() -> Keeper {
    local().clear().unwrap();
    let opened = open().await;
    assert_eq!(opened.mode, Mode::Durable);
    let everything = opened.keeper.with_store(|store| store.delete_all());
    opened.keeper.commit(everything, NOW).await.unwrap();
    opened.keeper
}

/// Settings that differ by a number.
fn settings(number: i32) -> Settings {
    Settings {
        cautions_read: Some(Day::from_epoch_days(number)),
        ..Settings::default()
    }
}

fn save(keeper: &Keeper, number: i32) -> impl Future<Output = Result<Saved, SaveError>> {
    let changes = keeper.with_store(|store| store.save_settings(&settings(number)));
    keeper.commit(changes.unwrap(), NOW)
}

fn loaded(keeper: &Keeper) -> Settings {
    keeper.with_store(|store| store.load_settings()).unwrap()
}

#[wasm_bindgen_test]
async fn a_saved_change_is_found_by_the_next_start() {
    let keeper = open_empty().await;
    let saved = save(&keeper, 1).await.unwrap();
    assert!(saved.is_durable);
    assert_eq!(saved.missed, []);
    drop(keeper);
    let opened = open().await;
    assert_eq!(opened.report.replayed, 0);
    assert_eq!(loaded(&opened.keeper), settings(1));
}

#[wasm_bindgen_test]
async fn the_journal_brings_back_a_lost_local_storage() {
    let keeper = open_empty().await;
    save(&keeper, 2).await.unwrap();
    drop(keeper);
    assert!(lose_local_storage().contains(&"weekloom.settings".to_owned()));
    let opened = open().await;
    assert_eq!(opened.report.replayed, 1);
    assert_eq!(loaded(&opened.keeper), settings(2));
    assert!(local().get_item("weekloom.settings").unwrap().is_some());
}

/// Nobody waits between the changes, and nobody waits for all but the last.
#[wasm_bindgen_test]
async fn many_changes_at_once_keep_their_order() {
    let keeper = open_empty().await;
    let mut last = None;
    for number in 1..=60 {
        last = Some(save(&keeper, number));
        assert_eq!(loaded(&keeper), settings(number), "seen at once");
    }
    last.unwrap().await.unwrap();
    drop(keeper);
    let opened = open().await;
    assert_eq!(loaded(&opened.keeper), settings(60));
    drop(opened);
    lose_local_storage();
    assert_eq!(
        loaded(&open().await.keeper),
        settings(60),
        "from the journal"
    );
}

#[wasm_bindgen_test]
async fn a_full_local_storage_is_reported_and_the_journal_serves() {
    let keeper = open_empty().await;
    save(&keeper, 3).await.unwrap();
    // Fill it to the last character.
    let local = local();
    let (mut fits, mut step) = (0, 1 << 24);
    while step > 0 {
        if local.set_item("filler", &"x".repeat(fits + step)).is_ok() {
            fits += step;
        }
        step /= 2;
    }
    assert!(fits > 1_000_000, "{fits} characters");
    let long = Settings {
        backed_up: Some(Day::from_epoch_days(20_000)),
        ..settings(4)
    };
    let changes = keeper.with_store(|store| store.save_settings(&long));
    let saved = keeper.commit(changes.unwrap(), NOW).await.unwrap();
    assert!(saved.is_durable);
    let key = "weekloom.settings".to_owned();
    assert!(saved.missed.contains(&(key, ShelfError::Full)), "{saved:?}");
    assert_eq!(loaded(&keeper), long);
    drop(keeper);

    let opened = open().await;
    assert_eq!(loaded(&opened.keeper), long, "while it is still full");
    drop(opened);
    local.remove_item("filler").unwrap();
    let opened = open().await;
    assert_eq!(opened.report.missed, []);
    assert_eq!(loaded(&opened.keeper), long);
    let text = local.get_item("weekloom.settings").unwrap().unwrap();
    assert!(text.contains("20000"), "{text}");
}

#[wasm_bindgen_test]
async fn a_second_window_reads_and_does_not_write() {
    let keeper = open_empty().await;
    save(&keeper, 5).await.unwrap();
    let second = storage::open(Space::Own).await;
    assert_eq!(second.mode, Mode::Follower);
    assert_eq!(loaded(&second.keeper), settings(5));
    let refused = save(&second.keeper, 6).await;
    assert_eq!(refused, Err(SaveError::OtherWindow));
    assert_eq!(loaded(&second.keeper), settings(5));
    // The demonstration is another matter.
    let demo = storage::open(Space::Demo).await;
    assert_eq!(demo.mode, Mode::Durable);
    drop(keeper);
    assert_eq!(loaded(&open().await.keeper), settings(5));
}

#[wasm_bindgen_test]
async fn deleting_everything_empties_the_journal_too() {
    let keeper = open_empty().await;
    save(&keeper, 7).await.unwrap();
    local().set_item("theirs", "untouched").unwrap();
    let everything = keeper.with_store(|store| store.delete_all());
    keeper.commit(everything, NOW).await.unwrap();
    assert_eq!(loaded(&keeper), Settings::default());
    drop(keeper);
    assert_eq!(lose_local_storage(), ["weekloom.meta"]);
    let opened = open().await;
    assert_eq!(opened.report.replayed, 0);
    assert_eq!(loaded(&opened.keeper), Settings::default());
    let theirs = local().get_item("theirs").unwrap();
    assert_eq!(theirs.as_deref(), Some("untouched"));
    // One record is left, the one that says that all is gone.
    assert_eq!(journal_texts().await.len(), 1);
    assert!(!journal_texts().await[0].contains("cautions_read"));
}

/// Every record of the person's own journal as JSON text, read without the
/// app's own code.
async fn journal_texts() -> Vec<String> {
    let script = "return new Promise((done, fail) => {
        const open = indexedDB.open('weekloom-journal');
        open.onerror = fail;
        open.onsuccess = () => {
            const all = open.result.transaction('weekloom.').objectStore('weekloom.').getAll();
            all.onerror = fail;
            all.onsuccess = () => {
                open.result.close();
                done(all.result.map((record) => JSON.stringify(record)));
            };
        };
    })";
    let promise = js_sys::Function::new_no_args(script)
        .call0(&JsValue::NULL)
        .unwrap();
    let texts = JsFuture::from(js_sys::Promise::from(promise))
        .await
        .unwrap();
    js_sys::Array::from(&texts)
        .iter()
        .map(|text| text.as_string().unwrap())
        .collect()
}

/// Puts a getter before a part of the browser until dropped.
struct Hidden {
    restore: js_sys::Function,
}

impl Hidden {
    fn new(name: &str, getter: &str) -> Self {
        let script = format!(
            "const own = Object.getOwnPropertyDescriptor(window, '{name}');
            Object.defineProperty(window, '{name}', {{ configurable: true, get() {{ {getter} }} }});
            return () => Object.defineProperty(window, '{name}', own);"
        );
        let restore = js_sys::Function::new_no_args(&script)
            .call0(&JsValue::NULL)
            .unwrap();
        Self {
            restore: restore.into(),
        }
    }
}

impl Drop for Hidden {
    fn drop(&mut self) {
        let _ = self.restore.call0(&JsValue::NULL);
    }
}

/// As browsers answer that deny storage to a page.
const DENIED: &str = "throw new DOMException('denied', 'SecurityError')";

#[wasm_bindgen_test]
async fn without_local_storage_the_journal_serves() {
    drop(open_empty().await);
    let hidden = Hidden::new("localStorage", DENIED);
    let opened = open().await;
    assert_eq!(opened.mode, Mode::JournalOnly);
    assert!(save(&opened.keeper, 8).await.unwrap().is_durable);
    drop(opened);
    let opened = open().await;
    assert_eq!(loaded(&opened.keeper), settings(8));
    drop((opened, hidden));
    assert_eq!(loaded(&open().await.keeper), settings(8), "allowed again");
}

#[wasm_bindgen_test]
async fn without_a_journal_local_storage_serves_and_says_so() {
    drop(open_empty().await);
    for getter in [DENIED, "return undefined"] {
        let hidden = Hidden::new("indexedDB", getter);
        let opened = open().await;
        assert_eq!(opened.mode, Mode::ShelfOnly);
        assert!(!save(&opened.keeper, 9).await.unwrap().is_durable);
        drop((opened, hidden));
        let opened = open().await;
        assert_eq!(opened.mode, Mode::Durable);
        assert_eq!(loaded(&opened.keeper), settings(9));
    }
}

#[wasm_bindgen_test]
async fn without_either_nothing_is_called_saved() {
    drop(open_empty().await);
    let hidden = (
        Hidden::new("indexedDB", DENIED),
        Hidden::new("localStorage", DENIED),
    );
    let opened = open().await;
    assert_eq!(opened.mode, Mode::Memory);
    let error = save(&opened.keeper, 10).await.unwrap_err();
    assert!(error.to_string().contains("export a backup"), "{error}");
    assert_eq!(loaded(&opened.keeper), settings(10), "kept in memory");
    drop((opened, hidden));
    assert_eq!(loaded(&open().await.keeper), Settings::default());
}
