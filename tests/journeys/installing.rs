//! The app as something to install, and the way from one version to the next.

use serde_json::json;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::versions;
use weekloom_tests::words;
use xtask::browser::Engine;

#[test]
fn the_browser_finds_nothing_against_installing() {
    journey::run("installing", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        journey.wait_for_offline_copy(&page).await;
        // Only Chromium says what it has against it.
        if page.engine() == Engine::Chromium {
            let found = page
                .devtools("Page.getInstallabilityErrors", json!({}))
                .await;
            assert_eq!(found["installabilityErrors"], json!([]));
            let found = page.devtools("Page.getAppManifest", json!({})).await;
            assert_eq!(found["errors"], json!([]));
        }
        let script = "return fetch(document.querySelector('link[rel=manifest]').href)
            .then((found) => found.json())";
        let manifest = page.script(script, vec![]).await;
        assert_eq!(manifest["display"], "standalone");
        for (size, purpose) in [
            ("192x192", "any"),
            ("512x512", "any"),
            ("512x512", "maskable"),
        ] {
            let icons = manifest["icons"].as_array().expect("icons");
            let is_there = |icon: &serde_json::Value| {
                icon["sizes"] == size && icon["purpose"].as_str() == Some(purpose)
            };
            assert!(icons.iter().any(is_there), "no icon {size} {purpose}");
        }
        // Every picture the manifest names is there and as large as it says.
        let images = |name: &str| manifest[name].as_array().cloned().unwrap_or_default();
        for image in images("icons").iter().chain(&images("screenshots")) {
            let script = "const [src, done] = arguments;
                const image = new Image();
                image.onload = () => done(image.naturalWidth + 'x' + image.naturalHeight);
                image.onerror = () => done('missing');
                image.src = src;";
            let found = page
                .client()
                .execute_async(script, vec![image["src"].clone()])
                .await
                .expect("an answer");
            if image["sizes"] == "any" {
                assert_ne!(found, "missing", "{image}");
            } else {
                assert_eq!(found, image["sizes"], "{image}");
            }
        }
    });
}

#[test]
fn a_new_version_waits_until_the_session_is_over_and_is_asked_for() {
    journey::run("new version", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        journey.wait_for_offline_copy(&page).await;
        // The page of the first visit came from the server; from now on the copy serves.
        journey.reload(&page).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;

        let next = versions::make(&journey.dist, journey.folder().join("next"), 1);
        journey.serve_instead(next);
        let update = "return navigator.serviceWorker.getRegistration()
            .then((found) => found.update()).then(() => true)";
        page.script(update, vec![]).await;
        page.until("a worker that waits", async || {
            let script = "return navigator.serviceWorker.getRegistration()
                .then((found) => Boolean(found.waiting))";
            (page.script(script, vec![]).await == true).then_some(())
        })
        .await;

        // Not in the middle of a session, and never by itself.
        assert!(!page.shows(words::UPDATE_READY).await);
        gym.log().await;
        journey.reload(&page).await;
        assert!(!page.shows(words::UPDATE_READY).await);
        assert_eq!(page.client().title().await.expect("a title"), "Weekloom");
        let (done, _) = gym.progress().await;
        assert_eq!(done, 2);
        gym.finish_early().await;
        page.find(Role::Status, words::UPDATE_READY).await;
        // This failed now and then on a busy machine: two waits say whether the tap
        // or the worker was at fault.
        let listen = "const apply = window.weekloomUpdate.apply;
            window.weekloomUpdate.apply = () => { window.isAsked = true; apply(); }";
        page.script(listen, vec![]).await;
        page.tap(Role::Button, words::UPDATE_NOW).await;
        let is_new = async || Some(page.client().title().await.ok()? == versions::title(1));
        page.until("the tap to arrive", async || {
            let asked = page
                .client()
                .execute("return window.isAsked === true", vec![]);
            let is_asked = asked.await.is_ok_and(|asked| asked == true);
            (is_asked || is_new().await?).then_some(())
        })
        .await;
        page.until("the new version", async || is_new().await?.then_some(()))
            .await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, done)).await;
        assert!(!page.shows(words::UPDATE_READY).await);
    });
}

/// Looks for a newer version and waits for what becomes of it.
const UPDATE: &str = "return navigator.serviceWorker.getRegistration()
    .then((found) => found.update())
    .then(({ installing }) => installing && new Promise((done) => {
      const tell = () => { if (installing.state !== 'installing') done(installing.state); };
      installing.addEventListener('statechange', tell);
      tell();
    }))";

