//! The review: what the logs say of the weeks behind, and what it would have
//! the next ones hold.
//!
//! Start at [`review`]; [`propose`] turns its findings into changes of the
//! plan, each of which can be left out, and [`Block`] lays the coming weeks out.
//!
//! What this module never does: change a load, call a change what measurements
//! scatter by, or propose anything from thin data.

mod block;
mod body;
mod causes;
mod cloth;
mod proposal;
mod series;
mod weeks;

pub use block::{
    BLOCK_WEEKS, Block, BlockWeek, Goal, GoalState, LIGHTER_EVERY, goals_of, judge_goal,
};
pub use body::{STANDS_DAYS, Weights, lifted, lifts_whole_body, on as weight_on};
pub use causes::{
    Cause, FEW_HALF_SETS, LATE_PERCENT, LITTLE_REST_S, POOR_ADHERENCE_PERCENT, SHORT_REST_PERCENT,
};
pub use cloth::{Cell, Row, cloth};
pub use proposal::{Because, Change, Proposed, Taken, propose, take};
pub use series::read as read_series;
pub use series::{
    Done, FEW_DAYS, FEW_WEEKS_DAYS, Judgement, Level, REPS_SCATTER, RepBest, Series, Verdict,
    WORTHWHILE_PERMILLE,
};
pub use weeks::read as read_weeks;
pub use weeks::{Planned, WeekDone, adherence, average_sets, planned_sets};

use crate::calendar::Day;
use crate::catalogue::{Catalogue, ExerciseId, HalfSets, Muscle};
use crate::estimate::Confidence;
use crate::log::Discomfort;
use crate::order;
use crate::person::Person;
use crate::plan::{WeeklySets, dose};
use crate::session::Session;

/// Sessions that are enough to say anything (common practice, no source).
pub const FEW_SESSIONS: usize = 6;

/// What to review.
#[derive(Debug, Clone, Copy)]
pub struct Logs<'a> {
    /// The exercises.
    pub catalogue: &'a Catalogue,
    /// The person.
    pub person: &'a Person,
    /// Finished sessions, earlier first.
    pub sessions: &'a [Session],
    /// What the body weighed; empty where it is not told.
    pub weights: &'a Weights,
    /// Whether no session came before these.
    pub is_whole: bool,
    /// The plan trained by, if there is one.
    pub planned: Option<Planned<'a>>,
    /// The first day to look at.
    pub from: Day,
    /// The present day.
    pub today: Day,
}

/// Something the logs show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Finding {
    /// An exercise hurt.
    Hurt {
        /// Which.
        exercise: ExerciseId,
        /// Days with a note.
        noted: usize,
        /// Those on which it was painful.
        painful: usize,
        /// The last of them.
        last: Day,
    },
    /// An exercise rose by more than measurements scatter.
    Rose {
        /// Which.
        exercise: ExerciseId,
        /// What that rests on.
        judgement: Judgement,
    },
    /// An exercise stands still or fell, and what may be behind it, the likeliest
    /// first; empty where nothing is to be seen.
    Stalled {
        /// Which.
        exercise: ExerciseId,
        /// What that rests on.
        judgement: Judgement,
        /// What may be behind it.
        causes: Vec<Cause>,
        /// How far to trust it.
        confidence: Confidence,
    },
    /// Fewer sessions were done than planned.
    Missed {
        /// Sessions done.
        done: u32,
        /// Sessions planned.
        planned: u32,
    },
    /// A muscle got clearly fewer sets than planned though sessions were done.
    Short {
        /// The muscle.
        muscle: Muscle,
        /// Half sets in an average week.
        done: HalfSets,
        /// Half sets planned.
        planned: HalfSets,
    },
}

/// What the logs say.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Review {
    /// The first day looked at.
    pub from: Day,
    /// The day it was made.
    pub today: Day,
    /// Sessions looked at.
    pub sessions: usize,
    /// Every exercise that was done.
    pub series: Vec<Series>,
    /// The weeks.
    pub weeks: Vec<WeekDone>,
    /// Half sets a week that the plan holds.
    pub planned: WeeklySets,
    /// Sessions done and planned.
    pub adherence: Option<(u32, u32)>,
    /// Work sets done and asked for in the sessions that were done.
    pub sets: (u32, u32),
    /// Average of effort said less effort aimed at, tenths of a rep.
    pub effort_tenths: Option<i32>,
    /// Seconds of rest taken and prescribed, on average.
    pub rest: Option<(u32, u32)>,
    /// What they show; what hurt comes first.
    pub findings: Vec<Finding>,
    /// Whether there is too little to tell: then nothing is proposed.
    pub is_thin: bool,
}

