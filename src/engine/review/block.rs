//! A block: some weeks with an end, a lighter week in them, and what they are
//! for.
//!
//! Start at [`Block`]. Nothing here reads a plan.

use super::{Finding, Review, Verdict, average_sets};
use crate::bounds::Bound;
use crate::calendar::Day;
use crate::catalogue::{ExerciseId, Muscle};
use crate::log::Discomfort;

/// Weeks of a block: below three nothing can be told from the logs, beyond
/// twelve the trials that stand behind the numbers end (common practice, no
/// source).
pub const BLOCK_WEEKS: Bound = Bound {
    what: "weeks of the block",
    least: 3,
    most: 12,
};
/// Weeks after which a lighter one is proposed: coached lifters take one every
/// 5.6 weeks, 2.3 more or less (Rogerson et al. 2024, Sports Med Open 10:26).
pub const LIGHTER_EVERY: u8 = 6;

/// What a block is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Goal {
    /// The exercise rises by more than measurements scatter.
    Rise(ExerciseId),
    /// The muscle gets the sets the plan holds.
    Sets(Muscle),
    /// Nine of ten planned sessions are done.
    EverySession,
    /// The exercise is done without a note of discomfort.
    NoPain(ExerciseId),
}

/// How a goal stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GoalState {
    /// Reached.
    Reached,
    /// Not reached so far.
    Open,
    /// Not enough to tell.
    Unknown,
}

/// Some weeks with an end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// Its first day.
    pub start: Day,
    /// How many weeks, [`BLOCK_WEEKS`].
    pub weeks: u8,
    /// The week of lighter training, from nought; `None` for no planned one.
    pub lighter: Option<u8>,
    /// What it is for.
    pub goals: Vec<Goal>,
}

/// One week of a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BlockWeek {
    /// Which, from nought.
    pub number: u8,
    /// Its first day.
    pub from: Day,
    /// Its last day.
    pub until: Day,
    /// Whether it is the lighter one.
    pub is_lighter: bool,
    /// Whether a day lies in it.
    pub is_now: bool,
}

impl Block {
    /// A block as it is usually made: the lighter week comes last, after so many
    /// weeks that one is due; a shorter block has none.
    #[must_use]
    pub fn usual(start: Day, weeks: u8) -> Self {
        Self {
            start,
            weeks,
            lighter: (weeks >= LIGHTER_EVERY).then(|| weeks - 1),
            goals: Vec::new(),
        }
    }

    /// The day after its last.
    #[must_use]
    pub fn end(&self) -> Day {
        self.start.plus(7 * i32::from(self.weeks))
    }

    /// The week of a day, from nought; `None` before and after.
    #[must_use]
    pub fn week_of(&self, day: Day) -> Option<u8> {
        let week = u8::try_from(day.days_since(self.start).div_euclid(7)).ok()?;
        (week < self.weeks).then_some(week)
    }

    /// The last day of the lighter week, on the days that belong to it.
    #[must_use]
    pub fn lighter_until(&self, today: Day) -> Option<Day> {
        let week = self.week_of(today)?;
        (self.lighter == Some(week)).then(|| self.start.plus(7 * i32::from(week) + 6))
    }

    /// Its weeks in order.
    #[must_use]
    pub fn lay_out(&self, today: Day) -> Vec<BlockWeek> {
        (0..self.weeks)
            .map(|number| {
                let from = self.start.plus(7 * i32::from(number));
                BlockWeek {
                    number,
                    from,
                    until: from.plus(6),
                    is_lighter: self.lighter == Some(number),
                    is_now: self.week_of(today) == Some(number),
                }
            })
            .collect()
    }
}

/// How a goal stands by a review of the block's days.
#[must_use]
pub fn judge_goal(goal: &Goal, review: &Review) -> GoalState {
    let held = |is_so: bool| {
        if is_so {
            GoalState::Reached
        } else {
            GoalState::Open
        }
    };
    match goal {
        Goal::Rise(exercise) => match review.series_of(exercise).map(|s| s.judgement.verdict) {
            Some(Verdict::Rose) => GoalState::Reached,
            Some(Verdict::Still | Verdict::Fell) => GoalState::Open,
            _ => GoalState::Unknown,
        },
        Goal::Sets(muscle) => match (
            average_sets(&review.weeks, *muscle),
            review.planned.get(muscle),
        ) {
            // Nine tenths of them (common practice, no source).
            (Some(done), Some(&planned)) => held(done * 10 >= planned * 9),
            _ => GoalState::Unknown,
        },
        Goal::EverySession => review
            .adherence
            .map_or(GoalState::Unknown, |(done, planned)| {
                held(done * 10 >= planned * 9)
            }),
        Goal::NoPain(exercise) => match review.series_of(exercise) {
            None => GoalState::Unknown,
            Some(_) => held(review.hurts(exercise).is_none()),
        },
    }
}

/// Goals that follow from a review: at most three, what hurts first.
#[must_use]
pub fn goals_of(review: &Review) -> Vec<Goal> {
    let mut goals: Vec<Goal> = Vec::new();
    for finding in &review.findings {
        let goal = match finding {
            Finding::Hurt { exercise, .. }
                if review.hurts(exercise) == Some(Discomfort::Painful) =>
            {
                Goal::NoPain(exercise.clone())
            }
            Finding::Missed { .. } => Goal::EverySession,
            Finding::Stalled { exercise, .. } => Goal::Rise(exercise.clone()),
            Finding::Short { muscle, .. } => Goal::Sets(*muscle),
            Finding::Hurt { .. } | Finding::Rose { .. } => continue,
        };
        if goals.len() < 3 && !goals.contains(&goal) {
            goals.push(goal);
        }
    }
    goals
}
