//! What a person tells Weekloom: days, minutes, kit, experience and wishes.
//!
//! Start at [`Person`].

use crate::calendar::Weekday;
use crate::catalogue::{ExerciseId, JointDemand, Muscle};
use crate::kit::Kit;
use crate::order::{Map, Set};
use crate::plan::{OwnSplit, SplitId};
use crate::slug::slugged;
use crate::units::Unit;

slugged! {
    /// Training status. Definitions: Ratamess et al. 2009, MSSE 41(3):687-708
    /// (novice: none or several years off; intermediate: about six months of
    /// consistent training; advanced: years).
    Status {
        /// No training, or several years off.
        Novice = "novice",
        /// About six months of consistent training.
        Intermediate = "intermediate",
        /// Years of consistent training.
        Advanced = "advanced",
    }
}

slugged! {
    /// How much a muscle matters to the person.
    Priority {
        /// Keep what there is.
        Less = "less",
        /// As usual.
        Usual = "usual",
        /// Bring it up.
        More = "more",
    }
}

/// A person, as the planner sees them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Weekdays on which they can train, ascending, without repeats.
    pub days: Vec<Weekday>,
    /// Minutes for one session, [`crate::bounds::SESSION_MIN`].
    pub minutes: u16,
    /// What is at hand.
    pub kit: Kit,
    /// Training status.
    pub status: Status,
    /// Sixty-five or older: longer rests, more reps, less strain (Garber et
    /// al. 2011, MSSE 43(7):1334-1359).
    pub is_older: bool,
    /// Muscles that matter more or less than usual.
    pub priorities: Map<Muscle, Priority>,
    /// Exercises never to be planned.
    pub excluded: Set<ExerciseId>,
    /// Exercises to plan only when little else serves.
    pub disliked: Set<ExerciseId>,
    /// Joint demands to avoid.
    pub joint_limits: Set<JointDemand>,
    /// The split wanted; `None` leaves it to the default for the days.
    pub split: Option<SplitId>,
    /// Splits of the person's own making, no id twice.
    pub own_splits: Vec<OwnSplit>,
    /// Unit loads are read and typed in.
    pub unit: Unit,
}
