//! Missed sessions, pauses and journeys, as tables.

use super::super::{Pause, Repairs};
use super::*;
use crate::calendar::Weekday;
use crate::plan::tests::person;
use crate::presets::KitPreset;
use crate::units::Unit;

fn day(text: &str) -> Day {
    Day::parse(text).expect(text)
}

/// Three days a week from Monday 2 November 2026.
fn plan_and_schedule(minutes: u16) -> (Catalogue, Person, Plan, Schedule) {
    let catalogue = Catalogue::built_in();
    let person = Person {
        minutes,
        ..person()
    };
    let plan = plan_week(&catalogue, &person).expect("a week");
    let schedule = Schedule {
        days_in_cycle: 3,
        weekdays: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
        start: day("2026-11-02"),
        repairs: Repairs::default(),
    };
    (catalogue, person, plan, schedule)
}

fn done(days: &[(&str, u8)]) -> Vec<Done> {
    let done = |&(text, plan_day): &(&str, u8)| Done {
        day: day(text),
        plan_day: Some(plan_day),
    };
    days.iter().map(done).collect()
}

/// The plan days ahead after a choice, with their dates' days of the month.
fn ahead(schedule: &Schedule, done: &[Done], today: &str, days: u16) -> Vec<(String, u8)> {
    let coming = schedule.upcoming(done, day(today), days);
    let ahead = coming
        .iter()
        .filter(|c| matches!(c.state, State::Due | State::Coming));
    ahead
        .map(|c| {
            (
                c.day.to_string()[8..].to_owned(),
                c.plan_day.expect("planned"),
            )
        })
        .collect()
}

fn settled(schedule: &Schedule, text: &str, today: &str, how: How) -> Schedule {
    let mut schedule = schedule.clone();
    schedule.repairs.settle(Settled {
        day: day(text),
        chosen: day(today),
        how,
    });
    schedule
}

#[test]
fn each_way_runs_on_as_it_says() {
    let (_, _, _, schedule) = plan_and_schedule(65);
    let first = [("2026-11-02", 0)];
    let let_go = || How::LetGo(Vec::new());
    // Done, the session settled, today, how; and what lies ahead.
    type Case<'a> = (
        &'a [(&'a str, u8)],
        &'a str,
        &'a str,
        How,
        &'a [(&'a str, u8)],
    );
    let table: [Case<'_>; 6] = [
        // Missed on Wednesday, settled on Thursday.
        (
            &first,
            "2026-11-04",
            "2026-11-05",
            How::Shifted,
            &[("06", 1), ("09", 2), ("11", 0)],
        ),
        (
            &first,
            "2026-11-04",
            "2026-11-05",
            let_go(),
            &[("06", 2), ("09", 0), ("11", 1)],
        ),
        // Friday cannot be done, known on Wednesday before the session.
        (
            &first,
            "2026-11-06",
            "2026-11-04",
            How::Shifted,
            &[("04", 1), ("09", 2), ("11", 0)],
        ),
        (
            &first,
            "2026-11-06",
            "2026-11-04",
            let_go(),
            &[("04", 1), ("09", 0), ("11", 1)],
        ),
        // Not today.
        (
            &first,
            "2026-11-04",
            "2026-11-04",
            How::Shifted,
            &[("06", 1), ("09", 2), ("11", 0)],
        ),
        // The very first.
        (
            &[],
            "2026-11-02",
            "2026-11-02",
            let_go(),
            &[("04", 1), ("06", 2), ("09", 0)],
        ),
    ];
    for (done_days, settle, today, how, expected) in table {
        let done = done(done_days);
        let schedule = settled(&schedule, settle, today, how.clone());
        let expected: Vec<(String, u8)> =
            expected.iter().map(|&(d, p)| (d.to_owned(), p)).collect();
        let mut found = ahead(&schedule, &done, today, 14);
        found.truncate(3);
        assert_eq!(found, expected, "{settle} {how:?}");
        let on_day = schedule.between(&done, day(today), day(settle), 1);
        let state = if how == How::Shifted {
            State::Shifted
        } else {
            State::LetGo
        };
        assert_eq!(on_day[0].state, state);
    }
}

