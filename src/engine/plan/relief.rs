//! What each limit costs: what the week would gain if one of them gave way.
//!
//! Start at [`reliefs`]. Each limit that may bind is relaxed by one step and the week
//! planned anew, so that what is promised is what the person would get. That takes
//! a plan for every limit: ask for it when somebody wants to know. Joint limits
//! are never among them: what a joint allows is for a doctor to say.

use super::{Plan, PlanError, PlanNote, is_allowed, solve_week, weekly_sets};
use crate::bounds;
use crate::catalogue::{Catalogue, Equipment, Muscle, Pattern};
use crate::order::{Set, sort_by_key};
use crate::person::Person;

/// Minutes a session that are tried (definition).
pub const MINUTES_MORE: u16 = 10;
/// Things to train with that are tried at most (the project's own judgement).
const THINGS: usize = 3;
/// Share of a week's worth, in thousandths, under which a gain is not told (the
/// project's own judgement: less than the search itself may miss).
const TELLING: i64 = 10;

/// A limit that might give way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// So many more minutes a session.
    Minutes(u16),
    /// One more thing to train with.
    Kit(Equipment),
    /// Exercises that were ruled out, all of them.
    Excluded,
    /// Exercises that are disliked, all of them.
    Disliked,
}

/// What a limit costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Relief {
    /// The limit.
    pub limit: Limit,
    /// Points the week would be worth more ([`super::objective::MILLI`]).
    pub points: i64,
    /// Working sets a week that it would add; below nought where fewer do more.
    pub sets: i32,
    /// The muscle that would gain most half sets, if any would gain.
    pub most: Option<Muscle>,
    /// What the week could not meet and then would.
    pub mends: Vec<PlanNote>,
}

/// What each limit of this person costs, the dearest first; those that bind alone.
///
/// # Errors
/// As [`super::plan_week`].
pub fn reliefs(catalogue: &Catalogue, person: &Person) -> Result<Vec<Relief>, PlanError> {
    let now = solve_week(catalogue, person)?;
    let mut found = Vec::new();
    for (limit, freer) in relaxed(catalogue, person, &now.plan) {
        let then = solve_week(catalogue, &freer)?;
        let points = then.objective - now.objective;
        let mends = mended(&now.plan, &then.plan);
        let telling = now.objective.abs() * TELLING / 1000;
        if points > 0 && (points >= telling || !mends.is_empty()) {
            found.push(Relief {
                limit,
                points,
                sets: sets(&then.plan) - sets(&now.plan),
                most: most_gained(catalogue, &now.plan, &then.plan),
                mends,
            });
        }
    }
    sort_by_key(&mut found, |relief| -relief.points);
    Ok(found)
}

/// The person with each limit relaxed that may bind.
fn relaxed(catalogue: &Catalogue, person: &Person, plan: &Plan) -> Vec<(Limit, Person)> {
    let mut found = Vec::new();
    let minutes = person.minutes + MINUTES_MORE;
    if bounds::SESSION_MIN.check(i64::from(minutes)).is_ok() {
        let freer = Person {
            minutes,
            ..person.clone()
        };
        found.push((Limit::Minutes(MINUTES_MORE), freer));
    }
    for thing in wanted(catalogue, person, plan) {
        let mut freer = person.clone();
        freer.kit.equipment.insert(thing);
        found.push((Limit::Kit(thing), freer));
    }
    if !person.excluded.is_empty() {
        let freer = Person {
            excluded: Set::new(),
            ..person.clone()
        };
        found.push((Limit::Excluded, freer));
    }
    if !person.disliked.is_empty() {
        let freer = Person {
            disliked: Set::new(),
            ..person.clone()
        };
        found.push((Limit::Disliked, freer));
    }
    found
}

/// The things that alone would open most exercises for what the week lacks: its
/// missing patterns and the muscles under their floors.
fn wanted(catalogue: &Catalogue, person: &Person, plan: &Plan) -> Vec<Equipment> {
    let lacks = |pattern: Pattern, muscles: &[Muscle]| {
        plan.notes.iter().any(|note| match note {
            PlanNote::PatternNotCovered(missing) => *missing == pattern,
            PlanNote::BelowFloor { muscle, .. } => muscles.contains(muscle),
            _ => false,
        })
    };
    let mut opened: Vec<(usize, Equipment)> = Vec::new();
    for &thing in Equipment::ALL {
        if person.kit.equipment.contains(&thing) {
            continue;
        }
        let mut freer = person.clone();
        freer.kit.equipment.insert(thing);
        let opens = catalogue.iter().filter(|exercise| {
            lacks(exercise.pattern, &exercise.prime)
                && is_allowed(exercise, &freer)
                && !is_allowed(exercise, person)
        });
        let count = opens.count();
        if count > 0 {
            opened.push((count, thing));
        }
    }
    sort_by_key(&mut opened, |&(count, _)| core::cmp::Reverse(count));
    opened.truncate(THINGS);
    opened.into_iter().map(|(_, thing)| thing).collect()
}

