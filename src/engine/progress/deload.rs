//! When a lighter week is worth proposing. The trainee decides.
//!
//! Start at [`training_since`], [`WeeksSinceDeload::since`] and
//! [`deload_advice`]; [`DeloadAnswer`] is what the trainee said to it. Coached lifters
//! deload every 5.6 weeks, give or take 2.3, for 6.4 days, give or take 1.7,
//! when they stall, are sore or their joints ache (Rogerson et al. 2024, Sports
//! Med Open 10:26). That it makes anybody stronger is not shown: one week off in
//! the middle of nine cost strength (Coleman et al. 2024, PeerJ 12:e16777), so
//! it is proposed late rather than early, and as a lighter week, never as a week
//! off.

use super::layoff::LAYOFF_DAYS;
use super::record::{Bout, Effort, Record};
use crate::calendar::Day;
use crate::catalogue::{Catalogue, ExerciseId, Loading};
use crate::load::Direction;
use crate::log::Performance;
use crate::order::Set;

/// Weeks of training before which none is proposed: one standard deviation
/// below the mean, rounded up (Rogerson et al. 2024, Sports Med Open 10:26).
pub const EARLIEST_WEEKS: u32 = 4;
/// Weeks of training after which one is proposed without further signs: one
/// standard deviation above the mean, rounded (Rogerson et al. 2024, Sports Med
/// Open 10:26).
pub const LATEST_WEEKS: u32 = 8;
/// Days a deload lasts: a week, near the mean (Rogerson et al. 2024, Sports Med
/// Open 10:26).
pub const DELOAD_DAYS: u32 = 7;
/// Days of history that show all signs there may be (definition): three weeks,
/// and three before them to compare with.
pub const SIGN_DAYS: i32 = 2 * STALL_DAYS;
/// Days after a refusal in which no lighter week is proposed (common practice,
/// no source).
const QUIET_DAYS: i32 = 14;
/// Weeks without anything new that make a stall (common practice, no source).
const STALL_DAYS: i32 = 21;
/// Sessions of an exercise in that time that are enough to tell (common
/// practice, no source).
const STALL_SESSIONS: usize = 3;
/// Days in which a note of discomfort counts (common practice, no source).
const SORE_DAYS: i32 = 14;
/// Exercises that must show a sign before it counts (common practice, no
/// source): one alone is that exercise's own business.
const FEW: usize = 2;

/// What the weeks since the last deload, or the last layoff, looked like.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeeksSinceDeload {
    /// Whole weeks of training.
    pub weeks: u32,
    /// Exercises done often enough in the last three weeks to tell.
    pub followed: Vec<ExerciseId>,
    /// Of those, the ones that showed neither more load nor more reps.
    pub stalled: Vec<ExerciseId>,
    /// Of those, the ones that were harder than aimed at in the last two
    /// sessions.
    pub harder: Vec<ExerciseId>,
    /// Exercises with a note of discomfort in the last two weeks.
    pub sore: Vec<ExerciseId>,
}

/// Why a lighter week is proposed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DeloadReason {
    /// The block has one this week.
    Block,
    /// So many weeks of training without one.
    Planned {
        /// Weeks.
        weeks: u32,
    },
    /// Half of the exercises or more show nothing new.
    Stalled {
        /// Which.
        exercises: Vec<ExerciseId>,
    },
    /// Half of the exercises or more were harder than aimed at, twice running.
    Harder {
        /// Which.
        exercises: Vec<ExerciseId>,
    },
    /// Several exercises hurt.
    Sore {
        /// Which.
        exercises: Vec<ExerciseId>,
    },
}

/// What the trainee said to the last proposal of a lighter week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DeloadAnswer {
    /// Yes; this is the first of its days.
    Taken(Day),
    /// Not now, said on this day.
    Declined(Day),
}

impl DeloadAnswer {
    /// The last day of the lighter week, on the days that belong to it.
    #[must_use]
    pub fn lasts_until(self, today: Day) -> Option<Day> {
        let Self::Taken(first) = self else {
            return None;
        };
        let last = first.plus(LAST_DAY);
        (first <= today && today <= last).then_some(last)
    }

