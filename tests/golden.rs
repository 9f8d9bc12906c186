//! Golden weeks: what the planner makes of people, kept as texts to read.
//!
//! Each folder of `tests/golden/plan` holds a `person.json` (its form is told in the
//! `plan` module of the build tool), the week as `expected.txt`, and in `why.md` what a coach
//! looks for in it. `BLESS=1 cargo test -p xtask --test golden` writes the weeks anew;
//! read what changed before keeping it.

use std::fs;
use std::path::{Path, PathBuf};

use weekloom_engine::catalogue::Catalogue;
use xtask::{paths, plan};

fn folders() -> Vec<PathBuf> {
    let all = paths::root().join("tests/golden/plan");
    let entries = fs::read_dir(&all).expect("the golden weeks are there");
    let mut folders: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    folders.sort();
    folders
}

fn read(folder: &Path, name: &str) -> String {
    let file = folder.join(name);
    fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

#[test]
fn weeks_are_as_they_were_read() {
    let blesses = std::env::var_os("BLESS").is_some();
    let catalogue = Catalogue::built_in();
    let mut changed = Vec::new();
    for folder in folders() {
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        let person = plan::person(&catalogue, &read(&folder, "person.json"))
            .unwrap_or_else(|error| panic!("{name}: {error:#}"));
        let told =
            plan::told(&catalogue, &person).unwrap_or_else(|error| panic!("{name}: {error:#}"));
        if blesses {
            fs::write(folder.join("expected.txt"), told).unwrap();
        } else if told != read(&folder, "expected.txt") {
            changed.push(format!("{name} is now\n{told}"));
        }
        assert!(
            read(&folder, "why.md").len() > 80,
            "{name}: say what a coach looks for"
        );
    }
    assert!(
        changed.is_empty(),
        "{}\nread them; if they are better, BLESS=1 keeps them",
        changed.join("\n")
    );
}

#[test]
fn there_are_people_of_many_sorts() {
    assert!(folders().len() >= 20, "{}", folders().len());
}
