//! Tools from npm, at exact versions, in the user's cache folder.
//!
//! Those of the build only make the result smaller: without npm the build goes on, and
//! says so. axe-core checks the screens in the journeys. None is ever written to the
//! checkout.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};

use crate::{paths, process};

/// A package with its exact version. None of those used draws in another package of a
/// floating version, so the same list is the same tools.
type Package = (&'static str, &'static str);

/// The tools of the build.
const BUILD: [Package; 2] = [("binaryen", "132.0.0"), ("esbuild", "0.28.2")];
/// The checker of accessibility.
const AXE: [Package; 1] = [("axe-core", "4.14.1")];

/// The installed tools.
pub struct Tools {
    folder: PathBuf,
}

impl Tools {
    /// Finds the tools in the cache or installs them. `None` when there is no npm; errors
    /// when npm is there but cannot install them.
    pub fn ready() -> Result<Option<Self>> {
        let Some(folder) = installed(&BUILD, "node_modules/.bin")? else {
            return Ok(None);
        };
        Ok(process::find(&["node", "node.exe"]).map(|_| Self { folder }))
    }

    /// Shrinks a wasm module for size.
    ///
    /// No feature flag is given: the module lists the features it uses in a section of
    /// its own. Flags that allow more have yielded an app that dies at its start.
    ///
    /// `-Os` comes out smaller than `-Oz` once compressed, and a pass that follows what
    /// values can be, then the same again, takes a little more (222.6 KB to 220.2 KB of
    /// brotli). Nothing lives in the lowest kilobyte of memory, which lets addresses be
    /// folded: the stack is laid out first and grows down to zero, so only a stack that is
    /// about to overflow gets there.
    pub fn shrink_wasm(&self, wasm: &[u8]) -> Result<Vec<u8>> {
        let work = paths::target().join("xtask");
        fs::create_dir_all(&work)?;
        let (from, to) = (work.join("before.wasm"), work.join("after.wasm"));
        fs::write(&from, wasm)?;
        let mut command = self.tool("wasm-opt");
        process::output(
            command
                .args(["-Os", "--low-memory-unused", "--gufa", "-Os"])
                .arg(&from)
                .arg("-o")
                .arg(&to),
        )?;
        fs::read(&to).with_context(|| format!("could not read {}", to.display()))
    }

    /// Minifies a script or a stylesheet. `extension` is `js` or `css`.
    pub fn minify(&self, text: &str, extension: &str) -> Result<String> {
        let work = paths::target().join("xtask");
        fs::create_dir_all(&work)?;
        let from = work.join(format!("before.{extension}"));
        fs::write(&from, text)?;
        let mut command = self.tool("esbuild");
        process::output(
            command
                .args(["--minify", "--target=esnext", "--charset=utf8"])
                .args(["--log-level=warning", "--legal-comments=none"])
                .arg(&from),
        )
    }

    fn tool(&self, name: &str) -> Command {
        Command::new(self.folder.join("node_modules/.bin").join(name))
    }
}

/// The script of axe-core, from the cache or installed. `None` when there is no npm.
pub fn axe() -> Result<Option<PathBuf>> {
    let script = "node_modules/axe-core/axe.min.js";
    Ok(installed(&AXE, script)?.map(|folder| folder.join(script)))
}

/// The folder that holds these packages, installed if `witness` is not in it.
fn installed(packages: &[Package], witness: &str) -> Result<Option<PathBuf>> {
    let name: Vec<String> = packages.iter().map(|(n, v)| format!("{n}-{v}")).collect();
    let folder = paths::cache()?.join(format!("npm-{}", name.join("-")));
    if !folder.join(witness).exists() {
        let Some(npm) = process::find(&["npm", "npm.cmd"]) else {
            return Ok(None);
        };
        install(&npm, packages, &folder, witness)?;
    }
    Ok(Some(folder))
}

/// Installs beside the final place and renames, so that a broken-off install is never
/// taken for a whole one.
fn install(npm: &Path, packages: &[Package], folder: &Path, witness: &str) -> Result<()> {
    let partial = paths::cache()?.join(format!("partial-{}", std::process::id()));
    fs::create_dir_all(&partial)
        .with_context(|| format!("could not make {}", partial.display()))?;
    fs::write(partial.join("package.json"), "{\"private\":true}\n")?;
    let packages = packages
        .iter()
        .map(|(name, version)| format!("{name}@{version}"));
    process::output(
        Command::new(npm)
            .args(["install", "--no-audit", "--no-fund", "--save-exact"])
            .args(packages)
            .current_dir(&partial),
    )?;
    if fs::rename(&partial, folder).is_err() {
        // Another build finished first, or left an unusable folder behind.
        fs::remove_dir_all(&partial)?;
        anyhow::ensure!(
            folder.join(witness).exists(),
            "{} is not whole: delete it and try again",
            folder.display()
        );
    }
    Ok(())
}
