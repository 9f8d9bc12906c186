//! What the next block might do otherwise.
//!
//! Start at [`propose`]: changes of the plan, each with what speaks for it, and
//! [`take`], which makes the plan of those that were left switched on. No change
//! touches a load: what to lift stays with the rules of progression.

use super::causes::Cause;
use super::{Finding, Review, WeekDone};
use crate::bounds;
use crate::calendar::Weekday;
use crate::catalogue::{Catalogue, ExerciseId, HalfSets, Kind, Muscle};
use crate::estimate::Confidence;
use crate::log::Discomfort;
use crate::person::Person;
use crate::plan::{
    Edit, Plan, PlanError, PlanItem, Split, SplitId, alternatives, dose, plan_week, time,
    weekly_sets,
};

/// Sets of an exercise beyond which others take over (common practice, no
/// source: two to five an exercise, as the planner has it).
const MOST_SETS: u8 = 5;
/// Weeks of the same split after which another is offered (common practice, no
/// source). Split and full body gain alike at equal sets (Ramos-Campo et al.
/// 2024, JSCR 38(7):1330-1340), so it is only offered, never switched on.
const LONG_WEEKS: u32 = 16;
/// Seconds that a day may run over the minutes after a change (the project's own
/// judgement): two minutes are no reason against a set.
const LEEWAY_S: u32 = 120;
/// Weeks that an exercise must have been followed before it is exchanged (common
/// practice, no source).
const ROTATE_WEEKS: u32 = 6;

/// One change of the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Another number of sets of an exercise on one day.
    Sets {
        /// Key of the item.
        key: u16,
        /// The exercise.
        exercise: ExerciseId,
        /// Sets now.
        from: u8,
        /// Sets then.
        to: u8,
    },
    /// Another exercise in the place of one.
    Swap {
        /// Key of the item.
        key: u16,
        /// The exercise now.
        from: ExerciseId,
        /// The exercise then.
        to: ExerciseId,
    },
    /// Longer rest after each set.
    Rest {
        /// Key of the item.
        key: u16,
        /// The exercise.
        exercise: ExerciseId,
        /// Seconds now.
        from: u16,
        /// Seconds then.
        to: u16,
    },
    /// Earlier in its session.
    Earlier {
        /// Key of the item.
        key: u16,
        /// The exercise.
        exercise: ExerciseId,
    },
    /// A week for fewer days.
    Days {
        /// Days now.
        from: Vec<Weekday>,
        /// Days then: those trained on most.
        to: Vec<Weekday>,
    },
    /// A week by another split.
    Split {
        /// The split now.
        from: SplitId,
        /// The split then.
        to: SplitId,
    },
    /// A week of lighter training at the end of the block.
    LighterWeek,
    /// Nothing of the plan changes: take the rest it asks for.
    TakeTheRest {
        /// The exercise.
        exercise: ExerciseId,
        /// Seconds asked for.
        asked: u32,
    },
    /// Nothing of the plan changes: go nearer to the effort it asks for, and say
    /// what is left.
    MeetTheEffort {
        /// The exercise.
        exercise: ExerciseId,
    },
}

/// What speaks for a change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Because {
    /// An exercise stands still, with this beside it.
    Stall(Cause),
    /// An exercise stands still and nothing else is to be seen; weeks it was
    /// followed.
    StallAlone(u32),
    /// It hurt.
    Hurt(Discomfort),
    /// Sessions were missed.
    Missed {
        /// Sessions done.
        done: u32,
        /// Sessions planned.
        planned: u32,
    },
    /// So many weeks by the same split.
    LongUse(u32),
    /// So many weeks without a lighter one.
    WeeksOn(u32),
}

/// A change with what speaks for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposed {
    /// The change.
    pub change: Change,
    /// What speaks for it.
    pub because: Because,
    /// How far to trust that.
    pub confidence: Confidence,
    /// Whether it is switched on until the person says otherwise.
    pub is_on: bool,
}

