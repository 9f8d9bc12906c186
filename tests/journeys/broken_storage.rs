//! A browser that keeps nothing, and one with no room left.

use serde_json::json;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today, sets_of};
use weekloom_tests::words;

/// What private modes and switched-off storage do: the very mention throws.
const DENY: &str = "for (const name of ['localStorage', 'sessionStorage', 'indexedDB'])
  Object.defineProperty(globalThis, name, {
    configurable: true,
    get() { throw new DOMException('denied', 'SecurityError'); },
  });";

/// Fills local storage to the last character with what belongs to another program.
const FILL: &str = "let number = 0;
  for (let size = 1 << 20; size >= 1; size >>= 1) {
    for (;;) {
      try { localStorage.setItem('theirs.' + number, 'x'.repeat(size)); number += 1; }
      catch { break; }
    }
  }
  return number;";

#[test]
fn where_storage_is_denied_the_session_works_and_the_file_is_offered() {
    journey::run("denied", async |journey| {
        journey.inject(DENY);
        let page = journey.open().await;
        page.find(Role::Alert, words::MEMORY_ONLY).await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let (_, of) = gym.progress().await;
        for done in 1..=3 {
            gym.tap_log().await;
            page.until("the set among those done", async || {
                (gym.progress().await == (done, of)).then_some(())
            })
            .await;
        }
        // It never claims to have kept anything, and says so as long as it is so.
        assert!(!page.has(Role::Status, words::SAVED).await);
        page.find(Role::Alert, words::MEMORY_ONLY).await;

        gym.finish_early().await;
        page.find(Role::Alert, words::MEMORY_ONLY).await;
        page.tap(Role::Button, words::BACKUP_OUT).await;
        let file = journey.next_download(&page).await;
        let text = std::fs::read_to_string(file).expect("the backup is text");
        let backup = weekloom_store::backup::read_backup(&text).expect("the backup is whole");
        let sessions: Vec<_> = backup.sessions.values().collect();
        assert_eq!(sessions.len(), 1);
        assert_eq!(sets_of(sessions[0]).len(), 3);
        gym.leave().await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, 3)).await;
    });
}

#[test]
fn where_storage_is_full_a_set_is_kept_all_the_same() {
    journey::run("full", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        let shelf = page.kept("weekloom.now").await;
        let filled = page.script(FILL, vec![]).await;
        assert!(filled.as_u64() > Some(4), "nothing was filled: {filled}");

        gym.log().await;
        gym.log().await;
        let progress = gym.progress().await;
        assert_eq!(progress.0, 3);
        assert_eq!(
            page.kept("weekloom.now").await,
            shelf,
            "there was room after all"
        );

        journey.reload(&page).await;
        assert_eq!(gym.progress().await, progress);
        let theirs = "return Object.keys(localStorage).filter((key) => key.startsWith('theirs.'))";
        let left = page.script(theirs, vec![]).await;
        let left = left.as_array().map(Vec::len);
        assert_eq!(left.map(|n| json!(n)), Some(filled), "the other program's");
        journey.close().await;
        let page = journey.open().await;
        let gym = Gym(&page);
        assert_eq!(gym.progress().await, progress);
        gym.log().await;

        // With room again, the shelf catches up. A browser that closes in a hurry may not
        // have kept what the other program wrote a moment before.
        let cleared = "Object.keys(localStorage).filter((key) => key.startsWith('theirs.'))
            .forEach((name) => localStorage.removeItem(name))";
        page.script(cleared, vec![]).await;
        journey.reload(&page).await;
        assert_eq!(gym.progress().await, (4, progress.1));
        assert_eq!(gym.kept_sets().await.len(), 4);
    });
}
