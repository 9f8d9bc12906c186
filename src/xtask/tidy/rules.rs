//! The rules. Each returns one line per breach, with the path first.

use std::collections::BTreeSet;

use super::Tree;
use crate::build::parse_import;

/// The top level holds what the layout lists, licences and dotfiles.
pub fn top_level(tree: &Tree) -> Vec<String> {
    const LISTED: [&str; 9] = [
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "README.md",
        "index.html",
        "public",
        "src",
        "style",
        "tests",
    ];
    let names: BTreeSet<&str> = tree
        .files
        .keys()
        .map(|path| path.split('/').next().unwrap_or(path))
        .collect();
    let is_listed =
        |name: &str| LISTED.contains(&name) || name.starts_with('.') || name.starts_with("LICENSE");
    names
        .into_iter()
        .filter(|name| !is_listed(name))
        .map(|name| format!("{name}: not in the layout"))
        .collect()
}

/// Every Rust source opens with a `//!` line.
pub fn openings(tree: &Tree) -> Vec<String> {
    tree.below("", ".rs")
        .filter(|(_, text)| !text.starts_with("//!"))
        .map(|(path, _)| format!("{path}: open with a //! line that says what it is"))
        .collect()
}

/// Nothing in the engine reads a clock, draws a number, touches the outside or depends on
/// the order of a hash table.
pub fn engine_is_pure(tree: &Tree) -> Vec<String> {
    const FORBIDDEN: [&str; 22] = [
        "HashMap",
        "HashSet",
        "Instant::",
        "SystemTime",
        "gloo",
        "js_sys",
        "leptos",
        "println!",
        "rand::",
        "std::env",
        "std::fs",
        "std::io",
        "std::net",
        "std::process",
        "std::thread",
        "std::time",
        "thread_rng",
        "wasm_bindgen",
        "weekloom_app",
        "weekloom_store",
        "web_sys",
        "xtask",
    ];
    const CRATES: [&str; 2] = ["serde", "serde_json"];
    let mut findings = Vec::new();
    for (path, text) in tree.below("src/engine/", ".rs") {
        if path.starts_with("src/engine/examples/") || path == "src/engine/build.rs" {
            // Programs that show the engine at work or run before it is compiled; they
            // are no part of it.
            continue;
        }
        for (number, line) in code_lines(text) {
            for word in FORBIDDEN.iter().filter(|word| line.contains(**word)) {
                findings.push(format!(
                    "{path}:{number}: {word} has no place in the engine"
                ));
            }
        }
    }
    let manifest = tree.files.get("src/engine/Cargo.toml");
    let manifest = manifest.and_then(|text| text.parse::<toml::Table>().ok());
    let Some(manifest) = manifest else {
        findings.push("src/engine/Cargo.toml: missing or not TOML".into());
        return findings;
    };
    let used = manifest.get("dependencies").and_then(toml::Value::as_table);
    for name in used.into_iter().flat_map(toml::Table::keys) {
        if !CRATES.contains(&name.as_str()) {
            findings.push(format!(
                "src/engine/Cargo.toml: the engine may use {} only, not {name}",
                CRATES.join(" and ")
            ));
        }
    }
    findings
}

/// Engine types cannot be written or read, but for the private structs that read the
/// catalogue: what is stored is defined in the store, and frozen there.
pub fn engine_has_no_wire_types(tree: &Tree) -> Vec<String> {
    const READER: &str = "src/engine/catalogue/read.rs";
    let mut findings = Vec::new();
    for (path, text) in tree.below("src/engine/", ".rs") {
        for (number, line) in code_lines(text) {
            let may_read = path == READER && !line.contains("Serialize");
            if (line.contains("Serialize") || line.contains("Deserialize")) && !may_read {
                findings.push(format!(
                    "{path}:{number}: wire types live in src/store; only {READER} may derive Deserialize"
                ));
            }
        }
    }
    findings
}

