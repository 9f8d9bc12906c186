//! A picture of every screen, at three widths, light and dark.
//!
//! The first opening is walked through as a new person; then a member of the invented crew
//! stands for the trainee, and every link is followed once, places of the same shape (two
//! exercises of the plan) counting as one; then a session is begun and its sheets opened.

use std::collections::{BTreeSet, VecDeque};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use serde_json::{Value, json};
use weekloom_store::demo::Crew;
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today, YourData};
use weekloom_tests::words;

/// Name, width and height of a phone, a tablet and a desk.
const SIZES: [(&str, u32, u32); 3] = [
    ("phone", 360, 740),
    ("tablet", 820, 1180),
    ("desk", 1280, 800),
];
/// No picture is taller.
const TALLEST: u64 = 4000;
/// Places that no link leads to.
const SHEETS: [&str; 4] = [
    "#/today/whole",
    "#/today/swap",
    "#/today/load",
    "#/today/more",
];

/// Takes the pictures; how many there are.
pub fn hang(folder: &Path) -> Value {
    fs::create_dir_all(folder).expect("a folder for the pictures");
    let mut gallery = Gallery {
        folder: folder.to_path_buf(),
        screens: 0,
        pictures: 0,
    };
    journey::run("gallery", async |journey| {
        let page = journey.open().await;
        gallery.opening(&page).await;
        let data = YourData(&page);
        data.open().await;
        page.tap(Role::Button, words::DEMO_ENTER).await;
        page.find(Role::Heading, words::DEMO_WHO).await;
        page.tap(Role::Button, Crew::ALL[0].title()).await;
        page.find(Role::Link, words::PLAN).await;
        gallery.follow_links(&page).await;
        gallery.answers(&page).await;
        Places(&page).go(words::TODAY).await;
        gallery.session(&page).await;
    });
    json!({ "screens": gallery.screens, "pictures": gallery.pictures })
}

struct Gallery {
    folder: PathBuf,
    screens: usize,
    pictures: usize,
}

impl Gallery {
    async fn opening(&mut self, page: &Page) {
        let opening = FirstOpening(page);
        self.shoot(page, "opening-cautions").await;
        opening.read_cautions().await;
        self.shoot(page, "opening-days").await;
        opening.next(words::WITH_WHAT).await;
        self.shoot(page, "opening-kit").await;
        opening.next(words::ABOUT_YOU).await;
        self.shoot(page, "opening-you").await;
        opening.weave().await;
    }

    async fn follow_links(&mut self, page: &Page) {
        let mut seen = BTreeSet::new();
        let mut queue: VecDeque<String> = ["#/today", "#/week", "#/plan", "#/log", "#/kit"]
            .map(String::from)
            .into();
        while let Some(hash) = queue.pop_front() {
            if !seen.insert(shape(&hash)) {
                continue;
            }
            go(page, &hash).await;
            self.shoot(page, &name(&hash)).await;
            let script = "return [...document.querySelectorAll('a[href^=\"#/\"]')]
                .map((a) => a.getAttribute('href'))";
            let links = page.script(script, vec![]).await;
            let links = links.as_array().cloned().unwrap_or_default();
            queue.extend(
                links
                    .iter()
                    .filter_map(|link| Some(link.as_str()?.to_owned())),
            );
        }
    }

    /// What stands there only once it was asked for.
    async fn answers(&mut self, page: &Page) {
        go(page, "#/plan").await;
        page.tap(Role::Button, words::ASK_RELIEF).await;
        page.misses(words::ASK_RELIEF).await;
        self.shoot(page, "plan-limits").await;
    }

    async fn session(&mut self, page: &Page) {
        Today(page).start().await;
        let gym = Gym(page);
        self.shoot(page, "session-first-set").await;
        gym.why().await;
        self.shoot(page, "session-why").await;
        for sheet in SHEETS {
            go(page, sheet).await;
            self.shoot(page, &format!("session-{}", name(sheet))).await;
        }
        go(page, "#/today").await;
        let (done, of) = gym.progress().await;
        gym.tap_log().await;
        gym.is_saved((done + 1, of)).await;
        self.shoot(page, "session-rest").await;
        gym.finish_early().await;
        self.shoot(page, "session-done").await;
    }

    /// One screen at every width, in both colour schemes; its name is its file's.
    async fn shoot(&mut self, page: &Page, name: &str) {
        for (size, width, height) in SIZES {
            resize(page, width, u64::from(height)).await;
            // The running session looks for room with its clock.
            tokio::time::sleep(Duration::from_millis(300)).await;
            for scheme in ["light", "dark"] {
                let media = json!({ "features": [
                    { "name": "prefers-color-scheme", "value": scheme },
                    { "name": "prefers-reduced-motion", "value": "reduce" },
                ]});
                page.devtools("Emulation.setEmulatedMedia", media).await;
                self.keep(page, &format!("{name}-{size}-{scheme}")).await;
            }
            let script = "return document.scrollingElement.scrollHeight";
            let tall = page
                .script(script, vec![])
                .await
                .as_u64()
                .unwrap_or_default();
            if size == "phone" && tall > u64::from(height) {
                resize(page, width, tall.min(TALLEST)).await;
                self.keep(page, &format!("{name}-{size}-whole")).await;
            }
        }
        resize(page, SIZES[0].1, u64::from(SIZES[0].2)).await;
        self.screens += 1;
    }

    async fn keep(&mut self, page: &Page, name: &str) {
        // Two frames, so that what has changed is painted.
        let script = "const done = arguments[0];
            requestAnimationFrame(() => requestAnimationFrame(() => done(true)))";
        page.client()
            .execute_async(script, vec![])
            .await
            .expect("two frames");
        let picture = page.client().screenshot().await.expect("a picture");
        let file = self.folder.join(format!("{name}.png"));
        fs::write(&file, picture).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
        self.pictures += 1;
    }
}

async fn resize(page: &Page, width: u32, height: u64) {
    let size =
        json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 1000 });
    page.devtools("Emulation.setDeviceMetricsOverride", size)
        .await;
}

async fn go(page: &Page, hash: &str) {
    page.script("location.hash = arguments[0]", vec![json!(hash)])
        .await;
    // A place may look things up before it shows them.
    tokio::time::sleep(Duration::from_millis(400)).await;
}

/// Places whose addresses differ only in numbers and names of things are of one shape.
fn shape(hash: &str) -> String {
    let parts = hash.split('/').enumerate().map(|(at, part)| {
        let is_thing = part.bytes().any(|b| b.is_ascii_digit()) || (at > 2 && part.contains('-'));
        if is_thing { "*" } else { part }
    });
    parts.collect::<Vec<_>>().join("/")
}

/// A file's name for a place.
fn name(hash: &str) -> String {
    let parts: Vec<String> = hash
        .trim_start_matches("#/")
        .split('/')
        .map(|part| {
            part.chars()
                .filter(|c| c.is_ascii_alphanumeric() || *c == '-')
                .collect()
        })
        .collect();
    parts.join("_")
}
