//! The planner against the structures and values it promises.

use super::*;
use crate::calendar::Weekday;
use crate::kit::Kit;
use crate::order::Set;
use crate::person::{Priority, Status};
use crate::units::Unit;
use std::collections::BTreeSet;

/// Three days, an hour, a full gym, some months of training.
pub(crate) fn person() -> Person {
    Person {
        days: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
        minutes: 65,
        kit: Kit::full_gym(),
        status: Status::Intermediate,
        is_older: false,
        priorities: Map::new(),
        excluded: Set::new(),
        disliked: Set::new(),
        joint_limits: Set::new(),
        split: None,
        own_splits: Vec::new(),
        unit: Unit::Kg,
        rules: Map::new(),
    }
}

fn on(days: u8) -> Vec<Weekday> {
    let indices: &[usize] = match days {
        1 => &[5],
        2 => &[0, 3],
        3 => &[0, 2, 4],
        4 => &[0, 1, 3, 4],
        5 => &[0, 1, 2, 4, 5],
        6 => &[0, 1, 2, 3, 4, 5],
        _ => &[0, 1, 2, 3, 4, 5, 6],
    };
    indices.iter().map(|&i| Weekday::from_index(i)).collect()
}

fn with_split(slug: &str, minutes: u16) -> Person {
    Person {
        split: Some(SplitId::new(slug)),
        minutes,
        ..person()
    }
}

fn direct_per_day(plan: &Plan, catalogue: &Catalogue, muscle: Muscle) -> Vec<u32> {
    plan.days
        .iter()
        .map(|day| {
            day.items
                .iter()
                .filter(|item| {
                    let exercise = catalogue.get(&item.prescription.exercise).expect("known");
                    exercise.prime.contains(&muscle)
                })
                .map(|item| u32::from(item.prescription.sets))
                .sum()
        })
        .collect()
}

fn total_sets(plan: &Plan) -> u32 {
    let items = plan.days.iter().flat_map(|day| &day.items);
    items.map(|item| u32::from(item.prescription.sets)).sum()
}

/// Structure of the splits (common practice, no source).
mod splits {
    use super::*;
    use crate::catalogue::Role::{Legs, Pull, Push, Trunk};

    fn split(slug: &str) -> Split {
        Split::get(&SplitId::new(slug)).expect(slug)
    }

    fn roles(day: &SplitDay) -> [usize; 4] {
        [Push, Pull, Legs, Trunk].map(|role| day.slots.iter().filter(|s| s.role == role).count())
    }

    fn of_muscle(day: &SplitDay, muscle: Muscle) -> usize {
        day.slots
            .iter()
            .filter(|slot| slot.muscle == Some(muscle))
            .count()
    }

    #[test]
    fn defaults_and_others_by_days() {
        let table: [(u8, &[&str]); 7] = [
            (1, &["full-body-once"]),
            (2, &["full-body-twice", "upper-lower-once"]),
            (3, &["rotating-emphasis", "push-pull-legs"]),
            (4, &["upper-lower-twice", "full-body-four"]),
            (5, &["upper-lower-push-pull-legs", "full-body-five"]),
            (6, &["push-pull-legs-twice", "upper-lower-thrice"]),
            (
                7,
                &[
                    "push-pull-legs-twice-and-small",
                    "upper-lower-thrice-and-small",
                ],
            ),
        ];
        for (days, slugs) in table {
            let offered = Split::offered_for(days);
            let expected: Vec<SplitId> = slugs.iter().map(|s| SplitId::new(s)).collect();
            assert_eq!(offered, expected);
            assert_eq!(Split::default_for(days), expected[0]);
            for id in offered {
                let split = Split::get(&id).expect("offered splits are built in");
                assert_eq!(split.days.len(), usize::from(days), "{id}");
            }
        }
    }

    #[test]
    fn ids_are_unique_and_days_well_formed() {
        let all = split::built_in();
        let ids: BTreeSet<_> = all.iter().map(|s| s.id.clone()).collect();
        assert_eq!(ids.len(), all.len());
        for split in &all {
            for day in &split.days {
                assert!((6..=8).contains(&day.slots.len()), "{}", split.id);
                assert!(day.slots.iter().all(|s| (1..=4).contains(&s.rank)));
                assert!(day.slots.iter().all(|s| !s.patterns.is_empty()));
                // What comes on top of seven is short work for small muscles.
                if day.slots.len() == 8 {
                    let last = day.slots.last().expect("eight");
                    assert_eq!(last.rank, 4);
                }
            }
        }
    }

    /// Push-led: 3 push, 2 legs, 2 pull; pull-led and legs-led likewise.
    #[test]
    fn rotating_emphasis() {
        let days = split("rotating-emphasis").days;
        assert_eq!(days[0].focus, Focus::PushLed);
        assert_eq!(roles(&days[0]), [3, 2, 2, 0]);
        assert_eq!(days[1].focus, Focus::PullLed);
        assert_eq!(roles(&days[1]), [2, 3, 2, 1]);
        assert_eq!(days[2].focus, Focus::LegsLed);
        assert_eq!(roles(&days[2]), [2, 2, 3, 1]);
        for day in &days {
            let presses = day.slots.iter().filter(|s| {
                s.patterns == [Pattern::HorizontalPush] && s.muscle == Some(Muscle::Chest)
            });
            assert_eq!(presses.count(), 1, "a chest press on each day");
        }
    }

