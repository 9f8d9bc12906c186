//! The course of the sessions: what comes when, what it holds, and what the
//! person chose where it went otherwise.
//!
//! The sums are the engine's; this gathers what they need from the app.

use crate::held::untracked;
use crate::state::App;
use weekloom_engine::calendar::Day;
use weekloom_engine::plan::PlanDay;
use weekloom_engine::schedule::repair::{Choice, options};
use weekloom_engine::schedule::{Coming, Done, How, Repairs, Schedule, Settled, State};
use weekloom_store::{AcceptedPlan, SessionLine};

impl App {
    /// The plan, how it is laid on the calendar, and what was done.
    fn laid(self) -> Option<(AcceptedPlan, Schedule, Vec<Done>)> {
        let accepted = self.plan.get()?;
        let done = self.index.with(|index| {
            let done = |line: &SessionLine| Done {
                day: line.day,
                plan_day: line.plan_day,
            };
            index.recent.iter().map(done).collect()
        });
        let schedule = Schedule {
            days_in_cycle: u8::try_from(accepted.plan.days.len()).unwrap_or(1),
            weekdays: accepted.weekdays.clone(),
            start: accepted.accepted,
            repairs: accepted.repairs.clone(),
        };
        Some((accepted, schedule, done))
    }

    /// Sessions of the plan over so many days from a day on, done and missed
    /// ones included.
    #[must_use]
    pub fn coming(self, from: Day, days: u16) -> Vec<Coming> {
        let today = self.today.get();
        self.laid().map_or_else(Vec::new, |(_, schedule, done)| {
            schedule.between(&done, today, from, days)
        })
    }

    /// What a session holds: on a journey by its plan, and with what was put
    /// into it.
    #[must_use]
    pub fn planned(self, plan_day: u8, on: Day) -> Option<PlanDay> {
        let (accepted, schedule, done) = self.laid()?;
        let before = schedule.between(&done, self.today.get(), on.plus(-14), 14);
        let is_same = |c: &&Coming| {
            let is_held = matches!(c.state, State::Done | State::Due | State::Coming);
            is_held && c.plan_day == Some(plan_day)
        };
        let last = before.iter().filter(is_same).map(|c| c.day).max();
        accepted
            .repairs
            .day_of(self.catalogue(), &accepted.plan, plan_day, on, last)
    }

    /// The ways to settle the session of a day.
    #[must_use]
    pub fn ways(self, day: Day) -> Vec<Choice> {
        let laid = untracked(&|| self.laid());
        let (Some((accepted, schedule, done)), Some(person)) = (laid, self.person.get_untracked())
        else {
            return Vec::new();
        };
        let at = (day, self.today.get_untracked());
        let of = (&accepted.plan, &schedule);
        options(self.catalogue(), &person, of, &done, at)
    }

    /// Settles the session of a day.
    pub fn settle(self, day: Day, how: &How) {
        let chosen = self.today.get_untracked();
        self.repair(&|repairs| {
            repairs.settle(Settled {
                day,
                chosen,
                how: how.clone(),
            });
        });
    }

    /// Changes what the person chose for the calendar, and keeps it.
    pub fn repair(self, change: &dyn Fn(&mut Repairs)) {
        let Some(mut accepted) = self.plan.get_untracked() else {
            return;
        };
        change(&mut accepted.repairs);
        self.take_up_plan(accepted);
    }
}
