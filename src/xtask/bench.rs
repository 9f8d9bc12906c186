//! `cargo xtask bench`: figures to `target/bench/figures.json`.
//!
//! Each kind of figure is one key at the top of the file: `size` is written here, `plan` by
//! [`plan`], `plan_wasm` by [`wasm`], `start`, `years` and `torture` (with the engine, if it is not Chromium) by [`browser`], `trainees`
//! and `review` by the simulations among the tests, and what others measured under other keys is kept.

use std::collections::BTreeMap;
use std::fs;

use anyhow::{Context, Result, bail};
use serde_json::{Map, Value, json};

use crate::browser::Engine;
use crate::budgets::{self, Weight};
use crate::{build, paths, process};

pub mod browser;
pub mod plan;
mod wasm;

/// Seconds a solver may spend on one person where nothing else is said.
const SECONDS: u32 = 10;

/// What to measure.
pub enum Measure {
    /// The size of the built folder.
    Size,
    /// How soon the app can be used, beside the floor app, so many times each.
    Start(u32),
    /// What years of logs cost, so many times each.
    Years(u32),
    /// What is lost when a browser of this engine is killed so often, by this seed.
    Torture(Engine, u32, u32),
    /// How long a plan takes in the browser.
    Wasm,
    /// How near the best the planner comes, for so many people.
    Plans {
        /// How many.
        people: u32,
        /// Seconds of the solver for each; [`None`] for the usual ten.
        seconds: Option<u32>,
        /// Whether to keep the proofs of the first forty beside the tests.
        keeps: bool,
    },
    /// What a year by each rule of progression comes to, for so many simulated people.
    Trainees {
        /// How many.
        people: u32,
    },
    /// Whether the review finds what holds simulated people back, for so many of each kind.
    Review {
        /// How many.
        people: u32,
    },
}

/// Measures and writes the figures.
pub fn run(measure: &Measure) -> Result<()> {
    let (name, found) = match measure {
        Measure::Size => {
            let size = size_figures(&budgets::weigh(&paths::dist())?);
            println!("{}", serde_json::to_string_pretty(&size["parts"])?);
            ("size", size)
        }
        Measure::Start(rounds) => ("start", shown(browser::start(*rounds)?)?),
        Measure::Years(rounds) => ("years", shown(browser::years(*rounds)?)?),
        Measure::Torture(engine, kills, seed) => (
            match engine {
                Engine::Chromium => "torture",
                Engine::Firefox => "torture_firefox",
                Engine::WebKit => "torture_webkit",
            },
            shown(browser::torture(*engine, *kills, *seed)?)?,
        ),
        Measure::Wasm => ("plan_wasm", shown(wasm::run()?)?),
        Measure::Plans {
            people,
            seconds,
            keeps,
        } => {
            let found = plan::run(*people, seconds.unwrap_or(SECONDS), *keeps)?;
            println!("{}", serde_json::to_string_pretty(&found)?);
            ("plan", found)
        }
        Measure::Trainees { people } => ("trainees", trainees(*people)?),
        Measure::Review { people } => ("review", reviewed(*people)?),
    };
    let folder = paths::target().join("bench");
    let file = folder.join("figures.json");
    let mut figures = match fs::read_to_string(&file) {
        Ok(text) => match serde_json::from_str(&text) {
            Ok(Value::Object(figures)) => figures,
            _ => bail!(
                "{} is not an object of figures: move it away",
                file.display()
            ),
        },
        Err(_) => Map::new(),
    };
    figures.insert(name.into(), found);
    fs::create_dir_all(&folder)?;
    fs::write(&file, serde_json::to_string_pretty(&figures)? + "\n")
        .with_context(|| format!("could not write {}", file.display()))?;
    println!("figures are in {}", file.display());
    Ok(())
}

fn shown(figures: Value) -> Result<Value> {
    println!("{}", serde_json::to_string_pretty(&figures)?);
    Ok(figures)
}

/// Runs the simulated trainees, whose table goes to the screen, and reads it. A limit that
/// was broken stands in the table before it fails the run.
fn trainees(people: u32) -> Result<Value> {
    let folder = paths::target().join("bench");
    fs::create_dir_all(&folder)?;
    let table = folder.join("trainees.json");
    let simulation = ["--package=weekloom-engine", "--test=simulation"];
    process::run(
        process::cargo()
            .args(["test", "--quiet"])
            .args(simulation)
            .args(["--", "a_year_by_every_rule"])
            .env("WEEKLOOM_PEOPLE", people.to_string())
            .env("WEEKLOOM_TABLE", &table),
    )?;
    let rows = fs::read_to_string(&table)
        .with_context(|| format!("the simulation wrote no {}", table.display()))?;
    let rows: Value = serde_json::from_str(&rows).context("the simulation's table is not JSON")?;
    Ok(json!({ "people": people, "weeks": 52, "rules": rows }))
}

/// Runs the trainees with a planted cause: what the review says of each kind, as a table.
fn reviewed(people: u32) -> Result<Value> {
    let folder = paths::target().join("bench");
    fs::create_dir_all(&folder)?;
    let table = folder.join("review.json");
    process::run(
        process::cargo()
            .args(["test", "--quiet"])
            .args(["--package=weekloom-engine", "--test=review"])
            .args(["--", "the_planted_cause_is_found"])
            .env("WEEKLOOM_PEOPLE", people.to_string())
            .env("WEEKLOOM_TABLE", &table),
    )?;
    let rows = fs::read_to_string(&table)
        .with_context(|| format!("the review's test wrote no {}", table.display()))?;
    let rows: Value = serde_json::from_str(&rows).context("the review's table is not JSON")?;
    Ok(json!({ "people": people, "weeks": 12, "rows": rows }))
}

/// Bytes by file and by part of the app, and of the first load.
fn size_figures(weights: &[Weight]) -> Value {
    let mut parts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for weight in weights {
        let part = parts.entry(build::part_of(&weight.path)).or_default();
        part.0 += weight.raw;
        part.1 += weight.brotli;
    }
    let both = |(raw, brotli): (usize, usize)| json!({ "raw": raw, "brotli": brotli });
    let by_file = weights.iter().map(|w| {
        json!({ "file": w.path, "part": build::part_of(&w.path), "raw": w.raw, "brotli": w.brotli })
    });
    json!({
        "unit": "bytes",
        "first_load": both(budgets::first_load(weights)),
        "parts": parts.into_iter().map(|(part, sum)| (part.to_owned(), both(sum))).collect::<Map<_, _>>(),
        "files": by_file.collect::<Vec<_>>(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_add_up_their_files() {
        let weight = |path: &str, raw, brotli| Weight {
            path: path.into(),
            raw,
            brotli,
        };
        let figures = size_figures(&[
            weight("assets/a.js", 10, 4),
            weight("assets/b.js", 20, 6),
            weight("icons/a.png", 5, 5),
        ]);
        assert_eq!(
            figures["parts"]["scripts"],
            json!({ "raw": 30, "brotli": 10 })
        );
        assert_eq!(figures["first_load"], json!({ "raw": 30, "brotli": 10 }));
        assert_eq!(figures["files"].as_array().map(Vec::len), Some(3));
    }
}