    /// Whether to propose nothing for now.
    #[must_use]
    pub fn is_quiet(self, today: Day) -> bool {
        match self {
            Self::Taken(_) => self.lasts_until(today).is_some(),
            Self::Declined(day) => (0..QUIET_DAYS).contains(&today.days_since(day)),
        }
    }
}

/// From the first to the last day of a deload (definition).
#[expect(clippy::cast_possible_wrap, reason = "a week")]
const LAST_DAY: i32 = DELOAD_DAYS as i32 - 1;

/// The first day of the training that reaches until today without a deload or
/// time off. `days` are those trained on, in any order, and whether in a
/// deload; a lighter week that was taken counts as one, trained in or not.
#[must_use]
pub fn training_since(
    mut days: Vec<(Day, bool)>,
    answer: Option<DeloadAnswer>,
    today: Day,
) -> Option<Day> {
    if let Some(DeloadAnswer::Taken(first)) = answer {
        days.push((first.plus(LAST_DAY), true));
    }
    days.retain(|&(day, _)| day <= today);
    crate::order::sort(&mut days);
    let mut start: Option<Day> = None;
    let mut before: Option<Day> = None;
    for (day, is_deload) in days {
        let is_gap = before.is_some_and(|before| is_layoff(before, day));
        if is_deload {
            start = None;
        } else if start.is_none() || is_gap {
            start = Some(day);
        }
        before = Some(day);
    }
    let is_away = before.is_none_or(|before| is_layoff(before, today));
    start.filter(|_| !is_away)
}

/// Whole weeks from the first day of training until today.
fn weeks_since(start: Day, today: Day) -> u32 {
    u32::try_from(today.days_since(start) / 7).unwrap_or(0)
}

/// Whether signs may call for a lighter week yet: before, no history needs to be
/// read.
#[must_use]
pub fn is_long_since(start: Day, today: Day) -> bool {
    weeks_since(start, today) >= EARLIEST_WEEKS
}

impl WeeksSinceDeload {
    /// Reads a history of all exercises, in any order.
    #[must_use]
    pub fn read(catalogue: &Catalogue, history: &[Performance], today: Day) -> Self {
        let days = history
            .iter()
            .filter(|p| !p.sets.is_empty())
            .map(|p| (p.day, p.is_deload))
            .collect();
        let start = training_since(days, None, today);
        Self::since(catalogue, start, history, today)
    }

    /// Reads the signs since the first day of training out of a history that
    /// holds the last [`SIGN_DAYS`] or more.
    #[must_use]
    pub fn since(
        catalogue: &Catalogue,
        start: Option<Day>,
        history: &[Performance],
        today: Day,
    ) -> Self {
        let mut found = Self {
            weeks: 0,
            followed: Vec::new(),
            stalled: Vec::new(),
            harder: Vec::new(),
            sore: Vec::new(),
        };
        let Some(start) = start else {
            return found;
        };
        found.weeks = weeks_since(start, today);
        let recent: Vec<Performance> = history
            .iter()
            .filter(|p| p.day >= start && p.day <= today)
            .cloned()
            .collect();
        let ids: Set<ExerciseId> = recent.iter().map(|p| p.exercise().clone()).collect();
        for id in &ids {
            let is_sore = recent.iter().any(|p| {
                p.exercise() == id && p.discomfort.is_some() && today.days_since(p.day) <= SORE_DAYS
            });
            if is_sore {
                found.sore.push(id.clone());
            }
            let Some(exercise) = catalogue.get(id) else {
                continue;
            };
            let direction = match exercise.loading {
                Loading::Bodyweight | Loading::Band => None,
                Loading::Assisted => Some(Direction::LessIsHarder),
                _ => Some(Direction::MoreIsHarder),
            };
            let bouts = Record::read(id, &recent, direction).bouts;
            let aim = |bout: &Bout| {
                let same_day = |p: &&Performance| p.day == bout.day && p.exercise() == id;
                recent
                    .iter()
                    .find(same_day)
                    .map_or(0, |p| p.prescription.rir)
            };
            let split = bouts.partition_point(|bout| today.days_since(bout.day) > STALL_DAYS);
            let (earlier, later) = bouts.split_at(split);
            if later.len() < STALL_SESSIONS || earlier.is_empty() {
                continue;
            }
            found.followed.push(id.clone());
            if !later.iter().any(|bout| is_new(bout, earlier, direction)) {
                found.stalled.push(id.clone());
            }
            let is_harder = |bout: &Bout| bout.effort(aim(bout)) == Effort::Harder;
            if later.iter().rev().take(2).all(is_harder) {
                found.harder.push(id.clone());
            }
        }
        found
    }
}

