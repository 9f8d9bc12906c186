//! What is read of logs, the picture of the year, blocks and what is taken.

use super::*;
use crate::calendar::{Moment, Weekday};
use crate::log::{SetEntry, SetKind};
use crate::plan::tests::person;
use crate::plan::{Plan, plan_week};
use crate::schedule::Repairs;
use crate::session::{Phase, SessionItem};
use crate::units::Load;

fn day(n: i32) -> Day {
    Day::from_ymd(2026, 1, 5).expect("a Monday").plus(n)
}

/// A finished session of one exercise: kilograms, reps and reps left by set.
fn session(n: i32, id: &str, sets: &[(u16, u16, Option<u8>)], rest_s: i64) -> Session {
    let mut session = Session::free(&format!("{n:04}"), day(n));
    let mut at = Moment(i64::from(day(n).epoch_days()) * 86_400_000);
    session.started = Some(at);
    let asked = crate::plan::Prescription {
        exercise: ExerciseId::new(id),
        sets: 3,
        reps: (5, 8),
        rir: 2,
        rest_s: 180,
    };
    let mut item = SessionItem::new(1, asked);
    for &(kilograms, count, rir) in sets {
        at = at.plus_seconds(rest_s);
        item.sets.push(SetEntry {
            kind: SetKind::Work,
            load: Load::kg(kilograms),
            count,
            rir,
            at,
        });
    }
    session.items.push(item);
    session.phase = Phase::Finished { at };
    session
}

fn reviewed(sessions: &[Session], planned: Option<Planned<'_>>, today: Day) -> Review {
    let catalogue = Catalogue::built_in();
    review(&Logs {
        catalogue: &catalogue,
        person: &person(),
        sessions,
        weights: &Weights::new(),
        is_whole: false,
        planned,
        from: day(0),
        today,
    })
}

fn verdict(loads: &[u16], id: &str) -> Judgement {
    let sessions: Vec<Session> = loads
        .iter()
        .zip(0..)
        .map(|(&load, n)| session(n * 4, id, &[(load, 5, Some(2)); 3], 200))
        .collect();
    reviewed(&sessions, None, day(60)).series[0].judgement
}

/// A day alone scatters more than a mean: 1.96 * 5.8 % * sqrt(1/3 + 1) against
/// 1.96 * 5.8 % * sqrt(2/3) with nine days.
#[test]
fn one_day_must_differ_by_more_than_a_mean() {
    let loads = [60, 60, 60, 62, 62, 62, 80, 80, 80];
    let found = verdict(&loads, "barbell-row");
    let third = found.days / 3;
    let away = |days: f64| (1.959_964 * 58.0 * (1.0 / third as f64 + 1.0 / days).sqrt()).round();
    assert_eq!(found.detectable as f64, away(third as f64));
    assert_eq!(found.detectable_in_a_day as f64, away(1.0));
    assert!(found.detectable_in_a_day > found.detectable);
}

/// The smallest difference of three tests on each side is 9.3 % (2.77 x 5.8 % over
/// the root of three; Grgic et al. 2020, Sports Med Open 6:31).
#[test]
fn a_level_rose_only_beyond_the_scatter() {
    let bench = "barbell-bench-press";
    let up = |to| [100, 100, 100, 100, 100, 100, to, to, to];
    let rows = [
        (up(110), Verdict::Rose),
        (up(109), Verdict::Unclear),
        (up(102), Verdict::Still),
        (up(98), Verdict::Still),
        (up(90), Verdict::Fell),
    ];
    for (loads, expected) in rows {
        let found = verdict(&loads, bench);
        assert_eq!(found.verdict, expected, "{loads:?}");
        assert_eq!(found.detectable, 93);
    }
    assert_eq!(verdict(&[100; 5], bench).verdict, Verdict::Thin);
    assert_eq!(verdict(&[100; 7], bench).verdict, Verdict::Thin);
    assert_eq!(verdict(&[0; 9], "plank").verdict, Verdict::Unmeasured);
}

