//! Placing the cycle on the calendar.
//!
//! Start at [`Schedule::upcoming`]. The plan's days are done in cycle order on
//! the chosen weekdays. A missed session is not lost: it is simply the next one
//! to do, unless the person settles it otherwise ([`repair`] offers how). Pauses
//! and travel are kept in [`Repairs`] as well. This module never asks what day it
//! is; `today` is always given.

pub mod repair;
mod settled;

pub use settled::{Extra, How, Pause, Repairs, Settled, Travel};

use crate::calendar::{Day, Weekday};

/// A cycle of plan days and the weekdays it is laid on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// Days of the plan's cycle, at least 1.
    pub days_in_cycle: u8,
    /// Weekdays on which the person trains.
    pub weekdays: Vec<Weekday>,
    /// First day of the plan. Sessions before it are history: they are shown
    /// but do not move the cycle.
    pub start: Day,
    /// What the person chose for days that went otherwise.
    pub repairs: Repairs,
}

/// A session that was done, of this plan or an earlier one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Done {
    /// The day.
    pub day: Day,
    /// Index of the plan's day; `None` for a session outside the plan.
    pub plan_day: Option<u8>,
}

/// Where a session stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum State {
    /// Was done.
    Done,
    /// Is to be done today.
    Due,
    /// Was to be done on a day that is over.
    Missed,
    /// Lies ahead.
    Coming,
    /// Was moved on to the next training day.
    Shifted,
    /// Was let go.
    LetGo,
}

/// One session on the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Coming {
    /// The day.
    pub day: Day,
    /// Index of the plan's day; `None` for a session done outside the plan.
    pub plan_day: Option<u8>,
    /// Where it stands.
    pub state: State,
}

impl Schedule {
    /// The plan day to do next: the one after the last done and those let go
    /// since, in cycle order; the first when none was. Of two sessions on one day
    /// the later in the list counts as the last.
    #[must_use]
    pub fn next_plan_day(&self, done: &[Done], today: Day) -> u8 {
        self.next_before(done, None, today)
    }

    /// Sessions from today on, over so many days: those done today, the one due
    /// today, and those ahead.
    #[must_use]
    pub fn upcoming(&self, done: &[Done], today: Day, days: u16) -> Vec<Coming> {
        self.between(done, today, today, days)
    }

    /// Sessions over so many days from any day on, missed ones included: a
    /// training weekday since the start, and in no pause, that is over and on
    /// which nothing was done.
    #[must_use]
    pub fn between(&self, done: &[Done], today: Day, from: Day, days: u16) -> Vec<Coming> {
        let mut sessions = Vec::new();
        // The plan day of the next session that lies ahead.
        let mut next = self.next_plan_day(done, today);
        let mut day = today.min(from);
        let end = from.plus(i32::from(days));
        while day < end {
            let mut on_day = Vec::new();
            for session in done.iter().filter(|session| session.day == day) {
                on_day.push(Coming {
                    day,
                    plan_day: session.plan_day,
                    state: State::Done,
                });
            }
            let is_training_day = day >= self.start
                && self.weekdays.contains(&day.weekday())
                && self.repairs.pause_on(day).is_none();
            if on_day.is_empty() && is_training_day {
                let settled = self.repairs.settled_on(day).map(|settled| &settled.how);
                let plan_day = if day < today {
                    self.next_before(done, Some(day), day)
                } else {
                    let plan_day = next;
                    if settled != Some(&How::Shifted) {
                        next = (next + 1) % self.cycle();
                    }
                    plan_day
                };
                let state = match settled {
                    Some(How::Shifted) => State::Shifted,
                    Some(How::LetGo(_)) => State::LetGo,
                    None if day < today => State::Missed,
                    None if day == today => State::Due,
                    None => State::Coming,
                };
                on_day.push(Coming {
                    day,
                    plan_day: Some(plan_day),
                    state,
                });
            }
            if day >= from {
                sessions.extend(on_day);
            }
            day = day.plus(1);
        }
        sessions
    }

    fn cycle(&self) -> u8 {
        self.days_in_cycle.max(1)
    }

