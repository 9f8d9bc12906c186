//! What to lift next, and why.
//!
//! Start at [`suggest`]: history, prescription, kit and rule in; load, reps,
//! effort, rest and the reason out. Each rule has a file of its own.
//!
//! This module never raises a load without evidence, never by more than the
//! larger of ten percent and one step of the kit, and never after pain.

mod best;
mod climb;
mod count;
mod deload;
mod discomfort;
mod double_progression;
mod effort_led;
mod fixed_steps;
mod layoff;
mod less_help;
mod percent_of_max;
mod reason;
mod record;
mod rise;
mod source;
mod step;

pub use best::{Best, bests};
pub use climb::{Climb, next_climb_load};
pub use deload::{
    DELOAD_DAYS, DeloadAnswer, DeloadReason, EARLIEST_WEEKS, LATEST_WEEKS, SIGN_DAYS,
    WeeksSinceDeload, deload_advice, is_long_since, training_since,
};
pub use discomfort::PAIN_PERCENT;
pub use layoff::{DELOAD_PERCENT, layoff_percent};
pub use reason::{Evidence, Reason, Shown};
pub use rise::{Rise, rise};
pub use source::Source;

use crate::bounds;
use crate::calendar::Day;
use crate::catalogue::{Exercise, Kind, Loading, Measure};
use crate::estimate::{NORMAL_REPS, percent_for};
use crate::kit::Kit;
use crate::load::Ladder;
use crate::log::{Discomfort, Performance};
use crate::person::Status;
use crate::plan::Prescription;
use crate::session::Target;
use crate::slug::slugged;
use crate::units::Load;
pub(crate) use record::leaps;
use record::{Bout, Effort, Record};
use step::eased_rung;

slugged! {
    /// How the load of an exercise moves from session to session.
    Rule {
        /// Reps up to the top of the goal, then load.
        DoubleProgression = "double-progression",
        /// One step after every session with all prescribed reps.
        FixedSteps = "fixed-steps",
        /// Load by the reps in reserve that were said.
        EffortLed = "effort-led",
        /// Load by a percentage of the estimated 1RM.
        PercentOfMax = "percent-of-max",
        /// Reps up to the top of the goal, then a harder variant.
        RepsThenVariant = "reps-then-variant",
        /// Less help up to none, then the variant without.
        LessHelp = "less-help",
        /// Seconds up to the top of the goal, then a harder variant.
        LongerHolds = "longer-holds",
    }
}

impl Rule {
    /// The rules that make sense of an exercise, the usual one first.
    ///
    /// Where part of what is lifted is the body, no percentage means anything,
    /// so neither effort nor an estimate can say by how much to change the
    /// load. Percentages of the 1RM end where the equations do: goals that
    /// begin above ten reps have none.
    #[must_use]
    pub const fn offered_for(exercise: &Exercise) -> &'static [Self] {
        match (exercise.loading, exercise.measure) {
            (Loading::Bodyweight | Loading::Band, Measure::Reps) => &[Self::RepsThenVariant],
            (Loading::Bodyweight | Loading::Band, Measure::Seconds) => &[Self::LongerHolds],
            (Loading::Assisted, _) => &[Self::LessHelp],
            (Loading::BodyweightPlus, _) | (_, Measure::Seconds) => &[Self::DoubleProgression],
            (
                Loading::Barbell
                | Loading::DumbbellPair
                | Loading::Single
                | Loading::Machine
                | Loading::Cable,
                Measure::Reps,
            ) => {
                if exercise.reps.0 <= NORMAL_REPS {
                    &[
                        Self::DoubleProgression,
                        Self::FixedSteps,
                        Self::EffortLed,
                        Self::PercentOfMax,
                    ]
                } else {
                    &[Self::DoubleProgression, Self::FixedSteps, Self::EffortLed]
                }
            }
        }
    }

    /// The rule used where nobody chose one: fixed steps for a novice's
    /// compound lifts on a bar, dumbbells or a machine, else the first that is
    /// offered (common practice, no source).
    #[must_use]
    pub fn default_for(status: Status, exercise: &Exercise) -> Self {
        let is_stepped = matches!(
            exercise.loading,
            Loading::Barbell | Loading::DumbbellPair | Loading::Machine
        );
        if status == Status::Novice
            && exercise.kind == Kind::Compound
            && exercise.measure == Measure::Reps
            && is_stepped
        {
            Self::FixedSteps
        } else {
            Self::offered_for(exercise)[0]
        }
    }
}

