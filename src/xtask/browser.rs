//! The browsers of the checks: where they and their drivers are, and how to start them here.

use std::env;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context as _, Result};
use serde_json::json;

use crate::{paths, process, setup};

/// What draws the pages and runs the scripts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    /// Blink and V8.
    Chromium,
    /// Gecko and SpiderMonkey.
    Firefox,
    /// WebKit and JavaScriptCore, in a window of our own.
    WebKit,
}

impl Engine {
    /// Every engine that journeys can be made in.
    pub const ALL: [Self; 3] = [Self::Chromium, Self::Firefox, Self::WebKit];

    /// Its name where one is chosen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        }
    }

    /// The engine of this name. Errors with the names there are.
    pub fn named(name: &str) -> Result<Self> {
        let found = Self::ALL.into_iter().find(|engine| engine.name() == name);
        let names = Self::ALL.map(Self::name).join(", ");
        found.with_context(|| format!("'{name}' is no engine of the journeys: use one of {names}"))
    }

    /// The variable that names a program, and the names it is known by otherwise:
    /// the browser's, then the driver's.
    const fn programs(self) -> [(&'static str, &'static [&'static str]); 2] {
        match self {
            Self::Chromium => [
                (
                    "CHROMIUM",
                    &["chromium", "chromium-browser", "google-chrome"],
                ),
                ("CHROMEDRIVER", &["chromedriver"]),
            ],
            Self::Firefox => [
                ("FIREFOX", &["firefox-esr", "firefox"]),
                ("GECKODRIVER", &["geckodriver"]),
            ],
            // The window is written in the Python that Debian has its library for.
            Self::WebKit => [
                ("WEBKIT_PYTHON", &["/usr/bin/python3"]),
                ("WEBKITDRIVER", &["WebKitWebDriver"]),
            ],
        }
    }

    /// The variables that name its browser and its driver.
    pub const fn variables(self) -> [&'static str; 2] {
        let [(browser, _), (driver, _)] = self.programs();
        [browser, driver]
    }
}

/// A browser and its driver.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Browser {
    /// What it is built on.
    pub engine: Engine,
    /// The browser's program.
    pub program: PathBuf,
    /// The WebDriver program for it.
    pub driver: PathBuf,
}

impl Browser {
    /// Finds both: first where the engine's variables say, then on the search path, the
    /// driver at last among what [`setup`] built.
    pub fn find(engine: Engine) -> Option<Self> {
        let find = |(variable, names): (&str, &[&str])| {
            let named = env::var_os(variable).map(PathBuf::from);
            named
                .filter(|path| path.is_file())
                .or_else(|| process::find(names))
        };
        if engine == Engine::WebKit {
            process::find(&["Xvfb"])?;
        }
        let [program, driver] = engine.programs();
        let built = || setup::geckodriver().ok().filter(|path| path.is_file());
        let built = || (engine == Engine::Firefox).then(built)?;
        Some(Self {
            engine,
            program: find(program)?,
            driver: find(driver).or_else(built)?,
        })
    }

    /// Tells a program that is to be started which browser to take.
    pub fn pass_to<'a>(&self, command: &'a mut Command) -> &'a mut Command {
        let [program, driver] = self.engine.variables();
        command
            .env("WEEKLOOM_ENGINE", self.engine.name())
            .env(program, &self.program)
            .env(driver, &self.driver)
    }

    /// Chromium's flags for a quiet, fresh start without a screen.
    pub fn flags() -> Vec<&'static str> {
        let mut flags = vec![
            "--headless",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--disable-dev-shm-usage",
        ];
        if setup::is_root() {
            // Chromium refuses to start its sandbox as root, as in a container.
            flags.push("--no-sandbox");
        }
        flags
    }

    /// Writes the capabilities file the runner of the wasm tests reads; returns its path.
    pub fn write_capabilities(&self) -> Result<PathBuf> {
        let folder = paths::target().join("xtask");
        fs::create_dir_all(&folder)?;
        let file = folder.join("webdriver.json");
        let capabilities = json!({
            "goog:chromeOptions": { "binary": self.program, "args": Self::flags() }
        });
        fs::write(&file, serde_json::to_vec_pretty(&capabilities)?)?;
        Ok(file)
    }
}
