//! The words of the app in other languages: `src/app/text/LANGUAGE.toml`.
//!
//! Start at [`Language`]. A file has tables of English texts, each with its translation;
//! which table one stands in makes no difference. The build packs them for the app, and
//! `cargo xtask tidy` holds them against the texts there are.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

/// The folder of the files.
pub const FOLDER: &str = "src/app/text/";

/// One language.
pub struct Language {
    /// As in `lang` of a page: `de`.
    pub tag: String,
    /// English and its translation.
    pub words: BTreeMap<String, String>,
}

/// Every language besides English, by its tag.
pub fn all(root: &Path) -> Result<Vec<Language>> {
    let folder = root.join(FOLDER);
    let entries =
        fs::read_dir(&folder).with_context(|| format!("could not list {}", folder.display()))?;
    let mut found = Vec::new();
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_some_and(|end| end == "toml") {
            let tag = path.file_stem().unwrap_or_default().to_string_lossy();
            let text = fs::read_to_string(&path)
                .with_context(|| format!("could not read {}", path.display()))?;
            found.push(
                Language::read(&tag, &text)
                    .with_context(|| format!("{} cannot be used", path.display()))?,
            );
        }
    }
    found.sort_by(|a, b| a.tag.cmp(&b.tag));
    Ok(found)
}

impl Language {
    /// Reads a file of words. Errors when it is not tables of texts, or has a text twice.
    pub fn read(tag: &str, text: &str) -> Result<Self> {
        let tables: BTreeMap<String, BTreeMap<String, String>> =
            toml::from_str(text).context("it is not tables of English = translation")?;
        let mut words = BTreeMap::new();
        for (english, translation) in tables.into_values().flatten() {
            if let Some(other) = words.insert(english.clone(), translation) {
                bail!("{english:?} stands in it twice, once as {other:?}; keep one");
            }
        }
        Ok(Self {
            tag: tag.to_owned(),
            words,
        })
    }

    /// As the app reads it (`language.rs` in the folder), in the order of the English bytes.
    pub fn packed(&self) -> String {
        let pair = |(english, said): (&String, &String)| format!("\u{1e}{english}\u{1f}{said}");
        self.words.iter().map(pair).collect()
    }
}

/// The names of the places of a text, `{name}`, sorted.
pub fn places(text: &str) -> Vec<&str> {
    let mut names: Vec<&str> = text
        .split('{')
        .skip(1)
        .filter_map(|rest| Some(rest.split_once('}')?.0))
        .collect();
    names.sort_unstable();
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_packed_in_the_order_of_the_english() {
        let german =
            Language::read("de", "[b]\n\"Set\" = \"Satz\"\n[a]\n\"A \" = \"B\\nC\"").unwrap();
        assert_eq!(german.packed(), "\u{1e}A \u{1f}B\nC\u{1e}Set\u{1f}Satz");
    }

    #[test]
    fn a_text_with_two_translations_is_refused() {
        assert!(Language::read("de", "[a]\n\"x\" = \"y\"\n[b]\n\"x\" = \"z\"").is_err());
        assert!(Language::read("de", "x = 1").is_err());
    }

    #[test]
    fn places_are_found() {
        assert_eq!(places("Set {set} of {of}."), ["of", "set"]);
    }
}
