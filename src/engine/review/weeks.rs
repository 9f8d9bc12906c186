//! The weeks: sessions, minutes and sets done against those planned.
//!
//! Start at [`read`].

use super::series::count;
use crate::calendar::{Day, Weekday};
use crate::catalogue::{Catalogue, Exercise, HalfSets, Muscle};
use crate::order::Map;
use crate::plan::{Plan, WeeklySets, weekly_sets};
use crate::schedule::Repairs;
use crate::session::{Session, SessionItem};

/// The plan trained by, and the days it was meant for.
#[derive(Debug, Clone, Copy)]
pub struct Planned<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The day from which it counts; what was planned before is not known.
    pub accepted: Day,
    /// The weekdays of its sessions.
    pub weekdays: &'a [Weekday],
    /// What was chosen for days that went otherwise.
    pub repairs: &'a Repairs,
}

/// One week from Monday on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeekDone {
    /// Its first day.
    pub monday: Day,
    /// Sessions finished.
    pub sessions: u32,
    /// Sessions planned up to its end or today; `None` before the plan.
    pub planned: Option<u32>,
    /// Length of its sessions, pauses taken off.
    pub seconds: u32,
    /// Work sets done in them.
    pub sets: u32,
    /// Work sets that those sessions asked for.
    pub asked: u32,
    /// Half sets done for each muscle.
    pub muscles: WeeklySets,
    /// Half sets planned for each muscle. Of a whole week under the plan, those of
    /// its days that were no pause; of a week before it or a lighter one, those
    /// that the sessions which took place asked for.
    pub aims: WeeklySets,
    /// Whether a session of it was part of a deload.
    pub is_deload: bool,
    /// Whether it is not over yet.
    pub is_open: bool,
}

/// Half sets a week that the plan holds for each muscle: those of the cycle,
/// by as many days as are trained in a week.
#[must_use]
pub fn planned_sets(catalogue: &Catalogue, planned: &Planned<'_>) -> WeeklySets {
    let days = count(planned.plan.days.len()).max(1);
    let trained = count(planned.weekdays.len());
    let mut sets = weekly_sets(catalogue, &planned.plan.days);
    let all: Vec<(Muscle, HalfSets)> = sets.iter().map(|(&m, &half)| (m, half)).collect();
    for (muscle, half) in all {
        sets.insert(muscle, half * trained / days);
    }
    sets
}

/// The weeks from the one of `from` to that of `today`, earlier first.
#[must_use]
pub fn read(
    catalogue: &Catalogue,
    sessions: &[Session],
    planned: Option<&Planned<'_>>,
    from: Day,
    today: Day,
) -> Vec<WeekDone> {
    let first = from.monday();
    let weeks = today.days_since(first).max(0) / 7 + 1;
    let mut found: Vec<WeekDone> = (0..weeks)
        .map(|week| {
            let monday = first.plus(7 * week);
            WeekDone {
                monday,
                sessions: 0,
                planned: planned.and_then(|planned| planned_in(planned, monday, from, today)),
                seconds: 0,
                sets: 0,
                asked: 0,
                muscles: Map::new(),
                aims: Map::new(),
                is_deload: false,
                is_open: today.days_since(monday) < 7,
            }
        })
        .collect();
    for session in sessions {
        let place = usize::try_from(session.day.days_since(first)).map(|days| days / 7);
        let Some(week) = place.ok().and_then(|place| found.get_mut(place)) else {
            continue;
        };
        week.sessions += 1;
        week.is_deload |= session.is_deload;
        if session.is_finished() {
            week.seconds += session.duration_s(crate::calendar::Moment::default());
        }
        for item in &session.items {
            let done = count(item.work_sets_done());
            week.sets += done;
            week.asked += u32::from(item.prescription.sets);
            if let Some(exercise) = catalogue.get(&item.prescription.exercise) {
                add(&mut week.muscles, exercise, done);
                add(&mut week.aims, exercise, item.prescription.sets.into());
            }
        }
    }
    if let Some(planned) = planned {
        let sets = planned_sets(catalogue, planned);
        let days = count(planned.weekdays.len()).max(1);
        for week in &mut found {
            if week.monday < planned.accepted || week.is_deload {
                continue;
            }
            let meant = count(meant_days(planned, week.monday).count());
            let share = |(&muscle, &half): (&Muscle, &HalfSets)| (muscle, half * meant / days);
            week.aims = sets.iter().map(share).collect();
        }
    }
    found
}

fn add(sets: &mut WeeklySets, exercise: &Exercise, number: u32) {
    if number == 0 {
        return;
    }
    for &muscle in exercise.prime.iter().chain(&exercise.assist) {
        *sets.get_or_insert_with(muscle, || 0) += exercise.half_sets_for(muscle) * number;
    }
}

/// The days of a week that were meant for training, pauses taken off.
fn meant_days<'a>(planned: &'a Planned<'_>, monday: Day) -> impl Iterator<Item = Day> + 'a {
    (0..7).map(move |n| monday.plus(n)).filter(|day| {
        planned.weekdays.contains(&day.weekday()) && planned.repairs.pause_on(*day).is_none()
    })
}

/// Sessions planned in the week of a Monday, from a day on and up to yesterday:
/// whoever has not trained yet today has missed nothing.
fn planned_in(planned: &Planned<'_>, monday: Day, from: Day, today: Day) -> Option<u32> {
    if monday.plus(7) <= planned.accepted {
        return None;
    }
    let is_over = |day: &Day| *day >= planned.accepted.max(from) && *day < today;
    Some(count(meant_days(planned, monday).filter(is_over).count()))
}

/// Sessions done and planned over the weeks for which both are known. A week
/// with more than was planned makes up for no other.
#[must_use]
pub fn adherence(weeks: &[WeekDone]) -> Option<(u32, u32)> {
    let known = weeks.iter().filter_map(|week| {
        let planned = week.planned?;
        Some((week.sessions.min(planned), planned))
    });
    let (done, planned) = known.fold((0, 0), |sum, week| (sum.0 + week.0, sum.1 + week.1));
    (planned > 0).then_some((done, planned))
}

/// Half sets of a muscle in an average week, over whole weeks without a deload.
#[must_use]
pub fn average_sets(weeks: &[WeekDone], muscle: Muscle) -> Option<HalfSets> {
    let whole = || weeks.iter().filter(|week| !week.is_open && !week.is_deload);
    let number = count(whole().count());
    let sum: HalfSets = whole()
        .filter_map(|week| week.muscles.get(&muscle))
        .copied()
        .sum();
    (sum + number / 2).checked_div(number)
}

/// Work sets left out of the sessions that were done, of those they asked for.
#[must_use]
pub fn sets_asked(sessions: &[Session]) -> (u32, u32) {
    let items = || sessions.iter().flat_map(|session| &session.items);
    let done = items().map(SessionItem::work_sets_done).sum();
    let asked = items().map(|item| u32::from(item.prescription.sets)).sum();
    (count(done), asked)
}
