//! Checks of the estimates: equations, percentages, effort, scatter.

use crate::Check;
use crate::table::Table;
use weekloom_engine::catalogue::{Catalogue, ExerciseId};
use weekloom_engine::estimate::{
    Change, Confidence, ESTIMATE_PERMILLE, Equation, NORMAL_REPS, NORMAL_RIR, RIR_BIAS,
    TEST_PERMILLE, change, detectable_permille, estimate, percent_for, share_of,
};
use weekloom_engine::review::lifted;
use weekloom_engine::units::Load;

/// What this file checks.
pub const CHECKS: &[Check] = &[
    ("equations-at-100", equations),
    ("equations-worked-cases", equations),
    ("equations-spread", spread),
    ("epley-meets-brzycki", crossing),
    ("brzycki-as-printed", brzycki_as_printed),
    (
        "bench-press-predicted-and-lifted",
        equations_differ_as_in_the_trial,
    ),
    ("five-rep-max-regressions", regressions),
    ("fit-falls-with-reps", fit_falls),
    ("tolerance-of-an-estimate", tolerance),
    ("book-table", percent_table),
    ("book-worked-example", worked_example),
    ("chart-head", chart_head),
    ("chart-rows", chart_rows),
    ("older-continuum", continuum),
    ("equations-turned-round", turned_round),
    ("reps-in-reserve-shift-the-table", reserve_shifts),
    ("individual-range-at-70", within_individual_range),
    ("reserve-under-predicted", bias),
    ("long-sets-judged-worse", long_sets),
    ("judged-well-near-failure", near_failure),
    ("retest-of-the-1RM", retest),
    ("minimal-detectable-change", detectable),
    ("scatter-of-an-estimate", scatter),
    ("a-pair-cannot-show", a_pair),
    ("pull-ups-at-80", pull_ups),
];

#[expect(clippy::cast_precision_loss, reason = "at most a million grams")]
fn kg(load: Load) -> f64 {
    load.grams() as f64 / 1000.0
}

#[expect(clippy::cast_possible_truncation, reason = "at most a million grams")]
fn load(kilograms: f64) -> Load {
    Load::clamped((kilograms * 1000.0).round() as i64)
}

fn reps(whole: i64) -> u16 {
    u16::try_from(whole).expect("reps")
}

fn named(name: &str) -> Equation {
    Equation::from_slug(name).expect("an equation")
}

fn at_100(equation: Equation, reps: u16) -> f64 {
    kg(equation.one_rm(Load::kg(100), reps).expect("in range"))
}

fn percent(reps: u16) -> f64 {
    f64::from(percent_for(reps).expect("in range"))
}

#[track_caller]
fn close(found: f64, published: f64, within: f64) {
    assert!(
        (found - published).abs() <= within + 1e-9,
        "{found} against {published}"
    );
}

fn equations(table: &Table) {
    for row in table.rows() {
        let lifted = match table.id.as_str() {
            "equations-at-100" => 100.0,
            _ => row.number("load"),
        };
        for &equation in Equation::ALL {
            let found = equation.one_rm(load(lifted), reps(row.whole("reps")));
            close(
                kg(found.expect("in range")),
                row.number(equation.slug()),
                0.005,
            );
        }
    }
}

fn spread(table: &Table) {
    for row in table.rows() {
        let reps = reps(row.whole("reps"));
        let values = Equation::ALL.iter().map(|&equation| at_100(equation, reps));
        let least = values.clone().fold(f64::MAX, f64::min);
        let most = values.fold(f64::MIN, f64::max);
        close(most - least, row.number("points"), 0.011);
        close(at_100(named(row.word("lowest")), reps), least, 0.001);
        close(at_100(named(row.word("highest")), reps), most, 0.001);
        // What an estimate calls its band is this spread.
        let found = estimate(Load::kg(100), reps, Some(0)).expect("in range");
        close(kg(found.low), least, 0.001);
        close(kg(found.high), most, 0.001);
    }
}

fn crossing(table: &Table) {
    let row = table.only();
    let reps = reps(row.whole("reps"));
    close(at_100(Equation::Epley, reps), row.number("value"), 0.005);
    close(at_100(Equation::Brzycki, reps), row.number("value"), 0.005);
    assert!(at_100(Equation::Epley, reps - 1) > at_100(Equation::Brzycki, reps - 1));
    assert!(at_100(Equation::Epley, reps + 1) < at_100(Equation::Brzycki, reps + 1));
}

fn brzycki_as_printed(table: &Table) {
    let row = table.only();
    for reps in 1..=10 {
        let printed = 100.0 / (row.number("a") - row.number("b") * f64::from(reps));
        // The printed coefficients carry four decimals.
        close(at_100(Equation::Brzycki, reps), printed, printed * 0.001);
    }
}

