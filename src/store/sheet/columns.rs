//! What stands in which column.

use super::cells::{self, DayOrder};
use super::table::Table;
use weekloom_engine::units::Unit;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Column {
    /// Nothing that is wanted.
    Other,
    /// The day.
    Day,
    /// The name of the exercise.
    Exercise,
    /// The load.
    Load,
    /// `kg` or `lb`.
    Unit,
    /// Reps, or seconds where the exercise counts those.
    Reps,
    /// Seconds held.
    Seconds,
    /// How many such sets were done.
    Sets,
    /// Reps in reserve.
    Rir,
    /// Perceived exertion, 1 to 10.
    Exertion,
    /// Warm-up or work.
    Kind,
    /// A note.
    Note,
}

impl Column {
    /// All of them, with a slug for each.
    pub const ALL: [(Self, &'static str); 12] = [
        (Self::Other, "other"),
        (Self::Day, "day"),
        (Self::Exercise, "exercise"),
        (Self::Load, "load"),
        (Self::Unit, "unit"),
        (Self::Reps, "reps"),
        (Self::Seconds, "seconds"),
        (Self::Sets, "sets"),
        (Self::Rir, "rir"),
        (Self::Exertion, "exertion"),
        (Self::Kind, "kind"),
        (Self::Note, "note"),
    ];

    /// The one with this slug.
    #[must_use]
    pub fn from_slug(slug: &str) -> Option<Self> {
        let found = Self::ALL.iter().find(|(_, known)| *known == slug);
        found.map(|(column, _)| *column)
    }

    /// Its slug.
    #[must_use]
    pub fn slug(self) -> &'static str {
        let found = Self::ALL.iter().find(|(column, _)| *column == self);
        found.map_or("", |(_, slug)| slug)
    }
}

/// Words people head columns with, in English and German: what a head begins
/// with decides.
const HEADS: [(Column, &[&str]); 11] = [
    (
        Column::Day,
        &["date", "day", "datum", "tag", "when", "wann"],
    ),
    (
        Column::Exercise,
        &[
            "exercise",
            "lift",
            "movement",
            "\u{fc}bung",
            "uebung",
            "name",
        ],
    ),
    (
        Column::Load,
        &["load", "weight", "gewicht", "last", "kg", "lb"],
    ),
    (Column::Unit, &["unit", "einheit"]),
    (
        Column::Reps,
        &["reps", "rep", "repetitions", "wdh", "wiederholung"],
    ),
    (Column::Seconds, &["seconds", "secs", "sekunden", "hold"]),
    (Column::Sets, &["sets", "s\u{e4}tze", "saetze"]),
    (Column::Rir, &["rir", "reps in reserve", "reserve"]),
    (Column::Exertion, &["rpe", "exertion", "anstrengung"]),
    (Column::Kind, &["kind", "type", "art", "warm"]),
    (
        Column::Note,
        &[
            "note",
            "notes",
            "notiz",
            "comment",
            "kommentar",
            "remark",
            "bemerkung",
        ],
    ),
];

/// How the columns of a table are to be read. The person may change all of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mapping {
    /// What each column holds.
    pub columns: Vec<Column>,
    /// Whether the first row names the columns.
    pub has_head: bool,
    /// The unit of loads that do not say theirs.
    pub unit: Unit,
    /// How days are spelled where only custom tells.
    pub order: DayOrder,
    /// Whether no row says how days are spelled, though some need it.
    pub is_order_unsure: bool,
}

