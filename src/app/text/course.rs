//! What becomes of a session that cannot be done, and two weeks side by side,
//! in words.

use super::language::{number, said, tr};
use super::{dates, reasons, terms};
use crate::say;
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
pub fn way(how: &How) -> (&'static str, &'static str) {
    let (name, more) = match how {
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
    };
    (tr(name), tr(more))
}

/// "chest 12 → 8, lats 9 → 6 and 3 more".
#[must_use]
pub fn changes(sets: &[(Muscle, HalfSets, HalfSets)]) -> String {
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
        text += &say!(" and {count} more", count = sets.len() - NAMED);
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
        lines.push(said("Your sets in these seven days stay what they are."));
    } else {
        lines.push(say!(
            "Sets in these seven days: {sets}",
            sets = changes(&effect.sets)
        ));
    }
    if let Some((muscle, before, after)) = effect.gap {
        lines.push(say!(
            "Longest wait: {muscle}, {after} days instead of {before}",
            muscle = terms::muscle(muscle),
            after,
            before
        ));
    }
    lines
}

/// What a journey's plan changes in a full week.
#[must_use]
pub fn journey(effect: &Effect) -> String {
    if effect.sets.is_empty() {
        said("All weekly sets can be kept with this.")
    } else {
        say!(
            "Weekly sets with this: {sets}",
            sets = changes(&effect.sets)
        )
    }
}

/// "Paused until Friday. Nothing is owed."
#[must_use]
pub fn paused(until: Day, today: Day) -> String {
    say!(
        "Paused until {until}. Nothing is owed.",
        until = dates::near(until, today)
    )
}

/// "Other equipment until Friday; then your plan goes on."
#[must_use]
pub fn away(until: Day, today: Day) -> String {
    say!(
        "Other equipment until {until}; then your plan goes on.",
        until = dates::near(until, today)
    )
}

/// Two weeks in rows: what, the first's and the second's.
#[must_use]
pub fn figures(first: &Figures, second: &Figures) -> Vec<(&'static str, [String; 2])> {
    let row = |name, figure: fn(&Figures) -> String| (tr(name), [figure(first), figure(second)]);
    vec![
        row("Days a week for a muscle, mean", |week| {
            let (whole, tenth) = (week.frequency_tenths / 10, week.frequency_tenths % 10);
            number(&format!("{whole}.{tenth}"))
        }),
        row("Largest dose in one session", |week| {
            let (muscle, half_sets) = week.largest_dose;
            say!(
                "{sets} sets, {muscle}",
                sets = reasons::half_sets(half_sets),
                muscle = terms::muscle(muscle)
            )
        }),
        row("Longest wait", |week| {
            let (muscle, days) = week.longest_gap;
            say!(
                "{days} days, {muscle}",
                days,
                muscle = terms::muscle(muscle)
            )
        }),
        row("Hours of the week in the growth window, mean", |week| {
            say!("{hours} of 168", hours = week.window_h)
        }),
        row("Reps lost to earlier work", |week| {
            say!("{lost} in 100", lost = (week.lost_permille() + 5) / 10)
        }),
        row("Time in the week", |week| dates::minutes(week.seconds)),
        row("Longest session", |week| {
            dates::minutes(week.longest_session)
        }),
    ]
}

/// What can be said of two weeks, named as given.
#[must_use]
pub fn verdict(verdict: Verdict, names: [&str; 2]) -> String {
    let week = |side: Side| match side {
        Side::First => names[0],
        Side::Second => names[1],
    };
    match verdict {
        Verdict::GrowAlike => said(
            "For growth, neither is known to be better: at equal weekly sets, 14 trials with 392 people found split and full body alike (Ramos-Campo 2024). Take the one you will keep to.",
        ),
        Verdict::SetsDiffer => said(
            "The weekly sets could not be matched closely. Where they differ, that may matter more than how the week is split (Schoenfeld 2017).",
        ),
        Verdict::Fresher(side) => say!(
            "{week}: fresher sets, fewer reps lost to tired muscles.",
            week = week(side)
        ),
        Verdict::SmallerDoses(side) => {
            say!("{week}: smaller doses in a session.", week = week(side))
        }
        Verdict::ShorterGaps(side) => say!(
            "{week}: shorter waits, so a missed session costs less.",
            week = week(side)
        ),
        Verdict::MoreOften(side) => say!(
            "{week}: muscles are trained more often, which goes with somewhat more strength (Grgic 2018); how much of it is left at equal sets is not settled.",
            week = week(side)
        ),
        Verdict::Quicker(side) => say!("{week}: less time in all.", week = week(side)),
    }
}

/// Weekly sets that differ between two weeks.
#[must_use]
pub fn unequal(sets: &[(Muscle, HalfSets, HalfSets)]) -> String {
    if sets.is_empty() {
        said("Every muscle has the same weekly sets in both.")
    } else {
        let mut text = said("Weekly sets that differ: ");
        for (at, (muscle, first, second)) in sets.iter().enumerate() {
            let comma = if at == 0 { "" } else { ", " };
            let _ = write!(
                text,
                "{comma}{}",
                say!(
                    "{muscle} {first} and {second}",
                    muscle = terms::muscle(*muscle),
                    first = reasons::half_sets(*first),
                    second = reasons::half_sets(*second)
                )
            );
        }
        text.push('.');
        text
    }
}
