//! Estimated 1RM, and the share of it a number of reps allows.
//!
//! Start at [`estimate`]: the median of seven published equations with the
//! spread between them. [`percent_for`] goes the other way.
//!
//! This module never claims more than the equations: above ten reps the
//! estimate is marked as low in confidence, above twenty there is none.

mod equation;
mod percent;
mod trend;

pub use equation::Equation;
pub use percent::{percent_for, share_of};
pub use trend::{
    Change, ESTIMATE_PERMILLE, TEST_PERMILLE, TrendPoint, change, detectable_permille, trend,
};

use crate::log::SetEntry;
use crate::units::Load;

/// Reps to failure up to which the equations hold: within 5 % up to five reps
/// and 10 % up to ten; validity falls as reps rise (Reynolds et al. 2006, JSCR
/// 20(3):584-592; Whisenant et al. 2003, JSCR 17(2):221-227).
pub const NORMAL_REPS: u16 = 10;
/// Reps to failure above which no estimate is given: the most that a published
/// prediction was fitted on (Reynolds et al. 2006, JSCR 20(3):584-592: 5, 10
/// and 20RM).
pub const MOST_REPS: u16 = 20;
/// Reps in reserve above which a judgement is poor: the error is about one rep
/// with nought to five left, and more than two with seven to ten (Hackett et
/// al. 2017, JSCR 31(8):2162-2168).
pub const NORMAL_RIR: u8 = 5;
/// Lifters have about one rep more than they say (Halperin et al. 2022, Sports
/// Med 52(2):377-390: 0.95 reps, 95 % CI 0.17 to 1.73).
pub const RIR_BIAS: u16 = 1;

/// How far an estimate can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Confidence {
    /// More than ten reps, effort not said, or too far from failure to judge.
    Low,
    /// Within the range of validity.
    Normal,
}

/// An estimated 1RM.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Estimate {
    /// Median of the equations.
    pub value: Load,
    /// The lowest equation.
    pub low: Load,
    /// The highest equation, with the rep that people leave unsaid.
    pub high: Load,
    /// Reps to failure it rests on: done plus said to be left.
    pub reps: u16,
    /// How far to trust it.
    pub confidence: Confidence,
}

/// Estimates the 1RM from one set: `count` reps done with `rir` left. `None`
/// without load or reps, or above [`MOST_REPS`] to failure.
///
/// The value counts the reps left as they were said; the one rep that people
/// under-predict by ([`RIR_BIAS`]) widens the band upwards and never raises
/// the value. Where no effort was said, the reps done are all there is to go
/// by: the estimate is a floor and low in confidence. One rep to failure is no
/// estimate but the 1RM.
#[must_use]
pub fn estimate(load: Load, count: u16, rir: Option<u8>) -> Option<Estimate> {
    let left = rir.unwrap_or(0);
    let reps = count.checked_add(u16::from(left))?;
    if load == Load::ZERO || count == 0 || reps > MOST_REPS {
        return None;
    }
    if reps == 1 && rir == Some(0) {
        return Some(Estimate {
            value: load,
            low: load,
            high: load,
            reps,
            confidence: Confidence::Normal,
        });
    }
    let all = |reps| {
        let mut loads: Vec<Load> = Equation::ALL
            .iter()
            .filter_map(|equation| equation.one_rm(load, reps))
            .collect();
        crate::order::sort(&mut loads);
        loads
    };
    let values = all(reps);
    // A rep that was said to be left may hide another; a failed one does not.
    let likely = if left > 0 { reps + RIR_BIAS } else { reps };
    let is_normal = rir.is_some_and(|rir| rir <= NORMAL_RIR) && reps <= NORMAL_REPS;
    Some(Estimate {
        value: *values.get(values.len() / 2)?,
        low: *values.first()?,
        high: *all(likely.min(MOST_REPS)).last()?,
        reps,
        confidence: if is_normal {
            Confidence::Normal
        } else {
            Confidence::Low
        },
    })
}

/// The best estimate a list of sets supports: the most trusted, then the
/// highest.
#[must_use]
pub fn best_estimate<'a>(sets: impl IntoIterator<Item = &'a SetEntry>) -> Option<Estimate> {
    sets.into_iter()
        .filter_map(|set| estimate(set.load, set.count, set.rir))
        .max_by_key(|found| (found.confidence, found.value))
}

#[cfg(test)]
mod tests;