    /// Push = 3 chest, 2 shoulder, 2 triceps; pull = 4 back, 2 biceps, 1 rear
    /// shoulder; legs = 2 quadriceps, 2 hamstrings, 1 calf, 1 trunk.
    #[test]
    fn push_pull_legs() {
        let days = split("push-pull-legs").days;
        let [push, pull, legs] = &days[..] else {
            panic!("three days")
        };
        assert_eq!(roles(push), [7, 0, 0, 0]);
        assert_eq!(of_muscle(push, Muscle::Chest), 3);
        assert_eq!(of_muscle(push, Muscle::Triceps), 2);
        assert_eq!(roles(pull), [0, 7, 0, 0]);
        assert_eq!(of_muscle(pull, Muscle::Biceps), 2);
        let rear = |s: &&Slot| s.patterns == [Pattern::RearRaise];
        assert_eq!(pull.slots.iter().filter(rear).count(), 1);
        assert_eq!(roles(legs), [0, 0, 5, 1]);
        assert_eq!(of_muscle(legs, Muscle::Quadriceps), 2);
        assert_eq!(of_muscle(legs, Muscle::Hamstrings), 2);
        let calf = |s: &&Slot| s.patterns == [Pattern::CalfRaise];
        assert_eq!(legs.slots.iter().filter(calf).count(), 1);
    }

    /// Two upper and two lower sessions suit four days; upper, lower, push,
    /// pull, legs suit five.
    #[test]
    fn longer_weeks() {
        use Focus::{FullBody, Legs, LegsLed, Lower, Pull, PullLed, Push, PushLed, Upper};
        let table: [(&str, &[Focus]); 7] = [
            ("upper-lower-once", &[Upper, Lower]),
            (
                "full-body-five",
                &[PushLed, PullLed, LegsLed, PushLed, PullLed],
            ),
            (
                "upper-lower-thrice-and-small",
                &[Upper, Lower, Upper, Lower, Upper, Lower, FullBody],
            ),
            ("upper-lower-twice", &[Upper, Lower, Upper, Lower]),
            (
                "upper-lower-push-pull-legs",
                &[Upper, Lower, Push, Pull, Legs],
            ),
            (
                "push-pull-legs-twice",
                &[Push, Pull, Legs, Push, Pull, Legs],
            ),
            (
                "upper-lower-thrice",
                &[Upper, Lower, Upper, Lower, Upper, Lower],
            ),
        ];
        for (slug, expected) in table {
            let days = split(slug).days;
            let foci: Vec<Focus> = days.iter().map(|day| day.focus).collect();
            assert_eq!(foci, expected, "{slug}");
        }
    }

    /// Whole-body days hold push, pull and legs each; two that open with the same
    /// kind do not lie side by side.
    #[test]
    fn five_whole_body_days_take_turns() {
        let days = split("full-body-five").days;
        for day in &days {
            assert!(roles(day)[..3].iter().all(|&count| count >= 2));
        }
        for (one, next) in days.iter().zip(&days[1..]) {
            assert_ne!(one.slots[0].role, next.slots[0].role);
        }
    }

    /// Every number of days but one has a split to hold its usual one against.
    #[test]
    fn all_but_one_day_have_another() {
        for days in 1..=7 {
            assert_eq!(Split::offered_for(days).len() > 1, days > 1, "{days}");
        }
    }
}

/// Seven exercises of ordinary sets take about an hour (common practice, no
/// source).
#[test]
fn seven_exercises_take_about_an_hour() {
    let catalogue = Catalogue::built_in();
    let weeks: [[&str; 7]; 2] = [
        [
            "barbell-bench-press",
            "seated-dumbbell-shoulder-press",
            "leg-press",
            "seated-row",
            "lat-pulldown",
            "dumbbell-side-raise",
            "lying-leg-curl",
        ],
        [
            "back-squat",
            "dumbbell-bench-press",
            "seated-row",
            "chin-up",
            "standing-calf-raise",
            "dumbbell-curl",
            "cable-pushdown",
        ],
    ];
    for slugs in weeks {
        let items: Vec<PlanItem> = (1..)
            .zip(slugs)
            .map(|(key, slug)| PlanItem {
                key,
                prescription: prescribe(
                    catalogue.get(&ExerciseId::new(slug)).expect(slug),
                    &person(),
                    3,
                ),
                superset: None,
                reasons: Vec::new(),
            })
            .collect();
        let minutes = time::session_seconds(&catalogue, &items) / 60;
        assert!((52..=65).contains(&minutes), "{minutes} min");
    }
}

/// Twelve weekly sets of a muscle are 4 + 4 + 4 in three full-body days and 12
/// in one of a once-a-week split (common practice, no source).
#[test]
fn twelve_chest_sets_are_spread_or_heaped_as_the_split_says() {
    let catalogue = Catalogue::built_in();
    for minutes in [60, 65] {
        for (slug, expected) in [
            ("rotating-emphasis", [4, 4, 4]),
            ("push-pull-legs", [12, 0, 0]),
        ] {
            let plan = plan_week(&catalogue, &with_split(slug, minutes)).expect("plannable");
            let chest = direct_per_day(&plan, &catalogue, Muscle::Chest);
            assert_eq!(chest, expected, "{slug}, {minutes} min");
        }
    }
}

/// At equal weekly sets a split and a full-body week are worth the same for
/// size (Ramos-Campo et al. 2024, JSCR 38(7):1330-1340).
#[test]
fn equal_weekly_sets_are_worth_the_same() {
    let catalogue = Catalogue::built_in();
    let press = |patterns| Slot {
        role: crate::catalogue::Role::Push,
        patterns,
        muscle: Some(Muscle::Chest),
        rank: 1,
    };
    let day = |slots: usize| SplitDay {
        focus: Focus::Own,
        slots: vec![press(vec![Pattern::HorizontalPush]); slots],
    };
    let ids = [
        "barbell-bench-press",
        "dumbbell-bench-press",
        "incline-dumbbell-press",
    ];
    let item = |slot, slug: &str| objective::DraftItem {
        slot,
        exercise: ExerciseId::new(slug),
        sets: 3,
    };
    let worth = |days: Vec<SplitDay>, draft: Vec<Vec<objective::DraftItem>>| {
        let split = Split {
            id: SplitId::new("own"),
            days,
        };
        let model = Model::new(&catalogue, &person(), &split).expect("plannable");
        let week = model
            .read(&objective::PlanDraft { days: draft })
            .expect("the exercises are candidates");
        model.score(&week).stimulus
    };
    let spread = worth(
        vec![day(1), day(1), day(1)],
        ids.iter().map(|slug| vec![item(0, slug)]).collect(),
    );
    let heaped = worth(
        vec![day(3)],
        vec![
            (0..)
                .zip(ids)
                .map(|(slot, slug)| item(slot, slug))
                .collect(),
        ],
    );
    assert_eq!(spread, heaped);
}

