//! The page "Where the numbers come from": the published values behind the app with their
//! sources, and the rules of the trade that have none.
//!
//! Start at [`page`]. It is made of the tables that the tests hold the engine against, and
//! of the engine's own comments, so it cannot say anything else than they do. It needs no
//! script, and the app is never asked for it.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use serde::Deserialize;
use toml::Value;

/// Where the page lies in a build. A folder: hosts may redirect other names, and a
/// redirected answer cannot be kept for a navigation.
pub const NAME: &str = "numbers/index.html";

/// The topics, each a file of tables, as one would ask about them.
const TOPICS: [&str; 12] = [
    "progression",
    "effort",
    "percent",
    "one_rm",
    "measurement",
    "recovery",
    "volume",
    "rest",
    "warm_up",
    "time",
    "loading",
    "safety",
];
/// Rows shown before the rest folds away.
const MOST_ROWS: usize = 6;
/// What stands beside a rule of the trade.
const NO_SOURCE: &str = "common practice, no source";
/// Folders of the engine as a reader would call them.
const FOLDERS: [(&str, &str); 6] = [
    ("progress", "What to lift next"),
    ("load", "Loads and warm-up"),
    ("estimate", "Estimated strength"),
    ("plan", "The plan of the week"),
    ("audit", "The week, checked"),
    ("session", "The session"),
];

#[derive(Deserialize)]
struct Topic {
    topic: String,
    used_for: String,
    table: Vec<Table>,
}

/// One table of values; `tests/evidence/table.rs` says what its fields are.
#[derive(Deserialize)]
struct Table {
    id: String,
    says: String,
    sources: Vec<String>,
    seen: String,
    note: Option<String>,
    unchecked: Option<String>,
    columns: Vec<String>,
    keys: usize,
    rows: Vec<Vec<Value>>,
}

/// A rule of the trade: what the engine's comment says, and its number where it has one.
struct Custom {
    says: String,
    value: Option<String>,
}

/// What goes into the frame in `public/numbers.html`: the contents, and the topics.
pub fn page(root: &Path) -> Result<(String, String)> {
    let mut contents = String::new();
    let mut body = String::new();
    for name in TOPICS {
        let path = root.join(format!("tests/evidence/{name}.toml"));
        let text = fs::read_to_string(&path)
            .with_context(|| format!("could not read {}", path.display()))?;
        let topic: Topic =
            toml::from_str(&text).with_context(|| format!("{} is no topic", path.display()))?;
        entry(&mut contents, name, &topic.topic);
        write_topic(&mut body, name, &topic)?;
    }
    entry(
        &mut contents,
        "trade",
        "Rules of the trade, without a source",
    );
    write_customs(&mut body, &root.join("src/engine"))?;
    Ok((contents, body))
}

fn entry(contents: &mut String, id: &str, title: &str) {
    let _ = write!(
        contents,
        "<li><a class=\"line\" href=\"#{id}\">{}</a></li>",
        escape(title)
    );
}

fn write_topic(out: &mut String, name: &str, topic: &Topic) -> Result<()> {
    let _ = write!(
        out,
        "<section class=\"card\" id=\"{name}\"><h2>{}</h2><p>{}</p>",
        escape(&topic.topic),
        escape(&topic.used_for)
    );
    for table in &topic.table {
        write_table(out, table).with_context(|| table.id.clone())?;
    }
    out.push_str("</section>");
    Ok(())
}

