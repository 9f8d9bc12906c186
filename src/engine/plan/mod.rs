//! The week: splits, and the plan that fills them.
//!
//! Start at [`Plan`] for what a plan is, [`split`] for the cycles, and
//! [`plan_week`] for how one is made: the [`objective`] judges a week, the
//! search finds one, [`dose`] holds how many sets are enough, [`time`] how long
//! they take. This module never knows today's date.

mod alternatives;
mod bound;
pub mod dose;
mod edit;
mod hurry;
pub mod objective;
mod opening;
mod order;
mod prescribe;
pub mod programme;
mod reasons;
mod relief;
mod solve;
pub mod split;
pub(crate) mod staples;
mod strata;
#[cfg(test)]
pub(crate) mod tests;
mod tight;
pub mod time;

pub use alternatives::{Alternative, Difference, alternatives};
pub use edit::{Edit, EditError};
pub use hurry::{Beside, Hurry, Unfinished, can_share_rests, hurry, seconds_left};
pub use prescribe::prescribe;
pub(crate) use prescribe::shorten_rests;
pub use reasons::HARD;
pub use relief::{Freer, Limit, Relief, Shortfall};
pub use split::{Focus, OwnSplit, Slot, Split, SplitDay, SplitId};

use crate::bounds::{self, OutOfBounds};
use crate::catalogue::{Catalogue, Exercise, ExerciseId, HalfSets, Muscle, Pattern};
use crate::order::Map;
use crate::person::Person;
use objective::Model;
use std::fmt;

/// What to do of one exercise in one session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prescription {
    /// The exercise.
    pub exercise: ExerciseId,
    /// Working sets, [`crate::bounds::SETS`].
    pub sets: u8,
    /// Goal range of reps (or seconds), least and most.
    pub reps: (u16, u16),
    /// Reps in reserve aimed at; 0 to 5.
    pub rir: u8,
    /// Rest after a set, seconds.
    pub rest_s: u16,
}

/// One exercise of a planned day, and why it is there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanItem {
    /// Stable within the plan: swaps and edits keep it.
    pub key: u16,
    /// What to do.
    pub prescription: Prescription,
    /// Items of the day with the same number are done in turn as a superset.
    pub superset: Option<u8>,
    /// Why it was picked; empty when the person put it there.
    pub reasons: Vec<PickReason>,
}

/// One day of the cycle.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanDay {
    /// What the day is about, as the split names it.
    pub focus: split::Focus,
    /// Exercises in order.
    pub items: Vec<PlanItem>,
    /// Estimated length, seconds.
    pub seconds: u32,
}

/// A structured week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The split it follows.
    pub split: SplitId,
    /// The days of the cycle, in order.
    pub days: Vec<PlanDay>,
    /// What could not be met, and why.
    pub notes: Vec<PlanNote>,
}

/// Why an exercise stands where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PickReason {
    /// It covers a pattern every week should hold.
    CoversPattern(Pattern),
    /// It adds this many half sets to a muscle that lacked them.
    Feeds {
        /// The muscle.
        muscle: Muscle,
        /// Half sets a week it adds.
        half_sets: HalfSets,
    },
    /// The muscle matters more to this person.
    Priority(Muscle),
    /// It opens the day because the day is about it.
    LeadsDay,
    /// It suits the person's status: little skill needed.
    EasyToLearn,
    /// It was the best that the kit at hand allows for the slot.
    BestWithKit,
    /// It takes little time for what it gives.
    SavesTime,
}

/// Something the plan could not do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlanNote {
    /// No exercise fits this pattern with the kit, exclusions and limits.
    PatternNotCovered(Pattern),
    /// A slot of a day was left out to keep within the minutes.
    SlotDropped {
        /// Index of the day.
        day: u8,
        /// Patterns the slot would have taken.
        patterns: Vec<Pattern>,
    },
    /// A muscle stays under its weekly floor.
    BelowFloor {
        /// The muscle.
        muscle: Muscle,
        /// Half sets planned.
        half_sets: HalfSets,
        /// Half sets of the floor.
        floor: HalfSets,
    },
    /// The day runs over the minutes even so.
    OverTime {
        /// Index of the day.
        day: u8,
        /// Seconds over.
        seconds: u32,
    },
    /// Two days in a row train the same muscle hard.
    ShortRecovery {
        /// Index of the earlier day.
        day: u8,
        /// The muscle.
        muscle: Muscle,
    },
}

