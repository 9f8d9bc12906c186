//! Stamps the service worker with the files of this build and a version made of their bytes.

use anyhow::Result;

use super::{Files, names, page};

/// Fills the worker's template. The version covers the name and the final bytes of every
/// file in the list, and the template, so a worker never shares a cache with another one.
pub fn stamp(template: &str, files: &Files) -> Result<String> {
    let listed: Vec<_> = files.iter().filter(|(name, _)| is_kept(name)).collect();
    let pieces = listed
        .iter()
        .flat_map(|(name, bytes)| [name.as_bytes(), bytes.as_slice()])
        .chain([template.as_bytes()]);
    let version = names::hash(pieces);
    let list = listed.iter().map(|(name, _)| address(name));
    let list = serde_json::to_string(&list.collect::<Vec<_>>())?;
    page::fill(template, &[("version", &version), ("files", &list)])
}

/// The address a file is fetched by, relative to the worker. Hosts may redirect
/// `index.html` to its folder, and a redirected answer cannot serve a navigation.
fn address(name: &str) -> &str {
    match name.strip_suffix("index.html") {
        Some("") => "./",
        Some(folder) => folder,
        None => name,
    }
}

/// Is this file kept for use without a network? Pictures for an app store are not.
fn is_kept(name: &str) -> bool {
    !matches!(names::part_of(name), "screenshots" | "copies" | "host")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(page: &str) -> Files {
        [
            ("index.html", page),
            ("index.html.br", "x"),
            ("numbers/index.html", "x"),
            ("screenshots/a.png", "x"),
        ]
        .map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec()))
        .into()
    }

    #[test]
    fn lists_what_is_kept_and_nothing_else() {
        let worker = stamp("%version% %files%", &files("page")).unwrap();
        assert!(worker.ends_with(" [\"./\",\"numbers/\"]"), "{worker}");
    }

    #[test]
    fn the_version_follows_bytes_and_template() {
        let stamped = |template: &str, page: &str| stamp(template, &files(page)).unwrap();
        let first = stamped("%version% %files%", "page");
        assert_eq!(first, stamped("%version% %files%", "page"));
        assert_ne!(first, stamped("%version% %files%", "other"));
        let other = stamped("%version% %files% ", "page");
        assert_ne!(first.split(' ').next(), other.split(' ').next());
    }
}
