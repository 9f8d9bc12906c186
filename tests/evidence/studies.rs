//! Studies of rest and order, and what the model of freshness says of each.
//!
//! Start at [`fitted`] for the studies its numbers are fitted to and at
//! [`held_out`] for those left aside. `cargo xtask fit` reads both from here, so
//! that what is fitted and what is tested is one thing.

use super::table::{Row, Table};
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId};
use weekloom_engine::freshness::{Muscles, Recovery};

/// Seconds of a set: ten reps of three seconds, as in the clock of Iversen et
/// al. 2021.
const SET_S: u32 = 30;
/// A set to failure, in thousandths.
const FAILURE: u32 = 1_000;

/// A published number and what the model says of it.
#[derive(Debug, Clone)]
pub struct Figure {
    /// Id of the table it stands in.
    pub table: &'static str,
    /// What it is of.
    pub what: String,
    /// As published, reps.
    pub published: f64,
    /// Its standard deviation, reps.
    pub sd: f64,
    /// As the model has it, reps.
    pub predicted: f64,
}

impl Figure {
    /// How many standard deviations the model is off.
    pub fn off(&self) -> f64 {
        (self.predicted - self.published) / self.sd
    }
}

/// Tables the two numbers are fitted to.
pub const FITTED_TABLES: [&str; 2] = ["drop-off-by-rest", "press-and-fly-in-both-orders"];

/// The table of this name.
pub fn table<'a>(tables: &'a [Table], id: &str) -> &'a Table {
    let found = tables.iter().find(|table| table.id == id);
    found.unwrap_or_else(|| panic!("no table '{id}'"))
}

/// Straight sets to failure, all with one rest: exercise and sets.
pub type Sitting<'a> = &'a [(&'a str, u32)];

/// The share of its reps that is left in each set of a sitting.
pub fn shares(
    exercises: &Catalogue,
    recovery: Recovery,
    sitting: Sitting<'_>,
    rest_s: u32,
) -> Vec<Vec<f64>> {
    let mut muscles = Muscles::fresh(recovery);
    let of = |&(slug, sets): &(&str, u32)| {
        let exercise: &Exercise = exercises.get(&ExerciseId::new(slug)).expect("known");
        let set = |_| {
            let share = 1.0 - f64::from(muscles.lost(exercise)) / 1e6;
            muscles.work(exercise, FAILURE, SET_S);
            muscles.rest(rest_s);
            share
        };
        (0..sets).map(set).collect()
    };
    sitting.iter().map(of).collect()
}

/// Reps of all sets, where fresh ones have so many each.
fn reps(shares: &[f64], fresh: f64) -> f64 {
    shares.iter().sum::<f64>() * fresh
}

const LOWER: Sitting<'static> = &[
    ("leg-press", 3),
    ("leg-extension", 3),
    ("lying-leg-curl", 3),
];
const UPPER: Sitting<'static> = &[
    ("barbell-bench-press", 3),
    ("machine-chest-fly", 3),
    ("cable-pushdown", 3),
];

fn rest_s(row: Row<'_>) -> u32 {
    u32::try_from(row.whole("rest s")).expect("seconds")
}

/// The numbers that the model is fitted to.
pub fn fitted(exercises: &Catalogue, tables: &[Table], recovery: Recovery) -> Vec<Figure> {
    let mut figures = Vec::new();
    for row in table(tables, FITTED_TABLES[0]).rows() {
        let body = row.word("body");
        let sitting = if body == "lower" { LOWER } else { UPPER };
        let shares = shares(exercises, recovery, sitting, rest_s(row)).concat();
        figures.push(Figure {
            table: FITTED_TABLES[0],
            what: format!("{body} body, {} s", rest_s(row)),
            published: row.number("reps"),
            sd: row.number("sd"),
            predicted: reps(&shares, 10.0),
        });
    }
    for row in table(tables, FITTED_TABLES[1]).rows() {
        let (exercise, place) = (row.word("exercise"), row.whole("place"));
        let press = ("barbell-bench-press", 5);
        let fly = ("machine-chest-fly", 5);
        let sitting = match (exercise, place) {
            ("bench press", 1) | ("chest fly", 2) => [press, fly],
            _ => [fly, press],
        };
        let shares = shares(exercises, recovery, &sitting, 120);
        figures.push(Figure {
            table: FITTED_TABLES[1],
            what: format!(
                "{exercise}, {}",
                if place == 1 { "first" } else { "second" }
            ),
            published: row.number("reps"),
            sd: row.number("sd"),
            predicted: reps(&shares[usize::from(place == 2)], 10.0),
        });
    }
    figures
}

/// Numbers with a spread that were left out of the fit.
pub fn held_out(exercises: &Catalogue, tables: &[Table], recovery: Recovery) -> Vec<Figure> {
    let mut figures = Vec::new();
    let chart = table(tables, "chart-head");
    let fresh = [70, 75, 75, 80, 85].map(|percent| {
        let mut rows = chart.rows();
        let row = rows.find(|row| row.whole("percent") == percent);
        row.expect("in the chart").number("reps")
    });
    let by_chart = |rest_s| -> f64 {
        let sitting = [("barbell-bench-press", 5)];
        let shares = shares(exercises, recovery, &sitting, rest_s);
        let sets = shares[0].iter().zip(&fresh);
        sets.map(|(share, reps)| share * reps).sum()
    };
    let mut longer = None;
    let mut rows: Vec<Row<'_>> = table(tables, "five-sets-by-rest").rows().collect();
    rows.reverse();
    for row in rows {
        let figure = |what: String, predicted| Figure {
            table: "five-sets-by-rest",
            what,
            published: row.number("reps"),
            sd: row.number("sd"),
            predicted,
        };
        let predicted = by_chart(rest_s(row));
        figures.push(figure(
            format!("{} s, by the chart", rest_s(row)),
            predicted,
        ));
        // How many reps these men had fresh is not told. What rest changes can
        // be said without it: the shorter rest from what they did with the longer.
        if let Some((measured, at_longer)) = longer {
            let what = format!("{} s, from the longer", rest_s(row));
            figures.push(figure(what, predicted * measured / at_longer));
        }
        longer = Some((row.number("reps"), predicted));
    }
    let row = table(tables, "drop-off-when-last").only();
    // Not the study's own session, which is not told: a press, a row, a hinge
    // and a lunge.
    let sitting = [
        ("barbell-bench-press", 3),
        ("barbell-row", 3),
        ("deadlift", 3),
        ("reverse-lunge", 3),
        ("back-squat", 1),
    ];
    let after = shares(exercises, recovery, &sitting, 120);
    figures.push(Figure {
        table: "drop-off-when-last",
        what: "squat after the whole body".into(),
        published: row.number("last"),
        sd: row.number("last sd"),
        predicted: reps(&after[4], row.number("first")),
    });
    figures
}