fn write_table(out: &mut String, table: &Table) -> Result<()> {
    let width = table.columns.len();
    ensure!(table.keys < width, "no column of values");
    let _ = write!(
        out,
        "<h3 id=\"{}\">{}</h3>",
        table.id,
        escape(&capital(&table.says))
    );
    let is_long = table.rows.len() > MOST_ROWS;
    if is_long {
        let _ = write!(
            out,
            "<details class=\"more\"><summary>All {} rows</summary>",
            table.rows.len()
        );
    }
    out.push_str("<dl class=\"values\">");
    for row in &table.rows {
        ensure!(row.len() == width, "a row of {} values", row.len());
        let of = |at: usize| (table.columns[at].as_str(), shown(&row[at]));
        let keys: Vec<String> = (0..table.keys)
            .map(|at| match (of(at), &row[at]) {
                ((_, word), Value::String(_)) => word,
                ((column, number), _) => format!("{column} {number}"),
            })
            .collect();
        let values: Vec<String> = (table.keys..width)
            .map(|at| {
                let (column, value) = of(at);
                // The head of the table says what its only column is.
                if table.keys > 0 && table.keys + 1 == width {
                    value
                } else {
                    format!("{column} {value}")
                }
            })
            .collect();
        let term = if keys.is_empty() {
            "Value".to_owned()
        } else {
            keys.join(", ")
        };
        let _ = write!(
            out,
            "<div><dt>{}</dt><dd>{}</dd></div>",
            escape(&term),
            escape(&values.join(" \u{b7} "))
        );
    }
    out.push_str("</dl>");
    if is_long {
        out.push_str("</details>");
    }
    let notes = [
        table
            .note
            .as_ref()
            .map(|note| format!("{}. ", capital(note))),
        Some(format!("{}. ", seen(&table.seen)?)),
        table
            .unchecked
            .as_ref()
            .map(|why| format!("Nothing rests on it: {why}.")),
    ];
    let notes: String = notes.into_iter().flatten().collect();
    let _ = write!(
        out,
        "<p class=\"soft small\">{}</p>",
        escape(notes.trim_end())
    );
    out.push_str("<ul class=\"sources small\">");
    for source in &table.sources {
        let _ = write!(out, "<li>{}</li>", escape(source));
    }
    out.push_str("</ul>");
    Ok(())
}

/// How a value was come by, as a reader would say it.
fn seen(words: &str) -> Result<&'static str> {
    Ok(match words {
        "in the paper" => "Seen in the paper",
        "on a secondary page" => "Seen on a page that quotes the source",
        "derived" => "Worked out from the source",
        "from memory" => "From memory, not seen",
        other => anyhow::bail!("seen '{other}' is not known"),
    })
}

fn shown(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Boolean(is_so) => if *is_so { "yes" } else { "no" }.to_owned(),
        Value::Array(list) => list.iter().map(shown).collect::<Vec<_>>().join(" + "),
        Value::Integer(number) => signed(&number.to_string()),
        Value::Float(number) => signed(&number.to_string()),
        Value::Datetime(_) | Value::Table(_) => String::new(),
    }
}

fn signed(number: &str) -> String {
    number.replace('-', "\u{2212}")
}

fn write_customs(out: &mut String, engine: &Path) -> Result<()> {
    let mut files = Vec::new();
    sources(engine, &mut files)?;
    files.sort();
    let mut found: Vec<(&str, Vec<Custom>)> = FOLDERS.map(|(_, title)| (title, Vec::new())).into();
    found.push(("Everything else", Vec::new()));
    for path in files {
        let text = fs::read_to_string(&path)
            .with_context(|| format!("could not read {}", path.display()))?;
        let folder = path.strip_prefix(engine)?.iter().next().unwrap_or_default();
        let at = FOLDERS.iter().position(|(name, _)| *name == folder);
        found[at.unwrap_or(FOLDERS.len())].1.extend(customs(&text));
    }
    out.push_str(
        "<section class=\"card\" id=\"trade\"><h2>Rules of the trade, without a source</h2>\
         <p>What coaches do and no study was found for. Each is chosen on the careful side, and \
         is marked in the program as it stands here: common practice, no source.</p>",
    );
    for (title, customs) in found.iter().filter(|(_, customs)| !customs.is_empty()) {
        let _ = write!(out, "<h3>{title}</h3><ul class=\"stack\">");
        for custom in customs {
            let value = custom.value.as_deref().unwrap_or_default();
            let value = if value.is_empty() {
                String::new()
            } else {
                format!(" <strong>{}</strong>", escape(value))
            };
            let _ = write!(out, "<li>{}{value}</li>", escape(&custom.says));
        }
        out.push_str("</ul>");
    }
    out.push_str("</section>");
    Ok(())
}

/// The engine's source files, its tests left out.
fn sources(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let stem = path.file_stem().unwrap_or_default();
        if path.is_dir() {
            if stem != "examples" {
                sources(&path, files)?;
            }
        } else if path.extension().is_some_and(|end| end == "rs") && stem != "tests" {
            files.push(path);
        }
    }
    Ok(())
}

