//! What a session says of itself: rest left, sets done, what is next.
//!
//! Nothing here changes a session.

use super::{ItemState, Phase, Session, SessionItem};
use crate::bounds::REST_S;
use crate::calendar::Moment;
use crate::load::WarmUpSet;
use crate::log::{Performance, SetEntry, SetKind};

/// How far a session is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SessionProgress {
    /// Work sets done, further ones included.
    pub sets_done: usize,
    /// Work sets still to do.
    pub sets_left: usize,
    /// Exercises with all their work sets.
    pub items_done: usize,
    /// Exercises left out.
    pub items_skipped: usize,
    /// All exercises.
    pub items: usize,
}

impl SessionItem {
    /// Work sets done.
    #[must_use]
    pub fn work_sets_done(&self) -> usize {
        self.work_sets().count()
    }

    /// The work sets, in order.
    pub fn work_sets(&self) -> impl DoubleEndedIterator<Item = &SetEntry> {
        self.sets.iter().filter(|set| set.kind == SetKind::Work)
    }

    /// Where among the sets a step of the climb is, if it was done: the
    /// warm-up set of this very load and these reps that was logged last.
    #[must_use]
    pub fn warm_up_done(&self, step: &WarmUpSet) -> Option<usize> {
        self.sets.iter().rposition(|set| {
            set.kind == SetKind::WarmUp && set.load == step.load && set.count == step.reps
        })
    }

    /// Work sets still to do; none when skipped.
    #[must_use]
    pub fn work_sets_left(&self) -> usize {
        match self.state {
            ItemState::Open => {
                usize::from(self.prescription.sets).saturating_sub(self.work_sets_done())
            }
            ItemState::Skipped => 0,
        }
    }

    /// Whether it still has work sets to do.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.work_sets_left() > 0
    }
}

impl Session {
    /// Whether the session has begun and is not over.
    #[must_use]
    pub const fn is_running(&self) -> bool {
        !matches!(self.phase, Phase::Planned | Phase::Finished { .. })
    }

    /// Whether it is over.
    #[must_use]
    pub const fn is_finished(&self) -> bool {
        matches!(self.phase, Phase::Finished { .. })
    }

    /// Seconds of rest left, rounded up; nought when not resting. A clock set
    /// back never makes it longer than the rest that was asked for.
    #[must_use]
    pub fn remaining_s(&self, now: Moment) -> u32 {
        let Phase::Resting { since, until } = self.phase else {
            return 0;
        };
        let length = until.0.saturating_sub(since.0);
        let left = until.0.saturating_sub(now.0).min(length);
        let most = REST_S.most * 1000;
        u32::try_from((left.clamp(0, most) + 999) / 1000).unwrap_or(0)
    }

    /// Whether a rest is running and not over.
    #[must_use]
    pub fn is_resting(&self, now: Moment) -> bool {
        self.remaining_s(now) > 0
    }

    /// Work sets done of an item; nought when there is no such item.
    #[must_use]
    pub fn work_sets_done(&self, item: usize) -> usize {
        self.items.get(item).map_or(0, SessionItem::work_sets_done)
    }

    /// How far the session is.
    #[must_use]
    pub fn progress(&self) -> SessionProgress {
        let mut sum = SessionProgress {
            items: self.items.len(),
            ..SessionProgress::default()
        };
        for item in &self.items {
            sum.sets_done += item.work_sets_done();
            sum.sets_left += item.work_sets_left();
            match item.state {
                ItemState::Skipped => sum.items_skipped += 1,
                ItemState::Open if !item.is_open() => sum.items_done += 1,
                ItemState::Open => {}
            }
        }
        sum
    }

    /// The item that comes up after the next work set of the current one;
    /// `None` when that is the last.
    #[must_use]
    pub fn next_up(&self) -> Option<usize> {
        let at = self.current?;
        let mut after = self.clone();
        let last = self.last_set().map(|(i, k)| self.items[i].sets[k].at.0);
        let load = crate::units::Load::ZERO;
        after.items.get_mut(at)?.sets.push(SetEntry {
            kind: SetKind::Work,
            load,
            count: 1,
            rir: None,
            at: Moment(last.unwrap_or_default().saturating_add(1)),
        });
        after.after_work_set(at).map(|(next, _)| next)
    }

    /// Seconds from start to `now` (or to the end) without the pauses; nought
    /// before the start.
    #[must_use]
    pub fn duration_s(&self, now: Moment) -> u32 {
        let Some(started) = self.started else {
            return 0;
        };
        let end = match self.phase {
            Phase::Finished { at } => at,
            // The pause under way does not count.
            Phase::Paused { since } => since,
            _ => now,
        };
        let seconds = end.0.saturating_sub(started.0) / 1000 - i64::from(self.paused_s);
        u32::try_from(seconds.max(0)).unwrap_or(u32::MAX)
    }

    /// The set logged last: its item and index.
    #[must_use]
    pub fn last_set(&self) -> Option<(usize, usize)> {
        let mut last: Option<(Moment, usize, usize)> = None;
        for (i, item) in self.items.iter().enumerate() {
            for (k, set) in item.sets.iter().enumerate() {
                if last.is_none_or(|(at, _, _)| set.at >= at) {
                    last = Some((set.at, i, k));
                }
            }
        }
        last.map(|(_, i, k)| (i, k))
    }
}

/// What progression reads of a session: one performance for every item with a
/// work set or a discomfort note, in order. An exercise that hurt too much to
/// do has no sets, and must be known all the same.
#[must_use]
pub fn session_performances(session: &Session) -> Vec<Performance> {
    session
        .items
        .iter()
        .filter(|item| item.work_sets_done() > 0 || item.discomfort.is_some())
        .map(|item| Performance {
            day: session.day,
            prescription: item.prescription.clone(),
            suggested: item.target.and_then(|target| target.load),
            is_deload: session.is_deload,
            sets: item.work_sets().copied().collect(),
            discomfort: item.discomfort,
        })
        .collect()
}
