//! The app as something to install, and the way from one version to the next.

use std::fs;
use std::path::Path;

use serde_json::json;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
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
        let next = journey.folder().join("next");
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        journey.wait_for_offline_copy(&page).await;
        // The page of the first visit came from the server; from now on the copy serves.
        journey.reload(&page).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;

        copy(&journey.dist, &next);
        let index = fs::read_to_string(next.join("index.html")).expect("a page");
        let index = index.replace(
            "<title>Weekloom</title>",
            "<title>Weekloom, the next</title>",
        );
        fs::write(next.join("index.html"), index).expect("a page");
        let worker = fs::read_to_string(next.join("sw.js")).expect("a worker");
        fs::write(
            next.join("sw.js"),
            format!("{worker}\n// The next version.\n"),
        )
        .expect("a worker");
        renumber(&next);
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
        let is_new = async || Some(page.client().title().await.ok()? == "Weekloom, the next");
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

#[test]
fn a_part_that_does_not_arrive_is_said_and_can_be_fetched_again() {
    journey::run("missing part", async |journey| {
        let whole = journey.dist.clone();
        let cut = journey.folder().join("cut");
        copy(&whole, &cut);
        let assets = fs::read_dir(cut.join("assets")).expect("assets");
        let mut gone = 0;
        for file in assets {
            let file = file.expect("a file").path();
            if file.to_string_lossy().contains("part-") {
                fs::remove_file(file).expect("it goes");
                gone += 1;
            }
        }
        assert!(gone > 0, "the app is all of one piece");
        journey.serve_instead(cut);
        // The browser and the loader say what they did not get.
        journey.forgive("part-");
        journey.forgive("sw.js");
        journey.forgive("LinkError");
        journey.forgive("TypeError");
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Places(&page).go(words::PLAN).await;
        page.find(Role::Alert, words::NOT_FETCHED_MORE).await;

        // What one trains by is in the first load.
        Places(&page).go(words::TODAY).await;
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

/// Gives the changed folder a version of its own, as a build does by its bytes.
fn renumber(dist: &Path) {
    let path = dist.join("sw.js");
    let worker = fs::read_to_string(&path).expect("a worker");
    let is_version = |text: &&str| text.len() == 16 && text.chars().all(|c| c.is_ascii_hexdigit());
    let version = worker.split('"').find(is_version).expect("its version");
    let renumbered = worker.replace(version, "00000000000000ff");
    fs::write(path, renumbered).expect("a worker");
}

/// Copies a built folder without the packed copies, which would hide a change.
fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder").filter_map(Result::ok) {
        let (path, target) = (entry.path(), to.join(entry.file_name()));
        if path.is_dir() {
            copy(&path, &target);
        } else if path.extension().is_none_or(|e| e != "br") {
            fs::copy(&path, &target).expect("a file");
        }
    }
}