/// Changes for the next block; none where there is too little to tell.
#[must_use]
pub fn propose(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    review: &Review,
) -> Vec<Proposed> {
    let mut found: Vec<Proposed> = Vec::new();
    if review.is_thin {
        return found;
    }
    for finding in &review.findings {
        match finding {
            Finding::Hurt { exercise, .. } => {
                let pain = review.hurts(exercise).unwrap_or(Discomfort::Mild);
                found.extend(after_pain(catalogue, person, plan, exercise, pain));
            }
            Finding::Missed { done, planned } => {
                found.extend(fewer_days(person, review, *done, *planned));
            }
            Finding::Stalled {
                exercise,
                judgement,
                causes,
                confidence,
            } => {
                // What hurts is never pushed, whatever else it does.
                if review.hurts(exercise).is_some() {
                    continue;
                }
                let change = match causes.first() {
                    // Missed sessions have a change of their own.
                    Some(Cause::Adherence { .. }) => None,
                    Some(cause) => against(catalogue, person, plan, exercise, cause)
                        .map(|change| (change, Because::Stall(cause.clone()))),
                    None if judgement.weeks >= ROTATE_WEEKS => {
                        rotate(catalogue, person, plan, exercise)
                            .map(|change| (change, Because::StallAlone(judgement.weeks)))
                    }
                    None => None,
                };
                if let Some((change, because)) = change
                    && found.iter().all(|other| other.change != change)
                {
                    found.push(Proposed {
                        is_on: *confidence == Confidence::Normal || causes.is_empty(),
                        change,
                        because,
                        confidence: *confidence,
                    });
                }
            }
            Finding::Rose { .. } | Finding::Short { .. } => {}
        }
    }
    found.extend(lighter(review));
    found.extend(other_split(person, plan, review));
    found
}

/// The items of an exercise, with their days.
fn places<'a>(
    plan: &'a Plan,
    exercise: &'a ExerciseId,
) -> impl Iterator<Item = (usize, &'a PlanItem)> {
    let days = plan.days.iter().enumerate();
    days.flat_map(|(d, day)| day.items.iter().map(move |item| (d, item)))
        .filter(move |(_, item)| &item.prescription.exercise == exercise)
}

fn fits(person: &Person, plan: &Plan, day: usize) -> bool {
    let most = u32::from(person.minutes) * 60 + LEEWAY_S;
    plan.days.get(day).is_some_and(|day| day.seconds <= most)
}

/// One set more, where day and muscle have room.
fn more_sets(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    exercise: &ExerciseId,
    muscle: Muscle,
) -> Option<Change> {
    let sets = weekly_sets(catalogue, &plan.days);
    let now: HalfSets = sets.get(&muscle).copied().unwrap_or(0);
    if now + 2 > dose::target(muscle, person).ceiling {
        return None;
    }
    places(plan, exercise).find_map(|(day, item)| {
        let from = item.prescription.sets;
        // Two more where there is room, else one: a step that can show.
        (1..=2).rev().find_map(|more| {
            let to = from + more;
            let key = item.key;
            let edited = plan.set_sets(catalogue, day, key, to).ok()?;
            let is_fine = to <= MOST_SETS && fits(person, &edited, day);
            is_fine.then(|| Change::Sets {
                key,
                exercise: exercise.clone(),
                from,
                to,
            })
        })
    })
}

fn against(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    exercise: &ExerciseId,
    cause: &Cause,
) -> Option<Change> {
    let (day, item) = places(plan, exercise).next()?;
    match *cause {
        Cause::Adherence { .. } => None,
        Cause::FewSets { muscle, .. } => more_sets(catalogue, person, plan, exercise, muscle),
        Cause::LittleRest { taken, asked } => {
            // A third less than asked is a matter of doing it; asked too little
            // is a matter of the plan. Multi-joint lifts are given two minutes
            // (Singer et al. 2024, Front Sports Act Living 6:1429789).
            let found = catalogue.get(exercise)?;
            let enough: u16 = match found.kind {
                Kind::Compound => 120,
                Kind::Isolation => 90,
            };
            let from = item.prescription.rest_s;
            if from >= enough || taken * 2 < asked {
                return Some(Change::TakeTheRest {
                    exercise: exercise.clone(),
                    asked,
                });
            }
            let edited = plan.set_rest(catalogue, day, item.key, enough).ok()?;
            fits(person, &edited, day).then(|| Change::Rest {
                key: item.key,
                exercise: exercise.clone(),
                from,
                to: enough,
            })
        }
        Cause::TooEasy { .. } => Some(Change::MeetTheEffort {
            exercise: exercise.clone(),
        }),
        Cause::Late { .. } => {
            let place = plan.days[day].items.iter().position(|i| i.key == item.key);
            (place > Some(0)).then(|| Change::Earlier {
                key: item.key,
                exercise: exercise.clone(),
            })
        }
    }
}

