//! What is kept beside the log: blocks, the trace of every change made to a past
//! session, and what the body weighed.
//!
//! Start at [`Chronicle`]. Two phones of one person may both have written: what
//! either holds stays.

use crate::json;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::log::Discomfort;
use weekloom_engine::order::{self, Map};
use weekloom_engine::review::{Block, Weights};
use weekloom_engine::units::Load;

/// Blocks kept (the project's own judgement): a hundred of six weeks are more
/// than eleven years.
pub const MOST_BLOCKS: usize = 200;
/// Changes kept of sets and of remarks, the latest (the project's own judgement).
pub const MOST_AMENDMENTS: usize = 1_000;

/// Weighings kept, the latest (the project's own judgement): one a day for more
/// than ten years, and one a month for ever.
pub const MOST_WEIGHINGS: usize = 4_000;

/// What was said of the body's weight on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weighing {
    /// When it was said; of two phones the later stands.
    pub at: Moment,
    /// The weight; `None` where it was taken back, or asked for and not told.
    pub weight: Option<Load>,
}

/// A set in numbers: load, reps or seconds, and reps in reserve if said.
pub type SetNumbers = (Load, u16, Option<u8>);

/// A change of a set of a past session; not both of its sides are `None`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Amendment {
    /// The session's id.
    pub session: String,
    /// When it was changed.
    pub at: Moment,
    /// The exercise.
    pub exercise: ExerciseId,
    /// Index of the item in the session.
    pub item: u8,
    /// Index of the set in the item.
    pub set: u8,
    /// What it was; `None` where it was put in.
    pub was: Option<SetNumbers>,
    /// What it became; `None` where it was taken out.
    pub now: Option<SetNumbers>,
}

/// A change of what was remarked on an exercise of a past session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// The session's id.
    pub session: String,
    /// When it was changed.
    pub at: Moment,
    /// Index of the item in the session.
    pub item: u8,
    /// The note before; empty where there was none.
    pub note: String,
    /// The discomfort noted before.
    pub discomfort: Option<Discomfort>,
}

/// Blocks, changes of past sessions, and the body's weight.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chronicle {
    /// Blocks, by their first day.
    pub blocks: Map<Day, Block>,
    /// Changes of past sessions, earlier first.
    pub amendments: Vec<Amendment>,
    /// Changes of notes and discomfort, earlier first.
    pub remarks: Vec<Remark>,
    /// What was said of the body's weight, by day.
    pub weighings: Map<Day, Weighing>,
}

impl Chronicle {
    /// The block a day lies in, or else the next one to come.
    #[must_use]
    pub fn block_on(&self, day: Day) -> Option<&Block> {
        self.blocks.values().find(|block| block.end() > day)
    }

    /// The block a day lies in, the next one to come, or else the last that was.
    #[must_use]
    pub fn block_near(&self, day: Day) -> Option<&Block> {
        self.block_on(day).or(self.blocks.values().next_back())
    }

    /// Puts a block in. It takes the place of every other that it overlaps.
    pub fn put_block(&mut self, block: Block) {
        let overlaps = |other: &Block| other.start < block.end() && block.start < other.end();
        let gone: Vec<Day> = self
            .blocks
            .values()
            .filter(|other| overlaps(other))
            .map(|other| other.start)
            .collect();
        for start in gone {
            self.blocks.remove(&start);
        }
        self.blocks.insert(block.start, block);
        self.trim();
    }

    /// Notes a change.
    pub fn note(&mut self, amendment: Amendment) {
        self.amendments.push(amendment);
        self.trim();
    }

    /// Notes a change of a remark.
    pub fn note_remark(&mut self, remark: Remark) {
        self.remarks.push(remark);
        self.trim();
    }

    /// Notes what the body weighed on a day, or that it was not told.
    pub fn weigh(&mut self, day: Day, weighing: Weighing) {
        self.weighings.insert(day, weighing);
        self.trim();
    }

    /// What the body weighed, by day.
    #[must_use]
    pub fn weights(&self) -> Weights {
        let mut weights = Weights::new();
        for (day, weighing) in self.weighings.iter() {
            if let Some(weight) = weighing.weight {
                weights.insert(*day, weight);
            }
        }
        weights
    }

    /// The changes of a session, earlier first.
    pub fn of_session<'a>(&'a self, id: &'a str) -> impl DoubleEndedIterator<Item = &'a Amendment> {
        self.amendments.iter().filter(move |a| a.session == id)
    }

    /// The changes of a session's remarks, earlier first.
    pub fn remarks_of<'a>(&'a self, id: &'a str) -> impl DoubleEndedIterator<Item = &'a Remark> {
        self.remarks.iter().filter(move |r| r.session == id)
    }

    fn trim(&mut self) {
        let surplus = self.amendments.len().saturating_sub(MOST_AMENDMENTS);
        self.amendments.drain(..surplus);
        let surplus = self.remarks.len().saturating_sub(MOST_AMENDMENTS);
        self.remarks.drain(..surplus);
        while self.blocks.len() > MOST_BLOCKS {
            let first = self.blocks.keys().next().copied();
            if let Some(first) = first {
                self.blocks.remove(&first);
            }
        }
        while self.weighings.len() > MOST_WEIGHINGS {
            let first = self.weighings.keys().next().copied();
            if let Some(first) = first {
                self.weighings.remove(&first);
            }
        }
    }

    /// These and those. Of two blocks that begin on one day the one whose text
    /// sorts last stays, a change that both know is kept once, and of two
    /// weighings of one day the later stands; so joining is idempotent,
    /// commutative and associative, as long as there is room.
    #[must_use]
    pub fn joined(&self, other: &Self) -> Self {
        let mut joined = self.clone();
        for (start, theirs) in other.blocks.iter() {
            let text = |block: &Block| json::write(block);
            let is_later = joined
                .blocks
                .get(start)
                .is_none_or(|mine| text(theirs) > text(mine));
            if is_later {
                joined.blocks.insert(*start, theirs.clone());
            }
        }
        for theirs in &other.amendments {
            if !joined.amendments.contains(theirs) {
                joined.amendments.push(theirs.clone());
            }
        }
        for theirs in &other.remarks {
            if !joined.remarks.contains(theirs) {
                joined.remarks.push(theirs.clone());
            }
        }
        for (day, theirs) in other.weighings.iter() {
            let rank = |weighing: &Weighing| (weighing.at, weighing.weight);
            let is_later = joined
                .weighings
                .get(day)
                .is_none_or(|mine| rank(theirs) > rank(mine));
            if is_later {
                joined.weighings.insert(*day, *theirs);
            }
        }
        order::sort_by_key(&mut joined.amendments, |a| (a.at, json::write(a)));
        order::sort_by_key(&mut joined.remarks, |r| (r.at, json::write(r)));
        joined.trim();
        joined
    }
}