/// How far the equations were apart in the trial is how far they are apart
/// here, at some number of reps that a test of that kind uses.
fn equations_differ_as_in_the_trial(table: &Table) {
    let rows: Vec<_> = table.rows().collect();
    let lifted = rows[0].number("pounds");
    for row in &rows {
        let off = (row.number("pounds") / lifted - 1.0) * 100.0;
        close(off, row.number("percent off"), 0.5);
    }
    let trial: Vec<(Equation, f64)> = rows[1..]
        .iter()
        .map(|row| (named(row.word("what")), row.number("pounds")))
        .collect();
    let is_alike = |reps: u16| {
        let (base, base_pounds) = trial[0];
        trial.iter().all(|&(equation, pounds)| {
            let here = at_100(equation, reps) / at_100(base, reps);
            (here - pounds / base_pounds).abs() < 0.005
        })
    };
    assert!((2..=NORMAL_REPS).any(is_alike));
}

fn regressions(table: &Table) {
    for row in table.rows() {
        let five = row.number("5RM");
        let one = row.number("slope") * five + row.number("constant");
        close(one, row.number("1RM"), 0.01);
        close(five / one * 100.0, row.number("percent"), 0.05);
        // The band holds the regression's answer, and the value is within its
        // standard error of it.
        let found = estimate(load(five), 5, Some(0)).expect("in range");
        assert!(kg(found.low) <= one && one <= kg(found.high), "{found:?}");
        close(kg(found.value), one, row.number("standard error"));
    }
}

fn fit_falls(table: &Table) {
    let mut before: Option<(f64, f64, f64, Confidence)> = None;
    for row in table.rows() {
        let found = estimate(Load::kg(100), reps(row.whole("reps")), Some(0)).expect("in range");
        let width = kg(found.high) - kg(found.low);
        let (chest, leg) = (row.number("chest press"), row.number("leg press"));
        if let Some((chest_before, leg_before, width_before, confidence)) = before {
            assert!(chest < chest_before && leg < leg_before);
            assert!(width > width_before && found.confidence <= confidence);
        }
        before = Some((chest, leg, width, found.confidence));
    }
}

fn tolerance(table: &Table) {
    let mut from = 2;
    for row in table.rows() {
        let to = reps(row.whole("reps"));
        for reps in from..=to {
            let found = estimate(Load::kg(100), reps, Some(0)).expect("in range");
            let half = (kg(found.high) - kg(found.low)) / 2.0;
            assert!(half / kg(found.value) * 100.0 <= row.number("percent"));
            assert_eq!(found.confidence, Confidence::Normal);
        }
        from = to + 1;
    }
    let above = estimate(Load::kg(100), from, Some(0)).expect("in range");
    assert_eq!(above.confidence, Confidence::Low);
}

fn percent_table(table: &Table) {
    for row in table.rows() {
        close(percent(reps(row.whole("reps"))), row.number("percent"), 0.0);
    }
}

fn worked_example(table: &Table) {
    let row = table.only();
    let one = row.number("6RM") / percent(6) * 100.0;
    close(one, row.number("1RM"), 2.5);
    // The example works on from the rounded 1RM.
    close(
        row.number("1RM") * percent(15) / 100.0,
        row.number("15RM"),
        5.0,
    );
}

/// At twelve reps book and chart differ; the engine may not be above either.
fn is_at_chart(reps: u16, found: f64, chart: f64, within: f64) {
    if reps == 12 {
        assert!(found < chart, "{found} is not below {chart}");
        assert!(found > chart * 0.93, "{found} is far below {chart}");
    } else {
        close(found, chart, within);
    }
}

fn chart_head(table: &Table) {
    for row in table.rows() {
        let reps = reps(row.whole("reps"));
        is_at_chart(reps, percent(reps), row.number("percent"), 0.0);
    }
}

fn chart_rows(table: &Table) {
    for row in table.rows() {
        let one = load(row.number("1RM"));
        for reps in [2, 3, 4, 5, 6, 7, 8, 9, 10, 12] {
            let found = share_of(one, percent_for(reps).expect("in range"));
            is_at_chart(reps, kg(found), row.number(&reps.to_string()), 0.0);
        }
    }
}

/// The older continuum is coarser: never below the table by more than the
/// width of its own steps, never above.
fn continuum(table: &Table) {
    for row in table.rows() {
        for reps in reps(row.whole("from"))..=reps(row.whole("to")) {
            let (found, older) = (percent(reps), row.number("percent"));
            assert!(found <= older && found >= older - 5.0, "{reps}: {found}");
        }
    }
}

fn turned_round(table: &Table) {
    for row in table.rows() {
        let reps = reps(row.whole("reps"));
        for name in ["epley", "brzycki"] {
            let found = 10_000.0 / at_100(named(name), reps);
            close(found, row.number(name), 0.06);
        }
    }
}

