//! How long a plan takes in the browser.
//!
//! Start at [`run`]. The engine is compiled to wasm as the app's is, into a page of its own
//! ([`PAGE`]), and Chromium opens it for each person with its processor as it is and made
//! slower by [`RATES`].

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use serde_json::{Map, Value, json};

use super::plan::{lines, percentiles};
use crate::build::measured_page;
use crate::serve::Server;
use crate::{paths, process};

/// How many times slower the processor is made; four stands for a slow phone.
const RATES: [u32; 2] = [1, 4];
/// The largest week and usual ones, by the names that the page knows.
const NAMED: [&str; 5] = ["largest", "two-short", "three", "four", "six-short"];
/// Drawn people beside them.
const DRAWN: u32 = 60;

const PAGE: &str = r#"<!doctype html><meta charset="utf-8"><title>plan</title><body><script type="module">
import start from "./weekloom.js";
await start({ module_or_path: new URL("weekloom.wasm", import.meta.url) });
</script>"#;

/// Measures people's plans in wasm: microseconds by processor and person, the first plan on
/// a fresh page apart from later ones.
///
/// Errors when the page cannot be built or Chromium and its driver are not there.
pub fn run() -> Result<Value> {
    let folder = paths::target().join("bench/wasm");
    fs::create_dir_all(&folder)?;
    measured_page("plan_bench", &folder)?;
    fs::write(folder.join("index.html"), PAGE)?;
    let mut found = Map::new();
    for rate in RATES {
        println!("planning in the browser, processor slowed {rate} times");
        found.insert(format!("cpu_x{rate}"), figures(&measure(&folder, rate)?)?);
    }
    found.insert(
        "unit".into(),
        "microseconds; first: code that has never run on this page, again: the least of later ones"
            .into(),
    );
    Ok(Value::Object(found))
}

fn measure(folder: &Path, rate: u32) -> Result<Vec<Value>> {
    let server = Server::start(folder, 0)?;
    let mut cargo = process::cargo();
    cargo
        .args(["run", "--quiet", "--package", "weekloom-tests"])
        .args(["--example", "plan_speed", "--", &server.url()])
        .arg(rate.to_string())
        .args(NAMED)
        .args((0..DRAWN).map(|number| number.to_string()))
        .current_dir(paths::root());
    let text = process::output(&mut cargo)?;
    server.stop();
    lines(&text)
}

fn figures(people: &[Value]) -> Result<Value> {
    let mut named = Map::new();
    let (mut first, mut again) = (Vec::new(), Vec::new());
    for person in people {
        let micros = person["micros"].as_array().context("a list of times")?;
        let micros: Vec<i64> = micros
            .iter()
            .map(|time| time.as_f64().unwrap_or(0.0) as i64)
            .collect();
        let (once, later) = micros.split_first().context("one time at least")?;
        let later = later.iter().min().context("two times at least")?;
        let name = person["person"].as_str().unwrap_or_default();
        if NAMED.contains(&name) {
            named.insert(name.into(), json!({ "first": once, "again": later }));
        } else {
            first.push(*once);
            again.push(*later);
        }
    }
    Ok(json!({
        "named": named,
        "people": first.len(),
        "first": percentiles(&first),
        "again": percentiles(&again),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_plan_stands_apart() {
        let people = [
            json!({ "person": "largest", "micros": [90.0, 50.0, 40.0] }),
            json!({ "person": "7", "micros": [30.0, 20.0, 25.0] }),
        ];
        let found = figures(&people).unwrap();
        assert_eq!(
            found["named"]["largest"],
            json!({ "first": 90, "again": 40 })
        );
        assert_eq!(found["people"], 1);
        assert_eq!(found["first"]["p95"], 30);
        assert_eq!(found["again"]["p50"], 20);
    }
}
