//! What the machine must have, and how to get it: the Rust target and, for the browser
//! checks, Chromium with its driver. Says each thing it installs; never asks for a password.

use std::process::{Command, Stdio};

use anyhow::{Context, Result};

use crate::browser::Browser;
use crate::{paths, process};

const TARGET: &str = "wasm32-unknown-unknown";
const PACKAGES: [&str; 2] = ["chromium", "chromium-driver"];

/// Adds the Rust target for wasm if it is missing.
pub fn wasm_target() -> Result<()> {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let mut ask = Command::new(rustc);
    // In the checkout, so that a pinned toolchain is the one asked.
    ask.args(["--print", "target-libdir", "--target", TARGET])
        .current_dir(paths::root());
    let folder = process::output(&mut ask)?;
    if std::path::Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    println!("        adding the Rust target {TARGET}");
    let mut add = Command::new("rustup");
    add.args(["target", "add", TARGET])
        .current_dir(paths::root());
    process::run(&mut add).with_context(|| {
        format!("the Rust target {TARGET} is missing: install rustup, or the target by your system's means")
    })
}

/// Finds Chromium and its driver, installing them where that needs no password.
///
/// `Err` holds one sentence that says what is missing and what to type.
pub fn browser() -> Result<Browser> {
    if let Some(browser) = Browser::find() {
        return Ok(browser);
    }
    let typed = format!("apt-get install -y {}", PACKAGES.join(" "));
    if process::find(&["apt-get"]).is_some()
        && let Some(front) = without_password()
    {
        println!("        installing: {typed}");
        let call = |words: &[&str]| {
            let all: Vec<&str> = front.iter().copied().chain(words.iter().copied()).collect();
            process::run(
                Command::new(all[0])
                    .args(&all[1..])
                    .env("DEBIAN_FRONTEND", "noninteractive"),
            )
        };
        // A stale list of packages is the usual cause of a failed install.
        call(&["apt-get", "update", "-qq"]).ok();
        let install = ["apt-get", "install", "-y", "-qq", "--no-install-recommends"];
        call(&[&install[..], &PACKAGES[..]].concat())?;
    }
    Browser::find().with_context(|| {
        format!("Chromium or its driver was not found: type `sudo {typed}`, or set CHROMIUM and CHROMEDRIVER to their paths")
    })
}

/// The words in front of a command that make it run as the system's owner without a
/// password; `None` when there are none.
fn without_password() -> Option<Vec<&'static str>> {
    if is_root() {
        return Some(Vec::new());
    }
    let mut test = Command::new("sudo");
    test.args(["-n", "true"])
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    let may = test.status().is_ok_and(|status| status.success());
    may.then(|| vec!["sudo", "-n"])
}

/// Does this program run as the system's owner?
pub fn is_root() -> bool {
    process::output(Command::new("id").arg("-u")).is_ok_and(|id| id.trim() == "0")
}
