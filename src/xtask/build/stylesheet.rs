//! Joins the files `style/main.css` imports into one stylesheet, in the order it lists.
//!
//! `main.css` holds the layer order, comments and lines such as
//! `@import "./tokens.css" layer(tokens);` or `@import "./base.css";` and nothing else that
//! comes after an import. An imported file imports nothing itself.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

/// One `@import` line.
#[derive(Debug, PartialEq, Eq)]
pub struct Import {
    /// The path as written, relative to `style/`, without a leading `./`.
    pub path: String,
    /// The cascade layer, where the line names one.
    pub layer: Option<String>,
}

/// Joins the stylesheet in a folder.
pub fn join(folder: &Path) -> Result<String> {
    let read = |name: &str| {
        let path = folder.join(name);
        fs::read_to_string(&path).with_context(|| format!("could not read {}", path.display()))
    };
    let mut joined = String::new();
    for line in read("main.css")?.lines() {
        let Some(import) = parse_import(line)? else {
            joined.push_str(line);
            joined.push('\n');
            continue;
        };
        let text = read(&import.path)?;
        if text
            .lines()
            .any(|line| line.trim_start().starts_with("@import"))
        {
            bail!("style/{} imports a file: list it in main.css", import.path);
        }
        match import.layer {
            Some(layer) => joined.push_str(&format!("@layer {layer} {{\n{text}\n}}\n")),
            None => joined.push_str(&text),
        }
    }
    Ok(joined)
}

/// Reads one line of `main.css`; `None` for a line that is not an import.
pub fn parse_import(line: &str) -> Result<Option<Import>> {
    let Some(rest) = line.trim().strip_prefix("@import") else {
        return Ok(None);
    };
    let parsed = (|| {
        let rest = rest.trim().strip_suffix(';')?.trim();
        let rest = match rest.strip_prefix("url(") {
            Some(inner) => inner.replacen(')', "", 1),
            None => rest.to_owned(),
        };
        let quote = rest.chars().next().filter(|c| matches!(c, '"' | '\''))?;
        let (path, tail) = rest[1..].split_once(quote)?;
        let layer = match tail.trim() {
            "" => None,
            tail => Some(tail.strip_prefix("layer(")?.strip_suffix(')')?.to_owned()),
        };
        let path = path.strip_prefix("./").unwrap_or(path).to_owned();
        Some(Import { path, layer })
    })();
    match parsed {
        Some(import) => Ok(Some(import)),
        None => {
            bail!("style/main.css: cannot read '{line}'; write @import \"./name.css\" layer(name);")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn import(path: &str, layer: Option<&str>) -> Option<Import> {
        Some(Import {
            path: path.into(),
            layer: layer.map(Into::into),
        })
    }

    #[test]
    fn reads_the_forms_an_import_may_have() {
        let cases = [
            ("@import \"./a.css\";", import("a.css", None)),
            (
                "@import 'parts/b.css' layer(parts);",
                import("parts/b.css", Some("parts")),
            ),
            (
                "@import url(\"c.css\") layer(x);",
                import("c.css", Some("x")),
            ),
            ("@layer a, b;", None),
            ("", None),
        ];
        for (line, expected) in cases {
            assert_eq!(parse_import(line).unwrap(), expected, "{line}");
        }
    }

    #[test]
    fn refuses_an_import_it_cannot_keep_whole() {
        for line in [
            "@import a.css;",
            "@import \"a.css\" screen;",
            "@import \"a.css\"",
        ] {
            assert!(parse_import(line).is_err(), "{line}");
        }
    }
}
