//! Why a suggestion is what it is, with the numbers it rests on.

use super::{Rule, Source};
use crate::calendar::Day;
use crate::catalogue::ExerciseId;
use crate::units::Load;

/// What was done last time, as the rule read it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The day.
    pub day: Day,
    /// The hardest load; [`Load::ZERO`] where there is no number.
    pub load: Load,
    /// Reps or seconds of the sets at that load, in order.
    pub counts: Vec<u16>,
    /// Whether the reps left were said of the last set.
    pub is_effort_said: bool,
}

/// What shows that more can be lifted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Evidence {
    /// All sets at the top of the goal, no harder than aimed at.
    AllSetsAtTop,
    /// The same in two sessions running, effort not said.
    AllSetsAtTopTwice,
    /// Two reps over the goal in the last set of two sessions running.
    TwoForTwo,
    /// All sets as prescribed, no harder than aimed at.
    AllSetsDone,
    /// Two reps over the goal in all sets.
    TwoOverInAllSets,
    /// More reps left in every set than aimed at, or the top of the goal with
    /// as many.
    RepsToSpare {
        /// Fewest reps in reserve said.
        rir: u8,
    },
    /// As much was lifted before the last time off.
    LiftedBefore {
        /// When.
        day: Day,
        /// The load then.
        load: Load,
    },
    /// The percentage of the estimated 1RM is above what was lifted.
    EstimatedMax {
        /// The smoothed estimate.
        value: Load,
        /// Percent of it.
        percent: u8,
    },
}

/// The rule that fired and what it went by. Percentages are in tenths of a
/// percent of the load shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// Nothing was ever done: climb from the lightest load (see
    /// [`super::next_climb_load`]).
    FirstClimb,
    /// The kit makes nothing as easy as what was lifted, or no number at all.
    BelowKit {
        /// What was lifted.
        last: Shown,
        /// The easiest load of the kit, if it makes any.
        easiest: Option<Load>,
    },
    /// Up by one step.
    Raised {
        /// The rule.
        rule: Rule,
        /// What was lifted.
        last: Shown,
        /// What earned it.
        evidence: Evidence,
        /// Grams between the two loads.
        step: Load,
        /// The step against the load; `None` where the load is not all that
        /// is lifted.
        permille: Option<u32>,
    },
    /// The reps are there but the smallest step is above the published
    /// percentage: more reps first.
    StepTooBig {
        /// What was lifted.
        last: Shown,
        /// The next load.
        next: Load,
        /// The step against the load, where it can be said.
        permille: Option<u32>,
        /// Reps in all sets that earn the step.
        stretch_to: u16,
    },
    /// The reps are there; effort was not said, so once more.
    ConfirmTop {
        /// What was lifted.
        last: Shown,
    },
    /// Same load, one more.
    AddReps {
        /// What was lifted.
        last: Shown,
        /// Top of the goal.
        top: u16,
    },
    /// The same again: the bottom of the goal was missed once.
    HeldAfterMiss {
        /// What was lifted.
        last: Shown,
        /// Bottom of the goal.
        bottom: u16,
    },
    /// Down: the bottom of the goal was missed in two sessions running.
    SteppedDown {
        /// What was lifted.
        last: Shown,
        /// Bottom of the goal.
        bottom: u16,
        /// Percent of the load aimed at.
        percent: u8,
    },
    /// The same again: it was harder than aimed at.
    HeldTooHard {
        /// What was lifted.
        last: Shown,
        /// Fewest reps in reserve said.
        rir: u8,
        /// Reps in reserve aimed at.
        aim: u8,
    },
    /// The same again: sets were left out.
    HeldSetsMissing {
        /// What was lifted.
        last: Shown,
        /// Sets asked for.
        asked: u8,
    },
    /// The same again: it was as hard as aimed at.
    OnAim {
        /// What was lifted.
        last: Shown,
        /// Fewest reps in reserve said.
        rir: u8,
    },
    /// The same again: the rule goes by effort, which was not said after a
    /// session that was too hard.
    EffortUnsaid {
        /// What was lifted.
        last: Shown,
    },
    /// Down: fewer reps were left than aimed at.
    EasedToAim {
        /// What was lifted.
        last: Shown,
        /// Fewest reps in reserve said.
        rir: u8,
        /// Reps in reserve aimed at.
        aim: u8,
    },
    /// The kit no longer makes what was lifted: the next easier load.
    KitChanged {
        /// What was lifted.
        last: Shown,
    },
    /// The goal asks for more reps than before: lighter by the table.
    GoalChanged {
        /// What was lifted.
        last: Shown,
        /// The goal it was lifted for.
        was: (u16, u16),
    },
    /// The top is reached and there is no harder load: a harder variant is due.
    ReadyForHarder {
        /// What was done.
        last: Shown,
        /// Harder variants, nearest first; may be empty.
        step_up: Vec<ExerciseId>,
    },
    /// The bottom was missed twice and there is no easier load.
    ReadyForEasier {
        /// What was done.
        last: Shown,
        /// Easier variants, nearest first; may be empty.
        step_down: Vec<ExerciseId>,
    },
    /// Back after time off.
    Layoff {
        /// What was lifted before it.
        last: Shown,
        /// Days since.
        days: u32,
        /// Percent of the load aimed at.
        percent: u8,
    },
    /// A planned deload.
    Deload {
        /// What was lifted before it.
        last: Shown,
        /// Percent of the load aimed at.
        percent: u8,
    },
    /// No more than last time: there was mild discomfort.
    HeldForDiscomfort {
        /// What was lifted.
        last: Shown,
    },
    /// Down, or out: it was painful. Where it goes on, see a professional.
    SteppedDownForPain {
        /// What was lifted last, if anything was.
        last: Option<Shown>,
        /// Percent of the load aimed at, at most.
        percent: u8,
    },
    /// One set far above anything before looks like a slip of the pen and is
    /// left out.
    Doubtful {
        /// What the suggestion goes by instead.
        last: Shown,
        /// The load in doubt.
        load: Load,
        /// The hardest before it.
        before: Load,
    },
}

