//! Why an exercise may stand still.
//!
//! Start at [`causes`]. A cause is something the logs show that published
//! studies tie to smaller gains; that it is *the* cause no log can prove. Sets
//! that were harder than aimed at are none: whoever has stopped gaining meets
//! them sooner or later, so they are what a stall looks like (three of four
//! simulated trainees at their ceiling showed them).

use super::series::Series;
use super::weeks::average_sets;
use super::{Logs, Review};
use crate::catalogue::{ExerciseId, HalfSets, Muscle};
use crate::estimate::Confidence;
use crate::plan::dose;

/// Sessions done of those planned below which that comes first, percent (common
/// practice, no source).
pub const POOR_ADHERENCE_PERCENT: u32 = 75;
/// Half sets a week of the muscle up to which they are few: five sets or less is
/// the low band that gained less strength (Ralston et al. 2017, Sports Med
/// 47:2585-2601; the limits of the band from memory). Below four sets
/// ([`dose::FLOOR`]) it is surer.
pub const FEW_HALF_SETS: HalfSets = 10;
/// Rest taken of that prescribed below which it is little, percent (common
/// practice, no source) ...
pub const SHORT_REST_PERCENT: u32 = 70;
/// ... and in seconds: with two minutes and more reps fall off late (Scudese et
/// al. 2014, JSCR; Singer et al. 2024, Front Sports Act Living 6:1429789).
pub const LITTLE_REST_S: u32 = 120;
/// Work sets of the session before the first of the exercise, percent, from
/// which on it comes late (common practice, no source). Lifts done first gain
/// more (Nunes et al. 2021, Eur J Sport Sci: 0.32 and 0.58).
pub const LATE_PERCENT: u32 = 60;
/// Reps in reserve beyond the aim that are far from it, tenths. Those who say
/// two more have about three (Halperin et al. 2022, Sports Med 52(2):377-390);
/// growth falls with them (Robinson et al. 2024, Sports Med).
const EASY_TENTHS: i32 = 18;
/// Days that must show it (common practice, no source).
const FEW: usize = 4;

/// What may be behind a stall.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Cause {
    /// Many sessions were missed.
    Adherence {
        /// Sessions done.
        done: u32,
        /// Sessions planned.
        planned: u32,
    },
    /// Few sets a week for its prime mover.
    FewSets {
        /// The muscle.
        muscle: Muscle,
        /// Half sets in an average week.
        half_sets: HalfSets,
    },
    /// Little rest between sets.
    LittleRest {
        /// Seconds taken on average.
        taken: u32,
        /// Seconds prescribed.
        asked: u32,
    },
    /// Sets far easier than aimed at.
    TooEasy {
        /// Reps in reserve beyond the aim, tenths.
        tenths: i32,
    },
    /// It comes late in the session.
    Late {
        /// Work sets before it, on average.
        before: u32,
        /// Work sets of the session.
        of: u32,
    },
}

impl Cause {
    /// How far to trust it.
    #[must_use]
    pub const fn confidence(&self) -> Confidence {
        match self {
            Self::FewSets { half_sets, .. } if *half_sets >= dose::FLOOR => Confidence::Low,
            // Studies of order disagree on all but the lift itself.
            Self::Late { .. } => Confidence::Low,
            _ => Confidence::Normal,
        }
    }
}

/// What the logs show beside a stall, the likeliest first.
pub(super) fn causes(logs: &Logs<'_>, review: &Review, series: &Series) -> Vec<Cause> {
    let mut found = Vec::new();
    if let Some((done, planned)) = review.adherence
        && done * 100 < planned * POOR_ADHERENCE_PERCENT
    {
        found.push(Cause::Adherence { done, planned });
    }
    let is_missed = !found.is_empty();
    if let Some((muscle, half_sets)) = sets_of(logs, review, &series.exercise, is_missed)
        && half_sets <= FEW_HALF_SETS
    {
        found.push(Cause::FewSets { muscle, half_sets });
    }
    let sound = || series.done.iter().filter(|done| !done.is_deload);
    let rests: Vec<(u32, u32)> = sound().filter_map(|done| done.rest).collect();
    if rests.len() >= FEW {
        let days = super::series::count(rests.len());
        let taken = rests.iter().map(|rest| rest.0).sum::<u32>() / days;
        let asked = rests.iter().map(|rest| rest.1).sum::<u32>() / days;
        if taken * 100 < asked * SHORT_REST_PERCENT && taken < LITTLE_REST_S {
            found.push(Cause::LittleRest { taken, asked });
        }
    }
    let efforts: Vec<i32> = sound().filter_map(|done| done.effort).collect();
    if efforts.len() >= FEW {
        let days = i32::try_from(efforts.len()).unwrap_or(i32::MAX);
        let tenths = efforts.iter().sum::<i32>() * 10 / days;
        if tenths >= EASY_TENTHS {
            found.push(Cause::TooEasy { tenths });
        }
    }
    let days = super::series::count(sound().count());
    if days as usize >= FEW {
        let before: u32 = sound().map(|done| done.before).sum();
        let of: u32 = sound().map(|done| done.of).sum();
        if before * 100 >= of * LATE_PERCENT {
            found.push(Cause::Late {
                before: before / days,
                of: of / days,
            });
        }
    }
    found
}

/// The half sets a week of the exercise's prime mover that gets fewest; where
/// sessions were missed, those the plan holds, for missing them is another
/// cause.
fn sets_of(
    logs: &Logs<'_>,
    review: &Review,
    exercise: &ExerciseId,
    is_missed: bool,
) -> Option<(Muscle, HalfSets)> {
    let exercise = logs.catalogue.get(exercise)?;
    // The first named is the one the exercise is done for.
    let &muscle = exercise.prime.first()?;
    let done = average_sets(&review.weeks, muscle)?;
    let planned = review.planned.get(&muscle).copied();
    match (is_missed, planned) {
        (true, Some(planned)) => Some((muscle, planned.max(done))),
        _ => Some((muscle, done)),
    }
}