/// Another exercise for the same muscles in the place of one.
fn rotate(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    exercise: &ExerciseId,
) -> Option<Change> {
    let (day, item) = places(plan, exercise).next()?;
    let other = alternatives(catalogue, person, plan, day, item.key);
    Some(Change::Swap {
        key: item.key,
        from: exercise.clone(),
        to: other.into_iter().next()?.exercise,
    })
}

/// After pain an easier variant or another exercise for the same muscles, or
/// fewer sets where there is none; after a mild note fewer sets.
fn after_pain(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    exercise: &ExerciseId,
    pain: Discomfort,
) -> Vec<Proposed> {
    let mut changes = Vec::new();
    for (day, item) in places(plan, exercise) {
        let found = catalogue.get(exercise);
        let easier = alternatives(catalogue, person, plan, day, item.key)
            .into_iter()
            .map(|other| other.exercise)
            .find(|other| {
                let Some((found, other)) = found.zip(catalogue.get(other)) else {
                    return false;
                };
                let is_step_down = found.step_down.contains(&other.id);
                // Nothing it asks of the joints may be what hurt.
                is_step_down || !other.joints.iter().any(|j| found.joints.contains(j))
            });
        let from = item.prescription.sets;
        let change = match (pain, easier) {
            (Discomfort::Painful, Some(to)) => Change::Swap {
                key: item.key,
                from: exercise.clone(),
                to,
            },
            _ if from > i64_to_u8(bounds::SETS.least) => Change::Sets {
                key: item.key,
                exercise: exercise.clone(),
                from,
                to: from - 1,
            },
            _ => continue,
        };
        changes.push(Proposed {
            change,
            because: Because::Hurt(pain),
            confidence: Confidence::Normal,
            is_on: true,
        });
    }
    changes
}

fn i64_to_u8(number: i64) -> u8 {
    u8::try_from(number).unwrap_or(u8::MAX)
}

/// As many days as were kept, those trained on most.
fn fewer_days(person: &Person, review: &Review, done: u32, planned: u32) -> Option<Proposed> {
    let days = person.days.len();
    let kept = (days * done as usize).div_ceil(planned.max(1) as usize);
    if kept == 0 || kept >= days {
        return None;
    }
    let mut counted: Vec<(usize, usize, Weekday)> = person
        .days
        .iter()
        .enumerate()
        .map(|(at, &weekday)| {
            let trained = review.trained_on(weekday);
            (usize::MAX - trained, at, weekday)
        })
        .collect();
    crate::order::sort(&mut counted);
    let mut to: Vec<Weekday> = counted.iter().take(kept).map(|day| day.2).collect();
    crate::order::sort(&mut to);
    Some(Proposed {
        change: Change::Days {
            from: person.days.clone(),
            to,
        },
        because: Because::Missed { done, planned },
        confidence: Confidence::Normal,
        is_on: true,
    })
}

fn lighter(review: &Review) -> Option<Proposed> {
    // A week that has just begun breaks no run.
    let has_begun = |week: &&WeekDone| !week.is_open || week.sessions > 0;
    let weeks = review.weeks.iter().rev().filter(has_begun);
    let on = weeks
        .take_while(|week| week.sessions > 0 && !week.is_deload)
        .count();
    let on = super::series::count(on);
    (on >= u32::from(super::LIGHTER_EVERY) - 2).then_some(Proposed {
        change: Change::LighterWeek,
        because: Because::WeeksOn(on),
        confidence: Confidence::Normal,
        is_on: true,
    })
}

fn other_split(person: &Person, plan: &Plan, review: &Review) -> Option<Proposed> {
    let weeks = review.weeks_of_plan();
    if weeks < LONG_WEEKS {
        return None;
    }
    let is_other = |id: &SplitId| {
        let split = Split::of(person, id);
        *id != plan.split && split.is_some_and(|split| split.days.len() == plan.days.len())
    };
    let to = Split::offered_to(person).into_iter().find(is_other)?;
    Some(Proposed {
        change: Change::Split {
            from: plan.split.clone(),
            to,
        },
        because: Because::LongUse(weeks),
        confidence: Confidence::Low,
        is_on: false,
    })
}

