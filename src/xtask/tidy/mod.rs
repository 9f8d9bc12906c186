//! `cargo xtask tidy`: what a machine can check about the source tree itself.
//!
//! Start at [`RULES`]: one function per rule, each given the whole tree and returning what
//! breaks it. A rule never changes a file.

mod rules;
mod translated;
mod tree;

use anyhow::{Result, bail};

use crate::paths;
pub use tree::Tree;

/// A rule: its one-line statement and its check.
pub type Rule = (&'static str, fn(&Tree) -> Vec<String>);

/// Every rule, in the order they are checked.
pub const RULES: [Rule; 11] = [
    (
        "the top level holds only what the layout lists",
        rules::top_level,
    ),
    (
        "every Rust source opens by saying what it is",
        rules::openings,
    ),
    (
        "the engine has no clock, randomness, I/O, web or hash order",
        rules::engine_is_pure,
    ),
    (
        "engine types are not serialisable",
        rules::engine_has_no_wire_types,
    ),
    (
        "every number of the engine says what it rests on",
        rules::constants_name_their_source,
    ),
    (
        "the page holds no inline script or style",
        rules::page_has_nothing_inline,
    ),
    (
        "storage keys are written in one file",
        rules::storage_keys_in_one_file,
    ),
    (
        "no file names a folder of someone's machine",
        rules::no_machine_paths,
    ),
    (
        "every link to a file leads to one",
        rules::links_lead_somewhere,
    ),
    (
        "the stylesheet lists every file once and none that is missing",
        rules::stylesheet_is_whole,
    ),
    (
        "every text is translated, and every translation has a text",
        translated::words_are_translated,
    ),
];

/// Checks every rule on the checkout; errors with all that is broken.
pub fn run() -> Result<()> {
    let tree = Tree::read(&paths::root())?;
    let mut broken = 0;
    for (statement, check) in RULES {
        let findings = check(&tree);
        if findings.is_empty() {
            println!("  ok: {statement}");
            continue;
        }
        println!("  BROKEN: {statement}");
        for finding in &findings {
            println!("    {finding}");
        }
        broken += findings.len();
    }
    if broken > 0 {
        bail!("{broken} breaches of the tidy rules, listed above");
    }
    Ok(())
}