/// Everything a suggestion goes by.
#[derive(Debug, Clone, Copy)]
pub struct SuggestInput<'a> {
    /// The exercise.
    pub exercise: &'a Exercise,
    /// What is asked today.
    pub prescription: &'a Prescription,
    /// What was done, in any order; other exercises are passed over, for
    /// nothing carries over from one to another.
    pub history: &'a [Performance],
    /// What is at hand.
    pub kit: &'a Kit,
    /// How the load moves. One that is not offered for the exercise gives way
    /// to the usual one.
    pub rule: Rule,
    /// Training status.
    pub status: Status,
    /// The day.
    pub today: Day,
    /// Whether today is part of a deload.
    pub is_deload: bool,
}

/// What to lift today.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Suggestion {
    /// A load the kit makes; `None` where the exercise has no number, where
    /// nothing is known yet, and where nothing light enough can be made.
    pub load: Option<Load>,
    /// Reps or seconds to aim at in every set.
    pub count: u16,
    /// Reps in reserve to aim at.
    pub rir: u8,
    /// Rest after a set, seconds.
    pub rest_s: u16,
    /// The rule that was followed.
    pub rule: Rule,
    /// Why.
    pub reason: Reason,
    /// Whether to do another exercise instead.
    pub advise_swap: bool,
}

impl Suggestion {
    /// What is kept with the session.
    #[must_use]
    pub const fn target(&self) -> Target {
        Target {
            load: self.load,
            count: self.count,
            rir: self.rir,
        }
    }

    /// Whether a rule that goes by effort went by reps, for none was said.
    #[must_use]
    pub const fn goes_by_reps(&self) -> bool {
        let by_effort = matches!(self.rule, Rule::EffortLed | Rule::PercentOfMax);
        by_effort
            && matches!(
                &self.reason,
                Reason::AddReps { last, .. }
                    | Reason::ConfirmTop { last }
                    | Reason::StepTooBig { last, .. }
                    | Reason::ReadyForHarder { last, .. }
                    | Reason::Raised { last, .. }
                    if !last.is_effort_said
            )
    }

    /// What the reason rests on.
    #[must_use]
    pub const fn sources(&self) -> &'static [Source] {
        self.reason.sources()
    }
}

/// What a rule comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Proposal {
    load: Option<Load>,
    count: u16,
    rir: u8,
    reason: Reason,
    advise_swap: bool,
}

/// What a load rule reads.
struct Case<'a> {
    rule: Rule,
    exercise: &'a Exercise,
    ladder: &'a Ladder,
    status: Status,
    /// Least and most of the goal.
    goal: (u16, u16),
    rir: u8,
    /// What one more is: a rep, or five seconds.
    unit: u16,
    basis: &'a Bout,
    previous: Option<&'a Bout>,
    /// All sessions, earlier first; the last is the basis.
    bouts: &'a [Bout],
    may_raise: bool,
}