#[test]
fn novices_do_fewer_sets_and_simpler_lifts() {
    let catalogue = Catalogue::built_in();
    for days in 2..=4 {
        let of = |status| {
            let person = Person {
                days: on(days),
                minutes: 90,
                status,
                ..person()
            };
            plan_week(&catalogue, &person).expect("plannable")
        };
        let [novice, intermediate, advanced] =
            [Status::Novice, Status::Intermediate, Status::Advanced].map(of);
        assert!(total_sets(&novice) < total_sets(&intermediate));
        assert!(total_sets(&intermediate) <= total_sets(&advanced));
        for item in novice.days.iter().flat_map(|day| &day.items) {
            let exercise = catalogue.get(&item.prescription.exercise).expect("known");
            assert!(exercise.skill <= 1, "{}", exercise.id);
            assert!(item.prescription.sets <= 4);
            assert_eq!(item.prescription.rir, exercise.rir + 1);
        }
        let chest = direct_per_day(&novice, &catalogue, Muscle::Chest);
        let chest: u32 = chest.iter().sum();
        assert!((6..=10).contains(&chest), "{chest} chest sets");
    }
}

/// Ten to fifteen reps for older adults (Garber et al. 2011, MSSE
/// 43(7):1334-1359).
#[test]
fn older_people_do_more_reps_with_more_rest() {
    let catalogue = Catalogue::built_in();
    let person = Person {
        is_older: true,
        status: Status::Novice,
        ..person()
    };
    let plan = plan_week(&catalogue, &person).expect("plannable");
    for item in plan.days.iter().flat_map(|day| &day.items) {
        let exercise = catalogue.get(&item.prescription.exercise).expect("known");
        assert!(
            exercise.strain <= 1 && exercise.skill <= 1,
            "{}",
            exercise.id
        );
        if exercise.measure == crate::catalogue::Measure::Reps {
            assert!(item.prescription.reps.0 >= 10 && item.prescription.reps.1 >= 15);
        }
    }
}

#[test]
fn a_priority_raises_the_muscles_sets() {
    let catalogue = Catalogue::built_in();
    let usual = plan_week(&catalogue, &person()).expect("plannable");
    let usual = weekly_sets(&catalogue, &usual.days);
    let mut raised = 0;
    let muscles = [
        Muscle::Chest,
        Muscle::UpperBack,
        Muscle::SideDelts,
        Muscle::RearDelts,
        Muscle::Biceps,
        Muscle::Triceps,
        Muscle::Quadriceps,
        Muscle::Hamstrings,
        Muscle::Glutes,
        Muscle::Calves,
        Muscle::Abdominals,
    ];
    for muscle in muscles {
        let with = |priority| {
            let mut person = person();
            person.priorities.insert(muscle, priority);
            let plan = plan_week(&catalogue, &person).expect("plannable");
            weekly_sets(&catalogue, &plan.days)[&muscle]
        };
        let (less, more) = (with(Priority::Less), with(Priority::More));
        assert!(more >= usual[&muscle], "{muscle}: {more}");
        // Work for other muscles may keep one up that matters less.
        assert!(less < more, "{muscle}");
        raised += u32::from(more > usual[&muscle]);
    }
    assert!(raised >= 8, "only {raised} of {} rose", muscles.len());
}

#[test]
fn a_disliked_exercise_gives_way_and_an_excluded_one_is_gone() {
    let catalogue = Catalogue::built_in();
    let usual = plan_week(&catalogue, &person()).expect("plannable");
    let ids = |plan: &Plan| -> BTreeSet<ExerciseId> {
        let items = plan.days.iter().flat_map(|day| &day.items);
        items.map(|i| i.prescription.exercise.clone()).collect()
    };
    for id in ids(&usual) {
        let mut disliking = person();
        disliking.disliked.insert(id.clone());
        let plan = plan_week(&catalogue, &disliking).expect("plannable");
        assert!(!ids(&plan).contains(&id), "{id} is still there");
    }
}

#[test]
fn short_sessions_drop_the_least_emphasis_first_and_say_so() {
    let catalogue = Catalogue::built_in();
    for slug in ["rotating-emphasis", "push-pull-legs"] {
        let split = Split::get(&SplitId::new(slug)).expect(slug);
        for minutes in [20, 25, 30, 40] {
            let person = with_split(slug, minutes);
            let model = Model::new(&catalogue, &person, &split).expect("plannable");
            let (week, _) = solve::solve(&model);
            let plan = plan_week(&catalogue, &person).expect("plannable");
            let mut dropped = 0;
            for (d, picks) in week.days.iter().enumerate() {
                let ranks = |is_kept: bool| {
                    let slots = split.days[d].slots.iter().enumerate();
                    slots
                        .filter(move |(s, _)| picks[*s].is_some() == is_kept)
                        .map(|(_, slot)| slot)
                };
                dropped += ranks(false).count();
                let least_dropped = ranks(false).map(|s| s.rank).min().unwrap_or(u8::MAX);
                for kept in ranks(true).filter(|s| s.rank > least_dropped) {
                    // Only the week's sole cover of a basic pattern may stay.
                    let basic = objective::basic_of(kept.patterns[0]);
                    assert!(basic.is_some(), "{slug} {minutes} day {d}: {kept:?}");
                }
            }
            let noted = plan.notes.iter();
            let noted = noted.filter(|n| matches!(n, PlanNote::SlotDropped { .. }));
            assert_eq!(noted.count(), dropped, "{slug} {minutes}");
            assert!(dropped > 0 || minutes > 25, "{slug} {minutes}");
        }
    }
}

