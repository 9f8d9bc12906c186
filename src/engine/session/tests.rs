//! Every transition of the session, and that no set is lost.

mod hold;
mod shortage;
mod turns;

use super::*;
use crate::bounds;
use crate::load::WarmUpSet;
use crate::log::SetKind;
use crate::plan::PlanItem;
use crate::plan::split::Focus;

const T0: Moment = Moment(1_790_000_000_000);

fn at(seconds: i64) -> Moment {
    T0.plus_seconds(seconds)
}

fn asked(exercise: &str, sets: u8) -> Prescription {
    Prescription {
        exercise: ExerciseId::new(exercise),
        sets,
        reps: (6, 10),
        rir: 2,
        rest_s: 120,
    }
}

/// Squat 2 sets, bench press and row 2 sets each in turn, plank 1 set.
fn planned() -> Session {
    let item = |key, exercise, sets, superset| PlanItem {
        key,
        prescription: asked(exercise, sets),
        superset,
        reasons: Vec::new(),
    };
    let day = PlanDay {
        focus: Focus::FullBody,
        items: vec![
            item(1, "squat", 2, None),
            item(2, "bench-press", 2, Some(7)),
            item(3, "row", 2, Some(7)),
            item(4, "plank", 1, None),
        ],
        seconds: 3_000,
    };
    let today = Day::from_ymd(2026, 11, 25).unwrap();
    Session::plan("a", today, 0, false, &day)
}

fn work(count: u16) -> Event {
    Event::LogSet {
        load: Load::kg(60),
        count,
        rir: Some(2),
        kind: SetKind::Work,
    }
}

fn forgotten(item: usize) -> Event {
    Event::AddSet {
        item,
        load: Load::kg(55),
        count: 7,
        rir: None,
    }
}

/// A set that was not logged in its time has no moment of its own, so nobody takes
/// what lies between for a rest; and there are never more sets than may be.
#[test]
fn a_forgotten_set_is_put_behind_the_others() {
    let before = finished();
    let after = run(before.clone(), &[forgotten(0)]);
    let [first, added] = after.items[0].sets[..] else {
        panic!("two sets");
    };
    assert_eq!(
        (added.load, added.count, added.rir),
        (Load::kg(55), 7, None)
    );
    assert_eq!((added.at, added.kind), (first.at, SetKind::Work));
    assert_eq!(after.phase, before.phase);
    // Nothing was done of this one: the session's start.
    let after = run(after, &[forgotten(1)]);
    assert_eq!(Some(after.items[1].sets[0].at), after.started);
    let most = usize::try_from(bounds::SETS.most).expect("a number");
    let full = run(before, &vec![forgotten(1); most]);
    assert!(full.apply(&forgotten(1), at(99)).is_err());
    // Warm-ups take room too.
    let mut warm = run(resting(), &[Event::SkipRest]);
    while let Ok(next) = warm.apply(&warm_up(), at(90)) {
        warm = next;
    }
    let warm = run(warm, &[Event::Finish]);
    let sets = warm.items[0].sets.len();
    assert_eq!(
        warm.apply(&forgotten(0), at(99)),
        Err(Refusal::HasSets { sets })
    );
}

fn warm_up() -> Event {
    Event::LogSet {
        load: Load::kg(30),
        count: 6,
        rir: None,
        kind: SetKind::WarmUp,
    }
}

/// Applies events ten seconds apart; the last one's moment is `at(10 * n)`.
fn run(mut session: Session, events: &[Event]) -> Session {
    for (n, event) in (1..).zip(events) {
        session = session
            .apply(event, at(10 * n))
            .unwrap_or_else(|refusal| panic!("{event:?}: {refusal}"));
    }
    session
}

/// One set of squats done, resting.
fn resting() -> Session {
    run(planned(), &[Event::Start, work(8)])
}

fn active() -> Session {
    run(
        resting(),
        &[
            Event::SkipRest,
            Event::Add {
                prescription: asked("curl", 2),
            },
        ],
    )
}

fn paused() -> Session {
    run(active(), &[Event::Pause])
}

fn finished() -> Session {
    run(active(), &[Event::Finish])
}

