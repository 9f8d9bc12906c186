//! What becomes of a session that cannot be done, and two weeks side by side,
//! in words.

use super::{dates, reasons, terms};
use std::fmt::Write as _;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::{HalfSets, Muscle};
use weekloom_engine::compare::{Figures, Side, Verdict};
use weekloom_engine::schedule::How;
use weekloom_engine::schedule::repair::Effect;

/// Muscles named in one line.
const NAMED: usize = 5;

/// A way to settle a session, and what it means.
#[must_use]
pub const fn way(how: &How) -> (&'static str, &'static str) {
    match how {
        How::Shifted => (
            "Move everything on",
            "This session waits for your next training day, and the others after it. Nothing is left out, the cycle takes longer.",
        ),
        How::LetGo(extras) if extras.is_empty() => (
            "Let it go",
            "The next session takes its turn. One session less does no harm; nothing is owed.",
        ),
        How::LetGo(_) => (
            "Keep what matters most",
            "This session is let go. Sets it would have given go into the next ones, within your minutes.",
        ),
    }
}

/// "chest 12 → 8, lats 9 → 6 and 3 more".
fn changes(sets: &[(Muscle, HalfSets, HalfSets)]) -> String {
    let mut text = String::new();
    for (muscle, before, after) in sets.iter().take(NAMED) {
        let comma = if text.is_empty() { "" } else { ", " };
        let _ = write!(
            text,
            "{comma}{} {} \u{2192} {}",
            terms::muscle(*muscle),
            reasons::half_sets(*before),
            reasons::half_sets(*after)
        );
    }
    if sets.len() > NAMED {
        let _ = write!(text, " and {} more", sets.len() - NAMED);
    }
    text
}

/// What a choice does, a line for each thing. `focus` names a plan day.
#[must_use]
pub fn effect(effect: &Effect, today: Day, focus: impl Fn(u8) -> &'static str) -> Vec<String> {
    let mut lines = Vec::new();
    for &(day, plan_day, seconds) in &effect.sessions {
        lines.push(format!(
            "{} {}: {}, {}",
            dates::weekday_short(day.weekday()),
            dates::date(day, today),
            focus(plan_day),
            dates::minutes(seconds)
        ));
    }
    if effect.sets.is_empty() {
        lines.push("Your sets in these seven days stay what they are.".to_owned());
    } else {
        lines.push(format!(
            "Sets in these seven days: {}",
            changes(&effect.sets)
        ));
    }
    if let Some((muscle, before, after)) = effect.gap {
        lines.push(format!(
            "Longest wait: {}, {after} days instead of {before}",
            terms::muscle(muscle)
        ));
    }
    lines
}

/// What a journey's plan changes in a full week.
#[must_use]
pub fn journey(effect: &Effect) -> String {
    if effect.sets.is_empty() {
        "All weekly sets can be kept with this.".to_owned()
    } else {
        format!("Weekly sets with this: {}", changes(&effect.sets))
    }
}

/// "Paused until Friday. Nothing is owed."
#[must_use]
pub fn paused(until: Day, today: Day) -> String {
    format!(
        "Paused until {}. Nothing is owed.",
        dates::near(until, today)
    )
}

/// "Other equipment until Friday; then your plan goes on."
#[must_use]
pub fn away(until: Day, today: Day) -> String {
    format!(
        "Other equipment until {}; then your plan goes on.",
        dates::near(until, today)
    )
}

/// Two weeks in rows: what, the first's and the second's.
#[must_use]
pub fn figures(first: &Figures, second: &Figures) -> Vec<(&'static str, [String; 2])> {
    let row = |name, say: fn(&Figures) -> String| (name, [say(first), say(second)]);
    vec![
        row("Days a week for a muscle, mean", |week| {
            format!(
                "{}.{}",
                week.frequency_tenths / 10,
                week.frequency_tenths % 10
            )
        }),
        row("Largest dose in one session", |week| {
            let (muscle, half_sets) = week.largest_dose;
            format!(
                "{} sets, {}",
                reasons::half_sets(half_sets),
                terms::muscle(muscle)
            )
        }),
        row("Longest wait", |week| {
            let (muscle, days) = week.longest_gap;
            format!("{days} days, {}", terms::muscle(muscle))
        }),
        row("Hours of the week in the growth window, mean", |week| {
            format!("{} of 168", week.window_h)
        }),
        row("Reps lost to earlier work", |week| {
            format!("{} in 100", (week.lost_permille() + 5) / 10)
        }),
        row("Time in the week", |week| dates::minutes(week.seconds)),
        row("Longest session", |week| {
            dates::minutes(week.longest_session)
        }),
    ]
}

/// What can be said of two weeks, named as given.
#[must_use]
pub fn verdict(said: Verdict, names: [&str; 2]) -> String {
    let week = |side: Side| match side {
        Side::First => names[0],
        Side::Second => names[1],
    };
    match said {
        Verdict::GrowAlike => "For growth, neither is known to be better: at equal weekly sets, 14 trials with 392 people found split and full body alike (Ramos-Campo 2024). Take the one you will keep to.".to_owned(),
        Verdict::SetsDiffer => "The weekly sets could not be matched closely. Where they differ, that may matter more than how the week is split (Schoenfeld 2017).".to_owned(),
        Verdict::Fresher(side) => format!("{}: fresher sets, fewer reps lost to tired muscles.", week(side)),
        Verdict::SmallerDoses(side) => format!("{}: smaller doses in a session.", week(side)),
        Verdict::ShorterGaps(side) => format!("{}: shorter waits, so a missed session costs less.", week(side)),
        Verdict::MoreOften(side) => format!("{}: muscles are trained more often, which goes with somewhat more strength (Grgic 2018); how much of it is left at equal sets is not settled.", week(side)),
        Verdict::Quicker(side) => format!("{}: less time in all.", week(side)),
    }
}

/// Weekly sets that differ between two weeks.
#[must_use]
pub fn unequal(sets: &[(Muscle, HalfSets, HalfSets)]) -> String {
    if sets.is_empty() {
        "Every muscle has the same weekly sets in both.".to_owned()
    } else {
        let mut text = String::from("Weekly sets that differ: ");
        for (at, (muscle, first, second)) in sets.iter().enumerate() {
            let comma = if at == 0 { "" } else { ", " };
            let _ = write!(
                text,
                "{comma}{} {} and {}",
                terms::muscle(*muscle),
                reasons::half_sets(*first),
                reasons::half_sets(*second)
            );
        }
        text.push('.');
        text
    }
}
