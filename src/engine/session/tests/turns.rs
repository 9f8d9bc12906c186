//! Order, supersets, rests that follow effort, and clocks that jump.

use super::*;

fn order(session: &Session) -> Vec<&str> {
    let items = session.items.iter();
    items
        .map(|item| item.prescription.exercise.as_str())
        .collect()
}

fn up(session: &Session) -> &str {
    session.items[session.current.unwrap()]
        .prescription
        .exercise
        .as_str()
}

#[test]
fn moving_changes_the_order_and_not_what_is_up() {
    // From, to, the order, what is up.
    let rows = [
        (0, 3, ["bench-press", "row", "plank", "squat"]),
        (0, 1, ["bench-press", "squat", "row", "plank"]),
        (3, 0, ["plank", "squat", "bench-press", "row"]),
        (2, 1, ["squat", "row", "bench-press", "plank"]),
    ];
    for (item, to, expected) in rows {
        let moved = run(resting(), &[Event::Move { item, to }]);
        assert_eq!(order(&moved), expected);
        assert_eq!(up(&moved), "squat");
        assert!(moved.is_resting(at(20)));
    }
}

#[test]
fn later_is_behind_what_is_next() {
    // Squats are up: the superset comes first, and is not parted.
    let later = run(resting(), &[Event::Later { item: 0 }]);
    assert_eq!(order(&later), ["bench-press", "row", "squat", "plank"]);
    assert_eq!(up(&later), "bench-press");
    assert!(
        later.is_resting(at(20)),
        "the rest after the last set goes on"
    );
    assert_eq!(later.items[2].work_sets_done(), 1, "what was done stays");
    // It comes up once the superset is done.
    let then = run(later, &vec![work(8); 4]);
    assert_eq!(up(&then), "squat");
    // And again: behind the plank.
    let again = run(then, &[Event::Later { item: 2 }]);
    assert_eq!(order(&again), ["bench-press", "row", "plank", "squat"]);
    assert_eq!(up(&again), "plank");
    // The last one of the order gives way to one that was passed over.
    let last = run(
        planned(),
        &[
            Event::Start,
            Event::Focus { item: 3 },
            Event::Later { item: 3 },
        ],
    );
    assert_eq!(order(&last), ["squat", "bench-press", "row", "plank"]);
    assert_eq!(up(&last), "squat");
}

#[test]
fn a_superset_goes_later_as_a_whole() {
    let session = run(planned(), &[Event::Start, Event::Focus { item: 1 }]);
    for item in [1, 2] {
        let later = run(session.clone(), &[Event::Later { item }]);
        assert_eq!(order(&later), ["squat", "plank", "bench-press", "row"]);
        assert_eq!(up(&later), "plank");
        assert_eq!(later.items[2].superset, later.items[3].superset);
    }
    // One that is not up goes later without a change of what is.
    let session = run(planned(), &[Event::Start, Event::Later { item: 2 }]);
    assert_eq!(order(&session), ["squat", "plank", "bench-press", "row"]);
    assert_eq!(up(&session), "squat");
}

#[test]
fn paired_exercises_stand_together() {
    let session = run(resting(), &[Event::Superset { a: 0, b: 3 }]);
    assert_eq!(order(&session), ["squat", "plank", "bench-press", "row"]);
    let session = run(planned(), &[Event::Superset { a: 3, b: 1 }]);
    assert_eq!(order(&session), ["squat", "bench-press", "row", "plank"]);
    let groups: Vec<_> = session.items.iter().map(|item| item.superset).collect();
    assert_eq!(groups, [None, Some(7), Some(7), Some(7)]);
}

/// Paired half-way through, they still alternate: a set of each, then the
/// longest rest of the two.
#[test]
fn partners_alternate_wherever_they_were_paired() {
    let mut session = run(
        planned(),
        &[
            Event::SetSets { item: 0, sets: 4 },
            Event::SetSets { item: 3, sets: 3 },
            Event::SetRest {
                item: 3,
                seconds: 60,
            },
            Event::Start,
            work(8),
            Event::Superset { a: 0, b: 3 },
        ],
    );
    let expected = [
        ("plank", 20),
        ("squat", 120),
        ("plank", 20),
        ("squat", 120),
        ("plank", 20),
        ("bench-press", 60),
    ];
    // The first set of squats began the round, so the plank's turn is next to
    // come: the person goes on with squats, and a new round begins.
    for (n, (next, rest)) in (1..).zip(expected) {
        let now = at(1_000 * n);
        assert_eq!(session.next_up().map(|i| order(&session)[i]), Some(next));
        session = session.apply(&work(8), now).unwrap();
        assert_eq!(
            (up(&session), session.remaining_s(now)),
            (next, rest),
            "set {n}"
        );
    }
}

