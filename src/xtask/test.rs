//! `cargo xtask test`: every check in order, then one line with the count.
//!
//! A section passes, fails or did not run. What did not run is never counted as passed:
//! it is named with the reason, and with `--ci` it is a failure.

use std::process::ExitCode;
use std::time::Instant;

use anyhow::{Result, bail, ensure};

use crate::browser::{Browser, Engine};
use crate::build::{self, Npm, Options};
use crate::{budgets, dependencies, npm, paths, process, setup, tidy};

/// What compiles for the machine itself. Every section names all of it, whatever it runs of
/// it: cargo compiles a dependency anew for every set of crates that wants other features
/// of it.
const HOST: [&str; 5] = [
    "--package=weekloom-engine",
    "--package=weekloom-store",
    "--package=xtask",
    "--package=weekloom-tests",
    "--features=xtask/wasm-test-runner",
];

const WASM: &str = "wasm32-unknown-unknown";

/// How a section ended.
#[derive(Debug, PartialEq, Eq)]
enum Outcome {
    Passed,
    Failed(String),
    NotRun(String),
}

/// May a section be left out for want of a tool?
#[derive(Clone, Copy, PartialEq, Eq)]
enum Strictness {
    /// Where the result decides: nothing may be left out.
    Ci,
    /// On a contributor's machine.
    Local,
}

/// What a section may use.
struct Machine {
    strictness: Strictness,
    /// Was one section asked for by its name?
    is_named: bool,
    browser: Result<Browser>,
}

