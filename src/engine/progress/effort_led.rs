//! Effort-led: the reps in reserve that were said move the load.
//!
//! What a set showed is its reps and the reps left (rated against failure,
//! Zourdos et al. 2016, JSCR 30(1):267-275). The table of percentages turns it
//! into the load at which the reps of today leave the reserve aimed at. People
//! have about one rep more left than they say (Halperin et al. 2022, Sports Med
//! 52(2):377-390); that rep is never counted on. Without a word on effort it
//! goes by reps, as double progression does (common practice, no source).

use super::double_progression::without_effort;
use super::record::{Bout, Effort};
use super::step::{Step, finest_within, next_step};
use super::{Case, Evidence, Proposal, Reason};
use crate::estimate::{NORMAL_RIR, RIR_BIAS, percent_for};
use crate::units::Load;

/// Percent of the load aimed at, at least, when it was too hard; a kit that
/// makes nothing between changes nothing (common practice, no source).
const STEP_DOWN_PERCENT: u8 = 90;

pub(super) fn propose(case: &Case<'_>) -> Proposal {
    let (bottom, top) = case.goal;
    let basis = case.basis;
    let last = basis.shown();
    if let Some(held) = case.miss_or_strain(STEP_DOWN_PERCENT) {
        return held;
    }
    let steady = basis.least().clamp(bottom, top);
    let Some(rir) = basis.least_rir() else {
        return without_effort(case);
    };
    if rir < case.rir {
        // One rep is within the error of the judgement.
        return match is_too_hard(basis, case.rir) {
            true => too_hard(case, steady, rir),
            false => case.held(steady, Reason::OnAim { last, rir }),
        };
    }
    if basis.effort(case.rir) == Effort::Unsaid {
        return without_effort(case);
    }
    if !basis.has_all_sets() || !case.may_raise {
        return case.not_yet(steady);
    }
    // What is left beyond the bottom of the goal and the aim is to spare.
    let by_table = table_load(basis, bottom.saturating_add(u16::from(case.rir)));
    let stretch = top.saturating_add(2 * case.unit);
    let raised = |to| case.raised(to, bottom, Evidence::RepsToSpare { rir });
    match next_step(case.ladder, &last, case.status, Load::ZERO) {
        Step::Fine(to) if to <= by_table => {
            raised(finest_within(case.ladder, &last, case.status, by_table))
        }
        Step::Coarse(to) if to <= by_table => raised(to),
        // A step too large for the table is earned as it is by reps: two over
        // the top of the goal.
        Step::Coarse(to) if basis.least() >= stretch => raised(to),
        // At the top, one step is earned as it is by reps.
        Step::Fine(to) if basis.least() >= top => raised(to),
        Step::Coarse(to) if basis.least() >= top => case.stretch(to, stretch),
        Step::None if basis.least() >= top => case.topped_out(top),
        Step::Fine(_) | Step::Coarse(_) | Step::None if rir > case.rir && steady < top => {
            let next = steady.saturating_add(case.unit).min(top);
            case.held(next, Reason::AddReps { last, top })
        }
        Step::Fine(_) | Step::Coarse(_) | Step::None => {
            case.held(steady, Reason::OnAim { last, rir })
        }
    }
}

/// Whether effort was further from the aim than people misjudge it.
pub(super) fn is_too_hard(bout: &Bout, aim: u8) -> bool {
    let least = u16::from(aim).saturating_sub(RIR_BIAS);
    bout.least_rir().is_some_and(|rir| u16::from(rir) < least)
}

/// Held once; twice running, down by what the table says, within ten percent.
fn too_hard(case: &Case<'_>, steady: u16, rir: u8) -> Proposal {
    let basis = case.basis;
    let by_table = table_load(basis, case.goal.0.saturating_add(u16::from(case.rir)));
    match case.eased_twice_running(by_table, STEP_DOWN_PERCENT) {
        Some(lower) => case.at(
            Some(lower),
            steady,
            Reason::EasedToAim {
                last: basis.shown(),
                rir,
                aim: case.rir,
            },
        ),
        None => case.held(
            steady,
            Reason::HeldTooHard {
                last: basis.shown(),
                rir,
                aim: case.rir,
            },
        ),
    }
}

/// The load at which so many reps to failure should be left of it, by the
/// weakest set. Reserve beyond what people judge well counts as no more.
fn table_load(basis: &Bout, needed: u16) -> Load {
    let shown = basis
        .sets
        .iter()
        .filter_map(|&(count, rir)| Some(count.saturating_add(u16::from(rir?.min(NORMAL_RIR)))))
        .min()
        .unwrap_or(0);
    match (
        percent_for(needed.clamp(1, 20)),
        percent_for(shown.clamp(1, 20)),
    ) {
        (Some(needed), Some(shown)) => {
            Load::clamped(basis.load.grams() * i64::from(needed) / i64::from(shown))
        }
        _ => basis.load,
    }
}