impl Case<'_> {
    fn at(&self, load: Option<Load>, count: u16, reason: Reason) -> Proposal {
        Proposal {
            load,
            count,
            rir: self.rir,
            reason,
            advise_swap: false,
        }
    }

    /// The load that was shown, or the next easier one the kit makes.
    fn held(&self, count: u16, reason: Reason) -> Proposal {
        self.at(self.ladder.round_easier(self.basis.load), count, reason)
    }

    /// A step up.
    fn raised(&self, to: Load, count: u16, evidence: Evidence) -> Proposal {
        let last = self.basis.shown();
        self.at(
            Some(to),
            count,
            Reason::Raised {
                rule: self.rule,
                evidence,
                step: Load::clamped((to.grams() - last.load.grams()).abs()),
                permille: step::permille(self.ladder, last.load, to),
                last,
            },
        )
    }

    /// The step is too large for what was shown: more reps first.
    fn stretch(&self, next: Load, stretch_to: u16) -> Proposal {
        let last = self.basis.shown();
        self.held(
            stretch_to.min(self.basis.least().saturating_add(self.unit)),
            Reason::StepTooBig {
                next,
                permille: step::permille(self.ladder, last.load, next),
                stretch_to,
                last,
            },
        )
    }

    /// The kit makes nothing harder.
    fn topped_out(&self, count: u16) -> Proposal {
        self.held(
            count,
            Reason::ReadyForHarder {
                last: self.basis.shown(),
                step_up: self.exercise.step_up.clone(),
            },
        )
    }

    /// Why what was asked for does not yet earn a step: sets left out, too hard,
    /// or effort not said.
    fn not_yet(&self, count: u16) -> Proposal {
        let last = self.basis.shown();
        let reason = match (self.basis.effort(self.rir), self.basis.least_rir()) {
            _ if !self.basis.has_all_sets() => Reason::HeldSetsMissing {
                last,
                asked: self.basis.asked_sets,
            },
            (Effort::Harder, Some(rir)) => Reason::HeldTooHard {
                last,
                rir,
                aim: self.rir,
            },
            _ => Reason::ConfirmTop { last },
        };
        self.held(count, reason)
    }

    /// Whether something was shown, at this load, with effort as aimed at; or
    /// twice running where effort was not said.
    fn earned(&self, showed: impl Fn(&Bout) -> bool) -> Option<Evidence> {
        let twice = || {
            self.previous.is_some_and(|before| {
                before.load == self.basis.load
                    && before.effort(self.rir) != Effort::Harder
                    && showed(before)
            })
        };
        match self.basis.effort(self.rir) {
            _ if !showed(self.basis) => None,
            Effort::AsAimed => Some(Evidence::AllSetsAtTop),
            Effort::Unsaid if twice() => Some(Evidence::AllSetsAtTopTwice),
            Effort::Unsaid | Effort::Harder => None,
        }
    }

    /// An easier load after two sessions running that were too hard: no harder
    /// than `most`, nor below so many percent of what was lifted. `None` after
    /// one, and where the kit makes nothing between.
    fn eased_twice_running(&self, most: Load, percent: u8) -> Option<Load> {
        let (basis, ladder) = (self.basis, self.ladder);
        let is_again = self.previous.is_some_and(|before| {
            effort_led::is_too_hard(before, self.rir) && !ladder.is_harder(before.load, basis.load)
        });
        let least = step::eased(ladder, basis.load, percent);
        let below = ladder.easier(basis.load)?;
        let lower = ladder.round_easier(most).unwrap_or(below).min(below);
        let lower = ladder.round_up(lower.max(least))?;
        (is_again && ladder.is_harder(basis.load, lower)).then_some(lower)
    }

    /// The load on the way back to what was lifted before time off: up to it
    /// within the published percentage, or one step, after a session as aimed at;
    /// one fine step where effort was not said.
    fn way_back(&self) -> Option<Proposal> {
        let basis = self.basis;
        if !self.may_raise || basis.missed() || !basis.has_all_sets() {
            return None;
        }
        if basis.failed_early(self.rir) || basis.least() < self.goal.0 {
            return None;
        }
        let before = layoff::lifted_before(self.bouts, self.ladder)?;
        // Fewer reps than today's goal say nothing of today's load.
        if before.least() < self.goal.0 {
            return None;
        }
        let last = basis.shown();
        let next = step::next_step(self.ladder, &last, self.status, Load::ZERO);
        let to = match (basis.effort(self.rir), next) {
            (Effort::AsAimed, step::Step::Fine(_)) => {
                step::finest_within(self.ladder, &last, self.status, before.load)
            }
            (Effort::AsAimed, step::Step::Coarse(one))
            | (Effort::Unsaid, step::Step::Fine(one)) => one,
            _ => return None,
        };
        let evidence = Evidence::LiftedBefore {
            day: before.day,
            load: before.load,
        };
        (to <= before.load).then(|| self.raised(to, self.goal.0, evidence))
    }

    /// What all load rules do before they look for evidence: after a miss,
    /// when the goal has grown, and when early sets went to failure.
    fn miss_or_strain(&self, step_down_percent: u8) -> Option<Proposal> {
        let (bottom, top) = self.goal;
        let basis = self.basis;
        let last = basis.shown();
        let missed_again = basis.missed()
            && self.previous.is_some_and(|before| {
                before.missed() && !self.ladder.is_harder(before.load, basis.load)
            });
        if basis.least() < bottom && basis.goal.0 < bottom {
            let mut percent = self.percent_for_goal();
            if missed_again {
                percent = percent.min(step_down_percent);
            }
            return Some(self.at(
                eased_rung(self.ladder, basis.load, percent),
                bottom,
                Reason::GoalChanged {
                    last,
                    was: basis.goal,
                },
            ));
        }
        if missed_again {
            let lower = eased_rung(self.ladder, basis.load, step_down_percent)
                .filter(|&load| self.ladder.is_harder(basis.load, load));
            return Some(match lower {
                Some(load) => self.at(
                    Some(load),
                    bottom,
                    Reason::SteppedDown {
                        last,
                        bottom: basis.goal.0,
                        percent: step_down_percent,
                    },
                ),
                None => self.held(
                    bottom,
                    Reason::ReadyForEasier {
                        last,
                        step_down: self.exercise.step_down.clone(),
                    },
                ),
            });
        }
        if basis.missed() {
            return Some(self.held(
                bottom,
                Reason::HeldAfterMiss {
                    last,
                    bottom: basis.goal.0,
                },
            ));
        }
        if basis.failed_early(self.rir) {
            return Some(self.held(
                basis.least().clamp(bottom, top),
                Reason::HeldTooHard {
                    last,
                    rir: 0,
                    aim: self.rir,
                },
            ));
        }
        None
    }

    /// Percent of the load shown at which the table allows the reps now asked
    /// for; never above 100.
    fn percent_for_goal(&self) -> u8 {
        let left = u16::from(self.basis.least_rir().unwrap_or(0));
        let done = self.basis.least().saturating_add(left).clamp(1, 20);
        let asked = self.goal.0.saturating_add(u16::from(self.rir)).min(20);
        match (percent_for(asked), percent_for(done)) {
            (Some(asked), Some(done)) if asked < done => {
                u8::try_from(u32::from(asked) * 100 / u32::from(done)).unwrap_or(100)
            }
            _ => 100,
        }
    }
}