type Section = (&'static str, fn(&Machine) -> Result<Outcome>);

const SECTIONS: [Section; 12] = [
    ("fmt", fmt),
    ("clippy", clippy),
    ("clippy-app", clippy_app),
    ("tidy", |_| tidy::run().map(|()| Outcome::Passed)),
    ("dependencies", |_| {
        dependencies::check().map(|()| Outcome::Passed)
    }),
    ("host", host),
    ("build", release_build),
    ("budgets", |_| {
        budgets::check(&paths::dist()).map(|()| Outcome::Passed)
    }),
    ("wasm", wasm),
    ("journeys", |machine| {
        journeys(machine, &machine.browser, &[])
    }),
    ("webkit", |machine| {
        let browser = setup::browser(Engine::WebKit);
        let only: &[&str] = if machine.is_named { &[] } else { &IN_WEBKIT };
        journeys(machine, &browser, only)
    }),
    ("firefox", |machine| {
        journeys(machine, &setup::browser(Engine::Firefox), &[])
    }),
];

/// Of the journeys, those that the whole run makes in WebKit too: what is done in the gym,
/// and what rests on the engine most. All of them would lengthen it past half an hour.
const IN_WEBKIT: [&str; 6] = [
    "installing::",
    "mid_rest::",
    "offline::",
    "one_thumb::",
    "two_windows::",
    "whole_session::",
];

/// Sections that run only when they are asked for by name: the same journeys in a third
/// engine would lengthen the whole run by a third.
const ON_REQUEST: [&str; 1] = ["firefox"];

/// Sections that need Chromium.
const NEED_BROWSER: [&str; 2] = ["wasm", "journeys"];

/// Sections that look at the release build.
const NEED_BUILD: [&str; 4] = ["budgets", "journeys", "firefox", "webkit"];

/// Does the environment say that this machine decides (CI=true)?
pub fn is_ci() -> bool {
    std::env::var("CI").is_ok_and(|value| matches!(value.as_str(), "true" | "1"))
}

/// Runs every section, or the one named, and prints the count.
///
/// Errors when no section has that name. The exit code is a failure when one failed.
pub fn run(strict: bool, only: Option<&str>) -> Result<ExitCode> {
    let chosen: Vec<Section> = SECTIONS
        .into_iter()
        .filter(|(name, _)| match only {
            Some(only) => only == *name,
            None => !ON_REQUEST.contains(name),
        })
        .collect();
    if chosen.is_empty() {
        let names: Vec<&str> = SECTIONS.iter().map(|(name, _)| *name).collect();
        bail!("--only takes one of: {}", names.join(", "));
    }
    let strictness = if strict {
        Strictness::Ci
    } else {
        Strictness::Local
    };
    let needs_browser = chosen.iter().any(|(name, _)| NEED_BROWSER.contains(name));

    println!("=== set up ===");
    setup::wasm_target()?;
    let machine = Machine {
        strictness,
        is_named: only.is_some(),
        browser: if needs_browser {
            setup::browser(Engine::Chromium)
        } else {
            Err(anyhow::anyhow!("no section asked for a browser"))
        },
    };

    let mut outcomes = Vec::new();
    for (at, (name, section)) in chosen.iter().enumerate() {
        println!("\n=== {}/{} {name} ===", at + 1, chosen.len());
        let begun = Instant::now();
        let outcome = match blocked(name, &outcomes) {
            Some(outcome) => outcome,
            None => section(&machine).unwrap_or_else(|error| Outcome::Failed(format!("{error:#}"))),
        };
        let outcome = judge(outcome, strictness);
        let took = begun.elapsed().as_secs();
        println!("--- {} ({took} s) ---", describe(name, &outcome));
        outcomes.push((*name, outcome));
    }

    println!("\n=== summary ===");
    for (name, outcome) in &outcomes {
        println!("{}", describe(name, outcome));
    }
    println!("{}", summary(&outcomes));
    let has_failed = outcomes
        .iter()
        .any(|(_, o)| matches!(o, Outcome::Failed(_)));
    Ok(if has_failed {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    })
}

/// A section that would look at a build older than the source has failed already.
fn blocked(name: &str, before: &[(&str, Outcome)]) -> Option<Outcome> {
    let build = before.iter().find(|(name, _)| *name == "build");
    let has_failed = build.is_some_and(|(_, outcome)| *outcome != Outcome::Passed);
    (has_failed && NEED_BUILD.contains(&name))
        .then(|| Outcome::Failed("the release build failed".into()))
}

/// Where the result decides, what did not run has failed.
fn judge(outcome: Outcome, strictness: Strictness) -> Outcome {
    match (outcome, strictness) {
        (Outcome::NotRun(why), Strictness::Ci) => Outcome::Failed(format!("could not run: {why}")),
        (outcome, _) => outcome,
    }
}

fn describe(name: &str, outcome: &Outcome) -> String {
    match outcome {
        Outcome::Passed => format!("{name}: passed"),
        Outcome::Failed(why) => format!("{name}: FAILED: {why}"),
        Outcome::NotRun(why) => format!("{name}: NOT RUN: {why}"),
    }
}

fn summary(outcomes: &[(&str, Outcome)]) -> String {
    let count = |is: fn(&Outcome) -> bool| outcomes.iter().filter(|(_, o)| is(o)).count();
    let passed = count(|o| *o == Outcome::Passed);
    let failed = count(|o| matches!(o, Outcome::Failed(_)));
    match outcomes.len() - passed - failed {
        0 => format!("{passed} passed, {failed} failed"),
        not_run => format!("{passed} passed, {failed} failed, {not_run} NOT RUN"),
    }
}

/// Runs cargo with these words and passes if it ends well.
fn cargo(words: &[&str]) -> Result<Outcome> {
    process::run(process::cargo().args(words))?;
    Ok(Outcome::Passed)
}

fn fmt(_: &Machine) -> Result<Outcome> {
    cargo(&["fmt", "--all", "--check"])
}

fn clippy(_: &Machine) -> Result<Outcome> {
    let mut words = vec!["clippy", "--quiet", "--all-targets"];
    words.extend(HOST);
    words.extend(["--", "-D", "warnings"]);
    cargo(&words)
}

fn clippy_app(_: &Machine) -> Result<Outcome> {
    cargo(&[
        "clippy",
        "--quiet",
        "--all-targets",
        "--package",
        "weekloom-app",
        "--package",
        "weekloom-floor",
        "--target",
        WASM,
        "--",
        "-D",
        "warnings",
    ])
}

/// The tests that need neither wasm nor a browser.
fn host(_: &Machine) -> Result<Outcome> {
    let mut words = vec!["test"];
    words.extend(HOST);
    cargo(&words)
}

fn release_build(machine: &Machine) -> Result<Outcome> {
    let npm = match machine.strictness {
        Strictness::Ci => Npm::Required,
        Strictness::Local => Npm::Wanted,
    };
    build::run(&Options::release(npm))?;
    Ok(Outcome::Passed)
}

fn wasm(machine: &Machine) -> Result<Outcome> {
    let browser = match &machine.browser {
        Ok(browser) => browser,
        Err(error) => return Ok(Outcome::NotRun(format!("{error:#}"))),
    };
    // Cargo compiles the programs of a crate beside its tests.
    let tests = ["test", "--quiet", "--no-run", "--test=golden"];
    process::run(process::cargo().args(tests).args(HOST))?;
    let runner = paths::target()
        .join("debug")
        .join(format!("wasm-test-runner{}", std::env::consts::EXE_SUFFIX));
    let mut command = process::cargo();
    browser
        .pass_to(&mut command)
        .args(["test", "--package", "weekloom-app", "--target", WASM])
        // These do not search: no need to compile the planner as fast code.
        .args([
            "--config",
            "profile.dev.package.weekloom-engine.opt-level=0",
        ])
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner)
        .env(
            "WASM_BINDGEN_TEST_WEBDRIVER_JSON",
            browser.write_capabilities()?,
        );
    process::run(&mut command)?;
    Ok(Outcome::Passed)
}

