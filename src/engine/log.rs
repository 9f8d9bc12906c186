//! What was done: sets, and the performances that progression reads.
//!
//! Start at [`SetEntry`] and [`Performance`]. Nothing here judges.

use crate::calendar::{Day, Moment};
use crate::catalogue::ExerciseId;
use crate::plan::Prescription;
use crate::slug::slugged;
use crate::units::Load;

slugged! {
    /// What a set was for.
    SetKind {
        /// Counts towards the week.
        Work = "work",
        /// Leads up to the work; counts for nothing.
        WarmUp = "warm-up",
    }
}

/// One set as it was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SetEntry {
    /// Work or warm-up.
    pub kind: SetKind,
    /// The load; [`Load::ZERO`] where the exercise has no number. What it
    /// means depends on the exercise's loading.
    pub load: Load,
    /// Reps done, or seconds held. For one-sided exercises: per side, the
    /// weaker one.
    pub count: u16,
    /// Reps in reserve as the person judged them, 0 to 10; `None` if not said.
    /// Lifters under-predict the reps they have left by about one (Halperin
    /// et al. 2022, Sports Med 52(2):377-390).
    pub rir: Option<u8>,
    /// When it was logged.
    pub at: Moment,
}

slugged! {
    /// How much an exercise hurt.
    Discomfort {
        /// Noticed, no worse while lifting.
        Mild = "mild",
        /// Painful or getting worse: stopped or should have.
        Painful = "painful",
    }
}

/// One exercise of one past session, as progression reads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Performance {
    /// The day.
    pub day: Day,
    /// What was asked.
    pub prescription: Prescription,
    /// The load suggested before the first set, if any was.
    pub suggested: Option<Load>,
    /// Whether the session was a planned deload.
    pub is_deload: bool,
    /// Work sets, in order.
    pub sets: Vec<SetEntry>,
    /// A discomfort note, if one was made.
    pub discomfort: Option<Discomfort>,
}

impl Performance {
    /// The exercise.
    #[must_use]
    pub const fn exercise(&self) -> &ExerciseId {
        &self.prescription.exercise
    }

    /// The heaviest load of the work sets; the least help for an assisted
    /// exercise is the caller's business.
    #[must_use]
    pub fn top_load(&self) -> Option<Load> {
        self.sets.iter().map(|set| set.load).max()
    }
}