#[test]
fn an_update_that_breaks_off_leaves_the_old_version_at_work() {
    journey::run("broken update", async |journey| {
        let next = versions::make(&journey.dist, journey.folder().join("next"), 1);
        let cut = versions::make(&journey.dist, journey.folder().join("cut"), 2);
        versions::break_off(&cut, "part-");
        // The browser says what it did not get.
        journey.forgive("sw.js");
        journey.forgive("part-");
        journey.forgive("net::ERR");
        journey.forgive("Cache.addAll");
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        journey.wait_for_offline_copy(&page).await;
        journey.reload(&page).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;

        // A part never arrives: half of the next version is kept, and none of it is used.
        journey.serve_instead(cut);
        assert_eq!(page.script(UPDATE, vec![]).await, "redundant");
        gym.log().await;
        journey.reload(&page).await;
        assert_eq!(gym.progress().await.0, 2);
        assert_eq!(page.client().title().await.expect("a title"), "Weekloom");

        // The server dies while the next version is fetched.
        journey.serve_instead(next.clone());
        let begin = "navigator.serviceWorker.getRegistration()
            .then((found) => found.update()).catch(() => {})";
        page.script(begin, vec![]).await;
        journey.go_offline(None).await;
        gym.log().await;
        journey.reload(&page).await;
        assert_eq!(gym.progress().await.0, 3);
        assert_eq!(page.client().title().await.expect("a title"), "Weekloom");
        journey.close().await;
        let page = journey.open_empty().await;
        journey.enter(&page).await;
        let gym = Gym(&page);
        assert_eq!(gym.progress().await.0, 3);

        // It comes whole at last, and waits until the session is over.
        journey.serve_instead(next);
        page.script(UPDATE, vec![]).await;
        gym.finish_early().await;
        let is_new = page.client().title().await.expect("a title") == versions::title(1);
        // It may have been whole before the server died, and no page was open since.
        if !is_new {
            page.tap(Role::Button, words::UPDATE_NOW).await;
        }
        page.until("the new version", async || {
            (page.client().title().await.ok()? == versions::title(1)).then_some(())
        })
        .await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, 3)).await;
    });
}

#[test]
fn a_part_that_does_not_arrive_is_said_and_can_be_fetched_again() {
    journey::run("missing part", async |journey| {
        let whole = journey.dist.clone();
        let cut = journey.folder().join("cut");
        versions::copy(&whole, &cut);
        versions::break_off(&cut, "part-");
        journey.serve_instead(cut.clone());
        // The browser and the loader say what they did not get.
        journey.forgive("part-");
        journey.forgive("sw.js");
        journey.forgive("LinkError");
        journey.forgive("TypeError");
        let page = journey.open().await;
        // The questions need it.
        page.tap(Role::Button, words::CAUTIONS_READ).await;
        page.find(Role::Alert, words::NOT_FETCHED_MORE).await;
        journey.serve_instead(whole.clone());
        // An attempt that was on its way may bring it too.
        page.until("the questions", async || {
            if page.has(Role::Heading, words::WHEN).await {
                return Some(());
            }
            let again = "[...document.querySelectorAll('main button')]
                .find((button) => button.textContent === arguments[0])?.click()";
            page.script(again, vec![json!(words::TRY_AGAIN)]).await;
            None
        })
        .await;
        page.tap(Role::Button, words::SKIP).await;
        page.find(Role::Button, words::START).await;
        // The others have no command to forget what was fetched.
        if page.engine() != Engine::Chromium {
            return;
        }

        // What one trains by is in the first load.
        let forget = "return navigator.serviceWorker.getRegistrations()
            .then((found) => Promise.all(found.map((worker) => worker.unregister())))
            .then(() => caches.keys())
            .then((found) => Promise.all(found.map((name) => caches.delete(name))))";
        page.script(forget, vec![]).await;
        page.devtools("Network.clearBrowserCache", json!({})).await;
        journey.serve_instead(cut);
        journey.reload(&page).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;

        Places(&page).go(words::PLAN).await;
        page.find(Role::Alert, words::NOT_FETCHED_MORE).await;
        journey.serve_instead(whole);
        page.tap(Role::Button, words::TRY_AGAIN).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
    });
}
