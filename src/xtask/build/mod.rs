//! `cargo xtask build`: writes `dist/`, the whole app as static files.
//!
//! Everything is made in memory first and written at the end, so a failed build leaves the
//! old one whole. Names of files that may change carry a hash of their final bytes; every
//! address is relative, so the folder works under any path. The same input gives the same
//! bytes: no time, no machine path and no unordered list gets into a file.

mod bindings;
mod compress;
mod headers;
mod manifest;
mod names;
mod numbers;
mod page;
mod stylesheet;
mod worker;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::arguments::Arguments;
use crate::npm::Tools;
use crate::progress::Progress;
use crate::{languages, paths, setup};

pub use headers::{CONTENT_SECURITY_POLICY, Rule, parse as parse_headers};
pub use names::{is_first_load, part_of};
pub use stylesheet::parse_import;

/// The files of a build by their path below `dist/`, with `/` between folders.
pub type Files = BTreeMap<String, Vec<u8>>;

/// How to build.
pub struct Options {
    /// How much work goes into a small result.
    pub profile: Profile,
    /// What happens where npm is missing.
    pub npm: Npm,
    /// The folder written to.
    pub out: PathBuf,
    /// What is put into the page: a package and its program.
    program: (&'static str, &'static str),
}

/// The app.
const APP: (&str, &str) = ("weekloom-app", "weekloom");
/// The smallest program of the same framework.
const FLOOR: (&str, &str) = ("weekloom-floor", "weekloom-floor");

/// How much work goes into a small result.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Profile {
    /// Small and fast, for users.
    Release,
    /// Quick to make; large and slow.
    Dev,
}

/// What happens where npm is missing or fails.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Npm {
    /// The build goes on with a larger result, and says so.
    Wanted,
    /// The build fails.
    Required,
}

impl Options {
    /// A release build into `dist/`.
    pub fn release(npm: Npm) -> Self {
        Self {
            profile: Profile::Release,
            npm,
            out: paths::dist(),
            program: APP,
        }
    }

    /// The smallest program of the same framework in the app's own page, to measure
    /// against; in cargo's target folder.
    pub fn floor(npm: Npm) -> Self {
        Self {
            profile: Profile::Release,
            npm,
            out: paths::target().join("bench").join("floor"),
            program: FLOOR,
        }
    }

    /// Reads `--dev`, `--strict` and `--out`.
    pub fn from_arguments(arguments: &mut Arguments) -> Result<Self> {
        let dev = arguments.flag("--dev");
        let strict = arguments.flag("--strict");
        let out = arguments.value("--out")?;
        Ok(Self {
            profile: if dev { Profile::Dev } else { Profile::Release },
            npm: if strict { Npm::Required } else { Npm::Wanted },
            out: out.map_or_else(paths::dist, PathBuf::from),
            program: APP,
        })
    }
}

/// The steps a build reports.
pub const STEPS: usize = 6;

/// Builds and writes everything, reporting on its own.
pub fn run(options: &Options) -> Result<()> {
    run_within(options, &mut Progress::new(STEPS))
}

/// Builds and writes everything as [`STEPS`] steps of a longer command.
pub fn run_within(options: &Options, progress: &mut Progress) -> Result<()> {
    progress.step("Rust target for wasm");
    setup::wasm_target()?;

    progress.step("tools from npm (wasm-opt, a minifier), kept in the user's cache folder");
    let tools = match options.profile {
        Profile::Release => tools(options.npm, progress)?,
        Profile::Dev => None,
    };

    progress.step("compile the app (the first time takes minutes)");
    let module = bindings::compile(options.profile, options.program)?;

    progress.step("bindings and wasm-opt");
    let mut app = if options.program == APP {
        bindings::generate_in_parts(&module)?
    } else {
        bindings::generate(&module)?
    };
    if let Some(tools) = &tools {
        app.wasm = tools.shrink_wasm(&app.wasm)?;
        for part in &mut app.parts {
            part.wasm = tools.shrink_wasm(&part.wasm)?;
        }
        app.glue = tools.minify(&app.glue, "js")?;
    }

    progress.step("page, styles, worker");
    let policy = match options.program {
        FLOOR => headers::without_trusted_types(),
        _ => CONTENT_SECURITY_POLICY,
    };
    let mut files = assemble(&paths::root(), app, tools.as_ref(), policy)?;

    progress.step("compressed copies");
    compress::add_copies(&mut files, options.profile);
    write(&options.out, &files)?;

    let first_load = |(path, _): &(&String, &Vec<u8>)| is_first_load(path);
    let raw: usize = files.iter().filter(first_load).map(|f| f.1.len()).sum();
    progress.note(&format!(
        "{}: {} files, first load {} bytes",
        options.out.display(),
        files.len(),
        raw
    ));
    Ok(())
}

/// Compiles an example of the app's crate as the app is and writes its module and script,
/// `weekloom.wasm` and `weekloom.js`, into a folder.
pub fn measured_page(example: &str, folder: &Path) -> Result<()> {
    let mut app = bindings::generate(&bindings::compile_example(example)?)?;
    let tools =
        Tools::ready()?.context("npm or node was not found: a page is measured as released")?;
    app.wasm = tools.shrink_wasm(&app.wasm)?;
    fs::write(folder.join("weekloom.wasm"), app.wasm)?;
    fs::write(folder.join("weekloom.js"), app.glue)?;
    Ok(())
}

