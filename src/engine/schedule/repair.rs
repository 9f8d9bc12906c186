//! A session that cannot be done: what may become of it, and what each way
//! means.
//!
//! Start at [`options`] for a missed or coming session and at [`travel`] for days
//! with other equipment. Every way comes with its effect before anybody chooses;
//! nothing here chooses, and nothing is ever owed.

use super::settled::put_in;
use super::{Coming, Done, Extra, How, Schedule, Settled, State, Travel};
use crate::calendar::Day;
use crate::catalogue::{Catalogue, HalfSets, Muscle};
use crate::kit::Kit;
use crate::person::Person;
use crate::plan::objective::SETS;
use crate::plan::{Plan, PlanDay, PlanError, Prescription, Split, dose, plan_week, weekly_sets};

/// What a choice does to the seven days from the day it is made for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Effect {
    /// Half sets in those days: as if the session were done on its day, and with
    /// the choice. Only muscles with a floor for which they differ.
    pub sets: Vec<(Muscle, HalfSets, HalfSets)>,
    /// The large muscle whose longest stretch without a direct set grows most:
    /// days as if the session were done on its day, and with the choice.
    pub gap: Option<(Muscle, u8, u8)>,
    /// Coming sessions of those days that get another plan day or length: the
    /// day, its plan day and seconds.
    pub sessions: Vec<(Day, u8, u32)>,
}

/// A way to settle a session, and what it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// The way.
    pub how: How,
    /// What it does.
    pub effect: Effect,
}

/// Exercises that a session may take on, at most (the project's own judgement).
const MOST_EXTRA: usize = 2;
/// Days after the session within which its work may still be taken up: a week
/// (definition).
const WITHIN_DAYS: u16 = 7;

/// The ways to settle the session of a training day: shift it, put what matters
/// most into the next sessions within their minutes (left out where none has
/// room), or let it go.
///
/// Empty where the day holds no session or a done one, or another was done since:
/// then the missed one has moved on by itself.
#[must_use]
pub fn options(
    catalogue: &Catalogue,
    person: &Person,
    (plan, schedule): (&Plan, &Schedule),
    done: &[Done],
    (day, today): (Day, Day),
) -> Vec<Choice> {
    let found = schedule.between(done, today, day, 1);
    let Some(&Coming {
        plan_day: Some(plan_day),
        state: State::Missed | State::Due | State::Coming,
        ..
    }) = found.first()
    else {
        return Vec::new();
    };
    let with = |how: How| {
        let mut schedule = schedule.clone();
        schedule.repairs.settle(Settled {
            day,
            chosen: today,
            how,
        });
        schedule
    };
    if done.iter().any(|done| done.day > day) {
        return Vec::new();
    }
    let mut as_planned = done.to_vec();
    if day < today {
        as_planned.push(Done {
            day,
            plan_day: Some(plan_day),
        });
    }
    let course = |schedule: &Schedule, done: &[Done]| {
        Course::of(catalogue, plan, schedule, done, (day, today))
    };
    let usual = course(schedule, &as_planned);
    let let_go = with(How::LetGo(Vec::new()));
    let extras = most_worth(
        catalogue,
        person,
        usize::from(plan_day),
        plan,
        &course(&let_go, done).ahead(day.max(today), plan_day),
    );
    let mut ways = vec![How::Shifted];
    if !extras.is_empty() {
        ways.push(How::LetGo(extras));
    }
    ways.push(How::LetGo(Vec::new()));
    ways.into_iter()
        .map(|how| {
            let effect = usual.against(catalogue, &course(&with(how.clone()), done));
            Choice { how, effect }
        })
        .collect()
}

/// The plan for days with other equipment: the same split for that kit, and what
/// it does to a full week. The plan itself stays as it is and goes on on the day
/// `back`.
///
/// # Errors
/// [`PlanError`] when that kit allows no plan.
pub fn travel(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    kit: &Kit,
    (from, back): (Day, Day),
) -> Result<(Travel, Effect), PlanError> {
    let mut person = Person {
        kit: kit.clone(),
        ..person.clone()
    };
    // The plan's own split, where it is still known.
    person.split = Split::of(&person, &plan.split).map(|split| split.id);
    let mut days = plan_week(catalogue, &person)?.days;
    // A cycle of one's own keeps its length, so that it goes on where it was.
    let planned = days.len();
    while days.len() < plan.days.len() {
        days.push(days[days.len() % planned].clone());
    }
    days.truncate(plan.days.len());
    let effect = Effect {
        sets: differing(catalogue, &plan.days, &days),
        ..Effect::default()
    };
    let travel = Travel {
        from,
        back,
        days,
        kit: Some(kit.clone()),
    };
    Ok((travel, effect))
}

