//! What is measured in a browser: started by `cargo xtask bench`, which builds what is
//! needed and keeps the figures.
//!
//! Start at [`main`]: its first word names the measure, its second the file that takes the
//! figures as JSON. Nothing is judged here. Two things compared are measured in turn, so
//! that whatever else the machine does meets both, and only their ratio is to be trusted.

mod gallery;
mod start;
mod years;

use weekloom_tests::{journey, torture};

use std::process::ExitCode;

use serde_json::{Value, json};

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let (figures, file) = match words[..] {
        ["start", file, floor, rounds] => (start::measure(floor.as_ref(), number(rounds)), file),
        ["years", file, rounds] => (years::measure(number(rounds)), file),
        ["gallery", file, folder, _] => (gallery::hang(folder.as_ref()), file),
        ["torture", file, kills, seed] => (kill(number(kills), number(seed)), file),
        _ => {
            eprintln!(
                "usage: measure start FILE FLOOR ROUNDS | years FILE ROUNDS \
                 | torture FILE KILLS SEED | gallery FILE FOLDER 1"
            );
            return ExitCode::FAILURE;
        }
    };
    let text = serde_json::to_string_pretty(&figures).expect("figures are JSON");
    std::fs::write(file, text).unwrap_or_else(|error| panic!("could not write {file}: {error}"));
    ExitCode::SUCCESS
}

/// Kills the browser so often.
fn kill(kills: usize, seed: usize) -> Value {
    let mut tally = None;
    journey::run("torture", async |journey| {
        tally = Some(torture::torture(journey, kills, seed as u64).await);
    });
    tally
        .expect("the journey ran: a browser and its driver are needed")
        .figures()
}

fn number(word: &str) -> usize {
    word.parse()
        .unwrap_or_else(|_| panic!("'{word}' is not a number"))
}

/// The middle and the 95th percentile of some milliseconds, and how many there were.
fn spread(mut found: Vec<f64>) -> Value {
    found.sort_by(f64::total_cmp);
    let at = |percent: usize| found.get((found.len() * percent / 100).min(found.len() - 1));
    json!({ "n": found.len(), "median": at(50), "p95": at(95) })
}

/// The middle of some numbers.
fn median(found: &[f64]) -> f64 {
    let mut found = found.to_vec();
    found.sort_by(f64::total_cmp);
    found[found.len() / 2]
}