impl SuggestInput<'_> {
    /// The rule asked for, or the usual one where it is not offered.
    fn rule(&self) -> Rule {
        let offered = Rule::offered_for(self.exercise);
        if offered.contains(&self.rule) {
            self.rule
        } else {
            offered[0]
        }
    }

    /// Least and most of the goal, in order and in bounds.
    fn goal(&self) -> (u16, u16) {
        let (a, b) = self.prescription.reps;
        let held =
            |count: u16| u16::try_from(bounds::COUNT.clamp(i64::from(count))).unwrap_or(count);
        (held(a.min(b)), held(a.max(b)))
    }

    fn days_since(&self, record: &Record) -> u32 {
        record.last_day.map_or(0, |day| {
            u32::try_from(self.today.days_since(day)).unwrap_or(0)
        })
    }

    fn deload_rir(&self) -> u8 {
        let aim = self.prescription.rir;
        aim.saturating_add(layoff::DELOAD_RIR).min(5).max(aim)
    }
}

/// What one more is: a rep, or five seconds of a hold.
const fn unit_of(exercise: &Exercise) -> u16 {
    match exercise.measure {
        Measure::Reps => 1,
        Measure::Seconds => 5,
    }
}

/// What to lift next.
///
/// The rule proposes; pain, time off, a deload and doubt about an entry may
/// only make it easier. Of several, the easiest stands. Whatever the history
/// holds, the load is one the kit makes (or none), and never harder than what
/// was shown by more than the larger of ten percent and one step of the kit.
#[must_use]
pub fn suggest(input: &SuggestInput<'_>) -> Suggestion {
    let ladder = Ladder::of(input.exercise, input.kit);
    let direction = ladder.as_ref().map(Ladder::direction);
    let record = Record::read(&input.exercise.id, input.history, direction);
    let proposal = match (record.basis(), &ladder) {
        (None, _) => unknown(input, &record),
        (Some(basis), _) if !input.exercise.is_loaded() => count::propose(input, &record, basis),
        (Some(basis), None) => below_kit(input, basis, None),
        (Some(basis), Some(ladder)) => loaded(input, &record, basis, ladder),
    };
    Suggestion {
        load: proposal.load,
        count: u16::try_from(bounds::COUNT.clamp(i64::from(proposal.count)))
            .unwrap_or(proposal.count),
        rir: proposal.rir,
        rest_s: input.prescription.rest_s,
        rule: input.rule(),
        reason: proposal.reason,
        advise_swap: proposal.advise_swap,
    }
}

/// Nothing was ever lifted.
fn unknown(input: &SuggestInput<'_>, record: &Record) -> Proposal {
    let is_painful = record.discomfort == Some(Discomfort::Painful);
    Proposal {
        load: None,
        count: input.goal().0,
        rir: input.prescription.rir,
        reason: if is_painful {
            Reason::SteppedDownForPain {
                last: None,
                percent: PAIN_PERCENT,
            }
        } else {
            Reason::FirstClimb
        },
        advise_swap: is_painful,
    }
}

