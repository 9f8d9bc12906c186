//! The tables of published values, as read from the files beside this one.
//!
//! Start at [`Table::read_all`]. A table that is checked must have every one of
//! its values read by its check; [`Table::unread`] tells. Nothing here knows the
//! engine.

use std::cell::RefCell;
use std::collections::BTreeSet;
use toml::Value;

/// Files and their text, in the order they are told of.
const FILES: [(&str, &str); 11] = [
    ("one_rm", include_str!("one_rm.toml")),
    ("percent", include_str!("percent.toml")),
    ("effort", include_str!("effort.toml")),
    ("progression", include_str!("progression.toml")),
    ("rest", include_str!("rest.toml")),
    ("volume", include_str!("volume.toml")),
    ("time", include_str!("time.toml")),
    ("recovery", include_str!("recovery.toml")),
    ("warm_up", include_str!("warm_up.toml")),
    ("loading", include_str!("loading.toml")),
    ("measurement", include_str!("measurement.toml")),
];

/// The file whose checks are of words, not numbers.
const SAFETY: (&str, &str) = ("safety", include_str!("safety.toml"));

/// How the value was come by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// In the paper's own text or an official document.
    InThePaper,
    /// On a page that quotes the source.
    OnASecondaryPage,
    /// Worked out from a source.
    Derived,
    /// Not seen. No check may rest on it.
    FromMemory,
}

impl Seen {
    /// All four, with the words the files use.
    pub const WORDS: [(Self, &'static str); 4] = [
        (Self::InThePaper, "in the paper"),
        (Self::OnASecondaryPage, "on a secondary page"),
        (Self::Derived, "derived"),
        (Self::FromMemory, "from memory"),
    ];
}

/// One table of one or more sources.
pub struct Table {
    /// The file it stands in.
    pub file: &'static str,
    /// Its name, the same in no other file.
    pub id: String,
    /// Full citations.
    pub sources: Vec<String>,
    /// How it was come by.
    pub seen: Seen,
    /// Why no check uses it, where none does.
    pub unchecked: Option<String>,
    columns: Vec<String>,
    /// Leading columns that say what a row is about; they are no values.
    keys: usize,
    rows: Vec<Vec<Value>>,
    read: RefCell<BTreeSet<(usize, usize)>>,
}

/// One row of a table.
#[derive(Clone, Copy)]
pub struct Row<'a> {
    table: &'a Table,
    at: usize,
}

impl Table {
    /// Every table of every file. Panics with the file and the fault where one
    /// is not as it should be.
    pub fn read_all() -> Vec<Self> {
        let mut tables = Vec::new();
        for (file, text) in FILES.into_iter().chain([SAFETY]) {
            let parsed: toml::Table = text
                .parse()
                .unwrap_or_else(|error| panic!("{file}.toml: {error}"));
            for table in parsed["table"].as_array().expect("a list of tables") {
                tables.push(Self::read(file, table.as_table().expect("a table")));
            }
        }
        tables
    }

    fn read(file: &'static str, raw: &toml::Table) -> Self {
        const FIELDS: [&str; 9] = [
            "id",
            "says",
            "sources",
            "seen",
            "note",
            "unchecked",
            "columns",
            "keys",
            "rows",
        ];
        let id = text(&raw["id"]);
        for field in raw.keys() {
            assert!(FIELDS.contains(&field.as_str()), "{id}: unknown '{field}'");
        }
        assert!(!text(&raw["says"]).is_empty(), "{id} says nothing");
        let words = text(&raw["seen"]);
        let seen = Seen::WORDS.iter().find(|(_, known)| *known == words);
        let table = Self {
            file,
            sources: list(&raw["sources"]).iter().map(text).collect(),
            seen: seen.unwrap_or_else(|| panic!("{id}: seen '{words}'")).0,
            unchecked: raw.get("unchecked").map(text),
            columns: list(&raw["columns"]).iter().map(text).collect(),
            keys: usize::try_from(raw["keys"].as_integer().expect("a count")).expect("a count"),
            rows: list(&raw["rows"])
                .iter()
                .map(|row| list(row).to_vec())
                .collect(),
            read: RefCell::default(),
            id,
        };
        let width = table.columns.len();
        assert!(table.keys < width && !table.rows.is_empty(), "{}", table.id);
        for row in &table.rows {
            assert_eq!(row.len(), width, "{}: {row:?}", table.id);
        }
        table
    }

    /// Its rows.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        (0..self.rows.len()).map(|at| Row { table: self, at })
    }

    /// Its only row.
    pub fn only(&self) -> Row<'_> {
        assert_eq!(self.rows.len(), 1, "{}", self.id);
        Row { table: self, at: 0 }
    }

    /// How many values it holds, its keys left out.
    pub fn values(&self) -> usize {
        self.rows.len() * (self.columns.len() - self.keys)
    }

    /// The first value that nothing read, if any.
    pub fn unread(&self) -> Option<String> {
        let read = self.read.borrow();
        (0..self.rows.len())
            .flat_map(|row| (self.keys..self.columns.len()).map(move |column| (row, column)))
            .find(|place| !read.contains(place))
            .map(|(row, column)| format!("{} of row {}", self.columns[column], row + 1))
    }
}

impl<'a> Row<'a> {
    fn get(self, column: &str) -> &'a Value {
        let at = self.table.columns.iter().position(|name| name == column);
        let at = at.unwrap_or_else(|| panic!("{} has no column '{column}'", self.table.id));
        self.table.read.borrow_mut().insert((self.at, at));
        &self.table.rows[self.at][at]
    }

    /// Marks all its values as read: for a check that reads them elsewhere.
    pub fn read_all(self) {
        for column in &self.table.columns[self.table.keys..] {
            self.get(column);
        }
    }

    /// A number.
    pub fn number(self, column: &str) -> f64 {
        number(self.get(column))
    }

    /// A whole number.
    pub fn whole(self, column: &str) -> i64 {
        let value = self.get(column);
        value
            .as_integer()
            .unwrap_or_else(|| panic!("{}: {column} is {value:?}", self.table.id))
    }

    /// A word.
    pub fn word(self, column: &str) -> &'a str {
        self.get(column).as_str().expect("a word")
    }

    /// Yes or no.
    pub fn flag(self, column: &str) -> bool {
        self.get(column).as_bool().expect("true or false")
    }

    /// A list of numbers.
    pub fn numbers(self, column: &str) -> Vec<f64> {
        list(self.get(column)).iter().map(number).collect()
    }
}

fn number(value: &Value) -> f64 {
    match value {
        Value::Float(number) => *number,
        #[expect(clippy::cast_precision_loss, reason = "small")]
        Value::Integer(number) => *number as f64,
        other => panic!("{other:?} is no number"),
    }
}

fn text(value: &Value) -> String {
    value.as_str().expect("a text").to_owned()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}
