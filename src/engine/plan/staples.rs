//! The exercises a coach reaches for first.
//!
//! Start at [`standing`]. Every list is common practice, no source: nothing says
//! that these grow more muscle than their rarer kin, only that they are taught
//! everywhere, load in small steps and are easy to find. They are preferred
//! where the kit allows them, never required. This module knows ids alone.

use crate::catalogue::ExerciseId;

/// How usual an exercise is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Standing {
    /// A main lift of the trade.
    Main,
    /// Found in most weeks.
    Usual,
    /// For a purpose, a taste or a want of kit.
    Special,
}

/// Main lifts.
const MAIN: &[&str] = &[
    "back-squat",
    "barbell-bench-press",
    "barbell-hip-thrust",
    "barbell-row",
    "chin-up",
    "deadlift",
    "dumbbell-bench-press",
    "front-squat",
    "incline-barbell-bench-press",
    "incline-dumbbell-press",
    "lat-pulldown",
    "leg-press",
    "overhead-press",
    "pull-up",
    "seated-dumbbell-shoulder-press",
    "seated-row",
    "straight-leg-deadlift",
    "trap-bar-deadlift",
];

/// Usual lifts beside them.
const USUAL: &[&str] = &[
    "ab-wheel-rollout",
    "assisted-pull-up",
    "back-extension",
    "band-chest-press",
    "band-face-pull",
    "band-pulldown",
    "band-pushdown",
    "band-row",
    "band-straight-leg-deadlift",
    "barbell-curl",
    "cable-crunch",
    "cable-curl",
    "cable-fly",
    "cable-pushdown",
    "cable-rear-raise",
    "cable-side-raise",
    "chest-supported-dumbbell-row",
    "chest-supported-rear-raise",
    "crunch",
    "curl-bar-curl",
    "dead-bug",
    "dip",
    "dumbbell-calf-raise",
    "dumbbell-curl",
    "dumbbell-floor-press",
    "dumbbell-fly",
    "dumbbell-overhead-extension",
    "dumbbell-rear-foot-raised-split-squat",
    "dumbbell-rear-raise",
    "dumbbell-reverse-lunge",
    "dumbbell-row",
    "dumbbell-side-raise",
    "dumbbell-split-squat",
    "dumbbell-step-up",
    "dumbbell-straight-leg-deadlift",
    "dumbbell-walking-lunge",
    "face-pull",
    "glute-bridge",
    "goblet-squat",
    "hack-squat",
    "hanging-knee-raise",
    "hip-abduction-machine",
    "hip-adduction-machine",
    "incline-dumbbell-curl",
    "inverted-row",
    "kettlebell-floor-press",
    "kettlebell-goblet-squat",
    "kettlebell-overhead-press",
    "kettlebell-row",
    "kettlebell-straight-leg-deadlift",
    "kettlebell-swing",
    "leg-extension",
    "loaded-chin-up",
    "loaded-dip",
    "loaded-pull-up",
    "lying-leg-curl",
    "lying-triceps-extension",
    "machine-chest-fly",
    "machine-chest-press",
    "machine-hip-thrust",
    "machine-rear-fly",
    "machine-shoulder-press",
    "neutral-grip-curl",
    "neutral-grip-pulldown",
    "one-arm-cable-row",
    "overhead-cable-extension",
    "plank",
    "push-up",
    "reverse-crunch",
    "reverse-lunge",
    "seated-calf-raise",
    "seated-leg-curl",
    "side-plank",
    "single-leg-calf-raise",
    "single-leg-glute-bridge",
    "sliding-leg-curl",
    "split-squat",
    "standing-calf-raise",
    "standing-dumbbell-overhead-press",
    "straight-arm-pulldown",
];

/// Usual for those who are learning, or old; too easy for others.
const FIRST_STEPS: &[&str] = &[
    "incline-push-up",
    "kettlebell-deadlift",
    "knee-push-up",
    "sit-to-stand",
    "supported-split-squat",
];

/// Presses and flies upwards: another angle than the flat bench.
const INCLINE: &[&str] = &[
    "feet-raised-push-up",
    "incline-barbell-bench-press",
    "incline-dumbbell-fly",
    "incline-dumbbell-press",
    "landmine-chest-press",
];

/// Whether the exercise presses upwards.
pub(super) fn is_incline(id: &ExerciseId) -> bool {
    INCLINE.binary_search(&id.as_str()).is_ok()
}

/// How usual the exercise is, for learners and the old or for others.
pub(crate) fn standing(id: &ExerciseId, is_learner: bool) -> Standing {
    let is_in = |list: &[&str]| list.binary_search(&id.as_str()).is_ok();
    if is_in(MAIN) {
        Standing::Main
    } else if is_in(USUAL) || (is_learner && is_in(FIRST_STEPS)) {
        Standing::Usual
    } else {
        Standing::Special
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;

    #[test]
    fn every_staple_is_in_the_catalogue_once_and_in_order() {
        let catalogue = Catalogue::built_in();
        for list in [MAIN, USUAL, FIRST_STEPS, INCLINE] {
            assert!(list.is_sorted());
            for slug in list {
                assert!(catalogue.get(&ExerciseId::new(slug)).is_some(), "{slug}");
            }
        }
        assert!(MAIN.iter().all(|slug| !USUAL.contains(slug)));
    }
}
