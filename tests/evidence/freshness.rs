//! Checks of freshness: what the model says of the studies it is fitted to, and
//! of those held out.

use crate::Check;
use crate::studies::{Figure, fitted, held_out, shares};
use crate::table::{Row, Table};
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::freshness::{FITTED, Recovery};

/// What this file checks.
pub const CHECKS: &[Check] = &[
    ("drop-off-by-rest", drop_off),
    ("press-and-fly-in-both-orders", both_orders),
    ("five-sets-by-rest", five_sets),
    ("drop-off-when-last", when_last),
    ("more-reps-with-more-rest", more_rest),
    ("order-and-rest-ranked", ranked),
];

/// The figures of one table, with its values marked as read in the table that
/// is checked.
fn of(table: &Table, all: fn(&Catalogue, &[Table], Recovery) -> Vec<Figure>) -> Vec<Figure> {
    let figures = all(&Catalogue::built_in(), &Table::read_all(), FITTED);
    let of: Vec<Figure> = figures
        .into_iter()
        .filter(|f| f.table == table.id)
        .collect();
    assert!(!of.is_empty());
    for row in table.rows() {
        row.read_all();
    }
    of
}

/// A fit leaves each number near: within one and a quarter of its deviations.
fn drop_off(table: &Table) {
    for figure in of(table, fitted) {
        assert!(figure.off().abs() <= 1.25, "{figure:?}");
    }
    for row in table.rows() {
        assert!((row.number("reps") / 90.0 - row.number("share")).abs() < 0.005);
    }
}

fn both_orders(table: &Table) {
    let figures = of(table, fitted);
    for figure in &figures {
        assert!(figure.off().abs() <= 1.0, "{figure:?}");
    }
    // Whatever comes second does fewer reps, there and here.
    for exercise in ["bench press", "chest fly"] {
        let at = |place| {
            let figure = figures
                .iter()
                .find(|f| f.what == format!("{exercise}, {place}"));
            figure.expect("both orders")
        };
        let (first, second) = (at("first"), at("second"));
        assert!(first.published > second.published && first.predicted > second.predicted);
    }
}

/// Held out: within the published deviation, where no tiredness would not be.
/// By the chart's reps the shorter rest is a tenth of a deviation further off.
fn five_sets(table: &Table) {
    let none = Recovery {
        taken: 0,
        half_s: 1,
    };
    let none = held_out(&Catalogue::built_in(), &Table::read_all(), none);
    for (figure, none) in of(table, held_out).iter().zip(none) {
        let most = if figure.what == "60 s, by the chart" {
            1.15
        } else {
            1.0
        };
        assert!(figure.off().abs() <= most, "{figure:?}");
        assert!(none.off() > 1.15, "no tiredness would do as well");
    }
}

fn when_last(table: &Table) {
    for figure in of(table, held_out) {
        assert!(figure.off().abs() <= 1.0, "{figure:?}");
    }
    let row = table.only();
    assert!((row.number("last") / row.number("first") - row.number("ratio")).abs() < 5e-4);
}

fn straight(slug: &str, sets: u32, rest_s: u32) -> f64 {
    shares(&Catalogue::built_in(), FITTED, &[(slug, sets)], rest_s)[0]
        .iter()
        .sum()
}

/// Held out, without a spread: longer rests give more, by between half and one
/// and a half times the mean of the two lifts.
fn more_rest(table: &Table) {
    for (column, rest_s) in [("2 min", 120), ("5 min", 300)] {
        let mean = table.rows().map(|row| row.number(column)).sum::<f64>() / 2.0;
        let bench = "barbell-bench-press";
        let more = (straight(bench, 4, rest_s) / straight(bench, 4, 60) - 1.0) * 100.0;
        assert!(
            (mean * 0.5..=mean * 1.5).contains(&more),
            "{rest_s} s: {more}"
        );
    }
}

/// Held out: every pair of ranks but the middle one.
fn ranked(table: &Table) {
    let reps = |exercise: &str, place: &str, rest_s: i64| -> f64 {
        let mut six = [
            ("lat-pulldown", 3),
            ("neutral-grip-pulldown", 3),
            ("seated-row", 3),
            ("barbell-row", 3),
            ("dumbbell-curl", 3),
            ("machine-curl", 3),
        ];
        let is_turned = (exercise == "curl") == (place == "first");
        if is_turned {
            six.reverse();
        }
        let at = if place == "first" { 0 } else { 5 };
        let rest_s = u32::try_from(rest_s).expect("seconds");
        shares(&Catalogue::built_in(), FITTED, &six, rest_s)[at]
            .iter()
            .sum()
    };
    for one in table.rows() {
        for other in table.rows() {
            let (a, b) = (one.whole("rank"), other.whole("rank"));
            let exercise = one.word("exercise");
            if exercise != other.word("exercise") || a >= b || (a, b) == (2, 3) {
                continue;
            }
            let of = |row: Row<'_>| reps(exercise, row.word("place"), row.whole("rest s"));
            assert!(of(one) > of(other), "{exercise}: rank {a} against {b}");
        }
    }
}
