//! What could stand in for an exercise of the plan.
//!
//! Start at [`alternatives`]. The best swap keeps the week's sets where they
//! are; nothing here changes a plan.

use super::{Plan, PlanItem, dose, is_allowed, prescribe, time};
use crate::catalogue::{Catalogue, Exercise, ExerciseId, HalfSets, Loading, Muscle, Sides};
use crate::order;
use crate::person::{Person, Status};

/// Most alternatives offered (the project's own judgement).
const MOST: usize = 12;

/// What a swap would change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// Whether the movement pattern stays.
    pub is_same_pattern: bool,
    /// Weekly half sets gained, by muscle.
    pub gained: Vec<(Muscle, HalfSets)>,
    /// Weekly half sets lost, by muscle.
    pub lost: Vec<(Muscle, HalfSets)>,
    /// Seconds the session gets longer; negative when shorter.
    pub seconds: i64,
    /// Skill it needs more; negative when less.
    pub skill: i8,
}

/// An exercise that could stand in for another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alternative {
    /// The exercise.
    pub exercise: ExerciseId,
    /// What would change.
    pub difference: Difference,
}

/// Exercises that could stand in for an item of the plan, best first: those
/// that keep the week's sets, then the pattern, then what suits the person.
/// Empty when the plan has no such item. Kit, exclusions, joint limits and the
/// day's other exercises are respected.
#[must_use]
pub fn alternatives(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    day: usize,
    key: u16,
) -> Vec<Alternative> {
    let Some(day) = plan.days.get(day) else {
        return Vec::new();
    };
    let Some(item) = day.items.iter().find(|item| item.key == key) else {
        return Vec::new();
    };
    let Some(current) = catalogue.get(&item.prescription.exercise) else {
        return Vec::new();
    };
    let mut ranked: Vec<(i64, &Exercise)> = catalogue
        .iter()
        .filter(|e| is_allowed(e, person))
        .filter(|e| day.items.iter().all(|i| i.prescription.exercise != e.id))
        .filter(|e| shares_a_prime_mover(e, current) || e.pattern == current.pattern)
        .map(|e| (cost(e, current, person), e))
        .collect();
    order::sort_by_key(&mut ranked, |&(cost, exercise)| (cost, &exercise.id));
    ranked
        .into_iter()
        .take(MOST)
        .map(|(_, exercise)| Alternative {
            exercise: exercise.id.clone(),
            difference: difference(catalogue, person, day.items.as_slice(), item, exercise),
        })
        .collect()
}

fn shares_a_prime_mover(a: &Exercise, b: &Exercise) -> bool {
    a.prime.iter().any(|muscle| b.prime.contains(muscle))
}

/// Points against a swap; the project's own judgement.
fn cost(new: &Exercise, old: &Exercise, person: &Person) -> i64 {
    let moved: i64 = Muscle::ALL
        .iter()
        .map(|&m| {
            let change = i64::from(new.half_sets_for(m)) - i64::from(old.half_sets_for(m));
            change.abs() * dose::target(m, person).weight
        })
        .sum();
    let is_trained = person.status != Status::Novice;
    let too_easy = is_trained
        && matches!(new.loading, Loading::Bodyweight | Loading::Band)
        && !matches!(old.loading, Loading::Bodyweight | Loading::Band);
    let over_skill = match person.status {
        Status::Novice => i64::from(new.skill.saturating_sub(1)),
        Status::Intermediate => i64::from(new.skill.saturating_sub(2)),
        Status::Advanced => 0,
    };
    moved
        + i64::from(new.pattern != old.pattern) * 60
        + i64::from(new.kind != old.kind) * 40
        + i64::from(too_easy) * 80
        + over_skill * 80
        + i64::from(person.disliked.contains(&new.id)) * 300
        + i64::from(new.strain.saturating_sub(old.strain)) * 20
        + i64::from(new.sides == Sides::Each && old.sides == Sides::Both) * 10
}

fn difference(
    catalogue: &Catalogue,
    person: &Person,
    items: &[PlanItem],
    item: &PlanItem,
    new: &Exercise,
) -> Difference {
    let sets = item.prescription.sets;
    let old = catalogue.get(&item.prescription.exercise);
    let mut gained = Vec::new();
    let mut lost = Vec::new();
    for &muscle in Muscle::ALL {
        let before = old.map_or(0, |old| old.half_sets_for(muscle)) * HalfSets::from(sets);
        let after = new.half_sets_for(muscle) * HalfSets::from(sets);
        if after > before {
            gained.push((muscle, after - before));
        } else if before > after {
            lost.push((muscle, before - after));
        }
    }
    let mut swapped = items.to_vec();
    for other in &mut swapped {
        if other.key == item.key {
            other.prescription = prescribe(new, person, sets);
        }
    }
    let skill = |e: &Exercise| i8::try_from(e.skill).unwrap_or(0);
    Difference {
        is_same_pattern: old.is_some_and(|old| old.pattern == new.pattern),
        gained,
        lost,
        seconds: i64::from(time::session_seconds(catalogue, &swapped))
            - i64::from(time::session_seconds(catalogue, items)),
        skill: skill(new) - old.map_or(0, skill),
    }
}