/// Looks through the logs.
#[must_use]
pub fn review(logs: &Logs<'_>) -> Review {
    let within: Vec<Session> = logs
        .sessions
        .iter()
        .filter(|session| session.day >= logs.from && session.day <= logs.today)
        .cloned()
        .collect();
    let is_whole = logs.is_whole && within.len() == logs.sessions.len();
    let series = series::read(logs.catalogue, &within, logs.weights, is_whole);
    let from = within.first().map_or(logs.from, |first| first.day);
    let planned = logs.planned.as_ref();
    // A plan older than the logs was not followed from its first day.
    let weeks = weeks::read(
        logs.catalogue,
        &within,
        planned,
        from.max(logs.from),
        logs.today,
    );
    let span = within.last().map_or(0, |last| last.day.days_since(from));
    let mut found = Review {
        from: logs.from,
        today: logs.today,
        sessions: within.len(),
        planned: planned.map_or_else(WeeklySets::new, |p| planned_sets(logs.catalogue, p)),
        adherence: adherence(&weeks),
        sets: weeks::sets_asked(&within),
        effort_tenths: mean_effort(&series),
        rest: mean_rest(&series),
        findings: Vec::new(),
        is_thin: within.len() < FEW_SESSIONS || span < FEW_WEEKS_DAYS,
        series,
        weeks,
    };
    found.findings = findings(logs, &found);
    found
}

fn mean_effort(series: &[Series]) -> Option<i32> {
    let said: Vec<i32> = series
        .iter()
        .flat_map(|series| &series.done)
        .filter(|done| !done.is_deload)
        .filter_map(|done| done.effort)
        .collect();
    let days = i32::try_from(said.len()).ok()?;
    (said.iter().sum::<i32>() * 10).checked_div(days)
}

fn mean_rest(series: &[Series]) -> Option<(u32, u32)> {
    let rests = series
        .iter()
        .flat_map(|series| &series.done)
        .filter_map(|done| done.rest);
    let (sum, days) = rests.fold(((0, 0), 0), |((taken, asked), n), rest| {
        ((taken + rest.0, asked + rest.1), n + 1)
    });
    Some((u32::checked_div(sum.0, days)?, sum.1 / days))
}

fn findings(logs: &Logs<'_>, review: &Review) -> Vec<Finding> {
    let mut found = Vec::new();
    // What hurts is told however thin the data.
    for series in &review.series {
        let (noted, painful) = series.hurt();
        let days = series.done.iter().filter(|done| done.discomfort.is_some());
        if let Some(last) = days.map(|done| done.day).max() {
            found.push(Finding::Hurt {
                exercise: series.exercise.clone(),
                noted,
                painful,
                last,
            });
        }
    }
    if review.is_thin {
        return found;
    }
    if let Some((done, planned)) = review.adherence
        && done * 100 < planned * POOR_ADHERENCE_PERCENT
    {
        found.push(Finding::Missed { done, planned });
    }
    let mut moved: Vec<(i64, Finding)> = Vec::new();
    for series in &review.series {
        let exercise = series.exercise.clone();
        let judgement = series.judgement;
        match judgement.verdict {
            Verdict::Rose => {
                moved.push((
                    -judgement.permille,
                    Finding::Rose {
                        exercise,
                        judgement,
                    },
                ));
            }
            Verdict::Still | Verdict::Fell => {
                let causes = causes::causes(logs, review, series);
                let confidence = match causes.first() {
                    Some(first) => first.confidence().min(judgement.confidence),
                    None => Confidence::Low,
                };
                let stalled = Finding::Stalled {
                    exercise,
                    judgement,
                    causes,
                    confidence,
                };
                moved.push((100_000 + judgement.permille, stalled));
            }
            Verdict::Unclear | Verdict::Thin | Verdict::Unmeasured => {}
        }
    }
    order::sort_by_key(&mut moved, |moved| moved.0);
    found.extend(moved.into_iter().map(|moved| moved.1));
    let missed_many = found.iter().any(|f| matches!(f, Finding::Missed { .. }));
    for (&muscle, &planned) in review.planned.iter() {
        let done = average_sets(&review.weeks, muscle).unwrap_or(planned);
        // Less than three quarters, and a set at least (common practice, no
        // source); where sessions were missed that is the reason already given.
        let is_short = done * 4 < planned * 3 && planned - done >= 2;
        if is_short && !missed_many && dose::size(muscle) != dose::Size::Minor {
            found.push(Finding::Short {
                muscle,
                done,
                planned,
            });
        }
    }
    found
}

impl Finding {
    /// The exercise it is about, if it is about one.
    #[must_use]
    pub const fn exercise(&self) -> Option<&ExerciseId> {
        match self {
            Self::Hurt { exercise, .. }
            | Self::Rose { exercise, .. }
            | Self::Stalled { exercise, .. } => Some(exercise),
            Self::Missed { .. } | Self::Short { .. } => None,
        }
    }
}

impl Review {
    /// The series of an exercise.
    #[must_use]
    pub fn series_of(&self, exercise: &ExerciseId) -> Option<&Series> {
        self.series.iter().find(|s| &s.exercise == exercise)
    }

    /// Whether an exercise was noted as hurting.
    #[must_use]
    pub fn hurts(&self, exercise: &ExerciseId) -> Option<Discomfort> {
        let series = self.series_of(exercise)?;
        match series.hurt() {
            (0, _) => None,
            (_, 0) => Some(Discomfort::Mild),
            _ => Some(Discomfort::Painful),
        }
    }
}

#[cfg(test)]
mod tests;
