//! What is kept beside the log: blocks, and the trace of every change made to a
//! past session.
//!
//! Start at [`Chronicle`]. Two phones of one person may both have written: what
//! either holds stays.

use crate::json;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::order::{self, Map};
use weekloom_engine::review::Block;
use weekloom_engine::units::Load;

/// Blocks kept (the project's own judgement): a hundred of six weeks are more
/// than eleven years.
pub const MOST_BLOCKS: usize = 200;
/// Changes kept, the latest (the project's own judgement).
pub const MOST_AMENDMENTS: usize = 1_000;

/// A set in numbers: load, reps or seconds, and reps in reserve if said.
pub type SetNumbers = (Load, u16, Option<u8>);

/// A change of a set of a past session.
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
    /// What it was.
    pub was: SetNumbers,
    /// What it became; `None` where it was taken out.
    pub now: Option<SetNumbers>,
}

/// Blocks and changes of past sessions.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chronicle {
    /// Blocks, by their first day.
    pub blocks: Map<Day, Block>,
    /// Changes of past sessions, earlier first.
    pub amendments: Vec<Amendment>,
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

    /// The changes of a session, earlier first.
    pub fn of_session<'a>(&'a self, id: &'a str) -> impl DoubleEndedIterator<Item = &'a Amendment> {
        self.amendments.iter().filter(move |a| a.session == id)
    }

    fn trim(&mut self) {
        let surplus = self.amendments.len().saturating_sub(MOST_AMENDMENTS);
        self.amendments.drain(..surplus);
        while self.blocks.len() > MOST_BLOCKS {
            let first = self.blocks.keys().next().copied();
            if let Some(first) = first {
                self.blocks.remove(&first);
            }
        }
    }

    /// These and those. Of two blocks that begin on one day the one whose text
    /// sorts last stays, and a change that both know is kept once; so joining is
    /// idempotent, commutative and associative, as long as there is room.
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
        order::sort_by_key(&mut joined.amendments, |a| (a.at, json::write(a)));
        joined.trim();
        joined
    }
}
