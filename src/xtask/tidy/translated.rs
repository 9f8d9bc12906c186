//! Every text the app shows has its translation in every language, and every translation
//! a text.
//!
//! Start at [`words_are_translated`]. What counts as a text: the literals of
//! `src/app/text`, the names, cues and cautions of the exercises, the refusals that the
//! engine and the store put in words, and what the boot script says.

use std::collections::BTreeMap;

use proc_macro2::{Delimiter, TokenStream, TokenTree};

use super::Tree;
use crate::languages::{FOLDER, Language, places};

/// Modules whose texts are still to be translated. Nothing is added here.
const TO_COME: [&str; 0] = [];

/// The exercises.
const EXERCISES: &str = "src/engine/catalogue/exercises.json";

/// Letters of a word after which it must say where it may be broken: with a soft hyphen.
/// About what a button of a phone 320 px wide holds; common practice, no source.
const LONGEST_WORD: usize = 24;

/// A label of up to this many letters may be on a button.
const LABEL: usize = 24;

/// How much longer than its English a label may be, in letters.
const LABEL_ROOM: usize = 16;

/// Refusals that begin with a word of the engine's tables: the words they begin with.
const WORDED: [(&str, &[&str]); 2] = [
    (
        "{0} of {1} kg is above {2} kg",
        &["straight bar", "curl bar", "trap bar"],
    ),
    (
        "{0} {1} is not between {2} and {3}",
        &[
            "age in years",
            "days a week",
            "exercises a day",
            "load in grams",
            "minutes",
            "pairs",
            "reps",
            "reps in reserve",
            "reps or seconds",
            "rest in seconds",
            "seconds",
            "sets",
        ],
    ),
];

/// The texts, each with the place where it stands first.
type Texts = BTreeMap<String, String>;

/// Every text has a translation with the same places and of a bearable length; no
/// translation is left without a text.
pub fn words_are_translated(tree: &Tree) -> Vec<String> {
    translated_but(tree, &TO_COME)
}

fn translated_but(tree: &Tree, to_come: &[&str]) -> Vec<String> {
    let mut findings = Vec::new();
    let texts = texts(tree, &mut findings);
    for (path, source) in tree.below(FOLDER, ".toml") {
        let tag = path.trim_start_matches(FOLDER).trim_end_matches(".toml");
        match Language::read(tag, source) {
            Ok(language) => compare(path, &language, (&texts, to_come), &mut findings),
            Err(error) => findings.push(format!("{path}: {error:#}")),
        }
        findings.extend(unsorted(path, source));
    }
    findings
}

fn compare(
    path: &str,
    language: &Language,
    (texts, to_come): (&Texts, &[&str]),
    findings: &mut Vec<String>,
) {
    let words = &language.words;
    for (text, place) in texts {
        let is_to_come = to_come.iter().any(|module| place.starts_with(module));
        if !words.contains_key(text) && !is_to_come {
            findings.push(format!("{path}: no translation of {text:?} ({place})"));
        }
    }
    for (english, said) in words {
        let mut breach = |what: &str| findings.push(format!("{path}: {english:?}: {what}"));
        if !texts.contains_key(english) {
            breach("no text of the app is this; take it out");
        }
        if places(english) != places(said) {
            breach("the translation has other places; keep each {name}");
        }
        if said.trim().is_empty() || said.contains(['\u{1e}', '\u{1f}']) {
            breach("the translation is empty or holds a separator");
        }
        let mut longest = said.split([' ', '\u{ad}', '-', '/', '\n', '\u{2013}']);
        if longest.any(|word| !word.contains('{') && word.chars().count() > LONGEST_WORD) {
            breach("a word is too long for a narrow phone; put a soft hyphen into it");
        }
        let (label, length) = (english.chars().count(), said.chars().count());
        // Names of exercises stand in lines that may break.
        let is_label = label <= LABEL && texts.get(english).is_none_or(|place| place != EXERCISES);
        if is_label && length > label + LABEL_ROOM {
            breach("the translation is too long for a button; say it shorter");
        }
        // Looked up twice, a text must stay what it is.
        if words.get(said).is_some_and(|other| other != said) {
            breach("the translation is the English of another text; say it differently");
        }
    }
}

