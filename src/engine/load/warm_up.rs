//! Warm-up sets that lead to the working load.
//!
//! Start at [`warm_up`]. It never asks for a load at or above the working one,
//! nor for one the kit cannot make.

use super::{Direction, Ladder};
use crate::catalogue::{Exercise, Kind, Loading, Measure};
use crate::units::Load;

/// Reps of a warm-up set (Ribeiro B et al. 2020, IJERPH 17(18):6882).
pub const WARM_UP_REPS: u16 = 6;
/// First step, percent of the training load (Ribeiro B et al. 2020, IJERPH
/// 17(18):6882).
pub const FIRST_PERCENT: i64 = 40;
/// Second step, percent of the training load (Ribeiro B et al. 2020, IJERPH
/// 17(18):6882).
pub const SECOND_PERCENT: i64 = 80;
/// A first step that the kit cannot make this light is left out (common
/// practice, no source).
const FIRST_AT_MOST_PERCENT: i64 = 60;

/// One warm-up set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WarmUpSet {
    /// A load the kit makes.
    pub load: Load,
    /// Reps, well short of failure.
    pub reps: u16,
}

/// Warm-up sets for a working load, easiest first: six reps at 40 % and six at
/// 80 % of the training load (Ribeiro B et al. 2020, IJERPH 17(18):6882: the
/// two-step climb served the bench press best, 80 % alone the squat, 40 %
/// alone was not enough). Isolation exercises take the 80 % step alone, added
/// load is led up to by the body alone, and an assisted exercise by more help
/// (all three common practice, no source). Timed exercises take none.
#[must_use]
pub fn warm_up(working: Load, ladder: &Ladder, exercise: &Exercise) -> Vec<WarmUpSet> {
    if exercise.measure == Measure::Seconds {
        return Vec::new();
    }
    let set = |load| WarmUpSet {
        load,
        reps: WARM_UP_REPS,
    };
    if ladder.direction() == Direction::LessIsHarder {
        let more_help = ladder.easier(working).map(|one| {
            // Two steps of help where there are two.
            ladder.easier(one).unwrap_or(one)
        });
        return more_help.map(set).into_iter().collect();
    }
    if exercise.loading == Loading::BodyweightPlus {
        let body_alone = (working > Load::ZERO && ladder.makes(Load::ZERO)).then_some(Load::ZERO);
        return body_alone.map(set).into_iter().collect();
    }
    let percent = |p: i64| Load::clamped(working.grams() * p / 100);
    let first = match ladder.round_down(percent(FIRST_PERCENT)) {
        Some(load) => Some(load),
        None => Some(ladder.least()).filter(|&least| least <= percent(FIRST_AT_MOST_PERCENT)),
    };
    let second = ladder.round_down(percent(SECOND_PERCENT));
    let mut loads: Vec<Load> = match exercise.kind {
        Kind::Compound => first.into_iter().chain(second).collect(),
        Kind::Isolation => second.into_iter().collect(),
    };
    loads.dedup();
    loads.retain(|&load| load > Load::ZERO && load < working);
    loads.into_iter().map(set).collect()
}
