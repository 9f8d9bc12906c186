//! How near the best the planner comes, and how long it takes.
//!
//! Start at [`run`]. Drawn people are planned by the engine as it is shipped, and HiGHS, a
//! solver for mixed-integer programmes, bounds what any week could be worth. HiGHS comes
//! from PyPI at an exact version, into the user's cache folder; nothing shipped or tested
//! needs it.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};
use serde_json::{Map, Value, json};

use crate::{paths, process};

/// The solver's package at PyPI.
const SOLVER: &str = "highspy==1.11.0";
const PROVE: &str = include_str!("prove.py");
/// People whose proofs are kept beside the tests: the first, and those that only days filled
/// by strata or two days changed at once do justice.
const KEPT: i64 = 40;
const TIGHT: [i64; 9] = [85, 100, 130, 147, 149, 263, 309, 391, 433];

/// Plans so many people and bounds each with so many seconds of the solver. With `keeps`
/// the proofs of the first forty and of some others are written to
/// `tests/oracle/proved.json`.
///
/// Errors when the engine or the solver cannot run, or when our week is worth something
/// else in the programme than in the engine.
pub fn run(people: u32, seconds: u32, keeps: bool) -> Result<Value> {
    let folder = paths::target().join("bench/plan");
    fs::create_dir_all(&folder)?;
    let python = solver()?;
    println!("planning {people} people");
    let ours = ours(people, &folder)?;
    println!("bounding each of them, up to {seconds} s");
    let script = folder.join("prove.py");
    fs::write(&script, PROVE)?;
    let mut prove = Command::new(python);
    let proved = process::output(prove.arg(&script).arg(&folder).arg(seconds.to_string()))?;
    let proved = lines(&proved)?;
    ensure!(proved.len() == ours.len(), "a proof is missing");
    if keeps {
        keep(&proved)?;
    }
    Ok(figures(&ours, &proved))
}

/// The solver's Python, installed at first.
fn solver() -> Result<PathBuf> {
    let folder = paths::cache()?.join(SOLVER.replace("==", "-"));
    let python = folder.join("bin/python");
    if !folder.join("is-whole").is_file() {
        let found = process::find(&["python3"])
            .context("python3 was not found: install it to have plans bounded by a solver")?;
        println!("        installing {SOLVER} from PyPI");
        process::output(Command::new(found).args(["-m", "venv"]).arg(&folder))?;
        process::output(Command::new(&python).args(["-m", "pip", "install", "-q", SOLVER]))?;
        fs::write(folder.join("is-whole"), "")?;
    }
    Ok(python)
}

/// Plans people with the engine as it is shipped.
fn ours(people: u32, folder: &Path) -> Result<Vec<Value>> {
    let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    cargo
        .args([
            "run",
            "--release",
            "--quiet",
            "--package",
            "weekloom-engine",
        ])
        .args(["--example", "people_bench", "--", "0", &people.to_string()])
        .arg(folder)
        .stdin(Stdio::null())
        .current_dir(paths::root());
    let text = process::output(&mut cargo)?;
    fs::write(folder.join("ours.jsonl"), &text)?;
    lines(&text)
}

pub(super) fn lines(text: &str) -> Result<Vec<Value>> {
    text.lines()
        .map(|line| serde_json::from_str(line).with_context(|| format!("not JSON: {line}")))
        .collect()
}

fn keep(proved: &[Value]) -> Result<()> {
    let file = paths::root().join("tests/oracle/proved.json");
    let mut rows = Vec::new();
    let is_kept = |proof: &&Value| {
        let number = proof["number"].as_i64().unwrap_or(-1);
        number < KEPT || TIGHT.contains(&number)
    };
    for proof in proved.iter().filter(is_kept) {
        let mut row = Map::new();
        for name in ["number", "fingerprint", "incumbent", "bound"] {
            row.insert(name.into(), proof[name].clone());
        }
        rows.push(format!("  {}", Value::Object(row)));
    }
    fs::write(&file, format!("[\n{}\n]\n", rows.join(",\n")))
        .with_context(|| format!("could not write {}", file.display()))?;
    println!("proofs are in {}", file.display());
    Ok(())
}

/// Shares of people and percentiles of gaps and times. Gaps are shares of the proved bound,
/// and once of what our week's sets are worth before its costs.
fn figures(ours: &[Value], proved: &[Value]) -> Value {
    let number = |value: &Value, name: &str| value[name].as_i64().unwrap_or(0);
    // Hundredths of a percent of the proved bound.
    let share = |part: i64, bound: i64| part * 10_000 / bound.abs().max(1);
    let both = || ours.iter().zip(proved);
    let each = |part: &dyn Fn(&Value, &Value) -> i64| -> Vec<i64> {
        both()
            .map(|(o, p)| share(part(o, p), number(p, "bound")))
            .collect()
    };
    let to_bound = each(&|o, p| number(p, "bound") - number(o, "points"));
    // What a week is worth after its costs can be near nothing; its sets never are.
    let of_sets: Vec<i64> = both()
        .map(|(o, p)| {
            share(
                number(p, "bound") - number(o, "points"),
                number(o, "stimulus"),
            )
        })
        .collect();
    let to_best = each(&|o, p| number(p, "incumbent") - number(o, "points"));
    let solver = each(&|_, p| number(p, "bound") - number(p, "incumbent"));
    let own = each(&|o, p| number(o, "bound") - number(p, "bound"));
    let micros: Vec<i64> = ours.iter().map(|o| number(o, "micros")).collect();
    let within = |list: &[i64], most: i64| list.iter().filter(|&&gap| gap <= most).count();
    json!({
        "people": ours.len(),
        "unit": "gaps in hundredths of a percent of the bound that HiGHS proved; times in microseconds",
        "below_bound": percentiles(&to_bound),
        "below_bound_by_worth_of_sets": percentiles(&of_sets),
        "below_best_known": percentiles(&to_best),
        "solver_left_open": percentiles(&solver),
        "own_bound_above_proved": percentiles(&own),
        "plan_micros": percentiles(&micros),
        "within_1_percent_of_bound": within(&to_bound, 100),
        "within_1_percent_of_worth_of_sets": within(&of_sets, 100),
        "within_1_percent_of_best_known": within(&to_best, 100),
        "solver_within_1_percent": within(&solver, 100),
    })
}

pub(super) fn percentiles(list: &[i64]) -> Value {
    let mut sorted = list.to_vec();
    sorted.sort_unstable();
    let at = |percent: usize| {
        sorted
            .get((sorted.len().max(1) - 1) * percent / 100)
            .copied()
    };
    json!({ "p50": at(50), "p90": at(90), "p95": at(95), "p99": at(99), "most": at(100) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_are_shares_of_the_proved_bound() {
        let ours = [json!({ "points": 980, "stimulus": 4000, "bound": 1010, "micros": 7 })];
        let proved = [json!({ "incumbent": 990, "bound": 1000 })];
        let found = figures(&ours, &proved);
        assert_eq!(found["below_bound"]["p50"], 200);
        assert_eq!(found["below_bound_by_worth_of_sets"]["p50"], 50);
        assert_eq!(found["within_1_percent_of_worth_of_sets"], 1);
        assert_eq!(found["below_best_known"]["most"], 100);
        assert_eq!(found["own_bound_above_proved"]["p95"], 100);
        assert_eq!(found["within_1_percent_of_bound"], 0);
        assert_eq!(found["within_1_percent_of_best_known"], 1);
    }
}
