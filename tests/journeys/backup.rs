//! The backup file: the way back after everything is gone.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use serde_json::Value;
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey::{self, Journey};
use weekloom_tests::pages::{Answer, FirstOpening, Gym, Today, YourData};
use weekloom_tests::words;

#[test]
fn a_backup_brings_everything_back() {
    journey::run("backup", async |journey| {
        let page = journey.open().await;
        train_a_little(&page).await;
        let (file, text, before) = taken(journey, &page).await;
        let data = YourData(&page);
        data.delete_all().await;
        page.sees(words::CAUTIONS).await;
        assert!(
            !page
                .kept("weekloom.")
                .await
                .keys()
                .any(|key| key.contains("session")),
            "a session outlived the deletion"
        );

        // From the first screen, as on another phone.
        page.tap(Role::Disclosure, words::HAVE_BACKUP).await;
        assert_eq!(data.read(&file).await, Answer::Offered);
        page.sees(&words::backup_brings(1, 0, 0)).await;
        data.accept().await;
        page.find(Role::Link, words::PLAN).await;
        assert_eq!(bodies(&page).await, before);

        data.open().await;
        let (_, again) = data.save(journey).await;
        assert_eq!(again, text);

        // The same file once more changes nothing.
        assert_eq!(data.read(&file).await, Answer::Offered);
        page.sees(&words::backup_brings(0, 0, 1)).await;
        data.accept().await;
        page.sees(words::BACKUP_TAKEN).await;
        assert_eq!(bodies(&page).await, before);
    });
}

/// What a browser does that needs room: everything of one origin goes, while nothing looks.
const EVICT: &str = "localStorage.clear();
    const gone = (name) => new Promise((done, failed) => {
      const asked = indexedDB.deleteDatabase(name);
      asked.onsuccess = done; asked.onerror = failed;
    });
    return indexedDB.databases()
      .then((found) => Promise.all(found.map(({ name }) => gone(name))))
      .then(() => navigator.serviceWorker.getRegistrations())
      .then((found) => Promise.all(found.map((worker) => worker.unregister())))
      .then(() => caches.keys())
      .then((found) => Promise.all(found.map((name) => caches.delete(name))))
      .then(() => true)";

#[test]
fn what_a_browser_evicted_comes_back_from_the_file() {
    journey::run("eviction", async |journey| {
        let page = journey.open().await;
        train_a_little(&page).await;
        let (file, _, before) = taken(journey, &page).await;
        let data = YourData(&page);

        assert_eq!(page.script(EVICT, vec![]).await, true);
        journey.reload(&page).await;
        page.sees(words::CAUTIONS).await;
        let left = bodies(&page).await;
        assert!(
            !left.keys().any(|key| key.contains(".session.")),
            "{left:?}"
        );
        page.tap(Role::Disclosure, words::HAVE_BACKUP).await;
        assert_eq!(data.read(&file).await, Answer::Offered);
        data.accept().await;
        page.find(Role::Link, words::PLAN).await;
        assert_eq!(bodies(&page).await, before);

        // The journal is there for a phone that dies; here it also holds what local
        // storage lost.
        page.script("localStorage.clear()", vec![]).await;
        journey.reload(&page).await;
        page.find(Role::Link, words::PLAN).await;
        assert_eq!(bodies(&page).await, before);
    });
}

#[test]
fn a_broken_backup_is_refused_and_changes_nothing() {
    journey::run("broken backup", async |journey| {
        let page = journey.open().await;
        train_a_little(&page).await;
        let data = YourData(&page);
        data.open().await;
        let (_, text) = data.save(journey).await;
        let before = page.kept("").await;

        let folder = journey.folder();
        let changed = text.replacen("\"minutes\":60", "\"minutes\":61", 1);
        let newer = text.replacen("\"version\":2", "\"version\":99", 1);
        let broken = [
            ("cut.json", text[..text.len() / 2].to_owned()),
            ("changed.json", changed),
            ("newer.json", newer),
            (
                "other.json",
                "{\"format\":\"shopping-list\",\"version\":1}".to_owned(),
            ),
            ("empty.json", String::new()),
        ];
        for (name, content) in broken {
            assert_ne!(content, text, "{name} is not broken");
            let file = folder.join(name);
            fs::write(&file, content).expect("a file");
            let answer = data.read(&file).await;
            let Answer::Refused(why) = answer else {
                panic!("{name} was offered");
            };
            let reason = why.replace(words::NOTHING_CHANGED, "");
            assert!(reason.trim().len() > 20, "{name}: no reason: '{why}'");
            assert_eq!(page.kept("").await, before, "{name} changed something");
        }
        // And a whole one is still taken afterwards.
        let file = folder.join("whole.json");
        fs::write(&file, text).expect("a file");
        assert_eq!(data.read(&file).await, Answer::Offered);
        page.tap(Role::Button, words::CANCEL).await;
        assert_eq!(page.kept("").await, before);
    });
}

/// A plan, and one session with effort and a note.
async fn train_a_little(page: &Page) {
    FirstOpening(page).skip().await;
    Today(page).start().await;
    let gym = Gym(page);
    gym.left_in_me(2).await;
    gym.log().await;
    gym.log().await;
    gym.more().await;
    page.type_into(words::NOTE, "grip \u{fc}ber 40 kg").await;
    page.tap(Role::Button, words::FINISH_EARLY).await;
    page.find(Role::Heading, words::SESSION_DONE).await;
    gym.leave().await;
}

/// A backup of what was trained, as a file and as its text, and what is kept by then.
async fn taken(journey: &mut Journey, page: &Page) -> (PathBuf, String, BTreeMap<String, Value>) {
    let data = YourData(page);
    data.open().await;
    // The first file is noted in the settings, so the second is the one to compare.
    data.save(journey).await;
    let (file, text) = data.save(journey).await;
    let before = bodies(page).await;
    assert!(
        before.keys().any(|key| key.contains(".session.")),
        "{before:?}"
    );
    (file, text, before)
}

/// What is kept, without the numbers of the writes and their checksums.
async fn bodies(page: &Page) -> BTreeMap<String, Value> {
    let kept = page.kept("weekloom.").await;
    kept.into_iter()
        .filter(|(key, _)| key != "weekloom.meta")
        .map(|(key, text)| {
            let whole: Value = serde_json::from_str(&text).expect("it is JSON");
            (key, whole["b"].clone())
        })
        .collect()
}