fn tools(npm: Npm, progress: &Progress) -> Result<Option<Tools>> {
    let lacking = match Tools::ready() {
        Ok(Some(tools)) => return Ok(Some(tools)),
        Ok(None) => anyhow::anyhow!("npm or node was not found"),
        Err(error) => error,
    };
    match npm {
        Npm::Required => {
            Err(lacking.context("the small build needs npm and node (Node 18 or newer)"))
        }
        Npm::Wanted => {
            progress.note(&format!(
                "NOT DONE: {lacking:#}. The build goes on without wasm-opt; the result is larger."
            ));
            Ok(None)
        }
    }
}

/// Puts the files together in the order in which their names depend on one another:
/// module, glue, boot script and styles, page, worker.
fn assemble(root: &Path, app: bindings::App, tools: Option<&Tools>, policy: &str) -> Result<Files> {
    let public = root.join("public");
    let minify = |text: String, extension| match tools {
        Some(tools) => tools.minify(&text, extension),
        None => Ok(text),
    };
    let mut files = Files::new();

    let wasm = names::add(&mut files, "weekloom", "wasm", app.wasm);
    let mut glue = app.glue;
    for part in app.parts {
        let name = names::add(&mut files, "part", "wasm", part.wasm);
        anyhow::ensure!(
            glue.contains(&part.file),
            "the glue does not name {}",
            part.file
        );
        glue = glue.replace(&part.file, names::file(&name));
    }
    let glue = names::add(&mut files, "weekloom", "js", glue.into_bytes());
    let styles = minify(stylesheet::join(&root.join("style"))?, "css")?;
    let styles = names::add(&mut files, "style", "css", styles.into_bytes());
    let words = words(root, &mut files)?;
    let boot = page::fill(
        &read(&public.join("boot.js"))?,
        &[
            ("glue", names::file(&glue)),
            ("wasm", names::file(&wasm)),
            ("words", &words),
            ("language", weekloom_store::CHOSEN_LANGUAGE),
            ("forms", weekloom_store::KEPT_FORMS),
        ],
    )?;
    let boot = names::add(&mut files, "boot", "js", minify(boot, "js")?.into_bytes());

    let index = page::fill(
        &read(&root.join("index.html"))?,
        &[
            ("csp", policy),
            ("styles", &styles),
            ("boot", &boot),
            ("glue", &glue),
            ("wasm", &wasm),
        ],
    )?;
    files.insert("index.html".into(), index.into_bytes());
    let (contents, numbers) = numbers::page(root)?;
    let numbers = page::fill(
        &read(&public.join("numbers.html"))?,
        &[
            ("csp", policy),
            ("styles", &styles),
            ("contents", &contents),
            ("numbers", &numbers),
        ],
    )?;
    files.insert(numbers::NAME.into(), numbers.into_bytes());

    add_folder(&mut files, &public, &public)?;
    for template in ["boot.js", "numbers.html"] {
        files.remove(template);
    }
    let template = files.remove("sw.js").context("public/sw.js is missing")?;
    manifest::check(&files)?;

    let template = String::from_utf8(template).context("public/sw.js is not UTF-8")?;
    let worker = minify(worker::stamp(&template, &files)?, "js")?;
    files.insert("sw.js".into(), worker.into_bytes());
    files.insert("_headers".into(), headers::text(policy).into_bytes());
    Ok(files)
}

/// Adds the words of each language but English; returns the names of their files by
/// language, as an object of the boot script.
fn words(root: &Path, files: &mut Files) -> Result<String> {
    let mut named = BTreeMap::new();
    for language in languages::all(root)? {
        let name = format!("words-{}", language.tag);
        let name = names::add(files, &name, "txt", language.packed().into_bytes());
        named.insert(language.tag, names::file(&name).to_owned());
    }
    Ok(serde_json::to_string(&named)?)
}

/// Adds every file below `folder` under its path from `base`.
pub(crate) fn add_folder(files: &mut Files, base: &Path, folder: &Path) -> Result<()> {
    let entries =
        fs::read_dir(folder).with_context(|| format!("could not list {}", folder.display()))?;
    for entry in entries {
        let path = entry?.path();
        if path.is_dir() {
            add_folder(files, base, &path)?;
            continue;
        }
        let name = path
            .strip_prefix(base)?
            .to_string_lossy()
            .replace('\\', "/");
        let bytes =
            fs::read(&path).with_context(|| format!("could not read {}", path.display()))?;
        files.insert(name, bytes);
    }
    Ok(())
}

fn read(path: &Path) -> Result<String> {
    fs::read_to_string(path).with_context(|| format!("could not read {}", path.display()))
}

/// Writes the files and removes whatever an older build left. The page and the worker come
/// last: until then the old ones are complete.
fn write(out: &Path, files: &Files) -> Result<()> {
    if out.is_dir() && fs::read_dir(out)?.next().is_some() && !out.join("sw.js").is_file() {
        bail!(
            "{} holds something else than a build; name an empty folder",
            out.display()
        );
    }
    let is_entry = |name: &str| name.starts_with("index.html") || name.starts_with("sw.js");
    let (entries, others): (Vec<_>, Vec<_>) = files.iter().partition(|(name, _)| is_entry(name));
    for (name, bytes) in others.into_iter().chain(entries) {
        let path = out.join(name);
        fs::create_dir_all(path.parent().unwrap_or(out))?;
        fs::write(&path, bytes).with_context(|| format!("could not write {}", path.display()))?;
    }
    let mut present = Files::new();
    add_folder(&mut present, out, out)?;
    for name in present.keys().filter(|name| !files.contains_key(*name)) {
        fs::remove_file(out.join(name))?;
    }
    Ok(())
}