/// Reps at the same load scatter by 1.1 (Mitter et al. 2022, PLoS ONE
/// 17(5):e0268074): three days on each side show 1.8 reps.
#[test]
fn reps_of_the_body_alone_are_judged_by_their_own_scatter() {
    let of = |later: u16| {
        let sessions: Vec<Session> = (0..9)
            .map(|n| {
                let count = if n < 6 { 10 } else { later };
                session(n * 4, "push-up", &[(0, count, None)], 200)
            })
            .collect();
        reviewed(&sessions, None, day(60)).series[0].judgement
    };
    assert_eq!(of(12).verdict, Verdict::Rose);
    assert_eq!(of(11).verdict, Verdict::Unclear);
    assert_eq!(of(10).verdict, Verdict::Still);
}

#[test]
fn a_slip_of_the_pen_is_neither_best_nor_level() {
    let mut loads = [100; 9];
    loads[7] = 1000;
    let mut sessions: Vec<Session> = loads
        .iter()
        .zip(0..)
        .map(|(&load, n)| {
            let sets = [(100, 5, Some(2)), (load, 5, Some(2))];
            session(n * 4, "barbell-bench-press", &sets, 200)
        })
        .collect();
    sessions[8].items[0].sets[0].count = 7;
    let found = reviewed(&sessions, None, day(60));
    let series = &found.series[0];
    assert_eq!(series.judgement.verdict, Verdict::Still);
    let bests: Vec<_> = series.bests.iter().map(|b| (b.count, b.load)).collect();
    assert_eq!(bests, [(7, Load::kg(100))]);
}

#[test]
fn bests_are_those_that_nothing_outdoes() {
    let sets = [
        (100, 5, Some(0)),
        (100, 3, Some(0)),
        (110, 2, None),
        (80, 12, None),
        (80, 5, None),
    ];
    let found = reviewed(&[session(0, "back-squat", &sets, 200)], None, day(60));
    let bests = found.series[0].bests.iter();
    let bests: Vec<_> = bests.map(|b| (b.count, b.load)).collect();
    let kg = Load::kg;
    assert_eq!(bests, [(2, kg(110)), (5, kg(100)), (12, kg(80))]);
}

/// Sets logged 100 s apart with five reps of 3 s or so leave about 85 s; logged
/// all at once they tell nothing of the rest.
#[test]
fn rest_is_what_lies_between_the_sets() {
    let rest = |seconds| {
        let sets = [(100, 5, Some(2)); 3];
        let sessions = [session(0, "barbell-bench-press", &sets, seconds)];
        reviewed(&sessions, None, day(60)).series[0].done[0].rest
    };
    let (taken, asked) = rest(100).expect("times");
    assert!((80..=90).contains(&taken), "{taken}");
    assert_eq!(asked, 180);
    assert_eq!(rest(0), None);
    assert_eq!(rest(2_000), None);
}

fn planned<'a>(plan: &'a Plan, weekdays: &'a [Weekday], repairs: &'a Repairs) -> Planned<'a> {
    Planned {
        plan,
        accepted: day(0),
        weekdays,
        repairs,
    }
}

