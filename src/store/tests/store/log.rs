//! The log: sessions, index and histories follow from each other.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use std::collections::BTreeSet;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::session::{Session, session_performances};
use weekloom_store::{MemoryShelf, Store, StoreError};

fn log(seed: u64, count: usize) -> Vec<Session> {
    let dice = &mut Dice::new(seed);
    (0..count).map(|_| invent::finished(dice)).collect()
}

fn filled(sessions: &[Session]) -> Store<MemoryShelf> {
    let mut store = empty();
    for session in sessions {
        let changes = store.finish_session(session).unwrap();
        keep(&mut store, changes);
    }
    store
}

/// Nothing is left to do for an index that is right.
fn assert_derived_is_right(store: &Store<MemoryShelf>) {
    assert!(store.rebuild_index().unwrap().is_empty());
}

#[test]
fn finishing_moves_the_session_from_now_into_the_log() {
    let mut store = empty();
    let session = invent::finished(&mut Dice::new(5));
    let changes = store.save_now(&session).unwrap();
    keep(&mut store, changes);
    assert_eq!(store.load_now().unwrap().as_ref(), Some(&session));
    let changes = store.finish_session(&session).unwrap();
    let record = keep(&mut store, changes);
    assert_eq!(store.load_now(), Ok(None));
    assert_eq!(store.sessions(), std::slice::from_ref(&session.id));
    assert_eq!(store.read_session(&session.id), Ok(Some(session)));
    assert!(record.writes.len() > 2, "one record for all of it");
}

#[test]
fn what_was_done_since_a_day_is_read_from_its_sessions() {
    let sessions = log(11, 40);
    let store = filled(&sessions);
    let day = sessions[0].day;
    let mut expected: Vec<_> = sessions.iter().filter(|s| s.day >= day).collect();
    assert!(expected.len() < 40);
    expected.sort_by_key(|s| (s.day, &s.id));
    let expected: Vec<_> = expected
        .into_iter()
        .flat_map(session_performances)
        .collect();
    assert_eq!(store.performances_since(day), expected);
    assert_eq!(store.performances_since(day.plus(10_000)), []);
}

#[test]
fn an_unfinished_session_stays_out_of_the_log() {
    let mut session = invent::finished(&mut Dice::new(5));
    session.phase = weekloom_engine::session::Phase::Active;
    let error = empty().save_session(&session).unwrap_err();
    assert_eq!(error, StoreError::NotFinished(session.id));
}

#[test]
fn index_and_histories_grow_as_if_made_from_all_sessions() {
    let sessions = log(11, 150);
    let store = filled(&sessions);
    assert_derived_is_right(&store);
    let index = store.index();
    assert_eq!(index.sessions, 150);
    assert_eq!(index.recent.len(), 120);
    assert!(index.recent.is_sorted_by_key(|line| line.day));
    let latest = sessions.iter().map(|s| s.day).max().unwrap();
    assert_eq!(index.recent.last().unwrap().day, latest);

    let pull_up = ExerciseId::new("pull-up");
    let history = store.history(&pull_up);
    assert_eq!(history.len(), 6);
    assert!(history.is_sorted_by_key(|p| p.day));
    let mut days: Vec<_> = sessions
        .iter()
        .flat_map(|s| s.items.iter().map(move |i| (s.day, i)))
        .filter(|(_, i)| i.prescription.exercise == pull_up)
        .filter(|(_, i)| i.sets.iter().any(is_work) || i.discomfort.is_some())
        .map(|(day, _)| day)
        .collect();
    days.sort();
    let expected: Vec<_> = days[days.len() - 6..].to_vec();
    assert_eq!(history.iter().map(|p| p.day).collect::<Vec<_>>(), expected);
    assert!(history.iter().flat_map(|p| &p.sets).all(is_work));
}

fn is_work(set: &weekloom_engine::log::SetEntry) -> bool {
    set.kind == weekloom_engine::log::SetKind::Work
}

#[test]
fn amending_and_deleting_keep_the_index_right() {
    let mut sessions = log(12, 40);
    let mut store = filled(&sessions);
    for (i, session) in sessions.iter_mut().enumerate() {
        if i % 2 == 0 {
            for item in &mut session.items {
                item.sets.pop();
            }
            let changes = store.save_session(session).unwrap();
            keep(&mut store, changes);
        } else {
            let changes = store.delete_session(&session.id).unwrap();
            keep(&mut store, changes);
        }
        assert_derived_is_right(&store);
    }
    let left: BTreeSet<_> = sessions.iter().step_by(2).map(|s| s.id.clone()).collect();
    assert_eq!(store.sessions(), left.into_iter().collect::<Vec<_>>());
    assert_eq!(store.index().sessions, 20);
}

#[test]
fn unknown_exercises_are_kept_by_their_id() {
    let store = filled(&log(13, 60));
    let unknown = ExerciseId::new("a-lift-nobody-knows");
    let history = store.history(&unknown);
    assert!(!history.is_empty());
    assert_eq!(history[0].exercise(), &unknown);
}