#[test]
fn a_session_done_after_all_counts() {
    let (_, _, _, schedule) = plan_and_schedule(65);
    let schedule = settled(
        &schedule,
        "2026-11-04",
        "2026-11-04",
        How::LetGo(Vec::new()),
    );
    let done = done(&[("2026-11-02", 0), ("2026-11-04", 1)]);
    assert_eq!(
        ahead(&schedule, &done, "2026-11-05", 2),
        [("06".to_owned(), 2)]
    );
    assert_eq!(schedule.next_plan_day(&done, day("2026-11-05")), 2);
}

#[test]
fn effects_are_told_before_choosing() {
    // Some minutes to spare, so that work can be taken on.
    let (catalogue, person, plan, schedule) = plan_and_schedule(60);
    let person = Person {
        minutes: 75,
        ..person
    };
    let done = done(&[("2026-11-02", 0)]);
    let of = |settle: &str, today: &str| {
        options(
            &catalogue,
            &person,
            (&plan, &schedule),
            &done,
            (day(settle), day(today)),
        )
    };
    for (settle, today) in [
        ("2026-11-04", "2026-11-05"),
        ("2026-11-04", "2026-11-04"),
        ("2026-11-06", "2026-11-03"),
    ] {
        let found = of(settle, today);
        let [shift, merge, let_go] = &found[..] else {
            panic!("{settle}: {found:?}");
        };
        assert_eq!(
            (&shift.how, &let_go.how),
            (&How::Shifted, &How::LetGo(Vec::new()))
        );
        let How::LetGo(extras) = &merge.how else {
            panic!()
        };
        assert!(!extras.is_empty());
        // Letting go costs sets and never gives any.
        assert!(
            let_go
                .effect
                .sets
                .iter()
                .all(|(_, before, after)| after < before)
        );
        assert!(
            let_go
                .effect
                .gap
                .is_some_and(|(_, before, after)| after > before)
        );
        // Merging loses fewer in all.
        let lost = |choice: &Choice| -> i64 {
            let sets = choice.effect.sets.iter();
            sets.map(|(_, before, after)| i64::from(*before) - i64::from(*after))
                .sum()
        };
        assert!(lost(merge) < lost(let_go), "{settle}");
        // Its sessions keep the minutes and take on little that is new.
        for (_, plan_day, seconds) in &merge.effect.sessions {
            assert!(*seconds <= 75 * 60);
            let own = &plan.days[usize::from(*plan_day)].items;
            let is_new = |e: &&Extra| {
                e.plan_day == *plan_day
                    && own
                        .iter()
                        .all(|i| i.prescription.exercise != e.prescription.exercise)
            };
            assert!(extras.iter().filter(is_new).count() <= MOST_EXTRA);
        }
        // What was chosen is what comes.
        let after = settled(&schedule, settle, today, merge.how.clone());
        let comes = Course::of(&catalogue, &plan, &after, &done, (day(settle), day(today)));
        for &(on, plan_day, seconds) in &merge.effect.sessions {
            let there = comes.sessions.iter().find(|(coming, _)| coming.day == on);
            let (coming, held) = there.expect("a session");
            assert_eq!((coming.plan_day, held.seconds), (Some(plan_day), seconds));
        }
    }
}

#[test]
fn without_time_to_spare_nothing_is_merged() {
    let (catalogue, person, plan, schedule) = plan_and_schedule(60);
    let full = plan.days.iter().map(|day| day.seconds).min().expect("days");
    let person = Person {
        minutes: u16::try_from(full / 60).expect("minutes"),
        ..person
    };
    let at = (day("2026-11-04"), day("2026-11-05"));
    let found = options(
        &catalogue,
        &person,
        (&plan, &schedule),
        &done(&[("2026-11-02", 0)]),
        at,
    );
    let ways: Vec<&How> = found.iter().map(|choice| &choice.how).collect();
    assert_eq!(ways, [&How::Shifted, &How::LetGo(Vec::new())]);
}

#[test]
fn nothing_is_offered_where_nothing_is_to_be_settled() {
    let (catalogue, person, plan, schedule) = plan_and_schedule(60);
    let done = done(&[("2026-11-02", 0), ("2026-11-06", 1)]);
    for (settle, why) in [
        ("2026-11-02", "it was done"),
        ("2026-11-03", "no training day"),
        ("2026-11-04", "another was done since"),
    ] {
        let at = (day(settle), day("2026-11-07"));
        assert_eq!(
            options(&catalogue, &person, (&plan, &schedule), &done, at),
            [],
            "{why}"
        );
    }
}