fn reserve_shifts(table: &Table) {
    for row in table.rows() {
        let sum = reps(row.whole("reps") + row.whole("in reserve"));
        close(percent(sum), row.number("percent"), 0.0);
    }
    for reps in 2..=20 {
        assert!(percent(reps) <= percent(reps - 1), "not falling at {reps}");
    }
}

fn within_individual_range(table: &Table) {
    let row = table.only();
    let at = (1..=20).find(|&reps| percent(reps) <= row.number("percent"));
    let at = i64::from(at.expect("in the table"));
    assert!((row.whole("fewest")..=row.whole("most")).contains(&at));
}

fn bias(table: &Table) {
    let row = table.only();
    let counted = f64::from(RIR_BIAS);
    close(counted, row.number("reps"), 0.5);
    assert!((row.number("low")..=row.number("high")).contains(&counted));
    // It widens the band upwards and raises nothing.
    let left = estimate(Load::kg(100), 5, Some(2)).expect("in range");
    let failed = estimate(Load::kg(100), 7, Some(0)).expect("in range");
    assert!(left.value == failed.value && left.high > failed.high);
}

fn long_sets(table: &Table) {
    let row = table.only();
    assert!(row.number("slope above") > row.number("slope up to"));
    let above = estimate(Load::kg(50), reps(row.whole("reps")) + 1, Some(0));
    assert_eq!(above.expect("in range").confidence, Confidence::Low);
}

fn near_failure(table: &Table) {
    let confidence = |left: u8| {
        estimate(Load::kg(100), 3, Some(left))
            .expect("in range")
            .confidence
    };
    for row in table.rows() {
        let left = |column| u8::try_from(row.whole(column)).expect("reps");
        let wanted = match row.whole("error") {
            1 => Confidence::Normal,
            _ => Confidence::Low,
        };
        for left in left("from")..=left("to") {
            assert_eq!(confidence(left), wanted, "{left} left");
            assert_eq!(left <= NORMAL_RIR, wanted == Confidence::Normal);
        }
    }
}

fn retest(table: &Table) {
    let row = table.only();
    let counted = f64::from(TEST_PERMILLE) / 10.0;
    close(counted, row.number("median"), 0.0);
    assert!((row.number("least")..=row.number("most")).contains(&counted));
}

fn detectable(table: &Table) {
    for row in table.rows() {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "small"
        )]
        let permille = (row.number("variation") * 10.0).round() as u32;
        let tests = usize::try_from(row.whole("tests")).expect("a count");
        let found = detectable_permille(permille, tests, tests).expect("tests on each side");
        close(f64::from(found) / 10.0, row.number("percent"), 0.05);
    }
}

fn scatter(table: &Table) {
    let row = table.only();
    let both = row.number("test").hypot(row.number("equation"));
    close(both, row.number("both"), 0.05);
    close(f64::from(ESTIMATE_PERMILLE) / 10.0, row.number("both"), 0.0);
}

fn a_pair(table: &Table) {
    let later = load(100.0 + table.only().number("percent"));
    assert_eq!(change(&[Load::kg(100)], &[later]), Change::Unclear);
    assert_eq!(change(&[later], &[Load::kg(100)]), Change::Unclear);
}

/// A body of 75 kg, hung with load or helped until it lifts 80 % of its best: the
/// reps of the trial lead back to the best.
fn pull_ups(table: &Table) {
    let catalogue = Catalogue::built_in();
    let exercise = |id: &str| catalogue.get(&ExerciseId::new(id)).expect("an exercise");
    let body = Load::kg(75);
    for row in table.rows() {
        let best = 75.0 * row.number("of the body");
        let beyond = best * 0.8 - 75.0;
        let (id, moved) = if beyond > 0.0 {
            ("loaded-pull-up", load(beyond))
        } else {
            ("assisted-pull-up", load(-beyond))
        };
        let whole = lifted(exercise(id), body, moved).expect("more than nothing");
        close(kg(whole), best * 0.8, 0.01);
        #[expect(clippy::cast_possible_truncation, reason = "about ten")]
        let done = reps(row.number("reps").round() as i64);
        let found = estimate(whole, done, Some(0)).expect("in range");
        // Within the tolerance of an estimate from ten reps (see that table); where it is
        // told as sure, the band holds it.
        close(kg(found.value) / best, 1.0, 0.1);
        let holds = kg(found.low) <= best && best <= kg(found.high);
        assert!(holds || found.confidence == Confidence::Low, "{found:?}");
        // The chart's reps at 80 % are within a deviation of the men's; the women did more.
        let charted = (1..=20).find(|&reps| percent(reps) <= 80.0);
        let short = row.number("reps") - f64::from(charted.expect("in the chart"));
        assert_eq!(short <= row.number("sd"), row.word("people") == "men");
    }
    assert_eq!(lifted(exercise("loaded-push-up"), body, Load::kg(10)), None);
}