/// Every constant of the engine with a number in it says in its doc comment what the number
/// rests on: a published source (a name and a year) that has a row in `tests/evidence/`, or
/// one of the [`OWN_WORDS`]. Left out are what a person may enter and the arithmetic of
/// units and days, which rest on nothing but themselves: three files, and every constant of
/// the type `Bound`.
pub fn constants_name_their_source(tree: &Tree) -> Vec<String> {
    const LEFT_OUT: [&str; 3] = [
        "src/engine/bounds.rs",
        "src/engine/calendar.rs",
        "src/engine/units.rs",
    ];
    let tables = tree.below("tests/evidence/", ".toml");
    let sources: Vec<&str> = tables.flat_map(|(_, text)| text.lines()).collect();
    let mut findings = Vec::new();
    for (path, text) in tree.below("src/engine/", ".rs") {
        let is_test = path.ends_with("/tests.rs") || path.contains("/examples/");
        if is_test || LEFT_OUT.contains(&path) {
            continue;
        }
        for constant in constants(text) {
            if !numbers_in(constant.value) || constant.kind == "Bound" {
                continue;
            }
            let place = format!("{path}:{}: {}", constant.line, constant.name);
            let cited = citations(&constant.doc);
            let is_own = OWN_WORDS.iter().any(|own| constant.doc.contains(own));
            if cited.is_empty() && !is_own {
                findings.push(format!(
                    "{place} has a number and no source: name one with its year, or say '{}'",
                    OWN_WORDS.join("', '"),
                ));
            }
            for (names, year) in cited {
                let has_row = sources.iter().any(|line| {
                    line.contains(year) && names.iter().any(|name| line.contains(name))
                });
                if !has_row {
                    findings.push(format!(
                        "{place} cites {} {year}, which has no row in tests/evidence/",
                        names.join(" "),
                    ));
                }
            }
        }
    }
    findings
}

/// What a number without a published source says of itself.
const OWN_WORDS: [&str; 3] = [
    "common practice, no source",
    "the project's own judgement",
    "definition",
];

/// A constant of a source, with the doc comment above it in one line.
struct Constant<'a> {
    line: usize,
    name: &'a str,
    kind: &'a str,
    value: &'a str,
    doc: String,
}

/// The constants of a source, up to its tests.
fn constants(text: &str) -> Vec<Constant<'_>> {
    let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let mut found = Vec::new();
    let mut doc = String::new();
    let mut start = 0;
    for (number, line) in text.lines().enumerate() {
        let code = line.trim_start();
        let rest = &text[start..];
        start += line.len() + 1;
        if let Some(said) = code.strip_prefix("///") {
            doc.push(' ');
            doc.push_str(said.trim());
            continue;
        }
        if code.starts_with("#[") {
            continue;
        }
        let doc = std::mem::take(&mut doc);
        let item = code.strip_prefix("pub").map_or(code, |code| {
            code[code.find(' ').unwrap_or(0)..].trim_start()
        });
        let Some((name, _)) = item
            .strip_prefix("const ")
            .and_then(|item| item.split_once(':'))
            .filter(|(name, _)| !name.starts_with("fn ") && !name.contains('('))
        else {
            continue;
        };
        // From the whole text: a value may go on over many lines.
        let after = &rest[rest.find(':').unwrap_or(0) + 1..];
        let Some((kind, value)) = after.split_once(" = ") else {
            continue;
        };
        found.push(Constant {
            line: number + 1,
            name,
            kind: kind.trim(),
            value: value.split(";\n").next().unwrap_or(value),
            doc,
        });
    }
    found
}

/// Does a number stand in the code? Texts, and the digits of a name, do not count.
fn numbers_in(code: &str) -> bool {
    code.split('"').step_by(2).any(|code| {
        let mut before = ' ';
        code.chars().any(|c| {
            let is_number = c.is_ascii_digit() && !before.is_alphanumeric() && before != '_';
            before = c;
            is_number
        })
    })
}

/// The sources a doc comment names: the names before a year ("Ratamess et al. 2009",
/// "Brzycki 1993"), and the year.
fn citations(doc: &str) -> Vec<(Vec<&str>, &str)> {
    let words: Vec<&str> = doc
        .split_whitespace()
        .map(|word| word.trim_matches(|c: char| !c.is_alphanumeric() && c != '.'))
        .collect();
    let is_year = |word: &str| {
        word.len() == 4
            && word.chars().all(|c| c.is_ascii_digit())
            && (word.starts_with("19") || word.starts_with("20"))
    };
    let is_name = |word: &&str| word.len() > 2 && word.starts_with(|c: char| c.is_uppercase());
    let mut found = Vec::new();
    for (at, pair) in words.windows(2).enumerate() {
        let year = pair[1].trim_end_matches('.');
        if is_year(year) && (pair[0] == "al." || is_name(&pair[0])) {
            let before = &words[at.saturating_sub(3)..=at];
            found.push((before.iter().copied().filter(is_name).collect(), year));
        }
    }
    found
}