/// Entries out of their order: sorted, two people's new words seldom meet in one line.
fn unsorted(path: &str, source: &str) -> Option<String> {
    let mut last = String::new();
    for (number, line) in source.lines().enumerate() {
        if line.starts_with('[') {
            last.clear();
        } else if let Some((key, _)) = line.split_once("\" = \"") {
            if *key < *last {
                let number = number + 1;
                return Some(format!(
                    "{path}:{number}: out of order; sort each table by its English"
                ));
            }
            key.clone_into(&mut last);
        }
    }
    None
}

fn texts(tree: &Tree, findings: &mut Vec<String>) -> Texts {
    let mut texts = Texts::new();
    for (path, source) in tree.below("src/", ".rs") {
        let is_test = path.contains("/tests") || path.contains("/examples/");
        let gather = if path == "src/app/text/language.rs" || is_test {
            continue;
        } else if path.starts_with(FOLDER) {
            Gather::All
        } else if path == "src/store/demo/crew.rs" {
            Gather::Sentences
        } else if path.starts_with("src/app/") {
            Gather::Nothing
        } else if path.starts_with("src/engine/") || path.starts_with("src/store/") {
            Gather::Refusals
        } else {
            continue;
        };
        let Ok(tokens) = source.parse::<TokenStream>() else {
            findings.push(format!("{path}: is not Rust"));
            continue;
        };
        let mut reader = Reader {
            path,
            gather,
            texts: &mut texts,
            findings,
        };
        reader.read(tokens, Within::Code);
    }
    for (path, source) in tree.below("public/", ".js") {
        for said in source.split("say(\"").skip(1) {
            let text = said.split('"').next().unwrap_or_default();
            texts
                .entry(text.to_owned())
                .or_insert_with(|| path.to_owned());
        }
    }
    exercises(tree, &mut texts, findings);
    texts
}

fn exercises(tree: &Tree, texts: &mut Texts, findings: &mut Vec<String>) {
    let Some(source) = tree.files.get(EXERCISES) else {
        return;
    };
    let Ok(catalogue) = serde_json::from_str::<serde_json::Value>(source) else {
        findings.push(format!("{EXERCISES}: is not JSON"));
        return;
    };
    for exercise in catalogue["exercises"].as_array().into_iter().flatten() {
        for field in ["name", "cue", "caution"] {
            let text = exercise[field].as_str().unwrap_or_default();
            if !text.is_empty() {
                texts
                    .entry(text.to_owned())
                    .or_insert_with(|| EXERCISES.to_owned());
            }
        }
    }
}

/// What of a source is shown.
#[derive(Clone, Copy, PartialEq)]
enum Gather {
    /// Every literal that is words.
    All,
    /// Literals of more than one word.
    Sentences,
    /// What is written in an error's `Display`.
    Refusals,
    /// None: it takes its words from elsewhere.
    Nothing,
}

/// What the tokens read stand in.
#[derive(Clone, Copy, PartialEq)]
enum Within {
    Code,
    /// Arguments of `format!` and its like.
    Format,
    /// Arguments of `write!` and `write_str`.
    Written,
    /// Arguments of a call of `tr`.
    Translated,
}

struct Reader<'a> {
    path: &'a str,
    gather: Gather,
    texts: &'a mut Texts,
    findings: &'a mut Vec<String>,
}

