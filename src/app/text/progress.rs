//! What an exercise and a muscle did over time, in sentences.

use super::language::{said, tr};
use super::{dates, reasons, review, words};
use crate::say;
use weekloom_engine::estimate::TrendPoint;
use weekloom_engine::review::{Judgement, Level, Verdict};
use weekloom_engine::units::{Load, Unit};

/// What stands for the level of an exercise.
#[must_use]
pub fn level(level: Level) -> &'static str {
    tr(match level {
        Level::OneRm => "Estimated 1RM",
        Level::WholeOneRm => "Estimated 1RM, body included",
        Level::Reps => "Most reps at the usual load",
        Level::Seconds => "Longest hold",
    })
}

/// An estimated load to the nearest half kilogram or pound.
#[must_use]
pub fn about(grams: i64, unit: Unit) -> String {
    match unit {
        Unit::Kg => reasons::load(Load::clamped((grams + 250) / 500 * 500), unit),
        // 453.59237 g to the pound (international yard and pound agreement, 1959).
        Unit::Lb => format!(
            "{}\u{a0}{}",
            (grams * 1_000 + 226_796) / 453_592,
            unit.symbol()
        ),
    }
}

/// Where the smoothed level lies: "66–75 kg".
#[must_use]
pub fn band(point: &TrendPoint, unit: Unit) -> String {
    let [low, high] = [point.low, point.high].map(|load| about(load.grams(), unit));
    // The unit once is enough.
    let low = low.split('\u{a0}').next().unwrap_or_default();
    format!("{low}\u{2013}{high}")
}

/// The smoothed level as it is now.
#[must_use]
pub fn trend_now(point: &TrendPoint, unit: Unit) -> String {
    say!(
        "Trend now: {level}; likely {band}.",
        level = about(point.level.grams(), unit),
        band = band(point, unit)
    )
}

/// The picture, to a screen reader.
#[must_use]
pub fn chart(name: &str, days: usize) -> String {
    say!(
        "{name} on {days} days; the numbers are in the table",
        name,
        days
    )
}

/// A muscle's picture, to a screen reader.
#[must_use]
pub fn bars(name: &str) -> String {
    say!("{name}: sets by week; the numbers are in the table", name)
}

/// Whether it moved.
#[must_use]
pub fn verdict(judgement: &Judgement) -> String {
    let change = review::change(judgement.permille);
    match judgement.verdict {
        Verdict::Rose => say!("Rose: {change}, more than scatter.", change),
        Verdict::Fell => say!("Fell: {change}, more than scatter.", change),
        Verdict::Still => say!("Stands still: {change}.", change),
        Verdict::Unclear => say!("{change}, within scatter: it could be chance.", change),
        Verdict::Unmeasured => say!(
            "{change}. Nothing published says how far such a number scatters.",
            change
        ),
        Verdict::Thin => tr(words::NOT_ENOUGH).to_owned(),
    }
}

/// What a verdict rests on.
#[must_use]
pub fn rests_on(judgement: &Judgement) -> String {
    say!(
        "The last third of {days} days against the first, over {weeks} weeks.",
        days = judgement.days,
        weeks = judgement.weeks
    )
}

/// How often an exercise was done, and how far it moved where that can be said.
#[must_use]
pub fn days_and_change(days: usize, judgement: &Judgement) -> String {
    let times = if days == 1 {
        said("once")
    } else {
        say!("{days} times", days)
    };
    match judgement.verdict {
        Verdict::Rose | Verdict::Fell => {
            format!("{times} \u{b7} {}", review::change(judgement.permille))
        }
        _ => times,
    }
}

/// Days on which it hurt.
#[must_use]
pub fn hurt(noted: usize, painful: usize) -> String {
    say!(
        "Days noted as hurting: {noted}, painful ones among them: {painful}.",
        noted,
        painful
    )
}

/// What a muscle's picture shows, a bar for so many weeks.
#[must_use]
pub fn muscle_weeks(together: usize) -> String {
    if together == 1 {
        return said("A bar for each week; the dashed line: the sets planned for it.");
    }
    say!(
        "A bar for {weeks} weeks on average; the dashed line: the sets planned.",
        weeks = together
    )
}

/// So many of so many.
#[must_use]
pub fn of(done: u32, planned: u32) -> String {
    say!("{done} of {planned}", done, planned)
}

/// Time trained in an average week.
#[must_use]
pub fn minutes(seconds: u32) -> String {
    say!(
        "{minutes} in a week with training, on average.",
        minutes = dates::minutes(seconds)
    )
}

/// What a body may weigh here.
#[must_use]
pub fn between(least: &str, most: &str) -> String {
    say!("Between {least} and {most}.", least, most)
}

/// The latest weighing.
#[must_use]
pub fn last_weighed(weight: &str, date: &str) -> String {
    say!("{weight} on {date}.", weight, date)
}