#[test]
fn short_sessions_pair_exercises_that_do_not_compete() {
    let catalogue = Catalogue::built_in();
    let plan = plan_week(&catalogue, &with_split("rotating-emphasis", 45)).expect("plannable");
    let mut pairs = 0;
    for day in &plan.days {
        for two in day.items.windows(2) {
            if two[0].superset.is_none() || two[0].superset != two[1].superset {
                continue;
            }
            pairs += 1;
            let [a, b] =
                [&two[0], &two[1]].map(|i| catalogue.get(&i.prescription.exercise).expect("known"));
            for &muscle in Muscle::ALL {
                assert!(a.half_sets_for(muscle) == 0 || b.half_sets_for(muscle) == 0);
            }
            assert!(a.strain <= 1 && b.strain <= 1);
        }
    }
    assert!(pairs > 0);
    // With time to spare nothing is paired.
    let plan = plan_week(&catalogue, &with_split("rotating-emphasis", 120)).expect("plannable");
    let items = plan.days.iter().flat_map(|day| &day.items);
    assert!(items.map(|i| i.superset).all(|s| s.is_none()));
}

#[test]
fn impossible_answers_are_refused_in_words() {
    let catalogue = Catalogue::built_in();
    let refused = |person: &Person| plan_week(&catalogue, person).unwrap_err().to_string();
    let mut none = person();
    none.days.clear();
    assert_eq!(
        refused(&none),
        "no training day was chosen; choose at least one"
    );
    let mut twice = person();
    twice.days[1] = Weekday::Monday;
    assert_eq!(
        refused(&twice),
        "a training day was chosen twice; choose each weekday once"
    );
    let short = Person {
        minutes: 10,
        ..person()
    };
    assert_eq!(
        refused(&short),
        "minutes 10 is not between 20 and 180; choose a length within that range"
    );
    assert_eq!(
        refused(&with_split("none-such", 60)),
        "split 'none-such' is not known; choose another"
    );
    let mut idle = person();
    idle.excluded = catalogue.iter().map(|e| e.id.clone()).collect();
    assert_eq!(
        refused(&idle),
        "no exercise is left; add equipment, or lift an exclusion or a joint limit"
    );
}

/// The search against trying everything, where everything can be tried.
#[test]
fn small_weeks_are_solved_to_the_optimum() {
    let catalogue = Catalogue::built_in();
    let full = Split::get(&SplitId::new("rotating-emphasis")).expect("built in");
    for (d, (first, second)) in [(0, (0, 2)), (1, (0, 2)), (2, (0, 4)), (0, (3, 5))] {
        let slots = &full.days[d].slots;
        let split = Split {
            id: SplitId::new("own"),
            days: vec![SplitDay {
                focus: Focus::Own,
                slots: vec![slots[first].clone(), slots[second].clone()],
            }],
        };
        let person = Person {
            minutes: 20,
            ..person()
        };
        let model = Model::new(&catalogue, &person, &split).expect("plannable");
        let contents = |slot: usize| {
            let count = model.days[0][slot].candidates.len() as u16;
            let picks = (0..count).flat_map(|candidate| {
                (objective::SETS.0..=objective::SETS.1)
                    .map(move |sets| Some(objective::Pick { candidate, sets }))
            });
            picks.chain([None]).collect::<Vec<_>>()
        };
        let mut best = i64::MIN;
        let mut week = model.empty_week();
        for a in contents(0) {
            for b in contents(1) {
                week.days[0][0] = a;
                week.days[0][1] = b;
                best = best.max(model.score(&week).total());
            }
        }
        let found = model.score(&solve::solve(&model).0).total();
        assert_eq!(found, best, "slots {first} and {second} of day {d}");
    }
}

/// Persons of every sort, from a small linear congruential generator (the
/// constants of Knuth's MMIX).
pub(crate) struct Draw(pub(crate) u64);

impl Draw {
    pub(crate) fn below(&mut self, n: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len() as u64) as usize]
    }

    pub(crate) fn person(&mut self, catalogue: &Catalogue) -> Person {
        let days = self.below(7) as u8 + 1;
        let mut kit = Kit::full_gym();
        match self.below(3) {
            0 => {}
            1 => kit.equipment.retain(|_| self.below(2) == 0),
            _ => kit.equipment.retain(|_| self.below(6) == 0),
        }
        let offered = Split::offered_for(days);
        let ids: Vec<&ExerciseId> = catalogue.iter().map(|e| &e.id).collect();
        let some = |draw: &mut Self| -> Set<ExerciseId> {
            (0..draw.below(20)).map(|_| draw.of(&ids).clone()).collect()
        };
        Person {
            days: on(days),
            minutes: 20 + self.below(21) as u16 * 5,
            kit,
            status: self.of(Status::ALL),
            is_older: self.below(4) == 0,
            priorities: (0..self.below(4))
                .map(|_| (self.of(Muscle::ALL), self.of(Priority::ALL)))
                .collect(),
            excluded: some(self),
            disliked: some(self),
            joint_limits: (0..self.below(3))
                .map(|_| self.of(crate::catalogue::JointDemand::ALL))
                .collect(),
            split: (self.below(2) == 0)
                .then(|| offered[self.below(offered.len() as u64) as usize].clone()),
            own_splits: Vec::new(),
            unit: Unit::Kg,
            rules: Map::new(),
        }
    }
}