fn below_kit(input: &SuggestInput<'_>, basis: &Bout, easiest: Option<Load>) -> Proposal {
    Proposal {
        load: None,
        count: input.goal().0,
        rir: input.prescription.rir,
        reason: Reason::BelowKit {
            last: basis.shown(),
            easiest,
        },
        advise_swap: true,
    }
}

fn loaded(input: &SuggestInput<'_>, record: &Record, basis: &Bout, ladder: &Ladder) -> Proposal {
    let Some(held) = ladder.round_easier(basis.load) else {
        return below_kit(input, basis, Some(ladder.easiest()));
    };
    let goal = input.goal();
    let (bottom, top) = goal;
    let rule = input.rule();
    let case = Case {
        rule,
        exercise: input.exercise,
        ladder,
        status: input.status,
        goal,
        rir: input.prescription.rir,
        unit: unit_of(input.exercise),
        basis,
        previous: record.previous(),
        bouts: &record.bouts,
        may_raise: !record.is_deload_only && record.doubt.is_none(),
    };
    let mut best = match rule {
        Rule::FixedSteps => fixed_steps::propose(&case),
        Rule::EffortLed => effort_led::propose(&case),
        Rule::PercentOfMax => percent_of_max::propose(&case),
        Rule::LessHelp => less_help::propose(&case),
        // The last two are for exercises without a number: never offered here.
        Rule::DoubleProgression | Rule::RepsThenVariant | Rule::LongerHolds => {
            double_progression::propose(&case)
        }
    };
    if let Some(back) = case.way_back()
        && let (Some(to), Some(by_rule)) = (back.load, best.load)
        && ladder.is_harder(to, by_rule)
    {
        best = back;
    }
    let last = || basis.shown();
    let steady = basis.least().clamp(bottom, top);
    let is_as_before = matches!(
        best.reason,
        Reason::AddReps { .. }
            | Reason::ConfirmTop { .. }
            | Reason::OnAim { .. }
            | Reason::EffortUnsaid { .. }
            | Reason::HeldSetsMissing { .. }
    );
    if is_as_before && held != basis.load && best.load == Some(held) {
        best.reason = Reason::KitChanged { last: last() };
    }
    // From the least to the most pressing: each may only make it easier, and
    // on a tie the more pressing one gives the reason.
    let mut ease = |other: Proposal| {
        let is_easier = match (other.load, best.load) {
            (Some(other), Some(best)) => !ladder.is_harder(other, best),
            (None, _) => true,
            (Some(_), None) => false,
        };
        if is_easier {
            best = other;
        }
    };
    if let Some(doubt) = record.doubt {
        ease(case.at(
            Some(held),
            steady,
            Reason::Doubtful {
                last: last(),
                load: doubt.load,
                before: doubt.before,
            },
        ));
    }
    if record.discomfort == Some(Discomfort::Mild) {
        ease(case.at(
            Some(held),
            steady,
            Reason::HeldForDiscomfort { last: last() },
        ));
    }
    if input.is_deload {
        ease(Proposal {
            rir: input.deload_rir(),
            ..case.at(
                eased_rung(ladder, held, DELOAD_PERCENT),
                bottom,
                Reason::Deload {
                    last: last(),
                    percent: DELOAD_PERCENT,
                },
            )
        });
    }
    let days = input.days_since(record);
    if days >= layoff::LAYOFF_DAYS {
        let percent = layoff_percent(days);
        ease(case.at(
            eased_rung(ladder, held, percent),
            bottom,
            Reason::Layoff {
                last: last(),
                days,
                percent,
            },
        ));
    }
    if record.discomfort == Some(Discomfort::Painful) {
        let lower = ladder
            .round_easier(step::eased(ladder, basis.load, PAIN_PERCENT))
            .filter(|&load| ladder.is_harder(basis.load, load));
        ease(Proposal {
            advise_swap: true,
            ..case.at(
                lower,
                bottom,
                Reason::SteppedDownForPain {
                    last: Some(last()),
                    percent: PAIN_PERCENT,
                },
            )
        });
        // However much easier another rule is, pain advises a swap.
        best.advise_swap = true;
    }
    if input.is_deload {
        best.rir = input.deload_rir();
    }
    best
}

#[cfg(test)]
mod tests;
