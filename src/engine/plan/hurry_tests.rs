//! The choice against brute force, and what it promises.

use super::*;
use crate::catalogue::{Catalogue, ExerciseId};
use crate::plan::tests::person;
use crate::plan::{Plan, plan_week, prescribe};

struct Case {
    plan: Plan,
    catalogue: Catalogue,
}

impl Case {
    fn new() -> Self {
        let catalogue = Catalogue::built_in();
        let plan = plan_week(&catalogue, &person()).expect("a week");
        Self { plan, catalogue }
    }

    fn day(&self, day: usize) -> Vec<(&Exercise, u8)> {
        let items = self.plan.days[day].items.iter();
        items
            .map(|item| {
                let exercise = self.catalogue.get(&item.prescription.exercise);
                (exercise.expect("known"), item.prescription.sets)
            })
            .collect()
    }

    /// The other days of the week beside a day of which nothing is done.
    fn beside(&self, today: usize) -> Beside<'_> {
        let others = (0..self.plan.days.len()).filter(|&day| day != today);
        Beside {
            days: others.map(|day| self.day(day)).collect(),
            today: Vec::new(),
        }
    }

    fn open(&self, day: usize) -> Vec<Unfinished<'_>> {
        let items = self.plan.days[day].items.iter();
        items
            .map(|item| Unfinished {
                exercise: self
                    .catalogue
                    .get(&item.prescription.exercise)
                    .expect("known"),
                prescription: &item.prescription,
                left: item.prescription.sets,
                is_ready: false,
                superset: item.superset,
            })
            .collect()
    }
}

/// Every choice of sets, by the plain objective.
fn by_brute_force(problem: &Problem<'_>, pairs: &[(usize, usize)]) -> i64 {
    let n = problem.open.len();
    let mut sets = vec![0_u8; n];
    let mut best = i64::MIN;
    loop {
        if clock(problem.open, &sets, problem.rests, pairs) <= problem.seconds {
            let mut branch = Branch {
                sets: Vec::new(),
                today: problem.week.today,
                covered: problem.week.covered,
                points: -problem.pair_cost(pairs),
                twice_s: 0,
            };
            for (i, &sets) in sets.iter().enumerate() {
                let before = branch.clone();
                for k in 0..sets {
                    branch.points += problem.gain(&before, i, u32::from(k));
                    for &(m, one) in &problem.lifts[i].counts {
                        branch.today[m] += one;
                    }
                }
                if let (Some(basic), true) = (problem.lifts[i].basic, sets > 0) {
                    branch.covered[basic] = true;
                }
            }
            best = best.max(branch.points);
        }
        let Some(at) = (0..n).find(|&i| sets[i] < problem.open[i].left) else {
            return best;
        };
        sets[..at].fill(0);
        sets[at] += 1;
    }
}

#[test]
fn the_sets_chosen_are_the_best_there_are() {
    let case = Case::new();
    let person = person();
    let mut compared = 0;
    for day in 0..case.plan.days.len() {
        let open = case.open(day);
        let lifts: Vec<Lift<'_>> = open
            .iter()
            .map(|o| Lift::new(o.exercise, &person))
            .collect();
        let week = Week::new(&person, &case.beside(day));
        let rests: Vec<u16> = open.iter().map(|o| o.prescription.rest_s).collect();
        for seconds in (0..=40 * 60).step_by(240) {
            let problem = Problem {
                open: &open,
                lifts: &lifts,
                week: &week,
                rests: &rests,
                prices: pair_prices(&person),
                seconds,
            };
            let pair = (0..open.len())
                .flat_map(|a| (a + 1..open.len()).map(move |b| (a, b)))
                .find(|&(a, b)| can_share_rests(open[a].exercise, open[b].exercise));
            for pairs in [vec![], pair.into_iter().collect()] {
                // An empty choice may keep a pair that costs; both count it so.
                let found = problem.choose(&pairs);
                assert_eq!(
                    found.points,
                    by_brute_force(&problem, &pairs),
                    "{seconds} s"
                );
                compared += 1;
            }
        }
    }
    assert!(compared >= 60, "{compared}");
}

#[test]
fn it_keeps_to_the_time_and_adds_nothing() {
    let case = Case::new();
    for day in 0..case.plan.days.len() {
        let open = case.open(day);
        let mut points = 0;
        for minutes in 0..=80 {
            let hurry = hurry(&person(), &case.beside(day), &open, minutes * 60);
            assert!(hurry.seconds <= minutes * 60, "{minutes} min");
            let within = |(sets, item): (&u8, &Unfinished<'_>)| *sets <= item.left;
            assert!(hurry.sets.iter().zip(&open).all(within));
            let is_shorter = |(rest, item): (&u16, &Unfinished<'_>)| {
                *rest <= item.prescription.rest_s && *rest >= item.prescription.rest_s / 2
            };
            assert!(hurry.rests.iter().zip(&open).all(is_shorter));
            assert!(hurry.points >= points, "more time is worth no less");
            points = hurry.points;
        }
    }
}

#[test]
fn with_time_enough_nothing_changes() {
    let case = Case::new();
    let open = case.open(0);
    let hurry = hurry(&person(), &case.beside(0), &open, seconds_left(&open));
    let all: Vec<u8> = open.iter().map(|item| item.left).collect();
    let rests: Vec<u16> = open.iter().map(|item| item.prescription.rest_s).collect();
    assert_eq!((hurry.sets, hurry.rests), (all, rests));
    assert_eq!((hurry.pairs, hurry.week), (vec![], vec![]));
}

#[test]
fn no_time_at_all_lets_everything_go() {
    let case = Case::new();
    let open = case.open(0);
    let hurry = hurry(&person(), &case.beside(0), &open, 0);
    assert!(hurry.sets.iter().all(|&sets| sets == 0));
    assert_eq!((hurry.seconds, hurry.points), (0, 0));
    assert!(!hurry.week.is_empty());
    assert!(hurry.week.iter().all(|(_, before, now)| now < before));
}

/// Curls are done on every other day, rows on none: with time for one of them,
/// the row is what the week lacks.
#[test]
fn what_the_week_lacks_goes_first() {
    let catalogue = Catalogue::built_in();
    let of = |slug: &str| catalogue.get(&ExerciseId::new(slug)).expect("known");
    let person = person();
    let (curl, row) = (of("dumbbell-curl"), of("barbell-row"));
    let asked = [prescribe(curl, &person, 3), prescribe(row, &person, 3)];
    let open: Vec<Unfinished<'_>> = [curl, row]
        .iter()
        .zip(&asked)
        .map(|(exercise, prescription)| Unfinished {
            exercise,
            prescription,
            left: 3,
            is_ready: false,
            superset: None,
        })
        .collect();
    let beside = Beside {
        days: vec![vec![(curl, 5)], vec![(curl, 5)]],
        today: vec![(curl, 3)],
    };
    let hurry = hurry(&person, &beside, &open, seconds_left(&open[1..]));
    assert_eq!(hurry.sets[1], 3, "{hurry:?}");
}

#[test]
fn supersets_are_of_light_lifts_that_do_not_compete() {
    let catalogue = Catalogue::built_in();
    let of = |slug: &str| catalogue.get(&ExerciseId::new(slug)).expect("known");
    let can = |a, b| can_share_rests(of(a), of(b));
    assert!(can("dumbbell-curl", "standing-calf-raise"));
    assert!(!can("dumbbell-curl", "dumbbell-curl"));
    assert!(
        !can("back-squat", "dumbbell-curl"),
        "heavy lifts keep their rest"
    );
}