/// Weekly half sets per muscle of a plan's prescriptions.
pub type WeeklySets = Map<Muscle, HalfSets>;

/// No plan can be made of the answers given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlanError {
    /// No training day was chosen.
    NoDays,
    /// More days than a week has, or the same twice.
    RepeatedDays,
    /// Minutes outside [`bounds::SESSION_MIN`].
    Minutes(OutOfBounds),
    /// No split has this id.
    UnknownSplit(SplitId),
    /// A split without days, or a day with too few or too many exercises.
    MisshapenSplit(SplitId),
    /// A week to be judged does not fit the split or the person.
    NotInSplit(SplitId),
    /// Kit, exclusions and joint limits leave no exercise at all.
    NothingPossible,
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoDays => f.write_str("no training day was chosen; choose at least one"),
            Self::RepeatedDays => {
                f.write_str("a training day was chosen twice; choose each weekday once")
            }
            Self::Minutes(error) => write!(f, "{error}; choose a length within that range"),
            Self::UnknownSplit(id) => write!(f, "split '{id}' is not known; choose another"),
            Self::MisshapenSplit(id) => write!(
                f,
                "split '{id}' has no day, or a day without 1 to {} exercises; edit its days",
                bounds::SLOTS.most
            ),
            Self::NotInSplit(id) => write!(
                f,
                "the week holds exercises or sets that split '{id}' does not offer this person"
            ),
            Self::NothingPossible => f.write_str(
                "no exercise is left; add equipment, or lift an exclusion or a joint limit",
            ),
        }
    }
}

impl std::error::Error for PlanError {}

/// Refuses answers that no plan can be made of.
fn check(person: &Person) -> Result<(), PlanError> {
    if person.days.is_empty() {
        return Err(PlanError::NoDays);
    }
    let mut days = person.days.clone();
    crate::order::sort(&mut days);
    days.dedup();
    if days.len() != person.days.len() {
        return Err(PlanError::RepeatedDays);
    }
    bounds::SESSION_MIN
        .check(i64::from(person.minutes))
        .map_err(PlanError::Minutes)?;
    Ok(())
}

/// The split the person asked for, or the default for their days.
fn split_of(person: &Person) -> Result<Split, PlanError> {
    if person.days.is_empty() {
        return Err(PlanError::NoDays);
    }
    #[expect(clippy::cast_possible_truncation, reason = "held to a week")]
    let id = match &person.split {
        Some(id) => id.clone(),
        None => Split::default_for(person.days.len().min(7) as u8),
    };
    let split = Split::of(person, &id).ok_or(PlanError::UnknownSplit(id))?;
    check_shape(&split)?;
    Ok(split)
}

/// Refuses a split without days, or with a day of too few or too many slots.
fn check_shape(split: &Split) -> Result<(), PlanError> {
    let is_misshapen = |day: &SplitDay| {
        i64::try_from(day.slots.len()).is_ok_and(|slots| bounds::SLOTS.check(slots).is_err())
    };
    if split.days.is_empty() || split.days.iter().any(is_misshapen) {
        return Err(PlanError::MisshapenSplit(split.id.clone()));
    }
    Ok(())
}

/// The person's split as a plan without any exercise, to be filled by hand.
///
/// # Errors
/// [`PlanError`] as [`plan_week`], but for what only exercises decide.
pub fn blank_week(person: &Person) -> Result<Plan, PlanError> {
    check(person)?;
    Ok(split_of(person)?.blank())
}

/// Whether kit, exclusions and joint limits let the person do the exercise.
#[must_use]
pub fn is_allowed(exercise: &Exercise, person: &Person) -> bool {
    person.kit.allows(exercise)
        && !person.excluded.contains(&exercise.id)
        && !exercise
            .joints
            .iter()
            .any(|joint| person.joint_limits.contains(joint))
}

