//! How long it takes until the app can be used: the first visit over a slow net, and a
//! start without any net, both beside the floor app in the same page.

use std::path::Path;

use serde_json::{Value, json};
use weekloom_tests::browser::Page;
use weekloom_tests::journey::{self, Journey};
use weekloom_tests::pages::FirstOpening;

use crate::{median, spread};

/// Notes when the page first holds something to use, two frames after it is there, so
/// that it has been painted; and the largest thing painted until then.
pub const WATCH: &str = "{
  const look = () => {
    if (document.getElementById('shell') || !document.querySelector('main button, main a')) return;
    observer.disconnect();
    requestAnimationFrame(() => requestAnimationFrame(() => {
      globalThis.usableAt = performance.now();
    }));
  };
  const observer = new MutationObserver(look);
  observer.observe(document, { childList: true, subtree: true });
  new PerformanceObserver((list) => {
    globalThis.largestAt = list.getEntries().at(-1).startTime;
  }).observe({ type: 'largest-contentful-paint', buffered: true });
}";

/// A phone four times slower than this machine.
pub const SLOWER: u32 = 4;

/// Milliseconds of one start.
#[derive(Clone, Copy)]
pub struct Start {
    pub usable: f64,
    pub largest: f64,
}

/// Both apps, in turn, so many times.
pub fn measure(floor: &Path, rounds: usize) -> Value {
    let (mut first, mut offline) = ([vec![], vec![]], [vec![], vec![]]);
    for round in 0..rounds {
        for which in 0..2 {
            let dist = (which == 1).then_some(floor);
            let (visit, start) = one_round(dist);
            first[which].push(visit);
            offline[which].push(start);
        }
        eprintln!("round {} of {rounds}", round + 1);
    }
    json!({
        "unit": "ms to the first frame with something to use",
        "cpu_slower": SLOWER,
        "first_visit_150ms_1_6Mbit": beside(&first),
        "offline": beside(&offline),
    })
}

fn beside([app, floor]: &[Vec<Start>; 2]) -> Value {
    let usable = |starts: &[Start]| starts.iter().map(|s| s.usable).collect::<Vec<_>>();
    let largest = |starts: &[Start]| starts.iter().map(|s| s.largest).collect::<Vec<_>>();
    json!({
        "app": spread(usable(app)),
        "floor": spread(usable(floor)),
        "ratio_of_medians": median(&usable(app)) / median(&usable(floor)),
        "largest_paint": { "app": spread(largest(app)), "floor": spread(largest(floor)) },
    })
}

/// A first visit over a slow net, then a start with the server gone; the app with a plan.
fn one_round(floor: Option<&Path>) -> (Start, Start) {
    let mut found = None;
    journey::run("start", async |journey| {
        journey.inject(WATCH);
        if let Some(floor) = floor {
            journey.serve_instead(floor.to_path_buf());
        }
        let page = journey.open_empty().await;
        slow_net(&page).await;
        slow_down(&page, SLOWER).await;
        journey.enter(&page).await;
        let visit = started(&page).await;
        slow_down(&page, 1).await;
        any_net(&page).await;
        journey.wait_for_offline_copy(&page).await;
        if floor.is_none() {
            FirstOpening(&page).skip().await;
        }
        journey.close().await;
        found = Some((visit, offline_start(journey).await));
    });
    found.expect("the journey ran: a browser and its driver are needed")
}

/// Opens the browser with the server gone.
pub async fn offline_start(journey: &mut Journey) -> Start {
    journey.go_offline(None).await;
    // The browser looks for a newer worker and says so in vain.
    journey.forgive("sw.js");
    let page = journey.open_empty().await;
    journey.go_offline(Some(&page)).await;
    slow_down(&page, SLOWER).await;
    journey.enter(&page).await;
    started(&page).await
}

/// Waits until the page can be used.
pub async fn started(page: &Page) -> Start {
    let script = "return [globalThis.usableAt ?? null, globalThis.largestAt ?? null]";
    page.until("a page that can be used", async || {
        let found = page.script(script, vec![]).await;
        Some(Start {
            usable: found[0].as_f64()?,
            largest: found[1].as_f64()?,
        })
    })
    .await
}

/// Makes the processor so many times slower.
pub async fn slow_down(page: &Page, times: u32) {
    page.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
        .await;
}

/// 150 ms and 1.6 Mbit/s down, 750 kbit/s up: a phone on a slow net.
async fn slow_net(page: &Page) {
    net(page, 150, 1_600_000 / 8, 750_000 / 8).await;
}

async fn any_net(page: &Page) {
    net(page, 0, -1, -1).await;
}

async fn net(page: &Page, latency: u32, down: i64, up: i64) {
    page.devtools("Network.enable", json!({})).await;
    let conditions = json!({
        "offline": false, "latency": latency, "downloadThroughput": down, "uploadThroughput": up
    });
    page.devtools("Network.emulateNetworkConditions", conditions)
        .await;
}
