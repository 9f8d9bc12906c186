//! The session as it runs: a state machine that never loses a set.
//!
//! Start at [`Session`] and [`Session::apply`]: one event in, a new session
//! out, or a refusal that says why. The machine never reads the clock; `now`
//! comes with every event.

mod event;
mod hold;
mod machine;
mod reading;
mod refusal;
mod shortage;
mod turns;

pub use event::Event;
pub use hold::held_s;
pub use reading::{SessionProgress, session_performances};
pub use refusal::Refusal;
pub use shortage::Within;
pub use turns::{HARDER_REST_S, MOST_HARDER_REST_S, TRANSITION_S, harder_rest_s};

use crate::calendar::{Day, Moment};
use crate::catalogue::ExerciseId;
use crate::log::{Discomfort, SetEntry};
use crate::plan::{PlanDay, Prescription};
use crate::units::Load;

/// Most characters of a note (the project's own judgement).
pub const NOTE_CHARS: usize = 500;

/// What was aimed at when the exercise came up, kept so that a log can be read
/// later without the rules of that day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Target {
    /// Suggested load; `None` when there was nothing to go by.
    pub load: Option<Load>,
    /// Reps (or seconds) aimed at in each set.
    pub count: u16,
    /// Reps in reserve aimed at.
    pub rir: u8,
}

/// Where an exercise of the session stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ItemState {
    /// Still to do, or under way.
    Open,
    /// Left out on purpose.
    Skipped,
}

/// One exercise of the session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SessionItem {
    /// Key of the plan item it came from; keys above 999 were added today.
    pub key: u16,
    /// What is asked today.
    pub prescription: Prescription,
    /// Superset group within the session.
    pub superset: Option<u8>,
    /// What was aimed at; set when the first set of it comes up.
    pub target: Option<Target>,
    /// Sets done, in order, warm-up sets included.
    pub sets: Vec<SetEntry>,
    /// Open or skipped. An open item with all its work sets is complete.
    pub state: ItemState,
    /// A discomfort note.
    pub discomfort: Option<Discomfort>,
    /// The person's own words, at most 500 characters.
    pub note: String,
    /// What the plan had before a swap.
    pub swapped_from: Option<ExerciseId>,
}

/// What the session is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Not begun.
    Planned,
    /// A set is up.
    Active,
    /// Resting until a moment by the wall clock.
    Resting {
        /// When the rest began.
        since: Moment,
        /// When the next set is due.
        until: Moment,
    },
    /// Interrupted by the person; the rest timer is off.
    Paused {
        /// When it was paused.
        since: Moment,
    },
    /// Over. Only amending is possible.
    Finished {
        /// When.
        at: Moment,
    },
}

/// One training session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Unique id, sortable by start; made by the caller.
    pub id: String,
    /// The day it belongs to.
    pub day: Day,
    /// Index of the plan's day it came from; `None` for a free session.
    pub plan_day: Option<u8>,
    /// Whether it is part of a deload.
    pub is_deload: bool,
    /// When it was started.
    pub started: Option<Moment>,
    /// Seconds spent paused.
    pub paused_s: u32,
    /// Exercises in order.
    pub items: Vec<SessionItem>,
    /// Index of the item whose set is up; `None` when all are done.
    pub current: Option<usize>,
    /// What it is doing.
    pub phase: Phase,
}

impl SessionItem {
    /// An item with nothing done yet.
    #[must_use]
    pub const fn new(key: u16, prescription: Prescription) -> Self {
        Self {
            key,
            prescription,
            superset: None,
            target: None,
            sets: Vec::new(),
            state: ItemState::Open,
            discomfort: None,
            note: String::new(),
            swapped_from: None,
        }
    }
}

impl Session {
    /// A session of a plan's day, not begun. `plan_day` is the day's index in
    /// the plan. Fewer sets in a deload are the plan's concern.
    #[must_use]
    pub fn plan(id: &str, day: Day, plan_day: u8, is_deload: bool, planned: &PlanDay) -> Self {
        let items = planned
            .items
            .iter()
            .map(|item| SessionItem {
                superset: item.superset,
                ..SessionItem::new(item.key, item.prescription.clone())
            })
            .collect();
        Self {
            plan_day: Some(plan_day),
            is_deload,
            items,
            ..Self::free(id, day)
        }
    }

    /// A session without a plan, not begun and empty: add exercises to it.
    #[must_use]
    pub fn free(id: &str, day: Day) -> Self {
        Self {
            id: id.to_owned(),
            day,
            plan_day: None,
            is_deload: false,
            started: None,
            paused_s: 0,
            items: Vec::new(),
            current: None,
            phase: Phase::Planned,
        }
    }
}

#[cfg(test)]
mod tests;
