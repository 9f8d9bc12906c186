//! Why an event was refused, and what to do instead.

use crate::bounds::OutOfBounds;
use std::fmt;

/// An event was refused. The session is unchanged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// Not begun yet.
    NotStarted,
    /// Begun already.
    AlreadyStarted,
    /// Interrupted.
    Paused,
    /// Not interrupted.
    NotPaused,
    /// Over.
    Finished,
    /// Not over yet.
    UnderWay,
    /// No rest is running.
    NotResting,
    /// The rest timer has not run out.
    RestNotOver {
        /// Seconds that remain.
        remaining_s: u32,
    },
    /// Every set is done.
    NothingUp,
    /// No set was logged in the whole session.
    NothingLogged,
    /// The session has no such item.
    NoSuchItem {
        /// The index asked for.
        item: usize,
        /// How many there are.
        items: usize,
    },
    /// The item has no such set.
    NoSuchSet {
        /// The index asked for.
        set: usize,
        /// How many there are.
        sets: usize,
    },
    /// The item is skipped already.
    AlreadySkipped,
    /// The item is not skipped.
    NotSkipped,
    /// The item has all its sets.
    ItemComplete,
    /// The item is up already.
    AlreadyUp,
    /// The item came with the plan.
    NotAddedToday,
    /// The item has sets.
    HasSets {
        /// How many.
        sets: usize,
    },
    /// Fewer sets than are done.
    BelowDone {
        /// Work sets done.
        done: usize,
    },
    /// The work on the item has begun.
    TargetFixed,
    /// It is the same exercise.
    SameExercise,
    /// An exercise cannot be paired with itself.
    SameItem,
    /// The exercise has that place already.
    SamePlace,
    /// No other exercise is open.
    NothingElse,
    /// The two are paired already.
    AlreadyPaired,
    /// The item is in no superset.
    NotPaired,
    /// The least of the goal range is above its most.
    GoalReversed {
        /// Least.
        least: u16,
        /// Most.
        most: u16,
    },
    /// The note is too long.
    NoteTooLong {
        /// Characters it has.
        chars: usize,
    },
    /// A number is outside its bound.
    OutOfBounds(OutOfBounds),
}

impl From<OutOfBounds> for Refusal {
    fn from(error: OutOfBounds) -> Self {
        Self::OutOfBounds(error)
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotStarted => f.write_str("the session has not begun; start it first"),
            Self::AlreadyStarted => f.write_str("the session has begun already; go on with it"),
            Self::Paused => f.write_str("the session is paused; resume it first"),
            Self::NotPaused => f.write_str("the session is not paused; go on with it"),
            Self::Finished => {
                f.write_str("the session is over; only its sets and notes can be put right")
            }
            Self::UnderWay => {
                f.write_str("the session is under way; log the set of the exercise that is up")
            }
            Self::NotResting => f.write_str("no rest is running; start one first"),
            Self::RestNotOver { remaining_s } => {
                write!(f, "{remaining_s} s of rest remain; wait, or skip the rest")
            }
            Self::NothingUp => {
                f.write_str("every set is done; choose an exercise for another, or finish")
            }
            Self::NothingLogged => {
                f.write_str("no set was logged; log one, or discard the session")
            }
            Self::NoSuchItem { item, items } => write!(
                f,
                "exercise {} does not exist; choose one from 1 to {items}",
                item + 1
            ),
            Self::NoSuchSet { set, sets } => {
                write!(
                    f,
                    "set {} does not exist; choose one from 1 to {sets}",
                    set + 1
                )
            }
            Self::AlreadySkipped => f.write_str("the exercise is skipped already"),
            Self::NotSkipped => f.write_str("the exercise is not skipped; go on with it"),
            Self::ItemComplete => {
                f.write_str("all its sets are done; choose an exercise that is still open")
            }
            Self::AlreadyUp => f.write_str("the exercise is up already; log its set"),
            Self::NotAddedToday => {
                f.write_str("the exercise came with the plan; skip it or swap it instead")
            }
            Self::HasSets { sets } => write!(
                f,
                "the exercise has {sets} logged sets; remove them first, or skip the rest of it"
            ),
            Self::BelowDone { done } => {
                write!(f, "{done} sets are done; ask for at least as many")
            }
            Self::TargetFixed => {
                f.write_str("work on the exercise has begun; its target stays as it was")
            }
            Self::SameExercise => f.write_str("it is the same exercise; choose another"),
            Self::SameItem => {
                f.write_str("an exercise cannot be paired with itself; choose another")
            }
            Self::SamePlace => f.write_str("the exercise has that place; choose another"),
            Self::NothingElse => {
                f.write_str("nothing else is open; swap the exercise, or leave it out")
            }
            Self::AlreadyPaired => f.write_str("the two exercises are paired already"),
            Self::NotPaired => f.write_str("the exercise is in no superset; pair it first"),
            Self::GoalReversed { least, most } => write!(
                f,
                "goal range {least} to {most} is reversed; give the lower number first"
            ),
            Self::NoteTooLong { chars } => write!(
                f,
                "note of {chars} characters is longer than {}; shorten it",
                super::NOTE_CHARS
            ),
            Self::OutOfBounds(error) => write!(f, "{error}; enter a value in that range"),
        }
    }
}

impl std::error::Error for Refusal {}