/// Half sets by muscle with a floor, where two lists of days differ.
fn differing(
    catalogue: &Catalogue,
    before: &[PlanDay],
    after: &[PlanDay],
) -> Vec<(Muscle, HalfSets, HalfSets)> {
    let (before, after) = (
        weekly_sets(catalogue, before),
        weekly_sets(catalogue, after),
    );
    let all = Muscle::ALL
        .iter()
        .filter(|&&muscle| dose::size(muscle) != dose::Size::Minor);
    all.map(|muscle| {
        let of = |sets: &crate::plan::WeeklySets| sets.get(muscle).copied().unwrap_or(0);
        (*muscle, of(&before), of(&after))
    })
    .filter(|(_, before, after)| before != after)
    .collect()
}

/// How the sessions run in the two weeks before a day and the two after it.
struct Course {
    /// The day that is settled.
    day: Day,
    /// Sessions done or to come, with what they hold.
    sessions: Vec<(Coming, PlanDay)>,
}

impl Course {
    fn of(
        catalogue: &Catalogue,
        plan: &Plan,
        schedule: &Schedule,
        done: &[Done],
        (day, today): (Day, Day),
    ) -> Self {
        let mut found = schedule.between(done, today, day.plus(-14), 28);
        found.retain(|c| matches!(c.state, State::Done | State::Due | State::Coming));
        let sessions = found.iter().filter_map(|&coming| {
            let plan_day = coming.plan_day?;
            let before = |c: &&Coming| c.plan_day == coming.plan_day && c.day < coming.day;
            let last = found.iter().filter(before).map(|c| c.day).max();
            let repairs = &schedule.repairs;
            let held = repairs.day_of(catalogue, plan, plan_day, coming.day, last)?;
            Some((coming, held))
        });
        Self {
            day,
            sessions: sessions.collect(),
        }
    }

    /// Coming sessions that may take on work of the plan day, until it comes
    /// round again.
    fn ahead(&self, from: Day, plan_day: u8) -> Vec<(u8, PlanDay)> {
        let end = from.plus(i32::from(WITHIN_DAYS));
        let mut found: Vec<(u8, PlanDay)> = Vec::new();
        for (coming, held) in &self.sessions {
            let is_ahead = coming.state != State::Done && coming.day >= from && coming.day <= end;
            let Some(other) = coming.plan_day.filter(|_| is_ahead) else {
                continue;
            };
            if other == plan_day {
                break;
            }
            if found.iter().all(|(there, _)| *there != other) {
                found.push((other, held.clone()));
            }
        }
        found
    }

    /// What another course does, against this.
    fn against(&self, catalogue: &Catalogue, other: &Self) -> Effect {
        let is_near = |day: Day| (0..i32::from(WITHIN_DAYS)).contains(&day.days_since(self.day));
        let week = |course: &Self| -> Vec<PlanDay> {
            let sessions = course.sessions.iter();
            let of_week = sessions.filter(|(coming, _)| is_near(coming.day));
            of_week.map(|(_, held)| held.clone()).collect()
        };
        let mut gap: Option<(Muscle, u8, u8)> = None;
        for &muscle in Muscle::ALL {
            if dose::size(muscle) != dose::Size::Large {
                continue;
            }
            let (usual, now) = (
                self.longest_gap(catalogue, muscle),
                other.longest_gap(catalogue, muscle),
            );
            if now > usual && gap.is_none_or(|(_, before, after)| now - usual > after - before) {
                gap = Some((muscle, usual, now));
            }
        }
        let is_known = |coming: &Coming, held: &PlanDay| {
            self.sessions.iter().any(|(there, as_before)| {
                there.day == coming.day
                    && there.plan_day == coming.plan_day
                    && as_before.seconds == held.seconds
            })
        };
        let changed = other.sessions.iter().filter(|(coming, held)| {
            coming.state != State::Done && is_near(coming.day) && !is_known(coming, held)
        });
        Effect {
            sets: differing(catalogue, &week(self), &week(other)),
            gap,
            sessions: changed
                .filter_map(|(coming, held)| Some((coming.day, coming.plan_day?, held.seconds)))
                .collect(),
        }
    }

