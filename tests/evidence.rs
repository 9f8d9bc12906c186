//! Published values against the engine.
//!
//! The values stand in `evidence/*.toml`, each with its full citation and with
//! how it was come by. Start at [`CHECKS`]: the table and what holds the engine
//! to it. A table without a check says why it has none; a value from memory is
//! never checked against, only told of.

#[path = "evidence/estimates.rs"]
mod estimates;
#[path = "evidence/freshness.rs"]
mod freshness;
#[path = "evidence/progression.rs"]
mod progression;
#[path = "evidence/session.rs"]
mod session;
#[path = "evidence/studies.rs"]
mod studies;
#[path = "evidence/table.rs"]
mod table;
#[path = "evidence/week.rs"]
mod week;

use std::collections::BTreeSet;
use std::io::Write;
use table::{Seen, Table};
use weekloom_engine::estimate::Equation;
use weekloom_engine::progress::Source;

/// A table's name, and its check.
type Check = (&'static str, fn(&Table));

/// Every check.
const CHECKS: [&[Check]; 5] = [
    estimates::CHECKS,
    freshness::CHECKS,
    progression::CHECKS,
    session::CHECKS,
    week::CHECKS,
];

fn checks() -> impl Iterator<Item = Check> {
    CHECKS.into_iter().flatten().copied()
}

/// The engine agrees with every table it is held to, value by value.
#[test]
fn the_engine_agrees_with_what_is_published() {
    let tables = Table::read_all();
    for (id, check) in checks() {
        let table = tables.iter().find(|table| table.id == id);
        let table = table.unwrap_or_else(|| panic!("no table '{id}'"));
        check(table);
        if let Some(value) = table.unread() {
            panic!("{id}: the check never reads {value}");
        }
    }
}

/// A table is checked once or says why it is not; none from memory is checked.
#[test]
fn every_table_is_checked_or_says_why_not() {
    let tables = Table::read_all();
    let mut names = BTreeSet::new();
    for table in &tables {
        assert!(names.insert(&table.id), "two tables '{}'", table.id);
        assert!(!table.sources.is_empty(), "{} has no source", table.id);
        let count = checks().filter(|(id, _)| *id == table.id).count();
        match &table.unchecked {
            None => assert_eq!(count, 1, "{}: checks", table.id),
            Some(why) => assert!(count == 0 && !why.is_empty(), "{} has a check", table.id),
        }
        if table.seen == Seen::FromMemory {
            assert!(table.unchecked.is_some(), "{} is from memory", table.id);
        }
    }
}

/// Every source the rules and equations print has a table here, but for the
/// plain word that there is none.
#[test]
fn every_printed_source_has_a_table() {
    let tables = Table::read_all();
    let rules = Source::ALL.iter().map(|source| source.citation());
    let equations = Equation::ALL.iter().map(|equation| equation.citation());
    for citation in rules.chain(equations).flat_map(|all| all.split("; ")) {
        if citation == Source::CommonPractice.citation() {
            continue;
        }
        let words = citation.split(|c: char| !c.is_alphanumeric() && c != '\'');
        let name = words.clone().next().expect("a name");
        let year = words
            .clone()
            .find(|word| word.len() == 4 && word.starts_with(['1', '2']));
        let mut sources = tables.iter().flat_map(|table| &table.sources);
        let has_table = sources
            .any(|source| source.contains(name) && year.is_none_or(|year| source.contains(year)));
        assert!(has_table, "no table of {citation}");
    }
}

/// Tells the count. It is written past the capture of the test runner, so that
/// a run always says what it rests on.
#[test]
fn the_count_is_told() {
    let tables = Table::read_all();
    let mut told = String::new();
    let (mut checked, mut untouched) = (0, 0);
    let mut sources = BTreeSet::new();
    for (seen, words) in Seen::WORDS {
        let of = |is_checked: bool| {
            let alike = tables
                .iter()
                .filter(|t| t.seen == seen && t.unchecked.is_none() == is_checked);
            alike.map(Table::values).sum::<usize>()
        };
        told += &format!(
            "evidence: {words}: {} checked, {} not\n",
            of(true),
            of(false)
        );
        checked += of(true);
        untouched += of(false);
    }
    for table in tables.iter().filter(|table| table.unchecked.is_none()) {
        sources.extend(&table.sources);
    }
    for table in &tables {
        if let Some(why) = &table.unchecked {
            let (file, id) = (table.file, &table.id);
            told += &format!("evidence: not checked: {file}: {id}: {why}\n");
        }
    }
    told += &format!(
        "evidence: {checked} published values checked against {} sources, {untouched} values not checked\n",
        sources.len()
    );
    assert!(checked > 0 && !sources.is_empty());
    std::io::stderr()
        .write_all(told.as_bytes())
        .expect("stderr can be written");
}
