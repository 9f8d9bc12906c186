//! Blocks in sentences: what the next one does otherwise and why, what it is
//! for, and where one stands in it.

use super::language::{said, tr};
use super::{dates, reasons, terms, words};
use crate::markup::Text;
use crate::say;
use weekloom_engine::calendar::{Day, Weekday};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::log::Discomfort;
use weekloom_engine::plan::{Plan, SplitId};
use weekloom_engine::review::{Because, Block, BlockWeek, Change, Goal, GoalState};

/// What exercises and splits are called.
pub struct Names<'a> {
    /// An exercise.
    pub exercise: &'a dyn Fn(&ExerciseId) -> Text,
    /// A split.
    pub split: &'a dyn Fn(&SplitId) -> String,
}

/// A change of the plan.
#[must_use]
pub fn change(change: &Change, plan: &Plan, names: &Names<'_>) -> String {
    let name = |id: &ExerciseId| (names.exercise)(id);
    let day = |key: u16| {
        let found = plan.find(key).and_then(|(day, _)| plan.days.get(day));
        found.map_or("", |day| terms::focus(day.focus))
    };
    match change {
        Change::Sets {
            key,
            exercise,
            from,
            to,
        } => say!(
            "{exercise}: {to} sets instead of {from} ({day})",
            exercise = name(exercise),
            to,
            from,
            day = day(*key)
        ),
        Change::Swap { key, from, to } => say!(
            "{other} instead of {exercise} ({day})",
            other = name(to),
            exercise = name(from),
            day = day(*key)
        ),
        Change::Rest {
            exercise, from, to, ..
        } => say!(
            "{exercise}: {to} s of rest instead of {from}",
            exercise = name(exercise),
            to,
            from
        ),
        Change::Earlier { key, exercise } => say!(
            "{exercise} first in its session ({day})",
            exercise = name(exercise),
            day = day(*key)
        ),
        Change::Days { from, to } => say!(
            "{count} days instead of {before}: {days}",
            count = to.len(),
            before = from.len(),
            days = weekdays(to)
        ),
        Change::Split { to, .. } => say!("Another split: {split}", split = (names.split)(to)),
        Change::LighterWeek => said("A lighter last week"),
        Change::TakeTheRest { exercise, asked } => say!(
            "{exercise}: take the {asked} s of rest",
            exercise = name(exercise),
            asked
        ),
        Change::MeetTheEffort { exercise } => say!(
            "{exercise}: go nearer to the effort asked for",
            exercise = name(exercise)
        ),
    }
}

fn weekdays(days: &[Weekday]) -> String {
    let names: Vec<&str> = days.iter().map(|&day| dates::weekday_short(day)).collect();
    names.join(", ")
}

/// What speaks for a change.
#[must_use]
pub fn because(because: &Because) -> String {
    match because {
        Because::Stall(cause) => super::review::cause(cause),
        Because::StallAlone(weeks) => say!(
            "It stands still after {weeks} weeks and the logs do not say why. Another exercise for the same muscles is worth a try.",
            weeks
        ),
        Because::Hurt(Discomfort::Painful) => said(
            "It was painful. Where pain stays or is sharp, see a doctor or physiotherapist first.",
        ),
        Because::Hurt(Discomfort::Mild) => said("It was noted as hurting a little."),
        Because::Missed { done, planned } => say!(
            "{done} of {planned} planned sessions were done. Fewer days that are kept do more than many that are not.",
            done,
            planned
        ),
        Because::LongUse(weeks) => say!(
            "The same split for {weeks} weeks. Neither is known to build more; it is a matter of taste.",
            weeks
        ),
        Because::WeeksOn(weeks) => {
            say!(
                "You have trained for {weeks} weeks without a lighter one.",
                weeks
            )
        }
    }
}

/// What a block is for.
#[must_use]
pub fn goal(goal: &Goal, name_of: &dyn Fn(&ExerciseId) -> Text) -> String {
    match goal {
        Goal::Rise(exercise) => say!(
            "{exercise} rises beyond scatter",
            exercise = name_of(exercise)
        ),
        Goal::Sets(muscle) => say!(
            "{muscle} gets the sets planned",
            muscle = reasons::capital(terms::muscle(*muscle))
        ),
        Goal::EverySession => said("Nine of ten planned sessions are done"),
        Goal::NoPain(exercise) => say!("{exercise} without pain", exercise = name_of(exercise)),
    }
}

/// How a goal stands.
#[must_use]
pub fn state(state: GoalState) -> &'static str {
    tr(match state {
        GoalState::Reached => "Reached",
        GoalState::Open => "Not reached yet",
        GoalState::Unknown => "Not enough to tell yet",
    })
}

/// Until when a block lasts.
#[must_use]
pub fn length(block: &Block, today: Day) -> String {
    let until = dates::full_short(block.end().plus(-1), today);
    match block.lighter {
        Some(week) if week + 1 == block.weeks => {
            say!("Until {until}. The last week is lighter.", until)
        }
        Some(week) => say!(
            "Until {until}. Week {week} is lighter.",
            until,
            week = week + 1
        ),
        None => say!("Until {until}. No week is lighter.", until),
    }
}

/// Where in a block one is: its heading.
#[must_use]
pub fn place(block: &Block, today: Day) -> String {
    match block.week_of(today) {
        Some(week) => words::week_of(week + 1, block.weeks),
        None if block.end() <= today => say!(
            "Your block ended {day}",
            day = dates::full_short(block.end().plus(-1), today)
        ),
        None => say!(
            "Your block begins {day}",
            day = dates::near(block.start, today)
        ),
    }
}

/// One of its weeks: its name, and what marks it.
#[must_use]
pub fn week(week: &BlockWeek, today: Day) -> (String, String) {
    let name = say!(
        "{number}: {from} to {until}",
        number = week.number + 1,
        from = dates::date(week.from, today),
        until = dates::date(week.until, today)
    );
    let marks = match (week.is_now, week.is_lighter) {
        (true, true) => tr("now, lighter"),
        (true, false) => tr("now"),
        (false, true) => tr("lighter"),
        (false, false) => "",
    };
    (name, marks.to_owned())
}

/// That a change found no place in the newly woven week.
#[must_use]
pub fn no_place(change: &str) -> String {
    say!("No place in the new week for: {change}.", change)
}

/// A day's minutes now and then.
#[must_use]
pub fn minutes(day: &str, now: &str, then: &str) -> String {
    format!("{day}: {now} \u{2192} {then}")
}
