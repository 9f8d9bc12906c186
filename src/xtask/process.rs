//! Calls other programs and says plainly which one failed.

use std::env;
use std::ffi::OsStr;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

use crate::paths;

/// The cargo that called this program, working in the checkout.
pub fn cargo() -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command
        .current_dir(paths::root())
        .env("CARGO_TARGET_DIR", paths::target());
    command
}

/// Runs a program whose output goes to the screen. Errors unless it ends well.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command
        .status()
        .with_context(|| format!("could not start {}", describe(command)))?;
    if !status.success() {
        bail!("{} failed ({status})", describe(command));
    }
    Ok(())
}

/// Runs a program and returns what it wrote. Errors unless it ends well, and then quotes
/// what the program complained about.
pub fn output(command: &mut Command) -> Result<String> {
    let output = command
        .stdin(Stdio::null())
        .output()
        .with_context(|| format!("could not start {}", describe(command)))?;
    if !output.status.success() {
        bail!(
            "{} failed ({})\n{}{}",
            describe(command),
            output.status,
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        );
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The first of these programs found on the search path.
pub fn find(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    names.iter().find_map(|name| {
        env::split_paths(&path)
            .map(|dir| dir.join(name))
            .find(|file| file.is_file())
    })
}

fn describe(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    let words: Vec<_> = words.map(OsStr::to_string_lossy).collect();
    format!("`{}`", words.join(" "))
}
