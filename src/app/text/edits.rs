//! Edits of the plan in words: what a mend would do, what an undo takes back.

use super::{reasons, terms, words};
use crate::markup::Text;
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
    format!("day {}", index + 1)
}

/// What an edit of this plan is, as the name of a step: "4 sets of bench press".
#[must_use]
pub fn done(edit: &Edit, plan: &Plan, name_of: Names<'_>) -> String {
    let name = item(plan, edit).map_or(Text::Borrowed(""), |(id, _)| name_of(id));
    match edit {
        Edit::Sets { sets, .. } => format!("{} of {name}", words::sets(usize::from(*sets))),
        Edit::Reps {
            reps: (least, most),
            ..
        } => format!("{least}\u{2013}{most} for {name}"),
        Edit::Rest { rest_s, .. } => format!("{rest_s} s rest for {name}"),
        Edit::Swap { exercise, .. } => format!("swap {name} for {}", name_of(exercise)),
        Edit::Superset { .. } => format!("{name} in turn with the next"),
        Edit::Move {
            day: from, to_day, ..
        } if from == to_day => format!("{name} to another place"),
        Edit::Move { to_day, .. } => format!("move {name} to {}", day(*to_day)),
        Edit::Remove { .. } => format!("take out {name}"),
        Edit::Add {
            day: to,
            exercise,
            sets,
        } => format!(
            "add {} of {} to {}",
            words::sets(usize::from(*sets)),
            name_of(exercise),
            day(*to)
        ),
        Edit::AddDay => "add a day".to_owned(),
        Edit::RemoveDay { day: gone } => format!("take out {}", day(*gone)),
        Edit::MoveDay { day: from, to } => format!("move {} to place {}", day(*from), to + 1),
    }
}

/// What a mend does: "Add 2 sets to bench press (day 1)".
#[must_use]
pub fn mend(mend: &Mend, plan: &Plan, name_of: Names<'_>) -> String {
    let edit = &mend.edit;
    let said = match (item(plan, edit), edit) {
        (Some((id, before)), Edit::Sets { day: on, sets, .. }) => {
            let count = words::sets(usize::from(before.abs_diff(*sets)));
            let name = name_of(id);
            let on = day(*on);
            if *sets > before {
                format!("add {count} to {name} ({on})")
            } else {
                format!("take {count} off {name} ({on})")
            }
        }
        (_, Edit::Remove { day: on, .. } | Edit::Superset { day: on, .. }) => {
            format!("{} ({})", done(edit, plan, name_of), day(*on))
        }
        _ => done(edit, plan, name_of),
    };
    reasons::capital(&said)
}

/// What a mend changes in the week: "+2 chest, −1 lats; day 1 +6 min".
#[must_use]
pub fn changes(mend: &Mend) -> String {
    let mut parts = sets_moved(&mend.gained, "+");
    parts.extend(sets_moved(&mend.lost, "\u{2212}"));
    let mut said = if parts.is_empty() {
        String::new()
    } else {
        format!("{} sets a week", parts.join(", "))
    };
    for &(on, seconds) in &mend.seconds {
        let sign = if seconds < 0 { '\u{2212}' } else { '+' };
        let minutes = (seconds.unsigned_abs() + 30) / 60;
        if minutes > 0 {
            let stop = if said.is_empty() { "" } else { "; " };
            said = format!("{said}{stop}day {} {sign}{minutes} min", on + 1);
        }
    }
    if !mend.is_whole {
        let stop = if said.is_empty() { "" } else { ". " };
        said = format!("{said}{stop}{}", words::MENDS_PARTLY);
    }
    said
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
