//! What is measured in a browser, by the program `measure` of the journeys' crate.
//!
//! It is started as a program of its own because the journeys stand on this crate.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use serde_json::Value;

use crate::browser::{Browser, Engine};
use crate::build::{self, Npm, Options};
use crate::{paths, process, setup};

/// The first visit and the start without a net, beside the floor app, which is built here.
pub fn start(rounds: u32) -> Result<Value> {
    build::run(&Options::release(Npm::Required))?;
    let floor = Options::floor(Npm::Required);
    build::run(&floor)?;
    measure(
        None,
        "start",
        &[floor.out.as_os_str().to_string_lossy().as_ref()],
        rounds,
    )
}

/// The start and a set logged on top of years of logs.
pub fn years(rounds: u32) -> Result<Value> {
    build::run(&Options::release(Npm::Required))?;
    measure(None, "years", &[], rounds)
}

/// The browser killed so often while sets are logged. Errors when a set that was
/// acknowledged is lost, or one is there twice.
pub fn torture(engine: Engine, kills: u32, seed: u32) -> Result<Value> {
    build::run(&Options::release(Npm::Required))?;
    let browser = setup::browser(engine)?;
    let tally = measure(Some(&browser), "torture", &[&kills.to_string()], seed)?;
    ensure!(
        tally["lost"] == 0 && tally["doubled"] == 0,
        "sets were lost or doubled: {tally}"
    );
    Ok(tally)
}

/// A picture of every screen of the built app; the folder they are in.
pub fn gallery() -> Result<()> {
    build::run(&Options::release(Npm::Wanted))?;
    let folder = paths::target().join("gallery");
    let told = measure(None, "gallery", &[folder.to_string_lossy().as_ref()], 1)?;
    println!("{told} in {}", folder.display());
    Ok(())
}

/// Runs one measure, in Chromium unless another browser is given.
fn measure(browser: Option<&Browser>, name: &str, words: &[&str], last: u32) -> Result<Value> {
    let folder = paths::target().join("bench");
    fs::create_dir_all(&folder)?;
    let file = folder.join(format!("{name}.json"));
    let mut command = process::cargo();
    command
        .args([
            "run",
            "--package",
            "weekloom-tests",
            "--bin",
            "measure",
            "--",
            name,
        ])
        .arg(&file)
        .args(words)
        .arg(last.to_string())
        .env("WEEKLOOM_DIST", paths::dist())
        // What cannot run is no figure.
        .env("WEEKLOOM_CI", "1");
    if let Some(browser) = browser {
        browser.pass_to(&mut command);
    }
    process::run(&mut command)?;
    read(&file)
}

fn read(file: &Path) -> Result<Value> {
    let text = fs::read_to_string(file).with_context(|| format!("no {}", file.display()))?;
    serde_json::from_str(&text).with_context(|| format!("{} is not JSON", file.display()))
}