impl Reader<'_> {
    fn read(&mut self, tokens: TokenStream, within: Within) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let word = |at: Option<usize>| match at.and_then(|at| tokens.get(at)) {
            Some(TokenTree::Ident(word)) => word.to_string(),
            _ => String::new(),
        };
        let sign = |at: Option<usize>| match at.and_then(|at| tokens.get(at)) {
            Some(TokenTree::Punct(sign)) => sign.as_char(),
            _ => ' ',
        };
        for (at, token) in tokens.iter().enumerate() {
            let before = |steps: usize| at.checked_sub(steps);
            let line = token.span().start().line;
            match token {
                TokenTree::Group(group) => {
                    // A comment on a thing, or on what it stands in.
                    let is_attribute = group.delimiter() == Delimiter::Bracket
                        && (sign(before(1)) == '#' || sign(before(2)) == '#');
                    let name = word(before(if sign(before(1)) == '!' { 2 } else { 1 }));
                    let inside = match name.as_str() {
                        _ if is_attribute => continue,
                        "format" | "concat" if sign(before(1)) == '!' => Within::Format,
                        "write" | "writeln" if sign(before(1)) == '!' => Within::Written,
                        "write_str" => Within::Written,
                        "tr" | "said" | "say" => Within::Translated,
                        _ if within == Within::Written || within == Within::Format => within,
                        _ => Within::Code,
                    };
                    // Tests at the end of a file.
                    if word(before(2)) == "mod" && word(before(1)) == "tests" {
                        continue;
                    }
                    self.read(group.stream(), inside);
                }
                TokenTree::Literal(literal) => {
                    let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string()) else {
                        continue;
                    };
                    let owned = sign(Some(at + 1)) == '.'
                        && ["to_owned", "to_string", "into"].contains(&word(Some(at + 2)).as_str());
                    self.literal(&text.value(), within, owned, line);
                }
                TokenTree::Ident(name) if self.path.starts_with("src/app/") => {
                    let name = name.to_string();
                    let is_words = word(before(3)) == "words" && sign(before(1)) == ':';
                    let is_constant = name.len() > 1 && !name.contains(char::is_lowercase);
                    let is_owned = sign(Some(at + 1)) == '.';
                    if is_words
                        && is_constant
                        && name != "NUMBERS_AT"
                        && (is_owned || matches!(within, Within::Format | Within::Written))
                    {
                        self.breach(
                            line,
                            &format!("write tr(words::{name}): else it stays English"),
                        );
                    }
                }
                _ => {}
            }
        }
    }

    fn literal(&mut self, text: &str, within: Within, is_owned: bool, line: usize) {
        let words = without_places(text);
        if !words.contains(char::is_alphabetic) {
            return;
        }
        match self.gather {
            Gather::Nothing => {}
            Gather::All => {
                if matches!(within, Within::Format | Within::Written) {
                    self.breach(
                        line,
                        &format!("{text:?}: write say!, so that it is translated"),
                    );
                } else if is_owned {
                    self.breach(
                        line,
                        &format!("{text:?}: write said(), so that it is translated"),
                    );
                }
                let is_slug = text.contains(['-', '/'])
                    && text
                        .chars()
                        .all(|c| c.is_ascii_lowercase() || "-/0123456789".contains(c));
                if !is_slug {
                    self.keep(text, line);
                }
            }
            Gather::Sentences => {
                if text.contains(' ') {
                    self.keep(text, line);
                }
            }
            Gather::Refusals => {
                if within == Within::Written && words.trim().contains(' ') {
                    for piece in pieces(text) {
                        self.refusal(&piece, line);
                    }
                }
            }
        }
    }

    fn refusal(&mut self, text: &str, line: usize) {
        let Some((_, words)) = WORDED.iter().find(|(worded, _)| *worded == text) else {
            return self.keep(text, line);
        };
        for word in *words {
            self.keep(&numbered(&text.replacen("{0}", word, 1)), line);
        }
    }

    fn keep(&mut self, text: &str, line: usize) {
        let place = format!("{}:{line}", self.path);
        self.texts.entry(text.to_owned()).or_insert(place);
    }

    fn breach(&mut self, line: usize, what: &str) {
        self.findings.push(format!("{}:{line}: {what}", self.path));
    }
}

fn without_places(text: &str) -> String {
    let mut rest = text.split('{');
    let mut words = rest.next().unwrap_or_default().to_owned();
    for piece in rest {
        words += piece.split_once('}').map_or("", |(_, after)| after);
    }
    words
}

