//! What is derived from the sessions, so that a start never reads them all.
//!
//! Start at [`Index`] and [`History`]. Both can be made again from the
//! sessions at any time; nothing here is the only copy of anything.

use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::log::Performance;
use weekloom_engine::order::{self, Map};
use weekloom_engine::session::{Phase, Session, SessionItem, session_performances};

/// Performances kept per exercise.
const PERFORMANCES: usize = 6;
/// Sessions kept in the index: more than a year at twice a week, a twelve-week
/// block at any pace.
const RECENT: usize = 120;

/// One past session in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SessionLine {
    /// Its id.
    pub id: String,
    /// The day it belongs to.
    pub day: Day,
    /// The day of the plan it came from.
    pub plan_day: Option<u8>,
    /// Whether it was part of a deload.
    pub is_deload: bool,
    /// Work sets done.
    pub work_sets: u32,
    /// From start to finish, pauses taken off.
    pub seconds: u32,
}

/// Totals and the latest sessions.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Index {
    /// Finished sessions.
    pub sessions: u32,
    /// Work sets in all of them.
    pub work_sets: u32,
    /// The latest 120 sessions, oldest first.
    pub recent: Vec<SessionLine>,
}

/// A performance and the session it comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Past {
    /// The session's id.
    pub session: String,
    /// When the session was started.
    pub started: Option<Moment>,
    /// What was done.
    pub performance: Performance,
}

/// The latest performances of one exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct History {
    /// The exercise.
    pub exercise: ExerciseId,
    /// The latest 6, oldest first.
    pub past: Vec<Past>,
}

impl History {
    pub(crate) const fn new(exercise: ExerciseId) -> Self {
        Self {
            exercise,
            past: Vec::new(),
        }
    }

    /// The performances alone.
    #[must_use]
    pub fn performances(self) -> Vec<Performance> {
        self.past.into_iter().map(|p| p.performance).collect()
    }

    pub(crate) fn add(&mut self, past: Past) {
        self.past.push(past);
        // Stable: an exercise done twice in a session keeps its order.
        order::sort_by(&mut self.past, |a, b| {
            (a.performance.day, &a.session) < (b.performance.day, &b.session)
        });
        let surplus = self.past.len().saturating_sub(PERFORMANCES);
        self.past.drain(..surplus);
    }
}

impl Index {
    pub(crate) fn add(&mut self, session: &Session) {
        let line = line(session);
        self.sessions += 1;
        self.work_sets += line.work_sets;
        self.recent.push(line);
        order::sort_by(&mut self.recent, |a, b| (a.day, &a.id) < (b.day, &b.id));
        let surplus = self.recent.len().saturating_sub(RECENT);
        self.recent.drain(..surplus);
    }
}

fn line(session: &Session) -> SessionLine {
    let seconds = match (session.started, session.phase) {
        (Some(started), Phase::Finished { at }) => {
            at.seconds_since(started) - i64::from(session.paused_s)
        }
        _ => 0,
    };
    SessionLine {
        id: session.id.clone(),
        day: session.day,
        plan_day: session.plan_day,
        is_deload: session.is_deload,
        work_sets: work_sets(session),
        seconds: u32::try_from(seconds.max(0)).unwrap_or(u32::MAX),
    }
}

/// Work sets of a session.
pub(crate) fn work_sets(session: &Session) -> u32 {
    let count: usize = session.items.iter().map(SessionItem::work_sets_done).sum();
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// The performances of a session, each with where it comes from.
pub(crate) fn performances(session: &Session) -> impl Iterator<Item = Past> {
    let past = |performance| Past {
        session: session.id.clone(),
        started: session.started,
        performance,
    };
    session_performances(session).into_iter().map(past)
}

/// Everything derived, from all sessions.
#[derive(Debug, Default)]
pub(crate) struct Derived {
    pub index: Index,
    pub histories: Map<ExerciseId, History>,
}

impl Derived {
    pub(crate) fn add(&mut self, session: &Session) {
        self.index.add(session);
        for past in performances(session) {
            let exercise = past.performance.exercise().clone();
            self.histories
                .get_or_insert_with(exercise.clone(), || History::new(exercise))
                .add(past);
        }
    }
}
