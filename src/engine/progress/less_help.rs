//! Assisted exercises: less help step by step, then the variant without.
//!
//! How much of the body is lifted is not known, so no step can be judged by its
//! percentage: each is earned by two reps over the goal in all sets (common
//! practice, no source; the two reps are those of Baechle and Earle, Essentials
//! of Strength Training and Conditioning). At the least help the exercise
//! without any is due.

use super::record::Bout;
use super::{Case, Evidence, Proposal, Reason};

/// Percent of the load aimed at after two misses, so much more help (common
/// practice, no source).
const STEP_DOWN_PERCENT: u8 = 95;

pub(super) fn propose(case: &Case<'_>) -> Proposal {
    let (bottom, top) = case.goal;
    let basis = case.basis;
    if let Some(held) = case.miss_or_strain(STEP_DOWN_PERCENT) {
        return held;
    }
    let stretch = top.saturating_add(2 * case.unit);
    let has_all = |least: u16| {
        move |bout: &Bout| bout.has_all_sets() && bout.least() >= least.max(bout.goal.1)
    };
    let Some(next) = case.ladder.harder(basis.load) else {
        let is_ready = case.may_raise && case.earned(has_all(top)).is_some();
        return match basis.least() < top {
            true => add_reps(case, top),
            false if is_ready => case.topped_out(top),
            false => case.not_yet(top),
        };
    };
    if case.may_raise && case.earned(has_all(stretch)).is_some() {
        return case.raised(next, bottom, Evidence::TwoOverInAllSets);
    }
    if basis.least() >= stretch {
        return case.not_yet(stretch);
    }
    if basis.least() >= top {
        return match case.earned(has_all(top)) {
            Some(_) if case.may_raise => case.stretch(next, stretch),
            _ => case.not_yet(top),
        };
    }
    add_reps(case, top)
}

fn add_reps(case: &Case<'_>, top: u16) -> Proposal {
    let next = case.basis.least().saturating_add(case.unit);
    case.held(
        next.clamp(case.goal.0, top),
        Reason::AddReps {
            last: case.basis.shown(),
            top,
        },
    )
}
