//! What the person chose where the calendar went otherwise.
//!
//! Start at [`Repairs`].

use crate::calendar::Day;
use crate::catalogue::{Catalogue, ExerciseId, Kind};
use crate::kit::Kit;
use crate::plan::{Plan, PlanDay, PlanItem, Prescription, time};

/// How a training day without a session was settled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum How {
    /// Its session waits for the next training day, and all others after it.
    Shifted,
    /// Its session is let go; the next takes its turn. What mattered most of it
    /// may go into coming sessions.
    LetGo(Vec<Extra>),
}

/// Sets of a session that was let go, put into a coming one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Extra {
    /// The plan day whose next session takes them.
    pub plan_day: u8,
    /// What to do; sets of an exercise that the day holds already come on top of
    /// its own.
    pub prescription: Prescription,
}

/// A training day that was settled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settled {
    /// The day.
    pub day: Day,
    /// The day on which the person chose.
    pub chosen: Day,
    /// How.
    pub how: How,
}

/// Days without training; nothing is owed for them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pause {
    /// The first day.
    pub from: Day,
    /// The day on which training goes on.
    pub resume: Day,
}

/// Days with other equipment, and the plan for them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Travel {
    /// The first day.
    pub from: Day,
    /// The day on which the usual plan goes on.
    pub back: Day,
    /// The cycle's days as planned for that equipment.
    pub days: Vec<PlanDay>,
    /// The equipment; `None` where it was not kept, as once.
    pub kit: Option<Kit>,
}

/// Days after which extra work that was not done is forgotten (the project's own
/// judgement).
const TAKEN_UP_DAYS: i32 = 14;

/// Every choice, oldest first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Repairs {
    /// Training days that were settled, each once.
    pub settled: Vec<Settled>,
    /// A pause, the latest there was.
    pub pause: Option<Pause>,
    /// A journey, the latest there was.
    pub travel: Option<Travel>,
}

impl Repairs {
    /// How a day was settled.
    #[must_use]
    pub fn settled_on(&self, day: Day) -> Option<&Settled> {
        self.settled.iter().find(|settled| settled.day == day)
    }

    /// The pause a day lies in.
    #[must_use]
    pub fn pause_on(&self, day: Day) -> Option<Pause> {
        self.pause.filter(|p| p.from <= day && day < p.resume)
    }

    /// The journey a day lies in.
    #[must_use]
    pub fn travel_on(&self, day: Day) -> Option<&Travel> {
        self.travel
            .as_ref()
            .filter(|t| t.from <= day && day < t.back)
    }

    /// Sessions let go from a day on and before another.
    pub(super) fn let_go_between(&self, from: Day, before: Day) -> usize {
        let counts =
            |s: &&Settled| from <= s.day && s.day < before && matches!(s.how, How::LetGo(_));
        self.settled.iter().filter(counts).count()
    }

    /// Settles a day, anew where it was settled before, and forgets what lies
    /// more than four weeks back: it moves nothing any more (the project's own
    /// judgement).
    pub fn settle(&mut self, settled: Settled) {
        let old = settled.chosen.plus(-28);
        self.settled
            .retain(|s| s.day != settled.day && s.day >= old);
        self.settled.push(settled);
    }

    /// The plan's day as it is to be done on a date: for the kit of the journey,
    /// and with what was put into it. `last` is when that plan day was done last
    /// before the date or, on days ahead, comes last before it: it takes on extra
    /// work once.
    #[must_use]
    pub fn day_of(
        &self,
        catalogue: &Catalogue,
        plan: &Plan,
        plan_day: u8,
        date: Day,
        last: Option<Day>,
    ) -> Option<PlanDay> {
        let travel = self.travel_on(date).map(|travel| &travel.days);
        let days = travel.unwrap_or(&plan.days);
        let mut day = days.get(usize::from(plan_day))?.clone();
        for settled in &self.settled {
            let from = settled.day.max(settled.chosen);
            let is_past = last.is_some_and(|last| last >= from) || date < from;
            let is_stale = date.days_since(from) > TAKEN_UP_DAYS;
            if let (How::LetGo(extras), false) = (&settled.how, is_past || is_stale) {
                let of_day = extras.iter().filter(|extra| extra.plan_day == plan_day);
                put_in(catalogue, &mut day, of_day.map(|extra| &extra.prescription));
            }
        }
        Some(day)
    }
}

/// Puts more work into a day: on top of what it holds of an exercise, else after
/// its compound lifts, or at the end.
pub(super) fn put_in<'a>(
    catalogue: &Catalogue,
    day: &mut PlanDay,
    extras: impl Iterator<Item = &'a Prescription>,
) {
    for extra in extras {
        let same = |item: &&mut PlanItem| item.prescription.exercise == extra.exercise;
        if let Some(item) = day.items.iter_mut().find(same) {
            item.prescription.sets += extra.sets;
            continue;
        }
        let is_compound = |exercise: &ExerciseId| {
            let exercise = catalogue.get(exercise);
            exercise.is_some_and(|exercise| exercise.kind == Kind::Compound)
        };
        let last = |item: &PlanItem| is_compound(&item.prescription.exercise);
        let at = match day.items.iter().rposition(last) {
            Some(last) if is_compound(&extra.exercise) => last + 1,
            _ => day.items.len(),
        };
        let key = day.items.iter().map(|item| item.key).max().unwrap_or(0) + 1;
        day.items.insert(
            at,
            PlanItem {
                key,
                prescription: extra.clone(),
                superset: None,
                reasons: Vec::new(),
            },
        );
    }
    day.seconds = time::session_seconds(catalogue, &day.items);
}