/// The journeys through one browser: all of them, or those whose names hold one of `only`.
fn journeys(machine: &Machine, browser: &Result<Browser>, only: &[&str]) -> Result<Outcome> {
    let browser = match browser {
        Ok(browser) => browser,
        Err(error) => return Ok(Outcome::NotRun(format!("{error:#}"))),
    };
    ensure!(
        paths::dist().join("index.html").is_file(),
        "nothing is built: run the section `build` first"
    );
    let mut command = process::cargo();
    browser
        .pass_to(&mut command)
        .args(["test", "--test=journeys"])
        .args(HOST)
        .arg("--")
        .args(only)
        .env("WEEKLOOM_DIST", paths::dist());
    // Without npm the journey that needs axe-core says that it did not run.
    if let Some(script) = npm::axe()? {
        command.env("AXE_JS", script);
    }
    if machine.strictness == Strictness::Ci {
        command.env("WEEKLOOM_CI", "1");
    }
    process::run(&mut command)?;
    Ok(Outcome::Passed)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn not_run() -> Outcome {
        Outcome::NotRun("no browser".into())
    }

    #[test]
    fn the_count_never_hides_what_did_not_run() {
        let failed = || Outcome::Failed("x".into());
        let passed = || Outcome::Passed;
        assert_eq!(
            summary(&[("a", passed()), ("b", passed())]),
            "2 passed, 0 failed"
        );
        assert_eq!(
            summary(&[("a", passed()), ("b", failed()), ("c", not_run())]),
            "1 passed, 1 failed, 1 NOT RUN"
        );
    }

    #[test]
    fn where_the_result_decides_not_run_is_failed() {
        assert_eq!(judge(not_run(), Strictness::Local), not_run());
        let judged = judge(not_run(), Strictness::Ci);
        assert!(matches!(judged, Outcome::Failed(_)));
    }

    #[test]
    fn a_failed_build_fails_what_would_look_at_the_old_one() {
        let failed = [("build", Outcome::Failed("x".into()))];
        assert!(matches!(
            blocked("journeys", &failed),
            Some(Outcome::Failed(_))
        ));
        assert_eq!(blocked("wasm", &failed), None);
        assert_eq!(blocked("journeys", &[("build", Outcome::Passed)]), None);
        assert_eq!(blocked("journeys", &[]), None);
    }

    #[test]
    fn an_unknown_section_is_refused() {
        assert!(run(false, Some("no-such-section")).is_err());
    }
}
