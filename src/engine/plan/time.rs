//! How long a session takes.
//!
//! Start at [`session_seconds`] for planned items and [`seconds`] for the bare
//! arithmetic: warm-up and set-up once per exercise, work for every set, rest
//! between sets. The rest after the very last set is not counted. This module
//! never reads a clock: it estimates.

use super::{PlanItem, Prescription};
use crate::catalogue::{Catalogue, Exercise, Kind, Measure, Sides};

/// One exercise as the clock sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Working sets.
    pub sets: u32,
    /// Seconds of work in one set, both sides included.
    pub work_s: u32,
    /// Seconds of rest after a set.
    pub rest_s: u32,
    /// Seconds of set-up and warm-up before the first set.
    pub ready_s: u32,
    /// Neighbours with the same number are done in turn.
    pub superset: Option<u8>,
}

/// Seconds a session of these exercises takes, in order. Exercises of a
/// superset are done in turn and rest once, the longest of their rests, after
/// each round; one with more sets than its partner goes on alone.
#[must_use]
pub fn seconds(efforts: &[Effort]) -> u32 {
    let mut total = 0;
    let mut last_rest = 0;
    let mut at = 0;
    while at < efforts.len() {
        let mut end = at + 1;
        if efforts[at].superset.is_some() {
            while end < efforts.len() && efforts[end].superset == efforts[at].superset {
                end += 1;
            }
        }
        let group = &efforts[at..end];
        total += group.iter().map(|e| e.ready_s).sum::<u32>();
        let rounds = group.iter().map(|e| e.sets).max().unwrap_or(0);
        for round in 0..rounds {
            let up = || group.iter().filter(|e| e.sets > round);
            last_rest = up().map(|e| e.rest_s).max().unwrap_or(0);
            total += up().map(|e| e.work_s).sum::<u32>() + last_rest;
        }
        at = end;
    }
    total - last_rest
}

/// Seconds of work in one set of the exercise for this goal range: the middle
/// of the range, times the seconds of a rep, times the sides.
#[must_use]
pub fn work_seconds(exercise: &Exercise, reps: (u16, u16)) -> u32 {
    let twice_middle = u32::from(reps.0) + u32::from(reps.1);
    let one_side = match exercise.measure {
        Measure::Reps => twice_middle * u32::from(exercise.rep_ds) / 20,
        Measure::Seconds => twice_middle / 2,
    };
    match exercise.sides {
        Sides::Both => one_side,
        Sides::Each => one_side * 2,
    }
}

/// Seconds of warm-up sets before the exercise: only compound lifts with a
/// load get any, and only of the same exercise (Iversen et al. 2021, Sports
/// Med 51:2079-2095). Two steps before heavy lifts, one before others (after
/// Ribeiro et al. 2020, IJERPH 17(18):6882); the seconds are common practice,
/// no source.
#[must_use]
pub const fn warm_up_seconds(exercise: &Exercise) -> u32 {
    if !exercise.is_loaded() || matches!(exercise.kind, Kind::Isolation) {
        return 0;
    }
    match exercise.strain {
        0 | 1 => 45,
        2 => 90,
        _ => 150,
    }
}

/// The clock's view of a planned exercise.
#[must_use]
pub fn effort(exercise: &Exercise, prescription: &Prescription, superset: Option<u8>) -> Effort {
    Effort {
        sets: u32::from(prescription.sets),
        work_s: work_seconds(exercise, prescription.reps),
        rest_s: u32::from(prescription.rest_s),
        ready_s: u32::from(exercise.setup_s) + warm_up_seconds(exercise),
        superset,
    }
}

/// Estimated seconds of a session. Exercises the catalogue does not know count
/// their sets at 40 s of work each.
#[must_use]
pub fn session_seconds(catalogue: &Catalogue, items: &[PlanItem]) -> u32 {
    let efforts: Vec<Effort> = items
        .iter()
        .map(|item| match catalogue.get(&item.prescription.exercise) {
            Some(exercise) => effort(exercise, &item.prescription, item.superset),
            None => Effort {
                sets: u32::from(item.prescription.sets),
                work_s: 40,
                rest_s: u32::from(item.prescription.rest_s),
                ready_s: 0,
                superset: item.superset,
            },
        })
        .collect();
    seconds(&efforts)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn eight(rest_s: u32, paired: bool) -> Vec<Effort> {
        (0..8)
            .map(|i| Effort {
                sets: 3,
                work_s: 30,
                rest_s,
                ready_s: 0,
                superset: paired.then_some(i / 2),
            })
            .collect()
    }

    /// Eight exercises of three sets of ten three-second reps: the typical
    /// session of Iversen et al. 2021, Sports Med 51:2079-2095, worked out.
    #[test]
    fn clock_of_a_typical_session() {
        assert_eq!(seconds(&eight(120, false)), 58 * 60);
        assert_eq!(seconds(&eight(60, false)), 35 * 60);
        assert_eq!(seconds(&eight(180, false)), 81 * 60);
    }

    /// Twelve pairs at 120 s after each pair take 34.0 min, 41 % less; trials
    /// saved 36 % (Burke et al. 2024, SportRxiv preprint) to nearly half
    /// (Iversen et al. 2024, JSCR 38(8):1372-1378).
    #[test]
    fn supersets_save_what_trials_saved() {
        let (straight, paired) = (seconds(&eight(120, false)), seconds(&eight(120, true)));
        assert_eq!(paired, 34 * 60);
        let saved_permille = (straight - paired) * 1000 / straight;
        assert!((360..=500).contains(&saved_permille), "{saved_permille}");
    }

    #[test]
    fn a_longer_partner_goes_on_alone() {
        let effort = |sets, rest_s| Effort {
            sets,
            work_s: 30,
            rest_s,
            ready_s: 10,
            superset: Some(1),
        };
        // Two rounds of 30 + 30 + 90, then 30 alone without its last rest.
        assert_eq!(seconds(&[effort(3, 60), effort(2, 90)]), 20 + 2 * 150 + 30);
        assert_eq!(seconds(&[]), 0);
    }

    #[test]
    fn neighbours_without_number_are_no_superset() {
        let one = Effort {
            sets: 1,
            work_s: 30,
            rest_s: 60,
            ready_s: 0,
            superset: None,
        };
        assert_eq!(seconds(&[one, one]), 30 + 60 + 30);
    }
}
