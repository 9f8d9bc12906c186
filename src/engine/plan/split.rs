//! Splits: how a week's work is dealt out over its days.
//!
//! Start at [`Split`] and `built_in`. A split is data: a cycle of days, each a
//! list of slots. The structures are the trade's usual ones (common practice,
//! no source); in trials with equal weekly sets split and full body grow
//! muscle alike (Ramos-Campo et al. 2024, JSCR 38(7):1330-1340).

use crate::catalogue::{Muscle, Pattern, Role};
use crate::slug::slugged;
use std::fmt;
use std::sync::Arc;

/// The slug of a split. Cheap to clone.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SplitId(Arc<str>);

impl SplitId {
    /// An id of this spelling.
    #[must_use]
    pub fn new(slug: &str) -> Self {
        Self(Arc::from(slug))
    }

    /// The spelling.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for SplitId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

slugged! {
    /// What a day of the cycle is about.
    Focus {
        /// The whole body, evenly.
        FullBody = "full-body",
        /// The whole body, pushing first.
        PushLed = "push-led",
        /// The whole body, pulling first.
        PullLed = "pull-led",
        /// The whole body, legs first.
        LegsLed = "legs-led",
        /// Pushing.
        Push = "push",
        /// Pulling.
        Pull = "pull",
        /// Legs.
        Legs = "legs",
        /// Upper body.
        Upper = "upper",
        /// Lower body.
        Lower = "lower",
        /// The person's own.
        Own = "own",
    }
}

/// A place in a day for one exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slot {
    /// Job the exercise must have.
    pub role: Role,
    /// Patterns it may have, the best suited first.
    pub patterns: Vec<Pattern>,
    /// Muscle it must be a prime mover of, where the patterns leave it open.
    pub muscle: Option<Muscle>,
    /// Emphasis: 1 is what the day is about; higher numbers go first when the
    /// minutes are short.
    pub rank: u8,
}

/// One day of a split.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SplitDay {
    /// What it is about.
    pub focus: Focus,
    /// Its slots, in usual order.
    pub slots: Vec<Slot>,
}

/// A cycle of days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Split {
    /// Slug that never changes.
    pub id: SplitId,
    /// The cycle. A week with more or fewer training days takes it up where
    /// the last one left it.
    pub days: Vec<SplitDay>,
}
