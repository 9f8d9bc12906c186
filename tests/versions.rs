//! Further versions of a built app, as a later build would be: other bytes under a number
//! of their own.
//!
//! Start at [`make`]. Nothing here touches the build it is made from.

use std::fs;
use std::path::{Path, PathBuf};

/// Copies a built folder and makes another version of it, whose page is titled
/// [`title`]. Without the packed copies, which would hide the change.
///
/// # Panics
///
/// When the folder holds no build or cannot be copied.
pub fn make(dist: &Path, to: PathBuf, number: u32) -> PathBuf {
    copy(dist, &to);
    change(&to.join("index.html"), |page| {
        let title = format!("<title>{}</title>", title(number));
        let (before, rest) = page.split_once("<title>").expect("a title");
        let (_, after) = rest.split_once("</title>").expect("a title's end");
        format!("{before}{title}{after}")
    });
    change(&to.join("sw.js"), |worker| {
        let is_version =
            |text: &&str| text.len() == 16 && text.chars().all(|c| c.is_ascii_hexdigit());
        let version = worker.split('"').find(is_version).expect("its version");
        worker.replace(version, &format!("{number:016x}"))
    });
    to
}

/// What the page of this version is titled.
pub fn title(number: u32) -> String {
    format!("Weekloom, version {number}")
}

/// Takes a file away that the version says it has.
///
/// # Panics
///
/// When there is none of that beginning.
pub fn break_off(dist: &Path, beginning: &str) {
    let mut gone = 0;
    for file in fs::read_dir(dist.join("assets")).expect("assets") {
        let file = file.expect("a file");
        if file.file_name().to_string_lossy().starts_with(beginning) {
            fs::remove_file(file.path()).expect("it goes");
            gone += 1;
        }
    }
    assert!(gone > 0, "no file begins with '{beginning}'");
}

fn change(file: &Path, how: impl FnOnce(String) -> String) {
    let text = fs::read_to_string(file).unwrap_or_else(|_| panic!("no {}", file.display()));
    fs::write(file, how(text)).expect("the file changes");
}

/// Copies a built folder without the packed copies.
pub fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder").filter_map(Result::ok) {
        let (path, target) = (entry.path(), to.join(entry.file_name()));
        if path.is_dir() {
            copy(&path, &target);
        } else if path.extension().is_none_or(|e| e != "br") {
            fs::copy(&path, &target).expect("a file");
        }
    }
}
