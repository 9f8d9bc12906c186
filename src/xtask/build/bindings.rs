//! Compiles the app to a wasm module and generates the script that loads it.
//!
//! The generator is a library in the lock file at the version of the app's own
//! `wasm-bindgen`, so no tool has to be installed and none can drift.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use super::Profile;
use crate::{paths, process};

/// The app before it is named and written.
pub struct App {
    /// The wasm module.
    pub wasm: Vec<u8>,
    /// The JavaScript module whose default export starts it.
    pub glue: String,
}

/// Compiles a program, given as its package and its name, and returns where the module is.
pub fn compile(profile: Profile, (package, program): (&str, &str)) -> Result<PathBuf> {
    compile_target(profile, package, ("--bin", program), "")
}

/// Compiles an example of the app's crate as the app is released and returns where the
/// module is.
pub fn compile_example(name: &str) -> Result<PathBuf> {
    compile_target(
        Profile::Release,
        "weekloom-app",
        ("--example", name),
        "examples",
    )
}

fn compile_target(
    profile: Profile,
    package: &str,
    (kind, name): (&str, &str),
    within: &str,
) -> Result<PathBuf> {
    let mut command = process::cargo();
    command.args(["build", "--package", package, kind, name]);
    command.args(["--target", "wasm32-unknown-unknown"]);
    let folder = match profile {
        Profile::Release => {
            command.arg("--release");
            command.args(["--config", &remap_paths()]);
            "release"
        }
        Profile::Dev => "debug",
    };
    process::run(&mut command)?;
    Ok(paths::target()
        .join("wasm32-unknown-unknown")
        .join(folder)
        .join(within)
        .join(format!("{name}.wasm")))
}

/// Source paths end up in panic messages: without their machine-dependent fronts they are
/// shorter and the same everywhere. Cargo adds these flags to those of its own files.
fn remap_paths() -> String {
    let crates = paths::cargo_home().map(|home| home.join("registry").join("src"));
    let folders = [Some(paths::root()), crates];
    let flags: Vec<String> = folders
        .iter()
        .flatten()
        .map(|folder| format!("'--remap-path-prefix={}='", folder.display()))
        .collect();
    format!(
        "target.wasm32-unknown-unknown.rustflags=[{}]",
        flags.join(",")
    )
}

/// Generates the loading script for a compiled module.
pub fn generate(module: &Path) -> Result<App> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(module)
        .out_name("weekloom")
        .typescript(false)
        // The boot script names the module, which carries a hash.
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true);
    bindgen.web(true)?;
    let mut output = bindgen
        .generate_output()
        .context("could not generate the bindings")?;
    let has_inline = output.snippets().values().any(|list| !list.is_empty());
    if has_inline || !output.local_modules().is_empty() {
        bail!(
            "the app or a crate it uses carries JavaScript of its own, which the build does not hash"
        );
    }
    let glue = output.js().to_owned();
    let wasm = output.wasm_mut().emit_wasm();
    Ok(App { wasm, glue })
}
