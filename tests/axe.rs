//! axe-core, injected into the page.
//!
//! `cargo xtask test` names its file in AXE_JS; otherwise it is looked for in the cache
//! where xtask keeps the tools from npm.

use std::fs;
use std::path::PathBuf;

use serde_json::{Value, json};

use crate::browser::Page;

/// WCAG 2.0, 2.1 and 2.2, levels A and AA. `target-size` is off unless 2.2 is named.
const TAGS: [&str; 5] = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/// The checker's source text.
pub struct Axe(String);

impl Axe {
    /// Finds axe-core. Errors with one sentence on where it was looked for.
    pub fn find() -> Result<Self, String> {
        let path = match std::env::var_os("AXE_JS") {
            Some(path) => PathBuf::from(path),
            None => cached().ok_or("axe-core 4.14 is neither named by AXE_JS nor in the cache: use `cargo xtask test`, which needs npm")?,
        };
        fs::read_to_string(&path)
            .map(Self)
            .map_err(|error| format!("AXE_JS is {}: {error}", path.display()))
    }

    /// Puts the checker into the page just loaded.
    pub async fn inject(&self, page: &Page) {
        let has = page.script("return typeof axe === 'object'", vec![]).await;
        if has != true {
            page.script(&format!("{}\n//", self.0), vec![]).await;
        }
    }

    /// What the page as it stands violates, one line each: rule, element, what to mend.
    pub async fn violations(&self, page: &Page) -> Vec<String> {
        let script = "const done = arguments[arguments.length - 1];
            axe.run(document, { runOnly: { type: 'tag', values: arguments[0] },
                resultTypes: ['violations'] })
            .then((found) => done({ violations: found.violations, passes: found.passes.length }),
                (error) => done(String(error)))";
        let found = page
            .client()
            .execute_async(script, vec![json!(TAGS)])
            .await
            .expect("axe runs");
        let passes = found["passes"].as_u64().unwrap_or(0);
        assert!(passes > 5, "axe looked at next to nothing: {found}");
        let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
        let mut lines = Vec::new();
        for violation in list(&found["violations"]) {
            for node in list(&violation["nodes"]) {
                lines.push(format!(
                    "{}: {}: {}",
                    violation["id"].as_str().unwrap_or_default(),
                    node["target"],
                    node["failureSummary"]
                        .as_str()
                        .unwrap_or_default()
                        .replace('\n', " ")
                ));
            }
        }
        lines
    }
}

fn cached() -> Option<PathBuf> {
    let folders = fs::read_dir(xtask::paths::cache().ok()?).ok()?;
    folders
        .filter_map(Result::ok)
        .filter(|folder| {
            folder
                .file_name()
                .to_string_lossy()
                .contains("axe-core-4.14")
        })
        .map(|folder| folder.path().join("node_modules/axe-core/axe.min.js"))
        .find(|file| file.is_file())
}
