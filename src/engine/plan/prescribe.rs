//! Sets, reps, effort and rest for one exercise and one person.
//!
//! Start at [`prescribe`]. What load that means is the `progress` module's
//! question; this one never names a load.

use super::Prescription;
use super::objective::Pace;
use crate::catalogue::{Exercise, Kind, Measure};
use crate::person::{Person, Status};

/// Least rest after a shortened set, seconds, by kind (common practice, no
/// source).
const LEAST_BRISK_REST_S: (u16, u16) = (90, 45);

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
        rest_s: rest(exercise, person, Pace::Full),
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

/// Seconds of rest after a set. A brisk pace rests three quarters: shorter and
/// longer rests grow muscle much alike (Singer et al. 2024, Front Sports Act
/// Living 6:1429789), at the price of reps in later sets. Heavy lifts keep their
/// rest.
#[must_use]
pub(super) fn rest(exercise: &Exercise, person: &Person, pace: Pace) -> u16 {
    let full = exercise.rest_s + if person.is_older { 30 } else { 0 };
    match pace {
        Pace::Full => full,
        Pace::Brisk if exercise.strain >= 2 => full,
        Pace::Brisk => {
            let least = match exercise.kind {
                Kind::Compound => LEAST_BRISK_REST_S.0,
                Kind::Isolation => LEAST_BRISK_REST_S.1,
            };
            (full * 3 / 4 / 5 * 5).max(least).min(full)
        }
    }
}
