//! Edits of the plan in words: what a mend would do, what an undo takes back.

use super::language::{said, tr};
use super::{reasons, terms, words};
use crate::markup::Text;
use crate::say;
use weekloom_engine::audit::Mend;
use weekloom_engine::catalogue::{ExerciseId, HalfSets, Muscle};
use weekloom_engine::plan::{Edit, Plan};

/// Names an exercise.
type Names<'a> = &'a dyn Fn(&ExerciseId) -> Text;

fn item<'a>(plan: &'a Plan, edit: &Edit) -> Option<(&'a ExerciseId, u8)> {
    let (day, key) = match *edit {
        Edit::Swap { day, key, .. }
        | Edit::Sets { day, key, .. }
        | Edit::Reps { day, key, .. }
        | Edit::Rest { day, key, .. }
        | Edit::Superset { day, key }
        | Edit::Move { day, key, .. }
        | Edit::Remove { day, key } => (day, key),
        Edit::Add { .. } | Edit::AddDay | Edit::RemoveDay { .. } | Edit::MoveDay { .. } => {
            return None;
        }
    };
    let item = plan.days.get(day)?.items.iter().find(|i| i.key == key)?;
    Some((&item.prescription.exercise, item.prescription.sets))
}

fn day(index: usize) -> String {
    say!("day {day}", day = index + 1)
}

/// What an edit of this plan is, as the name of a step: "4 sets of bench press".
#[must_use]
pub fn done(edit: &Edit, plan: &Plan, name_of: Names<'_>) -> String {
    let name = item(plan, edit).map_or(Text::Borrowed(""), |(id, _)| name_of(id));
    match edit {
        Edit::Sets { sets, .. } => say!(
            "{sets} of {name}",
            sets = words::sets(usize::from(*sets)),
            name
        ),
        Edit::Reps {
            reps: (least, most),
            ..
        } => say!("{least}\u{2013}{most} for {name}", least, most, name),
        Edit::Rest { rest_s, .. } => say!("{rest_s} s rest for {name}", rest_s, name),
        Edit::Swap { exercise, .. } => {
            say!("swap {name} for {other}", name, other = name_of(exercise))
        }
        Edit::Superset { .. } => say!("{name} in turn with the next", name),
        Edit::Move {
            day: from, to_day, ..
        } if from == to_day => say!("{name} to another place", name),
        Edit::Move { to_day, .. } => say!("move {name} to {day}", name, day = day(*to_day)),
        Edit::Remove { .. } => say!("take out {name}", name),
        Edit::Add {
            day: to,
            exercise,
            sets,
        } => say!(
            "add {sets} of {name} to {day}",
            sets = words::sets(usize::from(*sets)),
            name = name_of(exercise),
            day = day(*to)
        ),
        Edit::AddDay => said("add a day"),
        Edit::RemoveDay { day: gone } => say!("take out {day}", day = day(*gone)),
        Edit::MoveDay { day: from, to } => say!(
            "move {day} to place {place}",
            day = day(*from),
            place = to + 1
        ),
    }
}

/// What a mend does: "Add 2 sets to bench press (day 1)".
#[must_use]
pub fn mend(mend: &Mend, plan: &Plan, name_of: Names<'_>) -> String {
    let edit = &mend.edit;
    let text = match (item(plan, edit), edit) {
        (Some((id, before)), Edit::Sets { day: on, sets, .. }) => {
            let count = words::sets(usize::from(before.abs_diff(*sets)));
            let name = name_of(id);
            let on = day(*on);
            if *sets > before {
                say!("add {sets} to {name} ({day})", sets = count, name, day = on)
            } else {
                say!(
                    "take {sets} off {name} ({day})",
                    sets = count,
                    name,
                    day = on
                )
            }
        }
        (_, Edit::Remove { day: on, .. } | Edit::Superset { day: on, .. }) => {
            format!("{} ({})", done(edit, plan, name_of), day(*on))
        }
        _ => done(edit, plan, name_of),
    };
    reasons::capital(&text)
}

/// What a mend changes in the week: "+2 chest, −1 lats; day 1 +6 min".
#[must_use]
pub fn changes(mend: &Mend) -> String {
    let mut parts = sets_moved(&mend.gained, "+");
    parts.extend(sets_moved(&mend.lost, "\u{2212}"));
    let mut text = if parts.is_empty() {
        String::new()
    } else {
        say!("{changes} sets a week", changes = parts.join(", "))
    };
    for &(on, seconds) in &mend.seconds {
        let sign = if seconds < 0 { '\u{2212}' } else { '+' };
        let minutes = (seconds.unsigned_abs() + 30) / 60;
        if minutes > 0 {
            let stop = if text.is_empty() { "" } else { "; " };
            text += stop;
            text += &say!(
                "day {day} {minutes} min",
                day = on + 1,
                minutes = format!("{sign}{minutes}")
            );
        }
    }
    if !mend.is_whole {
        let stop = if text.is_empty() { "" } else { ". " };
        text += stop;
        text += tr(words::MENDS_PARTLY);
    }
    text
}

/// The three largest changes of a muscle's weekly sets.
#[must_use]
pub fn sets_moved(changes: &[(Muscle, HalfSets)], sign: &str) -> Vec<String> {
    let part = |&(muscle, half_sets): &(Muscle, HalfSets)| {
        format!(
            "{sign}{} {}",
            reasons::half_sets(half_sets),
            terms::muscle(muscle)
        )
    };
    changes.iter().take(3).map(part).collect()
}