/// Plans the person's week on the split they asked for, or the default for
/// their days. The same answers always give the same plan.
///
/// # Errors
/// [`PlanError`] when the answers allow no plan; too little time or kit is no
/// error but a [`PlanNote`].
pub fn plan_week(catalogue: &Catalogue, person: &Person) -> Result<Plan, PlanError> {
    check(person)?;
    plan_split(catalogue, person, &split_of(person)?)
}

/// A planned week, how good it is and how good any could be, in points
/// ([`objective::MILLI`]).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Solved {
    /// The week.
    pub plan: Plan,
    /// The same as the objective sees it.
    pub draft: objective::PlanDraft,
    /// What the week is worth, in points.
    pub objective: i64,
    /// What no week of this person can be worth more than.
    pub bound: i64,
}

/// Plans the person's week as [`plan_week`] does, with its worth and a bound.
///
/// # Errors
/// As [`plan_week`].
pub fn solve_week(catalogue: &Catalogue, person: &Person) -> Result<Solved, PlanError> {
    check(person)?;
    let split = split_of(person)?;
    let model = Model::new(catalogue, person, &split)?;
    let (week, bound) = solve::solve(&model);
    Ok(Solved {
        draft: model.write(&week),
        objective: model.score(&week).total(),
        bound,
        plan: write_out(catalogue, person, &split, (&model, &week)),
    })
}

/// Plans the person's week on a split of their own making.
///
/// # Errors
/// As [`plan_week`]; [`PlanError::MisshapenSplit`] when the split has no day or
/// a day without 1 to 12 slots.
pub fn plan_split(
    catalogue: &Catalogue,
    person: &Person,
    split: &Split,
) -> Result<Plan, PlanError> {
    check_shape(split)?;
    let model = Model::new(catalogue, person, split)?;
    let (week, _) = solve::solve(&model);
    Ok(write_out(catalogue, person, split, (&model, &week)))
}

/// The week in order, with rests, seconds, reasons and notes.
fn write_out(
    catalogue: &Catalogue,
    person: &Person,
    split: &Split,
    (model, week): (&Model<'_>, &objective::Week),
) -> Plan {
    let grounds = reasons::Grounds::new(model, catalogue, person, split, week);
    let mut key = 0;
    let days: Vec<PlanDay> = split
        .days
        .iter()
        .enumerate()
        .map(|(d, split_day)| {
            let fit = model.fit(d, &week.days[d]);
            let placed = order::order_day(catalogue, model, person, d, &week.days[d], &fit.pairs);
            let mut items = placed
                .iter()
                .enumerate()
                .map(|(at, item)| {
                    key += 1;
                    let exercise = model.lifts[item.lift].exercise;
                    PlanItem {
                        key,
                        prescription: prescribe(exercise, person, item.sets),
                        superset: item.superset,
                        reasons: reasons::reasons(&grounds, d, item, at == 0),
                    }
                })
                .collect::<Vec<_>>();
            prescribe::shorten_rests(catalogue, person, &mut items);
            PlanDay {
                focus: split_day.focus,
                seconds: time::session_seconds(catalogue, &items),
                items,
            }
        })
        .collect();
    let notes = reasons::notes(&grounds, week, &days);
    Plan {
        split: split.id.clone(),
        days,
        notes,
    }
}

/// Weekly half sets per muscle of these days: direct sets count two, indirect
/// sets one. Muscles without any are absent.
#[must_use]
pub fn weekly_sets(catalogue: &Catalogue, days: &[PlanDay]) -> WeeklySets {
    let mut sets = WeeklySets::new();
    for item in days.iter().flat_map(|day| &day.items) {
        let Some(exercise) = catalogue.get(&item.prescription.exercise) else {
            continue;
        };
        for &muscle in exercise.prime.iter().chain(&exercise.assist) {
            *sets.get_or_insert_with(muscle, || 0) +=
                exercise.half_sets_for(muscle) * HalfSets::from(item.prescription.sets);
        }
    }
    sets
}
