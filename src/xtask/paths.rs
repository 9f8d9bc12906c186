//! Where things are: the checkout, cargo's target folder, the user's cache folder.

use std::env;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// The top of the checkout this program was compiled from.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .ancestors()
        .nth(2)
        .expect("src/xtask lies two folders below the top")
        .to_path_buf()
}

/// Cargo's target folder, as the environment or the default has it.
pub fn target() -> PathBuf {
    match env::var_os("CARGO_TARGET_DIR") {
        // A relative folder is relative to where cargo was called, which is where we run.
        Some(dir) => std::path::absolute(&dir).unwrap_or_else(|_| PathBuf::from(dir)),
        None => root().join("target"),
    }
}

/// The folder a build is written to unless another is named.
pub fn dist() -> PathBuf {
    root().join("dist")
}

/// Weekloom's own folder below the user's cache folder; tools from npm live there, never
/// in the checkout.
pub fn cache() -> Result<PathBuf> {
    let set = |name| env::var_os(name).filter(|value| !value.is_empty());
    let base = match set("XDG_CACHE_HOME") {
        Some(dir) => PathBuf::from(dir),
        None => PathBuf::from(
            set("HOME")
                .or_else(|| set("LOCALAPPDATA"))
                .context("neither XDG_CACHE_HOME nor HOME is set: set one of them")?,
        )
        .join(".cache"),
    };
    Ok(base.join("weekloom"))
}

/// Cargo's own folder, which holds the sources of the crates.
pub fn cargo_home() -> Option<PathBuf> {
    env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| {
        let home = env::var_os("HOME").or_else(|| env::var_os("USERPROFILE"))?;
        Some(PathBuf::from(home).join(".cargo"))
    })
}