    /// The plan day next in turn, going by sessions before a day, or by all, and
    /// by what was let go before another.
    fn next_before(&self, done: &[Done], before: Option<Day>, let_go_before: Day) -> u8 {
        let last = done
            .iter()
            .filter(|session| session.day >= self.start)
            .filter(|session| before.is_none_or(|day| session.day < day))
            .filter_map(|session| {
                let plan_day = session.plan_day.filter(|&d| d < self.cycle())?;
                Some((session.day, plan_day))
            })
            // `max_by_key` keeps the last of equals: the later in the list.
            .max_by_key(|&(day, _)| day);
        let since = last.map_or(self.start, |(day, _)| day.plus(1));
        let let_go = self.repairs.let_go_between(since, let_go_before);
        let next = last.map_or(0, |(_, plan_day)| usize::from(plan_day) + 1) + let_go;
        u8::try_from(next % usize::from(self.cycle())).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Day {
        Day::parse(text).expect(text)
    }

    fn done(days: &[(&str, u8)]) -> Vec<Done> {
        days.iter()
            .map(|&(text, plan_day)| Done {
                day: day(text),
                plan_day: Some(plan_day),
            })
            .collect()
    }

    /// Monday, Wednesday, Friday from Monday 2 November 2026, three plan days.
    fn schedule() -> Schedule {
        Schedule {
            days_in_cycle: 3,
            weekdays: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
            start: day("2026-11-02"),
            repairs: Repairs::default(),
        }
    }

    fn rows(sessions: &[Coming]) -> Vec<(String, Option<u8>, State)> {
        sessions
            .iter()
            .map(|s| (s.day.to_string(), s.plan_day, s.state))
            .collect()
    }

    fn row(text: &str, plan_day: u8, state: State) -> (String, Option<u8>, State) {
        (text.to_owned(), Some(plan_day), state)
    }

    #[test]
    fn the_first_week_starts_with_the_first_day() {
        let sessions = schedule().upcoming(&[], day("2026-11-02"), 7);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-02", 0, State::Due),
                row("2026-11-04", 1, State::Coming),
                row("2026-11-06", 2, State::Coming),
            ]
        );
    }

    #[test]
    fn a_full_week_stays_aligned() {
        let done = done(&[("2026-11-02", 0), ("2026-11-04", 1), ("2026-11-06", 2)]);
        let sessions = schedule().upcoming(&done, day("2026-11-07"), 7);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-09", 0, State::Coming),
                row("2026-11-11", 1, State::Coming),
                row("2026-11-13", 2, State::Coming),
            ]
        );
    }

    #[test]
    fn a_missed_session_is_the_next_to_do() {
        let done = done(&[("2026-11-02", 0)]);
        let sessions = schedule().between(&done, day("2026-11-06"), day("2026-11-02"), 10);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-02", 0, State::Done),
                row("2026-11-04", 1, State::Missed),
                row("2026-11-06", 1, State::Due),
                row("2026-11-09", 2, State::Coming),
                row("2026-11-11", 0, State::Coming),
            ]
        );
    }

    #[test]
    fn today_done_is_not_due_again() {
        let done = done(&[("2026-11-02", 0)]);
        let sessions = schedule().upcoming(&done, day("2026-11-02"), 3);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-02", 0, State::Done),
                row("2026-11-04", 1, State::Coming),
            ]
        );
    }

    #[test]
    fn a_session_on_a_rest_day_counts() {
        let done = done(&[("2026-11-02", 0), ("2026-11-03", 1)]);
        let sessions = schedule().upcoming(&done, day("2026-11-04"), 1);
        assert_eq!(rows(&sessions), [row("2026-11-04", 2, State::Due)]);
        assert_eq!(schedule().upcoming(&done, day("2026-11-05"), 1), []);
    }

    #[test]
    fn of_two_sessions_a_day_the_later_leads_on() {
        let done = done(&[("2026-11-02", 0), ("2026-11-02", 1)]);
        let sessions = schedule().upcoming(&done, day("2026-11-02"), 3);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-02", 0, State::Done),
                row("2026-11-02", 1, State::Done),
                row("2026-11-04", 2, State::Coming),
            ]
        );
    }

    #[test]
    fn a_free_session_leaves_the_cycle_alone() {
        let mut done = done(&[("2026-11-02", 0)]);
        done.push(Done {
            day: day("2026-11-03"),
            plan_day: None,
        });
        assert_eq!(schedule().next_plan_day(&done, day("2026-12-31")), 1);
    }

    #[test]
    fn a_new_plan_in_mid_week_starts_with_its_first_day() {
        let done = done(&[("2026-11-02", 0), ("2026-11-04", 1)]);
        let changed = Schedule {
            days_in_cycle: 2,
            start: day("2026-11-05"),
            ..schedule()
        };
        let sessions = changed.between(&done, day("2026-11-05"), day("2026-11-02"), 8);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-02", 0, State::Done),
                row("2026-11-04", 1, State::Done),
                row("2026-11-06", 0, State::Coming),
                row("2026-11-09", 1, State::Coming),
            ]
        );
    }

    #[test]
    fn changed_weekdays_keep_the_place_in_the_cycle() {
        let done = done(&[("2026-11-02", 0), ("2026-11-04", 1)]);
        let changed = Schedule {
            weekdays: vec![Weekday::Tuesday, Weekday::Saturday],
            ..schedule()
        };
        let sessions = changed.upcoming(&done, day("2026-11-05"), 8);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-07", 2, State::Coming),
                row("2026-11-10", 0, State::Coming),
            ]
        );
    }

    #[test]
    fn months_and_years_end() {
        let schedule = Schedule {
            days_in_cycle: 2,
            weekdays: vec![Weekday::Thursday, Weekday::Friday],
            start: day("2026-12-01"),
            repairs: Repairs::default(),
        };
        let done = done(&[("2026-12-25", 0)]);
        let sessions = schedule.upcoming(&done, day("2026-12-31"), 9);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-12-31", 1, State::Due),
                row("2027-01-01", 0, State::Coming),
                row("2027-01-07", 1, State::Coming),
                row("2027-01-08", 0, State::Coming),
            ]
        );
        let leap = Schedule {
            start: day("2028-02-01"),
            weekdays: vec![Weekday::Tuesday],
            ..schedule
        };
        let sessions = leap.upcoming(&[], day("2028-02-29"), 8);
        assert_eq!(
            rows(&sessions),
            [
                row("2028-02-29", 0, State::Due),
                row("2028-03-07", 1, State::Coming),
            ]
        );
    }

    #[test]
    fn nothing_is_missed_before_the_start() {
        let sessions = schedule().between(&[], day("2026-11-03"), day("2026-10-26"), 8);
        assert_eq!(rows(&sessions), [row("2026-11-02", 0, State::Missed)]);
    }

    #[test]
    fn a_window_ahead_counts_the_sessions_before_it() {
        let sessions = schedule().between(&[], day("2026-11-02"), day("2026-11-09"), 3);
        assert_eq!(
            rows(&sessions),
            [
                row("2026-11-09", 0, State::Coming),
                row("2026-11-11", 1, State::Coming),
            ]
        );
    }

    #[test]
    fn no_weekdays_means_no_sessions() {
        let idle = Schedule {
            weekdays: Vec::new(),
            ..schedule()
        };
        assert_eq!(idle.upcoming(&[], day("2026-11-02"), 60), []);
    }
}
