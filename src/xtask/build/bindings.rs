//! Compiles the app to a wasm module and generates the script that loads it.
//!
//! The generator is a library in the lock file at the version of the app's own
//! `wasm-bindgen`, so no tool has to be installed and none can drift.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, bail, ensure};
use wasm_bindgen_cli_support::Bindgen;

use super::Profile;
use crate::{paths, process};

/// The app before it is named and written.
pub struct App {
    /// The wasm module that starts.
    pub wasm: Vec<u8>,
    /// The JavaScript module whose default export starts it.
    pub glue: String,
    /// The wasm modules that the glue fetches when they are needed.
    pub parts: Vec<Part>,
}

/// A wasm module that is fetched when it is needed.
pub struct Part {
    /// The name of its file, as the glue spells it.
    pub file: String,
    /// The module.
    pub wasm: Vec<u8>,
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

/// Generates the loading script for a compiled module that is all of one piece.
pub fn generate(module: &Path) -> Result<App> {
    let (wasm, glue) = bind(module)?;
    Ok(App {
        wasm,
        glue,
        parts: Vec::new(),
    })
}

/// Cuts a compiled module where its source says so, then generates the loading script.
/// The module must hold its relocations, and it must name at least one cut.
pub fn generate_in_parts(module: &Path) -> Result<App> {
    let whole = fs::read(module).with_context(|| format!("could not read {}", module.display()))?;
    let folder = paths::target().join("xtask").join("parts");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    let start = folder.join("start.wasm");
    let mut options = wasm_split_cli_support::Options::new(&whole);
    options.output_dir = &folder;
    options.main_out_path = &start;
    options.link_name = LINK;
    let cut = wasm_split_cli_support::transform(options)
        .map_err(|error| anyhow!("could not cut the module: {error:#}"))?;

    let (wasm, glue) = bind(&start)?;
    let link = fs::read_to_string(folder.join(LINK))?;
    let mut files = cut.split_modules;
    files.sort();
    let mut parts = Vec::new();
    for path in files {
        let file = path.file_name().context("a part without a name")?;
        parts.push(Part {
            file: file.to_string_lossy().into_owned(),
            wasm: fs::read(&path)?,
        });
    }
    ensure!(!parts.is_empty(), "the app names no place to cut it");
    Ok(App {
        wasm,
        glue: with_link(&glue, &link)?,
        parts,
    })
}

/// The module that fetches the parts, as the generator calls it.
const LINK: &str = "./weekloom-parts.js";

/// Puts the code that fetches the parts into the glue. As a module of its own it and the
/// glue would import each other, and each would carry the hash of the other in its name.
fn with_link(glue: &str, link: &str) -> Result<String> {
    let import = glue
        .lines()
        .find(|line| line.starts_with("import ") && line.contains(LINK))
        .context("the glue does not import what fetches the parts")?;
    let name = import
        .strip_prefix("import * as ")
        .and_then(|rest| rest.split_once(" from "))
        .with_context(|| format!("an import of another form: {import}"))?
        .0;
    let mut exported = Vec::new();
    let mut body = String::new();
    for line in link.lines() {
        // What it would import stands in the same file now.
        if line.starts_with("import { initSync }") {
            continue;
        }
        match line.strip_prefix("export const ") {
            Some(rest) => {
                let (export, _) = rest.split_once(" =").context("an export without a value")?;
                exported.push(export);
                body.push_str("const ");
                body.push_str(rest);
            }
            None => body.push_str(line),
        }
        body.push('\n');
    }
    ensure!(
        !exported.is_empty() && !body.contains("import {") && !body.contains("export "),
        "the code that fetches the parts has another form than expected"
    );
    let list = exported.join(", ");
    let inline = format!("const {name} = (() => {{\n{body}return {{ {list} }};\n}})();");
    Ok(glue.replacen(import, &inline, 1))
}

fn bind(module: &Path) -> Result<(Vec<u8>, String)> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(module)
        .out_name("weekloom")
        .typescript(false)
        // The boot script names the module, which carries a hash.
        .omit_default_module_path(true)
        // The parts share the stack and the table of functions with what starts.
        .keep_lld_exports(true)
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
    Ok((output.wasm_mut().emit_wasm(), glue))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fetches_the_parts_moves_into_the_glue() {
        let glue = "import * as star0 from './weekloom-parts.js'\nexport { initSync };\n";
        let link = "import { initSync } from \"./main.js\";\n\nconst a = 1;\nexport const load = wrap(a);\n";
        assert_eq!(
            with_link(glue, link).unwrap(),
            "const star0 = (() => {\n\nconst a = 1;\nconst load = wrap(a);\nreturn { load };\n})();\nexport { initSync };\n"
        );
        assert!(with_link("let a;", link).is_err());
        assert!(with_link(glue, "const a = 1;").is_err());
    }
}
