//! The demonstration's logs are lawful logs.

use std::collections::BTreeMap;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::load::Ladder;
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::session::{ItemState, Session};
use weekloom_store::demo::{Crew, changes};
use weekloom_store::{MemoryShelf, Space, Store};

fn today() -> Day {
    Day::parse("2026-11-25").unwrap()
}

fn store_of(member: Crew) -> Store<MemoryShelf> {
    store_on(member, today())
}

fn store_on(member: Crew, today: Day) -> Store<MemoryShelf> {
    let catalogue = Catalogue::built_in();
    let mut store = Store::open(MemoryShelf::new(), Space::Demo, vec![]).0;
    let changes = changes(&store, &catalogue, member, today).unwrap();
    crate::keep(&mut store, changes);
    store
}

fn sessions(store: &Store<MemoryShelf>) -> Vec<Session> {
    let read = |id: &String| store.read_session(id).unwrap().unwrap();
    store.sessions().iter().map(read).collect()
}

#[test]
fn twelve_weeks_end_the_day_before_today() {
    let every = |n| Crew::ALL.map(|member| (member, today().plus(n)));
    for (member, today) in (0..7).flat_map(every) {
        let store = store_on(member, today);
        let person = store.load_person().unwrap().unwrap();
        let plan = store.load_plan().unwrap().unwrap();
        let sessions = sessions(&store);
        let title = member.title();
        let most = 12 * person.days.len();
        assert!(
            sessions.len() < most,
            "{title}: a storm keeps somebody away"
        );
        assert!(
            sessions.len() * 10 >= most * 7,
            "{title}: {} of {most}",
            sessions.len()
        );
        for session in &sessions {
            assert!(session.is_finished());
            assert!(person.days.contains(&session.day.weekday()));
            assert!((plan.accepted..today).contains(&session.day));
        }
        assert!(sessions.iter().any(|s| s.is_deload), "{title}");
        assert!(store.rebuild_index().unwrap().is_empty(), "{title}");
        assert_eq!(store.check_all(), [], "{title}");
    }
}

#[test]
fn the_same_day_gives_the_same_logs() {
    for member in Crew::ALL {
        assert_eq!(store_of(member).shelf(), store_of(member).shelf());
    }
}

#[test]
fn loads_are_the_kits_and_lifters_get_stronger() {
    let catalogue = Catalogue::built_in();
    for member in Crew::ALL {
        let store = store_of(member);
        let person = store.load_person().unwrap().unwrap();
        let mut bests: BTreeMap<&str, Vec<i64>> = BTreeMap::new();
        let sessions = sessions(&store);
        for item in sessions.iter().flat_map(|s| &s.items) {
            let exercise = catalogue.get(&item.prescription.exercise).unwrap();
            let Some(ladder) = Ladder::of(exercise, &person.kit) else {
                continue;
            };
            let makes = |set: &SetEntry| ladder.makes(set.load);
            assert!(item.sets.iter().all(makes), "{}", exercise.id);
            // Epley 1985, for comparing sets of different reps.
            let estimate = |set: &SetEntry| set.load.grams() * (30 + i64::from(set.count)) / 30;
            // A set that fell short says that the load was too heavy, not how
            // strong the lifter is: one rep at the next rung of a light rack.
            let reached = |set: &&SetEntry| set.count >= item.prescription.reps.0;
            let best = item.work_sets().filter(reached).map(estimate).max();
            bests.entry(exercise.id.as_str()).or_default().extend(best);
        }
        // From the second session on: the first may have been a climb.
        let moved = |way: fn(&i64, &i64) -> bool| {
            let went = |bests: &&Vec<i64>| way(&bests[1], bests.last().unwrap());
            bests.values().filter(went).count()
        };
        let (up, down) = (moved(|a, b| b > a), moved(|a, b| b < a));
        assert!(
            up > 3 * down && up > 4,
            "{}: {up} up, {down} down",
            member.title()
        );
    }
}

/// What the screens have something to show for.
#[test]
fn the_logs_hold_effort_warm_ups_a_sore_shoulder_and_a_cut_session() {
    let sessions = sessions(&store_of(Crew::Observer));
    let items = || sessions.iter().flat_map(|s| &s.items);
    let sets = || items().flat_map(|i| &i.sets);
    assert!(sets().any(|s| s.kind == SetKind::WarmUp));
    assert!(sets().any(|s| s.rir.is_some()) && sets().any(|s| s.rir.is_none()));
    let sore = items().filter(|i| i.discomfort.is_some()).count();
    assert!((1..=4).contains(&sore), "{sore}");
    assert!(items().any(|i| i.state == ItemState::Skipped && !i.note.is_empty()));
}
