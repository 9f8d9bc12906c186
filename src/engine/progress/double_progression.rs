//! Double progression: reps up to the top of the goal, then load.
//!
//! Load goes up on one of two things: all sets at the top of the goal, no
//! harder than aimed at (Ratamess et al. 2009, MSSE 41(3):687-708), or two
//! reps over the goal in the last set of two sessions running (Baechle and
//! Earle, Essentials of Strength Training and Conditioning). Effort that was
//! not said must be shown twice.

use super::record::{Bout, Effort};
use super::step::{Step, next_step};
use super::{Case, Evidence, Proposal, Reason};
use crate::units::Load;

/// Percent aimed at after two misses: 5 to 10 % less (common practice, no
/// source).
const STEP_DOWN_PERCENT: u8 = 95;

pub(super) fn propose(case: &Case<'_>) -> Proposal {
    match case.miss_or_strain(STEP_DOWN_PERCENT) {
        Some(held) => held,
        None => by_reps(case),
    }
}

/// What the rules of effort do where none was said: the evidence and the steps
/// of this rule. With sets left out, or said to be harder than aimed at the
/// session before, nothing changes (common practice, no source).
pub(super) fn without_effort(case: &Case<'_>) -> Proposal {
    let (bottom, top) = case.goal;
    let steady = case.basis.least().clamp(bottom, top);
    if !case.basis.has_all_sets() {
        return case.not_yet(steady);
    }
    let is_too_hard = |before: &Bout| {
        before.effort(case.rir) == Effort::Harder
            && !case.ladder.is_harder(before.load, case.basis.load)
    };
    if case.previous.is_some_and(is_too_hard) {
        let last = case.basis.shown();
        return case.held(steady, Reason::EffortUnsaid { last });
    }
    by_reps(case)
}

/// After a session that met its goal.
fn by_reps(case: &Case<'_>) -> Proposal {
    let (bottom, top) = case.goal;
    let basis = case.basis;
    let last = basis.shown();
    let stretch = top.saturating_add(2 * case.unit);
    let at_top = |bout: &Bout| bout.has_all_sets() && bout.least() >= top.max(bout.goal.1);
    let over_top = |bout: &Bout| bout.has_all_sets() && bout.least() >= stretch;
    let two_over = |bout: &Bout| {
        bout.has_all_sets()
            && bout.last_count() >= top.max(bout.goal.1).saturating_add(2 * case.unit)
    };
    let two_for_two = two_over(basis)
        && case
            .previous
            .is_some_and(|before| before.load == basis.load && two_over(before));
    let evidence = case
        .earned(at_top)
        .or_else(|| two_for_two.then_some(Evidence::TwoForTwo))
        .filter(|_| case.may_raise);
    if let Some(evidence) = evidence {
        let raised = |to, evidence| case.raised(to, bottom, evidence);
        return match next_step(case.ladder, &last, case.status, Load::ZERO) {
            Step::Fine(to) => raised(to, evidence),
            Step::Coarse(to) => match case.earned(over_top) {
                Some(evidence) => raised(to, evidence),
                None => case.stretch(to, stretch),
            },
            Step::None => case.topped_out(top),
        };
    }
    let next = basis.least().saturating_add(case.unit).clamp(bottom, top);
    if basis.least() < top {
        return case.held(next, Reason::AddReps { last, top });
    }
    case.not_yet(top)
}