/// The paragraphs of a source's documentation that own up to having no source.
fn customs(text: &str) -> Vec<Custom> {
    let mut found = Vec::new();
    let mut paragraph = String::new();
    let mut held: Option<String> = None;
    for raw in text.lines().chain([""]) {
        let line = raw.trim();
        let comment = line.strip_prefix("///").or(line.strip_prefix("//!"));
        if let Some(words) = comment.map(str::trim).filter(|words| !words.is_empty()) {
            if !paragraph.is_empty() {
                paragraph.push(' ');
            }
            paragraph.push_str(words);
            continue;
        }
        let ended = std::mem::take(&mut paragraph);
        if ended.contains(NO_SOURCE) {
            held = Some(ended);
        }
        if comment.is_some() || line.starts_with("#[") {
            continue;
        }
        // A field of a struct tells no rule.
        let is_field = raw.starts_with(' ') && !line.contains("fn ") && !line.contains("const ");
        if let Some(says) = held.take().filter(|_| !is_field) {
            found.push(Custom {
                says: plain(&says),
                value: constant(line),
            });
        }
    }
    found
}

/// A comment without what it says to programmers alone, and without the phrase in brackets
/// that the list's head says once.
fn plain(comment: &str) -> String {
    let text = comment
        .replace(" (common practice, no source)", "")
        .replace(['`', '[', ']'], "")
        .replace("crate::", "");
    let text = text.trim_start_matches("... ");
    let text = match text.split_once(". ") {
        Some((first, rest)) if first.starts_with("Start at ") => rest,
        _ => text,
    };
    capital(text)
}

/// The number that a line of the engine sets.
fn constant(line: &str) -> Option<String> {
    let (name, value) = line.split_once('=')?;
    if !name.contains("const ") {
        return None;
    }
    let value = value.trim().trim_end_matches(';');
    let whole = |digits: &str| digits.replace('_', "").parse::<i64>().ok();
    if let Some(kg) = value.strip_prefix("Load::kg(") {
        return Some(format!("{} kg", whole(kg.trim_end_matches(')'))?));
    }
    let number = whole(value)?;
    let unit = if name.contains("_PERCENT") { " %" } else { "" };
    Some(format!("{number}{unit}"))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_topic_and_every_citation_is_on_the_page() {
        let root = crate::paths::root();
        let (contents, body) = page(&root).unwrap();
        for name in TOPICS {
            assert!(contents.contains(&format!("#{name}\"")), "{name}");
        }
        let folder = root.join("tests/evidence");
        let mut files = 0;
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_none_or(|end| end != "toml") {
                continue;
            }
            files += 1;
            let text = fs::read_to_string(path).unwrap();
            let topic: Topic = toml::from_str(&text).unwrap();
            for table in topic.table {
                assert!(
                    body.contains(&format!("id=\"{}\"", table.id)),
                    "{}",
                    table.id
                );
                for source in table.sources {
                    assert!(body.contains(&escape(&source)), "{source}");
                }
            }
        }
        assert_eq!(files, TOPICS.len());
        assert!(!body.contains("<script") && !body.contains("style="));
    }

    #[test]
    fn a_rule_without_source_is_found_with_its_number() {
        let text = "//! Head (common practice, no source).\n//!\n//! More.\n\nuse x;\n\n\
            /// Days off from which a layoff begins (common\n/// practice, no source).\n\
            pub(super) const LAYOFF_DAYS: u32 = 1_400;\n\n/// Sourced (Somebody 2009).\n\
            const OTHER: u8 = 3;\n/// Least [`Load`]: (common practice, no source).\n\
            #[must_use]\nconst LEAST: Load = Load::kg(6);\n\
            /// So (common practice, no source).\nconst SO_PERCENT: u8 = 90;\n\
            //! Start at [`crate::x`] and so on. Ties go to `it`; the size is common\n\
            //! practice, no source.\nuse x;\nstruct A {\n    /// Author, or \"common\n    /// practice, no source\".\n    source: u8,\n}";
        let found: Vec<_> = customs(text)
            .into_iter()
            .map(|c| (c.says, c.value))
            .collect();
        let is = |says: &str, value: Option<&str>| (says.to_owned(), value.map(str::to_owned));
        assert_eq!(
            found,
            [
                is("Head.", None),
                is("Days off from which a layoff begins.", Some("1400")),
                is("Least Load:.", Some("6 kg")),
                is("So.", Some("90 %")),
                is(
                    "Ties go to it; the size is common practice, no source.",
                    None
                ),
            ]
        );
    }

    #[test]
    fn what_a_page_would_misread_is_escaped() {
        assert_eq!(escape("a < b & \"c\""), "a &lt; b &amp; &quot;c&quot;");
    }
}