#[test]
fn weeks_count_what_was_done_and_what_was_planned() {
    let catalogue = Catalogue::built_in();
    let (person, repairs) = (person(), Repairs::default());
    let plan = plan_week(&catalogue, &person).expect("a plan");
    let sets = [(100, 5, Some(2)); 3];
    // Monday and Wednesday of the first week, Monday of the second.
    let sessions: Vec<Session> = [0, 2, 7]
        .map(|n| session(n, "barbell-bench-press", &sets, 200))
        .into();
    let found = reviewed(
        &sessions,
        Some(planned(&plan, &person.days, &repairs)),
        day(9),
    );
    let told: Vec<_> = found
        .weeks
        .iter()
        .map(|w| (w.sessions, w.planned, w.sets, w.is_open))
        .collect();
    // Today's session is not missed yet.
    assert_eq!(told, [(2, Some(3), 6, false), (1, Some(1), 3, true)]);
    assert_eq!(found.adherence, Some((3, 4)));
    assert_eq!(found.weeks[0].muscles.get(&Muscle::Chest), Some(&12));
    assert_eq!(found.weeks[0].muscles.get(&Muscle::Triceps), Some(&6));
    assert_eq!(average_sets(&found.weeks, Muscle::Chest), Some(12));
    assert!(found.is_thin);
    let rows = cloth(
        &[(day(0), 3, false), (day(2), 3, true), (day(7), 3, false)],
        Some(&planned(&plan, &person.days, &repairs)),
        day(3),
        day(9),
    );
    assert_eq!(rows.len(), 2);
    assert_eq!((rows[0].sets, rows[0].sessions), (6, 2));
    let missed: Vec<bool> = rows[0].days.iter().map(|cell| cell.is_missed).collect();
    assert_eq!(missed, [false, false, false, false, true, false, false]);
    assert!(rows[0].days[2].is_deload && !rows[1].days[2].is_missed);
}

/// Before the plan and in a lighter week the sessions say what was planned; from
/// then on the plan does, less its pauses.
#[test]
fn what_was_planned_for_a_week_is_what_held_then() {
    let catalogue = Catalogue::built_in();
    let (person, mut repairs) = (person(), Repairs::default());
    let plan = plan_week(&catalogue, &person).expect("a plan");
    let sets = [(100, 5, Some(2)); 2];
    let mut sessions: Vec<Session> = [1, 7, 14, 21]
        .map(|n| session(n, "barbell-bench-press", &sets, 200))
        .into();
    sessions[2].is_deload = true;
    // Away on the second of three days of the fourth week.
    repairs.pause = Some(crate::schedule::Pause {
        from: day(22),
        resume: day(24),
    });
    let planned = Planned {
        accepted: day(3),
        ..planned(&plan, &person.days, &repairs)
    };
    let weeks = read_weeks(&catalogue, &sessions, Some(&planned), day(0), day(25));
    let chest: Vec<_> = weeks
        .iter()
        .map(|week| week.aims.get(&Muscle::Chest).copied())
        .collect();
    let whole = planned_sets(&catalogue, &planned)
        .get(&Muscle::Chest)
        .copied()
        .expect("chest");
    // Three sets asked for, two done.
    assert_eq!(weeks[0].muscles.get(&Muscle::Chest), Some(&4));
    assert_eq!(chest, [Some(6), Some(whole), Some(6), Some(whole * 2 / 3)]);
}

#[test]
fn a_painful_exercise_is_stepped_down_and_never_given_more() {
    let catalogue = Catalogue::built_in();
    let person = person();
    let plan = plan_week(&catalogue, &person).expect("a plan");
    let item = plan.days[0].items[0].clone();
    let id = item.prescription.exercise.clone();
    let repairs = Repairs::default();
    let mut sessions: Vec<Session> = (0..16)
        .map(|n| session(n * 3, id.as_str(), &[(60, 6, Some(2)); 3], 60))
        .collect();
    sessions[9].items[0].discomfort = Some(crate::log::Discomfort::Painful);
    let found = reviewed(
        &sessions,
        Some(planned(&plan, &person.days, &repairs)),
        day(50),
    );
    assert!(matches!(
        found.findings[0],
        Finding::Hurt { painful: 1, .. }
    ));
    let proposed = propose(&catalogue, &person, &plan, &found);
    for proposed in &proposed {
        match &proposed.change {
            Change::Sets {
                exercise, from, to, ..
            } => assert!(*exercise != id || to < from),
            Change::Earlier { exercise, .. } => assert_ne!(*exercise, id),
            _ => {}
        }
    }
    // Seven weeks and the Tuesday after: a lighter week is due.
    let is_due = |p: &Proposed| p.change == Change::LighterWeek;
    assert!(proposed.iter().any(is_due), "{proposed:?}");
    let swaps = |p: &&Proposed| matches!(&p.change, Change::Swap { from, .. } if *from == id);
    let swap = proposed.iter().find(swaps).expect("an exchange");
    assert!(swap.is_on);
    let taken = take(
        &catalogue,
        &person,
        &plan,
        std::slice::from_ref(&swap.change),
    )
    .expect("a plan");
    let there = taken.plan.find(item.key).expect("the item").1;
    assert_ne!(there.prescription.exercise, id);
    assert_eq!(there.prescription.sets, item.prescription.sets);
}

