//! The loom: what the picture of the week shows, in numbers.
//!
//! Start at [`loom`]. A thread for each muscle, a crossing for each day that
//! trains it. Drawing is the app's business.

use crate::calendar::Weekday;
use crate::catalogue::{Catalogue, HalfSets, Muscle};
use crate::log::Performance;
use crate::plan::{Plan, PlanDay};

/// Hours after a session in which a trained muscle is building: 36 to 48
/// (common practice, no source). Protein synthesis was +109 % at 24 h (Chesley
/// et al. 1992, J Appl Physiol 73(4):1383-1388) and back near baseline at 36 h
/// (MacDougall et al. 1995, from memory). It does not predict growth (Mitchell
/// et al. 2014, PLoS ONE, PMC3933567) and no rule rests on it.
pub const GROWTH_WINDOW_H: (u8, u8) = (36, 48);

/// One session's work for one muscle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crossing {
    /// The day of the week.
    pub weekday: Weekday,
    /// Half sets the muscle gets.
    pub half_sets: HalfSets,
    /// Hours the growth window is drawn out: the shorter figure for a light
    /// session of up to two sets, the longer for more (one set 2.3-fold at 5 h
    /// and rest level at 29 h, three sets still 2.3-fold: Burd et al. 2010,
    /// J Physiol, PMC2956949).
    pub window_h: u8,
}

/// A muscle's week.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Thread {
    /// The muscle.
    pub muscle: Muscle,
    /// Half sets in the week.
    pub half_sets: HalfSets,
    /// Sessions that train it, in the week's order.
    pub crossings: Vec<Crossing>,
}

impl Thread {
    /// Hours of the week in a growth window, the turn of the week included.
    #[must_use]
    pub fn window_hours(&self) -> u32 {
        let day = |at: usize| self.crossings[at].weekday.index();
        let until_next = |at: usize| match day((at + 1) % self.crossings.len()) {
            next if next > day(at) => next - day(at),
            next => next + 7 - day(at),
        };
        (0..self.crossings.len())
            .map(|at| {
                let hours = u32::try_from(until_next(at) * 24).unwrap_or(u32::MAX);
                hours.min(self.crossings[at].window_h.into())
            })
            .sum()
    }
}

fn half_sets_of(catalogue: &Catalogue, day: &PlanDay, muscle: Muscle) -> HalfSets {
    day.items
        .iter()
        .filter_map(|item| {
            let exercise = catalogue.get(&item.prescription.exercise)?;
            Some(exercise.half_sets_for(muscle) * HalfSets::from(item.prescription.sets))
        })
        .sum()
}

/// The threads of a plan placed on weekdays, in the order of
/// [`Muscle::ALL`]; muscles the plan does not train are left out. A cycle
/// longer than the week shows its first days.
#[must_use]
pub fn loom(catalogue: &Catalogue, plan: &Plan, weekdays: &[Weekday]) -> Vec<Thread> {
    let thread = |&muscle: &Muscle| {
        let mut crossings = Vec::new();
        for (&weekday, day) in weekdays.iter().zip(plan.days.iter().cycle()) {
            cross(
                &mut crossings,
                weekday,
                half_sets_of(catalogue, day, muscle),
            );
        }
        thread_of(muscle, crossings)
    };
    Muscle::ALL.iter().filter_map(thread).collect()
}

/// The threads of what was done: performances of one week, or of a part of
/// it. Muscles that nothing trained are left out.
#[must_use]
pub fn woven(catalogue: &Catalogue, done: &[Performance]) -> Vec<Thread> {
    let thread = |&muscle: &Muscle| {
        let mut crossings: Vec<Crossing> = Vec::new();
        for performance in done {
            let per_set = catalogue
                .get(performance.exercise())
                .map_or(0, |exercise| exercise.half_sets_for(muscle));
            let sets = HalfSets::try_from(performance.sets.len()).unwrap_or(0);
            cross(&mut crossings, performance.day.weekday(), per_set * sets);
        }
        thread_of(muscle, crossings)
    };
    Muscle::ALL.iter().filter_map(thread).collect()
}