/// A refusal as the app looks it up (`made` in `language.rs`): numbers and quoted names are
/// numbered places, and what another refusal stands in is looked up part by part.
fn pieces(text: &str) -> Vec<String> {
    let parts: Vec<&str> = text.split("; ").flat_map(|part| part.split(": ")).collect();
    let is_place = |part: &&str| part.starts_with('{') && without_places(part).is_empty();
    let is_nested = parts.iter().any(is_place);
    let whole = [text];
    let parts = if is_nested { &parts[..] } else { &whole[..] };
    let mut found = Vec::new();
    for part in parts.iter().filter(|part| !is_place(part)) {
        found.push(numbered(part));
    }
    found
}

/// Each place, quoted or not, and each number as a numbered place.
fn numbered(text: &str) -> String {
    let (mut said, mut count, mut rest) = (String::new(), 0, text);
    while let Some(at) = rest.find(|c: char| c == '{' || c.is_ascii_digit()) {
        let (before, found) = rest.split_at(at);
        let after = match found.strip_prefix('{') {
            Some(place) => place.split_once('}').map_or("", |(_, after)| after),
            None => found.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.'),
        };
        let quoted = before.strip_suffix('\'').zip(after.strip_prefix('\''));
        let (before, after) = quoted.unwrap_or((before, after));
        said += &format!("{before}{{{count}}}");
        count += 1;
        rest = after;
    }
    said + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree(german: &str, rust: &str) -> Tree {
        let files = [
            ("src/app/text/de.toml", german),
            ("src/app/text/words.rs", rust),
        ];
        Tree {
            files: files
                .map(|(path, text)| (path.to_owned(), text.to_owned()))
                .into(),
        }
    }

    fn breaches(german: &str, rust: &str) -> usize {
        translated_but(&tree(german, rust), &[]).len()
    }

    const RUST: &str = "const A: &str = \"Set\"; fn b() { say!(\"{a} of {b}\", a, b) }";

    #[test]
    fn a_whole_translation_passes() {
        let german = "[words]\n\"Set\" = \"Satz\"\n\"{a} of {b}\" = \"{b}: {a}\"";
        assert_eq!(translated_but(&tree(german, RUST), &[]), [""; 0]);
    }

    #[test]
    fn each_fault_is_named() {
        for german in [
            "[words]\n\"Set\" = \"Satz\"",
            "[words]\n\"Set\" = \"Satz\"\n\"{a} of {b}\" = \"{b}\"",
            "[words]\n\"Set\" = \"Satz\"\n\"Sets\" = \"x\"\n\"{a} of {b}\" = \"{b} {a}\"",
            "[words]\n\"Set\" = \"\"\n\"{a} of {b}\" = \"{b} {a}\"",
            "[words]\n\"Set\" = \"Ein sehr langer Satz für eine Taste\"\n\"{a} of {b}\" = \"{b} {a}\"",
            "[words]\n\"{a} of {b}\" = \"{b} {a}\"\n\"Set\" = \"Satz\"",
            "[words]\n\"Set\" = \"Trainingswiederholungszahl\"\n\"{a} of {b}\" = \"{b} {a}\"",
        ] {
            assert_ne!(breaches(german, RUST), 0, "{german}");
        }
    }

    #[test]
    fn texts_that_would_stay_english_are_named() {
        let german = "[words]\n\"Set {a}\" = \"Satz {a}\"";
        assert_eq!(breaches(german, "fn a() { say!(\"Set {a}\", a) }"), 0);
        assert_eq!(breaches(german, "fn a() { format!(\"Set {a}\") }"), 1);
        assert_eq!(
            breaches(german, "const A: &str = \"Set {a}\".to_owned();"),
            1
        );
        let screen = (
            "src/app/screens/a.rs".to_owned(),
            "fn a() { format!(\"{}\", words::SET) }".to_owned(),
        );
        let mut tree = tree("[words]", "");
        tree.files.extend([screen]);
        assert_eq!(translated_but(&tree, &[]).len(), 1);
    }

    #[test]
    fn refusals_are_looked_up_by_their_parts() {
        assert_eq!(
            pieces("day {} has no '{id}'; add one"),
            ["day {0} has no {1}; add one"]
        );
        assert_eq!(pieces("{error}; try again"), ["try again"]);
        assert_eq!(
            pieces("the value is refused: {error}"),
            ["the value is refused"]
        );
    }
}
