//! The demonstration: twelve weeks of invented logs of the crew of a small
//! weather station on an island, who train in a container.
//!
//! Start at [`changes`]. People, loads and storms are invented and nobody's;
//! what they do with them is not: their weeks come from the planner, their
//! loads from the progression rules and their sets through the session's state
//! machine, so the demonstration shows what the app really does. The same
//! member and day always give the same logs.

mod crew;
mod lifter;

pub use crew::Crew;

use crate::chronicle::{Chronicle, Weighing};
use crate::index::{Derived, History};
use crate::settings::{AcceptedPlan, Settings};
use crate::shelf::Shelf;
use crate::store::{Changes, Store, StoreError};
use crate::wire::WireError;
use lifter::{Dice, Lifter};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, ExerciseId};
use weekloom_engine::order::Map;
use weekloom_engine::plan::{PlanDay, plan_week};
use weekloom_engine::schedule::Repairs;
use weekloom_engine::session::Session;
use weekloom_engine::units::Load;

type Histories = Map<ExerciseId, History>;

/// Weeks of logs.
const WEEKS: i32 = 12;
/// After so many weeks nobody here gets stronger.
const MOST_GAIN: i32 = 52;
/// The week, from nought, in which a storm closes the container for three days.
const STORM_WEEK: i32 = 4;
/// The week, from nought, of lighter training.
const DELOAD_WEEK: i32 = 7;

/// Fills a store with twelve weeks of a member's logs, ending the day before
/// `today`. Meant for an empty store of [`crate::Space::Demo`].
///
/// # Errors
/// [`StoreError::Refused`] when the catalogue has no week for the member.
pub fn changes<S: Shelf>(
    store: &Store<S>,
    catalogue: &Catalogue,
    member: Crew,
    today: Day,
) -> Result<Changes, StoreError> {
    changes_of(store, catalogue, member, today, WEEKS)
}

/// The same over as many weeks as asked for: what years of logs weigh and cost is
/// measured on them.
///
/// # Errors
/// As [`changes`].
pub fn changes_of<S: Shelf>(
    store: &Store<S>,
    catalogue: &Catalogue,
    member: Crew,
    today: Day,
    weeks: i32,
) -> Result<Changes, StoreError> {
    let person = member.person();
    let plan = plan_week(catalogue, &person).map_err(|error| WireError::new("plan", error))?;
    let accepted = AcceptedPlan {
        plan,
        accepted: today.plus(-7 * weeks),
        weekdays: person.days.clone(),
        repairs: Repairs::default(),
    };
    let settings = Settings {
        cautions_read: Some(accepted.accepted),
        ..Settings::default()
    };
    let mut changes = store
        .save_person(&person)?
        .and(store.save_settings(&settings)?)
        .and(store.save_plan(&accepted)?)
        .and(store.save_chronicle(&weighed(member, &accepted, today))?);
    let mut sessions = store.all_sessions();
    for session in train(catalogue, member, &accepted, today, weeks)? {
        changes = changes.and(store.put_session(&session)?);
        sessions.insert(session.id.clone(), session);
    }
    Ok(changes.and(store.derived_changes(sessions)?))
}

/// The station has scales beside the rain gauge, used once in four weeks.
fn weighed(member: Crew, accepted: &AcceptedPlan, today: Day) -> Chronicle {
    let mut dice = Dice::new(58 + member as u64);
    let mut chronicle = Chronicle::default();
    let mut day = accepted.accepted;
    while day < today {
        let swing = dice.between(-9, 9) * 100;
        let weight = Load::clamped(member.weighs().grams() + swing);
        let noon = i64::from(day.epoch_days()) * 24 + 12;
        let weighing = Weighing {
            at: Moment(noon * 3_600_000),
            weight: Some(weight),
        };
        chronicle.weigh(day, weighing);
        day = day.plus(28);
    }
    chronicle
}

/// The sessions of the weeks.
fn train(
    catalogue: &Catalogue,
    member: Crew,
    accepted: &AcceptedPlan,
    today: Day,
    weeks: i32,
) -> Result<Vec<Session>, StoreError> {
    let mut lifter = Lifter::new(catalogue, member);
    // Storms are the island's, not the member's.
    let mut storms = Dice::new(6);
    let mut done = Derived::default();
    let mut sessions = Vec::new();
    let days_in_cycle = u8::try_from(accepted.plan.days.len()).unwrap_or(1);
    let mut next: u8 = 0;
    for day in (0..7 * weeks).map(|n| accepted.accepted.plus(n)) {
        let week = day.days_since(accepted.accepted) / 7;
        let in_week = day.days_since(accepted.accepted) % 7;
        let is_stormy =
            (week == STORM_WEEK && (2..=4).contains(&in_week)) || storms.between(1, 16) == 1;
        if is_stormy || !accepted.weekdays.contains(&day.weekday()) || day >= today {
            continue;
        }
        let is_deload = week == DELOAD_WEEK;
        let planned = planned_day(&accepted.plan.days[usize::from(next)], is_deload);
        let session = lifter
            .session(
                day,
                week.min(MOST_GAIN),
                next,
                is_deload,
                &planned,
                &done.histories,
            )
            .map_err(|refusal| WireError::new("session", refusal))?;
        done.add(&session);
        sessions.push(session);
        next = (next + 1) % days_in_cycle;
    }
    Ok(sessions)
}

/// A day of the plan; about half the sets in a deload (common practice, no
/// source).
fn planned_day(day: &PlanDay, is_deload: bool) -> PlanDay {
    let mut day = day.clone();
    if is_deload {
        for item in &mut day.items {
            item.prescription.sets = item.prescription.sets.div_ceil(2);
        }
    }
    day
}