/// Adds to the crossing of a day.
fn cross(crossings: &mut Vec<Crossing>, weekday: Weekday, half_sets: HalfSets) {
    if half_sets == 0 {
        return;
    }
    let at = crossings.iter().position(|c| c.weekday == weekday);
    let crossing = match at {
        Some(at) => &mut crossings[at],
        None => {
            crossings.push(Crossing {
                weekday,
                half_sets: 0,
                window_h: 0,
            });
            let last = crossings.len() - 1;
            &mut crossings[last]
        }
    };
    crossing.half_sets += half_sets;
    let (short, long) = GROWTH_WINDOW_H;
    crossing.window_h = if crossing.half_sets > 4 { long } else { short };
}

fn thread_of(muscle: Muscle, crossings: Vec<Crossing>) -> Option<Thread> {
    let half_sets = crossings.iter().map(|c| c.half_sets).sum();
    (half_sets > 0).then_some(Thread {
        muscle,
        half_sets,
        crossings,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::{Day, Moment};
    use crate::catalogue::ExerciseId;
    use crate::log::{SetEntry, SetKind};
    use crate::plan::{Focus, PlanItem, Prescription, SplitId};
    use crate::units::Load;

    fn day_item() -> Prescription {
        Prescription {
            exercise: ExerciseId::new("barbell-bench-press"),
            sets: 3,
            reps: (6, 10),
            rir: 2,
            rest_s: 150,
        }
    }

    fn day(sets: u8) -> PlanDay {
        PlanDay {
            focus: Focus::FullBody,
            items: vec![PlanItem {
                key: 1,
                prescription: Prescription { sets, ..day_item() },
                superset: None,
                reasons: Vec::new(),
            }],
            seconds: 0,
        }
    }

    fn plan(days: Vec<PlanDay>) -> Plan {
        Plan {
            split: SplitId::new("full-body-twice"),
            days,
            notes: Vec::new(),
        }
    }

    #[test]
    fn a_cycle_repeats_over_the_week_and_indirect_sets_count_half() {
        let catalogue = Catalogue::built_in();
        let days = [Weekday::Monday, Weekday::Wednesday, Weekday::Friday];
        let threads = loom(&catalogue, &plan(vec![day(4), day(2)]), &days);
        let of = |muscle| threads.iter().find(|t| t.muscle == muscle);
        let chest = of(Muscle::Chest).unwrap();
        let counts: Vec<_> = chest.crossings.iter().map(|c| c.half_sets).collect();
        assert_eq!(counts, [8, 4, 8]);
        assert_eq!(chest.half_sets, 20);
        assert_eq!(of(Muscle::Triceps).unwrap().half_sets, 10);
        assert_eq!(of(Muscle::Quadriceps), None);
        let windows: Vec<_> = chest.crossings.iter().map(|c| c.window_h).collect();
        assert_eq!(windows, [48, 36, 48]);
    }

    #[test]
    fn no_days_no_threads() {
        let catalogue = Catalogue::built_in();
        let days = [Weekday::Monday];
        assert!(loom(&catalogue, &plan(Vec::new()), &days).is_empty());
    }

    #[test]
    fn what_was_done_is_summed_by_day() {
        let catalogue = Catalogue::built_in();
        let monday = Day::from_ymd(2026, 3, 2).unwrap();
        let done = |id: &str, day: Day, sets: usize| {
            let set = SetEntry {
                kind: SetKind::Work,
                load: Load::kg(60),
                count: 8,
                rir: None,
                at: Moment(0),
            };
            let mut prescription = day_item();
            prescription.exercise = ExerciseId::new(id);
            Performance {
                day,
                prescription,
                suggested: None,
                is_deload: false,
                sets: vec![set; sets],
                discomfort: None,
            }
        };
        let week = [
            done("barbell-bench-press", monday, 3),
            done("barbell-bench-press", monday, 1),
            done("barbell-bench-press", monday.plus(2), 2),
            done("gone-since", monday, 5),
        ];
        let threads = woven(&catalogue, &week);
        let of = |muscle| threads.iter().find(|t| t.muscle == muscle);
        let chest = of(Muscle::Chest).unwrap();
        let crossings: Vec<_> = chest
            .crossings
            .iter()
            .map(|c| (c.weekday, c.half_sets, c.window_h))
            .collect();
        let expected = [(Weekday::Monday, 8, 48), (Weekday::Wednesday, 4, 36)];
        assert_eq!(crossings, expected);
        assert_eq!(chest.half_sets, 12);
        assert!(of(Muscle::Quadriceps).is_none());
    }
}
