//! Exercises of the person's own making, as they are kept.
//!
//! Start at [`OwnExercises`]. Two phones of one person may both have changed
//! one: the later change stands, whichever is joined to the other.

use crate::json;
use weekloom_engine::calendar::Moment;
use weekloom_engine::catalogue::own::MOST_OWN;
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId};
use weekloom_engine::order::Map;

/// An exercise of the person's own making.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnExercise {
    /// The exercise, without any flaw.
    pub exercise: Exercise,
    /// When it was made or last changed.
    pub changed: Moment,
}

/// All of them, by id; at most [`MOST_OWN`].
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct OwnExercises(pub Map<ExerciseId, OwnExercise>);

impl OwnExercises {
    /// Puts one in, in place of an earlier state of it.
    pub fn put(&mut self, exercise: Exercise, changed: Moment) {
        let id = exercise.id.clone();
        self.0.insert(id, OwnExercise { exercise, changed });
    }

    /// Whether no more fit.
    #[must_use]
    pub fn is_full(&self) -> bool {
        self.0.len() >= MOST_OWN
    }

    /// The built-in exercises with these beside them.
    #[must_use]
    pub fn beside(&self, built_in: &Catalogue) -> Catalogue {
        built_in.with_own(self.0.values().map(|own| own.exercise.clone()))
    }

    /// These and those. Of two states of one exercise the later stands, of two
    /// of the same moment the one whose text sorts last. So joining is
    /// idempotent, commutative and associative, as long as there is room: of
    /// more than [`MOST_OWN`] those whose ids sort first stay.
    #[must_use]
    pub fn joined(&self, other: &Self) -> Self {
        let mut joined = self.clone();
        for (id, theirs) in other.0.iter() {
            let is_later = joined
                .0
                .get(id)
                .is_none_or(|mine| rank(theirs) > rank(mine));
            if is_later {
                joined.0.insert(id.clone(), theirs.clone());
            }
        }
        let kept = joined.0.into_iter().take(MOST_OWN);
        Self(kept.collect())
    }
}

fn rank(own: &OwnExercise) -> (Moment, String) {
    (own.changed, json::write(own))
}
