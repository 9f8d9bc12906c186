//! What went beyond the last time, plainly compared: no estimate, no verdict.

use crate::catalogue::{Exercise, Loading};
use crate::log::Performance;
use crate::units::Load;

/// How a performance went beyond the one before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rise {
    /// A harder load (less help, where the machine helps), for at least the
    /// least reps asked for.
    Load {
        /// Hardest load before.
        from: Load,
        /// Hardest load now.
        to: Load,
    },
    /// The hardest load of before, for more reps or seconds.
    Count {
        /// That load; nought where the exercise has no number.
        load: Load,
        /// Most before.
        from: u16,
        /// Most now.
        to: u16,
    },
}

/// What rose from one performance of an exercise to the next. `None` when
/// nothing did, when either was part of a lighter week, and when either hurt:
/// those are not for comparing.
#[must_use]
pub fn rise(exercise: &Exercise, before: &Performance, now: &Performance) -> Option<Rise> {
    let is_comparable = |p: &Performance| !p.is_deload && p.discomfort.is_none();
    if !is_comparable(before) || !is_comparable(now) {
        return None;
    }
    let (from, most_before) = hardest(exercise, before)?;
    let (to, most_now) = hardest(exercise, now)?;
    if is_harder(exercise, to, from) {
        return (most_now >= now.prescription.reps.0).then_some(Rise::Load { from, to });
    }
    (to == from && most_now > most_before).then_some(Rise::Count {
        load: to,
        from: most_before,
        to: most_now,
    })
}

fn is_harder(exercise: &Exercise, a: Load, b: Load) -> bool {
    match exercise.loading {
        Loading::Assisted => a < b,
        _ => a > b,
    }
}

/// The hardest load of a performance, and the most done with it in one set.
fn hardest(exercise: &Exercise, performance: &Performance) -> Option<(Load, u16)> {
    let mut hardest = performance.sets.first().map(|set| (set.load, set.count))?;
    for set in &performance.sets {
        let is_more = set.load == hardest.0 && set.count > hardest.1;
        if is_more || is_harder(exercise, set.load, hardest.0) {
            hardest = (set.load, set.count);
        }
    }
    Some(hardest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::{Day, Moment};
    use crate::catalogue::{Catalogue, ExerciseId};
    use crate::log::{Discomfort, SetEntry, SetKind};
    use crate::plan::Prescription;

    fn done(exercise: &Exercise, sets: &[(u16, u16)]) -> Performance {
        let set = |&(kg, count)| SetEntry {
            kind: SetKind::Work,
            load: Load::kg(kg),
            count,
            rir: None,
            at: Moment(0),
        };
        Performance {
            day: Day::from_ymd(2026, 3, 2).unwrap(),
            prescription: Prescription {
                exercise: exercise.id.clone(),
                sets: 3,
                reps: (6, 10),
                rir: 2,
                rest_s: 120,
            },
            suggested: None,
            is_deload: false,
            sets: sets.iter().map(set).collect(),
            discomfort: None,
        }
    }

    fn found(id: &str) -> Exercise {
        Catalogue::built_in()
            .get(&ExerciseId::new(id))
            .unwrap()
            .clone()
    }

    #[test]
    fn the_hardest_load_decides_and_then_its_reps() {
        let press = &found("barbell-bench-press");
        let load = |from, to| {
            let (from, to) = (Load::kg(from), Load::kg(to));
            Some(Rise::Load { from, to })
        };
        let count = |load, from, to| {
            let load = Load::kg(load);
            Some(Rise::Count { load, from, to })
        };
        type Sets = &'static [(u16, u16)];
        let rows: [(Sets, Sets, Option<Rise>); 7] = [
            (&[(60, 8), (60, 8)], &[(62, 6), (60, 8)], load(60, 62)),
            // Too few reps to speak of.
            (&[(60, 8)], &[(62, 5)], None),
            (&[(60, 8), (60, 7)], &[(60, 7), (60, 9)], count(60, 8, 9)),
            (&[(60, 8)], &[(60, 8)], None),
            (&[(60, 8)], &[(55, 12)], None),
            (&[], &[(60, 8)], None),
            (&[(60, 8)], &[], None),
        ];
        for (before, now, expected) in rows {
            let (before_, now_) = (done(press, before), done(press, now));
            assert_eq!(rise(press, &before_, &now_), expected, "{before:?} {now:?}");
        }
    }

    #[test]
    fn less_help_is_harder() {
        let pull_up = &found("assisted-pull-up");
        let (before, now) = (
            done(pull_up, &[(30, 8)]),
            done(pull_up, &[(25, 8), (35, 8)]),
        );
        let expected = Rise::Load {
            from: Load::kg(30),
            to: Load::kg(25),
        };
        assert_eq!(rise(pull_up, &before, &now), Some(expected));
        assert_eq!(rise(pull_up, &now, &before), None);
    }

    #[test]
    fn a_lighter_week_and_what_hurt_are_not_compared() {
        let press = &found("barbell-bench-press");
        let (before, now) = (done(press, &[(60, 8)]), done(press, &[(65, 8)]));
        let lighter = Performance {
            is_deload: true,
            ..before.clone()
        };
        assert_eq!(rise(press, &lighter, &now), None);
        let hurt = Performance {
            discomfort: Some(Discomfort::Mild),
            ..now
        };
        assert_eq!(rise(press, &before, &hurt), None);
    }
}
