//! A browser without what the app can do without.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

/// Takes away what some engine or some kind of page has not: motor, wake lock, locks,
/// clipboard, sharing, notices, sound, the service worker and the estimate of storage.
const BARE: &str = "const gone = ['vibrate', 'wakeLock', 'locks', 'clipboard', 'share', 'canShare',
    'serviceWorker', 'storage', 'permissions'];
  for (const name of gone) delete Navigator.prototype[name];
  for (const name of ['AudioContext', 'webkitAudioContext', 'Notification', 'CompressionStream',
    'requestIdleCallback', 'trustedTypes', 'SharedWorker']) delete globalThis[name];
  window.left = gone.filter((name) => name in navigator);";

#[test]
fn a_session_goes_its_way_where_the_browser_has_little() {
    journey::run("bare browser", async |journey| {
        journey.inject(BARE);
        let page = journey.open().await;
        let left = page.script("return window.left.length", vec![]).await;
        assert_eq!(left, 0, "nothing was taken away");
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.rest_little().await;
        page.sees(words::REST_OVER).await;
        gym.log().await;
        journey.reload(&page).await;
        assert_eq!(gym.progress().await.0, 2);
        gym.finish_early().await;
        gym.leave().await;

        // What is missing is said in words.
        Places(&page).go_to_kit(words::LOOKS).await;
        page.sees(words::NOTICE_MISSING).await;
        assert!(!page.has(Role::Checkbox, words::NOTICE).await);
        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, words::HAND_ON).await;
        page.tap(Role::Button, words::COPY_LINK).await;
        page.sees(words::NOT_COPIED).await;
    });
}
