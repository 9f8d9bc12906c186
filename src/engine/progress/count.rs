//! Exercises without a number: reps or seconds up to the top of the goal, then
//! a harder variant.

use super::record::{Bout, Effort, Record};
use super::{Proposal, Reason, SuggestInput, discomfort, layoff, unit_of};
use crate::log::Discomfort;

pub(super) fn propose(input: &SuggestInput<'_>, record: &Record, basis: &Bout) -> Proposal {
    let (bottom, top) = input.goal();
    let unit = unit_of(input.exercise);
    let last = basis.shown();
    let shown = basis.least();
    let proposal = |count: u16, reason| Proposal {
        load: None,
        count,
        rir: input.prescription.rir,
        reason,
        advise_swap: false,
    };
    let percent_of = |percent: u8| {
        let count = u32::from(shown) * u32::from(percent) / 100;
        u16::try_from(count).unwrap_or(top).clamp(1, top.max(1))
    };
    if record.discomfort == Some(Discomfort::Painful) {
        return Proposal {
            advise_swap: true,
            ..proposal(
                percent_of(discomfort::PAIN_PERCENT),
                Reason::SteppedDownForPain {
                    last: Some(last),
                    percent: discomfort::PAIN_PERCENT,
                },
            )
        };
    }
    let days = input.days_since(record);
    if days >= layoff::LAYOFF_DAYS {
        let percent = layoff::layoff_percent(days);
        return proposal(
            percent_of(percent),
            Reason::Layoff {
                last,
                days,
                percent,
            },
        );
    }
    if input.is_deload {
        return Proposal {
            rir: input.deload_rir(),
            ..proposal(
                percent_of(layoff::DELOAD_PERCENT),
                Reason::Deload {
                    last,
                    percent: layoff::DELOAD_PERCENT,
                },
            )
        };
    }
    if record.discomfort == Some(Discomfort::Mild) {
        return proposal(
            shown.clamp(1, top.max(1)),
            Reason::HeldForDiscomfort { last },
        );
    }
    if basis.missed() {
        let twice = record.previous().is_some_and(Bout::missed);
        return proposal(
            bottom,
            if twice {
                Reason::ReadyForEasier {
                    last,
                    step_down: input.exercise.step_down.clone(),
                }
            } else {
                Reason::HeldAfterMiss {
                    last,
                    bottom: basis.goal.0,
                }
            },
        );
    }
    let aim = input.prescription.rir;
    let effort = basis.effort(aim);
    match (effort, basis.least_rir()) {
        (_, Some(rir)) if basis.failed_early(aim) => {
            return proposal(
                shown.clamp(bottom, top),
                Reason::HeldTooHard { last, rir, aim },
            );
        }
        _ => {}
    }
    if shown < top {
        let next = shown.saturating_add(unit).clamp(bottom, top);
        return proposal(next, Reason::AddReps { last, top });
    }
    let at_top = |bout: &Bout| bout.has_all_sets() && bout.least() >= top.max(bout.goal.1);
    let twice = record
        .previous()
        .is_some_and(|before| at_top(before) && before.effort(aim) != Effort::Harder);
    let reason = match (effort, basis.least_rir()) {
        _ if !basis.has_all_sets() => Reason::HeldSetsMissing {
            last,
            asked: basis.asked_sets,
        },
        (Effort::Harder, Some(rir)) => Reason::HeldTooHard { last, rir, aim },
        (Effort::AsAimed, _) if at_top(basis) && !record.is_deload_only => Reason::ReadyForHarder {
            last,
            step_up: input.exercise.step_up.clone(),
        },
        (Effort::Unsaid, _) if at_top(basis) && twice && !record.is_deload_only => {
            Reason::ReadyForHarder {
                last,
                step_up: input.exercise.step_up.clone(),
            }
        }
        _ => Reason::ConfirmTop { last },
    };
    proposal(top, reason)
}
