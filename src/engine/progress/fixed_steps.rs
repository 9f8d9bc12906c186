//! Fixed steps for novices: all prescribed reps in all sets, then one step.
//!
//! The prescribed reps are the bottom of the goal. Where effort was not said,
//! one rep over them in the last set shows that there was room (Ratamess et
//! al. 2009, MSSE 41(3):687-708: raise when one or two reps over the goal), or
//! the same done twice.

use super::record::{Bout, Effort};
use super::step::{Step, next_step};
use super::{Case, Evidence, Proposal};
use crate::catalogue::Role;
use crate::units::Load;

/// Percent aimed at after two failures (common practice, no source).
const STEP_DOWN_PERCENT: u8 = 90;

/// Least step: 1 kg for the upper body, 2.5 kg for the lower (examples of load
/// increases for the less trained in Haff and Triplett, eds.: 1 to 2 kg and 2
/// to 4 kg, from memory; the same in pounds by secondary pages).
fn least_step(role: Role) -> Load {
    match role {
        Role::Legs => Load::clamped(2_500),
        Role::Push | Role::Pull | Role::Trunk => Load::kg(1),
    }
}

pub(super) fn propose(case: &Case<'_>) -> Proposal {
    let (bottom, _) = case.goal;
    let basis = case.basis;
    let last = basis.shown();
    if let Some(held) = case.miss_or_strain(STEP_DOWN_PERCENT) {
        return held;
    }
    let effort = basis.effort(case.rir);
    let stretch = bottom.saturating_add(2 * case.unit);
    let earned = |least: u16| {
        let showed = |bout: &Bout| bout.has_all_sets() && bout.least() >= least.max(bout.goal.0);
        let has_room = effort == Effort::Unsaid && showed(basis) && basis.last_count() > least;
        has_room || case.earned(showed).is_some()
    };
    if !case.may_raise || !earned(bottom) {
        return case.not_yet(bottom);
    }
    let least = least_step(case.exercise.role);
    match next_step(case.ladder, &last, case.status, least) {
        Step::Coarse(to) if !earned(stretch) => case.stretch(to, stretch),
        Step::Fine(to) | Step::Coarse(to) => case.raised(to, bottom, Evidence::AllSetsDone),
        Step::None => case.topped_out(bottom),
    }
}
