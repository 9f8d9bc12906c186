//! Sessions cut to the minutes that are left, and partners for supersets.

use super::*;
use crate::catalogue::Catalogue;
use crate::plan::plan_week;
use crate::plan::tests::person;

fn of_a_real_plan(catalogue: &Catalogue) -> (Plan, Session) {
    let plan = plan_week(catalogue, &person()).unwrap();
    let today = Day::from_ymd(2026, 11, 25).unwrap();
    let session = Session::plan("a", today, 0, false, &plan.days[0]);
    let session = session.apply(&Event::Start, T0).unwrap();
    (plan, session)
}

use crate::plan::Plan;

#[test]
fn the_events_make_it_so_and_lose_no_set() {
    let catalogue = Catalogue::built_in();
    let (plan, started) = of_a_real_plan(&catalogue);
    for done in [0, 2, 5] {
        let session = run(started.clone(), &vec![work(8); done]);
        let now = at(1_000);
        for minutes in [0, 3, 8, 12, 20, 35, 90] {
            let within = session.within(&catalogue, &person(), Some(&plan), minutes, now);
            let mut then = session.clone();
            for event in within.events(&session, now) {
                then = then.apply(&event, now).unwrap();
            }
            let sets = |session: &Session| {
                let items = session.items.iter();
                items.map(|item| item.sets.len()).sum::<usize>()
            };
            assert_eq!(sets(&then), done);
            let left = then.seconds_left(&catalogue, now);
            assert!(left <= u32::from(minutes) * 60, "{left} s in {minutes} min");
            assert_eq!(left, within.hurry.seconds);
            let gone: usize = within.let_go(&session).iter().map(|(_, sets)| sets).sum();
            let (before, after) = (session.progress(), then.progress());
            assert_eq!(before.sets_left - gone, after.sets_left);
            assert_eq!(within.hurry.week.is_empty(), gone == 0);
        }
    }
}

/// A rest that runs is part of the minutes left.
#[test]
fn the_rest_that_runs_counts() {
    let catalogue = Catalogue::built_in();
    let (plan, started) = of_a_real_plan(&catalogue);
    let session = run(started, &[work(8)]);
    let (resting, rested) = (at(10), at(2_000));
    let rest = session.remaining_s(resting);
    assert!(rest > 0);
    let seconds = |now| session.seconds_left(&catalogue, now);
    assert_eq!(seconds(resting), seconds(rested) + rest);
    let minutes = u16::try_from(rest / 60).unwrap();
    let within = session.within(&catalogue, &person(), Some(&plan), minutes, resting);
    assert!(within.hurry.sets.iter().all(|&sets| sets == 0));
}

#[test]
fn partners_share_no_muscle_and_are_alone() {
    let catalogue = Catalogue::built_in();
    let (_, session) = of_a_real_plan(&catalogue);
    let mut offered = 0;
    for item in 0..session.items.len() {
        for other in session.partners_for(&catalogue, item) {
            offered += 1;
            assert!(session.partners_for(&catalogue, other).contains(&item));
            let of = |i: usize| {
                catalogue
                    .get(&session.items[i].prescription.exercise)
                    .unwrap()
            };
            let shared = crate::catalogue::Muscle::ALL.iter().find(|&&muscle| {
                of(item).half_sets_for(muscle) > 0 && of(other).half_sets_for(muscle) > 0
            });
            assert_eq!(shared, None);
            let paired = run(session.clone(), &[Event::Superset { a: item, b: other }]);
            let first = item.min(other);
            assert_eq!(
                paired.items[first].superset,
                paired.items[first + 1].superset
            );
            assert!(paired.partners_for(&catalogue, first).is_empty());
        }
    }
    assert!(offered > 0);
    assert!(session.partners_for(&catalogue, 99).is_empty());
}