#[test]
fn the_second_partner_may_begin() {
    let mut session = run(planned(), &[Event::Start, Event::Focus { item: 2 }]);
    let expected = [
        ("bench-press", 20),
        ("row", 120),
        ("bench-press", 20),
        ("plank", 120),
    ];
    for (n, (next, rest)) in (1..).zip(expected) {
        let now = at(1_000 * n);
        session = session.apply(&work(8), now).unwrap();
        assert_eq!(
            (up(&session), session.remaining_s(now)),
            (next, rest),
            "set {n}"
        );
    }
    // Undone, the round stands where it stood.
    let undone = run(session, &[Event::UndoLast, work(8)]);
    assert_eq!(up(&undone), "plank");
}

#[test]
fn unpaired_they_go_on_alone() {
    let session = run(
        planned(),
        &[
            Event::Start,
            Event::Focus { item: 1 },
            work(8),
            Event::Unpair { item: 1 },
        ],
    );
    assert_eq!(up(&session), "row");
    assert_eq!(session.items[2].superset, None, "one alone is no superset");
    let session = run(session, &[work(8)]);
    assert_eq!(up(&session), "row");
}

/// Reps left meant: two. Reps meant: six to ten.
#[test]
fn a_set_harder_than_meant_rests_longer() {
    let rows = [
        (8, Some(2), 120),
        (8, Some(4), 120),
        (8, Some(1), 150),
        (8, Some(0), 180),
        // Short of the range: one rep harder, unless the effort is known.
        (5, None, 150),
        (5, Some(2), 120),
        (6, None, 120),
    ];
    for (count, rir, rest) in rows {
        let set = Event::LogSet {
            load: Load::kg(60),
            count,
            rir,
            kind: SetKind::Work,
        };
        let session = run(planned(), &[Event::Start, set]);
        assert_eq!(
            session.remaining_s(at(20)),
            rest,
            "{count} reps, {rir:?} left"
        );
        assert_eq!(u32::from(session.longer_rest_s()), rest - 120);
    }
    let most = SetEntry {
        kind: SetKind::Work,
        load: Load::kg(60),
        count: 8,
        rir: Some(0),
        at: T0,
    };
    let asked = Prescription {
        rir: 5,
        ..asked("squat", 2)
    };
    assert_eq!(harder_rest_s(&most, &asked), MOST_HARDER_REST_S);
}

/// The change of places stays short; the rest after the round is longer.
#[test]
fn in_a_superset_the_hard_set_counts_after_the_round() {
    let hard = Event::LogSet {
        load: Load::kg(60),
        count: 8,
        rir: Some(0),
        kind: SetKind::Work,
    };
    let session = run(
        planned(),
        &[Event::Start, Event::Focus { item: 1 }, hard.clone()],
    );
    assert_eq!(session.remaining_s(at(30)), u32::from(TRANSITION_S));
    let session = run(session, &[hard]);
    assert_eq!(session.remaining_s(at(10)), 180);
}

#[test]
fn a_rest_of_another_length_counts_from_the_next_set_on() {
    let rest = Event::SetRest {
        item: 0,
        seconds: 45,
    };
    let session = run(resting(), &[rest]);
    assert_eq!(session.remaining_s(at(10)), 120, "the one that runs stays");
    let session = session.apply(&work(8), at(500)).unwrap();
    assert_eq!(session.remaining_s(at(500)), 45);
}

/// The wall clock set back or forth by an hour, as at the turn to and from
/// daylight saving on a phone that keeps local time, or by a day: in a rest and
/// in a pause.
#[test]
fn clocks_that_jump() {
    let hour = 3_600;
    for jump in [-24 * hour, -hour, -60, 60, hour, 24 * hour] {
        // Ten seconds into a rest of two minutes that began at 20 s.
        let now = at(30 + jump);
        let session = resting();
        let session = session.reclocked(now).unwrap_or(session);
        let left = session.remaining_s(now);
        // Back: it starts over. Forth: a phone that slept looks the same, so
        // what ran out is over; it is never longer than what was asked.
        let expected = match jump {
            ..0 => 120,
            60 => 50,
            _ => 0,
        };
        assert_eq!(left, expected, "{jump} s");
        // However it jumps, the next set is logged after the one before.
        let then = session.apply(&work(8), now).unwrap();
        let sets = &then.items[0].sets;
        assert!(sets[0].at < sets[1].at, "{jump} s");
        assert_eq!(then.last_set(), Some((0, 1)));
        // It rests as long as ever, and may be ended.
        assert_eq!(then.remaining_s(now), 120, "{jump} s");
        let over = then.apply(&Event::Finish, now).unwrap();
        let Phase::Finished { at: end } = over.phase else {
            panic!("finished");
        };
        assert!(end >= sets[1].at);

        let paused = run(resting(), &[Event::Pause]);
        let on = paused.apply(&Event::Resume, at(10 + jump)).unwrap();
        assert_eq!(i64::from(on.paused_s), jump.max(0), "{jump} s");
        assert_eq!(on.phase, Phase::Active);
    }
}