/// What must hold of every plan whatsoever.
fn check_plan(catalogue: &Catalogue, person: &Person, plan: &Plan) {
    let mut keys = BTreeSet::new();
    for (d, day) in plan.days.iter().enumerate() {
        assert!(
            day.seconds <= u32::from(person.minutes) * 60,
            "day {d} runs {} s over {} min",
            day.seconds,
            person.minutes
        );
        assert_eq!(day.seconds, time::session_seconds(catalogue, &day.items));
        assert!(!day.items.is_empty(), "day {d} is empty");
        let mut today = BTreeSet::new();
        let mut heavy = 0;
        for item in &day.items {
            let p = &item.prescription;
            let exercise = catalogue.get(&p.exercise).expect("in the catalogue");
            assert!(is_allowed(exercise, person), "{}", exercise.id);
            assert!(today.insert(&p.exercise), "{} twice a day", exercise.id);
            assert!(keys.insert(item.key), "keys are unique");
            assert!((2..=5).contains(&p.sets));
            assert!(p.reps.0 <= p.reps.1 && p.rir <= 5);
            assert!(!item.reasons.is_empty(), "{} has a reason", exercise.id);
            heavy += u32::from(
                exercise.strain >= 2
                    && exercise
                        .joints
                        .contains(&crate::catalogue::JointDemand::LoadedSpine),
            );
            for reason in &item.reasons {
                check_reason(catalogue, person, plan, item, reason);
            }
        }
        assert!(heavy <= 1, "{heavy} heavy lifts on the spine on day {d}");
    }
    let possible = |patterns: &[Pattern]| {
        catalogue
            .iter()
            .any(|e| patterns.contains(&e.pattern) && is_allowed(e, person))
    };
    let sets = weekly_sets(catalogue, &plan.days);
    for patterns in objective::BASICS {
        let is_covered = plan.days.iter().flat_map(|day| &day.items).any(|item| {
            let exercise = catalogue.get(&item.prescription.exercise).expect("known");
            patterns.contains(&exercise.pattern)
        });
        let is_noted = plan
            .notes
            .contains(&PlanNote::PatternNotCovered(patterns[0]));
        assert_eq!(possible(patterns), !is_noted, "{patterns:?}");
        if person.minutes >= 45 && person.days.len() >= 2 && possible(patterns) {
            assert!(is_covered, "{patterns:?} is possible");
        }
    }
    for &muscle in Muscle::ALL {
        let half_sets = sets.get(&muscle).copied().unwrap_or(0);
        let floor = dose::target(muscle, person).floor;
        let note = PlanNote::BelowFloor {
            muscle,
            half_sets,
            floor,
        };
        assert_eq!(plan.notes.contains(&note), half_sets < floor, "{muscle}");
    }
}

/// A reason must be true.
fn check_reason(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    item: &PlanItem,
    reason: &PickReason,
) {
    let exercise = catalogue.get(&item.prescription.exercise).expect("known");
    match *reason {
        PickReason::CoversPattern(pattern) => {
            assert_eq!(exercise.pattern, pattern);
            let group = objective::BASICS[objective::basic_of(pattern).expect("basic")];
            let times = plan
                .days
                .iter()
                .flat_map(|day| &day.items)
                .filter(|i| {
                    let other = catalogue.get(&i.prescription.exercise).expect("known");
                    group.contains(&other.pattern)
                })
                .count();
            assert_eq!(times, 1);
        }
        PickReason::Feeds { muscle, half_sets } => {
            let sets = u32::from(item.prescription.sets);
            assert_eq!(half_sets, exercise.half_sets_for(muscle) * sets);
            assert!(half_sets > 0);
        }
        PickReason::Priority(muscle) => {
            assert!(exercise.prime.contains(&muscle));
            assert_eq!(person.priorities.get(&muscle), Some(&Priority::More));
        }
        PickReason::LeadsDay => {
            let opens = |d: &PlanDay| d.items.first().is_some_and(|i| i.key == item.key);
            assert!(plan.days.iter().any(opens));
        }
        PickReason::EasyToLearn => assert!(exercise.skill <= 1),
        PickReason::BestWithKit => assert!(person.kit.allows(exercise)),
        PickReason::SavesTime => assert!(item.superset.is_some()),
    }
}

fn check_many(seed: u64, persons: usize) {
    let catalogue = Catalogue::built_in();
    let mut draw = Draw(seed);
    for _ in 0..persons {
        let person = draw.person(&catalogue);
        let plan = plan_week(&catalogue, &person).expect("some exercise needs no kit");
        check_plan(&catalogue, &person, &plan);
    }
}

#[test]
fn plans_hold_for_all_sorts_of_people() {
    check_many(1, 120);
}

#[test]
fn plans_hold_for_more_sorts_of_people() {
    check_many(2_026, 120);
}

#[test]
fn the_same_answers_give_the_same_plan() {
    let catalogue = Catalogue::built_in();
    let mut draw = Draw(7);
    for _ in 0..10 {
        let person = draw.person(&catalogue);
        let first = plan_week(&catalogue, &person);
        assert_eq!(first, plan_week(&Catalogue::built_in(), &person));
    }
}

mod edits {
    use super::*;

    fn planned() -> (Catalogue, Person, Plan) {
        let catalogue = Catalogue::built_in();
        let person = person();
        let plan = plan_week(&catalogue, &person).expect("plannable");
        (catalogue, person, plan)
    }

    fn keys(plan: &Plan, day: usize) -> Vec<u16> {
        plan.days[day].items.iter().map(|item| item.key).collect()
    }

    #[test]
    fn a_swap_keeps_key_place_and_sets() {
        let (catalogue, person, plan) = planned();
        for (d, day) in plan.days.iter().enumerate() {
            for item in &day.items {
                let others = alternatives(&catalogue, &person, &plan, d, item.key);
                assert!(!others.is_empty(), "{}", item.prescription.exercise);
                let other = &others[0];
                let swapped = plan
                    .swap(&catalogue, &person, d, item.key, &other.exercise)
                    .expect("an alternative can be swapped in");
                assert_eq!(keys(&swapped, d), keys(&plan, d));
                let (_, now) = swapped.find(item.key).expect("the key stays");
                assert_eq!(now.prescription.exercise, other.exercise);
                assert_eq!(now.prescription.sets, item.prescription.sets);
                for reason in &now.reasons {
                    check_reason(&catalogue, &person, &swapped, now, reason);
                }
                let of_the_old = [PickReason::EasyToLearn, PickReason::BestWithKit];
                assert!(!now.reasons.iter().any(|r| of_the_old.contains(r)));
                let change = i64::from(swapped.days[d].seconds) - i64::from(day.seconds);
                assert_eq!(other.difference.seconds, change);
            }
        }
    }