    /// Most days between two sessions that train the muscle directly.
    fn longest_gap(&self, catalogue: &Catalogue, muscle: Muscle) -> u8 {
        let trains = |day: &PlanDay| {
            day.items.iter().any(|item| {
                let exercise = catalogue.get(&item.prescription.exercise);
                exercise.is_some_and(|exercise| exercise.prime.contains(&muscle))
            })
        };
        let on: Vec<Day> = self
            .sessions
            .iter()
            .filter(|(_, held)| trains(held))
            .map(|(coming, _)| coming.day)
            .collect();
        let gaps = on.windows(2).map(|pair| pair[1].days_since(pair[0]));
        u8::try_from(gaps.max().unwrap_or(0)).unwrap_or(u8::MAX)
    }
}

/// The sets of a plan day most worth doing in the sessions ahead, within their
/// minutes: by what its muscles would miss, weighed as the planner weighs them,
/// for the time it takes. A session takes on more sets of what it holds, or up to
/// [`MOST_EXTRA`] exercises of the lost day.
fn most_worth(
    catalogue: &Catalogue,
    person: &Person,
    plan_day: usize,
    plan: &Plan,
    ahead: &[(u8, PlanDay)],
) -> Vec<Extra> {
    let Some(lost) = plan.days.get(plan_day) else {
        return Vec::new();
    };
    let mut missing = weekly_sets(catalogue, std::slice::from_ref(lost));
    let mut ahead = ahead.to_vec();
    let mut extras: Vec<Extra> = Vec::new();
    let budget = u32::from(person.minutes) * 60;
    loop {
        let mut best: Option<(i64, usize, Prescription, PlanDay)> = None;
        for (at, (other, held)) in ahead.iter().enumerate() {
            let taken = |extra: &&Extra| {
                let is_own = |day: &PlanDay| {
                    day.items
                        .iter()
                        .any(|i| i.prescription.exercise == extra.prescription.exercise)
                };
                extra.plan_day == *other && !plan.days.get(usize::from(*other)).is_some_and(is_own)
            };
            let is_full = extras.iter().filter(taken).count() >= MOST_EXTRA;
            for item in held.items.iter().chain(&lost.items) {
                let p = &item.prescription;
                let there = held
                    .items
                    .iter()
                    .find(|i| i.prescription.exercise == p.exercise);
                let (sets, has) = there.map_or((SETS.0, 0), |item| (1, item.prescription.sets));
                let Some(exercise) = catalogue.get(&p.exercise) else {
                    continue;
                };
                if has + sets > SETS.1 || (there.is_none() && is_full) {
                    continue;
                }
                let extra = Prescription { sets, ..p.clone() };
                let mut with = held.clone();
                put_in(catalogue, &mut with, std::iter::once(&extra));
                let of_day = weekly_sets(catalogue, std::slice::from_ref(&with));
                let is_too_much = exercise.prime.iter().any(|muscle| {
                    of_day
                        .get(muscle)
                        .is_some_and(|&dose| dose > dose::SESSION_CAP)
                });
                if with.seconds > budget || is_too_much {
                    continue;
                }
                let worth: i64 = exercise
                    .prime
                    .iter()
                    .chain(&exercise.assist)
                    .map(|muscle| {
                        let half_sets = exercise.half_sets_for(*muscle) * u32::from(sets);
                        let lacks = missing.get(muscle).copied().unwrap_or(0);
                        i64::from(half_sets.min(lacks)) * dose::target(*muscle, person).weight
                    })
                    .sum();
                let worth =
                    worth * 1_000 / i64::from(with.seconds.saturating_sub(held.seconds).max(1));
                if worth > 0 && best.as_ref().is_none_or(|(most, ..)| worth > *most) {
                    best = Some((worth, at, extra, with));
                }
            }
        }
        let Some((_, at, extra, with)) = best else {
            return extras;
        };
        if let Some(exercise) = catalogue.get(&extra.exercise) {
            for muscle in exercise.prime.iter().chain(&exercise.assist) {
                let half_sets = exercise.half_sets_for(*muscle) * u32::from(extra.sets);
                let lacks = missing.get_or_insert_with(*muscle, || 0);
                *lacks = lacks.saturating_sub(half_sets);
            }
        }
        let plan_day = ahead[at].0;
        ahead[at].1 = with;
        let same =
            |e: &&mut Extra| e.plan_day == plan_day && e.prescription.exercise == extra.exercise;
        match extras.iter_mut().find(same) {
            Some(there) => there.prescription.sets += extra.sets,
            None => extras.push(Extra {
                plan_day,
                prescription: extra,
            }),
        }
    }
}

#[cfg(test)]
mod tests;