/// The policy in the page forbids inline scripts and styles; a browser would ignore them.
pub fn page_has_nothing_inline(tree: &Tree) -> Vec<String> {
    let Some(page) = tree.files.get("index.html") else {
        return vec!["index.html: missing".into()];
    };
    let mut findings = Vec::new();
    for tag in tags(page) {
        let names = names_in(tag);
        let (name, attributes) = names.split_first().expect("a tag starts with its name");
        let has = |wanted: &str| attributes.iter().any(|attribute| attribute == wanted);
        let inline = name == "style"
            || (name == "script" && !has("src"))
            || has("style")
            || attributes
                .iter()
                .any(|attribute| attribute.starts_with("on"));
        if inline {
            findings.push(format!("index.html: inline script or style in <{tag}>"));
        }
    }
    findings
}

/// Every key in local storage begins with one of the prefixes in the list of keys, and
/// nothing else that is shipped spells one.
pub fn storage_keys_in_one_file(tree: &Tree) -> Vec<String> {
    const KEYS: &str = "src/store/keys.rs";
    const SHIPPED: [&str; 4] = ["public/", "src/app/", "src/engine/", "src/store/"];
    let list = tree.files.get(KEYS).map_or("", String::as_str);
    let code = list.split("#[cfg(test)]").next().unwrap_or_default();
    let prefixes: Vec<&str> = code
        .split('"')
        .skip(1)
        .step_by(2)
        .filter(|text| text.len() > 1 && text.ends_with('.'))
        .collect();
    if prefixes.is_empty() {
        return vec![format!("{KEYS}: spells no prefix that ends in a point")];
    }
    let mut findings = Vec::new();
    for (path, text) in tree.below("", ".rs").chain(tree.below("", ".js")) {
        // Tests must see the very names that lie in people's phones.
        let is_test = path.contains("/tests/");
        if path == KEYS || is_test || !SHIPPED.iter().any(|folder| path.starts_with(folder)) {
            continue;
        }
        for (number, line) in code_lines(text) {
            let spells = |prefix: &&str| {
                let mut quotes = ['"', '\'', '`'].into_iter();
                quotes.any(|quote| line.contains(&format!("{quote}{prefix}")))
            };
            if prefixes.iter().any(spells) {
                findings.push(format!(
                    "{path}:{number}: a storage key is spelled out; use the list in {KEYS}"
                ));
            }
        }
    }
    findings
}

/// No file names a folder that exists on one machine only.
pub fn no_machine_paths(tree: &Tree) -> Vec<String> {
    // Joined from parts, or this very file would break the rule.
    let folders = ["home", "root", "work", "Users"].map(|name| format!("/{name}/"));
    let mut findings = Vec::new();
    for (path, text) in &tree.files {
        for (number, line) in text.lines().enumerate() {
            for folder in folders.iter().filter(|folder| starts_path(line, folder)) {
                findings.push(format!("{path}:{}: names {folder}…", number + 1));
            }
        }
    }
    findings
}

/// Does an absolute path that begins with this folder stand in the line? A folder of the
/// same name deep in another path or an address does not count.
fn starts_path(line: &str, folder: &str) -> bool {
    line.match_indices(folder).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        !before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '~'))
    })
}

/// Every relative link in a Markdown file leads to a file or folder of the repository.
pub fn links_lead_somewhere(tree: &Tree) -> Vec<String> {
    let mut findings = Vec::new();
    for (path, text) in tree.below("", ".md") {
        let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
        for target in links(text) {
            let file = target.split(['#', '?']).next().unwrap_or_default();
            let is_elsewhere = target.contains("://") || target.starts_with("mailto:");
            if file.is_empty() || is_elsewhere {
                continue;
            }
            if !resolve(folder, file).is_some_and(|file| tree.has(&file)) {
                findings.push(format!("{path}: links to {target}, which is not there"));
            }
        }
    }
    findings
}

/// `style/main.css` lists every other stylesheet exactly once and names none that is missing.
pub fn stylesheet_is_whole(tree: &Tree) -> Vec<String> {
    const MAIN: &str = "style/main.css";
    let Some(main) = tree.files.get(MAIN) else {
        return vec![format!("{MAIN}: missing")];
    };
    let mut findings = Vec::new();
    let mut listed = BTreeSet::new();
    for line in main.lines() {
        match parse_import(line) {
            Ok(None) => {}
            Ok(Some(import)) => {
                let path = format!("style/{}", import.path);
                if !tree.files.contains_key(&path) {
                    findings.push(format!("{MAIN}: lists {path}, which is not there"));
                }
                if !listed.insert(path.clone()) {
                    findings.push(format!("{MAIN}: lists {path} twice"));
                }
            }
            Err(error) => findings.push(error.to_string()),
        }
    }
    for (path, _) in tree.below("style/", ".css") {
        if path != MAIN && !listed.contains(path) {
            findings.push(format!("{path}: not listed in {MAIN}"));
        }
    }
    findings
}