    #[test]
    fn the_best_alternative_keeps_the_muscles() {
        let (catalogue, person, plan) = planned();
        for (d, day) in plan.days.iter().enumerate() {
            for item in &day.items {
                let old = catalogue.get(&item.prescription.exercise).expect("known");
                let others = alternatives(&catalogue, &person, &plan, d, item.key);
                let new = catalogue.get(&others[0].exercise).expect("known");
                assert!(is_allowed(new, &person));
                assert_eq!(new.prime.first(), old.prime.first(), "{}", old.id);
                let on_day = |a: &Alternative| {
                    let items = &day.items;
                    items.iter().any(|i| i.prescription.exercise == a.exercise)
                };
                assert!(!others.iter().any(on_day));
            }
        }
        assert!(alternatives(&catalogue, &person, &plan, 0, 9_999).is_empty());
        assert!(alternatives(&catalogue, &person, &plan, 99, 1).is_empty());
    }

    #[test]
    fn numbers_change_within_bounds_and_the_clock_follows() {
        let (catalogue, _, plan) = planned();
        let key = keys(&plan, 0)[0];
        let more = plan.set_sets(&catalogue, 0, key, 6).expect("six sets");
        assert!(more.days[0].seconds > plan.days[0].seconds);
        let longer = plan.set_rest(&catalogue, 0, key, 300).expect("a long rest");
        assert!(longer.days[0].seconds > plan.days[0].seconds);
        let reps = plan.set_reps(&catalogue, 0, key, (3, 5)).expect("fives");
        assert_eq!(reps.find(key).expect("kept").1.prescription.reps, (3, 5));
        let rir = plan.set_rir(&catalogue, 0, key, 1).expect("one in reserve");
        assert_eq!(rir.find(key).expect("kept").1.prescription.rir, 1);
        let words = |error: EditError| error.to_string();
        assert_eq!(
            words(plan.set_sets(&catalogue, 0, key, 11).unwrap_err()),
            "sets 11 is not between 1 and 10"
        );
        assert_eq!(
            words(plan.set_reps(&catalogue, 0, key, (9, 5)).unwrap_err()),
            "range 9 to 5 is upside down; start with the lower number"
        );
        assert_eq!(
            words(plan.set_rest(&catalogue, 0, key, 901).unwrap_err()),
            "rest in seconds 901 is not between 0 and 900"
        );
        assert_eq!(
            words(plan.set_rir(&catalogue, 0, key, 6).unwrap_err()),
            "reps in reserve 6 is not between 0 and 5"
        );
        assert_eq!(
            words(plan.set_sets(&catalogue, 9, key, 3).unwrap_err()),
            "the plan has no day 10"
        );
        assert_eq!(
            words(plan.set_sets(&catalogue, 0, 999, 3).unwrap_err()),
            "the day has no exercise with key 999"
        );
    }

    #[test]
    fn items_move_go_and_come() {
        let (catalogue, person, plan) = planned();
        let before = keys(&plan, 0);
        let key = before[0];
        let moved = plan
            .move_item(&catalogue, 0, key, 0, usize::MAX)
            .expect("to the end");
        assert_eq!(keys(&moved, 0).last(), Some(&key));
        assert_eq!(keys(&moved, 0).len(), before.len());
        let last = before[before.len() - 1];
        let away = plan.move_item(&catalogue, 0, last, 1, 0);
        let away = away.expect("to another day");
        assert_eq!(away.find(last).expect("kept").0, 1);
        assert_eq!(keys(&away, 1)[0], last);
        let gone = plan.remove(&catalogue, 0, key).expect("removed");
        assert_eq!(gone.find(key), None);
        assert!(gone.days[0].seconds < plan.days[0].seconds);
        let id = ExerciseId::new("farmer-carry");
        let added = plan.add(&catalogue, &person, 0, &id, 2).expect("added");
        let last = added.days[0].items.last().expect("one more");
        assert_eq!(last.prescription.exercise, id);
        assert_eq!(plan.find(last.key), None, "the key is new");
        assert_eq!(
            added
                .add(&catalogue, &person, 0, &id, 2)
                .unwrap_err()
                .to_string(),
            "the day already holds 'farmer-carry'; give it more sets instead, or choose another"
        );
        assert_eq!(
            plan.add(&catalogue, &person, 0, &ExerciseId::new("none"), 2),
            Err(EditError::UnknownExercise(ExerciseId::new("none")))
        );
    }

    #[test]
    fn a_full_day_takes_no_more() {
        let (catalogue, person, mut plan) = planned();
        let ids: Vec<ExerciseId> = catalogue.iter().map(|e| e.id.clone()).collect();
        for id in ids {
            match plan.add(&catalogue, &person, 0, &id, 1) {
                Ok(more) => plan = more,
                Err(EditError::AlreadyThere(_)) => {}
                Err(error) => {
                    assert_eq!(
                        error.to_string(),
                        "exercises a day 13 is not between 1 and 12"
                    );
                    assert_eq!(plan.days[0].items.len(), 12);
                    return;
                }
            }
        }
        panic!("the day never filled up");
    }

    #[test]
    fn supersets_are_joined_parted_and_never_left_alone() {
        let (catalogue, _, plan) = planned();
        let mut straight = plan;
        for item in &mut straight.days[0].items {
            item.superset = None;
        }
        let three = keys(&straight, 0);
        let joined = straight
            .toggle_superset(&catalogue, 0, three[0])
            .expect("joined");
        let numbers = |plan: &Plan| -> Vec<Option<u8>> {
            plan.days[0].items.iter().map(|i| i.superset).collect()
        };
        assert_eq!(numbers(&joined)[..3], [Some(1), Some(1), None]);
        assert!(
            joined.days[0].seconds < time::session_seconds(&catalogue, &straight.days[0].items)
        );
        let parted = joined.toggle_superset(&catalogue, 0, three[0]);
        assert_eq!(numbers(&parted.expect("parted"))[..2], [None, None]);
        let removed = joined.remove(&catalogue, 0, three[1]).expect("removed");
        assert!(numbers(&removed).iter().all(Option::is_none));
        let moved = joined.move_item(&catalogue, 0, three[0], 0, 5);
        assert!(numbers(&moved.expect("moved")).iter().all(Option::is_none));
        let last = three[three.len() - 1];
        assert_eq!(
            straight.toggle_superset(&catalogue, 0, last),
            Err(EditError::NoSuchItem(last))
        );
    }

