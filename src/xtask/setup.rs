//! What the machine must have, and how to get it: the Rust target and, for the browser
//! checks, browsers with their drivers. Says each thing it installs; never asks for a password.

use std::path::PathBuf;
use std::process::{Command, Stdio};

use anyhow::{Context, Result};

use crate::browser::{Browser, Engine};
use crate::{paths, process};

const TARGET: &str = "wasm32-unknown-unknown";
/// The driver for Firefox, which Debian has no package of.
const GECKODRIVER: &str = "0.37.1";

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

/// The packages of Debian that hold an engine's browser, and its driver if there is one.
const fn packages(engine: Engine) -> &'static [&'static str] {
    match engine {
        Engine::Chromium => &["chromium", "chromium-driver"],
        Engine::Firefox => &["firefox-esr"],
        Engine::WebKit => &[
            "webkit2gtk-driver",
            "gir1.2-webkit2-4.1",
            "python3-gi",
            "xvfb",
        ],
    }
}

/// Where cargo puts the driver for Firefox.
pub fn geckodriver() -> Result<PathBuf> {
    let name = format!("geckodriver{}", std::env::consts::EXE_SUFFIX);
    Ok(geckodriver_root()?.join("bin").join(name))
}

fn geckodriver_root() -> Result<PathBuf> {
    Ok(paths::cache()?.join(format!("geckodriver-{GECKODRIVER}")))
}

/// Finds a browser and its driver, installing them where that needs no password.
///
/// `Err` holds one sentence that says what is missing and what to type.
pub fn browser(engine: Engine) -> Result<Browser> {
    if let Some(browser) = Browser::find(engine) {
        return Ok(browser);
    }
    let [browser, driver] = engine.variables();
    if engine == Engine::Firefox && process::find(&["geckodriver"]).is_none() {
        println!("        building geckodriver {GECKODRIVER}, once: about a minute");
        let root = geckodriver_root()?;
        process::run(
            process::cargo()
                .args(["install", "--quiet", "--locked", "geckodriver"])
                .args(["--version", GECKODRIVER, "--root"])
                .arg(root),
        )?;
    }
    if Browser::find(engine).is_none() {
        install(packages(engine))?;
    }
    Browser::find(engine).with_context(|| {
        format!(
            "{} or its driver was not found: type `sudo {}`, or set {browser} and {driver} to their paths",
            engine.name(),
            typed(packages(engine)),
        )
    })
}

fn typed(packages: &[&str]) -> String {
    format!("apt-get install -y {}", packages.join(" "))
}

/// Installs packages, if that can be done here without a password.
fn install(packages: &[&str]) -> Result<()> {
    if process::find(&["apt-get"]).is_none() {
        return Ok(());
    }
    let Some(front) = without_password() else {
        return Ok(());
    };
    println!("        installing: {}", typed(packages));
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
    let words = ["apt-get", "install", "-y", "-qq", "--no-install-recommends"];
    call(&[&words[..], packages].concat())
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
