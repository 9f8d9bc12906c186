//! `cargo xtask fit`: the two numbers of the model of freshness, from the published reps.
//!
//! Start at [`fit`]. Every pair of numbers on a grid is tried and the one with the least sum
//! of squares is taken, each difference counted in the published standard deviations: no
//! start to choose, no chance, and the same on every machine. [`run`] prints what comes out,
//! what it says of each study, and what is left when one of the fitted studies is left out.
//! Nothing is written: the constants stand in the engine, and a test holds them to this.

#[allow(dead_code, reason = "the fit reads a part of the tables")]
#[path = "../../tests/evidence/table.rs"]
mod table;

#[path = "../../tests/evidence/studies.rs"]
mod studies;

use studies::{FITTED_TABLES, Figure, fitted, held_out};
use table::Table;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::freshness::Recovery;

/// Steps of the grid: hundredths of what is left, and five seconds. The studies tell no
/// finer.
const STEP: Recovery = Recovery {
    taken: 10,
    half_s: 5,
};

/// Squares of the differences from the published numbers, in standard deviations, summed.
fn squares(figures: &[Figure]) -> f64 {
    figures.iter().map(|figure| figure.off().powi(2)).sum()
}

/// The best pair of numbers for the studies in these tables.
pub fn fit(tables: &[&str]) -> Recovery {
    let (exercises, all) = (Catalogue::built_in(), Table::read_all());
    let mut best = (f64::INFINITY, STEP);
    for taken in (STEP.taken..1_000).step_by(10) {
        for half_s in (30..=600).step_by(5) {
            let recovery = Recovery { taken, half_s };
            let mut figures = fitted(&exercises, &all, recovery);
            figures.retain(|figure| tables.contains(&figure.table));
            let sum = squares(&figures);
            if sum < best.0 {
                best = (sum, recovery);
            }
        }
    }
    best.1
}

/// Prints the fit, and what it says of every study.
pub fn run() {
    let (exercises, tables) = (Catalogue::built_in(), Table::read_all());
    let found = fit(&FITTED_TABLES);
    let (of_fit, of_rest) = (
        fitted(&exercises, &tables, found),
        held_out(&exercises, &tables, found),
    );
    println!(
        "a set to failure takes {} thousandths of what is left; half is back after {} s",
        found.taken, found.half_s
    );
    println!("fitted to ({:.2} squares):", squares(&of_fit));
    print_all(&of_fit);
    println!("held out:");
    print_all(&of_rest);
    for left_out in FITTED_TABLES {
        let others: Vec<&str> = FITTED_TABLES
            .into_iter()
            .filter(|id| *id != left_out)
            .collect();
        let found = fit(&others);
        println!(
            "without {left_out}: {} thousandths, {} s, and it says of what was left out:",
            found.taken, found.half_s
        );
        let mut figures = fitted(&exercises, &tables, found);
        figures.retain(|figure| figure.table == left_out);
        print_all(&figures);
    }
}

fn print_all(figures: &[Figure]) {
    for figure in figures {
        println!(
            "  {:<30} {:<26} {:>6.2} reps, published {:>5.2} +- {:>4.2}: {:>+5.2} deviations",
            figure.table,
            figure.what,
            figure.predicted,
            figure.published,
            figure.sd,
            figure.off()
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use weekloom_engine::freshness::FITTED;

    #[test]
    fn the_engine_holds_what_the_fit_gives() {
        assert_eq!(fit(&FITTED_TABLES), FITTED);
    }

    #[test]
    fn the_best_is_no_edge_of_the_grid() {
        let best = fit(&FITTED_TABLES);
        assert!((50..950).contains(&best.taken) && (60..570).contains(&best.half_s));
    }
}