    #[test]
    fn days_come_go_and_change_places() {
        let (catalogue, person, plan) = planned();
        let edit = |plan: &Plan, edit: Edit| plan.edit(&catalogue, &person, &edit);
        let more = edit(&plan, Edit::AddDay).expect("a fourth day");
        assert_eq!(more.days.len(), 4);
        assert_eq!((more.days[3].items.len(), more.days[3].seconds), (0, 0));
        let turned = edit(&more, Edit::MoveDay { day: 0, to: 2 }).expect("turned");
        assert_eq!(turned.days[2], plan.days[0]);
        assert_eq!(turned.days[0], plan.days[1]);
        let fewer = edit(&plan, Edit::RemoveDay { day: 1 }).expect("two left");
        assert_eq!(fewer.days[1].items.len(), plan.days[2].items.len());
        let one = edit(&fewer, Edit::RemoveDay { day: 0 }).expect("one left");
        assert_eq!(
            edit(&one, Edit::RemoveDay { day: 0 })
                .unwrap_err()
                .to_string(),
            "the plan has only this day; add another one first"
        );
        assert_eq!(
            edit(&one, Edit::MoveDay { day: 0, to: 3 }),
            Err(EditError::NoSuchDay(3))
        );
        let mut long = plan;
        while long.days.len() < 28 {
            long = edit(&long, Edit::AddDay).expect("four weeks hold 28 days");
        }
        assert!(matches!(
            edit(&long, Edit::AddDay),
            Err(EditError::OutOfBounds(_))
        ));
    }

    /// The notes that the week's prescriptions alone decide.
    fn is_measured(note: &PlanNote) -> bool {
        !matches!(
            note,
            PlanNote::PatternNotCovered(_) | PlanNote::SlotDropped { .. }
        )
    }

    #[test]
    fn notes_stay_while_they_are_true() {
        let catalogue = Catalogue::built_in();
        let person = with_split("rotating-emphasis", 25);
        let plan = plan_week(&catalogue, &person).expect("plannable");
        assert!(plan.notes.iter().any(is_measured));
        let (day, patterns) = plan
            .notes
            .iter()
            .find_map(|note| match note {
                PlanNote::SlotDropped { day, patterns } => Some((*day, patterns.clone())),
                _ => None,
            })
            .expect("25 minutes drop a slot");
        let dropped = PlanNote::SlotDropped {
            day,
            patterns: patterns.clone(),
        };
        // Rest does not bring it back, the exercise does.
        let key = keys(&plan, 0)[0];
        let rested = plan.set_rest(&catalogue, 0, key, 200).expect("rest");
        assert!(rested.notes.contains(&dropped));
        let fits = catalogue
            .iter()
            .find(|e| {
                patterns.contains(&e.pattern)
                    && is_allowed(e, &person)
                    && plan.days[usize::from(day)]
                        .items
                        .iter()
                        .all(|i| i.prescription.exercise != e.id)
            })
            .expect("something fits");
        let added = plan
            .add(&catalogue, &person, usize::from(day), &fits.id, 2)
            .expect("added");
        let of_the_slot = |note: &&PlanNote| **note == dropped;
        assert!(
            added.notes.iter().filter(of_the_slot).count()
                < plan.notes.iter().filter(of_the_slot).count()
        );
    }

    /// However a plan is edited: reasons are true, notes say what the plan now
    /// holds, keys stay unique, seconds are right.
    #[test]
    fn what_is_said_of_an_edited_plan_is_true_of_it() {
        let catalogue = Catalogue::built_in();
        let mut draw = Draw(5);
        let mut edits = 0;
        for _ in 0..40 {
            let person = draw.person(&catalogue);
            let mut plan = plan_week(&catalogue, &person).expect("plannable");
            for _ in 0..25 {
                let Some(edit) = random_edit(&mut draw, &catalogue, &plan) else {
                    continue;
                };
                let Ok(edited) = plan.edit(&catalogue, &person, &edit) else {
                    continue;
                };
                edits += 1;
                check_said(&catalogue, &person, &edited, &edit);
                plan = edited;
            }
        }
        assert!(edits > 500, "{edits}");
    }

    fn check_said(catalogue: &Catalogue, person: &Person, plan: &Plan, edit: &Edit) {
        let mut keys = BTreeSet::new();
        for day in &plan.days {
            assert_eq!(day.seconds, time::session_seconds(catalogue, &day.items));
            for item in &day.items {
                assert!(keys.insert(item.key), "{edit:?}");
                for reason in &item.reasons {
                    check_reason(catalogue, person, plan, item, reason);
                }
            }
        }
        let now = reasons::measured_notes(catalogue, person, &plan.days);
        for note in plan.notes.iter().filter(|note| is_measured(note)) {
            let is_close = matches!(note, PlanNote::ShortRecovery { .. });
            assert!(
                is_close || now.contains(note),
                "{note:?} after {edit:?} but {now:?}"
            );
        }
    }
}

