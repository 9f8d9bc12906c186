//! The week: splits, and the plan that fills them.
//!
//! Start at [`Plan`] for what a plan is, [`split`] for the cycles, and
//! `plan_week` for how one is made. This module never knows today's date.

pub mod split;

pub use split::{Slot, Split, SplitDay, SplitId};

use crate::catalogue::{ExerciseId, HalfSets, Muscle, Pattern};
use std::collections::BTreeMap;

/// What to do of one exercise in one session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prescription {
    /// The exercise.
    pub exercise: ExerciseId,
    /// Working sets, [`crate::bounds::SETS`].
    pub sets: u8,
    /// Goal range of reps (or seconds), least and most.
    pub reps: (u16, u16),
    /// Reps in reserve aimed at; 0 to 5.
    pub rir: u8,
    /// Rest after a set, seconds.
    pub rest_s: u16,
}

/// One exercise of a planned day, and why it is there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanItem {
    /// Stable within the plan: swaps and edits keep it.
    pub key: u16,
    /// What to do.
    pub prescription: Prescription,
    /// Items of the day with the same number are done in turn as a superset.
    pub superset: Option<u8>,
    /// Why it was picked; empty when the person put it there.
    pub reasons: Vec<PickReason>,
}

/// One day of the cycle.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanDay {
    /// What the day is about, as the split names it.
    pub focus: split::Focus,
    /// Exercises in order.
    pub items: Vec<PlanItem>,
    /// Estimated length, seconds.
    pub seconds: u32,
}

/// A structured week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The split it follows.
    pub split: SplitId,
    /// The days of the cycle, in order.
    pub days: Vec<PlanDay>,
    /// What could not be met, and why.
    pub notes: Vec<PlanNote>,
}

/// Why an exercise stands where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PickReason {
    /// It covers a pattern every week should hold.
    CoversPattern(Pattern),
    /// It adds this many half sets to a muscle that lacked them.
    Feeds {
        /// The muscle.
        muscle: Muscle,
        /// Half sets a week it adds.
        half_sets: HalfSets,
    },
    /// The muscle matters more to this person.
    Priority(Muscle),
    /// It opens the day because the day is about it.
    LeadsDay,
    /// It suits the person's status: little skill needed.
    EasyToLearn,
    /// It was the best that the kit at hand allows for the slot.
    BestWithKit,
    /// It takes little time for what it gives.
    SavesTime,
}

/// Something the plan could not do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlanNote {
    /// No exercise fits this pattern with the kit, exclusions and limits.
    PatternNotCovered(Pattern),
    /// A slot of a day was left out to keep within the minutes.
    SlotDropped {
        /// Index of the day.
        day: u8,
        /// Patterns the slot would have taken.
        patterns: Vec<Pattern>,
    },
    /// A muscle stays under its weekly floor.
    BelowFloor {
        /// The muscle.
        muscle: Muscle,
        /// Half sets planned.
        half_sets: HalfSets,
        /// Half sets of the floor.
        floor: HalfSets,
    },
    /// The day runs over the minutes even so.
    OverTime {
        /// Index of the day.
        day: u8,
        /// Seconds over.
        seconds: u32,
    },
    /// Two days in a row train the same muscle hard.
    ShortRecovery {
        /// Index of the earlier day.
        day: u8,
        /// The muscle.
        muscle: Muscle,
    },
}

/// Weekly half sets per muscle of a plan's prescriptions.
pub type WeeklySets = BTreeMap<Muscle, HalfSets>;