impl Review {
    /// Days of a weekday on which a session was done.
    fn trained_on(&self, weekday: Weekday) -> usize {
        let mut days: Vec<_> = self.series.iter().flat_map(|s| &s.done).collect();
        days.retain(|done| done.day.weekday() == weekday);
        let days: crate::order::Set<_> = days.iter().map(|done| done.day).collect();
        days.len()
    }

    /// Whole weeks looked at in which the present plan held.
    fn weeks_of_plan(&self) -> u32 {
        let held = self.weeks.iter().filter(|week| week.planned.is_some());
        super::series::count(held.count())
    }
}

/// A plan made of the changes that were taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// The person, with other days or another split if that was taken.
    pub person: Person,
    /// The plan.
    pub plan: Plan,
    /// Whether the block gets a lighter week.
    pub has_lighter: bool,
    /// Changes that a newly woven week had no place for.
    pub left_out: Vec<Change>,
}

/// Makes the plan of the changes that were left switched on. Other days or
/// another split weave a new week first; what then has no place any more is
/// told.
///
/// # Errors
/// [`PlanError`] when no week can be woven for the days or the split.
pub fn take(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    changes: &[Change],
) -> Result<Taken, PlanError> {
    let mut taken = Taken {
        person: person.clone(),
        plan: plan.clone(),
        has_lighter: changes.contains(&Change::LighterWeek),
        left_out: Vec::new(),
    };
    let mut is_new = false;
    for change in changes {
        match change {
            Change::Days { to, .. } => {
                taken.person.days.clone_from(to);
                // A split of its own number of days is chosen anew.
                taken.person.split = None;
                is_new = true;
            }
            Change::Split { to, .. } => {
                taken.person.split = Some(to.clone());
                is_new = true;
            }
            _ => {}
        }
    }
    if is_new {
        taken.plan = plan_week(catalogue, &taken.person)?;
    }
    for change in changes {
        let Some(edited) = apply(catalogue, &taken, change) else {
            taken.left_out.push(change.clone());
            continue;
        };
        taken.plan = edited;
    }
    for day in &mut taken.plan.days {
        day.seconds = time::session_seconds(catalogue, &day.items);
    }
    Ok(taken)
}

/// The plan with one change; `None` where it has no place for it.
fn apply(catalogue: &Catalogue, taken: &Taken, change: &Change) -> Option<Plan> {
    let plan = &taken.plan;
    // In a new week the same exercise may stand elsewhere.
    let place = |key: u16, exercise: &ExerciseId| {
        let by_key = places(plan, exercise).find(|(_, item)| item.key == key);
        by_key
            .or_else(|| places(plan, exercise).next())
            .map(|(day, item)| (day, item.clone()))
    };
    let edit = match change {
        Change::Sets {
            key,
            exercise,
            from,
            to,
        } => {
            let (day, item) = place(*key, exercise)?;
            let now = item.prescription.sets;
            let is_done = if to > from { now >= *to } else { now <= *to };
            let sets = if is_done { now } else { *to };
            Edit::Sets {
                day,
                key: item.key,
                sets,
            }
        }
        Change::Swap { key, from, to } => {
            let (day, item) = place(*key, from)?;
            Edit::Swap {
                day,
                key: item.key,
                exercise: to.clone(),
            }
        }
        Change::Rest {
            key, exercise, to, ..
        } => {
            let (day, item) = place(*key, exercise)?;
            Edit::Rest {
                day,
                key: item.key,
                rest_s: item.prescription.rest_s.max(*to),
            }
        }
        Change::Earlier { key, exercise } => {
            let (day, item) = place(*key, exercise)?;
            Edit::Move {
                day,
                key: item.key,
                to_day: day,
                place: 0,
            }
        }
        Change::Days { .. }
        | Change::Split { .. }
        | Change::LighterWeek
        | Change::TakeTheRest { .. }
        | Change::MeetTheEffort { .. } => return Some(plan.clone()),
    };
    plan.edit(catalogue, &taken.person, &edit).ok()
}
