//! `cargo xtask run`: set up, build, serve, and build again on change.
//!
//! A failed build prints why and leaves the last good one being served. The service worker
//! is at work here as it is for users: after a rebuild the page offers the new version.

use std::fs;
use std::path::Path;
use std::thread;
use std::time::{Duration, SystemTime};

use anyhow::Result;

use crate::build::{self, Npm, Options};
use crate::progress::Progress;
use crate::{paths, serve};

/// What is watched, below the top of the checkout.
const WATCHED: [&str; 7] = [
    "Cargo.toml",
    "index.html",
    "public",
    "src/app",
    "src/engine",
    "src/store",
    "style",
];

/// Sets up, builds and serves until stopped by the user.
pub fn run(port: Option<u16>) -> Result<()> {
    let options = Options::release(Npm::Wanted);
    let mut progress = Progress::new(build::STEPS + 1);
    let mut built = newest(&paths::root());
    build::run_within(&options, &mut progress)?;
    progress.step("serve");
    let port = port.unwrap_or(serve::FIRST_PORT);
    let server = serve::start_at_free_port(&options.out, port, "/")?;
    println!("\nWeekloom is at {}  (Ctrl-C ends it)", server.url());

    loop {
        thread::sleep(Duration::from_millis(500));
        let now = newest(&paths::root());
        if now == built {
            continue;
        }
        built = now;
        println!("\nchanged: building again");
        match build::run(&options) {
            Ok(()) => println!("built; serving it at {}", server.url()),
            Err(error) => println!("the build failed; still serving the last one\n{error:#}"),
        }
    }
}

/// The newest change below the watched paths, and how many files there are, so that a
/// deleted file counts as a change too.
fn newest(root: &Path) -> (Option<SystemTime>, usize) {
    let mut found = (None, 0);
    for path in WATCHED {
        look(&root.join(path), &mut found);
    }
    found
}

fn look(path: &Path, found: &mut (Option<SystemTime>, usize)) {
    if let Ok(entries) = fs::read_dir(path) {
        for entry in entries.flatten() {
            look(&entry.path(), found);
        }
    } else if let Ok(about) = fs::metadata(path) {
        found.0 = found.0.max(about.modified().ok());
        found.1 += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sees_a_change_and_a_deleted_file() {
        let root = std::env::temp_dir().join(format!("weekloom-watch-{}", std::process::id()));
        let file = root.join("src/app/main.rs");
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(&file, "a").unwrap();
        let first = newest(&root);
        assert_eq!(first, newest(&root));
        let later = SystemTime::now() + Duration::from_secs(60);
        fs::File::options()
            .write(true)
            .open(&file)
            .unwrap()
            .set_modified(later)
            .unwrap();
        let second = newest(&root);
        assert_ne!(first, second);
        fs::remove_file(&file).unwrap();
        assert_ne!(second, newest(&root));
        fs::remove_dir_all(root).unwrap();
    }
}