/// The lines of a source with their numbers, without what follows `//`. A `//` within a
/// string cuts the line short; what these rules look for does not stand behind one.
fn code_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let code = |line| str::split(line, "//").next().unwrap_or_default();
    text.lines()
        .enumerate()
        .map(move |(at, line)| (at + 1, code(line)))
}

/// The opening tags of a page, without their brackets.
fn tags(page: &str) -> impl Iterator<Item = &str> {
    page.split('<')
        .skip(1)
        .filter_map(|piece| piece.split_once('>').map(|(tag, _)| tag))
        .filter(|tag| tag.starts_with(|c: char| c.is_ascii_alphabetic()))
}

/// The name of a tag and of its attributes, in small letters, without the values.
fn names_in(tag: &str) -> Vec<String> {
    // Every second piece between quotes is a value, which may hold anything.
    let outside: Vec<&str> = tag.split('"').step_by(2).collect();
    outside
        .join(" ")
        .split_whitespace()
        .map(|word| word.split('=').next().unwrap_or(word).to_ascii_lowercase())
        .collect()
}

/// The targets of the links and pictures in a Markdown text.
fn links(text: &str) -> impl Iterator<Item = &str> {
    text.split("](")
        .skip(1)
        .filter_map(|rest| rest.split([')', ' ', '\n']).next())
}