fn is_layoff(from: Day, to: Day) -> bool {
    u32::try_from(to.days_since(from)).is_ok_and(|days| days >= LAYOFF_DAYS)
}

/// Whether a session showed a harder load, or more reps in all at a load no
/// easier, than any earlier one.
fn is_new(bout: &Bout, earlier: &[Bout], direction: Option<Direction>) -> bool {
    let is_harder = |a: &Bout, b: &Bout| match direction {
        Some(Direction::MoreIsHarder) => a.load > b.load,
        Some(Direction::LessIsHarder) => a.load < b.load,
        None => false,
    };
    let total = |bout: &Bout| {
        bout.sets
            .iter()
            .map(|&(count, _)| u32::from(count))
            .sum::<u32>()
    };
    earlier
        .iter()
        .all(|old| is_harder(bout, old) || (!is_harder(old, bout) && total(bout) > total(old)))
}

/// Whether a lighter week is worth proposing, and why. Signs come before the
/// calendar, and nothing is proposed before [`EARLIEST_WEEKS`].
#[must_use]
pub fn deload_advice(since: &WeeksSinceDeload) -> Option<DeloadReason> {
    if since.weeks < EARLIEST_WEEKS {
        return None;
    }
    let is_many =
        |signs: &[ExerciseId]| signs.len() >= FEW && signs.len() * 2 >= since.followed.len();
    if since.sore.len() >= FEW {
        Some(DeloadReason::Sore {
            exercises: since.sore.clone(),
        })
    } else if is_many(&since.harder) {
        Some(DeloadReason::Harder {
            exercises: since.harder.clone(),
        })
    } else if is_many(&since.stalled) {
        Some(DeloadReason::Stalled {
            exercises: since.stalled.clone(),
        })
    } else if since.weeks >= LATEST_WEEKS {
        Some(DeloadReason::Planned { weeks: since.weeks })
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::log::{Discomfort, SetEntry, SetKind};
    use crate::plan::Prescription;
    use crate::units::Load;

    const LIFTS: [&str; 3] = ["back-squat", "barbell-bench-press", "barbell-row"];

    fn day(n: i32) -> Day {
        Day::from_ymd(2026, 9, 1).unwrap().plus(n)
    }

    /// Twice a week for so many weeks; the load grows by `step` grams each time.
    fn weeks(weeks: i32, step: i64, rir: u8) -> Vec<Performance> {
        let mut history = Vec::new();
        for session in 0..weeks * 2 {
            for id in LIFTS {
                let set = SetEntry {
                    kind: SetKind::Work,
                    load: Load::clamped(60_000 + i64::from(session) * step),
                    count: 8,
                    rir: Some(rir),
                    at: Moment(0),
                };
                history.push(Performance {
                    day: day(session / 2 * 7 + session % 2 * 3),
                    prescription: Prescription {
                        exercise: ExerciseId::new(id),
                        sets: 3,
                        reps: (8, 12),
                        rir: 2,
                        rest_s: 120,
                    },
                    suggested: None,
                    is_deload: false,
                    sets: vec![set; 3],
                    discomfort: None,
                });
            }
        }
        history
    }

    fn advice(history: &[Performance], today: i32) -> Option<&'static str> {
        let catalogue = Catalogue::built_in();
        let since = WeeksSinceDeload::read(&catalogue, history, day(today));
        deload_advice(&since).map(|reason| match reason {
            DeloadReason::Block => "block",
            DeloadReason::Planned { .. } => "planned",
            DeloadReason::Stalled { .. } => "stalled",
            DeloadReason::Harder { .. } => "harder",
            DeloadReason::Sore { .. } => "sore",
        })
    }

    /// One standard deviation around the mean of Rogerson et al. 2024, Sports
    /// Med Open 10:26.
    #[test]
    fn weeks_of_progress_call_for_one_at_the_latest_only() {
        let good = weeks(12, 1_000, 2);
        for today in 0..80 {
            let upto: Vec<_> = good
                .iter()
                .filter(|p| p.day < day(today))
                .cloned()
                .collect();
            let expected = (today >= 56).then_some("planned");
            assert_eq!(advice(&upto, today), expected, "day {today}");
        }
    }

    #[test]
    fn signs_call_for_one_earlier_but_not_at_once() {
        assert_eq!(advice(&weeks(6, 0, 2), 40), Some("stalled"));
        assert_eq!(advice(&weeks(6, 1_000, 1), 40), Some("harder"));
        let mut sore = weeks(6, 1_000, 2);
        for performance in sore.iter_mut().rev().take(2) {
            performance.discomfort = Some(Discomfort::Mild);
        }
        assert_eq!(advice(&sore, 40), Some("sore"));
        // One exercise alone is its own business.
        sore.last_mut().unwrap().discomfort = None;
        assert_eq!(advice(&sore, 40), None);
        assert_eq!(advice(&weeks(3, 0, 1), 20), None);
    }

    #[test]
    fn the_last_weeks_show_the_same_signs() {
        let catalogue = Catalogue::built_in();
        for (step, rir) in [(0, 2), (1_000, 1), (1_000, 2)] {
            let history = weeks(7, step, rir);
            let today = day(48);
            let whole = WeeksSinceDeload::read(&catalogue, &history, today);
            let late: Vec<_> = history
                .iter()
                .filter(|p| today.days_since(p.day) <= SIGN_DAYS)
                .cloned()
                .collect();
            let start = Some(day(0));
            let part = WeeksSinceDeload::since(&catalogue, start, &late, today);
            assert_eq!(part, whole);
            assert_eq!(part.weeks, 6);
        }
    }

    #[test]
    fn an_answer_holds_for_its_days() {
        let taken = DeloadAnswer::Taken(day(10));
        let declined = DeloadAnswer::Declined(day(10));
        for today in 0..40 {
            let is_within = (10..17).contains(&today);
            assert_eq!(taken.lasts_until(day(today)), is_within.then_some(day(16)));
            assert_eq!(taken.is_quiet(day(today)), is_within);
            assert_eq!(declined.lasts_until(day(today)), None);
            assert_eq!(declined.is_quiet(day(today)), (10..24).contains(&today));
        }
    }

    /// Taken and then not trained in, it is a lighter week all the same.
    #[test]
    fn a_week_taken_starts_the_count_anew() {
        let days: Vec<_> = (0..60).step_by(3).map(|n| (day(n), false)).collect();
        let since = |answer, today| training_since(days.clone(), answer, day(today));
        assert_eq!(since(None, 57), Some(day(0)));
        assert_eq!(
            since(Some(DeloadAnswer::Declined(day(30))), 57),
            Some(day(0))
        );
        let taken = Some(DeloadAnswer::Taken(day(30)));
        assert_eq!(since(taken, 57), Some(day(39)));
        assert!(is_long_since(day(0), day(28)) && !is_long_since(day(0), day(27)));
    }

    #[test]
    fn a_deload_or_time_off_starts_the_count_anew() {
        let mut history = weeks(12, 1_000, 2);
        for performance in &mut history {
            let week = performance.day.days_since(day(0)) / 7;
            performance.is_deload = week == 6;
        }
        assert_eq!(advice(&history, 81), None);
        // Five weeks, then three off: nobody needs a lighter week on top.
        assert_eq!(advice(&weeks(5, 0, 1), 60), None);
        let catalogue = Catalogue::built_in();
        let since = WeeksSinceDeload::read(&catalogue, &weeks(5, 0, 1), day(60));
        assert_eq!(since.weeks, 0);
        assert_eq!(advice(&[], 60), None);
    }
}