impl Evidence {
    /// A short name, for reports.
    #[must_use]
    pub const fn slug(self) -> &'static str {
        match self {
            Self::AllSetsAtTop => "all-sets-at-top",
            Self::AllSetsAtTopTwice => "all-sets-at-top-twice",
            Self::TwoForTwo => "two-for-two",
            Self::AllSetsDone => "all-sets-done",
            Self::TwoOverInAllSets => "two-over-in-all-sets",
            Self::RepsToSpare { .. } => "reps-to-spare",
            Self::LiftedBefore { .. } => "lifted-before",
            Self::EstimatedMax { .. } => "estimated-max",
        }
    }
}

impl Reason {
    /// A short name, for reports.
    #[must_use]
    pub const fn slug(&self) -> &'static str {
        match self {
            Self::FirstClimb => "first-climb",
            Self::BelowKit { .. } => "below-kit",
            Self::Raised { .. } => "raised",
            Self::StepTooBig { .. } => "step-too-big",
            Self::ConfirmTop { .. } => "confirm-top",
            Self::AddReps { .. } => "add-reps",
            Self::HeldAfterMiss { .. } => "held-after-miss",
            Self::SteppedDown { .. } => "stepped-down",
            Self::HeldTooHard { .. } => "held-too-hard",
            Self::HeldSetsMissing { .. } => "held-sets-missing",
            Self::OnAim { .. } => "on-aim",
            Self::EffortUnsaid { .. } => "effort-unsaid",
            Self::EasedToAim { .. } => "eased-to-aim",
            Self::KitChanged { .. } => "kit-changed",
            Self::GoalChanged { .. } => "goal-changed",
            Self::ReadyForHarder { .. } => "ready-for-harder",
            Self::ReadyForEasier { .. } => "ready-for-easier",
            Self::Layoff { .. } => "layoff",
            Self::Deload { .. } => "deload",
            Self::HeldForDiscomfort { .. } => "held-for-discomfort",
            Self::SteppedDownForPain { .. } => "stepped-down-for-pain",
            Self::Doubtful { .. } => "doubtful",
        }
    }

    /// What the rule rests on.
    #[must_use]
    pub const fn sources(&self) -> &'static [Source] {
        use Source as S;
        match self {
            Self::Raised {
                evidence: Evidence::LiftedBefore { .. },
                ..
            } => &[S::Halonen2024, S::Acsm2009],
            Self::Raised {
                rule: Rule::FixedSteps,
                ..
            } => &[S::Acsm2009, S::StepSizes],
            Self::Raised {
                evidence: Evidence::TwoForTwo,
                ..
            } => &[S::TwoForTwo, S::Acsm2009],
            Self::Raised {
                evidence: Evidence::TwoOverInAllSets,
                ..
            } => &[S::TwoForTwo, S::CommonPractice],
            Self::Raised {
                evidence: Evidence::RepsToSpare { .. },
                ..
            } => &[S::Zourdos2016, S::PercentTable, S::Acsm2009],
            Self::Raised {
                evidence: Evidence::EstimatedMax { .. },
                ..
            } => &[S::Equations, S::PercentTable, S::Acsm2009],
            Self::Raised { .. } | Self::StepTooBig { .. } => &[S::Acsm2009],
            Self::OnAim { .. } | Self::EffortUnsaid { .. } => &[S::Zourdos2016, S::Halperin2022],
            Self::EasedToAim { .. } => &[S::Zourdos2016, S::PercentTable, S::CommonPractice],
            Self::ConfirmTop { .. } => &[S::TwoForTwo],
            Self::HeldTooHard { .. } => &[S::Halperin2022, S::CommonPractice],
            Self::GoalChanged { .. } | Self::FirstClimb => &[S::PercentTable, S::Halperin2022],
            Self::Layoff { .. } => &[S::Bosquet2013, S::Halonen2024, S::CommonPractice],
            Self::Deload { .. } => &[S::Rogerson2024, S::CommonPractice],
            Self::BelowKit { .. }
            | Self::KitChanged { .. }
            | Self::AddReps { .. }
            | Self::HeldAfterMiss { .. }
            | Self::SteppedDown { .. }
            | Self::HeldSetsMissing { .. }
            | Self::ReadyForHarder { .. }
            | Self::ReadyForEasier { .. }
            | Self::HeldForDiscomfort { .. }
            | Self::SteppedDownForPain { .. }
            | Self::Doubtful { .. } => &[S::CommonPractice],
        }
    }

    /// What was done last time, if the rule went by it.
    #[must_use]
    pub const fn last(&self) -> Option<&Shown> {
        match self {
            Self::FirstClimb => None,
            Self::SteppedDownForPain { last, .. } => last.as_ref(),
            Self::BelowKit { last, .. }
            | Self::Raised { last, .. }
            | Self::StepTooBig { last, .. }
            | Self::ConfirmTop { last }
            | Self::AddReps { last, .. }
            | Self::HeldAfterMiss { last, .. }
            | Self::SteppedDown { last, .. }
            | Self::HeldTooHard { last, .. }
            | Self::HeldSetsMissing { last, .. }
            | Self::GoalChanged { last, .. }
            | Self::OnAim { last, .. }
            | Self::EffortUnsaid { last }
            | Self::EasedToAim { last, .. }
            | Self::KitChanged { last }
            | Self::ReadyForHarder { last, .. }
            | Self::ReadyForEasier { last, .. }
            | Self::Layoff { last, .. }
            | Self::Deload { last, .. }
            | Self::HeldForDiscomfort { last }
            | Self::Doubtful { last, .. } => Some(last),
        }
    }
}