/// A path relative to a folder, from the top; `None` when it leaves the repository.
fn resolve(folder: &str, path: &str) -> Option<String> {
    let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in path.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree(files: &[(&str, &str)]) -> Tree {
        Tree {
            files: files
                .iter()
                .map(|(path, text)| (path.to_string(), text.to_string()))
                .collect(),
        }
    }

    /// Checks that the first tree keeps a rule and that every further one breaks it.
    #[track_caller]
    fn check(rule: fn(&Tree) -> Vec<String>, kept: &[(&str, &str)], broken: &[&[(&str, &str)]]) {
        assert_eq!(rule(&tree(kept)), Vec::<String>::new());
        for files in broken {
            assert!(!rule(&tree(files)).is_empty(), "{files:?} passed");
        }
    }

    #[test]
    fn top_level_refuses_an_unlisted_name() {
        check(
            top_level,
            &[
                ("README.md", ""),
                ("src/a.rs", ""),
                (".ci/run", ""),
                ("LICENSE", ""),
            ],
            &[&[("notes.txt", "")], &[("docs/a.md", "")]],
        );
    }

    #[test]
    fn openings_refuses_a_source_without_one() {
        check(
            openings,
            &[("src/a.rs", "//! What it is.\n"), ("public/a.js", "")],
            &[&[("src/a.rs", "use b;\n")], &[("tests/a.rs", "")]],
        );
    }

    #[test]
    fn engine_is_pure_refuses_the_outside() {
        let manifest = ("src/engine/Cargo.toml", "[dependencies]\nserde = \"1\"\n");
        check(
            engine_is_pure,
            &[
                manifest,
                (
                    "src/engine/a.rs",
                    "// no HashMap here\nuse std::collections::BTreeMap;",
                ),
                ("src/app/a.rs", "use std::collections::HashMap;"),
                ("src/engine/examples/a.rs", "println!()"),
            ],
            &[
                &[
                    manifest,
                    ("src/engine/a.rs", "use std::collections::HashMap;"),
                ],
                &[
                    manifest,
                    ("src/engine/a/b.rs", "let now = std::time::Instant::now();"),
                ],
                &[manifest, ("src/engine/a.rs", "use web_sys::Window;")],
                &[("src/engine/Cargo.toml", "[dependencies]\nrand = \"1\"\n")],
                &[],
            ],
        );
    }

    #[test]
    fn engine_has_no_wire_types_refuses_a_derive() {
        check(
            engine_has_no_wire_types,
            &[
                ("src/engine/catalogue/read.rs", "#[derive(Deserialize)]"),
                ("src/store/a.rs", "#[derive(Serialize)]"),
            ],
            &[
                &[("src/engine/a.rs", "#[derive(Debug, Serialize)]")],
                &[("src/engine/a.rs", "#[derive(serde::Deserialize)]")],
                &[("src/engine/catalogue/read.rs", "#[derive(Serialize)]")],
            ],
        );
    }

    #[test]
    fn constants_name_their_source_refuses_a_bare_number() {
        let evidence = (
            "tests/evidence/a.toml",
            "sources = [\"Ratamess NA et al. 2009, MSSE\"]",
        );
        let file = |text| ("src/engine/a.rs", text);
        check(
            constants_name_their_source,
            &[
                evidence,
                file(
                    "/// Ten (Ratamess et al. 2009, MSSE\n/// 41(3):687-708).\npub const A: u8 = 10;\n\
                     /// Two (common practice, no source).\n#[rustfmt::skip]\nconst B: [u8; 1] = [\n    2,\n];\n\
                     /// Names.\nconst C: &[&str] = &[\"1\"];\n\
                     /// What may be entered.\npub(super) const D: Bound = Bound::new(\"d\", 1, 2);\n\
                     /// As many as there are.\nconst E: usize = f64::LEN;\n\
                     #[cfg(test)]\nmod tests {\n    const F: u8 = 7;\n}\n",
                ),
                ("src/engine/bounds.rs", "/// Most.\nconst G: u8 = 7;\n"),
                ("src/engine/a/tests.rs", "const H: u8 = 7;\n"),
                ("src/app/a.rs", "const I: u8 = 7;\n"),
            ],
            &[
                &[file("const A: u8 = 10;\n")],
                &[file("/// Ten.\npub const A: u8 = 10;\n")],
                &[file(
                    "/// In the year 2009 it was ten.\npub(super) const A: i64 = 10;\n",
                )],
                &[file(
                    "/// Ratamess et al. say so.\nconst A: [i64; 2] = [\n    10,\n    20,\n];\n",
                )],
                &[file(
                    "/// Cited, 1999 by Nobody.\nfn a() {}\nconst A: f64 = 0.3;\n",
                )],
                &[file(
                    "impl A {\n    /// Some.\n    pub const B: u8 = 1;\n}\n",
                )],
            ],
        );
    }

    #[test]
    fn page_has_nothing_inline_refuses_all_three_kinds() {
        check(
            page_has_nothing_inline,
            &[(
                "index.html",
                "<!doctype html><script type=\"module\" src=\"a.js\"></script><p title=\"stay on = style\">onto</p>",
            )],
            &[
                &[("index.html", "<script>alert(1)</script>")],
                &[("index.html", "<style>p{}</style>")],
                &[("index.html", "<p style=\"color:red\">x</p>")],
                &[("index.html", "<button\n onclick=\"a()\">x</button>")],
                &[],
            ],
        );
    }

    #[test]
    fn storage_keys_in_one_file_refuses_a_key_elsewhere() {
        let keys = ("src/store/keys.rs", "Self::Real => \"loom.\",");
        check(
            storage_keys_in_one_file,
            &[
                keys,
                ("src/app/a.rs", "// \"loom.plan\"\nlet a = \"bloom.\";"),
                ("src/xtask/a.rs", "build(\"loom.wasm\")"),
                ("src/store/tests/a.rs", "get(\"loom.plan\")"),
            ],
            &[
                &[keys, ("src/app/a.rs", "get(\"loom.plan\")")],
                &[keys, ("public/a.js", "get('loom.plan')")],
                &[("src/app/a.rs", "")],
            ],
        );
    }

    #[test]
    fn no_machine_paths_refuses_a_path_of_one_machine() {
        let path = |name: &str| format!("see /{name}/somebody/file");
        let (home, work) = (path("home"), path("work"));
        let elsewhere = format!("https://example.org/{0}/a and src/{0}/b", "work");
        check(
            no_machine_paths,
            &[("README.md", &elsewhere)],
            &[&[("README.md", &home)], &[("src/a.rs", &work)]],
        );
    }

    #[test]
    fn links_lead_somewhere_refuses_a_dead_one() {
        check(
            links_lead_somewhere,
            &[
                (
                    "README.md",
                    "[a](tests/README.md#top) [b](https://x.org/a) [c](#here) [d](src)",
                ),
                ("tests/README.md", "![up](../public/a.png \"title\")"),
                ("public/a.png", ""),
                ("src/a.rs", ""),
            ],
            &[
                &[("README.md", "[a](gone.md)")],
                &[("tests/README.md", "[a](../../outside.md)")],
            ],
        );
    }

    #[test]
    fn stylesheet_is_whole_refuses_missing_unlisted_and_double() {
        let main = ("style/main.css", "@import \"./a.css\";\n");
        check(
            stylesheet_is_whole,
            &[main, ("style/a.css", "")],
            &[
                &[main],
                &[main, ("style/a.css", ""), ("style/parts/b.css", "")],
                &[
                    ("style/main.css", "@import \"a.css\";\n@import \"a.css\";"),
                    ("style/a.css", ""),
                ],
                &[("style/main.css", "@import a;")],
                &[],
            ],
        );
    }
}
