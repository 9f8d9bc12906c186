//! Opens the page of `src/app/examples/plan_bench` for each person and prints what it
//! shows: `cargo run -p weekloom-tests --example plan_speed -- URL RATE PERSON…`.
//!
//! RATE is how many times slower the browser makes its processor. Each person gets the page
//! afresh, so that the first plan runs code that has never run, as it does after a tap on
//! the last question. Prints one JSON object a line. `cargo xtask bench --wasm` runs it.

use serde_json::{Value, json};
use weekloom_tests::browser::{Browser, Profile};
use xtask::browser::{Browser as Found, Engine};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [url, rate, people @ ..] = words.as_slice() else {
        panic!("usage: plan_speed URL RATE PERSON...");
    };
    let rate: f64 = rate.parse().expect("a number");
    let found = Found::find(Engine::Chromium).expect("Chromium and chromedriver");
    let mut runtime = tokio::runtime::Builder::new_current_thread();
    let runtime = runtime.enable_all().build().expect("a runtime");
    runtime.block_on(async {
        let profile = Profile::fresh();
        let mut browser = Browser::start(&found);
        let page = browser.open(&profile).await;
        page.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": rate }))
            .await;
        for person in people {
            page.client().goto("about:blank").await.expect("a page");
            let address = format!("{url}#{person}");
            page.client().goto(&address).await.expect("the page opens");
            let micros: Value = page
                .until("the times", async || {
                    serde_json::from_str(&page.text().await).ok()
                })
                .await;
            println!("{}", json!({ "person": person, "micros": micros }));
        }
        browser.close().await;
    });
}
