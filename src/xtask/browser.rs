//! The browser of the checks: where Chromium and its driver are, and how to start them here.

use std::env;
use std::fs;
use std::path::PathBuf;

use anyhow::Result;
use serde_json::json;

use crate::{paths, process, setup};

/// Chromium and its driver.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Browser {
    /// The browser's program.
    pub chromium: PathBuf,
    /// The WebDriver program of the same version.
    pub chromedriver: PathBuf,
}

impl Browser {
    /// Finds both: first where CHROMIUM and CHROMEDRIVER say, then on the search path.
    pub fn find() -> Option<Self> {
        let find = |variable: &str, names: &[&str]| {
            let named = env::var_os(variable).map(PathBuf::from);
            named
                .filter(|path| path.is_file())
                .or_else(|| process::find(names))
        };
        Some(Self {
            chromium: find(
                "CHROMIUM",
                &["chromium", "chromium-browser", "google-chrome"],
            )?,
            chromedriver: find("CHROMEDRIVER", &["chromedriver"])?,
        })
    }

    /// The flags for a quiet, fresh start without a screen.
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
            "goog:chromeOptions": { "binary": self.chromium, "args": Self::flags() }
        });
        fs::write(&file, serde_json::to_vec_pretty(&capabilities)?)?;
        Ok(file)
    }
}