#[test]
fn a_block_is_laid_out_with_its_lighter_week_last() {
    let block = Block::usual(day(0), 6);
    let weeks = block.lay_out(day(37));
    assert_eq!(weeks.len(), 6);
    assert!(weeks[5].is_lighter && weeks[5].is_now && !weeks[4].is_lighter);
    assert_eq!((weeks[5].from, weeks[5].until), (day(35), day(41)));
    assert_eq!(block.lighter_until(day(34)), None);
    assert_eq!(block.lighter_until(day(35)), Some(day(41)));
    assert_eq!(block.lighter_until(day(42)), None);
    assert_eq!(block.week_of(day(-1)), None);
    assert_eq!(Block::usual(day(0), 4).lighter, None);
}

#[test]
fn where_the_body_is_lifted_its_weight_belongs_to_the_level() {
    let catalogue = Catalogue::built_in();
    let weights = |list: &[(i32, u16)]| {
        let pairs = list.iter().map(|&(n, kg)| (day(n), Load::kg(kg)));
        pairs.collect::<Weights>()
    };
    let read = |id: &str, load: u16, weights: &Weights| {
        let sessions: Vec<Session> = (0..10)
            .map(|n| session(n * 4, id, &[(load, 5, Some(0)); 3], 200))
            .collect();
        read_series(&catalogue, &sessions, weights, false).remove(0)
    };
    let (added, helped) = ("loaded-chin-up", "assisted-dip");

    // Not told: reps at the load.
    let unknown = read(added, 10, &Weights::new());
    assert_eq!(unknown.level, Level::Reps);
    assert!(unknown.values().iter().all(|value| value.1 == 5));

    // 80 kg and 10 kg five times is as good as 90 kg five times.
    let told = read(added, 10, &weights(&[(0, 80)]));
    assert_eq!(told.level, Level::WholeOneRm);
    let whole = crate::estimate::estimate(Load::kg(90), 5, Some(0)).expect("in range");
    assert!(told.values().iter().all(|v| v.1 == whole.value.grams()));

    // 20 kg of help leave 60 kg; help beyond the body leaves nothing to tell.
    let told = read(helped, 20, &weights(&[(0, 80)]));
    let whole = crate::estimate::estimate(Load::kg(60), 5, Some(0)).expect("in range");
    assert!(told.values().iter().all(|v| v.1 == whole.value.grams()));
    assert!(read(helped, 90, &weights(&[(0, 80)])).values().is_empty());

    // The nearest weighing stands, and none for long.
    let known = weights(&[(0, 80), (40, 84)]);
    assert_eq!(weight_on(&known, day(20)), Some(Load::kg(80)));
    assert_eq!(weight_on(&known, day(21)), Some(Load::kg(84)));
    assert_eq!(weight_on(&known, day(40 + STANDS_DAYS)), Some(Load::kg(84)));
    assert_eq!(weight_on(&known, day(41 + STANDS_DAYS)), None);
    // Known on less than half of the days: reps again.
    assert_eq!(read(added, 10, &weights(&[(-35, 80)])).level, Level::Reps);
    // A part of the body stays on the floor.
    assert_eq!(read("loaded-push-up", 10, &known).level, Level::Reps);
    // The bar is lifted without the body.
    assert_eq!(read("back-squat", 60, &known).level, Level::OneRm);
}