fn sets(plan: &Plan) -> i32 {
    let items = plan.days.iter().flat_map(|day| &day.items);
    items.map(|item| i32::from(item.prescription.sets)).sum()
}

fn most_gained(catalogue: &Catalogue, now: &Plan, then: &Plan) -> Option<Muscle> {
    let (before, after) = (
        weekly_sets(catalogue, &now.days),
        weekly_sets(catalogue, &then.days),
    );
    let mut most = None;
    let mut gained = 0;
    for (&muscle, &half_sets) in after.iter() {
        let gain = half_sets.saturating_sub(before.get(&muscle).copied().unwrap_or(0));
        if gain > gained {
            (most, gained) = (Some(muscle), gain);
        }
    }
    most
}

/// Notes of a plan that another does not have in any form.
fn mended(now: &Plan, then: &Plan) -> Vec<PlanNote> {
    let is_left = |note: &PlanNote| {
        then.notes.iter().any(|other| match (note, other) {
            (PlanNote::BelowFloor { muscle: a, .. }, PlanNote::BelowFloor { muscle: b, .. }) => {
                a == b
            }
            (PlanNote::OverTime { day: a, .. }, PlanNote::OverTime { day: b, .. }) => a == b,
            _ => note == other,
        })
    };
    let notes = now.notes.iter().filter(|note| !is_left(note));
    notes.cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::ExerciseId;
    use crate::kit::Kit;

    /// Everything told is what planning anew with that limit relaxed gives.
    #[test]
    fn minutes_are_worth_what_the_longer_week_is() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.minutes = 30;
        let found = reliefs(&catalogue, &person).expect("plannable");
        let minutes = Limit::Minutes(MINUTES_MORE);
        let relief = found.iter().find(|relief| relief.limit == minutes);
        let relief = relief.expect("half an hour binds");
        let now = solve_week(&catalogue, &person).expect("plannable");
        person.minutes += MINUTES_MORE;
        let then = solve_week(&catalogue, &person).expect("plannable");
        assert_eq!(relief.points, then.objective - now.objective);
        assert_eq!(relief.sets, sets(&then.plan) - sets(&now.plan));
        assert!(relief.sets > 0 && relief.most.is_some());
        assert!(found.is_sorted_by_key(|relief| -relief.points));
    }

    #[test]
    fn what_cannot_be_met_is_named_with_what_mends_it() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.kit = Kit::floor_only();
        let pulls = catalogue.iter().filter(|exercise| {
            exercise.pattern == Pattern::VerticalPull && is_allowed(exercise, &person)
        });
        person.excluded = pulls.map(|exercise| exercise.id.clone()).collect();
        let plan = solve_week(&catalogue, &person).expect("plannable").plan;
        let missing = &PlanNote::PatternNotCovered(Pattern::VerticalPull);
        assert!(plan.notes.contains(missing));
        let found = reliefs(&catalogue, &person).expect("plannable");
        let mends = |relief: &Relief| {
            matches!(relief.limit, Limit::Kit(_)) && relief.mends.contains(missing)
        };
        assert!(found.iter().any(mends), "{found:?}");
    }

    #[test]
    fn what_does_not_bind_is_not_told() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.minutes = 180;
        person
            .disliked
            .insert(ExerciseId::new("burpee-that-is-not-there"));
        let found = reliefs(&catalogue, &person).expect("plannable");
        assert_eq!(found, []);
    }

    /// A joint limit is never offered as a price.
    #[test]
    fn joints_are_no_limit_to_bargain_with() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.joint_limits = crate::catalogue::JointDemand::ALL.iter().copied().collect();
        let freer = relaxed(
            &catalogue,
            &person,
            &solve_week(&catalogue, &person).expect("plannable").plan,
        );
        assert!(!freer.is_empty());
        assert!(
            freer
                .iter()
                .all(|(_, p)| p.joint_limits == person.joint_limits)
        );
    }
}
