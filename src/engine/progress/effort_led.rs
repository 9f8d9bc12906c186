//! Effort-led: the reps in reserve that were said move the load.
//!
//! What a set showed is its reps and the reps left (rated against failure,
//! Zourdos et al. 2016, JSCR 30(1):267-275). The table of percentages turns it
//! into the load at which the reps of today leave the reserve aimed at. People
//! have about one rep more left than they say (Halperin et al. 2022, Sports Med
//! 52(2):377-390); that rep is never counted on. Without a word on effort this
//! rule changes nothing.

use super::record::{Bout, Effort};
use super::step::{Step, eased_rung, finest_within, next_step};
use super::{Case, Evidence, Proposal, Reason, Rule};
use crate::estimate::{NORMAL_RIR, percent_for};
use crate::units::Load;

/// Reps too few left, from which one session is enough to go down: beyond the
/// error of the judgement, about one rep (Halperin et al. 2022, Sports Med
/// 52(2):377-390).
const CLEARLY_HARDER: u8 = 2;

/// Percent of the load aimed at, at least, when it was too hard (common
/// practice, no source).
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
        return case.held(steady, Reason::EffortUnsaid { last });
    };
    if rir < case.rir {
        return too_hard(case, steady, rir);
    }
    if basis.effort(case.rir) == Effort::Unsaid {
        return case.held(steady, Reason::EffortUnsaid { last });
    }
    if !basis.has_all_sets() || !case.may_raise {
        return case.not_yet(steady);
    }
    // What is left beyond the bottom of the goal and the aim is to spare.
    let by_table = table_load(basis, bottom.saturating_add(u16::from(case.rir)));
    let raised = |to| case.raised(Rule::EffortLed, to, bottom, Evidence::RepsToSpare { rir });
    match next_step(case.ladder, &last, case.status, Load::ZERO) {
        Step::Fine(to) if to <= by_table => {
            raised(finest_within(case.ladder, &last, case.status, by_table))
        }
        Step::Coarse(to) if to <= by_table => raised(to),
        // At the top, one step is earned as it is by reps.
        Step::Fine(to) if basis.least() >= top => raised(to),
        Step::Coarse(to) if basis.least() >= top => {
            case.stretch(to, top.saturating_add(2 * case.unit))
        }
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

fn too_hard(case: &Case<'_>, steady: u16, rir: u8) -> Proposal {
    let basis = case.basis;
    let last = basis.shown();
    let aim = case.rir;
    let is_again = case.previous.is_some_and(|before| {
        before.effort(aim) == Effort::Harder && !case.ladder.is_harder(before.load, basis.load)
    });
    if aim - rir >= CLEARLY_HARDER || is_again {
        let by_table = table_load(basis, case.goal.0.saturating_add(u16::from(aim)));
        let percent = by_table.grams() * 100 / basis.load.grams().max(1);
        let percent = u8::try_from(percent).unwrap_or(100);
        let lower = eased_rung(
            case.ladder,
            basis.load,
            percent.clamp(STEP_DOWN_PERCENT, 99),
        )
        .filter(|&lower| case.ladder.is_harder(basis.load, lower));
        if let Some(lower) = lower {
            return case.at(Some(lower), steady, Reason::EasedToAim { last, rir, aim });
        }
    }
    case.held(steady, Reason::HeldTooHard { last, rir, aim })
}

/// The load at which so many reps to failure should be left of it, by the
/// weakest set. Reserve beyond what people judge well counts as no more.
fn table_load(basis: &Bout, needed: u16) -> Load {
    let shown = basis
        .sets
        .iter()
        .map(|&(count, rir)| {
            let left = rir.unwrap_or(0).min(NORMAL_RIR);
            count.saturating_add(u16::from(left))
        })
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