#[test]
fn extra_work_is_done_once() {
    let (catalogue, _, plan, _) = plan_and_schedule(60);
    let mut repairs = Repairs::default();
    let mut extra = plan.days[0].items[0].prescription.clone();
    extra.sets = 2;
    let twice = plan.days[1].items[0].prescription.clone();
    repairs.settle(Settled {
        day: day("2026-11-02"),
        chosen: day("2026-11-03"),
        how: How::LetGo(vec![
            Extra {
                plan_day: 1,
                prescription: extra.clone(),
            },
            Extra {
                plan_day: 1,
                prescription: Prescription {
                    sets: 1,
                    ..twice.clone()
                },
            },
        ]),
    });
    let of = |date: &str, last: Option<&str>| {
        repairs
            .day_of(&catalogue, &plan, 1, day(date), last.map(day))
            .expect("a day")
    };
    let with = of("2026-11-04", Some("2026-10-30"));
    assert_eq!(with.items.len(), plan.days[1].items.len() + 1);
    let sets = |day: &PlanDay, p: &Prescription| {
        day.items
            .iter()
            .find(|i| i.prescription.exercise == p.exercise)
            .map(|i| i.prescription.sets)
    };
    assert_eq!(sets(&with, &extra), Some(2));
    assert_eq!(sets(&with, &twice), Some(twice.sets + 1));
    assert!(with.seconds > plan.days[1].seconds);
    let mut keys: Vec<u16> = with.items.iter().map(|i| i.key).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), with.items.len());
    // Done since, before it was chosen, or long ago.
    assert_eq!(of("2026-11-11", Some("2026-11-04")), plan.days[1]);
    assert_eq!(of("2026-11-02", None), plan.days[1]);
    assert_eq!(of("2026-12-11", None), plan.days[1]);
}

#[test]
fn nothing_is_owed_for_a_pause() {
    let (_, _, _, mut schedule) = plan_and_schedule(60);
    schedule.repairs.pause = Some(Pause {
        from: day("2026-11-04"),
        resume: day("2026-11-16"),
    });
    let done = done(&[("2026-11-02", 0)]);
    let all = schedule.between(&done, day("2026-11-20"), day("2026-11-02"), 21);
    let rows: Vec<_> = all
        .iter()
        .map(|c| (c.day.to_string()[8..].to_owned(), c.plan_day, c.state))
        .collect();
    let row = |d: &str, p, s| (d.to_owned(), Some(p), s);
    assert_eq!(
        rows,
        [
            row("02", 0, State::Done),
            row("16", 1, State::Missed),
            row("18", 1, State::Missed),
            row("20", 1, State::Due),
        ]
    );
}

#[test]
fn a_journey_has_its_own_plan_and_ends() {
    let (catalogue, person, plan, schedule) = plan_and_schedule(60);
    let kit = KitPreset::ALL
        .iter()
        .map(|preset| preset.kit(Unit::Kg))
        .find(|kit| kit.equipment.is_empty());
    let kit = kit.unwrap_or_else(Kit::floor_only);
    let (from, back) = (day("2026-11-04"), day("2026-11-11"));
    let (journey, effect) = travel(&catalogue, &person, &plan, &kit, (from, back)).expect("a plan");
    assert_eq!(journey.days.len(), plan.days.len());
    for item in journey.days.iter().flat_map(|day| &day.items) {
        let exercise = catalogue.get(&item.prescription.exercise).expect("known");
        assert!(kit.allows(exercise), "{}", exercise.id);
    }
    assert_ne!(effect.sets, []);
    let mut repairs = schedule.repairs;
    repairs.travel = Some(journey.clone());
    let of = |date: &str, plan_day| repairs.day_of(&catalogue, &plan, plan_day, day(date), None);
    assert_eq!(of("2026-11-02", 0).as_ref(), plan.days.first());
    assert_eq!(of("2026-11-04", 1).as_ref(), journey.days.get(1));
    assert_eq!(of("2026-11-10", 2).as_ref(), journey.days.get(2));
    assert_eq!(of("2026-11-11", 0).as_ref(), plan.days.first());
    assert_eq!(of("2026-11-11", 9), None);
}