impl Mapping {
    /// A first guess, from the head and from what stands below it.
    #[must_use]
    pub fn guess(table: &Table, unit: Unit) -> Self {
        let width = table.width();
        let head = table
            .rows
            .first()
            .map(|row| row.cells.as_slice())
            .unwrap_or_default();
        let named = |cell: &String| column_named(cell) != Column::Other;
        let has_head = head.iter().filter(|cell| named(cell)).count() >= 2
            || !head
                .iter()
                .any(|cell| cell.starts_with(|c: char| c.is_ascii_digit()));
        let mut mapping = Self {
            columns: vec![Column::Other; width],
            has_head,
            unit,
            order: DayOrder::default(),
            is_order_unsure: false,
        };
        if has_head {
            for (at, cell) in head.iter().enumerate() {
                let column = column_named(cell);
                // The first of two of the same name.
                if !mapping.columns.contains(&column) {
                    mapping.columns[at] = column;
                }
                if column == Column::Load {
                    let words = cell.split(|c: char| !c.is_alphanumeric());
                    let told = words.filter_map(cells::unit_of).next();
                    mapping.unit = told.unwrap_or(mapping.unit);
                }
            }
        }
        mapping.guess_by_contents(table);
        mapping.find_order(table);
        mapping
    }

    /// Day and exercise where no head told.
    fn guess_by_contents(&mut self, table: &Table) {
        let share = |at: usize, fits: &dyn Fn(&str) -> bool| {
            let cells = table.rows.iter().skip(usize::from(self.has_head)).take(100);
            let cells: Vec<&str> = cells
                .filter_map(|row| Some(row.cells.get(at)?.as_str()))
                .collect();
            let filled = cells.iter().filter(|cell| !cell.is_empty()).count();
            let fitting = cells
                .iter()
                .filter(|cell| !cell.is_empty() && fits(cell))
                .count();
            filled > 0 && fitting * 10 >= filled * 8
        };
        let is_day = |cell: &str| {
            cells::day(cell, DayOrder::DayFirst)
                .or_else(|| cells::day(cell, DayOrder::MonthFirst))
                .is_some()
        };
        let is_name =
            |cell: &str| !is_day(cell) && cell.chars().filter(|c| c.is_alphabetic()).count() >= 3;
        type Fits<'a> = &'a dyn Fn(&str) -> bool;
        let wanted: [(Column, Fits<'_>); 2] =
            [(Column::Day, &is_day), (Column::Exercise, &is_name)];
        let mut found = Vec::new();
        for (column, fits) in wanted {
            if !self.columns.contains(&column) {
                let mut free =
                    (0..self.columns.len()).filter(|&at| self.columns[at] == Column::Other);
                found.extend(free.find(|&at| share(at, fits)).map(|at| (at, column)));
            }
        }
        for (at, column) in found {
            self.columns[at] = column;
        }
    }

    /// How days are spelled, by the days that leave no choice.
    pub fn find_order(&mut self, table: &Table) {
        let Some(at) = self.columns.iter().position(|c| *c == Column::Day) else {
            return;
        };
        let rows = table.rows.iter().skip(usize::from(self.has_head));
        let days: Vec<&str> = rows
            .filter_map(|row| Some(row.cells.get(at)?.as_str()))
            .collect();
        let told: Vec<DayOrder> = days
            .iter()
            .filter_map(|day| cells::told_order(day))
            .collect();
        self.is_order_unsure = false;
        match told.first() {
            Some(first) if told.iter().all(|order| order == first) => self.order = *first,
            // Some say this and some that: each for itself, the others are asked for.
            _ => self.is_order_unsure = days.iter().any(|day| cells::needs_order(day)),
        }
    }

    /// Whether enough is known to read sets: day, exercise and a count.
    #[must_use]
    pub fn is_enough(&self) -> bool {
        let has = |column| self.columns.contains(&column);
        has(Column::Day) && has(Column::Exercise) && (has(Column::Reps) || has(Column::Seconds))
    }
}

fn column_named(cell: &str) -> Column {
    let cell = cell.trim().to_lowercase();
    // The number of a set, and ids, are no use here; "set" alone is the former.
    if cell.ends_with("_id") || cell.ends_with(" id") || cell == "set" || cell == "satz" {
        return Column::Other;
    }
    let first = cell
        .split(|c: char| !c.is_alphanumeric())
        .next()
        .unwrap_or_default();
    let is_named = |words: &&[&str]| words.iter().any(|word| cell == *word || first == *word);
    let found = HEADS.iter().find(|(_, words)| is_named(words));
    found.map_or(Column::Other, |(column, _)| *column)
}
