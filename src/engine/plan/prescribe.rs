//! Sets, reps, effort and rest for one exercise and one person.
//!
//! Start at [`prescribe`]. What load that means is the `progress` module's
//! question; this one never names a load.

use super::{PlanItem, Prescription, time};
use crate::catalogue::{Catalogue, Exercise, Kind, Measure};
use crate::person::{Person, Status};

/// Least rest after a shortened set, seconds, by kind (common practice, no
/// source).
const LEAST_SHORT_REST_S: (u16, u16) = (90, 45);

/// What to do of an exercise: the catalogue's range, effort and rest, fitted to
/// the person.
///
/// Novices stay one more rep away from failure (common practice, no source).
/// From 65 on: 10 to 15 reps (Garber et al. 2011, MSSE 43(7):1334-1359), half a
/// minute more rest and one more rep in reserve (common practice, no source).
#[must_use]
pub fn prescribe(exercise: &Exercise, person: &Person, sets: u8) -> Prescription {
    let is_careful = person.is_older || person.status == Status::Novice;
    Prescription {
        exercise: exercise.id.clone(),
        sets,
        reps: goal_range(exercise, person),
        rir: (exercise.rir + u8::from(is_careful)).min(5),
        rest_s: rest(exercise, person),
    }
}

/// The goal range of reps (or seconds) for this person.
#[must_use]
pub(super) fn goal_range(exercise: &Exercise, person: &Person) -> (u16, u16) {
    let (least, most) = exercise.reps;
    if person.is_older && exercise.measure == Measure::Reps {
        (least.max(10), most.max(15))
    } else {
        (least, most)
    }
}

/// Seconds of rest after a set.
#[must_use]
pub(super) fn rest(exercise: &Exercise, person: &Person) -> u16 {
    exercise.rest_s + if person.is_older { 30 } else { 0 }
}

/// The least the rest may be shortened to when the minutes are few: three
/// quarters, because shorter and longer rests grow muscle much alike (Singer et
/// al. 2024, Front Sports Act Living 6:1429789), at the price of reps in later
/// sets. Heavy lifts keep their rest.
#[must_use]
pub(super) fn short_rest(exercise: &Exercise, person: &Person) -> u16 {
    let full = rest(exercise, person);
    if exercise.strain >= 2 {
        return full;
    }
    let least = match exercise.kind {
        Kind::Compound => LEAST_SHORT_REST_S.0,
        Kind::Isolation => LEAST_SHORT_REST_S.1,
    };
    (full * 3 / 4 / 5 * 5).max(least).min(full)
}

/// Steps between the full and the least rest (the project's own judgement).
const STEPS: u16 = 6;

/// Shortens all rests of a day alike, by as little as makes it fit the minutes.
pub(crate) fn shorten_rests(catalogue: &Catalogue, person: &Person, items: &mut [PlanItem]) {
    let budget = u32::from(person.minutes) * 60;
    for step in 1..=STEPS {
        if time::session_seconds(catalogue, items) <= budget {
            return;
        }
        for item in &mut *items {
            let Some(exercise) = catalogue.get(&item.prescription.exercise) else {
                continue;
            };
            let full = rest(exercise, person);
            let least = short_rest(exercise, person);
            item.prescription.rest_s = (full - (full - least) * step / STEPS).next_multiple_of(5);
        }
    }
}