/// What a row of the table expects of the phase afterwards.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Then {
    Planned,
    Active,
    Resting,
    Paused,
    Finished,
    No(Refusal),
}

fn outcome(session: &Session, event: &Event, now: Moment) -> Then {
    match session.apply(event, now) {
        Err(refusal) => Then::No(refusal),
        Ok(next) => match next.phase {
            Phase::Planned => Then::Planned,
            Phase::Active => Then::Active,
            Phase::Resting { .. } => Then::Resting,
            Phase::Paused { .. } => Then::Paused,
            Phase::Finished { .. } => Then::Finished,
        },
    }
}

/// Every event in every phase: the phase after it, or the refusal.
#[test]
#[expect(clippy::too_many_lines, reason = "one row for every event")]
fn transition_table() {
    use Refusal as R;
    use Then::{Active, Finished, No, Paused, Planned, Resting};
    let target = Target {
        load: Some(Load::kg(60)),
        count: 8,
        rir: 2,
    };
    let amend = Event::AmendSet {
        item: 0,
        set: 0,
        load: Load::kg(55),
        count: 9,
        rir: None,
        kind: SetKind::Work,
    };
    let no_set = No(R::NoSuchSet { set: 0, sets: 0 });
    let no_item = No(R::NoSuchItem { item: 4, items: 4 });
    // event, then planned, active, resting, paused, finished. The active,
    // paused and finished sessions hold a fifth exercise added today.
    let rows: Vec<(Event, [Then; 5])> = vec![
        (
            Event::Start,
            [
                Active,
                No(R::AlreadyStarted),
                No(R::AlreadyStarted),
                No(R::AlreadyStarted),
                No(R::Finished),
            ],
        ),
        (
            Event::SetTarget { item: 3, target },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            work(8),
            [
                No(R::NotStarted),
                Resting,
                Resting,
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (
            warm_up(),
            [
                No(R::NotStarted),
                Active,
                Active,
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (amend, [no_set, Active, Resting, Paused, Finished]),
        (
            Event::RemoveSet { item: 0, set: 0 },
            [no_set, Active, Resting, Paused, Finished],
        ),
        (
            forgotten(0),
            [
                No(R::UnderWay),
                No(R::UnderWay),
                No(R::UnderWay),
                No(R::UnderWay),
                Finished,
            ],
        ),
        (
            Event::UndoLast,
            [No(R::NotStarted), Active, Active, Paused, No(R::Finished)],
        ),
        (
            Event::Focus { item: 3 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Skip { item: 0 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Unskip { item: 0 },
            [
                No(R::NotSkipped),
                No(R::NotSkipped),
                No(R::NotSkipped),
                No(R::NotSkipped),
                No(R::Finished),
            ],
        ),
        (
            Event::Swap {
                item: 0,
                prescription: asked("leg-press", 3),
            },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Add {
                prescription: asked("leg-press", 3),
            },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Remove { item: 4 },
            [no_item, Active, no_item, Paused, No(R::Finished)],
        ),
        (
            Event::SetSets { item: 0, sets: 3 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Move { item: 0, to: 3 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Later { item: 0 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::SetRest {
                item: 0,
                seconds: 90,
            },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Superset { a: 0, b: 3 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Unpair { item: 1 },
            [Planned, Active, Resting, Paused, No(R::Finished)],
        ),
        (
            Event::Discomfort {
                item: 0,
                discomfort: Some(Discomfort::Mild),
            },
            [Planned, Active, Resting, Paused, Finished],
        ),
        (
            Event::Note {
                item: 0,
                text: "left heel lifts".to_owned(),
            },
            [Planned, Active, Resting, Paused, Finished],
        ),
        (
            Event::StartRest { seconds: 60 },
            [
                No(R::NotStarted),
                Resting,
                Resting,
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (
            Event::ChangeRest { delta_s: 30 },
            [
                No(R::NotStarted),
                No(R::NotResting),
                Resting,
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (
            Event::SkipRest,
            [
                No(R::NotStarted),
                No(R::NotResting),
                Active,
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (
            Event::RestOver,
            [
                No(R::NotStarted),
                No(R::NotResting),
                No(R::RestNotOver { remaining_s: 110 }),
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (
            Event::Pause,
            [
                No(R::NotStarted),
                Paused,
                Paused,
                No(R::Paused),
                No(R::Finished),
            ],
        ),
        (
            Event::Resume,
            [
                No(R::NotStarted),
                No(R::NotPaused),
                No(R::NotPaused),
                Active,
                No(R::Finished),
            ],
        ),
        (
            Event::Finish,
            [
                No(R::NotStarted),
                Finished,
                Finished,
                Finished,
                No(R::Finished),
            ],
        ),
    ];
    let sessions = [planned(), active(), resting(), paused(), finished()];
    for (event, expected) in &rows {
        for (session, expected) in sessions.iter().zip(expected) {
            let before = session.clone();
            assert_eq!(
                outcome(session, event, at(30)),
                *expected,
                "{event:?} in {:?}",
                session.phase
            );
            assert_eq!(*session, before);
        }
    }
}

/// Refusals that depend on more than the phase.
#[test]
#[expect(clippy::too_many_lines, reason = "one row for every refusal")]
fn refusal_table() {
    use Refusal as R;
    let note = |chars| Event::Note {
        item: 0,
        text: "ö".repeat(chars),
    };
    let all_done = {
        let mut events = vec![Event::Start];
        events.extend((0..7).map(|_| work(8)));
        run(planned(), &events)
    };
    let out = |bound, value| R::OutOfBounds(bounds::OutOfBounds { bound, value });
    let rows = [
        (
            active(),
            Event::Skip { item: 9 },
            R::NoSuchItem { item: 9, items: 5 },
        ),
        (
            active(),
            Event::RemoveSet { item: 0, set: 1 },
            R::NoSuchSet { set: 1, sets: 1 },
        ),
        (
            active(),
            Event::SetTarget {
                item: 0,
                target: Target {
                    load: None,
                    count: 8,
                    rir: 2,
                },
            },
            R::TargetFixed,
        ),
        (active(), work(0), out(bounds::COUNT, 0)),
        (active(), work(901), out(bounds::COUNT, 901)),
        (
            active(),
            Event::LogSet {
                load: Load::ZERO,
                count: 8,
                rir: Some(11),
                kind: SetKind::Work,
            },
            out(bounds::RIR, 11),
        ),
        (
            active(),
            Event::SetSets { item: 0, sets: 11 },
            out(bounds::SETS, 11),
        ),
        (
            active(),
            Event::StartRest { seconds: 901 },
            out(bounds::REST_S, 901),
        ),
        (
            resting(),
            Event::ChangeRest { delta_s: 900 },
            out(bounds::REST_S, 1_010),
        ),
        (all_done.clone(), work(8), R::NothingUp),
        (
            all_done.clone(),
            Event::StartRest { seconds: 60 },
            R::NothingUp,
        ),
        (all_done, Event::Skip { item: 0 }, R::ItemComplete),
        (
            run(planned(), &[Event::Start]),
            Event::Finish,
            R::NothingLogged,
        ),
        (
            run(planned(), &[Event::Start]),
            Event::UndoLast,
            R::NothingLogged,
        ),
        (
            run(active(), &[Event::Skip { item: 1 }]),
            Event::Skip { item: 1 },
            R::AlreadySkipped,
        ),
        (active(), Event::Focus { item: 0 }, R::AlreadyUp),
        (active(), Event::Remove { item: 0 }, R::NotAddedToday),
        (
            run(active(), &[Event::Focus { item: 4 }, work(8)]),
            Event::Remove { item: 4 },
            R::HasSets { sets: 1 },
        ),
        (
            run(resting(), &[work(8)]),
            Event::SetSets { item: 0, sets: 1 },
            R::BelowDone { done: 2 },
        ),
        (
            active(),
            Event::Swap {
                item: 0,
                prescription: asked("squat", 3),
            },
            R::SameExercise,
        ),
        (active(), Event::Move { item: 1, to: 1 }, R::SamePlace),
        (
            active(),
            Event::Move { item: 1, to: 9 },
            R::NoSuchItem { item: 9, items: 5 },
        ),
        (
            run(active(), &[1, 2, 3, 4].map(|item| Event::Skip { item })),
            Event::Later { item: 0 },
            R::NothingElse,
        ),
        (
            run(resting(), &[work(8)]),
            Event::Later { item: 0 },
            R::ItemComplete,
        ),
        (
            active(),
            Event::SetRest {
                item: 0,
                seconds: 901,
            },
            bounds::REST_S.check(901).unwrap_err().into(),
        ),
        (active(), Event::Superset { a: 1, b: 1 }, R::SameItem),
        (active(), Event::Superset { a: 1, b: 2 }, R::AlreadyPaired),
        (active(), Event::Unpair { item: 0 }, R::NotPaired),
        (active(), note(501), R::NoteTooLong { chars: 501 }),
        (
            active(),
            Event::Add {
                prescription: Prescription {
                    reps: (10, 6),
                    ..asked("curl", 2)
                },
            },
            R::GoalReversed { least: 10, most: 6 },
        ),
    ];
    for (session, event, refusal) in rows {
        assert_eq!(session.apply(&event, at(30)), Err(refusal), "{event:?}");
    }
    assert!(active().apply(&note(500), at(30)).is_ok());
}

#[test]
fn refusals_say_what_to_do() {
    let cases = [
        (
            Refusal::NotStarted,
            "the session has not begun; start it first",
        ),
        (
            Refusal::NoSuchItem { item: 4, items: 4 },
            "exercise 5 does not exist; choose one from 1 to 4",
        ),
        (
            Refusal::RestNotOver { remaining_s: 9 },
            "9 s of rest remain; wait, or skip the rest",
        ),
        (
            bounds::COUNT.check(901).unwrap_err().into(),
            "reps or seconds 901 is not between 1 and 900; enter a value in that range",
        ),
    ];
    for (refusal, words) in cases {
        assert_eq!(refusal.to_string(), words);
    }
}

/// The order of a whole session: current item and rest before its set.
#[test]
fn sets_come_in_order_and_supersets_in_turn() {
    let mut session = planned().apply(&Event::Start, T0).unwrap();
    assert_eq!(session.current, Some(0));
    // The next item and the seconds of rest before it.
    let expected = [
        (Some(0), 120),
        (Some(1), 120),
        // Over to the partner, then the full rest.
        (Some(2), 20),
        (Some(1), 120),
        (Some(2), 20),
        (Some(3), 120),
        (None, 0),
    ];
    for (n, (next, rest)) in (1..).zip(expected) {
        assert_eq!(session.next_up(), next);
        let now = at(100 * n);
        session = session.apply(&work(8), now).unwrap();
        assert_eq!(session.current, next, "after set {n}");
        assert_eq!(session.remaining_s(now), rest, "after set {n}");
    }
    assert_eq!(session.phase, Phase::Active);
    let progress = session.progress();
    assert_eq!((progress.sets_done, progress.sets_left), (7, 0));
    assert_eq!((progress.items_done, progress.items), (4, 4));
    let over = session.apply(&Event::Finish, at(800)).unwrap();
    assert_eq!(over.duration_s(at(5_000)), 800);
}

#[test]
fn a_warm_up_set_leaves_the_exercise_up_without_rest() {
    let session = run(planned(), &[Event::Start, warm_up()]);
    assert_eq!(session.current, Some(0));
    assert_eq!(session.phase, Phase::Active);
    assert_eq!(session.work_sets_done(0), 0);
}

#[test]
fn skipping_moves_on_and_unskipping_comes_back() {
    let session = run(planned(), &[Event::Start, Event::Skip { item: 0 }]);
    assert_eq!(session.current, Some(1));
    let all_skipped = run(session.clone(), &[1, 2, 3].map(|item| Event::Skip { item }));
    assert_eq!(all_skipped.current, None);
    let back = run(all_skipped, &[Event::Unskip { item: 2 }]);
    assert_eq!(back.current, Some(2));
    // The one left out is not taken up again on the way round.
    let rest_of_it = run(session, &(0..5).map(|_| work(8)).collect::<Vec<_>>());
    assert_eq!(rest_of_it.current, None);
}

#[test]
fn the_person_may_take_any_exercise_first() {
    let session = run(planned(), &[Event::Focus { item: 3 }, Event::Start]);
    assert_eq!(session.current, Some(3));
    // What was passed over comes round again.
    let session = run(session, &[work(30)]);
    assert_eq!(session.current, Some(0));
}

#[test]
fn a_further_set_of_a_done_exercise() {
    let session = run(resting(), &[work(8), Event::Focus { item: 0 }, work(7)]);
    assert_eq!(session.work_sets_done(0), 3);
    assert_eq!(session.current, Some(1));
}

#[test]
fn undo_brings_back_the_exercise_of_the_last_set() {
    let done = run(resting(), &[work(8)]);
    assert_eq!(done.current, Some(1));
    let undone = run(done, &[Event::UndoLast]);
    assert_eq!(undone.current, Some(0));
    assert_eq!(undone.phase, Phase::Active);
    assert_eq!(undone.work_sets_done(0), 1);
}

#[test]
fn undo_finds_the_last_set_though_the_clock_was_set_back() {
    let mut session = planned().apply(&Event::Start, T0).unwrap();
    for seconds in [600, 700, -3_000] {
        session = session.apply(&work(8), at(seconds)).unwrap();
    }
    assert_eq!(session.last_set(), Some((1, 0)));
    let undone = session.apply(&Event::UndoLast, at(-2_990)).unwrap();
    assert_eq!(undone.work_sets_done(1), 0);
    assert_eq!(undone.work_sets_done(0), 2);
}

#[test]
fn a_swap_keeps_what_was_done() {
    let before = run(
        planned(),
        &[Event::Swap {
            item: 0,
            prescription: asked("leg-press", 3),
        }],
    );
    assert_eq!(before.items.len(), 4);
    assert_eq!(before.items[0].swapped_from, Some(ExerciseId::new("squat")));
    let back = run(
        before,
        &[Event::Swap {
            item: 0,
            prescription: asked("squat", 2),
        }],
    );
    assert_eq!(back.items[0].swapped_from, None);

    let after = run(
        resting(),
        &[Event::Swap {
            item: 0,
            prescription: asked("leg-press", 3),
        }],
    );
    assert_eq!(after.items.len(), 5);
    assert_eq!(after.items[0].work_sets_done(), 1);
    assert_eq!(after.items[0].state, ItemState::Skipped);
    assert_eq!(after.items[1].key, 1_000);
    assert_eq!(after.items[1].swapped_from, Some(ExerciseId::new("squat")));
    assert_eq!(after.current, Some(1));
}

#[test]
fn rest_keeps_its_length_when_the_clock_is_set_back() {
    let session = resting();
    assert_eq!(session.remaining_s(at(20)), 120);
    assert_eq!(session.remaining_s(at(50)), 90);
    assert_eq!(session.remaining_s(at(-7_200)), 120);
    let again = session.reclocked(at(-7_200)).unwrap();
    assert_eq!(again.remaining_s(at(-7_170)), 90);
    assert_eq!(again.reclocked(at(-7_170)), None);
    assert!(!session.is_resting(at(86_400)));
    assert_eq!(
        outcome(&session, &Event::RestOver, at(86_400)),
        Then::Active
    );
}

#[test]
fn rest_changes_by_what_was_asked() {
    let session = resting();
    let change = |delta_s| {
        session
            .apply(&Event::ChangeRest { delta_s }, at(50))
            .unwrap()
    };
    assert_eq!(change(30).remaining_s(at(50)), 120);
    assert_eq!(change(-30).remaining_s(at(50)), 60);
    assert_eq!(change(-90).phase, Phase::Active);
    // The rest ran out while the phone slept: thirty more seconds from now.
    let late = session
        .apply(&Event::ChangeRest { delta_s: 30 }, at(9_000))
        .unwrap();
    assert_eq!(late.remaining_s(at(9_000)), 30);
}

#[test]
fn a_pause_does_not_count() {
    let mut session = planned().apply(&Event::Start, T0).unwrap();
    session = session.apply(&work(8), at(60)).unwrap();
    session = session.apply(&Event::Pause, at(100)).unwrap();
    assert_eq!(session.duration_s(at(5_000)), 100);
    assert_eq!(session.remaining_s(at(101)), 0);
    session = session.apply(&Event::Resume, at(700)).unwrap();
    assert_eq!(session.paused_s, 600);
    assert_eq!(session.duration_s(at(760)), 160);
    session = session.apply(&Event::Pause, at(760)).unwrap();
    let over = session.apply(&Event::Finish, at(960)).unwrap();
    assert_eq!(over.duration_s(at(9_999)), 160);
}

#[test]
fn removing_a_set_puts_its_exercise_up_again() {
    let mut events = vec![Event::Start];
    events.extend((0..7).map(|_| work(8)));
    events.push(Event::RemoveSet { item: 2, set: 0 });
    let session = run(planned(), &events);
    assert_eq!(session.current, Some(2));
}

#[test]
fn performances_carry_work_sets_and_pain() {
    let mut session = run(
        planned(),
        &[
            Event::Start,
            Event::SetTarget {
                item: 0,
                target: Target {
                    load: Some(Load::kg(60)),
                    count: 8,
                    rir: 2,
                },
            },
            warm_up(),
            work(8),
            work(7),
            Event::Discomfort {
                item: 3,
                discomfort: Some(Discomfort::Painful),
            },
            Event::Skip { item: 3 },
            Event::Finish,
        ],
    );
    session.is_deload = true;
    let performances = session_performances(&session);
    assert_eq!(performances.len(), 2);
    let [squat, plank] = &performances[..] else {
        panic!("two performances");
    };
    assert_eq!(squat.sets.len(), 2);
    assert_eq!(squat.suggested, Some(Load::kg(60)));
    assert!(squat.is_deload);
    assert_eq!(plank.exercise().as_str(), "plank");
    assert_eq!(plank.sets, []);
    assert_eq!(plank.discomfort, Some(Discomfort::Painful));
}

mod never_lost {
    use super::*;
    use proptest::prelude::*;
    use proptest::test_runner::RngSeed;

    fn any_kind() -> impl Strategy<Value = SetKind> {
        prop_oneof![Just(SetKind::Work), Just(SetKind::WarmUp)]
    }

    fn any_prescription() -> impl Strategy<Value = Prescription> {
        ("[a-d]", 0_u8..12, 0_u16..1_000).prop_map(|(exercise, sets, rest_s)| Prescription {
            rest_s,
            ..asked(&exercise, sets)
        })
    }

    fn any_event() -> impl Strategy<Value = Event> {
        let item = || 0_usize..7;
        let set = || {
            (
                0_i64..1_000_000,
                0_u16..20,
                proptest::option::of(0_u8..12),
                any_kind(),
            )
        };
        prop_oneof![
            2 => Just(Event::Start),
            12 => set().prop_map(|(grams, count, rir, kind)| Event::LogSet {
                load: Load::clamped(grams), count, rir, kind,
            }),
            2 => (item(), 0_usize..4, set()).prop_map(|(item, set, (grams, count, rir, kind))| {
                Event::AmendSet { item, set, load: Load::clamped(grams), count, rir, kind }
            }),
            1 => (item(), 0_usize..4).prop_map(|(item, set)| Event::RemoveSet { item, set }),
            1 => (item(), 0_u16..40).prop_map(|(item, count)| Event::AddSet {
                item, load: Load::ZERO, count, rir: None,
            }),
            1 => Just(Event::UndoLast),
            1 => (item(), 1_u16..20).prop_map(|(item, count)| Event::SetTarget {
                item,
                target: Target { load: None, count, rir: 2 },
            }),
            2 => item().prop_map(|item| Event::Focus { item }),
            1 => item().prop_map(|item| Event::Skip { item }),
            1 => item().prop_map(|item| Event::Unskip { item }),
            2 => (item(), any_prescription()).prop_map(|(item, prescription)| Event::Swap {
                item, prescription,
            }),
            1 => any_prescription().prop_map(|prescription| Event::Add { prescription }),
            1 => item().prop_map(|item| Event::Remove { item }),
            1 => (item(), 0_u8..12).prop_map(|(item, sets)| Event::SetSets { item, sets }),
            1 => (item(), item()).prop_map(|(a, b)| Event::Superset { a, b }),
            1 => (item(), item()).prop_map(|(item, to)| Event::Move { item, to }),
            1 => item().prop_map(|item| Event::Later { item }),
            1 => (item(), 0_u16..1_000).prop_map(|(item, seconds)| Event::SetRest { item, seconds }),
            1 => item().prop_map(|item| Event::Unpair { item }),
            1 => item().prop_map(|item| Event::Discomfort {
                item, discomfort: Some(Discomfort::Painful),
            }),
            1 => (item(), "[a-z]{0,9}").prop_map(|(item, text)| Event::Note { item, text }),
            1 => (0_u16..1_000).prop_map(|seconds| Event::StartRest { seconds }),
            1 => (-1_000_i32..1_000).prop_map(|delta_s| Event::ChangeRest { delta_s }),
            1 => Just(Event::SkipRest),
            1 => Just(Event::RestOver),
            1 => Just(Event::Pause),
            1 => Just(Event::Resume),
            1 => Just(Event::Finish),
        ]
    }

    fn sets(session: &Session) -> usize {
        session.items.iter().map(|item| item.sets.len()).sum()
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            cases: 1_000,
            rng_seed: RngSeed::Fixed(20_261_125),
            failure_persistence: None,
            ..ProptestConfig::default()
        })]

        /// Whatever happens, in whatever order and with a clock that jumps:
        /// only taking a set back makes sets fewer, and the session stays whole.
        #[test]
        fn only_taking_back_makes_sets_fewer(
            events in proptest::collection::vec((any_event(), -5_000_i64..5_000), 1..80),
        ) {
            let mut session = planned();
            for (event, seconds) in events {
                let now = at(seconds);
                let before = session.clone();
                let Ok(after) = session.apply(&event, now) else { continue };
                let taken_back = matches!(event, Event::RemoveSet { .. } | Event::UndoLast);
                let logged = matches!(event, Event::LogSet { .. } | Event::AddSet { .. });
                let expected = sets(&before) + usize::from(logged) - usize::from(taken_back);
                prop_assert_eq!(sets(&after), expected, "{:?}", event);
                for item in &before.items {
                    let kept = after.items.iter().find(|other| other.key == item.key);
                    if let Some(kept) = kept {
                        prop_assert!(taken_back || kept.sets.len() >= item.sets.len());
                        prop_assert!(item.sets.is_empty()
                            || kept.prescription.exercise == item.prescription.exercise);
                    } else {
                        prop_assert!(item.sets.is_empty());
                    }
                }
                if let Some(at) = after.current {
                    prop_assert!(at < after.items.len());
                    prop_assert_eq!(after.items[at].state, ItemState::Open);
                }
                if let Phase::Resting { since, until } = after.phase {
                    prop_assert!(after.current.is_some());
                    let most = u32::try_from(until.seconds_since(since)).unwrap();
                    prop_assert!(most <= 900);
                    prop_assert!(after.remaining_s(now) <= most);
                }
                if after.is_running() && after.current.is_none() {
                    prop_assert_eq!(after.progress().sets_left, 0);
                }
                let mut keys: Vec<u16> = after.items.iter().map(|item| item.key).collect();
                keys.sort_unstable();
                keys.dedup();
                prop_assert_eq!(keys.len(), after.items.len());
                session = after;
            }
        }
    }
}

#[test]
fn a_step_of_the_climb_is_known_by_its_load_and_reps() {
    let step = |kg, reps| WarmUpSet {
        load: Load::kg(kg),
        reps,
    };
    let session = run(planned(), &[Event::Start, warm_up()]);
    let up = &session.items[0];
    assert_eq!(up.warm_up_done(&step(30, 6)), Some(0));
    assert_eq!(up.warm_up_done(&step(30, 5)), None);
    assert_eq!(up.warm_up_done(&step(60, 6)), None);
    assert_eq!((up.work_sets_done(), session.longer_rest_s()), (0, 0));
    // A work set of the same load and reps is no step of it.
    let worked = run(planned(), &[Event::Start, work(6)]);
    assert_eq!(worked.items[0].warm_up_done(&step(60, 6)), None);
}
