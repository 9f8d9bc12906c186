//! The source tree in memory: what is in the repository or could be added to it.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// Files by their path from the top, with `/` between folders. A file that is not text has
/// an empty text.
pub struct Tree {
    /// Path and text of each file.
    pub files: BTreeMap<String, String>,
}

impl Tree {
    /// Reads a checkout, leaving out `.git` and the top-level names `.gitignore` lists.
    pub fn read(root: &Path) -> Result<Self> {
        let ignored = fs::read_to_string(root.join(".gitignore")).unwrap_or_default();
        let mut skip: Vec<String> = ignored
            .lines()
            .filter_map(|line| line.trim().strip_prefix('/'))
            .map(|name| name.trim_end_matches('/').to_owned())
            .collect();
        skip.push(".git".into());
        let mut files = BTreeMap::new();
        read_folder(root, "", &skip, &mut files)?;
        Ok(Self { files })
    }

    /// The files below a folder (`"src/engine/"`) whose names end so (`".rs"`).
    pub fn below<'a>(
        &'a self,
        folder: &'a str,
        end: &'a str,
    ) -> impl Iterator<Item = (&'a str, &'a str)> {
        self.files
            .iter()
            .filter(move |(path, _)| path.starts_with(folder) && path.ends_with(end))
            .map(|(path, text)| (path.as_str(), text.as_str()))
    }

    /// Is there a file or a folder of this path?
    pub fn has(&self, path: &str) -> bool {
        let folder = format!("{}/", path.trim_end_matches('/'));
        path.is_empty()
            || self.files.contains_key(path)
            || self.files.keys().any(|file| file.starts_with(&folder))
    }
}

fn read_folder(
    folder: &Path,
    front: &str,
    skip: &[String],
    files: &mut BTreeMap<String, String>,
) -> Result<()> {
    let entries =
        fs::read_dir(folder).with_context(|| format!("could not list {}", folder.display()))?;
    for entry in entries {
        let entry = entry?;
        let path = format!("{front}{}", entry.file_name().to_string_lossy());
        if skip.contains(&path) {
            continue;
        }
        if entry.path().is_dir() {
            read_folder(&entry.path(), &format!("{path}/"), skip, files)?;
        } else {
            let bytes = fs::read(entry.path()).with_context(|| format!("could not read {path}"))?;
            files.insert(path, String::from_utf8(bytes).unwrap_or_default());
        }
    }
    Ok(())
}