/// Some edit of a plan; it may be refused.
pub(crate) fn random_edit(draw: &mut Draw, catalogue: &Catalogue, plan: &Plan) -> Option<Edit> {
    let day = draw.below(plan.days.len() as u64) as usize;
    let items = &plan.days[day].items;
    let ids: Vec<&ExerciseId> = catalogue.iter().map(|e| &e.id).collect();
    let exercise = draw.of(&ids).clone();
    let sets = draw.below(8) as u8 + 1;
    let kind = draw.below(11);
    if items.is_empty() || kind == 0 {
        return Some(Edit::Add {
            day,
            exercise,
            sets,
        });
    }
    let key = items[draw.below(items.len() as u64) as usize].key;
    Some(match kind {
        1 | 2 => Edit::Sets { day, key, sets },
        3 | 4 => Edit::Remove { day, key },
        5 | 6 => Edit::Move {
            day,
            key,
            to_day: draw.below(plan.days.len() as u64) as usize,
            place: draw.below(8) as usize,
        },
        7 => Edit::Swap { day, key, exercise },
        8 => Edit::Rest {
            day,
            key,
            rest_s: draw.below(300) as u16,
        },
        9 => Edit::Superset { day, key },
        _ => match draw.below(3) {
            0 => Edit::AddDay,
            1 => Edit::RemoveDay { day },
            _ => Edit::MoveDay {
                day,
                to: draw.below(plan.days.len() as u64) as usize,
            },
        },
    })
}

#[test]
fn a_lighter_day_asks_for_fewer_sets_of_the_same() {
    let catalogue = Catalogue::built_in();
    let plan = plan_week(&catalogue, &person()).expect("a plan");
    for day in &plan.days {
        let lighter = day.lighter(&catalogue);
        assert!(lighter.seconds < day.seconds);
        assert_eq!(lighter.items.len(), day.items.len());
        for (less, item) in lighter.items.iter().zip(&day.items) {
            let (asked, usual) = (less.prescription.sets, item.prescription.sets);
            assert_eq!(less.prescription.exercise, item.prescription.exercise);
            assert!((1..=usual).contains(&asked));
            assert_eq!(asked < usual, usual >= 3, "{usual} sets become {asked}");
        }
    }
}

mod own_splits {
    use super::*;

    fn of(patterns: &[&[Pattern]]) -> Person {
        let day = |patterns: &&[Pattern]| SplitDay {
            focus: Focus::Own,
            slots: patterns.iter().map(|&p| Slot::of(p)).collect(),
        };
        let mut own = OwnSplit {
            name: "Storm week".to_owned(),
            split: Split {
                id: OwnSplit::free_slug(&[]),
                days: patterns.iter().map(day).collect(),
            },
        };
        own.settle();
        Person {
            split: Some(own.split.id.clone()),
            own_splits: vec![own],
            ..person()
        }
    }

    const TWO_DAYS: &[&[Pattern]] = &[
        &[
            Pattern::Squat,
            Pattern::HorizontalPush,
            Pattern::HorizontalPull,
            Pattern::TrunkStability,
        ],
        &[Pattern::Hinge, Pattern::VerticalPull, Pattern::VerticalPush],
    ];

    #[test]
    fn is_planned_as_it_was_made() {
        let catalogue = Catalogue::built_in();
        let person = of(TWO_DAYS);
        let plan = plan_week(&catalogue, &person).expect("plannable");
        assert_eq!(plan.split.as_str(), "own-1");
        let split = &person.own_splits[0].split;
        for (day, planned) in split.days.iter().zip(&plan.days) {
            assert_eq!(planned.items.len(), day.slots.len());
            assert_eq!(day.open_slots(&catalogue, planned), [0_usize; 0]);
        }
        check_plan(&catalogue, &person, &plan);
        let solved = solve_week(&catalogue, &person).expect("the same");
        assert_eq!(solved.plan, plan);
    }

    #[test]
    fn is_offered_beside_the_usual_ones_and_gone_without_a_trace() {
        let mut person = of(TWO_DAYS);
        let id = person.own_splits[0].split.id.clone();
        assert_eq!(Split::offered_to(&person).last(), Some(&id));
        assert_eq!(OwnSplit::free_slug(&person.own_splits).as_str(), "own-2");
        person.own_splits.clear();
        assert!(!Split::offered_to(&person).contains(&id));
        let refused = plan_week(&Catalogue::built_in(), &person).unwrap_err();
        assert_eq!(
            refused.to_string(),
            "split 'own-1' is not known; choose another"
        );
        assert!(
            split::built_in()
                .iter()
                .all(|split| { !split.id.as_str().starts_with(OwnSplit::SLUG) })
        );
    }

    #[test]
    fn without_days_or_places_it_is_refused_with_what_to_do() {
        let catalogue = Catalogue::built_in();
        for person in [of(&[]), of(&[&[Pattern::Squat], &[]])] {
            for refused in [
                plan_week(&catalogue, &person).unwrap_err(),
                solve_week(&catalogue, &person).unwrap_err(),
                blank_week(&person).unwrap_err(),
            ] {
                assert!(refused.to_string().ends_with("edit its days"), "{refused}");
            }
        }
    }

    #[test]
    fn is_filled_by_hand_place_by_place() {
        let catalogue = Catalogue::built_in();
        let person = of(TWO_DAYS);
        let blank = blank_week(&person).expect("two days");
        let day = &person.own_splits[0].split.days[0];
        assert_eq!(day.open_slots(&catalogue, &blank.days[0]), [0, 1, 2, 3]);
        let squat = ExerciseId::new("back-squat");
        let plan = blank.add(&catalogue, &person, 0, &squat, 3).expect("added");
        assert_eq!(day.open_slots(&catalogue, &plan.days[0]), [1, 2, 3]);
        // A second squat stands for no other place.
        let other = ExerciseId::new("goblet-squat");
        let plan = plan.add(&catalogue, &person, 0, &other, 3).expect("added");
        assert_eq!(day.open_slots(&catalogue, &plan.days[0]), [1, 2, 3]);
    }

    #[test]
    fn what_comes_first_is_what_the_day_is_about() {
        let mut person = of(&[&[Pattern::Squat; 8]]);
        let own = &mut person.own_splits[0];
        own.split.days[0].slots[3].patterns = vec![Pattern::BackExtension];
        own.settle();
        let ranks: Vec<u8> = own.split.days[0].slots.iter().map(|s| s.rank).collect();
        assert_eq!(ranks, [1, 1, 1, 2, 2, 2, 3, 3]);
    }
}
