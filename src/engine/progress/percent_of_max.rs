//! A percentage of the estimated 1RM.
//!
//! The level of the estimates (seven equations, smoothed) times the share that
//! the reps and the reserve of today leave: the lower of the printed table
//! (Haff and Triplett, eds.) and of the equations turned round, so that the two
//! cannot push each other up. The load goes up only after a session that met
//! its goal with effort as aimed at, and comes down only after one that did
//! not: an estimate scatters (Grgic et al. 2020, Sports Med Open 6:31) and is
//! no evidence by itself. Without a word on effort it goes by reps, as double
//! progression does (common practice, no source).

use super::double_progression::without_effort;
use super::effort_led::is_too_hard;
use super::record::{Bout, Effort};
use super::step::{Step, finest_within, next_step};
use super::{Case, Evidence, Proposal, Reason};
use crate::estimate::{MOST_REPS, NORMAL_RIR, estimate, percent_for, trend};
use crate::units::Load;

/// Percent of the load aimed at, at least, after sessions that were too hard; a
/// kit that makes nothing between changes nothing (common practice, no source).
const STEP_DOWN_PERCENT: u8 = 90;

pub(super) fn propose(case: &Case<'_>) -> Proposal {
    let (bottom, top) = case.goal;
    let basis = case.basis;
    let last = basis.shown();
    if let Some(held) = case.miss_or_strain(STEP_DOWN_PERCENT) {
        return held;
    }
    let steady = basis.least().clamp(bottom, top);
    let effort = basis.effort(case.rir);
    if effort == Effort::Unsaid {
        return without_effort(case);
    }
    let needed = bottom.saturating_add(u16::from(case.rir));
    let (Some(level), Some(percent)) = (level(case.bouts), share(needed)) else {
        return case.not_yet(steady);
    };
    let by_percent = Load::clamped(level.grams() * i64::from(percent) / 100);
    let evidence = Evidence::EstimatedMax {
        value: level,
        percent,
    };
    if let (Effort::Harder, Some(rir)) = (effort, basis.least_rir()) {
        // One rep is within the error of the judgement.
        if !is_too_hard(basis, case.rir) {
            return case.held(steady, Reason::OnAim { last, rir });
        }
        let aim = case.rir;
        return match case.eased_twice_running(by_percent, STEP_DOWN_PERCENT) {
            Some(lower) => case.at(Some(lower), bottom, Reason::EasedToAim { last, rir, aim }),
            None => case.held(steady, Reason::HeldTooHard { last, rir, aim }),
        };
    }
    if !basis.has_all_sets() || !case.may_raise {
        return case.not_yet(steady);
    }
    let stretch = top.saturating_add(2 * case.unit);
    let by_reps = |to| case.raised(to, bottom, Evidence::AllSetsAtTop);
    match next_step(case.ladder, &last, case.status, Load::ZERO) {
        Step::Fine(to) if to <= by_percent => {
            let to = finest_within(case.ladder, &last, case.status, by_percent);
            case.raised(to, bottom, evidence)
        }
        Step::Coarse(to) if to <= by_percent => case.raised(to, bottom, evidence),
        // What the estimate cannot justify is earned as it is by reps: one fine
        // step at the top of the goal, a coarse one two reps over it.
        Step::Coarse(to) if basis.least() >= stretch => by_reps(to),
        Step::Fine(to) if basis.least() >= top => by_reps(to),
        Step::None if basis.least() >= top => case.topped_out(top),
        Step::Fine(_) | Step::Coarse(_) | Step::None if basis.least() < top => {
            let next = steady + case.unit.min(top - steady);
            case.held(next, Reason::AddReps { last, top })
        }
        Step::Coarse(to) => case.stretch(to, stretch),
        Step::Fine(_) | Step::None => case.held(
            steady,
            Reason::OnAim {
                last,
                rir: basis.least_rir().unwrap_or(case.rir),
            },
        ),
    }
}

/// The smoothed estimate after the last session: of each session its best set,
/// reserve beyond what people judge well counted as no more.
fn level(bouts: &[Bout]) -> Option<Load> {
    let best = |bout: &Bout| {
        let of = |&(count, rir): &(u16, Option<u8>)| {
            let left = u16::from(rir.unwrap_or(0).min(NORMAL_RIR));
            let reps = count.saturating_add(left).min(MOST_REPS);
            estimate(bout.load, reps, Some(0)).map(|found| found.value)
        };
        bout.sets.iter().filter_map(of).max()
    };
    let estimates: Vec<_> = bouts
        .iter()
        .filter_map(|bout| Some((bout.day, best(bout)?)))
        .collect();
    trend(&estimates).last().map(|point| point.level)
}

/// Percent of the 1RM for so many reps to failure: the lower of the table and
/// of the equations turned round.
fn share(reps: u16) -> Option<u8> {
    /// A whole of a hundred parts (definition).
    const WHOLE: Load = Load::kg(100);
    let table = percent_for(reps)?;
    let estimated = estimate(WHOLE, reps, Some(0))?.value;
    let turned = u8::try_from(WHOLE.grams() * 100 / estimated.grams()).ok()?;
    Some(table.min(turned))
}
